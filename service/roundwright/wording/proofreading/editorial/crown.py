"""What an editor asks about the shaping: its rhythm, its printed counts, its closing, the knits of a rib."""

import re
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from roundwright.wording.proofreading import messages
from roundwright.wording.proofreading.editorial.sheet import NUMBERS, Sheet, values
from roundwright.wording.proofreading.findings import Edit, Finding
from roundwright.wording.proofreading.likeness import mismatch, signature
from roundwright.wording.proofreading.rewriting import written
from roundwright.wording.reading.states import Done
from roundwright.wording.reading.tree import Number

NEIGHBOURS: Final = 2
"""Shaping rounds before and after one, alike among themselves, that it is compared with."""
RHYTHM_OFF: Final = 2
"""Stitches by which a change is out of its rhythm: where eight do not divide the round, seven go once."""
RIB_SHIFTED: Final = 0.4
"""Share of the stitches of a rib that stand over the other kind."""
MOST_PRINTED: Final = 3
"""Shaping lines with a count from which on one without is asked about."""


def rhythm_broken(sheet: Sheet) -> Iterator[Finding]:
    """A shaping round that takes away another number of stitches, in the same way, than two before and two after it."""
    rounds = [done for done in sheet.rounds[0] if done.round.after != done.round.before]
    changes = [done.round.after - done.round.before for done in rounds]
    for place in range(NEIGHBOURS, len(rounds) - NEIGHBOURS):
        around = changes[place - NEIGHBOURS : place] + changes[place + 1 : place + 1 + NEIGHBOURS]
        kinds = {frozenset(signature(done.round)) for done in rounds[place - 1 : place + 2]}
        off = abs(changes[place] - around[0])
        if len(set(around)) == 1 and off >= RHYTHM_OFF and len(kinds) == 1:
            message = messages.rhythm_broken(abs(changes[place]), abs(around[0]))
            yield sheet.note("rhythm_broken", _start(sheet, rounds[place]), message)


def _start(sheet: Sheet, done: Done) -> int:
    return sheet.explained.segments[done.segment].start


_REMAINING: Final = re.compile(
    rf"(?:through|remaining|rem\.?|last|final|the|all)\s+({NUMBERS})\s*(?:sts?\b|stitch|loops?)",
    re.IGNORECASE,
)
_CORD: Final = re.compile(
    r"\b([0-9]{1,2})[- ](?:st|stitch)\.?[- ](?:i-?cord|cord)|cord\b.{0,20}\b(?:on|over)\s+([0-9]{1,2})\s+st",
    re.IGNORECASE,
)


def closing_count(sheet: Sheet) -> Iterator[Finding]:
    """`thread through remaining 6 sts` on 8, a cord of five stitches on four."""
    end = max((done.segment for rounds in sheet.rounds for done in rounds), default=-1)
    behind = sheet.explained.segments[end].start if end >= 0 else 0
    for printed in sheet.lines_of("closing", "prose", "cast_on", "fabric"):
        if printed.start < behind:
            continue
        for match in _REMAINING.finditer(printed.text):
            begin = printed.start + match.start(1)
            yield from _closing(sheet, begin, values(match[1]), _with_counts_left(sheet, begin, match[1]))
        for match in _CORD.finditer(printed.text):
            counts = values(match[1] or match[2])
            if any(count < counts[0] for count in sheet.last):
                yield from _closing(sheet, printed.start + match.start(), counts)


def _closing(
    sheet: Sheet, start: int, counts: list[float], edits: tuple[Edit, ...] = ()
) -> Iterator[Finding]:
    if len(counts) not in (1, len(sheet.explained.counts) or 1):
        return
    for size, (count, column) in enumerate(zip(sheet.last, sheet.explained.columns, strict=True)):
        closing = int(counts[min(column, len(counts) - 1)])
        if closing != count:
            message = messages.closing_count(closing, count)
            left = count - closing
            yield sheet.note("closing_count", start, message, size=size, stitches=left, edits=edits)
            return


def _with_counts_left(sheet: Sheet, start: int, printed: str) -> tuple[Edit, ...]:
    """The counts of a closing as they are left; none where not all sizes of the text are asked for."""
    left = dict(zip(sheet.explained.columns, sheet.last, strict=True))
    if sorted(left) != list(range(len(sheet.explained.counts) or 1)):
        return ()
    counts = [left[column] for column in sorted(left)]
    number = Number(tuple(map(int, values(printed))))
    return (sheet.edit(start, start + len(printed), written(printed, number, [*counts])),)


def count_not_printed(sheet: Sheet) -> Iterator[Finding]:
    """The one shaping line before the last that has no count, where all others have theirs."""
    line = sheet.explained.line
    labelled = {
        line(segment.start)
        for segment in sheet.explained.segments
        if segment.label is not None and segment.label.kind in ("numbered", "sort", "next")
    }
    shaping = {_start(sheet, done) for done in sheet.rounds[0] if done.round.after != done.round.before}
    places = labelled & set(map(line, shaping))
    lines = [printed for printed in sheet.lines_of("round") if printed.line.line in places]
    without = [printed for printed in lines if not printed.line.printed]
    last = lines[-1:]
    if len(without) == 1 and without != last and len(lines) > MOST_PRINTED:
        yield sheet.note("count_not_printed", without[0].start, messages.count_not_printed())


def rib_shifted(sheet: Sheet) -> Iterator[Finding]:
    """A round of a rib, in the midst of like ones, whose knits stand over purls."""
    rounds = sheet.rounds[0]
    alike = Counter(done.round.steps for done in rounds)
    for place, (below, above) in enumerate(pairwise(rounds), start=1):
        lower, upper = below.round, above.round
        if lower.before != lower.after or upper.before != upper.after or alike[upper.steps] > 1:
            continue  # what comes again is a pattern of its own, such as a basket weave
        lasting = _lasting(sheet, below) or (place > 1 and rounds[place - 2].round.steps == lower.steps)
        back = place + 1 < len(rounds) and rounds[place + 1].round.steps == lower.steps
        goes_on = back or place + 1 == len(rounds) or _plain(rounds[place + 1])
        if lasting and goes_on and min(mismatch(lower, upper), mismatch(upper, lower)) >= RIB_SHIFTED:
            yield sheet.note("rib_shifted", _start(sheet, above), messages.rib_shifted())


def _lasting(sheet: Sheet, done: Done) -> bool:
    """Whether it stands for several rounds alike: it is worked to a length."""
    candidate = sheet.explained.chosen.get(done.segment)
    return candidate is not None and candidate.length


def _plain(done: Done) -> bool:
    return len(done.round.steps) == 1 and done.round.before == done.round.after
