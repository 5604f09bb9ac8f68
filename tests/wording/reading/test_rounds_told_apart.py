"""Rounds that one line tells for several, that stand behind words of a sentence, or that end with a bare count.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import Reading, read
from tests.corpus.score import counts as counts_of
from tests.corpus.score import errors


def counts(reading: Reading) -> list[list[int]]:
    """The counts of each size of a text in which nothing is wrong."""
    assert not errors(reading)
    return [counts_of(rounds, rounds[0].before) for rounds in reading.rounds]


@pytest.mark.parametrize(
    "text",
    [
        "Rnd 1: k2tog = 6. Well done.",
        "Rnd 1: k2tog = 6, well done, that's the hat.",
        "Round 1: k2tog = 6; draw up.",
        "R1: k2tog = 6 left. Cut the yarn.",
        "Last round: k2tog = 6 (hooray).",
        "Round 1: ssk = 6 – done!",
    ],
)
def test_a_number_behind_an_equals_sign_is_a_count_whatever_is_said_after(text: str) -> None:
    """The line works its round, and does not tell what the stitch is."""
    assert counts(read(text, (12,))) == [[12, 6]]


@pytest.mark.parametrize(
    "words",
    [
        "as the sts show",
        "as the stitches show",
        "work the sts as they present themselves",
        "knit the sts as they look",
        "all sts as they come",
        "rib as the stitches lie",
    ],
)
def test_stitches_are_worked_as_they_show(words: str) -> None:
    """The round keeps its stitches."""
    reading = read(f"Round 1: * k 5, p 2 *\nRound 2: {words}.\nRound 3: * k2tog, k3, p2 *", (70,))

    assert counts(reading) == [[70, 60]]
    assert len(reading.rounds[0]) == 3


@pytest.mark.parametrize(
    "words",
    [
        "Round 2, just knit. I'll speed the video up.",
        "Rnd 2, simply knit.",
        "Round two, just knit, no decreases.",
        "Round 2 just knit.",
        "Then round 2, just knit every stitch.",
        "And round 2 is just knit.",
        "Then round 2 is knit.",
    ],
)
def test_a_round_is_spoken_of_as_one_would_say_it(words: str) -> None:
    """The second round is plain."""
    text = f"Round 1, k5, k2tog, ten times, 60.\n{words}\nRound 3, k4, k2tog, 50."
    reading = read(text, (70,))

    assert counts(reading) == [[70, 60, 50]]
    assert len(reading.rounds[0]) == 3


@pytest.mark.parametrize(
    "second",
    [
        "2: knit, same for 4",
        "2) plain, and so is 4",
        "2: knit. Same for 4.",
        "2: k, likewise 4",
        "2: knit (also 4)",
        "2: knit (4 the same)",
        "2: knit, same for round 4",
        "2: knit; ditto 4",
    ],
)
def test_other_rounds_are_as_the_one_that_is_told(second: str) -> None:
    """Round 4 is plain as round 2 is, in a list that is numbered without the word."""
    text = f"1: k5, k2tog, repeat (60)\n{second}\n3: k4, k2tog (50)\n5: k3, k2tog (40)"
    reading = read(text, (70,))

    assert counts(reading) == [[70, 60, 50, 40]]
    assert len(reading.rounds[0]) == 5


@pytest.mark.parametrize(
    "words",
    [
        "Rounds 2 and 4 are without decreases.",
        "Rounds 2 and 4 are knitted plain.",
        "Rounds 2 and 4 are worked without decreases.",
        "In rounds 2 and 4 knit all sts.",
        "Knit rounds 2 and 4 plain.",
    ],
)
def test_plain_rounds_are_told_before_the_rounds_they_stand_between(words: str) -> None:
    """In the midst of a line, with or without a label."""
    text = (
        f"Crown – we divide the work in 10 segments. {words}\n"
        "Round 1: *5 k, k2tog* (60)\nRound 3: *4 k, k2tog* (50)\nRound 5: *3 k, k2tog* (40)"
    )
    reading = read(text, (70,))

    assert counts(reading) == [[70, 60, 50, 40]]
    assert len(reading.rounds[0]) == 5


FOUR = "(k8, k2tog) x7 = 63. (k7, k2tog) x7 = 56. (k6, k2tog) x7 = 49. (k5, k2tog) x7 = 42. "


@pytest.mark.parametrize(
    "words",
    [
        "Knit 1 round plain after each of the first two.",
        "After each of the first two knit a plain round.",
        "After each of the first two decrease rounds knit one round.",
        "After the first two decrease rounds, knit 1 round plain each time.",
        "Plain round after each of the first 2, none after the others.",
        "The first two each have a plain round after them.",
    ],
)
def test_the_first_so_many_rounds_are_counted_and_not_their_stitches(words: str) -> None:
    """`The first two` are rounds."""
    reading = read(FOUR + words, (70,))

    assert counts(reading) == [[70, 63, 56, 49, 42]]
    assert [each.before == each.after for each in reading.rounds[0]] == [
        False,
        True,
        False,
        True,
        False,
        False,
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Dec rnd: *k6, k2tog*. Then repeat it every other rnd 4 more times.",
        "Dec rnd: *k6, k2tog*.\nThen rep every other rnd 4 more times.",
        "Next rnd: *k6, k2tog*, then repeat it every other rnd 4 more times.",
        "Dec rnd: *k6, k2tog*. Repeat on every second round four times more.",
        "Dec rnd: *k6, k2tog*. Repeat every other rnd another 4 times.",
    ],
)
def test_a_decrease_round_is_repeated_every_other_round(text: str) -> None:
    """Four more, each behind a plain round."""
    reading = read(text, (80,))

    assert counts(reading) == [[80, 70, 60, 50, 40, 30]]
    assert len(reading.rounds[0]) == 9


@pytest.mark.parametrize(
    "words",
    [
        "You've just lost 8 stitches.",
        "You've lost 8 sts.",
        "We've just got rid of 8 stitches.",
        "You have now decreased 8 stitches.",
        "There go 8 stitches.",
        "You just lost 8 stitches, 56 left.",
    ],
)
def test_what_has_been_decreased_is_told_and_not_worked(words: str) -> None:
    """Eight are gone; no round is worked for them."""
    assert counts(read(f"Round 1: *k6, k2tog*. {words}", (64,))) == [[64, 56]]
