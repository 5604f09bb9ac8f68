"""A stitch that is worked so many times, evenly spread over a plain round: `knit, k2tog 3 times evenly`."""

from typing import Final, Literal

from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName, Work, execute
from roundwright.wording.reading.phrases import (
    Brackets,
    Change,
    Count,
    Extent,
    Phrase,
    Rounds,
    Said,
    Stitches,
    Then,
    Times,
    counts_of,
    is_bracketed_count,
)
from roundwright.wording.reading.seen import is_bare, is_shaping
from roundwright.wording.reading.tokens import SEMI, STOP
from roundwright.wording.reading.tree import NOTHING, ONE, Evenly, Stitch

_AROUND_CHANGE: Final = frozenset((Stitches, Said, Then, Rounds, Times, Count))
"""What may stand beside a change of one stitch: words, and how often it is made."""
MOST_AROUND: Final = 6
"""Words between `knit` and the stitch, or behind its times: `and at the same time`, `spaced evenly`."""


def with_spread(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with a stitch so many times, spread over a plain round, told as so many changes evenly spread."""
    for place, phrase in enumerate(phrases):
        if place and (is_at_every(phrase) or _is_at_end(phrases, place)):
            return [*phrases[: _plain_before(phrases, place)], *phrases[place:]]
        method = _method(phrase)
        if method is None:
            continue
        if place + 1 == len(phrases):
            break
        before, at = _said_before(phrases, place), _said_behind(phrases, place + 1)
        times = phrases[at] if at < len(phrases) else None
        if type(times) is not Times or times.more or times.total or times.flags & (STOP | SEMI):
            continue
        stop = _said_behind(phrases, at + 1)
        words = _words(phrases[before:place]) | _words(phrases[place + 1 : stop])
        if _SPREAD.isdisjoint(words):
            continue
        plain = bool(before) and is_bare(phrases[before - 1])
        begin = before - 1 if plain else _begin_where_alone(phrases, place, stop)
        if begin < 0:
            continue
        stop += stop < len(phrases) and type(phrases[stop]) is Extent  # evenly around
        used, left = execute((Work(method),))
        sign = 1 if left > used else -1
        node = Evenly(times.number, sign, phrase.start, phrases[stop - 1].end, method=method)
        spread = Stitches(phrase.start, phrases[stop - 1].end, phrases[begin].flags, node)
        return [*phrases[:begin], spread, *phrases[stop:]]
    return phrases


def with_lone_change(phrases: tuple[Phrase, ...]) -> tuple[Phrase, ...]:
    """The phrases of a line that changes the count by one stitch and works nothing else: `Next rnd: dec 1 st (79 sts)`.

    Within other stitches, `*k6, dec 1*`, it is a stitch like them.
    """
    if not all(type(phrase) in _AROUND_CHANGE or is_bracketed_count(phrase) for phrase in phrases):
        return phrases
    work = [(place, phrase) for place, phrase in enumerate(phrases) if type(phrase) is Stitches]
    place, stitches = work[0] if len(work) == 1 else (0, None)
    node = stitches.node if stitches is not None else None
    if stitches is None or type(node) is not Stitch or not node.loose or node.times is not ONE:
        return phrases
    used, left = execute((Work(node.name),))
    sign, number = 1 if left > used else -1, ONE
    behind = phrases[place + 1 :]
    in_one = Rounds not in [type(phrase) for phrase in phrases]
    if in_one and behind and type(behind[0]) is Times and not behind[0].more:  # dec 1 st 8 times
        number, behind = behind[0].number, behind[1:]
    return (*phrases[:place], replace(stitches, node=Evenly(number, sign, node.start, node.end)), *behind)


def _begin_where_alone(phrases: list[Phrase], place: int, stop: int) -> int:
    """Where the sentence of a stitch begins in which nothing else is worked; -1 in any other.

    `Decrease by k2tog 8 times evenly (56 sts).`
    """
    begin = place
    while begin and not phrases[begin].flags & STOP:
        begin -= 1
        if type(phrases[begin]) not in (Said, Change):
            return -1
    for phrase in phrases[stop:]:
        if phrase.flags & STOP:
            break
        if type(phrase) not in (Said, Extent) and not counts_of(phrase):
            return -1
    return begin


def _is_at_end(phrases: list[Phrase], place: int) -> bool:
    """Whether a stitch is told to be worked at the end of a round: `m1 at the end of the round`."""
    words = phrases[place + 1 : _said_behind(phrases, place + 1)]
    texts = [phrase.text for phrase in words if type(phrase) is Said]
    return _method(phrases[place]) is not None and bool(place_in_round(texts))


def place_in_round(texts: list[str]) -> Literal["", "beginning", "end"]:
    """Where in its round a stitch is told to be: `at the beginning of the next round`, `at end of rnd`."""
    words = " ".join(texts).split()
    if "beginning" in words and not _ROUND.isdisjoint(words[words.index("beginning") :]):
        return "beginning"
    if "end" not in words or words[-1] not in _ROUND:
        return ""
    between = set(words[words.index("end") + 1 : -1])
    placed = "at" in words or not _ROUND_AHEAD.isdisjoint(between)
    return "end" if placed and between <= _ROUND_AHEAD | {"of", "the"} else ""


_ROUND: Final = frozenset(("round", "rnd"))
_ROUND_AHEAD: Final = frozenset(("next", "this"))


def _plain_before(phrases: list[Phrase], place: int) -> int:
    """Where the plain round is told in which a stitch is worked at every so many: `knit 1 round, m1 after every`."""
    at = _said_before(phrases, place)
    match phrases[max(0, at - 2) : at]:
        case [before, Rounds(every=False, number=number)] if number.values == (1,):
            works = is_bare(before) or (type(before) is Said and before.text == "work")
            return at - 2 if works else place
        case [Stitches() as before, Extent(leave=leave)] if is_bare(before) and leave == NOTHING:
            return at - 2  # knit all sts and m1 after every 10 sts
        case [*_, Stitches() as before] if is_bare(before):
            return at - 1
        case _:
            return place


def is_at_every(phrase: Phrase) -> bool:
    """Whether a stitch is worked at every so many others: its plain stitches are told by the same words as it is."""
    if type(phrase) is not Brackets:
        return False
    match phrase.inside:
        case (Stitches(start=first), Stitches(end=last)):
            return first == phrase.start and last == phrase.end
        case _:
            return False


def _method(phrase: Phrase) -> StitchName | None:
    """The one stitch that it is, which takes stitches in or makes some; None where it is anything else."""
    node = phrase.node if type(phrase) is Stitches else None
    single = type(node) is Stitch and is_shaping(phrase) and node.times.values == (1,)
    return node.name if single and type(node) is Stitch else None


def _said_before(phrases: list[Phrase], place: int) -> int:
    """Where the words before a phrase begin."""
    begin = place
    while begin and type(phrases[begin - 1]) is Said and place - begin < MOST_AROUND:
        begin -= 1
    return begin


def _said_behind(phrases: list[Phrase], place: int) -> int:
    """Where the words from here on end."""
    stop = place
    most = min(len(phrases), place + MOST_AROUND)
    while stop < most and type(phrases[stop]) is Said and not phrases[stop].flags & (STOP | SEMI):
        stop += 1
    return stop


def _words(phrases: list[Phrase]) -> set[str]:
    return {word for phrase in phrases if type(phrase) is Said for word in phrase.text.split()}


_SPREAD: Final = frozenset(("evenly", "even", "spread", "spaced", "distributed", "equally", "regularly"))
