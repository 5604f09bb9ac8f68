"""Order of yarn for a class: balls of their own for every knitter, or one basket for all."""

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
    all_colours,
    purchase,
    purchase_of_balls,
    with_margin,
)
from roundwright.knitting.yarn.segments import WorkSegment, colours_of, in_colour, yarn_used


class OrderLine(Struct, frozen=True, kw_only=True):
    """One size of an order."""

    label: Annotated[str, Meta(description="Name of the size.")]
    makers: Annotated[int, Meta(description="How many knitters make it, one hat each.")]
    each: Annotated[Purchase, Meta(description="Yarn for one of them, in whole balls.")]


class ColourOrder(Struct, frozen=True, kw_only=True):
    """Yarn of one colour to buy for everyone."""

    colour: Annotated[str, Meta(description="What the colour is called.")]
    used: Annotated[YarnSpan, Meta(description="Yarn of it that all the hats take.")]
    own: Annotated[Purchase, Meta(description="When every knitter gets whole balls of it.")]
    shared: Annotated[Purchase, Meta(description="When all share one basket of it.")]
    one_basket: Annotated[
        Basket | None,
        Meta(description="How that basket is shared out; null when a ball's size was not given."),
    ]


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
            "knitter's kit; null when a ball's size was not given, and for hats in colours: each colour has its own."
        ),
    ] = None
    colours: Annotated[
        tuple[ColourOrder, ...],
        Meta(
            description="Each colour by itself; empty for hats in one. Balls above are those of all colours together."
        ),
    ] = ()


class HatWork(NamedTuple):
    """One size of an order: its label, number of knitters, and the segments of one hat in working order.

    `tail_mm` is left to fasten off at the end, beside the segments.
    """

    label: str
    makers: int
    segments: tuple[WorkSegment, ...]
    tail_mm: float


class _Terms(NamedTuple):
    """What is bought: the fabric, the units of the answer, the margin in per cent."""

    fabric: Fabric
    units: UnitSystem
    margin: float


def class_order(
    hats: tuple[HatWork, ...], fabric: Fabric, units: UnitSystem, margin_percent: float = DEFAULT_MARGIN
) -> YarnOrder:
    """Yarn for everyone, one hat each: whole balls for every knitter, and one basket for all, colour by colour.

    Raises `Impossible` for more balls than anybody could buy.
    """
    terms = _Terms(fabric, units, margin_percent)
    names = colours_of(segment for hat in hats for segment in hat.segments)
    colours = tuple(_colour_order(name, hats, terms, len(names)) for name in names)
    used = [yarn_used(hat.segments, fabric.per_stitch) for hat in hats]
    used_by_all = _total(hats, used)
    lines = tuple(
        _line(hat, used_by_maker, names, terms) for hat, used_by_maker in zip(hats, used, strict=True)
    )
    if colours:
        own, shared, one_basket = (
            all_colours(used_by_all, [colour.own for colour in colours], *terms),
            all_colours(used_by_all, [colour.shared for colour in colours], *terms),
            None,
        )
    else:
        own, shared, one_basket = _own_or_shared(hats, used, terms)
    return YarnOrder(
        makers=sum(hat.makers for hat in hats),
        used=yarn_span(used_by_all, units),
        lines=lines,
        own=own,
        shared=shared,
        one_basket=one_basket,
        colours=colours,
    )


def _line(hat: HatWork, used: YarnRange, colours: tuple[str, ...], terms: _Terms) -> OrderLine:
    in_colours = [
        purchase(yarn_used(segments, terms.fabric.per_stitch), *terms)
        for colour in colours
        if (segments := in_colour(hat.segments, colour))
    ]
    return OrderLine(label=hat.label, makers=hat.makers, each=all_colours(used, in_colours, *terms))


def _own_or_shared(
    hats: tuple[HatWork, ...], used: list[YarnRange], terms: _Terms, baskets: int = 1
) -> tuple[Purchase, Purchase, Basket | None]:
    """The purchase of balls of their own for everybody, that of one basket, and what is in it."""
    used_by_all = _total(hats, used)
    own_balls = [purchase(used_by_maker, *terms).balls or 0 for used_by_maker in used]
    shared = purchase(used_by_all, *terms)
    if shared.balls is None:
        return shared, shared, None
    own = sum(hat.makers * balls for hat, balls in zip(hats, own_balls, strict=True))
    needs = [
        KitNeed(hat.label, hat.makers, with_margin(used_by_maker, terms.margin))
        for hat, used_by_maker in zip(hats, used, strict=True)
    ]
    price = terms.fabric.yarn.price if terms.fabric.yarn else None
    one_basket = basket(needs, terms.fabric.strand, price, terms.units, baskets)
    balls = shared.balls if one_basket is None else one_basket.balls
    return (
        purchase_of_balls(used_by_all, own, *terms),
        purchase_of_balls(used_by_all, balls, *terms),
        one_basket,
    )


def _colour_order(colour: str, hats: tuple[HatWork, ...], terms: _Terms, baskets: int) -> ColourOrder:
    with_it = tuple(
        hat._replace(segments=segments) for hat in hats if (segments := in_colour(hat.segments, colour))
    )
    used = [yarn_used(hat.segments, terms.fabric.per_stitch) for hat in with_it]
    own, shared, one_basket = _own_or_shared(with_it, used, terms, baskets)
    return ColourOrder(
        colour=colour,
        used=yarn_span(_total(with_it, used), terms.units),
        own=own,
        shared=shared,
        one_basket=one_basket,
    )


def _total(hats: tuple[HatWork, ...], used: list[YarnRange]) -> YarnRange:
    """The yarn of all sizes added up, each as often as the hat is made."""
    return YarnRange(
        *(
            reduce(
                YarnQuantity.plus,
                (quantity.times(hat.makers) for hat, quantity in zip(hats, quantities, strict=True)),
            )
            for quantities in zip(*used, strict=True)
        )
    )
