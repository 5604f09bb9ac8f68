"""Lines that later writers worded, each a way of wording that several have; every text counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

AROUND = "*k6, k2tog* around, 56"

TEXTS = [
    ("numbers of rounds with their letter", "R1 - R4: knit\nR5-R6 knit\nR7: *k6, k2tog* around", 7, [64, 56]),
    ("a dash with space before the work", "Rounds 1 - 6 knit.\nRound 7 *K6, K2 tog* to end", 7, [64, 56]),
    ("plain to the end", "Knit two together once, then knit plain to the end of the round", 1, [63]),
    (
        "one round announced",
        "Change needles and knit one round like this: knit two, make one, all the way to the end.",
        1,
        [96],
    ),
    ("what colours rounds have", f"Now decrease rounds are in CC and plain rounds in MC.\n{AROUND}", 1, [56]),
    ("a rib, times and rounds", f"k2p2 x 6 rnds\n{AROUND}", 7, [64, 56]),
    ("a rib, then plain rounds", f"4 rnds k2p2, 12 rnds k\n{AROUND}", 17, [64, 56]),
    ("plain rounds between slashes", "k6 k2tog (56) / k / k5 k2tog (48) / k", 4, [56, 48]),
    (
        "rounds between stars, so often in all",
        "*Purl 1 rnd, knit 1 rnd.* Do that 5 times (10 rnds).",
        10,
        [64],
    ),
    ("so many more", "Knit 6 rounds, which will curl up.\nKnit 18 more.", 24, [64]),
    (
        "colour by colour",
        "Work 6 rnds light, 6 rnds dark, 6 rnds light, 6 rnds dark all plain knit",
        24,
        [64],
    ),
    (
        "no more plain rounds",
        "From here no plain rounds: *k6, k2tog* x8 (56), *k5, k2tog* x8 (48)",
        2,
        [56, 48],
    ),
    (
        "a heading that counts its rounds",
        "Cast on 64.\nCABLE PATTERN (8-st rep, 6 rnds)\nRnds 1 to 6: *K6, p2; rep from * around.",
        6,
        [64],
    ),
    (
        "a line that begins with the needle",
        "CO 64.\nBrim: 14 rounds of *k3, p1*\nWith 4 mm needle: knit 36 rounds.",
        50,
        [64],
    ),
    (
        "a crown that ends with its plain round",
        (
            f"{AROUND}.\nKnit a round.\n*k5, k2tog* around, 48.\nKnit a round.\n"
            "And so on, till you have only 32 and have knitted the plain one. Then k2tog all round."
        ),
        9,
        [56, 48, 40, 32, 16],
    ),
    (
        "how many are on a needle",
        "*k6, k2tog* twice on each needle. That's 14 on a needle, 56 in all.",
        1,
        [56],
    ),
    (
        "what is knitted with",
        f"Cast on 64, 16 on each of four needles, and knit with the fifth.\n{AROUND}",
        1,
        [56],
    ),
    (
        "plain rounds told where they stand",
        (
            "Plain round after every dec round unless I say so\nDec 1: *k6, k2tog* 56 sts. Knit a round.\n"
            "Dec 2: *k5, k2tog* 48 sts. No plain round this time\nDec 3: *k4, k2tog* 40 sts."
        ),
        4,
        [56, 48, 40],
    ),
    ("decreases by their place", "Narrow after every sixth stitch, 56; after every fifth, 48.", 2, [56, 48]),
    ("in short", "now do 6+2tog (56), 5+2tog (48). 4 & narrow. 40.", 3, [56, 48, 40]),
    ("to a count", "(K6, K2 tog) to 56; 1 round K; (K5, K2 tog) to 48.", 3, [56, 48]),
    (
        "marks of time",
        "01:12 knit 6, knit 2 together, all the way around (56)\n03:40 knit one round",
        2,
        [56],
    ),
    ("misspelt", "nit 6 nit 2 togather round. 56. 1 plane.", 2, [56]),
    ("the same once more", "Narrow all round, 32, and again, 16.", 2, [32, 16]),
    ("a count between dashes", "(k6, k2tog) 8 times \u2013 56 \u2013 knit 3 rounds", 4, [56]),
    ("rounds between slashes", "k6 k2tog 8x -> 56 / k 1 rnd / k5 k2tog 8x -> 48", 3, [56, 48]),
    ("how every round is worked", f"p every rnd from here\n{AROUND}", 1, [56]),
    (
        "stripes to a number of rounds",
        "Cont in st st, stripes of 4 rnds B, 4 rnds A, until there are 9 stripes in all (36 rnds).",
        36,
        [64],
    ),
    (
        "decreases announced",
        "64 sts. Decrease every round like so\nk6 k2tog = 56\nk5 k2tog = 48\nk2tog = 24",
        3,
        [56, 48, 24],
    ),
    (
        "a length for each size",
        "K2, P2 rib until 13 / 16 / 20 cm.\nRnd 1: K2tog, P2tog all round. 32",
        2,
        [64, 32],
    ),
    (
        "a unit, then how often",
        "Round A: 6 knit + 1 reduce (2 knit together). Do so 8 times. Is 56 stitch.",
        1,
        [56],
    ),
    ("what becomes of it", "Now it becomes smaller: 6 right, 2 together, this you do 8 times (56).", 1, [56]),
    (
        "a line broken before together",
        "Round 1  *Knit 6, knit 2\n   together; repeat from * to the end (56 sts).\nRound 2  Knit.",
        2,
        [56],
    ),
    (
        "one fewer in each of some rounds",
        "k6, k2tog; k5, k2tog; k4, k2tog \u2013 three rounds, 40 sts.",
        3,
        [56, 48, 40],
    ),
    (
        "again, with its count",
        "k2tog all the way round thirty two\nand again sixteen and that is your lot",
        2,
        [32, 16],
    ),
]


@pytest.mark.parametrize(("wording", "text", "rounds", "after"), TEXTS, ids=[row[0] for row in TEXTS])
def test_a_line_is_read_as_its_writer_means_it(
    wording: str, text: str, rounds: int, after: list[int]
) -> None:
    """So many rounds, which leave these counts one after the other."""
    worked = after_each_round(read(text, (64,)))

    assert len(worked) == rounds
    assert list(dict.fromkeys(worked)) == after
