"""Spanish of handbooks, magazines and classes: rounds in turn, short words, ordinals, rounds A and B by number.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, told_crowns

TEXTS = told_crowns(
    """
    # repeats in a row, each a round
    80: 70 60 50 25
    En todas las vueltas: [6 derechos, 2 juntos], [5 derechos, 2 juntos], [4 derechos, 2 juntos] y al
      final puros 2 juntos.

    80: 70 60 50 40
    Ahora en cada vuelta: (6 d., 2 j.); (5 d., 2 j.); (4 d., 2 j.); (3 d., 2 j.). Quedan 40 p.

    # short words
    90: 80 80 80 80 70
    1ª v. de men.: *7 p. d., 2 p. j. d.* 10 veces = 80 p.
    3 v. sin men.
    2ª v. de men.: *6 p. d., 2 p. j. d.* 10 veces = 70 p.

    81: 72 72 72 63
    Primera reducción, (7 der., 2 j.) por 9: 72 p. 2 v. parejas.
    Segunda reducción, (6 der., 2 j.) por 9: 63 p.

    54: 48 48 42 42 36 30 24 18
    V. de mg.: (7 p. der., 2 p. juntos) 6 veces; quedan 48 p.
    Mg. del mismo modo, con 1 p. menos cada vez, 2 veces más cada 2 v. (36 p.) y luego en todas las v. hasta
      que queden 18 p.

    # increases between stitches
    54: 60
    Aumentar: * 9 p., levantar 1 p. de la hebra intermedia *, 6 veces.

    # ordinals
    60: 50 50 40 40 30 20 10
    Se cogen juntos los puntos 5.º y 6.º en toda la vuelta, y una vuelta lisa; el 4.º con el 5.º, y otra;
      quedan 40.
    Se sigue vuelta tras vuelta: el 3.º con el 4.º, el 2.º con el 3.º y, finalmente, todos de dos en dos.

    # from a round on, between decreases, the last one alone
    80: 70 70 60 50 40 30 20
    V 1: (6 pd, 2pjd) 10 veces, 70 p.
    V 2: pd
    A partir de la vuelta 3 menguar 10 p. en todas las vueltas hasta que queden 20 p.

    50: 45 40 35 30
    (8 p. der., 2 p. juntos) cinco veces: 45 p.
    Después menguar en cada vuelta: con 7 p. entre menguados (40), con 6 p. (35) y con 5 p. (30).

    37: 19
    Tejer todos los puntos de dos en dos hasta que quede uno, y ese último del derecho.

    # rounds A and B by number
    72: 66 66 60 54
    6 secciones de 12 p.
    Vuelta A: en cada sección tejer hasta 2 p. antes del marcador, 2 p. juntos.
    Vuelta B: derecho.
    1. Vuelta A: quedan 66 p
    2. Vuelta B
    3 a 4. Vuelta A dos veces: quedan 54 p
    """
)


@pytest.mark.parametrize(("text", "count", "after"), TEXTS)
def test_handbook_and_class(text: str, count: int, after: list[int]) -> None:
    assert after_each_round(read(text, (count,), "es")) == after


def test_a_number_that_does_not_come_out_behind_a_short_word() -> None:
    """A wrong count behind `por 9` is found."""
    text = "Primera reducción, (7 der., 2 j.) por 9: 72 p.\nSegunda reducción, (6 der., 2 j.) por 9: 65 p."
    assert [finding.code for finding in read(text, (81,), "es").findings] == ["count_differs"]
