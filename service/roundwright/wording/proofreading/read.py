"""A written pattern turned back into rounds, each executed; what does not come out is found, and reading goes on.

`read` does it for all sizes at once, `rounds_of` for one and only if nothing is wrong.
"""

from msgspec import Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import Round
from roundwright.wording.proofreading.executor import Desk, Follower
from roundwright.wording.proofreading.findings import Finding
from roundwright.wording.proofreading.outcome import Outcomes
from roundwright.wording.proofreading.repair import Mender
from roundwright.wording.proofreading.report import Report
from roundwright.wording.reading.entries import Entry, Written, entries
from roundwright.wording.reading.schedule import schedule


class Reading(Struct, frozen=True):
    """A text as read: the rounds of each size, as executed, and what was found.

    A line that does not come out is in no size's rounds; the next goes on with the count the pattern goes on with.
    """

    rounds: tuple[tuple[Round, ...], ...]
    findings: tuple[Finding, ...]


def read(text: str, cast_on: tuple[int, ...]) -> Reading:
    """The rounds of a pattern for each size, and everything that is wrong with it.

    `cast_on` has the stitches of each size at the start, one or more of the sizes the text is written for. Takes time
    in the length of the text and in rounds times sizes; at most 400 rounds are read for a size.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    written = entries(text, len(cast_on))
    report = Report(text, written, cast_on)
    columns = _columns(written, cast_on, report)
    shared = not any(map(_differs, written.entries))
    desk = Desk(report, Outcomes(), Mender(), {})
    turns = None
    rounds = []
    for size, (count, column) in enumerate(zip(cast_on, columns, strict=True)):
        if turns is None or not shared:
            turns, troubles = schedule(written.entries, column)
            report.order(troubles)
        follower = Follower(size, column, count, turns, desk)
        follower.work()
        rounds.append(tuple(follower.rounds))
    return Reading(tuple(rounds), report.findings())


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


def _differs(entry: Entry) -> bool:
    """Whether a line may stand elsewhere in the order for another size."""
    label = entry.label
    numbers = [number for span in (label.spans if label else ()) for number in (span.first, span.last)]
    counts = (label.count if label else None, entry.body.rounds)
    return entry.columns is not None or any(
        number and len(number.values) > 1 for number in (*numbers, *counts)
    )


def _columns(written: Written, cast_on: tuple[int, ...], report: Report) -> tuple[int, ...]:
    """Which of the sizes in the text each count is: by place, or by count where only some are asked for."""
    counts = written.counts * len(cast_on) if len(written.counts) == 1 else written.counts
    if len(counts) in (0, len(cast_on)):
        for size, (asked, said) in enumerate(zip(cast_on, counts, strict=False)):
            if asked != said:
                report.cast_on(size, asked, said)
        return tuple(range(len(cast_on)))
    if all(count in counts for count in cast_on):
        return tuple(counts.index(count) for count in cast_on)
    report.other_sizes()
    return tuple(min(place, len(counts) - 1) for place in range(len(cast_on)))
