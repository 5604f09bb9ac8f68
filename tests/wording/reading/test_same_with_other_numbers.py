"""Rounds worked again with other numbers of plain stitches, each told by no more than its number."""

import pytest

from roundwright.wording.proofreading.read import read
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
    assert not errors(reading)


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
    "Do the same with k6. Knit 1 round.\nThe same again with k5 (48 sts). Knit 1 round.",
    (
        "And once again, this time with six. Another plain round.\nSame trick with five. 48 remain. "
        "Knit a round."
    ),
]


@pytest.mark.parametrize("text", ALONE)
def test_plain_rounds_that_are_told_themselves_are_worked_once(text: str) -> None:
    """Where plain rounds follow in a sentence of their own, the same is the decrease round alone."""
    assert after_each_round(read(BEGUN + text, (80,)))[:7] == [72, 72, 64, 64, 56, 56, 48]


ON_NEXT_ROUND = [
    (
        "Dec on next rnd, but now with 6 sts before the decrease. 56 sts\n"
        "Dec on next rnd, but now with 5 sts before the decrease."
    ),
    (
        "Decrease on the next round as well, this time with 6 stitches between the decreases (56). "
        "Decrease on the next round again, now with 5 between the decreases."
    ),
]


@pytest.mark.parametrize("text", ON_NEXT_ROUND)
def test_a_decrease_on_the_next_round_has_no_plain_round_before_it(text: str) -> None:
    """Nor is one behind it, where none is told."""
    assert after_each_round(read(BEGUN + text, (80,))) == [72, 72, 64, 64, 56, 48]
