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


@given(st.floats(24, 40), st.floats(0.01, 50))
def test_after_term_a_baby_is_followed_by_its_age_from_term(gestation, since_term):
    """Corrected age: a baby born early has, some months after its term date, the head of a baby born at term."""
    to_term = (40 - gestation) / WEEKS_IN_MONTH
    early = head_after(WearerToday(gestation_weeks=gestation), to_term + since_term)

    assert early == pytest.approx(head_after(WearerToday(age_months=since_term), 0), rel=1e-6)


@given(st.floats(24, 39), st.floats(0, 1))
def test_before_term_it_is_followed_by_its_postmenstrual_age(gestation, part):
    """Born at 30 weeks and four weeks old is 34 weeks: the head of one born at 34."""
    weeks = gestation + part * (39 - gestation)
    born_then = WearerToday(gestation_weeks=weeks)

    assert head_after(WearerToday(gestation_weeks=gestation, postmenstrual_weeks=weeks), 0) == head_after(
        born_then, 0
    )
    assert head_after(
        WearerToday(gestation_weeks=gestation), (weeks - gestation) / WEEKS_IN_MONTH
    ) == pytest.approx(
        head_after(born_then, 0), rel=0.03
    )  # rel: weeks turned into months may fall on the other side of the step at 33 weeks


def test_the_standard_changes_at_term():
    """To 40 weeks INTERGROWTH-21st, after it WHO; both are named."""
    wearer = WearerToday(gestation_weeks=36, sex="boy")

    assert "INTERGROWTH" in heads_after(wearer, 0.9).standard
    assert "WHO" in heads_after(wearer, 0.95).standard


@given(st.floats(0, 60), st.floats(0, 1), st.floats(0.9, 1.1), st.sampled_from([None, "girl", "boy"]))
def test_a_measured_head_keeps_its_place(age, part, ratio, sex):
    """Today it is the head measured; later it stays on its side of the median."""
    median_now = head_after(WearerToday(age_months=age, sex=sex), 0)
    wearer = with_own_z(WearerToday(age_months=age, sex=sex, own_mm=median_now * ratio))
    later = part * (60 - age)
    own, median = head_after(wearer, later), head_after(WearerToday(age_months=age, sex=sex), later)

    assert head_after(wearer, 0) == pytest.approx(median_now * ratio)
    assert (own - median) * (ratio - 1) >= -1e-6


@given(st.floats(0, 59), st.floats(330, 520))
def test_outgrown_is_when_the_head_passes_the_limit(age, limit):
    """A hundredth of a month before it still fits, at it no longer; None means it fits to 60 months."""
    wearer = WearerToday(age_months=age)
    outgrown = months_until_outgrown(wearer, limit)

    if outgrown is None:
        assert head_after(wearer, 60 - age) <= limit
    elif outgrown == 0:
        assert head_after(wearer, 0) > limit
    else:
        assert head_after(wearer, max(outgrown - 0.011, 0)) <= limit < head_after(wearer, outgrown)


def test_ages_and_ends():
    """Age is counted from birth, the WHO standards end 60 months after term, grown-ups do not grow."""
    early = WearerToday(gestation_weeks=32, postmenstrual_weeks=44)

    assert age_today_months(early) == pytest.approx(12 / WEEKS_IN_MONTH)
    assert months_to_standard_end(early) == pytest.approx(60 - 4 / WEEKS_IN_MONTH)
    assert months_to_standard_end(WearerToday(adult="woman")) is None
    assert months_until_outgrown(WearerToday(adult="woman"), 300) is None
    assert head_after(WearerToday(own_mm=500), 0) == 500
