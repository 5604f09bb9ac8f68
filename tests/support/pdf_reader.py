"""Where words and tick boxes stand on the pages of a PDF, as poppler's `pdftotext -bbox` reads them."""

import subprocess
from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple
from xml.etree import ElementTree as ET

XHTML = "{http://www.w3.org/1999/xhtml}"
BOX = "☐"
BOX_HEIGHT = 1032 / 2048
"""Height of the box over the baseline, in ems: the outline of U+2610 in DejaVu Sans Mono (read from the font)."""
BOX_FONT = (0.76, 0.24)
WORD_FONT = (0.894, 0.246)
"""Ascent and descent that poppler takes for DejaVu Sans Mono and Libertinus Serif, in ems (read from the fonts)."""
CAPITAL, DESCENDER = 0.65, 0.24
"""What letters cover over and under the baseline, in ems: capitals and the tails of p and q."""


class Ink(NamedTuple):
    """A word or a row of boxes, and the rectangle that it covers, in points from the upper left corner."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    def lies_on(self, other: "Ink") -> bool:
        """Whether the two cover a common place; a tenth of a point is the thickness of no line."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > 0.1
            and min(self.bottom, other.bottom) - max(self.top, other.top) > 0.1
        )


class PrintedPage(NamedTuple):
    """A page: its size in points, and what stands on it."""

    width: float
    height: float
    inks: tuple[Ink, ...]

    def overlaps(self) -> list[tuple[str, str]]:
        """The pairs of words and boxes that lie on each other."""
        return [(ink.text, other.text) for ink, other in combinations(self.inks, 2) if ink.lies_on(other)]

    def off_the_paper(self) -> list[str]:
        """What is not inside the page."""
        return [
            ink.text
            for ink in self.inks
            if ink.left < 0 or ink.top < 0 or ink.right > self.width or ink.bottom > self.height
        ]


def printed_pages(pdf: bytes) -> list[PrintedPage]:
    """The pages of a PDF."""
    answer = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=pdf, capture_output=True, check=True)
    return [
        PrintedPage(float(page.get("width", "0")), float(page.get("height", "0")), tuple(_inks(page)))
        for page in ET.fromstring(answer.stdout).iter(f"{XHTML}page")
    ]


def _inks(page: ET.Element) -> Iterator[Ink]:
    for word in page.iter(f"{XHTML}word"):
        left, top, right, bottom = (float(word.get(side, "0")) for side in ("xMin", "yMin", "xMax", "yMax"))
        text = word.text or ""
        ascent, descent = BOX_FONT if BOX in text else WORD_FONT
        em = (bottom - top) / (ascent + descent)
        baseline = bottom - descent * em
        if BOX in text:
            yield Ink(text, left, baseline - BOX_HEIGHT * em, right, baseline)
        else:
            yield Ink(text, left, baseline - CAPITAL * em, right, baseline + DESCENDER * em)
