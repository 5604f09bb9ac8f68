"""A crown that goes on to a round of a number: `Continue as established until Round 9 has been worked`."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

CROWN = "Rnd 1: [k8, k2tog] to end.\nRnd 2: knit.\nRnd 3: [k7, k2tog] to end.\nRnd 4: knit.\n"


@pytest.mark.parametrize(
    "on",
    [
        "Continue in this manner up to round 9.",
        "Continue in this manner through round 9.",
        "Continue as established until Round 9 has been worked.",
        "Continue as established until Round 9 (k4, k2tog) has been worked.",
        "Go on by one stitch fewer each time up to Round 9.",
    ],
)
def test_the_decreases_go_on_as_they_were(on: str) -> None:
    """No count is printed: every second round has a decrease, to the ninth."""
    assert after_each_round(read(CROWN + on, (80,))) == [72, 72, 64, 64, 56, 56, 48, 48, 40]


def test_a_fabric_goes_on_to_the_round() -> None:
    """The neighbour: nothing was decreased."""
    text = "Rnd 1: *k2, p2; rep from * around.\nContinue as established until Round 6 has been worked."

    assert after_each_round(read(text, (80,))) == [80] * 6
