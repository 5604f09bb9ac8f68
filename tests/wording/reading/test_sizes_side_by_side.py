"""Sizes told side by side, in rows of a table, line by line and by their numbers. The counts are worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_rounds_of_sizes, counts, number_of_rounds

S, M, L = (
    (80, 70, 60, 50, 40, 30, 20, 10),
    (90, 80, 70, 60, 50, 40, 30, 20, 10),
    (100, 90, 80, 70, 60, 50, 40, 30),
)
TABLE = """Sizes S (M, L). Begin with 80 (90, 100) sts.
1 | *k6 (7, 8), k2tog* x 10 | 70 | 80 | 90
2 | knit | 70 | 80 | 90
3 | *k5 (6, 7), k2tog* x 10 | 60 | 70 | 80
4 | *k4 (5, 6), k2tog* x 10 | 50 | 60 | 70
5 | L only: knit | - | - | 70
6 | *k3 (4, 5), k2tog* x 10 | 40 | 50 | 60
7 | *k2 (3, 4), k2tog* x 10 | 30 | 40 | 50
8 | *k1 (2, 3), k2tog* x 10 | 20 | 30 | 40
9 | S only: k2tog around | 10 | - | -
10 | M and L: *k1 (1, 2), k2tog* x 10 | – | 20 | 30
11 | L only: *k1, k2tog* x 10 | – | – | 20
12 | M and L: k2tog around | - | 10 | 10
13 | All sizes: knit | 10 | 10 | 10"""


def test_a_size_passes_over_the_numbers_of_others() -> None:
    """A dash in the column of a size stands for a round that it does not have."""
    reading = read(TABLE, (80, 90, 100))
    assert counts(reading) == [list(S), list(M), [*L, 20, 10]]
    assert number_of_rounds(reading) == [9, 10, 12]


CELLS = """Start with 18 (27) sts.
Rnd | Small | Large
1 | knit | knit
2 | k2tog around | *k1, k2tog* around
3 | - | k2tog around"""
CELLS_AND_COUNTS = """Start with 18 (27) sts.
Round | S | st | L | st
1 | knit | 18 | knit | 27
2 | k2tog | 9 | k1, k2tog | 18
3 | - | - | k2tog | 9"""


@pytest.mark.parametrize("table", [CELLS, CELLS_AND_COUNTS])
def test_each_size_may_have_a_cell_of_its_own(table: str) -> None:
    """With its count in the next cell or without."""
    reading = read(table, (18, 27))
    assert counts(reading) == [[18, 9], [27, 18, 9]]
    assert number_of_rounds(reading) == [2, 3]


BELOW_THEIR_ROUND = [
    (
        "Round 1:\n1st size: [K7, k2tog] 8 times. 64 sts.\n2nd size: [K6, k2tog] 10 times. 70 sts.\n\n"
        "All sizes\nRound 2: Knit."
    ),
    "Next round:\nSmall: [K7, k2tog] 8 times. 64 sts.\nLarge: [K6, k2tog] 10 times. 70 sts.\nNext round: Knit.",
    (
        "Dec round:\nSmall only: [K7, k2tog] 8 times—64 sts.\nLarge only: [K6, k2tog] 10 times—70 sts.\n"
        "Both sizes:\nKnit 1 round."
    ),
    "Rnd 1, Small: [K7, k2tog] 8 times. 64 sts.\nRnd 1, Large: [K6, k2tog] 10 times. 70 sts.\nRnd 2: knit.",
    "R1: size 1: [K7, k2tog] 8 times. 64 sts.\nR1: size 2: [K6, k2tog] 10 times. 70 sts.\nR2: knit.",
    "Size 1: [K7, k2tog] 8 times. 64 sts.\nSize 2: [K6, k2tog] 10 times. 70 sts.\nSizes 1 and 2: knit 1 round.",
]


@pytest.mark.parametrize("text", BELOW_THEIR_ROUND)
def test_the_sizes_of_a_round_are_told_line_by_line(text: str) -> None:
    """Below its number or behind it, by name or by number."""
    reading = read(f"Sizes Small (Large)\nCast on 72 (80) sts.\n{text}", (72, 80))
    assert counts(reading) == [[72, 64], [80, 70]]
    assert number_of_rounds(reading) == [2, 2]


def test_a_round_called_in_a_bracket_is_no_size() -> None:
    """`Round 1 (Decrease Round)` in a text for two sizes."""
    text = "CROWN (both sizes S/M [L/XL])\nRound 1 (Decrease Round): *K2, p2tog; rep from * to end—72 [84] sts remain."
    assert counts(read(text, (96, 112))) == [[96, 72], [112, 84]]


def test_the_first_of_four_sizes_may_stand_in_a_bracket() -> None:
    """`(80) 88 (96) 104`, as Scandinavian firms print."""
    text = """There are now (80) 88 (96) 104 sts on the needle.
Place 4 markers with (20) 22 (24) 26 sts between each marker.
Decrease round: *K2tog, knit until 2 sts remain before the next marker, ssk*, repeat from * to * 4 times = 8 sts dec.
Next round: Knit.
Knit these 2 rounds a total of (4) 5 (6) 7 times = (48) 48 (48) 48 sts."""
    reading = read(text, (80, 88, 96, 104))
    assert [size[-1] for size in counts(reading)] == [48, 48, 48, 48]
    assert number_of_rounds(reading) == [8, 10, 12, 14]


def test_a_dash_before_colons_is_the_first_size() -> None:
    """`k– (1: 3)`."""
    text = """Round 1: *P1, ssk, k1 (3: 5), k2tog; rep from * to end. 24 (36: 48) sts.
2nd and 3rd sizes only
Round 2: *P1, ssk, k– (1: 3), k2tog; rep from * to end. – (24: 36) sts."""
    assert counts(read(text, (36, 48, 60))) == [[36, 24], [48, 36, 24], [60, 48, 36]]


@pytest.mark.parametrize(
    "rounds",
    [
        "RND 5-10 [5-12]: P",
        "Rnds 5–10 (5–12): purl",
        "Rounds 5 - 10 (5 - 12): purl",
        "Rnds 5 to 10 (5 to 12): purl",
        "Rnds 5-10/5-12: purl",
    ],
)
def test_the_rounds_of_the_second_size_stand_in_a_bracket(rounds: str) -> None:
    """The second size works two rounds more before the decreases, as printed."""
    text = f"Cast on 60 (70) sts.\nRnds 1-4: knit\n{rounds}\nRnd 11 (13): (K8, k2tog) around. 54 (63) sts"
    reading = read(text, (60, 70))
    assert not reading.findings
    assert number_of_rounds(reading) == [11, 13]


def test_the_rounds_of_three_sizes_stand_in_two_brackets() -> None:
    """A bracket for each further size, or one for both."""
    for rounds in ("Rnds 5-10 (5-12) [5-14]", "Rnds 5-10 (5-12, 5-14)"):
        text = (
            f"Cast on 60 (70, 80) sts.\nRnds 1-4: knit\n{rounds}: purl\nRnd 11 (13, 15): (K8, k2tog) around."
        )
        reading = read(text, (60, 70, 80))
        assert not reading.findings
        assert number_of_rounds(reading) == [11, 13, 15]


@pytest.mark.parametrize(
    "line",
    [
        "*K2tog (k3tog); rep from * to end. 9 sts.",
        "K2tog (k3tog) around. 9 sts.",
        "[K2tog (sk2p)] to end. (9 sts)",
    ],
)
def test_a_stitch_may_be_another_for_each_size(line: str) -> None:
    """The largest of three sizes has two rounds of its own."""
    text = (
        f"S (M, L)\nCast on 18 (27, 36) sts.\nSizes S and M only\nRnd 1: {line}\n"
        "Size L only\nRnd 1: *K2tog; rep from * to end. 18 sts.\nRnd 2: *K2tog; rep from * to end. 9 sts."
    )
    assert counts(read(text, (18, 27, 36))) == [[18, 9], [27, 9], [36, 18, 9]]


def test_plain_stitches_may_stand_with_their_letter_for_each_size() -> None:
    """`k8 (k9)` is as good as `k8 (9)`."""
    text = "Cast on 80 (88) sts.\nRnd 1: *K8 (k9), k2tog; rep from * to end. 72 (80) sts."
    assert counts(read(text, (80, 88))) == [[80, 72], [88, 80]]


def test_a_stitch_in_a_bracket_that_is_worked_several_times_is_no_size() -> None:
    """Two sizes work the same stitches."""
    text = "Cast on 80 (88) sts.\nRnd 1: K8, (k2tog) 8 times, k to end. 72 (80) sts."
    assert counts(read(text, (80, 88))) == [[80, 72], [88, 80]]


@pytest.mark.parametrize("rounds", ["5, 6, 6", "6, 6, 7", "5, 6, 7"])
def test_sizes_without_brackets_may_have_as_many_rounds(rounds: str) -> None:
    """Two of three sizes may be alike."""
    text = f"Cast on 32, 40, 48 sts.\nK1, P1 rib for {rounds} rounds.\nKnit 1 round."
    numbers = [int(number) + 1 for number in rounds.split(", ")]
    assert number_of_rounds(read(text, (32, 40, 48))) == numbers


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 1: size 1: *k8, k2tog* size 2: *k9, k2tog*; 72 (80) sts.",
        "Rnd 1: size 1: (k8, k2tog) 8 times, size 2: (k9, k2tog) 8 times. 72 (80) sts.",
        "Rnd 1: size S only: *k8, k2tog*, size M only: *k9, k2tog*. S: 72 sts; M: 80 sts.",
        "Crown (size S: 80 sts; size M: 88 sts)\nRnd 1: *k8 (9), k2tog*. Size S 72 sts, size M 80 sts.",
    ],
)
def test_sizes_are_told_before_their_work_and_their_counts(line: str) -> None:
    """With no sign but a comma or a star between two of them."""
    reading = read(f"Sizes S (M)\n{line}", (80, 88))
    assert not reading.findings
    assert counts(reading) == [[80, 72], [88, 80]]


@pytest.mark.parametrize(
    ("language", "only", "plain"),
    [
        ("en", "Only {} → [k{}, k2tog] x 7", "knit 1 rnd"),
        ("en", "Only {} - [k{}, k2tog] x 7", "knit 1 rnd"),
        ("de", "nur {} → [{} re, 2 re zus] x 7", "danach 1 Rd re"),
        ("de", "nur {}: [{} re, 2 re zus] x 7", "danach 1 Rd re"),
    ],
)
def test_the_work_of_some_sizes_stands_behind_an_arrow(language: str, only: str, plain: str) -> None:
    """The line before ends there, though it ends in a word that a size may follow."""
    both = "M und L" if language == "de" else "M and L"
    text = f"{only.format('L', 12)}, {plain}\n{only.format(both, 11)}, {plain}"
    reading = read(f"S (M, L)\n{text}", (84, 91, 98), language)
    assert after_rounds_of_sizes(reading) == [[], [84, 84], [91, 91, 84, 84]]


@pytest.mark.parametrize(
    "end",
    [
        "(size 2 only: knit the last st)",
        "(Size 2: last st is knit)",
        "(size 2: end k1)",
        "(2nd size: k1)",
        "(size 2 only: k1)",
    ],
)
def test_a_bracket_tells_how_a_round_of_a_size_ends(end: str) -> None:
    """The other sizes work the round as it stands before the bracket."""
    reading = read(f"*k2tog* around {end} = 12 (14) sts.", (24, 27))
    assert not reading.findings
    assert after_rounds_of_sizes(reading) == [[12], [14]]


def test_the_last_stitch_is_a_single_stitch() -> None:
    """It stands behind a repeat that goes around, in the bracket of a size or without."""
    sizes = read("Rnd 1: *k8, k2tog* (size 2 only: knit the last st).", (80, 81))
    assert after_rounds_of_sizes(sizes) == [[72], [73]]
    assert after_rounds_of_sizes(read("Rnd 1: *k8, k2tog*, k last st.", (81,))) == [[73]]


def test_a_bracket_with_a_repeat_is_the_whole_round_of_its_size() -> None:
    """A line that begins with a size is for it alone."""
    reading = read("*k8, k2tog* around (size 2: *k7, k2tog*) = 72 (80) sts.", (80, 90))
    assert after_rounds_of_sizes(reading) == [[72], [80]]
    reading = read("Size 2 only: rnd 1: *k2tog* to last st, k1 (14 sts).", (24, 27))
    assert after_rounds_of_sizes(reading) == [[], [14]]
