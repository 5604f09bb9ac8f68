"""Work told in another order or manner than most tell it, each with a neighbour that looks alike and is something else.

The counts are worked out by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, faults

CROWN = "Rnd 1: *k4, k2tog*. Rnd 2: knit. Rnd 3: *k3, k2tog*. "


@pytest.mark.parametrize(
    ("text", "cast_on", "after"),
    [
        ("Knit 4 rnds, and at the end of the first rnd k2tog.", 51, [50, 50, 50, 50]),
        ("Knit 3 rounds. At the end of the first round ssk. 50 sts.", 51, [50, 50, 50]),
        ("Knit 3 rounds. At the end of the first round k2tog, then purl 2 rounds.", 51, [50] * 5),
        ("Knit 3 rounds. In the last round decrease 2 sts evenly. 50 sts.", 52, [52, 52, 50]),
        ("Mark 3 sts. Dec 1 st on each side of each marked st every other rnd until 42 sts.", 54, [48, 48, 42]),
        ("Place 3 markers. Dec 1 st on each side of each marker every other rnd until 42 sts.", 54, [48, 48, 42]),
        ("(k2tog) 6 times evenly", 54, [48]),
        ("*k2tog* evenly 6 times", 54, [48]),
        ("(k7, k2tog) 6 times", 54, [48]),
        ("Begin by knitting 3 rounds.", 54, [54, 54, 54]),
        ("*k7, k2tog* around, then knitting 2 rounds", 54, [48, 48, 48]),
        ("Start decreasing by knitting 7 stitches, then knitting 2 together. Repeat around.", 54, [48]),
        ("Inc in each of the next 3 sts, k5.", 8, [11]),
        ("Rnd 1: *k1, inc 1 in each of next 2 sts, k1* around.", 8, [12]),
        ("Rnd 1: inc in each st.", 8, [16]),
        ("Continue in St st: 3 rnds white, 2 rnds in blue.", 54, [54] * 5),
        ("Continue in St st for 3 rnds, 1 cm.", 54, [54] * 3),
        ("Rnd 1: inc 2 sts. Work for 2 cm, that is 4 rounds.", 54, [56] * 5),
        ("Rnd 1: inc 2 sts. Work in this way for 2 cm, that is 4 rounds.", 54, [56, 58, 60, 62]),
        ("Rnd 1: *k2, p1*. Work for 2 cm, that is 4 rounds.", 54, [54] * 4),
        ("Dec 1 st on each side of the beginning of the round every 4 rnds 2 times.", 54, [52] * 4 + [50]),
        ("Inc 1 st at each end of every other round 2 times.", 54, [56, 56, 58]),
        ("Dec 1 st at both ends of the next round. Knit 2 rounds.", 54, [52, 52, 52]),
        ("Dec 1 st at beginning and end of rnd.", 54, [52]),
        ("Place 3 markers. Dec 1 st at each end of each needle.", 54, [48]),
        ("Next rnd: knit, dec 1 st at the end of the round.", 54, [53]),
        (CROWN + "And so on until you k2tog all around.", 36, [30, 30, 24, 24, 18, 18, 12, 12, 6]),
        (CROWN + "Knit 1 round. And so on until 12 sts remain.", 36, [30, 30, 24, 24, 18, 18, 12]),
    ],
)  # fmt: skip
def test_work_told_otherwise_is_read(text: str, cast_on: int, after: list[int]) -> None:
    reading = read(text, (cast_on,))

    assert not errors(reading)
    assert after_each_round(reading) == after


@pytest.mark.parametrize(
    ("text", "cast_on", "after"),
    [
        ("Rounds 1 and 2: k2tog, k 20 sts, then knit to end.", 48, [47, 46]),
        ("Rnds 1 and 2: (k2, k2tog), then knit to end.", 48, [47, 46]),
        ("Rnds 1 and 2: *k4, k2tog* = 40 sts, then *k3, k2tog* = 32 sts.", 48, [40, 32]),
        ("1 dec round (*k4, k2tog*), then knit 2 rounds.", 48, [40, 40, 40]),
        ("*k6, k2tog*. Work the next round in the same way until 48 sts.", 64, [56, 48]),
        ("*k5, k2tog*. Do the same in the next rnd, then k2tog around.", 49, [42, 36, 18]),
    ],
)
def test_rounds_and_their_neighbours_of_the_same_words(text: str, cast_on: int, after: list[int]) -> None:
    """Stitches that are knitted are no count, and work behind `then` is a round of its own."""
    reading = read(text, (cast_on,))

    assert not errors(reading)
    assert after_each_round(reading) == after


def test_one_side_of_the_markers_is_not_each_side() -> None:
    assert faults(read("Place 4 markers, 16 sts apart. Decrease on one side of each marker.", (64,)))


@pytest.mark.parametrize("text", ["*k6, k2tog*, k1", "Rnd 1: *k6, k2tog*, p2", "*k6, k2tog* around, k1"])
def test_a_few_plain_stitches_that_are_over_are_no_round(text: str) -> None:
    assert errors(read(text, (64,)))


@pytest.mark.parametrize(
    ("text", "cast_on", "after"),
    [("*k6, k2tog*, k1", 65, [57]), ("*k6, k2tog*, knit 1 round", 64, [56, 56])],
)
def test_plain_stitches_that_come_out_are_read(text: str, cast_on: int, after: list[int]) -> None:
    reading = read(text, (cast_on,))

    assert not errors(reading)
    assert after_each_round(reading) == after


@pytest.mark.parametrize(
    "sentence",
    [
        "Knit 3 rounds, and at the end of the first round k2tog.",
        "Knit 3 rounds, and at the end of the first round k2tog, then purl 2 rounds.",
        "Mark 4 sts. Dec 1 st on each side of each marked st every other rnd until 36 sts remain.",
        "Inc 1 st in each of the next 4 sts, k4.",
        "Dec 1 st at each end of the next round.",
        "Rnds 1 and 2: *k4, k2tog* = 40 sts, then *k3, k2tog* = 32 sts.",
        "In the next 2 rnds dec in the same way: 32, 24.",
        "Needle 1: k2tog, knit to end. Do the same on the 3 other needles.",
        "Dec rnd: k2tog before each marker. After the first (36 sts) knit 2 rnds, after the second (32) the same.",
        "Knit 2 rnds and in the 3rd decrease again, with 1 st less before each decrease; rep these 3 rnds once more.",
        "Keep going until you k2tog all around.",
        "Begin by knitting 2 rounds, then knitting 2 rounds.",
        "Work (k2tog) 8 times evenly.",
    ],
)
def test_a_sentence_that_breaks_off_is_answered(sentence: str) -> None:
    """A text may be cut anywhere."""
    words = sentence.split()
    for end in range(len(words) + 1):
        assert len(read(" ".join(words[:end]), (40,), "en-US").rounds) == 1


@pytest.mark.parametrize("words", ["the the the", "Knit all the all the rounds", "Rnd 1: the the the: knit"])
def test_articles_that_are_doubled_are_answered(words: str) -> None:
    """A line may begin with any number of them."""
    assert len(read(words, (40,), "en-US").rounds) == 1
