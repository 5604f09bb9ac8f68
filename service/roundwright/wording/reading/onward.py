"""A crown that goes on in words of its own: sure is only that it goes on, and a count at which it may end.

`Keep going, a stitch fewer in each wedge, until ... (12)`: what the words say beside that is not read. The counts they
name are tried as the end, and the counts at which the plain stitches run out; what comes out is taken, with a note.
"""

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    Change,
    Continue,
    Count,
    Fabric,
    Length,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Times,
    Until,
    names_parity,
)
from roundwright.wording.reading.tree import Number, Stated, Stitch

COST: Final = 2.5
"""More than any way in which the words are read, less than a line that is not read."""
LATER: Final = 0.4
"""What it costs more to end at a count that stands earlier."""
MOST_ENDS: Final = 3
"""Counts of a sentence that are tried, from the last."""


def onward_ways(phrases: tuple[Phrase, ...]) -> list[Candidate]:
    """A crown that goes on to a count of the sentence, or to where its plain stitches run out."""
    if until_unit := _to_unit(phrases):
        return until_unit
    if not _goes_on(phrases):
        return []
    step = next((phrase.step or 1 for phrase in phrases if type(phrase) is Rounds and phrase.every), 0)
    ends = list(dict.fromkeys(number.values for number in _numbers(phrases)))[-MOST_ENDS:]
    named = [Number(values) for values in reversed(ends)]
    ways = [
        Candidate("continue", COST + LATER * place, until=number, step=step, onward="to_a_count")
        for place, number in enumerate(named)
    ]
    if not ways and any(type(phrase) is Continue and phrase.manner for phrase in phrases):
        ways = [
            Candidate("continue", COST + LATER * place, step=step, plain=place, onward="to_the_end")
            for place in (0, 1)
        ]
    return ways


def _to_unit(phrases: tuple[Phrase, ...]) -> list[Candidate]:
    """`Keep going until you've done the *k4, k2tog* round (30 sts) and a knit round after it`: to a round as it is.

    The counts told with it are those at the end; a plain round behind it is worked too.
    """
    begins = next((phrase for phrase in phrases if type(phrase) not in (Said, Then)), None)
    thus = type(begins) is Continue or any(type(phrase) is Continue and phrase.manner for phrase in phrases)
    at = next((place for place, phrase in enumerate(phrases) if type(phrase) is Length), None)
    if not thus or at is None:
        return []
    stars = [place for place in range(at + 1, len(phrases)) if type(phrases[place]) is Star][:2]
    inside = phrases[stars[0] + 1 : stars[1]] if len(stars) == 2 else ()
    nodes = tuple(phrase.node for phrase in inside if type(phrase) is Stitches)
    if not inside or len(nodes) != len(inside) or not all(type(node) is Stitch for node in nodes):
        return []
    behind = phrases[stars[1] + 1 :]
    stated = tuple(
        Stated(count.number, count.start, count.end) for count in _counts(behind) if not count.sign
    )
    plain = any(type(phrase) is Rounds and not phrase.every for phrase in behind)
    return [Candidate("continue", TO_UNIT, last=nodes, plain=int(plain), stated=stated[-1:])]


TO_UNIT: Final = 0.3
"""What it costs to go on until a round is worked as it is told."""


def as_numbered(
    phrases: tuple[Phrase, ...], label: Label | None, stated: tuple[Stated, ...]
) -> list[Candidate]:
    """`Rounds 8 to 13: as before, one stitch fewer each time`: the crown goes on for the rounds numbered.

    So it does with those named: `Rnds 3 and 4: Rep Rnds 1 and 2, with 1 st fewer between decreases`.
    """
    if label is None or label.kind not in ("numbered", "listed"):
        return []
    begins = label.spans[0].first.of(0) or 0
    named = (phrase for phrase in phrases if type(phrase) is Again and phrase.named)
    in_turn = next((again for again in named if max(again.named) < begins), None)
    thus = any(type(phrase) is Continue and phrase.manner for phrase in phrases)
    if in_turn is not None and thus and not any(type(phrase) in (Until, Length, Times) for phrase in phrases):
        return [Candidate("continue", IN_TURN, onward="in_turn", again=in_turn, stated=stated)]
    if not label.numbers_several():
        return []
    manner = any(type(phrase) in (Continue, Again, Change) for phrase in phrases)
    before = any(type(phrase) is Fabric and phrase.kind == "before" for phrase in phrases)
    if not (manner or before) or any(type(phrase) in (Until, Length) for phrase in phrases):
        return []
    sure = [phrase.number for phrase in _counts(phrases)]
    kept = tuple(count for count in stated if not count.sign and count.number in sure)[-1:]
    step = max((phrase.step for phrase in phrases if type(phrase) is Rounds and phrase.every), default=0)
    step = max(step, 2 * any(map(names_parity, phrases)))
    way = Candidate("continue", NUMBERED, onward="as_numbered", step=step, stated=kept)
    shaped = replace(way, step=1)
    if [type(phrase) for phrase in phrases].count(Count) > 1:
        return [shaped]  # same, with 4, 3, 2 and 1 st between decreases
    return [way] if step else [way, replace(shaped, cost=NUMBERED + IN_A_ROW)]


def _counts(phrases: tuple[Phrase, ...]) -> Iterator[Count]:
    """The counts of a line that can be nothing else: those in brackets, and those with their stitches."""
    for phrase in phrases:
        if type(phrase) is Brackets:
            yield from (inner for inner in phrase.inside if type(inner) is Count)
        elif type(phrase) is Count and phrase.sure:
            yield phrase


IN_TURN: Final = 0.2
"""What it costs to work the rounds named with another number of plain stitches."""
IN_A_ROW: Final = 0.1
"""What it costs more that each of the rounds numbered is shaped, where those before had plain ones between them."""
NUMBERED: Final = 0.8
"""What it costs to go on for as many rounds as are numbered, whatever else the words say."""


def _goes_on(phrases: tuple[Phrase, ...]) -> bool:
    """Whether the sentence says that the work goes on as before."""
    if Star in [type(phrase) for phrase in phrases]:
        return False
    begins = next((phrase for phrase in phrases if type(phrase) not in (Said, Then)), None)
    manner = any(type(phrase) is Continue and phrase.manner for phrase in phrases)
    every = any(type(phrase) is Rounds and phrase.every for phrase in phrases)
    until = any(type(phrase) in (Until, Length) for phrase in phrases)
    if Until in [type(phrase) for phrase in phrases] and _is_between(phrases):
        return True
    return manner or (every and until) or type(begins) in (Continue, Rep, Again, Change)


def _is_between(phrases: tuple[Phrase, ...]) -> bool:
    """Whether rounds are told to be worked between others: `so down, always a plain round between`."""
    words = {phrase.text for phrase in phrases if type(phrase) is Said}
    stitches = Stitches in [type(phrase) for phrase in phrases]
    return not stitches and bool(words & _BETWEEN) and Rounds in [type(phrase) for phrase in phrases]


_BETWEEN: Final = frozenset(("between", "in between", "always", "after each"))


def _numbers(phrases: tuple[Phrase, ...]) -> Iterator[Number]:
    """The numbers of a sentence that may be counts, also those in brackets."""
    for phrase in phrases:
        match phrase:
            case Until() | Count(sign=0):
                yield phrase.number
            case Brackets() if Times not in [type(inner) for inner in phrase.inside]:
                yield from _numbers(phrase.inside)
