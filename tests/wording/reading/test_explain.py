"""How a pattern is understood: of several readings the one that comes out."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Rnd 1: k7, k2tog (64)\nRnd 2: knit\nRnd 3: k6, k2tog (56)", [64, 56]),
        ("*k7, k2tog* (64), knit a round,\n*k6, k2tog* (56)", [64, 56]),
        ("Rnd 1: *k7, k2tog*\nRnd 2: knit\nRnd 3: *k6, k2tog*\nContinue in this manner until 24 sts rem.",
         [64, 56, 48, 40, 32, 24]),
        ("Rnd 1: knit 7, knit 2 together, 8 times (64 sts)", [64]),
        ("Take in: 7 k, 2 tog, the whole round (64 loops).", [64]),
    ],
)  # fmt: skip
def test_knitters_word_a_crown_in_many_ways(text: str, expected: list[int]) -> None:
    """Implied repeats, bare counts, crowns left to go on, numbers before the stitch."""
    assert [[72, *expected]] == counts(read(text, (72,)))
