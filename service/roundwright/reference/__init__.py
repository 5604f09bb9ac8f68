"""The tables the service rests on, each a data file with its sources, and the one module that loads them.

Nothing is read at import: a table is read, checked and kept the first time it is asked for. A row without a
source, with a source its table does not list or with an unknown mark cannot be loaded.
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

import msgspec

from roundwright.reference.examples import (
    AlongRow,
    AlongSegment,
    CrownRow,
    PrintedFaultRow,
    RhythmRow,
    SpacingRow,
)
from roundwright.reference.rows import (
    AbbreviationRow,
    AdultHeadRow,
    BuyingRow,
    CautionRow,
    DepthExampleRow,
    DepthRuleRow,
    EaseRow,
    HatNumberRow,
    HeadChartRow,
    IntergrowthHeadRow,
    LoopConstantRow,
    NeedleLengthRow,
    NeedleSizeRow,
    PracticeRow,
    PreemieHeadRow,
    StitchRow,
    TailRow,
    TermRow,
    WhoHeadRow,
    WordRow,
    YarnCountRow,
    YarnLengthRow,
    YarnWeightRow,
)
from roundwright.reference.table import Source, Table, TableSummary, table_of

__all__ = [
    "EXAMPLES",
    "SHAPES",
    "TABLES",
    "AbbreviationRow",
    "AdultHeadRow",
    "AlongRow",
    "AlongSegment",
    "BuyingRow",
    "CautionRow",
    "CrownRow",
    "DepthExampleRow",
    "DepthRuleRow",
    "EaseRow",
    "HatNumberRow",
    "HeadChartRow",
    "IntergrowthHeadRow",
    "LoopConstantRow",
    "NeedleLengthRow",
    "NeedleSizeRow",
    "PracticeRow",
    "PreemieHeadRow",
    "PrintedFaultRow",
    "RhythmRow",
    "Source",
    "SpacingRow",
    "StitchRow",
    "Table",
    "TableSummary",
    "TailRow",
    "TermRow",
    "UncitedTableError",
    "WhoHeadRow",
    "WordRow",
    "YarnCountRow",
    "YarnLengthRow",
    "YarnWeightRow",
    "abbreviations",
    "adult_heads",
    "buying",
    "cautions",
    "cite",
    "depth_rules",
    "ease_rules",
    "growth_intergrowth",
    "growth_who",
    "head_chart",
    "load",
    "loop_constants",
    "needle_sizes",
    "parse",
    "practices",
    "spellings",
    "stitches",
    "summaries",
    "tail_rules",
    "terms",
    "words",
    "yarn_counts",
    "yarn_weights",
]

DATA = Path(__file__).parent / "data"

# The tables served under /v1/standards and the shape of each, in the order they are listed.
SHAPES: Mapping[str, Any] = {
    "yarn-weights": table_of("YarnWeightTable", YarnWeightRow),
    "yarn-lengths": table_of("YarnLengthTable", YarnLengthRow),
    "yarn-counts": table_of("YarnCountTable", YarnCountRow),
    "needle-sizes": table_of("NeedleSizeTable", NeedleSizeRow),
    "needle-lengths": table_of("NeedleLengthTable", NeedleLengthRow),
    "head-sizes": table_of("HeadSizeTable", HeadChartRow | PreemieHeadRow | HatNumberRow),
    "growth": table_of("GrowthTable", WhoHeadRow | IntergrowthHeadRow),
    "adult-heads": table_of("AdultHeadTable", AdultHeadRow),
    "ease": table_of("EaseTable", EaseRow),
    "depth": table_of("DepthTable", DepthRuleRow | DepthExampleRow),
    "stitches": table_of("StitchTable", StitchRow),
    "abbreviations": table_of("AbbreviationTable", AbbreviationRow),
    "terms": table_of("TermTable", TermRow),
    "words-en": table_of("WordTable", WordRow),
    "loop-lengths": table_of("LoopLengthTable", LoopConstantRow),
    "buying": table_of("BuyingTable", BuyingRow),
    "tails": table_of("TailTable", TailRow),
    "practice": table_of("PracticeTable", PracticeRow),
    "cautions": table_of("CautionTable", CautionRow),
}
TABLES: tuple[str, ...] = tuple(SHAPES)

# Worked examples in print: what the service is checked against, not what it calculates from.
EXAMPLES: Mapping[str, Any] = {
    "spacing": table_of("SpacingTable", SpacingRow | AlongRow | RhythmRow),
    "crowns": table_of("CrownTable", CrownRow),
    "printed-faults": table_of("PrintedFaultTable", PrintedFaultRow),
}

R = TypeVar("R")


class UncitedTableError(ValueError):
    """A table that cannot be trusted: misshapen, or with a row that does not say where it comes from."""


def parse(name: str, raw: bytes) -> Table[Any]:
    """Read the table `name` from JSON and check that every row is cited.

    Raises `KeyError` for a name that is no table, and `UncitedTableError` for a table that is misshapen or
    misnamed, a key given to two sources, or a row whose source is unlisted or whose mark is unknown.
    """
    shape = SHAPES.get(name) or EXAMPLES[name]
    try:
        table: Table[Any] = msgspec.json.decode(raw, type=shape)
    except msgspec.DecodeError as error:
        raise UncitedTableError(f"{name}: {error}") from error
    if table.name != name:
        raise UncitedTableError(f"{name}: the file says it is {table.name!r}")
    keys = {source.key for source in table.sources}
    if len(keys) != len(table.sources):
        raise UncitedTableError(f"{name}: two sources share a key")
    for number, row in enumerate(table.rows, start=1):
        if row.source not in keys:
            raise UncitedTableError(f"{name}, row {number}: source {row.source!r} is not listed")
    return table


@cache
def _read(name: str) -> Table[Any]:
    if name not in SHAPES and name not in EXAMPLES:
        raise KeyError(name)
    return parse(name, (DATA / f"{name}.json").read_bytes())


def load(name: str) -> Table[Any]:
    """The table `name`, read once.

    Raises `KeyError` for a name that is no table, `UncitedTableError` for a file that cannot be trusted.
    """
    return _read(name)


@cache
def summaries() -> tuple[TableSummary, ...]:
    """The served tables without their rows."""
    return tuple(
        TableSummary(
            name=table.name,
            title=table.title,
            edition=table.edition,
            row_count=len(table.rows),
            sources=table.sources,
        )
        for table in map(load, TABLES)
    )


@cache
def cite(name: str, row: Any) -> str:
    """The citation of a row of the table `name`, for the `basis` of an answer.

    Title, publisher and year, and how the value was come by; or the words `common practice`.
    Raises `KeyError` when the row cites no source of that table.
    """
    sources = {source.key: source for source in load(name).sources}
    source = sources[row.source]
    if row.mark == "C":
        return "common practice"
    parts = (source.title, source.publisher, str(source.year) if source.year else None)
    citation = ", ".join(part for part in parts if part)
    come_by = {"D": "computed from the data of ", "A": "arithmetic from "}.get(row.mark, "")
    return f"{come_by}{citation}" + (" (from memory)" if row.mark == "M" else "")


def _rows(name: str, kind: type[R]) -> tuple[R, ...]:
    return tuple(row for row in load(name).rows if isinstance(row, kind))


@cache
def stitches() -> Mapping[str, StitchRow]:
    """The one table of stitches, by name."""
    return MappingProxyType({row.name: row for row in _rows("stitches", StitchRow)})


@cache
def abbreviations() -> tuple[AbbreviationRow, ...]:
    """The abbreviations of patterns."""
    return _rows("abbreviations", AbbreviationRow)


@cache
def spellings() -> Mapping[str, str]:
    """Every spelling of a stitch, in lower case, with the name of the stitch."""
    named = [row for row in abbreviations() if row.stitch]
    return MappingProxyType(
        {text.lower(): str(row.stitch) for row in named for text in (row.abbreviation, *row.spellings)}
    )


@cache
def terms() -> tuple[TermRow, ...]:
    """Words that differ between the United States and the United Kingdom."""
    return _rows("terms", TermRow)


@cache
def words(language: str = "en") -> tuple[WordRow, ...]:
    """The words of patterns in a language, beside the stitches and abbreviations."""
    return _rows(f"words-{language}", WordRow)


@cache
def yarn_weights() -> tuple[YarnWeightRow, ...]:
    """The classes of yarn thickness, 0 to 7. They overlap and leave gaps: a look-up returns a set."""
    return _rows("yarn-weights", YarnWeightRow)


@cache
def yarn_counts() -> Mapping[str, YarnCountRow]:
    """The systems of yarn counts, by name."""
    return MappingProxyType({row.system: row for row in _rows("yarn-counts", YarnCountRow)})


@cache
def needle_sizes() -> tuple[NeedleSizeRow, ...]:
    """Needle diameters, thinnest first, each diameter once."""
    return _rows("needle-sizes", NeedleSizeRow)


@cache
def head_chart() -> Mapping[str, HeadChartRow]:
    """The garment chart of heads, by the name of the size."""
    return MappingProxyType({row.name: row for row in _rows("head-sizes", HeadChartRow)})


@cache
def growth_who() -> Mapping[str, tuple[WhoHeadRow, ...]]:
    """WHO heads by sex (`boy`, `girl`); the index of a row is its month, 0 to 60."""
    rows = _rows("growth", WhoHeadRow)
    return MappingProxyType({sex: tuple(row for row in rows if row.sex == sex) for sex in ("boy", "girl")})


@cache
def growth_intergrowth() -> Mapping[str, Mapping[int, IntergrowthHeadRow]]:
    """INTERGROWTH-21st heads by sex (`boy`, `girl`) and week, 24 to 42; never interpolate from 32 to 33."""
    rows = _rows("growth", IntergrowthHeadRow)
    return MappingProxyType(
        {sex: MappingProxyType({row.week: row for row in rows if row.sex == sex}) for sex in ("boy", "girl")}
    )


@cache
def adult_heads() -> Mapping[str, AdultHeadRow]:
    """Measured heads of adults: `woman` and `man`."""
    return MappingProxyType({row.adult: row for row in _rows("adult-heads", AdultHeadRow)})


@cache
def ease_rules() -> Mapping[str, EaseRow]:
    """Rules for how much smaller than the head a hat is, by name; `usual` is the default."""
    return MappingProxyType({row.name: row for row in _rows("ease", EaseRow)})


@cache
def depth_rules() -> Mapping[str, DepthRuleRow]:
    """Rules for the depth of a hat, by name."""
    return MappingProxyType({row.name: row for row in _rows("depth", DepthRuleRow)})


@cache
def loop_constants() -> Mapping[str, LoopConstantRow]:
    """Constants of plain knitting, by state of relaxation."""
    return MappingProxyType({row.state: row for row in _rows("loop-lengths", LoopConstantRow)})


@cache
def buying() -> tuple[BuyingRow, ...]:
    """What a book tells its readers to buy for a hat."""
    return _rows("buying", BuyingRow)


@cache
def tail_rules() -> Mapping[str, TailRow]:
    """Rules for the tail of a long-tail cast-on, by name."""
    return MappingProxyType({row.name: row for row in _rows("tails", TailRow)})


@cache
def practices() -> Mapping[str, PracticeRow]:
    """Figures of the trade, by name."""
    return MappingProxyType({row.name: row for row in _rows("practice", PracticeRow)})


@cache
def cautions() -> tuple[CautionRow, ...]:
    """The cautions that go with a hat for a child."""
    return _rows("cautions", CautionRow)
