"""The split over needles: start, alternatives, room on the needles, and what is refused."""

from itertools import pairwise
from math import ceil

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.quantities import Gauge, Length
from roundwright.knitting.rounds.round import Repeat, Round, Work, execute, plain
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.work.split_over_needles import split
from roundwright.knitting.work.split_request import SplitRequest

# Common practice: a small baby hat at 18 stitches in 10 cm.
BABY_GAUGE = Gauge(stitches=18)


def crown_52() -> tuple[Round, ...]:
    """The crown by repeats of four: 52 to 39, 26 and 13, a plain round after each, then 7 and 4."""
    steps = [
        (Repeat(13, (Work("k", 2), Work("k2tog"))),),
        plain(39),
        (Repeat(13, (Work("k"), Work("k2tog"))),),
        plain(26),
        (Work("k2tog", 13),),
        plain(13),
        (Work("k2tog", 6), Work("k")),
        (Work("k2tog", 3), Work("k")),
    ]
    rounds: list[Round] = []
    for number, round_steps in enumerate(steps, start=1):
        rounds.append(work_round(number, execute(round_steps)[0], round_steps))
    return tuple(rounds)


def request_of(**fields: object) -> SplitRequest:
    """The request as it comes in, schema and all."""
    return msgspec.convert({"stitches": 52, **fields}, SplitRequest)


def test_every_needle_adds_up() -> None:
    """After every round the needles together hold what the round leaves."""
    answer = split(SplitRequest(stitches=52, rounds=crown_52()))

    assert sum(answer.split) == 52
    assert [round.after for round in answer.rounds] == [sum(round.needles or ()) for round in answer.rounds]


def test_moves_are_what_straddles() -> None:
    """The straddles of a split are the moves of its rounds."""
    answer = split(SplitRequest(stitches=52, rounds=crown_52(), split=(17, 17, 18)))

    assert answer.straddles == sum(len(round.moves) for round in answer.rounds) == 3
    assert [round.number for round in answer.rounds if round.moves] == [3, 5]


def test_for_the_knitters_own_split_the_answer_names_a_better_one() -> None:
    """With 17, 17, 18 on the needles the answer names the split that would straddle nowhere."""
    answer = split(SplitRequest(stitches=52, rounds=crown_52(), split=(17, 17, 18)))
    (notice,) = answer.warnings

    assert answer.split == (17, 17, 18)
    assert notice.code == "straddles_left"
    assert "16, 16, 20" in notice.message
    assert answer.alternatives[-1].split == (16, 16, 20)


@given(st.integers(5, 150), st.integers(2, 5), st.sampled_from([1, 2, 4]), st.integers(4, 12))
def test_the_start_leads_to_the_split(repeats: int, needles: int, multiple: int, tolerance: int) -> None:
    """Every step of the start holds all stitches: one needle, two halves, and the split in whole repeats.

    Without a gauge a needle holds 64 just cast on: 16 of its 20 cm at half of 5 mm a stitch; where it does not hold
    them the cast-on goes to two, and where two do not, to all (common practice).
    """
    stitches = repeats * multiple
    answer = split(SplitRequest(stitches=stitches, needles=needles, multiple=multiple, tolerance=tolerance))
    counts = [step.needles for step in answer.start]

    assert {stitches} == {sum(on_needles) for on_needles in counts}
    assert len(counts[0]) == (1 if stitches <= 64 else 2 if stitches <= 128 else needles)
    assert all(len(after) > len(before) for before, after in pairwise(counts))
    assert counts[-1] == answer.split
    assert not any(count % multiple for count in answer.split)


def test_alternatives_trade_evenness_for_straddles() -> None:
    """Every alternative has fewer straddles than the more even split before it."""
    answer = split(SplitRequest(stitches=63, crown=CrownShape(style="wedge"), tolerance=8))

    for even, fewer in pairwise(answer.alternatives):
        assert even.difference < fewer.difference
        assert even.straddles > fewer.straddles
    assert answer.alternatives[-1].split == answer.split


def test_a_crown_gives_the_same_as_its_rounds() -> None:
    """A request with a crown is answered as a request with the rounds of that crown."""
    by_crown = split(SplitRequest(stitches=60, crown=CrownShape(style="quick")))
    bare = tuple(msgspec.structs.replace(round, needles=None, moves=()) for round in by_crown.rounds)
    by_rounds = split(SplitRequest(stitches=60, rounds=bare))

    assert (by_crown.split, by_crown.straddles) == (by_rounds.split, by_rounds.straddles)
    assert [round.needles for round in by_crown.rounds] == [round.needles for round in by_rounds.rounds]


def test_two_circulars_hold_two() -> None:
    """Two circulars hold half the round each, and the halves are the working set."""
    answer = split(SplitRequest(stitches=56, hold="two_circulars"))

    assert answer.split == (28, 28)
    assert [step.needles for step in answer.start] == [(56,), (28, 28)]


def test_a_magic_loop_has_two_halves() -> None:
    """98 stitches in repeats of two are 48 and 50: the answer says why, and how the loop is pulled out."""
    answer = split(SplitRequest(stitches=98, multiple=2, hold="magic_loop"))

    assert answer.split == (48, 50)
    assert answer.reason == "Uneven on purpose, so that no repeat of 2 stitches is cut in two."
    assert "loop of cord" in answer.start[-1].text
    assert split(SplitRequest(stitches=98, hold="magic_loop")).reason is None


def test_a_magic_loop_needs_cord_to_spare() -> None:
    """144 stitches at 18 in 10 cm lie 80 cm wide, and 20 cm of cord come out as loops (common practice): 100 cm."""
    loop = SplitRequest(stitches=144, hold="magic_loop", gauge=BABY_GAUGE, needle_length=Length(100, "cm"))
    shorter = msgspec.structs.replace(loop, needle_length=Length(80, "cm"))

    assert [split(request).room.fits for request in (loop, shorter)] == [True, False]  # type: ignore[union-attr]
    assert "magic loop" in split(shorter).warnings[0].message


def test_a_half_that_runs_empty_is_no_needle_to_put_aside() -> None:
    """Near the close one half may have nothing left: the knitter goes on with the other."""
    rounds = split(SplitRequest(stitches=12, crown=CrownShape(close_at=1), hold="magic_loop")).rounds
    notes = [note for round in rounds for note in round.notes if "empty" in note]

    assert notes == ["The first half is empty after this round: work on with the second half alone."]


def test_room_side_by_side() -> None:
    """20 stitches at 18 in 10 cm lie 11.1 cm wide: arithmetic. A needle of 7 in holds them and 24 in all.

    2 cm at each end of it stay free (common practice).
    """
    answer = split(
        SplitRequest(
            stitches=52, rounds=crown_52(), gauge=BABY_GAUGE, needle_length=Length(7, "in"), squeeze=0.0
        )
    )

    assert answer.room is not None
    assert answer.room.fits
    assert answer.room.stitches == 20
    assert answer.room.width == Length(11.1111, "cm")
    assert answer.room.squeeze_needed == 0
    assert answer.room.most_stitches == int((17.78 - 4) * 1.8)


def test_room_with_a_squeeze() -> None:
    """31 stitches at 18 in 10 cm on 7 in must be pushed together by a fifth: 1 - 13.78 / 17.22."""
    tight = SplitRequest(
        stitches=62, needles=2, gauge=BABY_GAUGE, needle_length=Length(7, "in"), squeeze=25.0
    )
    answer = split(tight)
    too_tight = split(msgspec.structs.replace(tight, squeeze=15.0))

    assert answer.room is not None
    assert too_tight.room is not None
    assert answer.room.squeeze_needed == pytest.approx(20.0, abs=0.05)
    assert answer.room.fits
    assert not too_tight.room.fits
    assert [notice.code for notice in too_tight.warnings] == ["needles_too_short"]


def test_a_circular_until_the_round_is_too_small() -> None:
    """72 stitches at 18 in 10 cm reach around 40 cm exactly; the crown's first decrease ends that."""
    request = SplitRequest(
        stitches=72, crown=CrownShape(style="wedge"), gauge=BABY_GAUGE, circular=Length(40, "cm")
    )
    answer = split(request)

    assert answer.circular is not None
    assert answer.circular.fewest_stitches == 72
    assert answer.circular.reaches
    first = next(round for round in answer.rounds if round.after < 72)
    assert answer.circular.change_before_round == first.number

    stretched = split(msgspec.structs.replace(request, stretch=20.0)).circular
    assert stretched is not None
    assert stretched.fewest_stitches == ceil(72 / 1.2)
    assert stretched.change_before_round is not None
    assert stretched.change_before_round > first.number


def test_a_circular_too_long_from_the_start() -> None:
    """A small hat does not reach around a long circular: a warning."""
    answer = split(SplitRequest(stitches=52, gauge=BABY_GAUGE, circular=Length(16, "in")))

    assert answer.circular is not None
    assert not answer.circular.reaches
    assert [notice.code for notice in answer.warnings] == ["circular_too_long"]


def test_a_circular_too_short() -> None:
    """More than twice the stitches that reach around a circular are too many for its cord: a warning."""
    answer = split(SplitRequest(stitches=145, gauge=BABY_GAUGE, circular=Length(40, "cm")))

    assert [notice.code for notice in answer.warnings] == ["circular_too_short"]
    assert split(SplitRequest(stitches=144, gauge=BABY_GAUGE, circular=Length(40, "cm"))).warnings == ()


def test_a_squeeze_of_the_knitters_own_holds_for_needles_and_cord() -> None:
    """Given in the request, it takes the place of both defaults."""
    own = SplitRequest(stitches=96, gauge=BABY_GAUGE, circular=Length(40, "cm"), squeeze=25.0)

    assert split(own).circular.most_stitches == int(40 * 1.8 / 0.75)  # type: ignore[union-attr]


def test_cords_of_two_circulars_have_no_free_ends() -> None:
    """Half of 144 stitches at 18 in 10 cm lies 40 cm wide: a cord of 20 cm holds it, one of 19 does not."""
    two = SplitRequest(stitches=144, hold="two_circulars", gauge=BABY_GAUGE, needle_length=Length(20, "cm"))
    shorter = msgspec.structs.replace(two, needle_length=Length(19, "cm"))

    assert [split(request).room.fits for request in (two, shorter)] == [True, False]  # type: ignore[union-attr]


def test_a_needle_shorter_than_its_free_ends_holds_nothing() -> None:
    """4 cm of needle are all ends."""
    tiny = SplitRequest(stitches=52, gauge=BABY_GAUGE, needle_length=Length(4, "cm"))

    assert split(tiny).room.most_stitches == 0  # type: ignore[union-attr]


ROUND = {"number": 1, "before": 52, "after": 52, "steps": [{"type": "work", "stitch": "k", "times": 52}]}


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"stitches": 4, "needles": 5}, "#/needles"),
        ({"needles": 3, "tolerance": 0}, "#/tolerance"),
        ({"multiple": 5}, "#/multiple"),
        ({"multiple": 13, "needles": 3}, "#/tolerance"),
        ({"needles": 3, "hold": "two_circulars"}, "#/needles"),
        ({"needles": 3, "hold": "magic_loop"}, "#/needles"),
        ({"split": [17, 17, 17]}, "#/split"),
        ({"split": [26, 26], "needles": 3}, "#/split"),
        ({"split": [17, 17, 18], "hold": "two_circulars"}, "#/split"),
        ({"needle_length": {"value": 7, "unit": "in"}}, "#/gauge"),
        ({"circular": {"value": 40, "unit": "cm"}}, "#/gauge"),
        ({"rounds": [], "crown": {}}, "#/rounds"),
        ({"crown": {"worked": "flat"}}, "#/crown/worked"),
        ({"crown": {}, "stitches": 7, "needles": 2}, "#/stitches"),
        ({"crown": {"style": "wedge", "sections": 27}}, "#/crown/sections"),
        ({"rounds": [ROUND], "stitches": 56}, "#/rounds/0/before"),
        ({"rounds": [ROUND | {"after": 50}]}, "#/rounds/0/after"),
        (
            {"rounds": [ROUND, ROUND | {"steps": [{"type": "work", "stitch": "k2tog", "times": 27}]}]},
            "#/rounds/1/steps",
        ),
        (
            {
                "rounds": [
                    ROUND
                    | {
                        "after": 652,
                        "steps": [*ROUND["steps"], {"type": "work", "stitch": "yo", "times": 600}],
                    }
                ]
            },
            "#/rounds/0/after",
        ),
    ],
)
def test_what_does_not_fit_together_is_refused(fields: dict[str, object], pointer: str) -> None:
    """The error names the field and the nearest thing that works."""
    with pytest.raises(Impossible) as error:
        split(request_of(**fields))

    assert pointer == error.value.pointer
    assert error.value.nearest


def test_the_nearest_tolerance_works() -> None:
    """Where whole repeats need unlike needles, the tolerance named is the least that will do."""
    with pytest.raises(Impossible, match="whole repeats of 13"):
        split(request_of(multiple=13, tolerance=12))

    assert split(request_of(multiple=13, tolerance=13)).split == (13, 13, 26)


@given(
    st.integers(24, 200),
    st.integers(3, 5),
    st.integers(10, 36),
    st.sampled_from([13, 15, 18, 20, 23, 25, 30]),
)
def test_no_needle_is_cast_on_to_that_cannot_hold_the_stitches(
    stitches: int, needles: int, per_10_cm: int, long_cm: int
) -> None:
    """2 cm stay free at each end, and stitches just cast on go into half their width (common practice): each step fits,
    unless the stitches do not even fit shared over all needles.
    """
    answer = split(
        SplitRequest(
            stitches=stitches,
            needles=needles,
            gauge=Gauge(stitches=per_10_cm),
            needle_length=Length(long_cm, "cm"),
        )
    )
    most = (long_cm - 4) * per_10_cm / 10 * 2
    fullest = max(max(step.needles) for step in answer.start)
    assert fullest <= most or fullest == max(answer.split)
    if len(answer.start[0].needles) == 1:
        assert stitches <= most
