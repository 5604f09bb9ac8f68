"""The sizes of a text: which of them a line is for, and its numbers that are given size by size."""

from __future__ import annotations

from typing import Final

from msgspec import Struct

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.states import Lane
from roundwright.wording.reading.tree import Evenly, Fill, Group, Nodes, Number, Stitch


class Sizes(Struct, frozen=True):
    """The sizes of a text.

    - `cast_on`: the stitches each size that is asked for begins with; `columns`: its place in the lists of the text
    - `width`: how many sizes the lists have; `printed`: what the text casts on
    """

    cast_on: tuple[int, ...]
    columns: tuple[int, ...]
    width: int
    printed: tuple[int, ...] = ()


class Scope:
    """Which sizes lines are for, and their lists: what was found is kept for the next state and the next edit."""

    def __init__(self, sizes: Sizes) -> None:
        self.width = sizes.width
        self.counts = sizes.printed
        self.listed: dict[int, tuple[Candidate, list[Number], bool]] = {}
        self.named: dict[tuple[str, ...], frozenset[int]] = {}

    def lists(self, candidate: Candidate) -> tuple[list[Number], bool]:
        """The numbers of a candidate that are given for several sizes, and whether any has none for a size."""
        known = self.listed.get(id(candidate))
        if known is None:
            numbers = lists_of(candidate)
            gaps = any(None in number.values for number in numbers)
            known = self.listed[id(candidate)] = (candidate, numbers, gaps)
        return known[1], known[2]

    def misfit(self, segment: Segment, candidate: Candidate) -> Number | None:
        """A number that is given for another number of sizes than there are."""
        width = self.width
        if width == 1 and len(self.counts) != 1:
            return None  # one size of a pattern that does not say how many it has
        own = len(segment.label.sizes) if segment.label is not None and segment.label.sizes else width
        for number in self.lists(candidate)[0]:
            if len(number.values) not in (1, width, own):
                return number
        return None

    def concerns(self, label: Label | None, lane: Lane) -> bool:
        """Whether a line is for this size."""
        return self.is_for(label, lane.column)

    def is_for(self, label: Label | None, column: int) -> bool:
        """Whether a line is for the size in this column of the text."""
        if label is None or not label.sizes:
            return True
        known = self.named.get(label.sizes)
        if known is None:
            known = self.named[label.sizes] = frozenset(int(text) for text in label.sizes if text.isdigit())
        if not known:
            return True
        if min(known) >= 1 and max(known) <= self.width:
            return column + 1 in known
        if known.issubset(self.counts):
            return self.counts[column] in known
        return True


def lists_of(candidate: Candidate) -> list[Number]:
    """The numbers of a candidate that are given for several sizes."""
    numbers = [stated.number for stated in candidate.stated if len(stated.number.values) > 1]
    _add_lists(candidate.nodes, numbers)
    several = [number for number in (candidate.rounds, candidate.until) if number is not None]
    numbers.extend([number for number in several if len(number.values) > 1])
    return numbers


def _add_lists(nodes: Nodes, numbers: list[Number]) -> None:
    for node in nodes:
        number: Number | None = None
        if type(node) is Stitch:
            number = node.times
        elif type(node) is Fill:
            number = node.leave
        elif type(node) is Group:
            number = node.times
        elif type(node) is Evenly:
            number = node.change
        if number is not None and len(number.values) > 1:
            numbers.append(number)
        if isinstance(node, _HOLDING):
            _add_lists(node.nodes, numbers)


_HOLDING: Final = (Fill, Group)
