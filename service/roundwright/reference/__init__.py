"""Reference tables: data files with their sources, and the one module that loads them.

Nothing is read at import: a table is read, checked and cached on first use. A row without a source, with a source
that its table does not list or with an unknown mark cannot be loaded.
"""

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

import msgspec

from roundwright.reference.examples import (
    AlongRow,
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
    CircularLengthRow,
    ClassHelpRow,
    DepthExampleRow,
    DepthRuleRow,
    EaseRow,
    FetalHeadRow,
    HatNumberRow,
    HeadChartRow,
    IntergrowthHeadRow,
    LoopConstantRow,
    NeedleLengthRow,
    NeedleSizeRow,
    NetherlandsHeadRow,
    OlsenHeadRow,
    PostnatalHeadRow,
    PracticeRow,
    PreemieHeadRow,
    SilhouetteRow,
    StitchRow,
    TailRow,
    TermRow,
    WhoHeadRow,
    WhoWeekHeadRow,
    WordingRow,
    WordRow,
    YarnCountRow,
    YarnLengthRow,
    YarnWeightRow,
)
from roundwright.reference.table import Source, Table, TableSummary, table_of

__all__ = [
    "EXAMPLES",
    "LANGUAGES",
    "SHAPES",
    "TABLES",
    "DepthExampleRow",
    "HatNumberRow",
    "PreemieHeadRow",
    "Source",
    "Table",
    "TableSummary",
    "UncitedTableError",
    "YarnWeightRow",
    "abbreviations",
    "adult_heads",
    "buying",
    "cautions",
    "circular_lengths",
    "cite",
    "class_help",
    "depth_rules",
    "ease_rules",
    "growth_fetal",
    "growth_intergrowth",
    "growth_netherlands",
    "growth_olsen",
    "growth_postnatal",
    "growth_who",
    "growth_who_weeks",
    "head_chart",
    "load",
    "loop_constants",
    "needle_lengths",
    "needle_sizes",
    "parse",
    "practices",
    "silhouettes",
    "spellings",
    "stitches",
    "summaries",
    "tail_rules",
    "terms",
    "wordings",
    "words",
    "yarn_counts",
    "yarn_lengths",
    "yarn_weights",
]

DATA = Path(__file__).parent / "data"
LANGUAGES: tuple[str, ...] = tuple(
    sorted(path.stem.removeprefix("words-") for path in DATA.glob("words-*.json") if path.stem != "words-en")
)
"""The languages beside English that have a table of words: a file each is all it takes."""

_WORDINGS = table_of("WordingTable", WordingRow)

# The tables served under /v1/standards and their shapes, in the order they are listed.
SHAPES: Mapping[str, Any] = {
    "yarn-weights": table_of("YarnWeightTable", YarnWeightRow),
    "yarn-lengths": table_of("YarnLengthTable", YarnLengthRow),
    "yarn-counts": table_of("YarnCountTable", YarnCountRow),
    "needle-sizes": table_of("NeedleSizeTable", NeedleSizeRow),
    "needle-lengths": table_of("NeedleLengthTable", NeedleLengthRow),
    "circular-lengths": table_of("CircularLengthTable", CircularLengthRow),
    "head-sizes": table_of("HeadSizeTable", HeadChartRow | PreemieHeadRow | HatNumberRow),
    "growth": table_of("GrowthTable", WhoHeadRow | WhoWeekHeadRow | IntergrowthHeadRow),
    "growth-5-21": table_of("LaterGrowthTable", NetherlandsHeadRow),
    "growth-preterm": table_of("PretermGrowthTable", FetalHeadRow | OlsenHeadRow | PostnatalHeadRow),
    "adult-heads": table_of("AdultHeadTable", AdultHeadRow),
    "ease": table_of("EaseTable", EaseRow),
    "depth": table_of("DepthTable", DepthRuleRow | DepthExampleRow),
    "silhouettes": table_of("SilhouetteTable", SilhouetteRow),
    "stitches": table_of("StitchTable", StitchRow),
    "abbreviations": table_of("AbbreviationTable", AbbreviationRow),
    "terms": table_of("TermTable", TermRow),
    "words-en": table_of("WordTable", WordRow),
    **{f"words-{language}": _WORDINGS for language in LANGUAGES},
    "loop-lengths": table_of("LoopLengthTable", LoopConstantRow),
    "buying": table_of("BuyingTable", BuyingRow),
    "tails": table_of("TailTable", TailRow),
    "practice": table_of("PracticeTable", PracticeRow),
    "cautions": table_of("CautionTable", CautionRow),
    "class-help": table_of("ClassHelpTable", ClassHelpRow),
}
TABLES: tuple[str, ...] = tuple(SHAPES)

# Worked examples in print: used by the tests, not by the calculations.
EXAMPLES: Mapping[str, Any] = {
    "spacing": table_of("SpacingTable", SpacingRow | AlongRow | RhythmRow),
    "crowns": table_of("CrownTable", CrownRow),
    "printed-faults": table_of("PrintedFaultTable", PrintedFaultRow),
}

R = TypeVar("R")


class UncitedTableError(ValueError):
    """A table that does not fit its shape, or has a row without a valid source."""


def parse(name: str, raw: bytes) -> Table[Any]:
    """Read the table `name` from JSON and check that every row is cited.

    Raises `KeyError` for an unknown name, and `UncitedTableError` for a table of another shape or name, a key given to
    two sources, and a row with an unlisted source or an unknown mark.
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
        for cited in (row, *(row.names if isinstance(row, StitchRow) else ())):
            if cited.source not in keys:
                raise UncitedTableError(f"{name}, row {number}: source {cited.source!r} is not listed")
    return table


@cache
def _read(name: str) -> Table[Any]:
    if name not in SHAPES and name not in EXAMPLES:
        raise KeyError(name)
    return parse(name, (DATA / f"{name}.json").read_bytes())


def load(name: str) -> Table[Any]:
    """The table `name`, read once.

    Raises `KeyError` for an unknown name, `UncitedTableError` for a file that `parse` refuses.
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

    Title, publisher and year, and whether the value is computed or from memory; or the words `common practice`.
    Raises `KeyError` when the row cites no source of that table.
    """
    sources = {source.key: source for source in load(name).sources}
    source = sources[row.source]
    if row.mark == "C":
        return "common practice"
    parts = (source.title, source.publisher, str(source.year) if source.year else None)
    citation = ", ".join(part for part in parts if part)
    origin = {"D": "computed from the data of ", "A": "arithmetic from "}.get(row.mark, "")
    return f"{origin}{citation}" + (" (from memory)" if row.mark == "M" else "")


def _rows_of(name: str, row_type: type[R]) -> Callable[[], tuple[R, ...]]:
    """The accessor of the rows of one type in the table `name`, in the order of the file."""

    @cache
    def rows() -> tuple[R, ...]:
        return tuple(row for row in load(name).rows if isinstance(row, row_type))

    return rows


def _rows_by(key: str, name: str, row_type: type[R]) -> Callable[[], Mapping[str, R]]:
    """The accessor of the rows of one type in the table `name`, by their field `key`."""

    @cache
    def rows() -> Mapping[str, R]:
        return MappingProxyType({getattr(row, key): row for row in _rows_of(name, row_type)()})

    return rows


abbreviations = _rows_of("abbreviations", AbbreviationRow)
adult_heads = _rows_by("adult", "adult-heads", AdultHeadRow)
buying = _rows_of("buying", BuyingRow)
cautions = _rows_of("cautions", CautionRow)
circular_lengths = _rows_of("circular-lengths", CircularLengthRow)
class_help = _rows_of("class-help", ClassHelpRow)
depth_rules = _rows_by("name", "depth", DepthRuleRow)
ease_rules = _rows_by("name", "ease", EaseRow)
head_chart = _rows_by("name", "head-sizes", HeadChartRow)
loop_constants = _rows_by("state", "loop-lengths", LoopConstantRow)
needle_lengths = _rows_of("needle-lengths", NeedleLengthRow)
needle_sizes = _rows_of("needle-sizes", NeedleSizeRow)
practices = _rows_by("name", "practice", PracticeRow)
silhouettes = _rows_by("name", "silhouettes", SilhouetteRow)
stitches = _rows_by("name", "stitches", StitchRow)
tail_rules = _rows_by("name", "tails", TailRow)
terms = _rows_of("terms", TermRow)
yarn_counts = _rows_by("system", "yarn-counts", YarnCountRow)
yarn_lengths = _rows_of("yarn-lengths", YarnLengthRow)
yarn_weights = _rows_of("yarn-weights", YarnWeightRow)
"""The classes overlap and leave gaps, so a look-up by gauge gives a set."""

_who_heads = _rows_of("growth", WhoHeadRow)
_who_week_heads = _rows_of("growth", WhoWeekHeadRow)
_intergrowth_heads = _rows_of("growth", IntergrowthHeadRow)
_netherlands_heads = _rows_of("growth-5-21", NetherlandsHeadRow)
_fetal_heads = _rows_of("growth-preterm", FetalHeadRow)
_olsen_heads = _rows_of("growth-preterm", OlsenHeadRow)
_postnatal_heads = _rows_of("growth-preterm", PostnatalHeadRow)


@cache
def spellings() -> Mapping[str, str]:
    """Every spelling of a stitch, in lower case, with the name of the stitch."""
    named = [row for row in abbreviations() if row.stitch]
    return MappingProxyType(
        {text.lower(): str(row.stitch) for row in named for text in (row.abbreviation, *row.spellings)}
    )


@cache
def words(language: str = "en") -> tuple[WordRow, ...]:
    """The words of patterns in a language, beside the stitches and abbreviations."""
    return _rows_of(f"words-{language}", WordRow)()


@cache
def wordings(language: str) -> tuple[WordingRow, ...]:
    """The wordings of patterns in another language than English."""
    return _rows_of(f"words-{language}", WordingRow)()


SEXES = ("boy", "girl")


@cache
def growth_who() -> Mapping[str, tuple[WhoHeadRow, ...]]:
    """WHO heads by sex (`boy`, `girl`); the index of a row is its month, 0 to 60."""
    return MappingProxyType({sex: tuple(row for row in _who_heads() if row.sex == sex) for sex in SEXES})


@cache
def growth_who_weeks() -> Mapping[str, tuple[WhoWeekHeadRow, ...]]:
    """WHO heads by sex; the index of a row is its week, 0 to 13."""
    return MappingProxyType({sex: tuple(row for row in _who_week_heads() if row.sex == sex) for sex in SEXES})


@cache
def growth_netherlands() -> Mapping[str, tuple[NetherlandsHeadRow, ...]]:
    """Heads from 5 to 21 years by sex, half a year from row to row."""
    return MappingProxyType(
        {sex: tuple(row for row in _netherlands_heads() if row.sex == sex) for sex in SEXES}
    )


@cache
def growth_intergrowth() -> Mapping[str, Mapping[int, IntergrowthHeadRow]]:
    """INTERGROWTH-21st heads by sex (`boy`, `girl`) and week, 24 to 42; never interpolate from 32 to 33."""
    return _by_sex_and_week(_intergrowth_heads())


@cache
def growth_postnatal() -> Mapping[str, Mapping[int, PostnatalHeadRow]]:
    """Heads of preterm babies after birth by sex and week of postmenstrual age, 27 to 64."""
    return _by_sex_and_week(_postnatal_heads())


@cache
def growth_olsen() -> Mapping[str, Mapping[int, OlsenHeadRow]]:
    """Heads at birth in the United States by sex and completed week: 23."""
    return _by_sex_and_week(_olsen_heads())


@cache
def growth_fetal() -> Mapping[int, FetalHeadRow]:
    """Heads before birth by week of gestation, 22 and 23, girls and boys together."""
    return MappingProxyType({row.week: row for row in _fetal_heads()})


W = TypeVar("W", IntergrowthHeadRow, PostnatalHeadRow, OlsenHeadRow)


def _by_sex_and_week(rows: tuple[W, ...]) -> Mapping[str, Mapping[int, W]]:
    return MappingProxyType(
        {sex: MappingProxyType({row.week: row for row in rows if row.sex == sex}) for sex in SEXES}
    )
