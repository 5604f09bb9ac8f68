"""The round: executed by arithmetic, chained, and written as one line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright import reference
from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import (
    Repeat,
    Round,
    Step,
    StitchName,
    Unworkable,
    Work,
    execute,
    leading_steps,
    runs,
)
from roundwright.knitting.rounds.work_round import chained, work_round

NAMES = StitchName.__args__  # type: ignore[attr-defined]

works = st.builds(Work, st.sampled_from(NAMES), st.integers(1, 5))


def repeats(steps: tuple[Step, ...], times: int, share: float) -> Repeat:
    """A repeat that may stop early, at a stitch of its own."""
    whole = [place for place in range(1, execute(steps)[0]) if can_stop(steps, place)]
    return Repeat(times, steps, whole[int(share * len(whole)) - 1] if int(share * len(whole)) else 0)


def can_stop(steps: tuple[Step, ...], place: int) -> bool:
    try:
        return bool(leading_steps(steps, place))
    except Unworkable:
        return False


steps = st.lists(
    st.recursive(
        works, lambda inner: st.builds(
            repeats, st.lists(inner, min_size=1, max_size=3).map(tuple), st.integers(1, 4), st.floats(0, 1)
        ),
        max_leaves=8,
    ),
    min_size=1,
    max_size=5,
).map(tuple)  # fmt: skip


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


@pytest.mark.parametrize(
    ("steps", "written"),
    [
        ((Work("k", 40),), "knit"),
        ((Repeat(9, (Work("k", 4), Work("k2tog"))),), "*k4, k2tog; rep from * around"),
        ((Repeat(6, (Work("k2tog"),)), Work("k")), "*k2tog; rep from * to last st, k1"),
        (
            (Work("k", 4), Repeat(9, (Work("k", 3), Work("m1"))), Work("k", 4)),
            "k4, *k3, m1; rep from * to last 4 sts, k4",
        ),
        ((Repeat(1, (Work("k", 2), Work("k2tog"))),), "k2, k2tog"),
    ],
)  # fmt: skip
def test_a_line_is_written_as_patterns_print_it(steps: tuple[Step, ...], written: str) -> None:
    """The forms are those of the Craft Yarn Council's list of abbreviations: *, rep from *, brackets."""
    assert written_line(steps) == written
