"""Changes spread around a round or across a row: the most even order, in few steps."""

from itertools import accumulate

import msgspec
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import execute
from roundwright.knitting.rounds.spread import MOST_STEPS_IN_SPREAD, most_changes, spread
from tests.support.by_hand import LOOPS, stitches
from tests.support.spaced import gaps, spaced, steps_in, widths

METHODS = ["m1", "yo", "kfb", "k2tog", "p2tog", "cdd"]
GOLDEN = 0.6180339887498949
"""The share of changes that takes the most repeats: its words are those of Fibonacci."""


@st.composite
def rounds(draw, most=400):
    """Stitches, changes, a method, where the first change falls, and edge stitches."""
    method = draw(st.sampled_from(METHODS))
    lead = draw(st.sampled_from([4, 2, 1, 3]))
    edge = draw(st.integers(0, 3)) if lead != 4 else 0
    count = draw(st.integers(2 * edge + 4, most))
    limit = most_changes(count, method, flat=lead != 4, edge=edge)
    changes = draw(
        st.one_of(st.integers(1, limit), st.just(min(limit, max(1, int(count * GOLDEN)))))
        if limit
        else st.just(0)
    )
    return count, changes, method, lead, edge


@given(rounds())
@settings(max_examples=300)
def test_a_round_comes_out(case):
    """Worked by hand, the steps use every stitch and work the method as often as was asked."""
    count, changes, method, lead, edge = case
    steps = spread(count, changes, method, lead=lead, edge=edge)
    worked = list(stitches(msgspec.to_builtins(steps)))

    assert count == sum(LOOPS[stitch][0] for stitch in worked)
    assert changes == worked.count(method)


@given(rounds(most=120))
@settings(max_examples=200)
def test_balanced_by_its_definition(case):
    """Any two windows of as many sections hold the same number of stitches, or differ by one (Morse and Hedlund)."""
    count, changes, method, lead, edge = case
    around = widths(spread(count, changes, method, lead=lead, edge=edge), edge)
    sums = [0, *accumulate(around * 2)]
    for window in range(1, len(around) + 1):
        held = [sums[start + window] - sums[start] for start in range(len(around))]
        assert max(held) - min(held) <= 1


@given(rounds(most=3_000))
@settings(max_examples=200)
@example((610, 377, "m1", 4, 0))
@example((987, 610, "yo", 2, 0))
@example((1_597, 987, "kfb", 2, 3))
def test_changes_fall_at_the_middles_of_equal_parts(case):
    """Change i falls at floor((i + 1/2) S / k), up to rotation: Demaine et al., Comput. Geom. 42 (2009) 429-454."""
    count, changes, method, lead, edge = case
    if not changes:
        return
    middle = count - 2 * edge
    places = [(2 * i + 1) * middle // (2 * changes) for i in range(changes)]
    expected = [after - place for place, after in zip(places, [*places[1:], places[0] + middle], strict=True)]

    assert is_rotation(widths(spread(count, changes, method, lead=lead, edge=edge), edge), expected)


def is_rotation(rotated: list[int], other: list[int]) -> bool:
    narrow = min(rotated)
    assert {narrow, narrow + 1} >= {*rotated, *other}
    return bytes(width - narrow for width in rotated) in bytes(width - narrow for width in other * 2)


@given(st.integers(1, 1_000_000), st.floats(0, 1), st.sampled_from(METHODS), st.sampled_from([4, 2]))
@settings(max_examples=300)
@example(1_000_000, GOLDEN, "m1", 4)
@example(1_000_000, GOLDEN, "kfb", 2)
@example(832_040, 514_229 / 832_040, "m1", 4)
@example(832_040, 196_418 / 832_040, "k2tog", 2)
def test_a_million_stitches_take_64_steps(count, share, method, lead):
    """For any number of stitches at most 64 steps are needed, nested ones counted, and the line fits on a page."""
    changes = min(int(count * share), most_changes(count, method, flat=lead != 4))
    steps = spread(count, changes, method, lead=lead)
    uses, leaves = LOOPS[method]

    assert (count, count + changes * (leaves - uses)) == execute(steps)
    assert steps_in(steps) <= MOST_STEPS_IN_SPREAD == 64
    assert len(written_line(steps)) <= 2_000


@pytest.mark.parametrize("lead", [4, 2])
def test_no_round_of_a_garment_takes_more_than_64_steps(lead):
    """All changes on all counts that end in a Fibonacci number, the hardest there are, up to 610."""
    for count in (34, 55, 89, 144, 233, 377, 610):
        for changes in range(1, count):
            assert steps_in(spread(count, changes, "m1", lead=lead)) <= 64


@given(rounds())
@settings(max_examples=200)
def test_grouped_sections_are_two_groups(case):
    """Grouped: the wider sections together, then the others; a row's ends make one section of the wider kind."""
    count, changes, method, lead, edge = case
    if not changes:
        return
    around = widths(spread(count, changes, method, lead=lead, edge=edge, arrangement="grouped"), edge)
    switches = sum(before != after for before, after in zip(around, [*around[1:], around[0]], strict=True))

    assert switches in {0, 2}
    assert steps_in(spread(count, changes, method, lead=lead, edge=edge, arrangement="grouped")) <= 12


@given(rounds().filter(lambda case: case[3] == 2 and case[1]), st.sampled_from(["balanced", "grouped"]))
@settings(max_examples=200)
def test_a_row_has_half_a_gap_at_each_end(case, arrangement):
    """Flat work starts and ends with half a gap (rule of even spacing), edge stitches left aside."""
    count, changes, method, lead, edge = case
    start, *inner, end = gaps(spread(count, changes, method, lead=lead, edge=edge, arrangement=arrangement))
    start, end = start - edge, end - edge

    assert abs(start - end) <= 1
    assert all(abs(gap - (start + end)) <= 1 for gap in inner)


@pytest.mark.parametrize("method", ["m1", "yo"])
def test_an_increase_between_stitches_has_one_on_each_side(method):
    """Common practice: there is no strand to lift before the first stitch of a row, nor after the last."""
    for count in range(2, 40):
        for changes in range(1, most_changes(count, method, flat=True) + 1):
            for lead in (1, 2, 3):
                around = gaps(spread(count, changes, method, lead=lead))
                assert min(around[0], around[-1]) >= 1


def test_purl_among_purl():
    """A decrease that is purled is worked among purl stitches (common practice)."""
    assert {"p", "p2tog"} == set(stitches(msgspec.to_builtins(spread(40, 7, "p2tog"))))


def test_no_change_is_a_plain_round():
    """Nothing to spread leaves the stitches as they are."""
    assert (12, 12) == execute(spread(12, 0, "k2tog"))
    assert [] == spaced(spread(12, 0, "k2tog")).starts
