"""Crowns gone on with to a round that is named by its stitches, or to a count, and with which round they end.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts

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
        "Keep going in the same way. Stop after the round of knit 1, knit 2 together. Count: 16.",
        "Continue in this way; stop once there are 16 sts left.",
        "Carry on like this, with one stitch fewer each time. Stop when you have 16 stitches.",
        "Go on in this manner, one stitch fewer each time. Finish with the round of k1, k2tog (16 sts).",
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


THREE_BETWEEN = (
    "Dec rnd: *k8, k2tog* around. 54 sts. Knit 3 rnds. Dec rnd: *k7, k2tog* around. 48 sts. Knit 3 rnds.\n"
)


@pytest.mark.parametrize(
    "words",
    [
        "Continue in this manner until you have worked *K1, k2tog* and the 3 knit rnds after it (12 sts).",
        "Continue like this until you've done *k1, k2tog* and its 3 plain rounds. 12 sts.",
        "Continue so until the (k1, k2tog) round has been worked, followed by 3 knit rnds (12 sts).",
        "Cont in this way until *k1, k2tog* has been worked and 3 rnds knitted after it (12 sts).",
    ],
)
def test_several_plain_rounds_behind_that_round_are_worked(words: str) -> None:
    """Three plain rounds after each of eight decrease rounds, from 60 stitches by six."""
    reading = read(f"{THREE_BETWEEN}{words}\nLast rnd: k2tog around. 6 sts.", (60,))

    assert counts(reading) == [[*range(60, 11, -6), 6]]
    assert len(reading.rounds[0]) == 8 * 4 + 1


TO_THE_19TH = """1st round: * K.10, K.2 tog.; rep. from * to end (77 sts.).
2nd and every alt. round: K.
3rd round: * K.9, K.2 tog.; rep. from * to end (70 sts.).
"""


@pytest.mark.parametrize(
    "words",
    [
        "Cont. in this way until the 19th round, “* K.1, K.2 tog.; rep. from * to end”, has been worked (14 sts.).",
        "Cont. dec. in this way until the round ‘*K.1, K.2 tog.; rep. from *’ has been worked (14 sts.).",
        "Cont. in this way until the 19th round (*k.1, k.2 tog.*) has been worked (14 sts.).",
        "Cont. in this way until 19th round has been worked: * K.1, K.2 tog.; rep. from * to end (14 sts.).",
        "Cont. in this way until the 19th round reads * K.1, K.2 tog.; rep. from * to end (14 sts.).",
    ],
)
def test_that_round_may_be_told_with_its_number_and_its_repeat(words: str) -> None:
    """From 84 stitches by seven, on every other round."""
    reading = read(f"{TO_THE_19TH}{words}\n20th round: K.\n21st round: K.2 tog. to end (7 sts.).", (84,))

    assert counts(reading) == [[*range(84, 13, -7), 7]]
    assert len(reading.rounds[0]) == 21


RIBBED = "Round 1: *Work 21 sts in rib, s2kp; rep from * 3 more times. 88 sts\n"


@pytest.mark.parametrize(
    ("even", "on"),
    [
        (
            "Work in rib as set, knitting the s2kp sts.",
            "Rep Rounds 2 and 3, working 2 sts fewer in rib before each dec,",
        ),
        ("Rib as set, knitting each s2kp st.", "Rep Rounds 2 and 3, with 2 fewer rib sts before each s2kp,"),
        (
            "Work in rib, knitting the s2kp stitches.",
            "Cont in this way, working two sts less in pattern between decs,",
        ),
    ],
)
def test_two_stitches_fewer_are_left_between_double_decreases(even: str, on: str) -> None:
    """A centred decrease takes one stitch from either side; the stitches it made are knitted."""
    third = "Round 3: *Work 19 sts in rib, s2kp; rep from * 3 more times. 80 sts\n"
    reading = read(f"{RIBBED}Round 2: {even}\n{third}{on} until 24 sts rem.", (96,))

    assert counts(reading) == [[*range(96, 23, -8)]]
    assert len(reading.rounds[0]) == 17


@pytest.mark.parametrize(
    "changed",
    [
        "Rnds 3 & 4: Rep Rnds 1 & 2, working 1 st less before each dec.",
        "Rnds 3 & 4: As Rnds 1 & 2, but with k7 instead of k8.",
        "Rnd 3: As rnd 1, with 1 st fewer between decreases.\nRnd 4: Knit.",
    ],
)
def test_rounds_told_by_a_change_are_plain_and_shaped_in_turn(changed: str) -> None:
    """Eight stitches fewer on each odd round."""
    again = "Rnds 5-8: Rep Rnds 3 & 4 twice, with 1 st less each time."
    text = f"Rnd 1: *K8, k2tog; rep from * around.\nRnd 2: Knit.\n{changed}\n{again}"

    assert after_each_round(read(text, (80,))) == [72, 72, 64, 64, 56, 56, 48, 48]


@pytest.mark.parametrize(
    "again",
    ["Rnds 5-8: Rep Rnds 3 & 4 twice.", "Rep Rnds 3 & 4 twice more.", "Rep Rnds 3 & 4 until 48 sts rem."],
)
def test_a_change_is_made_again_with_the_rounds_that_make_it(again: str) -> None:
    """Rounds 3 and 4 are 1 and 2 with one stitch fewer; so the next are with one fewer still."""
    text = "Rnd 1: *K8, k2tog*.\nRnd 2: Knit.\nRnds 3 & 4: Rep Rnds 1 & 2 with 1 st fewer between decs."
    reading = read(f"{text}\n{again}\nNext rnd: *k4, k2tog* around. 40 sts", (80,))

    assert counts(reading) == [[*range(80, 39, -8)]]
    assert len(reading.rounds[0]) == 9
