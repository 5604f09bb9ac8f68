"""Lists of sizes with every other number in a bracket, and numbers that are rounds."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, number_of_rounds

HEAD = "Sizes: S (M) L\nCast on 88 (96) 104 sts.\n"
LISTS = [
    ("Knit 4 (5) 6 rounds.", [4, 5, 6]),
    ("Knit 1 round.\nRepeat this round 4 (5) 6 times more.", [5, 6, 7]),
    (
        "Round 1: Knit.\nRound 2: Purl.\nRepeat these 2 rounds 1 (2) 2 times more = 88 (96) 104 sts.",
        [4, 6, 6],
    ),
    ("Rnd 1: * knit 9 (10) 11, k2tog *, repeat *–* 8 times in all = 80 (88) 96 sts.", [1, 1, 1]),
    ("Knit 2 rounds.\nRepeat the last 2 rounds 2 (3) 3 times.", [6, 8, 8]),
]
ALONE = [
    ("*K9, k2tog, around\nKnit 2\n*K8, k2tog, around\nKnit 3", 99, [90, 90, 90, 81, 81, 81, 81]),
    ("(K9, k2tog) 9 times\nK2\n(K8, k2tog) 9 times", 99, [90, 90, 90, 81]),
]
UNCLOSED = ["*k6, k2tog* (56 sts", "(k6, k2tog) x 8 [56", "*k6, k2tog; rep from * around (56 stitches"]
FULL = (
    "Fits: 2–3 lb (4–5 lb, full term).\nCast on: 48 (56, 64) sts.\n"
    "Full term size only: (K6, k2tog) 8 times. 56 sts.\n"
    "4–5 lb and full term sizes: (K5, k2tog) 8 times. 48 sts.\n"
    "All sizes: (K4, k2tog) 8 times. 40 sts."
)


@pytest.mark.parametrize(("line", "rounds"), LISTS)
def test_every_other_number_of_a_list_is_in_a_bracket(line: str, rounds: list[int]) -> None:
    """`4 (5) 6 times` has a number for each of three sizes, whatever stands before and behind it."""
    reading = read(HEAD + line, (88, 96, 104))

    assert number_of_rounds(reading) == rounds
    assert not reading.findings


@pytest.mark.parametrize(("text", "cast_on", "counts"), ALONE)
def test_a_line_with_no_more_than_knit_and_a_number_is_so_many_rounds(
    text: str, cast_on: int, counts: list[int]
) -> None:
    """`Knit 2` on a line of its own is two rounds."""
    assert after_each_round(read(text, (cast_on,))) == counts


@pytest.mark.parametrize("work", UNCLOSED)
def test_a_count_whose_bracket_is_not_closed_is_read(work: str) -> None:
    """`(56 sts` at the end of a line is the count."""
    assert after_each_round(read(f"Rnd 1: {work}", (64,))) == [56]


def test_a_size_called_full_is_one_size() -> None:
    """`Full term size only` is not for all sizes."""
    assert after_rounds_of_sizes(read(FULL, (48, 56, 64))) == [[40], [48, 40], [56, 48, 40]]
