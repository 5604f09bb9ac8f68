"""What stands before the cast-on is told and not worked: what the letters mean, what is needed, how it is done."""

from msgspec.structs import replace

from roundwright.wording.reading.phrases import CastOn
from roundwright.wording.reading.segment import Segment


def with_preamble_told(segments: list[Segment], cast_on: tuple[int, ...]) -> list[Segment]:
    """The segments, those before the cast-on told, where the text casts on the stitches that are asked for."""
    for place, segment in enumerate(segments):
        if any(isinstance(phrase, CastOn) and _is_of(phrase, cast_on) for phrase in segment.phrases):
            before = [replace(earlier, under_notes=True, cuts=()) for earlier in segments[:place]]
            return [*before, *segments[place:]]
    return segments


def _is_of(phrase: CastOn, cast_on: tuple[int, ...]) -> bool:
    """Whether this is the cast-on of the sizes."""
    return any(value in cast_on for value in phrase.number.values)
