"""The rings of a round chart: where they lie, their cells, and their numbers.

A ring is read clockwise from a gap at the bottom. In the gap each round has its number where it begins and its count
where it ends; where the picture is shown small, some are left out and the others are larger.
"""

from collections.abc import Iterator, Sequence
from math import radians, sin, sqrt
from typing import Final, NamedTuple

from roundwright.drawing.chart_symbols import Ring, symbol, symbol_size
from roundwright.drawing.svg import Markup, arc, around, element, number
from roundwright.drawing.theme import MARGIN, larger

GAP: Final = 36.0
"""Degrees left open at the bottom for the numbers."""
START: Final = GAP / 2
TURN: Final = 360 - GAP
SMALLEST_HOLE: Final = 54.0
LEAST_RADIUS: Final = 150.0
THINNEST: Final = 7.5
"""Height of a ring: its numbers are read at the usual size."""
THICKEST: Final = 24.0
RINGS_HEIGHT: Final = 180.0
"""What the rings take together where they are neither too thin nor too thick for it."""
NARROWEST_CELL: Final = 4.2
READABLE: Final = 8.5
"""Pixels a line of numbers needs; where rings are shown smaller, some of the numbers are left out."""
OUTSIDE: Final = 34.0
"""Room around the rings for what is written there."""


class Frame(NamedTuple):
    """Where the rings lie."""

    outer: float
    thickness: float
    grown: float
    """How much larger than usual what is written around the rings is, on a wide picture."""

    @property
    def pen(self) -> float:
        """How much broader than usual lines are."""
        return sqrt(self.grown)

    @property
    def reach(self) -> float:
        """Radius of the rings and what is written around them."""
        return self.outer + OUTSIDE * self.grown

    def middle(self, place: int) -> float:
        """Radius of the middle of a ring; the first has place 0."""
        return self.outer - (place + 0.5) * self.thickness


def frame_for(stitches: int, rings: Sequence[Ring]) -> Frame:
    """Where the rings of a crown on so many stitches lie."""
    count = max(len(rings), 1)
    thickness = min(max(RINGS_HEIGHT / (count + 1), THINNEST), THICKEST)
    widest = max((stitches, *(each.stitches for each in rings)))
    rings_height = count * thickness
    hole = SMALLEST_HOLE * larger(2 * (SMALLEST_HOLE + rings_height + OUTSIDE + MARGIN))
    inner = max(hole, LEAST_RADIUS - rings_height, widest * NARROWEST_CELL * 57.3 / TURN - rings_height)
    outer = inner + rings_height
    return Frame(outer, thickness, grown=larger(2 * (outer + OUTSIDE + MARGIN)))


def angle_at(place: float, stitches: int) -> float:
    """The angle so many stitches into a ring."""
    return START + TURN * place / stitches


# --- cells and marks ------------------------------------------------------------------------------------------


def cells(stitches: int, rings: Sequence[Ring], frame: Frame) -> Iterator[Markup]:
    """The lines between the rings and, as dashes across each, between its cells."""
    end = START + TURN
    edges = [arc(START, end, frame.outer - place * frame.thickness) for place in range(len(rings) + 1)]
    yield element("path", d="".join(edges), class_="s hair", stroke_width=0.6)
    yield _ticks(stitches, frame.outer + 3, 6)
    for place, each in enumerate(rings):
        yield _ticks(each.stitches, frame.middle(place), frame.thickness)


def _ticks(stitches: int, radius: float, height: float) -> Markup:
    line = 0.7
    pitch = radius * TURN / 57.3 / stitches
    return element(
        "path",
        d=arc(START, START + TURN, radius),
        class_="s hair",
        stroke_width=height,
        stroke_dasharray=f"{line} {pitch - line:.4f}",
        stroke_dashoffset=f"{line / 2}",
    )


def marked(rings: Sequence[Ring], frame: Frame) -> Iterator[Markup]:
    """The cells that are worked other than plain, filled, with their symbols."""
    for place, each in enumerate(rings):
        if not each.marks:
            continue
        middle = frame.middle(place)
        cell = middle * TURN / 57.3 / each.stitches
        shy = 0.5 / (
            middle * TURN / 57.3 / each.stitches
        )  # of a cell, left open so that neighbours stay apart
        filled = [
            arc(
                angle_at(mark.place + shy, each.stitches),
                angle_at(mark.place + 1 - shy, each.stitches),
                middle,
            )
            for mark in each.marks
        ]
        yield element("path", d="".join(filled), class_="s line", stroke_width=frame.thickness - 1)
        room = min(cell * 1.15, frame.thickness)
        yield element("g", *_symbols(each, middle, room), class_="on m b")


def _symbols(each: Ring, middle: float, room: float) -> Iterator[Markup]:
    for mark in each.marks:
        size = symbol_size(mark.stitch, room)
        yield element(
            "text",
            symbol(mark.stitch),
            y=middle + size * 0.35,
            font_size=size,
            transform=f"rotate({number(angle_at(mark.place + 0.5, each.stitches))})",
        )


# --- numbers --------------------------------------------------------------------------------------------------


def numbers(rings: Sequence[Ring], frame: Frame) -> Iterator[Markup]:
    """Number and count of each round, in the gap: the number where the round begins, the count where it ends."""
    size = _type_size(frame, 1)
    first: list[Markup] = []
    last: list[Markup] = []
    for place, each in enumerate(rings):
        radius = frame.middle(place) + size * 0.34
        sides = (each.stitches, each.number) if each.from_behind else (each.number, each.stitches)
        for side, said, angle, nudge in ((first, sides[0], START, 4), (last, sides[1], -START, -4)):
            x, y = around(angle, radius)
            named = (side is last) == each.from_behind
            side.append(
                element(
                    "text",
                    str(said),
                    x=x + nudge,
                    y=y - 0.1 * size,
                    class_=_kept(each, radius, frame) + (" b" if named else ""),
                )
            )
    yield element("g", *first, class_="ink n", font_size=size)
    yield element("g", *last, class_="ink n e", font_size=size)


def _type_size(frame: Frame, step: int) -> float:
    """Type size of the numbers where one in `step` is shown."""
    return min(step * frame.thickness * 0.98, 12.5 * frame.grown)


def _kept(each: Ring, radius: float, frame: Frame) -> str:
    """The class of a round's numbers: of how many rounds only one may be shown, and this still is."""
    step, letters = 1, len(f"{each.number}{each.stitches}")
    gap = 2 * radius * sin(radians(START))
    while step < MOST_LEFT_OUT and (each.number - 1) % (2 * step) == 0:
        if letters * 0.62 * _type_size(frame, 2 * step) + 10 > gap:
            break
        step *= 2
    return f"n{step}"


MOST_LEFT_OUT: Final = 32


def thinned(width: float, frame: Frame) -> str:
    """Style rules that leave numbers out, and make the others larger, where the picture is shown small."""
    rules, step = [], 1
    while step < MOST_LEFT_OUT:
        below = READABLE * width / _type_size(frame, step)
        if below < NARROWEST_SHOWN or _type_size(frame, 2 * step) == _type_size(frame, step):
            break
        hidden = ",".join(f".n{1 << power}" for power in range(step.bit_length()))
        size = number(_type_size(frame, 2 * step))
        rules.append(
            f"@media (max-width:{below:.0f}px){{{hidden}{{display:none}}.n{{font-size:{size}px}}}}\n"
        )
        step *= 2
    return "".join(rules)


NARROWEST_SHOWN: Final = 240
"""Pixels below which nobody shows a chart."""
