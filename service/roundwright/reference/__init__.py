"""The tables the service rests on, each a data file with its sources, and the one module that loads them.

Nothing is read at import: a table is read, checked and kept the first time it is asked for. A row without a source, with
a source its table does not list or with an unknown mark cannot be loaded.
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

import msgspec

from roundwright.reference.rows import Source, StitchRow, Table

R = TypeVar("R")

DATA = Path(__file__).parent / "data"

# The row of every table, by the name of its file.
ROWS: Mapping[str, Any] = {
    "stitches": StitchRow,
}

# The tables served under /v1/standards, in the order they are listed.
TABLES: tuple[str, ...] = tuple(ROWS)


class UncitedTable(ValueError):
    """A table that cannot be trusted: misshapen, or with a row that does not say where it comes from."""


def parse(name: str, raw: bytes) -> Table[Any]:
    """Read the table `name` from JSON and check that every row is cited.

    Raises `UncitedTable` for a table that is misshapen or misnamed, a key given to two sources, and a row whose
    source is missing or unlisted or whose mark is unknown.
    """
    shape: Any = Table.__class_getitem__(ROWS[name])  # a type made at run time, which a checker cannot follow
    try:
        table: Table[Any] = msgspec.json.decode(raw, type=shape)
    except msgspec.DecodeError as error:
        raise UncitedTable(f"{name}: {error}") from error
    if table.name != name:
        raise UncitedTable(f"{name}: the file says it is {table.name!r}")
    keys = {source.key for source in table.sources}
    if len(keys) != len(table.sources):
        raise UncitedTable(f"{name}: two sources share a key")
    for number, row in enumerate(table.rows, start=1):
        if row.source not in keys:
            raise UncitedTable(f"{name}, row {number}: source {row.source!r} is not listed")
    return table


@cache
def load(name: str) -> Table[Any]:
    """The table `name`, read once. Raises `KeyError` for a name that is no table, `UncitedTable` for a bad file."""
    if name not in ROWS:
        raise KeyError(name)
    return parse(name, (DATA / f"{name}.json").read_bytes())


def source_of(name: str, row: Any) -> Source:
    """The source of a row of the table `name`. Raises `KeyError` when the row is of another table."""
    for source in load(name).sources:
        if source.key == row.source:
            return source
    raise KeyError(row.source)


def cite(name: str, row: Any) -> str:
    """The citation of a row, for the `basis` of an answer: title, publisher and year, and how it was come by."""
    source = source_of(name, row)
    if row.mark == "C":
        return "common practice"
    parts = [source.title, source.publisher, str(source.year) if source.year else None]
    citation = ", ".join(part for part in parts if part)
    come_by = {"D": "computed from the data of ", "A": "arithmetic from "}.get(row.mark, "")
    return f"{come_by}{citation}" + (" (from memory)" if row.mark == "M" else "")


def _rows(name: str, kind: type[R]) -> tuple[R, ...]:
    return tuple(row for row in load(name).rows if isinstance(row, kind))


@cache
def stitches() -> Mapping[str, StitchRow]:
    """The one table of stitches, by name."""
    return MappingProxyType({row.name: row for row in _rows("stitches", StitchRow)})
