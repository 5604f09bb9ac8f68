"""Yarn that is left, and whether it is enough."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat.plan import hat_rounds
from roundwright.knitting.hat.request import Brim, HatRequest, HatSize
from roundwright.knitting.quantities import Gauge, Length, Mass, YarnCount, mm
from roundwright.knitting.rounds.round import Repeat, Round, Work
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.work.yarn_remaining import Hank, LeftYarn, RemainingRequest, remaining
from roundwright.knitting.yarn.label import Yarn
from roundwright.knitting.yarn.per_stitch import Swatch

WETHER = Yarn(length=Length(210, "m"), mass=Mass(100, "g"))
GAUGE = Gauge(stitches=19, rows=27)
HAT = HatRequest(gauge=GAUGE, yarn=WETHER, sizes=(HatSize(label="Tovi", age_months=6),))


def plain_rounds(count: int, stitches: int = 80) -> tuple[Round, ...]:
    return tuple(work_round(number, stitches, (Work("k", stitches),)) for number in range(1, count + 1))


def grams(value: float) -> LeftYarn:
    return LeftYarn(mass=Mass(value, "g"))


def metres(value: float) -> LeftYarn:
    return LeftYarn(hank=Hank(circumference=Length(value, "m"), strands=1))


# --- what is left -----------------------------------------------------------------------------------------------


def test_a_hank_is_its_circumference_times_its_strands() -> None:
    """Common practice: 40 strands of 1.5 m are 60 m; no yarn need be known."""
    answer = remaining(
        RemainingRequest(left=LeftYarn(hank=Hank(circumference=Length(150, "cm"), strands=40)))
    )
    assert (answer.left.expected.length.value, answer.left.expected.mass) == (60, None)
    assert answer.left.low == answer.left.high
    assert answer.verdict is None


def test_a_mass_is_a_length_by_the_label() -> None:
    """Printed: 4 g of a ball of 50 g and 87 yd are 6.96 yd; the scale is half a gram off at most."""
    yarn = Yarn(length=Length(87, "yd"), mass=Mass(50, "g"))
    left = remaining(RemainingRequest(left=grams(4), yarn=yarn, units="imperial")).left
    assert left.expected.length.value == pytest.approx(6.96)
    assert left.low.length.value == pytest.approx(6.96 * 3.5 / 4)
    assert left.high.length.value == pytest.approx(6.96 * 4.5 / 4)


def test_a_mass_is_a_length_by_the_count() -> None:
    """ISO 1144: Nm 2.4 is 2.4 m in a gram."""
    answer = remaining(RemainingRequest(left=grams(10), yarn=Yarn(count=YarnCount(2.4, "nm"))))
    assert answer.left.expected.length.value == pytest.approx(24)


def test_all_that_is_left_is_added_up() -> None:
    """Two full balls, 10 g and a hank of 21 m of a 100 g / 210 m yarn are 220 g."""
    left = LeftYarn(mass=Mass(10, "g"), hank=Hank(circumference=Length(1, "m"), strands=21), balls=2)
    answer = remaining(RemainingRequest(left=left, yarn=WETHER))
    assert answer.left.expected.mass.value == pytest.approx(220)
    assert answer.left.high.mass.value == pytest.approx(220.5)


@pytest.mark.parametrize(
    ("request_", "pointer"),
    [
        (RemainingRequest(left=LeftYarn()), "#/left"),
        (RemainingRequest(left=LeftYarn(balls=1)), "#/left/balls"),
        (RemainingRequest(left=grams(10), stitches=500, gauge=GAUGE), "#/left/mass"),
        (RemainingRequest(left=metres(10), stitches=500), "#/gauge"),
        (RemainingRequest(left=metres(10), stitches=500, gauge=GAUGE, rounds_worked=3), "#/rounds_worked"),
        (RemainingRequest(left=metres(10), rounds_worked=3), "#/rounds_worked"),
        (
            RemainingRequest(left=metres(10), rounds=plain_rounds(5), gauge=GAUGE, rounds_worked=5),
            "#/rounds_worked",
        ),
        (RemainingRequest(left=metres(10), rounds=plain_rounds(5), stitches=9, gauge=GAUGE), "#/rounds"),
        (RemainingRequest(left=grams(10), hat=HAT, gauge=GAUGE), "#/gauge"),
    ],
)
def test_what_cannot_be_known_is_refused(request_: RemainingRequest, pointer: str) -> None:
    """The error names the field that is missing or too much, and the nearest thing that works."""
    with pytest.raises(Impossible) as error:
        remaining(request_)
    assert error.value.pointer == pointer
    assert error.value.nearest


# --- whether it is enough -----------------------------------------------------------------------------------------


def test_the_three_verdicts() -> None:
    """45 stitches take 0.90 to 1.05 yd at 5 x 7 in an inch (Munden 1959; label and gauge a few per cent off), so
    0.85 yd is not enough and 1 yd is too close; 1.3 yd leaves a tail of 8 in.
    """
    gauge = Gauge(stitches=5, rows=7, over=Length(1, "in"))
    verdicts = [
        remaining(
            RemainingRequest(
                left=LeftYarn(hank=Hank(circumference=Length(yards, "yd"), strands=1)),
                stitches=45,
                gauge=gauge,
            )
        ).verdict
        for yards in (0.85, 1.0, 1.2, 1.3)
    ]
    assert verdicts == ["not_enough", "too_close", "too_close", "enough"]


@given(st.integers(1, 60), st.floats(0.5, 400), st.integers(4, 200))
def test_verdict_and_rounds_agree(rounds: int, left_m: float, stitches: int) -> None:
    """Enough works every round at the worst, not enough runs out even at the best; the more is missing, the less."""
    answer = remaining(
        RemainingRequest(left=metres(left_m), rounds=plain_rounds(rounds, stitches), gauge=GAUGE)
    )
    reach = answer.rounds
    assert 0 <= reach.low <= reach.expected <= reach.high <= reach.of == rounds
    if answer.verdict == "enough":
        assert (reach.low, answer.missing) == (rounds, None)
    else:
        assert answer.missing.length.value > 0
    if answer.verdict == "not_enough":
        assert reach.high < rounds


@given(st.integers(2, 60), st.integers(1, 59))
def test_rounds_worked_need_no_yarn(rounds: int, worked: int) -> None:
    """After w of n rounds the answer is that for n - w rounds."""
    worked = min(worked, rounds - 1)
    part = remaining(
        RemainingRequest(left=metres(30), rounds=plain_rounds(rounds), rounds_worked=worked, gauge=GAUGE)
    )
    rest = remaining(RemainingRequest(left=metres(30), rounds=plain_rounds(rounds - worked), gauge=GAUGE))
    assert (part.used, part.verdict, part.rounds) == (rest.used, rest.verdict, rest.rounds)


def test_rib_may_run_out_sooner() -> None:
    """Rib takes more at the high end, so the worst case comes earlier (common practice)."""
    rib = tuple(
        work_round(number, 80, (Repeat(40, (Work("k"), Work("p"))),), "rib") for number in range(1, 41)
    )
    plain, ribbed = (
        remaining(RemainingRequest(left=metres(50), rounds=rounds, gauge=GAUGE)).rounds
        for rounds in (plain_rounds(40), rib)
    )
    assert ribbed.low < plain.low
    assert (ribbed.expected, ribbed.high) == (plain.expected, plain.high)


def test_a_hat_half_knitted() -> None:
    """The rest of a hat takes less than all of it, and plenty is enough for it."""
    whole, rest = (
        remaining(RemainingRequest(left=grams(90), hat=HAT, rounds_worked=worked)) for worked in (0, 20)
    )
    assert (whole.verdict, rest.verdict) == ("enough", "enough")
    assert rest.used.high.mass.value < whole.used.low.mass.value
    assert rest.rounds.of == whole.rounds.of - 20
    assert rest.sizes[0].label == "Tovi"


def test_every_size_has_a_verdict_of_its_own() -> None:
    """What is left may make one hat of the class and not all of them."""
    sizes = (HatSize(label="Tovi", age_months=3, makers=4), HatSize(label="Marrow", adult="man"))
    hat = HatRequest(gauge=GAUGE, yarn=WETHER, sizes=sizes, brim=Brim(kind="ribbed"))
    answer = remaining(RemainingRequest(left=grams(40), hat=hat))
    assert answer.verdict == "not_enough"
    assert [size.verdict for size in answer.sizes] == ["enough", "not_enough"]
    assert answer.rounds is None


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_the_tail_kept_is_the_tail_that_the_pattern_leaves(units: str) -> None:
    """What is missing is the highest use and the longest tail of the finish, less what is left (arithmetic)."""
    finish = hat_rounds(replace(HAT, units=units), 0).crown.finish
    answer = remaining(RemainingRequest(left=grams(10), hat=HAT, units=units))
    kept = answer.missing.length.value + answer.left.low.length.value - answer.used.high.length.value
    in_metres = 0.9144 if units == "imperial" else 1.0

    assert kept * in_metres == pytest.approx(mm(finish.tail_longest) / 1000, abs=1e-3)
    assert f"a tail of {finish.tail_longest.value:g} {finish.tail_longest.unit};" in answer.basis[0].rule


def test_every_hat_of_a_class_has_its_tail() -> None:
    """Three hats are fastened off with three tails (arithmetic)."""
    alone, three = (
        remaining(
            RemainingRequest(left=grams(10), hat=replace(HAT, sizes=(replace(HAT.sizes[0], makers=makers),)))
        )
        for makers in (1, 3)
    )
    tails = [
        answer.missing.length.value + answer.left.low.length.value - answer.used.high.length.value
        for answer in (alone, three)
    ]
    assert tails[1] == pytest.approx(3 * tails[0], abs=1e-3)


def test_yarn_that_should_last_to_the_end_is_not_said_to_run_out_there() -> None:
    """With yarn for all 20 rounds and hardly a tail, the end is named, not `about 20 of the 20 rounds`."""
    messages = []
    for centimetres in range(2_000, 5_000, 5):
        answer = remaining(
            RemainingRequest(left=metres(centimetres / 100), rounds=plain_rounds(20), gauge=GAUGE)
        )
        assert ("about" in answer.message) == (answer.verdict != "enough" and answer.rounds.expected < 20)
        if answer.verdict == "too_close" and answer.rounds.expected == 20:
            assert ("the tail" in answer.message) == (answer.rounds.low == 20)
            messages.append(answer.message.partition(",")[0])
    assert set(messages) == {
        "Too close to tell: it should last to the end of the 20 rounds",
        "Too close to tell: it lasts to the last stitch",
    }


@pytest.mark.parametrize(("units", "tail"), [("metric", "20 cm"), ("imperial", "8 in")])
def test_the_tail_of_other_work_is_in_the_units_of_the_answer(units: str, tail: str) -> None:
    """A tail to sew with is a hand's length, 8 in or about 20 cm (common practice)."""
    answer = remaining(RemainingRequest(left=metres(10), stitches=500, gauge=GAUGE, units=units))
    assert f"a tail of {tail};" in answer.basis[0].rule


def test_by_a_weighed_swatch_only_masses_are_compared() -> None:
    """A swatch and a mass need no label."""
    swatch = Swatch(stitches=20, rows=30, mass=Mass(6, "g"))
    answer = remaining(RemainingRequest(left=grams(30), rounds=plain_rounds(30), swatch=swatch))
    assert answer.verdict == "enough"
    assert answer.used.expected.length is None
    assert answer.used.expected.mass.value == pytest.approx(24)
