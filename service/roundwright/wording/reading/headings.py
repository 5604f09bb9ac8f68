"""Words before the first numbered round that only say which fabric the rounds are in: `Ribbed crown, rib is K2, P2`."""

from typing import Final

from roundwright.wording.reading.phrases import (
    Brackets,
    CastOn,
    Change,
    Count,
    Fabric,
    Markers,
    Phrase,
    Rep,
    Rounds,
    Said,
    Stitches,
)
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tree import Stitch


def tells_fabric(segments: list[Segment], place: int) -> bool:
    """Whether the words at `place` tell the fabric of the numbered rounds that begin behind them, and work nothing."""
    segment = segments[place]
    if segment.label is not None or not _begins_rounds(segments, place + 1):
        return False
    if not all(map(_only_tells, segment.phrases)) or not any(map(_names_work, segment.phrases)):
        return False
    if any(isinstance(phrase, Said) and phrase.text in _TELLING for phrase in segment.phrases):
        return True
    if any(isinstance(phrase, Brackets) and _tells_size(phrase) for phrase in segment.phrases):
        return True  # `Cable pattern (8-st rep, 6 rnds)`
    begun = any(isinstance(phrase, CastOn) for earlier in segments[:place] for phrase in earlier.phrases)
    return not begun and any(isinstance(phrase, Said | Fabric) for phrase in segment.phrases)


def _begins_rounds(segments: list[Segment], place: int) -> bool:
    """Whether the segment at `place` is a round with the number 1."""
    label = segments[place].label if place < len(segments) else None
    if label is None or label.kind not in ("numbered", "listed") or not label.spans:
        return False
    return label.spans[0].first.of(0) == 1


def _only_tells(phrase: Phrase) -> bool:
    """Whether a phrase may be part of words that tell a fabric: no rounds, no length, nothing shaped."""
    match phrase:
        case Stitches(node=Stitch(name="k" | "p", bare=False)):
            return True
        case Brackets(inside=inside):
            return all(map(_only_tells, inside)) or _tells_size(phrase)
        case _:
            return isinstance(phrase, Said | Fabric | Change | Count | Markers | Rep)


def _tells_size(brackets: Brackets) -> bool:
    """Whether a bracket says how many stitches and rounds a pattern has."""
    inside = brackets.inside
    rounds = any(isinstance(phrase, Rounds) and not phrase.every for phrase in inside)
    return rounds and all(isinstance(phrase, Rounds | Said | Count | Rep) for phrase in inside)


def _names_work(phrase: Phrase) -> bool:
    """Whether a phrase alone would be worked."""
    return isinstance(phrase, Stitches | Fabric | Brackets)


_TELLING: Final = frozenset(("is", "are", "keeping", "keep", "crown", "top"))
"""Words by which a fabric is told and not worked."""
