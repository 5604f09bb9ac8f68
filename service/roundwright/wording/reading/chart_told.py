"""Charts that are worked before they are told: `Work rnds 1-6 of Chart A 6 times. Chart A, written: Rnd 1: ...`.

The lines below are worked where they are told, and stand for the first time the chart is worked.
"""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.phrases import Again, Brackets, Chart, Count, Rounds, Said, Times
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tree import Number

MOST_ROUNDS_TOLD: Final = 60
"""Lines in which a chart is told."""


def told_below(segments: list[Segment], place: int) -> int:
    """How many rounds of the chart that is worked at `place` are told in words right below it; 0 where none are."""
    works = any(type(phrase) in (Again, Rounds) for phrase in segments[place].phrases)
    if not works or not _names_chart(segments[place]):
        return 0
    at = place + 1
    while at < len(segments) and at <= place + MOST_BETWEEN and not _is_heading(segments[at]):
        if segments[at].label is not None or not _only_said(segments[at]):
            return 0
        at += 1
    if at >= len(segments) or not _is_heading(segments[at]):
        return 0
    highest = 0
    for segment in segments[at + 1 : at + 1 + MOST_ROUNDS_TOLD]:
        label = segment.label
        if label is None or label.kind not in ("numbered", "listed"):
            break
        first, last = label.spans[0].first.of(0) or 0, label.spans[-1].last.of(0) or 0
        if first != highest + 1:
            break
        highest = last
    return highest


def without_told(options: list[Candidate], below: int) -> list[Candidate]:
    """The candidates of the chart, with so many rounds less, which are worked where they are told."""
    made: list[Candidate] = []
    for option in options:
        rounds = option.rounds.values if option.rounds is not None else ()
        if not option.chart or not rounds or any((number or 0) < below for number in rounds):
            made.append(option)
            continue
        left = Number(tuple((number or 0) - below for number in rounds))
        none = not any(left.values)
        made.append(Candidate("prose", 0.0) if none else replace(option, rounds=left))
    return made


MOST_BETWEEN: Final = 2
"""Sentences between a chart that is worked and its heading."""


def _names_chart(segment: Segment) -> bool:
    return Chart in [type(phrase) for phrase in segment.phrases]


def _is_heading(segment: Segment) -> bool:
    """Whether it is no more than the name of a chart: `Chart A, written`."""
    words = all(type(phrase) in (Chart, Said, Brackets) for phrase in segment.phrases)
    written = any(type(phrase) is Said and phrase.text in _WRITTEN for phrase in segment.phrases)
    return segment.label is None and _names_chart(segment) and words and written


def _only_said(segment: Segment) -> bool:
    return all(
        type(phrase) in (Said, Times, Count, Brackets) or (type(phrase) is Rounds and phrase.every)
        for phrase in segment.phrases
    )


_WRITTEN: Final = frozenset(("written", "words", "wording", "text", "line", "described", "explained", "told"))
