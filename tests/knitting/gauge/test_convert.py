"""Gauge in every way the trade states it."""

import pytest

from roundwright.knitting.gauge.convert import ConvertRequest, convert
from roundwright.knitting.quantities import Gauge, Length


def weights(stitches: float, unit: str = "cm") -> list[int]:
    over = Length(10, "cm") if unit == "cm" else Length(4, "in")
    answer = convert(ConvertRequest(gauge=Gauge(stitches=stitches, rows=stitches * 1.4, over=over)))
    return [weight.number for weight in answer.yarn_weights]


def test_22_in_10_cm_is_converted_every_way() -> None:
    """22 x 30 in 10 cm: arithmetic from 1 in = 25.4 mm."""
    answer = convert(ConvertRequest(gauge=Gauge(stitches=22, rows=30)))
    assert (answer.per_10_cm.stitches, answer.per_10_cm.rows) == (22, 30)
    assert answer.per_4_in.stitches == pytest.approx(22 * 1.016, rel=1e-5)
    assert answer.per_inch.rows == pytest.approx(7.62, rel=1e-5)
    assert answer.stitch_width.value == pytest.approx(10 / 22, rel=1e-5)


@pytest.mark.parametrize(
    ("stitches", "classes"),
    [(36, [0]), (29, [1]), (25, [2]), (23.5, [2, 3]), (22, [3]), (18, [4]), (13, [5]), (9, [6]), (5, [7])],
)
def test_a_gauge_falls_in_every_class_that_prints_it(stitches: float, classes: list[int]) -> None:
    """Craft Yarn Council, Standard Yarn Weight System: 23-24 stitches are in two classes."""
    assert weights(stitches, "in") == classes


def test_a_gauge_between_classes_says_so() -> None:
    """11.5 stitches in 4 in lie between Super Bulky (7-11) and Bulky (12-15); 11.5 in 10 cm are 11.684 in 4 in."""
    answer = convert(ConvertRequest(gauge=Gauge(stitches=11.5, rows=16)))
    assert answer.yarn_weights == ()
    assert [notice.code for notice in answer.warnings] == ["between_yarn_weights"]


def test_needles_carry_every_label_they_are_sold_under() -> None:
    """5 mm is US 8 and UK 6 (five general charts); 18 stitches want 4.5 to 5.5 mm (Craft Yarn Council)."""
    answer = convert(ConvertRequest(gauge=Gauge(stitches=18, rows=24)))
    five = next(size for size in answer.needles if size.mm == 5.0)
    assert ("8" in five.us, "6" in five.uk) == (True, True)
    assert {size.mm for size in answer.needles} >= {4.5, 5.0, 5.5}
