"""How much a round is like those around it: of two repairs that come out, the one like its neighbours is meant."""

from collections.abc import Iterator
from typing import Final

from roundwright.knitting.rounds.round import Round, Steps, Work, runs, uses_and_leaves
from roundwright.wording.reading.states import Chain, Done, Lane
from roundwright.wording.reading.tree import Nodes

MOST_COMPARED: Final = 40
"""Rounds before and after a repaired one that it is compared with."""
MOST_COLUMNS: Final = 120
"""Stitches of a round that are compared with those below."""
OFF_THE_CORNER: Final = 0.4
"""What it costs that no double decrease stands on one of the round below: a tie between repairs is broken, no more."""
PURLED: Final = frozenset(("p", "p2tog", "ssp", "p3tog", "pfb", "m1p"))


def unlike(lanes: tuple[Lane, ...], first: int, stop: int) -> float:
    """How unlike its neighbours the round of the segments from `first` to before `stop` is: a cost."""
    worked = [lane for lane in lanes if _change(lane.chain, first, stop) is not None]
    if not worked:
        return 0.0
    mine, others, below, above = _neighbours(worked[0].chain, first, stop)
    if mine is None:
        return 0.0
    own, change = signature(mine), mine.after - mine.before
    cost = 0.0
    alike = [other for other in others if (other.after != other.before) == bool(change)] or others
    if alike and (len(own) > 1 or change):
        cost += min(
            min(2.0, 0.5 * distance(own, signature(other)))
            + (0.6 if other.after - other.before != change else 0.0)
            for other in alike
        )
    if "sl" in own and change < 0 and not any("sl" in signature(other) for other in others):
        cost += 1.5
    if below is not None:
        cost += 3.0 * mismatch(below, mine)
    if above is not None:
        cost += 3.0 * mismatch(mine, above)
    cost += OFF_THE_CORNER * _off_the_corners(worked[0].chain, first, stop)
    changes = {_change(lane.chain, first, stop) for lane in worked[1:]} - {change}
    return cost + (0.6 if changes else 0.0)


def _neighbours(
    chain: Chain, first: int, stop: int
) -> tuple[Round | None, list[Round], Round | None, Round | None]:
    """The first round of the segments, rounds around it that say something, and those below and above it."""
    mine: Round | None = None
    below: Round | None = None
    above: Round | None = None
    last: Round | None = None
    others: list[Done] = []
    printed: Nodes = ()  # of the round: where they are worked again, they say nothing of it
    while chain and len(others) < MOST_COMPARED:
        chain, done = chain
        if first <= done.segment < stop:
            above = last if mine is None else above
            mine, printed = done.round, done.nodes
            continue
        if mine is not None and below is None:
            below = done.round
        last = done.round
        if len(signature(done.round)) > 1 or done.round.before != done.round.after:
            others.append(done)
    return mine, [done.round for done in others if done.nodes != printed], below, above


def _change(chain: Chain, first: int, stop: int) -> int | None:
    """How many stitches the first round of the segments adds or takes away."""
    change = None
    while chain:
        chain, done = chain
        if first <= done.segment < stop:
            change = done.round.after - done.round.before
        elif change is not None:
            break
    return change


def signature(round_: Round) -> tuple[str, ...]:
    """The stitches of a round by name, every repeat once."""
    return tuple(_names(round_.steps))


def _names(steps: Steps) -> Iterator[str]:
    for step in steps:
        if isinstance(step, Work):
            yield step.stitch
        else:
            yield from _names(step.steps)


def distance(names: tuple[str, ...], others: tuple[str, ...]) -> int:
    """How many stitches have to be put in, left out or exchanged to make the one of the other."""
    names, others = names[:16], others[:16]
    row = list(range(len(others) + 1))
    for i, left in enumerate(names, start=1):
        last, row[0] = row[0], i
        for j, right in enumerate(others, start=1):
            last, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, last + (left != right))
    return row[-1]


def mismatch(below: Round, above: Round) -> float:
    """The share of stitches that are knitted over a purl or purled over a knit, where both rounds have both."""
    under = "".join(_columns(below.steps, 1, MOST_COLUMNS))[:MOST_COLUMNS]
    over = "".join(_columns(above.steps, 0, MOST_COLUMNS))[:MOST_COLUMNS]
    if not ("k" in under and "p" in under and "p" in over):
        return 0.0
    width = min(len(under), len(over))
    return sum(a != b for a, b in zip(under, over, strict=False)) / width if width else 0.0


def _off_the_corners(chain: Chain, first: int, stop: int) -> float:
    """The share of double decreases that stand off those of the next shaped round, below or above."""
    mine: Round | None = None
    below: Round | None = None
    above: Round | None = None
    while chain and below is None:
        chain, done = chain
        if first <= done.segment < stop:
            mine = done.round
        elif done.round.before == done.round.after:
            continue
        elif mine is None:
            above = done.round
        else:
            below = done.round
    if mine is None:
        return 0.0
    pairs = [(under, over) for under, over in ((below, mine), (mine, above)) if under and over]
    return max((_off(_corners(under)[1], _corners(over)[0]) for under, over in pairs), default=0.0)


def _off(left: frozenset[int], worked: frozenset[int]) -> float:
    """The share of double decreases worked on other stitches than those that double decreases have left."""
    return len(worked - left) / len(worked) if left and worked else 0.0


def _corners(round_: Round) -> tuple[frozenset[int], frozenset[int]]:
    """Where double decreases have their middle stitch, in the stitches of the round below and in those they leave.

    Empty where a section begins or ends with one: those of the next round then stand beside them, not above.
    """
    facts = uses_and_leaves()
    names = signature(round_)
    if any(facts[name] == (3, 1) for name in (*names[:1], *names[-1:])):
        return frozenset(), frozenset()
    middles: list[int] = []
    left: list[int] = []
    used_before = left_before = 0
    for stitch, times in runs(round_.steps):
        uses, leaves = facts[stitch]
        if (uses, leaves) == (3, 1):
            middles += range(used_before + 1, used_before + 3 * times, 3)
            left += range(left_before, left_before + times)
        used_before += uses * times
        left_before += leaves * times
        if min(used_before, left_before) > MOST_COLUMNS:
            break
    return frozenset(middle for middle in middles if middle < MOST_COLUMNS), frozenset(left)


def _columns(steps: Steps, leaves: int, most: int) -> Iterator[str]:
    """`k` or `p` for the stitches that steps leave (or use, with `leaves` 0), up to about so many."""
    facts = uses_and_leaves()
    given = 0
    for step in steps:
        if given > most:
            return
        if isinstance(step, Work):
            kind = "p" if step.stitch in PURLED else "k"
            part = kind * min(most, facts[step.stitch][leaves] * step.times)
        else:
            once = "".join(_columns(step.steps, leaves, most))
            part = once * min(step.times, most // max(1, len(once)) + 1)
        given += len(part)
        yield part
