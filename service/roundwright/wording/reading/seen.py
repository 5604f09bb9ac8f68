"""The phrases of a segment, sorted by what they are good for."""

from typing import Final

from msgspec import Struct

from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    CastOn,
    Change,
    Chart,
    Closing,
    Continue,
    Count,
    EndsPlain,
    Every,
    Extent,
    Fabric,
    Length,
    Markers,
    Needlewise,
    Odd,
    Partly,
    PassOver,
    PerPart,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Times,
    Until,
)
from roundwright.wording.reading.scanner import COMMA, DASH, EQUALS, SEMI, STOP
from roundwright.wording.reading.tree import (
    Evenly,
    Mark,
    Number,
    Stated,
    Stitch,
    Unknown,
)

WORD: Final = 0.25


INNER_WORD: Final = 0.6


class Seen(Struct):
    """The phrases of a segment, sorted by what they are good for."""

    work: list[Phrase] = []
    counts: list[Count] = []
    rounds: list[Rounds] = []
    lengths: list[Length] = []
    untils: list[Until] = []
    fabrics: list[Fabric] = []
    agains: list[Again] = []
    times: list[Times] = []
    continues: list[Continue] = []
    changes: list[Change] = []
    evenly: list[Evenly] = []
    words: float = 0.0
    lead: int = 0
    said: int = 0
    counted_first: bool = False
    closing: Closing | None = None
    cast_on: CastOn | None = None
    chart: bool = False
    markers: Number | None = None
    every: Number | None = None
    odd: bool = False
    per_part: Number | None = None
    per: bool = False
    ends_plain: bool = False


_STITCHES: Final = (Stitches, Star, PassOver)


def has_stitches(phrase: Phrase) -> bool:
    """Whether stitches are worked in it."""
    if isinstance(phrase, _STITCHES):
        return not (isinstance(phrase, Stitches) and isinstance(phrase.node, Mark))
    return isinstance(phrase, Brackets) and any(has_stitches(one) for one in phrase.inside)


def sort_phrases(phrases: tuple[Phrase, ...]) -> Seen:
    """The phrases of a segment, sorted."""
    seen = Seen([], [], [], [], [], [], [], [], [], [], [])
    last_work = max(
        (place for place, phrase in enumerate(phrases) if has_stitches(phrase) or isinstance(phrase, Rep)),
        default=-1,
    )
    begun = False
    said = 0
    for place, phrase in enumerate(phrases):
        if isinstance(phrase, Said):
            said += phrase.words
        elif isinstance(phrase, Fabric) or has_stitches(phrase):
            seen.lead = max(seen.lead, said if not begun and not seen.fabrics else 0)
        told = isinstance(phrase, Count) or (
            isinstance(phrase, Brackets)
            and not has_stitches(phrase)
            and any(isinstance(one, Count) for one in phrase.inside)
        )
        if told and not begun and place < last_work:
            seen.counted_first = True
            seen.words += INNER_WORD  # the count before the work
            continue
        if isinstance(phrase, Closing):
            seen.closing = seen.closing or phrase
            if begun or not any(has_stitches(one) for one in phrases[place + 1 :]):
                break
        _sort(
            seen,
            phrase,
            phrases[place + 1] if place + 1 < len(phrases) else None,
            inner=begun and place < last_work,
            tail=place > last_work,
        )
        begun = begun or has_stitches(phrase)
    seen.said = said
    return seen


def _sort(seen: Seen, phrase: Phrase, following: Phrase | None, *, inner: bool, tail: bool) -> None:
    match phrase:
        case Stitches(node=Evenly() as node):
            seen.evenly.append(node)
        case Stitches() | Star() | PassOver() | Rep() | Extent() | Odd() | Partly():
            seen.work.append(phrase)
            seen.odd = seen.odd or isinstance(phrase, Odd)
        case Times():
            seen.work.append(phrase)
            seen.times.append(phrase)
        case Brackets():
            if has_stitches(phrase):
                seen.work.append(phrase)
            elif (
                len(phrase.inside) <= 2
                and all(isinstance(one, Times | Said) for one in phrase.inside)
                and any(isinstance(one, Times) for one in phrase.inside)
            ):
                seen.work.append(phrase)
                seen.times.extend(one for one in phrase.inside if isinstance(one, Times))
            else:
                for at, one in enumerate(phrase.inside):
                    if isinstance(one, Extent | Rep | Stitches | Fabric | Continue) or (
                        isinstance(one, Count) and not one.sure and len(phrase.inside) > 1
                    ):
                        continue
                    _sort(
                        seen,
                        one,
                        phrase.inside[at + 1] if at + 1 < len(phrase.inside) else None,
                        inner=False,
                        tail=True,
                    )
        case Count():
            if phrase.sure or _stands_apart(phrase, following, inner=inner):
                seen.counts.append(phrase)
            else:
                seen.words += 2 * INNER_WORD
        case Rounds():
            seen.rounds.append(phrase)
        case Length():
            seen.lengths.append(phrase)
        case Until():
            seen.untils.append(phrase)
            seen.work.append(phrase)
        case Fabric():
            seen.fabrics.append(phrase)
        case Again():
            seen.agains.append(phrase)
        case Continue():
            seen.continues.append(phrase)
        case Change():
            seen.changes.append(phrase)
        case CastOn():
            seen.cast_on = seen.cast_on or phrase
        case Chart():
            seen.chart = True
        case Markers():
            seen.markers = phrase.number
        case Every():
            seen.every = phrase.number
        case EndsPlain():
            seen.ends_plain = True
        case PerPart():
            seen.per_part = phrase.number
        case Needlewise():
            seen.markers = phrase.number or seen.markers
            if seen.work and isinstance(seen.work[-1], Until):
                seen.per = True
            elif not tail:
                seen.work.append(phrase)
        case Said(words=words):
            if inner:
                if (
                    words == 1
                    and following is not None
                    and phrase.flags & COMMA
                    and following.flags & (COMMA | STOP | SEMI)
                ):
                    seen.work.append(
                        Stitches(
                            phrase.start, phrase.end, phrase.flags, Unknown("", phrase.start, phrase.end)
                        )
                    )
                else:
                    seen.words += INNER_WORD * words
            else:
                seen.words += WORD * words * (0.6 if tail else 1.0)
        case _:
            pass


def _stands_apart(phrase: Count, following: Phrase | None, *, inner: bool) -> bool:
    """Whether a bare number is a count: set apart by a sign or a bracket, with no work behind it."""
    if inner:
        return False
    if (
        following is not None
        and not following.flags & (DASH | EQUALS | STOP | COMMA | SEMI)
        and not isinstance(following, Closing | Then | Count)
    ):
        return False
    return bool(phrase.flags & (DASH | EQUALS | STOP | COMMA | SEMI)) or following is None or not phrase.flags


def is_shaping(phrase: Phrase) -> bool:
    """Whether a decrease or an increase is named."""
    return (
        isinstance(phrase, Stitches)
        and isinstance(phrase.node, Stitch)
        and phrase.node.name not in ("k", "p", "sl")
    )


def stated_counts(seen: Seen) -> tuple[Stated, ...]:
    """The counts printed with a segment."""
    return tuple(Stated(each.number, each.number.start, each.number.end, each.sign) for each in seen.counts)


def only_spoken_of(seen: Seen, stitches: list[Phrase]) -> bool:
    """Whether stitches are only spoken of: `a spine of two knit stitches`."""
    return (
        seen.lead > 0
        and all(
            isinstance(phrase, Stitches)
            and isinstance(phrase.node, Stitch)
            and (phrase.node.name in ("k", "p", "sl") or len(stitches) == 1)
            for phrase in stitches
        )
        and len(stitches) == len(seen.work)
        and not (seen.fabrics or seen.rounds or seen.lengths or seen.counts)
    )


def is_bare(phrase: Phrase) -> bool:
    """Whether it is `knit` or `purl` alone."""
    return isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch) and phrase.node.bare
