"""How large is a head: at an age, at a week of gestation, of an adult, in a chart, or measured.

Each answer names the standard it comes from. Standards differ where they meet (at 32 to 33 weeks, at term),
and are never blended: one ends where the next begins.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import pi
from statistics import NormalDist, fmean
from typing import Annotated, Final, Literal, NamedTuple, get_args

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import Basis, Caution, Impossible, Notice, only_one
from roundwright.knitting.quantities import Length, UnitSystem, length, mm

Sex = Literal["girl", "boy"]
Adult = Literal["woman", "man"]
ChartSize = Literal["premie", "baby", "toddler", "child", "woman", "man"]

LAST_MONTH: Final = 60
"""The WHO standards end at five years."""
FIRST_WEEK: Final = 24
"""INTERGROWTH-21st size at birth begins at 24 weeks of gestation."""
LAST_WEEK: Final = 42
"""INTERGROWTH-21st size at birth ends at 42 weeks."""
NEWBORN_MODEL_WEEK: Final = 33
"""Its newborn model begins here; before it the very-preterm model holds, to 32 weeks and 6 days."""

SMALLEST_HEAD_MM: Final = 40.0
"""An egg: the smallest thing anybody knits a hat for."""
LARGEST_HEAD_MM: Final = 1_000.0
"""A metre round: half as much again as any head measured, and enough for hair or a helmet."""

CM_MM: Final = 10.0
INCH_MM: Final = 25.4
NORMAL: Final = NormalDist()
Z97: Final = NORMAL.inv_cdf(0.97)

AgeMonths = Annotated[float, Meta(ge=0, le=LAST_MONTH)]
GestationWeeks = Annotated[float, Meta(ge=FIRST_WEEK, le=LAST_WEEK)]


class Wearer(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Whose head it is: exactly one of `head`, `age_months`, `gestation_weeks`, `adult` and `chart`."""

    head: Annotated[
        Length | None, Meta(description="Head circumference as measured, just above ears and eyebrows.")
    ] = None
    age_months: Annotated[
        AgeMonths | None, Meta(description="Age in months of 30.4375 days, 0 to 60; fractions are welcome.")
    ] = None
    gestation_weeks: Annotated[
        GestationWeeks | None,
        Meta(
            description="Weeks of gestation at birth, or postmenstrual age of a baby already born, 24 to 42."
        ),
    ] = None
    sex: Annotated[
        Sex | None,
        Meta(description="Sex of the child, with an age or a gestation; left out: the mean of both."),
    ] = None
    adult: Annotated[Adult | None, Meta(description="A grown-up, by measured means.")] = None
    chart: Annotated[
        ChartSize | None,
        Meta(
            description="A size of the published head chart. Its adult sizes are those of hats, below heads."
        ),
    ] = None


class HeadSize(Struct, frozen=True, kw_only=True):
    """A head and where its size comes from."""

    circumference: Annotated[Length, Meta(description="Head circumference.")]
    us_hat_number: Annotated[
        str, Meta(description="US hat number: inches / pi to the nearest 1/8. The UK number is 1/8 less.")
    ]
    standard: Annotated[str, Meta(description="The standard, chart or measurement the size comes from.")]


class Head(NamedTuple):
    """A head found: millimetres, the standard it comes from, and for whom cautions are due."""

    mm: float
    standard: str
    basis: tuple[Basis, ...]
    warnings: tuple[Notice, ...] = ()
    youngest_months: float | None = None
    """Least age the wearer may have; None where it is surely no child."""


class Spread(NamedTuple):
    """How heads are distributed: normal on each side of the median, so that printed centiles come out."""

    median_mm: float
    below_mm: float
    """Standard deviation below the median."""
    above_mm: float
    """Standard deviation above the median."""


class Heads(NamedTuple):
    """The heads of a group, one spread for each sex in it, and the standard they come from."""

    spreads: tuple[Spread, ...]
    standard: str
    basis: Basis


def at_age(months: float, sex: Sex | None = None) -> Heads:
    """Heads at an age of 0 to 60 months (WHO), interpolated between months in M and in S."""
    tables = reference.growth_who()
    month = min(int(months), LAST_MONTH - 1)
    part = months - month
    spreads = []
    for each in _sexes(sex):
        this, following = tables[each][month], tables[each][month + 1]
        median = CM_MM * _between(this.m_cm, following.m_cm, part)
        deviation = median * _between(this.s, following.s, part)
        spreads.append(Spread(median, deviation, deviation))
    row = tables["girl"][month]
    basis = Basis("Head circumference-for-age: centile z at M (1 + z S).", reference.cite("growth", row))
    standard = f"WHO Child Growth Standards, {_number(months)} months, {_whose(sex)}"
    return Heads(tuple(spreads), standard, basis)


def at_weeks(weeks: float, sex: Sex | None = None) -> Heads:
    """Heads at 24 to 42 weeks of gestation (INTERGROWTH-21st), interpolated between weeks of the same model.

    Between 32 and 33 weeks the very-preterm model is carried on at its last slope: the newborn is another.
    """
    first, last = (FIRST_WEEK, 32) if weeks < NEWBORN_MODEL_WEEK else (NEWBORN_MODEL_WEEK, LAST_WEEK)
    week = min(int(weeks), last - 1)
    assert week >= first
    part = weeks - week
    tables = reference.growth_intergrowth()
    spreads = []
    for each in _sexes(sex):
        this, following = tables[each][week], tables[each][week + 1]
        low = CM_MM * _between(this.p3_cm, following.p3_cm, part)
        median = CM_MM * _between(this.p50_cm, following.p50_cm, part)
        high = CM_MM * _between(this.p97_cm, following.p97_cm, part)
        spreads.append(Spread(median, (median - low) / Z97, (high - median) / Z97))
    basis = Basis(
        "Head circumference at birth by week of gestation; its models meet at 33 weeks and are not blended.",
        reference.cite("growth", tables["girl"][week]),
    )
    return Heads(tuple(spreads), f"INTERGROWTH-21st, {_number(weeks)} weeks, {_whose(sex)}", basis)


def of_adults(adult: Adult) -> Heads:
    """Heads of grown-ups (ANSUR II), taken as normal."""
    row = reference.adult_heads()[adult]
    spread = Spread(row.mean_cm * CM_MM, row.sd_cm * CM_MM, row.sd_cm * CM_MM)
    cited = reference.cite("adult-heads", row)
    basis = Basis("Measured head circumference: mean and standard deviation.", cited)
    return Heads((spread,), f"ANSUR II, {'women' if adult == 'woman' else 'men'}", basis)


def median_mm(heads: Heads) -> float:
    """The median of the heads; of two sexes, the mean of both medians."""
    return fmean(spread.median_mm for spread in heads.spreads)


def share_below(heads: Heads, head_mm: float) -> float:
    """Share of the heads below `head_mm`, 0 to 1; of two sexes in equal numbers."""
    return fmean(NORMAL.cdf(z_of(spread, head_mm)) for spread in heads.spreads)


def z_of(spread: Spread, head_mm: float) -> float:
    """How many standard deviations above the median a head lies."""
    over = head_mm - spread.median_mm
    return over / (spread.above_mm if over > 0 else spread.below_mm)


def at_z(spread: Spread, z: float) -> float:
    """The head `z` standard deviations above the median, in millimetres."""
    return spread.median_mm + z * (spread.above_mm if z > 0 else spread.below_mm)


def centile_mm(heads: Heads, share: float) -> float:
    """The head below which a share of the heads (strictly between 0 and 1) lies, in millimetres."""
    z = NORMAL.inv_cdf(share)
    ends = [at_z(spread, z) for spread in heads.spreads]
    low, high = min(ends), max(ends)
    if low == high:
        return low
    for _ in range(40):  # a millimetre halved forty times is far below any tape
        middle = (low + high) / 2
        low, high = (middle, high) if share_below(heads, middle) < share else (low, middle)
    return (low + high) / 2


def both(heads: Heads) -> Spread:
    """One spread for the heads: of two sexes, the mean of both. A child of unknown sex is followed on it."""
    return Spread(*(fmean(values) for values in zip(*heads.spreads, strict=True)))


@lru_cache(maxsize=128)  # classes ask for the same few heads
def head_of(wearer: Wearer, pointer: str = "#") -> Head:
    """The head of a wearer.

    Raises `Impossible` where it is not given in exactly one way, where a sex is given without a child's age,
    and where a measured head is none.
    """
    _one_way(wearer, pointer)
    if wearer.head is not None:
        return measured(wearer.head, f"{pointer}/head")
    if wearer.age_months is not None:
        return _middle(at_age(wearer.age_months, wearer.sex), wearer.age_months)
    if wearer.gestation_weeks is not None:
        return _middle(at_weeks(wearer.gestation_weeks, wearer.sex), 0.0)
    if wearer.adult is not None:
        return _middle(of_adults(wearer.adult), None)
    assert wearer.chart is not None
    return _charted(wearer.chart, f"{pointer}/chart")


def measured(circumference: Length, pointer: str) -> Head:
    """A head as measured. Raises `Impossible` for what is no head."""
    head_mm = mm_within(circumference, SMALLEST_HEAD_MM, LARGEST_HEAD_MM, "A head", pointer)
    # Below the 5th centile of women it may well be a child's.
    child = head_mm < reference.adult_heads()["woman"].p5_cm * CM_MM
    return Head(head_mm, "as measured", (), (), 0.0 if child else None)


def mm_within(given: Length, least_mm: float, most_mm: float, what: str, pointer: str) -> float:
    """The length in millimetres. Raises `Impossible` where it is out of the reach of what is measured."""
    given_mm = mm(given)
    if least_mm <= given_mm <= most_mm:
        return given_mm
    raise Impossible(
        f"{what} of {_number(given_mm / CM_MM)} cm is out of reach. Check the number and its unit.",
        pointer=f"{pointer}/value",
        nearest=f"{_number(min(max(given_mm, least_mm), most_mm) / CM_MM)} cm",
    )


def head_size(found: Head, units: UnitSystem) -> HeadSize:
    """The head as an answer shows it."""
    return HeadSize(
        circumference=length(found.mm, units), us_hat_number=us_hat_number(found.mm), standard=found.standard
    )


def us_hat_number(head_mm: float) -> str:
    """US hat number of a head, such as `7 1/4`: circumference in inches / pi, to the nearest eighth."""
    eighths = int(head_mm / INCH_MM / pi * 8 + 0.5)
    whole, part = divmod(eighths, 8)
    if part == 0:
        return str(whole)
    over = 8
    while part % 2 == 0:
        part, over = part // 2, over // 2
    return f"{whole} {part}/{over}" if whole else f"{part}/{over}"


def cautions(youngest_months: float | None) -> tuple[Caution, ...]:
    """The cautions due to a wearer who may be as young as this; none where it is surely no child."""
    if youngest_months is None:
        return ()
    return tuple(
        Caution(row.code, row.text, reference.cite("cautions", row))
        for row in reference.cautions()
        if row.below_months is None or youngest_months < row.below_months
    )


def _middle(heads: Heads, youngest_months: float | None) -> Head:
    return Head(median_mm(heads), f"{heads.standard}: median", (heads.basis,), (), youngest_months)


def _charted(size: ChartSize, pointer: str) -> Head:
    row = reference.head_chart()[size]
    head_mm = row.head_in * INCH_MM
    basis = Basis("A size of the head chart.", reference.cite("head-sizes", row))
    standard = f"Craft Yarn Council head chart, {size}"
    if size not in ("woman", "man"):
        return Head(head_mm, standard, (basis,), (), 0.0)
    measured_mm = median_mm(of_adults(size))
    warning = Notice(
        code="chart_below_measured",
        message=f"The chart gives {_number(head_mm / CM_MM)} cm for a {size}; measured heads average "
        f"{_number(measured_mm / CM_MM)} cm. The chart's adult values are sizes of hats: take them without "
        "further negative ease, or ask for `adult`.",
        pointer=pointer,
    )
    return Head(head_mm, standard, (basis,), (warning,), None)


def _one_way(wearer: Wearer, pointer: str) -> None:
    ways = ("head", "age_months", "gestation_weeks", "adult", "chart")
    nearest = "`age_months`, or a measured `head`"
    way = only_one(wearer, *ways, what="The size of the head", pointer=pointer, nearest=nearest)
    if wearer.sex is not None and way not in ("age_months", "gestation_weeks"):
        raise Impossible(
            f"A sex makes no difference to a size by {way}: it goes with age_months or gestation_weeks.",
            pointer=f"{pointer}/sex",
            nearest=f"{way} without sex",
        )


def _sexes(sex: Sex | None) -> Sequence[Sex]:
    return get_args(Sex) if sex is None else (sex,)


def _whose(sex: Sex | None) -> str:
    return "mean of girls and boys" if sex is None else f"{sex}s"


def _between(start: float, end: float, part: float) -> float:
    return start + (end - start) * part


def _number(value: float) -> str:
    return f"{value:.4g}"
