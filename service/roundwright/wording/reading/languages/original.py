"""Places and edits of a rewritten text, in the text as it was written.

An edit that only changes numbers changes those of the original; any other is made of the wordings that the service
writes in that language.
"""

import re
from collections.abc import Iterator
from functools import cache
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.reference.rows import WordingRow
from roundwright.wording.reading.languages.lexicon import Lexicon, lexicon, made_of
from roundwright.wording.reading.languages.rewrite import FOREIGN, Place, Rewritten, rewritten_with

_NUMBERS: Final = re.compile(r"[0-9]+")
_PARTED: Final = re.compile(r", (?![^()]{0,40}\))")
"""Commas that are not of a list of sizes."""
_BELONGS: Final = re.compile(r"\s[^\W\d_]")
"""Words that are put in behind others and belong to them: `3 times` and ` in all`."""
_WORD: Final = re.compile(r"[^\W\d_]+[0-9]?[^\W\d_]*")
_ONE: Final = re.compile(r"1 (?=[^\W\d_])")
_SPLIT: Final = re.compile(r"[^\W_]+|\s+|.", re.DOTALL)


class Change(NamedTuple):
    """Another text in place of that from `start` to `end`."""

    start: int
    end: int
    text: str


def change(text: Rewritten, at: int, stop: int, replacement: str) -> Change | None:
    """An edit of the English text as one of the original; None where English words would be left in it."""
    moved = _worked_once_more(text, at, stop, replacement) or _line_put_in(text, at, stop, replacement)
    if moved is not None:
        return moved
    old = text.text[at:stop]
    if _plain(old) == _plain(replacement) and (moved := _numbers(text, at, stop, replacement)) is not None:
        return moved
    before, behind = _alike(old, replacement)
    moved = _words(text, at + before, stop - behind, replacement[before : len(replacement) - behind])
    english = replacement + text.text[text.units[text.unit(at)].at : text.units[text.unit(stop)].stop]
    left = _words_in(english) & _words_in(moved.text) - _written(text.language)
    return moved if not left or left <= _words_in(text.original) else None


def _words_in(text: str) -> set[str]:
    return set(_WORD.findall(text.lower()))


@cache
def _written(language: str) -> set[str]:
    """The words in which the service prints patterns in a language."""
    return _words_in(" ".join(row.writes or "" for row in reference.wordings(language)))


def _plain(words: str) -> str:
    return _NUMBERS.sub("0", words)


def _alike(old: str, new: str) -> tuple[int, int]:
    """How many characters of the beginnings and of the ends of two texts are the same, in whole words."""
    first, second = _SPLIT.findall(old), _SPLIT.findall(new)
    before = 0
    while before < min(len(first), len(second)) and first[before] == second[before]:
        before += 1
    behind = 0
    while behind < min(len(first), len(second)) - before and first[-1 - behind] == second[-1 - behind]:
        behind += 1
    return sum(map(len, first[:before])), sum(map(len, first[len(first) - behind :]))


def _places(text: Rewritten, at: int, stop: int) -> Iterator[Place]:
    """The numbers of a stretch of the English text that stand in the original as well."""
    for number in range(text.unit(at), min(text.unit(stop) + 1, len(text.units))):
        unit = text.units[number]
        if not unit.same:
            yield from (place for place in unit.places if place.at >= at and place.stop <= stop)
            continue
        shift = unit.start - unit.at
        for found in _NUMBERS.finditer(text.text, max(at, unit.at), min(stop, unit.stop)):
            yield Place(found.start(), found.end(), found.start() + shift, found.end() + shift)


def _numbers(text: Rewritten, at: int, stop: int, replacement: str) -> Change | None:
    """An edit that changes numbers alone; None where one of them does not stand in the original."""
    places = {place.at: place for place in _places(text, at, stop)}
    changes = []
    for old, new in zip(_NUMBERS.finditer(text.text, at, stop), _NUMBERS.finditer(replacement), strict=True):
        if old[0] != new[0]:
            place = places.get(old.start())
            if place is None or place.stop != old.end():
                return None
            printed = text.original[place.start : place.end]
            changes.append(Change(place.start, place.end, _like(printed, new[0], text.language)))
    if not changes:
        return None
    changes.sort()
    start, end = changes[0].start, changes[-1].end
    return Change(start, end, _with(text.original, start, end, changes))


def _like(printed: str, number: str, language: str) -> str:
    """A number in a word, where the one in its place is printed so: `achtmal` for `siebenmal`; else in figures."""
    values = lexicon(language).values
    if printed not in values or int(number) < FEWEST_IN_WORDS:
        return number
    return next((word for word, value in values.items() if value == int(number)), number)


FEWEST_IN_WORDS: Final = 2
"""Smaller numbers have the gender of their noun: `ein`, `eine`."""


def _with(original: str, start: int, end: int, changes: list[Change]) -> str:
    """A stretch of the original with changes made in it."""
    parts = []
    for edit in changes:
        parts += [original[start : edit.start], edit.text]
        start = edit.end
    return "".join([*parts, original[start:end]])


def _words(text: Rewritten, at: int, stop: int, replacement: str) -> Change:
    """An edit of words: of whole wordings, and in the wordings of the language."""
    first, last = text.unit(at), text.unit(max(at, stop - 1))
    unit = text.units[first]
    if at == stop and first and at == unit.at:
        first -= 1  # behind the words before
        unit = text.units[first]
    put_in = at == stop and not _BELONGS.match(replacement)
    if put_in and (unit.same or at == unit.stop):
        start = unit.start + at - unit.at if unit.same else unit.end
        return Change(start, start, worded(text.language, replacement))
    if not unit.same:
        replacement = text.text[unit.at : at] + replacement
    start = unit.start + at - unit.at if unit.same else unit.start
    unit = text.units[last]
    if not unit.same:
        replacement += text.text[stop : unit.stop]
    end = unit.start + stop - unit.at if unit.same else unit.end
    words = text.wordings.get(replacement)
    if words is not None and _ONE.match(text.original, start) and not words[:1].isdigit():
        words = f"1 {words}"  # as the text counts it here: `1 s.s.`, though `s.d. = surjete doble`
    if words is None:
        parts = _PARTED.split(replacement)
        words = ", ".join(text.wordings.get(part) or worded(text.language, part) for part in parts)
    return Change(start, end, words)


def _worked_once_more(text: Rewritten, at: int, stop: int, replacement: str) -> Change | None:
    """Words put in behind the same, worded like those: `, 2 end, 2 ens` behind `3 end, 2 ens, 2 end, 2 ens`."""
    if at != stop or not replacement.startswith(",") or not text.text[:at].endswith(replacement):
        return None
    start, end = text.place(at - len(replacement)), text.place(at)
    return Change(end, end, text.original[start:end])


def _line_put_in(text: Rewritten, at: int, stop: int, replacement: str) -> Change | None:
    """Lines put in that are built like others of the text, with other numbers: worded like those."""
    if at != stop or not replacement.endswith("\n"):
        return None
    lines = []
    for line in replacement.splitlines():
        found = _built_alike(text, at, line)
        if found is None:
            return None
        lines.append(found + "\n")
    start = text.place(at)
    return Change(start, start, "".join(lines))


def _built_alike(text: Rewritten, at: int, line: str) -> str | None:
    """A line of the original with the numbers of another, which is built like it in English.

    Of several the last before `at` that is not the first of its kind, whose ordinal may have an ending of its own:
    `1er tour`, but `3e tour`.
    """
    alike, begin = [], 0
    for whole in text.text.split("\n"):
        english = whole.rstrip()
        if english and _plain(english) == _plain(line.rstrip()):
            number = _NUMBERS.search(english)
            is_first = number is not None and number[0] == "1"
            alike.append((is_first, begin >= at, abs(at - begin), begin, english))
        begin += len(whole) + 1
    for *_, begin, english in sorted(alike):
        start, end = text.place(begin), text.place(begin + len(english))
        if english == line.rstrip():
            return text.original[start:end]
        edit = _numbers(text, begin, begin + len(english), line.rstrip())
        if edit is not None:
            return text.original[start : edit.start] + edit.text + text.original[edit.end : end]
    return None


@cache
def _backward(language: str) -> Lexicon:
    """The English words, with the wording of the language in which the service prints them."""
    rows = [
        WordingRow(
            means=row.writes, reads=(row.means.replace(":th}", "}"),), source=row.source, mark=row.mark
        )
        for row in reference.wordings(language)
        if row.writes and row.kind == "word"
    ]
    endings = WordingRow(means="", reads=("st", "nd", "rd", "th"), kind="ending", source="", mark="C")
    return made_of((*rows, endings))


def worded(language: str, english: str) -> str:
    """English working words in the words of another language; what it has no wording for stays as it is."""
    made = rewritten_with(_backward(language), english, language, 1)
    return made.text.replace(FOREIGN, "")
