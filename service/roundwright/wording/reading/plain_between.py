"""Decrease rounds told by their plain stitches alone: `With 7 sts between decreases: 64, with 6 before (56)`.

Every number becomes a sentence of its own, `Repeat the decrease round with k7`; in the first such round of a text,
`*k7, k2tog* around`. Where it only describes the decreases told before it in the sentence, it is left out.
"""

from itertools import pairwise
from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright.wording.reading.same_with import plain_rounds, round_with
from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    DASH,
    EQUALS,
    FULL,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Token,
    takes_in,
    words_at,
)
from roundwright.wording.reading.tree import NOTHING, ONE


class _Clause(NamedTuple):
    """The numbers of plain stitches that a clause tells, the place behind its words, and what stands before it.

    `begin`: where the words begin that tell the plain rounds before each of its rounds; `even`: these rounds.
    """

    numbers: list[Token]
    stop: int
    begin: int
    even: list[Token]


def with_plain_between(tokens: list[Token]) -> list[Token]:
    """The words, with such rounds told one by one. Takes time in their number."""
    tokens, made = [*tokens], list[Token]()
    done = series = 0
    even: list[Token] = []
    shaped = worked = False
    for place, token in enumerate(tokens[:-1]):
        if place < done:
            continue
        clause = _clause(tokens, place, done, series) if shaped or token.kind == "decrease" else None
        if clause is None:
            worked = worked or takes_in(token) or token.kind == "together"
            shaped = shaped or worked or token.kind == "decrease"
            made.append(token)
            continue
        del made[len(made) - (place - clause.begin) :]
        if place >= series or any(word.kind == "round" for word in tokens[done:place]):
            even = clause.even
        for number in clause.numbers:
            again = worked and number.number != NOTHING
            made.extend((*even, *(round_with(number) if again else _round_of(number))))
            worked = True
        behind, done = tokens[clause.stop], clause.stop
        if clause.numbers and behind.kind == "until":  # no more than a count: all rounds are told
            behind = replace(behind, kind="have", text="you have")
        if behind.flags & COMMA or behind.kind in _JOINTS:
            behind = replace(behind, flags=behind.flags | STOP)
        tokens[done] = behind
        series = done + MOST_BETWEEN
    return [*made, *tokens[max(done, len(tokens) - 1) :]]


def _clause(tokens: list[Token], place: int, done: int, series: int) -> _Clause | None:
    """The numbers that a clause tells; None where it tells anything else, or only describes the round before it.

    `done`: the place behind the last clause; `series`: where the words end in which it may go on.
    """
    in_series = place < series or tokens[place - 1].kind == ")"
    if not _begins(tokens, place, done, in_series=in_series):
        return None
    at, opened = _opening(tokens, place)
    knits = (
        (at == place or in_series or ("with" in opened and not opened.isdisjoint(_IN_LISTS)))
        and tokens[at].kind == "knit"
        and tokens[at + 1].kind == "number"
    )
    numbers, behind = _numbers(tokens, at + knits)
    values = [value for number in numbers for value in (number.number or ONE).values]
    if len(numbers) < 1 + bool(opened & _EACH) or None in values:
        return None
    if len(numbers) > 1 and _is_of_several_rounds(tokens, place):
        return None
    where, named = _behind_where(tokens, behind)
    counted = _is_counted(tokens, where)
    rest = where == behind and (
        (knits and not in_series)  # rep 7 times, then with k8
        or (tokens[where].kind in _LEFT and not tokens[where].flags & _PARTS)  # with 7 sts left: 64
    )
    ends = counted or _ends(tokens, where) or (tokens[where].kind == "until" and len(numbers) > 1)
    if rest or not ends or _tells_rhythm(tokens, where):
        return None
    aside = bool(tokens[place].flags & (COMMA | COLON)) and _told_before(tokens, place)
    described = aside and not opened & _ONWARD
    if named and described and not in_series:
        return _Clause([], where, place, [])  # dec 8 sts evenly, with 8 sts between decreases
    small = all((value or 0) <= MOST_PLAIN for value in values)
    sure = named or ("with" in opened and counted and (where > behind or small))
    going_on = in_series and (
        counted or (where > behind and NOTHING not in [word.number for word in numbers])
    )
    even = _even_before(tokens, place, done, where) if going_on or (sure and not described) else None
    return _Clause(numbers, where, *even) if even else None


def _begins(tokens: list[Token], place: int, done: int, *, in_series: bool) -> bool:
    """Whether a clause begins at a place: not at the count of the last clause, nor in the middle of a list."""
    token, before = tokens[place], tokens[place - 1].kind if place else ")"
    if token.kind == "number" and 0 < place == done and token.flags & (COLON | EQUALS):
        return False
    listed = tokens[place - 1 - (before == "and")].kind == token.kind == "number"
    if listed and not in_series and not token.flags & ~(COMMA | SPACE):
        return False
    return before in (")", *_JOINTS) or bool(token.flags & _PARTS)


def _opening(tokens: list[Token], place: int) -> tuple[int, set[str]]:
    """The place behind the words with which a clause opens, `the same with`, and these words or their kinds."""
    at, opened = place, set[str]()
    while at < place + MOST_OPENING and (tokens[at].kind in _OPENING or tokens[at].text in _OPENING_WORDS):
        if at > place and tokens[at].flags & _PARTS:
            break
        opened.add(tokens[at].text if tokens[at].text in _OPENING_WORDS else tokens[at].kind)
        at += 1
    sure = not opened & _VERBS or tokens[at - 1].text in ("with", "only")
    return (at, opened) if sure else (place, set())


def _behind_where(tokens: list[Token], begin: int) -> tuple[int, bool]:
    """The place behind `before each decrease`, `between them`, and whether decreases are named there."""
    at = begin
    while tokens[at].kind in _BETWEEN or (at > begin and tokens[at].kind in _TO_DECREASE):
        if tokens[at].flags & (_PARTS | EQUALS):
            break
        at += 1
    named = at > begin and tokens[at].kind in _DECREASES and not tokens[at].flags & _PARTS
    at += named
    at += named and tokens[at].kind == "stitch" and not tokens[at].flags & _PARTS  # between decreases k2tog
    while named and tokens[at].kind in _OF_DECREASE and not tokens[at].flags & _PARTS:
        at += 1
    return at, named


def _even_before(tokens: list[Token], place: int, done: int, stop: int) -> tuple[int, list[Token]] | None:
    """Where the words begin that tell the plain rounds before each round of a clause, and these rounds.

    `One plain round before each of these: 6 ...`, `With 2 plain rounds between, decrease first with 9`. The place and
    nothing where none are told; None where they are told in other words.
    """
    begin = place
    while begin > max(done, place - MOST_BETWEEN) and not tokens[begin].flags & (STOP | LINE | SEMI):
        begin -= 1
    words = tokens[begin:place]
    kinds = {token.kind for token in words}
    none = "everyround" in kinds or not _NONE.isdisjoint(word.text for word in words)
    if "round" not in kinds or none:
        return place, []
    if kinds.isdisjoint(_RHYTHMS):
        return None if _leaves_rounds_open(kinds, tokens[stop : stop + MOST_BETWEEN]) else (place, [])
    numbers = [token for token in words if token.kind == "number" or token.text in _SINGLE]
    every = "between" in kinds or not kinds.isdisjoint(_EVERY)
    if len(numbers) != 1 or not every or not _IN_RHYTHM.issuperset(kinds):
        return None
    return begin, plain_rounds(numbers[0].start, numbers[0].number or ONE)


def _leaves_rounds_open(kinds: set[str], behind: list[Token]) -> bool:
    """Whether such words name rounds that may have others between: `Every other round:`, with none told behind."""
    every = not kinds.isdisjoint(_EVERY)
    if every and kinds & {"alternate", "ordinal"} and all(token.kind != "round" for token in behind):
        return True
    several = (every and bool(kinds & {"number", "pattern"})) or kinds >= {"in", "next", "number"}
    return ")" not in kinds and (several or "word" in kinds)


def _is_of_several_rounds(tokens: list[Token], place: int) -> bool:
    """Whether rounds are named in the line before a place: `Rounds 13, 15 and 17: same, with 4, 3 and 2 sts`."""
    for at in range(place, max(-1, place - MOST_BEFORE), -1):
        if (
            tokens[at].kind == "round"
            and tokens[at].text.endswith("s")
            and tokens[at + 1].kind in ("number", "range")
        ):
            return True
        if tokens[at].flags & LINE:
            return False
    return False


def _tells_rhythm(tokens: list[Token], at: int) -> bool:
    """Whether the sentence goes on with plain rounds after each: `..., and knit 1 rnd after each of these rnds`."""
    for token, following in pairwise(tokens[at : at + MOST_BETWEEN]):
        if token.flags & (STOP | LINE) and token is not tokens[at]:
            return False
        if token.kind in ("after", "between") and following.kind in ("each", "all", "these"):
            return True
    return False


def _told_before(tokens: list[Token], place: int) -> bool:
    """Whether decreases or markers are told before a place in its sentence: `dec 8 sts evenly, ...`."""
    for at in range(place - 1, max(-1, place - MOST_BEFORE), -1):
        if tokens[at].kind in ("evenly", "marker"):
            return True
        if tokens[at].kind in _CHANGES and tokens[at + 1].kind == "number" and at + 1 < place:
            return True
        if tokens[at].flags & (STOP | LINE | SEMI):
            return False
    return False


def _numbers(tokens: list[Token], at: int) -> tuple[list[Token], int]:
    """The numbers of plain stitches there, and the place behind them and their nouns: `7, 6, 5 and 4 plain sts`."""
    numbers: list[Token] = []
    if tokens[at].text in _NONE:
        none = replace(tokens[at], kind="number", number=NOTHING)
        at += 1 + (tokens[at + 1].kind == "more")
        return [none], at + (tokens[at].kind in _NOUNS)
    while tokens[at].kind == "number" and not (numbers and tokens[at].flags & ~(COMMA | SPACE)):
        numbers.append(tokens[at])
        at += 1
        while tokens[at].kind in _NOUNS and not tokens[at].flags & _PARTS:
            at += 1
        if tokens[at].flags & (STOP | LINE | SEMI | COLON):
            break
        joint = at
        while tokens[joint].kind in _JOINTS or tokens[joint].text in _OPENING_WORDS:
            joint += 1
        knits = tokens[joint].kind == "knit" and joint > at and tokens[joint + 1].kind == "number"
        joint += knits and (tokens[joint - 1].text == "with" or tokens[joint + 2].kind in _BETWEEN)
        if tokens[joint].kind != "number" or (joint == at and not tokens[at].flags & COMMA):
            break
        if tokens[joint + 1].kind in ("round", "times"):
            break
        at = joint
    return numbers, at


def _is_counted(tokens: list[Token], at: int) -> bool:
    """Whether a count stands there: `(64)`, `: 64`, `= 64 sts`, `there are 64`."""
    counted = at
    if tokens[at].kind == "(":
        counted += 1
        while tokens[counted].kind in _BEFORE_COUNT:
            counted += 1
        closed = tokens[counted].kind == "number" and any(
            token.kind == ")" for token in tokens[counted + 1 : counted + MOST_IN_COUNT]
        )
        return closed and tokens[counted + 1].kind in (")", "stitch_noun", *_LEFT)
    while tokens[counted].kind in _BEFORE_COUNT:
        counted += 1
    signed = counted > at or bool(tokens[at].flags & (EQUALS | COLON | DASH | COMMA | SEMI | STOP))
    behind = tokens[min(counted + 1, len(tokens) - 1)]
    alone = bool(behind.flags & _PARTS) or behind.kind not in _NO_COUNT
    return signed and tokens[counted].kind == "number" and alone and not tokens[at].flags & LINE


def _ends(tokens: list[Token], at: int) -> bool:
    """Whether the clause ends at a place."""
    return at >= len(tokens) - 1 or bool(tokens[at].flags & _PARTS) or tokens[at].kind in _JOINTS


def _round_of(number: Token) -> list[Token]:
    """`*k7, k2tog* around`."""
    star, knit, stitch, end, around = words_at(
        number.start, ("stars", "*"), ("knit", "k"), ("stitch", "k2tog"), ("stars", "*"), ("around", "around")
    )
    first = replace(star, flags=STOP | SPACE)
    plain = (replace(knit, flags=0), replace(number, flags=0)) if number.number != NOTHING else ()
    work = (*plain, replace(stitch, flags=(SPACE | COMMA) if plain else 0, means="k2tog"))
    return [first, *work, replace(end, flags=0), around]


_NONE: Final = frozenset(("none", "nothing", "no", "zero", "with nothing"))
"""Words for no plain stitches: `with none before the k2tog (8)`."""
_SINGLE: Final = frozenset(("a", "an", "single"))
_PARTS: Final = STOP | SEMI | LINE | COLON | FULL | COMMA | DASH
_JOINTS: Final = frozenset(("and", "then"))
_EACH: Final = frozenset(("each", "per"))
_VERBS: Final = frozenset(("decrease", "work", "round", "have", "continue"))
"""Kinds of opening words behind which `with` must stand: `decrease 7 sts` is other work."""
_OPENING: Final = _JOINTS | _EACH | _VERBS | {"", "next", "last", "manner"}
_OPENING_WORDS: Final = frozenset(
    ("with", "same", "again", "now", "once", "only", "finally", "first", "the same", "but")
)
"""What stands before the number of plain stitches."""
_IN_LISTS: Final = frozenset(("first", "then", "decrease", "continue"))
"""What stands before `with k9` in a list of such rounds."""
_CHANGES: Final = frozenset(("decrease", "increase"))
_ONWARD: Final = frozenset(("then", "next", "last", "again", "same", "the same", "now", "once"))
"""What begins another round behind a comma."""
_NOUNS: Final = frozenset(("stitch_noun", "knit", "plain"))
_BETWEEN: Final = frozenset(("before", "between", "in"))
_TO_DECREASE: Final = frozenset(("", "each", "all", "these"))
_EVERY: Final = _EACH | {"all", "these"}
_RHYTHMS: Final = frozenset(("before", "between", "after"))
"""What says that rounds stand between others."""
_IN_RHYTHM: Final = frozenset(
    ("", "before", "between", "in", "number", "plain", "knit", "round", "decrease", "following", "have", "more", "work",
     "word", "only", *_EVERY, *_JOINTS)
)  # fmt: skip
"""Kinds of the words of a rhythm before its rounds."""
_DECREASES: Final = frozenset(("decrease", "stitch", "together"))
_OF_DECREASE: Final = frozenset(("", "place"))
_LEFT: Final = frozenset(("remain", "left"))
_BEFORE_COUNT: Final = _LEFT | {"", "have"}
_NO_COUNT: Final = frozenset(
    ("round", "times", "unit", "knit", "purl", "plain", "together", "before", "between", "more")
)
"""Kinds of words behind a number that is no count."""
MOST_BEFORE: Final = 10
"""Words from the decreases to what describes them."""
MOST_PLAIN: Final = 24
"""Plain stitches that are told with nothing but a count: `with 7 sts: 64`."""
MOST_OPENING: Final = 6
"""Words before the number of plain stitches."""
MOST_IN_COUNT: Final = 5
"""Words of a count in a bracket."""
MOST_BETWEEN: Final = 24
"""Words from such a clause to the next of a series: `(64), 2 plain rounds, then with 6 (56)`."""
