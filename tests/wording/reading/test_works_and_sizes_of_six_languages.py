"""Stitches together, stitches in rib, plain rounds between and lines of some sizes, as printed in six languages."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, worked

TOGETHER = [
    ("de", "1. Rd: jede 5. und 6. M re zusstricken = 20 M."),
    ("de", "1. Rd: * 4 M re, 2 M re verschr zus.-str., ab * wdh = 20 M."),
    ("de", "1. Rd: * 2 M re, 2 M re zus.-stricken, 2 M re *, fortl = 20 M."),
    ("fr", "1er tour : *3 env, 3 ens env* jusqu'à la fin = 16 m."),
    ("es", "V 1: *3 d, 3jd* hasta el final = 16 p."),
    ("es", "V 1: *3 r, 3 jr* hasta el final = 16 p."),
    ("es", "V 1: *4 r, 2 jr* hasta el final = 20 p."),
    ("nb", "Omg 1: *3 r, 3 vr sm* omg rundt = 16 m."),
    ("da", "Omg 1: *3 r, 3sm* omg ud = 16 m."),
    ("nl", "Toer 1: *3 r, 3 av sam* herh = 16 st."),
]


@pytest.mark.parametrize(("language", "text"), TOGETHER)
def test_short_forms_of_stitches_together(language: str, text: str) -> None:
    assert after_each_round(read(text, (24,), language)) == [int(text.split()[-2])]


SECTIONS = [
    (
        "de",
        "1. Rd.: In jedem Teil die ersten 2 M. r. verschränkt zus.-str. und die letzten 2 M. r. zus.-str. = 108 M.",
    ),
    (
        "fr",
        "1er tour : dans chaque partie, tricoter les 2 premières m ens torse et les 2 dernières m ens à l'end = 108 m.",
    ),
    (
        "es",
        "V 1: en cada parte tejer los 2 primeros p juntos retorcidos y los 2 últimos p juntos der = 108 p.",
    ),
    ("nb", "Omg 1: I hver del strikkes de 2 første m vridd r sm og de 2 siste m r sm = 108 m."),
    ("da", "Omg 1: I hver del strikkes de 2 første m drejet r sm og de 2 sidste m r sm = 108 m."),
    (
        "nl",
        "Toer 1: In elk deel de eerste 2 st verdraaid samenbreien en de laatste 2 st r samenbreien = 108 st.",
    ),
]
DIVIDED = {
    "de": "Die Arbeit in 6 Teile zu je 20 M einteilen.",
    "fr": "Diviser en 6 parties de 20 m.",
    "es": "Dividir en 6 partes de 20 p.",
    "nb": "Del arbeidet i 6 deler à 20 m.",
    "da": "Del arbejdet i 6 dele à 20 m.",
    "nl": "Verdeel het werk in 6 delen van 20 st.",
}


@pytest.mark.parametrize(("language", "text"), SECTIONS)
def test_two_stitches_are_taken_together_at_both_ends_of_a_section(language: str, text: str) -> None:
    """Through their back loops they lean to the left, as ssk does (common practice)."""
    rounds = worked(read(f"{DIVIDED[language]}\n{text}", (120,), language))
    assert rounds == [(120, 108, "*ssk, k16, k2tog; rep from * around")]


IN_RIB = [
    ("de", "1. Rd: * 3 M re zusstr, 9 M im Rippenmuster *. Es bleiben 80 M."),
    ("de", "1. Rd: * 3 M re zusstr, 9 M gerippt *. Es bleiben 80 M."),
    ("fr", "1er tour : * 3 m. ens. à l'end., 9 m. en côtes *. Il reste 80 m."),
    ("fr", "1er tour : * 3 m ens à l'end, 9 m de côtes, rép de * tout le tour."),
    ("es", "V 1: *3 p juntos der, 9 p en elástico*. Quedan 80 p."),
    ("es", "V 1: *3 p juntos der, tejer 9 p en canalé; rep desde *. 80 p"),
    ("nb", "Omg 1: *3 r sm, 9 m i vrangbord* omg rundt. 80 m"),
    ("da", "Omg 1: *3 r sm, strik 9 m rib* omg ud. 80 m"),
    ("nl", "Toer 1: *3 st r samenbreien, 9 st in boordsteek*; herhaal. 80 st"),
]


@pytest.mark.parametrize(("language", "text"), IN_RIB)
def test_so_many_stitches_in_rib_stand_in_a_repeat(language: str, text: str) -> None:
    assert after_each_round(read(text, (96,), language)) == [80]


HEADED = [
    ("de", "Mütze – 88 M im Bündchenmuster 2/2\n1. Rd: stets 2 M zus = 44 M"),
    ("fr", "Bonnet – 88 m en côtes 2/2\n1er tour : 2 m ens tout le tour = 44 m"),
    ("es", "Gorro – 88 p en elástico 2x2\nV. 1: [2 jd] hasta el final. 44 p"),
    ("nb", "Lue – 88 m vrangbord 2x2\nOmg 1: 2 r sm omg rundt = 44 m"),
    ("da", "Hue – 88 m rib 2x2\nOmg 1: 2 r sm omg rundt = 44 m"),
    ("nl", "Muts – 88 st in boordsteek 2x2\nToer 1: 2 samen hele toer = 44 st"),
]


@pytest.mark.parametrize(("language", "text"), HEADED)
def test_the_stitches_of_a_rib_in_a_heading_are_not_worked(language: str, text: str) -> None:
    assert after_each_round(read(text, (88,), language)) == [44]


ADULTS = [
    (
        "de",
        (
            "Gr. Kind (Erwachsene)\n1. Rd: (4 (5) M re, 2 M re zus) 8x = 40 (48) M\n"
            "Nur Gr. Erwachsene: (4 M re, 2 M re zus) 8x = 40 M"
        ),
    ),
    (
        "fr",
        (
            "Taille enfant (adulte)\n1er tour : (4 (5) m end, 2 m ens) 8 fois = 40 (48) m\n"
            "Taille adulte uniquement : (4 m end, 2 m ens) 8 fois = 40 m"
        ),
    ),
    (
        "fr",
        "T1 : *4 (5) m end, 2 m ens* – 40 (48) m\nGrande taille seulement, T2 : *4 end, 2 ens* – 40 m",
    ),
    (
        "es",
        "Talla niño (adulto)\nV1: (4 (5) d, 2 jd) 8 veces = 40 (48) p\nSolo talla adulto: (4 d, 2 jd) 8 veces = 40 p",
    ),
    (
        "nb",
        "Str. barn (voksen)\nOmg 1: (4 (5) r, 2 r sm) × 8 – 40 (48) m\nKun str. voksen: (4 r, 2 r sm) × 8 – 40 m",
    ),
    (
        "da",
        "Str. barn (voksen)\nOmg 1: (4 (5) r, 2 r sm) × 8 – 40 (48) m\nKun str. voksen: (4 r, 2 r sm) × 8 – 40 m",
    ),
    (
        "nl",
        (
            "Maat kind (volwassene)\nToer 1: (4 (5) r, 2 r samen) 8 keer = 40 (48) st\n"
            "Alleen maat volwassene: (4 r, 2 r samen) 8 keer = 40 st"
        ),
    ),
]


@pytest.mark.parametrize(("language", "text"), ADULTS)
def test_a_line_is_for_the_size_of_adults(language: str, text: str) -> None:
    assert after_rounds_of_sizes(read(text, (48, 56), language)) == [[40], [48, 40]]


CHARTS = [
    ("de", "Danach das Zählmuster str: 8 Rapporte à 12 M, 4 Rd hoch."),
    ("de", "Nach der Strickschrift arbeiten: 8 Rapporte zu je 12 M, 4 Rd hoch."),
    ("fr", "Tricoter ensuite la grille : 8 rapports de 12 m, 4 tours en hauteur."),
    ("es", "Tejer luego el gráfico: 8 repeticiones de 12 p, 4 vtas de alto."),
    ("nb", "Strikk deretter diagrammet: 8 rapporter à 12 m, 4 omg i høyden."),
    ("da", "Strik derefter diagrammet: 8 rapporter à 12 m, 4 omg i højden."),
    ("nl", "Brei daarna het telpatroon: 8 herhalingen van 12 st, 4 toeren hoog."),
]


@pytest.mark.parametrize(("language", "text"), CHARTS)
def test_a_chart_is_as_many_rounds_as_it_is_high(language: str, text: str) -> None:
    assert after_each_round(read(text, (96,), language)) == [96, 96, 96, 96]


BETWEEN = [
    ("de", "1. Rd: stets 2 M re zus.\n3. Rd: stets 2 M re zus.\nAlle dazwischenliegenden Rd re str."),
    ("nb", "1. omg: 2 r sm omg rundt.\n3. omg: 2 r sm omg rundt.\nDe mellomliggende omg strikkes rett."),
    ("da", "1. p.: 2 sm. pinden rundt.\n3. p.: 2 sm. pinden rundt.\nDe mellemliggende p. strikkes ret."),
    (
        "nl",
        "1e toer: 2 samen hele toer.\n3e toer: 2 samen hele toer.\nBrei alle tussenliggende toeren recht.",
    ),
]


@pytest.mark.parametrize(("language", "text"), BETWEEN)
def test_the_rounds_between_are_plain(language: str, text: str) -> None:
    assert after_each_round(read(text, (96,), language)) == [48, 48, 24]
