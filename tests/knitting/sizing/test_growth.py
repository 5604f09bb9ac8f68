"""How a head goes on growing, from standard to standard."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.sizing.growth import (
    WearerToday,
    age_today_months,
    head_after,
    heads_after,
    months_to_standard_end,
    months_until_outgrown,
    with_own_z,
)

WEEKS_IN_MONTH = 30.4375 / 7  # a month of the WHO tables


@given(st.floats(24, 26.9) | st.floats(37, 40), st.floats(0.01, 50))
def test_after_term_a_baby_is_followed_by_its_age_from_term(gestation, since_term):
    """Corrected age: born before the postnatal standard, or at term, it has the head of a baby as old since term."""
    to_term = (40 - gestation) / WEEKS_IN_MONTH
    early = head_after(WearerToday(gestation_weeks=gestation), to_term + since_term)

    assert early == pytest.approx(head_after(WearerToday(age_months=since_term), 0), rel=1e-6)


@given(st.floats(22, 26.9), st.floats(0, 1))
def test_a_baby_too_early_for_the_postnatal_standard_is_followed_by_size_at_birth(gestation, part):
    """Born at 25 weeks and four weeks old is 29 weeks: the head of one born at 29, to term."""
    weeks = gestation + part * (39 - gestation)
    born_then = WearerToday(gestation_weeks=weeks)

    assert head_after(WearerToday(gestation_weeks=gestation, postmenstrual_weeks=weeks), 0) == head_after(
        born_then, 0
    )
    assert head_after(
        WearerToday(gestation_weeks=gestation), (weeks - gestation) / WEEKS_IN_MONTH
    ) == pytest.approx(
        head_after(born_then, 0), rel=0.03
    )  # rel: weeks turned into months may fall on the other side of a step (at 23, 24 and 33 weeks)


@given(st.floats(27, 36.9), st.floats(0.01, 1))
def test_a_preterm_baby_is_followed_by_the_postnatal_standard(gestation, part):
    """Villar et al. 2015: whatever the gestation at birth, 27 to 36 weeks, the head goes by the postmenstrual age."""
    weeks = gestation + part * (64 - gestation)
    head = head_after(WearerToday(gestation_weeks=gestation, postmenstrual_weeks=weeks, sex="girl"), 0)

    assert head == pytest.approx(10 * (55.53617 - 852.0059 / weeks), abs=0.25)


@pytest.mark.parametrize(
    ("gestation", "weeks", "standard"),
    [
        (36, 36, "INTERGROWTH-21st, 36 weeks"),
        (36, 36.5, "INTERGROWTH-21st postnatal growth, 36.5 weeks"),
        (36, 64, "INTERGROWTH-21st postnatal growth, 64 weeks"),
        (36, 64.1, "WHO"),
        (37, 39, "INTERGROWTH-21st, 39 weeks"),
        (37, 40.1, "WHO"),
        (26, 39, "INTERGROWTH-21st, 39 weeks"),
        (26, 40.1, "WHO"),
        (41, 41, "INTERGROWTH-21st, 41 weeks"),
    ],
)
def test_one_standard_ends_where_the_next_begins(gestation, weeks, standard):
    """At birth, after a preterm birth, to term and after it: the standard in use is named."""
    wearer = WearerToday(gestation_weeks=gestation, postmenstrual_weeks=weeks, sex="boy")

    assert heads_after(wearer, 0).standard.startswith(standard)


@given(st.floats(0, 60), st.floats(0, 1), st.floats(0.9, 1.1), st.sampled_from([None, "girl", "boy"]))
def test_a_measured_head_keeps_its_place(age, part, ratio, sex):
    """Today it is the head measured; later it stays on its side of the median."""
    median_now = head_after(WearerToday(age_months=age, sex=sex), 0)
    wearer = with_own_z(WearerToday(age_months=age, sex=sex, own_mm=median_now * ratio))
    later = part * (60 - age)
    own, median = head_after(wearer, later), head_after(WearerToday(age_months=age, sex=sex), later)

    assert head_after(wearer, 0) == pytest.approx(median_now * ratio)
    assert (own - median) * (ratio - 1) >= -1e-6


@given(st.floats(0, 251), st.floats(330, 570))
def test_outgrown_is_when_the_head_passes_the_limit(age, limit):
    """A hundredth of a month before it still fits, at it no longer; None means it fits to 21 years."""
    wearer = WearerToday(age_months=age)
    outgrown = months_until_outgrown(wearer, limit)

    if outgrown is None:
        assert head_after(wearer, 252 - age) <= limit
    elif outgrown == 0:
        assert head_after(wearer, 0) > limit
    else:
        assert head_after(wearer, max(outgrown - 0.011, 0)) <= limit < head_after(wearer, outgrown)


def test_ages_and_ends():
    """Age is counted from birth, the references end 21 years after term, grown-ups do not grow."""
    early = WearerToday(gestation_weeks=32, postmenstrual_weeks=44)

    assert age_today_months(early) == pytest.approx(12 / WEEKS_IN_MONTH)
    assert months_to_standard_end(early) == pytest.approx(252 - 4 / WEEKS_IN_MONTH)
    assert months_to_standard_end(WearerToday(adult="woman")) is None
    assert months_until_outgrown(WearerToday(adult="woman"), 300) is None
    assert head_after(WearerToday(own_mm=500), 0) == 500
