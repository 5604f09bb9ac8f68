"""Stitches shared over needles, then the work of each; a decrease round and a plain one by turns; two by two."""

from typing import Final

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round

TEN_TO_NINE = [88, 88, 88, 88]
ON_NEEDLES = [
    (
        "en",
        "Divide the 96 sts over 4 needles. On each needle k10, k2tog, k10, k2tog; 88 sts rem. Knit 3 rnds.",
    ),
    ("en", "96 sts: 24 on each needle. On each needle: k10, k2tog, k10, k2tog (88 sts). Knit 3 rnds."),
    (
        "en",
        (
            "Having arranged the 96 sts on 4 needles, 24 on each, work on each needle: k10, k2tog, k10, k2tog; 88 sts "
            "rem. Knit 3 rnds."
        ),
    ),
    (
        "en",
        (
            "The 96 sts being evenly divided on 4 needles, on each needle: k10, k2tog, k10, k2tog; 88 sts rem. "
            "Knit 3 rnds."
        ),
    ),
    (
        "es",
        (
            "Distribuidos los 96 puntos en cuatro agujas, 24 en cada una, se hace en cada aguja: 10 puntos al "
            "derecho, 2 juntos, 10 al derecho, 2 juntos; quedan 88 puntos. Se hacen tres vueltas lisas."
        ),
    ),
    (
        "es",
        (
            "Se reparten los 96 puntos en 4 agujas, o sea 24 puntos por aguja. En cada una se teje: 10 puntos "
            "al derecho, 2 juntos, 10 al derecho, 2 juntos (88 puntos). Tres vueltas lisas."
        ),
    ),
    (
        "fr",
        (
            "Les 96 mailles sont réparties sur quatre aiguilles, 24 sur chacune. On fait sur chaque aiguille : "
            "10 mailles à l'endroit, 2 ensemble, 10 à l'endroit, 2 ensemble ; il reste 88 mailles. On fait trois tours "
            "unis."
        ),
    ),
    (
        "fr",
        (
            "On répartit les 96 mailles sur 4 aiguilles, soit 24 mailles par aiguille. On tricote sur chacune "
            ": 10 mailles à l'endroit, 2 ensemble, 10 à l'endroit, 2 ensemble (88 mailles). Trois tours unis."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), ON_NEEDLES)
def test_the_work_of_each_needle_is_told_behind_the_stitches_on_it(language: str, text: str) -> None:
    """Which stitches are on which needle is said first, then what is worked on each of them."""
    assert after_each_round(read(text, (96,), language)) == TEN_TO_NINE


def test_a_count_stands_between_the_works_of_each_needle() -> None:
    """The count behind one round belongs to it, and not to the next."""
    text = "80 sts: on each needle: k8, k2tog. 72 sts. On each needle: k7, k2tog. 64 sts."
    assert after_each_round(read(text, (80,))) == [72, 64]


@pytest.mark.parametrize(
    "begins",
    [
        "faire un surjet simple",
        "1 surjet simple",
        "on fait un surjet",
        "tricoter 2 mailles ensemble torse",
    ],
)
def test_a_needle_is_told_from_its_beginning_to_its_last_two_stitches(begins: str) -> None:
    """The decrease at the beginning of each needle, then the needle up to the one at its end."""
    text = (
        f"Au commencement de chaque aiguille, {begins} ; tricoter à l'endroit jusqu'aux deux dernières mailles de "
        "l'aiguille ; tricoter ces deux mailles ensemble. Il reste 18 mailles par aiguille, soit 72 mailles.\n"
        "Tricoter deux tours unis, à l'endroit. Recommencer ces trois tours encore une fois : il reste 64 mailles."
    )
    assert after_each_round(read(text, (80,), "fr")) == [72, 72, 72, 64, 64, 64]


@pytest.mark.parametrize(
    "goes_on",
    [
        "Continue with k7, k2tog, k7, k2tog; 64 sts remain.",
        "Continue with k7, k2tog (64 sts).",
        "Then k7, k2tog (64 sts).",
    ],
)
def test_the_work_goes_on_with_a_round_that_is_told(goes_on: str) -> None:
    """Plain rounds that were told stay as many as they were told, though there were more of them before."""
    text = f"K9, k2tog around (80 sts).\nKnit 3 rnds.\nK8, k2tog around (72 sts).\nKnit 2 rnds.\n{goes_on}"
    assert after_each_round(read(text, (88,))) == [80, 80, 80, 80, 72, 72, 72, 64]


BY_TURNS = [
    "Then work 1 decrease round and 1 plain round alternately 3 times.",
    "Alternate 1 decrease round and 1 knit round 3 times.",
    "Alternate one decrease round with one knit round 3 times.",
    "Work one decrease round and one plain round 3 times. 16 sts remain.",
    "Work a decrease round and a plain round alternately 3 times. 16 sts.",
]


@pytest.mark.parametrize("by_turns", BY_TURNS)
def test_a_decrease_round_and_a_plain_one_by_turns(by_turns: str) -> None:
    """The crown goes on with one plain stitch fewer, a plain round behind each."""
    text = f"Rnd 1: *k4, k2tog; rep from * around (40 sts).\nKnit 1 rnd.\n{by_turns}"
    assert after_each_round(read(text, (48,))) == [40, 40, 32, 32, 24, 24, 16, 16]


def test_a_decrease_round_and_a_plain_one_until_a_count() -> None:
    """The last of them is the decrease that leaves so many."""
    text = (
        "Rnd 1: *k4, k2tog; rep from * around (40 sts).\nKnit 1 rnd.\n"
        "Work one decrease round and one plain round by turns until 16 sts remain."
    )
    assert after_each_round(read(text, (48,))) == [40, 40, 32, 32, 24, 24, 16]


REWRITTEN = [
    # two by two, whatever is said of the stitches and of how they are worked
    ("fr", "tric. les m. 2 par 2 ens. à l'end.", "k2tog around."),
    ("fr", "tricoter toutes les mailles restantes 2 par 2 ensemble à l'endroit", "k2tog around"),
    ("fr", "tricoter 2 par 2 toutes les mailles", "k2tog around"),
    ("fr", "tricoter les mailles 2 par 2 sur tout le tour", "k2tog around"),
    ("fr", "Au tour suivant, tric. toutes les m. 2 par 2 ens. à l'end.", "next rnd: k2tog around."),
    ("fr", "Au prochain tour, tricoter les mailles 2 à 2 à l'endroit", "next rnd: k2tog around"),
    ("es", "tejer los p. de 2 en 2 juntos al der.", "k2tog around."),
    ("es", "tejer todos los puntos juntos de dos en dos por el derecho", "k2tog around"),
    ("es", "tejer todos los puntos restantes de 2 en 2 juntos al derecho", "k2tog around"),
    ("es", "tejer de dos en dos todos los puntos", "k2tog around"),
    ("es", "se toman los puntos de dos en dos", "k2tog around"),
    # what a round takes away, and up to where it goes
    ("es", "Disminuyes 8 pts.", "8 sts dec."),
    ("es", "Has disminuido 8 puntos.", "8 sts dec."),
    ("es", "hasta que queden 2 pts antes del marcador", "to 2 sts before marker"),
    ("fr", "jusqu'à ce qu'il reste 2 m avant le marqueur", "until 2 sts remain before marker"),
    # rounds worked again, a decrease round and a plain one
    ("es", "Estas cuatro vueltas se repiten tres veces más", "rep these 4 rnds 3 more times"),
    ("fr", "Ces quatre tours se répètent encore 3 fois", "rep these 4 rnds 3 more times"),
    ("fr", "Tricoter le tour de diminutions : 80 m", "work dec rnd : 80 sts"),
    (
        "fr",
        "tricoter alternativement un tour avec diminutions et un tour à l'endroit ; quatre fois en tout",
        "work dec rnd and 1 plain rnd 4 times",
    ),
    ("es", "una vuelta de menguados y una lisa 4 veces", "work dec rnd and 1 plain rnd 4 times"),
]


@pytest.mark.parametrize(("language", "text", "english"), REWRITTEN)
def test_words_of_books_stand_for_english_words(language: str, text: str, english: str) -> None:
    """What old books, leaflets and designers print, and the English words for it."""
    assert rewritten(text, language, 1).text == english


LAST_ROUNDS = [
    ("fr", "Au tour suivant, tric. toutes les m. 2 par 2 ens. à l'end."),
    ("fr", "Dernier tour : tricoter les mailles deux par deux à l'endroit."),
    ("es", "14ª vta.: tejer los p. de 2 en 2 juntos al der. = 8 p."),
    ("es", "En la última vta. tejer todos los p. juntos de 2 en 2 al der. Quedan 8 p."),
]


@pytest.mark.parametrize(("language", "text"), LAST_ROUNDS)
def test_two_by_two_is_one_round(language: str, text: str) -> None:
    """How the two are knitted is no round of its own behind it."""
    assert after_each_round(read(text, (16,), language)) == [8]


CALLED_BY_NAME = [
    (
        "fr",
        (
            "Placer 8 marqueurs.\nTour de diminutions : *tricoter à l'endroit jusqu'à 2 mailles avant le marqueur, 2 "
            "mailles ensemble à l'endroit, glisser le marqueur*, répéter de * à * tout le tour.\nTricoter le tour de "
            "diminutions.\nTricoter 1 tour à l'endroit.\nTricoter le tour de diminutions : 72 mailles."
        ),
    ),
    (
        "es",
        (
            "Coloca 8 marcadores.\n\nVuelta de disminuciones: *teje del derecho hasta que queden 2 pts antes "
            "del marcador, 2pjd, pasa el marcador*; repite de * a * toda la vuelta. Disminuyes 8 pts.\n\n"
            "Trabaja la vuelta de disminuciones: 80 pts.\nTeje 1 vuelta del derecho.\n"
            "Trabaja la vuelta de disminuciones: 72 pts."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), CALLED_BY_NAME)
def test_a_round_that_is_explained_first_is_worked_where_it_is_called(language: str, text: str) -> None:
    """The line that explains the round works none."""
    assert after_each_round(read(text, (88,), language)) == [80, 80, 72]


def test_plain_rounds_behind_a_semicolon_are_rounds_of_their_own() -> None:
    """With a count before them or without one."""
    text = "K8, k2tog around; 72 sts rem. Work 1 round straight. K7, k2tog; work 2 rounds straight. K6, k2tog; 56 sts."
    assert after_each_round(read(text, (80,))) == [72, 72, 64, 64, 64, 56]


@pytest.mark.parametrize(
    "words",
    [
        "On each needle ssk the first 2 sts, k2tog the last 2 sts.",
        "On every needle ssk over the first 2 sts and k2tog over the last 2 sts.",
        "On each needle ssk the first 2 sts, knit to the last 2 sts, k2tog the last 2 sts.",
        "Each needle: ssk first 2 sts, k2tog last 2 sts.",
    ],
)
def test_the_first_and_the_last_stitches_of_each_needle_are_decreased(words: str) -> None:
    """Two go on each of four needles, and the stitches between them are plain."""
    assert after_each_round(read(f"Divide over 4 needles.\nRnd 1: {words}", (80,))) == [72]


EIGHT_LESS = [
    ("en", "On each needle k2tog the first 2 sts and the last 2 sts."),
    ("en", "On each needle k2tog the first and last 2 sts."),
    ("en", "Ssk the first 2 sts and k2tog the last 2 sts of each needle."),
    ("en", "On each needle k2tog the first 2 sts, knit to last 2 sts, ssk."),
    ("en", "On each needle ssk at the beginning and k2tog at the end."),
    ("en", "On each needle k2tog at both ends."),
    ("en", "On each needle k2tog the first 4 sts."),
    ("de", "Auf jeder Nadel die ersten 2 M re zusstr und die letzten 2 M überz zusstr."),
    (
        "de",
        "Auf jeder Nadel die ersten 2 M re zusstr, bis zu den letzten 2 M re str, die letzten 2 M re zusstr.",
    ),
]


@pytest.mark.parametrize(("language", "text"), EIGHT_LESS)
def test_both_ends_of_each_needle_are_decreased(language: str, text: str) -> None:
    """However the ends are named: two stitches go on each of four needles."""
    assert after_each_round(read(NEEDLES[language] + text, (48,), language)) == [40]


NEEDLES = {
    "en": "Divide over 4 needles, 12 sts on each.\n",
    "de": "Auf 4 Nadeln verteilen, 12 M pro Nadel.\n",
    "fr": "Répartir sur 4 aiguilles, 12 m par aiguille.\n",
    "es": "Repartir en 4 agujas, 12 p en cada aguja.\n",
    "da": "Fordel på 4 pinde, 12 m på hver pind.\n",
    "nb": "Fordel på 4 pinner, 12 m på hver pinne.\n",
    "nl": "Verdeel over 4 naalden, 12 st per naald.\n",
}
FOUR_LESS = [
    ("en", "On each needle ssk the first 2 sts."),
    ("en", "Ssk the first 2 sts of each needle."),
    ("en", "K2tog the last 2 sts of each needle."),
    ("en", "On each needle purl the first 2 sts, k2tog the last 2 sts."),
    ("en", "On each needle k2tog the first 2 sts, knit the rest."),
    ("en", "On each needle k2tog, then knit."),
    ("en", "On each needle k2tog at the end."),
    ("en", "Knit the first 2 sts of each needle together."),
    ("de", "An jeder Nadel die ersten 2 M re zusstr."),
    ("de", "An jeder Nadel die ersten 2 M re zusstr, restliche M re."),
    ("fr", "Sur chaque aiguille tricoter les 2 premières m ensemble à l'endroit."),
    ("es", "En cada aguja tejer los primeros 2 p juntos al derecho."),
    ("da", "På hver pind strikkes de første 2 m r sm."),
    ("nb", "På hver pinne strikkes de første 2 m r sm."),
    ("nl", "Brei op elke naald de eerste 2 st recht samen."),
]


@pytest.mark.parametrize(("language", "text"), FOUR_LESS)
def test_one_end_of_each_needle_is_decreased(language: str, text: str) -> None:
    """One stitch goes on each of four needles, and the others are plain."""
    assert after_each_round(read(NEEDLES[language] + text, (48,), language)) == [44]


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("On each needle k2tog.", 24),
        ("On each needle knit to the end.", 48),
        ("On each needle k2tog, k10.", 44),
    ],
)
def test_work_of_each_needle_without_an_end_stays_as_it_is(text: str, after: int) -> None:
    """A decrease of which no end is named fills the needle."""
    assert after_each_round(read(NEEDLES["en"] + text, (48,))) == [after]


@pytest.mark.parametrize(
    "needles",
    [
        "Knit 2 rnds. Ssk the first 2 sts of each needle. Knit 1 rnd.",
        "Knit 2 rnds. On each needle ssk, knit to end. Knit 1 rnd.",
        "Purl 2 rounds. K2tog the last 2 sts of each needle. Knit 1 round.",
        "Work 2 rounds in k1, p1 rib. On each needle k2tog, knit to end. Knit 1 round.",
        "Knit 2 rnds, then on each needle ssk, knit to end. Knit 1 rnd.",
    ],
)
def test_rounds_told_before_the_work_of_each_needle_are_rounds_of_their_own(needles: str) -> None:
    """Two rounds keep the count, and the sentence behind them is another."""
    assert after_each_round(read(NEEDLES["en"] + needles, (48,))) == [48, 48, 44, 44]


def test_one_round_told_before_a_comma_is_the_round_of_each_needle() -> None:
    """The stitches of the round that is announced are those behind the comma."""
    for words in (
        "Knit 1 rnd, on each needle ssk, knit to end.",
        "Knit 1 rnd: on each needle ssk, knit to end.",
    ):
        assert after_each_round(read(NEEDLES["en"] + words, (48,))) == [44]


@pytest.mark.parametrize(
    "work",
    [
        "At the beginning of each of the 4 needles: k1, ssk. At the end of each needle: k2tog, k1.",
        "At the start of every needle: k1, ssk. At the end of every needle: k2tog, k1.",
        "At the end of each needle: k2tog, k1. At the beginning of each needle: k1, ssk.",
        "At the beginning of each needle: k1, ssk. At the end: k2tog, k1.",
    ],
)
def test_both_ends_of_each_needle_in_two_sentences_are_a_round(work: str) -> None:
    """Ten stitches on each of four needles, of which two are taken in."""
    begun = "Cast on 40 sts, 10 on each of 4 needles.\n"

    assert after_each_round(read(f"{begun}Round 1: {work}\nRound 2: Knit.", (40,))) == [32, 32]


def test_both_ends_of_each_needle_under_two_numbers_are_two_rounds() -> None:
    """The neighbour."""
    first, second = "At the beginning of each needle: k1, ssk.", "At the end of each needle: k2tog, k1."
    text = f"Cast on 40 sts, 10 on each of 4 needles.\nRound 1: {first} Round 2: {second}"

    assert after_each_round(read(text, (40,))) == [36, 32]


@pytest.mark.parametrize(
    ("needles", "end", "counts"),
    [
        ("", "2 sts remain on each needle", [40, 32, 24, 16, 8]),
        ("", "2 sts remain on each of 4 needles", [40, 32, 24, 16, 8]),
        (" and divide over 3 needles", "8 sts remain on each needle", [40, 32, 24]),
        (" on 3 double-pointed needles", "8 sts remain on each needle", [40, 32, 24]),
        (" onto dpns", "8 sts remain on each needle", [40, 32]),
        (" and divide over 3 needles", "24 sts remain, 8 on each needle", [40, 32, 24]),
        (" and divide over 3 needles", "8 sts remain", [40, 32, 24, 16, 8]),
    ],
)
def test_stitches_left_on_each_needle_are_of_the_needles_named_or_of_four(
    needles: str, end: str, counts: list[int]
) -> None:
    """Four of a set of five where no line says how many (common practice); the last is the neighbour."""
    begun = f"Cast on 48 sts{needles}.\nRound 1: *k4, k2tog; rep from * to end.\n"

    assert after_each_round(read(f"{begun}Continue decreasing this way until {end}.", (48,))) == counts


@pytest.mark.parametrize(
    ("end", "after"),
    [
        ("At the end, knit 2 rounds.", [36, 36, 36]),
        ("At the end, work 3 rounds even.", [36, 36, 36, 36]),
        ("At the end k2tog around.", [36, 18]),
    ],
)
def test_the_end_of_the_round_is_not_that_of_each_needle(end: str, after: list[int]) -> None:
    """The neighbours of `At the end: k2tog, k1.`."""
    begun = "Cast on 40 sts, 10 on each of 4 needles.\nRnd 1: At the beginning of each needle k1, ssk. "
    assert after == after_each_round(read(begun + end, (40,)))


@pytest.mark.parametrize(
    "work",
    [
        "Needles 1 and 3: knit to last 3 sts, k2tog, k1. Needles 2 and 4: k1, ssk, knit to end = 60 sts.",
        "1st and 3rd needle: knit to last 3 sts, k2tog, k1; 2nd and 4th needle: k1, skp, knit to end = 60 sts.",
        "Needles 1 and 3: knit to last 3 sts, k2tog, k1. Needles 2 and 4: k1, ssk (sl 1, k1, psso), knit to end.",
        "On needles 1 and 3 knit to last 3 sts, k2tog, k1. On needles 2 and 4 k1, ssk, knit to end.",
        "On 1st and 3rd needles knit to last 3 sts, k2tog, k1; on 2nd and 4th needles k1, ssk, knit to end.",
        "On needles 1 to 4: knit to last 3 sts, k2tog, k1.",
        "1st to 4th needle: knit to last 3 sts, k2tog, k1.",
    ],
)
def test_needles_told_in_pairs_lose_a_stitch_each(work: str) -> None:
    """Whatever stands behind the work of the second pair, or in a bracket amid it."""
    text = f"64 sts on 4 needles, 16 sts on each.\nRnd 1: {work}\nRnd 2: knit."
    assert after_each_round(read(text, (64,))) == [60, 60]


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("In each section dec 1 st every other rnd until 40 sts remain.", [56, 56, 48, 48, 40]),
        ("In each section k2tog every other rnd until 40 sts remain.", [56, 56, 48, 48, 40]),
        ("In each section dec 1 st every other rnd 3 times.", [56, 56, 48, 48, 40]),
        ("Dec 1 st in each section every rnd 3 times.", [56, 48, 40]),
        ("In each section dec 1 st.", [56]),
    ],
)
def test_decreases_of_each_section_in_a_rhythm_are_a_single_decrease_in_each(
    told: str, after: list[int]
) -> None:
    """The first took two together all around, the third all three decreases in a single round."""
    assert after_each_round(read(f"8 sections of 8 sts. {told}", (64,))) == after


@pytest.mark.parametrize(
    ("changed", "after"),
    [
        ("Rnd 1: inc 2 sts on each needle (= 72 sts)", [72]),
        ("Rnd 1: dec 2 sts on each needle (= 56 sts)", [56]),
        ("Dec 2 sts on each needle every other round until 40 sts remain.", [56, 56, 48, 48, 40]),
        ("Inc 8 sts evenly on the next round.", [72]),
    ],
)
def test_so_many_stitches_on_each_needle_are_so_many_on_each(changed: str, after: list[int]) -> None:
    """They were so many in the whole round."""
    assert after_each_round(read(f"Arrange the 64 sts on 4 needles.\n{changed}", (64,))) == after


@pytest.mark.parametrize(
    "left",
    [
        "until 2 sts remain, k2tog",
        "until 2 sts remain. Knit these two together",
        "until 3 sts remain. K2tog, k1",
    ],
)
def test_stitches_that_remain_on_each_needle_are_the_last_of_each(left: str) -> None:
    """They were taken for the count to which the round is worked over and over."""
    text = f"64 sts on 4 needles.\nRnd 1: On each needle knit {left} (60 sts).\nRnd 2: knit."

    assert after_each_round(read(text, (64,))) == [60, 60]


def test_a_round_worked_until_so_many_stitches_remain_on_each_needle_is_worked_again() -> None:
    text = "64 sts on 4 needles.\nDec 1 st at the end of each needle on every round until 13 sts remain on each needle."

    assert after_each_round(read(text, (64,))) == [60, 56, 52]


@pytest.mark.parametrize(
    ("work", "left"),
    [
        ("Divide them evenly over 4 needles.\nDec 1 st on each needle.", 56),
        ("Rnd 1: inc 2 sts on each needle (= 66 sts)", 66),
        ("Rnd 1: inc 2 sts on each needle.", 66),
        ("Rnd 1: dec 2 sts evenly on each needle.", 54),
        ("Rnd 1: dec 2 sts evenly on each of the 2 needles.", 56),
        ("On each needle: knit to last 2 sts, k2tog.", 57),
        ("Dec 1 st at each end of each needle.", 54),
        ("Rnd 1: inc 2 sts.", 62),
    ],
)
def test_what_is_told_for_each_needle_is_worked_on_as_many_as_there_are(work: str, left: int) -> None:
    """Three of them; what is told of no needle is that of the round."""
    assert after_each_round(read(f"Divide the 60 sts over 3 needles.\n{work}", (60,))) == [left]


def test_changes_on_each_needle_are_as_many_as_lead_to_the_count() -> None:
    """Nobody says how many needles there are, or only their size; without a count it is remarked."""
    assert after_each_round(read("Rnd 1: inc 2 sts on each needle (70 sts)", (60,))) == [70]
    assert after_each_round(read("Size 3 needles.\nRnd 1: inc 2 sts on each needle (68 sts)", (60,))) == [68]
    assert read("Rnd 1: inc 2 sts on each needle.", (60,)).findings


def test_a_plain_round_before_the_work_of_each_needle_is_a_round() -> None:
    """It is told in the same line, behind the stitches on the needles."""
    text = (
        "Sts on 4 needles (16 on each). On each needle: k14, k2tog (60 sts). Next rnd: knit. "
        "On each needle: k13, k2tog (56 sts). Next rnd: knit."
    )
    assert after_each_round(read(text, (64,))) == [60, 60, 56, 56]


TOE: Final = (
    "Round 1:\nNeedle #1: Knit to last 3 stitches, k2tog, k1.\n"
    "Needle #2: K1, ssk, knit to last 3 stitches, k2tog, k1.\nNeedle #3: K1, ssk, knit to end.\nRound 2: Knit.\n"
    "Repeat these two rounds until you have {last} stitches."
)


@pytest.mark.parametrize(("count", "last"), [(64, 32), (64, 16), (60, 16), (44, 20), (66, 30)])
def test_a_toe_has_half_of_its_stitches_on_the_middle_needle(count: int, last: int) -> None:
    """Where that does not come out (66), its needles have as many each."""
    counts = after_each_round(read(TOE.format(last=last), (count,), "en-US"))
    assert counts == [left for left in range(count - 4, last - 1, -4) for _ in range(2)]


def test_three_needles_that_lose_as_many_have_as_many_each() -> None:
    """Of 60 stitches each needle has 20; on 64 it is told that they do not come out."""
    words = "Needle 1: k2tog, knit to end. Needle 2: k2tog, knit to end. Needle 3: k2tog, knit to end."
    assert after_each_round(read(f"Round 1: {words}", (60,), "en-US")) == [57]
    codes = [finding.code for finding in read(f"Round 1: {words}", (64,), "en-US").findings]
    assert "left_over" in codes


@pytest.mark.parametrize(
    "end",
    ["3 stitches from the end", "3 sts from the end of your needle", "the last 3 stitches on this needle"],
)
def test_stitches_from_the_end_of_a_needle_are_its_last(end: str) -> None:
    """They are decreased, and so are those of the middle needle."""
    words = (
        f"Row 1: On needle one knit to {end}, k2tog, knit the last stitch on this needle. "
        f"On needle 2, k1, ssk, knit to {end}, k2tog, k1. On needle 3, k1, ssk, knit to the end."
    )
    assert after_each_round(read(words, (64,), "en-US")) == [60]
    wrong = read(f"{words} (62 sts)", (64,), "en-US").findings
    assert "count_differs" in [finding.code for finding in wrong]
