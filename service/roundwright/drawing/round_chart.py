"""Round chart: a crown as rings, a ring a round and a cell a stitch.

The first round is outside. Rings are read clockwise from a gap at the bottom, where the chart stands upright and, like
any chart worked in the round, is read from right to left. The gap holds the number and the count of each round.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from typing import Final

from roundwright.drawing.chart_symbols import (
    Ring,
    arrow_around,
    has_equal_sections,
    marker_entry,
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
from roundwright.language import ENGLISH_WORDS, Words, sentence_start


def round_chart(
    crown: CrownAnswer, *, title: str | None = None, theme: Theme = "auto", words: Words = ENGLISH_WORDS
) -> Picture:
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
            *_needles(crown, layout, words),
            *_moves(crown, layout),
            *_start(crown, layout, words, flat=flat),
            *_close(crown, layout, words),
        )
    )
    content = element("g", markup, transform=f"translate({px(width / 2)} {px(layout.reach - 8)})")
    return page(
        "crown-chart",
        Block(content, 2 * layout.reach - 22),
        width=width,
        title=title or words.say("picture.crown", stitches=crown.stitches),
        description=description(crown, words),
        subtitles=(summary(crown, words), _how_to_read(crown, words)),
        entries=_key(crown, rings, words),
        theme=theme,
        css=small_picture_css(width, layout),
    )


def summary(crown: CrownAnswer, words: Words) -> str:
    """Style, sections and rounds of a crown, as a line of text."""
    rounds = words.say_count(
        "picture.rows" if crown.worked == "flat" else "picture.rounds", len(crown.rounds)
    )
    style = sentence_start(words.say(f"picture.style.{crown.style}"))
    counts = {"rounds": rounds, "before": crown.stitches, "after": crown.stitches_left}
    if not crown.sections:
        return words.say("picture.summary", style=style, **counts)
    return words.say_count("picture.summary_sections", crown.sections, style=style, **counts)


def description(crown: CrownAnswer, words: Words) -> str:
    """A crown in words, for readers who do not see its chart."""
    rounds = rounds_in_words(crown.rounds, words, flat=crown.worked == "flat")
    split = ""
    if crown.split:
        needles, stitches = len(crown.split.split), ", ".join(map(str, crown.split.split))
        on = words.say(
            "picture.on_two" if needles == 2 else "picture.on_needles", needles=needles, stitches=stitches
        )
        split = f" {on}"
    return f"{summary(crown, words)}{split} {rounds} {words.render(crown.finish.text)}"


def _how_to_read(crown: CrownAnswer, words: Words) -> str:
    return words.say("picture.read_rings_flat" if crown.worked == "flat" else "picture.read_rings")


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


def _needles(crown: CrownAnswer, layout: RingLayout, words: Words) -> Iterator[Markup]:
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
    yield from _needle_names(crown.split.split, crown.stitches, layout, words)


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


def _needle_names(split: Sequence[int], stitches: int, layout: RingLayout, words: Words) -> Iterator[Markup]:
    position = 0
    for needle, held in enumerate(split, start=1):
        angle = angle_at(position + held / 2, stitches)
        position += held
        above = 90 < angle < 270
        radius, size = layout.outer + 14, 12.5 * layout.scale
        yield text_line(
            0,
            -radius if above else radius + 0.7 * size,
            words.say("picture.needle_holds", needle=needle, stitches=held),
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


def _start(crown: CrownAnswer, layout: RingLayout, words: Words, *, flat: bool) -> Iterator[Markup]:
    """The stitch count, the marker where the rounds begin, and the direction in which they go."""
    x, y = point_at(START, layout.outer + 3)
    scale = layout.scale
    count = words.say_count("picture.sts", crown.stitches)
    yield text_line(x + 4, y + 11 * scale, count, 12.5 * scale, "ink b")
    if flat:
        return
    yield stitch_marker(x, y + 19 * scale, scale)
    radius = layout.outer + 3 + 15 * scale
    yield arrow_around(START + 400 * scale / radius, radius, scale)


def _close(crown: CrownAnswer, layout: RingLayout, words: Words) -> Iterator[Markup]:
    """The stitches left and how they are finished, in the middle."""
    left = words.say_count("picture.sts", crown.stitches_left)
    finish = words.say("picture.cord" if crown.finish.kind == "cord" else "picture.draw_up")
    hole = layout.outer - len(crown.rounds) * layout.thickness
    size = min(max(hole * 0.3, 13), 24 * layout.scale)
    yield text_line(0, -size * 0.35, left, size, "ink m b")
    yield text_line(0, size * 0.62, finish, size * 0.72, "soft m")


# --- key ------------------------------------------------------------------------------------------------------


def _key(crown: CrownAnswer, rings: Sequence[Ring], words: Words) -> list[KeyEntry]:
    entries = stitch_key(rings, words)
    seam = 1 if crown.worked == "flat" else 0
    if crown.sections and any(has_equal_sections(ring, crown.sections, seam) for ring in rings):
        section = joined(
            (
                element("rect", x=14, y=1, width=14, height=16, class_="tint"),
                element("path", d="M14 1V17", class_="softline", stroke_width=1.1),
            )
        )
        entries.append(KeyEntry(section, words.say("picture.key.sections")))
    if crown.worked != "flat":
        entries.append(marker_entry(words))
    if crown.split:
        pin = joined(
            (
                element("path", d="M14 6V18", class_="pinline", stroke_width=2.6),
                element("circle", cx=14, cy=4, r=4, class_="pin"),
            )
        )
        entries.append(KeyEntry(pin, words.say("picture.key.needles")))
    if any(round.moves for round in crown.rounds):
        disc = element("g", slide_disc(2), transform="translate(14 9)")
        entries.append(KeyEntry(disc, words.say("picture.key.slides_first")))
    return entries
