"""The number of a page, in a text that was copied out of one: no count of the stitches."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import faults

CROWN = (
    "Rnd 1: *k10, k2tog; rep from * around. (88)\n"
    "{first}\n"
    "Rnd 2: knit\n"
    "Rnd 3: *k9, k2tog; rep from * around. (80)\n"
    "{second}\n"
    "Rnd 4: *k8, k2tog; rep from * around. (72)"
)


@pytest.mark.parametrize(("first", "second"), [("3", "4"), ("17", "18"), ("180", "181"), ("46", "47")])
def test_the_number_of_a_page_is_no_count(first: str, second: str) -> None:
    """It is far from the 88 stitches there, or rises by one from page to page."""
    reading = read(CROWN.format(first=first, second=second), (96,))

    assert not reading.findings
    assert reading.repaired is None
    assert [line.printed for line in reading.lines if line.line in (2, 5)] == [(), ()]


@pytest.mark.parametrize("printed", ["87", "89", "80", "78"])
def test_a_count_on_a_line_of_its_own_is_one_where_it_is_near(printed: str) -> None:
    """A slip of a count is a few stitches away from it."""
    reading = read(f"Rnd 1: *k10, k2tog; rep from * around.\n{printed}\nRnd 2: knit", (96,))

    assert faults(reading) == [("count_differs", 2)]


def test_a_right_count_on_a_line_of_its_own_is_told() -> None:
    """It is the count printed, however small."""
    reading = read("Rnd 1: *k2tog; rep from * around.\n8\nRnd 2: *k2tog; rep from * around.\n4", (16,))

    assert not errors(reading)
    assert [line.printed for line in reading.lines if line.line in (2, 4)] == [(8,), (4,)]


@pytest.mark.parametrize(
    "broken", ["around\n(54 sts)", "around\n(54 sts).\n\n", "around (54\nsts)", "around.\n54 sts"]
)
@pytest.mark.parametrize("far", ["rep from * ", "rep from\n* ", "rep\nfrom * "], ids=repr)
def test_a_count_on_a_broken_line_is_called_wrong_beside_the_number_of_a_page(far: str, broken: str) -> None:
    """64 stitches less 8 are 56."""
    text = f"Rnd 1: *k6, k2tog; {far}{broken}\n2\nRnd 2: knit\nRnd 3: *k5, k2tog; rep from * around. (48 sts)"
    reading = read(text, (64,))

    assert [finding.code for finding in errors(reading)] == ["count_differs"]
    assert reading.repaired == text.replace("54", "56")
