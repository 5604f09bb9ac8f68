"""One basket of yarn for a class: which hats come from which ball, and what every knitter's kit costs.

A hat is knitted from one ball, without a join. A hat that needs more than a ball takes whole balls of its own and the
rest out of another, in one piece.
"""

from collections.abc import Sequence
from decimal import ROUND_CEILING, Decimal
from math import ceil
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.quantities import UnitSystem
from roundwright.knitting.yarn.amount import YarnAmount, YarnQuantity, yarn_amount
from roundwright.knitting.yarn.label import Money, Price, Strand, cost
from roundwright.knitting.yarn.packing import MOST_STEPS, PackedBalls, Packing, pack
from roundwright.language import say

PARTS_OF_A_BALL: Final = 1_000_000
"""Parts that a ball is counted in: a millionth is less than a stitch."""
WITHOUT_HUNDREDTHS: Final = frozenset(
    ["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"]
)  # fmt: skip
"""Currencies without a smaller unit in ISO 4217 (from memory)."""

BASKET_BASIS: Final = Basis(
    say("yarn.basket_basis"),
    COMMON_PRACTICE,
)

PackingMethod = Literal["exact", "first_fit_decreasing"]


class BallPiece(Struct, frozen=True, kw_only=True):
    """Hats of one size that come from a ball."""

    label: Annotated[str, Meta(description="Name of the size.")]
    hats: Annotated[int, Meta(description="How many hats of that size come from the ball.")]
    amount: Annotated[YarnAmount, Meta(description="Yarn to wind off for one of them.")]


class BasketBalls(Struct, frozen=True, kw_only=True):
    """Balls that are shared out alike."""

    balls: Annotated[int, Meta(description="How many balls are shared out in this way.")]
    pieces: Annotated[
        tuple[BallPiece, ...], Meta(description="What comes from one of them, the largest piece first.")
    ]
    left_over: Annotated[YarnAmount, Meta(description="What is left of one of them.")]


class Kit(Struct, frozen=True, kw_only=True):
    """The yarn that one knitter gets out of the basket."""

    label: Annotated[str, Meta(description="Name of the size.")]
    makers: Annotated[int, Meta(description="How many knitters get it.")]
    amount: Annotated[YarnAmount, Meta(description="Yarn in it: the highest estimate with the margin.")]
    whole_balls: Annotated[
        int, Meta(description="Whole balls in it; above 0 only for a hat that needs more than a ball.")
    ]
    price: Annotated[
        Money | None,
        Meta(
            description="Its share of the basket's price, by the yarn in it, rounded up to the currency's smallest "
            "unit, so that all kits together cover the basket; null without a price."
        ),
    ]


class Basket(Struct, frozen=True, kw_only=True):
    """One basket of yarn for everyone: no hat from two balls, unless it needs more than one."""

    balls: Annotated[int, Meta(description="Balls in the basket.")]
    method: Annotated[
        PackingMethod,
        Meta(
            description="`exact`: it cannot be done with fewer balls; `first_fit_decreasing`: there are too many hats "
            "to try every way, so perhaps it can."
        ),
    ]
    contents: Annotated[tuple[BasketBalls, ...], Meta(description="Which hats come from which ball.")]
    kits: Annotated[tuple[Kit, ...], Meta(description="The yarn for one knitter of each size.")]
    cost: Annotated[Money | None, Meta(description="Price of the balls; null without a price.")]


class KitNeed(NamedTuple):
    """What one knitter of a size needs: the label of the size, how many knitters, and the yarn for one."""

    label: str
    makers: int
    yarn: YarnQuantity


def basket(
    needs: Sequence[KitNeed], strand: Strand, price: Price | None, units: UnitSystem, baskets: int = 1
) -> Basket | None:
    """The balls that hold what everybody needs, shared out; None where the size of a ball is unknown.

    Of several `baskets` in one answer, one a colour, each gets its part of the steps of the search.
    """
    parts = [need.yarn.ratio(strand.ball) for need in needs]
    in_parts = [max(1, ceil(round(part * PARTS_OF_A_BALL, 3))) for part in parts if part is not None]
    if len(in_parts) < len(needs):
        return None
    whole = [part // PARTS_OF_A_BALL for part in in_parts]
    pieces = [part % PARTS_OF_A_BALL for part in in_parts]
    packing = _pack(pieces, [need.makers for need in needs], MOST_STEPS // baskets)
    balls = packing.number + sum(number * need.makers for number, need in zip(whole, needs, strict=True))
    whole_balls = (
        BasketBalls(
            balls=number * need.makers,
            pieces=(BallPiece(label=need.label, hats=1, amount=yarn_amount(strand.ball, units)),),
            left_over=yarn_amount(strand.ball.times(0), units),
        )
        for number, need in zip(whole, needs, strict=True)
        if number
    )
    shared = (_shared(packed, pieces, needs, strand, units) for packed in packing.balls)
    total = cost(balls, price) if price else None
    return Basket(
        balls=balls,
        method="exact" if packing.proved else "first_fit_decreasing",
        contents=(*whole_balls, *shared),
        kits=_kits(needs, whole, in_parts, total, units),
        cost=total,
    )


def _pack(pieces: Sequence[int], makers: Sequence[int], most_steps: int) -> Packing:
    """The pieces in balls; a size that takes whole balls only has none."""
    cut = [index for index, piece in enumerate(pieces) if piece]
    packing = pack(
        [pieces[index] for index in cut], [makers[index] for index in cut], PARTS_OF_A_BALL, most_steps
    )

    def of_all_sizes(packed: PackedBalls) -> PackedBalls:
        by_size = dict(zip(cut, packed.pieces, strict=True))
        return PackedBalls(packed.balls, tuple(by_size.get(index, 0) for index in range(len(pieces))))

    return Packing(tuple(map(of_all_sizes, packing.balls)), packing.proved)


def _shared(
    packed: PackedBalls,
    pieces: Sequence[int],
    needs: Sequence[KitNeed],
    strand: Strand,
    units: UnitSystem,
) -> BasketBalls:
    """Balls with the pieces that come from them, the largest first."""
    inside = sorted(
        (index for index, hats in enumerate(packed.pieces) if hats), key=lambda index: -pieces[index]
    )
    taken = sum(packed.pieces[index] * pieces[index] for index in inside)

    def part(parts: int) -> YarnAmount:
        return yarn_amount(strand.ball.times(parts / PARTS_OF_A_BALL), units)

    return BasketBalls(
        balls=packed.balls,
        pieces=tuple(
            BallPiece(label=needs[index].label, hats=packed.pieces[index], amount=part(pieces[index]))
            for index in inside
        ),
        left_over=part(PARTS_OF_A_BALL - taken),
    )


def _kits(
    needs: Sequence[KitNeed],
    whole: Sequence[int],
    parts: Sequence[int],
    total: Money | None,
    units: UnitSystem,
) -> tuple[Kit, ...]:
    all_parts = sum(part * need.makers for part, need in zip(parts, needs, strict=True))
    return tuple(
        Kit(
            label=need.label,
            makers=need.makers,
            amount=yarn_amount(need.yarn, units),
            whole_balls=balls,
            price=None if total is None else _share(total, part, all_parts),
        )
        for need, balls, part in zip(needs, whole, parts, strict=True)
    )


def _share(total: Money, parts: int, all_parts: int) -> Money:
    """A share of the price, rounded up to the currency's smallest unit, a hundredth for most."""
    step = Decimal(1) if total.currency in WITHOUT_HUNDREDTHS else Decimal("0.01")
    share = Decimal(str(total.amount)) * parts / all_parts
    return Money(float(share.quantize(step, ROUND_CEILING)), total.currency)
