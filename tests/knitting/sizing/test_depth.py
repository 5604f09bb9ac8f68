"""Depth of a hat, against the rules in print."""

from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.sizing.depth import depth


@given(st.floats(180, 640), st.floats(-15, 5))
def test_the_depth_lies_within_the_rules_in_print(head_mm, ease):
    """The default depth lies between the least and the greatest that rules in print give."""
    usual = depth(head_mm, head_mm * (1 + ease / 100))

    assert usual.low_mm <= usual.mm <= usual.high_mm
