"""Clauses of a crown that are told in other words: `At 14 sts, work only k2tog: 7` is `At 14 sts, k2tog around: 7`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.same_with import decrease_round_again
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
    takes_in,
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
    begin = head - 1
    while begin and not tokens[begin].flags & (STOP | LINE) and tokens[begin - 1].kind in _TO_COUNT:
        begin -= 1
    if begin and not tokens[begin].flags & (STOP | LINE):
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
    if any(token.kind in ("last", "ordinal") for token in tokens[behind + 1 : behind + 3]):
        return AS_THEY_ARE  # before the first decrease alone
    first, fewer = words_at(tokens[place].start, ("", "with"), ("fewer", "fewer"))
    return number + 1, [replace(first, flags=tokens[place].flags), tokens[number], fewer]


def _in_all(tokens: list[Token], place: int) -> Instead:
    """`1 st remains per marker, 8 in all` as `8 sts left`."""
    number = tokens[place].number
    if number is None or number.values != (1,) or tokens[place + 1].kind != "stitch_noun":
        return AS_THEY_ARE
    if tokens[place - 1].kind in ("knit", "work"):
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
    """`Work it 3 more times, each after a plain round` as `Repeat the dec rnd 3 more times with 1 plain round between`.

    Plain rounds between two decrease rounds that are repeated stand before the first of them as well.
    """
    stop, named = _behind_again(tokens, place)
    if not stop:
        return AS_THEY_ARE
    words = _sentence(tokens, stop)
    kinds = [token.kind for token in words]
    often = next((at + 1 for at, kind in enumerate(kinds) if kind in ("times", "often")), 0)
    often += kinds[often : often + 1] == ["total"]
    number, end = _plain_between(words[often:]) if often else (None, 0)
    shaped = named or any(map(_shapes, tokens[max(0, place - MOST_BEFORE) : place]))
    if number is None or not shaped or any(map(_changes, words)):
        return AS_THEY_ARE
    # until it is worked 4 times in all
    begin = kinds.index("number") if kinds[0] == "until" and "number" in kinds[:often] else 0
    again, *others = decrease_round_again(tokens[place].start)
    between = words_at(number.end, ("plain", "plain"), ("round", "rounds"), ("between", "between"))
    made = [replace(again, flags=tokens[place].flags), *others, *words[begin:often]]
    return stop + often + end, [*made, *words_at(number.start, ("", "with")), number, *between]


def _behind_again(tokens: list[Token], place: int) -> tuple[int, bool]:
    """The place behind `work it`, `repeat the decrease round`, 0 for others, and whether the decrease is named."""
    first = tokens[place]
    if place < COUNTED or not first.flags & (STOP | LINE | SEMI | COLON):
        return 0, False
    at = place + (first.kind in ("repeat", "work", "manner"))
    at += at > place and (tokens[at].kind == "these" or tokens[at].text in _POINTING)
    named = tokens[at].kind == "decrease"
    stop = at + named
    stop += named and first.kind in ("repeat", "work") and tokens[stop].kind == "round"
    pointed = at > place and (tokens[at - 1].text in _POINTING or tokens[at].kind in ("number", "often"))
    other = tokens[stop].kind in ("round", "each", "per")
    return (stop if (named or pointed) and not other else 0), named


def _plain_between(words: list[Token]) -> tuple[Token | None, int]:
    """The number of plain rounds told there, `each after a plain round`, and the place behind them; None for others."""
    kinds = [token.kind for token in words]
    if "round" not in kinds:
        return None, 0
    at = kinds.index("round")
    end = next((place for place in range(at + 1, len(words)) if words[place].flags & _ENDS), len(words))
    always = any(token.kind in _ALWAYS or token.text in _ALWAYS for token in words[:end])
    if not (always and _NOT_AHEAD.isdisjoint(kinds[:at]) and _NOT_BEHIND.isdisjoint(kinds[at + 1 : end])):
        return None, 0
    number = next((word for word in reversed(words[:at]) if word.kind not in _PLAIN), words[at])
    if number.text in _SINGLE:
        number = replace(number, kind="number", text="1", number=ONE)
    return (replace(number, flags=SPACE) if number.kind == "number" else None), end


def _middle(tokens: list[Token], place: int) -> Instead:
    """`at the beginning and in the middle of each needle` as `at the beginning and end`, which takes as many."""
    near = tokens[place : place + MOST_TO_MIDDLE]
    middle = next((at for at, token in enumerate(near) if token.text == "middle"), 0)
    kinds = {token.kind for token in near[1:middle]}
    if near[0].kind != "begin" or "and" not in kinds or not _TO_MIDDLE.issuperset(kinds):
        return AS_THEY_ARE
    return place + middle + 1, [near[0], *words_at(near[middle].start, ("and", "and"), ("end", "end"))]


def _sentence(tokens: list[Token], begin: int) -> list[Token]:
    """The words from a place to the end of the sentence."""
    behind = range(begin, min(begin + MOST_OF_SENTENCE, len(tokens)))
    stop = next((at for at in behind if at > begin and tokens[at].flags & (STOP | LINE)), behind.stop)
    return tokens[begin:stop]


def _shapes(token: Token) -> bool:
    """Whether it decreases."""
    return takes_in(token) or token.kind == "decrease"


def _changes(token: Token) -> bool:
    """Whether it tells how a round differs, or works stitches."""
    return token.kind in ("fewer", "less", "stitch", "together", "evenly", "stars")


COUNTED: Final = 3
"""Words before a decrease at a count, at least: `14 sts, k2tog`."""
MOST_BEFORE: Final = 60
"""Words in which decreases are told before `work it again`."""
MOST_OF_SENTENCE: Final = 60
"""Words of a sentence that repeats decreases."""
MOST_TO_MIDDLE: Final = 6
"""Words of `beginning and in the middle`."""
_TO_COUNT: Final = frozenset(("", "have", "often", "word", "when"))
_ALWAYS: Final = frozenset(("between", "each", "per", "always", "preceded"))
"""What says that plain rounds are worked each time."""
_PLAIN: Final = frozenset(("plain", "knit", "even"))
_NOT_AHEAD: Final = frozenset(("and", "before", "last", "ordinal", "stitch_noun", "then"))
"""Kinds of words before a number of rounds that is not of plain rounds before each decrease."""
_NOT_BEHIND: Final = frozenset(("after", "ordinal", "round"))
"""Those behind it."""
_SINGLE: Final = frozenset(("a", "an", "single"))
_TO_MIDDLE: Final = frozenset(("and", "in", ""))
_ENDS: Final = COLON | COMMA | EQUALS | SEMI | STOP | DASH
_ONLY: Final = frozenset(("only", "nothing", "but", "just", "nothing but"))
_OMITTING: Final = frozenset(("omit", "omitting", "dropping", "removing", "subtracting", "losing"))
_PARTS: Final = frozenset(("marker", "section", "needle"))
_POINTING: Final = frozenset(("it", "this", "the"))
