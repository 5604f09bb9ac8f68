"""What leaflets print short in French, and what letters tell at length."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_rounds_of_sizes

EVERY_OTHER = "Tour 1 : *8 m., 2 m. ens.*, 6 fois = 54 m.\nTour 2 : sans dim.\n"
"""A round that shapes sixty stitches, and a plain one."""

PRINT = [
    # two rounds of one number each, whose work is given once
    (40, "Tr de dim. 4 et 5 : 2 m. ens. end. tt le tr (20 m., puis 10 m.). Serrer.", [20, 10]),
    (40, "Rgs de dim. 4 et 5 : 2 m. ens. sur tout le rg (20 m., puis 10 m.).", [20, 10]),
    (40, "4e et 5e trs de dim. : *2 m. ens.* (20 m., puis 10 m.).", [20, 10]),
    # the stitches of the rib that is worked on, which is no round
    (
        80,
        "On a 80 m. en côtes 3/1 (* 3 m. end., 1 m. env. *).\nTr 1 : * 1 surjet double, 1 m. env. * = 40 m.",
        [40],
    ),
    # what garter stitch is
    (60, "6 tours au point mousse, c'est-à-dire en alternant 1 tour endroit et 1 tour envers.", [60] * 6),
    (60, "Tricoter 6 tours au point mousse, soit 1 tour endroit, 1 tour envers alternativement.", [60] * 6),
    (60, "Point mousse : 6 tours, en alternant 1 tour env. et 1 tour end.", [60] * 6),
    # rhythms one behind another, with the counts between them
    (
        60,
        EVERY_OTHER
        + "Dim. encore 1 tour sur 3 1 fois = 48 m., tous les 2 tours 2 fois = 36 m., puis à chaque tour 2 fois.",
        [54, 54, 54, 48, 48, 42, 42, 36, 30, 24],
    ),
    (
        60,
        EVERY_OTHER + "Dim. ainsi 2 fois tous les 2 tours (42 m.) et 2 fois à chaque tour (30 m.).",
        [54, 54, 48, 48, 42, 36, 30],
    ),
    # a decrease round that follows itself
    (
        60,
        EVERY_OTHER + "Cont. ainsi jusqu'à 48 m. Ensuite 1 rang de dim. après l'autre jusqu'à 30 m.",
        [54, 54, 48, 42, 36, 30],
    ),
    (
        60,
        EVERY_OTHER + "Cont. ainsi jusqu'à 48 m., puis diminuez à tous les tours jusqu'à 30 m.",
        [54, 54, 48, 42, 36, 30],
    ),
    (
        60,
        EVERY_OTHER + "Cont. ainsi jusqu'à 48 m. ; puis dim. à chaque tour et s'arrêter à 30 m.",
        [54, 54, 48, 42, 36, 30],
    ),
    # times in place of rounds
    (
        70,
        (
            "À 11 cm tot. dim. ts les 2 rgs :\n1re fois : 8 m. end., 2 m. ens. = 63 m.\n"
            "2e fois : 7 m. end., 2 m. ens. = 56 m.\nEt ainsi jusqu'à la 4e fois = 42 m."
        ),
        [63, 56, 49, 42],
    ),
    # a stitch of so many, in a round for each number
    (
        60,
        (
            "1 tour en faisant 1 dim. ttes les 10 m. (= 8 m. end., 2 m. ens.), il reste 54 m. ;\n"
            "3 tours en faisant successivement 1 dim. ttes les 9, 8 et 7 m., il reste 36 m."
        ),
        [54, 48, 42, 36],
    ),
    # letters of the legend
    (
        60,
        (
            "Côtes *2e, 1v* pendant 2 tours (e = endroit, v = envers).\nTr 3 : *2ens, 4e* → 50 m\n"
            "Tr 4 et tous les pairs : e"
        ),
        [60, 60, 50, 50],
    ),
    # rounds numbered with brackets in a row
    (
        60,
        "Rgs de dim. : 1) *8 m. end., 2 m. ens.* > 54 m. 2) jers. 3) *7 m. end., 2 m. ens.* > 48 m. 4) jers.",
        [54, 54, 48, 48],
    ),
    (60, "Côtes 1 m. end., 1 m. env. s/ 3 rgs, puis jers. s/ 2 rgs.", [60] * 5),
]

TALES = [
    # rounds of two kinds in turn, the plain one before the other
    (
        92,
        (
            "92 mailles, soit 23 mailles sur chacune des quatre aiguilles.\n"
            "Au premier tour des diminutions, on prend 2 mailles ensemble au commencement et à la fin de chaque "
            "aiguille ; il reste 84 mailles.\n"
            "On fait 2 tours sans diminuer, puis un tour de diminutions ; il reste 76 mailles.\n"
            "On alterne encore deux fois 1 tour uni et 1 tour de diminutions ; il reste 60 mailles."
        ),
        [84, 84, 84, 76, 76, 68, 68, 60],
    ),
    # plain rounds given up in a sentence
    (
        60,
        (
            EVERY_OTHER + "Continue ainsi un tour sur deux jusqu'à 42 mailles.\n"
            "À partir de là, oublie les tours sans diminutions : tu diminues à chaque tour. Quand ça devient trop "
            "serré, passe aux aiguilles double pointe.\nArrête-toi quand il reste 30 mailles."
        ),
        [54, 54, 48, 48, 42, 36, 30],
    ),
    # what the needle holds, and the share of the stitches that goes
    (
        60,
        (
            "Répartir les 60 m. sur 3 aiguilles, 20 m. sur chacune.\n"
            "Sur chaque aiguille : tricoter jusqu'aux 2 dernières mailles, "
            "2 mailles ensemble.\nRecommencez ce tour encore 4 fois : chaque aiguille ne porte plus que 15 mailles, "
            "soit 45 mailles en tout."
        ),
        [57, 54, 51, 48, 45],
    ),
    (
        60,
        (
            "On ne fait donc pas de côtes ! Une maille sur six disparaît, c'est-à-dire que vous tricotez 4 mailles, "
            "puis 2 ensemble : 50 mailles."
        ),
        [50],
    ),
]


@pytest.mark.parametrize(("cast_on", "text", "after"), PRINT)
def test_leaflets_print_rounds_short(cast_on: int, text: str, after: list[int]) -> None:
    """The rounds of what is printed in few signs."""
    assert after_rounds_of_sizes(read(text, (cast_on,), "fr")) == [after]


@pytest.mark.parametrize(("cast_on", "text", "after"), TALES)
def test_letters_tell_rounds_at_length(cast_on: int, text: str, after: list[int]) -> None:
    """The rounds of what is told in sentences."""
    assert after_rounds_of_sizes(read(text, (cast_on,), "fr")) == [after]


def test_a_rhythm_behind_a_comma_goes_with_its_decrease() -> None:
    """`Diminuer 6 m, 3 fois tous les 2 tours`: the decrease is none before the three."""
    text = EVERY_OTHER + "Diminuer 6 m, 3 fois tous les 2 tours."
    assert after_rounds_of_sizes(read(text, (60,), "fr")) == [[54, 54, 48, 48, 42, 42, 36]]
