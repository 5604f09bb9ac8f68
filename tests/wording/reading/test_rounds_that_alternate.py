"""A round with decreases and a round without take turns: how often, and what of it was worked before."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

ROUND = "*k7, k2tog; rep from * (64 sts).\n"


@pytest.mark.parametrize(
    "turns",
    [
        "From now on alternate 1 round with decreases and 1 round without, 3 times in all (48 sts).",
        "Alternately work 1 round with decreases and 1 plain round, 3 times in all (48 sts).",
    ],
)
def test_in_all_counts_the_round_that_was_worked(turns: str) -> None:
    """Of three decrease rounds in all the first is above, and its plain round comes first."""
    assert after_each_round(read(ROUND + turns, (72,))) == [64, 64, 56, 56, 48, 48]


@pytest.mark.parametrize(
    "turns",
    [
        "Work alternately 1 plain round and 1 round with decreases, 3 times (40 sts).",
        "Now 1 plain round and 1 decrease round alternate 3 times (40 sts).",
    ],
)
def test_three_times_more_where_it_is_not_in_all(turns: str) -> None:
    assert after_each_round(read(ROUND + turns, (72,))) == [64, 64, 56, 56, 48, 48, 40]


def test_in_all_of_needles() -> None:
    """Eight decrease rounds in all, the first of them told needle by needle, each with a plain round."""
    text = (
        "At the end of each of the four needles k2tog.\n"
        "Then always alternate a round with decreases and a plain round, eight times in all, so that 40 sts are left."
    )
    alternating = [count for count in range(68, 36, -4) for _ in range(2)]

    assert after_each_round(read(text, (72,))) == alternating


def test_these_rounds_in_all_count_those_above_where_the_stitches_become_fewer() -> None:
    """No count is printed: the two rounds above are the first of three times."""
    text = "Rnd 1: *k8, k2tog*.\nRnd 2: knit.\nWork these 2 rnds 3 times in all, with 1 st fewer before each k2tog."

    assert after_each_round(read(text, (80,))) == [72, 72, 64, 64, 56, 56]
