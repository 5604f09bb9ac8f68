"""Handouts requested, and read back with general readers of HTML, Markdown and PDF."""

import json
import re
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from typing import Any, NamedTuple

import httpx
import msgspec
from markdown_it import MarkdownIt
from pypdf import PdfReader

from roundwright.language.words import ENGLISH_WORDS, Words
from roundwright.web.routes.hats import write_handout
from roundwright.wording.handout.content import Handout, HandoutRequest
from roundwright.wording.handout.html import html
from roundwright.wording.handout.pdf import typst_data
from roundwright.wording.handout.text import markdown, plain_text
from roundwright.wording.handout.typeset import typeset
from tests.support.hats import hats

REQUESTS = Path(__file__).parents[2] / "examples" / "requests"
CLASS: dict[str, Any] = json.loads((REQUESTS / "class-hats.json").read_text())
PAPERS_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""ISO 216 A4; Letter, 8.5 by 11 inches (ANSI/ASME Y14.1, ANSI A)."""
POINT_MM = 25.4 / 72
"""A point of PDF: a 72nd of an inch."""


def pdf(handout: Handout, words: Words = ENGLISH_WORDS) -> bytes:
    """The handout as a PDF, made in this process."""
    return typeset(typst_data(handout, words).decode())


FORMATS = {
    "text/markdown": markdown,
    "text/plain": plain_text,
    "text/html": html,
    "application/pdf": pdf,
}


def handout_of(**fields: Any) -> Handout:
    """The handout of a request with these fields."""
    fields.setdefault("gauge", {"stitches": 20, "rows": 28})
    fields.setdefault("sizes", [{"head": {"value": 45, "unit": "cm"}}])
    return write_handout.calculate(msgspec.json.decode(json.dumps(fields), type=HandoutRequest))


def post_handout(service: httpx.Client, accept: str | None, **changes: Any) -> httpx.Response:
    """The answer to a request for the class's handout, with some fields changed."""
    return service.post(
        "/v1/hats/handout",
        json={**CLASS, **changes},
        headers={} if accept is None else {"accept": accept},
    )


# --- reading a handout back -----------------------------------------------------------------------------------------


class HandoutNumbers(NamedTuple):
    """The numbers on a handout."""

    cast_ons: list[int]
    """Of each size."""
    crowns: list[list[tuple[int, int, list[int]]]]
    """Of each size: number, count and stitches on each needle of each round of the crown."""
    balls: list[list[int]]
    """Of each size: knitters, balls for one and balls in all."""
    boxes: int
    """Boxes on the whole handout."""
    kits: list[str]
    """Of each size: the price of a kit."""


class Page(HTMLParser):
    """What is on an HTML page: its tables row by row, its text line by line, its elements."""

    BLOCKS = ("h1", "h2", "h3", "p", "li", "legend", "title", "tr", "div")

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tables: list[list[list[str]]] = []
        self.lines: list[tuple[str, str]] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.style = ""
        self.open: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Called at the start of an element."""
        self.elements.append((tag, dict(attrs)))
        if tag == "table":
            self.tables.append([])
        elif tag == "tr":
            self.tables[-1].append([])
        elif tag in ("td", "th"):
            self.tables[-1][-1].append("")
        if tag in self.BLOCKS:
            self.lines.append((tag, ""))
        if tag not in ("meta", "input", "img"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """Called at the end of an element, which is the last one opened."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Called for text."""
        if "style" in self.open:
            self.style += data
        elif "td" in self.open or "th" in self.open:
            self.tables[-1][-1][-1] += data
        elif self.lines:
            tag, text = self.lines[-1]
            self.lines[-1] = (tag, text + data)

    def text_of(self, *tags: str) -> list[str]:
        """The text of elements of these names, in order."""
        return [text.strip() for tag, text in self.lines if tag in tags]


def rendered_markdown(text: str) -> Page:
    """Markdown as CommonMark with tables has it, by a general library."""
    return Page(MarkdownIt("commonmark").enable("table").render(text))


def numbers_in(media_type: str, content: bytes) -> HandoutNumbers:
    """The numbers of a handout, read back."""
    if media_type == "text/plain":
        return _from_lines(content.decode().splitlines(), "[ ]")
    if media_type == "application/pdf":
        pages = PdfReader(BytesIO(content)).pages
        return _from_lines("\n".join(page.extract_text() for page in pages).splitlines(), "☐")
    text = content.decode()
    page = Page(text) if media_type == "text/html" else rendered_markdown(text)
    inputs = [tag for tag, _ in page.elements if tag == "input"]
    return _from_tables(page, len(inputs) if media_type == "text/html" else text.count("☐"))


def _from_tables(page: Page, boxes: int) -> HandoutNumbers:
    """The first table is of yarn, the others are crowns."""
    cast_ons = [
        int(match[1])
        for line in page.text_of("p")
        if (match := re.match(r"Cast on (\d+); after round 1: ", line))
    ]
    shopping, *crowns = page.tables
    headings = crowns[0][0]
    count = headings.index("Count")
    number = next(column for column, heading in enumerate(headings) if heading in ("Rnd", "Round"))
    return HandoutNumbers(
        cast_ons,
        [
            [
                (int(row[number]), int(row[count]), [int(cell) for cell in row[count + 1 :]])
                for row in crown[1:]
            ]
            for crown in crowns
        ],
        [[int(row[1]), int(row[3]), int(row[4])] for row in shopping[1:]],
        boxes,
        [row[5] for row in shopping[1:]],
    )


def _from_lines(lines: list[str], box: str) -> HandoutNumbers:
    """From the lines of plain text, or of the text of a PDF."""
    numbers = HandoutNumbers([], [], [], "\n".join(lines).count(box), [])
    for line in lines:
        if cast_on := re.search(r"Cast on (\d+); after round 1: [\d + ]+", line):
            numbers.cast_ons.append(int(cast_on[1]))
            numbers.crowns.append([])
        elif row := re.fullmatch(
            rf"{re.escape(box)} +(\d+) +(?:(\d+) +(\d+(?: +\d+){{3}})  +\S.*|\S.*? (\d+) (\d+(?: \d+){{3}}))",
            line,
        ):
            count, needles = (row[2], row[3]) if row[2] else (row[4], row[5])
            numbers.crowns[-1].append(
                (int(row[1]), int(count), [int(stitches) for stitches in needles.split()])
            )
        elif yarn := re.fullmatch(r".+? +(\d+) +\d+ m, \d+ g +(\d+) +(\d+) +(\d+\.\d\d EUR)", line):
            numbers.balls.append([int(number) for number in yarn.groups()[:3]])
            numbers.kits.append(yarn[4])
    return numbers


def planned_numbers(**changes: Any) -> HandoutNumbers:
    """The numbers of the class's hats, from the answer of `/v1/hats`."""
    answer = hats(**{**CLASS, **changes})
    sizes = answer["sizes"]
    crowns = [size["crown"]["rounds"] for size in sizes]
    straight = [size["brim"]["rounds"] + size["body"]["rounds"] for size in sizes]
    return HandoutNumbers(
        [size["cast_on"]["stitches"] for size in sizes],
        [[(round["number"], round["after"], round["needles"]) for round in crown] for crown in crowns],
        [
            [line["makers"], line["each"]["balls"], line["makers"] * line["each"]["balls"]]
            for line in answer["order"]["lines"]
        ],
        sum(straight) + sum(map(len, crowns)),
        [f"{kit['price']['amount']:.2f} EUR" for kit in answer["order"]["one_basket"]["kits"]],
    )
