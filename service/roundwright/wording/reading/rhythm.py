"""How a crown goes on: the next shaping round, from those before it."""

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import Repeat, Round, Step, Steps, Work, execute
from roundwright.knitting.rounds.spread import most_changes, spread
from roundwright.wording.reading.worked import times


def next_steps(count: int, last: Round, before: Round | None) -> Steps | None:
    """The shaping round that follows `last` (and `before` that) on so many stitches: one plain stitch fewer each time.

    Where the two do not show how to go on, as many changes are spread evenly. None where that cannot be worked.
    """
    steps = _moved(last.steps, before.steps) if before is not None else None
    if steps and _fits(steps, count, last):
        return steps
    for everywhere in (False, True):
        steps = _fewer(last.steps, everywhere=everywhere)
        if steps and _fits(steps, count, last):
            return steps
    change = last.after - last.before
    method = "k2tog" if change < 0 else "m1"
    if 0 < abs(change) <= most_changes(count, method):
        try:
            return spread(count, abs(change), method)
        except Impossible:
            return None
    return None


def _fits(steps: Steps, count: int, last: Round) -> bool:
    used, left = execute(steps)
    return used == count and left - used == last.after - last.before


def _moved(steps: Steps, before: Steps) -> Steps | None:
    """The steps with every number moved as it moved from the round before; None where they are of another build."""
    if len(steps) != len(before):
        return None
    made: list[Step] = []
    for step, other in zip(steps, before, strict=True):
        if type(step) is Work and type(other) is Work:
            if step.stitch != other.stitch:
                return None
            count = 2 * step.times - other.times
            if count > 0:
                made.append(Work(step.stitch, count))
            elif count < 0:
                return None
        elif type(step) is Repeat and type(other) is Repeat:
            inside = _moved(step.steps, other.steps)
            if inside is None or step.times != other.times or not inside:
                return None
            made.extend(times(step.times, inside))
        else:
            return None
    return tuple(made)


def _fewer(steps: Steps, *, everywhere: bool) -> Steps | None:
    """The steps with one plain stitch fewer in the repeat, or `everywhere`: on both sides of a double decrease."""
    made: list[Step] = []
    changed = False
    for step in steps:
        if type(step) is Repeat and (everywhere or not changed):
            inside = _fewer(step.steps, everywhere=everywhere)
            if inside:
                made.extend(times(step.times, inside))
                changed = True
                continue
        if type(step) is Work and step.stitch in ("k", "p") and (everywhere or not changed):
            changed = True
            if step.times > 1:
                made.append(Work(step.stitch, step.times - 1))
            continue
        made.append(step)
    return tuple(made) if changed and made else None
