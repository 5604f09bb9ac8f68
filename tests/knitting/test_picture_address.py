"""Picture addresses: lengths, differences and gauges as query parameters, written and read back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.picture_address import (
    difference_of,
    gauge_of,
    gauge_parameters,
    length_of,
    length_text,
)
from roundwright.knitting.quantities import Difference, Gauge, Length

UNITS = st.sampled_from(["mm", "cm", "m", "in", "yd"])


@given(st.builds(Length, st.floats(0.001, 1_000_000), UNITS))
def test_a_length_comes_back_from_its_text(length: Length) -> None:
    """The text holds every digit of the length."""
    assert length_of(length_text(length)) == length


@pytest.mark.parametrize(("text", "value"), [("-5cm", -5), ("2.5in", 2.5), ("0cm", 0)])
def test_a_difference_may_be_negative_or_nothing(text: str, value: float) -> None:
    """An ease such as -5 cm is a difference, not a length."""
    difference = difference_of(text)
    assert difference == Difference(value, "in" if "in" in text else "cm")
    assert length_text(difference) == text


@given(
    st.floats(0.1, 1000), st.none() | st.floats(0.1, 1000), st.builds(Length, st.floats(0.001, 1000), UNITS)
)
def test_a_gauge_comes_back_from_its_parameters(stitches: float, rows: float | None, over: Length) -> None:
    """Stitches, rows where they are counted, and the length they are counted over."""
    gauge = Gauge(stitches=stitches, rows=rows, over=over)
    parameters = gauge_parameters(gauge)
    assert gauge_of(stitches, rows, str(parameters["gauge_over"])) == gauge


def test_rows_without_stitches_are_no_gauge() -> None:
    """The error names the parameter that is missing."""
    with pytest.raises(Impossible) as error:
        gauge_of(None, 28, "10cm")
    assert error.value.pointer == "#/gauge_stitches"
    assert gauge_of(None, None, "10cm") is None
