"""Purchase of yarn: a margin and whole balls, for one piece of work or for a whole class."""

from collections.abc import Iterable
from decimal import Decimal
from functools import reduce
from math import ceil
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible
from roundwright.knitting.quantities import UnitSystem
from roundwright.knitting.yarn.amount import (
    YarnAmount,
    YarnQuantity,
    YarnRange,
    YarnSpan,
    yarn_amount,
    yarn_span,
)
from roundwright.knitting.yarn.label import Price
from roundwright.knitting.yarn.per_stitch import Fabric
from roundwright.knitting.yarn.segments import WorkSegment, yarn_used

MOST_BALLS: Final = 1_000_000
"""Balls in one order: more than a mill spins in a year."""
LARGEST_MARGIN: Final = 200.0
"""Per cent bought over what is used: three times the yarn is the most a buying table recommends."""

MarginPercent = Annotated[
    float,
    Meta(
        ge=0.0,
        le=LARGEST_MARGIN,
        description="Per cent bought on top of the highest estimate, for the swatch, the tails and mistakes.",
    ),
]
DEFAULT_MARGIN: Final = 10.0

BUY_BASIS: Final = Basis(
    "To buy: the highest estimate and a margin for swatch, tails and mistakes, in whole balls.",
    COMMON_PRACTICE,
)


class Money(Struct, frozen=True, forbid_unknown_fields=True):
    """An amount of money."""

    amount: Annotated[float, Meta(ge=0.0, description="How much, in the currency's main unit.")]
    currency: Annotated[str, Meta(pattern="^[A-Z]{3}$", description="ISO 4217 code of three letters.")]


class Purchase(Struct, frozen=True, kw_only=True):
    """Yarn to buy: more than is used, and whole balls."""

    margin_percent: Annotated[
        float, Meta(description="Per cent on top of the highest estimate, for swatch, tails and mistakes.")
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


class OrderLine(Struct, frozen=True, kw_only=True):
    """One size of an order."""

    label: Annotated[str, Meta(description="Name of the size.")]
    makers: Annotated[int, Meta(description="How many knitters make it, one hat each.")]
    each: Annotated[Purchase, Meta(description="Yarn for one of them, in whole balls.")]


class YarnOrder(Struct, frozen=True, kw_only=True):
    """Yarn to buy for everyone: balls of their own for every knitter, or one basket for all."""

    makers: Annotated[int, Meta(description="Knitters in all, one hat each.")]
    used: Annotated[YarnSpan, Meta(description="Yarn all the hats take.")]
    lines: Annotated[tuple[OrderLine, ...], Meta(description="Each size.")]
    own: Annotated[Purchase, Meta(description="When every knitter gets whole balls.")]
    shared: Annotated[Purchase, Meta(description="When all share one basket and wind off what they need.")]


class HatWork(NamedTuple):
    """One size of an order: its label, number of knitters, and the segments of one hat in working order."""

    label: str
    makers: int
    segments: tuple[WorkSegment, ...]


def purchase(used: YarnRange, fabric: Fabric, units: UnitSystem, margin_percent: float) -> Purchase:
    """The highest estimate with the margin, in whole balls: how many, what remains of them, what they cost.

    Raises `Impossible` for more balls than anybody could buy.
    """
    balls = _with_margin(used, margin_percent).ratio(fabric.strand.ball)
    return _purchase(used, None if balls is None else whole_balls(balls), fabric, units, margin_percent)


def _with_margin(used: YarnRange, margin_percent: float) -> YarnQuantity:
    return used.high.times(1 + margin_percent / 100)


def _purchase(
    used: YarnRange, balls: int | None, fabric: Fabric, units: UnitSystem, margin_percent: float
) -> Purchase:
    """The given number of balls, bought for this use."""
    amount = yarn_amount(_with_margin(used, margin_percent), units)
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


def class_order(
    hats: tuple[HatWork, ...], fabric: Fabric, units: UnitSystem, margin_percent: float = DEFAULT_MARGIN
) -> YarnOrder:
    """Yarn for everyone, one hat each: whole balls for every knitter, and one basket for all.

    Raises `Impossible` for more balls than anybody could buy.
    """
    used = [yarn_used(hat.segments, fabric.per_stitch) for hat in hats]
    used_by_all = YarnRange(*(_total(hats, quantities) for quantities in zip(*used, strict=True)))
    lines = tuple(
        OrderLine(
            label=hat.label, makers=hat.makers, each=purchase(used_by_one, fabric, units, margin_percent)
        )
        for hat, used_by_one in zip(hats, used, strict=True)
    )
    shared = purchase(used_by_all, fabric, units, margin_percent)
    own = None if shared.balls is None else sum(line.makers * (line.each.balls or 0) for line in lines)
    return YarnOrder(
        makers=sum(hat.makers for hat in hats),
        used=yarn_span(used_by_all, units),
        lines=lines,
        own=_purchase(used_by_all, own, fabric, units, margin_percent),
        shared=shared,
    )


def _total(hats: tuple[HatWork, ...], quantities: Iterable[YarnQuantity]) -> YarnQuantity:
    """The quantities of all sizes added up, each as often as the hat is made."""
    made = (quantity.times(hat.makers) for hat, quantity in zip(hats, quantities, strict=True))
    return reduce(YarnQuantity.plus, made)


def whole_balls(balls: float, pointer: str = "#/yarn") -> int:
    """Balls rounded up to whole ones: 16.5 balls are 17.

    Raises `Impossible` for more balls than anybody could buy.
    """
    # 0.1 * 3 / 0.1 must be three balls, not four: the last bits of a division are noise.
    count = ceil(round(balls, 9)) if balls <= MOST_BALLS else MOST_BALLS + 1
    if count > MOST_BALLS:
        raise Impossible(
            f"This would take {balls:.3g} balls. Check how much a ball holds, and its units.",
            pointer=pointer,
            nearest=f"{MOST_BALLS} balls",
        )
    return count


def cost(balls: int, price: Price) -> Money:
    """Price of the balls, exact in decimals: 3 at 6.10 are 18.30."""
    return Money(float(Decimal(str(price.amount)) * balls), price.currency)
