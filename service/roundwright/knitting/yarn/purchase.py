"""Yarn to buy: whole balls with a margin, for one piece of work or for a whole class."""

from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.quantities import UnitSystem
from roundwright.knitting.yarn.fabric import Fabric
from roundwright.knitting.yarn.label import DEFAULT_MARGIN, Purchase, cost, whole
from roundwright.knitting.yarn.per_stitch import Span, Stretch, YarnSpan, used

BUY_BASIS: Final = Basis(
    "To buy: the highest estimate and a margin for swatch, tails and mistakes, in whole balls.",
    COMMON_PRACTICE,
)


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
    """One size of an order: its label, how many knitters make it, and the stretches of one hat, in order."""

    label: str
    makers: int
    work: tuple[Stretch, ...]


def to_buy(total: Span, by: Fabric, units: UnitSystem, margin_percent: float) -> Purchase:
    """The highest estimate with the margin, in whole balls: so many, what stays over, what they cost."""
    exact = by.rate.measure.balls(_with_margin(total, margin_percent), by.strand)
    return _purchase(total, None if exact is None else whole(exact), by, units, margin_percent)


def _with_margin(total: Span, margin_percent: float) -> float:
    return total.high * (1 + margin_percent / 100)


def _purchase(
    total: Span, balls: int | None, by: Fabric, units: UnitSystem, margin_percent: float
) -> Purchase:
    """So many balls for this use."""
    amount = by.rate.measure.amount(_with_margin(total, margin_percent), units)
    balls_in_one = by.rate.measure.balls(1.0, by.strand)
    if balls is None or balls_in_one is None:
        return Purchase(margin_percent=margin_percent, amount=amount)
    price = by.yarn.price if by.yarn else None
    return Purchase(
        margin_percent=margin_percent,
        amount=amount,
        balls=balls,
        left_over=by.rate.measure.amount(max(0.0, balls / balls_in_one - total.expected), units),
        cost=cost(balls, price) if price else None,
    )


def class_order(
    hats: tuple[HatWork, ...], by: Fabric, units: UnitSystem, margin_percent: float = DEFAULT_MARGIN
) -> YarnOrder:
    """Yarn for everyone, one hat each: whole balls for every knitter, and one basket for all."""
    totals = [used(hat.work, by.rate) for hat in hats]
    everyone = Span(
        sum(hat.makers * one.low for hat, one in zip(hats, totals, strict=True)),
        sum(hat.makers * one.expected for hat, one in zip(hats, totals, strict=True)),
        sum(hat.makers * one.high for hat, one in zip(hats, totals, strict=True)),
    )
    lines = tuple(
        OrderLine(label=hat.label, makers=hat.makers, each=to_buy(one, by, units, margin_percent))
        for hat, one in zip(hats, totals, strict=True)
    )
    shared = to_buy(everyone, by, units, margin_percent)
    own = None if shared.balls is None else sum(line.makers * (line.each.balls or 0) for line in lines)
    return YarnOrder(
        makers=sum(hat.makers for hat in hats),
        used=by.rate.measure.amounts(everyone, units),
        lines=lines,
        own=_purchase(everyone, own, by, units, margin_percent),
        shared=shared,
    )
