"""Quantities with their units, and gauge.

Inside the service, lengths are millimetres, masses grams and yarn counts tex, as plain floats whose names say so. A
quantity carries its unit only on the wire. The factors come from pint, each once.
"""

from math import floor
from typing import Annotated, Final, Literal

from msgspec import Meta, Struct

from roundwright.knitting.answers import Basis, Impossible, Notice
from roundwright.language import Message, say
from roundwright.reference.units import factor

LengthUnit = Literal["mm", "cm", "m", "in", "yd"]
MassUnit = Literal["g", "kg", "oz", "lb"]
CountUnit = Literal["tex", "dtex", "denier", "nm", "ne", "worsted"]
UnitSystem = Literal["metric", "imperial"]

SMALLEST_QUANTITY: Final = 0.001
"""A thousandth of any unit: finer than any ruler or scale of a knitter."""
LARGEST_QUANTITY: Final = 1_000_000.0
"""A million of any unit: more than any order of yarn."""
LARGEST_GAUGE_COUNT: Final = 1_000.0
"""Stitches or rows counted on one swatch: nobody counts a thousand."""
NARROWEST_STITCH_MM: Final = 0.4
"""25 stitches in a centimetre: finer than the finest machine-knit hosiery."""
WIDEST_STITCH_MM: Final = 100.0
"""One stitch in 10 cm: wider than arm knitting."""
THINNEST_NEEDLE_MM: Final = 0.5
"""Steel wire for lace and dolls."""
THICKEST_NEEDLE_MM: Final = 100.0
"""Arm knitting; needles are sold to 25 mm."""

RELAXED_SHAPE: Final = 5.5 / 4.2
"""Rows for each stitch in fully relaxed plain knit: kc / kw = 5.5 / 4.2 (GATE Textile 2015, question 54)."""


class Length(Struct, frozen=True, forbid_unknown_fields=True):
    """A length with its unit."""

    value: Annotated[
        float,
        Meta(ge=SMALLEST_QUANTITY, le=LARGEST_QUANTITY, description="Number of units.", examples=[55.5]),
    ]
    unit: Annotated[LengthUnit, Meta(description="Unit of the length.")]


class Difference(Struct, frozen=True, forbid_unknown_fields=True):
    """A difference of two lengths with its unit; negative means smaller."""

    value: Annotated[float, Meta(ge=-LARGEST_QUANTITY, le=LARGEST_QUANTITY, description="Number of units.")]
    unit: Annotated[LengthUnit, Meta(description="Unit of the difference.")]


class Mass(Struct, frozen=True, forbid_unknown_fields=True):
    """A mass with its unit."""

    value: Annotated[
        float,
        Meta(ge=SMALLEST_QUANTITY, le=LARGEST_QUANTITY, description="Number of units.", examples=[50]),
    ]
    unit: Annotated[MassUnit, Meta(description="Unit of the mass.")]


class YarnCount(Struct, frozen=True, forbid_unknown_fields=True):
    """The fineness of a yarn in one of the standard systems (ISO 1144, ISO 2947)."""

    value: Annotated[
        float, Meta(ge=SMALLEST_QUANTITY, le=LARGEST_QUANTITY, description="The count.", examples=[500])
    ]
    unit: Annotated[CountUnit, Meta(description="The system the count is in.")]


TEN_CM: Final = Length(10.0, "cm")


class Gauge(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Stitches and rows counted over a length of the washed swatch (tension, in UK terms)."""

    stitches: Annotated[
        float,
        Meta(
            ge=0.1,
            le=LARGEST_GAUGE_COUNT,
            description="Stitches counted across `over`; halves are allowed.",
            examples=[22],
        ),
    ]
    rows: Annotated[
        Annotated[float, Meta(ge=0.1, le=LARGEST_GAUGE_COUNT)] | None,
        Meta(
            description="Rows (rounds) counted along `over`. Left out: taken as 1.31 for each stitch, relaxed plain "
            "knit, with a warning where rows matter.",
        ),
    ] = None
    over: Annotated[Length, Meta(description="Length the counts were made over. Default 10 cm.")] = TEN_CM


def system_of(unit: LengthUnit) -> UnitSystem:
    """The units that a unit of length belongs to."""
    return "imperial" if unit in ("in", "yd") else "metric"


def mm_in(unit: LengthUnit) -> float:
    """Millimetres in a unit of length."""
    return factor(unit, "mm")


def g_in(unit: MassUnit) -> float:
    """Grams in a unit of mass."""
    return factor(unit, "g")


def mm(length: Length | Difference) -> float:
    """The length in millimetres."""
    return length.value * mm_in(length.unit)


def g(mass: Mass) -> float:
    """The mass in grams."""
    return mass.value * g_in(mass.unit)


def quantity_text(quantity: Length | Difference | Mass, digits: int = 6) -> Message:
    """A quantity as a text, such as `55.5 cm`, to so many significant digits."""
    return say(f"quantity.{quantity.unit}", value=tidy(quantity.value, digits))


def range_text(low: Length, high: Length, digits: int = 6) -> Message:
    """A range of lengths as a text, such as `15 to 20 cm`, in the unit of the longer."""
    return say(f"range.{high.unit}", low=tidy(low.value, digits), high=tidy(high.value, digits))


def tidy(value: float, digits: int = 6) -> float:
    """The value to `digits` significant digits, so that an answer reads 4.54545 and not 4.545454545454546."""
    # A constant format for the usual number of digits: composing one for each number takes a third longer.
    return float(f"{value:.6g}" if digits == 6 else f"{value:.{digits}g}")


def length(millimetres: float, units: UnitSystem) -> Length:
    """Millimetres as a garment length: centimetres or inches."""
    unit: LengthUnit = "in" if units == "imperial" else "cm"
    return Length(tidy(millimetres / mm_in(unit)), unit)


def on_a_tape(length: Length) -> float:
    """A length as a tape is read: the nearest half centimetre or quarter inch (common practice)."""
    parts = 4 if length.unit == "in" else 2
    return floor(length.value * parts + 0.5) / parts


def difference(millimetres: float, units: UnitSystem) -> Difference:
    """Millimetres as a difference of garment lengths: centimetres or inches."""
    unit: LengthUnit = "in" if units == "imperial" else "cm"
    return Difference(tidy(millimetres / mm_in(unit)), unit)


def yarn_length(millimetres: float, units: UnitSystem) -> Length:
    """Millimetres as a length of yarn: metres or yards."""
    unit: LengthUnit = "yd" if units == "imperial" else "m"
    return Length(tidy(millimetres / mm_in(unit)), unit)


def stitch_width_mm(gauge: Gauge, pointer: str = "#/gauge") -> float:
    """Width of one stitch in millimetres.

    Raises `Impossible` where the stitch would be narrower or wider than anything knitted.
    """
    width_mm = mm(gauge.over) / gauge.stitches
    _check_size(width_mm, f"{pointer}/stitches", "stitches")
    return width_mm


def row_height_mm(gauge: Gauge, pointer: str = "#/gauge") -> float:
    """Height of one row in millimetres; without a row count, that of relaxed plain knit (`RELAXED_SHAPE`).

    Raises `Impossible` where the row would be lower or higher than anything knitted.
    """
    rows = gauge.stitches * RELAXED_SHAPE if gauge.rows is None else gauge.rows
    height_mm = mm(gauge.over) / rows
    _check_size(height_mm, f"{pointer}/rows" if gauge.rows is not None else f"{pointer}/stitches", "rows")
    return height_mm


def _check_size(size_mm: float, pointer: str, what: str) -> None:
    if NARROWEST_STITCH_MM <= size_mm <= WIDEST_STITCH_MM:
        return
    in_10_cm = 100.0 / size_mm
    bound = 100.0 / (NARROWEST_STITCH_MM if size_mm < NARROWEST_STITCH_MM else WIDEST_STITCH_MM)
    raise Impossible(
        say(f"gauge.cannot_be_knitted.{what}", count_in_10_cm=in_10_cm),
        code="out_of_range",
        pointer=pointer,
        nearest=say(f"gauge.nearest.{what}", count_in_10_cm=bound),
    )


def rows_assumed(gauge: Gauge, pointer: str = "#/gauge") -> tuple[Notice, ...]:
    """The warning that goes with `row_height_mm` where the gauge has no row count."""
    if gauge.rows is not None:
        return ()
    return (
        Notice(
            code="rows_assumed",
            message=say("gauge.rows_assumed", rows=gauge.stitches * RELAXED_SHAPE, stitches=gauge.stitches),
            pointer=f"{pointer}/rows",
        ),
    )


SHAPE_BASIS: Final = Basis(
    say("gauge.shape_basis"),
    "Munden, J. Text. Inst. 50 (1959) T448; constants as in GATE Textile 2015, question 54",
)
