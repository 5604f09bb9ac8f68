"""Ribs by their names (common practice): single rib is k1, p1, double rib is k2, p2."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import faults, number_of_rounds


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


@pytest.mark.parametrize(
    "line",
    [
        "Twisted Rib: *K1 tbl, p1; rep from * to end.\nWork 12 rounds of Twisted Rib.",
        "Twisted rib (multiple of 2 sts): *k1 tbl, p1*.\nCast on 88 sts.\nTwisted rib for 12 rounds.",
        "Rib pattern: *k1, p1* around.\nWork in rib pattern for 12 rounds.",
        "Brim\n: Rib: *k1, p1* around.\nWork 12 rounds of rib.",
        "Broken rib = *k1 tbl, p1* to end.\nRounds 1-12: Work in broken rib.",
        "Rib: *k1, p1* around.\nWork 11 more rounds of rib.",
        "Rib: *k1, p1* around.\nContinue in rib for 11 rounds.",
    ],
)
def test_a_rib_is_told_and_then_worked_by_its_name(line: str) -> None:
    """Twelve rounds in all.

    The line that tells the rib is a round itself only where the next says “more” or “continue”.
    """
    assert number_of_rounds(read(f"{line}\nKnit 6 rounds.", (88,))) == [18]


def test_a_rib_that_is_only_told_has_to_come_out() -> None:
    """Four stitches do not go into 90."""
    text = "Twisted Rib: *K2 tbl, p2; rep from * to end.\nWork 12 rounds of Twisted Rib."

    assert ("left_over", 1) in faults(read(text, (90,)))
