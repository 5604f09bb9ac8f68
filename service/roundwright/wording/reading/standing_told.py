"""Rounds that are told ahead of others beside a heading or in a note: `Crown (all even rounds: knit):`."""

from typing import Final

from roundwright.wording.reading.labels import label
from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.tokens import COLON, COMMA, SEMI, STOP, Token

LONGEST_HEADING: Final = 8
"""Words of a heading before the bracket."""
_STANDING: Final = frozenset(("all", "each", "even", "odd", "alternate", "following"))
"""Words that rounds begin with that are alike."""
_OF_HEADING: Final = frozenset(
    ("word", "", "told", "crown", "decrease", "for", "begin", "closing", "and", "in", "from", "shape")
)


def bracket_of_standing(tokens: list[Token], begin: int, stop: int) -> tuple[int, int] | None:
    """Where the rounds begin and end that are told in a bracket behind a heading as alike; None where none are."""
    if tokens[stop - 1].kind != ")":
        return None
    first, last = begin + 1, min(begin + 1 + LONGEST_HEADING, stop)
    opens = next((place for place in range(first, last) if tokens[place].kind == "("), 0)
    if not opens or any(token.kind not in _OF_HEADING for token in tokens[begin:opens]):
        return None
    if any(token.kind in ("(", ")") for token in tokens[opens + 1 : stop - 1]):
        return None
    closes = _end_of_standing(tokens, opens + 1, stop - 1)
    return (opens, closes) if closes else None


def behind_note(tokens: list[Token], begin: int, stop: int) -> int:
    """Where rounds that are alike are told in a line with `Note:`, in its first sentence or a further one.

    The beginning of the line where none are.
    """
    if tokens[begin].kind != "told" or begin + 1 >= stop or not tokens[begin + 1].flags & COLON:
        return begin
    sentences = (
        place
        for place in range(begin + 1, stop)
        if tokens[place].flags & (COLON | STOP) and tokens[place].kind in _STANDING
    )
    return next((place for place in sentences if _end_of_standing(tokens, place, stop)), begin)


def _end_of_standing(tokens: list[Token], begin: int, stop: int) -> int:
    """Where it ends that all rounds of a kind are alike, `all even rounds: knit`; 0 where nothing like that is told.

    Which rounds these are may be told behind a comma: `, from rnd 2 to rnd 14`.
    """
    lines = Lines(tokens, begin, stop, troubles=[])
    standing = label(lines) if lines.kind() in _STANDING else None
    if standing is None or standing.kind != "every":
        return 0
    behind = range(lines.place + 1, stop)
    return next((place for place in behind if tokens[place].flags & (COMMA | SEMI)), stop)
