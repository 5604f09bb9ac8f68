"""The work that a count belongs to: a crown, a hat or a pattern in words, and how far the knitter says to have come."""

from collections.abc import Callable
from typing import Annotated

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible, only_one
from roundwright.knitting.counting.assumed_needles import Wanted, share
from roundwright.knitting.counting.causes import Counted
from roundwright.knitting.counting.progress import Course, PartName, stages, straight
from roundwright.knitting.crown.crown import crown_rounds
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES, CrownRequest
from roundwright.knitting.hat.plan import hat_rounds
from roundwright.knitting.hat.request import MOST_SIZES, HatRequest
from roundwright.knitting.needles.best_split import FEWEST_NEEDLES, MOST_NEEDLES, USUAL_TOLERANCE
from roundwright.knitting.rounds.round import LAST_ROUND, LONGEST_TEXT, MOST_STITCHES, Round

SizeNumber = Annotated[int, Meta(ge=1, le=MOST_SIZES)]
StitchCount = Annotated[int, Meta(ge=1, le=MOST_STITCHES)]


class WrittenPattern(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A pattern in words, as `/v1/patterns/proofread` takes it."""

    cast_on: Annotated[
        tuple[StitchCount, ...],
        Meta(min_length=1, max_length=MOST_SIZES, description="Stitches cast on, a count for each size."),
    ]
    text: Annotated[
        str, Meta(max_length=LONGEST_TEXT, description="The pattern as printed, or the part with the rounds.")
    ]


class CountRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A count just made, and the work it belongs to: exactly one of `crown`, `hat` and `pattern`."""

    crown: Annotated[
        CrownRequest | None, Meta(description="The crown being worked, as `/v1/crown` takes it.")
    ] = None
    hat: Annotated[HatRequest | None, Meta(description="The hat being worked, as `/v1/hats` takes it.")] = (
        None
    )
    pattern: Annotated[WrittenPattern | None, Meta(description="The pattern being followed, in words.")] = (
        None
    )
    size: Annotated[
        SizeNumber, Meta(description="Which size of the hat or the pattern is worked, from 1. Default 1.")
    ] = 1
    count: Annotated[
        StitchCount | None,
        Meta(description="Stitches counted on all needles together. Either this or `needles`."),
    ] = None
    needles: Annotated[
        Annotated[
            tuple[Annotated[int, Meta(ge=0, le=MOST_CROWN_STITCHES)], ...],
            Meta(min_length=1, max_length=MOST_NEEDLES),
        ]
        | None,
        Meta(
            description="Stitches counted on each needle, the first of the round first; 0 for an empty one. It tells "
            "more than `count`: on which needle a slip was made."
        ),
    ] = None
    round: Annotated[
        Annotated[int, Meta(ge=0, le=LAST_ROUND)] | None,
        Meta(
            description="Number of the round just finished, as the pattern numbers it; 0 where none is worked yet. Of "
            "a hat: of the crown, where `part` says nothing else. Left out where the place is lost."
        ),
    ] = None
    part: Annotated[
        PartName | None,
        Meta(
            description="Part of the hat being worked, where it is known. `round` counts from 1 in each part."
        ),
    ] = None
    split: Annotated[
        Annotated[
            tuple[Annotated[int, Meta(ge=1, le=MOST_CROWN_STITCHES)], ...],
            Meta(min_length=FEWEST_NEEDLES, max_length=MOST_NEEDLES),
        ]
        | None,
        Meta(
            description="Stitches on each needle before the first round, where the knitter shares them out in a way of "
            "their own. Left out: as the crown or hat asks for, else as the service would share them out."
        ),
    ] = None


Reader = Callable[[str, tuple[int, ...], int, str], tuple[Round, ...]]
"""Reads the rounds of one size out of a text: the text, the stitches cast on for each size, the index of the size, and
where in the request the text stands. Words are of a storey above, so the reader is handed in. Raises `Impossible` where
the text does not come out."""


def counted_by(request: CountRequest) -> Counted:
    """The count. Raises `Impossible` where there is none, or two."""
    only_one(request, "count", "needles", what="The count", missing_at="#/count")
    if request.needles is None:
        return Counted(request.count or 0, None)
    if not any(request.needles):
        raise Impossible("There are no stitches on the needles.", pointer="#/needles", nearest="1 stitch")
    return Counted(sum(request.needles), request.needles)


def said_by(request: CountRequest, course: Course) -> tuple[tuple[int, int], ...]:
    """The places (index of a stage, round) that the knitter says to have reached; none where nothing is said."""
    number, part = request.round, request.part
    if number is None and part is None:
        return ()
    if part is None and request.hat is not None:
        part = "crown"
    of_part = [(index, stage) for index, stage in enumerate(course.stages) if part in (None, stage.part)]
    if part is not None and not of_part:
        raise Impossible(
            f"The {part} has no rounds.",
            pointer="#/part" if request.part else "#/round",
            nearest=f"the {course.stages[-1].part}",
        )
    if number is None:
        return tuple((index, stage.first) for index, stage in of_part)
    if not number and of_part[0][0]:  # the part before is done
        before = of_part[0][0] - 1
        return ((before, course.stages[before].last),)
    places = tuple((index, number) for index, stage in of_part if stage.first <= number <= stage.last)
    if not places:
        last = max(stage.last for _, stage in of_part)
        whose = f" of the {part}" if part else ""
        raise Impossible(
            f"There is no {course.word} {number}{whose}: the last is {last}.",
            pointer="#/round",
            nearest=f"round {last}",
        )
    return places


# --- the rounds ---------------------------------------------------------------------------------------------


def course_of(request: CountRequest, read: Reader) -> Course:
    """The rounds of the work in stages.

    Raises `Impossible` for a request that names no work or more than one, and for work that cannot be knitted.
    """
    only_one(
        request, "crown", "hat", "pattern", what="The work that the count belongs to", missing_at="#/crown"
    )
    if request.part is not None and request.hat is None:
        raise Impossible("Only a hat has parts.", pointer="#/part", nearest="`round` alone, or a `hat`")
    if request.crown is not None:
        return _of_crown(request, request.crown)
    if request.hat is not None:
        return _of_hat(request, request.hat)
    assert request.pattern is not None
    return _of_pattern(request, request.pattern, read)


def _of_crown(request: CountRequest, crown: CrownRequest) -> Course:
    planned = crown_rounds(
        crown.stitches, crown, crown.gauge, pointer="#/crown", gauge_pointer="#/crown/gauge"
    )
    flat = crown.worked == "flat"
    shared = share(
        planned.rounds,
        crown.stitches,
        Wanted(request.split, crown.needles, crown.tolerance, request.needles, flat=flat, at="#/crown"),
    )
    return Course(
        tuple(stages(shared.rounds, crown.stitches, "crown", shared.held)),
        shared.known,
        "row" if flat else "round",
        (*planned.warnings, *shared.notices),
    )


def _of_hat(request: CountRequest, hat: HatRequest) -> Course:
    _has_size(request.size, len(hat.sizes))
    brim, body, crown = hat_rounds(replace(hat, needles=None), request.size - 1, "#/hat")
    flat = crown.worked == "flat"
    shared = share(
        crown.rounds,
        crown.stitches,
        Wanted(request.split, hat.needles, hat.tolerance, request.needles, flat=flat, at="#/hat"),
    )
    above = stages(shared.rounds, crown.stitches, "crown", shared.held)
    start = above.pop(0)  # what is there before the crown is there after the body
    if start.last:
        above.insert(0, start._replace(first=1))
    straights = [straight(brim, shared.held, 0)]
    if body.rounds:
        straights.append(straight(body, shared.held, 1))
    return Course(
        (*straights, *above), shared.known, "row" if flat else "round", (*crown.warnings, *shared.notices)
    )


def _of_pattern(request: CountRequest, pattern: WrittenPattern, read: Reader) -> Course:
    _has_size(request.size, len(pattern.cast_on))
    rounds = read(pattern.text, pattern.cast_on, request.size - 1, "#/pattern/text")
    stitches = pattern.cast_on[request.size - 1]
    shared = share(rounds, stitches, Wanted(request.split, None, USUAL_TOLERANCE, request.needles))
    return Course(
        tuple(stages(shared.rounds, stitches, None, shared.held)), shared.known, "round", shared.notices
    )


def _has_size(size: int, sizes: int) -> None:
    if size > sizes:
        raise Impossible(
            f"There are {sizes} sizes, but size {size} is asked for."
            if sizes > 1
            else f"There is one size, but size {size} is asked for.",
            pointer="#/size",
            nearest=f"size {sizes}",
        )
