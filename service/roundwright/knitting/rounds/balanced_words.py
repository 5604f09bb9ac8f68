"""The most even order of two kinds of parts, written as nested repeats.

*Balanced* order is maximally even: any two windows of the same number of parts hold as many of one kind, or differ by
one. Up to rotation there is one such order of a given number of each, the Christoffel word (Morse and Hedlund, Am. J.
Math. 62 (1940) 1-42; Demaine et al., Comput. Geom. 42 (2009) 429-454). Euclid's algorithm on the two numbers writes it
as nested repeats: each turn joins the rarer part with the others that fall to it.
"""

from collections.abc import Callable
from math import gcd
from operator import add
from typing import TypeVar

from roundwright.knitting.rounds.round import Repeat, Step, Steps, Work, execute

T = TypeVar("T")


def balanced(first: Steps, firsts: int, last: Steps, lasts: int, most: int) -> Steps | None:
    """The balanced order of some `first` and some `last` that begins with the one and ends with the other.

    None where whole repeats cannot say it in `most` steps: a Fibonacci word, say, has nothing four times in a row.
    """
    turns = _fewest(2, firsts, 2, lasts, most)
    if turns is None:
        return None
    for both in turns[1]:
        first, firsts, last, lasts = _turn(first, firsts, last, lasts, both=both, join=joined, power=times)
    return times(firsts, first) if firsts else times(lasts, last)


def stopping_early(wide: Steps, wides: int, narrow: Steps, narrows: int, short: int = 0) -> Steps:
    """The balanced order in the rotation that repeats stopping early say in few steps; it ends with `wide`.

    These are the standard words: each is the one before, some times over, and then the one before that, which is the
    beginning of it. One step for each turn of Euclid's algorithm. The last `short` stitches are left out: none, or all
    of the last part. There must be more than one turn.
    """
    often, rare = (wide, narrow) if wides > narrows else (narrow, wide)
    quotients = _quotients(max(wides, narrows), min(wides, narrows))
    if (len(quotients) % 2 == 1) != (rare is wide):  # standard words end with either part in turn
        quotients[-1:] = [quotients[-1] - 1, 1]
    words = gcd(wides, narrows)
    before, now = execute(often)[0], quotients[0] * execute(often)[0] + execute(rare)[0]
    word = joined(times(quotients[0], often), rare)
    for turn, quotient in enumerate(quotients[1:], start=2):
        cut = short if turn == len(quotients) and words == 1 else 0
        word = (Repeat(quotient, word, before - cut),)
        before, now = now, quotient * now + before
    if words == 1:
        return word
    return (Repeat(words - 1, word, now - short),) if short else (Repeat(words, word),)


def cut(steps: Steps, stitches: int, most: int) -> Steps:
    """The steps without their last `stitches`, which are plain stitches of one step.

    The last repeat is worked once less and its last time written out; where that makes more than `most` steps in all,
    it stops early instead.
    """
    if not stitches:
        return steps
    *rest, last = steps
    if isinstance(last, Work):
        left = last.times - stitches
        return (*rest, Work(last.stitch, left)) if left else tuple(rest)
    written = joined(tuple(rest), times(last.times - 1, last.steps), cut(last.steps, stitches, most))
    if steps_in(written) <= most:
        return written
    return (*rest, Repeat(last.times - 1, last.steps, execute(last.steps)[0] - stitches))


def steps_in(steps: Steps) -> int:
    """How many steps there are, those inside repeats counted."""
    return sum(1 if isinstance(step, Work) else 1 + steps_in(step.steps) for step in steps)


def mirrored(steps: Steps) -> Steps:
    """The same stitches from the other end. No repeat may stop early."""
    return tuple(
        step if isinstance(step, Work) else Repeat(step.times, mirrored(step.steps))
        for step in reversed(steps)
    )


def stops_early(steps: Steps) -> bool:
    """Whether a repeat anywhere stops early."""
    return any(isinstance(step, Repeat) and (step.again or stops_early(step.steps)) for step in steps)


def times(count: int, steps: Steps) -> Steps:
    """The steps, `count` times over, in as few steps as will do."""
    if count <= 1 or not steps:
        return steps if count else ()
    only = steps[0]
    if len(steps) > 1:
        return (Repeat(count, steps),)
    if isinstance(only, Work):
        return (Work(only.stitch, only.times * count),)
    return (Repeat(count, steps) if only.again else Repeat(only.times * count, only.steps),)


def joined(*parts: Steps) -> Steps:
    """The parts one after the other, with like neighbours as one step."""
    together: list[Step] = []
    for step in (step for part in parts for step in part):
        before = together[-1] if together else None
        if isinstance(step, Work) and isinstance(before, Work) and before.stitch == step.stitch:
            together[-1] = Work(step.stitch, before.times + step.times)
        elif isinstance(step, Repeat) and isinstance(before, Repeat) and _same(before, step):
            together[-1] = Repeat(before.times + step.times, step.steps, step.again)
        else:
            together.append(step)
    return tuple(together)


def _same(before: Repeat, step: Repeat) -> bool:
    return not before.again and before.steps == step.steps


# --- Euclid's algorithm ---------------------------------------------------------------------------------------------


def _turn(
    first: T,
    firsts: int,
    last: T,
    lasts: int,
    *,
    both: bool,
    join: Callable[[T, T], T],
    power: Callable[[int, T], T],
) -> tuple[T, int, T, int]:
    """One turn: the same word over longer parts, fewer of them.

    The rarer part takes as many of the other as each can have; those left over remain a part of their own, or (with
    `both`) each is added to one more of the longer parts.
    """
    if firsts <= lasts:
        each, over = divmod(lasts, firsts)
        longer = join(first, power(each, last))
        if both:
            return longer, firsts - over, join(first, power(each + 1, last)), over
        return longer, firsts, last, over
    each, over = divmod(firsts, lasts)
    longer = join(power(each, first), last)
    if both:
        return join(power(each + 1, first), last), over, longer, lasts - over
    return first, over, longer, lasts


def _fewest(first: int, firsts: int, last: int, lasts: int, most: int) -> tuple[int, tuple[bool, ...]] | None:
    """The turns that take the fewest steps, and how many; None where that is more than `most`.

    `first` and `last` are the steps of the parts. They grow like Fibonacci numbers, so the search ends soon.
    """
    if not firsts or not lasts:
        cost = _power(firsts or lasts, first if firsts else last)
        return (cost, ()) if cost <= most else None
    if first + last > most:
        return None
    best = None
    for both in (False, True) if max(firsts, lasts) % min(firsts, lasts) else (False,):
        found = _fewest(*_turn(first, firsts, last, lasts, both=both, join=add, power=_power), most)
        if found is not None:
            best = (found[0], (both, *found[1]))
            most = found[0] - 1
    return best


def _power(count: int, cost: int) -> int:
    return cost if count == 1 else cost + 1


def _quotients(larger: int, smaller: int) -> list[int]:
    quotients = []
    while smaller:
        quotient, over = divmod(larger, smaller)
        quotients.append(quotient)
        larger, smaller = smaller, over
    return quotients
