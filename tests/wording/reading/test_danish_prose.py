"""What Danish teachers, bloggers and old books tell in full sentences: rounds, repeats, counts and going on."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults

FIRST = "Strik 8 ret, 2 ret sammen hele vejen rundt.\nStrik en omgang ret.\n"
"""A round that shapes eighty stitches, and a plain one."""
EVERY_OTHER = [72, 72, 64, 64, 56, 56, 48]

CROWNS = [
    # around, told behind, and how many are gone
    ("Begynd med at strikke 8 ret, 2 ret sammen, og bliv ved med det hele omgangen rundt.", [72]),
    ("Strik 8 ret, 2 ret sammen. Sådan gør du otte gange i alt, og så har du 72 masker.", [72]),
    ("Strik 8 ret, hvorefter 2 masker strikkes sammen, og således hele omgangen rundt.", [72]),
    ("Strik 8 ret, 2 ret sammen hele vejen rundt. Nu er otte masker væk, og der er 72 tilbage.", [72]),
    ("Strik 8 ret, 2 ret sammen hele omgangen, så vi får 72 masker.\nOmgangen efter er bare ret.", [72, 72]),
    # going on
    (
        FIRST
        + "Disse to omgange gentager du, idet der hver gang bliver en maske mindre mellem indtagningerne, "
        "til du har 48 masker.",
        [*EVERY_OTHER, 48],
    ),
    (
        FIRST + "Det gentager vi, hver gang med en maske mindre inden indtagningen, til vi har 48 masker.",
        EVERY_OTHER,
    ),
    (
        FIRST
        + "Sådan bliver du ved: Du tager ind på hver anden omgang, og der er hele tiden én maske mindre mellem "
        "indtagningerne, indtil der kun er 48 masker.",
        EVERY_OTHER,
    ),
    (
        FIRST
        + "Fortsæt på denne måde, med en indtagningsomgang og en ret omgang skiftevis, til der er 48 masker. "
        "Sidste omgang er ret.",
        [*EVERY_OTHER, 48],
    ),
    (
        (
            "Tag 8 masker ind jævnt fordelt på omgangen, og strik så 2 omgange ret. Gør det samme tre gange i alt, så "
            "du til sidst har 56 masker."
        ),
        [72, 72, 72, 64, 64, 64, 56, 56, 56],
    ),
    # every round from a count on, or from here on
    (
        FIRST
        + "Sådan fortsætter du. Når du har strikket indtagningsomgangen, hvor der bliver 64 masker tilbage, "
        "tager du ind på hver omgang, indtil der kun er 48 masker.",
        [72, 72, 64, 56, 48],
    ),
    (
        FIRST
        + "Sådan skiftes du til at tage ind og strikke ret, indtil der er 64 masker tilbage. Efter endnu en "
        "omgang ret tager du ind på hver omgang, til der kun er 48 masker.",
        [72, 72, 64, 64, 56, 48],
    ),
    (
        FIRST
        + "Herfra springer du den almindelige omgang over og tager ind på hver omgang: 7 ret, 2 ret sammen "
        "(64 masker), 6 ret, 2 ret sammen (56 masker).",
        [72, 72, 64, 56],
    ),
    # at every marker, again and one last time
    (
        (
            "Sæt en markør i maske nummer 5 og derefter i hver 10. maske, så der sidder 8 markører i alt.\n"
            "Når du tager ind, strikker du til 1 maske før den markerede maske, tager de næste 2 masker løst af "
            "sammen, strikker 1 ret og trækker de 2 løse masker over. Så er 3 masker blevet til 1.\n"
            "Tag ind på den måde ved alle 8 markører (64 masker), og strik så 2 omgange ret.\n"
            "Tag ind igen (48 masker), og strik 1 omgang ret.\nTag ind en sidste gang (32 masker)."
        ),
        [64, 64, 64, 48, 48, 32],
    ),
    (
        (
            "Du har 80 masker, som deles i 8 dele med 10 masker i hver.\nI hver del strikker du til de sidste 2 "
            "masker, som du strikker ret sammen. Nu har hver del 9 masker, og der er 72 i alt."
        ),
        [72],
    ),
    (
        (
            "Sæt otte markører med 10 masker mellem hver.\nStrik, til der er to masker til markøren, og strik dem ret "
            "sammen. Det gør du ved alle otte markører på omgangen (72 masker).\nSå en omgang ret.\n"
            "Gentag de to omgange, til der er 8 masker mellem markørerne, altså 64 masker i alt."
        ),
        [72, 72, 64, 64],
    ),
    # so many times more
    (
        FIRST
        + "Disse to omgange gentager du to gange til, og for hver gang er der en maske mindre før du tager ind.",
        [72, 72, 64, 64, 56, 56],
    ),
    # without the rounds between
    (
        FIRST
        + "Herefter udelades mellemomgangen, og der tages ind på hver omgang med en maske mindre mellem "
        "indtagningerne, til der er 48 masker tilbage.",
        [72, 72, 64, 56, 48],
    ),
    (
        FIRST
        + "Så strikker du 7 ret og 2 ret sammen hele omgangen rundt (64 masker) og slutter igen af med en "
        "hvileomgang.\nResten af indtagningerne laver du på hver omgang uden hvileomgange, til du har 48 masker.",
        [72, 72, 64, 64, 56, 48],
    ),
    # ridges of two rounds
    ("Strik rundt (1 omg r, 1 omg vr), til der er 2 vrangriller, dvs. 4 omg.", [80] * 4),
    ("Strik skiftevis 1 omg r og 1 omg vr, til der er 2 riller.", [80] * 4),
    ("Strik 2 vrangriller (1 omg r, 1 omg vr).\nGå over til glatstrik, og strik 2 omg.", [80] * 6),
    # to a count whose plain round is the last, and two rounds with a count behind each
    (
        FIRST
        + "Sådan bliver du ved. For hver indtagningsomgang er der en maske mindre mellem indtagningerne, og efter "
        "hver indtagningsomgang strikker du en omgang ret. Stop, når du har 48 masker og har strikket den sidste "
        "omgang ret.\nTil sidst strikker du to omgange, hvor alle masker strikkes ret sammen to og to. Så er der 24 "
        "masker efter den første og 12 masker efter den anden.",
        [*EVERY_OTHER, 48, 24, 12],
    ),
    # both ends of every needle, and everywhere
    (
        (
            "De 80 m. deles med 20 m. paa hver pind.\n"
            "1. omgang: Paa hver pind strikkes 2 m. ret sammen, ret til de 2 sidste m., som strikkes drejet ret sammen "
            "(72 m.).\nNu strikkes overalt 2 m. sammen, og traaden trækkes gennem de 36 m."
        ),
        [72, 36],
    ),
    # markers that the hat has already
    (
        (
            "Huen har 80 m og 4 markører (mm) med 20 m imellem; omg begynder ved en mm.\n"
            "Indtagningsomg: *1 r, dr 2 r sm, strik r til 3 m før mm, 2 r sm, 1 r, flyt mm*, gentag fra * til * i alt "
            "4 gange = 72 m."
        ),
        [72],
    ),
    # from a count on at another rhythm
    (
        (
            "Strik 8 ret, 2 ret sammen hele vejen rundt.\nStrik 3 omgange ret.\n"
            "Tag ind på hver fjerde omgang. Når der er 64 masker, tages der ind på hver anden omgang, og når der er 48 "
            "masker, tages der ind på hver omgang, indtil der kun er 24."
        ),
        [72, 72, 72, 72, 64, 64, 56, 56, 48, 40, 32, 24],
    ),
    (
        FIRST
        + "Der bliver én maske mindre mellem indtagningerne for hver gang, og der er altid en almindelig omgang "
        "imellem.\nNår du når ned på 64 masker, springer du de almindelige omgange over og tager ind på hver omgang. "
        "Det gør du, til der kun er 40 masker tilbage.",
        [72, 72, 64, 56, 48, 40],
    ),
    (
        FIRST
        + "Gentag de to omgange med 1 maske mindre mellem indtagningerne. Når du når ned på 64 masker, skifter du til "
        "strømpepinde. Fortsæt, til der er 48 masker tilbage.",
        EVERY_OTHER,
    ),
    # rounds whose counts stand behind
    (
        (
            "På den næste omgang strikker du 8 masker ret, før du strikker 2 sammen (72 masker), og bagefter kommer "
            "der kun 1 omgang uden indtagning.\nHerfra tager du ind på hver omgang, og der bliver hver gang 1 maske "
            "mindre imellem: 64 masker, 56 masker og til sidst 48 masker."
        ),
        [72, 72, 64, 56, 48],
    ),
    (
        (
            "Strik 8 masker, og strik de 2 næste sammen, hele omgangen.\nNu tages der ind på hver omgang, først med 7 "
            "masker, så med 6 masker mellem indtagningerne, og til sidst strikkes alle masker sammen to og to."
        ),
        [72, 64, 56, 28],
    ),
    ("Strik nu 8 masker, og strik de næste 2 sammen; gør sådan 8 gange i alt.", [72]),
    ("Strik nu 2 masker ret sammen, og strik 8 ret; gør sådan 8 gange i alt.", [72]),
    (
        (
            "Vi deler maskerne i 8 felter a 10 m.\nI hvert felt strikkes de to sidste m sammen = 72 m.\n1 omg ret.\n"
            "Det samme igen = 64 m.\n1 omg ret.\nOg igen = 56 m."
        ),
        [72, 72, 64, 64, 56],
    ),
    # how a decrease is made, told before its rounds, and what a round leaves in each rib
    (
        (
            "Jeg bruger overtrækning, ovt: tag 1 m løs af, strik 1 r, træk den løse m over (1 m taget ind).\n"
            "Placér en markør for hver 10 m.\nOmg A: *Ovt, strik ret til markør, flyt markør*, gentag fra * til * omg "
            "ud."
        ),
        [72],
    ),
    (
        (
            "Strik 1 ret, 2 ret sammen og 1 vrang hele omgangen. Der er nu kun 2 retmasker i hver ribbe, i alt 60 "
            "masker.\nStrik 2 omgange, hvor du strikker ret over ret og vrang over vrang."
        ),
        [60, 60, 60],
    ),
    # two rounds in turn, told as portions, stretches and lists of rounds
    (
        (
            "Jeg deler mine 80 masker i otte portioner med 10 masker i hver og sætter en markør imellem.\n"
            "Så strikker jeg ret, til der mangler 2 masker før markøren, og dem strikker jeg ret sammen. Sådan gør jeg "
            "ved alle otte markører. 72 masker.\nNæste omgang er uden indtagninger.\n"
            "Jeg skifter mellem de to omgange, til der er 56 masker."
        ),
        [72, 72, 64, 64, 56, 56],
    ),
    (
        (
            "Huens top strikkes i 8 kiler med 10 masker i hver.\n"
            "I slutningen af hver kile strikkes to masker sammen, altså forsvinder der 8 masker hver gang. 72 masker.\n"
            "Efter hver indtagningsomgang strikkes en omgang ret, men når der er 56 masker, tages der ind på alle "
            "omgange.\nNår hver kile kun har 5 masker tilbage, dvs. 40 masker, klippes garnet."
        ),
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (
        (
            "Paa hver Pind er der 20 Masker.\n"
            "Paa hver Pind strikkes nu de to første Masker sammen, og ligeledes de to sidste. Der bliver saaledes 18 "
            "Masker paa hver Pind eller 72 ialt.\nDerpaa en Omgang ret uden Indtagning.\n"
            "Disse to Omgange gjentages, indtil der er 14 Masker paa hver Pind, ialt 56."
        ),
        [72, 72, 64, 64, 56, 56],
    ),
    (
        (
            "Indtagningsomgangen er nem: strik 8 masker, strik 2 sammen, og sådan hele vejen rundt. Bagefter er "
            "der 9 masker i hvert felt, 72 i alt.\nStrik så en omgang, hvor alle masker bare er ret.\n"
            "Indtagningsomgang, almindelig omgang, indtagningsomgang, almindelig omgang, og for hver indtagningsomgang "
            "er der én maske færre i hvert felt.\n"
            "Når felterne er nede på 7 masker, tager du ind på hver omgang, til der kun er 5 masker i hvert felt."
        ),
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (
        (
            "Hver 9. og 10. maske strikkes sammen. 72 masker.\nTo omgange strikkes uden indtagninger.\n"
            "Hver 8. og 9. maske strikkes sammen. 64 masker.\n"
            "Herefter strikkes kun én omgang mellem indtagningsomgangene, og der fortsættes således, indtil der er 48 "
            "masker."
        ),
        [72, 72, 72, 64, 64, 56, 56, 48],
    ),
    (
        (
            "Inden du går i gang, skal du have fire markører, hvor der er 20 masker mellem hver.\n"
            "Hver gang du kommer til en markør, strikker du de to masker før den sammen. Efter første omgang er der 76 "
            "masker tilbage.\nAnden omgang er en ret omgang.\n"
            "Bliv ved med at strikke de to omgange på skift, indtil du har 68 masker tilbage.\n"
            "Derefter skal du tage ind på alle omgange, og når du har 60 masker, er huen færdig."
        ),
        [76, 76, 72, 72, 68, 68, 64, 60],
    ),
    (
        (
            "Sæt fire mærker, et for hver 20 masker.\n"
            "Før hvert mærke strikkes 2 masker ret sammen, og efter hvert mærke tages 1 maske løs af, 1 ret, og den "
            "løse trækkes over.\nDen næste omgang strikkes ret.\n"
            "Sådan skiftes der, en omgang med og en omgang uden indtagning, til der er 64 masker. Derfra kun omgange "
            "med indtagning, til der er 48 masker."
        ),
        [72, 72, 64, 56, 48],
    ),
    # decreases in sentences of their own, and the round after them
    (
        (
            "Strik 8 masker ret. De næste to strikkes sammen. Gentag dette otte gange.\n"
            "Strik en enkelt omgang uden indtagninger.\nStrik 7 masker. Strik de næste 2 masker vrang sammen. Gentag "
            "omgangen rundt."
        ),
        [72, 72, 64],
    ),
    (
        (
            "Strik otte masker og saml de næste to. Gør det samme hele omgangen, i alt otte gange. Der er nu 72 "
            "masker.\nSå er der igen en omgang med indtagninger, men nu med 7 masker, før du strikker to sammen: 64 "
            "masker.\n"
            "Og igen, med 6 ret imellem. Det giver 56 masker.\nNu er én glat omgang nok.\n"
            "Resten af indtagningerne kommer lige efter hinanden, til der er 40 masker."
        ),
        [72, 64, 56, 56, 48, 40],
    ),
    (
        (
            "Vi skal fra 80 masker ned til 64.\nStrik 8 ret, 2 ret sammen hele vejen rundt.\n"
            "Efter indtagningen kommer der to glatte omgange.\nNu tages der ind igen, med 7 masker imellem."
        ),
        [72, 72, 72, 64],
    ),
    # a pair of rounds that ends in its middle, a round worked in this manner, and a round plain but for some stitches
    (
        (
            "Indtagningsomgang: Strik r til 2 m før markøren, 2 r sm, gentag ved alle 8 markører.\n"
            "Strik 1 omgang r.\n"
            "Gentag de to omgange, indtil der efter en indtagningsomgang er 56 m på pinden.\n"
            "Strik nu indtagningsomgangen på hver omgang, indtil der er 40 m på pinden."
        ),
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (
        (
            "Indtagningsomgang: Strik r til 2 m før markøren, 2 r sm, gentag ved alle 8 markører.\n"
            "Strik 1 omgang r.\n"
            "Gentag de to omgange, indtil du har 56 m tilbage efter en indtagningsomgang."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        (
            "Indtagningsomgang: Strik r til 2 m før markøren, 2 r sm, gentag ved alle 8 markører.\n"
            "Strik 1 omgang r.\n"
            "Gentag de to omgange, til der er 56 m tilbage på pinden efter sidste indtagningsomgang."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        (
            "Indtagningsomgang: Strik r til 2 m før markøren, 2 r sm, gentag ved alle 8 markører.\n"
            "Strik 1 omgang r.\n"
            "Gentag de to omgange, til der er 56 m tilbage."
        ),
        [72, 72, 64, 64, 56, 56],
    ),
    (
        (
            "Strik 1 omg ret, og tag ud således: *9 r, tag 1 m ud (strik lænken mellem 2 m drejet ret), 1 r*, "
            "gentag fra * til * omg rundt."
        ),
        [88],
    ),
    ("Strik 1 omg ret og tag samtidig ind sådan: *8 r, 2 r sm*, gentag fra * til * omg rundt.", [72]),
    ("Strik 1 omg ret. Tag ud således: *10 r, tag 1 m ud*, gentag fra * til * omg rundt.", [80, 88]),
    ("1. omg: ret, tag samtidig 1 m ind; 79 m.", [79]),
    ("1. omg: ret, der tages 2 m ind (78 m).", [78]),
    ("1. omg: 38 ret, tag 1 m ind, 38 ret, tag 1 m ind (78 m).", [78]),
    # what goes on, how far, and what is worked once more
    # sections, and what goes at every round
    (
        (
            "Del maskerne i 8 felter á 10 masker. På hver eneste omgang strikker jeg de to sidste masker i hvert felt "
            "ret sammen, så indtagningerne snor sig i en spiral. Der ryger altså 8 masker på hver omgang.\n"
            "Det gør jeg, indtil der er 7 masker tilbage i hvert felt (56 masker)."
        ),
        [72, 64, 56],
    ),
    (
        (
            "Del maskerne i 8 lige store dele på 10 masker.\n"
            "Tag ind ved at strikke de 2 sidste masker i hver del ret sammen.\n"
            "Gør det på 1., 3. og 5. omgang, så der er 56 masker tilbage.\n"
            "Gør det derefter på hver omgang, til der er 5 masker tilbage i hver del."
        ),
        [72, 64, 56, 48, 40],
    ),
    # going on
    (
        FIRST
        + "Bliv ved med at skifte mellem en omgang med indtagninger og en ret omgang, indtil der er 56 masker.",
        [72, 72, 64, 64, 56],
    ),
    (
        FIRST
        + "Nu fortsætter du med indtagninger på hver omgang, og der bliver 1 ret mindre imellem dem hver gang.\n"
        "Stop, når du har 56 masker tilbage.",
        [72, 72, 64, 56],
    ),
    (
        FIRST
        + "Derefter kommer der en ret omgang mellem hver indtagningsomgang, og når der er 56 masker, springer "
        "man også den over.\nMan ender med 40 masker.",
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (FIRST + "Tag 8 masker ind på hver af de næste tre omgange. 48 masker.", [72, 72, 64, 56, 48]),
    (
        FIRST
        + "På tredje omgang er der kun 7 ret før hver indtagning (64 masker), og fjerde omgang er igen uden.",
        [72, 72, 64, 64],
    ),
    (
        "Tag ind på hver omgang, først med 8 ret imellem, så 7, 6, 5, 4, 3, 2 og 1.",
        [72, 64, 56, 48, 40, 32, 24, 16],
    ),
    # two rounds in a sentence, and rounds told behind
    (
        "Strik alle masker ret sammen to og to (40 masker), og gør det samme en gang til på næste omgang (20 masker).",
        [40, 20],
    ),
    (
        (
            "Strik 1 omgang ret, hvor du efter hver 10. maske tager 1 ny maske ud af lænken. Så har du 88 masker.\n"
            "Strik 2 omgange ret.\n1. gang: strik hele omgangen rundt 9 ret og 2 ret sammen (80 masker).\n"
            "2. gang: 8 ret og 2 ret sammen (72 masker).\nEfter hver af disse to gange strikkes 1 omgang ret.\n"
            "Strik 1 omgang ret."
        ),
        [88, 88, 88, 80, 80, 72, 72, 72],
    ),
    (
        (
            "Først tager jeg ind hver tiende maske: 8 ret, to sammen. Så er der 72 masker. Så kommer en ret "
            "omgang. Næste gang er der 7 ret mellem indtagningerne (64 masker), og så en ret omgang. Bliv ved, "
            "til du har 56 masker."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        (
            "Tag 8 masker ind jævnt fordelt på næste omgang, derefter 8 masker på hver anden omgang, til der "
            "er 56 masker, og til sidst 8 masker på hver omgang, til der er 40 masker."
        ),
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (
        (
            "På første indtagningsomgang strikker du hver 9. og 10. maske ret sammen. Strik 1 omgang ret. På "
            "anden indtagningsomgang strikker du hver 8. og 9. maske ret sammen. Nu er der 64 masker."
        ),
        [72, 72, 64],
    ),
    (
        (
            "Del maskerne i 8 lige store portioner. I hver portion strikkes de to sidste masker sammen på hver "
            "anden omgang, til der er 7 masker i hver (56 masker)."
        ),
        [72, 72, 64, 64, 56],
    ),
    # stitches that are left, and needles
    ("Lad 8 masker være, og strik de to næste ret sammen. Gør det otte gange, så er der 72 masker.", [72]),
    (
        (
            "Tag ind i begyndelsen af hver pind: 2 ret, 2 ret sammen, strik resten af pinden ret. Der er 76 masker.\n"
            "Tag også ind i slutningen af hver pind på den følgende omgang: strik ret, til der er 4 masker tilbage på "
            "pinden, 2 ret sammen, 2 ret. Nu er der 72 masker.\nSkift mellem disse to omgange, til der er 64 masker."
        ),
        [76, 72, 68, 64],
    ),
]


@pytest.mark.parametrize(("text", "expected"), CROWNS)
def test_rounds_told_in_sentences_are_worked(text: str, expected: list[int]) -> None:
    reading = read(text, (80,), "da")
    assert not faults(reading)
    assert after_each_round(reading) == expected


@pytest.mark.parametrize(
    "onward",
    [
        "på hver 4. omg 2 gange mere = 56 m, på hver 2. omg 2 gange = 40 m og til sidst på hver omg 3 gange = 16 m",
        "på hver 4. omg 2 gange mere = 56 m tilbage, og hveranden omg 2 gange = 40 m, hver omg 3 gange = 16 m",
        "2 gange mere på hver 4. omg = 56 m, så 2 gange på hver 2. omg = 40 m, og 3 gange på hver omg = 16 m",
    ],
)
def test_rhythms_of_decreases_stand_behind_the_count_of_those_before(onward: str) -> None:
    reading = read(
        f"Tag ind således: *8 r, 2 r sm*, gentag fra *-* omg rundt = 72 m. Gentag indtagningen {onward}.",
        (80,),
        "da",
    )
    assert not reading.findings
    assert after_each_round(reading) == [72, 72, 72, 72, 64, 64, 64, 64, 56, 56, 48, 48, 40, 32, 24, 16]


def test_the_last_of_two_counts_is_checked() -> None:
    """The count behind the second of two rounds is the count that the rounds must come to."""
    reading = read(
        "Til sidst strikker du to omgange, hvor alle masker strikkes ret sammen to og to. Så er der 40 masker efter "
        "den første og 21 masker efter den anden.",
        (80,),
        "da",
    )
    assert [finding.code for finding in reading.findings] == ["count_differs"]


@pytest.mark.parametrize(
    "closing",
    [
        "Klip garnet over, og træk enden gennem maskerne med en stoppenål.",
        "Klip garnet, og træk det gennem de resterende masker to gange.",
    ],
)
def test_a_needle_and_how_often_count_no_stitches(closing: str) -> None:
    """Neither is the count of the stitches that the yarn is drawn through."""
    assert not read(f"Strik 2 ret sammen hele omgangen (8 masker).\n{closing}", (16,), "da").findings


SHORT_PRINT = [
    # a decrease round that is explained first, and told by its count
    (
        (
            "8 m mellem MM, i alt 10 MM (80 m)\nIndt: * Strik r til 2 m før MM, 2 r sm, flyt MM *.\n"
            "Omg 1 (indt): 70 m\nOmg 2: r\nOmg 3 (indt): 60 m"
        ),
        [70, 70, 60],
    ),
    (
        (
            "Sæt 8 MM i arb med 10 m imellem (80 m).\nIndt: Strik 2 dr r sm efter hver MM (8 indt pr. omg).\n"
            "Tag ind på hver 2. omg 2 gange = 64 m.\nTag ind på hver omg 2 gange = 48 m."
        ),
        [72, 72, 64, 56, 48],
    ),
    (
        (
            "8 kiler à 10 m = 80 m.\nSæt 1 MM ml. kilerne.\n1. indt: * strik r til 2 m før MM, 2 r sm * = 72 m.\n"
            "Strik 1 omg r.\n2. indt: som 1. indt = 64 m.\nStrik 1 omg r.\n"
            "Tag derefter ind på hver omg, til der er 5 m pr. kile = 40 m."
        ),
        [72, 72, 64, 64, 56, 48, 40],
    ),
    # a round of its own that is a decrease round
    ("Omg 1 (indt): * 8 r, 2 r sm *, 72 m\nOmg 2: r", [72, 72]),
    # a double decrease told ahead, and one explained behind a heading
    (
        (
            "Der tages ind 5 steder på omg med en dobbelt indtagning: tag 1 m løs af, 2 r sm, træk den løse m over.\n"
            "1. omg: * 13 r, 1 dobbelt indtagning *, gentag fra * til * omg ud – 70 m"
        ),
        [70],
    ),
    (
        (
            "Indtagning i toppen. dobb indt = tag 2 m r sm løst af, 1 r, træk de 2 løse m over.\n"
            "1. omg: * 7 r, 1 dobb indt * 8 gange = 64 m"
        ),
        [64],
    ),
    # rounds told with their needle, stitches in pattern
    ("Strik glat på strømpep 2,5 i 2 omg (rullekant), derefter 2 omg på strømpep 3.", [80, 80, 80, 80]),
    ("1. omg: * 8 m mønster, 2 vr sm * = 72 m.", [72]),
    (
        (
            "Sæt 8 mærker (= 10 m ml. hvert mærke). * Strik til der er 2 m tilb. før mærket, 2 r sm *, gent. * "
            "til * omg "
            "rundt (= 72 m). Gent. indt. på hver 2. omg 2 g (= 56 m) og derefter på hver omg 2 g (= 40 m)."
        ),
        [72, 72, 64, 64, 56, 48, 40],
    ),
    (
        (
            "Tag ind: 8 r, 2 r sm, rep. omg ud (72 m). Strik 1 omg r. Fortsæt sål. med 1 m mindre ml. indt. "
            "til der er 56 m "
            "tilb."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        "Strik i alt 3 indtagningsomg med 1 omg r imellem: 8 r, 2 r sm / 7 r, 2 r sm / 6 r, 2 r sm.",
        [72, 72, 64, 64, 56],
    ),
    (
        "På 1. omg strikkes 8 r, 2 r sm hele vejen = 72 m; på 3. omg 7 r, 2 r sm = 64 m. Øvrige omg strikkes r.",
        [72, 72, 64],
    ),
    ("* 1 r, 2 dr r sm, 14 r, 2 r sm, 1 r *, gent på alle 4 p.", [72]),
]


@pytest.mark.parametrize(("crown", "counts"), SHORT_PRINT)
def test_short_print(crown: str, counts: list[int]) -> None:
    """Decreases that are explained ahead, by markers and sections, in the abbreviations of printed patterns."""
    reading = read(crown, (80,), "da")
    assert not reading.findings
    assert after_each_round(reading) == counts


def test_small_numbers_of_two_sizes_with_slashes() -> None:
    """They are for two sizes where a count alone has a slash, too."""
    reading = read("Omg 1: (6/7 r, 2 r sm) 8 gange. [56/64]", (64, 72), "da")
    assert not faults(reading)
    assert [[after.after for after in rounds] for rounds in reading.rounds] == [[56], [64]]


def test_small_and_large_size_by_their_names() -> None:
    """The counts and rounds of both are told in one line."""
    text = "*8 r, 2 r sm* – lille 72 m, stor 81 m.\nGlatstrik: 2 omg (lille), 3 omg (stor)."
    reading = read(text, (80, 90), "da")
    assert not faults(reading)
    assert [[after.after for after in rounds] for rounds in reading.rounds] == [
        [72, 72, 72],
        [81, 81, 81, 81],
    ]


def test_the_same_once_more_is_no_other_decrease() -> None:
    """What is worked the same way on the next round is two stitches together only where this round is."""
    reading = read(
        "Strik 8 ret, 2 ret sammen omgangen rundt, og gør det samme igen på næste omgang.", (80,), "da"
    )
    assert 36 not in after_each_round(reading)


def test_numbers_of_three_sizes_joined_by_or() -> None:
    """The last of all is behind `eller`."""
    reading = read(
        "Slå 72, 80 eller 88 masker op, og strik 2 omgange rib med 2 ret og 2 vrang.\nStrik 2, 3 eller 4 omgange ret.\n"
        "7, 8 eller 9 ret, 2 ret sammen, gentaget 8 gange (64, 72 eller 80 masker).",
        (72, 80, 88),
        "da",
    )
    assert not faults(reading)
    assert [rounds[-1].after for rounds in reading.rounds] == [64, 72, 80]
    assert [len(rounds) for rounds in reading.rounds] == [5, 6, 7]


def test_a_few_words_that_say_nothing_begin_a_sentence() -> None:
    """The stitches that are told with their rib are no round of it."""
    reading = read(
        "Du har 80 masker i 2 ret, 2 vrang.\n*2 r, 2 vr sm* omgangen ud. Der er nu 60 masker.", (80,), "da"
    )
    assert after_each_round(reading) == [60]


def test_numbers_of_two_sizes_told_one_after_the_other() -> None:
    """The cast-on and the rounds are told for each size by its name."""
    text = "Slå 80 m op til den lille og 90 til den store størrelse. Strik 2 omg til den lille og 4 omg til den store."
    reading = read(text, (80, 90), "da")
    assert not reading.findings
    assert [len(rounds) for rounds in reading.rounds] == [2, 4]


@pytest.mark.parametrize(
    ("crown", "stitches", "counts"),
    [
        ("*4 r, 1 dobb. overtr. (tag 1 m løs af, 2 r sm, træk den løse m over), 5 r* 8 x = 80 m.", 96, [80]),
        ("*3 r, dobb. overtr., 4 r* = 64 m.", 80, [64]),
        (
            "Strik de første 2 m på hver p r sm på hver omg, til der er 2 m på hver p.",
            16,
            [12, 8],
        ),
        ("Sæt et mærke for hver 10. m. Strik 2 r sm i slutn af hver del på hv 2. omg 2 g.", 40, [36, 36, 32]),
        (
            "Sæt 4 mærker med 10 m imellem. Tag ind på begge sider af hver markør på hver 2. omg 2 gange.",
            40,
            [32, 32, 24],
        ),
        (
            "Strik 1 omg rib: *3 r, 2 vr*.\nIndtagning 1: Strik 2 vr sm i alle vr-striber (32 m).",
            40,
            [40, 32],
        ),
    ],
)
def test_short_forms_and_places_of_decreases(crown: str, stitches: int, counts: list[int]) -> None:
    """Abbreviated words of a decrease, and where it is: at needles, sections, markers and purl ribs."""
    start = f"Slå {stitches} m op og fordel dem på 4 strømpep ({stitches // 4} m på hver p).\n"
    reading = read(start + crown, (stitches,), "da")
    assert not faults(reading)
    assert after_each_round(reading) == counts


@pytest.mark.parametrize(
    ("again", "counts"),
    [
        ("Strik disse 2 omg 2 gange mere.", [88, 88, 80, 80, 72, 72]),
        ("De 2 omg strikkes 2 gange til.", [88, 88, 80, 80, 72, 72]),
        ("Strik disse 2 omg endnu 1 gang.", [88, 88, 80, 80]),
        ("Strik disse 2 omg 2 gange i alt.", [88, 88, 80, 80]),
        ("Strik kun den første omg 2 gange til.", [88, 88, 80, 72]),
    ],
)
def test_rounds_some_times_more_and_in_all(again: str, counts: list[int]) -> None:
    """`2 gange mere` comes on top of what is worked, `2 gange i alt` has it with it."""
    text = "Sæt 8 mærker med 12 m imellem.\n1. omg: *strik til 2 m før mærket, 2 r sm* 8 gange = 88 m.\n2. omg: r.\n"
    assert after_each_round(read(text + again, (96,), "da")) == counts
