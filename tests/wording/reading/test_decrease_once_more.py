"""`Decrease again`: the decreases of the last shaping once more, on the next round."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults

ROUND = "Rnd 1: *k10, k2tog; rep from * (77 sts). Knit 3 rnds.\n"


@pytest.mark.parametrize(
    "again", ["Decrease again", "Decrease once more", "Decrease one last time", "Decrease one more time"]
)
@pytest.mark.parametrize(
    "end", [".", " (70 sts).", " = 70 sts.", ", and knit 2 rounds.", " and knit 2 rounds."]
)
def test_it_is_shaped_as_before_on_the_next_round(again: str, end: str) -> None:
    plain = [70, 70] if "knit" in end else []

    assert after_each_round(read(ROUND + again + end, (84,))) == [77, 77, 77, 77, 70, *plain]


def test_the_plain_rounds_between_are_those_that_are_told() -> None:
    """One plain round before the last decreases, where there were three before the others."""
    text = f"{ROUND}Decrease again (70 sts), and knit 1 round.\nDecrease a last time (63 sts)."

    assert after_each_round(read(text, (84,))) == [77, 77, 77, 77, 70, 70, 63]


@pytest.mark.parametrize("once", ["Decrease once", "Decrease one last time", "Decrease 1 st"])
def test_once_by_itself_is_one_stitch(once: str) -> None:
    """The neighbour: nothing is told to be done again."""
    assert after_each_round(read(f"{ROUND}{once} evenly.", (84,))) == [77, 77, 77, 77, 76]


@pytest.mark.parametrize(
    "again",
    [
        "Next round: decrease in the same way. Knit 2 rounds.",
        "Decrease in the same way on the next round. Knit 2 rounds.",
        "Repeat the decreases. Knit 2 rounds.",
        "Repeat the decreases on the next round. Knit 2 rounds.",
        "Work another decrease round. Knit 2 rounds.",
        "Work a decrease round as before, then knit 2 rounds.",
        "Decrease as before, and knit 2 rounds.",
        "Dec another 7 sts. Knit 2 rounds.",
    ],
)
def test_it_may_be_told_in_other_words(again: str) -> None:
    assert after_each_round(read(ROUND + again, (84,))) == [77, 77, 77, 77, 70, 70, 70]


def test_decreases_that_go_on_to_a_count_are_not_one_round() -> None:
    """The neighbour: how far is told in the same sentence, or behind it."""
    text = f"{ROUND}Decrease in the same way on every other round until 63 sts remain."

    assert after_each_round(read(text, (84,))) == [77, 77, 77, 77, 70, 70, 63]


@pytest.mark.parametrize(
    "shaping",
    [
        "decrease: *k9, k2tog*",
        "decrease again as follows: *k9, k2tog*",
        "dec 7 sts evenly",
        "dec 7 sts evenly on the next rnd",
    ],
)
def test_plain_rounds_end_before_then_and_decreases(shaping: str) -> None:
    """`Knit 1 round, then decrease 7 sts evenly`: the decreases are on the round behind the plain one."""
    text = f"Rnd 1: *k10, k2tog* (77 sts).\nKnit 1 round, then {shaping} (70 sts)."

    assert after_each_round(read(text, (84,))) == [77, 77, 70]


def test_decreases_on_a_plain_round_are_on_that_round() -> None:
    """The neighbour: `Knit 1 round and decrease 7 sts evenly`."""
    assert after_each_round(read("Knit 1 round and decrease 7 sts evenly (77 sts).", (84,))) == [77]


@pytest.mark.parametrize(
    "again", ["dec again.", "decrease once more (70 sts).", "dec one last time = 70 sts."]
)
def test_a_plain_round_and_the_decreases_again_are_two_rounds(again: str) -> None:
    assert after_each_round(read(f"{ROUND}Knit 1 rnd and {again}", (84,))) == [77, 77, 77, 77, 77, 70]


def test_a_round_with_so_many_decreases_is_a_round() -> None:
    """The neighbour: how many are decreased is told, and not that it is done again."""
    assert after_each_round(read(f"{ROUND}Knit 1 rnd and dec 7 sts.", (84,))) == [77, 77, 77, 77, 70]


def test_how_far_the_decreases_are_repeated_is_kept() -> None:
    """The neighbour: what follows in the sentence says how far."""
    text = "*K8, k2tog*. Knit 1 rnd. Repeat the decreases and knit 1 rnd until 48 sts remain."

    assert after_each_round(read(text, (80,)))[-1] == 48
    assert after_each_round(read("*K8, k2tog*. Knit 1 rnd. Repeat the decreases.", (80,))) == [72, 72, 64]


@pytest.mark.parametrize(
    ("again", "left"),
    [("Decrease one last time", 70), ("Decrease again", 70), ("Decrease 2 more times in the same way", 63)],
)
def test_a_wrong_count_behind_it_is_found(again: str, left: int) -> None:
    """A stitch too many is printed: the count is at fault, and the decreases are worked."""
    reading = read(f"{ROUND}{again} ({left + 1} sts).", (84,))

    assert faults(reading) == [("count_differs", 2)]
    assert reading.rounds[0][-1].after == left


@pytest.mark.parametrize(
    "again",
    [
        "Knit 1 round and decrease again, twice.",
        "Knit 1 round and decrease again, twice (63 sts).",
        "Knit a round and decrease again 2 times.",
        "Knit 1 round, then decrease as before, two times.",
        "Knit 1 rnd and dec again twice more.",
    ],
)
def test_plain_rounds_and_a_decrease_take_turns_so_often(again: str) -> None:
    """Both rounds are worked twice, whatever plain rounds stand before them."""
    counts = [77, 77, 77, 77, 77, 70, 70, 63]
    assert after_each_round(read(ROUND + again, (84,))) == counts


@pytest.mark.parametrize(
    ("often", "number"),
    [
        (", once more", 1),
        (", twice more", 2),
        (", twice in all", 2),
        (" 2 more times", 2),
        ("; twice more", 3),
        (", repeat this once", 2),
        (" in the 3rd round, 2 times", 2),
        (" with 1 st less before each decrease, 2 times", 2),
        (" with 1 st less before each decrease, 2 more times", 3),
        (" with 1 st less before each decrease", 1),
    ],
)
@pytest.mark.parametrize(
    "begun", ["Knit 2 rounds and decrease again", "Knit 2 rounds and in the 3rd round decrease again"]
)
def test_more_times_are_in_all_but_behind_a_manner_or_a_sign(begun: str, often: str, number: int) -> None:
    """The manner of the decrease may stand before and behind it: it was not worked at all in silence."""
    counts = after_each_round(read(f"{ROUND}{begun}{often}. Knit 1 round.", (84,)))

    assert counts[-1] == 77 - 7 * number
    assert len(counts) == len(after_each_round(read(ROUND, (84,)))) + 3 * number + 1


def test_how_often_behind_other_rounds_is_not_that_of_the_decrease() -> None:
    """The neighbour: the decrease is worked once."""
    text = f"{ROUND}Knit 1 round and decrease again (70 sts).\nKnit 2 rounds twice."
    assert after_each_round(read(text, (84,)))[:6] == [77, 77, 77, 77, 77, 70]


@pytest.mark.parametrize(
    ("begun", "on"),
    [
        ("Next rnd: dec 8 sts evenly.", "Dec 8 every 4th rnd 2 more times."),
        ("Dec 8 sts evenly.", "Dec 8 sts evenly every 4th rnd twice more."),
        ("Next rnd: (k8, k2tog) 8 times.", "Dec 8 sts every 4th rnd 2 more times."),
        ("Next rnd: dec 8 sts evenly. Knit 3 rounds.", "Dec 8 sts every 4th rnd 2 more times."),
        ("Round 1: dec 8 sts evenly. Round 2: Knit.", "Dec 8 sts every 4th rnd 2 more times."),
        ("Next rnd: dec 8 sts evenly.", "Dec 8 sts every 4th rnd 2 times."),
    ],
)
def test_further_decreases_every_so_often_are_so_far_from_the_first(begun: str, on: str) -> None:
    """Three decrease rounds, three plain ones between."""
    assert after_each_round(read(f"{begun} {on}", (80,))) == [*[72] * 4, *[64] * 4, 56]


def test_decreases_every_so_often_behind_plain_rounds_begin_at_once() -> None:
    """The neighbour: nothing was decreased before."""
    assert after_each_round(read("Knit 2 rnds. Dec 8 sts evenly every 4th rnd 2 times.", (80,))) == [
        80, 80, 72, 72, 72, 72, 64,
    ]  # fmt: skip


def test_the_same_again_behind_a_plain_round_is_the_decrease_where_its_count_says_so() -> None:
    begun = "K6, k2tog. Continue in this manner around, = 49 sts. Knit 1 rnd."

    assert after_each_round(read(f"{begun} The same again = 42. Knit 1 rnd. The same again = 35.", (56,))) == [
        49, 49, 42, 42, 35,
    ]  # fmt: skip


@pytest.mark.parametrize("on", ["The same again (49 sts).", "The same again."])
def test_the_same_again_is_the_plain_round_where_nothing_is_decreased(on: str) -> None:
    """The neighbour."""
    assert after_each_round(read(f"*K6, k2tog*, repeat around (49 sts). Knit 1 rnd. {on}", (56,))) == [
        49,
        49,
        49,
    ]


def test_a_decrease_round_of_which_only_the_count_is_told_is_no_plain_round() -> None:
    reading = read("Cast on 60 sts.\nKnit 5 rnds.\nDec rnd [54 sts]. Knit 3 rnds.", (60,))

    assert after_each_round(reading) == [60] * 5 + [54] * 4


def test_a_plain_round_with_its_count_stands_before_others() -> None:
    """The neighbour: its count is right."""
    assert after_each_round(read("Plain rnd (60 sts). Knit 3 rnds.", (60,))) == [60] * 4


@pytest.mark.parametrize("between", ["\n", " "])
@pytest.mark.parametrize(
    "again", ["Dec as before on the next 3 rounds.", "Decrease as before in the next 3 rounds (48 sts)."]
)
def test_as_before_on_rounds_to_come_is_shaped_whether_a_line_begins_there_or_not(
    between: str, again: str
) -> None:
    text = f"Rnd 1: *k8, k2tog; rep from * (72 sts).{between}{again}"

    assert after_each_round(read(text, (80,))) == [72, 64, 56, 48]
