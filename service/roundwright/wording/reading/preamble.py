"""What stands before the cast-on is told and not worked: what the letters mean, what is needed, how it is done.

Nor are the lines worked that the service writes between rounds: which stitches are slid, how a marker comes off.
"""

from bisect import bisect_right

from msgspec.structs import replace

from roundwright.wording.reading.languages.asides import english_asides
from roundwright.wording.reading.phrases import CastOn
from roundwright.wording.reading.segment import Segment


def with_preamble_told(segments: list[Segment], cast_on: tuple[int, ...]) -> list[Segment]:
    """The segments, those before the cast-on told, where the text casts on the stitches that are asked for."""
    for place, segment in enumerate(segments):
        if any(type(phrase) is CastOn and _is_of(phrase, cast_on) for phrase in segment.phrases):
            before = [replace(earlier, under_notes=True, cuts=()) for earlier in segments[:place]]
            return [*before, *segments[place:]]
    return segments


def with_asides_told(segments: list[Segment], text: str) -> list[Segment]:
    """The segments, those told that lie in a line of the service's own that is no work."""
    asides = english_asides(text)
    if not asides:
        return segments
    starts = [aside.start for aside in asides]
    marked: list[Segment] = []
    for segment in segments:
        aside = asides[max(0, bisect_right(starts, segment.start) - 1)]
        inside = aside.start <= segment.start and not text[aside.end : segment.end].strip()
        marked.append(replace(segment, under_notes=True, cuts=()) if inside else segment)
    return marked


def _is_of(phrase: CastOn, cast_on: tuple[int, ...]) -> bool:
    """Whether this is the cast-on of the sizes."""
    return any(value in cast_on for value in phrase.number.values)
