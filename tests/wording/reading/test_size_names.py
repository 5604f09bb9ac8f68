"""Which sizes a line is for, as writers name them; each text counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts

LARGEST, LARGER_TWO, ALL = (
    "*k8, k2tog* 8 times. 72 sts.",
    "*k7, k2tog* 8 times. 64 sts.",
    "*k6, k2tog* 8 times. 56 sts.",
)
THREE = [[64, 56], [72, 64, 56], [80, 72, 64, 56]]
CAST_ON = "Cast on 64 (72, 80) sts.\n"

NAMES = [
    ("Sizes S/M/L\n", "L:", "M + L:", "All:"),
    ("", "L:", "M and L:", "All:"),
    ("Sizes: S (M) L\n", "L only:", "M & L:", "All sizes:"),
    ("Sizes: tiny / small / newborn\n", "Newborn only:", "Small and newborn:", "Everybody:"),
    ("Toddler / Kid / Grown-up\n", "Grown-up:", "Kid/grown-up:", "Everyone:"),
    ("", "Largest size only:", "Two larger sizes:", "All three sizes:"),
    ("", "Largest only:", "All but the smallest:", "All:"),
    ("", "Rnd 1 (L only):", "Rnd 2 (L and M only):", "Rnd 3 (all):"),
    ("", "Rnd 1 [L]:", "Rnd 2 [M, L]:", "Rnd 3 [all]:"),
    ("", "Rnd 1, L only:", "Rnd 2, M and L:", "Rnd 3, all sizes:"),
    ("Sizes S (M, L)\n", "For L:", "For M and L:", "For all:"),
    ("", "If you are making the large:", "Medium and large:", "Everyone:"),
]


@pytest.mark.parametrize(("sizes", "largest", "larger", "everybody"), NAMES)
def test_a_line_is_for_the_sizes_it_names(sizes: str, largest: str, larger: str, everybody: str) -> None:
    """Names that the text lists, letters, places in the list, and words for all of them."""
    text = f"{sizes}{CAST_ON}{largest} {LARGEST}\n{larger} {LARGER_TWO}\n{everybody} {ALL}"

    assert counts(read(text, (64, 72, 80))) == THREE


TWO_NAMES = [
    ("", "Big size only:", "Both sizes:"),
    ("", "Bigger size:", "Both:"),
    ("", "Shape top: (2nd size only):", "Both sizes:"),
    ("Sizes: Child (Adult)\n", "Adult hat only:", "Both hats:"),
]


@pytest.mark.parametrize(("sizes", "larger", "everybody"), TWO_NAMES)
def test_a_line_is_for_one_of_two_sizes(sizes: str, larger: str, everybody: str) -> None:
    """The larger of two, by its size, its place or its name."""
    reading = read(f"{sizes}{larger} {LARGER_TWO}\n{everybody} {ALL}", (64, 72))

    assert counts(reading) == [[64, 56], [72, 64, 56]]
