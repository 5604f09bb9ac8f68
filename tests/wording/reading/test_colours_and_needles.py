"""Plain rounds told colour by colour, needles told by their millimetres, lines that are for everybody again.

The numbers of rounds and the counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts, number_of_rounds, worked


@pytest.mark.parametrize(
    "words",
    [
        "Knit 8 rounds grey, 4 rounds brown, then 14 rounds grey.",
        "Change to No. 8 needles. Knit 8 rounds grey, 4 rounds brown and finally 14 rounds grey. Break off the brown.",
        "Knit 8 rounds in grey, 4 rounds in brown, then 14 rounds in grey.",
        "With grey knit 8 rounds, with brown knit 4 rounds, then with grey knit 14 rounds.",
        "Knit 8 rnds MC, 4 rnds CC, and then 14 rnds MC again.",
        "Stripes: knit 8 rounds A, 4 rounds B; then knit 14 rounds A.",
    ],
)
def test_rounds_told_colour_by_colour_are_all_worked(words: str) -> None:
    """8, 4 and 14 rounds are 26, and one more behind them."""
    assert number_of_rounds(read(f"Cast on 80 sts.\n{words}\nKnit 1 round.", (80,))) == [27]


@pytest.mark.parametrize(
    "words",
    [
        "*With B knit 4 rounds, with A knit 4 rounds; repeat from * twice more, then with B knit 4 rounds.",
        "*Knit 4 rounds in A, knit 4 rounds in B; repeat from * 2 more times, then 4 rounds in A.",
        "*4 rounds B, 4 rounds A; repeat from * twice more, then 4 rounds B (28 rounds).",
        "*K 4 rnds with brown, k 4 rnds with white* 3 times, then k 4 rnds with brown.",
        "*Knit 4 rounds brown, 4 rounds white, rep from * twice more, then 4 rounds brown.",
        "*2 rounds B, 2 rounds A*, rep from * to * until 28 rounds.",
    ],
)
def test_stripes_are_worked_again_from_the_star(words: str) -> None:
    """Three times two stripes of 4 rounds and one more are 28 rounds, between one before and one behind."""
    assert number_of_rounds(read(f"Cast on 80 sts.\nKnit 1 round.\n{words}\nKnit 1 round.", (80,))) == [30]


@pytest.mark.parametrize(
    "words",
    [
        "1 round *1 white, 3 blue*, 2 rounds blue only, 1 round *3 blue, 1 white*.",
        "Pattern: 1 rnd *k1 white, k3 blue*; 2 rnds blue; 1 rnd *k3 blue, k1 white*.",
        "*Knit 1 rnd with MC, 1 rnd: k3 MC, k1 CC*. Rep from * to * 2 times in all.",
        "*1 rnd: k1 white, k3 blue; 1 rnd blue; rep from * once more.",
        "Dots: 3 rnds MC, 1 rnd *k3 MC, k1 CC*.",
        "Work the pattern in this manner: 1 rnd *1 white, 3 blue*, 2 rnds blue, 1 rnd *3 blue, 1 white*.",
    ],
)
def test_a_round_of_two_colours_is_a_round_beside_those_of_a_single_one(words: str) -> None:
    """Four rounds."""
    assert number_of_rounds(read(f"Cast on 80 sts.\n{words}\nKnit 1 round.", (80,))) == [5]


@pytest.mark.parametrize(
    "words",
    [
        "Change to needles 4 mm and to stockinette. Knit 32 rds.",
        "Change to 5 mm and st st. Knit 32 rounds.",
        "Switch to needles 4.5 mm and to stocking stitch. Knit 32 rounds.",
        "Change to 4 mm needles and st st. Knit 32 rounds.",
        "Changing to 4½ mm, knit 32 rounds in stocking stitch.",
        "Using needles 4.5 mm knit 32 rounds.",
    ],
)
def test_millimetres_of_a_needle_are_no_length_to_be_knitted(words: str) -> None:
    """The rounds are 32."""
    assert number_of_rounds(read(f"Cast on 80 sts.\n{words}\nKnit 1 round.", (80,))) == [33]


@pytest.mark.parametrize(
    "words",
    [
        "Knit in the round 20 rds ribbing of 3 k, 2 p.",
        "Knit in the round 20 rds of 3 k, 2 p.",
        "Work in the round 20 rounds k3, p2 rib.",
        "Rib in the round 20 rounds: k3, p2.",
        "Work in the round 20 rds of k3, p2 ribbing.",
    ],
)
def test_a_number_of_rounds_behind_in_the_round_is_no_number_of_a_round(words: str) -> None:
    """The rounds of rib are 20."""
    assert number_of_rounds(read(f"Cast on 80 sts.\n{words}\nKnit 1 round.", (80,))) == [21]


@pytest.mark.parametrize(
    "everybody",
    [
        "Everybody (you all have 48 sts now):",
        "All sizes (48 sts):",
        "Everyone (48 sts on your needles):",
        "All three sizes, now 48 sts:",
        "ALL SIZES – everyone has 48 sts now",
        "All sizes now have 48 sts.",
    ],
)
def test_all_sizes_go_on_with_their_count_in_a_bracket(everybody: str) -> None:
    """The smallest size, which had no round of its own, works the last one too."""
    text = (
        "Sizes: Baby [Kid, Adult]\nCO 48 [56, 64] sts.\nAdult only:\nRnd A: *k6, k2tog* around – 56 sts\n"
        f"Kid + Adult:\nRnd B: *k5, k2tog* around – 48 sts\n{everybody}\nRnd 1: *k4, k2tog* around – 40 sts"
    )
    assert counts(read(text, (48, 56, 64))) == [[48, 40], [56, 48, 40], [64, 56, 48, 40]]


def test_the_last_needle_of_a_round_does_not_take_the_words_of_the_next_round() -> None:
    """The back keeps its 8 stitches; the second round is another."""
    text = "Rnd 1: Front: k6, k2tog, back: knit to end Rnd 2: Front: knit, back: knit"
    assert worked(read(text, (16,))) == [(16, 15, "k6, k2tog, k8"), (15, 15, "knit")]


BANDS = [
    ("Then come the stripes: 4 rnds white, 4 rnds red, 4 rnds white, 4 rnds red, all in st st.", 18),
    ("Stripes: 4 rnds white, 4 rnds red, 4 rnds white.", 14),
    ("4 rnds white, 4 rnds red, 4 rnds white", 14),
    ("Knit 4 rnds white, 4 rnds red, 4 rnds white and 4 rnds red, all in st st.", 18),
    ("Knit 4 rnds with white, then 4 rnds with red, then 4 rnds with blue.", 14),
    ("Work 4 rnds white, 4 rnds red. Work 4 rnds white.", 14),
    # stripes that are worked over and over, as often as is told behind them
    ("Stripes: 4 rnds white, 4 rnds red.\nWork 32 rnds in stripes.", 34),
    ("Work in stripes of 4 rnds white, 4 rnds red for 32 rnds.", 34),
    ("Work 4 rnds white, 4 rnds red three times.", 26),
    ("Work 4 rnds white, 4 rnds red. Repeat these 8 rnds twice more.", 26),
]


@pytest.mark.parametrize(("stripes", "rounds"), BANDS)
def test_bands_that_are_told_in_a_row_are_all_worked(stripes: str, rounds: int) -> None:
    reading = read(f"Cast on 80 sts. Knit 2 rnds.\n{stripes}", (80,), "en")

    assert not reading.findings
    assert number_of_rounds(reading) == [rounds]
