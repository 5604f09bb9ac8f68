"""A count that is not right, or a place in the work that is lost: what the stitches on the needles say.

    request -> the rounds in stages -> those on which the count is right -> or what may have gone wrong -> its repair

`work_in_hand` has the request, `place` the stages, `slips` what may have gone wrong, `rescue` its words and repair.
"""

from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Notice, RulesVersion
from roundwright.knitting.counting.causes import Counted, is_right, slips
from roundwright.knitting.counting.explain import CountCause, told
from roundwright.knitting.counting.miscount import line_named, stitches
from roundwright.knitting.counting.progress import Course, Line, PartName
from roundwright.knitting.counting.request import CountRequest, Reader, counted_by, course_of, said_by
from roundwright.knitting.rounds.round import LAST_ROUND, Round


class CountMatch(Struct, frozen=True, kw_only=True):
    """Rounds after each of which the count is right: one, or several in succession that leave it alike."""

    part: Annotated[PartName | None, Meta(description="Part of the hat; null for a pattern in words.")]
    round: Annotated[
        Annotated[int, Meta(ge=0, le=LAST_ROUND)],
        Meta(description="Number of the round; 0 before the first."),
    ]
    last: Annotated[
        Annotated[int, Meta(ge=0, le=LAST_ROUND)],
        Meta(description="Number of the last such round in succession; the same where there is only one."),
    ]
    stitches: Annotated[int, Meta(description="Stitches after it.")]
    needles: Annotated[
        tuple[int, ...] | None,
        Meta(description="Stitches on each needle after it; null where needles are not known."),
    ]
    text: Annotated[str, Meta(description="The line of `round`, empty for round 0.")]
    next: Annotated[Round | None, Meta(description="The line after `last`; null where the work is done.")]
    next_part: Annotated[PartName | None, Meta(description="The part of the hat that `next` belongs to.")]


class CountAnswer(Struct, frozen=True, kw_only=True):
    """What a count says."""

    message: Annotated[str, Meta(description="The answer in a few sentences.")]
    matches: Annotated[
        tuple[CountMatch, ...],
        Meta(
            description="The rounds on which the count is right, in order, the one said to be finished first; with "
            "`needles` every needle must be."
        ),
    ]
    causes: Annotated[
        tuple[CountCause, ...],
        Meta(
            description="What may have gone wrong, the likeliest first; empty where the count is right. Without a "
            "`round` it is right if it is right on any."
        ),
    ]
    next: Annotated[
        Round | None,
        Meta(
            description="The next line to work. Where several rounds match, the line after the first of them: a plain "
            "round too many does the least harm. Where none matches, as the first of `causes` has it."
        ),
    ]
    next_part: Annotated[PartName | None, Meta(description="The part of the hat that `next` belongs to.")]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")]
    rules: RulesVersion = RULES


def check(request: CountRequest, read: Reader) -> CountAnswer:
    """What the count says: the rounds on which it is right, or what may have gone wrong and how to put it right.

    Raises `Impossible` for a request that names no work, or work that cannot be knitted, or a round it does not have.
    """
    counted = counted_by(request)
    course = course_of(request, read)
    said = said_by(request, course)
    found = [
        index
        for index, stage in enumerate(course.stages)
        if is_right(stage, counted, needles_known=course.needles_known)
    ]
    here = [place for place in said if place[0] in found] or [
        (index, course.stages[index].first) for index in found if not said
    ]
    found.sort(key=lambda index: index not in [place for place, _ in here])
    matches = tuple(_match(course, index) for index in found)
    if here:
        following = course.next_line(*here[0])
        return CountAnswer(
            message=_message(course, [index for index, _ in here], counted, following),
            matches=matches,
            causes=(),
            next=following.round if following else None,
            next_part=following.part if following else None,
            basis=BASIS,
            warnings=course.notices,
        )
    causes = tuple(told(course, counted, slip) for slip in slips(course, counted, said))
    return CountAnswer(
        message=f"{causes[0].message} {causes[0].fix}",
        matches=matches,
        causes=causes,
        next=causes[0].next,
        next_part=causes[0].next_part,
        basis=BASIS,
        warnings=course.notices,
    )


BASIS: Final = (
    Basis("The count after each round comes from working its line.", "arithmetic"),
    Basis(
        "The order of causes: a slip is likeliest where something is decreased; one slip is likelier than two; a round "
        "counted wrong is likelier than three slips.",
        COMMON_PRACTICE,
    ),
    Basis(
        "Repairs: a stitch too many is worked together with its neighbour and a missing one made out of the strand, in "
        "the next plain round where there is one; a dropped stitch is caught with a crochet hook.",
        COMMON_PRACTICE,
    ),
)


def _match(course: Course, index: int) -> CountMatch:
    stage = course.stages[index]
    following = course.next_line(index, stage.last)
    return CountMatch(
        part=stage.part,
        round=stage.first,
        last=stage.last,
        stitches=stage.after,
        needles=stage.needles,
        text=stage.line(stage.first).text if stage.first else "",
        next=following.round if following else None,
        next_part=following.part if following else None,
    )


def _message(course: Course, found: list[int], counted: Counted, following: Line | None) -> str:
    told = " or ".join(_rounds_named(course, index) for index in found[:MOST_NAMED])
    many = len(found) > 1 or course.stages[found[0]].last > course.stages[found[0]].first
    told = (
        f"{stitches(counted.total).capitalize()} {'is' if counted.total == 1 else 'are'} right after {told}."
    )
    if many:
        told += f" {HOW_TO_TELL}"
    if following is None:
        return f"{told} The last {course.word} is done: go on to the finish."
    return f"{told} Next is {line_named(course, following)}: {following.round.text}."


MOST_NAMED: Final = 4
"""Places named in one sentence: more are not taken in at a glance. All are in `matches`."""
HOW_TO_TELL: Final = (
    "Look at the work to tell which: a decrease right under the needle was worked in the last round; else count the "
    "rounds from there up."
)


def _rounds_named(course: Course, index: int) -> str:
    stage = course.stages[index]
    name = course.named(index, stage.first)
    return name if stage.first == stage.last else f"{name} (up to {course.word} {stage.last})"
