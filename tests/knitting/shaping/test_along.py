"""Changes spread over the rows of a piece."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.shaping.along import AlongRequest, along


def ask(**fields) -> AlongRequest:
    return msgspec.convert(fields, AlongRequest)


@given(st.integers(1, 2_000), st.integers(1, 300), st.sampled_from(["row", "right_side_row"]), st.booleans())
def test_rows_are_used_up_exactly(rows, times, every, plain):
    """Used and left make up the rows; intervals differ by one row (or one pair), the shorter first."""
    request = ask(rows=rows, times=times, every=every, plain_after_last=plain)
    pace = 2 if every == "right_side_row" else 1
    if (times + plain) * pace > rows:
        with pytest.raises(Impossible):
            along(request)
        return
    answer = along(request)
    intervals = [segment.every for segment in answer.segments for _ in range(segment.times)]

    assert times == len(intervals) == len(answer.shaping_rows)
    assert sum(intervals) == answer.rows_used == rows - answer.rows_left
    assert sorted(intervals) == intervals
    assert intervals[-1] - intervals[0] in {0, pace}
    assert all(interval % pace == 0 for interval in intervals)
    following = zip(answer.shaping_rows, answer.shaping_rows[1:], strict=False)
    assert intervals[1:] == [after - row for row, after in following]
    if plain:
        assert intervals[-1] <= answer.rows_left <= intervals[0] + pace + 1
    else:
        assert answer.rows_left == rows % pace
    if every == "right_side_row":
        assert all(row % 2 == 1 for row in answer.shaping_rows)


def test_the_numbers_of_the_rows_are_those_of_the_segments():
    """Every 3rd row twice and every 4th once: rows 3, 6 and 10."""
    assert (3, 6, 10) == along(ask(rows=10, times=3)).shaping_rows


@pytest.mark.parametrize(
    ("fields", "change"),
    [
        ({}, 24),
        ({"sides": "one"}, 12),
        ({"stitches_each": 2}, 48),
        ({"direction": "decrease"}, -24),
    ],
)
def test_both_sides_or_one(fields, change):
    """Twelve shaping rows change 24 stitches at both edges, 12 at one."""
    answer = along(ask(rows=120, times=12, stitches=100, **fields))

    assert (change, 100 + change) == (answer.change, answer.stitches_after)
    assert ("at each edge" in answer.text) == (fields.get("sides") != "one")


def test_a_length_becomes_rows_by_the_gauge():
    """40 cm at 30 rows in 10 cm are 120 rows: arithmetic."""
    answer = along(ask(length={"value": 40, "unit": "cm"}, gauge={"stitches": 22, "rows": 30}, times=12))

    assert (120, 10) == (answer.rows, answer.segments[0].every)
    assert answer.length_used.value == pytest.approx(40)
    assert answer.length_left is None


def test_lengths_come_with_a_gauge_in_the_units_asked_for():
    """120 rows of 30 in 10 cm are 15.748 in: arithmetic from 1 in = 25.4 mm."""
    answer = along(
        ask(rows=120, gauge={"stitches": 22, "rows": 30}, times=11, plain_after_last=True, units="imperial")
    )

    assert answer.length_used.value + answer.length_left.value == pytest.approx(40 / 2.54, rel=1e-5)
    assert answer.length_used.unit == "in"


def test_a_gauge_without_rows_is_warned_about():
    """The rows are those of relaxed plain knit, and the answer says so."""
    answer = along(ask(length={"value": 40, "unit": "cm"}, gauge={"stitches": 22}, times=12))

    assert ["rows_assumed"] == [notice.code for notice in answer.warnings]
    assert any("Munden" in basis.source for basis in answer.basis)


@pytest.mark.parametrize(
    ("fields", "pointer", "nearest"),
    [
        ({"times": 3}, "#/rows", "`rows`"),
        ({"times": 3, "rows": 9, "length": {"value": 9, "unit": "cm"}}, "#/length", "`rows` alone"),
        ({"times": 3, "length": {"value": 9, "unit": "cm"}}, "#/gauge", "`gauge`"),
        ({"times": 12, "rows": 10}, "#/times", "10 changes, or 2 stitches at once"),
        ({"times": 6, "rows": 10, "every": "right_side_row"}, "#/times", "5 changes"),
        ({"times": 5, "rows": 10, "every": "right_side_row", "plain_after_last": True}, "#/times", "4 changes"),
        ({"times": 1, "rows": 1, "every": "right_side_row"}, "#/rows", "2 rows"),
        ({"times": 1, "rows": 1, "plain_after_last": True}, "#/rows", "2 rows"),
        ({"times": 10, "rows": 90, "direction": "decrease", "stitches": 20}, "#/stitches", "21 stitches, or 9 changes"),
        ({"times": 10, "rows": 90, "direction": "decrease", "stitches": 1}, "#/stitches", "21 stitches"),
        ({"times": 1, "length": {"value": 1, "unit": "mm"}, "gauge": {"stitches": 9, "rows": 20}}, "#/length", "0.5"),
        ({"times": 1, "length": {"value": 99, "unit": "m"}, "gauge": {"stitches": 90, "rows": 110}}, "#/length", "cm"),
    ],
)  # fmt: skip
def test_what_cannot_be_knitted_is_refused_with_what_can(fields, pointer, nearest):
    """A row is shaped once, and no more stitches are taken away than there are."""
    with pytest.raises(Impossible) as refused:
        along(ask(**fields))

    assert pointer == refused.value.pointer
    assert nearest in refused.value.nearest


@pytest.mark.parametrize(
    ("rows", "written"),
    [(21, "every 21st row"), (22, "every 22nd row"), (111, "every 111th row"), (1, "every row")],
)
def test_ordinals(rows, written):
    """Rows are counted in ordinals, every one of them is every row."""
    assert written in along(ask(rows=rows * 3, times=3)).text
