"""Request for a split of stitches over needles."""

from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.knitting.crown.request import MOST_CROWN_STITCHES, CrownShape
from roundwright.knitting.needles.best_split import (
    FEWEST_NEEDLES,
    MOST_NEEDLES,
    USUAL_TOLERANCE,
    NeedleCount,
    Tolerance,
    WholeRepeat,
)
from roundwright.knitting.needles.capacity import SqueezePercent, StretchPercent
from roundwright.knitting.needles.holds import Hold
from roundwright.knitting.quantities import Gauge, Length, UnitSystem
from roundwright.knitting.rounds.round import MOST_ROUNDS, Round
from roundwright.language import Language

FEWEST_HELD: Final = FEWEST_NEEDLES
"""One stitch on each of two needles."""
MOST_HELD: Final = MOST_CROWN_STITCHES
"""Stitches before the widest crown."""


class SplitRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Stitches to share out over needles, and what will be worked on them."""

    stitches: Annotated[
        int, Meta(ge=FEWEST_HELD, le=MOST_HELD, description="Stitches on the needles before the first round.")
    ]
    needles: Annotated[
        NeedleCount | None,
        Meta(
            description="Needles that hold stitches; one more works. Left out: 3; on a loop or two circulars 2.",
            examples=[4],
        ),
    ] = None
    hold: Annotated[
        Hold,
        Meta(
            description="What holds the stitches: double-pointed needles, the two halves of a magic loop, or two "
            "circulars."
        ),
    ] = "double_pointed"
    crown: Annotated[
        CrownShape | None, Meta(description="The crown to come, as `/v1/crown` takes it without `stitches`.")
    ] = None
    rounds: Annotated[
        Annotated[tuple[Round, ...], Meta(max_length=MOST_ROUNDS)] | None,
        Meta(description="The rounds to come, in place of `crown`. Each uses what the one before left."),
    ] = None
    tolerance: Tolerance = USUAL_TOLERANCE
    multiple: WholeRepeat = 1
    split: Annotated[
        Annotated[
            tuple[Annotated[int, Meta(ge=1, le=MOST_HELD)], ...], Meta(min_length=2, max_length=MOST_NEEDLES)
        ]
        | None,
        Meta(
            description="Your own stitches on each needle, to be followed through the rounds. Left out: the best."
        ),
    ] = None
    gauge: Annotated[
        Gauge | None, Meta(description="Gauge, to tell whether the stitches fit; rows are not needed.")
    ] = None
    needle_length: Annotated[
        Length | None,
        Meta(
            description="Length of each needle that holds stitches, tip to tip; of a double-pointed one 2 cm at each "
            "end stay free, of a magic loop 20 cm of cord beside all the stitches (common practice). Needs `gauge`."
        ),
    ] = None
    circular: Annotated[
        Length | None,
        Meta(description="Length, tip to tip, of a circular to begin on. Needs `gauge`."),
    ] = None
    squeeze: SqueezePercent = None
    stretch: StretchPercent = 0.0
    units: Annotated[UnitSystem, Meta(description="Units of the answer.")] = "metric"
    language: Language = None
