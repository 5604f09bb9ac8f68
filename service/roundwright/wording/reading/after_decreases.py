"""Decreases told by what comes after each: `After the first (84 sts) knit 2 rounds, after the second (72) too`."""

from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    LINE,
    MOST_AHEAD,
    SEMI,
    SPACE,
    STOP,
    Token,
    words_at,
)
from roundwright.wording.reading.tree import Number


class _Clause(NamedTuple):
    """How many ordinals a clause has, the counts in brackets behind them, whether it names decreases, and its end."""

    ordinals: int
    counts: list[list[Token]]
    named: bool
    stop: int


def with_decreases_after(tokens: list[Token]) -> list[Token]:
    """The words, with each of those as `Work 1 dec round (84 sts). Knit 2 rounds.` Takes time in their number.

    Only behind the sentence that tells a decrease round under its name, before any other work, and where each has its
    count.
    """
    kinds = [token.kind for token in tokens]
    names = range(1, len(tokens) - 1)
    first = next((at for at in names if kinds[at - 1 : at + 1] == _NAME and tokens[at + 1].flags & COLON), 0)
    begins = next((at for at in range(first + 2, len(tokens) - 1) if tokens[at].flags & (STOP | LINE)), 0)
    if not first or not begins:
        return tokens
    padded, made = [*tokens, *tokens[-1:] * MOST_AHEAD], list[Token]()
    done, plain = 0, list[Token]()
    for place in range(begins, len(tokens) - 1):
        if not made and kinds[place] in _WORKS:
            return tokens
        if place < done or not (tokens[place].flags & _PARTS or kinds[place] == "and"):
            continue
        begin = place + (kinds[place] == "and")
        after = padded[begin].kind == "after"
        clause = _clause(padded, begin + after)
        end = next((at for at in range(clause.stop, clause.stop + MOST_WORDS) if _ends(padded, at)), place)
        behind = padded[clause.stop : end]
        if after and clause.ordinals == len(clause.counts) and (plain or clause.named):
            if not _SAME.issuperset(token.kind for token in behind):
                plain = behind
            words = [word for count in clause.counts for word in (*_rounds(tokens[place], 1), *count, *plain)]
        elif plain and clause.named and clause.ordinals and padded[end].flags & COLON:
            words = _rounds(tokens[place], clause.ordinals)
        else:
            continue
        plain = [replace(plain[0], flags=STOP | SPACE), *plain[1:]] if plain else []
        made += [*tokens[done:place], *words]
        done = end
    return [*made, *tokens[done:]]


def _clause(tokens: list[Token], begin: int) -> _Clause:
    """The ordinals that stand there: `the third (60) and the fourth decrease (48)`."""
    ordinals, counts, named, at = 0, list[list[Token]](), False, begin
    while tokens[at].kind in _IN_CLAUSE and at < begin + MOST_WORDS:
        if at > begin and tokens[at].flags & (STOP | LINE | COLON):
            break
        stop = at
        if tokens[at].kind == "(":
            stop = next((to for to in range(at, at + MOST_IN_COUNT) if tokens[to].kind == ")"), at)
            counts.append(tokens[at : stop + 1])
        ordinals += tokens[at].kind in ("ordinal", "number")
        named = named or tokens[at].kind == "decrease"
        at = stop + 1
    return _Clause(ordinals, counts, named, at)


def _ends(tokens: list[Token], at: int) -> bool:
    """Whether a clause ends there."""
    joined = tokens[at].kind == "and" and tokens[at + 1].kind == "after"
    return bool(tokens[at].flags & (STOP | LINE | SEMI | COLON)) or tokens[at].kind == "after" or joined


def _rounds(first: Token, number: int) -> list[Token]:
    """`Work 3 dec rounds`."""
    words = words_at(first.start, ("work", "work"), ("number", ""), ("decrease", "dec"), ("round", "rounds"))
    words[0] = replace(words[0], flags=STOP | SPACE)
    words[1] = replace(words[1], number=Number((number,)))
    return words


_NAME: Final = ["decrease", "round"]
_PARTS: Final = STOP | LINE | SEMI | COMMA
_IN_CLAUSE: Final = frozenset(("", "and", "ordinal", "number", "decrease", "round", "("))
_WORKS: Final = frozenset(("knit", "purl", "plain", "work", "stitch", "stars"))
_SAME: Final = frozenset(("", "as", "same", "word", "manner"))
"""Kinds of the words of `the same`, `too`."""
MOST_WORDS: Final = 16
"""Words of such a clause behind its ordinals."""
MOST_IN_COUNT: Final = 5
"""Words of a count in a bracket."""
