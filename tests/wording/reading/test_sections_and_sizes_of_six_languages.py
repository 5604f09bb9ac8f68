"""Sections, size notes, titles and rounds that only decrease, in six languages and English."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

SECTIONS = [
    (
        "en",
        "Place a marker after every 12th st, which makes 6 sections.",
        "Knit the last 2 sts in each section together on every rnd until 1 st is left in each section = 6 sts.",
    ),
    (
        "nb",
        "Sett et merke etter hver 12. m, det blir 6 felt.",
        "Strikk de 2 siste m i hvert felt r sammen på hver omgang til det bare er 1 m igjen i hvert felt = 6 m.",
    ),
    (
        "da",
        "Sæt et mærke efter hver 12. m, det bliver 6 felter.",
        "Strik de sidste 2 m i hvert felt r sammen på hver omgang, til der kun er 1 m tilbage i hvert felt = 6 m.",
    ),
    (
        "de",
        "Nach jeder 12. M einen Marker setzen, das ergibt 6 Felder.",
        "In jeder Rd die letzten 2 M in jedem Feld re zusstr, bis in jedem Feld nur noch 1 M übrig ist = 6 M.",
    ),
    (
        "nl",
        "Plaats na elke 12e st een markeerder, dat geeft 6 vakken.",
        "Brei in elke toer de laatste 2 st van elk vak r samen, tot er in elk vak nog 1 st over is = 6 st.",
    ),
    (
        "fr",
        "Placer un marqueur toutes les 12 m., soit 6 sections.",
        (
            "À chaque tour, tricoter ens. à l'end. les 2 dernières m. de chaque section jusqu'à ce qu'il ne reste "
            "qu'1 m. dans chaque section = 6 m."
        ),
    ),
    (
        "es",
        "Colocar un marcador cada 12 pts: 6 secciones.",
        (
            "En cada vta tejer juntos los 2 últimos pts de cada sección hasta que quede 1 pt en cada sección = 6 pts."
        ),
    ),
]


@pytest.mark.parametrize(("language", "markers", "decreases"), SECTIONS)
def test_the_count_behind_until_is_that_of_the_last_round(
    language: str, markers: str, decreases: str
) -> None:
    reading = read(f"{markers}\n{decreases}", (72,), language)
    assert after_each_round(reading) == [*range(66, 5, -6)]


ONE_SIZE = [
    ("en", "Sizes S/M (L/XL)", "Only size L/XL: *k1, k2tog* around.", "Both sizes: k2tog around."),
    ("nb", "Topp str S/M (L/XL)", "Kun str L/XL: *1 r, 2 r sm* omg rundt.", "Begge str: 2 r sm omg rundt."),
    ("da", "Str. S/M (L/XL)", "Kun str. L/XL: *1 r, 2 r sm* omg rundt.", "Begge str: 2 r sm omg rundt."),
    (
        "de",
        "Größe S/M (L/XL)",
        "Nur Größe L/XL: *1 re, 2 M re zusstr*.",
        "Beide Größen: stets 2 M re zusstr.",
    ),
    ("nl", "Maat S/M (L/XL)", "Alleen maat L/XL: *1 r, 2 r samenbr*.", "Beide maten: steeds 2 r samenbr."),
]


@pytest.mark.parametrize(("language", "sizes", "largest", "both"), ONE_SIZE)
def test_letters_with_a_slash_are_one_size_where_the_sizes_are_so_listed(
    language: str, sizes: str, largest: str, both: str
) -> None:
    reading = read(f"{sizes}\n{largest}\n{both}", (48, 72), language)
    assert after_rounds_of_sizes(reading) == [[24], [48, 24]]


def test_letters_with_a_slash_are_two_sizes_where_the_sizes_are_listed_apart() -> None:
    text = "Str. S (M, L, XL)\nKun str. L/XL: *1 r, 2 r sm* omg rundt.\nAlle str: 2 r sm omg rundt."
    reading = read(text, (48, 48, 72, 72), "da")
    assert after_rounds_of_sizes(reading) == [[24], [24], [48, 24], [48, 24]]


TITLES = [
    ("de", "Mützenspitze, 96 M in 2 re, 2 li", "1. Rd: *2 re, 2 li zus* (72 M)."),
    ("nl", "Top van de muts, 96 st in 2 r, 2 av", "1e toer: *2 r, 2 av samenbr* (72 st)."),
    ("fr", "Haut du bonnet, 96 m. en 2 end., 2 env.", "1er tour : *2 end., 2 m. ens. à l'env.* (72 m.)."),
    ("es", "Cierre del gorro, 96 pts en 2 der, 2 rev", "Vta 1: *2 der, 2 pts jtos rev* (72 pts)."),
    ("nb", "Felling, 96 m i 2 r, 2 vr", "1. omg: *2 r, 2 vr sm* (72 m)."),
    ("da", "Lukning af rib-hue, 96 m i 2 r, 2 vr", "1. omg: *2 r, 2 vr sm* (72 m)."),
]


@pytest.mark.parametrize(("language", "title", "line"), TITLES)
def test_the_rib_in_a_title_is_no_round(language: str, title: str, line: str) -> None:
    assert after_each_round(read(f"{title}\n{line}", (96,), language)) == [72]


ONLY_DECREASES = [
    (
        "en",
        "Rnd 1: *k6, k2tog* = 56 sts.\nRnd 2: knit.\nRnd 3: *k5, k2tog* = 48 sts.",
        "Now work only dec rnds until 16 sts remain.",
    ),
    (
        "en",
        "Rnd 1: *k6, k2tog* = 56 sts.\nRnd 2: knit.\nRnd 3: *k5, k2tog* = 48 sts.",
        "From now on only decrease rounds, until 16 sts remain.",
    ),
    (
        "nl",
        "1e toer: *6 r, 2 r samenbr* = 56 st.\n2e toer: r.\n3e toer: *5 r, 2 r samenbr* = 48 st.",
        "Brei nu alleen nog mindertoeren, tot er 16 st over zijn.",
    ),
    (
        "de",
        "1. Rd: *6 re, 2 M re zusstr* = 56 M.\n2. Rd: re.\n3. Rd: *5 re, 2 M re zusstr* = 48 M.",
        "Nun nur noch Abnahmerunden stricken, bis 16 M übrig sind.",
    ),
    (
        "da",
        "1. omg: *6 r, 2 r sm* = 56 m.\n2. omg: r.\n3. omg: *5 r, 2 r sm* = 48 m.",
        "Strik nu kun indtagningsomgange, til der er 16 m tilbage.",
    ),
    (
        "nb",
        "1. omg: *6 r, 2 r sm* = 56 m.\n2. omg: r.\n3. omg: *5 r, 2 r sm* = 48 m.",
        "Strikk nå bare felleomganger til det er 16 m igjen.",
    ),
    (
        "fr",
        "Tour 1 : *6 end., 2 m. ens. à l'end.* = 56 m.\nTour 2 : end.\nTour 3 : *5 end., 2 m. ens. à l'end.* = 48 m.",
        "Ne tricoter ensuite que des tours de diminution, jusqu'à ce qu'il reste 16 m.",
    ),
    (
        "es",
        "Vta 1: *6 der, 2 pts jtos der* = 56 pts.\nVta 2: der.\nVta 3: *5 der, 2 pts jtos der* = 48 pts.",
        "Tejer ahora solo vueltas de menguado, hasta que queden 16 pts.",
    ),
]


@pytest.mark.parametrize(("language", "rounds", "on"), ONLY_DECREASES)
def test_decrease_rounds_alone_go_on_with_a_stitch_fewer(language: str, rounds: str, on: str) -> None:
    reading = read(f"{rounds}\n{on}", (64,), language)
    assert after_each_round(reading) == [56, 56, 48, 40, 32, 24, 16]


LAST_MARKERS = [
    (
        "fr",
        "Placer 6 marqueurs, un toutes les 16 m., le dernier en fin de tour.",
        "Tour 1 : tricoter 2 m. ens. avant chaque marqueur.",
    ),
    ("de", "6 Marker setzen, den letzten am Ende der Rd.", "1. Rd: Vor jedem Marker 2 M re zusstr."),
    (
        "nl",
        "Plaats 6 markeerders, de laatste aan het einde van de toer.",
        "1e toer: brei voor elke markeerder 2 st r samen.",
    ),
    (
        "es",
        "Colocar 6 marcadores, el último al final de la vta.",
        "Vta 1: tejer 2 pts jtos der antes de cada marcador.",
    ),
    ("da", "Sæt 6 mærker, det sidste i slutningen af omg.", "1. omg: Strik 2 r sm før hvert mærke."),
    ("nb", "Sett 6 merker, det siste på slutten av omg.", "1. omg: Strikk 2 r sm før hvert merke."),
]


@pytest.mark.parametrize(("language", "markers", "decreases"), LAST_MARKERS)
def test_where_the_last_marker_is_needs_no_round(language: str, markers: str, decreases: str) -> None:
    """Six sections of 16, and a decrease before each marker (arithmetic)."""
    assert after_each_round(read(f"{markers}\n{decreases}", (96,), language)) == [90]


AT_MARKERS = [
    ("nb", "Neste omg: Strikk 2 r sm etter hvert av de 8 merkene."),
    ("da", "1. omg: Strik 2 r sm efter hvert af de 8 mærker."),
    ("de", "1. Rd: Nach jedem der 8 Marker 2 M re zusstr."),
    ("de", "1. Rd: Vor jeder der 8 Markierungen 2 M re zusstr."),
    ("nl", "1e toer: brei na elk van de 8 markeerders 2 st r samen."),
    ("nl", "1e toer: voor elk van de 8 markeerders 2 st r samenbr."),
    ("fr", "Tour 1 : tricoter 2 m. ens. après chacun des 8 marqueurs."),
    ("es", "Vta 1: tejer 2 pts jtos después de cada uno de los 8 marcadores."),
]


@pytest.mark.parametrize(("language", "line"), AT_MARKERS)
def test_decreases_at_each_of_so_many_markers(language: str, line: str) -> None:
    assert after_each_round(read(line, (112,), language)) == [104]


CLOSINGS = [
    ("fr", "Tour 1 : *2 m. ens. à l'end.*. Couper le fil, le glisser dans les m. et serrer."),
    ("es", "A la vta siguiente tejer todos los pts de 2 en 2 juntos der: 8 pts. Cortar el hilo y cerrar."),
]


@pytest.mark.parametrize(("language", "line"), CLOSINGS)
def test_the_last_round_is_worked_once(language: str, line: str) -> None:
    assert after_each_round(read(line, (16,), language)) == [8]
