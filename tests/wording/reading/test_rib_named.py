"""Rounds of a rib that is only named: they are worked in the rib that the text tells before."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import words_unremarked

RIB = "*k2, p2; rep from * around"


@pytest.mark.parametrize(
    "named",
    [
        "Work 3 rnds in rib.",
        "Work in rib for 3 rounds.",
        "Work 3 rounds of rib.",
        "Work 3 rnds in ribbing.",
        "Work 3 rounds in rib pattern.",
    ],
)
def test_rounds_in_rib_are_in_the_rib_worked_before(named: str) -> None:
    """The last round is plain, and the rib before it is still that of the text (common practice)."""
    first = "*K2, p2; rep from * around."
    assert words_unremarked(read(f"{first}\n{named}\nKnit 1 round.", (96,), "en")) == [RIB] * 4 + ["knit"]
    assert (
        words_unremarked(read(f"{first}\nKnit 1 round.\n{named}", (96,), "en")) == [RIB, "knit"] + [RIB] * 3
    )


def test_a_rib_in_a_heading_is_the_rib_of_the_rounds_below() -> None:
    assert words_unremarked(read("Brim (2x2 rib)\nWork 3 rounds in rib.", (96,), "en")) == [RIB] * 3


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        ("*2 M re, 2 M li; ab * stets wdh. 3 Rd im Rippenmuster str.", 4),
        ("3 Rd im Rippenmuster (2 M re, 2 M li im Wechsel) str.", 3),
        ("3 Runden Bündchenmuster (2 re, 2 li) stricken.", 3),
        ("*2 M re, 2 M li; ab * stets wdh. 3 Rd im Bundmuster str.", 4),
    ],
)
def test_german_rounds_in_rib_are_rib(text: str, rounds: int) -> None:
    assert words_unremarked(read(text, (96,), "de")) == [RIB] * rounds


@pytest.mark.parametrize(
    "definition",
    [
        "Rib pattern: *k2, p2; rep from *.",
        "Rib: k2, p2.",
        "Rib (multiple of 4): *k2, p2*",
        "For the rib: *k2, p2*.",
        "Ribbing pattern\n*k2, p2; rep from * around.",
    ],
)
def test_a_rib_that_is_defined_is_that_of_the_rounds_below_and_no_round_itself(definition: str) -> None:
    """What stands before the cast-on is not knitted (common practice)."""
    text = f"{definition}\nCast on 96 sts.\nWork 3 rnds in rib.\nKnit 1 round."
    assert words_unremarked(read(text, (96,), "en")) == [RIB] * 3 + ["knit"]


def test_a_rib_may_be_defined_behind_the_cast_on() -> None:
    text = "Cast on 96 sts.\nRib: k2, p2.\nJoin in the round.\nWork 3 rnds in rib."
    assert words_unremarked(read(text, (96,), "en")) == [RIB] * 3


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("de", "Rippenmuster: 2 M re, 2 M li im Wechsel.\n96 M anschlagen.\n3 Runden im Rippenmuster str."),
        ("da", "Rib: *2 r, 2 vr; gentag fra *.\nSlå 96 masker op.\nStrik 3 omgange rib."),
        ("nb", "Vrangbord: *2 r, 2 vr; gjenta fra *.\nLegg opp 96 masker.\nStrikk 3 omganger vrangbord."),
        ("nl", "Boordsteek: *2 r, 2 av; herhaal vanaf *.\nZet 96 steken op.\nBrei 3 toeren boordsteek."),
        ("fr", "Point de côtes : 2 m end, 2 m env.\nMonter 96 mailles.\nTricoter 3 tours en côtes."),
        ("es", "Elástico: *2 d, 2 r; rep desde *.\nMontar 96 puntos.\nTejer 3 vueltas en elástico."),
    ],
)
def test_other_languages_define_a_rib_in_the_same_way(language: str, text: str) -> None:
    assert words_unremarked(read(text, (96,), language)) == [RIB] * 3


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Work 3 rnds in rib.\nKnit 1 round."),
        ("de", "3 Runden im Rippenmuster str.\n1 Runde re."),
        ("nl", "Brei 3 toeren boordsteek.\nBrei 1 toer recht."),
    ],
)
def test_a_rib_that_nobody_told_is_asked_for_and_its_rounds_keep_the_count(language: str, text: str) -> None:
    """A knitter would ask which rib it is (common practice)."""
    reading = read(text, (96,), language)
    assert [(finding.code, finding.severity) for finding in reading.findings] == [("ambiguous", "note")]
    assert [round.after for round in reading.rounds[0]] == [96] * 4


@pytest.mark.parametrize(
    "text",
    [
        "Rippenmuster: 2 M re, 2 M li im Wechsel.\n4 Rd Rippenmuster.",
        "Bundmuster: 2 re, 2 li.\nIm Bundmuster 4 Rd str.",
    ],
)
def test_a_german_rib_is_told_and_worked_in_the_rounds_that_are_counted(text: str) -> None:
    assert words_unremarked(read(text, (96,), "de")) == [RIB] * 4


@pytest.mark.parametrize(
    "rib", ["Work 2 rnds in k2, p2 rib.", "Rib rnd: *k2, p2* around.\nWork the rib rnd."]
)
def test_the_rib_that_was_called_so_is_meant_rather_than_columns_above_it(rib: str) -> None:
    """Columns of purls far apart are no rib by the way (common practice)."""
    assert words_unremarked(read(f"{rib}\n*K7, p1* for 2 rnds.\nWork 1 rnd in rib.", (96,), "en"))[-1] == RIB


def test_columns_are_the_rib_where_no_rib_was_called_so() -> None:
    words = words_unremarked(read("*K7, p1* for 2 rnds.\nWork 1 rnd in rib.", (96,), "en"))
    assert words == ["*k7, p1; rep from * around"] * 3


@pytest.mark.parametrize("told", ["*k2, p2*", "*k2, p2* around", "k2, p2 around", "k2, p2"])
def test_rounds_of_a_rib_are_in_the_rib_that_is_told_before(told: str) -> None:
    assert words_unremarked(read(f"Rib: {told}.\nWork 3 rounds in rib.", (96,), "en")) == [RIB] * 3
