"""Rows: rounds worked flat, between two seam stitches."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import Repeat, Steps, Unworkable, Work, execute
from roundwright.knitting.rounds.rows import from_behind, row

works = st.builds(Work, st.sampled_from(["k", "p", "k2tog", "p2tog"]), st.integers(1, 5))
steps = st.lists(
    works | st.builds(Repeat, st.integers(1, 4), st.lists(works, min_size=1, max_size=3).map(tuple)),
    min_size=1,
    max_size=4,
).map(tuple)


@given(steps, st.booleans())
def test_a_row_has_a_seam_stitch_at_each_edge(steps: Steps, wrong_side: bool) -> None:
    """The two seam stitches are worked as one stitch each (common practice)."""
    used, left = execute(steps)

    assert execute(row(steps, wrong_side=wrong_side)) == (used + 2, left + 2)


@given(steps)
def test_seen_from_behind_twice_is_the_front(steps: Steps) -> None:
    """K and p, k2tog and p2tog look like each other from the other side (Craft Yarn Council)."""
    assert from_behind(from_behind(steps)) == steps


def test_a_wrong_side_row_is_worked_in_reverse() -> None:
    """K1, k2tog, k4 with its seam stitches is p5, p2tog, p2 from the wrong side."""
    steps = (Work("k"), Work("k2tog"), Work("k", 4))

    assert written_line(row(steps, wrong_side=True), flat=True) == "p5, p2tog, p2"


def test_a_stitch_without_a_counterpart_is_refused() -> None:
    """A centred double decrease has no wrong-side form in the table of stitches."""
    with pytest.raises(Unworkable, match="cdd cannot be worked from the wrong side"):
        from_behind((Work("cdd"),))
