"""Plain rounds that are told apart: `Rnds 2, 4 and 6: knit` behind round 7, `all rounds not mentioned are knit`."""

from typing import Final, TypeAlias

from msgspec import Struct

from roundwright.wording.reading.candidates import candidates
from roundwright.wording.reading.fabric_ways import plain_fill
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    Extent,
    Fabric,
    Length,
    Phrase,
    Rounds,
    Said,
    opened,
)
from roundwright.wording.reading.seen import is_bare
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.spans import EVERY_OTHER
from roundwright.wording.reading.states import FURTHER_DOWN, Entry
from roundwright.wording.reading.telling import is_for_others
from roundwright.wording.reading.working import fits_any_count

MOST_NUMBERS: Final = 60
"""Rounds of one line that are told apart."""


class Later(Struct, frozen=True):
    """A line, at `place`, for plain rounds among those of the segments from `begin` to before `stop`.

    `numbers` are theirs; empty for all.
    """

    place: int
    begin: int
    stop: int
    entry: Entry
    numbers: frozenset[int]


FirstCandidates: TypeAlias = dict[int, tuple[Segment, Candidate]]
"""The likeliest candidate of segments, by their identity; they are kept so that it stays theirs."""


class ToldLater:
    """The lines of a text for plain rounds that other lines leave out."""

    def __init__(self, segments: list[Segment], known: FirstCandidates) -> None:
        self.lines: list[Later] = []
        self.known = known
        begin, highest = 0, 0
        gaps_before = False
        given = set[int]()
        for place, segment in enumerate(segments):
            if is_for_others(segment):
                self.lines.append(Later(place, 0, len(segments), _plain(segment), frozenset()))
            if named := _named_plain(segments, place):
                before = self.lines[-1].stop if self.lines else 0
                stop = before if before > place else _end_of_part(segments, place)
                self.lines.append(Later(place, place, stop, _plain(segment), named))
            numbers = _numbers(segment.label)
            if len(numbers) == 1 and len(segment.phrases) > 1 and _tells_every_other(segment):
                further = frozenset(range(numbers[0] + 2, numbers[0] + 2 * MOST_NUMBERS, 2))
                stop = _end_of_part(segments, place)
                self.lines.append(Later(-1, place, stop, _plain(segment), further))
            between = highest and gaps_before and self.between(segment, place, begin)
            if not between and (from_place := _tells_ahead(segments, place)) is not None:
                stop = _end_of_part(segments, place)
                self.lines.append(Later(from_place, place, stop, _plain(segment), frozenset()))
            if not numbers:
                continue
            gaps = len(numbers) > 1 and numbers[-1] - numbers[0] >= len(numbers)
            gaps_before = gaps_before or gaps or bool(highest and numbers[0] == highest + 2)
            anew = gaps and given.issuperset(numbers)  # where the first of the next part are told below
            if anew and _goes_back(segments, place, numbers[0]):
                begin, highest, given = place, 0, set()
            if gaps and numbers[0] <= highest:
                self.add(segment, place, begin, place + 1, frozenset(numbers))
            elif gaps and _goes_back(segments, place, numbers[0], highest):
                self.add(segment, place, place, _end_of_part(segments, place), frozenset(numbers))
            else:
                begin, given = (place, set()) if numbers[0] <= highest else (begin, given)
                highest = numbers[-1]
            given.update(numbers)

    def between(self, segment: Segment, place: int, begin: int) -> bool:
        """Keep a line for the plain rounds between those before it, if it is one."""
        every_other = _every_other(segment.label)
        if every_other is not None and _are_knit(segment.phrases):
            self.lines.append(Later(place, begin, place, _plain(segment), every_other))
        elif every_other is not None:
            self.add(segment, place, begin, place, every_other)
        elif segment.label is None and _is_plain_between(segment.phrases):
            self.lines.append(Later(place, begin, place, _plain(segment), frozenset()))
        else:
            return False
        return True

    def add(self, segment: Segment, place: int, begin: int, stop: int, numbers: frozenset[int]) -> None:
        """Keep a line, if its rounds are plain."""
        if id(segment) not in self.known:
            self.known[id(segment)] = (segment, candidates(segment)[0])
        option = self.known[id(segment)][1]
        if option.kind == "round" and fits_any_count(option.nodes) and not option.stated:
            entry = Entry(option, FURTHER_DOWN + segment.start)
            self.lines.append(Later(place, begin, stop, entry, numbers))

    def entry(self, place: int, number: int, *, named: bool = False, last: bool = False) -> Entry | None:
        """The line for a round that is lacking before the segment at `place`.

        `named` where it has the number, `last` where that is its last: `Even rounds 2-20` do not end in a round 6.
        """
        for line in self.lines:
            if named and (not line.numbers or line.place < 0 or (last and number != max(line.numbers))):
                continue
            if line.begin <= place < line.stop and (not line.numbers or number in line.numbers):
                return line.entry
        return None

    def holds(self, place: int) -> bool:
        """Whether the segment at `place` is such a line."""
        return any(line.place == place for line in self.lines)


def _plain(segment: Segment) -> Entry:
    """Plain rounds that a segment tells."""
    plain = Candidate("round", 0.0, plain_fill("k", segment.start, segment.end))
    return Entry(plain, FURTHER_DOWN + segment.start)


def _tells_every_other(segment: Segment) -> bool:
    """Whether a plain round says that every other behind it is as it is: `Rnd 2: knit (and all even rnds after it)`."""
    first, *behind = segment.phrases
    if not is_bare(first) or not behind:
        return False
    inner = [phrase for outer in behind for phrase in opened(outer)]
    every = [phrase for phrase in inner if type(phrase) is Rounds]
    others = [phrase for phrase in inner if type(phrase) not in (Rounds, Said, Length)]
    single = len(every) == 1 and every[0].every and every[0].step == EVERY_OTHER
    return single and all(map(is_bare, others))


def _named_plain(segments: list[Segment], place: int) -> frozenset[int]:
    """The plain rounds that a line tells before those they stand between, without a label: `Knit rounds 2 and 4`."""
    phrases = segments[place].phrases
    again = [phrase for phrase in phrases if type(phrase) is Again]
    if segments[place].label is not None or len(again) != 1 or not again[0].work or again[0].last:
        return frozenset()
    others = [phrase for phrase in phrases if type(phrase) not in (Again, Said, Extent)]
    plain = all(is_bare(phrase) or _is_straight(phrase) for phrase in others)
    named = again[0].named
    if not plain or not others or len(named) < 2 or min(named) < 1 or max(named) - min(named) < len(named):
        return frozenset()
    return frozenset(named) if _goes_back(segments, place, min(named)) else frozenset()


def _tells_ahead(segments: list[Segment], place: int) -> int | None:
    """The place of a line that tells the plain rounds between those below it, of which every other is given.

    `All even rnds are knit.` before rounds 1, 3 and 5. In the bracket of a heading, `Crown (even rnds are knit)`, it is
    no line of its own: -1. None where nothing of the kind is told.
    """
    if segments[place].label is not None:
        return None
    match segments[place].phrases:
        case (*words, Brackets(inside=inside)) if words and all(type(word) is Said for word in words):
            from_place, phrases = -1, inside
        case phrases:
            from_place = place
    if not _is_plain_between(phrases):
        return None
    given = [_numbers(later.label) for later in segments[place + 1 : place + 1 + MOST_BEFORE_GIVEN]]
    single = [numbers[0] for numbers in given if len(numbers) == 1]
    return from_place if single[:2] in ([1, 3], [2, 4]) else None


MOST_BEFORE_GIVEN: Final = 4
"""Lines behind such a line, in which the first two rounds have to be given."""


def _every_other(label: Label | None) -> frozenset[int] | None:
    """The numbers of a label for every other round, `Even rounds 2-12`; empty for all, None for any other label."""
    every = label.every if label is not None and label.kind == "every" else None
    if every is None or every.step != EVERY_OTHER:
        return None
    last = every.last.of(0) or 0 if every.last is not None else 0
    return frozenset(range(every.first, min(last, every.first + MOST_NUMBERS) + 1, EVERY_OTHER))


def _is_plain_between(phrases: tuple[Phrase, ...]) -> bool:
    """Whether the rounds that were left out are told: `Knit the even rounds`."""
    rounds = [phrase for phrase in phrases if type(phrase) is Rounds]
    every = len(rounds) == 1 and rounds[0].every and rounds[0].step == EVERY_OTHER
    rest = [phrase for phrase in phrases if type(phrase) not in (Rounds, Said)]
    return every and len(rest) == 1 and is_bare(rest[0])


def _are_knit(phrases: tuple[Phrase, ...]) -> bool:
    """Whether all that they tell is knitting: `knit, no decreases`."""
    worked = [phrase for phrase in phrases if type(phrase) is not Said and not _is_straight(phrase)]
    return bool(worked) and all(map(is_bare, worked))


def _is_straight(phrase: Phrase) -> bool:
    """Whether it is `straight`."""
    return type(phrase) is Fabric and phrase.kind == "plain"


def _numbers(label: Label | None) -> list[int]:
    """The round numbers of a label, for the first size."""
    if label is None or label.kind not in ("numbered", "listed"):
        return []
    numbers: list[int] = []
    for span in label.spans:
        first, last = span.first.of(0) or 0, span.last.of(0) or 0
        numbers.extend(range(first, min(last, first + MOST_NUMBERS) + 1, span.step))
    return numbers[:MOST_NUMBERS]


def _end_of_part(segments: list[Segment], place: int) -> int:
    """Where the numbers begin anew behind a line that stands before its part."""
    highest = 0
    for later in range(place + 1, len(segments)):
        numbers = _numbers(segments[later].label)
        if numbers and numbers[0] <= highest and len(numbers) == 1:
            return later
        highest = max([highest, *numbers])
    return len(segments)


def _goes_back(segments: list[Segment], place: int, first: int, highest: int = 0) -> bool:
    """Whether one of the next lines is for a round before the first of this, and behind the highest above."""
    following = [_numbers(later.label) for later in segments[place + 1 : place + 3]]
    return any(numbers and highest < numbers[0] < first for numbers in following)
