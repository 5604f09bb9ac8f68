"""Faults put into right texts of the corpora: most are found on their line, and most repairs are what was meant."""

import pytest

from roundwright.wording.proofreading.findings import Edit, Position
from roundwright.wording.proofreading.read import read
from tests.corpus.planted import judged
from tests.corpus.score import Text, corpora, errors

KEPT = ("reading", "writers")


def test_planted_faults_are_found_and_repaired() -> None:
    """Of the faults planted in the two corpora, 97 % are found on their line, and 9 repairs in 10 are as meant."""
    planted = list(judged(KEPT))
    faults = [(what, repair) for _, _, what, repair, _ in planted]
    found = [repair for what, repair in faults if what == "found"]

    assert len(found) >= 0.97 * len(faults)
    assert found.count("as meant") >= 0.9 * len(found)
    for _, fault, _, _, reading in planted:
        edits = [edit for finding in reading.findings for edit in finding.edits]
        assert not [edit for edit in edits if touches(fault.text, edit)]


def touches(text: str, edit: Edit) -> bool:
    """Whether a letter touches a letter, where the edit begins or ends, that was apart before."""
    start, end = edit.start.offset, edit.end.offset
    left, right = text[:start], text[end:]
    ahead = (
        left[-1:].isalnum() and (edit.replacement + right)[:1].isalnum() and not text[start:][:1].isalnum()
    )
    behind = (
        (left + edit.replacement)[-1:].isalnum() and right[:1].isalnum() and not text[:end][-1:].isalnum()
    )
    return ahead or behind


WRONG = [item for corpus in corpora().values() for item in corpus.get("wrong", [])]


@pytest.mark.parametrize(
    "item", sorted(WRONG, key=lambda item: item.get("fault") or "")[::2], ids=lambda item: item["id"]
)
def test_a_repair_that_is_made_leaves_less_wrong(item: Text) -> None:
    """The text repaired, read again, has fewer errors, and none on a line that was not called wrong before.

    Of every second text of a kind of fault. And no edit runs into the word beside it.
    """
    cast_on, language = tuple(item["cast_on"]), item.get("language")
    reading = read(item["text"], cast_on, language)
    edits = [edit for finding in reading.findings for edit in finding.edits]
    assert not [edit for edit in edits if touches(item["text"], edit)]
    if reading.repaired is None:
        return
    found = errors(reading)
    counts = [
        int(finding.edits[0].replacement)
        for finding in found
        if finding.code == "cast_on_differs" and finding.edits and finding.edits[0].replacement.isdigit()
    ]
    again = (counts[0],) if counts and len(cast_on) == 1 else cast_on
    left = errors(read(reading.repaired, again, language))

    assert len(left) < len(found) or not any(finding.edits for finding in found)
    if reading.repaired.count("\n") == item["text"].count("\n"):
        assert {finding.line for finding in left} <= {finding.line for finding in found}


@pytest.mark.parametrize(
    ("word", "put_in", "stays"),
    [(1, "k2", False), (1, " k2", True), (2, "k2, ", True), (2, "k2", False), (1, ", k2", True)],
)
def test_edits_that_touch_a_word_are_told_from_those_that_do_not(word: int, put_in: str, stays: bool) -> None:
    """`rounds` and `then` are two words."""
    text = "12 rounds then knit"
    offset = {1: text.index(" then"), 2: text.index("then")}[word]
    place = Position(offset=offset, line=1, column=offset + 1)

    assert touches(text, Edit(start=place, end=place, replacement=put_in, leaves=None)) is not stays
