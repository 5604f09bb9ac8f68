"""One way to understand a line, worked on one size: its rounds, and whether they come out."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from contextlib import suppress
from functools import cached_property
from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import (
    MOST_ROUNDS,
    MOST_STITCHES,
    Repeat,
    Round,
    Step,
    stitch_names,
    uses_and_leaves,
)
from roundwright.knitting.rounds.work_round import work_round
from roundwright.language import say
from roundwright.wording.reading.fabric_ways import ribs_told
from roundwright.wording.reading.headings import changes_in_first_round
from roundwright.wording.reading.instructions import Candidate, printed
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.needles import MOST_NEEDLES
from roundwright.wording.reading.phrases import (
    AtEnds,
    CastOn,
    Chart,
    Count,
    Every,
    Extent,
    Fabric,
    Markers,
    Needlewise,
    PerPart,
    Phrase,
    Rounds,
    Said,
    counts_of,
    names_rib,
    opened,
)
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.states import (
    FURTHER_DOWN,
    WRONG,
    WRONG_COUNT,
    Budget,
    Done,
    Entry,
    Fault,
    FaultyError,
    Lane,
    last_shaping,
)
from roundwright.wording.reading.told_later import FirstCandidates, ToldLater
from roundwright.wording.reading.tree import Evenly, Fill, Nodes, Number, Stated, Stitch, named
from roundwright.wording.reading.vocabulary import words_of
from roundwright.wording.reading.worked import USUAL_NEEDLES, Sections, UnclearError, Worked
from roundwright.wording.reading.working import Worker

HIGHEST: Final = 10_000
"""Highest number of a round."""
PLAIN: Final[Nodes] = (Fill((Stitch("k", Number((1,)), -1, -1, bare=True),), Number((0,)), -1, -1, (-1, -1)),)
"""A plain round."""
OTHER_CHANGE: Final = 0.3
"""What another number of decreases than in the round before costs, where no count is printed."""

FEWEST_APART: Final = 2
"""Rounds from one decrease to the next where plain ones stand between."""
_BEGINNING: Final = frozenset(("next", "this", "first"))
"""Words before the round on which decreases begin."""


class Desk:
    """What the work on one text shares: its segments, the lines already worked on a count, and the budget."""

    def __init__(self, segments: list[Segment], budget: Budget) -> None:
        self.segments = segments
        self.budget = budget
        self.begins = _begin_of_work(segments)
        """Where the segment begins that casts on; rounds with numbers before it tell a stitch pattern."""
        self.headings = [segment.start for segment in segments if segment.heading]
        self.known: dict[
            tuple[int, int, int, Sections | None, int | None, int | None], tuple[Nodes, Worked | UnclearError]
        ] = {}
        self.first_candidates: FirstCandidates = {}

    @cached_property
    def told_later(self) -> ToldLater:
        """The lines for plain rounds that are told apart from the others."""
        return ToldLater(self.segments, self.first_candidates)

    @cached_property
    def cast_ons(self) -> frozenset[int]:
        """All counts that the text casts on, for all sizes alike."""
        phrases = [phrase for segment in self.segments for phrase in segment.phrases]
        numbers = [phrase.number.values for phrase in phrases if type(phrase) is CastOn]
        return frozenset(values[0] or 0 for values in numbers if len(values) == 1)

    @cached_property
    def pages(self) -> frozenset[int]:
        """The numbers alone on a line that rise by one from one to the next: those of pages, which no counts do."""
        alone = [number for number in map(bare_number, self.segments) if number is not None]
        rising = [(below, above) for below, above in pairwise(alone) if above == below + 1]
        return frozenset(number for pair in rising for number in pair)

    @cached_property
    def needles(self) -> list[tuple[int, Number]]:
        """On how many needles the stitches are said to be, and in which segments."""
        return [
            (place, phrase.needles)
            for place, segment in enumerate(self.segments)
            for phrase in segment.phrases
            if type(phrase) is Said and phrase.needles is not None
        ]

    def forget(self) -> None:
        """Forget what is known of segments by their places: there are others now."""
        self.__dict__.pop("told_later", None)
        self.__dict__.pop("starts", None)
        self.__dict__.pop("needles", None)

    @cached_property
    def starts(self) -> list[int]:
        """Where each segment begins."""
        return [segment.start for segment in self.segments]

    def place(self, segment: int) -> int:
        """The place of a segment that a round, an entry or a fault is of, among the segments there are now."""
        if segment < FURTHER_DOWN:
            return segment
        start = segment - FURTHER_DOWN
        place = bisect_left(self.starts, start)
        begins = place < len(self.starts) and self.starts[place] == start
        return place if begins else max(place - 1, 0)

    def part(self, place: int) -> int:
        """How many headings stand before a segment."""
        return bisect_right(self.headings, self.segments[place].start)

    def work(
        self,
        nodes: Nodes,
        column: int,
        count: int,
        sections: Sections | None,
        *,
        wanted: int | None,
        per_section: int | None,
    ) -> Worked:
        """The line worked on a count, from memory where it was worked on that before."""
        key = (id(nodes), column, count, sections, wanted, per_section)
        known = self.known.get(key)
        if known is None:
            worker = Worker(column, sections, wanted=wanted, per_section=per_section)
            try:
                known = (nodes, worker.work(nodes, count))
            except UnclearError as error:
                known = (nodes, error)
            self.known[key] = known
            self.budget.spend(worker.steps)
        worked = known[1]
        if isinstance(worked, UnclearError):
            raise worked
        return worked


def _begin_of_work(segments: list[Segment]) -> int:
    """Where the cast-on stands, if numbered rounds stand before it and none with a count; else 0."""
    numbered = False
    for segment in segments:
        if CastOn in [type(phrase) for phrase in segment.phrases]:
            return segment.start if numbered else 0
        numbered = numbered or (segment.label is not None and segment.label.kind == "numbered")
        if Count in [type(phrase) for phrase in segment.phrases] and segment.label is not None:
            return 0
    return 0


def _works_rib(steps: tuple[Step, ...]) -> bool:
    """Whether a round that keeps the count has one knit stitch, plain or twisted, and one purl stitch."""
    names = stitch_names(steps)
    purls = {name for name in names if name.startswith("p")}
    return len(purls) == 1 == len(names - purls)


def _is_round(phrase: Phrase) -> bool:
    """Whether a round is named, or every so many."""
    every = type(phrase) is Rounds and phrase.every
    return every or (type(phrase) is Said and phrase.text in words_of("round"))


class LineWork:
    """A candidate worked on one size."""

    def __init__(self, desk: Desk, lane: Lane, place: int, candidate: Candidate) -> None:
        self.desk = desk
        self.lane = lane
        self.place = place
        self.segment = desk.segments[desk.place(place)]
        self.candidate = candidate
        self.column = column_of(self.segment.label, lane.column, candidate)
        self.notes: list[tuple[Fault, float]] = []
        self.cost = 0.0
        self.before = lane.count
        self.first_after: int | None = None
        self.reached: set[int] = set()  # the counts after its rounds

    def printed_count(self) -> int | None:
        """The count printed with the segment, the last of several."""
        counts = [after for _, after in printed(self.candidate, self.before, self.column)]
        return counts[-1] if counts and 0 <= counts[-1] <= MOST_STITCHES else None

    def note(self, code: str, start: int, cost: float = 0.0, *, text: str = "", error: bool = False) -> None:
        """Something to be known about the line, whatever else comes of it."""
        note = (Fault(code, self.place, start, text=text, note=not error), cost)
        if note not in self.notes:
            self.notes.append(note)

    def never_ends(self, start: int, count: int, target: int | None) -> FaultyError:
        """Rounds that never come to the count they are worked to."""
        lane = self.lane
        fault = Fault("never_ends", self.place, start, lane.size, count, stated=target, left=lane.count)
        return FaultyError(fault, (target or lane.count,), WRONG)

    # --- rounds

    def once(self, number: int, *, single: bool = False, shaped: bool = True) -> None:
        """The candidate worked, for one number: one round, or as many as it says.

        `shaped`: whether the round of several that changes the count, their first or last, is among these.
        """
        candidate, lane = self.candidate, self.lane
        if candidate.until is not None:
            self.until_count(number, candidate.until.of(self.column) or 0)
            return
        rounds = 1 if single else self.how_many()
        if candidate.length:
            self.note("to_a_length", self.segment.start)
        if candidate.chart:
            self.note("chart", self.segment.start)
        if rounds + lane.worked > MOST_ROUNDS:
            self.note("too_many_rounds", self.segment.start, 1.0, error=True)
            rounds = max(0, MOST_ROUNDS - lane.worked)
        last = candidate.last if shaped else ()
        plain = rounds - 1 if last and not candidate.length else rounds
        if last and candidate.at_once:  # 20 rounds, decreasing 8 sts in the first round
            self.round(last, number)
            number, last = number + 1, ()
        turns = candidate.turns or ((self.rib_before() if candidate.ribbed else ()) or candidate.nodes,)
        apart = max(candidate.step, 1) if candidate.times is not None else 1  # on every other round, 5 times
        for _ in range(0 if single else self.rounds_to_next(apart)):
            self.round(PLAIN, number)
            number += 1
        for turn in range(plain):
            for between in range(1, apart) if turn else ():
                self.round(PLAIN, number + (turn - 1) * apart + between)
            left = plain - turn if candidate.times is not None else 1
            self.round(turns[turn % len(turns)], number + turn * apart, left)
        if last:
            self.round(last, number + max(plain, 0))

    def rounds_to_next(self, apart: int) -> int:
        """Plain rounds from the last decrease to the first of those so far apart: `Dec 8. Dec 8 every 4th rnd`."""
        times = self.candidate.times
        if apart < FEWEST_APART or times is None or self.begins_itself():
            return 0
        chain, plain = self.lane.chain, 0
        while chain and plain < apart and chain[1].round.after == chain[1].round.before:
            self.desk.budget.spend(1)
            chain, plain = chain[0], plain + 1
        follows = chain and chain[1].round.after < chain[1].round.before
        if not chain or not follows or self.is_behind_heading(chain[1].segment):
            return 0
        return max(0, apart - 1 - plain) if times.more or not plain else 0

    def begins_itself(self) -> bool:
        """Whether it says on which round it begins: `Beginning with the next round, dec 8 every other rnd 3 times`.

        So it does in `on this and every 4th rnd`.
        """
        phrases = [
            phrase for phrase in self.segment.phrases if type(phrase) is not Said or phrase.text != "and"
        ]
        return any(
            type(word) is Said and word.text in _BEGINNING and _is_round(behind)
            for word, behind in pairwise(phrases)
        )

    def is_behind_heading(self, place: int) -> bool:
        """Whether a heading stands between that segment and this one."""
        desk = self.desk
        return desk.part(desk.place(self.place)) > desk.part(desk.place(place))

    def how_many(self) -> int:
        """How many rounds the candidate is."""
        candidate, lane = self.candidate, self.lane
        if candidate.rounds is not None:
            rounds = candidate.rounds.of(self.column) or 0
            rounds = max(0, rounds - lane.worked * candidate.from_start)
            return max(0, rounds - (candidate.from_first and self.follows_first()))
        if candidate.last_round is not None:
            last = candidate.last_round.of(self.column) or 0
            return max(1, last - self.is_told_next(last) - lane.number)
        return 1

    def is_told_next(self, number: int) -> bool:
        """Whether the line behind tells the round of this number: `Knit until the 10th rnd. Rnd 10: *k8, k2tog*`."""
        segments, place = self.desk.segments, self.desk.place(self.place) + 1
        label = segments[place].label if place < len(segments) else None
        if label is None or label.kind != "numbered" or not label.spans:
            return False
        return label.spans[0].first.of(self.column) == number

    def stand(self, entry: Entry, number: int) -> None:
        """One round, under this number, of a line told elsewhere that stands for it: `Every even rnd: knit`."""
        LineWork(self.desk, self.lane, entry.segment, entry.candidate).once(number, single=True)

    def follows_first(self) -> bool:
        """Whether the segment before shaped a round that is the first: `Rnd 1: inc 6 sts`, `inc in the first round`."""
        if self.lane.chain is None or self.lane.chain[1].segment != self.place - 1:
            return False
        round, place = self.lane.chain[1].round, self.desk.place(self.place) - 1
        first = round.number == 1 and round.before != round.after
        return first or changes_in_first_round(self.desk.segments, place)

    def until_count(self, number: int, target: int) -> None:
        """Rounds of the candidate until so many stitches are left, or so many on each needle."""
        lane = self.lane
        turns, start = 0, lane.count
        held = target if self.candidate.per else 0
        while lane.count != target:
            before = lane.count
            for _ in range(self.candidate.step - 1 if turns else 0):
                self.round(PLAIN, number + turns)
                turns += 1
            self.round(self.candidate.nodes, number + turns)
            turns += 1
            if held and (parts := self.parts()):
                target = held * parts
            passed = (before - target) * (lane.count - target) < 0
            if lane.count == before or passed or turns > MOST_ROUNDS:
                raise self.never_ends(self.segment.start, start, target)

    def round(self, nodes: Nodes, number: int, turns: int = 1) -> None:
        """One round of the tree, the first of so many turns, after the last of which the printed count is left."""
        lane = self.lane
        if lane.worked >= MOST_ROUNDS:
            raise FaultyError(Fault("too_many_rounds", self.place, self.segment.start), (lane.count,), 2.0)
        if self.desk.budget.left <= 0:
            message = say("read.line_too_dear")
            raise FaultyError(
                Fault("too_long", self.place, self.segment.start, text=message), (lane.count,), 2.0
            )
        self.desk.budget.spend(2)
        counted = self.candidate.stated and self.candidate.until is None  # else it is that of the last round
        stated = self.printed_count() if counted else None
        if stated is not None and turns > 1:
            change, rest = divmod(stated - lane.count, turns)
            stated = None if rest else lane.count + change
        nodes = self.on_every_part(nodes, stated)
        worked = self.work(nodes, lane.count, stated)
        if worked.used != lane.count:
            raise self.uneven(worked, stated)
        if not worked.steps:
            raise UnclearError("not_understood", say("read.nothing_worked"), self.segment.start)
        if worked.assumed and (place := self.missing_column()) is not None:
            raise UnclearError("not_understood", say("read.no_purl_stitch"), place)
        try:
            done = work_round(min(max(number, 1), HIGHEST), lane.count, worked.steps)
        except Impossible as error:
            raise UnclearError("not_understood", error.detail, self.segment.start) from error
        self.add(done, nodes, worked.sections, assumed=worked.assumed)
        if nodes and nodes[0].start in lane.kept:
            lane.count = done.before

    def rib_before(self) -> Nodes:
        """The rib worked last that was called so, or any, or the nearest told before; empty where none comes out."""
        chain, count = self.lane.chain, self.lane.count
        other: Nodes = ()
        while chain:
            chain, done = chain
            self.desk.budget.spend(1)
            if done.round.before == done.round.after == count and _works_rib(done.round.steps):
                segment = self.desk.segments[self.desk.place(done.segment)]
                called = segment.label is not None and segment.label.named == named("rib")
                if called or any(map(names_rib, segment.phrases)):
                    return done.nodes
                other = other or done.nodes
        if other:
            return other
        place = self.desk.place(self.place)
        self.desk.budget.spend(place // 8)
        for before in range(place - 1, -1, -1):
            for nodes in ribs_told(self.desk.segments, before):
                with suppress(UnclearError):
                    worked = self.work(nodes, count, None)
                    if worked.used == worked.left == count and _works_rib(worked.steps):
                        return nodes
        self.note("rib_not_told", self.segment.start)
        return ()

    def missing_column(self) -> int | None:
        """Where it is told to go on to a purl stitch though all rounds since the cast-on are known and have none."""
        phrases = [inner for phrase in self.segment.phrases for inner in opened(phrase)]
        start = next((phrase.start for phrase in phrases if type(phrase) is Extent and phrase.purl), None)
        segments, chain = self.desk.segments[: self.desk.place(self.place)], self.lane.chain
        before = [phrase for segment in segments for phrase in segment.phrases] if start is not None else []
        if CastOn not in map(type, before) or any(map(_tells_elsewhere, before)):
            return None
        self.desk.budget.spend(len(before) // 8)
        while chain:
            chain, done = chain
            self.desk.budget.spend(1)
            if any(name.startswith("p") for name in stitch_names(done.round.steps)):
                return None
        return start

    def work(self, nodes: Nodes, count: int, stated: int | None) -> Worked:
        """The tree worked on a count; where it does not come out, another tree of the candidate that does."""
        sections = self.lane.sections or self.on_needles(count) or self.repeats_before(count)
        number = self.candidate.per_section
        per_section = number.of(self.column) if number is not None else None
        worked = self.desk.work(nodes, self.column, count, sections, wanted=stated, per_section=per_section)
        if worked.used == count:
            return worked
        for other in self.candidate.others:
            try:
                again = self.desk.work(
                    other, self.column, count, sections, wanted=stated, per_section=per_section
                )
            except UnclearError:
                continue
            if again.used == count and (stated is None or again.left == stated):
                return again
        return worked

    def on_every_part(self, nodes: Nodes, stated: int | None) -> Nodes:
        """Changes told for each needle or section as those of the round: `inc 2 sts on each needle`."""
        places = [phrase for phrase in self.segment.phrases if type(phrase) is Needlewise]
        match nodes:
            case (Evenly(to=False, change=change) as evenly,) if places:
                number = change.of(self.column) or 0
            case _:
                return nodes
        known = (places[0].number.of(self.column) if places[0].number else 0) or self.needles_told()
        parts = known or len(self.lane.sections or ()) or (self.parts() if places[0].needle else 1)
        made, rest = divmod(abs((stated or 0) - self.lane.count), max(number, 1))
        if stated is not None and not rest and made in (1, *NEEDLES) and not known:
            parts = made
        return (replace(evenly, change=Number((number * max(parts, 1),))),)

    def on_needles(self, count: int) -> Sections | None:
        """The stitches of each needle, where the line works on each and it is said how many there are."""
        needles = self.needles_told()
        on_each = any(
            isinstance(phrase, Needlewise | AtEnds) and phrase.needle for phrase in self.segment.phrases
        )
        return (count // needles,) * needles if on_each and needles and count % needles == 0 else None

    def needles_told(self) -> int:
        """On how many needles the stitches are, as it was said last; 0 where it was not."""
        places, place = self.desk.needles, self.desk.place(self.place)
        at = bisect_right(places, place, key=lambda needles: needles[0]) - 1
        number = places[at][1].of(self.column) or 0 if at >= 0 else 0
        return number if number in NEEDLES else 0

    def repeats_before(self, count: int) -> Sections | None:
        """The sections that the last decrease round was worked in, a repeat each; None where it had no such repeats."""
        last = self.lane.chain[1].round if self.lane.chain else None
        match last.steps if last is not None and last.after < last.before else ():
            case (Repeat(times=times),) if count % times == 0:
                return (count // times,) * times
            case _:
                return None

    def add(self, done: Round, nodes: Nodes, sections: Sections | None, *, assumed: bool = False) -> None:
        """A round that came out."""
        lane = self.lane
        changed = done.after != done.before
        if sections is not None:
            lane.sections = sections
        elif changed and lane.sections:
            parts = len(lane.sections)
            lane.sections = (done.after // parts,) * parts if done.after % parts == 0 else None
        if lane.sections is None and self.candidate.per_section is not None:
            lane.sections = equal_needles(done.after, self.candidate.per_section.of(self.column) or 0)
        if changed and not self.candidate.stated:
            before = last_shaping(lane.chain)
            if before is not None and before.after - before.before != done.after - done.before:
                self.cost += OTHER_CHANGE
        if assumed:
            self.note("markers", self.segment.start, 0.3)
        lane.chain = (lane.chain, Done(done, nodes, self.place))
        lane.worked += 1
        lane.count = done.after
        lane.number = done.number
        self.reached.add(done.after)
        if self.first_after is None:
            self.first_after = done.after

    # --- what does not come out

    def uneven(self, worked: Worked, stated: int | None) -> FaultyError:
        """A line that works more or fewer stitches than there are."""
        count = self.lane.count
        over = count - worked.used
        if stated is not None:
            counts = [stated]
        else:
            counts = [worked.left + over if over > 0 else count]
            if worked.left != worked.used:
                counts[:0] = self.expected()
                if worked.used and worked.left * count % worked.used == 0:
                    counts.append(worked.left * count // worked.used)  # worked another number of times
        code = "left_over" if over > 0 else "runs_out"
        start = fault_start(self.segment, self.candidate.nodes)
        fault = Fault(code, self.place, start, self.lane.size, count, worked.used, worked.left, stated)
        possible = tuple(dict.fromkeys(count for count in counts if 0 < count <= MOST_STITCHES))
        return FaultyError(fault, possible or (count,), WRONG)

    def expected(self) -> list[int]:
        """The count that is left if as many stitches are worked together as in the last round that shaped."""
        last = last_shaping(self.lane.chain)
        return [self.lane.count + last.after - last.before] if last is not None else []

    def check(self) -> None:
        """Whether the printed counts are those worked."""
        lane, label = self.lane, self.segment.label
        if self.candidate.explained or (label is not None and (label.kind == "every" or label.defines)):
            return
        if lane.begin and label is not None and label.kind == "numbered" and lane.printed < lane.begins_at():
            return  # the size begins with a later round, and the count is that of others
        loop = self.candidate.kind in ("loop", "continue", "with")
        counts = printed(self.candidate, self.before, self.column)
        for place, (stated, after) in enumerate(counts):
            if after == lane.count or (not loop and after == self.first_after):
                continue
            if after * self.needles() == lane.count:
                continue  # knit 4, knit 2 together, four times on each needle (20)
            if not stated.sign and self.counts_repeat(after):
                continue  # *k9, k2tog* (10 sts)
            if stated.dashed and not loop and not stated.sign and self.before - after == lane.count:
                continue  # ... k2tog around. -8 sts
            begun = loop and not place and after == self.before  # from 72 down to 60, 48, 36 sts
            if place < len(counts) - 1 and not stated.sign and (begun or after in self.reached):
                continue  # decrease on every round: 60, 48, 36 sts
            if label is None and not stated.sign and self.counts_others(stated, after):
                continue  # Purl, knit, purl, knit. That's four.
            wrong_way = (lane.count - self.before) * (after - self.before) < 0
            code = "wrong_way" if wrong_way else "count_differs"
            fault = Fault(
                code, self.place, stated.start, lane.size, self.before, self.before, lane.count, after
            )
            possible = not stated.sign and 0 < after <= MOST_STITCHES
            raise FaultyError(fault, (lane.count, after) if possible else (lane.count,), WRONG_COUNT)

    def count_kept(self) -> Fault | None:
        """The fault of a round in lace that loses or gains stitches and prints no count, as a left-out yarn over makes.

        Lace pays each decrease with a yarn over (common practice). None where it does so, or is no lace.
        """
        lane = self.lane
        if self.candidate.stated or lane.chain is None or lane.count == self.before:
            return None
        done = lane.chain[1]
        if not done.nodes or done.segment != self.place or done.round.before != self.before:
            return None
        names, table = stitch_names(done.round.steps), uses_and_leaves()
        if YARN_OVER not in names or not any(table[name][0] > table[name][1] for name in names):
            return None
        start = done.nodes[0].start
        return Fault(
            COUNT_KEPT, self.place, start, lane.size, self.before, self.before, lane.count, self.before
        )

    def check_needles(self) -> None:
        """Whether so many stitches are on each needle as is printed, where a line before said how many needles."""
        lane, number = self.lane, self.candidate.per_needle
        held = number.of(self.column) or 0 if number is not None else 0
        if number is None or held < FEWEST_ON_NEEDLE:
            return
        needles, other = divmod(lane.count, held)
        if not other and needles in NEEDLES:
            lane.needles = needles
            return
        stated = held * lane.needles
        change = abs(self.before - lane.count)
        if not lane.needles or stated == change or 2 * abs(stated - lane.count) > lane.count:
            return  # `2 sts on each needle` may be those that were taken away
        fault = Fault(
            "count_differs", self.place, number.start, lane.size, self.before, self.before, lane.count, stated,
            needles=lane.needles,
        )  # fmt: skip
        raise FaultyError(fault, (lane.count, stated), WRONG_COUNT)

    def counts_others(self, stated: Stated, number: int) -> bool:
        """Whether a number is that of the rounds or the markers told just before."""
        return self.counts_rounds(stated, number) or self.counts_markers(stated, number)

    def counts_repeat(self, number: int) -> bool:
        """Whether a number is what each time of the repeat leaves of which alone the round is made.

        The counts near it are such, too: `90 [10: 110] sts` and `8` for `80` lack a digit.
        """
        done = self.lane.chain[1] if self.lane.chain is not None else None
        if done is None or done.segment != self.place or len(done.round.steps) != 1 or number < FEWEST_LEFT:
            return False
        step = done.round.steps[0]
        times = step.times if isinstance(step, Repeat) and not step.again else 0
        if number * times != self.lane.count:
            return False
        near = self.desk.segments[max(0, self.place - MOST_NEAR) : self.place + MOST_NEAR + 1]
        phrases = (phrase for segment in near for phrase in segment.phrases)
        counts = [count for phrase in phrases for count in counts_of(phrase) if not count.sign]
        alike = all((value or 0) < 2 * number for count in counts for value in count.number.values)
        return alike and len(counts) > 1

    def counts_markers(self, stated: Stated, number: int) -> bool:
        """Whether a bare number says how many markers were placed just before: `With that at the start it makes 8`."""
        bare = any(type(phrase) is Count and phrase.end == stated.end for phrase in self.segment.phrases)
        if not bare:
            return False
        return any(
            self.lane.count == number * (phrase.number.of(self.column) or 0)
            if isinstance(phrase, Every | PerPart)
            else type(phrase) is Markers and phrase.number.of(self.column) in (number, number - 1)
            for segment in self.desk.segments[max(0, self.place - 1) : self.place + 1]
            for phrase in segment.phrases
        )

    def counts_rounds(self, stated: Stated, number: int) -> bool:
        """Whether a bare number says how many plain rounds were told just before, in this line or the one above."""
        bare = any(type(phrase) is Count and phrase.end == stated.end for phrase in self.segment.phrases)
        if not bare or not 1 < number <= MOST_COUNTED_ROUNDS:
            return False
        chain, rounds, place = self.lane.chain, 0, self.place
        while chain and chain[1].round.before == chain[1].round.after and place - chain[1].segment <= 1:
            chain, done = chain
            if rounds >= number and done.segment != place:
                break
            rounds, place = rounds + 1, done.segment
        self.desk.budget.spend(rounds // 8)
        return rounds == number

    def is_page_number(self, number: int) -> bool:
        """Whether a number alone on its line is that of a page: far from the count there, or one of a run."""
        if bare_number(self.segment) is None:
            return False
        count = self.lane.count
        return not count <= FAR_FROM_COUNT * number <= FAR_FROM_COUNT**2 * count or number in self.desk.pages

    def parts(self) -> int:
        """How many parts a count of each is that of: needles where it is `on each needle`, else sections."""
        sections, needles = len(self.lane.sections or ()), self.lane.needles
        places = [phrase for phrase in self.segment.phrases if type(phrase) is Needlewise and phrase.needle]
        if not places:
            return sections or needles
        known = (places[0].number.of(self.column) if places[0].number else 0) or needles or sections
        if not known:
            self.note("markers", self.segment.start, 0.3)
        return known or USUAL_NEEDLES[0]

    def needles(self) -> int:
        """On how many needles alike a round is worked that is told for each; 0 where it is told otherwise."""
        sections = self.lane.sections or ()
        needlewise = Needlewise in [type(phrase) for phrase in self.segment.phrases]
        return len(sections) if needlewise and len(set(sections)) == 1 else 0


MOST_NEAR: Final = 4
"""Segments before and behind a round whose counts are like its own."""
FEWEST_LEFT: Final = 4
"""Stitches that a repeat leaves whose own count may be printed."""


def bare_number(segment: Segment) -> int | None:
    """The number that a segment is and no more, `3` on a line of its own; None for any other words."""
    match segment.phrases:
        case (Count(number=Number(values=(int(number),)), sign=0, sure=False),) if segment.label is None:
            return number if segment.alone else None
    return None


FAR_FROM_COUNT: Final = 2
"""How many times less or more than the stitches there a bare number is that is no slip of their count."""
NEEDLES: Final = range(2, 6)
"""On how many needles, or halves of a loop, a round may be."""
YARN_OVER: Final = "yo"
COUNT_KEPT: Final = "count_kept"
"""The fault of a round in lace behind which the count goes on as it was."""
FEWEST_ON_NEEDLE: Final = 2
"""Stitches on each needle that are compared with those there."""
MOST_COUNTED_ROUNDS: Final = 60
"""Plain rounds that are counted behind them."""


def equal_needles(count: int, held: int) -> Sections | None:
    """The needles of a round that have so many stitches each; None where those are no whole needles."""
    needles = count // held if held > 0 else 0
    return (held,) * needles if held * needles == count and 1 < needles <= MOST_NEEDLES else None


def _tells_elsewhere(phrase: Phrase) -> bool:
    """Whether it is worked in stitches that the line need not name."""
    return type(phrase) is Chart or (type(phrase) is Fabric and phrase.kind not in ("plain", "stocking"))


def column_of(label: Label | None, column: int, candidate: Candidate) -> int:
    """Where a line for some sizes has the number of the size that stands in this column of the text."""
    if label is None or not label.sizes:
        return column
    named = sorted(int(text) for text in label.sizes if text.isdigit())
    if len(named) < 2 or column + 1 not in named:
        return column
    lists = [stated.number for stated in candidate.stated]
    if all(len(number.values) in (1, len(named)) for number in lists):
        return named.index(column + 1)
    return column


def fault_start(segment: Segment, nodes: Nodes) -> int:
    """Where a line says how far it goes, or else where its work begins."""
    if not nodes:
        return segment.start
    last = nodes[-1]
    return last.stated_at[0] if type(last) is Fill else nodes[0].start


def until_start(segment: Segment, until: Number | None) -> int:
    """Where a line says to which count it goes."""
    return until.start if until is not None and until.start >= 0 else segment.start
