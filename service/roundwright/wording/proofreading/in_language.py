"""A reading of a text that was rewritten in English words, with every place and edit in the original."""

import re
from bisect import bisect_right
from typing import Final

import msgspec

from roundwright.language import Message, say, say_count
from roundwright.wording.proofreading.edits import line_with, text_with
from roundwright.wording.proofreading.findings import Edit, Finding, Position
from roundwright.wording.proofreading.reading import Reading
from roundwright.wording.proofreading.rewriting import kept_apart
from roundwright.wording.reading.languages.original import change
from roundwright.wording.reading.languages.rewrite import Rewritten

ENGLISH_ONLY: Final = frozenset(("abbreviation_not_explained", "abbreviation_not_used", "terms_mixed"))
"""What is asked of the English words of a text, and not of those that they stand for."""
_QUOTED: Final = re.compile("“([^”]{1,60})”")


def in_original(reading: Reading, text: Rewritten) -> Reading:
    """The reading of the English text, as one of the original."""
    return _Original(text).reading(reading)


class _Original:
    """Places of the English text in the original."""

    def __init__(self, text: Rewritten) -> None:
        self.text = text
        self.plain = text.original.replace("\r\n", " \n").replace("\r", "\n")
        self.lines = _line_starts(self.plain)
        self.english_lines = _line_starts(text.text.replace("\r\n", " \n").replace("\r", "\n"))

    def reading(self, reading: Reading) -> Reading:
        """The reading with its findings and edits moved."""
        edits = dict.fromkeys(edit for finding in reading.findings for edit in finding.edits)
        moved = {edit: worded for edit in edits if (worded := self.edit(edit)) is not None}
        findings = [
            self.finding(finding, moved) for finding in reading.findings if finding.code not in ENGLISH_ONLY
        ]
        made: list[Edit] = []
        whole = all(edit in moved for edit in reading.made)  # what is left of them was never read by itself
        for edit in reading.made if whole else ():
            if not made or moved[edit].start.offset >= made[-1].end.offset:
                made.append(moved[edit])
        return msgspec.structs.replace(
            reading,
            findings=tuple(findings),
            made=tuple(made),
            repaired=text_with(self.text.original, tuple(made)) if made else None,
        )

    def finding(self, finding: Finding, moved: dict[Edit, Edit]) -> Finding:
        """A finding at its place in the original."""
        at = self.english_lines[finding.line - 1] + finding.column - 1
        place = self.position(self.text.place(at))
        edits = tuple(moved[edit] for edit in finding.edits if edit in moved)
        return msgspec.structs.replace(
            finding,
            line=place.line,
            column=place.column,
            message=self.message(finding.message, at),
            edits=edits,
            repair=line_with(self.plain, edits[0]) if edits else None,
        )

    def message(self, message: str, at: int) -> str:
        """A message that quotes a word of the text, with the word as it is printed there."""
        quoted = _QUOTED.search(message)
        if quoted is None or not self.text.text.startswith(quoted[1], at):
            return message
        start, end = self.text.place(at), self.text.place(at + len(quoted[1]))
        word = self.text.original[start:end].strip()
        if not word:
            return message
        if isinstance(message, Message):
            values = {name: word if value == quoted[1] else value for name, value in message.values.items()}
            if message.number is None:
                return say(message.key, **values)
            return say_count(message.key, message.number, **(values | {"count": message.number}))
        return message.replace(quoted[1], word, 1)

    def edit(self, edit: Edit) -> Edit | None:
        """An edit of the original; None where its words are not all of the language."""
        moved = change(self.text, edit.start.offset, edit.end.offset, edit.replacement)
        if moved is None:
            return None
        return msgspec.structs.replace(
            edit,
            start=self.position(moved.start),
            end=self.position(moved.end),
            replacement=kept_apart(self.plain, *moved),
        )

    def position(self, offset: int) -> Position:
        """A place in the original as it is told."""
        line = bisect_right(self.lines, offset)
        return Position(offset=offset, line=line, column=offset - self.lines[line - 1] + 1)


def _line_starts(text: str) -> list[int]:
    return [0, *(newline.end() for newline in re.finditer("\n", text))]
