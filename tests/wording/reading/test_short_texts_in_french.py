"""What short texts in French print: crowns of one screen, in notes, letters and leaflets."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_rounds_of_sizes

DECREASES = "Tour 1 : *8 m. end., 2 m. ens.* 6 fois = 54 m.\nTour 2 : end.\n"
"""A round that shapes sixty stitches, and a plain one."""
ON_BY_SIXES = [54, 54, 48, 42, 36, 30]
EVERY_OTHER = [54, 54, 48, 48, 42, 42, 36, 36, 30, 30, 24]

GOING_ON = [
    # how many stitches a round takes, told apart
    ("On supprime 6 m. à chaque fois.\nDiminuer ainsi à chaque tour jusqu'à 30 m.", ON_BY_SIXES),
    ("Chaque tour supprime 6 m.\nDiminuer ainsi à chaque tour jusqu'à 30 m.", ON_BY_SIXES),
    # stitches between the decreases of rounds that follow
    (
        "Diminuer 6 m. à chaque tour (7 m., puis 6 m., puis 5 m., puis 4 m. entre les dim.). 30 m.",
        ON_BY_SIXES,
    ),
    (
        "Aux 4 tours suivants, diminuer 6 m. chaque fois (avec 7, 6, 5 puis 4 m. entre les dim.). 30 m.",
        ON_BY_SIXES,
    ),
    # a plain stitch fewer each time
    (
        "Rép. les tours 1 et 2 encore 4 fois, en travaillant chaque fois 1 m. end. de moins entre elles : 30 m.",
        EVERY_OTHER[:-1],
    ),
    (
        (
            "Continuer comme aux tours 1 et 2 (donc diminuer 6 m tous les deux tours, chaque fois 1 end de moins) "
            "jusqu'à 30 mailles, suivies d'un tour tout endroit.\nTour suivant : *3 end, 2 ens* 6 fois. 24 mailles"
        ),
        EVERY_OTHER,
    ),
    # the round from which it goes on
    ("À partir du tour 3, diminuer de la même façon à chaque tour jusqu'à ce qu'il reste 30 m.", ON_BY_SIXES),
    ("Dès le 3e tour, diminuer ainsi à chaque tour jusqu'à ce qu'il reste 30 m.", ON_BY_SIXES),
    # rounds in rib before a round that closes
    ("Tric. 1 tr en côtes 1/1, puis tric. les m. 2 par 2 ; on compte 27 m.", [54, 54, 54, 27]),
]

ROUNDS = [
    (
        (
            "6 marqueurs placés à 10 m. l'un de l'autre.\n"
            "Tour 1 : *tric. jusqu'à 2 m. avant le marqueur, 2 m. ens., glisser le marqueur* 6 fois.\n"
            "Tour 2 : sans diminuer.\nRép. ces 2 tours encore 4 fois (chaque tour 1 supprime 6 m.). Il reste 30 m."
        ),
        EVERY_OTHER[:-1],
    ),
    # what a stitch of the round is, and plain stitches that are only counted
    ("Tour 1 : * 8 m. end., dim. 1 m. en tric. 2 m. ens. * 6 fois (reste 54 m.).", [54]),
    ("Tour 1 : (4 m., 2 m. ens., 4 m.) x 6. 54 m.", [54]),
    ("Tour 1 : *4 m., 1 surjet simple, 4 m.*, 6 fois. 54 m.", [54]),
    ("Au tour suivant, prenez les aig. 3,5 mm et passez au jersey en faisant 2 diminutions (58 m.).", [58]),
    ("Tour 1 : *1 m. env., 2 fois 2 m. ens. env., 5 m. end.*, 6 fois. 48 m.", [48]),
    ("Tour 1 : *3 fois 2 m. ens. end., 4 m. env.*, 6 fois. 42 m.", [42]),
    # the count of a round before the number of the next
    ("T. 1 : * 8 end., 2 ens. * 6 x = 54. T. 2 : env. T. 3 : end.", [54, 54, 54]),
    ("Tour 1 : * 8 end., 2 ens. * 6 x = 54. Tour 2 : end.", [54, 54]),
    # a note, and a gathering told by its rounds
    ("Rappel : le point mousse se fait en alternant 1 tour end. et 1 tour env.\nTour 1 : end.", [60]),
    (
        "Pour froncer : un tour de « 2 m. ens. » (30 m.), un tour à l'endroit, un tour de 2 m. ens. (15 m.).",
        [30, 30, 15],
    ),
    # stitches that are only counted behind all of them
    ("Sur 60 m. en jersey, tric. ens. la 9e et la 10e m. tout le tr (il reste 54 m.).", [54]),
    # both ends of every needle, and what stands before or behind every marker
    (
        (
            "Répartir les 60 m. sur 3 aig. : 20 m. sur chacune.\n"
            "Diminuer 1 m. à chaque bout des 3 aig. : 1 surjet simple au début, 2 m. ens. à la fin. Il reste 54 m.\n"
            "Renouveler ces diminutions tous les 2 tours jusqu'à ce qu'il reste 42 m.\n"
            "Puis les renouveler à tous les tours jusqu'à ce qu'il reste 30 m."
        ),
        [54, 54, 48, 48, 42, 36, 30],
    ),
    (
        (
            "Partager les m. en 6 secteurs de 10 m. et poser un marqueur à chaque limite.\n"
            "Tour de dim. : dans chaque secteur, tricoter ensemble à l'endroit les 2 m. qui précèdent le marqueur.\n"
            "Le faire 2 fois tous les 2 tours : 48 m.\nLe faire ensuite 3 fois, à chaque tour : 30 m."
        ),
        [54, 54, 48, 42, 36, 30],
    ),
    (
        (
            "Divisez le nombre de mailles par 6 : ici, 60 : 6 = 10. Placez donc un marqueur toutes les 10 mailles.\n"
            "Premier tour : tricotez ensemble à l'endroit les 2 mailles qui suivent chaque marqueur (54 mailles)."
        ),
        [54],
    ),
    # two colours in turn, and all their rounds
    ("Alterner ensuite, en jersey, 2 tours coul. B et 2 tours coul. A, en tout 6 tours.", [60] * 6),
    ("Alterner 1 tour bleu et 2 tours blanc, en tout 6 tours.", [60] * 6),
]


@pytest.mark.parametrize(("text", "after"), GOING_ON)
def test_crowns_go_on(text: str, after: list[int]) -> None:
    """How short texts go on behind a round that shapes and a plain one."""
    assert after_rounds_of_sizes(read(DECREASES + text, (60,), "fr")) == [after]


@pytest.mark.parametrize(("text", "after"), ROUNDS)
def test_rounds_of_short_texts(text: str, after: list[int]) -> None:
    """Rounds by themselves."""
    assert after_rounds_of_sizes(read(text, (60,), "fr")) == [after]


def test_a_bracket_around_the_sizes_closes() -> None:
    """`Couronne (tailles S/M/L)`: the bracket is around the sizes and none of theirs."""
    text = (
        "Couronne (tailles S/M/L)\nOn a 56/63/70 m. Placer 7 marqueurs, à 8/9/10 m. d'intervalle.\n"
        "Tour de dim. : *tricoter jusqu'à 2 m. avant le marqueur, 2 m. ens. à l'end., glisser le marqueur*, "
        "rép. de * à * 7 fois en tout = 49/56/63 m."
    )
    assert after_rounds_of_sizes(read(text, (56, 63, 70), "fr")) == [[49], [56], [63]]


def test_rounds_in_any_fabric_end_before_then() -> None:
    """`Work 2 rnds in rib, then k2tog around`: the rounds in rib are told, and the round behind them."""
    text = "Rnd 1: *k1, p1* around.\nWork 2 rnds in rib, then k2tog around = 30 sts."
    assert after_rounds_of_sizes(read(text, (60,), "en")) == [[60, 60, 60, 30]]
