"""Stitches that are added, read as increased: `Last row: add 2 sts`, `knit, adding 6 sts evenly`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import AS_THEY_ARE, FULL, LINE, Instead, Token, with_others_put

_ADD: Final = frozenset(("add", "adding"))
_ADVISE: Final = frozenset(
    ("if", "want", "need", "larger", "bigger", "wider", "can", "may", "cast_on", "size")
)
"""Words, and kinds of words, of a sentence that advises to cast on more stitches."""
_WORK: Final = frozenset(("round", "evenly", "stars", "knit"))
"""Kinds of words of a sentence that tells of work."""
MOST_BEFORE: Final = 16
MOST_BEHIND: Final = 8
"""Words of a sentence that are looked at, before the verb and behind it."""


def with_stitches_added(tokens: list[Token]) -> list[Token]:
    """The tokens with `add 2 sts` as an increase, where its sentence works. Takes time in the number of the tokens."""
    return with_others_put(tokens, _increase)


def _increase(tokens: list[Token], place: int) -> Instead:
    adds = tokens[place].text in _ADD and _adds(tokens, place)
    return (place + 1, [replace(tokens[place], kind="increase")]) if adds else AS_THEY_ARE


def _adds(tokens: list[Token], place: int) -> bool:
    """Whether stitches of a round are added here, and not such as are cast on for a larger head."""
    kinds = [token.kind for token in tokens[place + 1 : place + 4]]
    if kinds[:2] != ["number", "stitch_noun"] or kinds[2:] == ["to"]:
        return False
    begin, stop = place, place + 1
    while begin and not tokens[begin].flags & (LINE | FULL) and place - begin < MOST_BEFORE:
        begin -= 1
    while stop < len(tokens) and not tokens[stop].flags & (LINE | FULL) and stop - place < MOST_BEHIND:
        stop += 1
    sentence = tokens[begin:stop]
    return any(token.kind in _WORK for token in sentence) and not any(
        token.text in _ADVISE or token.kind in _ADVISE for token in sentence
    )
