"""Whole rounds between stars: `*Dec 1 st before each marker. Work 1 rnd straight.* Rep from * to * 8 times in all`.

Also with the times alone, `*K2tog after each marker. Knit 1 rnd.* 6 times`.
"""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import LINE, SPACE, STOP, Token, words_at
from roundwright.wording.reading.tree import Number


def with_starred_rounds(tokens: list[Token]) -> list[Token]:
    """The tokens, with stars around sentences that end in whole rounds told as `repeat these rounds`.

    Takes time in the number of the tokens: between two stars it looks back once.
    """
    made: list[Token] = []
    kept = 0
    for place in range(2, len(tokens) - 1):
        if tokens[place].kind != "stars":
            continue
        behind: tuple[str, ...] = next((kinds for kinds in _BEHIND if _is_at(tokens, place, kinds)), ())
        begin = _begin_of_rounds(tokens, place) if behind else -1
        rounds = _rounds_between(tokens, begin, place) if begin >= kept else 0
        if not rounds:
            continue
        repeat, *_, last = tokens[place + (behind[1] == "repeat") : place + len(behind)]
        made.extend([*tokens[kept:begin], replace(tokens[begin + 1], flags=tokens[begin].flags)])
        made.extend(tokens[begin + 2 : place])
        made.append(replace(repeat, kind="repeat", flags=repeat.flags | STOP))
        made.extend(words_at(last.start, ("these", "these"), end=last.end))
        made.append(Token("number", str(rounds), last.start, last.end, SPACE, number=Number((rounds,))))
        made.extend(words_at(last.start, ("round", "rounds"), end=last.end))
        kept = place + len(behind)
        if behind[1] != "repeat":
            made.extend(tokens[kept - 2 : kept])
            if tokens[kept].kind not in _COUNTED:
                made.extend(words_at(last.start, ("total", "in all"), end=last.end))
    return [*made, *tokens[kept:]] if kept else tokens


def _is_at(tokens: list[Token], place: int, kinds: tuple[str, ...]) -> bool:
    """Whether tokens of these kinds begin at a place."""
    return tuple(token.kind for token in tokens[place : place + len(kinds)]) == kinds


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


def _rounds_between(tokens: list[Token], begin: int, end: int) -> int:
    """How many rounds the sentences between two stars are; 0 where a size has a number of its own."""
    total = 0
    for place in range(begin + 1, end):
        token = tokens[place]
        if place == begin + 1 or token.flags & STOP:
            total += 1
        if token.kind == "round" and tokens[place - 1].kind == "number":
            number = tokens[place - 1].number
            if number is None or len(number.values) != 1:
                return 0
            total += (number.values[0] or 1) - 1
    return total


_BEHIND: Final = (
    ("stars", "repeat", "from", "stars", "to", "stars"),
    ("stars", "number", "times"),
    ("stars", "work", "number", "times"),
    ("stars", "work", "these", "number", "times"),
)
"""The star behind the rounds, with `repeat from * to *` or the times alone."""
_COUNTED: Final = frozenset(("total", "more"))
