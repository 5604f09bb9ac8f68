"""Sizes that begin a crown with different rounds, and sizes named above columns or by their stitches.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts, number_of_rounds

CROWN = (
    "Rnd 1: *k10, k2tog* 8 times. 88 sts.\nRnd 2: Knit.\nRnd 3: *k9, k2tog* 8 times. 80 sts.\nRnd 4: Knit.\n"
    "Rnd 5: *k8, k2tog* 8 times. 72 sts."
)


@pytest.mark.parametrize(
    "words",
    [
        "Begin with Rnd 3 for the smaller size and Rnd 1 for the larger.",
        "Begin at Rnd 3 (Rnd 1).",
        "Begin at Rnd 3 [1].",
        "Begin at:\nSmall - Rnd 3\nLarge - Rnd 1",
        "Start as follows:\nSmall: Rnd 3\nLarge: Rnd 1",
        "Start with Rnd 3 for size Small and with Rnd 1 for size Large.",
        "For Small, begin with Rnd 3; for Large, begin with Rnd 1.",
        "Small starts at Rnd 3, Large at Rnd 1.",
        "Size 1 only: skip Rnds 1 and 2.",
        "Size 1: skip Rnds 1-2.",
        "Small: skip to Rnd 3.",
        "Skip Rnds 1 and 2 for size Small.",
        "Work from Rnd 3 (1) on.",
        "Starting with Rnd 3 (1), work the crown as follows:",
    ],
)
def test_two_sizes_begin_with_different_rounds(words: str) -> None:
    """The smaller has 88 stitches, as many as the larger behind its round 1."""
    reading = read(f"Sizes: Small (Large)\nCast on 88 (96) sts.\nCrown\n{words}\n{CROWN}", (88, 96))

    assert counts(reading) == [[88, 80, 72], [96, 88, 80, 72]]
    assert number_of_rounds(reading) == [3, 5]


@pytest.mark.parametrize(
    "words",
    [
        "Begin at Rnd 5 (3, 1).",
        "Begin at Rnd 5 for S, Rnd 3 for M, and Rnd 1 for L.",
        "Skip Rnds 1–4 for size S and Rnds 1-2 for size M.",
        "Sizes S and M: skip Rnds 1 and 2. Size S: skip Rnds 3 and 4.",
        "If you are knitting size S, begin with Rnd 5; size M, begin with Rnd 3; size L, begin with Rnd 1.",
        "Small begins at Rnd 5, Medium begins at Rnd 3 and Large begins at Rnd 1.",
    ],
)
def test_a_count_is_that_of_the_sizes_that_work_its_round(words: str) -> None:
    """The smallest has 80 stitches and never the 88 that are printed behind round 1."""
    reading = read(f"Sizes: S (M, L)\nCast on 80 (88, 96) sts.\nCrown\n{words}\n{CROWN}", (80, 88, 96))

    assert counts(reading) == [[80, 72], [88, 80, 72], [96, 88, 80, 72]]
    assert number_of_rounds(reading) == [1, 3, 5]


@pytest.mark.parametrize(
    "words",
    [
        "Begin with Rnd 5 for size 0–3 months (80 sts), Rnd 3 for 3–6 months (88 sts) and Rnd 1 for 6–12 months.",
        "For size 0-3 mo begin with Rnd 5, for size 3-6 mo begin with Rnd 3, for size 6-12 mo begin with Rnd 1.",
        "Begin at Rnd 5 for newborn (80 sts), Rnd 3 for 3-6 months (88 sts), Rnd 1 for 6-12 months (96 sts).",
        "Size 0-3 (80 sts) starts with Rnd 5, size 3-6 (88 sts) with Rnd 3 and size 6-12 (96 sts) with Rnd 1.",
        "Start at Rnd 5 for the preemie hat, at Rnd 3 for the newborn hat and at Rnd 1 for the 6 month hat.",
    ],
)
def test_sizes_that_no_list_names_are_told_from_the_smallest_up(words: str) -> None:
    """A crown alone names its sizes only where each begins; the larger ones begin sooner."""
    reading = read(f"Crown\n{words}\n{CROWN}", (80, 88, 96))

    assert counts(reading) == [[80, 72], [88, 80, 72], [96, 88, 80, 72]]
    assert number_of_rounds(reading) == [1, 3, 5]


@pytest.mark.parametrize(
    "heading", ["100 st hat only:", "For the 100 st hat only:", "100 sts only:", "Hat of 100 sts only:"]
)
def test_a_size_is_called_by_its_stitches(heading: str) -> None:
    """Only the larger hat works the first round."""
    text = (
        f"Cast on 90 (100) sts.\n\n{heading}\nNext rnd: *k8, k2tog* 10 times. 90 sts.\n\n"
        "Both hats:\nNext rnd: *k7, k2tog* 10 times."
    )

    assert counts(read(text, (90, 100))) == [[90, 80], [100, 90, 80]]


@pytest.mark.parametrize("names", [("Child", "Teen", "Adult"), ("Elf", "Gnome", "Troll")])
def test_sizes_are_named_above_the_columns_of_a_table(names: tuple[str, ...]) -> None:
    """Two of the three sizes have rounds before those of all."""
    small, middle, large = names
    text = (
        f"              {small}      {middle}      {large}\nCast on       72         80        88 stitches\n\n"
        f"1. Cast on 72 / 80 / 88 stitches.\n\n{large} only:\n*k9, k2tog* (80 stitches)\n\n"
        f"{middle} and {large}:\n*k8, k2tog* (72 stitches)\n\nEverybody:\n*k7, k2tog* (64 stitches)"
    )

    assert counts(read(text, (72, 80, 88))) == [[72, 64], [80, 72, 64], [88, 80, 72, 64]]


def test_no_plain_round_is_worked_before_the_round_a_size_begins_with() -> None:
    """`Every even-numbered rnd` holds from there on: the rounds before are those of the larger size alone."""
    crown = (
        "Rnd 1: *K10, k2tog* (88 sts)\nRnd 2 and every even-numbered rnd: Knit\nRnd 3: *K9, k2tog* (80 sts)\n"
        "Rnd 5: *K8, k2tog* (72 sts)"
    )
    reading = read(f"CROWN\nSmall: begin at Rnd 3. Large: begin at Rnd 1.\n{crown}", (88, 96))
    assert counts(reading) == [[88, 80, 72], [96, 88, 80, 72]]
    assert [len(rounds) for rounds in reading.rounds] == [3, 5]


@pytest.mark.parametrize(
    "words",
    [
        "Even rnds 2-4",
        "Even-numbered rnds 2 to 4",
        "All even rnds from 2 to 4",
        "Even rnds 2, 4",
        "All even rnds from Rnd 2 to Rnd 4",
    ],
)
def test_even_rounds_from_a_number_to_another_stand_before_the_odd_or_behind(words: str) -> None:
    """Those of a size that begins later are those from there on."""
    odd = "Rnd 1: *k10, k2tog*\n{}Rnd 3: *k9, k2tog*\nRnd 5: *k8, k2tog*\n{}Rnd 6: *k7, k2tog*"
    even = f"{words}: knit all sts.\n"
    for crown in (odd.format(even, ""), odd.format("", even)):
        reading = read(f"Begin at Rnd 3 (1).\n{crown}", (88, 96))
        assert counts(reading) == [[88, 80, 72, 64], [96, 88, 80, 72, 64]]
        assert number_of_rounds(reading) == [4, 6]
