"""Yarn for a class: balls of their own, one basket, kits, and another yarn in place of the pattern's."""

import json
from math import ceil
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Length, Mass
from roundwright.knitting.yarn.label import Price, Yarn
from roundwright.knitting.yarn.order import HatWork, YarnOrder, class_order
from roundwright.knitting.yarn.per_stitch import Fabric, Swatch, fabric_of, in_other_yarn
from roundwright.knitting.yarn.segments import WorkSegment
from tests.support.hats import hats
from tests.support.yarns import GAUGE, WETHER, works

CLASS_HATS: dict[str, Any] = json.loads(
    (Path(__file__).parents[3] / "examples" / "requests" / "class-hats.json").read_text()
)


NO_TAIL = 0.0


def weighed(yarn: Yarn = WETHER) -> Fabric:
    """A fabric of which 10 000 stitches take 45 g, without any span."""
    return fabric_of(None, yarn, Swatch(stitches=100, rows=100, mass=Mass(45, "g"), scale=Mass(0.001, "g")))


def hat(label: str, makers: int, grams: float) -> HatWork:
    """A hat of so many grams in that fabric."""
    return HatWork(label, makers, (WorkSegment("all", round(grams / 45 * 10_000)),), NO_TAIL)


def order(*hat_works: HatWork, yarn: Yarn = WETHER) -> YarnOrder:
    return class_order(hat_works, weighed(yarn), "metric", 0)


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
        tuple(
            HatWork(str(index), makers, segments, NO_TAIL) for index, (makers, segments) in enumerate(sizes)
        ),
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
        HatWork("Ilse", 1, (WorkSegment("all", 10_000),), NO_TAIL),
        HatWork("Tovi", 3, (WorkSegment("all", 10_000),), NO_TAIL),
    )
    order = class_order(hats, fabric, "metric", 0)
    assert (order.own.balls, order.shared.balls) == (4, 2)
    assert (order.own.cost.amount, order.shared.cost.amount) == (29.4, 14.7)
    assert order.shared.left_over.mass.value == pytest.approx(20, abs=0.01)


def test_the_class_of_the_readme_needs_seven_balls() -> None:
    """Five grown-ups' hats of more than half a ball need a ball each, and of the nine smaller hats two more balls are
    filled: six balls hold the yarn, but only with a hat knitted from two (arithmetic).
    """
    basket = hats(**CLASS_HATS)["order"]["one_basket"]
    assert (basket["balls"], basket["method"]) == (7, "exact")
    assert basket["cost"] == {"amount": 59.5, "currency": "EUR"}


def test_no_hat_is_knitted_from_two_balls() -> None:
    """Three hats of 60 g need three balls of 100 g, though two hold their yarn: a knitter wants no join."""
    assert order(hat("Ilse", 3, 60)).shared.balls == 3


def test_a_hat_of_more_than_a_ball_takes_whole_balls_and_one_piece() -> None:
    """130 g of balls of 100 g: a ball of its own, and 30 g; three such pieces come from one ball."""
    basket = order(hat("Ilse", 3, 130)).one_basket
    assert basket is not None
    assert (basket.balls, basket.kits[0].whole_balls) == (4, 1)
    own, shared = basket.contents
    assert (own.balls, own.pieces[0].hats, own.pieces[0].amount.mass.value) == (3, 1, 100)
    assert (shared.balls, shared.pieces[0].hats) == (1, 3)
    assert shared.pieces[0].amount.mass.value == pytest.approx(30, abs=0.01)


def test_without_the_size_of_a_ball_there_is_no_basket() -> None:
    """A length of yarn alone says nothing of balls."""
    assert class_order((hat("Ilse", 2, 30),), fabric_of(GAUGE, None), "metric").one_basket is None


@given(
    st.lists(st.tuples(st.integers(1, 6), st.floats(1, 250)), min_size=1, max_size=5),
    st.sampled_from([Price(7.35, "EUR"), Price(900, "JPY")]),
)
def test_everybody_gets_a_kit_and_the_kits_pay_for_the_basket(
    makers_and_grams: list[tuple[int, float]], price: Price
) -> None:
    """Every ball holds what comes from it, every hat has its yarn, and prices round up to what can be paid."""
    yarn = Yarn(length=Length(210, "m"), mass=Mass(100, "g"), price=price)
    works = [hat(str(index), makers, grams) for index, (makers, grams) in enumerate(makers_and_grams)]
    basket = order(*works, yarn=yarn).one_basket
    assert basket is not None
    assert sum(ball.balls for ball in basket.contents) == basket.balls
    wound_off = dict.fromkeys((work.label for work in works), 0.0)
    for ball in basket.contents:
        inside = sum(piece.hats * piece.amount.mass.value for piece in ball.pieces)
        assert inside + ball.left_over.mass.value == pytest.approx(100, rel=1e-4)
        for piece in ball.pieces:
            wound_off[piece.label] += ball.balls * piece.hats * piece.amount.mass.value
    for kit in basket.kits:
        assert wound_off[kit.label] == pytest.approx(kit.makers * kit.amount.mass.value, rel=1e-4, abs=0.01)
    paid = sum(kit.makers * kit.price.amount for kit in basket.kits)
    smallest = 1 if price.currency == "JPY" else 0.01
    all_makers = sum(kit.makers for kit in basket.kits)
    assert basket.cost.amount <= paid + 1e-6 <= basket.cost.amount + smallest * all_makers + 1e-5
    assert all(round(kit.price.amount / smallest, 6).is_integer() for kit in basket.kits)


# --- another yarn -----------------------------------------------------------------------------------------------------


def test_my_balls_in_place_of_yours() -> None:
    """Yarn is replaced by its length: a hat of 94.5 m, or 45 g of a ball of 210 m, is 37.8 g of a ball of 125 m."""
    mine = Yarn(length=Length(125, "m"), mass=Mass(50, "g"))
    other = class_order((hat("Ilse", 1, 45),), in_other_yarn(weighed(), mine, "#/other_yarn"), "metric", 0)
    assert other.used.expected.length.value == pytest.approx(94.5, rel=1e-4)
    assert other.used.expected.mass.value == pytest.approx(37.8, rel=1e-4)
    assert other.shared.balls == 1


def test_the_class_in_balls_of_50_grams() -> None:
    """The order of the plan stays, and beside it stands the order in the other balls, with its own price."""
    other = {
        "mass": {"value": 50, "unit": "g"},
        "length": {"value": 125, "unit": "m"},
        "price": {"amount": 4, "currency": "EUR"},
    }
    plan = hats(**CLASS_HATS, other_yarn=other)
    assert plan["order"] == hats(**CLASS_HATS)["order"]
    instead = plan["order_instead"]
    assert instead["used"]["expected"]["length"] == plan["order"]["used"]["expected"]["length"]
    assert instead["shared"]["cost"]["amount"] == 4 * instead["one_basket"]["balls"]
    # A grown-up's hat is 113 m with the margin: a ball of 125 m each, and the others share.
    assert [line["each"]["balls"] for line in instead["lines"]] == [1, 1, 1, 1]


def test_strands_held_together_are_each_as_long() -> None:
    """A yarn held double in place of a single strand takes twice the length (arithmetic)."""
    thin = Yarn(length=Length(420, "m"), mass=Mass(100, "g"), held=2)
    double = in_other_yarn(weighed(), thin, "#/other_yarn")
    assert double.per_stitch.expected.mm == pytest.approx(2 * weighed().per_stitch.expected.mm)
    assert double.warnings == ()


@pytest.mark.parametrize(("metres", "differs"), [(125, False), (100, False), (80, True), (200, True)])
def test_a_much_thicker_or_thinner_yarn_is_a_warning(metres: float, differs: bool) -> None:
    """A quarter heavier or lighter a metre than 100 g / 210 m is another gauge (common practice)."""
    other = in_other_yarn(weighed(), Yarn(length=Length(metres, "m"), mass=Mass(50, "g")), "#/other_yarn")
    assert ("other_yarn_differs" in [notice.code for notice in other.warnings]) == differs


def test_a_swatch_known_by_mass_alone_is_not_counted_in_other_balls() -> None:
    """Grams of one yarn are no grams of another."""
    fabric = fabric_of(None, Yarn(mass=Mass(100, "g")), Swatch(stitches=20, rows=30, mass=Mass(12, "g")))
    with pytest.raises(Impossible) as error:
        in_other_yarn(fabric, WETHER, "#/other_yarn")
    assert error.value.pointer == "#/other_yarn"
    assert error.value.nearest
