"""Rounds that one line tells for several, that stand behind words of a sentence, or that end with a bare count.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, counts


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
    assert after_each_round(read(FOUR + words, (70,))) == [63, 63, 56, 56, 49, 42]


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


@pytest.mark.parametrize(
    "words",
    [
        "the 2 stitches over being knitted plain.",
        "the 2 stitches left over are knitted.",
        "knitting the 2 stitches over.",
        "the 2 odd stitches being knitted plain.",
        "the remaining 2 sts are knitted plain.",
        "the last 2 stitches knitted plain.",
    ],
)
def test_stitches_that_are_over_are_knitted(words: str) -> None:
    """Fifteen times six stitches are ninety of ninety-two."""
    reading = read(f"Knit 4, knit 2 together, all the way round, {words}", (92,))

    assert counts(reading) == [[92, 77]]
    assert len(reading.rounds[0]) == 1


@pytest.mark.parametrize(
    "words",
    [
        "Went up to 4.5 mm & knit, knit, knit – 32 rounds if you're counting.",
        "Changed to 4.5 mm and knit, knit, knit - 32 rounds.",
        "Knit, knit, knit, 32 rounds.",
        "Then I swapped to 5 mm and knitted 32 rounds.",
        "Moved up to 4 mm, knit 32 rounds.",
    ],
)
def test_needles_are_changed_and_so_many_rounds_are_knitted(words: str) -> None:
    """The millimetres are those of the needle; `knit, knit, knit` is said once."""
    assert len(read(words, (70,)).rounds[0]) == 32


@pytest.mark.parametrize(
    "words",
    [
        "Now make only the rounds with decreases, until it stays 36 sts. Change needles when it is too tight.",
        "Now only the rounds with decreases until 36 sts remain.",
        "From here work only rounds with decreases until there are 36 sts.",
        "Now knit just the decrease rounds until 36 sts are left.",
        "Now repeat only the round with decreases until 36 sts remain.",
    ],
)
def test_only_the_rounds_with_decreases_are_worked(words: str) -> None:
    """Two with a plain round after each, then three without."""
    text = (
        "Place 12 markers, one after every 8 sts.\n"
        "Round with decreases: *knit until 2 sts are left before marker, k2tog, slip marker* – repeat until the end of "
        "round (12 sts less).\nNext round: knit all.\nRepeat these two rounds until it stays 72 sts.\n"
    )
    reading = read(text + words, (96,))

    assert counts(reading) == [[96, 84, 72, 60, 48, 36]]
    assert len(reading.rounds[0]) == 7


@pytest.mark.parametrize(
    "count", ["(20.)", "(20)", "20.", "(20 each)", "20 on each.", "(20 on each needle.)"]
)
def test_the_count_of_a_round_that_is_told_for_each_needle_is_that_of_each(count: str) -> None:
    """Three times twenty are sixty."""
    text = (
        "There should be 28 stitches on each of your three needles.\n"
        "Round 1. Knit 5, knit 2 together, four times on each needle. (24 on each needle.)\n"
        f"Rounds 2 and 3. Plain.\nRound 4. Knit 4, knit 2 together, four times on each needle. {count}"
    )

    assert counts(read(text, (84,))) == [[84, 72, 60]]


def test_a_wrong_count_of_each_needle_is_found() -> None:
    """Three times nineteen are not sixty."""
    text = "20 sts on each of 3 needles.\nRnd 1: [k3, k2tog] 4 times on each needle. (15)"

    assert errors(read(text, (60,)))


def test_a_count_behind_a_long_dash_is_no_difference() -> None:
    """Seven times ten are gone, and fifty are left; that sixty were gone by chance is not what the line says."""
    text = (
        "Place markers: [k12, pm] 10 times.\nRnd 1: [K to 3 sts before m, k2tog, k1, sm] 10 times — 10 sts dec'd\n"
        "Rnd 2: Knit\nRepeat Rnds 1 & 2 six more times — 60 sts"
    )

    assert errors(read(text, (120,)))


@pytest.mark.parametrize(
    "words",
    [
        (
            "Repeat the decrease round on every 3rd round still 2 times, on every 2nd round 4 times and then on every "
            "round 3 times. There is now 4 sts on each needle."
        ),
        "Repeat the dec round every 3rd round 2 times more, every 2nd round 4 times, then every round 3 times.",
        "Repeat this round every 3rd rnd twice, every other rnd 4 times and every rnd 3 times.",
        "Work the decrease round every 3rd rnd 2 more times, then every 2nd rnd 4 times, then every rnd 3 times.",
        "Repeat dec rnd every third rnd 2 times; every other rnd 4 times; every rnd 3 times.",
    ],
)
def test_a_decrease_round_is_repeated_ever_more_often(words: str) -> None:
    """Two times with two plain rounds before, four times with one, three times with none."""
    text = (
        "Decrease round: on each of the 4 needles k 1, skp, knit until 3 sts remain, k2tog, k 1 = 88 sts.\n"
    )
    reading = read(text + words, (96,))

    assert counts(reading) == [list(range(96, 15, -8))]
    assert len(reading.rounds[0]) == 18


@pytest.mark.parametrize(
    ("words", "before", "after"),
    [
        ("Knit one round, at the same time increase 1 st on every needle = 96 sts.", 92, 96),
        ("Knit one round and inc 1 st on each needle. 96 sts", 92, 96),
        ("Next round: increase one stitch on each of the four needles. 96 sts.", 92, 96),
        ("Knit 1 round, increasing one stitch on every needle (96 sts).", 92, 96),
        ("Next round: decrease 1 st on every needle = 88 sts.", 92, 88),
    ],
)
def test_one_stitch_is_changed_on_every_needle(words: str, before: int, after: int) -> None:
    """One on each of four, and the others plain."""
    reading = read(f"23 sts on each of 4 needles.\n{words}", (before,))

    assert counts(reading) == [[before, after]]
    assert len(reading.rounds[0]) == 1


@pytest.mark.parametrize(
    "words",
    [
        "I knitted k9, k2tog all the way round until I was back at the marker with 80 stitches",
        "I knitted k9, k2tog all the way round, which left 80 stitches",
        "then knit k9, k2tog all around until I reached the marker again, 80 sts",
        "we knitted k9, k2tog right round to the marker (80 sts)",
        "I worked k9, k2tog all the way round until I was back at the beginning with 80 stitches",
    ],
)
def test_a_round_is_told_as_it_was_knitted(words: str) -> None:
    """The verb is no stitch, and the end of the round is told once more."""
    reading = read(f"{words}, and then I knitted one round plain.", (88,))

    assert counts(reading) == [[88, 80]]
    assert len(reading.rounds[0]) == 2


@pytest.mark.parametrize(
    "words",
    [
        (
            "plain round, and then I did k7, k2tog (64 stitches) and a plain round, and k6, k2tog (56 stitches) and, "
            "yes, a plain round."
        ),
        "plain round, then I worked k7, k2tog (64 sts), a plain round, and then k6, k2tog (56 sts), and a plain round.",
        "knit round, and after that k7, k2tog (64 sts), plain round, and k6, k2tog (56 sts), plain round.",
    ],
)
def test_rounds_are_told_one_after_the_other_in_a_sentence(words: str) -> None:
    """A plain round, a decrease round, and so on."""
    text = f"The next round was k8, k2tog, repeated to the end, which makes 72, followed by another {words}"
    reading = read(text, (80,))

    assert counts(reading) == [[80, 72, 64, 56]]
    assert len(reading.rounds[0]) == 6


@pytest.mark.parametrize(
    "words",
    [
        "The 16 stitches that survived all that were knitted together in pairs on one last round, leaving me with 8.",
        "The 16 that were left got knitted in pairs, leaving 8.",
        "Knit together in pairs all round, 8 sts.",
        "The 16 stitches were knitted together in pairs (8).",
        "Last round: knit in pairs. 8 sts",
    ],
)
def test_stitches_are_knitted_in_pairs(words: str) -> None:
    """Two together all around, also where it is told how many there were."""
    assert counts(read(f"Round 1: k1, k2tog around (16).\n{words}", (24,))) == [[24, 16, 8]]


@pytest.mark.parametrize("every", ["every round", "every single round", "each and every round"])
def test_every_single_round_is_every_round(every: str) -> None:
    """No plain round stands between any more."""
    text = f"*k5, k2tog* (60)\nKnit 1 round.\n*k4, k2tog* (50)\nNow decrease on {every} until 20 sts remain."
    reading = read(text, (70,))

    assert counts(reading) == [[70, 60, 50, 40, 30, 20]]
    assert len(reading.rounds[0]) == 6


@pytest.mark.parametrize("others", ["All other rounds: knit.", "All rounds not mentioned are knit."])
@pytest.mark.parametrize(
    "crown",
    [
        (
            "Continue to dec 8 sts in this manner on every 2nd rnd until 30 sts remain, "
            "then on every rnd until 9 sts remain."
        ),
        "Rnd 5: *k4, k2tog* (40)\nSmaller round: knit 8, knit 2 together, 6 times. Then knit 1 easy round.",
    ],
)
def test_a_plain_round_told_below_is_of_the_line_that_tells_it(crown: str, others: str) -> None:
    """Round 2 is told in the last line, however the words between are cut to come out."""
    text = f"Rnd 1: *k6, k2tog* (56)\nRnd 3: *k5, k2tog* (48)\n{crown}\n{others}"
    lines = read(text, (64,)).lines

    assert 2 in lines[-1].rounds
    assert not any(2 in line.rounds for line in lines[:-1])
