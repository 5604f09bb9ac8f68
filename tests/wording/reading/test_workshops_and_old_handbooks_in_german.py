"""German workshops, old handbooks and lists of sizes: rounds in turn, sizes of two numbers, other decreases."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes

FIRST = "Abnahmerunde: *7 re, 2 M re zus* 8x; 64 M.\n"
IN_TURN = [
    "Man strickt zwei Runden glatt und nimmt in der dritten wieder ab; dies wiederholt man noch einmal.",
    "2 Rd glatt stricken und in der 3. wieder abnehmen, dabei 1 M weniger vor jeder Abnahme; noch 1 x wiederholen.",
    "Zwei Runden rechts stricken und in der dritten Runde wieder abnehmen. Dies noch einmal wiederholen.",
    "Stricke 2 Runden rechts und nimm in der 3. Runde wieder ab; das wiederholst du noch einmal.",
]


@pytest.mark.parametrize("text", IN_TURN)
def test_plain_rounds_and_decreases_in_turn(text: str) -> None:
    """Plain rounds stand before every decrease round, as often as is told."""
    reading = read(FIRST + text, (72,), "de")

    assert not reading.findings
    assert after_each_round(reading) == [64, 64, 64, 56, 56, 56, 48]


IN_ENGLISH = [
    "Knit 2 rounds and in the 3rd decrease again, but with 1 st less before each decrease; repeat this once more.",
    "Knit 2 rounds, then decrease again with 1 st less between decreases; repeat these 3 rounds once more.",
    "Knit 2 rounds and decrease again in the 3rd round; rep this once more.",
]


@pytest.mark.parametrize("text", IN_ENGLISH)
def test_the_same_in_english(text: str) -> None:
    """What is repeated behind the decrease is worked so often with its plain rounds."""
    reading = read(f"Dec round: *k7, k2tog* 8 times; 64 sts.\n{text}", (72,), "en-US")

    assert not reading.findings
    assert after_each_round(reading) == [64, 64, 64, 56, 56, 56, 48]


ROUNDS = [
    ("*9 re, 2 M re abgehoben zusstr* 6x", 66, [60]),
    ("*9 re, 2 M abgehoben re zusstr (ssk)* 6x", 66, [60]),
    ("5 Markierer setzen, alle 12 M. Abnahme: hinter jedem Ring 2 M überzogen zusammenstricken.", 60, [55]),
    ("Zwischen den Markern jeweils bis auf die letzten 2 M re, diese zus; es sind 5 Abschnitte.", 60, [55]),
    (
        "Rd 1: *7 re, 2 re zus*.\nRd 2: re.\nRd 3: das Gleiche mit 6 M davor, 56 M.\nRd 4: re.",
        72,
        [64, 64, 56, 56],
    ),
    ("Rd 1: *7 re, 2 re zus*.\nRd 2: genauso, nur mit 6 M davor, 56 M.", 72, [64, 56]),
    (
        "Abnahmerunde: *7 re, 2 re zus*.\nMit 6 M dazwischen sind es noch 56. Eine Runde rechts.",
        72,
        [64, 56, 56],
    ),
    ("Runde 1: *7 re, 2 re zus*.\nRunde 2: nur noch Pärchen zusammenstricken, 32 M.", 72, [64, 32]),
    ("Auf jeder Nadel die letzten 2 M re zus. Du verlierst in dieser Runde 4 M.", 60, [56]),
]


@pytest.mark.parametrize(("text", "count", "after"), ROUNDS)
def test_rounds(text: str, count: int, after: list[int]) -> None:
    """Decreases as they are called there."""
    needles = f"{count} M auf 4 Nadeln.\n" if "Nadel" in text else ""
    reading = read(needles + text, (count,), "de")

    assert [finding for finding in reading.findings if finding.severity == "error"] == []
    assert after_each_round(reading) == after


ONLY = ["Nur noch Rd A arbeiten, und zwar 2x", "Nur noch Rd A stricken (2x)", "Ab hier nur noch Rd A, 2x"]


@pytest.mark.parametrize("only", ONLY)
def test_a_round_alone(only: str) -> None:
    """With its verb behind it."""
    lines = ("Alle 15 M einen MM setzen.", "Rd A: [re bis 2 M vor MM, 2 M re zus] 4x.", "Rd B: re.")
    reading = read("\n".join((*lines, "Rd A und B noch 1x arbeiten.", f"{only} → 44 M.")), (60,), "de")

    assert not reading.findings
    assert after_each_round(reading) == [56, 56, 52, 52, 48, 44]


PAIRS = [
    ("Größen: 50/52 (54/56)\nRd 1, nur Gr. 54/56: *10 re, 2 re zus* 7 mal – 77 M\nRd 2: re", "de"),
    ("Größen 50/52 und 54/56\nNur Gr. 54/56: Rd 1: *10 re, 2 re zus* 7 mal – 77 M\nRd 2: re", "de"),
    ("Gr. 54/56 mit 84 M, Gr. 50/52 mit 70 M.\nNur Größe 54/56: Rd 1: *10 re, 2 re zus*\nRd 2: re", "de"),
    ("Sizes: 50/52 (54/56)\nRnd 1, size 54/56 only: *k10, k2tog* 7 times - 77 sts\nRnd 2: knit", "en"),
    (
        "Maten: 50/52 (54/56)\nToer 1, alleen maat 54/56: *10 r, 2 r samen* 7 keer – 77 st\nToer 2: recht",
        "nl",
    ),
]


@pytest.mark.parametrize(("text", "language"), PAIRS)
def test_sizes_of_two_numbers(text: str, language: str) -> None:
    """A round is for one of them; a count behind `7 times` is no number of a second size."""
    reading = read(text, (70, 84), language)

    assert not reading.findings
    assert after_rounds_of_sizes(reading) == [[70], [77, 77]]


GERMAN_GAPS = """70 M anschl. und glatt re str.
In der 9. Rd jede 9. und 10. M re zusstr = 63 M, in der 12. Rd jede 8. und 9. M.
Die dazwischenliegenden Rd ohne Abn str."""
ENGLISH_GAPS = """Cast on 70 sts and work in stockinette.
Rnd 9: *k8, k2tog*. Rnd 12: *k7, k2tog*.
All rounds not mentioned are knit."""


@pytest.mark.parametrize(("text", "language"), [(GERMAN_GAPS, "de"), (ENGLISH_GAPS, "en")])
def test_rounds_before_the_first_that_is_given(text: str, language: str) -> None:
    """They are as the fabric is that stands before, where all others are told to be plain."""
    assert after_each_round(read(text, (70,), language)) == [*[70] * 8, 63, 63, 63, 56]


def test_a_round_of_decreases_without_a_verb() -> None:
    """It is worked, as often as it is told."""
    text = "Alle 8 M einen Markierer einhängen.\nAbnahmerunde: vor jedem Markierer 2 M re zus.\n"
    for turn in (
        "Eine Abnahmerunde, dann zwei Runden rechts.",
        "Mach eine Abnahmerunde und dann 2 Rd rechts.",
    ):
        reading = read(f"{text}{turn} 56 M.", (64,), "de")

        assert after_each_round(reading) == [56, 56, 56]


REPAIRS = [
    ("neun Maschen rechts, zwei zusammen, dies siebenmal; 80 Maschen.", "de", "achtmal"),
    ("*9 re, 2 zus*, insgesamt 7-mal (80 M)", "de", "8-mal"),
    ("* strikk ni rett, 2 rett sammen * syv ganger (80 m)", "nb", "åtte ganger"),
    ("* 9 m end, 2 m ens * sept fois (80 m)", "fr", "huit fois"),
]


@pytest.mark.parametrize(("text", "language", "repaired"), REPAIRS)
def test_a_number_is_mended_as_it_is_printed(text: str, language: str, repaired: str) -> None:
    """In a word, where it is printed in one."""
    names = {"de": "Runde 1:", "nb": "Omg 1:", "fr": "Tour 1 :"}
    (finding,) = read(f"{names[language]} {text}", (88,), language).findings

    assert repaired in (finding.repair or "")
