"""The same pattern is read the same in capitals, with the line ends of other machines, and with no-break spaces."""

import pytest

from roundwright.wording.proofreading.read import Reading, read
from tests.corpus.score import Text, corpora, errors

RIGHT = [
    item for name, corpus in corpora().items() if name in ("reading", "writers") for item in corpus["right"]
]
CRLF = [item for name in ("whole-12", "lang-mix-1", "manners") for item in corpora()[name]["right"][:25]]


def answer(reading: Reading) -> tuple[list[list[tuple[int, int, str]]], list[tuple[int, str]]]:
    """The rounds of each size, and the findings."""
    rounds = [[(done.before, done.after, done.text) for done in size] for size in reading.rounds]
    return rounds, [(finding.line, finding.code) for finding in reading.findings]


def differing(items: list[Text], old: str, new: str) -> list[str]:
    """The texts that have another answer with other signs."""
    changed: list[str] = []
    for item in items:
        cast_on, language = tuple(item["cast_on"]), item.get("language")
        before = answer(read(item["text"], cast_on, language))
        if answer(read(item["text"].replace(old, new), cast_on, language)) != before:
            changed.append(item["id"])
    return changed


def test_line_ends_of_other_machines_change_nothing() -> None:
    """CR and LF have the answer of LF alone, in English and other languages."""
    assert differing(CRLF, "\n", "\r\n") == []


def test_no_break_spaces_change_nothing() -> None:
    """A space that keeps a line together is a space."""
    assert differing(RIGHT[:60], " ", "\xa0") == []


def test_a_list_of_sizes_goes_on_behind_the_end_of_a_line() -> None:
    """72 and 81 stitches stand on two lines."""
    text = "Rnd 1: *k8, k2tog; rep from * - 72\r\n(81) sts."

    assert not errors(read(text, (80, 90)))


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
        reading = read(printed, (64,))

        assert not errors(reading)
        assert len(reading.rounds[0]) == rounds


def test_right_texts_in_capitals_are_read_as_in_small_letters() -> None:
    """But for at most one in twenty-five: `STS. THEN` may end a sentence or not."""
    lost = [
        item["id"]
        for item in RIGHT
        if answer(read(item["text"].upper(), tuple(item["cast_on"])))[0]
        != answer(read(item["text"], tuple(item["cast_on"])))[0]
    ]

    assert len(lost) <= len(RIGHT) / 25, lost
