"""A decrease told once on each needle, with nothing behind it, is worked once there. Worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts

ONCE = [
    "On each needle k2tog.",
    "K2tog once on each needle.",
    "On each needle knit 2 sts together.",
    "On each of the 4 needles ssk.",
]


@pytest.mark.parametrize("once", ONCE)
def test_a_decrease_without_more_is_worked_once_on_each_needle(once: str) -> None:
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
