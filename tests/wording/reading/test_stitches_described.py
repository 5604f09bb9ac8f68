"""Stitches that a pattern describes, in a bracket, behind a sign or in a sentence: told there, and not worked."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults

BRACKETS = [
    ("ssk", "(k2tog tbl)"),
    ("ssk", "(knit 2 sts together through the back loop)"),
    ("ssk", "(sl 1, sl 1, k2tog tbl)"),
    ("k2tog", "(K2 together)"),
    ("k2tog", "(knit 2 sts together)"),
    ("ssk", "(slip, slip, knit)"),
    ("k2tog", "(1 st decreased)"),
    ("k2tog", "(2 sts become 1)"),
    ("skp", "(sl 1, k1, psso: 1 st dec)"),
]


@pytest.mark.parametrize(("stitch", "bracket"), BRACKETS)
def test_a_bracket_that_describes_the_stitch_before_it_is_not_worked(stitch: str, bracket: str) -> None:
    line = f"Rnd 1: *k10, {stitch} {bracket}, rep from * around. 66 sts"
    assert after_each_round(read(line, (72,))) == [66]


@pytest.mark.parametrize(
    "bracket", ["(3 sts in 1)", "(3 into 1)", "(2 sts decreased)", "(-2 sts)", "(double decrease)"]
)
def test_what_becomes_of_the_stitches_is_no_count_of_the_round(bracket: str) -> None:
    assert after_each_round(read(f"Rnd 1: *k4, sk2p {bracket}, k5; rep from * to end. 60 sts", (72,))) == [60]


def test_a_bracket_that_is_worked_so_often_is_a_repeat() -> None:
    assert after_each_round(read("Rnd 1: k2tog (k2tog) 5 times, k60. 66 sts", (72,))) == [66]


def test_the_change_of_a_whole_round_is_still_compared() -> None:
    assert faults(read("Rnd 1: *k4, sk2p, k5; rep from * to end (10 sts decreased)", (72,))) == [
        ("count_differs", 1)
    ]


SENTENCES = [
    "We work a double decrease (dd): sl 1, k2tog, psso.",
    "This shape needs a new stitch (dd) = sl 1, k2tog, psso. Learn it first.",
    "We decrease in 6 places. dd = sl 2, k1, psso.",
    "Decrease with 1 dd (sl 1, k2tog, psso) in 6 places.",
]


@pytest.mark.parametrize("sentence", SENTENCES)
def test_a_sentence_gives_a_stitch_its_name(sentence: str) -> None:
    assert after_each_round(read(f"{sentence}\nRnd 1: *k9, dd; rep from * around. 60 sts", (72,))) == [60]


def test_the_first_round_describes_a_name_for_those_behind_it() -> None:
    first = "Rnd 1: *k6, 1 zz (slip 1, k2tog, psso), k7; rep from * 5 more times (84 sts)"
    text = f"{first}\nRnd 2: *k5, 1 zz, k6; rep from *"
    assert after_each_round(read(text, (96,))) == [84, 72]


TOLD = [
    "The trick is sk2p: sl 1, k2tog, psso.",
    "I use a double decrease here: sl 1, k2tog, psso.",
    "Remember how sk2p goes: sl 1, k2tog, psso. You lose 2 stitches each time.",
    "Reminder before you begin: sk2p = sl 1, k2tog, psso. This removes 2 stitches at once.",
    "Decrease with 1 sk2p (sl 1, k2tog, psso) in 6 places.",
]


@pytest.mark.parametrize("sentence", TOLD)
def test_a_sentence_that_says_how_a_stitch_is_worked_is_no_round(sentence: str) -> None:
    assert after_each_round(read(f"{sentence}\nRnd 1: *k9, sk2p; rep from * around. 60 sts", (72,))) == [60]
