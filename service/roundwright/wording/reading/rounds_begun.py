"""The round that each size begins with, told in one sentence or list: `Begin with Rnd 3 for size S, 1 for L`."""

from collections.abc import Mapping
from itertools import pairwise
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.sizes import by_place, columns_of, with_letters
from roundwright.wording.reading.tokens import COLON, FULL, LINE, SEMI, SPACE, Token
from roundwright.wording.reading.tree import Number

_Values = tuple[int | None, ...]
"""The round that each size begins with; None where it is not told."""


class _Named(Struct, frozen=True):
    """A round that is named at `begin`, up to before `end`, and the number that a size begins with."""

    begin: int
    end: int
    number: int


def with_rounds_begun(tokens: list[Token], names: Mapping[str, int], width: int) -> list[Token]:
    """The tokens of several sizes, with such sentences as `begin at rnd 3 (1)`. Takes time in their number."""
    if width == 1:
        return tokens
    known = {**by_place(width), **with_letters(names)}
    made: list[Token] = []
    kept = 0
    for place, token in enumerate(tokens):
        if token.text not in _BEGINNING or place < kept:
            continue
        if token.text == "from" and not _works_from(tokens, place):
            continue
        begin, stop = _begin_of_sentence(tokens, place, kept), _end_of_sentence(tokens, place)
        rounds = _rounds(tokens, begin, stop, skips=token.text in _SKIPS)
        if not rounds or any(_works(tokens, at) for at in range(begin, rounds[-1].end)):
            continue
        first, end = place, _end_of_list(tokens, rounds, stop)
        values: _Values = () if token.text in _SKIPS else _of_sizes(tokens, rounds, width)
        if not values:
            first, end = begin, stop
            alone = (
                len(rounds) == 1 and token.kind == "begin"
            )  # `Size S: begin at Rnd 3` is read as it stands
            values = () if alone else _of_named(tokens, (begin, stop), rounds, known, width)
        if not values:
            continue
        if (
            kept == first and made and (before := made[-1].number) is not None
        ):  # Size S: skip Rnd 1. Size M: ...
            values = tuple(
                before.of(column) if value is None else value for column, value in enumerate(values)
            )
            del made[-WORDS_OF_BEGINNING:]
        made.extend(tokens[kept:first])
        made.extend(_begin_at(tokens[first], tokens[end - 1], values))
        kept = end
    return [*made, *tokens[kept:]] if kept else tokens


def _works(tokens: list[Token], at: int) -> bool:
    """Whether a word works rounds itself; the stitches of a size in a bracket do not: `for size S (64 sts)`."""
    return tokens[at].kind in _WORKS and not _is_counted(tokens, at)


def _is_counted(tokens: list[Token], at: int) -> bool:
    """Whether the stitches of `(64 sts)` stand here."""
    kinds = [token.kind for token in tokens[max(0, at - 2) : at + 2]]
    return kinds == ["(", "number", "stitch_noun", ")"]


def _works_from(tokens: list[Token], place: int) -> bool:
    """Whether `work from` stands here before a round: `Work from Rnd 3 (1) on`."""
    if not place or place + 1 >= len(tokens):
        return False
    return tokens[place - 1].kind == "work" and tokens[place + 1].kind == "round"


def _begin_at(first: Token, last: Token, values: _Values) -> list[Token]:
    """`begin at rnd` with the number of each size, in the place of the tokens from `first` to `last`."""
    start, end = first.start, last.end
    text = " ".join(str(value or "-") for value in values)
    return [
        Token("begin", "begin", start, start, first.flags),
        Token("", "at", start, start, SPACE),
        Token("round", "rnd", start, start, SPACE),
        Token("number", text, start, end, SPACE, "", Number(values, start, end)),
    ]


def _begin_of_sentence(tokens: list[Token], place: int, kept: int) -> int:
    """Where the sentence of a verb begins; no more words of it before the verb than are looked at."""
    first = max(kept, place - MOST_OF_SENTENCE)
    return next((at for at in range(place, first, -1) if tokens[at].flags & (FULL | LINE)), first)


def _end_of_sentence(tokens: list[Token], place: int) -> int:
    """Where the sentence of a verb ends, with the list below it: `Begin at:` with a line for each size."""
    stop = place + 1
    limit = min(place + MOST_OF_SENTENCE, len(tokens) - 1)
    while stop < limit and not tokens[stop].flags & (FULL | LINE):
        stop += 1
    if stop - place > MOST_TO_LIST or any(token.kind == "round" for token in tokens[place:stop]):
        return stop
    while stop < limit and tokens[stop].flags & LINE:
        ends = range(stop + 1, min(stop + MOST_IN_LINE + 1, len(tokens)))
        behind = next((at for at in ends if tokens[at].flags & LINE), 0)
        if sum(token.kind == "round" for token in tokens[stop:behind]) != 1:
            break
        stop = behind
    return stop


def _rounds(tokens: list[Token], begin: int, stop: int, *, skips: bool) -> list[_Named]:
    """The rounds that are named in a sentence; of those that are skipped, the one behind."""
    rounds: list[_Named] = []
    for at in range(begin + 1, stop - 1):
        number = tokens[at + 1].number
        if tokens[at].kind != "round" or number is None or tokens[at + 1].kind not in ("number", "range"):
            continue
        end, value = at + 2, number.of(0) or 0
        if skips and tokens[at + 1].kind == "range":
            value = number.values[-1] or 0
        while skips and end + 1 < stop and tokens[end].kind in ("and", "to") and tokens[end + 1].number:
            value = (tokens[end + 1].number or number).of(0) or 0
            end += 2
        behind = skips and tokens[at - 1].text not in ("to", "skip to")
        rounds.append(_Named(at, end, value + behind))
    return rounds


def _end_of_list(tokens: list[Token], rounds: list[_Named], stop: int) -> int:
    """Where the rounds end that are told for every size, with such words behind them as `as follows`."""
    end = rounds[-1].end
    end += tokens[end].kind == ")"
    return stop if all(tokens[at].kind in _WORDS for at in range(end, stop)) else end


def _of_sizes(tokens: list[Token], rounds: list[_Named], width: int) -> _Values:
    """The numbers that are told for every size without its name: `Rnd 3 (Rnd 1)`, `Rnd 3 (1)`; else empty."""
    end = rounds[0].end
    number = tokens[end - 1].number
    if len(rounds) == 1 and number is not None and len(number.values) == width:
        return tuple(value or 1 for value in number.values)
    if len(rounds) != width or tokens[end].kind != "(":
        return ()
    apart = {tokens[at].kind for first, second in pairwise(rounds) for at in range(first.end, second.begin)}
    return tuple(named.number for named in rounds) if apart <= {"(", ")"} else ()


def _of_named(
    tokens: list[Token], sentence: tuple[int, int], rounds: list[_Named], names: Mapping[str, int], width: int
) -> _Values:
    """The numbers of the sizes that are named before each round, or behind it; empty where they are not.

    By names that no list has they are in order: `Rnd 3 for size 0-3 months, Rnd 1 for size 3-6 months`.
    """
    begin, stop = sentence
    ends, begins = [named.end for named in rounds], [named.begin for named in rounds]
    behind = [tokens[first:last] for first, last in zip(ends, [*begins[1:], stop], strict=True)]
    before = [tokens[first:last] for first, last in zip([begin, *ends], begins, strict=False)]
    for sides in (before, behind):
        columns = [_columns(side, names) for side in sides]
        sizes = set[int]().union(*columns)
        if all(columns) and sum(map(len, columns)) == len(sizes):
            by_size = {
                column: named.number for of, named in zip(columns, rounds, strict=True) for column in of
            }
            return tuple(map(by_size.get, range(width)))
    falls = all(first.number > second.number for first, second in pairwise(rounds))
    named_so = any(all(map(_is_for_size, sides)) for sides in (before, behind))
    return tuple(named.number for named in rounds) if len(rounds) == width and falls and named_so else ()


def _is_for_size(words: list[Token]) -> bool:
    """Whether words are `for size 0-3 months` or `for newborn`."""
    return any(word.kind in ("for", "size") for word in words)


def _columns(words: list[Token], names: Mapping[str, int]) -> set[int]:
    """The columns that the words between two rounds name, beside those that belong to the sentence."""
    counts = {at + step for at in range(len(words)) if _is_counted(words, at) for step in (-1, 0)}
    named = [
        replace(word, flags=word.flags & ~(FULL | LINE | COLON | SEMI))
        for at, word in enumerate(words)
        if word.text not in _AROUND and word.kind not in ("(", ")") and at not in counts
    ]
    while named and named[-1].kind == "and":
        named.pop()
    while named and named[0].kind == "and":
        named.pop(0)
    return set(columns_of(named, 0, len(named), names) or ()) if named else set()


WORDS_OF_BEGINNING: Final = 4
"""Words of `begin at rnd 3`, as which it is read."""
MOST_OF_SENTENCE: Final = 60
"""Words of such a sentence or list."""
MOST_TO_LIST: Final = 5
"""Words from the verb to a list below it."""
MOST_IN_LINE: Final = 10
"""Words of a line of such a list."""
_SKIPS: Final = frozenset(("skip", "omit", "skip to", "miss out"))
_VERBS: Final = _SKIPS | frozenset(
    ("begin", "begins", "start", "starts", "starting", "beginning", "begin with", "start with", "starting with",
     "beginning with", "begins with", "starts with", "it begins with")
)  # fmt: skip
_BEGINNING: Final = _VERBS | {"from"}
_AROUND: Final = _VERBS | frozenset(
    ("as", "follows", "here", "below", "at", "with", "on", "from", "the", "crown", "decreases", "shaping", "directly",
     "straight", "by", "working", "then", "to", "should", "will", "can", "you", "knitters", "of")
)  # fmt: skip
"""Words around the names of the sizes."""
_WORDS: Final = frozenset(("work", "", "word", "as", "continue"))
_WORKS: Final = frozenset(
    ("stitch", "knit", "purl", "slip", "stars", "together", "stitch_noun", "unit", "until", "repeat")
)
"""Kinds of words of a sentence that works rounds itself."""
