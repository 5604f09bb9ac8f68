"""Rounds on a sheet with a box to tick off before each, and plain rounds that are given up on the way.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts


@pytest.mark.parametrize("box", ["☐", "□", "○", "[ ]", "[]", "( )", "✓"])
def test_a_box_begins_a_round(box: str) -> None:
    """Five rounds: two that take in 10 stitches, and two and one plain ones behind them."""
    reading = read(
        "Your sampler hat has 60 stitches. Follow the sheet, tick the box.\n"
        f"{box} (k4, k2tog) to end – 50 sts   {box} knit   {box} knit\n"
        f"{box} (k3, k2tog) to end – 40 sts   {box} knit",
        (60,),
    )
    assert counts(reading) == [[60, 50, 40]]
    assert len(reading.rounds[0]) == 5


def test_empty_brackets_that_are_only_spoken_of_begin_no_round() -> None:
    """The brackets stand in a sentence; both sizes have one round."""
    text = (
        "The instructions for the larger size will be written thus ( ).\n"
        "Cast on 60 (70) sts.\nRnd 1: *k8, k2tog; rep from * around. 54 (63) sts."
    )
    assert counts(read(text, (60, 70))) == [[60, 54], [70, 63]]


@pytest.mark.parametrize(
    "words",
    [
        "from here I stopped doing the plain rounds because I like mine flat on top, so:",
        "I skip the plain rounds from here on.",
        "Don't work any more plain rounds from here.",
        "I gave up the plain rounds at this point",
        "I omit the plain rounds now",
        "Do not work the plain rounds any more.",
        "Stop working plain rounds here.",
    ],
)
def test_plain_rounds_that_are_given_up_are_not_worked(words: str) -> None:
    """Round 6 follows round 5 at once."""
    reading = read(f"r5: (k8, k2tog) x 6 → 54\n{words}\nr6: (k7, k2tog) x 6 → 48", (60,))

    assert counts(reading) == [[60, 54, 48]]
    assert len(reading.rounds[0]) == 2


def test_plain_rounds_behind_another_verb_are_worked() -> None:
    """It is the decreasing that stops; two rounds are plain."""
    text = "r5: (k8, k2tog) x 6 → 54\nStop decreasing and knit 2 rounds.\nr6: (k7, k2tog) x 6 → 48"
    assert after_each_round(read(text, (60,))) == [54, 54, 54, 48]
