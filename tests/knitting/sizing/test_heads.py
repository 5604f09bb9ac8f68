"""Heads by age, by gestation, of grown-ups, by chart and as measured."""

import pytest
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Length
from roundwright.knitting.sizing import heads
from roundwright.knitting.sizing.heads import Wearer

SEXES = st.sampled_from([None, "girl", "boy"])


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
    """Craft Yarn Council head chart, older edition; from a baby up its values are warned of as hat sizes."""
    head = heads.head_of(Wearer(chart=size))

    assert head.mm == pytest.approx(inches * 25.4)
    assert bool(head.warnings) == head.is_hat_size == (size != "premie")


@pytest.mark.parametrize(
    ("size", "age"), [("baby", "1 month"), ("toddler", "4 months"), ("child", "13 months")]
)
def test_a_childs_size_of_the_chart_is_the_head_of_a_younger_child(size, age):
    """WHO (2006), mean of the medians of girls and boys: 36.9 cm at 1 month, 41.1 at 4, 45.4 at 12 months."""
    (notice,) = heads.head_of(Wearer(chart=size), "#/size").warnings

    assert (notice.code, notice.pointer) == ("chart_below_measured", "#/size/chart")
    assert f"average measured head of a younger child ({age})" in notice.message


def test_a_size_of_the_chart_is_told_in_the_units_of_the_answer():
    """The chart of the Craft Yarn Council gives 20 in for a woman, which is 50.8 cm."""
    metric, imperial = (
        heads.head_of(Wearer(chart="woman"), units=units).warnings[0].message
        for units in ("metric", "imperial")
    )

    assert "50.8 cm" in metric
    assert "20 in" in imperial
    assert "cm" not in imperial


def test_what_a_reference_is_worth_is_told_in_the_units_of_the_answer():
    """Medians at 23 weeks from 20.8 to 21.6 cm are 8.19 to 8.50 in; a step of 0.76 cm at five years is 0.30 in."""
    preterm = heads.head_of(Wearer(gestation_weeks=23), units="imperial").warnings[0].message
    older = heads.head_of(Wearer(age_years=6), units="imperial").basis[0].rule

    assert "from 8.19 to 8.5 in" in preterm
    assert "cm" not in preterm
    assert "0.3 in (boys)" in older
    assert "cm" not in older
    assert "0.76 cm (boys)" in heads.head_of(Wearer(age_years=6)).basis[0].rule


@pytest.mark.parametrize(("adult", "mean_cm"), [("man", 57.44), ("woman", 56.11)])
def test_adults_are_measured_means(adult, mean_cm):
    """ANSUR II (Gordon et al. 2014), head circumference."""
    head = heads.head_of(Wearer(adult=adult))

    assert head.mm == pytest.approx(mean_cm * 10)
    assert head.standard.startswith("ANSUR II")
    assert head.standard.endswith(": mean")
    assert heads.cautions(head.youngest_months) == ()


@pytest.mark.parametrize(
    ("wearer", "codes"),
    [
        (Wearer(age_months=2), {"sleep", "small-parts", "cords"}),
        (Wearer(gestation_weeks=30), {"sleep", "small-parts", "cords"}),
        (Wearer(age_months=14), {"small-parts", "cords"}),
        (Wearer(age_months=40), {"cords"}),
        (Wearer(age_years=7), {"cords"}),
        (Wearer(age_years=15), set()),
        (Wearer(gestation_weeks=30, postmenstrual_weeks=80), {"sleep", "small-parts", "cords"}),
        (Wearer(head=Length(40, "cm")), {"sleep", "small-parts", "cords"}),
        (Wearer(head=Length(49, "cm")), {"sleep", "small-parts", "cords"}),
        (Wearer(head=Length(50.5, "cm")), {"small-parts", "cords"}),
        (Wearer(head=Length(58, "cm")), set()),
    ],
)
def test_cautions_go_with_the_age(wearer, codes):
    """Sleep under one year, small parts under three (16 CFR 1501); a head that may be a child's counts as one.

    WHO: at one year a boy's head three standard deviations above the median is 46.06 x (1 + 3 x 0.0279) = 49.9 cm.
    """
    given_codes = {caution.code for caution in heads.cautions(heads.head_of(wearer).youngest_months)}

    assert given_codes & {"sleep", "small-parts", "cords"} == codes


@pytest.mark.parametrize(("years", "is_child"), [(12, True), (17.9, True), (18, False), (21, False)])
def test_a_grown_up_by_age_needs_no_midwife(years, is_child):
    """A child is below eighteen years (Convention on the Rights of the Child, article 1)."""
    head = heads.head_of(Wearer(age_years=years))
    assert bool(heads.cautions(head.youngest_months)) == is_child


@pytest.mark.parametrize(
    ("wearer", "pointer"),
    [
        (Wearer(), "#/size"),
        (Wearer(age_months=3, adult="man"), "#/size/adult"),
        (Wearer(age_months=96, age_years=8), "#/size/age_years"),
        (Wearer(age_years=8, postmenstrual_weeks=40), "#/size/postmenstrual_weeks"),
        (Wearer(postmenstrual_weeks=36), "#/size/postmenstrual_weeks"),
        (Wearer(gestation_weeks=34, postmenstrual_weeks=33), "#/size/postmenstrual_weeks"),
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


@pytest.mark.parametrize(
    ("wearer", "code", "words"),
    [
        (
            Wearer(gestation_weeks=22),
            "references_differ",
            "by ultrasound: outer skull, without skin and tape",
        ),
        (Wearer(gestation_weeks=23), "references_differ", "from 20.8 to 21.6 cm"),
    ],
)
def test_what_a_reference_is_worth_is_said(wearer, code, words):
    """References that differ: it is said with the head."""
    (notice,) = heads.head_of(wearer, "#/size").warnings

    assert code == notice.code
    assert words in notice.message
    assert notice.pointer.startswith("#/size/")


@pytest.mark.parametrize("wearer", [Wearer(age_years=4), Wearer(age_years=8), Wearer(gestation_weeks=24)])
def test_elsewhere_nothing_is_said(wearer):
    """Away from the steps a head comes without a warning."""
    assert heads.head_of(wearer).warnings == ()


def test_a_baby_already_born_is_by_the_postnatal_standard():
    """Villar et al., Lancet Glob. Health 3 (2015), appendix 8: at 34 weeks 31.27 cm (boys), 30.48 cm (girls)."""
    boy = heads.head_of(Wearer(gestation_weeks=30, postmenstrual_weeks=34, sex="boy"))
    girl = heads.head_of(Wearer(gestation_weeks=30, postmenstrual_weeks=34, sex="girl"))

    assert boy.mm == pytest.approx(312.7, abs=0.06)
    assert girl.mm == pytest.approx(304.8, abs=0.06)
    assert "postnatal" in boy.standard
    assert boy.youngest_months == pytest.approx(4 * 7 / 30.4375)


@pytest.mark.parametrize(
    ("value", "unit", "meant"),
    [
        (16, "cm", "16 in would be 40.6 cm"),  # a toddler's head of the Craft Yarn Council's chart, in inches
        (13.5, "cm", "13.5 in would be 34.3 cm"),  # a newborn's of a charity's table, in inches
        (34, "in", "34 cm would be 13.4 in"),  # a newborn's head (WHO), in centimetres
        (70, "cm", "more than any measured head"),
    ],
)
def test_a_head_that_nobody_has_is_named_in_the_other_unit(value, unit, meant):
    """Below the smallest of the references (18.1 cm, 22 weeks), or five deviations above men's mean (ANSUR II)."""
    head = heads.head_of(Wearer(head=Length(value, unit)))

    assert head.mm == Length(value, unit).value * {"cm": 10, "in": 25.4}[unit]
    (warning,) = head.warnings
    assert (warning.code, warning.pointer) == ("unusual_head", "#/head/unit")
    assert meant in warning.message


@pytest.mark.parametrize(("value", "unit"), [(18.5, "cm"), (22, "cm"), (65, "cm"), (8.75, "in"), (5, "cm")])
def test_a_head_that_somebody_has_is_taken_as_it_is(value, unit):
    """From 22 weeks of gestation to the largest man; and an egg, which nobody measures in inches."""
    assert not heads.head_of(Wearer(head=Length(value, unit))).warnings
