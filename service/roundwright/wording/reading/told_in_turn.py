"""Rounds told by their parity, and how many: `Work 12 rounds thus: Odd rounds: purl. Even rounds: knit`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.candidates import candidates
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label_numbers import label_numbers
from roundwright.wording.reading.phrases import (
    FROM_THERE,
    Again,
    Brackets,
    Continue,
    Fabric,
    Phrase,
    Rounds,
    Said,
    Then,
    Times,
)
from roundwright.wording.reading.seen import is_bare
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tree import Nodes, Number

EVERY_OTHER: Final = 2
"""The step of `odd rounds` and `even rounds`."""
OTHERWISE: Final = 0.5
"""What it costs to work rounds otherwise than the lines for odd and even rounds beside them tell."""
_TELLING: Final = (Said, Then, Fabric, Continue, Rounds, Times)


def with_rounds_in_turn_near(
    segments: list[Segment], place: int, options: list[Candidate]
) -> list[Candidate]:
    """The candidates of a segment that says how many rounds or how often, with the lines beside it that tell them."""
    number, turns = turns_near(segments, place)
    if number is None or not turns:
        return options
    worked = Candidate("round", 0.0, turns[0], rounds=number, turns=turns)
    return [worked, *(replace(option, cost=option.cost + OTHERWISE) for option in options)]


def turns_near(segments: list[Segment], place: int) -> tuple[Number | None, tuple[Nodes, ...]]:
    """How many rounds are worked where a segment says how many or how often, and the rounds told in lines beside it.

    Those are odd and even rounds behind or before it, or numbered rounds below: these are worked once in their own
    place, and so once less here. Empty where no lines tell them.
    """
    segment = segments[place]
    if segment.label is not None or all(isinstance(phrase, Said) for phrase in segment.phrases):
        return None, ()
    if often := _how_often(segment):
        times, rounds = often
        block = _numbered_below(segments, place)
        left = tuple(max(0, (value or 0) - 1) * len(block) for value in times.values)
        if block and rounds in (0, len(block)):
            return Number(left, times.start, times.end), block
    number = _how_many(segment)
    if number is None:
        return None, ()
    behind = place + 1
    behind += behind < len(segments) and _leads(segments[behind])
    return number, _odd_and_even(segments, behind) or _odd_and_even(segments, place - EVERY_OTHER)


def _how_often(segment: Segment) -> tuple[Number, int] | None:
    """How often rounds below are worked, and how many they are (0: not said): `Work these 10 rounds 3 times:`."""
    phrases = [inner for phrase in segment.phrases for inner in _opened(phrase)]
    times = [phrase for phrase in phrases if isinstance(phrase, Times)]
    agains = [phrase for phrase in phrases if isinstance(phrase, Again) and phrase.segments != FROM_THERE]
    rounds = [phrase for phrase in phrases if isinstance(phrase, Rounds)]
    silent = all(isinstance(phrase, (*_TELLING, Again)) for phrase in phrases)
    if not segment.intro or len(times) != 1 or times[0].more or not silent or len(agains) + len(rounds) > 1:
        return None
    if any(again.named for again in agains) or any(line.every or line.more for line in rounds):
        return None
    texts = {phrase.text for phrase in phrases if isinstance(phrase, Said)}
    below = agains or rounds or not texts.isdisjoint(_BELOW)
    lasts = [again.last for again in agains] or [line.number.of(0) or 0 for line in rounds] or [0]
    return (times[0].number, lasts[0]) if below else None


def _numbered_below(segments: list[Segment], place: int) -> tuple[Nodes, ...]:
    """The rounds of numbered lines below, from the first on, none of which has a count; empty where there are none."""
    turns: list[Nodes] = []
    for segment in segments[place + 1 : place + 1 + MOST_BELOW]:
        numbered = segment.label is not None and segment.label.kind == "numbered"
        numbers = label_numbers(segment.label, 0) if numbered else []
        if not numbers or numbers != [*range(len(turns) + 1, len(turns) + 1 + len(numbers))]:
            break
        first = candidates(segment)[0]
        if first.kind != "round" or not first.nodes or first.stated or first.rounds is not None:
            return ()
        turns.extend([first.nodes] * len(numbers))
    return tuple(turns) if len(turns) > 1 else ()


MOST_BELOW: Final = 40
"""Lines of a pattern that is worked several times."""
_BELOW: Final = frozenset(("following", "foll", "below", "next", "as", "follows"))
"""Words that say that rounds are told below."""


def _leads(segment: Segment) -> bool:
    """Whether it is no more than `thus` before the lines that tell how."""
    return segment.label is None and all(isinstance(phrase, Continue) for phrase in segment.phrases)


def _how_many(segment: Segment) -> Number | None:
    """How many rounds a segment tells, where it tells no stitches: `work 12 rounds`, `rep these 2 rounds 5 times`."""
    if segment.label is not None:
        return None
    phrases = [inner for phrase in segment.phrases for inner in _opened(phrase)]
    agains = [phrase for phrase in phrases if isinstance(phrase, Again)]
    rounds = [phrase for phrase in phrases if isinstance(phrase, Rounds)]
    times = [phrase for phrase in phrases if isinstance(phrase, Times)]
    others = [
        phrase for phrase in phrases if not isinstance(phrase, (*_TELLING, Again)) and not is_bare(phrase)
    ]
    if others or any(phrase.every or phrase.more for phrase in rounds):
        return None
    if not agains:
        return rounds[0].number if len(rounds) == 1 and not times else None
    if len(agains) > 1 or agains[0].named or agains[0].last != EVERY_OTHER or len(times) + len(rounds) != 1:
        return None
    if rounds:
        return rounds[0].number
    often = times[0]
    turns = tuple(EVERY_OTHER * ((value or 0) + often.more) for value in often.number.values)
    return Number(turns, often.number.start, often.number.end)


def _opened(phrase: Phrase) -> tuple[Phrase, ...]:
    """A phrase, or those in it where it is a bracket."""
    return phrase.inside if isinstance(phrase, Brackets) else (phrase,)


def _odd_and_even(segments: list[Segment], place: int) -> tuple[Nodes, ...]:
    """The odd and the even rounds that two lines tell one after the other; empty where they do not."""
    lines = segments[place : place + EVERY_OTHER] if place >= 0 else []
    turns: dict[int, Nodes] = {}
    for segment in lines:
        every = segment.label.every if segment.label is not None and segment.label.kind == "every" else None
        if every is None or every.step != EVERY_OTHER:
            return ()
        first = candidates(segment)[0]
        if first.kind != "round" or not first.nodes or first.rounds is not None:
            return ()
        turns[every.first % EVERY_OTHER] = first.nodes
    return (turns[1], turns[0]) if len(turns) == EVERY_OTHER else ()
