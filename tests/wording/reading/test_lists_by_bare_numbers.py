"""Rounds in a list of bare numbers, with the colour before the work, and lines that only announce such a list."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

READ = [
    (
        80,
        "1-4: K2, P2\n5-6: Colour A: K around\n7-8: Colour B: K around, cut B\n9: *K6, K2tog* around",
        [80] * 8 + [70],
    ),
    (80, "1-4: K2, P2\n5-6: With white, k around\n7: Blue: *K6, K2tog* around", [80] * 6 + [70]),
    (80, "1-4: K2, P2\n5-6: Switch to colour B, k around\n7: *K6, K2tog* around", [80] * 6 + [70]),
    (80, "Knit each rnd as follows:\n1) Knit\n2) *K6, K2tog*", [80, 70]),
    (80, "Knit every round like this:\nRnd 1: Knit\nRnd 2: *K6, K2tog*", [80, 70]),
]


@pytest.mark.parametrize(("count", "text", "after"), READ)
def test_lists_by_bare_numbers(count: int, text: str, after: list[int]) -> None:
    """The rounds as they are told, without an error."""
    reading = read(text, (count,))

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == after


NEIGHBOURS = [
    (80, "4-6: Toddler\nKnit 2 rounds.", [80] * 2),
    (80, "Knit each round, as you did before. Knit 2 rounds.", [80] * 3),
    (80, "Knit every round:\nRnd 1: *K6, K2tog*", [80, 70]),
]


@pytest.mark.parametrize(("count", "text", "after"), NEIGHBOURS)
def test_neighbours_of_such_lists(count: int, text: str, after: list[int]) -> None:
    """Ages are no rounds, and what does not announce a list is worked."""
    assert after_each_round(read(text, (count,))) == after
