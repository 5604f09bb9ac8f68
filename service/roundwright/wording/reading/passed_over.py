"""Words passed over at the end of a text that print a count which no round leaves: they were work, and are told so."""

import re
from typing import Final

from roundwright.wording.reading.counted_down import OTHER_THINGS
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
_ALONE: Final = re.compile(r"[.,;=>]\s([0-9]{1,3})\s?(?=[.,;&]|$)")
"""A number between two signs: `"Every fifth", 48.`."""
_OTHERS: Final = "|".join(sorted(OTHER_THINGS))
_LISTED: Final = re.compile(
    rf"[0-9], [0-9]+,? [^.]{{0,20}}\b(?:g|{_OTHERS})\b|\b(?:{_OTHERS}) [0-9]+, [0-9]", re.IGNORECASE
)
"""Several numbers of something else: `48, 40, 32 cm circulars`, `my swatches had 48, 40 and 32`."""


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
    over = [
        Fault("not_understood", place, segments[place].start)
        for place, candidate in explanation.choices
        if candidate.kind == "prose" and place > last and not segments[place].title
        if _counts(segments[place], text, most) - counts
    ]
    return (*explanation.faults, *over[:1])


def _counts(segment: Segment, text: str, most: int) -> set[int]:
    """The counts below so many stitches that are printed in a segment."""
    words = text[segment.start : min(segment.end, segment.start + MOST_LETTERS)]
    if _LISTED.search(words):
        return set()
    printed = {int(number) for sign in (_NAMED, _ALONE) for number in sign.findall(words)}
    return {number for number in printed if SMALLEST <= number < most}
