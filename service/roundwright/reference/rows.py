"""The shapes of the reference tables: one struct a table, one row a published fact.

Lengths keep the unit they were printed in, named in the field (``head_in``, ``median_cm``, ``mm``). Every row says where
it comes from: ``source`` is the key of one of its table's sources and ``mark`` says how the value was come by.
"""

from typing import Annotated, Generic, Literal, TypeVar

from msgspec import Meta, Struct

Mark = Annotated[
    Literal["P", "D", "A", "C", "M"],
    Meta(
        description="How the value was come by: P published, D computed from a public data set, A arithmetic from "
        "such values, C common practice, M from memory (a default, never a check)."
    ),
]
SourceKey = Annotated[
    str, Meta(min_length=1, description="Key of the source of this row, in the table's sources.")
]
Sex = Annotated[Literal["boy", "girl"], Meta(description="Sex of the children measured.")]
Lean = Literal["left", "right", "upright"]


class Source(Struct, frozen=True, kw_only=True):
    """A publication, data set or custom that rows of a table rest on."""

    key: Annotated[str, Meta(min_length=1, description="Short name by which rows refer to this source.")]
    title: Annotated[str, Meta(min_length=1, description="Title as published.")]
    publisher: Annotated[str | None, Meta(description="Publisher or author; null when there is none.")]
    year: Annotated[int | None, Meta(description="Year of the edition; null when it is not dated.")]
    url_or_reference: Annotated[str, Meta(min_length=1, description="Where to find it.")]


R = TypeVar("R")


class Table(Struct, Generic[R], frozen=True, kw_only=True):
    """A reference table as the service holds it and as it is served."""

    name: Annotated[str, Meta(description="Name of the table, as in its path.")]
    title: Annotated[str, Meta(description="What the table lists.")]
    about: Annotated[str, Meta(description="How to read the table and where its sources disagree.")]
    edition: Annotated[
        str, Meta(description="Edition of the table: the published one, or the date it was compiled.")
    ]
    sources: Annotated[tuple[Source, ...], Meta(min_length=1, description="Everything its rows rest on.")]
    rows: Annotated[tuple[R, ...], Meta(min_length=1, description="The rows, in the order of the trade.")]


class StitchRow(Struct, frozen=True, kw_only=True):
    """A stitch: what it does to the count, how it looks, and what the hands do."""

    name: Annotated[str, Meta(min_length=1, description="Standard abbreviation, lower case.")]
    uses: Annotated[int, Meta(ge=0, le=9, description="Stitches taken from the left needle.")]
    leaves: Annotated[int, Meta(ge=0, le=9, description="Stitches put on the right needle.")]
    leans: Annotated[
        Lean | None, Meta(description="Way it leans on the side it is worked; null when it does not.")
    ]
    symbol: Annotated[
        str, Meta(min_length=1, max_length=3, description="Chart symbol; a space is an empty cell.")
    ]
    words: Annotated[str, Meta(min_length=1, description="The abbreviation spelled out.")]
    how: Annotated[str, Meta(min_length=1, description="What the hands do, for a beginner.")]
    wrong_side: Annotated[
        str | None, Meta(description="Stitch to work on the wrong side for the same look on the right side.")
    ]
    source: SourceKey
    mark: Mark
