"""A line worked on so many stitches: its tree becomes steps, by arithmetic alone.

A repeat is never written out, so the time does not grow with its times.
"""

from collections.abc import Mapping
from functools import cache
from typing import Final, NamedTuple

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import (
    MOST_STEPS,
    MOST_STITCHES,
    Repeat,
    Step,
    Steps,
    StitchName,
    Work,
    execute,
)
from roundwright.knitting.rounds.spread import most_changes, spread
from roundwright.wording.reading.tree import (
    Evenly,
    Fill,
    Group,
    Node,
    Nodes,
    Number,
    Stitch,
    Trouble,
    Unknown,
)


class UnclearError(Exception):
    """A line that cannot be worked as it stands, whatever the count."""

    def __init__(self, code: str, message: str, start: int) -> None:
        super().__init__(message)
        self.trouble = Trouble(code, message, start)


Changes = Mapping[int, int | StitchName]
"""Other values for numbers and stitches, by the place where those stand in the line: a repair being tried."""

NO_CHANGES: Final[Changes] = {}


class _Part(NamedTuple):
    """Part of a line: its steps and what they use and leave, once."""

    steps: Steps
    used: int
    left: int


class _Fill(NamedTuple):
    """A part that is worked over and over, to the last `leave` stitches; None: to as many as what follows uses."""

    part: _Part
    leave: int | None
    whole: bool  # one stitch that goes on: `k to end`


Plan = tuple[_Part | _Fill | Evenly, ...]
"""A line with the numbers of one size put in."""


class Worked(NamedTuple):
    """A line worked on some stitches: its steps, how many stitches they use and how many they leave."""

    steps: Steps
    used: int
    left: int


def plan(nodes: Nodes, column: int, changes: Changes = NO_CHANGES) -> Plan:
    """The line for the size in this column. Raises `UnclearError` where it holds what cannot be worked."""
    parts: list[_Part | _Fill | Evenly] = []
    for node in nodes:
        if isinstance(node, Fill):
            parts.append(_fill(node, column, changes))
        elif isinstance(node, Evenly):
            parts.append(node)
        elif isinstance(node, Group) and node.times.of(0) == 1 and not node.extra and _fills(node):
            parts.extend(plan(node.nodes, column, changes))
        else:
            parts.append(_fixed(node, column, changes))
    if any(isinstance(part, Evenly) for part in parts) and len(parts) > 1:
        start = next(node.start for node in nodes if isinstance(node, Evenly))
        raise UnclearError(
            "not_understood", "Changes spread evenly are read as a whole round of their own.", start
        )
    return _together(parts)


def _together(parts: list[_Part | _Fill | Evenly]) -> Plan:
    """The parts, with neighbours of fixed length made one."""
    made: list[_Part | _Fill | Evenly] = []
    for part in parts:
        last = made[-1] if made else None
        if type(part) is _Part and type(last) is _Part:
            made[-1] = _Part(last.steps + part.steps, last.used + part.used, last.left + part.left)
        else:
            made.append(part)
    return tuple(made)


def _fills(group: Group) -> bool:
    return any(isinstance(node, Fill) or (isinstance(node, Group) and _fills(node)) for node in group.nodes)


def _value(number: Number, column: int, changes: Changes) -> int:
    changed = changes.get(number.start) if changes else None
    if isinstance(changed, int):
        return changed
    return number.of(column) or 0


@cache
def _once(name: StitchName) -> tuple[int, int]:
    return execute((Work(name),))


def _fixed(node: Node, column: int, changes: Changes) -> _Part:
    match node:
        case Stitch(name, times, start):
            changed = changes.get(start) if changes else None
            if isinstance(changed, str):
                name = changed
            many = _value(times, column, changes)
            uses, leaves = _once(name)
            return _Part((Work(name, many),) if many else (), uses * many, leaves * many)
        case Group():
            return _repeated(node, column, changes)
        case Unknown(word, start):
            raise UnclearError("unknown_word", f"“{word}” is not known.", start)
        case Fill() | Evenly():
            raise UnclearError(
                "not_understood",
                "What goes on to the end of the round cannot be repeated within it.",
                node.start,
            )


def _repeated(group: Group, column: int, changes: Changes) -> _Part:
    once = _several(group.nodes, column, changes)
    many = _value(group.times, column, changes) + group.extra
    part = _value(group.part, column, changes) if group.part else 0
    if not many or not once.steps:
        return _Part((), 0, 0)
    if part:
        steps: Steps = (Repeat(many, once.steps, part),)
        try:
            return _Part(steps, *execute(steps))
        except Impossible as error:
            raise UnclearError("not_understood", error.detail, group.start) from error
    return _Part(_times(many, once.steps), once.used * many, once.left * many)


def _times(many: int, steps: Steps) -> Steps:
    if many == 1:
        return steps
    match steps:
        case (Work(stitch, 1),):
            return (Work(stitch, many),)
    return (Repeat(many, steps),)


def _several(nodes: Nodes, column: int, changes: Changes) -> _Part:
    steps: list[Step] = []
    used = left = 0
    for node in nodes:
        part = _fixed(node, column, changes)
        steps.extend(part.steps)
        used += part.used
        left += part.left
    if len(steps) > MOST_STEPS:
        raise UnclearError("too_long", f"More than {MOST_STEPS} steps side by side.", nodes[0].start)
    return _Part(tuple(steps), used, left)


def _fill(fill: Fill, column: int, changes: Changes) -> _Fill:
    part = _several(fill.nodes, column, changes)
    if not part.used:
        raise UnclearError(
            "never_ends", "This uses no stitches, so going on with it never reaches the end.", fill.start
        )
    leave = None if fill.leave is None else _value(fill.leave, column, changes)
    match fill.nodes:
        case (Stitch(bare=True),):
            return _Fill(part, leave, whole=True)
    return _Fill(part, leave, whole=False)


def work(parts: Plan, count: int) -> Worked:
    """The line worked on `count` stitches.

    It may use fewer, where some are left over, or more, where there are too few. Raises `UnclearError` where the line
    holds what cannot be worked on this count.
    """
    used = left = 0
    steps: Steps = ()
    for place, part in enumerate(parts):
        if type(part) is _Part:
            steps += part.steps
            used += part.used
            left += part.left
        elif type(part) is _Fill:
            leave = _after(parts[place + 1 :]) if part.leave is None else part.leave
            many = max(0, count - used - leave) // part.part.used
            if many:
                steps += _filled(part, many)
                used += part.part.used * many
                left += part.part.left * many
        elif isinstance(part, Evenly):
            steps, used, left = _spread(part, count)
    if left > MOST_STITCHES and used <= count:
        raise UnclearError("too_many_stitches", f"More than {MOST_STITCHES:,} stitches.", 0)
    if len(steps) > MOST_STEPS:
        raise UnclearError("too_long", f"More than {MOST_STEPS} steps in a round.", 0)
    return Worked(steps, used, left)


def _filled(fill: _Fill, many: int) -> Steps:
    steps = fill.part.steps
    if fill.whole:
        return _times(many, steps)
    return steps if many == 1 else (Repeat(many, steps),)


def _after(parts: Plan) -> int:
    """What the rest of a line uses, where that is fixed."""
    used = 0
    for part in parts:
        if type(part) is not _Part:
            raise UnclearError(
                "not_understood", "It is not said how far this goes, and what follows goes on as well.", 0
            )
        used += part.used
    return used


def _spread(evenly: Evenly, count: int) -> Worked:
    many = evenly.change.of(0) or 0
    method: StitchName = "k2tog" if evenly.sign < 0 else "m1"
    if not 0 < many <= most_changes(count, method):
        raise UnclearError(
            "not_understood", f"{many} changes do not fit into {count} stitches.", evenly.start
        )
    steps = spread(count, many, method)
    return Worked(steps, *execute(steps))


def fits_any_count(parts: Plan) -> bool:
    """Whether the line comes out on every count, as a plain round does: then it says nothing about the count."""
    return any(type(part) is _Fill and part.part.used == 1 for part in parts)
