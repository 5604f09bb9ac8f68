"""Work beside the names of the sizes that it is for: `(k8, k2tog) around [k6, k2tog for Child]`."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from operator import attrgetter
from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.phrases import Brackets, Extent, Phrase, Said, Star, Times
from roundwright.wording.reading.seen import has_shaping, has_stitches, is_bare
from roundwright.wording.reading.sizes import by_place, columns_of
from roundwright.wording.reading.tokens import COLON, SEMI, STOP, Token


def named_parts(
    phrases: list[Phrase], tokens: list[Token], names: Mapping[str, int], width: int
) -> list[tuple[tuple[str, ...], list[Phrase]]]:
    """The phrases for the sizes that are named beside their work, with the places of those; empty for any other line.

    `k6, k2tog around for Child; k8, k2tog for Adult`. Before a bracket, the work is for the sizes that the bracket does
    not name, or of all where the bracket has only the end of a size: `k2tog around (size 2: end k1)`. Work that does
    not say how far it goes on goes on as far as the first.
    """
    if not names:
        return []
    names = {**by_place(width), **names}
    for at, phrase in enumerate(phrases):
        if at and type(phrase) is Brackets and (made := work_of_names(phrase.inside, tokens, names)):
            behind: Sequence[Phrase] = phrases[at + 1 :]
            named = [column for columns, _ in made for column in columns]
            others = tuple(column for column in range(width) if column not in named)
            if all(map(_is_end, (part for _, part in made))):
                made = [(columns, [*phrases[:at], *part]) for columns, part in made]
            made = [*(work_of_names(phrases[:at], tokens, names) or [(others, phrases[:at])]), *made]
            break
    else:
        made, behind = _named(phrases, tokens, names)
    named = [column for columns, _ in made for column in columns]
    works = all(columns and any(map(has_stitches, part)) for columns, part in made)
    if len(made) < FEWEST_NAMED or len(set(named)) < len(named) or not works:
        return []
    ends = [phrase for phrase in made[0][1] if type(phrase) is Extent][-1:]
    return [
        (tuple(str(column + 1) for column in columns), [*_with_end(part, ends), *behind])
        for columns, part in made
    ]


FEWEST_NAMED: Final = 2
"""Sizes, or groups of them, with work of their own in a line."""
_Named = tuple[tuple[int, ...], Sequence[Phrase]]
"""The columns of sizes, and their work."""


def work_of_names(phrases: Sequence[Phrase], tokens: list[Token], names: Mapping[str, int]) -> list[_Named]:
    """The work of each size of phrases that are for sizes by name and have nothing else; empty for any others."""
    made, rest = _named(phrases, tokens, names) if names else ([], [])
    return made if not rest and all(any(map(has_stitches, part)) for _, part in made) else []


def _named(
    phrases: Sequence[Phrase], tokens: list[Token], names: Mapping[str, int]
) -> tuple[list[_Named], Sequence[Phrase]]:
    """The work beside each name of sizes, before `for Child` or behind `Child:`; and what belongs to none."""
    made: list[_Named] = []
    begin = place = 0
    columns: tuple[int, ...] | None = None
    while place < len(phrases):
        stop = place + 1
        while stop < len(phrases) and _goes_on_naming(phrases[stop - 1], phrases[stop]):
            stop += 1
        ahead = stop < len(phrases) and bool(phrases[stop].flags & COLON)
        first = next((at for at in range(place, stop) if _is_for(phrases[at])), place if ahead else stop)
        if first < stop and type(phrases[first]) is Said:
            words = bisect_left(tokens, phrases[first].start, key=attrgetter("start"))
            last = bisect_left(tokens, phrases[stop - 1].end, key=attrgetter("start"))
            found = columns_of(tokens, words, last, names)
            if ahead and found is not None and (columns is not None or place == begin):
                if columns is not None:
                    made.append((columns, phrases[begin:place]))
                columns, begin = found, stop
            elif found is not None and columns is None and _is_for(phrases[first]):
                made.append((found, phrases[begin:first]))
                begin = stop
        place = stop
    if columns is not None:
        made.append((columns, phrases[begin:]))
        begin = place
    return made, phrases[begin:]


def _is_end(part: Sequence[Phrase]) -> bool:
    """Whether this is only how a round ends: `knit the last st`, `end k1`, `k1`."""
    works = any(type(phrase) in _REPEATS or has_shaping(phrase) for phrase in part)
    ends = any(type(phrase) is Said and phrase.text in _ENDING for phrase in part)
    return not works and (ends or not any(map(is_bare, part)))


_REPEATS: Final = frozenset((Brackets, Extent, Star))
_ENDING: Final = frozenset(("last", "end", "ending"))


def _goes_on_naming(before: Phrase, phrase: Phrase) -> bool:
    """Whether words go on that may name sizes."""
    return type(before) is Said and type(phrase) is Said and not phrase.flags & (SEMI | STOP | COLON)


def _is_for(phrase: Phrase) -> bool:
    return type(phrase) is Said and phrase.text == "for"


def _with_end(part: Sequence[Phrase], ends: list[Extent]) -> list[Phrase]:
    """The work of a size, with the end of the first where it has none."""
    if any(type(phrase) in _ENDS for phrase in part):
        return list(part)
    return [*part, *(replace(end, start=part[-1].end, end=part[-1].end) for end in ends)]


_ENDS: Final = frozenset((Extent, Star, Times))
"""What says how far work goes on."""
