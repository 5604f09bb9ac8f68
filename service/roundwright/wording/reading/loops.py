"""Candidates that work rounds again, go on with a crown, or place markers."""

from collections.abc import Iterator
from itertools import pairwise, takewhile
from typing import Final, Literal

from msgspec.structs import replace

from roundwright.language import say
from roundwright.wording.reading.fabric_ways import in_colour_alone, plain_fill, then_in_colour
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    BEFORE_EACH,
    FROM_THERE,
    IN_TURN,
    TOLD_ABOVE,
    Again,
    Brackets,
    Change,
    Continue,
    Count,
    Extent,
    Fabric,
    Length,
    Needlewise,
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
    UntilRound,
    is_of_all,
    is_of_last_round,
    is_once_more,
    is_silent,
)
from roundwright.wording.reading.rhythm import tells_alone
from roundwright.wording.reading.seen import DENYING, Seen, counts_left, has_shaping, is_bare, stated_counts
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.spans import EVERY_OTHER
from roundwright.wording.reading.tree import (
    NOTHING,
    ONE,
    PLAIN_ROUND,
    Number,
    Stated,
    Stitch,
    named,
)


def by_name(seen: Seen, stated: tuple[Stated, ...], label: Label | None) -> list[Candidate]:
    """`Dec rnd (56 sts)`: the round of this name, worked again, where nothing else is told to be worked."""
    if label is None or label.kind != "sort" or not label.named:
        return []
    worked = any(type(phrase) is not Times for phrase in seen.work)
    if worked or seen.words or not all(type(phrase) in _COUNTED for phrase in seen.order):
        return []
    again = Again(label.start, label.start, 0, (label.named,), work=True)
    return [Candidate("loop", 0.3, again=again, times=_last_times(seen), stated=stated)]


def _round_counts(seen: Seen) -> list[Rounds]:
    """How many rounds, wherever that stands: `for 12 rounds`, and not `every round`."""
    return [rounds for rounds in seen.rounds if not rounds.every]


def _first_rounds(seen: Seen) -> Rounds | None:
    """The first number of rounds; None where none is told."""
    return next(iter(_round_counts(seen)), None)


def _rhythms(seen: Seen) -> list[Rounds]:
    """On which rounds: `every other rnd`."""
    return [rounds for rounds in seen.rounds if rounds.every]


def _is_thus(seen: Seen) -> bool:
    """Whether it goes on as before: `in this manner`."""
    return any(phrase.manner for phrase in seen.continues)


def _last_until(seen: Seen) -> Number | None:
    """The count to which it goes on: `until 8 sts remain`; None where none is told."""
    return seen.untils[-1].number if seen.untils else None


def _last_times(seen: Seen) -> Times | None:
    """How often: `4 times`; None where that is not told."""
    return seen.times[-1] if seen.times else None


def _until_unit(seen: Seen, stated: tuple[Stated, ...]) -> list[Candidate]:
    """`Keep going like that until you're at k1, k2tog`: a crown gone on with until it is worked so."""
    at = next((place for place, phrase in enumerate(seen.order) if type(phrase) is Length), None)
    unit = seen.order[at + 1 :] if at is not None else ()
    nodes = tuple(phrase.node for phrase in unit if type(phrase) is Stitches)
    if not 0 < len(nodes) == len(seen.work) or not all(type(node) is Stitch for node in nodes):
        return []
    return [Candidate("continue", 0.2, last=nodes, stated=stated)]


def _to_round(seen: Seen, reached: UntilRound, stated: tuple[Stated, ...]) -> Candidate:
    """`Continue in this way until you have worked (k1, k2tog)`: a crown gone on with up to that round."""
    return Candidate(
        "continue",
        0.1,
        again=next(_gone_on_with(seen), None),
        last=reached.nodes,
        step=max((rounds.step or 1 for rounds in _rhythms(seen)), default=0),
        stated=counts_left(stated)[-1:],
        plain=max(reached.plain, int(seen.ends_plain)),
        ends_shaped=seen.ends_shaped,
    )


def marked_round(seen: Seen, label: Label | None) -> list[Candidate]:
    """`Next rnd: place 8 markers, 12 sts apart`: a plain round, in which nothing else is told to be worked."""
    places = seen.markers is not None or seen.every is not None
    sections = seen.markers.of(0) or 0 if seen.markers else 0
    if label is None and places and seen.work and _of_next_round(seen):
        start = seen.order[0].start
        return [Candidate("round", 0.05, plain_fill("k", start, start), sections=sections, every=seen.every)]
    if label is None or label.kind not in ("next", "numbered", "sort") or not places:
        return []
    if seen.work or seen.fabrics or seen.rounds or seen.agains or seen.evenly or seen.lengths:
        return []
    nodes = plain_fill("k", label.start, label.start)
    return [Candidate("round", 0.3, nodes, sections=sections, every=seen.every)]


def _of_next_round(seen: Seen) -> bool:
    """Whether markers are placed on a round that is knitted: `On the next round place ... Just knit that round`."""
    texts = [phrase.text for phrase in seen.order if type(phrase) is Said]
    next_round = any(
        pair in (("next", "round"), ("this", "round"), ("next", "rnd")) for pair in pairwise(texts)
    )
    others = seen.fabrics or seen.rounds or seen.agains or seen.evenly or seen.lengths or seen.times
    return next_round and not others and all(map(is_bare, seen.work))


def marker_ways(seen: Seen) -> list[Candidate]:
    """`Place a marker every 15 sts`, `20 sts on each needle`: where the sections are, and no work."""
    sections = seen.markers.of(0) or 0 if seen.markers else 0
    every = seen.every or seen.per_part
    few = seen.every is None and (every is None or max(number or 0 for number in every.values) < 2)
    if sections < 2 and few:
        return []
    works = any(not rounds.every for rounds in seen.rounds) or type(seen.order[0]) is Stitches
    cost = 1.5 if works else 0.1  # `Knit 1 round, placing a marker every 14 sts`
    apart = [
        count.number
        for count, behind in pairwise(seen.order)
        if type(count) is Count and type(behind) is Said and behind.text in ("between", "apart")
    ]
    counts = counts_left(stated_counts(seen))[-1:] if len(apart) == 1 and sections > 1 else ()
    if counts and counts[0].number is not apart[0]:  # 8 markers with 11 sts between (88)
        return [Candidate("markers", cost, rounds=apart[0], sections=sections, stated=counts)]
    return [Candidate("markers", cost, rounds=every, sections=sections)]


def once_more(seen: Seen, stated: tuple[Stated, ...], segment: Segment) -> list[Candidate]:
    """`And once more`, `Do this 4 times (8 rounds)`: what was worked last is worked again."""
    rounds = (
        _shaped_next(seen, stated) or _so_on(seen, stated, segment) or _so_many_rounds(seen, stated, segment)
    )
    if ways := rounds or _again_until(seen, stated, segment):
        return ways
    every = any(rhythm.step > 1 or seen.chart for rhythm in _rhythms(seen))
    if not seen.times or every or any(type(phrase) not in _TIMES for phrase in seen.work):
        return []
    times, repeats = seen.times[-1], _repeats(seen)
    if not repeats and not times.more:
        return []
    total = replace(times, total=not times.more)
    last = Again(times.start, times.end, 0, last=1)
    if repeats and segment.earlier > 1:
        again = replace(last, last=segment.earlier, segments=segment.earlier)
        return [Candidate("loop", 0.2, again=again, times=total, stated=stated)]
    ways = [
        Candidate("loop", 0.3 + 0.2 * place, again=replace(last, last=number), times=total, stated=stated)
        for place, number in enumerate(_numbers_repeated(seen, times))
    ]
    # `Decrease 8 sts. Knit 1 round. Repeat this 3 more times`
    if repeats and times.more and ways[0].again == last:
        ways[0] = replace(ways[0], again=replace(last, segments=IN_TURN))
    if not repeats and counts_left(stated):  # `A plain round. And again. 48 sts`
        shaped = replace(last, named=(named("decrease"),), work=True)
        often = replace(times, more=False)
        ways.append(Candidate("loop", 0.6, again=shaped, times=often, stated=stated))
    return ways


def _so_on(seen: Seen, stated: tuple[Stated, ...], segment: Segment) -> list[Candidate]:
    """`and so on for 8 rounds`, `and so on, 8 rounds altogether`: what was worked last; none where more is told."""
    thus = _is_thus(seen)
    other = seen.work or seen.fabrics or seen.evenly or seen.counts or seen.chart
    if other or not (thus or (not segment.alone and seen.words < MOST_SPOKEN)):
        return []
    first = _first_rounds(seen)
    plain = (
        first is not None and (first.plain or _number_after_it(seen)) and not number_after_each(seen.order)
    )
    if first is not None and plain and not thus:  # `Decrease (60 sts) and two plain rounds`
        nodes = plain_fill("k", first.start, first.end)
        return [Candidate("round", 0.0, nodes, rounds=first.number, stated=stated)]
    numbers = [rounds.number for rounds in _round_counts(seen)]
    in_turn = len(numbers) > 1 and not thus
    in_colour = in_colour_alone(seen) or then_in_colour(seen.order)
    if not numbers or numbers[0].values == (1,) or in_turn or in_colour:
        return []
    rounds = seen.rounds[0]
    if thus and _of_next(seen, rounds):
        rounds = replace(rounds, more=True)
    if segment.earlier > 1:  # `and so on, 8 rounds altogether`
        last, work = segment.earlier, not (thus and rounds.more)
        again = Again(rounds.start, rounds.end, 0, last=last, work=work, segments=last)
        turns = Candidate("loop", 0.2, again=again, rounds=numbers[0], stated=stated)
        return [turns] if work else [turns, _onward_in_turn(turns)]
    total = Times(rounds.start, rounds.end, 0, numbers[0], more=rounds.more, total=not rounds.more)
    again = Again(rounds.start, rounds.end, 0, last=1)
    loop = Candidate("loop", 0.2, again=again, times=total, stated=stated)
    if thus and rounds.more:
        turns = Candidate(
            "loop", 0.1, again=replace(again, segments=IN_TURN), rounds=rounds.number, stated=stated
        )
        return [turns, _onward_in_turn(turns), loop, *_plain_where_none_before(seen, rounds, stated)]
    return [loop, *_plain_where_none_before(seen, rounds, stated)]


def _of_next(seen: Seen, rounds: Rounds) -> bool:
    """Whether it is so many of the rounds behind: `Dec in this way on each of next 3 rnds`."""
    return any(
        type(word) is Said and word.text in _FOLLOWING and behind is rounds
        for word, behind in pairwise(seen.order)
    )


def _shaped_next(seen: Seen, stated: tuple[Stated, ...]) -> list[Candidate]:
    """`Dec in this way on each of next 3 rnds`, `Dec in this way for 3 rnds`: as many rounds that are shaped."""
    rounds = _first_rounds(seen)
    others = seen.work or seen.evenly or seen.untils or seen.lengths or seen.times or seen.rounds[1:]
    if rounds is None or rounds.plain or others or not seen.changes:
        return []
    first = next(phrase for phrase in seen.order if type(phrase) not in (Said, Then, Continue))
    otherwise = any(type(word) is Said and word.text in _OTHERWISE for word in seen.order)
    of_next = _of_next(seen, rounds)
    if first is not seen.changes[0] or otherwise or not (of_next or _is_thus(seen)):
        return []
    if (rounds.number.of(0) or 0) < FEWEST_SHAPED:
        return []
    times = Times(rounds.start, rounds.end, 0, rounds.number, more=of_next or rounds.more)
    way = Candidate("continue", 0.1, times=times, step=1, stated=counts_left(stated))
    return [way, *with_first(way, in_this_way=True)]


FEWEST_SHAPED: Final = 2
"""Rounds that are shaped one after the other by their number alone."""
_FOLLOWING: Final = frozenset(("next", "following", "foll"))
_OTHERWISE: Final = DENYING | {"stop", "last", "within"}
"""Words beside rounds that are not all shaped."""


def _onward_in_turn(turns: Candidate) -> Candidate:
    """The rounds in turn gone on with, one stitch fewer each time: `in this manner for 6 more rounds`."""
    return replace(turns, kind="continue", cost=turns.cost + FEWER_IN_TURN, onward="in_turn")


def _repeats(seen: Seen) -> bool:
    """Whether a repeat is told: `Do this`, `rep from *`."""
    return Rep in [type(phrase) for phrase in seen.work]


def _again_until(seen: Seen, stated: tuple[Stated, ...], segment: Segment) -> list[Candidate]:
    """`Repeat until 8 sts remain`: what was worked last, to that count; none where more is told."""
    alone = all(type(phrase) in _OF_REPEATS for phrase in seen.work) and seen.words < MOST_SPOKEN
    if not alone or not _repeats(seen) or not seen.untils or seen.continues:
        return []
    until = seen.untils[-1]
    if any(rhythm.step <= 1 for rhythm in _rhythms(seen)):  # `Do this every round until 8 sts remain`
        return [Candidate("continue", 0.3, until=until.number, step=1, per=seen.per, stated=stated)]
    again = Again(until.start, until.end, 0, last=1, segments=max(1, segment.earlier))
    return [Candidate("loop", 0.4, again=again, until=until.number, stated=stated)]


def _numbers_repeated(seen: Seen, times: Times) -> list[int]:
    """How many rounds may be meant: as many as make up those in all, `4 times (8 rounds)`, else the last or two."""
    repeats = _repeats(seen)
    rounds = _first_rounds(seen)
    in_all = rounds.number.of(0) or 0 if rounds is not None else 0
    behind = seen.order[seen.order.index(times) :] if repeats and times in seen.order else ()
    further = any(type(phrase) is Rounds and not phrase.more for phrase in behind)  # not in brackets
    often = (times.number.of(0) or 1) + (times.more and further)  # repeat twice more, 30 rounds
    if in_all and in_all % often == 0:
        return [in_all // often]
    return [1, 2] if repeats else [1]


def _plain_where_none_before(seen: Seen, rounds: Rounds, stated: tuple[Stated, ...]) -> list[Candidate]:
    """`Work 3 rounds.`: where no round was worked before that these are like, they are plain.

    So they are behind a decrease round and its count: `*K8, k2tog* around (90 sts). 3 rounds.`
    """
    first = seen.order[0]
    works = type(first) is Said and first.text == "work" and seen.spoken_words <= 1
    few = (rounds.number.of(0) or 0) <= MOST_BEHIND
    if not works and (rounds.more or len(seen.order) > 1):
        return []
    nodes = plain_fill("k", rounds.start, rounds.end)
    return [Candidate("round", 0.8 if works or few else 0.95, nodes, rounds=rounds.number, stated=stated)]


FEWER_IN_TURN: Final = 0.05
"""What it costs that rounds in turn do not stay as they are."""
MOST_BEHIND: Final = 8
"""Plain rounds behind a decrease round that are told by their number alone."""


def in_all_ways(seen: Seen, stated: tuple[Stated, ...], segment: Segment) -> list[Candidate]:
    """`Rib rnd: *k1, p1*. Work 10 rnds of rib in all`: the rounds told above count among these."""
    rounds = _round_counts(seen)
    others = (
        seen.agains or seen.times or seen.evenly or seen.lengths or seen.untils or seen.changes or seen.chart
    )
    if segment.label is not None or segment.earlier or others or not rounds:
        return []
    worked = [phrase for phrase in seen.work if not (type(phrase) is Rep and not phrase.level)]
    ribbed = any(fabric.kind == "rib" and not fabric.nodes for fabric in seen.fabrics)
    number = rounds[-1]
    if len(rounds) == FURTHER_AND_ALL and ribbed and rounds[0].more and seen.in_all is number:
        further = False  # Work 9 more rounds of rib (10 rounds in all)
    elif len(rounds) == 1 and number.more:
        further = ribbed
    else:
        further = False
        ribbed = len(rounds) == 1 and (counts_all(seen, number) or seen.in_all is number)
    if worked or not ribbed:
        return []
    again = Again(number.start, number.end, 0, last=1, work=not further, segments=TOLD_ABOVE)
    return [Candidate("loop", seen.words * 0.5, again=again, rounds=number.number, stated=stated)]


GOES_ON_BY_NAME: Final = 0.7
"""What it costs to go on as before with rounds called by name, not worked as they were: `1 dec rnd, 1 plain rnd`."""
FURTHER_AND_ALL: Final = 2
"""Numbers of rounds, the further ones and those in all: `9 more rounds of rib (10 rounds in all)`."""


def counts_all(seen: Seen, rounds: Rounds) -> bool:
    """Whether a number of rounds is that of all of them: `10 rnds of rib in all`, `a total of 10 rounds`."""
    texts = [phrase.text for phrase in seen.order if type(phrase) is Said]
    at = seen.order.index(rounds) if rounds in seen.order else 0
    total = any(map(is_of_all, seen.order[max(0, at - 2) : at + 5]))
    first = "first" in texts and not _COUNTING.isdisjoint(texts)
    return total or first


_COUNTING: Final = frozenset(("counting", "including", "incl", "inclusive"))
"""Words before the round that is one of those counted: `10 rounds, counting the first`."""


def chart_again(seen: Seen, stated: tuple[Stated, ...]) -> list[Candidate]:
    """`Work Chart A six times (48 rnds)`: the rounds of a chart that is told in words just before, so often in all."""
    rounds = [rounds.number for rounds in _round_counts(seen)]
    worked = [phrase for phrase in seen.work if type(phrase) is not Times]
    other = worked or seen.evenly or seen.agains or seen.untils or seen.lengths
    if not seen.chart or len(seen.times) != 1 or len(rounds) != 1 or other:
        return []
    times = seen.times[0]
    turns, in_all = times.number.of(0) or 0, rounds[0].of(0) or 0
    if times.more or turns < 2 or in_all % turns or _round_counts(seen)[0].start < times.start:
        return []  # work the 8 rounds of Chart A twice
    again = Again(times.start, times.end, 0, last=in_all // turns)
    return [Candidate("loop", 0.1, again=again, times=replace(times, total=True), stated=stated)]


def _so_many_rounds(seen: Seen, stated: tuple[Stated, ...], segment: Segment) -> list[Candidate]:
    """`Do this for 12 rounds`: what was worked last, so many rounds in all; none where it is not told so."""
    if len(seen.work) != 1 or seen.times or seen.fabrics or len(seen.rounds) != 1 or seen.rounds[0].every:
        return []
    rep, rounds = seen.work[0], seen.rounds[0]
    if type(rep) is not Rep or rep.level:
        return []
    last = max(1, segment.earlier)
    again = Again(rep.start, rep.end, 0, last=last, work=not rounds.more, segments=segment.earlier)
    return [Candidate("loop", 0.2, again=again, rounds=rounds.number, stated=stated)]


def loop_ways(seen: Seen, stated: tuple[Stated, ...], label: Label | None) -> list[Candidate]:
    """`Rep rnds 1 and 2 four more times`, and what else works rounds again."""
    again = _meant(seen.agains)
    cost = seen.words * 0.5
    if seen.chart:
        return [_rounds_of_chart(seen, again, stated, cost)]
    if stitch := _stitch_with(seen):
        return [Candidate("with", cost, (stitch,), again=again, stated=stated)]
    rounds = _first_rounds(seen)
    loop = _loop(seen, again, stated)
    times, endless = loop.times, loop.times is None and loop.until is None
    options: list[Candidate] = []
    if rounds is not None and endless and label is None and not loop.length:
        number = _rounds_again(seen, again, rounds)
        options.append(Candidate("loop", loop.cost + 0.3, again=again, rounds=number, stated=stated))
    options.extend(_alternated_ways(seen, loop))
    if endless and again.last == 1 and not (again.named or again.segments) and counts_left(stated):
        shaped = replace(again, named=(named("decrease"),))  # A plain round. Do the same again: 64 sts
        options.append(replace(loop, cost=loop.cost + 0.6, again=shaped))
        often = Times(again.start, again.end, 0, ONE, more=True)  # with a stitch less between
        options.append(Candidate("continue", loop.cost + 0.7, times=often, stated=stated))
    if times is None or times.more or not again.work:
        goes_on = rounds is not None and endless
        return [*options, replace(loop, cost=loop.cost + 0.6 * goes_on)]
    return [*options, *_counted_ways(seen, loop, again, times)]


def _meant(agains: list[Again]) -> Again:
    """The rounds worked again: the first, or those by name behind them, `the last 2 rounds (rnds 1 and 2)`."""
    unnamed = agains[0].last or agains[0].segments == FROM_THERE
    return agains[1] if unnamed and len(agains) > 1 and agains[1].named else agains[0]


def _stitch_with(seen: Seen) -> Stitch | None:
    """The stitch with which rounds are worked again: `as rnd 3, with k7`; None where none is, or stitches repeat."""
    if any(type(phrase) in _REPEATS for phrase in seen.work):
        return None
    nodes = (phrase.node for phrase in seen.work if type(phrase) is Stitches)
    return next((node for node in nodes if type(node) is Stitch and not node.bare), None)


def _loop(seen: Seen, again: Again, stated: tuple[Stated, ...]) -> Candidate:
    """These rounds worked again, as often or as far as is told: `rep rnds 1 and 2 until 8 sts rem`."""
    until, times = _last_until(seen), _last_times(seen)
    endless = until is None and times is None
    plain, behind = _plain_after_each(seen), _plain_behind(seen, again)
    plain = plain or (behind.number.of(0) or 0 if behind else 0)
    step = max((rounds.step for rounds in _rhythms(seen)), default=0)
    return Candidate(
        "loop",
        seen.words * 0.5 + SAID_AGAIN * _says_again(seen, again, times),
        again=again,
        times=times,
        until=until,
        length=endless and bool(seen.lengths) and seen.in_all is None,  # not `until 4 cm (12 rounds)`
        step=step if not plain and (again.named or again.last == 1) else 0,
        per=seen.per,
        plain=plain,
        last=tuple(seen.evenly[:1]) if is_of_last_round(seen.order) else (),
        stated=stated,
        ends_shaped=seen.ends_shaped or _stand_between(seen, again),
    )


def _plain_behind(seen: Seen, again: Again) -> Rounds | None:
    """The plain rounds behind each time of one round: `rep rnd 3 four times with 2 rnds between`; None without them."""
    rounds = _first_rounds(seen)
    if rounds is None or not seen.times or len(again.named) != 1:
        return None
    bracketed = seen.in_all is not None and seen.in_all.number is rounds.number
    return None if bracketed else rounds


def _alternated_ways(seen: Seen, loop: Candidate) -> list[Candidate]:
    """How rounds called by name go on, with one stitch fewer: `a dec round and a plain one 3 times`."""
    ways: list[Candidate] = []
    again, until, stated = loop.again, loop.until, loop.stated
    if again is None:
        return ways
    goes_on = Candidate("continue", 0.0, until=until, times=loop.times, per=loop.per, stated=stated)
    if again.work and set(again.named) == {named("decrease"), PLAIN_ROUND} and (loop.times or until):
        plain = int(again.named[-1] == PLAIN_ROUND and until is None)
        cost = loop.cost + GOES_ON_BY_NAME
        ways.append(replace(goes_on, cost=cost, step=2, plain=plain))
        ways.extend(with_first(ways[-1], in_this_way=False))
    decreases = again.named == (named("decrease"),)
    elsewhere = any(type(phrase) is Said and phrase.text in _ELSEWHERE for phrase in seen.order)
    if decreases and loop.times and loop.plain and not elsewhere:
        # `Work the dec rnd 2 more times, with 2 rnds after each`
        cost = loop.cost + GOES_ON_BY_NAME
        ways.append(replace(goes_on, cost=cost, step=loop.plain + 1, plain=loop.plain))
        ways.extend(with_first(ways[-1], in_this_way=False))
    elif decreases and ((loop.step and (loop.times or until)) or (until and again.work)):
        # `Rep dec rnd every rnd twice`, `work only dec rnds until 16 sts`
        cost, step = loop.cost + GOES_ON_BY_NAME, max(loop.step, 1)
        ways.append(replace(goes_on, cost=cost, step=step))
    if until is not None and _are_said_to_alternate(seen):
        cost = loop.cost + SAID_TO_ALTERNATE
        ways.append(replace(goes_on, cost=cost, again=again, ends_shaped=True))
    return ways


_ELSEWHERE: Final = frozenset(("last", "before", BEFORE_EACH))
"""Words of plain rounds that do not stand behind every decrease round."""
SAID_TO_ALTERNATE: Final = 0.2
"""What it costs that rounds which are said to alternate go on with one stitch fewer."""


def _are_said_to_alternate(seen: Seen) -> bool:
    """Whether shaped and plain rounds are said to alternate: `Decrease rounds and plain rounds alternate until 16`."""
    named_rounds = seen.agains[0].named if seen.agains else ()
    words = any(type(phrase) is Said and phrase.text in ("alternate", "alternating") for phrase in seen.order)
    return words and len(named_rounds) > 1 and PLAIN_ROUND in named_rounds and not seen.ends_plain


def _counted_ways(seen: Seen, loop: Candidate, again: Again, times: Times) -> list[Candidate]:
    """`Work rnds 1 and 2 four times`: how many of these times were worked before, where all are told with `in all`.

    None were where it is only some of the rounds from now on: `Repeat round A only 5 times`, `on every round 4 times`.
    """
    total = (times.total or bool(_round_counts(seen))) and _plain_behind(seen, again) is None
    some = len(again.named) == 1 or not times.total  # `rounds 1 and 2 just 3 times in all` are all there are
    only = some and tells_alone(seen.order)
    only = only or (not total and any(rounds.step <= 1 for rounds in _rhythms(seen)))
    total_times = replace(loop, times=replace(times, total=True))
    anew = replace(loop, times=replace(times, total=False))
    if only or (len(again.named) > 1 and not again.last and PLAIN_ROUND in again.named):
        return [anew, replace(total_times, cost=loop.cost + 0.4)]  # nothing of it was worked before
    if total and len(again.named) == 1 and loop.stated:
        return [total_times, replace(anew, cost=loop.cost + TOLD_ANEW)]
    return [total_times, replace(loop, cost=loop.cost + 0.4 + total)]


def on_rounds_ways(seen: Seen, stated: tuple[Stated, ...]) -> list[Candidate]:
    """`Rep dec rnd on next and foll 2 alt rnds`, `dec as set on foll 3 alt rnds`; none where it is not told so."""
    turns = seen.on_rounds
    worked = [phrase for phrase in seen.work if type(phrase) not in (Until, Times)]
    if turns is None or worked[1:] or seen.chart:
        return []
    if seen.agains:
        work = Candidate("loop", seen.words * 0.5, again=seen.agains[0], stated=stated)
        return [_on_rounds(seen, turns, work)]
    as_set = any(fabric.kind == "before" for fabric in seen.fabrics) and bool(seen.evenly)
    if not (seen.changes or seen.continues or as_set) or worked:
        return []
    return [_on_rounds(seen, turns, Candidate("continue", 0.1, stated=counts_left(stated)))]


def _on_rounds(seen: Seen, turns: Rounds, work: Candidate) -> Candidate:
    """`Rep dec rnd on next and foll 2 alt rnds`: on how many rounds it is worked, or to which count."""
    until = _last_until(seen) if turns.often is None else None
    times = _last_times(seen) if turns.often is None else None
    if turns.often is not None:
        often = tuple((value or 0) + turns.at_once for value in turns.often.values)
        times = Times(turns.start, turns.end, 0, Number(often, turns.start, turns.end))
    elif until is None and times is None and (counts := counts_left(work.stated)):
        until = counts[-1].number
    return replace(
        work, times=times, until=until, step=turns.step, at_once=turns.at_once, ends_shaped=turns.at_once
    )


def _stand_between(seen: Seen, again: Again) -> bool:
    """Whether its plain rounds stand only between those that shape: `repeat the dec rnd, with 2 rnds between`."""
    behind = (
        seen.order[seen.order.index(again) + 1 :]
        if PLAIN_ROUND in again.named and again in seen.order
        else ()
    )
    return bool(behind) and type(behind[0]) is Said and behind[0].text in ("between", "in between")


def _rounds_of_chart(seen: Seen, again: Again, stated: tuple[Stated, ...], cost: float) -> Candidate:
    """`Work rnds 1-6 of Chart A 6 times`: rounds that keep the count."""
    number = len(again.named) or again.last or 1
    often = next((phrase for phrase in seen.order if type(phrase) is Times), None)
    turns = often.number.values if often is not None else (1,)
    rounds = Number(tuple(number * (turn or 0) for turn in turns))
    nodes = plain_fill("k", again.start, again.end)
    return Candidate("round", cost + 0.2, nodes, rounds=rounds, stated=stated, chart=True)


def _rounds_again(seen: Seen, again: Again, rounds: Rounds) -> Number:
    """How many rounds are worked again: `for 12 rounds`, of `12 rounds in all` those that were not worked before."""
    in_all = (seen.in_all or rounds).number
    if not seen.in_all and not counts_all(seen, rounds):
        return in_all
    if (again.work and not again.named) or again.segments == FROM_THERE:
        return in_all
    worked = len(again.named) or again.last
    left = tuple(max(0, (value or 0) - worked) for value in in_all.values)
    return Number(left, in_all.start, in_all.end)


def _plain_after_each(seen: Seen) -> int:
    """How many plain rounds follow each decrease round, where a bracket says so: `(3 plain rnds after each)`."""
    numbers = (number_after_each(phrase.inside) for phrase in seen.order if type(phrase) is Brackets)
    return next(filter(None, numbers), 0)


def shaped_in_turn(seen: Seen, stated: tuple[Stated, ...]) -> list[Candidate]:
    """`Work 3 decrease rounds: 24, 16, 8 sts`: the crown goes on to the last count, or so many rounds.

    Plain rounds may be told behind each of them, or between them.
    """
    if counted := _with_changes(seen):
        return [Candidate("continue", 0.4, step=1, times=counted, stated=counts_left(stated)[-1:])]
    turns = seen.agains[0].named if seen.agains else ()
    if len(turns) < 2 or seen.times or any(called != named("decrease") for called in turns):
        return []
    counts, again = counts_left(stated)[-1:], seen.agains[0]
    rounds = _first_rounds(seen)
    where = _where_plain(seen, rounds)
    if not where and (seen.untils or seen.continues):
        return []  # 2 dec rounds and a knit round, till 16: what is gone on with says in which order
    if not where:
        return [Candidate("unread", 0.4, trouble=("not_understood", say("read.how_far"), again.start))]
    plain, behind = (rounds.number.of(0) or 0 if rounds is not None else 0), where == "behind"
    way = Candidate("continue", 0.4, step=1 + plain, stated=counts, plain=plain * behind, at_once=behind)
    if counts:
        return [replace(way, until=counts[0].number)]
    times = Times(again.start, again.end, 0, Number((len(turns),)), more=True)
    return [replace(way, times=times, cost=way.cost + SAID_TO_ALTERNATE)]


def _with_changes(seen: Seen) -> Times | None:
    """How many rounds are told to shape: `3 more rounds, each with decreases`; None where more is told or less."""
    match seen.order:
        case (Rounds(every=False) as rounds, *phrases) if Change in [type(phrase) for phrase in phrases]:
            at = next(place for place, phrase in enumerate(phrases) if type(phrase) is Change)
        case _:
            return None
    texts = [phrase.text if type(phrase) is Said else "" for phrase in phrases[:at]]
    known = texts[-1:] == ["with"] and not _ALL.isdisjoint(texts) and _ALL_WITH.issuperset(texts)
    known = known and _sign(seen) < 0
    ends = all(type(phrase) in (Count, Brackets) or is_silent(phrase) for phrase in phrases[at + 1 :])
    return Times(rounds.start, rounds.end, 0, rounds.number, more=True) if known and ends else None


_ALL: Final = frozenset(("each", "all", "every"))
_ALL_WITH: Final = _ALL | {"with", "one", "more"}
"""Words between rounds and the decreases with which they are all worked."""


def _where_plain(seen: Seen, rounds: Rounds | None) -> Literal["none", "behind", "between", ""]:
    """Where the plain rounds are that are told with decrease rounds: behind each, or between; empty where unclear."""
    if rounds is None or not any(rounds.number.values):
        paces = any(rhythm.step > 1 for rhythm in _rhythms(seen))  # 3 more decrease rounds on every 2nd round
        return "" if paces else "none"
    at = next((place for place, phrase in enumerate(seen.order) if phrase is rounds), len(seen.order))
    texts = [phrase.text if type(phrase) is Said else "" for phrase in seen.order]
    if [text for text in texts[:at] if text not in ("", "a")][-2:] in _BEFORE_PLAIN:
        return "behind"
    words = [text for text in takewhile(bool, texts[at + 1 :]) if text != "in"]
    if words in _BEHIND_EACH:
        return "behind"
    return "between" if words in _BETWEEN_THEM else ""


_BEFORE_PLAIN: Final = (["each", "followed by"], ["with", "after each"])
_BEHIND_EACH: Final = (["after", "each"], ["after each"], ["after", "each", "one"], ["after", "every", "one"])
_BETWEEN_THEM: Final = (
    ["between"],
    ["in between"],
    ["between", "each"],
    ["between", "them"],
    ["in between", "them"],
)


def _only_changes(seen: Seen) -> bool:
    """Whether decreases are worked and nothing between: `Dec only, till 12`."""
    return any(
        type(change) is Change and type(only) is Said and only.text == "only"
        for change, only in pairwise(seen.order)
    )


def as_before(seen: Seen, stated: tuple[Stated, ...]) -> list[Candidate]:
    """`As before: 48 sts`, `as before on each round now: 48, 40, 32`: the crown goes on to the last count."""
    counts = counts_left(stated)
    other = seen.work or seen.evenly or seen.agains or seen.untils or seen.lengths or seen.times
    if not counts or other or not seen.fabrics:
        return []
    if any(fabric.kind != "before" for fabric in seen.fabrics):
        return []
    if rounds := _first_rounds(seen):  # 6 rounds as set: 48 sts
        end = counts[-1].number
        return [Candidate("continue", 0.5, rounds=rounds.number, until=end, stated=counts[-1:])]
    at = seen.fabrics[0]
    last = Again(at.start, at.end, 0, (named("decrease"),), last=1, work=True)
    return [
        Candidate("loop", 0.4, again=last, stated=counts[-1:]),
        Candidate("continue", 0.5, until=counts[-1].number, step=1, stated=counts[-1:]),
    ]


def _gone_on_with(seen: Seen) -> Iterator[Again]:
    """The rounds that are worked again, and not those that others are worked `between`."""
    before: Phrase | None = None
    for phrase in seen.order:
        if type(phrase) is Again and not (type(before) is Said and before.text == "between"):
            yield phrase
        before = phrase


def _is_every_so_often(seen: Seen, times: Times | None) -> bool:
    """Whether no more is told than how often, and on which rounds: `then every other rnd 5 times (32 sts)`."""
    if times is None or times.total or seen.words >= MOST_SPOKEN:
        return False
    if len(seen.rounds) != 1 or not _rhythms(seen):
        return False
    begins = next((phrase for phrase in seen.order if type(phrase) is not Said), None)
    repeats = [phrase for phrase in seen.order if type(phrase) is Rep]
    if any(phrase.level for phrase in repeats):
        return False
    return type(begins) in (Then, Rounds, Rep) and all(type(phrase) in _HOW_OFTEN for phrase in seen.order)


def _rounds_as_times(seen: Seen) -> Times | None:
    """`Dec every rnd for 6 rnds`: as often as there are rounds; None where they are not told so."""
    match seen.rounds:
        case [Rounds(every=True, step=step), Rounds(every=False) as rounds] if step <= 1 and (
            seen.changes or seen.continues
        ):
            return Times(rounds.start, rounds.end, rounds.flags, rounds.number, more=rounds.more)
        case _:
            return None


def continuations(seen: Seen, stated: tuple[Stated, ...], label: Label | None) -> list[Candidate]:
    """`Continue in this manner until 8 sts remain`."""
    if seen.until_round is not None:
        return [_to_round(seen, seen.until_round, stated)]
    end = seen.untils[-1].number.start if seen.untils else -1
    left = tuple(count for count in counts_left(stated) if count.start > end)
    until = _end_count(seen, left)
    times = _how_often(seen) if until is None else None
    if until is None and times is None:
        return _without_end(seen, stated, left)
    if _is_every_so_often(seen, times):
        step = seen.rounds[-1].step or 1
        return [Candidate("continue", 0.1, times=times, step=step, stated=left)]
    if not _is_gone_on_with(seen, until):
        return []
    thus, every, change = _is_thus(seen), bool(_rhythms(seen)), _sign(seen)
    cost = 0.3 * (not thus) + min(1.5, seen.words * 0.3)
    cost += TOLD_ITSELF * (not (thus or change or every) and _tells_round(seen))
    after_each = number_after_each(seen.order)
    step = after_each + 1 if after_each else _step(seen, label)
    counted = (
        _first_rounds(seen) if left and not seen.untils and not after_each else None
    )  # work 6 rounds in this way: 48 sts
    candidate = Candidate(
        "continue",
        cost,
        rounds=counted.number if counted is not None and not counted.plain else None,
        until=until,
        again=next(_gone_on_with(seen), None),
        times=times,
        step=step,
        stated=left,
        change=_change_alone(seen),
        often=_often_to(seen) if until is not None else None,
        per=seen.per,
        last_round=seen.last_round,
        plain=(after_each if not seen.untils else 0)
        or _after_it(seen, times)
        or int(seen.ends_plain or (times is not None and _has_whole_turns(seen, step, times))),
        ends_shaped=seen.ends_shaped or _are_said_to_alternate(seen),
    )
    others = with_first(candidate, in_this_way=thus and every)
    if others and times is not None and times.reached:  # until 4 dec rnds have been worked
        counted_in = [replace(other, cost=cost + BEGUN * place) for place, other in enumerate(others)]
        return [*counted_in, replace(candidate, cost=cost + AS_TOLD)]
    if others and ((thus and every) or candidate.again) and not left and not _begins_with_then(seen):
        # Of `like this 6 times in all`, and of `these 2 rnds 3 times in all`, the first is above.
        candidate = replace(candidate, cost=cost + AS_TOLD)
    return [candidate, *others]


def _change_alone(seen: Seen) -> Number | None:
    """How many stitches each round takes in or makes, where no stitches and no rounds are told with it."""
    evenly = seen.evenly[0] if len(seen.evenly) == 1 else None
    if evenly is None or evenly.to or _round_counts(seen) or any(map(has_shaping, seen.work)):
        return None
    if evenly.end <= evenly.change.end:
        return None  # `dec 7 more rnds`
    return evenly.change


def _often_to(seen: Seen) -> Times | None:
    """How often it goes on to a count, where that is said too: `dec 6 more times until 40 sts remain`."""
    match seen.times:
        case [times] if (times.number.of(0) or 0) > 1 and Needlewise not in map(type, seen.order):
            return times  # and not `2 times on each needle`
        case _:
            return None


def _after_it(seen: Seen, times: Times | None) -> int:
    """The plain rounds behind a decrease worked once more: `Decrease again, with 2 plain rounds after it`."""
    return _number_after_it(seen) if is_once_more(times) else 0


def _number_after_it(seen: Seen) -> int:
    """How many rounds are told to be worked after a round: `with 2 rounds after it`; 0 where none are."""
    for at, (rounds, behind) in enumerate(pairwise(seen.order), start=2):
        if type(rounds) is Rounds and not rounds.every and type(behind) is Said and behind.text == "after":
            before = any(
                type(phrase) is Said and phrase.text in ("last", "this") for phrase in seen.order[at:]
            )
            return 0 if before else rounds.number.of(0) or 0  # `3 rounds after the last one`: those before it
    return 0


def number_after_each(phrases: tuple[Phrase, ...]) -> int:
    """How many plain rounds are told to follow each decrease: `with 2 rounds after each one`; 0 where none are."""
    phrases = tuple(phrase for phrase in phrases if type(phrase) is not Fabric)
    for at, rounds in enumerate(phrases, start=1):
        texts = [phrase.text for phrase in phrases[at : at + 2] if type(phrase) is Said]
        behind = texts[:1] == ["after each"] or texts in (["after", "each"], ["after", "every"])
        if type(rounds) is Rounds and not rounds.every and behind:
            return rounds.number.of(0) or 0
    return 0


def _goes_on(seen: Seen) -> bool:
    """Whether it begins by going on: `continue until ...`, `then every other rnd 5 times`."""
    then = _begins_with_then(seen) and bool(seen.times and _rhythms(seen)) and not seen.work[1:]
    return bool(seen.continues) or then


def _begins_with_then(seen: Seen) -> bool:
    """Whether it begins with `then`: `then every other rnd 5 times`."""
    return bool(seen.order) and type(seen.order[0]) is Then


def _sign(seen: Seen) -> int:
    """Whether stitches are lost or made, `decreasing`, `dec 8 sts evenly`: -1 or 1; 0 where neither is told."""
    changes = seen.changes or seen.evenly
    return changes[0].sign if changes else 0


def _end_count(seen: Seen, left: tuple[Stated, ...]) -> Number | None:
    """The count at the end: `until 8 sts remain`, `dec to 64 sts`, or the last printed, `continue so (56, 48 sts)`."""
    if seen.untils:
        return _last_until(seen)
    if seen.last_round is not None:
        return None  # `Stop after Round 8, with 49 sts`: the count is compared
    goes_on, every, change = _goes_on(seen), bool(_rhythms(seen)), _sign(seen)
    evenly = next((node.change for node in seen.evenly if node.to), None)
    if evenly is not None and (goes_on or every):
        return evenly
    if seen.times or not left or not (goes_on or (change and every)):
        return None
    in_fabric = not (_is_thus(seen) or change) and _goes_on_in_fabric(seen)
    return None if in_fabric else left[-1].number


def _without_end(seen: Seen, stated: tuple[Stated, ...], left: tuple[Stated, ...]) -> list[Candidate]:
    """What goes on to neither a count nor a number of times: `continue so up to and including Round 20`."""
    if seen.last_round is not None and _goes_on(seen):
        as_set = any(fabric.kind == "before" for fabric in seen.fabrics)
        cost = 0.0 if as_set or _is_thus(seen) else 0.4
        step = _step(seen, None)
        return [Candidate("continue", cost, last_round=seen.last_round, step=step, stated=left)]
    return _until_unit(seen, stated) if _is_thus(seen) else []


def _is_gone_on_with(seen: Seen, until: Number | None) -> bool:
    """Whether a crown goes on: `continue until 8 sts remain`, `dec every rnd to 8 sts`, and not `rep from * until`."""
    repeats = any(type(phrase) in _REPEATS for phrase in seen.work)
    if repeats or (seen.agains and not _is_thus(seen)) or (not seen.untils and _goes_on_to_the_end(seen)):
        return False
    if _goes_on(seen):
        return True
    change = bool(_sign(seen))
    if not _rhythms(seen):
        return change and until is not None and not any(node.to for node in seen.evenly)
    stitches = bool(seen.fabrics) or Stitches in [type(phrase) for phrase in seen.work]
    ends = not stitches and (until is not None or _begins_with_then(seen))
    return change or ends or any(count.sign for count in seen.counts)


def _step(seen: Seen, label: Label | None) -> int:
    """Every how many rounds it is shaped: 3 of `every 3rd rnd`, 2 of `with 1 rnd plain`; 0 where it is not said."""
    if label is not None and label.every is not None:
        return label.every.step  # Rnd 5 and every foll rnd: dec as set
    if _round_counts(seen) and any(fabric.kind == "plain" for fabric in seen.fabrics):
        return 2
    return max((rounds.step or 1 for rounds in _rhythms(seen)), default=int(_only_changes(seen)))


def _has_whole_turns(seen: Seen, step: int, times: Times) -> bool:
    """Whether the plain round behind the last shaping counts, too: `every other rnd 6 times in all (12 rnds)`."""
    if seen.in_all is None or not times.total or step != EVERY_OTHER:
        return False
    columns = range(max(len(seen.in_all.number.values), len(times.number.values)))
    return all(seen.in_all.number.of(size) == step * (times.number.of(size) or 0) for size in columns)


TOLD_ITSELF: Final = 0.6
"""What it costs to go on as before where the sentence tells a round itself."""


def _tells_round(seen: Seen) -> bool:
    """Whether a round is told, plain stitches and a decrease: `Continue with k7, k2tog, and 64 stitches remain`."""
    if seen.untils or seen.times:
        return False
    stitches = [phrase for phrase in seen.work if type(phrase) is Stitches and not is_bare(phrase)]
    return {True, False} <= {has_shaping(phrase) for phrase in stitches}


def _goes_on_to_the_end(seen: Seen) -> bool:
    """Whether stitches are gone on with to the end of their round: `k2tog, and so on to the end (8 sts)`."""
    return any(
        type(first) is Stitches
        and type(first.node) is Stitch
        and not first.node.bare
        and type(manner) is Continue
        and type(far) is Extent
        and far.leave == NOTHING
        for first, manner, far in zip(seen.order, seen.order[1:], seen.order[2:], strict=False)
    )


def _is_on_them(seen: Seen) -> bool:
    """Whether something is done on rounds that are named: `on rounds 5, 7 and 8`."""
    behind = zip(seen.order, seen.order[1:], strict=False)
    return any(
        type(word) is Said and word.text in ("on", "in", "at") and type(again) is Again
        for word, again in behind
    )


def on_named_rounds(seen: Seen, stated: tuple[Stated, ...], label: Label | None) -> list[Candidate]:
    """`Decrease in the same way on rounds 5, 7 and 8`: those are shaped, and the rounds between them are plain."""
    numbers = seen.agains[0].named if len(seen.agains) == 1 else ()
    repeats = any(type(phrase) is Rep and not phrase.level for phrase in seen.work)
    others = seen.work[1:] or (seen.work and not repeats) or seen.evenly or seen.untils or seen.times
    kinds = {fabric.kind for fabric in seen.fabrics}
    thus = bool(seen.continues) or "before" in kinds or repeats
    changes = seen.changes or any(count.sign for count in seen.counts)
    if label is not None or others or seen.lengths or not changes or not thus or kinds - {"before", "plain"}:
        return []
    if not numbers or not _is_on_them(seen):
        return []
    if min(numbers) < 1 or sorted(set(numbers)) != list(numbers):
        return []
    left = counts_left(stated)[-1:]
    return [Candidate("continue", 0.0, onward="as_numbered", again=seen.agains[0], stated=left)]


def _how_often(seen: Seen) -> Times | None:
    """How often it is gone on with; in all, where that is said before: `decrease like this a total of 5 times`."""
    if not seen.times:
        return _rounds_as_times(seen)
    times = seen.times[-1]
    at = seen.order.index(times) if times in seen.order else 0
    total = at > 0 and _is_thus(seen) and is_of_all(seen.order[at - 1])
    return replace(times, total=True) if total else times


def _goes_on_in_fabric(seen: Seen) -> bool:
    """Whether so many rounds of a fabric are told: `Cont in k3, p1 rib as established for 6 more rnds. 80 sts`."""
    return bool(_round_counts(seen)) and any(fabric.kind != "before" for fabric in seen.fabrics)


def _says_again(seen: Seen, again: Again, times: Times | None) -> bool:
    """Whether rounds of a pattern are said in other words: `work 32 rnds in pattern, that is rnds 1-8 4 times`."""
    rounds = _first_rounds(seen)
    if rounds is None or times is None or rounds.number.start > again.start or not seen.fabrics:
        return False
    return rounds.number.of(0) == len(again.named) * (times.number.of(0) or 0)


def with_first(candidate: Candidate, *, in_this_way: bool) -> list[Candidate]:
    """The candidate with the first of its times worked before, `4 times in all = 48 sts`, where a count can tell.

    So may be those of `Decrease in this way every 3rd round 3 times = 72 sts`, `in_this_way`. In all it may also be
    two or three of them that were worked before, each in a line of its own.
    """
    times = candidate.times
    most = 1
    if times is not None and in_this_way and candidate.stated and not (times.total or times.more):
        candidate = replace(candidate, cost=candidate.cost + AS_TOLD)
    elif times is None or not times.total:
        return []
    elif candidate.stated:
        most = MOST_BEGUN
    ways = []
    for begun in range(1, most + 1):
        fewer = [max(0, often - begun) if often is not None else None for often in times.number.values]
        counted = replace(times, number=replace(times.number, values=tuple(fewer)), total=True)
        cost = candidate.cost + WITH_FIRST * begun
        ways.append(replace(candidate, cost=cost, times=counted, begun=begun))
    return ways


SAID_AGAIN: Final = 1.0
"""What it costs to work rounds again that only say in other words what is worked."""
TOLD_ANEW: Final = 1.4
"""What it costs that none of the times in all was worked before: `Now work rnd 1 only, 4 times in all. (8 sts)`."""
AS_TOLD: Final = 0.7
"""What it costs that the round told before is one of those that a count is printed behind, and no word says so."""
WITH_FIRST: Final = 0.3
"""What it costs to count a round that was worked before among the times in all."""
BEGUN: Final = 0.05
"""What it costs that more than one of the rounds that have been worked then was told before."""
MOST_BEGUN: Final = 3
"""Rounds worked before that are counted among the times in all."""
MOST_SPOKEN: Final = 0.5
"""Unknown words, as they are weighed, beside a repeat that goes back to the sentence before it."""
_COUNTED: Final = frozenset((Count, Times, Brackets))
"""What may stand behind the name of a round that is worked again."""
_TIMES: Final = frozenset((Times, Rep))
_HOW_OFTEN: Final = frozenset((Then, Said, Rounds, Rep, Times, Count, Brackets, PerPart))
_OF_REPEATS: Final = frozenset((Star, Rep, Until))
_REPEATS: Final = frozenset((Star, Brackets, Rep))
