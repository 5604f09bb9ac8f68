"""The hat from the side, in millimetres above the edge and off the axis, and where it stands on a picture.

The head is a hemisphere with a tube below it. It stands as far up in the hat as it goes: where the hat, stretched to
its width, holds it.
"""

from math import pi, sqrt
from typing import Final, NamedTuple

from roundwright.drawing.svg import number
from roundwright.drawing.theme import MARGIN, WIDTH
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import Brim
from roundwright.knitting.quantities import MM_IN, mm

RULE: Final = 46.0
"""Room for the rule on the left."""
SIZES: Final = 96.0
"""Room for the lengths on the right."""
TALLEST: Final = 400.0
"""Pixels of a hat; a tall one is drawn narrower."""
ROLLED_SHARE: Final = 1 / 3
"""Height of a rolled brim, as a share of the fabric in it: it rolls up once and a bit (common practice)."""
TURNED_OUT_MM: Final = 2.5
"""How far a turned-up brim stands off: the fabric's own thickness."""


class Outline(NamedTuple):
    """The hat in millimetres: heights above the edge, radii off the axis."""

    radius: float
    straight: float
    """Edge to the first round of the crown, as worn."""
    brim: float
    """How much of it the brim shows."""
    crown: tuple[tuple[float, float], ...]
    """Radius and height of the start of the crown, the middle of each round, and the tip."""
    head: float
    """Radius of the head."""

    @property
    def top(self) -> float:
        """Height of the tip."""
        return self.crown[-1][1]

    @property
    def head_top(self) -> float:
        """Height of the top of the head: as high as a sphere goes that is as wide as the hat."""
        radius = self.radius
        middle = min([height - sqrt(max(0.0, radius**2 - across**2)) for across, height in self.crown])
        return middle + radius


class Place(NamedTuple):
    """Where the hat stands on the picture."""

    axis: float
    floor: float
    scale: float

    def spot(self, across: float, height: float) -> str:
        """A point so many millimetres off the axis and above the edge, as a path says it."""
        return f"{number(self.x(across))} {number(self.y(height))}"

    def x(self, across: float) -> float:
        """How far to the right it is."""
        return self.axis + across * self.scale

    def y(self, height: float) -> float:
        """How far down it is."""
        return self.floor - height * self.scale


def outline_of(plan: HatPlan, brim: Brim) -> Outline:
    """One size of a hat as it is worn, unstretched."""
    sizes = plan.measurements
    radius = mm(sizes.circumference) / (2 * pi)
    edge = mm(sizes.edge_to_crown)
    straight = max(0.0, mm(sizes.depth) - mm(sizes.crown_depth)) if sizes.crown_depth else edge
    crown: tuple[tuple[float, float], ...] = ((radius, straight), (0.0, straight))
    if plan.crown.geometry:
        profile = plan.crown.geometry.profile
        factor = MM_IN[profile.unit]
        crown = tuple([(factor * point.radius, straight + factor * point.height) for point in profile.points])
    hidden = max(0.0, edge - straight)
    shown = {"rolled": ROLLED_SHARE * hidden, "folded": hidden}.get(
        brim.kind, mm(plan.brim.length) if plan.brim.length else 0.0
    )
    return Outline(radius, straight, min(shown, straight), crown, mm(sizes.head) / (2 * pi))


def place_for(outline: Outline) -> tuple[Place, float]:
    """Where the hat stands, and how high the picture of it is."""
    widest = 2 * max(outline.radius + TURNED_OUT_MM, outline.head)
    room = WIDTH - 2 * MARGIN - RULE - SIZES
    above = max(outline.top, outline.head_top)
    below = min(0.0, outline.head_top - outline.head)
    scale = min(room / widest, TALLEST / (above - below))
    floor = 12 + above * scale
    return Place(MARGIN + RULE + room / 2, floor, scale), floor - below * scale + 46
