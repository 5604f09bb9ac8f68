"""Yarns, gauges and work for the tests of yarn."""

from hypothesis import strategies as st

from roundwright.knitting.quantities import Gauge, Length, Mass
from roundwright.knitting.yarn.label import Price, Yarn
from roundwright.knitting.yarn.segments import WorkSegment

WETHER = Yarn(
    name="Quillhaven Wether", length=Length(210, "m"), mass=Mass(100, "g"), price=Price(7.35, "EUR")
)
GAUGE = Gauge(stitches=19, rows=27)

works = st.lists(
    st.builds(
        WorkSegment,
        st.sampled_from(["brim", "body", "crown", "cord"]),
        st.integers(1, 600),
        st.integers(1, 100),
        st.booleans(),
        st.none(),
        st.just(0),
        st.sampled_from([1.0, 0.8, 1.3]),
    ),
    min_size=1,
    max_size=6,
).map(tuple)
gauges = st.builds(
    Gauge, stitches=st.floats(5, 45, allow_nan=False), rows=st.none() | st.floats(6, 70, allow_nan=False)
)
