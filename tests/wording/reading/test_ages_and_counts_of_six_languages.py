"""Sizes by their ages, stitches fewer behind a decrease, spans of rounds and counts that are left, in six languages."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, errors

AGES = [
    (
        "en",
        "DECREASES - 6-12 months (2-4 years) 6-8 years",
        "6-8 years only: *k9, k2tog*, knit 1 rnd. 80 sts",
        "2-4 years and 6-8 years: *k8, k2tog*, knit 1 rnd. 72 sts",
        "All sizes: *k7, k2tog* 64 sts",
    ),
    (
        "fr",
        "DIMINUTIONS – 6-12 mois (2-4 ans) 6-8 ans",
        "Pour la taille 6-8 ans : *9 m end, 2 m ens end*, 1 tour end. 80 m",
        "2-4 et 6-8 ans uniquement : *8 m end, 2 m ens end*, 1 tour end. 72 m",
        "Toutes les tailles : *7 m end, 2 m ens end* 64 m",
    ),
    (
        "de",
        "Abnahmen: 6-12 Mon. (2-4 J.) 6-8 J.",
        "Nur 6-8 J.: *9 M re, 2 M re zus*, 1 Rd re. 80 M",
        "Nur 2-4 J. und 6-8 J.: *8 M re, 2 M re zus*, 1 Rd re. 72 M",
        "Alle Größen: *7 M re, 2 M re zus* 64 M",
    ),
    (
        "es",
        "Disminuciones: 6-12 meses (2-4, 6-8 años)",
        "6-8 años solamente: *9 p der, 2 p juntos der*, 1 vuelta del derecho. 80 p",
        "Para las tallas 2-4 y 6-8 años: *8 p der, 2 p juntos der*, 1 vuelta del derecho. 72 p",
        "Todas las tallas: *7 p der, 2 p juntos der* 64 p",
    ),
    (
        "nb",
        "Str 6-12 mnd (2-4 år) 6-8 år",
        "Kun str 6-8 år: *9 r, 2 r sm*, 1 omg r. 80 m",
        "Str 2-4 og 6-8 år: *8 r, 2 r sm*, 1 omg r. 72 m",
        "Alle størrelser: *7 r, 2 r sm* 64 m",
    ),
    (
        "da",
        "INDTAGNINGER – 6-12 mdr (2-4 år) 6-8 år",
        "Kun 6-8 år: *9 r, 2 r sm*, 1 omg r. 80 m",
        "2-4 år og 6-8 år: *8 r, 2 r sm*, 1 omg r. 72 m",
        "Alle størrelser: *7 r, 2 r sm* 64 m",
    ),
    (
        "nl",
        "Maten 6-12 maanden (2-4 jaar) 6-8 jaar",
        "Alleen maat 6-8 jaar: *9 r, 2 r samen*, 1 toer r. 80 st",
        "Maten 2-4 en 6-8 jaar: *8 r, 2 r samen*, 1 toer r. 72 st",
        "Alle maten: *7 r, 2 r samen* 64 st",
    ),
]


@pytest.mark.parametrize(("language", "sizes", "largest", "larger", "everybody"), AGES)
def test_spans_of_ages_are_sizes_whose_list_may_stand_in_any_line(
    language: str, sizes: str, largest: str, larger: str, everybody: str
) -> None:
    reading = read(f"{sizes}\n{largest}\n{larger}\n{everybody}", (72, 80, 88), language)
    assert after_rounds_of_sizes(reading) == [[64], [72, 72, 64], [80, 80, 72, 72, 64]]


@pytest.mark.parametrize(
    ("language", "line"),
    [
        ("fr", "Taille M seulement : *4 m end, 2 m ens end*"),
        ("de", "Nur Größe M: *4 M re, 2 M re zus*"),
        ("es", "Solo talla M: *4 p der, 2 p jun der*"),
        ("nb", "Kun str. M: *4 r, 2 r sm*"),
        ("da", "Kun str. M: *4 r, 2 r sm*"),
        ("nl", "Alleen maat M: *4 r, 2 r samen*"),
    ],
)
def test_letters_of_sizes_may_stand_in_square_brackets(language: str, line: str) -> None:
    """In French and German the letter of a size is that of a stitch, too."""
    assert after_rounds_of_sizes(read(f"S [M] : 84 [96]\n{line}", (84, 96), language)) == [[], [80]]


FEWER = [
    (
        "en",
        "Rnd 1: *ssk, k4* x 7. [35 sts]\nRnd 2: knit",
        "Rep rnds 1 and 2 2 more times, with 1 fewer st after each ssk. [21 sts]",
        "Then dec every rnd in this manner, 2 more times. [7 sts]",
    ),
    (
        "fr",
        "T1 – *ssk, 4 m end* x 7. [35 m]\nT2 – end",
        "Répéter les T1 et T2 encore 2 fois, avec chaque fois 1 m end de moins après le ssk. [21 m]",
        "Ensuite, diminuer à chaque tour de la même manière, encore 2 fois. [7 m]",
    ),
    (
        "de",
        "Rd 1: *ssk, 4 M re* 7x. [35 M]\nRd 2: re",
        "Rd 1 und 2 noch 2x wdh, mit jeweils 1 M re weniger nach dem ssk. [21 M]",
        "Danach in jeder Rd auf dieselbe Weise abnehmen, noch 2x. [7 M]",
    ),
    (
        "es",
        "V1: *ssk, 4 p der* 7 veces. [35 p]\nV2: der",
        "Repetir las V1 y V2 2 veces más, con 1 p der menos cada vez después del ssk. [21 p]",
        "Luego disminuir igual en todas las vueltas, 2 veces más. [7 p]",
    ),
    (
        "nb",
        "Omg 1: *ssk, 4 r* 7 ganger. [35 m]\nOmg 2: r",
        "Gjenta omg 1 og 2 2 ganger til, med 1 r mindre etter ssk hver gang. [21 m]",
        "Fell deretter likt på hver omgang 2 ganger til. [7 m]",
    ),
    (
        "da",
        "Omg 1: *ssk, 4 r* 7 gange. [35 m]\nOmg 2: r",
        "Gentag omg 1 og 2 2 gange mere, med 1 r mindre efter ssk hver gang. [21 m]",
        "Tag så ind på hver omg på samme måde, 2 gange til. [7 m]",
    ),
    (
        "nl",
        "T1: *ssk, 4 r* 7 x. [35 st]\nT2: r",
        "Herhaal T1 en T2 nog 2 keer, met steeds 1 st r minder na de ssk. [21 st]",
        "Daarna in elke toer op dezelfde manier minderen, nog 2 keer. [7 st]",
    ),
]


@pytest.mark.parametrize(("language", "rounds", "fewer", "onward"), FEWER)
def test_stitches_are_fewer_behind_the_decrease_too(
    language: str, rounds: str, fewer: str, onward: str
) -> None:
    reading = read(f"{rounds}\n{fewer}\n{onward}", (42,), language)
    assert after_each_round(reading) == [35, 35, 28, 28, 21, 21, 14, 7]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "1ª vuelta: *7 pd, 2 pjd*\n2ª a 4ª: del derecho\n5ª: *6 pd, 2 pjd*"),
        ("fr", "1er tour : *7 m end, 2 m ens end*\nDu 2e au 4e : end\n5e : *6 m end, 2 m ens end*"),
        ("de", "1. Runde: *7 M re, 2 M re zus*\n2. bis zur 4.: re\n5.: *6 M re, 2 M re zus*"),
        ("nb", "1. omg: *7 r, 2 r sm*\n2. til og med 4.: rett\n5.: *6 r, 2 r sm*"),
        ("da", "1. omg: *7 r, 2 r sm*\n2. til og med 4.: ret\n5.: *6 r, 2 r sm*"),
        ("nl", "1e toer: *7 r, 2 r sm*\n2e t/m 4e: recht\n5e: *6 r, 2 r sm*"),
    ],
)
def test_the_word_for_a_round_need_not_come_again_in_a_span(language: str, text: str) -> None:
    assert after_each_round(read(text, (90,), language)) == [80, 80, 80, 80, 70]


LEFT = [
    ("fr", "7 m end, 2 m ens end - tout le tour. Reste {}."),
    ("de", "7 M re, 2 M re zus - ganze Runde. Bleiben {}."),
    ("es", "7 p der, 2 p juntos - toda la vuelta. Quedan: {}."),
    ("nb", "7 r, 2 r sm - hele omg. Det gjenstår {}."),
    ("da", "7 r, 2 r sm - hele omg. Tilbage: {}."),
    ("nl", "7 r, 2 r sm - hele toer. Blijft {}."),
]


@pytest.mark.parametrize(("language", "line"), LEFT)
def test_what_is_left_is_a_count_without_the_word_for_stitches(language: str, line: str) -> None:
    assert not errors(read(line.format(80), (90,), language))
    assert errors(read(line.format(82), (90,), language))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "K1, k2tog: = 16 sts rem\nK2tog: = 8 sts rem"),
        ("en", "k2tog = 2 sts together\nK1, k2tog = 16\nK2tog = 8"),
        ("fr", "1 end, 2 ens : reste 16 m\n2 ens : reste 8 m"),
        ("de", "1 re, 2 zus: noch 16 M\n2 zus: noch 8 M"),
        ("es", "1 der, 2 juntos: quedan 16 puntos\n2 juntos: quedan 8 puntos"),
        ("nb", "1 rett, 2 sammen = 16 masker igjen\n2 sammen = 8 masker igjen"),
        ("da", "1 ret, 2 sammen = 16 masker tilbage\n2 sammen = 8 masker tilbage"),
        ("nl", "1 recht, 2 samen: nog 16 steken\n2 samen: nog 8 steken"),
    ],
)
def test_a_count_behind_a_decrease_says_not_what_the_decrease_is(language: str, text: str) -> None:
    assert after_each_round(read(text, (24,), language)) == [16, 8]


@pytest.mark.parametrize(
    ("language", "line"),
    [
        ("fr", "*5 m end, dble dim* tout le tour = 48 m"),
        ("de", "*5 M re, dopp Abn* ganze Rd = 48 M"),
        ("es", "*5 p der, doble dism* toda la vuelta = 48 p"),
        ("nb", "*5 r, dbl fell* hele omg = 48 m"),
        (
            "da",
            "Dbl indt: tag 1 m løs af som r, 2 r sm, træk den løse m over\n*5 r, dbl indt* hele omg = 48 m",
        ),
        ("nl", "*5 r, dubb mind* hele toer = 48 st"),
    ],
)
def test_a_double_decrease_has_a_short_name(language: str, line: str) -> None:
    assert after_each_round(read(line, (64,), language)) == [48]
