"""Crowns in German, Dutch, Norwegian and Danish as they are dictated, and the words between their rounds."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.corpus.score import counts, errors

REWRITTEN = [
    # how often, one after another
    ("de", "die Abnahmerunde noch 4x hintereinander str", "work the dec rnd 4 more times"),
    ("nb", "strikk felleomg 4 ganger på rad", "work dec rnd 4 times"),
    ("da", "strik indtagningsomg 6 gange i træk", "work dec rnd 6 times"),
    ("nl", "brei de mindertoer 4 keer achter elkaar", "work dec rnd 4 times"),
    # from star to star, so often in all
    ("de", "von * bis * 8x insgesamt wdh", "rep from * to * 8 times in all"),
    ("nb", "gjenta fra *-* 8 ganger i alt", "rep from * to * 8 times in all"),
    ("da", "gentag fra * til * 8 gange i alt", "rep from * to * 8 times in all"),
    ("nl", "herhaal van * tot * 8 keer in totaal", "rep from * to * 8 times in all"),
    # new stitches
    ("de", "47 M re, 1 neue M anschlagen", "k47, m1"),
    ("nb", "47 r, legg opp 1 ny m", "k47, m1"),
    ("da", "47 r, slå 1 ny m op", "k47, m1"),
    ("nl", "47 r, zet 1 nieuwe st op", "k47, m1"),
    # so many rounds, in a line that ends before their number
    ("de", "glatt re, bis 30 Rd gestrickt sind", "st st, until 30 rnds have been worked"),
    ("nb", "glattstrikk til det er strikket 30 omg", "st st until 30 rnds have been worked"),
    ("da", "glatstrik, til der er strikket\n30 omg", "st st, until 30 rnds have been worked\n"),
    ("nl", "tricotsteek tot er 30 toeren gebreid zijn", "st st until 30 rnds have been worked "),
    ("de", "mit Nd 4 glatt re\n26 Rd", "with needle 4. Knit 26 rnds\n"),
    ("fr", "Bonnet aux diminutions réparties\n100 m", "Bonnet aux dec evenly\n100 sts"),
    # work that begins behind the end of a line
    ("de", "In der folg Rd stets\n2 M re zusstr", "next rnd k2tog around\n"),
    # a dec rnd and a plain one in turn
    ("de", "4x abwechselnd 1 Abnahmerunde und 1 Rd re stricken", "work dec rnd and plain rnd alternately 4 times"),
    ("nb", "strikk vekselvis 1 felleomg og 1 omg r 4 ganger", "work dec rnd and plain rnd alternately 4 times"),
    ("da", "strik skiftevis 1 indtagningsomg og 1 omg r 4 gange", "work dec rnd and plain rnd alternately 4 times"),
    ("nl", "daarna breit men vier maal beurtelings één toer met minderingen en één toer recht",
        "work dec rnd and plain rnd alternately 4 times"),
    ("de", "abwechselnd 1 Abnahmerunde und 1 Rd re str, insgesamt 4x",
        "work dec rnd and plain rnd alternately 4 times in all"),
    ("nb", "strikk vekselvis 1 felleomg og 1 omg r 4 ganger til",
        "work dec rnd and plain rnd alternately 4 more times"),
    ("da", "skiftevis 1 indtagningsomgang og 1 omgang ret, i alt 4 gange",
        "work dec rnd and plain rnd alternately 4 times in all"),
    ("nl", "afwisselend 1 mindertoer en 1 toer r, nog 4x", "work dec rnd and plain rnd alternately 4 more times"),
    # down to a count, from another on faster
    ("de", "bis 8 M übrig sind, ab 40 M in jeder Rd", "until 40 sts remain, then every rnd until 8 sts remain"),
    # new stitches told again by where they stand
    ("nb", "øk 8 m jevnt fordelt, det vil si 1 m etter hver 11. m", "inc 8 sts evenly"),
    ("nl", "23 st r, 1 st r gedraaid uit de dwarsdraad", "k23, m1"),
    # the same again, and the end of each section
    ("da", "gentag de 3 omg 2 gange mere", "rep these 3 rnds 2 more times"),
    ("nb", "gjenta de 3 siste omg 2 ganger til", "rep these 3 rnds 2 more times"),
    ("da", "tag ind i slutningen af hvert felt ved at strikke de 2 sidste m ret sammen",
        "k2tog at the end of each section"),
    ("nb", "fell 1 m på høyre side av hvert merke", "k2tog at the end of each section"),
    # markers, and needles
    ("de", "Für die Abnahmen 8 Marker einhängen", "place 8 markers"),
    ("nl", "markeerder overhalen", "slip marker"),
    ("nl", "brei tot er nog 2 st op de naald staan", "work to last 2 sts on needle"),
    ("nl", "Begin met minderen: toer 1: 8 r", "dec: Rnd 1: k8"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text", "english"), REWRITTEN)
def test_words_between_rounds_stand_for_english_words(language: str, text: str, english: str) -> None:
    """What is dictated between rounds, and the English words for it."""
    assert rewritten(text, language, 1).text == english


CROWNS = [
    (
        "da",
        80,
        (
            "Huens top. Over de 80 masker strikkes først 18 omgange glat; derpå deles maskerne i 8 dele, 10 masker i "
            "hver. 8 ret, 2 sammen hele omgangen rundt (72 masker)."
        ),
        [80, 72],
        19,
    ),
    (
        "nb",
        80,
        "Luens topp. Over de 80 maskene strikkes først 18 omganger glatt. 1. omg: *8 r, 2 r sm*, gjenta = 72 m.",
        [80, 72],
        19,
    ),
    (
        "nl",
        56,
        (
            "Op elke van de 4 naalden 1 steek recht, 1 overhaling, recht tot de laatste drie steken, 2 samen, 1 "
            "recht (48 steken). Dan breit men drie toeren recht. Daarna breit men drie maal afwisselend één "
            "mindertoer en één toer recht; er zijn dan 24 steken."
        ),
        [56, 48, 40, 32, 24],
        10,
    ),
    (
        "nb",
        88,
        "Kant: *1 omg r, 1 omg vr*, gjenta fra *-* i alt 5 ganger (10 omg).\nOmg 1: *9 r, 2 r sm* omg rundt (80 m)",
        [88, 80],
        11,
    ),
    (
        "nl",
        88,
        (
            "1e toer: op elke naald: brei tot er nog 2 st op de naald staan, 2 r samen = 84 st.\n2e toer: recht.\n"
            "Herhaal deze 2 toeren tot er 80 st over zijn. Brei daarna alleen nog toer 1 tot er 72 st over zijn."
        ),
        [88, 84, 80, 76, 72],
        6,
    ),
    ("nl", 88, "1e toer: 9 st r, 2 st r samenbr, herh. steeds = 80 st.", [88, 80], 1),
]


@pytest.mark.parametrize(("language", "cast_on", "text", "wanted", "number"), CROWNS)
def test_a_dictated_crown_is_read(
    language: str, cast_on: int, text: str, wanted: list[int], number: int
) -> None:
    """A crown, its counts and how many rounds it takes."""
    reading = read(text, (cast_on,), language)
    assert not errors(reading)
    (rounds,) = reading.rounds
    assert (counts(rounds, cast_on), len(rounds)) == (wanted, number)


def test_one_decrease_round_and_one_plain_round_are_alternated() -> None:
    """Which of them comes first is told by which is named first."""
    begun = "Dec rnd: On each of 4 needles k1, skp, knit to last 3 sts, k2tog, k1 (48 sts). "
    for text, number in (
        ("Knit 1 rnd. Then alternate 1 dec rnd and 1 plain rnd 3 times (24 sts).", 8),
        ("Then alternate 1 knit rnd and 1 dec rnd 3 times (24 sts).", 7),
    ):
        reading = read(begun + text, (56,))
        assert not errors(reading)
        assert (counts(reading.rounds[0], 56), len(reading.rounds[0])) == ([56, 48, 40, 32, 24], number)
