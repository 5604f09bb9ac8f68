"""Edits of a text, and numbers and lines written in the form of those that are there."""

import re
from typing import Final, NamedTuple

from roundwright.language import ENGLISH_WORDS
from roundwright.wording.reading.parsing.looking import OFTEN
from roundwright.wording.reading.tree import Number
from roundwright.wording.writing.size_lists import size_list


class Edit(NamedTuple):
    """Another text in place of that from `start` to `end`; `size` is how much it changes."""

    start: int
    end: int
    text: str
    size: float


Edits = tuple[Edit, ...]

_NUMBER_WORDS: Final = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_OFTEN: Final = {1: "once", 2: "twice"}
_VALUES: Final = re.compile(r"[0-9]+|(?<=[(\[,/:;\s])-(?![0-9])")
_DIGITS: Final = re.compile(r"([0-9]{1,6})(st|nd|rd|th)?(?![a-z])|([0-9]{1,6})", re.IGNORECASE)
_SUFFIXES: Final = {1: "st", 2: "nd", 3: "rd"}


def rewritten(text: str, start: int, end: int, edits: Edits) -> str:
    """A stretch of the text with the edits made."""
    line = text[start:end]
    for edit in sorted(edits, reverse=True):
        line = line[: edit.start - start] + edit.text + line[edit.end - start :]
    return line


def kept_apart(text: str, start: int, end: int, new: str) -> str:
    """What is put in place of a stretch of the text, with a space where words would touch that were apart."""
    before, behind = text[start - 1 : start] if start else "", text[end : end + 1]
    old = text[start:end]
    if not new:
        return " " if old and before.isalnum() and behind.isalnum() else new
    ahead = before.isalnum() and new[0].isalnum() and not old[:1].isalnum()
    after = behind.isalnum() and new[-1].isalnum() and not old[-1:].isalnum()
    return f"{' ' * ahead}{new}{' ' * after}"


_WHOLE: Final = re.compile("[0-9]+")


def written(old: str, number: Number, new: list[int | None]) -> str:
    """Other values in the form of the old: `5 (6, 7)`, `64/72/80`, `four`, `twice`."""
    values = ["-" if value is None else str(value) for value in new]
    if len(set(values)) == 1 and len(number.values) == 1:
        return _as_word(old, new[0] or 0) if old.isalpha() else values[0]
    places = list(_VALUES.finditer(old))
    if len(places) != len(values):
        places = list(_WHOLE.finditer(old))  # 80 - 88 - 96
    if len(places) == len(values):
        text = old
        for place, value in zip(reversed(places), reversed(values), strict=True):
            text = text[: place.start()] + value + text[place.end() :]
        return text
    joined = size_list(values, ENGLISH_WORDS)
    return joined.replace("(", "[").replace(")", "]") if "[" in old else joined


def _as_word(old: str, value: int) -> str:
    if old.lower() in OFTEN:
        return _OFTEN.get(value, f"{value} times")
    word = _NUMBER_WORDS[value] if value < len(_NUMBER_WORDS) else str(value)
    return word.capitalize() if old[0].isupper() else word


def plain_name(text: str) -> str:
    """A stitch without its number."""
    return re.sub(r"(?<=[a-z])\.?\s*[0-9]+$", "", text.strip().lower())


def between(line: str, at: int, other: str, other_at: int, number: int) -> str | None:
    """The line of round `number`, from those of two others: every number of it moves as it moves between them.

    None where they are not of the same build, or a number would not be whole.
    """
    if _build(line) != _build(other):
        return None
    others = [int(digits[1] or digits[3]) for digits in _DIGITS.finditer(other)]
    made, last = [], 0
    for digits, value in zip(_DIGITS.finditer(line), others, strict=True):
        own = int(digits[1] or digits[3])
        moved, rest = divmod((value - own) * (number - at), other_at - at)
        if rest or own + moved < 1:
            return None
        suffix = digits[2] or ""
        if suffix:
            suffix = _suffix(own + moved) if suffix.islower() else _suffix(own + moved).upper()
        made.append(f"{line[last : digits.start()]}{own + moved}{suffix}")
        last = digits.end()
    return "".join(made) + line[last:]


def relabelled(line: str, at: int, number: int) -> str | None:
    """The line with another round number before it; None where it does not begin with its number."""
    edit = other_label(line, at, number)
    return None if edit is None else f"{line[: edit.start]}{edit.text}{line[edit.end :]}"


def other_label(line: str, at: int, number: int, size: float = 0.0) -> Edit | None:
    """Another round number before a line, alone; None where it does not begin with its number."""
    digits = _DIGITS.search(line)
    if digits is None or int(digits[1] or digits[3]) != at:
        return None
    suffix = digits[2] and (_suffix(number) if digits[2].islower() else _suffix(number).upper())
    return Edit(digits.start(), digits.end(), f"{number}{suffix or ''}", size)


def _build(line: str) -> str:
    return _DIGITS.sub("0", " ".join(line.split()))


def _suffix(number: int) -> str:
    return "th" if number % 100 in (11, 12, 13) else _SUFFIXES.get(number % 10, "th")
