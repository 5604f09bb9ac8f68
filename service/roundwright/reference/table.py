"""Reference table: its name, its edition, its sources, and rows that cite one of them."""

from typing import Annotated, Any, Generic, Literal, TypeVar

from msgspec import Meta, Struct, defstruct

Mark = Annotated[
    Literal["P", "D", "A", "C", "M"],
    Meta(
        description="Origin of the value: P published, D computed from a public data set, A arithmetic "
        "from such values, C common practice, M from memory (a default, never a check)."
    ),
]
SourceKey = Annotated[
    str, Meta(min_length=1, description="Source of this row: a key of the table's sources.")
]


class Source(Struct, frozen=True, kw_only=True):
    """A publication, data set or custom that rows of a table come from."""

    key: Annotated[str, Meta(min_length=1, description="Short name by which rows refer to this source.")]
    title: Annotated[str, Meta(min_length=1, description="Title as published.")]
    publisher: Annotated[str | None, Meta(description="Publisher or author; null when there is none.")]
    year: Annotated[int | None, Meta(description="Year of the edition; null when it is not dated.")]
    url_or_reference: Annotated[str, Meta(min_length=1, description="Where to find it.")]


R = TypeVar("R")


class Table(Struct, Generic[R], frozen=True, kw_only=True):
    """A reference table, as it is loaded and as it is served."""

    name: Annotated[str, Meta(description="Name of the table, as in its path.")]
    title: Annotated[str, Meta(description="What the table lists.")]
    about: Annotated[str, Meta(description="How to read the table, and where its sources disagree.")]
    edition: Annotated[
        str, Meta(description="Edition of the table: the published one, or when it was compiled.")
    ]
    sources: Annotated[tuple[Source, ...], Meta(min_length=1, description="Everything its rows come from.")]
    rows: tuple[R, ...]


def table_of(component: str, row: Any) -> Any:
    """The table of one kind of row, under the name it has in the OpenAPI document."""
    rows = Annotated[tuple[row, ...], Meta(min_length=1, description="The rows, in the order of the trade.")]
    return defstruct(
        component,
        [("rows", rows)],
        bases=(Table,),
        module=__name__,
        namespace={"__doc__": Table.__doc__},
        frozen=True,
        kw_only=True,
    )


class TableSummary(Struct, frozen=True, kw_only=True):
    """A reference table without its rows."""

    name: Annotated[str, Meta(description="Name of the table, as in its path.")]
    title: Annotated[str, Meta(description="What the table lists.")]
    edition: Annotated[
        str, Meta(description="Edition of the table: the published one, or when it was compiled.")
    ]
    row_count: Annotated[int, Meta(description="Number of rows.")]
    sources: Annotated[tuple[Source, ...], Meta(description="Everything its rows come from.")]
