"""Rounds of which every one is alike, for so long; verbs before a repeat; what is said of the last stitches.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import Reading, read
from tests.corpus.score import counts as counts_of
from tests.corpus.score import errors


def counts(reading: Reading) -> list[list[int]]:
    """The counts of each size of a text in which nothing is wrong."""
    assert not errors(reading)
    return [counts_of(rounds, rounds[0].before) for rounds in reading.rounds]


@pytest.mark.parametrize(
    "words",
    [
        "Every round: K3, P1 around. Do this for 6 1/2 inches.",
        "Every rnd: *k3, p1; rep from * around. Work until 6 in.",
        "Every round: K3, P1 around, for 6 inches.",
        "All rounds: K3, P1 to end. Continue for 6 inches.",
        "Each round: (K3, P1) around. Keep this up until it is 6 inches long.",
        "Every row: k3, p1 around. Go on like this for 6 inches",
    ],
)
def test_every_round_for_a_length_is_worked_where_it_stands(words: str) -> None:
    """It does not come between the rounds of the crown below: 72 less 18 are 54, and less 18 are 36."""
    text = (
        f"Cast on 72. Join. {words}\nTop:\nRnd A - (K1, K2tog, P1) around. You'll have 54.\n"
        "Next 3 rnds - (K2, P1) around.\nRnd B - (K2tog, P1) around. You'll have 36."
    )
    reading = read(text, (72,))

    assert counts(reading) == [[72, 54, 36]]
    assert len(reading.rounds[0]) == 6


def test_every_round_for_a_number_of_rounds_is_worked_so_often() -> None:
    """Twenty rounds of rib, and one of the crown."""
    text = (
        "Cast on 72. Every round: K3, P1 around. Work 20 rounds.\nNext rnd: (K1, K2tog, P1) around. 54 sts."
    )
    reading = read(text, (72,))

    assert counts(reading) == [[72, 54]]
    assert len(reading.rounds[0]) == 21


@pytest.mark.parametrize(
    "words",
    [
        "In decrease round 1 you knit *5 stitches, then 2 stitches together*, and this 12 times. = 72 st.",
        "Decrease round 1: you knit *5 stitches, then 2 stitches together*, 12 times. = 72 st.",
        "Decrease round 1: knit *5 sts, 2 together*, 12 times. = 72 st.",
        "Round 1: knit (5, 2 together) 12 times. 72 sts",
        "In round 1 you knit *5, k2tog* 12 times. = 72 sts",
    ],
)
def test_a_verb_before_a_repeat_is_of_its_first_stitches(words: str) -> None:
    """Twelve times 7 stitches become 6; the verb is no stitch of its own."""
    assert counts(read(f"{words}\nKnit 2 rounds.", (84,))) == [[84, 72]]


@pytest.mark.parametrize(
    "words",
    [
        "K3, K2tog to end of round, last 4 sts plain",
        "K3, K2tog around, the last 4 sts plain",
        "(K3, K2tog) around, plain over the last 4 sts",
        "K3, K2tog to end of round, last 4 sts knit",
        "*K3, K2tog* to end, knit the last 4 sts",
    ],
)
def test_the_last_stitches_are_plain(words: str) -> None:
    """16 times 5 of 84 stitches become 4, and 4 stay: 68."""
    assert counts(read(f"Round 1: {words}\nRound 2: knit", (84,))) == [[84, 68]]


@pytest.mark.parametrize(
    "words",
    [
        "Then with the thicker needles 28 rounds all knit.",
        "With the larger needles 28 rnds st st.",
        "On the bigger needles 28 rounds plain.",
        "Change to the thick needles, 28 rounds knit.",
        "Now needles 28 rounds in stocking stitch.",
    ],
)
def test_a_number_of_rounds_behind_needles_is_no_size_of_them(words: str) -> None:
    """28 rounds."""
    assert len(read(f"Cast on 84 sts.\n{words}\nRnd 1: k5, k2tog around. 72 sts.", (84,)).rounds[0]) == 29
