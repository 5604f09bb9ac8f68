"""Boundaries between needles: where each one goes, round by round, and how often a decrease straddles it.

The position of a boundary is the number of stitches of the round before it. A decrease that uses stitches on both sides
*straddles* the boundary. Common practice: slide the stitches left at the end of the needle to the next needle and work
the decrease there, so that the boundary moves back to where the decrease starts. An increase worked exactly at a
boundary stays on the needle before it: the right-hand needle already has it.
"""

from itertools import accumulate
from typing import NamedTuple

from roundwright.knitting.rounds.round import Round, Steps, Unworkable, Work, uses_and_leaves
from roundwright.language import say

NewPosition = tuple[int, int]
"""Position of a boundary after some steps, in stitches they leave, and the number of stitches slid there."""


class StepMap(NamedTuple):
    """What one step does to boundaries. Each time through, it uses some stitches and leaves at least one."""

    start: int  # stitches used before the step
    left: int  # stitches left before the step
    uses: int  # stitches used by one time
    leaves: int  # stitches left by one time
    times: int
    inner: "RoundMap | None"  # the steps of one time of a repeat; None for a stitch

    def new_position_within(self, position: int) -> NewPosition:
        """New position of a boundary inside one time; both positions are counted from the start of that time."""
        return (0, position) if self.inner is None else self.inner.new_position(position)


class RoundMap(NamedTuple):
    """Old position to new position, for every possible boundary, over one round or one time of a repeat."""

    step_maps: tuple[StepMap, ...]
    uses: int
    leaves: int

    def new_position(self, boundary: int) -> NewPosition:
        """New position of one boundary."""
        for step_map in self.step_maps:
            start, left, uses, leaves, times, _ = step_map
            if boundary < start + uses * times:
                time, within = divmod(boundary - start, uses)
                position, slid = step_map.new_position_within(within)
                return left + time * leaves + position, slid
        return self.leaves, 0

    def straddles(self, after: list[int]) -> list[int]:
        """Straddles from this round on, by position before the round; `after` has those of the later rounds."""
        before: list[int] = []
        self.add_straddles(after, 0, before)
        before.append(after[self.leaves])
        return before

    def add_straddles(self, after: list[int], offset: int, before: list[int]) -> None:
        """Append the straddles of all boundaries but the last to `before`; positions in `after` begin at `offset`."""
        for step_map in self.step_maps:
            _, left, uses, leaves, times, inner = step_map
            first = offset + left
            # The shorter loop: crown sections are few and wide, the repeats of a swatch many and narrow.
            if inner is not None and uses == inner.uses > times * len(inner.step_maps):
                for time in range(times):
                    inner.add_straddles(after, first + time * leaves, before)
                continue
            counts = [0] * (uses * times)
            for within in range(uses):
                position, slid = step_map.new_position_within(within)
                later = after[first + position : first + position + leaves * times : leaves]
                counts[within::uses] = [straddles + 1 for straddles in later] if slid else later
            before += counts


class BoundaryPaths(NamedTuple):
    """The path of every possible boundary through some rounds."""

    rounds: tuple[Round, ...]
    round_maps: tuple[RoundMap | None, ...]
    """None for a round in which no boundary moves."""
    straddles: list[int]
    """Over all the rounds, for a boundary that starts 0, 1, 2, ... stitches into the first."""


def boundary_paths(rounds: tuple[Round, ...], stitches: int) -> BoundaryPaths:
    """The paths of all boundaries through rounds that begin with `stitches`; time grows with stitches x rounds.

    The rounds chain; there may be none. Raises `Unworkable` where the first works another number of stitches.
    """
    _check_first_round(rounds, stitches)
    round_maps = tuple(None if _keeps_positions(round.steps) else _round_map(round.steps) for round in rounds)
    straddles = [0] * ((rounds[-1].after if rounds else stitches) + 1)
    for round_map in reversed(round_maps):
        if round_map is not None:
            straddles = round_map.straddles(straddles)
    return BoundaryPaths(rounds, round_maps, straddles)


def boundaries_of(split: tuple[int, ...]) -> tuple[int, ...]:
    """Positions of the boundaries between needles that hold these stitches."""
    return tuple(accumulate(split[:-1]))


def _keeps_positions(steps: Steps) -> bool:
    """Whether every stitch uses one and leaves one, so that no boundary moves."""
    table = uses_and_leaves()
    return all(
        table[step.stitch] == (1, 1) if isinstance(step, Work) else _keeps_positions(step.steps)
        for step in steps
    )


def _round_map(steps: Steps) -> RoundMap:
    table = uses_and_leaves()
    step_maps: list[StepMap] = []
    start = left = 0
    for step in steps:
        inner = None
        if isinstance(step, Work):
            uses, leaves = table[step.stitch]
            again = 0
        else:
            inner = _round_map(step.steps)
            uses, leaves, again = inner.uses, inner.leaves, step.again
        if uses:  # increases alone have no position of their own: they move the next step
            step_maps.append(StepMap(start, left, uses, leaves, step.times, inner))
        start += uses * step.times
        left += leaves * step.times
        if again and inner is not None:  # the last time, which stops early, is the beginning of a whole one
            left_again = inner.new_position(again)[0]
            step_maps.append(StepMap(start, left, again, left_again, 1, inner))
            start += again
            left += left_again
    return RoundMap(tuple(step_maps), start, left)


def _check_first_round(rounds: tuple[Round, ...], stitches: int) -> None:
    if rounds and rounds[0].before != stitches:
        raise Unworkable(
            say("split.first_round_works", round_stitches=rounds[0].before, stitches=stitches),
            pointer="#/rounds/0",
            nearest=say("split.stitches_on_needles", stitches=rounds[0].before),
        )
