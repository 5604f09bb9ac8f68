"""A stitch decreased or increased somewhere in a round that is knitted, in its sentence or in the next."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

READ = [
    ("Set-up round: knit all stitches. About midway, decrease one stitch, k2tog. Knit 2 rounds.", [112] * 3),
    ("Next round: knit all stitches, decreasing 1 st.", [112]),
    ("Next round: knit all sts and decrease 1 st halfway.", [112]),
    ("Knit 1 round, decreasing 1 st midway.", [112]),
    ("Next round: knit all sts, inc 1 st at end.", [114]),
]


@pytest.mark.parametrize(("text", "after"), READ)
def test_a_stitch_somewhere_in_a_plain_round(text: str, after: list[int]) -> None:
    """The rounds as they are told, without an error."""
    reading = read(text, (113,))

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == after


NEIGHBOURS = [
    ("Next round: *knit 8 sts, dec 1 st* around.", 80, [72]),
    ("Next round: knit all stitches. Decrease 7 sts evenly.", 80, [73]),
    ("Knit to mark, k2tog, knit to end.", 80, [79]),
]


@pytest.mark.parametrize(("text", "count", "after"), NEIGHBOURS)
def test_neighbours_of_such_a_stitch(text: str, count: int, after: list[int]) -> None:
    """A stitch within a repeat is worked in all of them, so many in a round are spread, and a mark is a marker."""
    assert after_each_round(read(text, (count,))) == after


def test_marker_that_marks() -> None:
    """`To mark the beginning of the round` says what the marker is for, and not how far the work goes."""
    text = (
        "Joining into a circle and placing a marker to mark the beginning of the round, *K4, k2tog* around."
    )
    assert after_each_round(read(text, (60,))) == [50]


def test_numbered_paragraphs_with_their_rounds() -> None:
    """`2. 1-6 rows.` is the second paragraph, for rounds 1 to 6."""
    text = "1. Cast on 20 stitches\n2. 1-6 rows. Knit all stitches.\n3. Row 7. Knit 2 stitches together until the end."
    assert after_each_round(read(text, (20,))) == [20] * 6 + [10]
