"""How far it goes on, told by the way: a bracket behind a repeat, what is over, a crown that comes down to k2tog alone.

The counts are worked out by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round

CROWN = "(K6, k2tog) to end\nK next round\n(K5, k2tog) to end\nK next round\n"
DOWN = [56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 16, 8]


@pytest.mark.parametrize(
    ("text", "after"),
    [
        (
            "1st decrease: *K8, k2tog* (repeat around). Knit next row.\n2nd decrease: *K7, k2tog* (rep to end).",
            [72, 72, 64],
        ),
        ("Rnd 1: (K8, k2tog) (repeat 8 times). Knit the next round.", [72, 72]),
        ("Rnd 1: *K8, k2tog* 8 times; knit next round.\nRnd 3: *k7, k2tog*", [72, 72, 64]),
        ("Rnd 1: *K8, k2tog* (repeat around) (72 sts). Purl next rnd.", [72, 72]),
        ("Start decreasing by knitting 8 stitches, then knitting 2 together. Repeat around.", [72]),
        ("Decrease by purling 8 stitches and purling 2 together, repeat around.", [72]),
        (
            "Decrease by knitting 2 together (k2tog), then knitting 8 stitches. Repeat all the way around.",
            [72],
        ),
        ("Next rnd: k2tog 8 times evenly around. Knit 2 rnds.", [72, 72, 72]),
        ("Decrease by k2tog 8 times, evenly spaced (72 sts).", [72]),
        ("Inc rnd: kfb evenly 8 times. 88 sts.", [88]),
    ],
)
def test_what_stands_behind_the_stitches_says_how_far_they_go(text: str, after: list[int]) -> None:
    reading = read(text, (80,))

    assert not errors(reading)
    assert after_each_round(reading) == after


@pytest.mark.parametrize(
    "end",
    [
        "knitting any rem sts - 12 sts",
        "knitting the last st (12 sts)",
        "knitting the remaining 1 stitch. 12 sts",
    ],
)
def test_what_is_over_is_knitted(end: str) -> None:
    assert after_each_round(read(f"*K2tog; rep from * to end of rnd, {end}.", (23,))) == [12]


@pytest.mark.parametrize(
    "end",
    [
        "and so on until you get down to k2tog to end, then break yarn.",
        "Keep going until you are down to k2tog to end.",
        "and so on down to k2tog around.",
        "Do you see how? Change to double points soon...\nuntil you get down to K2 tog to end, then break yarn.",
    ],
)
def test_a_crown_comes_down_to_its_decrease_alone(end: str) -> None:
    reading = read(CROWN + end, (64,))

    assert not errors(reading)
    assert after_each_round(reading) == DOWN


def test_down_to_a_round_of_more_stitches_ends_there() -> None:
    end = "Keep going until you are down to (K1, k2tog) to end."

    assert after_each_round(read(CROWN + end, (64,))) == DOWN[:-2]


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("Rnd 1: *K8, k2tog* 7 times. Knit the rest of the round.", [73]),
        ("Rnd 1: *K8, k2tog* 7 times, knit to end of row.", [73]),
        ("K2tog 40 times.", [40]),
        ("(K8, k2tog) to end. Go on so, knitting 1 st fewer before each k2tog, until 64 sts rem.", [72, 64]),
        ("K2tog evenly around.", [40]),
        ("(K8, k2tog) 8 times evenly. 72 sts.", [72]),
        ("Dec rnd: *K8, k2tog*. Change to dpns, knitting the 72 sts on to 4 needles as you go.", [72]),
        (
            "(K8, k2tog) to end.\n(K7, k2tog) to end. Go on until you have worked down to 48 sts. K2tog to end.",
            [72, 64, 56, 48, 24],
        ),
    ],
)
def test_neighbours_are_read_as_they_were(text: str, after: list[int]) -> None:
    assert after_each_round(read(text, (80,))) == after


@pytest.mark.parametrize(
    "text",
    [
        "Rnd 1: *K8, k2tog* (repeat around) (71 sts). Knit next row.",
        "Rnd 1: *K7, k2tog* (repeat around). Knit next row.",
        "K2tog 8 times evenly around, 70 sts.",
        "(K8, k2tog) to end\n(K7, k2tog) to end\nand so on until you get to k2tog all the way round, 7 sts.",
    ],
)
def test_a_fault_is_still_found(text: str) -> None:
    assert errors(read(text, (80,)))


def test_a_count_that_does_not_hold_what_is_over_is_a_fault() -> None:
    assert errors(read("*K2tog; rep from * to end of rnd, knitting any rem sts (11 sts).", (23,)))


@pytest.mark.parametrize(
    "end", ["knitting any rem sts", "k rem sts", "purling the remaining sts", "knit any remaining stitches"]
)
def test_what_is_over_may_be_several_stitches_or_none(end: str) -> None:
    """In one size nothing is over, in another two are."""
    reading = read(f"*K1, k2tog; rep from * to end of rnd, {end} - 12 (14) sts.", (18, 20))

    assert not errors(reading)
    assert [rounds[-1].after for rounds in reading.rounds] == [12, 14]
