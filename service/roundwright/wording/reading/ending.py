"""Where a text ends that is worked: what stands behind the closing tells of washing, gifts and greetings."""

from typing import Final

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.phrases import Brackets, CastOn, Closing, Phrase, Star, Stitches
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tree import Evenly

LIKE_WORK: Final = 4.0
"""How much words have to look like work to be worked behind the closing."""
_LABELLED: Final = ("numbered", "next", "sort", "every", "count", "listed")


def end_of_work(segments: list[Segment]) -> int:
    """The segment that closes the hat, behind which none has a label, a cast-on or a repeat; their number if none."""
    for place in range(len(segments) - 1, -1, -1):
        segment = segments[place]
        works = segment.label is not None and segment.label.kind in _LABELLED
        if works or any(map(_is_sure, segment.phrases)):
            return next(
                (at for at in range(place, len(segments)) if any(map(_closes, segments[at].phrases))),
                len(segments),
            )
    return len(segments)


def _is_sure(phrase: Phrase) -> bool:
    """Whether it is work for sure."""
    if type(phrase) is Brackets:
        return Stitches in [type(inner) for inner in phrase.inside]
    return type(phrase) in (CastOn, Star) or (type(phrase) is Stitches and type(phrase.node) is Evenly)


def _closes(phrase: Phrase) -> bool:
    return type(phrase) is Closing and not phrase.bind_off


def behind_the_end(segment: Segment, options: list[Candidate]) -> list[Candidate]:
    """The candidates of a segment behind the closing: nothing, unless it has a label or looks much like work."""
    works = segment.label is not None or any(option.strength >= LIKE_WORK for option in options)
    kept = works or options[0].kind in ("closing", "cast_on")
    return options if kept else [Candidate("prose", 0.0)]
