"""Clauses of a crown that are told in other words: `At 14 sts, work only k2tog: 7` is `At 14 sts, k2tog around: 7`."""

from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.tokens import (
    AS_THEY_ARE,
    COLON,
    COMMA,
    DASH,
    EQUALS,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Instead,
    Token,
    with_others_put,
    words_at,
)
from roundwright.wording.reading.tree import ONE


def with_crown_clauses(tokens: list[Token]) -> list[Token]:
    """The words, with such clauses told as others are. Takes time in their number."""
    return with_others_put(tokens, _instead)


def _instead(tokens: list[Token], place: int) -> Instead:
    """What a rule tells in place of the words from a place."""
    for rule in (_around, _fewer, _in_all, _repeated, _middle):
        stop, words = rule(tokens, place)
        if stop:
            return stop, words
    return AS_THEY_ARE


def _around(tokens: list[Token], place: int) -> Instead:
    """`14 sts, work only k2tog: 7` as `14 sts, k2tog around: 7`: a decrease at a count, with a count or `only`."""
    if place < COUNTED or tokens[place].kind == "decrease" or not _shapes(tokens[place]):
        return AS_THEY_ARE
    at = place
    while tokens[at - 1].kind in ("", "work", "then") or tokens[at - 1].text in _ONLY:
        if tokens[at].flags & COMMA or at <= COUNTED:
            break
        at -= 1
    only = not _ONLY.isdisjoint(token.text for token in tokens[at:place])
    head = at - 1 - (tokens[at - 1].kind in ("remain", "left"))
    kinds = [token.kind for token in tokens[head - 1 : head + 1]]
    behind = tokens[place + 1]
    counted = tokens[place + 1 + (behind.kind == "(")].kind == "number"
    counted &= bool(behind.flags & (COLON | EQUALS)) or behind.kind == "("
    ends = counted or (only and bool(behind.flags & (STOP | LINE)))
    if not tokens[at].flags & COMMA or kinds != ["number", "stitch_noun"] or not ends:
        return AS_THEY_ARE
    begin = next((word for word in range(head - 1, 0, -1) if tokens[word].flags & (STOP | LINE)), 0)
    if any(token.kind not in _TO_COUNT for token in tokens[begin : head - 1]):
        return AS_THEY_ARE  # knit to last 2 sts, ssk
    return place + 1, [tokens[place], *words_at(tokens[place].end, ("around", "around"))]


def _fewer(tokens: list[Token], place: int) -> Instead:
    """`omitting 2 sts between the decreases` as `with 2 fewer sts between the decreases`."""
    at = place + 1 + (tokens[place].text == "leaving" and tokens[place + 1].text == "out")
    if tokens[place].text not in _OMITTING and at == place + 1:
        return AS_THEY_ARE
    number = at
    while tokens[number].kind in ("each", "times"):
        number += 1
    if tokens[number].kind != "number":
        return AS_THEY_ARE
    behind = number + 1
    while tokens[behind].kind in ("knit", "plain", "stitch_noun"):
        behind += 1
    if tokens[behind].kind not in ("between", "before") or tokens[behind - 1].kind != "stitch_noun":
        return AS_THEY_ARE
    first, fewer = words_at(tokens[place].start, ("", "with"), ("fewer", "fewer"))
    return number + 1, [replace(first, flags=tokens[place].flags), tokens[number], fewer]


def _in_all(tokens: list[Token], place: int) -> Instead:
    """`1 st remains per marker, 8 in all` as `8 sts left`."""
    number = tokens[place].number
    if number is None or number.values != (1,) or tokens[place + 1].kind != "stitch_noun":
        return AS_THEY_ARE
    at = place + 2 + (tokens[place + 2].kind in ("remain", "left"))
    if tokens[at].kind != "persection":
        begin = at
        while tokens[at].kind in ("per", "between", "before", "each", ""):
            at += 1
        if at == begin or tokens[at].kind not in _PARTS:
            return AS_THEY_ARE
    at += 1
    while tokens[at].kind in ("", "these", "have", "("):
        at += 1
    total = at + 1 + (tokens[at + 1].kind == "stitch_noun")
    if tokens[at].kind != "number" or tokens[total].kind != "total":
        return AS_THEY_ARE
    closes = tokens[total + 1].kind == ")" and any(token.kind == "(" for token in tokens[place:at])
    begins = tokens[place].flags & (STOP | LINE)
    left = words_at(tokens[total].end, ("left", "left")) if begins else ()
    return total + 1 + closes, [replace(tokens[at], flags=tokens[place].flags), tokens[place + 1], *left]


def _repeated(tokens: list[Token], place: int) -> Instead:
    """`Work it 3 more times, each after a plain round` as `repeat the dec rnd`, where plain rounds are told beside."""
    first = tokens[place]
    if place < COUNTED or not first.flags & (STOP | LINE | SEMI | COLON):
        return AS_THEY_ARE
    at = place + (first.kind in ("repeat", "work", "manner"))
    at += at > place and (tokens[at].kind == "these" or tokens[at].text in _POINTING)
    named = tokens[at].kind == "decrease"
    stop = at + named
    stop += named and first.kind in ("repeat", "work") and tokens[stop].kind == "round"
    pointed = tokens[at - 1].text in _POINTING or tokens[at].kind in ("number", "often")
    if not (named or (pointed and at > place)):
        return AS_THEY_ARE
    words = [*_sentence(tokens, stop)]
    often = [word.kind in ("times", "often") for word in words]
    if True not in often or tokens[stop].kind in ("round", "each", "per"):
        return AS_THEY_ARE
    behind = words[often.index(True) :]
    rounds = [token.kind == "round" for token in behind]
    beside = any(token.kind in ("before", "after", "between") or token.text == "preceded" for token in behind)
    shaped = named or any(map(_shapes, tokens[max(0, place - MOST_BEFORE) : place]))
    if not beside or True not in rounds or not shaped or any(map(_changes, words)):
        return AS_THEY_ARE
    again, *others = words_at(first.start, ("repeat", "repeat"), ("decrease", "dec"), ("round", "round"))
    made = [replace(again, flags=first.flags), *others]
    at = often.index(True) + 1 + rounds.index(True)
    kinds = [token.kind for token in words]
    if "after" in kinds[at:] or not {"more", "total"}.intersection(kinds):
        return stop, made  # plain rounds after each
    times = words[: often.index(True) + 1 + (behind[1:2] != [] and behind[1].kind == "total")]
    if kinds[0] == "until":  # until it is worked 4 times in all
        times = times[next((place for place, kind in enumerate(kinds) if kind == "number"), 0) :]
    word = next(word for word in reversed(words[: at - 1]) if word.kind not in ("plain", "knit", "even"))
    if word.kind != "number" and word.text not in _SINGLE:
        return AS_THEY_ARE  # with no plain rounds between
    end = next((place for place in range(at + 1, len(words)) if words[place].flags & _ENDS), len(words))
    single = Token("number", "1", words[at - 1].end, words[at - 1].end, SPACE, number=ONE)
    plain = (
        *words_at(words[at - 1].end, ("", "with")),
        replace(word if word.kind == "number" else single, flags=SPACE),
    )
    between = words_at(words[at - 1].end, ("plain", "plain"), ("round", "rounds"), ("between", "between"))
    return stop + end, [*made, *times, *plain, *between]


def _middle(tokens: list[Token], place: int) -> Instead:
    """`at the beginning and in the middle of each needle` as `at the beginning and end`, which takes as many."""
    near = tokens[place : place + MOST_TO_MIDDLE]
    middle = next((at for at, token in enumerate(near) if token.text == "middle"), 0)
    if near[0].kind != "begin" or not middle or any(token.kind not in _TO_MIDDLE for token in near[1:middle]):
        return AS_THEY_ARE
    return place + middle + 1, [near[0], *words_at(near[middle].start, ("and", "and"), ("end", "end"))]


MOST_OF_SENTENCE: Final = 60
"""Words of a sentence that repeats decreases."""


def _sentence(tokens: list[Token], begin: int) -> list[Token]:
    """The words from a place to the end of the sentence."""
    behind = range(begin, min(begin + MOST_OF_SENTENCE, len(tokens)))
    stop = next((at for at in behind if at > begin and tokens[at].flags & (STOP | LINE)), behind.stop)
    return tokens[begin:stop]


def _shapes(token: Token) -> bool:
    """Whether it decreases."""
    uses, leaves = uses_and_leaves().get(token.means, (0, 0))
    return uses > leaves or token.kind == "decrease"


def _changes(token: Token) -> bool:
    """Whether it tells how a round differs, or works stitches."""
    return token.kind in ("fewer", "less", "stitch", "together", "evenly", "stars")


COUNTED: Final = 3
"""Words before a decrease at a count, at least: `14 sts, k2tog`."""
MOST_BEFORE: Final = 60
"""Words in which decreases are told before `work it again`."""
MOST_TO_MIDDLE: Final = 6
"""Words of `beginning and in the middle`."""
_TO_COUNT: Final = frozenset(("", "have", "often", "word", "when"))
_SINGLE: Final = frozenset(("a", "an", "single"))
_TO_MIDDLE: Final = frozenset(("and", "in", ""))
_ENDS: Final = COLON | COMMA | EQUALS | SEMI | STOP | DASH
_ONLY: Final = frozenset(("only", "nothing", "but", "just", "nothing but"))
_OMITTING: Final = frozenset(("omit", "omitting", "dropping", "removing", "subtracting", "losing"))
_PARTS: Final = frozenset(("marker", "section", "needle"))
_POINTING: Final = frozenset(("it", "this", "the"))
