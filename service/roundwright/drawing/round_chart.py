"""Round chart: a crown as rings, a ring a round and a cell a stitch.

The first round is outside. Rings are read clockwise from a gap at the bottom, where the chart stands upright and, like
any chart worked in the round, is read from right to left. The gap holds the number and the count of each round.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from typing import Final

from roundwright.drawing.chart_symbols import (
    MARKER_ENTRY,
    Ring,
    arrow_around,
    has_equal_sections,
    rings_of,
    rounds_in_words,
    slide_disc,
    stitch_key,
    stitch_marker,
)
from roundwright.drawing.rings import (
    START,
    RingLayout,
    angle_at,
    cells,
    marked_cells,
    ring_layout,
    ring_numbers,
    small_picture_css,
)
from roundwright.drawing.svg import Markup, Picture, arc, element, joined, path_point, point_at, px
from roundwright.drawing.theme import MARGIN, WIDTH, Block, KeyEntry, Theme, page, text_line
from roundwright.knitting.crown.crown import CrownAnswer


def round_chart(crown: CrownAnswer, *, title: str | None = None, theme: Theme = "auto") -> Picture:
    """The round chart of a crown. Raises `Impossible` for more rounds than a chart shows."""
    flat = crown.worked == "flat"
    rings = rings_of(crown)
    layout = ring_layout(crown.stitches, rings)
    width = max(WIDTH, 2 * (layout.reach + MARGIN))
    markup = joined(
        (
            *_sections(crown, rings, layout),
            *cells(crown.stitches, rings, layout),
            *marked_cells(rings, layout),
            *ring_numbers(rings, layout),
            *_needles(crown, layout),
            *_moves(crown, layout),
            *_start(crown, layout, flat=flat),
            *_close(crown, layout),
        )
    )
    content = element("g", markup, transform=f"translate({px(width / 2)} {px(layout.reach - 8)})")
    return page(
        "crown-chart",
        Block(content, 2 * layout.reach - 22),
        width=width,
        title=title or f"Crown on {crown.stitches} stitches",
        description=description(crown),
        subtitles=(summary(crown), _how_to_read(crown)),
        entries=_key(crown, rings),
        theme=theme,
        css=small_picture_css(width, layout),
    )


def summary(crown: CrownAnswer) -> str:
    """Style, sections and rounds of a crown, as a line of text."""
    lines = "rows" if crown.worked == "flat" else "rounds"
    sections = f", {crown.sections} sections" if crown.sections else ""
    counts = f"{crown.stitches} to {crown.stitches_left} stitches"
    return f"{crown.style.capitalize()}{sections}, {len(crown.rounds)} {lines}, {counts}."


def description(crown: CrownAnswer) -> str:
    """A crown in words, for readers who do not see its chart."""
    rounds = rounds_in_words(crown.rounds, "Row" if crown.worked == "flat" else "Round")
    split = ""
    if crown.split:
        needles = len(crown.split.split)
        on = "2 needles or halves" if needles == 2 else f"{needles} needles"
        split = f" On {on}: {', '.join(map(str, crown.split.split))} stitches."
    return f"{summary(crown)}{split} {rounds} {crown.finish.text}"


def _how_to_read(crown: CrownAnswer) -> str:
    if crown.worked == "flat":
        return (
            "Each ring is a row, from the outside in; each cell is a stitch after the row, as it looks from the right "
            "side. Read each row from its number: odd rows clockwise, even rows back."
        )
    return (
        "Each ring is a round, from the outside in; each cell is a stitch after the round. Read clockwise from the "
        "gap, which has the number of each round where it begins and its count where it ends."
    )


# --- sections -------------------------------------------------------------------------------------------------


def _sections(crown: CrownAnswer, rings: Sequence[Ring], layout: RingLayout) -> Iterator[Markup]:
    """Every other section tinted, and lines between sections, on the rings that consist of equal sections."""
    sections, seam = crown.sections, 1 if crown.worked == "flat" else 0
    if not sections:
        return
    boundaries = [
        tuple(
            angle_at(seam + (ring.stitches - 2 * seam) * section / sections, ring.stitches)
            for section in range(sections + 1)
        )
        if has_equal_sections(ring, sections, seam)
        else ()
        for ring in rings
    ]
    tints, lines = [], []
    index = 0
    for angles, group in groupby(boundaries):
        first, index = index, index + len(list(group))
        if not angles:
            continue
        outer, inner = layout.outer - first * layout.thickness, layout.outer - index * layout.thickness
        middle, width = (outer + inner) / 2, px(outer - inner)
        arcs = [arc(angles[section], angles[section + 1], middle) for section in range(1, sections, 2)]
        tints.append(element("path", d="".join(arcs), class_="s tinted", stroke_width=width))
        lines.extend([f"M{path_point(angle, outer)}L{path_point(angle, inner)}" for angle in angles[1:-1]])
    yield from tints
    if lines:
        yield element("path", d="".join(lines), class_="s softline", stroke_width=1.1)


# --- needles --------------------------------------------------------------------------------------------------


def _needles(crown: CrownAnswer, layout: RingLayout) -> Iterator[Markup]:
    """The boundaries between needles through the rounds, and the name of each needle outside."""
    if crown.split is None:
        return
    splits = [crown.split.split, *(round.needles or () for round in crown.rounds)]
    line_scale = layout.line_scale
    for needle in range(1, len(crown.split.split)):
        angles = [angle_at(sum(split[:needle]), sum(split)) for split in splits]
        d = _boundary_path(angles, layout)
        yield element("path", d=d, class_="s paperline", stroke_width=5 * line_scale, stroke_linejoin="round")
        yield element("path", d=d, class_="s pinline", stroke_width=2.6 * line_scale, stroke_linejoin="round")
        x, y = point_at(angles[0], layout.outer + 11)
        yield element("circle", r=4 * line_scale, class_="pin", cx=x, cy=y)
    yield from _needle_names(crown.split.split, crown.stitches, layout)


def _boundary_path(angles: Sequence[float], layout: RingLayout) -> str:
    """A path inwards at one angle outside the first ring, and at one in each ring."""
    path = [f"M{path_point(angles[0], layout.outer + 8)}L{path_point(angles[0], layout.outer)}"]
    for index, (before, angle) in enumerate(pairwise(angles)):
        edge = layout.outer - index * layout.thickness
        if abs(angle - before) * edge > MIN_SHIFT:
            back = 1 if angle > before else 0
            path.append(f"A{px(edge)} {px(edge)} 0 0 {back} {path_point(angle, edge)}")
        path.append(f"L{path_point(angle, edge - layout.thickness)}")
    return "".join(path)


MIN_SHIFT: Final = 6.0
"""Degrees times radius, a tenth of a pixel: a boundary that moves by less from ring to ring is drawn straight."""


def _needle_names(split: Sequence[int], stitches: int, layout: RingLayout) -> Iterator[Markup]:
    position = 0
    for needle, held in enumerate(split, start=1):
        angle = angle_at(position + held / 2, stitches)
        position += held
        above = 90 < angle < 270
        radius, size = layout.outer + 14, 12.5 * layout.scale
        yield text_line(
            0,
            -radius if above else radius + 0.7 * size,
            f"needle {needle}: {held}",
            size,
            "pin m b",
            transform=f"rotate({px(angle + (180 if above else 0))})",
        )


def _moves(crown: CrownAnswer, layout: RingLayout) -> Iterator[Markup]:
    """A disc with the stitches that are slid over a boundary before a round."""
    size = min(max(layout.thickness, 9), 13) * layout.line_scale
    for index, round in enumerate(crown.rounds):
        for move in round.moves:
            needles = round.needles or ()
            angle = angle_at(sum(needles[: move.needle]), round.after)
            x, y = point_at(angle, layout.middle(index))
            disc = slide_disc(move.stitches, 0.92 * size)
            yield element("g", disc, transform=f"translate({px(x)} {px(y)})")


# --- start and close ------------------------------------------------------------------------------------------


def _start(crown: CrownAnswer, layout: RingLayout, *, flat: bool) -> Iterator[Markup]:
    """The stitch count, the marker where the rounds begin, and the direction in which they go."""
    x, y = point_at(START, layout.outer + 3)
    scale = layout.scale
    yield text_line(x + 4, y + 11 * scale, f"{crown.stitches} sts", 12.5 * scale, "ink b")
    if flat:
        return
    yield stitch_marker(x, y + 19 * scale, scale)
    radius = layout.outer + 3 + 15 * scale
    yield arrow_around(START + 400 * scale / radius, radius, scale)


def _close(crown: CrownAnswer, layout: RingLayout) -> Iterator[Markup]:
    """The stitches left and how they are finished, in the middle."""
    left = crown.stitches_left
    finish = "cord" if crown.finish.kind == "cord" else "draw up"
    hole = layout.outer - len(crown.rounds) * layout.thickness
    size = min(max(hole * 0.3, 13), 24 * layout.scale)
    yield text_line(0, -size * 0.35, f"{left} st{'' if left == 1 else 's'}", size, "ink m b")
    yield text_line(0, size * 0.62, finish, size * 0.72, "soft m")


# --- key ------------------------------------------------------------------------------------------------------


def _key(crown: CrownAnswer, rings: Sequence[Ring]) -> list[KeyEntry]:
    entries = stitch_key(rings)
    seam = 1 if crown.worked == "flat" else 0
    if crown.sections and any(has_equal_sections(ring, crown.sections, seam) for ring in rings):
        section = joined(
            (
                element("rect", x=14, y=1, width=14, height=16, class_="tint"),
                element("path", d="M14 1V17", class_="softline", stroke_width=1.1),
            )
        )
        entries.append(KeyEntry(section, "line between two sections; every other section is shaded"))
    if crown.worked != "flat":
        entries.append(MARKER_ENTRY)
    if crown.split:
        pin = joined(
            (
                element("path", d="M14 6V18", class_="pinline", stroke_width=2.6),
                element("circle", cx=14, cy=4, r=4, class_="pin"),
            )
        )
        entries.append(KeyEntry(pin, "from one needle to the next"))
    if any(round.moves for round in crown.rounds):
        disc = element("g", slide_disc(2), transform="translate(14 9)")
        entries.append(KeyEntry(disc, "number of sts to slide to the next needle first"))
    return entries
