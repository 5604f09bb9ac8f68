"""Counts of yarn in one system and another."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.quantities import YarnCount
from roundwright.knitting.yarn.yarn_count import fineness, tex


@given(
    st.floats(0.001, 1e6),
    st.sampled_from(["tex", "dtex", "denier", "nm", "ne", "worsted"]),
)
def test_a_count_comes_back_from_tex(value: float, unit: str) -> None:
    """A count put into tex and back into its own system is the same count."""
    assert getattr(fineness(tex(YarnCount(value, unit))), unit) == pytest.approx(value, rel=1e-5)
