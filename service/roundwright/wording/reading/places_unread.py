"""Decreases and increases at a place of the round that is not read: `k2tog in the middle of each needle`.

Without the place such a line would halve the round, or change it by so few stitches, and nobody would be told.
"""

from itertools import takewhile
from typing import Final

from roundwright.wording.reading.phrases import Count, Markers, Needlewise, Phrase, Said, Stitches, Times
from roundwright.wording.reading.seen import is_shaping
from roundwright.wording.reading.tokens import COLON, COMMA, SEMI, SPACE, STOP
from roundwright.wording.reading.tree import Evenly


def is_at_place(work: tuple[Phrase, ...], phrases: tuple[Phrase, ...]) -> bool:
    """Whether a line has only decreases or increases, beside words of a place: `k2tog before the first marker`.

    - `work`: its phrases of work; `phrases`: all of them
    """
    if not all(_changes(phrase) or type(phrase) is Times for phrase in work):
        return False
    for place, phrase in enumerate(phrases):
        if not _changes(phrase):
            continue
        times = int(type(phrases[place + 1]) is Times) if place + 1 < len(phrases) else 0
        behind = list(takewhile(_is_joined, phrases[place + 1 + times :]))
        begin = place - len(list(takewhile(_is_joined, reversed(phrases[:place]))))
        before = list(phrases[max(0, begin - 1) : place])  # the sign is before the first of them
        if _tells_place(behind) or (_changes_few(phrase) and _tells_place(before)):
            return True
    return False


def is_in_middle(phrases: tuple[Phrase, ...]) -> bool:
    """Whether the middle is named beside the ends, which alone are read: `at the beginning, middle and end`."""
    return any(type(phrase) is Said and phrase.text in _MIDDLE for phrase in phrases)


def _changes(phrase: Phrase) -> bool:
    """Whether a decrease or an increase is named, or so many of them."""
    return is_shaping(phrase) or (type(phrase) is Stitches and type(phrase.node) is Evenly)


def _changes_few(phrase: Phrase) -> bool:
    """Whether it changes a few: before more, a place of the work is told, `at the beginning of the crown dec 8 sts`."""
    evenly = phrase.node if type(phrase) is Stitches and type(phrase.node) is Evenly else None
    return evenly is None or (evenly.change.of(0) or 0) <= MOST_AT_PLACE


def _tells_place(words: list[Phrase]) -> bool:
    """Whether words name a place: one they have a word for, a marker or needle beside words that are not known."""
    texts = [word.text for word in words if type(word) is Said]
    unknown = any(type(word) is Said and word.words for word in words)
    nouns = any(type(word) in _MARKS or (type(word) is Said and word.text in _NAMES) for word in words)
    if not texts or "with" in texts or (texts[0] == "the" and _OF_SOME.isdisjoint(texts[1:2])):
        return False  # with the larger needles
    beside = texts[0] in _BESIDE and nouns
    return beside or (unknown and nouns) or (texts[0] in _BEGINNING and not _PLACES.isdisjoint(texts))


def _is_joined(phrase: Phrase) -> bool:
    """Whether it is a word, a number or a marker without a sign before it; with `and`, other work is told."""
    if type(phrase) is Said:
        return phrase.text != "and" and not phrase.flags & (COMMA | SEMI | STOP | COLON)
    return type(phrase) in _MARKS and phrase.flags in (0, SPACE)


MOST_AT_PLACE: Final = 2
"""Stitches that are taken or made at a place: `dec 2 sts on either side of the markers`."""
_MARKS: Final = frozenset((Count, Markers, Needlewise))
_NAMES: Final = frozenset(("", "needle", "needles", "marker", "markers"))
"""What markers and needles are among the words; those without a text are nouns of the trade."""
_BESIDE: Final = frozenset(
    ("before", "after", "behind", "above", "below", "beside", "between", "near", "either")
)
_BEGINNING: Final = frozenset(
    ("over", "at", "in", "in each", "on", "on each", "where", "here", "of", "to", "the", *_BESIDE)
)
_MIDDLE: Final = frozenset(("middle", "center", "centre"))
_OF_SOME: Final = frozenset(("first", "last"))
_PLACES: Final = frozenset(
    ("first", "second", "third", "fourth", "last", "middle", "center", "centre", "side", "sides", "both sides",
     "needle", "needles", "marker", "markers", "edge", "corner", "corners", "place", "places", "point", "points",
     "front", "there", "beginning", "start", "end", "half", "section", "sections", "ends")
)  # fmt: skip
"""Words that name a place."""
