"""Faults put into right texts of the corpora: most are found on their line, and most repairs are what was meant."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.planted import judged
from tests.corpus.score import Text, corpora, errors

KEPT = ("reading", "writers")


def test_planted_faults_are_found_and_repaired() -> None:
    """Of the faults planted in the two corpora, 97 % are found on their line, and 9 repairs in 10 are as meant."""
    faults = [(what, repair) for _, _, what, repair, _ in judged(KEPT)]
    found = [repair for what, repair in faults if what == "found"]

    assert len(found) >= 0.97 * len(faults)
    assert found.count("as meant") >= 0.9 * len(found)


WRONG = [item for corpus in corpora().values() for item in corpus.get("wrong", [])]


@pytest.mark.parametrize("item", WRONG, ids=lambda item: item["id"])
def test_a_repair_that_is_made_leaves_less_wrong(item: Text) -> None:
    """The text repaired, read again, has fewer errors, and none on a line that was not called wrong before."""
    cast_on = tuple(item["cast_on"])
    reading = read(item["text"], cast_on)
    if reading.repaired is None:
        return
    found = errors(reading)
    counts = [
        int(finding.edits[0].replacement)
        for finding in found
        if finding.code == "cast_on_differs" and finding.edits and finding.edits[0].replacement.isdigit()
    ]
    left = errors(read(reading.repaired, (counts[0],) if counts and len(cast_on) == 1 else cast_on))

    assert len(left) < len(found) or not any(finding.edits for finding in found)
    if reading.repaired.count("\n") == item["text"].count("\n"):
        assert {finding.line for finding in left} <= {finding.line for finding in found}
