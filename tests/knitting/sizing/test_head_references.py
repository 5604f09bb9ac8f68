"""Heads by reference: each at its own rows, never blended with the next."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright import reference
from roundwright.knitting.sizing import head_references

SEXES = st.sampled_from([None, "girl", "boy"])


@given(st.integers(0, 60), st.sampled_from(["girl", "boy"]))
def test_a_whole_month_is_its_row(month, sex):
    """At a whole month nothing is interpolated: the median is M and a standard deviation M S."""
    row = reference.growth_who()[sex][month]
    (spread,) = head_references.heads_at_age(month, sex).distributions

    assert spread.median_mm == pytest.approx(row.m_cm * 10)
    assert spread.below_mm == spread.above_mm == pytest.approx(row.m_cm * row.s * 10)


@given(st.integers(24, 42), st.sampled_from(["girl", "boy"]))
def test_a_whole_week_has_its_printed_centiles(week, sex):
    """At a whole week the 3rd, 50th and 97th centile come out as INTERGROWTH-21st prints them."""
    row = reference.growth_intergrowth()[sex][week]
    group = head_references.heads_at_weeks(week, sex)

    assert head_references.median_mm(group) == pytest.approx(row.p50_cm * 10)
    assert head_references.centile_mm(group, 0.03) == pytest.approx(row.p3_cm * 10)
    assert head_references.centile_mm(group, 0.97) == pytest.approx(row.p97_cm * 10)


@given(st.floats(32, 33, exclude_max=True), st.sampled_from(["girl", "boy"]))
def test_the_two_preterm_models_are_never_blended(weeks, sex):
    """From 32 to 33 weeks the head goes on at the slope of the very-preterm model, a centimetre a week at most."""
    rows = reference.growth_intergrowth()[sex]
    expected_cm = rows[32].p50_cm + (weeks - 32) * (rows[32].p50_cm - rows[31].p50_cm)

    assert head_references.median_mm(head_references.heads_at_weeks(weeks, sex)) == pytest.approx(
        expected_cm * 10
    )


@given(st.floats(0, 252), st.floats(0, 252), SEXES)
def test_heads_grow(earlier, later, sex):
    """An older child's median head is no smaller (the medians rise with every row, and at the step at five years)."""
    earlier, later = sorted((earlier, later))

    assert (
        head_references.median_mm(head_references.heads_at_age(earlier, sex))
        <= head_references.median_mm(head_references.heads_at_age(later, sex)) + 1e-9
    )


@given(st.floats(22, 33, exclude_max=True), st.floats(22, 33, exclude_max=True), SEXES)
def test_heads_grow_before_birth(earlier, later, sex):
    """A baby born later has no smaller a head, over the steps at 23 and 24 weeks too."""
    earlier, later = sorted((earlier, later))

    assert (
        head_references.median_mm(head_references.heads_at_weeks(earlier, sex))
        <= head_references.median_mm(head_references.heads_at_weeks(later, sex)) + 1e-9
    )


@given(st.floats(5.001, 21), st.sampled_from(["girl", "boy"]))
def test_above_five_years_it_is_one_reference(years, sex):
    """Between two half years of Netherlands 1997 the head lies between their rows, and WHO has no part in it."""
    rows = reference.growth_netherlands()[sex]
    before = max(row.m_cm for row in rows if row.years <= years)
    after = min(row.m_cm for row in rows if row.years >= years)

    group = head_references.heads_at_age(years * 12, sex)

    assert before - 1e-9 <= head_references.median_mm(group) / 10 <= after + 1e-9
    assert "Netherlands 1997" in group.standard
    assert "WHO" not in group.basis.source


@given(st.floats(0, 252), st.floats(0.001, 0.999))
def test_centile_and_share_are_inverse(months, share):
    """The share of heads below a centile is that centile, girls and boys together."""
    group = head_references.heads_at_age(months)

    centile_mm = head_references.centile_mm(group, share)
    assert head_references.share_below(group, centile_mm) == pytest.approx(share, abs=1e-9)


@pytest.mark.parametrize(("number", "unit", "words"), [(1, "months", "1 month"), (1.5, "years", "1.5 years")])
def test_one_is_counted_in_the_singular(number, unit, words):
    """1 month, not 1 months."""
    assert words == head_references.counted(number, unit)
