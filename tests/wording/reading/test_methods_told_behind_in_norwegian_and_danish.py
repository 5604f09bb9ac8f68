"""A decrease at markers or sections told by its number and then by its method, in Norwegian, Danish and English."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

MARKERS = {
    "en": "Place 6 markers, 12 sts apart.",
    "nb": "Sett 6 merker med 12 m mellom hvert merke.",
    "da": "Sæt 6 mærker med 12 m mellem hvert mærke.",
    "de": "6 Markierer setzen, je 12 M Abstand.",
    "fr": "Placer un marqueur toutes les 12 mailles.",
}
METHODS = [
    ("en", "Dec 1 st at each marker: k2tog after the marker."),
    ("en", "At each marker dec 1 st by working ssk before the marker."),
    ("en", "At all markers dec 1 st (k2tog before the marker)."),
    ("en", "At each marker dec 1 st by k2tog."),
    ("en", "Dec at each marker by working k2tog after the marker = 66 sts."),
    ("nb", "Fell 1 m ved hvert merke ved å strikke 2 vridd r sm etter merket (= 66 m)."),
    ("nb", "Fell 1 m ved alle merkene: Strikk 2 r sm før merket = 66 m."),
    ("nb", "Ved hvert merke felles 1 m ved at 2 m strikkes rett sammen."),
    ("da", "Der tages 1 m ind ved hvert mærke ved at strikke 2 ret sammen før mærket."),
    ("da", "Ved hvert mærke tages 1 m ind, idet 2 m strikkes r sm efter mærket."),
    ("de", "An jedem Markierer 1 M abnehmen, dafür 2 M rechts zusammenstricken."),
    ("fr", "Diminuer 1 m à chaque marqueur en tricotant 2 m ens à l'endroit après le marqueur."),
]


@pytest.mark.parametrize(("language", "text"), METHODS)
def test_a_method_told_behind_the_decrease_is_the_same_decrease(language: str, text: str) -> None:
    assert after_each_round(read(f"{MARKERS[language]}\n{text}", (72,), language)) == [66]


@pytest.mark.parametrize(
    "text",
    [
        "Dec 2 sts at each marker: k2tog before the marker, ssk after the marker.",
        "Dec 2 sts at each marker: k2tog before and ssk after marker.",
    ],
)
def test_two_decreases_at_each_marker_stay_two(text: str) -> None:
    """The neighbours: a stitch on each side of six markers."""
    assert after_each_round(read(f"{MARKERS['en']}\n{text}", (72,))) == [60]


SECTIONS = [
    ("nb", "Maskene deles i 5 felter à 14 (16) m. På slutten av hvert felt strikkes 2 r sm."),
    ("nb", "Maskene deles i 5 felter à 14 (16) m. I slutten av hvert felt 2 r sm = 65 (75) m."),
    ("nb", "Omgangen deles i 5 deler à 14 (16) m. Ved slutten av hver del felles 1 m."),
    ("da", "Maskerne deles i 5 felter à 14 (16) m. Ved slutningen af hvert felt strikkes 2 r sm."),
]


@pytest.mark.parametrize(("language", "text"), SECTIONS)
def test_a_decrease_at_the_end_of_every_section_is_read(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (70, 80), language)) == [[65], [75]]


LEFT = [
    ("nb", "Strikk 7 omganger rett. Så er det bare fellingen igjen!\nOmgang 1: *5 rett, 2 rett sammen*"),
    ("nb", "Strikk 7 omganger rett. Nå er det bare fellingene igjen.\nOmgang 1: *5 rett, 2 rett sammen*"),
    ("da", "Strik 7 omgange ret. Så er der kun indtagningen tilbage!\nOmgang 1: *5 ret, 2 ret sammen*"),
    ("de", "7 Rd rechts. Jetzt fehlen nur noch die Abnahmen!\n1. Rd: *5 M re, 2 M re zusstr*"),
]


@pytest.mark.parametrize(("language", "text"), LEFT)
def test_words_about_the_decreases_that_are_left_work_no_round(language: str, text: str) -> None:
    assert after_each_round(read(text, (70,), language)) == [70] * 7 + [60]


SIDES = [
    ("en", "At each of the 6 markers: k2tog before the marker and ssk after the marker."),
    ("en", "K2tog before the marker and ssk after the marker."),
    ("nb", "Ved hvert av de 6 merkene: 2 r sm før merket og 2 vridd r sm etter merket."),
]


@pytest.mark.parametrize(("language", "text"), SIDES)
def test_both_sides_of_the_marker_are_those_of_every_marker(language: str, text: str) -> None:
    assert after_each_round(read(f"{MARKERS[language]}\n{text}", (72,), language)) == [60]


AGAIN = [
    ("en", "Knit to last 2 sts of section, k2tog. Repeat in each section."),
    ("da", "Strik til der er 2 m tilbage i feltet, 2 r sm. Gentag i alle felter."),
]


@pytest.mark.parametrize(("language", "text"), AGAIN)
def test_what_is_repeated_in_each_section_is_its_work_once(language: str, text: str) -> None:
    parted = {"en": "Divide in 6 sections of 12 sts.", "da": "Inddel i 6 felter på 12 m."}
    assert after_each_round(read(f"{parted[language]}\n{text}", (72,), language)) == [66]
