"""Yarn to buy: whole balls for one piece of work."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Length
from roundwright.knitting.yarn.estimate import estimate
from roundwright.knitting.yarn.label import Price, Yarn, cost
from roundwright.knitting.yarn.per_stitch import fabric_of
from roundwright.knitting.yarn.purchase import whole_balls
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
