"""The handout on paper and on a screen: two pages, whole rounds, nothing loaded, nothing in it but what is said."""

import os
import re
import shutil
import subprocess
from base64 import b64encode
from hashlib import sha256
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PageObject, PdfReader

from roundwright.wording.handout.html import html
from roundwright.wording.handout.text import markdown, plain_text
from tests.support.handouts import CLASS, Page, handout_of, pdf, rendered

PAPERS_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""ISO 216 A4; Letter, 8.5 by 11 inches (ANSI/ASME Y14.1, ANSI A)."""
INCH_MM = 25.4
SIZE_OF_A_POINT_MM = INCH_MM / 72


# --- on paper -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
@pytest.mark.parametrize("paper", PAPERS_MM)
def test_four_sizes_take_two_pages_of_a_pdf(paper: str, wording: str) -> None:
    """On A4 and on Letter, with abbreviations and in sentences, the class's four sizes are a sheet of two sides."""
    pages = PdfReader(BytesIO(pdf(handout_of(**CLASS, paper=paper, wording=wording)))).pages

    assert 2 == len(pages)
    for page in pages:
        size = tuple(round(float(side) * SIZE_OF_A_POINT_MM, 1) for side in page.mediabox[2:])
        assert PAPERS_MM[paper] == pytest.approx(size, abs=0.1)
    assert "To tick off" in pages[1].extract_text()


@pytest.mark.skipif(
    shutil.which("chromium") is None and not os.environ.get("CI"), reason="Chromium is not installed"
)
@pytest.mark.parametrize("wording", ["pattern", "beginner"])
@pytest.mark.parametrize("paper", PAPERS_MM)
def test_no_round_of_a_printed_page_is_broken_over_two(paper: str, wording: str, tmp_path: Path) -> None:
    """The HTML as Chromium prints it, on its paper; how many pages it takes depends on the fonts of the machine."""
    handout = handout_of(**CLASS, paper=paper, wording=wording)
    (tmp_path / "handout.html").write_bytes(html(handout))
    subprocess.run(
        ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
         f"--user-data-dir={tmp_path / 'profile'}", "--print-to-pdf=out.pdf", "handout.html"],
        cwd=tmp_path, check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    pages = PdfReader(tmp_path / "out.pdf").pages

    size = tuple(float(side) * SIZE_OF_A_POINT_MM for side in pages[0].mediabox[2:])
    assert PAPERS_MM[paper] == pytest.approx(size, abs=0.5)
    texts = ["".join(page.extract_text().split()) for page in pages]
    for section in handout.sections:
        for line in section.lines:
            if line.kind == "round":
                assert any("".join(line.text.split()) in text for text in texts), line.text


@pytest.mark.parametrize("paper", PAPERS_MM)
@pytest.mark.parametrize(("stitches", "sections", "rounds"), [(40, 6, 50), (26, 6, 30), (20, 6, 20)])
def test_no_round_of_a_pdf_is_broken_over_two_pages(
    stitches: int, sections: int, rounds: int, paper: str
) -> None:
    """What is worked, its count and what to slide first stay together, and nothing runs off the paper."""
    handout = handout_of(
        gauge={"stitches": stitches, "rows": stitches * 1.4},
        sizes=[{"head": {"value": cm, "unit": "cm"}} for cm in (58, 50)],
        crown={"style": "wedge", "sections": sections},
        wording="beginner",
        needles=5,
        paper=paper,
    )
    pages = PdfReader(BytesIO(pdf(handout))).pages
    texts = ["".join(page.extract_text().split()) for page in pages]

    for sheet in handout.sheets:
        assert rounds < len(sheet.crown)
        for one in sheet.crown:
            held = "".join(map(str, one.needles))
            row = "".join(f"☐{one.number}{one.slide}{one.work}{one.count}{held}".split())
            assert any(row in text for text in texts), row
    assert any(one.slide for sheet in handout.sheets for one in sheet.crown)
    for page in pages:
        assert 5 < min(heights(page)) * SIZE_OF_A_POINT_MM


def heights(page: PageObject) -> list[float]:
    """How high over the lower edge each piece of text on a page stands, in points."""
    found: list[float] = []

    def visit(text: str, page_matrix: list[float], matrix: list[float], *_: object) -> None:
        if text.strip():
            found.append(page_matrix[1] * matrix[4] + page_matrix[3] * matrix[5] + page_matrix[5])

    page.extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize(("asked", "paper"), [("metric", "a4"), ("imperial", "letter")])
def test_the_paper_follows_the_units_where_none_is_named(asked: str, paper: str) -> None:
    """A4 goes with centimetres, Letter with inches (common practice); naming the paper decides."""
    assert paper == handout_of(units=asked).paper
    assert "a4" == handout_of(units=asked, paper="a4").paper


# --- the page -------------------------------------------------------------------------------------------------------


def test_the_page_asks_for_nothing_and_keeps_to_its_policy() -> None:
    """No script, no form, no address but `data:`; the policy allows the one style sheet by its hash (CSP Level 3)."""
    page = Page(html(handout_of(**CLASS)).decode())

    assert not {tag for tag, _ in page.elements} & {"script", "link", "iframe", "object", "form", "a", "base"}
    for _, attributes in page.elements:
        assert not [
            name for name in attributes if name.startswith("on") or name in ("style", "href", "srcset")
        ]
        assert (attributes.get("src") or "data:").startswith(
            "data:image/svg+xml;base64,"
        ) or "src" not in attributes
    assert "url(" not in page.style
    assert "@import" not in page.style
    policy = next(
        attributes["content"] or ""
        for _, attributes in page.elements
        if attributes.get("http-equiv") == "Content-Security-Policy"
    )
    hashed = b64encode(sha256(page.style.encode()).digest()).decode()
    assert f"default-src 'none'; img-src data:; style-src 'sha256-{hashed}'" == policy


def test_the_page_can_be_read_without_seeing_it() -> None:
    """Language, headings without a gap, heads of rows and columns, a word for every box and picture (WCAG 2.2)."""
    page = Page(html(handout_of(**CLASS)).decode())
    tags = [tag for tag, _ in page.elements]
    levels = [int(tag[1]) for tag in tags if re.fullmatch("h[1-6]", tag)]
    ids = [attributes["id"] for _, attributes in page.elements if "id" in attributes]

    assert {"lang": "en"} == page.elements[0][1]
    assert 1 == levels[0] == levels.count(1)
    assert all(after - before <= 1 for before, after in pairwise(levels))
    assert tags.count("table") == tags.count("caption") == 5
    for tag, attributes in page.elements:
        if tag == "th":
            assert attributes["scope"] in ("row", "col")
        elif tag == "input":
            assert attributes["aria-label"]
        elif tag == "img":
            assert attributes["alt"]
    assert len(ids) == len(set(ids))
    assert {attributes["aria-labelledby"] for tag, attributes in page.elements if tag == "section"} == set(
        ids
    )


# --- what callers write stays text ----------------------------------------------------------------------------------

HAZARDS = [
    "</style><script>alert(1)</script>",
    "# 1. *both* _ways_ `code` | ~~cut~~ [a](javascript:b) ![c](d) <b> &amp; \\",
    '#panic("x") #sys.inputs $ x^2 $ @label <label> = head // comment /* more',
    "\"quotes\" 'single' -- --- ... ~",
    "two\nlines\r\n\tand\u2028more",
    "bell\x07 null\x00 escape\x1b[31m",
]


@pytest.mark.parametrize("said", HAZARDS)
def test_what_looks_like_an_instruction_stays_text(said: str) -> None:
    """Names, labels and yarns of a caller are shown as they are, in one line, in every form."""
    shown = " ".join(re.sub(r"[\x00-\x1f\x7f-\x9f\u2028]", " ", said).split())
    handout = handout_of(
        name=said,
        sizes=[{"head": {"value": 45, "unit": "cm"}, "label": said[:40]}],
        yarn={"name": said, "mass": {"value": 100, "unit": "g"}, "length": {"value": 210, "unit": "m"}},
    )
    page, marked = Page(html(handout).decode()), rendered(markdown(handout).decode())
    text = "".join(one.extract_text() for one in PdfReader(BytesIO(pdf(handout))).pages)

    assert [shown] == page.text_of("h1") == marked.text_of("h1")
    assert any(line.startswith(f"{shown}, Medium") for line in page.text_of("li"))
    assert any(line.startswith(f"{shown}, Medium") for line in marked.text_of("li", "p"))
    assert plain_text(handout).decode().startswith(f"{shown}\n\nSIZES\n")
    assert "".join(shown.split()) in "".join(text.split())
    assert not {"script", "a", "em", "strong", "code", "b"} & {
        tag for tag, _ in page.elements + marked.elements
    }


@settings(max_examples=200, deadline=None)
@given(st.text(min_size=1, max_size=80))
def test_any_name_is_shown_as_it_is(name: str) -> None:
    """Whatever Unicode a name is made of, the page and the Markdown show it in one line."""
    handout = handout_of(name=name)
    page, marked = Page(html(handout).decode()), rendered(markdown(handout).decode())

    assert [handout.name] == page.text_of("h1")
    assert handout.name == marked.text_of("h1")[0]
    assert handout.name.splitlines() == [handout.name]
