"""Plain rounds that are told apart from the rounds they stand between; each text counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults, words_of_rounds

FOLLOWING = "*k6, k2tog* 56\n*k5, k2tog* 48\n*k4, k2tog* 40"

TEXTS = [
    (
        "K6 and 2 together, 8 times; k5 and 2 together, 8 times, always with one plain round after. 48 sts.",
        [56, 56, 48, 48],
    ),
    ("*K6, k2tog*, *k5, k2tog*, with a plain round after each. 48 sts.", [56, 56, 48, 48]),
    ("[K6, k2tog] 8 times, [k5, k2tog] 8 times - a plain round after each (48 sts).", [56, 56, 48, 48]),
    (
        "Dec 1: *k6, k2tog* 56\nDec 2: *k5, k2tog* 48\n(knit 2 rounds after each dec)",
        [56, 56, 56, 48, 48, 48],
    ),
    (
        (
            "dec #1 k6 k2tog .... 56\ndec #2 k5 k2tog .... 48\n(knit two rounds after each of the first two decs)\n"
            "dec #3 k4 k2tog .... 40"
        ),
        [56, 56, 56, 48, 48, 48, 40],
    ),
    (
        "Round A: *k6, k2tog* 56 sts.\nRound B: *k5, k2tog* 48 sts.\nBetween A and B, knit one round.",
        [56, 56, 48],
    ),
    (f"{FOLLOWING}\nK 1 round plain between these rounds.", [56, 56, 48, 48, 40]),
    (f"K a plain rnd between each of these:\n{FOLLOWING}", [56, 56, 48, 48, 40]),
    (f"Every other round is plain. Decrease rounds:\n{FOLLOWING}", [56, 56, 48, 48, 40]),
    (
        (
            "Every 3rd round is a decrease round; all others are knit.\n1st decrease: [k6, k2tog] 8 times.\n"
            "2nd decrease: [k5, k2tog] 8 times.\nNow every round: k4, k2tog; k3, k2tog."
        ),
        [56, 56, 56, 48, 40, 32],
    ),
    ("1. *k6, k2tog* - 56\n3. *k5, k2tog* - 48\n5. *k4, k2tog* - 40\n(2, 4: knit)", [56, 56, 48, 48, 40]),
    (
        "Rnd 1: *k6, k2tog* 56\nRnd 3: *k5, k2tog* 48\nRnd 5: *k4, k2tog* 40\nKnit the even rounds.",
        [56, 56, 48, 48, 40],
    ),
    ("Rnd 1: *k6, k2tog* 56\nRnd 3: *k5, k2tog* 48\nAnd the even rounds? Just knit.", [56, 56, 48]),
    ("Rnd 1: *k6, k2tog* 56\nRnd 3: *k5, k2tog* 48\nAll even rounds: knit, no decreases.", [56, 56, 48]),
    (
        (
            "Rnd 1: *k6, k2tog* 56\nEven rounds up to and including 4: knit\nRnd 3: *k5, k2tog* 48\n"
            "Rnd 5: *k4, k2tog* 40"
        ),
        [56, 56, 48, 48, 40],
    ),
    (
        (
            "Dec rnd = *k to 2 sts before marker, k2tog* 8 times.\n"
            "Work dec rnd every 3rd rnd 2 times (48 sts; 2 plain rnds after each)."
        ),
        [56, 56, 56, 48, 48, 48],
    ),
    (
        (
            "*K6, k2tog* 56 sts.\nKnit 3 rnds between the 1st and the 2nd decrease, 2 rnds between the 2nd and the "
            "3rd decrease, then 1 rnd between each decrease until 32 sts remain."
        ),
        [56, 56, 56, 56, 48, 48, 48, 40, 40, 32],
    ),
    (
        (
            "*K6, k2tog* 56 sts.\nKnit 3 rnds between the first and second decrease, 2 rnds between the second and the "
            "third decrease, then 1 rnd between each decrease until 32 sts remain."
        ),
        [56, 56, 56, 56, 48, 48, 48, 40, 40, 32],
    ),
    (
        (
            "*K6, k2tog* 56 sts.\nKnit 3 rnds between the 1st and 2d decrease, 2 rnds between the 2d and the "
            "3d decrease, then 1 rnd between each decrease until 32 sts remain."
        ),
        [56, 56, 56, 56, 48, 48, 48, 40, 40, 32],
    ),
    (
        "1. Dec rnd: *k6, k2tog* 56\nKnit 1 rnd between dec rnds.\n2. Dec rnd: *k5, k2tog* 48\n3. Dec rnd: *k4, k2tog*",
        [56, 56, 48, 48, 40],
    ),
    (
        (
            "*K6, k2tog* 56\nKnit 1 rnd after this and each of the following dec rnds.\n*k5, k2tog* 48\n"
            "*k4, k2tog* 40\n*k3, k2tog* 8 times and then, no more plain rounds, *k2, k2tog*. 24 sts."
        ),
        [56, 56, 48, 48, 40, 40, 32, 24],
    ),
    (
        "*K6, k2tog* 56\nKnit 1 rnd between dec rnds.\n*k5, k2tog* 48\nNo more plain rounds.\n*k4, k2tog*\n*k3, k2tog*",
        [56, 56, 48, 40, 32],
    ),
    ("*K6, k2tog* around (56 sts). 2 rnds.\n*k5, k2tog* around (48 sts). 2 rnds.", [56, 56, 56, 48, 48, 48]),
    ("*K6, k2tog* around = 56 sts, 3 rounds.\n*k5, k2tog* around (48 sts).", [56, 56, 56, 56, 48]),
]


@pytest.mark.parametrize(("text", "after"), TEXTS)
def test_plain_rounds_stand_where_they_are_told(text: str, after: list[int]) -> None:
    """Behind each, or between each and the next."""
    assert after_each_round(read(text, (64,))) == after


def test_rounds_of_a_rib_told_by_their_number_are_ribbed() -> None:
    """They are as what stands before, and the number of all rounds so far works none."""
    words = words_of_rounds(read("Rib: *k1, p1*. 4 rnds.\nKnit 6 rnds. 10 rounds.", (64,)))
    assert [("p1" in round_) for round_ in words] == [True] * 4 + [False] * 6


def test_rounds_told_for_one_more_decrease_are_said_to_be_unread() -> None:
    """What is not understood of the plain rounds is a finding."""
    text = "dec #1 k6 k2tog 56\ndec #2 k5 k2tog 48\n(knit two rounds after each of the first, one after #2)"

    assert faults(read(text, (64,))) == [("not_understood", 3)]


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("Move the marker in alternate rounds. Knit 6 rounds.\n*k12, k2tog* around. 78 sts", [84] * 6 + [78]),
        ("Skip the even rounds. Knit 5 rounds.\n*k12, k2tog* around. 78 sts", [84] * 5 + [78]),
        ("Even rounds 2-4: purl.\nOdd rounds 1-3: *k2, p2* around.\nKnit 1 rnd.", [84] * 5),
        ("Rounds 2, 4: purl.\nRounds 1, 3: *k2, p2* around.\nKnit 1 rnd.", [84] * 5),
        ("Odd rounds 1-5: knit.\nEven rounds 2-6: purl.", [84] * 6),
        ("Rnds 1-4: knit.\nEven rounds 6-8: purl.\nOdd rounds 5-7: knit.", [84] * 8),
    ],
)
def test_rounds_that_a_sentence_about_others_stands_before_are_worked(text: str, after: list[int]) -> None:
    """What is done to a marker in some rounds is no round, and rounds of two lines are worked in turn."""
    assert after_each_round(read(text, (84,))) == after


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("de", "Farbwechsel in geraden Rd. 6 Rd re str."),
        ("da", "Farveskift på lige omgange. Strik 6 omgange ret."),
        ("nb", "Fargeskift på like omganger. Strikk 6 omganger rett."),
        ("fr", "Changer de couleur aux tours pairs. Tricoter 6 tours endroit."),
        ("es", "Cambio de color en vueltas pares. Tejer 6 vueltas derecho."),
    ],
)
def test_a_change_of_colour_in_even_rounds_works_none(language: str, text: str) -> None:
    """Six plain rounds."""
    assert after_each_round(read(text, (84,), language)) == [84] * 6


@pytest.mark.parametrize(
    "even", ["All even rounds from 2 to 6: purl", "Even rounds 2-6: knit.", "Rnds 2, 4, 6: knit"]
)
@pytest.mark.parametrize("text", ["{even}\n{odd}", "{odd}\n{even}"])
def test_the_last_of_the_even_rounds_is_worked_behind_all_odd_ones(text: str, even: str) -> None:
    """Round 6 stands between no others."""
    odd = "Rnd 1: *k12, k2tog* 78\nRnd 3: *k11, k2tog* 72\nRnd 5: *k10, k2tog* 66"

    assert after_each_round(read(text.format(odd=odd, even=even), (84,))) == [78, 78, 72, 72, 66, 66]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Rnds 2, 4, 6: purl.\nRnds 1, 3, 5: knit."),
        ("en", "Even rounds 2-6: purl.\nOdd rounds 1-5: knit."),
        ("de", "Runden 2, 4, 6: links.\nRunden 1, 3, 5: rechts."),
        ("da", "Omg 2, 4, 6: vrang.\nOmg 1, 3, 5: ret."),
        ("fr", "Tours 2, 4, 6 : à l'envers.\nTours 1, 3, 5 : à l'endroit."),
    ],
)
def test_even_rounds_before_the_odd_ones_are_worked_with_each_of_them(language: str, text: str) -> None:
    """Six rounds in turn; of even rounds to the fourth alone, five."""
    shorter = text.replace(", 6", "").replace("2-6", "2-4")

    assert after_each_round(read(text, (48,), language)) == [48] * 6
    assert after_each_round(read(shorter, (48,), language)) == [48] * 5


EVEN_TO_THE_SIXTH = [
    ("en", "All even rounds to Rnd 6: knit."),
    ("en", "All even rounds from the 2nd to the 6th round: knit."),
    ("de", "Alle geraden Rd von der 2. bis zur 6. Rd: re."),
    ("de", "Gerade Runden von 2 bis 6: re."),
    ("nl", "Alle even toeren van 2 t/m 6: recht."),
    ("da", "Alle lige omg fra 2. til 6. omg: ret."),
    ("nb", "Alle like omg fra 2. til 6. omg: rett."),
    ("fr", "Tous les tours pairs du 2e au 6e tour : à l'endroit."),
]
ODD = {
    "en": "Rnd {0}: *k{1}, k2tog* around.",
    "de": "{0}. Rd: *{1} M re, 2 M re zus* wdh.",
    "nl": "Toer {0}: *{1} r, 2 r samen*.",
    "da": "Omg {0}: *{1} r, 2 r sm* omg ud.",
    "nb": "Omg {0}: *{1} r, 2 r sm* omg ut.",
    "fr": "Tour {0} : *{1} end, 2 m ens end* tout le tour.",
}


@pytest.mark.parametrize(("language", "even"), EVEN_TO_THE_SIXTH)
def test_even_rounds_are_worked_to_their_last_wherever_they_are_told(language: str, even: str) -> None:
    """Round 6 is worked behind round 5, and no round is called missing."""
    odd = [ODD[language].format(number, knit) for number, knit in ((1, 6), (3, 5), (5, 4))]
    places = [[*odd, even], [even, *odd], [odd[0], even, *odd[1:]]]
    read_texts = [read("\n".join(lines), (48,), language) for lines in places]

    assert [after_each_round(text) for text in read_texts] == [[42, 42, 36, 36, 30, 30]] * 3
    assert [text.findings for text in read_texts] == [()] * 3


@pytest.mark.parametrize("even", ["Even rounds 2-20: knit.", "Rnds 2, 4, 6, 8: knit."])
@pytest.mark.parametrize("text", ["{even}\n{odd}", "{odd}\n{even}"])
def test_even_rounds_of_a_longer_span_end_with_the_last_odd_round(even: str, text: str) -> None:
    """Where round 5 is the last that is given there is no round 6."""
    odd = "Rnd 1: *k12, k2tog* 78\nRnd 3: *k11, k2tog* 72\nRnd 5: *k10, k2tog* 66"

    assert after_each_round(read(text.format(odd=odd, even=even), (84,))) == [78, 78, 72, 72, 66]


def test_even_rounds_behind_a_gap_are_worked_between_the_odd_ones_below() -> None:
    """Rounds 6 and 8 stand before 5 and 7."""
    text = (
        "Rnd 1: *k6, k2tog* around.\nRnds 2-4: knit.\nEven rounds 6-8: knit.\nRnd 5: *k5, k2tog* around.\n"
        "Rnd 7: *k4, k2tog* around."
    )
    reading = read(text, (48,))

    assert after_each_round(reading) == [42, 42, 42, 42, 36, 36, 30, 30]
    assert not reading.findings


def test_odd_rounds_without_the_even_ones_between_them_are_called_missing() -> None:
    """Rounds 3 and 5 are not dropped in silence; nothing is missing where a long span of even rounds ends early."""
    odd = "Knit 1 rnd.\nRnds 1, 3, 5: k2tog, knit to end."

    assert [(finding.code, finding.line) for finding in read(odd, (48,)).findings] == [("round_missing", 2)]
    assert read(f"{odd}\nEven rounds 2-20: knit.", (48,)).findings == ()


def test_even_rounds_told_before_the_odd_ones_are_repeated_with_them() -> None:
    """Rounds 2 to 5 are known by their numbers."""
    text = "Rnds 2, 4: purl.\nRnds 1, 3, 5: knit.\nRepeat rnds 2-5 2 more times."

    assert words_of_rounds(read(text, (48,))) == ["knit", *["purl", "knit"] * 6]


def test_even_rounds_before_those_of_the_next_part_are_its_own() -> None:
    """The numbers begin anew behind them, though the part before has rounds 2 and 4 as well."""
    text = "Rnds 1-4: knit.\nCrown:\nRnds 2, 4: knit.\nRnds 1, 3: k2tog, knit to end."
    behind = "Rnd 1: k2tog, knit to end.\nRnd 3: k2tog, knit to end.\nRnds 2, 4: knit.\nRnd 1: knit."

    assert after_each_round(read(text, (48,))) == [48, 48, 48, 48, 47, 47, 46, 46]
    assert after_each_round(read(behind, (48,))) == [47, 47, 46, 46, 46]


BEFORE = "*K7, k2tog* around (64)\n*K6, k2tog* around (56)\n*K5, k2tog* around (48)\n"


@pytest.mark.parametrize(
    "told",
    ["2 knit rounds before each.", "Knit 2 rounds before each of these.", "2 plain rounds before each dec."],
)
def test_plain_rounds_before_each_stand_before_the_first_too(told: str) -> None:
    """None stand behind the last."""
    assert after_each_round(read(BEFORE + told, (72,))) == [72, 72, 64, 64, 64, 56, 56, 56, 48]


def test_plain_rounds_before_each_may_be_told_first() -> None:
    """They are worked before each of those behind."""
    text = "Work 2 knit rounds before each decrease round.\nDec rnd: *K7, k2tog* around.\nDec rnd: *K6, k2tog* around."

    assert after_each_round(read(text, (72,))) == [72, 72, 64, 64, 64, 56]


def test_plain_rounds_before_something_else_are_worked_where_they_stand() -> None:
    """The neighbour: no decrease is meant."""
    assert (
        after_each_round(read("*K7, k2tog* around (64)\nKnit 2 rounds before each stripe.", (72,)))
        == [64] * 3
    )


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("Knit 3 rnds and dec each time until 48 sts.", [64, 64, 64, 64, 56, 56, 56, 56, 48]),
        ("Work 1 rnd, then dec, each time until 48 sts.", [64, 64, 56, 56, 48]),
        ("Now dec each time until 48 sts.", [64, 56, 48]),
    ],
)
def test_plain_rounds_told_with_each_time_stand_between(told: str, after: list[int]) -> None:
    """The last has none: every round decreases."""
    assert after_each_round(read(f"*K7, k2tog* around (64)\n{told}", (72,))) == after
