"""Depth: how deep a hat is, from its edge to the top of the crown: to where its kind is worn, or by rules in print."""

from functools import cache
from math import isclose, pi, sqrt
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

from roundwright import reference
from roundwright.knitting.answers import Basis
from roundwright.knitting.sizing.head_references import (
    CM_MM,
    INCH_MM,
)
from roundwright.language import Message, joined, say

USUAL_SILHOUETTE: Final = "beanie"
BABY_HEAD_MM: Final = 460.0
"""A baby's head: up to 12 months, the median of boys (WHO)."""

EAR_ARC: Final = 0.32
"""From the crown along the scalp to the ear canal, over the circumference of the head: vertex to tragion is 0.228 of it
at every age (Snyder et al. 1977; ANSUR II 2012; arithmetic on a sphere)."""

if TYPE_CHECKING:
    SilhouetteName = str
else:  # from the table, so that a silhouette is added in one place
    SilhouetteName = Literal[tuple(reference.silhouettes())]


class Depth(NamedTuple):
    """The depth of a hat from its edge to the top of the crown, along the fabric, and the range of all rules."""

    mm: float
    low_mm: float
    high_mm: float
    basis: Basis


def depth(
    head_mm: float, hat_circumference_mm: float, silhouette: SilhouetteName = USUAL_SILHOUETTE
) -> Depth:
    """Depth of a hat of a silhouette, with the least and the greatest depth by any rule in print.

    To where a hat of its kind is worn on the head; a baby's by a rule in print.
    """
    ranges = {}
    for name, row in reference.depth_rules().items():
        unit_mm = INCH_MM if row.plus_unit == "in" else CM_MM
        base_mm = hat_circumference_mm if row.of == "hat" else head_mm
        ranges[name] = (
            base_mm * row.share + row.plus_min * unit_mm,
            base_mm * row.share + row.plus_max * unit_mm,
        )
    kind = reference.silhouettes()[silhouette]
    baby_rule = kind.baby_rule if head_mm <= BABY_HEAD_MM else None
    return Depth(
        kind.head_share * head_mm if baby_rule is None else sum(ranges[baby_rule]) / 2,
        min(low for low, _ in ranges.values()),
        max(high for _, high in ranges.values()),
        _silhouette_basis(silhouette) if baby_rule is None else _rule_basis(baby_rule),
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
def _silhouette_basis(silhouette: str) -> Basis:
    row = reference.silhouettes()[silhouette]
    return Basis(
        say(
            "depth.by_silhouette",
            share=row.head_share,
            silhouette=say(f"depth.silhouette.{row.name}"),
            all_rules=_all_rules(),
        ),
        reference.cite("silhouettes", row),
    )


@cache
def _rule_basis(name: str) -> Basis:
    row = reference.depth_rules()[name]
    plus = (row.plus_min + row.plus_max) / 2
    share = say(f"depth.share.{row.of}", share=_share_in_words(row.share))
    rule = say(f"depth.and.{row.plus_unit}", share=share, plus=plus) if plus else share
    return Basis(say("depth.by_rule", rule=rule, all_rules=_all_rules()), reference.cite("depth", row))


def _all_rules() -> Message:
    return say(
        "depth.all_rules",
        rules=joined("list.semicolon", *(say(f"depth.rule.{name}") for name in reference.depth_rules())),
    )


def _share_in_words(share: float) -> Message:
    parts = next((parts for parts in (2, 3, 4, 5) if isclose(share, 1 / parts)), "number")
    return say(f"depth.part.{parts}", share=share)
