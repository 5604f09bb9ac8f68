"""How far rounds go on, in words of other writers, and what only tells of them."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts, faults, number_of_rounds

BEGUN = (
    "Rnd 1: *K6, k2tog; rep from * around. (56 sts)\nRnd 2: Knit.\n"
    "Rnd 3: *K5, k2tog; rep from * around. (48 sts)\nRnd 4: Knit.\n"
)
ON = [56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16]
GOES_ON = [
    (
        "Continue in this way, working one fewer st before each k2tog and a plain round between decrease rounds, "
        "until 16 sts rem."
    ),
    "Continue like this, with a plain round between decrease rounds, until 16 sts remain.",
    "Continue in the same way, always knitting the last 2 sts as before, until 16 sts remain.",
    "Go on like this, always with a plain row between, until there are 16 on the needles.",
    "Go on like this until you have 16 on your needles.",
    "Keep going in this manner, knitting the first 3 sts tightly, until 16 sts remain.",
]
EVERY_EVEN = [
    "Only the odd rounds are written; knit every even round.",
    "Odd rounds are given below. Only those are shown; knit every other round.",
    "Only odd rounds are listed, knit every even round.",
]
TOLD = [
    ("Rnd 1: Purl.\nRnd 2: Knit.\nRepeat Rnds 1 and 2 three more times. (8 rounds, 4 ridges)", 8),
    ("Rnd 1: Purl.\nRnd 2: Knit.\nRep rnds 1 and 2 twice more. (6 rounds)", 6),
    ("Rnd 1: Purl.\nRnd 2: Knit.\nRepeat the last 2 rounds 4 more times. (10 rounds in all)", 10),
    ("Rnd 1: Knit.\nCut yarn.\nComments:\nFern says: made two. The dog got one of them.", 1),
    ("Rnd 1: Knit.\nCut yarn. I have two of these and my sister got three of them.", 1),
]
SIZES = [
    ("Man's size only: *K9, K2tog; repeat from * around. (80 sts) Knit 1 round.", [0, 0, 0, 2]),
    ("Woman's and Man's sizes only: Knit 3 rounds.", [0, 0, 3, 3]),
    ("Child's, Woman's and Man's sizes only: Knit 2 rounds.", [0, 2, 2, 2]),
    ("Toddler's size only: Knit 1 round.", [1, 0, 0, 0]),
]

BY_MARKERS = "Dec Rnd: *K to 2 sts before m, k2tog, sm; rep from * to end. (8 sts dec'd; 96 sts)\n"
SLOWER = [96] * 4 + [88] * 4 + [80] * 4 + [72]
SO_OFTEN = [
    ("Work Dec Rnd every 4th rnd 3 times more (72 sts), then every other rnd 2 times (56 sts).", 17),
    ("Work Dec Rnd every 4th rnd 3 times more (72 sts). Then every other rnd twice. 56 sts.", 17),
    ("Work Dec Rnd every 4th rnd 3 times more, then every rnd 4 times. 40 sts rem.", 17),
    ("Rep Dec Rnd every 4th rnd 3 times more (72 sts), then every rnd twice (56 sts).", 15),
    ("Work Dec Rnd every 4th rnd 3 times more.\nThen every 3rd rnd once more. [64 sts]", 16),
]
BEGUN_HERE = [
    ("Work the dec round on this round, and then on every 3rd round 2 times more. [80 sts]", 7),
    ("Work the dec round on this round, then every other round twice. (80 sts)", 5),
    ("Work the dec round on this round and then every other round 5 times. [56 sts]", 11),
    ("Work dec rnd on this rnd, then every rnd 3 times more. 72 sts.", 4),
]
CHARTED = [
    ("Work the 24 rounds of the chart, repeating the 12 sts ten times across each round.", 24),
    ("Work the chart, repeating the 12 sts 10 times, for 10 rounds.", 10),
    ("Work 16 rounds from the chart, repeating the 12 stitches 10 times on each round.", 16),
]
NUMBER_FIRST = [
    ("* 1 round purl, 1 round knit *, repeat *–* 5 times in all.", 10),
    ("1 round purl, 1 round knit, 2 rounds purl.", 4),
    ("*2 rounds knit, 1 round purl* 3 times.", 9),
]
STANDING = [
    "Rnd 2 and every even rnd until told otherwise: k",
    "Rnd 2 and every alternate rnd until further notice: knit",
    "Rnd 2 and all even rnds until the end of the crown: knit.",
]


@pytest.mark.parametrize(("sentence", "rounds"), SO_OFTEN)
def test_decreases_come_as_often_as_is_told(sentence: str, rounds: int) -> None:
    """`then every other rnd 5 times` goes on with the same decrease on other rounds."""
    counts = after_each_round(read(BY_MARKERS + sentence, (104,)))

    assert counts[: len(SLOWER)] == SLOWER
    assert len(counts) == rounds


@pytest.mark.parametrize(("sentence", "rounds"), BEGUN_HERE)
def test_a_decrease_round_may_be_this_round(sentence: str, rounds: int) -> None:
    """`Work the dec round on this round` is the round that was told before, and no other."""
    assert number_of_rounds(read(BY_MARKERS + sentence, (104,))) == [rounds]


@pytest.mark.parametrize(("sentence", "rounds"), CHARTED)
def test_how_often_a_chart_is_worked_in_a_round_is_no_count(sentence: str, rounds: int) -> None:
    """`repeating the 12 sts ten times` says how wide the chart is."""
    assert number_of_rounds(read(f"Cast on 120 sts.\n{sentence}", (120,))) == [rounds]


@pytest.mark.parametrize(("line", "rounds"), NUMBER_FIRST)
def test_rounds_are_told_with_their_number_first(line: str, rounds: int) -> None:
    """`1 round purl, 1 round knit` are two rounds."""
    assert len(read(f"Cast on 77 sts.\n{line}", (77,)).rounds[0]) == rounds


@pytest.mark.parametrize("line", STANDING)
def test_a_standing_round_is_told_with_how_long_it_holds(line: str) -> None:
    """Words before the colon of a label say until when it stands."""
    text = f"Rnd 1: *K5, k2tog* to end: 48 sts\n{line}\nRnd 3: *K4, k2tog* to end: 40 sts\nRnd 5: *K3, k2tog* to end."
    assert after_each_round(read(text, (56,))) == [48, 48, 40, 40, 32]


@pytest.mark.parametrize("sentence", GOES_ON)
def test_a_crown_goes_on_to_the_count_and_no_further(sentence: str) -> None:
    """The plain round between decreases is none behind the last, and only the count behind `until` is the end."""
    assert after_each_round(read(BEGUN + sentence, (64,))) == ON


@pytest.mark.parametrize("sentence", EVERY_EVEN)
def test_even_rounds_are_told_once_where_only_odd_rounds_are_given(sentence: str) -> None:
    """A line before the odd rounds says what the others are."""
    text = f"{sentence}\n1: (k8, k2tog) x 5\n3: (k7, k2tog) x 5\n5: (k6, k2tog) x 5"
    assert after_each_round(read(text, (50,))) == [45, 45, 40, 40, 35]


@pytest.mark.parametrize(("text", "rounds"), TOLD)
def test_what_is_told_of_rounds_works_none(text: str, rounds: int) -> None:
    """A bracket behind a repeat says how many rounds there are now; a number of things is no count of stitches."""
    assert number_of_rounds(read(text, (54,))) == [rounds]


@pytest.mark.parametrize(("line", "rounds"), SIZES)
def test_a_size_is_named_by_whom_it_fits(line: str, rounds: list[int]) -> None:
    """`Man's size only` is for the size that is called `Man`."""
    text = f"Sizes: Toddler (Child, Woman, Man)\nCast on 64 (72, 80, 88) stitches.\n{line}"

    assert number_of_rounds(read(text, (64, 72, 80, 88))) == rounds


NEEDLES = "Rnd 1: on each needle k10, k2tog, k10, k2tog (22 sts on each needle). Rnd 2: knit.\n"


def test_a_count_of_a_round_on_each_needle_is_of_a_needle_where_the_needles_are_known() -> None:
    """Four needles of 24 stitches, two decreases on each: counted by hand."""
    reading = read(f"{NEEDLES}Rnd 3: on each needle k9, k2tog, k9, k2tog (20 sts). Rnd 4: knit.", (96,))

    assert after_each_round(reading) == [88, 88, 80, 80]


def test_a_wrong_count_of_a_needle_is_still_wrong() -> None:
    reading = read(f"{NEEDLES}Rnd 3: on each needle k9, k2tog, k9, k2tog (21 sts). Rnd 4: knit.", (96,))

    assert [finding.code for finding in errors(reading)] == ["count_differs"]


def test_decreases_at_both_ends_of_each_needle_are_on_four_needles_to_so_many_on_each() -> None:
    """A set of five, four of them with stitches: 8 decreases a round (common practice)."""
    text = "Dec 1 st at each end of each needle every other rnd until 4 sts remain on each needle."
    counts = after_each_round(read(text, (96,)))

    assert sorted(set(counts), reverse=True) == list(range(88, 15, -8))


@pytest.mark.parametrize(
    ("onward", "after"),
    [
        ("Knit 2 rnds.\nContinue in this manner with 2 plain rnds between until 16 sts remain on each needle.",
         [88, 88, 88, 80, 80, 80, 72, 72, 72, 64]),
        ("Work only dec rnds until 16 sts remain on each needle.", [88, 80, 72, 64]),
        ("Work a dec rnd and a plain rnd alternately until 16 sts remain on each needle.",
         [88, 88, 80, 80, 72, 72, 64]),
    ],
)  # fmt: skip
def test_the_count_that_a_crown_goes_on_to_is_of_each_needle(onward: str, after: list[int]) -> None:
    """Four needles of 24 stitches, two decreases on each: counted by hand."""
    first = "There are 96 sts, 24 on each needle.\nDec on each needle: k10, k2tog, k10, k2tog (88 sts).\n"

    assert after_each_round(read(first + onward, (96,))) == after


@pytest.mark.parametrize(
    "sentence",
    [
        "Rnd 5 and every following rnd: Dec as established, with 1 fewer st between decreases, until 16 sts rem.",
        "Rnd 5 and each subsequent rnd: Decrease until 16 sts rem.",
        "Rnd 5 and every rnd thereafter: Dec as set until 16 sts rem.",
        "Next and every foll rnd: Dec as set until 16 sts rem.",
        "Next rnd and every following rnd: Dec as before until 16 sts rem.",
        "Every following rnd: Dec as set until 16 sts rem.",
    ],
)
def test_a_crown_goes_on_in_every_following_round(sentence: str) -> None:
    """No plain round is worked between the decreases any more, though there was one before."""
    assert after_each_round(read(BEGUN + sentence, (64,))) == [56, 56, 48, 48, 40, 32, 24, 16]


def test_two_rounds_worked_again_may_end_with_a_plain_one() -> None:
    """The plain round at the end is that of the two, and no further one is worked in each turn."""
    text = (
        "Rnd 1: *K6, k2tog; rep from * around. (56 sts)\nRnd 2: Knit.\n"
        "Repeat Rnds 1 and 2, working 1 st less between decreases each time, until 32 sts remain, ending with a "
        "knit rnd.\nNow decrease on every rnd in the same manner until 8 sts remain."
    )
    assert after_each_round(read(text, (64,))) == [56, 56, 48, 48, 40, 40, 32, 32, 24, 16, 8]


@pytest.mark.parametrize(
    "aside",
    [
        "one fewer k st after each SSK",
        "1 less knit st before each k2tog",
        "with 1 st less between each SSK",
        "one st fewer after each ssk",
    ],
)
def test_an_aside_on_fewer_stitches_is_no_work(aside: str) -> None:
    """The bracket says how the decreases go on, from 72 stitches by 9 a round."""
    text = (
        "Next Rnd: *SSK, k8; rep from * around. 81 sts\nNext Rnd: Knit.\n"
        "Next Rnd: *SSK, k7; rep from * around. 72 sts\n"
        f"Continue decreasing in pattern every rnd ({aside}) until 18 sts remain."
    )
    assert counts(read(text, (90,))) == [[90, 81, 72, 63, 54, 45, 36, 27, 18]]


def test_a_decrease_round_with_a_number_is_a_single_round() -> None:
    """The plain rounds are those that are told, fewer here than between the rounds before."""
    text = (
        "1. Dec rnd: *k12, k2tog* = 78 sts.\nKnit 2 rnds.\n2. Dec rnd: *k11, k2tog* = 72 sts.\nKnit 2 rnds.\n"
        "3. Dec rnd: dec in this manner = 66 sts. Knit 1 rnd.\n4. Dec rnd: dec in this manner = 60 sts."
    )

    assert after_each_round(read(text, (84,))) == [78, 78, 78, 72, 72, 72, 66, 66, 60]


@pytest.mark.parametrize(
    "begin",
    ["When work measures 20 cm, dec 12 sts evenly", "At 20 cm dec 12 sts evenly", "Dec 12 sts evenly"],
)
def test_decreases_spread_evenly_are_those_told_behind_them(begin: str) -> None:
    """A round that is told in total and then stitch by stitch is one round, whatever the length it begins at."""
    text = (
        f"{begin}: *k5, k2tog*, rep from * around (72 sts).\nDec in this manner every 4th rnd 2 more times (48 sts) "
        "then every other rnd 2 more times (24 sts)."
    )
    in_turn = [72, 72, 72, 72, 60, 60, 60, 60, 48, 48, 36, 36, 24]
    assert after_each_round(read(text, (84,))) == in_turn


IN_TURN = {
    "en": "Rnd 1: k2tog, knit to end. (47)\nRnd 2: knit.\n",
    "es": "Vta 1: 2 p jun, tejer der hasta el final. (47)\nVta 2: der.\n",
    "fr": "Tour 1 : 2 m ens end, end jusqu'à la fin. (47)\nTour 2 : end.\n",
}


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Work 4 more rounds in this manner."),
        ("en", "Work 4 more rounds like this."),
        ("en", "Continue in this manner for 4 more rounds."),
        ("es", "4 vtas más así."),
        ("es", "Tejer otras 4 vtas así."),
        ("es", "Continuar así 4 vtas más."),
        ("fr", "Encore 4 tours ainsi."),
        ("fr", "Continuer ainsi encore 4 tours."),
    ],
)
def test_more_rounds_in_this_manner_go_on_with_rounds_that_take_turns(language: str, text: str) -> None:
    """Numbered rounds, one that shapes and a plain one, take turns for so many rounds more."""
    reading = read(IN_TURN[language] + text, (48,), language)

    assert not reading.findings
    assert after_each_round(reading) == [47, 47, 46, 46, 45, 45]


@pytest.mark.parametrize(
    ("rounds", "counts"),
    [
        ("Rnd 1: k2tog, knit to end. (47)\nKnit 2 rounds.\n", [47] * 7),
        ("Rnd 1: k2tog, knit to end. (47)\nRnd 2: k2tog, knit to end. (46)\n", [47, 46, 45, 44, 43, 42]),
        ("Knit 2 rounds.\n", [48] * 6),
    ],
)
def test_more_rounds_in_this_manner_are_as_the_last_where_none_take_turns(
    rounds: str, counts: list[int]
) -> None:
    """Behind rounds that do not take turns by their numbers, the last one is worked on."""
    reading = read(f"{rounds}Work 4 more rounds in this manner.", (48,), "en")
    assert after_each_round(reading) == counts


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Decrease like this every other round: 3 more times."),
        ("en", "Decrease every other round: 3 more times."),
        ("es", "Disminuir así cada 2 vtas: 3 veces más."),
    ],
)
def test_how_often_may_stand_behind_a_colon(language: str, text: str) -> None:
    """A number of times alone behind it is no work of its own."""
    reading = read(IN_TURN[language] + text, (48,), language)

    assert not reading.findings
    assert after_each_round(reading) == [47, 47, 46, 46, 45, 45, 44]


def test_stitches_behind_a_colon_are_the_work_of_every_other_round() -> None:
    """Stitches there are what is worked."""
    reading = read("Decrease every other round: *k4, k2tog* around.\nKnit.", (48,), "en")
    assert after_each_round(reading) == [40, 40]


LIKE_THIS = {
    "en": ("Rnd 1: k2tog, knit to end.", "Decrease like this every other round 3 times in all."),
    "de": ("1. Rd: 2 M re zus, re bis Ende.", "So in jeder 2. Rd insgesamt 3x abnehmen."),
    "nl": ("Toer 1: 2 r samen, r tot einde toer.", "Minder zo elke 2e toer in totaal 3 keer."),
    "da": ("Omg 1: 2 r sm, r omg ud.", "Tag således ind på hver 2. omg i alt 3 gange."),
    "nb": ("Omg 1: 2 r sm, r ut omg.", "Fell slik på hver 2. omg i alt 3 ganger."),
    "fr": (
        "Tour 1 : 2 m ens end, end jusqu'à la fin du tour.",
        "Diminuer ainsi tous les 2 tours 3 fois en tout.",
    ),
    "es": ("Vta 1: 2 p jun d, d hasta el final de la vta.", "Disminuir así cada 2 vtas 3 veces en total."),
}


@pytest.mark.parametrize("language", LIKE_THIS)
@pytest.mark.parametrize("between", ["\n", " "])
def test_the_round_told_above_is_the_first_of_its_times_in_all(language: str, between: str) -> None:
    """Three decreases in all, of which two are still to come, whether or not a count is printed behind them."""
    text = between.join(LIKE_THIS[language])

    assert after_each_round(read(text, (48,), language)) == [47, 47, 46, 46, 45]


@pytest.mark.parametrize(
    ("behind", "after"),
    [
        ("6 times in all (12 rounds).", [count for count in range(47, 41, -1) for _ in range(2)]),
        ("3 times.", [47, 47, 46, 46, 45, 45, 44]),
        ("3 more times.", [47, 47, 46, 46, 45, 45, 44]),
        (
            "2 times in all. Then decrease like this every 3rd round 2 times in all.",
            [47, 47, 46, 46, 46, 45, 45, 45, 44],
        ),
    ],
)
def test_times_that_are_still_to_come_do_not_count_the_round_above(behind: str, after: list[int]) -> None:
    """In all, the first is told above; without those words, and in another rhythm, all are still to come."""
    text = f"Rnd 1: k2tog, knit to end. Decrease like this every other round {behind}"

    assert after_each_round(read(text, (48,))) == after


@pytest.mark.parametrize(
    "end",
    ["Continue until 24 sts remain.", "Until 24 sts remain.", "Stop when 24 sts remain.", "stop at 24 sts."],
)
def test_how_far_every_round_decreases_may_stand_on_the_next_line(end: str) -> None:
    """It belongs to the rounds told last, and not to those with a plain round between."""
    text = f"{BEGUN}Continue in this manner until 40 sts remain. Then dec every rnd.\n{end}"
    assert after_each_round(read(text, (64,))) == [56, 56, 48, 48, 40, 32, 24]


@pytest.mark.parametrize(
    "dec_round",
    ["*K8, k2tog; rep around.", "K8, k2tog. Rep 8 times in all.", "*K8, k2tog; rep from * to end (72 sts)."],
)
@pytest.mark.parametrize(
    ("on", "counts"),
    [
        ("Decrease every other rnd until 56 sts remain.", [72, 72, 64, 64, 56]),
        ("Dec every other rnd 3 times in all, = 56 sts rem.", [72, 72, 64, 64, 56]),
        ("Decrease every rnd until 48 sts remain.", [72, 64, 56, 48]),
    ],
)
def test_the_rounds_of_the_decreases_are_told_in_the_same_line(
    dec_round: str, on: str, counts: list[int]
) -> None:
    assert after_each_round(read(f"{dec_round} {on}", (80,))) == counts


@pytest.mark.parametrize("plain", [1, 2, 3])
def test_as_many_rounds_as_were_plain_are_plain_again(plain: int) -> None:
    text = f"Rnd 1: *k8, k2tog; rep around.\nKnit {plain} rnds.\nIn this manner dec 2 more times, = 56 sts."
    between = [72] * plain, [64] * plain

    assert after_each_round(read(text, (80,))) == [72, *between[0], 64, *between[1], 56]


@pytest.mark.parametrize(
    ("round", "after"),
    [("*k6, sk2p, k6; rep from * around.", [78, 66, 54, 42, 30, 18, 6]), ("*k7, sk2p*.", [72, 54, 36, 18])],
)
def test_a_double_decrease_takes_two_plain_stitches_with_it(round: str, after: list[int]) -> None:
    """To the last stitch on either side of it, or the last two before it."""
    text = f"{round}\nContinue to dec in this manner every rnd until {after[-1]} sts remain."

    assert after_each_round(read(text, (90,))) == after


@pytest.mark.parametrize(
    "pair",
    [
        "Rnd 1: *k8, k2tog*. Rnd 2: knit. Continue in this manner for 6 more rounds.",
        "Rnd 1: *k8, k2tog*.\nRnd 2: knit.\nContinue in this manner for 6 more rounds.",
        "Rnd 1: *k8, k2tog*.\nRnd 2: knit.\nContinue in this way for another 6 rounds.",
        "Rnd 1: *k8, k2tog*.\nRnd 2: knit.\nCarry on like this, working 6 more rounds.",
        "*k8, k2tog*. Knit 1 rnd. Continue in this manner for 6 more rounds.",
        "Rnd 1: dec 8 sts evenly. Rnd 2: knit. Continue in this manner for 6 more rounds.",
        "Dec 8 sts evenly. Knit 1 rnd. Rep this 3 more times.",
        "Dec 8 sts evenly. Knit 1 rnd. Do that 3 more times (48 sts).",
        "Dec 8 sts evenly.\nKnit 1 round.\nRepeat 3 times more.",
    ],
)
def test_a_decrease_round_and_its_plain_round_go_on_together(pair: str) -> None:
    """Eight stitches go in every other round, one fewer between them each time, and three times more."""
    reading = read(pair, (80,))
    assert not reading.findings
    assert after_each_round(reading) == [72, 72, 64, 64, 56, 56, 48, 48]


@pytest.mark.parametrize(
    ("rounds", "plain"),
    [
        ("Dec 8 sts evenly. Knit 1 rnd. Rep this rnd 3 more times.", 4),
        ("Dec 8 sts evenly. Knit 2 rnds. Repeat 3 times more.", 5),
        ("Dec 8 sts evenly. Purl 1 rnd. Do that 3 more times.", 4),
        ("Dec 8 sts evenly. Knit. Do that 8 times.", 8),
        ("Dec 8 sts evenly. Knit 1 rnd. Knit 6 more rounds.", 7),
    ],
)
def test_plain_rounds_that_are_repeated_by_themselves_stay_apart(rounds: str, plain: int) -> None:
    """The decrease round is worked once."""
    assert after_each_round(read(rounds, (80,))) == [72] * (1 + plain)


def test_a_pair_of_rounds_that_does_not_come_out_again_is_found() -> None:
    """Sections of ten do not go into 72 stitches; the plain round is not worked by itself in their place."""
    assert [
        finding.severity
        for finding in read("*k8, k2tog*. Knit 1 rnd. Rep this 3 more times.", (80,)).findings
    ] == ["error"]


NEXT = "Rnd 1: *K8, k2tog; rep from * to end. 54 sts\n"


@pytest.mark.parametrize(
    "told",
    [
        "Dec in this way on each of next 3 rnds.",
        "Dec as before on each of the next 3 rnds.",
        "Dec on each of the following 3 rnds.",
        "Dec in this way for 3 rnds.",
        "Work in this way for the next 3 rnds: 36 sts.",
    ],
)
def test_so_many_rounds_behind_are_all_shaped(told: str) -> None:
    """No plain round stands between."""
    assert after_each_round(read(NEXT + told, (60,))) == [54, 48, 42, 36]


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("Dec on the next 3 alt rnds.", [54, 54, 48, 48, 42, 42, 36]),
        ("Dec in this way for 3 rnds. 42 sts.", [54, 48, 42]),
        ("Dec in this way on next rnd. Knit 3 rnds.", [54, 48, 48, 48, 48]),
    ],
)
def test_other_rounds_behind_are_shaped_as_they_are_told(told: str, after: list[int]) -> None:
    """Every other of them, the first of three told above, the next alone."""
    assert after_each_round(read(NEXT + told, (60,))) == after


@pytest.mark.parametrize(
    ("told", "found"),
    [
        ("Dec 6 more times until 36 sts.", ["count_differs"]),
        ("Dec 3 more times until 36 sts.", []),
        ("Dec every rnd 3 times until 36 sts.", []),
        ("Work 3 rnds in this way: 42 sts.", ["count_differs"]),
        ("Work 3 rnds in this way: 36 sts.", []),
    ],
)
def test_how_often_has_to_agree_with_the_count(told: str, found: list[str]) -> None:
    """Six stitches are taken in each time."""
    assert [code for code, _ in faults(read(NEXT + told, (60,)))] == found


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("Continue dec 8 sts every other rnd until 40 sts remain.", [64, 64, 56, 56, 48, 48, 40]),
        ("Continue dec 6 sts every other rnd until 40 sts remain.", [64, 64, 58, 58, 52, 52, 46, 46, 40]),
        ("Continue dec 2 sts in each section every other rnd until 48 sts remain.", [64, 64, 56, 56, 48]),
    ],
)
def test_going_on_takes_in_as_many_stitches_as_are_told(told: str, after: list[int]) -> None:
    """The round above takes in eight; those of a section are no number of a round."""
    text = f"Rnd 1: *K7, k2tog; rep from * to end. 64 sts\nRnd 2: Knit.\n{told}"
    assert after_each_round(read(text, (72,))) == after


def test_stitches_that_never_lead_to_the_count_are_an_error() -> None:
    """Six at a time lead from 64 stitches to 10 or 4."""
    text = (
        "Rnd 1: *K7, k2tog; rep from * to end. 64 sts\nContinue dec 6 sts every other rnd until 8 sts remain."
    )
    assert faults(read(text, (72,)))


@pytest.mark.parametrize(
    "told",
    [
        "In this manner dec every other rnd until 36 sts remain; in this manner dec every rnd until 12 sts remain.",
        "Continue dec every other rnd until 36 sts remain; dec on every rnd until 12 sts remain.",
        "Continue dec every other rnd until 36 sts remain, dec every rnd until 12 sts remain.",
        "Dec every other rnd until 36 sts remain; every rnd until 12 sts remain.",
    ],
)
def test_another_rhythm_begins_behind_a_sign(told: str) -> None:
    """The plain rounds end with the count before it."""
    text = f"*k10, k2tog* around (66).\n{told}"
    left = [66, 66, 60, 60, 54, 54, 48, 48, 42, 42, 36, 30, 24, 18, 12]
    assert after_each_round(read(text, (72,))) == left


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("Dec 8 sts every 3rd rnd 2 times: *k9, k2tog* = 80 sts, then *k8, k2tog* = 72 sts.", [80, 80, 80, 72]),
        ("Dec every other rnd 3 times: *k9, k2tog* (64 sts). Knit 1 rnd.", [80, 80, 72, 72, 64, 64]),
        ("Dec on every other rnd twice: *k9, k2tog*. Knit 1 rnd.", [80, 80, 72, 72]),
        ("*k9, k2tog*. In this manner dec every other rnd 2 more times, all rnds not mentioned are knit.",
         [80, 80, 72, 72, 64]),
        ("*k9, k2tog*. In this manner dec every other rnd 2 more times, knit all other rnds.", [80, 80, 72, 72, 64]),
        ("*k9, k2tog*, and continue in this manner, with 2 plain rnds between dec rnds, until 64 sts remain.",
         [80, 80, 80, 72, 72, 72, 64]),
        ("*k9, k2tog*. Knit 1 rnd. Continue in this manner until 3 dec rnds have been worked.", [80, 80, 72, 72, 64]),
        (("*k9, k2tog*. Knit 1 rnd. In this manner dec every other rnd until 3 dec rnds and 3 plain rnds have been "
         "worked, ending with a plain rnd."), [80, 80, 72, 72, 64, 64]),
    ],
)  # fmt: skip
def test_a_rhythm_goes_on_from_the_first_round(text: str, after: list[int]) -> None:
    """Its work may stand behind it, and other rounds be told in the same sentence."""
    assert after_each_round(read(text, (88,))) == after


MARKED = "Place a marker every 12 sts.\n"


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("Every other rnd k2tog before each marker. Work this 3 times in all.", [88, 88, 80, 80, 72]),
        ("K2tog before each marker. Work 2 rnds straight after every dec rnd. Work 3 dec rnds in all (72 sts).",
         [88, 88, 88, 80, 80, 80, 72, 72, 72]),
        ("K2tog before each marker. Work 1 rnd straight between dec rnds. Work 3 dec rnds in all (72 sts).",
         [88, 88, 80, 80, 72]),
        ("Dec rnds, with 1 plain rnd between: *k10, k2tog*, *k9, k2tog*, *k8, k2tog*. = 72 sts.",
         [88, 88, 80, 80, 72]),
        ("K10, k2tog around. Now dec on each of next 2 rnds.", [88, 80, 72]),
    ],
)  # fmt: skip
def test_plain_rounds_told_once_stand_between_those_that_follow(told: str, after: list[int]) -> None:
    """Of ninety-six stitches; where none are told, none stand between."""
    assert after_each_round(read(MARKED + told, (96,))) == after


AFTER_THEM_ALL = [
    # behind the last as well
    ("In this manner dec 2 more times, with 2 plain rnds after each dec (84 sts).", [90] * 3 + [84] * 3),
    ("Work the dec rnd 2 more times, with 2 plain rnds after each (84 sts).", [90] * 3 + [84] * 3),
    ("Work the dec rnd 3 times in all, with 2 plain rnds after each (84 sts).", [90] * 3 + [84] * 3),
    ("Dec every 3rd rnd 2 times, with 2 plain rnds after each.", [90] * 3 + [84] * 3),
    (
        "Dec rnds 2-3: 1 st less between decreases each time, knit 1 rnd after each = 84 sts.",
        [90, 90, 84, 84],
    ),
    # only between them
    ("Dec in this way 2 more times, with 2 plain rnds between. 84 sts.", [90] * 3 + [84]),
    ("Continue in this way, with 2 plain rnds after each dec, until 84 sts remain.", [90] * 3 + [84]),
    ("Dec like this 2 more times. 84 sts.", [90] * 3 + [84]),
]


@pytest.mark.parametrize(("onward", "after"), AFTER_THEM_ALL)
def test_plain_rounds_after_each_decrease_stand_behind_the_last_too(onward: str, after: list[int]) -> None:
    reading = read(f"Dec rnd: *k15, k2tog* around (96 sts). Knit 2 rnds.\n{onward}", (102,), "en")

    assert errors(reading) == []
    assert after_each_round(reading) == [96] * 3 + after


FEWER_EACH_TIME = [56] * 7 + [48] * 6 + [40] * 5 + [32] * 4 + [24] * 3 + [16]
FEWER_PLAIN_ROUNDS = [
    ("Knit 6 rnds. *k5, k2tog*. Knit 5 rnds. Continue in this manner until 16 sts remain.", FEWER_EACH_TIME),
    (
        (
            "Knit 6 rnds. Continue in this manner with 1 st and 1 plain rnd less between decreases each time, "
            "until 16 sts remain."
        ),
        FEWER_EACH_TIME,
    ),
    (
        (
            "Knit 6 rnds. Continue in this manner with 1 st less between decreases each time, and as many plain "
            "rnds as there are sts between the decreases, until 16 sts remain."
        ),
        FEWER_EACH_TIME,
    ),
    # as many each time: the single round told last, or those told once
    (
        "Knit 2 rnds. *k5, k2tog*. Knit 1 rnd. Continue in this manner until 16 sts remain.",
        [56] * 3 + [48, 48, 40, 40, 32, 32, 24, 24, 16],
    ),
    (
        "Knit 1 rnd. Continue in this manner with 1 st less between decreases, until 16 sts remain.",
        [56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16],
    ),
]


@pytest.mark.parametrize(("onward", "after"), FEWER_PLAIN_ROUNDS)
def test_plain_rounds_between_decreases_may_be_fewer_each_time(onward: str, after: list[int]) -> None:
    reading = read(f"*k6, k2tog* around. {onward}", (64,), "en")

    assert errors(reading) == []
    assert after_each_round(reading) == after


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("Dec 6 sts evenly in rnd 1, then every other rnd 2 times and every rnd until 30 sts remain.",
         [54, 54, 48, 48, 42, 36, 30]),
        (("*k8, k2tog* around. In this manner dec every other rnd until 42 sts remain in this manner dec every rnd "
         "until 30 sts remain."), [54, 54, 48, 48, 42, 36, 30]),
        ("*k8, k2tog* around. Dec every other rnd until 42 sts remain in this manner.", [54, 54, 48, 48, 42]),
    ],
)  # fmt: skip
def test_another_rhythm_may_begin_without_a_sign(told: str, after: list[int]) -> None:
    """The last only says of its own rhythm that it goes on as before."""
    assert after_each_round(read(told, (60,))) == after


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("Dec every 4th rnd 2 times: *k8, k2tog* = 72, *k7, k2tog* = 64.", [72] * 4 + [64]),
        ("Dec 8 sts every 4th rnd 2 times: 72, 64 sts.", [72] * 4 + [64]),
        ("*k8, k2tog* (72). Knit 1 round. Do not decrease on the next 2 rnds.", [72] * 3),
        (
            "Knit 2 rnds after each dec rnd. *k8, k2tog*. *k7, k2tog*. Work only dec rnds until 40 sts remain.",
            [72, 72, 72, 64, 56, 48, 40],
        ),
        (
            "Pm every 10 sts.\nEvery other rnd k2tog before each marker (72 sts). Rep this rnd every rnd 2 times.",
            [72, 64, 56],
        ),
        (
            "*k8, k2tog*. Knit 4 rnds. Continue in this manner with 2 rnds fewer between, until 56 sts remain.",
            [72] * 5 + [64] * 3 + [56],
        ),
    ],
)
def test_decreases_in_words_near_to_those_of_a_rhythm(told: str, after: list[int]) -> None:
    """Counts without brackets or without work, a negation, other paces and rounds without others."""
    assert after_each_round(read(told, (80,), "en")) == after
