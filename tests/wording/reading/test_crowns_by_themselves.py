"""Crowns printed by themselves: sizes called by their stitches, markers in the heading, even rounds up to the last.

The counts are worked by hand.
"""

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts, number_of_rounds


def test_sizes_are_called_by_the_stitches_that_the_heading_lists() -> None:
    """No line casts on; the largest size begins, the others join in."""
    reading = read(
        "Top decreases, 64 (72, 80) sts\nKnit 1 round even between decrease rounds.\n"
        "80 sts only: *k8, k2tog* around (72)\n72 and 80 sts only: *k7, k2tog* around (64)\n"
        "All sizes: *k6, k2tog* around (56)\n*k5, k2tog* around (48)",
        (64, 72, 80),
    )

    assert not errors(reading)
    assert counts(reading) == [[64, 56, 48], [72, 64, 56, 48], [80, 72, 64, 56, 48]]


def test_markers_stand_where_the_heading_has_them() -> None:
    """`= 6 sections` explains no stitch."""
    reading = read(
        "Crown (96 sts, with a marker after every 16 sts = 6 sections)\n"
        "Dec Rnd: *K1, ssk, k to 3 sts before m, k2tog, k1, sm; rep from * to end. 12 sts dec.\n"
        "Work Dec Rnd on next rnd, then on every 4th rnd once, on every other rnd twice, and on every rnd twice. "
        "24 sts.",
        (96,),
    )

    assert not errors(reading)
    assert counts(reading) == [[96, 84, 72, 60, 48, 36, 24]]
    assert number_of_rounds(reading) == [11]


def test_even_rounds_are_worked_up_to_the_last_before_a_crown_goes_on_without_numbers() -> None:
    """Round 12 is plain, and every round from the 13th on decreases."""
    reading = read(
        "Rnd 1: *K10, k2tog; rep from * to end. (88 sts)\nRnd 2 and all even rnds through Rnd 4: Knit.\n"
        "Rnd 3: *K9, k2tog; rep from * to end. (80 sts)\n"
        "From Rnd 5 on, dec on every rnd, with one st fewer before each k2tog, until 64 sts remain.",
        (96,),
    )

    assert not errors(reading)
    assert [worked_round.after for worked_round in reading.rounds[0]] == [88, 88, 80, 80, 72, 64]


def test_decreases_told_twice_are_worked_once() -> None:
    """How many there are, and behind the colon where they lie."""
    reading = read("Rnd 1: Purl 1 rnd, dec 6 sts evenly as foll: [p12, p2tog] 6 times.", (84,))

    assert not errors(reading)
    assert counts(reading) == [[84, 78]]
    assert number_of_rounds(reading) == [1]


def test_a_crown_is_finished_with_rounds() -> None:
    """Below `Finishing` stands the making up; `To finish` may begin the last rounds."""
    reading = read(
        "To finish: k2tog all the way round (42 sts), knit 1 round, k2tog all the way round again (21 sts).",
        (84,),
    )

    assert not errors(reading)
    assert counts(reading) == [[84, 42, 21]]
    assert number_of_rounds(reading) == [3]


def test_a_decrease_round_goes_on_by_its_name_in_another_rhythm() -> None:
    """Two more decrease rounds with no plain ones between, each with one stitch fewer."""
    reading = read(
        "Dec rnd: *K4, k2tog; rep from * around—60 sts rem.\nNext rnd: Knit.\n"
        "Rep last 2 rnds 1 more time, working 1 fewer st before each dec every time—48 sts rem.\n"
        "Rep Dec rnd every rnd 2 times as established—24 sts rem.",
        (72,),
    )

    assert not errors(reading)
    assert [worked_round.after for worked_round in reading.rounds[0]] == [60, 60, 48, 48, 36, 24]


def test_words_behind_a_round_in_brackets_name_no_size() -> None:
    """`every round (no more plain rounds)` lists no two sizes."""
    reading = read(
        "Round 1: *k7 (8), k2tog* around = 64 (72) sts\nRound 2: knit\nRound 3: *k6 (7), k2tog* around = 56 (64) sts\n"
        "Keep decreasing 8 sts every round like this (no more plain rounds) until you have 8 sts left.",
        (72, 80),
    )

    assert not errors(reading)
    assert counts(reading) == [[72, 64, 56, 48, 40, 32, 24, 16, 8], [80, 72, 64, 56, 48, 40, 32, 24, 16, 8]]


def test_a_fabric_that_is_only_told_works_no_round_told_ahead() -> None:
    """The last of the even rounds is the one that is printed."""
    reading = read(
        "All even rounds to the 4th: knit.\nRnd 1: *K6, k2tog*. (56)\nRnd 3: *K5, k2tog*. (48)\n"
        "Twisted rib: *k1 tbl, p1*.\nRnd 4: twisted rib.\nRnd 5: *K4, k2tog*. (40)",
        (64,),
    )

    assert after_each_round(reading) == [56, 56, 48, 48, 40]
