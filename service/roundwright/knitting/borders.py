"""Borders between needles: the way each goes through the rounds.

A *border* sits at so many stitches into the round. A decrease that uses stitches on both sides of it *straddles*.
Common practice slides the stitches left at the end of the needle on to the next one and works the decrease there: the
border moves back to where the decrease starts. Otherwise the border keeps what the steps before it leave. An
increase worked exactly at a border stays on the needle before it: the right-hand needle has it already.
"""

from typing import NamedTuple

from roundwright import reference
from roundwright.knitting.rounds import Round, Step, Steps, Unworkable, Work

Passage = tuple[list[int], list[int]] | None
"""Where a border 0, 1, 2, ... stitches into a round is after it, and how many stitches are slid there; none for a
round in which no border moves."""


class Ways(NamedTuple):
    """The way of every possible border through some rounds."""

    rounds: tuple[Round, ...]
    passages: tuple[Passage, ...]
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
            moved = zip(*passage, strict=True)
            straddles = [straddles[to] + 1 if slid else straddles[to] for to, slid in moved]
    return Ways(rounds, passages, straddles)


def _level(steps: Steps) -> bool:
    """Whether every stitch takes one and leaves one, so that no border moves."""
    table = reference.stitches()
    for step in steps:
        if isinstance(step, Work):
            if not table[step.stitch].uses == table[step.stitch].leaves == 1:
                return False
        elif not _level(step.steps):
            return False
    return True


def _passage(steps: Steps) -> tuple[list[int], list[int]]:
    """Where a border 0, 1, 2, ... stitches into the round is after it, and how many stitches are slid there.

    Both lists have one entry more than the steps use stitches; time grows with that number.
    """
    landing, slides = [0], [0]
    for step in steps:
        # The last entry is made anew: what is increased at this very border stays on the needle before it.
        further, slid = _stretch(step, landing.pop())
        landing += further
        slides[-1:] = slid
    return landing, slides


def _stretch(step: Step, left: int) -> tuple[list[int], list[int]]:
    """The passage of one step after `left` stitches are made."""
    if isinstance(step, Work):
        row = reference.stitches()[step.stitch]
        uses, leaves = row.uses, row.leaves
        if not uses:
            return [left + leaves * step.times], [0]
        places = range(uses * step.times + 1)
        if uses == 1:
            return [left + leaves * place for place in places], [0] * len(places)
        return [left + place // uses * leaves for place in places], [place % uses for place in places]
    once, slid = _passage(step.steps)
    leaves, end = once[-1], left + once[-1] * step.times
    if len(once) == 1:
        return [end], [0]
    landing = [made + each for made in range(left, end, leaves) for each in once[:-1]]
    # Where the repeat stops early, its last time is the beginning of a whole one.
    landing += [end + each for each in once[: step.again + 1]] if step.again else [end]
    return landing, slid[:-1] * step.times + slid[: step.again + 1]


def _begins_with(rounds: tuple[Round, ...], stitches: int) -> None:
    if rounds and rounds[0].before != stitches:
        raise Unworkable(
            f"The first round works {rounds[0].before} stitches, but {stitches} are on the needles.",
            pointer="#/rounds/0",
            nearest=f"{rounds[0].before} stitches on the needles",
        )
