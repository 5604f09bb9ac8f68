"""Crowns gone on with to a round that is named by its stitches, or to a count, and with which round they end.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts

TWO_ROUNDS = "(k11, k2tog) x 8 - 96 sts. K 1 rnd. (k10, k2tog) x 8 - 88 sts. K 1 rnd. "
TO_16 = [104, 96, 88, 80, 72, 64, 56, 48, 40, 32, 24, 16]


@pytest.mark.parametrize(
    "words",
    [
        "Carry on, one less each time,\ntill you've worked (k1, k2tog) x 8 - 16 sts.",
        "Carry on, one less each time, until you have worked [k1, k2tog] 8 times and 16 sts remain.",
        "Continue in this manner until you have done the k1, k2tog round (16 sts).",
        "Keep going like this until you come to *k1, k2tog*. 16 sts.",
        'Go on so till the round "k1, k2tog" is done (16 sts).',
        "Continue thus, with one stitch fewer between decreases, to k1, k2tog: 16 sts.",
        "Continue to decrease in this way on every other round until the round that reads k1, k2tog is worked.",
        "Continue in this way on every other round until you have worked\n[k1, k2tog] 8 times and 16 sts remain.",
    ],
)
def test_a_crown_goes_on_until_a_round_of_these_stitches_is_worked(words: str) -> None:
    """Four rounds are told, and nine decrease rounds follow with a plain round before each."""
    reading = read(TWO_ROUNDS + words, (104,))

    assert counts(reading) == [TO_16]
    assert len(reading.rounds[0]) == 4 + 17


@pytest.mark.parametrize(
    "words",
    [
        "Continue in this way until the (K1, K2tog) rnd and the knit rnd after it are finished. Total 16 sts.",
        'and so on down to "1 plain, 2 tog." and the plain rd. that goes with it (16 st. left)',
        "Repeat these 2 rounds, reducing the k sts by 1 each time, until (k1, k2tog) has been worked.",
        (
            "Repeat the last 2 rounds, with 1 stitch less before the decrease each time, until the (k1, k2tog) round "
            "and the plain round after it have been worked."
        ),
    ],
)
def test_a_plain_round_behind_that_round_is_worked_too(words: str) -> None:
    """The last of the rounds repeated is plain, or the sentence says so."""
    reading = read(TWO_ROUNDS + words, (104,))

    assert counts(reading) == [TO_16]
    assert len(reading.rounds[0]) == 4 + 18


@pytest.mark.parametrize(
    "words",
    [
        "Carry on decreasing like this every other round down to 64 sts; then decrease in every round down to 8 sts.",
        "Keep decreasing every other round, down to 64 sts, then every round down to 8 sts.",
        (
            "Continue decreasing in this way on every other round until 64 sts remain, ending with a decrease round, "
            "then on every round until 8 sts remain."
        ),
        (
            "Decrease like this every second round until you are down to 64 sts, and from then on every round until "
            "you are down to 8."
        ),
        "Go on in this manner on alternate rounds down to 64 sts. From there on every round down to 8 sts.",
    ],
)
def test_a_sentence_says_how_far_the_plain_rounds_go(words: str) -> None:
    """Every other round down to 64, every round down to 8."""
    reading = read("Rnd 1: (k14, k2tog) 8 times. 120 sts.\nKnit 1 round.\n" + words, (128,))

    assert counts(reading) == [list(range(128, 7, -8))]
    assert len(reading.rounds[0]) == 2 + 13 + 7


@pytest.mark.parametrize(
    "words",
    [
        "Repeat rounds 4 and 5, with 1 st less between the decreases each time, until 60 sts remain.",
        "Repeat the last 2 rounds, knitting one st fewer before each decrease, until 60 sts remain.",
        "Rep rnds 4-5, working 1 fewer st between decs each time, to 60 sts.",
    ],
)
def test_rounds_repeated_with_a_stitch_fewer_keep_their_own_rhythm(words: str) -> None:
    """Two plain rounds stood between the decrease rounds before, and one is repeated."""
    begun = "Rnd 1: *k10, k2tog*\nRnds 2-3: knit\nRnd 4: *k9, k2tog*\nRnd 5: knit\n"
    reading = read(begun + words, (120,))

    assert counts(reading) == [[120, 110, 100, 90, 80, 70, 60]]
    assert len(reading.rounds[0]) == 5 + 4 * 2


NEEDLEWISE = "On each of 3 needles: k 1, k2tog, knit to last 3, k2tog, k 1.\nNext round plain.\n"


@pytest.mark.parametrize(
    ("words", "rounds"),
    [
        ("Do these two by turns till there are only 4 on each needle.", 20),
        ("Work these two alternately until 12 sts are left.", 20),
        ("These two rounds in turn until 4 sts are left on each needle.", 20),
        ("Repeat these two over and over until 12 sts remain.", 20),
        (
            "Do these two by turns till there are only 4 on each needle, which comes after a narrowing round.",
            19,
        ),
        ("Rep the last 2 rnds until 12 sts remain, ending with a dec rnd.", 19),
        ("Rep the last 2 rnds until 12 sts remain, ending on a decrease round.", 19),
        ("These 2 rnds to 12 sts, ending with dec.", 19),
    ],
)
def test_rounds_by_turns_end_with_the_plain_one_or_as_they_say(words: str, rounds: int) -> None:
    """`These two by turns` are the last two rounds."""
    reading = read(NEEDLEWISE + words, (72,))

    assert counts(reading) == [list(range(72, 11, -6))]
    assert len(reading.rounds[0]) == rounds


@pytest.mark.parametrize(
    "words",
    [
        "Work a Dec Rnd, then continue to work a Dec Rnd every other rnd 4 more times. [48 sts rem]",
        "Work a Dec Rnd, then work a Dec Rnd every other rnd 4 more times. [48 sts rem]",
        "Work a Dec Rnd once more, then continue to dec every other rnd until 48 sts rem.",
    ],
)
def test_a_round_worked_once_and_then_every_other_round(words: str) -> None:
    """The round that is worked first is one more than those of the sentence behind it."""
    begun = (
        "*K14, pm; rep from * 5 more times.\n"
        "Dec Rnd: *K to 2 sts before m, k2tog, sm; rep from * to end. [78 sts]\nKnit 1 rnd.\n"
    )
    reading = read(begun + words, (84,))

    assert counts(reading) == [[84, 78, 72, 66, 60, 54, 48]]
    assert len(reading.rounds[0]) == 3 + 1 + 8


@pytest.mark.parametrize(
    ("words", "last"),
    [
        (
            "Rnds 3-10: Rep Rnds 1 & 2, with one fewer knit st before the k2tog each time: 80, 72, 64, 56 sts.",
            56,
        ),
        ("Rnds 3-10: as Rnds 1 and 2, one st fewer before each k2tog (80, 72, 64, 56 sts).", 56),
        ("Rnds 3-6: decrease in the same way on every rnd (80, 72, 64, 56 sts).", 56),
        ("Then continue decreasing on every round: 80, 72, 64 sts.", 64),
    ],
)
def test_counts_that_fall_are_those_of_rounds_in_turn_and_not_of_sizes(words: str, last: int) -> None:
    """No size is smaller than the one before it."""
    reading = read("Rnd 1: *k10, k2tog*. 88 sts.\nRnd 2: Knit.\n" + words, (96,))

    assert counts(reading) == [list(range(96, last - 1, -8))]
