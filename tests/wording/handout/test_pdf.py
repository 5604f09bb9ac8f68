"""The handout as a PDF: two pages, whole rounds, nothing off the paper."""

import os
import re
import shutil
from io import BytesIO
from typing import Any

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from pypdf import PageObject, PdfReader

from roundwright.knitting.answers import Impossible
from roundwright.language import LANGUAGES, words_of
from tests.support.handouts import CLASS, PAPERS_MM, POINT_MM, handout_of, pdf
from tests.support.hats import hat_requests
from tests.support.pdf_reader import CAPITAL, DESCENDER, printed_pages

HANDOUTS = int(os.environ.get("HANDOUTS", "20"))
"""Random handouts that are read word by word; before a release 200 (a PDF takes 60 to 350 ms)."""
needs_poppler = pytest.mark.skipif(
    shutil.which("pdftotext") is None and not os.environ.get("CI"), reason="poppler is not installed"
)


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
@pytest.mark.parametrize("paper", PAPERS_MM)
def test_four_sizes_take_two_pages_of_a_pdf(paper: str, wording: str) -> None:
    """The class's four sizes fill both sides of one sheet, A4 or Letter, with abbreviations or in sentences.

    The teacher's page comes behind it, since the crown of the smallest gathers, and is not counted.
    """
    *pages, teacher = PdfReader(BytesIO(pdf(handout_of(**CLASS, paper=paper, wording=wording)))).pages

    assert 2 == len(pages)
    assert "For the teacher" in teacher.extract_text()
    assert [re.findall(r"\b\d / \d\b", page.extract_text())[-1:] for page in pages] == [["1 / 2"], ["2 / 2"]]
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


@pytest.mark.parametrize("paper", PAPERS_MM)
@pytest.mark.parametrize(
    ("language", "size"),
    [
        ("de", "9 Monate"),
        ("fr", "9 mois"),
        ("es", "9 meses"),
        ("nb", "9 måneder"),
        ("da", "9 måneder"),
        ("nl", "9 maanden"),
    ],
)
def test_a_size_of_the_yarn_table_stands_in_one_line(language: str, size: str, paper: str) -> None:
    """Long heads of the columns of numbers leave a size the room for its name, whole words and on one line."""
    sizes = [{"age_months": 9, "makers": 4}, {"head": {"value": 55.5, "unit": "cm"}, "makers": 5}]
    yarn = {"mass": {"value": 100, "unit": "g"}, "length": {"value": 210, "unit": "m"}}
    handout = handout_of(language=language, sizes=sizes, yarn=yarn, paper=paper)
    pages = PdfReader(BytesIO(pdf(handout, words_of(language)))).pages
    lines = [line.replace("\u00a0", " ") for page in pages for line in page.extract_text().split("\n")]

    assert any(line.startswith((f"{size}4", f"{size} 4")) for line in lines)


STRIPES = {"body": [{"colour": "a blue that has a long name", "rounds": 3}, {"colour": "ecru", "rounds": 2}]}
MORE = st.fixed_dictionaries(
    {},
    optional={
        "yarn": st.sampled_from(
            [
                {"mass": {"value": 50, "unit": "g"}, "length": {"value": 125, "unit": "m"}},
                {"mass": {"value": 3.5, "unit": "oz"}, "length": {"value": 220, "unit": "yd"}},
            ]
        ),
        "colours": st.just(STRIPES),
        "finish": st.just({"kind": "cord", "cord_rounds": 5}),
        "name": st.just("A hat for whoever comes to the library on the second Thursday"),
    },
)
"""What else a teacher may ask for: yarn in balls, stripes, a cord, a long name."""


@needs_poppler
@settings(
    max_examples=HANDOUTS, phases=(Phase.explicit, Phase.reuse, Phase.generate)
)  # shrinking takes minutes
@given(
    request=hat_requests(),
    wording=st.sampled_from(["pattern", "beginner"]),
    paper=st.sampled_from(sorted(PAPERS_MM)),
    units=st.sampled_from(["metric", "imperial"]),
    language=st.sampled_from(LANGUAGES),
    more=MORE,
)
def test_nothing_on_a_handout_lies_on_a_word(
    *,
    request: dict[str, Any],
    wording: str,
    paper: str,
    units: str,
    language: str,
    more: dict[str, Any],
) -> None:
    """Words, tick boxes and the words of pictures keep clear of each other and stay on the paper."""
    request["sizes"][0]["label"] = "the twins of the house behind the school"
    request["sizes"][0]["makers"] = 3
    try:
        handout = handout_of(**request, **more, wording=wording, paper=paper, units=units, language=language)
    except Impossible:
        return

    for page in printed_pages(pdf(handout, words_of(language))):
        assert not page.overlaps()
        assert not page.off_the_paper()


@needs_poppler
@pytest.mark.parametrize("wording", ["pattern", "beginner"])
def test_a_pdf_begins_with_the_pictures_of_the_hat(wording: str) -> None:
    """The words of both pictures stand over the first heading, at least 6 points high."""
    first = printed_pages(pdf(handout_of(**CLASS, wording=wording)))[0]
    heading = next(ink for ink in first.inks if ink.text == "Sizes")

    for word in ("ears", "edge", "crown", "body", "brim"):
        sizes = [
            (ink.bottom - ink.top) / (CAPITAL + DESCENDER)
            for ink in first.inks
            if ink.text == word and ink.bottom < heading.top
        ]
        assert min(sizes) > 6, word


def text_heights(page: PageObject) -> list[float]:
    """How high over the lower edge each piece of text on a page stands, in points."""
    heights: list[float] = []

    def visit(text: str, page_matrix: list[float], matrix: list[float], *_: object) -> None:
        if text.strip():
            heights.append(page_matrix[1] * matrix[4] + page_matrix[3] * matrix[5] + page_matrix[5])

    page.extract_text(visitor_text=visit)
    return heights


@needs_poppler
@pytest.mark.parametrize("stitches", [16, 22, 28])
def test_the_text_beside_the_chart_is_five_points_and_a_half(stitches: int) -> None:
    """Smaller than 5.5 points is for footnotes (common practice): the words of the chart's key, from line to line."""
    gauge = {"stitches": stitches, "rows": 1.4 * stitches}
    handout = handout_of(crown={"style": "wedge"}, sizes=[{"age_months": 3}], gauge=gauge, needles=4)
    inks = [ink for page in printed_pages(pdf(handout)) for ink in page.inks if ink.text == "k2tog:"]
    heights = [(ink.bottom - ink.top) / (CAPITAL + DESCENDER) for ink in inks]

    assert heights
    assert min(heights) >= 5.5
