"""Sizes in headings, numbered paragraphs, stripes told in one breath, dashes before counts.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts, faults, number_of_rounds


@pytest.mark.parametrize(
    ("listed", "headings"),
    [
        (
            "Sizes - tiny / small / newborn",
            ("*** NEWBORN ONLY ***", "*** SMALL AND NEWBORN ***", "*** ALL SIZES ***"),
        ),
        ("Sizes: tiny (small, newborn)", ("** Newborn **", "** Small, newborn **", "** All **")),
        ("Sizes: tiny (small, newborn)", ("* Newborn only *", "* Small and newborn only *", "* All sizes *")),
        (
            "Sizes: tiny / small / newborn",
            ("--- Newborn only ---", "--- Small and newborn ---", "--- All sizes ---"),
        ),
        ("Sizes: tiny / small / newborn", ("Newborn only", "Small and newborn", "All sizes")),
    ],
)
def test_headings_name_the_sizes_of_the_lines_below(listed: str, headings: tuple[str, str, str]) -> None:
    """Each size joins in under the heading that names it, whatever stands around the heading."""
    first, second, third = headings
    text = (
        f"{listed}\nCAST ON 48 / 56 / 64.\n{first}\nK6, K2TOG all the way round (56 left). Knit 1 round.\n"
        f"{second}\nK5, K2TOG all the way round (48 left). Knit 1 round.\n"
        f"{third}\nK4, K2TOG all the way round (40 left). Knit 1 round."
    )
    assert counts(read(text, (48, 56, 64))) == [[48, 40], [56, 48, 40], [64, 56, 48, 40]]


def test_a_size_with_its_count_heads_the_rounds_below() -> None:
    """The count is compared; a list of such lines tells what each size casts on."""
    child, woman = "Size child – 72 sts", "Size woman – 96 sts"
    rounds = "Rnd 1: *k4, k2tog* ({}).\nRnd 2: knit."
    apart = (
        f"Sizes: child and woman\n{child}\n{rounds.format(60)}\n{woman}\n{rounds.format(80)}\nRnd 3: knit."
    )
    assert number_of_rounds(read(apart, (72, 96))) == [2, 3]
    listed = f"Sizes: child and woman\n{child}\n{woman}\nRnd 1: *k4, k2tog*.\nRnd 2: knit."
    assert counts(read(listed, (72, 96))) == [[72, 60], [96, 80]]
    miscounted = apart.replace("96 sts", "98 sts")
    assert faults(read(miscounted, (72, 96))) == [("count_differs", 5)]


@pytest.mark.parametrize(
    ("listed", "only", "all_of"),
    [
        (
            "Pupil size (P) and staff size (S).",
            "6.1 Staff size only:",
            "6.2 Both sizes, now alike:",
        ),
        ("Sizes: pupil size, staff size.", "Staff only:", "Both sizes:"),
        ("The kitten size (cat size) hat.", "Cat size only:", "All sizes, alike from here:"),
        ("Comes in a pixie size and in a giant size.", "Giant size only", "Both sizes"),
        ("Kid size (K), teen size (T).", "T only:", "Everybody:"),
    ],
)
def test_sizes_are_named_before_the_word_for_a_size(listed: str, only: str, all_of: str) -> None:
    """The first that is named has the first number of every list."""
    text = (
        f"{listed}\nCast on 88 / 104.\n{only}\n(k11, k2tog) × 8. 96 sts\n(k10, k2tog) × 8. 88 sts\n"
        f"{all_of}\n(k9, k2tog) × 8. 80 sts"
    )
    assert counts(read(text, (88, 104))) == [[88, 80], [104, 96, 88, 80]]


def test_the_number_of_a_paragraph_stands_before_the_label_of_its_round() -> None:
    """`5.2` numbers the paragraph; the round is that of the label behind it."""
    lettered = "5.1 Round A: *k6, k2tog* 8 times.\n5.2 Round B: k.\n5.3 Round C: *k5, k2tog* 8 times."
    assert after_each_round(read(lettered, (64,))) == [56, 56, 48]

    text = "5.1 Round 1: (k6, k2tog) × 8.\n5.2 Round 2: knit.\n5.3 Repeat rounds 1 and 2, but with k5.\n3.5 mm needles."
    assert after_each_round(read(text, (64,))) == [56, 56, 48, 48]


def test_rounds_called_by_letters_are_repeated_by_them() -> None:
    """`Repeat A and B` names two rounds, whatever the first letter is elsewhere."""
    text = (
        "Pm every 18 sts.\nRound A: in each section knit to 2 sts before the marker, k2tog.\nRound B: knit.\n"
        "Repeat A and B eight more times. 54 sts"
    )
    reading = read(text, (108,))

    assert counts(reading) == [[*range(108, 53, -6)]]
    assert len(reading.rounds[0]) == 18


@pytest.mark.parametrize(
    "text",
    [
        "Two rounds white and four rounds navy, all plain knitting, and do that five times, thirty rounds.",
        "Knit 2 rounds white and 4 rounds navy; do that 5 times.",
        "Work 2 rounds in A and 4 rounds in B, five times (30 rounds).",
        "Now 3 rounds of red and 3 rounds of white, and repeat that five times, thirty rounds in all.",
        "Stripes next. 1 round red, 2 rounds white, 3 rounds blue, all knit, five times over, thirty rounds.",
    ],
)
def test_stripes_are_as_many_rounds_as_their_bands(text: str) -> None:
    """Six rounds a stripe, five times."""
    assert number_of_rounds(read(text, (100,))) == [30]


@pytest.mark.parametrize("dash", ["—", "–", " — ", " - "])
def test_a_dash_before_a_smaller_number_is_no_range(dash: str) -> None:
    """`Rep Rnd 13—10 sts` is round 13 again and the count it leaves."""
    text = f"Rnd 13: *K2tog; rep from * around{dash}20 sts.\nRnd 14: Rep Rnd 13{dash}10 sts"
    wrong = text.replace("10 sts", "9 sts")

    assert counts(read(text, (40,))) == [[40, 20, 10]]
    assert [finding.code for finding in errors(read(wrong, (40,)))] == ["count_differs"]


@pytest.mark.parametrize(
    "label", ["Rnd 1: Set-up rnd (dec):", "Rnd 1: Set-up round:", "Rnd 1: Crown round (decrease):"]
)
def test_a_numbered_round_may_have_a_name_too(label: str) -> None:
    """One round, whatever it is called."""
    assert after_each_round(read(f"{label} *K11, k2tog; rep from * to end of rnd.", (78,))) == [72]


@pytest.mark.parametrize(
    "text",
    [
        "1st: *K8, k2tog* to end.\n2nd: K.\n3rd: *K7, k2tog* to end.\n4th: As 2nd.\n5th: *K6, k2tog* to end.",
        "1st: *K8, k2tog* to end.\n2nd and every alt.: K.\n3rd: *K7, k2tog* to end.\n5th: *K6, k2tog* to end.",
        "Shape top. 1st: *K8, k2tog* to end. 2nd & all even: K. 3rd: *K7, k2tog*. 5th: *K6, k2tog* to end.",
        "1st (dec): *K8, k2tog*.\n2nd: K.\n3rd (dec): *K7, k2tog*.\n4th: K.\n5th (dec): *K6, k2tog*.",
    ],
)
def test_an_ordinal_alone_numbers_a_round(text: str) -> None:
    """Without the word for a round, before a colon."""
    assert after_each_round(read(text, (80,))) == [72, 72, 64, 64, 56]
