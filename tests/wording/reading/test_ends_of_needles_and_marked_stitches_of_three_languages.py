"""Decreases at both ends of a needle, marked stitches, and the end of the round, in Danish, Norwegian and Dutch.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

BOTH_ENDS = [
    ("da", "2 r sm i begyndelsen og 2 dr r sm i slutningen af hver pind"),
    ("da", "Strik 2 r sm i starten og 2 dr r sm i slutningen af hver pind"),
    ("da", "2 r sm først og 2 dr r sm sidst på hver pind"),
    ("da", "På hver pind strikkes 2 r sm i begyndelsen og 2 dr r sm i slutningen"),
    ("da", "I begyndelsen af hver pind strikkes 2 r sm og i slutningen 2 dr r sm"),
    ("da", "2 r sm i begyndelsen og i slutningen af hver pind"),
    ("nb", "2 r sm i begynnelsen og 2 vridd r sm på slutten av hver pinne"),
    ("nb", "2 r sm først og 2 vridd r sm sist på hver pinne"),
    ("nb", "På hver pinne strikkes 2 r sm i begynnelsen og 2 vridd r sm på slutten"),
]


@pytest.mark.parametrize(("language", "words"), BOTH_ENDS)
def test_each_needle_loses_a_stitch_at_both_ends(language: str, words: str) -> None:
    needles = {"da": "80 m, 20 m på hver pind.", "nb": "80 m, 20 m på hver pinne."}[language]
    assert after_each_round(read(f"{needles}\nOmg 1: {words} = 72 m.", (80,), language)) == [72]


AROUND = [
    ("da", "2 r sm, 1 vr omg rundt"),
    ("da", "2 r sm, 1 vr omgangen ud"),
    ("da", "2 r sm, 1 r omg igennem"),
    ("nb", "2 r sm, 1 vr omgangen ut"),
    ("nb", "2 r sm, 1 r omg rundt"),
]


@pytest.mark.parametrize(("language", "words"), AROUND)
def test_the_last_stitch_before_the_end_of_the_round_is_no_round(language: str, words: str) -> None:
    """23 repeats of three stitches."""
    assert after_each_round(read(f"Omg 1: {words} (46 m).", (69,), language)) == [46]


def test_so_many_rounds_stay_rounds() -> None:
    """`3 r omg` without an end."""
    assert after_each_round(read("Omg 1: 2 r sm, 1 vr omg rundt.\nStrik 3 r omg.", (69,), "da")) == [46] * 4


MARKED = [
    (
        "da",
        (
            "Sæt en lille markør direkte i maske nr. 7, 21, 35, 49, 63 og 77. Det er midtermaskerne.\n"
            "Omg 1: *strik r til 1 m før midtermasken, 1 dobbelt indtagning*, 6 gange, strik r omgangen ud = 72 m."
        ),
    ),
    (
        "da",
        (
            "Sæt en markør i den 7. m og herefter i hver 14. m, i alt 6 markørmasker.\n"
            "Omg 1: *strik r til 1 m før markørmasken, 1 dobbelt indtagning*, gentag *-* 6 gange, r omg ud. (72 m)"
        ),
    ),
    (
        "nb",
        (
            "Sett et merke i den 7. m og deretter i hver 14. m, i alt 6 merkede m.\n"
            "Omg 1: *strikk r til 1 m før midtmasken, 1 dobbeltfelling*, gjenta *-* 6 ganger, strikk r omg ut. (72 m)"
        ),
    ),
    (
        "nl",
        (
            "Markeer de 7e, 21e, 35e, 49e, 63e en 77e st van de 84 st.\n"
            "Mindertoer: brei r en haal bij elke gemarkeerde st de st ervoor samen met de gemarkeerde st r af, "
            "brei de volgende st r en haal de 2 afgehaalde st over (= 12 st minder, 72 st over)."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), MARKED)
def test_every_marked_stitch_is_the_middle_of_a_double_decrease(language: str, text: str) -> None:
    assert after_each_round(read(text, (84,), language)) == [72]


IN_TURN = [
    (
        "da",
        (
            "Du har 40 masker på pinden, og nu skal vi tage ind 8 steder.\n"
            "1. omgang: Strik 3 ret, 2 ret sammen, og bliv ved omgangen rundt. Nu har du 32 masker.\n"
            "2. omgang: Strik ret.\n"
            "Fortsæt på samme måde, en omgang med indtagning og en uden, til du er nede på 16 masker."
        ),
    ),
    (
        "nb",
        (
            "Du har 40 masker på pinnen, og nå skal vi felle 8 steder.\n"
            "1. omgang: Strikk 3 rett, 2 rett sammen omgangen rundt. Nå har du 32 masker.\n"
            "2. omgang: Strikk rett.\n"
            "Fortsett på samme måte, en omgang med felling og en uten, til du er nede i 16 masker."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), IN_TURN)
def test_rounds_with_a_decrease_and_without_one_take_turns(language: str, text: str) -> None:
    """The places that are told before the rounds work nothing themselves."""
    assert after_each_round(read(text, (40,), language)) == [32, 32, 24, 24, 16]


COUNTED = [
    (
        "nb",
        (
            "Sett 4 merker med 24 m mellom hvert merke.\n"
            "Fell 1 m på hver side av alle merkene slik: Strikk til det gjenstår 2 m før merket, strikk 2 r sm, "
            "flytt merket, ta 1 m løst av p, 1 r, trekk den løse m over = 8 m felt.\n"
            "Fell slik på annenhver omg i alt 2 ganger (4 omg) = 80 m."
        ),
        96,
        [88, 88, 80, 80],
    ),
    (
        "nb",
        "Sett 8 merker.\nStrikk 2 r sm før hvert merke på annenhver omg i alt 6 ganger = 32 m.",
        80,
        [72, 72, 64, 64, 56, 56, 48, 48, 40, 40, 32],
    ),
    (
        "nb",
        (
            "Strikk 1 omg r og sett samtidig et merke i 11., 33., 55. og 77. m (= merkem).\n"
            "Felleomg: * Strikk r til 1 m før merkem, ta 2 m sammen løst av som om de skulle strikkes r sm, 1 r, "
            "trekk de løse m over *, gjenta *-* i alt 4 ganger, strikk r ut omg = 80 m."
        ),
        88,
        [88, 80],
    ),
    ("nb", "Omg 1: *4 r, fell 2 m, 5 r*, gj *-* 6 ganger. = 60 m.", 72, [60]),
    (
        "nb",
        (
            "Strikk 1 omg r, samtidig økes det slik: *10 r, øk 1 m ved å løfte tråden mellom 2 m og strikke den "
            "vridd r, 2 r*, gjenta *-* i alt 9 ganger."
        ),
        108,
        [117],
    ),
    ("da", "Lukning af huen (60 m, tykt garn, p 8)\n1. omg: (8 r, 2 r sammen) x 6. 54 m.", 60, [54]),
    (
        "da",
        (
            "Der er sat 8 markører i arbejdet med 12 m imellem.\n"
            "Indtagningsomgang: *Strik ret til 2 m før markøren, strik 2 ret sammen, flyt markøren*, gentag fra * "
            "til * omgangen ud (8 m taget ind)."
        ),
        96,
        [88],
    ),
    (
        "nl",
        (
            "*9 st r, 1 dubbele overhaling*, van * tot * 6 x breien = 60 st. 1 toer r.\n"
            "Zo doorgaan in elke 2e toer, steeds 2 st minder tussen de overhalingen, tot er 36 st over zijn. "
            "1 toer r.\n"
            "Dan nog 2 toeren achter elkaar zo minderen = 12 st."
        ),
        72,
        [60, 60, 48, 48, 36, 36, 24, 12],
    ),
    ("nl", "1e toer: *8 r, 2 r sbr; herhaal vanaf * tot het einde. [90 st]", 100, [90]),
]


@pytest.mark.parametrize(("language", "text", "count", "after"), COUNTED)
def test_decreases_of_a_crown_are_worked_as_often_as_is_told(
    language: str, text: str, count: int, after: list[int]
) -> None:
    answer = read(text, (count,), language)

    assert not [finding for finding in answer.findings if finding.severity == "error"]
    assert after_each_round(answer) == after


IN_ALL = [
    (
        (
            "1. omg: *10 r, 2 r sm*, gentag fra *-* omg rundt (88 m).\n2. omg: r.\n"
            "3. omg: *9 r, 2 r sm*, gentag fra *-* omg rundt (80 m).\n4. omg: r.\n"
            "Herefter tages der 8 m ind på hver omg i alt 10 gange, så der er 8 m tilbage."
        ),
        "Herefter tages der 8 m ind på hver omg i alt 9 gange, så der er 8 m tilbage.",
    ),
    (
        (
            "Toppen (96 m, 8 mærker med 12 m imellem)\n"
            "Indtagningsomg: *strik til 2 m før mærket, 2 r sm*, gentag omg ud (8 m taget ind).\n"
            "Næste omg: strik ret.\n"
            "Gentag disse 2 omg 5 gange mere = 56 m.\n"
            "Strik derefter kun indtagningsomg, i alt 6 gange = 8 m."
        ),
        "Gentag disse 2 omg 4 gange mere = 56 m.",
    ),
]


@pytest.mark.parametrize(("text", "repair"), IN_ALL)
def test_decreases_between_plain_rounds_are_none_of_those_on_every_round(text: str, repair: str) -> None:
    """`On every round, 9 times in all` counts from the first of two decrease rounds without a plain one between."""
    errors = [finding for finding in read(text, (96,), "da").findings if finding.severity == "error"]

    assert [finding.repair for finding in errors] == [repair]
