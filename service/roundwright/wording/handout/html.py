"""The handout as an HTML page to print: one file that loads nothing, with boxes that can be ticked on a screen too.

The tree is built and written by the standard library, so that every text is escaped.
"""

import re
from base64 import b64encode
from collections.abc import Iterable, Mapping
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Final, NamedTuple
from xml.etree.ElementTree import Element, SubElement, tostring

from roundwright.language import Words
from roundwright.wording.handout.content import (
    CrownRound,
    Handout,
    HandoutPicture,
    Paper,
    SizeSheet,
    StraightPart,
    cast_on_text,
    how_to_tick,
    needle_headings,
    round_heading,
    sheet_heading,
    straight_text,
)

PAGE_SIZES: Final[Mapping[Paper, str]] = {"a4": "A4", "letter": "letter"}
_BESIDE_A_NUMBER: Final = re.compile(
    r"(?<=[0-9)]) (?=(?:cm|mm|m|g|kg|M|p|st|%)(?!\w))|(?<==) (?=\(?[0-9])|(?<=[0-9]) (?=\([0-9])"
)
"""The blanks in `15 cm`, `2 M re`, `80 (96) p` and `= 88 m`, at which other languages than English break no line."""


def html(handout: Handout, words: Words) -> bytes:
    """The handout as HTML, without scripts and addresses; its policy allows its own style sheet and nothing else."""
    page = Element("html", lang=words.tag)
    _head(page, handout, words)
    main = _add(SubElement(page, "body"), "main", css_class="spoken" if handout.beginner else "")
    _add(main, "h1", handout.name)
    pictures = handout.pictures()
    pattern = _add(main, "div", css_class="pattern")
    _pictures(pattern, "hat", pictures)
    _pattern(pattern, handout, words)
    _add(main, "h2", words.say("handout.to_tick_off"), css_class="tick")
    _add(main, "p", how_to_tick(handout, words))
    sheets = _add(main, "div", css_class="sheets")
    _pictures(sheets, "crown", pictures)
    for sheet in handout.sheets:
        _sheet(sheets, handout, sheet, words)
    if handout.before_handing_out:
        teacher = _add(main, "div", css_class="teacher")
        _add(teacher, "h2", words.say("handout.before_handing_out"))
        for line in handout.before_handing_out:
            _add(teacher, "p", line)
    if not words.is_english:
        _hold_together(main)
    written: bytes = tostring(page, encoding="utf-8", method="html")
    return b"<!doctype html>\n" + written


def _hold_together(main: Element) -> None:
    """Let no line end between a number and what it is of."""
    for element in main.iter():
        element.text = element.text and _BESIDE_A_NUMBER.sub("\u00a0", element.text)
        element.tail = element.tail and _BESIDE_A_NUMBER.sub("\u00a0", element.tail)


def _add(parent: Element, tag: str, text: str = "", *, css_class: str = "", **attributes: str) -> Element:
    """Add an element at the end of another."""
    added = SubElement(parent, tag, {"class": css_class, **attributes} if css_class else attributes)
    added.text = text or None
    return added


def _pictures(parent: Element, shows: str, pictures: Iterable[HandoutPicture]) -> None:
    """Add the pictures as images, so that their styles and ids stay apart from the page's."""
    parent = _add(parent, "div", css_class="pictures")
    for picture in pictures:
        if picture.shows == shows:
            data = b64encode(picture.svg.encode()).decode()
            figure = _add(parent, "figure", css_class=shows)
            _add(figure, "img", src=f"data:image/svg+xml;base64,{data}", alt=picture.alt)
            if picture.caption:
                _add(figure, "figcaption", picture.caption)


def _head(page: Element, handout: Handout, words: Words) -> None:
    style = Style(handout.paper, hyphens=not words.is_english)
    style_sheet, _ = _style_sheet(style)
    head = SubElement(page, "head")
    SubElement(head, "meta", charset="utf-8")
    SubElement(head, "meta", {"http-equiv": "Content-Security-Policy", "content": policy(style)})
    SubElement(head, "meta", name="viewport", content="width=device-width, initial-scale=1")
    _add(head, "title", handout.name)
    _add(head, "style", style_sheet)


class Style(NamedTuple):
    """What the style sheet of a page depends on."""

    paper: Paper
    hyphens: bool
    """Whether words are broken at the end of a line, in languages with long ones."""


STYLES: Final = tuple(Style(paper, hyphens) for hyphens in (False, True) for paper in PAGE_SIZES)


def policy(*styles: Style) -> str:
    """The content security policy of a page in one of some styles: no script, nothing loaded, one style sheet each."""
    allowed = " ".join(_style_sheet(style)[1] for style in styles)
    return f"default-src 'none'; img-src data:; style-src {allowed}"


@cache
def _style_sheet(style: Style) -> tuple[str, str]:
    """The style sheet, and its hash as a content security policy names it (CSP Level 3, 2.3.1)."""
    rules = (Path(__file__).parent / "handout.css").read_text("utf-8")
    style_sheet = f"@page {{ size: {PAGE_SIZES[style.paper]}; margin: 9mm 10mm; }}\n{rules}"
    if style.hyphens:
        style_sheet += "main { hyphens: auto; }\n"
    return style_sheet, f"'sha256-{b64encode(sha256(style_sheet.encode()).digest()).decode()}'"


def _pattern(parent: Element, handout: Handout, words: Words) -> None:
    for section in handout.sections:
        _add(parent, "h2", section.heading)
        items = SubElement(parent, "ul")
        for line in section.lines:
            _add(items, "li", line.text, css_class="" if line.kind == "text" else line.kind)
    shopping = handout.shopping
    block = _add(parent, "div", css_class="shopping")
    _add(block, "h2", words.say("handout.yarn_to_buy"))
    table = _table(block, words.say("handout.yarn_by_size"), shopping.head, text_column=0)
    for label, *cells in shopping.rows:
        row = SubElement(table, "tr")
        _add(row, "th", label, css_class="words", scope="row")
        for cell in cells:
            _add(row, "td", cell)
    for note in shopping.notes:
        _add(block, "p", note)


def _table(
    parent: Element, caption: str, headings: Iterable[str], *, text_column: int, css_class: str = ""
) -> Element:
    """Add a table and return its body; all columns but `text_column` hold numbers."""
    table = _add(_add(parent, "div", css_class="wide"), "table", css_class=css_class)
    _add(table, "caption", caption, css_class="unseen")
    row = SubElement(SubElement(table, "thead"), "tr")
    for column, heading in enumerate(headings):
        _add(row, "th", heading, css_class="words" if column == text_column else "", scope="col")
    return SubElement(table, "tbody")


def _sheet(parent: Element, handout: Handout, sheet: SizeSheet, words: Words) -> None:
    """Add the sheet of one size, in a frame of its own so that it can be cut out."""
    heading_id = f"size-{sheet.number}"
    frame = _add(parent, "section", css_class="sheet", **{"aria-labelledby": heading_id})
    header = _add(frame, "header")
    _add(header, "h3", sheet_heading(handout, sheet), id=heading_id)
    _add(header, "p", cast_on_text(sheet, words))
    for part in sheet.straight:
        _straight_part(frame, part, words)
    work, count = words.say("handout.work_heading"), words.say("handout.count")
    headings = (round_heading(handout, words), work, count, *needle_headings(sheet, words))
    caption = words.say("handout.crown", label=sheet.label)
    table = _table(frame, caption, headings, text_column=1, css_class="rounds")
    for round in sheet.crown:
        _crown_round(SubElement(table, "tr"), round, words)


def _straight_part(parent: Element, part: StraightPart, words: Words) -> None:
    boxes = _add(parent, "div", css_class="boxes", role="group")
    _add(boxes, "span", straight_text(part, words)).tail = " "
    for first in range(1, part.boxes + 1, 5):
        five = _add(boxes, "span", css_class="five")
        for box in range(first, min(first + 5, part.boxes + 1)):
            last_round = min(box * part.rounds_per_box, part.rounds)
            _box(five, words.say(f"handout.done_up_to.{part.part}", round=last_round))


def _crown_round(row: Element, round: CrownRound, words: Words) -> None:
    number = _add(row, "th", scope="row")
    _box(number, words.say("handout.round_done", round=round.number))
    _add(number, "span", str(round.number))
    work = _add(row, "td", css_class="words")
    if round.slide:
        _add(work, "span", round.slide, css_class="slide").tail = round.work
    else:
        work.text = round.work
    _add(row, "td", str(round.count), css_class="count")
    for stitches in round.needles:
        _add(row, "td", stitches)


def _box(parent: Element, label: str) -> None:
    SubElement(parent, "input", {"type": "checkbox", "aria-label": label, "autocomplete": "off"})
