"""Which crown gives a shape."""

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
    """Every crown suggested is one that `/v1/crown` works, with the numbers told."""
    gauge = Gauge(stitches=22, rows=rows)
    found = suggest(SuggestionRequest(stitches=stitches, gauge=gauge, shape=shape, worked=worked)).suggestions

    assert found
    assert [each.off_percent for each in found] == sorted(each.off_percent for each in found)
    for each in found:
        asked = {name: getattr(each.crown, name) for name in each.crown.__struct_fields__}
        answer = crown(CrownRequest(stitches=stitches, gauge=gauge, **asked))

        assert answer.geometry is not None
        assert (each.sections, each.rounds) == (answer.sections, len(answer.rounds))
        assert (each.lies, each.depth) == (answer.geometry.lies, answer.geometry.depth)
        assert each.stitches_left == answer.stitches_left
        assert each.adjusted == (answer.rounds[0].kind == "adjust")


@pytest.mark.parametrize(
    ("shape", "style"), [("round", "dome"), ("flat", "flat"), ("pointed", "cone"), ("square", "square")]
)
@pytest.mark.parametrize("stitches", [72, 88, 95, 120])
def test_the_style_made_for_a_shape_comes_first_or_near(shape: str, style: str, stitches: int) -> None:
    """It is suggested; the dome and the cone are the first or second, for wedges of the right pace come as near."""
    found = suggest(
        SuggestionRequest(stitches=stitches, gauge=Gauge(stitches=22, rows=30), shape=shape)
    ).suggestions

    assert style in [each.crown.style for each in found]
    if shape in ("round", "pointed"):
        assert style in [each.crown.style for each in found[:2]]


def test_the_published_rule_of_thumb_is_among_the_flat_ones() -> None:
    """Published rule of thumb for stockinette: 8 decreases every second round lie flat."""
    found = suggest(
        SuggestionRequest(stitches=88, gauge=Gauge(stitches=22, rows=30), shape="flat")
    ).suggestions

    assert any(
        each.lies == "flat"
        and each.sections == 8
        and each.crown.cadence
        and each.crown.cadence.plain_rounds == 1
        for each in found
    )


def test_the_height_of_what_is_pointed() -> None:
    """The first suggestion has it; for another shape it has no meaning."""
    gauge, height = Gauge(stitches=22, rows=30), Length(20, "cm")
    pointed = suggest(SuggestionRequest(stitches=88, gauge=gauge, shape="pointed", height=height))
    flat = suggest(SuggestionRequest(stitches=88, gauge=gauge, shape="flat", height=height))

    assert pointed.suggestions[0].depth.value == pytest.approx(20, rel=0.03)
    assert [(each.code, each.pointer) for each in flat.warnings] == [("option_unused", "#/height")]


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
def test_whatever_the_gauge(request: SuggestionRequest) -> None:
    """Every request that the schema allows finds a crown, or is told the nearest that does."""
    found, nearest = (), None
    try:
        found = suggest(request).suggestions
    except Impossible as error:
        nearest = error.nearest

    assert found or nearest
