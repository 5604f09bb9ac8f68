"""Several rounds in one line, and what `then` says in a round."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, number_of_rounds

IN_TURN = [
    (
        "K8, 2 tog. 1 row plain. K7, 2 tog. 1 row plain. K6, 2 tog. 1 row plain.",
        100,
        [90, 90, 80, 80, 70, 70],
    ),
    (
        "Crown: [K10, k2tog] 9x, 1 rnd even, [K9, k2tog] 9x, 1 rnd even, [K8, k2tog] 9x; 81 sts.",
        108,
        [99, 99, 90, 90, 81],
    ),
    ("Crown: K10, k2tog around; 1 plain round; K9, k2tog around; 1 plain round.", 108, [99, 99, 90, 90]),
    ("(k8, k2tog) 10 times, 2 rounds plain, (k7, k2tog) 10 times, 1 round plain", 100, [90, 90, 90, 80, 80]),
    ("*K6, k2tog* 8 times, one row plain, *K5, k2tog* 8 times.", 64, [56, 56, 48]),
    (
        "Rnd 1: (k6, k2tog) 8 times, 1 rnd plain.\nRnd 3: (k5, k2tog) 8 times, 1 rnd plain.",
        64,
        [56, 56, 48, 48],
    ),
    (
        "k6 k2tog all round, then a plain round, k5 k2tog, plain, k4 k2tog, plain",
        80,
        [70, 70, 60, 60, 50, 50],
    ),
    ("Crown: k6 ssk all round, one plain round, k5 ssk, plain round, k4 ssk", 64, [56, 56, 48, 48, 40]),
    ("Crown: k3, k2tog etc -> 32, k2 k2tog -> 24, k1 k2tog -> 16, k2tog -> 8", 40, [32, 24, 16, 8]),
    (
        "k3 k2tog, k2 k2tog, k1 k2tog, then k2tog and pulled the yarn through the last 8 sts",
        40,
        [32, 24, 16, 8],
    ),
    ("Rnd 1: *k3, k2tog, k2, k2tog; rep from * around.", 36, [28]),
    ("Dec every rnd: (k4, k2tog), (k3, k2tog), (k2, k2tog), k2tog around.", 60, [50, 40, 30, 15]),
    ("(k4, k2tog), (k3, k2tog) and (k2, k2tog), one rnd each.", 60, [50, 40, 30]),
    ("(k4, k2tog); then (k3, k2tog); then (k2, k2tog) - three rounds.", 60, [50, 40, 30]),
    ("Rnd 1: (k4, k2tog), (k3, k2tog), (k2, k2tog).", 60, [48]),
    ("(k4, k2tog), (k3, k2tog), (k2, k2tog), then knit to end.", 60, [57]),
]
THEN = [
    ("k1, then k2tog to the end", 33, 17),
    ("k2, then k2tog around", 34, 18),
    ("k1. Then k6, k2tog to end", 65, 57),
    ("k1, and then k3, k2tog to end", 41, 33),
    ("purl 1, then purl 2 together all round", 41, 21),
    ("k6, then k2tog around", 48, 42),
]


@pytest.mark.parametrize(("text", "cast_on", "counts"), IN_TURN)
def test_rounds_told_in_one_line_are_worked_in_turn(text: str, cast_on: int, counts: list[int]) -> None:
    """Plain rounds between the decreases are worked, and a stitch fewer before the decrease begins another round."""
    assert after_each_round(read(text, (cast_on,))) == counts


@pytest.mark.parametrize(("text", "before", "after"), THEN)
def test_then_ends_what_stands_before_it(text: str, before: int, after: int) -> None:
    """`k1, then k2tog to the end` is one knit stitch and decreases; `k6, then k2tog around` goes round in pairs."""
    assert after_each_round(read(f"Rnd 1: {text}", (before,))) == [after]


BELOW = "Rnds 1-3: *p4, k4*\nRnd 4: *p4, c4f*\nRnds 5-8: as round 1.\n"


@pytest.mark.parametrize(
    "announced",
    [
        "Work the following 8 rounds 4 times:",
        "Work the following 8 rounds 4 times (32 rounds):",
        "Work the next 8 rounds 4 times, that is 32 rounds:",
    ],
)
def test_rounds_below_are_worked_as_often_as_is_announced(announced: str) -> None:
    """What is the same as a round before counts among them, and the number of all times is no more rounds."""
    assert number_of_rounds(read(f"{announced}\n{BELOW}Crown:\n*P2tog, k2*", (88,))) == [33]


def test_a_bracket_on_the_next_line_tells_the_rib() -> None:
    """The stitches of a rib below its name are no round of their own."""
    text = "Cast on 120 sts. Work 10 rounds of rib\n(k1 and p1) and then\nknit 40 rounds.\n*K8, k2tog*"
    assert number_of_rounds(read(text, (120,))) == [51]


def test_how_often_may_stand_in_a_bracket() -> None:
    """What is worked so many times may be said in a heading."""
    assert read("Repeat of 8 rounds, worked 4 times (32 rounds):\n*P4, k4*", (88,)).lines


def test_a_line_may_end_with_the_numbers_of_rounds() -> None:
    """What is worked in them stands on the next line."""
    text = (
        "Rnd 1: *k10, k2tog*; rep from * (88 sts). Rnds 2 and 3:\nplain. "
        "Rnd 4: *k9, k2tog*; rep from * (80 sts). Rnd 5:\nplain. Rnd 6: *k8, k2tog*; rep from * (72 sts)."
    )
    assert number_of_rounds(read(text, (96,))) == [6]
