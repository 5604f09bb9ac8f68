"""Gauge in every way the trade states it."""

import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.gauge.convert import ConvertRequest, convert, unusual_gauge
from roundwright.knitting.quantities import Gauge, Length
from tests.support.hats import hats


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


@pytest.mark.parametrize(
    ("stitches", "classes"), [(6.5, [7, 6]), (11.5, [6, 5]), (20.5, [4, 3]), (26.5, [2, 1]), (32.3, [1, 0])]
)
def test_a_gauge_between_two_classes_names_both(stitches: float, classes: list[int]) -> None:
    """20.5 stitches in 10 cm are 20.83 in 4 in, between Medium (16-20) and Light (21-24): Craft Yarn Council."""
    answer = convert(ConvertRequest(gauge=Gauge(stitches=stitches, rows=stitches * 1.4)))
    assert [weight.number for weight in answer.yarn_weights] == classes
    [notice] = answer.warnings
    assert notice.code == "between_yarn_weights"
    assert all(f"({number})" in notice.message for number in classes)


def test_a_gauge_between_two_classes_has_the_needles_of_both() -> None:
    """Medium wants 4.5 to 5.5 mm, Light 3.75 to 4.5 mm (Craft Yarn Council)."""
    answer = convert(ConvertRequest(gauge=Gauge(stitches=20.5, rows=28)))
    assert (answer.needles[0].mm, answer.needles[-1].mm) == (3.75, 5.5)


def test_a_gauge_finer_than_any_class_is_of_the_finest() -> None:
    """Lace ends at 40 stitches in 4 in (Craft Yarn Council)."""
    answer = convert(ConvertRequest(gauge=Gauge(stitches=45, rows=60)))
    assert [weight.number for weight in answer.yarn_weights] == [0]
    assert [notice.code for notice in answer.warnings] == ["between_yarn_weights"]


def test_more_stitches_than_rows_are_two_numbers_that_changed_places() -> None:
    """Plain knitting has 1.3 rows to a stitch (Munden 1959)."""
    [notice] = convert(ConvertRequest(gauge=Gauge(stitches=28, rows=20))).warnings
    assert (notice.code, notice.pointer) == ("gauge_swapped", "#/gauge/rows")
    assert "Probably 20 stitches and 28 rows are meant" in notice.message


@pytest.mark.parametrize(
    ("typed", "meant", "field"),
    [
        ((200, 28), (20, 28), "stitches"),
        ((2, 28), (20, 28), "stitches"),
        ((20, 2.8), (20, 28), "rows"),
        ((14, 200), (14, 20), "rows"),
        ((32, 4.4), (32, 44), "rows"),
    ],
)
def test_a_gauge_of_no_fabric_has_a_digit_too_many_or_too_few(
    typed: tuple[float, float], meant: tuple[float, float], field: str
) -> None:
    """Plain knitting has 1.3 rows to a stitch (Munden 1959); ten times as many or as few is a slip of the point."""
    gauge = Gauge(stitches=typed[0], rows=typed[1])
    [notice] = unusual_gauge(gauge)
    assert (notice.code, notice.pointer) == ("gauge_mistyped", f"#/gauge/{field}")
    assert "{:g} stitches and {:g} rows are meant".format(*meant) in notice.message


def test_five_stitches_in_10_cm_are_probably_in_an_inch() -> None:
    """5 by 7 in an inch is a worsted (Craft Yarn Council: 16 to 20 in 4 in); in 10 cm few yarns have it."""
    [notice] = convert(ConvertRequest(gauge=Gauge(stitches=5, rows=7))).warnings
    assert (notice.code, notice.pointer) == ("gauge_per_inch", "#/gauge/over")
    assert "19.7 in 10 cm" in notice.message
    per_inch = convert(ConvertRequest(gauge=Gauge(stitches=5, rows=7, over=Length(1, "in"))))
    assert per_inch.warnings == ()


@pytest.mark.parametrize(
    ("stitches", "rows"),
    [
        (20, 40),  # garter: two rows to the width of a stitch (practice.json, garter-rows)
        (18, 42),  # garter of some: 7 rows to 3 stitches
        (24, 24),  # knitted in two colours: as many rows as stitches (common practice)
        (28, 26),  # rib at rest (common practice)
        (22, 44),  # slip stitch: twice as many rows (common practice)
        (9, 12),  # super bulky
    ],
)
def test_gauges_that_are_knitted_are_converted_without_a_question(stitches: float, rows: float) -> None:
    """No fabric in use is taken for a mistake."""
    codes = {
        notice.code for notice in convert(ConvertRequest(gauge=Gauge(stitches=stitches, rows=rows))).warnings
    }
    assert not codes & {"gauge_swapped", "gauge_per_inch", "gauge_mistyped"}


def test_classes_carry_the_names_their_yarn_is_sold_under() -> None:
    """Shops say DK for 3, worsted or aran for 4: common practice."""
    answer = convert(ConvertRequest(gauge=Gauge(stitches=20.5, rows=28)))
    assert [weight.names for weight in answer.yarn_weights] == [("worsted", "aran"), ("DK",)]


def test_needles_carry_every_label_they_are_sold_under() -> None:
    """5 mm is US 8 and UK 6 (five general charts); 18 stitches want 4.5 to 5.5 mm (Craft Yarn Council)."""
    answer = convert(ConvertRequest(gauge=Gauge(stitches=18, rows=24)))
    five = next(size for size in answer.needles if size.mm == 5.0)
    assert ("8" in five.us, "6" in five.uk) == (True, True)
    assert {size.mm for size in answer.needles} >= {4.5, 5.0, 5.5}


def test_a_hat_of_too_many_stitches_for_a_slip_of_the_point_gets_the_gauge_meant() -> None:
    """200 stitches to 28 rounds make a hat of a thousand stitches; 20 are a worsted (Craft Yarn Council)."""
    with pytest.raises(Impossible) as refused:
        hats(gauge={"stitches": 200, "rows": 28}, sizes=[{"adult": "woman"}])
    assert refused.value.suggestion is not None
    assert (refused.value.suggestion.pointer, refused.value.suggestion.value) == ("#/gauge/stitches", 20)
