"""What may have gone wrong when a count is not right, the likeliest cause first.

Every stage the knitter may have reached is compared with the count. One stitch too many or too few is counted wrong
more often than it is knitted wrong, so counting again comes first. Several causes leave the same count: all are named,
in the order of the weights below. Needles only rank the causes: knitters share their stitches out anew as they go.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, zip_longest
from typing import Final, Literal, NamedTuple

from roundwright.knitting.counting.progress import Needles, Place, Progress, Stage, decrease_places
from roundwright.knitting.needles.tracking import track_needles
from roundwright.knitting.rounds.notation import star_of
from roundwright.knitting.rounds.round import Repeat, Step, Steps, Work, execute, knit
from roundwright.knitting.rounds.work_round import work_round

CauseCode = Literal[
    "count_again",
    "missed_decrease",
    "extra_decrease",
    "missed_increase",
    "dropped_stitch",
    "extra_stitch",
    "worked_plain",
    "needles_merged",
    "other_round",
]
Kind = Literal[
    "recount", "stitches_off", "plain_needle", "elsewhere", "near", "line", "midway", "merged", "strayed", "spread",
    "far", "left_out", "slid_off", "hidden",
]  # fmt: skip
RECOUNTS: Final[frozenset[Kind]] = frozenset({"recount", "left_out"})
"""Kinds that need no more than a count made again."""

MOST_CAUSES: Final = 6
"""Causes named: who has ruled out six counts again."""
MOST_OFF: Final = 8
"""Most stitches by which single slips put a count wrong: more than a whole round of decreases has another cause."""

# Weights: how unlikely a cause is, in slips. The order is common practice: a miscount is likelier than a slip, most
# slips are made where something is shaped, and in a plain round above it hands add or drop a stitch.
MISCOUNTED: Final = -1
"""One stitch too many or too few."""
PAIR_MISCOUNTED: Final = 3
"""Two of the whole round: stitches are counted in twos, and a pair is skipped or counted twice."""
FEW_MISCOUNTED: Final = 2
"""Three or four stitches of a large round counted whole: to knit them wrong takes three or four mistakes."""
MOST_MISCOUNTED: Final = 4
STITCHES_PER_MISCOUNT: Final = 16
"""Stitches of a large round for every stitch miscounted. In a smaller round, or in a count needle by needle, a mistake
in knitting is likelier."""
IN_SHAPED_ROUND: Final[dict[CauseCode, int]] = {
    "missed_decrease": 0, "extra_stitch": 2, "dropped_stitch": 0, "missed_increase": 1, "extra_decrease": 1,
}  # fmt: skip
ABOVE_SHAPED_ROUND: Final[dict[CauseCode, int]] = {
    "missed_decrease": 2, "extra_stitch": 1, "dropped_stitch": 1, "missed_increase": 2, "extra_decrease": 2,
}  # fmt: skip
UNSHAPED: Final[dict[CauseCode, int]] = {"extra_stitch": 2, "dropped_stitch": 2, "extra_decrease": 4}
FAR_LESS_LIKELY: Final = 9
"""Above the likeliest slip: a cause that is three slips less likely is not named."""
ANOTHER_SLIP: Final = 3
"""For each slip more of the same kind: one slip is likelier than two."""
NO_PLACE_THERE: Final = 3
"""For a decrease missed on a needle that has none in that round."""
PLAIN_NEEDLE: Final = 1
"""A needle worked plain: who forgets one decrease there forgets all of them."""
ELSEWHERE: Final = 1
"""The count of another round: rounds are counted worse than stitches."""
MOST_NEAR: Final = 2
"""Stitches by which the count of another round may be missed; the one stated must be missed by over twice as many."""
WRONG_LINE: Final = 3
WRONG_LINE_BY_ONE: Final = 6
WRONG_LINE_ON_NEEDLES: Final = 2
"""The line of another round was worked, and the count is what comes of it; on several needles that is no chance."""
MIDWAY: Final = 2
"""The first needles hold what they should after a round, the others what they should before it."""
MIDWAY_BY_ONE: Final = 4
MERGED: Final = 1
STRAYED: Final = 2
HIDDEN: Final = 5
"""A stitch dropped on one needle and one added on another: two slips, that hide each other in the whole count."""
NEEDLE_LEFT_OUT: Final = 1
SHARE_LEFT_OUT: Final = 3
EVEN_SHARE_LEFT_OUT: Final = 4
"""Whole needles that were not counted: fewer than there are or empty, or a total that is as much lower (where the split
is not known, by the share of needles that hold the same)."""
SLID_OFF: Final = 1
"""Above needles that were not counted: all their stitches have slid off."""
FEWEST_ON_NEEDLE: Final = 3
USUAL_NEEDLES: Final = (4, 3)
"""Needles that hold the stitches of a hat, where nothing is known of them (common practice)."""
BEFORE_SHAPING: Final = 3
"""For a round of the crown, where the one stated is before all decreases: nobody takes the one for the other."""
NEEDLES_DIFFER: Final = 3
"""For needles that do not hold what they would, were this the cause."""
FARTHEST: Final = 6
"""Stages away from the one stated that still count against another round: farther is no unlikelier."""
NEIGHBOURS: Final = 2
"""Decrease rounds on either side whose line may have been taken for the right one."""


class Counted(NamedTuple):
    """The count just made, whole or needle by needle."""

    total: int
    needles: Needles | None


class Cause(NamedTuple):
    """Something that may have gone wrong.

    - `weight`: how unlikely it is
    - `stage`: index of the stage that the needles should hold; `number`: its round
    - `stitches`: how many too many; below 0, too few
    - `needle`: index of the needle, where it is known
    - `other`: index of the stage whose line was worked, or of the needle that stitches went to or came from
    """

    weight: int
    code: CauseCode
    kind: Kind
    stage: int
    number: int
    stitches: int = 0
    needle: int | None = None
    other: int = 0


def is_right(stage: Stage, counted: Counted, *, needles_known: bool) -> bool:
    """Whether the needles hold what they should after the stage: every needle, where the split is known."""
    if counted.total != stage.after:
        return False
    if counted.needles is None or stage.needles is None:
        return True
    if not needles_known:
        return not any(_merged(stage.needles, counted.needles, 0, 0))
    return counted.needles in (stage.needles, tuple(filter(None, stage.needles)))


def possible_causes(progress: Progress, counted: Counted, stated: Sequence[Place]) -> tuple[Cause, ...]:
    """What may have gone wrong, the likeliest first; never empty.

    `stated` are the places (index of a stage, round) where the knitter may be: none where nothing is known.
    """
    places = stated or _all_places(progress.stages)
    causes = [cause for place in places for cause in _at(progress, counted, *place, stated=bool(stated))]
    if stated:
        causes = [cause for cause in causes if not _before_knitting(progress, cause)]
        causes += _elsewhere(progress, counted, stated)
        causes += _near(progress, counted, stated)
    causes += [
        cause
        for place in (places if counted.needles or stated else ())
        for cause in _left_out(progress, counted, *place)
    ]
    causes.sort(key=lambda cause: cause.weight)
    likeliest: dict[tuple[object, ...], Cause] = {}
    for cause in causes:
        needle = None if cause.kind in RECOUNTS else cause.needle  # the count is made again once
        likeliest.setdefault((cause.code, cause.kind, needle), cause)
    slips = [cause.weight for cause in causes if cause.kind not in (*RECOUNTS, "near")]
    most = min(slips, default=0) + FAR_LESS_LIKELY
    named = tuple(cause for cause in likeliest.values() if cause.weight <= most)
    return named[:MOST_CAUSES] or (_nearest(progress, counted, places),)


def _before_knitting(progress: Progress, cause: Cause) -> bool:
    """Whether it takes a round of knitting, and none is knitted yet."""
    return (
        cause.code == "extra_decrease" and not cause.number and progress.stages[cause.stage].part != "crown"
    )


def _all_places(stages: Sequence[Stage]) -> list[Place]:
    """The stages, without those that hold the same as the one before: the knitter is taken to be on the first."""
    held = [(stage.after, stage.needles) for stage in stages]
    return [
        (index, stage.first)
        for index, stage in enumerate(stages)
        if not index or held[index] != held[index - 1]
    ]


def _at(progress: Progress, counted: Counted, index: int, number: int, *, stated: bool) -> Iterator[Cause]:
    """What may have gone wrong if this round is the last one finished."""
    stage = progress.stages[index]
    off = off_on_needles(stage, counted)
    total = counted.total - stage.after
    if stage.needles and counted.needles:
        yield from _on_needles(progress, counted, index, number)
    if total and abs(total) <= MOST_OFF:
        places = [needle for needle, more in enumerate(off or ()) if more]
        needle = places[0] if len(places) == 1 else None
        spread = ANOTHER_SLIP * (len(places) - 1) if places and progress.needles_known else 0
        yield from _stitches_off(
            progress, Cause(spread, "extra_stitch", "stitches_off", index, number, total, needle)
        )
        weight = _miscounted(counted, stage, stated=stated)
        if weight is not None:
            weight += spread if abs(total) > 1 else 0
            yield Cause(weight, "count_again", "recount", index, number, total, needle)
    if stage.shaping.decreases and any(off or (total,)) and abs(total) <= max(MOST_OFF, stage.before // 4):
        yield from _wrong_lines(progress, counted, index, number)


def _miscounted(counted: Counted, stage: Stage, *, stated: bool) -> int | None:
    """How unlikely it is that nothing is wrong but the count; None where so many are no miscount."""
    off = abs(counted.total - stage.after)
    if off == 1:
        return MISCOUNTED
    if off == 2 and counted.needles is None:
        return PAIR_MISCOUNTED
    if off > MOST_MISCOUNTED or not stated:
        return None
    is_large_count = counted.needles is None and stage.after >= STITCHES_PER_MISCOUNT * off
    return FEW_MISCOUNTED if is_large_count else ANOTHER_SLIP * off


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
    return tuple(held - should for held, should in zip(have, stage.needles, strict=True))


# --- stitches too many or too few ---------------------------------------------------------------------------


def _stitches_off(progress: Progress, off: Cause) -> Iterator[Cause]:
    """The causes of stitches too many or too few, each as likely as its weight and the weight of `off`."""
    shaped = progress.last_shaped(off.stage)
    weights = UNSHAPED
    if shaped is not None:
        weights = IN_SHAPED_ROUND if shaped == off.stage else ABOVE_SHAPED_ROUND
    codes: tuple[CauseCode, ...] = (
        ("missed_decrease", "extra_stitch")
        if off.stitches > 0
        else ("dropped_stitch", "missed_increase", "extra_decrease")
    )
    for code in codes:
        more = _more_slips(progress, shaped, code, off)
        if code in weights and more is not None:
            yield off._replace(weight=off.weight + weights[code] + more, code=code)


def _more_slips(progress: Progress, shaped: int | None, code: CauseCode, off: Cause) -> int | None:
    """How much less likely it is for being more than one slip; None where the shaped round has not so many."""
    few = abs(off.stitches)
    if shaped is None or code in ("extra_stitch", "dropped_stitch"):
        return ANOTHER_SLIP * (few - 1)
    stage = progress.stages[shaped]
    if code == "missed_increase":
        return ANOTHER_SLIP * (few - 1) if few <= stage.shaping.increases else None
    if code == "extra_decrease":
        return ANOTHER_SLIP * (-(-few // max(stage.shaping.takes, 1)) - 1)
    if not stage.shaping.decreases:
        return None
    slips = -(-few // stage.shaping.takes)
    if slips > stage.shaping.decreases:
        return None
    there = off.needle is None or not progress.needles_known or decreases_on(stage, off.needle)
    return ANOTHER_SLIP * (slips - 1) + (0 if there else NO_PLACE_THERE)


def decreases_on(stage: Stage, needle: int) -> tuple[int, ...]:
    """How many stitches of the needle stand before each of its decreases, after the round that the stage is."""
    if stage.needles is None:
        return ()
    start = sum(stage.needles[:needle])
    places = decrease_places(stage.lines[0].steps)
    return tuple(place - start for place in places if start <= place < start + stage.needles[needle])


# --- needles ------------------------------------------------------------------------------------------------


def _on_needles(progress: Progress, counted: Counted, index: int, number: int) -> Iterator[Cause]:
    stage = progress.stages[index]
    held, have = stage.needles or (), counted.needles or ()
    merged = tuple(_merged(held, have, index, number))
    yield from merged
    plain = plain_needles(progress, counted, index)
    if plain:
        total = counted.total - stage.after
        needle = plain[0] if len(plain) == 1 else None
        weight = PLAIN_NEEDLE + ANOTHER_SLIP * (len(plain) - 1)
        yield Cause(weight, "worked_plain", "plain_needle", index, number, total, needle)
    if not progress.needles_known:
        return
    if counted.total == stage.after and not merged:
        off = off_on_needles(stage, counted)
        yield from _strayed(off, index, number)
        if off and sorted(filter(None, off)) == [-1, 1]:
            less, more = off.index(-1), off.index(1)
            yield Cause(HIDDEN, "dropped_stitch", "hidden", index, number, 0, less, more)
    before = progress.needles_before(index) if stage.shaping.decreases and len(held) == len(have) else None
    for done in range(1, len(held) if before else 1):
        if before and have[:done] == held[:done] and have[done:] == before[done:] and have != held:
            weight = MIDWAY_BY_ONE if counted.total - stage.after == 1 else MIDWAY
            yield Cause(weight, "other_round", "midway", index, number, 0, None, done)


def plain_needles(progress: Progress, counted: Counted, index: int) -> Needles:
    """Indexes of the needles that hold what they should had they been worked plain in the last shaped round.

    All others must be right, and a single needle must have two decreases at least: fewer are a decrease missed.
    """
    stage = progress.stages[index]
    off = off_on_needles(stage, counted)
    shaped = progress.last_shaped(index)
    before = None if shaped is None else progress.needles_before(shaped)
    if off is None or before is None or shaped is None or stage.needles != progress.stages[shaped].needles:
        return ()
    due = tuple(begun - share for begun, share in zip(before, stage.needles or (), strict=True))
    plain = tuple(needle for needle, more in enumerate(off) if more)
    if any(off[needle] != due[needle] or off[needle] < 0 for needle in plain):
        return ()
    if len(plain) == sum(map(bool, due)):  # the round was not worked at all
        return ()
    decreases = sum(len(decreases_on(progress.stages[shaped], needle)) for needle in plain)
    return plain if decreases > 1 else ()


def _merged(held: Needles, counted: Needles, index: int, number: int) -> Iterator[Cause]:
    """All stitches of two needles on one of them: the other lies empty, or is not counted any more."""
    places = [needle for needle, stitches in enumerate(held) if stitches]
    full = tuple(filter(None, counted))
    if len(full) != len(places) - 1 or sum(full) != sum(held):
        return
    shares = tuple(held[needle] for needle in places)
    for at in range(len(shares) - 1):
        if full == (*shares[:at], shares[at] + shares[at + 1], *shares[at + 2 :]):
            yield Cause(
                MERGED, "needles_merged", "merged", index, number, shares[at + 1], places[at], places[at + 1]
            )
    if len(shares) > 2:
        around = shares[0] + shares[-1]
        if full in ((*shares[1:-1], around), (around, *shares[1:-1])):
            yield Cause(MERGED, "needles_merged", "merged", index, number, shares[0], places[-1], places[0])


def _strayed(off: Needles | None, index: int, number: int) -> Iterator[Cause]:
    """Stitches of a needle that were worked on to its neighbour; the count is right."""
    places = [needle for needle, more in enumerate(off or ()) if more]
    if off and len(places) == 2 and places[1] - places[0] in (1, len(off) - 1):
        more, less = sorted(places, key=lambda needle: -off[needle])
        yield Cause(STRAYED, "needles_merged", "strayed", index, number, off[more], more, less)
    elif places or off is None:
        yield Cause(NEEDLES_DIFFER, "needles_merged", "spread", index, number)


def _left_out(progress: Progress, counted: Counted, index: int, number: int) -> Iterator[Cause]:
    """Whole needles that are missing from the count: not counted, or without their stitches."""
    stage = progress.stages[index]
    missing = stage.after - counted.total
    if missing < FEWEST_ON_NEEDLE:
        return
    weight, needle, needles = _missing_needles(progress, counted, stage)
    if needles:
        out = Cause(weight, "count_again", "left_out", index, number, -missing, needle, needles)
        yield out
        yield out._replace(weight=weight + SLID_OFF, code="dropped_stitch", kind="slid_off")


def _missing_needles(progress: Progress, counted: Counted, stage: Stage) -> tuple[int, int | None, int]:
    """How unlikely it is that needles are missing, the index of a single needle where it is known, and their number.

    The number is 0 where no whole needles are missing.
    """
    held, have = stage.needles or (), counted.needles or ()
    empty = [needle for needle, share in enumerate(held) if share and have[needle : needle + 1] == (0,)]
    if len(have) == len(held) and empty:
        off = sum(abs(share - stitches) for share, stitches in zip(held, have, strict=True) if stitches)
        if off <= (MOST_NEAR if len(empty) == 1 else 0):
            return NEEDLE_LEFT_OUT, empty[0] if len(empty) == 1 else None, len(empty)
    shares, full = tuple(filter(None, held)), tuple(filter(None, have))
    if progress.needles_known:
        if len(full) < len(shares) and full and full in combinations(shares, len(full)):
            return NEEDLE_LEFT_OUT, None, len(shares) - len(full)
        missing = stage.after - counted.total
        sums = (
            number
            for number in range(1, len(shares))
            for left_out in combinations(shares, number)
            if sum(left_out) == missing
        )
        return SHARE_LEFT_OUT, None, 0 if have else next(sums, 0)
    for needles in USUAL_NEEDLES if progress.word == "round" else ():
        there, part = divmod(counted.total * needles, stage.after)
        if not part and len(set(full)) < 2 and len(full) in (0, there):
            return EVEN_SHARE_LEFT_OUT, None, needles - there
    return 0, None, 0


# --- another round ------------------------------------------------------------------------------------------


def _elsewhere(progress: Progress, counted: Counted, stated: Sequence[Place]) -> Iterator[Cause]:
    """Rounds other than the one stated after which the count would be right, whole or on every needle."""
    here = {index for index, _ in stated}
    if any(progress.stages[index].after == counted.total for index in here):
        return  # only the needles are not as they should be
    for index, stage in enumerate(progress.stages):
        if index not in here and stage.after == counted.total:
            nearest = min(here, key=lambda place: abs(index - place))
            away = abs(index - nearest)
            number = stage.last if index < nearest else stage.first
            weight = ELSEWHERE + min(away, FARTHEST) - 1
            if not is_right(stage, counted, needles_known=progress.needles_known):
                weight += NEEDLES_DIFFER
            if progress.last_shaped(nearest) is None and progress.last_shaped(index) is not None:
                weight += BEFORE_SHAPING
            yield Cause(weight, "other_round", "elsewhere", index, number)


def _near(progress: Progress, counted: Counted, stated: Sequence[Place]) -> Iterator[Cause]:
    """The rounds beside the one stated whose counts are missed by a stitch or two, where that one is far off.

    One slip in another round is likelier than half a round of forgotten decreases.
    """
    index, _ = min(stated, key=lambda place: abs(progress.stages[place[0]].after - counted.total))
    beyond = abs(progress.stages[index].after - counted.total)
    for step in (-1, 1):
        other = _next_count(progress.stages, index, step)
        if other is None:
            continue
        stage = progress.stages[other]
        total = counted.total - stage.after
        off = off_on_needles(stage, counted) if progress.needles_known else None
        if (
            total
            and abs(total) <= MOST_NEAR
            and 2 * abs(total) < beyond
            and sum(map(abs, off or ())) <= MOST_NEAR
        ):
            weight = ELSEWHERE + ANOTHER_SLIP * abs(total)
            number = stage.last if step < 0 else stage.first
            yield Cause(weight, "other_round", "near", other, number, total)


def _next_count(stages: Sequence[Stage], index: int, step: int) -> int | None:
    """The nearest stage before (-1) or after (1) this one that leaves another count; None where there is none."""
    places = range(index + step, len(stages) if step > 0 else -1, step)
    return next((other for other in places if stages[other].after != stages[index].after), None)


def _wrong_lines(progress: Progress, counted: Counted, index: int, number: int) -> Iterator[Cause]:
    """Lines of other decrease rounds that leave just this count when worked in place of the right one."""
    stage = progress.stages[index]
    total = counted.total - stage.after
    for other, away in _neighbours(progress.stages, index):
        steps = worked_around(progress.stages[other].lines[0].steps, stage.before)
        if steps is None or execute(steps)[1] != counted.total:
            continue
        weight = WRONG_LINE_BY_ONE if abs(total) == 1 else WRONG_LINE
        if counted.needles and progress.needles_known:
            held = progress.stages[index - 1].needles
            same = held and worked_on(held, steps) == counted.needles
            if not same and not total:
                continue
            off = off_on_needles(stage, counted)
            if not same and off is not None and _farther_off(held, steps, counted, off):
                continue
            if not same:
                weight += NEEDLES_DIFFER
            elif off is None or sum(map(bool, off)) > 1:
                weight = WRONG_LINE_ON_NEEDLES
        elif not total:
            continue
        yield Cause(weight + away - 1, "other_round", "line", index, number, total, None, other)


def _farther_off(held: Needles | None, steps: Steps, counted: Counted, off: Needles) -> bool:
    """Whether the needles contradict the line: by it they would be farther off than they are by the right one."""
    by_line = worked_on(held, steps) if held else None
    if by_line is None or counted.needles is None:
        return False
    away = (abs(have - due) for have, due in zip_longest(counted.needles, by_line, fillvalue=0))
    return sum(away) > sum(map(abs, off))


def worked_on(held: Needles, steps: Steps) -> Needles | None:
    """The stitches on each needle after a round."""
    return track_needles((work_round(1, sum(held), steps),), held)[0].needles


def _neighbours(stages: Sequence[Stage], index: int) -> Iterator[tuple[int, int]]:
    """The decrease rounds next to this one, with how far away they are."""
    sides: tuple[Iterable[int], ...] = (range(index - 1, -1, -1), range(index + 1, len(stages)))
    for side in sides:
        away = 0
        for other in side:
            if stages[other].shaping.decreases:
                away += 1
                yield other, away
            if away == NEIGHBOURS:
                break


def worked_around(steps: Steps, stitches: int) -> Steps | None:
    """What becomes of a line on so many stitches that it is not for: its repeat as far as they go, the rest knitted.

    None where the line has no repeat, or the stitches are too few for it.
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


def _nearest(progress: Progress, counted: Counted, places: Sequence[Place]) -> Cause:
    """Where nothing fits: the round whose count comes nearest, of all rounds; what was named goes first."""
    everywhere = (*places, *((index, stage.last) for index, stage in enumerate(progress.stages)))
    index, number = min(
        everywhere,
        key=lambda place: (
            abs(progress.stages[place[0]].after - counted.total),
            abs(place[0] - places[0][0]),
        ),
    )
    total = counted.total - progress.stages[index].after
    return Cause(ANOTHER_SLIP * MOST_OFF, "count_again", "far", index, number, total)
