"""Heads by age, by gestation, of grown-ups, by chart and as measured."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Length
from roundwright.knitting.sizing import heads
from roundwright.knitting.sizing.heads import Wearer

SEXES = st.sampled_from([None, "girl", "boy"])


@given(st.integers(0, 60), st.sampled_from(["girl", "boy"]))
def test_a_whole_month_is_its_row(month, sex):
    """At a whole month nothing is interpolated: the median is M and a standard deviation M S."""
    row = reference.growth_who()[sex][month]
    (spread,) = heads.heads_at_age(month, sex).distributions

    assert spread.median_mm == pytest.approx(row.m_cm * 10)
    assert spread.below_mm == spread.above_mm == pytest.approx(row.m_cm * row.s * 10)


@given(st.integers(24, 42), st.sampled_from(["girl", "boy"]))
def test_a_whole_week_has_its_printed_centiles(week, sex):
    """At a whole week the 3rd, 50th and 97th centile come out as INTERGROWTH-21st prints them."""
    row = reference.growth_intergrowth()[sex][week]
    group = heads.heads_at_weeks(week, sex)

    assert heads.median_mm(group) == pytest.approx(row.p50_cm * 10)
    assert heads.centile_mm(group, 0.03) == pytest.approx(row.p3_cm * 10)
    assert heads.centile_mm(group, 0.97) == pytest.approx(row.p97_cm * 10)


@given(st.floats(32, 33, exclude_max=True), st.sampled_from(["girl", "boy"]))
def test_the_two_preterm_models_are_never_blended(weeks, sex):
    """From 32 to 33 weeks the head goes on at the slope of the very-preterm model, a centimetre a week at most."""
    rows = reference.growth_intergrowth()[sex]
    expected_cm = rows[32].p50_cm + (weeks - 32) * (rows[32].p50_cm - rows[31].p50_cm)

    assert heads.median_mm(heads.heads_at_weeks(weeks, sex)) == pytest.approx(expected_cm * 10)


@given(st.floats(0, 60), st.floats(0, 60), SEXES)
def test_heads_grow(earlier, later, sex):
    """An older child's median head is no smaller (WHO medians rise with every month)."""
    earlier, later = sorted((earlier, later))

    assert (
        heads.median_mm(heads.heads_at_age(earlier, sex))
        <= heads.median_mm(heads.heads_at_age(later, sex)) + 1e-9
    )


@given(st.floats(0, 60), st.floats(0.001, 0.999))
def test_centile_and_share_are_inverse(months, share):
    """The share of heads below a centile is that centile, girls and boys together."""
    group = heads.heads_at_age(months)

    assert heads.share_below(group, heads.centile_mm(group, share)) == pytest.approx(share, abs=1e-9)


def test_without_a_sex_it_is_the_mean_of_both():
    """At six months WHO gives 42.2079 cm for girls and 43.3393 cm for boys."""
    head = heads.head_of(Wearer(age_months=6))

    assert head.mm == pytest.approx((422.079 + 433.393) / 2)
    assert "WHO" in head.standard
    assert "girls and boys" in head.standard


@pytest.mark.parametrize(("head_cm", "us"), [(56, "7"), (58, "7 1/4"), (60, "7 1/2")])
def test_us_hat_numbers_as_printed(head_cm, us):
    """Hat makers' tables: 56 cm is 7, 58 cm is 7 1/4, 60 cm is 7 1/2."""
    assert heads.us_hat_number(head_cm * 10) == us


def test_a_hat_number_below_one_and_half_way():
    """Arithmetic: a doll's 40 mm is 0.501 in / pi, four eighths; 12 in is 3.82, seven eighths."""
    assert heads.us_hat_number(40) == "1/2"
    assert heads.us_hat_number(12 * 25.4) == "3 7/8"


@pytest.mark.parametrize(
    ("size", "inches"),
    [("premie", 12), ("baby", 14), ("toddler", 16), ("child", 18), ("woman", 20), ("man", 22)],
)
def test_chart_sizes_as_published(size, inches):
    """Craft Yarn Council head chart, older edition; its adult values are warned of as hat sizes."""
    head = heads.head_of(Wearer(chart=size))

    assert head.mm == pytest.approx(inches * 25.4)
    assert bool(head.warnings) == (size in ("woman", "man"))


@pytest.mark.parametrize(("adult", "mean_cm"), [("man", 57.44), ("woman", 56.11)])
def test_adults_are_measured_means(adult, mean_cm):
    """ANSUR II (Gordon et al. 2014), head circumference."""
    head = heads.head_of(Wearer(adult=adult))

    assert head.mm == pytest.approx(mean_cm * 10)
    assert "ANSUR II" in head.standard
    assert heads.cautions(head.youngest_months) == ()


@pytest.mark.parametrize(
    ("wearer", "codes"),
    [
        (Wearer(age_months=2), {"sleep", "small-parts", "cords"}),
        (Wearer(gestation_weeks=30), {"sleep", "small-parts", "cords"}),
        (Wearer(age_months=14), {"small-parts", "cords"}),
        (Wearer(age_months=40), {"cords"}),
        (Wearer(head=Length(40, "cm")), {"sleep", "small-parts", "cords"}),
        (Wearer(head=Length(58, "cm")), set()),
    ],
)
def test_cautions_go_with_the_age(wearer, codes):
    """Sleep under one year, small parts under three (16 CFR 1501); a head that may be a child's counts as one."""
    given_codes = {caution.code for caution in heads.cautions(heads.head_of(wearer).youngest_months)}

    assert given_codes & {"sleep", "small-parts", "cords"} == codes


@pytest.mark.parametrize(
    ("wearer", "pointer"),
    [
        (Wearer(), "#/size"),
        (Wearer(age_months=3, adult="man"), "#/size/adult"),
        (Wearer(adult="man", sex="boy"), "#/size/sex"),
        (Wearer(head=Length(3, "cm")), "#/size/head/value"),
        (Wearer(head=Length(40, "m")), "#/size/head/value"),
    ],
)
def test_a_head_is_given_in_exactly_one_way(wearer, pointer):
    """None, two, a sex that makes no difference, and what is no head are refused, with what works."""
    with pytest.raises(Impossible) as refused:
        heads.head_of(wearer, "#/size")

    assert refused.value.pointer == pointer
    assert refused.value.nearest
