"""How people tell a hat in German in their own words. The counts are worked by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

HATS: list[tuple[int, str, list[int]]] = [
    (
        30,
        (
            "*8 M re, 2 M re zus*, 3 mal\n- 1 Reihe re\n- Abnahmereihe: *7 M re, 2 M re zus* 3 mal\n"
            "- In dieser Art weitermachen, also Abnahmereihe und eine Reihe rechts im Wechsel, wobei zwischen den "
            "Abnahmen jedes Mal eine Masche weniger liegt.\n- Sind nur noch 15 Maschen da, den Faden durchziehen."
        ),
        [27, 27, 24, 24, 21, 21, 18, 18, 15],
    ),
    (
        20,
        (
            "3 M stricken, 2 zus - jetzt sind es noch 16.\nWieder eine Runde ganz normal.\n2 M stricken, 2 zus - "
            "noch 12 M.\nEine Runde ganz normal.\nSo geht es weiter, bis ich nur noch 1 Masche "
            "stricke und 2 zusammennehme."
        ),
        [16, 16, 12, 12, 8],
    ),
    (72, "Reihe 1: re\nReihe 2 bis 5: gerade\nReihe 6: *6 M re, 2 M re zus*", [72, 72, 72, 72, 72, 63]),
    (90, "Rd 1: re, nur die 1. Masche verdoppeln (= 91 M).\nRd 2: re", [91, 91]),
    (90, "Rd 1: re, nur die letzte Masche verdoppeln (= 91 M).\nRd 2: re", [91, 91]),
    (90, "Rd 1: re, jede 3. Masche verdoppeln.\nRd 2: re", [120, 120]),
    (
        40,
        (
            "Am Ende jeder Nadel 1 M abnehmen, 1 Rd re. Dann in jeder Runde abnehmen. Bei 6 Maschen je Nadel den Faden "
            "abschneiden."
        ),
        [36, 36, 32, 28, 24],
    ),
    (
        60,
        (
            "2 Rd 3 re, 2 li. Dann abnehmen: jedes linke Maschenpaar wird zu einer Masche zusammengestrickt, die "
            "rechten Maschen rechts."
        ),
        [60, 60, 48],
    ),
    (
        60,
        "2 Rd 2 re, 4 li. Abnahmerunde: alle linken M paarweise links zusammenstricken, die rechten rechts stricken.",
        [60, 60, 40],
    ),
    (40, "Glatt rechts weiter: 3 Rd weiß, 1 Rd rot, 2 Rd weiß.", [40] * 6),
    (40, "3 Rd Bündchen, 2 M re, 2 M li im Wechsel. 2 Rd re.", [40] * 5),
    (70, "70 M, 4 cm Bündchen, dann 6 M dazu und 12 cm gerade.", [70, 76]),
]


@pytest.mark.parametrize(("stitches", "text", "after"), HATS)
def test_a_hat_is_read_in_the_words_of_who_tells_it(stitches: int, text: str, after: list[int]) -> None:
    reading = read(text, (stitches,), "de")
    assert after_each_round(reading) == after
    assert not [finding for finding in reading.findings if finding.severity == "error"]


@pytest.mark.parametrize(
    ("line", "after"),
    [
        ("p2tog each pair of purl sts", 40),
        ("then decrease: p2tog all pairs of purl stitches", 40),
        ("p2tog in each purl rib", 50),
    ],
)
def test_every_pair_of_a_wide_rib_is_taken_together(line: str, after: int) -> None:
    """In each rib there are two pairs; without them there is a single decrease in each."""
    reading = read(f"Work 1 rnd k2, p4.\nNext rnd: {line}.", (60,), "en-US")
    assert after_each_round(reading) == [60, after]


def test_a_wrong_count_of_a_row_of_pairs_is_found() -> None:
    text = "2 Rd 2 re, 4 li. Abnahmerunde: alle linken M paarweise links zusammenstricken (44 M). 1 Rd re."
    assert [finding.code for finding in read(text, (60,), "de").findings if finding.severity == "error"]
