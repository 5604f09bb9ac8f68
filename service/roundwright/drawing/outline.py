"""Outline: a hat from the side in millimetres, and its projection to the pixels of a picture.

The head is a hemisphere with a tube below it, and is as far up in the hat as it goes.
"""

from math import pi, sqrt
from typing import Final, NamedTuple

from roundwright.drawing.svg import px
from roundwright.drawing.theme import MARGIN, WIDTH
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import Brim
from roundwright.knitting.quantities import MM_IN, mm

RULER_WIDTH: Final = 46.0
"""Room for the ruler on the left."""
LENGTHS_WIDTH: Final = 96.0
"""Room for the lengths on the right."""
MAX_HEIGHT: Final = 400.0
"""Pixels of the hat and the head; a taller hat is drawn smaller."""
ROLLED_SHARE: Final = 1 / 3
"""Height of a rolled brim as a share of its fabric, which rolls up a little more than once (common practice)."""
TURNED_OUT_MM: Final = 2.5
"""Distance of a turned-up brim from the hat: the thickness of the fabric."""


class Outline(NamedTuple):
    """A hat and a head in millimetres, in heights above the edge and radii from the axis."""

    radius_mm: float
    straight_mm: float
    """Height of the first round of the crown, as worn."""
    brim_mm: float
    """Height of the brim, as worn."""
    crown: tuple[tuple[float, float], ...]
    """Radius and height, in millimetres, of the start of the crown, the middle of each round, and the tip."""
    head_radius_mm: float

    @property
    def top_mm(self) -> float:
        """Height of the tip."""
        return self.crown[-1][1]

    @property
    def head_top_mm(self) -> float:
        """Height of the top of the head: as high as a sphere of the hat's radius goes."""
        radius = self.radius_mm
        centre = min([height - sqrt(max(0.0, radius**2 - across**2)) for across, height in self.crown])
        return centre + radius


class Projection(NamedTuple):
    """The position and size of a hat on the picture."""

    axis_x: float
    edge_y: float
    pixels_per_mm: float

    def point(self, across_mm: float, height_mm: float) -> str:
        """A point so far to the right of the axis and above the edge, as text for a path."""
        return f"{px(self.x(across_mm))} {px(self.y(height_mm))}"

    def x(self, across_mm: float) -> float:
        """Pixels from the left."""
        return self.axis_x + across_mm * self.pixels_per_mm

    def y(self, height_mm: float) -> float:
        """Pixels from the top."""
        return self.edge_y - height_mm * self.pixels_per_mm


def outline_of(plan: HatPlan, brim: Brim) -> Outline:
    """One size of a hat as it is worn, not stretched."""
    sizes = plan.measurements
    radius = mm(sizes.body_circumference) / (2 * pi)
    edge_to_crown = mm(sizes.edge_to_crown)
    straight = max(0.0, mm(sizes.depth) - mm(sizes.crown_depth)) if sizes.crown_depth else edge_to_crown
    crown: tuple[tuple[float, float], ...] = ((radius, straight), (0.0, straight))
    if plan.crown.geometry:
        profile = plan.crown.geometry.profile
        unit = MM_IN[profile.unit]
        crown = tuple([(unit * point.radius, straight + unit * point.height) for point in profile.points])
    hidden = max(0.0, edge_to_crown - straight)
    brim_height = {"rolled": ROLLED_SHARE * hidden, "folded": hidden}.get(
        brim.kind, mm(plan.brim.length) if plan.brim.length else 0.0
    )
    return Outline(radius, straight, min(brim_height, straight), crown, mm(sizes.head) / (2 * pi))


def projection_for(outline: Outline) -> tuple[Projection, float]:
    """The projection that fits the hat to the picture, and the height of the content in pixels."""
    widest_mm = 2 * max(outline.radius_mm + TURNED_OUT_MM, outline.head_radius_mm)
    room = WIDTH - 2 * MARGIN - RULER_WIDTH - LENGTHS_WIDTH
    above_mm = max(outline.top_mm, outline.head_top_mm)
    below_mm = min(0.0, outline.head_top_mm - outline.head_radius_mm)
    pixels_per_mm = min(room / widest_mm, MAX_HEIGHT / (above_mm - below_mm))
    edge_y = 12 + above_mm * pixels_per_mm
    projection = Projection(MARGIN + RULER_WIDTH + room / 2, edge_y, pixels_per_mm)
    return projection, edge_y - below_mm * pixels_per_mm + 46
