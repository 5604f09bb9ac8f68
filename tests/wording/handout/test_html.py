"""The handout as a page: nothing is loaded, it can be read without seeing it, and it prints whole rounds."""

import os
import re
import shutil
import subprocess
from base64 import b64encode
from hashlib import sha256
from itertools import pairwise
from pathlib import Path

import pytest
from pypdf import PdfReader

from roundwright import reference
from roundwright.language import words_of
from roundwright.language.words import ENGLISH_WORDS
from roundwright.wording.handout.html import html
from tests.support.handouts import CLASS, PAPERS_MM, POINT_MM, Page, handout_of


@pytest.mark.skipif(
    shutil.which("chromium") is None and not os.environ.get("CI"), reason="Chromium is not installed"
)
@pytest.mark.parametrize("wording", ["pattern", "beginner"])
@pytest.mark.parametrize("paper", PAPERS_MM)
def test_no_round_of_a_printed_page_is_broken_over_two(paper: str, wording: str, tmp_path: Path) -> None:
    """The HTML as Chromium prints it, on its paper; how many pages it takes depends on the fonts of the machine."""
    handout = handout_of(**CLASS, paper=paper, wording=wording)
    (tmp_path / "handout.html").write_bytes(html(handout, ENGLISH_WORDS))
    subprocess.run(
        ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
         f"--user-data-dir={tmp_path / 'profile'}", "--print-to-pdf=out.pdf", "handout.html"],
        cwd=tmp_path, check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    pages = PdfReader(tmp_path / "out.pdf").pages

    size = tuple(float(side) * POINT_MM for side in pages[0].mediabox[2:])
    assert PAPERS_MM[paper] == pytest.approx(size, abs=0.5)
    texts = ["".join(page.extract_text().split()) for page in pages]
    for section in handout.sections:
        for line in section.lines:
            if line.kind == "round":
                assert any("".join(line.text.split()) in text for text in texts), line.text


def test_the_page_begins_with_the_pictures_of_the_hat() -> None:
    """Worn and laid flat stand under the name and over the sizes, each with its line; a crown's chart comes later."""
    page = Page(html(handout_of(**CLASS), ENGLISH_WORDS).decode())
    tags = [tag for tag, _ in page.elements]
    pictures = [attributes["alt"] or "" for tag, attributes in page.elements if tag == "img"]

    assert ["img", "img"] == [tag for tag in tags[tags.index("h1") : tags.index("h2")] if tag == "img"]
    assert pictures[0].startswith("One month. Worn: ")
    assert pictures[1].startswith("Laid flat")
    assert pictures[2].startswith("Chart of")


def test_the_page_loads_nothing_and_keeps_to_its_policy() -> None:
    """No script, no form, no address but `data:`; the policy allows the style sheet by its hash (CSP Level 3)."""
    page = Page(html(handout_of(**CLASS), ENGLISH_WORDS).decode())

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
    style_hash = b64encode(sha256(page.style.encode()).digest()).decode()
    assert f"default-src 'none'; img-src data:; style-src 'sha256-{style_hash}'" == policy


def test_the_page_can_be_read_without_seeing_it() -> None:
    """Language, headings of each level, headers in tables, a text for each box and picture (WCAG 2.2)."""
    page = Page(html(handout_of(**CLASS), ENGLISH_WORDS).decode())
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


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_no_line_ends_between_a_number_and_its_unit(language: str) -> None:
    """`15 cm`, `2 M re` and `= 80 (96/104) M` stay on one line of a narrow screen; English pages are as they were."""
    page = html(handout_of(**CLASS, language=language), words_of(language)).decode()
    texts = re.sub(r"<style.*?</style>|<[^>]*>", "\n", page, flags=re.DOTALL)

    assert re.findall(r"\d (?:cm|mm|m|g)\b|= \d+.*|\d M\b|\d \(\d.*", texts) == []


def test_lines_of_an_english_page_end_where_they_did() -> None:
    """There is no blank in it that holds a line together."""
    assert "\u00a0".encode() not in html(handout_of(**CLASS), ENGLISH_WORDS)
