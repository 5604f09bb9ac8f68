"""Sizes printed from the largest down: what is for the small hat is worked on the small hat.

The counts are worked by hand; that a man's head is larger than a woman's, and L than S, is common practice.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts, number_of_rounds

NAMES = [
    ("Man only", "Woman only"),
    ("Size L/XL only", "Size S/M only"),
    ("Size L only", "Size S only"),
    ("For the large", "For the small"),
    ("Adult only", "Child only"),
    ("Larger size only", "Smaller size only"),
    ("Largest size only", "Smallest size only"),
]


@pytest.mark.parametrize(("large", "small"), NAMES)
@pytest.mark.parametrize("cast_on", [(96, 80), (80, 96)])
def test_a_line_for_the_large_hat_is_worked_on_it(large: str, small: str, cast_on: tuple[int, int]) -> None:
    """The hat of 96 stitches has 4 and 10 rounds, that of 80 has 4 and 5, whichever is printed first."""
    text = (
        f"Cast on {cast_on[0]} ({cast_on[1]}) sts.\nRnds 1-4: knit.\n{large}: knit 10 rounds.\n"
        f"{small}: knit 5 rounds."
    )
    assert number_of_rounds(read(text, cast_on)) == [14 if count == 96 else 9 for count in cast_on]


def test_the_largest_of_three_sizes_is_printed_first() -> None:
    """Only the hat of 96 stitches has 10 rounds more; the two smaller have 2 more."""
    text = (
        "Cast on 96 (88, 80) sts.\nRnds 1-4: knit.\nLargest size only: knit 10 rounds.\n"
        "Two smaller sizes: knit 2 rounds."
    )
    assert number_of_rounds(read(text, (96, 88, 80))) == [14, 6, 6]


def test_each_size_takes_in_the_stitches_of_its_own_line() -> None:
    """The man's crown goes from 96 to 88, the woman's from 80 to 72."""
    text = "Cast on 96 (80).\nRnd 1: knit.\nSize Man: *k10, k2tog* around (88)\nSize Woman: *k8, k2tog* (72)"
    reading = read(text, (96, 80))

    assert counts(reading) == [[96, 88], [80, 72]]
    assert number_of_rounds(reading) == [2, 2]


def test_a_size_by_its_letter_in_german() -> None:
    """Of sizes L and S in this order, the 3 rounds are those of L."""
    text = "96 (80) M anschlagen.\n4 Rd re.\nNur Größe L: 3 Rd re."
    assert number_of_rounds(read(text, (96, 80), "de")) == [7, 4]


@pytest.mark.parametrize(
    ("largest", "two", "three"),
    [
        ("Adult only", "Child and Adult only", "Toddler, Child and Adult only"),
        ("Man only", "Woman and Man only", "Child, Woman and Man only"),
        ("For the adult size only", "For child and adult only", "For baby, child and adult only"),
    ],
)
def test_the_smallest_size_may_be_without_a_name(largest: str, two: str, three: str) -> None:
    """Three of four sizes work rounds before those that all work, by eight stitches each."""
    text = (
        "You should have 64 (72, 80, 88) sts.\n"
        f"{largest}: *K9, k2tog; rep from * to end. (80 sts)\n{two}: *K8, k2tog; rep from * to end. (72 sts)\n"
        f"{three}: *K7, k2tog; rep from * to end. (64 sts)\nAll sizes: *K6, k2tog; rep from * to end. (56 sts)"
    )
    reading = read(text, (64, 72, 80, 88))

    assert counts(reading) == [list(range(cast_on, 55, -8)) for cast_on in (64, 72, 80, 88)]
