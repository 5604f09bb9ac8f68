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
"""Words of a clause in which parts are put in order."""
FEWEST_PARTS: Final = 3
"""Parts of such a clause: `do so 8 times` has two, and they stay as they are."""
MOST_OF_FEWER: Final = 10
"""Words in the bracket that tells how many stitches fewer are worked each time."""
_BRACKETS: Final = ("(", ")")
_ENDS: Final = STOP | LINE | SEMI | COLON | EQUALS | DASH
_KINDS: Final = {
    "each": "e", "per": "e", "persection": "e", "alternate": "a", "ordinal": "o", "following": "F", "round": "r",
    "number": "n", "range": "g", "times": "t", "often": "f", "more": "m", "total": "T",
    "until": "u", "to": "u", "stitch_noun": "s", "remain": "l", "left": "l", "fewer": "<", "between": "b",
    "before": "b",
    "work": "w", "repeat": "w", "continue": "c", "manner": "y", "these": "h", "last": "L", "and": "&", "then": "q",
    "(": "(", ")": ")",
}  # fmt: skip
"""A letter for each kind of word."""
_TEXTS: Final = {
    "dec": "d", "decrease": "d", "decreases": "D", "the": "h", "this": "h", "it": "I", "them": "I", "so": "y",
    "a": "A", "total of": "A", "now": "q", "also": "q", "with": "W", "in": "i", "on": "i",
}  # fmt: skip
"""A letter for a word by itself, before that of its kind."""
_PART: Final = re.compile(
    "(?P<ahead>[q&]+)"
    r"|(?P<fewer>\(W?ns<(?:bh?[dD]|et)*\)|Wns<(?:bh?[dD]|et)*)"
    "|(?P<pace>i?e[ao]?r|iF?ar)"
    "|(?P<times>A{0,2}(?:ntm?|nmt|mnt|fm?)T?)"
    "|(?P<until>unsl?|unl)"
    "|(?P<rounds>h?dr|h?D|h?Ln?r|hn?r|rn(?:&r?n)?|rg|I)"
    "|(?P<verb>y?(?:c&?u?)?dy?)"
    "|(?P<again>y?(?:(?:c&?u?)?w|c)y?)"
    "|(?P<change>ns)"
    "|(?P<manner>y)"
)
"""A part of a clause in these letters."""
_ORDER: Final = ("ahead", "manner", "again", "verb", "change", "rounds", "pace", "times", "until", "fewer")
_HOW_FAR: Final = frozenset(("times", "until"))
"""Parts of which a clause needs one."""


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
    if token.kind in _BRACKETS:  # `work rnd 1 (with 1 st less each time) every rnd`
        inside = (
            tokens[place + 1 : place + MOST_OF_FEWER]
            if token.kind == "("
            else tokens[max(0, place - MOST_OF_FEWER) : place]
        )
        return "fewer" not in [word.kind for word in inside]
    then = token.kind == "then" and bool(token.flags & COMMA or tokens[place - 1].kind == "and")
    return bool(token.flags & _ENDS) or then


def _in_order(clause: list[Token]) -> list[Token]:
    """The words of a clause in order; as they are, where it has other words or tells a part twice."""
    if not FEWEST_WORDS <= len(clause) <= MOST_WORDS or clause[0].flags & (DASH | LINE) == DASH:
        return clause  # the end of a range: R1-R4 3 times
    parts = list(_parts("".join(map(_letter, clause))))
    named = {name: clause[begin:stop] for name, begin, stop in parts}
    if len(named) < len(parts) or not parts or parts[-1][2] < len(clause):
        return clause
    if named.keys().isdisjoint(_HOW_FAR) or len(named.keys() - {"ahead"}) < FEWEST_PARTS:
        return clause
    again, rounds, change = named.get("again", []), named.get("rounds", []), named.get("change", [])
    if change and (change[0].flags & COMMA or "verb" not in named):
        return clause  # a count: dec every other rnd 6 times, 48 sts
    if "verb" in named:
        named["again"] = []  # repeat 6 more times in this manner dec every other rnd
    elif rounds and rounds[0].kind == "round" and not again:
        named["again"] = words_at(clause[0].start, ("work", "work"))  # no label: Rnd 1 every rnd
    elif rounds and rounds[-1].text == "decreases" and "repeat" in [word.kind for word in again]:
        named["again"] = [replace(again[0], kind="work", text="work")]
    made = [word for name in _ORDER for word in named.get(name, []) if word.kind not in _BRACKETS]
    first, *others = made
    return [
        replace(first, flags=clause[0].flags),
        *(replace(word, flags=word.flags & COMMA | SPACE) for word in others),
    ]


def _letter(token: Token) -> str:
    return _TEXTS.get(token.text) or _KINDS.get(token.kind, "?")


def _parts(letters: str) -> Iterator[tuple[str, int, int]]:
    """The parts in these letters, one behind the other: the name of each, where it begins and ends."""
    place = 0
    while part := _PART.match(letters, place):
        place = part.end()
        yield part.lastgroup or "", part.start(), place
