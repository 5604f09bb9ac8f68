"""The tables the service uses, with their sources."""

from typing import Annotated, Any, Literal, get_args

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import RULES, RulesVersion
from roundwright.web.routes.operation import lookup

TableName = Literal[reference.TABLES]  # type: ignore[valid-type]


def _row_types() -> tuple[type, ...]:
    """The types of the rows of all tables."""
    rows = [get_args(shape.__annotations__["rows"])[0] for shape in reference.SHAPES.values()]
    kinds = [kind for row in rows for kind in get_args(row)[:1]]
    return tuple(dict.fromkeys(row_type for kind in kinds for row_type in (get_args(kind) or (kind,))))


ROWS = _row_types()


class StandardList(Struct, frozen=True, kw_only=True):
    """Every table the service uses, without the rows."""

    tables: Annotated[tuple[reference.TableSummary, ...], Meta(description="The tables.")]
    rules: RulesVersion = RULES


class StandardRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The name of a table."""

    table: Annotated[TableName, Meta(description="Name of the table.")]


class Standard(Struct, frozen=True, kw_only=True):
    """A table the service uses, with its sources."""

    name: Annotated[str, Meta(description="Name of the table, as in its path.")]
    title: Annotated[str, Meta(description="What the table lists.")]
    about: Annotated[str, Meta(description="How to read the table, and where its sources disagree.")]
    edition: Annotated[str, Meta(description="Edition: the published one, or when the table was compiled.")]
    sources: Annotated[tuple[reference.Source, ...], Meta(description="Everything its rows rest on.")]
    rows: Annotated[
        tuple[Any, ...],
        Meta(
            description="The rows, in the order of the trade; each names its source.",
            extra_json_schema={
                "items": {"anyOf": [{"$ref": f"#/components/schemas/{row.__name__}"} for row in ROWS]}
            },
        ),
    ]
    rules: RulesVersion = RULES


@lookup(
    "/v1/standards",
    id="listStandards",
    tag="Standards",
    summary="List the tables the service uses",
    links={
        "getStandard": {
            "operationId": "getStandard",
            "parameters": {"table": "$response.body#/tables/0/name"},
            "description": "Each name opens its table.",
        }
    },
)
def list_standards() -> StandardList:
    """Every number the service does not calculate comes from one of these tables.

    Every row of them names its source: a published standard, a public data set, or common practice.
    """
    return StandardList(tables=reference.summaries())


@lookup(
    "/v1/standards/{table:str}",
    id="getStandard",
    tag="Standards",
    summary="Read one of the tables, with the source of every row",
    example="standard",
    parts=ROWS,
)
def get_standard(request: StandardRequest) -> Standard:
    """The rows as the service uses them, with the edition of the table and how to read it.

    Where printed sources disagree, `about` says so and the rows keep each with its source.
    """
    table = reference.load(request.table)
    return Standard(
        name=table.name,
        title=table.title,
        about=table.about,
        edition=table.edition,
        sources=table.sources,
        rows=table.rows,
    )
