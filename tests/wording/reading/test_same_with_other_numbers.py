"""Rounds worked again with other numbers of plain stitches, each told by no more than its number."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.same_with import with_same_rounds
from roundwright.wording.reading.scanner import scan
from tests.corpus.score import errors
from tests.support.readings import after_each_round

BEGUN = (
    "*k8, k2tog; rep from * around (72). Knit 1 round.\n*k7, k2tog; rep from * around (64). Knit 1 round.\n"
)

WITH_PLAIN = [
    "Do the same with 6 and then with 5 knits before the k2tog, and a knit round after each. 48 sts.",
    "Do the same with k6 and with k5.",
    "Repeat these two rounds with k6 and then with k5.",
    "Repeat these two rounds with k6 instead of k7, then with k5.",
    "Now the same with 6, then 5 stitches before the decrease, always with a knit round after.",
    "Again with k6. Again with k5.",
    "Now again with 6 knits, and again with 5 (48 sts).",
]


@pytest.mark.parametrize("text", WITH_PLAIN)
def test_the_plain_round_is_worked_again_too(text: str) -> None:
    """The same is the decrease round and the plain round behind it."""
    reading = read(BEGUN + text, (80,))

    assert after_each_round(reading) == [72, 72, 64, 64, 56, 56, 48, 48]


def test_plain_rounds_stand_between_alone() -> None:
    """Behind the last decrease round stands no plain round that is told to be between."""
    text = (
        "(knit 3, knit 2 together) around. Knit 1 round.\n"
        "Same again with knit 2, with knit 1 and then with knit 2 together only, knitting 1 round between."
    )

    assert after_each_round(read(text, (40,))) == [32, 32, 24, 24, 16, 16, 8]


@pytest.mark.parametrize(
    "text", ["Do the same with 6 stitches in each section.", "Repeat with 4 and 5 mm needles."]
)
def test_other_numbers_are_no_plain_stitches(text: str) -> None:
    """What is held in a section, or the size of needles, is worked with nothing."""
    assert after_each_round(read(BEGUN + text, (80,))) == [72, 72, 64, 64]


ALONE = [
    "Decrease as before, but with 6 stitches between.\nKnit 1 round.\nNarrow as before, with 5 between. (48)",
    "Do the same with k6. Knit 1 round.\nThe same again with k5 (48 sts).",
    "Then the same with 6 sts. (56 sts) Knit 1 round. The same with 5 sts. (48 sts)",
    "Do the same with k6; knit 1 round; the same again with k5.",
    "And once again, this time with six. Another plain round.\nSame trick with five. 48 remain.",
]


@pytest.mark.parametrize("text", ALONE)
def test_plain_rounds_that_are_told_themselves_are_worked_once(text: str) -> None:
    """Where plain rounds follow in a sentence of their own, the same is the decrease round alone."""
    assert after_each_round(read(BEGUN + text, (80,))) == [72, 72, 64, 64, 56, 56, 48]


def test_plain_rounds_behind_the_last_stand_between_too() -> None:
    """The plain round before is worked again between two decrease rounds, and behind the last as it is told."""
    text = "Do the same with k6. Knit 1 round. The same again with k5 and k4. Knit 2 rounds."

    assert after_each_round(read(BEGUN + text, (80,)))[4:] == [56, 56, 48, 48, 40, 40, 40]


ROUND = "*K8, k2tog; rep from * around. "
"""The round that the rounds below are worked like."""

JOINED = [
    "The same with 7 knits and a k2tog.",
    "Do the same with k7, k2tog.",
    "Do the same with 7 knits and ssk instead of k2tog.",
    "Same again with 7 knits followed by knit 2 together.",
    "Do the same with 7 knits instead of 8 knits.",
]


@pytest.mark.parametrize("text", JOINED)
def test_a_decrease_beside_a_number_is_of_its_round(text: str) -> None:
    """A decrease that is joined to plain stitches is worked behind them, and adds no round."""
    assert after_each_round(read(ROUND + "Knit 1 round. " + text, (80,))) == [72, 72, 64, 64]


def test_a_decrease_alone_is_a_round() -> None:
    """What is told alone, or with a `with` of its own at the end, is a round of decreases."""
    numbers = "Knit 1 round. The same with 7 knits and one k2tog, and with 6 knits and one k2tog"
    rounds = [72, 72, 64, 64, 56, 56]

    assert after_each_round(read(ROUND + numbers + ".", (80,))) == rounds
    assert after_each_round(read(ROUND + numbers + ", and with k2tog.", (80,))) == [*rounds, 28, 28]
    assert after_each_round(read(ROUND + numbers + ", and only k2tog.", (80,))) == [*rounds, 28, 28]


@pytest.mark.parametrize("text", ["The same with 7 knits and an sk2p.", "The same with 7 knits and 2 k2tog."])
def test_another_decrease_is_not_the_same(text: str) -> None:
    """A round with decreases of another kind, or more of them, is not worked as the round before."""
    assert errors(read(ROUND + text, (80,)))


BEHIND = [
    ("Do the same with 7 knits before the k2tog, then knit 4 rounds.", [64, 64, 64, 64, 64]),
    ("Do the same with 7 knits before each decrease, then 2 plain rounds. K2tog around.", [64, 64, 64, 32]),
    ("Do the same with 7 knits before the k2tog, then k2tog all round.", [64, 32]),
    ("Do the same with 7 knits before the decrease, then knit 2 together all round.", [64, 32]),
    ("Do the same with 7 before the k2tog, then with 6 before the k2tog.", [64, 56]),
    (
        "Do the same with 7 knits before the k2tog and a plain round after it, then k2tog around.",
        [64, 64, 32],
    ),
    ("Do the same with 7 knits before the k2tog; knit 2 rounds; k2tog around.", [64, 64, 64, 32]),
    (
        "Do the same with 7 knits before the k2tog; knit 1 round; do the same with 6 knits before the k2tog.",
        [64, 64, 56],
    ),
    ("Decrease as before with 7 between, then 2 plain rounds.", [64, 64, 64]),
    ("Do the same with 7, 6 and 5 knits with one plain round after each.", [64, 64, 56, 56, 48, 48]),
    (
        "Do the same with 7 and then 6 knits, always with 2 rounds of plain knitting after.",
        [64, 64, 64, 56, 56, 56],
    ),
    ("Do the same with 7 knits, with a plain round between.", [72, 64]),
    ("Knit 1 round. Do the same with 7 knits, with a plain round between.", [72, 64]),
]


@pytest.mark.parametrize(("text", "counts"), BEHIND)
def test_what_stands_behind_is_worked(text: str, counts: list[int]) -> None:
    """Rounds that are told in the same breath are worked too."""
    reading = read(ROUND + text, (80,))

    assert after_each_round(reading) == [72, *counts]


OTHERWISE = [
    "Do the same with 7 knits before the k2tog, and finish with 5 plain rounds.",
    "Do the same with 7 knits, and 6 knits, every other round.",
    "Knit 3 rounds. Do the same with 7 knits but without plain rounds after it.",
    "Knit 1 round. Now the same with 7 knits, no plain round.",
    "Knit 1 round. Do the same with 7 knits before the k2tog, but no plain round after.",
    "Do the same with 7 knits before the marker.",
    "Then repeat with 8 sts before the marker, k2tog at the marker, knit to end.",
]


@pytest.mark.parametrize("text", OTHERWISE)
def test_what_is_told_otherwise_is_no_same_round(text: str) -> None:
    """Where more is told, plain rounds are denied or the stitches are not before a decrease, nothing is put in."""
    words = scan(ROUND + text, 1).tokens

    assert with_same_rounds(words) == words


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("Once more with k7 (64). Work 4 rounds even. K2tog around.", [64, 64, 64, 64, 64, 32]),
        ("Again with k7, k2tog. Purl 1 round. K2tog around.", [64, 64, 32]),
        ("The same with k7 (64). Then knit 1 round and k2tog around (32).", [64, 64, 32]),
        ("Repeat with k7, k2tog (64).\nRnd 6: k2tog around (32).", [64, 32]),
        ("Then the same with k7 (64).\nNext round: *k6, k2tog* (56).", [64, 56]),
    ],
)
def test_what_stands_behind_tells_whether_plain_rounds_follow(text: str, after: list[int]) -> None:
    """The two plain rounds before are not put in where others are told, or the next round is named."""
    begun = "*K8, k2tog; rep from * around (72). Knit 2 rounds.\n"
    assert [72, 72, 72, *after] == after_each_round(read(begun + text, (80,)))


LISTED = "*k4, k2tog* around (50).\n"
"""Of sixty stitches."""


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("Decrease rounds with 3, 2 and 1 stitches before the decrease.", [50, 40, 30, 20]),
        ("In this manner dec every rnd, with 3, 2 and k1 between decreases.", [50, 40, 30, 20]),
        ("In this manner dec every rnd, with 3, 2 and 1 sts before k2tog (20 sts).", [50, 40, 30, 20]),
        ("Work 3 rnds with 3, 2 and 1 sts before k2tog = 20 sts.", [50, 40, 30, 20]),
        ("Knit the same with 3 stitches, then 2.", [50, 40, 30]),
        ("Knit the same with 3 stitches (40 sts), then 2 (30 sts).", [50, 40, 30]),
        (
            "Knit 1 rnd. Rep these 2 rnds, but with 3 and 2 sts before each dec = 30 sts.",
            [50, 50, 40, 40, 30, 30],
        ),
        (
            "Knit 1 rnd. Rep these 2 rnds with 3 (40 sts) and 2 sts (30 sts) before each dec.",
            [50, 50, 40, 40, 30, 30],
        ),
        ("Dec every other rnd with 3, 2 and 1 st between decreases.", [50, 50, 40, 40, 30, 30, 20]),
        ("Knit 2 rnds. Dec every 3rd rnd with 3 and 2 sts between decs (30).", [50, 50, 50, 40, 40, 40, 30]),
        ("Knit 1 rnd. Only 3 knits now before the decrease.", [50, 50, 40]),
        ("Now only 3 sts before the decrease (40 sts). Only 2 before the next dec (30 sts).", [50, 40, 30]),
        ("Only knit 2 rnds.", [50, 50, 50]),
    ],
)
def test_rounds_listed_by_their_plain_stitches_are_worked_one_by_one(told: str, after: list[int]) -> None:
    """Their rhythm says whether plain rounds stand between; the last tells no stitches before a decrease."""
    assert after_each_round(read(LISTED + told, (60,))) == after


@pytest.mark.parametrize(
    "told",
    [
        "Work 4 rnds with 3, 2 and 1 sts before k2tog (20 sts).",
        "Knit the same with 3 stitches (40 sts), then 2 (32 sts).",
    ],
)
def test_a_list_that_does_not_come_out_is_an_error(told: str) -> None:
    """Four rounds are no three, and thirty stitches are no thirty-two."""
    assert errors(read(LISTED + told, (60,)))


def test_the_most_stitches_in_a_row_are_those_between_decreases() -> None:
    """The single ones beside the decreases stay."""
    text = (
        "76 sts, 4 sections.\nIn each section k1, skp, k13, k2tog, k1 = 68 sts.\nWork 1 rnd straight.\n"
        "Rep these 2 rnds, with 11, 9, 7 then 5 sts between decreases."
    )
    assert after_each_round(read(text, (76,))) == [68, 68, 60, 60, 52, 52, 44, 44, 36, 36]
