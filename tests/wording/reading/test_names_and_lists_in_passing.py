"""Short names given in a sentence, needles by their size, and rounds told in one sentence.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round

EYELETS = "\nRnd 1: * yo, dd, k7 * 8 times (72 sts)"
AFTER = (
    "Knit two together after every ten stitches, which leaves 77, and knit two rounds. Then knit two together after "
    "every nine stitches (70) and knit two rounds; after every eight (63) and knit one round.\n"
    "Now there are no plain rounds any more: decrease after every seven, every six, every five, and every four."
)
THUS = (
    "Now decrease on every round thus: *k3, k2tog, rep from * to end (40 sts); *k2, k2tog, rep from * to end "
    "(30 sts); k2tog to end (15 sts)."
)
FURTHER = (
    "Round 1: knit 13, 2 together, 6 times. = 84\n"
    "Round 2: only knit.\n"
    "Round 3: knit 12, 2 together, 6 times. = 78\n"
    "{how}, every time one stitch less before the decrease and one round only knit between, till you have 66."
)

TEXTS = [
    ("written", f'Sl 1, k2tog, psso is written "dd" below to save room.{EYELETS}', 80, [72]),
    ("written, behind a heading", f'Lace crown: sl 1, k2tog, psso is written "dd" below.{EYELETS}', 80, [72]),
    ("called", f"In what follows sl 1, k2tog, psso is called dd.{EYELETS}", 80, [72]),
    ("abbreviated", f"Slip 1, k2tog, psso will be abbreviated to dd.{EYELETS}", 80, [72]),
    ("stands for", f'"dd" stands for sl 1, k2tog, psso.{EYELETS}', 80, [72]),
    ("means", f"dd means slip 1, knit 2 together, pass the slipped stitch over.{EYELETS}", 80, [72]),
    ("two together", 'K2tog is written "tw" in this pattern.\nRnd 1: *k8, tw* (72)', 80, [72]),
    (
        "needles by size",
        "Switch to the 9s and knit one round like this: *k7, m1* to the end (96 sts)",
        84,
        [96],
    ),
    ("your needles", "With your 9s knit 3 rounds.", 84, [84] * 3),
    ("to needles", "Change to 8s and work 2 rounds in rib.", 84, [84] * 2),
    (
        "where the work is",
        "(You are in K4 P2 rib.)\n1. K4, P2tog, all round. 80\n2. As 1 but plain: knit.",
        96,
        [80, 80],
    ),
    ("what you should be in", "You should now be in k4, p2 rib.\nRnd 1: *k4, p2tog* (80)", 96, [80]),
    (
        "on every round thus",
        THUS,
        50,
        [40, 30, 15],
    ),
    (
        "every round, in sentences",
        "Then decrease in every round, like this: [k3, k2tog] to end (40 sts). [k2, k2tog] to end (30 sts).",
        50,
        [40, 30],
    ),
    (
        "every round, a list",
        "Decrease every round: *k3, k2tog* (40 sts), *k2, k2tog* (30 sts).",
        50,
        [40, 30],
    ),
    ("after every so many", AFTER, 84, [77, 77, 77, 70, 70, 70, 63, 63, 56, 49, 42, 35]),
    ("go so further", FURTHER.format(how="Go so further"), 90, [84, 84, 78, 78, 72, 72, 66]),
    ("go on so", FURTHER.format(how="Go on so"), 90, [84, 84, 78, 78, 72, 72, 66]),
]


@pytest.mark.parametrize(
    ("text", "cast_on", "counts"), [example[1:] for example in TEXTS], ids=[example[0] for example in TEXTS]
)
def test_what_is_told_in_passing_is_read(text: str, cast_on: int, counts: list[int]) -> None:
    assert after_each_round(read(text, (cast_on,))) == counts


@pytest.mark.parametrize(
    ("text", "cast_on", "repair"),
    [
        ("k2tog all round - 24 sts\nknit 1 round\nk3tog all round - 12 sts", 48, "k2tog all round - 12 sts"),
        ("(k1, k2tog) all round - 64\nk2tog all round - 43", 96, "k2tog all round - 32"),
    ],
)
def test_a_decrease_all_round_is_not_the_round_before_once_more(text: str, cast_on: int, repair: str) -> None:
    found = [(finding.code, finding.repair) for finding in errors(read(text, (cast_on,)))]
    assert found == [("count_differs", repair)]
