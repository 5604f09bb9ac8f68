"""Heads by reference: their distribution by age, by week of gestation, after a preterm birth, and of grown-ups.

References differ where they meet (at 23, 24 and 33 weeks, at term, at five years) and are never blended: one ends where
the next begins, and what the step is worth is said.
"""

from bisect import bisect_left
from collections.abc import Sequence
from functools import cache
from statistics import NormalDist, fmean
from typing import Final, Literal, NamedTuple, get_args

from roundwright import reference
from roundwright.knitting.answers import Basis, Notice
from roundwright.knitting.quantities import UnitSystem, difference, length, quantity_text, range_text, tidy
from roundwright.language import Message, joined, say, say_count

Sex = Literal["girl", "boy"]
Adult = Literal["woman", "man"]

LAST_WHO_MONTH: Final = 60
"""The WHO standards end at five years."""
LAST_YEAR: Final = 21
"""The Netherlands 1997 reference ends at 21 years."""
MONTHS_IN_YEAR: Final = 12
LAST_MONTH: Final = LAST_YEAR * MONTHS_IN_YEAR
DAYS_IN_MONTH: Final = 30.4375
"""The month of the WHO tables."""
WEEKS_IN_MONTH: Final = DAYS_IN_MONTH / 7
FIRST_WEEK: Final = 22
"""Younger babies are not born alive as a rule, and no hats are asked for."""
OLSEN_WEEK: Final = 23
"""The one week before 24 for which measured heads of babies born then are at hand (Olsen et al. 2010)."""
FIRST_INTERGROWTH_WEEK: Final = 24
"""INTERGROWTH-21st size at birth begins at 24 weeks of gestation."""
LAST_WEEK: Final = 42
"""INTERGROWTH-21st size at birth ends at 42 weeks."""
NEWBORN_MODEL_WEEK: Final = 33
"""Its newborn model begins here; before it the very-preterm model holds, to 32 weeks and 6 days."""
TERM_WEEKS: Final = 40
"""Term: the corrected age of a baby born earlier is counted from here."""
REFERENCES_AT_WEEK_CM: Final = {OLSEN_WEEK: (20.8, 21.6), FIRST_INTERGROWTH_WEEK: (21.3, 22.7)}
"""The least and the greatest median that the references give where one ends and the next begins."""
BORN_PRETERM: Final = (27, 37)
"""Weeks of gestation at birth of the babies of INTERGROWTH-21st's postnatal standard, the second not included."""
LAST_POSTNATAL_WEEK: Final = 64
"""That standard ends at 64 weeks of postmenstrual age."""
LATEST_POSTMENSTRUAL_WEEK: Final = 144
"""Two years after term, up to which the age of a baby born early is usually corrected."""
UNUSUAL_Z: Final = 3.0
"""Standard deviations. One head in 740 is farther off: an error of the tape, the unit or the age is more likely."""
CM_MM: Final = 10.0
INCH_MM: Final = 25.4
NORMAL: Final = NormalDist()
SOME: Final = 2
"""The count by whose plural form a number that is not whole is written: 2.5 months."""
Z97: Final = NORMAL.inv_cdf(0.97)


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


def heads_at_age(months: float, sex: Sex | None = None, units: UnitSystem = "metric") -> Heads:
    """Heads at an age of 0 to 252 months: WHO to 5 years, above them Netherlands 1997; the two are never blended.

    The basis is in these units.
    """
    if months <= LAST_WHO_MONTH:
        return _heads_by_who(months, sex)
    return _heads_in_the_netherlands(months, sex, units)


def _heads_by_who(months: float, sex: Sex | None) -> Heads:
    """By weeks to 13 weeks and by months to 60, interpolated in M and in S."""
    row = reference.growth_who()["girl"][0]
    basis = Basis(say("head.basis.who"), reference.cite("growth", row))
    standard = say("head.standard.who", age=counted(months, "months"), heads=_sex_in_words(sex))
    return Heads(tuple(_at(_who_points(group_sex), months) for group_sex in _sexes(sex)), standard, basis)


def _heads_in_the_netherlands(months: float, sex: Sex | None, units: UnitSystem) -> Heads:
    """By half years, interpolated in M and in S."""
    row = reference.growth_netherlands()["girl"][0]
    basis = Basis(
        joined(" ", say("head.basis.netherlands"), _step_at_five_years(units)),
        reference.cite("growth-5-21", row),
    )
    years = counted(months / MONTHS_IN_YEAR, "years")
    standard = say("head.standard.netherlands", age=years, heads=_sex_in_words(sex))
    return Heads(
        tuple(_at(_netherlands_points(group_sex), months) for group_sex in _sexes(sex)), standard, basis
    )


class _Point(NamedTuple):
    """A row of a growth table: an age in months, the median there and the coefficient of variation."""

    months: float
    m_cm: float
    s: float


@cache
def _who_points(sex: Sex) -> tuple[_Point, ...]:
    months = (_Point(row.month, row.m_cm, row.s) for row in reference.growth_who()[sex])
    weeks = (
        _Point(row.day / DAYS_IN_MONTH, row.m_cm, row.s)
        for row in reference.growth_who_weeks()[sex]
        if row.week
    )
    return tuple(sorted((*months, *weeks)))


@cache
def _netherlands_points(sex: Sex) -> tuple[_Point, ...]:
    return tuple(
        _Point(row.years * MONTHS_IN_YEAR, row.m_cm, row.s) for row in reference.growth_netherlands()[sex]
    )


def _at(points: tuple[_Point, ...], months: float) -> Distribution:
    after = min(max(1, bisect_left(points, months, key=lambda point: point.months)), len(points) - 1)
    start, end = points[after - 1], points[after]
    part = (months - start.months) / (end.months - start.months)
    median = CM_MM * _interpolate(start.m_cm, end.m_cm, part)
    deviation = median * _interpolate(start.s, end.s, part)
    return Distribution(median, deviation, deviation)


@cache
def _step_at_five_years(units: UnitSystem) -> Message:
    boys, girls = (
        quantity_text(
            difference(
                CM_MM * (_netherlands_points(sex)[0].m_cm - reference.growth_who()[sex][LAST_WHO_MONTH].m_cm),
                units,
            ),
            2,
        )
        for sex in reference.SEXES
    )
    return say("head.step_at_five_years", boys=boys, girls=girls)


def step_notices(months: float, pointer: str, units: UnitSystem) -> tuple[Notice, ...]:
    """The warning that goes with an age in the year after the step from one reference to the other."""
    if not LAST_WHO_MONTH <= months <= LAST_WHO_MONTH + MONTHS_IN_YEAR:
        return ()
    return (_step_notice(pointer, units),)


def step_between_notices(
    ages_months: Sequence[float | None], pointer: str, units: UnitSystem
) -> tuple[Notice, ...]:
    """The warning that the ages of several sizes lie on both sides of the step; a size alone is compared with none.

    `pointer` is that of the sizes; None is the age of a size that has none.
    """
    ages = [months for months in ages_months if months is not None]
    if not ages or not min(ages) <= LAST_WHO_MONTH < max(ages):
        return ()
    return (_step_notice(f"{pointer}/{ages_months.index(max(ages))}", units),)


def _step_notice(pointer: str, units: UnitSystem) -> Notice:
    return Notice(
        code="standards_meet",
        message=joined(" ", _step_at_five_years(units), say("head.step_is_no_growth")),
        pointer=pointer,
    )


def heads_at_weeks(weeks: float, sex: Sex | None = None) -> Heads:
    """Heads at 22 to 42 weeks of gestation: at 22 by ultrasound, at 23 Olsen et al. 2010, then INTERGROWTH-21st.

    Interpolated between weeks of the same model. Between 32 and 33 weeks the very-preterm model continues at its last
    slope: the newborn model is another one.
    """
    if weeks < OLSEN_WEEK:
        return _heads_by_ultrasound(weeks)
    if weeks < FIRST_INTERGROWTH_WEEK:
        return _heads_by_olsen(sex)
    first, last = (
        (FIRST_INTERGROWTH_WEEK, 32) if weeks < NEWBORN_MODEL_WEEK else (NEWBORN_MODEL_WEEK, LAST_WEEK)
    )
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
        distributions.append(_with_centiles(low, median, high))
    basis = Basis(
        say("head.basis.intergrowth"),
        reference.cite("growth", tables["girl"][week]),
    )
    return Heads(
        tuple(distributions),
        say("head.standard.intergrowth", weeks=tidy(weeks, 4), heads=_sex_in_words(sex)),
        basis,
    )


def _heads_by_ultrasound(weeks: float) -> Heads:
    """Heads at 22 weeks, girls and boys together."""
    rows = reference.growth_fetal()
    before, after, part = rows[FIRST_WEEK], rows[FIRST_WEEK + 1], weeks - FIRST_WEEK
    deviation = CM_MM * _interpolate(before.sd_cm, after.sd_cm, part)
    basis = Basis(
        say("head.basis.ultrasound"),
        reference.cite("growth-preterm", before),
    )
    return Heads(
        (Distribution(CM_MM * _interpolate(before.mean_cm, after.mean_cm, part), deviation, deviation),),
        say("head.standard.ultrasound", weeks=tidy(weeks, 4)),
        basis,
    )


def _heads_by_olsen(sex: Sex | None) -> Heads:
    """Heads of babies born at 23 completed weeks."""
    rows = [reference.growth_olsen()[group_sex][OLSEN_WEEK] for group_sex in _sexes(sex)]
    distributions = (
        _with_centiles(*(CM_MM * row.m_cm * (1 + row.l * row.s * z) ** (1 / row.l) for z in (-Z97, 0.0, Z97)))
        for row in rows
    )
    basis = Basis(
        say("head.basis.olsen"),
        reference.cite("growth-preterm", rows[0]),
    )
    return Heads(
        tuple(distributions), say("head.standard.olsen", weeks=OLSEN_WEEK, heads=_sex_in_words(sex)), basis
    )


def _with_centiles(low_mm: float, median_mm: float, high_mm: float) -> Distribution:
    """The distribution with this 3rd, 50th and 97th centile."""
    return Distribution(median_mm, (median_mm - low_mm) / Z97, (high_mm - median_mm) / Z97)


def early_notices(weeks: float, pointer: str, units: UnitSystem) -> tuple[Notice, ...]:
    """The warning that goes with a gestation below 24 weeks."""
    if weeks >= FIRST_INTERGROWTH_WEEK:
        return ()
    by_ultrasound = say("head.by_ultrasound") if weeks < OLSEN_WEEK else ""
    at_23, at_24 = (
        range_text(length(CM_MM * least, units), length(CM_MM * greatest, units), 3)
        for least, greatest in REFERENCES_AT_WEEK_CM.values()
    )
    return (
        Notice(
            code="references_differ",
            message=joined(" ", by_ultrasound, say("head.references_differ", at_23=at_23, at_24=at_24)),
            pointer=pointer,
        ),
    )


def heads_of_baby(
    gestation_weeks: float, postmenstrual_weeks: float, sex: Sex | None = None, units: UnitSystem = "metric"
) -> Heads:
    """Heads of babies by gestation at birth and postmenstrual age today, in weeks.

    At birth: size at birth. Born at 27 to 36 weeks: INTERGROWTH-21st's postnatal standard to 64 weeks. All others: size
    at birth to term. Then WHO at the age counted from term, or from birth where that was later.
    """
    if BORN_PRETERM[0] <= gestation_weeks < BORN_PRETERM[1] and postmenstrual_weeks > gestation_weeks:
        if postmenstrual_weeks <= LAST_POSTNATAL_WEEK:
            return _heads_after_preterm_birth(postmenstrual_weeks, sex)
    elif postmenstrual_weeks <= max(TERM_WEEKS, gestation_weeks):
        return heads_at_weeks(postmenstrual_weeks, sex)
    since_term = (postmenstrual_weeks - max(TERM_WEEKS, gestation_weeks)) / WEEKS_IN_MONTH
    heads = heads_at_age(since_term, sex, units)
    return heads._replace(standard=say("head.standard.from_term", standard=heads.standard))


def _heads_after_preterm_birth(weeks: float, sex: Sex | None) -> Heads:
    week = min(int(weeks), LAST_POSTNATAL_WEEK - 1)
    tables = reference.growth_postnatal()
    distributions = []
    for group_sex in _sexes(sex):
        before, after = tables[group_sex][week], tables[group_sex][week + 1]
        deviation = CM_MM * _interpolate(before.sd_cm, after.sd_cm, weeks - week)
        mean = CM_MM * _interpolate(before.mean_cm, after.mean_cm, weeks - week)
        distributions.append(Distribution(mean, deviation, deviation))
    basis = Basis(
        say("head.basis.postnatal"),
        reference.cite("growth-preterm", tables["girl"][week]),
    )
    standard = say("head.standard.postnatal", weeks=tidy(weeks, 4), heads=_sex_in_words(sex))
    return Heads(tuple(distributions), standard, basis)


def heads_of_adults(adult: Adult) -> Heads:
    """Heads of grown-ups (ANSUR II), assumed to be normally distributed."""
    row = reference.adult_heads()[adult]
    distribution = Distribution(row.mean_cm * CM_MM, row.sd_cm * CM_MM, row.sd_cm * CM_MM)
    cited = reference.cite("adult-heads", row)
    basis = Basis(say("head.basis.adults"), cited)
    return Heads((distribution,), say(f"head.standard.{adult}"), basis)


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


def _sexes(sex: Sex | None) -> Sequence[Sex]:
    return get_args(Sex) if sex is None else (sex,)


def _sex_in_words(sex: Sex | None) -> Message:
    return say(f"heads.{sex or 'both'}")


def counted(value: float, unit: Literal["weeks", "months", "years"]) -> Message:
    """A time with its unit: `1 month`, `6 months`, `2.5 years`."""
    number = tidy(value, 4)
    return say_count(f"age.{unit}", int(number) if number.is_integer() else SOME, number=number)


def _interpolate(start: float, end: float, part: float) -> float:
    return start + (end - start) * part
