"""Needle size: which needle to knit the next swatch on, by a rule of thumb."""

from math import ceil, floor
from typing import Annotated, Final, Literal

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.gauge.convert import NeedleSize
from roundwright.knitting.quantities import (
    TEN_CM,
    THICKEST_NEEDLE_MM,
    THINNEST_NEEDLE_MM,
    Length,
    UnitSystem,
    mm,
    quantity_text,
    tidy,
)
from roundwright.language import say, say_count

SAME_STITCHES: Final = 0.5
"""Stitches in 10 cm by which two swatches of one knitter differ (common practice): no reason to change the needle."""
OTHER_YARN_STITCHES: Final = 4.0
"""Stitches in 10 cm beyond which another needle makes another fabric (common practice): the width of a yarn class."""

FOUR_IN: Final = Length(4.0, "in")

NEEDLE_BASIS: Final = Basis(
    say("needle.basis"),
    COMMON_PRACTICE,
)

NeedleMm = Annotated[float, Meta(ge=THINNEST_NEEDLE_MM, le=THICKEST_NEEDLE_MM)]


class NeedleAdvice(Struct, frozen=True, kw_only=True):
    """Which way to change the needle, and about how far: a rule of thumb. A new swatch decides."""

    change: Annotated[Literal["larger", "smaller", "same"], Meta(description="Which needle to try next.")]
    sizes_low: Annotated[int, Meta(description="Least number of sizes, roughly.")]
    sizes_high: Annotated[int, Meta(description="Greatest number of sizes, roughly.")]
    next: Annotated[
        NeedleSize | None,
        Meta(description="The needle to swatch on next; null without `needle_mm` or where none is sold."),
    ]
    message: Annotated[str, Meta(description="The same in a sentence.")]


def more_stitches(width_mm: float, pattern_mm: float) -> float:
    """Stitches in 10 cm at `width_mm` less those at `pattern_mm`, both widths of a stitch."""
    return tidy(100.0 / width_mm - 100.0 / pattern_mm, 9)


def keep_needle(message: str) -> NeedleAdvice:
    """The advice to keep the needle, for the reason that the message has."""
    return NeedleAdvice(change="same", sizes_low=0, sizes_high=0, next=None, message=message)


def advise(width_mm: float, pattern_mm: float, needle_mm: float | None, units: UnitSystem) -> NeedleAdvice:
    """Which way to change the needle for stitches as wide as the pattern's, and about how far."""
    more = more_stitches(width_mm, pattern_mm)
    if abs(more) < SAME_STITCHES:
        return keep_needle(say("needle.keep"))
    rule = reference.practices()["needle-size"]
    least, most = max(1, floor(abs(more) / (rule.high or rule.low))), ceil(abs(more) / rule.low)
    over = FOUR_IN if units == "imperial" else TEN_CM
    change: Literal["larger", "smaller"] = "larger" if more > 0 else "smaller"
    if abs(more) > OTHER_YARN_STITCHES:
        advice = say("needle.other_yarn")
    else:
        sizes = str(least) if least == most else say("needle.sizes", least=least, most=most)
        advice = say_count(f"needle.try.{change}", most, sizes=sizes)
    return NeedleAdvice(
        change=change,
        sizes_low=least,
        sizes_high=most,
        next=None if needle_mm is None else _next(needle_mm, least if more > 0 else -least),
        message=say(
            "needle.more" if more > 0 else "needle.fewer",
            stitches=abs(more) * mm(over) / mm(TEN_CM),
            over=quantity_text(over),
            advice=advice,
        ),
    )


def _next(needle_mm: float, sizes: int) -> NeedleSize | None:
    """The needle `sizes` sizes larger (negative: smaller), of those with a US number; None where none is sold."""
    sold = [size for size in reference.needle_sizes() if size.us]
    if sizes > 0:
        further = [size for size in sold if size.mm > needle_mm]
    else:
        further = [size for size in reversed(sold) if size.mm < needle_mm]
    if len(further) < abs(sizes):
        return None
    size = further[abs(sizes) - 1]
    return NeedleSize(size.mm, size.us, size.uk, size.jp)
