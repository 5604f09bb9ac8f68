"""Crowns in full sentences: what goes on, what stands between, and what is told beside the work."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts, number_of_rounds, worked


@pytest.mark.parametrize("again", ["Do this every round", "Repeat in every round", "Do this on each round"])
def test_what_is_done_every_round_until_a_count_has_no_plain_rounds(again: str) -> None:
    text = f"Rnd 1: *k6, k2tog* around.\nDo this every second round once more.\n{again} until 8 sts remain."

    assert after_each_round(read(text, (64,))) == [56, 56, 48, 40, 32, 24, 16, 8]


@pytest.mark.parametrize("plain", ["two knit rounds", "two more knit rounds", "two plain rounds"])
def test_plain_rounds_behind_a_decrease_round_are_plain(plain: str) -> None:
    """They were read as the decrease round twice more."""
    text = f"Decrease round: *k10, k2tog; rep from * around. 66 sts.\nWork another decrease round (60 sts) and {plain}."

    assert after_each_round(read(text, (72,))) == [66, 60, 60, 60]


def test_a_decrease_round_may_have_other_plain_rounds_this_time() -> None:
    text = (
        "Decrease round: *k10, k2tog; rep from * around. 66 sts. Knit two rounds.\n"
        "Work another decrease round (60 sts), but this time knit only one round after it."
    )

    assert after_each_round(read(text, (72,))) == [66, 66, 66, 60, 60]


@pytest.mark.parametrize(
    "before",
    ["to the stitch before a marked stitch", "to the st before the marker", "to 1 st before the marker"],
)
def test_a_centred_decrease_begins_at_the_stitch_before_the_marked_stitch(before: str) -> None:
    text = f"*Knit {before}, cdd; repeat from * five more times. Twelve stitches have gone and 72 remain."

    assert after_each_round(read(text, (84,))) == [72]


@pytest.mark.parametrize(
    "both", ["Alternate the two rounds", "Alternate these two rounds", "Repeat the two rounds"]
)
def test_rounds_alternate_so_many_times(both: str) -> None:
    text = (
        "Place a marker after each stitch.\nSwirl round: *knit to the marker, yarn over, slip marker* around. 16 sts\n"
        "Plain round: knit every stitch and every yarn over.\n"
        f"{both} 2 more times, so that every section has grown to 4 stitches. 32 sts"
    )

    assert after_each_round(read(text, (8,))) == [16, 16, 24, 24, 32, 32]


def test_a_round_before_the_decreases_is_worked() -> None:
    """`Knit one round like this:` works nothing itself; `then` says that it does."""
    below = "\nEvery tenth and eleventh stitch together (100 stitches); three rounds plain."
    told = "Knit one round, then take off the stitches thus:"

    assert after_each_round(read(told + below, (110,))) == [110, 100, 100, 100, 100]
    assert after_each_round(read("Knit one round like this:" + below, (110,))) == [100, 100, 100, 100]


def test_rounds_behind_a_provisional_cast_on_are_worked() -> None:
    text = "Cast on 88 stitches with a provisional cast-on, join, and knit 14 rounds."

    assert number_of_rounds(read(text, (88,))) == [14]


def test_crown_rounds_are_repeated_with_one_stitch_fewer() -> None:
    text = (
        "Crown, round 1: knit 9, k2tog, and so on to the end (80 stitches)\nCrown, round 2: knit.\n"
        "Repeat those two crown rounds, but with one knit stitch less before the k2tog each time, until you've got "
        "64 stitches and have knit the plain round too.\n"
        "From here, skip the plain rounds. Decrease, decrease, decrease, until there are 48 stitches."
    )

    assert after_each_round(read(text, (88,))) == [80, 80, 72, 72, 64, 64, 56, 48]


def test_a_number_stands_before_its_stitch() -> None:
    """`Three knit, two together` was read as three decreases."""
    assert counts(read("Three knit, two together, over and over (32 sts).", (40,))) == [[40, 32]]
    assert counts(read("Two together, one knit, over and over (16 sts).", (24,))) == [[24, 16]]


@pytest.mark.parametrize("first", ["", ", starting with purl", ", beginning with purl"])
def test_rounds_by_turns_begin_with_that_which_is_named(first: str) -> None:
    text = f"Purl 1 round and knit 1 round by turns, 5 rounds altogether{first}."

    assert number_of_rounds(read(text, (40,))) == [5]


@pytest.mark.parametrize("cable", ["work cable over 6", "work cable over 6 sts", "cable 6"])
def test_a_cable_is_as_many_stitches_as_it_goes_over(cable: str) -> None:
    assert counts(read(f"*{cable}, p2tog, p4; rep from * to end.", (96,))) == [[96, 88]]


def test_stitches_are_told_by_their_place() -> None:
    made = "Increase round: make one stitch after every fifth stitch, all the way round."
    last = "On each of the four needles knit to the last 2 of the 19 stitches and knit these together."

    assert [after for _, after, _ in worked(read(made, (60,)))] == [72]
    assert after_each_round(read(f"19 sts on each of 4 needles.\n{last}", (76,))) == [72]
    assert counts(read("*Patt 9, work next 3 sts tog; rep from * to end.", (72,))) == [[72, 60]]


CROWN = "Round 1: *k9, k2tog* (70).\nRound 2: knit.\nRound 3: *k8, k2tog* (63).\nRound 4: knit.\n"
BEGUN = [70, 70, 63, 63]


@pytest.mark.parametrize(
    "on",
    [
        "Leave out the plain rounds now. Five more decrease rounds bring you to 28.",
        "Five more decrease rounds, without a plain round between, leave you with 28 stitches.",
        "Work five more decrease rounds.",
        "Now decrease in every round. After five such rounds there are 28 stitches left.",
        "We drop the knit rounds and decrease seven stitches in every round. After five of these there are 28 left.",
    ],
)
def test_so_many_decrease_rounds_one_after_the_other(on: str) -> None:
    """`Work five more decrease rounds` alone was not worked at all."""
    assert after_each_round(read(CROWN + on, (77,))) == [*BEGUN, 56, 49, 42, 35, 28]


@pytest.mark.parametrize(
    "on",
    [
        "Two more decrease rounds, each followed by a plain round: 49 sts.",
        "Work two more decrease rounds with 1 knit round after each.",
        "Work two more decrease rounds with a plain round after each. 49 sts.",
        "Decrease on every odd round; all even rounds are knit. Stop after Round 8, with 49 stitches.",
        "All odd rounds have seven decreases; all even rounds are just knit. Stop after Round 8, with 49 stitches.",
    ],
)
def test_so_many_decrease_rounds_with_a_plain_round_after_each(on: str) -> None:
    assert after_each_round(read(CROWN + on, (77,))) == [*BEGUN, 56, 56, 49, 49]


def test_plain_rounds_between_two_more_decrease_rounds() -> None:
    on = "Work two more decrease rounds with 2 plain rounds between. 49 sts."

    assert after_each_round(read(CROWN + on, (77,))) == [*BEGUN, 63, 56, 56, 56, 49]


def test_the_rounds_after_each_stand_behind_it_where_the_last_round_was_a_decrease_too() -> None:
    on = "3 more decrease rounds with 2 knit rounds after each. (49 sts)"

    assert after_each_round(read("Round 1: *k9, k2tog* (70).\n" + on, (77,))) == [
        70, 63, 63, 63, 56, 56, 56, 49, 49, 49,
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("on", "small", "large"),
    [
        (
            "Two more decrease rounds with 1 (2) knit rounds after each.",
            [64, 64, 56, 56],
            [64, 64, 64, 56, 56, 56],
        ),
        ("Decrease again, with 1 (3) plain rounds after it.", [64, 64], [64, 64, 64, 64]),
        (
            "Continue decreasing, with 1 (2) rounds between, until 56 sts remain.",
            [72, 64, 64, 56],
            [72, 72, 64, 64, 64, 56],
        ),
    ],
)
def test_every_size_has_plain_rounds_of_its_own_number(on: str, small: list[int], large: list[int]) -> None:
    """The number of the first size was that of both."""
    text = f"*K8, k2tog; rep from * around.\n{on}"

    assert [[72, *small], [72, *large]] == after_rounds_of_sizes(read(text, (80, 80)))


@pytest.mark.parametrize(
    "on",
    [
        "Work 3 decrease rounds after each other, with 2 knit rounds at the end.",
        "Two more decrease rounds followed by 2 knit rounds, somewhere in blue.",
        "4 decrease rounds follow, with 1 knit round between the second and the third.",
        "Three more decrease rounds on every 2nd round (42 sts).",
    ],
)
def test_plain_rounds_at_another_place_are_an_error_and_no_rhythm(on: str) -> None:
    """The neighbours: none of them says that plain rounds follow every decrease round."""
    assert ["not_understood"] == [finding.code for finding in read(CROWN + on, (77,)).findings]


@pytest.mark.parametrize(
    "on",
    [
        "Your 60 stitches have become 32.",
        "60 stitches turn into 32.",
        "Your 60 stitches have become 32 stitches.",
        "You now have 32 stitches.",
    ],
)
def test_a_count_that_stitches_have_become_is_compared(on: str) -> None:
    assert ["count_differs"] == [finding.code for finding in read(f"K2tog around. {on}", (60,)).findings]
    assert [30] == after_each_round(read(f"K2tog around. {on}".replace("32", "30"), (60,)))


@pytest.mark.parametrize("end", ["Stop after Round 7.", "Stop after Round 7, with 49 stitches."])
def test_a_pace_goes_on_to_the_round_that_is_named(end: str) -> None:
    on = f"Continue decreasing in every other round. {end}"

    assert [*BEGUN, 56, 56, 49] == after_each_round(read(CROWN + on, (77,)))


@pytest.mark.parametrize(
    ("behind", "after"),
    [
        (", with 49 stitches, and knit 3 rounds.", [49, 49, 49]),
        (" and purl 1 round.", [49]),
        (", with 49 stitches, and *k5, k2tog* around.", [42]),
        (", then *k5, k2tog* around (42).", [42]),
    ],
)
def test_what_is_told_behind_the_end_of_a_pace_is_worked(behind: str, after: list[int]) -> None:
    """The sentence that says how far the decreases go tells more rounds."""
    on = f"Continue decreasing in every other round. Stop after Round 8{behind}"

    assert [*BEGUN, 56, 56, 49, 49, *after] == after_each_round(read(CROWN + on, (77,)))


def test_the_count_at_the_last_round_is_compared() -> None:
    on = "Continue decreasing in every other round. Stop after Round 7, with 42 stitches."

    assert ["count_differs"] == [finding.code for finding in read(CROWN + on, (77,)).findings]


@pytest.mark.parametrize("no", ["do not omit", "please don't omit", "never skip"])
def test_plain_rounds_that_are_not_to_be_left_out_are_worked(no: str) -> None:
    on = f"Continue until 49 sts remain; {no} the rounds between."

    assert [*BEGUN, 56, 56, 49] == after_each_round(read(CROWN + on, (77,)))


@pytest.mark.parametrize(
    ("on", "after"),
    [
        ("Beginning with the next round, dec 8 sts evenly every other rnd 3 times.", [72, 72, 64, 64, 56]),
        ("Dec 8 sts evenly every 4th rnd 2 more times.", [80, 80, 80, 72, 72, 72, 72, 64]),
        ("Dec 8 sts evenly on this and every 3rd rnd 2 more times.", [72, 72, 72, 64]),
        ("CROWN\nDec 8 sts on every 3rd rnd 2 times.", [72, 72, 72, 64]),
        ("Now it gets small.\nDec 8 sts every 3rd rnd 2 times.", [80, 80, 72, 72, 72, 64]),
        ("Dec 8 sts every 3rd rnd 2 more times for this size.", [80, 80, 72, 72, 72, 64]),
        ("Dec 8 sts every 3rd rnd 2 more times at the first marker.", [80, 80, 72, 72, 72, 64]),
    ],
)
def test_decreases_so_far_apart_begin_behind_the_last_where_nothing_says_otherwise(
    on: str, after: list[int]
) -> None:
    assert [80, *after] == after_each_round(read(f"Rnd 1: dec 8 sts evenly.\n{on}", (88,)))


@pytest.mark.parametrize(
    "gone", ["The plain rounds go", "The plain rounds are left out", "No more plain rounds"]
)
def test_plain_rounds_that_are_gone_are_not_worked(gone: str) -> None:
    on = f"{gone}, keep decreasing until 28 sts remain."

    assert [*BEGUN, 56, 49, 42, 35, 28] == after_each_round(read(CROWN + on, (77,)))


def test_decrease_rounds_that_are_only_spoken_of_are_not_worked() -> None:
    """The neighbour."""
    assert after_each_round(read(CROWN + "You will need five more decrease rounds later.", (77,))) == BEGUN


@pytest.mark.parametrize("after", ["1 knit round after it", "1 plain round after it", "one round after it"])
def test_a_decrease_once_more_has_its_plain_round_behind_it(after: str) -> None:
    assert after_each_round(read(f"{CROWN}Decrease again, with {after}.", (77,))) == [*BEGUN, 56, 56]


def test_rounds_with_their_number_first_are_a_round_each() -> None:
    """They were read as the one round of k1, p1, k1."""
    text = "One knit round, one purl round, one knit round."

    assert number_of_rounds(read(text, (63,))) == [3]


@pytest.mark.parametrize(
    "before",
    [
        "Whenever you come to the last two stitches before a marker",
        "Every time you reach 2 stitches before a marker",
        "Each time you get to the last 2 sts before the marker",
    ],
)
@pytest.mark.parametrize(
    "markers",
    [
        "You will need five stitch markers. Put one on the needle after every 14 stitches.",
        "Put a marker on the needle after every 14 stitches.",
    ],
)
def test_whenever_a_marker_comes_is_before_each_marker(markers: str, before: str) -> None:
    """They were read as two together all around."""
    assert after_each_round(read(f"{markers}\n{before}, knit two together.", (70,))) == [65]


ON_MARKERS = "Place 8 markers.\nDecrease round: *knit to 2 sts before the marker, k2tog* around (72 sts).\n"
FROM_MARKERS = [72, 72, 64, 64, 56, 56]


def test_two_rounds_may_be_told_as_a_decrease_one_and_a_plain_one() -> None:
    """The word for a decrease was read as k2tog, and the plain rounds were lost."""
    text = (
        f"{ON_MARKERS}Knit one round without decreasing.\nDo these two rounds, a decrease one and a plain one, "
        "until you have 56 stitches left and a plain round just behind you."
    )

    assert after_each_round(read(text, (80,))) == FROM_MARKERS


@pytest.mark.parametrize("gone", ["go", "stop", "are left out", "are over", "disappear"])
def test_the_plain_rounds_may_be_said_to_go(gone: str) -> None:
    text = (
        f"{CROWN}Keep alternating like that, one stitch fewer before the decrease every time, until 49 stitches are "
        f"left. After that the plain rounds {gone}: decrease in each round until you can count only 28 stitches."
    )

    assert after_each_round(read(text, (77,))) == [*BEGUN, 56, 56, 49, 42, 35, 28]


@pytest.mark.parametrize(
    "on",
    [
        "every round is a decrease round; three of them bring you to 42",
        "we decrease in every round. Three of these leave 42",
    ],
)
def test_every_round_is_a_decrease_round(on: str) -> None:
    assert after_each_round(read(f"{CROWN}From here on {on}.", (77,))) == [*BEGUN, 56, 49, 42]


@pytest.mark.parametrize("on_it", ["(16 stitches on a needle) ", "", "(16 stitches on each needle) "])
def test_stitches_on_a_needle_are_those_of_each(on_it: str) -> None:
    text = (
        f"Narrow at the end of each needle {on_it}every second round until there are fourteen on each needle, "
        "and afterwards every round until ten on each are left."
    )

    assert after_each_round(read(text, (64,))) == [60, 60, 56, 52, 48, 44, 40]


@pytest.mark.parametrize("fewer", ["a stitch less", "one stitch less", "a stitch fewer"])
def test_a_stitch_less_is_one_stitch_less(fewer: str) -> None:
    text = f"{CROWN}Those two rounds twice more, each time with {fewer} before the k2tog: 49 stitches."

    assert after_each_round(read(text, (77,))) == [*BEGUN, 56, 56, 49, 49]


def test_the_same_again_with_fewer_stitches_is_the_decrease_round() -> None:
    same = f"{ON_MARKERS}Knit a round in peace.\nDo the same again"

    assert after_each_round(read(f"{same}: 64 stitches.", (80,))) == [72, 72, 64]
    assert after_each_round(read(f"{same}: 72 stitches.", (80,))) == [72, 72, 72]


@pytest.mark.parametrize(
    "then",
    [
        "and every round after that until 8 stitches are left",
        ", then every round until only one stitch is left in each section",
    ],
)
def test_decreases_come_at_another_pace_in_the_same_sentence(then: str) -> None:
    """They went on every other round to the end."""
    text = f"{ON_MARKERS}Repeat it every other round 4 times more, {then}."

    assert after_each_round(read(text, (80,))) == [*FROM_MARKERS, 48, 48, 40, 32, 24, 16, 8]


@pytest.mark.parametrize(
    "left",
    ["until only one stitch is left in each", "until there is one on each", "until one on each is left"],
)
def test_stitches_left_in_each_are_those_of_each_section(left: str) -> None:
    text = f"{ON_MARKERS}From then on decrease on each round {left}."

    assert after_each_round(read(text, (80,))) == [72, 64, 56, 48, 40, 32, 24, 16, 8]


@pytest.mark.parametrize(
    "made",
    [
        "After every fifth stitch make one",
        "After every 5 sts make 1",
        "Make one after every 5 stitches",
        "Make one stitch after every fifth stitch",
    ],
)
def test_what_is_made_after_every_so_many_stitches(made: str) -> None:
    assert counts(read(f"{made} (72).", (60,))) == [[60, 72]]


FIRST_OF_NINE = "Rnd 1: *K7, k2tog; rep from * (72). Knit 1 rnd.\n"


@pytest.mark.parametrize(
    "paces",
    [
        "every 4th rnd 2 more times = 54 sts, every other rnd 3 times = 27 sts, then every rnd 2 times",
        "every 4th rnd until 54 sts, every other rnd until 27 sts, then every rnd until 9 sts",
        "every 4th rnd until 54 sts remain, every other rnd 3 times, every rnd until 9 sts",
    ],
)
def test_each_pace_of_a_row_ends_where_the_next_begins(paces: str) -> None:
    """The second was not read at all, or every fourth round went on to its count."""
    text = f"{FIRST_OF_NINE}In this manner dec {paces}."
    fourth, other = [72, 72, 72, 72, 63, 63, 63, 63, 54], [54, 45, 45, 36, 36, 27]

    assert after_each_round(read(text, (81,))) == [*fourth, *other, 18, 9]


@pytest.mark.parametrize(
    "all_of_them",
    [
        "Dec 9 sts on each of the next 4 rnds",
        "Dec 9 sts evenly in every one of the next four rounds",
        "On each of the next 4 rnds dec 9 sts",
        "4 more rnds, each with decreases",
        "4 rounds, all with decreases",
    ],
)
def test_rounds_that_all_shape_shape_all(all_of_them: str) -> None:
    """The first words worked plain rounds and a single decrease round."""
    assert after_each_round(read(f"{FIRST_OF_NINE}{all_of_them} (36 sts).", (81,)))[2:] == [63, 54, 45, 36]


def test_so_many_rounds_of_which_a_single_round_shapes() -> None:
    assert after_each_round(read(f"{FIRST_OF_NINE}Knit 4 rnds, dec 9 sts in the last.", (81,)))[2:] == [
        72,
        72,
        72,
        63,
    ]


def test_the_rest_is_no_number_of_the_next_sentence() -> None:
    text = "Place 9 markers, 9 sts apart. In each section work k2tog, knit the rest. 72 sts."

    assert counts(read(text, (81,))) == [[81, 72]]
