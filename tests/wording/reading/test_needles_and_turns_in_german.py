"""Needles, rounds in turn and places worked together, as Germans write them. Worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import counts, faults

TEXTS = [
    (
        72,
        (
            "72 Maschen anschlagen und *3M re, 3M li* bis zum Ende der R. Noch 3 R genauso. "
            "*7M re, 2M re zus*, ab * bis zum Ende der R wiederholen. 1 R re."
        ),
        [72, 64],
        6,
    ),
    (
        90,
        (
            "- 90 Maschen\n- die achte mit der neunten Masche zusammenstricken, in der nächsten Runde die siebte mit "
            "der achten, dann eine Runde links ohne Abnahmen"
        ),
        [90, 80, 70],
        3,
    ),
    (
        64,
        (
            "64 Maschen auf vier Nadeln verteilen. Nun werden Maschen abgenommen, indem in jeder Runde die letzte "
            "Masche einer Nadel mit der ersten der nächsten Nadel zusammengestrickt wird, also viermal pro Runde. "
            "Wenn nur noch 16 Maschen übrig sind, den Faden durch die Maschen ziehen."
        ),
        [64, 60, 56, 52, 48, 44, 40, 36, 32, 28, 24, 20, 16],
        12,
    ),
    (
        72,
        (
            "72 Maschen: 7 Maschen glatt stricken, die achte und neunte zusammenstricken, und so fort um die ganze "
            "Rundung. Darüber 7 glatte Gänge. Beim zweiten Abnehmen bleiben 6 Maschen zwischen den Abnahmen, darüber "
            "6 glatte Gänge, beim dritten 5 Maschen und 5 glatte Gänge."
        ),
        [72, 64, 56, 48],
        21,
    ),
    (21, "1. Rd.: re.\n2. Rd.: je Nadel die mittlere M. verdoppeln = 24 M.\n3. Rd.: re.", [21, 24], 3),
    (
        80,
        (
            "Pro Nadel 20 Maschen anschlagen (4 Nadeln). 3 Runden rechts. Dann wird jede 8., 9. und 10. Masche links "
            "zusammengestrickt, macht 16 Maschen pro Nadel."
        ),
        [80, 64],
        4,
    ),
    (
        48,
        (
            "48 Maschen auf vier Nadeln: Auf jeder Nadel werden die zweit- und die drittletzte Masche "
            "zusammengestrickt. Nach der ersten Abnahmerunde vier Runden ohne Abnahmen, dann wieder eine "
            "Abnahmerunde, zwei Runden ohne "
            "Abnahme, und ab dann wird in jeder Runde abgenommen, bis auf jeder Nadel nur noch drei Maschen sind."
        ),
        [48, 44, 40, 36, 32, 28, 24, 20, 16, 12],
        15,
    ),
    (
        68,
        (
            "68 Maschen auf vier Nadeln, 10 Touren rechts.\nZum Schließen nimmt man auf jeder Nadel am Anfang "
            "und am Ende je eine Masche ab. Jede zweite Tour wird ohne Abnahme gestrickt.\n"
            "Nach sieben solchen Abnehmetouren hat man auf jeder Nadel noch 3 Maschen."
        ),
        [68, 60, 52, 44, 36, 28, 20, 12],
        23,
    ),
]


@pytest.mark.parametrize(("cast_on", "text", "counted", "rounds"), TEXTS)
def test_the_counts_and_rounds_come_out(cast_on: int, text: str, counted: list[int], rounds: int) -> None:
    reading = read(text, (cast_on,), "de")
    assert (counts(reading), [len(told) for told in reading.rounds]) == ([counted], [rounds])
    assert not faults(reading)


SOLE = (
    "Spitze über 64 (72) Maschen, je die Hälfte auf einer Nadel. In jeder Abnahmerunde auf beiden Nadeln die 2. und "
    "3. Masche überziehen und die drittletzte und vorletzte Masche zusammenstricken.\n"
    "Eine Abnahmerunde, 4 Runden ohne Abnahmen.\nEine Abnahmerunde, 2 Runden ohne Abnahmen, diese {}.\n"
)


def test_a_decrease_round_and_some_without_are_no_number_of_decrease_rounds() -> None:
    reading = read(SOLE.format("drei Runden noch einmal wiederholen"), (64, 72), "de")
    assert counts(reading) == [[64, 60, 56, 52], [72, 68, 64, 60]]
    assert [len(told) for told in reading.rounds] == [11, 11]
    assert counts(read("Abnahmerunde: *6 M re, 2 M re zus*.\nAbnahmerunde, noch 1x.", (64,), "de")) != [[64]]


def test_a_count_that_three_together_do_not_leave_is_a_fault() -> None:
    text = "64 M auf 4 Nadeln. Jede 6., 7. und 8. Masche wird links zusammengestrickt = {} M."
    assert not faults(read(text.format(48), (64,), "de"))
    assert faults(read(text.format(56), (64,), "de")) == [("count_differs", 1)]


def test_one_needle_is_none_of_several() -> None:
    text = "1 M auf einer Nadel lassen.\n*6 M re, 2 M re zus*."
    assert counts(read(text, (64,), "de")) == [[64, 56]]
