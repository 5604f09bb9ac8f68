"""Rings: the layout of a round chart, its cells and its numbers.

A ring is read clockwise from a gap at the bottom. The gap holds the number of each round where it begins and its count
where it ends; where the picture is shown small, some of them are left out and the others are larger.
"""

from collections.abc import Iterator, Sequence
from math import radians, sin, sqrt
from typing import Final, NamedTuple

from roundwright.drawing.chart_symbols import Ring, symbol, symbol_size
from roundwright.drawing.svg import RADIAN, Markup, arc, element, point_at, px
from roundwright.drawing.theme import MARGIN, text_scale

GAP: Final = 36.0
"""Degrees left open at the bottom for the numbers."""
START: Final = GAP / 2
TURN: Final = 360 - GAP
MIN_HOLE: Final = 54.0
MIN_RADIUS: Final = 150.0
MIN_THICKNESS: Final = 7.5
"""Height of a ring at which its numbers are readable in a picture at its usual size."""
MAX_THICKNESS: Final = 24.0
RINGS_HEIGHT: Final = 180.0
"""Height of all rings together, as long as none is too thin or too thick."""
MIN_CELL: Final = 4.2
READABLE: Final = 8.5
"""Pixels on the screen that a line of numbers needs; in a smaller picture some of the numbers are left out."""
OUTSIDE: Final = 34.0
"""Room around the rings for text."""
MAX_NUMBER_STEP: Final = 32
"""Where the fewest numbers are shown, one of so many rounds has its number."""
MIN_SHOWN_WIDTH: Final = 240
"""Pixels on the screen of the smallest picture that numbers are made readable for."""


class RingLayout(NamedTuple):
    """Where the rings lie, in pixels."""

    outer: float
    """Outer radius of the first ring."""
    thickness: float
    """Of each ring."""
    scale: float
    """Scale of the text around the rings, over 1 on a wide picture."""

    @property
    def line_scale(self) -> float:
        """Scale of the width of lines."""
        return sqrt(self.scale)

    @property
    def reach(self) -> float:
        """Radius of the rings and the text around them."""
        return self.outer + OUTSIDE * self.scale

    def middle(self, index: int) -> float:
        """Radius of the middle of a ring; the first has index 0."""
        return self.outer - (index + 0.5) * self.thickness


def ring_layout(stitches: int, rings: Sequence[Ring]) -> RingLayout:
    """The layout of the rings of a crown that begins with so many stitches."""
    count = max(len(rings), 1)
    thickness = min(max(RINGS_HEIGHT / (count + 1), MIN_THICKNESS), MAX_THICKNESS)
    most_stitches = max((stitches, *(ring.stitches for ring in rings)))
    rings_height = count * thickness
    hole = MIN_HOLE * text_scale(2 * (MIN_HOLE + rings_height + OUTSIDE + MARGIN))
    inner = max(hole, MIN_RADIUS - rings_height, most_stitches * MIN_CELL * RADIAN / TURN - rings_height)
    outer = inner + rings_height
    return RingLayout(outer, thickness, scale=text_scale(2 * (outer + OUTSIDE + MARGIN)))


def angle_at(position: float, stitches: int) -> float:
    """The angle at a position, in stitches from the start of a ring."""
    return START + TURN * position / stitches


# --- cells and symbols ----------------------------------------------------------------------------------------


def cells(stitches: int, rings: Sequence[Ring], layout: RingLayout) -> Iterator[Markup]:
    """The lines between the rings and, as dashes across each ring, between its cells."""
    end = START + TURN
    edges = [arc(START, end, layout.outer - index * layout.thickness) for index in range(len(rings) + 1)]
    yield element("path", d="".join(edges), class_="s hair", stroke_width=0.6)
    yield _ticks(stitches, layout.outer + 3, 6)
    for index, ring in enumerate(rings):
        yield _ticks(ring.stitches, layout.middle(index), layout.thickness)


def _ticks(stitches: int, radius: float, height: float) -> Markup:
    line = 0.7
    cell = _cell_width(stitches, radius)
    return element(
        "path",
        d=arc(START, START + TURN, radius),
        class_="s hair",
        stroke_width=height,
        stroke_dasharray=f"{line} {cell - line:.4f}",
        stroke_dashoffset=f"{line / 2}",
    )


def _cell_width(stitches: int, radius: float) -> float:
    return radius * TURN / RADIAN / stitches


def marked_cells(rings: Sequence[Ring], layout: RingLayout) -> Iterator[Markup]:
    """The cells of stitches that are not plain, filled, with their symbols."""
    for index, ring in enumerate(rings):
        if not ring.marks:
            continue
        middle = layout.middle(index)
        cell = _cell_width(ring.stitches, middle)
        inset = 0.5 / cell  # of a cell, so that neighbours stay apart
        arcs = [
            arc(
                angle_at(mark.position + inset, ring.stitches),
                angle_at(mark.position + 1 - inset, ring.stitches),
                middle,
            )
            for mark in ring.marks
        ]
        yield element("path", d="".join(arcs), class_="s line", stroke_width=layout.thickness - 1)
        room = min(cell * 1.15, layout.thickness)
        yield element("g", *_symbols(ring, middle, room), class_="on m b")


def _symbols(ring: Ring, middle: float, room: float) -> Iterator[Markup]:
    for mark in ring.marks:
        size = symbol_size(mark.stitch, room)
        yield element(
            "text",
            symbol(mark.stitch),
            y=middle + size * 0.35,
            font_size=size,
            transform=f"rotate({px(angle_at(mark.position + 0.5, ring.stitches))})",
        )


# --- numbers --------------------------------------------------------------------------------------------------


def ring_numbers(rings: Sequence[Ring], layout: RingLayout) -> Iterator[Markup]:
    """Number and count of each round in the gap: the number where the round begins, the count where it ends."""
    size = _number_size(layout, 1)
    starts: list[Markup] = []
    ends: list[Markup] = []
    for index, ring in enumerate(rings):
        radius = layout.middle(index) + size * 0.34
        begins, finishes = (ring.stitches, ring.number) if ring.from_behind else (ring.number, ring.stitches)
        for texts, value, angle, shift in ((starts, begins, START, 4), (ends, finishes, -START, -4)):
            x, y = point_at(angle, radius)
            is_number = (texts is ends) == ring.from_behind
            css_class = _step_class(ring, radius, layout) + (" b" if is_number else "")
            texts.append(element("text", str(value), x=x + shift, y=y - 0.1 * size, class_=css_class))
    yield element("g", *starts, class_="ink n", font_size=size)
    yield element("g", *ends, class_="ink n e", font_size=size)


def _number_size(layout: RingLayout, step: int) -> float:
    """Type size of the numbers where every `step`th round has its number."""
    return min(step * layout.thickness * 0.98, 12.5 * layout.scale)


def _step_class(ring: Ring, radius: float, layout: RingLayout) -> str:
    """The class of a ring's numbers: `n4` where they are still shown if only every fourth round has numbers."""
    step, letters = 1, len(f"{ring.number}{ring.stitches}")
    gap = 2 * radius * sin(radians(START))
    while step < MAX_NUMBER_STEP and (ring.number - 1) % (2 * step) == 0:
        if letters * 0.62 * _number_size(layout, 2 * step) + 10 > gap:
            break
        step *= 2
    return f"n{step}"


def small_picture_css(width: float, layout: RingLayout) -> str:
    """Style rules that leave numbers out, and enlarge the others, where the picture is shown small."""
    rules, step = [], 1
    while step < MAX_NUMBER_STEP:
        max_width = READABLE * width / _number_size(layout, step)
        if max_width < MIN_SHOWN_WIDTH or _number_size(layout, 2 * step) == _number_size(layout, step):
            break
        hidden = ",".join(f".n{1 << power}" for power in range(step.bit_length()))
        size = px(_number_size(layout, 2 * step))
        rules.append(
            f"@media (max-width:{max_width:.0f}px){{{hidden}{{display:none}}.n{{font-size:{size}px}}}}\n"
        )
        step *= 2
    return "".join(rules)
