"""Purchase of yarn for one piece of work: a margin and whole balls."""

from collections.abc import Sequence
from math import ceil
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible
from roundwright.knitting.quantities import UnitSystem
from roundwright.knitting.yarn.amount import YarnAmount, YarnQuantity, YarnRange, yarn_amount
from roundwright.knitting.yarn.label import Money, cost
from roundwright.knitting.yarn.per_stitch import Fabric
from roundwright.language import say

MOST_BALLS: Final = 1_000_000
"""Balls in one order: more than a mill spins in a year."""
LARGEST_MARGIN: Final = 200.0
"""Per cent bought over what is used: three times the yarn is the most a buying table recommends."""

MarginPercent = Annotated[
    float,
    Meta(
        ge=0.0,
        le=LARGEST_MARGIN,
        description="Per cent bought on top of the highest estimate, for tails and mistakes, without a swatch.",
    ),
]
DEFAULT_MARGIN: Final = 10.0

BUY_BASIS: Final = Basis(
    say("yarn.buy_basis"),
    COMMON_PRACTICE,
)


class Purchase(Struct, frozen=True, kw_only=True):
    """Yarn to buy: more than is used, and whole balls."""

    margin_percent: Annotated[
        float, Meta(description="Per cent on top of the highest estimate, for tails and mistakes.")
    ]
    amount: Annotated[YarnAmount, Meta(description="The highest estimate with the margin.")]
    balls: Annotated[
        Annotated[int, Meta(ge=0)] | None,
        Meta(description="Whole balls that hold it; null when a ball's size was not given."),
    ] = None
    left_over: Annotated[
        YarnAmount | None, Meta(description="What the balls hold over the expected use; null without balls.")
    ] = None
    cost: Annotated[Money | None, Meta(description="Price of the balls; null without a price.")] = None


def purchase(used: YarnRange, fabric: Fabric, units: UnitSystem, margin_percent: float) -> Purchase:
    """The highest estimate with the margin, in whole balls: how many, what remains of them, what they cost.

    Raises `Impossible` for more balls than anybody could buy.
    """
    balls = with_margin(used, margin_percent).ratio(fabric.strand.ball)
    count = None if balls is None else whole_balls(balls, fabric.yarn_at)
    return purchase_of_balls(used, count, fabric, units, margin_percent)


def all_colours(
    used: YarnRange, colours: Sequence[Purchase], fabric: Fabric, units: UnitSystem, margin_percent: float
) -> Purchase:
    """The purchase of all colours: the balls of each, since a ball has one colour; without colours as `purchase`."""
    if not colours:
        return purchase(used, fabric, units, margin_percent)
    balls = [bought.balls for bought in colours if bought.balls is not None]
    count = sum(balls) if len(balls) == len(colours) else None
    return purchase_of_balls(used, count, fabric, units, margin_percent)


def with_margin(used: YarnRange, margin_percent: float) -> YarnQuantity:
    """The highest estimate with the margin."""
    return used.high.times(1 + margin_percent / 100)


def purchase_of_balls(
    used: YarnRange, balls: int | None, fabric: Fabric, units: UnitSystem, margin_percent: float
) -> Purchase:
    """The given number of balls, bought for this use."""
    amount = yarn_amount(with_margin(used, margin_percent), units)
    if balls is None:
        return Purchase(margin_percent=margin_percent, amount=amount)
    price = fabric.yarn.price if fabric.yarn else None
    return Purchase(
        margin_percent=margin_percent,
        amount=amount,
        balls=balls,
        left_over=yarn_amount(fabric.strand.ball.times(balls).less(used.expected), units),
        cost=cost(balls, price) if price else None,
    )


def whole_balls(balls: float, pointer: str = "#/yarn") -> int:
    """Balls rounded up to whole ones: 16.5 balls are 17.

    Raises `Impossible` for more balls than anybody could buy.
    """
    # 0.1 * 3 / 0.1 must be three balls, not four: the last bits of a division are noise.
    count = ceil(round(balls, 9)) if balls <= MOST_BALLS else MOST_BALLS + 1
    if count > MOST_BALLS:
        raise Impossible(
            say("yarn.too_many_balls", balls=balls),
            code="too_many",
            pointer=pointer,
            nearest=say("yarn.balls", balls=MOST_BALLS),
        )
    return count
