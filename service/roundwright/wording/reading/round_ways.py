"""Candidates that work a round, or several alike."""

from typing import Any

from msgspec.structs import replace

from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.labels import Label
from roundwright.wording.reading.layout import Segment
from roundwright.wording.reading.phrases import (
    Brackets,
    Extent,
    Odd,
    Phrase,
    Rep,
    Star,
    Stitches,
    Times,
    Until,
)
from roundwright.wording.reading.seen import Seen, has_stitches, is_bare, only_spoken_of
from roundwright.wording.reading.settle import Settled, settle
from roundwright.wording.reading.tree import (
    NOTHING,
    ONE,
    Fill,
    Node,
    Nodes,
    Number,
    Stated,
    Stitch,
    Unknown,
)


def plain_fill(name: str, start: int, end: int) -> Nodes:
    """A stitch over and over to the end."""
    stitch = Stitch("p" if name == "p" else "k", ONE, start, end, bare=True)
    return (Fill((stitch,), NOTHING, start, end, (start, end)),)


def rounds_of_segment(
    seen: Seen, stated: tuple[Stated, ...], label: Label | None, segment: Segment
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
    stitches = [phrase for phrase in work if has_stitches(phrase)]
    if label is None and stitches and only_spoken_of(seen, stitches):
        cost += 2.0
    common: dict[str, Any] = {"stated": stated, "rounds": number, "length": length and number is None}
    sections = seen.markers.of(0) or 0 if seen.markers else 0
    every_n = seen.every.of(0) or 0 if seen.every else 0
    found: list[Candidate] = []
    if seen.evenly and not any(each.to and False for each in seen.evenly):
        found.extend(_evenly(seen, stitches, number, length, stated, cost, segment))
        if not stitches or all(is_bare(phrase) for phrase in stitches):
            return found
    if not stitches:
        found.extend(_fabric_only(seen, label, segment, number, length, stated, cost))
        return found
    if all(is_bare(phrase) for phrase in stitches):
        if seen.fabrics and seen.fabrics[0].nodes:
            found.append(Candidate("round", cost, _fill(seen.fabrics[0].nodes, segment), **common))
        told = (
            label is None
            and number is None
            and not length
            and len(work) == len(stitches)
            and seen.words >= 0.15
        )
        found.extend(_round(one, cost + 1.5 * told, common, sections, every_n) for one in settle(tuple(work)))
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
            found.append(_round(one, cost + extra, common, sections, every_n, other_nodes))
    if fabric:
        for form in _described(work):
            found.extend(
                _round(one, cost + 0.4, common, sections, every_n)
                for one in settle(form)[:3]
                if not one.trouble
            )
    if len(work) > 1 and isinstance(work[-1], Times) and isinstance(work[-2], Extent) and number is None:
        often = work[-1].number
        found.extend(
            Candidate("round", cost + one.cost + 0.3, one.nodes, rounds=often, stated=stated)
            for one in settle(tuple(work[:-1]))[:2]
            if not one.trouble
        )
    if until is not None:
        without = tuple(phrase for phrase in work if not isinstance(phrase, Until))
        found.extend(
            Candidate(
                "round", cost + one.cost + 0.5, one.nodes, until=until, stated=stated, trouble=one.trouble
            )
            for one in settle(without)[:3]
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


def _round(
    one: Settled,
    cost: float,
    common: dict[str, Any],
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
    )


def _fill(nodes: Nodes, segment: Segment) -> Nodes:
    return (Fill(nodes, NOTHING, segment.start, segment.end, (segment.end, segment.end)),)


def _evenly(
    seen: Seen,
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
    plain = [phrase for phrase in stitches if not is_bare(phrase)]
    if seen.fabrics or length or plain or (number is not None and number.values != (1,)):
        base = tuple(phrase for phrase in seen.work)
        ways = settle(base)[:4] if stitches else [Settled(plain_fill("k", segment.start, segment.end), 0.0)]
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


def _how_many(seen: Seen) -> Number | None:
    """How many rounds: `8 rnds`, or `3 rnds light, 3 rnds dark, 5 times`."""
    numbers = [each.number for each in seen.rounds if not each.every]
    if len(numbers) > 1 and seen.times and not any(has_stitches(phrase) for phrase in seen.work):
        width = max(len(number.values) for number in (*numbers, seen.times[-1].number))
        values = [
            sum(number.of(column) or 0 for number in numbers) * (seen.times[-1].number.of(column) or 0)
            for column in range(width)
        ]
        return Number(tuple(values), numbers[0].start, numbers[0].end)
    return numbers[0] if numbers else None


def _fabric_only(
    seen: Seen,
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
    if number is None and not length and label is None and seen.times:
        return []  # `work the welt 8 times`
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
        nodes = (
            _fill(fabric.nodes, segment) if fabric and ribs else plain_fill("k", segment.start, segment.end)
        )
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
    if len(work) > 1 and is_bare(work[0]):
        found.append(tuple(work[1:]))
    if len(work) > 1 and isinstance(work[-1], Brackets) and has_stitches(work[-1]):
        found.append(tuple(work[:-1]))
        found.append((work[-1],))
        if len(work) > 2 and is_bare(work[0]):
            found.append(tuple(work[1:-1]))
    return found


def _forms(work: list[Phrase], seen: Seen) -> list[tuple[tuple[Phrase, ...], tuple[tuple[Phrase, ...], ...]]]:
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
    if isinstance(last, Brackets) and len(work) > 1 and last.inside and has_stitches(last):
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
