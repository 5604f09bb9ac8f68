"""Lines that are no more than `(repeat 7)`, counts printed from the largest size down, cables told side first."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

CABLED = (
    "Rows 1-6: k44, p2, k4, p2, k44\nRow 7: k44, p2, {cable}, p2, k44\n{again}\nRow 14: k4, k2tog, k to end"
)


@pytest.mark.parametrize("cable", ["C4F", "CF4", "CB4"])
@pytest.mark.parametrize(
    "again",
    ["Rows 8-12: (repeat 2)\nRow 13: (repeat 7)", "Rows 8-12: repeat 2.\nRow 13: repeat 7."],
)
def test_a_line_that_only_names_the_row_that_it_repeats_is_that_row(cable: str, again: str) -> None:
    """Five rows like the second, and the cable once more."""
    counts = after_each_round(read(CABLED.format(cable=cable, again=again), (96,), "en-US"))
    assert counts == [96] * 13 + [95]


def test_a_row_that_is_not_there_is_not_repeated() -> None:
    """It is told."""
    codes = [finding.code for finding in read("Row 1: k2tog, k to end\nRow 2: (repeat 9)", (96,)).findings]
    assert codes == ["no_such_round"]


def test_a_number_behind_work_is_how_often_it_is_worked() -> None:
    """It is in a bracket behind the stitches, and no row has that number."""
    assert after_each_round(read("Row 1: (k10, k2tog) (repeat 8)", (96,))) == [88]


@pytest.mark.parametrize("counts", ["32 28 24", "32, 28, 24", "a total of 32 28 24"])
def test_bare_counts_from_the_largest_size_down_are_those_of_the_sizes(counts: str) -> None:
    """Each size goes on to its own."""
    rounds = "Round 1: (k2tog, k to last 2 sts, k2tog)\nRound 2: knit"
    text = f"{rounds}\nRepeat rounds 1 and 2 until {counts} stitches remain."
    reading = read(text, (40, 36, 32), "en-US")
    assert [worked[-1].after for worked in reading.rounds] == [32, 28, 24]


def test_stitches_that_are_worked_one_after_the_other_are_no_sizes() -> None:
    """Behind a craft, numbers that fall are worked."""
    assert read("Rnd 1: k 12, 8, 4 sts, k to end", (40, 36, 32)).findings
