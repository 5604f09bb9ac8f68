"""What a line of a pattern says, as a tree: stitches, brackets, and what goes on to the end of the round.

Numbers keep all sizes (`4 (5, 6)`), and everything keeps its place in the line (`start`, `end`), so that a finding can
point at it and a repair can replace it.
"""

from collections.abc import Iterator
from typing import Final, Literal

from msgspec import Struct

from roundwright.knitting.rounds.round import StitchName

Severity = Literal["error", "note"]
LabelKind = Literal["numbered", "listed", "next", "sort", "every", "sizes"]


class Number(Struct, frozen=True, gc=False):
    """A number, or one for each size: `4 (5, 6)`. A size with a dash has None: nothing for it here."""

    values: tuple[int | None, ...]
    start: int = -1
    end: int = -1

    def of(self, column: int) -> int | None:
        """The number for the size in this column; the last where there are too few."""
        return self.values[min(column, len(self.values) - 1)]


ONE: Final = Number((1,))
NOTHING: Final = Number((0,))


class Stitch(Struct, frozen=True, gc=False):
    """A stitch, some times: `k4`. `bare` is `k` or `knit` without a number, which may be meant to go on."""

    name: StitchName
    times: Number
    start: int
    end: int
    bare: bool = False


class Unknown(Struct, frozen=True, gc=False):
    """A word nobody knows, where a stitch should be."""

    word: str
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

    Without `leave`, to as many as what follows it in the line uses. `said` is where the line says how far.
    """

    nodes: "tuple[Node, ...]"
    leave: Number | None
    start: int
    end: int
    said: tuple[int, int]


class Evenly(Struct, frozen=True, gc=False):
    """`dec 8 sts evenly`: a whole round, its changes spread by the rules of even spacing."""

    change: Number
    sign: int
    start: int
    end: int


Node = Stitch | Unknown | Group | Fill | Evenly
Nodes = tuple[Node, ...]


def walk(nodes: Nodes) -> Iterator[Node]:
    """Each node, and before the next one what is inside it."""
    for node in nodes:
        yield node
        if isinstance(node, Group | Fill):
            yield from walk(node.nodes)


class Stated(Struct, frozen=True, gc=False):
    """The count a line says it leaves, or with `sign` the stitches it says it takes away (-1) or adds (+1)."""

    number: Number
    start: int
    end: int
    sign: int = 0

    def after(self, before: int, column: int) -> int | None:
        """The count that should be left, or None where nothing is said for this size."""
        said = self.number.of(column)
        return said if said is None or not self.sign else before + self.sign * said


class Again(Struct, frozen=True, gc=False):
    """Rounds worked again: those `named`, or the `last` ones; so many `times` more, or `until` a count."""

    named: tuple[int, ...]
    last: int
    times: Number | None
    start: int
    end: int


class Trouble(Struct, frozen=True, gc=False):
    """Something about a line that is wrong, or worth knowing, whatever the count."""

    code: str
    message: str
    start: int
    severity: Severity = "error"


class Reading(Struct, frozen=True, gc=False):
    """One way to understand a line; `words` tells it from the other way where there are two."""

    nodes: Nodes
    words: str = ""


class Body(Struct, frozen=True, gc=False):
    """What a line says is worked.

    - `readings`: one, or the likelier and the other where the words allow two
    - `stated`: the count it says it leaves
    - `rounds`: how many rounds it is worked, where it says so (`knit 5 rnds`)
    - `again`, `until`, `measured`: rounds worked again; up to a count; up to a length
    """

    readings: tuple[Reading, ...]
    stated: Stated | None = None
    rounds: Number | None = None
    again: Again | None = None
    until: Number | None = None
    measured: bool = False
    troubles: tuple[Trouble, ...] = ()
    lists: tuple[Number, ...] = ()
    words: int = 0

    @property
    def broken(self) -> bool:
        """Whether something in it was not understood, so that it cannot be worked."""
        return any(trouble.severity == "error" for trouble in self.troubles)

    @property
    def works(self) -> bool:
        """Whether anything is worked."""
        return bool(self.readings[0].nodes) or self.again is not None


class Span(Struct, frozen=True, gc=False):
    """Round numbers `first` to `last`, which may differ between sizes."""

    first: Number
    last: Number


class Label(Struct, frozen=True, gc=False):
    """The start of a line: which rounds it is for.

    - `kind`: `numbered`; `listed` for `3.` of a list; `next` for `Next 5 rnds`; `sort` for `Decrease rnd`; `every` for
      `All odd rnds`; `sizes` for `Sizes 2 and 3 only`
    - `spans`: `Rnd 3`, `Rnds 2-6`
    - `every`: (first, step) of `and all odd rnds`
    - `count`: `Next 5 rnds`
    - `sizes`: `(sizes 2 and 3 only)`
    """

    kind: LabelKind
    spans: tuple[Span, ...] = ()
    every: tuple[int, int] | None = None
    count: Number | None = None
    sizes: tuple[int, ...] | None = None
