"""Several rounds in one breath: the finer cuts of a segment, of which the search takes the one that comes out.

`k5 k2tog all the way round, knit 1 round, k4 k2tog round` is cut where a round may be complete: at its end, at its
count, at the end of what is repeated.
"""

from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.cutting import is_work
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    Continue,
    Count,
    Extent,
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
    is_silent,
)
from roundwright.wording.reading.seen import is_shaping
from roundwright.wording.reading.segment import Cut, Segment
from roundwright.wording.reading.spans import Span
from roundwright.wording.reading.tokens import EQUALS
from roundwright.wording.reading.tree import Number, Stitch

MOST_PARTS: Final = 24
"""Rounds that are told in one breath."""
MOST_OVER: Final = 5
"""Plain stitches behind a repeat that are no round, but the last of its round."""
_ALWAYS: Final = frozenset((Rounds, Until, Then, Length))
"""What a round may end with wherever it stands."""
_BEGINS: Final = frozenset((Stitches, Star, Fabric, Again))
_WORK: Final = frozenset((*_BEGINS, Brackets, Continue))
_CARRIED: Final = frozenset((Then, Said))


class _Breath(Struct):
    """A segment while it is cut.

    - `boldly`: whether a round may also end with what is repeated, without a word that says so
    - `worked`: whether stitches are worked in the part; `complete`: whether it may be a whole round
    - `starred`: whether a star is open
    """

    boldly: bool
    parts: list[list[Phrase]] = []
    part: list[Phrase] = []
    worked: bool = False
    complete: bool = False
    starred: bool = False

    def take(self, phrase: Phrase) -> None:
        """Take one more phrase."""
        begins = type(phrase) in _BEGINS or (type(phrase) is Brackets and is_work((phrase,)))
        if type(phrase) is Star and self.starred:
            begins = False
        if type(phrase) is Continue and self.boldly and self.part and type(self.part[-1]) is Star:
            begins = True  # `*k7, k2tog*, and so on until 6 sts remain`
        if begins and self.complete and not self.starred:
            self.cut()
        self.part.append(phrase)
        self.worked = self.worked or begins or type(phrase) is Continue
        self.note_end(phrase, begins=begins)

    def cut(self) -> None:
        """End the part; words at its end belong to the next."""
        stop = len(self.part)
        while stop and type(self.part[stop - 1]) in _CARRIED:
            stop -= 1
        carried = self.part[stop:]
        del self.part[stop:]
        self.parts.append(self.part)
        self.part = carried
        self.worked = self.complete = False

    def note_end(self, phrase: Phrase, *, begins: bool) -> None:
        """Keep whether the part may end here."""
        if type(phrase) is Star:
            closes = self.starred
            self.starred = not closes
            self.complete = closes and self.boldly
        elif type(phrase) is Rep:
            self.starred = False
            self.complete = self.boldly
        elif type(phrase) is Extent:
            to_end = phrase.leave is not None and phrase.leave.values == (0,)
            self.complete = to_end and not phrase.marker and self.worked
        elif type(phrase) in _ALWAYS:
            self.complete = self.worked
        elif type(phrase) is Times:
            self.complete = self.worked and self.boldly
        elif type(phrase) is Count or (type(phrase) is Brackets and not begins):
            self.complete = self.worked and (_counts(phrase) or self.complete)
        elif type(phrase) is Brackets:
            self.complete = self.boldly
        elif begins:
            self.complete = False


def _counts(phrase: Phrase) -> bool:
    """Whether it is a count, or a bracket with no more than one."""
    if type(phrase) is Brackets:
        return Count in [type(inner) for inner in phrase.inside]
    return type(phrase) is Count and not phrase.sign and (phrase.sure or bool(phrase.flags & EQUALS))


def with_finer_cuts(segment: Segment) -> Segment:
    """The segment with the finer cuts of its words, where there are any."""
    begun = sum(type(phrase) in _WORK for phrase in segment.phrases)
    if begun < 2 or segment.under_notes or segment.troubles or _goes_on(segment.phrases):
        return segment
    cuts: list[Cut] = []
    ways = [_parts(segment.phrases, boldly=False), _parts(segment.phrases, boldly=True)]
    ways.append(_narrowing(ways[0]))
    for place, parts in enumerate(ways):
        if 1 < len(parts) <= MOST_PARTS and len(parts) not in map(len, ways[:place]):
            cuts.append(Cut(1, _segments(segment, parts)))
    return replace(segment, cuts=(*segment.cuts, *cuts)) if cuts else segment


def _goes_on(phrases: tuple[Phrase, ...]) -> bool:
    """Whether rounds go on without a count at which they end, so that no end of them is known."""
    goes_on = Continue in [type(phrase) for phrase in phrases]
    return goes_on and Until not in [type(phrase) for phrase in phrases]


def _parts(phrases: tuple[Phrase, ...], *, boldly: bool) -> list[list[Phrase]]:
    breath = _Breath(boldly)
    for phrase in phrases:
        breath.take(phrase)
    return _without_few(breath)


def _without_few(breath: _Breath) -> list[list[Phrase]]:
    """The parts; a few plain stitches are no round, but belong to the part before: `*k8, k2tog*, k1`."""
    made: list[list[Phrase]] = []
    for part in (*breath.parts, breath.part):
        spoken = [phrase for phrase in part if not is_silent(phrase) and type(phrase) is not Count]
        few = len(spoken) == 1 and 0 < _plain(spoken[0]) <= MOST_OVER
        if made and few:
            made[-1] = [*made[-1], *part]
        elif part:
            made.append(part)
    return made


def _narrowing(parts: list[list[Phrase]]) -> list[list[Phrase]]:
    """The parts, cut too where a stitch fewer is plain before the same decrease: `k3 k2tog, k2 k2tog, k2tog`."""
    made: list[list[Phrase]] = []
    for part in parts:
        places = [place for place, phrase in enumerate(part) if not is_silent(phrase)]
        spoken = [part[place] for place in places]
        begun = 0
        for number in range(2, len(spoken)):
            if _is_narrower(spoken, number):
                made.append(part[begun : places[number]])
                begun = places[number]
        made.append(part[begun:])
    return _without_number(made)


def _without_number(parts: list[list[Phrase]]) -> list[list[Phrase]]:
    """The parts without what the last says of all: `k3, k2tog; k2, k2tog - two rounds`."""
    last = parts[-1] if parts else []
    number = next((phrase for phrase in last if type(phrase) is Rounds and not phrase.every), None)
    if number is None or len(parts) < 2 or number.number.values != (len(parts),):
        return parts
    return [*parts[:-1], [phrase for phrase in last if phrase is not number]]


def _is_narrower(part: list[Phrase], place: int) -> bool:
    """Whether the unit that begins at a place of a part is the one before it, with one plain stitch less."""
    before = next((back for back in range(place - 1, max(place - 4, 0), -1) if is_shaping(part[back])), 0)
    plain = _plain(part[before - 1]) if before else 0
    here = _plain(part[place])
    unit = place if plain == 1 else place + 1
    if not plain or unit >= len(part) or (here != plain - 1 and plain > 1) or not is_shaping(part[unit]):
        return False
    return _stitch(part[unit]) == _stitch(part[before])


def _plain(phrase: Phrase) -> int:
    """How many plain stitches a phrase is; 0 where it is anything else."""
    node = phrase.node if type(phrase) is Stitches else None
    plain = type(node) is Stitch and node.name in ("k", "p") and not node.bare
    return (node.times.of(0) or 0) if plain and type(node) is Stitch else 0


def _stitch(phrase: Phrase) -> str:
    """The stitch a phrase works."""
    node = phrase.node if type(phrase) is Stitches else None
    return node.name if type(node) is Stitch else ""


def _numbered_apart(label: Label | None, parts: int) -> list[Label]:
    """A label for each round of `Rnds 1-3: k6, k2tog, then k5, k2tog, then k4, k2tog`; none for any other number."""
    if label is None or label.kind not in ("numbered", "listed") or parts < 2:
        return []
    numbers: list[int] = []
    for span in label.spans:
        first, last = span.first.of(0) or 0, span.last.of(0) or 0
        numbers.extend(range(first, min(last, first + parts) + 1))
    if len(numbers) != parts:
        return []
    return [replace(label, spans=(Span(Number((number,)), Number((number,))),)) for number in numbers]


def _segments(segment: Segment, parts: list[list[Phrase]]) -> tuple[Segment, ...]:
    """The parts of a segment; those behind the first are for its sizes and have no other label."""
    label = segment.label
    numbered = _numbered_apart(label, len(parts))
    sizes = Label("sizes", segment.start, sizes=label.sizes) if label is not None and label.sizes else None
    made: list[Segment] = []
    for place, part in enumerate(parts):
        start = segment.start if place == 0 else part[0].start
        end = parts[place + 1][0].start if place + 1 < len(parts) else segment.end
        made.append(
            replace(
                segment,
                label=numbered[place] if numbered else label if place == 0 else sizes,
                phrases=tuple(part),
                start=start,
                end=end,
                heading=segment.heading and place == 0,
                alone=False,
                intro=segment.intro and place + 1 == len(parts),
                cuts=(),
            )
        )
    return tuple(made)
