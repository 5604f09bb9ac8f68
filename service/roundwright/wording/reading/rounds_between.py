"""A crown that goes on with so many plain rounds between its decrease rounds: `with 2 rounds between, until 64 sts`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.loops import AS_TOLD, number_after_each, with_first
from roundwright.wording.reading.phrases import Again, Fabric, Rounds, Said
from roundwright.wording.reading.rhythm import rounds_fewer
from roundwright.wording.reading.seen import Seen, counts_left, is_bare
from roundwright.wording.reading.tree import Stated, named

MOST_TO_BETWEEN: Final = 3
"""Phrases from a number of rounds to `between`."""
OTHERWISE: Final = 0.5
"""What it costs to go on with other rounds between than are told."""
_BETWEEN: Final = frozenset(("between", "in between", "inbetween"))


def with_rounds_between(seen: Seen, stated: tuple[Stated, ...], options: list[Candidate]) -> list[Candidate]:
    """The candidates of a segment, with that which has the plain rounds it tells between those that shape."""
    if seen.changes and seen.times and number_after_each(seen.order) and not seen.evenly:
        options = [replace(way, cost=way.cost + OTHERWISE * (way.kind == "round")) for way in options]
    number = _between(seen)
    counts = counts_left(stated)[-1:] if seen.continues and not seen.times else ()
    until = seen.untils[-1].number if seen.untils else counts[0].number if counts else None
    times = seen.times[-1] if seen.times and until is None else None
    if not number or (until is None and times is None) or seen.until_round is not None:
        return options
    shapes = seen.changes or seen.continues or any(_shapes(again) for again in seen.agains)
    if not shapes or not _are_far(seen):
        return options
    goes_on = Candidate(
        "continue", 0.0, until=until, times=times, step=number + 1, per=seen.per, stated=counts_left(stated)
    )
    others = with_first(goes_on, in_this_way=False)  # of 4 times in all the first is above
    goes_on = replace(goes_on, cost=AS_TOLD * bool(others))
    return [goes_on, *others, *(replace(option, cost=option.cost + OTHERWISE) for option in options)]


def _are_far(seen: Seen) -> bool:
    """Whether nothing is told to be worked but `knit`, how often, and how far."""
    return all(is_bare(phrase) or phrase in seen.untils or phrase in seen.times for phrase in seen.work)


def _shapes(again: Again) -> bool:
    """Whether a decrease round, or the round before, is worked again, and no others."""
    return again.named == (named("decrease"),) or (again.last == 1 and not again.named)


def _between(seen: Seen) -> int:
    """How many plain rounds are told between those that shape: `2 rounds straight between`; 0 where none are."""
    if rounds_fewer(seen.order):  # `1 rnd less between decreases`
        return 0
    for place, phrase in enumerate(seen.order):
        if type(phrase) is not Rounds or phrase.every or phrase.more:
            continue
        for behind in seen.order[place + 1 : place + 1 + MOST_TO_BETWEEN]:
            if type(behind) is Said and behind.text in _BETWEEN:
                return phrase.number.of(0) or 0
            if type(behind) not in (Said, Fabric):
                break
    return 0
