"""The smallest edits with which a pattern comes out.

Edits of a line are tried on its tree where they change a number or a stitch, else on its text; each is written into the
text, read again, and the rest of the pattern worked from there. The edit with which least is left wrong is offered, the
smallest of those first; where several are as good, all are.
"""

import re
from collections.abc import Iterator
from typing import Final, NamedTuple

from msgspec import Struct

from roundwright.knitting.rounds.round import Round, Steps, StitchName, Work, uses_and_leaves
from roundwright.wording.reading.explain import Search
from roundwright.wording.reading.states import Budget, Chain, Fault, State
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.layout import Segment, segments
from roundwright.wording.reading.line_work import column_of
from roundwright.wording.reading.phrases import CastOn
from roundwright.wording.reading.scanner import scan
from roundwright.wording.reading.tree import Fill, Group, Nodes, Number, Stitch, Unknown, walk
from roundwright.wording.reading.vocabulary import nearest
from roundwright.wording.reading.working import Changes, UnclearError, Worked, Worker
from roundwright.wording.writing.size_lists import across

MOST_LINES: Final = 8
"""Lines repaired in one answer."""
MOST_TRIED: Final = 600
"""Changes of numbers and stitches tried on trees, for one text."""
MOST_READ: Final = 3_000
"""Words that are read again and segments that are worked again, ten for each, for all edits of one text."""
MOST_FOLLOWED: Final = 12
"""Segments worked after an edit, to see what it does to the rest."""


class Edit(NamedTuple):
    """Another text in place of that from `start` to `end`; `size` is how much it changes."""

    start: int
    end: int
    text: str
    size: float


Edits = tuple[Edit, ...]


class Repair(Struct, frozen=True):
    """Edits with which a line comes out, and what is left wrong with them: a cost."""

    edits: Edits
    left: float
    size: float


class Repairs:
    """Looks for repairs of one text, and no longer than its share."""

    def __init__(self, text: str, search: Search, width: int, columns: tuple[int, ...]) -> None:
        self.text = text
        self.search = search
        self.width = width
        self.columns = columns
        self.tried = MOST_TRIED
        self.read = MOST_READ
        self.known = self.stitches_of_text()

    def stitches_of_text(self) -> list[StitchName]:
        """The stitches the text uses, and the usual ones."""
        names: dict[StitchName, None] = {}
        for place in self.search.known:
            for candidate in self.search.known[place][:1]:
                for node in walk(candidate.nodes):
                    if isinstance(node, Stitch):
                        names.setdefault(node.name)
        for usual in ("k2tog", "ssk", "yo", "m1", "kfb"):
            names.setdefault(usual)  # type: ignore[arg-type]
        return list(names)

    # --- one segment

    def repairs(self, place: int, faults: list[Fault], chosen: Candidate | None) -> list[Repair]:
        """Repairs of a segment, the best first."""
        states = self.search.before.get(place)
        if not states:
            return []
        state = states[0]
        found: list[Repair] = []
        seen: set[Edits] = set()
        best: float | None = None
        for edits in self.edits(place, state, faults, chosen):
            if edits in seen:
                continue
            seen.add(edits)
            if self.read <= 0:
                break
            size = sum(edit.size for edit in edits)
            if best is not None and size > best + 2.5:
                continue
            left = self.outcome(place, state, edits)
            if left is None:
                continue
            found.append(Repair(edits, left, size))
            best = min(size, best) if best is not None and left < 4 else size if left < 4 else best
        found.sort(key=lambda each: each.left + each.size)
        return found

    def outcome(self, place: int, state: State, edits: Edits) -> float | None:
        """What is left wrong with these edits in the segment and those after it; None where it does not come out."""
        first, last = self.line_of(place)
        self.read -= 10 + (self.search.segments[last].end - self.search.segments[first].start) // 4
        if first != place:
            states = self.search.before.get(first)
            if not states:
                return None
            state = states[0]
        segment = self.search.segments[first]
        line = self.rewritten(segment.start, self.search.segments[last].end, edits)
        made = _read_again(line, segment, self.width, self.text)
        if not made:
            return None
        rest = self.search.segments[last + 1 : last + 1 + MOST_FOLLOWED]
        search = self.search.fresh([*self.search.segments[:first], *made, *rest], Budget(20_000))
        search.known = {at: options for at, options in self.search.known.items() if at < first}
        for offset in range(len(rest)):
            options = self.search.known.get(last + 1 + offset)
            if options is not None:
                search.known[first + len(made) + offset] = options
        search.states = [state]
        base = state.cost
        for at in range(first, first + len(made)):
            search.advance(at)
        best = search.states[0]
        if _faults_of(best.faults, first, len(made)):
            return None
        for at in range(first + len(made), first + len(made) + len(rest)):
            search.advance(at)
        self.read -= 10 * len(rest) * len(state.lanes)
        lane = search.states[0].lanes[0]
        return search.states[0].cost - base + unlike(lane.chain, first, first + len(made))

    def line_of(self, place: int) -> tuple[int, int]:
        """The first and the last segment of the line that a segment stands in."""
        segments_ = self.search.segments
        first = last = place
        while (
            first > 0
            and "\n" not in self.text[segments_[first - 1].start : segments_[first].start]
            and segments_[first].label is None
        ):
            first -= 1
        while (
            last + 1 < len(segments_)
            and "\n" not in self.text[segments_[last].start : segments_[last + 1].start]
            and segments_[last + 1].label is None
        ):
            last += 1
        return first, last

    def rewritten(self, start: int, end: int, edits: Edits) -> str:
        """A stretch of the text with the edits made."""
        text = self.text[start:end]
        for edit in sorted(edits, reverse=True):
            first, last = edit.start - start, edit.end - start
            text = text[:first] + edit.text + text[last:]
        return text

    # --- the edits that are tried, the smallest first

    def edits(
        self, place: int, state: State, faults: list[Fault], chosen: Candidate | None
    ) -> Iterator[Edits]:
        segment = self.search.segments[place]
        codes = {fault.code for fault in faults}
        if "sizes_differ" in codes:
            yield from self.listed(segment, state, place)
            yield from self.lengthened(place, state, faults)
            return
        if codes & {"bracket", "no_star", "not_understood", "unknown_word"}:
            yield from self.lists(segment)
            yield from self.brackets(segment)
            yield from self.words(segment, chosen)
        if chosen is not None and chosen.kind in ("loop", "continue") and chosen.until is not None:
            yield from self.until(chosen.until, state)
        for candidate in self.trees(place, chosen):
            yield from self.numbers(place, candidate, state)
        for candidate in self.trees(place, chosen)[:1]:
            yield from self.counts(place, candidate, state, faults)
            yield from self.swaps(segment, candidate, state)
        yield from self.put_in(segment, chosen, state, place)
        yield from self.left_out(segment)
        for candidate in self.trees(place, chosen)[:1]:
            yield from self.tails(candidate, state)

    def trees(self, place: int, chosen: Candidate | None) -> list[Candidate]:
        options = [
            each
            for each in self.search.known.get(place, [])
            if each.nodes and each.kind == "round" and each.cost < 5
        ]
        if chosen is not None and chosen.nodes and chosen in options:
            options = [chosen, *(each for each in options if each is not chosen)]
        return options[:3]

    def lanes(self, place: int, state: State) -> list[tuple[int, int]]:
        """Column and count of every size the segment is for."""
        segment = self.search.segments[place]
        return [
            (lane.column, lane.count) for lane in state.lanes if self.search.concerns(segment.label, lane)
        ]

    def work(
        self,
        nodes: Nodes,
        column: int,
        count: int,
        changes: Changes,
        said: int | None,
        sections: object = None,
    ) -> Worked | None:
        self.tried -= 1
        if self.tried < 0:
            return None
        try:
            return Worker(column, sections, changes, said).work(nodes, count)  # type: ignore[arg-type]
        except UnclearError:
            return None

    def numbers(self, place: int, candidate: Candidate, state: State) -> Iterator[Edits]:
        """Another value for one number, in the sizes that do not come out."""
        found: list[tuple[float, Edits]] = []
        label = self.search.segments[place].label
        for number in _numbers(candidate.nodes)[:12]:
            values: dict[int, int] = {}
            distance = 0.0
            for lane in state.lanes:
                if not self.search.concerns(label, lane):
                    continue
                column, count = column_of(label, lane, candidate), lane.count
                said = _said(candidate, count, column)
                value = number.of(column) or 0
                now = self.work(candidate.nodes, column, count, {}, said, lane.sections)
                if now is not None and now.used == count and said in (None, now.left):
                    values[column] = value
                    continue
                other = self.solved(candidate.nodes, number, column, count, said, value, lane.sections)
                if other is None:
                    break
                values[column] = other
                distance += abs(other - value)
            else:
                if distance:
                    found.append((distance, (self.edit(number, values),)))
        found.sort(key=lambda each: each[0])
        for _, edits in found:
            yield edits

    def solved(
        self,
        nodes: Nodes,
        number: Number,
        column: int,
        count: int,
        said: int | None,
        value: int,
        sections: object,
    ) -> int | None:
        """The nearest value of a number with which the line comes out in a size."""
        for by in (-1, 1, -2, 2, -3, 3, -4, 4, -5, 5, -6, 6):
            if value + by <= 0:
                continue
            worked = self.work(nodes, column, count, {number.start: value + by}, said, sections)
            if worked is not None and worked.used == count and said in (None, worked.left):
                return value + by
        here = self.work(nodes, column, count, {}, said, sections)
        above = self.work(nodes, column, count, {number.start: value + 1}, said, sections)
        if here is None or above is None or above.used == here.used:
            return None
        slope, lacking = above.used - here.used, count - here.used
        other = value + lacking // slope
        if lacking % slope or other <= 0 or other > 1_000:
            return None
        worked = self.work(nodes, column, count, {number.start: other}, said, sections)
        return other if worked is not None and worked.used == count and said in (None, worked.left) else None

    def edit(self, number: Number, values: dict[int, int]) -> Edit:
        """The number written with other values, in the form it has."""
        old = self.text[number.start : number.end]
        wide = len(number.values) if len(number.values) > 1 else self.width
        new = [values.get(column, number.of(column)) for column in range(wide)]
        changed = sum(1 for column, value in enumerate(new) if value != number.of(column))
        distance = sum(abs((value or 0) - (number.of(column) or 0)) for column, value in enumerate(new))
        return Edit(
            number.start,
            number.end,
            _written(old, number, new),
            1.0 + 0.02 * min(distance, 20) + 0.1 * (changed - 1),
        )

    def counts(self, place: int, candidate: Candidate, state: State, faults: list[Fault]) -> Iterator[Edits]:
        """Another printed count."""
        wrong = [fault for fault in faults if fault.code in ("count_differs", "wrong_way")]
        if not wrong:
            return
        by_start = {stated.start: stated for stated in candidate.stated}
        for fault in wrong[:1]:
            stated = by_start.get(fault.start)
            if stated is None:
                continue
            values: dict[int, int] = {}
            for each in wrong:
                if each.start == fault.start and each.size is not None:
                    lane = state.lanes[each.size]
                    values[column_of(self.search.segments[place].label, lane, candidate)] = (
                        abs(each.left - each.before) if stated.sign else each.left
                    )
            yield (self.edit(stated.number, values),)

    def until(self, number: Number, state: State) -> Iterator[Edits]:
        for by in (1, -1, 2, -2, 3, -3):
            values = {lane.column: (number.of(lane.column) or 0) + by for lane in state.lanes}
            if all(value > 0 for value in values.values()):
                yield (self.edit(number, values),)

    def swaps(self, segment: Segment, candidate: Candidate, state: State) -> Iterator[Edits]:
        """Another stitch, alone or with the number that then fits."""
        for node in walk(candidate.nodes):
            if (
                not isinstance(node, Stitch)
                or node.start < segment.start
                or node.end > segment.end
                or node.bare
            ):
                continue
            counted = node.times.start >= 0
            for name in self.known[:8]:
                if name == node.name or name in ("k", "p", "sl"):
                    continue
                if counted and node.times.values != (1,):
                    continue
                if _comes_out(self, _swapped(candidate.nodes, node, name), candidate, state):
                    yield (Edit(node.start, node.end, self.spelling(name), 1.2),)

    def spelling(self, name: StitchName) -> str:
        """A stitch as the text spells it."""
        for place in sorted(self.search.known):
            for candidate in self.search.known[place][:1]:
                for node in walk(candidate.nodes):
                    if isinstance(node, Stitch) and node.name == name and node.end > node.start:
                        text = self.text[node.start : node.end]
                        if len(text) < 24:
                            return text
        return name

    def put_in(self, segment: Segment, chosen: Candidate | None, state: State, place: int) -> Iterator[Edits]:
        """A stitch that was left out, put in between two others."""
        text = self.text[segment.start : segment.end]
        options: list[str] = []
        if re.search(r"\b(?:sl|s)\s?\.?\s?[12]\b", text, re.IGNORECASE) and "psso" not in text.lower():
            options.append("psso")
        names = [self.spelling(name) for name in self.known if name not in ("k", "p", "sl")][:5]
        lone = [self.text[node.start : node.end] for node in self.neighbours(place)]
        options.extend(dict.fromkeys([*lone, *names]))
        if chosen is None or not chosen.nodes:
            return
        nodes = [
            node
            for node in walk(chosen.nodes)
            if isinstance(node, Stitch) and segment.start <= node.start < segment.end
        ]
        before = self.analogy(place)
        found: list[tuple[float, Edits]] = []
        for option in options[:7]:
            for node in nodes[:8]:
                behind = Edit(node.end, node.end, f", {option}", 2.0)
                ahead = Edit(node.start, node.start, f"{option}, ", 2.1)
                for edit, key in (
                    (behind, (_plain(self.text[node.start : node.end]), _plain(option))),
                    (ahead, (_plain(option), _plain(self.text[node.start : node.end]))),
                ):
                    found.append(
                        (
                            edit.size - (0.5 if key in before else 0.0),
                            (edit._replace(size=edit.size - (0.5 if key in before else 0.0)),),
                        )
                    )
        found.sort(key=lambda each: each[0])
        for _, edits in found[:24]:
            yield edits

    def neighbours(self, place: int) -> list[Stitch]:
        """Stitches of the lines before, as they are printed there."""
        found: list[Stitch] = []
        for at in range(max(0, place - 3), min(place + 3, len(self.search.segments))):
            for candidate in self.search.known.get(at, [])[:1]:
                found.extend(
                    node
                    for node in walk(candidate.nodes)
                    if isinstance(node, Stitch) and node.end > node.start and node.name == "p"
                )
        return found[:2]

    def analogy(self, place: int) -> set[tuple[str, str]]:
        """Which stitches stand side by side in the lines before and after."""
        pairs: set[tuple[str, str]] = set()
        for at in range(max(0, place - 4), min(place + 4, len(self.search.segments))):
            if at == place:
                continue
            for candidate in self.search.known.get(at, [])[:1]:
                row = [
                    _plain(self.text[node.start : node.end])
                    for node in walk(candidate.nodes)
                    if isinstance(node, Stitch)
                ]
                pairs.update(zip(row, row[1:], strict=False))
        return pairs

    def left_out(self, segment: Segment) -> Iterator[Edits]:
        """A stitch too many, taken out."""
        text = self.text[segment.start : segment.end]
        for found in list(re.finditer(r",\s*[^,;.*()\[\]]{1,12}(?=[,;.*)\]])", text))[:8]:
            yield (Edit(segment.start + found.start(), segment.start + found.end(), "", 2.2),)

    def brackets(self, segment: Segment) -> Iterator[Edits]:
        """A bracket that is missing or of the other kind."""
        text = self.text[segment.start : segment.end]
        opens = [found.start() for found in re.finditer(r"[(\[{]", text)]
        closes = [found.start() for found in re.finditer(r"[)\]}]", text)]
        pairs = {"(": ")", "[": "]", "{": "}", ")": "(", "]": "[", "}": "{"}
        stack: list[int] = []
        for found in re.finditer(r"[()\[\]{}]", text):
            at, sign = found.start(), found[0]
            if sign in "([{":
                stack.append(at)
            elif stack:
                opened = stack.pop()
                if pairs[text[opened]] != sign:
                    yield (Edit(segment.start + at, segment.start + at + 1, pairs[text[opened]], 1.0),)
        if len(opens) > len(closes):
            for at in reversed(opens):
                close = pairs[text[at]]
                for found in re.finditer(
                    r"(?=,|;|\s+[0-9]+\s*(?:times|x)|\s+(?:around|to end|twice)|\.|$)", text[at:]
                ):
                    yield (
                        Edit(
                            segment.start + at + found.start(),
                            segment.start + at + found.start(),
                            close,
                            1.0 + found.start() * 0.001,
                        ),
                    )
        if len(closes) > len(opens):
            for at in closes:
                body = segment.phrases[0].start - segment.start if segment.phrases else 0
                begins = [
                    body,
                    *(
                        found.end()
                        for found in re.finditer(r"[:.;]\s*(?:[-–—]\s*)?|,\s*", text[:at])
                        if found.end() > body
                    ),
                ]
                for begin in begins[:6]:
                    yield (
                        Edit(
                            segment.start + begin, segment.start + begin, pairs[text[at]], 1.0 + 0.01 * begin
                        ),
                    )

    def lists(self, segment: Segment) -> Iterator[Edits]:
        """`5 (6. 7, 8)`, `5 (6 7, 8)`: a list with another sign where a comma should be, or without its end."""
        text = self.text[
            segment.start : self.search.segments[self.line_of(self.search.segments.index(segment))[1]].end
        ]
        for found in re.finditer(
            r"(?<=[(\[])\s*[0-9]{1,5}(?:[\s.,;]{1,3}[0-9]{1,5}){1,12}(?=\s*[)\]])", text
        ):
            fixed = ", ".join(re.findall("[0-9]+", found[0]))
            if fixed != found[0]:
                yield (Edit(segment.start + found.start(), segment.start + found.end(), fixed, 1.0),)

    def words(self, segment: Segment, chosen: Candidate | None) -> Iterator[Edits]:
        """The stitch that looks most like a word nobody knows."""
        unknown: list[tuple[int, int]] = []
        for place_ in (chosen,):
            if place_ is not None:
                unknown.extend(
                    (node.start, node.end) for node in walk(place_.nodes) if isinstance(node, Unknown)
                )
        for start, end in unknown[:3]:
            for near in nearest(self.text[start:end].lower()):
                yield (Edit(start, end, self.spelling(near), 1.0),)

    def listed(self, segment: Segment, state: State, place: int) -> Iterator[Edits]:
        yield from self.lists(segment)

    def lengthened(self, place: int, state: State, faults: list[Fault]) -> Iterator[Edits]:
        """A list that is too short, with the counts that are worked."""
        for candidate in self.trees(place, None)[:1]:
            for stated in candidate.stated:
                if len(stated.number.values) not in (1, self.width):
                    values: dict[int, int] = {}
                    for lane in state.lanes:
                        worked = self.work(candidate.nodes, lane.column, lane.count, {}, None, lane.sections)
                        if worked is None or worked.used != lane.count:
                            return
                        values[lane.column] = worked.left
                    new = [values.get(column, stated.number.of(column)) for column in range(self.width)]
                    old = self.text[stated.number.start : stated.number.end]
                    yield (
                        Edit(
                            stated.number.start,
                            stated.number.end,
                            _written(old, Number((0,) * self.width), new),
                            1.0,
                        ),
                    )
            for number in _numbers(candidate.nodes):
                if len(number.values) not in (1, self.width):
                    solved: dict[int, int] = {}
                    for lane in state.lanes:
                        said = _said(candidate, lane.count, lane.column)
                        value = number.of(lane.column) or 0
                        now = self.work(candidate.nodes, lane.column, lane.count, {}, said, lane.sections)
                        other = (
                            value
                            if now is not None and now.used == lane.count and said in (None, now.left)
                            else self.solved(
                                candidate.nodes, number, lane.column, lane.count, said, value, lane.sections
                            )
                        )
                        if other is None:
                            break
                        solved[lane.column] = other
                    else:
                        new = [solved.get(column, number.of(column)) for column in range(self.width)]
                        old = self.text[number.start : number.end]
                        yield (
                            Edit(
                                number.start, number.end, _written(old, Number((0,) * self.width), new), 1.0
                            ),
                        )

    def tails(self, candidate: Candidate, state: State) -> Iterator[Edits]:
        """Stitches left over are knitted at the end."""
        if len(state.lanes) != 1 or not candidate.nodes:
            return
        lane = state.lanes[0]
        worked = self.work(candidate.nodes, lane.column, lane.count, {}, None, lane.sections)
        if worked is None or worked.used >= lane.count:
            return
        over = lane.count - worked.used
        match candidate.nodes:
            case [*_, Fill(leave=leave, said=(start, end))] if leave is None or not leave.of(lane.column):
                space = " " if start and not self.text[start - 1].isspace() else ""
                yield (
                    Edit(start, end, f"{space}to last {'st' if over == 1 else f'{over} sts'}, k{over}", 3.5),
                )
            case [*_, Fill(leave=Number() as leave), Stitch("k", many)] if (
                leave.start >= 0 and many.start >= 0
            ):
                far, times = (leave.of(lane.column) or 0), (many.of(lane.column) or 0)
                if far == times:
                    yield (
                        Edit(leave.start, leave.end, str(far + over), 1.3),
                        Edit(many.start, many.end, str(times + over), 1.3),
                    )
            case _ if not any(isinstance(node, Fill) for node in candidate.nodes):
                end = candidate.nodes[-1].end
                yield (Edit(end, end, f", k{over}", 3.0),)


# --- the cast-on


def cast_on_repair(
    text: str, search: Search, cast_on: tuple[int, ...], columns: tuple[int, ...], width: int, cost: float
) -> tuple[int, Repair] | None:
    """Another cast-on with which much more comes out; with the segment it stands in."""
    for place, segment in enumerate(search.segments):
        number = next((phrase.number for phrase in segment.phrases if isinstance(phrase, CastOn)), None)
        if number is None or place not in search.before:
            continue
        best: tuple[float, tuple[int, ...]] | None = None
        for by in (1, -1, 2, -2, 3, -3, 4, -4, 6, -6, 8, -8):
            counts = tuple(count + by for count in cast_on)
            if min(counts) < 1 or len(set(number.values)) != len(number.values) or len(counts) > 1:
                continue
            again = search.fresh(search.segments, Budget(20_000), counts)
            again.known = search.known
            again.run(place + 1)
            if best is None or again.states[0].cost < best[0] - 0.5:
                best = (again.states[0].cost, counts)
        if best is None or best[0] > cost / 2 - 1:
            return None
        values = {columns[size]: count for size, count in enumerate(best[1])}
        new = [values.get(column, number.of(column)) for column in range(len(number.values))]
        old = text[number.start : number.end]
        return place, Repair((Edit(number.start, number.end, _written(old, number, new), 1.0),), best[0], 1.0)
    return None


# --- written into the text


_ONES: Final = (
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
_OFTEN: Final = {1: "once", 2: "twice", 3: "thrice"}


def _written(old: str, number: Number, new: list[int | None]) -> str:
    """Other values in the form of the old: `5 (6, 7)`, `64/72/80`, `four`, `twice`."""
    values = ["-" if value is None else str(value) for value in new]
    if len(set(values)) == 1 and len(number.values) == 1:
        value = int(values[0]) if values[0].isdigit() else 0
        if old.isalpha():
            if old.lower() in ("once", "twice", "thrice"):
                return _OFTEN.get(value, f"{value} times")
            word = _ONES[value] if value < len(_ONES) else str(value)
            return word.capitalize() if old[0].isupper() else word
        return values[0]
    digits = list(re.finditer(r"[0-9]+|(?<=[(\[,/:;\s])-(?![0-9])", old))
    if len(digits) == len(values):
        text = old
        for found, value in zip(reversed(digits), reversed(values), strict=True):
            text = text[: found.start()] + value + text[found.end() :]
        return text
    joined = across(values)
    if "[" in old:
        joined = joined.replace("(", "[").replace(")", "]")
    return joined


def _plain(text: str) -> str:
    """A stitch without its number."""
    return re.sub(r"(?<=[a-z])\.?\s*[0-9]+$", "", text.strip().lower())


def _numbers(nodes: Nodes) -> list[Number]:
    """The numbers of a tree that stand in its text."""
    numbers: dict[int, Number] = {}
    for node in walk(nodes):
        if isinstance(node, Stitch | Group):
            each = node.times
        elif isinstance(node, Fill) and node.leave is not None:
            each = node.leave
        elif not isinstance(node, Fill | Unknown) and hasattr(node, "change"):
            each = node.change
        else:
            continue
        if each.start >= 0:
            numbers.setdefault(each.start, each)
        if isinstance(node, Fill) and node.times is not None and node.times.start >= 0:
            numbers.setdefault(node.times.start, node.times)
    return list(numbers.values())


def _said(candidate: Candidate, count: int, column: int) -> int | None:
    said = [stated.after(count, column) for stated in candidate.stated]
    known = [each for each in said if each is not None]
    return known[-1] if known else None


def _swapped(nodes: Nodes, at: Stitch, name: StitchName) -> Nodes:
    from msgspec.structs import replace

    made = []
    for node in nodes:
        if isinstance(node, Group | Fill):
            made.append(replace(node, nodes=_swapped(node.nodes, at, name)))
        elif isinstance(node, Stitch) and node.start == at.start:
            made.append(replace(node, name=name))
        else:
            made.append(node)
    return tuple(made)


def _comes_out(repairs: Repairs, nodes: Nodes, candidate: Candidate, state: State) -> bool:
    for lane in state.lanes:
        said = _said(candidate, lane.count, lane.column)
        worked = repairs.work(nodes, lane.column, lane.count, {}, said, lane.sections)
        if worked is None or worked.used != lane.count or said not in (None, worked.left):
            return False
    return True


def _read_again(line: str, segment: Segment, width: int, text: str) -> list[Segment]:
    """The segments of an edited line."""
    made = segments(scan(line, width).tokens).segments
    return [
        Segment(
            each.label,
            each.phrases,
            each.start,
            each.end,
            segment.heading and place == 0,
            segment.told,
            each.troubles,
            each.alone,
        )
        for place, each in enumerate(made)
    ]


def _faults_of(faults: object, place: int, many: int) -> bool:
    """Whether something in these segments does not come out."""
    link = faults
    while link:
        link, fault = link  # type: ignore[misc]
        if fault.segment < place:
            return False
        if not fault.note and place <= fault.segment < place + many:
            return True
    return False


MOST_COMPARED: Final = 10
"""Rounds before and after a repaired one that it is compared with."""


def unlike(chain: Chain, first: int, stop: int) -> float:
    """How unlike its neighbours a repaired round is: in its stitches, in how many it takes away, in its columns."""
    mine: list[Round] = []
    others: list[Round] = []
    below: Round | None = None
    link = chain
    while link and len(others) < 4 * MOST_COMPARED:
        link, done = link
        if first <= done.segment < stop:
            mine.append(done.round)
        else:
            if mine and below is None:
                below = done.round
            if len(signature(done.round)) > 1 or done.round.before != done.round.after:
                others.append(done.round)
    if not mine:
        return 0.0
    cost = 0.0
    round_ = mine[-1]
    own, change = signature(round_), round_.after - round_.before
    alike = [each for each in others if (each.after != each.before) == bool(change)] or others
    if alike and (len(own) > 1 or change):
        cost += min(
            min(2.0, 0.5 * distance(own, signature(each)))
            + (0.6 if each.after - each.before != change else 0.0)
            for each in alike
        )
    if "sl" in own and change < 0 and not any("sl" in signature(each) for each in others):
        cost += 1.5
    if below is not None:
        cost += 1.5 * mismatch(below, round_)
    return cost


def signature(round_: Round) -> tuple[str, ...]:
    """The stitches of a round by name, every repeat once."""
    return tuple(_names(round_.steps))


def _names(steps: Steps) -> Iterator[str]:
    for step in steps:
        if isinstance(step, Work):
            yield step.stitch
        else:
            yield from _names(step.steps)


def distance(one: tuple[str, ...], other: tuple[str, ...]) -> int:
    """How many stitches have to be put in, left out or exchanged to make the one of the other."""
    one, other = one[:16], other[:16]
    row = list(range(len(other) + 1))
    for i, left in enumerate(one, start=1):
        last, row[0] = row[0], i
        for j, right in enumerate(other, start=1):
            last, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, last + (left != right))
    return row[-1]


def mismatch(below: Round, above: Round) -> float:
    """The share of stitches that are knitted over a purl or purled over a knit, where the round below has both."""
    under = "".join(_columns(below.steps, 1, 120))[:120]
    over = "".join(_columns(above.steps, 0, 120))[:120]
    if not ("k" in under and "p" in under) or not over:
        return 0.0
    many = min(len(under), len(over))
    return sum(a != b for a, b in zip(under, over, strict=False)) / many if many else 0.0


def _columns(steps: Steps, leaves: int, most: int) -> Iterator[str]:
    """`k` or `p` for the stitches that steps leave (or use, with `leaves` 0), up to about so many."""
    facts = uses_and_leaves()
    given = 0
    for step in steps:
        if given > most:
            return
        if isinstance(step, Work):
            kind = "p" if step.stitch in ("p", "p2tog", "ssp", "p3tog", "pfb", "m1p") else "k"
            part = kind * min(most, facts[step.stitch][leaves] * step.times)
            given += len(part)
            yield part
        else:
            once = "".join(_columns(step.steps, leaves, most))
            part = once * min(step.times, most // max(1, len(once)) + 1)
            given += len(part)
            yield part
