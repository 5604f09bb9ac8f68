"""Rounds that are told in sentences, under their names and in lists with stars, as many people write them.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts, faults, number_of_rounds, worked


@pytest.mark.parametrize(
    "text",
    [
        (
            "On the first round: *k10, k2tog* to end.\nOn the second round, and on all even rounds: knit.\n"
            "On the third round: *k9, k2tog* to end.\nOn the fifth round: *k8, k2tog* to end."
        ),
        (
            "In the first round *k10, k2tog*, 8 times.\nIn the 2nd round and every even round knit.\n"
            "In the third round *k9, k2tog*, 8 times.\nIn the fifth round *k8, k2tog*, 8 times."
        ),
        (
            "Next round: *K10, k2tog; rep from * to end.\nNext and every foll alt round: knit.\n"
            "Round 3: *K9, k2tog; rep from * to end.\nRound 5: *K8, k2tog; rep from * to end."
        ),
        (
            "NEXT ROUND\n*K10, k2tog; rep from * to end\nNEXT ROUND AND EVERY ALTERNATE ROUND\nK. to end\n"
            "3rd ROUND\n*K9, k2tog; rep from * to end\n5th ROUND\n*K8, k2tog; rep from * to end"
        ),
        (
            "Next round: *K10, k2tog* to end.\nNext round and all following even rounds: knit.\n"
            "3rd round: *K9, k2tog* to end.\n5th round: *K8, k2tog* to end."
        ),
    ],
)
def test_plain_rounds_told_once_are_worked_between(text: str) -> None:
    """Three decrease rounds from 96 stitches, with the even rounds plain: five rounds."""
    reading = read(text, (96,))

    assert counts(reading) == [[96, 88, 80, 72]]
    assert len(reading.rounds[0]) == 5


@pytest.mark.parametrize(
    "text",
    [
        (
            "The first decreasing round is (knit 12, knit 2 together) eight times, leaving 104. A plain round follows. "
            "The second is (knit 11, knit 2 together) eight times, leaving 96; a plain round follows; "
            "the third is (knit 10, knit 2 together) eight times, leaving 88."
        ),
        (
            "The last two stitches of every 14 are to be knitted together, so that the first round is "
            "(knit 12, knit 2 together) eight times. Knit a round. Then (k11, k2tog) 8 times; knit a round; "
            "the next round is (k10, k2tog) 8 times, 88 left."
        ),
    ],
)
def test_a_round_is_told_behind_is(text: str) -> None:
    """What stands before `the first round is` is told, and worked with it."""
    reading = read(text, (112,))

    assert counts(reading) == [[112, 104, 96, 88]]
    assert len(reading.rounds[0]) == 5


@pytest.mark.parametrize(
    "line",
    [
        "Lose four stitches first and you're back on the chart. So: (k21, k2tog) 4 times, that's 88.",
        "Decrease 4 stitches so that it divides by 8. Like this: (k21, k2tog) 4 times. 88 sts.",
        "You need to lose four stitches. That is: *k21, k2tog* 4 times - 88.",
        "Decrease 4 sts evenly in the next round, as follows: *k21, k2tog* 4 times (88)",
        "Now get rid of four stitches. Here is how: (k21, k2tog) 4 times (88)",
    ],
)
def test_stitches_that_go_are_announced(line: str) -> None:
    """How many go is told first, and how behind a colon: one round."""
    reading = read(line, (92,))

    assert counts(reading) == [[92, 88]]
    assert len(reading.rounds[0]) == 1


def test_decreases_before_another_round_are_no_announcement() -> None:
    """Two sentences with a count each are two rounds."""
    counted = read("Decrease 8 stitches evenly (56). Next: (k5, k2tog) 8 times - 48", (64,))
    parted = read("Decrease 8 stitches evenly. Then: (k5, k2tog) 8 times - 48", (64,))

    assert counts(counted) == counts(parted) == [[64, 56, 48]]


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        ("Alternate Dec rnd with a knit rnd until 60 sts rem.", 10),
        ("Keep alternating decrease rounds with knit rounds until 60 sts remain.", 9),
        ("Alternate a decrease round and a plain round until 60 stitches are left.", 10),
        ("Dec rnd every rnd until 60 sts rem.", 5),
    ],
)
def test_two_rounds_are_alternated_by_their_names(text: str, rounds: int) -> None:
    """Six stitches go in every decrease round; from 90 it takes five to come to 60."""
    reading = read(f"Pm every 15 sts.\nDec rnd: *ssk, knit to m, sm; rep from * around.\n{text}", (90,))

    assert counts(reading) == [[90, 84, 78, 72, 66, 60]]
    assert len(reading.rounds[0]) == rounds


def test_a_round_keeps_the_name_that_the_text_gives_it() -> None:
    """`Swirl rnd` is called for by its own name, whatever stands behind it."""
    text = (
        "Pm every 15 sts: 6 markers.\nSwirl rnd: *Ssk, knit to m, sm; rep from * around. 6 sts dec'd.\n"
        "Alternate Swirl rnd with a knit rnd until 48 sts rem, then work Swirl rnd EVERY rnd until 12 sts rem."
    )
    assert counts(read(text, (90,))) == [[*range(90, 11, -6)]]


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        ("Ribbing Round: *K1, p1; rep from * around. Work Ribbing Round 10 times in total.", 10),
        ("Rib rnd: *k1, p1* around.\nWork rib rnd 9 more times.", 10),
        ("Rib rnd: *k1, p1* around.\nRepeat rib rnd 9 times.", 10),
        ("Pattern round: *k4, p1* to end. Work the pattern round 5 times in all.", 5),
        ("Seed round: *k1, p1* to end. Do the seed round twice more.", 3),
    ],
)
def test_a_round_called_by_its_fabric_is_worked_so_often(text: str, rounds: int) -> None:
    """The number behind the name is how often, and no number of a round."""
    assert number_of_rounds(read(text, (110,))) == [rounds]


LISTS = [
    (
        (
            "* CO 64 sts\n* Join in the round\n* K2, p2 rib for 10 rounds\n* Knit 20 rounds\n"
            "* *K6, k2tog* around (56 sts)\n* Knit 1 round\n* *K5, k2tog; rep from * around. 48 sts"
        ),
        [64, 56, 48],
        33,
    ),
    (
        (
            "* Ribbing: k2, p2 for 10 rounds\n* Body: knit 20 rounds.\n* K6, k2tog to the end of the round (56 sts)\n"
            "* Plain round."
        ),
        [64, 56],
        32,
    ),
    (
        (
            "* K2 P2 rib, 14 rnds.\n* Next rnd: inc 8 sts evenly. (72 sts)\n* Stockinette, 30 rnds.\n"
            "* Crown. Think 8 parts of 9 sts.\n  rnd 1: (k7, k2tog) x 8 ...64 sts"
        ),
        [64, 72, 64],
        46,
    ),
    ("* k6, k2tog; rep from * around\n* k5, k2tog; rep from * around", [64, 56, 48], 2),
]


@pytest.mark.parametrize(("text", "wanted", "rounds"), LISTS)
def test_stars_that_begin_the_lines_of_a_list_repeat_nothing(
    text: str, wanted: list[int], rounds: int
) -> None:
    """A star is a bullet where lines without stitches begin with it too, and nothing goes back to it."""
    reading = read(text, (64,))

    assert counts(reading) == [wanted]
    assert len(reading.rounds[0]) == rounds


@pytest.mark.parametrize(
    "words",
    [
        "What is between * * is repeated around.",
        "Repeat what is between * and * all round.",
        "Rep between * * to the end of every round.\nWhat is between * * is repeated.",
    ],
)
@pytest.mark.parametrize(
    "text", ["{}\nRnd 1: *k7, k2tog* 56\nRnd 2: knit.", "Rnd 1: *k7, k2tog* 56\nRnd 2: knit.\n{}"]
)
def test_what_two_stars_mean_is_no_work(words: str, text: str) -> None:
    """A line that says what is done between two stars repeats nothing itself."""
    assert after_each_round(read(text.format(words), (63,))) == [56, 56]


def test_a_repeat_between_two_stars_that_stand_nowhere_is_called_wrong() -> None:
    """The sentence orders a repeat, and there is none."""
    assert faults(read("Rnd 1: k to end.\nRepeat between * *", (84,))) == [("no_star", 2)]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("K 7, 2 tog, round - 64", [72, 64]),
        ("K 7, 2 tog, round — 64\n1 round plain\nK 6, 2 tog, round — 56", [72, 64, 56]),
        ("8 parts of 9 sts. Rnd 1: (k7, k2tog) to end.", [72, 64]),
        ("Round 1: * W.fwd., k.2 tog.; rep. from * to end.\nRound 2: (k7, k2tog) to end.", [72, 64]),
        ("Round 1: * wl. fwd., k.2 tog.; rep. from * to end.\nRound 2: (k7, k2tog) to end.", [72, 64]),
        ("Round 1: * y.r.n., p.2 tog.; rep. from * to end.\nRound 2: (k7, k2tog) to end.", [72, 64]),
        ("Knit twice into every 8th stitch", [72, 81]),
        ("Inc rnd: knit twice in every 4th st - 90 sts.", [72, 90]),
        (
            "72 sts, chunky yarn, 6.5mm circular, no shaping until the end.\nRnd 1: (k7, k2tog) to end.",
            [72, 64],
        ),
    ],
)
def test_words_of_single_rounds(text: str, wanted: list[int]) -> None:
    """Old short forms, a count behind the word for the round, needles told beside the count."""
    reading = read(text, (72,))

    assert counts(reading) == [wanted]
    assert not [finding for finding in reading.findings if finding.code == "to_a_length"]


@pytest.mark.parametrize(
    ("end", "rounds"),
    [
        ("until you have worked (k7, k2tog).", 15),
        ("until you have worked (k7, k2tog) 6 times.", 15),
        ("until we have done the round with k7, k2tog. 48 sts.", 15),
        ("until you have worked (k7, k2tog) and its plain round.", 16),
        ("until you have worked (k7, k2tog) and a plain round.", 16),
        ("down to the round that goes knit 7, k2tog, which leaves you 48, and its plain round.", 16),
        ("until 48 sts remain, with its plain round.", 16),
    ],
)
def test_a_crown_goes_on_to_a_round_and_the_plain_one_behind_it(end: str, rounds: int) -> None:
    """From 96 by sixes to 48, a plain round between: eight decrease rounds and seven, or eight, plain ones."""
    text = (
        f"(k14, k2tog) 6 times. Knit 1 round. (k13, k2tog) 6 times. Knit 1 round.\nCarry on in this way {end}"
    )
    reading = read(text, (96,))

    assert counts(reading) == [[*range(96, 47, -6)]]
    assert len(reading.rounds[0]) == rounds


@pytest.mark.parametrize(
    ("text", "rib"),
    [
        ("Twelve rounds of two and two rib. (Knit two, purl two.)", "*k2, p2; rep from * around"),
        ("12 rounds in 3 and 1 ribbing", "*k3, p1; rep from * around"),
        ("Work in two and two rib for 12 rounds.", "*k2, p2; rep from * around"),
        ("Two and two rib, 12 rounds.", "*k2, p2; rep from * around"),
        ("12 rounds of 2 & 2 rib (k2, p2).", "*k2, p2; rep from * around"),
    ],
)
def test_a_rib_is_named_by_its_two_numbers(text: str, rib: str) -> None:
    """So many rounds of it, however it is explained behind."""
    assert worked(read(text, (96,))) == [(96, 96, rib)] * 12


def test_a_count_behind_times_over_is_compared() -> None:
    """`six times over, ninety left`: the comma parts the times from the count."""
    text = "Knit fourteen, knit two together, six times over, {} left."

    assert counts(read(text.format("ninety"), (96,))) == [[96, 90]]
    assert [finding.code for finding in errors(read(text.format("ninety-one"), (96,)))] == ["count_differs"]


def test_a_round_is_spoken_of_behind_the_end() -> None:
    """A question about the yarn in a round works no round."""
    text = "Rnd 1: knit.\nRnd 2: (k10, k2tog) x 8.\nBreak yarn.\n8. Estimate the length of yarn in round 2."

    assert after_each_round(read(text, (96,))) == [96, 88]
