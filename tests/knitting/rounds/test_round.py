"""The round: its steps are executed by arithmetic."""

import pytest
from hypothesis import given

from roundwright import reference
from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import Repeat, Step, Unworkable, Work, execute, runs
from tests.support.steps import NAMES, steps


def test_the_names_in_the_schema_are_the_table_of_stitches() -> None:
    """A stitch that the table does not know cannot be asked for, and none is left out."""
    assert set(NAMES) == set(reference.stitches())


@given(steps)
def test_arithmetic_agrees_with_working_every_stitch(steps: tuple[Step, ...]) -> None:
    """Executing a round by arithmetic uses and leaves what working it stitch by stitch does."""
    table = reference.stitches()
    used = left = 0
    for stitch, times in runs(steps):
        for _ in range(times):
            used += table[stitch].uses
            left += table[stitch].leaves
    assert execute(steps) == (used, left)


def test_a_deep_repeat_is_counted_without_being_expanded() -> None:
    """Four nested repeats of 999 leave 999 ** 4 stitches at once."""
    step: Step = Work("k")
    for _ in range(4):
        step = Repeat(999, (step,))
    assert execute((step,)) == (999**4, 999**4)


def test_a_repeat_that_stops_early_works_the_increases_that_follow_there() -> None:
    """[k2, m1, k1, m1] twice and the first 2 stitches again: k2, m1, k1, m1, k2, m1, k1, m1, k2, m1."""
    part = Repeat(2, (Work("k", 2), Work("m1"), Work("k"), Work("m1")), 2)
    assert execute((part,)) == (8, 13)
    assert [stitch for stitch, times in runs((part,)) for _ in range(times)] == [
        "k",
        "k",
        "m1",
        "k",
        "m1",
        "k",
        "k",
        "m1",
        "k",
        "m1",
        "k",
        "k",
        "m1",
    ]
    assert written_line((part,)) == "[k2, m1, k1, m1] 2 times and its first 2 sts again"


@pytest.mark.parametrize("again", [1, 3, 4])
def test_a_repeat_cannot_stop_inside_a_stitch_or_beyond_the_last(again: int) -> None:
    """k2tog takes two stitches at once (Craft Yarn Council), and [k1, k2tog] has three in all."""
    part = Repeat(2, (Work("k2tog"), Work("k")), again)
    if again == 3:
        assert execute((part,)) == (9, 6)
        return
    with pytest.raises(Unworkable, match="place it does not have"):
        execute((part,))


def test_repeats_that_stop_early_may_nest_deeply() -> None:
    """Forty of them inside one another, as in a Fibonacci word, are counted at once."""
    step: Step = Repeat(1, (Work("k", 2), Work("k2tog"), Work("k", 2)), 2)
    lengths = [2, 8]
    for _ in range(40):
        step = Repeat(1, (step,), lengths[-2])
        lengths.append(lengths[-1] + lengths[-2])
    assert execute((step,))[0] == lengths[-1]
