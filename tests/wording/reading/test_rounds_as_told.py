"""Each round that a sentence tells is worked, as often as it says: texts that were once read as fewer or as others.

The rounds are counted by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import words_of_rounds

DOUBLE = "*k5, sk2p; rep from * around"
DECREASE = "*k6, k2tog; rep from * around"
GARTER = ["purl", "knit"]

NAMED_STITCHES = [
    (
        "a stitch is named behind rounds",
        'Knit 10 rounds. Sl 1, k2tog, psso is written "dd" below.\nRnd 1: *k5, dd* (48)',
        ["knit"] * 10 + [DOUBLE],
    ),
    (
        "a stitch is named in the line of its round",
        'Rnd 1: *k5, sl 1, k2tog, psso* (48); sl 1, k2tog, psso is written "dd" from here.\nRnd 2: *k3, dd* (32)',
        [DOUBLE, "*k3, sk2p; rep from * around"],
    ),
]
LISTS_OF_VERBS = [
    (
        "their number before them",
        "Work 4 rounds: knit, purl, knit, purl.\nRnd 5: *k6, k2tog* (56)",
        ["knit", "purl"] * 2 + [DECREASE],
    ),
    ("six of them", "Do 6 rounds: purl, knit, purl, knit, purl, knit.", GARTER * 3),
    ("behind a heading", "Brim: 4 rounds, purl, knit, purl, knit.", GARTER * 2),
    ("several times", "Knit, purl, knit, purl, 12 rounds in all.", ["knit", "purl"] * 6),
    ("until so many", "Purl, knit, purl, knit, until 12 rounds have been worked.", GARTER * 6),
]
UNTIL_ROUNDS = [
    ("until worked", "Purl 1 rnd, knit 1 rnd until 12 rounds have been worked.", GARTER * 6),
    ("until there are", "Purl 1 rnd, knit 1 rnd, until there are 12 rounds in all.", GARTER * 6),
    (
        "and plain rounds behind",
        "Purl 1 rnd, knit 1 rnd until 12 rounds have been worked, then 3 rounds plain.",
        GARTER * 6 + ["knit"] * 3,
    ),
]


@pytest.mark.parametrize(
    ("text", "rounds"),
    [pytest.param(*given, id=name) for name, *given in (*NAMED_STITCHES, *LISTS_OF_VERBS, *UNTIL_ROUNDS)],
)
def test_each_round_is_worked_as_often_as_it_is_told(text: str, rounds: list[str]) -> None:
    """A number of rounds beside a list is that of the list, and a sentence beside a round takes none away."""
    assert words_of_rounds(read(f"Cast on 64.\n{text}", (64,), "en")) == rounds
