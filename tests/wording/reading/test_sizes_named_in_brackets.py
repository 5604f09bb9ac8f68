"""Sizes whose names stand in brackets behind their numbers, with no list of them before: `72 (Child) 80 (Teen) sts`.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts

CROWN = "\n*K7, k2tog* around.\nKnit 1 round.\n*K6, k2tog* around."


@pytest.mark.parametrize(
    ("cast_on", "left"),
    [
        ("Cast on 72 (Medium) 81 (Large) sts and join.", "56 (Medium) 63 (Large) sts."),
        ("Cast on 72 (child) 81 (small adult) sts.", "56 (child) 63 (small adult) sts remain."),
        ("CO 72 sts (Child), 81 sts (Small Adult).", "56 sts (Child), 63 sts (Small Adult)."),
        ("Cast on 72 (child's size) or 81 (teen size) sts.", "56 (child's size) or 63 (teen size) sts."),
        ("Cast on 72 (3-6 months) 81 (1 year) sts.", "56 (3-6 months) 63 (1 year) sts."),
        ("Cast on 72 (Acorn) 81 (Tall Oak) stitches.", "56 (Acorn) 63 (Tall Oak) stitches."),
    ],
)
def test_numbers_are_those_of_the_sizes_named_behind_them(cast_on: str, left: str) -> None:
    """A ninth goes, then an eighth."""
    assert counts(read(cast_on + CROWN + " " + left, (72, 81))) == [[72, 64, 56], [81, 72, 63]]


def test_three_sizes_have_their_rounds_by_name() -> None:
    """The rounds of rib are those of their size."""
    text = (
        "Cast on 72 (Baby) 81 (Small Child) 90 (Tall Teen) sts.\n"
        "Purl 3 (Baby) 4 (Small Child) 5 (Tall Teen) rounds."
    )
    reading = read(text + CROWN, (72, 81, 90))
    assert counts(reading) == [[72, 64, 56], [81, 72, 63], [90, 80, 70]]
    assert [len(rounds) for rounds in reading.rounds] == [6, 7, 8]


def test_a_wrong_count_of_a_named_size_is_told() -> None:
    """81 stitches less a ninth and an eighth are 63."""
    text = f"Cast on 72 (child) 81 (small adult) sts.{CROWN} 56 (child) 62 (small adult) sts."
    found = read(text, (72, 81)).findings
    assert [(finding.code, finding.line) for finding in found] == [("count_differs", 4)]


def test_a_bracket_behind_the_cast_on_that_names_no_size_is_left() -> None:
    """How to cast on is told of the only size."""
    assert counts(read(f"Cast on 72 (loosely) and join.{CROWN} 56 (left)", (72,))) == [[72, 64, 56]]
