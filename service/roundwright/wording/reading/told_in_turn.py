"""Rounds told by their parity, and how many: `Work 12 rounds thus: Odd rounds: purl. Even rounds: knit`."""

from typing import Final

from msgspec.structs import replace

from roundwright.language import say
from roundwright.wording.reading.candidates import candidates
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label_numbers import label_numbers
from roundwright.wording.reading.phrases import (
    FROM_THERE,
    Again,
    Continue,
    Fabric,
    Rounds,
    Said,
    Then,
    Times,
    opened,
)
from roundwright.wording.reading.seen import has_shaping, is_bare
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.spans import EVERY_OTHER
from roundwright.wording.reading.tree import Nodes, Number

OTHERWISE: Final = 0.5
"""What it costs to work rounds otherwise than the lines for odd and even rounds beside them tell."""
_TELLING: Final = frozenset((Said, Then, Fabric, Continue, Rounds, Times))


def with_rounds_in_turn_near(
    segments: list[Segment], place: int, options: list[Candidate]
) -> list[Candidate]:
    """The candidates of a segment that says how many rounds or how often, with the lines beside it that tell them."""
    number, turns = turns_near(segments, place)
    if number is None:
        return options
    segment = segments[place]
    if not turns:
        trouble = ("no_such_round", say("read.which_rounds"), segment.start)
        return [Candidate("unread", 0.0, trouble=trouble)]
    worked = Candidate("round", 0.0, turns[0], rounds=number, turns=turns)
    return [worked, *(replace(option, cost=option.cost + OTHERWISE) for option in options)]


def turns_near(segments: list[Segment], place: int) -> tuple[Number | None, tuple[Nodes, ...]]:
    """How many rounds are worked where a segment says how many or how often, and the rounds told in lines beside it.

    Those are odd and even rounds behind or before it, or rounds below: what has its own place is worked once there, and
    so once less here. A number without rounds is where rounds are announced and none stand below; nothing at all where
    neither is told.
    """
    segment = segments[place]
    if segment.label is not None or not (segment.intro or _has_parity(segments, place)):
        return None, ()
    if segment.intro and (often := _how_often(segment)):
        times, rounds, surely = often
        block = _rounds_below(segments, place, rounds)
        left = tuple(max(0, (value or 0) - 1) * len(block) for value in times.values)
        if block:
            return Number(left, times.start, times.end), block
        if surely:
            return times, ()
    number = _how_many(segment) if _has_parity(segments, place) else None
    if number is None:
        return None, ()
    behind = place + 1
    behind += behind < len(segments) and _leads(segments[behind])
    turns, own = _odd_and_even(segments, behind)
    if turns:
        whole = not own or all((value or 0) % EVERY_OTHER == 0 for value in number.values)
        return (_without(number, own), turns) if whole else (None, ())
    turns, own = _odd_and_even(segments, place - EVERY_OTHER)
    verb = any(is_bare(inner) for phrase in segment.phrases for inner in opened(phrase))
    return (_without(number, own), turns) if turns and not verb else (None, ())


def _has_parity(segments: list[Segment], place: int) -> bool:
    """Whether one of the lines beside a segment tells every other round."""
    return any(
        other.label is not None and other.label.every is not None
        for other in segments[max(0, place - 1) : place + 3]
    )


def _without(number: Number, own: int) -> Number:
    """So many rounds without those that are worked in their own place."""
    return Number(tuple(max(0, (value or 0) - own) for value in number.values), number.start, number.end)


def _how_often(segment: Segment) -> tuple[Number, int, bool] | None:
    """How often rounds below are worked, how many they are (0: not said), and whether they surely stand below.

    `Work these 10 rounds 3 times:`, `Work rounds 1 and 2 five times:`, `Work the following 2 rounds 5 times:`.
    """
    phrases = [inner for phrase in segment.phrases for inner in opened(phrase)]
    times = [phrase for phrase in phrases if type(phrase) is Times]
    agains = [phrase for phrase in phrases if type(phrase) is Again and phrase.segments != FROM_THERE]
    rounds = [phrase for phrase in phrases if type(phrase) is Rounds]
    silent = all(isinstance(phrase, (*_TELLING, Again)) for phrase in phrases)
    if len(times) == 1 and len(agains) + len(rounds) > 1 and _is_total(rounds[-1:], times[0], agains, rounds):
        rounds.pop()
    if len(times) != 1 or times[0].more or not silent or len(agains) + len(rounds) > 1:
        return None
    from_first = all(again.named == tuple(range(1, len(again.named) + 1)) for again in agains)
    if not from_first or any(line.every or line.more for line in rounds):
        return None
    texts = {phrase.text for phrase in phrases if type(phrase) is Said}
    below = agains or rounds or not texts.isdisjoint(_BELOW)
    lasts = [len(again.named) or again.last for again in agains]
    lasts = lasts or [line.number.of(0) or 0 for line in rounds] or [0]
    surely = lasts[0] > 1 and not texts.isdisjoint(_SURELY_BELOW)
    return (times[0].number, lasts[0], surely) if below else None


def _is_total(last: list[Rounds], times: Times, agains: list[Again], rounds: list[Rounds]) -> bool:
    """Whether the last number of rounds is that of all times: `the next 8 rounds 4 times, that is 32 rounds`."""
    block = (len(agains[0].named) or agains[0].last) if agains else rounds[0].number.of(0)
    total = last[0].number.of(0) if last and not last[0].every else None
    return total is not None and total == (block or 0) * (times.number.of(0) or 0)


def _rounds_below(segments: list[Segment], place: int, rounds: int) -> tuple[Nodes, ...]:
    """So many rounds told in lines below, numbered from the first on or not at all; without a number, all there are.

    Empty where those lines are no rounds, or a decrease is among them, and so the count is another each time.
    """
    turns: list[Nodes] = []
    for segment in segments[place + 1 : place + 1 + MOST_BELOW]:
        if rounds and len(turns) >= rounds:
            break
        label = segment.label
        numbers = label_numbers(label, 0) if label is not None and label.kind == "numbered" else []
        own = label is None and rounds > 0
        if not own and numbers != [*range(len(turns) + 1, len(turns) + 1 + len(numbers))]:
            break
        first = candidates(segment)[0]
        counted = bool(first.stated) and any(map(has_shaping, segment.phrases))
        same = first.again.named if first.kind == "loop" and first.again is not None else ()
        if len(same) == 1 and 0 < same[0] <= len(turns) and numbers:  # `Rounds 5-8: as round 1`
            turns.extend([turns[same[0] - 1]] * len(numbers))
            continue
        if first.kind != "round" or not first.nodes or counted or first.rounds is not None or first.length:
            return ()
        turns.extend([first.nodes] * (len(numbers) or 1))
    return tuple(turns) if len(turns) > 1 and rounds in (0, len(turns)) else ()


MOST_BELOW: Final = 40
"""Lines of a pattern that is worked several times."""
_BELOW: Final = frozenset(("following", "foll", "below", "next", "as", "follows"))
"""Words that say that rounds are told below."""
_SURELY_BELOW: Final = frozenset(("following", "foll", "below"))
"""Words that say so whatever stands below."""


def _leads(segment: Segment) -> bool:
    """Whether it is no more than `thus` before the lines that tell how."""
    return segment.label is None and all(type(phrase) is Continue for phrase in segment.phrases)


def _how_many(segment: Segment) -> Number | None:
    """How many rounds a segment tells, where it tells no stitches: `work 12 rounds`, `rep these 2 rounds 5 times`."""
    if segment.label is not None:
        return None
    phrases = [inner for phrase in segment.phrases for inner in opened(phrase)]
    agains = [phrase for phrase in phrases if type(phrase) is Again]
    rounds = [phrase for phrase in phrases if type(phrase) is Rounds]
    times = [phrase for phrase in phrases if type(phrase) is Times]
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


def _odd_and_even(segments: list[Segment], place: int) -> tuple[tuple[Nodes, ...], int]:
    """The odd and the even rounds that two lines tell one after the other, and how many of them have their own place.

    Empty where they do not tell them. `Round 1 and all odd rounds` has a place of its own, `odd rounds` has none.
    """
    lines = segments[place : place + EVERY_OTHER] if place >= 0 else []
    turns: dict[int, Nodes] = {}
    own = 0
    for segment in lines:
        label = segment.label
        every = label.every if label is not None else None
        if label is None or every is None or every.step != EVERY_OTHER or label.kind not in _PARITY:
            return (), 0
        first = candidates(segment)[0]
        if first.kind != "round" or not first.nodes or first.rounds is not None:
            return (), 0
        if label.kind == "numbered":
            if label_numbers(label, 0) != [own + 1]:
                return (), 0
            own += 1
        turns[every.first % EVERY_OTHER] = first.nodes
    if own and _goes_on_numbered(segments, place + EVERY_OTHER):
        return (), 0
    return ((turns[1], turns[0]), own) if len(turns) == EVERY_OTHER and own != 1 else ((), 0)


_PARITY: Final = ("every", "numbered")


def _goes_on_numbered(segments: list[Segment], place: int) -> bool:
    """Whether a line behind is for a later round, so that those between are told by the lines for every other round."""
    for segment in segments[place : place + EVERY_OTHER]:
        numbers = label_numbers(segment.label, 0) if segment.label is not None else []
        if numbers:
            return numbers[0] > EVERY_OTHER
    return False
