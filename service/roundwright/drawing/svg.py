"""SVG elements, well-formed by construction: every text that is not marked as markup is escaped.

`xml.etree.ElementTree` was tried in its place and took 1.1 to 1.4 times the time of a picture, over a quarter more for
three of the five pictures.
"""

import re
from collections.abc import Iterable
from functools import cache
from math import cos, radians, sin
from typing import Final

AttributeValue = str | float | None


class Markup(str):
    """SVG made by this module. Any other text is escaped before it becomes part of it."""

    __slots__ = ()


class Picture(Markup):
    """A picture; as SVG it is a whole document, which loads nothing."""

    __slots__ = ()


_NOT_XML: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
"""Characters that XML 1.0 excludes, escaped or not (section 2.2). To compile all others takes 6 ms of each start."""
_PLAIN: Final = re.compile(r"[\w .,:;#%/()*+=@!?'-]*", re.ASCII)
"""Text that needs no escaping."""


def escaped(text: str) -> str:
    """The text escaped for content and for attributes; what XML excludes becomes the replacement character."""
    if _PLAIN.fullmatch(text):
        return text
    text = _NOT_XML.sub("\ufffd", text)
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def element(name: str, *content: str, **attributes: AttributeValue) -> Markup:
    """An element. `class_` is written class, `font_size` font-size; an attribute that is None is left out."""
    written = "".join(
        [
            f' {_attribute_name(key)}="{_attribute_text(value)}"'
            for key, value in attributes.items()
            if value is not None
        ]
    )
    inside = joined(content) if content else ""
    return Markup(f"<{name}{written}>{inside}</{name}>" if inside else f"<{name}{written}/>")


def joined(parts: Iterable[str]) -> Markup:
    """The parts one after the other; parts that are not markup are escaped."""
    return Markup("".join([part if isinstance(part, Markup) else escaped(part) for part in parts]))


@cache
def _attribute_name(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def _attribute_text(value: str | float) -> str:
    if not isinstance(value, str):
        return px(value)
    return value if isinstance(value, Markup) else escaped(value)


def px(value: float) -> str:
    """A length or coordinate in pixels, to a tenth, which is as fine as the eye can see."""
    return f"{value:.1f}".removesuffix(".0")


# --- around a centre ----------------------------------------------------------------------------------------

RADIAN: Final = 57.3
"""Degrees of the angle whose arc is as long as the radius."""


def point_at(angle: float, radius: float) -> tuple[float, float]:
    """A point around the origin; `angle` in degrees clockwise from straight below, the way rounds are read."""
    turn = radians(angle)
    return -radius * sin(turn), radius * cos(turn)


def path_point(angle: float, radius: float) -> str:
    """The same point as text for a path."""
    x, y = point_at(angle, radius)
    return f"{px(x)} {px(y)}"


def arc(start: float, end: float, radius: float) -> str:
    """The path of an arc clockwise from one angle to another, less than a full turn."""
    large = 1 if end - start > 180 else 0
    return f"M{path_point(start, radius)}A{px(radius)} {px(radius)} 0 {large} 1 {path_point(end, radius)}"
