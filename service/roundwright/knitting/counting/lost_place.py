"""A place that is lost: the rounds that a count may belong to, how to see which of them is done, and how to go on.

Where many rounds hold a count, no round is named as if it were sure.
"""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from roundwright.knitting.counting.progress import NO_SHAPING, NextLine, Place, Progress, shaping_of
from roundwright.language import joined, listed, say

MOST_NAMED: Final = 4
"""Places named in one sentence: more are not taken in at a glance. All are in `matches`."""
FEW_ROUNDS: Final = 4
"""Rounds of which the first may be taken where nobody can tell: the plain rounds of a crown between two decreases."""


class Span(NamedTuple):
    """Rounds `first` to `last` of a part in succession that leave the same stitches, and the places they begin at."""

    places: tuple[Place, ...]
    first: int
    last: int


def holding(progress: Progress, stitches: int) -> tuple[Place, ...]:
    """The places the knitter may have reached, no round being stated, where the needles hold so many stitches."""
    return tuple(place for place in progress.possible if progress.stages[place[0]].after == stitches)


def spans_of(progress: Progress, places: Sequence[Place]) -> tuple[Span, ...]:
    """The rounds from each place to the end of its stage; those in succession are one span."""
    spans: list[Span] = []
    for index, number in places:
        stage = progress.stages[index]
        if spans and _goes_on(progress, spans[-1], index, number):
            spans[-1] = Span((*spans[-1].places, (index, number)), spans[-1].first, stage.last)
        else:
            spans.append(Span(((index, number),), number, stage.last))
    return tuple(spans)


def _goes_on(progress: Progress, span: Span, index: int, number: int) -> bool:
    before, after = progress.stages[span.places[-1][0]], progress.stages[index]
    return (before.part, before.after, span.last + 1) == (after.part, after.after, number)


def several(progress: Progress, places: Sequence[Place]) -> bool:
    """Whether there is more than one round in the places."""
    return _number_of_rounds(progress, places) > 1


def _number_of_rounds(progress: Progress, places: Sequence[Place]) -> int:
    return sum(progress.stages[index].last - number + 1 for index, number in places)


def places_named(progress: Progress, places: Sequence[Place]) -> str:
    """The places in words: `after round 3 or after round 4`, `after any of rounds 1 to 27 of the body`."""
    spans = spans_of(progress, places)[:MOST_NAMED]
    return listed([text for span in spans for text in _span_named(progress, span)], "or")


def _span_named(progress: Progress, span: Span) -> Iterator[str]:
    (index, first), last = span.places[0], span.last
    if not first and last:
        yield progress.reached(index, 0)
        first = 1
    if last - first < 2:
        yield from (progress.reached(index, number) for number in range(first, last + 1))
    else:
        yield progress.reached_any(index, first, last)


def line_to_take(progress: Progress, places: Sequence[Place]) -> NextLine | None:
    """The line to work where nobody can tell which of a few rounds is done; None where no line is safe to take.

    It is the line after the first of them, where that shapes nothing and is the line after all of them but the last.
    """
    if _number_of_rounds(progress, places) > FEW_ROUNDS:
        return None
    first, *others = (
        progress.next_line(index, number)
        for index, begins in places
        for number in range(begins, progress.stages[index].last + 1)
    )
    if first is None or shaping_of(first.round.steps) != NO_SHAPING:
        return None
    same = all(line and line.round.text == first.round.text for line in others[:-1])
    return first if same else None


def found(progress: Progress, places: Sequence[Place], as_before: str) -> tuple[NextLine | None, str]:
    """The line to work next where several rounds hold the count, and how to see which of them is done, in words.

    `as_before` tells the knitter to go on where nobody knows the line.
    """
    line, which = line_to_take(progress, places), which_round(progress, places)
    if line is None:
        return None, joined(" ", as_before, *which)
    word = say(f"count.word.{progress.word}")
    unsure = say(
        "count.right.unsure", line=progress.line_named(line), text=progress.wording(line.round), word=word
    )
    return line, joined(" ", *which, unsure)


def which_round(progress: Progress, places: Sequence[Place]) -> Iterator[str]:
    """How to see on the work which of the rounds is done."""
    decreased = {
        any(stage.shaping.decreases for stage in progress.stages[: index + 1]) for index, _ in places
    }
    yield say("count.right.which" if True in decreased else "count.right.which_from_the_edge")
    if len(decreased) > 1:
        yield say("count.right.which_undecreased")


def unsure_after(progress: Progress, index: int) -> bool:
    """Whether so many rounds hold what they do after the stage, none being stated, that nobody knows which is next."""
    spans = spans_of(progress, holding(progress, progress.stages[index].after))
    here = [span.places for span in spans if index in [at for at, _ in span.places]]
    return any(several(progress, places) and line_to_take(progress, places) is None for places in here)


def part_unknown(progress: Progress, index: int) -> bool:
    """Whether rounds of several parts hold what they do after the stage, none being stated and nothing shaped yet."""
    places = holding(progress, progress.stages[index].after)
    return len(spans_of(progress, places)) > 1 and progress.last_shaped(places[-1][0]) is None


def rib_among(progress: Progress, index: int) -> tuple[int, int] | None:
    """The rib that one of the rounds may be worked in that hold what they do after the stage; None where none is."""
    places = holding(progress, progress.stages[index].after)
    return next((rib for at, _ in places if (rib := progress.stages[at].rib)), None)
