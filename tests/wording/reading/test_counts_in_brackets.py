"""The count behind a round is read the same in brackets, behind a sign or as a sentence; other numbers are no counts.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, worked

WORDINGS = [
    (
        "Divide the sts into 6 sections of 8 sts.\nRnd 1: In each part knit the first 2 sts together",
        48,
        42,
        "*k2tog, k6; rep from * around",
    ),
    ("Rnd 1: K3, K2tog around, last 4 sts plain", 84, 68, "*k3, k2tog; rep from * to last 4 sts, k4"),
    (
        "Rnd 1: *K3, K2tog*, the last 4 sts are knitted plain",
        84,
        68,
        "*k3, k2tog; rep from * to last 4 sts, k4",
    ),
    ("Rnd 1: 12 times: 2 st together, 5 st knit", 84, 72, "*k2tog, k5; rep from * around"),
    ("Join in the round: knit the extra stitch together with the first", 97, 96, "k2tog, k95"),
]


@pytest.mark.parametrize("printed", [". {} sts", " = {} sts", " ({} sts)", " ({})"])
@pytest.mark.parametrize(("words", "before", "after", "work"), WORDINGS)
def test_a_count_is_the_same_however_it_is_printed(
    words: str, before: int, after: int, work: str, printed: str
) -> None:
    """The round takes in what it says and leaves the count."""
    assert worked(read(words + printed.format(after), (before,))) == [(before, after, work)]


@pytest.mark.parametrize("part", ["part", "wedge", "quarter", "gusset", "section"])
def test_a_part_of_the_round_has_any_of_its_names(part: str) -> None:
    """One stitch is taken in at the beginning of each of four."""
    text = f"Divide the sts into 4 {part}s of 12 sts.\nRnd 1: In each {part} knit the first 2 sts together. 44 sts"
    assert worked(read(text, (48,))) == [(48, 44, "*k2tog, k10; rep from * around")]


@pytest.mark.parametrize("counts", [": 48, 40, 32", " (48, 40, 32)", " (48 sts, 40 sts, 32 sts)"])
def test_a_crown_goes_on_by_its_counts_in_brackets_too(counts: str) -> None:
    """Eight stitches are taken in on each of three more rounds."""
    text = f"Rnd 1: *k6, k2tog* (56)\nEvery round is a decrease round{counts}."
    assert after_each_round(read(text, (64,))) == [56, 48, 40, 32]


@pytest.mark.parametrize(
    "words",
    [
        "Now work only the decrease round, 3 times: you go from 56 to 48, 40 and finally 32.",
        "Decrease round only, 3 times, from 56 down to 48, 40, 32.",
        "Work the decrease round 3 more times, going from 56 to 48, 40 and 32 sts.",
        "Now decrease in every round: you go from 56 to 48, 40 and finally 32.",
    ],
)
def test_the_count_there_is_may_stand_before_those_it_goes_on_to(words: str) -> None:
    """Eight stitches are taken in on each of three more rounds, and no round is plain."""
    text = f"Rnd 1 (decrease round): *k6, k2tog* (56)\nRnd 2: knit.\n{words}"
    assert after_each_round(read(text, (64,))) == [56, 56, 48, 40, 32]


@pytest.mark.parametrize(
    "words",
    [
        "Continue with a smaller needle: 48, 40, 32 cm circulars all work.",
        "Every round takes me 48, 40, 32 seconds.",
        "Onwards: balls weigh 48, 40, 32 g.",
        "My swatches had 48, 40 and 32 stitches.",
        "For fewer stitches use 48, 40, 32.",
    ],
)
def test_falling_numbers_of_something_else_are_no_rounds(words: str) -> None:
    """Nothing is worked by them, and nothing is wrong."""
    assert after_each_round(read(f"Rnd 1: *k6, k2tog; rep from * (56)\n{words}\nRnd 2: knit", (64,))) == [
        56,
        56,
    ]


@pytest.mark.parametrize(
    "words",
    [
        "Set-up round (dec 6): *K14, k2tog; rep from * to end.",
        "Next round (decreasing 6 sts): *K14, k2tog; rep from * to end. 90 sts.",
        "Rnd 1: *K14, k2tog; rep from * to end (dec 6 sts).",
        "Set-up round (dec 6 sts evenly)",
        "Set-up round (decrease 6 sts): 90 sts",
        "Next round: knit (dec 6).",
        "Next round: knit (dec 6). 90 sts.",
        "Next round: knit (dec 6 sts) = 90 sts.",
        "Knit 1 round (dec 6 sts).",
    ],
)
def test_a_change_in_brackets_is_told_of_the_round_beside_it_or_worked(words: str) -> None:
    """Six decreases in 96 stitches, whether the round tells them or the bracket alone does."""
    assert after_each_round(read(words, (96,))) == [90]
