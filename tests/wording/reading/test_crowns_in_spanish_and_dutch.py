"""Crowns in Spanish and Dutch: decreases at every marker, even rounds told by the way, every so many stitches.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, after_rounds_of_sizes

MARKERS = "Tenemos 72 puntos. Colocar 6 marcadores, uno cada 12 puntos.\n1ª vuelta: {} = 66 puntos."
NEEDLES = "Verdeel de 96 steken over 4 naalden, 24 steken per naald.\nMinder als volgt: {} = 88 steken."

TEXTS = [
    # a decrease before every marker
    (
        "es",
        MARKERS.format("tejer al derecho hasta 2 puntos antes de cada marcador, 2 puntos juntos"),
        72,
        [66],
    ),
    ("es", MARKERS.format("tejer hasta que falten 2 p para cada marcador, 2pjd"), 72, [66]),
    (
        "es",
        (
            "Vuelta 1: 7 del derecho y 2 juntos. 64.\nVuelta 2: toda del derecho (y todas las pares hasta la 4).\n"
            "Vuelta 3: 6 del derecho y 2 juntos. 56.\nVuelta 5: 5 del derecho y 2 juntos. 48."
        ),
        72,
        [64, 64, 56, 56, 48],
    ),
    (
        "es",
        "V1: (7 p der, 2pjd) x 8 = 64 p\nV3: (6 p der, 2pjd) x 8 = 56 p\n¿Y las pares? Todas del derecho, sin más.",
        72,
        [64, 64, 56],
    ),
    (
        "es",
        "Vta 1: *7pd, 2pjd* – 64 pts\nVta 2: *6pd, 2pjd* – 56 pts\nLo que está entre * * se repite toda la vuelta.",
        72,
        [64, 56],
    ),
    # plain rounds and a decrease round, so often
    (
        "es",
        (
            "Vuelta de disminución: *11 pd, DD* = 72 p.\n(DD = disminución doble)\n"
            "Teje 2 vueltas al derecho y una de disminución con 2 p menos antes de cada DD; hazlo 2 veces. = 48 p.\n"
            "Teje 1 vuelta al derecho y una vuelta de disminución; hazlo una vez. = 36 p.\n"
            "Vuelta siguiente: otra vuelta de disminución. = 24 p."
        ),
        84,
        [72, 72, 72, 60, 60, 60, 48, 48, 36, 24],
    ),
    # on each needle
    (
        "nl",
        NEEDLES.format("brei op elke naald de 1e en 2e st als overhaling en de laatste 2 st r samen"),
        96,
        [88],
    ),
    (
        "nl",
        NEEDLES.format("op elke naald de eerste 2 st met een overhaling en de laatste 2 r samenbreien"),
        96,
        [88],
    ),
    # rounds that are called rows
    (
        "nl",
        "Nld. 1 (kleur A): elke 9e en 10e st r samenbr (90 st)\nNld. 2 t/m 4 (kleur B): r.",
        100,
        [90, 90, 90, 90],
    ),
    ("nl", "Naald 1: elke 9e en 10e st r samenbr (90 st)\nNaalden 2 tot en met 4: r.", 100, [90, 90, 90, 90]),
    # two stitches a round
    (
        "nl",
        "Vervolgens 1 toer de 4e en 5e st, 1 toer de 3e en 4e st en 1 toer steeds 2 st samenbreien.",
        40,
        [32, 24, 12],
    ),
    (
        "nl",
        "Brei in de volgende toer elke 4e en 5e st samen, in de toer daarna de 3e en 4e st.",
        40,
        [32, 24],
    ),
    # told of every decrease
    ("nl", "We minderen 10 st per keer.\n1e toer: *5 r, 2 r samenbr* = 60 st.\n2e toer: r.", 70, [60, 60]),
]


@pytest.mark.parametrize(("language", "text", "cast_on", "after"), TEXTS)
def test_a_crown_is_read(language: str, text: str, cast_on: int, after: list[int]) -> None:
    """Every round leaves what is printed."""
    assert after_each_round(read(text, (cast_on,), language)) == after


def test_stitches_of_sizes_stand_side_by_side_with_commas() -> None:
    """A text that prints `84, 96, 108 puntos` of three sizes prints all their numbers so, but not those of rounds."""
    text = (
        "Tallas: niño, mujer, hombre\nMonta 84, 96, 108 puntos, une en redondo.\n"
        "Vuelta 1: *12, 14, 16 pd, 2pjd*. Tienes 78, 90, 102 puntos.\nVueltas 2, 3, 4: del derecho."
    )

    assert after_rounds_of_sizes(read(text, (84, 96, 108), "es")) == [[78] * 4, [90] * 4, [102] * 4]


def test_commas_part_numbers_where_no_stitches_of_sizes_are_printed_with_them() -> None:
    """Three sizes do not make a list of three of any numbers."""
    assert rewritten("12, 14, 16 pd", "es", 3).text == "12, 14, k16"


@pytest.mark.parametrize(
    "words", ["Las vueltas número 2, 4, 6", "Vta nº 2, 4, 6", "Vueltas n.º 2, 4, 6", "Vta. 2, 4, 6"]
)
def test_numbers_of_rounds_are_those_of_no_sizes(words: str) -> None:
    """Three rounds of all three sizes."""
    text = f"Montar 72, 84, 96 p.\nVta 1: der.\nVta 3: der.\nVta 5: der.\n{words}: der."

    assert after_rounds_of_sizes(read(text, (72, 84, 96), "es")) == [[72] * 6, [84] * 6, [96] * 6]


@pytest.mark.parametrize(
    ("words", "of_sizes"),
    [
        ("In jeder Rd 5/7 M re.", True),
        ("6 Rd. 5/7 M re.", True),
        ("Rd. 5/7: re", False),
        ("In Rd 5/7 re str.", False),
        ("In Rd Nr. 5/7 re str.", False),
    ],
)
def test_a_slash_behind_a_round_parts_sizes_where_stitches_are_counted(words: str, *, of_sizes: bool) -> None:
    """Elsewhere the numbers are those of two rounds."""
    text = rewritten(f"72/84 M anschlagen.\n{words}", "de", 2).text

    assert ("5 (7)" in text) == of_sizes
