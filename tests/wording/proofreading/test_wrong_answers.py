"""Answers that were wrong once, each with the text that showed it; the eleventh is in `tests/knitting/counting`."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts


@pytest.mark.parametrize(
    "text",
    [
        "Dec rnd: k2tog around. (32 sts)\nNext rnd: knit.\nRep last 2 rnds twice more. (8 sts)",
        "Dec rnd: k2tog around. (32 sts)\nNext rnd: knit.\nRep last 2 rnds twice more - 8 sts",
        "Dec rnd: k2tog around. (32 sts)\nNext rnd: knit.\nRep last 2 rnds twice more: 8 sts",
        "Rnd 1: k2tog around. (32 sts)\nRnd 2: knit.\nRep rnds 1 and 2 two more times. 8 sts.",
        "Rnd 1: k2tog around. (32 sts)\nRnd 2: knit.\nRep rnds 1 and 2 two more times: 8 sts",
        "Rnd 1: k2tog around. (32 sts)\nRnd 2: knit.\nRep rnds 1 and 2 two more times - 8 sts",
        "Rnd 1: k2tog around. (32 sts)\nRnd 2: knit.\nRep rnd 1 until 8 sts remain.",
        "Rnd 1: k2tog around. (32 sts)\nRnd 2: knit.\nRnds 3-6: rep rnds 1 and 2. (8 sts)",
    ],
)
def test_1_a_count_on_a_round_is_that_of_its_first_working(text: str) -> None:
    """What is worked again leaves another count; the one on the loop's line is the one after the loop."""
    assert [[64, 32, 16, 8]] == counts(read(text, (64,)))


@pytest.mark.parametrize("label", ["Inc rnd", "Next rnd"])
def test_2_each_size_has_its_own_number_of_increases(label: str) -> None:
    """`inc 8 (10) sts evenly` on 72 (90) is 80 and 100."""
    reading = read(f"Cast on 72 (90) sts.\n{label}: inc 8 (10) sts evenly around.", (72, 90))

    assert [[80], [100]] == after_rounds_of_sizes(reading)


@pytest.mark.parametrize("heading", ["Decreases:", "Decrease for crown:", "Knit the crown:", "Increase:"])
@pytest.mark.parametrize(
    "line",
    [
        "R1: *k6, k2tog; rep from * around",
        "1st round: [k6, k2tog] 8 times",
        "Dec rnd: *k6, k2tog* around",
        "*k6, k2tog; rep from * around",
        "[k6, k2tog] 8 times",
        "R1: *k6, k2tog*",
        "1st round: *k6, k2tog*",
        "*k6, k2tog*",
        "(k6, k2tog) 8 times",
    ],
)
def test_3_a_heading_does_not_swallow_the_line_below_it(heading: str, line: str) -> None:
    """A heading that begins with a word of work is a heading."""
    assert [56] == after_each_round(read(f"Cast on 64 sts.\n{heading}\n{line}", (64,)))


@pytest.mark.parametrize("heading", ["Materials", "Gauge", "Notes", "Abbreviations"])
def test_4_a_cast_on_ends_what_is_only_told(heading: str) -> None:
    """Below such a heading, lines behind the cast-on are worked, with a number or without."""
    text = f"{heading}\nsome words\nCast on 64 sts.\n*k6, k2tog; rep from * around\nKnit 1 round."

    assert [56, 56] == after_each_round(read(text, (64,)))


def test_5_what_is_repeated_around_is_the_whole_line() -> None:
    """`K6, K2tog around` on 50 leaves two over: it is not six stitches and decreases to the end."""
    (found,) = errors(read("Rnd 1: K6, K2tog around", (50,)))

    assert ("left_over", 1, 1, 2) == (found.code, found.line, found.size, found.stitches)


def test_6_what_is_left_is_what_is_said() -> None:
    """`to last 2 sts, k3` has one stitch too few."""
    assert errors(read("Rnd 1: *k6, k2tog; rep from * to last 2 sts, k3", (67,)))
    assert errors(read("Rnd 1: *k2, k2tog; rep from * to last 2 sts, k3", (43,)))
    assert errors(read("Rnd 1: *k2tog; rep from * to last st, k2tog", (40,)))
    assert not errors(read("Rnd 1: *k2tog; rep from * to last st, k1", (41,)))
    assert not errors(read("Rnd 1: *k2, k2tog; rep from * to last 3 sts, k3", (43,)))


def test_7_a_short_list_of_sizes_is_lengthened_and_mends_no_number() -> None:
    """While the sizes do not agree no other size is touched."""
    text = "Cast on 64 (72, 80) sts.\nRnd 1: *k6 (7, 8), k2tog; rep from * around. 56 (64) sts"
    (found,) = errors(read(text, (64, 72, 80)))

    assert "sizes_differ" == found.code
    assert found.repair in (None, "Rnd 1: *k6 (7, 8), k2tog; rep from * around. 56 (64, 72) sts")


@pytest.mark.parametrize("printed", ["(8 sts dec; 56 sts rem)", "(56 sts; 14 sts per needle)"])
def test_8_of_two_counts_each_is_what_it_says(printed: str) -> None:
    """How many go, how many stay, how many lie on a needle."""
    reading = read(
        f"Rnd 1: *k6, k2tog; rep from * around {printed}\nRnd 2: *k5, k2tog; rep from * around", (64,)
    )

    assert [56, 48] == after_each_round(reading)


@pytest.mark.parametrize("printed", ["(6 sts dec; 57 sts rem)", "(6 sts dec, 57 sts)"])
def test_8_neither_of_two_counts_is_passed_over(printed: str) -> None:
    """Six of 60 are gone, and 57 are not left."""
    (found,) = errors(read(f"Rnd 1: (k8, k2tog) 6 times {printed}", (60,)))

    assert ("count_differs", 1, 1) == (found.code, found.line, found.size)


@pytest.mark.parametrize(
    "standing", ["2nd and every foll alt round: k", "Even-numbered Rounds 2-20: K all sts", "Rnds 2, 4: knit"]
)
def test_9_standing_rounds_stand(standing: str) -> None:
    """They are worked between the rounds that follow."""
    rounds = (
        "1st round: *k6, k2tog; rep from * around",
        standing,
        "3rd round: *k5, k2tog; rep from * around",
        "5th round: *k4, k2tog*",
    )

    assert [56, 56, 48, 48, 40] == after_each_round(read("\n".join(rounds), (64,)))


def test_9_a_star_before_a_name_with_a_number_is_a_star() -> None:
    """`*S2KP, k11` begins a repeat."""
    assert [48] == after_each_round(read("Rnd 1: *S2KP, k11; rep from * around", (56,)))


def test_10_a_first_line_that_cannot_be_read_is_one_finding() -> None:
    """What is worked on the count it prints comes out."""
    text = (
        "Rnd 1: *k6, blorp, zork 3; rep from * around (48 sts)\nRnd 2: *k4, k2tog; rep from * around (40 sts)"
    )

    assert [1] == [found.line for found in errors(read(text, (64,)))]


def test_10_a_line_that_cannot_be_read_is_one_finding() -> None:
    """And the pattern goes on from its printed count: what follows is not called wrong."""
    text = (
        "Rnd 1: *k6, k2tog; rep from * around — 56 sts\nRnd 2: *k5, blobble zz; rep from * around — 48 sts\n"
    )
    reading = read(text + "Rnd 3: *k4, k2tog; rep from * around — 40 sts", (64,))

    assert [2] == [found.line for found in errors(reading)]
    assert 40 == reading.rounds[0][-1].after
