"""What does not come out in an explanation, as findings on their lines."""

import re
from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.proofreading.doubtful import Doubtful, rib_of
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.findings import KINDS, Finding
from roundwright.wording.proofreading.messages import (
    ambiguous,
    cast_on_comes_out,
    left_over_missing,
    message,
    no_rounds,
    size_taken,
    unknown_word,
)
from roundwright.wording.proofreading.number_edits import NEAR
from roundwright.wording.proofreading.repair import Repair, cast_on_repairs
from roundwright.wording.proofreading.rewriting import Edit
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.line_work import COUNT_KEPT
from roundwright.wording.reading.settle import IN_ALL, ONCE_MORE
from roundwright.wording.reading.states import Fault
from roundwright.wording.reading.tree import Evenly, Fill, Group, Nodes, Number, Stitch, Unknown, walk
from roundwright.wording.reading.vocabulary import KIND_TOGETHER, likest, respelt, words_of
from roundwright.wording.reading.worked import UnclearError
from roundwright.wording.reading.working import Worker

_CODES: Final = {
    "chart": "to_a_length",
    "markers": "ambiguous",
    "goes_on": "ambiguous",
    "rib_not_told": "ambiguous",
    COUNT_KEPT: "count_differs",
}


class Found:
    """A finding, with what it was made of: its segment, and the repairs that are its own."""

    def __init__(self, finding: Finding, segment: int | None = None, repairs: Sequence[Repair] = ()) -> None:
        self.finding = finding
        self.segment = segment
        self.repairs = repairs


def evaluate(explained: Explained) -> list[Found]:
    """Everything that does not come out or was left open, in the order of the lines."""
    explanation = explained.explanation
    faults = [_reason(explained, fault) for fault in explanation.faults]
    findings = [Found(_finding(explained, fault), fault.segment) for fault in faults]
    missing = {fault.segment for fault in faults if fault.code == "round_missing" and not fault.note}
    for entry, fault in zip(findings, faults, strict=True):
        if fault.code == "left_over" and fault.segment in missing:
            entry.finding = replace(entry.finding, message=left_over_missing(fault))
    findings.extend(_cast_on(explained))
    if not any(explanation.rounds) and not findings:
        findings.append(
            Found(Finding(line=1, column=1, code="no_rounds", severity="error", message=no_rounds()))
        )
    wrong = {entry.segment for entry in findings if entry.finding.severity == "error"}
    findings.extend(_ambiguous(explained, wrong))
    if explained.guessed is not None:
        place = explained.position(explained.guessed)
        sentence = size_taken(explained.columns[0] + 1, explained.cast_on[0])
        note = Finding(
            line=place.line, column=place.column, code="ambiguous", severity="note", message=sentence
        )
        findings.append(Found(note))
    findings.sort(key=lambda entry: (entry.finding.line, entry.finding.column))
    return findings


def _finding(explained: Explained, fault: Fault) -> Finding:
    place = explained.position(fault.start)
    code = _CODES.get(fault.code, fault.code)
    note = fault.note or (KINDS[code].severity == "note" and code != "round_missing")
    return Finding(
        line=place.line,
        column=place.column,
        code=code,
        severity="note" if note else "error",
        size=None if fault.size is None else fault.size + 1,
        stitches=_by(fault),
        message=_unknown(explained, fault) if code == "unknown_word" else message(fault),
    )


_WORD: Final = re.compile(r"[^\s,;:*()\[\]{}]{1,60}")


def _unknown(explained: Explained, fault: Fault) -> str:
    """The word that is not known, as it is printed, and the stitches that look like it."""
    word = _WORD.match(explained.text, fault.start)
    if word is None:
        return message(fault)
    small = word[0].lower().rstrip(".")
    meant = respelt(small, words_of(KIND_TOGETHER))
    near = (meant,) if meant else likest(small)
    return unknown_word(word[0], near, 0 if near else _taken_by_unknown(explained, fault))


MOST_TAKEN: Final = 3
"""Stitches that a stitch nobody knows may use: a twist over more has its number in its name."""


def _taken_by_unknown(explained: Explained, fault: Fault) -> int:
    """With how few stitches used and left by the unknown stitch the line comes out for all sizes; 0 with none."""
    search, candidate = explained.search, explained.chosen.get(fault.segment)
    if candidate is None or not search.before.get(fault.segment):
        return 0
    unknown = [node for node in walk(candidate.nodes) if type(node) is Unknown]
    if len({explained.text[node.start : node.end].lower() for node in unknown}) > 1:
        return 0
    doubtful = Doubtful(explained.text, search, search.budget, [fault], candidate, stitches={})
    for taken in range(1, MOST_TAKEN + 1):
        nodes = _with_known(candidate.nodes, Number((taken,)))
        if all(doubtful.fits(nodes, lane, candidate) for lane in doubtful.lanes()):
            return taken
    return 0


def _with_known(nodes: Nodes, taken: Number) -> Nodes:
    """The nodes with so many plain stitches for each stitch that nobody knows."""
    return tuple(
        replace(node, nodes=_with_known(node.nodes, taken))
        if isinstance(node, Group | Fill)
        else Stitch("k", taken, node.start, node.end)
        if type(node) is Unknown
        else node
        for node in nodes
    )


def _reason(explained: Explained, fault: Fault) -> Fault:
    """The fault, said more exactly: why a line was not read, or from which stitch on there are too few."""
    if fault.code == "not_understood" and not fault.text:
        options = explained.search.known.get(fault.segment, ())
        troubles = [
            *(candidate.trouble for candidate in options),
            *explained.segments[fault.segment].troubles,
        ]
        for code, text, start in filter(None, troubles):
            return replace(fault, code=code, text=text, start=start)
    candidate = explained.chosen.get(fault.segment)
    if fault.code == "runs_out" and candidate is not None and fault.size is not None:
        return replace(fault, start=_runs_out_at(candidate, explained.columns[fault.size], fault))
    return fault


def _runs_out_at(candidate: Candidate, column: int, fault: Fault) -> int:
    """Where the first stitches stand that there are too few for, in a line without anything that goes on."""
    if any(type(node) in (Fill, Evenly) for node in candidate.nodes):
        return fault.start
    for place, node in enumerate(candidate.nodes):
        try:
            if Worker(column).work(candidate.nodes[: place + 1], fault.before).used > fault.before:
                return node.start
        except UnclearError:
            break
    return fault.start


def _by(fault: Fault) -> int | None:
    """How many stitches too many, or too few below 0."""
    by = None
    if fault.code in ("left_over", "runs_out") and not fault.text:
        by = fault.before - fault.used
    elif fault.code in ("count_differs", "wrong_way", COUNT_KEPT) and fault.stated is not None:
        by = fault.left - fault.stated
    elif fault.code == "cast_on_differs" and fault.stated is not None:
        by = fault.stated - fault.before
    return None if by is None else max(-MOST_STITCHES, min(MOST_STITCHES, by))


def _cast_on(explained: Explained) -> list[Found]:
    """Another count to cast on, with which most of what is wrong comes out."""
    wrong = [fault for fault in explained.explanation.faults if fault.code in ("left_over", "runs_out")]
    lines = {fault.segment for fault in wrong}
    if not wrong:
        return []
    if len(lines) == 1 and wrong[0].stated is None and not _is_of_one_rib(explained, wrong[0].segment):
        return []  # of one line without a count, the line is the likelier to be wrong
    other = cast_on_repairs(explained.text, explained.search, explained.explanation.cost)
    if other is None:
        return []
    segment, repairs = other
    place = explained.position(repairs[0].edits[0].start)
    finding = Finding(
        line=place.line,
        column=place.column,
        code="cast_on_differs",
        severity="error",
        message=cast_on_comes_out(
            sorted((repair.edits[0].text for repair in repairs), key=lambda count: (len(count), count))
        ),
    )
    return [Found(finding, segment, repairs)]


def _is_of_one_rib(explained: Explained, place: int) -> bool:
    """Whether a segment works a rib, and those around it no other."""
    candidates = [explained.chosen.get(at) for at in (place, *range(place - NEAR, place + NEAR + 1))]
    rib, *ribs = [None if candidate is None else rib_of(candidate.nodes) for candidate in candidates]
    return rib is not None and {
        tuple(stitch.times.values for stitch in other) for other in ribs if other is not None
    } == {tuple(stitch.times.values for stitch in rib)}


def _ambiguous(explained: Explained, wrong: set[int | None]) -> list[Found]:
    """Rounds whose words allow two counts, where none is printed."""
    findings = []
    seen: set[int] = set()
    for done in explained.explanation.rounds[0] if explained.explanation.rounds else ():
        place = done.segment
        if place in seen:
            continue
        seen.add(place)
        candidate = explained.chosen.get(place)
        if candidate is None or not candidate.how or candidate.stated or place in wrong:
            continue
        ways = _ways(explained, place, candidate, done.round.before)
        if len(ways) > 1:
            at = explained.position(candidate.nodes[0].start if candidate.nodes else 0)
            finding = Finding(
                line=at.line, column=at.column, code="ambiguous", severity="note", message=ambiguous(ways)
            )
            repair = _clear(explained, candidate)
            findings.append(Found(finding, place, () if repair is None else (repair,)))
    return findings


_TIMES: Final = re.compile(r"\btimes?\b", re.IGNORECASE)


def _clear(explained: Explained, candidate: Candidate) -> Repair | None:
    """The words with which a line can be read in no other way than it was."""
    first, last = candidate.nodes[0], candidate.nodes[-1]
    if candidate.how in (ONCE_MORE, IN_ALL):
        times = _TIMES.search(explained.text, first.end - len("times"))
        words = (times.start(), "more ") if candidate.how == ONCE_MORE and times else None
        words = (times.end(), " in all") if candidate.how == IN_ALL and times else words
        return None if words is None else Repair((Edit(words[0], words[0], words[1], 1.0),), 0.0, 1.0)
    inside = last.nodes if type(last) is Group else (last,)
    if not isinstance(last, Group | Stitch) or last.times.start < 0:
        return None
    stop = last.times.start if type(last) is Stitch else inside[-1].end
    stop = len(explained.text[:stop].rstrip())
    edits = (Edit(inside[0].start, inside[0].start, "[", 1.0), Edit(stop, stop, "]", 1.0))
    return Repair(edits, 0.0, 2.0)


def _ways(explained: Explained, place: int, chosen: Candidate, count: int) -> list[tuple[str, int, int]]:
    """What each way to read a line uses and leaves, the one that was taken first."""
    ways: dict[tuple[int, int], str] = {}
    options = [
        chosen,
        *(candidate for candidate in explained.search.options(place) if candidate.how and candidate.nodes),
    ]
    for candidate in options:
        try:
            worked = Worker(explained.columns[0], None, {}, None).work(candidate.nodes, count)
        except UnclearError:
            continue
        ways.setdefault((worked.used, worked.left), candidate.how)
    return [(how, used, left) for (used, left), how in list(ways.items())[:2]]
