"""The smallest change that makes a line come out.

Changes are tried by arithmetic on the tree of the line; the one chosen is written into the text, read again and worked
for every size before it is offered.
"""

from collections.abc import Iterator, Mapping
from typing import Final, Literal, NamedTuple

from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import StitchName
from roundwright.knitting.rounds.spread import most_changes, spread
from roundwright.wording.proofreading.evaluate import NO_CHANGES, Changes, UnclearError, Worked, plan, work
from roundwright.wording.proofreading.outcome import Outcome, Outcomes
from roundwright.wording.reading import parser as grammar
from roundwright.wording.reading import vocabulary as words
from roundwright.wording.reading.meaning import LARGEST
from roundwright.wording.reading.tree import (
    ONE,
    Body,
    Fill,
    Group,
    Nodes,
    Number,
    Stated,
    Stitch,
    Unknown,
    walk,
)
from roundwright.wording.writing.size_lists import size_list

MOST_TRIED: Final = 800
"""Changes tried for one text: the first faults are repaired, those that follow from them need not be."""
_USUAL: Final = 5
"""Stitches and brackets of a usual line: trying a longer one counts for more."""
_MOST_PLACES: Final = 12
"""Numbers, and stitches, of one line that are tried."""
_MOST_MENDS: Final = 6
"""Repairs of one fault that are weighed against each other."""
_NEAR: Final = (1, -1, 2, -2, 3, -3)
"""How far a number is moved where a repeat goes on to the end and nothing can be solved for."""

EditKind = Literal["number", "tail", "add", "text"]


class Edit(NamedTuple):
    """A change to the text from `start` to `end`: another number, stitches put at the end, another word."""

    kind: EditKind
    start: int
    end: int
    value: int = 0
    text: str = ""

    @property
    def shape(self) -> tuple[EditKind, int, int, str]:
        """What is the same about this change in all sizes."""
        return self.kind, self.start, self.end, self.text


class Mend(NamedTuple):
    """Changes to a line that make it come out for one size, with the count it then leaves."""

    edits: tuple[Edit, ...]
    left: int

    @property
    def shape(self) -> tuple[object, ...]:
        """What is the same about it in all sizes."""
        return tuple(edit.shape for edit in self.edits)


class Mender:
    """Looks for repairs, and for one text no longer than its share."""

    def __init__(self) -> None:
        self.left = MOST_TRIED
        self.weight = 1

    def mends(self, outcome: Outcome, stated: Stated | None) -> list[Mend]:
        """Repairs of a line for one size, the smallest first."""
        if self.left <= 0:
            return []
        self.weight = 1 + sum(1 for _ in walk(outcome.nodes)) // _USUAL
        found: list[Mend] = []
        for mend in self._all(outcome, stated):
            if all(mend.edits != one.edits for one in found):
                found.append(mend)
            if len(found) == _MOST_MENDS:
                break
        return found

    def _all(self, outcome: Outcome, stated: Stated | None) -> Iterator[Mend]:
        if outcome.worked is None:
            yield from self._words(outcome)
            return
        if outcome.whole:
            if turned(outcome):
                yield from self._other_stitches(outcome)
            yield from self._numbers(outcome)
            yield from _restated(outcome.worked.left, outcome, stated)
            yield from self._other_stitches(outcome)
        else:
            loose = outcome._replace(stated=None)
            yield from self._numbers(outcome)
            yield from self._ends(outcome)
            if outcome.stated is not None:
                said = outcome.stated
                near = sorted(
                    (*self._numbers(loose), *self._ends(loose)), key=lambda one: abs(one.left - said)
                )
                for mend in near:
                    for again in _restated(mend.left, outcome, stated):
                        yield Mend(mend.edits + again.edits, mend.left)
        yield from _evenly(outcome)

    def may_try(self) -> bool:
        """Whether one more trial is in the share; it is counted."""
        self.left -= self.weight
        return self.left >= 0

    # --- one number

    def _try(self, outcome: Outcome, changes: Changes) -> Worked | None:
        if not self.may_try():
            return None
        try:
            return work(plan(outcome.nodes, outcome.column, changes), outcome.before)
        except UnclearError:
            return None

    def _numbers(self, outcome: Outcome, base: Changes = NO_CHANGES) -> list[Mend]:
        """Another value for one number, the nearest first."""
        found = []
        for number in _numbers(outcome.nodes)[:_MOST_PLACES]:
            value = number.of(outcome.column) or 0
            for other in self._values(outcome, number, value, base):
                worked = self._try(outcome, {**base, number.start: other})
                if worked and worked.used == outcome.before and outcome.stated in (None, worked.left):
                    edit = Edit("number", number.start, number.end, other)
                    found.append((abs(other - value), Mend((edit,), worked.left)))
                    break
        usual = outcome.worked.left if outcome.worked else 0
        return [mend for _, mend in sorted(found, key=lambda one: (one[0], abs(one[1].left - usual)))]

    def _values(self, outcome: Outcome, number: Number, value: int, base: Changes) -> list[int]:
        """Values of one number that may let the line come out."""
        if any(isinstance(node, Fill) for node in outcome.nodes):
            return [value + by for by in _NEAR if value + by > 0]
        here, above = (self._try(outcome, {**base, number.start: value + by}) for by in (0, 1))
        if here is None or above is None:
            return []
        slope, lacking = above.used - here.used, outcome.before - here.used
        if not slope and outcome.stated is not None:
            slope, lacking = above.left - here.left, outcome.stated - here.left
        if not slope or lacking % slope:
            return []
        other = value + lacking // slope
        return [other] if 0 < other <= LARGEST else []

    # --- the end of the round

    def _ends(self, outcome: Outcome) -> Iterator[Mend]:
        """Stitches left over are knitted at the end."""
        worked, over, nodes = outcome.worked, outcome.over, outcome.nodes
        if worked is None or over <= 0 or not nodes or outcome.stated not in (None, worked.left + over):
            return
        left = worked.left + over
        match nodes:
            case [*_, Fill(leave=leave, said=(start, end))] if leave is None or not leave.of(outcome.column):
                yield Mend((Edit("tail", start, end, over),), left)
            case [*_, Fill(leave=Number() as leave), Stitch("k", times)] if (
                leave.start >= 0 and times.start >= 0
            ):
                far, many = (number.of(outcome.column) or 0 for number in (leave, times))
                if far == many:
                    edits = (
                        Edit("number", leave.start, leave.end, far + over),
                        Edit("number", times.start, times.end, many + over),
                    )
                    yield Mend(edits, left)
            case _ if not any(isinstance(node, Fill) for node in nodes):
                end = nodes[-1].end
                yield Mend((Edit("add", end, end, over),), left)

    # --- other stitches, other words

    def _other_stitches(self, outcome: Outcome) -> Iterator[Mend]:
        """A decrease for an increase, or the other way round, with one number changed to fit."""
        if outcome.stated is None:
            return
        fewer = outcome.stated < outcome.before
        for stitch in _stitches(outcome.nodes)[:_MOST_PLACES]:
            row = reference.stitches()[stitch.name]
            if (row.leaves > row.uses) if fewer else (row.leaves < row.uses):
                name: StitchName = "k2tog" if fewer else "m1"
                swap: Changes = {stitch.start: name}
                edit = Edit("text", stitch.start, stitch.end, text=name)
                worked = self._try(outcome, swap)
                if worked and worked.used == outcome.before and worked.left == outcome.stated:
                    yield Mend((edit,), worked.left)
                for mend in self._numbers(outcome, swap):
                    yield Mend((edit, *mend.edits), mend.left)

    def _words(self, outcome: Outcome) -> Iterator[Mend]:
        """The nearest known word for the first unknown one."""
        self.left -= 50  # looking for a word takes as long as so many trials
        for node in walk(outcome.nodes):
            if isinstance(node, Unknown):
                near = words.nearest(node.word)
                if near:
                    yield Mend(
                        (Edit("text", node.start, node.end, text=near),), self._left(outcome, node, near)
                    )
                return

    def _left(self, outcome: Outcome, unknown: Unknown, word: str) -> int:
        """What the line leaves with a known word for an unknown one; -1 where that cannot be said."""
        name = words.stitch_names().get(word)
        if name is None:
            return -1
        stitch = Stitch(name, ONE, unknown.start, unknown.end)
        worked = self._try(outcome._replace(nodes=_with(outcome.nodes, stitch)), NO_CHANGES)
        return worked.left if worked and worked.used == outcome.before else -1


def turned(outcome: Outcome) -> bool:
    """Whether a line adds stitches where it says it takes them away, or the other way round."""
    if outcome.worked is None or outcome.stated is None:
        return False
    return (outcome.worked.left - outcome.before) * (outcome.stated - outcome.before) < 0


def _restated(left: int, outcome: Outcome, stated: Stated | None) -> Iterator[Mend]:
    """Another count at the end of the line."""
    if stated is not None and stated.number.start >= 0:
        value = abs(left - outcome.before) if stated.sign else left
        yield Mend((Edit("number", stated.number.start, stated.number.end, value),), left)


def _evenly(outcome: Outcome) -> Iterator[Mend]:
    """The line written anew, its changes spread evenly: the last resort."""
    if outcome.stated is None or not outcome.nodes:
        return
    change = outcome.stated - outcome.before
    method: StitchName = "k2tog" if change < 0 else "m1"
    if abs(change) <= most_changes(outcome.before, method) and outcome.before:
        text = written_line(spread(outcome.before, abs(change), method))
        yield Mend((Edit("text", outcome.nodes[0].start, _end(outcome.nodes), text=text),), outcome.stated)


def _with(nodes: Nodes, stitch: Stitch) -> Nodes:
    """The line with a stitch where an unknown word stands."""
    return tuple(
        replace(node, nodes=_with(node.nodes, stitch))
        if isinstance(node, Group | Fill)
        else stitch
        if node.start == stitch.start
        else node
        for node in nodes
    )


def _end(nodes: Nodes) -> int:
    last = nodes[-1]
    return max(last.end, last.said[1]) if isinstance(last, Fill) else last.end


def _numbers(nodes: Nodes) -> list[Number]:
    """The numbers of a line that stand in its text."""
    numbers: dict[int, Number] = {}
    for node in walk(nodes):
        match node:
            case Stitch(times=number) | Group(times=number) | Fill(leave=Number() as number):
                if number.start >= 0:
                    numbers.setdefault(number.start, number)
    return list(numbers.values())


def _stitches(nodes: Nodes) -> list[Stitch]:
    return [node for node in walk(nodes) if isinstance(node, Stitch) and node.times.start < 0]


# --- written into the text --------------------------------------------------------------------------------------------


def written(
    text: str, nodes: Nodes, stated: Stated | None, mends: Mapping[int, Mend], width: int
) -> str | None:
    """The text with the changes of some sizes, by their column; None where those do not go together.

    `width` is the number of sizes the line is written for. A number may change for some of them; other words are the
    same for all.
    """
    numbers = {number.start: number for number in _numbers(nodes)}
    if stated is not None:
        numbers[stated.number.start] = stated.number
    edits: dict[tuple[int, int], dict[int, Edit]] = {}
    for column, mend in mends.items():
        for edit in mend.edits:
            edits.setdefault((edit.start, edit.end), {})[column] = edit
    behind = len(text)
    for (start, end), by_column in sorted(edits.items(), reverse=True):
        edit = next(iter(by_column.values()))
        if end > behind or any(other.shape != edit.shape for other in by_column.values()):
            return None
        if edit.kind == "text" and len(by_column) < len(mends):
            return None
        values = {column: other.value for column, other in by_column.items()}
        text = text[:start] + _put(text, edit, values, numbers, width) + text[end:]
        behind = start
    return text


def _put(
    text: str,
    edit: Edit,
    values: Mapping[int, int],
    numbers: Mapping[int, Number],
    width: int,
) -> str:
    if edit.kind == "text":
        return edit.text
    if edit.kind == "number":
        number = numbers[edit.start]
        new = size_list(_or_dash(values.get(column, number.of(column))) for column in range(width))
        return f"{new} times" if text[edit.start : edit.end].lower() in ("once", "twice", "thrice") else new
    everywhere = len(values) == width and len(set(values.values())) == 1
    value = next(iter(values.values()))
    count = str(value) if everywhere else size_list(values.get(column, 0) for column in range(width))
    if edit.kind == "add":
        return f", k{count}"
    space = " " if edit.start and not text[edit.start - 1].isspace() else ""
    return f"{space}to last {'st' if count == '1' else f'{count} sts'}, k{count}"


def _or_dash(value: int | None) -> str:
    return "-" if value is None else str(value)


def proved(text: str, counts: Mapping[int, int]) -> Body | None:
    """The text read again, if it comes out on these counts, by column; otherwise None."""
    body = grammar.parse_body(list(words.scan(text)))
    if body.troubles:
        return None
    outcomes = Outcomes()
    right = all(outcomes.best(body, (column,), count).right for column, count in counts.items())
    return body if right else None
