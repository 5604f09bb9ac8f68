"""Where markers are placed, rounds told needle by needle, rounds called by letters. The counts are worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts, number_of_rounds, worked

PLACED = [
    "Next rnd: *K24, pm; rep from * 3 more times. 4 sections of 24 sts.",
    "Next rnd: (K24, pm) 4 times.",
    "Next rnd: *K24, place marker; rep from * around.",
    "On the next round I knit, putting a marker after every 24 sts.",
    "Knit 1 round, placing a marker after every 24th st.",
    "Knit one round, placing a marker after every 24 sts, and the marker at the beginning is one of the 4.",
]


@pytest.mark.parametrize("placed", PLACED)
def test_the_sections_are_those_between_the_markers_placed(placed: str) -> None:
    """Four of them, and not the eight that are usual."""
    text = f"{placed}\nRnd 1: *K1, ssk, knit to 3 sts before marker, k2tog, k1, sm; rep from * to end.\nRnd 2: Knit."
    assert after_each_round(read(text, (96,))) == [96, 88, 88]


@pytest.mark.parametrize(
    ("words", "after"),
    [
        ("k2tog at each marker", 78),
        ("ssk at each of the 6 markers", 78),
        ("knit, and cdd at each marked st", 72),
        ("k3tog at every marker", 72),
    ],
)
def test_a_decrease_at_each_marker_is_worked_once_in_every_section(words: str, after: int) -> None:
    """Six markers in 84 stitches."""
    assert after_each_round(read(f"Place 6 markers.\nRnd 1: {words}. {after} sts", (84,))) == [after]


SECTIONS = "You now have 8 sections of 11 sts."


@pytest.mark.parametrize(
    "sentence", [SECTIONS, "8 sections of 11 sts each.", "Each of the 8 sections has 11 sts."]
)
def test_the_stitches_of_a_section_are_not_the_count(sentence: str) -> None:
    """`8 sections of 11 sts`."""
    assert after_each_round(read(f"Rnd 1: *K11, pm; rep from * to end. {sentence}", (88,))) == [88]


@pytest.mark.parametrize("bracket", ["(-8 sts)", "[–8 sts]", "(-8)", "(8 sts dec)"])
def test_a_minus_in_a_bracket_is_what_goes(bracket: str) -> None:
    """Markers were placed, and only what goes says nothing of the sections."""
    text = f"Rnd 1: *K24, pm; rep from * to end.\nRnd 2: *Ssk, k to 2 sts before m, k2tog; rep from * to end. {bracket}"
    assert after_each_round(read(text, (96,))) == [96, 88]


TO_MARKERS = [
    "*K to the last 2 sts before each marker, k2tog; rep from * around.",
    "Knit to the last two stitches before each marker, knit those two together.",
    "K to 2 sts before first marker, k2tog, [k to 2 sts before next marker, k2tog] 4 times.",
    "K to 2 sts before marker, k2tog, *sm, k to 2 sts before next marker, k2tog; rep from * to end of round.",
]


@pytest.mark.parametrize("round_", TO_MARKERS)
def test_a_decrease_before_every_marker(round_: str) -> None:
    """The first told apart, or all together."""
    text = f"Place a marker after every 16th st.\nRnd 1: {round_} 75 sts.\nRnd 2: knit."
    assert after_each_round(read(text, (80,))) == [75, 75]


BY_NEEDLES = [
    (
        "1st round:\n1st and 3rd needle: knit to the last 3 stitches, k2 tog, k1.\n"
        "2nd and 4th needle: k1, slip 1, k1, pass slipped stitch over, knit to the end."
    ),
    (
        "Decrease round: 1st and 3rd needle, knit to last 3 stitches, k2tog, k1; "
        "2nd and 4th needle, k1, ssk, knit to end."
    ),
    "Dec rnd: On the 1st and 3rd needles: k to last 3 sts, k2tog, k1. On the 2nd and 4th needles: k1, ssk, k to end.",
    "Next round: Needles 1 and 3: k to last 3 sts, k2tog, k1; Needles 2 and 4: k1, ssk, k to end.",
    (
        "Round 1:\n1st needle: k to last 3 sts, k2tog, k1.\n2nd needle: k1, ssk, k to end.\n"
        "3rd needle: as 1st needle.\n4th needle: as 2nd needle."
    ),
]


@pytest.mark.parametrize("text", BY_NEEDLES)
def test_needles_are_told_by_their_order(text: str) -> None:
    """Two by two or one by one: one stitch goes on each of four needles."""
    assert after_each_round(read(text, (64,))) == [60]


def test_one_round_of_two_is_worked_on_alone() -> None:
    """`Thereafter knit the 1st round only, until 2 stitches are left on each needle`."""
    first = "1st round: *knit to last 2 sts on needle, k2tog; rep on all 4 needles."
    both = "Repeat these two rounds until 10 sts remain on each needle."
    for alone in ("Thereafter knit the 1st round only, until", "Now repeat only the 1st round until"):
        reading = read(f"{first}\n2nd round: knit.\n{both} {alone} 2 sts remain on each needle.", (80,))
        assert [size[-1] for size in counts(reading)] == [8]
        assert number_of_rounds(reading) == [28]


LETTERS = [
    (
        "  a) (k to 2 sts before marker, k2tog) five times.\n  b) knit.\nWork a) and b) ten times in all: 50 sts.\n"
        "From now on work a) on every round, eight times: 10 sts."
    ),
    (
        "Round A: *k to 2 sts before the marker, k2tog*, 5 times. That takes away 5 sts.\nRound B: just knit.\n"
        "I did A then B ten times in all, which brought me to 50 sts.\n"
        "After that I did round A only, every round, 8 times = 10 sts."
    ),
    (
        "A: *k to 2 sts before marker, k2tog; rep from * around. (5 sts decreased)\nB: knit.\n"
        "Do A, then B, ten times = 50 sts.\nNow do only A: 8 times = 10 sts."
    ),
]


@pytest.mark.parametrize("text", LETTERS)
def test_rounds_are_called_by_letters(text: str) -> None:
    """With a bracket, a colon, or as `Round A`; what is told once is not worked twice."""
    reading = read(f"Place a marker after every 20th st.\n{text}", (100,))
    assert [size[-1] for size in counts(reading)] == [10]
    assert number_of_rounds(reading) == [28]


@pytest.mark.parametrize(
    "count",
    [
        "4 sts marked.",
        "4 sts are now marked.",
        "4 stitches have been marked.",
        "4 stitches now have a marker.",
        "4 marked sts.",
        "4 sts marked, 96 sts in all.",
    ],
)
def test_the_stitches_that_are_marked_are_not_the_count(count: str) -> None:
    """Each quarter has a stitch in its middle over which two are decreased."""
    text = (
        "Set-up rnd: *K11, k1 and hang a locking marker in this st, k12; rep from * 3 more times. "
        f"{count}\nDec rnd: *Knit to 1 st before marked st, CDD; rep from * 3 more times, knit to end. 88 sts."
    )
    assert after_each_round(read(text, (96,))) == [96, 88]


def test_a_comma_parts_a_count_from_what_is_marked() -> None:
    """`97 sts, marked with a thread` is a count, and a wrong one."""
    assert [fault.code for fault in errors(read("Knit 1 round. 97 sts, marked with a thread.", (96,)))] == [
        "count_differs"
    ]


@pytest.mark.parametrize(
    "plain",
    [
        "*P1, k to next purl st; rep from * to end.",
        "*P1, knit to the purl st; rep from * around.",
        "*P1, knit up to the next purl stitch*.",
        "*P1, knit to next purl column; rep from * to end.",
        "*P1, k to next p st; rep from * around.",
    ],
)
def test_a_purl_column_parts_the_sections_as_a_marker_does(plain: str) -> None:
    """The sections are the repeats of the decrease round before."""
    text = f"Rnd 1: *P1, k2tog, k11; rep from * to end.\nRnd 2: {plain}"
    assert worked(read(text, (84,)))[1] == (78, 78, "*p1, k12; rep from * around")


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        ("Place a marker every 12 sts while knitting the next rnd – 7 sections.", 1),
        ("While knitting the next rnd, place a marker every 12 sts.", 1),
        ("Place 7 markers, one every 12 sts, whilst knitting one rnd.", 1),
        ("Place markers while knitting 2 rnds.", 2),
        ("Keep the yarn loose while knitting.", 0),
    ],
)
def test_a_round_knitted_while_markers_are_placed_is_a_round(words: str, plain: int) -> None:
    """It stands before the first round of decreases."""
    reading = read(f"Cast on 84 sts.\n{words}\nDec rnd: *k10, k2tog* around. 77 sts", (84,))
    assert number_of_rounds(reading) == [plain + 1]


@pytest.mark.parametrize("work", ["cdd", "k3tog", "cdd, knit to end", "k3tog; knit to end of rnd"])
def test_a_double_decrease_is_worked_over_every_marked_stitch(work: str) -> None:
    """What is left behind the last is knitted, whether that is told or not."""
    text = f"Mark 8 sts.\nDec rnd: Knit to 1 st before each marked st, {work} (88 sts).\nKnit 1 rnd."
    assert after_each_round(read(text, (104,))) == [88, 88]
