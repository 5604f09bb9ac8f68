"""Edits of a doubtful line that change a number: of stitches, of repeats, the printed count, a list of sizes."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Final

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.proofreading.doubtful import Doubtful, numbers_of, rib_of
from roundwright.wording.proofreading.likeness import PURLED
from roundwright.wording.proofreading.rewriting import Edit, Edits, written
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.states import Fault, Lane
from roundwright.wording.reading.tree import Fill, Group, Nodes, Number, Stitch, walk

MOST_NUMBERS: Final = 12
"""Numbers of a line that are tried."""
FAR: Final = 6
"""How far from the printed a number is that is no usual slip."""
_BY: Final = (-1, 1, -2, 2, -3, 3, -4, 4, -5, 5, -6, 6)
MOST_TIMES: Final = 1_000
"""The highest number that is tried."""


def numbers(doubtful: Doubtful, candidate: Candidate) -> list[Edits]:
    """Another value for one number, or for two that are alike, in the sizes that do not come out; the nearest first."""
    options: list[tuple[float, Edits]] = []
    lanes = doubtful.lanes()
    for group in _changed_together(candidate.nodes):
        values: dict[int, int] = {}
        distance = 0
        for lane in lanes:
            column = doubtful.column(lane, candidate)
            value = group[0].of(column) or 0
            solved = value
            if not doubtful.fits(candidate.nodes, lane, candidate):
                solved = _solved(doubtful, candidate, group, lane, value) or 0
            if not solved:
                break
            values[column] = solved
            distance += abs(solved - value)
        else:
            if distance:
                edits = tuple(doubtful.edit(number, values) for number in group)
                if distance > FAR * len(lanes):
                    edits = (edits[0]._replace(size=edits[0].size + 0.3), *edits[1:])
                if len(group) == 1 and _stays(doubtful, candidate.nodes, group[0]):
                    edits = (edits[0]._replace(size=edits[0].size + OF_THE_OTHERS),)
                if len(edits) > 1:
                    edits = tuple(edit._replace(size=edit.size - 0.25) for edit in edits)
                options.append((sum(edit.size for edit in edits), edits))
    options.sort(key=lambda option: option[0])
    return [edits for _, edits in options]


def _stays(doubtful: Doubtful, nodes: Nodes, number: Number) -> bool:
    """Whether a number is the same in a line nearby that works the same stitches, where another number is not."""
    own = [node for node in walk(nodes) if type(node) is Stitch and node.end > node.start]
    for other in doubtful.around(NEAR):
        if [node.name for node in other] != [node.name for node in own]:
            continue
        same = [node.times.values == mine.times.values for node, mine in zip(other, own, strict=True)]
        at = next((place for place, node in enumerate(own) if node.times.start == number.start), None)
        if at is not None and same[at] and not all(same):
            return True
    return False


NEAR: Final = 3
"""How many lines away those are that say which numbers stay."""
OF_THE_OTHERS: Final = 0.1
"""How much larger a change is of a number that stays the same from line to line."""


def _changed_together(nodes: Nodes) -> list[tuple[Number, ...]]:
    """Every number by itself, and those of a rib (`k2, p2`), which go together."""
    single = numbers_of(nodes)[:MOST_NUMBERS]
    groups: list[tuple[Number, ...]] = [(number,) for number in single]
    for node in walk(nodes):
        if isinstance(node, Fill | Group):
            match node.nodes:
                case (Stitch("k", knits), Stitch("p", purls)) if (
                    knits.values == purls.values and knits.start >= 0 and purls.start >= 0
                ):
                    groups.append((knits, purls))
    return groups


def ribs(doubtful: Doubtful, candidate: Candidate) -> Iterator[Edits]:
    """The numbers of a rib as they are in a line nearby, or as that line leaves them: `*k2, p3*` below `*k2, p2*`."""
    rib = rib_of(candidate.nodes)
    if rib is None or min(stitch.times.start for stitch in rib) < 0:
        return
    columns = [doubtful.column(lane, candidate) for lane in doubtful.lanes()]
    for other in doubtful.around(NEAR):
        left = {column: _left(other, column) for column in columns}
        if any([kind for kind, _ in runs] != ["k", "p"] for runs in left.values()):
            continue
        edits: list[Edit] = []
        for place, stitch in enumerate(rib):
            values = {column: runs[place][1] for column, runs in left.items()}
            if any(stitch.times.of(column) != value for column, value in values.items()):
                edits.append(doubtful.edit(stitch.times, values))
        if edits:
            yield tuple(edits)


def _left(line: list[Stitch], column: int) -> list[tuple[str, int]]:
    """The knits and purls that stitches leave, how many stand side by side: `k6, p2tog, p2` leaves 6 and 3."""
    runs: list[tuple[str, int]] = []
    for stitch in line:
        kind = "p" if stitch.name in PURLED else "k"
        left = uses_and_leaves()[stitch.name][1] * (stitch.times.of(column) or 0)
        if runs and runs[-1][0] == kind:
            left += runs.pop()[1]
        runs.append((kind, left))
    return runs


def _solved(
    doubtful: Doubtful, candidate: Candidate, group: tuple[Number, ...], lane: Lane, value: int
) -> int | None:
    """The nearest value of the numbers with which the line comes out in a size."""

    def fits(other: int) -> bool:
        changes = {number.start: other for number in group}
        return doubtful.fits(candidate.nodes, lane, candidate, changes)

    for by in _BY:
        if value + by > 0 and fits(value + by):
            return value + by
    here = doubtful.worked(candidate.nodes, lane, candidate)
    above = doubtful.worked(candidate.nodes, lane, candidate, {number.start: value + 1 for number in group})
    if here is None or above is None or above.used == here.used:
        return None
    more, rest = divmod(lane.count - here.used, above.used - here.used)
    other = value + more
    return other if not rest and 0 < other <= MOST_TIMES and fits(other) else None


def counts(doubtful: Doubtful, candidate: Candidate) -> Iterator[Edits]:
    """Another printed count."""
    wrong = [fault for fault in doubtful.faults if fault.code in ("count_differs", "wrong_way")]
    by_start = {printed.start: printed for printed in candidate.stated}
    for fault in wrong[:1]:
        printed = by_start.get(fault.start)
        if fault.needles and candidate.per_needle is not None:
            yield from _on_each_needle(doubtful, candidate.per_needle, wrong)
            continue
        if printed is None:
            continue
        values: dict[int, int] = {}
        for other in wrong:
            if other.start == fault.start and other.size is not None:
                column = doubtful.column(doubtful.state.lanes[other.size], candidate)
                values[column] = abs(other.left - other.before) if printed.sign else other.left
        yield (doubtful.edit(printed.number, values),)


def _on_each_needle(doubtful: Doubtful, number: Number, wrong: list[Fault]) -> Iterator[Edits]:
    """The stitches on each needle, where they come out."""
    lanes = doubtful.state.lanes
    held = {
        lanes[fault.size].column: divmod(fault.left, fault.needles)
        for fault in wrong
        if fault.size is not None and fault.start == number.start and fault.needles
    }
    if held and not any(rest for _, rest in held.values()):
        yield (doubtful.edit(number, {column: stitches for column, (stitches, _) in held.items()}),)


def until(doubtful: Doubtful, candidate: Candidate) -> Iterator[Edits]:
    """Another count that rounds are worked to, or another number of times that they are worked again.

    Of a list of sizes it is tried first in those sizes alone that do not come out.
    """
    number = candidate.until or (candidate.times.number if candidate.times is not None else None)
    if number is None or number.start < 0:
        return
    if candidate.begun and number is not candidate.until:  # those worked before are among the times printed
        printed = [None if often is None else often + candidate.begun for often in number.values]
        number = Number(tuple(printed), number.start, number.end)
    wrong = {fault.size for fault in doubtful.faults if fault.size is not None and not fault.note}
    lanes = doubtful.state.lanes
    some = [lane for lane in lanes if lane.size in wrong] if len(number.values) > 1 else []
    ways = [way for way in (some if len(some) < len(lanes) else [], lanes) if way]
    for by, way in product((1, -1, 2, -2, 3, -3), ways):
        values = {lane.column: (number.of(lane.column) or 0) + by for lane in way}
        if all(value > 0 for value in values.values()):
            yield (doubtful.edit(number, values),)


def lengthened(doubtful: Doubtful) -> Iterator[Edits]:
    """A list that has another number of sizes, with the values with which the line comes out in each."""
    width = doubtful.width
    for candidate in doubtful.trees[:1]:
        for printed in candidate.stated:
            if len(printed.number.values) not in (1, width):
                values = _counts_worked(doubtful, candidate)
                if values is None:
                    return
                yield (_list(doubtful, printed.number, values),)
        for number in numbers_of(candidate.nodes):
            if len(number.values) not in (1, width):
                values = _values_that_fit(doubtful, candidate, number)
                if values is not None:
                    yield (_list(doubtful, number, values),)


def _list(doubtful: Doubtful, number: Number, values: dict[int, int]) -> Edit:
    new = [values.get(column, number.of(column)) for column in range(doubtful.width)]
    old = doubtful.text[number.start : number.end]
    return Edit(number.start, number.end, written(old, Number((0,) * doubtful.width), new), 1.0)


def _counts_worked(doubtful: Doubtful, candidate: Candidate) -> dict[int, int] | None:
    """What the line leaves in each size; None where it does not come out in all."""
    counts: dict[int, int] = {}
    bare = Candidate("round", 0.0, candidate.nodes)
    for lane in doubtful.state.lanes:
        worked = doubtful.worked(candidate.nodes, lane, bare)
        if worked is None or worked.used != lane.count:
            return None
        counts[lane.column] = worked.left
    return counts


def _values_that_fit(doubtful: Doubtful, candidate: Candidate, number: Number) -> dict[int, int] | None:
    values: dict[int, int] = {}
    for lane in doubtful.state.lanes:
        value: int | None = number.of(lane.column) or 0
        if not doubtful.fits(candidate.nodes, lane, candidate):
            value = _solved(doubtful, candidate, (number,), lane, value or 0)
        if value is None:
            return None
        values[lane.column] = value
    return values
