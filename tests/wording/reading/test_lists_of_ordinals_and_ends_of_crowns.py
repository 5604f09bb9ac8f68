"""Ordinals listed for the sizes, and the end of a crown in a sentence of its own."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts

MARKERS = [
    ("nb", "Sett 1 merke etter hver 10. (11., 12.) m.", "Fell 1 m på hver side av hvert merke."),
    ("nb", "Sett et merke for hver (10.) 11. (12.) m.", "Fell 1 m på hver side av hvert merke."),
    ("nb", "Sett et merke for hver 10./11./12. m.", "Fell 1 m på hver side av hvert merke."),
    ("da", "Sæt et mærke for hver 10. (11.) 12. m.", "Tag 1 m ind på hver side af hvert mærke."),
]


@pytest.mark.parametrize(("language", "markers", "decreases"), MARKERS)
def test_markers_stand_at_ordinals_listed_for_all_sizes(language: str, markers: str, decreases: str) -> None:
    reading = read(f"{markers}\n{decreases}", (80, 88, 108), language)
    assert after_rounds_of_sizes(reading) == [[64], [72], [90]]


PAIRS = [
    ("de", "Jede 9. (10., 11.) und 10. (11./12.) M re zusstr."),
    ("nb", "Strikk hver 9. (10.) 11. og 10. (11.) 12. m sammen."),
    ("nl", "Brei elke 9e (10e, 11e) en 10e (11e, 12e) st recht samen."),
]


@pytest.mark.parametrize(("language", "text"), PAIRS)
def test_pairs_by_ordinals_listed_for_all_sizes_are_knitted_together(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (80, 88, 96), language)) == [[72], [80], [88]]


def test_ordinals_with_slashes_before_the_word_for_a_round_are_rounds() -> None:
    reading = read("1./2. omg: *8 r, 2 r sm*.", (100, 100), "nb")
    assert after_rounds_of_sizes(reading) == [[90, 81], [90, 81]]


ENDS = [
    (
        "en",
        "8 sections of 8 sts.\nK2tog at the end of each section on every rnd.\nStop when 16 sts remain, cut yarn.",
    ),
    (
        "nb",
        "8 deler à 8 m.\nStrikk de 2 siste m i hvert felt r sm på hver omg.\nNår 16 m er igjen, brytes tråden.",
    ),
    (
        "da",
        "8 dele à 8 m.\nStrik de 2 sidste m i hvert felt r sm på hver omg.\nNår der er 16 m tilbage, klip garnet.",
    ),
    (
        "de",
        (
            "8 Felder mit je 8 M.\nIn jeder Rd die letzten 2 M in jedem Feld re zusstr.\n"
            "Wenn nur noch 16 M übrig sind, den Faden abschneiden."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), ENDS)
def test_the_end_of_a_crown_stands_in_a_line_of_its_own(language: str, text: str) -> None:
    assert after_each_round(read(text, (64,), language)) == [*range(56, 15, -8)]


CHANGES = [
    ("nb", "på hver omg til det er 8 m igjen.\nNår det er 40 m igjen, bytt til settpinner."),
    ("nb", "på hver omg til det er 8 m igjen.\nNår 40 m gjenstår, skift til settpinner."),
]


@pytest.mark.parametrize(("language", "text"), CHANGES)
def test_needles_changed_at_a_count_do_not_end_a_crown(language: str, text: str) -> None:
    reading = read(f"8 deler à 8 m.\nStrikk de 2 siste m i hvert felt r sm {text}", (64,), language)
    assert after_each_round(reading) == [*range(56, 7, -8)]


BETWEEN = [
    (
        "nb",
        (
            "8 felt à 14 m.\nTa inn 1 m i hvert felt ved å strikke de 2 siste m r sm. "
            "Strikk 2 omg mellom inntakningene.\nEtter 6 inntakninger er det 64 m på p, "
            "og fra nå av tas det inn på hver omg.\nNår 16 m er igjen, brytes tråden."
        ),
    ),
    (
        "da",
        (
            "8 felter à 14 m.\nTag 1 m ind i hvert felt ved at strikke de 2 sidste m r sm. "
            "Strik 2 omg mellem indtagningerne.\nEfter 6 indtagninger er der 64 m på p, "
            "og fra nu af tages der ind på hver omg.\nNår 16 m er tilbage, brydes garnet."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), BETWEEN)
def test_rounds_between_are_worked_up_to_the_count_after_so_many_decreases(language: str, text: str) -> None:
    slow = [count for count in range(104, 71, -8) for _ in range(3)]
    assert after_each_round(read(text, (112,), language)) == [*slow, *range(64, 15, -8)]


ROUNDS = [
    (
        "nb",
        (
            "Fell (8 r, 2 r sm) 8 ganger på 1. omg, dvs. 8 m felt = 72 m.\n"
            "Fell videre over de forrige fellingene: (7 r, 2 r sm) på 3. omg = 64 m, (6 r, 2 r sm) på 5. omg = 56 m. "
            "Omg mellom strikkes r.\n"
            "Strikk 6. omg r. Fra og med 7. omg felles det på hver omg til 8 m gjenstår på 12. omg."
        ),
    ),
    (
        "da",
        (
            "Tag ind (8 r, 2 r sm) 8 gange på 1. omg, dvs. 8 m indtaget = 72 m.\n"
            "Tag videre ind over de forrige indtagninger: (7 r, 2 r sm) på 3. omg = 64 m, "
            "(6 r, 2 r sm) på 5. omg = 56 m. Omg imellem strikkes r.\n"
            "Strik 6. omg r. Fra og med 7. omg tages der ind på hver omg til der er 8 m tilbage på 12. omg."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), ROUNDS)
def test_the_number_of_a_round_stands_behind_its_work(language: str, text: str) -> None:
    assert after_each_round(read(text, (80,), language)) == [72, 72, 64, 64, 56, 56, *range(48, 7, -8)]


MARKED = [
    (
        "nb",
        (
            "4 merketråder med 20 (22) m mellom.\nFellinger: * strikk til 3 m før merketråden, 2 r sm, 2 r "
            "(merketråden er midt mellom disse 2 m), 2 vridd r sm *, gjenta ved alle merketrådene = 8 m felt."
        ),
    ),
    (
        "da",
        (
            "4 mærketråde med 20 (22) m imellem.\nIndtagninger: * strik til 3 m før mærketråden, 2 r sm, 2 r "
            "(mærketråden er midt imellem disse 2 m), 2 drejet r sm *, gentag ved alle mærketrådene = 8 m mindre."
        ),
    ),
    (
        "nb",
        "8 merker med 10 (11) m mellom.\nNå felles det 1 m på høyre side av alle merkene (2 r sm før merket).",
    ),
    (
        "da",
        "8 mærker med 10 (11) m imellem.\nNu tages der 1 m ind på højre side af alle mærker (2 r sm før mærket).",
    ),
    ("nb", "8 merker med 10 (11) m mellom.\nFell 1 m etter hvert merke ved å strikke 2 m r sammen."),
    ("nb", "8 merker med 10 (11) m mellom.\nFell 1 m like etter hver merketråd, slik: 1 r, 2 r sm."),
]


@pytest.mark.parametrize(("language", "text"), MARKED)
def test_where_at_the_marker_the_decrease_stands(language: str, text: str) -> None:
    assert counts(read(text, (80, 88), language)) == [[80, 72], [88, 80]]


RHYTHMS = [
    (
        "nb",
        (
            "1. omg: * 9 r, 2 r sm *.\nFell videre på samme måte, men nå på annenhver omgang, "
            "til det gjenstår 64 m på pinnen.\nStrikk så 2 omg der alle m strikkes r sm 2 og 2 = 16 m."
        ),
    ),
    (
        "da",
        (
            "1. omg: * 9 r, 2 r sm *.\nTag videre ind på samme måde, men nu på hveranden omgang, "
            "til der er 64 m tilbage på pinden.\nStrik så 2 omg hvor alle m strikkes r sm 2 og 2 = 16 m."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), RHYTHMS)
def test_a_crown_goes_on_with_another_rhythm_to_a_count_on_the_needle(language: str, text: str) -> None:
    reading = read(text, (88,), language)
    assert counts(reading) == [[88, 80, 72, 64, 32, 16]]


UNNUMBERED = [
    (
        "en",
        (
            "*k3, k2tog*, rep from * around. Rnd 3: *k2, k2tog*. Rnd 5: *k1, k2tog*. Rnds 2 and 4: knit.\n"
            "Rnd 6: k2tog around."
        ),
    ),
    (
        "nb",
        (
            "* Strikk 3 r, 2 r sm *, gjenta *-* = 48 m, * strikk 2 r, 2 r sm * på 3. omg = 36 m, "
            "* strikk 1 r, 2 r sm * på 5. omg = 24 m. "
            "2. og 4. omg: r.\nStrikk 2 r sm rundt på 6. omg (12 m)."
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), UNNUMBERED)
def test_a_round_named_behind_stands_after_a_first_round_without_a_number(language: str, text: str) -> None:
    assert after_each_round(read(text, (60,), language)) == [48, 48, 36, 36, 24, 12]


@pytest.mark.parametrize("ordinals", ["12th (14th)", "12th [14th]", "12th(14th)"])
def test_ordinals_in_brackets_are_those_of_other_sizes(ordinals: str) -> None:
    """Of every size a round is read, also where all stands in one line."""
    text = f"Mark the 6th (7th) and every {ordinals} st after that. Next rnd: k2tog around."
    assert after_rounds_of_sizes(read(text, (96, 112), "en")) == [[48], [56]]


def test_a_rhythm_has_an_ordinal_for_every_size() -> None:
    text = "Dec rnd: *k10 (12), k2tog; rep from * around. In this manner dec every 4th (5th) rnd once more."
    assert counts(read(text, (96, 112), "en")) == [[96, 88, 80], [112, 104, 96]]


@pytest.mark.parametrize("dash", ["-", "–"])
def test_ordinals_printed_with_full_stops_are_a_span_of_rounds(dash: str) -> None:
    text = "1. [k10, k2tog] x 7 (77 sts)\n2. knit\n"
    text += f"3.{dash}5. dec every rnd with 1 st less between decreases each time (56 sts)."
    assert after_each_round(read(text, (84,), "en")) == [77, 77, 70, 63, 56]
    assert not read(text, (84,), "en").findings
