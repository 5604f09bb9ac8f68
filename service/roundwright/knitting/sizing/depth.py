"""Depth: how deep a hat is, from its edge to the top of the crown, by the rules in print."""

from functools import cache
from math import isclose, pi, sqrt
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.knitting.answers import Basis
from roundwright.knitting.sizing.head_references import (
    CM_MM,
    INCH_MM,
)

USUAL_DEPTH: Final = "head-third"
"""The row of the table of depth rules that lies between the others, from a preterm baby's head to a grown-up's."""


class Depth(NamedTuple):
    """The depth of a hat from its edge to the top of the crown, along the fabric, and the range of all rules."""

    mm: float
    low_mm: float
    high_mm: float
    basis: Basis


def depth(head_mm: float, hat_circumference_mm: float) -> Depth:
    """Depth of a hat by the rule `USUAL_DEPTH`, with the least and the greatest depth by any rule in print."""
    ranges = {}
    for name, row in reference.depth_rules().items():
        unit_mm = INCH_MM if row.plus_unit == "in" else CM_MM
        base_mm = hat_circumference_mm if row.of == "hat" else head_mm
        ranges[name] = (
            base_mm * row.share + row.plus_min * unit_mm,
            base_mm * row.share + row.plus_max * unit_mm,
        )
    return Depth(
        sum(ranges[USUAL_DEPTH]) / 2,
        min(low for low, _ in ranges.values()),
        max(high for _, high in ranges.values()),
        _depth_basis(),
    )


def cone_beyond_head_mm(slant_mm: float, circumference_mm: float) -> float:
    """How much more fabric a hat with a conical crown has from its edge to its tip than one with a round top.

    Both are worn equally deep by a head that is a sphere of the hat's radius R. Under a cone of the slant s and the
    height h its centre lies s - h below the start of the crown (its distance from the tip is R / sin of half the angle
    of the tip, and that is s); under a hemisphere the fabric from the pole to the level of the centre is πR/2.
    """
    radius_mm = circumference_mm / (2 * pi)
    if slant_mm <= radius_mm:
        return 0.0
    height_mm = sqrt(slant_mm**2 - radius_mm**2)
    return max(0.0, 2 * slant_mm - height_mm - pi / 2 * radius_mm)


@cache
def _depth_basis() -> Basis:
    row = reference.depth_rules()[USUAL_DEPTH]
    plus = (row.plus_min + row.plus_max) / 2
    rule = f"{_share_in_words(row.share)} of the {row.of}" + (
        f" and {plus:g} {row.plus_unit}" if plus else ""
    )
    all_rules = "; ".join(row.rule for row in reference.depth_rules().values())
    return Basis(
        f"Depth, edge to top: {rule}. Rules in print disagree: {all_rules}.", reference.cite("depth", row)
    )


def _share_in_words(share: float) -> str:
    words = {2: "half", 3: "a third", 4: "a quarter", 5: "a fifth"}
    return next((word for parts, word in words.items() if isclose(share, 1 / parts)), f"{share:.3g}")
