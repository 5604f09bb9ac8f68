"""A slip told to the knitter: what happened, about where, and how to put it right."""

from collections.abc import Callable
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.knitting.counting.causes import CauseCode, Counted, Kind, Slip
from roundwright.knitting.counting.miscount import (
    LAST_RESORT,
    Told,
    go_on,
    miscount,
    put_right,
    stitches,
    work_again,
)
from roundwright.knitting.counting.progress import Course, PartName
from roundwright.knitting.rounds.round import LAST_ROUND, MOST_STITCHES, Round

MOST_WRONG_LINE: Final = 2
"""Stitches off after the line of another round that are still made good in the next: beyond, the decreases are all out
of place and the round is worked again."""


class CountCause(Struct, frozen=True, kw_only=True):
    """What may have gone wrong, and how to put it right."""

    code: Annotated[
        CauseCode,
        Meta(
            description="`missed_decrease`; `extra_decrease`: one too many, or one worked twice; `dropped_stitch`; "
            "`extra_stitch`: a yarn over by accident, or a stitch split in two; `needles_merged`: stitches of one "
            "needle worked on to another, all or some; `other_round`: another round than thought is finished, or half "
            "finished, or its line was worked."
        ),
    ]
    message: Annotated[str, Meta(description="What may have happened, in a sentence or two.")]
    part: Annotated[PartName | None, Meta(description="Part of the hat; null for a pattern in words.")]
    round: Annotated[
        Annotated[int, Meta(ge=0, le=LAST_ROUND)],
        Meta(description="Number of the round in which it happened; 0 is the cast-on."),
    ]
    stitches: Annotated[
        int,
        Meta(
            ge=-MOST_STITCHES,
            le=MOST_STITCHES,
            description="Stitches too many on the needles if this is so; below 0, too few.",
        ),
    ]
    needle: Annotated[
        int | None, Meta(description="Needle on which it happened, from 1; null where that cannot be told.")
    ]
    stitch: Annotated[
        int | None,
        Meta(
            description="About how many stitches of that needle (of the round, where no needle is named) come before "
            "the place; null where that cannot be told."
        ),
    ]
    where: Annotated[str, Meta(description="How to find the place on the needles.")]
    fix: Annotated[
        str,
        Meta(
            description="How to put it right: in the next round where that works, taking back work last of all."
        ),
    ]
    next: Annotated[
        Round | None,
        Meta(
            description="The next line to work, with the repair in it where that is made in the next round; `before` "
            "is what the needles hold when it is begun. Null when nothing is left to work."
        ),
    ]
    next_part: Annotated[PartName | None, Meta(description="The part of the hat that `next` belongs to.")]


def told(course: Course, counted: Counted, slip: Slip) -> CountCause:
    """The slip in words, with its repair."""
    said = _TELLING[slip.kind](course, counted, slip)
    return CountCause(
        code=slip.code,
        message=said.message,
        part=course.stages[said.at].part,
        round=said.round,
        stitches=counted.total - course.stages[slip.stage].after,
        needle=None if said.needle is None else said.needle + 1,
        stitch=said.stitch,
        where=said.where,
        fix=said.fix,
        next=said.next.round if said.next else None,
        next_part=said.next.part if said.next else None,
    )


# --- needles ------------------------------------------------------------------------------------------------


def _merged(course: Course, _: Counted, slip: Slip) -> Told:
    full, empty = slip.needle or 0, slip.other
    stage = course.stages[slip.stage]
    share = stage.needles[full] if stage.needles else 0
    after = course.next_line(slip.stage, slip.number)
    moved = stitches(slip.stitches)
    return Told(
        message=f"The stitches of needles {full + 1} and {empty + 1} are on one needle. The count itself is right.",
        where=f"Needle {empty + 1} begins after the first {stitches(share)} on it.",
        fix=f"Slide the other {moved} to an empty needle; nothing has to be taken back. {go_on(course, after)}",
        next=after,
        at=slip.stage,
        round=slip.number,
        needle=full,
        stitch=share,
    )


def _strayed(course: Course, _: Counted, slip: Slip) -> Told:
    more, less = slip.needle or 0, slip.other
    after = course.next_line(slip.stage, slip.number)
    many = slip.stitches
    last = less == more + 1 or (less == 0 and more > 1)
    return Told(
        message=f"Needle {more + 1} has {stitches(many)} of needle {less + 1}: worked on to the wrong needle, or not "
        "slid before the round. The count itself is right.",
        where=f"They are the {'last' if last else 'first'} {many} on needle {more + 1}."
        if many > 1
        else f"It is the {'last' if last else 'first'} on needle {more + 1}.",
        fix=f"Slide {'them' if many > 1 else 'it'} to needle {less + 1} before you go on; nothing has to be taken "
        f"back. {go_on(course, after)}",
        next=after,
        at=slip.stage,
        round=slip.number,
        needle=more,
    )


def _spread(course: Course, _: Counted, slip: Slip) -> Told:
    stage = course.stages[slip.stage]
    after = course.next_line(slip.stage, slip.number)
    shares = ", ".join(str(share) for share in stage.needles or ())
    return Told(
        message="The count is right, but the needles do not hold their shares.",
        where=f"After {course.named(slip.stage, slip.number)} they hold {shares}.",
        fix=f"Slide stitches from needle to needle until they hold {shares}. If you share them out in a way of your "
        f"own, send it as `split`. {go_on(course, after)}",
        next=after,
        at=slip.stage,
        round=slip.number,
    )


# --- another round ------------------------------------------------------------------------------------------


def _elsewhere(course: Course, _: Counted, slip: Slip) -> Told:
    stage = course.stages[slip.stage]
    after = course.next_line(slip.stage, slip.number)
    rounds = course.named(slip.stage, slip.number)
    if stage.last > stage.first:
        rounds += f", and up to {stage.last}"
    return Told(
        message=f"The needles hold what they should after {rounds}: another {course.word} than you think is the last.",
        where="Look at the work: count the decreases above one another, and the plain rounds above the last.",
        fix=f"Nothing has to be taken back: go on from there. {go_on(course, after)}",
        next=after,
        at=slip.stage,
        round=slip.number,
    )


def _line(course: Course, counted: Counted, slip: Slip) -> Told:
    stage, other = course.stages[slip.stage], course.stages[slip.other]
    said = f"{stitches(stage.before)} make {counted.total} by the line of {course.named(slip.other, other.first)}"
    after = course.next_line(slip.stage, slip.number)
    if not slip.stitches:
        fix, line = f"{_OUT_OF_LINE} {go_on(course, after)} {LAST_RESORT}", after
    elif after and abs(slip.stitches) <= MOST_WRONG_LINE:
        fix, line = put_right(course, counted, slip)
    else:
        fix, line = work_again(course, slip)
    return Told(
        message=f"The line of another {course.word} was worked in {course.named(slip.stage, slip.number)}: {said}.",
        where=f"All around. Compare with the line that was due, {stage.lines[0].text}.",
        fix=fix,
        next=line,
        at=slip.stage,
        round=slip.number,
    )


_OUT_OF_LINE: Final = (
    "The count comes out all the same: only the decreases are not above one another. Slide stitches between the "
    "needles until they hold what they should."
)


def _midway(course: Course, counted: Counted, slip: Slip) -> Told:
    line = course.first_line(slip.stage)
    done, needles = slip.other, len(counted.needles or ())
    begun = {1: "needle 1 is", 2: "needles 1 and 2 are"}.get(done, f"needles 1 to {done} are")
    return Told(
        message=f"{course.named(slip.stage, slip.number).capitalize()} is half done: {begun} worked, the rest not yet.",
        where=f"The {course.word} goes on at the start of needle {done + 1} of {needles}.",
        fix=f"Nothing has to be taken back: work on from needle {done + 1} to the end of the {course.word}.",
        next=line,
        at=slip.stage,
        round=slip.number,
        needle=done,
        stitch=0,
    )


def _far(course: Course, counted: Counted, slip: Slip) -> Told:
    stage = course.stages[slip.stage]
    where = course.named(slip.stage, slip.number)
    fix, line = work_again(course, slip)
    return Told(
        message=f"No {course.word} leaves {stitches(counted.total)}, and no small slip does; the nearest is {where} "
        f"with {stage.after}.",
        where="Count again, from the marker at the start and needle by needle. See that this is the pattern you knit.",
        fix=fix,
        next=line,
        at=slip.stage,
        round=slip.number,
    )


_TELLING: Final[dict[Kind, Callable[[Course, Counted, Slip], Told]]] = {
    "count": miscount,
    "elsewhere": _elsewhere,
    "line": _line,
    "midway": _midway,
    "merged": _merged,
    "strayed": _strayed,
    "spread": _spread,
    "far": _far,
}
