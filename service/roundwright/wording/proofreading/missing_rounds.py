"""Rounds that are not given, and rounds given twice: lines put in before a line, or a line taken out."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice, pairwise, product
from typing import Final

from roundwright.wording.proofreading.doubtful import Doubtful, line_of, stated
from roundwright.wording.proofreading.rewriting import Edit, Edits, between, other_label, relabelled
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.label_numbers import label_numbers, number_behind

RENUMBERED: Final = 0.5
PUT_IN: Final = 1.0
SKIPPED: Final = 0.9
SAME_STEP: Final = 0.01
"""How much it is to number a line later with those before it."""
TAKEN_OUT: Final = 1.5
MOST_AWAY: Final = 4
"""How many rounds away the lines are that a missing line is made from."""
MOST_LINES: Final = 6
"""Lines that are tried for one missing round."""
MOST_BACK: Final = 12
"""How many segments away the round is whose number is looked at."""
MOST_TOGETHER: Final = 12
"""Ways to put in several rounds that are tried."""


def missing(doubtful: Doubtful) -> Iterator[Edits]:
    """The missing rounds put in before the line, each made from those around it."""
    gap = next((fault for fault in doubtful.faults if fault.code == "round_missing"), None)
    if gap is None:
        return
    _, first, last, _ = (int(number) for number in gap.text.split(","))
    behind = number_behind(doubtful.search.segments, doubtful.place, 0)
    own = label_numbers(doubtful.segment.label, 0)
    if behind == first + 1 and len(own) == 1:  # in 1, 2, 5, 4, 5 the first 5 is 3
        yield from _with_number(doubtful, doubtful.segment.start, own[0], first)
    if first <= behind <= last:
        return
    if first == last:
        yield from _renumbered(doubtful, first)
    lines = _numbered_lines(doubtful)
    options = [_lines_for(number, lines) for number in range(first, last + 1)]
    start = doubtful.text.rfind("\n", 0, doubtful.segment.start) + 1
    for chosen in islice(product(*options), MOST_TOGETHER):
        yield (Edit(start, start, "".join(f"{line}\n" for line in chosen), PUT_IN * len(chosen)),)


def _with_number(doubtful: Doubtful, at: int, number: int, other: int) -> Iterator[Edits]:
    """The line of a place with another number."""
    if edit := _other_number(doubtful, at, number, other, RENUMBERED):
        yield (edit,)


def _other_number(doubtful: Doubtful, at: int, number: int, other: int, size: float) -> Edit | None:
    """Another number of the line of a place; None where the line does not begin with its number."""
    start, end = _bounds(doubtful.text, at)
    edit = other_label(doubtful.text[start:end], number, other, size)
    return edit and edit._replace(start=start + edit.start, end=start + edit.end)


def _renumbered(doubtful: Doubtful, missing: int) -> Iterator[Edits]:
    """A round whose number another has, given the missing number: the second `Round 43` before 45 is 44."""
    segments = doubtful.search.segments
    numbered = [
        place
        for place in range(max(0, doubtful.place - MOST_BACK), min(len(segments), doubtful.place + MOST_BACK))
        if label_numbers(segments[place].label, 0)
    ]
    at = numbered.index(doubtful.place) if doubtful.place in numbered else 0
    for place, other in ((at - 1, at - 2), (at, at + 1)):
        if not 0 <= other < len(numbered):
            continue
        numbers = label_numbers(segments[numbered[place]].label, 0)
        if len(numbers) != 1 or numbers != label_numbers(segments[numbered[other]].label, 0):
            continue
        yield from _with_number(doubtful, segments[numbered[place]].start, numbers[0], missing)


def _numbered_lines(doubtful: Doubtful) -> dict[int, str]:
    """The lines around that stand for one round, by its number."""
    segments, text = doubtful.search.segments, doubtful.text
    lines: dict[int, str] = {}
    near = range(max(0, doubtful.place - 12), min(len(segments), doubtful.place + 12))
    for place in sorted(near, key=lambda place: abs(place - doubtful.place)):
        numbers = label_numbers(segments[place].label, 0)
        if len(numbers) != 1:
            continue
        _, last = line_of(text, doubtful.search, place)
        start = text.rfind("\n", 0, segments[place].start) + 1
        end = text.find("\n", segments[last].end)
        end = len(text) if end < 0 else end
        alone = last + 1 == len(segments) or segments[last + 1].start > end
        if alone and not text[start : segments[place].start].strip():
            lines.setdefault(numbers[0], text[start:end].strip())
    return lines


def _lines_for(number: int, lines: dict[int, str]) -> list[str]:
    """What the line of a round may be: between two of the same build, the next step behind them, or as another."""
    candidates: dict[str, None] = {}
    near = sorted(
        (at for at in lines if abs(at - number) <= MOST_AWAY), key=lambda at: (abs(at - number), -at)
    )
    pairs = [(at, other) for at in near for other in near if at < other]
    pairs.sort(
        key=lambda pair: (abs(pair[0] - number) + abs(pair[1] - number), not pair[0] < number < pair[1])
    )
    for at, other in pairs:
        line = between(lines[at], at, lines[other], other, number)
        if line is not None:
            candidates.setdefault(line)
    for at, other in pairs:
        first, second = relabelled(lines[at], at, number), relabelled(lines[other], other, number)
        steps = (0, 2, 1) if at < number < other else (0, 1, 2) if other < number else (1, 2, 0)
        line = between(first, steps[0], second, steps[1], steps[2]) if first and second else None
        if line is not None and line != first:
            candidates.setdefault(line)
    for at in near:
        line = relabelled(lines[at], at, number)
        if line is not None and not any(sign.isdigit() for sign in line.replace(str(number), "", 1)):
            candidates.setdefault(line)
    return list(candidates)[:MOST_LINES]


def skipped(doubtful: Doubtful) -> Iterator[Edits]:
    """A round that was left out: between this line and one before it that is of the same build.

    None has a number, or the number between theirs is not there either: `3rd dec rnd` stands before `5th dec rnd`.
    """
    segments, text = doubtful.search.segments, doubtful.text
    numbered = bool(label_numbers(doubtful.segment.label, 0))
    lacks = "round_missing" not in doubtful.codes and _lacks_number(doubtful)
    if (numbered and not lacks) or doubtful.segment.start != segments[doubtful.first].start:
        return
    start, end = _bounds(text, doubtful.segment.start)
    line, stop = text[start:end], start
    between_them: list[str] = []
    starts: list[int] = []
    for _ in range(MOST_AWAY):
        if not stop:
            return
        begin, finish = _bounds(text, stop - 1)
        middle = between(text[begin:finish], 0, line, 2, 1) or _with_plain(text[begin:finish], line)
        if middle is not None and middle != line:
            if len(starts) > 1:  # plain rounds on both sides of it are there already
                at = starts[(len(starts) - 1) // 2]
                yield (Edit(at, at, f"{middle}\n", SKIPPED),)
            lines = [middle]
            if between_them and _follows(text, end, between_them[-1]):
                lines.extend(reversed(between_them))
            yield (Edit(start, start, "".join(f"{row}\n" for row in lines), SKIPPED),)
            return
        between_them.append(text[begin:finish])
        starts.append(begin)
        stop = begin


def run_on(doubtful: Doubtful) -> Iterator[Edits]:
    """A round that was left out though the numbers run on: put in as `skipped`, and the lines behind numbered anew."""
    text, numbers = doubtful.text, label_numbers(doubtful.segment.label, 0)
    if _lacks_number(doubtful) or _leaves_as_another(doubtful):
        return
    if len(numbers) != 1 or doubtful.segment.start != doubtful.search.segments[doubtful.first].start:
        return
    start, end = _bounds(text, doubtful.segment.start)
    lines = _numbered_lines(doubtful)
    (number,) = numbers
    for other in range(number - 1, number - MOST_AWAY, -1):
        above = relabelled(lines.get(other, ""), other, number)
        middle = None if above is None else between(above, 0, text[start:end].strip(), 2, 1)
        if middle is None or middle == above:
            continue
        by = number - other
        plain = [relabelled(lines[at], at, at + by) for at in range(other + 1, number) if at in lines]
        put_in = "".join(f"{line}\n" for line in (middle, *plain))
        later = _numbered_later(doubtful, by)
        if later:
            yield (Edit(start, start, put_in, SKIPPED), *later)
        return


def _lacks_number(doubtful: Doubtful) -> bool:
    """Whether the number before that of a line is not there, where those of the lines above go up by one."""
    segments = doubtful.search.segments[max(0, doubtful.place - MOST_BACK) : doubtful.place + 1]
    numbers = [number for segment in segments for number in label_numbers(segment.label, 0)][-3:]
    steps = [later - number for number, later in pairwise(numbers)]
    return bool(label_numbers(doubtful.segment.label, 0)) and steps == [1, 2]


def _leaves_as_another(doubtful: Doubtful) -> bool:
    """Whether the printed count takes as many stitches away as another round does, so that no round is left out."""
    chosen, lane = doubtful.chosen, doubtful.state.lanes[0]
    printed = stated(chosen, lane.count, doubtful.column(lane, chosen)) if chosen is not None else None
    chain = lane.chain
    while printed is not None and chain:
        chain, done = chain
        if done.round.after - done.round.before == printed - lane.count:
            return True
    return False


def amid(doubtful: Doubtful) -> Iterator[Edits]:
    """A numbered round that was left out among rounds without numbers, put in amid them.

    Between rounds 3 and 7 two plain rounds stand: round 5 is missing, with one of them on either side.
    """
    numbers, now = label_numbers(doubtful.segment.label, 0), doubtful.state.lanes[0]
    if len(numbers) != 1 or not now.loose or now.number + 2 != numbers[0]:
        return
    above: dict[int, int] = {}  # the round above each segment
    for place in range(doubtful.place, max(0, doubtful.place - MOST_BACK), -1):
        states = doubtful.search.before.get(place)
        if not states or states[0].lanes[0].printed != now.printed:
            break
        above[place] = states[0].lanes[0].number
    place = min(above, key=lambda place: abs(2 * above[place] - now.printed - now.number))
    start, _ = _bounds(doubtful.text, doubtful.search.segments[place].start)
    for line in _lines_for(above[place] + 1, _numbered_lines(doubtful)):
        yield (Edit(start, start, f"{line}\n", SKIPPED),)


def _numbered_later(doubtful: Doubtful, by: int) -> Edits:
    """The numbers of this line and of those behind it, each so much later; none where one of them is not alone."""
    edits: list[Edit] = []
    last = 0
    segments = doubtful.search.segments[doubtful.place :]
    for segment in segments:
        numbers = label_numbers(segment.label, 0)
        if numbers and numbers[0] <= last:
            break
        if not numbers:
            continue
        last = numbers[-1]
        edit = _other_number(doubtful, segment.start, last, last + by, SAME_STEP)
        if edit is None or len(numbers) > 1 or len(edits) == MOST_BACK:
            return ()
        edits.append(edit)
    return tuple(edits)


def _follows(text: str, end: int, line: str) -> bool:
    """Whether the next line in words is this line: plain rounds go on behind a gap."""
    return text[end:].lstrip().partition("\n")[0].split() == line.split()


def _with_plain(above: str, line: str) -> str | None:
    """The line between two, only one of which plain rounds end: `(K5, k2tog) 6 times. 36 sts. Knit 1 round.`."""
    for ended in (above, line):
        stop = ended.rstrip().rstrip(".").rfind(". ") + 1
        first, second = (part[:stop] if part is ended else part.rstrip() for part in (above, line))
        middle = between(first, 0, second, 2, 1) if stop else None
        if middle is not None:
            return middle + ended[stop:]
    return None


def _bounds(text: str, at: int) -> tuple[int, int]:
    """Where the line of a place begins and ends."""
    end = text.find("\n", at)
    return text.rfind("\n", 0, at) + 1, len(text) if end < 0 else end


def twice(doubtful: Doubtful) -> Iterator[Edits]:
    """A line that stands there twice, taken out; not what it says to a size where another size has its own."""
    segments, text = doubtful.search.segments, doubtful.text
    start = text.rfind("\n", 0, doubtful.segment.start) + 1
    if doubtful.first == 0 or segments[doubtful.first - 1].start >= start:
        return
    end = text.find("\n", segments[doubtful.last].end) + 1 or len(text)
    first, _ = line_of(text, doubtful.search, doubtful.first - 1)
    before = text[text.rfind("\n", 0, segments[first].start) + 1 : start]
    label, above = doubtful.segment.label, segments[first].label
    numbers = label_numbers(label, 0)
    same_number = bool(numbers) and numbers == label_numbers(above, 0) and _sizes(label) == _sizes(above)
    if same_number or before.split() == text[start:end].split():
        yield (Edit(start, end, "", TAKEN_OUT),)


def _sizes(label: Label | None) -> tuple[str, ...] | None:
    return label.sizes if label is not None else None
