"""Yarn asked about over the counter: how much some work takes, by stitches, by rounds or by the hat."""

from typing import Annotated, Final

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible, at_most_one
from roundwright.knitting.hat.plan import hat_works
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.quantities import Gauge, UnitSystem
from roundwright.knitting.rounds.round import MOST_ROUNDS, Round
from roundwright.knitting.rounds.work_round import chained
from roundwright.knitting.yarn.estimate import SizeYarn, YarnEstimate, estimate
from roundwright.knitting.yarn.fabric import Fabric, fabric
from roundwright.knitting.yarn.label import DEFAULT_MARGIN, MarginPercent, Yarn
from roundwright.knitting.yarn.per_stitch import PartName, Stretch, Swatch, ribbed, stretches
from roundwright.knitting.yarn.purchase import HatWork, class_order

MOST_WORKED: Final = 10_000_000
"""Stitches worked in one piece: a blanket has a hundred thousand."""


class WorkAsked(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
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
        Yarn | None, Meta(description="The yarn; without it lengths are told, but no masses and no balls.")
    ] = None
    units: Annotated[UnitSystem, Meta(description="Units of the answer: m and g, or yd and oz.")] = "metric"


class EstimateRequest(WorkAsked, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Work to estimate the yarn of: exactly one of stitches, rounds and hat."""

    margin_percent: Annotated[
        MarginPercent | None,
        Meta(
            description="Per cent bought on top of the highest estimate, for the swatch, the tails and mistakes. "
            "Left out: 10, or what the hat says."
        ),
    ] = None


def yarn_estimate(request: EstimateRequest) -> YarnEstimate:
    """Yarn for stitches, for rounds, or for hats in their sizes with everybody's order.

    Raises `Impossible` unless exactly one of the three is asked about, and for what cannot be knitted.
    """
    hats = works(request)
    if not hats:
        raise Impossible(
            "Nothing says what is to be knitted.",
            nearest="one of `stitches`, `rounds` and `hat`",
        )
    by = fabric_of(request)
    if request.hat is None:
        margin = DEFAULT_MARGIN if request.margin_percent is None else request.margin_percent
        return estimate(hats[0].work, by, request.units, margin)
    margin = request.hat.margin_percent if request.margin_percent is None else request.margin_percent
    sizes = []
    for hat in hats:
        one = estimate(hat.work, by, request.units, margin)
        sizes.append(
            SizeYarn(
                label=hat.label, stitches=one.stitches, used=one.used, parts=one.parts, to_buy=one.to_buy
            )
        )
    everyone = estimate(for_everyone(hats), by, request.units, margin, is_hat=True)
    return replace(everyone, sizes=tuple(sizes), order=class_order(hats, by, request.units, margin))


def fabric_of(request: WorkAsked) -> Fabric:
    """The fabric the work is knitted in. Raises `Impossible` where nothing tells it, or two things do."""
    hat = request.hat
    if hat is None:
        return fabric(request.gauge, request.yarn, request.swatch)
    if request.gauge is not None:
        raise Impossible(
            "The hat brings its own gauge, so a second one has no place.",
            pointer="#/gauge",
            nearest="the hat's gauge alone",
        )
    # A swatch stands beside the hat and its gauge inside it; only the swatch's pointer can be wrong then.
    yarn, at = (hat.yarn, "#/hat/yarn") if request.yarn is None else (request.yarn, "#/yarn")
    return fabric(hat.gauge, yarn, request.swatch, root="#" if request.swatch else "#/hat", yarn_at=at)


def works(request: WorkAsked) -> tuple[HatWork, ...]:
    """What is to be knitted: one work for stitches or rounds, one a size for a hat, none when none is asked about.

    Raises `Impossible` for two at once, and for rounds or hats that cannot be knitted.
    """
    at_most_one(request, "stitches", "rounds", "hat", what="The work")
    if request.stitches is not None:
        return (HatWork("", 1, (Stretch("all", request.stitches),)),)
    if request.rounds is not None:
        return (HatWork("", 1, _by_part(chained(request.rounds))),)
    return () if request.hat is None else hat_works(request.hat, "#/hat")


def for_everyone(hats: tuple[HatWork, ...]) -> tuple[Stretch, ...]:
    """All the hats of all makers as one work."""
    return tuple(each._replace(rounds=each.rounds * hat.makers) for hat in hats for each in hat.work)


def _by_part(rounds: tuple[Round, ...]) -> tuple[Stretch, ...]:
    """The rounds as stretches: a brim of rib or garter, a crown from the first decrease, a body between."""
    crown = next((index for index, each in enumerate(rounds) if each.after < each.before), len(rounds))
    body = next((index for index, each in enumerate(rounds) if not _is_brim(each)), len(rounds))
    body = min(body, crown)
    if body == 0 and crown == len(rounds):
        return stretches(rounds, "all")
    parts: tuple[tuple[PartName, slice], ...] = (
        ("brim", slice(0, body)),
        ("body", slice(body, crown)),
        ("crown", slice(crown, None)),
    )
    return tuple(each for part, where in parts for each in stretches(rounds[where], part))


def _is_brim(each: Round) -> bool:
    return each.kind in ("rib", "garter") or ribbed(each)
