"""A line that does not come out, with what is needed to try another number or stitch in it."""

from __future__ import annotations

from typing import Final

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.proofreading.rewriting import Edit, written
from roundwright.wording.reading.explain import Search
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.line_work import column_of
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.states import Budget, Fault, Lane, State
from roundwright.wording.reading.tree import Evenly, Fill, Group, Nodes, Number, Stitch, walk
from roundwright.wording.reading.worked import NO_CHANGES, Changes, UnclearError, Worked
from roundwright.wording.reading.working import Worker

MOST_TREES: Final = 3
"""Ways to understand a line that are tried."""
MOST_COST: Final = 5.0
"""What a way to understand a line may cost to be tried."""
LONGEST_NAME: Final = 24
"""Characters of the name of a stitch."""


class Doubtful:
    """A segment that does not come out from a state on, its faults, what of it was chosen, and the text's stitches."""

    def __init__(
        self,
        text: str,
        search: Search,
        budget: Budget,
        faults: list[Fault],
        chosen: Candidate | None,
        *,
        stitches: dict[StitchName, str],
    ) -> None:
        self.text = text
        self.stitches = stitches
        self.search = search
        self.width = search.width
        self.budget = budget
        self.place = place = faults[0].segment
        self.faults = faults
        self.codes = {fault.code for fault in faults}
        self.chosen = chosen
        self.segment: Segment = search.segments[place]
        self.state: State = search.before[place][0]
        self.first, self.last = line_of(text, search, place)
        self.trees = self._trees()

    def _trees(self) -> list[Candidate]:
        options = [
            candidate
            for candidate in self.search.known.get(self.place, [])
            if candidate.nodes and candidate.kind == "round" and candidate.cost < MOST_COST
        ]
        if self.chosen in options:
            options = [self.chosen, *(option for option in options if option is not self.chosen)]
        return options[:MOST_TREES]

    @property
    def words(self) -> str:
        """The text of the segment."""
        return self.text[self.segment.start : self.segment.end]

    def lanes(self) -> list[Lane]:
        """The sizes the segment is for."""
        label = self.segment.label
        return [lane for lane in self.state.lanes if self.search.scope.concerns(label, lane)]

    def column(self, lane: Lane, candidate: Candidate) -> int:
        """Where the line has the numbers of a size."""
        return column_of(self.segment.label, lane.column, candidate)

    def worked(
        self, nodes: Nodes, lane: Lane, candidate: Candidate, changes: Changes = NO_CHANGES
    ) -> Worked | None:
        """A tree worked on a size, with some numbers changed; None where it cannot be."""
        if self.budget.left <= 0:
            return None
        column = self.column(lane, candidate)
        worker = Worker(column, lane.sections, changes, stated(candidate, lane.count, column))
        try:
            return worker.work(nodes, lane.count)
        except UnclearError:
            return None
        finally:
            self.budget.spend(worker.steps)

    def fits(self, nodes: Nodes, lane: Lane, candidate: Candidate, changes: Changes = NO_CHANGES) -> bool:
        """Whether a tree comes out in a size, with the count that is printed."""
        worked = self.worked(nodes, lane, candidate, changes)
        expected = stated(candidate, lane.count, self.column(lane, candidate))
        return worked is not None and worked.used == lane.count and expected in (None, worked.left)

    def edit(self, number: Number, values: dict[int, int]) -> Edit:
        """A number written with other values, in the form it has."""
        old = self.text[number.start : number.end]
        wide = len(number.values) if len(number.values) > 1 else self.width
        if wide > 1 == len(number.values) and len(set(values.values())) == 1 == len(self.lanes()):
            values = dict.fromkeys(range(wide), next(iter(values.values())))  # the line is for one size alone
        new = [values.get(column, number.of(column)) for column in range(wide)]
        changed = sum(value != number.of(column) for column, value in enumerate(new))
        distance = sum(abs((value or 0) - (number.of(column) or 0)) for column, value in enumerate(new))
        size = 1.0 + 0.02 * min(distance, 20) + 0.1 * max(0, changed - 1)
        return Edit(number.start, number.end, written(old, number, new), size)

    def below(self) -> list[Stitch]:
        """The stitches of the next line."""
        return next(iter(self._printed(range(self.place + 1, self.place + 2))), [])

    def around(self, distance: int) -> list[list[Stitch]]:
        """The stitches of so many lines before and after, line by line."""
        return self._printed(
            range(max(0, self.place - distance), min(self.place + distance, len(self.search.segments)))
        )

    def _printed(self, places: range) -> list[list[Stitch]]:
        return [
            [node for node in walk(candidate.nodes) if type(node) is Stitch and node.end > node.start]
            for place in places
            if place != self.place
            for candidate in self.search.known.get(place, [])[:1]
        ]


def spellings(text: str, search: Search) -> dict[StitchName, str]:
    """The stitches of a text, with their spelling there."""
    names: dict[StitchName, str] = {}
    for place in sorted(search.known):
        for candidate in search.known[place][:1]:
            for node in walk(candidate.nodes):
                if type(node) is Stitch and 0 < node.end - node.start < LONGEST_NAME:
                    names.setdefault(node.name, text[node.start : node.end])
    return names


def rib_of(nodes: Nodes) -> tuple[Stitch, Stitch] | None:
    """The stitches of a rib that is worked all around, `2x2 rib`, `*k2, p2*`; None for any other work."""
    match nodes:
        case (Fill(nodes=(Stitch("k") as knits, Stitch("p") as purls), leave=leave),) if (
            leave is None or not any(leave.values)
        ):
            return knits, purls
    return None


def line_of(text: str, search: Search, place: int) -> tuple[int, int]:
    """The first and the last segment of the line that a segment stands in."""
    segments = search.segments
    first = last = place
    while (
        first > 0
        and "\n" not in text[segments[first - 1].start : segments[first].start]
        and segments[first].label is None
    ):
        first -= 1
    while (
        last + 1 < len(segments)
        and "\n" not in text[segments[last].start : segments[last + 1].start]
        and segments[last + 1].label is None
    ):
        last += 1
    return first, last


def stated(candidate: Candidate, count: int, column: int) -> int | None:
    """The count printed with a candidate for a size, the last of several."""
    counts = [printed.after(count, column) for printed in candidate.stated]
    known = [count for count in counts if count is not None]
    return known[-1] if known else None


def numbers_of(nodes: Nodes) -> list[Number]:
    """The numbers of a tree that stand in its text."""
    numbers: dict[int, Number] = {}
    for node in walk(nodes):
        if isinstance(node, Stitch | Group):
            numbers.setdefault(node.times.start, node.times)
        elif type(node) is Evenly:
            numbers.setdefault(node.change.start, node.change)
        elif type(node) is Fill:
            for number in (node.leave, node.times):
                if number is not None:
                    numbers.setdefault(number.start, number)
    return [number for start, number in numbers.items() if start >= 0]
