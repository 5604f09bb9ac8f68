"""A round or a row with its changes, and the plain stitches between each two written in.

A round is drawn as a ring, clockwise from the marker at the bottom; a row, and a round too long for a ring, in lines
from right to left, each above the one before. A gap is drawn in the stitches it has, not to scale with the next.
"""

from collections.abc import Iterator, Sequence
from math import ceil
from typing import Final, NamedTuple

from roundwright.drawing.chart_symbols import (
    MARKER_ENTRY,
    arrow_around,
    arrow_left,
    boxed,
    meaning,
    stitch_marker,
    symbol,
    symbol_size,
    takes,
)
from roundwright.drawing.svg import Markup, Picture, arc, element, joined, number
from roundwright.drawing.theme import MARGIN, WIDTH, Block, KeyEntry, Theme, sheet, words
from roundwright.knitting.answers import Impossible
from roundwright.knitting.picture_address import MOST_DRAWN_CHANGES, MOST_DRAWN_STITCHES
from roundwright.knitting.rounds.round import Round

RADIUS: Final = 122.0
LARGEST_RADIUS: Final = 200.0
"""Of a ring that fits the narrowest picture."""
BAND: Final = 26.0
"""Height of the stitches."""
CHANGE: Final = 18.0
NARROWEST_GAP: Final = 20.0
"""Room for the number in it."""
WIDEST_GAP: Final = 150.0
STITCH: Final = 5.0
LINE: Final = 50.0
"""From one line to the next."""
START_GAP: Final = 10.0
"""Degrees left open at the bottom of a ring, for the marker."""
TURN: Final = 360 - START_GAP


class Part(NamedTuple):
    """Plain stitches, or a change and the stitches it takes."""

    stitch: str | None
    stitches: int


def spacing_diagram(
    each: Round, *, flat: bool = False, title: str | None = None, theme: Theme = "auto"
) -> Picture:
    """The round, or with `flat` the row, and its changes.

    Raises `Impossible` for more stitches or changes than a picture shows.
    """
    if each.before > MOST_DRAWN_STITCHES:
        raise Impossible(
            f"A picture shows {MOST_DRAWN_STITCHES} stitches at most; {each.before} can be spread without one.",
            pointer="#/stitches",
            nearest=f"{MOST_DRAWN_STITCHES} stitches",
        )
    parts = _parts(each)
    changes = sum(1 for part in parts if part.stitch)
    if changes > MOST_DRAWN_CHANGES:
        raise Impossible(
            f"A picture shows {MOST_DRAWN_CHANGES} changes at most; {changes} can be spread without one.",
            pointer="#/change",
            nearest=f"{MOST_DRAWN_CHANGES} changes",
        )
    line = "row" if flat else "round"
    ringed = not flat and _length(parts) * 57.3 / TURN <= LARGEST_RADIUS
    content = _as_ring(each, parts) if ringed else _as_lines(each, parts, marker=not flat)
    return sheet(
        "spacing",
        content,
        width=WIDTH,
        title=title or f"{each.before} to {each.after} stitches in one {line}",
        about=_about(each, parts, line),
        heads=_heads(each, ringed=ringed),
        entries=_key(parts, flat=flat),
        theme=theme,
    )


def _parts(each: Round) -> list[Part]:
    parts, at = [], 0
    for take in takes(each.steps):
        if take.place > at:
            parts.append(Part(None, take.place - at))
        parts.append(Part(take.stitch, take.uses))
        at = take.place + take.uses
    return [*parts, Part(None, each.before - at)] if at < each.before else parts


def _heads(each: Round, *, ringed: bool) -> list[str]:
    text = f"{each.text[:1].upper()}{each.text[1:]}."
    if ringed:
        return [text, "Read clockwise from the marker; the numbers are plain stitches."]
    return [
        text,
        "Read from right to left, each line and then the one above it; the numbers are plain stitches.",
    ]


def _about(each: Round, parts: Sequence[Part], line: str) -> str:
    order = ", ".join([part.stitch or str(part.stitches) for part in parts])
    return f"One {line}, {each.before} to {each.after} stitches: {each.text}. In order: {order}."


# --- a ring ---------------------------------------------------------------------------------------------------


def _size(part: Part) -> float:
    """How long a part is drawn: no gap so narrow that its number cannot be read, none so wide that it fills a line."""
    if part.stitch:
        return CHANGE * max(1.0, 0.6 * part.stitches)
    return max(NARROWEST_GAP, min(part.stitches * STITCH, WIDEST_GAP))


def _length(parts: Sequence[Part]) -> float:
    return sum([_size(part) for part in parts])


def _stretched(parts: Sequence[Part], room: float) -> list[float]:
    """How long the parts are drawn to fill the room: the gaps give and take, or, without any, the changes."""
    gaps = _length([part for part in parts if not part.stitch])
    factor = 1 + (room - _length(parts)) / gaps if gaps else room / _length(parts)
    return [_size(part) * (1.0 if part.stitch and gaps else factor) for part in parts]


def _as_ring(each: Round, parts: Sequence[Part]) -> Block:
    radius = max(RADIUS, _length(parts) * 57.3 / TURN)
    reach = radius + BAND / 2 + 20
    drawn = [*_around(parts, radius), *_ring_start(each, radius)]
    content = element("g", *drawn, transform=f"translate({number(WIDTH / 2)} {number(reach - 10)})")
    return Block(content, 2 * reach - 6)


def _around(parts: Sequence[Part], radius: float) -> Iterator[Markup]:
    angle = START_GAP / 2
    for part, long in zip(parts, _stretched(parts, radius * TURN / 57.3), strict=True):
        end = angle + long * 57.3 / radius
        middle = (angle + end) / 2
        if part.stitch:
            shy = 60 / radius
            way = arc(angle + shy, end - shy, radius)
            yield element("path", d=way, class_="s line", stroke_width=BAND + 8)
            letters = symbol_size(part.stitch, min(long, BAND))
            turn = f"rotate({number(middle)})"
            yield words(0, radius + letters * 0.35, symbol(part.stitch), letters, "on m b", transform=turn)
        else:
            way = arc(angle, end, radius)
            yield element("path", d=way, class_="s tinted", stroke_width=BAND)
            yield element("path", d=way, class_="s hair", **_dashes(long, part.stitches))
            above = 90 < middle < 270
            turn = f"rotate({number(middle + (180 if above else 0))})"
            yield words(
                0, 4.6 - radius if above else 4.6 + radius, str(part.stitches), 13, "ink m b", transform=turn
            )
        angle = end


def _dashes(long: float, stitches: int) -> dict[str, str | float]:
    """A line between each two stitches of a stretch, short so that the number can be read."""
    pitch, line = long / stitches, 0.8
    return {
        "stroke_width": BAND,
        "stroke_dasharray": f"{line} {pitch - line:.4f}",
        "stroke_dashoffset": f"{line / 2}",
    }


def _ring_start(each: Round, radius: float) -> Iterator[Markup]:
    yield stitch_marker(0, radius + BAND / 2 + 9)
    far = radius + BAND / 2 + 12
    yield arrow_around(600 / far, far)
    yield words(0, -6, f"{each.before}", 26, "ink m b")
    yield words(0, 16, f"to {each.after} sts", 14, "soft m")


# --- lines ----------------------------------------------------------------------------------------------------


def _as_lines(each: Round, parts: Sequence[Part], *, marker: bool) -> Block:
    room = WIDTH - 2 * MARGIN
    lines = _lines(parts, room)
    height = len(lines) * LINE
    drawn: list[Markup] = []
    for place, line in enumerate(lines):
        drawn.extend(_along(line, WIDTH - MARGIN, height - (place + 0.5) * LINE, room))
    right = WIDTH - MARGIN
    if marker:
        drawn.append(stitch_marker(right - 6, height + 4))
        right -= 18
    drawn.append(arrow_left(right, height + 4))
    drawn.append(words(right - 70, height + 8, f"{each.before} to {each.after} sts", 12.5, "ink b e"))
    return Block(joined(drawn), height + 22)


def _lines(parts: Sequence[Part], room: float) -> list[list[Part]]:
    """The parts in as few lines as they fit in, about alike; a line starts with a gap, if there are any."""
    count = max(1, ceil(_length(parts) / room))
    while True:
        lines = _cut(parts, _length(parts) / count)
        if all(_fits(line, room) for line in lines):
            return lines
        count += 1


def _fits(parts: Sequence[Part], room: float) -> bool:
    """Whether the parts fit, their gaps as narrow as may be."""
    gaps = sum([NARROWEST_GAP for part in parts if not part.stitch])
    return len(parts) == 1 or _length([part for part in parts if part.stitch]) + gaps <= room


def _cut(parts: Sequence[Part], share: float) -> list[list[Part]]:
    lines: list[list[Part]] = [[]]
    full = 0.0
    for part in parts:
        if full >= share * len(lines) - 1 and not (part.stitch and lines[-1] and not lines[-1][-1].stitch):
            lines.append([])
        lines[-1].append(part)
        full += _size(part)
    return lines


def _along(parts: Sequence[Part], right: float, y: float, room: float) -> Iterator[Markup]:
    for part, long in zip(parts, _stretched(parts, room), strict=True):
        left = right - long
        if part.stitch:
            yield element(
                "rect", x=left + 0.8, y=y - BAND / 2 - 4, width=long - 1.6, height=BAND + 8, class_="ink"
            )
            letters = symbol_size(part.stitch, min(long, BAND))
            yield words((left + right) / 2, y + letters * 0.35, symbol(part.stitch), letters, "on m b")
        else:
            yield element("rect", x=left, y=y - BAND / 2, width=long, height=BAND, class_="tint")
            way = f"M{number(right)} {number(y)}H{number(left)}"
            yield element("path", d=way, class_="s hair", **_dashes(long, part.stitches))
            yield words((left + right) / 2, y + 4.6, str(part.stitches), 13, "ink m b")
        right = left


# --- key ------------------------------------------------------------------------------------------------------


def _key(parts: Sequence[Part], *, flat: bool) -> list[KeyEntry]:
    gap = joined(
        (
            element("rect", x=0, y=1, width=28, height=16, class_="tint"),
            element("path", d="M28 9H0", class_="s hair", stroke_width=16, stroke_dasharray=".8 6.2"),
            words(14, 13.6, "4", 13, "ink m b"),
        )
    )
    entries = [KeyEntry(gap, "so many plain stitches")]
    entries += [
        KeyEntry(boxed(stitch), meaning(stitch))
        for stitch in dict.fromkeys(part.stitch for part in parts)
        if stitch
    ]
    if not flat:
        entries.append(MARKER_ENTRY)
    return entries
