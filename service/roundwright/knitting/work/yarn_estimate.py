"""Yarn that some work takes: a number of stitches, rounds, or hats in their sizes."""

from typing import Annotated, Final

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible, at_most_one
from roundwright.knitting.crown.finish import tails
from roundwright.knitting.hat.plan import hat_works
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.quantities import Gauge, UnitSystem, mm
from roundwright.knitting.rounds.round import MOST_ROUNDS, Round
from roundwright.knitting.rounds.work_round import chained
from roundwright.knitting.yarn.basket import BASKET_BASIS
from roundwright.knitting.yarn.estimate import SizeYarn, YarnEstimate, estimate
from roundwright.knitting.yarn.label import OtherYarn, Yarn
from roundwright.knitting.yarn.order import HatWork, class_order
from roundwright.knitting.yarn.per_stitch import Fabric, Swatch, fabric_of, in_other_yarn
from roundwright.knitting.yarn.purchase import DEFAULT_MARGIN, MarginPercent
from roundwright.knitting.yarn.segments import WorkSegment, YarnPartName, is_rib, segments_of
from roundwright.language import Language, say

MOST_WORKED: Final = 10_000_000
"""Stitches worked in one piece: a blanket has a hundred thousand."""


class WorkRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Work that takes yarn: stitches, rounds or hats, and the fabric they are worked in."""

    stitches: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_WORKED)] | None,
        Meta(description="Stitches worked in all, where only their number is known."),
    ] = None
    rounds: Annotated[
        Annotated[tuple[Round, ...], Meta(min_length=1, max_length=MOST_ROUNDS)] | None,
        Meta(description="The rounds to be worked, first to last."),
    ] = None
    hat: Annotated[
        HatRequest | None,
        Meta(
            description="A hat in its sizes, as for `/v1/hats`: its gauge, and its yarn unless `yarn` is given."
        ),
    ] = None
    gauge: Annotated[
        Gauge | None,
        Meta(description="Gauge of the fabric. A hat brings its own; with a swatch it is only compared."),
    ] = None
    swatch: Annotated[
        Swatch | None,
        Meta(description="A swatch counted and weighed: better than any gauge, above all in rib and cables."),
    ] = None
    yarn: Annotated[
        Yarn | None,
        Meta(description="The yarn; without it the answer has lengths, but no masses and no balls."),
    ] = None
    units: Annotated[UnitSystem, Meta(description="Units of the answer: m and g, or yd and oz.")] = "metric"
    language: Language = None


class EstimateRequest(WorkRequest, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Work to estimate the yarn of: exactly one of stitches, rounds and hat."""

    margin_percent: Annotated[
        MarginPercent | None,
        Meta(
            description="Per cent bought on top of the highest estimate, for tails and mistakes, without a swatch. "
            "Left out: 10, or the hat's own."
        ),
    ] = None
    other_yarn: OtherYarn = None


def yarn_estimate(request: EstimateRequest) -> YarnEstimate:
    """Yarn for stitches, for rounds, or for hats in their sizes with everybody's order.

    Raises `Impossible` unless exactly one of the three is given, and for what cannot be knitted.
    """
    hats = requested_work(request)
    if not hats:
        raise Impossible(
            say("yarn.nothing_to_knit"),
            code="not_given",
            nearest=say("yarn.one_of"),
        )
    fabric = requested_fabric(request)
    other = _other_fabric(request, fabric)
    margin = request.margin_percent
    if margin is None:
        margin = DEFAULT_MARGIN if request.hat is None else request.hat.margin_percent
    if request.hat is None:
        answer = estimate(hats[0].segments, fabric, request.units, margin)
        instead = other and estimate(hats[0].segments, other, request.units, margin)
        to_buy_instead, order_instead = (instead.to_buy if instead else None), None
    else:
        answer = _hats_estimate(hats, fabric, request.units, margin)
        order_instead = None if other is None else class_order(hats, other, request.units, margin)
        to_buy_instead = order_instead.shared if order_instead else None
    return replace(
        answer,
        to_buy_instead=to_buy_instead,
        order_instead=order_instead,
        warnings=tuple(dict.fromkeys((*answer.warnings, *(other.warnings if other else ())))),
    )


def _hats_estimate(
    hats: tuple[HatWork, ...], fabric: Fabric, units: UnitSystem, margin: float
) -> YarnEstimate:
    """The yarn of all hats of all makers, size by size, and the order: what to buy is one basket for all."""
    order = class_order(hats, fabric, units, margin)
    all_hats = estimate(for_everyone(hats), fabric, units, margin, is_hat=True)
    return replace(
        all_hats,
        basis=all_hats.basis if order.one_basket is None else (*all_hats.basis, BASKET_BASIS),
        to_buy=order.shared,
        sizes=tuple(_size(hat, estimate(hat.segments, fabric, units, margin)) for hat in hats),
        order=order,
    )


def _other_fabric(request: EstimateRequest, fabric: Fabric) -> Fabric | None:
    """The fabric in the other yarn, of the request or else of its hat; None where neither has one."""
    if request.other_yarn is not None:
        return in_other_yarn(fabric, request.other_yarn, "#/other_yarn")
    if request.hat is not None and request.hat.other_yarn is not None:
        return in_other_yarn(fabric, request.hat.other_yarn, "#/hat/other_yarn")
    return None


def _size(hat: HatWork, yarn: YarnEstimate) -> SizeYarn:
    return SizeYarn(
        label=hat.label,
        stitches=yarn.stitches,
        used=yarn.used,
        parts=yarn.parts,
        to_buy=yarn.to_buy,
        colours=yarn.colours,
    )


def requested_fabric(request: WorkRequest) -> Fabric:
    """The fabric the work is knitted in. Raises `Impossible` where the request gives none, or two."""
    hat = request.hat
    if hat is None:
        return fabric_of(request.gauge, request.yarn, request.swatch)
    if request.gauge is not None:
        raise Impossible(
            say("yarn.gauge_of_hat"),
            code="given_twice",
            pointer="#/gauge",
            nearest=say("yarn.hats_gauge_alone"),
            suggested=None,
        )
    # A swatch stands beside the hat and its gauge inside it; only the swatch's pointer can be wrong then.
    root = "#" if request.swatch else "#/hat"
    if request.yarn is not None:
        return fabric_of(hat.gauge, request.yarn, request.swatch, root=root)
    return fabric_of(hat.gauge, hat.yarn, request.swatch, root=root, yarn_at="#/hat/yarn")


def requested_work(request: WorkRequest) -> tuple[HatWork, ...]:
    """What is to be knitted: one work for stitches or rounds, one a size for a hat, none where none is given.

    Raises `Impossible` for two at once, and for rounds or hats that cannot be knitted.
    """
    ways = (
        ("stitches", "rounds", "hat") if request.gauge else ("hat", "stitches", "rounds")
    )  # a hat has a gauge
    at_most_one(request, *ways, what=say("given.work"))
    tail_mm = mm(tails(request.units)[1])
    if request.stitches is not None:
        return (HatWork("", 1, (WorkSegment("all", request.stitches),), tail_mm),)
    if request.rounds is not None:
        return (HatWork("", 1, _by_part(chained(request.rounds)), tail_mm),)
    return () if request.hat is None else hat_works(request.hat, "#/hat")


def for_everyone(hats: tuple[HatWork, ...]) -> tuple[WorkSegment, ...]:
    """All the hats of all makers as one work."""
    return tuple(
        segment._replace(rounds=segment.rounds * hat.makers) for hat in hats for segment in hat.segments
    )


def _by_part(rounds: tuple[Round, ...]) -> tuple[WorkSegment, ...]:
    """The rounds as segments: a brim of rib or garter, a crown from the first decrease, a body between."""
    crown = next((index for index, round in enumerate(rounds) if round.after < round.before), len(rounds))
    body = next((index for index, round in enumerate(rounds) if not _is_brim(round)), len(rounds))
    body = min(body, crown)
    if body == 0 and crown == len(rounds):
        return segments_of(rounds, "all")
    parts: tuple[tuple[YarnPartName, tuple[Round, ...]], ...] = (
        ("brim", rounds[:body]),
        ("body", rounds[body:crown]),
        ("crown", rounds[crown:]),
    )
    return tuple(segment for part, in_part in parts for segment in segments_of(in_part, part))


def _is_brim(round: Round) -> bool:
    return round.kind in ("rib", "garter") or is_rib(round)
