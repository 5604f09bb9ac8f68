"""The request for a change of the stitch count: the method and number of changes, and whether they can be worked."""

from typing import TYPE_CHECKING, Annotated, Final, Literal, NamedTuple

from msgspec import UNSET, Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import Impossible, Notice, at_most_one
from roundwright.knitting.rounds.round import MOST_ROUNDS, MOST_STITCHES, Multiple, nearest_count
from roundwright.knitting.rounds.spread import Arrangement, most_changes
from roundwright.language import Language, Message, listed, say, say_count

MOST_EDGE_STITCHES: Final = 100
"""Stitches kept plain at one edge: a shawl's border is narrower."""
MOST_SHAPED_ROUNDS: Final = 60
"""Rounds of shaping in one answer: a yoke has a third of them."""
MOST_STITCHES_SHAPED: Final = 1_000_000
"""Stitches of all rounds of shaping together: sixty of 16,000, ten times a circular shawl. Each takes its own time."""
MOST_PLAIN_BETWEEN: Final = 20
"""Plain rounds between two rounds of shaping: with more, the rounds of shaping are better requested one by one."""
COUNTS_TRIED: Final = 2 * MOST_SHAPED_ROUNDS + 1
"""Counts tried on either side of the nearest: after that, the remainders over the rounds repeat."""

if TYPE_CHECKING:
    Method = str
else:  # the increases and decreases of the table of stitches
    Method = Literal[tuple(name for name, row in reference.stitches().items() if row.uses != row.leaves)]

USUAL_INCREASE: Final[Method] = "m1"
USUAL_DECREASE: Final[Method] = "k2tog"

Change = Annotated[int, Meta(ge=-MOST_STITCHES, le=MOST_STITCHES)]
Count = Annotated[int, Meta(ge=1, le=MOST_STITCHES)]


class EvenRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A change of the stitch count, to be spread evenly."""

    stitches: Annotated[Count, Meta(description="Stitches on the needles before.")]
    change: Annotated[
        Change | None,
        Meta(
            description="Stitches added (or, negative, taken away) in each round of shaping. Give this or `target`; "
            "neither where `multiple` alone decides."
        ),
    ] = None
    target: Annotated[Count | None, Meta(description="Stitches wanted in the end, in place of `change`.")] = (
        None
    )
    multiple: Annotated[
        Multiple | None,
        Meta(
            description="A repeat that the stitches must fit in the end. The nearest count that fits it and that the "
            "method can reach is taken, with a warning where it is not the requested count."
        ),
    ] = None
    method: Annotated[
        Method | None,
        Meta(
            description="How each change is worked, on the side of the first row. Left out: `m1` to increase, "
            "`k2tog` to decrease. Double decreases (`cdd`, `k3tog`, ...) take away two stitches each. Among methods "
            "that are purled the plain stitches are purled too."
        ),
    ] = None
    worked: Annotated[
        Literal["in_the_round", "flat"],
        Meta(
            description="`in_the_round`, or `flat`: in rows, which start and end with half a gap, so that the seam "
            "gets a whole one, and read the same from both ends where the numbers allow."
        ),
    ] = "in_the_round"
    edge_stitches: Annotated[
        int,
        Meta(
            ge=0,
            le=MOST_EDGE_STITCHES,
            description="Stitches kept plain at each edge of flat work. Default 0.",
        ),
    ] = 0
    arrangement: Annotated[
        Arrangement,
        Meta(
            description="`balanced`: as even as can be; `grouped`: easiest to knit, the wider sections first, then the "
            "narrower ones."
        ),
    ] = "balanced"
    rounds_of_shaping: Annotated[
        int, Meta(ge=1, le=MOST_SHAPED_ROUNDS, description="Rounds (rows) that are shaped. Default 1.")
    ] = 1
    placement: Annotated[
        Literal["stacked", "staggered"],
        Meta(
            description="With several rounds of shaping: `stacked`, each change above the one before, in lines; or "
            "`staggered`, each between two of the round before, which hides them."
        ),
    ] = "stacked"
    plain_between: Annotated[
        int,
        Meta(
            ge=0, le=MOST_PLAIN_BETWEEN, description="Plain rounds between two rounds of shaping. Default 1."
        ),
    ] = 1
    language: Language = None


class ShapingPlan(NamedTuple):
    """What is worked in each round of shaping: a method, and how many times."""

    method: Method
    times: int

    @property
    def adds(self) -> int:
        """Stitches that one change adds; negative, takes away."""
        row = reference.stitches()[self.method]
        return row.leaves - row.uses

    @property
    def change(self) -> int:
        """Stitches that all the changes of a round add; negative, take away."""
        return self.times * self.adds


def shaping_plan(request: EvenRequest) -> tuple[ShapingPlan, tuple[Notice, ...]]:
    """What is worked in each round of shaping, and the warnings.

    Raises `Impossible` where fields contradict each other or the change cannot be made, with the largest that can, and
    two rounds that make it together where one cannot.
    """
    _check(request)
    rounds = request.rounds_of_shaping
    target = request.target
    if target is None:
        target = request.stitches + (request.change or 0) * rounds
    _require_few_stitches(max(request.stitches, target), rounds)
    if request.multiple is not None:
        plan = _plan_for_multiple(request, request.multiple, target)
        return plan, _multiple_notice(request.multiple, target, request.stitches + plan.change * rounds)
    share, remainder = divmod(target - request.stitches, rounds)
    if remainder:
        counts = (request.stitches + share * rounds, request.stitches + (share + 1) * rounds)
        raise Impossible(
            say("even.not_in_equal_rounds", target=target, stitches=request.stitches, rounds=rounds),
            code="does_not_divide",
            pointer="#/target",
            nearest=listed(tuple(str(count) for count in counts if 1 <= count <= MOST_STITCHES), "or"),
            suggested=next((count for count in counts if 1 <= count <= MOST_STITCHES), UNSET),
        )
    return _checked_plan(request, share), ()


def middle(request: EvenRequest) -> int:
    """Stitches between the edges."""
    return request.stitches - 2 * request.edge_stitches


def _check(request: EvenRequest) -> None:
    """Raise `Impossible` for fields that contradict each other."""
    field = at_most_one(request, "change", "target", what=say("given.stitches"))
    if field is None and request.multiple is None:
        raise Impossible(
            say("even.no_end"),
            code="not_given",
            pointer="#/change",
            nearest=say("even.fields"),
        )
    if request.edge_stitches and request.worked == "in_the_round":
        raise Impossible(
            say("even.no_edges"),
            code="cannot_be_worked",
            pointer="#/edge_stitches",
            nearest=say("even.none_or_flat"),
            suggested=0,
        )
    if middle(request) < 1:
        raise Impossible(
            say("even.all_edge", stitches=request.stitches, edge=request.edge_stitches),
            code="no_room",
            pointer="#/edge_stitches",
            nearest=say("even.edge_stitches", stitches=(request.stitches - 1) // 2),
            suggested=(request.stitches - 1) // 2,
        )
    rounds = request.rounds_of_shaping + (request.rounds_of_shaping - 1) * request.plain_between
    if rounds > MOST_ROUNDS:
        most = (MOST_ROUNDS + request.plain_between) // (1 + request.plain_between)
        raise Impossible(
            say("even.too_many_rounds", rounds=rounds, most=MOST_ROUNDS),
            code="too_many",
            pointer="#/rounds_of_shaping",
            nearest=say_count("even.rounds_of_shaping", most),
            suggested=most,
        )


def _require_few_stitches(stitches: int, rounds: int) -> None:
    """Raise `Impossible` for long rounds of shaping that are many."""
    most = MOST_STITCHES_SHAPED // stitches
    if rounds > max(1, most):
        raise Impossible(
            say("even.too_much_shaping", rounds=rounds, stitches=stitches, most=MOST_STITCHES_SHAPED),
            code="too_many",
            pointer="#/rounds_of_shaping",
            nearest=say_count("even.rounds_of_shaping", max(1, most)),
            suggested=max(1, most),
        )


# --- a count that fits ----------------------------------------------------------------------------------------------


def _plan_for_multiple(request: EvenRequest, multiple: Multiple, target: int) -> ShapingPlan:
    """The plan for the count nearest to `target` that fits the multiple and can be reached."""
    nearest = nearest_count(target, multiple)
    counts = (nearest + multiple.of * repeats for repeats in range(-COUNTS_TRIED, COUNTS_TRIED + 1))
    for count in sorted(counts, key=lambda count: (abs(count - target), -count)):
        change, remainder = divmod(count - request.stitches, request.rounds_of_shaping)
        if remainder or not multiple.of + multiple.plus <= count <= MOST_STITCHES:
            continue
        plan = _plan_for(request, change)
        if plan is not None and _has_room(request, plan):
            return plan
    raise Impossible(
        say("even.no_count_fits", target=target, multiple=_in_words(multiple), stitches=request.stitches),
        code="does_not_divide",
        pointer="#/multiple",
        nearest=say("even.another_method"),
    )


def _in_words(multiple: Multiple) -> str:
    return say("even.of_plus", of=multiple.of, plus=multiple.plus) if multiple.plus else str(multiple.of)


def _multiple_notice(multiple: Multiple, target: int, count: int) -> tuple[Notice, ...]:
    if count == target:
        return ()
    return (
        Notice(
            code="fitted_to_multiple",
            message=say("even.fitted_to_multiple", target=target, multiple=_in_words(multiple), count=count),
            pointer="#/multiple",
        ),
    )


# --- whether it can be worked -----------------------------------------------------------------------------------------


def _plan_for(request: EvenRequest, change: int) -> ShapingPlan | None:
    """The method and how often it is worked; None where the method cannot make that change."""
    plan = ShapingPlan(request.method or (USUAL_DECREASE if change < 0 else USUAL_INCREASE), 1)
    if change * plan.adds < 0 or change % plan.adds:
        return None
    return plan._replace(times=change // plan.adds)


def _has_room(request: EvenRequest, plan: ShapingPlan) -> bool:
    """Whether every round has room: the first is the narrowest of increases, the last of decreases."""
    last = request.stitches + (request.rounds_of_shaping - 1) * plan.change
    return plan.times <= _most(request, plan.method, min(request.stitches, last))


def _most(request: EvenRequest, method: Method, count: int) -> int:
    return most_changes(count, method, flat=request.worked == "flat", edge=request.edge_stitches)


def _checked_plan(request: EvenRequest, change: int) -> ShapingPlan:
    plan = _plan_for(request, change)
    if plan is None:
        raise _wrong_method(request, change)
    if not _has_room(request, plan):
        raise _too_many(request, plan)
    after = request.stitches + change * request.rounds_of_shaping
    if after > MOST_STITCHES:
        raise Impossible(
            say("even.too_many_stitches", stitches=after, most=MOST_STITCHES),
            code="too_many",
            pointer=_pointer(request),
            nearest=say("even.most_stitches", stitches=MOST_STITCHES),
        )
    return plan


def _pointer(request: EvenRequest) -> str:
    return "#/change" if request.target is None else "#/target"


def _wrong_method(request: EvenRequest, change: int) -> Impossible:
    plan = ShapingPlan(request.method or USUAL_DECREASE, 1)
    if change * plan.adds < 0:
        return Impossible(
            say(
                "even.adds_instead" if plan.adds > 0 else "even.takes_away_instead",
                stitch=plan.method,
                stitches=abs(change),
            ),
            code="contradiction",
            pointer="#/method",
            nearest=USUAL_INCREASE if change > 0 else USUAL_DECREASE,
            suggested=USUAL_INCREASE if change > 0 else USUAL_DECREASE,
        )
    near_changes = [
        near_change
        for near_change in (change + 1, change - 1)
        if near_change and _has_room(request, plan._replace(times=near_change // plan.adds))
    ]
    return Impossible(
        say("even.cannot_take_away", stitch=plan.method, stitches=-plan.adds, change=-change),
        code="does_not_divide",
        pointer=_pointer(request),
        nearest=say("even.change_of", changes=listed(tuple(map(str, near_changes)), "or"))
        if near_changes
        else say("even.takes_away_one", stitch=USUAL_DECREASE),
        suggested=_in_field(request, near_changes[0]) if near_changes else UNSET,
    )


def _in_field(request: EvenRequest, change: int) -> int:
    """A change in each round of shaping, as the field of the request says it."""
    return change if request.target is None else request.stitches + change * request.rounds_of_shaping


def _too_many(request: EvenRequest, plan: ShapingPlan) -> Impossible:
    count, number = request.stitches, 1
    while plan.times <= _most(request, plan.method, count):
        count, number = count + plan.change, number + 1
    most = _most(request, plan.method, count)
    uses = reference.stitches()[plan.method].uses
    needs = say("even.takes" if uses > 1 else "even.needs_its_own", stitch=plan.method, stitches=uses)
    if number > 1:
        return Impossible(
            say(
                "even.no_room.in_round",
                needs=needs,
                most=most,
                times=plan.times,
                round=number,
                stitches=count,
            ),
            code="no_room",
            pointer="#/rounds_of_shaping",
            nearest=say_count("even.rounds_of_shaping", number - 1),
            suggested=number - 1,
        )
    largest = say("even.change_at_most", change=most * plan.adds) if most else say("even.no_change")
    several = _over_several(request, plan)
    return Impossible(
        say(
            "even.no_room",
            needs=needs,
            most=most,
            times=plan.times,
            stitches=count - 2 * request.edge_stitches,
        ),
        code="no_room",
        pointer=_pointer(request),
        nearest=say("even.or_several", largest=largest, several=several) if several else largest,
        suggested=_in_field(request, most * plan.adds) if most and request.rounds_of_shaping == 1 else UNSET,
    )


def _over_several(request: EvenRequest, plan: ShapingPlan) -> Message | None:
    """Rounds that make the change together, in words: two, in halves if possible; more only where two cannot."""
    count, most = request.stitches, _most(request, plan.method, request.stitches)
    for first in (plan.times - plan.times // 2, most):
        after_first = count + first * plan.adds
        if first <= most and plan.times - first <= _most(request, plan.method, after_first):
            return say("even.two_rounds", before=count, between=after_first, after=count + plan.change)
    left, rounds = plan.times, 0
    while left and (times := min(left, _most(request, plan.method, count))):
        count, left, rounds = count + times * plan.adds, left - times, rounds + 1
    return None if left else say("even.several_rounds", rounds=rounds)
