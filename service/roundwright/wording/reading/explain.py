"""The search for the explanation of a text that comes out: all its segments worked, for all sizes together.

A state is what the knitter has on the needles after some segments, in one way to understand them, with what had to be
assumed and what does not come out as its cost. The cheapest states are kept after every segment.
"""

from __future__ import annotations

from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.reading.candidates import candidates
from roundwright.wording.reading.instructions import UNREAD, Candidate, printed
from roundwright.wording.reading.labels import Label
from roundwright.wording.reading.layout import Segment
from roundwright.wording.reading.line_work import Desk, LineWork
from roundwright.wording.reading.numbering import flush, label_numbers, place_markers, work_line
from roundwright.wording.reading.states import (
    DROPPED,
    FURTHER,
    WRONG,
    WRONG_COUNT,
    Budget,
    Explanation,
    Fault,
    Faults,
    FaultyError,
    Lane,
    State,
    unrolled,
)
from roundwright.wording.reading.tree import Evenly, Fill, Group, Nodes, Number, Stitch
from roundwright.wording.reading.working import UnclearError

BEAM: Final = 8
"""States that are kept."""
MOST_STEPS: Final = 4_000
"""Steps of the search for one text, each one or two microseconds."""
MOST_STEPS_OF_SIZE: Final = 2_700
"""Steps in addition for every size: the longest hat the service writes takes 4,900 in one size, 28,000 in twelve."""
STEPS_FOR_SEGMENT: Final = 20
"""Steps it takes to find the candidates of a segment, and as many for every five phrases."""
STEPS_FOR_SIZE: Final = 4
"""Steps it takes to work a candidate on a size, beside its rounds."""
NO_EXTRA: Final = 0.05
"""A candidate that costs less than this more than before comes out as the pattern says."""


class Sizes(Struct, frozen=True):
    """The sizes of a text.

    - `cast_on`: the stitches each size that is asked for begins with; `columns`: its place in the lists of the text
    - `width`: how many sizes the lists have; `printed`: what the text casts on
    """

    cast_on: tuple[int, ...]
    columns: tuple[int, ...]
    width: int
    printed: tuple[int, ...] = ()


class Search:
    """The search over the segments of one text."""

    def __init__(self, segments: list[Segment], sizes: Sizes, budget: Budget | None = None) -> None:
        self.segments = segments
        self.sizes = sizes
        self.width = sizes.width
        self.counts = sizes.printed
        self.cast_on = sizes.cast_on
        self.budget = budget or Budget(MOST_STEPS + MOST_STEPS_OF_SIZE * sizes.width)
        self.desk = Desk(segments, self.budget)
        lanes = zip(sizes.cast_on, sizes.columns, strict=True)
        self.states = [State(tuple(Lane(size, column, count) for size, (count, column) in enumerate(lanes)))]
        self.known: dict[int, list[Candidate]] = {}
        self.before: dict[int, list[State]] = {}
        self.listed: dict[int, tuple[Candidate, list[Number], bool]] = {}
        self.named: dict[tuple[str, ...], frozenset[int]] = {}

    def fresh(
        self, segments: list[Segment], budget: Budget, cast_on: tuple[int, ...] | None = None
    ) -> Search:
        """A search over other segments, or from another cast-on; it knows the lines that were worked in this."""
        sizes = replace(self.sizes, cast_on=cast_on) if cast_on else self.sizes
        search = Search(segments, sizes, budget)
        search.desk.known, search.listed = self.desk.known, self.listed
        return search

    def follow(self, other: Search) -> int:
        """Take over what was found of the segments with which the text begins as another does; how many they are."""
        same = 0
        for own, known in zip(self.segments, other.segments, strict=False):
            if own != known:
                break
            same += 1
        self.known = {place: options for place, options in other.known.items() if place < same}
        self.before = {place: states for place, states in other.before.items() if place < same}
        self.desk.known, self.listed = other.desk.known, other.listed
        self.states = other.states_before(same)
        return same

    def states_before(self, place: int) -> list[State]:
        """The states before a segment, when all were advanced."""
        later = [other for other in self.before if other >= place]
        return self.before[min(later)] if later else self.states

    def cost_before(self, place: int) -> float:
        """What it costs at least to understand the segments before this one."""
        return self.states_before(place)[0].cost

    def options(self, place: int) -> list[Candidate]:
        """The candidates of a segment."""
        options = self.known.get(place)
        if options is None:
            options = self.known[place] = candidates(self.segments[place])
            phrases = len(self.segments[place].phrases)
            self.budget.spend(STEPS_FOR_SEGMENT * (1 + phrases // 5))
        return options

    def lists(self, candidate: Candidate) -> tuple[list[Number], bool]:
        """The numbers of a candidate that are given for several sizes, and whether any has none for a size."""
        known = self.listed.get(id(candidate))
        if known is None:
            numbers = lists_of(candidate)
            gaps = any(None in number.values for number in numbers)
            known = self.listed[id(candidate)] = (candidate, numbers, gaps)
        return known[1], known[2]

    def run(self, start: int = 0, stop: int | None = None) -> Explanation:
        """The cheapest explanation of all segments, or of those from `start` to before `stop`."""
        for place in range(start, len(self.segments) if stop is None else min(stop, len(self.segments))):
            if self.budget.left <= 0:
                self.give_up(place)
                break
            self.advance(place)
        return self.finish(self.states[0])

    def give_up(self, place: int) -> None:
        """What is not read for want of steps is told."""
        message = (
            "Reading the text up to here takes more steps than one answer may cost; the rest is not read."
        )
        state = self.states[0]
        fault = Fault("too_long", place, self.segments[place].start, text=message)
        self.states = [State(state.lanes, state.cost + DROPPED, (state.faults, fault), state.choices)]

    def finish(self, state: State) -> Explanation:
        """A state as an explanation."""
        rounds = []
        for lane in state.lanes:
            after = lane.copy()
            flush(self.desk, after)
            rounds.append(tuple(unrolled(after.chain)))
        faults: list[Fault] = []
        link = state.faults
        while link:
            link, fault = link
            faults.append(fault)
        choices: list[tuple[int, Candidate]] = []
        chosen = state.choices
        while chosen:
            chosen, choice = chosen
            choices.append(choice)
        return Explanation(tuple(rounds), tuple(reversed(faults)), tuple(reversed(choices)), state.cost)

    def advance(self, place: int) -> None:
        """Work a segment on every state, in every way it may be meant; the cheapest states are kept."""
        options = self.options(place)
        if options[0].kind == "prose" and not options[0].cost:
            return
        states: list[State] = []
        self.before[place] = self.states
        for state in self.states:
            for candidate in options:
                made = self.apply(state, place, candidate)
                states.extend(made)
                if self.budget.left <= 0 or _comes_out(state, candidate, made):
                    break
            if self.budget.left <= 0:
                break
        self.states = _best(states, self.beam())

    def beam(self) -> int:
        """How many states are kept: fewer where many steps were done."""
        left = self.budget.left / self.budget.steps
        return BEAM if left > 1 / 2 else 2 if left > 1 / 4 else 1

    # --- one candidate

    def apply(self, state: State, place: int, candidate: Candidate) -> list[State]:
        """The states after a candidate; several where the pattern may go on with several counts."""
        if candidate.kind == "prose":
            return self.drop(state, place, candidate)
        if candidate.kind == "unread" and candidate.trouble is not None:
            code, message, start = candidate.trouble
            self.budget.spend(1)
            fault = Fault(code, place, start, text=message)
            chosen = (state.choices, (place, candidate))
            return [State(state.lanes, state.cost + DROPPED, (state.faults, fault), chosen)]
        return _Application(self, state, place, candidate).run()

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

    def drop(self, state: State, place: int, candidate: Candidate) -> list[State]:
        """Nothing is worked here."""
        chosen = (state.choices, (place, candidate))
        self.budget.spend(1)
        if candidate.strength < UNREAD:
            return [State(state.lanes, state.cost + candidate.cost, state.faults, chosen)]
        segment = self.segments[place]
        faults: Faults = (state.faults, Fault("not_understood", place, segment.start))
        lanes = []
        self.budget.spend(STEPS_FOR_SIZE * len(state.lanes))
        for old in state.lanes:
            lane = old.copy()
            if self.concerns(segment.label, lane):
                counts = [after for _, after in printed(candidate, lane.count, lane.column)]
                if counts and 0 < counts[-1] <= MOST_STITCHES:
                    lane.count = counts[-1]
                numbers = label_numbers(segment.label, lane.column)
                if numbers:
                    lane.printed = max(lane.printed, numbers[-1])
                    lane.number = numbers[-1]
            lanes.append(lane)
        cost = state.cost + DROPPED + 0.1 * candidate.strength
        return [State(tuple(lanes), cost, faults, chosen)]

    def concerns(self, label: Label | None, lane: Lane) -> bool:
        """Whether a line is for this size."""
        if label is None or not label.sizes:
            return True
        known = self.named.get(label.sizes)
        if known is None:
            known = self.named[label.sizes] = frozenset(int(text) for text in label.sizes if text.isdigit())
        if not known:
            return True
        if min(known) >= 1 and max(known) <= self.width:
            return lane.column + 1 in known
        if known.issubset(self.counts):
            return self.counts[lane.column] in known
        return True


def _comes_out(state: State, candidate: Candidate, made: list[State]) -> bool:
    """Whether a candidate leaves nothing to ask: it costs nothing, or it leaves the count that is printed."""
    if len(made) != 1 or candidate.kind == "prose":
        return False
    extra = made[0].cost - state.cost
    if candidate.stated:
        return extra - candidate.cost < NO_EXTRA
    return extra < NO_EXTRA and not candidate.how


class _Application:
    """One candidate worked on all sizes of a state."""

    def __init__(self, search: Search, state: State, place: int, candidate: Candidate) -> None:
        self.search = search
        self.state = state
        self.place = place
        self.candidate = candidate
        self.faults = state.faults
        self.cost = state.cost + candidate.cost
        self.wrong = 0
        self.lanes: list[Lane] = []
        self.counts: list[tuple[int, ...]] = []
        self.listed = search.misfit(search.segments[place], candidate)
        if self.listed is not None:
            self.fault(
                Fault(
                    "sizes_differ",
                    place,
                    self.listed.start,
                    stated=len(self.listed.values),
                    before=search.width,
                )
            )
            self.cost += WRONG

    def fault(self, fault: Fault) -> None:
        self.faults = (self.faults, fault)

    def run(self) -> list[State]:
        """The states after it, one for every count the pattern may go on with."""
        search, candidate = self.search, self.candidate
        label = search.segments[self.place].label
        lists, gaps = search.lists(candidate)
        for old in self.state.lanes:
            left_out = gaps and any(number.of(old.column) is None for number in lists)
            if left_out or not search.concerns(label, old):
                self.lanes.append(old)
                self.counts.append((old.count,))
            else:
                self.work(old.copy())
        chosen = (self.state.choices, (self.place, candidate))
        made: list[State] = []
        for way in range(max(map(len, self.counts))):
            lanes = [
                _with_count(lane, counts[min(way, len(counts) - 1)], copy=way > 0)
                for lane, counts in zip(self.lanes, self.counts, strict=True)
            ]
            made.append(State(tuple(lanes), self.cost + 0.3 * way, self.faults, chosen))
        return made

    def work(self, lane: Lane) -> None:
        """One size."""
        self.search.budget.spend(STEPS_FOR_SIZE)
        work = LineWork(self.search.desk, lane, self.place, self.candidate)
        try:
            self.run_lane(work)
            counts: tuple[int, ...] = (lane.count,)
        except FaultyError as error:
            counts = (lane.count,)
            if self.listed is None or error.fault.code != "count_differs":
                counts = error.counts
                self.fault(error.fault)
                self.cost += FURTHER if self.wrong else error.cost
                self.wrong += 1
        except UnclearError as error:
            if not self.wrong:
                self.fault(Fault(error.code, self.place, error.start, text=error.message, before=work.before))
                self.cost += WRONG + 1
            self.wrong += 1
            stated = work.printed_count()
            counts = (stated,) if stated is not None else (work.before, *work.expected())
        for fault, extra in work.notes:
            if not self.known(fault):
                self.fault(fault)
                self.cost += extra
        self.cost += work.cost
        self.lanes.append(lane)
        self.counts.append(counts)

    def known(self, fault: Fault) -> bool:
        """Whether the same was found in another size already."""
        link = self.faults
        while link and link[1].segment == fault.segment:
            link, other = link
            if (other.code, other.start, other.size) == (fault.code, fault.start, fault.size):
                return True
        return False

    def run_lane(self, work: LineWork) -> None:
        candidate, lane = self.candidate, work.lane
        match candidate.kind:
            case "closing":
                return
            case "cast_on":
                self.cast_on(work)
            case "begin":
                lane.begin = (candidate.rounds.of(lane.column) if candidate.rounds is not None else 0) or 0
            case "markers":
                place_markers(lane, candidate)
            case "count":
                _check_count(work)
            case _ if candidate.trouble is not None:
                raise _troubled(work, *candidate.trouble)
            case _:
                work_line(work)
                work.check()

    def cast_on(self, work: LineWork) -> None:
        number, lane = self.candidate.rounds, work.lane
        if number is None or lane.worked:
            return
        place_markers(lane, self.candidate)
        stated = number.of(lane.column)
        if stated is not None and stated * self.candidate.sections == lane.count:
            return  # `cast on 28 sts on each of three needles`
        if stated is not None and stated != lane.count and len(number.values) in (1, self.search.width):
            fault = Fault(
                "cast_on_differs", self.place, number.start, size=lane.size, before=lane.count, stated=stated
            )
            work.notes.append((fault, WRONG))


def _troubled(work: LineWork, code: str, message: str, start: int) -> FaultyError:
    """A line with something in it that cannot be read: it is worked as far as it is read, and the rest is a fault."""
    stated = work.printed_count()
    try:
        work_line(work)
        count = work.lane.count
    except (FaultyError, UnclearError):
        count = stated if stated is not None else work.before
    return FaultyError(Fault(code, work.place, start, text=message, before=work.before), (count,), WRONG + 1)


def _check_count(work: LineWork) -> None:
    """A count that stands alone is the count there is."""
    count = work.lane.count
    for stated, after in printed(work.candidate, work.before, work.column):
        if not stated.sign and after != count:
            fault = Fault(
                "count_differs", work.place, stated.start, work.lane.size, count, count, count, after
            )
            raise FaultyError(fault, (count, after), WRONG_COUNT)


def lists_of(candidate: Candidate) -> list[Number]:
    """The numbers of a candidate that are given for several sizes."""
    numbers = [stated.number for stated in candidate.stated if len(stated.number.values) > 1]
    _add_lists(candidate.nodes, numbers)
    several = (number for number in (candidate.rounds, candidate.until) if number is not None)
    numbers.extend(number for number in several if len(number.values) > 1)
    return numbers


def _add_lists(nodes: Nodes, numbers: list[Number]) -> None:
    for node in nodes:
        number: Number | None = None
        if isinstance(node, Stitch):
            number = node.times
        elif isinstance(node, Fill):
            number = node.leave
        elif isinstance(node, Group):
            number = node.times
        elif isinstance(node, Evenly):
            number = node.change
        if number is not None and len(number.values) > 1:
            numbers.append(number)
        if isinstance(node, _HOLDING):
            _add_lists(node.nodes, numbers)


_HOLDING: Final = (Fill, Group)


def _with_count(lane: Lane, count: int, *, copy: bool) -> Lane:
    if lane.count == count:
        return lane
    lane = lane.copy() if copy else lane
    lane.count = count
    lane.sections = None
    return lane


def _best(states: list[State], beam: int) -> list[State]:
    """The cheapest states; of those that differ in nothing that matters any more, one."""
    if len(states) == 1:
        return states
    kept: dict[object, State] = {}
    for state in sorted(states, key=lambda state: state.cost):
        key = tuple([(lane.count, lane.printed, lane.sections) for lane in state.lanes])
        if key not in kept:
            kept[key] = state
            if len(kept) >= beam:
                break
    best = list(kept.values())
    limit = best[0].cost + WRONG + 3
    return [state for state in best if state.cost <= limit]
