"""Yarn as it is printed: counts, loops, hats and swatches."""

import pytest

from roundwright.knitting.quantities import Gauge, Length, Mass, YarnCount
from roundwright.knitting.yarn.estimate import estimate
from roundwright.knitting.yarn.label import Yarn
from roundwright.knitting.yarn.per_stitch import Swatch, fabric_of, loop_length_mm
from roundwright.knitting.yarn.segments import WorkSegment
from roundwright.knitting.yarn.yarn_count import fineness, tex, tex_of_count_1


@pytest.mark.parametrize(
    ("system", "printed"),
    [("nm", 1000), ("ne", 590.54), ("worsted", 885.81), ("woollen", 1937.7), ("linen", 1653.5)],
)
def test_printed_constants(system: str, printed: float) -> None:
    """Tex times an inverse count: ISO 1144, ISO 2947 and ASTM D2260 print five digits."""
    assert float(f"{tex_of_count_1(system):.5g}") == printed


@pytest.mark.parametrize(("unit", "count"), [("tex", 20), ("ne", 29.53), ("denier", 180), ("nm", 50)])
def test_20_tex_in_every_system(unit: str, count: float) -> None:
    """Worked in print: 20 tex = 29.53 Ne = 180 denier = 50 Nm."""
    assert tex(YarnCount(count, unit)) == pytest.approx(20, rel=1e-4)
    assert getattr(fineness(20), unit) == pytest.approx(count, rel=1e-4)


def test_cotton_thirties() -> None:
    """Worked in print: Ne 30 is 19.7 tex."""
    assert round(tex(YarnCount(30, "ne")), 1) == 19.7


def test_two_sixes_worsted() -> None:
    """Worked in print: 2/6 worsted, two strands of count 6 plied, has 1,680 yards in a pound."""
    yarn = Yarn(count=YarnCount(6 / 2, "worsted"), mass=Mass(1, "lb"))
    bought = estimate(
        (WorkSegment("all", 1),), fabric_of(Gauge(stitches=20, rows=28), yarn), "imperial"
    ).to_buy
    assert bought.left_over.length.value == pytest.approx(1680, rel=1e-4)


def test_a_label_is_a_count() -> None:
    """Arithmetic from the definitions: 50 g and 120 m are 416.67 tex and Nm 2.4."""
    yarn = Yarn(length=Length(120, "m"), mass=Mass(50, "g"))
    answer = estimate((WorkSegment("all", 1000),), fabric_of(Gauge(stitches=20, rows=28), yarn), "metric")
    assert (round(answer.fineness.tex, 2), answer.fineness.nm) == (416.67, 2.4)


def test_loops_in_a_square_centimetre() -> None:
    """GATE Textile 2015, question 54: 4.2 and 5.5 at a loop of 0.5 cm make 92.4 loops in 1 cm²."""
    gauge = Gauge(stitches=4.2 / 0.5, rows=5.5 / 0.5, over=Length(1, "cm"))
    assert loop_length_mm(gauge, 4.2 * 5.5) == pytest.approx(5.0)
    assert gauge.stitches * gauge.rows == pytest.approx(92.4)


def test_loop_at_22_by_30() -> None:
    """Arithmetic from l = sqrt(ks / S) (Munden 1959): 1.697 cm at ks 19.0, 1.871 cm at ks 23.1."""
    stitch = estimate(
        (WorkSegment("all", 1),), fabric_of(Gauge(stitches=22, rows=30), None), "metric"
    ).per_stitch
    assert (round(stitch.low.value, 3), round(stitch.high.value, 3)) == (1.697, 1.871)


def test_45_stitches_in_a_yard() -> None:
    """A hand-knitting handbook: 45 stitches from a yard at 5 x 7 in an inch; the law gives 0.737 to 0.812 in."""
    gauge = Gauge(stitches=5, rows=7, over=Length(1, "in"))
    stitch = estimate((WorkSegment("all", 45),), fabric_of(gauge, None), "imperial")
    assert stitch.per_stitch.low.value == pytest.approx(0.737, abs=5e-4)
    assert stitch.per_stitch.high.value == pytest.approx(0.812, abs=5e-4)
    assert stitch.used.low.length.value <= 1 <= stitch.used.high.length.value


def test_four_hats_from_50_grams() -> None:
    """A knitting charity's pattern for premature babies: 68 stitches, 48 rounds, 68 to 51 to 34 to 17 with a plain
    round between, four hats from 50 g of 4-ply, so 12.5 g each. At 28 x 36 and 400 m / 100 g (common practice for
    4-ply) the law gives 11.8 to 13.1 g.
    """
    yarn = Yarn(length=Length(400, "m"), mass=Mass(100, "g"))
    hat = (
        WorkSegment("body", 68, 48),
        WorkSegment("crown", 51, 2),
        WorkSegment("crown", 34, 2),
        WorkSegment("crown", 17),
    )
    used = estimate(hat, fabric_of(Gauge(stitches=28, rows=36), yarn), "metric").used
    assert (round(used.low.mass.value, 1), round(used.high.mass.value, 1)) == (11.8, 13.1)
    assert used.low.mass.value < 12.5 < used.high.mass.value


def test_a_swatch_on_the_scales() -> None:
    """Printed: a swatch of 4 g from a ball of 50 g and 87 yd holds 6.96 yd."""
    yarn = Yarn(length=Length(87, "yd"), mass=Mass(50, "g"))
    fabric = fabric_of(None, yarn, Swatch(stitches=20, rows=28, mass=Mass(4, "g")))
    used = estimate((WorkSegment("all", 20, 28),), fabric, "imperial").used
    assert used.expected.length.value == pytest.approx(6.96)


def test_whole_balls() -> None:
    """Printed: 1,800 yd in balls of 109 yd are 16.5 balls, so buy 17."""
    yarn = Yarn(length=Length(109, "yd"), mass=Mass(50, "g"))
    swatch = Swatch(stitches=100, rows=100, mass=Mass(50, "g"), scale=Mass(0.001, "g"))
    worked = round(1800 / 109 * 100 * 100)
    bought = estimate((WorkSegment("all", worked),), fabric_of(None, yarn, swatch), "imperial", 0).to_buy
    assert bought.amount.length.value == pytest.approx(1800, rel=1e-4)
    assert bought.balls == 17


def test_a_table_of_hats_asks_for_more_than_a_hat_uses() -> None:
    """A handbook's table for hats: medium yarn 150-250 yd; an adult's hat of 88 stitches uses well under half."""
    yarn = Yarn(length=Length(200, "yd"), mass=Mass(100, "g"))
    fabric = fabric_of(Gauge(stitches=18, rows=24, over=Length(4, "in")), yarn)
    hat = (WorkSegment("body", 80, 40), WorkSegment("crown", 40, 18))
    answer = estimate(hat, fabric, "imperial", is_hat=True)
    [table] = answer.printed
    assert (table.number, table.least.value, table.most.value) == (4, 150, 250)
    assert answer.used.high.length.value < table.least.value
