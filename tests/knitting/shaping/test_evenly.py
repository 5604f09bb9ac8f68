"""A change of the stitch count over one round or row, or over several."""

import re
from itertools import pairwise
from typing import get_args

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import Multiple
from roundwright.knitting.rounds.work_round import chained
from roundwright.knitting.shaping.evenly import even
from roundwright.knitting.shaping.request import MOST_SHAPED_ROUNDS, MOST_STITCHES_SHAPED, EvenRequest, Method
from tests.support.by_hand import LOOPS, work
from tests.support.spaced import PLAIN, gaps, spaced


def ask(**fields) -> EvenRequest:
    return msgspec.convert(fields, EvenRequest)


def answered(request):
    try:
        return even(request), None
    except Impossible as refusal:
        return None, refusal


@pytest.mark.parametrize(
    ("fields", "suggested"),
    [
        ({"stitches": 50_000, "change": 2, "rounds_of_shaping": 40}, {"rounds_of_shaping": 19}),
        ({"stitches": 136, "target": 107, "method": "k3tog"}, {"target": 108}),
        ({"stitches": 92, "change": -3, "method": "k3tog"}, {"change": -2}),
        ({"stitches": 34, "target": 76}, {"target": 68}),
        ({"stitches": 30, "change": -20}, {"change": -15}),
    ],
)
def test_what_cannot_be_worked_comes_with_the_value_that_can(fields, suggested):
    """The value put in its place makes the request work."""
    _, refusal = answered(ask(**fields))
    assert suggested == {refusal.suggestion.pointer.removeprefix("#/"): refusal.suggestion.value}
    answer, _ = answered(ask(**fields | suggested))
    assert answer is not None


requests = st.builds(
    EvenRequest,
    stitches=st.integers(1, 400),
    change=st.none() | st.integers(-100, 100),
    target=st.none() | st.integers(1, 600),
    multiple=st.none() | st.builds(Multiple, st.integers(1, 12), st.integers(0, 6)),
    method=st.none() | st.sampled_from(get_args(Method)),
    worked=st.sampled_from(["in_the_round", "flat"]),
    edge_stitches=st.integers(0, 3),
    arrangement=st.sampled_from(["balanced", "grouped"]),
    rounds_of_shaping=st.integers(1, 6),
    placement=st.sampled_from(["stacked", "staggered"]),
    plain_between=st.integers(0, 3),
)


@given(requests)
@settings(max_examples=500)
def test_every_answer_chains_when_worked_by_hand(request):
    """Every request is worked round by round, or refused with the nearest thing that works."""
    answer, refusal = answered(request)
    if answer is None:
        assert refusal.nearest
        assert refusal.pointer.startswith("#/")
        return
    loops = request.stitches
    for round in answer.rounds:
        assert round.before == loops
        loops = work(loops, msgspec.to_builtins(round.steps))
        assert round.after == loops
    assert (
        answer.stitches_after
        == loops
        == request.stitches + answer.change * (request.rounds_of_shaping if answer.times else 1)
    )
    if request.multiple:
        assert loops % request.multiple.of == request.multiple.plus % request.multiple.of
    chained(answer.rounds)


@pytest.mark.parametrize("method", get_args(Method))
def test_all_methods(method):
    """Each increase and decrease changes the count as the Craft Yarn Council's list says."""
    uses, leaves = LOOPS[method]
    change = 6 * (leaves - uses)
    answer = even(ask(stitches=90, change=change, method=method))

    assert (6, 90 + change) == (answer.times, answer.stitches_after)


def test_the_methods_are_all_that_change_the_count():
    """No increase or decrease of the stitch table is left out."""
    assert set(get_args(Method)) == {stitch for stitch, (uses, leaves) in LOOPS.items() if uses != leaves}


def test_a_target_in_place_of_a_change():
    """96 from 88 is a change of 8."""
    assert even(ask(stitches=88, target=96)).round == even(ask(stitches=88, change=8)).round


def test_a_multiple_takes_the_nearest_count_that_fits_with_a_warning():
    """97 do not fit eights; 96 do, and 104 are farther."""
    answer = even(ask(stitches=90, change=7, multiple={"of": 8}))

    assert 96 == answer.stitches_after
    assert ["fitted_to_multiple"] == [notice.code for notice in answer.warnings]
    assert "96" in answer.warnings[0].message


def test_a_multiple_alone_takes_the_nearest_count_the_method_reaches():
    """From 92, 88 and 96 are as near; a decrease reaches only 88, and centred decreases only in twos."""
    assert 96 == even(ask(stitches=92, multiple={"of": 8})).stitches_after
    assert 88 == even(ask(stitches=92, multiple={"of": 8}, method="ssk")).stitches_after
    assert 90 == even(ask(stitches=93, multiple={"of": 6})).stitches_after - 6
    assert 87 == even(ask(stitches=93, multiple={"of": 3}, method="cdd", change=-5)).stitches_after


def test_stitches_that_fit_already_are_left():
    """96 fit eights: a plain round and a warning."""
    answer = even(ask(stitches=96, multiple={"of": 8}))

    assert ("plain", 0, None, None) == (answer.round.kind, answer.change, answer.smallest_gap, answer.method)
    assert "nothing_to_change" in {notice.code for notice in answer.warnings}


@pytest.mark.parametrize(
    ("fields", "pointer", "nearest"),
    [
        ({"stitches": 40, "change": -21}, "#/change", "-20 at most in one round; or two rounds: 40, 29, 19"),
        ({"stitches": 40, "target": 19}, "#/target", "two rounds: 40, 29, 19 stitches"),
        ({"stitches": 40, "change": -30}, "#/change", "two rounds: 40, 20, 10 stitches"),
        ({"stitches": 40, "change": -39}, "#/change", "or 6 rounds"),
        ({"stitches": 40, "change": -40}, "#/change", "-20 at most in one round"),
        ({"stitches": 40, "change": 41, "method": "kfb"}, "#/change", "two rounds: 40, 61, 81"),
        ({"stitches": 40, "change": 41}, "#/change", "40 at most"),
        ({"stitches": 40, "change": 40, "worked": "flat"}, "#/change", "39 at most"),
        ({"stitches": 40, "change": 38, "worked": "flat", "edge_stitches": 2}, "#/change", "36 at most"),
        ({"stitches": 40, "change": -7, "method": "cdd"}, "#/change", "-6 or -8"),
        ({"stitches": 3, "change": -1, "method": "k3tog"}, "#/change", "-2"),
        ({"stitches": 2, "change": -1, "method": "k3tog"}, "#/change", "k2tog"),
        ({"stitches": 40, "change": 7, "method": "k2tog"}, "#/method", "m1"),
        ({"stitches": 40, "change": -7, "method": "yo"}, "#/method", "k2tog"),
        ({"stitches": 1, "change": -1}, "#/change", "no change"),
        ({"stitches": 40}, "#/change", "`multiple`"),
        ({"stitches": 40, "change": 2, "target": 42}, "#/target", "alone"),
        ({"stitches": 40, "change": 2, "edge_stitches": 1}, "#/edge_stitches", "flat"),
        ({"stitches": 4, "change": 1, "edge_stitches": 2, "worked": "flat"}, "#/edge_stitches", "1"),
        ({"stitches": 40, "target": 50, "rounds_of_shaping": 3}, "#/target", "49 or 52"),
        ({"stitches": 80, "change": -8, "rounds_of_shaping": 10}, "#/rounds_of_shaping", "9 rounds"),
        ({"stitches": 40, "change": 1, "rounds_of_shaping": 60, "plain_between": 20}, "#/rounds_of_shaping", "20"),
        ({"stitches": 900_000, "change": 200_000}, "#/change", "1000000"),
        ({"stitches": 10, "change": 1, "multiple": {"of": 900}}, "#/multiple", "method"),
        (
            {"stitches": 40, "change": -4, "method": "cdd", "worked": "flat", "rounds_of_shaping": 2}
            | {"plain_between": 0},
            "#/plain_between",
            "odd",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_knitted_is_refused_with_what_can(fields, pointer, nearest):
    """Each k2tog takes two stitches, each kfb one (Craft Yarn Council); the largest change is named."""
    with pytest.raises(Impossible) as refused:
        even(ask(**fields))

    assert pointer == refused.value.pointer
    assert nearest in refused.value.nearest


@given(
    st.integers(2, 300),
    st.sampled_from(["k2tog", "cdd", "kfb", "m1"]),
    st.sampled_from(["in_the_round", "flat"]),
)
def test_the_largest_change_can_be_made_and_the_next_cannot(stitches, method, worked):
    """As many as there are stitches for, and no more."""
    uses, leaves = LOOPS[method]
    most = stitches // uses if uses else stitches - (worked == "flat")
    if most:
        assert (
            most
            == even(ask(stitches=stitches, change=most * (leaves - uses), method=method, worked=worked)).times
        )
    with pytest.raises(Impossible):
        even(ask(stitches=stitches, change=(most + 1) * (leaves - uses), method=method, worked=worked))


@given(st.integers(4, 300), st.integers(2, 300), st.sampled_from(["k2tog", "p3tog", "kfb", "m1"]))
def test_two_rounds_that_are_proposed_can_be_knitted(stitches, times, method):
    """Where the error proposes two rounds, two rounds can be knitted."""
    uses, leaves = LOOPS[method]
    _, refusal = answered(ask(stitches=stitches, change=times * (leaves - uses), method=method))
    if refusal is None or "two rounds" not in refusal.nearest:
        return
    counts = [int(count) for count in re.findall(r"\d+", refusal.nearest.partition("two rounds")[2])]

    assert [stitches, stitches + times * (leaves - uses)] == [counts[0], counts[2]]
    for before, after in pairwise(counts):
        assert after == even(ask(stitches=before, target=after, method=method)).stitches_after


# --- several rounds -------------------------------------------------------------------------------------------------


def shaped(answer):
    return [round for round in answer.rounds if round.kind != "plain"]


@given(
    st.integers(24, 400),
    st.sampled_from(["k2tog", "m1", "kfb", "cdd", "ssk"]),
    st.builds(
        dict,
        worked=st.sampled_from(["in_the_round", "flat"]),
        arrangement=st.sampled_from(["balanced", "grouped"]),
        plain_between=st.integers(0, 3),
    ),
    st.integers(2, 8),
)
@settings(max_examples=200)
def test_stacked_changes_stand_on_one_another(stitches, method, fields, times):
    """Each change takes the loop of the one below, or stands right beside it."""
    uses, leaves = LOOPS[method]
    request = ask(
        stitches=stitches, change=times * (leaves - uses), method=method, rounds_of_shaping=3, **fields
    )
    answer, _ = answered(request)
    if answer is None:
        return
    flips = request.worked == "flat" and request.plain_between % 2 == 0
    for below, above in zip(shaped(answer), shaped(answer)[1:], strict=False):
        under, over = spaced(below.steps), spaced(above.steps)
        loops = [(loop, loop + leaves) for loop in under.loops]
        if flips:
            loops = [(under.left - end, under.left - start) for start, end in reversed(loops)]
        for (start, end), place in zip(loops, over.starts, strict=True):
            assert place <= end
            assert start <= place + uses


def test_a_centred_decrease_is_centred_on_the_one_below():
    """Cdd takes the decrease below as its middle stitch, or the line does not stand upright (common practice)."""
    answer = even(ask(stitches=96, change=-16, method="cdd", rounds_of_shaping=4))
    for below, above in zip(shaped(answer), shaped(answer)[1:], strict=False):
        under, over = spaced(below.steps), spaced(above.steps)
        assert [loop - 1 for loop in under.loops] == over.starts


@given(
    st.integers(48, 400),
    st.integers(2, 6),
    st.sampled_from(["k2tog", "m1", "kfb"]),
    st.sampled_from(["in_the_round", "flat"]),
    st.integers(0, 3),
)
@settings(max_examples=200)
def test_staggered_changes_lie_between_those_below(stitches, times, method, worked, plain):
    """Between two changes of a round there is one of the next, where sections have five stitches to lie in."""
    uses, leaves = LOOPS[method]
    answer = even(
        ask(
            stitches=stitches, change=times * (leaves - uses), method=method, worked=worked,
            rounds_of_shaping=3, placement="staggered", plain_between=plain,
        )
    )  # fmt: skip
    flips = worked == "flat" and plain % 2 == 0
    for below, above in zip(shaped(answer), shaped(answer)[1:], strict=False):
        under, over = spaced(below.steps), spaced(above.steps)
        loops = [under.left - loop for loop in reversed(under.loops)] if flips else under.loops
        between = zip(loops, [*loops[1:], loops[0] + under.left], strict=True)
        for start, end in between:
            inside = [
                place for place in over.starts if start < place < end or start < place + under.left < end
            ]
            assert len(inside) == 1


def test_plain_rounds_stand_between():
    """Rounds are numbered through, and flat rows purl back (stockinette, common practice)."""
    answer = even(ask(stitches=80, change=8, worked="flat", rounds_of_shaping=3, plain_between=1))

    assert [1, 2, 3, 4, 5] == [round.number for round in answer.rounds]
    assert ["increase", "plain", "increase", "plain", "increase"] == [round.kind for round in answer.rounds]
    assert "purl" == answer.rounds[1].text


def test_rows_on_the_other_side_look_the_same_from_the_right():
    """k2tog is p2tog on the wrong side (Craft Yarn Council), worked from the other end."""
    answer = even(ask(stitches=60, change=-7, worked="flat", rounds_of_shaping=2, plain_between=0))
    first, second = answer.rounds

    assert "p2tog" in second.text
    assert "k" not in second.text.replace("*k", "").replace("p2tog", "")
    assert abs(gaps(first.steps)[0] - gaps(second.steps)[-1]) <= 1


@pytest.mark.parametrize("worked", ["in_the_round", "flat"])
def test_rounds_may_be_shaped_very_often(worked):
    """Even the most rounds of shaping, on as many stitches as they may have together, take few steps each."""
    answer = even(
        ask(
            stitches=16_381,
            change=-151,
            worked=worked,
            rounds_of_shaping=MOST_SHAPED_ROUNDS,
            plain_between=5,
        )
    )

    assert 16_381 - 60 * 151 == answer.stitches_after
    assert len(msgspec.json.encode(answer, enc_hook=str)) < 400_000


@pytest.mark.parametrize("end", [{"change": -1}, {"change": 1}, {"target": 40_060}])
def test_very_long_rounds_are_not_shaped_many_times_over(end):
    """Sixty rounds of 40,000 stitches are no knitting: the rounds that may be are named, and can be made."""
    with pytest.raises(Impossible) as refused:
        even(ask(stitches=40_000, rounds_of_shaping=60, **end))
    rounds = int(refused.value.nearest.split()[0])

    assert ("too_many", "#/rounds_of_shaping") == (refused.value.code, refused.value.pointer)
    assert 24 <= rounds <= MOST_STITCHES_SHAPED // 40_000
    assert even(ask(stitches=40_000, rounds_of_shaping=rounds, change=-1))
    assert even(ask(stitches=1_000_000, change=-1))


def test_changes_that_touch_are_pointed_out():
    """30 k2tog on 60 stitches leave none between them: the fabric gathers (common practice)."""
    assert ["side_by_side"] == [notice.code for notice in even(ask(stitches=60, change=-30)).warnings]
    assert () == even(ask(stitches=60, change=-20)).warnings


def test_gaps_are_counted_without_the_change():
    """100 - 8: k11 and k10 between decreases; every nth counts their two stitches."""
    answer = even(ask(stitches=100, change=-8))

    assert (10, 11) == (answer.smallest_gap, answer.largest_gap)
    assert [(13, 4), (12, 4)] == [(section.every, section.times) for section in answer.sections]
    assert PLAIN >= {"k"}


@given(st.integers(4, 200), st.integers(-60, 60), st.integers(0, 3), st.sampled_from(["balanced", "grouped"]))
def test_the_ends_of_a_row_are_alike(stitches, change, edge, arrangement):
    """Both ends of a row have the same plain stitches, or the last one more; balanced, the gaps between mirror."""
    request = ask(
        stitches=stitches, change=change, worked="flat", edge_stitches=edge, arrangement=arrangement
    )
    answer, _ = answered(request)
    if answer is None or not answer.times:
        return
    plain = gaps(answer.round.steps)

    assert 0 <= plain[-1] - plain[0] <= 1
    if arrangement == "balanced" and answer.smallest_gap > 1:
        assert plain[1:-1] == plain[-2:0:-1]


def mirrors(total: int, changes: int, least: int) -> bool:
    """Whether any most even order of the gaps, cut in the middle of any gap, reads the same from both ends."""
    places = [place * total // changes for place in range(changes + 1)]
    circle = [after - before for before, after in pairwise(places)]
    rows = (circle[start:] + circle[:start] for start in range(changes))
    return any(row[-1] % 2 == 0 and row[-1] >= least and row[:-1] == row[-2::-1] for row in rows)


@given(st.integers(4, 120), st.integers(1, 40), st.sampled_from(["m1", "k2tog"]))
@settings(max_examples=300)
def test_a_row_is_symmetric_wherever_it_can_be(stitches, times, method):
    """Tried rotation by rotation of the most even order: where one reads the same from both ends, it is given."""
    uses = LOOPS[method][0]
    answer, _ = answered(
        ask(stitches=stitches, change=-times if uses else times, method=method, worked="flat")
    )
    if answer is None:
        return
    plain = gaps(answer.round.steps)

    assert (plain == plain[::-1]) == mirrors(stitches - uses * times, times, 0 if uses else 2)


def nested(steps) -> bool:
    """Whether a repeat holds a repeat."""
    insides = [getattr(step, "steps", ()) for step in steps]
    return any(hasattr(inner, "steps") for inside in insides for inner in inside)


@given(requests)
def test_where_brackets_are_in_brackets_it_is_grouped_beside(request):
    """The easier round is given with a text without brackets in brackets; elsewhere there is none."""
    answer, _ = answered(request)
    if answer is None:
        return
    if request.arrangement == "balanced":
        assert (answer.grouped is not None) == any(nested(round.steps) for round in answer.rounds)
    if answer.grouped:
        assert answer.grouped.rounds[-1].after == answer.stitches_after
        assert not any(nested(round.steps) for round in answer.grouped.rounds)


def test_the_most_even_and_the_grouped_side_by_side():
    """97 - 11: brackets in brackets one way, two groups the other, each with its picture."""
    answer = even(ask(stitches=97, change=-11))

    assert "k7, k2tog, [[k7, k2tog] 4 times, k6, k2tog] 2 times" == answer.round.text
    assert "[k7, k2tog] 9 times, [k6, k2tog] 2 times" == answer.grouped.round.text
    assert "arrangement=grouped" in answer.grouped.drawing
    assert even(ask(stitches=100, change=8)).grouped is None
