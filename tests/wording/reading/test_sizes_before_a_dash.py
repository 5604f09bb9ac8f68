"""Sizes whose work stands behind a dash, `Teen hat - k2tog around`, or below words that introduce it.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts

HEAD = "Sizes: Baby (Teen)\nCast on 40 (56) sts.\n*K3 (5), k2tog* around.\nKnit 1 round.\n"


@pytest.mark.parametrize(
    ("baby", "teen"),
    [
        ("Baby hat - k2tog around.", "Teen hat - *K4, k2tog* around.\nTeen hat - *K3, k2tog* around."),
        ("Baby - k2tog around.", "Teen - continue as follows\n*K4, k2tog* around.\n*K3, k2tog* around."),
        (
            "Baby hat: k2tog around.",
            "Teen hat: shape crown as follows:\n*K4, k2tog* around.\n*K3, k2tog* around.",
        ),
        (
            "Baby hat - k2tog around.",
            "Teen hat - continue with decreases as follows\n*K4, k2tog* around.\n*K3, k2tog* around.",
        ),
    ],
)
def test_work_behind_a_dash_is_of_the_size_before_it(baby: str, teen: str) -> None:
    """32 and 48 are left for the two: half of the smaller goes, a sixth and a fifth of the larger."""
    assert counts(read(HEAD + baby + "\n" + teen, (40, 56))) == [[40, 32, 16], [56, 48, 40, 32]]


def test_the_lines_behind_work_of_a_size_are_for_all() -> None:
    """The larger alone is knitted 2 rounds longer; then a quarter goes."""
    reading = read(HEAD + "Teen hat - knit 2 rounds.\n*K2, k2tog* around.", (40, 56))
    assert counts(reading) == [[40, 32, 24], [56, 48, 36]]
    assert [len(rounds) for rounds in reading.rounds] == [3, 5]
