"""One size of a pattern followed from its cast-on, round by round, to the count each leaves."""

from collections.abc import Sequence
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.knitting.rounds.round import LONGEST_LINE, MOST_ROUNDS, MOST_STITCHES, Round
from roundwright.knitting.rounds.work_round import work_round
from roundwright.wording.proofreading.outcome import Outcome, Outcomes
from roundwright.wording.proofreading.repair import Mend, Mender
from roundwright.wording.proofreading.report import Report
from roundwright.wording.reading.entries import Entry, differing
from roundwright.wording.reading.schedule import Loop, Turn
from roundwright.wording.reading.tree import Trouble

_AHEAD: Final = 8
"""Rounds looked ahead at, to see which of two counts a pattern goes on with."""

_Place = tuple[int, tuple[int, ...], int]
"""A line, the columns of its lists it may be read with, and the stitches there are."""


class Desk(Struct):
    """What the sizes of one text share: the report, and what is known of its lines on a count."""

    report: Report
    outcomes: Outcomes
    mender: Mender
    known: dict[_Place, tuple[Outcome, Round | None]]


class Follower:
    """A knitter of one size."""

    def __init__(
        self,
        size: int,
        column: int,
        count: int,
        turns: Sequence[Turn | Loop],
        desk: Desk,
    ) -> None:
        self.size = size
        self.column = column
        self.count = count
        self.turns = turns
        self.report = desk.report
        self.outcomes = desk.outcomes
        self.mender = desk.mender
        self.known = desk.known
        self.rounds: list[Round] = []
        self.number = 0
        self.worked = 0  # rounds, with those that do not come out

    def work(self) -> None:
        """Work every turn."""
        for place, turn in enumerate(self.turns):
            if isinstance(turn, Loop):
                self.loop(turn, place)
            else:
                self.turn(turn, place)
            if self.report.enough:
                return
            if self.worked > MOST_ROUNDS:
                entry = turn.via if isinstance(turn, Loop) else turn.entry
                self.report.too_many(entry)
                del self.rounds[MOST_ROUNDS:]
                return

    def turn(self, turn: Turn, place: int) -> None:
        """Work a line as often as it says."""
        entry = turn.entry
        if entry.heading and turn.number is None:
            self.number = 0
        column = entry.column(self.column)
        stated = entry.body.stated
        if stated is not None and not stated.sign and stated.number.of(column) is None:
            return  # a dash: not for this size
        times = self.times(entry, column) if turn.number is None or entry.body.rounds else 1
        for again in range(times):
            number = self.number + 1 if turn.number is None or again else turn.number
            right = self.line(entry, number, place, turn.via, last=turn.last)
            if entry.body.measured:
                self.report.length(entry)
                break
            if not right or self.worked > MOST_ROUNDS:
                break

    def times(self, entry: Entry, column: int) -> int:
        """How many rounds a line is worked."""
        label = entry.label
        count = label.count if label and label.count else entry.body.rounds
        return 1 if count is None else min(count.of(column) or 0, MOST_ROUNDS + 1)

    def loop(self, loop: Loop, place: int) -> None:
        """Rounds worked again: so many times, or until the count is there."""
        column = loop.via.column(self.column)
        target = loop.until.of(column) if loop.until else None
        times = loop.times.of(column) if loop.times else None
        if loop.number is not None:
            self.number = loop.number - 1
        again = 0
        while self.count != target if target is not None else again < (1 if times is None else times):
            before = self.count
            for entry in loop.entries:
                if not self.line(entry, self.number + 1, place, loop.via) or self.worked > MOST_ROUNDS:
                    return
            again += 1
            if target is not None and (self.count == before or (before - target) * (self.count - target) < 0):
                self.report.never(loop.via, self.size, target, before, self.count)
                self.count = target
                return

    # --- one line on the stitches there are

    def line(self, entry: Entry, number: int, place: int, via: Entry | None, *, last: bool = True) -> bool:
        """Work a line as a round; whether it comes out."""
        self.worked += 1
        self.number = number
        columns = self.columns(entry)
        key = (id(entry.body), columns, self.count)
        outcome, made = self.known.get(key) or self.first_time(key, entry)
        if made is not None:
            self.rounds.append(made if made.number == number else replace(made, number=number))
        if via is not None and via is not entry and outcome.right and outcome.worked and last:
            self.check(via, outcome, number)
        if outcome.right:
            if len(entry.body.readings) > 1 or len(columns) > 1:
                self.report.ambiguous(entry, self.size, self.outcomes, columns, self.count)
            assert outcome.worked is not None
            self.report.comes_out(entry, self.size, outcome.column, outcome.before)
            self.count = outcome.worked.left
            return True
        self.fault(entry, outcome, number, place, via)
        return False

    def columns(self, entry: Entry) -> tuple[int, ...]:
        """The column of the line's lists; all of them, where one size is asked for and none is said."""
        other = differing(entry, self.report.width)
        if other is None:
            return (entry.column(self.column),)
        if self.report.width == 1:
            return tuple(range(len(other.values)))
        self.report.sizes_differ(entry, other)
        return (min(self.column, len(other.values) - 1),)

    def first_time(self, key: _Place, entry: Entry) -> tuple[Outcome, Round | None]:
        """What comes of a line on this count, and its round if it uses exactly the stitches there are."""
        outcome = self.outcomes.best(entry.body, key[1], self.count)
        made = None
        if outcome.whole and outcome.worked and outcome.worked.steps:
            made = work_round(1, self.count, outcome.worked.steps)
            if len(made.text) > LONGEST_LINE:
                trouble = Trouble(
                    "too_long", f"Written out, the line has more than {LONGEST_LINE:,} signs.", 0
                )
                outcome, made = outcome._replace(worked=None, trouble=trouble), None
        self.known[key] = outcome, made
        return outcome, made

    def check(self, via: Entry, outcome: Outcome, number: int) -> None:
        """The count said by the line that asks for these rounds again."""
        stated = via.body.stated
        if stated is not None and outcome.worked:
            said = stated.after(outcome.before, via.column(self.column))
            if said is not None and said != outcome.worked.left:
                self.report.fault(via, self.size, number, outcome._replace(stated=said), [], again=True)

    def fault(self, entry: Entry, outcome: Outcome, number: int, place: int, via: Entry | None) -> None:
        """A line that does not come out: report it, and find the count to go on with."""
        again = via is not None and via is not entry
        at = via if via is not None and again else entry
        first = self.report.is_first(at, self.size)
        mends = self.mender.mends(outcome, entry.body.stated) if first and not again else []
        choices = self.choices(outcome, mends)
        fitting = [count for count in choices if first and self.goes_on(place, count)]
        if (
            outcome.worked
            and outcome.stated is not None
            and {outcome.stated, outcome.worked.left} <= {*fitting}
        ):
            fitting = []  # what follows comes out either way
        if fitting:
            mends.sort(key=lambda mend: mend.left not in (fitting[0], -1))
        self.report.fault(at, self.size, number, outcome, mends, again=again)
        self.count = fitting[0] if fitting else choices[0]

    def choices(self, outcome: Outcome, mends: list[Mend]) -> list[int]:
        """Counts the pattern may go on with after a line that does not come out, the likeliest first."""
        counts = [] if outcome.stated is None else [outcome.stated]
        counts += [mend.left for mend in mends if mend.left >= 0]
        if outcome.worked is None:
            counts.append(outcome.before)
        else:
            counts.append(outcome.worked.left + max(0, outcome.over))
        possible = [count for count in counts if 0 <= count <= MOST_STITCHES]
        return list(dict.fromkeys(possible or [outcome.before]))

    def goes_on(self, place: int, count: int) -> bool:
        """Whether the next line that says anything about the count comes out on this one."""
        for turn in self.turns[place + 1 : place + 1 + _AHEAD]:
            if not self.mender.may_try():
                return False
            entry = turn.entries[0] if isinstance(turn, Loop) else turn.entry
            outcome = self.outcomes.best(entry.body, self.columns(entry), count)
            if outcome.worked is None:
                count = count if outcome.stated is None else outcome.stated
                continue  # it says nothing
            if not outcome.right:
                return False
            if outcome.stated is not None or not self.outcomes.says_nothing(entry.body, outcome.column):
                return True
            count = outcome.worked.left
        return False
