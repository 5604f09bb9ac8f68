"""One way to understand a segment, worked on all sizes of a state: what is on the needles then, and what is wrong."""

from __future__ import annotations

from typing import Final

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.reading.between import work_between
from roundwright.wording.reading.instructions import UNREAD, Candidate, printed
from roundwright.wording.reading.label_numbers import label_numbers
from roundwright.wording.reading.line_work import Desk, LineWork
from roundwright.wording.reading.loops import MOST_BEHIND
from roundwright.wording.reading.numbering import place_markers, work_line
from roundwright.wording.reading.phrases import Count, Phrase, Rounds, Said, is_of_all
from roundwright.wording.reading.scope import Scope
from roundwright.wording.reading.states import (
    DROPPED,
    FURTHER,
    WRONG,
    WRONG_COUNT,
    Fault,
    Faults,
    FaultyError,
    Lane,
    State,
)
from roundwright.wording.reading.worked import UnclearError

KEPT_OTHERWISE: Final = WRONG_COUNT + 0.5
"""What it costs that a round in lace leaves other stitches than there were, though it should not, in all sizes."""
STEPS_FOR_SIZE: Final = 4
"""Steps it takes to work a candidate on a size, beside its rounds."""


def apply(desk: Desk, scope: Scope, state: State, place: int, candidate: Candidate) -> list[State]:
    """The states after a candidate; several where the pattern may go on with several counts."""
    if candidate.kind == "prose":
        return _drop(desk, scope, state, place, candidate)
    if candidate.kind == "unread" and candidate.trouble is not None:
        code, message, start = candidate.trouble
        desk.budget.spend(1)
        fault = Fault(code, place, start, text=message)
        chosen = (state.choices, (place, candidate))
        return [State(state.lanes, state.cost + DROPPED, (state.faults, fault), chosen)]
    return _Application(desk, scope, state, place, candidate).run()


def _drop(desk: Desk, scope: Scope, state: State, place: int, candidate: Candidate) -> list[State]:
    """Nothing is worked here."""
    chosen = (state.choices, (place, candidate))
    desk.budget.spend(1)
    leads_on = candidate.shapes and _tells_other_count(state, candidate)
    if candidate.strength < UNREAD and not leads_on:
        return [State(state.lanes, state.cost + candidate.cost, state.faults, chosen)]
    segment = desk.segments[place]
    faults: Faults = (state.faults, Fault("not_understood", place, segment.start))
    lanes = []
    desk.budget.spend(STEPS_FOR_SIZE * len(state.lanes))
    for old in state.lanes:
        lane = old.copy()
        if scope.concerns(segment.label, lane):
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


def _tells_other_count(state: State, candidate: Candidate) -> bool:
    """Whether words tell a count that no size has on its needles, though rounds were worked: they lead on to it."""
    if not all(lane.worked for lane in state.lanes):
        return False
    for lane in state.lanes:
        counts = [after for stated, after in printed(candidate, lane.count, lane.column) if not stated.sign]
        if not counts or lane.count in counts or not 0 < counts[-1] < lane.count:
            return False
    return True


class _Application:
    """One candidate worked on all sizes of a state."""

    def __init__(self, desk: Desk, scope: Scope, state: State, place: int, candidate: Candidate) -> None:
        self.desk = desk
        self.scope = scope
        self.state = state
        self.place = place
        self.candidate = candidate
        self.faults = state.faults
        self.cost = state.cost + candidate.cost
        self.wrong = 0
        self.lanes: list[Lane] = []
        self.counts: list[tuple[int, ...]] = []
        self.kept: list[Fault] = []
        self.listed = scope.misfit(desk.segments[place], candidate)
        if self.listed is not None:
            self.fault(
                Fault(
                    "sizes_differ",
                    place,
                    self.listed.start,
                    stated=len(self.listed.values),
                    before=scope.width,
                )
            )
            self.cost += WRONG

    def fault(self, fault: Fault) -> None:
        self.faults = (self.faults, fault)

    def run(self) -> list[State]:
        """The states after it, one for every count the pattern may go on with."""
        label = self.desk.segments[self.place].label
        lists, gaps = self.scope.lists(self.candidate)
        for old in self.state.lanes:
            left_out = gaps and any(number.of(old.column) is None for number in lists)
            if left_out or not self.scope.concerns(label, old):
                self.lanes.append(old)
                self.counts.append((old.count,))
            else:
                self.work(old.copy())
        chosen = (self.state.choices, (self.place, self.candidate))
        made: list[State] = []
        for way in range(max(map(len, self.counts))):
            lanes = [
                _with_count(lane, counts[min(way, len(counts) - 1)], copy=way > 0)
                for lane, counts in zip(self.lanes, self.counts, strict=True)
            ]
            made.append(State(tuple(lanes), self.cost + 0.3 * way, self.faults, chosen))
        if self.kept and not self.wrong:
            made.append(self.with_counts_kept())
        return made

    def with_counts_kept(self) -> State:
        """The state in which the rounds behind go on with the stitches there were before a round in lace."""
        before = {fault.size: fault.before for fault in self.kept}
        starts = frozenset(fault.start for fault in self.kept)
        lanes = [_with_count(lane, before.get(lane.size, lane.count), copy=True) for lane in self.lanes]
        for lane in lanes:
            if lane.size in before:
                lane.kept |= starts
        faults = self.faults
        for fault in self.kept:
            faults = (faults, fault)
        return State(
            tuple(lanes),
            self.cost + KEPT_OTHERWISE,
            faults,
            (self.state.choices, (self.place, self.candidate)),
        )

    def work(self, lane: Lane) -> None:
        """One size."""
        self.desk.budget.spend(STEPS_FOR_SIZE)
        work = LineWork(self.desk, lane, self.place, self.candidate)
        try:
            self.run_lane(work)
            counts: tuple[int, ...] = (lane.count,)
            if self.candidate.kind == "round" and (fault := work.count_kept()):
                self.kept.append(fault)
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
                begin = candidate.rounds.of(lane.column) if candidate.rounds is not None else 0
                if begin is not None:  # else it is told of other sizes
                    lane.begin, lane.begin_worked = begin, lane.worked
            case "markers":
                _check_markers(work)
                place_markers(lane, candidate)
                work.check_needles()
            case "count":
                _check_count(work)
            case "between":
                work_between(work)
                work.check()
            case "loop" if _tells_rounds_so_far(work):
                return
            case _ if candidate.trouble is not None:
                raise _troubled(work, *candidate.trouble)
            case _:
                work_line(work)
                work.check()
                work.check_needles()

    def cast_on(self, work: LineWork) -> None:
        number, lane = self.candidate.rounds, work.lane
        if number is None or lane.worked:
            return
        place_markers(lane, self.candidate)
        work.check_needles()
        stated = number.of(lane.column)
        if stated is not None and stated * self.candidate.sections == lane.count:
            return  # `cast on 28 sts on each of three needles`
        counts = [after for _, after in printed(self.candidate, lane.count, lane.column)]
        if lane.count in counts or lane.count in self.desk.cast_ons:
            return  # `28 on each of three needles (84)`, or it is cast on elsewhere
        if any(
            type(phrase) is Count and lane.count in phrase.number.values for phrase in work.segment.phrases
        ):
            return  # Cast on: S 80, M 88, L 96 sts
        if stated is not None and stated != lane.count and len(number.values) in (1, self.scope.width):
            fault = Fault(
                "cast_on_differs", self.place, number.start, size=lane.size, before=lane.count, stated=stated
            )
            work.notes.append((fault, WRONG))


def _tells_rounds_so_far(work: LineWork) -> bool:
    """Whether it is no more than told how many rounds there are by now: `Repeat these 8 rounds 5 times. 64 rounds.`."""
    match work.segment.phrases:
        case (Rounds(every=False, more=False, number=number), *behind) if all(map(_says_total, behind)):
            so_far = number.of(work.column)
            alone = work.segment.label is None and len(behind) < 2  # `40 rounds in all`
            last = work.lane.chain[1].round if work.lane.chain else None
            shaped = last is not None and last.after != last.before
            least = MOST_BEHIND if shaped and not behind else 1  # `2 rounds.` are plain behind a decrease
            return alone and so_far in (work.lane.worked, work.lane.number) and so_far > least
        case _:
            return False


def _says_total(phrase: Phrase) -> bool:
    """Whether it says that a number is that of all rounds up to here."""
    return is_of_all(phrase) or (type(phrase) is Said and phrase.text == "so far")


def _with_count(lane: Lane, count: int, *, copy: bool) -> Lane:
    if lane.count == count:
        return lane
    lane = lane.copy() if copy else lane
    lane.count = count
    lane.sections = None
    return lane


def _troubled(work: LineWork, code: str, message: str, start: int) -> FaultyError:
    """A line with something in it that cannot be read: it is worked as far as it is read, and the rest is a fault."""
    stated = work.printed_count()
    try:
        work_line(work)
        count = work.lane.count
    except (FaultyError, UnclearError):
        count = stated if stated is not None else work.before
    return FaultyError(Fault(code, work.place, start, text=message, before=work.before), (count,), WRONG + 1)


def _check_markers(work: LineWork) -> None:
    """So many sections with so many stitches are as many as is printed beside them: not `8 with 10 between (88)`."""
    candidate, stated = work.candidate, work.printed_count()
    held = candidate.rounds.of(work.column) if candidate.rounds is not None and candidate.stated else None
    count = candidate.sections * held if held else stated
    if stated is None or count is None or stated in (count, count + (held or 0)):
        return
    size, start = work.lane.size, candidate.stated[-1].start
    fault = Fault("count_differs", work.place, start, size, work.before, work.before, count, stated)
    work.notes.append((fault, 0.0))


def _check_count(work: LineWork) -> None:
    """A count that stands alone is the count there is."""
    count = work.lane.count
    for stated, after in printed(work.candidate, work.before, work.column):
        if not stated.sign and after != count and not work.counts_others(stated, after):
            if work.is_page_number(after):
                return
            fault = Fault(
                "count_differs", work.place, stated.start, work.lane.size, count, count, count, after
            )
            raise FaultyError(fault, (count, after), WRONG_COUNT)
    _check_change(work)


def _check_change(work: LineWork) -> None:
    """How many stitches fewer or more there are, told behind a round that shapes: `That is 8 stitches fewer`."""
    last = work.lane.chain[1].round if work.lane.chain else None
    if last is None or last.after == last.before:
        return
    for stated, after in printed(work.candidate, last.before, work.column):
        change = abs(after - last.before)
        if stated.sign and change > 1 and after != last.after and 0 < after <= MOST_STITCHES:
            size, count = work.lane.size, last.after
            fault = Fault(
                "count_differs", work.place, stated.start, size, last.before, last.before, count, after
            )
            raise FaultyError(fault, (count,), WRONG_COUNT)
