"""Fabrics explained by their rounds, and crowns that go on at another pace, in English and other languages."""

from itertools import pairwise

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors

GARTER = [
    ("en-US", "Cast on 72 sts. Work 8 rounds in garter stitch, i.e. purl 1 round, knit 1 round alternately."),
    (
        "en-US",
        "Cast on 72 sts. Work 8 rounds of garter stitch, that is knit 1 round and purl 1 round in turn.",
    ),
    (
        "en-US",
        "Cast on 72 sts. Work garter stitch for 8 rounds, i.e. alternately purl 1 round and knit 1 round.",
    ),
    ("en-US", "Cast on 72 sts. Work 8 rounds of garter stitch: knit 1 round and purl 1 round."),
    ("de", "72 M anschlagen. 8 Rd kraus rechts stricken, d. h. 1 Rd links, 1 Rd rechts im Wechsel."),
    ("de", "72 M anschlagen. 8 Rd kraus rechts, das heißt abwechselnd 1 Rd rechts und 1 Rd links."),
    ("nb", "Legg opp 72 m. Strikk 8 omg rillestrikk, dvs. 1 omg vrang, 1 omg rett vekselvis."),
    ("da", "Slå 72 m op. Strik 8 omg retstrik, det vil sige skiftevis 1 omg vrang og 1 omg ret."),
    ("nl", "Zet 72 st op. Brei 8 toeren ribbelsteek, d.w.z. afwisselend 1 toer averecht en 1 toer recht."),
    (
        "fr",
        "Monter 72 m. Tricoter 8 tours au point mousse, c'est-à-dire 1 tour envers, 1 tour endroit en alternance.",
    ),
    (
        "es",
        (
            "Montar 72 puntos. Tejer 8 vueltas en punto bobo, es decir, 1 vuelta al revés, 1 vuelta al derecho "
            "alternadamente."
        ),
    ),
]
"""Eight rounds of garter stitch on 72 stitches, with what garter stitch is."""
SECTIONS = {
    "en-US": "Cast on 80 sts. Divide the stitches into 8 parts with 10 sts in each. "
    "Decrease every other round by knitting the last 2 sts of each part together (72 sts). ",
    "nb": "Legg opp 80 m. Del m i 8 like deler med 10 m i hver. ",
}
PACES = [
    ("en-US", "Decrease in this way until 40 sts remain and decrease every round until 8 sts remain."),
    (
        "en-US",
        "Decrease in this way until 40 sts remain, and in this way decrease every rnd until 8 sts remain.",
    ),
    ("en-US", "Continue like this until 40 sts remain and continue decreasing every rnd until 8 sts remain."),
    ("en-US", "Decrease like this until 40 sts remain, and continue every round until 8 sts remain."),
    (
        "nb",
        (
            "Det felles på annenhver omg ved at de 2 siste m i hver del strikkes r sammen (72 m). "
            "Fell slik til det er 40 m igjen, og fell deretter på hver omg til det er 8 m igjen."
        ),
    ),
    (
        "nb",
        (
            "Fell annenhver omg ved å strikke de 2 siste m i hvert felt rett sammen = 72 m. "
            "Fell slik til 40 m gjenstår, og videre på hver omg til 8 m."
        ),
    ),
]
"""Crowns of 8 sections: from 80 to 40 stitches on every other round, and from there on every round."""
BETWEEN = [
    "Dann folgen die Abnahmen, zwischen den Abnahmerunden strickst du jeweils 1 Runde rechts:",
    "Nun kommen die Abnahmen; zwischen den Abnahmerunden immer 1 Runde rechts stricken:",
    "Jetzt beginnen die Abnahmen, mit je 1 Runde rechts zwischen den Abnahmerunden:",
    "Dann nimmst du ab, zwischen den Abnahmerunden strickst du 1 Runde rechts:",
    "Es folgen die Abnahmerunden, dazwischen jeweils 1 Runde rechts stricken:",
]
LENGTHS = [
    (
        "da",
        "Slå 80 m op. Strik rib (1 r, 1 vr), til arbejdet måler 8 cm – så er der nok til en kant.\nStrik 1 omg r.",
    ),
    (
        "da",
        "Slå 80 m op. Strik rib (1 r, 1 vr), til arbejdet måler 8 cm, det er nok til et ombuk.\nStrik 1 omg r.",
    ),
    (
        "nb",
        "Legg opp 80 m. Strikk vrangbord (1 r, 1 vr) til arbeidet måler 8 cm – nok til en brett.\nStrikk 1 omg r.",
    ),
]
"""A brim to a length, what that length is enough for, and a round."""


@pytest.mark.parametrize(("language", "text"), GARTER)
def test_fabric_is_worked_for_no_more_rounds_than_are_told_before_its_explanation(
    language: str, text: str
) -> None:
    got = read(text, (72,), language)
    assert errors(got) == []
    assert len(got.rounds[0]) == 8


@pytest.mark.parametrize(("language", "text"), PACES)
def test_crown_goes_on_at_another_pace_behind_and(language: str, text: str) -> None:
    got = read(SECTIONS[language] + text, (80,), language)
    assert errors(got) == []
    counts = [80, *(round_.after for round_ in got.rounds[0])]
    shaped = [after for before, after in pairwise(counts) if after != before]
    assert shaped == list(range(72, 0, -8))
    assert len(got.rounds[0]) == 9 + 4


@pytest.mark.parametrize("sentence", BETWEEN)
def test_german_sentence_before_the_decrease_rounds_tells_plain_rounds_between(sentence: str) -> None:
    text = f"Schlage 72 Maschen an. {sentence}\n" + "\n".join(
        f"{number}. Abnahmerunde: * {8 - number} M rechts, 2 M rechts zusammenstricken, ab * wiederholen"
        for number in (1, 2, 3)
    )
    got = read(text, (72,), "de")
    assert errors(got) == []
    assert [round_.after for round_ in got.rounds[0]] == [64, 64, 56, 56, 48]


@pytest.mark.parametrize(("language", "text"), LENGTHS)
def test_what_a_length_is_enough_for_is_no_work(language: str, text: str) -> None:
    got = read(text, (80,), language)
    assert errors(got) == []
    assert [round_.after for round_ in got.rounds[0]] == [80, 80]
