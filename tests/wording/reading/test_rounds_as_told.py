"""Each round that a sentence tells is worked, as often as it says: texts that were once read as fewer or as others.

The rounds are counted by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, words_of_rounds

DOUBLE = "*k5, sk2p; rep from * around"
DECREASE = "*k6, k2tog; rep from * around"
GARTER = ["purl", "knit"]
RIB = ["*k1, p1; rep from * around"]
NEXT = "\nNext round: knit."

NAMED_STITCHES = [
    (
        "a stitch is named behind rounds",
        'Knit 10 rounds. Sl 1, k2tog, psso is written "dd" below.\nRnd 1: *k5, dd* (48)',
        ["knit"] * 10 + [DOUBLE],
    ),
    (
        "a stitch is named in the line of its round",
        'Rnd 1: *k5, sl 1, k2tog, psso* (48); sl 1, k2tog, psso is written "dd" from here.\nRnd 2: *k3, dd* (32)',
        [DOUBLE, "*k3, sk2p; rep from * around"],
    ),
]
LISTS_OF_VERBS = [
    (
        "their number before them",
        "Work 4 rounds: knit, purl, knit, purl.\nRnd 5: *k6, k2tog* (56)",
        ["knit", "purl"] * 2 + [DECREASE],
    ),
    ("six of them", "Do 6 rounds: purl, knit, purl, knit, purl, knit.", GARTER * 3),
    ("behind a heading", "Brim: 4 rounds, purl, knit, purl, knit.", GARTER * 2),
    ("several times", "Knit, purl, knit, purl, 12 rounds in all.", ["knit", "purl"] * 6),
    ("until so many", "Purl, knit, purl, knit, until 12 rounds have been worked.", GARTER * 6),
]
UNTIL_ROUNDS = [
    ("until worked", "Purl 1 rnd, knit 1 rnd until 12 rounds have been worked.", GARTER * 6),
    ("until there are", "Purl 1 rnd, knit 1 rnd, until there are 12 rounds in all.", GARTER * 6),
    (
        "and plain rounds behind",
        "Purl 1 rnd, knit 1 rnd until 12 rounds have been worked, then 3 rounds plain.",
        GARTER * 6 + ["knit"] * 3,
    ),
    ("until 12 rounds", "Purl 1 rnd, knit 1 rnd until 12 rounds.", GARTER * 6),
    ("told ahead", "Repeat these until 12 rounds have been worked: purl 1 rnd, knit 1 rnd.", GARTER * 6),
    (
        "between stars",
        "*2 rounds B, 2 rounds A*, rep from * to * until 28 rounds.\nRnd 1: *k6, k2tog* (56)",
        ["knit"] * 28 + [DECREASE],
    ),
]
BEFORE_A_COLON = [
    ("their number", "Work 8 rounds of garter: purl 1 round, knit 1 round.", GARTER * 4),
    ("an odd number", "Work 5 rounds of garter stitch: purl 1 round, knit 1 round.", [*GARTER * 2, "purl"]),
    (
        "and a sentence behind",
        "Work 4 rounds in garter st, as follows: knit 1 round, purl 1 round. Then knit 3 rounds.",
        ["knit", "purl"] * 2 + ["knit"] * 3,
    ),
]
FURTHER_RIB = [
    (
        "and how many in all",
        f"Rib rnd: *k1, p1*.\nWork 9 more rounds of rib (10 rounds in all).{NEXT}",
        [*RIB * 10, "knit"],
    ),
    ("without all", f"Rnd 1: *k1, p1*.\nContinue in rib for 9 more rounds.{NEXT}", [*RIB * 10, "knit"]),
    ("no rib before", "Rnd 1: *k6, k2tog* (56)\nWork 2 more rounds of rib.", [DECREASE, "knit", "knit"]),
]
BEHIND_ALL = [
    (
        "a colour",
        "Rib rnd: *k1, p1*. Work 10 rnds of rib in all, then 4 rounds navy.",
        RIB * 10 + ["knit"] * 4,
    ),
    (
        "plain rounds",
        "Rib rnd: *k1, p1*. Work 10 rnds of rib in all, then knit 4 rounds.",
        RIB * 10 + ["knit"] * 4,
    ),
    ("plain behind plain", "Knit 10 rounds in all, then 4 rounds navy.", ["knit"] * 14),
    ("behind a heading", "Rib: *k1, p1*, 10 rounds in all, then 4 rounds navy.", RIB * 10 + ["knit"] * 4),
]
STRIPES = [
    (
        "not a whole number of stripes",
        "30 rounds in stripes of 4 rounds C and 4 rounds M.\n*k6, k2tog* (56)",
        ["knit"] * 30 + [DECREASE],
    ),
    (
        "and rounds behind",
        "32 rounds in stripes of 4 rounds C and 4 rounds M, then 2 rounds C.",
        ["knit"] * 34,
    ),
    (
        "with a verb",
        "Knit 32 rounds in stripes of 4 rounds C and 4 rounds M, then 2 rounds C.",
        ["knit"] * 34,
    ),
]
LINES_BELOW = [
    (
        "two of three lines",
        "Work the following 2 rounds 5 times:\nRnd 1: knit.\nRnd 2: purl.\nRnd 3: *k6, k2tog* (56)",
        ["knit", "purl"] * 5 + [DECREASE],
    ),
    (
        "these",
        "Work these 2 rounds 5 times:\nRnd 1: knit.\nRnd 2: purl.\nRnd 3: *k6, k2tog* (56)",
        ["knit", "purl"] * 5 + [DECREASE],
    ),
    (
        "the count there is",
        "Work the following 2 rounds 5 times:\nRnd 1: purl.\nRnd 2: knit (64 sts).",
        GARTER * 5,
    ),
    (
        "by their numbers",
        "Work rounds 1 and 2 three times:\nRnd 1: *k1, p1*.\nRnd 2: knit.",
        [*RIB, "knit"] * 3,
    ),
    (
        "repeats of them",
        "Work 3 repeats of rounds 1 and 2:\nRnd 1: knit.\nRnd 2: purl.",
        ["knit", "purl"] * 3,
    ),
    (
        "repeats of those above",
        "Rnd 1: knit.\nRnd 2: purl.\nWork 3 repeats of rounds 1 and 2.",
        ["knit", "purl"] * 3,
    ),
    ("without numbers", "Work the following 2 rounds 5 times:\nKnit.\nPurl.", ["knit", "purl"] * 5),
]
EVERY_OTHER = "Round 1 and all odd rounds: purl.\nRound 2 and all even rounds: knit."
PARITY = "Odd rounds: purl.\nEven rounds: knit."
ODD_AND_EVEN = [
    ("rounds 1 and 2 named with them", f"Work 12 rounds thus:\n{EVERY_OTHER}", GARTER * 6),
    ("their number behind", f"{EVERY_OTHER}\nWork 12 rounds.", GARTER * 6),
    (
        "a later round tells how many",
        f"Work 12 rounds thus:\n{EVERY_OTHER}\nRound 13: knit.",
        [*GARTER * 6, "knit"],
    ),
    ("other rounds behind, with a verb", f"{PARITY}\nPurl 3 rounds.", ["purl"] * 3),
    ("no decrease", "Odd rounds: *k6, k2tog*.\nEven rounds: knit.\nKnit 3 rounds.", ["knit"] * 3),
]
STROKES = [
    (
        "behind the number of a round",
        "R1 / 3 white, 1 black\nR2 / 1 white, 3 black\nR3 / white",
        ["*k3, k1; rep from * around", "*k1, k3; rep from * around", "knit"],
    ),
]
AND_SO_ON = [
    (
        "every stitch fewer",
        "K2tog after every 6 sts; after every five; after every four, and so on until 8 sts remain.",
        [f"*k{stitches}, k2tog; rep from * around" for stitches in range(6, 0, -1)] + ["[k2tog] 8 times"],
    ),
]
BARS = [
    ("lifted first of all", "Lift the bar between and knit it twisted, knit to the end (65).", ["m1, k64"])
]
BY_SORT = [
    ("ridges, of two rounds each", "Work 6 ridges.", ["knit", "purl"] * 6),
    ("garter ridges", "Work 2 garter ridges, then knit 3 rounds.", ["knit", "purl"] * 2 + ["knit"] * 3),
    ("each of the colours", "Knit 10 rounds in each of the three colours.", ["knit"] * 30),
    ("the knit round again", "Knit 1 round.\nRepeat the knit round 30 times.", ["knit"] * 31),
    (
        "the purl round again",
        "Rnd 1: purl.\nRnd 2: knit.\nRepeat the purl round twice.",
        ["purl", "knit", "purl", "purl"],
    ),
]
ALL = (
    *NAMED_STITCHES, *LISTS_OF_VERBS, *UNTIL_ROUNDS, *BEFORE_A_COLON, *FURTHER_RIB, *BEHIND_ALL, *STRIPES,
    *LINES_BELOW, *ODD_AND_EVEN, *STROKES, *AND_SO_ON, *BARS, *BY_SORT,
)  # fmt: skip


@pytest.mark.parametrize(("text", "rounds"), [pytest.param(*given, id=name) for name, *given in ALL])
def test_each_round_is_worked_as_often_as_it_is_told(text: str, rounds: list[str]) -> None:
    """A number of rounds is that of the list, the lines or the fabric it is told of."""
    assert words_of_rounds(read(f"Cast on 64.\n{text}", (64,), "en")) == rounds


def test_rounds_that_are_announced_and_not_told_are_asked_for() -> None:
    """`The following 2 rounds 5 times` with no rounds behind it is not worked as plain rounds."""
    reading = read("Cast on 64.\nWork the following 2 rounds 5 times:\nSmooth the edge.", (64,), "en")

    assert [finding.code for finding in reading.findings] == ["no_such_round"]


DIVIDED_ANEW = [
    (63, "21 sts on each needle.\nKnit 5 rounds. Now 16 sts on each needle, 15 on the fourth."),
    (
        66,
        "22 sts on each needle.\nRnd 1: *k9, k2tog* (60). Put 16 sts on each needle, the rest on the fourth.",
    ),
]


@pytest.mark.parametrize(("cast_on", "text"), DIVIDED_ANEW)
def test_stitches_may_be_divided_over_more_needles(cast_on: int, text: str) -> None:
    """Three needles of 16 and a fourth of 15 are 63 stitches: nothing is wrong."""
    assert not read(f"Cast on {cast_on}.\n{text}", (cast_on,), "en").findings


@pytest.mark.parametrize(
    ("text", "after"),
    [
        (
            "*k5, k2tog* around (72 sts). Work 2 rnds. *k4, k2tog* around (60 sts). Work 2 rnds.",
            [72] * 3 + [60] * 3,
        ),
        ("Inc 6 sts evenly next rnd (90 sts), work 12 rnds.", [90] * 13),
        ("Inc 6 sts evenly next rnd (90 sts), 12 rnds.", [90] * 13),
        ("Knit 6 rnds. Work 24 rnds.", [84] * 30),
        ("*k2, p2* around. Work 8 rnds.", [84] * 8),
        ("*k2, p2* around, 2 rounds. Work 10 rounds in all.", [84] * 11),
    ],
)
def test_rounds_told_by_their_number_alone_are_plain_behind_others(text: str, after: list[int]) -> None:
    """They shape nothing, and count on from those of a number; a rib told once is the first of them."""
    assert after_each_round(read(text, (84,))) == after


def test_a_dash_behind_a_bracket_parts_plain_rounds() -> None:
    """The bracket only says what the purled round is."""
    assert after_each_round(read("Knit 8 rnds – purl 1 rnd (fold line) – knit 8 rnds.", (84,))) == [84] * 17


def test_sections_told_behind_a_heading_are_each_worked() -> None:
    """Six of eighteen stitches."""
    text = "Dec: 6 sections of 18 sts. In each section ssk, knit to last 2 sts, k2tog."
    assert after_each_round(read(text, (108,))) == [96]


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        ("The brim is 24 rnds 2x2 rib.\nKnit 10 rnds.", 34),
        ("The band is 8 rnds of garter stitch.\nKnit 10 rnds.", 18),
        ("Work 12 rounds of 2x2 rib. The rib is 12 rounds.\nKnit 10 rnds.", 22),
    ],
)
def test_a_part_that_is_so_many_rounds_of_a_rib_is_worked(text: str, rounds: int) -> None:
    """What only says how many there are by now works none."""
    assert after_each_round(read(text, (84,))) == [84] * rounds


@pytest.mark.parametrize(
    ("line", "after"),
    [
        ("Knit 2 rnds. k2tog around = 30 sts. Work 2 rnds.", [60, 60, 30, 30, 30]),
        ("Work 1 rnd. p2tog around (30 sts). Work 2 rnds.", [60, 30, 30, 30]),
        # no sentence ends where short words have their full stop
        ("Work 2 rnds. k 2, p 2.", [60, 60]),
        ("Work 2 rnds. in moss st.", [60, 60]),
    ],
)
def test_a_decrease_behind_a_number_of_rounds_is_a_round_of_its_own(line: str, after: list[int]) -> None:
    reading = read(f"Cast on 60 sts. {line}", (60,), "en")

    assert errors(reading) == []
    assert after_each_round(reading) == after
