"""Sentences that are one round: `Knit 9 stitches. Knit the next 2 together. Keep repeating to the marker`.

A sentence that only says to repeat may go back to the sentences before it; the search takes it so where that comes out.
"""

from collections.abc import Callable
from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.counted_down import leads_to_counts
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    Change,
    Continue,
    Count,
    Extent,
    Fabric,
    LastRound,
    Length,
    Markers,
    Needlewise,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Times,
    Until,
    is_bracketed_count,
    is_of_last_round,
    names_parity,
)
from roundwright.wording.reading.seen import has_shaping, has_stitches, is_bare
from roundwright.wording.reading.segment import Cut, Segment
from roundwright.wording.reading.tokens import SEMI, STOP
from roundwright.wording.reading.tree import NOTHING, Evenly, Stitch, named

MOST_SENTENCES: Final = 6
"""Sentences of one round."""


def with_sentences_joined(segments: list[Segment]) -> list[Segment]:
    """The segments of a line; where one repeats what sentences before it tell, that as one round is another cut."""
    segments = _joined_where(_in_sections, _gone_on_joined(segments))
    segments = [half for segment in segments for half in _halves(segment)]
    for belongs in (_changes_last_of, leads_to_counts, _goes_on_at_pace):
        segments = _joined_where(_whole_where(belongs), segments)
    segments = _joined_where(_with_end_of_pace, segments)
    segments = _joined_where(_with_parity_told, segments)
    segments = _to_end_joined(segments)
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


def _gone_on_joined(segments: list[Segment]) -> list[Segment]:
    """The segments; a sentence that goes on as before to the end of the round is one round with those it goes on with.

    So its count is that of the round, and cannot be passed over with the words.
    """
    made: list[Segment] = []
    for segment in segments:
        parts = _parts_before(made) if _goes_to_end(segment) else 0
        if parts:
            sentences = (*made[-parts:], replace(segment, phrases=tuple(map(_as_repeat, segment.phrases))))
            made[-parts:] = [_joined(list(sentences))]
        else:
            made.append(segment)
    return made


def _parts_before(segments: list[Segment]) -> int:
    """How many sentences at the end tell stitches of one round, the first of them with a label or without."""
    parts = 0
    for segment in reversed(segments[-MOST_SENTENCES:]):
        if not _is_part(segment):
            break
        parts += 1
        if segment.label is not None:
            break
    return parts


def _goes_to_end(segment: Segment) -> bool:
    """Whether a sentence says no more than to go on to the end of the round, and its count.

    `Continue like this to end of round (65 sts)`, `Keep doing that all the way round. You now have 65`.
    """
    phrases = segment.phrases
    begins = next((phrase for phrase in phrases if type(phrase) not in (Said, Then)), None)
    far = [phrase for phrase in phrases if type(phrase) is Extent]
    if segment.label is not None or type(begins) is not Continue or len(far) != 1:
        return False
    ended = far[0].leave == NOTHING and not far[0].marker
    levels = any(type(phrase) is Rep and phrase.level for phrase in phrases)
    return (
        ended
        and not levels
        and all(type(phrase) in _GONE_ON or is_bracketed_count(phrase) for phrase in phrases)
    )


def _as_repeat(phrase: Phrase) -> Phrase:
    """The same, said as a repeat of what was told."""
    return Rep(phrase.start, phrase.end, phrase.flags) if type(phrase) is Continue else phrase


def _joined_where(
    phrases_of_both: Callable[[Segment, Segment], tuple[Phrase, ...]], segments: list[Segment]
) -> list[Segment]:
    """The segments; one that belongs to that before is one with it, of these phrases, and another cut parts them.

    What stands behind the last of the phrases is a segment of its own.
    """
    made: list[Segment] = []
    rest: tuple[Phrase, ...] = ()
    for segment in segments:
        phrases = phrases_of_both(made[-1], segment) if made and not rest else ()
        rest = _behind(phrases[-1], segment) if phrases else ()
        if not phrases:
            made.append(segment)
            continue
        apart = Cut(2 if rest else 1, (replace(made[-1], cuts=()), segment))
        end = phrases[-1].end if rest else segment.end
        made[-1] = replace(made[-1], phrases=phrases, end=end, alone=True, cuts=(apart,))
        if rest:
            made.append(replace(segment, label=None, phrases=rest, start=rest[0].start, cuts=()))
    return made


def _behind(last: Phrase, segment: Segment) -> tuple[Phrase, ...]:
    """What a segment tells behind the last phrase that is taken from it; empty where that is nothing but words."""
    at = segment.phrases.index(last) + 1 if last in segment.phrases else len(segment.phrases)
    behind = segment.phrases[at:]
    return () if all(type(phrase) in _SILENT for phrase in behind) else behind


def _whole_where(
    belongs: Callable[[Segment, Segment], bool],
) -> Callable[[Segment, Segment], tuple[Phrase, ...]]:
    """The phrases of both segments where one belongs to the one before; else none."""
    return lambda first, second: (*first.phrases, *second.phrases) if belongs(first, second) else ()


def _changes_last_of(rounds: Segment, segment: Segment) -> bool:
    """Whether a sentence changes the count in the last of the rounds of the one before.

    `Knit 10 rounds. In the last round increase 8 sts evenly. 88 sts`
    """
    return _changes_in_last_round(segment) and _tells_several(rounds)


def _changes_in_last_round(segment: Segment) -> bool:
    """Whether a sentence says no more than how many stitches come or go in the last round, and the count then."""
    changes = [phrase for phrase in segment.phrases if type(phrase) is Stitches]
    silent = all(
        type(phrase) in (Stitches, Said, Then, Count) or is_bracketed_count(phrase)
        for phrase in segment.phrases
    )
    evenly = [_is_evenly(phrase) for phrase in changes] == [True]
    return segment.label is None and silent and evenly and is_of_last_round(segment.phrases)


def _tells_several(segment: Segment) -> bool:
    """Whether a sentence works several rounds without shaping, and leaves no count of its own."""
    spans = segment.label.spans if segment.label is not None else ()
    numbered = any(span.first.values != span.last.values for span in spans)
    several = any(
        type(phrase) in (Length, Again)
        or (type(phrase) is Rounds and not phrase.every and phrase.number.values != (1,))
        for phrase in segment.phrases
    )
    counted = any(type(phrase) is Count or is_bracketed_count(phrase) for phrase in segment.phrases)
    shaped = any(map(has_shaping, segment.phrases))
    return (numbered or several) and not counted and not shaped and not segment.under_notes


def _with_parity_told(rounds: Segment, segment: Segment) -> tuple[Phrase, ...]:
    """The phrases of rounds that go on in the same manner, where a sentence tells what that is in odd or even ones.

    `Rnds 5-16: Work in this manner. On odd rnds there is 1 st less between decreases, on even rnds knit. 16 sts`: of it
    only the count is taken. Empty where anything else is told.
    """
    spans = rounds.label.spans if rounds.label is not None else ()
    several = any(span.first.values != span.last.values for span in spans)
    manner = any(type(phrase) is Continue and phrase.manner for phrase in rounds.phrases)
    parity = any(map(names_parity, segment.phrases))
    if not (several and manner and parity) or segment.label is not None:
        return ()
    for before, phrase in pairwise((rounds.phrases[-1], *segment.phrases)):
        works = has_stitches(phrase) and not is_bare(phrase)
        evens = type(before) is Fabric and type(phrase) is Rounds  # on even rnds
        if works or (type(phrase) in (Rounds, Length) and not evens):
            return ()
    return (*rounds.phrases, *(phrase for phrase in segment.phrases if type(phrase) is Count))


def _goes_on_at_pace(pace: Segment, segment: Segment) -> bool:
    """Whether a sentence goes on to a count, and the one before says on which rounds.

    `From here the decreases come in every round. Carry on till 10 sts are left.`
    """
    return _sets_pace(pace) and _goes_to_count(segment)


def _sets_pace(segment: Segment) -> bool:
    """Whether a sentence only says that stitches are decreased in every round, or in every other."""
    every = [phrase for phrase in segment.phrases if type(phrase) is Rounds]
    changes = [_is_decrease(phrase) for phrase in segment.phrases]
    silent = all(
        change or type(phrase) in (Said, Then, Continue, Rounds) or is_bare(phrase)
        for phrase, change in zip(segment.phrases, changes, strict=True)
    )
    # All odd rounds ..., all even rounds knit.
    steps = {rounds.step if rounds.every else 0 for rounds in every}
    return segment.label is None and any(changes) and silent and len(steps) == 1 and 0 not in steps


def _is_decrease(phrase: Phrase) -> bool:
    """Whether stitches are decreased, and at most how many: `decrease`, `decrease 8 sts`, `8 decreases`."""
    # Every round is a decrease round.
    named_so = type(phrase) is Again and phrase.named == (named("decrease"),)
    fewer = type(phrase) is Count and phrase.sign < 0
    return type(phrase) is Change or _is_evenly(phrase) or named_so or fewer


def _with_end_of_pace(pace: Segment, segment: Segment) -> tuple[Phrase, ...]:
    """What says on which rounds decreases are, with how far they go on; empty where neither is told."""
    end = _end_of_pace(segment) if _sets_pace(pace) else ()
    return (*pace.phrases, *end) if end else ()


def _halves(segment: Segment) -> tuple[Segment, ...]:
    """The segment, in two where it sets a pace and says how far behind a semicolon: `; four of them bring you to 8`."""
    for at, phrase in enumerate(segment.phrases):
        if at and phrase.flags & SEMI:
            first = replace(segment, phrases=segment.phrases[:at], end=phrase.start, cuts=())
            second = replace(segment, label=None, phrases=segment.phrases[at:], start=phrase.start, cuts=())
            return (first, second) if _sets_pace(first) and _end_of_pace(second) else (segment,)
    return (segment,)


def _end_of_pace(segment: Segment) -> tuple[Phrase, ...]:
    """How far it goes on: `After five of these there are 7 left`, `Stop after Round 10, with 42 sts`; else nothing."""
    words = [phrase for phrase in segment.phrases if type(phrase) not in (Said, Then)]
    texts = [phrase.text for phrase in segment.phrases if type(phrase) is Said]
    match words:
        case [LastRound() as last, *behind]:
            count = behind[:1] if behind and type(behind[0]) is Count else ()
            return Continue(last.start, last.start, 0, manner=True), last, *count
        case [Rounds(every=False) | Count(sign=0, sure=False) as rounds, Count(sign=0) as count]:
            of_them = "of" in texts and {"these", "them"} & {*texts}
            after = type(rounds) is Rounds and texts[:1] == ["after"]
            often = Times(rounds.start, rounds.end, rounds.flags, rounds.number, more=True)
            return (often, count) if of_them or after else ()
        case _:
            return ()


def _is_evenly(phrase: Phrase) -> bool:
    """Whether stitches are decreased, and only how many: `decrease 8 sts`."""
    return type(phrase) is Stitches and type(phrase.node) is Evenly


def _goes_to_count(segment: Segment) -> bool:
    """Whether a sentence only says to go on until so many stitches are left: `Carry on till 10 sts are left`."""
    begins = next((phrase for phrase in segment.phrases if type(phrase) not in (Said, Then)), None)
    until = Until in [type(phrase) for phrase in segment.phrases]
    silent = all(type(phrase) in (Said, Then, Continue, Until) for phrase in segment.phrases)
    return segment.label is None and until and silent and type(begins) is Continue


def _to_end_joined(segments: list[Segment]) -> list[Segment]:
    """The segments; parts of a sentence that goes on as before until some round are one where it is cut."""
    for place in range(len(segments) - 1):
        first, second = segments[place], segments[place + 1]
        begins = next((phrase for phrase in first.phrases if type(phrase) is not Said), None)
        joined = first.label is None and second.label is None and type(begins) is Continue
        until = any(type(phrase) in (Length, Until) for phrase in second.phrases)
        sentence = bool(second.phrases) and not second.phrases[0].flags & (STOP | SEMI)
        if joined and until and sentence and Count not in [type(phrase) for phrase in first.phrases]:
            whole = replace(
                first, phrases=(*first.phrases, *second.phrases), end=second.end, alone=True, cuts=()
            )
            cut = Cut(2, (whole,))
            segments[place] = replace(first, cuts=(*first.cuts, cut))
    return segments


def _in_sections(first: Segment, again: Segment) -> tuple[Phrase, ...]:
    """`K to 2 sts before the marker, k2tog. Slip the marker. Do that 4 times`: one round, worked in 4 sections."""
    to_marker = any(type(phrase) is Extent and phrase.marker for phrase in first.phrases)
    ended = any(type(phrase) in (Times, Star, Count) for phrase in first.phrases)
    words = [phrase for phrase in again.phrases if type(phrase) not in _SILENT]
    if to_marker and not ended and _at_every_marker(again):
        sections = Needlewise(again.start, again.start, 0)
        return (*first.phrases, sections, *words)
    match words:
        case [Rep(level=0), Times(more=False) as times, *behind] if to_marker and not ended:
            pass
        case [Markers() as parts, *behind] if to_marker and not ended and _is_same(again):
            times = Times(parts.start, parts.end, 0, parts.number)
        case _:
            return ()
    inside = Brackets(first.phrases[0].start, first.end, first.phrases[0].flags, first.phrases)
    if again.label is not None or not all(type(phrase) in (Count, Brackets) for phrase in behind):
        return ()
    return inside, times, *behind


def _at_every_marker(segment: Segment) -> bool:
    """Whether a sentence only says that the same is worked in every section: `Same again at every marker. (88)`."""
    begins = next((phrase for phrase in segment.phrases if type(phrase) is not Then), None)
    same = type(begins) is Said and begins.text in ("same", "the", "and", "exactly") and _is_same(segment)
    spoken = any(type(phrase) is Said and phrase.text in _EVERY_MARKER for phrase in segment.phrases)
    silent = all(
        type(phrase) in (Said, Then, Count) or is_bracketed_count(phrase) for phrase in segment.phrases
    )
    return segment.label is None and same and spoken and silent


_EVERY_MARKER: Final = ("every marker", "each marker", "all the markers", "every other marker", "all markers")


def _is_same(segment: Segment) -> bool:
    """Whether a sentence says that the same is worked: `The same in each of the six sections`."""
    return any(type(phrase) is Said and phrase.text in ("same", "the same") for phrase in segment.phrases)


def _repeats(segment: Segment) -> bool:
    """Whether a sentence says to repeat what was told, and how far."""
    begins = next((phrase for phrase in segment.phrases if type(phrase) not in _SILENT), None)
    far = Extent in [type(phrase) for phrase in segment.phrases]
    return segment.label is None and far and type(begins) is Rep and not begins.level


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
            return type(phrase) in _SILENT


def _joined(segments: list[Segment]) -> Segment:
    """Sentences as one round."""
    phrases = tuple(
        phrase for segment in segments for phrase in segment.phrases if type(phrase) is not Continue
    )
    return replace(segments[0], phrases=phrases, end=segments[-1].end, alone=True, cuts=())


_SILENT: Final = frozenset((Said, Then, Continue))
_GONE_ON: Final = frozenset((Said, Then, Continue, Rep, Extent, Count))
