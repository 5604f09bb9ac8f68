"""Lists that print their noun behind the number of every size, and lines that end within what they say."""

import pytest

from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.support.readings import after_each_round, counts, number_of_rounds

TWO_SIZES = [
    ("Rnd 1: *ssk, k8, k2tog, rep from * 8x (9x) more = 90 (100) sts.", [[108, 90], [120, 100]]),
    ("Rnd 1: [ssk, k8, k2tog] 9 times (10 times). 90 sts (100 sts)", [[108, 90], [120, 100]]),
    ("Cast on 108 sts (120 sts).\nRnd 1: *k10, k2tog* to end: 99 sts (110 sts)", [[108, 99], [120, 110]]),
    (
        "Rnd 1: *k10, k2tog, rep from * 8 more times (9 more times). 99 (110) sts",
        [[108, 99], [120, 110]],
    ),
]


@pytest.mark.parametrize(("text", "expected"), TWO_SIZES)
def test_a_noun_stands_behind_the_number_of_each_size(text: str, expected: list[list[int]]) -> None:
    """The stitches of two sizes."""
    assert counts(read(text, (108, 120))) == expected


def test_rounds_are_counted_for_each_size() -> None:
    """Their noun stands behind both numbers."""
    reading = read("Knit 3 rounds (4 rounds). Rnd 5: knit", (80, 88))
    assert number_of_rounds(reading)[0] + 1 == number_of_rounds(reading)[1]


REWRITTEN = [
    ("de", "80 M (88 M/96 M) anschlagen", 3, "cast on 80 (88, 96) sts"),
    ("de", "ab * noch 8x (9x) wdh = 90 (100) M", 2, "rep from * 8 (9) more times = 90 (100) sts"),
    ("nb", "gjenta *-* 10 ganger (11 ganger) = 70 m (77 m)", 2, "rep from * to * 10 (11) times = 70 (77) sts"),
    ("da", "strik 3 omg (4 omg) r", 2, "knit 3 (4) rnds"),
    ("nl", "70 st (77 st)", 2, "70 (77) sts"),
    # what stands in the bracket is something else
    ("de", "72 M (8 M abgenommen)", 2, "72 sts (8 sts decreased)"),
    ("de", "9x (72 M)", 2, "9 times (72 sts)"),
    # letters of old print and of other keyboards
    ("da", "Slaa 108 Masker op", 1, "cast on 108 sts"),
    ("da", "saa der er 45 Masker tilbage", 1, "= 45 sts rem"),
    ("nb", "saa det er 7 masker igjen", 1, "= 7 sts rem"),
    ("de", "2 M ueberz zusstr", 1, "ssk"),
    ("de", "zur Runde schliessen", 1, "join in the round"),
    # lines that end within what they say
    ("de", "In der folg Rd jede 5. und\n6. M re zusstr", 1, "next rnd knit every 5th and 6th st together\n"),
    ("da", "Strik 4 omgange glat. 2den\nIndtagningsomgang: 9 ret", 1, "knit 4 rnds. \n2. Dec rnd: k9"),
    ("da", "derefter 3 Gange paa hver\nOmgang", 1, "then every rnd 3 times\n"),
    # names that are given in passing, and how often two rounds are worked
    ("nb", "løft 2 m sammen som til r sm, strikk 1 r, trekk de 2 løftede m over (heretter D)", 1, "cdd (hereafter D)"),
    (
        "da", "Gentag omg 1 og 2, til de er strikket i alt 6 gange", 1,
        "rep rnds 1 and 2 until they have been worked 6 times in all",
    ),
    ("de", "5. Rd (alle Größen außer 0–6 Monate): re", 1, "Rnd 5 (all sizes except 0–6 months): knit"),
    ("nb", "så det blir 7 fellinger (105 masker)", 1, "7 sts decreased (105 sts)"),
    ("nb", "strikk disse 2 omg i alt 5 ganger = 40 m i alle str", 1,
     "rep these 2 rnds 5 times in all = 40 sts in all sizes"),
]  # fmt: skip


@pytest.mark.parametrize(("language", "text", "sizes", "english"), REWRITTEN)
def test_words_stand_for_english_words(language: str, text: str, sizes: int, english: str) -> None:
    """What is printed, and the English words for it."""
    assert rewritten(text, language, sizes).text == english


BROKEN_LINES = [
    "Work 12 rounds\nk2, p2 rib. Knit 2 rounds.",
    "Work 12 rnds\nrib, k2 and p2. Knit 2 rounds.",
    "Work 12 rounds\nin k2, p2 rib, then 2 rounds\nstocking stitch.",
    "Work 12 rounds\n2x2 rib. Knit 2 rounds.",
]


@pytest.mark.parametrize("text", BROKEN_LINES)
def test_a_line_ends_between_the_rounds_and_their_fabric(text: str) -> None:
    """All rounds are worked in it, not one."""
    assert after_each_round(read(text, (72,))) == [72] * 14


READ = [
    (
        72,
        ("Rnd 1: *k7, k2tog* around (64 sts). In this manner dec every 3rd rnd 2 more times\n"
        "(48 sts), then every rnd twice (32 sts)."),
        [64, 64, 64, 56, 56, 56, 48, 40, 32],
    ),
    (
        66, "Knit 3 rounds. Next round\nknit every 5th and 6th st together = 55 sts.", [66, 66, 66, 55],
    ),
    (
        72,
        ("Rnd 1: *k7, k2tog* around (64 sts). In this manner dec with 1 st less between decreases each time,\n"
        "every other rnd 2 times, = 48 sts rem, then every rnd 2 times, = 32 sts rem."),
        [64, 64, 56, 56, 48, 40, 32],
    ),
    (
        72,
        ("Cast on 72 sts, 18 on each needle. *k7, k2tog* around (64 sts). Dec every rnd, with 1 st less between "
        "decreases each time, until 2 sts remain on each needle."),
        [64, 56, 48, 40, 32, 24, 16, 8],
    ),
    (84, "Three sts become one: sl 2 tog, k1, psso (hereafter D).\nRnd 1: *k11, D*, rep from * to end (72)", [72]),
    (84, "Double dec: sl 1, k2tog, psso (called dd).\nRnd 1: *k11, dd*, rep from * to end (72)", [72]),
    (
        80, "Rnd 1: k2tog 8 times, k64 (72)\nRnd 2: knit.\nRep rnd 2 until it has been worked 3 times in all.",
        [72, 72, 72, 72],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("stitches", "text", "expected"), READ)
def test_sentences_go_on_in_the_next_line(stitches: int, text: str, expected: list[int]) -> None:
    """The stitches after each round."""
    assert after_each_round(read(text, (stitches,))) == expected
