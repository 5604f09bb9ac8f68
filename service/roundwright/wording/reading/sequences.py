"""Several rounds that one line tells one after the other: `*k4, k2tog* *k3, k2tog*`, `k3, k2tog, then k2, k2tog`."""

from typing import Final

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    Brackets,
    Count,
    Extent,
    Phrase,
    Rep,
    Rounds,
    Star,
    Then,
    Times,
)
from roundwright.wording.reading.round_ways import rounds_of_segment
from roundwright.wording.reading.seen import Seen, has_stitches, is_bare, sort_phrases, stated_counts
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tokens import COMMA, DASH, SEMI, SLASH, STOP

IN_TURN: Final = 1.0
"""What it costs to take one line for several rounds."""
MOST_ROUNDS: Final = 24
"""Rounds of one line."""


def rounds_in_turn(seen: Seen, label: Label | None, segment: Segment) -> list[Candidate]:
    """The rounds of a line worked in turn; none where it tells one round only."""
    parts = _parts(segment.phrases)
    if not 1 < len(parts) <= MOST_ROUNDS:
        return []
    parts[0] = _without_number(parts[0], len(parts))
    rounds: list[Candidate] = []
    for part in parts:
        inner = sort_phrases(tuple(part))
        ways = rounds_of_segment(inner, stated_counts(inner), label, segment)
        ways = sorted((way for way in ways if not way.trouble), key=lambda way: way.cost)
        if not ways or inner.agains or inner.untils:
            return []
        others = tuple(way.nodes for way in ways[1:4] if way.nodes != ways[0].nodes)
        rounds.append(Candidate("round", 0.0, ways[0].nodes, others, ways[0].rounds, stated=ways[0].stated))
    return [Candidate("round", IN_TURN + min(1.0, seen.words), parts=tuple(rounds))]


def _without_number(part: list[Phrase], number: int) -> list[Phrase]:
    """The first part without `three rounds:` before it."""
    begun = next(
        place for place, phrase in enumerate(part) if has_stitches(phrase) or isinstance(phrase, Star)
    )
    leading = [
        phrase
        for phrase in part[:begun]
        if not (isinstance(phrase, Rounds) and phrase.number.of(0) == number)
    ]
    return [*leading, *part[begun:]]


def _parts(phrases: tuple[Phrase, ...]) -> list[list[Phrase]]:
    """The phrases of each round."""
    parts: list[list[Phrase]] = [[]]
    stars, worked, whole, rounds = 0, False, False, False
    for phrase in phrases:
        works = has_stitches(phrase)
        if (
            worked
            and stars % 2 == 0
            and _begins(phrase, parts[-1][-1], works=works, whole=whole or stars > 0)
        ):
            carried = [parts[-1].pop()] if isinstance(parts[-1][-1], Then) else []
            parts.append(carried)
            stars, worked, whole, rounds = 0, False, False, False
        stars += isinstance(phrase, Star)
        if isinstance(phrase, Rep) and stars % 2:
            stars = 0
        plain = isinstance(phrase, Rounds) and not phrase.every and worked
        worked, whole = worked or works, whole or isinstance(phrase, _WHOLE)
        rounds = rounds or plain
        parts[-1].append(phrase)
    return parts


def _begins(phrase: Phrase, last: Phrase, *, works: bool, whole: bool) -> bool:
    """Whether another round begins with this phrase, behind the last; `whole` where a repeat was closed before."""
    if isinstance(phrase, Star):
        return whole or isinstance(last, Then)
    if not works:
        return False
    if isinstance(last, Then):
        return True
    if isinstance(last, _ENDS):
        return not is_bare(phrase) or bool(phrase.flags & (SEMI | STOP))
    if isinstance(phrase, Brackets):
        return whole and bool(phrase.flags & (COMMA | SEMI | STOP | SLASH | DASH))
    return bool(phrase.flags & (SEMI | SLASH))


_WHOLE: Final = (Star, Brackets, Rep)
_ENDS: Final = (Extent, Times, Count)
