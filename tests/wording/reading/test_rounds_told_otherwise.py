"""Rounds that are told otherwise than one a line: after others, alike, between signs, by their places, from a chart.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts, number_of_rounds


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        ("k7 2tog round, 1 rd plain — k6 2tog round, 1 rd plain — k5 2tog round", 5),
        ("k7, k2tog around; 1 round plain - k6, k2tog around; 1 round plain - k5, k2tog around", 5),
        ("*k7, k2tog* - knit 1 round - *k6, k2tog* - knit 1 round - *k5, k2tog*", 5),
        ("(k7, k2tog) 8 times, plain rd - (k6, k2tog) 8 times, plain rd - (k5, k2tog) 8 times", 5),
        ("k7, k2tog around > 2 rnds plain > k6, k2tog around > 1 rnd plain > k5, k2tog around", 6),
        ("*k7, k2tog* / knit / *k6, k2tog* / knit / *k5, k2tog* (48 sts)", 5),
        ("(k7, k2tog) x8 / k / (k6, k2tog) x8 / k / (k5, k2tog) x8", 5),
    ],
)
def test_dashes_and_slashes_part_plain_rounds_from_others(text: str, rounds: int) -> None:
    """A plain round between two signs is a round."""
    reading = read(text, (72,))

    assert counts(reading) == [[72, 64, 56, 48]]
    assert len(reading.rounds[0]) == rounds


FOUR = "(k8, k2tog) x7 = 63\n(k7, k2tog) x7 = 56\n(k6, k2tog) x7 = 49\n(k5, k2tog) x7 = 42\n"


@pytest.mark.parametrize(
    "words",
    [
        "only the first two get a plain round after.",
        "The first two are followed by a plain round.",
        "Knit one round plain after the first two only.",
        "Work a plain round after each of the first 2 decrease rounds.",
    ],
)
def test_plain_rounds_are_told_of_the_first_decrease_rounds_only(words: str) -> None:
    """Two plain rounds stand among four decrease rounds."""
    assert after_each_round(read(FOUR + words, (70,))) == [63, 63, 56, 56, 49, 42]


def test_plain_rounds_that_are_printed_are_not_put_in_again() -> None:
    """The sentence says no more than what stands in the lines."""
    text = (
        "(k8, k2tog) x7 = 63\nknit\n(k7, k2tog) x7 = 56\nknit\n(k6, k2tog) x7 = 49\n(k5, k2tog) x7 = 42\n"
        "only the first two get a plain round after"
    )
    reading = read(text, (70,))

    assert counts(reading) == [[70, 63, 56, 49, 42]]
    assert len(reading.rounds[0]) == 6


@pytest.mark.parametrize(
    "second",
    [
        "Rnd 2: knit, and so are 4 and 6.",
        "Rnd 2 is plain, same for 4 and 6.",
        "Rnd 2 (and 4, 6): knit",
        "Rnd 2 (also 4 and 6): knit",
        "Rnd 2 (likewise 4, 6): knit",
        "R2, 4 and 6  K",
    ],
)
def test_rounds_that_are_alike_are_named_with_the_first_of_them(second: str) -> None:
    """Rounds 4 and 6 are plain as round 2 is."""
    lines = ["Rnd 1: *k6, k2tog*", second, "Rnd 3: *k5, k2tog*", "Rnd 5: *k4, k2tog*", "Rnd 7: *k3, k2tog*"]
    reading = read("\n".join(lines), (64,))

    assert counts(reading) == [[64, 56, 48, 40, 32]]
    assert len(reading.rounds[0]) == 7


def test_rounds_that_wait_for_others_are_worked_as_soon_as_those_are_told() -> None:
    """What is said of the parts behind both lines is said of what is on the needles then."""
    text = (
        "Divide the 80 sts in 8 parts of 10 sts each.\n"
        "Rounds 1, 4, 6: knit the last 2 sts of each part together.\n"
        "Rounds 2, 3, 5: knit all sts.\n"
        "That leaves 56 sts, 7 in each part.\n"
        "7th round: knit always 2 sts together = 28 sts."
    )

    assert counts(read(text, (80,))) == [[80, 72, 64, 56, 28]]


@pytest.mark.parametrize(
    ("words", "rounds"),
    [
        ("Then always the 11th and 12th stitch together = 88 stitches. 2 rounds without decreases.", 7),
        (
            "Over this 3 rounds without decreases.\nNow the 11th and 12th stitch together all around = 88 stitches.",
            5,
        ),
    ],
)
def test_stitches_are_worked_together_by_their_places_without_a_verb(words: str, rounds: int) -> None:
    """The 11th and 12th together are ten plain and a decrease."""
    plain = "" if words.startswith("Over") else "Over this 3 rounds without decreases.\n"
    reading = read("(k11, k2tog) 8 times. 96 sts.\n" + plain + words, (104,))

    assert counts(reading) == [[104, 96, 88]]
    assert len(reading.rounds[0]) == rounds


@pytest.mark.parametrize(
    "text",
    [
        "a round of k 3, narrow\na round of k 2, narrow\na round of k 1, narrow",
        "K 3, dec.\nK 2, dec.\nK 1, dec.",
        "one round of k 3, narrow; one round of k 2, narrow; one of k 1, narrow",
    ],
)
def test_narrow_at_the_end_of_a_line_is_a_stitch(text: str) -> None:
    """Behind plain stitches it is a decrease and no advice."""
    assert counts(read(text, (40,))) == [[40, 32, 24, 16]]


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        (
            (
                "Change to the larger needle and work the 23 rounds of Chart 3, the 12-stitch repeat fitting ten times "
                "into the round."
            ),
            23,
        ),
        ("Now follow the chart for 20 rounds.", 20),
        ("Work rounds 1-16 of Chart A.", 16),
        (
            "Join the contrast colour and knit the 18 rounds of the chart, reading each from right to left.",
            18,
        ),
    ],
)
def test_so_many_rounds_of_a_chart_are_worked(text: str, rounds: int) -> None:
    """Whatever else is said of the chart."""
    assert len(read(text, (120,)).rounds[0]) == rounds


@pytest.mark.parametrize(
    "words",
    [
        "Place a marker every 12 sts.\ndec: k to 2 before m, k2tog\nknit\nthese 2 rnds to 12 sts",
        "pm every 12\nDec rnd: k to 2 before m, k2tog\nKnit 1 rnd.\nRep these 2 rnds to 12 sts.",
        (
            "Place markers every 12 sts.\nDecrease round: knit to 2 sts before marker, k2tog.\nKnit 1 round.\n"
            "Repeat the last 2 rounds until 12 sts remain."
        ),
    ],
)
def test_a_line_to_the_marker_is_worked_to_every_marker_where_those_are_placed(words: str) -> None:
    """Six markers are placed, so that six stitches go in every decrease round."""
    assert counts(read(words, (72,))) == [list(range(72, 11, -6))]


@pytest.mark.parametrize(
    "heading", ["Crown (decrease at 10 places)", "Top shaping (dec 10 sts in each round)"]
)
def test_a_heading_that_says_how_many_decreases_there_are_works_none(heading: str) -> None:
    """The rounds are told below."""
    assert counts(read(f"{heading}\nRnd 1: (K8, K2tog) x 10 - 90 sts", (100,))) == [[100, 90]]


@pytest.mark.parametrize(
    "words",
    [
        "That eats 9 stitches, so you'll have 99.",
        "That gets rid of 9 stitches and leaves you with 99.",
        "That takes away 9 sts. 99 left.",
    ],
)
def test_what_a_round_takes_away_is_no_count(words: str) -> None:
    """Nine are gone and 99 are left."""
    assert counts(read(f"Round 1: *k10, k2tog* around. {words}", (108,))) == [[108, 99]]


SIZES = "Sizes: baby (child, adult). Cast on 48 (56, 64) sts.\nAll sizes: K 10 rounds.\n"


def test_sizes_begin_one_after_the_other() -> None:
    """`The others` are those that are not named."""
    text = (
        SIZES + "Adult begin here: *K6, K2tog* all around - 56 sts. Knit 1 round.\n"
        "Child begin here, adult keep going: *K5, K2tog* all around - 48 sts. Knit 1 round.\n"
        "Baby begin here, the others keep going: *K4, K2tog* all around - 40 sts. Knit 1 round.\n"
        "Everyone: *K3, K2tog* all around - 32 sts."
    )

    assert counts(read(text, (48, 56, 64))) == [[48, 40, 32], [56, 48, 40, 32], [64, 56, 48, 40, 32]]


@pytest.mark.parametrize(
    "words",
    [
        "Only child and adult: *K1, k2tog* to end = 28 and 32 sts.",
        "Child and adult only: *K1, k2tog* to end. 28, 32 sts.",
        "Child and adult only: *k– (1, 1), k2tog* to end — – (28, 32) sts.",
    ],
)
def test_a_line_for_some_sizes_has_the_counts_of_those(words: str) -> None:
    """A dash stands for the size that is left out."""
    text = SIZES + "*K2, k2tog* to end = 36 (42, 48) sts.\n" + words

    assert counts(read(text, (48, 56, 64))) == [[48, 36], [56, 42, 28], [64, 48, 32]]


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        ("knit 8 rnds and 26 rnds st st", 34),
        ("Work 8 rnds in 2x2 rib and 26 rnds in st st.", 34),
        ("2x2 rib 8 rnds and st st 26 rnds", 34),
        ("Purl 1 round and knit 10 rounds.", 11),
        ("Work 10 rnds k1, p1 rib and 20 rnds plain.", 30),
        ("8 rounds of 1x1 rib followed by 26 rounds of st st", 34),
        ("Work 8 rnds in rib, 2 rnds purl and 26 rnds st st.", 36),
        ("Knit 8 rounds in MC and 4 rounds in CC.", 12),
        ("[Purl 1 round and knit 1 round] 5 times.", 10),
    ],
)
def test_rounds_told_with_and_are_all_worked(text: str, rounds: int) -> None:
    """The second number counts as the first does."""
    assert number_of_rounds(read(text, (64,))) == [rounds]


@pytest.mark.parametrize(
    ("text", "counted"),
    [
        ("Rnd 1: 9 times (k11, k2tog). 108 sts", [117, 108]),
        ("Rnd 1: 9 x (k11, k2tog) = 108 sts", [117, 108]),
        ("Rnd 1: 8 times (k11, k2tog), k13", [117, 109]),
        ("Rnd 1: k13, 8 times (k11, k2tog). 109 sts", [117, 109]),
        ("Rnd 1: eight times [k11, k2tog], knit 13.", [117, 109]),
    ],
)
def test_a_number_of_times_stands_before_its_bracket(text: str, counted: list[int]) -> None:
    """Eight times leave thirteen stitches to knit."""
    assert counts(read(text, (117,))) == [counted]


@pytest.mark.parametrize("words", ["dec rnd x3 (32)", "Dec rnd x 3. 32 sts.", "3 x dec rnd"])
def test_so_many_decrease_rounds(words: str) -> None:
    """Three more than the one that is told."""
    begun = "Place 8 markers.\nDec rnd: *k to 2 sts before m, k2tog; rep from * around. 56 sts\nKnit 1 rnd.\n"

    assert counts(read(begun + words, (64,))) == [[64, 56, 48, 40, 32]]


@pytest.mark.parametrize(
    "words",
    [
        "ssk at the beginning and k2tog at the end of each needle.",
        "k2tog at the beginning and ssk at the end of every needle.",
        "ssk at the start, k2tog at the end of every needle.",
        "k2tog at both ends of each needle.",
        "on each needle ssk at the beginning and k2tog at the end.",
        "each needle: ssk, k to last 2 sts, k2tog.",
    ],
)
def test_a_decrease_at_the_beginning_and_one_at_the_end_are_made_on_each_needle(words: str) -> None:
    """Two a needle, on four."""
    assert counts(read(f"16 sts on each of 4 needles.\nRnd 1: {words}", (64,))) == [[64, 56]]


@pytest.mark.parametrize(
    "definition",
    [
        "Left dec (vf): skp.",
        "Abbreviations\nleft decrease (VF): skp",
        "left dec (VF) = skp",
        "Left dec (vf): sl 1, k1, psso.",
        "Right dec (vg): k2tog. Left dec (vf): skp.",
    ],
)
def test_the_short_name_in_a_bracket_is_told_with_the_long_one(definition: str) -> None:
    """`vf` is what `left dec` is."""
    assert counts(read(f"{definition}\nRnd 1: *k6, vf*", (64,))) == [[64, 56]]


def test_a_known_stitch_may_be_told_in_words() -> None:
    """The line that tells it works nothing."""
    text = "cdd (centred double decrease): sl 2, k1, p2sso.\nRnd 1: *k5, cdd*"

    assert counts(read(text, (64,))) == [[64, 48]]


@pytest.mark.parametrize(
    "begun",
    [
        "Beginning with rnd 5,",
        "Starting with rnd 5,",
        "Beginning in rnd 5",
        "Starting on rnd 5,",
        "From rnd 5",
    ],
)
def test_the_round_from_which_something_is_done_is_not_worked_again(begun: str) -> None:
    """The sentence was lost, or round 5 looked for."""
    crown = "Rnd 1: *k8, k2tog; rep from *\nRnd 2: knit\nRnd 3: *k7, k2tog; rep from *\nRnd 4: knit\n"
    reading = read(f"{crown}{begun} dec every rnd until 8 sts remain.", (80,))

    assert reading.findings == ()
    assert counts(reading) == [[80, 72, 64, 56, 48, 40, 32, 24, 16, 8]]
    assert number_of_rounds(reading) == [11]


def test_starting_with_stitches_casts_on() -> None:
    """`Starting with` says also how many stitches there are."""
    assert counts(read("Starting with 80 sts, knit 1 rnd.", (80,))) == [[80]]
