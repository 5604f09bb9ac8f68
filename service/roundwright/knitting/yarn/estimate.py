"""Estimate of the yarn for some work: what it uses, part by part, and separately what to buy."""

from functools import lru_cache
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.gauge.convert import YarnWeight, yarn_weights_of
from roundwright.knitting.quantities import (
    Gauge,
    Length,
    LengthUnit,
    UnitSystem,
    mm,
    mm_in,
    row_height_mm,
    stitch_width_mm,
    tidy,
)
from roundwright.knitting.yarn.amount import (
    YarnAmount,
    YarnLength,
    YarnRange,
    YarnSpan,
    yarn_amount,
    yarn_length,
    yarn_span,
)
from roundwright.knitting.yarn.order import YarnOrder
from roundwright.knitting.yarn.per_stitch import Fabric
from roundwright.knitting.yarn.purchase import BUY_BASIS, DEFAULT_MARGIN, Purchase, all_colours, purchase
from roundwright.knitting.yarn.segments import (
    WorkSegment,
    YarnPartName,
    colours_of,
    in_colour,
    segment_basis,
    stitches_in,
    yarn_used,
)
from roundwright.knitting.yarn.yarn_count import Fineness, fineness
from roundwright.language import say

PRINTED_BASIS: Final = Basis(
    say("yarn.printed_basis"),
    "yarn table of a knitting handbook in the series For Dummies",
)


class PrintedYarn(Struct, frozen=True, kw_only=True):
    """Yarn to buy for a hat by a printed table."""

    number: Annotated[int, Meta(description="Number of the yarn weight class.")]
    name: Annotated[str, Meta(description="Name of the class.")]
    least: Annotated[YarnLength, Meta(description="Least to buy, in m or yd.")]
    most: Annotated[YarnLength, Meta(description="Most to buy, in m or yd.")]


class StitchYarn(Struct, frozen=True, kw_only=True):
    """Length of yarn in one stitch, all strands together."""

    low: Annotated[YarnLength, Meta(description="Lowest, in cm or in.")]
    expected: Annotated[YarnLength, Meta(description="Expected, in cm or in.")]
    high: Annotated[YarnLength, Meta(description="Highest, in cm or in.")]


class YarnPart(Struct, frozen=True, kw_only=True):
    """Yarn in one part of the work."""

    part: Annotated[YarnPartName, Meta(description="Which part; `all` where the work has no parts.")]
    stitches: Annotated[int, Meta(description="Stitches worked in it.")]
    used: Annotated[YarnSpan, Meta(description="Yarn it takes.")]


class ColourYarn(Struct, frozen=True, kw_only=True):
    """Yarn of one colour."""

    colour: Annotated[str, Meta(description="What the colour is called.")]
    stitches: Annotated[int, Meta(description="Stitches worked in it.")]
    used: Annotated[YarnSpan, Meta(description="Yarn of it that the work takes.")]
    to_buy: Annotated[Purchase, Meta(description="Yarn of it to buy, in whole balls.")]


class SizeYarn(Struct, frozen=True, kw_only=True):
    """Yarn in one hat of one size."""

    label: Annotated[str, Meta(description="Name of the size.")]
    stitches: Annotated[int, Meta(description="Stitches worked.")]
    used: Annotated[YarnSpan, Meta(description="Yarn one hat takes.")]
    parts: Annotated[tuple[YarnPart, ...], Meta(description="The same, part by part.")]
    to_buy: Annotated[Purchase, Meta(description="Yarn to buy for one hat.")]
    colours: Annotated[
        tuple[ColourYarn, ...], Meta(description="Each colour; empty for a hat in one colour.")
    ] = ()


class YarnEstimate(Struct, frozen=True, kw_only=True):
    """Yarn the work uses and, kept apart from it, yarn to buy."""

    stitches: Annotated[int, Meta(description="Stitches worked in all.")]
    per_stitch: Annotated[
        StitchYarn | None, Meta(description="Yarn in one stitch; null when only masses are known.")
    ]
    used: Annotated[YarnSpan, Meta(description="Yarn the work takes.")]
    parts: Annotated[tuple[YarnPart, ...], Meta(description="The same, part by part, in working order.")]
    to_buy: Annotated[
        Purchase,
        Meta(
            description="Yarn to buy: the highest estimate, a margin, whole balls; of every colour, added up."
        ),
    ]
    swatch: Annotated[
        YarnAmount | None,
        Meta(
            description="Yarn for a swatch of 10 cm by 10 cm, or 4 in by 4 in, by the highest estimate: `to_buy` is "
            "without it. Null without a gauge."
        ),
    ] = None
    colours: Annotated[
        tuple[ColourYarn, ...],
        Meta(description="Each colour, in the order in which they come in; empty for a hat in one."),
    ] = ()
    fineness: Annotated[
        Fineness | None, Meta(description="Fineness of one strand; null when the label does not say.")
    ] = None
    yarn_weights: Annotated[
        tuple[YarnWeight, ...],
        Meta(
            description="Weight class of the yarn: by its own length to mass where the label says them, else by the "
            "gauge. Two where it lies in both or between them; none where neither is known."
        ),
    ] = ()
    printed: Annotated[
        tuple[PrintedYarn, ...],
        Meta(
            description="For comparison: what a printed table recommends to buy for one hat in the yarn classes of "
            "the gauge, two to three times what a hat uses."
        ),
    ] = ()
    sizes: Annotated[tuple[SizeYarn, ...], Meta(description="Each size, for a request about hats.")] = ()
    order: Annotated[
        YarnOrder | None, Meta(description="Yarn for every maker, for a request about hats.")
    ] = None
    to_buy_instead: Annotated[
        Purchase | None,
        Meta(description="The same in balls of `other_yarn`; null where the request has none."),
    ] = None
    order_instead: Annotated[
        YarnOrder | None,
        Meta(description="The order in balls of `other_yarn`; null without it, and without hats."),
    ] = None
    rules: RulesVersion = RULES
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()


@lru_cache(maxsize=64)  # as many as crowns are kept
def estimate(
    segments: tuple[WorkSegment, ...],
    fabric: Fabric,
    units: UnitSystem,
    margin_percent: float = DEFAULT_MARGIN,
    *,
    is_hat: bool = False,
) -> YarnEstimate:
    """Yarn in the segments, part by part, what to buy for them, and for a hat what a printed table recommends.

    Raises `Impossible` for work without a stitch, and for more balls than anybody could buy.
    """
    stitches = stitches_in(segments)
    if not stitches:
        raise Impossible(say("yarn.no_stitch"), code="not_given", nearest=say("yarn.one_stitch"))
    used = yarn_used(segments, fabric.per_stitch)
    tex = fabric.strand.tex
    colours = _colours(segments, fabric, units, margin_percent)
    printed = _printed(fabric.gauge, units) if is_hat and fabric.gauge else ()
    printed_basis = (PRINTED_BASIS,) if printed else ()
    return YarnEstimate(
        stitches=stitches,
        per_stitch=_per_stitch(fabric.per_stitch, units),
        used=yarn_span(used, units),
        parts=_parts(segments, fabric.per_stitch, units),
        to_buy=all_colours(used, [colour.to_buy for colour in colours], fabric, units, margin_percent),
        swatch=None if fabric.gauge is None else _swatch(fabric.gauge, fabric.per_stitch, units),
        colours=colours,
        fineness=None if tex is None else fineness(tex),
        yarn_weights=fabric.weights,
        printed=printed,
        basis=(*fabric.basis, *segment_basis(segments), BUY_BASIS, *printed_basis),
        warnings=fabric.warnings,
    )


def _swatch(gauge: Gauge, per_stitch: YarnRange, units: UnitSystem) -> YarnAmount:
    """Yarn for the smallest swatch that can be measured."""
    side_mm = mm(swatch_side(units))
    stitches = side_mm**2 / (stitch_width_mm(gauge) * row_height_mm(gauge))
    return yarn_amount(per_stitch.high.times(stitches), units)


def swatch_side(units: UnitSystem) -> Length:
    """Side of the smallest swatch that can be measured: 10 cm, or 4 in, as gauges are counted."""
    return Length(4, "in") if units == "imperial" else Length(reference.practices()["swatch"].low, "cm")


def _colours(
    segments: tuple[WorkSegment, ...], fabric: Fabric, units: UnitSystem, margin_percent: float
) -> tuple[ColourYarn, ...]:
    by_colour = {colour: in_colour(segments, colour) for colour in colours_of(segments)}
    used = {colour: yarn_used(worked, fabric.per_stitch) for colour, worked in by_colour.items()}
    return tuple(
        ColourYarn(
            colour=colour,
            stitches=stitches_in(worked),
            used=yarn_span(used[colour], units),
            to_buy=purchase(used[colour], fabric, units, margin_percent),
        )
        for colour, worked in by_colour.items()
    )


@lru_cache(maxsize=64)  # one gauge for all sizes
def _printed(gauge: Gauge, units: UnitSystem) -> tuple[PrintedYarn, ...]:
    classes = {yarn_class.number for yarn_class in yarn_weights_of(gauge)}
    return tuple(
        PrintedYarn(
            number=row.number,
            name=row.name,
            least=yarn_length(row.yards_min * mm_in("yd"), units),
            most=yarn_length(row.yards_max * mm_in("yd"), units),
        )
        for row in reference.buying()
        if row.number in classes
    )


def _parts(
    segments: tuple[WorkSegment, ...], per_stitch: YarnRange, units: UnitSystem
) -> tuple[YarnPart, ...]:
    """Yarn in each part, in the order the parts are worked."""
    by_part: dict[YarnPartName, list[WorkSegment]] = {}
    for segment in segments:
        if segment.stitches_worked:
            by_part.setdefault(segment.part, []).append(segment)
    return tuple(
        YarnPart(
            part=part, stitches=stitches_in(in_part), used=yarn_span(yarn_used(in_part, per_stitch), units)
        )
        for part, in_part in by_part.items()
    )


@lru_cache(maxsize=64)  # one yarn at one gauge for all sizes
def _per_stitch(per_stitch: YarnRange, units: UnitSystem) -> StitchYarn | None:
    unit: LengthUnit = "in" if units == "imperial" else "cm"
    lengths = [
        YarnLength(tidy(quantity.mm / mm_in(unit)), unit)
        for quantity in per_stitch
        if quantity.mm is not None
    ]
    if not lengths:
        return None
    low, expected, high = lengths
    return StitchYarn(low=low, expected=expected, high=high)
