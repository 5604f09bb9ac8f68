"""What a segment may tell the knitter to do: its candidates, the cheapest first.

A candidate costs what has to be assumed to understand the words so: an implied repeat, words that are passed over, the
less likely of two ways. That nothing is worked is a candidate as well; it costs as much as the words look like work.
"""

from typing import Final, Literal

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.labels import Label
from roundwright.wording.reading.layout import Segment
from roundwright.wording.reading.phrases import (
    Again,
    BeginAt,
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
from roundwright.wording.reading.settle import Settled, settle
from roundwright.wording.reading.tree import (
    NOTHING,
    ONE,
    Evenly,
    Fill,
    Group,
    Mark,
    Node,
    Nodes,
    Number,
    Stated,
    Stitch,
    Unknown,
)

Kind = Literal[
    "round", "loop", "with", "continue", "cast_on", "count", "closing", "begin", "markers", "prose", "unread"
]


class Candidate(Struct, frozen=True, gc=False):
    """One way to understand a segment.

    - `nodes`: the tree of a round; `others` are tried for a size in which it does not come out
    - `rounds`: how many rounds of it; `length` where that is to a length; `until` a count is reached
    - `last`: what the last of several rounds does instead, such as increases evenly
    - `again`, `times`, `more`, `total`: rounds worked again, how often
    - `step`: every how many rounds a crown goes on to be shaped; 0 where it is not said
    - `per`: whether `until` is for each needle or section; `plain`: rounds without shaping behind the one worked again
    - `stated`: the counts printed with it
    - `strength`: how much the words look like work, for one that works nothing
    """

    kind: Kind
    cost: float
    nodes: Nodes = ()
    others: tuple[Nodes, ...] = ()
    rounds: Number | None = None
    length: bool = False
    until: Number | None = None
    last: Nodes = ()
    again: Again | None = None
    times: Times | None = None
    step: int = 0
    sign: int = 0
    stated: tuple[Stated, ...] = ()
    strength: float = 0.0
    trouble: tuple[str, str, int] | None = None
    sections: int = 0
    every: int = 0
    chart: bool = False
    how: str = ""
    per: bool = False
    plain: int = 0


WORD: Final = 0.25
INNER_WORD: Final = 0.6
UNREAD: Final = 3.0
"""From which strength on words that are not worked are told to be unread."""


class _Seen(Struct):
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


def _works(phrase: Phrase) -> bool:
    if isinstance(phrase, Stitches | Star | PassOver):
        return not (isinstance(phrase, Stitches) and isinstance(phrase.node, Mark))
    return isinstance(phrase, Brackets) and any(_works(one) for one in phrase.inside)


def _sorted(phrases: tuple[Phrase, ...]) -> _Seen:
    seen = _Seen([], [], [], [], [], [], [], [], [], [], [])
    last_work = max(
        (place for place, phrase in enumerate(phrases) if _works(phrase) or isinstance(phrase, Rep)),
        default=-1,
    )
    begun = False
    said = 0
    for place, phrase in enumerate(phrases):
        if isinstance(phrase, Said):
            said += phrase.words
        elif isinstance(phrase, Fabric) or _works(phrase):
            seen.lead = max(seen.lead, said if not begun and not seen.fabrics else 0)
        told = isinstance(phrase, Count) or (
            isinstance(phrase, Brackets)
            and not _works(phrase)
            and any(isinstance(one, Count) for one in phrase.inside)
        )
        if told and not begun and place < last_work:
            seen.counted_first = True
            seen.words += INNER_WORD  # the count before the work
            continue
        if isinstance(phrase, Closing):
            seen.closing = seen.closing or phrase
            if begun or not any(_works(one) for one in phrases[place + 1 :]):
                break
        _sort(
            seen,
            phrase,
            phrases[place + 1] if place + 1 < len(phrases) else None,
            inner=begun and place < last_work,
            tail=place > last_work,
        )
        begun = begun or _works(phrase)
    seen.said = said
    return seen


def _sort(seen: _Seen, phrase: Phrase, following: Phrase | None, *, inner: bool, tail: bool) -> None:
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
            if _works(phrase):
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


def candidates(segment: Segment) -> list[Candidate]:
    """What a segment may mean, the cheapest first; never empty."""
    label = segment.label
    if label is not None and label.kind in ("sizes", "step"):
        label = None
    phrases = segment.phrases
    if segment.told and (label is None or label.kind in ("sort", "listed", "count")):
        return [Candidate("prose", 0.0)]
    if segment.troubles and not phrases:
        return [Candidate("unread", 0.0, trouble=segment.troubles[0])]
    seen = _sorted(phrases)
    if label is None and (_tells_outcome(seen) or _introduces(seen, segment)):
        return [Candidate("prose", 0.0)]
    found: list[Candidate] = []
    stated = _stated(seen)
    strength = _strength(seen, label)
    if seen.closing and not seen.work and not seen.agains:
        found.append(Candidate("closing", 0.0, stated=()))
        return found
    if seen.cast_on and not seen.work:
        return [Candidate("cast_on", 0.0, rounds=seen.cast_on.number, stated=())]
    if begin := _begin_at(segment):
        return [begin]
    if seen.agains:
        found.extend(_loops(seen, stated, label))
    found.extend(_continues(seen, stated, label))
    if label is None and not seen.agains:
        found.extend(_once_more(seen, stated, segment))
    if seen.agains or not found or found[0].kind != "loop":
        found.extend(_rounds(seen, stated, label, segment))
    if label is None and all(_bare(phrase) for phrase in seen.work):
        found.extend(_markers(seen))
    if not found and seen.counts and label is None:
        found.append(Candidate("count", 0.1, stated=stated))
        sure = all(count.sure for count in seen.counts) and seen.words < 1.5
        found.append(Candidate("prose", 1.0 + 3.0 * sure))
        return found
    if segment.troubles and found:
        code, message, start = segment.troubles[0]
        found = [_with_trouble(each, (code, message, start)) for each in found]
    found.append(Candidate("prose", max(0.2, strength), strength=strength, stated=stated))
    return sorted(found, key=lambda each: each.cost)


def _with_trouble(one: Candidate, trouble: tuple[str, str, int]) -> Candidate:
    return Candidate(
        one.kind, one.cost, one.nodes, one.others, one.rounds, one.length, one.until, one.last, one.again, one.times,
        one.step, one.sign, one.stated, one.strength, one.trouble or trouble, one.sections, one.every, one.chart, one.how,
    )  # fmt: skip


def _introduces(seen: _Seen, segment: Segment) -> bool:
    """Whether nothing is worked here but what the lines below tell."""
    thus = bool(seen.fabrics) and any(each.manner for each in seen.continues)
    if seen.agains or seen.untils or seen.changes or not (segment.intro or thus):
        return False
    return not (
        seen.rounds or (seen.counts and not thus) or seen.evenly or seen.lengths or seen.times
    ) and all(isinstance(phrase, Rep | Extent) or _bare(phrase) for phrase in seen.work)


def _tells_outcome(seen: _Seen) -> bool:
    """Whether a stitch is only explained: `sl 1, k2tog, psso = 2 sts decreased`."""
    if seen.counted_first and not (seen.rounds or seen.lengths or seen.evenly):
        return not any(
            isinstance(phrase, Star | Rep | Extent | Times | Brackets | Until) for phrase in seen.work
        )
    told = any(count.sign and count.flags & EQUALS for count in seen.counts)
    means = any(isinstance(phrase, Stitches) and phrase.flags & EQUALS for phrase in seen.work[1:])
    return (told or means) and not any(
        isinstance(phrase, Star | Rep | Extent | Times) for phrase in seen.work
    )


def _shapes(phrase: Phrase) -> bool:
    """Whether a decrease or an increase is named."""
    return (
        isinstance(phrase, Stitches)
        and isinstance(phrase.node, Stitch)
        and phrase.node.name not in ("k", "p", "sl")
    )


def _strength(seen: _Seen, label: Label | None) -> float:
    """How much the words look like work."""
    if label is None and _idle(seen, [phrase for phrase in seen.work if _works(phrase)]):
        return 1.0
    strength = 0.0
    counted = 0
    bare = 0
    for phrase in seen.work:
        if isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch):
            bare += phrase.node.bare
            counted += not phrase.node.bare
        elif isinstance(phrase, Brackets):
            counted += 2
        elif isinstance(phrase, Star | Rep):
            counted += 1
    strength += min(9.0, 2.5 * counted)
    extents = any(isinstance(phrase, Extent) for phrase in seen.work)
    if any(_shapes(phrase) for phrase in seen.work) and (extents or seen.times):
        strength += 2.0
    numbered = any(not each.every for each in seen.rounds)
    if bare or seen.fabrics:
        strength += 4.0 if numbered else 2.5 if extents else 1.2
        if seen.lengths:
            strength += 0.8
    elif numbered:
        strength += 1.0
    if seen.times and seen.times[-1].more and not seen.work[1:] and label is None:
        strength += 3.0 if seen.counts else 1.0
    if (
        label is None
        and not (counted or numbered or seen.lengths or seen.counts or seen.times)
        and max(seen.lead, seen.said - 2) > 1
    ):
        strength = min(strength, 1.0)
    strength += 4.0 * bool(seen.evenly) + 4.0 * bool(seen.agains)
    if seen.untils and (seen.continues or seen.changes or bare or counted or seen.rounds):
        strength += 4.0
    strength -= seen.words
    if label is not None and label.kind in ("numbered", "next", "every"):
        strength = max(strength, 0.0) + 5.0
    elif label is not None:
        strength += 2.0
    return max(0.0, strength)


def _stated(seen: _Seen) -> tuple[Stated, ...]:
    return tuple(Stated(each.number, each.number.start, each.number.end, each.sign) for each in seen.counts)


def _begin_at(segment: Segment) -> Candidate | None:
    """`Begin at rnd 5 (3, 1)`."""
    if segment.label is None:
        for phrase in segment.phrases:
            if isinstance(phrase, BeginAt):
                return Candidate("begin", 0.0, rounds=phrase.number)
    return None


def _markers(seen: _Seen) -> list[Candidate]:
    """`Place a marker every 15 sts`, `20 sts on each needle`: where the sections are, and no work."""
    many = seen.markers.of(0) or 0 if seen.markers else 0
    every = seen.every or seen.per_part
    if many < 2 and every is None:
        return []
    return [Candidate("markers", 0.1, rounds=every, sections=many)]


# --- rounds worked again


def _once_more(seen: _Seen, stated: tuple[Stated, ...], segment: Segment) -> list[Candidate]:
    """`And once more`, `Do this 4 times (8 rounds)`: what was worked last is worked again."""
    thus = any(each.manner for each in seen.continues) or (not segment.alone and seen.words < 0.5)
    if thus and seen.rounds and not (seen.work or seen.fabrics or seen.lengths or seen.evenly or seen.counts):
        number = next((each.number for each in seen.rounds if not each.every), None)
        if number is not None and number.values != (1,):
            last = seen.rounds[0]
            total = Times(last.start, last.end, 0, number, total=True)
            return [
                Candidate(
                    "loop", 0.2, again=Again(last.start, last.end, 0, last=1), times=total, stated=stated
                )
            ]
    if not seen.times or any(not isinstance(phrase, Times | Rep) for phrase in seen.work):
        return []
    times = seen.times[-1]
    repeats = any(isinstance(phrase, Rep) for phrase in seen.work)
    if not repeats and not times.more:
        return []
    many = times.number.of(0) or 1
    total = replace(times, total=not times.more)
    in_all = next((each.number.of(0) or 0 for each in seen.rounds if not each.every), 0)
    lasts = [in_all // many] if in_all and in_all % many == 0 else [1, 2] if repeats else [1]
    start, end = times.start, times.end
    return [
        Candidate(
            "loop", 0.3 + 0.2 * place, again=Again(start, end, 0, last=last), times=total, stated=stated
        )
        for place, last in enumerate(lasts)
    ]


def _loops(seen: _Seen, stated: tuple[Stated, ...], label: Label | None) -> list[Candidate]:
    again = seen.agains[0]
    if len(seen.agains) > 1 and again.last and seen.agains[1].named:
        again = seen.agains[1]
    until = seen.untils[-1].number if seen.untils else None
    times = seen.times[-1] if seen.times else None
    cost = seen.words * 0.5
    if seen.chart:
        many = len(again.named) or again.last or 1
        return [
            Candidate(
                "round",
                cost + 0.2,
                _plain("k", again.start, again.end),
                rounds=Number((many,)),
                stated=stated,
                chart=True,
            )
        ]
    length = bool(seen.lengths) and until is None and times is None
    with_nodes = [
        phrase.node
        for phrase in seen.work
        if isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch) and not phrase.node.bare
    ]
    step = max((each.step for each in seen.rounds if each.every), default=0) if again.named else 0
    found: list[Candidate] = []
    if with_nodes and not any(isinstance(phrase, Star | Brackets | Rep) for phrase in seen.work):
        found.append(Candidate("with", cost, (with_nodes[0],), again=again, stated=stated))
        return found
    rounds = next((each.number for each in seen.rounds if not each.every), None)
    total = bool(times and times.total) or (rounds is not None and times is not None)
    plain = 0
    if rounds is not None and times is not None and len(again.named) == 1:
        plain, total = rounds.of(0) or 0, False
    if (
        times is None
        and until is None
        and not length
        and rounds is not None
        and label is None
        and seen.lengths == []
    ):
        found.append(Candidate("loop", cost + 0.3, again=again, rounds=rounds, stated=stated))
    if again.work and times is not None and not times.more:
        counted = Times(times.start, times.end, times.flags, times.number, total=True)
        found.append(
            Candidate(
                "loop",
                cost,
                again=again,
                times=counted,
                until=until,
                length=length,
                step=step,
                per=seen.per,
                plain=plain,
                stated=stated,
            )
        )
        found.append(
            Candidate(
                "loop",
                cost + 0.4 + total,
                again=again,
                times=times,
                until=until,
                length=length,
                step=step,
                per=seen.per,
                plain=plain,
                stated=stated,
            )
        )
    else:
        found.append(
            Candidate(
                "loop",
                cost + 0.6 * (rounds is not None and times is None and until is None),
                again=again,
                times=times,
                until=until,
                length=length,
                step=step,
                per=seen.per,
                plain=plain,
                stated=stated,
            )
        )
    return found


def _continues(seen: _Seen, stated: tuple[Stated, ...], label: Label | None) -> list[Candidate]:
    """`Continue in this manner until 8 sts remain`."""
    until = seen.untils[-1].number if seen.untils else None
    evenly = next((each for each in seen.evenly if each.to), None)
    manner = any(each.manner for each in seen.continues)
    goes_on = bool(seen.continues)
    change = seen.changes[0].sign if seen.changes else seen.evenly[0].sign if seen.evenly else 0
    every = [each for each in seen.rounds if each.every]
    fewer = any(count.sign for count in seen.counts)
    plain_stated = tuple(each for each in stated if not each.sign)
    if until is None and evenly is not None and (goes_on or every):
        until = evenly.change
    if until is None and (goes_on or change) and plain_stated and (manner or every or goes_on):
        until = plain_stated[-1].number
    times = seen.times[-1] if seen.times and until is None else None
    if until is None and times is None:
        return []
    strong = any(isinstance(phrase, Star | Brackets | Rep) for phrase in seen.work)
    stitches = bool(seen.fabrics) or any(isinstance(phrase, Stitches) for phrase in seen.work)
    if strong or not (
        manner
        or goes_on
        or (every and until is not None and not stitches)
        or (change and (every or (until is not None and not evenly)))
        or (fewer and every)
    ):
        return []
    if seen.agains and not manner:
        return []
    step = max((each.step or 1 for each in every), default=0)
    if any(each.kind in ("plain",) for each in seen.fabrics) and any(not each.every for each in seen.rounds):
        step = 2
    cost = 0.3 * (not manner) + min(1.5, seen.words * 0.3)
    return [
        Candidate(
            "continue",
            cost,
            until=until,
            times=times,
            step=step,
            sign=change,
            stated=plain_stated,
            per=seen.per,
            plain=int(seen.ends_plain),
        )
    ]


# --- rounds


def _plain(name: str, start: int, end: int) -> Nodes:
    stitch = Stitch("p" if name == "p" else "k", ONE, start, end, bare=True)
    return (Fill((stitch,), NOTHING, start, end, (start, end)),)


def _rounds(
    seen: _Seen, stated: tuple[Stated, ...], label: Label | None, segment: Segment
) -> list[Candidate]:
    """Everything that works a round, or several alike."""
    work = _explained(seen.work)
    number = _how_many(seen)
    every = any(each.every for each in seen.rounds)
    if label is not None and label.kind == "count":
        number = label.count
    length = bool(seen.lengths) or (every and number is None and label is None)
    if label is not None and label.kind in ("numbered", "listed") and not (number and segment.alone):
        length = length and label.kind != "numbered"
    until = seen.untils[-1].number if seen.untils else None
    cost = min(4.0, seen.words)
    stitches = [phrase for phrase in work if _works(phrase)]
    if label is None and stitches and _idle(seen, stitches):
        cost += 2.0
    common = {"stated": stated, "rounds": number, "length": length and number is None}
    sections = seen.markers.of(0) or 0 if seen.markers else 0
    every_n = seen.every.of(0) or 0 if seen.every else 0
    found: list[Candidate] = []
    if seen.evenly and not any(each.to and False for each in seen.evenly):
        found.extend(_evenly(seen, stitches, number, length, stated, cost, segment))
        if not stitches or all(_bare(phrase) for phrase in stitches):
            return found
    if not stitches:
        found.extend(_fabric_only(seen, label, segment, number, length, stated, cost))
        return found
    if all(_bare(phrase) for phrase in stitches):
        if seen.fabrics and seen.fabrics[0].nodes:
            found.append(Candidate("round", cost, _fill(seen.fabrics[0].nodes, segment), **common))  # type: ignore[arg-type]
        told = (
            label is None
            and number is None
            and not length
            and len(work) == len(stitches)
            and seen.words >= 0.15
        )
        for one in settle(tuple(work)):
            found.append(_round(one, cost + 1.5 * told, common, segment, sections, every_n))
        return found
    fabric = (
        bool(seen.fabrics)
        or (number is not None and number.values != (1,))
        or length
        or (label is not None and label.kind == "count")
    )
    for base, others in _forms(work, seen):
        ways = settle(base, counted=bool(stated))
        other_nodes = tuple(one.nodes for form in others for one in settle(form)[:3] if not one.trouble)
        for one in ways:
            extra = 0.0
            if fabric and not any(isinstance(node, Fill) for node in one.nodes):
                extra = 0.5
            found.append(_round(one, cost + extra, common, segment, sections, every_n, other_nodes))
    if fabric:
        for form in _described(work):
            for one in settle(form)[:3]:
                if not one.trouble:
                    found.append(_round(one, cost + 0.4, common, segment, sections, every_n))
    if len(work) > 1 and isinstance(work[-1], Times) and isinstance(work[-2], Extent) and number is None:
        for one in settle(tuple(work[:-1]))[:2]:
            if not one.trouble:
                found.append(
                    Candidate(
                        "round", cost + one.cost + 0.3, one.nodes, rounds=work[-1].number, stated=stated
                    )
                )
    if until is not None:
        without = tuple(phrase for phrase in work if not isinstance(phrase, Until))
        for one in settle(without)[:3]:
            found.append(
                Candidate(
                    "round", cost + one.cost + 0.5, one.nodes, until=until, stated=stated, trouble=one.trouble
                )
            )
    if (
        segment.label is None
        and len(stitches) == 1
        and isinstance(stitches[0], Stitches)
        and isinstance(stitches[0].node, Stitch)
        and stated
    ):
        found.append(Candidate("with", cost + 0.5, (stitches[0].node,), stated=stated))
    return found


def _explained(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with `inc 1 (m1)` told by the stitch in its bracket."""
    made: list[Phrase] = []
    for phrase in phrases:
        last = made[-1] if made else None
        if (
            isinstance(phrase, Brackets)
            and len(phrase.inside) == 1
            and isinstance(inner := phrase.inside[0], Stitches)
            and isinstance(last, Stitches)
            and isinstance(last.node, Unknown | Stitch)
            and (isinstance(last.node, Unknown) or last.node.loose)
        ):
            made[-1] = replace(last, node=inner.node)
        else:
            made.append(phrase)
    return made


def _idle(seen: _Seen, stitches: list[Phrase]) -> bool:
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


def _round(
    one: Settled,
    cost: float,
    common: dict[str, object],
    segment: Segment,
    sections: int,
    every: int,
    others: tuple[Nodes, ...] = (),
) -> Candidate:
    nodes = one.nodes
    trouble = one.trouble
    return Candidate(
        "round",
        cost + one.cost,
        nodes,
        others,
        trouble=trouble,
        how=one.how,
        sections=sections,
        every=every,
        **common,
    )  # type: ignore[arg-type]


def _fill(nodes: Nodes, segment: Segment) -> Nodes:
    return (Fill(nodes, NOTHING, segment.start, segment.end, (segment.end, segment.end)),)


def _bare(phrase: Phrase) -> bool:
    return isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch) and phrase.node.bare


def _evenly(
    seen: _Seen,
    stitches: list[Phrase],
    number: Number | None,
    length: bool,
    stated: tuple[Stated, ...],
    cost: float,
    segment: Segment,
) -> list[Candidate]:
    """Changes spread evenly, alone or in the last of some rounds."""
    evenly: Node = seen.evenly[0]
    counted = tuple(each for each in stated)
    plain = [phrase for phrase in stitches if not _bare(phrase)]
    if seen.fabrics or length or plain or (number is not None and number.values != (1,)):
        base = tuple(phrase for phrase in seen.work)
        ways = settle(base)[:4] if stitches else [Settled(_plain("k", segment.start, segment.end), 0.0)]
        found = [
            Candidate(
                "round",
                cost + one.cost + 0.2,
                one.nodes,
                rounds=number,
                length=length and number is None,
                last=(evenly,),
                stated=counted,
            )
            for one in ways
            if not one.trouble
        ]
        found.append(Candidate("round", cost + 0.4, (evenly,), stated=counted, how="evenly"))
        return found
    return [Candidate("round", cost, (evenly,), stated=counted)]


def _how_many(seen: _Seen) -> Number | None:
    """How many rounds: `8 rnds`, or `3 rnds light, 3 rnds dark, 5 times`."""
    numbers = [each.number for each in seen.rounds if not each.every]
    if len(numbers) > 1 and seen.times and not any(_works(phrase) for phrase in seen.work):
        width = max(len(number.values) for number in (*numbers, seen.times[-1].number))
        values = [
            sum(number.of(column) or 0 for number in numbers) * (seen.times[-1].number.of(column) or 0)
            for column in range(width)
        ]
        return Number(tuple(values), numbers[0].start, numbers[0].end)
    return numbers[0] if numbers else None


def _fabric_only(
    seen: _Seen,
    label: Label | None,
    segment: Segment,
    number: Number | None,
    length: bool,
    stated: tuple[Stated, ...],
    cost: float,
) -> list[Candidate]:
    """`Work 8 rnds in rib`, `work even`, `as established`."""
    if number is None and not length and label is None and any(each.manner for each in seen.continues):
        return []  # `in garter st, thus:`
    if (
        seen.fabrics
        or (
            number is not None
            and (label is not None or ((len(seen.rounds) == 1 or seen.times) and seen.words < 1.1))
        )
        or (seen.chart and label)
    ):
        fabric = next((each for each in seen.fabrics if each.nodes), None)
        ribs = any(each.kind in ("rib", "ratio") for each in seen.fabrics)
        nodes = _fill(fabric.nodes, segment) if fabric and ribs else _plain("k", segment.start, segment.end)
        weak = 0.0 if seen.fabrics else 0.8
        if number is None and not length and label is None and (seen.lead or seen.words > 0.2):
            weak += 1.5
        if not seen.fabrics and number is None:
            weak = 0.3
        return [
            Candidate(
                "round",
                cost + weak,
                nodes,
                rounds=number,
                length=length and number is None,
                stated=stated,
                chart=seen.chart,
            )
        ]
    return []


def _described(work: list[Phrase]) -> list[tuple[Phrase, ...]]:
    """Rounds of a fabric without the `knit` before them, or without what is explained in brackets behind them."""
    found: list[tuple[Phrase, ...]] = []
    if len(work) > 1 and _bare(work[0]):
        found.append(tuple(work[1:]))
    if len(work) > 1 and isinstance(work[-1], Brackets) and _works(work[-1]):
        found.append(tuple(work[:-1]))
        found.append((work[-1],))
        if len(work) > 2 and _bare(work[0]):
            found.append(tuple(work[1:-1]))
    return found


def _forms(
    work: list[Phrase], seen: _Seen
) -> list[tuple[tuple[Phrase, ...], tuple[tuple[Phrase, ...], ...]]]:
    """The phrases of a round, and those of a size in which it is worked otherwise."""
    whole = tuple(work)
    forms: list[tuple[tuple[Phrase, ...], tuple[tuple[Phrase, ...], ...]]] = []
    if seen.odd:
        at = next(place for place, phrase in enumerate(work) if isinstance(phrase, Odd))
        before = [phrase for phrase in work[:at] if not isinstance(phrase, Extent)]
        tail = Extent(work[at].start, work[at].end, 0, NOTHING)
        forms.append(((*before, tail), (tuple(phrase for phrase in work if not isinstance(phrase, Odd)),)))
        return forms
    last = work[-1]
    if isinstance(last, Brackets) and len(work) > 1 and last.inside and _works(last):
        before = work[:-1]
        if isinstance(last.inside[0], Extent):
            head = []
            for phrase in before:
                if isinstance(phrase, Extent):
                    break
                head.append(phrase)
            forms.append((tuple(before), ((*head, *last.inside),)))
        elif any(isinstance(one, Brackets | Star | Extent) for one in last.inside) and any(
            isinstance(one, Times | Extent | Rep) for one in before
        ):
            forms.append((tuple(before), (last.inside,)))
    forms.append((whole, ()))
    return forms


def printed(candidate: Candidate, before: int, column: int) -> list[tuple[Stated, int]]:
    """The counts printed with it for a size, with where they stand."""
    found = []
    for stated in candidate.stated:
        after = stated.after(before, column)
        if after is not None:
            found.append((stated, after))
    return found


def flags_of(phrase: Phrase) -> int:
    """What stands before a phrase."""
    return phrase.flags & (STOP | SEMI | COMMA | DASH)


def is_then(phrase: Phrase) -> bool:
    """Whether it is no more than `then`."""
    return isinstance(phrase, Then)


def grouped(nodes: Nodes) -> bool:
    """Whether a tree holds brackets."""
    return any(isinstance(node, Group) for node in nodes)
