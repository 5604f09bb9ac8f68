"""What Spanish teachers, bloggers and old books tell in full sentences: rounds, repeats, counts and going on."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults

CROWNS = [
    # a decrease as it is worked, and a round told by its repeats
    (
        80,
        "*8 p der, toma 2 puntos juntos y téjelos al derecho como si fueran uno solo*, 8 veces (72 p).",
        [72],
    ),
    (
        72,
        (
            "Teje 10 puntos y los 2 siguientes juntos. Repite lo mismo seis veces en total y habrás llegado al final "
            "de la vuelta con 66 puntos."
        ),
        [66],
    ),
    (60, "Tejer toda la vuelta 3 puntos juntos al derecho.", [20]),
    (
        80,
        "Tejemos de a 2 pts juntos toda la vuelta, o sea 40 pts, y en la que sigue lo mismo, o sea 20.",
        [40, 20],
    ),
    (80, "En la vuelta siguiente aumenta 1 punto después de cada 8 puntos (90 p).", [90]),
    (80, "Aumenta en la vuelta siguiente 1 p tras cada 10 p.", [88]),
    (
        60,
        (
            "DI = deslizar 2 p de uno en uno, devolverlos a la aguja izquierda y tejerlos juntos por la hebra de "
            "atrás.\n*DI, 8 p der, rep desde * hasta el final (54 p)."
        ),
        [54],
    ),
    (
        60,
        (
            "MD = deslizar 2 p juntos como si se fueran a tejer al derecho, 1 p der, pasar por encima los 2 p "
            "deslizados.\n*7 p der, MD*, 6 veces (48 p)."
        ),
        [48],
    ),
    # decrease rounds by their number, and again with fewer stitches
    (
        72,
        (
            "La primera disminución se hace con 7 puntos derechos y 2 juntos (64 p).\nUna vuelta entera del derecho.\n"
            "La segunda disminución es de 6 puntos y 2 juntos (56 p)."
        ),
        [64, 64, 56],
    ),
    (
        72,
        (
            "Teje 7 puntos y 2 juntos toda la vuelta (64).\nOtra vez a disminuir, pero con 6 puntos antes de los 2 "
            "juntos: 56.\nCon 5 puntos te quedarás con 48, luego con 4 tendrás 40, y después de cada una de estas "
            "vueltas tejes otra entera del derecho."
        ),
        [64, 56, 48, 48, 40, 40],
    ),
    # rounds in turn
    (
        84,
        (
            "En 3 agujas hay 28 puntos por aguja.\nEn cada aguja se toman juntos los dos primeros puntos, se hacen "
            "lisos los demás y se toman juntos los dos últimos. Con ello la vuelta disminuye en seis puntos.\n"
            "Se teje una vuelta lisa.\nSe van alternando así una vuelta menguada y una lisa, hasta que no haya más que "
            "22 puntos en cada aguja."
        ),
        [78, 78, 72, 72, 66],
    ),
    (
        80,
        (
            "Coloca un marcador cada 20 p.\nVuelta de disminución: teje hasta 2 p antes de cada marcador y teje esos "
            "2 p juntos.\nTeje la vuelta de disminución y dos vueltas lisas, 2 veces en total (72 p)."
        ),
        [76, 76, 76, 72, 72, 72],
    ),
    (
        80,
        (
            "Un marcador cada 20 p.\nVuelta 1: *teje hasta 2 p antes del marcador, 2pjd, pasa el marcador; rep desde * "
            "3 veces más.\nVuelta 2: der.\nTrabaja estas dos vueltas 2 veces más."
        ),
        [76, 76, 72, 72, 68, 68],
    ),
    (
        80,
        "En todos los grupos: 1 derecho, 2 p juntos al derecho, 1 revés.\n2 vueltas más como se presentan.",
        [60, 60, 60],
    ),
    # decreases at two rates, where a short form stands before `and`; rounds by the letter of purl
    (
        96,
        (
            "Repartir 8 menguados en la vta.: *10 p., 2 p. juntos al der. *, rep. de * a *.\n"
            "Rep. estos menguados en los mismos sitios 2 veces más cada 2 vtas. y 3 veces todas las vtas."
        ),
        [88, 88, 80, 80, 72, 64, 56, 48],
    ),
    (
        12,
        "R1-R2: *1d, 1r*, repetir.\nR 3 – R 4: *1d, 1r*\nR5 a R6: todo derecho.\nR7 y R8: 1r, 1r, 10d",
        [12] * 8,
    ),
    (
        80,
        "En la última vta. del elástico aumentar 8 p. repartidos: *10 p., 1 aum. *, rep. de * a * 8 veces.",
        [88],
    ),
    (80, "Aumentar 8 p. en la última vta. del elástico: *10 p., 1 aum. *, rep. de * a *.", [88]),
    (80, "*7 p., 1 aum. intercalado, 1 p.*, rep. de * a * 10 veces.", [90]),
    # how many rounds a crown has is no round
    (
        56,
        "Se tejen 56 puntos y el cierre se hace en 6 vueltas.\n1: 5 derechos y 2 juntos; nos quedamos con 48.",
        [48],
    ),
    (56, "Se montan 56 puntos y la copa se teje en 6 vueltas.\nVuelta 1: *5 d, 2 jd*.", [48]),
    # a marker by its letter
    (
        84,
        (
            "Coloca 6 marcadores, uno cada 14 p.\nVta de disminución: *d hasta 2 p antes del M, 2pjd, desl M* 6 veces. "
            "(78 p)\nVta siguiente: d.\nRepite estas 2 vtas 1 vez más. (72 p)\n"
            "Ahora teje solo la vta de disminución, 2 veces. (60 p)\n"
            "Última vta: 2pjd toda la vta, quitando los M. (30 p)"
        ),
        [78, 78, 72, 72, 66, 60, 30],
    ),
    (
        84,
        (
            "Coloca 6 marcadores, uno cada 14 p.\n*Teje del derecho hasta 3 p antes del M, 3 p juntos, pasa el M*, "
            "6 veces (72 p)."
        ),
        [72],
    ),
    (84, "Coloca 6 marcadores, uno cada 14 p.\n*2pjd, d hasta el M, desliza el M*, 6 veces (78 p).", [78]),
]


FIRST = "Hay 80 p.\nTeje 8 p y 2 juntos toda la vuelta: 72.\nUna vuelta del derecho.\n"
"""A round that shapes eighty stitches, and a plain one."""
EVERY_OTHER = [72, 72, 64, 64, 56, 56, 48]

ONWARD = [
    (
        (
            "Ahora son 7 puntos al derecho y 2 juntos, otra vez 8 veces (64 p). Seguimos igual, una vuelta al derecho "
            "y una vuelta con disminuciones, con un punto menos en cada gajo, hasta tener 48 puntos."
        ),
        [72, 72, 64, 64, 56, 56, 48],
    ),
    (
        "Seguimos así, una vuelta con disminuciones y una vuelta lisa, con un punto menos cada vez, hasta tener 48.",
        EVERY_OTHER,
    ),
    (
        "Seguimos así, una vuelta sin disminuciones y una con ellas, hasta quedarnos con 48 puntos.",
        EVERY_OTHER,
    ),
    (
        "Sigue así. Cuando te queden 56 p, deja de tejer la vuelta lisa y disminuye en todas hasta quedarte con 40.",
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (
        "Sigue así hasta los 56 puntos. Cuando te queden 56 puntos, disminuye en cada vuelta hasta que queden 40.",
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (
        "Se siguen haciendo vueltas de menguados alternadas con vueltas lisas, hasta que sólo resten 48 puntos.",
        EVERY_OTHER,
    ),
    (
        "Repítase la operación, siempre con una vuelta lisa intermedia, hasta quedar reducidos los puntos a 48.",
        EVERY_OTHER,
    ),
    (
        "Estas dos vueltas las repetimos tres veces en total, quitando cada vez un punto, y así llegamos a los 56 p.",
        [72, 72, 64, 64, 56, 56],
    ),
    ("Se vuelve a menguar otros ocho puntos, con lo que restan 64.", [72, 72, 64]),
    (
        "Vas cogiendo los puntos de dos en dos y te quedas con 36; en la última vuelta haces lo mismo y te quedan 18.",
        [72, 72, 36, 18],
    ),
    # the stitches of a round, and in which rounds from now on
    (
        "Seguir disminuyendo siempre 8 pts. por vuelta, pero ahora cada 2 vueltas, hasta que queden 48.",
        EVERY_OTHER,
    ),
    (
        "Continúa con las disminuciones de 8 p por vuelta, pero a partir de ahora cada 3 vueltas, hasta que queden 56.",
        [72, 72, 72, 64, 64, 64, 56],
    ),
    ("Sigue menguando 8 puntos cada vez, pero en todas las vueltas, hasta que queden 56.", [72, 72, 64, 56]),
    (
        "Seguir disminuyendo 8 p por vuelta, pero ahora en cada vuelta por medio, hasta que queden 48.",
        EVERY_OTHER,
    ),
    ("Seguir disminuyendo 8 p en todas las vueltas impares, hasta que queden 48.", EVERY_OTHER),
]


@pytest.mark.parametrize(("text", "after"), ONWARD)
def test_a_spanish_crown_told_to_go_on_is_read(text: str, after: list[int]) -> None:
    """In turn with plain rounds, or in every round from a count on."""
    assert after_each_round(read(FIRST + text, (80,), "es")) == after


@pytest.mark.parametrize(("count", "text", "after"), CROWNS)
def test_rounds_of_a_spanish_crown_told_in_sentences_are_read(
    count: int, text: str, after: list[int]
) -> None:
    """Each round leaves the stitches that the sentence means."""
    assert after_each_round(read(text, (count,), "es")) == after


def test_a_round_of_a_spanish_crown_with_another_decrease_is_called_wrong() -> None:
    """A decrease of three stitches leaves another count than is printed."""
    text = (
        "Hay 72 puntos.\nTeje 7 puntos y 2 juntos toda la vuelta (64 p).\nTeje 2 vueltas lisas.\n"
        "La segunda disminución se hace con 5 puntos derechos y 3 juntos, y quedan 56 puntos."
    )
    assert [line for _, line in faults(read(text, (72,), "es"))] == [4]


def test_needles_of_a_crown_are_told_before_what_goes_on_to_a_count_on_each() -> None:
    """Plain rounds between the decreases, or decrease rounds alone: to 8 stitches on each of four needles."""
    first = (
        "Hay 48 puntos en 4 agujas, 12 puntos en cada aguja.\nSe trabaja en cada aguja: 4 puntos, 2 juntos, 4 puntos, "
        "2 juntos. Quedan 40 puntos.\n"
    )
    between = "Se hacen 2 vueltas lisas.\nSe continúa menguando de igual modo, siempre con un punto menos y con dos "
    ends = "hasta que queden 8 puntos en cada aguja."

    slowly = read(f"{first}{between}vueltas lisas entre menguado y menguado, {ends}", (48,), "es")
    assert after_each_round(slowly) == [40, 40, 40, 32]
    assert after_each_round(
        read(f"{first}A partir de aquí se mengua en todas las vueltas, {ends}", (48,), "es")
    ) == [
        40,
        32,
    ]


MARKED = (
    "Coloca un marcador cada 20 puntos.\nVuelta 1: *ssk, teje del derecho hasta 2 p antes del marcador, 2pjd, desliza "
    "el marcador*, repite de * a * hasta el final (72 p).\nVuelta 2: todo del derecho.\n"
)
"""Eighty stitches in four parts: a round that shapes them, and a plain one."""


@pytest.mark.parametrize(
    "again",
    [
        "Teje ahora la vuelta 1 cuatro veces seguidas, sin vueltas intermedias",
        "Repite después solo la vuelta 1 cuatro veces",
        "Trabaja luego la vuelta 1 cuatro veces más",
    ],
)
def test_a_round_is_worked_again_from_now_on(again: str) -> None:
    assert after_each_round(read(f"{MARKED}{again} (40 p).", (80,), "es")) == [72, 72, 64, 56, 48, 40]


def test_rounds_after_a_round_are_not_that_round() -> None:
    """`Luego la vuelta` is that round now; `después de la vuelta` is what follows it."""
    reading = read(f"{MARKED}Teje después de la vuelta 2 dos vueltas del derecho.", (80,), "es")
    assert after_each_round(reading) == [72, 72, 72, 72]
