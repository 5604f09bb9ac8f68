"""What is told and not worked: definitions, gauges, charts, other choices."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, words_of_rounds, worked

TEXTS = [
    (
        "sts of the chart",
        (
            "Work all 25 rnds of Chart A, repeating the 12 sts of the chart 10 times around. Break off the "
            "second colour.\n"
            "Crown\n"
            "Next rnd: (k4, k2tog) to end. 100 sts"
        ),
        120,
        [120] * 25 + [100],
    ),
    (
        "definition with a count",
        (
            "CDD: sl 2 sts tog knitwise, k1, p2sso (2 sts decreased)\n"
            "\n"
            "Rnd 1: *K6, CDD, k7; rep from * to end. [84 sts]\n"
            "Rnd 2: Knit.\n"
            "Rnd 3: *K5, CDD, k6; rep from * to end. [72 sts]"
        ),
        96,
        [84, 84, 72],
    ),
    (
        "numbered definition",
        (
            "4. Cable: C8B = put 4 sts on the cable needle behind the work, K4, K4 from the cable needle.\n"
            "Rnd 1: *P1, P2tog, C8B, P2tog, P1* = 96 sts\n"
            "Rnd 2: *P2, K8, P2*"
        ),
        112,
        [96, 96],
    ),
    (
        "short for",
        (
            'Sl1-k2tog-psso ("cdd" for short), 3 sts become 1\n'
            "r 1: (k3, cdd, k3) rep, 63 st\n"
            "r 2: k\n"
            "r 3: (k2, cdd, k2) rep, 45 st"
        ),
        81,
        [63, 63, 45],
    ),
    (
        "heading with a page",
        ("Ridge Crown (book, p. 41)\nRnds 1 and 2: purl.\nRnd 3: *k2tog, k5; rep from * around (72 sts)."),
        84,
        [84, 84, 72],
    ),
    (
        "cast on of old",
        (
            "Cast on 90 stitches. Join.\n"
            "Knit 1 round. (The first version of this sheet had 84 stitches, which was too tight.)\n"
            "Round 2: *k4, k2tog* around. 75 sts"
        ),
        90,
        [90, 75],
    ),
    (
        "choices in brackets",
        (
            "cast on 72. join\n"
            "k3 p3 rib for 6 rounds (or: k1 p1, or k2 p2, they all fit in 72)\n"
            "*k7, k2tog* (64)"
        ),
        72,
        [72] * 6 + [64],
    ),
    (
        "materials, gauge, sizes",
        (
            "Materials: 50 g of DK, 4 mm needles, 8 markers\n"
            "Gauge: 22 sts and 30 rnds to 10 cm\n"
            "Size: to fit a 50 cm head\n"
            "Cast on 64 sts.\n"
            "K1, p1 rib 5 rnds.\n"
            "*k6, k2tog* around.\n"
            "Cut yarn leaving a 20 cm tail, thread through the 56 sts."
        ),
        64,
        [64] * 5 + [56],
    ),
    (
        "gauge in a sentence",
        (
            "My gauge is 22 sts and 30 rounds over 10 cm in stocking stitch on 4 mm needles.\n"
            "Cast on 64 sts. Rib for 5 rounds.\n"
            "*k6, k2tog* around."
        ),
        64,
        [64] * 5 + [56],
    ),
    (
        "told of the pattern repeat",
        (
            "The crown is worked over a multiple of 8 sts, so any number that divides by 8 will do.\n"
            "Cast on 64 sts. Rib for 5 rounds.\n"
            "*k6, k2tog* around."
        ),
        64,
        [64] * 5 + [56],
    ),
    (
        "variations behind",
        (
            "*k6, k2tog* around\n"
            "k2tog around\n"
            "Variation: knit 4 rounds in a second colour before the crown. Or purl 2 rounds for a fold."
        ),
        64,
        [56, 28],
    ),
    (
        "size notes",
        (
            "The hat measures 48 cm around and 20 cm tall when it lies flat. It takes about 60 g.\n"
            "Rnd 1: *k6, k2tog* around."
        ),
        64,
        [56],
    ),
    (
        "safety note",
        ("Never sew buttons on hats for children under 3 years.\nRnd 1: *k6, k2tog* around. 56 sts"),
        64,
        [56],
    ),
    (
        "moss fabric with number",
        (
            "Rnd 1 *Moss 11, sl 1, k2tog, psso; rep from * to end. 72 sts.\n"
            "Rnd 2 Moss st to end.\n"
            "Rnd 3 *Moss 9, sl 1, k2tog, psso; rep from * to end. 60 sts."
        ),
        84,
        [72, 72, 60],
    ),
    (
        "seed fabric with number",
        (
            "Rnd 1: *Seed 8, k2tog; rep from * to end: 90\n"
            "Rnd 2: work sts as they come\n"
            "Rnd 3: *Seed 7, k2tog; rep from * to end: 80"
        ),
        100,
        [90, 90, 80],
    ),
    (
        "all in rib",
        (
            "All in rib. Work *k3, p1* for 3 rounds, then shape the crown:\n"
            "Rnd 1: *k3, p1, k1, k2tog, p1* – 84 sts"
        ),
        96,
        [96] * 3 + [84],
    ),
    (
        "questions",
        (
            "4. Knit 3, knit 2 together, all the way round. Have you 40 stitches?\n"
            "5. Knit 1 round. 6. Knit 2, knit 2 together, all the way round. Have you 30 stitches?"
        ),
        50,
        [40, 40, 30],
    ),
    (
        "told count between needles",
        (
            "The 84 stitches are now on three needles, 28 on each.\n"
            "* K. 12, k. 2 tog., repeat from * to end of round (26 stitches on each needle, 78 in all). K. "
            "1 round plain.\n"
            "* K. 11, k. 2 tog., repeat from * to end of round (24 on each needle)."
        ),
        84,
        [78, 78, 72],
    ),
    (
        "markers in the round",
        (
            "Next rnd: knit, placing a marker every 12 sts (7 markers with the one at the start of the "
            "rnd; 84 sts).\n"
            "Dec rnd: *knit to 2 sts before marker, k2tog; rep from * to end."
        ),
        84,
        [84, 77],
    ),
    (
        "place markers while knitting",
        (
            "Knit 1 round, placing a marker after every 12 sts (7 markers).\n"
            "Dec rnd: *knit to 2 sts before marker, k2tog; rep from * to end."
        ),
        84,
        [84, 77],
    ),
]
"""Texts in which something is told beside the work: each with the stitches cast on and the count after every round."""


@pytest.mark.parametrize(
    ("text", "cast_on", "counts"), [row[1:] for row in TEXTS], ids=[row[0] for row in TEXTS]
)
def test_what_is_told_is_not_worked(text: str, cast_on: int, counts: list[int]) -> None:
    """Nothing is wrong with it, and the counts are those of the pattern."""
    assert after_each_round(read(text, (cast_on,))) == counts


@pytest.mark.parametrize(
    "line",
    [
        "*k3, p2; repeat from * to the end of the round. Do this 8 times.",
        "Rib: *k3, p2; rep from * around. Repeat this 8 times.",
        "K3, p2 to the end. Do that 8 times in all.",
    ],
)
def test_a_round_to_the_end_is_done_so_many_times(line):
    """What goes to the end of the round and is then to be done 8 times is 8 rounds."""
    reading = read(f"{line}\nKnit 1 round.", (90,))

    assert ["*k3, p2; rep from * around"] * 8 + ["knit"] == words_of_rounds(reading)
    assert not reading.findings


def test_stitches_with_dots_are_decreases_in_spanish():
    """`2 p. j.` is two stitches together, in stars whose end stands close to it."""
    reading = read("Vuelta 5: *6 p. d., 2 p. j.* rep. hasta el final (63 p.)", (72,), "es")

    assert [(72, 63, "*k6, k2tog; rep from * around")] == worked(reading)


def test_rounds_behind_a_change_of_needles_are_worked():
    """`Change to the bigger needles and work ... until`: what is changed to is no length."""
    text = "Change to the bigger needles and work in plain knitting until the hat is 5 inches tall."
    reading = read(f"Rnd 1: purl.\n{text}\nNext rnd: (k7, k2tog) 8 times. 64 sts", (72,))

    assert [72, 72, 64] == after_each_round(reading)
    assert ["to_a_length"] == [finding.code for finding in reading.findings]


def test_markers_placed_at_the_cast_on_are_those_of_the_crown():
    """Nothing is assumed of sections that the cast-on has marked."""
    text = "Cast on 96 sts; place a marker after every 12 stitches.\nRnd 1: purl.\n"
    reading = read(
        f"{text}Dec rnd: *knit to 2 sts before marker, k2tog, slip marker; rep from * to end. 88 sts.", (96,)
    )

    assert [96, 88] == after_each_round(reading)
    assert not reading.findings


@pytest.mark.parametrize(
    "line",
    [
        "Rnds begin with p2 before a cable; last cable crossing was worked 5 rnds ago.",
        "Note: each rnd begins with p2; you crossed the cables 5 rounds ago.",
        "Rounds begin with p2. Last cross was 5 rounds back.",
    ],
)
def test_how_long_ago_a_round_was_worked_works_none(line):
    """The crown begins with its numbered rounds."""
    reading = read(f"{line}\nRnd 1: *P2tog, k6, p2tog, k2* [80 sts]\nRnd 2: *P1, k6, p1, k2*", (96,))
    assert after_each_round(reading) == [80, 80]


@pytest.mark.parametrize(
    "line",
    [
        'Slip these 4 sts to one needle, work an i-cord of 5 cm / 2", cut yarn and tie the cord in a knot.',
        "Slip the sts to a dpn and work i-cord for 5 cm.",
        "Work 4-st i-cord for 2 inches, then cut yarn.",
        "Knit a 4-stitch i-cord 5 cm long.",
        "Knit 4 sts as i-cord for 5 cm.",
        "Slip all 4 sts to one needle.",
    ],
)
def test_a_cord_at_the_top_is_no_round(line: str) -> None:
    """Neither is moving its stitches to one needle."""
    assert after_each_round(read(f"Rnd 1: *k1, k2tog*.\nRnd 2: *k2tog*. 4 sts.\n{line}", (12,))) == [8, 4]


def test_rounds_before_a_cord_are_worked() -> None:
    """A knit round behind the decreases, and then the cord."""
    text = "Rnd 1: *k1, k2tog*.\nRnd 2: *k2tog*. 4 sts.\nKnit 1 round, then work a 4-st i-cord for 5 cm."

    assert after_each_round(read(text, (12,))) == [8, 4, 4]


@pytest.mark.parametrize(
    "slipped", ["slip the next st to the right needle", "slip 1 st onto the right-hand needle"]
)
def test_a_stitch_slipped_to_the_right_needle_is_part_of_a_decrease(slipped: str) -> None:
    """Three stitches become one, of eight."""
    text = f"*K5, {slipped}, k2tog, pass the slipped st over; rep from * to end. 60 sts"

    assert after_each_round(read(text, (80,))) == [60]
