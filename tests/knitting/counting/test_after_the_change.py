"""Counts in the crown of a hat that goes from a short circular to double-pointed needles."""

from typing import Any

import pytest

from roundwright.knitting.answers import Impossible
from tests.knitting.counting.test_check import check, codes
from tests.support.hats import hats

HAT = {
    "gauge": {"stitches": 20, "rows": 28},
    "sizes": [{"adult": "woman"}, {"age_months": 6}],
    "brim": {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}},
    "crown": {"style": "wedge"},
    "needles": {"circular": {"value": 40, "unit": "cm"}, "double_pointed": 3},
}


def crown(size: int) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """The change to double-pointed needles of a size, and the rounds of its crown."""
    plan = hats(**HAT)["sizes"][size - 1]
    return plan["needles"]["change"], plan["crown"]["rounds"]


@pytest.mark.parametrize("size", [1, 2])
def test_the_rounds_after_the_change_say_the_stitches_on_each_needle(size: int) -> None:
    """The split of the change, less what each needle decreases, adds up to each count; none on the circular."""
    change, rounds = crown(size)
    assert [sum(change["split"])] == [
        line["before"] for line in rounds if line["number"] == change["before_round"]
    ]
    for line in rounds:
        if line["number"] < change["before_round"]:
            assert line["needles"] is None
        else:
            assert sum(line["needles"]) == line["after"]
            assert len(line["needles"]) == len(change["split"])


@pytest.mark.parametrize("size", [1, 2])
def test_a_right_count_says_what_each_needle_holds(size: int) -> None:
    """After the change the match has the stitches on each needle, as the plan has them, before it the count alone."""
    for line in crown(size)[1]:
        answer = check(hat=HAT, size=size, part="crown", round=line["number"], count=line["after"])
        assert answer["causes"] == []
        assert answer["matches"][0]["needles"] == line["needles"]
        assert not any(warning["code"] == "split_assumed" for warning in answer["warnings"])


def test_needles_counted_one_by_one_are_compared_with_the_plan() -> None:
    """A stitch too many on one needle after the change is found on that needle."""
    change, rounds = crown(1)
    line = rounds[change["before_round"] + 2 - rounds[0]["number"]]
    first, *others = line["needles"]

    right = check(hat=HAT, part="crown", round=line["number"], needles=line["needles"])
    wrong = check(hat=HAT, part="crown", round=line["number"], needles=[first + 1, *others])

    assert right["causes"] == []
    assert codes(wrong)[0] == "count_again"
    assert wrong["causes"][0]["needle"] == 1


def test_more_needles_than_take_over_are_shared_out_anew() -> None:
    """Who took four needles in place of three is compared with a split over four, and the answer says so."""
    line = crown(1)[1][-1]
    counted = [line["after"] - 3 * (line["after"] // 4), *[line["after"] // 4] * 3]
    answer = check(hat=HAT, part="crown", round=line["number"], needles=counted)
    assert any(warning["code"] == "split_assumed" for warning in answer["warnings"])


def test_a_size_too_small_for_the_circular_has_its_needles_from_the_brim_on() -> None:
    """60 stitches do not reach round 40 cm: the brim is counted needle by needle as well."""
    hat = {**HAT, "sizes": [{"gestation_weeks": 32}]}
    split = hats(**hat)["sizes"][0]["split"]["split"]
    answer = check(hat=hat, part="brim", round=2, needles=split)
    assert answer["causes"] == []
    assert answer["matches"][0]["needles"] == split


def test_the_split_of_the_knitter_goes_before_that_of_the_plan() -> None:
    """A `split` of the cast-on is followed through the hat, whatever the plan has."""
    cast_on = hats(**HAT)["sizes"][0]["cast_on"]["stitches"]
    split = [cast_on - 2 * (cast_on // 2 - 10), cast_on // 2 - 10, cast_on // 2 - 10]
    answer = check(hat=HAT, part="brim", round=1, needles=split, split=split)
    assert answer["matches"][0]["needles"] == split


def test_a_round_is_named_as_the_pattern_of_all_sizes_numbers_it() -> None:
    """A smaller size joins in with a later number; with the number before it, its crown is not yet begun."""
    hat = {**HAT, "needles": 4}
    small = hats(**hat)["sizes"][1]["crown"]["rounds"]
    first, line = small[0]["number"], small[2]
    right = check(hat=hat, size=2, round=line["number"], needles=line["needles"])
    wrong = check(hat=hat, size=2, round=line["number"], count=line["after"] + 2)

    assert first > 1
    assert right["causes"] == []
    assert right["next"]["number"] == line["number"] + 1
    assert f"round {line['number']} of the crown" in wrong["causes"][0]["message"]
    with pytest.raises(Impossible, match=f"joins in with round {first}") as early:
        check(hat=hat, size=2, round=first - 1, count=small[0]["before"])
    assert str(first) in str(early.value.nearest)
