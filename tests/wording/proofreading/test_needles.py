"""Stitches that a text shares over needles, and those there are."""

import pytest

from roundwright.wording.proofreading.read import read


def found(text: str, *cast_on: int) -> list[tuple[int, int | None]]:
    """The sizes and stitches of what does not add up."""
    return [
        (finding.size or 0, finding.stitches)
        for finding in read(text, cast_on).findings
        if finding.code == "split_differs"
    ]


SHARED = [
    ("16 sts on each of 4 needles", 64),
    ("64 sts, 16 on each of the four needles", 64),
    ("Divide evenly over 4 needles, 16 sts per needle", 64),
    ("Place the stitches on 4 dpns: 16 on each", 64),
    ("Divide over 3 needles: 20, 20, 24", 64),
    ("Arrange on three needles (20, 24 and 20)", 64),
    ("Slip them onto 3 double-pointed needles, 20-24-20", 64),
]


@pytest.mark.parametrize(("words", "count"), SHARED)
def test_stitches_that_add_up_are_not_spoken_of(words: str, count: int) -> None:
    """As many are on the needles as are cast on."""
    assert not found(f"{words}.\nRnd 1: knit.", count)


@pytest.mark.parametrize(("words", "count"), SHARED)
def test_stitches_that_do_not_add_up_are_a_note(words: str, count: int) -> None:
    """Four more are there than the needles hold."""
    text = f"Cast on {count + 4} sts.\n{words.removeprefix('64 sts, ')}.\nRnd 1: knit."

    assert found(text, count + 4) == [(1, 4)]


def test_each_size_has_its_own_stitches_on_the_needles() -> None:
    """80 are four times 20; 84 are not four times 22."""
    text = "Cast on 80 (84) sts, 20 (22) sts on each of 4 needles.\nRnd 1: knit."

    assert found(text, 80, 84) == [(2, -4)]


def test_the_stitches_are_those_that_are_left_by_then() -> None:
    """After the decrease round 56 are shared."""
    assert not found("Rnd 1: *k6, k2tog*\n14 sts on each of 4 needles.\nRnd 2: knit.", 64)


@pytest.mark.parametrize(
    "words",
    [
        "Rnd 1: dec 2 sts on each of 4 needles.",
        "Work until 4 sts remain on each of 4 needles.",
        "Knit 2 sts on each of 4 needles together.",
        "With 4 needles, 16 rounds are easy.",
        "20 sts on each of two needles and 24 on the third.",
    ],
)
def test_what_is_worked_on_each_needle_is_no_share(words: str) -> None:
    """Decreases and what is worked to are not the stitches there are."""
    assert not found(f"{words}\nRnd 2: knit.", 64)


@pytest.mark.parametrize(
    "rest", [", the rest on the fourth", "; the rest on the fourth", " - the remaining ones on the last"]
)
def test_the_rest_on_another_needle_is_no_fault(rest: str) -> None:
    """16 on each of three and the rest on the fourth are as many as there are."""
    text = "Cast on 68 sts.\n16 sts on each of three needles{}.\nRnd 1: knit."

    assert not found(text.format(rest), 68)
    assert found(text.format(""), 68) == [(1, 20)]
