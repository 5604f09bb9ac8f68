"""The end of a crown that is told by what is done there, and what stands behind a repeat between two stars."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

CROWN = "Rnd 1: *k11, k2tog*.\nDec in this way every 3rd rnd."


@pytest.mark.parametrize(
    "end",
    [
        "Stop when 60 sts remain.",
        "When 60 sts remain, cut the yarn.",
        "When there are 60 sts left, break yarn and draw through.",
        "When you have only 60 sts, draw the yarn through.",
    ],
)
@pytest.mark.parametrize("between", [" ", "\n"])
def test_it_goes_on_to_the_stitches_at_which_the_yarn_is_cut(end: str, between: str) -> None:
    assert after_each_round(read(CROWN + between + end, (78,))) == [72, 72, 72, 66, 66, 66, 60]


def test_needles_that_are_changed_at_a_count_end_nothing() -> None:
    """The neighbour: the crown goes on behind it."""
    crown = f"{CROWN[:-1]} until 60 sts remain. When 66 sts remain, change needles."

    assert after_each_round(read(crown, (78,))) == [72, 72, 72, 66, 66, 66, 60]


@pytest.mark.parametrize("behind", ["k2", "end k2", "end with k2"])
def test_what_stands_behind_the_second_star_is_worked_once(behind: str) -> None:
    """Eight times ten and two together, and two; seven times fourteen fit into 98 too and are not told."""
    assert after_each_round(read(f"Rnd 1: *k10, k2tog*, {behind}.", (98,))) == [90]


def test_yarn_of_another_colour_ends_no_crown() -> None:
    """The neighbour: the crown goes on in the contrast colour."""
    text = (
        "Rnd 1: *k4, k2tog*.\nRnd 2: knit. When 40 sts remain, cut yarn and join the contrast colour.\n"
        "Rnd 3: *k3, k2tog*."
    )

    assert after_each_round(read(text, (48,))) == [40, 40, 32]


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("Rnds 1-6: knit. 6 rounds.\nRnd 7: *k8, k2tog*.", [80] * 6 + [72]),
        ("*K8, k2tog*. Knit 4 rounds. 5 rounds.\n*K7, k2tog*", [72] * 5 + [64]),
    ],
)
def test_how_many_rounds_there_are_by_now_are_no_more_rounds(text: str, after: list[int]) -> None:
    assert after_each_round(read(text, (80,))) == after
