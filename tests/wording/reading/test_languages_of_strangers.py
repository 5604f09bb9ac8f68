"""How strangers write in six languages: among friends, in old books, on worksheets, for sizes by their letters."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, faults

REWRITTEN = [
    # decreases of two stitches
    ("de", "immer 3 zus", "k3tog around"),
    ("de", "alle M zu dritt zusstr", "k3tog around"),
    ("fr", "toutes les m ens 3 par 3", "k3tog around"),
    ("es", "todos los puntos juntos de 3 en 3", "k3tog around"),
    ("nb", "3 og 3 m r sm", "k3tog around"),
    ("da", "strik 3 og 3 m r sm", "k3tog around"),
    ("nl", "steeds 3 st r samenbr", "k3tog around"),
    ("da", "9 r og dobbelt indt = 60", "k9, cdd = 60"),
    ("da", "5 r, dobbelt, 5 r", "k5, cdd, k5"),
    ("nb", "5 r, dobbel felling, 5 r", "k5, cdd, k5"),
    ("de", "5 re, doppelte Abnahme, 5 re", "k5, cdd, k5"),
    ("fr", "5 end, diminution double, 5 end", "k5, cdd, k5"),
    ("nb", "1 løs 1 r trekk over", "skp"),
    ("da", "tag 1 løs af, strik 1 r og træk den løse over", "skp"),
    # increases
    ("da", "8 r, slå 1 m op (drejet lænke)", "k8, m1"),
    ("es", "2 p. der., 1 aum. levantando la hebra entre dos p.", "k2, m1."),
    ("fr", "2 m end, 1 aug en relevant le fil entre 2 m", "k2, m1"),
    # a plain round
    ("de", "8 re, 2 zus, dann 2 Rd normal", "k8, k2tog. Work 2 rnds straight"),
    ("fr", "7 et 2 ens, un tour sans rien", "k7, k2tog. Work 1 rnds straight"),
    ("es", "7 der y 2 juntos, vuelta sin nada", "k7 and k2tog. Work 1 rnds straight"),
    ("nb", "7 r, 2 r sm, 2 vanlige omg", "k7, k2tog. Work 2 rnds straight"),
    ("da", "7 r, 2 r sm, en omg uden.", "k7, k2tog. Work 1 rnds straight."),
    ("nl", "7 r, 2 r sam, een toer niks", "k7, k2tog. Work 1 rnds straight"),
    # the decrease round in every round
    ("de", "die Abnahmerunde in jeder Rd stricken", "in this manner dec every rnd"),
    ("fr", "répéter le tour de diminution à chaque tour", "in this manner dec every rnd"),
    ("es", "repetir la vuelta de disminución en cada vuelta", "in this manner dec every rnd"),
    ("nb", "strikk felleomgangen på hver omg", "in this manner dec every rnd"),
    ("da", "indtagningsomgangen strikkes på hver omg", "in this manner dec every rnd"),
    ("nl", "de mindertoer elke toer breien", "in this manner dec every rnd"),
    # sizes by their letters alone
    ("de", "Nur L: 1 Rd re", "Size L only: knit 1 rnd"),
    ("de", "Nur M und L: 1 Rd re", "Sizes M and L only: knit 1 rnd"),
    ("fr", "L seulement : 1 tour end", "Size L only: knit 1 rnds"),
    ("es", "Solo M y L: 1 vta der", "Sizes M and L only: knit 1 rnds"),
    ("nb", "Bare L: 1 omg rett", "Size L only: knit 1 rnds"),
    ("da", "Kun M/L: 1 omg ret", "Sizes M and L only: knit 1 rnds"),
    ("nl", "Alleen XL: 1 toer r", "Size XL only: knit 1 rnds"),
    ("de", "Nur Dame und Herr: 1 Rd re", "Woman and man only: knit 1 rnd"),
    ("nl", "alleen heer: 1 toer r", "Man only: knit 1 rnds"),
    ("nb", "Bare damestr.: 1 omg rett", "woman only: knit 1 rnds"),
    ("da", "Kun herrestr.: 1 omg ret", "man only: knit 1 rnds"),
    ("de", "Alle: 1 Rd re", "all sizes: knit 1 rnd"),
    # two rounds told in turn
    (
        "de",
        "In den beiden folgenden Runden zuerst jede 4. und 5. M",
        "next rnd knit every 4th and 5th st together",
    ),
    (
        "fr",
        "Aux deux tours suivants, d'abord toutes les 4e et 5e m",
        "next rnd knit every 4th and 5th st together",
    ),
    ("nb", "På de to neste omg først hver 4. og 5. m", "next rnd knit every 4th and 5th st together"),
    ("da", "På de to næste omg først hver 4. og 5. m", "next rnd knit every 4th and 5th st together"),
    ("fr", "toutes les m. 2 par 2 à l'end", "k2tog around"),
    # old ordinals
    ("nb", "hver 11te og 12te maske sammen", "knit every 11th and 12th st together"),
    ("da", "hver 2den og 3die maske sammen", "knit every 2nd and 3rd st together"),
    ("fr", "2° * 7 m end, 2 m ens *", "2. * k7, k2tog *"),
    # a full stop that ends no number of a round, and one that ends a count
    ("de", "6 Keile à 13. Rd 1: re", "6 sections of 13 sts. Rnd 1: knit"),
    ("de", "Bleiben 72. Dann 3 Rd re", "= 72 sts rem. . Knit 3 rnds"),
    # what needles hold
    ("de", "Auf jeder der 4 Nadeln liegen 22 M", "22 sts on each of the 4 needles"),
]


@pytest.mark.parametrize(("language", "text", "english"), REWRITTEN)
def test_words_of_strangers_stand_for_english_words(language: str, text: str, english: str) -> None:
    """What people write among themselves, and the English words for it."""
    assert rewritten(text, language, 1).text == english


READ = [
    ("de", 30, "Rd 1: 3 re, 2 zus – 6 mal (24)\nRd 2: immer 3 zus (8)", [24, 8]),
    ("es", 54, "7 derechos y 2 juntos (x6), vuelta normal, y luego seguidas: 6 y 2j, 5 y 2j.", [48, 48, 42, 36]),
    ("da", 28, "Herefter på hver omg: 2 r, 2 r sm x 7 (21), 1 r, 2 r sm x 7 (14), 2 r sm x 7 (7).", [21, 14, 7]),
    ("nb", 28, "Deretter på hver omg: 2 r, 2 r sm x 7 (21), 1 r, 2 r sm x 7 (14), 2 r sm x 7 (7).", [21, 14, 7]),
    ("nl", 28, "Daarna elke toer: 2 r, 2 r sam x 7 (21), 1 r, 2 r sam x 7 (14), 2 r sam x 7 (7).", [21, 14, 7]),
    ("nl", 40, "Toer 1: * 1 r, 2x 2 r sam * = 24 st", [24]),
    (
        "de",
        32,
        ("1. Rd: *SSK, 4 M re, 2 M re zusstr* 4x = 24 M.\n2. Rd: alle M re.\n"
        "Diese 2 Rd wdh, dabei zwischen den Abnahmen je 2 M weniger str, bis noch 8 M übrig sind."),
        [24, 24, 16, 16, 8, 8],
    ),
    ("nl", 96, "1e mindertoer: 10 recht, 2 te zamen, steeds herhalen; er blijven 88 steken.", [88]),
    ("nl", 100, "Brei op elk van de 4 naalden (25 st per naald) de eerste 2 st en de laatste 2 st samen. 92 st.", [92]),
    ("nl", 100, "Op elke naald de eerste 2 en de laatste 2 st samenbreien, de overige st recht (92 st).", [92]),
    ("de", 40, "Rd 1: * 1 re, 2x 2 re zus * = 24 M", [24]),
    ("de", 26, "1. R: Randm, 12x 2 M re zusstr, Randm = 14 M.", [14]),
    ("fr", 82, "1 m. lis., * 8 m. end., 2 m. ens. end. *, rép. de * à * 8 fois, 1 m. lis. On a 74 m.", [74]),
    ("es", 74, "1 p. orillo, *7 p. der., 2 p. juntos*, rep. 8 veces de * a *, 1 p. orillo. 66 p.", [66]),
    ("nl", 84, "5 r, 2 r sam ............ 72\ntoer r\n4 r, 2 r sam ............ 60", [72, 72, 60]),
    ("nl", 84, "5 r, 2 r sam = 72\ntoer r\n4 r, 2 r sam = 60", [72, 72, 60]),
    ("de", 54, "*7 M re, 2 zus*, *6 M re, 2 zus* usw. bis du bei 6 M bist", [48, 42, 36, 30, 24, 18, 12, 6]),
    ("fr", 72, "1er * 7 m end, 2 m ens *\n2e à l'endroit\n3° * 6 m end, 2 m ens *", [64, 64, 56]),
    (
        "es",
        56,
        (
            "V1: *5 d, 2pjd* → 48 p\nV2: todo del derecho\nV3: *4 d, 2pjd* → 40 p\nV4: todo del derecho\n"
            "Seguir así, con un punto menos antes de cada disminución y una vuelta lisa en medio, hasta tener 24 p."
        ),
        [48, 48, 40, 40, 32, 32, 24],
    ),
    (
        "nb",
        84,
        (
            "Merk 6 m med 13 m mellom hver (84 m).\n"
            "1. fellingsomg: På hver side av de merkede m felles 1 m, dvs. strikk 2 r sm før og 2 vridd r sm etter "
            "hver merket m = 72 m.\nStrikk 2 omg uten felling.\n2. fellingsomg: Fell som på 1. fellingsomg = 60 m.\n"
            "Strikk 2 omg uten felling.\n3. fellingsomg: Fell likedan = 48 m. Strikk 1 omg.\n"
            "4. fellingsomg: Fell likedan = 36 m."
        ),
        [72, 72, 72, 60, 60, 60, 48, 48, 36],
    ),
    (
        "da",
        84,
        (
            "Marker 6 m med 13 m mellem hver (84 m).\n"
            "1. indtagningsomg: På hver side af de mærkede m tages 1 m ind, dvs. strik 2 r sm før og 2 dr r sm efter "
            "hver mærket m = 72 m.\n2. indtagningsomg: Tag ind som på 1. indtagningsomg = 60 m."
        ),
        [72, 60],
    ),
    (
        "nb",
        84,
        (
            "Sett 6 merker med 14 m imellom (84 m).\nFellingsomg: *strikk til det står 2 m igjen før merket, 2 r sm*. "
            "Gjør dette ved alle 6 merkene.\nVanlig omg: rett uten å felle.\n"
            "Strikk fellingsomg og vanlig omg etter hverandre, 2 ganger i alt -> 72 m.\n"
            "Strikk deretter fellingsomg 2 ganger, uten vanlige omganger -> 60 m."
        ),
        [78, 78, 72, 72, 66, 60],
    ),
    (
        "da",
        84,
        (
            "Sæt 6 mærker med 14 m imellem (84 m).\nIndtagningsomg: *strik til der står 2 m tilbage før mærket, "
            "2 r sm*. Gør dette ved alle 6 mærker.\nAlmindelig omg: ret uden indtagning.\n"
            "Strik indtagningsomg og almindelig omg efter hinanden, 2 gange i alt (72 m).\n"
            "Strik derefter indtagningsomg 2 gange, uden almindelige omgange (60 m)."
        ),
        [78, 78, 72, 72, 66, 60],
    ),
    (
        "nb",
        104,
        (
            "1ste omgang: 11 masker ret, 2 ret sammen, rundt. (96 m.)\n2 omgange ret.\n"
            "Herefter felles paa samme maade hver anden omgang, til der er 80 masker tilbage, "
            "og siden hver omgang, til der kun er 64 masker, som trækkes sammen."
        ),
        [96, 96, 96, 88, 88, 80, 72, 64],
    ),
    ("nb", 56, "Strikk de 3 omg i diagrammet. Rapporten på 4 m strikkes 14 ganger rundt.", [56, 56, 56]),
    ("da", 56, "Strik mønster efter diagrammet (4 m i rapporten), i alt 3 omg.", [56, 56, 56]),
    ("nb", 80, "Mønster: 1 omg *1 hvit, 3 blå*, 1 omg bare blå, 1 omg *2 blå, 2 hvit*.", [80, 80, 80]),
    ("da", 80, "*2 omg ret med bundfarve, 1 omg: 3 r bundfarve, 1 r mønsterfarve*. Strik *-* i alt 2 gange.", [80] * 6),
    (
        "nb",
        112,
        (
            "*12 r, 2 r sm*, gjenta fra * til * omg rundt (104 m).\n"
            "Neste gang det felles, strikkes 11 r mellom fellingene, så 10 r osv.\n"
            "Strikk 3 omg rett mellom 1. og 2. felling, 2 omg rett mellom 2. og 3. felling, "
            "og videre 1 omg rett mellom hver felling til det er 80 m igjen."
        ),
        [104, 104, 104, 104, 96, 96, 96, 88, 88, 80],
    ),
    (
        "nb",
        84,
        (
            "Sett 6 merker med 14 m mellom hvert.\n"
            "Fell 1 m på begge sider av merketrådene på annenhver omg til det er 60 m igjen."
        ),
        [72, 72, 60],
    ),
    (
        "da",
        84,
        (
            "Sæt 6 mærker med 14 m mellem hvert.\nTag 1 m ind på hver side af de 6 mærker = 72 m.\n"
            "Tag ind på samme måde = 60 m."
        ),
        [72, 60],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("language", "cast_on", "text", "counts"), READ)
def test_rounds_of_strangers_come_out(language: str, cast_on: int, text: str, counts: list[int]) -> None:
    """Rounds in the words of others, with the stitches each leaves."""
    assert after_each_round(read(text, (cast_on,), language)) == counts


def test_a_count_behind_dots_is_compared() -> None:
    """72 stitches do not go into repeats of seven; 60 leave 50 in repeats of six, not 48."""
    text = "5 r, 2 r sam ............ 60\ntoer r\n4 r, 2 r sam ............ 48"

    assert faults(read(text, (72,), "nl")) == [("left_over", 1), ("count_differs", 3)]


PASSIVE = [
    ("de", "Rd 1: *7 re, 2 zus* (48)\nVon da an wird in jeder Rd abgenommen, bis 12 M übrig sind."),
    (
        "fr",
        "Tour 1 : *7 m end, 2 m ens* (48)\nDès lors on diminue à chaque tour jusqu'à ce qu'il reste 12 m.",
    ),
    (
        "es",
        "Vta 1: *7 der, 2 juntos* (48)\nA partir de aquí se disminuye en cada vta hasta que queden 12 p.",
    ),
    ("nb", "Omg 1: *7 r, 2 r sm* (48)\nFra nå av felles det på hver omg til det er 12 m igjen."),
    ("da", "Omg 1: *7 r, 2 r sm* (48)\nFra nu af tages der ind på hver omg, til der er 12 m tilbage."),
    (
        "nl",
        "Toer 1: *7 r, 2 r samen* (48)\nVanaf nu wordt in elke toer geminderd tot er 12 st over zijn.",
    ),
]


@pytest.mark.parametrize(("language", "text"), PASSIVE)
def test_decreases_go_on_in_the_passive(language: str, text: str) -> None:
    """Old books say that it is decreased in every round from here on."""
    assert after_each_round(read(text, (54,), language)) == [48, 42, 36, 30, 24, 18, 12]


def test_a_decrease_round_worked_so_often_stands_behind_every_round() -> None:
    """`every rnd: work dec rnd 5 times` works it there."""
    text = (
        "Place a marker every 9 sts (6 markers).\nDec rnd: *k2tog, knit to marker*, 6 times.\n"
        "Every rnd: work dec rnd 4 times = 24 sts.\nk2tog around = 12 sts."
    )

    assert after_each_round(read(text, (54,), "en")) == [48, 42, 36, 30, 24, 12]


IN_TURN = [
    "Every rnd: k2, k2tog 7 times (21), k1, k2tog 7 times (14), k2tog 7 times (7).",
    "Every rnd: k2 and k2tog, k1 and k2tog, k2tog.",
    "Then every rnd: k2 and k2tog, k1 and k2tog, k2tog around.",
]


@pytest.mark.parametrize("text", IN_TURN)
def test_rounds_told_behind_every_round_are_worked_in_turn(text: str) -> None:
    """`every rnd:` before several decrease rounds says that no plain rounds are between them."""
    assert after_each_round(read(text, (28,), "en")) == [21, 14, 7]


NOT_READ = [
    "Rnd | Work | Stitches\n1 | *k10, k2tog* | 55\n2 | all of them by threes somehow | 19",
    "Rnd;Work;Stitches\n1;*k10, k2tog*;55\n2;all of them by threes somehow;19",
]


@pytest.mark.parametrize("text", NOT_READ)
def test_a_row_of_a_table_that_is_not_read_is_told(text: str) -> None:
    """The last row of a table prints a count that no round leaves: it was passed over in silence."""
    assert faults(read(text, (60,), "en")) == [("not_understood", 3)]


def test_a_number_of_a_line_for_one_size_is_mended_alone() -> None:
    """`Size M only: *k8, m1*` is mended as `*k7, m1*`, and not with a number for each size."""
    text = (
        "Sizes S (M, L)\nSize S only: *k13, m1*, 84 sts.\n"
        "Size M only: *k8, m1*, 96 sts.\nSize L only: *k5, m1*, 108 sts."
    )

    repairs = [finding.repair for finding in read(text, (78, 84, 90), "en").findings if finding.repair]

    assert repairs == ["Size M only: *k7, m1*, 96 sts."]
