"""A text explained: its rounds for each size, and what was found."""

import re
from typing import Final

from msgspec import Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import MOST_STITCHES, Round
from roundwright.wording.proofreading.findings import MOST_FINDINGS, Finding
from roundwright.wording.proofreading.messages import message
from roundwright.wording.proofreading.repair import MOST_LINES, Repair, Repairs, cast_on_repair
from roundwright.wording.reading.explain import Search
from roundwright.wording.reading.states import Explanation, Fault
from roundwright.wording.reading.layout import MOST_LINES as MOST_LINES_READ
from roundwright.wording.reading.layout import Laid, Segment, segments
from roundwright.wording.reading.phrases import CastOn
from roundwright.wording.reading.scanner import MOST_WORDS, scan

MOST_SIZES: Final = 13


class Reading(Struct, frozen=True):
    """A text as read: the rounds of each size, as executed, and what was found."""

    rounds: tuple[tuple[Round, ...], ...]
    findings: tuple[Finding, ...]


class Explained(Struct, frozen=True):
    """A text, its segments and their explanation."""

    text: str
    laid: Laid
    explanation: Explanation
    counts: tuple[int, ...]
    columns: tuple[int, ...]
    search: Search
    cast_on: tuple[int, ...]


def explain(text: str, cast_on: tuple[int, ...]) -> Explained:
    """The cheapest explanation of a text."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    scanned = scan(text, len(cast_on))
    laid = segments(scanned.tokens, len(cast_on))
    counts = _cast_on(laid)
    if len(counts) > 1 and len(counts) != len(cast_on):
        scanned = scan(text, len(counts))
        laid = segments(scanned.tokens, len(counts))
    columns = _columns(counts, cast_on)
    if scanned.cut and laid.segments:
        last = laid.segments[-1].end
        laid.segments.append(
            Segment(
                None,
                (),
                last,
                last,
                heading=False,
                told=False,
                troubles=(
                    ("too_long", f"The text has more than {MOST_WORDS:,} words; the rest is not read.", last),
                ),
            )
        )
    elif laid.cut is not None:
        laid.segments.append(
            Segment(
                None,
                (),
                laid.cut,
                laid.cut,
                heading=False,
                told=False,
                troubles=(
                    (
                        "too_many_rounds",
                        f"The text has more than {MOST_LINES_READ:,} lines; the rest is not read.",
                        laid.cut,
                    ),
                ),
            )
        )
    search = Search(laid.segments, columns, cast_on, max(len(counts), len(cast_on)), counts)
    return Explained(text, laid, search.run(), counts, columns, search, cast_on)


def _cast_on(laid: Laid) -> tuple[int, ...]:
    for segment in laid.segments:
        for phrase in segment.phrases:
            if isinstance(phrase, CastOn):
                return tuple(value or 0 for value in phrase.number.values)[:MOST_SIZES]
    return ()


def _columns(counts: tuple[int, ...], cast_on: tuple[int, ...]) -> tuple[int, ...]:
    """Which of the sizes in the text each count is: by place, or by count where only some are asked for."""
    if len(counts) in (0, 1, len(cast_on)):
        return tuple(range(len(cast_on)))
    if all(count in counts for count in cast_on):
        return tuple(counts.index(count) for count in cast_on)
    return tuple(min(place, len(counts) - 1) for place in range(len(cast_on)))


def read(text: str, cast_on: tuple[int, ...]) -> Reading:
    """The rounds of a pattern for each size, and everything that is wrong with it."""
    explained = explain(text, cast_on)
    faults = explained.explanation.faults
    repaired = _repairs(explained) if any(not fault.note for fault in faults) else {}
    findings = [_finding(explained, fault, repaired.get(fault.segment)) for fault in faults]
    if -1 in repaired:
        findings.append(_cast_on_finding(explained, repaired[-1][0]))
    if not any(explained.explanation.rounds) and not findings:
        findings.append(
            Finding(
                line=1,
                column=1,
                code="no_rounds",
                severity="error",
                message="No line of this text was read as a round, such as “Rnd 1: knit”.",
            )
        )
    findings.sort(key=lambda each: (each.line, each.column))
    return Reading(
        tuple(tuple(done.round for done in rounds) for rounds in explained.explanation.rounds),
        tuple(findings[:MOST_FINDINGS]),
    )


def _repairs(explained: Explained) -> dict[int, list[Repair]]:
    """The repairs of every segment that does not come out; those of the cast-on at -1."""
    faults: dict[int, list[Fault]] = {}
    for fault in explained.explanation.faults:
        if not fault.note:
            faults.setdefault(fault.segment, []).append(fault)
    chosen = dict(explained.explanation.choices)
    width = max(len(explained.counts), len(explained.cast_on))
    repairs = Repairs(explained.text, explained.search, width, explained.columns)
    found: dict[int, list[Repair]] = {}
    for place in sorted(faults)[:MOST_LINES]:
        found[place] = repairs.repairs(place, faults[place], chosen.get(place))
    if any(fault.code in ("left_over", "runs_out") for fault in explained.explanation.faults):
        other = cast_on_repair(
            explained.text,
            explained.search,
            explained.cast_on,
            explained.columns,
            width,
            explained.explanation.cost,
        )
        if other:
            found[-1] = [other[1]]
    return found


def _cast_on_finding(explained: Explained, repair: Repair) -> Finding:
    text, start = explained.text, repair.edits[0].start
    return Finding(
        line=text.count("\n", 0, start) + 1,
        column=start - text.rfind("\n", 0, start),
        code="cast_on_differs",
        severity="error",
        message=f"With {repair.edits[0].text} stitches cast on the rounds come out.",
        repair=_line(text, repair),
    )


def _line(text: str, repair: Repair) -> str:
    """The line with its edits made."""
    first = min(edit.start for edit in repair.edits)
    last = max(edit.end for edit in repair.edits)
    start = text.rfind("\n", 0, first) + 1
    stop = text.find("\n", last)
    stop = len(text) if stop < 0 else stop
    line = text[start:stop]
    for edit in sorted(repair.edits, reverse=True):
        line = line[: edit.start - start] + edit.text + line[edit.end - start :]
    return line


_CODES: Final = {"chart": "to_a_length", "markers": "ambiguous"}


def _finding(explained: Explained, fault: Fault, repairs: list[Repair] | None = None) -> Finding:
    text = explained.text
    start = max(0, min(fault.start, len(text)))
    by = None
    if fault.code in ("left_over", "runs_out"):
        by = fault.before - fault.used
    elif fault.code in ("count_differs", "wrong_way") and fault.said is not None:
        by = fault.left - fault.said
    elif fault.code == "cast_on_differs" and fault.said is not None:
        by = fault.said - fault.before
    return Finding(
        line=text.count("\n", 0, start) + 1,
        column=start - text.rfind("\n", 0, start),
        code=_CODES.get(fault.code, fault.code),  # type: ignore[arg-type]
        severity="note" if fault.note else "error",
        size=None if fault.size is None else fault.size + 1,
        stitches=None if by is None else max(-MOST_STITCHES, min(MOST_STITCHES, by)),
        message=message(fault),
        repair=_line(text, repairs[0]) if repairs and not fault.note else None,
    )


_SPACES: Final = re.compile(r"\s+")


def rounds_of(
    text: str, cast_on: tuple[int, ...], size: int = 0, pointer: str = "#/pattern"
) -> tuple[Round, ...]:
    """The rounds of one size of a pattern in which nothing is wrong.

    Raises `Impossible` with the first error where something is; `pointer` says where the text is from.
    """
    reading = read(text, cast_on)
    for finding in reading.findings:
        if finding.severity == "error" and finding.size in (None, size + 1):
            raise Impossible(
                f"Line {finding.line} of the pattern: {finding.message}",
                pointer=pointer,
                nearest=finding.repair,
            )
    return reading.rounds[size]
