"""Lines broken behind a word that goes on, what a round takes out told beforehand, totals, pairs of sizes with a dash.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, counts, number_of_rounds

BROKEN = [
    ("Cast on 96 sts. Work 20 rounds in\nrib of knit 1, purl 1.", 20),
    ("Cast on 96 sts, and work 12 rounds in\nk1, p1 rib. Change needles and knit 4 rounds red.", 16),
    ("Cast on 96 sts. Knit 4 rounds red,\n4 rounds white, 4 rounds red and\n4 rounds white.", 16),
    ("Cast on 96 sts. Knit 6 rounds light, 6 rounds dark and\n6 rounds light. Break off the light wool.", 18),
    ("Cast on 96 sts. Knit 20 rounds in\nthe light wool, then 4 rounds in\nthe dark.", 24),
]


@pytest.mark.parametrize(("text", "rounds"), BROKEN)
def test_rounds_told_over_the_end_of_a_line_are_all_worked(text: str, rounds: int) -> None:
    """A line that ends with `rounds in` or with `and` goes on in the next."""
    assert number_of_rounds(read(text, (96,))) == [rounds]


FORETOLD = [
    "You'll lose 8 stitches. 64 stitches left.",
    "You will lose 8 sts on this round.",
    "You'll have lost 8 sts.",
    "We'll lose 8 stitches each time.",
    "This uses up 8 stitches, so you have 64.",
    "This decreases 8 sts. 64 sts.",
    "(You'll lose 8 stitches.)",
]


@pytest.mark.parametrize("note", FORETOLD)
def test_what_a_round_takes_out_may_be_told_in_the_future(note: str) -> None:
    """It is no second round of decreases."""
    assert after_each_round(read(f"Decrease round: *k7, k2tog.* {note}\nKnit 1 round.", (72,))) == [64, 64]


def test_a_round_in_which_you_will_decrease_is_worked() -> None:
    """`On the next round you will decrease` is said of work to be done."""
    for line in (
        "On the next round you will decrease 8 stitches evenly.",
        "Knit 1 round where you decrease 8 sts evenly.",
    ):
        assert after_each_round(read(line, (72,))) == [64]


ONCE_IN_EVERY = [
    "Knit 1 round, increasing once in every 12th stitch (104 stitches now on the needles).",
    "Knit 1 round, increasing one stitch in every 12 (104 stitches).",
    "Knit 1 round, increasing one stitch in every twelve stitches. (104)",
    "Inc 1 in every 12 sts all round = 104 sts.",
]


@pytest.mark.parametrize("line", ONCE_IN_EVERY)
def test_one_stitch_is_made_in_every_twelve(line: str) -> None:
    """In the last of them, all around."""
    assert after_each_round(read(line, (96,))) == [104]
    assert after_each_round(read("Next round: narrow once in every 12 stitches. 88 sts.", (96,))) == [88]


IN_ALL = [
    "Work Rib Rnd a total of 10 times.",
    "Work Rib Rnd for a total of 10 times.",
    "Work the Rib Rnd 10 times total.",
]


@pytest.mark.parametrize("line", IN_ALL)
def test_a_round_called_by_its_rib_is_worked_so_often_in_all(line: str) -> None:
    """However the total is told."""
    counted = read(f"Rib Rnd: *K2, p2; rep from * to end.\n{line}\nKnit 1 rnd.", (84,))
    assert counts(counted) == [[84]]
    assert number_of_rounds(counted)[0] in (11, 12)


def test_decreases_in_all_count_the_first() -> None:
    """The first decrease round is one of the five that lead to 48 stitches."""
    first = "Insert 8 markers, 11 sts apart. Next round: k2tog before each marker."
    text = f"Knit 2 rounds.\n{first}\nDecrease like this every other round a total of 5 times = 48 sts."
    assert counts(read(text, (88,))) == [[88, 80, 72, 64, 56, 48]]


BEFORE_MARKERS = [
    "On the next round, k2tog before every marker = 8 sts decreased.",
    "Knit 2 together before each marker = 8 sts decreased.",
    "On next round k2tog before each marker (8 sts dec'd).",
    "Next round: k2tog after each marker = 8 decreased sts.",
]


@pytest.mark.parametrize("line", BEFORE_MARKERS)
def test_stitches_decreased_behind_a_sign_explain_no_stitch(line: str) -> None:
    """`k2tog before every marker = 8 sts decreased` is worked."""
    text = f"Place 8 markers in the work with 11 sts between each marker. {line}\nKnit 1 round."
    assert after_each_round(read(text, (88,)))[-2:] == [80, 80]


def test_decreases_are_not_gone_on_with_as_increases() -> None:
    """A crown of four sizes behind an increase is read within what one answer may cost."""
    text = (
        "Cast on 80 (88, 96, 104) sts. Knit 1 round and increase 8 sts evenly = 88 (96, 104, 112) sts.\n"
        "Place 8 markers in the work with 11 (12, 13, 14) sts between each marker. "
        "On the next round, k2tog before every marker = 8 sts decreased.\n"
        "Decrease in this way on every other round until there are 48 sts left in all sizes, "
        "then on every round until there are 16 sts left.\nLast round: k2tog the whole round = 8 sts."
    )
    crowns = [[cast_on, *range(cast_on + 8, 0, -8)] for cast_on in (80, 88, 96, 104)]
    assert counts(read(text, (80, 88, 96, 104))) == crowns


def test_the_numbers_of_two_sizes_may_have_a_dash_between() -> None:
    """They are no ranges where stitches are so cast on, falling or not."""
    text = (
        "Cast on 96-104 stitches. Knit 1 round where you decrease 6-4 stitches evenly = 90-100 stitches.\n"
        "Knit 6-8 rounds. Insert 10 markers with 9-10 stitches between each. "
        "On the next round decrease 1 stitch after each marker.\n"
        "Decrease like this every other round a total of 5-5 times = 40-50 stitches."
    )
    reading = read(text, (96, 104))
    assert counts(reading) == [[96, 90, 80, 70, 60, 50, 40], [104, 100, 90, 80, 70, 60, 50]]
    assert number_of_rounds(reading) == [1 + 6 + 9, 1 + 8 + 9]


def test_a_list_of_abbreviations_goes_over_lines() -> None:
    """What stands behind a sign at the end of a line is no work."""
    listed = (
        "ABBREVIATIONS: beg = beginning; k = knit; mm =\nmillimeters; p = purl; rnd(s) = round(s); St st =\n"
        "Stockinette stitch; tog = together; * = repeat whatever follows the * as\nindicated."
    )
    assert after_each_round(read(f"Rnd 1: (K8, k2tog) around - 81 sts.\n\n{listed}", (90,))) == [81]


SO_LONG = [
    '*K2, p2* around. Do this for 2½".',
    "*K2, p2* around. Repeat for 3 inches.",
    "*K2, p2* around. Do this for 12 rounds.",
    '*K2, p2*. Do that for 2".',
]


@pytest.mark.parametrize("line", SO_LONG)
def test_a_round_is_done_for_so_many_rounds_or_so_long(line: str) -> None:
    """The rib goes on, and is not worked in parts of the round."""
    assert counts(read(f"Cast on 56 sts.\n{line}\nKnit 2 rounds.", (56,))) == [[56]]


CALLED_BY_NAME = [
    "Alternate spiral rnd with a knit rnd until 45 sts rem.\nThen work the spiral rnd only until 9 sts rem.",
    "Rep spiral rnd every other rnd until 45 sts rem.\nThen work spiral rnd every rnd until 9 sts rem.",
]


@pytest.mark.parametrize("lines", CALLED_BY_NAME)
def test_a_decrease_round_may_have_any_name(lines: str) -> None:
    """It is worked again by that name, in turn with plain rounds or alone."""
    crown = f"Spiral rnd: *K to 2 sts before marker, k2tog, sm; rep from * around.\n{lines}"
    text = f"CO 90 sts.\nNext rnd: *K8, k2tog, pm; rep from * around (9 markers, 81 sts).\nNext rnd: Knit.\n{crown}"
    assert counts(read(text, (90,))) == [[90, 81, 72, 63, 54, 45, 36, 27, 18, 9]]
