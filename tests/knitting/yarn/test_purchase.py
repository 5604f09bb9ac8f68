"""Yarn to buy: whole balls for one knitter and for a class."""

from decimal import Decimal
from math import ceil

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Length, Mass
from roundwright.knitting.yarn.estimate import estimate
from roundwright.knitting.yarn.label import Price, Yarn
from roundwright.knitting.yarn.per_stitch import Swatch, fabric_of
from roundwright.knitting.yarn.purchase import HatWork, class_order, cost, whole_balls
from roundwright.knitting.yarn.segments import WorkSegment
from tests.support.yarns import GAUGE, WETHER, works


@given(works, st.floats(0, 200))
def test_the_balls_hold_the_amount_and_no_ball_is_spare(
    segments: tuple[WorkSegment, ...], margin: float
) -> None:
    """This number of balls is enough, one fewer is not."""
    bought = estimate(segments, fabric_of(GAUGE, WETHER), "metric", margin).to_buy
    needed_m = bought.amount.length.value
    assert bought.balls * 210 >= needed_m * (1 - 1e-5)
    assert (bought.balls - 1) * 210 < needed_m * (1 + 1e-5)
    assert bought.cost.amount == float(Decimal("7.35") * bought.balls)


@pytest.mark.parametrize(("balls", "count"), [(0.1 * 3 / 0.1, 3), (16.5, 17), (2.001, 3)])
def test_noise_in_the_last_digits_is_no_ball(balls: float, count: int) -> None:
    """0.1 × 3 / 0.1 is 3.0000000000000004 to a machine, and three balls to a knitter."""
    assert whole_balls(balls) == count


@pytest.mark.parametrize(("amount", "balls", "total"), [(6.1, 3, 18.3), (0.1, 3, 0.3), (1234, 2, 2468)])
def test_money_is_decimal(amount: float, balls: int, total: float) -> None:
    """Three balls at 6.10 are 18.30, never 18.299999999999997."""
    assert cost(balls, Price(amount, "EUR")).amount == total


def test_more_balls_than_anyone_could_buy_are_refused() -> None:
    """A ball of a thousandth of a millimetre is a mistake in the units."""
    yarn = Yarn(length=Length(1, "mm"))
    with pytest.raises(Impossible) as error:
        estimate((WorkSegment("all", 10_000_000),), fabric_of(GAUGE, yarn), "metric")
    assert error.value.pointer == "#/yarn"


@given(
    st.lists(st.tuples(st.integers(1, 30), works), min_size=1, max_size=5),
    st.floats(0, 50),
    st.floats(20, 400),
)
def test_sharing_never_takes_more_balls(
    sizes: list[tuple[int, tuple[WorkSegment, ...]]], margin: float, ball_m: float
) -> None:
    """A basket for all is at most what everyone buys alone, and what it must hold is the sum."""
    yarn = Yarn(length=Length(ball_m, "m"), mass=Mass(50, "g"), price=Price(4.2, "EUR"))
    assume(0.02 < ball_m / 50 < 100)
    fabric = fabric_of(GAUGE, yarn)
    order = class_order(
        tuple(HatWork(str(index), makers, segments) for index, (makers, segments) in enumerate(sizes)),
        fabric,
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
    fabric = fabric_of(None, WETHER, swatch)
    hats = (
        HatWork("Ilse", 1, (WorkSegment("all", 10_000),)),
        HatWork("Tovi", 3, (WorkSegment("all", 10_000),)),
    )
    order = class_order(hats, fabric, "metric", 0)
    assert (order.own.balls, order.shared.balls) == (4, 2)
    assert (order.own.cost.amount, order.shared.cost.amount) == (29.4, 14.7)
    assert order.shared.left_over.mass.value == pytest.approx(20, abs=0.01)
