"""Words passed over that print a count which no round leaves.

At the end of a text they were work, and are told so; between rounds the count is told, so that none is wrong
in silence.
"""

import re
from collections.abc import Iterator
from itertools import takewhile
from typing import Final

from roundwright.wording.reading.counted_down import OTHER_THINGS
from roundwright.wording.reading.parsing.lines import DENYING
from roundwright.wording.reading.phrases import Brackets, Count, Fabric, Length, Phrase, Said
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.states import Explanation, Fault
from roundwright.wording.reading.tokens import COMMA, SEMI, STOP
from roundwright.wording.reading.tree import Stitch

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
_OTHERS: Final = "|".join(sorted(OTHER_THINGS))
_LISTED: Final = re.compile(
    rf"[0-9], [0-9]+,? [^.]{{0,20}}\b(?:g|{_OTHERS})\b|\b(?:{_OTHERS}) [0-9]+, [0-9]", re.IGNORECASE
)
"""Several numbers of something else: `48, 40, 32 cm circulars`, `my swatches had 48, 40 and 32`."""


_JOINS: Final = frozenset(("join", "joining", "joined"))
MOST_DENIED: Final = 2
"""Words from a denial to what is denied: `do not yet join`."""
_IN_ROUND: Final = frozenset(("round", "rnd", "ring", "circle", "and"))
"""Words behind `join` that say that the work is joined: `join in the round`, `join and place marker`."""
_SIGNS: Final = STOP | SEMI | COMMA
LEAST_SHARE: Final = 0.5
MOST_SHARE: Final = 1.25
"""How much of the stitches there are a number may be to be their count: less are those of a section or a cable."""


def with_passed_over(
    explanation: Explanation, segments: list[Segment], text: str, cast_on: tuple[int, ...]
) -> tuple[Fault, ...]:
    """The faults of an explanation, with those of words that were passed over in silence."""
    faults = (
        *explanation.faults,
        *_other_counts(explanation, segments, cast_on),
        *_ribs(explanation, segments, cast_on),
    )
    if any(not fault.note for fault in explanation.faults):
        return faults
    return (*faults, *_work_at_end(explanation, segments, text, cast_on))


def _other_counts(
    explanation: Explanation, segments: list[Segment], cast_on: tuple[int, ...]
) -> Iterator[Fault]:
    """A note of each count in words between the rounds that is none of the counts there are, in any size."""
    chosen = dict(explanation.choices)
    ever = {done.round.after for rounds in explanation.rounds for done in rounds} | set(cast_on)
    left = [{done.segment: done.round.after for done in rounds} for rounds in explanation.rounds]
    now: list[int | None] = [None] * len(left)
    for place, segment in enumerate(segments):
        now = [counts.get(place, before) for counts, before in zip(left, now, strict=True)]
        candidate = chosen.get(place)
        if candidate is not None and candidate.kind == "closing":
            return
        if segment.title or segment.under_notes or (candidate is not None and candidate.kind != "prose"):
            continue
        there = [count for count in now if count is not None]
        counts = list(_counts_in(segment.phrases))
        if len(counts) != 1 or not counts[0].sure or counts[0].sign:
            continue  # `mark the 15th, 44th and 73rd st`, `8 fewer`
        number = counts[0].number
        stated = number.of(0) or 0
        other = there and all(LEAST_SHARE * held <= stated <= MOST_SHARE * held for held in there)
        if other and not ever.intersection(number.values):
            held = there[0]
            yield Fault("count_differs", place, number.start, 0, held, held, held, stated, note=True)


def _ribs(explanation: Explanation, segments: list[Segment], cast_on: tuple[int, ...]) -> Iterator[Fault]:
    """Ribs to a length that do not come out in the round: `Join in the round. Work 5 cm in 2x2 rib.` on 90 stitches.

    Worked flat they may: with two stitches more for the seam.
    """
    kinds = {place: candidate.kind for place, candidate in explanation.choices}
    joins = False
    for place, segment in enumerate(segments):
        joins = joins or _joins(segment.phrases)
        ribs = [phrase for phrase in segment.phrases if type(phrase) is Fabric and phrase.kind == "ratio"]
        to_a_length = Length in [type(phrase) for phrase in segment.phrases]
        if not (joins and ribs and to_a_length) or kinds.get(place) != "prose" or segment.under_notes:
            continue
        for size, rounds in enumerate(explanation.rounds):
            before = [done.round.after for done in rounds if done.segment < place]
            count = before[-1] if before else cast_on[size]
            left = count % max(
                1, sum(node.times.of(0) or 0 for node in ribs[0].nodes if type(node) is Stitch)
            )
            if left:
                yield Fault("left_over", place, ribs[0].start, size, count, count - left, count - left)


def _joins(phrases: tuple[Phrase, ...]) -> bool:
    """Whether the work is joined in the round, and not new yarn to it: nor is it with `do not join`."""
    for place, phrase in enumerate(phrases):
        if type(phrase) is not Said or phrase.text not in _JOINS:
            continue
        before = {word.text for word in phrases[max(0, place - MOST_DENIED) : place] if type(word) is Said}
        behind = takewhile(lambda word: not word.flags & _SIGNS, phrases[place + 1 :])
        words = {word.text for word in behind if type(word) is Said}
        if before.isdisjoint(("before", *DENYING)) and (not words or not words.isdisjoint(_IN_ROUND)):
            return True
    return False


def _counts_in(phrases: tuple[Phrase, ...]) -> Iterator[Count]:
    """The counts that words name, also those in brackets."""
    for phrase in phrases:
        if type(phrase) is Brackets:
            yield from _counts_in(phrase.inside)
        elif type(phrase) is Count:
            yield phrase


def _work_at_end(
    explanation: Explanation, segments: list[Segment], text: str, cast_on: tuple[int, ...]
) -> tuple[Fault, ...]:
    """Words at the end that were work: they print a count below those there are."""
    shaped = [
        done.segment
        for rounds in explanation.rounds
        for done in rounds
        if done.round.after != done.round.before
    ]
    worked = [done.segment for rounds in explanation.rounds for done in rounds]
    if not worked:
        return ()
    last = max(shaped, default=min(worked))
    counts = {done.round.after for rounds in explanation.rounds for done in rounds} | set(cast_on)
    most = max(rounds[-1].round.after if rounds else 0 for rounds in explanation.rounds)
    kinds = {place: candidate.kind for place, candidate in explanation.choices}
    over = [
        Fault("not_understood", place, segment.start)
        for place, segment in enumerate(segments)
        if place > last and kinds.get(place, "prose") == "prose" and not segment.title
        if _named(segment, text, most, apart=place not in kinds) - counts
    ]
    return tuple(over[:1])


def _named(segment: Segment, text: str, most: int, *, apart: bool = False) -> set[int]:
    """The counts below so many stitches that are printed in a segment; `apart` only those between two signs."""
    words = text[segment.start : min(segment.end, segment.start + MOST_LETTERS)]
    if _LISTED.search(words):
        return set()
    signs = (_ALONE,) if apart else (_NAMED, _ALONE)
    printed = {int(number) for sign in signs for number in sign.findall(words)}
    return {number for number in printed if SMALLEST <= number < most}
