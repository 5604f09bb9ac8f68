"""Ways in which whole patterns say something, each text counted by hand: its counts in each size, its rounds."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts

CROWN = (
    "Rnd 1: *k10, k2tog* around. 88 sts.\nRnd 2: knit.\nRnd 3: *k9, k2tog* around. 80 sts.\nRnd 4: knit.\n"
)
CLOSES = "\nK2tog around."

TEXTS = [
    (
        "a chart with its number",
        f"Cast on 96 sts. Join.\nWork the 25 rounds of Chart 4.{CLOSES}",
        ((96, 48),),
        26,
    ),
    (
        "a chart with number and letter, and its repeats",
        (
            "Cast on 96 sts. Join.\nJoin in L and work Chart 14A: 16 rounds, 12 sts to a repeat, "
            f"eight repeats to the round.{CLOSES}"
        ),
        ((96, 48),),
        17,
    ),
    (
        "a chart by what it shows",
        (
            "Cast on 96 sts. Join.\nNow the sheep chart, 31 rounds, 12 stitches to the repeat "
            f"and eight repeats to the round.{CLOSES}"
        ),
        ((96, 48),),
        32,
    ),
    (
        "a chart in brackets",
        (
            "Cast on 96 sts. Join.\nWork Chart no. 3 (12 rounds, 8 sts to each repeat, 12 repeats around)."
            f"{CLOSES}"
        ),
        ((96, 48),),
        13,
    ),
    (
        "the rounds of a chart, repeated side by side",
        f"Cast on 96 sts. Join.\nWork rounds 1 to 19 of the berry chart (12 sts, repeated 8 times).{CLOSES}",
        ((96, 48),),
        20,
    ),
    (
        "a chart worked several times that is told below",
        (
            "Cast on 80 sts. Join.\nWork Rnds 1-2 of Chart A a total of 3 times. "
            "The 8-st repeat is worked 10 times per rnd.\n"
            "Chart A, written\nRnd 1: *k1, yo, ssk, k3, k2tog, yo; rep from * to end.\nRnd 2: knit.\n\n"
            "CROWN\nRnd 1: k2tog around."
        ),
        ((80, 40),),
        7,
    ),
    (
        "a round again, until so many are worked",
        "Rnd 1: *k2, p2* around.\nRepeat rnd 1 until 16 rounds have been worked.\nKnit 4 rounds." + CLOSES,
        ((96, 48),),
        21,
    ),
    (
        "two rounds told and repeated in one breath",
        "Purl 1 round, knit 1 round, and repeat those two until you have worked 8 (10) rounds." + CLOSES,
        ((72, 36), (84, 42)),
        11,
    ),
    (
        "rounds again until there are so many",
        "Rnd 1: knit.\nRnd 2: purl.\nRepeat rnds 1 and 2 until there are 12 rounds." + CLOSES,
        ((96, 48),),
        13,
    ),
    (
        "a crown gone on with to a round",
        f"{CROWN}Carry on in this way up to and including Rnd 16.\nRnd 17: *k2, k2tog* around. 24 sts.",
        ((96, 88, 80, 72, 64, 56, 48, 40, 32, 24),),
        17,
    ),
    (
        "a crown gone on with to a round and a count",
        f"{CROWN}Keep on so, losing 8 sts on the odd rounds, up to and including Rnd 16, when there are 32 sts.",
        ((96, 88, 80, 72, 64, 56, 48, 40, 32),),
        16,
    ),
    (
        "the colour of a numbered round",
        "Rnd 1, G only: *k10, k2tog* around. 88 sts.\nRnd 2, in grey: knit.\nRnd 3: dot round, groups of 6.",
        ((96, 88),),
        3,
    ),
    (
        "a colour called by its letter is no size",
        (
            "Sizes: woman's (man's)\nGround (G) 30 (35) g\nCast on 96 (108) sts.\n"
            "Rnd 1, G only: *k4, k2tog* around. 80 (90) sts."
        ),
        ((96, 80), (108, 90)),
        1,
    ),
    (
        "every round a decrease round, by its counts",
        f"{CROWN}After this, every rnd is a decrease rnd. You will have 72, then 64, then 56 and at last 48.",
        ((96, 88, 80, 72, 64, 56, 48),),
        8,
    ),
    (
        "decrease and plain round in turn, by the counts",
        (
            "Dec rnd: *k10, k2tog* around. 88 sts.\nPlain rnd: knit.\n"
            "Keep doing dec rnd, plain rnd, dec rnd, plain rnd. You'll go 80, 72, 64 and finally 56.\n"
            "Next rnd: *k5, k2tog* around. 48 sts."
        ),
        ((96, 88, 80, 72, 64, 56, 48),),
        10,
    ),
    (
        "the plain round forgotten",
        f"{CROWN}Then forget about the plain rnd and do rnd 3 every single time: 72, 64, 56 and 48.",
        ((96, 88, 80, 72, 64, 56, 48),),
        8,
    ),
    (
        "a count of something else behind rounds that are repeated",
        "Knit 3 rnds, purl 1 rnd.\nDo those 4 rnds 5 more times. Six bands of ridges!" + CLOSES,
        ((96, 48),),
        25,
    ),
    (
        "a round announced, and told behind the colon",
        "Knit one round and take out 6 as you go: k13, k2tog, six times. Now 84.",
        ((90, 84),),
        1,
    ),
    (
        "a round announced as it decreases",
        "Knit 1 round, decreasing as you go: *k13, k2tog* around. 84 sts.",
        ((90, 84),),
        1,
    ),
    (
        "stitches as they lie on the needles",
        "Cast on 100 sts loosely (34, 34, 32). Work 10 rounds in k1, p1 rib.\nK2tog around. 50 sts.",
        ((100, 50),),
        11,
    ),
    (
        "the letter of a stitch in every size",
        "Cast on 80/90. Join.\n(k6/k7, k2tog) ten times = 70/80 sts\nknit a round\n(k5/k6, k2tog) x 10 = 60/70",
        ((80, 70, 60), (90, 80, 70)),
        3,
    ),
    (
        "sizes in the first line, with more behind them",
        (
            "Regular / Big Head. Find your number, circle it.\nCast on 60/70. Join.\n"
            "Big Head only: (k5, k2tog) ten times = 60 sts, and knit a round\nBoth: (k4, k2tog) ten times = 50 sts"
        ),
        ((60, 50), (70, 60, 50)),
        3,
    ),
    (
        "sizes by whose figures are in brackets",
        (
            "Instructions are for Daughter's cap. The figures for Mother's cap follow in brackets ( ).\n"
            "Cast on 84 (96) sts.\nFor Mother's cap only: K. 1 round. Next round: * K. 6, k. 2 tog.; repeat from * "
            "to end. 84 sts.\nBoth caps: * K. 5, k. 2 tog.; repeat from * to end. 72 sts."
        ),
        ((84, 72), (96, 84, 72)),
        3,
    ),
    (
        "sizes by letters",
        (
            "A = small    B = medium    C = large\nNumbers are given A (B, C)\nCast on 32 (40, 48) sts.\n"
            "Size C only: K4, k2tog, around. 40 sts\nSizes B & C: K3, k2tog, around. 32 sts\n"
            "All sizes: K2, k2tog, around. 24 sts\nMark the size (A, B or C) on a slip of paper with each hat."
        ),
        ((32, 24), (40, 32, 24), (48, 40, 32, 24)),
        3,
    ),
    (
        "sizes as sentences of their own",
        (
            "I have put them always in this order: child, lady.\nCast on 80 or 90 stitches. Join.\n\n"
            "Lady only. Knit 7, knit 2 together, to the end of the round. 80 stitches. Knit one round.\n"
            "Everybody. Knit 6, knit 2 together, to the end of the round. 70 stitches."
        ),
        ((80, 70), (90, 80, 70)),
        3,
    ),
    (
        "a heading between stars that has a number",
        "Rnd 1: *k6, k2tog* around. 84 sts.\n\n** CLUE 4: the end **\nCut yarn and pull through.",
        ((96, 84),),
        1,
    ),
    (
        "a table by slashes",
        (
            "Cast on 110 st.\nRound / what you do / st after it\n1 / decrease / 100\n2, 3 / knit / 100\n"
            "4 / decrease / 90\n5 / knit / 90\n6 / only k2tog / 45"
        ),
        ((110, 100, 90, 45),),
        6,
    ),
    (
        "a table by dashes with two rounds in a row",
        (
            "Rnd — work — sts\n1 — *k8, k2tog* — 72\n2 and 3 — knit — 72\n"
            "4 — *k7, k2tog* — 64\n5, 6 — knit — 64\n7 — k2tog — 32"
        ),
        ((80, 72, 64, 32),),
        7,
    ),
    (
        "stitches that are explained before needles are named and stitches cast on",
        (
            "STITCHES USED:\n2x2 rib: * k2, p2 *, rep from * around.\n\n"
            "Working: Using needle No 3 cast on 72 sts, join in the round. Place a marker every 9 sts.\n"
            "Dec as follows: k2tog before each marker = 64 sts.\nKnit 1 round."
        ),
        ((72, 64),),
        2,
    ),
    (
        "plain rounds before decreases that follow behind a colon",
        "Knit 3 rounds. Dec as follows: k2tog at the end of each section = 64 sts.",
        ((72, 64),),
        4,
    ),
    (
        "one plain round before markers and decreases",
        "Knit 1 round. Place a marker every 9 sts. Dec as follows: k2tog before each marker = 64 sts.",
        ((72, 64),),
        2,
    ),
    (
        "even rounds told ahead, behind decreases that go on",
        (
            "Rnd 1: *k9, k2tog*, rep from * around = 80 sts.\nRnd 2 and all even rnds to rnd 14: knit.\n"
            "Rnd 3: *k8, k2tog*, rep from * around = 72 sts.\n"
            "Continue as follows with 1 st less between decreases each time, 5 more times every other rnd = 32 sts.\n"
            "Rnd 15: k2tog around = 16 sts.\nRnd 16: as rnd 15 = 8 sts."
        ),
        ((88, 80, 72, 64, 56, 48, 40, 32, 16, 8),),
        16,
    ),
    (
        "a heading that says how large its pattern is",
        "CABLE PATTERN (8-st rep, 6 rnds)\nRnds 1 and 2: *k6, p2; rep from * around.\nRnd 3: k2tog around.",
        ((96, 48),),
        3,
    ),
    (
        "a round defined, and told below for each size",
        "Crown. dec rnd = k2tog at each of 8 places:\nk4 k2tog x8, 40. k 1 rnd\nk3 k2tog x8, 32",
        ((48, 40, 32),),
        3,
    ),
    (
        "a cable with a dot",
        "6th round.—* C. 6, p. 2 tog.; rep. from * to end. (84 sts.)\n7th round.—* P. 1, c. 6; rep. from * to end.",
        ((96, 84),),
        2,
    ),
    (
        "times in the next line",
        "Knit 4 rounds.\nKnit 2 rounds and purl 2 rounds. Work these 8 rounds\n4 times in all.\nK2tog around. 48 sts",
        ((96, 48),),
        33,
    ),
    (
        "to within some stitches of the next thread",
        (
            "Decreasing round.—* K. 2 tog., k. to within 2 sts. of the next thread, k. 2 tog.; "
            "rep. from * three times more. (80 sts.)"
        ),
        ((88, 80),),
        1,
    ),
    (
        "everything behind the star",
        "Repeat everything after the * to the end of the rnd.\n1 | *k10, k2tog | 88\n2 | knit | 88",
        ((96, 88),),
        2,
    ),
    (
        "stitches by the letters of their colours",
        "1: 1B 2O 1B 2O\n2: k2tog around (48)",
        ((96, 48),),
        2,
    ),
    (
        "a pair of rounds, some times",
        "Purl 1 round, knit 1 round. Do that pair of rounds 5 times altogether.\nK2tog around. 45 sts",
        ((90, 45),),
        11,
    ),
    (
        "the same in each section",
        (
            "Knit until 2 stitches are left before a marker, knit those 2 together, slip the marker. "
            "The same in each of the six sections. (84 stitches.)"
        ),
        ((90, 84),),
        1,
    ),
    ("a rib told over the end of a line", "Rib 6 rounds, k. 1,\np. 1.\nK2tog around. 48 sts", ((96, 48),), 7),
    (
        "a crown gone on with until a round is worked, and a plain one behind it",
        (
            f"{CROWN}Keep alternating, with one stitch fewer before each k2tog, until you've done the "
            "*k5, k2tog* round (48 stitches) and a knit round after it.\nNext rnd: *k4, k2tog* around. 40 sts."
        ),
        ((96, 88, 80, 72, 64, 56, 48, 40),),
        13,
    ),
    (
        "a crown gone on with, round by round, until a round is worked",
        (
            "1st rnd: *k8, cdd, k9*, four times. 72 sts.\n2nd rnd: knit it all.\n3rd rnd: *k7, cdd, k8*, four times. "
            "64 sts.\n4th rnd: knit it all.\nGo on, cdd round then knit round, until your cdd round was "
            "*k4, cdd, k5* and you have 40 sts."
        ),
        ((80, 72, 64, 56, 48, 40),),
        9,
    ),
    (
        "a stitch more for the join",
        (
            "Cast on 89 stitches. The extra one is for a tidy join: slip it over to the left needle and knit it "
            "together with the first stitch. You now have 88 stitches.\nRnd 1: *k9, k2tog* around. 80 sts."
        ),
        ((89, 88, 80),),
        None,
    ),
    (
        "markers put in while the first round is worked, and the work at all of them",
        (
            "As you work the first round below, put a marker after each repeat.\n"
            "Round 1: Knit 9, k2tog, pm, eight times over. (80 stitches)\n"
            "Round 2: Knit to 2 stitches before the marker, k2tog, slip the marker; do it at all 8 markers. "
            "(72 stitches)"
        ),
        ((88, 80, 72),),
        2,
    ),
]


@pytest.mark.parametrize(
    ("text", "wanted", "rounds"), [row[1:] for row in TEXTS], ids=[row[0] for row in TEXTS]
)
def test_it_is_read_as_it_is_meant(
    text: str, wanted: tuple[tuple[int, ...], ...], rounds: int | None
) -> None:
    """Nothing is called wrong, and the counts of every size come out."""
    reading = read(text, tuple(size[0] for size in wanted))

    assert counts(reading) == [list(size) for size in wanted]
    assert rounds in (None, max(map(len, reading.rounds)))
