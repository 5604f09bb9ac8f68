"""Borders between needles: the way each goes through the rounds.

A *border* sits at so many stitches into the round. A decrease that uses stitches on both sides of it *straddles*.
Common practice slides the stitches left at the end of the needle on to the next one and works the decrease there: the
border moves back to where the decrease starts. Otherwise the border keeps what the steps before it leave. An
increase worked exactly at a border stays on the needle before it: the right-hand needle has it already.
"""

from typing import NamedTuple

from roundwright.knitting.rounds import Round, Steps, Unworkable, Work, uses_and_leaves

Landing = tuple[int, int]
"""Where a border is after some steps, counted in the stitches they leave, and how many stitches are slid there."""


class Stretch(NamedTuple):
    """A stretch of a round that repeats itself: every stitch takes some and leaves at least one."""

    start: int  # stitches into the round
    left: int  # stitches made before it
    uses: int  # by one time
    leaves: int
    times: int
    landings: tuple[Landing, ...]  # in one time, of a border 0, 1, 2, ... stitches into it


class Passage(NamedTuple):
    """The way of every possible border through one round."""

    stretches: tuple[Stretch, ...]
    after: int  # where its end is

    def landing(self, border: int) -> Landing:
        """The landing of one border."""
        for start, left, uses, leaves, times, landings in self.stretches:
            if border < start + uses * times:
                time, into = divmod(border - start, uses)
                to, slid = landings[into]
                return left + time * leaves + to, slid
        return self.after, 0

    def straddles(self, after: list[int]) -> list[int]:
        """The straddles of all borders from this round on, from those `after` it."""
        before: list[int] = []
        for _, left, uses, leaves, times, landings in self.stretches:
            stretch = [0] * (uses * times)
            for into, (to, slid) in enumerate(landings):
                met = after[left + to : left + to + leaves * times : leaves]
                stretch[into::uses] = [straddles + 1 for straddles in met] if slid else met
            before += stretch
        before.append(after[self.after])
        return before


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
        if isinstance(step, Work):
            uses, leaves = facts[step.stitch]
            landings: tuple[Landing, ...] = tuple((0, place) for place in range(uses))
            again = 0
        else:
            once = _passage(step.steps)
            landings, leaves, again = _spelled(once), once.after, step.again
            uses = len(landings)
        if uses:  # what only increases moves the borders of the next step on
            stretches.append(Stretch(start, left, uses, leaves, step.times, landings))
        start += uses * step.times
        left += leaves * step.times
        if again:  # the last time is the beginning of a whole one
            stretches.append(Stretch(start, left, again, landings[again][0], 1, landings[:again]))
            start += again
            left += landings[again][0]
    return Passage(tuple(stretches), left)


def _spelled(passage: Passage) -> tuple[Landing, ...]:
    """The landings of all borders but the one at the end."""
    return tuple(
        (left + time * leaves + to, slid)
        for _, left, _, leaves, times, landings in passage.stretches
        for time in range(times)
        for to, slid in landings
    )


def _begins_with(rounds: tuple[Round, ...], stitches: int) -> None:
    if rounds and rounds[0].before != stitches:
        raise Unworkable(
            f"The first round works {rounds[0].before} stitches, but {stitches} are on the needles.",
            pointer="#/rounds/0",
            nearest=f"{rounds[0].before} stitches on the needles",
        )
