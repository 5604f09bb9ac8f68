"""Even spacing against rows in print, Euclidean patterns and the Christoffel word."""

import msgspec
import pytest

from roundwright.knitting.rounds.balanced_words import balanced
from roundwright.knitting.rounds.round import Repeat, Work
from roundwright.knitting.rounds.spread import spread
from roundwright.knitting.shaping.evenly import even
from roundwright.knitting.shaping.request import EvenRequest
from tests.support.by_hand import stitches
from tests.support.spaced import gaps, widths


def works(stitch, times=1):
    return Work(stitch, times)


@pytest.mark.parametrize(
    ("stitches", "change", "text", "after"),
    [
        (100, 10, "*k10, m1; rep from * around", 110),
        (100, 8, "*k13, m1, k12, m1; rep from * around", 108),
        (100, -8, "*k11, k2tog, k10, k2tog; rep from * around", 92),
        (51, 4, "*k13, m1; rep from * to last 12 sts, k12, m1", 55),
        (90, -7, "*k11, k2tog; rep from * to last 12 sts, k10, k2tog", 83),
    ],
)
def test_rounds_in_print(stitches, change, text, after):
    """100 + 10 every 10th and 51 + 4 in gaps of 13, 13, 13, 12: published; the others arithmetic by the rule."""
    answer = even(EvenRequest(stitches=stitches, change=change))

    assert (text, after) == (answer.round.text, answer.stitches_after)


def test_repeats_in_print_are_those_of_the_steps():
    """[k13, m1, k12, m1] 4 times (arithmetic by the rule) is said so in the steps too."""
    steps = even(EvenRequest(stitches=100, change=8)).round.steps

    assert (Repeat(4, (works("k", 13), works("m1"), works("k", 12), works("m1"))),) == steps


def test_twelve_over_forty_eight_in_a_row():
    """Published: 48 + 12 flat: 2, then eleven gaps of 4, ends with 2."""
    answer = even(EvenRequest(stitches=48, change=12, worked="flat"))

    assert [2, *[4] * 11, 2] == gaps(answer.round.steps)
    assert "k2, *m1, k4; rep from * to last 2 sts, m1, k2" == answer.round.text


def test_four_over_fifty_one_in_a_row():
    """Published: 51 + 4 flat: 6, 13, 13, 13, 6."""
    answer = even(EvenRequest(stitches=51, change=4, worked="flat"))

    assert [6, 13, 13, 13, 6] == gaps(answer.round.steps)
    assert "k6, *m1, k13; rep from * to last 6 sts, m1, k6" == answer.round.text


def test_four_over_fifty_one():
    """Published: gaps 13, 13, 13, 12."""
    assert [13, 13, 13, 12, 0] == gaps(even(EvenRequest(stitches=51, change=4)).round.steps)


@pytest.mark.parametrize("worked", ["in_the_round", "flat"])
def test_every_fourth_and_every_third(worked):
    """Published: 55 - 17: every 4th 4 times, every 3rd 13 times, 38 left; every nth counts the decrease."""
    answer = even(EvenRequest(stitches=55, change=-17, worked=worked, arrangement="grouped"))

    assert [(4, 4), (3, 13)] == [(section.every, section.times) for section in answer.sections]
    assert 38 == answer.stitches_after
    assert [4] * 4 + [3] * 13 == sorted(widths(answer.round.steps), reverse=True)


def test_every_fourth_and_every_third_are_worked_in_that_order():
    """Published: the row of 55 - 17 read from its beginning."""
    answer = even(EvenRequest(stitches=55, change=-17, arrangement="grouped"))

    assert "[k2, k2tog] 4 times, [k1, k2tog] 13 times" == answer.round.text


def test_thirty_of_seventy_four_purled():
    """Published: 74 - 30 flat: p2, [p2tog 3 times, p1] 10 times, p2, 44 left."""
    answer = even(
        EvenRequest(stitches=74, change=-30, worked="flat", method="p2tog", edge_stitches=2),
    )

    assert (works("p", 2), Repeat(10, (works("p2tog", 3), works("p"))), works("p", 2)) == answer.round.steps
    assert 44 == answer.stitches_after


RHYTHMS = [
    "x..x..x.",
    "x.xx.xx.",
    "x..x.x..x.x..",
    "x..x.x.x..x.x.x.",
    "x.xx.x.x.xx.x.x.",
]


@pytest.mark.parametrize("rhythm", RHYTHMS)
@pytest.mark.parametrize("lead", [2, 4])
def test_euclidean_rhythms(rhythm, lead):
    """E(3,8), E(5,8), E(5,13), E(7,16), E(9,16): Toussaint, BRIDGES 2005, up to rotation."""
    steps = spread(len(rhythm), rhythm.count("x"), "kfb", lead=lead)
    worked = "".join("x" if stitch == "kfb" else "." for stitch in stitches(msgspec.to_builtins(steps)))

    assert worked in rhythm * 2
    assert len(rhythm) == len(worked)


CHRISTOFFEL = "00100100101"


def test_the_christoffel_word():
    """The Christoffel word of slope 4/7 is 00100100101 (OEIS A144595)."""
    word = balanced((works("k"),), 7, (works("p"),), 4, most=64)

    assert CHRISTOFFEL == "".join(
        "0" if stitch == "k" else "1" for stitch in stitches(msgspec.to_builtins(word))
    )


def test_the_order_of_wide_and_narrow_sections_is_the_christoffel_word():
    """26 stitches and 11 changes make 4 sections of 3 and 7 of 2: 00100100101 (OEIS A144595), up to rotation."""
    order = "".join("1" if width == 3 else "0" for width in widths(spread(26, 11, "m1")))

    assert order in CHRISTOFFEL * 2
