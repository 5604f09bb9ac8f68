"""How a pattern is understood: of several readings the one that comes out."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts


def after(text: str, *cast_on: int) -> list[list[int]]:
    """The counts of each size as they change, of a text in which nothing is wrong."""
    return [size[1:] for size in counts(read(text, cast_on))]


@pytest.mark.parametrize(
    "loop",
    [
        "Rep last 2 rnds twice more. (8 sts)",
        "Rep last 2 rnds twice more - 8 sts",
        "Rep last 2 rnds twice more: 8 sts",
    ],
)
def test_the_count_of_a_loop_is_the_count_after_it(loop: str) -> None:
    """A count printed on a round is its count after the first working; that of a loop is what it ends on."""
    assert [[32, 16, 8]] == after(f"Dec rnd: k2tog around. (32 sts)\nNext rnd: knit.\n{loop}", 64)


def test_changes_spread_evenly_take_the_number_of_each_size() -> None:
    """`inc 8 (10) sts evenly` is 8 for the first size and 10 for the second."""
    text = "Cast on 72 (90) sts\nNext rnd: inc 8 (10) sts evenly around."
    assert [[80], [100]] == after(text, 72, 90)


@pytest.mark.parametrize("heading", ["Decreases:", "Decrease for crown:", "Knit the crown:", "Increase:"])
@pytest.mark.parametrize(
    "begin", ["R1: *k6, k2tog*", "1st round: *k6, k2tog*", "*k6, k2tog*", "(k6, k2tog) 8 times"]
)
def test_a_heading_swallows_nothing(heading: str, begin: str) -> None:
    """A heading that begins with a word of work and ends in a colon is a heading."""
    assert [[56]] == after(f"Cast on 64 sts.\n{heading}\n{begin}", 64)


def test_around_is_said_of_all_stitches_before_it() -> None:
    """`K6, k2tog around` on 50 stitches leaves two over; the last stitch alone is not meant without evidence."""
    (wrong,) = errors(read("Rnd 1: K6, K2tog around", (50,)))
    assert ("left_over", 1, 1) == (wrong.code, wrong.line, wrong.size)


def test_what_is_left_must_be_what_is_said() -> None:
    """`to last 2 sts, k3` needs three where two are left."""
    assert errors(read("Rnd 1: *k6, k2tog; rep from * to last 2 sts, k3", (67,)))


@pytest.mark.parametrize("count", ["(6 sts dec; 57 sts rem)", "(6 sts dec, 57 sts)"])
def test_two_counts_in_a_line_are_both_held_to_it(count: str) -> None:
    """Of two counts neither is passed over."""
    (wrong,) = errors(read(f"Rnd 1: (k8, k2tog) 6 times {count}", (60,)))
    assert ("count_differs", 1, 1) == (wrong.code, wrong.line, wrong.size)


def test_a_count_a_needle_is_no_count() -> None:
    """`14 sts per needle` is told beside the count."""
    assert [[56, 48]] == after("Rnd 1: *k6, k2tog* (56 sts; 14 sts per needle)\nRnd 2: *k5, k2tog*", 64)


@pytest.mark.parametrize(
    "standing", ["2nd and every foll alt round: k", "Even-numbered Rounds 2-20: K all sts", "Rnds 2, 4: knit"]
)
def test_standing_rounds_are_worked_between(standing: str) -> None:
    """A round that stands for others is worked where they are."""
    reading = read(
        f"1st round: *k6, k2tog*\n{standing}\n3rd round: *k5, k2tog*\n5th round: *k4, k2tog*", (64,)
    )
    assert [56, 56, 48, 48, 40] == after_each_round(reading)


def test_a_star_may_stand_before_any_stitch() -> None:
    """`*S2KP, k11` begins with a star and a stitch."""
    assert [[48]] == after("Rnd 1: *S2KP, k11; rep from * around", 56)


def test_a_line_that_is_not_read_is_told_once() -> None:
    """One finding, and the pattern goes on from the count that is printed."""
    text = (
        "Rnd 1: *k6, blorp, zork 3; rep from * around (48 sts)\nRnd 2: *k4, k2tog; rep from * around (40 sts)"
    )
    assert [1] == [wrong.line for wrong in errors(read(text, (64,)))]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Rnd 1: k7, k2tog (64)\nRnd 2: knit\nRnd 3: k6, k2tog (56)", [64, 56]),
        ("*k7, k2tog* (64), knit a round,\n*k6, k2tog* (56)", [64, 56]),
        ("Rnd 1: *k7, k2tog*\nRnd 2: knit\nRnd 3: *k6, k2tog*\nContinue in this manner until 24 sts rem.",
         [64, 56, 48, 40, 32, 24]),
        ("Rnd 1: knit 7, knit 2 together, 8 times (64 sts)", [64]),
        ("Take in: 7 k, 2 tog, the whole round (64 loops).", [64]),
    ],
)  # fmt: skip
def test_knitters_word_a_crown_in_many_ways(text: str, expected: list[int]) -> None:
    """Implied repeats, bare counts, crowns left to go on, numbers before the stitch."""
    assert [expected] == after(text, 72)
