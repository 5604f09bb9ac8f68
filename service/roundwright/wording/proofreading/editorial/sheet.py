"""A pattern as an editor lays it out: its lines, its rounds, and the numbers printed in it."""

import re
from collections.abc import Iterator
from functools import cached_property
from typing import Final, NamedTuple

from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.findings import KINDS, Edit, Finding
from roundwright.wording.proofreading.line import Line
from roundwright.wording.reading.states import Done

NUMBER: Final = r"[0-9]{1,4}(?:\.[0-9]{1,2})?(?:\s?[½¼¾]|\s[1-3]/[248])?|[½¼¾]"
"""A number as patterns print it: `7`, `1.5`, `1 1/2`, `1½`."""
NUMBERS: Final = rf"(?:{NUMBER})(?:\s?[(\[]\s?(?:{NUMBER})(?:\s?,\s?(?:{NUMBER})){{0,12}}\s?[)\]])?"
"""A number, or one for each size: `18 (20, 22)`."""

LONGEST_LINE: Final = 400
"""Characters of a line that are looked at: several times what anybody prints."""
_PARTS: Final = {"½": 0.5, "¼": 0.25, "¾": 0.75}


def value(text: str) -> float:
    """A printed number: 1.5 of `1 1/2`."""
    whole = 0.0
    for part in re.findall(r"[0-9]/[0-9]|[0-9.]+|[½¼¾]", text):
        above, slash, below = part.partition("/")
        whole += _PARTS[part] if part in _PARTS else float(above) / float(below) if slash else float(part)
    return whole


def values(text: str) -> list[float]:
    """The numbers of a printed list, the first size first."""
    return [value(number) for number in re.findall(NUMBER, text)]


MOST_JUDGED: Final = 12_000
"""Characters of a text that are looked at, in whole lines, more than the longest pattern of a hat has."""


class Printed(NamedTuple):
    """A line of the text that is not blank: what it is, its words, and where it begins."""

    line: Line
    text: str
    start: int


class Sheet:
    """What the rules look at: `lines` are those that are not blank, `wrong` those on which there is an error.

    `better_cast_ons` are the stitches of all sizes with which every round comes out, where those printed do not.
    """

    def __init__(
        self,
        explained: Explained,
        lines: tuple[Line, ...],
        wrong: frozenset[int],
        better_cast_ons: tuple[tuple[int, ...], ...] = (),
    ) -> None:
        self.explained = explained
        self.better_cast_ons = better_cast_ons
        starts = explained.line_starts
        end = len(explained.text)
        if end > MOST_JUDGED:
            end = max(explained.text.rfind("\n", 0, MOST_JUDGED), 0) or MOST_JUDGED
        self.lines = [
            Printed(line, explained.line_text(line.line), starts[line.line - 1])
            for line in lines
            if starts[line.line - 1] < end
        ]
        self.wrong = wrong
        self.text = explained.text[:end]
        self.cast_on = explained.cast_on

    @cached_property
    def lower(self) -> str:
        """The text in lower case, to see quickly whether a word is in it."""
        return self.text.lower()

    @cached_property
    def rounds(self) -> tuple[tuple[Done, ...], ...]:
        """The rounds of each size."""
        return self.explained.explanation.rounds

    @cached_property
    def last(self) -> list[int]:
        """The stitches of each size after its last round."""
        return [
            rounds[-1].round.after if rounds else count
            for rounds, count in zip(self.rounds, self.cast_on, strict=True)
        ]

    def lines_of(self, *kinds: str) -> Iterator[Printed]:
        """The lines of these kinds."""
        return (printed for printed in self.lines if printed.line.kind in kinds)

    def edit(self, start: int, end: int, replacement: str) -> Edit:
        """Other words in place of some; what they leave is not known."""
        position = self.explained.position
        return Edit(start=position(start), end=position(end), replacement=replacement, leaves=None)

    def note(
        self,
        code: str,
        start: int,
        message: str,
        *,
        size: int | None = None,
        stitches: int | None = None,
        edits: tuple[Edit, ...] = (),
    ) -> Finding:
        """A note at a place of the text; `size` from 0."""
        place = self.explained.position(start)
        return Finding(
            line=place.line,
            column=place.column,
            code=code,
            severity=KINDS[code].severity,
            size=None if size is None else size + 1,
            stitches=stitches,
            message=message,
            edits=edits,
        )
