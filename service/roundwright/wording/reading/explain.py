"""The search for the explanation of a text that comes out: all its segments worked, for all sizes together.

A state is what the knitter has on the needles after some segments, in one way to understand them, with what had to be
assumed and what does not come out as its cost. The cheapest states are kept after every segment.
"""

from __future__ import annotations

from typing import Final

from msgspec import Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import MOST_ROUNDS, MOST_STITCHES, Round, Steps, Work, work_round
from roundwright.wording.reading.instructions import UNREAD, Candidate, candidates, printed
from roundwright.wording.reading.labels import Label
from roundwright.wording.reading.layout import Segment
from roundwright.wording.reading.rhythm import next_steps
from roundwright.wording.reading.tree import Evenly, Fill, Group, Nodes, Number, Stitch, walk
from roundwright.wording.reading.working import (
    NO_CHANGES,
    Changes,
    Sections,
    UnclearError,
    Worked,
    Worker,
    fits_any_count,
)

BEAM: Final = 8
"""States that are kept."""
MOST_STEPS_OF_SEARCH: Final = 20_000
"""Candidates worked on a size in one text: a book's worth; what is beyond is taken as its first candidate."""
HIGHEST: Final = 10_000
"""Highest number of a round."""

WRONG: Final = 6.0
"""What a line costs that does not come out."""
WRONG_COUNT: Final = 5.0
"""What a printed count costs that is not the one worked."""
FURTHER: Final = 1.5
"""What it costs in every further size."""
DROPPED: Final = 11.0
"""What a line costs that looks like work and is not read."""


class Fault(Struct, frozen=True):
    """Something that does not come out, in a size (from 0; None for all), at a place of the text.

    `before` stitches were there, `used` and `left` are what the line makes of them, `said` is what it says.
    """

    code: str
    segment: int
    start: int
    size: int | None = None
    before: int = 0
    used: int = 0
    left: int = 0
    said: int | None = None
    text: str = ""
    note: bool = False
    stitches: int | None = None


class Done(Struct, frozen=True):
    """A round that was worked: by which segment, and by its tree (empty where it was extrapolated)."""

    round: Round
    nodes: Nodes
    segment: int


Chain = tuple["Chain", Done] | None
"""Rounds worked, the last first."""


class Entry(Struct, frozen=True):
    """What a round number stands for: the candidate, and the segment it is from."""

    candidate: Candidate
    segment: int


class Lane(Struct):
    """One size: the stitches on its needles, and what was worked."""

    size: int
    column: int
    count: int
    chain: Chain = None
    worked: int = 0
    number: int = 0  # of the last round, as told in the answer
    printed: int = 0  # the last number printed in this part
    lowest: int = 0  # the first
    loose: int = 0  # rounds without a number since
    numbers: dict[int, Entry] = {}
    earlier: dict[int, Entry] = {}
    waiting: dict[int, Entry] = {}
    standing: tuple[tuple[int, int, int, Entry], ...] = ()
    between: Entry | None = None
    begin: int = 0
    sections: Sections | None = None
    loop: tuple[Done, ...] = ()
    steady: int = 0  # numbers that followed one another

    def copy(self) -> Lane:
        return Lane(
            self.size, self.column, self.count, self.chain, self.worked, self.number, self.printed, self.lowest,
            self.loose, dict(self.numbers), self.earlier, dict(self.waiting), self.standing, self.between, self.begin,
            self.sections, self.loop, self.steady,
        )  # fmt: skip


Choices = tuple["Choices", tuple[int, Candidate]] | None
Faults = tuple["Faults", Fault] | None


class State(Struct):
    """The sizes after some segments, in one way to understand them."""

    lanes: tuple[Lane, ...]
    cost: float = 0.0
    faults: Faults = None
    choices: Choices = None


class Explanation(Struct, frozen=True):
    """The cheapest way to understand a text: the rounds of each size, what does not come out, and what was chosen."""

    rounds: tuple[tuple[Done, ...], ...]
    faults: tuple[Fault, ...]
    choices: tuple[tuple[int, Candidate], ...]
    cost: float


class _Faulty(Exception):
    """What a lane meets that does not come out: the fault, and the counts it may go on with."""

    def __init__(self, fault: Fault, counts: tuple[int, ...], cost: float) -> None:
        super().__init__(fault.code)
        self.fault = fault
        self.counts = counts
        self.cost = cost


class Search:
    """The search over the segments of one text."""

    def __init__(
        self,
        segments: list[Segment],
        columns: tuple[int, ...],
        cast_on: tuple[int, ...],
        width: int,
        printed_counts: tuple[int, ...],
        changes: Changes = NO_CHANGES,
    ) -> None:
        self.segments = segments
        self.width = width
        self.counts = printed_counts
        self.changes = changes
        self.steps = 0
        self.columns = columns
        self.cast_on = cast_on
        self.states = [
            State(
                tuple(
                    Lane(size, column, count, numbers={}, waiting={})
                    for size, (count, column) in enumerate(zip(cast_on, columns, strict=True))
                )
            )
        ]
        self.known: dict[int, list[Candidate]] = {}
        self.before: dict[int, list[State]] = {}

    def fresh(self, segments: list[Segment], cast_on: tuple[int, ...] | None = None) -> Search:
        """A search over other segments, or from another cast-on."""
        return Search(segments, self.columns, cast_on or self.cast_on, self.width, self.counts, self.changes)

    def options(self, place: int) -> list[Candidate]:
        found = self.known.get(place)
        if found is None:
            found = self.known[place] = candidates(self.segments[place])
        return found

    def run(self, start: int = 0, stop: int | None = None) -> Explanation:
        """The cheapest explanation of all segments, or of those from `start` to before `stop`."""
        for place in range(start, len(self.segments) if stop is None else min(stop, len(self.segments))):
            self.advance(place)
        return self.finish(self.states[0])

    def finish(self, state: State) -> Explanation:
        rounds = []
        for lane in state.lanes:
            after = lane.copy()
            self.flush(after)
            rounds.append(tuple(_unrolled(after.chain)))
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
        options = self.options(place)
        only = options[0] if options[0].kind == "prose" and not options[0].cost else None
        if only is not None:
            return
        found: list[State] = []
        self.before[place] = self.states
        for state in self.states:
            for candidate in options:
                made = self.apply(state, place, candidate)
                found.extend(made)
                self.steps += len(state.lanes)
                if (
                    len(made) == 1
                    and made[0].cost - state.cost < 0.05
                    and (candidate.stated or not candidate.how)
                ):
                    break
                if self.steps > MOST_STEPS_OF_SEARCH and made:
                    break
        self.states = _best(found)

    # --- one candidate

    def apply(self, state: State, place: int, candidate: Candidate) -> list[State]:
        """The states after a candidate; several where the pattern may go on with several counts."""
        segment = self.segments[place]
        if candidate.kind == "prose":
            return self.drop(state, place, candidate)
        if candidate.kind == "unread" and candidate.trouble is not None:
            code, message, start = candidate.trouble
            return [
                State(
                    state.lanes,
                    state.cost + DROPPED,
                    (state.faults, Fault(code, place, start, text=message)),
                    (state.choices, (place, candidate)),
                )
            ]
        lanes: list[Lane] = []
        faults = state.faults
        cost = state.cost + candidate.cost
        listed = self.misfit(segment, candidate)
        if listed is not None:
            faults = (
                faults,
                Fault("sizes_differ", place, listed.start, said=len(listed.values), before=self.width),
            )
            cost += WRONG
        options: list[tuple[int, ...]] = []
        wrong = 0
        for old in state.lanes:
            if not self.concerns(segment.label, old) or _left_out(candidate, old.column):
                lanes.append(old)
                options.append((old.count,))
                continue
            lane = old.copy()
            work = _LaneWork(self, lane, place, segment, candidate)
            try:
                work.run()
                options.append((lane.count,))
            except _Faulty as error:
                if listed is not None and error.fault.code == "count_differs":
                    options.append((lane.count,))
                    lanes.append(lane)
                    continue
                faults = (faults, error.fault)
                cost += error.cost if not wrong else FURTHER
                wrong += 1
                options.append(error.counts)
            except UnclearError as error:
                if wrong == 0:
                    faults = (
                        faults,
                        Fault(error.code, place, error.start, text=error.message, before=old.count),
                    )
                    cost += WRONG + 1
                wrong += 1
                said = work.said()
                options.append((said,) if said is not None else (old.count,))
            for fault, extra in work.notes:
                if not any(_same(fault, each) for each in _last_faults(faults, place)):
                    faults = (faults, fault)
                    cost += extra
            cost += work.cost
            lanes.append(lane)
        made: list[State] = []
        for way in range(max(map(len, options))):
            new = [
                _with_count(lane, counts[min(way, len(counts) - 1)], copy=way > 0)
                for lane, counts in zip(lanes, options, strict=True)
            ]
            made.append(State(tuple(new), cost + 0.3 * way, faults, (state.choices, (place, candidate))))
        return made

    def misfit(self, segment: Segment, candidate: Candidate) -> Number | None:
        """A number that is given for another number of sizes than there are."""
        width = self.width
        if width == 1 and len(self.counts) != 1:
            return None  # one size of a pattern that does not say how many it has
        own = len(segment.label.sizes) if segment.label is not None and segment.label.sizes else width
        for number in _lists(candidate):
            if len(number.values) not in (1, width, own):
                return number
        return None

    def drop(self, state: State, place: int, candidate: Candidate) -> list[State]:
        """Nothing is worked here."""
        if candidate.strength < UNREAD:
            return [
                State(
                    state.lanes,
                    state.cost + candidate.cost,
                    state.faults,
                    (state.choices, (place, candidate)),
                )
            ]
        segment = self.segments[place]
        start = segment.start
        faults: Faults = (state.faults, Fault("not_understood", place, start))
        lanes = []
        for old in state.lanes:
            lane = old.copy()
            if self.concerns(segment.label, lane):
                counts = [after for _, after in printed(candidate, lane.count, lane.column)]
                if counts and 0 < counts[-1] <= MOST_STITCHES:
                    lane.count = counts[-1]
                for number in _numbers(segment.label, lane.column):
                    lane.printed = max(lane.printed, number)
                    lane.number = number
            lanes.append(lane)
        return [
            State(
                tuple(lanes),
                state.cost + DROPPED + 0.1 * candidate.strength,
                faults,
                (state.choices, (place, candidate)),
            )
        ]

    def concerns(self, label: Label | None, lane: Lane) -> bool:
        """Whether a line is for this size."""
        if label is None or not label.sizes:
            return True
        named: set[int] = set()
        for text in label.sizes:
            if text.isdigit():
                named.add(int(text))
        if not named:
            return True
        if all(1 <= each <= self.width for each in named):
            return lane.column + 1 in named
        if all(each in self.counts for each in named):
            return self.counts[lane.column] in named
        return True

    def column(self, label: Label | None, lane: Lane, candidate: Candidate) -> int:
        """Where a line for some sizes has the number of this size."""
        if label is None or not label.sizes:
            return lane.column
        named = sorted(int(text) for text in label.sizes if text.isdigit())
        if len(named) < 2 or lane.column + 1 not in named:
            return lane.column
        lists = [stated.number for stated in candidate.stated]
        if all(len(number.values) in (1, len(named)) for number in lists):
            return named.index(lane.column + 1)
        return lane.column

    def flush(self, lane: Lane) -> None:
        """Work what waits for its number."""
        while lane.waiting:
            number = min(lane.waiting)
            entry = lane.waiting.pop(number)
            if number == lane.printed + 1:
                try:
                    _LaneWork(self, lane, entry.segment, self.segments[entry.segment], entry.candidate).once(
                        number
                    )
                except (_Faulty, UnclearError):
                    return
                lane.printed = number


def _left_out(candidate: Candidate, column: int) -> bool:
    """Whether a size has a dash where others have a number: nothing for it here."""
    return any(number.of(column) is None for number in _lists(candidate))


def _lists(candidate: Candidate) -> list[Number]:
    """The numbers of a candidate that are given for several sizes."""
    numbers = [stated.number for stated in candidate.stated]
    for node in walk(candidate.nodes):
        if isinstance(node, Stitch | Group):
            numbers.append(node.times)
        elif isinstance(node, Fill) and node.leave is not None:
            numbers.append(node.leave)
        elif isinstance(node, Evenly):
            numbers.append(node.change)
    numbers.extend(each for each in (candidate.rounds, candidate.until) if each is not None)
    return [number for number in numbers if len(number.values) > 1]


def _with_count(lane: Lane, count: int, *, copy: bool) -> Lane:
    if lane.count == count:
        return lane
    lane = lane.copy() if copy else lane
    lane.count = count
    lane.sections = None
    return lane


def _same(one: Fault, other: Fault) -> bool:
    return (one.code, one.segment, one.start, one.size) == (
        other.code,
        other.segment,
        other.start,
        other.size,
    )


def _last_faults(faults: Faults, segment: int) -> list[Fault]:
    found = []
    while faults:
        faults, fault = faults
        if fault.segment != segment:
            break
        found.append(fault)
    return found


def _best(states: list[State]) -> list[State]:
    """The cheapest states; of those that differ in nothing that matters any more, one."""
    if len(states) == 1:
        return states
    kept: dict[object, State] = {}
    for state in sorted(states, key=lambda each: each.cost):
        key = tuple([(lane.count, lane.printed, lane.sections) for lane in state.lanes])
        if key not in kept:
            kept[key] = state
            if len(kept) >= BEAM:
                break
    found = list(kept.values())
    limit = found[0].cost + WRONG + 3
    return [state for state in found if state.cost <= limit]


def _unrolled(chain: Chain) -> list[Done]:
    rounds: list[Done] = []
    while chain:
        chain, done = chain
        rounds.append(done)
    rounds.reverse()
    return rounds


def _numbers(label: Label | None, column: int) -> list[int]:
    """The round numbers a label names for a size."""
    if label is None:
        return []
    numbers: list[int] = []
    for span in label.spans if label.kind in ("numbered", "listed") else ():
        first, last = span.first.of(column) or 0, span.last.of(column) or 0
        numbers.extend(range(first, min(last, first + MOST_ROUNDS) + 1, span.step))
    return [number for number in numbers[: MOST_ROUNDS + 1] if 0 < number <= HIGHEST]


class _LaneWork:
    """A candidate worked on one size."""

    def __init__(
        self, search: Search, lane: Lane, place: int, segment: Segment, candidate: Candidate
    ) -> None:
        self.search = search
        self.lane = lane
        self.place = place
        self.segment = segment
        self.candidate = candidate
        self.column = search.column(segment.label, lane, candidate)
        self.notes: list[tuple[Fault, float]] = []
        self.cost = 0.0
        self.before = lane.count
        self.first_after: int | None = None

    def said(self) -> int | None:
        """The count printed with the segment, the last of several."""
        counts = [after for _, after in printed(self.candidate, self.before, self.column)]
        return counts[-1] if counts and 0 <= counts[-1] <= MOST_STITCHES else None

    def note(
        self,
        code: str,
        start: int,
        cost: float = 0.0,
        *,
        text: str = "",
        stitches: int | None = None,
        error: bool = False,
    ) -> None:
        self.notes.append(
            (Fault(code, self.place, start, text=text, note=not error, stitches=stitches), cost)
        )

    def run(self) -> None:
        candidate, lane = self.candidate, self.lane
        if candidate.kind == "cast_on":
            self.cast_on()
            return
        if candidate.kind == "closing":
            return
        if candidate.kind == "begin":
            lane.begin = (candidate.rounds.of(lane.column) if candidate.rounds is not None else 0) or 0
            return
        if candidate.kind == "count":
            self.counted()
            return
        if candidate.trouble is not None:
            code, message, start = candidate.trouble
            said = self.said()
            try:
                self.labelled()
                counts = (lane.count,)
            except (_Faulty, UnclearError):
                counts = (said if said is not None else self.before,)
            raise _Faulty(Fault(code, self.place, start, text=message, before=self.before), counts, WRONG + 1)
        self.labelled()
        self.check()

    def cast_on(self) -> None:
        number = self.candidate.rounds
        lane = self.lane
        if number is None or lane.worked:
            return
        said = number.of(lane.column)
        if said is not None and said != lane.count and len(number.values) in (1, self.search.width):
            self.notes.append(
                (
                    Fault(
                        "cast_on_differs",
                        self.place,
                        number.start,
                        size=lane.size,
                        before=lane.count,
                        said=said,
                    ),
                    WRONG,
                )
            )

    def counted(self) -> None:
        for stated, after in printed(self.candidate, self.before, self.column):
            if stated.sign:
                continue
            if after != self.lane.count:
                raise _Faulty(
                    Fault(
                        "count_differs",
                        self.place,
                        stated.start,
                        self.lane.size,
                        self.before,
                        self.before,
                        self.before,
                        after,
                    ),
                    (self.lane.count, after),
                    WRONG_COUNT,
                )

    # --- which rounds

    def labelled(self) -> None:
        label, lane = self.segment.label, self.lane
        if self.candidate.sections and lane.count % self.candidate.sections == 0:
            lane.sections = (lane.count // self.candidate.sections,) * self.candidate.sections
        elif self.candidate.every and lane.count % self.candidate.every == 0:
            lane.sections = (self.candidate.every,) * (lane.count // self.candidate.every)
        numbers = _numbers(label, lane.column)
        if numbers:
            self.numbered(numbers)
        elif label is not None and label.kind == "every":
            assert label.every is not None
            self.stand(label.every.first, label.every.step, label.every.last)
        else:
            self.unnumbered()
        if label is not None and label.every is not None and label.kind != "every":
            if label.kind == "next":
                lane.between = Entry(self.candidate, self.place)
            else:
                self.stand(label.every.first, label.every.step, label.every.last)

    def stand(self, first: int, step: int, last: int) -> None:
        entry = Entry(self.candidate, self.place)
        self.lane.standing = (*self.lane.standing, (first, step, last, entry))
        if not self.lane.printed and self.segment.label is not None and self.segment.label.kind == "every":
            self.lane.between = entry

    def restart(self) -> None:
        lane = self.lane
        self.search.flush(lane)
        lane.earlier = {**lane.earlier, **lane.numbers}
        lane.numbers = {}
        lane.waiting = {}
        lane.standing = ()
        lane.between = None
        lane.printed = lane.lowest = lane.loose = lane.steady = 0

    def numbered(self, numbers: list[int]) -> None:
        lane = self.lane
        first = numbers[0]
        if (
            lane.printed
            and (first <= lane.printed)
            and (first == lane.lowest or self.segment.heading or first == 1)
        ):
            self.restart()
        entry = Entry(self.candidate, self.place)
        if lane.begin and numbers[-1] < lane.begin and not lane.worked:
            for number in numbers:
                lane.numbers[number] = entry
            lane.lowest = lane.lowest or first
            lane.printed = numbers[-1]
            return
        if lane.printed and first <= lane.printed:
            self.note("round_twice", self.segment.start, 0.5, text=str(first))
        elif not lane.loose:
            self.fill(first)
        lane.lowest = lane.lowest or first
        if self.candidate.kind in ("loop", "continue", "with"):
            for number in numbers:
                lane.numbers[number] = entry
            lane.printed = numbers[-1]
            lane.loose = 0
            self.repeat(len(numbers) if len(numbers) > 1 else 0, first)
            lane.number = numbers[-1]
            return
        several = len(numbers) > 1
        for place, number in enumerate(numbers):
            if place and number != numbers[place - 1] + 1:
                for later in numbers[place:]:
                    lane.waiting[later] = entry
                    lane.numbers[later] = entry
                break
            lane.numbers[number] = entry
            lane.printed = number
            lane.loose = 0
            self.once(number, single=several)

    def fill(self, first: int) -> None:
        """Work the rounds that stand for the numbers before this."""
        lane = self.lane
        missing: list[int] = []
        if first - lane.printed > MOST_ROUNDS:
            return
        begun = lane.printed or (lane.begin - 1 if lane.begin and not lane.worked else 0)
        entries = {
            number: lane.waiting.pop(number, None) or self.stands(number)
            for number in range(begun + 1, first)
        }
        missing = [number for number, entry in entries.items() if entry is None]
        for number, entry in entries.items():
            if entry is None or (missing and not fits_any_count(entry.candidate.nodes)):
                continue
            other = _LaneWork(
                self.search, lane, entry.segment, self.search.segments[entry.segment], entry.candidate
            )
            other.once(number, single=True)
            lane.numbers[number] = entry
            lane.number = number
        if missing:
            steady = lane.steady >= 1 and len(missing) <= 3 and bool(lane.printed)
            self.note(
                "round_missing",
                self.segment.start,
                1.0,
                text=f"{lane.printed},{missing[0]},{missing[-1]},{first}",
                error=steady,
            )
        elif lane.printed:
            lane.steady += 1

    def stands(self, number: int) -> Entry | None:
        for first, step, last, entry in self.lane.standing:
            if number >= first and (number - first) % step == 0 and (not last or number <= last):
                return entry
        return None

    def unnumbered(self) -> None:
        lane, candidate, label = self.lane, self.candidate, self.segment.label
        if candidate.kind in ("loop", "continue", "with"):
            self.repeat(0, lane.number + 1)
            lane.loose += 1
            return
        count = (
            label.count
            if label is not None and label.count is not None and label.kind in ("next", "count")
            else None
        )
        many = count.of(self.column) if count is not None else 1
        if (
            lane.between is not None
            and candidate.nodes
            and label is not None
            and lane.chain is not None
            and label.kind in ("sort", "next")
        ):
            self.stand_between()
        if label is None and self.segment.heading and lane.printed:
            self.restart()
        for _ in range(many or 0):
            self.once(lane.number + 1, single=count is not None)
        lane.loose += 1
        if label is not None and label.kind == "sort":
            lane.loose += 0

    def stand_between(self) -> None:
        lane = self.lane
        assert lane.between is not None and lane.chain is not None
        last = lane.chain[1]
        if last.segment != lane.between.segment and last.round.before != last.round.after:
            entry = lane.between
            _LaneWork(
                self.search, lane, entry.segment, self.search.segments[entry.segment], entry.candidate
            ).once(lane.number + 1, single=True)

    # --- work

    def once(self, number: int, *, single: bool = False) -> None:
        """The candidate worked, for one number: one round, or as many as it says."""
        candidate = self.candidate
        if candidate.until is not None:
            self.until_count(number)
            return
        many = 1
        if candidate.rounds is not None and not single:
            many = candidate.rounds.of(self.column) or 0
        if candidate.length:
            self.note("to_a_length", self.segment.start)
        if candidate.chart:
            self.note("chart", self.segment.start)
        last = candidate.last
        if many + self.lane.worked > MOST_ROUNDS:
            self.note("too_many_rounds", self.segment.start, 1.0, error=True)
            many = max(0, MOST_ROUNDS - self.lane.worked)
        plain = many - 1 if last and not candidate.length else many
        for turn in range(plain):
            self.round(candidate.nodes, number + turn)
        if last:
            self.round(last, number + max(plain, 0))

    def until_count(self, number: int) -> None:
        target = (self.candidate.until or Number((0,))).of(self.column) or 0
        turns = 0
        start = self.lane.count
        while self.lane.count != target:
            before = self.lane.count
            self.round(self.candidate.nodes, number + turns)
            turns += 1
            if (
                self.lane.count == before
                or (before - target) * (self.lane.count - target) < 0
                or turns > MOST_ROUNDS
            ):
                raise _Faulty(
                    Fault("never_ends", self.place, self.segment.start, self.lane.size, start, said=target),
                    (target,),
                    WRONG,
                )

    def round(self, nodes: Nodes, number: int) -> None:
        """One round of the tree."""
        lane = self.lane
        if lane.worked >= MOST_ROUNDS:
            raise _Faulty(Fault("too_many_rounds", self.place, self.segment.start), (lane.count,), 2.0)
        said = self.said()
        worked = self.work(nodes, lane.count, said)
        if worked.used != lane.count:
            raise self.uneven(worked, said)
        try:
            done = work_round(min(max(number, 1), HIGHEST), lane.count, worked.steps)
        except Impossible as error:
            raise UnclearError("not_understood", error.detail, self.segment.start) from error
        if not worked.steps:
            raise UnclearError("not_understood", "Nothing is said to be worked here.", self.segment.start)
        self.add(done, nodes, worked.sections, assumed=worked.assumed)

    def work(self, nodes: Nodes, count: int, said: int | None) -> Worked:
        worked = Worker(self.column, self.lane.sections, self.search.changes, said).work(nodes, count)
        if worked.used != count and self.candidate.others:
            for other in self.candidate.others:
                try:
                    again = Worker(self.column, self.lane.sections, self.search.changes, said).work(
                        other, count
                    )
                except UnclearError:
                    continue
                if again.used == count and (said is None or again.left == said):
                    return again
        return worked

    def add(self, done: Round, nodes: Nodes, sections: Sections | None, *, assumed: bool = False) -> None:
        lane = self.lane
        if sections is not None:
            lane.sections = sections
        elif done.after != done.before and lane.sections:
            many = len(lane.sections)
            lane.sections = (done.after // many,) * many if done.after % many == 0 else None
        if done.after != done.before:
            self.rhythm(done)
        if assumed:
            self.note("markers", self.segment.start, 0.3)
        lane.chain = (lane.chain, Done(done, nodes, self.place))
        lane.worked += 1
        lane.count = done.after
        lane.number = done.number
        if self.first_after is None:
            self.first_after = done.after

    def rhythm(self, done: Round) -> None:
        """Another number of decreases than in the round before makes a reading dearer, where no count is printed."""
        if self.candidate.stated:
            return
        link = self.lane.chain
        for _ in range(12):
            if link is None:
                return
            before = link[1].round
            if before.after != before.before:
                if before.after - before.before != done.after - done.before:
                    self.cost += 0.3
                return
            link = link[0]

    def uneven(self, worked: Worked, said: int | None) -> _Faulty:
        """A line that works more or fewer stitches than there are."""
        lane = self.lane
        over = lane.count - worked.used
        counts: list[int] = []
        if said is not None:
            counts.append(said)
        else:
            change = self.usual_change()
            if change is not None and worked.left != worked.used and lane.count + change > 0:
                counts.append(lane.count + change)
            if over > 0:
                counts.append(worked.left + over)
            else:
                counts.append(lane.count)
        code = "left_over" if over > 0 else "runs_out"
        fault = Fault(
            code, self.place, self.fault_start(worked), lane.size, lane.count, worked.used, worked.left, said
        )
        return _Faulty(
            fault,
            tuple(dict.fromkeys(each for each in counts if 0 < each <= MOST_STITCHES)) or (lane.count,),
            WRONG,
        )

    def fault_start(self, worked: Worked) -> int:
        nodes = self.candidate.nodes
        if not nodes:
            return self.segment.start
        last = nodes[-1]
        return last.said[0] if isinstance(last, Fill) else nodes[0].start

    def usual_change(self) -> int | None:
        link = self.lane.chain
        for _ in range(12):
            if link is None:
                return None
            done = link[1].round
            if done.after != done.before:
                return done.after - done.before
            link = link[0]
        return None

    # --- rounds worked again

    def repeat(self, numbers: int, first: int) -> None:
        candidate, lane = self.candidate, self.lane
        if candidate.kind == "continue":
            self.goes_on(numbers, first)
            return
        if candidate.kind == "with":
            self.again_with()
            return
        rounds = self.rounds_again()
        lane.loop = rounds
        if candidate.length:
            self.note("to_a_length", self.segment.start)
            return
        target = candidate.until.of(self.column) if candidate.until is not None else None
        if target is not None:
            self.loop_until(rounds, target, first)
            return
        times = 1
        if candidate.times is not None:
            times = candidate.times.number.of(self.column) or 0
            if candidate.times.total and numbers == 0:
                times -= 1
        total = len(rounds) * times
        if candidate.rounds is not None:
            total = candidate.rounds.of(self.column) or 0
        if numbers:
            total = numbers
        for turn in range(min(total, MOST_ROUNDS + 1)):
            done = rounds[turn % len(rounds)]
            self.again(done, first + turn)

    def again(self, done: Done, number: int) -> None:
        """A round worked once more."""
        if done.nodes:
            nodes = done.nodes
            candidate, self.candidate = self.candidate, Candidate("round", 0.0, nodes, stated=())
            try:
                self.round(nodes, number)
            finally:
                self.candidate = candidate
            return
        raise UnclearError(
            "no_such_round", "There is no round before this to work again.", self.segment.start
        )

    def loop_until(self, rounds: tuple[Done, ...], target: int, first: int) -> None:
        lane, start, turns = self.lane, self.lane.count, 0
        while lane.count != target:
            before = lane.count
            for done in rounds:
                if lane.count == target and not fits_any_count(done.nodes):
                    break
                self.again(done, first + turns)
                turns += 1
            passed = (before - target) * (lane.count - target) < 0
            if lane.count == before or passed or turns > MOST_ROUNDS:
                fault = Fault(
                    "never_ends",
                    self.place,
                    self.until_start(),
                    lane.size,
                    start,
                    said=target,
                    left=lane.count,
                )
                raise _Faulty(fault, (target,), WRONG)

    def until_start(self) -> int:
        return (
            self.candidate.until.start
            if self.candidate.until is not None and self.candidate.until.start >= 0
            else self.segment.start
        )

    def rounds_again(self) -> tuple[Done, ...]:
        """The rounds that the segment says to work again."""
        again = self.candidate.again
        lane = self.lane
        assert again is not None
        start = again.start
        if again.last:
            link, found = lane.chain, []
            while link and len(found) < again.last:
                found.append(link[1])
                link = link[0]
            if len(found) < again.last:
                raise UnclearError("no_such_round", "There is no round before this to work again.", start)
            return tuple(reversed(found))
        rounds: list[Done] = []
        for number in again.named[:MOST_ROUNDS]:
            entry = lane.numbers.get(number) or self.stands(number) or lane.earlier.get(number)
            if entry is None or entry.segment == self.place:
                raise UnclearError(
                    "no_such_round", f"There is no round {number} before this to work again.", start
                )
            if not entry.candidate.nodes:
                found_done = self.worked_as(number)
                if found_done is None:
                    raise UnclearError(
                        "no_such_round", f"There is no round {number} before this to work again.", start
                    )
                rounds.append(found_done)
                continue
            rounds.append(Done(_ANY, entry.candidate.nodes, entry.segment))
        return tuple(rounds)

    def worked_as(self, number: int) -> Done | None:
        link = self.lane.chain
        while link:
            if link[1].round.number == number:
                return link[1]
            link = link[0]
        return None

    def again_with(self) -> None:
        """`again but with k9`: the rounds worked again, with another number of plain stitches."""
        lane = self.lane
        rounds = self.rounds_again() if self.candidate.again is not None else lane.loop
        stitch = self.candidate.nodes[0]
        if not rounds or not isinstance(stitch, Stitch):
            raise UnclearError(
                "no_such_round", "There is no round before this to work again.", self.segment.start
            )
        lane.loop = rounds
        for done in rounds:
            changed = _replaced(done.nodes, stitch)
            self.again(Done(done.round, changed, done.segment), lane.number + 1)

    def goes_on(self, numbers: int, first: int) -> None:
        """`Continue in this manner until 8 sts remain`: the crown goes on as it has begun."""
        lane, candidate = self.lane, self.candidate
        last, before, between, trailing = _last_shapings(lane.chain)
        if last is None:
            raise UnclearError(
                "not_understood", "There is no shaping before this to go on with.", self.segment.start
            )
        target = candidate.until.of(self.column) if candidate.until is not None else None
        turns = candidate.times.number.of(self.column) if candidate.times is not None else None
        gap = candidate.step - 1 if candidate.step else between if between is not None else min(trailing, 1)
        made = 0
        start = lane.count
        rounds = 0
        plain: Nodes = _PLAIN
        while (target is None or lane.count != target) and (turns is None or made < turns):
            for _ in range(max(0, gap - trailing)):
                self.plain_round(first + rounds, plain)
                rounds += 1
            trailing = 0
            steps = next_steps(lane.count, last, before)
            if steps is None or lane.worked >= MOST_ROUNDS:
                raise _Faulty(
                    Fault(
                        "never_ends",
                        self.place,
                        self.until_start(),
                        lane.size,
                        start,
                        said=target,
                        left=lane.count,
                    ),
                    (target or lane.count,),
                    WRONG,
                )
            done = work_round(min(first + rounds, HIGHEST), lane.count, steps)
            if target is not None and (lane.count - target) * (done.after - target) < 0:
                raise _Faulty(
                    Fault(
                        "never_ends",
                        self.place,
                        self.until_start(),
                        lane.size,
                        start,
                        said=target,
                        left=lane.count,
                    ),
                    (target,),
                    WRONG,
                )
            self.add(done, (), None)
            before, last = last, done
            made += 1
            rounds += 1
        while rounds < numbers:
            self.plain_round(first + rounds, plain)
            rounds += 1

    def plain_round(self, number: int, nodes: Nodes) -> None:
        steps: Steps = (Work("k", self.lane.count),)
        self.add(work_round(min(number, HIGHEST), self.lane.count, steps), nodes, self.lane.sections)

    # --- counts

    def check(self) -> None:
        """Whether the printed counts are those worked."""
        lane = self.lane
        label = self.segment.label
        loop = self.candidate.kind in ("loop", "continue", "with")
        standing = label is not None and label.kind == "every"
        if standing:
            return
        for stated, after in printed(self.candidate, self.before, self.column):
            right = after == lane.count or (not loop and after == self.first_after)
            if not right:
                wrong_way = (lane.count - self.before) * (after - self.before) < 0
                code = "wrong_way" if wrong_way else "count_differs"
                fault = Fault(
                    code, self.place, stated.start, lane.size, self.before, self.before, lane.count, after
                )
                raise _Faulty(
                    fault,
                    (lane.count, after) if not stated.sign and 0 < after <= MOST_STITCHES else (lane.count,),
                    WRONG_COUNT,
                )


_PLAIN: Final[Nodes] = (
    Fill((Stitch("k", Number((1,)), -1, -1, bare=True),), Number((0,)), -1, -1, (-1, -1)),
)
_ANY: Final = Round(number=1, before=1, after=1, steps=(Work("k", 1),))


def _replaced(nodes: Nodes, stitch: Stitch) -> Nodes:
    """The tree with another number for its first stitches of this kind."""
    from msgspec.structs import replace

    made = []
    changed = False
    for node in nodes:
        if changed:
            made.append(node)
        elif isinstance(node, Stitch) and node.name == stitch.name and not node.bare:
            made.append(stitch)
            changed = True
        elif hasattr(node, "nodes"):
            inner = _replaced(node.nodes, stitch)
            changed = inner != node.nodes
            made.append(replace(node, nodes=inner))
        else:
            made.append(node)
    return tuple(made)


def _last_shapings(chain: Chain) -> tuple[Round | None, Round | None, int | None, int]:
    """The last round that shaped and the one before it, the plain rounds between, and those since."""
    last = before = None
    between = trailing = 0
    link = chain
    for _ in range(60):
        if link is None:
            break
        done = link[1].round
        link = link[0]
        shapes = done.after != done.before
        if last is None:
            if shapes:
                last = done
            else:
                trailing += 1
        elif shapes:
            before = done
            break
        else:
            between += 1
    return last, before, between if before is not None else None, trailing


def says_nothing(nodes: Nodes) -> bool:
    """Whether a tree comes out on any count."""
    return fits_any_count(nodes)
