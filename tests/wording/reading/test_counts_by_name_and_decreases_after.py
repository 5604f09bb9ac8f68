"""Counts behind the names of sizes, how a round ends in some of them, and decreases told by what comes after each."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, after_rounds_of_sizes

COUNTED = [
    ("en-US", "Child 70 sts, adult 84 sts.\n*k5, k2tog* around. {}. Work 3 rounds in st st."),
    ("nb", "Barn har 70 m, voksen har 84 m.\n*5 r, 2 r sm* omgangen rundt. {}. Strikk 3 omg glatt."),
    ("da", "Barn har 70 m, voksen har 84 m.\n*5 r, 2 r sm* omgangen rundt. {}. Strik 3 omg glat."),
]
COUNTS = {
    "en-US": ("Child 60 sts, adult {} sts", "Adult: {} sts, child: 60 sts", "Child has 60 sts and adult {}"),
    "nb": ("Barn 60 m, voksen {} m", "Barn har 60 m, voksen har {} m"),
    "da": ("Barn 60 m, voksen {} m", "Barn har 60 m, voksen har {} m"),
}


@pytest.mark.parametrize(("language", "text"), COUNTED)
def test_counts_behind_the_names_of_sizes_are_each_of_its_size(language: str, text: str) -> None:
    """And a wrong one is a finding, of one size."""
    for told in COUNTS[language]:
        right = read(text.format(told.format(72)), (70, 84), language)
        wrong = read(text.format(told.format(71)), (70, 84), language)

        assert after_rounds_of_sizes(right) == [[60] * 4, [72] * 4]
        assert errors(right) == []
        assert len(errors(wrong)) == 1


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en-US", "k2tog around, in the middle size end with k1 = 8 (12, 15) sts"),
        ("en-US", "k2tog around, ending with k1 in the middle size. There are 8 (12, 15) sts."),
        ("en-US", "k2tog around, for size 2 end k1: 8 (12, 15) sts"),
        ("da", "strik 2 r sm omg rundt, i den mellemste str slutter du med 1 r = 8 (12) 15 m"),
        ("nb", "strikk 2 r sm omg rundt, i den mellomste størrelsen slutter du med 1 r = 8 (12) 15 m"),
    ],
)
def test_a_round_ends_otherwise_in_a_size(language: str, text: str) -> None:
    """The other sizes are worked to the end."""
    reading = read(text, (16, 23, 30), language)

    assert after_rounds_of_sizes(reading) == [[8], [12], [15]]
    assert errors(reading) == []


NAMED = "Place 8 markers, 12 sts apart. Dec rnd: k2tog before each marker.\n"
NAVNGIVET = "Sæt 8 markører med 12 masker imellem. Indtagningsomgang: 2 ret sammen lige før hver markør.\n"
NAVNGITT = "Sett 8 merker med 12 masker imellom. Felleomgang: strikk 2 rett sammen før hvert merke.\n"


@pytest.mark.parametrize(
    ("language", "text", "after"),
    [
        (
            "en-US",
            f"{NAMED}Take your time.\nAfter the first decrease (88 sts) knit 2 rounds, after the second (80) the same.",
            [88, 88, 88, 80, 80, 80],
        ),
        (
            "en-US",
            (
                f"{NAMED}After the 1st dec rnd (88 sts), knit 1 round; after the 2nd (80 sts) too. "
                "The third and fourth decrease follow directly: 72 and 64 sts."
            ),
            [88, 88, 80, 80, 72, 64],
        ),
        (
            "da",
            (
                f"{NAVNGIVET}Efter den første indtagning (88 masker) strikkes 2 omgange ret. Efter den anden (80) og "
                "den tredje (72) kun 1 omgang ret. Fjerde og femte indtagning kommer lige efter hinanden: "
                "64 og 56 masker."
            ),
            [88, 88, 88, 80, 80, 72, 72, 64, 56],
        ),
        (
            "nb",
            f"{NAVNGITT}Etter 1. felling (88 m) strikkes 2 omg rett, etter 2. felling (80 m) 1 omg rett.",
            [88, 88, 88, 80, 80],
        ),
    ],
)
def test_decreases_told_by_what_comes_after_each(language: str, text: str, after: list[int]) -> None:
    """Each is a round, with those behind it."""
    reading = read(text, (96,), language)

    assert after_each_round(reading) == after
    assert errors(reading) == []


@pytest.mark.parametrize(
    "text",
    [
        "*k10, k2tog* around (88). After the first dec rnd (88 sts), knit 2 rnds.",
        "Dec rnd: *k10, k2tog* around (88).\nKnit 1 rnd. After the first dec rnd (88 sts), knit 1 rnd.",
        f"{NAMED}Knit 1 rnd. After the first dec rnd (88 sts), knit 1 rnd.",
    ],
)
def test_a_round_told_before_is_not_worked_again_by_what_comes_after_it(text: str) -> None:
    """There the decreases have their own places, or plain rounds stand behind the round under its name."""
    reading = read(text, (96,))

    assert after_each_round(reading) == [88, 88, 88]
    assert errors(reading) == []
