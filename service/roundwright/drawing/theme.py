"""Theme: the look of every picture, its light and dark colours, its type, its heading and its key.

Whatever differs in colour differs in shape, weight or words too, and text has the contrast of WCAG 2.2 (4.5 to 1) in
both schemes. The light colours stand outside the media query, for renderers without `prefers-color-scheme`.
"""

import re
from collections.abc import Sequence
from functools import cache
from typing import Final, Literal, NamedTuple
from unicodedata import east_asian_width

from roundwright.drawing.svg import AttributeValue, Markup, Picture, element, joined, px

WIDTH: Final = 480.0
"""Pixels of the narrowest picture, in its own units."""
SHOWN_SCALE: Final = 4 / 3
"""A picture whose page sets no width is shown larger by this."""
MARGIN: Final = 16.0

Theme = Literal["auto", "light", "dark"]


class Palette(NamedTuple):
    """Colours by their use."""

    paper: str  # under everything
    ink: str  # text, outlines, decreases
    soft: str  # lesser text
    hair: str  # lines between stitches
    tint: str  # every other section, and fabric
    pin: str  # needles
    slide: str  # stitches that are slid


LIGHT: Final = Palette(
    paper="#fcf8ef",
    ink="#2a2a35",
    soft="#5d5b66",
    hair="#a79e8d",
    tint="#ece2cd",
    pin="#2d5d86",
    slide="#a63d1f",
)
DARK: Final = Palette(
    paper="#20222b",
    ink="#efe8da",
    soft="#b3aea6",
    hair="#6d6c70",
    tint="#33353f",
    pin="#8fc1ea",
    slide="#ffab8a",
)

_STYLE: Final = """\
.paper,.on{{fill:{paper}}}
.ink{{fill:{ink}}}
.soft{{fill:{soft}}}
.tint{{fill:{tint}}}
.pin{{fill:{pin}}}
.slide{{fill:{slide}}}
.line{{stroke:{ink}}}
.softline{{stroke:{soft}}}
.hair{{stroke:{hair}}}
.tinted{{stroke:{tint}}}
.paperline{{stroke:{paper}}}
.pinline{{stroke:{pin}}}
.slideline{{stroke:{slide}}}
"""
_TYPE: Final = """\
text{{font-family:"Gill Sans","Gill Sans MT","Trebuchet MS","Noto Sans","DejaVu Sans",sans-serif;\
font-variant-numeric:tabular-nums lining-nums}}
.s{{fill:none}}
.m{{text-anchor:middle}}
.e{{text-anchor:end}}
.b{{font-weight:600}}
"""


@cache
def style_sheet(theme: Theme) -> str:
    """The style sheet of a theme: `auto` is light, or dark where the reader's system is dark."""
    light, dark = _STYLE.format(**LIGHT._asdict()), _STYLE.format(**DARK._asdict())
    colours = {
        "auto": f"{light}@media (prefers-color-scheme:dark){{{dark}}}\n",
        "light": light,
        "dark": dark,
    }[theme]
    return _TYPE.format() + colours


def text_line(
    x: float, y: float, text: str, size: float, css_class: str = "ink", **attributes: AttributeValue
) -> Markup:
    """A line of text; `size` is its type size in pixels."""
    return element("text", text, x=x, y=y, font_size=size, class_=css_class, **attributes)


def text_width(text: str, size: float) -> float:
    """Roughly the width of a text in a wide font."""
    wide = 0 if text.isascii() else sum([east_asian_width(letter) in "WF" for letter in text])
    return size * (0.58 * (len(text) - wide) + 1.05 * wide)


_BREAKS: Final = re.compile(r"(?<![0-9])\s+|\s+(?!(?:cm|mm|in|m|g|%)(?!\w))")
"""Blanks at which a line may end: not between a number and its unit, `20.8 cm`."""


def wrapped(text: str, size: float, width: float) -> list[str]:
    """The text in lines that fit the width; a word that is wider is broken, a number keeps its unit."""
    lines, line = [], ""
    for word in _BREAKS.split(text.strip()):
        rest = word
        if line and text_width(f"{line} {rest}", size) <= width:
            line = f"{line} {rest}"
            continue
        if line:
            lines.append(line)
        while text_width(rest, size) > width and len(rest) > 1:
            letters = max(1, int(len(rest) * width / text_width(rest, size)))
            lines.append(rest[:letters])
            rest = rest[letters:]
        line = rest
    return [*lines, line] if line else lines


class KeyEntry(NamedTuple):
    """An entry of a key: a sign in a box of 30 by 18 pixels, and its meaning."""

    sign: Markup
    meaning: str


_TITLE_SIZE: Final = 18.0
_TEXT_SIZE: Final = 12.5
_LINE_HEIGHT: Final = 1.28
_KEY_BOX: Final = 38.0
_KEY_COLUMN: Final = 224


def text_scale(width: float) -> float:
    """Scale of the text of a picture of this width, so that all pictures shown equally wide are read alike."""
    return max(1.0, width / WIDTH)


class Block(NamedTuple):
    """A part of a picture as wide as it, and its height."""

    markup: Markup
    height: float


def heading(title: str, subtitles: Sequence[str], width: float) -> Block:
    """The title, and under it what the picture shows and how it is read."""
    room, y = width - 2 * MARGIN, 8.0
    lines = []
    for line in wrapped(title, _TITLE_SIZE, room):
        y += _TITLE_SIZE * _LINE_HEIGHT
        lines.append(text_line(MARGIN, y, line, _TITLE_SIZE, "ink b"))
    y += 3
    for subtitle in subtitles:
        for line in wrapped(subtitle, _TEXT_SIZE, room):
            y += _TEXT_SIZE * _LINE_HEIGHT
            lines.append(text_line(MARGIN, y, line, _TEXT_SIZE, "soft"))
    return Block(joined(lines), y + 12)


def key(entries: Sequence[KeyEntry], width: float) -> Block:
    """The key, in two columns or, on a wide picture, more."""
    columns = max(2, int((width - 2 * MARGIN) // _KEY_COLUMN))
    column_width = (width - 2 * MARGIN) / columns
    y = 10.0
    parts = [element("path", d=f"M{MARGIN} 0H{px(width - MARGIN)}", class_="hair", stroke_width=1)]
    for first in range(0, len(entries), columns):
        row_height = 0.0
        for column, entry in enumerate(entries[first : first + columns]):
            x = MARGIN + column * column_width
            parts.append(element("g", entry.sign, transform=f"translate({px(x)} {px(y)})"))
            lines = wrapped(entry.meaning, _TEXT_SIZE, column_width - _KEY_BOX - 8)
            for index, line in enumerate(lines):
                line_y = y + 13.5 + index * _TEXT_SIZE * _LINE_HEIGHT
                parts.append(text_line(x + _KEY_BOX, line_y, line, _TEXT_SIZE))
            row_height = max(row_height, 18.0, 4 + len(lines) * _TEXT_SIZE * _LINE_HEIGHT)
        y += row_height + 5
    return Block(joined(parts), y + 6)


def page(
    name: str,
    content: Block,
    *,
    width: float,
    title: str,
    description: str,
    subtitles: Sequence[str],
    entries: Sequence[KeyEntry],
    theme: Theme,
    css: str = "",
) -> Picture:
    """A whole picture: heading, content, key.

    `name` begins the ids, `description` is for readers who do not see the picture, `css` are rules of this picture
    alone. Heading and key are scaled with the width.
    """
    scale = text_scale(width)
    top, bottom = heading(title, subtitles, width / scale), key(entries, width / scale)
    key_y = top.height * scale + content.height
    height = key_y + bottom.height * scale
    scaled = f"scale({scale:.3g})" if scale > 1 else ""
    svg = element(
        "svg",
        element("title", title, id=f"{name}-title"),
        element("desc", description, id=f"{name}-desc"),
        element("style", Markup(style_sheet(theme) + css)),
        element("rect", width=width, height=height, rx=8, class_="paper"),
        element("g", top.markup, transform=scaled or None),
        element("g", content.markup, transform=f"translate(0 {px(top.height * scale)})"),
        element("g", bottom.markup, transform=f"translate(0 {px(key_y)}) {scaled}".rstrip()),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {px(width)} {px(height)}",
        width=round(width * SHOWN_SCALE),
        height=round(height * SHOWN_SCALE),
        role="img",
        aria_labelledby=f"{name}-title {name}-desc",
        class_=f"roundwright {name}",
        font_size=_TEXT_SIZE,
    )
    return Picture(svg)


def figure(name: str, content: Block, *, width: float, title: str, description: str, theme: Theme) -> Picture:
    """A picture without heading and key on the paper it is printed on."""
    svg = element(
        "svg",
        element("title", title, id=f"{name}-title"),
        element("desc", description, id=f"{name}-desc"),
        element("style", Markup(style_sheet(theme))),
        content.markup,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {px(width)} {px(content.height)}",
        width=round(width * SHOWN_SCALE),
        height=round(content.height * SHOWN_SCALE),
        role="img",
        aria_labelledby=f"{name}-title {name}-desc",
        class_=f"roundwright {name}",
        font_size=_TEXT_SIZE,
    )
    return Picture(svg)
