"""Rounds straight behind `and`, decreases again in the next rounds, the same in all sections, a dot as times.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, told_crowns

ENGLISH = told_crowns(
    """
    # rounds straight behind `and`
    70: 63 63 63 56 56
    (K8, k2tog) around and 2 rnds straight. (K7, k2tog) around and 1 rnd straight.

    60: 50 50 50 50
    Rnd 1: *k4, k2tog* 10 times and 3 rnds without decreases.

    # in the next rounds in the same way
    70: 63 63 63 56 49
    Dec 7 sts evenly around. Knit 2 rnds. In the next 2 rnds dec in the same way.

    63: 56 49 42
    Rnd 1: (k7, k2tog) around. Next 2 rnds: dec in the same way.

    63: 56 49
    Rnd 1: (k7, k2tog) around. In the following rnd decrease in the same way.

    40: 20 10
    Rnd 1: k2tog around. Do the same in the next rnd: 10 sts.

    # the same in all sections
    60: 54 54
    Rnd 1: knit to 2 sts before marker, k2tog, slip marker. Do the same in all 6 sections.
    Rnd 2: knit.

    60: 54
    Rnd 1: k8, k2tog. Do the same in the other 5 sections.

    # a dot as the sign of times
    60: 54 54 48
    (k8, k2tog)·6 = 54; 1 rnd k.
    (k7, k2tog) · 6 = 48

    50: 45 45 45
    (k8, k2tog) · 2 rnds plain
    """
)

SPANISH = told_crowns(
    """
    60: 54 54 54 48
    (8d, 2jd)·6 → 54; 2 vlts d.
    (7d, 2jd)·6 → 48

    # the same in all sections
    54: 48 48 42 42
    V1: teje del derecho hasta que falten 2 puntos para el marcador, 2pjd, pasa el marcador. Haz lo mismo en
      los 6 gajos.
    V2: todo del derecho.
    Teje V1 y V2 un total de 2 veces. Te quedarán 7 puntos por gajo, o sea, 42.

    # so many plain stitches fewer
    60: 50 50 40 40 30
    V1: *4 pd, 2pjd; rep desde * = 50 pts.
    V2: al derecho.
    Rep las V1 y V2, tejiendo cada vez 1 pd menos antes de los 2pjd, y acaba con la vuelta de disminución en
      la que queden 30 pts.

    # rounds that others are like
    60: 50 50 40 40 30 30 20
    V1: *4 d, 2pjd* diez veces.
    V2: todo al derecho, lo mismo que la 4 y la 6.
    V3: *3 d, 2pjd* diez veces.
    V5: *2 d, 2pjd* diez veces.
    V7: *1 d, 2pjd* diez veces.

    # again, also
    40: 20 10
    En la siguiente juntamos todos de dos en dos, y en la otra también: primero 20, luego 10.

    50: 45
    Vuelta de disminución: teje 8, dos juntos; otra vez 8, dos juntos... así cinco veces. Te quedan 45.

    # rounds with and without
    60: 54 54 54 48 48 48 42 36
    6 marcadores.
    La vuelta que mengua: cuando falten dos puntos para un marcador, téjelos juntos al derecho.
    Haz una vuelta que mengua y dos que no. Hazlo dos veces en total.
    Haz dos vueltas que menguan.

    44: 40 40 40 36
    Primer menguado: nueve puntos al derecho y dos cogidos juntos, repitiéndolo cuatro veces en la vuelta.
    Siguen dos vueltas lisas y otra de menguar con ocho puntos y dos juntos.

    # steps by letters
    64: 56 56 49 49
    a) (6 d, 2 jun) toda la vuelta.
    b) Una vuelta del derecho.
    c) Haz a) y b) una vez más.

    # a slipped stitch passed over
    40: 30
    V1: *5 d, desl 1, 2 jun, montar la deslizada; rep desde *.
    """
)

SIZES = (
    (
        "es",
        "Tallas: bebé / niña / mujer: 60 / 72 / 84 p.\nVta 1 (solo niña y mujer): *4 / 5 p der, 2 p jun der*.",
    ),
    (
        "de",
        "Größen: Baby / Kind / Dame: 60 / 72 / 84 M.\nRunde 1 (nur Kind und Dame): *4 / 5 M re, 2 M re zus*.",
    ),
    ("nl", "Maten: baby / kind / dame: 60 / 72 / 84 st.\nToer 1 (alleen kind en dame): *4 / 5 r, 2 r sam*."),
)


@pytest.mark.parametrize(("text", "cast_on", "after"), ENGLISH)
def test_english(text: str, cast_on: int, after: list[int]) -> None:
    """They are read so."""
    reading = read(text, (cast_on,), "en")
    assert after_each_round(reading) == after


@pytest.mark.parametrize(("text", "cast_on", "after"), SPANISH)
def test_spanish(text: str, cast_on: int, after: list[int]) -> None:
    """They are read so."""
    reading = read(text, (cast_on,), "es")
    assert after_each_round(reading) == after


@pytest.mark.parametrize(("language", "text"), SIZES)
def test_round_for_two_of_three_sizes(language: str, text: str) -> None:
    """Its numbers with a slash are those of the two."""
    reading = read(text, (60, 72, 84), language)
    assert after_rounds_of_sizes(reading) == [[], [60], [72]]


NEXT_ROUNDS = (
    "Next 4 rnds: dec as before.",
    "Next 4 rnds are dec rnds (40 sts).",
    "The next 4 rnds are all decrease rounds: 40 sts.",
    "Next 4 rnds all as dec rnds, with 1 st less between decreases each time (64, 56, 48, 40 sts).",
)


@pytest.mark.parametrize("text", NEXT_ROUNDS)
def test_next_rounds_that_all_decrease_have_no_plain_ones(text: str) -> None:
    """So many next rounds are told to decrease: a plain round before them does not come between."""
    reading = read(f"*k8, k2tog* around (72 sts). Knit 1 round.\n{text}", (80,))

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == [72, 72, 64, 56, 48, 40]
