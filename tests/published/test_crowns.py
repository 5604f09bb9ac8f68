"""Crowns as they are printed and as they are taught."""

import pytest

from roundwright.knitting.crown.crown import CrownAnswer, crown, crown_multiple
from roundwright.knitting.crown.finish import Finish
from roundwright.knitting.crown.request import Cadence, CrownRequest, CrownShape, StyleName
from roundwright.knitting.quantities import Gauge, Length
from roundwright.knitting.rounds.round import runs


def counts(answer: CrownAnswer) -> list[int]:
    """The stitches before the crown and after each decrease round."""
    return [answer.stitches, *(round.after for round in answer.rounds if round.after != round.before)]


@pytest.mark.parametrize(
    ("request_", "printed"),
    [
        # Printed: 88 stitches in 8 wedges, k9, k2tog; k8, k2tog; ..., a plain round between.
        (
            CrownRequest(stitches=88, style="wedge", cadence=Cadence(plain_rounds=1)),
            [88, 80, 72, 64, 56, 48, 40, 32, 24, 16, 8],
        ),
        # Printed: 48 (56) stitches, k6, k2tog down to k1, k2tog, then k2tog.
        (CrownRequest(stitches=48, style="wedge", sections=6), [48, 42, 36, 30, 24, 18, 12, 6]),
        (CrownRequest(stitches=56, style="wedge", sections=7), [56, 49, 42, 35, 28, 21, 14, 7]),
        # Printed: 72 stitches, k2, k2tog; k1, k2tog; k2tog; k2tog.
        (CrownRequest(stitches=72, style="quick", close_at=9), [72, 54, 36, 18, 9]),
        # Printed: 68 stitches, k2tog, k2; k2tog, k1; k2tog; 17 are drawn up.
        (CrownRequest(stitches=68, style="quick", close_at=17, decrease_at="start"), [68, 51, 34, 17]),
    ],
)
def test_printed_sequences(request_: CrownRequest, printed: list[int]) -> None:
    """The counts are those in print."""
    assert counts(crown(request_)) == printed


def test_printed_lines() -> None:
    """The lines are those in print: k9, k2tog; k8, k2tog; ... of 88 stitches, k2tog, k2; ... of 68."""
    wedges = crown(CrownRequest(stitches=88, style="wedge", cadence=Cadence(plain_rounds=1))).rounds
    started = crown(CrownRequest(stitches=68, style="quick", close_at=17, decrease_at="start")).rounds

    assert [round.text for round in wedges[:4]] == [
        "*k9, k2tog; rep from * around",
        "knit",
        "*k8, k2tog; rep from * around",
        "knit",
    ]
    assert [round.text for round in started if round.kind == "decrease"] == [
        "*k2tog, k2; rep from * around",
        "*k2tog, k1; rep from * around",
        "*k2tog; rep from * around",
    ]


@pytest.mark.parametrize(
    ("stitches", "taught"),
    [
        (52, [52, 39, 39, 26, 26, 13, 13, 7, 4]),
        (56, [56, 42, 42, 28, 28, 14, 14, 7, 4]),
        (60, [60, 45, 45, 30, 30, 15, 15, 8, 4]),
        (68, [68, 51, 51, 34, 34, 17, 17, 9, 5]),
    ],
)
def test_the_crown_by_fours(stitches: int, taught: list[int]) -> None:
    """Common practice: repeats of four, a plain round after each of the first three decrease rounds, 4 or 5 left."""
    rounds = crown(CrownRequest(stitches=stitches, style="quick")).rounds

    assert [stitches, *(round.after for round in rounds)] == taught


def test_an_odd_stitch_at_the_end_is_knitted() -> None:
    """Common practice: of 13 stitches, k2tog six times and knit the one left."""
    rounds = crown(CrownRequest(stitches=52, style="quick")).rounds

    assert next(round.text for round in rounds if round.before == 13 and round.after == 7) == (
        "*k2tog; rep from * to last st, k1"
    )


@pytest.mark.parametrize("stitches", range(48, 160))
def test_eight_sections_are_preferred(stitches: int) -> None:
    """Published: 6-9 decreases a shaping round, 8 most common."""
    sections = crown(CrownRequest(stitches=stitches, style="wedge")).sections

    assert sections in (6, 7, 8, 9)
    if stitches % 8 == 0:
        assert sections == 8
    elif any(stitches % count == 0 for count in (6, 7, 9)):
        assert stitches % sections == 0


def test_every_round_once_three_stitches_remain() -> None:
    """Published: every round decreases once about 3 stitches remain between the decreases."""
    rounds = crown(CrownRequest(stitches=88, style="wedge")).rounds
    texts = [round.text for round in rounds]

    assert texts[texts.index("*k4, k2tog; rep from * around") :] == [
        "*k4, k2tog; rep from * around",
        "knit",
        "*k3, k2tog; rep from * around",
        "*k2, k2tog; rep from * around",
        "*k1, k2tog; rep from * around",
        "*k2tog; rep from * around",
    ]


@pytest.mark.parametrize("stitches", range(48, 160))
def test_five_to_ten_are_drawn_up(stitches: int) -> None:
    """Published: 5-10 stitches left to draw up."""
    assert 5 <= crown(CrownRequest(stitches=stitches, style="wedge")).stitches_left <= 10


@pytest.mark.parametrize(
    ("stitches", "rows", "a_round"),
    [
        # Published: 5 stitches and 7 rows to the inch make 4.49 changes a round (printed 4.487).
        (5, 7, 4.49),
        # Arithmetic by the same formula: 22 and 28 make 4.94.
        (22, 28, 4.94),
        # Published: a square stitch makes 6.28, hence the crochet rule of 6.
        (20, 20, 6.28),
    ],
)
def test_the_flat_disc(stitches: int, rows: int, a_round: float) -> None:
    """2π × (stitch gauge / row gauge) fewer stitches each round, the remainder carried and never rounded away."""
    gauge = Gauge(stitches=stitches, rows=rows, over=Length(1 if stitches < 10 else 4, "in"))
    rounds = crown(CrownRequest(stitches=600, style="flat", gauge=gauge)).rounds[:-2]

    for round in rounds:
        assert 600 - round.after == pytest.approx(a_round * round.number, abs=0.5 + 0.005 * round.number)


@pytest.mark.parametrize("stitches", [56, 61, 88, 112])
def test_the_dome_follows_the_sine(stitches: int) -> None:
    """Published: on a hemisphere, stitches at round j of n from the pole are N sin(πj/2n)."""
    from math import pi, sin

    gauge = Gauge(stitches=20, rows=26)
    answer = crown(CrownRequest(stitches=stitches, style="dome", gauge=gauge))
    quarter = stitches * 26 / 20 / 4  # rounds from the pole to the equator: a quarter of N stitches, in rows

    assert len(answer.rounds) == round(quarter)
    for dome_round in answer.rounds:
        j = len(answer.rounds) - dome_round.number + 0.5  # in the middle of the round
        assert dome_round.after == pytest.approx(
            stitches * sin(pi * j / 2 / quarter), abs=answer.sections / 2 + 2
        )


@pytest.mark.parametrize("stitches", [52, 56, 60, 68, 72, 88, 100])
def test_a_cord_has_three_to_five_stitches(stitches: int) -> None:
    """Published: cords of 3 to 5 stitches. Common practice: five rounds, and a tail of 6 to 8 in to fasten off."""
    answer = crown(
        CrownRequest(stitches=stitches, style="quick", finish=Finish(kind="cord"), units="imperial")
    )

    assert 3 <= answer.stitches_left <= 5
    assert answer.finish.cord_rounds == 5
    assert (answer.finish.tail_shortest, answer.finish.tail_longest) == (Length(6.0, "in"), Length(8.0, "in"))


@pytest.mark.parametrize(("style", "close_at"), [("gathered", 30), ("wedge", 16), ("dome", 4)])
def test_the_tail_goes_through_the_opening_and_sews(style: StyleName, close_at: int) -> None:
    """Common practice: two to three times the opening, and a hand's length (6 to 8 in) to sew with."""
    gauge = Gauge(stitches=20, rows=28)
    finish = crown(CrownRequest(stitches=96, style=style, close_at=close_at, gauge=gauge)).finish
    opening = finish.stitches * 0.5

    assert finish.tail_shortest.value == pytest.approx(2 * opening + 15.24, abs=2.5)
    assert finish.tail_longest.value == pytest.approx(3 * opening + 20.32, abs=2.5)
    assert f"a tail of {finish.tail_shortest.value:g} to {finish.tail_longest.value:g} cm" in finish.text


def test_the_crowns_multiple() -> None:
    """Published: round the cast-on to the crown's multiple. By fours it is 4, of 7 wedges 7."""
    assert crown_multiple(CrownShape(style="quick")) == 4
    assert crown_multiple(CrownShape(style="wedge", sections=7)) == 7


def test_a_swirl_travels() -> None:
    """Printed counts of 88 stitches in 8 sections. Common practice: a decrease never takes the one below it."""
    answer = crown(CrownRequest(stitches=88, style="swirl", cadence=Cadence(plain_rounds=1)))

    assert counts(answer) == [88, 80, 72, 64, 56, 48, 40, 32, 24, 16, 8]
    below: set[int] = set()  # places of the decreases, counted as the stitches they leave
    for round in [round for round in answer.rounds if round.kind == "decrease" and round.before > 24]:
        taken, made, at = set(), set(), 0
        for stitch, times in runs(round.steps):
            for _ in range(times):
                if stitch == "k2tog":
                    taken |= {at, at + 1}
                    made.add(at - len(made))
                at += 2 if stitch == "k2tog" else 1
        assert len(made) == 8
        assert not taken & below
        below = made


@pytest.mark.parametrize("style", ["dome", "flat", "cone"])
@pytest.mark.parametrize("sections", [6, 8])
def test_no_plain_round_comes_after_the_last_decrease(style: StyleName, sections: int) -> None:
    """Plain rounds on the stitches that are drawn up make a knob (common practice): the last of them decreases."""
    for stitches in range(6 * sections, 16 * sections, sections):
        gauge = Gauge(stitches=20, rows=28)
        answer = crown(CrownRequest(stitches=stitches, style=style, sections=sections, gauge=gauge))

        assert answer.rounds[-1].kind == "decrease"
