"""How rounds go on, told in any order: `Every other rnd these decreases 6 more times repeat`.

A clause that consists of such parts, each told once, is put into the order in which the reader takes them:
`work these decreases every other rnd 6 more times`.
"""

import re
from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    DASH,
    EQUALS,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Token,
    words_at,
)

MOST_WORDS: Final = 30
FEWEST_WORDS: Final = 3
_ENDS: Final = STOP | LINE | SEMI | COLON | EQUALS | DASH
_KINDS: Final = {
    "each": "e", "per": "e", "persection": "e", "alternate": "a", "ordinal": "o", "following": "F", "round": "r",
    "number": "n", "range": "g", "times": "t", "often": "f", "more": "m", "total": "T",
    "until": "u", "to": "u", "stitch_noun": "s", "remain": "l", "left": "l", "fewer": "<", "between": "b", "before": "b",
    "work": "w", "repeat": "w", "continue": "c", "manner": "y", "these": "h", "last": "L", "and": "&", "then": "q",
}  # fmt: skip
"""A letter for each kind of word."""
_TEXTS: Final = {
    "dec": "d", "decrease": "d", "decreases": "D", "the": "h", "this": "h", "it": "I", "them": "I", "so": "y",
    "a": "A", "total of": "A", "now": "q", "also": "q", "with": "W", "in": "i", "on": "i",
}  # fmt: skip
"""A letter for a word by itself, before that of its kind."""
_PART: Final = re.compile(
    "(?P<ahead>[q&]+)"
    "|(?P<fewer>Wns<(?:bh?[dD]|et)*)"
    "|(?P<pace>i?e[ao]?r|iF?ar)"
    "|(?P<times>A{0,2}(?:ntm?|nmt|mnt|fm?)T?)"
    "|(?P<until>unsl?|unl)"
    "|(?P<rounds>h?dr|h?D|h?Ln?r|hn?r|rn(?:&r?n)?|rg|I)"
    "|(?P<verb>(?:c&?u?)?[wd]|c)"
    "|(?P<change>ns)"
    "|(?P<manner>y)"
)
"""A part of a clause in these letters."""
_ORDER: Final = ("ahead", "manner", "verb", "change", "rounds", "pace", "times", "until", "fewer")
_HOW_FAR: Final = frozenset(("times", "until"))
_WHAT: Final = frozenset(("verb", "manner", "rounds"))


def with_parts_in_order(tokens: list[Token]) -> list[Token]:
    """The words, with the parts of each such clause in order. Takes time in their number."""
    made: list[Token] = []
    begin = 0
    for place in range(1, len(tokens)):
        if _ends_clause(tokens, place):
            clause = tokens[begin:place]
            heads = tokens[place].flags & (COLON | EQUALS) == COLON  # rnd 2 and every other rnd: knit
            made.extend(clause if heads else _in_order(clause))
            begin = place
    return [*made, *tokens[begin:]]


def _ends_clause(tokens: list[Token], place: int) -> bool:
    """Whether a clause ends before a word: `repeat 6 times, then every rnd`, `until 8 sts remain (9 times)`."""
    token = tokens[place]
    then = token.kind == "then" and bool(token.flags & COMMA or tokens[place - 1].kind == "and")
    return bool(token.flags & _ENDS) or token.kind in ("(", ")") or then


def _in_order(clause: list[Token]) -> list[Token]:
    """The words of a clause in order; as they are, where it has other words or tells a part twice."""
    if not FEWEST_WORDS <= len(clause) <= MOST_WORDS:
        return clause
    letters = "".join(map(_letter, clause))
    parts = list(_parts(letters))
    told = {name: clause[begin:stop] for name, begin, stop in parts}
    if len(told) < len(parts) or not parts or parts[-1][2] < len(clause):
        return clause
    if told.keys().isdisjoint(_HOW_FAR) or told.keys().isdisjoint(_WHAT):
        return clause
    verb, rounds, change = told.get("verb", []), told.get("rounds", []), told.get("change", [])
    if change and (change[0].flags & COMMA or not verb or verb[-1].kind != "decrease"):
        return clause  # a count: dec every other rnd 6 times, 48 sts
    if rounds and not verb and rounds[0].kind == "round":
        told["verb"] = words_at(clause[0].start, ("work", "work"))  # the number is no label: `Rnd 1 every rnd`
    elif verb and verb[-1].kind == "repeat" and rounds and rounds[-1].text == "decreases":
        told["verb"] = [replace(verb[-1], kind="work", text="work")]
    made = [word for name in _ORDER for word in told.get(name, [])]
    first, *others = made
    return [replace(first, flags=clause[0].flags), *(replace(word, flags=word.flags & COMMA | SPACE) for word in others)]


def _letter(token: Token) -> str:
    return _TEXTS.get(token.text) or _KINDS.get(token.kind, "?")


def _parts(letters: str) -> Iterator[tuple[str, int, int]]:
    """The parts in these letters, one behind the other: the name of each, where it begins and ends."""
    place = 0
    while part := _PART.match(letters, place):
        place = part.end()
        yield part.lastgroup or "", part.start(), place
