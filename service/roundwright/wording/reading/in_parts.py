"""A decrease told of the first or last stitches of every part: `in each part knit the first 2 st together`."""

from typing import Final

from roundwright.wording.reading.parsing.asides import is_bare
from roundwright.wording.reading.phrases import AtEnds, Count, Needlewise, Phrase, Said, Stitches, Then
from roundwright.wording.reading.seen import is_shaping

_TOLD: Final = (Said, Then, Count)
"""What may stand around it."""


def with_ends_of_parts(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with the place of the one decrease in every part as such: at the beginning, or at the end."""
    texts = {phrase.text for phrase in phrases if isinstance(phrase, Said)}
    first, last = "first" in texts, "last" in texts
    shaping = [phrase for phrase in phrases if is_shaping(phrase)]
    parts = [phrase for phrase in phrases if isinstance(phrase, Needlewise)]
    if first == last or len(shaping) != 1 or len(parts) != 1:
        return phrases
    others = [phrase for phrase in phrases if phrase not in (shaping[0], parts[0]) and not is_bare(phrase)]
    if not all(isinstance(phrase, _TOLD) for phrase in others) or not isinstance(shaping[0], Stitches):
        return phrases
    part = parts[0]
    ends = AtEnds(part.start, part.end, part.flags, first=first, last=last, needle=part.needle)
    return [ends if phrase is part else phrase for phrase in phrases if not is_bare(phrase)]
