"""The crown as a round chart: a ring a round, a cell a stitch.

The rings lie around the close of the crown, the first outside, and are read clockwise from a gap at the bottom: there
the chart stands upright and, like any chart worked in the round, is read from right to left. In the gap each round has
its number where it begins and its count where it ends.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from roundwright.drawing.chart_symbols import (
    MARKER_ENTRY,
    Ring,
    alike,
    arrow_around,
    read_out,
    rings_of,
    slid_disc,
    stitch_key,
    stitch_marker,
)
from roundwright.drawing.rings import START, Frame, angle_at, cells, frame_for, marked, numbers, thinned
from roundwright.drawing.svg import Markup, Picture, arc, around, element, joined, number, spot
from roundwright.drawing.theme import MARGIN, WIDTH, Block, KeyEntry, Theme, sheet, words
from roundwright.knitting.crown.crown import CrownAnswer


def round_chart(crown: CrownAnswer, *, title: str | None = None, theme: Theme = "auto") -> Picture:
    """The round chart of a crown. Raises `Impossible` for more rounds than a chart shows."""
    flat = crown.worked == "flat"
    rings = rings_of(crown)
    frame = frame_for(crown.stitches, rings)
    width = max(WIDTH, 2 * (frame.reach + MARGIN))
    drawn = joined(
        (
            *_sections(crown, rings, frame),
            *cells(crown.stitches, rings, frame),
            *marked(rings, frame),
            *numbers(rings, frame),
            *_needles(crown, frame),
            *_moves(crown, frame),
            *_start(crown, frame, flat=flat),
            *_close(crown, frame),
        )
    )
    content = element("g", drawn, transform=f"translate({number(width / 2)} {number(frame.reach - 8)})")
    return sheet(
        "crown-chart",
        Block(content, 2 * frame.reach - 22),
        width=width,
        title=title or f"Crown on {crown.stitches} stitches",
        about=about(crown),
        heads=(summary(crown), _how_to_read(crown)),
        entries=_key(crown, rings),
        theme=theme,
        rules=thinned(width, frame),
    )


def summary(crown: CrownAnswer) -> str:
    """Style, sections and rounds of a crown in a line."""
    lines = "rows" if crown.worked == "flat" else "rounds"
    parts = f", {crown.sections} sections" if crown.sections else ""
    counts = f"{crown.stitches} to {crown.stitches_left} stitches"
    return f"{crown.style.capitalize()}{parts}, {len(crown.rounds)} {lines}, {counts}."


def about(crown: CrownAnswer) -> str:
    """A crown for those who do not see its chart."""
    said = read_out(crown.rounds, "Row" if crown.worked == "flat" else "Round")
    split = ""
    if crown.split:
        split = f" On {len(crown.split.split)} needles: {', '.join(map(str, crown.split.split))} stitches."
    return f"{summary(crown)}{split} {said} {crown.finish.text}"


def _how_to_read(crown: CrownAnswer) -> str:
    if crown.worked == "flat":
        return (
            "A ring a row, from outside in; a cell a stitch after it, as it looks from the right side. Read each row "
            "from its number: odd rows clockwise, even rows back."
        )
    return (
        "A ring a round, from outside in; a cell a stitch after it. Read clockwise from the gap: number where a round "
        "begins, count where it ends."
    )


# --- where things lie -----------------------------------------------------------------------------------------


def _sections(crown: CrownAnswer, rings: Sequence[Ring], frame: Frame) -> Iterator[Markup]:
    """Every other section tinted, and a line between each two, where the rings have them."""
    parts, seam = crown.sections, 1 if crown.worked == "flat" else 0
    if not parts:
        return
    borders = [
        tuple(
            angle_at(seam + (each.stitches - 2 * seam) * part / parts, each.stitches)
            for part in range(parts + 1)
        )
        if alike(each, parts, seam)
        else None
        for each in rings
    ]
    tints, lines = [], []
    for first, last in _stretches(borders):
        angles = borders[first]
        assert angles is not None
        outer, inner = frame.outer - first * frame.thickness, frame.outer - last * frame.thickness
        middle, width = (outer + inner) / 2, number(outer - inner)
        ways = "".join([arc(angles[part], angles[part + 1], middle) for part in range(1, parts, 2)])
        tints.append(element("path", d=ways, class_="s tinted", stroke_width=width))
        lines.extend([f"M{spot(angle, outer)}L{spot(angle, inner)}" for angle in angles[1:-1]])
    yield from tints
    if lines:
        yield element("path", d="".join(lines), class_="s softline", stroke_width=1.1)


def _stretches(borders: Sequence[tuple[float, ...] | None]) -> Iterator[tuple[int, int]]:
    """First and past the last of neighbouring rings whose sections lie alike."""
    first = 0
    for place in range(1, len(borders) + 1):
        if place == len(borders) or borders[place] != borders[first]:
            if borders[first] is not None:
                yield first, place
            first = place


# --- needles --------------------------------------------------------------------------------------------------


def _needles(crown: CrownAnswer, frame: Frame) -> Iterator[Markup]:
    """The borders between needles through the rounds, and each needle's name outside."""
    if crown.split is None:
        return
    held = [crown.split.split, *(each.needles or () for each in crown.rounds)]
    for border in range(1, len(crown.split.split)):
        angles = [angle_at(sum(needles[:border]), sum(needles)) for needles in held]
        d = _way(angles, frame)
        yield element("path", d=d, class_="s paperline", stroke_width=5 * frame.pen, stroke_linejoin="round")
        yield element("path", d=d, class_="s pinline", stroke_width=2.6 * frame.pen, stroke_linejoin="round")
        yield element("circle", r=4 * frame.pen, class_="pin", **_xy(angles[0], frame.outer + 11))
    yield from _names(crown.split.split, crown.stitches, frame)


def _way(angles: Sequence[float], frame: Frame) -> str:
    """A line inwards that has one angle before the first ring, and one in each ring."""
    way = [f"M{spot(angles[0], frame.outer + 8)}L{spot(angles[0], frame.outer)}"]
    for place, (before, angle) in enumerate(pairwise(angles)):
        edge = frame.outer - place * frame.thickness
        if abs(angle - before) * edge > SEEN_APART:
            back = 1 if angle > before else 0
            way.append(f"A{number(edge)} {number(edge)} 0 0 {back} {spot(angle, edge)}")
        way.append(f"L{spot(angle, edge - frame.thickness)}")
    return "".join(way)


SEEN_APART: Final = 6.0
"""Degrees times radius, a tenth of a pixel, from which two places are drawn as two."""


def _xy(angle: float, radius: float) -> dict[str, float]:
    x, y = around(angle, radius)
    return {"cx": x, "cy": y}


def _names(split: Sequence[int], stitches: int, frame: Frame) -> Iterator[Markup]:
    at = 0
    for needle, held in enumerate(split, start=1):
        angle = angle_at(at + held / 2, stitches)
        at += held
        above = 90 < angle < 270
        radius, size = frame.outer + 14, 12.5 * frame.grown
        yield words(
            0,
            -radius if above else radius + 0.7 * size,
            f"needle {needle}: {held}",
            size,
            "pin m b",
            transform=f"rotate({number(angle + (180 if above else 0))})",
        )


def _moves(crown: CrownAnswer, frame: Frame) -> Iterator[Markup]:
    """A disc with the stitches that are slid over a border before a round."""
    size = min(max(frame.thickness, 9), 13) * frame.pen
    for place, each in enumerate(crown.rounds):
        for move in each.moves:
            needles = each.needles or ()
            x, y = around(angle_at(sum(needles[: move.needle]), each.after), frame.middle(place))
            at = f"translate({number(x)} {number(y)})"
            yield element("g", slid_disc(move.stitches, 0.92 * size), transform=at)


# --- start and close ------------------------------------------------------------------------------------------


def _start(crown: CrownAnswer, frame: Frame, *, flat: bool) -> Iterator[Markup]:
    """The marker where the rounds begin, and which way they go."""
    x, y = around(START, frame.outer + 3)
    grown = frame.grown
    yield words(x + 4, y + 11 * grown, f"{crown.stitches} sts", 12.5 * grown, "ink b")
    if flat:
        return
    yield stitch_marker(x, y + 19 * grown, grown)
    radius = frame.outer + 3 + 15 * grown
    yield arrow_around(START + 400 * grown / radius, radius, grown)


def _close(crown: CrownAnswer, frame: Frame) -> Iterator[Markup]:
    """What becomes of the stitches left, in the middle."""
    left = crown.stitches_left
    finish = "cord" if crown.finish.kind == "cord" else "draw up"
    hole = frame.outer - len(crown.rounds) * frame.thickness
    size = min(max(hole * 0.3, 13), 24 * frame.grown)
    yield words(0, -size * 0.35, f"{left} st{'' if left == 1 else 's'}", size, "ink m b")
    yield words(0, size * 0.62, finish, size * 0.72, "soft m")


# --- key ------------------------------------------------------------------------------------------------------


def _key(crown: CrownAnswer, rings: Sequence[Ring]) -> list[KeyEntry]:
    entries = stitch_key(rings)
    if crown.sections and any(
        alike(each, crown.sections, 1 if crown.worked == "flat" else 0) for each in rings
    ):
        swatch = joined(
            (
                element("rect", x=14, y=1, width=14, height=16, class_="tint"),
                element("path", d="M14 1V17", class_="softline", stroke_width=1.1),
            )
        )
        entries.append(KeyEntry(swatch, "line between two sections; every other one is shaded"))
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
    if any(each.moves for each in crown.rounds):
        disc = element("g", slid_disc(2), transform="translate(14 9)")
        entries.append(KeyEntry(disc, "first slide so many sts to the next needle"))
    return entries
