"""The round chart of a crown, and what both charts have in common."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.drawing.round_chart import round_chart
from roundwright.drawing.section_chart import section_chart
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import Cadence
from roundwright.knitting.crown.styles import STYLES
from tests.support.crowns import crown_of
from tests.support.picture_reader import (
    assert_stands_alone,
    elements,
    key_text,
    parsed,
    ring_cells,
    symbols,
    text_of,
    texts,
)

PRINTED = {"/": "k2tog", "Λ": "cdd"}
"""Usual chart symbols (common practice; cdd's is this service's own, named in its key)."""


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
    """In the picture each ring has as many cells as the printed pattern has stitches after the round."""
    root = parsed(round_chart(crown_of(**fields)))

    first, *rings = ring_cells(root)
    assert pytest.approx(fields["stitches"], rel=0.002) == first
    shaped = [round(ring) for ring in dict.fromkeys(round(ring, 1) for ring in rings)]
    assert counts[: len(shaped)] == list(dict.fromkeys(shaped))


@pytest.mark.parametrize("style", STYLES)
def test_every_decrease_is_marked(style):
    """The symbols of a chart decrease as the crown does: one stitch for k2tog, two for cdd."""
    answer = crown_of(style=style, stitches=96)
    marks = symbols(parsed(round_chart(answer)))

    decreased = sum({"/": 1, "Λ": 2}[mark] for mark in marks)
    assert answer.stitches - answer.stitches_left == decreased


def test_every_round_has_its_number_and_its_count():
    """The gap holds the number of each round where it begins, and its count where it ends."""
    answer = crown_of(stitches=72, sections=8)
    root = parsed(round_chart(answer))
    numbers = [text.text for text in elements(root, "text") if re.search(r"(^| )n\d+", text.get("class", ""))]

    half = len(numbers) // 2
    assert [str(round.number) for round in answer.rounds] == numbers[:half]
    assert [str(round.after) for round in answer.rounds] == numbers[half:]


def test_needles_and_moves_are_shown():
    """Each needle has its name, there is one boundary less, and a disc for each time stitches are slid."""
    answer = crown_of(stitches=70, sections=7, needles=4)
    root = parsed(round_chart(answer))
    slides = [move.stitches for round in answer.rounds for move in round.moves]

    assert slides
    names = [text for text in texts(root, "pin") if text.startswith("needle")]
    assert [f"needle {n}: {held}" for n, held in enumerate(answer.split.split, start=1)] == names
    assert 3 == len([path for path in elements(root, "path", "pinline") if "L" in path.get("d", "")])
    discs = [text for text in symbols(root) if text.isdigit()]
    assert [str(stitches) for stitches in slides] == discs
    assert "slide" in key_text(root)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("draw", [round_chart, section_chart])
def test_a_chart_has_a_key_to_all_its_symbols(style, draw):
    """The key names every symbol of the chart, and the empty cell."""
    try:
        root = parsed(draw(crown_of(style=style, stitches=96, needles=4)))
    except Impossible:
        assert draw is section_chart
        return
    words = key_text(root)

    assert "k: knit" in words
    for mark in set(symbols(root)):
        assert mark.isdigit() or f"{PRINTED[mark]}:" in words


def test_flat_work_is_shown_from_the_right_side():
    """Wrong-side rows are shown as they look on the right side: p2tog as k2tog (stitch table), and no purl."""
    answer = crown_of(stitches=82, sections=8, worked="flat")
    wrong_side = [row for row in answer.rounds if "p2tog" in row.text]
    marks = symbols(parsed(round_chart(answer)))

    assert wrong_side
    assert {"/"} == set(marks)
    assert answer.stitches - answer.stitches_left == len(marks)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("needles", [None, 3, 5])
def test_a_picture_of_120_stitches_is_small(style, needles):
    """Under 60 kB for 120 stitches, whatever the style and the needles."""
    answer = crown_of(style=style, stitches=120, needles=needles)

    assert len(round_chart(answer).encode()) < 60_000
    try:
        assert len(section_chart(answer).encode()) < 60_000
    except Impossible:
        return


def test_more_rounds_than_a_page_shows_are_refused():
    """150 rounds are drawn, more are not; the crown itself can be knitted."""
    with pytest.raises(Impossible) as refused:
        round_chart(crown_of(stitches=600, sections=2, cadence=Cadence(plain_rounds=0)))

    assert "at most 150 rounds" in refused.value.detail


def test_a_chart_grows_with_its_decreases():
    """Four times the stitches, and so the decreases, take less than five times the text: cells are no elements."""
    small, large = (len(round_chart(crown_of(stitches=count, sections=8, needles=5))) for count in (150, 600))

    assert large < 5 * small


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
    """A chart is well-formed and stands alone, with title and description."""
    try:
        answer = crown_of(
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
    for row in answer.rounds[:10]:
        if row.after != row.before:
            assert row.text in text_of(root, "desc")
    if title and title.isprintable():
        assert title == text_of(root, "title")
