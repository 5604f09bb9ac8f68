"""A range of rounds that goes on as those before: with their plain rounds, where nothing else is told."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

ALTERNATE = "Rnd 1: *k8, k2tog; rep from *\nRnd 2: knit\nRnd 3: *k7, k2tog; rep from *\nRnd 4: knit\n"
IN_A_ROW = "Rnd 1: *k8, k2tog; rep from *\nRnd 2: *k7, k2tog; rep from *\n"
EVERY_OTHER = [72, 72, 64, 64, 56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 16]


@pytest.mark.parametrize(
    "words",
    [
        "Continue in this manner.",
        "Work in the same way.",
        "In the same manner, with 1 st less between decreases each time.",
        "Continue in this manner (16 sts).",
        "Work in the same way. On odd rnds there is 1 st less between decreases, on even rnds knit all sts.",
        "Work in the same way. On odd rnds there is 1 st less between decreases, on even rnds knit. You have 16 sts.",
    ],
)
def test_a_range_goes_on_with_plain_rounds_as_before(words: str) -> None:
    reading = read(f"{ALTERNATE}Rnds 5-16: {words}", (80,))

    assert after_each_round(reading) == EVERY_OTHER
    assert not [finding for finding in reading.findings if finding.severity == "error"]


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        (f"{ALTERNATE}Rnds 5-8: continue in this manner (32 sts).", [72, 72, 64, 64, 56, 48, 40, 32]),
        (f"{ALTERNATE}Rnds 5-8: dec every rnd as set.", [72, 72, 64, 64, 56, 48, 40, 32]),
        (
            f"{ALTERNATE}Rnds 5-8: continue in this manner. Knit 3 rounds, with CC on odd rnds.",
            [72, 72, 64, 64, 56, 56, 48, 48, 48, 48, 48],
        ),
        (f"{IN_A_ROW}Rnds 3-6: as before, one st fewer each time.", [72, 64, 56, 48, 40, 32]),
        ("Rnd 1: *k2, p2; rep from *\nRnds 2-5: continue in rib as set.", [80, 80, 80, 80, 80]),
        ("Rnd 1: inc 8 sts evenly (88 sts).\nRnds 2-4: work as set.", [88, 88, 88, 88]),
    ],
)
def test_a_count_or_a_pace_tells_of_each_round(text: str, counts: list[int]) -> None:
    """The count tells that each is shaped; a rib or a body goes on plain."""
    assert after_each_round(read(text, (80,))) == counts
