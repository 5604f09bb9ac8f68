"""The end of a crown that is told by what is done there: `When 8 sts remain, cut yarn` is `until 8 sts remain`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import COMMA, COUNT_WORDS, LINE, STOP, Token


def with_crown_ends(tokens: list[Token]) -> list[Token]:
    """The words with `until` in place of `when` before the count that is left when the yarn is cut."""
    made = list(tokens)
    for place, token in enumerate(tokens):
        if token.text == "when" and token.flags & (LINE | STOP) and _is_closed(tokens, place + 1):
            made[place] = replace(token, kind="until")
    return made


def _is_closed(tokens: list[Token], place: int) -> bool:
    """Whether a count of stitches stands there, and behind its comma the yarn is cut or drawn through."""
    counted = False
    for at, token in enumerate(tokens[place : place + MOST_TO_CLOSING], place):
        if token.kind == "closing":
            return counted and bool(token.flags & COMMA) and not _names_colour(tokens, at)
        if token.kind not in _COUNTED:
            return False
        counted = counted or token.kind == "number"
    return False


def _names_colour(tokens: list[Token], place: int) -> bool:
    """Whether only the yarn of a colour is cut there: `cut yarn and join the contrast colour`, `break CC`."""
    for token in tokens[place + 1 : place + MOST_BEHIND]:
        if token.flags & (LINE | STOP):
            return False
        if token.text in _COLOURS:
            return True
    return False


MOST_BEHIND: Final = 9
"""Words behind it that may name a colour."""
_COLOURS: Final = frozenset(
    ("mc", "cc", "join", "colour", "color", "contrast", "contrasting", "second", "first", "other", "main")
)
MOST_TO_CLOSING: Final = 7
"""Words from `when` to what is done with the yarn."""
_COUNTED: Final = COUNT_WORDS | {"only"}
