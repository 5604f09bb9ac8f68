"""What was found in a text, gathered while it is worked and put in the order of its lines."""

import re
from collections.abc import Iterable, Mapping
from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_ROUNDS, MOST_STITCHES
from roundwright.wording.proofreading import messages as telling
from roundwright.wording.proofreading.findings import MOST_FINDINGS, Finding
from roundwright.wording.proofreading.outcome import Outcome, Outcomes
from roundwright.wording.proofreading.repair import Mend, proved, written
from roundwright.wording.reading.entries import Entry, Written
from roundwright.wording.reading.layout import line_and_column
from roundwright.wording.reading.tree import Number, Severity, Trouble, Unknown, walk
from roundwright.wording.reading.vocabulary import nearest

MOST_REPAIRS = 20
"""Lines repaired in one answer: each is read again."""
_MOST_NEAREST = 8
"""Unknown words the nearest known one is looked for."""


_BLANKS: Final = re.compile(r"[ \t]+")


class _Fault(NamedTuple):
    """A line that does not come out for a size."""

    number: int
    outcome: Outcome
    mends: list[Mend]
    again: bool


class Report:
    """The findings of one text."""

    def __init__(self, text: str, of: Written, cast_on: tuple[int, ...]) -> None:
        self.text = text
        self.written = of
        self.asked = cast_on
        self.width = max(len(of.counts), len(cast_on))
        self.found: list[tuple[int, Finding]] = []
        self.said: set[tuple[object, ...]] = set()
        self.faults: dict[int, dict[int, _Fault]] = {}
        self.fault_count = 0
        self.right: dict[int, dict[int, tuple[int, int]]] = {}  # by line and size: column, and stitches
        self.repairs = 0
        self.looked_up: dict[str, str | None] = {}
        self.general()

    # --- as it is worked

    def note(
        self,
        place: int,
        code: str,
        message: str,
        *,
        severity: Severity = "error",
        size: int | None = None,
        count: int | None = None,
        repair: str | None = None,
    ) -> None:
        """Something found at a place in the text, once."""
        key = (place, code, size, message)
        if key in self.said:
            return
        self.said.add(key)
        if count is not None:
            count = max(-MOST_STITCHES, min(MOST_STITCHES, count))
        finding = Finding(
            line=1,  # found out in the end, for those that are told
            column=1,
            code=code,  # type: ignore[arg-type]  # every code used is one of them: a test reads them all
            severity=severity,
            size=None if size is None else size + 1,  # knitters count their sizes from one
            stitches=count,
            message=message,
            repair=repair,
        )
        self.found.append((place, finding))

    def general(self) -> None:
        """What is wrong with lines whatever their count."""
        for trouble in self.written.troubles:
            self.note(trouble.start, trouble.code, trouble.message, severity=trouble.severity)
        for entry in self.written.entries:
            for trouble in entry.body.troubles:
                self.note(
                    entry.offset + trouble.start, trouble.code, trouble.message, severity=trouble.severity
                )
        if not self.written.entries:
            self.note(0, "no_rounds", "No line of this text was read as a round, such as “Rnd 1: knit”.")

    def order(self, troubles: Iterable[tuple[Entry, Trouble]]) -> None:
        """What is wrong with the numbers of the rounds."""
        for entry, trouble in troubles:
            self.note(entry.start, trouble.code, trouble.message, severity=trouble.severity)

    def cast_on(self, size: int, asked: int, said: int) -> None:
        """The text casts on another count than was asked for."""
        message = f"The text casts on {said} here, but {asked} {'is' if asked == 1 else 'are'} asked for."
        self.note(self.written.counts_at, "cast_on_differs", message, size=size, count=said - asked)

    def other_sizes(self) -> None:
        """The counts asked for are not among those of the text."""
        told = len(self.written.counts)
        message = (
            f"The text casts on for {told} size{'' if told == 1 else 's'}, but {len(self.asked)} "
            f"{'is' if len(self.asked) == 1 else 'are'} asked for, and not all of those counts are among them."
        )
        self.note(self.written.counts_at, "sizes_differ", message)

    def sizes_differ(self, entry: Entry, number: Number) -> None:
        """A number is given for more or fewer sizes than there are."""
        message = f"Here are numbers for {len(number.values)} sizes; the pattern has {self.width}."
        self.note(entry.offset + number.start, "sizes_differ", message)

    def length(self, entry: Entry) -> None:
        """Rounds worked to a length."""
        self.note(
            entry.offset,
            "to_a_length",
            "How many rounds this is depends on the length; one is read, and the count goes on from it.",
            severity="note",
        )

    def too_many(self, entry: Entry) -> None:
        """More rounds than are read."""
        self.note(entry.start, "too_many_rounds", f"More than {MOST_ROUNDS} rounds; the rest is not read.")

    def never(self, entry: Entry, size: int, target: int, before: int, after: int) -> None:
        """Rounds to be worked until a count that does not come."""
        message = (
            f"{self.whose(size)}These rounds never leave {target}: they go from {before} to {after} stitches."
        )
        self.note(entry.offset, "never_ends", message, size=size)

    def comes_out(self, entry: Entry, size: int, column: int, count: int) -> None:
        """A line that comes out for a size."""
        self.right.setdefault(entry.place, {}).setdefault(size, (column, count))

    def is_first(self, entry: Entry, size: int) -> bool:
        """Whether a line has come out for this size so far."""
        return size not in self.faults.get(entry.place, {})

    def fault(
        self, entry: Entry, size: int, number: int, outcome: Outcome, mends: list[Mend], *, again: bool
    ) -> None:
        """A line that does not come out, or with `again` one that asks for rounds which then do not."""
        if self.is_first(entry, size):
            self.faults.setdefault(entry.place, {})[size] = _Fault(number, outcome, mends, again)
            self.fault_count += 1

    @property
    def enough(self) -> bool:
        """Whether more is wrong than is told: then no more care is spent on what follows."""
        return self.fault_count >= MOST_FINDINGS

    def whose(self, size: int) -> str:
        """The size a message is about, where there are several."""
        if len(self.asked) == 1:
            return ""
        return f"Size {size + 1} ({self.asked[size]} cast on): "

    # --- two readings

    def ambiguous(
        self, entry: Entry, size: int, outcomes: Outcomes, columns: tuple[int, ...], count: int
    ) -> None:
        """A line that can be read in two ways, with what each makes of the stitches."""
        if (entry.place, "ambiguous") in self.said:
            return
        self.said.add((entry.place, "ambiguous"))
        ways = [one for column in columns for one in outcomes.of(entry.body, column, count)]
        told = []
        for one in ways:
            words = one.words or f"with {telling.ordinal(one.column)} number"
            if one.worked:
                told.append(f"{words}, it uses {one.worked.used} and leaves {one.worked.left}")
        right = [one for one in ways if one.right] or [one for one in ways if one.whole]
        end = f"there {'is' if count == 1 else 'are'} {count}"
        end += ", so the first is taken" if not right or right[0] is ways[0] else ", so the other is meant"
        if not right:
            end = f"there {'is' if count == 1 else 'are'} {count}, and neither comes out"
        message = f"{self.whose(size)}This can be read in {len(ways)} ways: {'; '.join(told)}; {end}."
        place = entry.offset + (
            telling.difference(entry.body.readings) if len(entry.body.readings) > 1 else 0
        )
        repair = self.clear(entry, right[0]) if right and len(columns) == 1 else None
        self.note(place, "ambiguous", message, severity="note", size=None, repair=repair)

    def clear(self, entry: Entry, outcome: Outcome) -> str | None:
        """The line in words that allow one reading only."""
        text = telling.bracketed(entry.text, outcome)
        if text is None:
            return None
        body = proved(text, {outcome.column: outcome.before})
        return self.whole_line(entry, text) if body and len(body.readings) == 1 else None

    # --- in the end

    def findings(self) -> tuple[Finding, ...]:
        """All that was found, in the order of the lines."""
        for place in sorted(self.faults):
            self.line_faults(self.written.entries[place], self.faults[place])
        ordered = sorted(self.found, key=lambda one: one[0])
        if len(ordered) > MOST_FINDINGS or self.enough:
            place, _ = ordered[min(len(ordered), MOST_FINDINGS) - 1]
            message = "There is more that is wrong from here on; mend what stands above and read again."
            more = Finding(line=1, column=1, code="too_many_findings", severity="error", message=message)
            ordered[MOST_FINDINGS - 1 :] = [(place, more)]
        return tuple(self.placed(place, finding) for place, finding in ordered)

    def placed(self, place: int, finding: Finding) -> Finding:
        """The finding with its line and column: those of the word that stands at its place in the text."""
        if blanks := _BLANKS.match(self.text, place):
            place = blanks.end()
        line, column = line_and_column(self.text, min(place, len(self.text)))
        return replace(finding, line=line, column=column)

    def line_faults(self, entry: Entry, faults: Mapping[int, _Fault]) -> None:
        """The findings about one line: the same repair for all sizes if there is one, or one for each."""
        together = self.repair(entry, faults)
        for size, fault in faults.items():
            repair = together or (self.repair(entry, {size: fault}) if len(faults) > 1 else None)
            self.one_fault(entry, size, fault, repair)
            if fault.outcome.worked is None:
                break  # whatever the size

    def one_fault(self, entry: Entry, size: int, fault: _Fault, repair: str | None) -> None:
        """A line that does not come out for one size."""
        outcome = fault.outcome
        named = (
            f"Round {fault.number}" if fault.again or (entry.label and entry.label.spans) else "This round"
        )
        if outcome.worked is None:
            self.unclear(entry, outcome, repair)
            return
        code, count, message = telling.told(named, outcome)
        place = entry.offset + (0 if fault.again and not outcome.whole else telling.where(outcome, entry))
        self.note(place, code, self.whose(size) + message, size=size, count=count, repair=repair)

    def unclear(self, entry: Entry, outcome: Outcome, repair: str | None) -> None:
        """A line that cannot be worked, whatever the count."""
        if entry.body.broken:
            return  # said already
        unknown = [node for node in walk(outcome.nodes) if isinstance(node, Unknown)]
        if not unknown:
            assert outcome.trouble is not None
            trouble = outcome.trouble
            self.note(entry.offset + trouble.start, trouble.code, trouble.message, repair=repair)
        for node in unknown:
            near = self.nearest(node.word)
            printed = entry.text[node.start : node.end]
            message = f"“{printed}” is not known." + (f" The nearest known word is “{near}”." if near else "")
            self.note(entry.offset + node.start, "unknown_word", message, repair=repair)

    def nearest(self, word: str) -> str | None:
        """The known word nearest to this one; it is looked for only so often."""
        if word not in self.looked_up:
            self.looked_up[word] = nearest(word) if len(self.looked_up) < _MOST_NEAREST else None
        return self.looked_up[word]

    # --- repairs

    def repair(self, entry: Entry, faults: Mapping[int, _Fault]) -> str | None:
        """The line changed so that it comes out for these sizes, and still does for the others; or None.

        The same change for all of them, if there is one; otherwise the smallest for each.
        """
        first = next(iter(faults.values()))
        if self.repairs >= MOST_REPAIRS or entry.body.broken:
            return None
        if any(fault.outcome.nodes is not first.outcome.nodes for fault in faults.values()):
            return None
        counts = dict(self.right.get(entry.place, {}).values())
        counts.update({fault.outcome.column: fault.outcome.before for fault in faults.values()})
        width = len(entry.columns) if entry.columns else self.width
        joint = []
        for mend in first.mends:
            alike = {
                fault.outcome.column: other
                for fault in faults.values()
                for other in fault.mends
                if other.shape == mend.shape
            }
            if len(alike) == len(faults):
                joint.append(alike)
        joint.sort(key=_values_differ)
        if all(fault.mends for fault in faults.values()):
            joint.append({fault.outcome.column: fault.mends[0] for fault in faults.values()})
        for mends in joint[: MOST_REPAIRS - self.repairs]:
            self.repairs += 1
            text = written(entry.text, first.outcome.nodes, entry.body.stated, mends, width)
            if text is not None and proved(text, counts):
                return self.whole_line(entry, text)
        return None

    def whole_line(self, entry: Entry, text: str) -> str:
        """The line with its label."""
        return (self.text[entry.start : entry.offset] + text).strip()


def _values_differ(alike: Mapping[int, Mend]) -> bool:
    return len({tuple(edit.value for edit in mend.edits) for mend in alike.values()}) > 1
