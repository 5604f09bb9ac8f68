"""Sizes with dashes between, as leaflets of the North print them; what is told of every round, and of parts.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import counts, number_of_rounds


@pytest.mark.parametrize("dash", ["-", "–"])
def test_numbers_of_the_sizes_stand_between_dashes(dash: str) -> None:
    """Three sizes, with lengths and rounds of their own."""
    text = (
        "Cast on 88 - 96 - 104 sts. Knit rib (k2, p2) for 2½ - 3 - 3½ cm.\nKnit 10 - 12 - 14 rounds.\n"
        "Dec. as follows: * K9 - 10 - 11, k2tog *, repeat * - * the round out = 80 - 88 - 96 sts.\nKnit 1 round."
    )
    reading = read(text.replace(" - ", f" {dash} ").replace(f"* {dash} *", "* - *"), (88, 96, 104))

    assert counts(reading) == [[88, 80], [96, 88], [104, 96]]
    assert number_of_rounds(reading) == [13, 15, 17]


def test_two_sizes_with_a_dash_are_those_that_are_cast_on_so() -> None:
    """`Rnds 2 - 3` are still rounds."""
    reading = read(
        "Cast on 88 - 96 sts.\nRnd 1: *k9 - 10, k2tog* = 80 - 88 sts.\nRnds 2 - 3: Knit.\nKnit 4 - 6 rounds.",
        (88, 96),
    )

    assert counts(reading) == [[88, 80], [96, 88]]
    assert number_of_rounds(reading) == [7, 9]


def test_a_count_between_dashes_is_repaired_as_it_is_printed() -> None:
    """The last size leaves 81."""
    text = "Cast on 72 - 81 - 90 sts.\n5th rd: *k6 - 7 - 8, k 2 tog* to the end of rd = 63 - 72 - 80 sts\n6th rd: k"
    (wrong,) = errors(read(text, (72, 81, 90)))

    assert wrong.repair == "5th rd: *k6 - 7 - 8, k 2 tog* to the end of rd = 63 - 72 - 81 sts"


@pytest.mark.parametrize(
    "words",
    [
        "Repeat the instruction between * and * six times in each round.",
        "Work the rounds in the table. Repeat the instruction between * and * six times in each round.",
        "In each round, repeat between * and * 6 times.",
        "Repeat from * to * six times in every round.",
        "The instructions between * and * are worked six times in each round.",
        "Each round is repeated from * to * six times.",
        "Every round: repeat * to * to the end.",
        "Follow the table, working each instruction between * and * six times.",
        "Repeat the bracketed part 6 times in each round.",
    ],
)
def test_what_is_repeated_in_every_round_is_told_before_them(words: str) -> None:
    """The sentence works no round itself."""
    reading = read(
        f"Cast on 48 sts.\nRnds 9-20: Knit.\n\nCROWN\n{words}\n"
        "21 | *K6, K2tog* | 42\n22 | Knit | 42\n23 | *K5, k2tog* | 36",
        (48,),
    )

    assert counts(reading) == [[48, 42, 36]]
    assert len(reading.rounds[0]) == 15


@pytest.mark.parametrize(
    "words",
    [
        "(And so for every even round.)",
        "(The same for all even rounds.)",
        "Do the same on every even round.",
        "(Likewise all even-numbered rounds.)",
        "(Every even round is the same.)",
        "(All even rounds are knit like this.)",
        "Work every even round like this one.",
        "(And every other round after this.)",
        "(And so for every even round up to round 6.)",
        "(And all even rounds to and including the 6th round the same.)",
    ],
)
def test_a_plain_round_stands_for_all_even_ones(words: str) -> None:
    """Rounds 4 and 6 are not printed."""
    reading = read(
        f"1: *k11, k2tog; repeat from * to end. (96 sts)\n2: knit. {words}\n"
        "3: *k10, k2tog; repeat from * to end. (88 sts)\n"
        "5: *k9, k2tog; repeat from * to end. (80 sts)\n7: *k8, k2tog; repeat from * to end. (72 sts)",
        (104,),
    )

    assert counts(reading) == [[104, 96, 88, 80, 72]]
    assert len(reading.rounds[0]) == 7


@pytest.mark.parametrize(
    "words",
    [
        "[6 sections of 16 sts]",
        "[96 sts; 6 sections of 16 sts]",
        "(6 equal sections of 16 sts)",
        "[6 wedges of 16 sts each]",
    ],
)
def test_stitches_of_sections_are_no_count_of_the_round(words: str) -> None:
    """Six times 16 are the 96 that there are."""
    reading = read(
        f"Set-up rnd: *K16, pm; rep from * 4 more times, knit to BOR. {words}\nRnd 1: *k14, k2tog*. [90 sts]",
        (96,),
    )

    assert counts(reading) == [[96, 90]]


def test_a_decrease_told_before_is_the_first_of_those_that_are_counted() -> None:
    """Three decreases, eight stitches each, the first of them in the line before."""
    reading = read(
        "Cast on 96 sts.\nNow place 8 marking threads in the work, with 12 sts between each.\n"
        "Decrease round: knit 2 together after each marking thread = 8 decreases.\n"
        "Decrease in this way every 3rd round 3 times = 72 sts,\nthereafter every 2nd round 3 times = 48 sts.",
        (96,),
    )

    assert counts(reading) == [[96, 88, 80, 72, 64, 56, 48]]
    assert len(reading.rounds[0]) == 1 + 2 * 3 + 3 * 2


@pytest.mark.parametrize(("dash", "inside"), [("-", "-"), ("–", "–"), ("/", "/"), ("-", ", ")])
@pytest.mark.parametrize("first", [2, 3, 4])
def test_the_larger_sizes_stand_in_a_bracket_behind_those_between_dashes(
    dash: str, inside: str, first: int
) -> None:
    """`88-96-104 (112-116)` are five sizes."""

    def listed(*values: int) -> str:
        smaller, larger = values[:first], values[first:]
        return f"{dash.join(map(str, smaller))} ({inside.join(map(str, larger))})"

    text = (
        f"Cast on {listed(88, 96, 104, 112, 116)} stitches. Knit {listed(3, 3, 4, 4, 5)} rounds.\n"
        f"Knit 1 round where you decrease {listed(4, 6, 8, 10, 8)} stitches evenly "
        f"= {listed(84, 90, 96, 102, 108)} stitches.\n"
        "Insert 6 markers. On the next round decrease 1 stitch after each marker by knitting 2 together "
        f"(= 6 stitches decreased). Decrease like this every 2nd round a total of {listed(3, 3, 4, 4, 5)} times, "
        f"then every round {listed(2, 3, 3, 4, 4)} times = {listed(54, 54, 54, 54, 54)} stitches left."
    )
    reading = read(text, (88, 96, 104, 112, 116))

    assert [size[:3] for size in counts(reading)] == [
        [88, 84, 78],
        [96, 90, 84],
        [104, 96, 90],
        [112, 102, 96],
        [116, 108, 102],
    ]
    assert [size[-1] for size in counts(reading)] == [54] * 5


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Legg opp 88-(96)-104 m.\n* 9-(10)-11 r, 2 r sm * omg rundt = 80-(88)-96 m.", "nb"),
        (
            "Zet 88–(96–104) st op.\n* 9–(10–11) st r, 2 st r samenbr *, van * tot * 8 x = 80–(88–96) st.",
            "nl",
        ),
    ],
)
def test_brackets_stand_between_the_dashes_of_old_leaflets(text: str, language: str) -> None:
    assert counts(read(text, (88, 96, 104), language)) == [[88, 80], [96, 88], [104, 96]]
