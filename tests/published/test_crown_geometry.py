"""The geometry of crowns against closed forms and against numerical integration (scipy)."""

from math import cos, hypot, pi, sin, sqrt

import pytest
from scipy.integrate import quad, trapezoid

from roundwright.knitting.crown.crown import crown
from roundwright.knitting.crown.geometry import geometry, hemisphere, lie_of, rms_from, surface
from roundwright.knitting.crown.request import CrownRequest
from roundwright.knitting.quantities import Gauge, Length

TURN = 2 * pi
ROUNDS = 400
R = 100.0
"""Radius of every body below, mm."""


def knitted(radius_at, fabric: float, rounds: int = ROUNDS):
    """A surface with this radius at each distance from its tip, knitted in stitches of 1 mm."""
    height = fabric / rounds
    counts = [TURN * radius_at(height * (rounds - number - 0.5)) for number in range(rounds)]
    return surface(TURN * radius_at(fabric + height / 2), counts, 1.0, height, TURN)


def depth_mm(measured) -> float:
    return 10 * geometry(measured, TURN, "metric").depth.value


def test_a_disc_lies_flat() -> None:
    """Closed form: on a disc the radius is the distance from the centre, |dC/ds| = 2π, and there is no depth."""
    disc = knitted(lambda s: s, R)

    assert lie_of(disc) == "flat"
    assert geometry(disc, TURN, "metric").slope == pytest.approx(2 * pi, rel=1e-3)
    assert depth_mm(disc) == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize("height", [20.0, 100.0, 250.0])
def test_a_cone_is_as_high_as_its_slant_allows(height: float) -> None:
    """Closed form: radius R, height h, slant sqrt(R² + h²), and |dC/ds| = 2πR / slant."""
    slant = hypot(R, height)
    cone = knitted(lambda s: R * s / slant, slant)

    assert depth_mm(cone) == pytest.approx(height, rel=1e-4)
    assert geometry(cone, TURN, "metric").slope == pytest.approx(2 * pi * R / slant, rel=1e-3)
    assert lie_of(cone) == ("flat" if height == 20.0 else "domed")  # 20 mm in 100 is 2 % from flat


def test_a_hemisphere_is_as_high_as_its_radius() -> None:
    """Closed form: radius R sin(s/R), height R over a quarter of the great circle."""
    dome = knitted(lambda s: R * sin(s / R), pi / 2 * R)

    assert depth_mm(dome) == pytest.approx(R, rel=1e-3)
    assert rms_from(dome, hemisphere(R)) == pytest.approx(0, abs=1e-9)
    assert lie_of(dome) == "domed"


def test_a_cone_is_not_a_hemisphere() -> None:
    """The root mean square distance is that of the integral over the slant (scipy, quad)."""
    slant = sqrt(2) * R
    cone = knitted(lambda s: R * s / slant, slant)
    squared, _ = quad(lambda s: (R * s / slant - R * sin(min(s / R, pi / 2))) ** 2, 0, slant)

    assert rms_from(cone, hemisphere(cone.body_radius_mm)) == pytest.approx(sqrt(squared / slant), rel=5e-3)


def test_depth_of_a_curved_crown() -> None:
    """The depth of any crown is the integral of sqrt(1 - (dr/ds)²) along the fabric (scipy, quad)."""
    # An egg: the radius grows as R sin(s/R) (2 - sin(s/R)) / 1.2, slower than the fabric all the way up.
    fabric = 1.2 * R

    def radius(s: float) -> float:
        return 0.7 * R * sin(s / R) + 0.05 * s

    def slope(s: float) -> float:
        return 0.7 * cos(s / R) + 0.05

    whole, _ = quad(lambda s: sqrt(1 - slope(s) ** 2), 0, fabric)

    assert depth_mm(knitted(radius, fabric)) == pytest.approx(whole, rel=1e-3)


def test_twice_the_slope_of_a_disc_gathers() -> None:
    """Above 2π there is more circumference than fabric to lie on: twice the slope is 100 % too full."""
    ruffle = knitted(lambda s: 2 * s, R)
    answer = geometry(ruffle, TURN, "metric")

    assert answer.lies == "gathered"
    assert answer.slope == pytest.approx(4 * pi, rel=1e-3)
    assert answer.fullness_percent == pytest.approx(100, abs=0.5)
    assert answer.depth.value == 0


@pytest.mark.parametrize("rows", [24, 26, 28, 30])
@pytest.mark.parametrize("stitches", [56, 72, 97, 120])
def test_a_knitted_dome_is_a_hemisphere(stitches: int, rows: int) -> None:
    """Closed form: the fabric is a quarter circle, the depth R, the stitches cover 2πR² (scipy, trapezoid)."""
    gauge = Gauge(stitches=20, rows=rows)
    answer = crown(CrownRequest(stitches=stitches, style="dome", gauge=gauge))
    radius = stitches * 0.5 / TURN  # cm: a stitch is 5 mm wide
    shape = answer.geometry

    assert shape is not None
    assert shape.fabric.value == pytest.approx(pi / 2 * radius, abs=10 / rows)
    assert shape.depth.value == pytest.approx(radius, rel=0.1)
    points = shape.profile.points[::-1]
    area = trapezoid([TURN * point.radius for point in points], [point.along for point in points])
    assert area == pytest.approx(TURN * radius**2, rel=0.05)


@pytest.mark.parametrize("height", [12.0, 20.0, 30.0])
def test_a_knitted_cone_has_its_height(height: float) -> None:
    """Closed form: the cone of the height asked for, less the small circle that is drawn up in its tip."""
    answer = crown(
        CrownRequest(
            stitches=88, style="cone", height=Length(height, "cm"), gauge=Gauge(stitches=22, rows=30)
        )
    )
    shape = answer.geometry

    assert shape is not None
    assert shape.lies == "domed"
    assert shape.depth.value == pytest.approx(height, rel=0.05)


@pytest.mark.parametrize("rows", [24, 28, 32])
@pytest.mark.parametrize("stitches", [56, 73, 88, 120])
@pytest.mark.parametrize("style", ["flat", "square"])
def test_knitted_flat_crowns_lie_flat(style: str, stitches: int, rows: int) -> None:
    """Closed form: a circle of radius r has 2πr around it, a square of half-side r has 8r."""
    answer = crown(CrownRequest(stitches=stitches, style=style, gauge=Gauge(stitches=20, rows=rows)))

    assert answer.geometry is not None
    assert answer.geometry.lies == "flat"


def test_published_rule_of_thumb() -> None:
    """Published rule of thumb for stockinette: 8 decreases every second round lie flat (22 × 28 to 10 cm)."""
    from roundwright.knitting.crown.request import Cadence

    answer = crown(
        CrownRequest(
            stitches=120,
            style="wedge",
            sections=8,
            cadence=Cadence(plain_rounds=1),
            gauge=Gauge(stitches=22, rows=28),
        )
    )

    assert answer.geometry is not None
    assert answer.geometry.slope == pytest.approx(2 * pi, rel=0.2)  # 4 a round for the exact 4.94
