"""Places spread evenly around a round or along a row: balanced words, written as nested repeats.

Stitches S and changes k: q = S div k, r = S mod k; r sections are q + 1 wide and k - r are q. *Balanced* order is
maximally even: any two windows of the same number of sections differ by at most one stitch. There is one such order up
to rotation, the Christoffel word (Morse and Hedlund, Am. J. Math. 62 (1940) 1-42; Demaine et al., Comput. Geom. 42
(2009) 429-454), and Euclid's algorithm on the counts of the two widths writes it as nested repeats.
"""

from roundwright import reference
from roundwright.knitting.rounds import Repeat, StitchName, Step, Steps, Work


def spread(stitches: int, changes: int, method: StitchName, plain: StitchName = "k") -> Steps:
    """A round of `stitches` with `changes` times `method`, as evenly as it can be: `[k11, k2tog, k10, k2tog] 4 times`.

    The wider sections come first and every section ends with its change. `changes` is a number of times, not of
    stitches. The caller sees to it that 0 <= changes * max(1, uses of the method) <= stitches.
    """
    if not changes:
        return (Work(plain, stitches),)
    width, wide = divmod(stitches, changes)
    return christoffel(section(width + 1, method, plain), wide, section(width, method, plain), changes - wide)


def section(width: int, method: StitchName, plain: StitchName) -> Steps:
    """Plain stitches and one change: `width` stitches of the round below."""
    gap = width - reference.stitches()[method].uses
    return (Work(plain, gap), Work(method)) if gap else (Work(method),)


def christoffel(first: Steps, firsts: int, last: Steps, lasts: int) -> Steps:
    """The balanced order of some `first` and some `last`, beginning with `first`.

    Each turn of Euclid's algorithm joins the rarer of the two with as many of the other as each can have.
    """
    while firsts and lasts:
        if firsts <= lasts:
            each, lasts = divmod(lasts, firsts)
            first = (*first, *times(each, last))
        else:
            each, firsts = divmod(firsts, lasts)
            last = (*times(each, first), *last)
    return times(firsts, first) if firsts else times(lasts, last)


def times(count: int, steps: Steps) -> Steps:
    """The steps, `count` times over, as few steps as will do."""
    if count == 1:
        return steps
    if len(steps) == 1 and isinstance(steps[0], Work):
        only: Step = Work(steps[0].stitch, steps[0].times * count)
        return (only,)
    if len(steps) == 1 and isinstance(steps[0], Repeat):
        return (Repeat(steps[0].times * count, steps[0].steps),)
    return (Repeat(count, steps),)
