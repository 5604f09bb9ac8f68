"""Counts of a needle, shaping on every so many rounds and stitches of their own names, in six languages."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, worked

FEWER_BETWEEN = [
    ("da", ("Omg 1: *6 r, 2 r sm*. Omg 2: r.\n"
     "Fortsæt således med 1 m mindre mellem indtagningerne hver 2. omg 4 gange til.")),
    ("es", ("V 1: *6 d, 2jd*. V 2: d.\n"
     "Cont. así, con 1 p. menos entre las dism. cada 2ª vta, 4 veces más.")),
    ("fr", ("Tour 1 : *6 end, 2 m ens*. Tour 2 : end.\n"
     "Continuer ainsi, avec 1 m de moins entre les diminutions chaque 2e tour, encore 4 fois.")),
    ("nb", ("Omg 1: *6 r, 2 r sm*. Omg 2: r.\n"
     "Fortsett slik med 1 m mindre mellom fellingene hver 2. omg 4 ganger til.")),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), FEWER_BETWEEN)
def test_decreases_on_every_second_round_end_with_a_decrease(language: str, text: str) -> None:
    reading = read(text, (64,), language)
    assert not reading.findings
    assert after_each_round(reading) == [56, 56, 48, 48, 40, 40, 32, 32, 24]


TO_A_NEEDLE = [
    ("da", "Fordel m på 4 pinde med 16 m på hver p.", "Tag ind på hver omg, til der er 4 m tilbage på hver p."),
    ("en", "Divide the sts over 4 needles, 16 sts on each needle.", "Dec every rnd until 4 sts remain on each needle."),
    ("nb", "Fordel m på 4 p med 16 m på hver p.", "Fell hver omg til det er 4 m igjen på hver p."),
]  # fmt: skip


@pytest.mark.parametrize(("language", "divided", "until"), TO_A_NEEDLE)
def test_a_count_of_a_needle_is_that_of_needles_where_two_decreases_are_on_each(
    language: str, divided: str, until: str
) -> None:
    first = {"en": "Rnd 1: *k6, k2tog* around. 56 sts."}.get(
        language, "Omg 1: *6 r, 2 r sm* omg rundt. 56 m."
    )
    assert after_each_round(read(f"{divided}\n{first}\n{until}", (64,), language)) == [56, 48, 40, 32, 24, 16]


INCREASED = [
    ("en", "Next rnd: knit all sts and m1 after every 10 sts. 132 sts."),
    ("es", "En la vta siguiente tejer al derecho haciendo 1 aum. cada 10 p. 132 p."),
    ("es", "Vta sig.: tejer del der. aumentando 1 p cada 10 p (132 p)"),
    ("fr", "Au tr suivant, tric. à l'end. en faisant 1 augm. ttes les 10 m. On a 132 m."),
    ("fr", "Tour suivant : à l'endroit, en augmentant 1 m toutes les 10 m (132 m)."),
]


@pytest.mark.parametrize(("language", "text"), INCREASED)
def test_stitches_made_at_every_so_many_are_those_of_the_round_that_is_knitted(
    language: str, text: str
) -> None:
    assert after_each_round(read(text, (120,), language)) == [132]


SEVERAL = [
    ("da", "Omg 1: 8 dobbelte indtagninger (8 m)"),
    ("da", "Omg 1: 8 dobbelte overtrækninger (8 m)"),
    ("de", "1. Rd: 8 doppelte Überzüge (8 M)"),
    ("es", "V 1: 8 dism dobles (8 p)"),
    ("es", "V 1: 8 surjetes dobles (8 p)"),
    ("fr", "Tour 1 : 8 surjets doubles (8 m)"),
    ("nb", "Omg 1: 8 dobbelte overtrekk (8 m)"),
    ("nb", "Omg 1: 8 dobbeltfellinger (8 m)"),
    ("nl", "Toer 1: 8 dubbele overhalingen (8 st)"),
]


@pytest.mark.parametrize(("language", "text"), SEVERAL)
def test_several_decreases_are_named_in_the_plural(language: str, text: str) -> None:
    assert after_each_round(read(text, (24,), language)) == [8]


DEFINED = [
    (
        "da",
        "DI = tag 2 m løs af på én gang, som om de skulle strikkes r sm, strik 1 r, træk de 2 løse m over.",
    ),
    ("da", "DI = tag 1 m løs af, som om den skulle strikkes r, strik 2 r sm og træk den løse m over."),
    (
        "nb",
        "DI = ta 2 m løst av samtidig, som om de skulle strikkes r sm, strikk 1 r, trekk de 2 løse m over.",
    ),
]


@pytest.mark.parametrize(("language", "defined"), DEFINED)
def test_a_stitch_is_slipped_as_if_to_knit(language: str, defined: str) -> None:
    title = {"da": "Strik toppen med dobbelt indtagning (DI)", "nb": "Strikk toppen med dobbel felling (DI)"}[
        language
    ]
    times = {"da": "gange", "nb": "ganger"}[language]
    text = f"{title}\n{defined}\nOmg 1: *7 r, DI* 6 {times} [48 m]"
    assert after_each_round(read(text, (60,), language)) == [48]


MARKED = [
    ("da", "Sæt 6 mærker i arb med 14 m imellem. Strik 2 r sm efter hvert mærke = 78 m."),
    ("nb", "Sett 6 merker i arb. med 14 m mellom hvert. Strikk 2 r sm etter hvert merke = 78 m."),
]


@pytest.mark.parametrize(("language", "text"), MARKED)
def test_markers_placed_in_the_work_are_no_round(language: str, text: str) -> None:
    assert after_each_round(read(text, (84,), language)) == [78]


BETWEEN_MARKERS = [
    ("da", "Sæt 6 mærker med 6 m mellem hver. Omg 1: *4 r, 2 r sm*. Der er 30 m, mellem mærkerne er der 5 m."),
    ("de", ("Alle 6 M einen Markierer setzen. 1. Rd: *4 M re, 2 M re zusstr*. Es sind 30 M, zwischen zwei Markierern "
     "liegen 5 M.")),
    ("es", "Colocar 1 marcador cada 6 p. V 1: *4 d, 2jd*. Quedan 30 p, entre dos marcadores quedan 5 p."),
    ("fr", ("Placer un marqueur toutes les 6 m. Tour 1 : *4 end, 2 m ens*. Il reste 30 m, entre deux marqueurs il "
     "reste 5 m.")),
    ("nl", ("Plaats elke 6 st een markeerder. Toer 1: *4 r, 2 st samenbr*. Er zijn 30 st, tussen twee markeerders "
     "zitten nog 5 st.")),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text"), BETWEEN_MARKERS)
def test_stitches_between_two_markers_are_a_count_of_a_section(language: str, text: str) -> None:
    reading = read(text, (36,), language)
    assert not [finding for finding in reading.findings if finding.severity == "error"]
    assert after_each_round(reading) == [30]


TWO_PAIRS = [
    ("da", "På hver pind strikkes 9. og 10. samt 19. og 20. m r sm (72 m)."),
    ("de", "Auf jeder Nadel die 9. und 10. sowie die 19. und 20. M. r. zusammenstricken (72 M.)"),
    ("en", "On each needle, knit the 9th and 10th, and the 19th and 20th sts together (72 sts)."),
    ("es", "En cada aguja tejer juntos los puntos 9º y 10º y los 19º y 20º (72 p)."),
    ("fr", "Sur chaque aiguille tricoter les 9e et 10e m, ainsi que les 19e et 20e m ens. (72 m)"),
    ("nb", "På hver pinne strikkes 9. og 10. og 19. og 20. m r sm (72 m)"),
    ("nl", "Brei op elke naald de 9e en 10e en de 19e en 20e st samen (72 st)."),
]


@pytest.mark.parametrize(("language", "text"), TWO_PAIRS)
def test_two_pairs_of_stitches_are_knitted_together_on_each_needle(language: str, text: str) -> None:
    assert after_each_round(read(text, (80,), language)) == [72]


def test_pairs_need_not_be_at_equal_distances() -> None:
    text = "Rnd 1: knit every 3rd and 4th and 9th and 10th st together (64 sts)."
    assert worked(read(text, (80,), "en")) == [(80, 64, "*k2, k2tog, k4, k2tog; rep from * around")]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "V 1: *10 p. der., 2 p. juntos der.*, rep. de * a * 7 veces, term. con 8 p. der. (85 p)"),
        ("fr", "Tour 1 : *10 m. end., 2 m. ens. end.*, rép. de * à * 7 fois, term. par 8 m. end. (85 m)"),
    ],
)
def test_a_repeat_is_ended_with_plain_stitches_in_a_short_form(language: str, text: str) -> None:
    """Seven times in all come out: 7 x 12 + 8 = 92."""
    assert after_each_round(read(text, (92,), language)) == [85]
