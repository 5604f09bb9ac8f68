"""Section chart: one of a crown's equal sections, a row a round, read from right to left.

The section narrows on both sides, as it does on the hat. Rounds that do not consist of equal sections, such as an
adjusting round or the last halving, are written out above or below it.
"""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from roundwright.drawing.chart_symbols import (
    Mark,
    Ring,
    arrow_left,
    has_equal_sections,
    rings_of,
    stitch_key,
    symbol,
    symbol_size,
)
from roundwright.drawing.round_chart import description, summary
from roundwright.drawing.svg import Markup, Picture, element, joined, px
from roundwright.drawing.theme import (
    MARGIN,
    WIDTH,
    Block,
    KeyEntry,
    Theme,
    page,
    text_line,
    text_scale,
    wrapped,
)
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.rounds.round import Round
from roundwright.language import ENGLISH_WORDS, Words, say

MAX_CELL: Final = 22.0
MIN_CELL: Final = 9.0
CELLS_WIDTH: Final = 330.0
"""Width of the widest row, as long as its cells are neither too large nor too small."""
SIDE_WIDTH: Final = 58.0
"""Room for numbers and counts on either side of the cells."""
LINE: Final = 0.8
MAX_SECTION_STITCHES: Final = 120
"""Stitches across the chart: a wider one is a scarf, not a section."""
MAX_ROUNDS_IN_WORDS: Final = 12
"""Rounds written out beside the chart: with more, the chart shows too little of the crown."""


class Row(NamedTuple):
    """A row of the chart: a round, and the part of it that is in the section."""

    ring: Ring
    marks: tuple[Mark, ...]
    stitches: int


class Grid(NamedTuple):
    """Where the cells lie, in pixels."""

    widest: int
    """Cells of the widest row, or of the round before the first row."""
    cell: float
    width: float
    """Of the picture."""
    scale: float
    """Scale of its text."""


def section_chart(
    crown: CrownAnswer,
    *,
    title: str | None = None,
    theme: Theme = "auto",
    width: float = WIDTH,
    words: Words = ENGLISH_WORDS,
) -> Picture:
    """The chart of a section of a crown; on a picture less wide, its text is larger beside its cells.

    Raises `Impossible` for a crown without equal sections, for sections too wide for a chart, and for more rounds than
    a chart shows.
    """
    flat = crown.worked == "flat"
    rings = rings_of(crown)
    sections, seam = crown.sections or 0, 1 if flat else 0
    rows = _rows(rings, sections, seam)
    if not any(row.marks for row in rows):
        raise Impossible(
            say("picture.no_equal_sections"),
            code="cannot_be_drawn",
            pointer="#/chart",
            nearest="chart=round",
        )
    grid = _grid(rows, crown, sections, seam, width)
    charted = {row.ring.number for row in rows}
    others = [round for round in crown.rounds if round.number not in charted]
    return page(
        "crown-wedge",
        _content(crown, rows, others, grid, words),
        width=grid.width,
        title=title or words.say("picture.section", sections=sections, stitches=crown.stitches),
        description=f"{words.say('picture.section_of', sections=sections)} {description(crown, words)}",
        subtitles=(
            summary(crown, words),
            words.say("picture.read_section_flat" if flat else "picture.read_section"),
        ),
        entries=_key(rows, sections, words),
        theme=theme,
    )


def _grid(rows: Sequence[Row], crown: CrownAnswer, sections: int, seam: int, least_width: float) -> Grid:
    before = _before(crown, rows[0]) - 2 * seam
    widest = before // sections
    if widest > MAX_SECTION_STITCHES:
        raise Impossible(
            say("picture.section_too_wide", stitches=widest, most=MAX_SECTION_STITCHES),
            code="cannot_be_drawn",
            pointer="#/sections",
            nearest=say("picture.more_sections", sections=-(-before // MAX_SECTION_STITCHES)),
        )
    room = CELLS_WIDTH - WIDTH + least_width
    cell = min(max(room / widest, MIN_CELL), MAX_CELL * least_width / WIDTH)
    width = max(least_width, widest * cell + 2 * (MARGIN + SIDE_WIDTH))
    return Grid(widest, cell, width, text_scale(width))


def _before(crown: CrownAnswer, row: Row) -> int:
    """Stitches before the round of a row."""
    return crown.rounds[row.ring.number - crown.rounds[0].number].before


def _rows(rings: Sequence[Ring], sections: int, seam: int) -> list[Row]:
    """The longest run of rounds in equal sections; none where too many shaped rounds are outside it."""
    longest: list[Row] = []
    run: list[Row] = []
    for ring in rings:
        if not (sections and has_equal_sections(ring, sections, seam)):
            run = []
            continue
        run.append(_row(ring, sections, seam))
        if len(run) > len(longest):
            longest = run
    outside = sum(1 for ring in rings if ring.marks) - sum(1 for row in longest if row.marks)
    return longest if outside <= MAX_ROUNDS_IN_WORDS else []


def _row(ring: Ring, sections: int, seam: int) -> Row:
    stitches = (ring.stitches - 2 * seam) // sections
    marks = [Mark(mark.position - seam, mark.stitch) for mark in ring.marks[: len(ring.marks) // sections]]
    return Row(ring, tuple(marks), stitches)


# --- rows -----------------------------------------------------------------------------------------------------


def _content(
    crown: CrownAnswer, rows: Sequence[Row], others: Sequence[Round], grid: Grid, words: Words
) -> Block:
    """The chart, bottom up; the other rounds are written above or below, where they are worked."""
    cell, scale = grid.cell, grid.scale
    first = rows[0].ring.number
    flat = crown.worked == "flat"
    later = _in_words([round for round in others if round.number > first], grid, words, flat=flat)
    earlier = _in_words([round for round in others if round.number < first], grid, words, flat=flat)
    bottom = later.height + len(rows) * cell
    right = (grid.width + grid.widest * cell) / 2
    earlier_y = bottom + 34 * scale
    before = words.say_count("picture.sts", _before(crown, rows[0]))
    parts = [
        later.markup,
        *(
            element("g", *_cells(row, grid), transform=f"translate({px(right)} {px(bottom - index * cell)})")
            for index, row in enumerate(rows, start=1)
        ),
        _ticks(right, grid.widest, bottom + 3, 5, cell),
        arrow_left(right, bottom + 16 * scale, scale),
        text_line(right + 10 * scale, bottom + 20 * scale, before, 12.5 * scale, "ink b"),
        element("g", earlier.markup, transform=f"translate(0 {px(earlier_y)})"),
    ]
    return Block(joined(parts), earlier_y + earlier.height)


def _cells(row: Row, grid: Grid) -> Iterator[Markup]:
    """The cells of a row, centred below the widest row, whose right end is at 0; its number and count beside it."""
    cell = grid.cell
    right = -cell * (grid.widest - row.stitches) / 2
    width = row.stitches * cell
    yield element(
        "rect", x=right - width, y=0, width=width, height=cell, class_="tint hair", stroke_width=LINE
    )
    yield _ticks(right, row.stitches, cell / 2, cell, cell)
    for mark in row.marks:
        x = right - (mark.position + 1) * cell
        yield element("rect", x=x + 0.6, y=0.6, width=cell - 1.2, height=cell - 1.2, class_="ink")
        size = symbol_size(mark.stitch, cell * 0.9)
        yield text_line(x + cell / 2, cell / 2 + size * 0.35, symbol(mark.stitch), size, "on m b")
    size = min(cell * 0.72, 12.5 * grid.scale)
    y, left = cell / 2 + size * 0.35, -grid.widest * cell
    number, count = str(row.ring.number), str(row.ring.stitches)
    if row.ring.from_behind:
        yield text_line(left - 8, y, number, size, "ink b e")
        yield text_line(8, y, count, size, "soft")
    else:
        yield text_line(8, y, number, size, "ink b")
        yield text_line(left - 8, y, count, size, "soft e")


def _ticks(right: float, cells: int, middle: float, height: float, cell: float) -> Markup:
    """A line on either side of every cell, as dashes across a thick line."""
    start, end = right + LINE / 2, right - cells * cell - LINE / 2
    return element(
        "path",
        d=f"M{px(start)} {px(middle)}H{px(end)}",
        class_="s hair",
        stroke_width=height,
        stroke_dasharray=f"{LINE} {cell - LINE:.4f}",
    )


def _in_words(rounds: Sequence[Round], grid: Grid, words: Words, *, flat: bool) -> Block:
    """Rounds, or with `flat` rows, in words, the last on top."""
    size, margin = 12.5 * grid.scale, MARGIN * grid.scale
    lines, y = [], 0.0
    for round in reversed(rounds):
        text = words.say_count(
            "picture.row_all_along" if flat else "picture.round_all_around",
            round.after,
            number=round.number,
            work=words.render(round.text),
        )
        for line in wrapped(text, size, grid.width - 2 * margin):
            y += size * 1.28
            lines.append(text_line(margin, y, line, size))
    return Block(joined(lines), y + (14 * grid.scale if rounds else 0))


def _key(rows: Sequence[Row], sections: int, words: Words) -> list[KeyEntry]:
    number = text_line(14, 13, "9", 12.5, "ink b m")
    count = text_line(14, 13, "72", 12.5, "soft m")
    return [
        *stitch_key([row.ring for row in rows], words, plain="tint"),
        KeyEntry(number, words.say("picture.key.number")),
        KeyEntry(count, words.say("picture.key.count", sections=sections)),
    ]
