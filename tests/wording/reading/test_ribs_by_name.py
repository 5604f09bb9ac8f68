"""Ribs by their names (common practice): single rib is k1, p1, double rib is k2, p2."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import number_of_rounds


@pytest.mark.parametrize(
    ("rib", "right", "wrong"), [("single", 70, 71), ("double", 72, 70), ("Double", 72, 70)]
)
@pytest.mark.parametrize(
    "line", ["Work in {} rib for 12 rounds.", "{} rib 12 rounds.", "Work 12 rounds of {} rib."]
)
def test_a_rib_comes_out_on_a_multiple_of_its_columns(line: str, rib: str, right: int, wrong: int) -> None:
    """Two stitches a repeat in single rib, four in double rib."""
    text = f"{line.format(rib)}\nKnit 20 rounds."

    assert not read(text, (right,)).findings
    assert [finding.code for finding in errors(read(text, (wrong,)))] == ["left_over"]


def test_a_rib_told_in_words_beside_its_name_is_that_rib() -> None:
    """Its stitches are worked to the end of the round."""
    reading = read("Work 4 rounds of double rib (k2, p2).", (72,))

    assert not reading.findings
    assert number_of_rounds(reading) == [4]
