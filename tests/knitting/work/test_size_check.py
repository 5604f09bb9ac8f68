"""A hat of the wrong size on the needles: what it comes to, and the ways out."""

import json
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat.plan import hat_rounds
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.work.size_check import SizeCheckAnswer, SizeCheckRequest, check_size
from tests.support.hats import hat_requests, hats

EXAMPLE: dict[str, Any] = json.loads(
    (Path(__file__).parents[3] / "examples" / "requests" / "size-check.json").read_text()
)
"""A hat for a head of 55.5 cm, 96 stitches at 20 in 10 cm, so 48 cm around; 46 cm are measured at round 30."""


def cm(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "cm"}


def check(**fields: Any) -> SizeCheckAnswer:
    body = {name: value for name, value in {**EXAMPLE, **fields}.items() if value is not None}
    return check_size(msgspec.json.decode(json.dumps(body), type=SizeCheckRequest))


@pytest.mark.parametrize("rows", [30, None])
def test_the_gauge_of_a_body_with_its_own_swatch_is_that_of_the_body(rows: int | None) -> None:
    """120 stitches at 24 in 10 cm are 50 cm; measured at 46 they are 26.1 in 10 cm, 2.1 more (arithmetic)."""
    hat = {
        **EXAMPLE["hat"],
        "gauge": {"stitches": 20, "rows": 28},
        "sizes": [{"head": cm(56)}],
        "brim": {"kind": "ribbed"},
        "crown": {"style": "wedge"},
        "body": {"gauge": {"stitches": 24, "rows": rows}},
    }
    answer = check(hat=hat, rounds_worked=28, circumference=cm(46), length=None, size=None)
    assert answer.planned.body_circumference.value == pytest.approx(50)
    assert answer.gauge.stitches == pytest.approx(120 / 4.6, rel=1e-5)
    assert answer.gauge.rows == pytest.approx((rows or 28) * 50 / 46, rel=1e-5)
    assert "2.1 stitches more in 10 cm than the pattern" in answer.needle.message


def test_a_garter_brim_with_its_own_swatch_without_rows_has_the_rows_of_garter() -> None:
    """Two rows to the width of a stitch (practice.json, garter-rows), so 48 at 24 stitches, whatever the hat has; a
    brim as wide as planned and a fifth longer has 40 (arithmetic).
    """
    hat = {
        **EXAMPLE["hat"],
        "gauge": {"stitches": 20, "rows": 28},
        "brim": {"kind": "garter", "gauge": {"stitches": 24}},
    }
    around = check(hat=hat, rounds_worked=6, length=None).planned.circumference
    answer = check(
        hat=hat, rounds_worked=6, circumference={"value": around.value, "unit": around.unit}, length=cm(1.5)
    )
    assert answer.gauge.stitches == pytest.approx(24, rel=1e-5)
    assert answer.gauge.rows == pytest.approx(40, rel=1e-5)


@pytest.mark.parametrize(
    ("size", "around", "says"),
    [
        ({"age_months": 6}, 36, "a small child soon outgrows it: for longer wear knit the next size."),
        ({"age_months": 6}, 37, "The head can wear it."),
        ({"adult": "woman"}, 47, "It only just goes on, stretched nearly as far as is comfortable."),
        ({"adult": "woman"}, 49, "The head can wear it."),
    ],
)
def test_a_hat_near_the_end_of_its_stretch_only_just_goes_on(
    size: dict[str, Any], around: float, says: str
) -> None:
    """Plain knitting is worn stretched by a fifth (common practice): 36 cm go to 43.2, and at six months a head has
    42.8 cm (WHO), at eight 44; 47 cm go to 56.4, and women have 56.1 (ANSUR II).
    """
    hat = {"gauge": {"stitches": 22, "rows": 30}, "sizes": [size]}
    answer = check(hat=hat, rounds_worked=25, circumference=cm(around), length=None, size=None)
    assert answer.verdict == "fits"
    assert says in answer.message


def codes(answer: SizeCheckAnswer) -> list[str]:
    return [option.code for option in answer.options]


def test_the_gauge_as_knitted_is_the_count_over_the_measure() -> None:
    """96 stitches in 46 cm are 20.87 in 10 cm, and the hat for 55.5 cm is 17 % smaller than the head (arithmetic)."""
    answer = check()
    assert answer.gauge.stitches == pytest.approx(96 / 4.6, rel=1e-5)
    assert answer.comes_to.circumference.value == pytest.approx(46)
    assert answer.comes_to.ease_percent == pytest.approx(100 * (46 / 55.5 - 1), abs=0.01)


def test_a_width_laid_flat_is_half_the_circumference() -> None:
    """23 cm flat are 46 cm around."""
    assert check(circumference=None, width=cm(23)).comes_to == check().comes_to


def test_rows_are_off_as_the_stitches_are_unless_they_are_measured() -> None:
    """A loop a tenth shorter is a tenth narrower and lower (Munden 1959); a length is a measure of its own."""
    assumed, measured = check(), check(length=cm(30 / 2.8))
    assert assumed.comes_to.depth.value == pytest.approx(assumed.planned.depth.value * 46 / 48, rel=1e-4)
    assert measured.comes_to.depth.value == pytest.approx(measured.planned.depth.value, rel=1e-4)
    assert measured.gauge.rows == pytest.approx(28, rel=1e-4)


@pytest.mark.parametrize(
    ("circumference", "verdict"),
    [
        (48, "as_planned"),
        (48.8, "as_planned"),
        (52, "fits"),
        (46.5, "fits"),
        (46, "too_small"),
        (57, "too_large"),
    ],
)
def test_a_head_wears_a_hat_from_unstretched_to_a_fifth_stretched(circumference: float, verdict: str) -> None:
    """Half a stitch in 10 cm is as planned; the body stretches by a fifth in comfort (common practice)."""
    assert check(circumference=cm(circumference)).verdict == verdict
    assert in_stockinette(circumference=cm(circumference)).verdict == verdict


def test_a_hat_as_planned_is_knitted_on() -> None:
    """Nothing is ripped for a difference that two swatches have."""
    [option] = check(circumference=cm(48)).options
    assert (option.code, option.takes_back, option.stitches) == ("go_on", 0, None)


def test_an_edge_that_fits_stays_and_the_body_gets_other_counts() -> None:
    """At 46.5 cm the head can wear the edge: 96 to 104 stitches bring the body to 50.4 cm (arithmetic), 8 made evenly
    from here, or from the end of the brim.
    """
    answer = check(circumference=cm(46.5), fibre=None)
    assert codes(answer) == ["go_on", "other_counts", "block", "rip_back"]
    onward, back = answer.options[1], answer.options[3]
    assert onward.round.text == back.round.text == "*k11, kfb; rep from * around"
    assert onward.circumference.value == pytest.approx(104 * 46.5 / 96, rel=1e-4)
    brim = hats(**EXAMPLE["hat"])["sizes"][0]["brim"]["rounds"]
    assert (back.back_to, back.takes_back) == (brim, 30 - brim)
    assert onward.crown_counts[-1] == 8


def in_stockinette(**fields: Any) -> SizeCheckAnswer:
    """The same hat with a rolled edge in place of the rib."""
    return check(hat={**EXAMPLE["hat"], "brim": {"kind": "rolled"}}, **fields)


def test_an_edge_that_fits_no_head_is_taken_back_to_the_cast_on() -> None:
    """At 42 cm no blocking helps an edge in stockinette: 112 stitches at that gauge are 49 cm (arithmetic)."""
    [option] = in_stockinette(circumference=cm(42)).options
    assert (option.code, option.back_to, option.takes_back, option.stitches) == ("rip_back", 0, 30, 112)
    assert option.circumference.value == pytest.approx(49, rel=1e-4)


def test_a_ribbed_edge_stays_where_one_in_stockinette_does_not() -> None:
    """1 by 1 rib stretches to 1.96 times its width (heathersknittingjournal.com, 2020), half of it in comfort: 42 cm of
    rib go around 55.5, a third more, 37 cm do not, half as much again.
    """
    brim = hats(**EXAMPLE["hat"])["sizes"][0]["brim"]["rounds"]
    [back] = check(circumference=cm(42)).options
    assert (back.code, back.back_to, back.stitches) == ("rip_back", brim, 112)
    [anew] = check(circumference=cm(37)).options
    assert (anew.code, anew.back_to) == ("rip_back", 0)


def test_a_rib_that_hardly_folds_is_judged_as_stockinette() -> None:
    """6 by 1 rib is stockinette but for a column: common practice."""
    flat = {"kind": "ribbed", "rib": {"knit": 6, "purl": 1}}
    answer = check(hat={**EXAMPLE["hat"], "brim": flat}, circumference=cm(42))
    assert answer.options[-1].back_to == 0


@pytest.mark.parametrize(
    ("fields", "code", "why"),
    [
        ({"circumference": cm(46)}, "other_counts", "rounds of the body that are knitted stay 46 cm around"),
        ({"circumference": cm(37)}, "other_counts", "the edge stays 37 cm around"),
        ({"circumference": cm(46.5), "rounds_worked": 50}, "other_counts", "the body is done"),
        ({"circumference": cm(42), "rounds_worked": 5}, "other_counts", "measure again 3 cm above the brim"),
        ({"circumference": cm(42), "rounds_worked": 5}, "rip_back", "Too early"),
        ({"circumference": cm(46)}, "go_on", "the head cannot wear it"),
        ({"circumference": cm(37)}, "block", "38.9 cm around at best"),
        ({"circumference": cm(57), "fibre": "acrylic"}, "block", "stays 57 cm around"),
        ({"circumference": cm(57), "fibre": None}, "block", "depends on the fiber, which is not given"),
        ({"circumference": cm(57)}, "go_on", "the body stays 57 cm around, wider than the head"),
    ],
)
def test_a_way_that_does_not_help_is_named_with_the_reason(
    fields: dict[str, Any], code: str, why: str
) -> None:
    """A knitter thinks of each of the ways: none is passed over in silence."""
    answer = check(**fields)
    messages = {way.code: way.message for way in answer.unhelpful}
    assert why in messages[code]
    assert code not in codes(answer)


BRIM_ROUNDS = hats(**EXAMPLE["hat"])["sizes"][0]["brim"]["rounds"]


@pytest.mark.parametrize("rounds", [1, 5, BRIM_ROUNDS, BRIM_ROUNDS + 2, BRIM_ROUNDS + 8])
@pytest.mark.parametrize("circumference", [36, 42, 46, 60])
def test_before_3_cm_of_the_body_nothing_is_taken_back(circumference: float, rounds: int) -> None:
    """Rib draws in, a rolled edge curls and a cast-on pulls: common practice. 3 cm are 9 rounds at 28 in 10 cm."""
    answer = check(circumference=cm(circumference), rounds_worked=rounds)
    [option] = answer.options
    assert (option.code, option.takes_back, option.stitches) == ("go_on", 0, None)
    more = BRIM_ROUNDS + 9 - rounds
    assert f"{more} more round{'s' if more > 1 else ''}, to 3 cm above the brim" in option.message
    assert "comfortable" not in answer.message
    assert (answer.needle.change, answer.needle.sizes_high) == ("same", 0)
    assert [notice.code for notice in answer.warnings] == [
        "measured_in_rib" if rounds <= BRIM_ROUNDS else "measured_early"
    ]


def test_a_rolled_edge_is_no_measure_either() -> None:
    """It curls (common practice)."""
    answer = in_stockinette(rounds_worked=4, circumference=cm(60))
    assert codes(answer) == ["go_on"]
    assert [notice.code for notice in answer.warnings] == ["measured_early"]


def test_with_3_cm_of_the_body_it_is_judged() -> None:
    """9 rounds at 28 in 10 cm are 3.2 cm (arithmetic)."""
    answer = check(rounds_worked=BRIM_ROUNDS + 9)
    assert not answer.warnings
    assert "go_on" not in codes(answer)


def test_a_brim_that_fits_is_never_ripped_out() -> None:
    """A crown that begins on the brim: 96 stitches at 42 cm become 112 in the next round, and the rib, which the head
    can wear, stays.
    """
    request = {
        **EXAMPLE["hat"],
        "body": {"length": cm(8)},
        "brim": {**EXAMPLE["hat"]["brim"], "length": cm(8)},
    }
    brim = hats(**request)["sizes"][0]["brim"]["rounds"]
    answer = check(hat=request, rounds_worked=brim, circumference=cm(42))
    assert codes(answer)[0] == "other_counts"
    assert answer.options[0].stitches == 112
    assert {way.code: way.message for way in answer.unhelpful}["rip_back"].endswith(
        "the edge fits and can stay."
    )


def test_a_ribbed_edge_holds_a_body_that_is_too_wide() -> None:
    """Rib draws in by about a third (common practice): 60 cm of plain stitches hang loose on a head of 55.5, as many in
    rib, 40 cm at rest, do not. So the brim stays; a rolled edge does not.
    """
    brim = check(circumference=cm(60))
    assert (brim.verdict, codes(brim)[0], brim.options[0].back_to) == ("too_large", "rip_back", BRIM_ROUNDS)
    assert "The ribbed edge would hold it, but the body hangs loose" in brim.message
    assert not any("edge stays at 60 cm" in way.message for way in (*brim.options, *brim.unhelpful))
    [cast_on] = in_stockinette(circumference=cm(60)).options
    assert cast_on.back_to == 0


def test_a_rib_with_a_swatch_of_its_own_is_as_wide_as_measured() -> None:
    """Its gauge is that of the rib at rest, so nothing draws in further."""
    own = {**EXAMPLE["hat"]["brim"], "gauge": EXAMPLE["hat"]["gauge"]}
    answer = check(hat={**EXAMPLE["hat"], "brim": own}, circumference=cm(60))
    assert answer.options[-1].back_to == 0


def test_another_needle_is_advised_only_where_a_needle_helps() -> None:
    """Up to four stitches in 10 cm (common practice): 96 stitches at 42 cm are 22.9, at 37 cm 25.9, and 20 were asked
    for.
    """
    near, far = in_stockinette(circumference=cm(42)), in_stockinette(circumference=cm(37))
    assert "another needle" in near.options[-1].message
    assert "no needle corrects that" in far.needle.message
    assert "needle" not in far.options[-1].message


def test_needle_advice_is_in_the_units_of_the_request() -> None:
    """A swatch in inches is counted over 4 in, 10.16 cm: 22.9 less 20 stitches there are 2.9 (arithmetic)."""
    assert "2.9 stitches more in 4 in" in check(circumference=cm(42), units="imperial").needle.message
    assert "2.9 stitches more in 10 cm" in check(circumference=cm(42)).needle.message


def test_a_hat_as_wide_as_the_head_is_called_so() -> None:
    """0 % smaller is no difference."""
    answer = check(circumference=cm(55.4))
    assert "as wide as the head" in answer.message
    assert "0 %" not in answer.message


def test_a_hat_of_the_width_of_another_size_says_so() -> None:
    """A head of 48 cm wears 42 cm of stockinette (48 / 42 is 1.14); one of 55.5 does not."""
    sizes = [{"head": cm(48)}, *EXAMPLE["hat"]["sizes"]]
    hat = {**EXAMPLE["hat"], "brim": {"kind": "rolled"}, "sizes": sizes}
    assert (
        "the width of size 1 of this hat, for a head of 48 cm"
        in check(hat=hat, size=2, circumference=cm(42)).message
    )
    assert "width of size" not in in_stockinette(circumference=cm(42)).message


@pytest.mark.parametrize(
    ("fibre", "circumference", "blocked"),
    [
        ("wool", 46, 48),  # C: wool keeps 5 % when blocked; the plan is nearer
        ("acrylic", 45, 47.5),  # P: acrylic grows by 2.5 cm (razmery.info)
        ("cotton", 46, None),  # P: cotton shrinks
        ("cotton", 55.6, 53.6),  # by 2 cm
        ("cotton", 57, None),  # 55 cm on a head of 55.5 hardly stretch
        ("acrylic", 57, None),
        (None, 57, None),  # unknown
    ],
)
def test_blocking_goes_as_far_as_the_fibre(
    fibre: str | None, circumference: float, blocked: float | None
) -> None:
    """In the wash wool and cotton shrink by 1 to 2 cm, acrylic and viscose grow by 1 to 2.5 cm (razmery.info)."""
    answer = check(circumference=cm(circumference), fibre=fibre)
    found = [option.circumference.value for option in answer.options if option.code == "block"]
    assert found == ([] if blocked is None else [pytest.approx(blocked)])


def test_in_the_crown_no_other_counts_are_left() -> None:
    """Where decreases are begun the body is done."""
    answer = check(circumference=cm(46.5), rounds_worked=50)
    assert "other_counts" not in codes(answer)
    assert answer.options[0].straight_rounds is None


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"size": 2}, "#/size"),
        ({"rounds_worked": 300}, "#/rounds_worked"),
        ({"circumference": cm(4.6)}, "#/circumference"),
        ({"circumference": None, "width": cm(96)}, "#/width"),
        ({"length": cm(100)}, "#/length"),
        ({"circumference": None}, "#/circumference"),
        ({"width": cm(23)}, "#/width"),
    ],
)
def test_what_cannot_be_this_hat_is_refused(fields: dict[str, Any], pointer: str) -> None:
    """The error names the field and the nearest thing that works."""
    with pytest.raises(Impossible) as error:
        check(**fields)
    assert error.value.pointer == pointer
    assert error.value.nearest


WOMAN: dict[str, Any] = {
    "gauge": {"stitches": 20, "rows": 28},
    "sizes": [{"adult": "woman"}],
    "brim": {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}},
    "crown": {"style": "wedge"},
    "needles": 4,
}
"""104 stitches at 20 in 10 cm, 52 cm around; 12 rounds of brim, 27 of body and 20 of crown."""


def check_woman(**fields: Any) -> SizeCheckAnswer:
    return check(**{"hat": WOMAN, "fibre": None, "circumference": None, **fields})


@pytest.mark.parametrize(
    ("fields", "question", "nearest", "meant"),
    [
        ({"width": cm(52)}, "the measure all the way around", "52 cm as circumference", 26),
        ({"width": cm(57)}, "the measure all the way around", "57 cm as circumference", 28.5),
        ({"circumference": cm(26)}, "the width laid flat", "26 cm as width", 52),
        ({"circumference": cm(30)}, "the width laid flat", "30 cm as width", 60),
        (
            {"width": cm(52), "rounds_worked": 20},
            "the measure all the way around",
            "52 cm as circumference",
            26,
        ),
        (
            {"width": cm(52), "rounds_worked": 8},
            "the measure all the way around",
            "52 cm as circumference",
            26,
        ),
    ],
)
def test_a_flat_width_is_not_the_measure_around(
    fields: dict[str, Any], question: str, nearest: str, meant: float
) -> None:
    """No hat is ripped out that has half or twice the planned measure: a tape goes around, or from edge to edge
    (common practice).
    """
    with pytest.raises(Impossible) as error:
        check_woman(**fields)
    assert question in error.value.detail
    assert error.value.nearest == nearest
    assert error.value.suggestion is not None
    assert error.value.suggestion.value == cm(meant)
    [field] = {"width", "circumference"} & set(fields)
    assert check_woman(**{**fields, field: cm(meant)}).options


@pytest.mark.parametrize("rounds", [5, 14])
def test_nothing_is_called_too_small_before_it_can_be_measured(rounds: int) -> None:
    """Rib draws in by a third, and an edge pulls (common practice): no verdict on the hat, not a good one either."""
    answer = check_woman(rounds_worked=rounds, circumference=cm(40))
    assert answer.verdict == "too_early"
    assert "it is too early to tell" in answer.message
    assert check_woman(rounds_worked=rounds, circumference=cm(52)).verdict == "too_early"


def test_a_rib_of_two_colours_does_not_hold_a_body_that_is_too_wide() -> None:
    """Plain rib draws in by a third, and is kept; the yarn carried behind keeps one of two colours wide (common
    practice): it is ripped out too.
    """
    colours = {"brim": [{"colour": "cream"}], "body": [{"colour": "cream"}], "brim_purl": "navy"}
    wide = {"rounds_worked": 34, "circumference": cm(62)}
    assert check_woman(**wide).options[0].back_to == 12
    assert check_woman(**wide, hat={**WOMAN, "colours": colours}).options[0].back_to == 0


def test_rib_by_itself_may_lie_at_half_its_width() -> None:
    """2 by 2 rib stretches to 2.233 times its relaxed width (heathersknittingjournal.com, 2020)."""
    assert codes(check_woman(rounds_worked=10, circumference=cm(27))) == ["go_on"]


NEWBORN: dict[str, Any] = {
    "gauge": {"stitches": 22, "rows": 30},
    "sizes": [{"age_months": 0}],
    "brim": {"kind": "rolled"},
}


def test_blocking_comes_after_ripping_back_where_it_helps_little() -> None:
    """26 cm of acrylic grow to 28.5 (razmery.info), still 17 % less than a newborn's head: 30 rounds are ripped out."""
    answer = check(hat=NEWBORN, circumference=cm(26), length=cm(8), fibre="acrylic")
    assert codes(answer) == ["rip_back", "block"]
    assert answer.needle.change == "same"


@pytest.mark.parametrize(("rounds", "first"), [(22, "rip_back"), (28, "rip_back"), (30, "block")])
def test_little_work_is_ripped_back_and_much_is_blocked(rounds: int, first: str) -> None:
    """46 cm of wool are blocked to the 48 planned; where half of the 58 rounds are still to come, knitting anew is
    surer (common practice).
    """
    assert codes(check(rounds_worked=rounds))[0] == first


def test_how_deep_it_is_after_washing_is_said_to_be_unknown() -> None:
    """Figures in print are of the circumference alone (razmery.info)."""
    [block] = [option for option in check().options if option.code == "block"]
    assert "Its depth changes too" in block.message
    assert "measure width and height" in block.message


def test_a_depth_off_the_plan_is_not_called_as_planned() -> None:
    """28 rounds of 8.5 cm where 10 are planned: 15 % less deep (arithmetic), though as wide as planned."""
    answer = check_woman(rounds_worked=28, circumference=cm(51), length=cm(8.5))
    assert answer.verdict == "as_planned"
    assert "in width that is as planned" in answer.message
    assert "17.9 cm deep, where 21.1 cm were planned" in answer.message
    assert "That is as planned" in check_woman(rounds_worked=28, circumference=cm(51), length=cm(9.9)).message


@pytest.mark.parametrize(
    ("long", "says"),
    [
        (20.0, "Go on as it is only if another depth than planned suits"),  # 25.3 cm, where 20.4 are planned
        (16.2, "Go on as it is: the body comes to 48 cm."),
    ],
)
def test_going_on_to_another_depth_is_left_to_the_knitter(long: float, says: str) -> None:
    """What is as planned in width alone is not advised as if it were so in depth (common practice)."""
    first = check_usual(rounds_worked=45, length=cm(long)).options[0]
    assert (first.code, says in first.message) == ("go_on", True)


def test_a_new_needle_and_new_counts_are_not_taken_together() -> None:
    """The counts are for the gauge as it is: with another needle the hat would be too small (arithmetic)."""
    both = check_woman(rounds_worked=34, circumference=cm(62), length=cm(12.7))
    assert (both.needle.change, "One or the other" in both.needle.message) == ("smaller", True)
    as_planned = check_woman(rounds_worked=34, circumference=cm(51), length=cm(12.1))
    assert "One or the other" not in as_planned.needle.message


def test_no_needle_is_named_where_none_corrects_the_gauge() -> None:
    """96 stitches at 37 cm are 25.9 in 10 cm, where 20 were asked for: another fabric (common practice)."""
    needle = in_stockinette(circumference=cm(37)).needle
    assert "no needle corrects that" in needle.message
    assert (needle.change, needle.sizes_low, needle.sizes_high) == ("same", 0, 0)


@pytest.mark.parametrize(
    ("high", "onward"),
    [
        (13, "then 3 more rounds to the crown."),
        (13.6, "then 1 more round to the crown."),
        (14, "then the crown."),
    ],
)
def test_rounds_to_the_crown_are_counted_as_a_knitter_says(high: float, onward: str) -> None:
    """The higher the 36 rounds are, the fewer are missing; nobody works 0 more."""
    answer = check_woman(rounds_worked=36, circumference=cm(55), length=cm(high))
    [counts] = [option for option in answer.options if option.code == "other_counts"]
    assert onward in counts.message


def test_a_hat_whose_rounds_are_done_is_closed() -> None:
    """Nothing is left to go on with."""
    [option] = check_woman(rounds_worked=59, circumference=cm(51), length=cm(21)).options
    assert option.message.startswith("All rounds are done: close the top.")


def test_a_size_that_the_hat_itself_names_is_said_there() -> None:
    """`only_size` is the hat's, and so is the fault."""
    with pytest.raises(Impossible) as error:
        check(hat={**EXAMPLE["hat"], "only_size": 2})
    assert (error.value.pointer, error.value.nearest) == ("#/hat/only_size", "size 1")


@given(hat_requests(), st.floats(0.61, 1.59), st.integers(1, 60))
def test_whatever_is_measured_something_can_be_done(hat: dict[str, Any], times: float, rounds: int) -> None:
    """Every way out is knittable: its round comes out when it is worked, and its crown begins at its count."""
    planned = hats(**hat)["sizes"][0]
    rounds = min(rounds, planned["brim"]["rounds"] + planned["body"]["rounds"])
    measures = planned["measurements"]
    around = measures["circumference" if rounds <= planned["brim"]["rounds"] else "body_circumference"]
    measured = {"value": around["value"] * times, "unit": around["unit"]}
    answer = check(hat=hat, rounds_worked=rounds, circumference=measured, fibre=None)
    assert answer.options
    offered, not_offered = set(codes(answer)), {way.code for way in answer.unhelpful}
    assert not offered & not_offered
    if answer.verdict != "as_planned":
        assert offered | not_offered == {"go_on", "other_counts", "block", "rip_back"}
    for option in answer.options:
        assert 0 <= option.takes_back <= rounds
        if option.round is not None:
            assert (
                work_round(option.round.number, option.round.before, option.round.steps).after
                == option.stitches
            )
        assert list(option.crown_counts) == sorted(option.crown_counts, reverse=True)


def test_a_hat_that_no_longer_covers_the_ears_is_warned_of() -> None:
    """0.32 of 55.5 cm are 17.8 cm to the ear canal (Snyder et al.; ANSUR II): rows a fifth lower end above it."""
    (notice,) = check(length=cm(30 / 2.8 * 0.8)).warnings
    assert (notice.code, "17.8 cm reach" in notice.message) == ("too_shallow", True)
    assert not check().warnings


def test_in_the_crown_no_rounds_before_it_are_advised() -> None:
    """Where decreases are begun the body is done."""
    knitted = hats(**EXAMPLE["hat"])["sizes"][0]
    begun = knitted["brim"]["rounds"] + knitted["body"]["rounds"] + 4
    (notice,) = check(rounds_worked=begun, length=cm(begun / 2.8 * 0.8)).warnings
    assert (notice.code, "only ripping back" in notice.message) == ("too_shallow", True)


USUAL: dict[str, Any] = {**EXAMPLE["hat"], "sizes": [{"head": cm(54)}]}
"""96 stitches, 48 cm around; 11 rounds of brim, 28 of body and 18 of crown, 20.4 cm deep."""


def check_usual(**fields: Any) -> SizeCheckAnswer:
    """The usual hat, as wide as planned where no width is among the fields."""
    width = {} if "width" in fields else {"width": cm(24)}
    return check(**{"hat": USUAL, "fibre": None, "circumference": None, **width, **fields})


@pytest.mark.parametrize(
    ("rounds", "long", "deep", "lost"),
    [
        (34, 15, 22.9, 6),  # 15 + 18 × 15 / 34
        (36, 15, 22.5, 5),
        (39, 17, 24.8, 10),
        (45, 20, 25.3, 17),  # the crown is begun: 20 + 12 × 20 / 45
        (57, 25, 25.0, 29),  # it is done
    ],
)
def test_a_hat_with_too_many_rounds_says_how_deep_it_becomes(
    rounds: int, long: float, deep: float, lost: int
) -> None:
    """The crown has 18 rounds, as high as those that are knitted: arithmetic. A hat that is too deep can be worn."""
    answer = check_usual(rounds_worked=rounds, length=cm(long))
    assert answer.verdict == "as_planned"
    assert f"about {deep:.3g} cm deep, where 20.4 cm were planned" in answer.options[0].message
    assert codes(answer) == ["go_on", "rip_back"]
    back = answer.options[1]
    assert (back.takes_back, back.back_to, back.straight_rounds) == (lost, rounds - lost, 0)
    assert (back.stitches, back.crown_counts) == (None, ())
    assert back.message in answer.message
    assert (rounds - lost + 18) * long / rounds == pytest.approx(20.36, abs=long / rounds / 2)


HAT_FOR_56_CM: dict[str, Any] = {**EXAMPLE["hat"], "sizes": [{"head": cm(56)}]}
"""104 stitches of 20 in 10 cm, 52 cm around; 12 rounds of brim and 27 of body."""


def test_a_loose_body_gets_other_counts_while_most_of_it_is_still_to_come() -> None:
    """Rounds that hang loose do so whatever is knitted above them (common practice): they are told, or ripped back."""
    early, late = (
        check(hat=HAT_FOR_56_CM, rounds_worked=12 + body, circumference=cm(58)) for body in (12, 20)
    )

    [counts] = [option for option in early.options if option.code == "other_counts"]
    assert "The 12 rounds of the body that are knitted stay 58 cm around." in counts.message
    assert "other_counts" not in codes(late)
    [why] = [way.message for way in late.unhelpful if way.code == "other_counts"]
    assert "the 20 rounds of the body that are knitted stay 58 cm around, wider than the head" in why


def test_a_hat_is_not_blocked_to_the_width_of_the_head() -> None:
    """58 cm of wool shrink to 56 (razmery.info): on a head of 56 it hardly stretches and is still loose."""
    answer = check(hat=HAT_FOR_56_CM, rounds_worked=31, circumference=cm(58))
    assert codes(answer) == ["rip_back"]
    [why] = [way.message for way in answer.unhelpful if way.code == "block"]
    assert "56 cm around at best, and still sits loosely" in why


@pytest.mark.parametrize(
    ("rounds", "long", "way"),
    [
        (
            42,
            16,
            "rip back 7 rounds, to the end of round 35, and begin it there. The hat then comes to about",
        ),
        (40, 14.3, "begin it with the next round. The hat then comes to about"),
        (42, 12.6, "work 8 more rounds first. The hat then comes to about"),
    ],
)
def test_who_has_knitted_straight_past_the_crown_is_told_what_to_do(
    rounds: int, long: float, way: str
) -> None:
    """39 rounds lie below the crown and 18 in it: nobody sees from a number of rounds whether it is begun. 20.36 cm are
    53.4 rounds of 16 / 42 cm, 57 of 14.3 / 40 and 67.9 of 12.6 / 42 (arithmetic).
    """
    notice = check_usual(rounds_worked=rounds, length=cm(long)).warnings[-1]
    assert (notice.code, notice.pointer) == ("crown_assumed", "#/rounds_worked")
    assert f"planned after round 39. If it is not, {way}" in notice.message
    assert not check_usual(rounds_worked=39, length=cm(13.9)).warnings


def test_a_hat_ripped_back_to_the_brim_asks_for_no_crown() -> None:
    """The crown is gone with it, whether it was begun or not."""
    answer = check_usual(rounds_worked=45, width=cm(30), length=cm(16))
    assert codes(answer)[0] == "rip_back"
    assert not answer.warnings


def test_a_crown_due_now_is_said() -> None:
    """39 rounds at 28 in 10 cm are 13.9 cm (arithmetic)."""
    [option] = check_usual(rounds_worked=39, length=cm(13.9)).options
    assert option.message.endswith("Begin the crown with the next round.")


def test_a_round_or_two_too_many_is_not_ripped() -> None:
    """40 rounds of 14.6 cm, one more than planned, are within a tape of the plan (common practice)."""
    answer = check_woman(rounds_worked=40, circumference=cm(52), length=cm(14.6))
    assert codes(answer) == ["go_on"]


def test_rows_off_the_plan_keep_the_needle_for_another_reason() -> None:
    """Another needle would change the stitches too (common practice); so much for rows alone is counted again."""
    answer = check_usual(rounds_worked=34, length=cm(15))
    assert answer.needle.change == "same"
    assert "22.7 in 10 cm where the pattern has 28" in answer.needle.message
    assert "22.7" not in check_usual(rounds_worked=34).needle.message
    assert "count the rounds and measure the length once more" in answer.message
    both = check_usual(rounds_worked=34, width=cm(26), length=cm(34 / 2.8 * 26 / 24))
    assert "count the rounds" not in both.message


@pytest.mark.parametrize(("flat", "is_loose"), [(27, True), (26.5, True), (26, False), (25, False)])
def test_a_hat_that_hardly_stretches_sits_loosely(flat: float, is_loose: bool) -> None:
    """A hat is worked with negative ease, an inch at least (common practice)."""
    answer = check_usual(rounds_worked=30, width=cm(flat))
    assert answer.verdict == "fits"
    assert ("It would sit loosely" in answer.message) == is_loose
    assert ("can wear it" in answer.message) != is_loose


def test_a_hat_meant_to_sit_loosely_is_not_blamed_for_it() -> None:
    """Planned as wide as the head, it comes out as wide as planned or a little narrower."""
    loose = {**USUAL, "ease": {"percent": 0}}
    answer = check_usual(hat=loose, rounds_worked=30, width=cm(26.2))
    assert "loosely" not in answer.message


@pytest.mark.parametrize(
    ("fields", "first", "sentence"),
    [
        (
            {"rounds_worked": 34, "width": cm(20), "length": cm(9)},
            "rip_back",
            "ripping back gives it the depth too",
        ),
        ({"rounds_worked": 30, "length": cm(8.5)}, "go_on", "work more rounds before the crown"),
        ({"rounds_worked": 50, "length": cm(14)}, "rip_back", "only ripping back"),
        (
            {"rounds_worked": 50, "width": cm(22.3), "length": cm(14), "fibre": "wool"},
            "rip_back",
            "only ripping back",
        ),
    ],
)
def test_the_warning_of_a_shallow_hat_agrees_with_the_first_choice(
    fields: dict[str, Any], first: str, sentence: str
) -> None:
    """17.3 cm reach the ears of 54 (Snyder et al.; ANSUR II): what is advised for that is what comes first."""
    answer = check_usual(**fields)
    assert codes(answer)[0] == first
    notice = answer.warnings[0]
    assert (notice.code, sentence in notice.message) == ("too_shallow", True)


def test_a_crown_begun_too_early_is_begun_again() -> None:
    """50 rounds of 14 cm: 11 of the crown are ripped, and 16 are worked before it (arithmetic)."""
    back = check_usual(rounds_worked=50, length=cm(14)).options[0]
    assert (back.back_to, back.takes_back, back.straight_rounds) == (39, 11, 16)
    assert (39 + 16 + 18) * 14 / 50 == pytest.approx(20.36, abs=0.14)


def test_what_an_unknown_fibre_keeps_is_not_the_first_choice() -> None:
    """Wool keeps a width to which it is blocked, and cotton and acrylic keep less (common practice)."""
    narrow = {"rounds_worked": 30, "width": cm(22.3)}
    assert codes(check_usual(**narrow, fibre="wool")) == ["block", "rip_back"]
    unknown = check_usual(**narrow)
    assert codes(unknown) == ["rip_back", "block"]
    assert "Only wool keeps that width" in unknown.options[1].message


def test_a_hat_to_be_blocked_has_its_rounds_to_the_crown() -> None:
    """57 rounds at 28 in 10 cm are 61 at 30.1, 18 of them in the crown (arithmetic)."""
    [block, _] = check_usual(rounds_worked=30, width=cm(22.3), fibre="wool").options
    assert block.straight_rounds == 43 - 30
    assert "Work 13 more rounds to the crown" in block.message


def test_a_needle_for_a_hat_that_fits_is_for_the_next_one() -> None:
    """Go on as it is, and another needle: the one is said of this hat, the other of the next (common practice)."""
    next_hat = "That is for the next hat: keep the needle for this one."
    fits, too_small = check(circumference=cm(52)), check(circumference=cm(42))

    assert (fits.verdict, fits.options[0].code) == ("fits", "go_on")
    assert fits.needle.change == "smaller"
    assert fits.needle.message.endswith(next_hat)
    assert too_small.verdict == "too_small"
    assert next_hat not in too_small.needle.message


def test_why_a_rib_may_stay_under_a_body_that_is_too_tight() -> None:
    """42 cm of plain knitting are too tight for 55.5 cm, 42 cm of rib are not: 1.48 times 42 are 62.2 (`stretch`)."""
    answer = check(circumference=cm(42))
    [back] = [option for option in answer.options if option.code == "rip_back"]

    assert back.back_to == BRIM_ROUNDS
    assert back.message.endswith(
        "The ribbed edge may stay: rib stretches further than plain knitting, this edge to about 62.2 cm in comfort. "
        "Try it on the head first."
    )
    loose = check(circumference=cm(60))
    assert not any("rib stretches further" in option.message for option in loose.options)


@pytest.mark.parametrize(
    ("brim", "hidden"),
    [
        ({"kind": "folded", "length": cm(6)}, 0.5),  # it is turned up by half of its rounds
        ({"kind": "folded", "length": cm(8)}, 0.5),
        ({"kind": "ribbed", "length": cm(6)}, 0.0),
        ({"kind": "rolled", "length": cm(2)}, 1.0),
    ],
)
def test_a_hat_ripped_back_to_its_brim_is_as_deep_as_planned(brim: dict[str, Any], hidden: float) -> None:
    """Rounds kept in the brim and those told to be worked, less those turned up, at the height as knitted (arithmetic).

    A folded brim, knitted in other rounds than one planned for that height has, was counted as if all of it showed.
    """
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"head": cm(58)}], "brim": brim}
    planned = hat_rounds(msgspec.convert(hat, HatRequest), 0)
    wide = cm(planned.measurements.circumference.value * 1.1)
    answer = check(hat=hat, fibre=None, width=None, circumference=wide, rounds_worked=60, length=cm(24.7))
    back = next(option for option in answer.options if option.back_to == planned.brim.rounds)
    kept, crown = planned.brim.rounds, len(back.crown_counts)
    deep = (kept * (1 - hidden) + back.straight_rounds + crown) * 24.7 / 60

    assert deep == pytest.approx(planned.measurements.depth.value, abs=0.5)
