"""Stitches that are added, plain rounds left out under the name of their work, and sorts of rounds in brackets.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts, errors


@pytest.mark.parametrize(
    "told",
    [
        "14 rows rib 2x2 last row add 4 sts = 100 sts",
        "Work 14 rounds in rib 2x2, adding 4 sts evenly on the last round (100 sts).",
        "Work 14 rounds in rib 2x2.\nNext round: knit, adding 4 sts evenly. 100 sts",
        "Work 14 rounds in rib 2x2.\nNext round: add 4 sts.",
        "Work 14 rounds in rib 2x2.\nAdd 4 stitches evenly: 100 sts.",
    ],
)
def test_stitches_are_added_in_a_round(told: str) -> None:
    """96 and 4 are 100, and a tenth goes."""
    assert counts(read(f"Cast on 96 sts.\n{told}\n*K8, k2tog* around.", (96,))) == [[96, 100, 90]]


def test_a_stitch_is_added_in_every_repeat() -> None:
    """Twelve times one."""
    assert counts(read("Cast on 96 sts.\n*K8, add 1 st* around: 108 sts.", (96,))) == [[96, 108]]


def test_a_wrong_count_behind_added_stitches_is_told() -> None:
    """96 and 4 are 100."""
    found = errors(read("Cast on 96 sts.\n14 rows rib 2x2 last row add 4 sts = 102 sts", (96,)))
    assert [(finding.code, finding.line) for finding in found] == [("count_differs", 2)]


@pytest.mark.parametrize(
    "advice",
    [
        "If you need a larger hat, add 8 sts in the first round.",
        "For a bigger head, add 8 sts to what you cast on.",
        "Add 8 sts to needle 1 from needle 2.",
    ],
)
def test_stitches_that_advice_adds_are_not_worked(advice: str) -> None:
    """A tenth of 80 goes."""
    text = f"Cast on 80 sts. {advice}\nKnit 4 rounds.\n*K8, k2tog* around."
    assert counts(read(text, (80,))) == [[80, 72]]


@pytest.mark.parametrize(
    ("first", "plain", "third"),
    [
        ("(Decrease) Row 1", "Row 2", "(Decrease) row 3"),
        ("(Dec) Rnd 1", "(Plain) Rnd 2", "(Dec) Rnd 3"),
        ("(dec) Round 1", "(knit) Round 2", "(dec) Round 3"),
    ],
)
def test_a_round_has_its_sort_in_a_bracket(first: str, plain: str, third: str) -> None:
    """A sixth of 54 and 45 goes."""
    text = f"Cast on 54 sts.\n{first}: *K4, K2tog*\n{plain}: K all sts\n{third}: *K3, K2tog*"
    assert counts(read(text, (54,))) == [[54, 45, 36]]


@pytest.mark.parametrize(
    ("left_out", "rounds"),
    [
        ('Then decrease in the same manner, omitting the "k all sts" rows, until 9 sts remain.', 7),
        ('Continue to decrease, skipping the "knit every stitch" rounds, until 9 sts remain.', 7),
        ('Decrease in the same manner, do not omit the "k all sts" rows, until 9 sts remain.', 9),
        ("Decrease in the same manner until 9 sts remain.", 9),
    ],
)
def test_rounds_called_by_their_work_are_left_out(left_out: str, rounds: int) -> None:
    """54, 45, 36 and so on, with plain rounds between or without them."""
    text = f"Cast on 54 sts.\nRow 1: *K4, K2tog*\nRow 2: K all sts\nRow 3: *K3, K2tog*\nRow 4: K all sts\n{left_out}"
    reading = read(text, (54,))
    assert counts(reading) == [[54, 45, 36, 27, 18, 9]]
    assert [len(of_size) for of_size in reading.rounds] == [rounds]
