"""Ways of saying a round that many other writers have, each text counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import counts

DECREASES = "*k to 2 sts before m, k2tog, sm; rep from * around"
CROWN = "Rnd 1: *k3, k2tog* around. 32 sts.\n"

TEXTS = [
    (
        "rounds told under a name, then worked",
        f"Dec rnd: {DECREASES}.\nWork dec rnd, then knit 2 rnds. Rep these 3 rnds once more. 24 sts.",
        (40, 32, 24),
        6,
    ),
    (
        "a crown that goes on in every round, its counts in a row",
        f"{CROWN}From now on decrease on every round: 24, 16, and finally 8 sts.",
        (40, 32, 24, 16, 8),
        4,
    ),
    (
        "decrease rounds by their number",
        f"{CROWN}Work 3 decrease rounds: 24, 16, then 8 sts.",
        (40, 32, 24, 16, 8),
        4,
    ),
    (
        "no plain rounds from here",
        f"{CROWN}Rnd 2: knit.\nLeave out the plain rounds and carry on decreasing until only 8 are left.",
        (40, 32, 24, 16, 8),
        None,
    ),
    (
        "numbered rounds to a count",
        f"{CROWN}Rnds 2 - 4: dec every rnd as set - 8 sts after rnd 4.",
        (40, 32, 24, 16, 8),
        4,
    ),
    (
        "the last stitches of every part",
        "Knit one round in which the last two sts of each section are knitted together (32 sts).",
        (40, 32),
        1,
    ),
    (
        "the same at every marker",
        "Knit until 2 sts are left before the marker, k2tog; do the same at every marker. 32 sts.",
        (40, 32),
        1,
    ),
    (
        "from marker to marker",
        "K2tog, k to 2 sts before m, ssk, sm, k2tog, k to last 2 sts, ssk",
        (40, 36),
        1,
    ),
    (
        "needles that work the same",
        "Needle 1: *K3, k2tog; rep from * to end of needle. Needle 2: same.",
        (40, 32),
        1,
    ),
    (
        "sentences that are one round",
        "Knit 3 stitches. Knit the next 2 as if they were one. Keep repeating to the marker. (32)",
        (40, 32),
        1,
    ),
    (
        "Roman numerals",
        "I. Knit 3, knit two together. Eight times: 32.\nII. Knit.\nIII. Knit two together throughout: 16.",
        (40, 32, 16),
        3,
    ),
    ("a star as times", "(k3, k2tog)*8 =32, knit rnd\nk2tog*16 =16", (40, 32, 16), 3),
    (
        "a round named by its stitch",
        "Round with k2tog: *k3, k2tog* (32)\nssk again: *ssk, k2* (24)",
        (40, 32, 24),
        2,
    ),
    ("numbers alone", "Three, two together, to the end: 32 stitches.", (40, 32), 1),
    ("a minus before the decreases", "Rnd 1: *k3, k2tog* around. -8 sts", (40, 32), 1),
    (
        "what every other round is",
        "Rnd 1: *k3, k2tog* (32)\nRnd 3: *k2, k2tog* (24)\nKnit all other rnds.",
        (40, 32, 24),
        3,
    ),
    (
        "rounds in turn, counted in a bracket",
        "Knit a round, purl a round, till there are 5 ridges (10 rounds).",
        (40,),
        10,
    ),
    (
        "all rounds counted until they are done",
        "Rnd 1: purl.\nRnd 2: knit.\nRepeat these two rounds until you have done 12 rounds in all.",
        (40,),
        12,
    ),
    (
        "every round, told before it is worked",
        "Every round: *k1, p1; rep from *.\nWork 10 rounds thus.",
        (40,),
        10,
    ),
    (
        "decrease rounds numbered with the others",
        "Dec Rnd 1: *k3, k2tog* [32]\nRnd 2: k.\nDec Rnd 3: *k2, k2tog* [24]",
        (40, 32, 24),
        3,
    ),
    ("a label with others in a bracket", "1st rnd: k\n2nd rnd (& 4th): p\n3rd rnd: k\n5th rnd: k", (40,), 5),
    ("a count before the work", "With 40 sts: *k3, k2tog*; now you have 32.", (40, 32), 1),
    (
        "what is left of a list behind strokes",
        "*k3, k2tog* 32 // knit 1 round // *k2, k2tog* 24",
        (40, 32, 24),
        3,
    ),
    (
        "a table with semicolons",
        "rnd;what;sts\n1-4;k2 p2;48\n5-6;knit;48\n7;k6 k2tog (6x);42\n8;knit;42\n9;k5 k2tog (6x);36",
        (48, 42, 36),
        9,
    ),
    (
        "a stitch parted from its number by the end of the line",
        "1st round.—* K. 3, sl. 1, k. 2 tog., p.s.s.o., k.\n2; rep. from * 7 times more. 48 sts.",
        (64, 48),
        1,
    ),
    (
        "rounds without shaping, in a narrow column",
        "Change to No. 10 needles and knit 6 rounds\nwithout shaping.\n\nK. 2 tog. all round. (16 sts.)",
        (32, 16),
        7,
    ),
    (
        "a number of rounds first, and then of another fabric",
        "4 rounds in ribs 1/1, after which 6 rounds in stocking stitch.\nK2tog around. 16 sts",
        (32, 16),
        11,
    ),
    (
        "rounds that are without",
        (
            "Knit 6, 2 together, repeat, 42 stitches, 2 rounds without narrowing.\n"
            "Knit 5, 2 together, repeat, 36 stitches, 1 round without."
        ),
        (48, 42, 36),
        5,
    ),
    (
        "plain rounds for some rounds behind a rib",
        "1x1 rib 8 rnds, sts straight for 12 rnds\nk2tog around -> 16",
        (32, 16),
        21,
    ),
    ("rounds by their colours", "Knit 3 rounds light, 3 rounds dark.\nK2tog around. 16 sts", (32, 16), 7),
    (
        "so down, with a plain round between",
        (
            "*K8, k2tog* around. 72 sts\nKnit.\n*K7, k2tog* around. 64 sts\nKnit.\n"
            "And so down, always a plain round between, till I come to 40 stitches."
        ),
        (80, 72, 64, 56, 48, 40),
        9,
    ),
]


@pytest.mark.parametrize(
    ("text", "wanted", "rounds"), [row[1:] for row in TEXTS], ids=[row[0] for row in TEXTS]
)
def test_it_is_read_as_it_is_meant(text: str, wanted: tuple[int, ...], rounds: int | None) -> None:
    """Nothing is called wrong, and the counts come out."""
    reading = read(text, (wanted[0],))

    assert counts(reading) == [list(wanted)]
    assert rounds in (None, len(reading.rounds[0]))


def test_words_behind_the_closing_are_no_work() -> None:
    """Numbers in greetings are no counts of the hat."""
    reading = read(
        "Rnd 1: *k3, k2tog* around. 32 sts.\nThread the yarn through all sts.\nWe have 6 caps so far.", (40,)
    )

    assert not errors(reading)


def test_a_crown_that_is_told_on_and_not_read_is_said() -> None:
    """Words that lead on to a count that is not reached are no prose."""
    reading = read(
        "Rnd 1: *k3, k2tog* around. 32 sts.\nBlobble on every round with decreases until 5 sts.", (40,)
    )

    assert [finding for finding in reading.findings if finding.line == 2]


@pytest.mark.parametrize(
    "words", ['"Every fourth", 24. "Every third", 16.', "Twiddle the lot, 16 stitch.", "Reduce all. 16 left"]
)
def test_words_that_print_a_count_no_round_leaves_are_said(words: str) -> None:
    """A count printed below the last and never reached tells that work was passed over."""
    reading = read(f"Rnd 1: *k3, k2tog* around. 32 sts.\n{words}", (40,))

    assert reading.rounds[0][-1].after == 16 or 2 in [finding.line for finding in errors(reading)]


@pytest.mark.parametrize(
    "words",
    [
        "Step 8. Show it to me.",
        "Bag them by size, it saves me 3 hours.",
        "Put 16 sts on each needle and bind off.",
    ],
)
def test_other_numbers_at_the_end_are_no_counts(words: str) -> None:
    """Steps, hours and stitches on each needle are nothing that was left out."""
    reading = read(f"Rnd 1: *k3, k2tog* around. 32 sts.\n{words}", (40,))

    assert not errors(reading)
