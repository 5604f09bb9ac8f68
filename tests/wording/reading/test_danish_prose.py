"""What Danish teachers, bloggers and old books tell in full sentences: rounds, repeats, counts and going on."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

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
]


@pytest.mark.parametrize(("text", "expected"), CROWNS)
def test_rounds_told_in_sentences_are_worked(text: str, expected: list[int]) -> None:
    assert after_each_round(read(text, (80,), "da")) == expected


def test_the_last_of_two_counts_is_checked() -> None:
    """The count behind the second of two rounds is the count that the rounds must come to."""
    reading = read(
        "Til sidst strikker du to omgange, hvor alle masker strikkes ret sammen to og to. Så er der 40 masker efter "
        "den første og 21 masker efter den anden.",
        (80,),
        "da",
    )
    assert [finding.code for finding in reading.findings] == ["count_differs"]
