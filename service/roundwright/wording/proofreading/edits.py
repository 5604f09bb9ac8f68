"""The changes with which a text comes out: where, what instead, and what is left when they are made."""

from collections.abc import Callable, Iterable, Iterator
from itertools import chain
from typing import Final

from msgspec.structs import replace

from roundwright.wording.proofreading.doubtful import rib_of
from roundwright.wording.proofreading.evaluate import Found
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.findings import (
    KINDS,
    MOST_EDITS,
    MOST_FINDINGS,
    Edit,
    Finding,
    Remaining,
)
from roundwright.wording.proofreading.repair import ALIKE, MOST_LINES, OF_WORDS, Repair, Repairs
from roundwright.wording.proofreading.rewriting import kept_apart
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.repeats_left_out import LEFT_OUT
from roundwright.wording.reading.states import Fault

MOST_STEPS_REREAD: Final = 8_000
"""Steps of reading a text again, to say what its edits leave: six times a usual crown."""
MOST_REREAD: Final = 6
"""How often a text is read again, so that the time grows no faster than the text."""

CLOSING: Final = "closing_count"
GAP: Final = "round_missing"
"""What may stand beside a slip in a line and have nothing to do with it."""

FindingsOf = Callable[[str, tuple[int, ...]], Iterable[Finding]]


class Edits:
    """The edits of one text; `findings_of` reads a text again, from a cast-on, and gives its findings."""

    def __init__(self, explained: Explained, findings_of: FindingsOf) -> None:
        self.explained = explained
        self.findings_of = findings_of
        spent = explained.search.budget.spent
        self.steps = max(0, MOST_STEPS_REREAD - spent)
        self.steps_to_read = max(spent + len(explained.original), MOST_STEPS_REREAD // MOST_REREAD)
        self.errors = 0

    def of(self, findings: list[Found]) -> list[tuple[Edit, ...]]:
        """The edits of each finding, the best first; those of a segment stand with each of its findings."""
        explained = self.explained
        self.errors = sum(entry.finding.severity == "error" for entry in findings)
        faults: dict[int, list[Fault]] = {}
        for fault in explained.explanation.faults:
            is_error = KINDS.get(fault.code, KINDS["left_over"]).severity == "error"
            if fault.note or fault.code in ("too_long", LEFT_OUT):  # no edit makes it read, or it is read
                continue
            if is_error or fault.code == GAP:
                faults.setdefault(fault.segment, []).append(fault)
        repairs = Repairs(explained.text, explained.laid, explained.search)
        made: dict[tuple[int, bool], tuple[Edit, ...]] = {}
        cast_on = any(entry.finding.code == "cast_on_differs" and entry.repairs for entry in findings)
        for place in sorted(faults)[:MOST_LINES]:
            chosen = explained.chosen.get(place)
            if cast_on and chosen is not None and rib_of(chosen.nodes) is not None:
                continue  # with the other cast-on the rib comes out as it is named
            for of_gap, found in self.of_segment(repairs, place, faults[place], chosen):
                made[place, of_gap] = found
        edits: list[tuple[Edit, ...]] = []
        for entry in findings:
            if entry.repairs:
                edits.append(tuple(chain.from_iterable(self.own(entry, repair) for repair in entry.repairs)))
            elif entry.finding.severity == "error" and entry.segment is not None:
                edits.append(made.get((entry.segment, entry.finding.code == GAP), ()))
            else:
                edits.append(())
        return [
            made or self.of_note(entry.finding, findings, edits)
            for entry, made in zip(findings, edits, strict=True)
        ]

    def of_note(self, note: Finding, findings: list[Found], made: list[tuple[Edit, ...]]) -> tuple[Edit, ...]:
        """The edits that a note brings itself, where all errors are mended and it stays."""
        if not note.edits:
            return ()
        for entry, edits in zip(findings, made, strict=True):
            left = edits[0].leaves if edits else None
            if entry.finding.severity == "error" and all(other.code != note.code for other in left or ()):
                return ()
        return tuple(
            replace(
                edit,
                leaves=self.leaves(
                    edit.start.offset, edit.end.offset, edit.replacement, self.explained.cast_on
                ),
            )
            for edit in note.edits
        )

    def of_segment(
        self, repairs: Repairs, place: int, faults: list[Fault], chosen: Candidate | None
    ) -> Iterator[tuple[bool, tuple[Edit, ...]]]:
        """The edits of a segment, of the round that is missing before it (True) and of what is wrong in it (False).

        They are the same where one edit does away with both, as a decrease round that is put in often does, and where a
        count in the line is wrong: that may come of the round that is missing.
        """
        both = self.best(repairs.repairs(place, faults, chosen))
        gaps = [fault for fault in faults if fault.code == GAP]
        slips = [fault for fault in faults if fault.code != GAP]
        words = bool(gaps and slips) and all(fault.code in OF_WORDS for fault in slips)
        for of_gap, alike, others in ((True, gaps, slips), (False, slips, gaps)):
            if both or not words:
                yield of_gap, both
            else:
                codes = frozenset(fault.code for fault in others)
                yield of_gap, self.best(repairs.repairs(place, alike, chosen, codes))

    def own(self, entry: Found, repair: Repair) -> tuple[Edit, ...]:
        """The edit that a finding brings itself, if it does away with it: another cast-on, or words without a doubt."""
        edit = self.edit(repair, repair.cast_on or self.explained.cast_on)
        here = (entry.finding.line, entry.finding.code)
        stays = any((remaining.line, remaining.code) == here for remaining in edit.leaves or ())
        return () if stays else (edit,)

    def best(self, options: list[Repair]) -> tuple[Edit, ...]:
        """Those of the repairs that are as good as the first and leave as little."""
        if not options:
            return ()
        least = options[0].left + options[0].size
        alike = [repair for repair in options if repair.left + repair.size <= least + ALIKE][:MOST_EDITS]
        edits = [self.edit(repair) for repair in alike]
        fewest = min(map(errors_left, edits))
        if fewest >= self.errors:
            return ()  # what is wrong would only move
        return tuple(edit for edit in edits if errors_left(edit) == fewest)

    def edit(self, repair: Repair, cast_on: tuple[int, ...] | None = None) -> Edit:
        """A repair as one stretch of the text and what stands there instead."""
        start = min(change.start for change in repair.edits)
        end = max(change.end for change in repair.edits)
        replacement = self.explained.original[start:end]
        for change in sorted(repair.edits, reverse=True):
            replacement = (
                replacement[: change.start - start] + change.text + replacement[change.end - start :]
            )
        replacement = kept_apart(self.explained.original, start, end, replacement)
        position = self.explained.position
        return Edit(
            start=position(start),
            end=position(end),
            replacement=replacement,
            leaves=self.leaves(start, end, replacement, cast_on or self.explained.cast_on),
        )

    def leaves(
        self, start: int, end: int, replacement: str, cast_on: tuple[int, ...]
    ) -> tuple[Remaining, ...] | None:
        """The findings of the text with an edit made; None where too much has been read again."""
        text = self.explained.original
        if self.steps_to_read > self.steps:
            return None
        self.steps -= self.steps_to_read
        findings = self.findings_of(text[:start] + replacement + text[end:], cast_on)
        return tuple(
            Remaining(line=finding.line, code=finding.code, severity=finding.severity, size=finding.size)
            for finding in findings
        )[:MOST_FINDINGS]

    def only_its_own(self, edit: Edit, findings: list[Finding]) -> bool:
        """Whether an edit is known to do away with the errors it is made for, and with no others."""
        own = [finding for finding in findings if finding.severity == "error" and edit in finding.edits[:1]]
        return edit.leaves is not None and errors_left(edit) == self.errors - len(own)

    def together(self, edits: tuple[Edit, ...], findings: list[Finding]) -> tuple[Edit, ...]:
        """Several edits, or of them the one that leaves least, where together they leave as much."""
        if len(edits) < 2 or all(self.only_its_own(edit, findings) for edit in edits):
            return edits
        if 2 * self.explained.search.budget.spent > MOST_STEPS_REREAD:
            return edits
        tried = [edit for edit in edits if edit.leaves is not None]
        if not tried:
            return edits
        left = self.findings_of(text_with(self.explained.original, edits), self.explained.cast_on)
        best = min(tried, key=errors_left)
        if sum(finding.severity == "error" for finding in left) < errors_left(best):
            return edits
        return (best,)


def errors_left(edit: Edit) -> int:
    """How many errors there are with an edit; none is known of where the text was not read again."""
    if edit.leaves is None:
        return 0
    return sum(remaining.severity == "error" for remaining in edit.leaves)


def line_with(text: str, edit: Edit) -> str:
    """The line of a text with an edit made, without its end; of lines that are put in, those alone."""
    if edit.start == edit.end and edit.replacement.endswith("\n"):
        return edit.replacement.rstrip("\n")
    start = edit.start.offset - edit.start.column + 1
    stop = edit.end.offset + len(text[edit.end.offset :].split("\n", 1)[0])
    before, behind = text[start : edit.start.offset], text[edit.end.offset : stop]
    return (before + edit.replacement + behind).rstrip(" ")


def repaired(explained: Explained, findings: Iterable[Finding]) -> tuple[Edit, ...]:
    """The edits with which the whole text is repaired: the best of each finding, of edits that overlap the first.

    Where one edit mends everything, that is made alone: what is called wrong elsewhere came of it.
    """
    first = [
        (finding.code, finding.edits[0]) for finding in findings if finding.edits and finding.code != CLOSING
    ]
    casts = [edit for code, edit in first if code == "cast_on_differs" and not errors_left(edit)]
    lines = list(dict.fromkeys(edit for code, edit in first if code != "cast_on_differs"))
    alone = [edit for edit in lines if edit.leaves is not None and not errors_left(edit)]
    single_repair = len(lines) == 1 and not errors_left(lines[0])
    chosen = alone[:1] or (casts if casts and not single_repair else lines)
    made: list[Edit] = []
    before = len(explained.original) + 1
    for edit in sorted(chosen, key=lambda edit: edit.start.offset, reverse=True):
        if edit.end.offset <= before:
            made.append(edit)
            before = edit.start.offset
    return tuple(reversed(made))


def with_closing(edits: tuple[Edit, ...], findings: Iterable[Finding]) -> tuple[Edit, ...]:
    """The edits, and behind them that of a closing whose count is still another with them."""
    closing = next((finding.edits[:1] for finding in findings if finding.code == CLOSING), ())
    behind = all(edit.end.offset <= other.start.offset for edit in edits for other in closing)
    return (*edits, *closing) if behind else edits


def text_with(text: str, edits: tuple[Edit, ...]) -> str:
    """The text with edits made, which are in the order of their places."""
    for edit in reversed(edits):
        text = text[: edit.start.offset] + edit.replacement + text[edit.end.offset :]
    return text
