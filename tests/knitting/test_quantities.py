"""Quantities and their units, against pint's own registry and the yard and pound agreement."""

from typing import get_args

import pint
import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import (
    Gauge,
    Length,
    LengthUnit,
    MassUnit,
    g_in,
    length,
    mm,
    mm_in,
    row_height_mm,
    rows_assumed,
    stitch_width_mm,
)
from roundwright.reference.units import factor

PINT = pint.UnitRegistry()


@pytest.mark.parametrize("unit", get_args(LengthUnit))
def test_every_length_unit_is_pints(unit: LengthUnit) -> None:
    """The small definitions file says of each length what pint's own registry says."""
    assert mm_in(unit) == pytest.approx(PINT.Quantity(1, unit).to("mm").magnitude, rel=1e-14)


@pytest.mark.parametrize("unit", get_args(MassUnit))
def test_every_mass_unit_is_pints(unit: MassUnit) -> None:
    """The small definitions file says of each mass what pint's own registry says."""
    assert g_in(unit) == pytest.approx(PINT.Quantity(1, unit).to("g").magnitude, rel=1e-14)


@pytest.mark.parametrize("unit", ["tex", "dtex", "denier"])
def test_every_direct_yarn_count_is_pints(unit: str) -> None:
    """Tex, decitex and denier are pint's own."""
    assert factor(unit, "tex") == pytest.approx(PINT.Quantity(1, unit).to("tex").magnitude, rel=1e-14)


def test_the_inch_and_the_pound_are_exact() -> None:
    """1 in = 25.4 mm and 1 lb = 453.59237 g exactly (international yard and pound agreement, 1959)."""
    assert mm_in("in") == 25.4
    assert mm_in("yd") == 914.4
    assert g_in("lb") == 453.59237
    assert g_in("oz") == 28.349523125


def test_four_inches_are_not_ten_centimetres() -> None:
    """The two lengths the trade prints as one differ by 1.6 % (arithmetic from 1 in = 25.4 mm)."""
    assert mm(Length(4, "in")) / mm(Length(10, "cm")) == pytest.approx(1.016)


def test_a_length_answers_in_the_units_asked_for() -> None:
    """25.4 cm are 10 in."""
    assert length(254.0, "imperial") == Length(10.0, "in")
    assert length(254.0, "metric") == Length(25.4, "cm")


def test_a_gauge_without_rows_takes_relaxed_plain_knit_with_a_warning() -> None:
    """Rows for each stitch: 5.5 / 4.2 of fully relaxed plain knit (GATE Textile 2015, question 54)."""
    gauge = Gauge(stitches=42)
    assert row_height_mm(gauge) == pytest.approx(100 / 55)
    assert [notice.code for notice in rows_assumed(gauge)] == ["rows_assumed"]


@pytest.mark.parametrize(
    ("gauge", "pointer"),
    [
        (Gauge(stitches=1000, rows=30), "#/gauge/stitches"),
        (Gauge(stitches=22, rows=1000), "#/gauge/rows"),
        (Gauge(stitches=0.5, rows=30), "#/gauge/stitches"),
    ],
)
def test_a_gauge_nobody_knits_is_refused_where_it_is_wrong(gauge: Gauge, pointer: str) -> None:
    """The error points at the count that cannot be knitted, and names the nearest that can."""
    with pytest.raises(Impossible) as caught:
        stitch_width_mm(gauge)
        row_height_mm(gauge)
    assert caught.value.pointer == pointer
    assert caught.value.nearest
