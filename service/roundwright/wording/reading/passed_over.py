"""Words passed over at the end of a text that print a count which no round leaves: they were work, and are told so."""

import re
from typing import Final

from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.states import Explanation, Fault

SMALLEST: Final = 4
"""The smallest count that is looked for: smaller numbers are ounces, inches and steps."""
MOST_LETTERS: Final = 400
"""Letters of a segment that are looked at."""
_NAMED: Final = re.compile(
    r"(?<![0-9.,/])([0-9]{1,3})(?:\s?/\s?[0-9]{1,3})*\s?(?:sts?|stitch|stitches|left|remain)\b"
    r"(?!\s(?:per|on|to|each|in)\b)"
)
"""A number with its stitches: `Reduce all, 9 stitch`, `6 / 8 left`."""
_ALONE: Final = re.compile(r"(?:[.,=>]\s|[;|]\s?)([0-9]{1,3})\s?(?=[.,;&|]|$)")
"""A number between two signs: `"Every fifth", 48.`, `10 | all of them by threes | 5`."""


def with_passed_over(
    explanation: Explanation, segments: list[Segment], text: str, cast_on: tuple[int, ...]
) -> tuple[Fault, ...]:
    """The faults of an explanation, with those of words that were passed over in silence; none where others are."""
    if any(not fault.note for fault in explanation.faults):
        return explanation.faults
    shaped = [
        done.segment
        for rounds in explanation.rounds
        for done in rounds
        if done.round.after != done.round.before
    ]
    worked = [done.segment for rounds in explanation.rounds for done in rounds]
    if not worked:
        return explanation.faults
    last = max(shaped, default=min(worked))
    counts = {done.round.after for rounds in explanation.rounds for done in rounds} | set(cast_on)
    most = max(rounds[-1].round.after if rounds else 0 for rounds in explanation.rounds)
    kinds = {place: candidate.kind for place, candidate in explanation.choices}
    over = [
        Fault("not_understood", place, segment.start)
        for place, segment in enumerate(segments)
        if place > last and kinds.get(place, "prose") == "prose" and not segment.title
        if _counts(segment, text, most, apart=place not in kinds) - counts
    ]
    return (*explanation.faults, *over[:1])


def _counts(segment: Segment, text: str, most: int, *, apart: bool) -> set[int]:
    """The counts below so many stitches that are printed in a segment; `apart` only those between two signs."""
    words = text[segment.start : min(segment.end, segment.start + MOST_LETTERS)]
    signs = (_ALONE,) if apart else (_NAMED, _ALONE)
    printed = {int(number) for sign in signs for number in sign.findall(words)}
    return {number for number in printed if SMALLEST <= number < most}
