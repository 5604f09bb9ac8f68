"""A count put right in the next round: one stitch more worked together, or one made, on the needle that needs it.

A stitch of the line is exchanged for another that uses one stitch more, or one fewer, and leaves as many. The changed
round is executed like every other.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright.knitting.counting.progress import NO_SHAPING, Needles, shaping_of
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
    knit,
    runs,
    stitch_names,
)
from roundwright.knitting.rounds.work_round import work_round

Swap = Mapping[StitchName, StitchName]
TAKE_IN: Final[Swap] = {
    "k": "k2tog", "p": "p2tog", "k2tog": "k3tog", "ssk": "sssk", "skp": "sk2p", "p2tog": "p3tog",
}  # fmt: skip
"""What is worked in place of a stitch to use one more and leave as many (common practice)."""
TRIPLE: Final[frozenset[StitchName]] = frozenset({"k3tog", "sssk", "sk2p", "p3tog"})
"""Those of them in which a decrease takes in one stitch more."""
LEAVE_OUT: Final[Swap] = {
    "k2tog": "k", "ssk": "k", "skp": "k", "p2tog": "p", "ssp": "p", "k3tog": "k2tog", "sssk": "ssk", "sk2p": "skp",
    "cdd": "k2tog", "p3tog": "p2tog",
}  # fmt: skip
"""What is worked in place of a decrease to use one stitch fewer and leave as many (common practice)."""
MAKE: Final[Swap] = {"k": "m1", "p": "m1p"}
"""What is worked in place of a stitch that is missing: one made out of the strand."""


class Miscounted(NamedTuple):
    """Stitches too many or too few at the start of a round.

    - `off`: how many too many each needle holds (below 0: too few), or the whole round where `shares` is None
    - `shares`: what each needle should hold
    - `beside`: how many stitches stand before each place where it is likeliest to have happened
    """

    off: Needles
    shares: Needles | None
    beside: tuple[int, ...]


def repaired_round(
    line: Round, miscounted: Miscounted, *, flat: bool, anywhere: bool = False
) -> Round | None:
    """The line worked on what the needles hold, changed on the needles that are off, so that it leaves what it should.

    Of the ways to do that the first is taken that also leaves on each needle what it should, else the first that comes
    out. None where no way comes out. With `anywhere` it may be changed on a needle beside one that has no room for it.
    """
    off, shares, _ = miscounted
    fallback = None
    for swap in (TAKE_IN,) if sum(off) > 0 else (LEAVE_OUT, MAKE):
        for wanted in (_beside, _evenly, _at_once):
            places = _places(line, miscounted, swap, wanted, anywhere=anywhere)
            changed = None if places is None else _changed_at(line, places, swap, sum(off), flat=flat)
            if changed is None:
                continue
            if shares is None:
                return replace(changed, moves=line.moves)
            held = tuple(share + more for share, more in zip(shares, off, strict=True))
            (changed,) = track_needles((changed,), held)
            if line.needles in (None, changed.needles):
                return changed
            fallback = fallback or changed
    return fallback


def _changed_at(line: Round, places: tuple[int, ...], swap: Swap, more: int, *, flat: bool) -> Round | None:
    """The line changed in these places; None where it cannot be changed or written so."""
    steps = line.steps
    for place in sorted(places, reverse=True):  # the last first: what is before it stays where it is
        changed = _changed(steps, place, swap)
        if changed is None:
            return None
        steps = changed
    return _written(
        line.number, line.before + more, joined(*((step,) for step in steps)), line.notes, flat=flat
    )


def _written(number: int, before: int, steps: Steps, notes: tuple[str, ...], *, flat: bool) -> Round | None:
    line = work_round(number, before, steps, notes=notes, flat=flat)
    return line if len(steps) <= MOST_STEPS and len(line.text) <= LONGEST_LINE else None


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
                return (*done, *_times(at, step), *new, *_times(step.times - at - 1, step), *ahead)
        done.append(step)
        place -= uses * step.times
    return None


def _swapped(step: Step, place: int, swap: Swap) -> Steps | None:
    """One turn of the step, swapped."""
    if isinstance(step, Repeat):
        return _changed(step.steps, place, swap)
    return (Work(swap[step.stitch]),) if step.stitch in swap else None


def _times(times: int, step: Step) -> Steps:
    if not times:
        return ()
    if isinstance(step, Work):
        return (Work(step.stitch, times),)
    return step.steps if times == 1 else (Repeat(times, step.steps),)


# --- where to change it -------------------------------------------------------------------------------------

Wanted = Callable[[int, int, int, tuple[int, ...]], Iterator[int]]
"""Places wanted from `start` to `end`, for so many stitches too many, given the likeliest places."""


def _places(
    line: Round, miscounted: Miscounted, swap: Swap, wanted: Wanted, *, anywhere: bool
) -> tuple[int, ...] | None:
    """Where to change the line: for each needle as many places on it as stitches are off; None where it has too few."""
    off, shares, beside = miscounted
    if line.before > MOST_CROWN_STITCHES:
        return tuple(wanted(0, line.before, sum(off), beside))
    stitches = tuple(_swappable(line.steps, swap))
    found: list[int] = []
    start = 0
    for needle, (more, share) in enumerate(zip(off, shares or (line.before,), strict=True), start=1):
        end = start + share
        if more:
            slid = sum(move.stitches for move in line.moves if move.needle == needle) if shares else 0
            here = _on_needle(stitches, start, end - slid, more, swap)
            if len(here) < abs(more) and anywhere:
                here = [at for at, uses in stitches if start <= at and at + uses <= end]
            places = _nearest(here, tuple(wanted(start, end, more, beside)))
            if places is None:
                return None
            found += places
        start = end
    return tuple(found)


def _swappable(steps: Steps, swap: Swap) -> Iterator[tuple[int, int]]:
    """The stitches that can be swapped: how many stitches are used before each, and by it."""
    at = 0
    for stitch, times in runs(steps):
        uses, _ = execute((Work(stitch),))
        if stitch in swap:
            for turn in range(times):
                yield at + turn * uses, uses
        at += uses * times


def _on_needle(stitches: Sequence[tuple[int, int]], start: int, end: int, more: int, swap: Swap) -> list[int]:
    """Those of the stitches that lie on the needle from `start` to `end` for sure.

    A stitch made where a needle begins lies on the needle before it, and on an empty needle none can be made.
    """
    here = [at for at, uses in stitches if start <= at and at + uses <= end]
    if swap is not MAKE or more > 0:
        return here
    if end - start + more < 1:
        return []
    inside = [at for at in here if start < at < end - 1]
    return inside if len(inside) >= abs(more) else [at for at in here if at > start or not start]


def _nearest(stitches: list[int], wanted: tuple[int, ...]) -> list[int] | None:
    """The stitch nearest to each place wanted, each taken once; None where there are not enough."""
    if len(stitches) < len(wanted):
        return None
    left = list(stitches)
    taken = []
    for place in wanted:
        nearest = min(left, key=lambda at: abs(at - place))
        left.remove(nearest)
        taken.append(nearest)
    return taken


def _beside(start: int, end: int, more: int, beside: tuple[int, ...]) -> Iterator[int]:
    """Where it is likeliest to have happened: on a decrease that was missed, behind one too many.

    Several are spread over these places, as the round would have had them: nobody knows which were forgotten, and
    side by side they would show.
    """
    here = [place for place in beside if start <= place < end]
    few = abs(more)
    if len(here) < few:
        yield from _evenly(start, end, more, beside)
    else:
        for turn in range(few):
            place = here[turn * len(here) // few]
            yield place if more > 0 else min(place + 1, end - 1)


def _evenly(start: int, end: int, more: int, _: tuple[int, ...]) -> Iterator[int]:
    for turn in range(1, abs(more) + 1):
        yield start + turn * (end - start) // (abs(more) + 1)


def _at_once(start: int, _: int, more: int, __: tuple[int, ...]) -> Iterator[int]:
    yield from range(start, start + abs(more))


# --- needles that were worked plain -------------------------------------------------------------------------


def caught_up(shaped: Round, begun: Needles, plain: Needles, following: Round | None) -> Round | None:
    """A round in which the needles `plain` (indexes) work the line `shaped` and all others work no decreases.

    `begun` is what each needle held before that line. The round is the following one where that shapes nothing, else
    one more with the number of `shaped`, knitted on the other needles. None where it cannot be written.
    """
    level = following is not None and shaping_of(following.steps) == NO_SHAPING
    steps: list[Steps] = []
    held = []
    start = after = 0
    for needle, (stitches, share) in enumerate(zip(begun, shaped.needles or (), strict=True)):
        if needle in plain:
            steps.append(_part(shaped.steps, start, start + stitches))
        elif level and following is not None:
            steps.append(_part(following.steps, after, after + share))
        else:
            steps.append(knit(share))
        held.append(stitches if needle in plain else share)
        start += stitches
        after += share
    whole = joined(*steps)
    if execute(whole) != (sum(held), after):
        return None
    number = following.number if level and following is not None else shaped.number
    line = _written(number, sum(held), whole, (), flat=False)  # there is but one needle in flat work
    return line and track_needles((line,), tuple(held))[0]


def _part(steps: Steps, start: int, end: int) -> Steps:
    """The stitches of the steps that use the stitches from `start` to `end`, with the increases among them."""
    part: list[Step] = []
    at = 0
    for stitch, times in runs(steps):
        uses, _ = execute((Work(stitch),))
        if uses:
            turns = sum(start <= at + turn * uses and at + (turn + 1) * uses <= end for turn in range(times))
        else:
            turns = times if start < at <= end or at == start == 0 else 0
        part += (Work(stitch, turns),) if turns else ()
        at += uses * times
    return joined(*((step,) for step in part))
