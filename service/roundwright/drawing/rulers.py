"""Rulers: one up the side of a hat and one along its edge, in centimetres or inches."""

from collections.abc import Iterator
from typing import Final, NamedTuple

from roundwright.drawing.outline import Outline, Projection
from roundwright.drawing.svg import Markup, element, px
from roundwright.drawing.theme import text_line
from roundwright.knitting.quantities import MM_IN, LengthUnit

RULER_STEPS: Final = {"cm": (1, 2, 5, 10, 20, 50, 100), "in": (1, 2, 5, 10, 20, 50)}
"""Distances between two numbers of a ruler, in its unit."""


class Ruler(NamedTuple):
    """The marks of a ruler."""

    unit_px: float
    """Pixels of one unit."""
    step: int
    """Units from number to number."""
    fine_step: float
    """Units from tick to tick."""

    def ticks(self, length_px: float) -> Iterator[tuple[float, str]]:
        """The ticks of a ruler of this length: pixels from its start, and the number there or an empty text."""
        for index in range(int(length_px / self.unit_px / self.fine_step + 1e-9) + 1):
            value = index * self.fine_step
            is_numbered = abs(value / self.step - round(value / self.step)) < 1e-9
            yield value * self.unit_px, f"{value:g}" if is_numbered else ""


def _ruler(projection: Projection, unit: LengthUnit) -> Ruler:
    unit_px = MM_IN[unit] * projection.pixels_per_mm
    steps = RULER_STEPS[unit]
    step = next((step for step in steps if step * unit_px >= 20), steps[-1])
    if step == 1:
        return Ruler(unit_px, step, 0.25 if unit == "in" else 0.5)
    return Ruler(unit_px, step, 1.0 if step <= 5 else step / 5)


def rulers(outline: Outline, projection: Projection, unit: LengthUnit) -> Iterator[Markup]:
    """A ruler up the left side and one along the edge."""
    ruler, edge_y = _ruler(projection, unit), projection.edge_y
    x = projection.x(-max(outline.radius_mm, outline.head_radius_mm)) - 18
    height = outline.top_mm * projection.pixels_per_mm
    path, numbers = f"M{px(x)} {px(edge_y)}v{px(-height)}", []
    for distance, number in ruler.ticks(height):
        path += f"M{px(x)} {px(edge_y - distance)}h{-9 if number else -5}"
        if number:
            numbers.append(text_line(x - 12, edge_y - distance + 4, number, 11.5, "ink e"))
    yield element("path", d=path, class_="s line", stroke_width=1)
    yield from numbers
    yield text_line(x - 12, edge_y + 20, unit, 11.5, "soft e")

    left, y = projection.x(-outline.radius_mm), edge_y + 16
    width = 2 * outline.radius_mm * projection.pixels_per_mm
    path, numbers = f"M{px(left)} {px(y)}h{px(width)}", []
    for distance, number in ruler.ticks(width):
        path += f"M{px(left + distance)} {px(y)}v{9 if number else 5}"
        if number:
            numbers.append(text_line(left + distance, y + 21, number, 11.5, "ink m"))
    yield element("path", d=path, class_="s line", stroke_width=1)
    yield from numbers
