"""What a text says its own words mean: `double decrease = sl 1, k2tog, psso`."""

from typing import Final

from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.scanner import COLON, COMMA, EQUALS, LINE, SEMI, STOP, Token
from roundwright.wording.reading.settle import settle
from roundwright.wording.reading.tree import Stitch

LONGEST_NAME: Final = 3
"""Words of a name that a text gives."""
MOST_NAMES: Final = 40
"""Names that a text gives: more than any has."""
LONGEST_MEANING: Final = 24
"""Words that say what a name means."""
_NAMES: Final = frozenset(("word", "decrease", "increase", "make", "cable"))
_ENDS: Final = STOP | SEMI | LINE | COLON

Names = dict[tuple[str, ...], str]


def with_definitions(tokens: list[Token], names: Names) -> list[Token]:
    """The tokens, with the names that the text itself explains read as the stitches that they mean."""
    return _replaced(tokens, names) if names else tokens


def definitions(tokens: list[Token]) -> Names:
    """The names that a text itself explains, with the stitches that they mean."""
    names: Names = {}
    for place, token in enumerate(tokens):
        if token.flags & EQUALS and place and len(names) < MOST_NAMES:
            name = _name_before(tokens, place)
            meaning = _meaning(tokens, place) if name else ""
            if meaning:
                names[name] = meaning
    return names


def _name_before(tokens: list[Token], place: int) -> tuple[str, ...]:
    """The words before an equals sign that are nothing else yet; empty where there are none."""
    words: list[str] = []
    known = True
    for back in range(place - 1, max(place - 1 - LONGEST_NAME, -1), -1):
        token = tokens[back]
        if token.kind not in _NAMES:
            return ()
        known = known and token.kind != "word"
        words.insert(0, token.text)
        if token.flags & (_ENDS | COMMA) or back == 0 or tokens[back - 1].kind in ("(", ")"):
            return () if known and len(words) == 1 else tuple(words)
    return ()


def _meaning(tokens: list[Token], place: int) -> str:
    """The one stitch that the words from here on make; empty where they make anything else."""
    stop = place
    while stop < min(len(tokens) - 1, place + LONGEST_MEANING):
        if tokens[stop].kind == ")" or (stop > place and tokens[stop].flags & _ENDS):
            break
        stop += 1
    ways = settle(tuple(Lines(tokens, place, stop, troubles=[]).all()), implied=False)
    for way in ways:
        if not way.trouble and len(way.nodes) == 1 and isinstance(only := way.nodes[0], Stitch):
            return only.name if only.times.values == (1,) else ""
    return ""


def _replaced(tokens: list[Token], names: Names) -> list[Token]:
    made: list[Token] = []
    place = 0
    longest = max(len(name) for name in names)
    while place < len(tokens):
        for count in range(min(longest, len(tokens) - place), 0, -1):
            name = tuple(token.text for token in tokens[place : place + count])
            if name in names and not any(token.flags & _ENDS for token in tokens[place + 1 : place + count]):
                first, last = tokens[place], tokens[place + count - 1]
                made.append(Token("stitch", " ".join(name), first.start, last.end, first.flags, names[name]))
                place += count
                break
        else:
            made.append(tokens[place])
            place += 1
    return made
