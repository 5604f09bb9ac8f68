"""The changes with which a text comes out: where, what instead, and what is left when they are made."""

from collections.abc import Callable, Iterable
from typing import Final

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
from roundwright.wording.proofreading.repair import MOST_LINES, Repair, Repairs
from roundwright.wording.reading.states import Fault

MOST_STEPS_REREAD: Final = 8_000
"""Steps of reading a text again, to say what its edits leave: six times a usual crown."""
MOST_REREAD: Final = 6
"""How often a text is read again, so that the time grows no faster than the text."""
ALIKE: Final = 0.05
"""How much dearer a repair may be than the best to be as good."""

FindingsOf = Callable[[str], Iterable[Finding]]


class Edits:
    """The edits of one text; `findings_of` reads a text again and gives its findings, without edits."""

    def __init__(self, explained: Explained, findings_of: FindingsOf) -> None:
        self.explained = explained
        self.findings_of = findings_of
        spent = explained.search.budget.spent
        self.steps = max(0, MOST_STEPS_REREAD - spent)
        self.steps_to_read = max(spent + len(explained.original), MOST_STEPS_REREAD // MOST_REREAD)

    def of(self, found: list[Found]) -> list[tuple[Edit, ...]]:
        """The edits of each finding, the best first; those of a segment stand with each of its findings."""
        explained = self.explained
        faults: dict[int, list[Fault]] = {}
        for fault in explained.explanation.faults:
            told = KINDS.get(fault.code, KINDS["left_over"]).severity == "error"
            if not fault.note and (told or fault.code == "round_missing"):
                faults.setdefault(fault.segment, []).append(fault)
        repairs = Repairs(explained.text, explained.search)
        made: dict[int, tuple[Edit, ...]] = {}
        for place in sorted(faults)[:MOST_LINES]:
            options = repairs.repairs(place, faults[place], explained.chosen.get(place))
            made[place] = self.best(options)
        edits: list[tuple[Edit, ...]] = []
        for each in found:
            if each.repair is not None:
                edits.append((self.edit(each.repair),))
            elif each.finding.severity == "error" and each.segment is not None:
                edits.append(made.get(each.segment, ()))
            else:
                edits.append(())
        return edits

    def best(self, options: list[Repair]) -> tuple[Edit, ...]:
        """Those of the repairs that are as good as the first and leave as little."""
        if not options:
            return ()
        least = options[0].left + options[0].size
        alike = [each for each in options if each.left + each.size <= least + ALIKE][:MOST_EDITS]
        edits = [self.edit(each) for each in alike]
        fewest = min(map(_errors, edits))
        return tuple(edit for edit in edits if _errors(edit) == fewest)

    def edit(self, repair: Repair) -> Edit:
        """A repair as one stretch of the text and what stands there instead."""
        start = min(each.start for each in repair.edits)
        end = max(each.end for each in repair.edits)
        replacement = self.explained.original[start:end]
        for each in sorted(repair.edits, reverse=True):
            replacement = replacement[: each.start - start] + each.text + replacement[each.end - start :]
        position = self.explained.position
        return Edit(
            start=position(start),
            end=position(end),
            replacement=replacement,
            leaves=self.leaves(start, end, replacement),
        )

    def leaves(self, start: int, end: int, replacement: str) -> tuple[Remaining, ...] | None:
        """The findings of the text with an edit made; None where too much has been read again."""
        text = self.explained.original
        if self.steps_to_read > self.steps:
            return None
        self.steps -= self.steps_to_read
        found = self.findings_of(text[:start] + replacement + text[end:])
        return tuple(Remaining(line=each.line, code=each.code, size=each.size) for each in found)[
            :MOST_FINDINGS
        ]


def _errors(edit: Edit) -> int:
    """How many errors there are with an edit; many where that is not known."""
    if edit.leaves is None:
        return MOST_FINDINGS
    return sum(KINDS[each.code].severity == "error" for each in edit.leaves)


def line_with(explained: Explained, edit: Edit) -> str:
    """The line with an edit made, without its end; of lines that are put in, those alone."""
    if edit.start == edit.end and edit.replacement.endswith("\n"):
        return edit.replacement.rstrip("\n")
    start = explained.line_starts[edit.start.line - 1]
    stop = edit.end.offset + len(explained.text[edit.end.offset :].split("\n", 1)[0])
    before, behind = explained.text[start : edit.start.offset], explained.text[edit.end.offset : stop]
    return (before + edit.replacement + behind).rstrip(" ")


def repaired(explained: Explained, findings: Iterable[Finding]) -> str | None:
    """The text with the best edit of each finding made; of edits that overlap, the first. None without any."""
    text = explained.original
    best = {
        (edits[0].start.offset, edits[0].end.offset): edits[0] for each in findings if (edits := each.edits)
    }
    chosen: list[Edit] = []
    behind = -1
    for (start, end), edit in sorted(best.items(), key=lambda item: item[0]):
        if start >= behind:
            chosen.append(edit)
            behind = end + (start == end)
    for edit in reversed(chosen):
        text = text[: edit.start.offset] + edit.replacement + text[edit.end.offset :]
    return text if chosen else None
