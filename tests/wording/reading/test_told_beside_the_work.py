"""Rounds in between, notes, names of sizes and figures that stand beside the work; each text counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, faults

CROWN = (
    "Rnd 1: *K5, k2tog, pm; rep from * to end.\nRnds 3, 5: *K to 2 before marker, k2tog; rep from * to end.\n"
)
"""A crown of 56 stitches, of which the even rounds are told apart."""


@pytest.mark.parametrize(
    "others",
    [
        "Intermediate rounds: Knit.",
        "Intervening rnds: K all sts.",
        "The rounds in between: Knit.",
        "Rnds between: k.",
        "In-between rounds: knit.",
        "The other rounds are knit.",
    ],
)
def test_rounds_in_between_stand_where_no_other_is_given(others: str) -> None:
    reading = read(f"{CROWN}{others}\nRnd 7: K2tog around.", (56,))
    assert after_each_round(reading) == [48, 48, 40, 40, 32, 32, 16]


def test_a_round_in_between_of_another_name_is_worked() -> None:
    assert (
        after_each_round(read("Rnd 1: Knit.\nPlain round: Knit.\nRnd 2: *K6, k2tog* around.", (56,)))[-1]
        == 49
    )


@pytest.mark.parametrize(
    "note", ["You will be decreasing 7 sts every 3rd rnd.", "You will decrease every other round."]
)
def test_what_the_rounds_below_do_is_told_beforehand(note: str) -> None:
    reading = read(f"Rnds 1-2: Knit.\n{note}\nRnd 3: *K6, k2tog* around.\nRnd 4: Knit.", (56,))
    assert after_each_round(reading) == [56, 56, 49, 49]


def test_decreases_told_with_their_end_are_worked() -> None:
    reading = read("Knit 2 rounds.\nYou will decrease 8 sts every 2nd round until 40 sts remain.", (56,))
    assert after_each_round(reading)[-1] == 40


@pytest.mark.parametrize(
    "note",
    [
        "Note: you will need to use the last knit stitch of the round before for your first ssk.",
        "In other words, you work a decrease in every purl column.",
        "Another way of seeing it is that each p2 becomes p1.",
    ],
)
def test_notes_behind_a_round_work_none(note: str) -> None:
    text = f"Next rnd: *K2, p2tog* around. {note} 42 sts.\nNext rnd: *K2, p1* around."
    assert after_each_round(read(text, (56,))) == [42, 42]


def test_a_note_that_tells_a_round_is_worked() -> None:
    text = "Next rnd: *K5, k2tog* around. Note: knit 3 rounds.\n*K4, k2tog* around."
    assert after_each_round(read(text, (56,))) == [48, 48, 48, 48, 40]


def test_a_number_in_words_has_its_figures_behind_it() -> None:
    text = "Rnd 1: Knit.\nRnd 2: *K2, p2* around.\nRep rnds 1 and 2 three (3) more times.\n*K5, k2tog* eight (8) times."
    assert after_each_round(read(text, (56,))) == [56] * 8 + [48]


def test_other_figures_behind_a_number_are_wrong() -> None:
    assert faults(read("Rnd 1: Knit.\nRnd 2: Purl.\nRep rnds 1 and 2 three (4) more times.", (56,)))


def test_a_count_may_lack_the_bracket_that_opens_it() -> None:
    text = "Rnd 1: *K5, k2tog* around.\nRnds 2-3: knit 48 sts).\nRnd 4: *K4, k2tog* around 40 sts)."
    assert after_each_round(read(text, (56,))) == [48, 48, 48, 40]


def test_a_wrong_count_before_such_a_bracket_is_found() -> None:
    assert faults(
        read("Rnd 1: *K5, k2tog* around.\nRnds 2-3: knit 47 sts).\nRnd 4: *K4, k2tog* around.", (56,))
    )


def test_a_repeat_without_its_opening_bracket_is_found() -> None:
    assert faults(read("Rnd 1: K5, k2tog) 8 times. 48 sts.", (56,))) == [("bracket", 1)]


def test_the_numbers_of_rounds_stand_in_a_column() -> None:
    text = "Row 1        K2, P2\nRow 2 – 5        Knit\nRow 6        *K5, k2tog* around"
    assert after_each_round(read(text, (56,))) == [56] * 5 + [48]


def test_sizes_stand_behind_the_name_of_a_round() -> None:
    text = (
        "Cast on 84 (96) sts.\nIncrease rnd, size S: (K14, m1) 6 times. 90 sts.\n"
        "Increase rnd, size M: (K16, m1) 6 times. 102 sts.\nKnit 1 rnd."
    )
    assert after_rounds_of_sizes(read(text, (84, 96))) == [[90, 90], [102, 102]]


@pytest.mark.parametrize("names", ["72 (Teen) 81 (Adult)", "72 (Teen), 81 (Adult)"])
def test_names_stand_behind_the_counts_that_are_cast_on(names: str) -> None:
    text = f"Cast on {names} sts.\nTeen only: *K6, k2tog* around.\nAdult only: *K7, k2tog* around."
    assert after_rounds_of_sizes(read(text, (72, 81))) == [[63], [72]]


@pytest.mark.parametrize(
    "increases",
    [
        "Increase 1 every seventh stitch.",
        "Every 7th stitch, increase 1.",
        "Knit, and at every seventh stitch, you increase 1.",
        "*K6, knit into the front and back of the next stitch (kfb); repeat from * to end.",
        "Change to 5 mm needles as you knit the next round, and k6, kfb, and then repeat this.",
    ],
)
def test_increases_at_every_so_many_stitches(increases: str) -> None:
    assert after_each_round(read(increases, (56,))) == [64]


def test_two_increases_behind_a_stitch_are_none_of_these() -> None:
    assert after_each_round(read("Next rnd: *K7, kfb (twice)* around.\nKnit.", (63,)))[0] == 77


@pytest.mark.parametrize(
    "together",
    [
        "Knit all knit stitches together and purl all purl stitches together. 28 sts.",
        "Knit the two knit stitches together and purl the two purl stitches together around. 28 sts.",
    ],
)
def test_every_rib_is_worked_together(together: str) -> None:
    assert after_each_round(read(f"K2, p2 for 3 rounds.\n{together}", (56,))) == [56, 56, 56, 28]


def test_ribs_of_one_sort_are_worked_together() -> None:
    assert after_each_round(read("K3, p2 for 1 round.\nPurl all purl stitches together. 48 sts.", (60,))) == [
        60,
        48,
    ]


def test_ribs_worked_as_they_appear_stay() -> None:
    text = "K2, p2 for 1 round.\nKnit the knit stitches and purl the purl stitches. 56 sts."
    assert after_each_round(read(text, (56,))) == [56, 56]


def test_a_wrong_count_of_ribs_worked_together_is_found() -> None:
    assert faults(read("K2, p2 for 1 round.\nKnit all knit stitches together. 40 sts.", (56,)))
