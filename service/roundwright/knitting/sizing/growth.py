"""How a head goes on growing: from today, by the standard that holds at each age, a measured head at its own centile.

A baby born before term is followed by size at birth at its postmenstrual age to 40 weeks, then by the WHO standards
at its age since term. One standard ends where the other begins: they are never blended.
"""

from typing import Final, NamedTuple

from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.sizing.heads import (
    LAST_MONTH,
    Adult,
    Heads,
    Sex,
    at_age,
    at_weeks,
    at_z,
    both,
    median_mm,
    of_adults,
    z_of,
)

TERM_WEEKS: Final = 40
"""Term: the corrected age of a baby born before it is counted from here."""
WEEKS_IN_MONTH: Final = 30.4375 / 7
"""The month of the WHO tables."""
FINEST_MONTH: Final = 0.01
"""A third of a day: finer than anybody outgrows a hat."""

TERM_BASIS: Final = Basis(
    "To term: size at birth at the postmenstrual age. After it: WHO at the age counted from term (40 weeks), or from "
    "birth where that was later.",
    COMMON_PRACTICE,
)
CENTILE_BASIS: Final = Basis(
    "A measured head is taken to keep its distance from the median, in standard deviations.", COMMON_PRACTICE
)


class Course(NamedTuple):
    """Whose head is followed: by age, by gestation or a grown-up's, or nothing but a measured head.

    `own_mm` is the head measured today, `own_z` its place in the standard (`placed` finds it). Exactly one of
    `age_months`, `gestation_weeks` and `adult` is given, or only `own_mm`.
    """

    age_months: float | None = None
    gestation_weeks: float | None = None
    postmenstrual_weeks: float | None = None
    sex: Sex | None = None
    adult: Adult | None = None
    own_mm: float | None = None
    own_z: float | None = None


def placed(course: Course) -> Course:
    """The course with the place of its measured head in the standard of today, where it has both."""
    now = heads_in(course, 0.0)
    if now is None or course.own_mm is None:
        return course
    return course._replace(own_z=z_of(both(now), course.own_mm))


def heads_in(course: Course, months: float) -> Heads | None:
    """The heads of the wearer's like some months from today; None where nothing but a head is known."""
    if course.adult is not None:
        return of_adults(course.adult)
    if course.age_months is not None:
        return at_age(course.age_months + months, course.sex)
    if course.gestation_weeks is None:
        return None
    since_term = months - _months_to_term(course)
    if since_term <= 0:
        return at_weeks(_weeks_now(course) + months * WEEKS_IN_MONTH, course.sex)
    heads = at_age(since_term, course.sex)
    return heads._replace(standard=f"{heads.standard}; age counted from term")


def head_in(course: Course, months: float) -> float:
    """The head to expect some months from today, in millimetres: the own one at its centile, else the median."""
    heads = heads_in(course, months)
    if heads is None:
        assert course.own_mm is not None
        return course.own_mm
    return median_mm(heads) if course.own_z is None else at_z(both(heads), course.own_z)


def months_left(course: Course) -> float | None:
    """Months from today to the end of the growth standard; None for a wearer whose growth is not followed."""
    if course.age_months is not None:
        return LAST_MONTH - course.age_months
    return None if course.gestation_weeks is None else LAST_MONTH + _months_to_term(course)


def age_now(course: Course) -> float | None:
    """Months since birth; None where no age is known."""
    if course.gestation_weeks is not None:
        return (_weeks_now(course) - course.gestation_weeks) / WEEKS_IN_MONTH
    return course.age_months


def outgrown_in(course: Course, limit_mm: float) -> float | None:
    """Months from today until the head to expect is larger than `limit_mm`, to a hundredth.

    0 where it is already; None where it stays below to the end of the standard, or is not followed.
    """
    last = months_left(course)
    if last is None or head_in(course, last) <= limit_mm:
        return None
    if head_in(course, 0.0) > limit_mm:
        return 0.0
    below, above = 0.0, last
    while above - below > FINEST_MONTH:
        middle = (below + above) / 2
        below, above = (middle, above) if head_in(course, middle) <= limit_mm else (below, middle)
    return above


def _weeks_now(course: Course) -> float:
    assert course.gestation_weeks is not None
    return course.gestation_weeks if course.postmenstrual_weeks is None else course.postmenstrual_weeks


def _months_to_term(course: Course) -> float:
    """Months until the age is counted by WHO; negative when that began before today."""
    assert course.gestation_weeks is not None
    return (max(TERM_WEEKS, course.gestation_weeks) - _weeks_now(course)) / WEEKS_IN_MONTH
