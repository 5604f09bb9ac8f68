"""Hats by chance, worked stitch by stitch by a knitter who knows nothing of the service's code."""

import msgspec
import pytest

from tests.support import by_hand
from tests.support.random_hats import MANY, planned, random_hat

HATS = int(MANY or "50")
"""Hats that are worked, every size from its cast-on to its last round."""


@pytest.mark.parametrize("number", range(HATS))
def test_a_hat_by_chance_can_be_knitted(number: int) -> None:
    """Each round uses what the one before left, no stitch lies on two needles, and the crown closes as it says."""
    answer = planned(random_hat(number))
    if answer is None:
        pytest.skip("no such hat can be made")
    sizes = msgspec.json.decode(msgspec.json.encode(answer.sizes, enc_hook=str))
    assert [by_hand.work_hat(size) for size in sizes] == [size["crown"]["stitches_left"] for size in sizes]
