"""Rows: rounds worked flat, with a seam stitch at each edge and every other row worked from the wrong side."""

from functools import lru_cache
from typing import Final

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.rounds.round import Repeat, Steps, Unworkable, Work, expand_early_stops
from roundwright.language import say

SEAM_STITCHES: Final = 2
"""One at each edge; they disappear in the seam, so they add nothing to the circumference."""
SEAM_BASIS: Final = Basis(
    say("rows.seam_basis"),
    COMMON_PRACTICE,
)


@lru_cache(maxsize=1024)  # most rows are plain
def row(steps: Steps, *, wrong_side: bool) -> Steps:
    """A round as a row between two seam stitches; `steps` are as seen from the right side.

    Raises `Unworkable` for a stitch that has no counterpart on the wrong side.
    """
    first, last = steps[0], steps[-1]
    if len(steps) == 1 and isinstance(first, Work) and first.stitch == "k":
        edged: Steps = (Work("k", first.times + SEAM_STITCHES),)
    else:
        head = Work("k", 1 + first.times) if isinstance(first, Work) and first.stitch == "k" else None
        tail = Work("k", 1 + last.times) if isinstance(last, Work) and last.stitch == "k" else None
        inside = steps[1 if head else 0 : len(steps) - (1 if tail else 0)]
        edged = (head or Work("k"), *inside, tail or Work("k"))
    return from_behind(edged) if wrong_side else edged


def from_behind(steps: Steps) -> Steps:
    """The steps worked from the other side: in reverse, each stitch as its counterpart in the stitch table."""
    reverse: list[Work | Repeat] = []
    for step in reversed(tuple(expand_early_stops(steps))):  # read backwards, a repeat cannot stop early
        if isinstance(step, Repeat):
            reverse.append(Repeat(step.times, from_behind(step.steps)))
            continue
        counterpart = reference.stitches()[step.stitch].wrong_side
        if counterpart is None:
            raise Unworkable(say("rows.not_from_behind", stitch=step.stitch))
        reverse.append(Work(counterpart, step.times))
    return tuple(reverse)
