"""Crowns as short Danish and Norwegian notes word them; each counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts

CROWNS = [
    (
        "da",
        (
            "Nu begynder indtagn.: x 12 r., 2 r. sm. x, gentag fra x til x omg. rundt (104 m.).\n"
            "x 11 r., 2 r. sm. x omg. rundt"
        ),
        [112, 104, 96],
    ),
    (
        "nb",
        "Fell: x 12 r, 2 r sm x, gjenta fra x til x omg rundt (104 m).\nx 11 r, 2 r sm x omg rundt",
        [112, 104, 96],
    ),
    ("da", "1. omg: * 1 overtr. indt., 10 r, 2 r sm *, gentag fra *-* omg rundt. = 96 m", [112, 96]),
    ("nb", "1. omg: * 1 overtr, 10 r, 2 r sm *, gjenta fra *-* omg rundt. = 96 m", [112, 96]),
    ("da", "*12 r, 2 m r sm*, gentag 7 gange mere. (104 m)", [112, 104]),
    ("nb", "*12 r, 2 m r sm*, gjenta 7 ganger mer. (104 m)", [112, 104]),
    ("da", "Strik 1 omg. ret, hvorunder der øges 1 m. på hver 8. m. = 126 m.", [112, 126]),
    ("da", "1 omg ret, hvor der øges 8 m: *14 r, 1 udtagn.* (120 m).\n20 omg glatstr.", [112, 120]),
    ("nb", "1 omg rett, der det økes 8 m: *14 r, 1 økning* (120 m).\n20 omg rett.", [112, 120]),
    ("da", "Strik 1 omg glat, og tag jævnt ud til 120 m.", [112, 120]),
    ("nb", "Strikk 1 omg glatt, og øk jevnt til 120 m.", [112, 120]),
    (
        "da",
        "Indtagning: 12 rm, 2 m. sammen, hele omg. = 104 m.\n1 vm, 2 vm sammen, 10 rm, hele omg.",
        [112, 104, 96],
    ),
    ("nb", "Fell: 12 rm, 2 m sammen, hele omg = 104 m.\n1 vm, 2 vm sammen, 10 rm, hele omg.", [112, 104, 96]),
    (
        "da",
        (
            "Del m op i 8 felter på hver 14 m.\n"
            "I hvert felt strikkes de første 2 m r sm på 1. omg og derefter på hver "
            "2. omg, indtil hvert felt kun har 11 m (88 m).\n"
            "Derefter på hver omg, til der er 9 m i hvert felt = 72 m."
        ),
        [112, 104, 96, 88, 80, 72],
    ),
    (
        "nb",
        (
            "Del m inn i 8 felt på 14 m.\nI hvert felt strikkes de første 2 m r sm på 1. omg og deretter på hver "
            "2. omg, til hvert felt kun har 11 m (88 m).\nDeretter på hver omg, til det er 9 m i hvert felt = 72 m."
        ),
        [112, 104, 96, 88, 80, 72],
    ),
    (
        "da",
        (
            "Indt-omg: *12 r, 2 r sm*, gentag *-* omg ud = 104 m.\nNæste omg: r.\n"
            "Strik disse 2 omg i alt 3 gange med 1 r "
            "mindre før indt hver gang = 88 m.\nStrik nu kun indt-omg, til der er 72 m."
        ),
        [112, 104, 96, 88, 80, 72],
    ),
    (
        "da",
        (
            "Indt.: 12 r, 2 r sm [gentag omg ud] = 104 m\n1 omg uden indt.\n11 r, 2 r sm [gentag omg ud] = 96 m\n"
            "1 omg uden indt.\nFortsæt på den måde ned til 88 m, hvorefter omg uden indt udelades. Stop ved 72 m."
        ),
        [112, 104, 96, 88, 80, 72],
    ),
    (
        "nb",
        (
            "Fell: 12 r, 2 r sm [gjenta omg ut] = 104 m\n1 omg uten felling.\n11 r, 2 r sm [gjenta omg ut] = 96 m\n"
            "1 omg uten felling.\n"
            "Fortsett på den måten ned til 88 m, hvoretter omg uten felling utelates. Stopp ved 72 m."
        ),
        [112, 104, 96, 88, 80, 72],
    ),
    ("da", "Omg 1: (2 m r sm bagfra, 24 r, 2 m r sm) x 4. 104 m.", [112, 104]),
    ("nb", "Omg 1: (2 m r sm bakfra, 24 r, 2 m r sm) x 4. 104 m.", [112, 104]),
    ("da", "Saml vr-m: *5 r, 2 vr sm*, gentag fra * omg rundt. (96 m)", [112, 96]),
    (
        "da",
        (
            "Over 112 m tages ind til toppen, 8 m hver gang:\n1. omg: * 12 m r, 2 m r sm * = 104 m.\n"
            "2. omg: Strik alle m."
        ),
        [112, 104],
    ),
    (
        "nb",
        (
            "Over 112 m felles det til toppen, 8 m hver gang:\n1. omg: * 12 m r, 2 m r sm * = 104 m.\n"
            "2. omg: Strikk alle m."
        ),
        [112, 104],
    ),
    (
        "da",
        (
            "Indtag 1 m i hver kile ved at strikke de sidste 2 m i kilen r sm. Der er 13 m i hver kile, 104 m i "
            "alt.\nStrik 3 omg.\nIndtag: 12 m i hver kile, 96 m i alt."
        ),
        [112, 104, 96],
    ),
    (
        "nb",
        (
            "Fell 1 m i hver kile ved å strikke de siste 2 m i kilen r sm. Det er 13 m i hver kile, 104 m i "
            "alt.\nStrikk 3 omg.\nFell: 12 m i hver kile, 96 m i alt."
        ),
        [112, 104, 96],
    ),
    (
        "da",
        (
            "Hver 13. og 14. maske strikkes sammen, saa der bliver 104 masker.\n"
            "Saaledes fortsættes paa hver anden omgang, indtil man har 96 masker, som strikkes sammen to og to."
        ),
        [112, 104, 96, 48],
    ),
    (
        "da",
        (
            "Fordel m jævnt på 4 p, 28 m på hver.\n"
            "Omg 1: 2 indt på hver p: *12 r, 2 r sm*, 2 gange på hver p. 104 m.\n"
            "Omg 2: r.\nOmg 3: Som omg 1, men med 1 m mindre før indt. 96 m.\n"
            "Fortsæt som på omg 1-3, dvs. indt på ulige omg og r på lige omg, til der er 80 m i alt."
        ),
        [112, 104, 96, 88, 80],
    ),
    (
        "da",
        (
            "1. p.: * 12 r., 2 r. sm. *, gent. *-* p. rundt = 104 m.\n2. p. og alle lige p.: Ret.\n"
            "3. p.: * 11 r., 2 r. s. *, gent. *-* p. rundt = 96 m.\n4. p.: Ret.\n"
            "5. p.: 2 r. sm. hele omg. = 48 m, og det samme igen = 24 m."
        ),
        [112, 104, 96, 48, 24],
    ),
    ("da", "Omg 1: Strik til de sidste 2 m på hver p, 2 r sm. 108 m.", [112, 108]),
    ("nb", "Omg 1: Strikk til de siste 2 m på hver p, 2 r sm. 108 m.", [112, 108]),
]


@pytest.mark.parametrize(("language", "text", "left"), CROWNS)
def test_a_crown_is_read_as_it_is_noted(language: str, text: str, left: list[int]) -> None:
    """Every count comes out."""
    assert counts(read(text, (112,), language)) == [left]


SIZES = [
    (
        "da",
        (
            "Indtag 8 m på flg måde: *11 [12] 13 r, 2 r sm*, gentag *-* ialt 8 gange. Der er 96 [104] 112 m.\n"
            "Strik 2 omg "
            "ret.\nIndtag igen, nu med 10 [11] 12 r mellem: 88 [96] 104 m.\nStrik 2 omg ret.\n"
            "Fortsæt således med 1 m mindre "
            "mellem for hver gang. Når 80 m resterer, strikkes der kun 1 omg mellem, og når 64 m resterer, tages "
            "ind på hver "
            "omg.\nStop, når der er 48 m tilbage."
        ),
    ),
    (
        "nb",
        (
            "Fell 8 m slik: *11 [12] 13 r, 2 r sm*, gjenta *-* i alt 8 ganger. Det er 96 [104] 112 m.\nStrikk 2 omg "
            "rett.\nFell igjen, nå med 10 [11] 12 r mellom: 88 [96] 104 m.\nStrikk 2 omg rett.\n"
            "Fortsett slik med 1 m mindre "
            "mellom for hver gang. Når det er 80 m igjen, strikkes det kun 1 omg mellom, og når det er 64 m "
            "igjen, felles det på "
            "hver omg.\nStopp, når det er 48 m igjen."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), SIZES)
def test_the_middle_size_stands_in_square_brackets(language: str, text: str) -> None:
    """Two plain rounds between decreases, then one, then none."""
    behind = [80, 80, 72, 72, 64, 56, 48]
    assert after_rounds_of_sizes(read(text, (104, 112, 120), language)) == [
        [count for count in range(first, 80, -8) for _ in range(3)] + behind for first in (96, 104, 112)
    ]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "da",
            (
                "Indtagning: *12 ret, 2 ret sammen* 8 gange. 104 m.\nStrik 1 omgang ret efter denne og hver af de "
                "følgende indtagningsomgange.\n*11 ret, 2 ret sammen* 8 gange. 96 m.\n"
                "Til sidst strikkes *10 ret, 2 ret "
                "sammen* 8 gange og derpå, uden omgang imellem, 2 ret sammen hele omgangen. 44 m."
            ),
        ),
        (
            "nb",
            (
                "Fell: *12 rett, 2 rett sammen* 8 ganger. 104 m.\nStrikk 1 omgang rett etter denne og hver av de "
                "følgende felleomgangene.\n*11 rett, 2 rett sammen* 8 ganger. 96 m.\n"
                "*10 rett, 2 rett sammen* 8 ganger "
                "og deretter, uten omgang imellom, 2 rett sammen hele omgangen. 44 m."
            ),
        ),
    ],
)
def test_a_round_is_told_after_this_and_each_decrease_round_that_follows(language: str, text: str) -> None:
    """The last two stand one on the other."""
    assert after_each_round(read(text, (112,), language)) == [104, 104, 96, 96, 88, 44]
