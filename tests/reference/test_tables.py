"""The reference tables: every one loads, every row is cited, and a table that is not cannot be loaded."""

import json
from pathlib import Path
from typing import Any

import msgspec
import pytest

from roundwright import reference
from roundwright.reference.rows import StitchRow, StitchSymbolName

DATA = Path(reference.__file__).parent / "data"
NAMES = (*reference.SHAPES, *reference.EXAMPLES)


def _table(**row: Any) -> bytes:
    """A table of needle lengths with one row, whole unless `row` breaks it."""
    good = {"length_in": 8, "source": "makers", "mark": "P"}
    source = {"key": "makers", "title": "Lists", "publisher": None, "year": None, "url_or_reference": "lists"}
    rows = [{key: value for key, value in (good | row).items() if value is not None}]
    return json.dumps(
        {
            "name": "needle-lengths",
            "title": "t",
            "about": "a",
            "edition": "e",
            "sources": [source],
            "rows": rows,
        }
    ).encode()


def test_a_cited_row_is_accepted() -> None:
    """A row with a listed source and a known mark loads."""
    assert reference.parse("needle-lengths", _table()).rows[0].length_in == 8


@pytest.mark.parametrize(
    "row",
    [
        {"source": None},
        {"source": ""},
        {"source": "hearsay"},
        {"mark": None},
        {"mark": "X"},
        {"length_in": "8"},
    ],
)
def test_an_uncited_row_is_refused(row: dict[str, Any]) -> None:
    """A row without source or mark, with an unlisted source, an unknown mark or a wrong type is refused."""
    raw = _table(**row)

    with pytest.raises(reference.UncitedTableError, match="needle-lengths"):
        reference.parse("needle-lengths", raw)


def test_a_source_key_used_twice_is_refused() -> None:
    """Two sources of one table cannot share a key."""
    table = json.loads(_table())
    table["sources"] *= 2

    with pytest.raises(reference.UncitedTableError, match="share a key"):
        reference.parse("needle-lengths", json.dumps(table).encode())


def test_a_file_under_another_name_is_refused() -> None:
    """A table cannot be loaded under a name it does not carry."""
    raw = _table().replace(b'"name": "needle-lengths"', b'"name": "tails"')

    with pytest.raises(reference.UncitedTableError, match="says it is 'tails'"):
        reference.parse("needle-lengths", raw)


@pytest.mark.parametrize("name", ["", "nothing", "../data/growth", "growth.json"])
def test_a_name_that_is_no_table_is_unknown(name: str) -> None:
    """Only the names of tables open files."""
    with pytest.raises(KeyError):
        reference.load(name)


def test_every_file_is_a_table_and_every_table_a_file() -> None:
    """The data files and the names of the tables are the same."""
    assert sorted(path.stem for path in DATA.glob("*.json")) == sorted(NAMES)


def test_the_promised_tables_are_served() -> None:
    """The tables named in the interface are among those served."""
    promised = (
        "yarn-weights needle-sizes yarn-counts head-sizes growth growth-5-21 growth-preterm adult-heads "
        "abbreviations cautions"
    )

    assert set(promised.split()) <= set(reference.TABLES)
    assert [summary.name for summary in reference.summaries()] == list(reference.TABLES)


def symbol_names(row: Any) -> tuple[StitchSymbolName, ...]:
    """The names of a stitch's symbol, each with a citation of its own."""
    return row.names if isinstance(row, StitchRow) else ()


@pytest.mark.parametrize("name", NAMES)
def test_every_row_is_cited(name: str) -> None:
    """Every row of every table has a citation, and says common practice exactly where it is that."""
    for row in reference.load(name).rows:
        assert (reference.cite(name, row) == "common practice") == (row.mark == "C")
        for cited in (row, *symbol_names(row)):
            assert (cited.source == "common-practice") == (cited.mark == "C")


@pytest.mark.parametrize("name", NAMES)
def test_every_source_carries_a_row_or_is_named_in_one(name: str) -> None:
    """No table lists a source that nothing in it mentions."""
    table = reference.load(name)
    used = {cited.source for row in table.rows for cited in (row, *symbol_names(row))}
    text = msgspec.json.encode(table.rows).decode()

    for source in table.sources:
        assert source.key in used or source.title.split(",")[0] in text


@pytest.mark.parametrize("name", NAMES)
def test_a_table_says_all_that_its_file_says(name: str) -> None:
    """Nothing in a file is silently dropped on loading: the table written out is the file."""
    written = msgspec.json.encode(reference.load(name))

    assert json.loads(written) == json.loads((DATA / f"{name}.json").read_bytes())


@pytest.mark.parametrize("name", NAMES)
def test_no_row_stands_twice(name: str) -> None:
    """A fact stands once in its table."""
    rows = reference.load(name).rows

    assert len(set(rows)) == len(rows)


def test_citations_say_how_a_value_was_come_by() -> None:
    """A computed value says so, and so does one from memory."""
    who = reference.growth_who()["boy"][0]
    dry = reference.loop_constants()["dry-relaxed"]

    assert reference.cite("growth", who).startswith("computed from the data of WHO Child Growth Standards")
    assert reference.cite("loop-lengths", dry).endswith("(from memory)")


def test_every_abbreviation_of_a_stitch_names_one_of_the_table() -> None:
    """Every stitch is abbreviated, and no abbreviation or wrong-side stitch is an unknown one."""
    stitches = reference.stitches()

    assert set(reference.spellings().values()) == set(stitches)
    assert {row.wrong_side for row in stitches.values()} - {None} <= set(stitches)


def test_no_spelling_means_two_things() -> None:
    """Read without regard to case, every abbreviation stands for one thing."""
    meanings: dict[str, set[str]] = {}
    for row in reference.abbreviations():
        for text in (row.abbreviation, *row.spellings):
            meanings.setdefault(text.lower(), set()).add(row.stitch or row.words_us)

    assert [text for text, words in meanings.items() if len(words) > 1] == []


def test_a_wrong_side_stitch_changes_the_count_alike() -> None:
    """A stitch and its counterpart on the wrong side use and leave the same number of stitches."""
    stitches = reference.stitches()

    for row in stitches.values():
        if row.wrong_side:
            other = stitches[row.wrong_side]
            assert (row.uses, row.leaves) == (other.uses, other.leaves)


def test_no_two_stitches_share_a_chart_symbol() -> None:
    """A chart can be read back: each symbol is one stitch."""
    symbols = [row.symbol for row in reference.stitches().values()]

    assert len(set(symbols)) == len(symbols)


def test_needles_stand_once_thinnest_first() -> None:
    """Each diameter has one row with all its numbers, and the rows are in order."""
    sizes = [row.mm for row in reference.needle_sizes()]

    assert sizes == sorted(set(sizes))
