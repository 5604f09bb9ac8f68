"""A text with its cheapest explanation, for all the sizes that are asked for."""

from __future__ import annotations

import re
from bisect import bisect_right
from functools import cached_property
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.hat.request import MOST_SIZES
from roundwright.language import say
from roundwright.wording.proofreading.findings import Position
from roundwright.wording.reading.explain import Search
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.layout import MOST_LINES, Laid, segments
from roundwright.wording.reading.passed_over import with_passed_over
from roundwright.wording.reading.phrases import CastOn
from roundwright.wording.reading.preamble import with_asides_told, with_preamble_told
from roundwright.wording.reading.repeats_left_out import repeats_left_out
from roundwright.wording.reading.scanner import scan
from roundwright.wording.reading.scope import Sizes, lists_of
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.sizes import width_of
from roundwright.wording.reading.states import Explanation

BEGINNING: Final = 3_000
"""Characters in which a text casts on, so that it is read once for as many sizes as it has."""


class Explained:
    """A text, its segments and their explanation.

    - `text`: as given, with one sign for the end of each line; a place in it is the same place in the original
    - `counts`: what the text casts on, for each of its sizes; `columns`: which of them each size asked for is
    - `before`: the text before an edit, whose explanation holds up to the line that was edited
    """

    def __init__(self, original: str, cast_on: tuple[int, ...], before: Explained | None = None) -> None:
        self.original = original
        self.text = original.replace("\r\n", " \n").replace("\r", "\n")
        self.cast_on = cast_on
        width = len(cast_on)
        scanned = scan(self.text[:BEGINNING], width)
        listed = width_of(scanned.tokens)
        if len(self.text) > BEGINNING or listed not in (1, width):
            width = listed if listed > 1 else width
            scanned = scan(self.text, width)
        laid = segments(scanned.tokens, width)
        counts = _cast_on(laid)
        if len(counts) > 1 and len(counts) != width:
            scanned = scan(self.text, len(counts))
            laid = segments(scanned.tokens, len(counts))
        self.laid = laid
        self.segments = with_asides_told(with_preamble_told(laid.segments, cast_on), self.text)
        self.counts = counts
        self.columns = _columns(counts, cast_on)
        self.width = max(len(counts), len(cast_on))
        self.segments.extend(_cut(laid, len(scanned.tokens) - 1 if scanned.cut else 0))
        self.search = Search(self.segments, Sizes(cast_on, self.columns, self.width, counts))
        begun = 0
        if before is not None and before.guessed is None and before.search.sizes == self.search.sizes:
            begun = self.search.follow(before.search)
        self.explanation: Explanation = self.search.run(begun)
        self.guessed: int | None = None
        if len(cast_on) == 1 and not counts and any(not fault.note for fault in self.explanation.faults):
            self._guess()
        faults = with_passed_over(self.explanation, self.segments, self.text, cast_on)
        left_out = repeats_left_out(self.explanation, self.segments)
        self.explanation = replace(self.explanation, faults=(*faults, *left_out))

    def _guess(self) -> None:
        """Take the size that comes out, where one is asked for of a text with several that does not cast on."""
        lists = [number for _, candidate in self.explanation.choices for number in lists_of(candidate)]
        widest = max((len(number.values) for number in lists), default=1)
        for column in range(1, min(widest, MOST_SIZES)):
            sizes = Sizes(self.cast_on, (column,), self.width, self.counts)
            search = Search(self.segments, sizes, self.search.budget)
            search.known = self.search.known
            explanation = search.run()
            if explanation.cost < self.explanation.cost - 1:
                self.columns, self.search, self.explanation = (column,), search, explanation
                self.guessed = lists[0].start

    @cached_property
    def chosen(self) -> dict[int, Candidate]:
        """How each segment was understood."""
        return dict(self.explanation.choices)

    @cached_property
    def line_starts(self) -> list[int]:
        """Where each line of the text begins."""
        return [0, *(newline.end() for newline in re.finditer("\n", self.text))]

    def line(self, offset: int) -> int:
        """The line, from 1, of a place in the text."""
        return bisect_right(self.line_starts, offset)

    @cached_property
    def line_of_segments(self) -> list[int]:
        """The line that each segment begins on."""
        return [self.line(segment.start) for segment in self.segments]

    def position(self, offset: int) -> Position:
        """A place in the text as it is told."""
        offset = max(0, min(offset, len(self.text)))
        line = self.line(offset)
        return Position(offset=offset, line=line, column=offset - self.line_starts[line - 1] + 1)

    @cached_property
    def line_texts(self) -> list[str]:
        """The lines of the text, without their ends."""
        return self.text.split("\n")

    def line_text(self, line: int) -> str:
        """A line of the text, from 1, without its end."""
        return self.line_texts[line - 1]


def _cut(laid: Laid, words: int) -> list[Segment]:
    """What stands for the rest of a text that is longer than is read; `words` are read of it, 0 where all are."""
    if words and laid.segments:
        at = laid.segments[-1].end
        return [_rest("too_long", say("find.too_many_words", words=words), at)]
    if laid.cut is not None:
        return [_rest("too_many_rounds", say("find.too_many_lines", lines=MOST_LINES), laid.cut)]
    return []


def _rest(code: str, message: str, at: int) -> Segment:
    return Segment(None, (), at, at, heading=False, under_notes=False, troubles=((code, message, at),))


def _cast_on(laid: Laid) -> tuple[int, ...]:
    for segment in laid.segments:
        for phrase in segment.phrases:
            if type(phrase) is CastOn:
                return tuple(value or 0 for value in phrase.number.values)[:MOST_SIZES]
    return ()


def _columns(counts: tuple[int, ...], cast_on: tuple[int, ...]) -> tuple[int, ...]:
    """Which of the sizes in the text each count is: by place, or by count where only some are asked for."""
    if len(counts) in (0, 1, len(cast_on)):
        return tuple(range(len(cast_on)))
    if all(count in counts for count in cast_on):
        return tuple(counts.index(count) for count in cast_on)
    return tuple(min(place, len(counts) - 1) for place in range(len(cast_on)))
