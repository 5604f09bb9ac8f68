"""Whole rounds between stars: `*Dec 1 st before each marker. Work 1 rnd straight.* Rep from * to * 8 times in all`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import LINE, SPACE, STOP, Token


def with_starred_rounds(tokens: list[Token]) -> list[Token]:
    """The tokens, with stars around sentences that end in whole rounds told as `repeat these rounds`.

    Takes time in the number of the tokens: between two stars it looks back once.
    """
    made: list[Token] = []
    kept = 0
    for place in range(2, len(tokens) - len(_BEHIND)):
        if tuple(token.kind for token in tokens[place : place + len(_BEHIND)]) != _BEHIND:
            continue
        begin = _begin_of_rounds(tokens, place)
        if begin < kept:
            continue
        repeat, *_, last = tokens[place + 1 : place + len(_BEHIND)]
        made.extend([*tokens[kept:begin], replace(tokens[begin + 1], flags=tokens[begin].flags)])
        made.extend([*tokens[begin + 2 : place], replace(repeat, flags=repeat.flags | STOP)])
        made.extend(Token(kind, text, last.start, last.end, SPACE) for kind, text in _ROUNDS)
        kept = place + len(_BEHIND)
    return [*made, *tokens[kept:]] if kept else tokens


def _begin_of_rounds(tokens: list[Token], end: int) -> int:
    """The star that begins sentences of which the last, before the star at `end`, has a round; -1 where none does."""
    rounds = stop = False
    for place in range(end - 1, -1, -1):
        token = tokens[place]
        if token.kind == "stars":
            return place if stop and place + 2 < end else -1
        if token.flags & LINE:
            return -1
        rounds = rounds or (token.kind == "round" and not stop)
        if token.flags & STOP and tokens[place - 1].kind != "stars":
            if not (rounds or stop):
                return -1
            stop = True
    return -1


_BEHIND: Final = ("stars", "repeat", "from", "stars", "to", "stars")
"""The star behind the rounds, and `repeat from * to *`."""
_ROUNDS: Final = (("these", "these"), ("round", "rounds"))
