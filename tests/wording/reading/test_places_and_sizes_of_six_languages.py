"""Decreases one above the other, work of each needle, places of markers and one of two sizes, in six languages."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts, faults

REWRITTEN = [
    # where the decreases lie says nothing of their number, within a wording and behind it
    (
        "de",
        "Diese Abn übereinander noch 3 x in jeder 2. Rd wdh",
        "in this manner dec every other rnd 3 more times",
    ),
    (
        "fr",
        "Répéter ces dim les unes au-dessus des autres encore 3 fois ts les 2 tours",
        "in this manner dec every other rnd 3 more times",
    ),
    (
        "es",
        "Repetir estas dism unas sobre otras 3 veces más cada 2 vtas",
        "in this manner dec every other rnd 3 more times",
    ),
    (
        "nb",
        "Gjenta disse fellingene over hverandre 3 ganger til på hver 2. omg",
        "in this manner dec every other rnd 3 more times",
    ),
    (
        "da",
        "Gentag disse indtagninger over hinanden 3 gange mere på hver 2. omg",
        "in this manner dec 3 more times every other rnd",
    ),
    (
        "nl",
        "Herhaal deze minderingen boven elkaar nog 3 x in elke 2e toer",
        "in this manner dec every 2nd rnd 3 more times",
    ),
    ("de", "In jeder Rd an der gleichen Stelle abn", "every rnd dec"),
    (
        "fr",
        "Diminuer à chaque tour aux mêmes endroits jusqu'à ce qu'il reste 8 m",
        "in this manner dec every rnd until 8 sts remain",
    ),
    (
        "es",
        "Disminuir en cada vta en el mismo sitio hasta que queden 8 p",
        "in this manner dec every rnd until 8 sts remain",
    ),
    (
        "nb",
        "Fell på hver omg på samme sted til det er 8 m igjen",
        "in this manner dec every rnd until 8 sts remain",
    ),
    (
        "da",
        "Tag ind på hver omg de samme steder, til der er 8 m tilbage",
        "dec every rnd, until 8 sts remain",
    ),
    (
        "nl",
        "Minder in elke toer op dezelfde plaats tot er 8 st over zijn",
        "dec every rnd until 8 sts remain",
    ),
    # each needle
    ("de", "jede Nadel bis auf 2 M re str, 2 M zus", "work each needle to last 2 sts, k2tog"),
    (
        "fr",
        "tricoter chaque aiguille jusqu'aux 2 dernières m, 2 ens",
        "work each needle to last 2 sts, k2tog",
    ),
    ("es", "tejer cada aguja hasta los últimos 2 p, 2 juntos", "work each needle to last 2 sts, k2tog"),
    ("nb", "strikk hver pinne til de 2 siste m, 2 sm", "work each needle to last 2 sts, k2tog"),
    ("da", "strik på hver pind til de sidste 2 m, 2 sm", "work each needle to last 2 sts, k2tog"),
    ("nl", "brei elke naald tot de laatste 2 st, 2 samen", "work each needle to last 2 sts, k2tog"),
    # markers
    ("de", "6 Markierer mit je 14 M zwischen den Markierern setzen", "place a marker every 14 sts"),
    ("fr", "Placer 6 marqueurs avec 14 m entre chaque marqueur", "place a marker every 14 sts"),
    ("es", "Poner 6 marcadores con 14 p entre cada marcador", "place a marker every 14 sts"),
    ("nb", "Sett 6 merker med 14 m mellom hvert merke", "place a marker every 14 sts"),
    ("da", "Sæt 6 mærker med 14 m mellem hvert mærke", "place a marker every 14 sts"),
    ("nl", "Plaats 6 markeerders met 14 st tussen elke markeerder", "place a marker every 14 sts"),
    ("de", "bis noch 2 M vor dem Markierer übrig sind", "until 2 sts remain before marker"),
    ("fr", "jusqu'à ce qu'il reste 2 m avant chaque marqueur", "until 2 sts remain before marker"),
    ("es", "hasta que falten 2 p para el marcador", "to 2 sts before marker"),
    ("nb", "til det er 2 m igjen før merket", "until 2 sts remain before marker"),
    ("da", "til der er 2 m tilbage før mærket", "until 2 sts remain before marker"),
    ("nl", "tot er 2 st over zijn voor de markeerder", "until 2 sts remain before marker"),
    # a size and a round
    ("de", "Nur die größte Größe, 13. Runde: re", "largest size only, rnd 13: knit"),
    ("fr", "Grande taille, 13e tour : end", "large size only, rnd 13: knit"),
    ("es", "Solo talla grande, 13ª vuelta: der", "large size only. Rnd 13: knit"),
    ("nb", "Kun den store størrelsen, 13. omgang: rett", "large size only, Rnd 13: knit"),
    ("da", "Kun største størrelse, 13. omgang: ret", "largest size only, Rnd 13: knit"),
    ("nl", "13e toer (alleen grote maat): recht", "Rnd 13 (large size only): knit"),
    ("de", "alle geraden Rd bis zur 10. (12.): re", "all even rnds to and including rnd 10 (12): knit"),
    ("fr", "tours pairs jusqu'au 10e (12e) : end", "all even rnds to and including rnd 10 (12) : knit"),
    ("es", "vueltas pares hasta la 10ª (12ª): der", "all even rnds to and including rnd 10 (12): knit"),
    ("nb", "alle like omg til og med 10. (12.) omg: r", "all even rnds to and including rnd 10 (12): knit"),
    ("da", "lige omg til 10. (12.): r", "all even rnds to and including rnd 10 (12): knit"),
    ("nl", "even toeren t/m 10e (12e) toer: r", "all even rnds to and including rnd 10 (12): knit"),
]


@pytest.mark.parametrize(("language", "text", "english"), REWRITTEN)
def test_the_words_of_these_languages_are_english_ones(language: str, text: str, english: str) -> None:
    assert rewritten(text, language, 2).text.rstrip() == english


NUMBERED_STITCHES = [
    ("de", "Die 10. und 11. (11. und 12. / 12. und 13.) M re zus-str und stets wdh = 80/88/96 M."),
    ("fr", "Tric ens à l'end les 10e et 11e (11e et 12e / 12e et 13e) m = 80/88/96 m."),
    ("es", "Tejer juntos al der los p 10º y 11º (11º y 12º / 12º y 13º) = 80/88/96 p."),
    ("nb", "Strikk den 10. og 11. (11. og 12. / 12. og 13.) m r sm = 80/88/96 m."),
    ("da", "Strik den 10. og 11. (11. og 12. / 12. og 13.) m r sm = 80/88/96 m."),
    ("nl", "Brei de 10e en 11e (11e en 12e / 12e en 13e) st r samen = 80/88/96 st."),
]


@pytest.mark.parametrize(("language", "text"), NUMBERED_STITCHES)
def test_stitches_named_by_their_place_are_knitted_together_in_each_size(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (88, 96, 104), language)) == [[80], [88], [96]]


def test_stitches_gathered_at_the_end_are_no_round() -> None:
    text = "1ª vta: *8 der, 2 juntos; rep de * = 18 p.\nFruncir los 18 p. y rematar."
    assert after_each_round(read(text, (20,), "es")) == [18]


BEGUN = "Dec rnd 1: *k7, k2tog* = 64 sts.\nKnit 1 rnd.\nDec rnd 2: *k6, k2tog* = 56 sts.\nKnit 1 rnd.\n"


def test_times_in_all_count_the_decrease_rounds_above() -> None:
    text = BEGUN + "Dec in this manner every other rnd 5 times in all = 32 sts."
    assert counts(read(text, (72,), "en")) == [[72, 64, 56, 48, 40, 32]]
    more = BEGUN + "Dec in this manner every other rnd 5 more times = 16 sts."
    assert counts(read(more, (72,), "en")) == [[72, 64, 56, 48, 40, 32, 24, 16]]


def test_a_round_worked_before_counts_once() -> None:
    """One decrease round is told, so that two of those in all cannot have been worked."""
    text = (
        "Dec rnd: *k7, k2tog* = 64 sts.\nKnit 1 rnd.\nDec in this manner every rnd 3 times in all = 56 sts."
    )
    assert faults(read(text, (72,), "en")) == [("count_differs", 3)]


@pytest.mark.parametrize(
    "end", ["to and including rnd 4 (6)", "until the 4th (6th)", "to the 4th (6th) rnd", "to rnd 4 (6)"]
)
def test_plain_rounds_end_at_a_round_of_each_size(end: str) -> None:
    text = (
        f"Rnd 1: [k3 (4), k2tog] 10 times. 40 (50) sts.\nRnd 2 and all even rnds {end}: knit.\n"
        "Rnd 3: [k2 (3), k2tog] 10 times. 30 (40) sts.\nRnd 5: [k1 (2), k2tog] 10 times. 20 (30) sts.\n"
        "Large size only, rnd 7: [k1, k2tog] 10 times. 20 sts.\nLast rnd: k2tog around. 10 sts."
    )
    small, large = after_rounds_of_sizes(read(text, (50, 60), "en"))
    assert small == [40, 40, 30, 30, 20, 10]
    assert large == [50, 50, 40, 40, 30, 30, 20, 10]


@pytest.mark.parametrize(
    "work",
    [
        "work each needle to last 2 sts, k2tog",
        "knit every needle to the last 2 sts, k2tog",
        "work on each needle to last 2 sts, k2tog",
        "work to last 2 sts of each needle, k2tog",
    ],
)
def test_each_needle_is_worked_to_its_last_stitches(work: str) -> None:
    text = f"Dec rnd: {work} (48 sts).\nIn this manner dec every rnd until 40 sts remain."
    assert after_each_round(read(text, (52,), "en")) == [48, 44, 40]


LETTERED = [
    (
        "de",
        (
            "Es sind a) 20 – b) 30 M.\n1. Rd: a) *2 M re zus* = 10 M – b) *1 M re, 2 M re zus* = 20 M.\n"
            "2. Rd (nur b): *2 M re zus* = 10 M."
        ),
    ),
    (
        "fr",
        (
            "On a a) 20 – b) 30 m.\n1er tour : a) *2 m ens à l'end* = 10 m – b) *1 m end, 2 m ens à l'end* = 20 m.\n"
            "2e tour (seulement b) : *2 m ens à l'end* = 10 m."
        ),
    ),
    (
        "es",
        (
            "Hay a) 20 – b) 30 p.\n1ª vta.: a) * 2 p jun der *: quedan 10 p. – b) * 1 p der, 2 p jun der *: 20 p.\n"
            "2ª vta (solo b): * 2 p jun der *: quedan 10 p."
        ),
    ),
    (
        "nb",
        (
            "Det er a) 20 – b) 30 m.\n1. omg: a) *2 r sm* = 10 m – b) *1 r, 2 r sm* = 20 m.\n"
            "2. omg (kun b): *2 r sm* = 10 m."
        ),
    ),
    (
        "da",
        (
            "Der er a) 20 – b) 30 m.\n1. omg: a) *2 r sm* = 10 m – b) *1 r, 2 r sm* = 20 m.\n"
            "2. omg (kun b): *2 r sm* = 10 m."
        ),
    ),
    (
        "nl",
        (
            "Er zijn a) 20 – b) 30 st.\n1e toer: a) *2 r samen* = 10 st – b) *1 r, 2 r samen* = 20 st.\n"
            "2e toer (alleen b): *2 r samen* = 10 st."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), LETTERED)
def test_letters_of_sizes_stand_before_their_work(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (20, 30), language)) == [[10], [20, 10]]


HYPHENED = [
    ("de", "1. Rd: *6-7-8 M re, 2 M re zus* = 56-64-72 M.\nNur M und L: *2-4 M re, 2 M re zus* = 48-60 M."),
    (
        "fr",
        "1er tour : *6-7-8 m end, 2 m ens* = 56-64-72 m.\nTailles M et L : *2-4 m end, 2 m ens* = 48-60 m.",
    ),
    ("es", "1ª vta: *6-7-8 p der, 2 p jun* = 56-64-72 p.\nSolo M y L: *2-4 p der, 2 p jun* = 48-60 p."),
    ("nb", "1. omg: *6-7-8 r, 2 r sm* = 56-64-72 m.\nStørrelse M og L: *2-4 r, 2 r sm* = 48-60 m."),
    ("da", "1. omg: *6-7-8 r, 2 r sm* = 56-64-72 m.\nStørrelse M og L: *2-4 r, 2 r sm* = 48-60 m."),
    (
        "nl",
        "1e toer: *6-7-8 st r, 2 st r samen* = 56-64-72 st.\nAlleen M en L: *2-4 st r, 2 st r samen* = 48-60 st.",
    ),
]


@pytest.mark.parametrize(("language", "text"), HYPHENED)
def test_two_of_three_sizes_have_a_hyphen_between_their_numbers(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (64, 72, 80), language)) == [[56], [64, 48], [72, 60]]


CLOSINGS = [
    ("de", "1. Rd: *2 M re zus* = 8 M.\nFaden durch die 8 M ziehen und auf der linken Seite vernähen."),
    ("fr", "1er tour : *2 m ens* = 8 m.\nCasser le fil, l'enfiler dans ces 8 m et arrêter sur l'env."),
    ("es", "1ª vta: *2 p jun der* = 8 p.\nPasar la hebra por los 8 p y rematar por el revés."),
    ("nb", "1. omg: *2 r sm* = 8 m.\nTrekk tråden gjennom de 8 m og fest den på vrangen."),
    ("da", "1. omg: *2 r sm* = 8 m.\nTræk tråden gennem de 8 m og hæft den på vrangen."),
    ("nl", "1e toer: *2 r samen* = 8 st.\nHaal de draad door de 8 st en hecht af aan de averechte kant."),
]


@pytest.mark.parametrize(("language", "text"), CLOSINGS)
def test_an_end_fastened_on_the_wrong_side_is_no_purl_round(language: str, text: str) -> None:
    assert after_each_round(read(text, (16,), language)) == [8]
