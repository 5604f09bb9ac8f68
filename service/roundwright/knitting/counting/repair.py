"""Putting a count right in the next round: one stitch more taken in, or one more made, where it is needed.

A round is changed in one place without being expanded: another stitch is worked in place of one, so that the round uses
one stitch more, or one fewer, and leaves what it should. The changed round is executed like every other.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.counting.progress import Needles
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES
from roundwright.knitting.needles.tracking import track_needles
from roundwright.knitting.rounds.balanced_words import joined
from roundwright.knitting.rounds.round import (
    LONGEST_LINE,
    MOST_STEPS,
    Repeat,
    Round,
    Step,
    Steps,
    StitchName,
    Work,
    execute,
    expand_early_stops,
    runs,
    stitch_names,
)
from roundwright.knitting.rounds.work_round import work_round

Swap = Mapping[StitchName, StitchName]
TAKE_IN: Final[Swap] = {
    "k": "k2tog", "p": "p2tog", "k2tog": "k3tog", "ssk": "sssk", "skp": "sk2p", "p2tog": "p3tog",
}  # fmt: skip
"""What is worked in place of a stitch to use one more and leave as many (common practice)."""
LEAVE_OUT: Final[Swap] = {
    "k2tog": "k", "ssk": "k", "skp": "k", "p2tog": "p", "ssp": "p", "k3tog": "k2tog", "sssk": "ssk", "sk2p": "skp",
    "cdd": "k2tog", "p3tog": "p2tog",
}  # fmt: skip
"""What is worked in place of a decrease to use one stitch fewer and leave as many (common practice)."""
MAKE: Final[Swap] = {"k": "m1", "p": "m1p"}
"""What is worked in place of a stitch that is missing: one made out of the strand."""


def mended(
    line: Round,
    more: int,
    places: tuple[tuple[int, ...], ...],
    held: Needles | None,
    *,
    flat: bool,
) -> Round | None:
    """The line worked on `more` stitches than it is for (below 0: on fewer), so that it leaves what it should.

    `places` are choices, the best first, of where to change it: each as many places, counted in stitches of the line,
    as stitches are off. Of them the first is taken that also leaves on each needle what it should, else the first that
    comes out; `held` is what the needles hold now. None where no choice comes out.
    """
    found = None
    for swap in (TAKE_IN,) if more > 0 else (LEAVE_OUT, MAKE):
        for choice in places:
            one = _mended(line, more, choice, swap, flat=flat)
            if one is None:
                continue
            if held is None:
                return replace(one, moves=line.moves)
            (one,) = track_needles((one,), held)
            if line.needles is None or one.needles in (line.needles, tuple(filter(None, line.needles))):
                return one
            found = found or one
    return found


def _mended(line: Round, more: int, places: tuple[int, ...], swap: Swap, *, flat: bool) -> Round | None:
    """The line changed in these places; None where it has nothing to change there, or cannot be written any more."""
    steps = line.steps
    for place in sorted(places, reverse=True):  # the last first: what is before it stays where it is
        changed = _changed(steps, place, swap)
        if changed is None:
            return None
        steps = changed
    steps = joined(steps)
    one = work_round(line.number, line.before + more, steps, notes=line.notes, flat=flat)
    return one if len(steps) <= MOST_STEPS and len(one.text) <= LONGEST_LINE else None


def _changed(steps: Steps, place: int, swap: Swap) -> Steps | None:
    """The steps with the first stitch at or after `place` that can be swapped, swapped; None where there is none."""
    if swap.keys().isdisjoint(stitch_names(steps)):
        return None
    done: list[Step] = []
    ahead = list(expand_early_stops(steps))
    while ahead:
        step = ahead.pop(0)
        once = step.steps if isinstance(step, Repeat) else (Work(step.stitch),)
        uses, _ = execute(once)
        turn = -(-place // uses) if isinstance(step, Work) and uses else place // uses if uses else 0
        for at in (max(0, turn), max(0, turn) + 1):
            new = _swapped(step, place - at * uses, swap) if at < step.times else None
            if new is not None:
                return (*done, *_often(at, step), *new, *_often(step.times - at - 1, step), *ahead)
        done.append(step)
        place -= uses * step.times
    return None


def _swapped(step: Step, place: int, swap: Swap) -> Steps | None:
    """One turn of the step, swapped."""
    if isinstance(step, Repeat):
        return _changed(step.steps, place, swap)
    return (Work(swap[step.stitch]),) if step.stitch in swap else None


def _often(times: int, step: Step) -> Steps:
    if not times:
        return ()
    if isinstance(step, Work):
        return (Work(step.stitch, times),)
    return step.steps if times == 1 else (Repeat(times, step.steps),)


# --- where to change it -------------------------------------------------------------------------------------


def choices(
    stitches: int, off: Needles, held: Needles | None, decreases: tuple[int, ...]
) -> tuple[tuple[int, ...], ...]:
    """Where to change a line of so many stitches: beside the decreases below, or evenly, or at once.

    `off` says how many stitches too many each needle holds, or the whole round if `held` is None; `decreases` how
    many stitches stand before each decrease of the round in which it happened.
    """
    ends = []
    at = 0
    for share in held or (stitches,):
        ends.append((at, at + share))
        at += share
    ways = (_beside, _evenly, _at_once)
    return tuple(
        tuple(place for more, end in zip(off, ends, strict=True) for place in way(*end, more, decreases))
        for way in ways
    )


def _beside(start: int, end: int, more: int, decreases: tuple[int, ...]) -> Iterator[int]:
    """On the decreases, where one was missed; behind them, where there is one too many."""
    here = [place for place in decreases if start <= place < end]
    if len(here) < abs(more):
        yield from _evenly(start, end, more, decreases)
    else:
        for place in here[: abs(more)]:
            yield place if more > 0 else min(place + 1, end - 1)


def _evenly(start: int, end: int, more: int, _: tuple[int, ...]) -> Iterator[int]:
    for turn in range(1, abs(more) + 1):
        yield start + turn * (end - start) // (abs(more) + 1)


def _at_once(start: int, _: int, more: int, __: tuple[int, ...]) -> Iterator[int]:
    yield from range(start, start + abs(more))


@lru_cache(maxsize=512)  # asked for again for each cause in the same round
def decrease_places(steps: Steps) -> tuple[int, ...]:
    """How many stitches stand before each decrease once the round is done; none for more stitches than a hat has."""
    if max(execute(steps)) > MOST_CROWN_STITCHES:
        return ()
    places: list[int] = []
    done = 0
    for stitch, times in runs(steps):
        uses, leaves = execute((Work(stitch),))
        if uses > leaves:
            places.extend(range(done, done + leaves * times, leaves))
        done += leaves * times
    return tuple(places)
