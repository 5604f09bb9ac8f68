"""The last repeat of a round, which ends with other stitches than the others; units worked so often in every round."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import counts, worked


@pytest.mark.parametrize(
    "end",
    [
        "*, repeat *–*, but the last time end with k 2.",
        "; rep from * to end, ending last rep with k2.",
        "; rep from *, ending k2.",
        "*, rep from * to *, the last time end k2.",
        "; rep from * around, ending the last repeat k2 instead of k6.",
        "; rep from * around, but end the last repeat with k2.",
    ],
)
def test_the_last_repeat_ends_with_other_stitches(end: str) -> None:
    """112 are 4, 13 times 8, and 4 of the last repeat: yo, k2tog, k2."""
    ((before, after, _),) = worked(read(f"Rnd 1: k4, *yo, k2tog, k6{end}", (112,)))

    assert (before, after) == (112, 112)


@pytest.mark.parametrize(
    "end", ["; rep from * around, ending last rep k3.", "; rep from * to end, ending last rep k5."]
)
def test_a_last_repeat_that_does_not_come_out_is_found(end: str) -> None:
    """Only k2 is left behind the last yo, k2tog."""
    assert errors(read(f"Rnd 1: k4, *yo, k2tog, k6{end}", (112,)))


@pytest.mark.parametrize(
    "words",
    [
        "From here on you decrease on every round, so that the next is k6, k2tog, seven times (49 stitches).",
        "Now decrease on every round: k6, k2tog, seven times (49 sts).",
        "From now on decrease every round, first k6, k2tog, 7 times: 49 sts.",
        "You now decrease in every round, and the first is k6, k2tog, 7 times (49).",
        "Decreasing on every round from now on, k6, k2tog, seven times, 49 sts.",
    ],
)
def test_times_behind_a_unit_are_those_of_the_unit(words: str) -> None:
    """One round, in which the unit is worked 7 times."""
    assert counts(read(f"Cast on 56 sts.\n{words}", (56,))) == [[56, 49]]
