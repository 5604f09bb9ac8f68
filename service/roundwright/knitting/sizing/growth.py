"""Growth: the head some months from today, by the standard for that age, a measured head at its own centile.

A baby born before term follows `heads_of_baby`: size at birth, the postnatal standard of preterm babies, then the WHO
standards at its age since term. One standard ends where the other begins: they are never blended.
"""

from typing import Final, NamedTuple

from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.quantities import UnitSystem
from roundwright.knitting.sizing.head_references import (
    LAST_MONTH,
    TERM_WEEKS,
    WEEKS_IN_MONTH,
    Adult,
    Heads,
    Sex,
    combined,
    head_at_z,
    heads_at_age,
    heads_of_adults,
    heads_of_baby,
    median_mm,
    z_score,
)
from roundwright.language import say

FINEST_MONTH: Final = 0.01
"""Seven hours: fine enough for outgrowing a hat."""

TERM_BASIS: Final = Basis(
    say("growth.term_basis"),
    COMMON_PRACTICE,
)
CENTILE_BASIS: Final = Basis(say("growth.centile_basis"), COMMON_PRACTICE)


class WearerToday(NamedTuple):
    """Whose head grows: by age, by gestation, a grown-up's, or nothing but a measured head.

    `own_mm` is the head measured today, `own_z` its z-score (set by `with_own_z`). Exactly one of
    `age_months`, `gestation_weeks` and `adult` is given, or only `own_mm`.
    """

    age_months: float | None = None
    gestation_weeks: float | None = None
    postmenstrual_weeks: float | None = None
    sex: Sex | None = None
    adult: Adult | None = None
    own_mm: float | None = None
    own_z: float | None = None


def with_own_z(wearer: WearerToday) -> WearerToday:
    """The wearer with the z-score of the measured head in today's standard, where there are both."""
    now = heads_after(wearer, 0.0)
    if now is None or wearer.own_mm is None:
        return wearer
    return wearer._replace(own_z=z_score(combined(now), wearer.own_mm))


def heads_after(wearer: WearerToday, months: float, units: UnitSystem = "metric") -> Heads | None:
    """The heads of the wearer's group some months from today; None where nothing but a head is known.

    Their basis is in these units.
    """
    if wearer.adult is not None:
        return heads_of_adults(wearer.adult)
    if wearer.age_months is not None:
        return heads_at_age(wearer.age_months + months, wearer.sex, units)
    if wearer.gestation_weeks is None:
        return None
    weeks = _weeks_now(wearer) + months * WEEKS_IN_MONTH
    return heads_of_baby(wearer.gestation_weeks, weeks, wearer.sex, units)


def head_after(wearer: WearerToday, months: float) -> float:
    """The expected head some months from today, in millimetres: the measured one at its centile, else the median."""
    heads = heads_after(wearer, months)
    if heads is None:
        assert wearer.own_mm is not None
        return wearer.own_mm
    return median_mm(heads) if wearer.own_z is None else head_at_z(combined(heads), wearer.own_z)


def months_to_standard_end(wearer: WearerToday) -> float | None:
    """Months from today to the end of the growth standard; None for a wearer without a growth standard."""
    if wearer.age_months is not None:
        return LAST_MONTH - wearer.age_months
    return None if wearer.gestation_weeks is None else LAST_MONTH + _months_to_term(wearer)


def age_today_months(wearer: WearerToday) -> float | None:
    """Months since birth; None where no age is known."""
    if wearer.gestation_weeks is not None:
        return (_weeks_now(wearer) - wearer.gestation_weeks) / WEEKS_IN_MONTH
    return wearer.age_months


def months_until_outgrown(wearer: WearerToday, limit_mm: float) -> float | None:
    """Months from today until the expected head is larger than `limit_mm`, to a hundredth.

    0 where it already is; None where it is not to the end of the standard, or where there is no growth standard.
    """
    last = months_to_standard_end(wearer)
    if last is None or head_after(wearer, last) <= limit_mm:
        return None
    if head_after(wearer, 0.0) > limit_mm:
        return 0.0
    below, above = 0.0, last
    while above - below > FINEST_MONTH:
        middle = (below + above) / 2
        below, above = (middle, above) if head_after(wearer, middle) <= limit_mm else (below, middle)
    return above


def _weeks_now(wearer: WearerToday) -> float:
    assert wearer.gestation_weeks is not None
    return wearer.gestation_weeks if wearer.postmenstrual_weeks is None else wearer.postmenstrual_weeks


def _months_to_term(wearer: WearerToday) -> float:
    """Months until term, or until birth where that is later; negative after it."""
    assert wearer.gestation_weeks is not None
    return (max(TERM_WEEKS, wearer.gestation_weeks) - _weeks_now(wearer)) / WEEKS_IN_MONTH
