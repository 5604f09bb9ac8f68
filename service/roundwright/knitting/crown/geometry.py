"""The crown as a surface of revolution: how it lies, how deep it is, how round.

A round with C around it, s along the fabric from the tip, lies on the radius C / 2π. Fabric does not stretch along its
rows of stitches: from one round to the next the radius changes by no more than the fabric between them is long. Where
it should change by less than that, the crown rises; where it should change by more, what is left over gathers.

The count of a round is taken in the middle of its height; the heads of the last round are drawn up in the tip. A
square is treated alike, with the distance from its centre to the middle of a side for radius and 8 in place of 2π.
"""

from collections.abc import Callable, Sequence
from math import floor, pi, sin, sqrt
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import Basis
from roundwright.knitting.quantities import (
    MM_IN,
    Difference,
    Length,
    LengthUnit,
    UnitSystem,
    difference,
    length,
    tidy,
)

FLAT_WITHIN: Final = 0.05
"""A crown within 5 % of flat is blocked flat."""
FLAT_WITHIN_ROUNDS: Final = 0.6
"""Half a round and half a stitch: no count of rounds and stitches comes nearer."""

TURN: Final = 2 * pi
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
            description="How much longer the edge of the crown is than where it can lie; what is left over gathers."
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
    """A crown measured, in mm: one entry a round, first to last."""

    along: Sequence[float]  # distance of the middle of the round from the tip
    radius: Sequence[float]  # that its stitches ask for
    fabric: float  # from the start of the crown to the tip
    edge_radius: float  # asked for by the start of the crown, between the round before it and its first
    body_radius: float  # of the stitches before the crown
    row_height: float


GEOMETRY_BASIS: Final = Basis(
    "Surface of revolution: |dC/ds| below 2π closes as a dome or cone, 2π lies flat, above 2π gathers.",
    "published: circumference doubles when radius doubles (Knitter's Almanac, 1974); differential geometry",
)


def surface(stitches: int, counts: Sequence[int], width_mm: float, height_mm: float, turn: float) -> Surface:
    """A crown on `stitches`, whose rounds leave `counts`, measured. Needs at least one round."""
    rounds, unit = len(counts), width_mm / turn
    return Surface(
        along=[height_mm * (rounds - number - 0.5) for number in range(rounds)],
        radius=[unit * count for count in counts],
        fabric=height_mm * rounds,
        edge_radius=unit * (stitches + counts[0]) / 2,
        body_radius=unit * stitches,
        row_height=height_mm,
    )


def rms_from(crown: Surface, curve: Callable[[float], float]) -> float:
    """Root mean square of the differences between the rounds' radii and `curve` of their distance from the tip, mm."""
    squares = [(radius - curve(along)) ** 2 for along, radius in zip(crown.along, crown.radius, strict=True)]
    return sqrt(sum(squares) / len(squares))


def hemisphere(radius: float) -> Callable[[float], float]:
    """The radius of a hemisphere and the tube below it, by the distance from its pole."""
    quarter = pi / 2 * radius
    return lambda along: radius * sin(along / radius) if along < quarter else radius


def lie(crown: Surface) -> Lie:
    """Whether the crown is a dome, lies flat or gathers, by its average slope."""
    short = crown.fabric - crown.edge_radius  # below 0: the edge asks for more radius than there is fabric
    if abs(short) <= max(FLAT_WITHIN * crown.fabric, FLAT_WITHIN_ROUNDS * crown.row_height):
        return "flat"
    return "domed" if short > 0 else "gathered"


def geometry(crown: Surface, turn: float, units: UnitSystem) -> CrownGeometry:
    """The measured crown in words and numbers."""
    radii, heights = outline(crown)
    rms, whole = rms_from(crown, hemisphere(crown.body_radius)), crown.body_radius
    depth, edge = heights[0], radii[0]
    slope, fullness = tidy(turn * crown.edge_radius / crown.fabric, 4), 100 * (crown.edge_radius / edge - 1)
    lies = lie(crown)
    return CrownGeometry(
        lies=lies,
        slope=slope,
        flat_slope=tidy(turn, 4),
        fullness_percent=round(fullness, 1),
        fabric=length(crown.fabric, units),
        depth=difference(depth, units),
        hemisphere_radius=length(whole, units),
        hemisphere_rms=difference(rms, units),
        hemisphere_rms_percent=round(100 * rms / whole, 2),
        profile=_profile(crown, radii, heights, units),
        text=_words(lies, slope, turn, fullness),
    )


def outline(crown: Surface) -> tuple[list[float], list[float]]:
    """Radius and distance below the tip of the start of the crown, each round and the tip, as the fabric allows, mm."""
    radius = at = below = 0.0
    radii, depths = [radius], [below]
    for along, asked in zip([*reversed(crown.along), crown.fabric], evened(crown), strict=True):
        step, change = along - at, asked - radius
        if change < step:
            below += sqrt(step * step - change * change)
            radius = asked
        else:
            radius += step
        at = along
        radii.append(radius)
        depths.append(below)
    radii.reverse()
    depths.reverse()
    return radii, depths


def evened(crown: Surface) -> list[float]:
    """The radii asked for, from the last round to the start of the crown, without the stairs plain rounds make of them.

    Fabric does not fold at a decrease round: the radius runs straight from the middle of the rounds that have the same
    count to the middle of the next such rounds. Before the first, as many rounds are taken to have been the body's.
    """
    asked = crown.radius[::-1]
    rounds, end = len(asked), 0
    radii: list[float] = []
    middle, radius, rise = -1.0, asked[0], 0.0
    while end < rounds:
        level, start = asked[end], end
        while end < rounds and asked[end] == level:
            end += 1
        here = (start + end - 1) / 2
        rise = (level - radius) / (here - middle)
        radii += [radius + rise * (place - middle) for place in range(len(radii), floor(here) + 1)]
        middle, radius = here, level
    rise = (crown.body_radius - radius) / (end - start)
    radii += [radius + rise * (place - middle) for place in range(len(radii), rounds)]
    return [*radii, crown.edge_radius]


def _profile(crown: Surface, radii: list[float], below: list[float], units: UnitSystem) -> CrownProfile:
    unit: LengthUnit = "in" if units == "imperial" else "cm"
    factor, depth = 1 / MM_IN[unit], below[0]
    points = [
        ProfilePoint(round(factor * along, 4), round(factor * radius, 4), round(factor * (depth - down), 4))
        for along, radius, down in zip([crown.fabric, *crown.along, 0.0], radii, below, strict=True)
    ]
    return CrownProfile(unit=unit, points=tuple(points))


def _words(lies: Lie, slope: float, turn: float, fullness: float) -> str:
    flat = f"2π = {turn:.3g}" if turn == TURN else f"{turn:g}"
    start = f"The circumference falls by {slope:.3g} for each unit of fabric; "
    if lies == "domed":
        return f"{start}below {flat} the crown rises and closes as a dome or cone."
    if lies == "flat":
        return f"{start}near {flat} the crown lies flat."
    return f"{start}above {flat} the crown gathers: its edge is {fullness:.0f} % fuller than it can lie."
