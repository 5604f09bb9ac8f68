"""What short texts in Norwegian print: crowns of one screen, in notes, leaflets and old books."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

CROWNS = [
    # the stitches that are gone, and those that are left
    (
        (
            "Sett 4 merker med 20 m mellom hvert.\nStrikk til 2 m før merket, 2 r sm, flytt merket, 2 vridd r sm. "
            "Gjør det samme ved alle fire merkene. Da er åtte masker borte, og du har 72 igjen."
        ),
        80,
        [72],
    ),
    ("*8 r, 2 r sm* omg rundt. Nå er seks masker borte.\nStrikk 1 omg r = 54 m.", 60, [54, 54]),
    # so many times in all, and on both of the next rounds
    (
        (
            "På hver pinne strikkes 1 r, 1 overtrekk, r til det er 3 m igjen på pinnen, 2 r sm, 1 r (64 m). "
            "1 omg glatt.\n"
            "Disse 2 omg strikkes ialt 3 ganger, og det er 48 m igjen.\n"
            "De 2 neste omg felles på samme måte begge to (32 m)."
        ),
        72,
        [64, 64, 56, 56, 48, 48, 40, 32],
    ),
    # the double decrease told behind its name, and the ordinals of old books
    (
        (
            "1ste felling: 9 rett, 1 dobbel felling (1 maske tas løs av, 2 strikkes rett sammen, den løse "
            "trekkes over). Gjentas omgangen rundt, 8 ganger. 80 masker.\nMellom fellingene strikkes 2 omganger rett.\n"
            "2nen felling: 7 rett, 1 dobbel felling. 64 masker.\n3dje felling: 5 rett, 1 dobbel felling. 48 masker."
        ),
        96,
        [80, 80, 80, 64, 64, 64, 48],
    ),
    # on which rounds it is decreased, ahead of the round that does
    (
        (
            "Del arbeidet i 7 deler, 16 m i hver.\n"
            "Fellinger gjøres i slutten av hver del på hver tredje omg, altså 2 omg uten felling mellom hver "
            "felleomg.\n"
            "Felleomg: strikk til 2 m før merket, 2 r sm ved hvert merke (7 m mindre).\n"
            "Fell i alt 3 ganger på hver 3. omg = 91 m."
        ),
        112,
        [105, 105, 105, 98, 98, 98, 91],
    ),
    # the same on every needle
    (
        (
            "Felleomg: Ta 1 m løs av, strikk 1 r, trekk den løse m over. Strikk til det er 2 m igjen på p, "
            "strikk disse r sm. Likt på alle 4 p (72 m).\n"
            "Strikk 1 omg r mellom felleomgangene. Fell i alt 3 ganger på denne måten (56 m)."
        ),
        80,
        [72, 72, 64, 64, 56],
    ),
    # a double decrease by its letters, in rib
    (
        (
            "FELLING I VRANGBORD (1 r, 1 vr)\n80 m\n"
            "Dobbel felling (DF): Løft 2 m sammen rett av p, strikk 1 r, trekk de 2 løftede m over.\n"
            "Omg 1: *DF, 13 m vrangbord (beg og slutt med 1 vr)* ut omg. 70 m\nOmg 2: 1 r, 1 vr ut omg.\n"
            "Omg 3: *DF, 11 m vrangbord* ut omg. 60 m"
        ),
        80,
        [70, 70, 60],
    ),
    # stripes in colours by number
    (
        "Legg opp 60 m og strikk 12 omg vrangbord.\nStrikk striper: * 4 omg fg 2, 4 omg fg 1 *, gjenta *–* 2 ganger.",
        60,
        [60] * 28,
    ),
]


@pytest.mark.parametrize(("text", "cast_on", "counts"), CROWNS)
def test_a_crown_is_worked_as_it_is_told(text: str, cast_on: int, counts: list[int]) -> None:
    assert after_each_round(read(text, (cast_on,), "nb")) == counts


def test_every_other_round_is_worked_until_so_many_are_left() -> None:
    text = (
        "Str. S, M, L (60, 66, 72 m)\n6 merker settes ut, ett for hver 10., 11., 12. m.\n"
        "Annenhver omg: strikk de 2 m før hvert merke r sammen. Omg uten felling strikkes glatt.\n"
        "Etter 2, 3, 4 felleomg er det 48, 48, 48 m på p.\nStrikk 1 omg glatt."
    )

    assert after_rounds_of_sizes(read(text, (60, 66, 72), "nb")) == [
        [54, 54, 48, 48],
        [60, 60, 54, 54, 48, 48],
        [66, 66, 60, 60, 54, 54, 48, 48],
    ]
