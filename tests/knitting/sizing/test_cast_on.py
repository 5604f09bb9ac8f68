"""Stitches to cast on, with the ease they give and the tail."""

import math

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Difference, Gauge, Length
from roundwright.knitting.rounds.round import Multiple, nearest_count
from roundwright.knitting.sizing.cast_on import CastOnRequest, Ease, cast_on, hat_mm
from roundwright.knitting.sizing.heads import Wearer

HEADS_CM = st.floats(20, 65)
GAUGES = st.floats(8, 50).map(lambda stitches: Gauge(stitches=stitches))
EASES = st.floats(-20, 15)


def request(head_cm, gauge, ease=-10.0, **more):
    return CastOnRequest(head=Length(head_cm, "cm"), gauge=gauge, ease=Ease(percent=ease), **more)


@given(HEADS_CM, GAUGES, EASES, st.integers(1, 6), st.integers(0, 3))
def test_no_count_that_fits_the_multiple_is_nearer(head_cm, gauge, ease, of, plus):
    """The stitches are a multiple, and one repeat down or up is no nearer to the exact count."""
    answer = cast_on(request(head_cm, gauge, ease, multiple=Multiple(of, plus)))

    assert (answer.stitches - plus) % of == 0
    assert answer.exact == pytest.approx(head_cm * (1 + ease / 100) * gauge.stitches / 10, rel=1e-5)
    if answer.exact > 8 + of:
        assert abs(answer.stitches - answer.exact) <= of / 2 + 1e-3


@given(HEADS_CM, GAUGES, EASES)
def test_the_stated_ease_is_that_of_the_stitches(head_cm, gauge, ease):
    """Circumference, percent and length of the ease agree, here and in the alternatives."""
    answer = cast_on(request(head_cm, gauge, ease, multiple=Multiple(4)))

    for choice in (answer, *answer.alternatives):
        hat_cm = choice.stitches * 10 / gauge.stitches
        assert choice.circumference.value == pytest.approx(hat_cm, rel=1e-5)
        assert choice.ease.length.value == pytest.approx(hat_cm - head_cm, abs=1e-3)
        assert choice.ease.percent == pytest.approx((hat_cm / head_cm - 1) * 100, abs=0.01)
    assert [choice.stitches for choice in answer.alternatives] == [
        count for count in (answer.stitches - 4, answer.stitches + 4) if count >= 8
    ]


@given(HEADS_CM, st.floats(-6, 4))
def test_ease_in_percent_or_as_a_length_is_the_same(head_cm, less_cm):
    """-2 cm on a head of 40 cm is -5 %."""
    by_length = hat_mm(head_cm * 10, Ease(length=Difference(less_cm, "cm")))
    by_percent = hat_mm(head_cm * 10, Ease(percent=less_cm / head_cm * 100))

    assert by_length == pytest.approx(by_percent)


@given(st.floats(-10, 2_000), st.integers(1, 40), st.integers(0, 10), st.integers(1, 50))
def test_the_nearest_count(exact, of, plus, fewest):
    """It has at least one repeat and `fewest` stitches, and among those counts none is nearer."""
    count = nearest_count(exact, Multiple(of, plus), fewest)
    others = [repeats * of + plus for repeats in range(1, 2_100)]
    allowed = [other for other in others if other >= fewest]

    assert count in allowed
    assert abs(count - exact) <= min(abs(other - exact) for other in allowed) + 1e-9


def test_half_way_is_the_larger():
    """54 lies half-way between 52 and 56."""
    assert nearest_count(54, Multiple(4)) == 56


@pytest.mark.parametrize("field", ["head", "size"])
def test_a_measured_head_can_be_given_either_way(field):
    """`head` and `size.head` are one thing."""
    head = Length(43, "cm")
    head_fields = {"head": head} if field == "head" else {"size": Wearer(head=head)}

    assert cast_on(CastOnRequest(gauge=Gauge(stitches=20), **head_fields)).stitches == round(43 * 0.9 * 2)


@pytest.mark.parametrize(
    ("more", "pointer"),
    [
        ({}, "#"),
        ({"head": Length(40, "cm"), "size": Wearer(age_months=1)}, "#/size"),
        ({"size": Wearer(age_months=1, chart="baby")}, "#/size/chart"),
        ({"head": Length(40, "cm"), "ease": Ease()}, "#/ease"),
        ({"head": Length(40, "cm"), "ease": Ease(percent=-5, length=Difference(-1, "cm"))}, "#/ease/length"),
        ({"head": Length(40, "cm"), "ease": Ease(length=Difference(-30, "cm"))}, "#/ease/length/value"),
        ({"head": Length(40, "cm"), "ease": Ease(length=Difference(9, "yd"))}, "#/ease/length/value"),
        ({"head": Length(40, "cm"), "multiple": Multiple(200)}, "#/multiple"),
        ({"head": Length(5, "cm"), "gauge": Gauge(stitches=5)}, "#/gauge/stitches"),
        ({"head": Length(40, "cm"), "gauge": Gauge(stitches=900)}, "#/gauge/stitches"),
        ({"head": Length(40, "cm"), "needle": Length(2, "m")}, "#/needle/value"),
    ],
)
def test_what_cannot_be_cast_on_is_refused_with_what_can(more, pointer):
    """The error names the field at fault and the nearest thing that works."""
    with pytest.raises(Impossible) as refused:
        cast_on(CastOnRequest(**{"gauge": Gauge(stitches=20), **more}))

    assert refused.value.pointer == pointer
    assert refused.value.nearest


def test_what_the_refusal_proposes_works():
    """The repeat proposed for a multiple that is too coarse gives a hat without a warning."""
    fields = {"head": Length(40, "cm"), "gauge": Gauge(stitches=20)}
    with pytest.raises(Impossible) as refused:
        cast_on(CastOnRequest(multiple=Multiple(200, 3), **fields))
    proposed = int(refused.value.nearest.split()[3])

    assert cast_on(CastOnRequest(multiple=Multiple(proposed), **fields)).warnings == ()


def test_a_coarse_repeat_is_warned_of():
    """72 stitches requested, in repeats of 20: 80, an ease of 0 in place of -10 %."""
    answer = cast_on(request(40, Gauge(stitches=20), multiple=Multiple(20)))

    assert answer.stitches == 80
    assert [notice.code for notice in answer.warnings] == ["multiple_coarse"]


@given(
    st.builds(
        CastOnRequest,
        head=st.builds(Length, st.floats(0.001, 1e6), st.sampled_from(["mm", "cm", "m", "in", "yd"])),
        gauge=st.builds(
            Gauge,
            stitches=st.floats(0.1, 1_000),
            over=st.builds(Length, st.floats(0.001, 1e6), st.just("cm")),
        ),
        ease=st.builds(Ease, percent=st.floats(-50, 50)),
        multiple=st.builds(Multiple, st.integers(1, 1_000), st.integers(0, 1_000)),
    )
)
def test_every_request_is_answered_or_refused(request):
    """At every corner of the bounds there is an answer in finite numbers, or a refusal with what works."""
    try:
        answer = cast_on(request)
    except Impossible as refusal:
        nearest = refusal.nearest
    else:
        nearest = "none needed"
        assert b"null" not in msgspec.json.encode(
            (answer.exact, answer.ease, answer.circumference, answer.tail), enc_hook=str
        )

    assert nearest


@given(HEADS_CM, GAUGES)
def test_the_tail_goes_round_three_times_at_least(head_cm, gauge):
    """Both rules in print are three times the width and more."""
    answer = cast_on(request(head_cm, gauge))

    assert answer.tail.low.value >= 3 * answer.circumference.value
    assert answer.tail.low.value <= answer.tail.length.value <= answer.tail.high.value


def test_the_tail_by_wraps_needs_the_needle():
    """One wrap of a 5 mm needle for each stitch: pi x 5 mm (P: rule in print)."""
    answer = cast_on(request(40, Gauge(stitches=20), needle=Length(5, "mm")))
    wraps = answer.tail.by_rule[-1]

    assert wraps.length.value == pytest.approx(answer.stitches * math.pi * 0.5, rel=1e-5)
    assert len(cast_on(request(40, Gauge(stitches=20))).tail.by_rule) == 2


@given(HEADS_CM, GAUGES)
def test_units_change_no_stitch(head_cm, gauge):
    """In inches the same hat comes out."""
    metric, imperial = (cast_on(request(head_cm, gauge, units=units)) for units in ("metric", "imperial"))

    assert metric.stitches == imperial.stitches
    assert imperial.circumference.unit == "in"
    assert imperial.circumference.value * 2.54 == pytest.approx(metric.circumference.value, rel=1e-5)


def test_a_gauge_with_its_numbers_changed_is_asked_about_before_the_cast_on():
    """28 stitches and 20 rows are 20 stitches and 28 rows (common practice): 141 stitches are cast on for 101."""
    [notice] = cast_on(request(56, Gauge(stitches=28, rows=20))).warnings
    assert notice.code == "gauge_swapped"
