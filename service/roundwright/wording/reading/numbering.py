"""Which rounds a line is for: numbered ones, those a standing line is for, and those without a number."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.wording.reading.fabric_ways import plain_fill
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.label_numbers import label_numbers, number_behind
from roundwright.wording.reading.line_work import Desk, LineWork
from roundwright.wording.reading.phrases import Again, Length, Rounds, Times, Until
from roundwright.wording.reading.repeats import repeat
from roundwright.wording.reading.spans import EVERY_OTHER
from roundwright.wording.reading.states import Done, Entry, FaultyError, Lane, Standing
from roundwright.wording.reading.worked import MOST_MARKERS, UnclearError
from roundwright.wording.reading.working import fits_any_count

_AGAIN = ("loop", "continue", "with")
_TO_COUNT: Final = ("round", "continue")
"""What is worked to a count where it is told for every so many rounds: `Every foll rnd: dec as set until 8 sts rem`."""
MOST_MISSING: Final = 3
"""Rounds that may be lacking between two numbers of a pattern that gives all; more are left out on purpose."""

MOST_STANDING: Final = 8
"""Standing lines that hold at the same time: the first one that fits is taken."""


def work_line(work: LineWork) -> None:
    """All rounds a line is for."""
    label, lane, candidate = work.segment.label, work.lane, work.candidate
    place_markers(lane, candidate)
    numbers = label_numbers(label, lane.column)
    if work.segment.start < work.desk.begins:
        for number in numbers:
            lane.numbers_known = (lane.numbers_known, number, Entry(candidate, work.place))
        return
    if not numbers and label is not None:
        numbers = _numbers_of_sort(work, label)
    if numbers:
        _numbered(work, numbers)
    elif label is None and work.desk.told_later.holds(work.place):
        return  # `Knit the even rounds` is worked where they are lacking
    elif (
        label is not None
        and label.kind == "every"
        and not ((candidate.until or candidate.times) and candidate.kind in _TO_COUNT)
    ):
        _stand(work)
    else:
        _unnumbered(work)
    if (candidate.until or candidate.times) and candidate.kind == "round" and not numbers:
        return  # `On every other round, k2tog before each marker until`: they have their plain rounds
    if label is not None and label.every is not None and label.kind != "every":
        if label.kind == "next":
            lane.between = Entry(candidate, work.place)
        else:
            _stand(work)


def _numbers_of_sort(work: LineWork, label: Label) -> list[int]:
    """The numbers of `Dec Rnd 3`, where they go on with those of the other rounds; else they count the decreases."""
    if label.kind != "sort" or not label.spans:
        return []
    first = label.spans[0].first.of(work.column) or 0
    segments, place = work.desk.segments, work.place + 1
    following = segments[place].label if place < len(segments) else None
    numbered = following is not None and following.kind == "numbered" and bool(following.spans)
    begins = first == 1 and numbered and following is not None and following.spans[0].first.of(0) == 2
    if not begins and (not work.lane.printed or first != work.lane.printed + 1 or work.lane.loose):
        return []
    last = label.spans[-1].last.of(work.column) or 0
    return list(range(first, min(last, first + MOST_ROUNDS) + 1))


def place_markers(lane: Lane, candidate: Candidate) -> None:
    """The equal sections that a line parts the round into, where they come out."""
    if candidate.kind == "between":
        return
    placed = candidate.rounds if candidate.kind == "markers" and candidate.rounds else candidate.every
    every = (placed.of(lane.column) or 0) if placed else 0
    if every and lane.count == every * (candidate.sections + 1):
        lane.sections = (every,) * (lane.count // every)  # 3 more markers, with the first one 4
    elif 0 < candidate.sections <= MOST_MARKERS and lane.count % candidate.sections == 0:
        lane.sections = (lane.count // candidate.sections,) * candidate.sections
    elif 0 < lane.count <= every * MOST_MARKERS and lane.count % every == 0:
        lane.sections = (every,) * (lane.count // every)


def flush(desk: Desk, lane: Lane) -> None:
    """Work what waits for its number; what waits behind a round that is lacking is left."""
    while lane.waiting and (number := min(lane.waiting)) <= lane.printed + 1:
        entry = lane.waiting.pop(number)
        if number <= lane.printed:
            continue
        if lane.waiting and number + 1 not in lane.waiting:
            lane.waiting = {}  # `Even rounds 2-20` do not end in a round 6 where 5 is the last
            return
        try:
            LineWork(desk, lane, entry.segment, entry.candidate).once(number)
        except (FaultyError, UnclearError):
            return
        lane.printed = number


def _stand(work: LineWork) -> None:
    """`Every even rnd`: the line stands for rounds that are not printed one by one."""
    label, lane = work.segment.label, work.lane
    assert label is not None
    assert label.every is not None
    every = label.every
    entry = Entry(work.candidate, work.place)
    kept = lane.standing[-MOST_STANDING:]
    last = every.last.of(work.column) if every.last is not None else None
    lane.standing = (*kept, Standing(every.first, every.step, last or 0, entry))
    if not lane.printed and label.kind == "every":
        lane.between = entry


def _restart(work: LineWork) -> None:
    """A new part begins, with numbers of its own."""
    lane = work.lane
    flush(work.desk, lane)
    lane.numbers_known = (lane.numbers_known, 0, None)
    lane.waiting = {}
    lane.standing = ()
    lane.between = None
    lane.printed = lane.lowest = lane.loose = lane.steady = 0


def _worked_in_turn(work: LineWork, numbers: int) -> bool:
    """Whether so many numbers are those of rounds in turn, told behind this: `Rounds 1-6: knit 1, purl 1, 3 times`.

    `turn` is the line behind it that says how often; it names this round and the others as the last so many.
    """
    if work.candidate.rounds is None or not work.segment.phrases:
        return False
    begin = work.segment.phrases[0].start
    for turn in work.desk.segments[work.place + 1 : work.place + 1 + MOST_IN_TURN]:
        if turn.label is not None or not turn.phrases:
            return False
        match turn.phrases[0], next((phrase for phrase in turn.phrases if type(phrase) is Times), None):
            case (Again(start=start, last=last), Times(number=often)) if start in (begin, begin - 1):
                return last * (often.of(work.column) or 0) == numbers
    return False


MOST_IN_TURN: Final = 4
"""Rounds that are told in turn under a range of numbers."""


def _worked_here(work: LineWork, numbers: list[int]) -> list[int]:
    """Those of several numbers that are worked with this line; the others are told apart, or in turn behind it."""
    printed = work.lane.printed
    if work.desk.told_later.holds(work.place):
        later = [number for number in numbers if printed and number > printed]
        goes_on = len(later) == 1 or number_behind(work.desk.segments, work.place, work.column) > printed
        return later if goes_on and later[:1] == [printed + 1] else []
    return numbers[:1] if _worked_in_turn(work, len(numbers)) else numbers


def _numbered(work: LineWork, numbers: list[int]) -> None:
    lane, label = work.lane, work.segment.label
    if len(numbers) > 1:
        numbers = _worked_here(work, numbers)
        if not numbers:
            return
    first = numbers[0]
    part = work.desk.part(work.place)
    new_part = part != lane.part
    begins = first in (1, lane.lowest) or new_part
    lane.part = part
    again = first <= lane.printed and begins
    if lane.printed and (again or (first != lane.printed + 1 and _joins_others(work, first))):
        _restart(work)
    entry = Entry(work.candidate, work.place)
    if label is not None and label.named:
        lane.numbers_known = (lane.numbers_known, label.named, entry)
    work.desk.budget.spend(len(numbers))
    skipped = numbers[-1] < lane.begins_at()
    if not skipped and lane.printed and first <= lane.printed:
        _note_given_again(work, first)
    elif not skipped:
        _fill(work, first, joins=new_part or not lane.printed)
        _stand_between_numbered(work)
    lane.lowest = lane.lowest or first
    if skipped or work.candidate.kind in _AGAIN:
        for number in numbers:
            lane.numbers_known = (lane.numbers_known, number, entry)
        lane.printed = numbers[-1]
        if not skipped:
            lane.loose = 0
            apart = work.candidate.kind == "continue" and not work.candidate.onward  # Rounds 7, 9: as set
            several = numbers[-1] - first + 1 if apart else len(numbers)
            repeat(work, several if len(numbers) > 1 else 0, first)
            lane.number = numbers[-1]
        return
    _each_number(work, numbers, entry)
    _work_waiting(work)


def _note_given_again(work: LineWork, number: int) -> None:
    """Note a number that a line of this part has already; behind a mistyped number the others only go back."""
    steps, chain = 0, work.lane.numbers_known
    while chain and chain[1] != number and chain[2] is not None:
        chain, steps = chain[0], steps + 1
    work.desk.budget.spend(steps // 8)
    if chain and chain[2] is not None:
        work.note("round_twice", work.segment.start, 0.5, text=str(number))


def _work_waiting(work: LineWork) -> None:
    """Work the rounds that waited for those of this line: `Rnds 1, 3: k2tog around. Rnds 2, 4: knit`."""
    lane = work.lane
    while entry := _waiting(work, lane.printed + 1):
        lane.printed += 1
        work.stand(entry, lane.printed)
        lane.number = lane.printed
        lane.numbers_known = (lane.numbers_known, lane.printed, entry)


def _waiting(work: LineWork, number: int) -> Entry | None:
    """What waits for a round, or is told apart with its number, between those that wait or behind the last of all.

    `Even rounds 2-20` do not end in a round 6 where 5 is the last.
    """
    lane, later = work.lane, work.desk.told_later
    waiting = {} if work.candidate.stated else lane.waiting
    given = number_behind(work.desk.segments, work.place, work.column)
    behind = given >= number
    alone = bool(waiting) and max(waiting) >= number and not number <= given <= max(waiting)
    following = later.entry(
        work.place, number + 1, named=not alone
    )  # also by `all rounds not mentioned are knit`
    between = number + 1 in waiting or (bool(waiting) and following is not None)
    if number in waiting and (between or behind or number == max(waiting)):
        return lane.waiting.pop(number)  # as in `flush`
    if number < lane.begins_at() or not (between or not behind):
        return None
    entry = later.entry(work.place, number, named=not alone, last=not between)
    if entry is None and not lane.loose and any(line.last == number for line in lane.standing):
        return lane.stands(number)
    return entry


def _each_number(work: LineWork, numbers: list[int], entry: Entry) -> None:
    """A round for each number; those behind a gap wait until it is filled."""
    lane = work.lane
    full = False  # whether there are as many rounds as are kept, which is noted
    for place, number in enumerate(numbers):
        lane.numbers_known = (lane.numbers_known, number, entry)
        if number != numbers[0] + place:
            lane.waiting[number] = entry
            continue
        lane.printed = number
        if number < lane.begins_at():
            continue  # `Rnds 2 and 4: knit`, where a size begins at 3
        lane.loose = 0
        if not full:
            full = lane.worked >= MOST_ROUNDS
            shaped = number == numbers[0 if work.candidate.at_once else -1]
            work.once(number, single=len(numbers) > 1, shaped=shaped)


def _fill(work: LineWork, first: int, *, joins: bool) -> None:
    """Work the rounds that stand for the numbers before this; `joins`: a size may join the larger ones here."""
    lane = work.lane
    if lane.loose:
        _fill_standing(work, first)
        return
    if first - lane.printed > MOST_ROUNDS:
        return
    begun = max(lane.printed, lane.begins_at() - 1)
    numbers = range(begun + 1, first)
    work.desk.budget.spend(len(numbers))
    entries = {
        number: lane.waiting.pop(number, None)
        or lane.stands(number)
        or work.desk.told_later.entry(work.place, number)
        or _alternating(work, number)
        for number in numbers
    }
    missing = [number for number, entry in entries.items() if entry is None]
    if missing and set(missing) <= _of_other_sizes(work, joins=joins):
        return
    for number, entry in entries.items():
        if entry is None or (missing and not fits_any_count(entry.candidate.nodes)):
            continue
        work.stand(entry, number)
        lane.numbers_known = (lane.numbers_known, number, entry)
        lane.number = number
    if missing:
        few = len(missing) <= MOST_MISSING or _goes_on_behind(work, missing[0])
        steady = lane.steady >= 1 and few and bool(lane.printed)
        text = f"{lane.printed},{missing[0]},{missing[-1]},{first}"
        work.note("round_missing", work.segment.start, 1.0, text=text, error=steady)
    elif lane.printed:
        lane.steady += 1


def _is_fabric_alone(work: LineWork) -> bool:
    """Whether the line before tells a fabric, `work in stockinette`, and neither how long nor how often."""
    before = work.desk.segments[work.place - 1].phrases if work.place else ()
    return bool(before) and not any(type(phrase) in (Length, Rounds, Times, Until) for phrase in before)


def _goes_on_behind(work: LineWork, number: int) -> bool:
    """Whether the next line has the number after this, which is lacking: in 1, 2, 13, 4 the 13 is mistyped."""
    return number_behind(work.desk.segments, work.place, work.column) == number + 1


def _fill_standing(work: LineWork, first: int) -> None:
    """Work the rounds that stand between rounds that went on without numbers and this, or are named behind it.

    `All even rounds to the 14th: knit` has a round 14 where rounds go on as before to the 13th and the 15th follows.
    """
    lane = work.lane
    numbers = range(lane.number + 1, first)
    plain = lane.chain is not None and is_plain(lane.chain[1])
    later = work.desk.told_later
    if plain and lane.number == lane.worked == 1 and _is_fabric_alone(work):
        for number in numbers:  # cast on and knit. Rnd 25: ... Knit all rounds not mentioned.
            if entry := later.entry(work.place, number):
                work.stand(entry, number)
                lane.number = number
        return
    if plain or len(numbers) > MOST_MISSING:
        return
    standing = {
        number: entry
        for number in numbers
        if (entry := lane.stands(number) or later.entry(work.place, number, named=True))
    }
    if not standing and len(numbers) == 1 and (between := _between_in_rhythm(work)):
        standing = {numbers[0]: between}
    if len(standing) < len(numbers):
        return
    for number, entry in standing.items():
        if not fits_any_count(entry.candidate.nodes):
            return
        work.stand(entry, number)
        lane.number = number


def _between_in_rhythm(work: LineWork) -> Entry | None:
    """The plain round behind the last decrease of rounds in turn: `on odd rnds dec 5, to 40 sts. Rnd 17` has a 16th."""
    chain = work.lane.chain
    if chain is None or chain[0] is None:
        return None
    last, before = chain[1], chain[0][1]
    if last.segment != before.segment or not is_plain(before):
        return None
    segment = work.desk.segments[last.segment]
    return Entry(Candidate("round", 0.0, plain_fill("k", segment.start, segment.end)), last.segment)


def _alternating(work: LineWork, number: int) -> Entry | None:
    """The line that was told as `next round and every alternate round`, for a round that alone is left out."""
    lane, entry = work.lane, work.lane.between
    label = work.desk.segments[entry.segment].label if entry is not None else None
    every = label.every if label is not None and label.kind == "next" else None
    alone = (
        lane.printed > 0 and number == lane.printed + 1 and every is not None and every.step == EVERY_OTHER
    )
    return entry if alone else None


def _of_other_sizes(work: LineWork, *, joins: bool) -> set[int]:
    """The numbers of this part that were printed for other sizes; for some sizes, where this size first joins in."""
    desk, numbers = work.desk, set[int]()
    place = work.place - 1
    while place >= 0 and desk.part(place) == desk.part(work.place):
        label = desk.segments[place].label
        if label is not None and label.sizes and (joins or str(work.column + 1) not in label.sizes):
            numbers.update(label_numbers(label, work.lane.column))
        place -= 1
    return numbers


def _joins_others(work: LineWork, first: int) -> bool:
    """Whether the numbered line before ends with the number before this, and was for other sizes alone."""
    for place in range(work.place - 1, -1, -1):
        label = work.desk.segments[place].label
        if label is not None and label.kind == "numbered":
            return bool(label.sizes) and label_numbers(label, work.column)[-1:] == [first - 1]
    return False


def _work_last_standing(work: LineWork) -> None:
    """Work the last of the rounds told ahead where it is due: `Even rounds to the 12th: knit`, behind the 11th."""
    lane = work.lane
    number = lane.printed + 1
    entry = lane.stands(number)
    works = bool(work.candidate.nodes) or work.candidate.kind in _AGAIN
    if entry is None or lane.loose or not works or all(line.last != number for line in lane.standing):
        return
    work.stand(entry, number)
    lane.printed = lane.number = number


def _unnumbered(work: LineWork) -> None:
    lane, candidate, label = work.lane, work.candidate, work.segment.label
    between = lane.between is not None and lane.between.candidate.kind == "between"
    if between and any(rounds.step <= 1 for rounds in _every(work)):
        lane.between, between = None, False  # `Now every round: k4, k2tog`
    if candidate.kind in _AGAIN:
        _work_last_standing(work)
        repeat(work, 0, lane.number + 1)
        lane.loose += 1
        return
    if label is not None and label.named:
        lane.numbers_known = (lane.numbers_known, label.named, Entry(candidate, work.place))
        if label.defines:
            return
        if candidate.explained:
            work.cost += TOLD_BEHIND_WORKED * _works_named_before(work)
            return
    elif candidate.explained:  # what a fabric is has to come out as well
        LineWork(work.desk, lane.copy(), work.place, candidate).once(lane.number + 1, single=False)
        return
    _work_last_standing(work)
    kind = label.kind if label is not None else None
    count = label.count if label is not None and kind in ("next", "count") else None
    times = count.of(work.column) if count is not None else 1
    if lane.between is not None and candidate.nodes and (between or kind in ("sort", "next")):
        _stand_between(work)
    if label is None and work.segment.heading and lane.printed:
        _restart(work)
    turns = min(times or 0, MOST_ROUNDS + 1 - lane.worked)
    for turn in range(turns):
        shaped = turn == (0 if candidate.at_once else turns - 1)
        work.once(lane.number + 1, single=count is not None, shaped=shaped)
    lane.loose += 1


def _works_named_before(work: LineWork) -> bool:
    """Whether the round with a name just before this was worked, and not only told."""
    chain = work.lane.chain
    before = work.desk.segments[work.place - 1].label if work.place else None
    named = before is not None and before.kind == "sort" and bool(before.named)
    return named and chain is not None and chain[1].segment == work.place - 1


TOLD_BEHIND_WORKED: Final = 2.0
"""What it costs that of two rounds with names the first is worked and the second only told."""


def _stand_between_numbered(work: LineWork) -> None:
    """The same before a decrease round with a number: `1. Dec rnd: ... Knit 1 rnd between. 2. Dec rnd: ...`."""
    entry = work.lane.between
    if entry is not None and entry.candidate.kind == "between" and work.candidate.nodes:
        _stand_between(work)


def _stand_between(work: LineWork) -> None:
    """The round that stands between two decrease rounds."""
    lane = work.lane
    entry = lane.between
    if entry is None or lane.chain is None:
        return
    last = lane.chain[1]
    before = lane.chain[0][1] if lane.chain[0] is not None else last
    if entry.candidate.kind == "between" and before.segment > entry.segment and is_plain(last):
        lane.between = None  # the plain rounds are told where they stand
        return
    if last.segment != entry.segment and not is_plain(last):
        between = entry.candidate.kind == "between"
        earlier = entry.candidate.told_first and last.segment < entry.segment
        if between and (earlier or fits_any_count(work.candidate.nodes)):
            return
        LineWork(work.desk, lane, entry.segment, entry.candidate).once(lane.number + 1, single=not between)
        if between and (left := entry.candidate.step):  # behind the first so many decrease rounds
            fewer = replace(entry.candidate, step=left - 1)
            lane.between = replace(entry, candidate=fewer) if left > 1 else None


def is_plain(done: Done) -> bool:
    """Whether a round leaves as many stitches as there were."""
    return done.round.before == done.round.after


def _every(work: LineWork) -> Iterator[Rounds]:
    """The phrases of a line that say on which rounds it is worked."""
    return (phrase for phrase in work.segment.phrases if type(phrase) is Rounds and phrase.every)
