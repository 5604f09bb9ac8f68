"""Stitches on needles as they are printed and as they are taught."""

import pytest

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.quantities import Gauge, Length
from roundwright.knitting.work.split_over_needles import split
from roundwright.knitting.work.split_request import SplitRequest


@pytest.mark.parametrize(
    ("stitches", "needles", "per_needle"),
    [
        # Printed patterns for hats: 66 stitches on three needles, 22 on each; 48 stitches, 16 on each.
        (66, 3, 22),
        (48, 3, 16),
        # Printed: "divide in quarters on four needles"; 64, 72 and 80 stitches divide so.
        (64, 4, 16),
        (72, 4, 18),
        (80, 4, 20),
    ],
)
def test_printed_splits(stitches: int, needles: int, per_needle: int) -> None:
    """Stitches that divide are divided."""
    assert split(SplitRequest(stitches=stitches, needles=needles)).split == (per_needle,) * needles


def test_an_even_split_is_not_essential() -> None:
    """Printed: an even split is not essential. 50 stitches go on three needles a stitch apart."""
    answer = split(SplitRequest(stitches=50, needles=3))

    assert sorted(answer.split) == [16, 17, 17]


def test_from_one_needle_to_halves_to_thirds() -> None:
    """Common practice: 56 cast on to one needle, 28 and 28, then about 18 on to each of three working needles."""
    answer = split(SplitRequest(stitches=56, needles=3))
    cast_on, halves, thirds = answer.start

    assert cast_on.needles == (56,)
    assert halves.needles == (28, 28)
    assert all(count in (18, 19) for count in thirds.needles)


def test_a_needle_that_cannot_hold_them_is_not_told_to() -> None:
    """Common practice: 96 stitches of 5 mm do not go on one needle of 20 cm; they are cast on to two, or more."""
    gauge = Gauge(stitches=20)
    first, working = split(SplitRequest(stitches=96, needles=4, gauge=gauge)).start

    assert first.needles == (48, 48)
    assert working.needles == (24, 24, 24, 24)
    (all_at_once,) = split(SplitRequest(stitches=144, needles=4, gauge=gauge)).start
    assert all_at_once.needles == (36, 36, 36, 36)


@pytest.mark.parametrize(
    ("gauge_per_inch", "fewest_16_in", "most_16_in", "fewest_36_in", "most_36_in"),
    [
        # P: "Circular needles: how many stitches will they hold?", printed to the nearest five or ten.
        (5, 80, 160, 180, 360),
        (6, 100, 200, 215, 430),
        (7, 110, 220, 250, 500),
        (8, 130, 260, 290, 580),
    ],
)
def test_printed_capacities_of_circulars(
    gauge_per_inch: int, fewest_16_in: int, most_16_in: int, fewest_36_in: int, most_36_in: int
) -> None:
    """A cord holds twice the stitches that reach around it."""
    gauge = Gauge(stitches=gauge_per_inch, over=Length(1, "in"))
    for inches, fewest, most in ((16, fewest_16_in, most_16_in), (36, fewest_36_in, most_36_in)):
        use = split(SplitRequest(stitches=100, gauge=gauge, circular=Length(inches, "in"))).circular

        assert use is not None
        assert use.fewest_stitches == pytest.approx(fewest, abs=5)
        assert use.most_stitches == pytest.approx(most, abs=10)


@pytest.mark.parametrize("around_cm", range(40, 61))
def test_a_hat_goes_on_a_circular_that_shops_have(around_cm: int) -> None:
    """P: "a 16 in (40 cm) circular usually works well" for hats; none from 40 to 60 cm is refused it."""
    stitches = 2 * around_cm  # 20 stitches in 10 cm
    answer = split(SplitRequest(stitches=stitches, gauge=Gauge(stitches=20), circular=Length(40, "cm")))

    assert answer.warnings == ()


@pytest.mark.parametrize(("style", "sections"), [("wedge", (3, 3, 2)), ("square", (2, 1, 1))])
@pytest.mark.parametrize("tolerance", [0, 4])
def test_whole_sections_on_three_needles(style: str, sections: tuple[int, ...], tolerance: int) -> None:
    """Common practice: eight wedges go on three needles as three, three and two; then nothing is ever slid."""
    crown = CrownShape(style=style)
    for stitches in (72, 96, 120):
        answer = split(SplitRequest(stitches=stitches, needles=3, crown=crown, tolerance=tolerance))

        assert answer.split == tuple(stitches // sum(sections) * count for count in sections)
        assert answer.straddles == 0
        assert answer.alternatives[0].difference <= tolerance


@pytest.mark.parametrize("stitches", [64, 80, 88, 104, 112])
def test_whole_sections_do_without_a_tolerance(stitches: int) -> None:
    """Common practice: three, three and two wedges, also where the count is no multiple of three."""
    crown = CrownShape(style="wedge", sections=8)
    answer = split(SplitRequest(stitches=stitches, needles=3, crown=crown, tolerance=0))
    wedge = stitches // 8

    assert answer.split == (3 * wedge, 3 * wedge, 2 * wedge)
    assert answer.straddles == 0
    with pytest.raises(Impossible, match="shared out evenly"):
        split(SplitRequest(stitches=stitches, needles=3, tolerance=0))  # no crown, no sections


def test_a_fourth_needle_works() -> None:
    """Common practice: four needles may hold the 56 stitches as well as three; then it is 14 on each."""
    assert split(SplitRequest(stitches=56, needles=4)).split == (14, 14, 14, 14)


# Common practice: the crown by repeats of four, a plain round after each of the first three decrease rounds.
BY_FOURS = CrownShape(style="quick")


def test_an_even_split_straddles() -> None:
    """Common practice: 52 stitches as 17, 17, 18 have three decreases on two needles in the crown by fours."""
    answer = split(SplitRequest(stitches=52, crown=BY_FOURS, split=(17, 17, 18)))

    assert [52, *(round.after for round in answer.rounds)] == [52, 39, 39, 26, 26, 13, 13, 7, 4]
    assert answer.straddles == 3


def test_a_tolerance_of_four_finds_none() -> None:
    """Common practice: the same 52 as 16, 16, 20 have none, and a tolerance of four must find that."""
    answer = split(SplitRequest(stitches=52, needles=3, crown=BY_FOURS, tolerance=4))

    assert answer.straddles == 0
    assert answer.split == (16, 16, 20)
    assert not any(round.moves for round in answer.rounds)
