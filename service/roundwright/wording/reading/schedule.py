"""In which order the rounds of a pattern are worked: numbers, `all odd rnds`, `rep rnds 1 and 2`.

For one size at a time, since a pattern may have other rounds for other sizes.
"""

from collections.abc import Iterable
from typing import Final, NamedTuple

from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.wording.reading.entries import Entry
from roundwright.wording.reading.tree import Number, Trouble

HIGHEST: Final = 9_500
"""The highest number a line may give a round: those that follow it have numbers too, and a round's go to 10,000."""


class Turn(NamedTuple):
    """A line to be worked as a round: its number, None for the next; `via` is the line that asks for it, if another."""

    entry: Entry
    number: int | None
    via: Entry | None = None
    last: bool = True  # whether the count that `via` states is to be left now


class Loop(NamedTuple):
    """Lines to be worked over and over: so many `times`, or `until` a count."""

    entries: tuple[Entry, ...]
    via: Entry
    number: int | None
    times: Number | None
    until: Number | None


class Schedule(NamedTuple):
    """What to work, in order, and what is wrong with the numbers, with the line it is about."""

    turns: list[Turn | Loop]
    troubles: list[tuple[Entry, Trouble]]


def schedule(entries: Iterable[Entry], column: int) -> Schedule:
    """The turns of the size in this column of the pattern."""
    plan = _Plan(column)
    for entry in entries:
        if len(plan.turns) > MOST_ROUNDS:
            break
        if entry.columns is None or column in entry.columns:
            plan.take(entry)
    plan.flush()
    return Schedule(plan.turns, plan.troubles)


class _Plan:
    def __init__(self, column: int) -> None:
        self.column = column
        self.turns: list[Turn | Loop] = []
        self.troubles: list[tuple[Entry, Trouble]] = []
        self.history: list[Entry] = []  # the lines worked so far
        self.earlier: dict[int, Entry] = {}  # the rounds of the sections before
        self.begin()

    def begin(self) -> None:
        """A new section: its numbers begin again."""
        self.given: dict[int, Entry] = {}
        self.lowest, self.highest = HIGHEST, 0  # of those given
        self.standing: list[tuple[int, int, Entry]] = []
        self.pending: dict[int, list[Turn | Loop]] = {}
        self.done = 0  # the highest number worked
        self.unnumbered_since = False  # since when a gap in the numbers may be filled by those

    def trouble(self, entry: Entry, code: str, message: str, *, note: bool = False) -> None:
        self.troubles.append((entry, Trouble(code, message, 0, "note" if note else "error")))

    # --- one line after the other

    def take(self, entry: Entry) -> None:
        label = entry.label
        if label is None or not (label.spans or label.every):
            self.unnumbered(entry)
            return
        numbers = self.numbers(entry)
        if entry.heading and numbers and numbers[0] <= max(self.done, self.highest):
            self.restart()
        if numbers:
            self.numbered(entry, numbers)
        elif any(span.first == span.last for span in label.spans):
            self.unnumbered(entry)  # a number beyond all others
        if label.every:
            first, step = label.every
            self.standing.append((first, max(1, step), entry))

    def numbers(self, entry: Entry) -> list[int]:
        assert entry.label is not None
        column = entry.column(self.column)
        numbers: list[int] = []
        for span in entry.label.spans:
            first, last = span.first.of(column) or 0, span.last.of(column) or 0
            numbers.extend(range(first, min(last, first + MOST_ROUNDS) + 1))
        return [number for number in numbers[: MOST_ROUNDS + 1] if 0 < number <= HIGHEST]

    def restart(self) -> None:
        self.flush()
        self.earlier.update(self.given)
        self.begin()

    def numbered(self, entry: Entry, numbers: list[int]) -> None:
        twice = [number for number in numbers if number in self.given]
        if twice and len(twice) == len(numbers):
            if numbers[0] == self.lowest:
                self.restart()
            else:
                self.trouble(entry, "round_twice", f"Round {numbers[0]} is given twice.", note=True)
                self.flush()
        elif twice:
            self.trouble(
                entry, "round_twice", f"Round {twice[0]} is given twice; the first line stands.", note=True
            )
            numbers = [number for number in numbers if number not in self.given]
        self.assign(entry, numbers)

    def assign(self, entry: Entry, numbers: list[int]) -> None:
        """Give each number its line: the entry, or the rounds it says to work again."""
        if entry.body.again is None:
            for number in numbers:
                self.give(number, entry)
                self.pending.setdefault(number, []).append(Turn(entry, number))
            return
        again = self.named(entry)
        if not again:
            return
        if len(numbers) == 1 and (len(again) > 1 or entry.body.again.times):
            number = numbers[0]
            self.give(number, again[0])
            self.pending.setdefault(number, []).append(
                Loop(tuple(again), entry, number, entry.body.again.times, entry.body.until)
            )
            return
        for place, number in enumerate(numbers):
            line = again[place % len(again)]
            self.give(number, line)
            last = place == len(numbers) - 1
            self.pending.setdefault(number, []).append(Turn(line, number, entry, last=last))

    def give(self, number: int, entry: Entry) -> None:
        """This is the line of the number."""
        self.given[number] = entry
        self.lowest, self.highest = min(self.lowest, number), max(self.highest, number)

    def unnumbered(self, entry: Entry) -> None:
        self.flush()
        if entry.heading:
            self.restart()
        if entry.body.again is None:
            self.emit(Turn(entry, None))
            return
        again = self.named(entry)
        if again:
            body = entry.body
            if body.measured and body.until is None:
                self.trouble(
                    entry,
                    "to_a_length",
                    "How often these rounds are worked depends on the length.",
                    note=True,
                )
                return
            assert body.again is not None
            self.emit(Loop(tuple(again), entry, None, body.again.times or body.rounds, body.until))

    def named(self, entry: Entry) -> list[Entry]:
        """The lines that the entry says to work again."""
        again = entry.body.again
        assert again is not None
        if again.last:
            found = self.history[-again.last :]
            if not found:
                self.trouble(entry, "no_such_round", "There is no round before this to work again.")
            return found
        lines: list[Entry] = []
        for number in again.named[:MOST_ROUNDS]:
            line = self.given.get(number) or self.standing_at(number) or self.earlier.get(number)
            if line is None or line is entry:
                self.trouble(entry, "no_such_round", f"There is no round {number} before this to work again.")
                break  # one is enough to be told
            lines.append(line)
        return lines

    def rounds(self, entry: Entry) -> int:
        """How many rounds a line without a number is worked."""
        count = entry.label.count if entry.label and entry.label.count else entry.body.rounds
        return 1 if count is None else count.of(entry.column(self.column)) or 0

    # --- the order

    def standing_at(self, number: int) -> Entry | None:
        """The line that holds for this number among others: `all odd rnds`."""
        for first, step, entry in self.standing:
            if number >= first and (number - first) % step == 0:
                return entry
        return None

    def flush(self) -> None:
        """Put the numbered lines in order, with those that hold for the numbers between."""
        for number in sorted(self.pending):
            if len(self.turns) > MOST_ROUNDS:
                break
            between = self.between(self.done + 1, number)
            for gap, entry in between:
                self.emit(Turn(entry, gap))
            missing = number - self.done - 1 - len(between)
            if missing > 0 and not self.unnumbered_since:
                turn = self.pending[number][0]
                entry = turn.via or turn.entry if isinstance(turn, Turn) else turn.via
                message = (
                    f"Between rounds {self.done} and {number} some are not given."
                    if self.done
                    else (f"The rounds before round {number} are not given.")
                )
                self.trouble(entry, "round_missing", message, note=True)
            self.unnumbered_since = False
            for turn in self.pending[number]:
                self.emit(turn)
            self.done = number
        self.pending = {}

    def between(self, first: int, number: int) -> list[tuple[int, Entry]]:
        """The lines that hold for numbers from `first` to before `number`."""
        if number - first > MOST_ROUNDS or not self.standing:
            return []
        lines: dict[int, Entry] = {}
        for begin, step, entry in self.standing:
            start = begin if begin >= first else first + (begin - first) % step
            for gap in range(start, number, step):
                lines.setdefault(gap, entry)
        return sorted(lines.items(), key=lambda line: line[0])

    def emit(self, turn: Turn | Loop) -> None:
        self.turns.append(turn)
        if isinstance(turn, Turn):
            self.history.append(turn.entry)
            if turn.number is None:
                self.unnumbered_since = True
                self.done += self.rounds(turn.entry)
        else:
            self.history.extend(turn.entries)
            self.unnumbered_since = True
