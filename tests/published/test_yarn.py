"""Yarn as it is printed: counts, loops, hats and swatches."""

from typing import NamedTuple

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
    gauge = Gauge(stitches=22, rows=30)
    assert [round(loop_length_mm(gauge, ks) / 10, 3) for ks in (19.0, 23.1)] == [1.697, 1.871]


def test_45_stitches_by_the_law() -> None:
    """At 5 x 7 in an inch the law gives 0.737 to 0.812 in a stitch (arithmetic); print has 45 from a yard, 0.80."""
    gauge = Gauge(stitches=5, rows=7, over=Length(1, "in"))
    low, high = (loop_length_mm(gauge, ks) / 25.4 for ks in (19.0, 23.1))
    assert (low, high) == (pytest.approx(0.737, abs=5e-4), pytest.approx(0.812, abs=5e-4))
    assert low <= 36 / 45 <= high


class Piece(NamedTuple):
    """Something knitted whose yarn is printed: from `least` to `most` of it, the last printed digit being uncertain.

    The least of what is only said to be enough is 0.
    """

    name: str
    segments: tuple[WorkSegment, ...]
    gauge: Gauge
    least_m: float
    most_m: float

    def span(self) -> tuple[float, float, float]:
        """Low, expected and high in metres."""
        used = estimate(self.segments, fabric_of(self.gauge, None), "metric").used
        return tuple(amount.length.value for amount in (used.low, used.expected, used.high))

    def is_inside(self, width: float = 1.0) -> bool:
        """Whether what is printed lies in the span, or in one so many times as wide."""
        low, expected, high = self.span()
        return (
            self.least_m <= expected + width * (high - expected)
            and expected - width * (expected - low) <= self.most_m
        )


def socks(stitches: int) -> tuple[WorkSegment, ...]:
    """A pair of so many stitches around: 64 make 1,677 cm² (R. Buchanan, Spin-Off); 32 x 44 in 10 cm are 14.08 in 1."""
    return (WorkSegment("all", round(1677 * 14.08 * stitches / 64)),)


def in_grams(least: float, most: float, metres_in_100_g: float) -> tuple[float, float]:
    return least * metres_in_100_g / 100, most * metres_in_100_g / 100


FOUR_PLY, SOCK = Gauge(stitches=28, rows=36), Gauge(stitches=32, rows=44)
AMOUNTS = (
    # A hand-knitting handbook: 45 stitches, not 44 or 46, from a yard at 5 x 7 in an inch.
    Piece("45 stitches", (WorkSegment("all", 45),), Gauge(stitches=5, rows=7, over=Length(1, "in")),
          0.9144 * 45 / 45.5, 0.9144 * 45 / 44.5),
    # GATE Textile 2015, question 54: 92.4 loops in 1 cm² are of 0.5 cm.
    Piece("loops", (WorkSegment("all", 10_000),), Gauge(stitches=42 / 5, rows=11, over=Length(1, "cm")), 49.5, 50.5),
    # A knitting charity's premature hat: 68 sts, 48 rounds of k2, p2, crown 68, 51, 34, 17 with a plain round between,
    # four from 50 g of 4-ply. The gauge and 400 m in 100 g are usual for 4-ply (common practice).
    Piece("premature hat", (WorkSegment("cast_on", 68, 2), WorkSegment("brim", 68, 48, True),
          WorkSegment("crown", 51, 2), WorkSegment("crown", 34, 2), WorkSegment("crown", 17)), FOUR_PLY,
          *in_grams(12, 13, 400)),
    # A charity pattern, themakeyourownzone.com (newborn knit baby hat): 48 sts, 10 in around, 6 rows of rib, 18 rows to
    # 3 in, k2tog across three times with a row between, "about 35 yards are needed" of class 4.
    Piece("newborn hat", (WorkSegment("cast_on", 48, 2), WorkSegment("brim", 48, 6, True), WorkSegment("body", 48, 18),
          WorkSegment("crown", 24, 2), WorkSegment("crown", 12, 2), WorkSegment("crown", 6)),
          Gauge(stitches=48, rows=60, over=Length(10, "in")), 34.5 * 0.9144, 35.5 * 0.9144),
    # skauogco.blogspot.com, 2021: a pair for a grown-up woman takes 69 g; sock yarn has 400 to 420 m in 100 g.
    Piece("women's socks", socks(64), SOCK, in_grams(68.5, 69.5, 400)[0], in_grams(68.5, 69.5, 420)[1]),
)  # fmt: skip
"""Every amount of yarn in the references for which stitches and gauge are printed or usual, but that of a machine.

Not here, since neither stitches nor gauge are printed: a child's hat of 35 g, a baby's of 15 g, a man's of 90 g. No
more were found.
"""

# miezinger.de: a pair of 62 stitches, size 38, takes 61 g. The constants of a loop are those of hand knitting, and this
# pair was knitted by machine.
MACHINE_KNIT = Piece(
    "machine-knit socks", socks(62), SOCK, in_grams(60.5, 61.5, 400)[0], in_grams(60.5, 61.5, 420)[1]
)

SOLD_FOR = (
    # Everybody, as the reference sheet has it: a ball of 100 g and 400 to 420 m makes a pair, with some left.
    Piece("a ball for a pair", socks(64), SOCK, 0, 400),
    # Patons PAK0416-030197M: a beret of 64 to 88 stitches at 15 x 18 from a ball of 193 m; 25 cm, at most, are 45
    # rounds.
    Piece("beret", (WorkSegment("cast_on", 64, 2), WorkSegment("all", 88, 45)), Gauge(stitches=15, rows=18), 0, 193),
    # The yarn table of a handbook in the series For Dummies: yards that are enough for a hat, by yarn class. A hat of
    # 50 cm and 20 cm deep, a quarter of it crown.
    *(
        Piece(f"{stitches} stitches",
              (WorkSegment("cast_on", 5 * stitches, 2), WorkSegment("all", 5 * stitches, 2 * rows)),
              Gauge(stitches=stitches, rows=rows), 0, yards * 0.9144)
        for stitches, rows, yards in ((24, 32, 250), (22, 30, 200), (18, 24, 150), (14, 19, 125))
    ),
)  # fmt: skip
"""Upper bounds: yarn that is said to be enough for a piece, from which nobody can tell how much it takes."""


def test_published_amounts_lie_in_the_span() -> None:
    """Five of five amounts: two hats, a pair of socks, two lengths of loops."""
    assert [piece.name for piece in AMOUNTS if not piece.is_inside()] == []
    assert len(AMOUNTS) == 5


def test_the_span_is_not_wider_than_it_must_be() -> None:
    """A fifth narrower it holds four of the five."""
    assert [piece.name for piece in AMOUNTS if not piece.is_inside(0.8)] == ["newborn hat"]


def test_socks_of_a_machine_take_a_little_less_than_the_span() -> None:
    """At most 258.3 m, where by hand 259.2 m are the least: with this pair it were five of six."""
    low, _, _ = MACHINE_KNIT.span()
    assert MACHINE_KNIT.most_m < low
    assert MACHINE_KNIT.is_inside(1.05)


@pytest.mark.parametrize("piece", SOLD_FOR, ids=lambda piece: piece.name)
def test_what_is_said_to_be_enough_is_enough(piece: Piece) -> None:
    """The most that a piece may take is less than what is sold or bought for it."""
    _, _, high = piece.span()
    assert high < piece.most_m


def test_the_span_is_said_with_its_shares() -> None:
    """Constants from memory and print, 5 % of a label and 3 % of a gauge make -8.5 % and +6.8 % (JCGM 100:2008)."""
    rules = [basis.rule for basis in fabric_of(FOUR_PLY, None).basis]
    assert any("± 5 %" in rule and "± 3 %" in rule and "-8.5 % and +6.8 %" in rule for rule in rules)


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
