"""Rows of the worked examples in print: spacing, crowns, and rounds with a fault."""

from typing import Annotated, Literal

from msgspec import Meta, Struct

from roundwright.reference.table import Mark, SourceKey


class SpacingRow(Struct, frozen=True, kw_only=True, tag_field="kind", tag="across"):
    """Changes spread over a row or round, as printed."""

    stitches: Annotated[int, Meta(description="Stitches before.")]
    change: Annotated[int, Meta(description="Stitches added, or taken away when negative.")]
    worked: Annotated[Literal["round", "flat", "either"], Meta(description="In the round or flat.")]
    result: Annotated[str, Meta(description="The answer as printed or derived.")]
    source: SourceKey
    mark: Mark


class AlongSegment(Struct, frozen=True, kw_only=True):
    """Changes at one distance: a number of rows between them, and a number of times."""

    every: Annotated[int, Meta(description="Rows from one change to the next.")]
    times: Annotated[int, Meta(description="Number of changes at this distance.")]


class AlongRow(Struct, frozen=True, kw_only=True, tag_field="kind", tag="along"):
    """Changes spread over a length, as printed."""

    rows: Annotated[int, Meta(description="Rows in the length.")]
    times: Annotated[int, Meta(description="Number of changes.")]
    segments: Annotated[tuple[AlongSegment, ...], Meta(description="The changes, by their distance.")]
    source: SourceKey
    mark: Mark


class RhythmRow(Struct, frozen=True, kw_only=True, tag_field="kind", tag="rhythm"):
    """The most even placing of marks on a circle, up to rotation."""

    marks: Annotated[int, Meta(description="Marks placed.")]
    places: Annotated[int, Meta(description="Places on the circle.")]
    pattern: Annotated[str, Meta(description="The circle from one mark on: x a mark, . an empty place.")]
    source: SourceKey
    mark: Mark


class CrownRow(Struct, frozen=True, kw_only=True):
    """A crown in print: its lines and the stitches left after each shaping round."""

    stitches: Annotated[int, Meta(description="Stitches before the crown.")]
    printed: Annotated[str, Meta(description="The shaping rounds in words.")]
    counts: Annotated[tuple[int, ...], Meta(description="Stitches before, and after each shaping round.")]
    source: SourceKey
    mark: Mark


class PrintedFaultRow(Struct, frozen=True, kw_only=True):
    """A printed round that does not come out."""

    stitches: Annotated[int, Meta(description="Stitches on the needles before.")]
    printed: Annotated[str, Meta(description="The round as printed.")]
    stated: Annotated[
        int | None, Meta(description="Stitches left by the pattern's own count; null when it has none.")
    ]
    uses: Annotated[int | None, Meta(description="Stitches it really uses; null when that is not settled.")]
    leaves: Annotated[
        int | None, Meta(description="Stitches it really leaves; null when that is not settled.")
    ]
    fault: Annotated[str, Meta(description="What is wrong.")]
    source: SourceKey
    mark: Mark
