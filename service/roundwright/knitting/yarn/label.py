"""Label of a yarn: what a ball holds and costs, and how fine a strand is."""

from decimal import Decimal
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Length, Mass, YarnCount, g, mm
from roundwright.knitting.yarn.amount import YarnQuantity
from roundwright.knitting.yarn.yarn_count import tex
from roundwright.language import say

MOST_STRANDS: Final = 12
"""Strands held together: more would not go over a needle's tip."""
HIGHEST_PRICE: Final = 1_000_000.0
"""Price of one ball, in any currency: none is dearer, even where a unit of money is worth little."""
FINEST_TEX: Final = 1.0
"""A gram in a kilometre: finer than reeled silk."""
THICKEST_TEX: Final = 100_000.0
"""100 g in a metre: thicker than felted rope for arm knitting."""
COUNT_TOLERANCE: Final = 0.10
"""Share by which a count may differ from length and mass: a tenth, as the mill and the label differ."""


class Price(Struct, frozen=True, forbid_unknown_fields=True):
    """What one ball costs."""

    amount: Annotated[
        float, Meta(ge=0.0, le=HIGHEST_PRICE, description="Price of one ball, in the currency's main unit.")
    ]
    currency: Annotated[
        str,
        Meta(
            min_length=3,
            max_length=3,
            pattern="^[A-Z]{3}$",
            description="ISO 4217 code of three letters.",
            examples=["EUR"],
        ),
    ]


class Money(Struct, frozen=True, forbid_unknown_fields=True):
    """An amount of money."""

    amount: Annotated[float, Meta(ge=0.0, description="How much, in the currency's main unit.")]
    currency: Annotated[str, Meta(pattern="^[A-Z]{3}$", description="ISO 4217 code of three letters.")]


class Yarn(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A yarn as its label says it: length and mass of a ball, or its count with either of them."""

    name: Annotated[
        Annotated[str, Meta(max_length=100)] | None, Meta(description="What the yarn is called.")
    ] = None
    length: Annotated[
        Length | None,
        Meta(description="Length of yarn in one ball.", examples=[{"value": 210, "unit": "m"}]),
    ] = None
    mass: Annotated[Mass | None, Meta(description="Mass of one ball.")] = None
    count: Annotated[
        YarnCount | None, Meta(description="Fineness of one strand; stands in for the length or the mass.")
    ] = None
    held: Annotated[
        int,
        Meta(ge=1, le=MOST_STRANDS, description="Strands held together and worked as one (2: held double)."),
    ] = 1
    price: Annotated[Price | None, Meta(description="Price of one ball.")] = None


OtherYarn = Annotated[
    Yarn | None,
    Meta(
        description="A yarn in place of `yarn`, such as one that is there already: the answer has the order in its "
        "balls, too. It must knit to the same gauge."
    ),
]


class Strand(NamedTuple):
    """One strand of a yarn: its fineness in tex, and what a ball of it holds. None is unknown."""

    tex: float | None = None
    ball_mm: float | None = None
    ball_g: float | None = None
    held: int = 1

    @property
    def ball(self) -> YarnQuantity:
        """The yarn in a ball."""
        return YarnQuantity(self.ball_mm, self.ball_g)

    def of_length(self, length_mm: float) -> YarnQuantity:
        """So many millimetres of the strand."""
        return YarnQuantity(length_mm, None if self.tex is None else length_mm * self.tex / 1e6)

    def of_mass(self, mass_g: float) -> YarnQuantity:
        """So many grams of the strand."""
        return YarnQuantity(None if self.tex is None else mass_g * 1e6 / self.tex, mass_g)


def strand_of(yarn: Yarn | None, pointer: str = "#/yarn") -> Strand:
    """What the label says of a strand; without a yarn nothing is known.

    Raises `Impossible` for a label that says too little, contradicts itself, or is of no knitting yarn.
    """
    if yarn is None:
        return Strand()
    ball_mm = mm(yarn.length) if yarn.length else None
    ball_g = g(yarn.mass) if yarn.mass else None
    in_tex = tex(yarn.count) if yarn.count else None
    if ball_mm is None and ball_g is None and in_tex is None:
        raise Impossible(
            say("yarn.no_figures"),
            code="not_given",
            pointer=pointer,
            nearest=say("yarn.on_the_label"),
        )
    if yarn.price and ball_mm is None and ball_g is None:
        raise Impossible(
            say("yarn.price_of_what"),
            code="needs_another",
            pointer=f"{pointer}/price",
            nearest=say("yarn.length_or_mass"),
            suggested=None,
        )
    if ball_mm is not None and ball_g is not None:
        by_label = ball_g / ball_mm * 1e6
        if in_tex is not None and abs(in_tex / by_label - 1) > COUNT_TOLERANCE:
            raise Impossible(
                say("yarn.count_contradicts", count=in_tex, by_label=by_label),
                code="contradiction",
                pointer=f"{pointer}/count",
                nearest=say("yarn.count_or_none", count=by_label),
                suggested=None,
            )
        in_tex = by_label
    _check_fineness(in_tex, pointer)
    if in_tex is not None and ball_g is not None:
        ball_mm = ball_g / in_tex * 1e6
    elif in_tex is not None and ball_mm is not None:
        ball_g = ball_mm * in_tex / 1e6
    return Strand(in_tex, ball_mm, ball_g, yarn.held)


def _check_fineness(in_tex: float | None, pointer: str) -> None:
    """Raise `Impossible` for a fineness that no knitting yarn has."""
    if in_tex is None or FINEST_TEX <= in_tex <= THICKEST_TEX:
        return
    raise Impossible(
        say("yarn.no_knitting_yarn", grams=in_tex / 10),
        code="out_of_range",
        pointer=pointer,
        nearest=say("yarn.grams_in_100_m", grams=(FINEST_TEX if in_tex < FINEST_TEX else THICKEST_TEX) / 10),
    )


def cost(balls: int, price: Price) -> Money:
    """Price of the balls, exact in decimals: 3 at 6.10 are 18.30."""
    return Money(float(Decimal(str(price.amount)) * balls), price.currency)
