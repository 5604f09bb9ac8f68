"""How a crown goes on: the next shaping round, from those before it."""

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import Repeat, Round, Step, Steps, Work, execute
from roundwright.knitting.rounds.spread import most_changes, spread
from roundwright.wording.reading.phrases import Phrase, Rounds, Said
from roundwright.wording.reading.vocabulary import words_of
from roundwright.wording.reading.worked import times


def next_steps(count: int, last: Round, before: Round | None) -> Steps | None:
    """The shaping round that follows `last` (and `before` that) on so many stitches: a plain stitch or two fewer.

    Where the two do not show how to go on, as many changes are spread evenly. None where that cannot be worked.
    """
    steps = _moved(last.steps, before.steps) if before is not None else None
    if steps and _fits(steps, count, last):
        return steps
    for taken in (1, 2):  # a double decrease takes the stitch on either side of it
        steps = _fewer(last.steps, taken)
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


def _fewer(steps: Steps, taken: int) -> Steps | None:
    """The steps with so many plain stitches fewer in the repeat, each from the longest run of them."""
    for place, step in enumerate(steps):
        if type(step) is Repeat and (inside := _fewer(step.steps, taken)):
            return (*steps[:place], *times(step.times, inside), *steps[place + 1 :])
    made = list(steps)
    for _ in range(taken):
        runs = [place for place, step in enumerate(made) if type(step) is Work and step.stitch in ("k", "p")]
        if not runs:
            return None
        place = max(runs, key=lambda run: made[run].times)
        run = made[place]
        assert type(run) is Work
        made[place : place + 1] = [Work(run.stitch, run.times - 1)] if run.times > 1 else []
    return tuple(made) or None


def tells_alone(phrases: tuple[Phrase, ...]) -> bool:
    """Whether rounds are worked from then on without others: `Repeat round A only`."""
    return any(type(phrase) is Said and phrase.text in words_of("only") for phrase in phrases)


def rounds_fewer(phrases: tuple[Phrase, ...]) -> int:
    """How many plain rounds fewer are told each time: `1 rnd less`, `as many rnds as there are sts between`; else 0."""
    texts = [phrase.text if type(phrase) is Said else "" for phrase in phrases]
    for at, rounds in enumerate(phrases):
        if type(rounds) is not Rounds or rounds.every:
            continue
        behind = texts[at + 1 : at + 4]
        if behind[:1] in (["less"], ["fewer"]):
            return rounds.number.of(0) or 0
        as_many = [*filter(None, texts[max(0, at - 3) : at])][-2:] == ["as", "many"]
        if as_many and behind[:1] == ["as"] and not words_of("stitch_noun").isdisjoint(behind):
            return 1
    return 0
