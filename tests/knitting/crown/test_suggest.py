"""The crowns suggested for a shape."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import crown
from roundwright.knitting.crown.request import CrownRequest
from roundwright.knitting.crown.suggest import SuggestionRequest, suggest
from roundwright.knitting.quantities import Gauge, Length

SHAPES = st.sampled_from(["round", "flat", "pointed", "square"])


@given(
    stitches=st.integers(40, 200),
    shape=SHAPES,
    rows=st.integers(22, 44),
    worked=st.sampled_from(["in_the_round", "flat"]),
)
def test_a_suggestion_can_be_worked(stitches: int, shape: str, rows: int, worked: str) -> None:
    """Every crown suggested is one that `/v1/crown` works, with the same numbers."""
    gauge = Gauge(stitches=22, rows=rows)
    suggestions = suggest(
        SuggestionRequest(stitches=stitches, gauge=gauge, shape=shape, worked=worked)
    ).suggestions

    assert suggestions
    assert [suggestion.off_percent for suggestion in suggestions] == sorted(
        suggestion.off_percent for suggestion in suggestions
    )
    for suggestion in suggestions:
        shape_fields = {name: getattr(suggestion.crown, name) for name in suggestion.crown.__struct_fields__}
        answer = crown(CrownRequest(stitches=stitches, gauge=gauge, **shape_fields))

        assert answer.geometry is not None
        assert (suggestion.sections, suggestion.rounds) == (answer.sections, len(answer.rounds))
        assert (suggestion.lies, suggestion.depth) == (answer.geometry.lies, answer.geometry.depth)
        assert suggestion.stitches_left == answer.stitches_left
        assert suggestion.adjusted == (answer.rounds[0].kind == "adjust")


@pytest.mark.parametrize(
    ("shape", "style"), [("round", "dome"), ("flat", "flat"), ("pointed", "cone"), ("square", "square")]
)
@pytest.mark.parametrize("stitches", [72, 88, 95, 120])
def test_the_style_made_for_a_shape_comes_first_or_near(shape: str, style: str, stitches: int) -> None:
    """It is suggested; the dome and the cone are the first or second, for wedges of the right pace come as near."""
    suggestions = suggest(
        SuggestionRequest(stitches=stitches, gauge=Gauge(stitches=22, rows=30), shape=shape)
    ).suggestions

    assert style in [suggestion.crown.style for suggestion in suggestions]
    if shape in ("round", "pointed"):
        assert style in [suggestion.crown.style for suggestion in suggestions[:2]]


def test_the_published_rule_of_thumb_is_among_the_flat_ones() -> None:
    """Published rule of thumb for stockinette: 8 decreases every second round lie flat."""
    suggestions = suggest(
        SuggestionRequest(stitches=88, gauge=Gauge(stitches=22, rows=30), shape="flat")
    ).suggestions

    assert any(
        suggestion.lies == "flat"
        and suggestion.sections == 8
        and suggestion.crown.cadence
        and suggestion.crown.cadence.plain_rounds == 1
        for suggestion in suggestions
    )


def test_the_height_of_what_is_pointed() -> None:
    """The first suggestion has it; for another shape it has no meaning."""
    gauge, height = Gauge(stitches=22, rows=30), Length(20, "cm")
    pointed = suggest(SuggestionRequest(stitches=88, gauge=gauge, shape="pointed", height=height))
    flat = suggest(SuggestionRequest(stitches=88, gauge=gauge, shape="flat", height=height))

    assert pointed.suggestions[0].depth.value == pytest.approx(20, rel=0.03)
    assert [(notice.code, notice.pointer) for notice in flat.warnings] == [("option_unused", "#/height")]


@given(
    st.builds(
        SuggestionRequest,
        stitches=st.integers(8, 600),
        gauge=st.builds(
            Gauge,
            stitches=st.floats(0.1, 1000),
            rows=st.none() | st.floats(0.1, 1000),
            over=st.just(Length(10, "cm")),
        ),
        shape=SHAPES,
        height=st.none() | st.sampled_from([Length(0.001, "mm"), Length(1_000_000, "yd")]),
    )
)
def test_every_request_is_answered_or_refused(request: SuggestionRequest) -> None:
    """Every request that the schema allows finds a crown, or is refused with the nearest that does."""
    suggestions, nearest = (), None
    try:
        suggestions = suggest(request).suggestions
    except Impossible as error:
        nearest = error.nearest

    assert suggestions or nearest
