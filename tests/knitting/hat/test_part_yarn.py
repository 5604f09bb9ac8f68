"""Yarn of a hat whose parts have gauges of their own."""

from math import sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright import reference
from roundwright.knitting.hat.request import Body, Brim, HatRequest, HatSize
from roundwright.knitting.quantities import Gauge, Length, Mass
from roundwright.knitting.work.yarn_estimate import EstimateRequest, yarn_estimate
from roundwright.knitting.work.yarn_remaining import Hank, LeftYarn, RemainingRequest, remaining
from roundwright.knitting.yarn.per_stitch import Swatch
from tests.support.hats import hats
from tests.support.yarns import WETHER

HAT = {"stitches": 18, "rows": 24}
BRIM = {"stitches": 22, "rows": 26}
BODY = {"stitches": 16, "rows": 23}
YARN = {"length": {"value": 200, "unit": "m"}, "mass": {"value": 100, "unit": "g"}}
KS = reference.loop_constants()["wet-relaxed"].ks


def loop_m(gauge: dict[str, float]) -> float:
    """The loop at a gauge in 10 cm: l = sqrt(ks / S), S loops in the area (Munden 1959)."""
    return sqrt(KS / (gauge["stitches"] * gauge["rows"])) / 10


def used(size: dict[str, Any], end: str = "expected") -> dict[str, float]:
    """Metres of yarn in a stitch of each part."""
    return {
        part["part"]: part["used"][end]["length"]["value"] / part["stitches"]
        for part in size["yarn"]["parts"]
    }


def hat(**fields: Any) -> dict[str, Any]:
    """A woman's hat, ribbed."""
    fields = {"brim": {"kind": "ribbed"}, "yarn": YARN, **fields}
    return hats(gauge=HAT, sizes=[{"adult": "woman"}], **fields)


def test_the_yarn_of_a_part_follows_its_own_gauge() -> None:
    """Each part by the published formula at its own gauge; the crown has that of the hat."""
    answer = hat(brim={"kind": "ribbed", "gauge": BRIM}, body={"gauge": BODY})
    loops = used(answer["sizes"][0])

    assert loops["brim"] == pytest.approx(loop_m(BRIM), rel=1e-3)
    assert loops["cast_on"] == pytest.approx(loop_m(BRIM), rel=1e-3)
    assert loops["body"] == pytest.approx(loop_m(BODY), rel=1e-3)
    assert loops["crown"] == pytest.approx(loop_m(HAT), rel=1e-3)


def test_the_parts_add_up_to_the_hat() -> None:
    """Parts at three gauges, and yarn to buy for all of them."""
    yarn = hat(brim={"kind": "ribbed", "gauge": BRIM}, body={"gauge": BODY})["sizes"][0]["yarn"]
    for end in ("low", "expected", "high"):
        parts = sum(part["used"][end]["length"]["value"] for part in yarn["parts"])
        assert yarn["used"][end]["length"]["value"] == pytest.approx(parts, rel=1e-4)


def test_a_swatch_without_rows_compares_widths() -> None:
    """A loop is as long as its stitch is wide (l = kw / W, Munden 1959): 18 to 20 stitches in 10 cm."""
    own = used(hat(body={"gauge": {"stitches": 20}})["sizes"][0])
    assert own["body"] / own["crown"] == pytest.approx(18 / 20, rel=1e-3)


def test_the_rows_of_garter_take_nothing_from_its_loops() -> None:
    """Rows of garter lie closer than those of plain knit at the same loop, so only its stitches are compared."""
    own = used(hat(brim={"kind": "garter", "gauge": {"stitches": 20, "rows": 40}})["sizes"][0])
    assert own["brim"] / own["crown"] == pytest.approx(18 / 20, rel=1e-3)


def test_a_part_at_the_gauge_of_the_hat_changes_nothing() -> None:
    """The same swatch given twice is the same yarn, and no rule more."""
    plain, twice = hat(), hat(brim={"kind": "ribbed", "gauge": HAT}, body={"gauge": HAT})
    assert plain["sizes"][0]["yarn"] == twice["sizes"][0]["yarn"]


def test_a_weighed_swatch_is_scaled_to_the_parts() -> None:
    """The swatch is of the fabric of the hat: a looser body takes more of the same yarn in a stitch."""
    request = EstimateRequest(
        hat=HatRequest(gauge=Gauge(**HAT), sizes=(HatSize(adult="woman"),), body=Body(gauge=Gauge(**BODY))),
        swatch=Swatch(stitches=36, rows=48, mass=Mass(12, "g")),
    )
    parts = {part.part: part for part in yarn_estimate(request).parts}
    body, crown = (parts[name].used.expected.mass.value / parts[name].stitches for name in ("body", "crown"))
    assert crown == pytest.approx(12 / (36 * 48), rel=1e-3)
    assert body / crown == pytest.approx(loop_m(BODY) / loop_m(HAT), rel=1e-3)


@given(st.integers(1, 60))
def test_the_yarn_for_rounds_is_as_long_as_they_are_worked(metres: int) -> None:
    """Yarn that is left makes as many rounds of the brim as its own loops allow, in whole stitches."""
    hat_request = HatRequest(
        gauge=Gauge(**HAT),
        sizes=(HatSize(adult="woman"),),
        brim=Brim(kind="rolled", gauge=Gauge(**BRIM)),
        yarn=WETHER,
    )
    left = LeftYarn(hank=Hank(circumference=Length(metres, "m"), strands=1))
    answer = remaining(RemainingRequest(left=left, hat=hat_request))
    assert answer.stitches is not None
    plan = hat(brim={"kind": "rolled", "gauge": BRIM})["sizes"][0]
    in_brim = sum(part["stitches"] for part in plan["yarn"]["parts"] if part["part"] in {"cast_on", "brim"})
    at_brim = min(in_brim, int(metres / loop_m(BRIM) + 1e-6))
    beyond = (metres - at_brim * loop_m(BRIM)) / loop_m(HAT) if at_brim == in_brim else 0
    assert answer.stitches.expected == pytest.approx(min(at_brim + beyond, answer.stitches.of), abs=1)


def test_the_basis_says_that_parts_have_yarn_by_their_own_gauge() -> None:
    """A rule for the parts where one has a gauge, and none where none has."""
    rules = [
        {basis["source"] for basis in answer["sizes"][0]["yarn"]["basis"]}
        for answer in (hat(), hat(body={"gauge": BODY}))
    ]
    assert len(rules[1] - rules[0]) == 1
    assert "Munden" in (rules[1] - rules[0]).pop()


def test_two_colours_of_a_rib_follow_its_gauge_as_well() -> None:
    """Knits and purls in two colours: both yarns of the brim are shorter at a tighter gauge, floats with them."""
    colours = {"body": [{"colour": "navy"}], "brim_purl": "cream"}
    tight, plain = (
        hat(brim={"kind": "ribbed", "rib": {"knit": 2, "purl": 2}, **own}, colours=colours)["sizes"][0]
        for own in ({"gauge": BRIM}, {})
    )
    assert used(tight)["brim"] / used(plain)["brim"] == pytest.approx(loop_m(BRIM) / loop_m(HAT), rel=1e-3)
