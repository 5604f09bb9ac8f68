"""A word of a text, and the signs that stand before it."""

from collections.abc import Callable, Mapping
from typing import Final

from msgspec import Struct

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.tree import Number

COMMA: Final = 1
SEMI: Final = 2
DASH: Final = 4
EQUALS: Final = 8
STOP: Final = 16
COLON: Final = 32
LINE: Final = 64
BLANK: Final = 128
SPACE: Final = 256
TAB: Final = 512
BULLET: Final = 1024
FULL: Final = 2048
SLASH: Final = 4096
THEN: Final = 8192
"""Before a phrase: `then` stands before it."""
BROKEN: Final = 16384
"""Of a phrase in two words: the end of a printed line stands before its last."""
QUESTION: Final = 32768
COUNT_WORDS: Final = frozenset(("", "have", "number", "stitch_noun", "remain", "left"))
"""Kinds of the words that tell a count: `you have 48 sts left`."""


class Token(Struct, frozen=True, gc=False):
    """A word, number, star or bracket of the text.

    - `kind`: as in the word list; `number`, `range`, `ordinal`, `decimal`, `ratio`, `cable`, `stars`, `(`, `)`, `word`
    - `text`: folded; `start`, `end`: where it stands in the text
    - `flags`: what stands before it
    - `means`: the stitch of a stitch word
    - `number`: of a number, or the first and last of a range
    """

    kind: str
    text: str
    start: int
    end: int
    flags: int
    means: str = ""
    number: Number | None = None


def takes_in(token: Token) -> bool:
    """Whether it is a stitch that leaves fewer than it uses: `k2tog`."""
    uses, leaves = uses_and_leaves().get(token.means, (0, 0))
    return uses > leaves


def words_at(start: int, *words: tuple[str, str], end: int | None = None) -> list[Token]:
    """Words that are not printed, of these kinds and texts, put in at a place of the text, or for what stands there."""
    return [Token(kind, text, start, start if end is None else end, SPACE) for kind, text in words]


Instead = tuple[int, list[Token]]
"""Where words end, and those to put in their place."""
AS_THEY_ARE: Final[Instead] = (0, [])
Rule = Callable[[list[Token], int], Instead]
"""What tells the words to put in place of those from a place on, if any."""


def of_kind(rules: Mapping[str, tuple[Rule, ...]], tokens: list[Token], place: int) -> Instead:
    """What the first of the rules for words of that kind tells there, of those that tell anything."""
    for rule in rules.get(tokens[place].kind, ()):
        if (instead := rule(tokens, place))[0]:
            return instead
    return AS_THEY_ARE


def kinds_at(tokens: list[Token], begin: int, number: int) -> list[str]:
    """The kinds of so many words from a place on; fewer at the end."""
    return [token.kind for token in tokens[begin : begin + number]]


def with_others_put(tokens: list[Token], instead: Rule) -> list[Token]:
    """The words, with others in place of those from each place at which `instead` tells some. One pass over them.

    The end of the text stands so often behind them that `instead` may look some words ahead from any place.
    """
    made: list[Token] = []
    done = 0
    padded = [*tokens, *tokens[-1:] * MOST_AHEAD]
    for place in range(len(tokens)):
        stop, words = instead(padded, place) if place >= done else AS_THEY_ARE
        if stop > place:
            made.extend((*tokens[done:place], *words))
            done = stop
    return [*made, *tokens[done:]] if done else tokens


MOST_AHEAD: Final = 24
"""Words that are looked at ahead of a place."""
