"""SVG elements, well-formed by construction: text is always escaped, and what is made here is marked as made.

No library: those that are kept up took 70 to 140 ms to import and 12 to 16 µs an element when tried, and one of them
leaves the escaping to its caller. This takes neither.
"""

import re
from collections.abc import Iterable
from functools import cache
from math import cos, radians, sin
from typing import Final

Value = str | float | None


class Markup(str):
    """SVG made here. Any other text is escaped before it becomes part of it."""

    __slots__ = ()


class Picture(Markup):
    """A picture, as the text of an SVG that needs nothing beside it."""

    __slots__ = ()


_UNSPEAKABLE: Final = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 cannot hold, escaped or not (section 2.2)."""
_PLAIN: Final = re.compile(r"[\w .,:;#%/()*+=@!?'-]*", re.ASCII)
"""Text that stands for itself."""


def escaped(text: str) -> str:
    """The text as XML may hold it, in content and in an attribute alike."""
    if _PLAIN.fullmatch(text):
        return text
    text = _UNSPEAKABLE.sub("\ufffd", text)
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def element(name: str, *content: str, **attributes: Value) -> Markup:
    """An element. `class_` is written class, `font_size` font-size; an attribute that is None is left out."""
    said = "".join(
        [f' {_named(key)}="{_written(value)}"' for key, value in attributes.items() if value is not None]
    )
    inside = joined(content) if content else ""
    return Markup(f"<{name}{said}>{inside}</{name}>" if inside else f"<{name}{said}/>")


def joined(parts: Iterable[str]) -> Markup:
    """The parts one after the other; those that are not made here are escaped."""
    return Markup("".join([part if isinstance(part, Markup) else escaped(part) for part in parts]))


@cache
def _named(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def _written(value: str | float) -> str:
    if not isinstance(value, str):
        return number(value)
    return value if isinstance(value, Markup) else escaped(value)


def number(value: float) -> str:
    """A length or coordinate: a tenth of a pixel is as fine as an eye can tell."""
    return f"{value:.1f}".removesuffix(".0")


# --- around a centre ----------------------------------------------------------------------------------------


def around(angle: float, radius: float) -> tuple[float, float]:
    """A point around the origin: `angle` in degrees clockwise from straight below, as rounds are read."""
    turn = radians(angle)
    return -radius * sin(turn), radius * cos(turn)


def spot(angle: float, radius: float) -> str:
    """The same point as a path says it."""
    x, y = around(angle, radius)
    return f"{number(x)} {number(y)}"


def arc(start: float, end: float, radius: float) -> str:
    """The arc clockwise from one angle to another, as a path; less than a full turn."""
    large = 1 if end - start > 180 else 0
    return f"M{spot(start, radius)}A{number(radius)} {number(radius)} 0 {large} 1 {spot(end, radius)}"
