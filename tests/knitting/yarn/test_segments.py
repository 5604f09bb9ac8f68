"""Segments of the work: rib, slipped stitches, and the stitches that take yarn."""

import pytest

from roundwright.knitting.rounds.round import Repeat, Work
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.yarn.estimate import estimate
from roundwright.knitting.yarn.per_stitch import fabric_of
from roundwright.knitting.yarn.segments import WorkSegment, segments_of, stitches_made
from tests.support.yarns import GAUGE, WETHER


def test_rib_widens_the_high_end_only() -> None:
    """Rib takes more than plain knit (published without a figure); a tenth is this service's common practice."""
    plain, rib = (
        estimate((WorkSegment("brim", 80, 12, ribbed),), fabric_of(GAUGE, WETHER), "metric")
        for ribbed in (False, True)
    )
    assert (plain.used.low, plain.used.expected) == (rib.used.low, rib.used.expected)
    assert rib.used.high.mass.value == pytest.approx(1.1 * plain.used.high.mass.value, rel=1e-5)
    assert any("Rib" in basis.rule for basis in rib.basis)


def test_slipped_stitches_take_no_yarn() -> None:
    """A decrease is one loop, an increase in one stitch two, a slipped stitch none (common practice)."""
    rounds = (
        work_round(1, 12, (Repeat(3, (Work("k", 2), Work("k2tog"))),)),
        work_round(2, 9, (Repeat(3, (Work("sl"), Work("k", 2))),)),
        work_round(3, 9, (Work("kfb"), Work("k", 8))),
    )
    assert [stitches_made(round.steps) for round in rounds] == [9, 6, 10]
    assert [segment.ribbed for segment in segments_of(rounds, "crown")] == [False, False, False]


def test_knit_beside_purl_is_rib() -> None:
    """A round with both is rib, whatever it is called."""
    rib = work_round(1, 8, (Repeat(2, (Work("k", 2), Work("p", 2))),))
    assert [segment.ribbed for segment in segments_of((rib,), "brim")] == [True]
