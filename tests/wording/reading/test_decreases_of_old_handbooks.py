"""Crowns in the words of old handbooks and letters; counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

NARROWED = [
    "Knit 9 stitches and narrow, repeating around.",
    "Knit 9 stitches, then narrow, repeating all around.",
    "*Knit 9, narrow once; repeat from * around.",
    "Knit nine and decrease; repeat to end of round.",
    (
        "To narrow, knit 2 stitches together.\nKnit 9 stitches and narrow, repeating around. "
        "There are now 80 stitches."
    ),
]


@pytest.mark.parametrize("text", NARROWED)
def test_narrowing_behind_plain_stitches_is_one_decrease(text: str) -> None:
    """One stitch is taken in behind each nine."""
    reading = read(text, (88,))

    assert after_each_round(reading) == [80]


DOUBLE = [
    (
        "Slip one stitch, knit the next two together, and lift the slipped stitch over. "
        "I'll call it a double decrease."
    ),
    "Sl 1, k2tog, psso. From here on I call this a double decrease.",
    "Sl 1, k2tog, psso: this is called the double decrease.",
    "For a double decrease, sl 1, k2tog, psso.",
    "To make a double decrease, k3tog.",
]


@pytest.mark.parametrize("told", DOUBLE)
def test_a_stitch_that_is_only_told_is_not_worked(told: str) -> None:
    """The sentence that says how a stitch is worked is no round."""
    reading = read(
        f"{told}\nKnit five stitches and work a double decrease, again eight times. 48 sts.", (64,)
    )

    assert after_each_round(reading) == [48]


@pytest.mark.parametrize(
    "told", ["Sl 1, k2tog, psso. We call this dd.", 'A "dd" is my name for sl 1, k2tog, psso.']
)
def test_a_name_given_beside_the_stitch_is_known(told: str) -> None:
    """A short name may be given to the stitch of the sentence before, or before it."""
    assert after_each_round(read(f"{told}\nK5, dd; repeat to the end.", (64,))) == [48]


BECOMING = [
    "Knit two together all the way around. Your 60 stitches have become 30.",
    "Knit two together all the way around, so that 60 stitches become 30.",
    "Knit two together thirty times. 60 stitches turn into 30.",
    "K2tog around. The 60 stitches are now down to 30 stitches.",
    "Knit two together all round, and 60 turn into 30.",
    "K2tog around. Of your 60 stitches 30 are left.",
    "K2tog around, which gets rid of thirty. 30 remain.",
]


@pytest.mark.parametrize("text", BECOMING)
def test_stitches_there_were_are_no_count(text: str) -> None:
    """Of the two numbers, the second is left."""
    reading = read(text, (60,))

    assert after_each_round(reading) == [30]


RIBS = [
    ("Turn every pair of purls into one: *k2, p2tog*, all the way around. 72 sts left.", 96, 72),
    ("Next, do the same to the knits: *k2tog, p1*, all the way around. 48 sts left.", 72, 48),
    (
        "In every purl column of the k2, p2 rib, purl the two purls together: *k2, p2tog* around. 72 sts.",
        96,
        72,
    ),
    ("Decrease all the knits: (k2tog, p1) around. 48 sts.", 72, 48),
]


@pytest.mark.parametrize(("text", "before", "after"), RIBS)
def test_stitches_that_are_named_before_a_colon_are_not_worked(text: str, before: int, after: int) -> None:
    """Behind the colon stands what is done with them."""
    reading = read(text, (before,))

    assert after_each_round(reading) == [after]


@pytest.mark.parametrize(
    "told",
    ["You should be working in k2, p2 rib over 96 stitches.", "We have been working in k2, p2 rib."],
)
def test_the_fabric_in_which_the_work_is_adds_no_round(told: str) -> None:
    """Nothing is worked by a sentence that says where the work is."""
    assert after_each_round(read(f"{told}\n*K2, p2tog* to end.", (96,))) == [72]


EVERY_ROUND = [
    "From now on there's a k2tog round every time, with one knit less, until you have 10 sts.",
    "From now on there is a decrease round every time, with one knit less, until 10 sts remain.",
    "Every round has its k2togs now, with a knit less each time, till you have 10 sts.",
    "Work a decrease round every round, with 1 st less before the k2tog each time, until 10 sts remain.",
    "Without a plain round between, keep decreasing like this until 10 sts remain.",
]


@pytest.mark.parametrize("text", EVERY_ROUND)
def test_no_plain_round_stands_between_from_here_on(text: str) -> None:
    """Nor does a plain round stand behind the last."""
    begun = "*k7, k2tog; rep from * around. Knit 1 round.\n*k6, k2tog; rep from * around. Knit 1 round.\n"

    assert after_each_round(read(begun + text, (90,))) == [80, 80, 70, 70, 60, 50, 40, 30, 20, 10]


WITHOUT_PLAIN = [
    "Without a plain round between, work k2tog 8 times. 8 sts.",
    "Straight after that, without a knit round, k2tog around. 8 sts.",
    "Without a plain round, *k2tog; rep from * to end. 8 sts.",
    "Following round: K2tog all round. 8 sts.",
    "One last round of knitting two together.",
]


@pytest.mark.parametrize("text", WITHOUT_PLAIN)
def test_a_round_that_follows_at_once_is_worked_once(text: str) -> None:
    """No plain round is worked, and the round itself is not worked again."""
    assert after_each_round(read(f"*K1, k2tog* 8 times. (16 sts)\n{text}", (24,))) == [16, 8]


def test_a_round_is_worked_over_and_over_by_its_name() -> None:
    """`Over and over` stands between the name of a round and the count at the end."""
    text = (
        "Swirl round: *k10, ssk; repeat from * to the end of the round. 77 sts.\n"
        "Just work the swirl round over and over until there are only 56 stitches left."
    )

    assert after_each_round(read(text, (84,))) == [77, 70, 63, 56]


@pytest.mark.parametrize(
    "text", ["Then it's seven and one more to go.", "Take out seven and one half ounces of yarn."]
)
def test_numbers_of_other_things_are_no_round(text: str) -> None:
    """Nothing is worked."""
    assert after_each_round(read(f"Knit eight and narrow, repeating around.\n{text}", (80,))) == [72]
