"""Crowns told in tables, by letters and by numbered paragraphs; markers counted up; sizes in pairs of words.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts, number_of_rounds, words_of_rounds

TWO_BY_TWO = [
    "Knit all sts together two by two = 8 sts.",
    "Knit all the stitches together 2 by 2. 8 sts",
    "Knit all stitches together, two and two: 8 sts",
    "Next round: knit 2 and 2 sts together = 8 sts.",
    "Knit all remaining sts together two by two (8 sts)",
    "Then knit all sts together in twos. 8 sts.",
    "On the last round knit all sts together in pairs = 8 sts.",
    "Knit together two by two all the way round = 8 sts.",
]


@pytest.mark.parametrize("line", TWO_BY_TWO)
def test_all_stitches_are_knit_together_two_by_two(line: str) -> None:
    """In whatever order it is told."""
    assert after_each_round(read(line, (16,))) == [8]


SIZES_IN_PAIRS = [
    ("Two sizes: Youth/Adult Small (Adult Medium/Large)", "Adult Medium/Large only", "Both sizes"),
    ("Sizes: Child/Teen (Adult/Large)", "Adult/Large only:", "Both sizes:"),
    ("To fit: Small/Medium (Large/X-Large)", "Large/X-Large only:", "Both sizes:"),
]


@pytest.mark.parametrize(("sizes", "larger", "both"), SIZES_IN_PAIRS)
def test_a_size_may_be_called_by_words_with_a_slash(sizes: str, larger: str, both: str) -> None:
    """One size is called by both words."""
    rounds = f"Rnd 1: knit.\n\n{larger}\nRnd 2: *K12, k2tog* around. 104 sts.\n{both}\nRnd 3: knit."
    text = f"{sizes}\nCO 96 (112) sts.\n{rounds}"
    assert counts(read(text, (96, 112))) == [[96], [112, 104]]


PLACED = [
    "Knit one more round and put a marker on after every 11 stitches. With the one at the start that makes eight.",
    "On the next round place a marker every 11 sts. There should be eight in all.",
    "Place a marker after every 11 sts, eight in all.",
    "Now place your markers, one after every 11 stitches. That makes 8 with the one you have.",
]


@pytest.mark.parametrize("placed", PLACED)
def test_how_many_markers_there_are_is_no_count_of_stitches(placed: str) -> None:
    """`That makes eight`."""
    text = f"{placed}\nDec rnd: *k to 2 sts before marker, k2tog, sm; rep from * to end. 80 sts."
    assert after_each_round(read(text, (88,)))[-1] == 80


def test_a_round_in_which_markers_are_placed_was_told_before() -> None:
    """`In round 28, place a marker` works no round of its own."""
    for sentence in (
        "In round 28, place a marker after every 8 sts.",
        "On round 28, place 6 markers, 8 sts apart.",
    ):
        assert number_of_rounds(read(f"Cast on 48 sts.\nRounds 1 to 28: knit. {sentence}", (48,))) == [28]


def test_markers_beside_that_of_the_round_are_one_fewer() -> None:
    """Three more markers with 24 stitches between them part 96 stitches into four, though 96 divide by three."""
    text = (
        "Set 1 marker at the beginning of the rnd and 3 more markers with 24 sts between each.\n"
        "Decrease on both sides of every marker: after the marker knit 1, ssk; knit until 3 sts remain before next "
        "marker, k2tog, k1. 8 sts decreased. Decrease like this on every 2nd round 5 times in total = 56 sts, then "
        "on every round 5 times = 16 sts."
    )
    assert counts(read(text, (96,))) == [[96, 88, 80, 72, 64, 56, 48, 40, 32, 24, 16]]


ONE_BY_ONE = [
    "Do those two rounds, one decrease and one plain, over and over until you're down to 64 stitches.",
    "Repeat these two rounds, a decrease round and a plain round, until 64 sts remain.",
    "Work these 2 rnds (one decrease, one plain) until 64 sts rem.",
    "Repeat these two rounds - one decrease, one plain - until 64 sts are left, having just worked a plain round.",
]


@pytest.mark.parametrize("again", ONE_BY_ONE)
def test_rounds_told_one_by_one_beside_their_number_are_those_rounds(again: str) -> None:
    """`Those two rounds, one decrease and one plain`."""
    dec = "Dec rnd: *k to 2 sts before marker, k2tog, sm; rep from * to end. 80 sts."
    text = f"Place a marker every 11 sts.\n{dec}\nKnit a round.\n{again}"
    assert counts(read(text, (88,))) == [[88, 80, 72, 64]]


MEANINGS = [
    '"Knit 2 together" means: put your needle through two stitches at once and knit them as if they were one.',
    'Now we make it smaller. "K2tog" means knit two stitches together.',
    'Don\'t panic. "Purl 2 together" just means the same from the other side.',
]


@pytest.mark.parametrize("meaning", MEANINGS)
def test_what_a_stitch_means_is_not_worked(meaning: str) -> None:
    """In a sentence of its own."""
    assert after_each_round(
        read(f"Cast on 48 sts.\n{meaning}\nRnd 1: *k6, k2tog* around. 42 sts", (48,))
    ) == [42]


def test_the_rounds_of_a_pattern_have_their_numbers() -> None:
    """`1st patt rnd`, `6th and 7th patt rnds`, `As 2nd`, `As 1st and 2nd`."""
    text = (
        "1st patt rnd *K1 B, k4 A; rep from * to end.\n2nd patt rnd *P1, k4; rep from * to end.\n"
        "3rd patt rnd With C, knit.\n4th patt rnd As 2nd.\n5th and 6th patt rnds As 1st and 2nd.\n"
        "Rep last 6 patt rnds once more."
    )
    words = words_of_rounds(read(text, (110,)))
    assert len(words) == 12
    assert words[1] == words[3] == words[5] == words[7]
    assert words[:6] == words[6:]


@pytest.mark.parametrize(
    "row", ["1 | {0} | {1}", "1       {0}        {1}", "1\t{0}\t{1}", "Rnd 1:   {0}     {1}"]
)
def test_a_row_of_a_table_has_a_cell_for_every_size(row: str) -> None:
    """Each with its stitches and their count."""
    cells = [("k5, k2tog (48)", "k6, k2tog (56)"), ("knit", "knit"), ("k4, k2tog (40)", "k5, k2tog (48)")]
    text = "\n".join(
        row.replace("1", str(number), 1).format(*cell) for number, cell in enumerate(cells, start=1)
    )
    assert counts(read(text, (56, 64))) == [[56, 48, 40], [64, 56, 48]]
    assert number_of_rounds(read(text, (56, 64))) == [3, 3]


@pytest.mark.parametrize("between", [" | ", "\t", "     "])
def test_a_dash_in_a_table_is_a_size_that_has_ended(between: str) -> None:
    """The counts of a row are told for each size; columns stand apart by bars, tabs or spaces."""
    text = (
        "Rnd | Baby | Child | Adult\n1 | k1, k2tog (16) | k2, k2tog (24) | k3, k2tog (32)\n"
        "2 | k2tog (8) | k1, k2tog (16) | k2, k2tog (24)\n3 | - | k2tog (8) | k1, k2tog (16)\n4 | – | - | k2tog (8)"
    )
    reading = read(text.replace(" | ", between), (24, 32, 40))
    assert counts(reading) == [[24, 16, 8], [32, 24, 16, 8], [40, 32, 24, 16, 8]]
    assert [line.printed for line in reading.lines if line.printed] == [
        (16, 24, 32),
        (8, 16, 24),
        (None, 8, 16),
        (None, None, 8),
    ]


BY_LETTER = """D (decrease): knit to 2 sts before the marker, k2tog, sm; do the same at every marker, six in all.
P (plain): knit.

Round   Sort   Stitches
 1      D      42
 2      P      42
 3      D      36"""
BEHIND_NUMBER = """D (decrease round): *knit to 2 sts before the marker, k2tog, sm; rep from * to end.
P (plain round): knit.
Round 1: D (42)
Round 2: P (42)
Round 3: D (36)"""
IN_TABLE = """Round A: *knit to 2 sts before the marker, k2tog, sm; rep from * to end.
Round B: knit.

Rnd   Work   Sts
1     A      42
2     B      42
3     A      36"""
BY_NAME = """Decrease round: *knit to 2 sts before the marker, k2tog, sm; rep from * to end.
Plain round: knit.
Round 1: decrease round. 42
Round 2: plain round. 42
Round 3: dec rnd. 36"""


@pytest.mark.parametrize("text", [BY_LETTER, BEHIND_NUMBER, IN_TABLE, BY_NAME])
def test_rounds_are_worked_where_their_letter_stands(text: str) -> None:
    """They are only told before."""
    assert after_each_round(read(f"Place a marker every 8 sts.\n{text}", (48,))) == [42, 42, 36]


def test_a_paragraph_is_worked_again_by_its_number() -> None:
    """`Repeat 3.2 and 3.3`."""
    text = (
        "3.1 Place a marker every 11 sts.\n3.2 Decrease round: *knit to 2 sts before M, k2tog, SM; repeat from * to "
        "end [8 sts decreased].\n3.3 Knit 1 round.\n3.4 Repeat 3.2 and 3.3 until 56 sts remain.\n"
        "3.5 Repeat 3.2 every round until 8 sts remain."
    )
    assert after_each_round(read(text, (88,))) == [80, 80, 72, 72, 64, 64, 56, 56, 48, 40, 32, 24, 16, 8]


BELOW = [
    "Then it's decrease rounds only, no more plain rounds:",
    "From now on every round is a decrease round, no plain rounds in between:",
    "Now decrease rounds only:",
    "No more plain rounds now. Just decreases:",
]


@pytest.mark.parametrize("line", BELOW)
def test_that_only_decrease_rounds_are_told_below_works_none(line: str) -> None:
    """They stand in the lines below."""
    below = "knit 6, knit 2 together - 56\nknit 5, knit 2 together - 48"
    text = f"Rnd 1: *knit 7, knit 2 together* around. 64\n{line}\n{below}"
    assert after_each_round(read(text, (72,))) == [64, 56, 48]


IN_TURN = [
    ("Rnds 1-6: purl 1 rnd, knit 1 rnd (3 ridges).", ["purl", "knit"] * 3),
    ("Rnds 1-6: [purl 1 rnd, knit 1 rnd] 3 times.", ["purl", "knit"] * 3),
    ("Rounds 1-6: purl 1 round, knit 1 round alternately.", ["purl", "knit"] * 3),
    ("Rnds 1-6: purl 3 rnds, knit 3 rnds.", ["purl"] * 3 + ["knit"] * 3),
]


@pytest.mark.parametrize(("line", "rounds"), IN_TURN)
def test_rounds_in_turn_are_as_many_as_their_numbers(line: str, rounds: list[str]) -> None:
    """Each sort is worked in its turn, and not as often as there are numbers."""
    assert words_of_rounds(read(f"{line}\nRnd 7: knit.", (96,))) == [*rounds, "knit"]


SO_FAR = [
    "Rounds 1-8: knit. Repeat these eight rounds four more times. 40 rounds.",
    "Work 4 rounds in rib. Knit 36 rounds. 40 rounds in all.",
]


@pytest.mark.parametrize("text", SO_FAR)
def test_how_many_rounds_there_are_by_now_works_none(text: str) -> None:
    """`40 rounds in all`."""
    assert number_of_rounds(read(f"Cast on 120 sts.\n{text}\nNow [k10, k2tog] x 10 (110)", (120,))) == [41]


ACROSS = [
    "Work Rnds 1-24 of chart, repeating the 8-st motif 13 times around.",
    "Work Rnds 1-24 of Chart A, working the 8-st repeat 13 times around.",
    "Work the 24 rounds of the chart; repeat the 8-st pattern 13 times.",
]


@pytest.mark.parametrize("line", ACROSS)
def test_a_motif_is_repeated_around_and_not_upwards(line: str) -> None:
    """`The 8-st motif 13 times around`."""
    assert number_of_rounds(read(f"CO 104 sts.\n{line}", (104,))) == [24]


def test_stitches_of_each_wedge_are_counted_together() -> None:
    """`Until each wedge has 6 stitches`; a step that is left out is not worked."""
    text = (
        "1. Put a marker after every 12 stitches.\n2. Knit to the last two stitches before each marker and knit them "
        "together. 88 are left.\n3. Knit one round.\n4. Repeat steps 2 and 3 until each wedge has 6 stitches.\n"
        "5. From now on leave out step 3 and decrease in every round until each wedge has 1 stitch."
    )
    assert counts(read(text, (96,))) == [[96, 88, 80, 72, 64, 56, 48, 40, 32, 24, 16, 8]]


def test_what_heads_the_next_line_is_no_abbreviation() -> None:
    """`Tension:` behind a list of abbreviations."""
    text = (
        "Abbreviations: K = knit; P = purl\nTension: 26 sts to 10 cm\nCast on 72 sts.\nRnd 1: K1, P1 around."
    )
    assert [finding.code for finding in read(text, (72,)).findings] == []


def test_stitches_spread_evenly_so_many_times_are_so_many_rounds() -> None:
    """`Dec 8 sts evenly every other rnd 5 times (56 sts), then every rnd 6 times (8 sts)`."""
    for text in (
        "Dec 8 sts evenly every other rnd 5 times (56 sts), then every rnd 6 times (8 sts).",
        "Decrease 8 sts evenly on every 2nd round 5 times = 56 sts, then on every round 6 times = 8 sts.",
    ):
        assert counts(read(text, (96,))) == [[96, 88, 80, 72, 64, 56, 48, 40, 32, 24, 16, 8]]


AROUND = [
    "Round 1: Knit the first ten stitches, then knit two stitches together. Continue this pattern around the hat. (88)",
    "Round 1: Knit 10, k2tog. Continue this pattern around the hat (88).",
    "Round 1: Knit 10, k2tog. Keep repeating this pattern all the way around (88).",
    "Round 1 – 8 decreases – 88 stitches: k10, k2tog.",
]


@pytest.mark.parametrize("line", AROUND)
def test_a_round_goes_on_around_as_it_begins(line: str) -> None:
    """`Continue this pattern around the hat` is the same round."""
    assert after_each_round(read(f"{line}\nRound 2 – no decreases – 88 stitches: knit.", (96,))) == [88, 88]


SAME_AT_EVERY_MARKER = [
    "Next round: knit to two before the marker, k2tog, slip the marker. Same again at every marker. (88)",
    "Next round: knit to two before the marker, k2tog, slip the marker. The same at each marker. 88 sts.",
    "Next round: knit to two before the marker, k2tog. And the same before every marker. 88 sts.",
]


@pytest.mark.parametrize("line", SAME_AT_EVERY_MARKER)
def test_the_same_at_every_marker_is_one_round(line: str) -> None:
    """In a sentence of its own, with its count; so is a decrease told again, which ends with its line."""
    below = "Knit one round plain.\nDecrease again. (80)\nFrom now on decrease on every round until 64 sts are left."
    text = f"Put a marker after every 12 stitches.\n{line}\n{below}"
    assert after_each_round(read(text, (96,))) == [88, 88, 80, 72, 64]


PACES = [
    "From here the decreases come in every round; one stitch less between them each time. Carry on till 10 are left.",
    "Now decrease in every round. Go on until 10 sts remain.",
    "The decreases are now made in every round. Continue until 10 sts remain.",
    "Now dec 10 sts in every round. Continue until 10 sts remain.",
    "Dec 10 sts every rnd, with 1 st less between decreases each time. Go on until 10 sts remain.",
]


@pytest.mark.parametrize("line", PACES)
def test_the_rounds_on_which_it_decreases_hold_for_the_next_sentence(line: str) -> None:
    """`The decreases come in every round. Carry on till 10 sts are left.`."""
    text = f"Round 1. (K5, K2tog) ten times. 60 sts.\nRounds 2, 3. Knit.\n{line}"
    assert after_each_round(read(text, (70,))) == [60, 60, 60, 50, 40, 30, 20, 10]


HEADINGS = [
    ("Sizes: A (B)\nCast on 100 (110).", "Crown for Size A:", "Crown for Size B:"),
    ("Sizes: Small (Large)\nCast on 100 (110).", "Crown - size Small", "Crown - size Large"),
    ("Sizes: Small (Large)\nCast on 100 (110).", "Crown (Small)", "Crown (Large)"),
    ("Sizes: Small (Large)\nCast on 100 (110).", "Small crown:", "Large crown:"),
    ("Sizes: Small (Large)\nCast on 100 (110).", "Decreases, small size\n", "Decreases, large size\n"),
    ("Sizes: Small (Large)\nCast on 100 (110).", "Shape crown for Small only", "Shape crown for Large only"),
    ("Size A: cast on 100. Size B: cast on 110.", "Size A", "Size B"),
]


@pytest.mark.parametrize(("cast_on", "smaller", "larger"), HEADINGS)
def test_a_part_may_be_headed_by_its_size(cast_on: str, smaller: str, larger: str) -> None:
    """The rounds below it are those of that size, with numbers of their own."""
    text = (
        f"{cast_on}\n\n{smaller}\nRnd 1 *k8, k2tog* 10x (90)\nRnd 2 k\n\n"
        f"{larger}\nRnd 1 *k9, k2tog* 10x (100)\nRnd 2 k\n"
    )
    reading = read(text, (100, 110))
    assert counts(reading) == [[100, 90], [110, 100]]
    assert number_of_rounds(reading) == [2, 2]


def test_a_part_headed_by_all_sizes_is_for_all() -> None:
    """`Child and adult crown:`."""
    text = (
        "Child (Adult)\nCast on 80 (88).\nAdult crown:\nRound 1: *k9, k2tog; rep from * (80)\n"
        "Child and adult crown:\nRound 2: *k8, k2tog; rep from * (72)"
    )
    assert counts(read(text, (80, 88))) == [[80, 72], [88, 80, 72]]


CALLED_AT_CAST_ON = [
    ("Cast on: Robin 80, Wren 88.", "Wren only"),
    ("Cast on 80 sts for the Robin, 88 sts for the Wren.", "Wren only"),
    ("Child's hat: cast on 80 sts. Adult's hat: cast on 88 sts.", "Adult's hat only"),
]


@pytest.mark.parametrize(("cast_on", "larger"), CALLED_AT_CAST_ON)
def test_sizes_are_called_as_where_they_cast_on(cast_on: str, larger: str) -> None:
    """The first named is the first size."""
    text = f"{cast_on}\nRnds 1-10: rib.\n{larger}: *k9, k2tog* around (80).\nBoth: *k8, k2tog* around (72)."
    assert counts(read(text, (80, 88))) == [[80, 72], [88, 80, 72]]


LETTERS_BEFORE_NUMBERS = [
    "Cast on: S 80, M 88, L 96 sts.\nKnit S 10, M 12, L 14 rounds.",
    "Cast on S: 80 sts, M: 88 sts, L: 96 sts.\nKnit S: 10, M: 12, L: 14 rounds.",
]


@pytest.mark.parametrize("begin", LETTERS_BEFORE_NUMBERS)
def test_the_letters_of_sizes_may_stand_before_their_numbers(begin: str) -> None:
    """`S 80, M 88, L 96`."""
    rounds = (
        "L only: *k10, k2tog* around (88).\nM and L: *k9, k2tog* around (80).\nAll: *k8, k2tog* around (72)."
    )
    text = f"{begin}\n{rounds}"
    reading = read(text, (80, 88, 96))
    assert counts(reading) == [[80, 72], [88, 80, 72], [96, 88, 80, 72]]
    assert number_of_rounds(reading) == [11, 14, 17]


COUNTED_DOWN = [
    "then no more plain rnds: 40 (50), 30 (40), 20 (30), 10 (20).",
    "no plain rounds any more: 40 (50), 30 (40), 20 (30), 10 (20) sts.",
    "then decrease every rnd: 40 (50), 30 (40), 20 (30), 10 (20) sts.",
]


@pytest.mark.parametrize("line", COUNTED_DOWN)
def test_a_crown_goes_on_by_the_counts_of_all_its_sizes(line: str) -> None:
    """Each has a list of its own."""
    reading = read(f"[k4 (5), k2tog] around = 50 (60)\nplain\n{line}", (60, 70))
    assert counts(reading) == [[60, 50, 40, 30, 20, 10], [70, 60, 50, 40, 30, 20]]
    assert number_of_rounds(reading) == [6, 6]


def test_a_dash_behind_the_number_of_a_round_is_no_cell() -> None:
    """`Round 1   -   k6 (7), k2tog` is for both sizes."""
    text = "Round 1   -   k6 (7), k2tog; rep to end.\nRound 2   -   knit."
    assert counts(read(text, (64, 72))) == [[64, 56], [72, 64]]


@pytest.mark.parametrize("letter", "ABKLPS")
def test_a_round_may_have_any_letter_before_a_colon(letter: str) -> None:
    """`Round K:` is the eleventh of a list by letters, and no knit stitch."""
    assert after_each_round(read(f"Round {letter}: (Knit 1, knit 2 together) 8 times. (16)", (24,))) == [16]
