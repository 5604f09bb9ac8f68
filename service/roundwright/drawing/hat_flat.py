"""A hat laid flat: half of each round's circumference against the height of the rounds, with its measures."""

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from math import pi
from typing import Final, NamedTuple

from roundwright.drawing.hat_marks import (
    LABEL_SIZE,
    Frame,
    Label,
    bracket,
    dots,
    front_decreases,
    label_length,
    labels,
)
from roundwright.drawing.svg import Markup, element, joined, px
from roundwright.drawing.theme import Block, text_line, text_width
from roundwright.knitting.hat.fabric import LONGEST_SLANT_MM, FabricRow, fabric_rows, hidden_mm
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import Brim

COLUMNS: Final = 14
"""Columns of stitches across the hat."""
MAX_RIBS: Final = 40
"""Ribs drawn across the brim: more than that look like one area."""
LEFT_WIDTH: Final = 84.0
RIGHT_WIDTH: Final = 84.0
COMPACT_LEFT_WIDTH: Final = 12.0
AT_BRACKET: Final = 24.0
"""The room for a bracket between the hat and the name of a part, and for the edge of the picture."""
BOLD: Final = 1.15
"""How much wider bold letters are."""


class Corner(NamedTuple):
    """A place of the outline."""

    half_mm: float
    """Half of the width, laid flat: a quarter of the circumference."""
    height_mm: float
    """Above the cast-on edge."""


class Sheet(NamedTuple):
    """A hat laid flat and where it lies on the picture."""

    rows: tuple[FabricRow, ...]
    corners: tuple[Corner, ...]
    axis_x: float
    edge_y: float
    scale: float
    """Pixels of a millimetre."""

    def x(self, across_mm: float) -> float:
        """Pixels from the left."""
        return self.axis_x + self.scale * across_mm

    def y(self, height_mm: float) -> float:
        """Pixels from the top."""
        return self.edge_y - self.scale * height_mm

    def point(self, across_mm: float, height_mm: float) -> str:
        """A place, as text for a path."""
        return f"{px(self.x(across_mm))} {px(self.y(height_mm))}"

    def path(self, across: float, corners: Sequence[Corner]) -> str:
        """The path of a column of stitches; `across` is -1 at the left side and 1 at the right."""
        return "M" + "L".join([self.point(across * corner.half_mm, corner.height_mm) for corner in corners])


def flat_drawing(plan: HatPlan, brim: Brim, frame: Frame) -> Block:
    """The hat laid flat, the brim uncurled and unfolded, with its width and the height of its parts."""
    rows = fabric_rows(plan)
    corners = flat_corners(rows)
    widest, tallest = 2 * max(corner.half_mm for corner in corners), corners[-1].height_mm
    left = COMPACT_LEFT_WIDTH if frame.compact else LEFT_WIDTH
    room = frame.width - left - _right_width(rows, frame)
    scale = min(room / widest, frame.max_height / max(tallest, 1.0))
    sheet = Sheet(rows, corners, left + room / 2, 10 + scale * tallest, scale)
    markup = joined((*_fabric(sheet, plan, brim), *_measures(sheet, frame)))
    return Block(markup, sheet.edge_y + (42 if widest <= 2 * corners[0].half_mm + 2 else 58))


def _right_width(rows: Sequence[FabricRow], frame: Frame) -> float:
    """The room for the names of the parts, which are long words in some languages, on the right."""
    names = [frame.words.say(f"picture.part.{part}") for part in part_heights(rows)]
    return max(RIGHT_WIDTH, AT_BRACKET + BOLD * max(text_width(name, LABEL_SIZE) for name in names))


def flat_corners(rows: Sequence[FabricRow]) -> tuple[Corner, ...]:
    """The outline from the edge to the top: where the rounds of each count begin to be as wide as it, and end.

    A change of count begins above the rounds before it, and its own rounds run straight to their width over
    `LONGEST_SLANT_MM` at most: a part is as wide as its count up to where the next begins.
    """
    corners, height_mm = [Corner(rows[0].circumference_mm / 4, 0.0)], 0.0
    for circumference_mm, run in groupby(rows, key=lambda row: row.circumference_mm):
        run_mm = sum(row.height_mm for row in run)
        if height_mm and run_mm > LONGEST_SLANT_MM:
            corners.append(Corner(circumference_mm / 4, height_mm + LONGEST_SLANT_MM))
        height_mm += run_mm
        corners.append(Corner(circumference_mm / 4, height_mm))
    return tuple(corners)


def part_heights(rows: Sequence[FabricRow]) -> dict[str, tuple[float, float]]:
    """Where each part begins and ends above the cast-on edge."""
    heights, height_mm = {}, 0.0
    for part, run in groupby(rows, key=lambda row: row.part):
        begin_mm, height_mm = height_mm, height_mm + sum(row.height_mm for row in run)
        heights[str(part)] = (begin_mm, height_mm)
    return heights


def _fabric(sheet: Sheet, plan: HatPlan, brim: Brim) -> Iterator[Markup]:
    corners, parts = sheet.corners, part_heights(sheet.rows)
    outline = sheet.path(-1, corners) + sheet.path(1, corners[::-1]).replace("M", "L", 1) + "Z"
    yield element("path", d=outline, class_="tint")
    brim_top = parts.get("brim", (0.0, 0.0))[1]
    textured = 0.0 if brim.edge == "rolled" else brim_top
    above = _above(corners, textured)
    columns = [sheet.path(2 * column / COLUMNS - 1, above) for column in range(1, COLUMNS)]
    yield element("path", d="".join(columns), class_="s hair", stroke_width=0.7)
    if textured:
        yield element(
            "path", d="".join(_texture(sheet, plan, brim, textured)), class_="s softline", stroke_width=1
        )
    crown_from, crown_to = parts.get("crown", (0.0, 0.0))
    rounds = len(plan.crown.rounds)
    marks = [
        sheet.point(
            half_at(corners, height) * 2 * turn / pi,
            height,
        )
        for index, turn in front_decreases(plan.crown)
        for height in [crown_from + (crown_to - crown_from) * (index + 0.5) / rounds]
    ]
    if marks:
        yield dots(marks)
    yield element("path", d=outline, class_="s line", stroke_width=1.8, stroke_linejoin="round")
    for height_mm in {low for low, _ in parts.values()} - {0.0}:
        yield _level(sheet, height_mm, "softline", "5 4")
    if brim.edge == "folded":
        yield _level(sheet, hidden_mm(plan), "slideline", "8 3 1 3")


def _above(corners: Sequence[Corner], height_mm: float) -> list[Corner]:
    """The outline from this height up."""
    return [
        Corner(half_at(corners, height_mm), height_mm),
        *(corner for corner in corners if corner.height_mm > height_mm),
    ]


def half_at(corners: Sequence[Corner], height_mm: float) -> float:
    """Half of the width at this height above the cast-on edge."""
    for low, high in pairwise(corners):
        if low.height_mm <= height_mm <= high.height_mm and high.height_mm > low.height_mm:
            share = (height_mm - low.height_mm) / (high.height_mm - low.height_mm)
            return low.half_mm + share * (high.half_mm - low.half_mm)
    return corners[-1].half_mm


def _level(sheet: Sheet, height_mm: float, css_class: str, dashes: str) -> Markup:
    """A line across the hat."""
    half = half_at(sheet.corners, height_mm)
    path = f"M{sheet.point(-half, height_mm)}H{px(sheet.x(half))}"
    return element("path", d=path, class_=f"s {css_class}", stroke_width=1.2, stroke_dasharray=dashes)


def _texture(sheet: Sheet, plan: HatPlan, brim: Brim, top_mm: float) -> Iterator[str]:
    half = sheet.corners[0].half_mm
    if brim.edge == "garter":
        ridges = max(1, min(plan.brim.rounds // 2, int(top_mm * sheet.scale / 4)))
        for ridge in range(ridges):
            yield f"M{sheet.point(-half, top_mm * (ridge + 0.5) / ridges)}H{px(sheet.x(half))}"
        return
    ribs = max(2, min(plan.cast_on.stitches // brim.repeat // 2, MAX_RIBS))
    for rib in range(ribs):
        yield f"M{sheet.point(half * (2 * (rib + 0.5) / ribs - 1), 0)}V{px(sheet.y(top_mm))}"


# --- measures -------------------------------------------------------------------------------------------------


def _measures(sheet: Sheet, frame: Frame) -> Iterator[Markup]:
    """The height of each part on the right, the depth in all on the left, the width below."""
    widest, unit = max(corner.half_mm for corner in sheet.corners), frame.unit
    right, left = sheet.x(widest) + 8, sheet.x(-widest) - 8
    words = frame.words
    beside = []
    for part, (low, high) in part_heights(sheet.rows).items():
        if high - low > 0.05:
            yield bracket(right, sheet.y(high), sheet.y(low))
            name, height = words.say(f"picture.part.{part}"), label_length(high - low, unit, words)
            beside.append(Label(name, height, (sheet.y(low) + sheet.y(high)) / 2))
    yield from labels(beside, right + 10, lowest=sheet.edge_y - 12)
    total = sheet.corners[-1].height_mm
    if not frame.compact:
        yield bracket(left, sheet.y(total), sheet.y(0), side=-1)
        depth = label_length(total, unit, words)
        in_all = Label(words.say("picture.in_all"), depth, (sheet.y(0) + sheet.y(total)) / 2)
        yield from labels([in_all], left - 10, "e")
    yield from _widths(sheet, frame)


def _widths(sheet: Sheet, frame: Frame) -> Iterator[Markup]:
    """The width at the edge, and that of a fuller body."""
    half_mm, y, unit = sheet.corners[0].half_mm, sheet.edge_y + 12, frame.unit
    left, right = px(sheet.x(-half_mm)), px(sheet.x(half_mm))
    path = f"M{left} {px(y - 5)}v10M{right} {px(y - 5)}v10M{left} {px(y)}H{right}"
    yield element("path", d=path, class_="s line", stroke_width=1)
    x = frame.width / 2 if frame.compact else sheet.axis_x
    words, widest = frame.words, max(corner.half_mm for corner in sheet.corners)
    width, depth = (
        label_length(length_mm, unit, words) for length_mm in (2 * half_mm, sheet.corners[-1].height_mm)
    )
    text = words.say("picture.wide", width=width)
    if frame.compact:
        text = words.say("picture.wide_and_in_all", width=width, depth=depth)
    yield text_line(x, y + 18, text, LABEL_SIZE, "ink m")
    if widest > half_mm + 1:
        body = words.say("picture.body_wide", width=label_length(2 * widest, unit, words))
        yield text_line(x, y + 34, body, LABEL_SIZE, "ink m")
