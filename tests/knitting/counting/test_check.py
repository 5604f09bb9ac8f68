"""A count checked, over the wire: where it is right, what went wrong, and that every repair leads back."""

import json
from itertools import pairwise
from random import Random
from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.counting import check as counting
from roundwright.knitting.counting.request import CountRequest
from roundwright.language import words_of
from roundwright.wording.proofreading.read import read
from roundwright.wording.writing.plain_language import PlainLine
from tests.support import by_hand, mends, slipping
from tests.support.miscounts import a_crown, a_hat, draw, draw_miscount, lines_of

EIGHT_WEDGES = {"stitches": 88, "style": "wedge", "sections": 8}
"""A published crown: k9, k2tog; k8, k2tog; ... a plain round between: 88, 80, 72, ... 8."""


def check(**request: Any) -> dict[str, Any]:
    """The answer as it goes over the wire."""
    decoded = msgspec.json.decode(json.dumps(request), type=CountRequest)
    return msgspec.json.decode(msgspec.json.encode(counting.check(decoded, read, PlainLine), enc_hook=str))


def codes(answer: dict[str, Any]) -> list[str]:
    """The causes named, in order."""
    return [cause["code"] for cause in answer["causes"]]


def if_it_stays(answer: dict[str, Any]) -> list[dict[str, Any]]:
    """The causes that are left once the stitches were counted again and the count stayed."""
    return [cause for cause in answer["causes"] if cause["code"] != "count_again"]


# --- a count that is right -------------------------------------------------------------------------------------------


def test_a_lost_place_is_found_by_the_count() -> None:
    """72 of the published 88, 80, 72, ... is right after the second decrease round and the plain one above it."""
    answer = check(crown=EIGHT_WEDGES, count=72)
    assert [(match["round"], match["last"]) for match in answer["matches"]] == [(3, 3), (4, 4)]
    assert answer["causes"] == []
    assert answer["next"]["text"] == "knit"


def test_below_the_crown_rounds_are_counted_from_the_edge() -> None:
    """Brim and body have one count and no decrease to look for; between two decreases there is one below."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}], "crown": {"style": "wedge"}}
    below, in_crown = check(hat=hat, count=104), check(hat=hat, count=72)

    assert "from the cast-on edge up" in below["message"]
    assert "decreases" not in below["message"]
    assert "from the decreases up" in in_crown["message"]


def test_where_many_rounds_hold_a_count_no_round_is_named_as_sure() -> None:
    """104 is right in all of brim and body (arithmetic): she goes on as she was, and counts rounds above the edge."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}]}
    whole, body = check(hat=hat, count=104), check(hat=hat, count=104, part="body")
    last = {match["part"]: match["last"] for match in whole["matches"]}

    assert f"after any of rounds 1 to {last['body']} of the body" in body["message"]
    assert f"after the cast-on, after any of rounds 1 to {last['brim']} of the brim or" in whole["message"]
    for answer in (whole, body):
        assert (answer["next"], answer["causes"]) == (None, [])
        assert "Nothing is wrong: go on as you were." in answer["message"]
        assert "Next is" not in answer["message"]


@pytest.mark.parametrize("brim", [{"kind": "ribbed", "rib": {"knit": 2, "purl": 2}}, {"kind": "rolled"}])
@pytest.mark.parametrize("count", [100, 102, 103, 105, 106, 108])
def test_where_brim_and_body_hold_a_count_the_mend_holds_in_both(brim: dict[str, Any], count: int) -> None:
    """104 is right in all of a ribbed brim and of a body (arithmetic): a line of rib is wrong in the body."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}], "brim": brim}
    answer = check(hat=hat, count=count)
    causes = [cause for cause in answer["causes"] if cause["part"] != "crown"]

    assert causes
    for cause in causes:
        assert (cause["part"], cause["round"], cause["next"], cause["next_part"]) == (None, None, None, None)
        advice = " ".join((cause["message"], cause["where"], cause["fix"]))
        assert "[k" not in advice
        assert ": k" not in advice
        assert "In the rib you can see it" not in advice
        assert ("rib" in advice) <= (brim["kind"] == "ribbed")
    assert "cause after" not in answer["message"]
    here = check(hat=hat, count=103, part="body")
    assert here["causes"][-1]["round"] == 1


def test_after_a_decrease_or_the_plain_round_above_it_a_plain_round_is_taken_where_she_cannot_tell() -> None:
    """72 of 88, 80, 72, ... after round 3 or 4: a plain round too many does the least harm (common practice)."""
    answer = check(crown=EIGHT_WEDGES, count=72)
    assert "If you cannot tell, work round 4: knit." in answer["message"]


STRAIGHT_AND_CROWN = {
    "cast_on": [72],
    "text": "Rnds 1-8: *k2, p2; rep from * around\nRnd 9: *k11, m1; rep from * to last 6 sts, k6 - 78 sts\n"
    "Rnds 10-30: knit\nRnd 31: *k11, k2tog; rep from * around - 72 sts\nRnd 32: knit\n",
}
"""72 cast on, 78 above the rib, 72 again after the first decrease round."""


def test_a_lost_place_and_a_count_that_no_round_leaves_speak_of_the_same_places() -> None:
    """73 may be the 72 of the rib or of the crown: both are named, and the cause is told with its place."""
    answer = check(pattern=STRAIGHT_AND_CROWN, count=73)
    again, likeliest = answer["causes"][:2]

    assert (
        "72, after the cast-on, after any of rounds 1 to 8, after round 31 or after round 32"
        in again["message"]
    )
    assert (again["code"], likeliest["code"], likeliest["round"]) == ("count_again", "missed_decrease", 31)
    assert "the likeliest cause after round 31 is this. A decrease of round 31" in answer["message"]
    assert answer["next"] is None


def test_a_mend_in_a_round_that_nobody_knows_is_made_in_the_next() -> None:
    """103 of 104 somewhere in the body: no round has a number."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}]}
    answer = check(hat=hat, count=103, part="body")
    (mend,) = [cause["fix"] for cause in answer["causes"] if cause["code"] == "extra_decrease"]

    assert "Mend it in the next round." in mend
    assert "Then go on as you were." in answer["message"]
    assert "round 2" not in answer["message"] + mend


def test_before_the_work_is_joined_no_marker_hangs() -> None:
    """A marker is hung when the work is joined (common practice): the stitches cast on are counted from the first."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}]}
    cast_on, joined = (check(hat=hat, count=106, part="brim", round=number) for number in (0, 2))
    assert cast_on["causes"][0]["where"].startswith("Start at the first stitch cast on")
    assert joined["causes"][0]["where"].startswith("Start at the marker")


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
    kind=st.sampled_from(["crown", "hat"]),
)
def test_a_right_count_is_always_matched(seed: int, by_needle: bool, known: bool, kind: str) -> None:
    """After any round of any work, worked by hand, the count is right on that round and the next line is the next."""
    chance = Random(seed)
    piece = a_crown(chance) if kind == "crown" else a_hat(chance)
    try:
        split, rounds = lines_of(kind, piece)
    except Impossible:
        return
    at = chance.randrange(len(rounds) + 1)
    needles = slipping.cast_on(split)
    for _, worked_round in rounds[:at]:
        needles = slipping.knit(needles, worked_round)
    counted = slipping.counts(needles)
    request: dict[str, Any] = {kind: piece}
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
    assert codes(answer)[0] == "count_again"
    assert {cause["code"] for cause in if_it_stays(answer)[:2]} == pair
    assert answer["tell_apart"] in answer["message"]
    assert answer["matches"] == []


def test_a_count_by_needle_names_the_needle_and_the_place() -> None:
    """Eight wedges on four needles hold 18 each at 72: 19 on the third is a decrease missed there."""
    answer = check(crown={**EIGHT_WEDGES, "needles": 4}, needles=[18, 18, 19, 18], round=3)
    assert (codes(answer)[0], answer["causes"][0]["needle"]) == ("count_again", 3)
    first = if_it_stays(answer)[0]
    assert (first["code"], first["needle"], first["stitches"], first["round"]) == ("missed_decrease", 3, 1, 3)
    assert "9 stitches" in first["where"]
    assert "10" in first["where"]
    assert first["next"]["needles"] == [18, 18, 18, 18]


def test_the_only_decrease_on_a_needle_is_pointed_at() -> None:
    """Four needles hold one section of four each: k20, k2tog leaves its decrease 20 stitches in."""
    crown = {"stitches": 88, "style": "wedge", "sections": 4, "needles": 4}
    answer = check(crown=crown, needles=[21, 21, 22, 21], round=1)
    first = if_it_stays(answer)[0]
    assert (first["needle"], first["stitch"]) == (3, 20)


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
    assert "2 stitches that belong on needle 2" in answer["causes"][0]["message"]


def test_a_round_miscounted_is_another_round() -> None:
    """64 stitches are right after rounds 5 and 6, not after 3."""
    answer = check(crown=EIGHT_WEDGES, count=64, round=3)
    assert codes(answer)[0] == "other_round"
    assert answer["causes"][0]["round"] == 5
    assert answer["causes"][0]["next"]["number"] == 6
    assert answer["matches"][0]["round"] == 5


@pytest.mark.parametrize(("count", "more"), [(71, -1), (70, -2)])
def test_a_round_not_worked_with_a_stitch_lost_is_likelier_than_half_a_round_forgotten(
    count: int, more: int
) -> None:
    """72 before round 5 and 64 after it (published): with 71 it is hardly begun (common practice), so count again.

    One decrease or two of its eight are worked, if the count was made in the middle of it.
    """
    answer = check(crown=EIGHT_WEDGES, count=count, round=5)
    first = answer["causes"][0]
    assert (first["code"], first["round"], first["stitches"]) == ("other_round", 4, more)
    assert "72" in first["message"]
    assert "Count again" in answer["message"]
    assert f"in the middle of round 5: it is begun, with {-more} of its 8 decreases" in answer["message"]
    assert "missed_decrease" in codes(answer)
    assert answer["next"]["number"] == 5


@pytest.mark.parametrize("count", [102, 106])
def test_after_the_first_round_the_cast_on_may_be_miscounted(count: int) -> None:
    """Nobody has counted since: the edge tells, and only one round is lost by casting on again (common practice)."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}]}
    answer = check(hat=hat, part="brim", round=1, count=count)
    assert "cast on than planned" in answer["message"]
    assert f"Count along the cast-on edge: if it has {count}, too" in answer["message"]
    assert f"cast on again, for only one round is lost; or knit the brim on {count}" in answer["message"]
    code = "dropped_stitch" if count < 104 else "extra_stitch"
    (cause,) = [cause for cause in answer["causes"] if cause["code"] == code]
    assert "in the first round of the body" in cause["message"]
    later = check(hat=hat, part="brim", round=2, count=count + 1)
    assert "cast on than planned" not in later["message"]


@pytest.mark.parametrize(("count", "code"), [(100, "dropped_stitch"), (108, "extra_stitch")])
def test_a_rib_off_by_whole_repeats_is_mended_after_the_rib(count: int, code: str) -> None:
    """104 in k2, p2: with 100 or 108 its columns are right, and stitches taken out in the rib put them wrong.

    So it was cast on so, and is cast on again, or mended in the round after the rib (common practice).
    """
    rib = {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}}
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}], "brim": rib}
    causes = check(hat=hat, part="brim", round=6, count=count)["causes"]
    (cause,) = [cause for cause in causes if cause["code"] == code]

    assert f"cast on again while only a few rounds are lost; or work the rib on {count}" in cause["message"]
    assert "mend nothing in the rib" in cause["fix"]
    assert "k2tog" not in cause["fix"] + cause["next"]["text"]
    assert by_hand.work(cause["next"]["before"], cause["next"]["steps"]) == cause["next"]["after"]
    assert cause["next"]["after"] == max(count, 104)  # lost stitches are caught, those too many are kept


def test_a_rib_that_does_not_come_out_is_not_knitted_on() -> None:
    """102 are no repeats of k2, p2 (arithmetic), so the brim is not knitted on them; 100 are."""
    rib = {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}}
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}], "brim": rib}
    messages = [check(hat=hat, part="brim", round=1, count=count)["message"] for count in (102, 106)]
    assert all(
        "cast on again, for only one round is lost; or mend it in the next" in text for text in messages
    )
    few = check(hat=hat, part="brim", round=1, count=100)["causes"]
    assert "knit the brim on 100" in " ".join(cause["message"] for cause in few)


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


def test_a_needle_worked_plain_is_seen_and_catches_up_in_the_plain_round() -> None:
    """20 on needle 2 where 18 should be: both of its decreases, k8, k2tog twice, are worked in round 4."""
    answer = check(crown={**EIGHT_WEDGES, "needles": 4}, needles=[18, 20, 18, 18], round=3)
    first = answer["causes"][0]
    assert (first["code"], first["needle"], first["stitches"]) == ("worked_plain", 2, 2)
    assert (first["next"]["number"], first["next"]["needles"]) == (4, [18, 18, 18, 18])
    assert first["next"]["text"] == "k26, k2tog, k8, k2tog, k36"


def test_a_needle_worked_plain_before_another_decrease_round_has_a_round_of_its_own() -> None:
    """k2tog around on 30, 30, 30, 30, the second knitted plain: 15 k2tog there, the others knitted, then round 2."""
    crown = {"stitches": 120, "style": "gathered"}
    answer = check(crown=crown, split=[30] * 4, needles=[15, 30, 15, 15], round=1)
    first = answer["causes"][0]
    assert (first["code"], first["needle"], first["stitches"]) == ("worked_plain", 2, 15)
    assert (first["next"]["before"], first["next"]["after"], first["next"]["needles"]) == (75, 60, [15] * 4)
    assert "round 2" in first["fix"]


@settings(max_examples=150)
@given(seed=st.integers(0, 10**6))
def test_a_needle_worked_plain_is_named_first_at_any_size(seed: int) -> None:
    """Any crown of up to 600 stitches, any round with two decreases or more on a needle."""
    chance = Random(seed)
    crown = {**a_crown(chance), "stitches": chance.randint(6, 150) * 4}
    try:
        split, rounds = lines_of("crown", crown)
    except Impossible:
        return
    at = chance.randrange(len(rounds))
    line = rounds[at][1]
    begun = list(rounds[at - 1][1]["needles"] if at else split)
    for move in reversed(line["moves"]):
        begun[move["needle"] - 1] -= move["stitches"]
        begun[move["needle"]] += move["stitches"]
    shaped = [n for n, (left, held) in enumerate(zip(line["needles"], begun, strict=True)) if left < held]
    needle = chance.choice(shaped or [0])
    names = iter(by_hand.stitches(line["steps"]))
    decreases = _decreases_on(begun, needle, list(names))
    if decreases < 2 or len(shaped) < 2:
        return
    counted = [*line["needles"][:needle], begun[needle], *line["needles"][needle + 1 :]]

    answer = check(crown=crown, needles=counted, round=line["number"])

    if answer["causes"][0]["code"] == "other_round":  # just right after another round, too
        assert sum(counted) in [worked_round["after"] for _, worked_round in rounds]
        return
    first = answer["causes"][0]
    assert (first["code"], first["needle"]) == ("worked_plain", needle + 1)
    assert by_hand.work_on_needles(counted, first["next"]) == line["needles"]


def _decreases_on(begun: list[int], needle: int, names: list[str]) -> int:
    """Decreases among the stitches of a needle."""
    at = decreases = 0
    for name in names:
        uses, leaves = by_hand.LOOPS[name]
        decreases += sum(begun[:needle]) <= at < sum(begun[: needle + 1]) and uses > leaves
        at += uses
    return decreases


@pytest.mark.parametrize(
    ("count", "number", "forgotten"),
    [(66, 3, "Decreases of round 3"), (61, 3, None), (60, 5, "Decreases of round 5")],
)
def test_the_headline_counts_again_first_and_tells_a_guess_as_a_guess(
    count: int, number: int, forgotten: str | None
) -> None:
    """Nobody sees from a count what was knitted wrong, and counting again costs least (common practice)."""
    crown = {"stitches": 80, "style": "wedge", "sections": 8, "needles": 4}
    answer = check(crown=crown, count=count, round=number)
    assert "count_again" in codes(answer)
    again, guess = (
        answer["message"].find(text) for text in ("count again before", "the likeliest cause is this.")
    )
    assert 0 < again < guess
    if forgotten:
        assert codes(answer)[0] == "missed_decrease"
        assert f"the likeliest cause is this. {forgotten}" in answer["message"]


def test_without_a_miscount_among_the_causes_the_first_is_still_a_guess() -> None:
    """Half of the decreases of a round are no miscount, and no more than likely."""
    answer = check(crown={"stitches": 144, "style": "wedge", "sections": 12}, count=138, round=1)
    assert "count_again" not in codes(answer)
    assert answer["message"].startswith("The likeliest cause is this. ")


def test_a_count_that_nothing_explains_is_to_be_made_again() -> None:
    """1,000 stitches are on no needles of this hat."""
    answer = check(crown=EIGHT_WEDGES, count=1000)
    assert codes(answer) == ["count_again"]
    assert "Count again" in answer["causes"][0]["where"]


def test_stitches_shared_out_in_a_way_of_ones_own() -> None:
    """Without a split nobody can say what a needle should hold, so the sum counts; with it every needle does."""
    own = [25, 25, 38]
    loose = check(crown=EIGHT_WEDGES, needles=own)
    assert [match["round"] for match in loose["matches"]] == [0]
    assert [warning["code"] for warning in loose["warnings"]] == ["split_assumed"]
    assert check(crown={**EIGHT_WEDGES, "needles": 3}, needles=own)["matches"] == []
    assert check(crown=EIGHT_WEDGES, needles=own, split=own)["matches"]


@pytest.mark.parametrize(
    ("held", "after"),
    [
        ([33, 31, 32], [31, 28, 29]),  # k10, k2tog: decreases on stitches 12 and 24; 36, 48, 60; 72, 84, 96
        ([30, 34, 32], [28, 31, 29]),  # 12, 24; 36, 48, 60; 72, 84, 96
    ],
)
def test_a_right_count_goes_on_over_the_needles_of_the_knitter(held: list[int], after: list[int]) -> None:
    """Who counts 33, 31 and 32 works the next round from those, not from 32 each: worked by hand."""
    answer = check(crown={"stitches": 96, "style": "wedge", "sections": 8}, needles=held, round=0)
    [match] = answer["matches"]
    assert (match["needles"], match["next"]["needles"]) == (held, after)
    assert (answer["next"]["needles"], answer["next"]["moves"]) == (after, [])
    [warning] = answer["warnings"]
    assert (warning["code"], "followed as you counted" in warning["message"]) == ("split_assumed", True)


@pytest.mark.parametrize("held", [{}, {"needles": 3}])
def test_who_shares_evenly_is_not_told_that_the_needles_are_off(held: dict[str, int]) -> None:
    """72 on three needles are 24 each (common practice), 22, 21, 21 after k7, k2tog: one stitch is lost on needle 3."""
    crown = {"stitches": 72, "style": "wedge", "sections": 8, **held}
    answer = check(crown=crown, needles=[22, 21, 20], round=2)
    assert {cause["needle"] for cause in answer["causes"]} == {3}
    assert "too many" not in " ".join(cause["where"] for cause in answer["causes"])
    assert answer["message"].startswith(
        "If you began with 24, 24, 24 on the needles, there should be 21 on needle 3"
    )
    assert "slipped off (perhaps on needle 3)" in answer["message"]
    (warning,) = answer["warnings"]
    assert (warning["code"], warning["pointer"]) == ("split_assumed", "#/split")
    assert "24, 24, 24" in warning["message"]

    assert check(crown=crown, needles=[22, 21, 21], round=2)["causes"] == []
    whole_sections = check(crown=crown, needles=[24, 24, 15], round=2)
    assert {cause["needle"] for cause in whole_sections["causes"]} == {3}


# --- a pattern in words ----------------------------------------------------------------------------------------------

WORDS = (
    "Rnd 1: *k6, k2tog; rep from * around — 42 (49) sts\nRnd 2: knit\nRnd 3: *k5, k2tog; rep from * around"
)


def test_a_pattern_in_words_is_checked_like_a_crown() -> None:
    """48 (56) sts by k6, k2tog; k5, k2tog (published): 49 in the second size is right after rounds 1 and 2."""
    pattern = {"cast_on": [48, 56], "text": WORDS}
    assert check(pattern=pattern, size=2, count=49)["matches"][0]["round"] == 1
    assert codes(check(pattern=pattern, size=1, count=43, round=1)) == [
        "count_again",
        "missed_decrease",
        "extra_stitch",
    ]


UNREAD = """Rnds 1-4: *k2, p2; rep from * around
Rnd 5: *k6, k2tog; rep from * around (70 sts)
Rnd 6: knit
Rnd 7: as pointed as you like
Rnd 8: *k3, k2tog; rep from * around"""


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_line_that_cannot_be_read_later_is_a_warning(end: str) -> None:
    """Round 5 is finished: that round 7 cannot be read makes no difference, and is said."""
    pattern = {"cast_on": [80], "text": UNREAD.replace("\n", end)}
    answer = check(pattern=pattern, count=71, round=5)
    assert codes(answer)[:2] == ["count_again", "missed_decrease"]
    (warning,) = answer["warnings"]
    assert (warning["code"], warning["pointer"]) == ("followed_in_part", "#/pattern/text")
    assert "line 4" in warning["message"]


def test_after_the_last_line_that_is_sure_nothing_is_called_the_end() -> None:
    """Round 6 is finished, and round 7 cannot be read: the work is not done."""
    answer = check(pattern={"cast_on": [80], "text": UNREAD}, count=70, round=6)
    assert (answer["causes"], answer["next"]) == ([], None)
    assert "finish" not in answer["message"]


FRAGMENT = "Rnd 1: *k8, k2tog; rep from * (72)\nRnd 2: knit\nRnd 3: *k7, k2tog; rep from * (64)"


@pytest.mark.parametrize("count", [62, 63, 64, 65, 66])
def test_a_text_that_ends_with_more_than_are_drawn_together_is_a_part(count: int) -> None:
    """6 to about 20 stitches are drawn together at the top (common practice); 64 are mended in the next round."""
    answer = check(pattern={"cast_on": [80], "text": FRAGMENT}, count=count, round=3)
    text = " ".join([answer["message"], *(cause["fix"] for cause in answer["causes"])])
    assert not [order for order in ("draw the yarn", "no round left", "finish") if order in text]
    assert "The text ends" in text
    mended = {2: "Work each stitch that is too many", 1: "Work the stitch that is too many"}
    mended |= {-1: "Make a stitch", -2: "Make each missing stitch", 0: "go on as the pattern does"}
    assert mended[count - 64] in text


def test_a_text_that_ends_at_the_top_comes_to_the_finish() -> None:
    """64 to 8 in wedges (published): 8 are drawn together, and one more does no harm."""
    rounds = "\n".join(f"Rnd {8 - left}: *k{left - 1}, k2tog; rep from *" for left in range(7, 0, -1))
    pattern = {"cast_on": [64], "text": rounds.replace("*k0, ", "*")}
    assert "go on to the finish" in check(pattern=pattern, count=8, round=7)["message"]
    assert "does no harm" in if_it_stays(check(pattern=pattern, count=9, round=7))[0]["fix"]


@pytest.mark.parametrize("count", [{"count": 48, "round": 8}, {"count": 40}])
def test_a_round_behind_a_line_that_cannot_be_read_is_refused(count: dict[str, int]) -> None:
    """Nobody can say what is on the needles there, and without a round a small count may be from there."""
    with pytest.raises(Impossible) as refused:
        check(pattern={"cast_on": [80], "text": UNREAD}, **count)
    assert refused.value.pointer == "#/pattern/text"
    assert refused.value.nearest
    assert "line 4" in refused.value.detail


def test_a_line_that_fails_in_another_size_makes_no_difference() -> None:
    """The second size does not come out in round 1, the first does: who knits the first is answered."""
    pattern = {"cast_on": [48, 50], "text": "Rnd 1: *k6, k2tog; rep from * around"}
    assert check(pattern=pattern, count=42, round=1)["warnings"] == []


BERET = "Rnds 1-8: *k1, p1; rep from * around\nRnd 9: *k7, m1; rep from * around (80 sts)\nRnd 10: knit"


def test_a_forgotten_increase_is_made_in_the_next_round() -> None:
    """70 stitches by k7, m1 make 80; 79 may be a forgotten increase, made in the plain round above."""
    causes = if_it_stays(check(pattern={"cast_on": [70], "text": BERET}, count=79, round=9))
    assert [cause["code"] for cause in causes[:2]] == ["dropped_stitch", "missed_increase"]
    assert (causes[1]["next"]["before"], causes[1]["next"]["after"]) == (79, 80)
    assert "m1" in causes[1]["next"]["text"]


def test_several_forgotten_increases_are_made_as_far_apart_as_the_round_would_have_had_them() -> None:
    """Three of ten were forgotten: made side by side they would show, spread over the round they do not."""
    causes = if_it_stays(check(pattern={"cast_on": [70], "text": BERET}, count=77, round=9))
    (mend,) = [cause["next"] for cause in causes if cause["code"] == "missed_increase"]
    stitches = list(by_hand.stitches(mend["steps"]))
    made = [place for place, stitch in enumerate(stitches) if stitch == "m1"]

    assert len(made) == 3
    gaps = [after - before for before, after in pairwise([*made, made[0] + len(stitches)])]
    assert min(gaps) >= 80 // 4  # thirds, to a section of the round and a stitch


@pytest.mark.parametrize(("count", "part", "round"), [(133, "body", 1), (127, "crown", 1), (121, "crown", 3)])
@pytest.mark.parametrize(
    ("language", "knit"), [("en-US", "nit {} stitches."), ("de", "{} Maschen rechts stricken.")]
)
def test_a_hat_for_beginners_is_mended_in_words(
    count: int, part: str, round: int, language: str, knit: str
) -> None:
    """Who reads no abbreviations in the pattern reads none in the mend; the lines themselves stay as they are."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"adult": "woman"}], "silhouette": "beret"}
    usual, beginner = (
        counting.check(
            msgspec.convert(
                {"hat": {**hat, "wording": wording}, "count": count, "part": part, "round": round},
                CountRequest,
            ),
            read,
            PlainLine,
        )
        for wording in ("pattern", "beginner")
    )
    words = words_of(language)
    mended = [
        pair for pair in zip(usual.causes, beginner.causes, strict=True) if pair[0].next.before == count
    ]

    assert mended
    for short, in_words in mended:
        line, first = words.render(short.next.text), short.next.steps[0]
        assert short.next == in_words.next
        assert line in words.render(short.fix)
        assert line not in words.render(in_words.fix)
        assert knit.format(first.times) in words.render(in_words.fix)
        assert ".." not in words.render(in_words.fix)


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
    request = draw(Random(seed)).request
    total = sum(request["needles"]) if "needles" in request else request["count"]
    for cause in check(**request)["causes"]:
        line = cause["next"]
        if line is None:
            continue
        planned = mends.planned(request, cause)
        assert line["before"] in (total, planned["before"])
        assert by_hand.work(line["before"], line["steps"]) == planned["after"] == line["after"]
        if line["before"] == total != planned["before"] and line["needles"] and "needles" in request:
            assert by_hand.work_on_needles(mends.held(request, cause), line) == line["needles"]


@settings(max_examples=300)
@given(seed=st.integers(0, 10**6), slip=st.booleans())
def test_the_needle_named_is_the_needle_mended(seed: int, slip: bool) -> None:
    """Whatever the work, the slip and the split: the repaired line differs from the line as planned on that needle."""
    case = (draw if slip else draw_miscount)(Random(seed))
    for cause in check(**case.request)["causes"]:
        assert not mends.changed_elsewhere(case.request, cause)


def test_the_needle_named_is_mended_where_the_split_is_assumed() -> None:
    """64, 56, ... shared out as the knitter likes, 13 on the fourth where 14 should be: the mend comes after 42."""
    crown = {"stitches": 64, "style": "wedge", "sections": 8}
    causes = if_it_stays(check(crown=crown, needles=[14, 14, 14, 13], round=1))
    mend = next(cause for cause in causes if cause["code"] == "extra_decrease")
    assert (mend["needle"], mend["next"]["needles"]) == (4, [14, 14, 14, 14])
    assert [step["stitch"] for step in mend["next"]["steps"]] == ["k", "m1", "k"]
    assert 42 < mend["next"]["steps"][0]["times"] < 55


def test_taking_back_comes_after_a_round_that_matches() -> None:
    """56 where 48 should be after round 3, shared out unevenly: the count of round 2 comes before taking back."""
    crown = {"stitches": 64, "style": "wedge", "sections": 8, "needles": 4}
    causes = check(crown=crown, needles=[15, 13, 14, 14], round=3)["causes"]
    assert (causes[0]["code"], causes[0]["round"]) == ("other_round", 2)
    assert "take the work back" not in causes[0]["fix"]


@settings(max_examples=150)
@given(seed=st.integers(0, 10**6))
def test_nothing_is_taken_back_before_a_round_that_matches(seed: int) -> None:
    """Whatever the slip: no cause before another round that is just right takes the work back."""
    causes = check(**draw(Random(seed)).request)["causes"]
    matching = [at for at, cause in enumerate(causes) if "Your stitches are just right" in cause["message"]]
    back = [at for at, cause in enumerate(causes) if "take the work back" in cause["fix"]]
    assert not matching or not back or max(matching) < min(back)


@settings(max_examples=100)
@given(seed=st.integers(0, 10**6))
def test_a_repair_on_the_needle_named_leaves_every_needle_right(seed: int) -> None:
    """Where the needle is known and the needles are as asked for, the next line puts right each of them."""
    case = draw(Random(seed))
    if case.needle is None or case.code == "needles_merged" or "split" in case.request:
        return
    for cause in if_it_stays(check(**case.request))[:2]:
        line = cause["next"]
        if line is None or cause["needle"] is None:
            continue
        planned = mends.planned(case.request, cause)
        assert [n for n in line["needles"] if n] == [n for n in planned["needles"] if n]


def test_a_stitch_too_many_is_taken_in_by_the_next_plain_round() -> None:
    """73 where 72 should be: one k2tog in the plain round that follows (common practice)."""
    line = check(crown=EIGHT_WEDGES, count=73, round=3)["causes"][1]["next"]
    assert (line["number"], line["before"], line["after"], line["text"]) == (4, 73, 72, "k8, k2tog, k63")


def test_without_a_plain_round_the_decrease_round_puts_it_right() -> None:
    """Over a plain round a decrease round comes: one decrease is left out, or one more stitch taken in."""
    few = check(crown=EIGHT_WEDGES, count=71, round=4)["causes"]
    cause = next(cause for cause in few if cause["code"] == "extra_decrease")
    line = cause["next"]
    assert (line["number"], line["before"], line["after"]) == (5, 71, 64)
    assert "Leave out a decrease" in cause["fix"]


def test_taking_back_is_named_last() -> None:
    """Every fix of a small slip ends with it, as the last resort."""
    for cause in if_it_stays(check(crown=EIGHT_WEDGES, count=73, round=3)):
        assert cause["fix"].endswith("is the last resort.")


def test_counting_again_goes_on_as_planned() -> None:
    """A count that was wrong by one changes nothing: the next line is the next line."""
    again = check(crown=EIGHT_WEDGES, count=73, round=3)["causes"][0]
    assert (again["code"], again["stitches"], again["next"]["text"]) == ("count_again", 0, "knit")


def test_a_dropped_stitch_is_looked_for_before_anything_is_made() -> None:
    """One too few: the dropped stitch is named before other causes, and these send the knitter to look for it."""
    causes = if_it_stays(check(crown=EIGHT_WEDGES, count=71, round=3))
    assert causes[0]["code"] == "dropped_stitch"
    assert all("no stitch has dropped" in cause["fix"] for cause in causes[1:] if "m1" in cause["fix"])


RIBBED = {
    "gauge": {"stitches": 20, "rows": 28},
    "sizes": [{"head": {"value": 54, "unit": "cm"}}],
    "brim": {"kind": "ribbed", "rib": {"knit": 1, "purl": 1}},
}


def test_in_rib_the_place_is_seen_and_the_mend_keeps_the_rib() -> None:
    """One too many in a rib of one and one: two alike side by side, and the two are worked together as one of them."""
    cause = if_it_stays(check(hat=RIBBED, count=97, part="brim", round=6))[0]
    assert "two knits, or two purls, stand side by side" in cause["where"]
    assert "knit the knits and purl the purls" in cause["fix"]
    left = [name[0] for name in by_hand.stitches(cause["next"]["steps"])]
    assert left == ["k", "p"] * 48


def test_a_purl_dropped_in_rib_is_caught_from_the_back() -> None:
    """One too few in rib: the loop is caught as the stitch it is."""
    cause = if_it_stays(check(hat=RIBBED, count=95, part="brim", round=6))[0]
    assert cause["code"] == "dropped_stitch"
    assert "a purl from the back" in cause["fix"]


@settings(max_examples=200)
@given(seed=st.integers(0, 10**6), slip=st.booleans())
def test_every_answer_is_in_whole_sentences(seed: int, slip: bool) -> None:
    """No field is left unfilled, nothing is said twice over, and every text ends as a sentence does."""
    answer = check(**(draw if slip else draw_miscount)(Random(seed)).request)
    texts = [answer["message"], *([answer["tell_apart"]] if answer["tell_apart"] else [])]
    texts += [cause[name] for cause in answer["causes"] for name in ("message", "where", "fix")]
    for text in texts:
        assert text.endswith(".")
        assert not any(wrong in text for wrong in ("{", "None", "  ", "..", " 1 stitches"))
        assert text[0] == text[0].upper()
        assert text.count("Then work") <= 1


# --- what cannot be answered -----------------------------------------------------------------------------------------

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
            {"crown": {**EIGHT_WEDGES, "stitches": 89, "needles": 5, "tolerance": 0}, "count": 72},
            "#/crown/tolerance",
        ),
        ({"crown": {**EIGHT_WEDGES, "worked": "flat", "needles": 3}, "count": 72}, "#/crown/needles"),
        ({"hat": HAT, "count": 72, "size": 2}, "#/size"),
        ({"hat": {**HAT, "only_size": 2}, "count": 72}, "#/hat/only_size"),
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


def test_the_nearest_count_is_that_of_any_round():
    """91 after the first round of a crown on 92 is not near its 69: the crown has hardly begun, and the body has 92."""
    hat = {"gauge": {"stitches": 20, "rows": 28}, "sizes": [{"age_years": 8}], "needles": 4}
    message = check(hat=hat, size=1, part="crown", round=1, count=91)["message"]

    assert "nearer to the 92 after round 47 of the body" in message


def test_the_line_of_another_round_says_what_the_needles_would_hold() -> None:
    """20, 19, 21, 19 after round 3 are shared out otherwise than planned, and by the line of round 7 88 make 79, too.

    Worked by hand: k7, k2tog is worked nine times on 81 of 88 stitches; needle 1 has 22: k7, k2tog, k7, k2tog, k4.
    """
    crown = {"stitches": 96, "style": "wedge", "needles": 4}
    causes = check(crown=crown, needles=[20, 19, 21, 19], round=3)["causes"]

    (other,) = [cause for cause in causes if cause["code"] == "other_round"]
    assert other["where"].endswith("By that line the needles would hold 20, 19, 20, 20.")


def test_the_line_of_another_round_is_not_named_where_the_needles_contradict_it() -> None:
    """64 in eight wedges on four needles: 12 each after round 3; by the line of round 5 needle 3 had 11, not needle 2.

    Worked by hand: k4, k2tog on 56 leaves 12, 12, 11, 12 of 14 on each needle.
    """
    crown = {"stitches": 64, "style": "wedge", "sections": 8, "needles": 4}
    assert "other_round" not in codes(check(crown=crown, needles=[12, 11, 12, 12], round=3))
    assert "other_round" in codes(check(crown=crown, needles=[12, 12, 11, 12], round=3))


# --- whole needles, and slips that hide ------------------------------------------------------------------------------

FOUR_NEEDLES = {**RIBBED, "brim": {"kind": "ribbed", "rib": {"knit": 2, "purl": 2}}, "needles": 4}
"""54 cm at 2 stitches a centimeter, with the usual ease, in whole repeats of four: 96, 24 on each needle."""
SHARED_SOMEHOW = {name: value for name, value in FOUR_NEEDLES.items() if name != "needles"}


@pytest.mark.parametrize("part", ["brim", "body"])
@pytest.mark.parametrize(
    ("hat", "counted", "needle", "named"),
    [
        (FOUR_NEEDLES, {"needles": [24, 24, 0, 24]}, 3, "nothing on needle 3"),
        (FOUR_NEEDLES, {"needles": [24, 24, 24]}, None, "those of one needle"),
        (FOUR_NEEDLES, {"needles": [24, 24, 0, 23]}, 3, "nothing on needle 3"),
        (FOUR_NEEDLES, {"needles": [0, 24, 0, 24]}, None, "those of 2 needles"),
        (FOUR_NEEDLES, {"count": 72}, None, "those of one needle"),
        (FOUR_NEEDLES, {"count": 48}, None, "those of 2 needles"),
        (FOUR_NEEDLES, {"count": 24}, None, "those of 3 needles"),
        (SHARED_SOMEHOW, {"count": 72}, None, "those of one needle"),
        (SHARED_SOMEHOW, {"count": 64}, None, "those of one needle"),
        (SHARED_SOMEHOW, {"needles": [24, 24, 24]}, None, "those of one needle"),
    ],
)
def test_a_whole_needle_too_few_is_left_out_of_the_count(
    hat: dict[str, Any], counted: dict[str, Any], needle: int | None, named: str, part: str
) -> None:
    """96 less whole needles (arithmetic): count again, with all of them; else the stitches of one have slid off.

    The crown has 72, 64, 48 and 24, too, but nobody takes it for a rib or for a tube without decreases.
    """
    answer = check(hat=hat, part=part, round=5, **counted)
    again, off = answer["causes"][:2]

    assert [(cause["code"], cause["part"], cause["needle"]) for cause in (again, off)] == [
        ("count_again", part, needle),
        ("dropped_stitch", part, needle),
    ]
    assert named in again["message"]
    assert "Count again, with all needles. If it comes to 96" in answer["message"]
    assert "have slid off" in answer["message"]
    assert off["stitches"] == sum(counted.get("needles", [])) + counted.get("count", 0) - 96
    assert (again["next"]["number"], off["next"]["before"]) == (6, 96)
    assert answer["tell_apart"] is None


@pytest.mark.parametrize("counted", [{"needles": [48, 0]}, {"needles": [48]}, {"count": 48}])
def test_on_a_magic_loop_it_is_a_half_that_is_left_out(counted: dict[str, Any]) -> None:
    """96 are two halves of 48."""
    hat = {**FOUR_NEEDLES, "needles": {"magic_loop": {"value": 80, "unit": "cm"}}}
    answer = check(hat=hat, part="body", round=3, **counted)
    assert "Count again, in both halves" in answer["message"]
    assert "half" in answer["causes"][1]["message"]


def test_a_round_near_by_comes_before_a_needle_left_out() -> None:
    """64, 56, 48, ... (published): 48 after round 1 is right two rounds on, and three needles of four hold 42."""
    assert (
        codes(check(crown={"stitches": 64, "style": "wedge", "needles": 4}, count=48, round=1))[0]
        == "other_round"
    )


@pytest.mark.parametrize("hat", [FOUR_NEEDLES, SHARED_SOMEHOW])
@pytest.mark.parametrize(
    "place", [{"part": "crown"}, {"part": "crown", "round": 0}, {"part": "body", "round": 28}]
)
def test_at_the_start_of_the_crown_the_stitches_of_the_body_are_right(
    hat: dict[str, Any], place: dict[str, Any]
) -> None:
    """96 at the start of the crown: its first round is next, and there is no other round to look for."""
    answer = check(hat=hat, count=96, **place)
    assert answer["causes"] == []
    assert answer["message"].startswith(
        "96 stitches are right after round 28 of the body. Next is round 1 of the crown"
    )


def test_a_stitch_dropped_and_another_added_hide_each_other() -> None:
    """16 on each needle: 17, 16, 15, 16 are slid, or the third has dropped a stitch and the first has one added."""
    crown = {"stitches": 96, "style": "wedge", "sections": 8, "needles": 4}
    answer = check(crown=crown, needles=[17, 16, 15, 16], round=7)
    slid, dropped = answer["causes"]
    assert (slid["code"], dropped["code"], dropped["needle"]) == ("needles_merged", "dropped_stitch", 3)
    assert "slipped off needle 3" in dropped["message"]
    assert "added by accident on needle 1" in dropped["message"]
    assert "If a ladder opens, that is what happened" in answer["tell_apart"]
    assert "`" not in answer["message"]


def test_three_of_many_are_counted_again_first() -> None:
    """69 of 72, all in one: three slips in one round are less likely than a count that is wrong (common practice)."""
    answer = check(crown=EIGHT_WEDGES, count=69, round=3)
    assert codes(answer)[:2] == ["count_again", "dropped_stitch"]
    by_needle = check(crown={**EIGHT_WEDGES, "needles": 4}, needles=[18, 18, 15, 18], round=3)
    assert "count_again" in codes(by_needle)


@pytest.mark.parametrize("count", [95, 97])
def test_on_the_cast_on_there_is_no_rib_to_look_at(count: int) -> None:
    """Nothing is knitted yet: the edge is counted, and what is amiss is cast on or undone."""
    answer = check(hat=FOUR_NEEDLES, part="brim", round=0, count=count)
    (cause,) = if_it_stays(answer)
    texts = " ".join([answer["message"], cause["where"], cause["fix"]])
    assert not [word for word in ("In the rib", "ladder", "columns", "last resort") if word in texts]
    assert "Count along the cast-on edge" in cause["where"]
    assert ("cast on what is missing" if count < 96 else "undo what is too many") in cause["fix"]
    assert cause["next"]["text"] == "*k2, p2; rep from * around"


NUMBERED_CROWN = """Work 10 rounds in k2, p2 rib.
Knit 30 rounds.
Rnd 1: *k6, k2tog; rep from * (84)
Rnd 2: knit
Rnd 3: *k5, k2tog; rep from * (72)"""


@pytest.mark.parametrize("text", [NUMBERED_CROWN, NUMBERED_CROWN.replace("\n", ". ")])
def test_a_printed_number_wins_over_a_counted_one(text: str) -> None:
    """Rounds of the brim have no number in print: round 2 is that of the crown, where 96 stitches are 12 too many."""
    pattern = {"cast_on": [96], "text": text}
    answer = check(pattern=pattern, round=2, count=96)
    assert answer["causes"]
    assert "Round 2 is taken to be the one from line" in answer["message"]
    assert check(pattern=pattern, round=2, count=84)["next"]["number"] == 3
    assert check(pattern=pattern, round=20, count=96)["causes"] == []


@pytest.mark.parametrize(("count", "line", "other"), [(96, 1, 3), (84, 3, 1)])
def test_where_two_rounds_have_a_printed_number_the_answer_says_which_is_meant(
    count: int, line: int, other: int
) -> None:
    text = "Rnds 1-4: *k2, p2; rep from *\nRnd 1: *k6, k2tog; rep from * (84)\nRnd 2: knit"
    answer = check(pattern={"cast_on": [96], "text": text}, round=2, count=count)
    assert answer["causes"] == []
    assert f"taken to be the one from line {line} of the pattern" in answer["message"]
    assert f"another round 2, from line {other} of the pattern" in answer["message"]
