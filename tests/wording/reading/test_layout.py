"""How a text falls into pieces: columns, tables, paragraphs broken by width, several rounds in one breath."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

TEXTS = [
    (
        "two columns of numbered rounds",
        (
            "1. (k7, k2tog) x 8 [64]     2. (k6, k2tog) x 8 [56]\n"
            "3. (k5, k2tog) x 8 [48]     4. (k4, k2tog) x 8 [40]"
        ),
        72,
        [64, 56, 48, 40],
    ),
    (
        "two columns with labels",
        ("Rnd 1: *k7, k2tog* (64)      Rnd 2: knit\nRnd 3: *k6, k2tog* (56)      Rnd 4: knit"),
        72,
        [64, 64, 56, 56],
    ),
    (
        "numbered rounds in one line",
        (
            "1. Knit 7, knit 2 together, all the way round. 2. Knit 1 round. 3. Knit 6, knit 2 together, "
            "all the way round. 4. Knit."
        ),
        72,
        [64, 64, 56, 56],
    ),
    (
        "comma before the next label",
        ("12.rnd: *1 k, 2 k together* 8 times = 16 st, 13.rnd: 2 k together 8 times = 8 st"),
        24,
        [16, 8],
    ),
    (
        "table with tabs",
        ("1-6\tK1, P1 around\n7-10\tK around\n11\t*K4, K2tog* (40)\n12\tK around\n13\t*K3, K2tog* (32)"),
        48,
        [48] * 6 + [48] * 4 + [40, 40, 32],
    ),
    (
        "table with pipes",
        (
            "| Rnd | What to do | Sts |\n"
            "| 1 | *K6, k2tog* around | 56 |\n"
            "| 2 | Knit | 56 |\n"
            "| 3 | *K5, k2tog* around | 48 |"
        ),
        64,
        [56, 56, 48],
    ),
    (
        "table with dashes",
        ("1 – *K6, k2tog* around – 56\n2 – knit – 56\n3 – *K5, k2tog* around – 48"),
        64,
        [56, 56, 48],
    ),
    (
        "table with columns by spaces",
        (
            "Rnd   Work                 Sts\n"
            "1     *K6, k2tog* around   56\n"
            "2     Knit                 56\n"
            "3     *K5, k2tog* around   48\n"
            "4     Knit                 48"
        ),
        64,
        [56, 56, 48, 48],
    ),
    (
        "a table tail count by tab",
        ("Rnd 1\t*K6, k2tog* around\t56\nRnd 2\tknit\t56\nRnd 3\t*K5, k2tog* around\t48"),
        64,
        [56, 56, 48],
    ),
    (
        "hard wrapped, bracket broken",
        (
            "Decrease for the crown on the next rnd as follows: (k7, k2tog) 8 times (64\n"
            "sts). Knit 1 rnd. Next rnd: (k6, k2tog) to the end of the rnd (56 sts). Knit\n"
            "1 rnd."
        ),
        72,
        [64, 64, 56, 56],
    ),
    (
        "hard wrapped two lines",
        (
            "Next round: *knit 7, knit 2 together; repeat from * to the end of the\n"
            "round. Knit 1 round. Next round: *knit 6, knit 2 together* around."
        ),
        72,
        [64, 64, 56],
    ),
    (
        "one line, commas between rounds",
        (
            "rib for 3 rounds, then k5 k2tog all the way round, knit 1 round, k4 k2tog all the way round, "
            "knit 1 round, k3 k2tog round, k2 k2tog round, k1 k2tog round, k2tog round"
        ),
        56,
        [56] * 3 + [48, 48, 40, 40, 32, 24, 16, 8],
    ),
    (
        "then between rounds",
        ("Knit 7, knit 2 together, then 6 and 2 together, then 5 and 2 together, then 4 and 2 together."),
        72,
        [64, 56, 48, 40],
    ),
    (
        "then, with stitches",
        ("*k7, k2tog*, then *k6, k2tog*, then *k5, k2tog*, then *k4, k2tog*."),
        72,
        [64, 56, 48, 40],
    ),
    (
        "groups side by side",
        ("*k7, k2tog* knit 1 round\n*k6, k2tog* knit 1 round\n*k5, k2tog* *k4, k2tog*"),
        72,
        [64, 64, 56, 56, 48, 40],
    ),
    (
        "slashes between rounds",
        ("k7, k2tog around / k6, k2tog around / k5, k2tog around"),
        72,
        [64, 56, 48],
    ),
    (
        "semicolons and counts",
        ("*k7, k2tog* [64]; *k6, k2tog* [56]; *k5, k2tog* [48]"),
        72,
        [64, 56, 48],
    ),
    (
        "commas and counts",
        ("k7, k2tog (64), k6, k2tog (56), k5, k2tog (48)"),
        72,
        [64, 56, 48],
    ),
    (
        "arrows",
        ("k7 k2tog -> 64, k6 k2tog -> 56, k5 k2tog -> 48"),
        72,
        [64, 56, 48],
    ),
    (
        "and again",
        ("Knit 2 together all the way round (12 stitches), and again (6 stitches)."),
        24,
        [12, 6],
    ),
    (
        "then once more all round",
        ("k. 2 tog. all round (12), and once more k. 2 tog. all round (6)."),
        24,
        [12, 6],
    ),
    (
        "on the following round",
        ("(K2, K2 tog) 10 times, then (K1, K2 tog) 10 times on the following round."),
        40,
        [30, 20],
    ),
    (
        "until and then",
        (
            "1st round: *k6, k2tog* around\n"
            "Continue to decrease in this way on every round until 32 sts remain, and then k2tog all round "
            "(16 sts)."
        ),
        64,
        [56, 48, 40, 32, 16],
    ),
    (
        "a label in the midst of a sentence",
        ("Next rnd: *k6, k2tog* around, next rnd knit, next rnd *k5, k2tog* around."),
        64,
        [56, 56, 48],
    ),
    (
        "round numbers in prose",
        (
            "In round 1 work *k6, k2tog* to the end. In round 2 knit all stitches. In round 3 work *k5, "
            "k2tog* to the end."
        ),
        64,
        [56, 56, 48],
    ),
    (
        "alternatives left of prose",
        ("Now knit four plain rounds. After that the crown begins: *knit 6, knit 2 together* all round."),
        64,
        [64] * 4 + [56],
    ),
    (
        "label and work in two lines",
        ("Round 1\n*K6, k2tog* around.\nRound 2\nKnit.\nRound 3\n*K5, k2tog* around."),
        64,
        [56, 56, 48],
    ),
    (
        "count in a line of its own",
        ("Round 1: *K6, k2tog* around.\n56 sts\nRound 2: Knit.\nRound 3: *K5, k2tog* around.\n48 sts"),
        64,
        [56, 56, 48],
    ),
    (
        "sentence broken after a comma",
        (
            "Round 1: knit 6, knit 2 together,\n"
            "repeat this to the end of the round.\n"
            "Round 2: knit 5, knit 2 together,\n"
            "repeat this to the end of the round."
        ),
        64,
        [56, 48],
    ),
]
"""Pieces in which patterns are printed: each with the stitches cast on and the count after every round."""


@pytest.mark.parametrize(
    ("text", "cast_on", "counts"), [row[1:] for row in TEXTS], ids=[row[0] for row in TEXTS]
)
def test_each_layout_is_read(text: str, cast_on: int, counts: list[int]) -> None:
    """Nothing is wrong with it, and the counts are those of the pattern."""
    assert after_each_round(read(text, (cast_on,))) == counts
