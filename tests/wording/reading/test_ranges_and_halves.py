"""Rounds numbered together and told as going on, and rounds told for the halves of a long loop; counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, faults

BEGUN = "Rnd 1: *k6, k2tog* (56)\nRnd 2: *k5, k2tog* (48)\n"

RANGES = [
    (
        "Rnds 3 to 6: as before with one st fewer before each k2tog, i.e. k4 on rnd 3 down to k1 on rnd 6. (16)",
        [40, 32, 24, 16],
    ),
    (
        (
            "Rounds 3-6: the same idea, one knit stitch less each round, so (k4, k2tog) on round 3 "
            "and only (k1, k2tog) on round 6. 16 stitches."
        ),
        [40, 32, 24, 16],
    ),
    (
        (
            "Rnds 3 to 6: decrease in every round now, k4 before each k2tog in Rnd 3, k3 in Rnd 4 and so on. "
            "Rnd 6 is simply *k1, k2tog*. (16)\nRnd 7: k2tog around. (8)"
        ),
        [40, 32, 24, 16, 8],
    ),
    ("Rnd 3: k\nRnds 4, 6 and 8: same, with 4, 3 and 2 sts between (24 sts)", [48, 40, 40, 32, 32, 24]),
    (
        "Rnds 3, 4 and 5 - K4, K2tog then K3, K2tog then K2, K2tog (24 sts)\nRnd 6 - k2tog (12 sts)",
        [40, 32, 24, 12],
    ),
    ("Rnds 3-4: (k4, k2tog), then (k3, k2tog). 32 sts.", [40, 32]),
]


@pytest.mark.parametrize(("text", "after"), RANGES)
def test_rounds_numbered_together_go_on(text: str, after: list[int]) -> None:
    """As many decrease rounds as numbers, however the words tell them."""
    assert after_each_round(read(BEGUN + text, (64,))) == [56, 48, *after]


def test_a_count_that_the_rounds_do_not_reach_is_found() -> None:
    """What is printed behind rounds that go on is their last count."""
    reading = read(f"{BEGUN}Rnds 3 to 6: as before, one st fewer each time. (18)", (64,))

    assert faults(reading) == [("count_differs", 3)]


HALVES = [
    (
        (
            "32 sts on each half.\nR1: on each half of the loop: k1, ssk, k to last 3 sts, k2tog, k1. "
            "(30 sts each side, 60 total)\nR2: knit.\n"
            "Do R1 + R2 over and over until you have 28 sts each side (56 total), ending on R2."
        ),
        [60, 60, 56, 56],
    ),
    (
        (
            "R1: front: [k6, k2tog] 4 times. Back: the same. 28 + 28.\nR2: knit.\n"
            "R3: front and back: [k5, k2tog] 4 times. 24 + 24, 48 in all."
        ),
        [56, 56, 48],
    ),
    (
        "Dec round: on the front: k1, ssk, knit to last 3 sts, k2tog, k1. On the back: exactly the same. 60 sts.",
        [60],
    ),
    ("Next: knit 6, knit 2 together, four times on the front, four times on the back. 56.", [56]),
    (
        "*ssk, k4, k2tog; rep from * 7 more times (four times on the front, four times on the back). 48 sts",
        [48],
    ),
]


@pytest.mark.parametrize(("text", "after"), HALVES)
def test_a_round_is_told_for_both_halves(text: str, after: list[int]) -> None:
    """The count is that of both, or as many on each."""
    assert after_each_round(read(text, (64,))) == after


TITLES = [
    "Kid/Adult, cast on 64/72 and rib K1, P1 for 8/10 rounds.\nAdult only: ",
    "NO. 4 * LID * child/woman\nCO 64/72.\nwoman: ",
    "Beanie (baby/toddler)\nCast on 64/72 sts.\nToddler: ",
]


@pytest.mark.parametrize("title", TITLES)
def test_sizes_are_named_in_a_title(title: str) -> None:
    """Words with slashes between, as many as there are sizes."""
    reading = read(f"{title}*k7, k2tog* 8 times. 64\nBoth: *k6, k2tog* 8 times. 56", (64, 72))

    assert not errors(reading)
    assert [rounds[-1].after for rounds in reading.rounds] == [56, 56]
