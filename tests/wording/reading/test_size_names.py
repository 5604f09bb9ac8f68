"""Which sizes a line is for, as writers name them; each text counted by hand."""

import pytest

from roundwright.knitting.rounds.round import Work
from roundwright.wording.proofreading.read import read
from tests.support.readings import after_rounds_of_sizes, counts, number_of_rounds

LARGEST, LARGER_TWO, ALL = (
    "*k8, k2tog* 8 times. 72 sts.",
    "*k7, k2tog* 8 times. 64 sts.",
    "*k6, k2tog* 8 times. 56 sts.",
)
THREE = [[64, 56], [72, 64, 56], [80, 72, 64, 56]]
CAST_ON = "Cast on 64 (72, 80) sts.\n"

NAMES = [
    ("Sizes S/M/L\n", "L:", "M + L:", "All:"),
    ("", "L:", "M and L:", "All:"),
    ("Sizes: S (M) L\n", "L only:", "M & L:", "All sizes:"),
    ("Sizes: tiny / small / newborn\n", "Newborn only:", "Small and newborn:", "Everybody:"),
    ("Toddler / Kid / Grown-up\n", "Grown-up:", "Kid/grown-up:", "Everyone:"),
    ("", "Largest size only:", "Two larger sizes:", "All three sizes:"),
    ("", "Largest only:", "All but the smallest:", "All:"),
    ("", "Rnd 1 (L only):", "Rnd 2 (L and M only):", "Rnd 3 (all):"),
    ("", "Rnd 1 [L]:", "Rnd 2 [M, L]:", "Rnd 3 [all]:"),
    ("", "Rnd 1, L only:", "Rnd 2, M and L:", "Rnd 3, all sizes:"),
    ("Sizes S (M, L)\n", "For L:", "For M and L:", "For all:"),
    ("", "If you are making the large:", "Medium and large:", "Everyone:"),
]


@pytest.mark.parametrize(("sizes", "largest", "larger", "everybody"), NAMES)
def test_a_line_is_for_the_sizes_it_names(sizes: str, largest: str, larger: str, everybody: str) -> None:
    """Names that the text lists, letters, places in the list, and words for all of them."""
    text = f"{sizes}{CAST_ON}{largest} {LARGEST}\n{larger} {LARGER_TWO}\n{everybody} {ALL}"

    assert counts(read(text, (64, 72, 80))) == THREE


TWO_NAMES = [
    ("", "Big size only:", "Both sizes:"),
    ("", "Bigger size:", "Both:"),
    ("", "Shape top: (2nd size only):", "Both sizes:"),
    ("Sizes: Child (Adult)\n", "Adult hat only:", "Both hats:"),
]


@pytest.mark.parametrize(("sizes", "larger", "everybody"), TWO_NAMES)
def test_a_line_is_for_one_of_two_sizes(sizes: str, larger: str, everybody: str) -> None:
    """The larger of two, by its size, its place or its name."""
    reading = read(f"{sizes}{larger} {LARGER_TWO}\n{everybody} {ALL}", (64, 72))

    assert counts(reading) == [[64, 56], [72, 64, 56]]


LARGER_FOUR = [
    "Sizes Toddler, Child, Adult M and Adult L only",
    "Sizes Toddler, Child, Adult M & Adult L only:",
    "For the Toddler, Child, Adult M and Adult L only",
    "Toddler, Child, Adult M and Adult L",
]


@pytest.mark.parametrize("larger_four", LARGER_FOUR)
def test_a_line_of_its_own_names_all_sizes_but_the_smallest(larger_four: str) -> None:
    """Names of two words each make such a line long."""
    text = f"Sizes Baby (Toddler, Child, Adult M, Adult L)\n{larger_four}\n{LARGER_TWO}\nAll sizes\n{ALL}"

    assert counts(read(text, (64, 72, 72, 72, 72))) == [[64, 56], *[[72, 64, 56]] * 4]


@pytest.mark.parametrize(
    ("sizes", "larger"),
    [
        ("Sizes 8 - 9 (10 - 11) years", "Size 10 - 11 only"),
        ("Sizes 8-9 (10-11) years", "10-11 years only:"),
        ("Age 8–9 (10–11)", "Age 10–11 only:"),
        ("To fit 8 - 9 (10 - 11) years", "10 - 11 years:"),
        ("Size: 6-12 months (1-2 years)", "Size 1-2 years:"),
    ],
)
def test_a_size_is_called_by_its_first_and_its_last_age(sizes: str, larger: str) -> None:
    """Two ages a size, with any dash between."""
    text = f"{sizes}\nCast on 64 (72) sts.\n{larger}\n{LARGER_TWO}\nBoth sizes\n{ALL}"

    assert counts(read(text, (64, 72))) == [[64, 56], [72, 64, 56]]


@pytest.mark.parametrize(
    "stitches",
    [
        "K8 (small) or K9 (newborn)",
        "k8 (small) / k9 (newborn)",
        "K9 [newborn], K8 [small]",
        "K8 (small), k9 (newborn)",
    ],
)
def test_a_number_may_stand_by_the_name_of_its_size(stitches: str) -> None:
    """Sizes of 80 and 88 stitches, each with eight fewer."""
    text = f"Sizes: small (newborn)\nCast on 80 (88) sts.\nRnd 1: *{stitches}, k2tog; rep from * around. 72 (80) sts"

    assert counts(read(text, (80, 88))) == [[80, 72], [88, 80]]


def test_numbers_by_names_may_be_those_of_some_sizes() -> None:
    """The round is for the larger two of three sizes."""
    text = f"Sizes S (M, L)\n{CAST_ON}M and L: *K7 (M) or k8 (L), k2tog*. 64 sts M, 72 sts L\nAll: *k6, k2tog* around."

    assert counts(read(text, (64, 72, 80))) == [*THREE[:2], [80, 72, 63]]


@pytest.mark.parametrize("name", ["picot", "eyelet", "lace"])
def test_what_a_round_is_called_is_no_size(name: str) -> None:
    """A word in brackets behind the number of a round is no second size, beside two sizes without names."""
    text = f"Cast on 84 (92) sts.\nRnd 1 ({name}): *yo, k2tog; rep from * around.\nRnd 2: knit."
    assert [len(rounds) for rounds in read(text, (84, 92)).rounds] == [2, 2]


COUNTED = [
    ("", "Sizes 72 (80) only:\nNext rnd:"),
    ("", "For sizes 72 (80) only:"),
    ("", "Sizes 72 (80):"),
    ("", "72 (80) only:"),
    ("", "72 (80) sts only:"),
    ("", "Next rnd (sizes 72 (80) only):"),
    ("", "Sizes 2 (3) only:"),
    ("", "Sizes M (L) only:"),
    ("Sizes 50 (54, 58) cm\n", "Sizes 54 (58) only:"),
    ("Sizes 50 (54, 58) cm\n", "Sizes 54 (58) cm only:"),
]


@pytest.mark.parametrize(("sizes", "larger"), COUNTED)
def test_some_of_the_sizes_are_named_as_they_are_listed(sizes: str, larger: str) -> None:
    """The second of them in a bracket, by their stitches, places, letters or centimetres."""
    reading = read(
        f"{sizes}{CAST_ON}{larger} dec 8 sts evenly. 64 (72) sts\nAll sizes: knit 1 rnd.", (64, 72, 80)
    )

    assert counts(reading) == [[64], [72, 64], [80, 72]]


@pytest.mark.parametrize(
    "rounds",
    [
        "Knit 4 rounds for Child and 6 for Adult.",
        "Knit 4 rounds for the Child size and 6 rounds for the Adult size.",
        "Knit 4 rounds (Child) or 6 rounds (Adult).",
        "Knit 4 (Child) or 6 (Adult) rounds.",
        "Knit 4 rounds for the child's size, 6 for the adult's.",
        "For Child knit 4 rounds, for Adult knit 6.",
        "For Child knit 4 rounds. For Adult knit 6 rounds.",
        "For the child size work 4 rounds in stocking stitch, for the adult size 6 rounds.",
        "Work 4 rounds in rib for child, or 6 for adult.",
        "Work 4 rounds in k2, p2 rib for child and 6 rounds for adult.",
    ],
)
def test_a_number_of_rounds_may_stand_by_the_name_of_its_size(rounds: str) -> None:
    """Counted by hand."""
    reading = read(f"Sizes: Child (Adult)\nCast on 80 (96) sts and join.\n{rounds}", (80, 96))

    assert number_of_rounds(reading) == [4, 6]


ONLY_AT_THE_BEGINNING = [
    ("en", "Large size only knit 2 rounds."),
    ("en", "For the large size only work 2 rounds in stocking stitch."),
    ("en", "Only for the large size knit 2 rounds."),
    ("en", "Large only knit 2 rounds."),
    ("en", "Size 2 only knit 2 rounds."),
    ("de", "Nur noch für die große Mütze 2 Rd re."),
    ("de", "Nur für den großen Kopf noch 2 Rd re."),
    ("da", "Kun for den store størrelse strikkes 2 omg r."),
    ("nb", "Kun stor størrelse strikk 2 omg r."),
    ("nl", "Alleen grote maat brei 2 nld r."),
    ("fr", "Grande taille seulement tricoter 2 tours end."),
    ("es", "Solo talla grande tejer 2 vtas der."),
]
BODIES = {
    "en": "Sizes: Small (Large)\nCast on 40 (48) sts.\nKnit 4 (6) rounds.\n",
    "de": "Größen: S (L)\n40 (48) M anschlagen.\n4 (6) Rd re.\n",
    "da": "Størrelser: S (L)\nSlå 40 (48) m op.\nStrik 4 (6) omg r.\n",
    "nb": "Størrelser: S (L)\nLegg opp 40 (48) m.\nStrikk 4 (6) omg r.\n",
    "nl": "Maten: S (L)\nZet 40 (48) st op.\nBrei 4 (6) nld r.\n",
    "fr": "Tailles : S (L)\nMonter 40 (48) m.\nTricoter 4 (6) tours end.\n",
    "es": "Tallas: S (L)\nMontar 40 (48) p.\nTejer 4 (6) vtas der.\n",
}


@pytest.mark.parametrize(("language", "sentence"), ONLY_AT_THE_BEGINNING)
def test_a_size_with_only_before_the_work_needs_no_sign(language: str, sentence: str) -> None:
    """The sentence is for that size alone, as with a colon."""
    reading = read(BODIES[language] + sentence, (40, 48), language)

    assert not reading.findings
    assert after_rounds_of_sizes(reading) == [[40] * 4, [48] * 8]


@pytest.mark.parametrize(
    "sentence", ["Large size only knit 2 rounds, then purl 1 round.", "Large only: knit 3 rounds."]
)
def test_the_work_of_a_size_ends_with_its_sentence(sentence: str) -> None:
    """Behind a colon the whole line is for that size; without it, all sizes work the next sentence."""
    reading = read(f"{BODIES['en']}{sentence} Knit 1 round.", (40, 48), "en")
    assert after_rounds_of_sizes(reading) == [[40] * (4 + (":" not in sentence)), [48] * 10]


@pytest.mark.parametrize(
    "sentence", ["Only knit 2 rounds.", "Work only 2 rounds.", "Small and Large only knit 2 rounds."]
)
def test_only_without_some_of_the_sizes_is_for_all(sentence: str) -> None:
    """`Only` of a number of rounds names no size."""
    reading = read(BODIES["en"] + sentence, (40, 48), "en")
    assert after_rounds_of_sizes(reading) == [[40] * 6, [48] * 8]


TWO_NAMES = "Sizes: Child (Adult)\nCast on 80 (96) sts and join.\n"


@pytest.mark.parametrize(
    ("rounds", "child", "adult"),
    [
        ("For Child knit 4 rounds, for Adult purl 4 rounds.", "kkkk", "pppp"),
        ("Knit 4 rounds for Child, or purl 6 for Adult.", "kkkk", "pppppp"),
        ("For Child knit 4 rounds. For Adult knit 6 rounds and purl 1 round.", "kkkk", "kkkkkkp"),
        ("For Child knit 4 rounds and purl 1 round, for Adult knit 6 rounds.", "kkkkp", "kkkkkk"),
        ("Knit 4 rounds for Child, 6 for Adult and purl 1 round.", "kkkkp", "kkkkkkp"),
        ("Purl 1 round, knit 4 rounds for Child, 6 for Adult, then purl 1 round.", "pkkkkp", "pkkkkkkp"),
        ("Knit 2 rounds. For Child knit 3 more rounds. Purl 1 round.", "kkkkkp", "kkp"),
        ("Knit 2 rounds. Purl 2 rounds for Adult only. Knit 1 round.", "kkk", "kkppk"),
        ("Rnd 1: knit.\nFor Child repeat rnd 1 4 times, for Adult 6 times.", "kkkkk", "kkkkkkk"),
        ("Knit 4 rounds for Child and Adult.", "kkkk", "kkkk"),
    ],
)
def test_the_work_of_a_named_size_is_of_that_size_alone(rounds: str, child: str, adult: str) -> None:
    """Other work for another size, or more work behind it; what stands behind names at the end is for all."""
    reading = read(f"{TWO_NAMES}{rounds}", (80, 96))

    assert reading.findings == ()
    works = [
        [step.stitch for row in rows for step in row.steps if type(step) is Work] for rows in reading.rounds
    ]
    assert works == [list(child), list(adult)]


def test_rounds_may_be_so_many_in_a_fabric_for_a_name() -> None:
    """The second number stands without its rounds."""
    reading = read(f"{TWO_NAMES}Work 4 rounds in rib for Child, 6 in rib for Adult.", (80, 96))

    assert number_of_rounds(reading) == [4, 6]
