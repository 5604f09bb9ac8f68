"""Rounds that are told otherwise than one a line: after others, alike, between signs, by their places, from a chart.

The counts are worked by hand.
"""

import re

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts, number_of_rounds, words_of_rounds


@pytest.mark.parametrize(
    "heading",
    [
        "Chart A (16 sts, worked 7 times per rnd)",
        "chart A (16 sts to start, worked 7 times per rnd; the k1 is in CC, the rest MC)",
        "Chart A (16-st repeat, 7 repeats per round)",
        "Star chart: 16 sts, worked 7 times around",
        "CHART 2, 16 sts x 7 to the round",
        "Band of diamonds (16 sts, worked 7 times around)",
        "Chart for the crown - 16 stitches (repeat 7 times)",
    ],
)
def test_the_stitches_of_a_repeat_before_its_rounds_are_no_count(heading: str) -> None:
    text = f"Cast on 112 sts.\nKnit 4 rounds.\n{heading}:\nR1 / k14, k2tog\nR2 / k1 CC, k14 MC [105 sts]"
    reading = read(text, (112,))
    assert counts(reading) == [[112, 105]]
    assert len(reading.rounds[0]) == 6


def test_rounds_of_a_second_chart_are_counted_from_1_again() -> None:
    text = (
        "Cast on 104 sts.\nchart A (13 sts, worked 8 times per rnd):\nR1 / p2, k9, p2\nR2 to R6 / p2, k4, p2, k5\n"
        "work R1 to R6 six times in all. 36 rnds.\nchart B (13 sts to start, worked 8 times per rnd):\n"
        "R1 / k11, k2tog [96 sts]\nR2, R4 / knit\nR3 / k10, k2tog [88 sts]"
    )
    reading = read(text, (104,))
    assert counts(reading) == [[104, 96, 88]]
    assert len(reading.rounds[0]) == 40


@pytest.mark.parametrize(
    ("label", "rounds"),
    [
        ("R2, R3, R4 / ", 4),
        ("R2, R3 and R4: ", 4),
        ("Rnd 2, Rnd 3 and Rnd 4: ", 4),
        ("Row 2, Row 3: ", 3),
        ("R2 + R3 / ", 3),
        ("R2 to R6 / ", 6),
        ("R2/R3/R4: ", 4),
        ("Round 2 and Round 3 / ", 3),
    ],
)
def test_the_word_round_may_stand_before_each_number(label: str, rounds: int) -> None:
    reading = read(f"R1 / k6, k2tog\n{label}knit", (64,))
    assert counts(reading) == [[64, 56]]
    assert len(reading.rounds[0]) == rounds


@pytest.mark.parametrize(
    ("again", "rounds"),
    [
        ("Work R1 to R4 3 times in all.", 12),
        ("Work R1-R4 3 times in all (12 rnds).", 12),
        ("Work R1 to R4 3 times in all. 12 rnds.", 12),
        ("Repeat Rnd 1 to Rnd 4 twice more. 12 rounds.", 12),
        ("Repeat R1, R2, R3 and R4 twice more.", 12),
        ("Rep R1 through R4 two more times. That's 12 rounds.", 12),
        ("Work R3 and R4 twice more, 4 rnds.", 8),
    ],
)
def test_rounds_told_with_the_word_before_each_number_are_worked_again(again: str, rounds: int) -> None:
    chart = "R1 / in B: k7, sl 1\nR2 / in B: p7, sl 1\nR3, R4 / in A: knit\n"
    assert number_of_rounds(read(f"{chart}{again}", (64,))) == [rounds]


@pytest.mark.parametrize(
    ("work", "rounds"),
    [
        ("Work 8 rnds of garter: purl a rnd, knit a rnd, four times in all.", 8),
        ("Garter edge, 6 rounds: *purl 1 rnd, knit 1 rnd* 3 times.", 6),
        ("6 rnds in garter st: k one rnd, p one rnd, twice more.", 6),
        ("Work 8 rounds of garter: purl 1 round, knit 1 round.", 8),
        ("Work in garter st for 6 rnds: p 1 rnd, k 1 rnd, three times.", 6),
    ],
)
def test_rounds_of_a_fabric_explained_behind_a_colon_are_worked_once(work: str, rounds: int) -> None:
    """As many as are told; which of them are purled is not held here, since garter by its name is read as knit."""
    assert number_of_rounds(read(f"Cast on 64 sts.\n{work}", (64,))) == [rounds]


@pytest.mark.parametrize(
    ("line", "rounds"),
    [
        ("Purl a round. Knit a round. Purl, knit, purl, knit, purl, knit. That's your edge.", 8),
        ("Knit, purl, knit, purl.", 4),
        ("Purl one round, knit one, purl one, knit one.", 4),
        ("Knit a round, purl a round, knit, purl.", 4),
        ("Knit, purl, knit and purl: four rounds of garter.", 4),
        ("Purl, knit, purl, knit (4 rounds).", 4),
        ("Then knit, purl, knit, purl, knit, purl, that is your edge.", 6),
        ("Knit, then purl, then knit, then purl.", 4),
    ],
)
def test_rounds_may_be_told_by_their_verbs_in_a_list(line: str, rounds: int) -> None:
    verbs = words_of_rounds(read(f"Cast on 64.\n{line}\nKnit 2 rounds.", (64,)))
    assert verbs == [*(verb.lower() for verb in re.findall("(?i)knit|purl", line)), "knit", "knit"]
    assert len(verbs) == rounds + 2


@pytest.mark.parametrize(
    "line", ["*Knit, purl* all round, for 6 rounds.", "Rib: k1, p1, k1, p1 all round for 6 rounds."]
)
def test_verbs_of_a_rib_are_no_rounds(line: str) -> None:
    assert number_of_rounds(read(f"Cast on 64.\n{line}", (64,))) == [6]


@pytest.mark.parametrize(
    ("plain", "on"),
    [
        (
            "Then a round with nothing done to it",
            "one less to knit every time and a nothing round after it, down to",
        ),
        ("Another round with nothing", "with a nothing round after each, down to"),
        ("A nothing round", "one less to knit every time, down to"),
        ("Then a rest round", "with a rest round after each, until you have done"),
        ("Knit a resting round", "and a resting round after it, until you've worked"),
    ],
)
@pytest.mark.parametrize("count", [", which is 36,", ", leaving 36 stitches,", " (36 sts)", ""])
def test_a_round_in_which_nothing_is_done_is_plain(plain: str, on: str, count: str) -> None:
    text = (
        f"Cast on 72.\nKnit 10, knit 2 together, six times. That leaves 66. {plain}.\n"
        f"Knit 9, knit 2 together, six times, 60. {plain}.\n"
        f"And you go on like that, {on} knit 5, knit 2 together{count} and its nothing round.\n"
        "Knit 4, knit 2 together, 30."
    )
    reading = read(text, (72,))
    assert counts(reading) == [[72, 66, 60, 54, 48, 42, 36, 30]]
    assert len(reading.rounds[0]) == 13


@pytest.mark.parametrize(
    "rounds",
    [
        "Knit 3 and 2 together. 32.\nKnit 2 and 2 together. 24.\nKnit 1 and 2 together. 16.",
        "Knit three and two together, all round, 32.\nKnit two and two together, all round, 24.\nK1, k2tog. 16.",
        "Three and two together. [32, the phone rang]\nTwo and two together. 24.\nOne and two together. 16.",
        "K 3, k2tog = 32\nK 2 and 2 tog = 24\nK 1 and 2 tog = 16",
        "Purl 3 and 2 together. 32.\nPurl 2 and 2 together. 24.\nPurl 1 and 2 together.",
    ],
)
def test_two_and_two_together_among_rounds_alike_begins_with_plain_stitches(rounds: str) -> None:
    assert counts(read(f"Cast on 40.\n{rounds}\nTwo together, two together, all the way. 8.", (40,))) == [
        [40, 32, 24, 16, 8]
    ]


def test_two_and_two_together_alone_is_a_decrease_all_around() -> None:
    assert counts(read("Cast on 40.\nKnit 3, k2tog around.\nKnit 2 and 2 together all round.", (40,))) == [
        [40, 32, 16]
    ]


@pytest.mark.parametrize(
    "line",
    [
        "Growing: 5 knit, 1 new from the thread between, 18 times. 90 + 18 = 108.",
        "Inc rnd: *k5, pick up 1 from the bar between* 18 times (108)",
        "Knit 5, lift 1 stitch from between, all around. 108",
        "K5, lift the bar between the stitches and knit into the back of it, 18 times. 108 sts.",
        "Knit 5 and make a stitch, all round. 108.",
        "Next round: knit 5, make a new stitch out of the thread between, repeat to end = 108",
        "*5 knit, one extra stitch; rep from * (108)",
        "Knit 5 and make a stitch, and go on till you've done it eighteen times. 108",
        "Next one you knit 5, make a stitch, keep going like that until you have done it 18 times. How many? [108]",
        "K5, m1; repeat until you have done this 18 times (108).",
        "Knit 5, make one, and carry on till it's been done eighteen times, 108.",
        "Knit 5, make 1. Do that till you've done it eighteen times. 108 stitches.",
        "Knit 5, make 1. Go on like that until you've made it eighteen times. 108 stitches.",
    ],
)
def test_a_new_stitch_is_told_by_where_it_comes_from(line: str) -> None:
    reading = read(f"Cast on 90.\n{line}\nKnit 3 rounds.", (90,))
    assert counts(reading) == [[90, 108]]
    assert len(reading.rounds[0]) == 4


def test_rounds_are_worked_until_they_were_done_so_often() -> None:
    text = "Cast on 64.\nKnit 1 round, purl 1 round, and go on until you've done it four times."
    assert words_of_rounds(read(text, (64,))) == ["knit", "purl"] * 4


def test_stitches_spoken_of_before_any_work_are_not_made() -> None:
    text = "Make a stitch marker from a loop of yarn between your fingers.\nCast on 64.\nK1, p1 for 6 rounds."
    assert after_each_round(read(text, (64,))) == [64] * 6


@pytest.mark.parametrize(
    ("lines", "rounds"),
    [
        (
            "Belt, 5 rounds, all knit:\n rounds 1, 2: white\n round 3: 1 black, 3 white\n round 4, 5: black",
            5,
        ),
        (
            "Stripes, 4 rounds, all plain:\n1st and 2nd round: blue\n3rd round: 3 blue, 1 cream\n4th round: in white",
            4,
        ),
        ("Work 4 rounds in colours as follows:\nRnds 1-2: MC\nRnd 3: MC 3, CC 1\nRnd 4: CC", 4),
        (
            "Rnd 1: white 3, dark blue 1; rep\nRnd 2: *2 white, 2 light grey; rep from *\nRnd 3: (1 red, 1 white)",
            3,
        ),
        ("R1 / 3 MC, 1 CC\nR2 / 1 CC, 1 MC, 1 CC, 1 MC\nR3 / MC\nRnd 4: in colour B\nRnd 5: with A only", 5),
        ("Rnd 1: with black k1, with white k3\nRnd 2: CC k1, MC k3.", 2),
        ("Pattern (8 sts, 6 rnds):\nRnd 1: 4 MC and 4 CC\nRnd 2 and 3: knit in white\nRnds 4-6: white", 6),
    ],
)
def test_rounds_and_stitches_may_be_told_by_their_colours(lines: str, rounds: int) -> None:
    reading = read(f"Cast on 96.\n{lines}\nKnit 2 rounds.", (96,))
    assert counts(reading) == [[96]]
    assert len(reading.rounds[0]) == rounds + 2


def test_a_round_told_by_its_colours_has_to_come_out() -> None:
    reading = read("Cast on 94.\nRound 1: knit\nRound 2: 1 black, 3 white", (94,))
    assert [finding.line for finding in errors(reading)] == [3]


def test_grams_of_a_colour_are_no_stitches() -> None:
    text = "Yarn: white 70 g, black 20 g\nNeeds: 2 white, 1 black\nCast on 96.\nKnit 2 rounds."
    assert number_of_rounds(read(text, (96,))) == [2]


@pytest.mark.parametrize(
    ("defined", "used"),
    [
        (
            'Word "3 in middle": take off 2 together as for knitting, knit next, pull 2 over it. Was 3, is 1.',
            "3 in middle",
        ),
        ("Star dart: three loops go over each other on the needle; 3 sts become 1.", "star dart"),
        ("Term big dec: take off two as one, knit the next, lift the two over. Was 3, now 1.", "big dec"),
        ("peak = turn 3 stitches into 1, the middle on top", "peak"),
        ('Word "roof over": it takes 3 stitches and leaves 1, the middle lies on top', "roof over"),
    ],
)
def test_a_word_is_known_by_how_many_stitches_it_leaves(defined: str, used: str) -> None:
    text = (
        f"{defined}\nCast on 104.\nKnit 2 rounds.\nRound 1: 5 knit, {used}, 5 knit (8 times). 8 x 11 = 88\n"
        f"Round 2: knit\nRound 3: 4 knit, {used}, 4 knit (8 times). 8 x 9 = 72"
    )
    assert counts(read(text, (104,))) == [[104, 88, 72]]


def test_a_word_that_leaves_one_of_two_is_another_than_one_of_three() -> None:
    text = "Word nip: the second goes over the first, was 2, is 1\nCast on 60.\nRound 1: 8 knit, nip (6 times). 54"
    assert counts(read(text, (60,))) == [[60, 54]]


@pytest.mark.parametrize(
    "equation",
    [
        "9 x 11 = 99",
        "9 × 11 = 99 stitches",
        "108 - 9 = 99",
        "108 minus 9 = 99 sts",
        "(9 x 11 = 99)",
        "9 times 11 = 99",
        "9 * 11 = 99",
        "9 x 11 is 99",
        "9 by 11 = 99",
        "108 - 9 stitches = 99 stitches",
    ],
)
def test_an_equation_behind_a_round_is_its_count(equation: str) -> None:
    assert counts(read(f"Cast on 108.\n10 knit, 2 together. {equation}. Then 2 rounds knit", (108,))) == [
        [108, 99]
    ]
    wrong = read(f"Cast on 117.\nKnit 1 round.\n11 knit, 2 together. {equation}. Then 2 rounds knit", (117,))
    assert [finding.line for finding in errors(wrong)] == [3]


@pytest.mark.parametrize(
    "parts",
    [
        "108 : 9 = 12 stitches in part, 9 parts.",
        "108 ÷ 9 = 12 stitches in each part.",
        "9 parts, 108 : 9 = 12.",
        "108 / 9 = 12 stitches in one ray.",
        "Calculation: 108 : 9 = 12 stitches.",
    ],
)
def test_a_division_says_how_many_stitches_a_part_has(parts: str) -> None:
    text = f"Cast on 108.\nKnit 2 rounds.\nTop, white. {parts}\n10 knit, 2 together. 9 x 11 = 99"
    reading = read(text, (108,))
    assert counts(reading) == [[108, 99]]
    assert len(reading.rounds[0]) == 3


@pytest.mark.parametrize(
    "begin",
    [
        "Make 104 stitches and close to the ring.",
        "With nr. 7 make 104 stitches, close to the ring.",
        "With nr. 3 and white make 104 sts on the needle. Join.",
        "Make loosely 104 stitches.",
    ],
)
def test_so_many_stitches_that_are_made_first_are_cast_on(begin: str) -> None:
    text = f"Word: 2 knit, 3 purl is told here\n{begin}\nEdge: 2 knit, 2 purl, 4 rounds."
    assert number_of_rounds(read(text, (104,))) == [4]
    assert [finding.code for finding in errors(read(text, (100,)))][:1] == ["cast_on_differs"]


@pytest.mark.parametrize(
    "line",
    [
        "Purl one round. Knit one round. Purl, knit, purl, knit. That's six.",
        "Purl, knit, purl, knit, purl, knit. How many's that? [six rounds, Gran] Six. That's your edge.",
        "Knit 3 rounds, purl 3 rounds. Six.",
        "Knit, purl, knit, purl, knit, purl - six rounds",
    ],
)
def test_a_number_behind_plain_rounds_may_be_how_many_they_are(line: str) -> None:
    reading = read(f"Cast on 88.\n{line}\nKnit 9 and 2 together all round. That's 80.", (88,))
    assert counts(reading) == [[88, 80]]
    assert len(reading.rounds[0]) == 7


def test_a_number_behind_plain_rounds_that_is_neither_is_wrong() -> None:
    reading = read("Cast on 88.\nPurl a round. Knit a round. That's 80.\nKnit 2 rounds.", (88,))
    assert [finding.code for finding in errors(reading)] == ["count_differs"]


@pytest.mark.parametrize(
    "again",
    [
        "Rows 1 to 3 are worked four times in all, 12 rounds.",
        "Rows 1-3 are worked three more times.",
        "Rounds 1 to 3 are done four times in total.",
        "Work R1 to R3 four times in all.",
    ],
)
def test_rounds_of_a_chart_told_by_letters_are_worked_again(again: str) -> None:
    text = (
        "Cast on 72 sts. Work 8 rounds of k1, p1.\nChart A (worked 6 times around, 12 sts each):\n"
        f"Row 1: knit 11 A, 1 B\nRow 2: knit 10 A, 2 B\nRow 3: 9 A, 3 B\n{again}\nKnit 2 rounds."
    )
    assert number_of_rounds(read(text, (72,))) == [22]


def test_what_becomes_of_stitches_goes_before_how_they_are_told() -> None:
    text = 'Word "mouse ear": knit 2 in one place. From 1 become 2.\nCast on 60\nRound 1: 9 knit, mouse ear (6 times)'
    assert counts(read(text, (60,))) == [[60, 66]]


@pytest.mark.parametrize(
    "bracket",
    [
        "(12-st repeat, 9 times per rnd)",
        "(12-st repeat)",
        "(9 repeats of 12 sts)",
        "(the 12-st rep is worked 9 times in each rnd)",
        "[9 reps of 12 sts per rnd]",
    ],
)
def test_the_repeat_of_a_chart_in_a_bracket_behind_it_is_no_work(bracket: str) -> None:
    reading = read(f"Work the 27 rnds of the chart {bracket}.\nDec rnd: *K10, k2tog* (99 sts)", (108,))
    assert not errors(reading)
    assert after_each_round(reading) == [108] * 27 + [99]


@pytest.mark.parametrize(
    "line",
    [
        "Join CC and work the 18 rounds of the chart, repeating the 10 sts of the chart 11 times in each round.",
        "Work the 18 rounds of the chart. Repeat the 10 sts of the chart 11 times in each round.",
        "Work from the chart for 18 rounds, repeating the 10 chart sts 11 times each rnd.",
        "Now work the chart (18 rounds), repeating it 11 times in each round.",
    ],
)
def test_how_often_a_chart_is_repeated_in_a_round_adds_no_round(line: str) -> None:
    """Eighteen rounds, and the decrease round behind them."""
    text = f"{line}\nNext round: *k9, k2tog* to end. [100 sts]"

    assert after_each_round(read(text, (110,))) == [*[110] * 18, 100]


@pytest.mark.parametrize(
    ("work", "rounds"),
    [
        ("Work the 8 rnds of the chart 3 times.", 24),
        ("Work the 8 rnds of the chart 3 times, then begin the crown:", 24),
        ("Work all 8 rnds of the chart twice (16 rnds).", 16),
        ("Work all 8 rnds of the chart twice (18 rnds).", 16),
        ("Work the chart 3 times (8 rnds each).", 24),
        ("Knit the 8 rnds of chart A 3 times.", 24),
        ("Work the 8 rnds of chart A 3 times, then the 4 rnds of chart B twice.", 32),
        ("Work the 8 rnds of chart A 8 times around.", 8),
        ("Work the 8 rnds of the chart.", 8),
    ],
)
def test_the_rounds_of_a_chart_are_worked_so_many_times(work: str, rounds: int) -> None:
    """Where its stitches are worked so many times around, its rounds are not."""
    assert number_of_rounds(read(f"Knit 1 rnd. {work}", (120,))) == [rounds + 1]


@pytest.mark.parametrize(
    ("work", "codes"),
    [
        ("Work stripes of 4 rnds white, 4 rnds red until piece measures 15 cm.", ["to_a_length"]),
        ("Work in stripes (4 rnds white, 4 rnds red) until piece measures 15 cm.", ["to_a_length"]),
        ("Stripes: 4 rnds white, 4 rnds red, 15 cm.", []),
    ],
)
def test_stripes_are_worked_to_a_length(work: str, codes: list[str]) -> None:
    """How many rounds that is depends on the length; where they are only named, none is worked."""
    reading = read(f"{work} Knit 3 rnds.", (20,))
    assert [finding.code for finding in reading.findings] == codes
    assert number_of_rounds(reading) == [len(codes) + 3]
