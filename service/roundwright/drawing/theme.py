"""How every picture looks: its colours by day and by night, its type, its heading and its key.

Nothing is told by colour alone: what differs in colour differs in shape, weight or words too, and text keeps the
contrast of WCAG 2.2 (4.5 to 1) in both schemes. Colours are of the picture's own style sheet, with the light ones
outside any condition, so that a renderer without `prefers-color-scheme` shows those.
"""

from collections.abc import Sequence
from functools import cache
from typing import Final, Literal, NamedTuple
from unicodedata import east_asian_width

from roundwright.drawing.svg import Markup, Picture, element, joined, number

WIDTH: Final = 480.0
"""Narrowest picture; it is shown a third larger where nothing says how wide."""
SHOWN: Final = 4 / 3
MARGIN: Final = 16.0

Theme = Literal["auto", "light", "dark"]


class Palette(NamedTuple):
    """Colours by what they are for."""

    paper: str  # under everything
    ink: str  # text, outlines, decreases
    soft: str  # lesser text
    hair: str  # lines between stitches
    tint: str  # every other wedge, and fabric
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
_SHAPE: Final = """\
text{{font-family:"Gill Sans","Gill Sans MT","Trebuchet MS","Noto Sans","DejaVu Sans",sans-serif;\
font-variant-numeric:tabular-nums lining-nums}}
.s{{fill:none}}
.m{{text-anchor:middle}}
.e{{text-anchor:end}}
.b{{font-weight:600}}
"""


@cache
def style(theme: Theme) -> str:
    """The style sheet of a theme: `auto` is light, and dark where the reader's system is."""
    day, night = _STYLE.format(**LIGHT._asdict()), _STYLE.format(**DARK._asdict())
    colours = {
        "auto": f"{day}@media (prefers-color-scheme:dark){{{night}}}\n",
        "light": day,
        "dark": night,
    }[theme]
    return _SHAPE.format() + colours


def words(
    x: float,
    y: float,
    said: str,
    size: float,
    kind: str = "ink",
    **attributes: str | float | None,
) -> Markup:
    """A line of text; `kind` is its classes."""
    return element("text", said, x=x, y=y, font_size=size, class_=kind, **attributes)


def width_of(text: str, size: float) -> float:
    """About how wide the text is, in a font on the wide side."""
    return size * sum([1.05 if east_asian_width(letter) in "WF" else 0.58 for letter in text])


def wrapped(text: str, size: float, width: float) -> list[str]:
    """The text in lines that fit the width; a word that does not is broken."""
    lines, line = [], ""
    for word in text.split():
        rest = word
        if line and width_of(f"{line} {rest}", size) <= width:
            line = f"{line} {rest}"
            continue
        if line:
            lines.append(line)
        while width_of(rest, size) > width and len(rest) > 1:
            fits = max(1, int(len(rest) * width / width_of(rest, size)))
            lines.append(rest[:fits])
            rest = rest[fits:]
        line = rest
    return [*lines, line] if line else lines


class KeyEntry(NamedTuple):
    """An entry of a key: something drawn in a box of 30 by 18, and what it means."""

    drawn: Markup
    meaning: str


_TITLE_SIZE: Final = 18.0
_TEXT_SIZE: Final = 12.5
_LINE: Final = 1.28
_KEY_BOX: Final = 38.0


def larger(width: float) -> float:
    """How much larger than usual the words of a picture of this width are: shown small, all are read alike."""
    return max(1.0, width / WIDTH)


class Block(NamedTuple):
    """Something drawn, and how high it is."""

    drawn: Markup
    height: float


def heading(title: str, lines: Sequence[str], width: float) -> Block:
    """The title, and under it what the picture is and how it is read."""
    room, y = width - 2 * MARGIN, 8.0
    drawn = []
    for line in wrapped(title, _TITLE_SIZE, room):
        y += _TITLE_SIZE * _LINE
        drawn.append(words(MARGIN, y, line, _TITLE_SIZE, "ink b"))
    y += 3
    for text in lines:
        for line in wrapped(text, _TEXT_SIZE, room):
            y += _TEXT_SIZE * _LINE
            drawn.append(words(MARGIN, y, line, _TEXT_SIZE, "soft"))
    return Block(joined(drawn), y + 12)


def key(entries: Sequence[KeyEntry], width: float) -> Block:
    """The key, in two columns or, where there is room, more."""
    columns = max(2, int((width - 2 * MARGIN) // 224))
    column = (width - 2 * MARGIN) / columns
    y, drawn = (
        10.0,
        [element("path", d=f"M{MARGIN} 0H{number(width - MARGIN)}", class_="hair", stroke_width=1)],
    )
    for first in range(0, len(entries), columns):
        lowest = 0.0
        for place, entry in enumerate(entries[first : first + columns]):
            x = MARGIN + place * column
            lines = wrapped(entry.meaning, _TEXT_SIZE, column - _KEY_BOX - 8)
            top = y + 13.5
            drawn.append(element("g", entry.drawn, transform=f"translate({number(x)} {number(y)})"))
            drawn.extend(
                words(x + _KEY_BOX, top + number_ * _TEXT_SIZE * _LINE, line, _TEXT_SIZE)
                for number_, line in enumerate(lines)
            )
            lowest = max(lowest, 18.0, 4 + len(lines) * _TEXT_SIZE * _LINE)
        y += lowest + 5
    return Block(joined(drawn), y + 6)


def sheet(
    kind: str,
    content: Block,
    *,
    width: float,
    title: str,
    about: str,
    heads: Sequence[str],
    entries: Sequence[KeyEntry],
    theme: Theme,
    rules: str = "",
) -> Picture:
    """A whole picture: heading, content, key.

    `kind` names it among others on a page, `about` is its description for those who do not see it, `heads` the lines
    under its title, `rules` are style rules of its own. On a wide picture heading and key grow a little with it.
    """
    grown = larger(width)
    top, bottom = heading(title, heads, width / grown), key(entries, width / grown)
    below = top.height * grown + content.height
    height = below + bottom.height * grown
    svg = element(
        "svg",
        element("title", title, id=f"{kind}-title"),
        element("desc", about, id=f"{kind}-desc"),
        element("style", Markup(style(theme) + rules)),
        element("rect", width=width, height=height, rx=8, class_="paper"),
        element("g", top.drawn, transform=f"scale({grown:.3g})" if grown > 1 else None),
        element("g", content.drawn, transform=f"translate(0 {number(top.height * grown)})"),
        element(
            "g",
            bottom.drawn,
            transform=f"translate(0 {number(below)})" + (f" scale({grown:.3g})" if grown > 1 else ""),
        ),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=round(width * SHOWN),
        height=round(height * SHOWN),
        role="img",
        aria_labelledby=f"{kind}-title {kind}-desc",
        class_=f"roundwright {kind}",
        font_size=_TEXT_SIZE,
    )
    return Picture(svg)
