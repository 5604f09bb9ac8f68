"""The phrases of a line, the smallest runs of words that mean something by themselves; stitches are in `tree`."""

from msgspec import Struct

from roundwright.wording.reading.tree import Again, Evenly, Number, Stated, Stitch, Unknown


class Brackets(Struct, frozen=True, gc=False):
    """`[...]` or `(...)`, with the phrases inside."""

    inside: "tuple[Phrase, ...]"
    start: int
    end: int


class Times(Struct, frozen=True, gc=False):
    """`4 times`, `twice more`, `3 times in all`."""

    number: Number
    start: int
    end: int
    more: bool = False
    in_all: bool = False
    word: bool = False


class Partly(Struct, frozen=True, gc=False):
    """`and its first 3 sts again`, after a number of times."""

    number: Number
    start: int
    end: int


class Extent(Struct, frozen=True, gc=False):
    """`around`, `to last 2 sts`: how far; None for up to a marker."""

    leave: Number | None
    start: int
    end: int


class Until(Struct, frozen=True, gc=False):
    """`until 8 sts remain`: of a row what is left unworked, of rounds what is left after them."""

    number: Number
    start: int
    end: int


class Star(Struct, frozen=True, gc=False):
    """`*` or `**`."""

    level: int
    start: int
    end: int


class Rep(Struct, frozen=True, gc=False):
    """`rep from *`, `rep from * to **`: the levels of the two marks, 0 where there is none."""

    level: int
    to: int
    extent: Times | Extent | None
    start: int
    end: int


class Rounds(Struct, frozen=True, gc=False):
    """`5 rnds`, or with a stitch `knit 5 rnds`."""

    number: Number
    start: int
    end: int
    stitch: Stitch | None = None


class PassOver(Struct, frozen=True, gc=False):
    """`psso`, after the stitches slipped and knitted."""

    start: int
    end: int


class Even(Struct, frozen=True, gc=False):
    """`even`: as the stitches come, with no change."""

    start: int
    end: int


class Fabric(Struct, frozen=True, gc=False):
    """`rib`, `in pattern`: after stitches, those all around; alone, as the stitches come."""

    start: int
    end: int


class Length(Struct, frozen=True, gc=False):
    """`until the piece measures 12 cm`."""

    start: int
    end: int


class Aside(Struct, frozen=True, gc=False):
    """Something that changes nothing: a dash, a marker."""

    start: int
    end: int


Phrase = (
    Stitch | Unknown | Evenly | Brackets | Times | Partly | Extent | Until | Star | Rep | Again | Rounds | Stated
    | PassOver | Even | Fabric | Length | Aside
)  # fmt: skip
