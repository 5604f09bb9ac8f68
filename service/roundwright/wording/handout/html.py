"""The handout as a page to print: one file that asks for nothing else, with boxes that can be ticked on a phone too.

The tree is built with the standard library and written by it, so that every text is escaped.
"""

from base64 import b64encode
from collections.abc import Iterable
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Final
from xml.etree.ElementTree import Element, SubElement, tostring

from roundwright.wording.handout.content import Handout, HandoutPicture, Paper, Sheet, StraightPart
from roundwright.wording.handout.text import TO_TICK, heading, needle_heads, start, straight

PAGE_SIZES: Final = {"a4": "A4", "letter": "letter"}


def html(handout: Handout) -> bytes:
    """The handout as HTML. No script, no address, and a policy that allows its own style sheet and nothing else."""
    page = Element("html", lang="en")
    _head(page, handout)
    main = _add(SubElement(page, "body"), "main", kind="spoken" if handout.word == "Round" else "")
    _add(main, "h1", handout.name)
    pictures = handout.pictures()
    pattern = _add(main, "div", kind="pattern")
    _pictures(pattern, "hat", pictures)
    _pattern(pattern, handout)
    _add(main, "h2", "To tick off", kind="tick")
    _add(main, "p", TO_TICK)
    sheets = _add(main, "div", kind="sheets")
    _pictures(sheets, "crown", pictures)
    for sheet in handout.sheets:
        _sheet(sheets, handout, sheet)
    written: bytes = tostring(page, encoding="utf-8", method="html")
    return b"<!doctype html>\n" + written


def _add(parent: Element, tag: str, said: str = "", *, kind: str = "", **attributes: str) -> Element:
    """A new element at the end of another; `kind` is its class."""
    added = SubElement(parent, tag, {"class": kind, **attributes} if kind else attributes)
    added.text = said or None
    return added


def _pictures(parent: Element, shows: str, pictures: Iterable[HandoutPicture]) -> None:
    """Pictures as images of their own, so that their styles and names stay apart from the page's."""
    for picture in pictures:
        if picture.shows == shows:
            drawn = b64encode(picture.svg.encode()).decode()
            _add(parent, "img", kind=shows, src=f"data:image/svg+xml;base64,{drawn}", alt=picture.alt)


def _head(page: Element, handout: Handout) -> None:
    sheet, _ = _style(handout.paper)
    head = SubElement(page, "head")
    SubElement(head, "meta", charset="utf-8")
    SubElement(
        head,
        "meta",
        {
            "http-equiv": "Content-Security-Policy",
            "content": policy(handout.paper),
        },
    )
    SubElement(head, "meta", name="viewport", content="width=device-width, initial-scale=1")
    _add(head, "title", handout.name)
    _add(head, "style", sheet)


def policy(*papers: Paper) -> str:
    """The content security policy of a page on one of some papers: no script, nothing loaded, one style sheet each."""
    allowed = " ".join(_style(paper)[1] for paper in papers)
    return f"default-src 'none'; img-src data:; style-src {allowed}"


@cache
def _style(paper: Paper) -> tuple[str, str]:
    """The style sheet, and its hash as a content security policy names it (CSP Level 3, 2.3.1)."""
    rules = (Path(__file__).parent / "handout.css").read_text("utf-8")
    sheet = f"@page {{ size: {PAGE_SIZES[paper]}; margin: 9mm 10mm; }}\n{rules}"
    return sheet, f"'sha256-{b64encode(sha256(sheet.encode()).digest()).decode()}'"


def _pattern(parent: Element, handout: Handout) -> None:
    for section in handout.sections:
        _add(parent, "h2", section.heading)
        listed = SubElement(parent, "ul")
        for line in section.lines:
            _add(listed, "li", line.text, kind="" if line.kind == "text" else line.kind)
    bought = _add(parent, "div", kind="shopping")
    _add(bought, "h2", "Yarn to buy")
    shopping = handout.shopping
    table = _table(bought, "Yarn to buy, by size", shopping.head, words=0, kind="")
    for label, *cells in shopping.rows:
        row = SubElement(table, "tr")
        _add(row, "th", label, kind="words", scope="row")
        for cell in cells:
            _add(row, "td", cell)
    for note in shopping.notes:
        _add(bought, "p", note)


def _table(parent: Element, caption: str, heads: Iterable[str], *, words: int, kind: str) -> Element:
    """The body of a new table; `words` is the column that is not of numbers."""
    table = _add(_add(parent, "div", kind="wide"), "table", kind=kind)
    _add(table, "caption", caption, kind="unseen")
    row = SubElement(SubElement(table, "thead"), "tr")
    for place, said in enumerate(heads):
        _add(row, "th", said, kind="words" if place == words else "", scope="col")
    return SubElement(table, "tbody")


def _sheet(parent: Element, handout: Handout, sheet: Sheet) -> None:
    """One size, in a frame of its own, so that it can be cut out."""
    name = f"size-{sheet.number}"
    frame = _add(parent, "section", kind="sheet", **{"aria-labelledby": name})
    top = _add(frame, "header")
    _add(top, "h3", heading(handout, sheet), id=name)
    _add(top, "p", start(sheet))
    for part in sheet.straight:
        _boxes(frame, part)
    _crown(frame, handout, sheet)


def _boxes(parent: Element, part: StraightPart) -> None:
    boxes = _add(parent, "div", kind="boxes", role="group")
    _add(boxes, "span", straight(part)).tail = " "
    for first in range(1, part.boxes + 1, 5):
        five = _add(boxes, "span", kind="five")
        for box in range(first, min(first + 5, part.boxes + 1)):
            last = min(box * part.per_box, part.rounds)
            _box(five, f"{part.name}, done up to round {last}")


def _box(parent: Element, label: str) -> None:
    SubElement(parent, "input", {"type": "checkbox", "aria-label": label, "autocomplete": "off"})


def _crown(parent: Element, handout: Handout, sheet: Sheet) -> None:
    heads = (handout.word, "Work", "Count", *needle_heads(sheet))
    table = _table(parent, f"Crown, {sheet.label}", heads, words=1, kind="rounds")
    for one in sheet.crown:
        row = SubElement(table, "tr")
        first = _add(row, "th", scope="row")
        _box(first, f"Round {one.number} done")
        _add(first, "span", str(one.number))
        work = _add(row, "td", kind="words")
        if one.slide:
            _add(work, "span", one.slide, kind="slide").tail = one.work
        else:
            work.text = one.work
        _add(row, "td", str(one.count), kind="count")
        for held in one.needles:
            _add(row, "td", str(held))
