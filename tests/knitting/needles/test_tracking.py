"""Stitches on each needle round by round, against a knitter who works stitch by stitch and slides."""

from itertools import accumulate, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible
from roundwright.knitting.needles.best_split import rate_split
from roundwright.knitting.needles.boundaries import boundary_paths
from roundwright.knitting.needles.tracking import track_needles
from roundwright.knitting.rounds.round import Move, Repeat, Round, Step, Work
from roundwright.knitting.rounds.work_round import chained, work_round
from tests.support.needles_by_hand import USES_LEAVES, best_split, by_hand, knitted, quick, uses_and_leaves

works = st.builds(Work, st.sampled_from(sorted(USES_LEAVES)), st.integers(1, 4))


@st.composite
def repeats(draw: st.DrawFn, inner: st.SearchStrategy[Step]) -> Repeat:
    """A repeat, which may stop early at any place that is not inside a stitch."""
    whole = Repeat(draw(st.integers(1, 4)), tuple(draw(st.lists(inner, min_size=1, max_size=3))))
    places = sorted({*accumulate(uses for uses, _ in uses_and_leaves(whole.steps))})
    return replace(whole, again=draw(st.sampled_from([0, *places[:-1]])))


steps: st.SearchStrategy[Step] = st.recursive(works, repeats)


@st.composite
def worked_and_held(draw: st.DrawFn) -> tuple[tuple[Round, ...], tuple[int, ...]]:
    """Up to four rounds of anything, knitted out to the end, and any split, with needles empty or not."""
    stitches = start = draw(st.integers(1, 60))
    rounds: list[Round] = []
    for _ in range(draw(st.integers(1, 4))):
        taken, used = [], 0
        for step in draw(st.lists(steps, max_size=6)):
            uses = sum(uses for uses, _ in uses_and_leaves((step,)))
            if used + uses <= stitches:
                taken.append(step)
                used += uses
        if used < stitches:
            taken.append(Work("k", stitches - used))
        if not taken:
            break
        rounds.append(work_round(len(rounds) + 1, stitches, tuple(taken)))
        stitches = rounds[-1].after
    borders = sorted(draw(st.lists(st.integers(0, start), min_size=1, max_size=4)))
    return tuple(rounds), tuple(b - a for a, b in pairwise([0, *borders, start]))


@given(worked_and_held())
def test_the_table_of_needles_is_what_hands_do(case: tuple[tuple[Round, ...], tuple[int, ...]]) -> None:
    """Needles and moves are those of knitting stitch by stitch, whatever the rounds and the split."""
    rounds, split = case
    expected = knitted(by_hand(rounds), split)
    worked = track_needles(rounds, split)

    assert [needles for needles, _ in expected] == [round.needles for round in worked]
    assert [[Move(*slide) for slide in slides if slide[1]] for _, slides in expected] == [
        list(round.moves) for round in worked
    ]
    assert rate_split(boundary_paths(rounds, sum(split)), split).straddles == sum(
        len(round.moves) for round in worked
    )
    assert [(round.steps, round.after) for round in rounds] == [
        (round.steps, round.after) for round in worked
    ]
    chained(worked)


def test_an_increase_at_a_boundary_stays_on_the_needle_before_it() -> None:
    """A stitch made between two needles is on the one just worked."""
    (worked,) = track_needles((work_round(1, 8, (Repeat(2, (Work("k", 4), Work("m1"))),)),), (4, 4))

    assert worked.needles == (5, 5)


def test_a_needle_runs_empty() -> None:
    """An emptied needle stays in the table with 0, and the round that empties it says so once."""
    rounds = quick(20)
    worked = track_needles(rounds, best_split(rounds, 20, 5).split)
    emptied = next(round for round in worked if round.needles is not None and 0 in round.needles)

    assert emptied.number > 1
    assert "empty" in emptied.notes[0]
    assert sum("empty" in note for round in worked for note in round.notes) <= 5


def test_a_double_decrease_over_three_needles() -> None:
    """A decrease whose three stitches sit on three needles is slid twice, and counts at both boundarys."""
    (worked,) = track_needles((work_round(1, 9, (Work("k", 3), Work("cdd"), Work("k", 3))),), (4, 1, 4))

    assert worked.moves == (Move(1, 1), Move(2, 2))
    assert worked.needles == (3, 0, 4)


def test_no_rounds() -> None:
    """Without rounds there is nothing to track."""
    assert track_needles((), (25, 25)) == ()


def test_rounds_that_start_with_another_count() -> None:
    """Rounds for another number of stitches are refused, not put on the needles."""
    with pytest.raises(Impossible):
        track_needles(quick(52), (28, 28))
