"""A count checked, over the wire: where it is right, what went wrong, and that every repair leads back."""

import json
from random import Random
from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.counting import check as counting
from roundwright.knitting.counting.request import CountRequest
from roundwright.wording.proofreading.read import rounds_of
from tests.support import by_hand, slipping
from tests.support.miscounts import a_crown, a_hat, draw, lines_of

EIGHT_WEDGES = {"stitches": 88, "style": "wedge", "sections": 8}
"""A published crown: k9, k2tog; k8, k2tog; ... a plain round between: 88, 80, 72, ... 8."""


def check(**request: Any) -> dict[str, Any]:
    """The answer as it goes over the wire."""
    asked = msgspec.json.decode(json.dumps(request), type=CountRequest)
    return msgspec.json.decode(msgspec.json.encode(counting.check(asked, rounds_of)))


def codes(answer: dict[str, Any]) -> list[str]:
    """The causes named, in order."""
    return [cause["code"] for cause in answer["causes"]]


# --- a count that is right -------------------------------------------------------------------------------------------


def test_a_lost_place_is_found_by_the_count() -> None:
    """72 of the published 88, 80, 72, ... is right after the second decrease round and the plain one above it."""
    answer = check(crown=EIGHT_WEDGES, count=72)
    assert [(match["round"], match["last"]) for match in answer["matches"]] == [(3, 3), (4, 4)]
    assert answer["causes"] == []
    assert answer["next"]["text"] == "knit"


def test_a_known_round_with_the_right_count_says_what_comes_next() -> None:
    """After the plain round on 72, the published pattern goes on with k7, k2tog."""
    answer = check(crown=EIGHT_WEDGES, count=72, round=4)
    assert answer["next"]["text"] == "*k7, k2tog; rep from * around"
    assert (answer["next"]["before"], answer["next"]["after"]) == (72, 64)


def test_the_stitches_before_the_crown_are_right_before_round_1() -> None:
    """88 stitches: nothing of the crown is worked yet."""
    answer = check(crown=EIGHT_WEDGES, count=88)
    assert [match["round"] for match in answer["matches"]] == [0]
    assert answer["next"]["number"] == 1


def test_the_last_count_is_right_after_the_last_round() -> None:
    """8 stitches close the published crown: no line comes next."""
    answer = check(crown=EIGHT_WEDGES, count=8)
    assert answer["matches"]
    assert answer["next"] is None


@settings(max_examples=60)
@given(
    seed=st.integers(0, 10**6),
    by_needle=st.booleans(),
    known=st.booleans(),
    of=st.sampled_from(["crown", "hat"]),
)
def test_a_right_count_is_always_matched(seed: int, by_needle: bool, known: bool, of: str) -> None:
    """After any round of any work, worked by hand, the count is right on that round and the next line is the next."""
    chance = Random(seed)
    asked = a_crown(chance) if of == "crown" else a_hat(chance)
    try:
        split, rounds = lines_of(of, asked)
    except Impossible:
        return
    at = chance.randrange(len(rounds) + 1)
    needles = slipping.cast_on(split)
    for _, one in rounds[:at]:
        needles = slipping.knit(needles, one)
    counted = slipping.counts(needles)
    request: dict[str, Any] = {of: asked}
    request |= {"needles": counted} if by_needle else {"count": sum(counted)}
    part, number = (
        (rounds[at - 1][0], rounds[at - 1][1]["number"]) if at else (rounds[0][0] if rounds else None, 0)
    )
    if known:
        request["round"] = number
        if part:
            request["part"] = part

    answer = check(**request)

    assert answer["causes"] == []
    here = [match for match in answer["matches"] if match["round"] <= number <= match["last"]]
    assert any(match["part"] == (part or "crown") for match in here)
    if known:
        following = rounds[at][1] if at < len(rounds) else None
        assert (answer["next"] and answer["next"]["steps"]) == (following and following["steps"])
        assert (answer["next"] and answer["next"]["number"]) == (following and following["number"])


# --- what went wrong -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("count", "pair"),
    [(73, {"missed_decrease", "extra_stitch"}), (71, {"extra_decrease", "dropped_stitch"})],
)
@pytest.mark.parametrize("number", [None, 3, 4])
def test_causes_that_leave_the_same_count_are_both_named_first(
    count: int, pair: set[str], number: int | None
) -> None:
    """One more: a decrease missed or a yarn over; one less: one too many or a stitch dropped (common practice)."""
    answer = check(crown=EIGHT_WEDGES, count=count, round=number)
    assert set(codes(answer)[:2]) == pair
    assert answer["matches"] == []


def test_a_count_by_needle_names_the_needle_and_the_place() -> None:
    """Eight wedges on four needles hold 18 each at 72: 19 on the third is a decrease missed there."""
    answer = check(crown={**EIGHT_WEDGES, "needles": 4}, needles=[18, 18, 19, 18], round=3)
    first = answer["causes"][0]
    assert (first["code"], first["needle"], first["stitches"], first["round"]) == ("missed_decrease", 3, 1, 3)
    assert "leaves 9 stitches" in first["where"]
    assert "10" in first["where"]
    assert first["next"]["needles"] == [18, 18, 18, 18]


def test_the_only_decrease_on_a_needle_is_pointed_at() -> None:
    """Four needles hold one section of four each: k20, k2tog leaves its decrease 20 stitches in."""
    crown = {"stitches": 88, "style": "wedge", "sections": 4, "needles": 4}
    answer = check(crown=crown, needles=[21, 21, 22, 21], round=1)
    assert (answer["causes"][0]["needle"], answer["causes"][0]["stitch"]) == (3, 20)


@pytest.mark.parametrize("counted", [[18, 36, 0, 18], [18, 36, 18]])
def test_two_needles_worked_on_to_one_are_seen(counted: list[int]) -> None:
    """The count is right, but needle 2 holds the stitches of needle 3: whether the empty one is counted or not."""
    answer = check(crown={**EIGHT_WEDGES, "needles": 4}, needles=counted)
    first = answer["causes"][0]
    assert (first["code"], first["needle"], first["stitch"], first["stitches"]) == (
        "needles_merged",
        2,
        18,
        0,
    )
    assert answer["matches"] == []
    assert "18 stitches to an empty needle" in first["fix"]


def test_stitches_worked_on_to_the_needle_before_are_slid_back() -> None:
    """Needle 1 has two of needle 2's."""
    answer = check(crown={**EIGHT_WEDGES, "needles": 4}, needles=[20, 16, 18, 18])
    assert codes(answer)[0] == "needles_merged"
    assert "2 stitches of needle 2" in answer["causes"][0]["message"]


def test_a_round_miscounted_is_another_round() -> None:
    """64 stitches are right after rounds 5 and 6, not after 3."""
    answer = check(crown=EIGHT_WEDGES, count=64, round=3)
    assert codes(answer)[0] == "other_round"
    assert answer["causes"][0]["round"] == 5
    assert answer["causes"][0]["next"]["number"] == 6
    assert answer["matches"][0]["round"] == 5


def test_the_line_of_another_round_is_recognized() -> None:
    """52 stitches by k1, k2tog in place of k2, k2tog: 17 repeats and a stitch left over make 35."""
    answer = check(crown={"stitches": 52}, count=35, round=1)
    assert codes(answer)[0] == "other_round"
    assert "line of another round" in answer["causes"][0]["message"]


def test_a_round_half_finished_is_recognized() -> None:
    """Two needles hold what they should after round 3, two what they should before it."""
    answer = check(crown={**EIGHT_WEDGES, "needles": 4}, needles=[18, 18, 20, 20])
    first = answer["causes"][0]
    assert (first["code"], first["needle"], first["next"]["number"]) == ("other_round", 3, 3)
    assert "half done" in first["message"]


def test_all_the_decreases_of_one_needle_may_have_been_missed() -> None:
    """20 on needle 2 where 18 should be: both of its decreases."""
    answer = check(crown={**EIGHT_WEDGES, "needles": 4}, needles=[18, 20, 18, 18], round=3)
    first = answer["causes"][0]
    assert (first["code"], first["needle"], first["stitches"]) == ("missed_decrease", 2, 2)


def test_a_count_that_nothing_explains_is_to_be_made_again() -> None:
    """1,000 stitches are on no needles of this hat."""
    answer = check(crown=EIGHT_WEDGES, count=1000)
    assert codes(answer) == ["other_round"]
    assert "Count again" in answer["causes"][0]["where"]


def test_stitches_shared_out_in_a_way_of_ones_own() -> None:
    """Without a split nobody can say what a needle should hold, so the sum counts; with it every needle does."""
    own = [25, 25, 38]
    loose = check(crown=EIGHT_WEDGES, needles=own)
    assert [match["round"] for match in loose["matches"]] == [0]
    assert [warning["code"] for warning in loose["warnings"]] == ["split_assumed"]
    assert check(crown={**EIGHT_WEDGES, "needles": 3}, needles=own)["matches"] == []
    assert check(crown=EIGHT_WEDGES, needles=own, split=own)["matches"]


# --- a pattern in words ----------------------------------------------------------------------------------------------

WORDS = (
    "Rnd 1: *k6, k2tog; rep from * around — 42 (49) sts\nRnd 2: knit\nRnd 3: *k5, k2tog; rep from * around"
)


def test_a_pattern_in_words_is_checked_like_a_crown() -> None:
    """48 (56) sts by k6, k2tog; k5, k2tog (published): 49 in the second size is right after rounds 1 and 2."""
    pattern = {"cast_on": [48, 56], "text": WORDS}
    assert check(pattern=pattern, size=2, count=49)["matches"][0]["round"] == 1
    assert codes(check(pattern=pattern, size=1, count=43, round=1))[:2] == ["missed_decrease", "extra_stitch"]


def test_a_pattern_that_does_not_come_out_is_refused() -> None:
    """54 stitches by *k3, k2tog; rep from * around: 4 are left over (a printed fault), so nothing can be checked."""
    with pytest.raises(Impossible) as refused:
        check(pattern={"cast_on": [54], "text": "Rnd 1: *k3, k2tog; rep from * around"}, count=43)
    assert refused.value.pointer == "#/pattern/text"


# --- repairs ---------------------------------------------------------------------------------------------------------


@settings(max_examples=150)
@given(seed=st.integers(0, 10**6))
def test_every_repair_leads_back_to_the_pattern(seed: int) -> None:
    """The line named next, worked by hand on what it is for, leaves what the pattern has after that round.

    It is begun on what was counted where the repair is in it, on what was there before where work is taken back, and on
    what the pattern has where stitches were picked up or slid.
    """
    case = draw(Random(seed))
    request = case.request
    of = "crown" if "crown" in request else "hat"
    needles = {"needles": 2} if request[of].get("needles") is None else {}
    _, rounds = lines_of(of, {**request[of], **needles})
    total = sum(request["needles"]) if "needles" in request else request["count"]
    for cause in check(**request)["causes"]:
        line = cause["next"]
        if line is None:
            continue
        (planned,) = [
            one
            for part, one in rounds
            if one["number"] == line["number"] and part in (None, cause["next_part"])
        ]
        assert line["before"] in (total, planned["before"])
        assert by_hand.work(line["before"], line["steps"]) == planned["after"] == line["after"]
        if line["before"] == total != planned["before"] and line["needles"] and "needles" in request:
            held = [
                count
                for count in request["needles"]
                if count or len(request["needles"]) == len(line["needles"])
            ]
            assert by_hand.work_on_needles(held, line) == line["needles"]


@settings(max_examples=100)
@given(seed=st.integers(0, 10**6))
def test_a_repair_on_the_needle_named_leaves_every_needle_right(seed: int) -> None:
    """Where the needle is known and the needles are as asked for, the next line puts right each of them."""
    case = draw(Random(seed))
    if case.needle is None or case.code == "needles_merged" or "split" in case.request:
        return
    of = "crown" if "crown" in case.request else "hat"
    _, rounds = lines_of(of, case.request[of])
    for cause in check(**case.request)["causes"][:2]:
        line = cause["next"]
        if line is None or cause["needle"] is None:
            continue
        (planned,) = [
            one
            for part, one in rounds
            if one["number"] == line["number"] and part in (None, cause["next_part"])
        ]
        assert [n for n in line["needles"] if n] == [n for n in planned["needles"] if n]


def test_a_stitch_too_many_is_taken_in_by_the_next_plain_round() -> None:
    """73 where 72 should be: one k2tog in the plain round that follows (common practice)."""
    line = check(crown=EIGHT_WEDGES, count=73, round=3)["causes"][0]["next"]
    assert (line["number"], line["before"], line["after"], line["text"]) == (4, 73, 72, "k8, k2tog, k63")


def test_without_a_plain_round_the_decrease_round_puts_it_right() -> None:
    """Over a plain round a decrease round comes: one decrease is left out, or one more stitch taken in."""
    few = check(crown=EIGHT_WEDGES, count=71, round=4)["causes"]
    cause = next(cause for cause in few if cause["code"] == "extra_decrease")
    line = cause["next"]
    assert (line["number"], line["before"], line["after"]) == (5, 71, 64)
    assert "leave out a decrease" in cause["fix"]


def test_taking_back_is_named_last() -> None:
    """Every fix of a small slip ends with it, as the last resort."""
    for cause in check(crown=EIGHT_WEDGES, count=73, round=3)["causes"]:
        assert cause["fix"].endswith("is the last resort.")


# --- what cannot be asked --------------------------------------------------------------------------------------------

HAT = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"head": {"value": 50, "unit": "cm"}}]}


@pytest.mark.parametrize(
    ("request_", "pointer"),
    [
        ({"count": 72}, "#/crown"),
        ({"crown": EIGHT_WEDGES, "hat": HAT, "count": 72}, "#/hat"),
        ({"crown": EIGHT_WEDGES}, "#/count"),
        ({"crown": EIGHT_WEDGES, "count": 72, "needles": [36, 36]}, "#/needles"),
        ({"crown": EIGHT_WEDGES, "needles": [0, 0]}, "#/needles"),
        ({"crown": EIGHT_WEDGES, "count": 72, "round": 99}, "#/round"),
        ({"crown": EIGHT_WEDGES, "count": 72, "part": "crown"}, "#/part"),
        ({"crown": {**EIGHT_WEDGES, "needles": 3}, "needles": [18, 18, 18, 18]}, "#/needles"),
        ({"crown": EIGHT_WEDGES, "count": 72, "split": [30, 30]}, "#/split"),
        (
            {"crown": {**EIGHT_WEDGES, "stitches": 89, "needles": 4, "tolerance": 0}, "count": 72},
            "#/crown/tolerance",
        ),
        ({"crown": {**EIGHT_WEDGES, "worked": "flat", "needles": 3}, "count": 72}, "#/crown/needles"),
        ({"hat": HAT, "count": 72, "size": 2}, "#/size"),
        ({"hat": {**HAT, "gauge": {"stitches": 900, "rows": 28}}, "count": 72}, "#/hat/gauge/stitches"),
    ],
)
def test_what_cannot_be_answered_says_where(request_: dict[str, Any], pointer: str) -> None:
    """Each points at the field at fault, and says what works."""
    with pytest.raises(Impossible) as refused:
        check(**request_)
    assert refused.value.pointer == pointer
    assert refused.value.nearest


@settings(max_examples=150)
@given(
    seed=st.integers(0, 10**6),
    count=st.integers(1, 200) | st.integers(1, 10**6),
    needles=st.none() | st.lists(st.integers(0, 60), min_size=1, max_size=5).filter(any),
    number=st.none() | st.integers(0, 12),
    flat=st.booleans(),
)
def test_any_count_is_answered(
    seed: int, count: int, needles: list[int] | None, number: int | None, flat: bool
) -> None:
    """Right on some round, or put down to something, with a line to work that can be worked."""
    crown = a_crown(Random(seed))
    if flat:
        crown |= {"worked": "flat", "needles": None}
    request: dict[str, Any] = {"count": count} if needles is None else {"needles": needles}
    try:
        answer = check(crown=crown, round=number, **request)
    except Impossible:
        return
    assert answer["causes"] or answer["matches"]
    assert answer["message"]
    for cause in answer["causes"]:
        if cause["next"]:
            assert by_hand.work(cause["next"]["before"], cause["next"]["steps"]) == cause["next"]["after"]
