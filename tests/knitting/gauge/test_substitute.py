"""A pattern's gauge against the knitter's own."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible
from roundwright.knitting.gauge.substitute import SubstituteRequest, substitute
from roundwright.knitting.rounds.round import Multiple

GAUGE = {"stitches": 22, "rows": 30}


def ask(**fields) -> SubstituteRequest:
    return msgspec.convert(fields, SubstituteRequest)


gauges = st.fixed_dictionaries({"stitches": st.floats(2, 180)}, optional={"rows": st.floats(2, 240)})
"""In 10 cm: from rugs to hosiery."""


@given(
    st.builds(ask, pattern=gauges, yours=gauges, held_double=st.booleans()),
    st.integers(1, 10_000),
    st.builds(Multiple, st.integers(1, 60), st.integers(0, 20)),
)
def test_counts_lie_around_the_exact_one(request, count, multiple):
    """Below, nearest and above fit the multiple; the nearest is one of the others; widths are stitches by gauge."""
    answer = substitute(replace(request, stitch_counts=(count,), row_counts=(count,), multiple=multiple))
    instead = answer.stitch_counts[0]
    per_10_cm = request.yours.stitches * (0.73 if request.held_double else 1)

    assert instead.exact == pytest.approx(count * per_10_cm / request.pattern.stitches, rel=1e-5)
    for fit in (instead.nearest, instead.above, *([instead.below] if instead.below else [])):
        assert (fit.count - multiple.plus) % multiple.of == 0
        assert fit.width.value == pytest.approx(fit.count * 10 / per_10_cm, rel=1e-4)
    assert instead.nearest in {instead.below, instead.above}
    if instead.below:
        assert instead.below.count <= instead.exact * (1 + 1e-5)
        assert instead.above.count - instead.below.count in {0, multiple.of}


def test_a_looser_gauge_makes_a_larger_piece():
    """22 stitches where the pattern has 24: 24/22 as wide, 9.09 % wider; 30 rows for 32: 6.67 % longer."""
    answer = substitute(ask(pattern={"stitches": 24, "rows": 32}, yours=GAUGE))

    assert answer.size_change_percent == pytest.approx(100 / 11, rel=1e-5)
    assert answer.length_change_percent == pytest.approx(100 / 15, rel=1e-5)


def test_rows_to_add_or_leave_out():
    """40 rows at 30 in 10 cm are 13.33 cm: 37 rows at 28, 43 at 32."""
    fewer, more = (
        substitute(ask(pattern=GAUGE, yours={"stitches": 22, "rows": rows}, row_counts=[40])).row_counts[0]
        for rows in (28, 32)
    )

    assert (37, -3) == (fewer.nearest.count, fewer.add)
    assert (43, 3) == (more.nearest.count, more.add)


def test_rows_fit_a_repeat_of_their_own():
    """40 rows at 28 for 30 are 37.3: in fours, 36."""
    answer = substitute(
        ask(pattern=GAUGE, yours={"stitches": 22, "rows": 28}, row_counts=[40], row_multiple={"of": 4})
    )

    assert 36 == answer.row_counts[0].nearest.count


def test_measurements_as_written():
    """A circumference goes by the stitches, a depth by the rows."""
    answer = substitute(
        ask(
            pattern={"stitches": 20, "rows": 30},
            yours={"stitches": 25, "rows": 24},
            measurements=[
                {"label": "around", "size": {"value": 20, "unit": "in"}},
                {"label": "depth", "size": {"value": 8, "unit": "in"}, "along": "rows"},
            ],
            units="imperial",
        )
    )
    around, depth = answer.measurements

    assert (around.as_written.value, around.difference.value) == pytest.approx((16, -4))
    assert (depth.as_written.value, depth.difference.value) == pytest.approx((10, 2))


def test_rows_are_assumed_only_where_they_matter():
    """Without rows there is no length and no warning, unless the request needs rows."""
    without_rows = substitute(ask(pattern={"stitches": 20}, yours={"stitches": 22}, stitch_counts=[80]))
    with_rows = substitute(ask(pattern={"stitches": 20}, yours=GAUGE, row_counts=[40]))

    assert (None, ()) == (without_rows.length_change_percent, without_rows.warnings)
    assert ["rows_assumed"] == [notice.code for notice in with_rows.warnings]
    assert "#/pattern/rows" == with_rows.warnings[0].pointer


@pytest.mark.parametrize(
    ("yours", "change", "low", "high"),
    [
        (22, "same", 0, 0),
        (22.4, "same", 0, 0),
        (24, "larger", 1, 2),
        (20, "smaller", 1, 2),
        (25, "larger", 1, 3),
    ],
)
def test_the_needle_to_try(yours, change, low, high):
    """Common practice: too many stitches, a larger needle; a size is about one to two stitches in 10 cm."""
    needle = substitute(ask(pattern=GAUGE, yours={"stitches": yours, "rows": 30}, needle_mm=4)).needle

    assert (change, low, high) == (needle.change, needle.sizes_low, needle.sizes_high)


def test_the_next_needle_has_its_labels():
    """From 4 mm one size up is 4.5 mm, US 7 and UK 7, and one down 3.75 mm, US 5 (general charts)."""
    up = substitute(ask(pattern=GAUGE, yours={"stitches": 24}, needle_mm=4)).needle.next
    down = substitute(ask(pattern=GAUGE, yours={"stitches": 20}, needle_mm=4)).needle.next

    assert (4.5, ("7",), ("7",)) == (up.mm, up.us, up.uk)
    assert (3.75, ("5",)) == (down.mm, down.us)
    assert substitute(ask(pattern=GAUGE, yours={"stitches": 24}, needle_mm=50)).needle.next is None
    assert substitute(ask(pattern=GAUGE, yours={"stitches": 24})).needle.next is None


def test_gauges_far_apart_want_another_yarn():
    """Beyond the width of a yarn class a needle makes another fabric (common practice)."""
    answer = substitute(ask(pattern=GAUGE, yours={"stitches": 16}))

    assert ["other_yarn"] == [notice.code for notice in answer.warnings]
    assert "Another yarn" in answer.needle.message


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"yours": {"stitches": 1000, "over": {"value": 1, "unit": "cm"}}}, "#/yours/stitches"),
        ({"yours": {"stitches": 1.2}, "held_double": True}, "#/yours/stitches"),
        ({"pattern": {"stitches": 0.1}}, "#/pattern/stitches"),
        (
            {"pattern": {"stitches": 20, "rows": 1000, "over": {"value": 1, "unit": "cm"}}},
            "#/pattern/stitches",
        ),
        ({"measurements": [{"size": {"value": 1, "unit": "mm"}}]}, "#/measurements/0/size"),
        ({"measurements": [{"size": {"value": 99, "unit": "yd"}}]}, "#/measurements/0/size"),
    ],
)
def test_what_no_hand_knits_is_refused(fields, pointer):
    """Gauges and measurements beyond any knitting are pointed at."""
    with pytest.raises(Impossible) as refused:
        substitute(ask(**({"pattern": GAUGE, "yours": GAUGE} | fields)))

    assert refused.value.pointer in {pointer, pointer.replace("stitches", "rows")}
    assert refused.value.nearest
