"""Yarn remaining: how much is left, whether it is enough for the work, and after how many rounds it runs out."""

from math import floor
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.crown.finish import tails
from roundwright.knitting.quantities import (
    Length,
    Mass,
    UnitSystem,
    g,
    length,
    mm,
    quantity_text,
    range_text,
)
from roundwright.knitting.work.yarn_estimate import (
    MOST_WORKED,
    WorkRequest,
    for_everyone,
    requested_fabric,
    requested_work,
)
from roundwright.knitting.yarn.amount import (
    YarnAmount,
    YarnQuantity,
    YarnRange,
    YarnSpan,
    yarn_amount,
    yarn_span,
)
from roundwright.knitting.yarn.label import Strand, strand_of
from roundwright.knitting.yarn.order import HatWork
from roundwright.knitting.yarn.per_stitch import ONE_GRAM, Fabric, Scale
from roundwright.knitting.yarn.segments import RIB_FACTOR, WorkSegment, segment_basis, stitches_in, yarn_used
from roundwright.language import Message, joined, say, say_count

MOST_STRANDS_COUNTED: Final = 10_000
"""Strands across a hank: nobody counts more."""
MOST_FULL_BALLS: Final = 10_000
"""Full balls left: a shop's stock of one colour."""

Verdict = Literal["enough", "not_enough", "too_close"]


class Hank(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Yarn wound into a hank, and its strands counted."""

    circumference: Annotated[Length, Meta(description="Once around the hank.")]
    strands: Annotated[
        int, Meta(ge=1, le=MOST_STRANDS_COUNTED, description="Strands counted across the hank.")
    ]


class LeftYarn(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Yarn that is left: the sum of everything given."""

    mass: Annotated[Mass | None, Meta(description="Mass of it, on the scales.")] = None
    scale: Scale = ONE_GRAM
    hank: Annotated[Hank | None, Meta(description="Length of it, as a hank.")] = None
    balls: Annotated[int, Meta(ge=0, le=MOST_FULL_BALLS, description="Full balls beside it.")] = 0


class RemainingRequest(WorkRequest, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Yarn that is left, and the work it is meant for: at most one of stitches, rounds and hat."""

    left: Annotated[LeftYarn, Meta(description="What is left.")]
    rounds_worked: Annotated[
        int, Meta(ge=0, le=MOST_WORKED, description="Rounds of the work that are worked already.")
    ] = 0


class Reach(Struct, frozen=True, kw_only=True):
    """How far the yarn goes, in whole rounds or stitches, never more than there are to work."""

    low: Annotated[int, Meta(description="It will hardly run out before.")]
    expected: Annotated[int, Meta(description="It should last so far.")]
    high: Annotated[int, Meta(description="It will hardly last longer.")]
    of: Annotated[int, Meta(description="How many there are to work.")]


class SizeRemaining(Struct, frozen=True, kw_only=True):
    """Whether the yarn left is enough for one hat of one size."""

    label: Annotated[str, Meta(description="Name of the size.")]
    used: Annotated[YarnSpan, Meta(description="Yarn that one hat still takes.")]
    verdict: Annotated[Verdict, Meta(description="Whether the yarn left is enough for it.")]
    rounds: Annotated[Reach, Meta(description="Rounds after which it runs out.")]


class RemainingAnswer(Struct, frozen=True, kw_only=True):
    """The yarn left, and whether it is enough."""

    left: Annotated[YarnSpan, Meta(description="What is left.")]
    used: Annotated[
        YarnSpan | None, Meta(description="What all the work still takes; null for a request without work.")
    ] = None
    verdict: Annotated[
        Verdict | None, Meta(description="Whether the yarn left is enough; null for a request without work.")
    ] = None
    missing: Annotated[
        YarnAmount | None,
        Meta(description="Yarn that would surely be enough beside it; null when there is enough."),
    ] = None
    stitches: Annotated[
        Reach | None, Meta(description="Stitches after which it runs out; null for a request without work.")
    ] = None
    rounds: Annotated[
        Reach | None,
        Meta(description="Rounds after which it runs out; null without rounds, and for more than one hat."),
    ] = None
    sizes: Annotated[
        tuple[SizeRemaining, ...],
        Meta(description="One hat of each size, from all that is left, for a request about a hat."),
    ] = ()
    message: Annotated[str, Meta(description="The same in a sentence for the knitter.")]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


def remaining(request: RemainingRequest) -> RemainingAnswer:
    """What is left as length and mass, and whether it is enough for the work, if the request has any.

    Raises `Impossible` for nothing left, for a mass or a length that cannot be compared with the work before the yarn
    is known, and for work that cannot be knitted or is done already.
    """
    hat = request.hat and replace(request.hat, colours=None, units=request.units)
    works = requested_work(replace(request, hat=hat))
    if request.stitches is not None and request.rounds_worked:
        raise Impossible(
            say("remaining.stitches_alone"),
            code="needs_another",
            pointer="#/rounds_worked",
            nearest=say("remaining.stitches_to_work"),
            suggested=0,
        )
    hats = tuple(_still_to_work(hat, request.rounds_worked) for hat in works)
    if not hats:
        return _only_left(request)
    fabric = requested_fabric(request)
    left = _left(request.left, fabric.strand, by_mass=fabric.per_stitch.expected.mm is None)
    segments = for_everyone(hats)
    used = yarn_used(segments, fabric.per_stitch)
    tail_mm = sum(hat.makers * hat.tail_mm for hat in hats)
    verdict = _verdict(left, used, fabric, tail_mm)
    stitches, rounds = _reach(segments, left, fabric.per_stitch)
    is_one_hat = len(hats) == 1 and hats[0].makers == 1 and request.stitches is None
    return RemainingAnswer(
        left=yarn_span(left, request.units),
        used=yarn_span(used, request.units),
        verdict=verdict,
        missing=None
        if verdict == "enough"
        else yarn_amount(_with_tail(used.high, fabric, tail_mm).less(left.low), request.units),
        stitches=stitches,
        rounds=rounds if is_one_hat else None,
        sizes=tuple(_size(hat, left, fabric, request.units) for hat in hats) if request.hat else (),
        message=_message(verdict, rounds, "rounds")
        if is_one_hat
        else _message(verdict, stitches, "stitches"),
        basis=(
            _left_basis(request.units, *(hat.tail_mm for hat in hats)),
            *fabric.basis,
            *segment_basis(segments),
        ),
        warnings=fabric.warnings,
    )


def _only_left(request: RemainingRequest) -> RemainingAnswer:
    """The answer to a request without work."""
    if request.rounds_worked:
        raise Impossible(
            say("remaining.rounds_of_what"),
            code="needs_another",
            pointer="#/rounds_worked",
            nearest=say("remaining.rounds_or_hat"),
            suggested=0,
        )
    strand = strand_of(request.yarn)
    by_mass = strand.tex is None and request.left.mass is not None
    left = yarn_span(_left(request.left, strand, by_mass=by_mass), request.units)
    return RemainingAnswer(
        left=left,
        message=say("remaining.left", amount=_in_words(left.expected)),
        basis=(_left_basis(request.units, mm(tails(request.units)[1])),),
    )


def _left_basis(units: UnitSystem, *tails_mm: float) -> Basis:
    """What the amount left and the verdict rest on, with the tail of each size."""
    shortest, longest = length(min(tails_mm), units), length(max(tails_mm), units)
    tail = quantity_text(longest) if shortest == longest else range_text(shortest, longest)
    return Basis(say("remaining.basis", tail=tail), COMMON_PRACTICE)


def _left(left: LeftYarn, strand: Strand, *, by_mass: bool) -> YarnRange:
    """What is left, known by mass or else by length, and by both where the yarn is known.

    Raises `Impossible` for nothing, and for what is only known the other way.
    """
    if left.mass is not None and not by_mass and strand.tex is None:
        raise _unknown("mass")
    if left.hank is not None and by_mass and strand.tex is None:
        raise _unknown("hank")
    if left.balls and (strand.ball_g if by_mass else strand.ball_mm) is None:
        raise _unknown("balls")
    if left.mass is None and left.hank is None and not left.balls:
        raise Impossible(
            say("remaining.nothing_left"),
            code="not_given",
            pointer="#/left",
            nearest=say("remaining.something"),
        )
    exact = YarnQuantity(0.0, 0.0)
    if left.hank is not None:
        exact = exact.plus(strand.of_length(mm(left.hank.circumference) * left.hank.strands))
    if left.balls:
        exact = exact.plus(strand.ball.times(left.balls))
    if left.mass is None:
        return YarnRange(exact, exact, exact)
    mass_g, scale_g = g(left.mass), g(left.scale)
    return YarnRange(
        exact.plus(strand.of_mass(max(0.0, mass_g - scale_g / 2))),
        exact.plus(strand.of_mass(mass_g)),
        exact.plus(strand.of_mass(mass_g + scale_g / 2)),
    )


def _unknown(field: str) -> Impossible:
    return Impossible(
        say(f"remaining.unknown.{field}"),
        code="needs_another",
        pointer=f"#/left/{field}",
        nearest=say("remaining.length_and_mass"),
    )


def _still_to_work(hat: HatWork, rounds_worked: int) -> HatWork:
    """The work without the rounds that are done."""
    if not rounds_worked:
        return hat
    total = _rounds(hat.segments)
    if rounds_worked >= total:
        raise Impossible(
            say("remaining.nothing_to_knit", rounds=total, worked=rounds_worked),
            code="not_there",
            pointer="#/rounds_worked",
            nearest=say_count("rounds", total - 1),
            suggested=total - 1,
        )
    to_work: list[WorkSegment] = []
    for segment in hat.segments:
        if segment.part == "cast_on":
            continue
        done = min(segment.rounds, rounds_worked)
        rounds_worked -= done
        if done < segment.rounds:
            to_work.append(segment._replace(rounds=segment.rounds - done))
    return hat._replace(segments=tuple(to_work))


def _rounds(segments: tuple[WorkSegment, ...]) -> int:
    return sum(segment.rounds for segment in segments if segment.part != "cast_on")


def _with_tail(quantity: YarnQuantity, fabric: Fabric, tail_mm: float) -> YarnQuantity:
    """The yarn and the tail to fasten off with, every strand of it; no tail where only masses are known."""
    if quantity.mm is None:
        return quantity
    return quantity.plus(fabric.strand.of_length(fabric.strand.held * tail_mm))


def _verdict(left: YarnRange, used: YarnRange, fabric: Fabric, tail_mm: float) -> Verdict:
    if left.low.covers(_with_tail(used.high, fabric, tail_mm)):
        return "enough"
    return "too_close" if left.high.covers(used.low) else "not_enough"


def _reach(segments: tuple[WorkSegment, ...], left: YarnRange, per_stitch: YarnRange) -> tuple[Reach, Reach]:
    """Stitches and rounds after which the yarn runs out: `low` is the least left at the highest use of a stitch."""
    low = _lasts(segments, left.low, per_stitch.high, RIB_FACTOR)
    expected = _lasts(segments, left.expected, per_stitch.expected, 1.0)
    high = _lasts(segments, left.high, per_stitch.low, 1.0)
    return (
        Reach(low=low.stitches, expected=expected.stitches, high=high.stitches, of=stitches_in(segments)),
        Reach(low=low.rounds, expected=expected.rounds, high=high.rounds, of=_rounds(segments)),
    )


class _Worked(NamedTuple):
    stitches: int
    rounds: int


def _lasts(
    segments: tuple[WorkSegment, ...], left: YarnQuantity, per_stitch: YarnQuantity, rib_factor: float
) -> _Worked:
    """Whole stitches and rounds that the yarn makes, in working order."""
    plain_stitches_left = left.ratio(per_stitch)
    assert plain_stitches_left is not None
    rounds = stitches = 0
    for segment in segments:
        factor = segment.loop * (rib_factor if segment.ribbed else 1.0)
        # The margin for rounding lets yarn for exactly ten rounds make ten.
        made = min(segment.stitches_worked, max(0, floor(plain_stitches_left / factor + 1e-9)))
        stitches += made
        plain_stitches_left -= made * factor
        full = made // segment.stitches if segment.stitches else segment.rounds
        if segment.part != "cast_on":
            rounds += full
        if full < segment.rounds:
            break
    return _Worked(stitches, rounds)


def _size(hat: HatWork, left: YarnRange, fabric: Fabric, units: UnitSystem) -> SizeRemaining:
    used = yarn_used(hat.segments, fabric.per_stitch)
    _, rounds = _reach(hat.segments, left, fabric.per_stitch)
    return SizeRemaining(
        label=hat.label,
        used=yarn_span(used, units),
        verdict=_verdict(left, used, fabric, hat.tail_mm),
        rounds=rounds,
    )


def _message(verdict: Verdict, reach: Reach, unit: Literal["rounds", "stitches"]) -> Message:
    if verdict == "too_close" and reach.low == reach.of:
        return say("remaining.too_close.tail")
    to_the_end = ".to_the_end" if verdict == "too_close" and reach.expected == reach.of else ""
    return say(
        f"remaining.{verdict}{to_the_end}.{unit}",
        expected=reach.expected,
        low=reach.low,
        high=reach.high,
        of=reach.of,
    )


def _in_words(amount: YarnAmount) -> Message:
    known = (quantity for quantity in (amount.length, amount.mass) if quantity is not None)
    return joined(", ", *(say(f"amount.{quantity.unit}", value=quantity.value) for quantity in known))
