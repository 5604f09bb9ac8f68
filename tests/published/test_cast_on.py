"""Cast-ons, tails and depths against values in print and common practice."""

import pytest

from roundwright import reference
from roundwright.knitting.quantities import Gauge, Length
from roundwright.knitting.rounds.round import Multiple
from roundwright.knitting.sizing.cast_on import USUAL_EASE, CastOnRequest, Ease, cast_on
from roundwright.knitting.sizing.depth import depth
from roundwright.knitting.sizing.heads import Wearer

TEACHER = Gauge(stitches=18)  # about 18 stitches to 10 cm: common practice


@pytest.mark.parametrize(
    ("wearer", "expected"),
    [
        (Wearer(gestation_weeks=36), 52),
        (Wearer(age_months=0), 56),
        (Wearer(age_months=3), 64),
        (Wearer(age_months=6), 68),
    ],
)
def test_a_teachers_small_hats(wearer, expected):
    """Common practice: 52, 56, 60 and 68 for preterm, newborn, three and six months, in multiples of four.

    Medians of INTERGROWTH-21st at 36 weeks and of WHO give 52, 56 and 68 exactly, and 64 at three months: within one
    repeat of the 60 that is taught.
    """
    answer = cast_on(CastOnRequest(size=wearer, gauge=TEACHER, multiple=Multiple(4)))

    assert expected == answer.stitches


def test_three_months_is_one_repeat_from_what_is_taught():
    """Common practice: 60 at three months is the alternative one repeat down."""
    answer = cast_on(CastOnRequest(size=Wearer(age_months=3), gauge=TEACHER, multiple=Multiple(4)))

    assert [choice.stitches for choice in answer.alternatives] == [60, 68]


@pytest.mark.parametrize(
    ("head", "gauge", "expected"),
    [
        (Length(19, "in"), Gauge(stitches=5, over=Length(1, "in")), 95),
        (Length(48, "cm"), Gauge(stitches=22), 106),
    ],
)
def test_head_times_gauge(head, gauge, expected):
    """Published: 19 in x 5 stitches to the inch = 95; 48 cm x 2.2 = 105.6, 106."""
    assert cast_on(CastOnRequest(head=head, gauge=gauge, ease=Ease(percent=0))).stitches == expected


def test_the_default_ease_is_the_usual_one():
    """Common practice: a tenth smaller than the head."""
    assert 1 + USUAL_EASE.percent / 100 == pytest.approx(reference.ease_rules()["usual"].share_of_head)


@pytest.mark.parametrize(("hat_in", "low_in", "high_in"), [(14, 5, 5.5), (18, 6, 6.5), (22, 7, 7.5)])
def test_depths_in_print_are_within_what_the_rules_span(hat_in, low_in, high_in):
    """Published: hats of 14, 18 and 22 in are 5-5.5, 6-6.5 and 7-7.5 in deep, on heads a tenth larger."""
    usual = depth(hat_in * 25.4 / 0.9, hat_in * 25.4)

    assert usual.low_mm == pytest.approx(low_in * 25.4)
    assert high_in * 25.4 <= usual.high_mm


def test_tails_in_print():
    """Published: three times the width and 10 %, or and 6 in. On 60 stitches of 18 in 10 cm (33.3 cm): arithmetic."""
    answer = cast_on(
        CastOnRequest(head=Length(60 / 1.8, "cm"), gauge=TEACHER, ease=Ease(percent=0), multiple=Multiple(4))
    )

    assert answer.stitches == 60
    assert answer.tail.length.value == pytest.approx(110, rel=1e-4)
    assert answer.tail.high.value == pytest.approx(100 + 15.24, rel=1e-4)


@pytest.mark.parametrize(("week", "inches"), [(24, 8.75), (28, 10.5), (32, 11.5), (36, 12.75), (40, 13.5)])
def test_a_charitys_preterm_heads_agree_with_the_standard(week, inches):
    """Published charity table, gestational week to head: within half an inch of the INTERGROWTH-21st median."""
    answer = cast_on(CastOnRequest(size=Wearer(gestation_weeks=week), gauge=TEACHER, units="imperial"))

    assert answer.head.circumference.value == pytest.approx(inches, abs=0.5)
