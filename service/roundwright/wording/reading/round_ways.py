"""Candidates that work a round, or several alike."""

from itertools import pairwise, takewhile
from typing import Final, TypeAlias

from msgspec.structs import replace

from roundwright.knitting.rounds.round import Work, execute
from roundwright.language import say
from roundwright.wording.reading.fabric_ways import (
    RoundWork,
    bands_in_all,
    fabric_only,
    fill,
    first_of,
    plain_fill,
)
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import (
    FIRST_ROUND,
    AtEnds,
    Brackets,
    Chart,
    Continue,
    Count,
    Extent,
    Fabric,
    Needlewise,
    Odd,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Times,
    Until,
    is_of_last_round,
    names_rib,
    opened,
)
from roundwright.wording.reading.places_unread import is_at_place, is_in_middle
from roundwright.wording.reading.seen import (
    Seen,
    counts_left,
    has_shaping,
    has_stitches,
    is_bare,
    is_ribbed,
    is_shaping,
    only_spoken_of,
)
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.settle import Settled, settle
from roundwright.wording.reading.spread import place_in_round
from roundwright.wording.reading.tokens import COMMA, SEMI, STOP
from roundwright.wording.reading.tree import (
    NOTHING,
    ONE,
    Evenly,
    Fill,
    Nodes,
    Number,
    Stated,
    Stitch,
    Unknown,
)


def rounds_of_segment(
    seen: Seen, stated: tuple[Stated, ...], label: Label | None, segment: Segment
) -> list[Candidate]:
    """Everything that works a round, or several alike."""
    work = _work(seen, stated, label, segment)
    unread = (
        is_at_place(work.work, segment.phrases) if seen.at_ends is None else is_in_middle(segment.phrases)
    )
    if unread and not stated:
        trouble = ("not_understood", say("read.which_stitches"), segment.phrases[0].start)
        return [replace(option, trouble=trouble) for option in _ways(seen, work)]
    return _ways(seen, work)


def _ways(seen: Seen, work: RoundWork) -> list[Candidate]:
    """Every way to work what a segment says of its rounds."""
    segment = work.segment
    if seen.at_ends is not None:
        return _at_ends(work, seen.at_ends)
    if ways := _at_end_of_round(work):
        return ways
    bare = all(map(is_bare, work.stitches))
    options = _evenly(work) if seen.evenly else []
    if seen.evenly and bare:
        return options
    if not work.stitches:
        return _up_to_last(work, [*fabric_only(work), *_named_round(work), *_to_count(work)])
    if number := _only_a_number(work):
        nodes = plain_fill("k", segment.start, segment.end)
        return [Candidate("round", work.cost + 0.1, nodes, rounds=number, stated=work.stated)]
    if bare:
        return _up_to_last(work, _bare(work))
    if seen.untils and (on_each := _on_each(work)):
        return [*options, *on_each]
    if seen.untils and _step(work) > 1:
        return [*options, *_until(work)]  # every other round: *k6, k2tog; rep from * until 48 sts remain
    options.extend(_on_each(work))
    options.extend(_times_alone(work))
    options.extend(_in_forms(work))
    options.extend(_last_otherwise(work))
    if work.fabric:
        options.extend(_described(work))
        options.extend(_explained_fabric(work))
    options.extend(_until(work))
    options.extend(_with(work))
    return _up_to_last(work, options)


def _up_to_last(work: RoundWork, ways: list[Candidate]) -> list[Candidate]:
    """Rounds alike up to that of a number: `Work in rib up to round 12`."""
    last = work.seen.last_round if work.label is None and work.number is None else None
    return [replace(way, last_round=last) for way in ways]


def _work(seen: Seen, stated: tuple[Stated, ...], label: Label | None, segment: Segment) -> RoundWork:
    """What a segment says of its rounds."""
    work = tuple(_explained(seen.work))
    stitches = [phrase for phrase in work if has_stitches(phrase)]
    counted = label is not None and label.kind == "count"
    number = label.count if label is not None and counted else _how_many(seen)
    if number is None and (times := _every_round_times(seen)):
        number, work = times.number, tuple(phrase for phrase in work if phrase is not times)
    if number is None and label is None:
        number = _in_numbers(seen)
    every = number is None and label is None and any(rounds.every for rounds in seen.rounds)
    single = label is not None and label.kind == "numbered" and not (number and segment.alone)
    length = (bool(seen.lengths) or every) and not single
    fabric = bool(seen.fabrics) or (number is not None and number.values != (1,)) or length or counted
    cost = min(4.0, seen.words)
    if label is None and stitches and only_spoken_of(seen, stitches):
        cost += 2.0
    return RoundWork(seen, label, segment, stated, work, stitches, number, length, fabric, cost)


def _named_round(work: RoundWork) -> list[Candidate]:
    """`Round 3: dot round, groups of 6`: a numbered round of a pattern that is told elsewhere; it keeps its count."""
    label, order = work.label, work.seen.order
    if label is None or label.kind != "numbered" or not work.segment.phrases or work.seen.chart:
        return []
    match order:
        case (Said(words=1, text=name), Said(text="round" | "rnd" | "row"), *_) if name.isalpha():
            words = [phrase for phrase in order if type(phrase) not in (Said, Count)]
            stated = tuple(count for count in work.stated if count.number in _sure(order))
            nodes = plain_fill("k", work.segment.start, work.segment.end)
            return [] if words else [Candidate("round", NAMED, nodes, stated=stated)]
        case _:
            return []


def _to_count(work: RoundWork) -> list[Candidate]:
    """`4 / decrease / 90`: a round of which no more is told than that it shapes, and its count."""
    label, seen = work.label, work.seen
    counts = [stated for stated in work.stated if not stated.sign]
    if label is None or label.kind not in ("numbered", "listed", "next") or len(counts) != 1:
        return []
    if len(seen.changes) != 1 or seen.agains or seen.untils or seen.rounds or seen.times or seen.evenly:
        return []
    start, end = work.segment.start, work.segment.end
    nodes = (Evenly(counts[0].number, seen.changes[0].sign, start, end, to=True),)
    return [Candidate("round", 0.4, nodes, stated=work.stated)]


def _sure(phrases: tuple[Phrase, ...]) -> list[Number]:
    """The numbers that can be nothing but counts."""
    return [phrase.number for phrase in phrases if type(phrase) is Count and phrase.sure]


NAMED: Final = 1.0
"""What it costs to work a round of which only the name is told."""


def _only_a_number(work: RoundWork) -> Number | None:
    """How many rounds `Knit 2` is on a line of its own."""
    if work.label is not None or not work.segment.alone or len(work.seen.order) != 1:
        return None
    match work.seen.order:
        case (Stitches(node=Stitch(name="k", times=number, bare=False)),):
            return number if 1 < (number.of(0) or 0) <= MOST_ALONE else None
    return None


MOST_ALONE: Final = 12
"""The number of a line that says no more than `Knit 2` is that of rounds up to here."""


def _bare(work: RoundWork) -> list[Candidate]:
    """`knit` or `purl` alone, which may be a fabric's: `knit in garter st`."""
    seen = work.seen
    options = []
    if seen.fabrics and seen.fabrics[0].nodes:
        nodes = fill(seen.fabrics[0].nodes, work.segment)
        length = work.length and work.number is None
        options.append(
            Candidate("round", work.cost, nodes, rounds=work.number, length=length, stated=work.stated)
        )
    first = work.stitches[0]
    if len(work.stitches) > 1 and type(first) is Stitches and type(first.node) is Stitch and _in_turn(seen):
        nodes = plain_fill(first.node.name, first.start, first.end)
        return [Candidate("round", min(work.cost, 1.0), nodes, rounds=work.number, stated=work.stated)]
    unsaid = work.label is None and work.number is None and not work.length
    prose = unsaid and len(work.work) == len(work.stitches) and seen.words >= 0.15
    options.extend(work.round(way, 1.5 * prose) for way in settle(work.work))
    return options


def _in_forms(work: RoundWork) -> list[Candidate]:
    """The stitches in every form in which the round can be understood."""
    options = []
    ribbed = any(fabric.kind == "rib" for fabric in work.seen.fabrics)
    once = (ONCE_IN_RIB if ribbed else ONCE_IN_FABRIC) if work.fabric else 0.0
    alone = all(type(phrase) in _OF_REPEAT for phrase in work.segment.phrases)
    for base, others in _forms(list(work.work), work.seen):
        nodes = tuple(way.nodes for form in others for way in settle(form)[:3] if not way.trouble)
        for way in settle(base, counted=bool(work.stated), alone=alone):
            filled = Fill in [type(node) for node in way.nodes]
            options.append(work.round(way, 0.0 if filled else once, nodes))
    return options


_OF_REPEAT: Final = frozenset((Brackets, Count, Rep, Star, Stitches, Times))
ONCE_IN_FABRIC: Final = 0.5
"""What it costs that the stitches of a fabric are worked once in a round."""
ONCE_IN_RIB: Final = 1.0
"""The same of a rib: `k2, p2 rib` is worked over and over."""


def _last_otherwise(work: RoundWork) -> list[Candidate]:
    """`*yo, k2tog, k6; rep from * around, ending last rep k2`: the last repeat has other stitches at its end."""
    phrases, texts = work.work, [phrase.text for phrase in work.seen.order if type(phrase) is Said]
    if _ENDING.isdisjoint(texts):
        return []
    opened = next((place for place, phrase in enumerate(phrases) if type(phrase) is Star), len(phrases))
    closed = next((place for place in range(opened, len(phrases)) if type(phrases[place]) is Rep), 0)
    behind = [phrase for phrase in phrases[closed + 1 :] if type(phrase) is not Rep]
    if behind and type(behind[0]) is Extent and behind[0].leave in (None, NOTHING):
        behind = behind[1:]
    unit = [phrase for phrase in phrases[opened + 1 : closed] if type(phrase) is not Star]
    kept = unit[: len(unit) - len(behind)]
    used = [_used(phrase) for phrase in (*kept, *behind)]
    if not closed or not kept or not behind or None in used:
        return []
    leave = sum(filter(None, used))
    start, end = behind[0].start, behind[-1].end
    last = (Extent(start, end, 0, Number((leave,))), *kept, *behind)
    ways = settle((*phrases[: opened + 1], *unit, phrases[closed], *last))[:2]
    return [work.round(way, 0.2) for way in ways if not way.trouble]


def _used(phrase: Phrase) -> int | None:
    """The stitches that are used by a stitch told so many times; None where that is not known."""
    node = phrase.node if type(phrase) is Stitches else None
    if type(node) is not Stitch or node.bare or len(node.times.values) > 1:
        return None
    return (node.times.of(0) or 0) * execute((Work(node.name),))[0]


_ENDING: Final = frozenset(("end", "ends", "ending", "finish", "finishing"))


def _times_alone(work: RoundWork) -> list[Candidate]:
    """A number of times at the end, of whole rounds: `k to end, 3 times`."""
    phrases = work.work
    if not phrases or work.number is not None or type(phrases[-1]) is not Times:
        return []
    apart = _repeats_round(phrases[-2:-1])
    round_phrases = phrases[: -2 if apart else -1]
    if not round_phrases or type(round_phrases[-1]) is not Extent:
        return []
    cost = work.cost + (0.0 if apart else 0.3)
    often = phrases[-1].number
    return [
        Candidate("round", cost + way.cost, way.nodes, rounds=often, stated=work.stated)
        for way in settle(round_phrases)[:2]
        if not way.trouble
    ]


def _repeats_round(phrases: tuple[Phrase, ...]) -> bool:
    """Whether a sentence of its own says to do that: `... to the end of the round. Do this 8 times`."""
    match phrases:
        case (Rep(level=0, flags=flags),):
            return bool(flags & STOP)
        case _:
            return False


def _until(work: RoundWork) -> list[Candidate]:
    """The round, worked until a count is reached."""
    if not work.seen.untils:
        return []
    until = work.seen.untils[-1].number
    without = tuple(phrase for phrase in work.work if type(phrase) is not Until)
    cost = work.cost + 0.5
    step = _step(work)
    return [
        Candidate(
            "round",
            cost + way.cost,
            way.nodes,
            until=until,
            step=step,
            stated=work.stated,
            trouble=way.trouble,
        )
        for way in settle(without)[:3]
    ]


def _step(work: RoundWork) -> int:
    """Every how many rounds it is worked: `on every other round`, told in the sentence or before it; 0 if not said."""
    label = work.label
    standing = label.every if label is not None and label.kind in ("every", "next") else None
    step = max((rounds.step for rounds in work.seen.rounds if rounds.every), default=0)
    return max(step, standing.step) if standing is not None else step


def _with(work: RoundWork) -> list[Candidate]:
    """A stitch alone with a count: what the rounds before are worked with."""
    first = work.stitches[0]
    if work.seen.instead and type(first) is Stitches and type(first.node) is Stitch:
        again = next(iter(work.seen.agains), None)
        return [Candidate("with", 0.0, (first.node,), again=again, stated=work.stated)]
    around = Extent in [type(phrase) for phrase in work.work]  # k3tog all round - 12 sts
    alone = work.segment.label is None and len(work.stitches) == 1 and not around
    if alone and type(first) is Stitches and work.stated:
        node = first.node
        if type(node) is Stitch:
            return [Candidate("with", work.cost + 0.5, (node,), stated=work.stated)]
    return []


def _at_end_of_round(work: RoundWork) -> list[Candidate]:
    """`Increase 1 stitch at the beginning of the next round`, `Knit, m1 at end of rnd`: that stitch, others plain."""
    where = place_in_round([phrase.text for phrase in work.seen.order if type(phrase) is Said])
    match [phrase for phrase in work.work if not is_bare(phrase)]:
        case [Stitches(node=Stitch() as stitch) as first] if (
            where and is_shaping(first) and not work.seen.rounds
        ):
            pass
        case _:
            return []
    start, end = first.start, first.end
    if where == "beginning":
        return [Candidate("round", 0.4, (stitch, *plain_fill("k", start, end)), stated=work.stated)]
    leave = Number((execute((Work(stitch.name, stitch.times.of(0) or 1),))[0],))
    plain = Stitch("k", ONE, start, end, bare=True)
    return [
        Candidate("round", 0.4, (Fill((plain,), leave, start, end, (start, end)), stitch), stated=work.stated)
    ]


def _explained(phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with `inc 1 (m1)` told by the stitch in its bracket."""
    made: list[Phrase] = []
    for phrase in phrases:
        last = made[-1] if made else None
        if (
            type(phrase) is Brackets
            and len(phrase.inside) == 1
            and type(inner := phrase.inside[0]) is Stitches
            and type(last) is Stitches
            and isinstance(last.node, Unknown | Stitch)
            and (isinstance(last.node, Unknown) or last.node.loose)
        ):
            made[-1] = replace(last, node=inner.node)
        else:
            made.append(phrase)
    return made


def _at_ends(work: RoundWork, ends: AtEnds) -> list[Candidate]:
    """A decrease at the ends of every needle or section: `k2tog at the end of each section`."""
    shaping = [phrase.node for phrase in work.stitches if type(phrase) is Stitches and is_shaping(phrase)]
    named = [node for node in shaping if type(node) is Stitch]
    shown = work.seen.changes or work.seen.evenly or work.seen.counts
    if not named and not shown and ends.together is None:
        return []
    start, end = ends.start, ends.end
    last = named[-1] if named else Stitch(ends.together or "k2tog", ONE, start, end)
    edge = _at_edge(work.stitches, last) if not ends.first else ()  # k2tog, k1 at the end of each needle
    uses, _ = execute((Work(last.name), *(Work(node.name, node.times.of(0) or 1) for node in edge)))
    plain = Stitch("k", ONE, start, end, bare=True)
    leave = Number((uses,)) if ends.last else NOTHING
    fill: Nodes = (Fill((plain,), leave, start, end, (start, end), marker=True),)
    before: Nodes = (named[0] if named else last,) if ends.first else ()
    behind: Nodes = (last, *edge) if ends.last else ()
    inner = (*before, *fill, *behind)
    nodes: Nodes = (Fill(inner, None, start, end, (start, end), marker=True, needle=ends.needle),)
    stated = counts_left(work.stated)
    until = work.seen.untils[-1].number if work.seen.untils else None
    times = work.seen.times[-1] if len(work.seen.times) == 1 and _step(work) and until is None else None
    return [
        Candidate(
            "round",
            0.1,
            nodes,
            rounds=None if until else times.number if times else work.number,
            until=until,
            times=times,
            per=work.seen.per,
            step=_step(work),
            stated=stated,
            sections=first_of(work.seen.markers),
            every=work.seen.every,
        )
    ]


def _at_edge(stitches: list[Phrase], last: Stitch) -> tuple[Stitch, ...]:
    """The plain stitch between the last decrease and the end, where it is told by its number."""
    nodes = [phrase.node for phrase in stitches if type(phrase) is Stitches]
    behind = nodes[nodes.index(last) + 1 :] if last in nodes else []
    plain = [node for node in behind if type(node) is Stitch and node.name in ("k", "p") and not node.bare]
    same = all(len(node.times.values) == 1 for node in plain)
    return tuple(plain) if same and len(plain) == len(behind) == 1 else ()


def _on_each(work: RoundWork) -> list[Candidate]:
    """`Knit one round, increasing 1 st on every needle`: so many on each, and the others plain.

    `In each section dec 1 st every other rnd 3 times` and `until 40 sts remain` are several rounds.
    """
    seen = work.seen
    if Needlewise not in [type(phrase) for phrase in seen.order]:
        return []
    shaping = [phrase.node for phrase in work.stitches if not is_bare(phrase) and type(phrase) is Stitches]
    others = [phrase for phrase in work.work if type(phrase) is not Needlewise and not has_stitches(phrase)]
    often = [phrase.number for phrase in others if type(phrase) is Times]
    several = any(rounds.every for rounds in seen.rounds)
    if len(shaping) != 1 or len(often) > 1 or any(type(phrase) not in (Times, Until) for phrase in others):
        return []
    node = shaping[0]
    if type(node) is not Stitch or (work.number and work.number.values != (1,) and not several):
        return []
    until = seen.untils[-1].number if seen.untils else None
    counted = bool(work.stated or until or several)  # on each needle k2tog (60 sts)
    on_each = 1 if several or not often else often[0].of(0) or 0
    single = len(work.stitches) == 1 and bool(often)  # k2tog once on each needle
    if not (node.loose or ((counted or single) and node.name not in ("k", "p"))):
        return []
    if not 0 < on_each <= MOST_ON_EACH:
        return []
    start, end = node.start, node.end
    plain = Fill((Stitch("k", ONE, start, end, bare=True),), NOTHING, start, end, (start, end), marker=True)
    worked = (node,) * on_each
    times = seen.times[-1] if several and often and until is None else None
    return [
        Candidate(
            "round",
            0.0 if node.loose or not counted else ONCE_ON_EACH,
            (Fill((*worked, plain), None, start, end, (start, end), marker=True),),
            rounds=times.number if times is not None else work.number if until is None else None,
            until=until,
            times=times,
            step=_step(work),
            stated=work.stated,
            sections=first_of(seen.markers),
        )
    ]


MOST_ON_EACH: Final = 6
"""How often a stitch is worked on each needle that is told once: `On each needle k2tog twice`."""
ONCE_ON_EACH: Final = 0.3
"""What it costs to work a stitch but once on each needle, the others plain: `On each needle k2tog (60 sts)`."""


def _evenly(work: RoundWork) -> list[Candidate]:
    """Changes spread evenly, alone or in the last of some rounds, or the first where that is said."""
    last: Nodes = (work.seen.evenly[0],)
    if work.seen.untils:
        step = _step(work)
        until = work.seen.untils[-1].number
        return [Candidate("round", work.cost + 0.4, last, until=until, step=step, stated=work.stated)]
    if often := _often_on_every(work):
        step = _step(work)
        return [
            Candidate(
                "round", work.cost, last, rounds=often.number, times=often, step=step, stated=work.stated
            )
        ]
    if work.number is not None and _is_on_each_of(work.seen):
        return [Candidate("round", work.cost, last, rounds=work.number, stated=work.stated)]
    several = work.length or (work.number is not None and work.number.values != (1,))
    at_once = any(type(phrase) is Said and phrase.text == FIRST_ROUND for phrase in work.seen.order)
    of_last = is_of_last_round(work.seen.order)
    of_some = at_once or of_last
    length = work.number is None and (work.length or (of_last and work.label is None))
    of_stitches = work.stitches if of_some else [phrase for phrase in work.stitches if not is_bare(phrase)]
    if not (work.seen.fabrics or several or of_stitches):
        return [Candidate("round", work.cost, last, stated=work.stated)]
    start, end = work.segment.start, work.segment.end
    plain = [Settled(plain_fill("k", start, end), PLAIN_UNSAID)]
    if at_once and several and work.number is not None and any(map(has_shaping, work.stitches)):
        return [  # 20 rounds in st st, inc 4 sts in the first: *k20, m1*
            Candidate(
                "round",
                work.cost + way.cost,
                plain[0].nodes,
                rounds=work.number,
                last=way.nodes,
                at_once=True,
                stated=work.stated,
            )
            for way in settle(tuple(phrase for phrase in work.seen.work if not is_bare(phrase)))[:4]
            if not way.trouble
        ]
    again = length and not of_some and any(map(has_shaping, work.stitches))
    options = [
        Candidate(
            "round",
            work.cost + way.cost + CHANGED_AGAIN * again,
            way.nodes,
            rounds=work.number,
            length=length,
            last=last,
            at_once=at_once,
            stated=work.stated,
        )
        for way in (settle(tuple(work.seen.work))[:4] if work.stitches else plain)
        if not way.trouble
    ]
    alone = CHANGED_ALONE if work.number is None and not of_some else CHANGED_WITHOUT_ROUNDS
    options.append(Candidate("round", work.cost + alone, last, stated=work.stated, how="evenly"))
    return options


def _is_on_each_of(seen: Seen) -> bool:
    """Whether all of some rounds are told to change the count: `Dec 8 sts on each of the next 4 rounds`."""
    before = takewhile(lambda phrase: type(phrase) is not Rounds, seen.order)
    texts = {phrase.text for phrase in before if type(phrase) is Said}
    return "next" in texts and not _EACH_OF.isdisjoint(texts)


_EACH_OF: Final = frozenset(("each", "every", "all", "in each", "on each", "each of", "on each of"))
PLAIN_UNSAID: Final = 0.2
"""What it costs to knit the rounds of which one changes the count, where no stitches are told."""
CHANGED_ALONE: Final = 0.4
"""What it costs to work only the round that changes the count."""
CHANGED_AGAIN: Final = 0.6
"""What it costs that rounds which shape are worked before it: `At 20 cm, dec 12 sts evenly: *k5, k2tog*`."""
CHANGED_WITHOUT_ROUNDS: Final = 1.0
"""What that costs where the rounds are counted: they are worked too."""


def _often_on_every(work: RoundWork) -> Times | None:
    """How often it is worked, in `dec 8 sts evenly every other rnd 5 times`; None where that is not said."""
    seen, label = work.seen, work.label
    headed = label is not None and label.kind == "every"
    every = [rounds for rounds in seen.rounds if rounds.every]
    single = len(every) + headed == 1 and len(every) == len(seen.rounds) and len(seen.times) == 1
    return seen.times[0] if single and not any(map(has_stitches, seen.work)) else None


def _every_round_times(seen: Seen) -> Times | None:
    """The times of `k2tog at each marker in every round, 5 times`."""
    every = False
    stitches = 0
    for before, phrase in pairwise((None, *seen.order)):
        stitches = stitches + 1 if type(before) is Stitches and not is_bare(before) else 0
        if type(phrase) is Rounds:
            every = phrase.every and phrase.step <= 1
        elif type(before) in (Star, Brackets):
            continue  # no plain rounds: *k5, k2tog* x6
        elif type(phrase) is Times and stitches > 1:
            continue  # decrease on every round, so that the next is k6, k2tog, seven times
        elif type(phrase) is Times and every:
            return phrase
    return None


def _how_many(seen: Seen) -> Number | None:
    """How many rounds: `8 rnds`, or `3 rnds light, 3 rnds dark, 5 times`."""
    numbers = [rounds.number for rounds in seen.rounds if not rounds.every]
    if seen.in_all is not None and len(numbers) > 2 and seen.lengths:
        return seen.in_all.number  # stripes of 4 rnds A, 4 rnds B until there are 9 stripes (36 rnds)
    if len(numbers) > 2 and not seen.times and (in_all := bands_in_all(seen.order)):
        return in_all
    if turns := _turns_of_chart(seen):
        numbers = numbers[:1]
    if turns or (len(numbers) > 1 and seen.times and not any(map(has_stitches, seen.work))):
        width = max(len(number.values) for number in (*numbers, seen.times[-1].number))
        values = [
            sum(number.of(column) or 0 for number in numbers) * (seen.times[-1].number.of(column) or 0)
            for column in range(width)
        ]
        return Number(tuple(values), numbers[0].start, numbers[0].end)
    if len(numbers) > 1 and (_in_colours(seen) or _added(seen) or _in_turn(seen)):
        width = max(len(number.values) for number in numbers)
        values = [sum(number.of(column) or 0 for number in numbers) for column in range(width)]
        return Number(tuple(values), numbers[0].start, numbers[0].end)
    return numbers[0] if numbers else None


def _turns_of_chart(seen: Seen) -> bool:
    """Whether the rounds of a chart are worked so many times: `the 8 rounds of the chart twice (16 rounds)`."""
    silent = (Said, Count, Then)
    match [phrase for phrase in seen.order if type(phrase) not in silent and not is_bare(phrase)]:
        case [Rounds(every=False), Chart(), Times()]:
            return True
        case [Rounds(every=False), Chart(), Times(), Brackets(inside=(Rounds(),))]:
            return True
        case [Chart(), Times(), Brackets(inside=(Rounds(every=False), Said(text="each")))]:
            return True
        case _:
            return False


def _in_numbers(seen: Seen) -> Number | None:
    """How many rounds are told by the first and last of their numbers: `Work rounds 1 to 12 in rib`."""
    again = seen.agains[0] if len(seen.agains) == 1 else None
    if again is None or not again.work or len(again.named) == 1 or seen.times or seen.untils:
        return None
    first, rounds = next(iter(again.named), 0), len(again.named)
    in_row = first > 0 and again.named == tuple(range(first, first + rounds))
    return Number((rounds,), again.start, again.end) if in_row else None


def _added(seen: Seen) -> bool:
    """Whether numbers of rounds are told with `and` between, and nothing else: `8 rounds in MC and 4 rounds in CC`."""
    counted = [place for place, phrase in enumerate(seen.order) if type(phrase) is Rounds]
    joined = (seen.order[place - 1] for place in counted[1:])
    added = all(type(phrase) is Said and phrase.text in ("and", "&", "plus") for phrase in joined)
    single = all(type(phrase) in (Said, Rounds) or is_bare(phrase) for phrase in seen.order)
    return added and single and not any(rounds.every or rounds.more for rounds in seen.rounds)


def _in_turn(seen: Seen) -> bool:
    """Whether plain rounds are told one after the other: `with B knit 4 rounds, with A knit 4 rounds, then 6 in C`.

    Between two numbers stands a sign or `then`, and no more than a colour.
    """
    begun, parted, words, crafts = False, True, 0, set[str]()
    for phrase in seen.order:
        if begun:
            parted = parted or type(phrase) is Then or bool(phrase.flags & (COMMA | SEMI))
        match phrase:
            case Rounds():
                if not parted or phrase.every or phrase.more:
                    return False
                begun, parted, words = True, False, 0
            case Said(text=text):
                parted = parted or text in ("and", "&", "plus")
                words += phrase.words
                if text in _NO_COLOUR or words > 1 or (begun and phrase.flags & STOP):
                    return False
            case Stitches(node=Stitch(name=name, bare=True)):
                crafts.add(name)
            case Then():
                pass
            case _:
                return False
    return len(crafts) <= 1


_NO_COLOUR: Final = frozenset(
    (
        *("or", "about", "until", "not", "only", "if", "for", "further", "first", "last"),
        *("total", "altogether", "in all", "all", "each", "every", "always", "alternately", "alternating"),
        *("between", "after"),
    )
)
"""Words that say another thing of a number of rounds than their colour."""


def _in_colours(seen: Seen) -> bool:
    """Whether rounds are told colour by colour, and no more: `Knit 3 rounds light, 3 rounds dark`."""
    first = next((place for place, phrase in enumerate(seen.order) if type(phrase) is Rounds), None)
    if first is None:
        return False
    before = [phrase for phrase in seen.order[:first] if type(phrase) not in (Then, Said)]
    colours = [phrase for phrase in _without_fabric(seen.order[first:]) if not _is_in(phrase)]
    pairs = list(zip(colours[::2], colours[1::2], strict=False))
    alternate = len(colours) == 2 * len(pairs) and all(
        type(rounds) is Rounds and type(colour) is Said for rounds, colour in pairs
    )
    parted = all(rounds.flags & (COMMA | SEMI) for rounds, _ in pairs[1:])
    return alternate and parted and all(is_bare(phrase) or type(phrase) in _BEFORE for phrase in before)


def _is_in(phrase: Phrase) -> bool:
    """Whether it is the word before a colour: `4 rounds in white`."""
    return type(phrase) is Said and phrase.text in ("in", "with")


_BEFORE: Final = (Continue, Fabric)
"""What may stand before rounds told colour by colour: `Continue in St st: 4 rnds white, 4 rnds blue`."""


def _without_fabric(phrases: tuple[Phrase, ...]) -> tuple[Phrase, ...]:
    """The phrases without what is said of all at the end: `6 rnds light, 6 rnds dark, all plain knit`."""
    stop = len(phrases)
    while stop and (type(phrases[stop - 1]) is Fabric or is_bare(phrases[stop - 1])):
        stop -= 1
    last = phrases[stop - 1] if stop < len(phrases) else None
    return phrases[: stop - 1] if type(last) is Said and last.text == "all" else phrases[:stop]


def _described(work: RoundWork) -> list[Candidate]:
    """Rounds of a fabric, with what stands around it left out."""
    return [
        work.round(way, 0.4)
        for form in _without_description(list(work.work))
        for way in settle(form)[:3]
        if not way.trouble
    ]


def _explained_fabric(work: RoundWork) -> list[Candidate]:
    """Rounds of a fabric with no more than its explanation in a bracket: `5 rnds garter st (p 1 rnd, k 1 rnd)`."""
    worked = [phrase for phrase in work.work if type(phrase) is not Extent]
    if not work.seen.fabrics or len(worked) != 1 or type(worked[0]) is not Brackets:
        return []
    stitches = [phrase for phrase in opened(worked[0]) if type(phrase) not in (Star, Extent, Said)]
    if any(map(names_rib, work.seen.fabrics)) and all(map(is_ribbed, stitches)):
        return []  # rib (k3, p2): these are its stitches, whether they come out or not
    return [replace(way, cost=way.cost + EXPLAINED) for way in fabric_only(work)]


EXPLAINED: Final = 0.3
"""What it costs to take a bracket with stitches for an explanation."""


def _without_description(work: list[Phrase]) -> list[tuple[Phrase, ...]]:
    """Rounds of a fabric without the `knit` before them, or without what is explained in brackets behind them."""
    forms: list[tuple[Phrase, ...]] = []
    if len(work) > 1 and is_bare(work[0]):
        forms.append(tuple(work[1:]))
    if len(work) > 1 and type(work[-1]) is Brackets and has_stitches(work[-1]):
        forms.append(tuple(work[:-1]))
        forms.append((work[-1],))
        if len(work) > 2 and is_bare(work[0]):
            forms.append(tuple(work[1:-1]))
    return forms


_Form: TypeAlias = tuple[Phrase, ...]


def _forms(work: list[Phrase], seen: Seen) -> list[tuple[_Form, tuple[_Form, ...]]]:
    """The phrases of a round, and those of a size in which it is worked otherwise."""
    whole = tuple(work)
    last = work[-1]
    if seen.odd:
        at = next(place for place, phrase in enumerate(work) if type(phrase) is Odd)
        before = [phrase for phrase in work[:at] if type(phrase) is not Extent]
        tail = Extent(work[at].start, work[at].end, 0, NOTHING)
        return [((*before, tail), (tuple(phrase for phrase in work if type(phrase) is not Odd),))]
    if (
        type(last) is Brackets
        and len(work) == 1
        and [type(phrase) for phrase in last.inside[-1:]] == [Extent]
    ):
        return [(last.inside, ())]  # 12 rounds in rib (k2, p2 around)
    if type(last) is Brackets and len(work) > 1 and last.inside and has_stitches(last):
        other = _other_end(whole[:-1], last.inside)
        if other:
            return [(whole[:-1], (other,)), (whole, ())]
    return [(whole, ())]


def _other_end(before: _Form, inside: _Form) -> _Form:
    """A round with what is in the bracket at its end instead; empty where the bracket is none of that kind."""
    if type(inside[0]) is Extent:
        return (*takewhile(lambda phrase: type(phrase) is not Extent, before), *inside)
    repeated = any(type(phrase) in _REPEATED for phrase in before)
    return inside if repeated and any(type(phrase) in _WHOLE for phrase in inside) else ()


_REPEATED: Final = frozenset((Times, Extent, Rep))
_WHOLE: Final = frozenset((Brackets, Star, Extent))
