"""Crowns that go on by the counts of their rounds: `every round is a decrease round: 60, then 50, then 40`."""

from itertools import pairwise, zip_longest
from typing import Final

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    Change,
    Continue,
    Count,
    Length,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Times,
    Until,
    counts_of,
)
from roundwright.wording.reading.seen import has_stitches, is_shaping
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tree import PLAIN_ROUND, Evenly, Stated

FEWEST: Final = 3
"""Counts in a row that lead on by themselves, each so many fewer than the one before."""
MOST_COUNTS: Final = 40
"""Counts in a row that are looked at."""


def counted_down(phrases: tuple[Phrase, ...], label: Label | None) -> list[Candidate]:
    """A crown that goes on to the last of several counts, which are those of its shaping rounds."""
    if label is not None or any(map(_works, phrases)) or counts_others(phrases):
        return []
    row = _row(phrases)
    goes_on = any(map(_leads_on, phrases))
    if len(row) < (FEWEST - goes_on) or not _comes_out(phrases, len(row)):
        return []
    stated = tuple(Stated(count.number, count.number.start, count.number.end) for count in row)
    bracketed = any(type(phrase) is Brackets and len(counts_of(phrase)) == len(row) for phrase in phrases)
    cost = (BY_COUNTS_IN_BRACKETS if bracketed else BY_COUNTS) if goes_on else BY_COUNTS_ALONE
    return [Candidate("continue", cost, until=row[-1].number, step=_step(phrases), stated=stated)]


def _comes_out(phrases: tuple[Phrase, ...], counts: int) -> bool:
    """Whether it goes on as often as there are counts, the first of which may be the one that is there already."""
    times = [phrase for phrase in phrases if type(phrase) is Times]
    return all(phrase.number.values in ((counts,), (counts - 1,)) for phrase in times)


BY_COUNTS_IN_BRACKETS: Final = 0.1
"""What it costs to go on by the counts in a bracket: `every round is a decrease round (48, 40, 32)`."""
BY_COUNTS: Final = 0.4
"""What it costs to go on by the counts, where the words say that the work goes on."""
BY_COUNTS_ALONE: Final = 0.9
"""The same, where nothing but the counts says so."""


def leads_to_counts(first: Segment, second: Segment) -> bool:
    """Whether a sentence says how the work goes on, and the next one tells no more than the counts it comes to."""
    if second.label is not None or first.label is not None or first.troubles or second.troubles:
        return False
    if any(map(_works, (*first.phrases, *second.phrases))) or any(map(_ends, first.phrases)):
        return False
    goes_on = any(map(_leads_on, first.phrases))
    return goes_on and len(_row(second.phrases)) >= FEWEST


def _row(phrases: tuple[Phrase, ...]) -> list[Count]:
    """The counts in a row, each as many fewer than the one before; empty where they are none such."""
    every = [count for phrase in phrases for count in counts_of(phrase)]
    counts = [count for count in every if not count.sign][:MOST_COUNTS]
    row: list[Count] = counts[:1]
    for before, count in pairwise(counts):
        if len(count.number.values) != len(before.number.values) or count.number.of(0) == before.number.of(0):
            break
        row.append(count)
    steps = {(before.number.of(0) or 0) - (count.number.of(0) or 0) for before, count in pairwise(row)}
    return row if len(steps) == 1 and min(steps) > 1 else []


def _works(phrase: Phrase) -> bool:
    """Whether it tells a round, and not how rounds go on."""
    if type(phrase) is Stitches:
        return type(phrase.node) is Evenly or is_shaping(phrase)
    if type(phrase) is Brackets:
        return has_stitches(phrase)
    return type(phrase) in (Star, Rep, Until) or (type(phrase) is Rounds and not phrase.every)


def counts_others(phrases: tuple[Phrase, ...]) -> bool:
    """Whether several numbers are of something else than rounds: `48, 40, 32 seconds`, `my swatches had 48, 40`."""
    others = any(
        type(phrase) is Length
        or (type(phrase) is Said and phrase.text in OTHER_THINGS and type(behind) is not Rounds)
        for phrase, behind in zip_longest(phrases, phrases[1:])
    )
    return others and bool(_row(phrases)) and not any(map(_works, phrases))


def _ends(phrase: Phrase) -> bool:
    return type(phrase) in (Count, Brackets)


def _leads_on(phrase: Phrase) -> bool:
    """Whether it says that the work goes on as before."""
    if type(phrase) is Rounds:
        return phrase.every
    if type(phrase) is Said:
        return phrase.text in _ON
    return type(phrase) in (Continue, Change) or (type(phrase) is Again and phrase.work)


def _step(phrases: tuple[Phrase, ...]) -> int:
    """Every how many rounds it goes on to be shaped; 0 where that is as it was before."""
    named = [name for phrase in phrases if type(phrase) is Again for name in phrase.named]
    if PLAIN_ROUND in named and len(named) > 1:
        shaped = [place for place, name in enumerate(named) if name != PLAIN_ROUND]
        return shaped[1] - shaped[0] if len(shaped) > 1 else len(named)
    alone = bool(named) and any(type(phrase) is Times for phrase in phrases)
    return max(
        (phrase.step or 1 for phrase in phrases if type(phrase) is Rounds and phrase.every),
        default=int(alone),
    )


OTHER_THINGS: Final = frozenset(
    (
        "needle", "needles", "circular", "circulars", "size", "sizes", "use", "used", "had", "was", "were", "swatch",
        "swatches", "ball", "balls", "grams", "seconds", "minutes", "hours", "cm", "mm", "inches", "in",
    )
)  # fmt: skip
"""Words that several numbers beside them are of, and no counts of rounds."""
_ON: Final = frozenset(("fewer", "less", "onwards", "onward"))
