"""The round numbers of a label, for a size."""

from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.line_work import HIGHEST
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
