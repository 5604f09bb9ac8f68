"""The loop: how much yarn is in a stitch, and in stretches of them.

Relaxed plain knit has a law: loop length squared times stitches in an area is a constant, ks. What is known
of it is a span, from fabric off the needles to fabric fully relaxed, and so is every estimate. A weighed
swatch needs no law.
"""

from collections.abc import Iterable
from functools import cache
from math import sqrt
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible
from roundwright.knitting.quantities import Gauge, Mass, UnitSystem, g, row_height_mm, stitch_width_mm
from roundwright.knitting.rounds.round import Round, Steps, Work, fold, stitch_names
from roundwright.knitting.yarn.label import Strand, YarnAmount, yarn_length, yarn_mass

RIB_EXTRA: Final = 1.10
"""Rib takes more than plain knit, nobody printed how much: a tenth, at the high end only. Common practice."""

CAST_ON_ROUNDS: Final = 2
"""Rounds of yarn in a long-tail cast-on: its loops, and a tail of about 3 widths, which is a loop to the stitch."""

MOST_SWATCH: Final = 1_000
"""Stitches or rows of a swatch that is weighed: nobody swatches a thousand."""

PartName = Literal["cast_on", "brim", "body", "crown", "cord", "all"]

LOOP_BASIS: Final = Basis(
    "Length of yarn in a stitch l = sqrt(ks / S), S = stitches × rows in an area; ks 19.0 dry-relaxed (low), "
    "21.6 wet-relaxed (expected), 23.1 fully relaxed (high).",
    "Doyle 1953; Munden, J. Text. Inst. 50 (1959) T448; 4.2 × 5.5 as in GATE Textile 2015, question 54; "
    "dry and wet constants from memory",
)
SWATCH_BASIS: Final = Basis(
    "Yarn in a stitch = mass of the swatch / stitches worked in it; low and high lie half a step of the "
    "scale away.",
    COMMON_PRACTICE,
)
RIB_BASIS: Final = Basis(
    "Rib takes more yarn than plain knit; as no figure is published, a tenth is added to `high` only.",
    COMMON_PRACTICE,
)

CAST_ON_BASIS: Final = Basis(
    "A long-tail cast-on takes about as much yarn as two rounds: a round of loops, and a tail of three times its width "
    "and a tenth.",
    "tail: a printed rule, see /v1/standards/tails; two rounds: common practice",
)

ONE_GRAM: Final = Mass(1.0, "g")


class Swatch(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A swatch, counted and weighed."""

    stitches: Annotated[int, Meta(ge=1, le=MOST_SWATCH, description="Stitches in a row of the swatch.")]
    rows: Annotated[
        int, Meta(ge=1, le=MOST_SWATCH, description="Rows worked, cast-on and cast-off with them.")
    ]
    mass: Annotated[Mass, Meta(description="What the swatch weighs.")]
    scale: Annotated[
        Mass, Meta(description="Smallest step the scale shows, 1 g on most kitchen scales. Default 1 g.")
    ] = ONE_GRAM


class YarnSpan(Struct, frozen=True, kw_only=True):
    """An amount of yarn with its uncertainty."""

    low: Annotated[YarnAmount, Meta(description="It will hardly take less.")]
    expected: Annotated[YarnAmount, Meta(description="It will take about this.")]
    high: Annotated[YarnAmount, Meta(description="It will hardly take more.")]


class Stretch(NamedTuple):
    """Rounds alike: their part of the work, stitches made in each, how many rounds, and whether rib."""

    part: PartName
    stitches: int
    rounds: int = 1
    ribbed: bool = False


class Span(NamedTuple):
    """Low, expected and high of one number."""

    low: float
    expected: float
    high: float


class Measure(NamedTuple):
    """What an amount of yarn is counted in: millimetres and grams in one of it, None where unknown."""

    in_mm: float | None
    in_g: float | None

    def amount(self, value: float, units: UnitSystem) -> YarnAmount:
        """So much of it, as length and mass as far as they are known."""
        return YarnAmount(
            length=None if self.in_mm is None else yarn_length(value * self.in_mm, units),
            mass=None if self.in_g is None else yarn_mass(value * self.in_g, units),
        )

    def amounts(self, span: Span, units: UnitSystem) -> YarnSpan:
        """A span of it, for an answer."""
        return YarnSpan(
            low=self.amount(span.low, units),
            expected=self.amount(span.expected, units),
            high=self.amount(span.high, units),
        )

    def balls(self, value: float, yarn: Strand) -> float | None:
        """How many balls hold so much of it; None where the ball's size is unknown."""
        if self.in_mm is not None and yarn.ball_mm is not None:
            return value * self.in_mm / yarn.ball_mm
        if self.in_g is not None and yarn.ball_g is not None:
            return value * self.in_g / yarn.ball_g
        return None


class Rate(NamedTuple):
    """Yarn in one stitch, and what it is counted in."""

    span: Span
    measure: Measure


def by_length(yarn: Strand) -> Measure:
    """Yarn counted in millimetres."""
    return Measure(1.0, None if yarn.tex is None else yarn.tex / 1e6)


def by_mass(yarn: Strand) -> Measure:
    """Yarn counted in grams."""
    return Measure(None if yarn.tex is None else 1e6 / yarn.tex, 1.0)


def loop_length_mm(gauge: Gauge, ks: float, pointer: str = "#/gauge") -> float:
    """Length of yarn in a stitch, l = sqrt(ks / S) (Munden 1959).

    Raises `Impossible` for a gauge out of reach.
    """
    return sqrt(ks * stitch_width_mm(gauge, pointer) * row_height_mm(gauge, pointer))


@cache
def _constants() -> Span:
    """The area constant ks off the needles, as a washed and dried hat has it, and fully relaxed."""
    by_state = reference.loop_constants()
    return Span(*(by_state[state].ks for state in ("dry-relaxed", "wet-relaxed", "fully-relaxed")))


def rate_by_gauge(gauge: Gauge, yarn: Strand, pointer: str = "#/gauge") -> Rate:
    """Yarn in a stitch by the law of relaxed plain knit, all strands held together counted."""
    low, expected, high = (yarn.held * loop_length_mm(gauge, ks, pointer) for ks in _constants())
    return Rate(Span(low, expected, high), by_length(yarn))


def rate_by_swatch(swatch: Swatch, yarn: Strand, pointer: str = "#/swatch") -> Rate:
    """Yarn in a stitch by weighing a swatch.

    Raises `Impossible` for a swatch that the scale cannot tell from nothing.
    """
    weighs, step = g(swatch.mass), g(swatch.scale)
    if weighs < step:
        raise Impossible(
            f"A scale in steps of {step:.3g} g cannot weigh a swatch of {weighs:.3g} g.",
            pointer=f"{pointer}/mass",
            nearest=f"a larger swatch, of {step:.3g} g at least, or a finer scale",
        )
    worked = swatch.stitches * swatch.rows
    span = Span((weighs - step / 2) / worked, weighs / worked, (weighs + step / 2) / worked)
    return Rate(span, by_mass(yarn))


def used(work: Iterable[Stretch], rate: Rate) -> Span:
    """Yarn in the stretches, in the measure of the rate."""
    plain = ribs = 0
    for each in work:
        if each.ribbed:
            ribs += each.stitches * each.rounds
        else:
            plain += each.stitches * each.rounds
    low, expected, high = rate.span
    return Span((plain + ribs) * low, (plain + ribs) * expected, (plain + ribs * RIB_EXTRA) * high)


def work_basis(work: Iterable[Stretch]) -> tuple[Basis, ...]:
    """The rules that the stretches bring with them."""
    stretches = tuple(work)
    rib = (RIB_BASIS,) if any(each.ribbed for each in stretches) else ()
    return rib + ((CAST_ON_BASIS,) if any(each.part == "cast_on" for each in stretches) else ())


def cast_on_stretch(stitches: int) -> Stretch:
    """A long-tail cast-on, as rounds of yarn."""
    return Stretch("cast_on", stitches, CAST_ON_ROUNDS)


def loops(steps: Steps) -> int:
    """Stitches made by the steps: what they leave, less those slipped, which take no yarn."""
    # `sum` by itself is of too many types for mypy.
    return fold(steps, _loops_of, lambda made, times: made * times, lambda parts: sum(parts))  # noqa: PLW0108


def _loops_of(work: Work) -> int:
    return 0 if work.stitch == "sl" else reference.stitches()[work.stitch].leaves * work.times


def stretches(rounds: Iterable[Round], part: PartName) -> tuple[Stretch, ...]:
    """The rounds of one part, each as a stretch."""
    return tuple(Stretch(part, loops(each.steps), 1, ribbed(each)) for each in rounds)


def ribbed(each: Round) -> bool:
    """Whether the round is rib: it says so, or has knit and purl side by side."""
    return each.kind == "rib" or {"k", "p"} <= stitch_names(each.steps)
