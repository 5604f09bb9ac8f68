"""Order of yarn for a class: balls of their own for every knitter, or one basket for all."""

from collections.abc import Iterable
from functools import reduce
from typing import Annotated, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.quantities import UnitSystem
from roundwright.knitting.yarn.amount import YarnQuantity, YarnRange, YarnSpan, yarn_span
from roundwright.knitting.yarn.basket import Basket, KitNeed, basket
from roundwright.knitting.yarn.per_stitch import Fabric
from roundwright.knitting.yarn.purchase import (
    DEFAULT_MARGIN,
    Purchase,
    purchase,
    purchase_of_balls,
    with_margin,
)
from roundwright.knitting.yarn.segments import WorkSegment, yarn_used


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
    shared: Annotated[
        Purchase,
        Meta(
            description="When all share one basket and wind off what they need, no hat from two balls unless it needs "
            "more than one."
        ),
    ]
    one_basket: Annotated[
        Basket | None,
        Meta(
            description="How that basket is shared out: which hats come from which ball, and the price of every "
            "knitter's kit; null when a ball's size was not given."
        ),
    ] = None


class HatWork(NamedTuple):
    """One size of an order: its label, number of knitters, and the segments of one hat in working order."""

    label: str
    makers: int
    segments: tuple[WorkSegment, ...]


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
    needs = [
        KitNeed(hat.label, hat.makers, with_margin(used_by_one, margin_percent))
        for hat, used_by_one in zip(hats, used, strict=True)
    ]
    price = fabric.yarn.price if fabric.yarn else None
    one_basket = basket(needs, fabric.strand, price, units)
    if one_basket is not None:
        shared = purchase_of_balls(used_by_all, one_basket.balls, fabric, units, margin_percent)
    return YarnOrder(
        makers=sum(hat.makers for hat in hats),
        used=yarn_span(used_by_all, units),
        lines=lines,
        own=purchase_of_balls(used_by_all, own, fabric, units, margin_percent),
        shared=shared,
        one_basket=one_basket,
    )


def _total(hats: tuple[HatWork, ...], quantities: Iterable[YarnQuantity]) -> YarnQuantity:
    """The quantities of all sizes added up, each as often as the hat is made."""
    made = (quantity.times(hat.makers) for hat, quantity in zip(hats, quantities, strict=True))
    return reduce(YarnQuantity.plus, made)
