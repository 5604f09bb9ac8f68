"""Places of markers, decreases at them and how often, in Norwegian and Danish, and the same in English."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

OFTEN = [
    ("en", "Place 10 markers.\nEvery other rnd: k2tog before each marker, 3 times in all = 70 sts."),
    ("en", "Every other rnd: dec 10 sts evenly, 3 times in all (70 sts)."),
    (
        "nb",
        "10 merker, 10 m i hver del. Hver 2. omg: fell 1 m i hver del etter merket (2 vridd r sm) 3 ganger.",
    ),
    (
        "nb",
        (
            "Sett 1 merke etter hver 10. m.\n"
            "Ved hvert merke felles 1 m (2 r sm før merket). Dette gjøres hver 2. omg 3 ganger (70 m)."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), OFTEN)
def test_a_round_is_worked_every_so_often_as_many_times_as_told(language: str, text: str) -> None:
    assert after_each_round(read(text, (100,), language)) == [90, 90, 80, 80, 70]


EVERY_OTHER = "Rnd 1: (k8, k2tog) around.\nEvery other rnd: knit.\nRnd 3: (k7, k2tog) around."


def test_a_plain_round_without_times_still_stands_between() -> None:
    assert after_each_round(read(EVERY_OTHER, (100,), "en")) == [90, 90, 80]


PLACED = [
    ("en", "Place a marker every 13 (14) sts. Work to 2 sts before marker, k2tog."),
    ("nb", "Sett 6 merker, 1 for hver 13. (14.) m.\nFell 1 m før hvert merke."),
    ("nb", "6 merker settes ut, ett for hver 13./14. m.\nFell 1 m før hvert merke."),
    ("nb", "Ved 18 (19) cm settes 6 merker, hver 13. (14.) m.\nFell 1 m før hvert merke."),
    ("da", "6 mærker sættes ud, et for hver 13. (14.) m.\nStrik 2 r sm før hvert mærke."),
]


@pytest.mark.parametrize(("language", "text"), PLACED)
def test_markers_stand_behind_another_number_of_stitches_in_every_size(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (78, 84), language)) == [[72], [78]]


SEVERAL = [
    ("en", "Dec 1 st on each side of each of the 6 markers."),
    ("nb", "Fell 1 m på hver side av de 6 merkene."),
    ("nb", "6 merker. Fell 2 m ved hvert merke."),
    ("da", "Tag 1 m ind på hver side af de 6 mærker."),
    ("da", "6 mærker. Tag 2 m ind ved hvert mærke."),
]


@pytest.mark.parametrize(("language", "text"), SEVERAL)
def test_so_many_markers_are_there_as_are_told_with_the_decrease(language: str, text: str) -> None:
    assert after_each_round(read(text, (96,), language)) == [84]


WHOLE = [
    (
        "nb",
        96,
        (
            "Sett merke etter hver 16. m, til sammen 6 merker.\n"
            "Annenhver omg strikkes det sammen 2 m vridd rett rett etter hvert merke til 84 m.\n"
            "Deretter gjøres det samme på hver omg til 78 m er igjen."
        ),
        [90, 90, 84, 78],
    ),
    (
        "nb",
        96,
        (
            "Sett 6 merker.\n"
            "Fell 2 m ved hvert merke på annenhver omg: strikk til 2 m før merket, 2 r sm, merke, ta "
            "1 r l av, 1 r, trekk den løse m over. Etter 2 slike fellinger er det 72 m igjen."
        ),
        [84, 84, 72],
    ),
    (
        "nb",
        54,
        (
            "Øk til 60 m på en omg r (øk etter hver 9. m).\n"
            "Strikk bobler eller et annet mønster som ikke endrer maskeantallet, 2 omg."
        ),
        [60, 60, 60],
    ),
    ("nb", 102, "Strikk 1 omg r, samtidig som m-tallet økes til 108 m.", [108]),
    ("nb", 102, "Bytt til p 4 og strikk 1 omg r, mens maskeantallet økes til 108 m.", [108]),
    ("da", 102, "Strik 1 omg r, samtidig med at masketallet øges til 108 m.", [108]),
    ("nb", 96, "Sett 6 merker.\nStrikk 3 r sm ved hvert merke (12 m felt).", [84]),
    ("nb", 60, "Luen felles i 10 felt.\nOmg 1: * 2 r sm, r til neste merke *. Rep. omg ut = 50 m", [50]),
    ("nb", 48, "Første omg er vr, resten av kanten (2 omg) strikkes 1 r, 1 vr.", [48, 48, 48]),
    ("nb", 70, "Strikk 2 omg r, som ruller seg til en kant.", [70, 70]),
    (
        "nb",
        70,
        (
            "Felling med 7 merketråder: På hver omg strikkes de 2 siste m før merket r sm.\n"
            "Gjør dette på 2 omg til, dvs. til m-tallet er 49."
        ),
        [63, 56, 49],
    ),
    ("nb", 88, "Omg 1: * 8 r, 1 dobbel felling *, gjenta (8 doble fellinger) = 72 m.", [72]),
    (
        "nb",
        96,
        (
            "Omg 1: * 2 vridd r sm, 20 r, 2 r sm *, gjenta = 88 m.\n"
            "Omg 2: r.\n"
            "Gjenta omg 1 og 2 (det blir 2 m mindre mellom fellingene hver gang) 1 gang til = 80 m.\n"
            "Fell så som på omg 1, men på hver omg, til 64 m gjenstår."
        ),
        [88, 88, 80, 80, 72, 64],
    ),
    (
        "nb",
        128,
        (
            "* 14 r, 2 vr sm * (120 m). Strikk 3 omg.\n"
            "Nå er mellomrommet 1 omg. Fortsett til det er 11 r mellom fellingene (96 m etter denne "
            "omg).\n"
            "Resten av fellingene gjøres på hver omg, til 80 m står igjen."
        ),
        [120, 120, 120, 120, 112, 112, 104, 104, 96, 88, 80],
    ),
    (
        "nb",
        84,
        (
            "Omg 1: * 1 kast, 1 r, 3 m r sm, 8 r * – hvert felt har mistet 1 m, 77 m.\n"
            "Omg 2: * 2 r sm, 9 r * – 70 m.\n"
            "Gå videre med 2 r sm først i hvert felt på hver omg.\n"
            "Når du har 49 m (7 i hvert felt), er det slutt."
        ),
        [77, 70, 63, 56, 49],
    ),
]


@pytest.mark.parametrize(("language", "stitches", "text", "after"), WHOLE)
def test_the_rounds_are_worked_as_told(language: str, stitches: int, text: str, after: list[int]) -> None:
    assert after_each_round(read(text, (stitches,), language)) == after


BY_ONE_LESS_NB = (
    "Fellingsomgang: *Strikk 8 rett, 2 rett sammen*, gjenta fra * til *.\nStrikk 1 omgang rett.\n"
)
BY_ONE_LESS_DA = "1. omg: Strik 8 m r og 2 m r sammen hele vejen rundt (72 m).\n2. og 3. omg: Strik ret.\n"

TO_A_ROUND = [
    # the plain rounds behind the last decreases are worked or not, as the text tells
    (
        "nb",
        BY_ONE_LESS_NB
        + "Gjenta disse 2 omgangene med 1 maske mindre mellom fellingene for hver gang, til du har 48 masker på pinnen "
        "etter siste fellingsomgang. Strikk 1 omgang rett.\nStrikk 2 og 2 masker rett sammen.",
        [72, 72, 64, 64, 56, 56, 48, 48, 24],
    ),
    (
        "nb",
        BY_ONE_LESS_NB
        + "Gjenta disse 2 omgangene med 1 maske mindre mellom fellingene for hver gang, til det etter en "
        "fellingsomgang er 48 masker igjen. Strikk 1 omgang rett.\nStrikk 2 og 2 masker rett sammen.",
        [72, 72, 64, 64, 56, 56, 48, 48, 24],
    ),
    (
        "da",
        BY_ONE_LESS_DA
        + "Disse 3 omg gentages med 1 m mindre før indtagningen for hver gang, til der er 56 m tilbage og de 2 omg "
        "ret efter den sidste indtagning også er strikket.\nStrik 2 og 2 m r sm.",
        [72, 72, 72, 64, 64, 64, 56, 56, 56, 28],
    ),
    (
        "da",
        BY_ONE_LESS_DA
        + "Disse 3 omg gentages med 1 m mindre før indtagningen for hver gang, til der er 56 m tilbage. Strik også "
        "de 2 omg ret efter sidste indtagning.\nStrik 2 og 2 m r sm.",
        [72, 72, 72, 64, 64, 64, 56, 56, 56, 28],
    ),
    # a round of those before, from here on alone
    (
        "nb",
        (
            "Sett 8 merker med 10 m mellom hvert merke.\n1. omg: *Strikk r til 2 m før merket, 2 r sm*, gjenta *–*.\n"
            "2. omg: Strikk r.\nStrikk 1. og 2. omg 2 ganger = 64 m.\nGjenta så bare 1. omg til det gjenstår 48 m."
        ),
        [72, 72, 64, 64, 56, 48],
    ),
    # decreases on a round of their own, which are then worked every so often
    (
        "da",
        (
            "Tag ind sådan på hver af de 4 p: 1 r, 2 dr r sm, strik til der er 3 m tilbage på p, 2 r sm, 1 r.\n"
            "Indtagningen laves på 1. omg og derefter på hver 3. omg 1 gang mere = 64 m, så på hver omg 2 gange = 48 m."
        ),
        [72, 72, 72, 64, 56, 48],
    ),
    (
        "da",
        (
            "Strik 8 r, 2 r sm hele vejen rundt. Næste omgang strikker du bare ret.\n"
            "Så tager du ind igen, men denne gang er der kun 7 masker ret før de 2, der strikkes sammen (64 masker).\n"
            "Bliv ved på samme måde med en omgang uden indtagninger og en omgang med, til du har 48 masker."
        ),
        [72, 72, 64, 64, 56, 56, 48],
    ),
    # a marker set within stars; decreases behind a marker in a sentence of their own; sections of an old book
    (
        "da",
        (
            "Sæt mærker således: * 10 m, 1 mærke *, gentag fra * omg ud = 8 mærker.\n"
            "Strik de 2 m før hvert mærke r sm på hver 2. omg i alt 2 gange = 64 m."
        ),
        [72, 72, 64],
    ),
    (
        "nb",
        (
            "Sett et merke ved omgangens begynnelse og deretter etter hver 20. m.\n"
            "Fell slik på annenhver omg: Når det gjenstår 2 m før merket, strikk 2 r sm. Rett etter merket: 1 m løs "
            "av, 1 r, trekk den løse m over.\n1. fellingsomg = 72 m. Fortsett til det gjenstår 56 m."
        ),
        [72, 72, 64, 64, 56],
    ),
    (
        "nb",
        (
            "Maskene deles i 4 like felt med 20 m i hvert.\nI begynnelsen av hvert felt løftes 1 m løs av, 1 m "
            "strikkes r, og den løftede m trekkes over. I slutten av feltet strikkes 2 r sm. Nå er det 72 m.\n"
            "Fell slik på hver tredje omg til det er 56 m igjen."
        ),
        [72, 72, 72, 64, 64, 64, 56],
    ),
    # both ends of a section in sentences of their own are of the same round
    (
        "da",
        (
            "De 80 masker deles i 4 lige store dele med 20 masker i hver.\n"
            "I begyndelsen af hver del strikkes 2 dr r sm. I slutningen af hver del strikkes 2 r sm.\n"
            "Gentag dette på hver 2. omg, til der er 56 m tilbage."
        ),
        [72, 72, 64, 64, 56],
    ),
    ("nb", "Fell 8 m jevnt fordelt. Gjenta dette på hver 3. omg til det er 64 m igjen.", [72, 72, 72, 64]),
]


@pytest.mark.parametrize(("language", "text", "counts"), TO_A_ROUND)
def test_rounds_end_where_the_text_tells(language: str, text: str, counts: list[int]) -> None:
    assert after_each_round(read(text, (80,), language)) == counts
