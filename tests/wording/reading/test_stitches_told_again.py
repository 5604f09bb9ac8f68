"""A decrease told with the stitches it uses, the verb before a repeat, and the stitch that is spread over a round.

The rounds are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, worked


@pytest.mark.parametrize(
    ("words", "before", "after", "work"),
    [
        ("ssk the first 2 sts, knit to end (63)", 64, 63, "ssk, k62"),
        ("k2tog over the first 2 sts, knit to end (47)", 48, 47, "k2tog, k46"),
        (
            "k2tog over the first 2 sts, knit to last 2 sts, ssk the last 2 sts (46)",
            48,
            46,
            "k2tog, k44, ssk",
        ),
        ("knit to last 3 sts, sk2p over the last 3 sts. 46 sts", 48, 46, "k45, sk2p"),
        ("knit (6, 2 together) 8 times. (56)", 64, 56, "*k6, k2tog; rep from * around"),
        ("purl (6, 2 together) 8 times. (56)", 64, 56, "*p6, k2tog; rep from * around"),
        ("purl *6, 2 together; rep from *", 64, 56, "*p6, k2tog; rep from * around"),
        ("Purl *6, then 2 together* around.", 64, 56, "*p6, k2tog; rep from * around"),
        ("Knit, k2tog 4 times evenly. (44)", 48, 44, "*k10, k2tog; rep from * around"),
        ("Knit, ssk 4 times evenly. (44)", 48, 44, "*k10, ssk; rep from * around"),
        ("Purl, p2tog 4 times evenly. (60)", 64, 60, "*p14, p2tog; rep from * around"),
        ("Knit, kfb 4 times evenly. (68)", 64, 68, "*k15, kfb; rep from * around"),
        ("Knit, sk2p 4 times evenly. (40)", 48, 40, "*k9, sk2p; rep from * around"),
    ],
)
def test_a_round_has_the_stitches_it_is_told_with(words: str, before: int, after: int, work: str) -> None:
    """Nothing is wrong, and no stitch becomes another."""
    assert worked(read(f"Rnd 1: {words}", (before,))) == [(before, after, work)]


@pytest.mark.parametrize(
    "line",
    [
        "Hem: fold at the picots and *knit 1 st from the needle together with 1 st from the cast-on edge; rep from *",
        "Joining rnd: *K1 st from needle tog with 1 st from CO edge; rep from * around.",
        "Next rnd: *k1 tog with corresponding st of cast-on edge; rep from * to end.",
        "Turn up the hem: (knit 1 stitch together with 1 stitch of the cast-on row) to end.",
        "Next rnd: *knit together 1 st from needle and 1 st from cast-on edge; rep from * around.",
        "Next rnd: *pick up 1 st from the cast-on edge and knit it together with the next st; rep from * around.",
    ],
)
def test_a_stitch_knitted_together_with_the_cast_on_edge_stays_one(line: str) -> None:
    """The round that joins a hem leaves as many stitches as there were."""
    reading = read(f"{line} 72 sts", (72,))
    assert not reading.findings
    assert after_each_round(reading) == [72]
