"""A decrease told of the first or last stitches of every part: `in each part knit the first 2 st together`."""

from typing import Final

from roundwright.wording.reading.parsing.extents import PARTS
from roundwright.wording.reading.phrases import (
    AtEnds,
    Extent,
    Needlewise,
    Phrase,
    Said,
    Stitches,
    Then,
    Until,
    counts_of,
    is_silent,
)
from roundwright.wording.reading.seen import is_bare, is_shaping

_TOLD: Final = frozenset((Said, Then))
"""What may stand around it, with a count."""


def with_ends_of_parts(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with the place of the one decrease in every part as such: at the beginning, or at the end."""
    phrases = _with_stitches_left(phrases)
    texts = {phrase.text for phrase in phrases if type(phrase) is Said}
    first, last = "first" in texts, "last" in texts
    if first == last:
        return phrases
    shaping = [phrase for phrase in phrases if is_shaping(phrase)]
    parts = [phrase for phrase in phrases if type(phrase) is Needlewise or _is_part(phrase)]
    if len(shaping) != 1 or len(parts) != 1 or not _of_every(parts[0], texts):
        return phrases
    others = [phrase for phrase in phrases if phrase not in (shaping[0], parts[0]) and not is_bare(phrase)]
    if (
        not all(type(phrase) in _TOLD or counts_of(phrase) for phrase in others)
        or type(shaping[0]) is not Stitches
    ):
        return phrases
    part = parts[0]
    needle = type(part) is Needlewise and part.needle
    ends = AtEnds(part.start, part.end, part.flags, first=first, last=last, needle=needle)
    return [ends if phrase is part else phrase for phrase in phrases if not is_bare(phrase)]


def _with_stitches_left(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with `to the last 2 sts` for `until 2 sts remain`, in every part and with a decrease behind."""
    if Needlewise not in [type(phrase) for phrase in phrases]:
        return phrases
    made = [*phrases]
    knit = next((at for at, phrase in enumerate(phrases) if is_bare(phrase)), len(phrases))
    shaped = next((at for at, phrase in enumerate(phrases) if is_shaping(phrase)), 0)
    place = next((at for at in range(shaped - 1, knit, -1) if not is_silent(phrases[at])), 0)
    until = phrases[place]
    if place and type(until) is Until and (until.number.of(0) or 0) <= MOST_LEFT and not until.per:
        made[place] = Extent(until.start, until.end, until.flags, until.number)
    return made


MOST_LEFT: Final = 4
"""Stitches at the end of a part that a decrease takes."""


def _is_part(phrase: Phrase) -> bool:
    """Whether a part of the round is named."""
    return type(phrase) is Said and phrase.text in PARTS


def _of_every(part: Phrase, texts: set[str]) -> bool:
    """Whether it is told of every part."""
    return type(part) is Needlewise or bool(texts & {"each", "every", "in each", "on each"})
