"""Heads: the size of a head by age, by week of gestation, of an adult, from a chart, or as measured.

Each answer names its standard. Standards differ where they meet (at 32 to 33 weeks, at term) and are never blended: one
ends where the next begins.
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
"""An egg: the smallest thing that anybody knits a hat for."""
LARGEST_HEAD_MM: Final = 1_000.0
"""A metre: half as much again as any measured head, enough for hair or a helmet."""

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
        AgeMonths | None, Meta(description="Age in months of 30.4375 days, 0 to 60; fractions are allowed.")
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
    adult: Annotated[Adult | None, Meta(description="A grown-up: the mean of measured heads.")] = None
    chart: Annotated[
        ChartSize | None,
        Meta(
            description="A size of the published head chart. Its adult sizes are hat sizes, smaller than heads."
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
    """The size of a head, the standard it comes from, and the least age of its wearer."""

    mm: float
    standard: str
    basis: tuple[Basis, ...]
    warnings: tuple[Notice, ...] = ()
    youngest_months: float | None = None
    """Least age the wearer may have; None where it cannot be a child."""


class Distribution(NamedTuple):
    """Distribution of heads: normal on each side of the median, so that it has the printed centiles."""

    median_mm: float
    below_mm: float
    """Standard deviation below the median."""
    above_mm: float
    """Standard deviation above the median."""


class Heads(NamedTuple):
    """The heads of a group: one distribution for each sex in it, and the standard they come from."""

    distributions: tuple[Distribution, ...]
    standard: str
    basis: Basis


def heads_at_age(months: float, sex: Sex | None = None) -> Heads:
    """Heads at an age of 0 to 60 months (WHO), interpolated between months in M and in S."""
    tables = reference.growth_who()
    month = min(int(months), LAST_MONTH - 1)
    part = months - month
    distributions = []
    for group_sex in _sexes(sex):
        before, after = tables[group_sex][month], tables[group_sex][month + 1]
        median = CM_MM * _interpolate(before.m_cm, after.m_cm, part)
        deviation = median * _interpolate(before.s, after.s, part)
        distributions.append(Distribution(median, deviation, deviation))
    row = tables["girl"][month]
    basis = Basis("Head circumference-for-age: centile z at M (1 + z S).", reference.cite("growth", row))
    standard = f"WHO Child Growth Standards, {_number(months)} months, {_sex_in_words(sex)}"
    return Heads(tuple(distributions), standard, basis)


def heads_at_weeks(weeks: float, sex: Sex | None = None) -> Heads:
    """Heads at 24 to 42 weeks of gestation (INTERGROWTH-21st), interpolated between weeks of the same model.

    Between 32 and 33 weeks the very-preterm model continues at its last slope: the newborn model is another one.
    """
    first, last = (FIRST_WEEK, 32) if weeks < NEWBORN_MODEL_WEEK else (NEWBORN_MODEL_WEEK, LAST_WEEK)
    week = min(int(weeks), last - 1)
    assert week >= first
    part = weeks - week
    tables = reference.growth_intergrowth()
    distributions = []
    for group_sex in _sexes(sex):
        before, after = tables[group_sex][week], tables[group_sex][week + 1]
        low = CM_MM * _interpolate(before.p3_cm, after.p3_cm, part)
        median = CM_MM * _interpolate(before.p50_cm, after.p50_cm, part)
        high = CM_MM * _interpolate(before.p97_cm, after.p97_cm, part)
        distributions.append(Distribution(median, (median - low) / Z97, (high - median) / Z97))
    basis = Basis(
        "Head circumference at birth by week of gestation; its models meet at 33 weeks and are not blended.",
        reference.cite("growth", tables["girl"][week]),
    )
    return Heads(
        tuple(distributions), f"INTERGROWTH-21st, {_number(weeks)} weeks, {_sex_in_words(sex)}", basis
    )


def heads_of_adults(adult: Adult) -> Heads:
    """Heads of grown-ups (ANSUR II), assumed to be normally distributed."""
    row = reference.adult_heads()[adult]
    distribution = Distribution(row.mean_cm * CM_MM, row.sd_cm * CM_MM, row.sd_cm * CM_MM)
    cited = reference.cite("adult-heads", row)
    basis = Basis("Measured head circumference: mean and standard deviation.", cited)
    return Heads((distribution,), f"ANSUR II, {'women' if adult == 'woman' else 'men'}", basis)


def median_mm(heads: Heads) -> float:
    """The median of the heads; for two sexes, the mean of both medians."""
    return fmean(distribution.median_mm for distribution in heads.distributions)


def share_below(heads: Heads, head_mm: float) -> float:
    """Share of the heads below `head_mm`, 0 to 1; two sexes in equal numbers."""
    return fmean(NORMAL.cdf(z_score(distribution, head_mm)) for distribution in heads.distributions)


def z_score(distribution: Distribution, head_mm: float) -> float:
    """Standard deviations by which a head is above the median (negative: below)."""
    above_mm = head_mm - distribution.median_mm
    return above_mm / (distribution.above_mm if above_mm > 0 else distribution.below_mm)


def head_at_z(distribution: Distribution, z: float) -> float:
    """The head `z` standard deviations above the median, in millimetres."""
    return distribution.median_mm + z * (distribution.above_mm if z > 0 else distribution.below_mm)


def centile_mm(heads: Heads, share: float) -> float:
    """The head in millimetres that is larger than a `share` of the heads; `share` is strictly between 0 and 1."""
    z = NORMAL.inv_cdf(share)
    limits = [head_at_z(distribution, z) for distribution in heads.distributions]
    low, high = min(limits), max(limits)
    if low == high:
        return low
    for _ in range(40):  # a metre halved forty times is far finer than any tape measure
        middle = (low + high) / 2
        low, high = (middle, high) if share_below(heads, middle) < share else (low, middle)
    return (low + high) / 2


def combined(heads: Heads) -> Distribution:
    """One distribution for the heads; for two sexes the mean of both, on which a child of unknown sex grows."""
    return Distribution(*(fmean(values) for values in zip(*heads.distributions, strict=True)))


@lru_cache(maxsize=128)  # the participants of a class send the same few heads
def head_of(wearer: Wearer, pointer: str = "#") -> Head:
    """The head of a wearer.

    Raises `Impossible` where it is not given in exactly one way, where a sex is given without a child's age, and where
    a measured head is too small or too large for a head.
    """
    _check_wearer(wearer, pointer)
    if wearer.head is not None:
        return measured_head(wearer.head, f"{pointer}/head")
    if wearer.age_months is not None:
        return _median_head(heads_at_age(wearer.age_months, wearer.sex), wearer.age_months)
    if wearer.gestation_weeks is not None:
        return _median_head(heads_at_weeks(wearer.gestation_weeks, wearer.sex), 0.0)
    if wearer.adult is not None:
        return _median_head(heads_of_adults(wearer.adult), None)
    assert wearer.chart is not None
    return _chart_head(wearer.chart, f"{pointer}/chart")


def measured_head(circumference: Length, pointer: str) -> Head:
    """A head as measured. Raises `Impossible` where it is too small or too large for a head."""
    head_mm = mm_in_range(circumference, SMALLEST_HEAD_MM, LARGEST_HEAD_MM, "A head", pointer)
    # Below the 5th centile of women it may well be a child's.
    child = head_mm < reference.adult_heads()["woman"].p5_cm * CM_MM
    return Head(head_mm, "as measured", (), (), 0.0 if child else None)


def mm_in_range(value: Length, least_mm: float, most_mm: float, what: str, pointer: str) -> float:
    """The length in millimetres. Raises `Impossible` where it is out of range; `what` names it in the error."""
    value_mm = mm(value)
    if least_mm <= value_mm <= most_mm:
        return value_mm
    raise Impossible(
        f"{what} of {_number(value_mm / CM_MM)} cm is out of range. Check the number and its unit.",
        pointer=f"{pointer}/value",
        nearest=f"{_number(min(max(value_mm, least_mm), most_mm) / CM_MM)} cm",
    )


def head_size(head: Head, units: UnitSystem) -> HeadSize:
    """The head as an answer gives it."""
    return HeadSize(
        circumference=length(head.mm, units), us_hat_number=us_hat_number(head.mm), standard=head.standard
    )


def us_hat_number(head_mm: float) -> str:
    """US hat number of a head, such as `7 1/4`: circumference in inches / pi, to the nearest eighth."""
    eighths = int(head_mm / INCH_MM / pi * 8 + 0.5)
    inches, numerator = divmod(eighths, 8)
    if numerator == 0:
        return str(inches)
    denominator = 8
    while numerator % 2 == 0:
        numerator, denominator = numerator // 2, denominator // 2
    return f"{inches} {numerator}/{denominator}" if inches else f"{numerator}/{denominator}"


def cautions(youngest_months: float | None) -> tuple[Caution, ...]:
    """The cautions for a wearer who may be as young as this; none for None, a wearer who cannot be a child."""
    if youngest_months is None:
        return ()
    return tuple(
        Caution(row.code, row.text, reference.cite("cautions", row))
        for row in reference.cautions()
        if row.below_months is None or youngest_months < row.below_months
    )


def _median_head(heads: Heads, youngest_months: float | None) -> Head:
    return Head(median_mm(heads), f"{heads.standard}: median", (heads.basis,), (), youngest_months)


def _chart_head(size: ChartSize, pointer: str) -> Head:
    row = reference.head_chart()[size]
    head_mm = row.head_in * INCH_MM
    basis = Basis("A size of the head chart.", reference.cite("head-sizes", row))
    standard = f"Craft Yarn Council head chart, {size}"
    if size not in ("woman", "man"):
        return Head(head_mm, standard, (basis,), (), 0.0)
    measured_mm = median_mm(heads_of_adults(size))
    warning = Notice(
        code="chart_below_measured",
        message=f"The chart gives {_number(head_mm / CM_MM)} cm for a {size}; measured heads average "
        f"{_number(measured_mm / CM_MM)} cm. The chart's adult values are hat sizes: use them without "
        "further negative ease, or give `adult`.",
        pointer=pointer,
    )
    return Head(head_mm, standard, (basis,), (warning,), None)


def _check_wearer(wearer: Wearer, pointer: str) -> None:
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


def _sex_in_words(sex: Sex | None) -> str:
    return "mean of girls and boys" if sex is None else f"{sex}s"


def _interpolate(start: float, end: float, part: float) -> float:
    return start + (end - start) * part


def _number(value: float) -> str:
    return f"{value:.4g}"
