"""What a line of a pattern says, as a tree: stitches, brackets, and what goes on to the end of the round.

Numbers keep all sizes (`4 (5, 6)`), and everything keeps its place in the text (`start`, `end`), so that a finding can
point at it and a repair can replace it.
"""

from collections.abc import Iterator
from typing import Final
from zlib import crc32

from msgspec import Struct

from roundwright.knitting.rounds.round import StitchName


def named(words: str) -> int:
    """The number below 0 under which a round is kept that has a name: `Round A`, `Dec round`."""
    return -1 - crc32(words.encode())


class Number(Struct, frozen=True, gc=False):
    """A number, or one for each size: `4 (5, 6)`. A size with a dash has None: nothing for it here."""

    values: tuple[int | None, ...]
    start: int = -1
    end: int = -1

    def of(self, column: int) -> int | None:
        """The number for the size in this column; the last where there are too few."""
        values = self.values
        return values[column] if column < len(values) else values[-1]


NAMED_KINDS: Final = ("decrease", "increase", "place", "rib", "moss", "garter", "pattern", "plain")
"""The kinds of words that name a round: `Dec round`, `Rib round`."""
TOLD: Final = "told"
"""The meaning of a word that names a round where that is only explained."""
PLAIN_ROUND: Final = named("plain")
"""The name of a plain round, which needs no telling."""
ONE: Final = Number((1,))
NOTHING: Final = Number((0,))


class Stitch(Struct, frozen=True, gc=False):
    """A stitch, some times: `k4`. `bare` is `k` or `knit` without a number, which may be meant to go on."""

    name: StitchName
    times: Number
    start: int
    end: int
    bare: bool = False
    loose: bool = False


class Unknown(Struct, frozen=True, gc=False):
    """A word nobody knows, where a stitch should be."""

    word: str
    start: int
    end: int


class Mark(Struct, frozen=True, gc=False):
    """A marker that is placed here."""

    start: int
    end: int


class Group(Struct, frozen=True, gc=False):
    """Some of the line, worked `times` and `extra` times.

    `part` stitches of it are worked once more: `and its first 3 sts again`.
    """

    nodes: "tuple[Node, ...]"
    start: int
    end: int
    times: Number = ONE
    extra: int = 0
    part: Number | None = None
    bracketed: bool = False


class Fill(Struct, frozen=True, gc=False):
    """Some of the line, over and over: to the end of the round or to the last `leave` stitches.

    Without `leave`, to as many as what follows it in the line uses. With `marker` it ends so far before the next
    marker; with `needle` it is worked on each needle. `times` checks how often, where that is printed too.
    `stated_at` is where the line says how far.
    """

    nodes: "tuple[Node, ...]"
    leave: Number | None
    start: int
    end: int
    stated_at: tuple[int, int]
    marker: bool = False
    times: Number | None = None
    needle: bool = False


class Evenly(Struct, frozen=True, gc=False):
    """`dec 8 sts evenly`, or with `to` `dec to 64 sts`: a whole round, its changes evenly spread.

    `sign` is 0 where it may be more or fewer: `adjusting to 64 sts`.
    `method` is the stitch that makes a change, where it is told: `knit, ssk 4 times evenly`.
    """

    change: Number
    sign: int
    start: int
    end: int
    to: bool = False
    method: StitchName | None = None


Node = Stitch | Unknown | Group | Fill | Evenly | Mark
Nodes = tuple[Node, ...]


def walk(nodes: Nodes) -> Iterator[Node]:
    """Each node, and before the next one what is inside it."""
    for node in nodes:
        yield node
        if isinstance(node, _NESTS):
            yield from walk(node.nodes)


class Stated(Struct, frozen=True, gc=False):
    """The count a line says it leaves, or with `sign` the stitches it says it takes away (-1) or adds (+1).

    `dashed` where a dash stands before it, which may be a minus.
    """

    number: Number
    start: int
    end: int
    sign: int = 0
    dashed: bool = False

    def after(self, before: int, column: int) -> int | None:
        """The count that should be left, or None where nothing is said for this size."""
        count = self.number.of(column)
        return count if count is None or not self.sign else before + self.sign * count


_NESTS: Final = (Group, Fill)
