"""Rounds that are worked again, and crowns that go on as they have begun."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_ROUNDS, Round, Steps, Work
from roundwright.knitting.rounds.work_round import work_round
from roundwright.language import say
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label_numbers import label_numbers
from roundwright.wording.reading.line_work import HIGHEST, PLAIN, LineWork, until_start
from roundwright.wording.reading.phrases import (
    FROM_THERE,
    IN_TURN,
    TOLD_ABOVE,
    Again,
    Brackets,
    Count,
    Length,
    Phrase,
    Rounds,
    Said,
    Then,
    Times,
    is_of_all,
    opened,
    shapes_once_more,
)
from roundwright.wording.reading.rhythm import next_steps, rounds_fewer, tells_alone
from roundwright.wording.reading.states import WRONG_COUNT, Chain, Done, Entry, Fault, FaultyError
from roundwright.wording.reading.tree import NOTHING, PLAIN_ROUND, Evenly, Fill, Group, Nodes, Stitch, named
from roundwright.wording.reading.worked import UnclearError, times
from roundwright.wording.reading.working import Worker, fits_any_count

FEWEST_TOLD: Final = 3
"""Stitches of a round that are told, and not of a section."""
_ANY: Final = Round(number=1, before=1, after=1, steps=(Work("k", 1),))


def repeat(work: LineWork, numbers: int, first: int) -> None:
    """The rounds of a `loop`, `with` or `continue`, for so many printed numbers (0: none), from number `first` on."""
    candidate = work.candidate
    if apart := _numbers_apart(work):
        _Continuation(work, first).run_named(apart, first - 1)
    elif candidate.onward == "as_numbered" and candidate.again is not None:
        begun = work.lane.number if work.lane.loose else work.lane.printed
        _Continuation(work, first).run_named(candidate.again.named, begun)
        work.lane.printed = candidate.again.named[-1]
    elif candidate.onward == "in_turn":
        rounds = _rounds_again(work)
        turns = numbers or (_turns(work, len(rounds), 0) if candidate.rounds is not None else 1)
        _Continuation(work, first).run_in_turn(rounds, min(turns, MOST_ROUNDS + 1))
    elif candidate.onward == "as_numbered":
        _Continuation(work, first).run_numbered(numbers)
    elif candidate.kind == "continue":
        _go_on(work, numbers, first)
    elif candidate.kind == "with":
        _again_with(work)
    else:
        _loop(work, numbers, first)


def _numbers_apart(work: LineWork) -> tuple[int, ...]:
    """The numbers of rounds that go on, where not as many are left out each time: `Rnds 5, 7, 9, 10: dec as set`."""
    label = work.segment.label
    if work.candidate.kind != "continue" or label is None or label.kind not in ("numbered", "listed"):
        return ()
    numbers = label_numbers(label, work.column)
    gaps = {second - first for first, second in pairwise(numbers)}
    return tuple(numbers) if len(gaps) > 1 and min(gaps) > 0 else ()


def _loop(work: LineWork, numbers: int, first: int) -> None:
    candidate = work.candidate
    again = work.candidate.again
    same = again is not None and _is_loop_again(work, again)  # Do those two rounds again, 64. And again, 56.
    rounds = work.lane.loop = work.lane.loop if same else _rounds_again(work)
    if rounds[-1].round.before != rounds[-1].round.after and _tells_rounds_alone(work):
        work.cost += SHAPED_AGAIN
    target = _target(work)
    changed = not all(done.nodes for done in rounds)  # Rep rnds 3 and 4, which were rnds 1 and 2 with k7
    if candidate.length:
        work.note("to_a_length", work.segment.start)
        if candidate.last:
            work.round(candidate.last, first)
    elif changed and target is not None:
        _go_on(work, numbers, first)
    elif changed:
        turns = min(_turns(work, len(rounds), numbers), MOST_ROUNDS + 1)
        _Continuation(work, first).run_in_turn(rounds, turns)
    elif target is not None:
        skipped = _plain_before(work, rounds)
        for done in rounds[skipped:] if skipped and work.lane.count != target else ():
            _again(work, done, first)
            first += 1
        _loop_until(work, (rounds[-1], *rounds[:-1]) if candidate.at_once else rounds, target, first)
    else:
        in_all = candidate.times is not None and candidate.times.total
        begun = int(in_all and (bool(candidate.plain) or _lacks_plain(work)))
        begun += (len(rounds) - 1) * candidate.at_once
        begun += (skipped := 0 if numbers or candidate.rounds else _plain_before(work, rounds))
        turns = min(_turns(work, len(rounds), numbers) - skipped, MOST_ROUNDS + 1)
        for turn in range(turns - bool(candidate.last)):
            _again(work, rounds[(turn + begun) % len(rounds)], first + turn)
        if candidate.last and turns:
            work.round(candidate.last, first + turns - 1)


def _plain_before(work: LineWork, rounds: tuple[Done, ...]) -> int:
    """How many plain rounds of the first turn were worked: `Rnd 2: knit. Rep rnd 1 every other rnd 6 more times`."""
    shaped, _, _, trailing = _last_shapings(work.lane.chain)
    paced = work.candidate.step > 1 and len(rounds) == work.candidate.step and not work.candidate.at_once
    return min(trailing, len(rounds) - 1) if paced and shaped is not None else 0


def _target(work: LineWork) -> int | None:
    """The count that is worked to, where one is said; for `2 sts on each needle` that of all."""
    candidate = work.candidate
    target = candidate.until.of(work.column) if candidate.until is not None else None
    if target is None or not candidate.per:
        return target
    return target * parts if (parts := work.parts()) else work.printed_count() or target


def _turns(work: LineWork, rounds: int, numbers: int) -> int:
    """How many rounds a loop has: those printed, those numbered, or its times."""
    candidate = work.candidate
    if numbers:
        return numbers
    if candidate.rounds is not None and candidate.from_start:
        return max(0, (candidate.rounds.of(work.column) or 0) - work.lane.worked)
    if candidate.rounds is not None:
        again = candidate.again
        of_last = again is not None and again.work and again.last and not again.named
        onward = again is not None and again.segments == FROM_THERE
        begun = rounds if of_last or onward else 0
        return max(0, (candidate.rounds.of(work.column) or 0) - begun)
    if candidate.times is None:
        return rounds
    if candidate.times.total and _tells_of_repeat(work):
        return 0
    times = candidate.times.number.of(work.column) or 0
    if candidate.plain:
        return rounds * times - candidate.times.total
    if candidate.at_once:
        return rounds * (times - 1) + 1 if times else 0
    _, _, between, trailing = _last_shapings(work.lane.chain)
    took_turns = (
        between and trailing and len(work.lane.loop) == 1
    )  # with plain rounds; now it is on every round
    begun = candidate.times.total and not (took_turns or _only_explained(work) or _follows_rounds(work))
    if begun and _lacks_plain(work):
        return rounds * times - 1
    return rounds * (times - 1 if begun else times)


def _tells_rounds_alone(work: LineWork) -> bool:
    """Whether no more is told than how many rounds are worked, or how high: `Work 2 rnds.`, `24 rounds white`."""
    phrases = [inner for phrase in work.segment.phrases for inner in opened(phrase)]
    rounds = [phrase for phrase in phrases if type(phrase) is Rounds and not phrase.every]
    silent = all(type(phrase) in (Rounds, Said, Then, Length) and not is_of_all(phrase) for phrase in phrases)
    return len(rounds) == 1 and silent


def _follows_rounds(work: LineWork) -> bool:
    """Whether they are other rounds than as many of a number told just before: `Knit 6 rnds. Work 24 rnds.`."""
    before = work.desk.segments[work.place - 1] if work.place else None
    if before is None or before.label is not None or not _tells_rounds_alone(work):
        return False
    numbers = [phrase.number for phrase in before.phrases if type(phrase) is Rounds and not phrase.every]
    return any((number.of(work.column) or 0) > 1 for number in numbers)


SHAPED_AGAIN: Final = 1.0
"""What it costs that so many rounds, of which no more is told, shape as the one before."""


def _lacks_plain(work: LineWork) -> bool:
    """Whether a decrease round was worked, and the plain round of its pair was not: `a dec round and a plain one`."""
    again = work.candidate.again
    if again is None or again.named != (named("decrease"), PLAIN_ROUND):
        return False
    shaped, _, _, trailing = _last_shapings(work.lane.chain)
    return shaped is not None and not trailing


def _only_explained(work: LineWork) -> bool:
    """Whether the round that is worked again was not worked before, and only explained."""
    again = work.candidate.again
    if again is not None and again.last == 1 and not again.named and work.lane.loop:
        first = work.lane.loop[0]
        entry = _standing_since(work)
        return entry is not None and first.segment == entry.segment
    named = again.named if again is not None else ()
    entry = _entries(work, named[:1]).get(named[0]) if named else None
    if entry is None:
        return False
    desk = work.desk
    before_work = (
        desk.segments[desk.place(entry.segment)].start < desk.begins
    )  # the rounds of a stitch pattern
    return before_work or (named[0] < 0 and entry.candidate.explained)


def _tells_of_repeat(work: LineWork) -> bool:
    """Whether it only says how many rounds the line before made.

    `Rep rnds 1 and 2 3 times. (8 rnds)`, `36 rnds.`; `Knit 4 rounds. Stop when 4 rounds are done.`.
    """
    phrases = work.segment.phrases
    if not work.place:
        return False
    before = work.desk.segments[work.place - 1].phrases
    counted = _rounds_counted(work, phrases)
    if all(type(phrase) is Brackets for phrase in phrases):
        again_before = any(type(phrase) in (Again, Times) for phrase in before)
        return again_before or (len(counted) == 1 and counted == _rounds_counted(work, before))
    again = [phrase for phrase in before if type(phrase) is Again]
    times = [phrase for phrase in before if type(phrase) is Times]
    if not again or len(times) != 1 or not all(type(phrase) in (Rounds, Said) for phrase in phrases):
        return False
    often = (times[0].number.of(work.column) or 0) + times[0].more
    return counted == [often * (len(again[-1].named) or again[-1].last)]


def _rounds_counted(work: LineWork, phrases: tuple[Phrase, ...]) -> list[int | None]:
    """The numbers of rounds that are told for a size, in brackets or not."""
    inner = (inner for phrase in phrases for inner in opened(phrase))
    return [phrase.number.of(work.column) for phrase in inner if type(phrase) is Rounds]


def _again(work: LineWork, done: Done, number: int) -> None:
    """A round worked once more."""
    if not done.nodes:
        raise _no_such_round(work, say("read.no_round_before"))
    candidate, work.candidate = work.candidate, Candidate("round", 0.0, done.nodes)
    try:
        work.round(done.nodes, number)
    finally:
        work.candidate = candidate


def _loop_until(work: LineWork, rounds: tuple[Done, ...], target: int, first: int) -> None:
    lane, start, turns = work.lane, work.lane.count, 0
    while lane.count != target:
        before = lane.count
        for done in rounds:
            if lane.count == target and (work.candidate.ends_shaped or not fits_any_count(done.nodes)):
                break
            _again(work, done, first + turns)
            turns += 1
        passed = (before - target) * (lane.count - target) < 0
        if lane.count == before or passed or turns > MOST_ROUNDS:
            raise work.never_ends(until_start(work.segment, work.candidate.until), start, target)


# --- which rounds


def _no_such_round(work: LineWork, message: str) -> UnclearError:
    again = work.candidate.again
    return UnclearError("no_such_round", message, again.start if again is not None else work.segment.start)


def _rounds_again(work: LineWork) -> tuple[Done, ...]:
    """The rounds that the segment says to work again."""
    again = work.candidate.again
    assert again is not None
    if again.last == 1 and not again.named and (last := _last_shaping(work)):
        follows = work.lane.chain is not None and work.lane.chain[1] is last and not _tells_step(work)
        step = _step_told(work, last) if follows else work.candidate.step
        if step > 1:  # this round every 3rd round
            return (*(Done(_ANY, PLAIN, work.place),) * min(step - 1, MOST_ROUNDS), last)
    if again.segments == TOLD_ABOVE:
        return _last_rounds(work, _rounds_told_above(work))
    if again.segments == IN_TURN:
        return _last_rounds(work, 2 if _take_turns(work) else 1)
    if again.last and not again.named:
        return _last_rounds(work, _rounds_of_segments(work, again.segments) or again.last)
    if again.segments == FROM_THERE:
        stop = min(work.lane.printed, again.named[0] + MOST_ROUNDS) + 1
        again = replace(again, named=tuple(range(again.named[0], stop)))
    return _rounds_named(work, again)


def _tells_step(work: LineWork) -> bool:
    """Whether it says on which rounds it is worked: `Rep this rnd every rnd`."""
    return any(type(phrase) is Rounds and phrase.every for phrase in work.segment.phrases)


def _step_told(work: LineWork, shaping: Done) -> int:
    """Every how many rounds one is worked, by its own words: `Every other rnd k2tog before each marker`; else 0."""
    phrases = work.desk.segments[work.desk.place(shaping.segment)].phrases
    return max((phrase.step for phrase in phrases if type(phrase) is Rounds and phrase.every), default=0)


def _take_turns(work: LineWork) -> bool:
    """Whether the last two rounds are one that shapes and a plain one: `4 more rounds in this manner`.

    Those without numbers, and what is repeated so often, are a decrease and a knit round: other rounds go on alone.
    """
    chain = work.lane.chain
    if chain is None or chain[0] is None:
        return False
    plain, shaped = chain[1], chain[0][1]
    labels = [work.desk.segments[work.desk.place(done.segment)].label for done in (shaped, plain)]
    numbered = all(of is not None and of.kind in ("numbered", "listed") for of in labels)
    numbered = numbered and work.candidate.rounds is not None
    knit = plain.round.steps == (Work("k", plain.round.before),)
    narrowed = knit and shaped.round.after < shaped.round.before
    shapes = shaped.round.after != shaped.round.before
    return (numbered or narrowed) and shapes and plain.round.after == plain.round.before


def _rounds_named(work: LineWork, again: Again) -> tuple[Done, ...]:
    """The rounds that are worked again by their numbers or names."""
    entries = _entries(work, again.named[:MOST_ROUNDS])
    between = [Done(_ANY, PLAIN, work.place)] * min(max(work.candidate.step - 1, 0), MOST_ROUNDS)
    if again.last and len(entries) < len(set(again.named)):
        shaped = _last_shaping(work)
        named = shaped is not None and again.last == 1
        if len(again.named) == 1 and (done := _to_count_printed(work, again.named[0], shaped)):
            return (done,)
        return (*between, shaped) if named and shaped else _last_rounds(work, again.last)
    rounds: list[Done] = []
    for number in again.named[:MOST_ROUNDS]:
        rounds.extend((*between, _round_named(work, number, entries.get(number))))
    if work.candidate.kind == "loop":
        alone = again.named == _SHAPING[:1]
        behind = work.candidate.plain or (_plain_told(work)[1] if alone else 0)
        rounds.extend([Done(_ANY, PLAIN, work.place)] * min(behind, MOST_ROUNDS))
    if not rounds:
        raise _no_such_round(work, say("read.which_rounds"))
    return tuple(rounds)


def _plain_told(work: LineWork) -> tuple[int, int]:
    """The plain rounds told to stand between decrease rounds, and those behind the last of these."""
    entry = work.lane.between
    if entry is None or entry.candidate.kind != "between" or entry.candidate.rounds is None:
        return 0, 0
    number = entry.candidate.rounds.of(work.column) or 0
    return number, number * (entry.candidate.plain > 0)


def _to_count_printed(work: LineWork, name: int, before: Done | None) -> Done | None:
    """A round that is told by its name and its count alone, `Dec rnd [54 sts]`; None where it is told `before`."""
    segment, stated = work.segment, work.candidate.stated
    nodes = before.nodes if before is not None else ()
    known = before is not None and not (len(nodes) == 1 and type(nodes[0]) is Evenly and nodes[0].to)
    alone = all(type(phrase) in _NAME_AND_COUNT for phrase in segment.phrases)
    if known or not alone or name not in _SHAPING or len(stated) != 1 or stated[0].sign:
        return None
    sign = -1 if name == _SHAPING[0] else 1
    if ((stated[0].number.of(work.column) or 0) - work.lane.count) * sign <= 0:
        return None
    work.cost += OF_COUNT_ALONE * (not work.column)
    return Done(_ANY, (Evenly(stated[0].number, sign, segment.start, segment.end, to=True),), work.place)


_NAME_AND_COUNT: Final = frozenset((Again, Brackets, Count))
OF_COUNT_ALONE: Final = 0.5
"""What it costs to work a round of which only the name and the count are told: it may be a heading."""


def _round_named(work: LineWork, number: int, entry: Entry | None) -> Done:
    """The round of a number or a name; raise `UnclearError` where there is none."""
    done = _unnamed(work, number) if entry is None else None
    if entry is not None and entry.segment != work.place:
        nodes = entry.candidate.nodes
        done = Done(_ANY, nodes, entry.segment) if nodes else _worked_as(work, number)
    done = _to_count_printed(work, number, done) or done
    if done is None:
        unknown = say("read.no_such_before", round=number) if number > 0 else say("read.no_such_name_before")
        raise _no_such_round(work, unknown)
    return done


def _is_loop_again(work: LineWork, again: Again) -> bool:
    """Whether `and again` follows rounds that were just worked again, and means all of them."""
    times, lane = work.candidate.times, work.lane
    unspecific = times is not None and times.more and again.start == times.start and again.last == 1
    follows = lane.chain is not None and lane.chain[1].segment == work.place - 1
    return (
        unspecific and not again.named and again.segments in (0, IN_TURN) and follows and len(lane.loop) > 1
    )


def _unnamed(work: LineWork, number: int) -> Done | None:
    """A plain round, or the last shaping round, which are known by what they are."""
    if number == PLAIN_ROUND:
        return Done(_ANY, PLAIN, work.place)
    return _last_shaping(work) if number in _SHAPING else None


_SHAPING: Final = (named("decrease"), named("increase"))


def _rounds_told_above(work: LineWork) -> int:
    """How many plain rounds the labelled lines just above worked: `Rib rnd: *k1, p1*`, `Rnds 1-2: *k3, p1*`."""
    place, segments = work.place, work.desk.segments
    last = segments[place - 1].label if place else None
    if last is None or last.kind not in ("sort", "numbered", "listed", "next") or not work.lane.chain:
        raise _no_such_round(work, say("read.no_round_before"))
    first = place
    while (
        first
        and (label := segments[first - 1].label)
        and (label.kind, label.named) == (last.kind, last.named)
    ):
        first -= 1
    rounds = 0
    chain: Chain = work.lane.chain
    while chain and rounds < MOST_ROUNDS:
        chain, done = chain
        if not first <= done.segment < place or done.round.before != done.round.after:
            break
        rounds += 1
    work.desk.budget.spend(rounds)
    if not rounds:
        raise _no_such_round(work, say("read.no_round_before"))
    return rounds


def _rounds_of_segments(work: LineWork, segments: int) -> int:
    """How many rounds the last so many segments worked."""
    chain, rounds = work.lane.chain, 0
    while chain and segments and rounds < MOST_ROUNDS:
        chain, done = chain
        if done.segment < work.place - segments:
            break
        rounds += 1
    work.desk.budget.spend(rounds)
    return rounds


def _standing_since(work: LineWork) -> Entry | None:
    """A line for every round that was told behind the last round that was worked: `Every round: k1, p1`."""
    chain = work.lane.chain
    for line in reversed(work.lane.standing):
        if line.step == 1 and (chain is None or chain[1].segment < line.entry.segment):
            return line.entry
    return None


def _last_rounds(work: LineWork, number: int) -> tuple[Done, ...]:
    if number == 1 and (entry := _standing_since(work)):
        nodes = entry.candidate.nodes
        if nodes and Fill not in [type(node) for node in nodes]:
            end = nodes[-1].end
            nodes = (Fill(nodes, NOTHING, nodes[0].start, end, (end, end)),)
        return (Done(_ANY, nodes, entry.segment),)
    chain = work.lane.chain
    rounds: list[Done] = []
    while chain and len(rounds) < number:
        chain, done = chain
        rounds.append(done)
    work.desk.budget.spend(len(rounds))
    if len(rounds) < number:
        raise _no_such_round(work, say("read.no_round_before"))
    return tuple(reversed(rounds))


def _have_lines(work: LineWork, number: int) -> bool:
    """Whether the last so many rounds with shaping change the count alike, and stand in lines of their own."""
    chain = work.lane.chain
    changes: set[int] = set()
    lines: set[int] = set()
    for _ in range(MOST_ROUNDS_BACK):
        if chain is None or len(lines) == number:
            break
        chain, done = chain
        if done.round.before != done.round.after:
            changes.add(done.round.after - done.round.before)
            lines.add(done.segment if done.nodes else -1)
    return len(lines) == number and len(changes) == 1 and -1 not in lines


MOST_ROUNDS_BACK: Final = 12
"""Rounds looked back over, to those with shaping."""


def _last_shaping(work: LineWork) -> Done | None:
    """The last round with shaping of those before the last few."""
    chain = work.lane.chain
    for _ in range(8):
        if chain is None:
            return None
        chain, done = chain
        if done.round.before != done.round.after and done.nodes:
            return done
    return None


def _entries(work: LineWork, numbers: tuple[int, ...]) -> dict[int, Entry]:
    """What numbers stand for: a line of this part, a standing line, or a line of a part before."""
    lane = work.lane
    here: dict[int, Entry] = {}
    earlier: dict[int, Entry] = {}
    part, steps, chain = here, 0, lane.numbers_known
    while chain:
        chain, number, entry = chain
        steps += 1
        if entry is None:
            part = earlier
        else:
            part.setdefault(number, entry)
    work.desk.budget.spend(steps // 8 + len(numbers))
    entries = {number: here.get(number) or lane.stands(number) or earlier.get(number) for number in numbers}
    return {number: entry for number, entry in entries.items() if entry is not None}


def _worked_as(work: LineWork, number: int) -> Done | None:
    """The last round that was worked under a number."""
    chain, steps = work.lane.chain, 0
    while chain:
        chain, done = chain
        steps += 1
        if done.round.number == number:
            work.desk.budget.spend(steps // 8)
            return done
    work.desk.budget.spend(steps // 8)
    return None


# --- the same with another number


def _again_with(work: LineWork) -> None:
    """`again but with k9`: the rounds worked again, with another number of plain stitches."""
    lane, candidate = work.lane, work.candidate
    rounds = _rounds_again(work) if candidate.again is not None else lane.loop
    if not rounds and (shaped := _last_shaping(work)) is not None:
        rounds = (shaped,)
    stitch = candidate.nodes[0]
    if not rounds or type(stitch) is not Stitch:
        raise _no_such_round(work, say("read.no_round_before"))
    changed = [_replaced(done.nodes, stitch) for done in rounds]
    if all(nodes is done.nodes for nodes, done in zip(changed, rounds, strict=True)):
        raise _no_such_round(work, say("read.no_round_before"))  # there are no such stitches in them
    lane.loop = rounds
    for done, nodes in zip(rounds, changed, strict=True):
        _again(work, Done(done.round, nodes, done.segment), lane.number + 1)


def _replaced(nodes: Nodes, stitch: Stitch, most: int = 0) -> Nodes:
    """The tree with another number for its stitches of this kind, the most in a row: `k11` for the `k13` between k1."""
    most = most or max(_numbers_of(nodes, stitch.name), default=0)
    for place, node in enumerate(nodes):
        other = node
        if type(node) is Stitch and node.name == stitch.name and not node.bare and node.times.of(0) == most:
            other = stitch
        elif isinstance(node, Group | Fill):
            inside = _replaced(node.nodes, stitch, most)
            other = node if inside is node.nodes else replace(node, nodes=inside)
        if other is not node:
            return (*nodes[:place], other, *nodes[place + 1 :])
    return nodes


def _numbers_of(nodes: Nodes, name: str) -> Iterator[int]:
    """How many of this stitch are worked wherever it is."""
    for node in nodes:
        if type(node) is Stitch and node.name == name and not node.bare:
            yield node.times.of(0) or 0
        elif isinstance(node, Group | Fill):
            yield from _numbers_of(node.nodes, name)


# --- going on in the same manner


def _go_on(work: LineWork, numbers: int, first: int) -> None:
    """A crown gone on with as it has begun, or as the lines told ahead begin it."""
    step, begun = _begun_as_told(work, first)
    _Continuation(work, first + begun, step).run(numbers)


class _Continuation:
    """`Continue in this manner until 8 sts remain`: a crown that goes on as it has begun."""

    def __init__(self, work: LineWork, first: int, step: int = 0) -> None:
        self.work = work
        self.number = first
        label = work.segment.label
        self.last, self.before, between, self.trailing = _last_shapings(work.lane.chain)
        step = step or work.candidate.step
        begun = work.candidate.begun
        took_turns = between and self.trailing  # with plain rounds
        if (begun > 1 and not _have_lines(work, begun)) or (begun and step == 1 and took_turns):
            self.last = None
        once = shapes_once_more(work.segment.phrases) and not (label and label.numbers_several())
        plain, self.fewer = _plain_again(work), 0
        apart, behind = _plain_told(work)
        goes_on = step < 2 and work.candidate.until and work.segment.label is None
        goes_on = goes_on and not tells_alone(work.segment.phrases)  # work only dec rnds
        self.behind = behind if goes_on else 0
        if apart and step and goes_on:
            self.gap = apart
        elif step or (once and (self.trailing or label)):
            self.gap = max(0, step - 1)
        elif plain is not None:
            self.gap = plain
        elif apart:
            self.gap = apart
        else:
            self.gap = between if between is not None else max(self.told_gap(), self.trailing)
            if 0 < self.trailing < self.gap:
                # knit 6 rnds, decrease, knit 5 rnds, and in this manner: 4, 3, 2, 1
                self.fewer = int(self.trailing + 1 == self.gap and self.trailing > 1)
                self.gap = self.trailing
        if fewer := rounds_fewer(work.segment.phrases):
            self.fewer, self.gap = fewer, self.trailing or self.gap

    def told_gap(self) -> int:
        """The plain rounds behind the last shaping, by its own words: `On every other round, k2tog before each m`."""
        shaping = _last_shaping(self.work)
        return max(0, _step_told(self.work, shaping) - 1) if shaping is not None else 0

    def run(self, numbers: int) -> None:
        work = self.work
        lane, candidate, first = work.lane, work.candidate, self.number
        if self.last is None:
            self.require_shaping()
            return
        target = self.end() if candidate.onward == "to_the_end" else _target(work)
        if candidate.onward:
            self.require_end(target)
            work.note("goes_on", work.segment.start, text=str(target))
        label = work.segment.label
        shaped = numbers or int(label is not None and label.named != 0)
        if shaped and target is not None and self.shapings_to(target) == shaped:
            # as many rounds are numbered, or told by name, as there are decrease rounds
            numbers, self.gap = (0, self.gap) if candidate.plain else (numbers, 0)
        turns = candidate.times.number.of(work.column) if candidate.times is not None else None
        made, start = 0, lane.count
        self.require_way(target if turns is None else None)
        self.require_change()
        self.trailing = max(self.trailing, self.gap * candidate.at_once)
        ends = self.plain_at_end()
        while (target is None or lane.count != target) and (turns is None or made < turns):
            if self.has_ended(first, counted=target is not None or turns is not None):
                break
            for _ in range(max(0, self.gap - self.trailing)):
                self.plain_round()
            self.trailing = 0
            if not self.shape(target):
                raise work.never_ends(until_start(work.segment, candidate.until), start, target)
            made, self.gap = made + 1, max(0, self.gap - self.fewer)
        self.require_turns(made, first, target)
        while self.number < first + numbers:
            self.plain_round()
        for _ in range(0 if numbers else max(ends, self.rounds_left(first))):
            self.plain_round()

    def plain_at_end(self) -> int:
        """How many plain rounds stand behind the last shaping."""
        candidate = self.work.candidate
        if candidate.ends_shaped:
            return 0
        if candidate.again is not None and candidate.step != 1:
            return self.trailing
        return 0 if candidate.onward else candidate.plain or self.behind

    def require_way(self, target: int | None) -> None:
        """Raise `never_ends` where going on makes more stitches and fewer are to be left, or the other way."""
        assert self.last is not None
        count = self.work.lane.count
        if target is not None and (self.last.after - self.last.before) * (target - count) < 0:
            place = until_start(self.work.segment, self.work.candidate.until)
            raise self.work.never_ends(place, count, target)

    def require_change(self) -> None:
        """Raise `UnclearError` where each round is told to take in other numbers of stitches: `cont dec 6 sts`.

        One or two may be those of a section.
        """
        assert self.last is not None
        change = self.work.candidate.change
        stitches = change.of(self.work.column) or 0 if change is not None else 0
        if stitches >= FEWEST_TOLD and stitches != abs(self.last.after - self.last.before):
            raise UnclearError("not_understood", say("read.how_it_goes_on"), self.work.segment.start)

    def require_turns(self, made: int, first: int, target: int | None) -> None:
        """Raise an error where the count is not that after as many times, or rounds, as are told beside it."""
        work, candidate, last = self.work, self.work.candidate, self.last
        often = candidate.often.number.of(work.column) if candidate.often is not None else None
        begun = candidate.often is not None and not candidate.often.more
        change = last.after - last.before if last is not None else 0
        stitches = begun and often == abs(change)  # decreasing 8 times in each round
        turns = often if made not in (often, (often or 0) - begun) and not stitches else None
        rounds = candidate.rounds.of(work.column) if candidate.rounds is not None else None
        further = (rounds or 0) - (self.number - first)
        if rounds and rounds > max(1, self.gap) and not 0 <= further <= self.gap:
            turns = rounds // (self.gap + 1)
        left = max(0, work.before + (turns or 0) * change)
        if not turns or candidate.times is not None or target in (None, left):
            return
        start, size = until_start(work.segment, candidate.until), work.lane.size
        fault = Fault("count_differs", work.place, start, size, work.before, work.before, left, target)
        raise FaultyError(fault, (target,), WRONG_COUNT)

    def has_ended(self, first: int, *, counted: bool) -> bool:
        """Whether it is worked as it says at last, or would come behind the last round that is named."""
        nodes, last = self.work.candidate.last, self.work.candidate.last_round
        if nodes and self.is_worked_so(nodes):
            return True
        if last is None or counted:
            return False
        between = max(0, self.gap - self.trailing)
        return self.number - first + between >= (last.of(self.work.column) or 0) - self.work.lane.printed

    def rounds_left(self, first: int) -> int:
        """How many plain rounds follow the last shaping up to the last round that is named, no more than between.

        So they do up to the number of rounds that is told: `Work 6 rounds in this way: 48 sts`.
        """
        last, printed = self.work.candidate.last_round, self.work.lane.printed
        if self.work.candidate.rounds is not None:
            rounds = self.work.candidate.rounds.of(self.work.column) or 0
            return max(0, min(rounds - (self.number - first), self.gap))
        if last is None or not printed:
            return 0
        left = (last.of(self.work.column) or 0) - printed - (self.number - first)
        return max(0, min(left, self.gap))

    def run_numbered(self, numbers: int) -> None:
        """One shaping for each number, with as many plain rounds between as numbers are left out.

        With a `step`, those numbered are shaped every so often: `Rnds 7-15: on odd rnds, decrease as set`. Without,
        rounds in a row have as many plain ones as those before, `Rnds 5-16: continue in this manner`.
        """
        if self.last is None:
            raise UnclearError("not_understood", say("read.no_shaping_before"), self.work.segment.start)
        named = label_numbers(self.work.segment.label, self.work.column)
        between = [second - first - 1 for first, second in pairwise(named)]
        step = self.work.candidate.step
        plain = self.gap if between and not (step or any(between)) else max(step - 1, 0)
        self.gap = between[0] if between else 0
        for turn in range(numbers):
            if turn and turn <= len(between):
                self.gap = between[turn - 1]
            if self.trailing < plain:
                self.plain_round()
                self.trailing += 1
                continue
            self.trailing = 0
            for _ in range(self.gap if turn else 0):
                self.plain_round()
            self.shape_on()

    def run_in_turn(self, rounds: tuple[Done, ...], numbers: int) -> None:
        """So many rounds, shaped and plain in turn as these are: `Rep rnds 1 and 2, with 1 st fewer between decs`."""
        if self.last is None:
            raise UnclearError("not_understood", say("read.no_shaping_before"), self.work.segment.start)
        for turn in range(numbers):
            if _is_plain(rounds[turn % len(rounds)]):
                self.plain_round()
            else:
                self.shape_on()

    def run_named(self, numbers: tuple[int, ...], begun: int) -> None:
        """A shaping on each of these rounds, and plain rounds up to it: `decrease like this on rounds 5, 7 and 8`.

        The first of them is the round told just before, where that has its number, or none and they begin with 1.
        """
        if not self.trailing and numbers[0] == max(begun, 1):
            begun, numbers = numbers[0], numbers[1:] or numbers
        if self.last is None or not begun or numbers[0] <= begun:
            raise UnclearError("not_understood", say("read.no_shaping_before"), self.work.segment.start)
        for number in range(begun + 1, min(numbers[-1], begun + MOST_ROUNDS) + 1):
            if number not in numbers:
                self.plain_round()
            else:
                self.shape_on()

    def require_shaping(self) -> None:
        """Raise `UnclearError` unless nothing is told to go on but what follows: `64 sts. Decrease like so`."""
        work = self.work
        target = _target(work)
        nothing = target == work.lane.count or (target is None and bool(work.candidate.onward))
        if not nothing:
            raise UnclearError("not_understood", say("read.no_shaping_before"), work.segment.start)

    def end(self) -> int:
        """The count at which one stitch is plain between the decreases (`plain` of the candidate: none is)."""
        assert self.last is not None
        decreases = abs(self.last.after - self.last.before)
        left_over = self.work.lane.count % decreases
        return decreases * (1 if self.work.candidate.plain else 2) + left_over

    def shapings_to(self, target: int) -> int:
        """How many rounds like the last shaping lead to a count; 0 where none do."""
        assert self.last is not None
        change, left = self.last.after - self.last.before, target - self.work.lane.count
        return left // change if change and left % change == 0 else 0

    def require_end(self, target: int | None) -> None:
        """Raise `UnclearError` unless going on leads towards the count."""
        assert self.last is not None
        change = self.last.after - self.last.before
        if target is None or (target - self.work.lane.count) * change <= 0:
            raise UnclearError("not_understood", say("read.how_it_goes_on"), self.work.segment.start)

    def is_worked_so(self, nodes: Nodes) -> bool:
        """Whether the last shaping round is this over and over."""
        assert self.last is not None
        unit = Worker(self.work.column).several(nodes)
        number = self.last.before // max(1, unit.used)
        return self.last.steps in (unit.steps, times(number, unit.steps))

    def shape(self, target: int | None) -> bool:
        """The next round of shaping; whether there is one that does not pass the target."""
        lane = self.work.lane
        assert self.last is not None
        self.work.desk.budget.spend(10)
        steps = next_steps(lane.count, self.last, self.before)
        if steps is None or lane.worked >= MOST_ROUNDS:
            return False
        done = work_round(min(self.number, HIGHEST), lane.count, steps)
        if target is not None and (lane.count - target) * (done.after - target) < 0:
            return False
        self.work.add(done, (), None)
        self.before, self.last = self.last, done
        self.number += 1
        return True

    def shape_on(self) -> None:
        """The next round of shaping, to no count; raise `UnclearError` where there is none."""
        if not self.shape(None):
            raise UnclearError("not_understood", say("read.how_it_goes_on"), self.work.segment.start)

    def plain_round(self) -> None:
        lane = self.work.lane
        if lane.worked >= MOST_ROUNDS:
            fault = Fault("too_many_rounds", self.work.place, self.work.segment.start)
            raise FaultyError(fault, (lane.count,), 2.0)
        steps: Steps = (Work("k", lane.count),)
        self.work.desk.budget.spend(3)
        self.work.add(work_round(min(self.number, HIGHEST), lane.count, steps), PLAIN, lane.sections)
        self.number += 1


def _begun_as_told(work: LineWork, first: int) -> tuple[int, int]:
    """The step of a line told for every so many rounds that shapes, and how many rounds its first makes; else zeros.

    `All odd rnds: *k6, k2tog*, with 1 st less between each time. All even rnds: knit. Continue until 8 sts remain.`
    """
    lane = work.lane
    last = lane.chain[1].segment if lane.chain else -1
    lines = [line for line in lane.standing if last < line.entry.segment and line.step > 1]
    shaping = [line for line in lines if not fits_any_count(line.entry.candidate.nodes)]
    entries = [lane.stands(number) for number in range(1, shaping[0].first + 1)] if shaping else []
    if len(shaping) != 1 or shaping[0].first > shaping[0].step or not all(entries):
        return 0, 0
    for begun, entry in enumerate(filter(None, entries)):
        work.stand(entry, first + begun)
    return shaping[0].step, len(entries)


def _plain_again(work: LineWork) -> int | None:
    """The plain rounds among those that are worked again, where one of them shapes; else None."""
    if work.candidate.again is None:
        return None
    try:
        rounds = _rounds_again(work)
    except UnclearError:
        return None
    plain = sum(map(_is_plain, rounds))
    return plain if plain == len(rounds) - 1 and len(rounds) > 1 else None


def _is_plain(done: Done) -> bool:
    """Whether a round leaves as many stitches as there were, on any count."""
    if done.round is _ANY:
        return fits_any_count(done.nodes)
    return done.round.before == done.round.after


def _last_shapings(chain: Chain) -> tuple[Round | None, Round | None, int | None, int]:
    """The last round that shaped and the one before it, the plain rounds between, and those since."""
    last: Round | None = None
    between = trailing = 0
    for _ in range(60):
        if chain is None:
            break
        chain, done = chain
        shapes = done.round.after != done.round.before
        if last is None:
            if shapes:
                last = done.round
            else:
                trailing += 1
        elif shapes:
            alike = (done.round.after < done.round.before) == (last.after < last.before)
            return (last, done.round, between, trailing) if alike else (last, None, None, trailing)
        else:
            between += 1
    return last, None, None, trailing
