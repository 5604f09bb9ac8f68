"""Rounds of which every one is alike, for so long; verbs before a repeat; what is said of the last stitches.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts


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
        "*K3, K2tog*, the last 4 are knitted plain",
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
    """28 rounds, and the one below."""
    text = f"Cast on 84 sts.\n{words}\nRnd 1: k5, k2tog around. 72 sts."
    assert after_each_round(read(text, (84,))) == [84] * 28 + [72]


@pytest.mark.parametrize(
    "words",
    [
        (
            "Continue to decrease in this manner on every alternate round, having\n"
            "one stitch less between the decreasings each time, until the round\n"
            '"* K. 1, K. 2 tog." has been worked (20 sts.).'
        ),
        'Continue in this way on every alternate round until the round "* K. 1, K. 2 tog." has been worked (20 sts.).',
        "Continue in this way on every alternate round until the K. 1, K. 2 tog. round has been worked (20 sts.).",
        "Continue thus every other round until you have worked the round *k1, k2tog* (20 sts).",
        "Carry on like this, decreasing every other round, till the round (k1, k2tog) is done. 20 sts",
    ],
)
def test_a_crown_goes_on_until_a_round_is_worked(words: str) -> None:
    """50 less 10 are 40, then 30 and 20, each with a plain round before; the last takes all together."""
    text = (
        "1st round: * K. 3, K. 2 tog.; repeat from * to end (40 sts.).\n2nd round: Knit.\n"
        f"{words}\nNext round: K. 2 tog. ten times."
    )
    reading = read(text, (50,))

    assert counts(reading) == [[50, 40, 30, 20, 10]]
    assert len(reading.rounds[0]) == 6


@pytest.mark.parametrize(
    "words",
    [
        "Knit, and at the same time k2tog 3 times spaced evenly. 96 sts.",
        "Knit, k2tog 3 times evenly. 96 sts.",
        "Knit, AT THE SAME TIME ssk 3 times spread out. 96 sts.",
        "Knit, working k2tog evenly 3 times. 96 sts.",
        "Knit and k2tog 3 times spread evenly around. 96 sts.",
        "Knit, working k2tog 3 times evenly spaced. 96 sts.",
    ],
)
def test_a_stitch_some_times_is_spread_over_a_plain_round(words: str) -> None:
    """99 less 3 are 96."""
    assert counts(read(f"Next rnd: {words}\nNext rnd: knit.", (99,))) == [[99, 96]]


def test_a_stitch_is_made_some_times_over_a_plain_round() -> None:
    """96 and 4 are 100."""
    assert counts(read("Next rnd: Knit, m1 4 times evenly. 100 sts.", (96,))) == [[96, 100]]


@pytest.mark.parametrize(
    "words",
    [
        "Knit 12 rounds of ribbing, then with the thicker needles 28 rounds all knit.",
        "Knit 12 rounds of ribbing (2 knit, 2 purl), then with the bigger needles 28 rounds all knit.",
        "Work 12 rounds in rib, then on the thick needles 28 rounds plain.",
        "12 rounds rib, then with your larger needles 28 rounds st st.",
    ],
)
def test_rounds_behind_then_are_others_however_many_words_stand_between(words: str) -> None:
    """12 and 28 are 40 rounds, and the one below."""
    text = f"Cast on 84 sts.\n{words}\nRnd 1: k5, k2tog around. 72 sts."
    assert after_each_round(read(text, (84,))) == [84] * 40 + [72]


@pytest.mark.parametrize(
    "words",
    [
        "in each part knit the first 2 st together = 72 st.",
        "k2tog at the beginning of each part = 72 st",
        "k2tog at the start of every part = 72 st",
        "decrease 1 stitch at the beginning of each part. 72 sts",
        "in each part k2tog, knit to the end of the part = 72",
        "in every part the last 2 sts are knitted together. 72 sts",
        "knit in each wedge the last 2 st together. 72",
    ],
)
def test_a_decrease_is_told_of_the_first_stitches_of_each_part(words: str) -> None:
    """One stitch fewer in each of six parts, down to 36 with three plain rounds between."""
    text = (
        "Cast on 78 sts.\nThe hat is divided in 6 parts of 13 st.\n"
        f"Decrease round: {words}\nKnit 3 rounds.\nRepeat these 4 rounds, every time 6 st less, until there are 66 st."
    )
    assert counts(read(text, (78,))) == [[78, 72, 66]]


@pytest.mark.parametrize(
    "words",
    [
        "12 times: 2 st together, 5 st knit = 72 st.",
        "12 times: k2tog, 5 sts knit = 72 st.",
        "*2 st together, 5 st knit* = 72 st.",
        "2 st together, 5 knit = 72",
    ],
)
def test_stitches_before_an_equals_sign_are_worked(words: str) -> None:
    """`5 st knit` ends the repeat, and the count stands behind the sign."""
    assert counts(read(f"Round 1: {words}\nRound 2: knit", (84,))) == [[84, 72]]


@pytest.mark.parametrize(
    ("words", "count"),
    [
        ("Knit, m1 at end of rnd.", 97),
        ("Next rnd: Knit, m1 at the end of the rnd. 97 sts", 97),
        ("Knit 1 round, m1 at the end of the round.", 97),
        ("Next rnd: Knit, k2tog at end of rnd.", 95),
        ("Knit one round, working k2tog at the end of the round. 95 sts", 95),
        ("Purl, m1 at end of round.", 97),
        ("Next round: knit, m1 at beginning of round.", 97),
        ("Increase 1 stitch at the beginning of the next round.", 97),
        ("Increase 1 stitch at the end of the next round.", 97),
        ("Knit, m1 at end of next rnd. 97 sts", 97),
    ],
)
def test_a_stitch_at_an_end_of_the_round_is_worked_once(words: str, count: int) -> None:
    """All other stitches are plain, and it is a single round."""
    assert after_each_round(read(words, (96,))) == [count]


@pytest.mark.parametrize(
    "words", ["the 96 sts in k2, p2 rib", "these 96 sts in k1, p1 rib", "all 96 sts in rib"]
)
def test_the_count_may_stand_between_work_and_the_rib(words: str) -> None:
    """The number is that of all stitches, and none of them is knitted first."""
    assert after_each_round(read(f"Work {words} for 4 rnds.\nKnit 2 rnds.", (96,))) == [96] * 6
