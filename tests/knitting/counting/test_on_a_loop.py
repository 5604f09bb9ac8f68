"""A hat on a magic loop: its halves, and no needle that it does not have."""

from typing import Any

import pytest

from tests.knitting.counting.test_check import check
from tests.support.hats import hats

HAT = {
    "gauge": {"stitches": 20, "rows": 28},
    "sizes": [{"age_months": 6}],
    "crown": {"style": "wedge"},
    "needles": {"magic_loop": {"value": 80, "unit": "cm"}},
}


def counted(number: int, *more: int) -> dict[str, Any]:
    """The answer to a count after a round of the crown in which the halves are off by so many."""
    line = hats(**HAT)["sizes"][0]["crown"]["rounds"][number - 1]
    halves = [held + off for held, off in zip(line["needles"], more, strict=True)]
    return check(hat=HAT, part="crown", round=number, needles=halves)


@pytest.mark.parametrize("more", [(1, 0), (0, -1), (1, -1), (2, 2), (-1, 2), (4, 0), (3, -3)])
@pytest.mark.parametrize("number", [1, 2, 5])
def test_texts_speak_of_halves(number: int, more: tuple[int, int]) -> None:
    """Wherever stitches are missing or stray on a loop, they are so in `half 1` or `half 2`."""
    answer = counted(number, *more)
    texts = [answer["message"], answer["tell_apart"] or ""]
    for cause in answer["causes"]:
        texts += [cause["message"], cause["where"], cause["fix"]]
    for text in texts:
        for needle in ("needle 1", "needle 2", "needles 1", "eedles hold", "that needle", "of the needle"):
            assert needle not in text
    assert any("half" in text for text in texts)
