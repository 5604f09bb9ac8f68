"""Rounds alike that are told by the first and last of their numbers: `Work rounds 1 to 12 in rib`."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, words_unremarked

RIB = "*k2, p2; rep from * around"


@pytest.mark.parametrize(
    "told",
    [
        "Work rounds 1 to 12 in 2x2 rib.",
        "From round 1 to 12 work in k2, p2 rib.",
        "From round 1 to round 12: work in 2x2 rib.",
        "Work in 2x2 rib for rounds 1 to 12.",
        "Work in 2x2 rib from round 1 to round 12.",
        "Work from round 1 to 12 in 2x2 rib.",
        "Work the 1st to 12th rounds in 2x2 rib.",
        "From the 1st to the 12th round work 2x2 rib.",
        "Work in 2x2 rib up to round 12.",
        "To round 12 work 2x2 rib.",
    ],
)
def test_rounds_of_a_rib_are_as_many_as_their_numbers(told: str) -> None:
    """Round 13 comes after twelve rounds (common practice)."""
    text = f"Cast on 96 sts.\n{told}\nRnd 13: knit."
    assert words_unremarked(read(text, (96,), "en")) == [RIB] * 12 + ["knit"]


@pytest.mark.parametrize(
    "told", ["Knit rounds 1 to 12.", "Work rounds 1-12 even.", "Work plain to round 12.", "Knit to round 12."]
)
def test_plain_rounds_are_as_many_as_their_numbers(told: str) -> None:
    words = words_unremarked(read(f"Cast on 96 sts.\n{told}\nRnd 13: purl.", (96,), "en"))
    assert words == ["knit"] * 12 + ["purl"]


def test_rounds_that_were_told_before_are_worked_again() -> None:
    text = "Rnd 1: *k2, p2; rep from *.\nRnd 2: knit.\nWork rounds 1 and 2 in blue."
    assert words_unremarked(read(text, (96,), "en")) == [RIB, "knit", RIB, "knit"]


def test_stitches_in_a_bracket_behind_a_rib_go_around_as_they_would_without_it() -> None:
    assert words_unremarked(read("Work 12 rounds in rib (k2, p2 around).", (96,), "en")) == [RIB] * 12


@pytest.mark.parametrize(
    ("language", "told"),
    [
        ("de", "Von der 1. bis 12. Runde im Rippenmuster (2 M re, 2 M li im Wechsel) str."),
        ("de", "Von der 1. bis zur 12. Runde 2 M re, 2 M li im Wechsel str."),
        ("de", "In den Runden 1 bis 12: 2 M re, 2 M li im Wechsel."),
        ("fr", "Du 1er au 12e tour, tricoter en côtes 2/2."),
        ("fr", "Tricoter les tours 1 à 12 en côtes 2/2."),
        ("es", "Tejer las vueltas 1 a 12 en elástico 2x2."),
        ("da", "Strik 1. til 12. omgang i rib 2/2."),
    ],
)
def test_other_languages_tell_rounds_by_their_numbers(language: str, told: str) -> None:
    assert words_unremarked(read(told, (96,), language)) == [RIB] * 12


@pytest.mark.parametrize(
    "told",
    [
        "*K2, p2* up to round 12.",
        "K2, p2 up to round 12.",
        "*K2, p2; rep from * up to and including round 12.",
        "Work in k2, p2 rib up to round 12.",
        "*K2, p2* up to the 12th round.",
    ],
)
def test_stitches_up_to_a_round_are_worked_in_all_of_them(told: str) -> None:
    """Round 13 comes after twelve rounds."""
    reading = read(f"{told}\nRnd 13: *k10, k2tog*.", (96,))
    assert after_each_round(reading) == [96] * 12 + [88]


@pytest.mark.parametrize(
    "told",
    [
        "Knit until the 10th rnd. On the 10th rnd *k10, k2tog*.",
        "Knit until round 10.\nRnd 10: *k10, k2tog*.",
        "*K2, p2* up to round 10.\nRnd 10: *k10, k2tog*.",
        "Rnds 1-4: purl.\nKnit to round 10.\nRnd 10: *k10, k2tog*.",
    ],
)
def test_a_round_that_is_told_next_is_none_of_those_before_it(told: str) -> None:
    """The tenth round comes after nine."""
    reading = read(told, (96,))
    assert after_each_round(reading) == [96] * 9 + [88]
