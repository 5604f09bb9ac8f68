"""Words before the first numbered round that only say which fabric the rounds are in: `Ribbed crown, rib is K2, P2`."""

from collections.abc import Iterable, Iterator
from typing import Final

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.fabric_ways import NAMED_FABRICS, VERBS
from roundwright.wording.reading.phrases import (
    FIRST_ROUND,
    Again,
    Brackets,
    CastOn,
    Change,
    Chart,
    Closing,
    Continue,
    Count,
    Every,
    Extent,
    Fabric,
    Markers,
    PerPart,
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
from roundwright.wording.reading.seen import has_shaping, is_bare, is_ribbed
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tokens import COLON, EQUALS, FULL
from roundwright.wording.reading.tree import Evenly, Stitch


def tells_fabric(segments: list[Segment], place: int) -> bool:
    """Whether the words at `place` tell the fabric of the numbered rounds that begin behind them, and work nothing."""
    segment = segments[place]
    if _heads_work(segments, place) or _announces_change(segments, place) or _explains_rib(segments, place):
        return True
    if _defines_fabric(segment) or _tells_count_in_rib(segment) or _heads_ribs(segments, place):
        return True
    if segment.label is None and _tells_of_others(segments, place):
        return True
    if segment.label is not None:
        return _only_marks(segment) and _begins_rounds(segments, place + 1)
    if not _begins_rounds(segments, place + 1):
        behind = changes_in_first_round(segments, place + 1) or _counts_rounds(segments, place + 1)
        return _goes_on_in_fabric(segment) and behind
    if _heads_chart(segment) or _goes_on_in_fabric(segment) or _heads_fabric(segment):
        return True
    if not all(map(_only_tells, segment.phrases)) or not any(map(_names_work, segment.phrases)):
        return False
    if any(type(phrase) is Said and phrase.text in _TELLING for phrase in segment.phrases):
        return True
    if any(type(phrase) is Brackets and _tells_size(phrase) for phrase in segment.phrases):
        return True  # `Cable pattern (8-st rep, 6 rnds)`
    begun = any(type(phrase) is CastOn for earlier in segments[:place] for phrase in earlier.phrases)
    return not begun and any(type(phrase) in (Said, Fabric) for phrase in segment.phrases)


def _goes_on_in_fabric(segment: Segment) -> bool:
    """Whether no more is told than the fabric of the rounds behind it: `Continue in st st. In the 1st rnd inc 8`."""
    if segment.label is not None:
        return False
    kinds = {type(phrase) for phrase in segment.phrases} - {Then}
    return {Continue, Fabric} <= kinds <= _IN_FABRIC


def _counts_rounds(segments: list[Segment], place: int) -> bool:
    """Whether no more is told there than how many rounds: `Work 20 rounds`, `Knit 20 rounds`."""
    segment = segments[place] if place < len(segments) else None
    if segment is None or segment.label is not None:
        return False
    rounds = [phrase for phrase in segment.phrases if type(phrase) is Rounds]
    counted = [phrase for phrase in rounds if not phrase.every]
    silent = all(type(phrase) in (Rounds, Said, Then) or is_bare(phrase) for phrase in segment.phrases)
    paced = any(phrase.more or phrase.step > 1 for phrase in rounds)
    return silent and len(counted) == 1 and not paced


def _heads_fabric(segment: Segment) -> bool:
    """Whether a line is no more than the name of the fabric told below: `Mesh pattern`, `Moss stitch`."""
    words = [phrase.text for phrase in segment.phrases if type(phrase) is Said]
    fabrics = Fabric in [type(phrase) for phrase in segment.phrases]
    named = segment.alone and fabrics and all(type(phrase) in (Said, Fabric) for phrase in segment.phrases)
    return named and not any(word in VERBS for word in words)


def _tells_count_in_rib(segment: Segment) -> bool:
    """Whether a line is a heading that ends in the count and its rib: `Crown in rib (thick yarn, 72 sts in k2, p2)`."""
    match segment.phrases:
        case (first, *words, Brackets(inside=inside)) if segment.alone and _names_part(first):
            counted = Count in [type(phrase) for phrase in inside] and not _counts(inside[-1])
            silent = all(map(_names_part, words)) and all(map(_only_tells, inside))
            return counted and silent and segment.label is None
        case _:
            return False


def _heads_ribs(segments: list[Segment], place: int) -> bool:
    """Whether a hat or its top is named with its rib, before shaped rounds: `RIB HAT (k2, p3) - close the top`.

    So it is with what is done there, `Decreases in rib (k2, p2), 88 sts:`, `Close the hat in k2, p2 rib (112 sts):`.
    """
    phrases = segments[place].phrases
    ribs = [at for at, phrase in enumerate(phrases) if _tells_ribs(phrase)]
    at = next(iter(ribs or [at for at, phrase in enumerate(phrases) if _is_rib(phrase)]), 0)
    named = any(
        _closes(phrase) or type(phrase) is Change or (type(phrase) is Said and phrase.text in _RIBBED)
        for phrase in phrases[:at]
    )
    if segments[place].label is not None or not named or phrases[at].flags & COLON:
        return False
    silent = all(
        _names_part(phrase)
        or _closes(phrase)
        or _is_of_heading(phrase)
        or (type(phrase) is Brackets and all(map(_is_of_heading, phrase.inside)))
        for phrase in phrases
    )
    return silent and _shapes_next(segments, place + 1)


def _is_rib(phrase: Phrase) -> bool:
    return type(phrase) is Fabric and phrase.kind == "rib"


def _is_of_heading(phrase: Phrase) -> bool:
    """Whether it is a rib, its stitches, how many stitches there are, or words."""
    counted = type(phrase) is Count and not phrase.sign
    return counted or _is_rib(phrase) or _tells_ribs(phrase) or type(phrase) in (Change, Said)


def _tells_ribs(phrase: Phrase) -> bool:
    """Whether it is knits or purls counted, or a bracket around no more than such and their count."""
    match phrase:
        case Brackets(inside=inside):
            return any(map(_tells_ribs, inside)) and all(map(_only_tells, inside))
        case _:
            return is_ribbed(phrase)


def _closes(phrase: Phrase) -> bool:
    """Whether it says that the top is closed, or counts."""
    return type(phrase) is Closing or _counts(phrase)


def _shapes_next(segments: list[Segment], place: int) -> bool:
    """Whether a round with decreases follows, with no more before it than words: `The top is shaped in rib:`."""
    if place + 1 < len(segments) and all(map(_names_part, segments[place].phrases)):
        place += 1
    following = segments[place].phrases if place < len(segments) else ()
    return any(map(has_shaping, following))


_RIBBED: Final = frozenset(("hat", "beanie", "cap", "crown", "top"))
"""What a heading may name together with its rib."""


def _names_part(phrase: Phrase) -> bool:
    """Whether it is a fabric, the name of the decreases, or a word that works nothing."""
    return type(phrase) in (Fabric, Change) or (type(phrase) is Said and phrase.text not in VERBS)


def changes_in_first_round(segments: list[Segment], place: int) -> bool:
    """Whether stitches are told there to come or go in the first round: `Increase 8 stitches in the first round`."""
    segment = segments[place] if place < len(segments) else None
    if (
        segment is None
        or segment.label is not None
        or not segment.phrases
        or not any(map(_is_change, segment.phrases))
    ):
        return False
    return any(type(phrase) is Said and phrase.text == FIRST_ROUND for phrase in segment.phrases)


_IN_FABRIC: Final = frozenset((Continue, Said, Fabric))


def _tells_of_others(segments: list[Segment], place: int) -> bool:
    """Whether words without a label only tell of rounds that others tell one by one, or work by name."""
    if Rounds in [type(phrase) for phrase in segments[place].phrases] and (
        _is_explained_behind(segments, place)
        or _announces_rounds(segments, place)
        or _heads_stripes(segments, place)
    ):
        return True
    return _explains_rounds(segments, place)


def _defines_fabric(segment: Segment) -> bool:
    """Whether it is said how a fabric is worked on every round: `Reversed stocking stitch: P every rnd.`."""
    phrases, at = segment.phrases, fabric_told(segment)
    if not at:
        return False
    if phrases[at].flags & EQUALS and _are_single(phrases[at:]):
        return True  # Garter stitch in the round = knit 1 round, purl 1 round
    every = any(type(phrase) is Rounds and phrase.every and phrase.step <= 1 for phrase in phrases[at:])
    return every and all(map(_is_of_fabric, phrases[at:]))


def fabric_told(segment: Segment) -> int:
    """The phrase from which on it is told how a fabric is worked: `Twisted rib: *k1 tbl, p1*`; 0 where it is not.

    Nor is it where stitches come or go: `Crown in rib: *k2tog, p2*` is a round.
    """
    phrases = segment.phrases
    if segment.label is not None or Fabric not in [type(phrase) for phrase in phrases]:
        return 0
    at = next((at for at, phrase in enumerate(phrases) if at and phrase.flags & (COLON | EQUALS)), 0)
    spoken = all(type(phrase) in (Said, Fabric) or _tells_multiple(phrase) for phrase in phrases[:at])
    named = Fabric in [type(phrase) for phrase in phrases[:at]]
    return at if spoken and named and _keeps_count(phrases[at:]) else 0


def _keeps_count(phrases: tuple[Phrase, ...]) -> bool:
    """Whether the stitches that are told leave as many as they use."""
    change = 0
    for stitches in [inner for phrase in phrases for inner in opened(phrase)]:
        if type(stitches) is Stitches and type(stitches.node) is Stitch:
            uses, leaves = uses_and_leaves().get(stitches.node.name, (0, 0))
            change += (leaves - uses) * (stitches.node.times.of(0) or 0)
    return not change


def _tells_multiple(phrase: Phrase) -> bool:
    """Whether a bracket says no more than for how many stitches something is: `(worked over an even number of sts)`."""
    return type(phrase) is Brackets and all(type(inner) in (Said, Count, Fabric) for inner in phrase.inside)


def _is_of_fabric(phrase: Phrase) -> bool:
    """Whether a phrase may say how a fabric is worked on every round."""
    match phrase:
        case Rounds(every=every, step=step):
            return every and step <= 1
        case Stitches(node=Stitch(name="k" | "p")):
            return True
        case Said(words=words):
            return not words
        case _:
            return type(phrase) is Star


def _heads_stripes(segments: list[Segment], place: int) -> bool:
    """Whether stripes are only told that are worked by name behind: `Stripe pattern: 2 rounds A, 2 rounds B`."""
    phrases = segments[place].phrases
    at = next((at for at, phrase in enumerate(phrases) if type(phrase) is Rounds), 0)
    first = phrases[0] if at else None
    named = type(first) is Said and first.text in _STRIPES and bool(phrases[at].flags & COLON)
    if segments[place].label is not None or not named:
        return False
    bands = [phrase for phrase in phrases if type(phrase) is Rounds and not phrase.every]
    if len(bands) < FEWEST_BANDS or not all(type(phrase) in (Said, Fabric, Rounds) for phrase in phrases):
        return False
    return any(
        type(phrase) is Said and phrase.text in _STRIPES
        for segment in segments[place + 1 : place + 1 + MOST_EXPLAINED]
        for phrase in segment.phrases[1:]
    )


FEWEST_BANDS: Final = 2
"""Bands of colour that make a stripe."""
_STRIPES: Final = frozenset(("stripe", "stripes", "striped", "striping"))


def _heads_work(segments: list[Segment], place: int) -> bool:
    """Whether a fabric is named as a heading, and the work follows: `3. The rib.`, `Rib. Knit 1, purl 1, 9 rounds`."""
    segment = segments[place]
    following = segments[place + 1] if place + 1 < len(segments) else None
    if not segment.phrases or type(segment.phrases[0]) not in (Fabric, Said) or following is None:
        return False
    if following.label is not None or not any(map(_is_worked, following.phrases)):
        return False
    match segment.phrases:
        case (Said(text="the"), Fabric(), *behind):
            named = segment.label is None or segment.label.kind == "listed"
            return named and all(type(phrase) is Said and phrase.text in _OF_PART for phrase in behind)
        case (Fabric(kind=kind),):
            numbered = segment.label is None or segment.label.kind in ("step", "listed")
            begins = numbered and following.phrases[0].flags & FULL
            return bool(begins) and kind in NAMED_FABRICS and not segment.alone
        case _:
            return False


def _is_explained_behind(segments: list[Segment], place: int) -> bool:
    """Whether rounds of a fabric are told behind a colon, and how often: `8 rnds garter: p 1 rnd, k 1 rnd, 4 times`."""
    segment = segments[place]
    number = _rounds_of_fabric(segment.phrases)
    behind = segments[place + 1 : place + 1 + MOST_EXPLAINED]
    if segment.label is not None or not number or not behind or not behind[0].phrases:
        return False
    if not behind[0].phrases[0].flags & COLON:
        return False
    for turn in behind:
        if turn.label is not None:
            return False
        match turn.phrases:
            case (Again(last=last), Times(number=often, more=more)) if last:
                return number == last * ((often.of(0) or 0) + more)
            case _ if not _are_single(turn.phrases):
                return False
    return False


def _explains_rounds(segments: list[Segment], place: int) -> bool:
    """Whether it is the second of the rounds that only say what a fabric is: `8 rnds garter: p a rnd, k a rnd`."""
    segment = segments[place]
    before = segments[place - 1].phrases if place else ()
    at = next((at for at, phrase in enumerate(before) if at and phrase.flags & (COLON | EQUALS)), 0)
    if segment.label is not None or not at or segment.alone or not _are_single(before[at:]):
        return False
    if before[at].flags & EQUALS and _defines_fabric(segments[place - 1]):
        return _are_single(segment.phrases)
    return _rounds_of_fabric(before[:at]) > 1 and _are_single(segment.phrases)


def _announces_rounds(segments: list[Segment], place: int) -> bool:
    """Whether it only says how many rounds are told one by one below: `Belt, 12 rounds, all knit:`."""
    segment = segments[place]
    rounds = [phrase for phrase in segment.phrases if type(phrase) is Rounds]
    if segment.label is not None or not segment.intro or len(rounds) != 1 or rounds[0].every:
        return False
    if not all(type(phrase) in _ANNOUNCING or is_bare(phrase) for phrase in segment.phrases):
        return False
    number, highest = rounds[0].number.of(0) or 0, 0
    for round_below in segments[place + 1 : place + 1 + number]:
        label = round_below.label
        if label is None or label.kind not in ("numbered", "listed") or not label.spans:
            break
        if label.spans[0].first.of(0) != highest + 1:
            break
        highest = label.spans[-1].last.of(0) or 0
    return highest == number > 0


_ANNOUNCING: Final = frozenset((Rounds, Said, Fabric, Chart, Count, Extent))


def _rounds_of_fabric(phrases: tuple[Phrase, ...]) -> int:
    """How many rounds of a fabric are told, and no more: `Work 8 rnds of garter`; 0 where anything else is."""
    rounds = [phrase for phrase in phrases if type(phrase) is Rounds]
    fabrics = Fabric in [type(phrase) for phrase in phrases]
    if not fabrics or len(rounds) != 1 or rounds[0].every:
        return 0
    silent = all(type(phrase) in (Rounds, Fabric, Said) for phrase in phrases)
    return (rounds[0].number.of(0) or 0) if silent else 0


def _are_single(phrases: tuple[Phrase, ...]) -> bool:
    """Whether one knit or purl round is told: `knit a round`."""
    rounds = [phrase.number.values for phrase in phrases if type(phrase) is Rounds]
    return rounds == [(1,)] and all(type(phrase) in (Rounds, Said) or is_bare(phrase) for phrase in phrases)


MOST_EXPLAINED: Final = 3
"""Segments behind rounds of a fabric in which they are told one by one."""


def _only_marks(segment: Segment) -> bool:
    """Whether a round is announced with its markers and told below: `Next rnd place a marker every 20 sts and dec:`."""
    announced = segment.label is not None and segment.label.kind == "next" and segment.intro
    marks = any(type(phrase) in (Markers, Every) for phrase in segment.phrases)
    return announced and marks and all(type(phrase) in _ANNOUNCING_MARKS for phrase in segment.phrases)


_ANNOUNCING_MARKS: Final = frozenset((Markers, Every, Said, Change, Continue, Count, Then))


def _heads_chart(segment: Segment) -> bool:
    """Whether it names a chart or pattern told below, with its stitches: `Chart A (16 sts, worked 7 times per rnd)`."""
    named = [phrase for phrase in segment.phrases if type(phrase) in (Chart, Brackets)]
    if not named or any(type(phrase) is Said and phrase.text in _WORKING for phrase in segment.phrases):
        return False
    first = type(named[0]) is Chart
    others = (phrase for phrase in segment.phrases if type(phrase) is not Brackets)
    if not all(type(phrase) in (Chart, Said, Count, Fabric, Rep) for phrase in _without_times(others)):
        return False
    return first or any(type(phrase) is Brackets and _tells_repeat(phrase) for phrase in named)


def _without_times(phrases: Iterable[Phrase]) -> Iterator[Phrase]:
    """The phrases without how often a repeat is worked in a round: `7 times per rnd`, `7 times around`."""
    times: Phrase | None = None
    for phrase in phrases:
        around = type(phrase) is Extent or (type(phrase) is Said and phrase.text in _IN_A_ROUND)
        if type(times) is Times and not around:
            yield times
        times = phrase
        if type(phrase) is not Times and type(phrase) is not Extent:
            yield phrase
    if type(times) is Times:
        yield times


def _tells_repeat(brackets: Brackets) -> bool:
    """Whether a bracket says how many stitches a repeat has, and how often it is worked: `(16 sts, 7 times around)`."""
    inside = brackets.inside
    counts = Count in [type(phrase) for phrase in inside]
    repeats = any(type(phrase) in (Rep, Times) for phrase in inside)
    return counts and repeats and all(type(phrase) in _OF_REPEAT for phrase in inside)


_OF_REPEAT: Final = frozenset((Rep, Times, Count, Said, Extent, Rounds, PerPart))
_IN_A_ROUND: Final = frozenset(("per rnd", "per", "in", "each", "every", "to"))
_WORKING: Final = frozenset(("work", "works", "working", "do", "then", "now", "repeat"))


def _explains_rib(segments: list[Segment], place: int) -> bool:
    """Whether a bracket only says what the rib of the sentence before it is: `12 rounds of rib. (Knit 2, purl 2.)`."""
    match segments[place].phrases:
        case (Brackets(inside=inside),) if place and segments[place].label is None:
            pass
        case _:
            return False
    before = segments[place - 1].phrases
    counted = any(type(phrase) is Rounds and not phrase.every for phrase in before)
    ribbed = counted and any(map(names_rib, before))
    return ribbed and all(type(phrase) is Said or is_ribbed(phrase) for phrase in inside)


def _announces_change(segments: list[Segment], place: int) -> bool:
    """Whether it is said how many stitches go, and behind a colon how: `Lose four stitches first. So: (k21, k2tog)`."""
    announced = segments[place].phrases
    if place + 1 == len(segments) or not any(map(_is_change, announced)) or any(map(_counts, announced)):
        return False
    phrases = segments[place + 1].phrases if segments[place + 1].label is None else ()
    works = [at for at, phrase in enumerate(phrases) if type(phrase) in (Brackets, Star)]
    words = phrases[: works[0]] if works else ()
    thus = all(type(phrase) in (Said, Continue) for phrase in words) and bool(words)
    thus = thus and not any(type(phrase) is Said and phrase.text == "next" for phrase in words)
    return thus and bool(phrases[works[0]].flags & COLON)


def _counts(phrase: Phrase) -> bool:
    """Whether a count is told, in a bracket or without."""
    return type(phrase) is Count or (type(phrase) is Brackets and any(map(_counts, phrase.inside)))


def _is_change(phrase: Phrase) -> bool:
    """Whether a number of decreases or increases is told, without the stitches they are made of."""
    return type(phrase) is Stitches and type(phrase.node) is Evenly


def _is_worked(phrase: Phrase) -> bool:
    """Whether stitches or rounds are told."""
    return type(phrase) in (Stitches, Rounds, Star)


_OF_PART: Final = frozenset(("part", "section", "bit"))


def _begins_rounds(segments: list[Segment], place: int) -> bool:
    """Whether the segment at `place` is a round with the number 1; one that only says words may stand before it."""
    if place < len(segments) and segments[place].label is None:
        place += all(type(phrase) is Said for phrase in segments[place].phrases)
    label = segments[place].label if place < len(segments) else None
    if label is None or label.kind not in ("numbered", "listed", "sort") or not label.spans:
        return False
    return label.spans[0].first.of(0) == 1


def _only_tells(phrase: Phrase) -> bool:
    """Whether a phrase may be part of words that tell a fabric: no rounds, no length, nothing shaped."""
    match phrase:
        case Stitches(node=Stitch(name="k" | "p", bare=False)):
            return True
        case Brackets(inside=inside):
            return all(map(_only_tells, inside)) or _tells_size(phrase)
        case _:
            return type(phrase) in (Said, Fabric, Change, Count, Markers, Rep)


def _tells_size(brackets: Brackets) -> bool:
    """Whether a bracket says how many stitches and rounds a pattern has."""
    inside = brackets.inside
    rounds = any(type(phrase) is Rounds and not phrase.every for phrase in inside)
    return rounds and all(type(phrase) in (Rounds, Said, Count, Rep) for phrase in inside)


def _names_work(phrase: Phrase) -> bool:
    """Whether a phrase alone would be worked."""
    return type(phrase) in (Stitches, Fabric, Brackets)


_TELLING: Final = frozenset(("is", "are", "keeping", "keep", "crown", "top"))
"""Words by which a fabric is told and not worked."""
