"""A knitter for the tests who slips once and does not notice: stitch by stitch, knowing nothing of the service's code.

Works the lines of an answer by reading the knitting. Every loop remembers which stitch of the pattern it is, or that it
is none of it (`EXTRA`); a loop that is missing is passed over, and one too many is knitted as it comes. A decrease
whose loops lie on two needles is worked on the second.
"""

from random import Random
from typing import Any

from tests.support.by_hand import LOOPS, stitches

EXTRA = -1
Needles = list[list[int]]


def cast_on(split: list[int]) -> Needles:
    """The loops on each needle, numbered around."""
    numbers = iter(range(sum(split)))
    return [[next(numbers) for _ in range(share)] for share in split]


class Hands:
    """What happens to the stitches of one round; a slip is a pair of hands with a mind of its own."""

    def __init__(self, needles: Needles, steps: list[dict[str, Any]]) -> None:
        self.left = [(loop, needle) for needle, loops in enumerate(needles) for loop in loops]
        self.right: Needles = [[] for _ in needles]
        self.work = list(stitches(steps))
        self.taken = self.made = 0
        self.needle = 0

    def finish(self) -> Needles:
        """Work the round to its end."""
        while self.work:
            self.stitch(self.work.pop(0))
        self.knit_extra()
        assert not self.left
        return self.right

    def knit_extra(self) -> None:
        """Knit what is not of the pattern."""
        while self.left and self.left[0][0] == EXTRA:
            self.put(EXTRA, self.left.pop(0)[1])

    def put(self, loop: int, needle: int) -> None:
        """A loop on to the right needle."""
        self.right[needle].append(loop)
        self.needle = needle

    def take(self, uses: int) -> list[int]:
        """The needles of the loops that the next stitch takes: those of the pattern that are there."""
        wanted = range(self.taken, self.taken + uses)
        self.taken += uses
        taken = []
        for _ in wanted:
            self.knit_extra()
            if self.left and self.left[0][0] in wanted:
                taken.append(self.left.pop(0)[1])
        return taken

    def stitch(self, name: str) -> None:
        """One stitch as the line has it."""
        uses, leaves = LOOPS[name]
        taken = self.take(uses)
        for _ in range(leaves):
            if taken or not uses:
                self.put(self.made, taken[-1] if taken else self.needle)
            self.made += 1


def knit(needles: Needles, line: dict[str, Any]) -> Needles:
    """A round without a slip of its own."""
    return Hands(needles, line["steps"]).finish()


def counts(needles: Needles) -> list[int]:
    """The stitches on each needle."""
    return [len(loops) for loops in needles]


# --- slips: each gives the needles after the round and the number of the needle it was made on, or None where the round
# --- has no place for it ---------------------------------------------------------------------------------------------


def miss_a_decrease(needles: Needles, line: dict[str, Any], chance: Random) -> tuple[Needles, int] | None:
    """The stitches of one decrease are knitted one by one, or of a double decrease all but two."""
    hands = Hands(needles, line["steps"])
    places = [at for at, name in enumerate(hands.work) if LOOPS[name][0] > LOOPS[name][1]]
    if not places:
        return None
    at = chance.choice(places)
    for name in hands.work[:at]:
        hands.stitch(name)
    uses, leaves = LOOPS[hands.work[at]]
    del hands.work[: at + 1]
    needle = hands.take(uses)[-1]
    hands.put(hands.made, needle)
    hands.made += leaves
    for _ in range(chance.randint(1, uses - leaves)):
        hands.put(EXTRA, needle)
    return hands.finish(), needle + 1


def decrease_too_often(needles: Needles, line: dict[str, Any], chance: Random) -> tuple[Needles, int] | None:
    """Two stitches that are to be knitted are knitted together, or a decrease takes in the stitch after it."""
    hands = Hands(needles, line["steps"])
    last = [n for n, loops in enumerate(needles) for _ in loops]
    places, at_loop = [], 0
    for at, (name, following) in enumerate(zip(hands.work, hands.work[1:], strict=False)):
        uses, leaves = LOOPS[name]
        if uses >= leaves == 1 and LOOPS[following] == (1, 1) and last[at_loop] == last[at_loop + uses]:
            places.append(at)
        at_loop += uses
    if not places:
        return None
    at = chance.choice(places)
    for name in hands.work[: at + 1]:
        hands.stitch(name)
    del hands.work[: at + 1]
    needle = hands.needle
    hands.work.pop(0)
    hands.take(1)
    hands.made += 1
    return hands.finish(), needle + 1


def add_a_stitch(needles: Needles, line: dict[str, Any], chance: Random) -> tuple[Needles, int] | None:
    """The yarn comes to lie over the needle between two stitches."""
    hands = Hands(needles, line["steps"])
    at = chance.randint(1, len(hands.work))
    for name in hands.work[:at]:
        hands.stitch(name)
    del hands.work[:at]
    needle = hands.needle
    hands.put(EXTRA, needle)
    return hands.finish(), needle + 1


def drop_a_stitch(needles: Needles, line: dict[str, Any], chance: Random) -> tuple[Needles, int] | None:
    """A loop slides off the end of a needle, or off its tip."""
    after = knit(needles, line)
    needle = chance.choice([at for at, loops in enumerate(after) if loops])
    after[needle].pop(chance.randrange(len(after[needle])))
    return after, needle + 1


def merge_needles(needles: Needles, line: dict[str, Any], chance: Random) -> tuple[Needles, int] | None:
    """The stitches of two needles are worked on to one."""
    after = knit(needles, line)
    at = chance.randrange(len(after) - 1)
    if not after[at] or not after[at + 1]:
        return None
    after[at] += after[at + 1]
    after[at + 1] = []
    return after, at + 1


def stray(needles: Needles, line: dict[str, Any], chance: Random) -> tuple[Needles, int] | None:
    """Some stitches of the next needle are worked on to this one, or stay behind on it."""
    after = knit(needles, line)
    at = chance.randrange(len(after) - 1)
    if len(after[at]) < 2 or len(after[at + 1]) < 2:
        return None
    some = chance.randint(1, min(3, len(after[at + 1]) - 1))
    after[at] += after[at + 1][:some]
    del after[at + 1][:some]
    return after, at + 1


def work_the_wrong_line(needles: Needles, wrong: dict[str, Any]) -> Needles:
    """The line of another round, as far around as the stitches go; what is left over is knitted."""
    left = [needle for needle, loops in enumerate(needles) for _ in loops]
    right: Needles = [[] for _ in needles]
    made = 0
    while left:
        for name in stitches(wrong["steps"]):
            uses, leaves = LOOPS[name]
            if len(left) < uses:
                uses, leaves = len(left), len(left)
            if not left:
                break
            taken = [left.pop(0) for _ in range(uses)]
            for _ in range(leaves):
                right[taken[-1] if taken else 0].append(made)
                made += 1
    return right
