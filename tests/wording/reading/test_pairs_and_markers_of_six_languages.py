"""Pairs of stitches of each size, places of markers, decreases in every so many stitches, in six languages."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

PAIRS = [
    ("en", "Knit every 7th and 8th/8th and 9th/9th and 10th st together."),
    ("de", "Jede 7. und 8./8. und 9./9. und 10. M rechts zusammenstricken."),
    ("de", "Jede a) 7. und 8. b) 8. und 9. c) 9. und 10. M rechts zusammenstricken."),
    ("fr", "Tricoter toutes les 7e et 8e/8e et 9e/9e et 10e m ensemble à l'endroit."),
    ("es", "Tejer juntos al derecho cada 7º y 8º/8º y 9º/9º y 10º p."),
    ("nb", "Strikk hver 7. og 8./8. og 9./9. og 10. m r sammen."),
    ("da", "Strik hver a) 7. og 8. b) 8. og 9. c) 9. og 10. m r sammen."),
    ("nl", "Brei elke a) 7e en 8e b) 8e en 9e c) 9e en 10e st r samen."),
]


@pytest.mark.parametrize(("language", "text"), PAIRS)
def test_every_size_has_its_pair_of_stitches_to_knit_together(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (64, 72, 80), language)) == [[56], [64], [72]]


MARKERS = [
    ("de", "Setze 8 Marker mit jeweils 12 M dazwischen.\n1. Rd: stets die 2 M vor dem Marker re zusstr."),
    (
        "fr",
        (
            "Placer 8 marqueurs, avec chaque fois 12 m entre eux.\n"
            "Tour 1 : tricoter toujours les 2 m avant le marqueur ensemble à l'endroit."
        ),
    ),
    (
        "es",
        (
            "Colocar 8 marcadores, con 12 p entre ellos.\n"
            "Vuelta 1: tejer siempre los 2 p antes del marcador juntos al derecho."
        ),
    ),
    ("nb", "Sett 8 merker, med 12 m mellom hvert.\nOmg 1: strikk alltid de 2 m før merket r sammen."),
    ("da", "Sæt 8 mærker, med 12 m mellem hvert.\nOmg 1: strik altid de 2 m før mærket r sammen."),
    (
        "nl",
        (
            "Zet 8 markeerders, met telkens 12 st ertussen.\n"
            "1e toer: brei steeds de 2 st voor de markeerder r samen."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), MARKERS)
def test_the_two_before_each_marker_are_knitted_together(language: str, text: str) -> None:
    assert after_each_round(read(text, (96,), language)) == [88]


DOUBLES = [
    ("de", "1. Rd: 1 doppelter Überzug über je 3 M."),
    ("fr", "Tour 1 : 1 surjet double sur chaque groupe de 3 m."),
    ("es", "Vuelta 1: 1 surjete doble en cada 3 p = 8 p."),
    ("nb", "Omg 1: 1 dobbel overtrekksfelling over hver 3 m."),
    ("da", "Omg 1: 1 dobbelt overtrækning over hver 3 m."),
    ("nl", "1e toer: 1 dubbele overhaling over elke 3 st."),
]


@pytest.mark.parametrize(("language", "text"), DOUBLES)
def test_a_decrease_is_worked_in_every_so_many_stitches(language: str, text: str) -> None:
    assert after_each_round(read(text, (24,), language)) == [8]


NAMED = [
    (
        "nb",
        (
            "Dobbel felling = ta 1 m r løst av p, strikk 2 r sammen og trekk den løse m over.\n"
            "Omg 1: *9 r, 1 dobbel felling* gjenta fra * til *"
        ),
    ),
    (
        "da",
        (
            "Dobbelt indtagning = tag 1 m r løs af p, strik 2 r sammen og træk den løse m over.\n"
            "Omg 1: *9 r, 1 dobbelt indtagning* gentag fra * til *"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), NAMED)
def test_a_double_decrease_told_with_the_needle_is_no_round(language: str, text: str) -> None:
    assert after_each_round(read(text, (96,), language)) == [80]


AGAIN = [
    ("de", "1. Rd: *8 M re, 2 M re zus*.\n2. Rd: re.\nNoch 4x diese 2 Rd stricken", "1 M weniger"),
    (
        "fr",
        "Rang 1 : [8 m end, 2 m ens end].\nRang 2 : end.\nTricoter encore 4 fois ces 2 rangs",
        "1 m de moins",
    ),
    (
        "es",
        "Vuelta 1: *8 p der, 2 p jun der*.\nVuelta 2: der.\nTejer 4 veces más estas 2 vueltas",
        "1 p menos",
    ),
    ("nb", "Omg 1: *8 r, 2 r sammen*.\nOmg 2: r.\nStrikk enda 4 ganger disse 2 omg", "1 m mindre"),
    ("da", "Omg 1: *8 r, 2 r sammen*.\nOmg 2: r.\nStrik endnu 4 gange disse 2 omg", "1 m mindre"),
    ("nl", "1e toer: *8 r, 2 r samen*.\n2e toer: r.\nBrei nog 4x deze 2 toeren", "1 st minder"),
]
BETWEEN = {
    "de": "dabei jedes Mal {fewer} zwischen den Abnahmen",
    "fr": "avec chaque fois {fewer} entre les diminutions",
    "es": "con {fewer} entre las disminuciones cada vez",
    "nb": "med {fewer} mellom fellingene hver gang",
    "da": "med {fewer} mellem indtagningerne hver gang",
    "nl": "met telkens {fewer} tussen de minderingen",
}


@pytest.mark.parametrize(("language", "rounds", "fewer"), AGAIN)
def test_these_two_rounds_are_worked_again_the_plain_one_too(language: str, rounds: str, fewer: str) -> None:
    text = f"{rounds}, {BETWEEN[language].format(fewer=fewer)}."
    assert after_each_round(read(text, (80,), language)) == [72, 72, 64, 64, 56, 56, 48, 48, 40, 40]


MANNER = [
    (
        "de",
        (
            "Jede 9. und 10. M re zusstr.\n1 Rd re.\n"
            "Nun in jeder 2. Rd 8 M auf dieselbe Weise abn, bis 24 M übrig sind."
        ),
    ),
    (
        "fr",
        (
            "Tricoter toutes les 9e et 10e m ens à l'end.\n1 tour end.\n"
            "Diminuer ensuite 8 m tous les 2e tours de la même façon jusqu'à ce qu'il reste 24 m."
        ),
    ),
    (
        "es",
        (
            "Tejer juntos cada 9º y 10º p.\n1 vuelta der.\n"
            "Disminuir ahora cada 2ª vuelta 8 p de la misma manera hasta que queden 24 p."
        ),
    ),
    (
        "nb",
        (
            "Strikk hver 9. og 10. m r sammen.\n1 omg r.\n"
            "Fell nå på hver 2. omg 8 m på samme måte til det er 24 m igjen."
        ),
    ),
    (
        "da",
        (
            "Strik hver 9. og 10. m r sammen.\n1 omg r.\n"
            "Tag nu på hver 2. omg 8 m ind på samme måde til der er 24 m tilbage."
        ),
    ),
    (
        "nl",
        (
            "Elke 9e en 10e st r samen breien.\n1 toer recht.\n"
            "Minder nu in elke 2e toer 8 st op dezelfde manier tot er 24 st over zijn."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), MANNER)
def test_so_many_are_decreased_in_the_same_manner_on_every_other_round(language: str, text: str) -> None:
    decreased = [count for below in range(64, 24, -8) for count in (below, below)]
    assert after_each_round(read(text, (80,), language)) == [72, 72, *decreased, 24]
