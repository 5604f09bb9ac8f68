"""Yarn in a stitch, by the gauge and by a weighed swatch."""

import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Gauge, Length, Mass
from roundwright.knitting.yarn.estimate import estimate
from roundwright.knitting.yarn.label import Price, Yarn
from roundwright.knitting.yarn.per_stitch import Swatch, fabric_of
from roundwright.knitting.yarn.segments import WorkSegment
from tests.support.yarns import GAUGE, WETHER


def test_finer_gauge_takes_more_yarn_for_the_same_cloth() -> None:
    """By l = sqrt(ks / S) cloth of one area takes yarn as the square root of its stitches: four times, twice."""
    coarse = estimate((WorkSegment("all", 20 * 28),), fabric_of(Gauge(stitches=20, rows=28), None), "metric")
    fine = estimate((WorkSegment("all", 40 * 56),), fabric_of(Gauge(stitches=40, rows=56), None), "metric")
    assert fine.used.expected.length.value == pytest.approx(2 * coarse.used.expected.length.value, rel=1e-5)


def test_held_double_takes_twice_the_yarn() -> None:
    """Two strands worked together are two loops to a stitch."""
    single, double = (
        estimate(
            (WorkSegment("body", 80, 30),),
            fabric_of(GAUGE, Yarn(length=Length(400, "m"), mass=Mass(100, "g"), held=held)),
            "metric",
        )
        for held in (1, 2)
    )
    assert double.used.expected.mass.value == pytest.approx(2 * single.used.expected.mass.value, rel=1e-5)


def test_the_scale_is_the_uncertainty_of_a_swatch() -> None:
    """A reading of 4 g in steps of 1 g is 3.5 to 4.5 g; a finer scale is nearer."""
    fabric = fabric_of(None, WETHER, Swatch(stitches=20, rows=30, mass=Mass(4, "g")))
    used = estimate((WorkSegment("all", 600),), fabric, "metric").used
    assert (used.low.mass.value, used.expected.mass.value, used.high.mass.value) == (3.5, 4, 4.5)
    assert used.expected.length.value == pytest.approx(8.4)


def test_a_swatch_too_light_for_the_scale_is_refused() -> None:
    """A kitchen scale that shows whole grams cannot weigh half a gram."""
    with pytest.raises(Impossible) as error:
        fabric_of(None, WETHER, Swatch(stitches=5, rows=5, mass=Mass(0.5, "g")))
    assert error.value.pointer == "#/swatch/mass"


def test_a_swatch_without_lengths_gives_masses_and_balls() -> None:
    """A ball that only says 100 g is enough for a swatch on the scales."""
    yarn = Yarn(mass=Mass(100, "g"), price=Price(5, "EUR"))
    fabric = fabric_of(None, yarn, Swatch(stitches=30, rows=40, mass=Mass(12, "g")))
    answer = estimate((WorkSegment("all", 12_000),), fabric, "metric", 0)
    assert (answer.used.expected.mass.value, answer.used.expected.length) == (120, None)
    assert (answer.to_buy.balls, answer.to_buy.cost.amount) == (2, 10)


def test_a_swatch_far_from_its_gauge_gets_a_warning() -> None:
    """The swatch is used, with a warning."""
    swatch = Swatch(stitches=20, rows=28, mass=Mass(40, "g"))
    assert [warning.code for warning in fabric_of(GAUGE, WETHER, swatch).warnings] == [
        "swatch_far_from_gauge"
    ]
