"""The smallest edits with which a pattern comes out.

Edits of a line are tried on its tree where they change a number or a stitch, else on its text; each is written into the
text, read again, and the rest of the pattern worked from there. The edit with which least is left wrong is offered, the
smallest of those first; where several are as good, all are.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import islice, pairwise, product
from math import inf
from typing import Final, TypeAlias

from msgspec import Struct

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.proofreading import missing_rounds, number_edits, word_edits
from roundwright.wording.proofreading.doubtful import Doubtful, rib_of, spellings, stated
from roundwright.wording.proofreading.likeness import unlike
from roundwright.wording.proofreading.rewriting import Edit, Edits, kept_apart, rewritten, written
from roundwright.wording.reading.explain import Search
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.layout import Laid
from roundwright.wording.reading.phrases import CastOn
from roundwright.wording.reading.scanner import scan
from roundwright.wording.reading.states import WRONG, Budget, Fault, Faults

MOST_LINES: Final = 8
"""Lines repaired in one answer."""
MOST_STEPS: Final = 6_000
"""Steps for all repairs of one text, each one or two microseconds."""
FEWEST_STEPS: Final = 500
"""Steps for repairs where reading took many."""
MOST_STEPS_OF_CAST_ON: Final = 1_500
"""Steps to look for another cast-on of a size."""
MOST_SIZES_MENDED: Final = 4
"""Sizes for which so many are spent."""
STEPS_FOR_EDIT: Final = 30
"""Steps it takes to write an edit and read the line again, beside its words."""
FAR_BACK: Final = 4
"""Characters before a line that say whether another line, or a blank one, stands before."""
MOST_FOLLOWED: Final = 12
"""Segments worked after an edit, to see what it does to the rest."""
MUCH_LARGER: Final = 2.5
"""An edit so much larger than one that comes out is not tried."""
CLEAN: Final = 0.5
"""An edit that leaves so little more than is wrong below in any case does away with what is wrong in its line."""
LARGER: Final = 1.0
"""An edit so much larger than one that does away with it is not tried."""
OF_WORDS: Final = frozenset({"bracket", "no_star", "not_understood", "unknown_word"})
"""Faults of the words of a line, whatever stitches there are."""
ALIKE: Final = 0.05
"""How much dearer a repair may be than the best to be as good."""


class Repair(Struct, frozen=True):
    """Edits with which a line comes out, what is left wrong with them (a cost), and how much they change.

    `cast_on`: the stitches cast on with them, where those are others.
    """

    edits: Edits
    left: float
    size: float
    cast_on: tuple[int, ...] = ()

    @property
    def cost(self) -> float:
        """What it costs in all."""
        return self.left + self.size


class Repairs:
    """Looks for repairs of one text, and no longer than its budget lasts."""

    def __init__(self, text: str, laid: Laid, search: Search) -> None:
        self.text = text
        self.laid = laid
        self.search = search
        self.budget = Budget(max(FEWEST_STEPS, min(MOST_STEPS, search.budget.left)))

    @cached_property
    def stitches(self) -> dict[StitchName, str]:
        """The stitches of the text, with their spelling there."""
        return spellings(self.text, self.search)

    def repairs(
        self,
        place: int,
        faults: list[Fault],
        chosen: Candidate | None,
        others: frozenset[str] = frozenset(),
    ) -> list[Repair]:
        """Repairs of a segment, the best first; faults of the codes `others` may stay in it."""
        if not self.search.before.get(place):
            return []
        doubtful = Doubtful(self.text, self.search, self.budget, faults, chosen, stitches=self.stitches)
        repairs: list[Repair] = []
        seen: set[Edits] = set()
        wrong_below = self.wrong_below(doubtful.last)
        most = largest = inf
        for edits in _tried_apart(doubtful):
            if self.budget.left <= 0:
                break
            size = sum(edit.size for edit in edits)
            if edits in seen or size > largest:
                continue
            seen.add(edits)
            left = self.outcome(doubtful, edits, most - size, others)
            if left is None:
                continue
            repairs.append(Repair(edits, left, size))
            most = min(most, left + size + ALIKE)
            if left < 4:
                largest = min(largest, size + MUCH_LARGER)
            if left < wrong_below + CLEAN:
                largest = min(largest, size + LARGER)
        repairs.sort(key=lambda repair: repair.cost)
        return repairs

    def wrong_below(self, last: int) -> float:
        """What is wrong with the segments after this that are worked again with an edit, whatever that is."""
        return self.search.cost_before(last + 1 + MOST_FOLLOWED) - self.search.cost_before(last + 1)

    def outcome(self, doubtful: Doubtful, edits: Edits, most: float, others: frozenset[str]) -> float | None:
        """What is left wrong with these edits in the line and those after it.

        None where the line does not come out but for faults of the codes `others`, or where more is left than `most`.
        """
        first, last = doubtful.first, doubtful.last
        all_segments = self.search.segments
        start = min(all_segments[first].start, *(edit.start for edit in edits))
        while first and all_segments[first - 1].end > start:
            first -= 1
        start = min(start, all_segments[first].start)
        states = self.search.states_before(first)
        end = max(all_segments[last].end, *(edit.end for edit in edits))
        while last + 1 < len(all_segments) and all_segments[last + 1].start < end:
            last += 1
        end = max(end, all_segments[last].end)
        line = rewritten(self.text, start, end, edits)
        self.budget.spend(STEPS_FOR_EDIT + len(line) // 2)
        begun = self.text[max(0, start - FAR_BACK) : start]
        gap = begun[len(begun.rstrip()) :]
        made = self.laid.instead(all_segments[first].start, scan(gap + line, self.search.width).tokens)
        if not made and line.strip():
            return None
        rest = all_segments[last + 1 : last + 1 + MOST_FOLLOWED]
        search = self.search.fresh([*all_segments[:first], *made, *rest], self.budget)
        search.known = {
            first + len(made) + offset: self.search.known[last + 1 + offset]
            for offset in range(len(rest))
            if last + 1 + offset in self.search.known
        }
        search.states = [states[0]]
        stop = first + len(made)
        for at in range(first, stop):
            search.advance(at)
        state = search.states[0]
        if _wrong(state.faults, first, stop, others):
            return None
        for at in range(stop, stop + len(rest)):
            search.advance(at)
            if search.states[0].cost - states[0].cost > most:
                return None
        state = search.states[0]
        if len(made) == last + 1 - first:
            if max(edit.end for edit in edits) < doubtful.segment.start:
                return state.cost - states[0].cost  # another number before another line: the work is the same
            first, stop = doubtful.place, doubtful.place + 1
        return state.cost - states[0].cost + unlike(state.lanes, first, stop)


def _tried_apart(doubtful: Doubtful) -> Iterator[Edits]:
    """The edits that are tried, none of which runs into a word beside it."""
    for edits in tried(doubtful):
        yield tuple(
            edit._replace(text=kept_apart(doubtful.text, edit.start, edit.end, edit.text)) for edit in edits
        )


def tried(doubtful: Doubtful) -> Iterator[Edits]:
    """The edits that are tried, the smallest first."""
    codes = doubtful.codes
    if "cast_on_differs" in codes:
        yield from _cast_on_asked_for(doubtful)
        return
    if "sizes_differ" in codes:
        yield from word_edits.lists(doubtful)
        yield from number_edits.lengthened(doubtful)
        return
    if "round_missing" in codes:
        yield from missing_rounds.missing(doubtful)
        if codes == {"round_missing"}:
            return
    yield from missing_rounds.twice(doubtful)
    yield from missing_rounds.amid(doubtful)
    yield from missing_rounds.skipped(doubtful)
    yield from missing_rounds.run_on(doubtful)
    yield from _in_the_line(doubtful)


def _in_the_line(doubtful: Doubtful) -> Iterator[Edits]:
    """Edits of the line itself."""
    codes, chosen = doubtful.codes, doubtful.chosen
    if chosen is not None and _keeps_its_rib(doubtful, chosen):
        yield from number_edits.counts(doubtful, chosen)
        yield from number_edits.ribs(doubtful, chosen)
        return
    if codes & OF_WORDS:
        yield from word_edits.lists(doubtful)
        yield from word_edits.brackets(doubtful)
        yield from word_edits.words(doubtful)
    if chosen is not None and chosen.kind in ("loop", "continue"):
        yield from number_edits.until(doubtful, chosen)
    for candidate in doubtful.trees:
        yield from number_edits.numbers(doubtful, candidate)
    for candidate in doubtful.trees[:1]:
        yield from number_edits.counts(doubtful, candidate)
    if chosen is not None and chosen.kind in ("loop", "continue", "count"):
        yield from number_edits.counts(doubtful, chosen)
    for candidate in doubtful.trees:
        yield from word_edits.swaps(doubtful, candidate)
        yield from word_edits.once_more(doubtful, candidate)
    yield from word_edits.put_in(doubtful)
    if "unknown_word" not in codes:  # what is not known may well use stitches
        yield from word_edits.left_out(doubtful)
    for candidate in doubtful.trees[:1]:
        yield from word_edits.tails(doubtful, candidate)


def _keeps_its_rib(doubtful: Doubtful, chosen: Candidate) -> bool:
    """Whether a rib on the stitches cast on is meant as it is printed, so that their number is wrong."""
    cast_on = doubtful.search.cast_on
    lanes = doubtful.lanes()
    printed = {stated(chosen, lane.count, doubtful.column(lane, chosen)) for lane in lanes}
    return (
        rib_of(chosen.nodes) is not None
        and doubtful.codes <= {"left_over", "runs_out"}
        and all(lane.count == cast_on[lane.size] for lane in lanes)
        and printed <= {None, *(lane.count for lane in lanes)}
    )


def _cast_on_asked_for(doubtful: Doubtful) -> Iterator[Edits]:
    """The cast-on of the text, as it is asked for."""
    for phrase in doubtful.segment.phrases:
        if type(phrase) is CastOn and phrase.number.start >= 0:
            yield (doubtful.edit(phrase.number, {lane.column: lane.count for lane in doubtful.state.lanes}),)


def _wrong(faults: Faults, first: int, stop: int, others: frozenset[str]) -> bool:
    """Whether something in these segments does not come out, but for faults of the codes `others`."""
    while faults:
        faults, fault = faults
        if fault.segment < first:
            return False
        if not fault.note and fault.segment < stop and fault.code not in others:
            return True
    return False


def cast_on_repairs(text: str, search: Search, cost: float) -> tuple[int, list[Repair]] | None:
    """Other cast-ons with which much more comes out than at `cost`, equally good; with the segment of the cast-on.

    Of several sizes, those that do not come out have another.
    """
    for place, segment in enumerate(search.segments):
        number = next((phrase.number for phrase in segment.phrases if type(phrase) is CastOn), None)
        if number is None or place not in search.before:
            continue
        printed = search.cast_on
        if len(printed) > len(number.values):
            return None
        better = _better_of_sizes(search, place, cost)
        repairs = []
        for counts in _in_order(better, printed):
            cast_on = tuple(count for _, count in counts)
            new = list(map(number.of, range(len(number.values))))
            for column, count in zip(search.sizes.columns, cast_on, strict=True):
                new[column if column < len(new) else 0] = count
            old = text[number.start : number.end]
            edit = Edit(number.start, number.end, written(old, number, new), 1.0)
            repairs.append(Repair((edit,), sum(left for left, _ in counts), edit.size, cast_on))
        return (place, repairs) if repairs else None
    return None


_Counts: TypeAlias = tuple[tuple[float, int], ...]
"""The stitches cast on for each size, with their costs."""


def _in_order(better: list[list[tuple[float, int]]], printed: tuple[int, ...]) -> list[_Counts]:
    """Better cast-ons of all sizes that are larger and smaller than their neighbours as the printed are.

    Of two as good all sizes have the first or the other, where that keeps the order.
    """
    if not any(better):
        return []
    options = [counts or [(0.0, count)] for counts, count in zip(better, printed, strict=True)]
    ways = (
        tuple(counts[min(way, len(counts) - 1)] for counts in options)
        for way in range(max(map(len, options)))
    )
    kept = [counts for counts in ways if _have_order(counts, printed)]
    return kept or [*islice((counts for counts in product(*options) if _have_order(counts, printed)), 1)]


def _have_order(counts: _Counts, printed: tuple[int, ...]) -> bool:
    """Whether none of two neighbours becomes the larger, or as large, that was not."""
    return all(
        (left > right) - (left < right) == (before > after) - (before < after)
        for ((_, left), (_, right)), (before, after) in zip(pairwise(counts), pairwise(printed), strict=True)
    )


def _better_of_sizes(search: Search, place: int, cost: float) -> list[list[tuple[float, int]]]:
    """The better cast-ons of each size, with their costs; none of a size that comes out."""
    sizes = range(len(search.cast_on))
    budget = Budget(MOST_STEPS_OF_CAST_ON * min(len(sizes), MOST_SIZES_MENDED))
    if len(sizes) == 1:
        return [_better_cast_ons(search, place, 0, cost / 2 - 1, budget)]
    better: list[list[tuple[float, int]]] = []
    for size in sizes:
        alone = _worked_on(search, place, size, search.cast_on[size], limit=inf, budget=budget)
        wrong = alone is not None and alone >= WRONG
        better.append(_better_cast_ons(search, place, size, alone / 2 - 1, budget) if alone and wrong else [])
    return better


def _better_cast_ons(
    search: Search, place: int, size: int, limit: float, budget: Budget
) -> list[tuple[float, int]]:
    """Cast-ons near the printed with which least is wrong, with their costs; none where too much stays wrong.

    There are two where one is as much larger than the printed as the other is smaller.
    """
    printed = search.cast_on[size]
    best: list[tuple[float, int]] = []
    for by in (1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7, 8, -8):
        count = printed + by
        cost = _worked_on(search, place, size, count, limit=limit, budget=budget) if count > 0 else None
        if cost is None:
            continue
        if not best or cost < best[0][0] - 0.5:
            best, limit = [(cost, count)], cost
        elif count + best[0][1] == 2 * printed and abs(cost - best[0][0]) <= ALIKE:
            best.append((cost, count))
    return best


def _worked_on(
    search: Search, place: int, size: int, count: int, *, limit: float, budget: Budget
) -> float | None:
    """What is wrong with all behind the cast-on, worked on so many stitches; None where it is more than the limit."""
    again = search.fresh(search.segments, budget, count, size)
    again.known = search.known
    for at in range(place + 1, len(search.segments)):
        again.advance(at)
        if again.states[0].cost > limit or budget.left <= 0:
            return None
    return again.states[0].cost
