"""Changes along a length against sleeves in print."""

import pytest

from roundwright.knitting.shaping.along import AlongRequest, along


def segments(answer):
    return [(segment.every, segment.times) for segment in answer.segments]


@pytest.mark.parametrize(
    ("rows", "times", "expected"),
    [
        (140, 36, [(3, 4), (4, 32)]),
        (176, 42, [(4, 34), (5, 8)]),
    ],
)
def test_sleeves_in_print(rows, times, expected):
    """Published: 36 over 140: every 3rd row 4 times, every 4th 32 times; 42 over 176: every 4th 34, every 5th 8."""
    answer = along(AlongRequest(rows=rows, times=times))

    assert expected == segments(answer)
    assert (rows, 0) == (answer.rows_used, answer.rows_left)


def test_right_side_rows_have_even_intervals():
    """Common practice: in flat work shaping falls on right-side rows; 25 over 160 rows: every 6th 20, every 8th 5."""
    answer = along(AlongRequest(rows=160, times=25, every="right_side_row"))

    assert [(6, 20), (8, 5)] == segments(answer)
    assert all(row % 2 == 1 for row in answer.shaping_rows)


def test_a_sleeve_is_written_as_patterns_print_it():
    """Published: every 3rd row 4 times, every 4th row 32 times."""
    answer = along(AlongRequest(rows=140, times=36, stitches=50))

    assert "Inc 1 st at each edge every 3rd row 4 times and every 4th row 32 times." == answer.text
    assert 50 + 72 == answer.stitches_after
