"""What teachers and old books print in French: crowns told in whole sentences."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_rounds_of_sizes

BY_EIGHTS = "Tour 1 : *8 m. end., 2 m. ens.*, 8 fois. Il reste 72 m.\nTour 2 : end.\n"
"""A round that shapes eighty stitches, and a plain one."""

CROWNS = [
    # the round told in a sentence, with its stitch in brackets, and the round behind each of them
    (
        (
            "Pour le premier tour de diminutions, tricotez 7 mailles à l'endroit puis faites un surjet double (glissez "
            "1 maille, tricotez 2 mailles ensemble à l'endroit, rabattez la maille glissée par-dessus). Recommencez "
            "jusqu'au bout du tour : 8 surjets, donc 64 mailles.\n"
            "Après chaque tour de surjets, faites un tour tout simple à l'endroit.\n"
            "Deuxième tour de diminutions : 5 mailles à l'endroit, 1 surjet double, et ainsi de suite (48 mailles)."
        ),
        [64, 64, 48],
    ),
    # stars behind `repeating`
    ("Tric. 1 rg en répétant *3 m. end., 2 m. ens. env.* ; il reste 64 m.", [64]),
    ("Au rg suiv., rép. *2 m. ens. end., 3 m. env.* ; il reste 64 m.", [64]),
    # the end of going on in a sentence of its own
    (
        (
            BY_EIGHTS
            + "Continuez en alternant un tour de diminutions et un tour sans diminution. Dès que le tour de "
            "diminutions vous laisse 56 mailles, diminuez à chaque tour, sans tour intermédiaire, jusqu'à ce qu'il "
            "n'en reste que 40."
        ),
        [72, 72, 64, 64, 56, 48, 40],
    ),
    # the first of the rounds behind the heading of all of them
    ("Diminutions. — 1re diminution : 8 m. unies, 2 m. ensemble, tout le tour ; 72 mailles.", [72]),
]

SIZES = [
    (
        (76, 84),
        (
            "À a) 11 – b) 12 cm de haut. tot., marquer 4 m. en laissant a) 18 – b) 20 m. d'intervalle.\n"
            "Dim. 1 m. de ch. côté des 4 m. marquées, ts les 2 trs : a) 2 fs – b) 3 fs."
        ),
        [[68, 68, 60], [76, 76, 68, 68, 60]],
    ),
    ((70, 77), "*8 m. end. pour a), 9 m. end. pour b), 2 m. ens.* 7 fois = a) 63 b) 70 m.", [[63], [70]]),
]


@pytest.mark.parametrize(("text", "after"), CROWNS)
def test_crowns_are_told_in_sentences(text: str, after: list[int]) -> None:
    """Crowns of eighty stitches."""
    assert after_rounds_of_sizes(read(text, (80,), "fr")) == [after]


@pytest.mark.parametrize(("cast_on", "text", "after"), SIZES)
def test_sizes_are_told_by_letters(cast_on: tuple[int, ...], text: str, after: list[list[int]]) -> None:
    """Crowns of two sizes."""
    assert after_rounds_of_sizes(read(text, cast_on, "fr")) == after
