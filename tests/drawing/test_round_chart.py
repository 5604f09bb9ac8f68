"""The charts of a crown."""

import re
from time import process_time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.drawing.round_chart import round_chart
from roundwright.drawing.section_chart import section_chart
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import Cadence, CrownRequest, crown
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.quantities import Gauge
from tests.support.picture_reader import (
    assert_stands_alone,
    elements,
    key,
    parsed,
    ring_cells,
    said,
    symbols,
    texts,
)

GAUGE = Gauge(stitches=22, rows=30)
PRINTED = {"/": "k2tog", "Λ": "cdd"}
"""Usual chart symbols (common practice; cdd's is this service's own, named in its key)."""


def asked(**fields):
    return crown(CrownRequest(**{"stitches": 88, "style": "wedge", "gauge": GAUGE, **fields}))


@pytest.mark.parametrize(
    ("fields", "counts"),
    [
        # Printed hats (references: published hat patterns, "88 sts, 8 wedges" and "72 sts: k2, k2tog; ...").
        ({"stitches": 88, "sections": 8}, [80, 72, 64, 56, 48, 40, 32, 24, 16, 8]),
        ({"stitches": 72, "style": "quick", "close_at": 9}, [54, 36, 18, 9]),
        ({"stitches": 48, "sections": 6, "close_at": 6}, [42, 36, 30, 24, 18, 12, 6]),
    ],
)
def test_a_ring_has_a_cell_for_every_stitch(fields, counts):
    """Read off the picture, each ring has as many cells as the printed pattern counts stitches after the round."""
    root = parsed(round_chart(asked(**fields)))

    first, *rings = ring_cells(root)
    assert pytest.approx(fields["stitches"], rel=0.002) == first
    shaped = [round(ring) for ring in dict.fromkeys(round(ring, 1) for ring in rings)]
    assert counts[: len(shaped)] == list(dict.fromkeys(shaped))


@pytest.mark.parametrize("style", STYLES)
def test_every_decrease_is_marked(style):
    """The symbols of a chart take away exactly the stitches the crown loses: one for k2tog, two for cdd."""
    answer = asked(style=style, stitches=96)
    marks = symbols(parsed(round_chart(answer)))

    lost = sum({"/": 1, "Λ": 2}[mark] for mark in marks)
    assert answer.stitches - answer.stitches_left == lost


def test_every_round_has_its_number_and_its_count():
    """In the gap stand the number of every round, where it begins, and its count, where it ends."""
    answer = asked(stitches=72, sections=8)
    root = parsed(round_chart(answer))
    numbers = [one.text for one in elements(root, "text") if re.search(r"(^| )n\d+", one.get("class", ""))]

    half = len(numbers) // 2
    assert [str(each.number) for each in answer.rounds] == numbers[:half]
    assert [str(each.after) for each in answer.rounds] == numbers[half:]


def test_needles_and_moves_are_shown():
    """With needles there is a name for each, a border fewer, and a disc for each time stitches are slid."""
    answer = asked(stitches=70, sections=7, needles=3)
    root = parsed(round_chart(answer))
    slides = [move.stitches for each in answer.rounds for move in each.moves]

    assert slides
    names = [text for text in texts(root, "pin") if text.startswith("needle")]
    assert [f"needle {n}: {held}" for n, held in enumerate(answer.split.split, start=1)] == names
    assert 2 == len([path for path in elements(root, "path", "pinline") if "L" in path.get("d", "")])
    discs = [text for text in symbols(root) if text.isdigit()]
    assert [str(stitches) for stitches in slides] == discs
    assert "slide" in key(root)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("draw", [round_chart, section_chart])
def test_a_chart_has_a_key_to_all_its_symbols(style, draw):
    """The key names every symbol of the chart, and the empty cell."""
    try:
        root = parsed(draw(asked(style=style, stitches=96, needles=4)))
    except Impossible:
        assert draw is section_chart
        return
    words = key(root)

    assert "k: knit" in words
    for mark in set(symbols(root)):
        assert mark.isdigit() or f"{PRINTED[mark]}:" in words


def test_a_wedge_chart_is_one_section_of_the_printed_crown():
    """Of 88 stitches in 8 wedges (printed): rows of 10, 9, ... 1 cells, one k2tog in each shaped one, counts of all."""
    answer = asked(stitches=88, sections=8)
    root = parsed(section_chart(answer))
    shaped = [each for each in answer.rounds if each.after < each.before]
    widths = [
        float(rect.get("width"))
        for rect in elements(root, "rect", "tint")
        if "hair" in rect.get("class", "").split()
    ]
    cell = min(widths)

    assert ["/"] * 10 == symbols(root)
    assert list(range(10, 0, -1)) == list(dict.fromkeys(round(width / cell) for width in widths))
    written = texts(root)
    for each in shaped:
        assert str(each.number) in written
        assert str(each.after) in written


def test_a_crown_without_like_sections_has_no_wedge_chart():
    """A gathered top has none; the error says what to ask for instead."""
    with pytest.raises(Impossible) as refused:
        section_chart(asked(style="gathered"))

    assert "chart=round" == refused.value.nearest
    assert "#/chart" == refused.value.pointer


def test_rounds_that_are_not_in_like_sections_are_written_out():
    """An adjusting round is given in words below the chart of a section."""
    answer = asked(stitches=83, sections=8)
    root = parsed(section_chart(answer))

    assert "adjust" == answer.rounds[0].kind
    assert any(text.startswith("Round 1, all around") for text in texts(root))


def test_flat_work_is_shown_from_the_right_side():
    """Rows from behind show as they look in front: p2tog as k2tog (stitch table), and nothing is purled."""
    answer = asked(stitches=82, sections=8, worked="flat")
    behind = [each for each in answer.rounds if "p2tog" in each.text]
    marks = symbols(parsed(round_chart(answer)))

    assert behind
    assert {"/"} == set(marks)
    assert answer.stitches - answer.stitches_left == len(marks)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("needles", [None, 3, 5])
def test_a_picture_of_120_stitches_is_small(style, needles):
    """Under 60 kB for 120 stitches, whatever the style and the needles."""
    answer = asked(style=style, stitches=120, needles=needles)

    assert len(round_chart(answer).encode()) < 60_000
    try:
        assert len(section_chart(answer).encode()) < 60_000
    except Impossible:
        return


def test_more_rounds_than_a_page_shows_are_refused():
    """150 rounds are drawn, more are not; the crown itself can be knitted."""
    with pytest.raises(Impossible) as refused:
        round_chart(asked(stitches=600, sections=2, cadence=Cadence(plain_rounds=0)))

    assert "150 rounds at most" in refused.value.detail


def test_the_largest_chart_is_drawn_at_once():
    """A chart of 600 stitches takes less than 50 ms of a processor."""
    answer = asked(stitches=600, sections=8, needles=5)
    times = []
    for _ in range(5):
        start = process_time()
        round_chart(answer)
        times.append(process_time() - start)

    assert min(times) < 0.05


@settings(max_examples=60, deadline=None)
@given(
    stitches=st.integers(8, 600),
    style=st.sampled_from(sorted(STYLES)),
    needles=st.none() | st.integers(2, 5),
    flat=st.booleans(),
    title=st.none() | st.text(min_size=1, max_size=60),
    theme=st.sampled_from(["auto", "light", "dark"]),
    draw=st.sampled_from([round_chart, section_chart]),
)
def test_every_crown_is_drawn_or_refused(*, stitches, style, needles, flat, title, theme, draw):
    """A picture is well-formed, stands by itself and says what it is to those who do not see it."""
    try:
        answer = asked(
            stitches=stitches,
            style=style,
            needles=None if flat else needles,
            worked="flat" if flat else "in_the_round",
        )
        picture = draw(answer, title=title, theme=theme)
    except Impossible:
        return

    assert_stands_alone(picture)
    root = parsed(picture)
    for each in answer.rounds[:10]:
        if each.after != each.before:
            assert each.text in said(root, "desc")
    if title and title.isprintable():
        assert title == said(root, "title")
