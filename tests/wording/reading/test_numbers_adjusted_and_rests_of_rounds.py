"""A number of stitches adjusted, the rest of a round, and decrease rounds told in a sentence. Counts worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, faults

ADJUSTED = [
    ("en-US", "Knit 1 rnd, adjusting the number of stitches to 88 (96, 106)."),
    ("en-US", "Knit 1 rnd and adjust the stitch count as necessary to 88 (96, 106) sts."),
    ("nb", "Strikk 1 omgang rett, juster samtidig maskeantallet til 88 (96) 106 m."),
    ("nb", "Strikk 1 omg r, samtidig som m-tallet reguleres til 88 (96) 106 m."),
    ("da", "Strik 1 omgang ret, og reguler samtidig masketallet til 88 (96) 106 masker."),
    ("de", "1 Runde rechts stricken, dabei die Maschenzahl auf 88 (96/106) M angleichen."),
    ("de", "Stricke 1 Runde rechts und gleiche dabei die Maschenzahl auf 88 (96/106) aus."),
    ("fr", "Tricoter 1 tour à l'endroit en ajustant le nombre de mailles à 88 (96-106)."),
    ("es", "Tejer 1 vuelta del derecho, ajustando el número de puntos a 88 (96, 106) p."),
    ("nl", "Brei 1 toer recht en pas daarbij het aantal steken aan tot 88 (96, 106) steken."),
]


@pytest.mark.parametrize(("language", "text"), ADJUSTED)
def test_a_number_of_stitches_is_adjusted(language: str, text: str) -> None:
    """Fewer, as many or more: in each size what it takes, in the one round."""
    assert after_rounds_of_sizes(read(text, (90, 96, 104), language)) == [[88], [96], [106]]


@pytest.mark.parametrize("before", range(80, 101, 4))
def test_one_size_is_adjusted_from_any_number(before: int) -> None:
    """Also from the very number."""
    assert after_each_round(read("Knit 1 rnd, adjusting to 88 sts.", (before,))) == [88]


def test_what_is_no_number_of_stitches_is_not_adjusted() -> None:
    """The length, the needles."""
    text = (
        "Adjust the length as you like. You may adjust the number of sts to 96. Knit 1 rnd. "
        "Adjust to size 5 needles. Adjusting to 4 mm."
    )
    assert after_each_round(read(text, (88,))) == [88]


REST = [
    ("en-US", "K6, k2tog, knit the rest of the rnd. You now have {} sts."),
    ("nb", "Strikk 6 rett, strikk 2 rett sammen, strikk resten av omgangen rett. Nå har du {} masker."),
    ("nb", "6 r, 2 r sm og resten rett ({} m)."),
    ("da", "6 ret, 2 ret sammen, strik resten af omgangen ret ({} m)."),
    ("de", "6 M rechts, 2 M rechts zusammenstricken. Stricke den Rest der Runde rechts ({} M)."),
    ("de", "6 M re, 2 M re zusstr, Rest re ({} M)."),
    ("fr", "6 m endroit, 2 m ens à l'endroit, tricoter le reste du tour à l'endroit ({} m)."),
    ("es", "6 p derecho, 2 p juntos al derecho y el resto de la vuelta del derecho ({} p)."),
    ("nl", "6 recht, 2 recht samenbreien, brei de rest van de toer recht ({} st)."),
]


@pytest.mark.parametrize(("language", "text"), REST)
def test_the_rest_of_the_round_is_knitted(language: str, text: str) -> None:
    """One stitch goes, and a count of one in each eighth is at fault."""
    assert after_each_round(read(text.format(63), (64,), language)) == [63]
    assert faults(read(text.format(56), (64,), language))


def test_the_rest_of_the_rounds_is_not_the_rest_of_a_round() -> None:
    """In Norwegian these differ by an ending."""
    text = (
        "1. omg: *6 r, 2 r sm* rundt (56 m).\n3. omg: *5 r, 2 r sm* rundt (48 m).\nResten av omgangene rett."
    )
    assert after_each_round(read(text, (64,), "nb")) == [56, 56, 48]


IN_A_SENTENCE = [
    (
        "en-US",
        "In dec rnd 1 knit every 7th and 8th st together. Work 2 rnds. In dec rnd 2 *k5, k2tog* (48 sts).",
    ),
    (
        "de",
        """Nun beginnt das Abnehmen. In der 1. Abnehmerunde wird jede 7. und 8. Masche rechts zusammengestrickt (56 M).
Darüber strickt man 2 Runden ohne Abnehmen.
In der 2. Abnehmerunde wird jede 6. und 7. Masche zusammengestrickt (48 Maschen).""",
    ),
    (
        "de",
        """In der 1. Abnahmerunde werden jede 7. und 8. Masche links zusammengestrickt. Darüber 2 Runden ohne Abnehmen.
In der 2. Abnehmrunde *5 M rechts, 2 M rechts zusammenstricken* (48 M).""",
    ),
    (
        "de",
        """In der ersten Abnehmerunde strickt man jede 7. und 8. Masche zusammen, darüber wieder 2 Runden ohne Abnahmen.
In der zweiten Abnahmerunde strickt man jede 6. und 7. Masche zusammen = 48 Maschen.""",
    ),
]


@pytest.mark.parametrize(("language", "text"), IN_A_SENTENCE)
def test_a_decrease_round_is_told_in_a_sentence(language: str, text: str) -> None:
    """With its number among the decrease rounds, and the plain rounds over it."""
    assert after_each_round(read(text, (64,), language)) == [56, 56, 56, 48]


def test_a_ribbing_told_behind_its_rounds_is_no_round_more() -> None:
    """`10 Runden, 2 rechts, 2 links` are 10."""
    text = "Stricke 10 Runden, 2 Maschen rechts, 2 Maschen links.\nDanach 5 Runden rechts."
    assert len(after_each_round(read(text, (64,), "de"))) == 15


AGAIN_ON_ROUNDS = [
    ("en-US", "Rnds 5 and 7: decrease again.\nRnds 8 to 10: dec 6 sts in every rnd."),
    (
        "en-US",
        "Rnds 5, 7: decrease once more (36 sts).\nRnds 8-10: dec 6 sts in every rnd, until 18 sts remain.",
    ),
    (
        "en-US",
        "Rnds 5 and 7: decrease again. With 1 st less between decreases each time.\nRnds 8-10: dec 6 sts every rnd.",
    ),
    (
        "de",
        """5. und 7. Runde: Nimm genauso ab. Zwischen den Abnahmen liegt jedes Mal 1 Masche weniger (36 M).
8. bis 10. Runde: Nimm nun in jeder Runde 6 Maschen ab, bis du nur noch 18 Maschen hast.""",
    ),
]
BEGUN = {
    "en-US": "Rnd 1: *k8, k2tog* (54 sts).\nRnd 2 and all even rnds to rnd 6: knit.\nRnd 3: *k7, k2tog* (48 sts).",
    "de": "1. Runde: *8 M re, 2 M re zusstr* (54 M).\n2. Runde und alle geraden Runden bis zur 6. Runde: rechts.\n"
    "3. Runde: *7 M re, 2 M re zusstr* (48 M).",
}


@pytest.mark.parametrize(("language", "text"), AGAIN_ON_ROUNDS)
def test_again_on_several_rounds_is_once_on_each(language: str, text: str) -> None:
    """The plain rounds stand where they are numbered, and none behind the last of these."""
    left = [54, 54, 48, 48, 42, 42, 36, 30, 24, 18]
    assert after_each_round(read(f"{BEGUN[language]}\n{text}", (60,), language)) == left
