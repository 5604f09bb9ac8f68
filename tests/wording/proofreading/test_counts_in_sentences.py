"""A count told in a sentence is compared with what was worked: none is wrong in silence."""

import pytest

from roundwright.wording.proofreading.read import Reading, read
from tests.support.readings import after_each_round

GONE_ON = [
    "Knit 7 stitches, then knit 2 together. Keep doing that until the round is finished. You now have {}.",
    "Knit 7 stitches. Knit the next 2 together. Keep doing that to the end of the round. Now you have {}.",
    "K7, k2tog. Continue like this to end of round ({} sts).",
    "K7, k2tog. Continue in this manner around. You should have {} sts.",
    "K7, k2tog. Keep going until you are back at the start. You have {} stitches now.",
    "K7, k2tog. Keep repeating this the whole way round, which leaves {}.",
    "*K7, k2tog* around. Keep doing that to the end. You now have {}.",
    "Step 6. K7, k2tog. Go on like this. {} sts.",
    "7 Maschen rechts, dann 2 zusammen. So weiter bis zum Ende der Runde. Jetzt sind es {} Maschen.",
    "7 M re, 2 M zus. So fortfahren, bis die Runde zu Ende ist. Jetzt sind es {} M.",
    "Tricoter 7 mailles, puis 2 ensemble. Continuer ainsi jusqu'à la fin du tour. Il reste {} mailles.",
    "Tejer 7 p der, 2 p juntos. Continuar así hasta el final de la vuelta. Quedan {} puntos.",
    "7 r, 2 r sammen. Fortsett slik omgangen ut. Det er nå {} masker.",
    "7 ret, 2 ret sammen. Fortsæt sådan omgangen ud. Der er nu {} masker.",
    "7 recht, 2 recht samenbreien. Ga zo door tot het einde van de toer. Er zijn nu {} steken.",
]
TOLD = [
    "*K7, k2tog* around.\nCheck: {} stitches.\nKnit 1 round.",
    "*K7, k2tog* around. If you count now you will find {} stitches.\nKnit 1 round.",
]
NO_COUNT = [
    "*K7, k2tog* around. (64 sts)\nThe crown is in 8 sections of 8 stitches.\nKnit 1 round.",
    "*K7, k2tog* around. (64 sts)\nMark the 15th, 44th and 60th stitch.\nKnit 1 round.",
    "*K7, k2tog* around. (64 sts)\nKnit 1 round.\nCut yarn.\nWe made 60 stitches of love, and have 40 hats left.",
]


def differences(reading: Reading) -> list[tuple[str, int | None]]:
    """Of every count that differs whether it is an error, and the stitches over or short."""
    differing = [finding for finding in reading.findings if finding.code == "count_differs"]
    return [(finding.severity, finding.stitches) for finding in differing]


@pytest.mark.parametrize("text", GONE_ON)
def test_a_round_gone_on_with_to_its_end_is_counted(text: str) -> None:
    """Seven and two together leave 64 of 72; 65 is an error, and 64 is its repair."""
    wrong = read(text.format(65), (72,))

    assert [64] == after_each_round(read(text.format(64), (72,)))
    assert [("error", -1)] == differences(wrong)
    assert text.format(64) == wrong.repaired


@pytest.mark.parametrize("text", TOLD)
def test_a_count_in_words_that_are_not_worked_is_a_note(text: str) -> None:
    """What only tells is passed over, but not a count near to the one there is."""
    assert [("note", -1)] == differences(read(text.format(65), (72,)))
    assert not differences(read(text.format(64), (72,)))


def test_a_difference_told_behind_a_round_is_compared() -> None:
    """Ten are worked together of 80; told are 8."""
    text = "Rnd 1: *K6, k2tog* around. That is {} stitches fewer.\nRnd 2: Knit."

    assert [("error", -2)] == differences(read(text.format(8), (80,)))
    assert not differences(read(text.format(10), (80,)))


def test_a_part_with_too_few_stitches_is_told_as_such() -> None:
    """No line needs 0 stitches and is so many below 0 short."""
    marked = "Cast on 8 sts, place a marker after every 2 stitches.\n"
    text = f"{marked}Rnd 1: *k to 4 before marker, k2tog, k2; rep from * to end."
    messages = [finding.message for finding in read(text, (8,)).findings if finding.code == "runs_out"]

    assert messages
    assert not [message for message in messages if "-" in message or " 0 " in message]


@pytest.mark.parametrize("text", NO_COUNT)
def test_numbers_of_stitches_that_are_no_count(text: str) -> None:
    """Those of a section, of places in the round, and behind the closing: two rounds, and nothing is said."""
    reading = read(text, (72,))

    assert [64, 64] == after_each_round(reading)
    assert not reading.findings
