"""The published values of the reference tables, restated from their sources."""

import math

import pytest

from roundwright import reference
from roundwright.wording.proofreading.proofread import ProofreadRequest, proofread
from tests.support.by_hand import STITCHES

# Craft Yarn Council, Standard Yarn Weight System: number, name, stitches in 4 in (10 cm) of stockinette,
# needle in mm, US needle, wraps per inch. None: "and fewer", "and larger", "+".
YARN_WEIGHTS = [
    (0, "Lace", (33, 40), (1.5, 2.25), ("000", "1"), (30, None)),
    (1, "Super Fine", (27, 32), (2.25, 3.25), ("1", "3"), (14, 30)),
    (2, "Fine", (23, 26), (3.25, 3.75), ("3", "5"), (12, 18)),
    (3, "Light", (21, 24), (3.75, 4.5), ("5", "7"), (11, 15)),
    (4, "Medium", (16, 20), (4.5, 5.5), ("7", "9"), (9, 12)),
    (5, "Bulky", (12, 15), (5.5, 8), ("9", "11"), (6, 9)),
    (6, "Super Bulky", (7, 11), (8, 12.75), ("11", "17"), (5, 6)),
    (7, "Jumbo", (None, 6), (12.75, None), ("17", None), (1, 4)),
]

# At least five general needle charts agree on these: mm, US, old UK.
NEEDLES = """
2.0/0/14 2.25/1/13 2.75/2/12 3.0/2.5/11 3.25/3/10 3.5/4/- 3.75/5/9 4.0/6/8 4.5/7/7 5.0/8/6 5.5/9/5 6.0/10/4
6.5/10.5/3 7.0/-/2 7.5/-/1 8.0/11/0 9.0/13/00 10.0/15/000
"""

# What general charts print between them: each US or UK number with every diameter it is sold as.
US_MM = {
    "000": {1.5},
    "00": {1.5, 1.75},
    "1": {2.25, 2.5},
    "1.5": {2.5},
    "2": {2.75, 3.0},
    "17": {12.0, 12.5, 12.75},
    "19": {15.0, 16.0},
    "35": {19.0, 20.0},
    "50": {25.0},
}
UK_MM = {"12": {2.5, 2.75}}


@pytest.mark.parametrize("expected", YARN_WEIGHTS, ids=lambda row: row[1])
def test_yarn_weights(expected: tuple[object, ...]) -> None:
    """Craft Yarn Council, Standard Yarn Weight System."""
    row = reference.yarn_weights()[int(str(expected[0]))]

    assert expected == (
        row.number,
        row.name,
        (row.stitches_min, row.stitches_max),
        (row.needle_mm_min, row.needle_mm_max),
        (row.needle_us_min, row.needle_us_max),
        (row.wpi_min, row.wpi_max),
    )


@pytest.mark.parametrize("line", NEEDLES.split())
def test_needle_numbers(line: str) -> None:
    """General needle size charts, at least five of which agree."""
    mm, us, uk = line.split("/")
    row = next(row for row in reference.needle_sizes() if row.mm == float(mm))

    assert us in row.us or (us == "-" and not row.us)
    assert uk in row.uk or (uk == "-" and not row.uk)


def test_needle_numbers_that_charts_disagree_on() -> None:
    """General needle size charts: a number maps to every diameter it is printed for."""
    sizes = reference.needle_sizes()

    for label, expected in US_MM.items():
        assert expected == {row.mm for row in sizes if label in row.us}
    for label, expected in UK_MM.items():
        assert expected == {row.mm for row in sizes if label in row.uk}


@pytest.mark.parametrize("number", range(16))
def test_japanese_needle_numbers(number: int) -> None:
    """General charts: mm = 2.1 + 0.3 n for n = 0 to 15; another chart prints 2.0 for 0."""
    printed = {row.mm for row in reference.needle_sizes() if str(number) in row.jp}
    expected = {round(2.1 + 0.3 * number, 1)} | ({2.0} if number == 0 else set())

    assert expected == printed


def test_yarn_counts_from_their_definitions() -> None:
    """1 lb = 453.59237 g and 1 yd = 0.9144 m exactly; ISO 1144 and ASTM D2260 print the constants."""
    grams, metres = {"g": 1.0, "lb": 453.59237}, {"m": 1.0, "yd": 0.9144}
    printed = {
        "tex": 1,
        "dtex": 0.1,
        "denier": 1 / 9,
        "nm": 1000,
        "ne": 590.54,
        "worsted": 885.81,
        "woollen": 1937.7,
        "linen": 1653.5,
    }
    rows = reference.yarn_counts()

    assert set(printed) == set(rows)
    for system, constant in printed.items():
        row = rows[system]
        tex = 1000 * row.mass * grams[row.mass_unit] / (row.length * metres[row.length_unit])
        assert constant == pytest.approx(tex, rel=3e-5)
        assert row.tex == pytest.approx(constant, rel=2e-4)


def test_head_chart() -> None:
    """Craft Yarn Council, head circumference chart, older edition, in inches."""
    expected = {"premie": 12, "baby": 14, "toddler": 16, "child": 18, "woman": 20, "man": 22}

    assert expected == {name: row.head_in for name, row in reference.head_chart().items()}


def test_preemie_heads() -> None:
    """A knitting charity's table, gestational week to head in inches."""
    expected = {24: 8.75, 28: 10.5, 32: 11.5, 36: 12.75, 40: 13.5}

    rows = [row for row in reference.load("head-sizes").rows if isinstance(row, reference.PreemieHeadRow)]

    assert expected == {row.gestation_weeks: row.head_in for row in rows}


@pytest.mark.parametrize(("head_cm", "us"), [(56, 7), (58, 7.25), (60, 7.5)])
def test_hat_numbers(head_cm: float, us: float) -> None:
    """Hat makers' tables: circumference in inches / pi to the nearest 1/8, UK 1/8 less."""
    rows = [row for row in reference.load("head-sizes").rows if isinstance(row, reference.HatNumberRow)]
    row = next(row for row in rows if row.head_cm == head_cm)

    assert (us, us - 0.125) == (row.us, row.uk)
    assert us == round(head_cm / 2.54 / math.pi * 8) / 8


@pytest.mark.parametrize(
    ("adult", "expected"),
    [("man", (4082, 57.44, 1.60, 54.8, 60.1)), ("woman", (1986, 56.11, 1.94, 53.2, 59.7))],
)
def test_adult_heads(adult: str, expected: tuple[float, ...]) -> None:
    """ANSUR II (Gordon et al. 2014, NATICK/TR-15/007), head circumference: n, mean, SD, P5, P95 in cm."""
    row = reference.adult_heads()[adult]

    assert expected == (row.people, row.mean_cm, row.sd_cm, row.p5_cm, row.p95_cm)


def test_the_chart_of_adults_lies_below_measured_heads() -> None:
    """Craft Yarn Council chart against ANSUR II: 5.3 cm (woman) and 1.6 cm (man) below the means."""
    chart, measured = reference.head_chart(), reference.adult_heads()

    assert measured["woman"].mean_cm - 2.54 * chart["woman"].head_in == pytest.approx(5.3, abs=0.05)
    assert measured["man"].mean_cm - 2.54 * chart["man"].head_in == pytest.approx(1.6, abs=0.05)


def test_printed_depths_follow_the_quarter_rule() -> None:
    """Tutorials: hat circumference / 4 + 1.5 to 2 in; 14 in: 5-5.5, 18 in: 6-6.5, 22 in: 7-7.5."""
    rule = reference.depth_rules()["hat-quarter"]
    rows = [row for row in reference.load("depth").rows if isinstance(row, reference.DepthExampleRow)]

    assert [(row.hat_in, row.depth_in_min, row.depth_in_max) for row in rows] == [
        (14, 5, 5.5),
        (18, 6, 6.5),
        (22, 7, 7.5),
    ]
    for row in rows:
        assert row.depth_in_min == rule.share * row.hat_in + rule.plus_min
        assert row.depth_in_max == rule.share * row.hat_in + rule.plus_max


def test_stitches() -> None:
    """Craft Yarn Council list of knitting abbreviations, and common book lists."""
    assert {name: (row.uses, row.leaves, row.leans) for name, row in reference.stitches().items()} == STITCHES


SPELLINGS = [*reference.spellings(), *(row.words for row in reference.stitches().values())]


@pytest.mark.parametrize("name", SPELLINGS)
def test_every_spelling_of_a_stitch_is_read(name: str) -> None:
    """A round with it in the middle comes out with the counts of the stitch: abbreviations, words, other spellings."""
    by_words = {row.words: row.name for row in reference.stitches().values()}
    uses, leaves, _ = STITCHES[reference.spellings().get(name) or by_words[name]]
    answer = proofread(ProofreadRequest(cast_on=(uses + 10,), text=f"Rnd 1: k5, {name}, k5."))

    assert [] == [finding.message for finding in answer.findings]
    assert [leaves + 10] == [worked_round.after for worked_round in answer.rounds[0]]


@pytest.mark.parametrize(
    ("printed", "stitch"),
    [
        ("k1f&b", "kfb"),
        ("skpo", "skp"),
        ("sl1-k1-psso", "skp"),
        ("S2KP", "cdd"),
        ("S2KP2", "cdd"),
        ("M1L", "m1l"),
        ("k 2 tog", "k2tog"),
    ],
)
def test_spellings_seen_in_print(printed: str, stitch: str) -> None:
    """Spellings that patterns print."""
    assert stitch == reference.spellings()[printed.lower()]


def test_fully_relaxed_loop_constants() -> None:
    """GATE Textile 2015, question 54: 4.2 x 5.5 / 0.5 cm squared = 92.4 loops in a square centimetre."""
    row = reference.loop_constants()["fully-relaxed"]

    assert row.ks / 0.5**2 == pytest.approx(92.4)


def test_loop_constants_agree_with_each_other() -> None:
    """Munden 1959: ks = kc kw by definition (the relaxed figures are from memory and rounded to 0.2)."""
    for row in reference.loop_constants().values():
        assert row.kc * row.kw == pytest.approx(row.ks, abs=0.2)


def test_buying_and_needle_lengths() -> None:
    """A handbook's yarn table in yards for a hat; lengths in inches of double-pointed needles as sold."""
    yards = {"Fine": (250, 350), "Light": (200, 300), "Medium": (150, 250), "Bulky": (125, 200)}

    assert yards == {row.name: (row.yards_min, row.yards_max) for row in reference.buying()}
    assert [row.length_in for row in reference.needle_lengths()] == [5, 6, 7, 8, 10, 14]


def test_circular_lengths() -> None:
    """Circular needles as sold: 12 in (30 cm), 16 (40), 20 (50), 24 (60), 32 (80), 40 (100), 47 (120), 60 (150)."""
    sold = {row.length_in: row.length_cm for row in reference.circular_lengths()}

    assert sold == {12: 30, 16: 40, 20: 50, 24: 60, 32: 80, 40: 100, 47: 120, 60: 150}
