"""The section chart of a crown."""

import pytest

from roundwright.drawing.section_chart import section_chart
from roundwright.knitting.answers import Impossible
from tests.support.crowns import crown_of
from tests.support.picture_reader import elements, parsed, symbols, texts


def test_a_section_chart_is_one_section_of_the_printed_crown():
    """Of 88 stitches in 8 wedges (printed): rows of 10, 9, ... 1 cells, one k2tog in each shaped one, counts of all."""
    answer = crown_of(stitches=88, sections=8)
    root = parsed(section_chart(answer))
    shaped = [row for row in answer.rounds if row.after < row.before]
    widths = [
        float(rect.get("width"))
        for rect in elements(root, "rect", "tint")
        if "hair" in rect.get("class", "").split()
    ]
    cell = min(widths)

    assert ["/"] * 10 == symbols(root)
    assert list(range(10, 0, -1)) == list(dict.fromkeys(round(width / cell) for width in widths))
    written = texts(root)
    for row in shaped:
        assert str(row.number) in written
        assert str(row.after) in written


def test_a_crown_without_equal_sections_has_no_section_chart():
    """A gathered crown has none; the error names the chart to request instead."""
    with pytest.raises(Impossible) as refused:
        section_chart(crown_of(style="gathered"))

    assert "chart=round" == refused.value.nearest
    assert "#/chart" == refused.value.pointer


def test_rounds_without_equal_sections_are_written_out():
    """An adjusting round is given in words below the chart of a section."""
    answer = crown_of(stitches=83, sections=8)
    root = parsed(section_chart(answer))

    assert "adjust" == answer.rounds[0].kind
    assert any(text.startswith("Round 1, all around") for text in texts(root))
