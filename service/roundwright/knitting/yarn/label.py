"""The yarn on the shelf: balls, what they hold and cost, and how many whole ones to buy."""

from decimal import Decimal
from math import ceil
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import (
    G_IN,
    MM_IN,
    Length,
    LengthUnit,
    Mass,
    MassUnit,
    UnitSystem,
    YarnCount,
    g,
    mm,
    tidy,
)
from roundwright.knitting.yarn.yarn_count import tex

MOST_STRANDS: Final = 12
"""Strands held together: more would not go over a needle's tip."""
DEAREST: Final = 1_000_000.0
"""Price of one ball, in any currency: none is dearer, even where money comes in thousands."""
FINEST_TEX: Final = 1.0
"""A gram in a kilometre: finer than reeled silk."""
THICKEST_TEX: Final = 100_000.0
"""100 g in a metre: thicker than felted rope for arm knitting."""
COUNT_TOLERANCE: Final = 0.10
"""How far a count may be from the length and mass beside it: a tenth, as mill and label differ."""
MOST_BALLS: Final = 1_000_000
"""Balls in one order: more than a mill spins in a year."""
LARGEST_MARGIN: Final = 200.0
"""Per cent bought over what is used: three times the yarn is the most a buying table asks for."""

MarginPercent = Annotated[
    float,
    Meta(
        ge=0.0,
        le=LARGEST_MARGIN,
        description="Per cent bought on top of the highest estimate, for the swatch, the tails and mistakes.",
    ),
]
DEFAULT_MARGIN: Final = 10.0


class Money(Struct, frozen=True, forbid_unknown_fields=True):
    """An amount of money."""

    amount: Annotated[float, Meta(ge=0.0, description="How much, in the currency's main unit.")]
    currency: Annotated[str, Meta(pattern="^[A-Z]{3}$", description="ISO 4217 code of three letters.")]


class Price(Struct, frozen=True, forbid_unknown_fields=True):
    """What one ball costs."""

    amount: Annotated[
        float, Meta(ge=0.0, le=DEAREST, description="Price of one ball, in the currency's main unit.")
    ]
    currency: Annotated[
        str,
        Meta(min_length=3, max_length=3, pattern="^[A-Z]{3}$", description="ISO 4217 code of three letters."),
    ]


class Yarn(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A yarn as its label says it: length and mass of a ball, or its count with either of them."""

    name: Annotated[
        Annotated[str, Meta(max_length=100)] | None, Meta(description="What the yarn is called.")
    ] = None
    length: Annotated[Length | None, Meta(description="Length of yarn in one ball.")] = None
    mass: Annotated[Mass | None, Meta(description="Mass of one ball.")] = None
    count: Annotated[
        YarnCount | None, Meta(description="Fineness of one strand; stands in for the length or the mass.")
    ] = None
    held: Annotated[
        int,
        Meta(ge=1, le=MOST_STRANDS, description="Strands held together and worked as one (2: held double)."),
    ] = 1
    price: Annotated[Price | None, Meta(description="Price of one ball.")] = None


class YarnLength(Struct, frozen=True):
    """A length of yarn in an answer; it may be nothing."""

    value: Annotated[float, Meta(ge=0.0, description="How many of the unit.")]
    unit: Annotated[LengthUnit, Meta(description="Unit of the length.")]


class YarnMass(Struct, frozen=True):
    """A mass of yarn in an answer; it may be nothing."""

    value: Annotated[float, Meta(ge=0.0, description="How many of the unit.")]
    unit: Annotated[MassUnit, Meta(description="Unit of the mass.")]


class YarnAmount(Struct, frozen=True, kw_only=True):
    """Some yarn, as far as what was asked lets it be known."""

    length: Annotated[
        YarnLength | None, Meta(description="As a length; null when the yarn's fineness is unknown.")
    ]
    mass: Annotated[YarnMass | None, Meta(description="As a mass; null when the yarn's fineness is unknown.")]


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


class Strand(NamedTuple):
    """A yarn made out: grams in a kilometre of one strand, and what a ball holds. None is unknown."""

    tex: float | None = None
    ball_mm: float | None = None
    ball_g: float | None = None
    held: int = 1


def strand(yarn: Yarn | None, pointer: str = "#/yarn") -> Strand:
    """What the label tells. An unnamed yarn tells nothing.

    Raises `Impossible` for a label that says too little, contradicts itself, or is no yarn.
    """
    if yarn is None:
        return Strand()
    ball_mm = mm(yarn.length) if yarn.length else None
    ball_g = g(yarn.mass) if yarn.mass else None
    in_tex = tex(yarn.count) if yarn.count else None
    if ball_mm is None and ball_g is None and in_tex is None:
        raise Impossible(
            "This yarn has neither the length and mass of a ball nor a count.",
            pointer=pointer,
            nearest="the length and mass printed on the label",
        )
    if yarn.price and ball_mm is None and ball_g is None:
        raise Impossible(
            "The price is that of a ball, but nothing says how much a ball holds.",
            pointer=f"{pointer}/price",
            nearest="the length or the mass of a ball",
        )
    if ball_mm is not None and ball_g is not None:
        by_label = ball_g / ball_mm * 1e6
        if in_tex is not None and abs(in_tex / by_label - 1) > COUNT_TOLERANCE:
            raise Impossible(
                f"The count says {in_tex:.4g} tex, but length and mass of a ball make {by_label:.4g} tex.",
                pointer=f"{pointer}/count",
                nearest=f"{by_label:.4g} tex, or no count",
            )
        in_tex = by_label
    _within_reach(in_tex, pointer)
    if in_tex is not None and ball_g is not None:
        ball_mm = ball_g / in_tex * 1e6
    elif in_tex is not None and ball_mm is not None:
        ball_g = ball_mm * in_tex / 1e6
    return Strand(in_tex, ball_mm, ball_g, yarn.held)


def _within_reach(in_tex: float | None, pointer: str) -> None:
    if in_tex is None or FINEST_TEX <= in_tex <= THICKEST_TEX:
        return
    raise Impossible(
        f"100 m of this yarn would weigh {in_tex / 10:.3g} g, which is no knitting yarn. "
        "Check the figures and their units.",
        pointer=pointer,
        nearest=f"{(FINEST_TEX if in_tex < FINEST_TEX else THICKEST_TEX) / 10:.3g} g in 100 m",
    )


def yarn_length(millimetres: float, units: UnitSystem) -> YarnLength:
    """Millimetres of yarn in metres or yards."""
    unit: LengthUnit = "yd" if units == "imperial" else "m"
    return YarnLength(tidy(millimetres / MM_IN[unit]), unit)


def yarn_mass(grams: float, units: UnitSystem) -> YarnMass:
    """Grams of yarn in grams or ounces."""
    unit: MassUnit = "oz" if units == "imperial" else "g"
    return YarnMass(tidy(grams / G_IN[unit]), unit)


def whole(balls: float, pointer: str = "#/yarn") -> int:
    """Whole balls that hold so many: 16.5 balls are 17.

    Raises `Impossible` where nobody could buy so many.
    """
    # 2.2 / 1.1 must be two balls, not three: the last bits of a division are noise.
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
