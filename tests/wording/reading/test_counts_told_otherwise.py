"""Counts that are printed otherwise than `(48 sts)`: behind a sign, needle by needle, added up.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import counts

ROUND = "Rnd 1: (k5, k2tog) x 8"


@pytest.mark.parametrize(
    "printed",
    [
        ". N = {}",
        ". n={}",
        " (N = {})",
        ". Sts = {}",
        ". Stitches: {}",
        ". Sts now: {}.",
        ". Stitches left: {}",
        ". Stitches on needles = {}",
        "; st count = {}",
        ". No. of sts: {}",
        ". Number of stitches: {}.",
    ],
)
def test_a_count_behind_its_sign_is_compared(printed: str) -> None:
    """56 stitches in eight repeats of seven leave 48, however the count is introduced."""
    assert counts(read(ROUND + printed.format(48), (56,))) == [[56, 48]]

    [wrong] = errors(read(ROUND + printed.format(49), (56,)))
    assert (wrong.code, wrong.repair) == ("count_differs", ROUND + printed.format(48))


def test_a_change_behind_its_sign_is_no_count() -> None:
    """What is told beside the count is how many stitches go, and what a gauge has is no count either."""
    text = (
        f"Stitches: 22, rounds: 30\n{ROUND}. ΔN = -8. N = 48.\n"
        "Rnd 2: k. ΔN = 0. N = 48\nRnd 3: (k6, m1) x 8. ΔN = +8. N = 56"
    )

    assert counts(read(text, (56,))) == [[56, 48, 56]]


@pytest.mark.parametrize(
    "printed", ["24 + 24 sts", "24+24 sts", "24 + 24", "16 + 16 + 16 sts left", "(12+12+12+12)"]
)
def test_stitches_of_needles_are_added_up(printed: str) -> None:
    """The stitches of the needles with a plus between are the count of the round."""
    text = f"{ROUND}. {printed}\nRnd 2: (k4, k2tog) x 8 (20 + 21)"
    [wrong] = errors(read(text, (56,)))

    assert (wrong.code, wrong.line, wrong.stitches) == ("count_differs", 2, -1)


ON_NEEDLES = [
    ("28 sts on each of 4 needles.", "each needle (k5, k2tog) 4 times. {} on each needle.", 24),
    (
        "Arrange 28 sts on each of 4 needles.",
        "*k5, k2tog* to end. You now have {} stitches on each needle.",
        24,
    ),
    ("Put 28 stitches on every needle.", "*k5, k2tog* around ({} on each needle).", 24),
    ("28 sts per needle.", "*k5, k2tog* around, leaving {} stitches on every needle.", 24),
    ("Cast on 112, 28 stitches to a needle, and join.", "*k5, k2tog* around. {} to a needle.", 24),
    ("Magic loop, 56 sts on each side.", "*k5, k2tog* around. {} sts on each half.", 48),
]


@pytest.mark.parametrize(("shared", "work", "held"), ON_NEEDLES)
def test_stitches_on_each_needle_are_compared(shared: str, work: str, held: int) -> None:
    """A line says on how many needles the stitches are; from then on so many on each are the count of the round."""
    assert counts(read(f"{shared}\nRnd 1: {work.format(held)}", (112,))) == [[112, 96]]

    [wrong] = errors(read(f"{shared}\nRnd 1: {work.format(held - 1)}", (112,)))
    assert (wrong.code, wrong.line) == ("count_differs", 2)
    assert wrong.repair == f"Rnd 1: {work.format(held)}"


def test_stitches_on_each_needle_are_compared_where_rounds_are_worked_again() -> None:
    """`As round 1` has its count by needle as well."""
    text = (
        "24 sts on each of four needles.\n"
        "Round 1: K2tog at the beginning and k2tog at the end of each needle. 22 sts on each needle.\n"
        "Round 2: As round 1. 21 sts on each needle."
    )
    [wrong] = errors(read(text, (96,)))

    assert (wrong.code, wrong.line) == ("count_differs", 3)


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 1: k2tog at each end of each needle, losing 2 stitches on each needle.",
        "Rnd 1: (k10, k2tog) 8 times. Put the stitches on 5 needles: 18 on each of the first four, 16 on the last.",
        "Rnd 1: (k10, k2tog) 8 times. Change to two needles, 44 on each needle.",
    ],
)
def test_other_stitches_on_needles_are_no_fault(line: str) -> None:
    """Stitches that go from each needle, unequal needles and other needles are not compared."""
    assert not errors(read(f"24 sts on each of 4 needles.\n{line}", (96,)))


@pytest.mark.parametrize(
    "work",
    [
        "Slip one, knit one and pass the slipped one over, knit along till only two are left on that needle, k2tog.",
        "K2tog, knit until 2 sts remain on the needle, ssk.",
        "Skp, k until two stitches are left on this needle, k2tog; the same on every needle.",
        "Ssk, knit till you have 2 left on that needle, k2tog.",
        "Ssk, k to last 2 sts on needle, k2tog.",
    ],
)
def test_a_needle_is_knitted_to_its_last_stitches(work: str) -> None:
    """What is told of one needle is worked on all four: two stitches go from each."""
    text = f"20 sts on each of 4 needles.\nRound 1: {work} 72 sts"
    assert counts(read(text, (80,))) == [[80, 72]]


@pytest.mark.parametrize(
    "again", ["And again, 48.", "And once more, 48.", "Again, 48 left.", "And again: 48 sts."]
)
def test_and_again_means_all_rounds_that_were_worked_again(again: str) -> None:
    """A decrease round and a plain one, both worked a second and a third time."""
    first = "Rnd 1: ssk, k till 2 sts are left on that needle, k2tog. 64 sts.\nRnd 2: knit.\n"
    reading = read(f"18 sts on each of 4 needles.\n{first}Do those two rounds again, 56.\n{again}", (72,))

    assert counts(reading) == [[72, 64, 56, 48]]
    assert len(reading.rounds[0]) == 6
