"""Yarn for knitting: what the work uses, part by part, kept apart from what to buy."""

from collections.abc import Iterable
from functools import lru_cache
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.gauge.convert import yarn_weights_of
from roundwright.knitting.quantities import MM_IN, Gauge, LengthUnit, UnitSystem, tidy
from roundwright.knitting.yarn.fabric import Fabric
from roundwright.knitting.yarn.label import DEFAULT_MARGIN, Purchase, YarnLength, yarn_length
from roundwright.knitting.yarn.per_stitch import PartName, Rate, Stretch, YarnSpan, used, work_basis
from roundwright.knitting.yarn.purchase import BUY_BASIS, YarnOrder, to_buy
from roundwright.knitting.yarn.yarn_count import Fineness, fineness

PRINTED_BASIS: Final = Basis(
    "Yards to buy for a hat by yarn class: for comparison, two to three times what a hat uses.",
    "yarn table of a knitting handbook in the series For Dummies",
)


class PrintedYarn(Struct, frozen=True, kw_only=True):
    """What a printed table tells the readers of a book to buy for a hat."""

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

    part: Annotated[PartName, Meta(description="Which part; `all` when it was not told apart.")]
    stitches: Annotated[int, Meta(description="Stitches worked in it.")]
    used: Annotated[YarnSpan, Meta(description="Yarn it takes.")]


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
    printed: Annotated[
        tuple[PrintedYarn, ...],
        Meta(
            description="For comparison: what a printed table says to buy for one hat in the yarn classes of "
            "the gauge, two to three times what a hat uses."
        ),
    ] = ()
    sizes: Annotated[tuple[SizeYarn, ...], Meta(description="Each size, when hats were asked about.")] = ()
    order: Annotated[
        YarnOrder | None, Meta(description="Yarn for every maker, when hats were asked about.")
    ] = None
    rules: RulesVersion = RULES
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()


@lru_cache(maxsize=64)  # as many as crowns are kept
def estimate(
    work: tuple[Stretch, ...],
    by: Fabric,
    units: UnitSystem,
    margin_percent: float = DEFAULT_MARGIN,
    *,
    is_hat: bool = False,
) -> YarnEstimate:
    """Yarn the stretches use, part by part, what to buy for them, and for a hat what a printed table says.

    Raises `Impossible` for work without a stitch, and for more balls than anybody could buy.
    """
    if not any(each.stitches * each.rounds for each in work):
        raise Impossible("No stitch is worked, so no yarn is used.", nearest="one stitch")
    total = used(work, by.rate)
    more = work_basis(work)
    printed = _printed(by.gauge, units) if is_hat and by.gauge else ()
    return YarnEstimate(
        stitches=_stitches(work),
        per_stitch=_per_stitch(by.rate, units),
        used=by.rate.measure.amounts(total, units),
        parts=parts(work, by.rate, units),
        to_buy=to_buy(total, by, units, margin_percent),
        fineness=None if by.strand.tex is None else fineness(by.strand.tex),
        printed=printed,
        basis=(*by.basis, *more, BUY_BASIS, *((PRINTED_BASIS,) if printed else ())),
        warnings=by.warnings,
    )


@lru_cache(maxsize=64)  # one gauge for all sizes
def _printed(gauge: Gauge, units: UnitSystem) -> tuple[PrintedYarn, ...]:
    classes = {each.number for each in yarn_weights_of(gauge)}
    return tuple(
        PrintedYarn(
            number=row.number,
            name=row.name,
            least=yarn_length(row.yards_min * MM_IN["yd"], units),
            most=yarn_length(row.yards_max * MM_IN["yd"], units),
        )
        for row in reference.buying()
        if row.number in classes
    )


def parts(work: tuple[Stretch, ...], rate: Rate, units: UnitSystem) -> tuple[YarnPart, ...]:
    """Yarn in each part, in the order the parts are worked."""
    by_part: dict[PartName, list[Stretch]] = {}
    for each in work:
        if each.stitches * each.rounds:
            by_part.setdefault(each.part, []).append(each)
    return tuple(
        YarnPart(
            part=part, stitches=_stitches(stretch), used=rate.measure.amounts(used(stretch, rate), units)
        )
        for part, stretch in by_part.items()
    )


def _stitches(work: Iterable[Stretch]) -> int:
    return sum(each.stitches * each.rounds for each in work)


@lru_cache(maxsize=64)  # one yarn at one gauge for all sizes
def _per_stitch(rate: Rate, units: UnitSystem) -> StitchYarn | None:
    in_mm = rate.measure.in_mm
    if in_mm is None:
        return None
    unit: LengthUnit = "in" if units == "imperial" else "cm"
    low, expected, high = (YarnLength(tidy(each * in_mm / MM_IN[unit]), unit) for each in rate.span)
    return StitchYarn(low=low, expected=expected, high=high)
