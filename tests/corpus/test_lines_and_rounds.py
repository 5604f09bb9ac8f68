"""The sheet of lines beside the rounds, of patterns that others worded."""

from collections import Counter

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import Text, corpora

RIGHT = [item for name in ("reading", "writers", "manners") for item in corpora()[name]["right"]]


@pytest.mark.parametrize("item", RIGHT, ids=lambda item: item["id"])
def test_each_round_of_the_longest_size_begins_on_one_line(item: Text) -> None:
    """With the stitches that its line has after its last round."""
    reading = read(item["text"], tuple(item["cast_on"]), item.get("language"))
    rounds = max(reading.rounds, key=len)
    size = reading.rounds.index(rounds)
    lines = [line for line in reading.lines if line.computed and line.computed[size] is not None]

    assert Counter(number for line in lines for number in line.rounds) == Counter(r.number for r in rounds)
    after = Counter((done.number, done.after) for done in rounds)
    assert not Counter((line.rounds[-1], line.computed[size]) for line in lines) - after


@pytest.mark.parametrize("item", RIGHT, ids=lambda item: item["id"])
def test_the_count_printed_for_a_size_is_that_of_its_round_or_called_wrong(item: Text) -> None:
    """A needle's share, a page or a number of rounds is no count of the stitches."""
    reading = read(item["text"], tuple(item["cast_on"]), item.get("language"))
    found = {finding.line for finding in reading.findings}
    both = [line for line in reading.lines if line.printed and line.computed and line.line not in found]

    assert [line for line in both if not _agrees(line.printed, line.computed)] == []


def _agrees(printed: tuple[int | None, ...], computed: tuple[int | None, ...]) -> bool:
    """Whether what is printed for a size is what is worked, where both are told."""
    return all(
        None in (count, worked) or count == worked for count, worked in zip(printed, computed, strict=True)
    )
