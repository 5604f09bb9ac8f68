"""A hat as it is worn: its fabric laid over a head.

Fabric stretches around the head and hardly along it, so every round keeps its height. From the tip down, a round lies
where its own circumference puts it, as far as the fabric between it and the round above allows, but never inside the
head. Where the head is wider the round is stretched; where it is narrower the round hangs, or gathers.

The head is a hemisphere on its circumference C with a tube below it. Its ears lie 0.228 C below the crown (vertex to
tragion over head circumference, 0.228 ± 0.014 from 2 years to grown-ups: computed from Snyder et al. 1977 and ANSUR II
2012), which is 0.32 C along the scalp.
"""

from collections.abc import Sequence
from itertools import accumulate
from math import atan2, cos, inf, pi, sin, sqrt
from typing import Final, Literal, NamedTuple

from roundwright.knitting.hat.fabric import FabricRow, Girth, girths
from roundwright.knitting.sizing.depth import EAR_ARC

EAR_ARC_SD: Final = 0.016
"""Standard deviation of it: 0.014 C of height, on the slope of the sphere at the ear (arithmetic)."""
EAR_HALF: Final = 0.055
"""From the ear canal to the lower end of the ear, over the circumference: a hat is not pulled lower (from memory)."""
CROWN_GIVES: Final = 1.25
"""A crown stretches by a quarter, or as much as the hat does, before it stands off the head (common practice)."""
STEEPEST_OUTWARD: Final = 0.8
"""Fabric that hangs free falls by 37 degrees at least: it is too soft to stand out level (common practice)."""
ROUNDED_MM: Final = 12.0
"""How far fabric takes to turn from outward to inward, and to come out to its width (common practice)."""
MOST_PLACES: Final = 60
"""Places of the fabric that are laid over the head: with more it looks no rounder."""
_SOLVED_WITHIN_MM: Final = 0.2

Reach = Literal["above", "at", "below"]


class Head(NamedTuple):
    """A hemisphere and the tube below it."""

    radius_mm: float

    def radius_at(self, drop_mm: float) -> float:
        """The radius so far below the crown; 0 above it."""
        if drop_mm <= 0:
            return 0.0
        if drop_mm >= self.radius_mm:
            return self.radius_mm
        return sqrt(drop_mm * (2 * self.radius_mm - drop_mm))

    def at(self, arc_mm: float) -> tuple[float, float]:
        """Radius and drop below the crown, so far from it along the scalp."""
        radius = self.radius_mm
        if arc_mm >= pi / 2 * radius:
            return radius, radius + arc_mm - pi / 2 * radius
        return radius * sin(arc_mm / radius), radius * (1 - cos(arc_mm / radius))

    def arc_nearest(self, radius_mm: float, drop_mm: float) -> float:
        """Along the scalp from the crown to where the head is nearest to a place outside it."""
        radius = self.radius_mm
        if drop_mm >= radius:
            return pi / 2 * radius + drop_mm - radius
        return radius * atan2(radius_mm, radius - drop_mm)

    @property
    def ear_drop_mm(self) -> float:
        """How far the ear canal lies below the crown."""
        return self.at(EAR_ARC * 2 * pi * self.radius_mm)[1]


class WornPlace(NamedTuple):
    """A place of the worn fabric."""

    along_mm: float
    """From the tip along the fabric, as at rest."""
    radius_mm: float
    """Of the outline."""
    drop_mm: float
    """Below the crown of the head; above it less than 0."""
    rest_mm: float
    """Circumference of the fabric at rest."""

    @property
    def worn_mm(self) -> float:
        """Circumference of the fabric as worn, along its folds where it gathers."""
        return max(self.rest_mm, 2 * pi * self.radius_mm)

    @property
    def stretch(self) -> float:
        """The worn circumference over that at rest, 1 and more."""
        return self.worn_mm / self.rest_mm if self.rest_mm else 1.0

    @property
    def fullness(self) -> float:
        """The circumference of the fabric over that of the outline, 1 and more: above 1 it lies in folds."""
        return self.worn_mm / (2 * pi * self.radius_mm) if self.radius_mm else 1.0


class WornHat(NamedTuple):
    """A hat on a head, from its tip to its edge."""

    head: Head
    places: tuple[WornPlace, ...]

    @property
    def air_mm(self) -> float:
        """How far the tip stands above the crown of the head."""
        return -self.places[0].drop_mm

    @property
    def edge(self) -> WornPlace:
        """The edge."""
        return self.places[-1]

    @property
    def below_ears_mm(self) -> float:
        """How far below the ear canal the edge lies; less than 0 above it."""
        return self.edge.drop_mm - self.head.ear_drop_mm

    @property
    def reach(self) -> Reach:
        """Where the edge lies: at the ears within the standard deviation of where ears are."""
        within = EAR_ARC_SD * 2 * pi * self.head.radius_mm
        if abs(self.below_ears_mm) <= within:
            return "at"
        return "above" if self.below_ears_mm < 0 else "below"


def worn(rows: Sequence[FabricRow], head_mm: float, hidden_mm: float = 0.0) -> WornHat:
    """The fabric of `rows`, first to last, on a head of circumference `head_mm`.

    The first `hidden_mm` are rolled or turned up. The hat is pulled down until the head fills it, or until the crown
    would stretch by more than `CROWN_GIVES` or than the rest of the hat, or until its edge is at the lower end of the
    ears: what is longer stands or hangs above the head.
    """
    head = Head(head_mm / (2 * pi))
    fabric = girths(rows, hidden_mm, MOST_PLACES)
    radii = _widest_radii(head, fabric)
    straight = [row.circumference_mm for row in rows if row.part != "crown"]
    give = max(CROWN_GIVES, 1.02 * head_mm / min(straight)) if straight else CROWN_GIVES
    lowest_mm = head.ear_drop_mm + EAR_HALF * head_mm
    low_mm, high_mm = 0.0, fabric[-1].along_mm
    hat = _laid(head, fabric, radii, 0.0)
    if _fits(hat, give, lowest_mm):
        return hat
    while high_mm - low_mm > _SOLVED_WITHIN_MM:
        middle_mm = (low_mm + high_mm) / 2
        if _fits(_laid(head, fabric, radii, middle_mm), give, lowest_mm):
            high_mm = middle_mm
        else:
            low_mm = middle_mm
    return _laid(head, fabric, radii, high_mm)


def _fits(hat: WornHat, give: float, lowest_mm: float) -> bool:
    return hat.edge.drop_mm <= lowest_mm and all(place.stretch <= give for place in hat.places)


def _laid(head: Head, fabric: Sequence[Girth], radii: Sequence[float], air_mm: float) -> WornHat:
    """The fabric, at most as wide as `radii`, over the head with its tip `air_mm` above the crown."""
    radius, drop, along, above = 0.0, -air_mm, 0.0, 0.0
    places = [WornPlace(0.0, radius, drop, 0.0)]
    for girth, widest in zip(fabric[1:], radii[1:], strict=True):
        step = girth.along_mm - along
        along = girth.along_mm
        eased = widest - above + (above - radius) * min(1.0, step / ROUNDED_MM)
        change = max(-step, min(widest - radius, eased, STEEPEST_OUTWARD * step))
        above = widest
        free_radius, free_drop = radius + change, drop + sqrt(step * step - change * change)
        if free_radius >= head.radius_at(free_drop):
            radius, drop = free_radius, free_drop
        else:
            radius, drop = _on_head(head, radius, drop, step)
        places.append(WornPlace(along, radius, drop, girth.circumference_mm))
    return WornHat(head, tuple(places))


def _widest_radii(head: Head, fabric: Sequence[Girth]) -> list[float]:
    """How wide each place can hang: as wide as it is, and no further out than the fabric below lets it come back in.

    Fabric does not break at its widest: the radius is the mean over `ROUNDED_MM` on either side.
    """
    widest, radii, along = inf, [], fabric[-1].along_mm
    for girth in reversed(fabric):
        radius = girth.circumference_mm / (2 * pi)
        widest = min(widest + along - girth.along_mm, max(radius, head.radius_mm))
        radii.append(min(radius, widest))
        along = girth.along_mm
    radii.reverse()
    places = max(1, round(ROUNDED_MM * (len(fabric) - 1) / max(fabric[-1].along_mm, 1.0)))
    sums = list(accumulate(radii, initial=0.0))
    last = len(radii) - 1
    means = []
    for index in range(len(radii)):
        reach = min(places, index, last - index)
        means.append((sums[index + reach + 1] - sums[index - reach]) / (2 * reach + 1))
    return [min(radius, mean) for radius, mean in zip(radii, means, strict=True)]


def _on_head(head: Head, radius: float, drop: float, step: float) -> tuple[float, float]:
    """The place on the head that is `step` away from a place on it or outside it, further down."""
    nearest = head.arc_nearest(radius, drop)
    if radius - head.radius_at(drop) < 1e-6 * head.radius_mm:
        return head.at(nearest + step)
    low, high = nearest, nearest + 1.1 * step
    for _ in range(12):
        middle = (low + high) / 2
        to_radius, to_drop = head.at(middle)
        if (to_radius - radius) ** 2 + (to_drop - drop) ** 2 < step * step:
            low = middle
        else:
            high = middle
    return head.at((low + high) / 2)
