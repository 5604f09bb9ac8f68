"""Rounds that are worked again by their name, or as before; each text counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

TOLD = "8 markers, 8 sts between.\nDec rnd: *k to 2 sts before marker, k2tog, sm* 8 times. 56 sts.\n"

AGAIN = [
    ("Knit 1 rnd.\nDec rnd again. 48 sts. Knit 1 rnd.\nDec rnd twice more. 32 sts.", [56, 48, 48, 40, 32]),
    ("Plain round.\nDecrease round. 48.\nPlain round.\nDecrease round. 40.", [56, 48, 48, 40]),
    ("Decrease round, 48. Decrease round, 40. Decrease round, 32.", [48, 40, 32]),
    ("And the dec round again. 48.\nA plain round.\nAnd again. 40.", [48, 48, 40]),
    ("1 plain rnd, 1 dec rnd; 1 plain rnd, 1 dec rnd. (40 sts)", [56, 48, 48, 40]),
    ("1 dec rnd, 1 dec rnd, 1 dec rnd. (32 sts)", [48, 40, 32]),
    ("As before: 48.\nKnit 1 rnd.\nAs before: 40.", [48, 48, 40]),
    ("Same again: 48. Same again: 40.", [48, 40]),
    ("As before on each round now: 48, 40, 32, 24.", [48, 40, 32, 24]),
]


@pytest.mark.parametrize(("text", "after"), AGAIN)
def test_a_round_is_worked_again_by_its_name(text: str, after: list[int]) -> None:
    """With its count behind it, which is the count it leaves."""
    assert after_each_round(read(TOLD + text, (64,))) == [56, *after]


def test_a_round_has_a_name_of_its_own() -> None:
    """A name that the text gives, worked when it is called."""
    text = (
        "8 markers, 8 sts between.\nSpoke round: k to 2 sts before the marker, k2tog; 8 times.\n"
        "Plain round: knit.\nSpoke round, plain round, spoke round. 48 sts."
    )

    assert after_each_round(read(text, (64,))) == [56, 56, 48]


def test_a_sentence_says_in_how_many_sections() -> None:
    """`Do that 4 times` is one round in four sections, and not four rounds."""
    text = (
        "Place a marker every 16 stitches.\n"
        "K1, ssk, k to 3 before the marker, k2tog, k1. Slip the marker. Do that four times.\n56 stitches."
    )

    assert after_each_round(read(text, (64,))) == [56]


def test_the_last_marker_stands_before_the_last_stitches() -> None:
    """`*k5, pm; rep from * to last 5 sts` makes as many sections as the round has fives."""
    text = (
        "Set-up rnd: *k5, pm; rep from * to last 5 sts, k5.\n"
        "Dec rnd: *k to 2 sts before marker, k2tog; rep from * around. 80 sts"
    )

    assert after_each_round(read(text, (100,))) == [100, 80]


def test_rounds_are_worked_again_by_their_numbers() -> None:
    """`Repeat 1 & 2` without the word for rounds, to a count."""
    text = (
        "Rnd 1: (k1, ssk, k to 3 sts before next marker, k2tog, k1) 4 times. 56 sts rem.\nRnd 2: k.\n"
        "Repeat 1 & 2 until 40 sts rem, ending with a plain rnd."
    )

    assert after_each_round(read(text, (64,))) == [56, 56, 48, 48, 40, 40]


@pytest.mark.parametrize(
    "words", ["these 4 more times", "these four times more", "both 4 more times", "them 4 more times"]
)
def test_two_rounds_above_are_worked_again_without_their_number(words: str) -> None:
    """80 less twice 5: each time two stitches go, and a plain round follows."""
    text = f"Rnd 1: k2tog, k to last 2 sts, ssk.\nRnd 2: knit.\nWork {words}."
    assert after_each_round(read(text, (80,))) == [78, 78, 76, 76, 74, 74, 72, 72, 70, 70]


@pytest.mark.parametrize(
    ("words", "rounds"),
    [
        ("Do not repeat round 2. Repeat round 1 3 times.", 5),
        ("Stop repeating round 2. Repeat round 1 3 times.", 5),
        ("No longer repeat round 2. Repeat round 1 3 times.", 5),
        ("Never work round 2 again. Knit 3 rounds.", 5),
        ("Do not turn. Repeat round 2 3 times.", 5),
        ("Do not cut the yarn, repeat round 2 3 times.", 5),
    ],
)
def test_a_round_that_is_given_up_is_not_repeated(words: str, rounds: int) -> None:
    """Words that give up other things give up no round."""
    reading = read(f"Rnd 1: knit.\nRnd 2: purl.\n{words}", (48,))
    assert len(after_each_round(reading)) == rounds


@pytest.mark.parametrize("words", ["these 2 more times", "them 2 more times", "those twice more"])
def test_all_numbered_lines_above_are_worked_again_without_their_number(words: str) -> None:
    """Three lines with numbers, three times."""
    text = f"Rnd 1: k2tog, knit to end.\nRnd 2: knit.\nRnd 3: purl.\nRepeat {words}."
    assert after_each_round(read(text, (48,))) == [47, 47, 47, 46, 46, 46, 45, 45, 45]


def test_both_of_three_rounds_is_a_finding() -> None:
    """Which two of the three are meant is not clear."""
    text = "Rnd 1: k2tog, knit to end.\nRnd 2: knit.\nRnd 3: purl.\nRepeat both 2 more times."
    assert [finding.code for finding in read(text, (48,)).findings] == ["no_such_round"]


@pytest.mark.parametrize(
    "words",
    [
        "In the round straight after, *k4, k2tog*.",
        "In the round straight after that *k4, k2tog*.",
        "In the round after that, *k4, k2tog*.",
        "*K4, k2tog* in the round immediately after.",
        "Stop working rnd B. *K4, k2tog*.",
        "Now no longer work round B.\nRnd C: *k4, k2tog*.",
        "Don't work rnd B any more.\nRnd C: *k4, k2tog*.",
    ],
)
def test_no_plain_round_comes_before_the_round_straight_after(words: str) -> None:
    """One plain round, Round B, stands between 72 and 60."""
    text = f"Rnd A: *k5, k2tog*\nRnd B: knit.\n{words}"
    assert after_each_round(read(text, (84,))) == [72, 72, 60]
