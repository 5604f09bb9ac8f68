"""Notes that lines are for some sizes: of the service `(nur Größen 2 und 4)`, of others `Nur M und L:`, `Solo dama`."""

import re
from collections import Counter
from collections.abc import Sequence
from functools import cache
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.language import words_of
from roundwright.wording.reading.languages.lexicon import letters_of_sizes, size_pattern

_SIZES: Final = r"(?:[0-9]{1,2}(?:(?:, |[ \u00a0]\w{1,3}[ \u00a0])[0-9]{1,2}){0,11})"
_NUMBER: Final = re.compile("[0-9]+")
_JOIN: Final = r"(?:,[ ]?|[ ]?[/+&][ ]?|[ ]\w{1,3}[ ])"


class SizeNote(NamedTuple):
    """A note, from `start` to `end` of the text, its English text, and the line it is in, with its number of sizes."""

    start: int
    end: int
    english: str
    sizes: int
    line_start: int
    line_end: int


def size_notes(text: str, language: str, width: int) -> list[SizeNote]:
    """The notes of a text for so many sizes, in order. Takes time in its length."""
    notes = []
    printed = list(_notes(language).finditer(text))
    slashed = Counter(_slashed(language).findall(text))
    slashed.subtract(name for found in printed for name in _slashed(language).findall(found[0]))
    for found in printed:
        names, english = _named(found, language, slashed)
        if found["listed"] and len(names) >= width:
            continue  # `Tailles S, M et L :` are all there are
        english = f"({english})" if found[0].startswith("(") else f"{english[0].upper()}{english[1:]}: "
        line_end = text.find("\n", found.end())
        notes.append(
            SizeNote(
                *found.span(),
                english,
                len(names),
                text.rfind("\n", 0, found.start()) + 1,
                line_end if line_end >= 0 else len(text),
            )
        )
    return notes


def _named(found: re.Match[str], language: str, slashed: Counter[str]) -> tuple[list[str], str]:
    """The sizes that a note names, and its English text; names with a slash stand elsewhere too: `S/M (L/XL)`."""
    persons, letters = _persons(language), _letters(language)
    names = _NUMBER.findall(found[0]) or [
        "/".join(letters.get(name, name) for name in _letter(language).findall(part))
        for part in _parts(found[0], language, slashed)
    ]
    of_persons = names or [
        persons[word.lower()] for word in _WORD.findall(found[0]) if word.lower() in persons
    ]
    listed = of_persons[0] if len(of_persons) == 1 else f"{', '.join(of_persons[:-1])} and {of_persons[-1]}"
    return of_persons, f"size{'s' * (len(names) > 1)} {listed} only" if names else f"{listed} only"


def _parts(note: str, language: str, slashed: Counter[str]) -> list[str]:
    """The names of the sizes in a note, as they are printed."""
    if any(slashed[name] > 0 for name in _slashed(language).findall(note)):
        return _slashed(language).findall(note)
    return _letter(language).findall(note)


def width_at(notes: Sequence[SizeNote], place: int, width: int) -> int:
    """How many sizes a line is for; the notes are those that do not end before it."""
    return notes[0].sizes if notes and notes[0].line_start <= place else width


PERSONS: Final = frozenset(("baby", "child", "teen", "woman", "man"))
"""English words for whom a size is."""
SIZE: Final = "size"
_WORD: Final = re.compile(r"[^\W\d_]+")


@cache
def _persons(language: str) -> dict[str, str]:
    """The words for whom a size is, in small letters, with the English ones."""
    rows = (row for row in reference.wordings(language) if row.kind == "word" and row.means in PERSONS)
    return {read.lower(): row.means for row in rows for read in row.reads if read.isalpha()}


def _reads(language: str, kind: str, means: str = "") -> str:
    """The wordings of rows of a kind, one of which stands here."""
    rows = (
        row for row in reference.wordings(language) if row.kind == kind and (not means or row.means == means)
    )
    reads = {read for row in rows for read in row.reads}
    return "|".join(map(re.escape, sorted(reads, key=len, reverse=True)))


@cache
def _letters(language: str) -> dict[str, str]:
    """The English letters of a size for those of a language."""
    return letters_of_sizes(reference.wordings(language))


@cache
def _letter(language: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![^\W_]){size_pattern(_letters(language))}(?![^\W_])")


@cache
def _slashed(language: str) -> re.Pattern[str]:
    letter = _letter(language).pattern
    return re.compile(rf"{letter}(?:/{letter})*")


@cache
def _notes(language: str) -> re.Pattern[str]:
    words = words_of(language)
    begins = [words.text("sizes.only_line", {}, count).split("{text}")[0] for count in (1, 2)]
    brackets = [words.text("sizes.only", {}, count).strip() for count in (1, 2)]
    lines = "|".join(sorted({_pattern(text) for text in begins}))
    within = "|".join(sorted({_pattern(text) for text in brackets}))
    only, size = _reads(language, "only"), _reads(language, "word", SIZE)
    persons = "|".join(sorted(_persons(language), key=len, reverse=True)) or "(?!)"
    person = rf"(?i:{persons})(?!\w)"
    letters = size_pattern(_letters(language))
    listed_letters = rf"{letters}(?:{_JOIN}{letters}){{0,6}}"
    sizes = rf"(?:{listed_letters}(?!\w)|{person}(?:{_JOIN}{person}){{0,6}})"
    sized = rf"(?:(?i:{size})\.?[ ])?{sizes}"
    alone = rf"[ \t]*(?:(?i:{only})[ ]{sized}|{sized}[ ](?i:{only}))(?:[ ]?:[ ]?|(?=[ \t]*\r?$))"
    listed = rf"[ \t]*(?P<listed>(?i:{size})[ ]{sizes})(?:[ ]?:[ ]?|(?=[ \t]*\r?$))"
    lettered = rf"(?:(?i:{size})\.?[ ])?{listed_letters}"
    bracket = rf"\([ ]?(?:(?i:{only})[ ]{lettered}|{lettered}[ ](?i:{only}))[ ]?\)"
    return re.compile(rf"(?:^(?:{lines}|{alone}|{listed})|{within}|{bracket})", re.MULTILINE)


def _pattern(text: str) -> str:
    return _SIZES.join(map(re.escape, text.split("{sizes}")))
