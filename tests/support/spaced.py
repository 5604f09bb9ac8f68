"""The places of the changes of a round, found by working it by hand."""

from typing import Any, NamedTuple

import msgspec

from tests.support.by_hand import LOOPS, stitches

PLAIN = {"k", "p", "sl"}


class Spaced(NamedTuple):
    """A round: stitches used before each change, loops made before each, and in all."""

    starts: list[int]
    loops: list[int]
    used: int
    left: int
    uses: int


def spaced(steps: Any) -> Spaced:
    """The round of these steps."""
    starts, loops, used, left, uses = [], [], 0, 0, 0
    for stitch in stitches(msgspec.to_builtins(steps)):
        takes, makes = LOOPS[stitch]
        if stitch not in PLAIN:
            starts.append(used)
            loops.append(left)
            uses = takes
        used, left = used + takes, left + makes
    return Spaced(starts, loops, used, left, uses)


def widths(steps: Any, edge: int = 0) -> list[int]:
    """Stitches from each change to the next, around the end and without the edge stitches."""
    round = spaced(steps)
    middle = round.used - 2 * edge
    following = [*round.starts[1:], round.starts[0] + middle]
    return [after - start for start, after in zip(round.starts, following, strict=True)]


def gaps(steps: Any) -> list[int]:
    """Plain stitches before each change, and those after the last."""
    round = spaced(steps)
    ends = [0, *(start + round.uses for start in round.starts)]
    return [start - end for start, end in zip([*round.starts, round.used], ends, strict=True)]


def steps_in(steps: Any) -> int:
    """Steps, those inside repeats counted."""
    return sum(1 + steps_in(getattr(step, "steps", ())) for step in steps)
