"""Notes that lines are for some sizes: the service's `(nur Größen 2 und 4)`, others' `Nur M und L:`, `Kun 6-8 år`."""

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
_ROUND: Final = r",[ ](?=[^\W_]{0,9}\.?[ ]?[0-9]{1,3}\S{0,2}[ ]?:)"
"""A comma before the number of a round: `Solo L, V13: ...`."""
_REST_OF_LINE: Final = re.compile(r"[ \t\r]*\n?")
_ROMANS: Final = {"I": "1", "II": "2", "III": "3", "IV": "4", "V": "5", "VI": "6"}
"""Sizes by Roman numbers, behind the word for size: `Nur Gr. II und III:`."""
_ROMAN: Final = re.compile(r"(?<![^\W_])(?:I{1,3}|IV|VI?)(?![^\W_])")
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
        persons = found["persons"] or found["persons_first"]
        if len(names) >= width and (found["listed"] or persons or (found["aged"] and len(names) > 1)):
            continue  # `Tailles S, M et L :` are all there are; `Gorro (para niño)` is what it is
        english = f"({english})" if found[0].startswith("(") else f"{english[0].upper()}{english[1:]}: "
        stands_alone = _REST_OF_LINE.match(text, found.end())  # then it is of the next line
        line_end = text.find("\n", stands_alone.end() if stands_alone else found.end())
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
    if found["aged"]:
        units = _ages(language)
        ages = [
            f"{number} {units[unit.lower()]}" if unit else number
            for number, unit in _age(language).findall(found["aged"])
        ]
        return ages, f"{_enumerated(ages)} only"
    persons, letters = _persons(language), _letters(language)
    romans = [_ROMANS[name] for name in _ROMAN.findall(found[0])]
    names = (
        romans
        or _NUMBER.findall(found[0])
        or [
            "/".join(letters.get(name, name) for name in _letter(language).findall(part))
            for part in _parts(found[0], language, slashed)
        ]
    )
    of_persons = names or [
        persons[word.lower()] for word in _WORD.findall(found[0]) if word.lower() in persons
    ]
    listed = _enumerated(of_persons)
    return of_persons, f"size{'s' * (len(names) > 1)} {listed} only" if names else f"{listed} only"


def _enumerated(names: Sequence[str]) -> str:
    """The names as English lists them."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _parts(note: str, language: str, slashed: Counter[str]) -> list[str]:
    """The names of the sizes in a note, as they are printed."""
    if any(slashed[name] > 0 for name in _slashed(language).findall(note)):
        return _slashed(language).findall(note)
    return _letter(language).findall(note)


def width_at(notes: Sequence[SizeNote], place: int, width: int) -> int:
    """How many sizes a line is for; the notes are those that do not end before it."""
    return notes[0].sizes if notes and notes[0].line_start <= place else width


PERSONS: Final = frozenset(("baby", "child", "teen", "adult", "woman", "man"))
"""English words for whom a size is."""
AGES: Final = frozenset(("months", "years"))
"""English words behind the ages that a size is for."""
SIZE: Final = "size"
_WORD: Final = re.compile(r"[^\W\d_]+")


@cache
def _persons(language: str) -> dict[str, str]:
    """The words for whom a size is, in small letters, with the English ones."""
    rows = (row for row in reference.wordings(language) if row.kind == "word" and row.means in PERSONS)
    return {read.lower(): row.means for row in rows for read in row.reads if read.isalpha()}


@cache
def _ages(language: str) -> dict[str, str]:
    """The words for months and years behind an age, in small letters, with the English ones."""
    rows = (row for row in reference.wordings(language) if row.means in AGES)
    return {read.lower(): row.means for row in rows for read in row.reads}


_SPAN: Final = r"[0-9]{1,2}(?:[ ]?[-–][ ]?[0-9]{1,2})?"
"""An age, or the first and the last of a size."""


def _unit(language: str) -> str:
    """The words for months and years, one of which stands here."""
    units = "|".join(map(re.escape, sorted(_ages(language), key=len, reverse=True)))
    return rf"(?i:{units})(?!\w)"


@cache
def _age(language: str) -> re.Pattern[str]:
    """An age whose unit may stand behind a later one only: `2-4 und 6-8 Jahre`."""
    return re.compile(rf"({_SPAN})(?:[ ]({_unit(language)}))?")


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
    romans = rf"(?i:{size})\.?[ ]{_ROMAN.pattern}(?:{_JOIN}{_ROMAN.pattern}){{0,5}}"
    sized = rf"(?:(?:(?i:{size})\.?[ ])?{sizes}|{romans})"
    alone = rf"[ \t]*(?:(?i:{only})[ ]{sized}|{sized}[ ](?i:{only}))(?:[ ]?[:→⇒][ ]?|(?=[ \t]*\r?$)|{_ROUND})"
    unit = _unit(language)
    ages = rf"(?:{_SPAN}(?:[ ]{unit})?{_JOIN}){{0,6}}{_SPAN}[ ]{unit}"
    before = rf"(?:(?<!\w)(?i:{only})[ ](?:(?i:{size})\.?[ ])?|^[ \t]*(?i:{size})\.?[ ])"
    aged = rf"(?P<aged>{before}{ages}(?:[ ](?i:{only}))?|^[ \t]*{ages}[ ](?i:{only}))"
    aged += r"(?:[ ]?[:→⇒][ ]?|(?=[ \t]*\r?$))"
    # Gr. I: * 7 re, 2 re zus * (64 M). Gr. II: ...; not so Gr. I: nach je 7 M, Gr. II: nach je 9 M 2 M re zus.
    shared = rf"(?![^.(\n]{{0,60}},[ ]{romans}[ ]?:)"
    listed = rf"[ \t]*(?P<listed>(?i:{size})[ ]{sizes}|{romans}{shared})(?:[ ]?[:→⇒][ ]?|(?=[ \t]*\r?$))"
    lettered = rf"(?:(?:(?i:{size})\.?[ ])?{listed_letters}|(?P<persons>{person}(?:{_JOIN}{person}){{0,6}}))"
    lettered_first = lettered.replace("?P<persons>", "?P<persons_first>")
    bracket = rf"\([ ]?(?:(?i:{only})[ ]{lettered}|{lettered_first}[ ](?i:{only}))[ ]?\)"
    behind = rf"(?<=[.;)][ ])(?:(?i:{only})[ ])?{romans}{shared}[ ]?:[ ]?"
    return re.compile(rf"(?:^(?:{lines}|{alone}|{listed})|{behind}|{aged}|{within}|{bracket})", re.MULTILINE)


def _pattern(text: str) -> str:
    return _SIZES.join(map(re.escape, text.split("{sizes}")))
