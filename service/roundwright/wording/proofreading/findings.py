"""What is found wrong with a pattern, or worth knowing about it, in a knitter's words."""

from typing import Annotated, Final, Literal

from msgspec import Meta, Struct

from roundwright.knitting.hat.request import MOST_SIZES
from roundwright.knitting.rounds.round import MOST_STITCHES

MOST_FINDINGS: Final = 100
"""Findings in one answer: whoever has more mends these first."""

FindingCode = Literal[
    "left_over",
    "runs_out",
    "count_differs",
    "wrong_way",
    "cast_on_differs",
    "unknown_word",
    "not_understood",
    "bracket",
    "too_deep",
    "no_star",
    "never_ends",
    "too_many_stitches",
    "sizes_differ",
    "ambiguous",
    "to_a_length",
    "round_missing",
    "round_twice",
    "no_such_round",
    "too_long",
    "too_many_rounds",
    "too_many_findings",
    "no_rounds",
]


class Finding(Struct, frozen=True, kw_only=True):
    """Something about a pattern that is wrong, or worth knowing."""

    line: Annotated[int, Meta(ge=1, description="Line of the text, from 1.")]
    column: Annotated[int, Meta(ge=1, description="Column in that line, from 1.")]
    code: Annotated[FindingCode, Meta(description="What is found, as a stable word.")]
    severity: Annotated[
        Literal["error", "note"],
        Meta(description="`error` where the pattern cannot be knitted as written, `note` where it can."),
    ]
    size: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_SIZES)] | None,
        Meta(description="Which size, as its place in `cast_on` from 1; null where it holds for all."),
    ] = None
    stitches: Annotated[
        Annotated[int, Meta(ge=-MOST_STITCHES, le=MOST_STITCHES)] | None,
        Meta(
            description="How many stitches too many (above 0: left over at the end of the round, or more than the "
            "pattern says) or too few (below 0); null where it is not about a count."
        ),
    ] = None
    message: Annotated[str, Meta(description="The same in a sentence for the knitter.")]
    repair: Annotated[
        str | None,
        Meta(
            description="The line as it comes out, to paste in place of the one in the text: the smallest change that "
            "was found, proved by working it. Null where none was found."
        ),
    ] = None


def stitches(count: int) -> str:
    """So many stitches: `1 stitch`, `2 stitches`, and no more than a million told."""
    if abs(count) > MOST_STITCHES:
        return f"more than {MOST_STITCHES:,} stitches"
    return f"{count} stitch" if count == 1 else f"{count} stitches"
