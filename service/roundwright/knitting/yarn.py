"""Yarn for knitting: what the work uses, kept apart from what to buy, for one hat or for a whole class."""

from collections.abc import Iterable
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.balls import (
    DEFAULT_MARGIN,
    Purchase,
    Strand,
    Yarn,
    YarnLength,
    cost,
    strand,
    whole,
)
from roundwright.knitting.fineness import COUNT_BASIS, Fineness, fineness
from roundwright.knitting.loop import (
    LOOP_BASIS,
    RIB_BASIS,
    SWATCH_BASIS,
    PartName,
    Rate,
    Span,
    Stretch,
    Swatch,
    YarnSpan,
    rate_by_gauge,
    rate_by_swatch,
    used,
)
from roundwright.knitting.measures import (
    MM_IN,
    SHAPE_BASIS,
    Gauge,
    LengthUnit,
    UnitSystem,
    rows_assumed,
    tidy,
)

MOST_MAKERS: Final = 1_000
"""Knitters of one size: more than fit in a hall."""
SWATCH_AGREES: Final = 0.25
"""How far a swatch's loop may be from the law's before a remark: a quarter, wider than the span of ks."""

BUY_BASIS: Final = Basis(
    "To buy: the highest estimate and a margin for swatch, tails and mistakes, in whole balls.",
    COMMON_PRACTICE,
)


class StitchYarn(Struct, frozen=True, kw_only=True):
    """Length of yarn in one stitch, all strands together."""

    low: Annotated[YarnLength, Meta(description="Lowest, in cm or in.")]
    expected: Annotated[YarnLength, Meta(description="Expected, in cm or in.")]
    high: Annotated[YarnLength, Meta(description="Highest, in cm or in.")]


class YarnPart(Struct, frozen=True, kw_only=True):
    """Yarn in one part of the work."""

    part: Annotated[PartName, Meta(description="Which part; `all` when it was not told apart.")]
    stitches: Annotated[int, Meta(description="Stitches worked in it.")]
    used: Annotated[YarnSpan, Meta(description="Yarn it takes.")]


class OrderLine(Struct, frozen=True, kw_only=True):
    """One size of an order."""

    label: Annotated[str, Meta(description="Name of the size.")]
    makers: Annotated[int, Meta(description="How many knitters make it, one hat each.")]
    each: Annotated[Purchase, Meta(description="Yarn for one of them, in whole balls.")]


class YarnOrder(Struct, frozen=True, kw_only=True):
    """Yarn to buy for everyone: balls of their own for every knitter, or one basket for all."""

    makers: Annotated[int, Meta(description="Knitters in all, one hat each.")]
    used: Annotated[YarnSpan, Meta(description="Yarn all the hats take.")]
    lines: Annotated[tuple[OrderLine, ...], Meta(description="Each size.")]
    own: Annotated[Purchase, Meta(description="When every knitter gets whole balls.")]
    shared: Annotated[Purchase, Meta(description="When all share one basket and wind off what they need.")]


class SizeYarn(Struct, frozen=True, kw_only=True):
    """Yarn in one hat of one size."""

    label: Annotated[str, Meta(description="Name of the size.")]
    stitches: Annotated[int, Meta(description="Stitches worked.")]
    used: Annotated[YarnSpan, Meta(description="Yarn one hat takes.")]
    parts: Annotated[tuple[YarnPart, ...], Meta(description="The same, part by part.")]
    to_buy: Annotated[Purchase, Meta(description="Yarn to buy for one hat.")]


class YarnEstimate(Struct, frozen=True, kw_only=True):
    """Yarn the work uses and, kept apart from it, yarn to buy."""

    stitches: Annotated[int, Meta(description="Stitches worked in all.")]
    per_stitch: Annotated[
        StitchYarn | None, Meta(description="Yarn in one stitch; null when only masses are known.")
    ]
    used: Annotated[YarnSpan, Meta(description="Yarn the work takes.")]
    parts: Annotated[tuple[YarnPart, ...], Meta(description="The same, part by part, in working order.")]
    to_buy: Annotated[Purchase, Meta(description="Yarn to buy: the highest estimate, a margin, whole balls.")]
    fineness: Annotated[
        Fineness | None, Meta(description="Fineness of one strand; null when the label does not tell.")
    ] = None
    sizes: Annotated[tuple[SizeYarn, ...], Meta(description="Each size, when hats were asked about.")] = ()
    order: Annotated[
        YarnOrder | None, Meta(description="Yarn for every maker, when hats were asked about.")
    ] = None
    rules: RulesVersion = RULES
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()


class Knitting(NamedTuple):
    """What an estimate needs to know of the yarn and the fabric: made by `knitting`, once a request."""

    yarn: Yarn | None
    strand: Strand
    rate: Rate
    basis: tuple[Basis, ...]
    warnings: tuple[Notice, ...]


class HatWork(NamedTuple):
    """One size of an order: its label, how many knitters make it, and the stretches of one hat, in order."""

    label: str
    makers: int
    work: tuple[Stretch, ...]


def knitting(
    gauge: Gauge | None,
    yarn: Yarn | None,
    swatch: Swatch | None = None,
    root: str = "#",
    yarn_at: str = "#/yarn",
) -> Knitting:
    """The yarn in a stitch, by a weighed swatch where there is one, else by the gauge.

    `root` is the pointer under which gauge and swatch stand in the request, `yarn_at` that of the yarn.
    Raises `Impossible` without either, for a gauge out of reach, and for a label that tells too little.
    """
    made_out = strand(yarn, yarn_at)
    if made_out.tex is None and (made_out.ball_g if swatch is None else made_out.ball_mm) is not None:
        raise Impossible(
            "The label says "
            + (
                "how heavy a ball is, but not how long."
                if swatch is None
                else "how long a ball is, but not how heavy: a weighed swatch needs its mass."
            ),
            pointer=yarn_at,
            nearest="both the length and the mass of a ball",
        )
    counted = (COUNT_BASIS,) if yarn and yarn.count else ()
    if swatch is not None:
        rate = rate_by_swatch(swatch, made_out, f"{root}/swatch")
        warnings = _disagreement(rate, gauge, made_out, root)
        return Knitting(yarn, made_out, rate, (SWATCH_BASIS, *counted), warnings)
    if gauge is None:
        raise Impossible(
            "Nothing tells how much yarn is in a stitch.",
            pointer=f"{root}/gauge",
            nearest="a gauge, or a swatch counted and weighed",
        )
    shape = (SHAPE_BASIS,) if gauge.rows is None else ()
    rate = rate_by_gauge(gauge, made_out, f"{root}/gauge")
    return Knitting(
        yarn, made_out, rate, (LOOP_BASIS, *shape, *counted), rows_assumed(gauge, f"{root}/gauge")
    )


def _disagreement(rate: Rate, gauge: Gauge | None, yarn: Strand, root: str) -> tuple[Notice, ...]:
    """The warning that goes with a swatch whose loops are far from those of its gauge."""
    if gauge is None or rate.in_mm is None:
        return ()
    swatch_mm = rate.span.expected * rate.in_mm
    law_mm = rate_by_gauge(gauge, yarn, f"{root}/gauge").span.expected
    if abs(swatch_mm / law_mm - 1) <= SWATCH_AGREES:
        return ()
    return (
        Notice(
            code="swatch_far_from_gauge",
            message=f"By the swatch a stitch holds {swatch_mm:.3g} mm of yarn, by the gauge about "
            f"{law_mm:.3g} mm. The swatch was believed; check its count, its mass and the label of the yarn.",
            pointer=f"{root}/swatch",
        ),
    )


def estimate(
    work: tuple[Stretch, ...], by: Knitting, units: UnitSystem, margin_percent: float = DEFAULT_MARGIN
) -> YarnEstimate:
    """Yarn the stretches use, part by part, and what to buy for them.

    Raises `Impossible` for work without a stitch, and for more balls than anybody could buy.
    """
    if not any(each.stitches * each.rounds for each in work):
        raise Impossible("No stitch is worked, so no yarn is used.", nearest="one stitch")
    total = used(work, by.rate)
    ribs = (RIB_BASIS,) if any(each.ribbed for each in work) else ()
    return YarnEstimate(
        stitches=_stitches(work),
        per_stitch=_per_stitch(by.rate, units),
        used=by.rate.amounts(total, units),
        parts=parts(work, by.rate, units),
        to_buy=to_buy(total, by, units, margin_percent),
        fineness=None if by.strand.tex is None else fineness(by.strand.tex),
        basis=(*by.basis, *ribs, BUY_BASIS),
        warnings=by.warnings,
    )


def parts(work: tuple[Stretch, ...], rate: Rate, units: UnitSystem) -> tuple[YarnPart, ...]:
    """Yarn in each part, in the order the parts are worked."""
    by_part: dict[PartName, list[Stretch]] = {}
    for each in work:
        if each.stitches * each.rounds:
            by_part.setdefault(each.part, []).append(each)
    return tuple(
        YarnPart(part=part, stitches=_stitches(stretch), used=rate.amounts(used(stretch, rate), units))
        for part, stretch in by_part.items()
    )


def to_buy(total: Span, by: Knitting, units: UnitSystem, margin_percent: float) -> Purchase:
    """The highest estimate with the margin, in whole balls: so many, what stays over, what they cost."""
    exact = by.rate.balls(_with_margin(total, margin_percent), by.strand)
    return _purchase(total, None if exact is None else whole(exact), by, units, margin_percent)


def _with_margin(total: Span, margin_percent: float) -> float:
    return total.high * (1 + margin_percent / 100)


def _purchase(
    total: Span, balls: int | None, by: Knitting, units: UnitSystem, margin_percent: float
) -> Purchase:
    """So many balls for this use."""
    amount = by.rate.amount(_with_margin(total, margin_percent), units)
    balls_in_one = by.rate.balls(1.0, by.strand)
    if balls is None or balls_in_one is None:
        return Purchase(margin_percent=margin_percent, amount=amount)
    price = by.yarn.price if by.yarn else None
    return Purchase(
        margin_percent=margin_percent,
        amount=amount,
        balls=balls,
        left_over=by.rate.amount(max(0.0, balls / balls_in_one - total.expected), units),
        cost=cost(balls, price) if price else None,
    )


def class_order(
    hats: tuple[HatWork, ...], by: Knitting, units: UnitSystem, margin_percent: float = DEFAULT_MARGIN
) -> YarnOrder:
    """Yarn for everyone, one hat each: whole balls for every knitter, and one basket for all."""
    totals = [used(hat.work, by.rate) for hat in hats]
    everyone = Span(
        sum(hat.makers * one.low for hat, one in zip(hats, totals, strict=True)),
        sum(hat.makers * one.expected for hat, one in zip(hats, totals, strict=True)),
        sum(hat.makers * one.high for hat, one in zip(hats, totals, strict=True)),
    )
    lines = tuple(
        OrderLine(label=hat.label, makers=hat.makers, each=to_buy(one, by, units, margin_percent))
        for hat, one in zip(hats, totals, strict=True)
    )
    shared = to_buy(everyone, by, units, margin_percent)
    own = None if shared.balls is None else sum(line.makers * (line.each.balls or 0) for line in lines)
    return YarnOrder(
        makers=sum(hat.makers for hat in hats),
        used=by.rate.amounts(everyone, units),
        lines=lines,
        own=_purchase(everyone, own, by, units, margin_percent),
        shared=shared,
    )


def _stitches(work: Iterable[Stretch]) -> int:
    return sum(each.stitches * each.rounds for each in work)


def _per_stitch(rate: Rate, units: UnitSystem) -> StitchYarn | None:
    if rate.in_mm is None:
        return None
    unit: LengthUnit = "in" if units == "imperial" else "cm"
    low, expected, high = (YarnLength(tidy(each * rate.in_mm / MM_IN[unit]), unit) for each in rate.span)
    return StitchYarn(low=low, expected=expected, high=high)
