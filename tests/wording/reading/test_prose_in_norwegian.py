"""Prose in Norwegian: crowns told in full sentences, by teachers, in blogs and in old books.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

TEXTS = [
    # so many stitches between the decreases from one round to the next
    (
        (
            "Strikk 6 masker, strikk to sammen, og gjør dette åtte ganger. Da er det 56 masker.\n"
            "To vanlige omganger til.\n"
            "Så strikker du 5 masker mellom hver gang du strikker to sammen, og da er det 48 masker.\n"
            "Strikk 4 masker mellom (40 masker), én vanlig omgang, og så 3 masker mellom (32 masker).\n"
            "Resten av veien feller du på hver eneste omgang: først 2 masker mellom, så 1. Nå er det 16 masker."
        ),
        64,
        [56, 56, 56, 48, 40, 40, 32, 24, 16],
    ),
    # the same of double decreases: the round between is part of what is done again, until the text tells that it is not
    (
        (
            "Strikk *7 m rett, dobbeltfelling*, fortsatt seks ganger. (48 m)\nStrikk 2 omganger rett.\n"
            "Strikk en omgang med 5 m rett mellom dobbeltfellingene (36 m) og en omgang rett. "
            "Gjør det samme med 3 m mellom (24 m)."
        ),
        60,
        [48, 48, 48, 36, 36, 24],
    ),
    # so many stitches behind the decreases, and as many less each time
    (
        (
            "Felling av topp. — De 48 masker fordeles på fire pinner med 12 masker på hver.\n"
            "Det felles i begynnelsen og på midten av hver pinne, slik: 2 masker rett sammen, 4 rett, "
            "2 rett sammen, 4 rett. Der er nu 40 masker.\n"
            "Fell som før, med 3 rett efter hver felling. Strikk 1 omgang uten felling. (32 masker.)\n"
            "Derefter felles på hver omgang, stadig med en maske mindre efter fellingen, inntil der er 2 masker "
            "igjen på hver pinne."
        ),
        48,
        [40, 32, 32, 24, 16, 8],
    ),
    # old print
    (
        (
            "Man feller i begynnelsen og slutten av hver pinne, idet de to første masker strikkes vridd sammen og "
            "de to siste rett sammen. Efter denne omgang har man 56 masker. Derpå strikkes en omgang rett.\n"
            "Disse to omganger strikkes ennu to ganger, så der blir 40 masker.\n"
            "Siden felles på samme vis på hver omgang inntil der kun er to masker tilbake på hver pinne."
        ),
        64,
        [56, 56, 48, 48, 40, 40, 32, 24, 16, 8],
    ),
    # sections called by what they look like
    (
        (
            "Vi deler toppen i seks kaker på 6 masker. Hver kake mister sin siste maske ved at du strikker de to "
            "siste maskene i kaken sammen. Etter første gang er det 30 masker.\n"
            "Fell så på hver omgang til det bare er én maske igjen i hver kake."
        ),
        36,
        [30, 24, 18, 12, 6],
    ),
    # marked stitches, and a double decrease told in its parts
    (
        (
            "Sett et merke i 5. m på omg og deretter i hver 10. m (= 4 merker).\n"
            "Fell slik: Strikk til det gjenstår 1 m før merket m, løft 2 m r sm over på høyre p, strikk 1 r, trekk "
            "de 2 løftede m over. Gjenta ved hvert merke = 32 m.\n"
            "Gjenta fellingen på annenhver omg til det er 16 m igjen, deretter på hver omg til det er 8 m igjen."
        ),
        40,
        [32, 32, 24, 24, 16, 8],
    ),
    # words that are no round: a needle, a count between markers
    (
        "Tykt garn, p 7. Felles når lua måler 17 cm.\nOmg 1: strikk 3 r, 2 r sm; gjenta ut omg = 32 m",
        40,
        [32],
    ),
    ("Sett 4 merker med 10 m mellom. Strikk 1 omg r. Nå er det 10 m mellom merkene.", 40, [40]),
    # what is left of the round is knitted
    (
        "Begynn med 1 r, 2 r sm, strikk så *3 r, 2 r sm* til det gjenstår 2 m, strikk disse rett.",
        40,
        [32],
    ),
    # pairs that fall together, in a bracket; the last round right away
    ("Fell på hver 5. og 6. m (strikk dem sammen), da blir det 40 m. Så 2 omg rett", 48, [40, 40, 40]),
    (
        (
            "1. omg: 3 r, 2 r sm, omgangen rundt. 32 m.\n2. omg: r.\n"
            "Du feller i annenhver omgang, og for hver felleomgang er det én maske mindre mellom fellingene.\n"
            "Når du har kommet ned i 16 masker, strikker du med en gang en omgang der alle maskene strikkes sammen "
            "to og to. De 8 maskene trekker du tråden gjennom."
        ),
        40,
        [32, 32, 24, 24, 16, 8],
    ),
    # a teacher: rounds of rest, the stitches that are gone and those that are left
    (
        (
            "Strikk fem masker rett og ta de to neste sammen. Slik går du hele runden rundt, og når du er framme, "
            "har åtte masker blitt borte og du sitter med 48.\n"
            "Ta en hvileomgang der du bare strikker rett.\n"
            "Neste gang er det bare fire masker før de to som skal strikkes sammen. 40 masker.\nHvil en omgang til.\n"
            "Fortsett på samme måte, med en maske mindre før hver felling og en hvileomgang imellom, til du har "
            "24 masker.\n"
            "Fra nå av hopper du over hvileomgangen og feller hver gang, til det bare er åtte masker igjen."
        ),
        56,
        [48, 48, 40, 40, 32, 32, 24, 16, 8],
    ),
    # old print
    (
        (
            "Til toppen felles det saaledes: Paa første Omgang strikkes 5 Masker, derefter 2 Masker sammen, og "
            "saaledes hele Omgangen rundt, hvorved 6 Masker forsvinder.\nDerefter strikkes 1 Omgang ret.\n"
            "Paa tredie Omgang strikkes 4 Masker, 2 Masker sammen, og saaledes videre, stadig med 1 Maske mindre "
            "imellem, indtil der kun er 24 Masker igjen.\n"
            "Nu felles paa hver Omgang, indtil der er 6 Masker tilbage."
        ),
        42,
        [36, 36, 30, 30, 24, 18, 12, 6],
    ),
    # both sides of the markers, so often in all, then without the rounds between
    (
        (
            "Del arbeidet i fire med merketråder, 14 masker i hver del.\n"
            "Fell ved hvert merke ved å strikke to masker sammen før merket og to masker vridd sammen etter merket, "
            "altså åtte masker per omgang.\n"
            "Gjør dette annenhver omgang til sammen tre ganger, og tell etter: det skal være 32 masker.\n"
            "Nå kutter du ut omgangene uten felling og feller på hver omgang tre ganger. Da er åtte masker igjen."
        ),
        56,
        [48, 48, 40, 40, 32, 24, 16, 8],
    ),
    # another word for decreasing, and what is between the decreases in a list
    (
        (
            "Minsk slik: 8 rett, 2 sammen, ti ganger i alt.\nStrikk to omganger. Minsk igjen, denne gangen med 7 rett "
            "imellom.\nStrikk en omgang, minsk med 6 imellom, strikk en omgang, minsk med 5 imellom. Nå er det 60.\n"
            "Deretter feller vi på hver omgang: med 4, 3 og 2 masker mellom."
        ),
        100,
        [90, 90, 90, 80, 80, 70, 70, 60, 50, 40, 30],
    ),
    # without rounds between from here on, though there were some
    (
        (
            "Første felling: hver femte og sjette maske strikkes sammen. 45 masker.\nStrikk tre omganger over.\n"
            "Andre felling: hver fjerde og femte maske strikkes sammen. 36 masker. Strikk to omganger over.\n"
            "Slik fortsetter en til det er ni masker igjen, men nå uten omganger imellom."
        ),
        54,
        [45, 45, 45, 45, 36, 36, 36, 27, 18, 9],
    ),
    # numbers in words
    (
        "Åttifire masker er det nå.\nFem rett, to sammen. Gjenta rundt. Nå ble det 72.\nRett rundt.",
        84,
        [72, 72],
    ),
    # markers told in passing, and the decrease before them
    (
        (
            "Jeg har 60 masker, og jeg har satt merker slik at det er 10 masker mellom hvert merke.\n"
            "Rett før hvert merke strikker jeg to masker sammen. Seks masker blir borte på hver felleomgang.\n"
            "Jeg feller sånn annenhver omgang tre ganger (42 masker), og så på hver omgang til jeg sitter igjen med "
            "tolv masker."
        ),
        60,
        [54, 54, 48, 48, 42, 36, 30, 24, 18, 12],
    ),
    (
        (
            "Nå trenger du fire merker med 14 masker mellom.\n"
            "På fellerundene gjør du slik ved hvert merke: strikk til det er tre masker igjen før merket, to rett "
            "sammen, en rett, flytt merket, en rett, to vridd rett sammen.\nDet blir åtte masker mindre på hver "
            "fellerunde.\n"
            "Fell på hver tredje runde to ganger, så annenhver runde to ganger, og til slutt på hver runde til det er "
            "16 masker igjen."
        ),
        56,
        [48, 48, 48, 40, 40, 40, 32, 32, 24, 24, 16],
    ),
    # old print
    (
        (
            "Arbeidet deles i 8 Felter med 6 Masker i hvert.\n"
            "I slutningen af hvert Felt strikkes 2 Masker ret sammen, saa der blir 40 Masker.\n"
            "2 Omgange uden Fældning. Der fældes atter, 32 Masker.\n"
            "1 Omgang uden Fældning, hvorefter der fældes paa hver Omgang til der er 8 Masker igjen."
        ),
        48,
        [40, 40, 40, 32, 32, 24, 16, 8],
    ),
    # a tale of what somebody did
    (
        (
            "Bestemor gjorde det alltid slik: hun strikket 4 masker og så 2 sammen, og det gjorde hun hele veien. "
            "Da var det 40 igjen.\nSå strikket hun en omgang uten å tenke.\n"
            "3 masker og 2 sammen. 32 masker. En ny omgang uten å tenke.\n"
            "Herfra felte hun hver omgang, alltid en maske mindre imellom, til det bare var 8 masker igjen."
        ),
        48,
        [40, 40, 32, 32, 24, 16, 8],
    ),
    # stitches of a section, of which the last two fall together
    (
        (
            "Del inn i åtte deler med seks masker i hver.\n"
            "Felleomgang: strikk fire masker i hver del, og strikk de to siste i delen sammen. Åtte masker er felt.\n"
            "Strikk én omgang rett, én felleomgang med tre masker i hver del før fellingen (32 masker).\n"
            "Deretter felles det uten mellomomganger til det er åtte masker igjen."
        ),
        48,
        [40, 40, 32, 24, 16, 8],
    ),
    # the round behind, on which nothing is decreased
    (
        (
            "På neste omgang feller du 6 masker: *strikk 5, to sammen*. På omgangen etter feller du ikke. På den "
            "tredje omgangen feller du 6 masker igjen. Fortsett slik, med felling på alle oddetallsomganger, til "
            "og med 5. omgang. Da har du 24 masker.\nFra 6. omgang feller du på alle omganger til du har 12 masker."
        ),
        42,
        [36, 36, 30, 30, 24, 18, 12],
    ),
    # after so many stitches, and after every so many
    (
        (
            "Jeg feller alltid sånn: etter 6 masker strikker jeg to sammen, og slik fortsetter jeg til omgangen er "
            "slutt. Nå står det 56 masker på pinnene.\nSå strikker jeg to runder uten å felle.\n"
            "Neste felling kommer etter 5 masker, den neste etter 4 igjen, alltid med to runder imellom, til det er 40 "
            "masker på pinnene.\nDa feller jeg på hver runde til 8 masker står igjen."
        ),
        64,
        [56, 56, 56, 48, 48, 48, 40, 32, 24, 16, 8],
    ),
    (
        "Strikk to masker sammen etter hver sjette maske. Så strikker du to omganger rett. Nå er det 42 masker.",
        48,
        [42, 42, 42],
    ),
    # the plain rounds are left out
    (
        (
            "Sett et merke for hver 8. m. Felleomg: strikk 2 m sm før hvert merke.\n"
            "Strikk en felleomgang og en vanlig omgang om hverandre til hver del har 6 masker. Hopp så over de vanlige "
            "omgangene, og fell til hver del har 3 masker."
        ),
        48,
        [42, 42, 36, 36, 30, 24, 18],
    ),
    # the next round is a decrease round, and what stands between the decreases in a list
    (
        (
            "Strikk 6 masker, fell 1 maske, gjenta omgangen rundt. Strikk 1 omgang. Fell på samme sted på neste "
            "omgang, men nå med 5 masker før fellingen. Strikk 1 omgang.\n"
            "Tredje felleomgang: 4 masker mellom, og 1 omgang rett etterpå.\n"
            "Så feller du de tre siste gangene uten noen omgang imellom: 3, 2 og 1 maske mellom fellingene."
        ),
        64,
        [56, 56, 48, 48, 40, 40, 32, 24, 16],
    ),
    # both ends of every needle
    (
        (
            "Nå felles det åtte masker på annenhver omgang: to masker sammen i begynnelsen og slutten av hver av de "
            "fire pinnene. Når det er seks masker igjen på hver pinne, felles det på hver omgang. Stopp når det er to "
            "masker igjen på hver pinne."
        ),
        40,
        [32, 32, 24, 16, 8],
    ),
    # a pair of rounds that ends in its middle, a round worked in this manner, and a round plain but for some stitches
    (
        (
            "Felleomgang: Strikk r til 2 m før merket, 2 r sm, gjenta ved alle 8 merker.\n"
            "Strikk 1 omgang r.\n"
            "Gjenta disse to omgangene til det etter en felleomgang er 64 m på pinnen.\n"
            "Strikk felleomgangen på hver omgang til det er 48 m på pinnen."
        ),
        88,
        [80, 80, 72, 72, 64, 56, 48],
    ),
    (
        (
            "Felleomgang: Strikk r til 2 m før merket, 2 r sm, gjenta ved alle 8 merker.\n"
            "Strikk 1 omgang r.\n"
            "Gjenta de to omgangene, inntil du har 64 m på pinnen etter siste felleomgang."
        ),
        88,
        [80, 80, 72, 72, 64],
    ),
    (
        (
            "Strikk 1 omg rett, og øk slik: *11 r, øk 1 m (strikk lenken mellom 2 m vridd rett), 1 r*, gjenta fra"
            " * til * omgangen rundt."
        ),
        96,
        [104],
    ),
    ("Strikk 1 omg rett og fell samtidig slik: *10 r, 2 r sm*, gjenta fra * til * omg rundt.", 96, [88]),
    ("1. omg: rett, fell samtidig 1 m; 24 m.", 25, [24]),
    ("1. omg: 10 rett, fell 1 m, 10 rett, fell 1 m, 2 rett (24 m).", 26, [24]),
]


@pytest.mark.parametrize(("text", "cast_on", "counts"), TEXTS)
def test_prose_in_norwegian(text: str, cast_on: int, counts: list[int]) -> None:
    reading = read(text, (cast_on,), "nb")
    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == counts


def test_a_count_told_as_what_follows_is_read_as_a_count() -> None:
    """A round that stands twice is found where its count begins with `so that there are`."""
    text = (
        "*4 r, 2 r sm*, slik at det blir 50 m.\n*4 r, 2 r sm*, slik at det blir 50 m.\n*3 r, 2 r sm*, 40 m."
    )
    assert [(finding.code, finding.line) for finding in read(text, (60,), "nb").findings] == [
        ("left_over", 2)
    ]
