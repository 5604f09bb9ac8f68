"""Ways in which patterns say what is worked: each a text, the stitches cast on, and the count after every round."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, after_rounds_of_sizes, faults

WORDINGS = [
    ("a group of rounds", "[Purl 1 rnd, knit 1 rnd] 2 times.", 40, [40] * 4),
    ("rounds parted by commas", "Purl 1 round, knit 1 round, purl 1 round.", 40, [40] * 3),
    ("what was worked, again", "*K2tog* around: 20. And once more: 10.", 40, [20, 10]),
    (
        "rounds with letters",
        "Round A: [Knit to 2 sts before m, k2tog] 7 times.\nRound B: Knit.\nWork Rounds A and B a total of 2 times.",
        84,
        [77, 77, 70, 70],
    ),
    ("each needle", "Round 1: On each of 4 needles, k to last 2 sts, k2tog. (76 sts)", 80, [76]),
    (
        "a stitch that is marked",
        (
            "Set-up rnd: *K10, mark the next st, k9; rep from * 3 more times.\n"
            "Dec rnd: *Knit to 1 st before marked st, s2kp; rep from * 3 more times, knit to end. 72 sts"
        ),
        80,
        [80, 72],
    ),
    ("the older plain and together", "(25 plain, 2 together) 4 times. 104 left.", 108, [104]),
    ("numbers in words", "Knit thirty-two rounds.", 60, [60] * 32),
    (
        "steps of a handout",
        "Step 1: *K6, k2tog* around. 56 sts\nStep 2: Knit 1 round.\nStep 3: Repeat step 2.",
        64,
        [56, 56, 56],
    ),
    (
        "a word the text explains",
        "double decrease = sl 1, k2tog, psso.\n1st rnd: *k10, double decrease* six times, 66 sts",
        78,
        [66],
    ),
    ("sentences in brackets", "Round 1: [Purl 1 stitch.] 2 times. [Knit two together.] 2 times.", 6, [4]),
    (
        "every right-side row",
        (
            "1st row: *k7, k2tog; rep from * to end. 64 sts\n2nd row: P.\n"
            "Cont in this way, dec 8 sts on every RS row, until 48 sts rem, ending with a P row."
        ),
        72,
        [64, 64, 56, 56, 48, 48],
    ),
    (
        "rounds with names in turn",
        (
            "Decreasing round. On each of 4 needles, knit to the last two stitches, knit two together.\n"
            "Plain round. Knit every stitch.\n"
            "Work the decreasing round and the plain round, in turn, until there are 64 stitches."
        ),
        80,
        [76, 76, 72, 72, 68, 68, 64, 64],
    ),
    (
        "how often two rounds",
        "Knit one round. Purl one round. Do this twice, which makes four rounds.",
        40,
        [40] * 4,
    ),
    (
        "how many rounds of a rib",
        "Rib: *K3, P2*. Work 4 rounds. (Each needle has three ribs on it.)",
        60,
        [60] * 4,
    ),
    ("a fabric explained", "Work 4 rows in garter st. (every row k.).", 60, [60] * 4),
    ("other stars", "Rnd 1 ✱K4, sk2p, k4; rep from ✱ – 72 sts", 88, [72]),
    ("several rounds in a line", "Then *k5, k2tog* *k4, k2tog* *k3, k2tog*", 56, [48, 40, 32]),
    (
        "rounds parted by then",
        "7 knit 2 together, then 6 knit 2 together, then 5 knit 2 together.",
        63,
        [56, 49, 42],
    ),
    ("a decrease with its number first", "1.rnd: *10 k, 2 k together* 8 times = 88 st", 96, [88]),
    ("every so many stitches", "Narrow every 9th and 10th stitch together. 81 stitches.", 90, [81]),
    ("an increase in every so many", "Inc in every 7th st.", 63, [72]),
    (
        "the other rounds told later",
        "Rnd 1: *k7, k2tog*\nRnd 3: *k6, k2tog*\nRnds 2 and 4 are knit.",
        72,
        [64, 64, 56, 56],
    ),
    (
        "rounds not mentioned",
        "Rnd 2: *k7, k2tog*\nRnd 4: *k6, k2tog*\nAll rounds not mentioned are knit.",
        72,
        [72, 64, 64, 56],
    ),
    (
        "decreases at the ends of sections",
        "8 sections of 10.\nK2tog at the end of each section. 72 sts",
        80,
        [72],
    ),
    ("a decrease with hyphens", "Round 1: *k7, sl2tog-k1-p2sso, k8; rep from *. 128 sts", 144, [128]),
    ("a printed sum", "R1: front: (k6, k2tog) x4; back: the same. 28 + 28 = 56", 64, [56]),
    ("so many rounds of the last", "(K1, P1) to the end. Do this for 3 rounds.", 40, [40] * 3),
    ("a fabric on some stitches", "*Seed 8, k2tog; rep from *: 90", 100, [90]),
    (
        "a list of short forms",
        "The letters: K knit, P purl, K2tog knit two together.\nKnit one round.",
        40,
        [40],
    ),
    ("a short form with a dash", "k2tog – knit 2 sts together\nRnd 1: *k6, k2tog*", 64, [56]),
    ("a line torn in the midst", "[K9, k2tog] 8\ntimes, 80 sts. Knit 1\nrnd.", 88, [80, 80]),
    (
        "a bracket that only names a stitch",
        "TO NARROW (KNIT 2 TOGETHER):\nKNIT 6, NARROW, ALL AROUND, 56 STITCHES.",
        64,
        [56],
    ),
    (
        "fewer stitches each time",
        "Rnd 1: (k9, k2tog) x6\nRnd 2: knit.\nRepeat these two rounds twice more, with one st fewer each time.",
        66,
        [60, 60, 54, 54, 48, 48],
    ),
    (
        "as a round before, with another number",
        "Row 1: k6, k2tog around (56)\nRow 2: as row 1 but knit 5 in place of 6 (48)",
        64,
        [56, 48],
    ),
    (
        "a stitch pattern before the cast-on",
        "Rnds 1-2: *p2, k2*\nRnd 3: knit\nCast on 40 sts.\nPurl 1 rnd.",
        40,
        [40],
    ),
]


@pytest.mark.parametrize(
    ("text", "cast_on", "counts"), [row[1:] for row in WORDINGS], ids=[row[0] for row in WORDINGS]
)
def test_each_way_of_saying_it_is_read(text: str, cast_on: int, counts: list[int]) -> None:
    """Nothing is wrong with it, and the counts are those of the pattern."""
    assert after_each_round(read(text, (cast_on,))) == counts


def test_lines_for_some_sizes_are_for_these_only() -> None:
    """The sizes are named where the pattern lists them, and the list of a line is as long as its sizes."""
    text = (
        "Sizes: S (M, L)\nCast on 56 (64, 72) sts.\n"
        "Sizes M and L only: *k6 (7), k2tog; repeat from * around – 56 (64) sts.\n"
        "Size L only: *k6, k2tog; repeat from * around – 56 sts.\n"
        "All sizes: *k5, k2tog; repeat from * around – 48 sts."
    )

    assert after_rounds_of_sizes(read(text, (56, 64, 72))) == [[48], [56, 48], [64, 56, 48]]


def test_titles_that_only_describe_are_not_worked() -> None:
    """A heading may name stitches and rounds."""
    title = "Paired decreases leaving a spine of two knit stitches"

    assert after_each_round(read(f"{title}\nRnd 1: *K6, k2tog; rep from * around. 56 sts", (64,))) == [56]


def test_rounds_that_go_on_without_an_end_are_said_to_be_unread() -> None:
    """Neither a count nor how often is told: that is an error on its line, and no silence."""
    reading = read("A. k6, k2tog 8 times. 56 sts\nB. thru H. same idea, 1 less each time.", (64,))

    assert faults(reading) == [("not_understood", 2)]


def test_a_decrease_takes_no_more_than_the_stitches_before_the_marker() -> None:
    """Three together on two stitches is wrong; a double decrease over the marker takes one from behind it."""
    wrong = read("Rnd 1: *K to 2 sts before marker, k3tog, sm; rep from * 7 more times. 56 sts", (64,))
    right = read("Rnd 1: *K to 2 sts before marker, k2tog, sm; rep from * 7 more times. 56 sts", (64,))

    assert {finding.code for finding in errors(wrong)} == {"runs_out"}
    assert not errors(right)


def test_a_line_that_works_no_rounds_again_is_called_so() -> None:
    """`23-10` names no rounds; found by the fuzz."""
    reading = read("Rnd 2 — 72 tsds23-10: r  st rnds 1 and 2 — 72 sts", (64, 64))

    assert errors(reading)


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 1: K6, k2tog around / K7, k2tog around. 56/64 sts",
        "Rnd 1: small *k6, k2tog* large *k7, k2tog*",
        "Rnd 1: (S) *k6, k2tog*, (L) *k7, k2tog*",
    ],
)
def test_a_line_may_say_something_to_each_size(line: str) -> None:
    """Sizes are parted by a slash or by their names."""
    reading = read(f"Sizes: S (L)\nCast on 64 (72) sts.\n{line}", (64, 72))

    assert after_rounds_of_sizes(reading) == [[56], [64]]


@pytest.mark.parametrize(
    "counts", ["64, (72), ((80))", "64, 72, 80", "64 (72) 80", "64 72 80", "64 [72] [80]"]
)
def test_the_numbers_of_sizes_are_printed_in_many_ways(counts: str) -> None:
    """Commas, brackets, spaces: the numbers of all sizes are one list."""
    reading = read(f"Cast on {counts} sts.\nRnd 1: *k6, k2tog*: 56, 63, 70 sts", (64, 72, 80))

    assert after_rounds_of_sizes(reading) == [[56], [63], [70]]
