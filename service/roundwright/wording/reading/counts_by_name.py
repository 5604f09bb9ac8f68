"""What stands behind the names of sizes: their counts, `Child 84 sts, adult 96 sts`, and how a round ends for some."""

from collections.abc import Mapping
from functools import partial
from operator import itemgetter
from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright.wording.reading.sizes import by_place, columns_of
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
from roundwright.wording.reading.tree import ONE, Number


class _Counted(NamedTuple):
    """The column of a size, the number behind its name, the place behind that, and whether it counts stitches."""

    column: int
    number: Token
    stop: int
    sure: bool


def with_counts_by_name(tokens: list[Token], names: Mapping[str, int]) -> list[Token]:
    """The words, with the counts behind the names of all sizes as one list, and the ends of some sizes in brackets."""
    if not names:
        return tokens
    tokens = with_others_put(tokens, partial(_cast_on, names))
    return with_others_put(with_others_put(tokens, partial(_counts, names)), partial(_end_of_size, names))


def _cast_on(names: Mapping[str, int], tokens: list[Token], place: int) -> Instead:
    """`Cast on 80 sts for size S, 88 sts for size M` as `Cast on 80 (88) sts`."""
    counted, width, at = list[tuple[int, Token]](), max(names.values()) + 1, place + 1
    while tokens[place].kind == "cast_on" and tokens[at].kind == "number" and len(counted) < width:
        number, at = tokens[at], at + 1 + (tokens[at + 1].kind == "stitch_noun")
        if tokens[at].kind not in ("for", "in"):
            return AS_THEY_ARE
        at += 1
        while tokens[at].kind in _BEFORE_NAME and at < place + MOST_BEFORE * width:
            at += 1
        counted.append((names.get(tokens[at].text, -1), number))
        at += 1 + (tokens[at + 1].kind in ("and", "or") or tokens[at + 1].text == "or")
    if {column for column, _ in counted} != set(range(width)) or width == 1:
        return AS_THEY_ARE
    numbers = [number for _, number in sorted(counted, key=itemgetter(0))]
    start, end = counted[0][1].start, counted[-1][1].end
    several = Number(tuple((token.number or ONE).of(0) for token in numbers), start, end)
    count = replace(numbers[0], start=start, end=end, number=several)
    return at, [tokens[place], count, *words_at(end, ("stitch_noun", "sts"))]


def _counts(names: Mapping[str, int], tokens: list[Token], place: int) -> Instead:
    """`Child 84 sts, adult 96 sts` as `= 84 (96) sts`."""
    counted: list[_Counted] = []
    width, at = max(names.values()) + 1, place
    begins = place and (tokens[place].flags & _PARTS or tokens[place - 1].kind in _BEFORE)
    while begins and len(counted) < width and (found := _count_of_name(tokens, at, names)):
        counted.append(found)
        at = found.stop + (tokens[found.stop].kind == "and")
    if len({found.column for found in counted}) < width or width == 1:
        return AS_THEY_ARE
    at = counted[-1].stop
    ended = tokens[at].flags & (STOP | LINE | SEMI) or tokens[at].kind in (")", "end")
    if not ended or tokens[at].flags & COLON or not any(found.sure for found in counted):
        return AS_THEY_ARE
    for before in range(place - 1, max(-1, place - MOST_BEFORE), -1):
        if tokens[before].kind in _OTHERWISE:
            return AS_THEY_ARE
        if tokens[before].flags & (STOP | LINE):
            break
    numbers = [found.number for found in sorted(counted)]
    start, end = counted[0].number.start, counted[-1].number.end
    number = Number(tuple((token.number or ONE).of(0) for token in numbers), start, end)
    sign = 0 if tokens[place - 1].kind in ("(", "have") else EQUALS
    count = replace(numbers[0], start=start, end=end, flags=tokens[place].flags | sign, number=number)
    return at, [count, *words_at(end, ("stitch_noun", "sts"))]


def _count_of_name(tokens: list[Token], place: int, names: Mapping[str, int]) -> _Counted | None:
    """The number behind the name of a size, `for size S 84 sts`; None where anything else stands there."""
    at = place
    while tokens[at].kind in _BEFORE_NAME and at < place + 3:
        at += 1
    name = tokens[at].text
    at += 1
    while tokens[at].kind in ("size", "have") and not tokens[at].flags & (STOP | LINE):
        at += 1
    if name not in names or tokens[at].kind != "number" or len((tokens[at].number or ONE).values) > 1:
        return None
    stop = at + 1
    while tokens[stop].kind in _COUNTS and not tokens[stop].flags & (_PARTS | COLON):
        stop += 1
    sure = stop > at + 1
    apart = tokens[stop].flags & _PARTS or tokens[stop].kind in (")", "and", "end")
    return _Counted(names[name], tokens[at], stop, sure) if apart else None


def _end_of_size(names: Mapping[str, int], tokens: list[Token], place: int) -> Instead:
    """`, in the middle size end with k1` and `, ending with k1 in the middle size` in brackets."""
    if not tokens[place].flags & (COMMA | SEMI | STOP) or tokens[place].kind not in ("in", "for", "end"):
        return AS_THEY_ARE
    near = range(place + 1, min(place + MOST_IN_END, len(tokens)))
    ends = _PARTS | EQUALS | COLON
    stop = next((at for at in near if tokens[at].flags & ends and tokens[at].kind != "end"), 0)
    kinds = ("in", "for") if tokens[place].kind == "end" else ("end",)
    middle = next((at for at in near if tokens[at].kind in kinds and at < stop), 0)
    if not middle:
        return AS_THEY_ARE
    named = place if tokens[middle].kind == "end" else middle
    end, name = tokens[place:middle], tokens[middle:stop]
    if named == place:
        end, name = name, end
    of_names = {**by_place(max(names.values()) + 1), **names}
    if {token.kind for token in end} - _IN_END or not columns_of(
        tokens, named + 1, named + len(name), of_names
    ):
        return AS_THEY_ARE
    if named == middle:
        inside = [*end, replace(name[0], kind="for", text="for"), *name[1:]]
    else:
        inside = [*name[1:], replace(end[0], flags=COLON | SPACE), *end[1:]]
    (opening,) = words_at(tokens[place].start, ("(", "("))
    last = tokens[stop - 1].end
    return stop, [opening, replace(inside[0], flags=0), *inside[1:], Token(")", ")", last, last, 0)]


_PARTS: Final = STOP | LINE | SEMI | COMMA | DASH
_BEFORE: Final = frozenset(("(", "then", "", "have"))
_BEFORE_NAME: Final = frozenset(("for", "size", ""))
_COUNTS: Final = frozenset(("stitch_noun", "remain", "left"))
_OTHERWISE: Final = frozenset(("cast_on", "until", "size", "times"))
"""What makes those numbers other than the count of a round."""
_IN_END: Final = frozenset(("end", "", "knit", "purl", "number", "stitch_noun", "last"))
MOST_BEFORE: Final = 8
"""Words of its sentence before a list of counts."""
MOST_IN_END: Final = 12
"""Words of how a round ends in some sizes."""
