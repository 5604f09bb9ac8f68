"""Hats in colours: stripes, a brim of another colour, rib in two colours, and the yarn of each."""

import re
from itertools import chain, cycle, repeat
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.wording.proofreading.proofread import ProofreadRequest, proofread
from tests.support.hats import hat_requests, hats

YARN = {
    "mass": {"value": 50, "unit": "g"},
    "length": {"value": 105, "unit": "m"},
    "price": {"amount": 4, "currency": "EUR"},
}
RIBBED = {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}}
NAVY, CREAM = {"colour": "navy", "rounds": 4}, {"colour": "cream", "rounds": 2}


def striped(**fields: Any) -> dict[str, Any]:
    """A class of two sizes in stripes, with a brim in cream."""
    fields.setdefault("colours", {"brim": [CREAM], "body": [NAVY, CREAM]})
    return hats(
        gauge={"stitches": 20, "rows": 28},
        sizes=[
            {"label": "child", "age_months": 24, "makers": 3},
            {"label": "grown-up", "adult": "woman", "makers": 2},
        ],
        brim=RIBBED,
        crown={"style": "wedge", "sections": 8},
        yarn=YARN,
        **fields,
    )


def metres(yarn: dict[str, Any]) -> float:
    """The length that it is expected to take."""
    return float(yarn["used"]["expected"]["length"]["value"])


def stitches_in(size: dict[str, Any]) -> dict[str, int]:
    """Stitches of each colour, the rounds of the plan gone through one by one (arithmetic)."""
    stripes = chain.from_iterable(repeat(stripe["colour"], stripe["rounds"]) for stripe in (NAVY, CREAM))
    cast_on = size["cast_on"]["stitches"]
    counts = {
        "cream": (2 + size["brim"]["rounds"]) * cast_on,
        "navy": 0,
    }  # a cast-on takes two rounds of yarn
    body = [size["crown"]["stitches"]] * size["body"]["rounds"]
    crown = [round["after"] for round in size["crown"]["rounds"]]
    for colour, stitches in zip(cycle(stripes), body + crown, strict=False):
        counts[colour] += stitches
    return counts


def test_the_yarn_of_each_colour_comes_from_its_rounds() -> None:
    """Four rounds of navy and two of cream in turn, from the first round after the brim to the top."""
    for size in striped()["sizes"]:
        colours = {colour["colour"]: colour["stitches"] for colour in size["yarn"]["colours"]}
        assert colours == stitches_in(size)


def test_colours_add_up_to_the_hat() -> None:
    """Stripes take no more yarn than a hat in one colour."""
    plain, in_stripes = striped(colours=None), striped()
    for one_colour, size in zip(plain["sizes"], in_stripes["sizes"], strict=True):
        assert one_colour["yarn"]["used"] == size["yarn"]["used"]
        assert sum(map(metres, size["yarn"]["colours"])) == pytest.approx(metres(size["yarn"]), rel=1e-4)
    assert plain["order"]["colours"] == []


def test_a_ball_has_one_colour() -> None:
    """Every knitter buys a ball of each; in a basket each colour is shared out by itself."""
    order = striped()["order"]
    navy, cream = sorted(order["colours"], key=lambda colour: colour["colour"], reverse=True)
    assert (navy["own"]["balls"], cream["own"]["balls"]) == (5, 5)
    assert order["own"]["balls"] == 10
    assert [line["each"]["balls"] for line in order["lines"]] == [2, 2]
    assert order["shared"]["balls"] == navy["shared"]["balls"] + cream["shared"]["balls"]
    assert order["one_basket"] is None
    assert cream["one_basket"]["balls"] == cream["shared"]["balls"]
    assert order["own"]["cost"]["amount"] == 40


def test_a_rib_in_two_colours_carries_yarn_behind() -> None:
    """k2 in cream, p2 in navy: half the stitches each, and behind the other half a strand as long as they are wide,
    l / 4.1 (Munden 1959, constant from memory).
    """
    plain = {"brim": [CREAM], "body": [{"colour": "cream"}]}
    cream, cream_and_navy = striped(colours=plain), striped(colours={**plain, "brim_purl": "navy"})
    for in_cream, in_both in zip(cream["sizes"], cream_and_navy["sizes"], strict=True):
        navy = next(colour for colour in in_both["yarn"]["colours"] if colour["colour"] == "navy")
        worked = in_both["brim"]["rounds"] * in_both["cast_on"]["stitches"]
        loop_m = in_both["yarn"]["per_stitch"]["expected"]["value"] / 100
        assert navy["stitches"] == worked / 2
        assert metres(navy) == pytest.approx(worked / 2 * (1 + 1 / 4.1) * loop_m, rel=1e-4)
        more_m = metres(in_both["yarn"]) - metres(in_cream["yarn"])
        assert more_m == pytest.approx(worked / 4.1 * loop_m, rel=1e-3)


def test_a_rib_in_two_colours_is_said_to_stretch_little() -> None:
    """The yarn carried behind holds it (common practice); nobody needs to be told of a rib in one colour."""
    plain = {"brim": [CREAM], "body": [{"colour": "cream"}]}
    codes = [
        {notice["code"] for notice in striped(colours=colours)["warnings"]}
        for colours in (plain, {**plain, "brim_purl": "navy"})
    ]
    assert ["rib_of_two_colours" in hat_codes for hat_codes in codes] == [False, True]


@pytest.mark.parametrize(
    ("colours", "brim", "pointer"),
    [
        ({"body": [{"colour": str(number)} for number in range(7)]}, RIBBED, "#/colours"),
        ({"body": [NAVY], "brim_purl": "cream"}, {"kind": "garter"}, "#/colours/brim_purl"),
    ],
)
def test_colours_that_a_hat_cannot_have_are_refused(
    colours: dict[str, Any], brim: dict[str, Any], pointer: str
) -> None:
    """The error names the field and the nearest thing that works."""
    with pytest.raises(Impossible) as error:
        hats(sizes=[{"adult": "woman"}], brim=brim, colours=colours)
    assert error.value.pointer == pointer
    assert error.value.nearest


def test_the_pattern_says_which_rounds_are_in_which_colour() -> None:
    """How much of each, and where it comes."""
    pattern = striped()["pattern"]
    assert "Colors: cast on in cream and work the brim in cream." in pattern
    assert (
        "Then work in stripes of navy (4 rounds) and cream (2 rounds), over and over to the top." in pattern
    )
    assert re.search(r"Yarn in navy: \d+ \(\d+\) m", pattern)


stripes = st.lists(
    st.builds(
        lambda colour, rounds: {"colour": colour, "rounds": rounds},
        st.sampled_from("ABCD"),
        st.integers(1, 9),
    ),
    min_size=1,
    max_size=5,
)


@settings(max_examples=25)
@given(hat_requests(), stripes, st.none() | stripes)
def test_stripes_change_no_round_and_no_stitch(
    request: dict[str, Any], body: list[dict[str, Any]], brim: list[dict[str, Any]] | None
) -> None:
    """The same stitches, in some colour each, and a pattern that reads back to the same rounds."""
    plain, coloured = hats(**request), hats(**request, colours={"body": body, "brim": brim})
    for one_colour, size in zip(plain["sizes"], coloured["sizes"], strict=True):
        assert one_colour["crown"] == size["crown"]
        assert sum(colour["stitches"] for colour in size["yarn"]["colours"]) == one_colour["yarn"]["stitches"]
    cast_on = tuple(size["cast_on"]["stitches"] for size in coloured["sizes"])
    rounds = [
        proofread(ProofreadRequest(cast_on=cast_on, text=answer["pattern"])).rounds
        for answer in (plain, coloured)
    ]
    assert [[round.after for round in size] for size in rounds[0]] == [
        [round.after for round in size] for size in rounds[1]
    ]
