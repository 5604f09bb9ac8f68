"""Yarn for stitches, rounds and hats."""

from contextlib import suppress
from math import isfinite

import msgspec
import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat.plan import hats
from roundwright.knitting.hat.request import Brim, HatRequest, HatSize
from roundwright.knitting.quantities import Gauge, Length, Mass
from roundwright.knitting.rounds.round import Repeat, Work
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.work.yarn_estimate import MOST_WORKED, EstimateRequest, yarn_estimate
from roundwright.knitting.yarn.label import Price, Yarn
from roundwright.knitting.yarn.per_stitch import Swatch

WETHER = Yarn(length=Length(210, "m"), mass=Mass(100, "g"), price=Price(8.4, "EUR"))
GAUGE = Gauge(stitches=19, rows=27)
HAT = HatRequest(
    gauge=GAUGE,
    yarn=WETHER,
    sizes=(HatSize(label="Tovi", age_months=6, makers=3), HatSize(label="Bexa", adult="woman", makers=2)),
    brim=Brim(kind="ribbed"),
)


@pytest.mark.parametrize(
    ("request_", "pointer"),
    [
        (EstimateRequest(gauge=GAUGE), "#"),
        (EstimateRequest(gauge=GAUGE, stitches=100, hat=HAT), "#/hat"),
        (EstimateRequest(gauge=GAUGE, hat=HAT), "#/gauge"),
        (EstimateRequest(stitches=100), "#/gauge"),
        (EstimateRequest(gauge=Gauge(stitches=1000, over=Length(1, "mm")), stitches=1), "#/gauge/stitches"),
        (
            EstimateRequest(hat=HatRequest(gauge=Gauge(stitches=0.2), sizes=HAT.sizes)),
            "#/hat/gauge/stitches",
        ),
        (
            EstimateRequest(hat=HatRequest(gauge=GAUGE, sizes=HAT.sizes, yarn=Yarn(mass=Mass(50, "g")))),
            "#/hat/yarn",
        ),
    ],
)
def test_what_cannot_be_estimated_is_refused(request_: EstimateRequest, pointer: str) -> None:
    """The error names the field, inside a hat as well, and the nearest thing that works."""
    with pytest.raises(Impossible) as error:
        yarn_estimate(request_)
    assert error.value.pointer == pointer
    assert error.value.nearest


def test_rounds_are_sorted_into_brim_body_and_crown() -> None:
    """Rib comes first, the crown starts at the first decrease (common practice), loops are counted round by round."""
    rib = (Repeat(24, (Work("k"), Work("p"))),)
    rounds = (
        work_round(1, 48, rib),
        work_round(2, 48, rib),
        work_round(3, 48, (Work("k", 48),)),
        work_round(4, 48, (Repeat(6, (Work("k", 6), Work("k2tog"))),)),
        work_round(5, 42, (Work("k", 42),)),
    )
    answer = yarn_estimate(EstimateRequest(gauge=GAUGE, rounds=rounds, yarn=WETHER))
    assert [(part.part, part.stitches) for part in answer.parts] == [
        ("brim", 96),
        ("body", 48),
        ("crown", 84),
    ]


def test_rounds_that_do_not_chain_are_refused() -> None:
    """42 stitches do not make a round of 48."""
    rounds = (work_round(1, 42, (Work("k", 42),)), work_round(2, 48, (Work("k", 48),)))
    with pytest.raises(Impossible) as error:
        yarn_estimate(EstimateRequest(gauge=GAUGE, rounds=rounds))
    assert error.value.pointer.startswith("#/rounds/1")


def test_a_hat_is_estimated_as_its_plan_is() -> None:
    """The yarn of every size and the order are those of the whole hat's plan."""
    plan = hats(HAT, lambda *_: "")
    answer = yarn_estimate(EstimateRequest(hat=HAT))
    assert [size.used for size in answer.sizes] == [size.yarn.used for size in plan.sizes]
    assert [size.to_buy for size in answer.sizes] == [size.yarn.to_buy for size in plan.sizes]
    assert answer.order == plan.order
    assert answer.to_buy == plan.order.shared
    assert answer.used == plan.order.used


def test_everybodys_hats_are_the_sum_of_the_sizes() -> None:
    """Three of one size and two of the other."""
    answer = yarn_estimate(EstimateRequest(hat=HAT))
    small, large = answer.sizes
    assert answer.stitches == 3 * small.stitches + 2 * large.stitches
    assert answer.order.own.balls == 3 * small.to_buy.balls + 2 * large.to_buy.balls
    assert answer.to_buy.balls == answer.order.shared.balls


def test_another_yarn_for_the_same_hat() -> None:
    """A yarn given beside the hat takes the place of the hat's."""
    thin = Yarn(length=Length(420, "m"), mass=Mass(100, "g"))
    mine, other = (yarn_estimate(EstimateRequest(hat=HAT, yarn=yarn)) for yarn in (None, thin))
    assert other.used.expected.length == mine.used.expected.length
    assert other.used.expected.mass.value == pytest.approx(mine.used.expected.mass.value / 2, rel=1e-5)
    assert (mine.to_buy.cost is None, other.to_buy.cost is None) == (False, True)


def test_other_balls_for_the_same_work() -> None:
    """What to buy stands in both yarns; of a hat the whole order does, and the request's yarn goes before the hat's."""
    small = Yarn(length=Length(105, "m"), mass=Mass(50, "g"), price=Price(5, "EUR"))
    answer = yarn_estimate(EstimateRequest(stitches=10_000, gauge=GAUGE, yarn=WETHER, other_yarn=small))
    assert answer.to_buy_instead.amount == answer.to_buy.amount
    assert (answer.to_buy.balls, answer.to_buy_instead.balls) == (2, 3)
    in_hat = msgspec.structs.replace(HAT, other_yarn=WETHER)
    for request in (EstimateRequest(hat=in_hat), EstimateRequest(hat=in_hat, other_yarn=small)):
        instead = yarn_estimate(request)
        assert instead.to_buy_instead == instead.order_instead.shared
        assert instead.order_instead.own.cost.amount == pytest.approx(
            (8.4 if request.other_yarn is None else 5) * instead.order_instead.own.balls
        )


def test_the_margin_is_the_hats_unless_the_request_has_one() -> None:
    """Ten per cent where neither the request nor the hat has a margin."""
    request = EstimateRequest(hat=msgspec.structs.replace(HAT, margin_percent=25))
    assert yarn_estimate(request).to_buy.margin_percent == 25
    assert yarn_estimate(msgspec.structs.replace(request, margin_percent=0)).to_buy.margin_percent == 0
    assert yarn_estimate(EstimateRequest(stitches=1, gauge=GAUGE)).to_buy.margin_percent == 10


def finite(value: object) -> bool:
    """Whether no number in a JSON value is NaN or infinite."""
    if isinstance(value, dict):
        return all(map(finite, value.values()))
    if isinstance(value, list | tuple):
        return all(map(finite, value))
    return not isinstance(value, float) or isfinite(value)


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize(
    "bounds",
    [
        {"stitches": 1, "gauge": Gauge(stitches=25, rows=25, over=Length(1, "cm"))},
        {"stitches": MOST_WORKED, "gauge": Gauge(stitches=1, rows=1, over=Length(10, "cm"))},
        {
            "stitches": MOST_WORKED,
            "swatch": Swatch(stitches=1, rows=1, mass=Mass(1e6, "lb")),
            "yarn": Yarn(length=Length(1e6, "yd")),
        },
        {
            "stitches": MOST_WORKED,
            "swatch": Swatch(stitches=1, rows=1, mass=Mass(1e6, "lb"), scale=Mass(1e6, "lb")),
            "yarn": Yarn(mass=Mass(0.001, "g")),
        },
        {
            "stitches": 1,
            "swatch": Swatch(stitches=1000, rows=1000, mass=Mass(0.001, "g"), scale=Mass(0.001, "g")),
            "yarn": Yarn(length=Length(1e6, "yd"), mass=Mass(1e6, "lb"), price=Price(1e6, "EUR")),
        },
    ],
)
def test_the_corners_of_the_bounds_are_answered_or_refused(bounds: dict[str, object], units: str) -> None:
    """Every figure of an answer is finite; what comes to more than anybody could buy is refused."""
    with suppress(Impossible):
        assert finite(
            msgspec.to_builtins(yarn_estimate(EstimateRequest(units=units, **bounds)), enc_hook=str)
        )
