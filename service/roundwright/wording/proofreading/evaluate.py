"""What does not come out in an explanation, as findings on their lines."""

import re
from typing import Final

from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.findings import KINDS, Finding
from roundwright.wording.proofreading.messages import (
    NO_ROUNDS,
    ambiguous,
    cast_on_comes_out,
    message,
    unknown_word,
)
from roundwright.wording.proofreading.repair import Repair, cast_on_repair
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.states import Fault
from roundwright.wording.reading.vocabulary import nearest
from roundwright.wording.reading.working import UnclearError, Worker

_CODES: Final = {"chart": "to_a_length", "markers": "ambiguous"}


class Found:
    """A finding, with what it was made of: its segment, and for a cast-on the repair it came from."""

    def __init__(self, finding: Finding, segment: int | None = None, repair: Repair | None = None) -> None:
        self.finding = finding
        self.segment = segment
        self.repair = repair


def evaluate(explained: Explained) -> list[Found]:
    """Everything that does not come out or was left open, in the order of the lines."""
    explanation = explained.explanation
    found = [Found(_finding(explained, fault), fault.segment) for fault in explanation.faults]
    found.extend(_cast_on(explained))
    if not any(explanation.rounds) and not found:
        found.append(Found(Finding(line=1, column=1, code="no_rounds", severity="error", message=NO_ROUNDS)))
    wrong = {each.segment for each in found if each.finding.severity == "error"}
    found.extend(_ambiguous(explained, wrong))
    found.sort(key=lambda each: (each.finding.line, each.finding.column))
    return found


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
    return unknown_word(word[0], [*nearest(word[0].lower().rstrip("."))])


def _by(fault: Fault) -> int | None:
    """How many stitches too many, or too few below 0."""
    by = None
    if fault.code in ("left_over", "runs_out"):
        by = fault.before - fault.used
    elif fault.code in ("count_differs", "wrong_way") and fault.said is not None:
        by = fault.left - fault.said
    elif fault.code == "cast_on_differs" and fault.said is not None:
        by = fault.said - fault.before
    return None if by is None else max(-MOST_STITCHES, min(MOST_STITCHES, by))


def _cast_on(explained: Explained) -> list[Found]:
    """Another count to cast on, with which most of what is wrong comes out."""
    if not any(fault.code in ("left_over", "runs_out") for fault in explained.explanation.faults):
        return []
    other = cast_on_repair(explained.text, explained.search, explained.explanation.cost)
    if other is None:
        return []
    segment, repair = other
    place = explained.position(repair.edits[0].start)
    finding = Finding(
        line=place.line,
        column=place.column,
        code="cast_on_differs",
        severity="error",
        message=cast_on_comes_out(repair.edits[0].text),
    )
    return [Found(finding, segment, repair)]


def _ambiguous(explained: Explained, wrong: set[int | None]) -> list[Found]:
    """Rounds whose words allow two counts, where none is printed."""
    found = []
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
            found.append(Found(finding, place))
    return found


def _ways(explained: Explained, place: int, chosen: Candidate, count: int) -> list[tuple[str, int, int]]:
    """What each way to read a line uses and leaves, the one that was taken first."""
    ways: dict[tuple[int, int], str] = {}
    options = [chosen, *(each for each in explained.search.options(place) if each.how and each.nodes)]
    for candidate in options:
        try:
            worked = Worker(explained.columns[0], None, {}, None).work(candidate.nodes, count)
        except UnclearError:
            continue
        ways.setdefault((worked.used, worked.left), candidate.how)
    return [(how, used, left) for (used, left), how in list(ways.items())[:2]]
