"""Rounds that go on as set for some numbers, fabrics that are only explained, and what is said to some readers only.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts, number_of_rounds

BEGUN = "Rnd 1: *Ssk, k13; rep from *. 98 sts.\nRnd 2 and all even rnds: Knit.\nRnd 3: *Ssk, k12; rep from *. 91 sts.\n"
AS_SET = [
    "Rnds 5, 7, 9, 11, 13: continue as set, one st fewer after each ssk every time; after rnd 13 56 stitches remain.",
    "Rnds 5–13: On odd rnds, continue to decrease as established, with 1 st fewer after each ssk. 56 sts.",
    "Rnds 5-13: Continue to decrease every other rnd as set: 56 sts.",
    "Rnds 5, 7, 9, 11 and 13: as Rnd 3, with 1 st fewer after each ssk each time. 56 sts.",
]


@pytest.mark.parametrize("onward", AS_SET)
def test_every_other_of_the_rounds_numbered_goes_on(onward: str) -> None:
    """Listed one by one, or as a range of which the odd rounds shape."""
    reading = read(BEGUN + onward, (105,))
    assert counts(reading) == [[105, 98, 91, 84, 77, 70, 63, 56]]
    assert number_of_rounds(reading) == [13]


def test_every_round_numbered_goes_on() -> None:
    """Where it is told of every round."""
    text = "Rnd 1: *Ssk, k13; rep from *. 98 sts.\nRnd 2: *Ssk, k12; rep from *. 91 sts.\n"
    onward = "Rnds 3-8: Continue to decrease as set, with one st fewer after each ssk on every rnd. 49 sts."
    assert after_each_round(read(text + onward, (105,))) == [98, 91, 84, 77, 70, 63, 56, 49]


LESS = [
    "Go on so, always one stitch less before you take 2 together, always three rounds plain between, till 12 are left.",
    "Carry on, one stitch fewer before knitting two together each time and 3 plain rounds between, until 12 remain.",
]


@pytest.mark.parametrize("onward", LESS)
def test_plain_rounds_between_are_as_many_as_are_told(onward: str) -> None:
    """One stitch less before two are taken together says only how it goes on."""
    text = f"*Knit 2, knit 2 together* all round. 18.\nKnit three rounds.\n{onward}"
    assert after_each_round(read(text, (24,))) == [18, 18, 18, 18, 12]


EXPLAINED = [
    "Reversed stocking stitch: P every rnd.",
    "(Reversed stocking stitch: P every rnd.)",
    "St st in the rnd: K all rnds.",
    "Garter stitch in the round = knit 1 round, purl 1 round.",
    "Rib pattern (worked over an even number of sts): every round *k1, p1*.",
]


@pytest.mark.parametrize("fabric", EXPLAINED)
def test_a_fabric_that_is_only_explained_is_not_worked(fabric: str) -> None:
    """What it is on every round."""
    assert after_each_round(
        read(f"{fabric}\nCrown\n1st rnd [K10, k2tog] 8 times. 88 sts.\n2nd rnd K.", (96,))
    ) == [88, 88]


def test_so_many_rounds_of_a_rib_keep_their_count() -> None:
    """`Cont in k3, p1 rib as established for 6 more rnds. 80 sts`."""
    rib = "Cont in k3, p1 rib as established for 6 more rnds. 80 sts."
    text = f"{rib}\nCrown\nRnd 1: *K2, k2tog; rep from * around. 60 sts."
    assert after_each_round(read(text, (80,))) == [80] * 6 + [60]


TO_SOME = [
    "Ravel back to R2 if yours comes out too shallow and add a couple more plain rounds there.",
    "Rip back to round 1 if the crown is too pointed, and knit 2 rounds there.",
    "Add two more plain rounds here if you like a slouchier hat.",
    "Knit 4 more rounds if you prefer it deeper.",
    "Only two rounds, and it sits beautifully flat.",
]


@pytest.mark.parametrize("sentence", TO_SOME)
def test_what_some_may_do_is_not_worked(sentence: str) -> None:
    """What stands behind `if` is a matter of taste."""
    assert after_each_round(read(f"R1: [k4, k2tog] x 14 – 70 sts\nR2: knit\n{sentence}", (84,))) == [70, 70]


def test_a_way_of_working_does_not_take_a_round_away() -> None:
    """Needles may be changed by those who like it; the rounds are worked by all."""
    text = "R1: [k4, k2tog] x 14 – 70 sts\nKnit 2 rounds, changing to double-pointed needles if you like."
    assert after_each_round(read(text, (84,))) == [70, 70, 70]


LEFT_OVER = [
    "4 plain, 2 tog., ten times, and the 3 left over plain.",
    "(k4, k2tog) ten times, and the 3 sts left over plain.",
    "(k4, k2tog) 10 times, knit the remaining 3 sts.",
    "Next round (dec): (k4, k2tog) 10 times, k3.",
    "*k4, s1, k1, psso; rep from * 9 more times, k3.",
]


@pytest.mark.parametrize("round_", LEFT_OVER)
def test_stitches_left_over_are_knitted(round_: str) -> None:
    """They are no count."""
    assert after_each_round(read(f"Round 1: {round_}", (63,))) == [53]


VERBS = [
    "Over the 84 sts knit in the 1st rnd of the crown * k10, k2tog, from * 7 times = 77 sts.",
    "Knit in the next rnd * k10, k2tog, repeat from * = 77 sts.",
]


@pytest.mark.parametrize("round_", VERBS)
def test_knit_may_be_the_verb_of_the_round(round_: str) -> None:
    """And no stitch."""
    assert after_each_round(read(round_, (84,))) == [77]


def test_a_step_in_a_bracket_names_the_round() -> None:
    """`Work the decrease round (step 1) every round, 2 times`."""
    text = """Place 6 markers, one every 12 sts.
1. Decrease round: *k2tog, knit to marker, slip marker, repeat from * around. 66 sts.
2. Plain round: knit.
3. Work the decrease round (step 1) every round, 2 times. You have 54 sts."""
    assert after_each_round(read(text, (72,))) == [66, 66, 60, 54]


def test_a_round_that_is_left_out() -> None:
    """`Rep rnd 1 twice more, omitting rnd 2`."""
    begun = "Rnd 1: *k to 2 sts before marker, k2tog* 8 times. 88 sts.\nRnd 2: knit."
    text = f"{begun}\nRep rnd 1 twice more, omitting rnd 2."
    assert after_each_round(read(text, (96,))) == [88, 88, 80, 72]


def test_rounds_that_are_named_are_shaped_and_no_others() -> None:
    """Lines told ahead for odd and even rounds do not work any before them."""
    text = """Rnd 1: *K6, k2tog* around. 56 sts.
All odd rnds: *k5, k2tog*.
All even rnds: knit.
Decrease in the same way on rounds 3, 5 and 7."""
    assert after_each_round(read(text, (64,))) == [56, 56, 48, 48, 40, 40, 32]


@pytest.mark.parametrize("begun", ["Rnd 1: *k11, k2tog* around.", "*K11, k2tog* around."])
def test_the_first_of_the_rounds_named_may_be_that_told_before(begun: str) -> None:
    """On rounds 1, 3 and 5: the first is worked, and two more follow with plain rounds between."""
    text = f"{begun}\nIn this manner dec on rnds 1, 3 and 5 (80 sts).\nIn this manner dec on rnds 6 and 7 (64 sts)."
    assert after_each_round(read(text, (104,))) == [96, 96, 88, 88, 80, 72, 64]


@pytest.mark.parametrize("double", ["k3tog", "s2kp"])
def test_plain_stitches_go_from_both_sides_of_a_double_decrease(double: str) -> None:
    """5 times 9 stitches, of which each round takes one on either side."""
    text = f"Rnd 1: *k3, {double}, k3* around.\nRnd 2: knit.\nContinue in this manner until 5 sts remain."
    assert after_each_round(read(text, (45,))) == [35, 35, 25, 25, 15, 15, 5]


def test_a_round_that_is_worked_on_every_round_from_now_on_was_not_begun_before() -> None:
    """Decreases of 8 on every second round come to 48 stitches, and four more on every round to 16."""
    text = """Place a marker every 12 sts.
Dec round: *knit to 2 sts before marker, k2tog, slip marker; repeat from * to end. (88 sts)
Knit 1 round.
Repeat the last 2 rounds 5 more times. (48 sts)
Now work the dec round on every round 4 times."""
    assert after_each_round(read(text, (96,)))[-5:] == [48, 40, 32, 24, 16]
