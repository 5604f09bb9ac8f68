"""Handouts asked for, and read back with general readers: HTML, Markdown and PDF."""

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

from roundwright.web.routes.hats import write_handout
from roundwright.wording.handout.content import Handout, HandoutRequest
from roundwright.wording.handout.html import html
from roundwright.wording.handout.pdf import typst_data
from roundwright.wording.handout.text import markdown, plain_text
from roundwright.wording.handout.typeset import typeset
from tests.knitting.hat.test_plan import hats

REQUESTS = Path(__file__).parents[2] / "examples" / "requests"
CLASS: dict[str, Any] = json.loads((REQUESTS / "class-hats.json").read_text())


def pdf(handout: Handout) -> bytes:
    """The handout as a PDF, set in this process."""
    return typeset(typst_data(handout).decode())


FORMS = {
    "text/markdown": markdown,
    "text/plain": plain_text,
    "text/html": html,
    "application/pdf": pdf,
}


def handout_of(**asked: Any) -> Handout:
    """The handout of a request, as its writers take it."""
    asked.setdefault("gauge", {"stitches": 20, "rows": 28})
    asked.setdefault("sizes", [{"head": {"value": 45, "unit": "cm"}}])
    return write_handout.calculate(msgspec.json.decode(json.dumps(asked), type=HandoutRequest))


def given_as(service: httpx.Client, accept: str | None, **changes: Any) -> httpx.Response:
    """The class's handout with some changes, as the caller accepts it."""
    return service.post(
        "/v1/hats/handout",
        json={**CLASS, **changes},
        headers={} if accept is None else {"accept": accept},
    )


# --- reading a handout back -----------------------------------------------------------------------------------------


class Told(NamedTuple):
    """What a handout tells, read back: cast-ons; for each size its crown as (round, count, needles); balls."""

    cast_ons: list[int]
    crowns: list[list[tuple[int, int, list[int]]]]
    balls: list[list[int]]
    boxes: list[int]


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
        """The parser's hook: an element begins."""
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
        """The parser's hook: an element ends, the one opened last."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """The parser's hook: text."""
        if "style" in self.open:
            self.style += data
        elif "td" in self.open or "th" in self.open:
            self.tables[-1][-1][-1] += data
        elif self.lines:
            tag, said = self.lines[-1]
            self.lines[-1] = (tag, said + data)

    def text_of(self, *tags: str) -> list[str]:
        """The text of elements of these names, in order."""
        return [said.strip() for tag, said in self.lines if tag in tags]


def rendered(text: str) -> Page:
    """Markdown as CommonMark with tables has it, by a general library."""
    return Page(MarkdownIt("commonmark").enable("table").render(text))


def from_tables(page: Page, cast_ons: list[int], boxes: list[int]) -> Told:
    """What the tables tell: the first is of yarn, the others are crowns."""
    shopping, *crowns = page.tables
    head = crowns[0][0].index("Count")
    number = next(place for place, said in enumerate(crowns[0][0]) if said in ("Rnd", "Round"))
    return Told(
        cast_ons,
        [
            [(int(row[number]), int(row[head]), [int(cell) for cell in row[head + 1 :]]) for row in crown[1:]]
            for crown in crowns
        ],
        [[int(row[1]), int(row[-2]), int(row[-1])] for row in shopping[1:]],
        boxes,
    )


def from_lines(lines: list[str], box: str) -> Told:
    """What the lines of plain text, or of the text of a PDF, tell."""
    told = Told([], [], [], [])
    for line in lines:
        if said := re.search(r"Cast on (\d+): [\d + ]+ on the needles", line):
            told.cast_ons.append(int(said[1]))
            told.crowns.append([])
        elif row := re.fullmatch(
            rf"{re.escape(box)} +(\d+) +(?:(\d+) +(\d+(?: +\d+){{3}})  +\S.*|\S.*? (\d+) (\d+(?: \d+){{3}}))",
            line,
        ):
            count, needles = (row[2], row[3]) if row[2] else (row[4], row[5])
            told.crowns[-1].append((int(row[1]), int(count), [int(held) for held in needles.split()]))
        elif bought := re.fullmatch(r"(.+?) +(\d+) +\d+ m, \d+ g +(\d+) +(\d+)", line):
            told.balls.append([int(number) for number in bought.groups()[1:]])
    told.boxes.append("\n".join(lines).count(box))
    return told


def read_back(form: str, content: bytes) -> Told:
    """What a form tells."""
    if form == "text/plain":
        return from_lines(content.decode().splitlines(), "[ ]")
    if form == "application/pdf":
        pages = PdfReader(BytesIO(content)).pages
        return from_lines("\n".join(page.extract_text() for page in pages).splitlines(), "☐")
    page = Page(content.decode()) if form == "text/html" else rendered(content.decode())
    cast_ons = [
        int(said[1]) for line in page.text_of("p") if (said := re.match(r"Cast on (\d+): .* needles", line))
    ]
    inputs = [element for element, _ in page.elements if element == "input"]
    boxes = len(inputs) if form == "text/html" else content.decode().count("☐")
    return from_tables(page, cast_ons, [boxes])


def as_planned(**changes: Any) -> Told:
    """What `/v1/hats` says of the class."""
    answer = hats(**{**CLASS, **changes})
    sizes, lines = answer["sizes"], answer["order"]["lines"]
    return Told(
        [size["cast_on"]["stitches"] for size in sizes],
        [[(one["number"], one["after"], one["needles"]) for one in size["crown"]["rounds"]] for size in sizes],
        [
            [line["makers"], line["each"]["balls"], line["makers"] * line["each"]["balls"]]
            for line in lines
        ],
        [sum(size["brim"]["rounds"] + size["body"]["rounds"] + len(size["crown"]["rounds"]) for size in sizes)],
    )  # fmt: skip
