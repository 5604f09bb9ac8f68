"""Changes on each needle, told in German as those who knit toys, mittens and thumbs write them."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import counts

READ = [
    (
        (
            "9 M anschlagen, auf 3 Nadeln verteilen, zur Runde schließen\n"
            "4 x in jeder R pro Nadel 1 M aus dem Querfaden zunehmen = 21 M\n"
            "2 x in jeder 2. R pro N je 2 M zusammenstricken = 15 M"
        ),
        [9, 12, 15, 18, 21, 18, 15],
    ),
    (
        (
            "52 Maschen anschlagen. 3 Runden rechts stricken. Dazu die Masche markieren und vor dieser Masche "
            "und danach jeweils eine Masche rechts verschränkt aus dem Querfaden aufstricken. In jeder folgenden "
            "dritten Runde wieder zu beiden Seiten der markierten Masche je eine weitere Masche aufnehmen – "
            "insgesamt 4 mal, so dass ihr dann 60 Maschen in einer Runde habt."
        ),
        [52, 54, 56, 58, 60],
    ),
    ("30 Maschen anschlagen. 1 Runde rechts stricken. Die Maschenzahl durch Zunahmen verdoppeln.", [30, 60]),
    # doubled stitches, and what comes of them told behind: doubled once
    ("30 Maschen anschlagen. Jede Masche verdoppeln. Die Maschenzahl verdoppelt sich = 60 M.", [30, 60]),
]


@pytest.mark.parametrize(("text", "wanted"), READ)
def test_changes_on_each_needle_are_read(text: str, wanted: list[int]) -> None:
    report = read(text, (wanted[0],), "de")
    assert counts(report.rounds[0], wanted[0]) == wanted
    assert not [f for f in report.findings if f.severity == "error"]


def test_a_wrong_count_behind_them_is_found() -> None:
    text = (
        "9 M anschlagen, auf 3 Nadeln verteilen, zur Runde schließen\n"
        "4 x in jeder R pro Nadel 1 M aus dem Querfaden zunehmen = 22 M"
    )
    assert "count_differs" in [finding.code for finding in read(text, (9,), "de").findings]
