"""The plan of a hat: the counts of a teacher's small hats, and rounds that can all be knitted."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from roundwright.knitting.answers import Impossible
from tests.support import by_hand
from tests.support.hats import BABIES, hat_requests, hats

BEFORE_THE_CROWN_IN = (4.0, 4.5, 5.0, 5.5)
"""Edge to crown of a teacher's four sizes, the rolled edge uncurled, the needle not counted: common practice."""


def counts(size: dict[str, Any], kind: str = "decrease") -> list[int]:
    """The counts after each decrease round of the crown, the cast-on first."""
    rounds = size["crown"]["rounds"]
    return [rounds[0]["before"], *(round["after"] for round in rounds if round["kind"] == kind)]


def test_a_teachers_four_sizes_come_out_in_multiples_of_four() -> None:
    """52, 56 and 68 exactly at 18 stitches in 10 cm and -10 %; 64 at three months, one repeat from 60.

    Common practice for preterm, newborn, three and six months; heads: INTERGROWTH-21st and WHO medians.
    """
    answer = hats(sizes=BABIES)
    assert [size["cast_on"]["stitches"] for size in answer["sizes"]] == [52, 56, 64, 68]


@pytest.mark.parametrize(
    ("stitches", "left"),
    [
        (56, [56, 42, 28, 14, 7, 4]),
        (52, [52, 39, 26, 13, 7, 4]),
        (60, [60, 45, 30, 15, 8, 4]),
        (68, [68, 51, 34, 17, 9, 5]),
    ],
)
def test_the_crown_closes_by_repeats_of_four(stitches: int, left: list[int]) -> None:
    """Decreasing by repeats of four leaves four or five stitches for the close: common practice."""
    size = hats(sizes=[{"head": {"value": stitches / 1.8 / 0.9, "unit": "cm"}}])["sizes"][0]
    assert counts(size) == left


def test_a_plain_round_follows_each_of_the_first_three_decrease_rounds() -> None:
    """Then every round decreases: common practice."""
    kinds = [round["kind"] for round in hats(sizes=[{"age_months": 0}])["sizes"][0]["crown"]["rounds"]]
    assert kinds == ["decrease", "plain"] * 3 + ["decrease"] * 2


def test_an_odd_stitch_at_the_end_is_knitted() -> None:
    """7 stitches by k2tog: three pairs, and the last knitted (common practice)."""
    last = hats(sizes=[{"age_months": 0}])["sizes"][0]["crown"]["rounds"][-1]
    assert last["text"] == "*k2tog; rep from * to last st, k1"


def test_the_crown_begins_where_the_teacher_begins_it() -> None:
    """4, 4 1/2, 5 and 5 1/2 in from the edge, to the nearest round: common practice."""
    sizes = [
        {**size, "body": {"length": {"value": inches, "unit": "in"}}}
        for size, inches in zip(BABIES, BEFORE_THE_CROWN_IN, strict=True)
    ]
    answer = hats(sizes=sizes, units="imperial")
    half_a_row_in = 10 / 24 / 2.54 / 2
    for size, inches in zip(answer["sizes"], BEFORE_THE_CROWN_IN, strict=True):
        assert size["measurements"]["edge_to_crown"]["value"] == pytest.approx(inches, abs=half_a_row_in)


def test_a_cord_is_five_rounds_over_the_last_stitches() -> None:
    """A cord over four or five stitches, five rounds, a tail of 6 to 8 in: common practice."""
    size = hats(sizes=[{"age_months": 0}], finish={"kind": "cord"}, units="imperial")["sizes"][0]
    finish = size["crown"]["finish"]
    assert (finish["stitches"], finish["cord_rounds"]) == (4, 5)
    assert (finish["tail_shortest"]["value"], finish["tail_longest"]["value"]) == (6, 8)
    assert [part["part"] for part in size["yarn"]["parts"]] == ["cast_on", "brim", "body", "crown", "cord"]


def test_the_stitches_go_from_one_needle_to_two_halves_to_thirds() -> None:
    """On needles of 20 cm, 28 and 28, then about 18 of 56 on to each of three needles: common practice."""
    needles = {"double_pointed": 3, "double_pointed_length": {"value": 20, "unit": "cm"}}
    start = hats(sizes=[{"age_months": 0}], needles=needles)["sizes"][0]["split"]["start"]
    assert [step["needles"] for step in start[:2]] == [[56], [28, 28]]
    assert max(abs(on - 56 / 3) for on in start[2]["needles"]) <= 4


def test_a_newborns_hat_is_cast_on_to_two_short_needles() -> None:
    """13 or 15 cm needles serve a newborn, 20 cm a grown-up; the cast-on goes to two of them: common practice."""
    baby, man = hats(sizes=[{"age_months": 0}, {"adult": "man"}], needles=3)["sizes"]

    assert baby["split"]["start"][0]["needles"] == [28, 28]
    assert baby["needles"]["lengths"][0]["value"] <= 15
    assert 18 <= man["needles"]["lengths"][0]["value"] <= 20


def test_52_stitches_on_three_needles_have_no_decrease_on_two() -> None:
    """16, 16, 20 has none where the even 17, 17, 18 has three: common practice, by working it through."""
    split = hats(sizes=[{"gestation_weeks": 36}], needles=3, tolerance=4)["sizes"][0]["split"]
    assert split["straddles"] == 0


def test_a_preemie_hat_of_a_charity_uses_what_it_says() -> None:
    """68 sts, 48 rounds, crown 68, 51, 34, 17 in 4-ply: four hats from 50 g, 12.5 g each.

    A knitting charity's pattern; the gauge of 28 x 36 and 400 m in 100 g are usual for 4-ply.
    """
    answer = hats(
        gauge={"stitches": 28, "rows": 36},
        sizes=[
            {
                "head": {"value": 68 / 2.8 / 0.9, "unit": "cm"},
                "body": {"length": {"value": 48 / 3.6, "unit": "cm"}},
            }
        ],
        crown={"close_at": 17},
        yarn={"mass": {"value": 100, "unit": "g"}, "length": {"value": 400, "unit": "m"}},
    )
    size = answer["sizes"][0]
    assert counts(size) == [68, 51, 34, 17]
    used = size["yarn"]["used"]
    assert used["low"]["mass"]["value"] <= 12.5 <= used["high"]["mass"]["value"]


def test_a_rib_fits_the_cast_on_whole_and_the_crown_the_body() -> None:
    """The cast-on is a multiple of the rib, the body one of the crown's (published tutorials)."""
    brim = {"kind": "ribbed", "rib": {"knit": 3, "purl": 2}}
    size = hats(sizes=[{"age_months": 12}], brim=brim)["sizes"][0]
    assert size["cast_on"]["stitches"] % 5 == 0
    assert size["crown"]["stitches"] % 4 == 0


def test_a_baby_in_the_class_brings_the_cautions() -> None:
    """Cords, small parts and sleep: cautions where the youngest is a baby, none for grown-ups."""
    codes = {caution["code"] for caution in hats(sizes=[{"adult": "man"}, {"age_months": 2}])["cautions"]}
    assert codes >= {"cords", "small-parts", "sleep", "local-rules"}
    assert hats(sizes=[{"adult": "man"}])["cautions"] == []


def test_a_hat_in_the_round_has_no_flat_crown() -> None:
    """Rows have a seam; a hat worked in the round has none (common practice)."""
    with pytest.raises(Impossible) as error:
        hats(sizes=BABIES, crown={"worked": "flat"})
    assert error.value.pointer == "#/crown/worked"


def test_too_many_stitches_in_all_go_into_two_requests() -> None:
    """Five hats of 600 stitches are refused with the number of sizes that are possible; four are planned."""
    wide = {"head": {"value": 60 / 0.9, "unit": "cm"}}
    gauge = {"stitches": 100, "rows": 140}
    assert len(hats(sizes=[wide] * 4, gauge=gauge)["sizes"]) == 4
    with pytest.raises(Impossible) as error:
        hats(sizes=[wide] * 5, gauge=gauge)
    assert error.value.pointer == "#/sizes/4"
    assert "first 4 of the sizes" in str(error.value.nearest)


@settings(deadline=None)
@given(hat_requests())
def test_every_round_of_every_size_can_be_knitted(request: dict[str, Any]) -> None:
    """Worked stitch by stitch on its needles, each round uses what the one before left, and closes as it says."""
    answer = hats(**request)
    for size in answer["sizes"]:
        assert by_hand.work_hat(size) == size["crown"]["stitches_left"]


def test_twelve_sizes_come_in_one_answer() -> None:
    """A class of twelve heads gets its pattern in one call, every size worked through by hand."""
    answer = hats(sizes=[{"age_months": age} for age in range(0, 60, 5)], needles=4)
    assert [by_hand.work_hat(size) for size in answer["sizes"]] == [
        size["crown"]["stitches_left"] for size in answer["sizes"]
    ]
    assert len(answer["sizes"]) == 12


def test_the_class_example_is_a_request_that_works() -> None:
    """The demo's own request: every size closes."""
    body = json.loads((Path(__file__).parents[3] / "examples" / "requests" / "class-hats.json").read_text())
    for size in hats(**body)["sizes"]:
        assert by_hand.work_hat(size) == size["crown"]["stitches_left"]


@pytest.mark.parametrize("place", [1, 4])
def test_a_single_size_is_worked_as_it_is_beside_the_others(place):
    """A knitter who makes one size of the class's hat gets its rounds, and a pattern without brackets of sizes."""
    request = {"sizes": [*BABIES, {"adult": "man", "makers": 2}], "crown": {"style": "wedge"}}
    whole, alone = hats(**request), hats(**request, only_size=place)

    beside, (by_itself,) = whole["sizes"][place - 1]["crown"]["rounds"], alone["sizes"]
    first = beside[0]["number"]
    assert [round | {"number": round["number"] - first + 1} for round in beside] == by_itself["crown"][
        "rounds"
    ]
    assert whole["sizes"][place - 1]["label"] in alone["pattern"]
    assert " only)" not in alone["pattern"]
    assert 1 == len(alone["order"]["lines"])


@pytest.mark.parametrize("style", ["dome", "swirl", "wedge"])
@pytest.mark.parametrize(
    ("other", "more"),
    [
        ({"adult": "man"}, {"gauge": {"stitches": 130, "rows": 160}}),
        ({"gestation_weeks": 24}, {"ease": {"length": {"value": -14, "unit": "cm"}}}),
    ],
    ids=["too many stitches", "too tight"],
)
def test_a_size_is_made_alone_where_another_cannot_be_knitted(style, other, more):
    """The knitter of one size is not refused for the sake of another, whatever the crown."""
    request = {"sizes": [{"age_months": 6}, other], "crown": {"style": style}, **more}
    with pytest.raises(Impossible):
        hats(**request)

    (size,) = hats(**request, only_size=1)["sizes"]
    assert by_hand.work_hat(size) == size["crown"]["stitches_left"]


def test_yarn_of_a_single_size_is_for_the_knitter_who_makes_it():
    """Four make the size, and who asks for it alone gets the yarn of one hat."""
    request = {"sizes": [{"age_months": 6, "makers": 4}, {"adult": "man"}]}
    alone = hats(**request, only_size=1)
    assert (1, 1) == (alone["order"]["makers"], alone["sizes"][0]["makers"])
    assert alone["order"]["used"] == alone["sizes"][0]["yarn"]["used"]


def test_a_size_that_is_not_there_cannot_be_made_alone():
    """A place beyond the last size is refused, with the last as the nearest."""
    with pytest.raises(Impossible) as refused:
        hats(sizes=BABIES, only_size=5)

    assert ("#/only_size", "size 4") == (refused.value.pointer, refused.value.nearest)


def test_a_warning_of_one_size_among_several_names_its_size() -> None:
    """Who knits another size passes over it; one that is of all sizes stands once, without a name."""
    needles = {"double_pointed": 3, "double_pointed_length": {"value": 6, "unit": "in"}}
    sizes = [{"age_months": 3, "label": "baby"}, {"adult": "man", "label": "man"}]
    warnings = hats(sizes=sizes, needles=needles, gauge={"stitches": 22})["warnings"]
    messages = {notice["code"]: notice["message"] for notice in warnings}

    assert messages["needles_too_short"].startswith("man: ")
    assert messages["rows_assumed"].startswith("The gauge has no rows")


@pytest.mark.parametrize(
    ("ages", "warning"),
    [
        ((4, 8), True),
        ((2, 5.5), True),
        ((5, 5.5), True),
        ((1, 4), False),
        ((5.5, 12), False),
        ((4, 8, 0.5), True),
        ((5.5,), False),
    ],
)
def test_sizes_on_both_sides_of_five_years_come_from_two_references(
    ages: tuple[float, ...], warning: bool
) -> None:
    """At 5 years Netherlands 1997 (Fredriks et al. 2000) lies above WHO: that part of the difference is no growth.

    A size alone differs from none.
    """
    warnings = hats(sizes=[{"age_years": years} for years in ages])["warnings"]
    steps = [notice for notice in warnings if notice["code"] == "standards_meet"]
    assert len(steps) == warning
    assert all(notice["pointer"] == "#/sizes/1" for notice in steps)
    assert all("0.76 cm (boys) and 0.66 cm (girls)" in notice["message"] for notice in steps)


def warned(answer: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """The last warning of each code."""
    return {warning["code"]: warning for warning in answer["warnings"]}


MEDIUM = {"stitches": 22, "rows": 30}
FAR_APART = [{"age_months": 0}, {"adult": "woman"}]


def test_sizes_far_apart_that_share_a_dome_are_told_how_flat_it_is() -> None:
    """The crown of each has as many rounds more or fewer than alone as the warning says: arithmetic."""
    dome = {"style": "dome"}
    together = hats(gauge=MEDIUM, sizes=FAR_APART, crown=dome)
    alone = [hats(gauge=MEDIUM, sizes=[size], crown=dome)["sizes"][0] for size in FAR_APART]
    higher = [
        (len(size["crown"]["rounds"]) - len(own["crown"]["rounds"])) / 3
        for size, own in zip(together["sizes"], alone, strict=True)
    ]
    message = warned(together)["dome_shared"]["message"]
    assert higher[1] < -0.5
    assert f"woman is {-higher[1]:.2g} cm flatter" in message
    assert f"newborn {higher[0]:.2g} cm higher" in message


@pytest.mark.parametrize(
    ("sizes", "crown"),
    [
        ([{"adult": "woman"}, {"adult": "man"}], {"style": "dome"}),
        (FAR_APART, {"style": "wedge"}),
        (FAR_APART, {"style": "dome", "follows_stitches": 96}),  # as requested
        (FAR_APART[:1], {"style": "dome"}),
    ],
)
def test_sizes_near_each_other_share_a_dome_in_silence(
    sizes: list[dict[str, Any]], crown: dict[str, Any]
) -> None:
    """Half a centimetre is one depth to a tape: common practice."""
    assert "dome_shared" not in warned(hats(gauge=MEDIUM, sizes=sizes, crown=crown))


def test_a_count_that_the_crown_makes_coarse_names_its_sections() -> None:
    """40 stitches for 43.1: 8 sections are to blame, not a rib of two (arithmetic)."""
    coarse = warned(
        hats(
            gauge={"stitches": 13, "rows": 18},
            sizes=[{"age_months": 1}],
            crown={"style": "wedge"},
            brim={"kind": "ribbed"},
        )
    )["multiple_coarse"]
    assert coarse["pointer"] == "#/crown/sections"
    assert "8 stitches comes from the sections of the crown" in coarse["message"]


def test_a_tolerance_that_is_not_kept_is_told() -> None:
    """80 stitches in repeats of four are 20 on three needles: 7, 7 and 6 of them, 4 stitches apart (arithmetic)."""
    heads = [{"head": {"value": 40, "unit": "cm"}}]
    narrow = warned(hats(gauge=MEDIUM, sizes=heads, needles=3, tolerance=0))["tolerance_passed"]
    assert (narrow["pointer"], "28, 28 and 24 stitches" in narrow["message"]) == ("#/tolerance", True)
    assert "tolerance_passed" not in warned(hats(gauge=MEDIUM, sizes=heads, needles=4, tolerance=0))
    assert "tolerance_passed" not in warned(hats(gauge=MEDIUM, sizes=heads, needles=3))


@pytest.mark.parametrize(
    ("size", "of_all", "unused"),
    [
        (
            {"depth": {"value": 20, "unit": "cm"}},
            {"body": {"length": {"value": 12, "unit": "cm"}}},
            "#/body/length",
        ),
        (
            {"body": {"length": {"value": 12, "unit": "cm"}}},
            {"depth": {"value": 20, "unit": "cm"}},
            "#/depth",
        ),
    ],
)
def test_what_a_size_says_of_its_depth_goes_first_and_is_told(
    size: dict[str, Any], of_all: dict[str, Any], unused: str
) -> None:
    """A depth and a length from edge to crown say two things of one hat: only that of the size is worked."""
    both = hats(gauge=MEDIUM, sizes=[{"adult": "woman", **size}], **of_all)
    assert warned(both)["option_unused"]["pointer"] == unused
    alone = hats(gauge=MEDIUM, sizes=[{"adult": "woman", **size}])
    assert "option_unused" not in warned(alone)
    assert both["sizes"][0]["measurements"] == alone["sizes"][0]["measurements"]
