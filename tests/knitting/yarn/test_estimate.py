"""Yarn that work takes, in all and part by part."""

import pytest
from hypothesis import given

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Gauge
from roundwright.knitting.yarn.estimate import estimate
from roundwright.knitting.yarn.per_stitch import fabric_of
from roundwright.knitting.yarn.segments import WorkSegment
from tests.support.yarns import GAUGE, WETHER, gauges, works


@given(works, gauges)
def test_expected_lies_between_low_and_high(segments: tuple[WorkSegment, ...], gauge: Gauge) -> None:
    """Whatever is knitted, and in every part of it."""
    answer = estimate(segments, fabric_of(gauge, WETHER), "metric")
    for used in (answer.used, *(part.used for part in answer.parts)):
        assert 0 < used.low.length.value <= used.expected.length.value <= used.high.length.value
        assert 0 < used.low.mass.value <= used.expected.mass.value <= used.high.mass.value


@given(works, gauges)
def test_parts_add_up(segments: tuple[WorkSegment, ...], gauge: Gauge) -> None:
    """The parts are the whole, in stitches and in yarn."""
    answer = estimate(segments, fabric_of(gauge, WETHER), "metric")
    assert sum(part.stitches for part in answer.parts) == answer.stitches
    for bound in ("low", "expected", "high"):
        parts = sum(getattr(part.used, bound).length.value for part in answer.parts)
        assert parts == pytest.approx(getattr(answer.used, bound).length.value, rel=1e-4)


def test_without_a_yarn_the_answer_has_lengths() -> None:
    """The law needs no label: a length, but neither mass nor balls."""
    answer = estimate((WorkSegment("body", 80, 30),), fabric_of(GAUGE, None), "imperial")
    assert answer.used.expected.length.unit == "yd"
    assert (answer.used.expected.mass, answer.to_buy.balls, answer.fineness) == (None, None, None)


def test_work_without_a_stitch_is_refused() -> None:
    """Nothing knitted is no estimate."""
    with pytest.raises(Impossible):
        estimate((WorkSegment("body", 80, 0),), fabric_of(GAUGE, WETHER), "metric")
