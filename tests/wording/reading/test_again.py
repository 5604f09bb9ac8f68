"""Rounds that are worked again, by their names or as a sentence said them, and crowns that go on."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

TEXTS = [
    (
        "four times in all, then part",
        (
            "Rnds 1-3: *k2, p2* around.\n"
            "Rnd 4: knit.\n"
            "Work these 4 rnds four times in all, then rnds 1-2 once more."
        ),
        40,
        [40] * 18,
    ),
    (
        "do that so often",
        ("Knit 1 round, purl 1 round. Do that five times altogether so you have 5 ridges."),
        40,
        [40] * 10,
    ),
    (
        "this makes twelve",
        ("Knit one round. Purl one round. Do this six times, which makes twelve rounds."),
        40,
        [40] * 12,
    ),
    (
        "named dec round",
        (
            "Decrease round: *k8, k2tog* around.\n"
            "Plain round: knit.\n"
            "Dec rnd 2: *k7, k2tog* around.\n"
            "Knit 1 round.\n"
            "*k6, k2tog*\n"
            "*k5, k2tog*\n"
            "*k4, k2tog*"
        ),
        80,
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (
        "dec round by name with markers",
        (
            "Place 7 markers, one every 12 sts.\n"
            "Dec rnd: *knit to 2 sts before marker, k2tog, slip marker; repeat from * to end. 7 sts "
            "decreased.\n"
            "Knit 1 rnd.\n"
            "Repeat the last 2 rnds until 70 sts remain, then work the dec rnd every rnd until 49 sts remain."
        ),
        84,
        [77, 77, 70, 70, 63, 56, 49],
    ),
    (
        "dec round, plain round, by name and times",
        (
            "SET-UP: divide into 7 sections of 12 sts with markers.\n"
            "DECREASE ROUND: *Knit to 2 sts before marker, k2tog; repeat from * to end.\n"
            "Work 2 rounds even.\n"
            "Work decrease round, then 1 round even, 2 times in total. 63 sts.\n"
            "Work decrease round 2 times. 49 sts."
        ),
        84,
        [77, 77, 77, 70, 70, 63, 63, 56, 49],
    ),
    (
        "dec rnd as a line",
        (
            "Set up the crown: *K18, place marker* repeat 7 times in total.\n"
            "Dec rnd: *K1, SSK, K until marker* repeat = 119 sts.\n"
            "K 1 rnd.\n"
            "Dec rnd, K 1 rnd = 112 sts.\n"
            "Dec rnd every rnd until 98 sts remain."
        ),
        126,
        [126, 119, 119, 112, 112, 105, 98],
    ),
    (
        "DR and PR",
        (
            "Sections: 7 (marked), 14 sts each.\n"
            "DR = decrease round: k1, ssk, k to marker, in every section. (7 sts less)\n"
            "PR = plain round: k.\n"
            "DR, PR, DR, PR, DR, PR, DR (70 sts)\n"
            "DR (63 sts)"
        ),
        98,
        [91, 91, 84, 84, 77, 77, 70, 63],
    ),
    (
        "every alternate until, every round until",
        (
            "Divide the 88 sts into 8 sections of 11 sts with markers. On the next and every following "
            "alternate round, work k2tog at the end of each section until 64 sts remain, then decrease "
            "like this on every round until 48 sts remain. Fasten off."
        ),
        88,
        [80, 80, 72, 72, 64, 56, 48],
    ),
    (
        "in turn",
        (
            "Place twenty-five stitches on each of four needles.\n"
            "Decreasing round. On each needle, knit two together at the beginning, knit to the last two "
            "stitches, and knit these two together.\n"
            "Plain round. Knit every stitch.\n"
            "Work the decreasing round and the plain round, in turn, until there are 21 stitches on each "
            "needle, which is 84 stitches in all.\n"
            "Then work the decreasing round once more. There are 19 stitches on each needle, 76 stitches "
            "in all."
        ),
        100,
        [92, 92, 84, 84, 76],
    ),
    (
        "ssk after each marker",
        (
            "Divide with 8 markers, 8 sts in each section.\n"
            "Dec rnd: SSK after each marker = 56 sts.\n"
            "Next rnd: K.\n"
            "Work these 2 rnds in total 2 times = 48 sts left.\n"
            "Now SSK after each marker in every rnd, 5 times = 8 sts left."
        ),
        64,
        [56, 56, 48, 48, 40, 32, 24, 16, 8],
    ),
    (
        "alternate",
        (
            "Rnd 1: *k6, k2tog* around.\n"
            "Rnd 2: knit.\n"
            "Repeat rounds 1 and 2 with one stitch less before each decrease, until 40 sts remain."
        ),
        64,
        [56, 56, 48, 48, 40, 40],
    ),
    (
        "as they appear",
        ("Rnd 1: *k2, p2*\nRnd 2: work all sts as they appear.\nRnd 3: *k4, k2tog*"),
        48,
        [48, 48, 40],
    ),
    (
        "repeated alternating",
        (
            "Next rnd: on each needle knit to last 2 sts, k2tog (19 sts on each needle).\n"
            "Next rnd: knit.\n"
            "Repeat these two rounds until there are 18 sts on each needle, then decrease in every round "
            "until there are 17 sts on each needle."
        ),
        80,
        [76, 76, 72, 72, 68],
    ),
    (
        "keep going until named",
        (
            "Rnd 1: (k4, k2tog) 6 times.\n"
            "Rnd 2: knit.\n"
            "Rnd 3: (k3, k2tog) 6 times.\n"
            "Rnd 4: knit.\n"
            "Rnd 5: (k2, k2tog) 6 times.\n"
            "Rnd 6: (k1, k2tog) 6 times."
        ),
        36,
        [30, 30, 24, 24, 18, 12],
    ),
]
"""Ways in which patterns have rounds worked again: each with the stitches cast on and the count after every round."""


@pytest.mark.parametrize(
    ("text", "cast_on", "counts"), [row[1:] for row in TEXTS], ids=[row[0] for row in TEXTS]
)
def test_what_is_worked_again_is_read(text: str, cast_on: int, counts: list[int]) -> None:
    """Nothing is wrong with it, and the counts are those of the pattern."""
    assert after_each_round(read(text, (cast_on,))) == counts


@pytest.mark.parametrize("again", ["4th round: Rep 2nd", "4th: repeat 2nd.", "Rep 2nd.", "Repeat the 2nd;"])
def test_a_round_repeated_is_called_by_its_number_alone(again: str) -> None:
    """The second round is plain."""
    begun = "1st round: *k14, k2tog* 90 sts.\n2nd round: knit.\n3rd round: *k13, k2tog*\n"
    reading = read(f"{begun}{again}\n5th round: *k12, k2tog*. 78 sts.", (96,))

    assert after_each_round(reading) == [90, 90, 84, 84, 78]


@pytest.mark.parametrize(
    "again", ["Rep Rnd 12: 12 sts rem.", "Rep Rnd 12 (12 sts).", "As Rnd 12 12 sts.", "Rep Rnd 12 – 12 sts"]
)
def test_a_count_behind_the_number_of_a_round_is_no_second_round(again: str) -> None:
    """The first was worked twice, since a colon ended no list of rounds."""
    text = f"Rnd 12: *K2tog; rep from * to end (24 sts).\nRnd 13: Knit.\nRnd 14: {again}"

    assert after_each_round(read(text, (48,))) == [24, 24, 12]
