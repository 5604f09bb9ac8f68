"""Rounds of whom few words are told, and neighbours that look alike; each text counted by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts, faults, number_of_rounds

MARKED = "Rnd 1: *knit to 2 sts before marker, k2tog, slip marker; rep from * around (66 sts)\n"
THREE = "Decrease round 1: *k8, k2tog* (63)\nDecrease round 2: *k7, k2tog* (56)\nDecrease round 3: *k6, k2tog* (49)"


@pytest.mark.parametrize(
    "end", ["work 1 round even", "work one row even", "then work one row even", "work 1 rnd straight"]
)
def test_a_plain_round_behind_the_end_of_a_round(end: str) -> None:
    assert after_each_round(read(f"*K7, k2tog* around, {end}.", (72,))) == [64, 64]


def test_as_many_plain_rounds_as_are_told() -> None:
    assert after_each_round(read("(K7, k2tog) around, work 3 rows even.", (72,))) == [64, 64, 64, 64]


def test_evenly_is_no_plain_round() -> None:
    assert after_each_round(read("(K7, k2tog) around, work evenly.", (72,))) == [64]


def test_plain_rounds_in_a_crown_that_goes_on() -> None:
    text = "(K4, k2tog) around, work one row even\n(K3, k2tog) around, work one row even\n"
    reading = read(text + "And so on until it is: (k2tog) across whole row.", (36,))

    assert after_each_round(reading) == [30, 30, 24, 24, 18, 18, 12, 12, 6]


@pytest.mark.parametrize(
    "text",
    [
        "Decrease only one stitch, knit around (57 stitches)",
        "Knit around, decreasing just 1 stitch (57 sts)",
        "Next rnd: dec only 1 st (57 sts).",
    ],
)
def test_only_so_many_stitches_are_decreased(text: str) -> None:
    assert after_each_round(read(text, (58,))) == [57]


def test_only_so_many_on_each_needle_are_those_of_all_needles() -> None:
    """`only` changes nothing where a part is told: it was one stitch of the round, in silence."""
    text = "Rnd 1: knit, decrease{} 1 st on each of the 4 needles."
    counts = [after_each_round(read(text.format(only), (80,))) for only in ("", " only")]
    assert counts[0] == counts[1] != [79]


@pytest.mark.parametrize("part", ["at each marker", "at every marker"])
def test_only_so_many_at_each_marker_are_not_those_of_the_round(part: str) -> None:
    assert faults(read(f"Place 8 markers. Rnd 1: decrease only 1 st {part}.", (80,)))


@pytest.mark.parametrize("joint", [", knitting", " and knitting", ", then knit", " and knit", ", knit"])
@pytest.mark.parametrize("cast_on", [80, 83])
def test_what_is_over_is_of_the_same_round(joint: str, cast_on: int) -> None:
    """The stitches left over are knitted in the round of the repeat, in none where nothing is over."""
    text = f"Rnd 1: *k8, k2tog* around{joint} the remaining sts."
    assert after_each_round(read(text, (cast_on,))) == [cast_on - 8]


def test_increases_in_each_of_some_stitches_of_a_plain_round_are_no_repeat() -> None:
    """`knit` is the verb of the round: it was read as (k1, kfb 4 times) all around, in silence."""
    assert faults(read("Rnd 1: knit, inc 1 in each of the first 4 sts.", (80,)))


def test_an_exception_is_no_round() -> None:
    text = "Rnd 1: dec 2 sts at each of the 4 markers.\nThe first time, decrease only 1 stitch."

    assert number_of_rounds(read(text, (58,))) == [1]


@pytest.mark.parametrize(
    "text",
    [
        "Knit around increasing 1 stitch in each st; 18 sts.",
        "Knit 1 round, increasing 1 st in every st (18 sts).",
        "Next rnd: knit, increasing in each st.",
        "Increase 1 st in each st around.",
    ],
)
def test_an_increase_in_each_stitch(text: str) -> None:
    assert after_each_round(read(text, (9,))) == [18]


def test_an_increase_in_every_third_stitch() -> None:
    assert after_each_round(read("Knit around, increasing 1 st in every 3rd st (12 sts).", (9,))) == [12]


@pytest.mark.parametrize("last", ["last st is knit", "the last st is knitted", "last st is purled"])
def test_the_last_stitch_told_behind_stars(last: str) -> None:
    assert after_each_round(read(f"Rnd 1: *k6, k2tog*, {last}.", (73,))) == [64]


def test_how_a_rib_ends_is_no_stitch() -> None:
    assert after_each_round(read("Rnd 1: *k1, p1*, so that the last st is purled.", (72,))) == [72]


@pytest.mark.parametrize("brim", ["The brim is 18 rnds of k1, p1 rib.", "Brim is 18 rnds of k2, p2 rib."])
def test_a_brim_that_is_so_many_rounds(brim: str) -> None:
    assert number_of_rounds(read(f"{brim}\nThen knit 7 rnds.", (72,))) == [25]


@pytest.mark.parametrize(
    "text", ["The brim is 18 rnds in all.\nRnds 1-18: k1, p1 around.", "The brim is 18 rnds.\nKnit 18 rnds."]
)
def test_how_high_a_brim_is_is_not_worked(text: str) -> None:
    assert number_of_rounds(read(text, (72,))) == [18]


@pytest.mark.parametrize(
    ("told", "after"),
    [
        ("Knit 1 round after each of decrease rounds 1 to 2.", [63, 63, 56, 56, 49]),
        ("Knit 2 rounds after each of decrease rounds 1-2.", [63, 63, 63, 56, 56, 56, 49]),
        ("You have 70 sts. Knit 1 round after each of decrease rounds 1 to 2.", [63, 63, 56, 56, 49]),
        ("Knit 1 round after each of the first 2 decrease rounds.", [63, 63, 56, 56, 49]),
    ],
)
def test_plain_rounds_behind_the_first_decrease_rounds(told: str, after: list[int]) -> None:
    reading = read(f"{told}\n{THREE}\nDecrease round 4: *k5, k2tog* (42)", (70,))

    assert after_each_round(reading) == [*after, 42]


def test_plain_rounds_behind_every_decrease_round() -> None:
    reading = read(f"Knit 1 round after each decrease round.\n{THREE}", (70,))

    assert after_each_round(reading) == [63, 63, 56, 56, 49]


@pytest.mark.parametrize(
    "text",
    [
        "Dec rnd [54 sts]. Knit 2 rnds.",
        "Cast on 60 sts. Dec rnd [54 sts]. Knit 2 rnds.",
        "Decrease round (54 sts).\nKnit 2 rnds.",
    ],
)
def test_a_round_told_by_its_name_and_count(text: str) -> None:
    assert after_each_round(read(text, (60,))) == [54, 54, 54]


def test_each_goes_to_its_own_count() -> None:
    reading = read("Dec rnd [54 (63) sts].\nKnit 1 rnd.\nDec rnd [48 (56) sts].", (60, 70))

    assert after_rounds_of_sizes(reading) == [[54, 54, 48], [63, 63, 56]]


@pytest.mark.parametrize("text", ["Dec rnd (54 sts)\nRnd 1: *k8, k2tog*", "Dec rnd (54 sts): *k8, k2tog*"])
def test_a_heading_with_a_count_is_no_round(text: str) -> None:
    assert after_each_round(read(text, (60,))) == [54]


def test_a_wrong_count_of_a_round_worked_again_is_found() -> None:
    text = f"{MARKED}Rnd 2: knit.\nDec rnd (59 sts)."

    assert [line for _, line in faults(read(text, (72,)))] == [3]


@pytest.mark.parametrize(
    "again",
    [
        "Rep rnd 1 every other rnd 3 more times.",
        "Work the dec rnd every other rnd 3 more times.",
        "Repeat rnd 1 every other rnd until 48 sts remain.",
    ],
)
def test_the_plain_round_that_was_worked_counts(again: str) -> None:
    """Rounds 3, 5 and 7 shape, whether round 2 was told before or not."""
    assert after_each_round(read(f"{MARKED}Rnd 2: knit.\n{again}", (72,))) == [66, 66, 60, 60, 54, 54, 48]
    assert after_each_round(read(f"{MARKED}{again}", (72,))) == [66, 66, 60, 60, 54, 54, 48]


def test_two_rounds_worked_again_are_both_worked() -> None:
    reading = read(f"{MARKED}Rnd 2: knit.\nRep rnds 1 and 2 twice more.", (72,))

    assert after_each_round(reading) == [66, 66, 60, 60, 54, 54]


def test_the_count_of_each_repeat() -> None:
    text = (
        "Round 1: *k2, p2, k2, p2tog* (7 st)\nRound 2: *k2, p2, k2, p1*\nRound 3: *k2, p2tog, k2, p1* (6 st)"
    )

    assert counts(read(text, (72,))) == [[72, 63, 54]]


@pytest.mark.parametrize(
    "text",
    [
        "Rnd 1: *k7, k2tog* (80 sts).\nRnd 2: knit.\nRnd 3: *k6, k2tog* (7 sts).",
        "Rnd 1: *k7, k2tog* (80 sts).\nRnd 2: knit.\nRnd 3: *k6, k2tog* (8 sts).",
    ],
)
def test_a_count_that_lacks_a_digit_is_found(text: str) -> None:
    assert faults(read(text, (90,))) == [("count_differs", 3)]
