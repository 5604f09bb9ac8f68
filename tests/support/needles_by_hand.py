"""A knitter with several needles: works rounds stitch by stitch, and slides what lies on two needles."""

from collections.abc import Iterator
from itertools import product

from roundwright.knitting.needles.best_split import NeedleSplit, pareto_splits
from roundwright.knitting.needles.boundaries import boundary_paths
from roundwright.knitting.rounds.round import Repeat, Round, Step, Work, plain
from roundwright.knitting.rounds.work_round import work_round

# Stitches used and left: Craft Yarn Council, Knit Abbreviations, and common book lists.
USES_LEAVES = {
    "k": (1, 1), "p": (1, 1), "k2tog": (2, 1), "ssk": (2, 1), "k3tog": (3, 1), "cdd": (3, 1),
    "kfb": (1, 2), "m1": (0, 1), "yo": (0, 1),
}  # fmt: skip

Hands = list[list[tuple[int, int]]]


def best_split(
    rounds: tuple[Round, ...], stitches: int, needles: int, tolerance: int = 4, multiple: int = 1
) -> NeedleSplit:
    """The split with the fewest straddles, which is the last of those that no other beats."""
    return pareto_splits(boundary_paths(rounds, stitches), needles, tolerance, multiple)[-1]


def by_hand(rounds: tuple[Round, ...]) -> Hands:
    """Every stitch of every round in working order, as what it uses and what it leaves."""
    return [list(uses_and_leaves(a_round.steps)) for a_round in rounds]


def uses_and_leaves(steps: tuple[Step, ...]) -> Iterator[tuple[int, int]]:
    for step in steps:
        for _ in range(step.times):
            if isinstance(step, Work):
                yield USES_LEAVES[step.stitch]
            else:
                yield from uses_and_leaves(step.steps)
        if isinstance(step, Repeat) and step.again:
            remaining = step.again  # one more time through, up to the first stitch that would use too many
            for uses, leaves in uses_and_leaves(step.steps):
                remaining -= uses
                if remaining < 0:
                    break
                yield uses, leaves


def knitted(hands: Hands, split: tuple[int, ...]) -> list[tuple[tuple[int, ...], list[tuple[int, int]]]]:
    """Needles after each round and the slides made in it, worked one stitch at a time.

    A stitch is worked off the needle in hand; what remains there and is too little for a decrease is slid on
    to the next needle, which is then in hand.
    """
    held, rounds = list(split), []
    for a_round in hands:
        new, slides, needle = [0] * len(held), [], 0
        for uses, leaves in a_round:
            if uses:
                while not held[needle]:
                    needle += 1
                while held[needle] < uses:
                    slides.append((needle + 1, held[needle]))
                    held[needle + 1] += held[needle]
                    held[needle] = 0
                    needle += 1
                held[needle] -= uses
            new[needle] += leaves
        held = new
        rounds.append((tuple(new), slides))
    return rounds


def straddled(hands: Hands, split: tuple[int, ...]) -> int:
    return sum(len(slides) for _, slides in knitted(hands, split))


def every_split(stitches: int, needles: int, tolerance: int) -> Iterator[tuple[int, ...]]:
    for least in range(1, stitches // needles + 1):
        if needles * (least + tolerance) < stitches:
            continue
        for split in product(range(least, least + tolerance + 1), repeat=needles - 1):
            last = stitches - sum(split)
            if least <= last <= least + tolerance and min(*split, last) == least:
                yield (*split, last)


def schedule(stitches: int, *patterns: tuple[int, str], cycles: int = 1) -> tuple[Round, ...]:
    """Rounds of `k(n), stitch` as often as it fits, the odd stitches knitted, a plain round after each."""
    rounds: list[Round] = []
    for plain_before, stitch in patterns * cycles:
        uses, _ = USES_LEAVES[stitch]
        whole, odd = divmod(stitches, plain_before + uses)
        if not whole:
            continue
        once = ((Work("k", plain_before),) if plain_before else ()) + (Work(stitch),)  # type: ignore[arg-type]
        steps = (Repeat(whole, once), *((Work("k", odd),) if odd else ()))
        rounds.append(work_round(len(rounds) + 1, stitches, steps))
        stitches = rounds[-1].after
        rounds.append(work_round(len(rounds) + 1, stitches, plain(stitches)))
    return tuple(rounds)


def quick(stitches: int) -> tuple[Round, ...]:
    return schedule(stitches, (2, "k2tog"), (1, "k2tog"), (0, "k2tog"), (0, "k2tog"))


def wedges(stitches: int) -> tuple[Round, ...]:
    """Seven wedges, one decrease each, until none is left; the odd stitches stay knitted at the end."""
    patterns = [(width, "ssk") for width in range(stitches // 7 - 2, -1, -1)]
    return schedule(stitches, *patterns)


def doubles(stitches: int) -> tuple[Round, ...]:
    return schedule(stitches, (5, "cdd"), (2, "k3tog"), (1, "k3tog"))


def lace(stitches: int) -> tuple[Round, ...]:
    """Increases of both sorts between decreases, so that borders move both ways."""
    return schedule(stitches, (3, "m1"), (2, "k2tog"), (1, "kfb"), (1, "k3tog"))


CROWNS = {"quick": quick, "wedges": wedges, "doubles": doubles, "lace": lace}
