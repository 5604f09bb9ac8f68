"""The same pattern is read the same in capitals, with the line ends of other machines, and with no-break spaces."""

from collections.abc import Callable

import pytest

from roundwright.wording.proofreading.read import Reading, read
from tests.corpus.score import Text, corpora
from tests.support.readings import counts, number_of_rounds

CORPORA = corpora()
RIGHT = [item for name in ("reading", "writers") for item in CORPORA[name]["right"]]
CRLF = [item for name in ("whole-12", "lang-mix-1", "manners") for item in CORPORA[name]["right"][:25]]


def answer(reading: Reading) -> tuple[list[list[tuple[int, int, str]]], list[tuple[int, str]]]:
    """The rounds of each size, and the findings."""
    rounds = [[(done.before, done.after, done.text) for done in size] for size in reading.rounds]
    return rounds, [(finding.line, finding.code) for finding in reading.findings]


def differing(items: list[Text], printed: Callable[[str], str]) -> list[str]:
    """The texts that have another answer when they are printed otherwise."""
    changed: list[str] = []
    for item in items:
        cast_on, language = tuple(item["cast_on"]), item.get("language")
        before = answer(read(item["text"], cast_on, language))
        if answer(read(printed(item["text"]), cast_on, language)) != before:
            changed.append(item["id"])
    return changed


def test_line_ends_of_other_machines_change_nothing() -> None:
    """CR and LF have the answer of LF alone, in English and other languages."""
    assert differing(CRLF, lambda text: text.replace("\n", "\r\n")) == []


def test_no_break_spaces_change_nothing() -> None:
    """A space that keeps a line together is a space."""
    assert differing(RIGHT[:60], lambda text: text.replace(" ", "\xa0")) == []


def test_a_list_of_sizes_goes_on_behind_the_end_of_a_line() -> None:
    """72 and 81 stitches stand on two lines."""
    text = "Rnd 1: *k8, k2tog; rep from * - 72\r\n(81) sts."

    assert counts(read(text, (80, 90))) == [[80, 72], [90, 81]]


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        ("Work 3 rnds. in rib. Then k. 2 rnds. more.", 5),
        ("Change to No. 6 needles and work straight in st.st. for 28 rows.", 28),
        ("Knit 8 rnds. Knit 24 rnds.", 32),
    ],
)
def test_a_short_form_in_capitals_ends_no_sentence(text: str, rounds: int) -> None:
    """As many rounds as in small letters."""
    for printed in (text, text.upper()):
        assert number_of_rounds(read(printed, (64,))) == [rounds]


def test_right_texts_in_capitals_are_read_as_in_small_letters() -> None:
    """Though `STS. THEN` may end a sentence or not."""
    assert differing(RIGHT, str.upper) == []
