"""What a segment may tell the knitter to do: its candidates, the cheapest first.

That nothing is worked is a candidate as well; it costs as much as the words look like work.
"""

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.layout import Segment
from roundwright.wording.reading.loops import continuations, loop_ways, marker_ways, once_more
from roundwright.wording.reading.phrases import (
    BeginAt,
)
from roundwright.wording.reading.round_ways import rounds_of_segment
from roundwright.wording.reading.seen import is_bare, sort_phrases, stated_counts
from roundwright.wording.reading.telling import introduces, likeness, tells_of_all, tells_outcome


def candidates(segment: Segment) -> list[Candidate]:
    """What a segment may mean, the cheapest first; never empty."""
    label = segment.label
    if label is not None and label.kind in ("sizes", "step"):
        label = None
    phrases = segment.phrases
    if segment.told and (label is None or label.kind in ("sort", "listed", "count")):
        return [Candidate("prose", 0.0)]
    if segment.troubles and not phrases:
        return [Candidate("unread", 0.0, trouble=segment.troubles[0])]
    seen = sort_phrases(phrases)
    if label is None and (tells_outcome(seen) or introduces(seen, segment) or tells_of_all(seen)):
        return [Candidate("prose", 0.0)]
    found: list[Candidate] = []
    stated = stated_counts(seen)
    strength = likeness(seen, label)
    if seen.closing and not seen.work and not seen.agains:
        found.append(Candidate("closing", 0.0, stated=()))
        return found
    if seen.cast_on and not seen.work:
        return [Candidate("cast_on", 0.0, rounds=seen.cast_on.number, stated=())]
    if begin := _begin_at(segment):
        return [begin]
    if seen.agains:
        found.extend(loop_ways(seen, stated, label))
    found.extend(continuations(seen, stated))
    if label is None and not seen.agains:
        found.extend(once_more(seen, stated, segment))
    if seen.agains or not found or found[0].kind != "loop":
        found.extend(rounds_of_segment(seen, stated, label, segment))
    if label is None and all(is_bare(phrase) for phrase in seen.work):
        found.extend(marker_ways(seen))
    if not found and seen.counts and label is None:
        found.append(Candidate("count", 0.1, stated=stated))
        sure = all(count.sure for count in seen.counts) and seen.words < 1.5
        found.append(Candidate("prose", 1.0 + 3.0 * sure))
        return found
    if segment.troubles and found:
        code, message, start = segment.troubles[0]
        found = [_with_trouble(each, (code, message, start)) for each in found]
    found.append(Candidate("prose", max(0.2, strength), strength=strength, stated=stated))
    return sorted(found, key=lambda each: each.cost)


def _with_trouble(one: Candidate, trouble: tuple[str, str, int]) -> Candidate:
    return Candidate(
        one.kind,
        one.cost,
        one.nodes,
        one.others,
        one.rounds,
        one.length,
        one.until,
        one.last,
        one.again,
        one.times,
        one.step,
        one.sign,
        one.stated,
        one.strength,
        one.trouble or trouble,
        one.sections,
        one.every,
        one.chart,
        one.how,
    )


def _begin_at(segment: Segment) -> Candidate | None:
    """`Begin at rnd 5 (3, 1)`."""
    if segment.label is None:
        for phrase in segment.phrases:
            if isinstance(phrase, BeginAt):
                return Candidate("begin", 0.0, rounds=phrase.number)
    return None
