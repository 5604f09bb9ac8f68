"""The round numbers of a label, for a size."""

from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.line_work import HIGHEST
from roundwright.wording.reading.phrases import Count, Phrase, Said
from roundwright.wording.reading.spans import Span
from roundwright.wording.reading.tree import Number


def label_numbers(label: Label | None, column: int) -> list[int]:
    """The round numbers a label names for a size."""
    if label is None:
        return []
    numbers: list[int] = []
    for span in label.spans if label.kind in ("numbered", "listed") else ():
        first, last = _of_size(label, span.first, column), _of_size(label, span.last, column)
        numbers.extend(range(first, min(last, first + MOST_ROUNDS) + 1, span.step))
    return [number for number in numbers[: MOST_ROUNDS + 1] if 0 < number <= HIGHEST]


def _of_size(label: Label, number: Number, column: int) -> int:
    """A round number for a size; a line for some sizes may have it for those only: `Rnds 3-6 (4) (sizes 2 and 4)`."""
    if label.sizes and len(number.values) > 1:
        named = sorted(int(size) for size in label.sizes if size.isdigit())
        if column + 1 in named and len(number.values) == len(named):
            column = named.index(column + 1)
    return number.of(column) or 0


def with_others_alike(label: Label | None, phrases: list[Phrase]) -> tuple[Label | None, list[Phrase]]:
    """A label with the other rounds that its line says are alike, and the line without them.

    `Round 4 is plain, so are 6 and 8`, `Rnd 2: knit, same for 4 and 6`.
    """
    if label is None or label.kind != "numbered" or not label.spans:
        return label, phrases
    begun = next((place for place in range(1, len(phrases) - 1) if _says_alike(phrases, place)), 0)
    numbers = [phrase.number for phrase in phrases[begun + 2 :] if isinstance(phrase, Count)] if begun else []
    last = label.spans[-1].last.of(0) or 0
    silent = all(isinstance(phrase, Count | Said) for phrase in phrases[begun:])
    if (
        not numbers
        or not silent
        or any(not last < (number.of(0) or 0) <= HIGHEST_ALIKE for number in numbers)
    ):
        return label, phrases
    stop = begun
    while stop > 1 and isinstance(phrases[stop - 1], Said):
        stop -= 1
    spans = (*label.spans, *(Span(number, number) for number in numbers))
    return replace(label, spans=spans), phrases[:stop]


def _says_alike(phrases: list[Phrase], place: int) -> bool:
    """Whether `so are` or `same for` stands at a place."""
    first, second = phrases[place], phrases[place + 1]
    if not isinstance(first, Said) or not isinstance(second, Said):
        return False
    return (first.text, second.text) in _ALIKE


HIGHEST_ALIKE: Final = 200
"""Highest number of a round that is said to be as another."""
_ALIKE: Final = frozenset(
    (("so", "are"), ("so", "is"), ("as", "are"), ("as", "is"), ("same", "for"), ("same", "with"))
)
