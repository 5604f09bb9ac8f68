"""What may have gone wrong when a count is not right, the likeliest first.

Every stage the knitter may have reached is held against the count. A count off by one is one decrease missed or one
stitch added, or else one decrease too many or one stitch dropped: stitches alone cannot tell the two of a pair apart,
so both are named. Which comes first, and how much less likely everything else is, are the weights below.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final, Literal, NamedTuple

from roundwright.knitting.counting.progress import Course, Needles, Stage
from roundwright.knitting.needles.tracking import track_needles
from roundwright.knitting.rounds.notation import star_of
from roundwright.knitting.rounds.round import Repeat, Step, Steps, Work, execute, knit
from roundwright.knitting.rounds.work_round import work_round

CauseCode = Literal[
    "missed_decrease", "extra_decrease", "dropped_stitch", "extra_stitch", "needles_merged", "other_round"
]
Kind = Literal["count", "elsewhere", "line", "midway", "merged", "strayed", "spread", "far"]

MOST_CAUSES: Final = 6
"""Causes named: who has ruled out six counts again."""
MOST_OFF: Final = 8
"""Stitches that a count is put down to slips for: more than a whole round of decreases is no slip."""

# How unlikely each is; the order is common practice: most slips are made where something is shaped, and in a plain
# round above it hands drop or add a stitch, or the decrease round was never counted.
WHERE_SHAPED: Final[dict[CauseCode, int]] = {
    "missed_decrease": 0, "extra_decrease": 1, "extra_stitch": 2, "dropped_stitch": 2,
}  # fmt: skip
ABOVE_SHAPED: Final[dict[CauseCode, int]] = {
    "missed_decrease": 2, "extra_decrease": 3, "extra_stitch": 1, "dropped_stitch": 1,
}  # fmt: skip
STRAIGHT: Final[dict[CauseCode, int]] = {"extra_stitch": 2, "dropped_stitch": 2, "extra_decrease": 4}
FAR_LESS_LIKELY: Final = 9
"""Above the likeliest: what is three slips less likely is not named."""
EACH_MORE: Final = 3
"""For each slip more of the same kind: one slip is likelier than two."""
WHOLE_NEEDLE: Final = 1
"""For all the decreases of one needle: whoever forgets one there forgets them all."""
ELSEWHERE: Final = 3
"""The count of another round: rounds are counted worse than stitches."""
WRONG_LINE: Final = 4
WRONG_LINE_BY_ONE: Final = 6
WRONG_LINE_ON_NEEDLES: Final = 2
"""The line of another round was worked, and the count is just what comes of it; on several needles it is no chance."""
MIDWAY: Final = 4
"""The first needles hold what they should after a round, the others what they should before it."""
MERGED: Final = 1
STRAYED: Final = 2
SPREAD: Final = 3
"""For needles that are off in more than one place."""
FARTHEST: Final = 6
"""Rounds away from the one stated that still count against another round: farther is no unlikelier."""
NEIGHBOURS: Final = 2
"""Decrease rounds on either side whose line may have been taken for the right one."""


class Counted(NamedTuple):
    """The count just made, whole or needle by needle."""

    total: int
    needles: Needles | None


class Slip(NamedTuple):
    """Something that may have gone wrong.

    - `stage`: index of the stage that the needles hold, had it not gone wrong; `number`: its round
    - `stitches`: how many too many; below 0, too few
    - `needle`: index of the needle, where one is known
    - `other`: index of the stage whose line was worked; of the needle that stitches went to or came from
    """

    unlikely: int
    code: CauseCode
    kind: Kind
    stage: int
    number: int
    stitches: int = 0
    needle: int | None = None
    other: int = 0


def is_right(stage: Stage, counted: Counted, *, needles_known: bool) -> bool:
    """Whether the needles hold what they should after the stage: every one, where its share is known."""
    if counted.total != stage.after:
        return False
    if counted.needles is None or stage.needles is None:
        return True
    if not needles_known:
        return not any(_merged(stage.needles, counted.needles, 0, 0))
    return counted.needles in (stage.needles, tuple(filter(None, stage.needles)))


def slips(course: Course, counted: Counted, said: Sequence[tuple[int, int]]) -> tuple[Slip, ...]:
    """What may have gone wrong, the likeliest first; never empty.

    `said` are the places (index of a stage, round) that the knitter says to have reached: all, where nothing is known.
    """
    places = said or _places(course.stages)
    found = [slip for place in places for slip in _at(course, counted, *place)]
    if said:
        found += _elsewhere(course, counted, said)
    found.sort(key=lambda slip: slip.unlikely)
    likeliest: dict[tuple[object, ...], Slip] = {}
    for slip in found:
        likeliest.setdefault((slip.code, slip.kind, slip.needle), slip)
    within = (slip for slip in likeliest.values() if slip.unlikely <= found[0].unlikely + FAR_LESS_LIKELY)
    return tuple(within)[:MOST_CAUSES] or (_nearest(course, counted, places),)


def _places(stages: Sequence[Stage]) -> list[tuple[int, int]]:
    """The stages, without those that hold the same as the one before: the knitter is taken to be on the first."""
    held = [(stage.after, stage.needles) for stage in stages]
    return [
        (index, stage.first)
        for index, stage in enumerate(stages)
        if not index or held[index] != held[index - 1]
    ]


def _at(course: Course, counted: Counted, index: int, number: int) -> Iterator[Slip]:
    """What may have gone wrong if this round is the one just finished."""
    stage = course.stages[index]
    off = off_on_needles(stage, counted)
    total = counted.total - stage.after
    if stage.needles and counted.needles:
        yield from _on_needles(course, counted.needles, index, number)
    if total and abs(total) <= MOST_OFF:
        places = [needle for needle, more in enumerate(off or ()) if more]
        one = places[0] if len(places) == 1 else None
        spread = EACH_MORE * (len(places) - 1) if places and course.needles_known else 0
        yield from _count_off(course, Slip(spread, "extra_stitch", "count", index, number, total, one))
    if stage.decreases and any(off or (total,)) and abs(total) <= max(MOST_OFF, stage.before // 4):
        yield from _lines(course, counted, index, number)


def off_on_needles(stage: Stage, counted: Counted) -> Needles | None:
    """How many stitches too many each needle holds; None where that cannot be told."""
    if stage.needles is None or counted.needles is None:
        return None
    have = counted.needles
    if len(have) == sum(map(bool, stage.needles)):  # an empty needle may have been put aside
        still = iter(have)
        have = tuple(next(still) if share else 0 for share in stage.needles)
    if len(have) != len(stage.needles):
        return None
    return tuple(each - should for each, should in zip(have, stage.needles, strict=True))


# --- a count that is off ------------------------------------------------------------------------------------


def _count_off(course: Course, off: Slip) -> Iterator[Slip]:
    """The causes of a count that is off, each as likely as its weight and what `off` has already."""
    shaped = course.shaped(off.stage)
    weights = STRAIGHT if shaped is None else WHERE_SHAPED if shaped == off.stage else ABOVE_SHAPED
    codes: tuple[CauseCode, ...] = (
        ("missed_decrease", "extra_stitch") if off.stitches > 0 else ("extra_decrease", "dropped_stitch")
    )
    for code in codes:
        if code in weights:
            unlikely = off.unlikely + weights[code] + _more_slips(course, shaped, code, off)
            yield off._replace(unlikely=unlikely, code=code)


def _more_slips(course: Course, shaped: int | None, code: CauseCode, off: Slip) -> int:
    """How much less likely it is for being more than one slip."""
    if shaped is None or code not in ("missed_decrease", "extra_decrease"):
        return EACH_MORE * (abs(off.stitches) - 1)
    stage = course.stages[shaped]
    slips = -(-abs(off.stitches) // stage.takes)
    if code == "missed_decrease":
        if slips > stage.decreases:
            return EACH_MORE * MOST_OFF
        slid = course.slid(shaped) if off.needle is not None and slips > 1 else None
        if slid and stage.needles and off.needle is not None:
            due = slid[off.needle] - stage.needles[off.needle]
            if due == off.stitches:
                return WHOLE_NEEDLE
    return EACH_MORE * (slips - 1)


# --- needles ------------------------------------------------------------------------------------------------


def _on_needles(course: Course, counted: Needles, index: int, number: int) -> Iterator[Slip]:
    stage = course.stages[index]
    held = stage.needles or ()
    merged = tuple(_merged(held, counted, index, number))
    yield from merged
    if not course.needles_known:
        return
    if sum(counted) == stage.after and not merged:
        yield from _strayed(off_on_needles(stage, Counted(stage.after, counted)), index, number)
    slid = course.slid(index) if stage.decreases and len(held) == len(counted) else None
    for done in range(1, len(held) if slid else 1):
        if slid and counted[:done] == held[:done] and counted[done:] == slid[done:] and counted != held:
            yield Slip(MIDWAY, "other_round", "midway", index, number, 0, None, done)


def _merged(held: Needles, counted: Needles, index: int, number: int) -> Iterator[Slip]:
    """All stitches of two needles on one: the other lies empty, or is not counted any more."""
    places = [needle for needle, stitches in enumerate(held) if stitches]
    full = tuple(filter(None, counted))
    if len(full) != len(places) - 1 or sum(full) != sum(held):
        return
    shares = tuple(held[needle] for needle in places)
    for at in range(len(shares) - 1):
        if full == (*shares[:at], shares[at] + shares[at + 1], *shares[at + 2 :]):
            yield Slip(
                MERGED, "needles_merged", "merged", index, number, shares[at + 1], places[at], places[at + 1]
            )
    if len(shares) > 2:
        around = shares[0] + shares[-1]
        if full in ((*shares[1:-1], around), (around, *shares[1:-1])):
            yield Slip(MERGED, "needles_merged", "merged", index, number, shares[0], places[-1], places[0])


def _strayed(off: Needles | None, index: int, number: int) -> Iterator[Slip]:
    """Stitches of one needle that were worked on to its neighbour; the count is right."""
    places = [needle for needle, more in enumerate(off or ()) if more]
    if off and len(places) == 2 and places[1] - places[0] in (1, len(off) - 1):
        more, less = sorted(places, key=lambda needle: -off[needle])
        yield Slip(STRAYED, "needles_merged", "strayed", index, number, off[more], more, less)
    elif places or off is None:
        yield Slip(SPREAD, "needles_merged", "spread", index, number)


# --- another round ------------------------------------------------------------------------------------------


def _elsewhere(course: Course, counted: Counted, said: Sequence[tuple[int, int]]) -> Iterator[Slip]:
    """Rounds other than the one said after which the count would be right."""
    here = {index for index, _ in said}
    for index, stage in enumerate(course.stages):
        if index not in here and is_right(stage, counted, needles_known=course.needles_known):
            away = min(abs(index - place) for place in here)
            weight = ELSEWHERE + min(away, FARTHEST) - 1
            yield Slip(weight, "other_round", "elsewhere", index, stage.first)


def _lines(course: Course, counted: Counted, index: int, number: int) -> Iterator[Slip]:
    """Lines of other decrease rounds that make just this count when worked in place of the right one."""
    stage = course.stages[index]
    total = counted.total - stage.after
    for other, away in _neighbours(course.stages, index):
        steps = worked_around(course.stages[other].lines[0].steps, stage.before)
        if steps is None or execute(steps)[1] != counted.total:
            continue
        weight = WRONG_LINE_BY_ONE if abs(total) == 1 else WRONG_LINE
        if counted.needles and course.needles_known:
            held = course.stages[index - 1].needles
            if (
                held is None
                or track_needles((work_round(1, stage.before, steps),), held)[0].needles != counted.needles
            ):
                continue
            off = off_on_needles(stage, counted)
            if off is None or sum(map(bool, off)) > 1:
                weight = WRONG_LINE_ON_NEEDLES
        elif not total:
            continue
        yield Slip(weight + away - 1, "other_round", "line", index, number, total, None, other)


def _neighbours(stages: Sequence[Stage], index: int) -> Iterator[tuple[int, int]]:
    """The decrease rounds next to one, with how far away they are."""
    sides: tuple[Iterable[int], ...] = (range(index - 1, -1, -1), range(index + 1, len(stages)))
    for side in sides:
        away = 0
        for other in side:
            if stages[other].decreases:
                away += 1
                yield other, away
            if away == NEIGHBOURS:
                break


def worked_around(steps: Steps, stitches: int) -> Steps | None:
    """What becomes of a line on so many stitches that it is not for: its repeat as far as they go, the rest knitted.

    None where the line has no repeat, or there is not one in so few stitches.
    """
    star = star_of(steps)
    if star is None:
        return None
    head, repeat, tail = star
    uses = execute(repeat.steps)[0]
    left = stitches - execute(head)[0] - execute(tail)[0]
    if left < uses:
        return None
    return (*head, Repeat(left // uses, repeat.steps), *_begun(repeat.steps, left % uses), *tail)


def _begun(steps: Steps, stitches: int) -> Iterator[Step]:
    """The beginning of a repeat on stitches that are too few for all of it; those left in the end are knitted."""
    for step in steps:
        assert isinstance(step, Work)  # what stands behind a star has no repeats in it
        uses, _ = execute((Work(step.stitch),))
        turns = min(step.times, stitches // uses) if uses else step.times
        if turns:
            yield Work(step.stitch, turns)
        stitches -= turns * uses
        if turns < step.times:
            break
    yield from knit(stitches)


def _nearest(course: Course, counted: Counted, places: Sequence[tuple[int, int]]) -> Slip:
    """Where nothing fits: the round whose count comes nearest."""
    index, number = min(places, key=lambda place: abs(course.stages[place[0]].after - counted.total))
    total = counted.total - course.stages[index].after
    return Slip(EACH_MORE * MOST_OFF, "other_round", "far", index, number, total)
