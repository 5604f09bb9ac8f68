"""The handout as a PDF: two pages, whole rounds, nothing off the paper."""

from io import BytesIO

import pytest
from pypdf import PageObject, PdfReader

from tests.support.handouts import CLASS, PAPERS_MM, POINT_MM, handout_of, pdf


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
@pytest.mark.parametrize("paper", PAPERS_MM)
def test_four_sizes_take_two_pages_of_a_pdf(paper: str, wording: str) -> None:
    """The class's four sizes fill both sides of one sheet, A4 or Letter, with abbreviations or in sentences."""
    pages = PdfReader(BytesIO(pdf(handout_of(**CLASS, paper=paper, wording=wording)))).pages

    assert 2 == len(pages)
    for page in pages:
        size = tuple(float(side) * POINT_MM for side in page.mediabox[2:])
        assert PAPERS_MM[paper] == pytest.approx(size, abs=0.1)
    assert "To tick off" in pages[1].extract_text()


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
        for round in sheet.crown:
            counts = "".join(map(str, round.needles))
            row = "".join(f"☐{round.number}{round.slide}{round.work}{round.count}{counts}".split())
            assert any(row in text for text in texts), row
    assert any(round.slide for sheet in handout.sheets for round in sheet.crown)
    for page in pages:
        assert 5 < min(text_heights(page)) * POINT_MM


def text_heights(page: PageObject) -> list[float]:
    """How high over the lower edge each piece of text on a page stands, in points."""
    heights: list[float] = []

    def visit(text: str, page_matrix: list[float], matrix: list[float], *_: object) -> None:
        if text.strip():
            heights.append(page_matrix[1] * matrix[4] + page_matrix[3] * matrix[5] + page_matrix[5])

    page.extract_text(visitor_text=visit)
    return heights
