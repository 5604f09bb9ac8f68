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
