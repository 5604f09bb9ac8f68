"""Sentences that are one round: `Knit 9 stitches. Knit the next 2 together. Keep repeating to the marker`.

A sentence that only says to repeat may go back to the sentences before it; the search takes it so where that comes out.
"""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.phrases import Brackets, Continue, Extent, Phrase, Rep, Said, Stitches, Then
from roundwright.wording.reading.seen import has_stitches
from roundwright.wording.reading.segment import Cut, Segment
from roundwright.wording.reading.tree import Stitch

MOST_SENTENCES: Final = 6
"""Sentences of one round."""


def with_sentences_joined(segments: list[Segment]) -> list[Segment]:
    """The segments of a line; where one repeats what sentences before it tell, that as one round is another cut."""
    made = list(segments)
    for place in range(1, len(segments)):
        if not _repeats(segments[place]):
            continue
        first = place
        while first > max(0, place - MOST_SENTENCES) and _is_part(segments[first - 1]):
            first -= 1
            if segments[first].label is not None:
                break
        if place - first > 1:
            joined = _joined(segments[first : place + 1])
            cut = Cut(place + 1 - first, (joined,))
            made[first] = replace(made[first], cuts=(*made[first].cuts, cut))
    return made


def _repeats(segment: Segment) -> bool:
    """Whether a sentence says to repeat what was told, and how far."""
    begins = next((phrase for phrase in segment.phrases if not isinstance(phrase, _SILENT)), None)
    far = any(isinstance(phrase, Extent) for phrase in segment.phrases)
    return segment.label is None and far and isinstance(begins, Rep) and not begins.level


def _is_part(segment: Segment) -> bool:
    """Whether a sentence tells a fixed number of stitches and no more."""
    if segment.under_notes or segment.troubles or not any(map(has_stitches, segment.phrases)):
        return False
    return all(map(_is_fixed, segment.phrases))


def _is_fixed(phrase: Phrase) -> bool:
    match phrase:
        case Stitches(node=Stitch() as node):
            return not node.bare
        case Brackets():
            return has_stitches(phrase)
        case _:
            return isinstance(phrase, _SILENT)


def _joined(segments: list[Segment]) -> Segment:
    """Sentences as one round."""
    phrases = tuple(
        phrase for segment in segments for phrase in segment.phrases if not isinstance(phrase, Continue)
    )
    return replace(segments[0], phrases=phrases, end=segments[-1].end, alone=True, cuts=())


_SILENT: Final = (Said, Then, Continue)
