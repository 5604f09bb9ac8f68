"""Rounds in print that fail a count, and crowns in print that do not, as a proofreader finds them."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors


# Rounds as printed in patterns with errors: stitches, line, count said, and the stitches over (above 0) or short, where
# the fault shows and what the repair comes out as.
@pytest.mark.parametrize(
    ("stitches", "printed", "code", "over"),
    [
        (72, "k5, (k2tog, k10) 5 times, k2tog, k5 — 60 sts", "count_differs", 66 - 60),
        (14, "k2tog 8 times", "runs_out", 14 - 16),
        (54, "*k3, k2tog; rep from * around", "left_over", 4),
        (56, "k4, (k3, m1) 16 times, k4 — 40 sts", "wrong_way", 72 - 40),
    ],
)
def test_printed_faults(stitches: int, printed: str, code: str, over: int) -> None:
    """Patterns with errors, rounds as printed; the last is printed `k4, (k3, m1) ..., last 4`, its times filled in."""
    text = f"Cast on {stitches} sts.\n\nCrown\nRnd 1: {printed}\n"

    (found,) = errors(read(text, (stitches,)))

    assert (4, code, over) == (found.line, found.code, found.stitches)


@pytest.mark.parametrize(
    ("stitches", "printed", "left"),
    [
        (72, "k5, (k2tog, k10) 5 times, k2tog, k5 — 60 sts", 66),
        (14, "k2tog 8 times", 7),
        (54, "*k3, k2tog; rep from * around", 45),
        (56, "k4, (k3, m1) 16 times, k4 — 40 sts", 72),
    ],
)
def test_printed_faults_are_repaired(stitches: int, printed: str, left: int) -> None:
    """The repair of a round in print comes out: 66 is said, 7 times, k4 for k3, and 72 is said.

    In the last the increases may be meant to be decreases; a number is the smaller change than two stitches are.
    """
    (found,) = errors(read(f"Rnd 1: {printed}", (stitches,)))
    assert found.repair is not None

    mended = read(found.repair, (stitches,))

    assert not mended.findings
    assert [left] == [worked_round.after for worked_round in mended.rounds[0]]


def test_a_printed_count_that_the_pattern_goes_on_with_is_kept() -> None:
    """72 stitches said to leave 60: if what follows needs 60, no count is offered that would only move the fault."""
    text = (
        "Rnd 1: k5, (k2tog, k10) 5 times, k2tog, k5 — 60 sts\nRnd 2: *k13, k2tog; rep from * around — 56 sts"
    )
    (found,) = errors(read(text, (72,)))

    assert "66" not in (found.repair or "")
    assert all(edit.leaves == () for edit in found.edits)


# Crowns in print, as patterns write them: 88 stitches in 8 wedges with a plain round between; 48 (56) in two sizes;
# 72 and 68 by repeats that all shrink at once. Counts after each shaping round, the cast-on first.
WEDGES = "\n".join(
    ["Rnd 1: *k9, k2tog; rep from * around — 80 sts", "Rnd 2 and all even rnds: knit"]
    + [f"Rnd {2 * turn + 1}: *k{9 - turn}, k2tog; rep from * around" for turn in range(1, 9)]
    + ["Rnd 19: *k2tog; rep from * around — 8 sts"]
)
TWO_SIZES = "\n".join(
    ["48 (56) sts"]
    + [f"Rnd {7 - plain}: *k{plain}, k2tog; rep from * around" for plain in range(6, 0, -1)]
    + ["Rnd 7: k2tog around — 6 (7) sts"]
)


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        (WEDGES, [[88, 80, 72, 64, 56, 48, 40, 32, 24, 16, 8]]),
        (TWO_SIZES, [[48, 42, 36, 30, 24, 18, 12, 6], [56, 49, 42, 35, 28, 21, 14, 7]]),
        (
            "*k2, k2tog; rep from * to end\n*k1, k2tog; rep from * to end\nk2tog around\nk2tog around (9 sts)",
            [[72, 54, 36, 18, 9]],
        ),
        (
            "Row 1: (k2tog, k2) 17 times\nRow 2: (k2tog, k1) 17 times\nRow 3: k2tog 17 times",
            [[68, 51, 34, 17]],
        ),
    ],
    ids=["wedges", "two sizes", "72", "68"],
)
def test_printed_crowns_pass(text: str, counts: list[list[int]]) -> None:
    """Hat patterns, sequences as printed: nothing is found, and every count is the printed one."""
    reading = read(text, tuple(size[0] for size in counts))

    assert not reading.findings
    assert counts == [
        [rounds[0].before, *(worked_round.after for worked_round in rounds if worked_round.kind != "plain")]
        for rounds in reading.rounds
    ]
