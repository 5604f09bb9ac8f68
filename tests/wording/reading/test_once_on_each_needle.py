"""A decrease that is told once on each needle is worked once there. Worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts, faults

ONCE = [
    "K2tog once on each needle.",
    "Ssk once on each of the 4 needles.",
]


@pytest.mark.parametrize("once", ONCE)
def test_a_decrease_told_once_is_worked_once_on_each_needle(once: str) -> None:
    text = f"Cast on 72 sts on 4 needles.\n{once} Work 2 rnds straight. Rep these 3 rnds until 60 sts remain."
    assert counts(read(text, (72,), "en-US")) == [[72, 68, 64, 60]]


@pytest.mark.parametrize(
    "around", ["On each needle k2tog around.", "On each needle *k2tog*.", "On each needle k2tog to end."]
)
def test_around_it_is_worked_all_around(around: str) -> None:
    assert counts(read(f"Cast on 72 sts on 4 needles.\n{around}", (72,), "en-US")) == [[72, 36]]


def test_a_count_that_is_printed_tells_which_of_both() -> None:
    text = "Cast on 72 sts on 4 needles.\nOn each needle k2tog ({} sts)."
    assert counts(read(text.format(68), (72,), "en-US")) == [[72, 68]]
    assert counts(read(text.format(36), (72,), "en-US")) == [[72, 36]]


def test_three_places_in_a_row_are_worked_as_one() -> None:
    text = "72 sts. Purl every 7th, 8th and 9th st together. Work 2 rnds. Knit every {} and 7th sts together."
    assert counts(read(text.format("5th, 6th"), (72,), "en-US")) == [[72, 56, 40]]
    assert counts(read(text.format("6th"), (72,), "en-US")) == [[72, 56, 48]]


def test_four_places_or_such_with_gaps_are_not_read_as_the_last_two() -> None:
    for places in ("5th, 6th, 7th and 8th", "3rd, 7th and 8th"):
        assert faults(read(f"64 sts. Knit every {places} st together.", (64,), "en-US")) == [("no_rounds", 1)]
