"""Rounds of a rib that is only named: they are worked in the rib that the text tells before."""

import pytest

from roundwright.wording.proofreading.read import read

RIB = "*k2, p2; rep from * around"


def worked(text: str, language: str) -> list[str]:
    reading = read(text, (96,), language)
    assert not reading.findings
    return [round.text for round in reading.rounds[0]]


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
    assert worked(f"*K2, p2; rep from * around.\n{named}\nKnit 1 round.", "en") == [RIB] * 4 + ["knit"]
    assert worked(f"*K2, p2; rep from * around.\nKnit 1 round.\n{named}", "en") == [RIB, "knit"] + [RIB] * 3


def test_a_rib_in_a_heading_is_the_rib_of_the_rounds_below() -> None:
    assert worked("Brim (2x2 rib)\nWork 3 rounds in rib.", "en") == [RIB] * 3


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
    assert worked(text, "de") == [RIB] * rounds


@pytest.mark.parametrize(
    "text",
    [
        "Rippenmuster: 2 M re, 2 M li im Wechsel.\n4 Rd Rippenmuster.",
        "Bundmuster: 2 re, 2 li.\nIm Bundmuster 4 Rd str.",
    ],
)
def test_a_german_rib_is_told_and_worked_in_the_rounds_that_are_counted(text: str) -> None:
    assert worked(text, "de") == [RIB] * 4


@pytest.mark.parametrize(
    "rib", ["Work 2 rnds in k2, p2 rib.", "Rib rnd: *k2, p2* around.\nWork the rib rnd."]
)
def test_the_rib_that_was_called_so_is_meant_rather_than_columns_above_it(rib: str) -> None:
    """Columns of purls far apart are no rib by the way (common practice)."""
    assert worked(f"{rib}\n*K7, p1* for 2 rnds.\nWork 1 rnd in rib.", "en")[-1] == RIB


def test_columns_are_the_rib_where_no_rib_was_called_so() -> None:
    assert worked("*K7, p1* for 2 rnds.\nWork 1 rnd in rib.", "en") == ["*k7, p1; rep from * around"] * 3


@pytest.mark.parametrize("told", ["*k2, p2*", "*k2, p2* around", "k2, p2 around", "k2, p2"])
def test_rounds_of_a_rib_are_in_the_rib_that_is_told_before(told: str) -> None:
    assert worked(f"Rib: {told}.\nWork 3 rounds in rib.", "en") == [RIB] * 3
