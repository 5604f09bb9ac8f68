"""Decrease rounds told by no more than the plain stitches between their decreases."""

from itertools import product

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
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
    ("Dec on every round as before: with 7 (64), with 6 (56), with 5 sts between (48).", [64, 56, 48]),
    ("1 round with 7 sts between, a round with 6 between, one with 5 between. 48 sts.", [64, 56, 48]),
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
    ("With a plain round between, decrease with 7 and with 6 sts before; 56 sts.", [72, 64, 64, 56]),
    (
        "With 2 plain rounds before each decrease: 7 sts before the k2tog (64), 6 sts (56).",
        [72, 72, 64, 64, 64, 56],
    ),
    ("No plain rounds between these: with 7 sts (64), with 6 (56).", [64, 56]),
]
OTHERWISE = [
    "1 plain round after each: with 7 sts (64), with 6 (56).",
    "After each plain round: with 7 sts (64), with 6 (56).",
    "Between each of the 2 following rounds knit 1 round: with 7 sts (64), with 6 (56).",
    "Work 8 rounds before the decreases: with 7 sts between (64), with 6 (56).",
    "With 2 rounds in rib between, decrease first with 7, then with 6 before the k2tog; 56 sts.",
    "Dec every 2nd round: with 7 sts before (64), with 6 before (56).",
    "In the next 2 rounds, with 7 sts before the k2tog.",
    "On each of the next 2 rounds: with 7 sts before (64), with 6 (56).",
    "In the last 2 rounds 7 and 6 sts before k2tog.",
    "Work 1 round with 7, 6 and 5 sts before k2tog.",
    "In the next 3 rounds work 7, 6 and 5 sts between the cables.",
    "Every round: 7, 6 and 5 sts between the cables.",
    "With 7 sts remaining: 64.",
]
"""Rounds whose plain rounds are told in other words, and stitches that are no plain ones between decreases."""


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
    assert after_each_round(read(FIRST + text, (80,))) == [72, 72, *after]


@pytest.mark.parametrize("text", OTHERWISE)
def test_what_is_told_otherwise_is_not_passed_over(text: str) -> None:
    """It is called wrong, and no rounds are made without their plain rounds."""
    assert errors(read(FIRST + text, (80,)))


OPENINGS = ("With", "The same with", "Again with", "Then with", "Now with", "Next round with")
PLACES = ("between", "between decreases", "between the decreases", "before each decrease", "before the k2tog")
COUNTS = (" (64 sts)", ": 64 sts", " = 64 sts", " - 64 sts")


@pytest.mark.parametrize(("opening", "place", "count"), [*product(OPENINGS, PLACES, COUNTS)])
def test_ways_of_one_such_round(opening: str, place: str, count: str) -> None:
    """It is a single round however it opens, wherever the stitches are and however its count is printed."""
    text = f"*k8, k2tog* around (72 sts).\n{opening} 7 sts {place}{count}."

    assert after_each_round(read(text, (80,))) == [72, 64]


DESCRIBED = [
    ("Dec 8 sts evenly, with 8 sts between decreases (72 sts). Knit 1 round.", [72, 72]),
    ("Dec 8 sts evenly around: 8 sts between decreases. Knit 1 round.", [72, 72]),
    ("Knit 1 round, decreasing 8 sts, 8 sts between each decrease. 72 sts.", [72]),
    ("*k8, k2tog* around. Place 8 markers, with 9 sts between (72 sts). Knit 1 round.", [72, 72]),
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
    assert after_each_round(read(text, (72,))) == after


@pytest.mark.parametrize("none", ["with none", "with nothing before it", "no more sts before it"])
def test_no_plain_stitches_are_left_at_the_end(none: str) -> None:
    """The last decrease has no stitch before it."""
    text = f"*K2, k2tog* 8 times: 24 sts.\nWith 1 st before k2tog: 16, {none} (8)."

    assert after_each_round(read(text, (32,))) == [24, 16, 8]


IN_WORDS = {
    "de": "*8 M re, 2 M re zusstr; ab * wdh (72 M).\n",
    "fr": "*8 m end, 2 m ens; rép de * (72 m).\n",
    "es": "*8 p der, 2 p jun der; rep de * (72 p).\n",
    "nb": "*8 r, 2 r sm; gjenta fra * (72 m).\n",
    "da": "*8 r, 2 r sm; gentag fra * (72 m).\n",
}
"""The first decrease round in each language."""
OTHERS = [
    ("de", "Mit 7 M dazwischen: 64 M."),
    ("de", "Mit 7 M zwischen den Abnahmen (64 M), mit 6 (56 M), mit 5 (48 M)."),
    ("fr", "De même avec 7 m avant la dim (64 m)."),
    ("fr", "Avec 7 m entre chaque diminution (64 m), avec 6 (56 m), avec 5 (48 m)."),
    ("es", "Luego 7 p antes de cada menguado: 64 p."),
    ("es", "Seguir así con 7, 6 y 5 p entre menguados."),
    ("nb", "Så 7 m mellom hver felling: 64 m."),
    ("nb", "Fortsett slik med 7, 6 og 5 m mellom fellingene."),
    ("da", "Ligeså med 7 m foran = 64 m."),
    ("da", "Med 7 m mellem indtagningerne (64 m), med 6 (56 m), med 5 (48 m)."),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), OTHERS)
def test_such_rounds_in_other_languages(language: str, text: str) -> None:
    """One round, or three in turn, each with a plain stitch less."""
    reading = read(IN_WORDS[language] + text, (80,), language)

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == [72, 64, 56, 48][: 4 if "5" in text else 2]
