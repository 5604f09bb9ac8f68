"""Borders between needles: the way each goes through the rounds.

A *border* sits at so many stitches into the round. A decrease that uses stitches on both sides of it *straddles*.
Common practice slides the stitches left at the end of the needle on to the next one and works the decrease there: the
border moves back to where the decrease starts. Otherwise the border keeps what the steps before it leave. An
increase worked exactly at a border stays on the needle before it: the right-hand needle has it already.
"""

from typing import NamedTuple

from roundwright.knitting.rounds.round import Round, Steps, Unworkable, Work, uses_and_leaves

Landing = tuple[int, int]
"""Where a border is after some steps, counted in the stitches they leave, and how many stitches are slid there."""


class Stretch(NamedTuple):
    """A stretch of a round that repeats itself: every stitch takes some and leaves at least one."""

    start: int  # stitches into the round
    left: int  # stitches made before it
    uses: int  # by one time
    leaves: int
    times: int
    inner: "Passage | None"  # of one time, where that is more than a stitch

    def within(self, into: int) -> Landing:
        """The landing of a border so many stitches into one time, from the start of that time."""
        return (0, into) if self.inner is None else self.inner.landing(into)


class Passage(NamedTuple):
    """The way of every possible border through one round, or through one time of a repeat."""

    stretches: tuple[Stretch, ...]
    uses: int
    after: int  # where its end is

    def landing(self, border: int) -> Landing:
        """The landing of one border."""
        for stretch in self.stretches:
            start, left, uses, leaves, times, _ = stretch
            if border < start + uses * times:
                time, into = divmod(border - start, uses)
                to, slid = stretch.within(into)
                return left + time * leaves + to, slid
        return self.after, 0

    def straddles(self, after: list[int]) -> list[int]:
        """The straddles of all borders from this round on, from those `after` it."""
        before: list[int] = []
        self.meet(after, 0, before)
        before.append(after[self.after])
        return before

    def meet(self, after: list[int], at: int, before: list[int]) -> None:
        """Add the straddles of all borders but the one at the end, with what it leaves standing `at` in `after`."""
        for stretch in self.stretches:
            _, left, uses, leaves, times, inner = stretch
            here = at + left
            # Sections are few and wide, the repeats of a swatch many and narrow: the shorter way round.
            if inner is not None and uses == inner.uses > times * len(inner.stretches):
                for time in range(times):
                    inner.meet(after, here + time * leaves, before)
                continue
            side_by_side = [0] * (uses * times)
            for into in range(uses):
                to, slid = stretch.within(into)
                met = after[here + to : here + to + leaves * times : leaves]
                side_by_side[into::uses] = [straddles + 1 for straddles in met] if slid else met
            before += side_by_side


class Ways(NamedTuple):
    """The way of every possible border through some rounds."""

    rounds: tuple[Round, ...]
    passages: tuple[Passage | None, ...]
    """None for a round in which no border moves."""
    straddles: list[int]
    """Over all the rounds, on a border that starts 0, 1, 2, ... stitches into the first."""


def ways(rounds: tuple[Round, ...], stitches: int) -> Ways:
    """The ways of all borders through rounds that begin with `stitches`; time grows with stitches x rounds.

    The rounds chain; there may be none. Raises `Unworkable` where the first works another number of stitches.
    """
    _begins_with(rounds, stitches)
    passages = tuple(None if _level(each.steps) else _passage(each.steps) for each in rounds)
    straddles = [0] * ((rounds[-1].after if rounds else stitches) + 1)
    for passage in reversed(passages):
        if passage is not None:
            straddles = passage.straddles(straddles)
    return Ways(rounds, passages, straddles)


def _level(steps: Steps) -> bool:
    """Whether every stitch takes one and leaves one, so that no border moves."""
    facts = uses_and_leaves()
    return all(
        facts[step.stitch] == (1, 1) if isinstance(step, Work) else _level(step.steps) for step in steps
    )


def _passage(steps: Steps) -> Passage:
    facts = uses_and_leaves()
    stretches: list[Stretch] = []
    start = left = 0
    for step in steps:
        inner = None
        if isinstance(step, Work):
            uses, leaves = facts[step.stitch]
            again = 0
        else:
            inner = _passage(step.steps)
            uses, leaves, again = inner.uses, inner.after, step.again
        if uses:  # what only increases moves the borders of the next step on
            stretches.append(Stretch(start, left, uses, leaves, step.times, inner))
        start += uses * step.times
        left += leaves * step.times
        if again and inner is not None:  # the last time is the beginning of a whole one
            made = inner.landing(again)[0]
            stretches.append(Stretch(start, left, again, made, 1, inner))
            start += again
            left += made
    return Passage(tuple(stretches), start, left)


def _begins_with(rounds: tuple[Round, ...], stitches: int) -> None:
    if rounds and rounds[0].before != stitches:
        raise Unworkable(
            f"The first round works {rounds[0].before} stitches, but {stitches} are on the needles.",
            pointer="#/rounds/0",
            nearest=f"{rounds[0].before} stitches on the needles",
        )
