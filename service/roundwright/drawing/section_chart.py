"""The crown as a flat wedge chart: one of its like sections, a row a round, read from right to left.

The section narrows to both sides, as it does on the hat. Rounds that are not like sections all around, such as an
adjusting round or the last halving, are written out above or below it.
"""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from roundwright.drawing.chart_symbols import (
    Mark,
    Ring,
    alike,
    arrow_left,
    rings_of,
    stitch_key,
    symbol,
    symbol_size,
)
from roundwright.drawing.round_chart import about, summary
from roundwright.drawing.svg import Markup, Picture, element, joined, number
from roundwright.drawing.theme import MARGIN, WIDTH, Block, KeyEntry, Theme, larger, sheet, words, wrapped
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.rounds.round import Round

CELL: Final = 22.0
SMALLEST_CELL: Final = 9.0
ROOM: Final = 330.0
"""Width of the cells where they are neither too large nor too small for it."""
SIDES: Final = 58.0
"""Room for numbers and counts on either side of the cells."""
LINE: Final = 0.8
MOST_WIDE: Final = 120
"""Stitches of a section across the chart: a wider one is a scarf, not a wedge."""

MOST_WRITTEN: Final = 12
"""Rounds written out beside the chart: with more, it shows too little of the crown."""


class Row(NamedTuple):
    """A row of the chart."""

    round: Ring
    marks: tuple[Mark, ...]
    stitches: int


class Grid(NamedTuple):
    """Where the cells lie."""

    widest: int
    """Cells of the widest row, or of the one before it."""
    cell: float
    width: float
    """Of the picture."""
    grown: float
    """How much larger than usual its words are."""


def section_chart(crown: CrownAnswer, *, title: str | None = None, theme: Theme = "auto") -> Picture:
    """The wedge chart of a crown.

    Raises `Impossible` for a crown that is not worked in like sections, for sections too wide for a chart, and for more
    rounds than it shows.
    """
    flat = crown.worked == "flat"
    rings = rings_of(crown)
    parts, seam = crown.sections or 0, 1 if flat else 0
    rows = _rows(rings, parts, seam)
    if not any(row.marks for row in rows):
        raise Impossible(
            "This crown is not worked in like sections all around, so that one of them could stand for all.",
            pointer="#/chart",
            nearest="chart=round",
        )
    grid = _grid(rows, crown, parts, seam)
    charted = {row.round.number for row in rows}
    others = [each for each in crown.rounds if each.number not in charted]
    return sheet(
        "crown-wedge",
        _content(crown, rows, others, grid),
        width=grid.width,
        title=title or f"One of {parts} sections of a crown on {crown.stitches} stitches",
        about=f"One section of {parts}. {about(crown)}",
        heads=(summary(crown), _how_to_read(flat=flat)),
        entries=_key(rows, parts),
        theme=theme,
    )


def _grid(rows: Sequence[Row], crown: CrownAnswer, parts: int, seam: int) -> Grid:
    before = crown.rounds[rows[0].round.number - 1].before - 2 * seam
    widest = before // parts
    if widest > MOST_WIDE:
        raise Impossible(
            f"A section of {widest} stitches is too wide for a wedge chart, which has {MOST_WIDE} at most.",
            pointer="#/sections",
            nearest=f"{-(-before // MOST_WIDE)} sections, or chart=round",
        )
    cell = min(max(ROOM / widest, SMALLEST_CELL), CELL)
    width = max(WIDTH, widest * cell + 2 * (MARGIN + SIDES))
    return Grid(widest, cell, width, larger(width))


def _rows(rings: Sequence[Ring], parts: int, seam: int) -> list[Row]:
    """The longest run of rounds that are so many like parts; none where too many are shaped outside it."""
    best: list[Row] = []
    run: list[Row] = []
    for each in rings:
        if not (parts and alike(each, parts, seam)):
            run = []
            continue
        run.append(_row(each, parts, seam))
        if len(run) > len(best):
            best = run
    outside = sum(1 for each in rings if each.marks) - sum(1 for row in best if row.marks)
    return best if outside <= MOST_WRITTEN else []


def _row(each: Ring, parts: int, seam: int) -> Row:
    stitches = (each.stitches - 2 * seam) // parts
    marks = [Mark(mark.place - seam, mark.stitch) for mark in each.marks[: len(each.marks) // parts]]
    return Row(each, tuple(marks), stitches)


def _how_to_read(*, flat: bool) -> str:
    if flat:
        return (
            "From the bottom up, a cell a stitch after its row, as it looks from the right side. Read each row from "
            "its number: odd rows from right to left, even rows back. A seam stitch at each edge is not shown."
        )
    return "From the bottom up, each round from right to left and all around alike; a cell is a stitch after its round."


# --- rows -----------------------------------------------------------------------------------------------------


def _content(crown: CrownAnswer, rows: Sequence[Row], others: Sequence[Round], grid: Grid) -> Block:
    """The chart, bottom up, with the other rounds written above or below where they are worked."""
    cell, grown = grid.cell, grid.grown
    first = rows[0].round.number
    line = "Row" if crown.worked == "flat" else "Round"
    later = _written([each for each in others if each.number > first], line, grid)
    sooner = _written([each for each in others if each.number < first], line, grid)
    height = later.height + len(rows) * cell
    right = (grid.width + grid.widest * cell) / 2
    below = height + 34 * grown
    before = f"{crown.rounds[first - 1].before} sts"
    drawn = [
        later.drawn,
        *(
            element(
                "g",
                *_drawn(row, grid),
                transform=f"translate({number(right)} {number(height - place * cell)})",
            )
            for place, row in enumerate(rows, start=1)
        ),
        _ticks(right, grid.widest, height + 3, 5, cell),
        arrow_left(right, height + 16 * grown, grown),
        words(right + 10 * grown, height + 20 * grown, before, 12.5 * grown, "ink b"),
        element("g", sooner.drawn, transform=f"translate(0 {number(below)})"),
    ]
    return Block(joined(drawn), below + sooner.height)


def _drawn(row: Row, grid: Grid) -> Iterator[Markup]:
    """A row whose right end, were it as wide as the widest, is at 0."""
    cell = grid.cell
    right = -cell * (grid.widest - row.stitches) / 2
    width = row.stitches * cell
    yield element(
        "rect", x=right - width, y=0, width=width, height=cell, class_="tint hair", stroke_width=LINE
    )
    yield _ticks(right, row.stitches, cell / 2, cell, cell)
    for mark in row.marks:
        x = right - (mark.place + 1) * cell
        yield element("rect", x=x + 0.6, y=0.6, width=cell - 1.2, height=cell - 1.2, class_="ink")
        letters = symbol_size(mark.stitch, cell * 0.9)
        yield words(x + cell / 2, cell / 2 + letters * 0.35, symbol(mark.stitch), letters, "on m b")
    size = min(cell * 0.72, 12.5 * grid.grown)
    y, left = cell / 2 + size * 0.35, -grid.widest * cell
    number_of, count = str(row.round.number), str(row.round.stitches)
    if row.round.from_behind:
        yield words(left - 8, y, number_of, size, "ink b e")
        yield words(8, y, count, size, "soft")
    else:
        yield words(8, y, number_of, size, "ink b")
        yield words(left - 8, y, count, size, "soft e")


def _ticks(right: float, cells: int, middle: float, height: float, cell: float) -> Markup:
    """A line on either side of every cell, as dashes across a thick line."""
    start, end = right + LINE / 2, right - cells * cell - LINE / 2
    return element(
        "path",
        d=f"M{number(start)} {number(middle)}H{number(end)}",
        class_="s hair",
        stroke_width=height,
        stroke_dasharray=f"{LINE} {cell - LINE:.4f}",
    )


def _written(rounds: Sequence[Round], line: str, grid: Grid) -> Block:
    """Rounds in words, the last on top."""
    size, margin = 12.5 * grid.grown, MARGIN * grid.grown
    drawn, y = [], 0.0
    for each in reversed(rounds):
        said = f"{line} {each.number}, all around: {each.text} ({each.after} sts)"
        for text in wrapped(said, size, grid.width - 2 * margin):
            y += size * 1.28
            drawn.append(words(margin, y, text, size))
    return Block(joined(drawn), y + (14 * grid.grown if rounds else 0))


def _key(rows: Sequence[Row], parts: int) -> list[KeyEntry]:
    left = words(14, 13, "9", 12.5, "ink b m")
    right = words(14, 13, "72", 12.5, "soft m")
    return [
        *stitch_key([row.round for row in rows], plain="tint"),
        KeyEntry(left, "number of the round"),
        KeyEntry(right, f"stitches after it, in all {parts} sections"),
    ]
