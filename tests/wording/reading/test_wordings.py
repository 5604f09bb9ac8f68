"""Ways in which patterns say what is worked: each a text, the stitches cast on, and the count after every round."""

import pytest

from roundwright.wording.proofreading.read import read

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
]


@pytest.mark.parametrize(
    ("text", "cast_on", "counts"), [row[1:] for row in WORDINGS], ids=[row[0] for row in WORDINGS]
)
def test_each_way_of_saying_it_is_read(text: str, cast_on: int, counts: list[int]) -> None:
    """Nothing is wrong with it, and the counts are those of the pattern."""
    reading = read(text, (cast_on,))

    assert not [finding for finding in reading.findings if finding.severity == "error"]
    assert [one.after for one in reading.rounds[0]] == counts


def test_lines_for_some_sizes_are_for_these_only() -> None:
    """The sizes are named where the pattern lists them, and the list of a line is as long as its sizes."""
    text = (
        "Sizes: S (M, L)\nCast on 56 (64, 72) sts.\n"
        "Sizes M and L only: *k6 (7), k2tog; repeat from * around – 56 (64) sts.\n"
        "Size L only: *k6, k2tog; repeat from * around – 56 sts.\n"
        "All sizes: *k5, k2tog; repeat from * around – 48 sts."
    )

    reading = read(text, (56, 64, 72))

    assert not [finding for finding in reading.findings if finding.severity == "error"]
    assert [[one.after for one in rounds] for rounds in reading.rounds] == [[48], [56, 48], [64, 56, 48]]


def test_titles_that_only_describe_are_not_worked() -> None:
    """A heading may name stitches and rounds."""
    title = "Paired decreases leaving a spine of two knit stitches"

    reading = read(f"{title}\nRnd 1: *K6, k2tog; rep from * around. 56 sts", (64,))

    assert [one.after for one in reading.rounds[0]] == [56]


def test_rounds_that_go_on_without_an_end_are_said_to_be_unread() -> None:
    """Neither a count nor how often is told: that is an error on its line, and no silence."""
    reading = read("A. k6, k2tog 8 times. 56 sts\nB. thru H. same idea, 1 less each time.", (64,))

    assert [(finding.line, finding.code) for finding in reading.findings if finding.severity == "error"] == [
        (2, "not_understood")
    ]


def test_a_decrease_takes_no_more_than_the_stitches_before_the_marker() -> None:
    """Three together on two stitches is wrong; a double decrease over the marker takes one from behind it."""
    wrong = read("Rnd 1: *K to 2 sts before marker, k3tog, sm; rep from * 7 more times. 56 sts", (64,))
    right = read("Rnd 1: *K to 2 sts before marker, k2tog, sm; rep from * 7 more times. 56 sts", (64,))

    assert {finding.code for finding in wrong.findings if finding.severity == "error"} == {"runs_out"}
    assert not [finding for finding in right.findings if finding.severity == "error"]


def test_a_line_that_works_no_rounds_again_is_called_so() -> None:
    """`23-10` names no rounds; found by the fuzz."""
    reading = read("Rnd 2 — 72 tsds23-10: r  st rnds 1 and 2 — 72 sts", (64, 64))

    assert any(finding.severity == "error" for finding in reading.findings)
