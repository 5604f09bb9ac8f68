"""Plain rounds that stand for all of their sort: `2: knit. (And so for every even round.)`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import (
    AS_THEY_ARE,
    COLON,
    COMMA,
    FULL,
    LINE,
    QUESTION,
    SEMI,
    SPACE,
    STOP,
    Instead,
    Token,
    kinds_at,
    with_others_put,
)


def with_even_rounds(tokens: list[Token]) -> list[Token]:
    """The tokens, with a plain round that others are like as theirs too: `2 and every even round: knit`.

    Takes time in the number of the tokens.
    """
    tokens = with_others_put(tokens, _named_behind_colon)
    made: list[Token] = []
    kept = 0
    for place, token in enumerate(tokens[1:-1], start=1):
        if token.kind not in _SORTS or tokens[place + 1].kind != "round":
            continue
        if (question := _begin_of_question(tokens, place)) >= kept:
            every = Token("all", "all", token.start, token.start, tokens[question].flags)
            made.extend([*tokens[kept:question], every, replace(token, flags=SPACE), tokens[place + 1]])
            made.append(replace(tokens[place + 2], flags=SPACE | COLON))
            kept = place + 3
            continue
        if tokens[place - 1].kind not in _EACH:
            continue
        begin = _begin_of_aside(tokens, place)
        end = _end_of_sort(tokens, place + 2)
        stop = _end_of_aside(tokens, end) if begin > kept else 0
        knit = _plain_before(tokens, begin) if stop else 0
        label = _label_before(tokens, knit) if knit else 0
        if not knit or label < kept or label == knit:
            continue
        at = tokens[knit].start
        every = Token("each", "every", at, at, SPACE)
        sort = [
            every,
            *(replace(named, start=at, end=at, flags=SPACE) for named in tokens[place:end]),
        ]
        made.extend([*tokens[kept:knit], Token("and", "and", at, at, SPACE), *sort])
        made.extend([replace(tokens[knit], flags=tokens[knit].flags | COLON), *tokens[knit + 1 : begin]])
        kept = stop
    return [*made, *tokens[kept:]] if kept else tokens


def _named_behind_colon(tokens: list[Token], place: int) -> Instead:
    """`Row 4: And every other row knit around` as `Row 4 and every other row: knit around`."""
    joint = tokens[place]
    if joint.kind != "and" or not joint.flags & COLON or place < 2:
        return AS_THEY_ARE
    kinds = kinds_at(tokens, place, MOST_NAMED)
    sorts = kinds[: kinds.index("round")] if "round" in kinds else []
    every = not _EACH.isdisjoint(sorts) and not (_SORTS | {"odd"}).isdisjoint(sorts)
    if kinds_at(tokens, place - 2, 2) != ["round", "number"] or not every:
        return AS_THEY_ARE
    named = place + len(sorts)
    work = replace(tokens[named + 1], flags=tokens[named + 1].flags | COLON)
    return named + 2, [replace(joint, flags=SPACE), *tokens[place + 1 : named + 1], work]


MOST_NAMED: Final = 6
"""Words of `and every other row`."""


def _begin_of_question(tokens: list[Token], place: int) -> int:
    """Where a sentence begins that only names the rounds of a sort, which the next one tells; -1 elsewhere.

    `And the even rounds? Knit, every one.` is `All even rounds: knit`, but `Move the marker in even rounds.` is not.
    """
    behind = tokens[place + 2 : place + 4]
    if behind[0].flags & (FULL | LINE) != FULL or not any(token.kind in _PLAIN for token in behind):
        return -1
    for at in range(place, max(-1, place - MOST_OF_PLAIN), -1):
        if tokens[at].kind in _WORKS or not (behind[0].flags & QUESTION or tokens[at].kind in _IN_NAME):
            return -1
        if at == 0 or tokens[at].flags & (FULL | LINE):
            return at
    return -1


def _begin_of_aside(tokens: list[Token], place: int) -> int:
    """Where the sentence or bracket begins that names the rounds of a sort; 0 where it works any itself."""
    for at in range(place - 1, max(0, place - MOST_OF_ASIDE), -1):
        if tokens[at].kind == "(" or tokens[at].flags & _PARTED:
            return at
        if tokens[at].kind in _WORKS:
            return 0
    return 0


def _end_of_sort(tokens: list[Token], begin: int) -> int:
    """Where the words for rounds of a sort end, with the last of them: `every even round up to round 8`."""
    at = begin + (tokens[begin].text == "up")
    if tokens[at].kind != "to":
        return begin
    at += 1
    while tokens[at].kind in _IN_LAST or tokens[at].text == "including":
        at += 1
    if tokens[at].kind not in ("number", "ordinal"):
        return begin
    return at + 1 + (tokens[at + 1].kind == "round" and not tokens[at + 1].flags & (FULL | LINE))


def _end_of_aside(tokens: list[Token], begin: int) -> int:
    """Where it ends, behind its bracket; 0 where more than such words stands in it."""
    for at in range(begin, min(begin + MOST_OF_ASIDE, len(tokens))):
        if tokens[at].kind == ")":
            return at + 1
        if tokens[at].flags & (FULL | LINE):
            return at
        as_this = tokens[at].kind == "knit" and tokens[at].text in ("knit", "knitted")
        as_this = as_this or tokens[at].text == "one"  # like this one
        if tokens[at].flags & (COLON | SEMI) or (tokens[at].kind in _WORKS and not as_this):
            return 0
    return 0


def _plain_before(tokens: list[Token], begin: int) -> int:
    """The place of the `knit` of a plain round that is told before the aside; 0 where another round is."""
    for at in range(begin - 1, max(0, begin - MOST_OF_PLAIN), -1):
        if tokens[at].kind in ("knit", "plain"):
            return at
        if tokens[at].kind not in _IN_PLAIN:
            return 0
    return 0


def _label_before(tokens: list[Token], knit: int) -> int:
    """Where the number of the round begins, at the beginning of a line or a sentence; the place of `knit` without."""
    number = False
    for at in range(knit - 1, max(-1, knit - MOST_OF_LABEL), -1):
        if tokens[at].kind not in ("round", "number", "ordinal"):
            return knit
        number = number or tokens[at].kind != "round"
        if at == 0 or tokens[at].flags & (LINE | FULL):
            return at if number else knit
    return knit


MOST_OF_ASIDE: Final = 9
"""Words on either side of `every even` in a sentence that says no more."""
MOST_OF_PLAIN: Final = 5
"""Words of a plain round: `Knit all sts`."""
MOST_OF_LABEL: Final = 4
"""Words of its number."""
_PLAIN: Final = frozenset(("knit", "purl", "plain"))
_SORTS: Final = frozenset(("even", "alternate"))
_EACH: Final = frozenset(("each", "all", "per", "following"))
_PARTED: Final = FULL | LINE | COMMA | SEMI | STOP
_IN_LAST: Final = frozenset(("", "round", "and"))
_IN_NAME: Final = _SORTS | {"", "all", "and", "each", "in", "then"}
"""Words that only name rounds, in a sentence that is no question."""
_IN_PLAIN: Final = frozenset(("all", "stitch_noun", "end", "", "round"))
_WORKS: Final = frozenset(
    (
        "stitch",
        "purl",
        "slip",
        "number",
        "decrease",
        "increase",
        "stars",
        "together",
        "times",
        "knit",
        "colour",
        "until",
    )
)
"""Kinds of words of a sentence that works rounds itself."""
