"""The smallest edit with which a pattern comes out is the one that is meant."""

import re

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors

CROWN = (
    "Cast on 72 sts.",
    "Rnd 1: *K7, k2tog; rep from * around. (64 sts)",
    "Rnd 2: Knit.",
    "Rnd 3: *K6, k2tog; rep from * around. (56 sts)",
    "Rnd 4: Knit.",
    "Rnd 5: *K5, k2tog; rep from * around. (48 sts)",
    "Rnd 6: Knit.",
    "Rnd 7: *K4, k2tog; rep from * around. (40 sts)",
)


def repairs(text: str, *cast_on: int) -> set[str]:
    """The lines offered for what is wrong."""
    return {finding.repair for finding in read(text, cast_on).findings if finding.repair}


@pytest.mark.parametrize(
    ("meant", "printed", "below"),
    [
        ("(k2tog, p1) to end. 40 sts", "(k2, p1) to end. 40 sts", "(k2tog) to end. 20 sts"),
        ("(p1, k2tog) to end. 40 sts", "(p1, k2) to end. 40 sts", "(p1, k1) to end. 40 sts"),
        ("(k1, p2tog) to end. 40 sts", "(k1, p2) to end. 40 sts", "(k1, p1) to end. 40 sts"),
        ("*k2tog, p1; rep from * to end. 40 sts", "*k2, p1; rep from * to end. 40 sts", "k2tog 20 times"),
        ("(k1, k2tog) to end. 40 sts", "(k3) to end. 40 sts", "(k2tog) to end. 20 sts"),
        ("(p1, k1, k2tog, p1) to end. 48 sts", "(p1, k3, p1) to end. 48 sts", "k2tog to end. 24 sts"),
        (
            "(k2, p2tog) to end. 45 sts",
            "(k2, p2) to end. 45 sts",
            "(k2, p1) to end.\nRound 5: (k7, k2tog) to end. 40 sts",
        ),
        (
            "(k2tog, p2) to end. 45 sts",
            "(k2, p2) to end. 45 sts",
            "(k1, p2) to end.\nRound 5: (k7, k2tog) to end. 40 sts",
        ),
    ],
)
def test_stitches_worked_one_by_one_are_taken_together_where_the_count_wants_it(
    meant: str, printed: str, below: str
) -> None:
    """The last two of the plain stitches are the decrease that was forgotten, spelt as in the other lines."""
    above = "Cast on 90 sts.\nRound 1: (k1, k2tog, p1, p2tog) to end. 60 sts\nRound 2: (k1, p1, k1) to end."

    assert f"Round 3: {meant}" in repairs(f"{above}\nRound 3: {printed}\nRound 4: {below}", 90)


@pytest.mark.parametrize("place", range(3, len(CROWN) - 1))
def test_a_missing_round_is_put_in_as_the_rounds_around_it_are_written(place: int) -> None:
    """Numbers move from round to round, so that the line that is missing follows from those beside it."""
    lines = [line for at, line in enumerate(CROWN) if at != place]

    assert CROWN[place] in repairs("\n".join(lines), 72)


def test_a_missing_round_is_the_next_step_where_the_plain_rounds_end_before_it() -> None:
    """Decreases of every second round go on in every round: rounds 1 and 3 tell what round 4 is."""
    lines = (
        "Rnd 1: (K5, k2tog) 12 times. 72 sts",
        "Rnd 2: Knit.",
        "Rnd 3: (K4, k2tog) 12 times. 60 sts",
        "Rnd 4: (K3, k2tog) 12 times. 48 sts",
        "Rnd 5: (K2tog) 24 times. 24 sts",
    )
    printed = (*lines[:3], *lines[4:])

    assert read("\n".join(printed), (84,)).repaired == "\n".join(lines)


def test_a_skipped_round_without_a_number_is_put_in() -> None:
    """Between k5 and k3 stands k4."""
    text = "K 6, K2TOG, TO END. 56 STS.\nK 5, K2TOG, TO END. 48 STS.\nK 3, K2TOG, TO END. 32 STS."

    assert {"K 4, K2TOG, TO END. 40 STS."} == repairs(text, 64)


@pytest.mark.parametrize(
    ("below", "put_in"),
    [
        ("*K3, k2tog* around. 32 sts\nNext rnd: *K2tog* around. 16 sts", ""),
        ("*K3, k2tog* around. 32 sts\nKnit 1 rnd.\nNext rnd: *K2tog* around. 16 sts", "\nKnit 1 rnd."),
    ],
)
def test_a_skipped_round_brings_a_plain_round_where_plain_rounds_go_on_behind_it(
    below: str, put_in: str
) -> None:
    """A gap where the plain rounds end leaves the plain round before it printed."""
    above = (
        "Next rnd: *K6, k2tog* around. 56 sts\nKnit 1 rnd.\nNext rnd: *K5, k2tog* around. 48 sts\nKnit 1 rnd."
    )

    assert {f"Next rnd: *K4, k2tog* around. 40 sts{put_in}"} == repairs(f"{above}\nNext rnd: {below}", 64)


def test_a_skipped_round_has_its_plain_round_where_the_round_below_has_it() -> None:
    """The plain rounds stand in lines of their own above the gap, behind the decreases below it."""
    above = "*K7, k2tog* around = 64 sts.\nKnit 1 round.\n*K6, k2tog* around = 56 sts.\nKnit 1 round."
    below = "*K4, k2tog* around = 40 sts. Knit 1 round.\n*K3, k2tog* around = 32 sts."

    assert {"*K5, k2tog* around = 48 sts. Knit 1 round."} == repairs(f"{above}\n{below}", 72)


def test_a_skipped_round_is_put_in_although_another_number_comes_out_too() -> None:
    """With k6 between k7 and k5 all printed numbers stand; k2 has the printed count, and no rhythm."""
    above = "Dec rnd: *K8, k2tog* around – 54 sts.\nKnit 1 rnd.\nDec rnd: *K7, k2tog* around – 48 sts."
    below = "Dec rnd: *K5, k2tog* around – 36 sts.\nDec rnd: *K1, k2tog* around – 24 sts."

    assert {"Dec rnd: *K6, k2tog* around – 42 sts."} == repairs(f"{above}\n{below}", 60)


@pytest.mark.parametrize("plain", ["Next rnd: Knit.", "Knit 2 rnds."])
def test_a_numbered_round_is_put_in_amid_plain_rounds_without_numbers(plain: str) -> None:
    """As many plain rounds stand behind the round that is missing as before it."""
    by = 3 if "2" in plain else 2
    rounds = [f"Rnd {1 + at * by}: *K{8 - at}, k2tog* around. {54 - 6 * at} sts\n{plain}" for at in range(5)]
    without = "\n".join([*rounds[:2], plain, *rounds[3:]])

    assert read(without, (60,)).repaired == "\n".join(rounds)


def test_the_second_round_of_a_number_gets_the_number_that_is_missing() -> None:
    """Plain rounds and decreases take turns up to the quick end of the crown, so that no plain round is missing."""
    text = (
        "R1: k6, k2tog x8 (56)\nR2: k\nR3: k5, k2tog x8 (48)\nR4: k\n{}: k4, k2tog x8 (40)\n"
        "R6: k2tog x20 (20)\nR7: k2tog x10 (10)"
    )

    assert text.format("R5") == read(text.format("R4"), (64,)).repaired


def test_a_round_printed_twice_is_taken_out() -> None:
    """What is left is the pattern without the second."""
    text = "\n".join((*CROWN[:4], *CROWN[3:]))

    assert read(text, (72,)).repaired == "\n".join(CROWN)


def test_a_round_printed_twice_is_taken_out_where_plain_rounds_are_told_below() -> None:
    """What the line below says of rounds above it holds for the text without the second as well."""
    lines = (
        "Rnd 2: *k7, k2tog* 8 times (64).",
        "Rnd 4: *k6, k2tog* 8 times (56).",
        "Rnd 4: *k6, k2tog* 8 times (56).",
        "Rnd 6: *k5, k2tog* 8 times (48).",
        "All rounds not mentioned are knit.",
    )

    reading = read("\n".join(lines), (72,))

    assert reading.repaired == "\n".join((*lines[:2], *lines[3:]))


def test_the_cast_on_is_mended() -> None:
    """Where the text casts on another number than is asked for, and the rounds come out on that."""
    assert {CROWN[0]} == repairs("\n".join(("Cast on 70 sts.", *CROWN[1:])), 72)


@pytest.mark.parametrize(
    ("printed", "meant"),
    [
        ("*K6, k2tog; rep from * around. (54 sts)", "*K6, k2tog; rep from * around. (56 sts)"),
        ("*K5, k2tog; rep from * around. (56 sts)", "*K6, k2tog; rep from * around. (56 sts)"),
        ("*K6, k3tog; rep from * around. (56 sts)", "*K6, k2tog; rep from * around. (56 sts)"),
        ("(K6, k2tog) 7 times. (56 sts)", "(K6, k2tog) 8 times. (56 sts)"),
        ("*K6, k2tgo; rep from * around. (56 sts)", "*K6, k2tog; rep from * around. (56 sts)"),
    ],
)
def test_one_slip_of_the_pen_is_put_right(printed: str, meant: str) -> None:
    """The count, the number of plain stitches, the decrease, how often, or a misspelling."""
    lines = list(CROWN)
    lines[3] = f"Rnd 3: {printed}"

    assert f"Rnd 3: {meant}" in repairs("\n".join(lines), 72)


@pytest.mark.parametrize(
    ("written", "meant"), [("k2tgo", "k2tog"), ("skkp", "skp"), ("slsk", "ssk"), ("p2to", "p2tog")]
)
def test_a_slip_in_a_line_is_put_right_though_the_round_before_it_is_missing(
    written: str, meant: str
) -> None:
    """Both have their own edit: the stitch that is one slip of the fingers away, and the plain round put in."""
    lines = [line.replace("k2tog", meant) for line in CROWN if line != CROWN[4]]
    lines[4] = lines[4].replace(meant, written)
    reading = read("\n".join(lines), (72,))

    assert {CROWN[4], CROWN[5].replace("k2tog", meant)} == {found.repair for found in reading.findings}
    assert [1] == [len(finding.edits) for finding in reading.findings if finding.code == "unknown_word"]
    assert reading.repaired is not None
    assert not read(reading.repaired, (72,)).findings


@pytest.mark.parametrize(
    "rib",
    [
        "*K2, p2; rep from * around",
        "*k2, p2* rib for 10 rounds",
        "Work k2, p2 rib",
        "Rib 2x2 for 10 rounds",
        "Rnds 1-8: K2, P2",
    ],
)
@pytest.mark.parametrize("cast_on", [82, 90])
def test_a_rib_is_kept_and_the_counts_that_it_comes_out_on_are_told(cast_on: int, rib: str) -> None:
    """Two stitches beside a multiple of four, one multiple is as near as the other (arithmetic)."""
    alone = read(f"{rib}.\nKnit 1 round.", (cast_on,))
    (note,) = [finding for finding in alone.findings if finding.code == "not_a_multiple"]

    assert alone.repaired is None
    assert f"{cast_on - 2} or {cast_on + 2} is the nearest" in note.message

    first = f"Cast on {cast_on} sts."
    (other,) = [
        finding
        for finding in read(f"{first}\n{rib}.\nKnit 1 round.", (cast_on,)).findings
        if finding.code == "cast_on_differs"
    ]
    assert {str(cast_on - 2), str(cast_on + 2)} == {edit.replacement for edit in other.edits}


@pytest.mark.parametrize(
    ("below", "printed", "meant"),
    [
        ("*k2, p2* around.", "*k2, p3* around.", "*k2, p2* around."),
        ("*k2, p2tog* around. (66 sts)", "*k2, p2* around.", "*k2, p1* around."),
    ],
)
def test_a_rib_that_is_unlike_the_line_below_is_that_of_the_line_below(
    below: str, printed: str, meant: str
) -> None:
    """88 stitches are ribs of two and two, which purls worked together make ribs of two and a purl."""
    assert f"Rnd 2: {meant}" in repairs(f"Rnd 1: {below}\nRnd 2: {printed}", 88)


def test_a_list_that_is_too_short_is_lengthened() -> None:
    """While the sizes do not agree no number is mended: the list gets the value of the size that has none."""
    text = "Cast on 64 (72, 80) sts.\nRnd 1: *K6 (7), k2tog; rep from * around. 56 (64, 72) sts."

    assert {"Rnd 1: *K6 (7, 8), k2tog; rep from * around. 56 (64, 72) sts."} == repairs(text, 64, 72, 80)


def test_a_purl_left_out_of_a_rib_is_put_in_where_the_ribs_stand() -> None:
    """Of two edits that come out, the one that keeps knit over knit and purl over purl."""
    text = (
        "Rnd 1: *k2, p2, k2, p2tog; rep from * around. 84 sts.\nRnd 2: *k2, p2, k2, p1; rep from * around.\n"
        "Rnd 3: *k2, p2tog, k2; rep from * around. 72 sts.\nRnd 4: *k2, p1; rep from * around."
    )

    assert "Rnd 3: *k2, p2tog, k2, p1; rep from * around. 72 sts." in repairs(text, 96)


def test_the_same_decreases_in_all_sizes_are_meant() -> None:
    """Where the count or the plain stitches of one size may be wrong, the sizes decrease alike."""
    text = "CO 64 (72, 80) sts.\nRnd 1: *K6 (7, 8), k2tog; rep from * around. 56 (64, 70) sts."

    assert {"Rnd 1: *K6 (7, 8), k2tog; rep from * around. 56 (64, 72) sts."} == repairs(text, 64, 72, 80)


def test_of_the_times_of_all_sizes_that_of_the_size_is_mended_which_does_not_come_out() -> None:
    """`3 (4, 6) times` in place of `3 (4, 5) times`: the counts of the others are right."""
    text = (
        "Cast on 72 (84, 96) sts. Place 6 markers.\n"
        "Rnd 1: *Ssk, knit to 2 sts before m, k2tog, sm; rep from * to end. 12 sts dec.\nRnd 2: Knit.\n"
        "Work Rnds 1-2 a total of 3 (4, {}) times. 36 sts for all sizes."
    )

    assert text.format(5).split("\n")[-1] in repairs(text.format(6), 72, 84, 96)


def test_of_the_times_in_all_that_of_the_size_is_mended_which_does_not_come_out() -> None:
    """The round told before is one of them: to 40 in tens are 3 from 70, 4 from 80 and 5 from 90."""
    text = (
        "Dec rnd: *K5 (6, 7), k2tog; rep from * around.\n"
        "In this manner dec every other rnd {often} times in all = 40 (40, 40) sts.\n"
        "Next rnd: *K2, k2tog; rep from * around = 30 sts."
    )
    printed = text.format(often="3 (4, 4)")

    assert read(printed, (70, 80, 90)).repaired == text.format(often="3 (4, 5)")


def test_a_wrong_number_of_repeats_before_a_colon_is_mended() -> None:
    """45 stitches in fives."""
    text = "Rnd 1: work {often} times: k3, k2tog = 36 sts\nRnd 2: work 9 times: k2, k2tog = 27 sts"

    assert read(text.format(often=6), (45,)).repaired == text.format(often=9)


@pytest.mark.parametrize("word", ["k2otg", "k2tgo", "2ktog", "k2gto"])
@pytest.mark.parametrize("line", ["*k7, {}* around", "[k7, {}] 8 times", "*k7, {} to end"])
def test_letters_that_changed_places_are_put_back(line: str, word: str) -> None:
    """A stitch whose letters stand in another order is that stitch, and none is added beside it."""
    assert {line.format("k2tog")} == repairs(line.format(word), 72)


RIB_OF_70 = "Cast on 70 sts.\n{rib} for 12 rounds, then knit 20 rounds."


@pytest.mark.parametrize(
    "rib",
    ["Rib 2x2", "Work in 2x2 rib", "Work in double rib", "Work in k2, p2 rib"],
)
def test_where_a_rib_does_not_come_out_its_cast_on_is_meant(rib: str) -> None:
    """70 is no multiple of 4, 72 is the nearest (arithmetic); the sentence of the rib stays as it is."""
    reading = read(RIB_OF_70.format(rib=rib), (70,))

    assert reading.repaired == RIB_OF_70.format(rib=rib).replace("70", "72")
    assert "not_a_multiple" in {finding.code for finding in reading.findings}


HAT_OF_EIGHTS = (
    "Cast on {} sts and join.\nRnds 1-8: *k2, p2; rep from * to end.\nKnit 20 rounds.\n"
    "Rnd 29: *k6, k2tog; rep from * to end.\nRnd 30: knit.\nRnd 31: *k5, k2tog; rep from * to end."
)


@pytest.mark.parametrize(
    ("cast_on", "printed", "meant", "nearest"),
    [
        ((82,), "82", "80", ["80"]),
        ((85,), "85", "88", ["88"]),
        ((82, 90), "82 (90)", "80 (88)", []),
        ((82, 88, 94), "82 (88, 94)", "80 (88, 96)", ["80", "96"]),
        ((84, 90), "84 (90)", "80 (88)", ["88"]),
        ((82, 84), "82 (84)", "80 (88)", ["80"]),
        ((84, 90, 92), "84 (90, 92)", "80 (88, 96)", ["88"]),
    ],
)
def test_the_cast_on_meant_suits_every_round(
    cast_on: tuple[int, ...], printed: str, meant: str, nearest: list[str]
) -> None:
    """The nearest multiple of the 4 stitches of the rib and the 8 of the crown (arithmetic), in each size.

    A note names the multiple of 4 that is nearest, of those that are multiples of 8. There is none where the
    cast-on of none of several sizes is one.
    """
    reading = read(HAT_OF_EIGHTS.format(printed), cast_on)
    notes = [finding.message for finding in reading.findings if finding.code == "not_a_multiple"]

    assert reading.repaired == HAT_OF_EIGHTS.format(meant)
    assert not read(reading.repaired, tuple(map(int, re.findall("[0-9]+", meant)))).findings
    assert [re.findall("[0-9]+", message)[2:] for message in notes] == [[number] for number in nearest]


@pytest.mark.parametrize("rib", ["Rib 2x2", "Double rib", "Work in 2/2 rib", "*k2, p2* rib"])
def test_where_the_crown_needs_the_cast_on_nothing_is_changed(rib: str) -> None:
    """Seven sections of 10 stitches are 70: no rib of two and two comes out on it, and what is meant nobody knows."""
    text = RIB_OF_70 + "\nRnd 1: *k8, k2tog; rep from * around. (63 sts)"

    assert read(text.format(rib=rib), (70,)).repaired is None


def test_nothing_is_put_in_behind_the_rounds_of_a_rib() -> None:
    """71 stitches come out in neither rib (arithmetic)."""
    reading = read("Rib 2x2 for 12 rounds, then knit 20 rounds.", (71,))

    assert [finding.code for finding in errors(reading)] == ["left_over"]
    assert reading.repaired is None


def test_the_second_of_two_rounds_of_a_number_has_the_number_that_is_missing() -> None:
    """Rounds 43, 43, 45 are 43, 44, 45."""
    lines = (
        "Round 42: *k10, k2tog; rep from * around. (88 sts)",
        "Round 43: knit",
        "Round 44: knit",
        "Round 45: *k9, k2tog; rep from * around. (80 sts)",
    )
    text = "\n".join(lines)

    assert read(text.replace("Round 44", "Round 43"), (96,)).repaired == text
    assert read(text.replace("Round 44", "Round 45"), (96,)).repaired == text


@pytest.mark.parametrize("number", [5, 7, 13])
def test_a_mistyped_round_number_is_the_one_between_its_neighbours(number: int) -> None:
    """Rounds 1, 2, 5, 4, 5 are 1 to 5: the number alone is mended, and Round 4 is given once."""
    lines = (
        "Rnd 1: *K5, k2tog; rep from * around. 48 sts.",
        "Rnd 2: Knit.",
        "Rnd 3: *K4, k2tog; rep from * around. 40 sts.",
        "Rnd 4: Knit.",
        "Rnd 5: *K3, k2tog; rep from * around. 32 sts.",
    )
    reading = read("\n".join(lines).replace("Rnd 3", f"Rnd {number}"), (56,))

    (finding,) = reading.findings
    assert (finding.line, finding.code, finding.repair) == (3, "round_missing", lines[2])
    assert [edit.replacement for edit in finding.edits or ()] == ["3"]
    assert reading.repaired == "\n".join(lines)


def test_a_round_left_out_is_put_in_though_the_numbers_run_on() -> None:
    """No three stitches are worked together in this pattern; 56, 48, 40 are eights taken away (arithmetic)."""
    lines = (
        "Rnd 1: *K7, k2tog; rep from * around. 64 sts.",
        "Rnd 2: Knit.",
        "Rnd 3: *K6, k2tog; rep from * around. 56 sts.",
        "Rnd 4: Knit.",
        "Rnd 5: *K5, k2tog; rep from * around. 48 sts.",
        "Rnd 6: Knit.",
        "Rnd 7: *K4, k2tog; rep from * around. 40 sts.",
        "Rnd 8: Knit.",
        "Rnd 9: *K3, k2tog; rep from * around. 32 sts.",
    )
    later = [line.replace(f"Rnd {at}", f"Rnd {at - 2}") for at, line in enumerate(lines, start=1) if at > 6]

    assert read("\n".join((*lines[:4], *later)), (72,)).repaired == "\n".join(lines)


def test_a_decrease_as_of_a_round_above_is_meant_and_no_round_left_out() -> None:
    """Three stitches are worked together above, too: 56 is 16 less than 72, and 24 is 16 less than 40 (arithmetic)."""
    lines = (
        "Rnd 1: *K6, k3tog; rep from * around. 56 sts.",
        "Rnd 2: *K5, k2tog; rep from * around. 48 sts.",
        "Rnd 3: *K4, k2tog; rep from * around. 40 sts.",
        "Rnd 4: *K2, k3tog; rep from * around. 24 sts.",
    )
    wrong = "\n".join(lines).replace("K2, k3tog", "K2, k2tog")

    assert read(wrong, (72,)).repaired == "\n".join(lines)


@pytest.mark.parametrize("number", ["{}. Dec rnd", "Dec rnd {}"])
def test_a_numbered_decrease_is_put_in_where_its_number_is_not_there(number: str) -> None:
    """Between the 4th and the 6th stands the 5th, with its plain round: eights are taken away (arithmetic)."""
    decreases = [f"{number.format(8 - k)}: *K{k}, k2tog* around. {8 * k + 8} sts." for k in (5, 4, 3, 2, 1)]
    whole = "\nKnit 1 rnd.\n".join(decreases)
    wrong = whole.replace(f"{decreases[2]}\nKnit 1 rnd.\n", "")

    assert read(wrong, (56,)).repaired == whole


def test_a_repeat_counted_for_half_of_a_round_does_not_come_out() -> None:
    """Eight times five stitches are half of 80 (arithmetic): the round is not worked over again to its end."""
    text = "Rnd 1: (k3, k2tog) 8 times. 64 sts."

    (finding,) = read(text, (80,)).findings
    assert (finding.code, finding.repair) == ("left_over", "Rnd 1: (k3, k2tog) 16 times. 64 sts.")


def test_no_line_is_put_in_for_a_round_that_is_given_behind() -> None:
    """In 3, 5, 4 no round is left out."""
    text = "Rnd 1: k8, k2tog\nRnd 2: knit\nRnd 3: k7, k2tog\nRnd 5: knit\nRnd 4: k6, k2tog"

    assert read(text, (10,)).repaired is None


def test_a_round_that_does_not_come_out_is_not_given_the_missing_number() -> None:
    """The same decreases cannot be worked twice: 88 is no multiple of 12 (arithmetic). It is left out."""
    lines = (
        "Round 42: *k10, k2tog; rep from * around. (88 sts)",
        "Round 42: *k10, k2tog; rep from * around. (88 sts)",
        "Round 44: *k9, k2tog; rep from * around. (80 sts)",
    )

    assert read("\n".join(lines), (96,)).repaired == "\n".join((lines[0], lines[2]))


SQUARE_CROWN = (
    "Rnd 1: *k7, s2kp, k7; rep from * around. (60 sts)",
    "Rnd 2: knit",
    "Rnd 3: *k6, s2kp, k6; rep from * around. (52 sts)",
    "Rnd 4: knit",
    "Rnd 5: *k5, s2kp, k5; rep from * around. (44 sts)",
)


@pytest.mark.parametrize("decrease", ["s2kp", "sk2p", "k3tog"])
@pytest.mark.parametrize("line", [1, 3, 5])
@pytest.mark.parametrize("side", ["before", "behind"])
def test_a_corner_of_a_crown_stays_on_its_line(decrease: str, line: int, side: str) -> None:
    """Double decreases stand one above the other (common practice), so the stitches that are short are mended."""
    text = "\n".join(SQUARE_CROWN).replace("s2kp", decrease)
    right = text.splitlines()[line - 1]
    plain = right.split("*k")[1].split(",")[0]
    slip = {"before": f"*k{int(plain) - 1},", "behind": f" k{int(plain) - 1};"}
    printed = {"before": f"*k{plain},", "behind": f" k{plain};"}
    wrong = right.replace(printed[side], slip[side])

    assert read(text.replace(right, wrong), (68,)).repaired == text


def test_a_double_decrease_at_the_end_of_each_section_is_mended_as_one() -> None:
    """It stands beside the one below; the single decrease is the slip, not the plain stitches."""
    lines = (
        "Rnd 1: *k9, s2kp; rep from * around. (80 sts)",
        "Rnd 2: *k7, s2kp; rep from * around. (64 sts)",
        "Rnd 3: *k5, s2kp; rep from * around. (48 sts)",
    )
    text = "\n".join(lines)

    assert read(text.replace("k7, s2kp", "k7, k2tog"), (96,)).repaired == text


LACE = """CO 90 sts.
Rnd 1: *k1, yo, ssk, k4, k2tog, yo, k1; rep from * around.
Rnd 2: knit.
Rnd 3: *k2, yo, ssk, k2, k2tog, yo, k2; rep from * around.
Rnd 4: knit.
Rnd 5: *k3, yo, ssk, k2tog, yo, k3; rep from * around.
Rnd 6: knit.
"""
AGAIN = "Rep rnds 1-6 three times more.\n"
CROWN_OF_LACE = "Crown:\nRnd 1: *k8, k2tog; rep from * around. 81 sts"


@pytest.mark.parametrize("behind", ["", AGAIN, CROWN_OF_LACE, f"{AGAIN}{CROWN_OF_LACE}"])
def test_the_round_of_lace_is_named_that_loses_its_yarn_over(behind: str) -> None:
    """No count is printed, but 90 is that of the rounds behind: the first that changes it is meant, and mended."""
    right = f"{LACE}{behind}"
    reading = read(right.replace("k2tog, yo, k2", "k2tog, k2"), (90,))

    (finding,) = reading.findings
    assert (4, "count_differs") == (finding.line, finding.code)
    assert "This leaves 81 stitches, but the rounds after it go on with 90: 9 too few." == finding.message
    assert reading.repaired == right


def test_the_round_of_lace_is_named_that_has_a_yarn_over_too_many() -> None:
    """99 stitches are no multiple of the ten of the rounds behind."""
    (finding,) = read(LACE.replace("k2tog, yo, k2", "k2tog, yo, yo, k2"), (90,)).findings

    assert (4, "count_differs") == (finding.line, finding.code)
    assert "go on with 90: 9 too many" in finding.message


def test_a_round_of_lace_in_a_crown_may_lose_stitches() -> None:
    """Where the rounds behind have fewer stitches too, nothing is wrong: 90, 81, 72."""
    text = LACE.replace("k2tog, yo, k2", "k2tog, k2").replace("yo, ssk, k2tog, yo, k3", "yo, sk2p, k3")

    assert not read(text, (90,)).findings


def test_a_slip_behind_a_decrease_in_lace_stays_where_it_is() -> None:
    """The rounds behind go on with 81 and 72: the slip is that of the round that does not come out."""
    text = LACE.replace("k2tog, yo, k2", "k2tog, k2").replace(
        "k3, yo, ssk, k2tog, yo, k3", "k4, yo, sk2p, k3"
    )
    reading = read(f"{text}Rnd 7: *k6, k2tog; rep from * around.", (90,))

    assert {"Rnd 5: *k3, yo, sk2p, k3; rep from * around."} == {found.repair for found in reading.findings}


@pytest.mark.parametrize(
    ("language", "cast_on", "line", "end", "tail"),
    [
        (
            "en",
            "Cast on 80 (90, 100) sts.",
            "Round 1: *k6, k2tog, rep from * to end. 70 (79, 88) sts.",
            "to end",
            "to last 0 (2, 4) sts, knit to end",
        ),
        (
            "de",
            "80 (90, 100) M anschlagen.",
            "1. Rd: *6 re, 2 M re zus; ab * wdh bis zum Ende. 70 (79, 88) M",
            "bis zum Ende",
            "bis zu den letzten 0 (2, 4) M, re bis Rd-Ende",
        ),
    ],
)
def test_what_is_left_over_is_knitted_in_each_size_its_own(
    language: str, cast_on: str, line: str, end: str, tail: str
) -> None:
    """8 times 11 are 88 of 90, 8 times 12 are 96 of 100, and 11 and 12 fewer are 79 and 88 (arithmetic)."""
    reading = read(f"{cast_on}\n{line}", (80, 90, 100), language)
    noted = [finding.size for finding in reading.findings if finding.code == "not_a_multiple"]

    assert noted == [2, 3]
    assert reading.repaired == f"{cast_on}\n{line.replace(end, tail)}"


def test_a_number_of_times_is_written_as_patterns_write_it() -> None:
    """Twice, but 3 times."""
    line = "Rnd 1: *k9, cdd, k8; rep from * twice more. 72 sts"

    assert repairs(f"Cast on 80 sts.\n{line}", 80) == {line.replace("twice", "3 times")}


TEACUP = """CO 70.
1: *k3, k2tog* 14 times - 56 sts
2: *k2, k2tog* 14 times - 42 sts
3: *k1, k2tog* 14 times - {} sts
Thread tail through last {} sts."""


def test_a_closing_that_stays_wrong_is_mended_with_the_count_above_it() -> None:
    """The count of the last round and of the closing are the same slip; 3 times 14 leave 2 times 14."""
    reading = read(TEACUP.format(29, 29), (70,))

    assert reading.repaired == TEACUP.format(28, 28)
    assert [finding.repair for finding in reading.findings][-1] == "Thread tail through last 28 sts."


def test_a_closing_is_mended_in_all_sizes() -> None:
    """As many stitches go on the thread as are left."""
    text = "Cast on 64 (72) sts.\nRnd 1: *k6, k2tog; rep from * around. 56 (63) sts\nThread through remaining {} sts."

    assert read(text.format("56 (64)"), (64, 72)).repaired == text.format("56 (63)")


def test_a_closing_that_comes_right_with_a_repair_is_left() -> None:
    """The slip is in the round, and its count and the closing agree."""
    text = (
        "Cast on 48 sts.\nRnd 1: *k4, k2tog, k2; rep from * around. 40 sts\nThread through remaining 40 sts."
    )
    reading = read(text, (48,))

    assert reading.repaired == text.replace("k4", "k2")
    assert [finding.edits for finding in reading.findings if finding.code == "closing_count"] == [()]


@pytest.mark.parametrize("line", ["(k4, k2tog) 8 times (40)", "[k4, k2tog] x8 - 40 sts"])
def test_a_stitch_the_text_has_nowhere_is_not_put_in_for_a_round_left_out(line: str) -> None:
    """Between 56 and 40 stitches a round to 48 is missing; three together would come out as well."""
    text = f"Rnd 1: *k7, k2tog* (64)\nRnd 2: knit\nRnd 3: *k6, k2tog* (56)\nRnd 4: knit\nRnd 5: {line}"

    assert not any("k3tog" in repair for repair in repairs(text, 72))


@pytest.mark.parametrize(
    ("text", "count", "repaired"),
    [
        ("Rnd 1: k2tog around.", 31, "Rnd 1: k2tog to last st, k1."),
        ("Rnd 1: k2tog around (7 sts).", 21, "Rnd 1: k3tog around (7 sts)."),
    ],
)
def test_the_last_of_stitches_worked_in_pairs_is_knitted(text: str, count: int, repaired: str) -> None:
    """A round of k2tog on an odd number leaves a stitch, which is knitted; a printed count may tell another stitch."""
    (finding, *_) = read(text, (count,)).findings

    assert (finding.code, finding.repair) == ("left_over", repaired)
