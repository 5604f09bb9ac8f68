"""Paragraphs with a decimal number by which they are worked again: `3.3 Repeat 3.1 and 3.2 until 8 sts remain`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import DASH, LINE, SPACE, Token
from roundwright.wording.reading.tree import Number

MOST_PARAGRAPHS: Final = 100
"""Paragraphs of one section."""
_BEFORE_CALLS: Final = frozenset(("repeat", "work", "step", "and", "to", "from", "as"))
"""What stands before the number of a paragraph that is worked again."""


def called_paragraphs(tokens: list[Token]) -> frozenset[str]:
    """The numbers of paragraphs, where one of them is worked again by its number; empty where none is."""
    begins = set[str]()
    called = set[str]()
    for place, token in enumerate(tokens):
        if token.kind != "decimal" or not _is_paragraph(token.text):
            continue
        if token.flags & LINE or not place:
            begins.add(token.text)
        elif tokens[place - 1].kind in _BEFORE_CALLS and token.text in begins:
            called.add(token.text)
    return frozenset(begins) if called else frozenset()


def _is_paragraph(text: str) -> bool:
    """Whether it is the number of a section and of one of its paragraphs: `3.2`, and not `3.25`."""
    section, _, paragraph = text.partition(".")
    return section.isdigit() and paragraph.isdigit() and len(section) < 3 and len(paragraph) < 3


def with_paragraphs_as_steps(tokens: list[Token], called: frozenset[str]) -> list[Token]:
    """The tokens, with such numbers as those of steps."""
    if not called:
        return tokens
    made: list[Token] = []
    for place, token in enumerate(tokens):
        before = tokens[place - 1] if place else None
        begins = before is None or bool(token.flags & LINE)
        if token.kind != "decimal" or token.text not in called:
            made.append(token)
            continue
        if not begins and before is not None and before.kind not in _BEFORE_CALLS and not token.flags & DASH:
            made.append(token)
            continue
        section, _, paragraph = token.text.partition(".")
        number = Number((MOST_PARAGRAPHS * int(section) + int(paragraph),), token.start, token.end)
        named = replace(token, kind="number", text=str(number.of(0)), number=number)
        if begins or (before is not None and before.kind in ("repeat", "work", "from", "as")):
            made.append(Token("step", "step", token.start, token.start, token.flags))
            named = replace(named, flags=SPACE)
        made.append(named)
    return made
