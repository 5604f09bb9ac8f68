"""The round numbers of a label, for a size."""

from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.line_work import HIGHEST
from roundwright.wording.reading.phrases import Again, Brackets, Continue, Count, Fabric, Phrase, Said
from roundwright.wording.reading.seen import is_bare
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.spans import Span
from roundwright.wording.reading.tokens import COMMA, DASH, SEMI, STOP
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


def number_behind(segments: Sequence[Segment], place: int, column: int) -> int:
    """The first round number that a line behind this place has for a size; 0 where none of the next lines has any."""
    for segment in segments[place + 1 : place + 1 + MOST_BEHIND]:
        if numbers := label_numbers(segment.label, column):
            return numbers[0]
    return 0


MOST_BEHIND: Final = 12
"""Segments behind a line in which the next number is looked for."""


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
    if label is None or label.kind not in ("numbered", "listed") or not label.spans:
        return label, phrases
    begun, numbers = _others_alike(phrases)
    last = label.spans[-1].last.of(0) or 0
    if not numbers or any(not last < (number.of(0) or 0) <= HIGHEST_ALIKE for number in numbers):
        return label, phrases
    stop = begun
    while stop > 1 and type(phrases[stop - 1]) is Said:
        stop -= 1
    spans = (*label.spans, *(Span(number, number) for number in numbers))
    return replace(label, spans=spans), phrases[:stop]


def _others_alike(phrases: list[Phrase]) -> tuple[int, list[Number]]:
    """Where other rounds are named that are as the one before, and their numbers; none where they are not."""
    begun = next((place for place in range(1, len(phrases) - 1) if _says_alike(phrases, place)), 0)
    if begun and all(type(phrase) in (Count, Said) for phrase in phrases[begun:]):
        return begun, _counted(phrases[begun + 2 :])
    if not phrases or type(phrases[-1]) not in _NAMING_OTHERS:
        return 0, []
    match phrases:
        case [*before, Again(named=named, work=True, flags=flags)] if before and flags & _APART:
            plain = all(map(is_bare, before)) or all(type(phrase) is Fabric for phrase in before)
            return len(before), [Number((number,)) for number in named] if plain else []
        case [*before, Continue(manner=True, flags=flags), Count(sure=False) as count] if flags & _APART:
            return len(before), [count.number]  # k, likewise 4
        case [*before, Said(text=text, flags=flags), Count(sure=False) as count] if (
            text in _LIKE and flags & _APART
        ):
            return len(before), [count.number]  # knit; ditto 4
        case [*before, Brackets(inside=inside)] if before and _tells_others(inside):
            return len(before), _counted(inside)
        case _:
            return 0, []


def _tells_others(inside: tuple[Phrase, ...]) -> bool:
    """Whether a bracket only names other rounds: `(also 4 and 6)`, `(4 and 6 the same)`."""
    texts = {phrase.text for phrase in inside if type(phrase) is Said}
    bare = all(type(phrase) is Said or (type(phrase) is Count and not phrase.sure) for phrase in inside)
    return bare and not _LIKE.isdisjoint(texts)


def _counted(phrases: Sequence[Phrase]) -> list[Number]:
    """The numbers that stand here."""
    return [phrase.number for phrase in phrases if type(phrase) is Count]


_NAMING_OTHERS: Final = frozenset((Again, Count, Brackets))
_APART: Final = COMMA | SEMI | STOP | DASH
_LIKE: Final = frozenset(("also", "likewise", "same", "too", "as well", "ditto", "and"))


def _says_alike(phrases: list[Phrase], place: int) -> bool:
    """Whether `so are` or `same for` stands at a place."""
    first, second = phrases[place], phrases[place + 1]
    if type(first) is not Said or type(second) is not Said:
        return False
    return (first.text, second.text) in _ALIKE


HIGHEST_ALIKE: Final = 200
"""Highest number of a round that is said to be as another."""
_ALIKE: Final = frozenset(
    (("so", "are"), ("so", "is"), ("as", "are"), ("as", "is"), ("same", "for"), ("same", "with"))
)
