"""Ribs told in brackets, a fabric told again behind its rounds, changes in the round behind; the same in Spanish.

Spanish is written as teachers of Argentina say it, and as leaflets print it.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults, number_of_rounds

RIBS_LEFT_OVER = (
    ("en", "Work 9 rounds of rib (k4, p2)."),
    ("en", "Work 4 cm in rib (knit 4, purl 2)."),
    ("en", "Work 9 rounds in rib (4x2)."),
    ("en", "Rib [*k4, p2*], 9 rounds."),
    ("de", "9 Rd im Rippenmuster (4 M re, 2 M li) stricken."),
    ("fr", "Tricoter 9 tours de côtes (4 mailles endroit, 2 mailles envers)."),
    ("es", "Hacemos 9 vueltas de elástico (4 puntos del derecho, 2 puntos del revés)."),
    ("nb", "Strikk 9 omganger vrangbord (4 rett, 2 vrang)."),
    ("da", "Strik 9 omgange rib (4 ret, 2 vrang)."),
    ("nl", "Brei 9 toeren boordsteek (4 recht, 2 averecht)."),
)


@pytest.mark.parametrize(("language", "text"), RIBS_LEFT_OVER)
def test_a_rib_in_brackets_that_does_not_come_out(language: str, text: str) -> None:
    """It is called wrong as a rib told otherwise is; over stitches that it divides it is worked."""
    assert faults(read(text, (82,), language)) == [("left_over", 1)]
    assert set(after_each_round(read(text, (84,), language))) == {84}


ROUNDS = (
    # the fabric told again
    ("en", "Work 18 rounds in stockinette, that is, knit every round.", 18),
    ("en", "Knit 18 rounds, that is, knit all stitches.", 18),
    ("en", "Purl 2 rounds, knit.", 3),
    ("en", "Knit 2 rounds, knit 1 round.", 3),
    ("es", "Hacemos 18 vueltas en jersey, o sea, todas al derecho.", 18),
    ("es", "Teje 18 vueltas en punto jersey, todo del derecho.", 18),
    ("en", "Knit 18 rounds, all knit.", 18),
    ("en", "Work 18 rounds, all purl. Knit 2 rounds.", 20),
    # the fabric gone on in, and behind it how many rounds
    ("en", "Work 6 rounds in 1x1 rib and continue in stockinette. Work 15 rounds.", 21),
    ("en", "Work 6 rounds in 1x1 rib, then continue in stockinette.\nKnit 15 rounds.", 21),
    ("en", "Work 6 rounds in 1x1 rib. Continue in stockinette for 5 rounds. Work 15 rounds.", 26),
    ("es", "Tejer 6 vueltas en elástico 1x1 y seguir en jersey. Tejer 15 vueltas.", 21),
    ("fr", "Tricoter 6 tours en côtes 1/1 et continuer en jersey. Tricoter 15 tours.", 21),
    # rounds without the noun
    ("en", "Work the first 6 rounds in 2x2 rib and the next 18 in stockinette.", 24),
    ("en", "Work 6 rounds of k2, p2 rib, then 18 of stockinette.", 24),
    ("es", "Tejer las primeras 6 vueltas en elástico 2x2 y las siguientes 18 en jersey.", 24),
    ("fr", "Tricoter les 6 premiers tours en côtes 2/2 et les 18 suivants en jersey.", 24),
    ("en", "Work the first 6 rounds in 2x2 rib, the next 18 rounds in stockinette.", 24),
    ("en", "Work the first 6 rounds in 2x2 rib; the next 18 rounds in stockinette.", 24),
    ("es", "Tejer las primeras 6 vueltas en elástico 2x2, las siguientes 18 en jersey.", 24),
    ("en", "Knit 18 rounds, increasing 10 sts in the first round: *k8, m1*, 10 times (90 sts).", 18),
    ("en", "Work 4 rounds k1, p1. Work 5 rounds k2, p2.", 9),
    ("de", "4 Runden 1 Masche rechts, 1 Masche links stricken.", 4),
    ("en", "Purl 2 rounds and knit 9.", 11),
    ("en", "Knit 3 rounds, then purl 2.", 5),
    ("en", "Knit 3 rounds, k2, p2.", 4),
    ("en", "Knit 3 rounds, then work 5 rounds, k2, p2 (80 sts).", 8),
    ("en", "Knit 3 rounds, work 5 rounds, k2, p2.", 9),
    ("en", "Work 3 rounds, k2, p2.", 3),
    ("de", "3 Runden stricken, 2 M re, 2 M li.", 3),
    ("fr", "Tricoter 3 tours, 2 m end, 2 m env.", 3),
    ("es", "Tejer 3 vueltas, 2 p d, 2 p r.", 3),
    ("nb", "Strikk 3 omg, 2 r, 2 vr.", 3),
    ("da", "Strik 3 omg, 2 r, 2 vr.", 3),
    ("nl", "Brei 3 toeren, 2 r, 2 av.", 3),
    ("nb", "Strikk 3 omg rett, 2 r, 2 vr.", 4),
    ("de", "Glatt rechts weiterstricken. 20 Rd stricken.", 20),
    ("de", "Im Rippenmuster 2/2 weiterstricken. 20 Rd stricken.", 20),
    ("en", "Work 6 rounds, all knit, dec 8 sts evenly in the last.", 6),
    ("en", "Work 6 rounds, all knit, then 2 rounds, all purl.", 8),
    ("de", "2 Runden links und 9 rechts stricken.", 11),
    ("es", "Tejer 2 vueltas del revés y 9 del derecho.", 11),
    ("fr", "Tricoter 2 tours à l'envers et 9 à l'endroit.", 11),
    ("en", "Knit 6 rounds and in the next increase 10 evenly (90 sts).", 7),
    ("en", "Knit 6 rounds and increase 10 sts evenly in the next one (90 sts).", 7),
    ("de", "6 Runden rechts stricken und in der nächsten 10 Maschen verteilt zunehmen (90 M).", 7),
    ("es", "Tejer 6 vueltas y en la siguiente aumentar 10 puntos repartidos (90 puntos).", 7),
    # changed in the round behind, in the last or in the first
    ("en", "Work 6 rounds in 2x2 rib and in the next round increase 10 sts evenly (90 sts).", 7),
    ("en", "Knit 6 rounds, then on the foll rnd inc 10 sts evenly (90 sts).", 7),
    ("en", "Work 6 rounds in rib (k2, p2), increasing 10 sts evenly in the next round (90 sts).", 7),
    ("en", "Work 6 rounds in 2x2 rib, increasing 10 sts evenly in the last round (90 sts).", 6),
    ("en", "Work 6 rounds in 2x2 rib, inc 10 sts evenly before the next round begins (90 sts).", 6),
    ("en", "Work 6 rounds in 2x2 rib, and in the last round inc 10 sts evenly, which are used next.", 6),
    (
        "es",
        "Tejé 6 vueltas en elástico 2x2 y en la próxima vuelta aumentá 10 puntos repartidos (90 puntos).",
        7,
    ),
    ("es", "Tejer 6 vueltas en elástico 2x2 y en la última aumentar 10 p. repartidos (90 p.).", 6),
    ("es", "Tejemos 6 vueltas en jersey y, en la primera vuelta, aumentamos 10 puntos repartidos (90).", 6),
    (
        "fr",
        "Tricoter 6 tours en côtes 2/2 et au tour suivant augmenter 10 mailles réparties (90 mailles).",
        7,
    ),
    # words of a change of fabric
    ("es", "Pasá a jersey y tejé 15 vueltas.", 15),
    ("es", "Se pasa a punto jersey y se tejen 15 vueltas.", 15),
    ("es", "Cambiamos a jersey. En la primera vuelta disminuimos 8 puntos repartidos: 72 puntos.", 1),
    ("es", "Pase a jersey y en la primera vuelta disminuya 8 puntos repartidos: quedan 72 puntos.", 1),
    ("es", "Pasar a jersey, aumentando 10 puntos repartidos en la primera vuelta (90 puntos).", 1),
    # lengths, of which a single round is read
    ("es", "Seguir en jersey hasta una altura total de 19 cm.", 1),
    ("es", "Seguí en jersey hasta que el gorro alcance un largo de 19 cm.", 1),
    ("es", "Continúe en jersey hasta obtener una longitud total de 19 cm.", 1),
)


INCREASED_IN_THE_FIRST = (
    ("en", "Work st st, increasing 4 sts Rnd 1: *k20, 1 increase*, rep 4 times = 84 sts."),
    ("en", "*K19, 1 inc; rep from * around (84 sts)."),
    (
        "de",
        "Glatt rechts stricken, dabei in der 1. Runde 4 Maschen zunehmen: *20 M re, 1 M zunehmen*, 4 x (84 M).",
    ),
    (
        "fr",
        "Tricoter en jersey, en augmentant 4 mailles au 1er tour : *20 m end, 1 augmentation*, 4 fois (84 m).",
    ),
    ("es", "Tejer en jersey, aumentando 4 puntos en la 1ª vuelta: *20 p. der., 1 aumento*, 4 veces (84 p.)."),
    ("nb", "Strikk glattstrikk, øk 4 masker på 1. omgang: *20 r, øk 1*, gjenta 4 ganger (84 m)."),
    ("da", "Strik glatstrikning, tag 4 masker ud på 1. omgang: *20 r, 1 udtagning*, gentag 4 gange (84 m)."),
)


@pytest.mark.parametrize(("language", "text"), INCREASED_IN_THE_FIRST)
def test_an_increase_of_the_first_round_and_its_method(language: str, text: str) -> None:
    """The round told behind is the one in which the stitches are increased, and is worked once."""
    found = read(f"{text}\n", (80,), language)
    assert not faults(found)
    counts = after_each_round(found)
    assert counts[-1] == 84
    assert counts.count(84) == 1


@pytest.mark.parametrize("marker", ["marcador", "marcapuntos"])
def test_a_decrease_before_each_marker_with_its_method(marker: str) -> None:
    """The method told behind is that of the one decrease, and markers have two names in Spanish."""
    text = (
        f"Insertar 8 {'marcadores' if marker == 'marcador' else marker} con 10 puntos entre cada uno.\n"
        f"En la vuelta siguiente, disminuir 1 punto antes de cada {marker} tejiendo 2 puntos juntos del derecho.\n"
        "Disminuir de esta manera cada 2 vueltas un total de 3 veces (56 puntos)."
    )
    assert after_each_round(read(text, (80,), "es")) == [72, 72, 64, 64, 56]


@pytest.mark.parametrize(("language", "text", "rounds"), ROUNDS)
def test_how_many_rounds(language: str, text: str, rounds: int) -> None:
    assert number_of_rounds(read(text, (80,), language)) == [rounds]
