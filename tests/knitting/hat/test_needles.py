"""The needles of a hat: double-pointed ones, a magic loop, two circulars, a circular until it is too long."""

import re
from typing import Any

import pytest

from roundwright.knitting.answers import Impossible
from roundwright.language.words import ENGLISH_WORDS
from roundwright.wording.handout.text import plain_text
from tests.support import by_hand
from tests.support.handouts import handout_of
from tests.support.hats import BABIES, hats

GAUGE = {"stitches": 20, "rows": 28}


def cm(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "cm"}


def hat(stitches: int, needles: Any, **fields: Any) -> dict[str, Any]:
    """One size of a hat with so many stitches of 5 mm, and the warnings of the answer."""
    sizes = [{"head": cm(stitches / 2)}]
    answer = hats(
        gauge=GAUGE, sizes=sizes, ease={"percent": 0}, crown={"style": "wedge"}, needles=needles, **fields
    )
    size: dict[str, Any] = answer["sizes"][0]
    assert size["cast_on"]["stitches"] == stitches
    assert by_hand.work_hat(size) == size["crown"]["stitches_left"]
    return size | {"codes": [warning["code"] for warning in answer["warnings"]]}


def lengths(size: dict[str, Any]) -> list[float]:
    return [length["value"] for length in size["needles"]["lengths"]]


def test_a_number_means_double_pointed_needles() -> None:
    """The plain number and the object give the same hat."""
    assert hat(96, 4) == hat(96, {"double_pointed": 4})


def test_double_pointed_needles_take_over_where_the_stitches_no_longer_reach_round() -> None:
    """80 stitches of 5 mm reach around 40 cm, 72 do not: arithmetic, and 80 at 5 to the inch on 16 in as published."""
    size = hat(96, {"circular": cm(40), "double_pointed": 4})
    change = size["needles"]["change"]
    rounds = size["crown"]["rounds"]

    assert (rounds[change["before_round"] - 1]["before"], change["stitches"]) == (80, 72)
    assert change["text"].startswith(
        "Change to double-pointed needles: after the next round only 72 stitches are left, too few to reach round "
        "40 cm."
    )
    assert change["split"] == [20, 20, 20, 20]
    assert {round["needles"] is None for round in rounds[: change["before_round"] - 1]} == {True}
    assert size["split"] is None
    assert size["codes"] == []


def test_40_cm_and_16_in_are_one_needle() -> None:
    """Shops print both on one label: 80 stitches reach around either."""
    metric = hat(80, {"circular": cm(40)})
    imperial = hat(80, {"circular": {"value": 16, "unit": "in"}})

    assert metric["needles"]["hold"] == imperial["needles"]["hold"] == "circular"


def test_a_size_that_does_not_reach_begins_on_double_pointed_needles() -> None:
    """A baby's 64 stitches do not reach around 40 cm: this size is cast on to three needles, and a warning says so."""
    size = hat(64, {"circular": cm(40)})

    assert size["needles"]["hold"] == "double_pointed"
    assert size["split"]["split"] == [24, 24, 16]
    assert size["codes"] == ["circular_too_long", "crown_gathers"]


@pytest.mark.parametrize(
    ("needles", "sold"),
    [
        ({"circular": cm(40)}, [30, 40]),  # holds twice what reaches around it: 24 to 48 cm
        ({"magic_loop": cm(80)}, [80, 100, 120, 150]),  # 48 cm and 20 cm of cord to spare (common practice)
        ({"circulars": 2}, [40, 50, 60, 80]),  # common practice
        (4, [18, 20, 25, 36]),  # 48 stitches just cast on, at half of 5 mm, are 12 cm, and 4 cm stay free
    ],
)
def test_lengths_that_shops_have(needles: Any, sold: list[int]) -> None:
    """For 96 stitches that lie 48 cm wide."""
    assert lengths(hat(96, needles)) == sold


def test_stitches_just_cast_on_are_pushed_together_where_knitted_ones_would_not_fit() -> None:
    """96 on four needles of 18 cm (7 in): 48 just cast on take 12 of 13.8 cm, knitted 18 cm at three quarters.

    On needles of 25 cm they fit without it: 21 cm hold 56.
    """
    start, with_long = hat(96, 4)["split"]["start"], {"double_pointed": 4, "double_pointed_length": cm(25)}

    assert start[0]["needles"] == [48, 48]
    assert start[0]["text"].endswith("Pushed together they fit until the first round is worked.")
    assert "Pushed together" not in str(hat(96, with_long)["split"]["start"])


def test_a_magic_loop_and_two_circulars_hold_half_each() -> None:
    """The halves are worked in turn (common practice); each way says how to get there."""
    loop, two = hat(96, {"magic_loop": cm(80)}), hat(96, {"circulars": 2})

    assert loop["split"]["split"] == two["split"]["split"] == [48, 48]
    assert "loop of cord" in loop["split"]["start"][1]["text"]
    assert "second circular" in two["split"]["start"][1]["text"]


@pytest.mark.parametrize(
    ("needles", "code"),
    [
        ({"magic_loop": cm(60)}, "loop_too_short"),
        ({"circular": cm(20)}, "circular_too_short"),
        ({"double_pointed": 3, "double_pointed_length": cm(15)}, "needles_too_short"),
    ],
)
def test_needles_too_short_are_pointed_out(needles: Any, code: str) -> None:
    """A warning names the length that would do, or what the given one holds."""
    assert hat(96, needles)["codes"] == [code]


@pytest.mark.parametrize(
    ("needles", "pointer"),
    [
        ({}, "#/needles"),
        ({"magic_loop": cm(80), "circulars": 2}, "#/needles/circulars"),
        ({"magic_loop": cm(80), "double_pointed": 4}, "#/needles/double_pointed"),
    ],
)
def test_what_holds_the_stitches_is_said_once(needles: Any, pointer: str) -> None:
    """One of the ways, or a circular with double-pointed needles for the crown."""
    with pytest.raises(Impossible) as error:
        hats(sizes=BABIES, needles=needles)

    assert error.value.pointer == pointer


def test_a_size_may_have_needles_of_its_own() -> None:
    """A class: the babies on double-pointed needles, the grown-ups on a circular."""
    answer = hats(
        gauge=GAUGE,
        sizes=[{"age_months": 3}, {"adult": "woman", "needles": {"circular": cm(40)}}],
        needles=4,
    )

    assert [size["needles"]["hold"] for size in answer["sizes"]] == ["double_pointed", "circular"]


@pytest.mark.parametrize(
    ("stitches", "rib", "needles"),
    [(96, (2, 2), 3), (98, (1, 1), 2), (100, (2, 2), 3), (90, (3, 3), 4), (84, (2, 1), 5), (108, (4, 2), 4)],
)
def test_no_rib_lies_on_two_needles_where_that_can_be_had(
    stitches: int, rib: tuple[int, int], needles: int
) -> None:
    """A rib begins and ends on one needle (common practice): the drawn-together crown asks for nothing else.

    98 stitches in knit one, purl one are 48 and 50, not twice 49.
    """
    brim = {"kind": "ribbed", "rib": dict(zip(("knit", "purl"), rib, strict=True))}
    answer = hats(
        gauge=GAUGE,
        sizes=[{"head": cm(stitches / 2)}],
        ease={"percent": 0},
        brim=brim,
        crown={"style": "gathered"},
        needles=needles,
        tolerance=max(4, sum(rib)),
    )
    split = answer["sizes"][0]["split"]

    assert answer["sizes"][0]["cast_on"]["stitches"] == sum(split["split"]) == stitches
    assert {count % sum(rib) for count in split["split"]} == {0}
    assert (split["reason"] is None) == (split["difference"] <= 1)


def test_the_knitter_reads_why_the_halves_differ() -> None:
    """48 and 50 of 98 stitches look like a mistake: the pattern says that no rib is cut."""
    pattern = hats(
        gauge=GAUGE,
        sizes=[{"head": cm(49)}],
        ease={"percent": 0},
        brim={"kind": "ribbed"},
        crown={"style": "gathered"},
        needles={"magic_loop": cm(80)},
    )["pattern"]

    assert (
        "Uneven on purpose, so that neither a repeat of 2 stitches nor a decrease is cut in two." in pattern
    )


def test_a_rib_is_cut_rather_than_every_decrease() -> None:
    """88 stitches in eight wedges of 11: three, three and two on a needle, and nothing is ever slid.

    In knit one, purl one the 33 cut a rib; whole ribs would cost a slide at nearly every round of the crown.
    """
    size = hat(88, 3, brim={"kind": "ribbed"})

    assert sorted(size["split"]["split"]) == [22, 33, 33]
    assert size["split"]["straddles"] == 0


@pytest.mark.parametrize("wording", ["pattern", "beginner"])
@pytest.mark.parametrize("style", ["wedge", "swirl", "quick", "dome", "square"])
@pytest.mark.parametrize(
    "needles", [{"magic_loop": cm(100)}, {"circulars": 2}], ids=["magic_loop", "circulars"]
)
def test_a_loop_has_halves_and_no_numbered_needles(needles: dict[str, Any], style: str, wording: str) -> None:
    """Who knits on one long circular has no needle 1 and no next needle, in the pattern and on the sheet."""
    request = {
        "gauge": GAUGE,
        "sizes": [{"head": cm(55)}, {"age_months": 6}],
        "needles": needles,
        "crown": {"style": style},
        "wording": wording,
    }
    text = plain_text(handout_of(**request), ENGLISH_WORDS).decode()
    numbered = r"\b[Nn]eedles? [0-9]|\bnext needle|\btwo needles" + (
        r"|\bN[1-9]\b" if "magic_loop" in needles else ""
    )

    assert not re.search(numbered, text)
    assert ("H1" in text) == ("magic_loop" in needles)
