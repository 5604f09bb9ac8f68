"""The search for the explanation of a text that comes out: all its segments worked, for all sizes together.

A state is what the knitter has on the needles after some segments, in one way to understand them, with what had to be
assumed and what does not come out as its cost. The cheapest states are kept after every segment.
"""

from __future__ import annotations

from typing import Final, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from roundwright.language import say
from roundwright.wording.reading.application import apply
from roundwright.wording.reading.called import MOST_TOLD, is_called_next, only_told
from roundwright.wording.reading.candidates import candidates, is_spoken, is_told
from roundwright.wording.reading.chart_told import told_below, without_told
from roundwright.wording.reading.ending import behind_the_end, end_of_work
from roundwright.wording.reading.headings import tells_fabric
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.line_work import Desk
from roundwright.wording.reading.numbering import flush
from roundwright.wording.reading.scope import Scope, Sizes
from roundwright.wording.reading.segment import Cut, Segment
from roundwright.wording.reading.states import (
    DROPPED,
    FURTHER_DOWN,
    WRONG,
    Budget,
    Done,
    Explanation,
    Fault,
    Faults,
    Lane,
    State,
    unrolled,
)
from roundwright.wording.reading.told_in_turn import turns_near, with_rounds_in_turn_near
from roundwright.wording.reading.tree import Nodes, Number

BEAM: Final = 8
"""States that are kept."""
MOST_STEPS: Final = 4_500
"""Steps of the search for one text, each one or two microseconds."""
MOST_STEPS_OF_SIZE: Final = 2_700
"""Steps in addition for every size: the longest hat the service writes takes 4,900 in one size, 28,000 in twelve."""
STEPS_FOR_SEGMENT: Final = 20
"""Steps it takes to find the candidates of a segment, and as many for every five phrases."""
LOOK_AHEAD: Final = 2
"""Segments behind words that can be cut in several ways, which the cut is judged by too."""
COMES_OUT: Final = 1.0
"""What the first cut may cost for no other to be tried."""
BETTER_CUT: Final = 2.0
"""How much less another cut has to cost to be taken."""
NO_EXTRA: Final = 0.05
"""A candidate that costs less than this more than before comes out as the pattern says."""


_Placed = TypeVar("_Placed", Done, Fault)


class _Trial(Struct):
    """Segments on trial: the cost after them all, how much in them is wrong, the states after the first."""

    segments: list[Segment]
    cost: float
    errors: int
    states: list[State]
    known: dict[int, list[Candidate]]
    before: dict[int, list[State]]


class Search:
    """The search over the segments of one text."""

    def __init__(self, segments: list[Segment], sizes: Sizes, budget: Budget | None = None) -> None:
        self.segments = segments
        self.sizes = sizes
        self.width = sizes.width
        self.cast_on = sizes.cast_on
        self.scope = Scope(sizes)
        self.budget = budget or Budget(MOST_STEPS + MOST_STEPS_OF_SIZE * sizes.width)
        self.desk = Desk(segments, self.budget)
        lanes = zip(sizes.cast_on, sizes.columns, strict=True)
        self.states = [State(tuple(Lane(size, column, count) for size, (count, column) in enumerate(lanes)))]
        self.known: dict[int, list[Candidate]] = {}
        self.before: dict[int, list[State]] = {}
        self.end = end_of_work(segments)

    def fresh(
        self, segments: list[Segment], budget: Budget, cast_on: int | None = None, size: int = 0
    ) -> Search:
        """A search over other segments, or of one size from another cast-on; it knows the lines worked in this."""
        sizes = self.sizes
        if cast_on is not None:
            sizes = replace(sizes, cast_on=(cast_on,), columns=(sizes.columns[size],))
        search = Search(segments, sizes, budget)
        search.desk.known, search.scope = self.desk.known, self.scope
        return search

    def follow(self, other: Search) -> int:
        """Take over what was found of the segments with which the text begins as another does; how many they are.

        None are where lines say later what rounds before them are: those hold for the text as it was.
        """
        if self.desk.told_later.lines or other.desk.told_later.lines:
            return 0
        same = 0
        for own, known in zip(self.segments, other.segments, strict=False):
            if own != known:
                break
            same += 1
        if self.end != other.end:
            same = min(same, self.end + 1, other.end + 1)
        for place in range(max(0, same - MOST_TOLD), same):
            if self.looks_ahead(place) != other.looks_ahead(place):
                same = place
                break
        self.known = {place: options for place, options in other.known.items() if place < same}
        self.before = {place: states for place, states in other.before.items() if place < same}
        self.desk.known, self.scope = other.desk.known, other.scope
        self.states = other.states_before(same)
        return same

    def looks_ahead(self, place: int) -> tuple[bool, bool, int, tuple[Number | None, tuple[Nodes, ...]]]:
        """What the segments behind this one say of it."""
        below = told_below(self.segments, place)
        turns = turns_near(self.segments, place)
        return is_called_next(self.segments, place), tells_fabric(self.segments, place), below, turns

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
            tells = tells_fabric(self.segments, place)
            options = [Candidate("prose", 0.0)] if tells else candidates(self.segments[place])
            if not tells:
                options = with_rounds_in_turn_near(self.segments, place, options)
            if is_called_next(self.segments, place):
                options = only_told(options)
            if below := told_below(self.segments, place):
                options = without_told(options, below)
            if place > self.end:
                options = behind_the_end(self.segments[place], options)
            self.known[place] = options
            self.budget.spend(_steps_for(self.segments[place]))
        return options

    def run(self, start: int = 0) -> Explanation:
        """The cheapest explanation of all segments, or of those from `start` on."""
        place = start
        while place < len(self.segments):
            if self.budget.left <= 0:
                self.give_up(place)
                break
            place += self.pass_over(place)
        return self.finish(self.states[0])

    def pass_over(self, place: int) -> int:
        """Work a segment, cut as it comes out where there are several ways; how many are done."""
        if self.segments[place].cuts:
            return self.choose(place)
        self.advance(place)
        return 1

    def choose(self, place: int) -> int:
        """Work the words from here on, cut as they come out best; the segments are those of that cut from now on.

        The first cut is kept where its own segment comes out, or unless another comes out with what follows.
        """
        first, states = self.segments[place], self.states
        cost = states[0].cost
        reach = max(cut.length for cut in first.cuts)
        if reach == 1:
            self.advance(place)
            if self.states[0].cost - cost < COMES_OUT or self.budget.left <= 0:
                return 1
            self.states = states
        old = self.segments[place : place + reach + LOOK_AHEAD]
        best: _Trial | None = None
        for cut in (Cut(1, (replace(first, cuts=()),)), *first.cuts):
            trial = self.tried(place, old, [*cut.segments, *old[cut.length :]])
            if best is None or (_comes_out_better(trial, best) and trial.cost < best.cost - BETTER_CUT):
                best = trial
            if self.budget.left <= 0 or best.cost - cost < COMES_OUT:
                break
        assert best is not None
        self.put(place, old, best.segments)
        if best.segments[0].cuts:
            return 0
        self.known.update(best.known)
        self.before.update(best.before)
        self.states = best.states
        return 1

    def put(self, place: int, old: list[Segment], new: list[Segment]) -> None:
        """Put other segments in place of the old."""
        self.segments[place : place + len(old)] = new
        if len(old) != len(new):
            self.desk.forget()
            self.end += len(new) - len(old) if self.end > place else 0

    def tried(self, place: int, old: list[Segment], new: list[Segment]) -> _Trial:
        """What comes of other segments in place of the old; the search is left as it was."""
        known, before, states = self.known, self.before, self.states
        self.known, self.before = {}, {}
        self.put(place, old, new)
        after = states
        for at in range(place, place + len(new)):
            if self.budget.left <= 0:
                break
            self.advance(at)
            if at == place:
                after = self.states
        errors = _new_errors(self.states[0].faults, states[0].faults)
        trial = _Trial(new, self.states[0].cost, errors, after, self.known, self.before)
        self.put(place, new, old)
        self.known, self.before, self.states = known, before, states
        return trial

    def give_up(self, place: int) -> None:
        """What is not read for want of steps is told."""
        message = say("read.text_too_dear")
        state = self.states[0]
        fault = Fault("too_long", place, self.segments[place].start, text=message)
        self.states = [State(state.lanes, state.cost + DROPPED, (state.faults, fault), state.choices)]

    def finish(self, state: State) -> Explanation:
        """A state as an explanation."""
        rounds = []
        faults: list[Fault] = []
        for lane in state.lanes:
            after = lane.copy()
            flush(self.desk, after)
            rounds.append(tuple([self.placed(done) for done in unrolled(after.chain)]))
            if after.waiting and after.printed and not (faults or after.loose):
                faults.append(self.missing_before(after))
        link = state.faults
        while link:
            link, fault = link
            faults.append(self.placed(fault))
        choices: list[tuple[int, Candidate]] = []
        chosen = state.choices
        while chosen:
            chosen, choice = chosen
            choices.append(choice)
        return Explanation(tuple(rounds), tuple(reversed(faults)), tuple(reversed(choices)), state.cost)

    def missing_before(self, lane: Lane) -> Fault:
        """The rounds that are lacking before one that still waits at the end: `Rnds 1, 3 and 5: ...` alone."""
        number = min(lane.waiting)
        place = self.desk.place(lane.waiting[number].segment)
        text = f"{lane.printed},{lane.printed + 1},{number - 1},{number}"
        return Fault("round_missing", place, self.segments[place].start, text=text, note=True)

    def placed(self, work: _Placed) -> _Placed:
        """A round or a fault with the place of its segment, now that all are cut."""
        return replace(work, segment=self.desk.place(work.segment)) if work.segment >= FURTHER_DOWN else work

    def advance(self, place: int) -> None:
        """Work a segment on every state, in every way it may be meant; the cheapest states are kept."""
        options = self.options(place)
        if options[0].kind == "prose" and not options[0].cost:
            return
        states: list[State] = []
        self.before[place] = self.states
        for state in self.states:
            for candidate in options:
                made = apply(self.desk, self.scope, state, place, candidate)
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


def _steps_for(segment: Segment) -> int:
    """Steps it took to find the candidates of a segment: one where its words are told, and not looked into."""
    if is_told(segment):
        return 1
    steps = STEPS_FOR_SEGMENT * (1 + len(segment.phrases) // 5)
    return steps // 2 if is_spoken(segment) else steps


def _new_errors(faults: Faults, before: Faults) -> int:
    """How many things are wrong that were not before."""
    errors = 0
    while faults is not None and faults is not before:
        faults, fault = faults
        errors += not fault.note
    return errors


def _comes_out_better(trial: _Trial, best: _Trial) -> bool:
    """Whether nothing is wrong with a cut, or less than with the best so far."""
    return not trial.errors or trial.errors < best.errors


def _comes_out(state: State, candidate: Candidate, made: list[State]) -> bool:
    """Whether a candidate leaves nothing to ask: it costs nothing, or it leaves the count that is printed."""
    if len(made) != 1 or candidate.kind == "prose" or candidate.explained:
        return False
    extra = made[0].cost - state.cost
    if candidate.stated:
        return extra - candidate.cost < NO_EXTRA
    in_all = candidate.times is not None and candidate.times.total  # with or without the first
    return extra < NO_EXTRA and not candidate.how and not in_all


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
