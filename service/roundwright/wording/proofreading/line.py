"""A line of a text as the answer has it."""

from typing import Annotated, Final, Literal

from msgspec import Meta, Struct

from roundwright.knitting.hat.request import MOST_SIZES
from roundwright.knitting.rounds.round import LAST_ROUND, MOST_ROUNDS, MOST_STITCHES
from roundwright.wording.proofreading.findings import LineNumber

MOST_LINES_TOLD: Final = 1_000
"""Lines of a text that are told: as many as are read."""

LineKind = Literal["round", "fabric", "cast_on", "heading", "prose", "closing", "not_read"]
Counts = Annotated[
    tuple[Annotated[int, Meta(ge=0, le=MOST_STITCHES)] | None, ...], Meta(max_length=MOST_SIZES)
]


class Line(Struct, frozen=True, kw_only=True):
    """A line of the text that is not blank."""

    line: LineNumber
    kind: Annotated[
        LineKind,
        Meta(
            description="`round`: rounds that are numbered, shape or are worked again; `fabric`: rounds that keep the "
            "count, such as a rib to a length; `not_read`: looks like work and was not read, which is a finding."
        ),
    ]
    rounds: Annotated[
        tuple[Annotated[int, Meta(ge=1, le=LAST_ROUND)], ...],
        Meta(
            max_length=MOST_ROUNDS,
            description="Numbers of the rounds that begin on it, as in `rounds`, in the size that has most rounds; of "
            "a line that this size does not work, in another that does.",
        ),
    ] = ()
    computed: Annotated[
        Counts,
        Meta(
            description="Stitches after its last round in each size, null where none is; empty without rounds."
        ),
    ] = ()
    printed: Annotated[
        Counts,
        Meta(
            description="The count printed for its last round in each size, null where none is; empty where none is "
            "printed. Without rounds, a count that stands in it."
        ),
    ] = ()
