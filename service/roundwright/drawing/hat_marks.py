"""What both pictures of a hat show: its decreases and its brim, and lengths beside it."""

from collections.abc import Iterable, Iterator, Sequence
from math import cos, gcd, inf, pi
from typing import Final, NamedTuple

from roundwright.drawing.chart_symbols import ring_of
from roundwright.drawing.svg import Markup, element, px
from roundwright.drawing.theme import text_line
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.hat.request import BrimKind
from roundwright.knitting.quantities import LengthUnit, mm_in
from roundwright.language import Words

ROLLED_SHARE: Final = 1 / 3
"""Height of a rolled brim as a share of its fabric, which rolls up a little more than once (common practice)."""
LABEL_SIZE: Final = 12.5
LABEL_HEIGHT: Final = 30.0
"""Pixels of a label of two lines, with the room under it."""


IN_EIGHTHS_BELOW: Final = 3.0
"""Inches below which a length is given in eighths, as a tape is read; others in quarters (common practice)."""


class Frame(NamedTuple):
    """The room for a drawing, in pixels, and how lengths beside it are written."""

    width: float
    max_height: float
    """Of the hat and the head; a taller hat is drawn smaller."""
    unit: LengthUnit
    words: Words
    compact: bool = False
    """In little room, with shorter labels."""


class Label(NamedTuple):
    """A length of a part of the hat: its name, the length in words, and the height of its middle, in pixels."""

    name: str
    text: str
    y: float


def in_unit(length_mm: float, unit: LengthUnit, words: Words) -> str:
    """A length as a number: tenths of a centimetre; quarters of an inch, and eighths of what is less than three."""
    value = length_mm / mm_in(unit)
    if unit == "cm":
        return words.number(value, ".1f")
    parts = 8 if value < IN_EIGHTHS_BELOW else 4
    inches, rest = divmod(round(value * parts), parts)
    if not rest:
        return str(inches)
    shared = gcd(rest, parts)
    fraction = f"{rest // shared}/{parts // shared}"
    return f"{inches} {fraction}" if inches else fraction


def with_unit(length_mm: float, unit: LengthUnit, words: Words) -> str:
    """A length as a number with its unit."""
    return words.say(f"with_unit.{unit}", number=in_unit(length_mm, unit, words))


def label_length(length_mm: float, unit: LengthUnit, words: Words) -> str:
    """The length as a label has room for it: inches by their sign where their word is long."""
    key = "picture.inches" if unit == "in" else f"with_unit.{unit}"
    return words.say(key, number=in_unit(length_mm, unit, words))


def labels(of_parts: Iterable[Label], x: float, css_class: str = "", lowest: float = inf) -> Iterator[Markup]:
    """Labels one under another, none below `lowest`; they keep clear of each other."""
    placed = sorted(of_parts, key=lambda label: label.y)
    heights: list[float] = []
    for label in placed:
        heights.append(max(label.y - 3, heights[-1] + LABEL_HEIGHT if heights else -inf))
    for index in reversed(range(len(heights))):
        heights[index] = min(heights[index], lowest)
        lowest = heights[index] - LABEL_HEIGHT
    for (name, text, _), y in zip(placed, heights, strict=True):
        yield text_line(x, y, name, LABEL_SIZE, f"ink b {css_class}".rstrip())
        yield text_line(x, y + 14, text, LABEL_SIZE, f"ink {css_class}".rstrip())


def front_decreases(crown: CrownAnswer) -> Iterator[tuple[int, float]]:
    """The decreases on the front: the index of the round, and the turn from the front, -π/2 (left) to π/2.

    The rounds begin at the back.
    """
    flat = crown.worked == "flat"
    for index, round in enumerate(crown.rounds):
        if round.after == round.before:
            continue
        ring = ring_of(round, from_behind=flat and round.number % 2 == 0)
        for mark in ring.marks:
            turn = 2 * pi * (mark.position + 0.5) / ring.stitches
            if cos(turn) < 0:
                yield index, turn - pi


def dots(points: Sequence[str]) -> Markup:
    """A dot at each point."""
    path = "".join([f"M{point}h0" for point in points])
    return element("path", d=path, class_="s line", stroke_width=3.4, stroke_linecap="round")


def brim_sign(kind: BrimKind) -> Markup:
    """The sign of a brim in the key."""
    ground = element(
        "rect",
        x=0,
        y=1,
        width=28,
        height=16,
        rx=8 if kind == "rolled" else 0,
        class_="tint line",
        stroke_width=1,
    )
    lines = {"garter": "M0 6H28M0 11H28", "ribbed": "M5 1V17M11 1V17M17 1V17M23 1V17"}
    lines["folded"] = lines["ribbed"]
    if kind not in lines:
        return ground
    return Markup(ground + element("path", d=lines[kind], class_="s softline", stroke_width=1))


def bracket(x: float, top: float, bottom: float, side: int = 1) -> Markup:
    """A bracket beside a part; `side` is -1 on the left of the hat."""
    tick = px(5 * side)
    path = f"M{px(x)} {px(top + 1)}h{tick}V{px(bottom - 1)}h{px(-5 * side)}"
    return element("path", d=path, class_="s line", stroke_width=1)
