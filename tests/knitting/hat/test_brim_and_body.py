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


@pytest.mark.parametrize(("stitches", "rows"), [(18, 24), (22, 30), (28, 36), (12, 17)])
def test_a_ridge_of_garter_is_as_high_as_a_stitch_is_wide(stitches: float, rows: float) -> None:
    """Published: 20 stitches and 40 rows fold to a square (gettinghookedagain.blogspot.com, 2010); two rows a ridge."""
    brim = {"kind": "garter", "length": {"value": 4, "unit": "cm"}}
    gauge = {"stitches": stitches, "rows": rows}
    size = hats(gauge=gauge, sizes=[{"adult": "woman"}], brim=brim)["sizes"][0]
    ridge_cm = 10 / stitches

    assert size["brim"]["length"]["value"] == pytest.approx(size["brim"]["rounds"] / 2 * ridge_cm, abs=1e-4)
    assert size["brim"]["length"]["value"] == pytest.approx(4, abs=ridge_cm / 2)
    assert size["measurements"]["edge_to_crown"]["value"] == pytest.approx(
        size["brim"]["length"]["value"] + size["body"]["length"]["value"], abs=1e-4
    )


def test_a_garter_brim_does_not_make_the_hat_shorter() -> None:
    """The depth is that of the same hat with a rib, to a round: the body makes up for the low rounds of garter."""
    depths = [
        hats(sizes=[{"adult": "woman"}], brim={"kind": kind})["sizes"][0]["measurements"]["depth"]["value"]
        for kind in ("garter", "ribbed")
    ]

    assert depths[0] == pytest.approx(depths[1], abs=10 / 24)


def test_a_brim_has_a_swatch_of_its_own() -> None:
    """Stitches and rounds of the brim are those of its swatch, the body keeps those of the hat (arithmetic)."""
    brim = {"kind": "ribbed", "length": {"value": 5, "unit": "cm"}, "gauge": {"stitches": 24, "rows": 28}}
    size = hats(sizes=[{"adult": "woman"}], brim=brim)["sizes"][0]
    plain = hats(sizes=[{"adult": "woman"}], brim={"kind": "ribbed"})["sizes"][0]

    assert size["cast_on"]["stitches"] == pytest.approx(56.11 * 0.9 * 2.4, abs=1)
    assert size["brim"]["rounds"] == 14
    assert size["brim"]["length"]["value"] == pytest.approx(5)
    assert size["crown"]["stitches"] == plain["crown"]["stitches"]
    assert size["body"]["adjust"]["before"] == size["cast_on"]["stitches"]


def test_a_body_has_a_swatch_of_its_own() -> None:
    """A body of 20 stitches and 32 rounds in 10 cm under a crown of 18 and 24: its widths and heights (arithmetic)."""
    body = {"length": {"value": 15, "unit": "cm"}, "gauge": {"stitches": 20, "rows": 32}}
    size = hats(sizes=[{"adult": "woman"}], brim={"kind": "ribbed"}, body=body)["sizes"][0]
    stitches = size["crown"]["stitches"]

    assert size["body"]["length"]["value"] == pytest.approx(size["body"]["rounds"] * 10 / 32, abs=1e-4)
    assert size["measurements"]["body_circumference"]["value"] == pytest.approx(stitches / 2, abs=1e-4)
    assert stitches / 2 == pytest.approx(56.11 * 0.9, abs=2)
    assert size["measurements"]["edge_to_crown"]["value"] == pytest.approx(15, abs=0.2)


@pytest.mark.parametrize("part", ["brim", "body"])
def test_a_swatch_that_cannot_be_knitted_is_refused_where_it_stands(part: str) -> None:
    """The error names the gauge of the part."""
    with pytest.raises(Impossible) as error:
        hats(sizes=[{"adult": "woman"}], **{part: {"gauge": {"stitches": 900}}})
    assert error.value.pointer == f"#/{part}/gauge/stitches"


def test_the_swatches_of_the_parts_stand_in_the_pattern() -> None:
    """What was measured is printed under gauge."""
    brim = {"kind": "ribbed", "gauge": {"stitches": 24, "rows": 28}}
    pattern = hats(sizes=[{"adult": "woman"}], brim=brim)["pattern"]

    assert "24 stitches and 28 rounds in 10 cm of the brim" in pattern


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
