"""Stitches on needles as they are printed and as they are taught."""

import pytest

from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.work.split_over_needles import split
from roundwright.knitting.work.split_request import SplitRequest


@pytest.mark.parametrize(
    ("stitches", "needles", "on_each"),
    [
        # Printed patterns for hats: 66 stitches on three needles, 22 on each; 48 stitches, 16 on each.
        (66, 3, 22),
        (48, 3, 16),
        # Printed: "divide in quarters on four needles"; 64, 72 and 80 stitches divide so.
        (64, 4, 16),
        (72, 4, 18),
        (80, 4, 20),
    ],
)
def test_printed_splits(stitches: int, needles: int, on_each: int) -> None:
    """Stitches that divide are divided."""
    assert split(SplitRequest(stitches=stitches, needles=needles)).split == (on_each,) * needles


def test_an_even_split_is_not_essential() -> None:
    """Printed: an even split is not essential. 50 stitches go on three needles a stitch apart."""
    answer = split(SplitRequest(stitches=50, needles=3))

    assert sorted(answer.split) == [16, 17, 17]


def test_from_one_needle_to_halves_to_thirds() -> None:
    """Common practice: 56 cast on to one needle, 28 and 28, then about 18 on to each of three working needles."""
    answer = split(SplitRequest(stitches=56, needles=3))
    cast_on, halves, thirds = answer.start

    assert cast_on.needles == (56,)
    assert halves.needles == (28, 28)
    assert all(count in (18, 19) for count in thirds.needles)


def test_a_fourth_needle_works() -> None:
    """Common practice: four needles may hold the 56 stitches as well as three; then it is 14 on each."""
    assert split(SplitRequest(stitches=56, needles=4)).split == (14, 14, 14, 14)


# Common practice: the crown by repeats of four, a plain round after each of the first three decrease rounds.
BY_FOURS = CrownShape(style="quick")


def test_an_even_split_straddles() -> None:
    """Common practice: 52 stitches as 17, 17, 18 have three decreases on two needles in the crown by fours."""
    answer = split(SplitRequest(stitches=52, crown=BY_FOURS, split=(17, 17, 18)))

    assert [52, *(round.after for round in answer.rounds)] == [52, 39, 39, 26, 26, 13, 13, 7, 4]
    assert answer.straddles == 3


def test_a_tolerance_of_four_finds_none() -> None:
    """Common practice: the same 52 as 16, 16, 20 have none, and a tolerance of four must find that."""
    answer = split(SplitRequest(stitches=52, needles=3, crown=BY_FOURS, tolerance=4))

    assert answer.straddles == 0
    assert answer.split == (16, 16, 20)
    assert not any(round.moves for round in answer.rounds)
