"""What ordinary print says in passing: headings that name a fabric, sizes in words, rounds in turn, rounds quoted.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts, number_of_rounds

IN_TURN = "Rounds 1-6: Knit one round, purl one round, three times.\nRound 7: Knit."
PATTERN_SIZE = (
    "Cable pattern (8-st rep, 2 rnds)\n"
    "Change to larger needles.\n"
    "Rnd 1: *k6, p2; rep from * around.\n"
    "Rnd 2: *k6, p2; rep from * around."
)
HEADINGS = (
    "2. The rib.\n"
    "Knit 2, purl 2, all the way round. Do this for 3 rounds.\n"
    "3. The straight part.\n"
    "Knit 2 rounds."
)
IN_WORDS = (
    "Cast on 96 (108, 120) sts.\n"
    "Rnd 1: *k14 (16, 18), k2tog; rep from * around. 90 (102, 114) sts\n"
    "Rnd 2: *k13 (15, 17), k2tog; rep from * around. 84 (96, 108) sts\n"
    "Rnds 3-4: knit.\n"
    "Repeat Rnds 3-4 one (two, three) more times."
)
TABLE = "Rnd | Work | Size 1 | Size 2\n1 | *k9 (10), k2tog | 80 | 88\n2 | knit | 80 | 88"
OR_LISTED = (
    "I put them in this order: child, lady, gentleman.\n"
    "Cast on 80, 90 or 100 stitches.\n"
    "Gentleman only: Knit 8, knit 2 together, to the end of the round. 90 stitches."
)
NEEDLES = (
    "Divide onto 4 needles, 6 on each.\n"
    "Round A: on every needle knit 2 together at the beginning and knit 2 together at the end.\n"
    "Round B: knit.\n"
    "Work A and B in turn until 2 stitches are left on each needle, finishing with B."
)
SO_ON_EACH = (
    "Decreasing round: knit to the last two on a needle and knit them together, and so on each of the four needles. "
    "That leaves 68."
)
QUOTED = (
    "Round 1: *K3, k2tog* 6 times.\n"
    "Rounds 2 to 4: Keep decreasing in this way on every round. You start with *K2, k2tog* and end with *k2tog*."
)
QUOTED_BY_NUMBER = (
    "Round 1: [K3, k2tog] 6 times.\n"
    "Rounds 2-4: Decrease every round now. Knit one less stitch before the k2tog each time, so Round 2 is "
    "[K2, k2tog] 6 times and Round 4 is just k2tog 6 times."
)
CHART = (
    "Chart A (in words)\nRnd 1: *k6, p2; rep from * around.\nRnd 2: knit.\nWork Chart A six times (12 rnds)."
)
DEC_ROUNDS = (
    "8 markers, 8 sts apart\nDec rnd: k to 2 sts before each marker, k2tog. 56\nk 1 rnd\ndec rnd x3 (32)"
)
ONE_SIZE = "Rnd 1: knit.\nRnd 2 (large only): *k5, k2tog*\n48"

ADULT_ONLY = (
    "Cast on 72 (84) stitches.\n"
    "Next round: *k1 (2), k2tog; repeat from * to end. 48 (63) stitches.\n"
    "Adult size only: *k1, k2tog; repeat from * to end. 42 stitches.\n"
    "Both sizes: k2tog to end."
)
CHILD_ONLY = (
    "Cast on 84 (72) stitches.\n"
    "Next round: *k1, k2tog; repeat from * to end. 56 (48) stitches.\n"
    "Child size only: *k4, k2tog; repeat from * to end. 40 stitches.\n"
    "Both sizes: k2tog to end."
)
DEC_ROUND_ADULT = (
    "Cast on 20 (30) sts.\n"
    "Dec rnd 1, Adult only: *K1, k2tog; rep from * to end. 20 sts\n"
    "Both sizes: K2tog around. 10 sts"
)
MONTHS = (
    "SIZES\n3 (6, 12) months\n\n"
    "Cast on 24 (32, 40) sts.\n"
    "6 and 12 months only:\n"
    "Next rnd: *K2 (3), k2tog; rep from * around. 24 (32) sts.\n"
    "12 months only:\n"
    "Next rnd: *K2, k2tog; rep from * around. 24 sts.\n"
    "All sizes:\n"
    "Next rnd: K2tog around. 12 sts."
)
FEWER = (
    "Round 1. Knit 2, knit 2 together. Repeat to the end. 24 stitches.\n"
    "Keep going until you have 8 stitches left. Each time, knit one stitch fewer before you knit 2 together."
)
FINISHING = (
    "Place 4 markers.\n"
    "Round 1: *ssk, knit to 2 stitches before marker, k2tog, slip marker* four times. 24 stitches.\n"
    "Round 2: knit.\n"
    "Keep repeating rounds 1 and 2 until you have 16 stitches, finishing with a round 2."
)
FINISH = (
    "Place 4 markers.\n"
    "5. Decrease round: *ssk, knit to 2 sts before the marker, k2tog. Repeat from * in each section. 24 sts.\n"
    "6. Knit 1 round.\n"
    "7. Repeat 5 and 6 until you have 16 stitches. Finish with a knit round."
)
IN_ALL_SECTIONS = (
    "Step 5. Knit 11, place marker. Repeat to the end. That's 6 sections.\n"
    "Step 6. Ssk, then knit to the next marker. Do this in all 6 sections. 60 stitches."
)

TEXTS = [
    ("rounds in turn under a range", IN_TURN, [60], [[60] * 7]),
    ("the size of a pattern in its heading", PATTERN_SIZE, [16], [[16, 16]]),
    ("a fabric as heading", "Rib.  Knit 1, purl 1, 3 rounds.\nKnit 1 round.", [20], [[20] * 4]),
    ("numbered headings", HEADINGS, [20], [[20] * 5]),
    (
        "sizes in words",
        IN_WORDS,
        [96, 108, 120],
        [[90, *[84] * 5], [102, *[96] * 7], [114, *[108] * 9]],
    ),
    ("a column for each size", TABLE, [88, 96], [[80, 80], [88, 88]]),
    ("sizes with or, named in order", OR_LISTED, [80, 90, 100], [[], [], [90]]),
    ("moss stitch counted", "*k3tog, moss 11; rep from * to end (84 sts)", [98], [[84]]),
    ("ssk with full stops", "* K 2 tog., k. 11, s.s.k.; rep. from * to end.", [90], [[78]]),
    ("once, then to the end", "Rnd 1: K3tog, then k2tog to the end of the round", [41], [[20]]),
    ("at both ends of every needle", NEEDLES, [24], [[16, 16, 8, 8]]),
    ("and so on each needle", SO_ON_EACH, [72], [[68]]),
    ("the first and last of several rounds", QUOTED, [30], [[24, 18, 12, 6]]),
    ("rounds of several by their numbers", QUOTED_BY_NUMBER, [30], [[24, 18, 12, 6]]),
    ("a chart in words, so often", CHART, [16], [[16] * 12]),
    ("a round by its name, so often", DEC_ROUNDS, [64], [[56, 56, 48, 40, 32]]),
    ("a count of the sizes above", ONE_SIZE, [48, 56], [[48], [56, 48]]),
    ("a cable by its stitches", "Cross 4, purl 2 together, to the end. 80 stitches.", [96], [[80]]),
    ("a size by its age group", ADULT_ONLY, [72, 84], [[48, 24], [63, 42, 21]]),
    ("the child's size second", CHILD_ONLY, [84, 72], [[56, 28], [48, 40, 20]]),
    ("a size behind a comma", DEC_ROUND_ADULT, [20, 30], [[10], [20, 10]]),
    ("sizes by months", MONTHS, [24, 32, 40], [[12], [24, 12], [32, 24, 12]]),
    ("one stitch fewer each time", FEWER, [32], [[24, 16, 8]]),
    ("finishing with a numbered round", FINISHING, [32], [[24, 24, 16, 16]]),
    ("finish with a plain round", FINISH, [32], [[24, 24, 16, 16]]),
    ("in all sections", IN_ALL_SECTIONS, [66], [[66, 60]]),
    ("numbered lines of numbered rounds", "1. Rounds 1-2: *k2, p2*\n2. Rounds 3-4: knit.", [80], [[80] * 4]),
    (
        "a numbered step names the fabric",
        "Step 2. Ribbing. Knit 2, purl 2, all the way round. Do 3 rounds.",
        [80],
        [[80] * 3],
    ),
    ("one at the beginning", "Increase 1 stitch at the beginning of the next round (75).", [74], [[75]]),
    ("a plain round and one more", "Rnd 1: Knit, inc 1 st at end of round. (96 sts)", [95], [[96]]),
    ("one more at the beg", "Rnd 1: Knit, inc 1 st at the beg of the rnd. (96 sts)", [95], [[96]]),
    ("one more, somewhere", "Rnd 1: Knit, increasing 1 st. 96 sts.", [95], [[96]]),
    ("one less, of one round", "Knit 1 round, dec 1 st at end of round (95 sts)", [96], [[95]]),
    ("one less, of one round and", "Knit one round and decrease one stitch. (95 sts)", [96], [[95]]),
    ("one less in the last of some", "Knit 2 rounds, dec 1 st on the last round. 95 sts.", [96], [[96, 95]]),
    ("stitches before one more", "Rnd 1: Knit 10, inc 1 st, knit to end. 96 sts.", [95], [[96]]),
]


@pytest.mark.parametrize(
    ("text", "cast_on", "counts"), [row[1:] for row in TEXTS], ids=[row[0] for row in TEXTS]
)
def test_ordinary_print_is_read(text: str, cast_on: list[int], counts: list[list[int]]) -> None:
    assert after_rounds_of_sizes(read(text, tuple(cast_on))) == counts


def test_decimals_between_slashes_are_lengths() -> None:
    reading = read("CO 48/56/64.\nk straight until 5/6/6.5in from rolled edge\nk 1 rnd", (48, 56, 64))
    assert number_of_rounds(reading) == [2, 2, 2]
    assert ["to_a_length"] == [finding.code for finding in reading.findings]


def test_a_wrong_count_of_a_repeat_is_mended_in_its_size() -> None:
    text = (
        "8 markers, 8 (9) sts apart.\n"
        "Dec Rnd: *k to 2 sts before marker, k2tog; rep from * around. 56 (64) sts\n"
        "Knit 1 rnd.\n"
        "Repeat the last 2 rnds 2 (3) more times. 38 (40) sts."
    )
    repairs = [finding.repair for finding in errors(read(text, (64, 72)))]
    assert repairs == ["Repeat the last 2 rnds 2 (3) more times. 40 (40) sts."]


def test_a_line_left_out_is_put_in_with_its_plain_round() -> None:
    text = (
        "(K7, K2tog) 6 times. 48 sts. Knit 1 round.\n"
        "(K6, K2tog) 6 times. 42 sts. Knit 1 round.\n"
        "(K4, K2tog) 6 times. 30 sts.\n"
        "(K3, K2tog) 6 times. 24 sts."
    )
    repairs = [finding.repair for finding in errors(read(text, (54,)))]
    assert repairs == ["(K5, K2tog) 6 times. 36 sts. Knit 1 round."]


def test_of_two_numbers_the_one_that_changes_from_line_to_line_is_mended() -> None:
    text = (
        "Next round: *K1, skpo, k19, k2tog; rep from * 3 times more. 88 sts.\n"
        "Next round: *K1, skpo, k16, k2tog; rep from * 3 times more. 80 sts.\n"
        "Next round: *K1, skpo, k15, k2tog; rep from * 3 times more. 72 sts."
    )
    repairs = [finding.repair for finding in errors(read(text, (96,)))]
    assert repairs == ["Next round: *K1, skpo, k17, k2tog; rep from * 3 times more. 80 sts."]


@pytest.mark.parametrize("dash", ["-", "–", " - ", " – ", " — "])
def test_a_line_may_begin_with_the_first_and_last_of_its_rounds(dash: str) -> None:
    """With blanks around the dash or without."""
    text = f"1: (K11, SSK) x 8. 96 sts\n2{dash}3: Knit\n4: (K10, SSK) x 8. 88 sts\n5{dash}6: Knit\n7: (K9, SSK) x 8."
    assert after_each_round(read(text, (104,))) == [96, 96, 96, 88, 88, 88, 80]


@pytest.mark.parametrize(
    "plain", ["k7, 8 or 9, k2tog", "knit 7 or 8 or 9, then k2tog", "7, 8 or 9 knits, k2tog"]
)
def test_numbers_with_or_between_are_those_of_sizes(plain: str) -> None:
    crown = f"Rnd 1: *{plain}; rep from * 8 times.\nKnit 2, 3 or 4 rounds."
    text = f"Cast on 72, 80 or 88 sts. Knit 10, 11 or 12 rnds.\n{crown}"

    small, *_, large = after_rounds_of_sizes(read(text, (72, 80, 88)))
    assert small == [72] * 10 + [64] * 3
    assert large == [88] * 12 + [80] * 5


def test_needles_with_or_between_are_no_sizes() -> None:
    text = "Cast on 72 or 80 sts. With 4 or 5 needles knit 2 rounds.\nRnd 1: *k7 or 8, k2tog; rep from * 8 times."

    assert counts(read(text, (72, 80))) == [[72, 64], [80, 72]]
