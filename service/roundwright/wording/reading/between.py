"""Plain rounds put between decrease rounds.

Told behind several decrease rounds, they are put between those; told before, they are worked as soon as one decrease
round follows another.
"""

from __future__ import annotations

from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_ROUNDS, Work
from roundwright.knitting.rounds.work_round import work_round
from roundwright.wording.reading.line_work import HIGHEST, PLAIN, LineWork
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.states import Done, Entry, Lane
from roundwright.wording.reading.tokens import STOP


def work_between(work: LineWork) -> None:
    """Put the plain rounds between the decrease rounds just worked, or keep them for those that follow."""
    candidate, lane = work.candidate, work.lane
    if candidate.rounds is not None and not candidate.rounds.of(work.column):
        lane.between = None
        return
    run = [] if work.segment.intro else _shaped_last(work)
    if len(run) < (1 if candidate.plain else 2):
        told_first = candidate.told_first or work.segment.intro
        lane.between = Entry(replace(candidate, told_first=told_first), work.place)
        for _ in range(_number(work) if candidate.plain < 0 else 0):
            _add_plain(work)
        return
    if candidate.step and _stand_already(lane, len(run)):
        return
    if len(run) == 1 and not candidate.step:  # `Knit 1 rnd after this and each of the following dec rnds`
        lane.between = Entry(candidate, work.place)
    number = _number(work)
    for _ in run:
        _take_back(lane)
    for place, done in enumerate(reversed(run)):
        for _ in range(number if candidate.plain < 0 else 0):
            _add_plain(work)
        _add(work, done)
        last = place + 1 == len(run)
        wanted = not candidate.step or place < candidate.step
        for _ in range(number if wanted and (candidate.plain > 0 or not (last or candidate.plain)) else 0):
            _add_plain(work)
    work.desk.budget.spend((number + 2) * len(run))


def _number(work: LineWork) -> int:
    """How many plain rounds they are each time."""
    rounds = work.candidate.rounds
    return min(rounds.of(work.column) or 0 if rounds else 0, MOST_ROUNDS)


def _stand_already(lane: Lane, run: int) -> bool:
    """Whether the first decrease rounds stand with their plain rounds before the last `run`, which have none."""
    chain = lane.chain
    for _ in range(run):
        chain = chain[0] if chain else None
    plain = 0
    while chain and chain[1].round.after == chain[1].round.before and plain < MOST_PLAIN:
        chain, plain = chain[0], plain + 1
    return 0 < plain < MOST_PLAIN and chain is not None and chain[1].round.after < chain[1].round.before


MOST_PLAIN: Final = 8
"""Plain rounds between two decrease rounds of a crown."""


def _shaped_last(work: LineWork) -> list[Done]:
    """The decrease rounds that were worked last, one after the other, the last first; only those of the sentence."""
    chain, run = work.lane.chain, list[Done]()
    first = _sentence(work)
    while chain and len(run) < MOST_RUN:
        chain, done = chain
        if done.round.after == done.round.before or done.segment < first:
            break
        run.append(done)
    return run


def _sentence(work: LineWork) -> int:
    """The first segment of the sentence that the plain rounds are told in; 0 where that is one of their own."""
    segments, place = work.desk.segments, work.place
    if _begins(segments[place]):
        return 0
    while place and not _begins(segments[place]):
        place -= 1
    return place


def _begins(segment: Segment) -> bool:
    """Whether a sentence begins with it, or a line."""
    return segment.label is not None or (bool(segment.phrases) and bool(segment.phrases[0].flags & STOP))


MOST_RUN: Final = 60
"""Decrease rounds between which plain rounds are told."""


def _take_back(lane: Lane) -> None:
    """Undo the last round."""
    assert lane.chain is not None
    lane.chain, done = lane.chain
    lane.worked -= 1
    lane.count = done.round.before
    lane.number = done.round.number - 1


def _add(work: LineWork, done: Done) -> None:
    """A round that was worked before, now with the number it has."""
    lane = work.lane
    round_ = replace(done.round, number=min(lane.number + 1, HIGHEST))
    lane.chain = (lane.chain, replace(done, round=round_))
    lane.worked += 1
    lane.count = round_.after
    lane.number = round_.number


def _add_plain(work: LineWork) -> None:
    """A plain round, unless there are as many rounds as are kept."""
    lane = work.lane
    if lane.worked < MOST_ROUNDS:
        plain = work_round(min(lane.number + 1, HIGHEST), lane.count, (Work("k", lane.count),))
        _add(work, Done(plain, PLAIN, work.place))
