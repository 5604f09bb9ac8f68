"""A hat as it is worn: its fabric, and where it lies on a head."""

from itertools import pairwise
from math import hypot, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat.fabric import FabricRow, fabric_rows, girths, hidden_mm
from roundwright.knitting.hat.plan import HatPlan, hats
from roundwright.knitting.hat.request import Body, Brim, HatRequest, HatSize
from roundwright.knitting.hat.worn import EAR_ARC, Head, WornHat, worn
from roundwright.knitting.quantities import Gauge, Length, mm
from roundwright.knitting.sizing.cast_on import Ease

GAUGE = Gauge(stitches=22, rows=30)


def planned(head=56.0, style="wedge", **fields) -> HatPlan:
    request = HatRequest(
        **{
            "gauge": GAUGE,
            "sizes": (HatSize(head=Length(head, "cm")),),
            "crown": CrownShape(style=style),
            "brim": Brim(kind="ribbed"),
            **fields,
        }
    )
    return hats(request, lambda *_: "").sizes[0]


def on_head(plan: HatPlan) -> WornHat:
    return worn(fabric_rows(plan), mm(plan.measurements.head), hidden_mm(plan))


def tube(around_mm: float, length_mm: float) -> list[FabricRow]:
    """A tube without a crown, drawn up at the top."""
    return [FabricRow("body", around_mm, 3.0)] * round(length_mm / 3)


plans = st.builds(
    lambda head, stitches, shape, style, kind, ease, fullness: planned(
        head,
        style,
        gauge=Gauge(stitches=stitches, rows=stitches * shape),
        brim=Brim(kind=kind),
        ease=Ease(percent=ease),
        body=Body(fullness=fullness),
    ),
    st.floats(20, 64),
    st.floats(8, 40),
    st.floats(1.1, 1.6),
    st.sampled_from(sorted(STYLES)),
    st.sampled_from(["rolled", "ribbed", "garter", "folded"]),
    st.floats(-25, 15),
    st.none() | st.floats(0, 80),
)


@settings(max_examples=200)
@given(plan=plans)
def test_the_fabric_keeps_its_length_from_edge_to_top(plan):
    """Along the worn hat from edge to tip it is as far as all rounds are high, what is rolled or turned up left out."""
    rows = fabric_rows(plan)
    hat = on_head(plan)
    along = sum(
        hypot(after.radius_mm - before.radius_mm, after.drop_mm - before.drop_mm)
        for before, after in pairwise(hat.places)
    )

    assert len(rows) == plan.brim.rounds + plan.body.rounds + len(plan.crown.rounds)
    assert hat.edge.along_mm == pytest.approx(sum(row.height_mm for row in rows) - hidden_mm(plan), abs=1e-6)
    assert hat.edge.along_mm == pytest.approx(mm(plan.measurements.depth), abs=0.1)
    assert along == pytest.approx(hat.edge.along_mm, rel=0.01)  # chords of the round head


@settings(max_examples=200)
@given(plan=plans)
def test_fabric_is_stretched_or_folded_but_never_pressed_together(plan):
    """No round is narrower than at rest, none is inside the head, and one that is stretched lies on the head."""
    hat = on_head(plan)
    for place in hat.places[1:]:
        assert place.worn_mm >= place.rest_mm
        assert place.radius_mm >= hat.head.radius_at(place.drop_mm) - 0.05
        assert place.stretch == 1 or place.fullness == pytest.approx(1)
        if place.stretch > 1.01:
            assert place.radius_mm == pytest.approx(hat.head.radius_at(place.drop_mm), rel=0.02)


@settings(max_examples=100)
@given(plan=plans)
def test_a_hat_is_pulled_down_as_far_as_it_goes(plan):
    """No hat covers more than the ears, and a crown stretches by a quarter at most, or as much as its hat."""
    hat = on_head(plan)
    body = max(
        mm(plan.measurements.head) / row.circumference_mm for row in fabric_rows(plan) if row.part != "crown"
    )
    assert hat.air_mm >= 0
    assert hat.below_ears_mm <= 0.056 * mm(plan.measurements.head)
    assert max(place.stretch for place in hat.places) <= max(1.25, 1.02 * body) + 1e-6


@pytest.mark.parametrize(("circumference", "arc"), [(510, 164), (570, 183)])
def test_the_ears_lie_where_they_were_measured(circumference, arc):
    """Crown to ear hole: 16.4 cm on a head of 51 cm, 18.3 on 57; and 0.228 of the circumference straight down.

    Computed from Snyder et al. 1977 and ANSUR II 2012 (`references-further`, 2, D3), 0.228 ± 0.014.
    """
    head = Head(circumference / (2 * pi))

    assert EAR_ARC * circumference == pytest.approx(arc, abs=1)
    assert head.ear_drop_mm / circumference == pytest.approx(0.228, abs=0.002)


def test_a_hat_a_tenth_smaller_than_the_head_is_worn_a_ninth_wider():
    """1 / 0.9 = 1.11: the ease most tutorials give, at the brim of a tube."""
    hat = worn(tube(0.9 * 560, 180), 560)

    assert hat.edge.stretch == pytest.approx(1 / 0.9)
    assert hat.air_mm == 0


def test_a_hat_wider_than_the_head_hangs_off_it():
    """A tube a tenth wider than the head is not stretched anywhere, and hangs at its own width."""
    hat = worn(tube(1.1 * 560, 150), 560)

    assert 1 == max(place.stretch for place in hat.places)
    assert hat.edge.radius_mm == pytest.approx(1.1 * 560 / (2 * pi), rel=0.005)
    assert 1.2 < max(place.fullness for place in hat.places[1:10])  # in folds at the crown of the head


@pytest.mark.parametrize(("depth", "reach"), [(130, "above"), (180, "at"), (205, "below")])
def test_a_hat_reaches_as_far_as_it_is_deep(depth, reach):
    """On a head of 56 cm the ears are 17.9 cm from the crown along the scalp (0.32 of the head)."""
    hat = worn(tube(0.9 * 560, depth), 560)

    assert reach == hat.reach
    assert hat.below_ears_mm == pytest.approx(depth - 0.32 * 560, abs=5)  # it hangs a little at the shoulder


def test_a_cone_stands_off_the_head():
    """A tall cone has little fabric near its tip, so its point stays above the head; a wedge's does not."""
    tall = planned(style="cone")

    assert 20 < on_head(tall).air_mm < 80
    assert 0 == on_head(planned(style="wedge")).air_mm


def test_what_is_longer_than_to_the_ears_stands_above_the_head():
    """A hat 10 cm longer in its body is worn no lower; the 10 cm are above the head."""
    usual = on_head(planned(body=Body(length=Length(14, "cm"))))
    long = on_head(planned(body=Body(length=Length(24, "cm"))))

    assert long.below_ears_mm < usual.below_ears_mm + 15
    assert long.air_mm > 60


def test_each_part_is_as_wide_as_its_gauge():
    """26 stitches in 10 cm in the brim, 20 in the body, 22 in the crown; rows of 34, 26 and 30."""
    plan = planned(
        brim=Brim(kind="ribbed", gauge=Gauge(stitches=26, rows=34)),
        body=Body(gauge=Gauge(stitches=20, rows=26)),
        ease=Ease(percent=-10),
    )
    parts = {row.part: row for row in fabric_rows(plan)[::-1]}  # the first of each

    assert parts["brim"].circumference_mm == pytest.approx(plan.cast_on.stitches / 0.26, rel=1e-4)
    assert parts["body"].circumference_mm == pytest.approx(plan.crown.stitches / 0.20, rel=1e-4)
    assert parts["crown"].circumference_mm == pytest.approx(plan.crown.rounds[0].after / 0.22, rel=1e-3)
    assert [round(100 / row.height_mm) for row in reversed(parts.values())] == [34, 26, 30]


def test_the_fabric_runs_straight_from_one_count_to_the_next():
    """Ten rounds of 400 mm and ten of 200: between the middles of both the circumference falls evenly."""
    rows = [FabricRow("body", 400.0, 1.0)] * 10 + [FabricRow("crown", 200.0, 1.0)] * 10
    from_edge = [girth.circumference_mm for girth in girths(rows, 0.0, 100)][::-1]

    falls = [before - after for before, after in pairwise(from_edge[6:16])]
    assert falls == pytest.approx([20] * 9)
    assert 400 == from_edge[0]


@given(st.floats(0, 100), st.integers(2, 40))
def test_a_coarser_view_of_the_fabric_is_as_long(cut, most):
    """However few places stand for the rounds, and whatever is rolled up, the length of the rest stays."""
    rows = [FabricRow("body", 400.0, 2.9)] * 40 + [FabricRow("crown", 390.0 - 9 * n, 2.9) for n in range(40)]

    assert girths(rows, cut, most)[-1].along_mm == pytest.approx(80 * 2.9 - cut)
    assert len(girths(rows, cut, most)) <= most + 3


def test_every_hat_that_can_be_knitted_can_be_worn():
    """Tiny heads, coarse and fine fabric, short and long bodies."""
    for head in (4.0, 20.0, 100.0):
        for stitches in (3, 30, 100):
            for body in (None, Body(length=Length(90, "cm"))):
                try:
                    plan = planned(head, gauge=Gauge(stitches=stitches), body=body or Body())
                except Impossible:
                    continue
                assert on_head(plan).edge.along_mm > 0
