"""Convert a gauge: in 10 cm, 4 in and 1 in, with the yarn classes and needles that usually give it."""

from functools import cache, lru_cache
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Notice, RulesVersion
from roundwright.knitting.quantities import (
    SHAPE_BASIS,
    TEN_CM,
    Gauge,
    Length,
    UnitSystem,
    length,
    mm,
    row_height_mm,
    rows_assumed,
    stitch_width_mm,
    tidy,
)
from roundwright.language import Language, Message, say

TEN_CM_MM: Final = 100.0
FOUR_IN_MM: Final = 101.6
INCH_MM: Final = 25.4

MOST_STITCHES_TO_A_ROW: Final = 1.1
"""Plain knitting has about 1.3 rows to a stitch (Munden 1959), knitted in two colours about one (common practice); more
stitches than rows are two numbers that changed places."""
MOST_OUT_OF_SHAPE: Final = 3.0
"""Rows to a stitch, or stitches to a row, beyond which there is no fabric, and a count was typed wrong (common
practice)."""
USUAL_SHAPES: Final = (0.9, 1.8)
"""Rows to a stitch of most fabrics (common practice)."""
FEWEST_TO_AN_INCH: Final = 2.0
"""Stitches in an inch of the thickest yarns that are counted so (common practice)."""


class ConvertRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A gauge to be converted."""

    gauge: Annotated[Gauge, Meta(description="Gauge of the washed swatch.")]
    units: Annotated[UnitSystem, Meta(description="Units of the lengths in the answer.")] = "metric"
    language: Language = None


class GaugeCount(Struct, frozen=True):
    """Stitches and rows in a length."""

    stitches: Annotated[float, Meta(description="Stitches in that length.")]
    rows: Annotated[float, Meta(description="Rows in that length.")]


class YarnWeight(Struct, frozen=True):
    """A class of the Standard Yarn Weight System."""

    number: Annotated[int, Meta(description="Number of the class, 0 to 7.")]
    name: Annotated[str, Meta(description="Name of the class.")]
    names: Annotated[
        tuple[str, ...],
        Meta(description="Names that yarn of the class is sold under, such as DK, or worsted and aran."),
    ]


class NeedleSize(Struct, frozen=True):
    """A needle size with every label it is sold under."""

    mm: Annotated[float, Meta(description="Diameter in millimetres.")]
    us: Annotated[
        tuple[str, ...], Meta(description="US numbers; makers differ, so there may be several or none.")
    ]
    uk: Annotated[tuple[str, ...], Meta(description="Old UK numbers.")]
    jp: Annotated[tuple[str, ...], Meta(description="Japanese numbers.")]


class ConvertAnswer(Struct, frozen=True, kw_only=True):
    """A gauge in every way the trade states it."""

    per_10_cm: Annotated[GaugeCount, Meta(description="Stitches and rows in 10 cm.")]
    per_4_in: Annotated[GaugeCount, Meta(description="Stitches and rows in 4 in (10.16 cm).")]
    per_inch: Annotated[GaugeCount, Meta(description="Stitches and rows in 1 in.")]
    stitch_width: Annotated[Length, Meta(description="Width of one stitch.")]
    row_height: Annotated[Length, Meta(description="Height of one row.")]
    yarn_weights: Annotated[
        tuple[YarnWeight, ...],
        Meta(
            description="Every class whose published range the gauge falls in; of a gauge between two classes both, "
            "with a warning, and of a gauge beyond all of them the last."
        ),
    ]
    needles: Annotated[
        tuple[NeedleSize, ...],
        Meta(description="Needles usual for those classes. A size to start a swatch with, not a rule."),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


CONVERT_BASIS: Final = (
    Basis(say("gauge.inch_basis"), "International yard and pound agreement, 1959"),
    Basis(say("gauge.class_basis"), "Craft Yarn Council, Standard Yarn Weight System"),
    Basis(say("gauge.needle_numbers_basis"), "at least five general charts, by millimetres"),
    Basis(say("gauge.first_needle_basis"), COMMON_PRACTICE),
)


def convert(request: ConvertRequest) -> ConvertAnswer:
    """Convert a gauge to 10 cm, 4 in and 1 in, and name the yarn classes and needles it belongs to.

    The published classes are compared with both 4 in and 10 cm, since the table prints the two lengths as one.
    Raises `Impossible` for stitches or rows that no hand knits.
    """
    gauge = request.gauge
    width_mm = stitch_width_mm(gauge)
    height_mm = row_height_mm(gauge)
    return ConvertAnswer(
        per_10_cm=GaugeCount(tidy(TEN_CM_MM / width_mm), tidy(TEN_CM_MM / height_mm)),
        per_4_in=GaugeCount(tidy(FOUR_IN_MM / width_mm), tidy(FOUR_IN_MM / height_mm)),
        per_inch=GaugeCount(tidy(INCH_MM / width_mm), tidy(INCH_MM / height_mm)),
        stitch_width=length(width_mm, request.units),
        row_height=length(height_mm, request.units),
        yarn_weights=yarn_weights_of(gauge),
        needles=_needles(_weights_near(width_mm)),
        basis=_basis(gauge),
        warnings=unusual_gauge(gauge) + rows_assumed(gauge) + between_classes(gauge),
    )


@cache
def yarn_weight(number: int) -> YarnWeight:
    """The class of that number, with the names that its yarn is sold under."""
    sold_as = {row.number: row.names for row in reference.yarn_lengths()}
    row = reference.yarn_weights()[number]
    return YarnWeight(number, row.name, sold_as.get(number, ()))


def yarn_weights_of(gauge: Gauge) -> tuple[YarnWeight, ...]:
    """The classes of the published table that the gauge falls in; of a gauge between two classes both."""
    return tuple(yarn_weight(row.number) for row in _weights_near(stitch_width_mm(gauge)))


def needle_sizes_of(gauge: Gauge) -> tuple[NeedleSize, ...]:
    """The needles usual for the classes the gauge falls in or lies between, the finest first."""
    return _needles(_weights_near(stitch_width_mm(gauge)))


@cache  # a class, or two beside one another
def _needles(weights: tuple[reference.YarnWeightRow, ...]) -> tuple[NeedleSize, ...]:
    return tuple(
        NeedleSize(size.mm, size.us, size.uk, size.jp)
        for size in reference.needle_sizes()
        if any(_usual(row, size.mm) for row in weights)
    )


@lru_cache(maxsize=64)  # all sizes and parts of an answer have the same gauge
def _weights(width_mm: float) -> tuple[reference.YarnWeightRow, ...]:
    # A whole count in inches, converted to millimetres and back, differs by a rounding error.
    in_10_cm, in_4_in = tidy(TEN_CM_MM / width_mm), tidy(FOUR_IN_MM / width_mm)
    return tuple(
        row for row in reference.yarn_weights() if _in_class(row, in_10_cm) or _in_class(row, in_4_in)
    )


def _in_class(row: reference.YarnWeightRow, count: float) -> bool:
    return (row.stitches_min is None or count >= row.stitches_min) and count <= row.stitches_max


def _usual(row: reference.YarnWeightRow, needle_mm: float) -> bool:
    return row.needle_mm_min <= needle_mm and (row.needle_mm_max is None or needle_mm <= row.needle_mm_max)


def _weights_near(width_mm: float) -> tuple[reference.YarnWeightRow, ...]:
    """The classes the gauge falls in; where there are none, those on either side of it."""
    if weights := _weights(width_mm):
        return weights
    count = TEN_CM_MM / width_mm
    rows = reference.yarn_weights()
    finer = [row for row in rows if row.stitches_min is not None and row.stitches_min > count]
    coarser = [row for row in rows if row.stitches_max < count]
    return (*coarser[:1], *finer[-1:])


def between_classes(gauge: Gauge, pointer: str = "#/gauge") -> tuple[Notice, ...]:
    """The warning for a gauge that no published class has: the classes on either side, or the last one."""
    width_mm = stitch_width_mm(gauge, pointer)
    if _weights(width_mm):
        return ()
    count = TEN_CM_MM / width_mm
    weights = yarn_weights_of(gauge)
    if len(weights) == 2:
        coarser, finer = map(class_text, weights)
        message = say("gauge.between_classes", stitches=count, coarser=coarser, finer=finer)
    else:
        message = say("gauge.no_class", stitches=count, nearest=class_text(weights[0]))
    return (Notice(code="between_yarn_weights", message=message, pointer=f"{pointer}/stitches"),)


def unusual_gauge(gauge: Gauge, pointer: str = "#/gauge") -> tuple[Notice, ...]:
    """The warnings for counts that are hardly those of plain knitting in 10 cm, with what is probably meant."""
    stitches, rows = gauge.stitches, gauge.rows
    likely = likely_gauge(gauge)
    if rows is not None and likely is not None:
        message = say(
            "gauge.mistyped",
            stitches=stitches,
            rows=rows,
            likely_stitches=likely.stitches,
            likely_rows=likely.rows,
        )
        count = "rows" if likely.stitches == stitches else "stitches"
        return (Notice(code="gauge_mistyped", message=message, pointer=f"{pointer}/{count}"),)
    if rows is not None and stitches > MOST_STITCHES_TO_A_ROW * rows:
        message = say("gauge.swapped", stitches=stitches, rows=rows)
        return (Notice(code="gauge_swapped", message=message, pointer=f"{pointer}/rows"),)
    thickest = reference.yarn_weights()[-1].stitches_max
    if gauge.over == TEN_CM and FEWEST_TO_AN_INCH <= stitches <= thickest:
        in_10_cm = stitches * TEN_CM_MM / INCH_MM
        message = say("gauge.per_inch", stitches=stitches, in_10_cm=in_10_cm)
        return (Notice(code="gauge_per_inch", message=message, pointer=f"{pointer}/over"),)
    return ()


def likely_gauge(gauge: Gauge) -> GaugeCount | None:
    """The gauge that was probably meant where a digit or the decimal point of one count is wrong, such as 200 by 28.

    None where the counts may be a fabric's, or where no such slip makes a usual gauge of them.
    """
    stitches, rows = gauge.stitches, gauge.rows
    if rows is None or 1 / MOST_OUT_OF_SHAPE <= rows / stitches <= MOST_OUT_OF_SHAPE:
        return None
    low, high = USUAL_SHAPES
    finest = reference.yarn_weights()[0].stitches_max * mm(gauge.over) / TEN_CM_MM
    meant = [
        GaugeCount(tidy(stitches * times), tidy(rows * other))
        for times, other in ((0.1, 1.0), (10.0, 1.0), (1.0, 0.1), (1.0, 10.0))
    ]
    usual = [count for count in meant if low <= count.rows / count.stitches <= high]
    return min(usual, key=lambda count: (count.stitches > finest, -count.stitches), default=None)


def class_text(weight: YarnWeight) -> Message:
    """The class by the names its yarn is sold under and its number: worsted/aran (4)."""
    return say(f"yarn.class.{weight.number}")


def _basis(gauge: Gauge) -> tuple[Basis, ...]:
    return CONVERT_BASIS if gauge.rows is not None else (*CONVERT_BASIS, SHAPE_BASIS)
