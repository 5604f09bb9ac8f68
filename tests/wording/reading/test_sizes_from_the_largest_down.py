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


LADDERS = [
    ("", "Oak only:", "Elm and Oak only:", "All:"),
    ("", "Size Oak only:", "Sizes Elm and Oak only:", "All Sizes:"),
    ("", "Oak:", "Oak/Elm:", "All:"),
    ("", "Adult Large only:", "Adult Medium and Adult Large only:", "All sizes:"),
    ("", "Size M only:", "Sizes S and M only:", "All sizes:"),
    ("", "80 only:", "72 and 80 only:", "all:"),
    ("", "For 80 only:", "For 72 and 80 only:", "For all:"),
    ("", "80 only -", "72/80 only -", "all -"),
    ("", "(80 only)", "(72 and 80 only)", "(all)"),
    ("", "80-stitch hat only:", "72- and 80-stitch hats only:", "All hats:"),
    ("", "Size 56 only:", "Sizes 53 and 56 only:", "All sizes:"),
    ("Sizes 50 (53, 56) cm\n", "56 cm only:", "53 and 56 cm only:", "All sizes:"),
    ("", "6 yrs only:", "4 and 6 yrs only:", "All sizes:"),
    ("Sizes 50/56 (62/68, 74/80)\n", "Size 74/80 only:", "Sizes 62/68 and 74/80 only:", "All sizes:"),
]


@pytest.mark.parametrize(("sizes", "largest", "larger", "everybody"), LADDERS)
def test_names_that_no_list_gives_are_in_the_order_of_their_lines(
    sizes: str, largest: str, larger: str, everybody: str
) -> None:
    """The size that works a line by itself is the largest, the next that joins it is smaller, whatever their names."""
    text = (
        f"{sizes}CO 64/72/80 sts, join.\n{largest} (k8, k2tog) x 8 = 72 sts; k 1 rnd\n"
        f"{larger} (k7, k2tog) x 8 = 64 sts; k 1 rnd\n{everybody} (k6, k2tog) x 8 = 56 sts"
    )
    reading = read(text, (64, 72, 80))

    assert counts(reading) == [list(range(cast_on, 55, -8)) for cast_on in (64, 72, 80)]


def test_a_name_that_no_list_gives_is_the_larger_of_two() -> None:
    """Ten rounds that two sizes do not share are those of the larger."""
    text = "Cast on 72 (80) sts.\nOak only: knit 10 rounds.\nBoth sizes: knit 2 rounds."
    assert number_of_rounds(read(text, (72, 80))) == [2, 12]


@pytest.mark.parametrize(
    ("sizes", "largest", "larger"),
    [
        ("Gr. 50/56 (62/68 – 74/80)\n", "Nur Gr. 74/80:", "Nur Gr. 62/68 und 74/80:"),
        ("", "Nur für Größe 74/80:", "Nur Größen 62/68 und 74/80:"),
        ("Gr. 56 (68 – 80)\n", "Nur Gr. 80:", "Nur Gr. 68/80:"),
        ("", "Nur Eiche:", "Nur Ulme und Eiche:"),
    ],
)
def test_a_size_of_two_numbers_in_german(sizes: str, largest: str, larger: str) -> None:
    """`Gr. 74/80` is one size where the lines name no other by either number."""
    text = (
        f"{sizes}64 (72 – 80) M anschlagen und zur Runde schließen.\n"
        f"{largest} 1 Rd * 8 M re, 2 M re zus-str, ab * fortl wdh = 72 M.\n"
        f"{larger} 1 Rd * 7 M re, 2 M re zus-str, ab * fortl wdh = 64 M.\n"
        "Alle Größen: 1 Rd * 6 M re, 2 M re zus-str, ab * fortl wdh = 56 M."
    )
    reading = read(text, (64, 72, 80), "de")

    assert counts(reading) == [list(range(cast_on, 55, -8)) for cast_on in (64, 72, 80)]


@pytest.mark.parametrize(
    ("larger", "rounds"),
    [
        ("Size L only: Rnd 1: *k11, k2tog* around. 96 sts.\nRnd 2: Knit.\nBoth sizes: Rnd 3:", 2),
        ("Size L only: Rnd 1: *k11, k2tog* around. 96 sts.\nRnd 2: Knit.\nAll sizes:\nRnd 1:", 2),
        (
            "Size M/L only: 1st rnd: *K2tog. K11. Rep from * around. 96 sts.\n2nd rnd: Knit.\nBoth sizes:\nNext rnd:",
            2,
        ),
    ],
)
def test_numbered_rounds_below_a_size_are_its_own_up_to_those_of_all(larger: str, rounds: int) -> None:
    """The plain round below the first round of the larger size is not worked in the smaller."""
    reading = read(f"Cast on 96 (104) sts.\n{larger} *k10, k2tog* around. 88 sts\nKnit 1 rnd.", (96, 104))

    assert counts(reading) == [[96, 88], [104, 96, 88]]
    assert number_of_rounds(reading) == [rounds, rounds + 2]


def test_sizes_called_by_number_are_those_of_the_list() -> None:
    """The first size is the largest here."""
    text = (
        "Size 1 only: *k8, k2tog; rep from * around — 72 sts\n"
        "Sizes 1 and 2 only: *k7, k2tog; rep from * around — 64 sts\n"
        "All sizes: *k6, k2tog; rep from * around — 56 sts"
    )
    assert counts(read(text, (80, 72, 64))) == [[80, 72, 64, 56], [72, 64, 56], [64, 56]]
