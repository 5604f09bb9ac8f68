"""Balanced words: the most even order of two kinds of parts, written as nested repeats.

*Balanced* order is maximally even: any two windows of the same number of parts have the same number of each kind, or
differ by one. For given numbers of both kinds there is one such order up to rotation, the Christoffel word (Morse and
Hedlund, Am. J. Math. 62 (1940) 1-42; Demaine et al., Comput. Geom. 42 (2009) 429-454). Euclid's algorithm on the two
numbers writes it as nested repeats: each step joins every rarer part with its share of the others.
"""

from collections.abc import Callable
from math import gcd
from operator import add
from typing import TypeVar

from roundwright.knitting.rounds.round import Repeat, Step, Steps, Work, execute

T = TypeVar("T")


def balanced(first: Steps, firsts: int, last: Steps, lasts: int, most: int) -> Steps | None:
    """The balanced order of `firsts` times `first` and `lasts` times `last`, from a `first` to a `last`.

    None where whole repeats need more than `most` steps: a Fibonacci word has nothing four times in a row.
    """
    shortest = _fewest_steps(2, firsts, 2, lasts, most)
    if shortest is None:
        return None
    for both in shortest[1]:
        first, firsts, last, lasts = _euclid_step(
            first, firsts, last, lasts, both=both, join=joined, power=times
        )
    return times(firsts, first) if firsts else times(lasts, last)


def stopping_early(wide: Steps, wides: int, narrow: Steps, narrows: int, short: int = 0) -> Steps:
    """The balanced order in the rotation that needs few steps if repeats may stop early; it ends with `wide`.

    These are the standard words. Each is the word before it, repeated, and then the word before that, which is also the
    beginning of the repeated one; so each step of Euclid's algorithm is one repeat. The last `short` stitches are left
    out: none, or all of the last part. Needs more than one step of the algorithm.
    """
    often, rare = (wide, narrow) if wides > narrows else (narrow, wide)
    quotients = _quotients(max(wides, narrows), min(wides, narrows))
    if (len(quotients) % 2 == 1) != (rare is wide):  # standard words end with either part in turn
        quotients[-1:] = [quotients[-1] - 1, 1]
    words = gcd(wides, narrows)
    previous, current = execute(often)[0], quotients[0] * execute(often)[0] + execute(rare)[0]
    word = joined(times(quotients[0], often), rare)
    for number, quotient in enumerate(quotients[1:], start=2):
        cut = short if number == len(quotients) and words == 1 else 0
        word = (Repeat(quotient, word, previous - cut),)
        previous, current = current, quotient * current + previous
    if words == 1:
        return word
    return (Repeat(words - 1, word, current - short),) if short else (Repeat(words, word),)


def cut(steps: Steps, stitches: int, most: int) -> Steps:
    """The steps without their last `stitches`, which are plain stitches of one step.

    The last repeat is worked once less and its last time follows as separate steps; where that makes more than `most`
    steps in all, the repeat stops early instead.
    """
    if not stitches:
        return steps
    *rest, last = steps
    if isinstance(last, Work):
        left = last.times - stitches
        return (*rest, Work(last.stitch, left)) if left else tuple(rest)
    expanded = joined(tuple(rest), times(last.times - 1, last.steps), cut(last.steps, stitches, most))
    if steps_in(expanded) <= most:
        return expanded
    return (*rest, Repeat(last.times - 1, last.steps, execute(last.steps)[0] - stitches))


def symmetric_start(firsts: int, lasts: int, *, seam_is_last: bool) -> int | None:
    """Where the balanced order is to begin so that all parts but the last, the seam, read the same from both ends.

    The number of parts of the order from a `first` to a `last` that come before. None where no such beginning has a
    seam of that kind: around the circle the parts mirror each other about one kind alone, unless both are odd in the
    primitive word.
    """
    words = gcd(firsts, lasts)
    letters, ones = (firsts + lasts) // words, lasts // words
    seam = ones if seam_is_last else letters - ones
    if seam % 2 == 0:
        return None
    if letters == 1:
        return 0
    # Letter i is floor((i + 1) w / k + phase) - floor(i w / k + phase); the phase puts the seam's middle at 0 or 1/2.
    phase = (ones - 1) // 2 if seam_is_last else (ones + letters - 1) // 2
    return phase * pow(ones, -1, letters) % letters


def rotated(steps: Steps, stitch: str, count: int) -> Steps:
    """The same steps begun after `count` works of `stitch`, just before the next. No repeat may stop early."""
    before, after = _split(steps, stitch, count)
    return joined(after, before)


def folded(steps: Steps) -> Steps:
    """The same stitches with equal neighbouring pairs of steps, a change and its gap, as one repeat."""
    row: list[Step] = []
    for step in steps:
        row.append(step)
        if len(row) > 3 and row[-4:-2] == row[-2:] and not any(isinstance(near, Repeat) for near in row[-2:]):
            row[-4:] = [Repeat(2, tuple(row[-2:]))]
        elif len(row) > 2 and isinstance(step, Repeat) and not step.again and step.steps == tuple(row[-3:-1]):
            row[-3:] = [Repeat(step.times + 1, step.steps)]
        elif len(row) > 2 and isinstance(before := row[-3], Repeat) and before.steps == tuple(row[-2:]):
            row[-3:] = [Repeat(before.times + 1, before.steps)]
    return joined(*((step,) for step in row))


def _split(steps: Steps, stitch: str, count: int) -> tuple[Steps, Steps]:
    """The steps up to the work of `stitch` that follows `count` others, and the steps from it on."""
    for index, step in enumerate(steps):
        here = _works(step, stitch)
        if here <= count and not (here and not count):
            count -= here
            continue
        before, after = steps[:index], steps[index + 1 :]
        if not count:
            return before, steps[index:]
        if isinstance(step, Work):
            return (*before, Work(step.stitch, count)), (Work(step.stitch, step.times - count), *after)
        whole, part = divmod(count, here // step.times)
        inside = _split(step.steps, stitch, part)
        return (
            joined(before, times(whole, step.steps), inside[0]),
            joined(inside[1], times(step.times - whole - 1, step.steps), after),
        )
    return steps, ()


def _works(step: Step, stitch: str) -> int:
    """How often the stitch is worked in a step."""
    if isinstance(step, Work):
        return step.times if step.stitch == stitch else 0
    works = 0
    for inner in step.steps:
        works += _works(inner, stitch)
    return step.times * works


def is_nested(steps: Steps) -> bool:
    """Whether any repeat is inside another: brackets in brackets."""
    return any(
        isinstance(step, Repeat) and any(isinstance(inner, Repeat) for inner in step.steps) for step in steps
    )


def steps_in(steps: Steps) -> int:
    """The number of steps, those inside repeats counted."""
    count = len(steps)
    for step in steps:  # a loop, since a generator takes twice as long and every row is counted
        if isinstance(step, Repeat):
            count += steps_in(step.steps)
    return count


def mirrored(steps: Steps) -> Steps:
    """The same stitches read from the other end. No repeat may stop early."""
    return tuple(
        step if isinstance(step, Work) else Repeat(step.times, mirrored(step.steps))
        for step in reversed(steps)
    )


def stops_early(steps: Steps) -> bool:
    """Whether any repeat, nested ones included, stops early."""
    return any(isinstance(step, Repeat) and (step.again or stops_early(step.steps)) for step in steps)


def times(count: int, steps: Steps) -> Steps:
    """The steps, `count` times over, in as few steps as possible."""
    if count <= 1 or not steps:
        return steps if count else ()
    only = steps[0]
    if len(steps) > 1:
        return (Repeat(count, steps),)
    if isinstance(only, Work):
        return (Work(only.stitch, only.times * count),)
    return (Repeat(count, steps) if only.again else Repeat(only.times * count, only.steps),)


def joined(*parts: Steps) -> Steps:
    """The parts one after the other, where two meet equal steps as one; no part has equal neighbours inside."""
    steps: list[Step] = []
    for part in parts:
        together = _together(steps[-1], part[0]) if steps and part else None
        if together is None:
            steps += part
        else:
            steps[-1] = together
            steps += part[1:]
    return tuple(steps)


def _together(before: Step, step: Step) -> Step | None:
    """Two neighbouring steps as one, where they are equal; else None."""
    if isinstance(step, Work):
        if isinstance(before, Work) and before.stitch == step.stitch:
            return Work(step.stitch, before.times + step.times)
    elif isinstance(before, Repeat) and _same(before, step):
        return Repeat(before.times + step.times, step.steps, step.again)
    return None


def _same(before: Repeat, step: Repeat) -> bool:
    return not before.again and before.steps == step.steps


# --- Euclid's algorithm ---------------------------------------------------------------------------------------------


def _euclid_step(
    first: T,
    firsts: int,
    last: T,
    lasts: int,
    *,
    both: bool,
    join: Callable[[T, T], T],
    power: Callable[[int, T], T],
) -> tuple[T, int, T, int]:
    """One step of Euclid's algorithm: the same word, written with fewer and longer parts.

    Each rarer part takes its equal share of the others. Those left over remain parts of their own, or (with `both`) are
    added one by one to some of the longer parts.
    """
    if firsts <= lasts:
        share, over = divmod(lasts, firsts)
        longer = join(first, power(share, last))
        if both:
            return longer, firsts - over, join(first, power(share + 1, last)), over
        return longer, firsts, last, over
    share, over = divmod(firsts, lasts)
    longer = join(power(share, first), last)
    if both:
        return join(power(share + 1, first), last), over, longer, lasts - over
    return first, over, longer, lasts


def _fewest_steps(
    first: int, firsts: int, last: int, lasts: int, most: int
) -> tuple[int, tuple[bool, ...]] | None:
    """The fewest steps that write the word, and the choice of `both` for each step of the algorithm that leads there.

    None where they are more than `most`. `first` and `last` are the numbers of steps of the parts. They grow like
    Fibonacci numbers, so the search ends soon.
    """
    if not firsts or not lasts:
        cost = _power(firsts or lasts, first if firsts else last)
        return (cost, ()) if cost <= most else None
    if first + last > most:
        return None
    best = None
    for both in (False, True) if max(firsts, lasts) % min(firsts, lasts) else (False,):
        rest = _fewest_steps(
            *_euclid_step(first, firsts, last, lasts, both=both, join=add, power=_power), most
        )
        if rest is not None:
            best = (rest[0], (both, *rest[1]))
            most = rest[0] - 1
    return best


def _power(count: int, cost: int) -> int:
    return cost if count == 1 else cost + 1


def _quotients(larger: int, smaller: int) -> list[int]:
    quotients = []
    while smaller:
        quotient, remainder = divmod(larger, smaller)
        quotients.append(quotient)
        larger, smaller = smaller, remainder
    return quotients
