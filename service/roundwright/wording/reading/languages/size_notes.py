"""Notes that a line is for some sizes: of the service `(nur Größen 2 und 4)`, of others `Nur M und L: ...`."""

import re
from collections.abc import Sequence
from functools import cache
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.language import words_of

_SIZES: Final = r"(?:[0-9]{1,2}(?:(?:, |[ \u00a0]\w{1,3}[ \u00a0])[0-9]{1,2}){0,11})"
_NUMBER: Final = re.compile("[0-9]+")
_LETTERS: Final = r"(?:[2-6]?X{0,3}[SL]|M)"
_LISTED: Final = rf"{_LETTERS}(?:(?:,[ ]?|[ ]?[/+&][ ]?|[ ]\w{{1,3}}[ ]){_LETTERS}){{0,6}}"
"""Sizes by their letters: `M`, `M und L`, `S/M`."""
_LETTER: Final = re.compile(rf"(?<![^\W_]){_LETTERS}(?![^\W_])")


class SizeNote(NamedTuple):
    """A note, from `start` to `end` of the text, its English text, and the line it is in, with its number of sizes."""

    start: int
    end: int
    english: str
    sizes: int
    line_start: int
    line_end: int


def size_notes(text: str, language: str) -> list[SizeNote]:
    """The notes of a text, in order. Takes time in its length."""
    notes = []
    for found in _notes(language).finditer(text):
        numbers = _NUMBER.findall(found[0]) or _LETTER.findall(found[0])
        listed = numbers[0] if len(numbers) == 1 else f"{', '.join(numbers[:-1])} and {numbers[-1]}"
        english = f"size{'s' * (len(numbers) > 1)} {listed} only"
        english = f"({english})" if found[0].startswith("(") else f"{english[0].upper()}{english[1:]}: "
        line_end = text.find("\n", found.end())
        notes.append(
            SizeNote(
                *found.span(),
                english,
                len(numbers),
                text.rfind("\n", 0, found.start()) + 1,
                line_end if line_end >= 0 else len(text),
            )
        )
    return notes


def width_at(notes: Sequence[SizeNote], place: int, width: int) -> int:
    """How many sizes a line is for; the notes are those that do not end before it."""
    return notes[0].sizes if notes and notes[0].line_start <= place else width


@cache
def _notes(language: str) -> re.Pattern[str]:
    words = words_of(language)
    begins = [words.text("sizes.only_line", {}, count).split("{text}")[0] for count in (1, 2)]
    brackets = [words.text("sizes.only", {}, count).strip() for count in (1, 2)]
    lines = "|".join(sorted({_pattern(text) for text in begins}))
    within = "|".join(sorted({_pattern(text) for text in brackets}))
    only = "|".join(
        re.escape(read)
        for row in reference.wordings(language)
        if row.kind == "only"
        for read in sorted(row.reads, key=len, reverse=True)
    )
    letters = rf"[ \t]*(?:(?i:{only})[ ]{_LISTED}|{_LISTED}[ ](?i:{only}))[ ]?:[ ]?"
    return re.compile(rf"(?:^(?:{lines}|{letters})|{within})", re.MULTILINE)


def _pattern(text: str) -> str:
    return _SIZES.join(map(re.escape, text.split("{sizes}")))
