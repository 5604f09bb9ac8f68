"""Rounds that are told under a name before they are worked: `Dec rnd: *k6, k2tog*. Work a dec rnd, then k 2 rnds`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.headings import fabric_told
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    Again,
    CastOn,
    Continue,
    Count,
    Fabric,
    Length,
    Phrase,
    Rounds,
    Said,
    Then,
    Times,
)
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tokens import EQUALS
from roundwright.wording.reading.tree import PLAIN_ROUND

MOST_TOLD: Final = 3
"""Rounds with a name that are told one after the other."""
NOT_TOLD: Final = 0.3
"""What it costs to work a round where it is told, although it is called for at once."""


def is_called_next(segments: list[Segment], place: int) -> bool:
    """Whether the round with a name at `place` is called for by that name as soon as all such rounds are told."""
    called = _name(segments[place])
    if not called:
        return _is_fabric_called(segments, place)
    names = {called}
    if place and (before := _name(segments[place - 1])) and called == PLAIN_ROUND:
        names.add(before)  # `Dec rnd: ... Plain rnd: knit. Dec rnd, plain rnd, dec rnd`
    beside = _told_beside(segments, place)
    for segment in segments[place + 1 : place + 1 + MOST_TOLD]:
        if _name(segment) or _is_only_said(segment) or _only_counts(segment):
            continue
        defines = bool(segments[place].phrases) and bool(segments[place].phrases[0].flags & EQUALS)
        if segment.label is not None and not _begins_list(segment.label):
            return False
        called_by = names | beside if segment.label is not None else names
        return any(_calls(segment.phrases, name, defined=defines) for name in called_by)
    return False


def _is_fabric_called(segments: list[Segment], place: int) -> bool:
    """Whether it only tells the fabric of the rounds behind it: `Twisted rib: *k1 tbl, p1*. 12 rounds of rib`."""
    phrases = segments[place].phrases
    named = _fabrics(phrases[: fabric_told(segments[place])])
    if not named or any(type(phrase) in (Rounds, Length) for phrase in phrases):
        return False
    behind = segments[place + 1 : place + 1 + MOST_TOLD]
    following = next((segment for segment in behind if not _only_begins(segment)), None)
    if following is None or _fabrics(following.phrases).isdisjoint(named):
        return False
    label, rounds = following.label, [phrase for phrase in following.phrases if type(phrase) is Rounds]
    goes_on = Continue in [type(phrase) for phrase in following.phrases]
    if goes_on or any(phrase.more or phrase.every for phrase in rounds):
        return False
    counted = bool(rounds) or Length in [type(phrase) for phrase in following.phrases]
    return counted if label is None else _begins_list(label)


def _fabrics(phrases: tuple[Phrase, ...]) -> set[str]:
    """The kinds of the fabrics that are named."""
    return {phrase.kind for phrase in phrases if type(phrase) is Fabric}


def _only_begins(segment: Segment) -> bool:
    """Whether only the cast-on is told, or words that say nothing of the work."""
    casts_on = CastOn in [type(phrase) for phrase in segment.phrases]
    return casts_on or (segment.label is None and all(type(phrase) is Said for phrase in segment.phrases))


def _is_only_said(segment: Segment) -> bool:
    """Whether no work is told, as in the words above a list of rounds: `Round, work, stitches`."""
    words = all(
        type(phrase) in (Said, Then) or (type(phrase) is Rounds and not phrase.every)
        for phrase in segment.phrases
    )
    return segment.label is None and words


def _told_beside(segments: list[Segment], place: int) -> set[int]:
    """The names of the rounds that are told just before this one, and behind it."""
    names = set[int]()
    for way in (segments[max(0, place - MOST_TOLD) : place][::-1], segments[place + 1 : place + MOST_TOLD]):
        for segment in way:
            if not (name := _name(segment)):
                break
            names.add(name)
    return names


def _begins_list(label: Label) -> bool:
    """Whether numbered rounds begin here, of which the one before is none: `Rnd 1: dec rnd`."""
    return label.kind in ("numbered", "listed") and bool(label.spans) and label.spans[0].first.of(0) != SECOND


SECOND: Final = 2
"""The number of a round that may stand behind one without a number."""


def _only_counts(segment: Segment) -> bool:
    """Whether it only says how many stitches such a round takes away: `That takes away 5 sts.`."""
    counts = any(type(phrase) is Count and phrase.sign for phrase in segment.phrases)
    return counts and segment.label is None and all(type(p) in (Said, Count) for p in segment.phrases)


def _name(segment: Segment) -> int:
    """The name of the round that a segment tells; 0 where it has none."""
    label = segment.label
    return label.named if label is not None and label.kind == "sort" else 0


def _calls(phrases: tuple[Phrase, ...], called: int, *, defined: bool = False) -> bool:
    """Whether a round is worked by its name first of all, and not again or every so often.

    Every so often it may be where an equals sign only defined it before.
    """
    first = next((phrase for phrase in phrases if type(phrase) not in (Said, Then)), None)
    if type(first) is not Again or not first.work or called not in first.named:
        return False
    in_turn = len(set(first.named)) > 1
    return not any(
        _counts_before(phrase, in_turn=in_turn) and not (defined and type(phrase) is Rounds)
        for phrase in phrases
    )


def _counts_before(phrase: Phrase, *, in_turn: bool) -> bool:
    """Whether it counts on rounds worked before: `every other rnd`, `twice more`, `5 times in all`.

    Several rounds in turn were not worked before, but told: `Work a dec rnd, then k 1 rnd, 5 times in all`.
    """
    match phrase:
        case Rounds():
            return phrase.every
        case Times():
            return phrase.more or (phrase.total and not in_turn)
        case _:
            return False


def only_told(options: list[Candidate]) -> list[Candidate]:
    """The candidates of such a round, the first of them also as a round that is only told."""
    first = options[0]
    if first.kind != "round":
        return options
    others = [replace(option, cost=option.cost + NOT_TOLD) for option in options]
    return [replace(first, explained=True), *others]
