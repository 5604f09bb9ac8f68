"""The crown as a surface of revolution: how it lies, how deep it is, how round.

A round of circumference C, at the distance s from the tip along the fabric, lies on the radius C / 2π. From one round
to the next the radius cannot change by more than the length of fabric between them. Where it should change by less, the
crown rises; where it should change by more, the surplus gathers.

The circumference of a round is taken in the middle of its height; the tops of the last round are drawn up at the tip. A
square is treated in the same way: its radius is the distance from the centre to the middle of a side, with 8 for 2π.
"""

from collections.abc import Callable, Sequence
from math import floor, pi, sin, sqrt
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import Basis
from roundwright.knitting.quantities import (
    Difference,
    Length,
    LengthUnit,
    UnitSystem,
    difference,
    length,
    mm_in,
    tidy,
)
from roundwright.language import Message, say

FLAT_WITHIN: Final = 0.05
"""A crown within 5 % of flat is blocked flat."""
FLAT_WITHIN_ROUNDS: Final = 0.6
"""In row heights. Whole rounds and whole stitches come no nearer to flat than half a round and half a stitch."""

DISC_SLOPE: Final = 2 * pi
"""Circumference of a flat disc for each unit of its radius."""

Lie = Literal["domed", "flat", "gathered"]


class ProfilePoint(Struct, frozen=True):
    """A point of the crown's outline."""

    along: Annotated[float, Meta(description="Distance from the tip along the fabric.")]
    radius: Annotated[float, Meta(description="Distance from the axis.")]
    height: Annotated[float, Meta(description="Height above the start of the crown.")]


class CrownProfile(Struct, frozen=True, kw_only=True):
    """The outline of the crown, from its start to its tip."""

    unit: Annotated[LengthUnit, Meta(description="Unit of everything in the profile.")]
    points: Annotated[
        tuple[ProfilePoint, ...],
        Meta(description="The start of the crown, the middle of each round, and the tip, in this order."),
    ]


class CrownGeometry(Struct, frozen=True, kw_only=True):
    """The crown as a surface of revolution."""

    lies: Annotated[
        Lie,
        Meta(description="`domed`: `slope` below `flat_slope`; `flat`: near it; `gathered`: above it."),
    ]
    slope: Annotated[
        float,
        Meta(description="Circumference lost for each unit of length along the fabric, |dC/ds|, on average."),
    ]
    flat_slope: Annotated[float, Meta(description="The slope that lies flat: 2π, or 8 for a square.")]
    fullness_percent: Annotated[
        float,
        Meta(
            description="How much longer the edge of the crown is than the circle it can lie on; the surplus gathers."
        ),
    ]
    fabric: Annotated[Length, Meta(description="From the start of the crown to the tip, along the fabric.")]
    depth: Annotated[
        Difference, Meta(description="Finished depth: how high the tip is above the start of the crown.")
    ]
    hemisphere_radius: Annotated[
        Length, Meta(description="Radius R of the hemisphere on the stitches before it.")
    ]
    hemisphere_rms: Annotated[
        Difference,
        Meta(
            description="Root mean square, over the rounds, of the difference between the radius of a round and that "
            "of the hemisphere, R sin(s/R), at its distance s from the tip."
        ),
    ]
    hemisphere_rms_percent: Annotated[float, Meta(description="The same as a percentage of R.")]
    profile: Annotated[CrownProfile, Meta(description="The outline.")]
    text: Annotated[str, Meta(description="The same in words.")]


class Surface(NamedTuple):
    """The measurements of a crown; lists have one entry a round, first to last."""

    along_mm: Sequence[float]  # from the tip to the middle of the round, along the fabric
    radius_mm: Sequence[float]  # of a circle of its stitches
    fabric_mm: float  # from the start of the crown to the tip
    edge_radius_mm: float  # at the start of the crown: the mean of the round before it and its first
    body_radius_mm: float  # of a circle of the stitches before the crown
    row_height_mm: float


GEOMETRY_BASIS: Final = Basis(
    say("geometry.basis"),
    "published: circumference doubles when radius doubles (Knitter's Almanac, 1974); differential geometry",
)


def surface(
    stitches: int, counts: Sequence[int], width_mm: float, height_mm: float, flat_slope: float
) -> Surface:
    """The measurements of a crown on `stitches` whose rounds leave `counts`. Needs at least one round."""
    rounds, unit = len(counts), width_mm / flat_slope
    return Surface(
        along_mm=[height_mm * (rounds - number - 0.5) for number in range(rounds)],
        radius_mm=[unit * count for count in counts],
        fabric_mm=height_mm * rounds,
        edge_radius_mm=unit * (stitches + counts[0]) / 2,
        body_radius_mm=unit * stitches,
        row_height_mm=height_mm,
    )


def rms_from(crown: Surface, curve: Callable[[float], float]) -> float:
    """Root mean square of the radius of a round less `curve` at its distance from the tip, in mm."""
    squares = [
        (radius - curve(along)) ** 2 for along, radius in zip(crown.along_mm, crown.radius_mm, strict=True)
    ]
    return sqrt(sum(squares) / len(squares))


def hemisphere(radius: float) -> Callable[[float], float]:
    """The radius of a hemisphere and the tube below it, by the distance from its pole."""
    quarter = pi / 2 * radius
    return lambda along: radius * sin(along / radius) if along < quarter else radius


def lie_of(crown: Surface) -> Lie:
    """Whether the crown is a dome, lies flat or gathers, by its average slope."""
    spare = (
        crown.fabric_mm - crown.edge_radius_mm
    )  # below 0: the radius of the edge is larger than the fabric is long
    if abs(spare) <= max(FLAT_WITHIN * crown.fabric_mm, FLAT_WITHIN_ROUNDS * crown.row_height_mm):
        return "flat"
    return "domed" if spare > 0 else "gathered"


def average_slope(crown: Surface, flat_slope: float) -> float:
    """Circumference lost for each unit of length along the fabric, on average, to four digits."""
    return tidy(flat_slope * crown.edge_radius_mm / crown.fabric_mm, 4)


def geometry(crown: Surface, flat_slope: float, units: UnitSystem) -> CrownGeometry:
    """The shape of the crown in numbers and words."""
    radii, heights = outline(crown, smooth_radii(crown))
    rms = rms_from(crown, hemisphere(crown.body_radius_mm))
    depth, edge = heights[0], radii[0]
    slope, fullness = average_slope(crown, flat_slope), 100 * (crown.edge_radius_mm / edge - 1)
    lies = lie_of(crown)
    return CrownGeometry(
        lies=lies,
        slope=slope,
        flat_slope=tidy(flat_slope, 4),
        fullness_percent=round(fullness, 1),
        fabric=length(crown.fabric_mm, units),
        depth=difference(depth, units),
        hemisphere_radius=length(crown.body_radius_mm, units),
        hemisphere_rms=difference(rms, units),
        hemisphere_rms_percent=round(100 * rms / crown.body_radius_mm, 2),
        profile=_profile(crown, radii, heights, units),
        text=_words(lies, slope, flat_slope, fullness),
    )


def outline(crown: Surface, smooth: Sequence[float]) -> tuple[list[float], list[float]]:
    """Radii and depths below the tip that the fabric allows, in mm: the start of the crown, each round, the tip.

    `smooth` are its `smooth_radii`.
    """
    radius = last_along = depth = 0.0
    radii, depths = [radius], [depth]
    for along, wanted_radius in zip([*reversed(crown.along_mm), crown.fabric_mm], smooth, strict=True):
        step, change = along - last_along, wanted_radius - radius
        if change < step:
            depth += sqrt(step * step - change * change)
            radius = wanted_radius
        else:
            radius += step
        last_along = along
        radii.append(radius)
        depths.append(depth)
    radii.reverse()
    depths.reverse()
    return radii, depths


def smooth_radii(crown: Surface) -> list[float]:
    """The radii of the stitches, from the last round to the start of the crown, without the steps at decrease rounds.

    Fabric does not fold at a decrease round: the radius runs straight from the middle of a group of rounds with one
    count to the middle of the next group. Before the first group, as many rounds of the body are assumed.
    """
    stepped = crown.radius_mm[::-1]
    rounds, end = len(stepped), 0
    radii: list[float] = []
    middle, radius, slope = -1.0, stepped[0], 0.0
    while end < rounds:
        group_radius, start = stepped[end], end
        while end < rounds and stepped[end] == group_radius:
            end += 1
        group_middle = (start + end - 1) / 2
        slope = (group_radius - radius) / (group_middle - middle)
        radii += [radius + slope * (index - middle) for index in range(len(radii), floor(group_middle) + 1)]
        middle, radius = group_middle, group_radius
    slope = (crown.body_radius_mm - radius) / (end - start)
    radii += [radius + slope * (index - middle) for index in range(len(radii), rounds)]
    return [*radii, crown.edge_radius_mm]


def _profile(crown: Surface, radii: list[float], depths: list[float], units: UnitSystem) -> CrownProfile:
    unit: LengthUnit = "in" if units == "imperial" else "cm"
    factor, depth = 1 / mm_in(unit), depths[0]
    points = [
        ProfilePoint(round(factor * along, 4), round(factor * radius, 4), round(factor * (depth - below), 4))
        for along, radius, below in zip([crown.fabric_mm, *crown.along_mm, 0.0], radii, depths, strict=True)
    ]
    return CrownProfile(unit=unit, points=tuple(points))


def _words(lies: Lie, slope: float, flat_slope: float, fullness: float) -> Message:
    flat = say("geometry.disc" if flat_slope == DISC_SLOPE else "geometry.other", slope=flat_slope)
    return say(f"geometry.{lies}", slope=slope, flat=flat, fullness=fullness)
