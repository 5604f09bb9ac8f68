"""Brim and body: how the depth of a hat is divided, and the rounds of both."""

import pytest

from roundwright.knitting.answers import Impossible
from tests.support.hats import hats


def test_a_folded_brim_is_worked_twice_as_long() -> None:
    """What is turned up lies on what it covers (arithmetic)."""
    brim = {"kind": "folded", "length": {"value": 5, "unit": "cm"}}
    size = hats(sizes=[{"adult": "woman"}], brim=brim)["sizes"][0]
    assert size["brim"]["length"]["value"] == pytest.approx(10, abs=10 / 24)
    assert size["brim"]["lines"][0]["text"] == "*k1, p1; rep from * around"


def test_a_garter_brim_knits_one_round_and_purls_one() -> None:
    """Garter stitch in the round: common practice."""
    brim = hats(sizes=[{"age_months": 12}], brim={"kind": "garter"})["sizes"][0]["brim"]
    assert [round["text"] for round in brim["lines"]] == ["knit", "purl"]
    assert brim["rounds"] % 2 == 0


def test_a_body_shorter_than_its_brim_is_refused() -> None:
    """The error names the field and the nearest thing that works."""
    with pytest.raises(Impossible) as error:
        hats(
            sizes=[{"age_months": 0, "body": {"length": {"value": 1, "unit": "cm"}}}],
            brim={"kind": "ribbed", "length": {"value": 3, "unit": "cm"}},
        )
    assert error.value.pointer == "#/sizes/0/body/length"
    assert "shorter brim" in str(error.value.nearest)


def test_a_body_of_its_own_goes_before_that_of_all_sizes() -> None:
    """One size may be longer than the others."""
    body = {"length": {"value": 15, "unit": "cm"}}
    sizes = [{"adult": "woman"}, {"adult": "woman", "body": {"length": {"value": 18, "unit": "cm"}}}]
    lengths = [
        size["measurements"]["edge_to_crown"]["value"] for size in hats(sizes=sizes, body=body)["sizes"]
    ]
    assert lengths == pytest.approx([15, 18], abs=10 / 24 / 2)


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"brim": {"length": {"value": 2, "unit": "m"}}}, "#/brim/length"),
        ({"body": {"length": {"value": 2, "unit": "m"}}}, "#/body/length"),
    ],
)
def test_no_hat_is_two_metres_long(fields: dict[str, object], pointer: str) -> None:
    """A length that no hat has is refused with the longest that one has."""
    with pytest.raises(Impossible) as error:
        hats(sizes=[{"adult": "woman"}], **fields)
    assert error.value.pointer == pointer
    assert error.value.nearest == "100 cm"
