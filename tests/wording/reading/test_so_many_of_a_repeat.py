"""So many stitches of a repeat, worked as the fabric has them, and increases at every so many stitches."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

READ = [
    (80, "Rnd 1: Staying in pattern, *complete 6 sts, K2tog, repeat from *", [70]),
    (80, "Rnd 1: *rib 6 sts, k2tog, repeat from *", [70]),
    (80, "Rnd 1: *moss 6, k2tog; rep from *", [70]),
    (80, "Switching to larger needles increase every other stitch for 1 row. Knit 2 rounds.", [120] * 3),
    (80, "Next round: inc 1 st in every other stitch.", [120]),
    (80, "Next round: increase in every alternate stitch.", [120]),
    (80, "Increase 1 stitch every 8 sts. Knit 2 rounds.", [90] * 3),
    (80, "Increase 1 stitch in every 8 sts. Knit 2 rounds.", [90] * 3),
]


@pytest.mark.parametrize(("count", "text", "after"), READ)
def test_so_many_of_a_repeat(count: int, text: str, after: list[int]) -> None:
    """The rounds as they are told, without an error."""
    reading = read(text, (count,))

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == after


NEIGHBOURS = [
    (80, "Rnd 1: *K6, k2tog* to complete round. You complete 70 sts.", [70]),
    (80, "Rnd 1: *k6, k2tog*. 70 sts complete the round.", [70]),
    (80, "*K6, k2tog* around. Increase 5 sts evenly every other round twice.", [70, 70, 75, 75, 80]),
    (80, "Purl every other stitch around. Knit 2 rounds.", [80] * 3),
]


@pytest.mark.parametrize(("count", "text", "after"), NEIGHBOURS)
def test_neighbours_of_so_many(count: int, text: str, after: list[int]) -> None:
    """Counts stay counts, rounds are no stitches, and nothing is made where none is increased."""
    assert after_each_round(read(text, (count,))) == after


def test_fault_in_a_repeat_of_so_many() -> None:
    """A repeat that does not fit its round is still found."""
    codes = {finding.code for finding in read("Rnd 1: *complete 7 sts, k2tog, repeat from *", (80,)).findings}
    assert "left_over" in codes
