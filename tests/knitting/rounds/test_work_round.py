"""Working rounds: only a round that uses the stitches there are can be built, and rounds chain."""

import pytest

from roundwright.knitting.rounds.round import Repeat, Round, Unworkable, Work
from roundwright.knitting.rounds.work_round import chained, work_round


def test_a_round_that_does_not_come_out_cannot_be_built() -> None:
    """[k4, k2tog] 9 times uses 54 stitches, not 56 (common practice: count before you decrease)."""
    with pytest.raises(Unworkable, match="uses 54 stitches, but there are 56"):
        work_round(1, 56, (Repeat(9, (Work("k", 4), Work("k2tog"))),))


def test_rounds_that_do_not_chain_are_refused_at_the_first_that_is_wrong() -> None:
    """A round must use exactly the stitches the one before left."""
    first = work_round(1, 12, (Repeat(3, (Work("k", 2), Work("k2tog"))),))
    second = work_round(2, 8, (Work("k", 8),))
    with pytest.raises(Unworkable, match="Round 2 works 8 stitches, but 9 are on the needles") as caught:
        chained((first, second))
    assert caught.value.pointer == "#/rounds/1/steps"


def test_counts_that_the_steps_do_not_give_are_refused() -> None:
    """A round that states another count than its steps make is not believed."""
    lying = Round(number=1, before=8, after=9, steps=(Work("k", 8),))
    with pytest.raises(Unworkable, match="its steps make 8 to 8"):
        chained((lying,))
