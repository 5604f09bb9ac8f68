"""Notation: the written line of a round."""

import pytest

from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import Repeat, Step, Work


@pytest.mark.parametrize(
    ("steps", "written"),
    [
        ((Work("k", 40),), "knit"),
        ((Repeat(9, (Work("k", 4), Work("k2tog"))),), "*k4, k2tog; rep from * around"),
        ((Repeat(6, (Work("k2tog"),)), Work("k")), "*k2tog; rep from * to last st, k1"),
        (
            (Work("k", 4), Repeat(9, (Work("k", 3), Work("m1"))), Work("k", 4)),
            "k4, *k3, m1; rep from * to last 4 sts, k4",
        ),
        ((Repeat(1, (Work("k", 2), Work("k2tog"))),), "k2, k2tog"),
    ],
)  # fmt: skip
def test_a_line_is_written_as_patterns_print_it(steps: tuple[Step, ...], written: str) -> None:
    """The forms are those of the Craft Yarn Council's list of abbreviations: *, rep from *, brackets."""
    assert written_line(steps) == written
