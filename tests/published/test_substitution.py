"""A pattern at another gauge against arithmetic from published gauges."""

import pytest

from roundwright import reference
from roundwright.knitting.gauge.substitute import PatternMeasure, SubstituteRequest, substitute
from roundwright.knitting.quantities import Gauge, Length
from roundwright.knitting.rounds.round import Multiple


def test_the_two_swatch_lengths_of_the_trade_are_not_the_same():
    """22 stitches in 4 in and in 10 cm: 4 in = 10.16 cm (yard of 1959), so the piece comes out 1.6 % wider."""
    answer = substitute(
        SubstituteRequest(
            pattern=Gauge(stitches=22, rows=30),
            yours=Gauge(stitches=22, rows=30, over=Length(4, "in")),
            measurements=(PatternMeasure(size=Length(50, "cm")),),
        )
    )

    assert answer.size_change_percent == pytest.approx(1.6)
    assert answer.length_change_percent == pytest.approx(1.6)
    assert answer.measurements[0].as_written.value == pytest.approx(50.8)


def test_a_head_of_48_cm_at_two_gauges():
    """Published: 48 cm x 2.2 = 105.6, 106 stitches. Arithmetic: at 18 in 10 cm that is 86.7; in fours, 88."""
    answer = substitute(
        SubstituteRequest(
            pattern=Gauge(stitches=22),
            yours=Gauge(stitches=18),
            stitch_counts=(106,),
            multiple=Multiple(4),
        )
    )
    count = answer.stitch_counts[0]

    assert count.exact == pytest.approx(106 * 18 / 22, rel=1e-5)
    assert (84, 88, 88) == (count.below.count, count.nearest.count, count.above.count)
    assert count.nearest.width.value == pytest.approx(88 / 1.8, rel=1e-5)


def test_yarn_held_double():
    """In print: two strands knit to 0.73 of the stitch gauge of one; 27 stitches in 10 cm become 19.71."""
    answer = substitute(
        SubstituteRequest(
            pattern=Gauge(stitches=20, rows=28), yours=Gauge(stitches=27, rows=38), held_double=True
        )
    )

    assert answer.yours_per_10_cm.stitches == pytest.approx(27 * 0.73)
    assert "same" == answer.needle.change


@pytest.mark.parametrize(("number", "mm"), [(3, 4.0), (4, 5.0), (5, 6.5)])
def test_the_way_the_needle_changes_is_that_of_the_published_classes(number, mm):
    """Craft Yarn Council, Standard Yarn Weight System: fewer stitches in 10 cm go with thicker needles."""
    row = next(row for row in reference.yarn_weights() if row.number == number)
    middle = (row.stitches_min + row.stitches_max) / 2
    tight = substitute(
        SubstituteRequest(pattern=Gauge(stitches=middle), yours=Gauge(stitches=middle + 2), needle_mm=mm)
    )
    loose = substitute(
        SubstituteRequest(pattern=Gauge(stitches=middle), yours=Gauge(stitches=middle - 2), needle_mm=mm)
    )

    assert ("larger", "smaller") == (tight.needle.change, loose.needle.change)
    assert loose.needle.next.mm < mm < tight.needle.next.mm
    assert row.needle_mm_min <= loose.needle.next.mm
    assert tight.needle.next.mm <= row.needle_mm_max
