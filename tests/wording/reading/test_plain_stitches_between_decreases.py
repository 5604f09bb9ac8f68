"""Decrease rounds told by no more than the plain stitches between their decreases."""

from itertools import product

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

FIRST = "*k8, k2tog* around (72 sts). Knit 1 round.\n"
"""The round whose decreases the others have."""
READ = [
    ("The same with 7 sts before the k2tog - 64 sts. Knit 1 round.", [64, 64]),
    ("The same with 7 sts before the k2tog: 64 sts. Knit 1 round. With 6 sts before: 56 sts.", [64, 64, 56]),
    ("With 7 sts between decreases there are 64. Knit 1 round.", [64, 64]),
    ("With 7 sts between the decreases (64), with 6 (56), with 5 (48).", [64, 56, 48]),
    ("With 7 sts: 64. One plain round. With 6 sts: 56.", [64, 64, 56]),
    ("With 2 plain rounds before each: 7 sts before the k2tog (64), 6 sts (56).", [72, 72, 64, 64, 64, 56]),
    ("One plain round between each of these: with 7 sts (64), with 6 (56).", [72, 64, 64, 56]),
    (
        "7 sts between decreases, 64 sts left. Knit 1 round.\n6 sts between decreases, 56 sts left.",
        [64, 64, 56],
    ),
    (
        "Dec rnd 2: 7 sts between decreases (64 sts). Knit 1 round.\nDec rnd 3: 6 sts between decreases.",
        [64, 64, 56],
    ),
    ("3 last rounds: k7 before each dec (64 sts), then k6 (56 sts), then k2tog around (28).", [64, 56, 28]),
    ("Dec every other round: with 7 sts before (64), a plain round, with 6 before (56).", [64, 64, 56]),
    ("No more plain rounds: with 7 (64), with 6 (56).", [64, 56]),
    ("Decrease every round: first 7, then 6, 5 and finally 4 sts before the k2tog.", [64, 56, 48, 40]),
    ("Dec every rnd with 7, 6 and 5 sts before each dec until 48 sts remain.", [64, 56, 48]),
    ("Continue with 7, 6 and 5 sts before k2tog, no plain rounds. 48 sts.", [64, 56, 48]),
    (
        "Work 1 plain round before each decrease, and decrease with 7, 6 and 5 sts before; 48 sts.",
        [72, 64, 64, 56, 56, 48],
    ),
    (
        "With 1 plain round between, decrease again, first with k7, then with k6 before the k2tog; 56 sts.",
        [72, 64, 64, 56],
    ),
    ("With 1 plain round between: with 7 sts before (64), with 6 (56).", [72, 64, 64, 56]),
]


def test_plain_stitches_of_an_old_danish_book() -> None:
    """Told with `foran`, and with the plain rounds before each."""
    text = (
        "8 ret, 2 sammen, Omgangen rundt (72 Masker). Med 2 glatte Omgange imellem tages der atter ind, først med 7 "
        "ret og saa med 6 ret foran de to Masker, der strikkes sammen; nu haves 56 Masker. Derpaa strikkes der kun 1 "
        "glat Omgang før hver Indtagning, og der tages ind med 5 og 4 ret foran; nu haves 40 Masker."
    )

    assert after_each_round(read(text, (80,), "da")) == [72, 72, 72, 64, 64, 64, 56, 56, 48, 48, 40]


@pytest.mark.parametrize(("text", "after"), READ)
def test_rounds_told_by_their_plain_stitches(text: str, after: list[int]) -> None:
    """A round for each number, with the decreases of the round before."""
    reading = read(FIRST + text, (80,))

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == [72, 72, *after]


OPENINGS = ("With", "The same with", "Again with", "Then with", "Now with", "Next round with")
PLACES = ("between", "between decreases", "between the decreases", "before each decrease", "before the k2tog")
COUNTS = (" (64 sts)", ": 64 sts", " = 64 sts", " - 64 sts")


@pytest.mark.parametrize(("opening", "place", "count"), [*product(OPENINGS, PLACES, COUNTS)])
def test_ways_of_one_such_round(opening: str, place: str, count: str) -> None:
    """It is a single round however it opens, wherever the stitches are and however its count is printed."""
    reading = read(f"*k8, k2tog* around (72 sts).\n{opening} 7 sts {place}{count}.", (80,))

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == [72, 64]


DESCRIBED = [
    ("Dec 8 sts evenly, with 8 sts between decreases (72 sts). Knit 1 round.", [72, 72]),
    ("Dec 8 sts evenly around: 8 sts between decreases. Knit 1 round.", [72, 72]),
    ("Knit 1 round, decreasing 8 sts, 8 sts between each decrease. 72 sts.", [72]),
    ("*k8, k2tog* around. Place 8 markers, with 9 sts between (72 sts). Knit 1 round.", [72, 72, 72]),
    ("*k8, k2tog* around. Change to dpns, with 18 sts on each (72). Knit 1 round.", [72, 72]),
    ("Rnd 1: *k8, k2tog*\nRnds 2 and 3: same, with 7 and 6 sts between (56 sts)", [72, 64, 56]),
]


@pytest.mark.parametrize(("text", "after"), DESCRIBED)
def test_stitches_between_that_only_describe(text: str, after: list[int]) -> None:
    """Where the decreases are told in the same sentence, the stitches between them are no other round."""
    assert after_each_round(read(text, (80,))) == after


COUNTED = [
    ("R1: *k4, k2tog* repeat (60 sts / 70 sts)", (72, 84), (60, 70)),
    ("R1: *k4, k2tog* repeat = 60 sts, 70 sts, 80 sts.", (72, 84, 96), (60, 70, 80)),
    ("CO 80-88-96 sts on circular needles\nKnit 3 rounds", (80, 88, 96), (80, 88, 96)),
]


@pytest.mark.parametrize(("text", "counts", "last"), COUNTED)
def test_counts_of_sizes_each_with_its_noun(
    text: str, counts: tuple[int, ...], last: tuple[int, ...]
) -> None:
    """A list of counts in which every number has its noun is a count a size."""
    reading = read(text, counts)

    assert reading.findings == ()
    assert tuple(rounds[-1].after for rounds in reading.rounds) == last


NAMED = [
    ("Row 1: K10, k2tog\nRow 2: Knit\nRow 3: K9, k2tog\nRow 4: And every other row knit\nRow 5: K8, k2tog",
     [66, 66, 60, 60, 54]),
    ("Row 1: *K4, k2tog*\nRow 2-3-4: knit\nRow 5: *K3, k2tog*", [60, 60, 60, 60, 48]),
    ("Round 1: knit all stitches Round 2: *k2, k2tog* to end of round Round 3: knit.", [72, 54, 54]),
    ("Round 1: (k4, k2tog) around (60 sts) Rounds 2-3: knit Round 4: *k3, k2tog* (48 sts)", [60, 60, 60, 48]),
    (("Rnds 1 and 2: *k4, k2tog* around = 60 sts, then *k3, k2tog* = 48 sts.\nRnds 3, 4 and 5: *k2, k2tog* (36), then "
     "*k1, k2tog* (24), then knit."), [60, 48, 36, 24, 24]),
    ("Rnds 1-2: knit (72 sts), then 36 times k2tog", [72, 72, 36]),
    ("k2, then 35 times k2tog", [37]),
    ("Cast on 24-24-24 (on three needles)\nKnit 2 rounds", [72, 72]),
    ("Place 4 markers.\nDecreases are worked either side of each marker. Work these every 2nd rnd until 56 remain.",
     [64, 64, 56]),
    ("Place 4 markers.\nWork 2 sts together on each side of each marker on every round 3 times.", [64, 56, 48]),
    ("Place 4 markers.\nDec on each side of each marker every round until 48 sts remain.", [64, 56, 48]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "after"), NAMED)
def test_rounds_named_in_passing_and_sides_of_markers(text: str, after: list[int]) -> None:
    """Rounds named within a line, or with others of their sort behind a colon, and decreases beside markers."""
    reading = read(text, (72,))

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == after


@pytest.mark.parametrize("none", ["with none", "with nothing before it", "no more sts before it"])
def test_no_plain_stitches_are_left_at_the_end(none: str) -> None:
    rounds = f"*K2, k2tog* 8 times: 24 sts.\nWith 1 st before k2tog: 16, {none} (8)."
    assert [made.after for made in read(rounds, (32,)).rounds[0]] == [24, 16, 8]
