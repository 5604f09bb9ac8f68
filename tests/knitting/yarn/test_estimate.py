"""Yarn: what is used, what to buy, whole balls for one and for a class."""

from decimal import Decimal
from math import ceil

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Gauge, Length, Mass, YarnCount
from roundwright.knitting.rounds.round import Repeat, Work
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.yarn.estimate import estimate
from roundwright.knitting.yarn.fabric import fabric
from roundwright.knitting.yarn.label import Price, Yarn, cost, strand, whole
from roundwright.knitting.yarn.per_stitch import Stretch, Swatch, loops, stretches
from roundwright.knitting.yarn.purchase import HatWork, class_order
from roundwright.knitting.yarn.yarn_count import fineness, tex

WETHER = Yarn(
    name="Quillhaven Wether", length=Length(210, "m"), mass=Mass(100, "g"), price=Price(7.35, "EUR")
)
GAUGE = Gauge(stitches=19, rows=27)

works = st.lists(
    st.builds(
        Stretch,
        st.sampled_from(["brim", "body", "crown", "cord"]),
        st.integers(1, 600),
        st.integers(1, 100),
        st.booleans(),
    ),
    min_size=1,
    max_size=6,
).map(tuple)
gauges = st.builds(
    Gauge, stitches=st.floats(5, 45, allow_nan=False), rows=st.none() | st.floats(6, 70, allow_nan=False)
)


# --- fineness ---------------------------------------------------------------------------------------------------


@given(
    st.floats(0.001, 1e6),
    st.sampled_from(["tex", "dtex", "denier", "nm", "ne", "worsted"]),
)
def test_a_count_comes_back_from_tex(value: float, unit: str) -> None:
    """A yarn said in tex and back in its own system is the same yarn."""
    assert getattr(fineness(tex(YarnCount(value, unit))), unit) == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize(
    "yarn",
    [
        Yarn(length=Length(210, "m"), mass=Mass(100, "g")),
        Yarn(count=YarnCount(2.1, "nm"), mass=Mass(100, "g")),
        Yarn(count=YarnCount(2.1, "nm"), length=Length(210, "m")),
        Yarn(count=YarnCount(2.1, "nm"), length=Length(210, "m"), mass=Mass(100, "g")),
    ],
)
def test_any_two_of_length_mass_and_count_make_the_third(yarn: Yarn) -> None:
    """Nm is metres in a gram: 210 m in 100 g are Nm 2.1 (ISO 1144)."""
    made_out = strand(yarn)
    assert (made_out.tex, made_out.ball_mm, made_out.ball_g) == pytest.approx((1000 / 2.1, 210_000, 100))


@pytest.mark.parametrize(
    ("yarn", "pointer"),
    [
        (Yarn(name="nothing said"), "#/yarn"),
        (Yarn(count=YarnCount(2.1, "nm"), price=Price(7, "EUR")), "#/yarn/price"),
        (
            Yarn(length=Length(210, "m"), mass=Mass(100, "g"), count=YarnCount(4, "nm")),
            "#/yarn/count",
        ),
        (Yarn(length=Length(210, "mm"), mass=Mass(100, "kg")), "#/yarn"),
        (Yarn(length=Length(210, "m"), mass=Mass(0.1, "g")), "#/yarn"),
        (Yarn(mass=Mass(100, "g")), "#/yarn"),
    ],
)
def test_a_label_that_makes_no_yarn_is_refused(yarn: Yarn, pointer: str) -> None:
    """The refusal points at the field and names what would do."""
    with pytest.raises(Impossible) as refused:
        fabric(GAUGE, yarn)
    assert refused.value.pointer == pointer
    assert refused.value.nearest


# --- what is used -----------------------------------------------------------------------------------------------


@given(works, gauges)
def test_expected_lies_between_low_and_high(work: tuple[Stretch, ...], gauge: Gauge) -> None:
    """Whatever is knitted, and in every part of it."""
    answer = estimate(work, fabric(gauge, WETHER), "metric")
    for used in (answer.used, *(part.used for part in answer.parts)):
        assert 0 < used.low.length.value <= used.expected.length.value <= used.high.length.value
        assert 0 < used.low.mass.value <= used.expected.mass.value <= used.high.mass.value


@given(works, gauges)
def test_parts_add_up(work: tuple[Stretch, ...], gauge: Gauge) -> None:
    """The parts are the whole, in stitches and in yarn."""
    answer = estimate(work, fabric(gauge, WETHER), "metric")
    assert sum(part.stitches for part in answer.parts) == answer.stitches
    for bound in ("low", "expected", "high"):
        parts = sum(getattr(part.used, bound).length.value for part in answer.parts)
        assert parts == pytest.approx(getattr(answer.used, bound).length.value, rel=1e-4)


def test_finer_gauge_takes_more_yarn_for_the_same_cloth() -> None:
    """By l = sqrt(ks / S) cloth of one area takes yarn as the square root of its stitches: four times, twice."""
    coarse = estimate((Stretch("all", 20 * 28),), fabric(Gauge(stitches=20, rows=28), None), "metric")
    fine = estimate((Stretch("all", 40 * 56),), fabric(Gauge(stitches=40, rows=56), None), "metric")
    assert fine.used.expected.length.value == pytest.approx(2 * coarse.used.expected.length.value, rel=1e-5)


def test_rib_widens_the_high_end_only() -> None:
    """Rib takes more than plain knit (published without a figure); a tenth is this service's common practice."""
    plain, rib = (
        estimate((Stretch("brim", 80, 12, ribbed),), fabric(GAUGE, WETHER), "metric")
        for ribbed in (False, True)
    )
    assert (plain.used.low, plain.used.expected) == (rib.used.low, rib.used.expected)
    assert rib.used.high.mass.value == pytest.approx(1.1 * plain.used.high.mass.value, rel=1e-5)
    assert any("Rib" in basis.rule for basis in rib.basis)


def test_held_double_takes_twice_the_yarn() -> None:
    """Two strands worked as one are two loops to a stitch."""
    single, double = (
        estimate(
            (Stretch("body", 80, 30),),
            fabric(GAUGE, Yarn(length=Length(400, "m"), mass=Mass(100, "g"), held=held)),
            "metric",
        )
        for held in (1, 2)
    )
    assert double.used.expected.mass.value == pytest.approx(2 * single.used.expected.mass.value, rel=1e-5)


def test_without_a_yarn_lengths_are_told() -> None:
    """The law needs no label: a length, but neither mass nor balls."""
    answer = estimate((Stretch("body", 80, 30),), fabric(GAUGE, None), "imperial")
    assert answer.used.expected.length.unit == "yd"
    assert (answer.used.expected.mass, answer.to_buy.balls, answer.fineness) == (None, None, None)


def test_slipped_stitches_take_no_yarn() -> None:
    """A decrease is one loop, an increase in one stitch two, a slipped stitch none (common practice)."""
    rounds = (
        work_round(1, 12, (Repeat(3, (Work("k", 2), Work("k2tog"))),)),
        work_round(2, 9, (Repeat(3, (Work("sl"), Work("k", 2))),)),
        work_round(3, 9, (Work("kfb"), Work("k", 8))),
    )
    assert [loops(each.steps) for each in rounds] == [9, 6, 10]
    assert [each.ribbed for each in stretches(rounds, "crown")] == [False, False, False]


def test_knit_beside_purl_is_rib() -> None:
    """A round with both is rib, whatever it is called."""
    rib = work_round(1, 8, (Repeat(2, (Work("k", 2), Work("p", 2))),))
    assert [each.ribbed for each in stretches((rib,), "brim")] == [True]


def test_work_without_a_stitch_is_refused() -> None:
    """Nothing knitted is no estimate."""
    with pytest.raises(Impossible):
        estimate((Stretch("body", 80, 0),), fabric(GAUGE, WETHER), "metric")


# --- a weighed swatch -------------------------------------------------------------------------------------------


def test_the_scale_is_the_uncertainty_of_a_swatch() -> None:
    """A reading of 4 g in steps of 1 g is 3.5 to 4.5 g; a finer scale is nearer."""
    by = fabric(None, WETHER, Swatch(stitches=20, rows=30, mass=Mass(4, "g")))
    used = estimate((Stretch("all", 600),), by, "metric").used
    assert (used.low.mass.value, used.expected.mass.value, used.high.mass.value) == (3.5, 4, 4.5)
    assert used.expected.length.value == pytest.approx(8.4)


def test_a_swatch_too_light_for_the_scale_is_refused() -> None:
    """A kitchen scale that reads whole grams knows nothing of half a gram."""
    with pytest.raises(Impossible) as refused:
        fabric(None, WETHER, Swatch(stitches=5, rows=5, mass=Mass(0.5, "g")))
    assert refused.value.pointer == "#/swatch/mass"


def test_a_swatch_by_mass_alone_tells_masses_and_balls() -> None:
    """A ball that only says 100 g is enough for a swatch on the scales."""
    yarn = Yarn(mass=Mass(100, "g"), price=Price(5, "EUR"))
    by = fabric(None, yarn, Swatch(stitches=30, rows=40, mass=Mass(12, "g")))
    answer = estimate((Stretch("all", 12_000),), by, "metric", 0)
    assert (answer.used.expected.mass.value, answer.used.expected.length) == (120, None)
    assert (answer.to_buy.balls, answer.to_buy.cost.amount) == (2, 10)


def test_a_swatch_far_from_its_gauge_is_remarked_on() -> None:
    """The swatch is believed, and the knitter told."""
    swatch = Swatch(stitches=20, rows=28, mass=Mass(40, "g"))
    assert [each.code for each in fabric(GAUGE, WETHER, swatch).warnings] == ["swatch_far_from_gauge"]


# --- what to buy ------------------------------------------------------------------------------------------------


@given(works, st.floats(0, 200))
def test_the_balls_hold_what_is_wanted_and_no_ball_is_spare(work: tuple[Stretch, ...], margin: float) -> None:
    """So many balls do, one fewer would not."""
    bought = estimate(work, fabric(GAUGE, WETHER), "metric", margin).to_buy
    wanted = bought.amount.length.value
    assert bought.balls * 210 >= wanted * (1 - 1e-5)
    assert (bought.balls - 1) * 210 < wanted * (1 + 1e-5)
    assert bought.cost.amount == float(Decimal("7.35") * bought.balls)


@pytest.mark.parametrize(("balls", "count"), [(0.1 * 3 / 0.1, 3), (16.5, 17), (2.001, 3)])
def test_a_hair_over_is_no_ball(balls: float, count: int) -> None:
    """0.1 × 3 / 0.1 is 3.0000000000000004 to a machine, and three balls to a knitter."""
    assert whole(balls) == count


@pytest.mark.parametrize(("amount", "balls", "total"), [(6.1, 3, 18.3), (0.1, 3, 0.3), (1234, 2, 2468)])
def test_money_is_decimal(amount: float, balls: int, total: float) -> None:
    """Three balls at 6.10 are 18.30, never 18.299999999999997."""
    assert cost(balls, Price(amount, "EUR")).amount == total


def test_more_balls_than_anyone_could_buy_are_refused() -> None:
    """A ball of a thousandth of a millimetre is a mistake in the units."""
    yarn = Yarn(length=Length(1, "mm"))
    with pytest.raises(Impossible) as refused:
        estimate((Stretch("all", 10_000_000),), fabric(GAUGE, yarn), "metric")
    assert refused.value.pointer == "#/yarn"


@given(
    st.lists(st.tuples(st.integers(1, 30), works), min_size=1, max_size=5),
    st.floats(0, 50),
    st.floats(20, 400),
)
def test_sharing_never_takes_more_balls(
    sizes: list[tuple[int, tuple[Stretch, ...]]], margin: float, ball_m: float
) -> None:
    """A basket for all is at most what everyone buys alone, and what it must hold is the sum."""
    yarn = Yarn(length=Length(ball_m, "m"), mass=Mass(50, "g"), price=Price(4.2, "EUR"))
    assume(0.02 < ball_m / 50 < 100)
    by = fabric(GAUGE, yarn)
    order = class_order(
        tuple(HatWork(str(index), makers, work) for index, (makers, work) in enumerate(sizes)),
        by,
        "metric",
        margin,
    )
    assert order.makers == sum(makers for makers, _ in sizes)
    assert order.own.balls == sum(line.makers * line.each.balls for line in order.lines)
    assert (
        ceil(order.shared.amount.length.value / ball_m * (1 - 1e-5)) <= order.shared.balls <= order.own.balls
    )
    assert order.shared.cost.amount <= order.own.cost.amount


def test_a_class_of_three_sizes() -> None:
    """Four knitters with half a ball each: four balls of their own, or two for the basket (arithmetic)."""
    # 10 000 stitches of a swatch that takes 45 g for as many: 0.45 of a ball, without a margin.
    swatch = Swatch(stitches=100, rows=100, mass=Mass(45, "g"), scale=Mass(0.001, "g"))
    by = fabric(None, WETHER, swatch)
    hats = (HatWork("Ilse", 1, (Stretch("all", 10_000),)), HatWork("Tovi", 3, (Stretch("all", 10_000),)))
    order = class_order(hats, by, "metric", 0)
    assert (order.own.balls, order.shared.balls) == (4, 2)
    assert (order.own.cost.amount, order.shared.cost.amount) == (29.4, 14.7)
    assert order.shared.left_over.mass.value == pytest.approx(20, abs=0.01)
