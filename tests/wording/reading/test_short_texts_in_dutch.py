"""Short texts in Dutch: rounds told by the first time and the second, in turn, crowns gone on with, sizes in brackets.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, after_rounds_of_sizes

TEXTS = [
    # together, in short and in old print
    ("Ronde 1: *8 r, 2 r tez. br.*; herh. van * tot * (72 st.).", 80, [72]),
    ("In de laatste toer breit men telkens 3 st. te zamen, zodat men 10 st. overhoudt.", 30, [10]),
    ("Men breit * 6 st. rechts, 2 st. te zamen *; van de 80 st. zijn er dan 70 overgebleven.", 80, [70]),
    # at markers
    (
        (
            "Zet na iedere 9e steek een stekenmarkeerder.\n"
            "Minderronde: brei na elke markeerder de eerste 2 steken recht samen, brei verder recht.\n"
            "Brei de minderronde in elke ronde, in totaal 2 keer. Er blijven 56 st over."
        ),
        72,
        [64, 56],
    ),
    (
        (
            "Voeg nu 8 merkdraden in het werk, met 10 st tussen de merkdraden.\n"
            "Minder in de volgende ronde 1 st vóór elke merkdraad door 2 st recht samen te breien (= 8 st geminderd)."
        ),
        80,
        [72],
    ),
    (
        "Hang elke 17 steken een markeerder in.\nRnd A: brei tot 3 st voor M, cdd; herhaal bij elke M (–10 st).",
        85,
        [75],
    ),
    # the first time, the second time; so many stitches, then two together
    (
        (
            "Minderen, eerste keer: na elke 10 steken 2 samen (88).\nTussentoeren: 3.\n"
            "Tweede keer: steeds na 9 steken 2 samen (80). Tussentoeren: 1."
        ),
        96,
        [88, 88, 88, 88, 80, 80],
    ),
    (
        (
            "Kruinronde 1: brei steeds 7 st en dan 2 st samen: 96 st.\n1 ronde recht.\n"
            "Kruinronde 2 en 3: brei alle st 2 aan 2 samen: 48 st, 24 st."
        ),
        108,
        [96, 96, 48, 24],
    ),
    # rounds in turn
    (
        "* brei 10 r., 2 r. samen *, 10 maal = 110 st.\nTelkens na 1 toer zonder minderen nog 2 maal minderen.",
        120,
        [110, 110, 100, 100, 90],
    ),
    (
        (
            "Brei op iedere pen 1 r, een overhaling naar links, dan recht tot de laatste drie steken, twee samen naar"
            " rechts, 1 r.\nWissel zo'n toer af met een toer zonder minderingen, tot er vier steken op iedere pen"
            " overschieten."
        ),
        32,
        [24, 24, 16],
    ),
    # R for a round
    ("R1 – *14 r, 2rsam* (90)\nR2, R3 – recht\nR4 – *13 r, 2rsam* (84)", 96, [90, 90, 90, 84]),
    (
        "R1 – *14 r, 2rsam* (90)\nPas nu: haal een paar rondes uit.\nR2 – *13 r, 2rsam* (84)",
        96,
        [90, 84],
    ),
    ("R1: r 2, av 2\nR2: r", 80, [80, 80]),
    # rounds told by their abbreviation with an s
    (
        (
            "1e rnd: * 12 r, 2 r samenbr; vanaf * 6 x br. (78 st)\n2e rnd en alle even rnd's: r.\n"
            "3e rnd: * 11 r, 2 r samenbr; vanaf * 6 x br. (72 st)"
        ),
        84,
        [78, 78, 72],
    ),
    # a plain round in a word, knitting by its verb
    ("Ronde 1: (brei 15, ssk, brei 1) vijfmaal – 85 steken\nRonde 2: brei", 90, [85, 85]),
    # a hem knitted up, a stitch made of every fourth
    (
        "1e t/m 3e rnd: r. Sla de zoom om en brei in de 4e rnd elke st samen met de bijbehorende st van de opzetrand.",
        88,
        [88] * 4,
    ),
    ("Toer 1: recht, uit elke 8e st 2 st breien (90 st).", 80, [90]),
    # ribs by their numbers
    ("1/1-boordsteek gedurende 2 toeren; in de 3e toer r breien.", 80, [80] * 3),
    ("Brei 2 rnd 1/1 en 3 rnd r.", 80, [80] * 5),
    # gone on with
    (
        (
            "Rnd 1: *14 r, 2 samen* (90)\nRnd 2: r\nRnd 3: *13 r, 2 samen* (84)\nRnd 4: r\n"
            "Herhaal de laatste twee rondes nog 2 keer met steeds een steek minder vóór de mindering; er staan dan 72"
            " steken op de naalden."
        ),
        96,
        [90, 90, 84, 84, 78, 78, 72, 72],
    ),
    (
        (
            "* 12 r, 2 samen * herh. (78 st), 1 toer r\n"
            "Nu nog 2 x hetzelfde, telkens met een steek minder en telkens gevolgd door 1 toer r, tot 66 st"
        ),
        84,
        [78, 78, 72, 72, 66, 66],
    ),
    (
        (
            "1ste mindertoer: *12 st r, 2 st r samen*. 117 st. 1 toer breien.\n"
            "2de mindertoer: *11 st r, 2 st r samen*. 108 st. 1 toer breien.\n"
            "Aldus voortdoen, met 1 toer tussen de mindertoeren, tot er 90 st overblijven."
        ),
        126,
        [117, 117, 108, 108, 99, 99, 90],
    ),
    (
        (
            "* 1 r, 1 overh., brei tot 2 st voor de volgende gemarkeerde st, 2 r samenbr. *, 4 x (72 st).\n"
            "Minder op dezelfde manier in de volgende ronde en dan nog 2 x in elke 2e ronde (48 st)."
        ),
        80,
        [72, 64, 64, 56, 56, 48],
    ),
    (
        "rnd 1: (11 r, 2rsam) x 8 – 96 st\nrnd 2: r\nMinder nu om en om tot er nog 72 st zijn en dan 36 x 2rsam.",
        104,
        [96, 96, 88, 88, 80, 80, 72, 36],
    ),
    (
        "Rondes 29, 31: minder 8 st (64, 56 st), te weten *7 r, 2 rsam*, dan *6 r, 2 rsam*.\nRondes 30, 32: r.",
        72,
        [64, 64, 56, 56],
    ),
    (
        (
            "Minder 6 x 2 st per ronde met een dubbele mindering (DM: 3 st r samenbreien):\n"
            "1. *13 r, DM* – er zijn 84 st (van 96).\n2. Brei 3 toeren gewoon door.\n"
            "3. Vervolg met DM in elke 2e toer tot er 60 st zijn."
        ),
        96,
        [84, 84, 84, 84, 72, 72, 60],
    ),
    # decrease rounds told together
    (
        (
            "Eerste minderronde: [11 r, 2 samen] acht keer (96 st blijven over)\n"
            "Tweede minderronde: [10 r, 2 samen] acht keer (88 st blijven over)\n"
            "Tussen deze minderrondes brei je steeds 2 gewone rondes."
        ),
        104,
        [96, 96, 96, 88],
    ),
    (
        (
            "Ronde 1: [3 r, 2 samen] acht keer.\nBrei 1 ronde recht en daarna om de andere ronde [2 r, 2 samen],"
            " [1 r, 2 samen], enzovoort, tot en met [2 samen]."
        ),
        40,
        [32, 32, 24, 24, 16, 16, 8],
    ),
]


@pytest.mark.parametrize(("text", "cast_on", "after"), TEXTS)
def test_a_short_text_is_read(text: str, cast_on: int, after: list[int]) -> None:
    """Every round leaves what is printed."""
    assert after_each_round(read(text, (cast_on,), "nl")) == after


OF_SIZES = [
    (
        "Alleen maat L, ronde 1: *11 r, 2 r samen* (96 st).\nBeide maten:\nRonde 1: *10 r, 2 r samen* (88 st)",
        (96, 104),
        [[88], [96, 88]],
    ),
    (
        (
            "Maat 50/56: brei elke 8e en 9e st samen, dus *7 r, 2 sam* (72 -> 64 st).\n"
            "Maat 62/68: brei elke 9e en 10e st samen, dus *8 r, 2 sam* (80 -> 72 st).\nBrei 1 toer zonder minderen.\n"
            "Minder zo in elke 2e toer verder, telkens met 1 r minder, tot er 56 st over zijn.\n"
            "Nu 2 x direct na elkaar minderen zonder tussentoer (40 st)."
        ),
        (72, 80),
        [[64, 64, 56, 48, 40], [72, 72, 64, 64, 56, 48, 40]],
    ),
    (
        (
            "Toer 1: *10 (11) r, 2 r tezamen* (77/84 st).\nToer 2: zonder minderen.\n"
            "Herhaal toer 1 en 2 nog 1 keer, waarbij het aantal rechte st voor de mindering telkens 1 kleiner wordt;"
            " elk partje telt dan nog 10 (11) st (70/77 st)."
        ),
        (84, 91),
        [[77, 77, 70, 70], [84, 84, 77, 77]],
    ),
    (
        "Meerder in de 1e rnd tricotst 4 st, verdeeld over de rnd (*19 [21 – 23] r, 1 meerd*) = 80 [88 – 96] st.",
        (76, 84, 92),
        [[80], [88], [96]],
    ),
    (
        (
            "Eerste mindering: brei steeds 2 lussen samen na 7 / 8 / 9 lussen (80 / 90 / 100 lussen).\n"
            "Brei vier pennen zonder minderen."
        ),
        (90, 100, 110),
        [[80] * 5, [90] * 5, [100] * 5],
    ),
    (
        (
            "Volwassene nu eerst:\n4 r, 2 samenbr, 8 keer (40 st).\n"
            "Voor beide maten gelijk:\n3 r, 2 samenbr, 8 keer. 32 st."
        ),
        (40, 48),
        [[32], [40, 32]],
    ),
]


@pytest.mark.parametrize(("text", "cast_on", "after"), OF_SIZES)
def test_a_short_text_of_sizes_is_read(text: str, cast_on: tuple[int, ...], after: list[list[int]]) -> None:
    """Every round leaves what is printed, in every size."""
    assert after_rounds_of_sizes(read(text, cast_on, "nl")) == after


def test_plain_rounds_and_a_decrease_round_are_worked_in_turn() -> None:
    """So often in all, and then decrease rounds alone."""
    text = "Brei afwisselend 3 ronden recht en 1 minderronde, in totaal 4 x, en tot slot 8 minderronden achter elkaar."

    assert rewritten(text, "nl", 1).text == "rep (knit 3 rnds, dec rnd) 4 times in all. Work dec rnd 8 times."


@pytest.mark.parametrize("signs", ["()", "[]"])
def test_times_and_a_count_behind_a_dash_are_no_list(signs: str) -> None:
    """The bracket holds the count of the other size."""
    text = rewritten(f"(10 r, 2rsam) x 8 – 88 {signs[0]}96{signs[1]} st", "nl", 2).text

    assert text == "(k10, k2tog) x 8 – 88 (96) sts"
