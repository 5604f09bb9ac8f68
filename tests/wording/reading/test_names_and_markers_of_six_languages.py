"""Markers at equal distances, sizes joined by a word, names given behind a sentence and rounds, in six languages."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

MARKERS = [
    ("de", "8 Marker einhängen, je einen nach 12 M.", "1. Rd: * bis 2 M vor dem Marker re, 2 M re zus *"),
    (
        "fr",
        "Placez 8 marqueurs, un après chaque 12 m.",
        "Tour 1 : *end jusqu'à 2 m avant le marqueur, 2 m ens*",
    ),
    ("es", "Coloca 8 marcadores, uno cada 12 puntos.", "V1: *der hasta 2 p antes del marcador, 2PJD*"),
    ("nb", "Sett 8 merker, ett for hver 12. m.", "Omg 1: *strikk r til 2 m før merket, 2 r sm*"),
    ("da", "Sæt 8 mærker, et for hver 12. m.", "Omg 1: *strik r til 2 m før mærket, 2 r sm*"),
    (
        "nl",
        "Plaats 8 markeerders, één om de 12 steken.",
        "Toer 1: *r tot 2 st voor de markeerder, 2 r samen*",
    ),
]


@pytest.mark.parametrize(("language", "markers", "line"), MARKERS)
def test_so_many_markers_stand_at_equal_distances(language: str, markers: str, line: str) -> None:
    assert after_each_round(read(f"{markers}\n{line}", (96,), language)) == [88]


SIZES = [
    (
        "de",
        (
            "Spitze (Größen M und L, 96 und 104 M)\n"
            "1. Rd: Gr. M: *2 M re zus; Gr. L: *2 M re, 2 M re zus; ab * wdh = 48 (78) M"
        ),
    ),
    (
        "fr",
        (
            "Calotte (tailles M et L)\n"
            "Tour 1 : taille M : *2 m ens ; taille L : *2 m end, 2 m ens ; rép de * = 48 (78) m"
        ),
    ),
    (
        "es",
        (
            "Corona (tallas M y L, 96 y 104 puntos)\n"
            "R1: talla M: *2PJD; talla L: *2 der, 2PJD; rep de *. 48 (78) p"
        ),
    ),
    (
        "nb",
        ("Topp (str. M og L)\nOmg 1: str. M: *2 r sm; str. L: *2 r, 2 r sm; gjenta fra * = 48 (78) m"),
    ),
    (
        "da",
        (
            "Top (str. M og L, 96 og 104 m)\n"
            "Omg 1: str. M: *2 r sm; str. L: *2 r, 2 r sm; gentag fra * = 48 (78) m"
        ),
    ),
    (
        "nl",
        ("Kroon (maten M en L)\nToer 1: maat M: *2 r sam; maat L: *2 r, 2 r sam; herhaal van * = 48 (78) st"),
    ),
    (
        "en",
        (
            "Crown (sizes M and L, 96 and 104 sts)\n"
            "Rnd 1: size M: *k2tog; size L: *k2, k2tog; rep from * around. 48 (78) sts"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), SIZES)
def test_two_sizes_are_joined_by_a_word(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (96, 104), language)) == [[48], [78]]


NAMES = [
    (
        "de",
        (
            "Die Spitze über 72 M. Doppelter Überzug (DÜ): 1 M abh, 2 M re zusstr, die abgehobene M überz.\n"
            "1. Rd: [DÜ, 9 re] 6x"
        ),
    ),
    (
        "fr",
        (
            "Sur 72 mailles. Surjet double (SD) : glisser 1 m, 2 m ens end, rabattre la m glissée.\n"
            "Rg 1 : [SD, 9 end] 6 fois"
        ),
    ),
    (
        "es",
        (
            "Sobre 72 puntos. Disminución doble (DD): deslizar 1 p, 2 p juntos der, pasar el p deslizado por encima.\n"
            "V1: [DD, 9 der] 6 veces"
        ),
    ),
    (
        "nb",
        (
            "72 m. Dobbel felling (DF): ta 2 m løst av som skulle de strikkes r sm, 1 r, trekk de løse m over.\n"
            "Omg 1: [DF, 9 r] 6 ganger"
        ),
    ),
    (
        "da",
        (
            "72 m. Dobbelt indtagning (DI): tag 2 m løst af som skulle de strikkes r sm, 1 r, træk de løse m over.\n"
            "Omg 1: [DI, 9 r] 6 gange"
        ),
    ),
    (
        "nl",
        (
            "Over 72 steken. Dubbele overhaling (DO): haal 1 st af, brei 2 st r samen, haal de afgehaalde st over.\n"
            "nld 1: [DO, 9 r] 6x"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), NAMES)
def test_a_stitch_is_named_behind_another_sentence(language: str, text: str) -> None:
    assert after_each_round(read(text, (72,), language)) == [60]


ROUNDS = [
    ("fr", "Rg 1 – 1 m end, 2 ens tout le tour (64 m)\nRg 2 – 2 ens tout le tour (32 m)", [64, 32]),
    ("nl", "t.1: 1 r, 2 r sam., herh. = 64 st\nt.2-3: r\nt.4: 2 r sam., herh. = 32 st", [64, 64, 64, 32]),
    (
        "nl",
        "Naald 1: *1 r, 2 r sam*\nNaald 2 (en alle even naalden): recht\nNaald 3: *2 r sam*",
        [64, 64, 32],
    ),
    ("es", "R1: *2PJD*\nR2: derecho\nRepite R1 y R2 una vez más", [48, 48, 24, 24]),
    ("es", "R1: *2PJD*\nR2: como R1", [48, 24]),
    ("es", "Después, 2 vueltas a punto liso.", [96, 96]),
]


@pytest.mark.parametrize(("language", "text", "counts"), ROUNDS)
def test_short_names_of_rounds(language: str, text: str, counts: list[int]) -> None:
    assert after_each_round(read(text, (96,), language)) == counts


NAMED_COUNTS = [
    ("de", "1. Rd: *2 M re, 2 M re zus*; S: 72 M; M: 84 M."),
    ("fr", "Tour 1 : *2 m end, 2 m ens* – S : 72 m ; M : 84 m."),
    ("nb", "Omg 1: *2 r, 2 r sm* – S: 72 m, M: 84 m."),
    ("da", "Omg 1: *2 r, 2 r sm* – S: 72 m; M: 84 m."),
]


@pytest.mark.parametrize(("language", "text"), NAMED_COUNTS)
def test_the_letter_of_a_size_is_no_stitch_before_its_count(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (96, 112), language)) == [[72], [84]]


def test_sizes_joined_by_a_word_may_be_some_of_them() -> None:
    text = "Größen S, M und L\n1. Rd: 2 zus\nNur Gr. M und L: 2. Rd: 2 zus"
    assert after_rounds_of_sizes(read(text, (96, 96, 96), "de")) == [[48], [48, 24], [48, 24]]


def test_a_short_name_is_given_behind_a_sentence_in_english() -> None:
    text = "The crown, over 72 sts. DD: sl 1, k2tog, psso.\nRnd 1: [DD, k9] 6 times - 60 sts"
    assert after_each_round(read(text, (72,))) == [60]
