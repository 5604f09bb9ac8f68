"""Lines for some sizes, called by what the pattern calls them, up to the line that is for all again.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts


@pytest.mark.parametrize(
    ("directions", "only", "both"),
    [
        ("The figures in square brackets are for the Man's cap.", "Man's cap only.—", "Both caps.—"),
        ("N.B.—The numbers in brackets are for the larger hat.", "Larger hat only.—", "Both hats.—"),
        ("Figures in brackets are for the father.", "Father only.—", "Both sizes.—"),
        ("The instructions in brackets are for Mother's cap.", "Mother's cap only.—", "Both.—"),
        ("The figures in square brackets are for the Man's cap.", "Man's only.—", "All caps.—"),
        ("The directions in parentheses are for the big size.", "Big size only.—", "Both sizes.—"),
    ],
)
def test_sizes_head_the_lines_down_to_the_line_for_both(directions: str, only: str, both: str) -> None:
    """99 less 9 are 90 for both: the larger alone has two rounds more, 9 stitches fewer."""
    text = (
        f"{directions}\nCast on 99 [108] sts.\n1st round. * K.9 [10], K.2 tog.; rep. from * to end. 90 [99] sts.\n"
        f"{only}2nd round. K.\n3rd round. * K.9, K.2 tog.; rep. from * to end. 90 sts.\n"
        f"{both}Next round. * K.8, K.2 tog.; rep. from * to end. 81 sts.\nNext round. K."
    )
    assert counts(read(text, (99, 108))) == [[99, 90, 81], [108, 99, 90, 81]]


@pytest.mark.parametrize(
    ("row", "all_of"),
    [
        ("(K5 / K7, K2tog) 6 times. 36 / 48 sts left", "ALL LABELS - everyone has 36 sts now"),
        ("*K5 / K7, K2tog* 6 times. 36 / 48 sts", "All hats - you have 36 sts"),
        ("[K5 / K7, K2tog] x 6. 36 / 48 sts", "ALL SIZES"),
        ("(K2tog, K5 / K7) 6 times, 36 / 48 sts", "All caps: 36 sts"),
        ("*K5 / K7, K2tog; rep from * to end: 36 / 48 sts", "All versions - 36 sts"),
    ],
)
def test_two_of_three_sizes_have_a_stitch_each_between_slashes(row: str, all_of: str) -> None:
    """Lemon has 42 and green 54 of the three sizes, white waits with 36; then green alone takes in 12."""
    text = (
        "The order is always in this order: WHITE / LEMON / GREEN.\nCast on 36 / 42 / 54 stitches.\n"
        f"LEMON and GREEN only\nRow 1: {row}\nRow 2: Purl.\nGREEN only\nRow 3: (K2, K2tog) 12 times. 36 sts\n"
        f"{all_of}\nNext row: (K4, K2tog) 6 times. 30 sts left"
    )
    assert counts(read(text, (36, 42, 54))) == [[36, 30], [42, 36, 30], [54, 48, 36, 30]]


@pytest.mark.parametrize(
    "only",
    [
        "Only the men's size: 2nd rd:",
        "Men's size only: 2nd rd:",
        "Only for the men's size: 2nd rd:",
        "For men's only: 2nd rd:",
        "Men's: 2nd rd:",
    ],
)
def test_a_round_is_only_for_the_size_with_a_name_in_the_possessive(only: str) -> None:
    """Both sizes have 24 stitches before the last round."""
    text = (
        "Sizes: women's (men's)\nCast on 36 (48) sts.\n1st rd: * k 1 (2), k2tog * repeat *–* = 24 (36) sts\n"
        f"{only} * k 1, k2tog * repeat *–* = 24 sts\n"
        "Both sizes, the last rd: * sl 1, k2tog, pull the slipped st over * repeat *–* = 8 sts"
    )
    assert counts(read(text, (36, 48))) == [[36, 24, 8], [48, 36, 24, 8]]


@pytest.mark.parametrize(
    "words",
    [
        "* sl 1, k2tog, pull the slipped st over *, repeat to end",
        "*slip 1, k2tog, lift the slipped stitch over; rep from * to end",
        "(sl 1, k2tog, draw the slipped st over) 8 times",
        "*sl 1, k 2 tog, bring the slipped stitch over* around",
        "*sl1, k2tog, take the slipped stitch over, rep from * around",
    ],
)
def test_a_slipped_stitch_is_brought_over_by_many_verbs(words: str) -> None:
    """Three stitches become one."""
    assert counts(read(f"Rnd 1: {words}. 8 sts", (24,))) == [[24, 8]]


@pytest.mark.parametrize(
    "words",
    [
        "knit all sts two by two together = 8 sts",
        "knit all the stitches two by two together, 8 sts",
        "k all sts 2 by 2 together (8 sts)",
        "knit all sts 2 and 2 together = 8 sts",
        "knit every 2 sts together = 8 sts",
    ],
)
def test_all_stitches_are_knitted_together_two_by_two(words: str) -> None:
    """16 stitches become 8."""
    assert counts(read(f"Last round: {words}", (16,))) == [[16, 8]]


@pytest.mark.parametrize(
    "words",
    [
        "Stripe pattern: * 6 rnds Gold, 6 rnds Navy, repeat from * throughout, from Gold on, decreasing as follows:",
        "* 6 rnds A, 6 rnds B *, repeat from * to * throughout, decreasing as follows:",
        "Stripes: * 4 rounds red, 4 rounds white, rep from * throughout and decrease as below:",
        "Keep to stripes of * 6 rnds navy, 6 rnds gold; rep from * throughout, at the same time decreasing thus:",
        "Colours: * 3 rnds Gold, 3 rnds Navy, repeat from * throughout, decreasing at the same time as follows:",
    ],
)
def test_stripes_throughout_are_told_of_the_rounds_below(words: str) -> None:
    """Only the three rounds below are worked."""
    text = f"Cast on 32 sts.\n{words}\nKnit 2 rnds.\nNext rnd: * K 2, k 2 tog, repeat from * around—24 sts."
    reading = read(text, (32,))

    assert counts(reading) == [[32, 24]]
    assert len(reading.rounds[0]) == 3


@pytest.mark.parametrize(
    ("listed", "largest", "larger"),
    [
        ('To fit head size\nChild 20"\nWoman 21"\nMan 23"', "Size Man only:", "Sizes Woman and Man only:"),
        ("Sizes\nChild: 20 in\nWoman: 21 in\nMan: 23 in", "Man only:", "Woman and Man:"),
        (
            "SIZES\nTo fit head\nAcorn 20 in\nOak 21 in\nPine 23 in",
            "Size Pine only:",
            "Sizes Oak and Pine only:",
        ),
        (
            "A hat for child, lady or gentleman.",
            "Gentleman's size only:",
            "Lady's and gentleman's sizes only:",
        ),
        ("For your baby, your kid and your dad.", "For the dad only:", "For kid and dad only:"),
    ],
)
def test_sizes_are_called_by_whom_they_are_for(listed: str, largest: str, larger: str) -> None:
    """88 less 8 are 80 for the largest, and 72 for two of them before all go on."""
    text = (
        f"{listed}\n\nWith circular needle, cast on 72 (80, 88) sts.\n"
        f"{largest} Next rnd: *K9. K2tog. Rep from * around. 80 sts.\nNext rnd: Knit.\n"
        f"{larger} Next rnd: *K8. K2tog. Rep from * around. 72 sts.\nNext rnd: Knit.\n"
        "All sizes: 1st rnd: *K7. K2tog. Rep from * around. 64 sts."
    )
    assert counts(read(text, (72, 80, 88))) == [[72, 64], [80, 72, 64], [88, 80, 72, 64]]


@pytest.mark.parametrize(
    "only",
    [
        "Size L/XL ONLY – Rnd 10:",
        "L/XL only: Rnd 10:",
        "For size L/XL only, Rnd 10:",
        "Larger size (L/XL) only:\nRnd 10:",
        "Size L/XL:\nRnd 10:",
        "Rnd 10 (L/XL only):",
    ],
)
def test_two_letters_with_a_slash_are_one_size(only: str) -> None:
    """72 less 8 are 64 for the larger of the two, and half of them for both."""
    text = (
        "Cast on 96 (108) sts.\nRnd 9: *K1, K2tog; rep from * around. 64 (72) sts.\n"
        f"{only} *K7, K2tog; rep from * around. 64 sts.\n"
        "BOTH sizes – Last rnd: *K2tog; rep from * around. 32 sts."
    )
    assert counts(read(text, (96, 108))) == [[96, 64, 32], [108, 72, 64, 32]]


@pytest.mark.parametrize(
    ("row", "only"),
    [
        ("* K[3:4], K2 tog; rep from * to end. [32:40] sts.", "2nd and 3rd sizes only\n"),
        ("*K(3:4), K2tog; rep from * to end. (32:40) sts", "2nd and 3rd sizes only: "),
        ("*K[3, 4], K2 tog; rep from * to end. [32, 40] sts.", "Medium and large only: "),
        ("*K[3/4], K2 tog; rep from * to end. [32/40] sts.", "Medium and large: "),
        ("*K (3, 4), K2 tog; rep from * to end. (32, 40) sts.", "Two larger sizes only:\n"),
    ],
)
def test_a_list_in_brackets_without_a_first_number_is_for_the_sizes_of_the_line(row: str, only: str) -> None:
    """8 stitches fewer for two of three sizes, then for the third alone, then for all."""
    text = (
        f"Cast on 32[40:48] sts\n{only}Next round: {row}\n"
        "3rd size only\nNext round: * K3, K2 tog; rep from * to end. 32 sts.\n"
        "All sizes\nNext round: * K2, K2 tog; rep from * to end. 24 sts."
    )
    assert counts(read(text, (32, 40, 48))) == [[32, 24], [40, 32, 24], [48, 40, 32, 24]]


BEGINNING_LATER = [
    "Start at Rnd 3 (1).",
    "Smaller size: start at Rnd 3.",
    "Size 1: start at Rnd 3. Size 2: start at Rnd 1.",
    "For the smaller size, begin at Rnd 3.",
]


@pytest.mark.parametrize("line", BEGINNING_LATER)
def test_a_smaller_size_begins_its_crown_at_a_later_round(line: str) -> None:
    """Though brim and body were worked before."""
    crown = "Rnd 1: *k8, k2tog* - 90 sts\nRnd 2: k\nRnd 3: *k7, k2tog* - 80 sts"
    reading = read(f"CO 90 (100) sts.\nKnit 2 rounds.\n{line}\n{crown}", (90, 100))
    assert counts(reading) == [[90, 80], [100, 90, 80]]


FOR_SOME = [
    ("Rnd 1: *k8, k2tog* (size 2 only) - 90 sts", "Rnd 2: k (size 2 only)"),
    ("Rnd 1: *k8, k2tog* (size 2 only - size 1 skip to rnd 3) - 90 sts", "Rnd 2: k (size 2 only)"),
    ("Rnd 1: *k8, k2tog* (only for size 2) - 90 sts", "Rnd 2: k (only for size 2)"),
    ("Rnd 1 (100 sts only): *k8, k2tog* - 90 sts", "Rnd 2 (100 sts only): k"),
    ("Rnd 1 (100 stitches only): *k8, k2tog* - 90 sts", "Rnd 2 (100 stitches only): k"),
]


@pytest.mark.parametrize(("first", "second"), FOR_SOME)
def test_the_size_of_a_round_may_stand_behind_its_work_or_be_a_count(first: str, second: str) -> None:
    """A bracket names the size, or what it cast on."""
    reading = read(f"CO 90 (100) sts.\n{first}\n{second}\nRnd 3: *k7, k2tog* - 80 sts", (90, 100))
    assert counts(reading) == [[90, 80], [100, 90, 80]]


@pytest.mark.parametrize(
    ("smaller", "larger"),
    [
        ("Size S only:", "Size M only:"),
        ("M only:", "L only:"),
        ("For size Medium:", "For size Large:"),
        ("Small only:", "Medium only:"),
        ("L size only:", "XL size only:"),
    ],
)
def test_two_letters_name_two_sizes(smaller: str, larger: str) -> None:
    """No list of the sizes stands in the text: of two letters, the first is the smaller size (common practice)."""
    text = (
        f"Cast on 80 (90) sts.\nRnds 1-20 (24): knit.\n{smaller}\nRnd 21: *k8, k2tog; rep from * around. 72 sts.\n"
        f"{larger}\nRnd 25: *k7, k2tog; rep from * around. 80 sts.\nBoth sizes:\nNext rnd: knit.\n"
        "Next rnd: *k6, k2tog; rep from * around. 63 (70) sts."
    )
    reading = read(text, (80, 90))

    assert counts(reading) == [[80, 72, 63], [90, 80, 70]]
    assert reading.findings == ()


FOUR = "Sizes: Baby (Child, Adult S, Adult L)\nCO 80 (88, 96, 104).\nRnd 1: knit.\n"


@pytest.mark.parametrize(
    "line",
    [
        "(k8, k2tog) around [k6, k2tog around for Child; k10, k2tog for Adult S; k11, k2tog for Adult L]",
        "(k8, k2tog) around [Child: (k6, k2tog) around; Adult S: (k10, k2tog) around; Adult L: (k11, k2tog) around]",
        "*k8, k2tog; rep from * around (for Child: *k6, k2tog; for Adult S: *k10, k2tog; for Adult L: *k11, k2tog)",
        "k8, k2tog around for Baby, k6, k2tog for Child, k10, k2tog for Adult S, k11, k2tog for Adult L",
        (
            "(k8, k2tog) 8 times for Baby; (k6, k2tog) 11 times for the Child size "
            "[(k10, k2tog) 8 times for Adult S; (k11, k2tog) 8 times for Adult L]"
        ),
        (
            "*k8, k2tog* around for Baby and *k6, k2tog* around for Child and *k10, k2tog* around for Adult S "
            "and *k11, k2tog* around for Adult L"
        ),
    ],
)
def test_sizes_are_named_beside_their_work_in_the_line(line: str) -> None:
    """What is told before a bracket is for the sizes that the bracket does not name."""
    reading = read(f"{FOUR}Dec rnd: {line}. 72 (77, 88, 96) sts\nNext rnd: knit.", (80, 88, 96, 104))

    assert counts(reading) == [[80, 72], [88, 77], [96, 88], [104, 96]]
    assert reading.findings == ()


@pytest.mark.parametrize(
    "line",
    [
        "(k8, k2tog) around [k6, k2tog for Child; k10, k2tog for Adult S; k11, k2tog for Adult L]",
        "(k8, k2tog) around / (k6, k2tog) around / (k10, k2tog) around / (k11, k2tog) around",
    ],
)
def test_a_slip_in_the_work_of_one_size_is_mended_there(line: str) -> None:
    """88 stitches are 11 times 8, and no multiple of 9; the line is no round that stands there twice."""
    text = f"{FOUR}Rnd 2: {line}. 72 (77, 88, 96) sts"
    reading = read(text.replace("k6", "k7"), (80, 88, 96, 104))

    assert [finding.size for finding in reading.findings] == [2]
    assert reading.repaired == text


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Size 50/56: *k7, k2tog* (64 sts).\nSize 62/68: *k8, k2tog* (72 sts).\nKnit 1 rnd."),
        ("en", "Size 50/56 only: *k7, k2tog* (64 sts).\nSize 62/68 only: *k8, k2tog* (72 sts).\nKnit 1 rnd."),
        (
            "de",
            "Größe 50/56: *7 M re, 2 M re zus* (64 M).\nGröße 62/68: *8 M re, 2 M re zus* (72 M).\n1 Rd re.",
        ),
        (
            "fr",
            "Taille 50/56 : *7 m end, 2 m ens* (64 m).\nTaille 62/68 : *8 m end, 2 m ens* (72 m).\n1 tour end.",
        ),
        ("nl", "Maat 50/56: *7 r, 2 sam* (72 -> 64 st).\nMaat 62/68: *8 r, 2 sam* (80 -> 72 st).\n1 toer r."),
    ],
)
def test_a_size_is_called_by_two_lengths_with_a_slash(language: str, text: str) -> None:
    """Each of two lines is for one size."""
    assert counts(read(text, (72, 80), language)) == [[72, 64], [80, 72]]


def test_two_sizes_of_needles_are_no_names_of_sizes() -> None:
    """Both needles are for both sizes of the hat."""
    text = "Cast on 72 (80) sts with size 6 (7) needles. K 1 rnd. Change to size 8 (9) needles: *k6, k2tog* around."

    assert counts(read(text, (72, 80))) == [[72, 63], [80, 70]]


@pytest.mark.parametrize("only", ["Adult only:", "For the adult only:", "Size Adult only:"])
def test_a_line_may_end_in_the_size_that_the_next_lines_are_for(only: str) -> None:
    """The adult alone has a decrease round and a plain round before the rounds of all sizes."""
    text = (
        f"Child 40 sts, adult 48 sts.\nK 4 rnds. {only}\n(k4, k2tog) 8 times, 40 sts.\nK 1 rnd.\n"
        "All sizes:\n(k3, k2tog) 8 times, 32 sts."
    )
    assert [len(rounds) for rounds in read(text, (40, 48)).rounds] == [5, 7]
    assert counts(read(text, (40, 48))) == [[40, 32], [48, 40, 32]]


@pytest.mark.parametrize(
    "often",
    [
        "For S work 10 repeats, for L 12 repeats: *k4, k2tog*.",
        "For S work 10 repeats, for L work 12 repeats: *k4, k2tog*.",
        "For L work 12 repeats, for S 10 repeats: *k4, k2tog*.",
        "For S work 10 times, for L 12 times: *k4, k2tog*.",
    ],
)
def test_how_often_each_size_works_it_may_head_the_round_of_all(often: str) -> None:
    """The round behind the colon is worked by both sizes."""
    reading = read(f"Sizes S (L)\n{often}", (60, 72))
    assert not reading.findings
    assert [[round_.after for round_ in rounds] for rounds in reading.rounds] == [[50], [60]]


def test_rounds_of_each_size_before_a_count_are_told_apart() -> None:
    """The neighbour: what stands behind the colon is no work, and the verbs are two."""
    text = "Sizes S (L)\nFor S knit 4 rounds, for L purl 6 rounds: 60 (72) sts."
    assert [len(rounds) for rounds in read(text, (60, 72)).rounds] == [4, 6]
