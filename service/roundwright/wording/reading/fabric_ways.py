"""What a segment says of its rounds, and rounds of which only the fabric is said: `Work 8 rnds in rib`."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from msgspec import Struct

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.parsing.colours import COLOURS
from roundwright.wording.reading.phrases import (
    OF_ALL,
    Brackets,
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
    names_rib,
    opened,
)
from roundwright.wording.reading.seen import Seen, has_stitches, works_rounds
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.settle import Settled, settle
from roundwright.wording.reading.tokens import COLON, COMMA, SEMI, STOP
from roundwright.wording.reading.tree import NOTHING, ONE, Fill, Nodes, Number, Stated, Stitch


class RoundWork(Struct, frozen=True):
    """What a segment says of the rounds it works.

    - `work`: its phrases of work; `stitches`: those in which stitches are worked
    - `number`: how many rounds; `length` where they are worked to a length
    - `fabric`: whether they are rounds of a fabric, in which stitches are worked over and over
    """

    seen: Seen
    label: Label | None
    segment: Segment
    stated: tuple[Stated, ...]
    work: tuple[Phrase, ...]
    stitches: list[Phrase]
    number: Number | None
    length: bool
    fabric: bool
    cost: float

    def round(self, way: Settled, cost: float, others: tuple[Nodes, ...] = ()) -> Candidate:
        """The candidate that works it in this way, for so much more."""
        seen = self.seen
        return Candidate(
            "round",
            self.cost + cost + way.cost,
            way.nodes,
            others,
            rounds=self.number,
            length=self.length and self.number is None,
            stated=self.stated,
            trouble=way.trouble,
            how=way.how,
            sections=first_of(seen.markers),
            every=seen.every,
            per_section=seen.per_part,
        )


def first_of(number: Number | None) -> int:
    """The number for the first size; 0 where there is none."""
    return (number.of(0) or 0) if number else 0


def plain_fill(name: str, start: int, end: int) -> Nodes:
    """A stitch over and over to the end."""
    stitch = Stitch("p" if name == "p" else "k", ONE, start, end, bare=True)
    return (Fill((stitch,), NOTHING, start, end, (start, end)),)


def fill(nodes: Nodes, segment: Segment) -> Nodes:
    """The stitches of a segment over and over to the end."""
    return (Fill(nodes, NOTHING, segment.start, segment.end, (segment.end, segment.end)),)


def ribs_told(segments: list[Segment], place: int) -> Iterator[Nodes]:
    """The ribs that the words at `place` tell: `2x2 rib`, `Rib: k2, p2`, or stitches below the line `Rib pattern`."""
    segment = segments[place]
    ribs = _ribs(segment)
    yield from (fill(rib.nodes, segment) for rib in ribs if rib.nodes)
    above = segments[place - 1] if place else segment
    headed = bool(_ribs(above)) and not any(map(has_stitches, above.phrases))
    if not ribs and not headed:
        return
    stitches = tuple(phrase for phrase in segment.phrases if type(phrase) in _OF_RIB)
    for way in settle(stitches) if stitches else ():
        yield way.nodes
        yield fill(way.nodes, segment)


def _ribs(segment: Segment) -> list[Fabric]:
    """The ribs that are named."""
    return [inner for phrase in segment.phrases for inner in opened(phrase) if names_rib(inner)]


_OF_RIB: Final = frozenset((Stitches, Star, Rep, Brackets, Extent, Times))
"""What tells the stitches of a rib."""


def fabric_only(work: RoundWork) -> list[Candidate]:
    """`Work 8 rnds in rib`, `work even`, `as established`."""
    seen, start, end = work.seen, work.segment.start, work.segment.end
    unsaid = work.number is None and not work.length and work.label is None
    if seen.changes and seen.untils and any(rounds.every for rounds in seen.rounds):
        return []  # `dec every round as established until 18 sts remain`
    if unsaid and any(phrase.manner for phrase in seen.continues):
        return []  # `in garter st, thus:`
    if seen.untils and (seen.continues or not seen.lengths):
        return []  # `Continue so, with a plain round between, until 24 are left`
    if unsaid and (seen.times or _tells_count(seen) or _only_names_fabric(seen)):
        return []  # `work the welt 8 times`, `64 sts after the rib`, `Garter brim`
    if unsaid_rounds := _unsaid_rounds(work):
        return [Candidate("round", work.cost + 0.5, plain_fill("k", start, end), rounds=unsaid_rounds)]
    charted = seen.chart and (work.label is not None or _follows_chart(work))
    if not (seen.fabrics or _are_rounds(work) or charted):
        return []
    ribs = any(map(names_rib, seen.fabrics))
    inside = [inner for phrase in seen.order if ribs and type(phrase) is Brackets for inner in opened(phrase)]
    fabrics = [*seen.fabrics, *(inner for inner in inside if names_rib(inner))]  # rib (2x2)
    fabric = next((fabric for fabric in fabrics if fabric.nodes), None)
    cost = work.cost
    if charted and not work.label:
        cost, weak = min(work.cost, OF_CHART), 0.0
    elif not seen.fabrics:
        sure = work.number is None or _ends_without(seen) or seen.chart or then_in_colour(seen.order)
        sure = sure or _works_rounds_in(seen) or in_colour_alone(seen)
        weak = 0.3 if sure else 0.8
    else:
        # dec as before on each of next 3 rnds
        shaped = bool(seen.changes) and seen.fabrics[0].kind == "before"
        weak = 1.5 if unsaid and (seen.lead or seen.words > 0.2) else SHAPED_BEFORE * shaped
    return [
        Candidate(
            "round",
            cost + weak,
            fill(fabric.nodes, work.segment) if fabric and ribs else plain_fill("k", start, end),
            rounds=work.number,
            length=work.length and work.number is None,
            stated=work.stated,
            chart=seen.chart,
            ribbed=ribs and fabric is None,
        )
    ]


SHAPED_BEFORE: Final = 0.5
"""What it costs to work rounds plain that are told to be shaped as before."""


def stripes(phrases: tuple[Phrase, ...], segment: Segment) -> Candidate | None:
    """`Two rounds white and four navy, and do that five times, thirty rounds`: plain rounds; None for anything else."""
    often = [place for place, phrase in enumerate(phrases) if type(phrase) is Times]
    nodes = plain_fill("k", segment.start, segment.end)
    if phrases and type(phrases[-1]) is Length and _works_stripes(phrases[:-1]):
        return Candidate("round", 0.1, nodes, length=True)
    if not often and all(map(_tells_stripe, phrases)):
        in_all = bands_in_all(phrases) or _bands_in_a_row(phrases)
        return Candidate("round", 0.1, nodes, rounds=in_all) if in_all else None
    if len(often) != 1 or not all(map(_tells_stripe, phrases)):
        return None
    times, bands = phrases[often[0]], [*filter(_is_band, phrases[: often[0]])]
    behind = [inner for phrase in phrases[often[0] :] for inner in opened(phrase)]
    total = [phrase.number for phrase in behind if type(phrase) is Rounds]
    if type(times) is not Times or times.more or len(bands) < FEWEST_BANDS:
        return None
    rounds = sum(band.number.of(0) or 0 for band in bands if type(band) is Rounds)
    rounds *= times.number.of(0) or 0
    if any(number.of(0) != rounds for number in total):
        return None
    return Candidate("round", 0.1, nodes, rounds=Number((rounds,), segment.start, segment.end))


def _works_stripes(phrases: tuple[Phrase, ...]) -> bool:
    """Whether stripes are worked over and over, as to a length: `Work stripes of 4 rnds white, 4 rnds red`."""
    texts = [phrase.text if type(phrase) is Said else "" for phrase in phrases]
    return texts[:1] == ["work"] and not _STRIPES.isdisjoint(texts) and all(map(_tells_stripe, phrases))


def _bands_in_a_row(phrases: tuple[Phrase, ...]) -> Number | None:
    """How many rounds bands make that are told each with its colour, `Knit 4 rnds white, 4 rnds red, all in st st`.

    None where they may only be the stripes that are worked over and over, `Stripes: 4 rnds white, 4 rnds red`.
    """
    at = [place for place, phrase in enumerate(phrases) if type(phrase) is Rounds]
    if len(at) < FEWEST_BANDS or any(type(phrase) is Brackets for phrase in phrases):
        return None
    texts = [phrase.text if type(phrase) is Said else "" for phrase in phrases]
    before = {text for text, phrase in zip(texts, phrases[: at[0]], strict=False) if type(phrase) is Said}
    coloured = [
        {text for text in texts[band + 1 : end] if text in COLOURS}
        for band, end in pairwise([*at, len(phrases)])
    ]
    worked = "work" in before or any(type(phrase) is not Said for phrase in phrases[: at[0]])
    if len(at) > FEWEST_BANDS:
        worked = worked or coloured[0] == coloured[-1]
    elif not before.isdisjoint(_STRIPES):
        worked = False  # work stripes: *4 rnds white, 4 rnds red*, rep from * to * 2 times
    if not (before <= _BEFORE_BANDS and worked and all(coloured)):
        return None
    rounds = sum(phrase.number.of(0) or 0 for phrase in phrases if type(phrase) is Rounds)
    return Number((rounds,), phrases[at[0]].start, phrases[at[-1]].end)


_BEFORE_BANDS: Final = frozenset(
    ("work", "come", "comes", "follow", "now", "the", "stripes", "stripe", "in", "with")
)
"""Words before bands of colour that are worked once."""


def bands_in_all(phrases: tuple[Phrase, ...]) -> Number | None:
    """How many rounds bands are in all: `stripes of 4 rounds C, 4 rounds M until 32 rounds have been worked`.

    The number stands behind the bands or before them, `32 rounds in stripes of 4 rounds C and 4 rounds M`, whether the
    bands come out even or not; None where none does.
    """
    stripe = [inner for phrase in phrases for inner in opened(phrase)]
    at = [place for place, phrase in enumerate(stripe) if type(phrase) is Rounds and not phrase.every]
    runs = [phrase for phrase in stripe if type(phrase) is Rounds and not phrase.every]
    if len(runs) <= FEWEST_BANDS or any(band.more or len(band.number.values) > 1 for band in runs[1:-1]):
        return None
    if not all(type(phrase) in (Said, Rounds) for phrase in stripe[at[0] : at[-1]]):
        return None
    bands = [band.number.of(0) or 0 for band in runs]
    texts = [phrase.text if type(phrase) is Said else "" for phrase in stripe]
    until = type(phrases[-1]) is Brackets and any(inner is runs[-1] for inner in phrases[-1].inside)
    counted = until or "for" in texts[at[-2] : at[-1]] or not OF_ALL.isdisjoint(texts[at[-2] :])
    if counted and bands[-1] > max(bands[:-1]):
        return runs[-1].number
    whole = sum(bands[1:])
    stripes = not _STRIPES.isdisjoint(texts) and bands[0] > whole
    return runs[0].number if stripes else None


_STRIPES: Final = frozenset(
    ("stripes", "stripe", "striped", "alternating", "alternately", "bands", "striping")
)


def _is_band(phrase: Phrase) -> bool:
    return type(phrase) is Rounds


def _tells_stripe(phrase: Phrase) -> bool:
    """Whether a phrase may stand where stripes are told."""
    match phrase:
        case Rounds(every=every, more=more, number=number):
            return not every and not more and len(number.values) == 1
        case Times(number=number):
            return len(number.values) == 1
        case Rep(level=level):
            return not level
        case Fabric(kind=kind):
            return kind in ("plain", "stocking")
        case Stitches(node=Stitch(name="k", bare=bare)):
            return bare
        case Extent(leave=leave, marker=marker):
            return leave == NOTHING and not marker
        case Brackets(inside=inside):
            return all(map(_tells_stripe, inside))
        case _:
            return type(phrase) in (Said, Then)


FEWEST_BANDS: Final = 2
"""Bands of colour that make a stripe."""


def _follows_chart(work: RoundWork) -> bool:
    """Whether so many rounds of a chart are told to be worked: `With both colours work the 23 rounds of Chart 3`."""
    texts = [phrase.text for phrase in work.seen.order if type(phrase) is Said]
    return work.number is not None and not _FOLLOWING.isdisjoint(texts)


_FOLLOWING: Final = frozenset(("work", "follow", "do", "complete", "working", "following"))
OF_CHART: Final = 0.1
"""What it costs at most that words stand around a chart and the number of its rounds."""


def in_colour_alone(seen: Seen) -> bool:
    """Whether so many rounds and their colour stand alone, `1 round blue only`, or behind a name: `Dots: 3 rnds MC`."""
    match seen.order:
        case (Rounds(every=False), *words):
            pass
        case (Said(), Rounds(every=False, flags=flags), *words) if flags & COLON:
            pass
        case _:
            return False
    texts = [word.text for word in words if type(word) is Said]
    return len(texts) == len(words) and _tells_colour(texts)


def _tells_colour(texts: list[str], *, lettered: bool = False) -> bool:
    """Whether words are those of a colour and no others: `with blue only`; `lettered` where a letter names it."""
    coloured = lettered or not COLOURS.isdisjoint(texts)
    return coloured and all(text in _WITH_COLOUR or text in COLOURS or len(text) == 1 for text in texts)


def _works_rounds_in(seen: Seen) -> bool:
    """Whether so many rounds are told to be worked in something of an unknown name: `Work 30 rnds in cable stitch`."""
    match seen.order:
        case (Said(text="work"), Rounds(every=False), Said(text="in"), *_):
            return True
        case _:
            return False


def _ends_without(seen: Seen) -> bool:
    """Whether rounds are told to be without, and not what: `1 round without.`."""
    return type(last := seen.order[-1]) is Said and last.text == "without"


def in_colour(segment: Segment) -> list[Candidate]:
    """`Rounds 1, 2: white`, `Rnd 5: in MC`: plain rounds of which no more than the colour is told."""
    label = segment.label
    if label is None or label.kind not in ("numbered", "next") or not segment.phrases:
        return []
    if not all(type(phrase) is Said for phrase in segment.phrases):
        return []
    texts = [phrase.text for phrase in segment.phrases if type(phrase) is Said]
    lettered = any(before in _NAMES_COLOUR and len(text) == 1 for before, text in pairwise(texts))
    if not _tells_colour(texts, lettered=lettered):
        return []
    start, end = segment.phrases[0].start, segment.phrases[-1].end
    return [Candidate("round", 0.2, plain_fill("k", start, end))]


_NAMES_COLOUR: Final = frozenset(("colour", "color", "in", "with", "yarn"))
_WITH_COLOUR: Final = _NAMES_COLOUR | frozenset(("only", "all", "the", "a", "and", "again"))
"""Words beside the colour of a round."""


def then_in_colour(phrases: tuple[Phrase, ...]) -> bool:
    """Whether further rounds follow in a colour of their own: `then 14 rounds grey`, `ending with 4 rounds in B`."""
    at = next((place for place, phrase in enumerate(phrases) if type(phrase) is Rounds), 0)
    then = any(type(phrase) is Then or _ends_with(phrase) for phrase in phrases[:at])
    behind = phrases[at + 1] if at + 1 < len(phrases) else None
    apart = behind is None or bool(behind.flags & (COMMA | SEMI | STOP))
    return then and type(behind) is Said and behind.words <= 1 and not apart


def _ends_with(phrase: Phrase) -> bool:
    return type(phrase) is Said and phrase.text in ("ending", "finishing", "end", "finish")


def _tells_count(seen: Seen) -> bool:
    """Whether a count is told first, and of which fabric."""
    first = next((phrase for phrase in seen.order if type(phrase) is not Said), None)
    return type(first) is Count


def _only_names_fabric(seen: Seen) -> bool:
    """Whether a fabric is named, and nothing says that it is worked."""
    texts = [phrase.text for phrase in seen.order if type(phrase) is Said]
    if len(seen.order) == len(texts) + 1 and texts[-1:] == ["the"] and not _WORKING.intersection(texts):
        return type(seen.order[-1]) is Fabric  # `Now the pattern.`
    verbs = any(text in VERBS for text in texts)
    named = all(fabric.kind in NAMED_FABRICS for fabric in seen.fabrics)
    words = Said in [type(phrase) for phrase in seen.order]
    return bool(seen.fabrics) and named and words and not (verbs or seen.continues or seen.untils)


_WORKING: Final = frozenset(("work", "works", "worked", "working", "do"))
VERBS: Final = ("work", "works", "worked", "working", "do", "then", "now")
"""Words before a fabric that is worked."""
NAMED_FABRICS: Final = ("rib", "garter", "moss", "stocking")


def _unsaid_rounds(work: RoundWork) -> Number | None:
    """How many rounds `plain 14` is: a fabric and a number, and no more."""
    match work.seen.order:
        case (Fabric(), Count(sure=False, number=number) as count) if not count.flags & COLON:
            return number if work.number is None and not work.length else None
    return None


def _are_rounds(work: RoundWork) -> bool:
    """Whether a number of rounds is enough to work them: `8 rnds`."""
    seen = work.seen
    words = MOST_BESIDE_CHART if seen.chart or works_rounds(seen) else MOST_BESIDE_ROUNDS
    added = (
        work.number is not None and bool(seen.rounds) and work.number.values != seen.rounds[0].number.values
    )
    single = len(seen.rounds) - (seen.in_all is not None) == 1
    alone = (single or bool(seen.times) or added) and seen.words < words
    return work.number is not None and (work.label is not None or alone)


MOST_BESIDE_ROUNDS: Final = 1.1
"""Unknown words, as they are weighed, beside a number of rounds that is told alone."""
MOST_BESIDE_CHART: Final = 1.6
"""The same, where they are those of a chart."""
