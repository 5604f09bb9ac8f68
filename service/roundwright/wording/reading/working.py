"""A tree worked on so many stitches: it becomes steps, by arithmetic alone.

A repeat is never written out, so the time does not grow with its times.
"""

from functools import cache
from itertools import pairwise
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
from roundwright.language import say
from roundwright.wording.reading.tree import (
    ONE,
    Evenly,
    Fill,
    Group,
    Mark,
    Node,
    Nodes,
    Number,
    Stitch,
    Unknown,
)
from roundwright.wording.reading.worked import (
    MOST_MARKERS,
    NO_CHANGES,
    OTHER_SECTIONS,
    USUAL_NEEDLES,
    USUAL_SECTIONS,
    Changes,
    Sections,
    UnclearError,
    Worked,
    has_fill,
    times,
    whole,
)


class _Part(NamedTuple):
    steps: Steps
    used: int
    left: int


@cache
def _once(name: StitchName) -> tuple[int, int]:
    return execute((Work(name),))


def without_first_turn(nodes: Nodes) -> Nodes:
    """The nodes without the first section, where the repeat that goes on to the end works the others alike.

    `K to 2 sts before marker, k2tog, *sm, k to 2 sts before next marker, k2tog; rep from * to end`.
    """
    first = nodes[0] if nodes else None
    if type(first) is not Fill or not first.marker:
        return nodes
    place = next(
        (place for place, node in enumerate(nodes) if type(node) is Fill and has_fill(node.nodes)), 0
    )
    again = nodes[place]
    section = tuple(node for node in nodes[:place] if type(node) is not Mark)
    if not place or type(again) is not Fill or again.marker or again.times is not None:
        return nodes
    repeated = tuple(node for node in again.nodes if type(node) is not Mark)
    return nodes[place:] if _are_alike(section, repeated) else nodes


def _are_alike(some: Nodes, others: Nodes) -> bool:
    """Whether the same stitches are told, wherever they stand in the text."""
    return len(some) == len(others) and all(
        _is_like(node, other) for node, other in zip(some, others, strict=True)
    )


def _is_like(node: Node, other: Node) -> bool:
    match node, other:
        case Stitch(), Stitch():
            return (node.name, node.times.values, node.bare) == (other.name, other.times.values, other.bare)
        case Fill(), Fill():
            far = [fill.leave.values if fill.leave is not None else None for fill in (node, other)]
            return node.marker == other.marker and far[0] == far[1] and _are_alike(node.nodes, other.nodes)
        case _:
            return False


class Worker:
    """Works trees for one size: `column` is its place in the lists, `sections` its markers."""

    def __init__(
        self,
        column: int,
        sections: Sections | None = None,
        changes: Changes = NO_CHANGES,
        wanted: int | None = None,
        per_section: int | None = None,
    ) -> None:
        self.column = column
        self.sections = sections
        self.changes = changes
        self.wanted = wanted  # the count that should be left, where it is printed
        self.per_section = (
            per_section  # the stitches that should be left in each section, where they are printed
        )
        self.assumed = False
        self.after: Sections | None = None
        self.marks: list[int] = []
        self.steps = 2  # nodes looked at, for the budget
        self.ragged = 0  # stitches between what was worked and the `last` stitches that were said

    def value(self, number: Number) -> int:
        """The number for this size, or what is tried in its place."""
        if self.changes:
            changed = self.changes.get(number.start)
            if isinstance(changed, int):
                return changed
        return number.of(self.column) or 0

    def work(self, nodes: Nodes, count: int) -> Worked:
        """The line worked on `count` stitches.

        It may use fewer, where some are left over, or more, where there are too few. Raises `UnclearError` where the
        line holds what cannot be worked.
        """
        steps: Steps = ()
        used = left = 0
        self.steps += len(nodes)
        nodes = without_first_turn(nodes)
        if pieces := self.pieces(nodes):
            return self.piecewise(pieces, count)
        for place, node in enumerate(nodes):
            if type(node) is Mark:
                self.marks.append(left)
                continue
            if type(node) is Fill:
                part = self.fill(node, nodes[place + 1 :], count - used, used)
            elif type(node) is Evenly:
                part = self.evenly(node, count - used, alone=len(nodes) == 1)
            elif type(node) is Group and has_fill(node.nodes):
                part = self.sectioned(node, count - used, used)
            else:
                part = self.fixed(node)
                self.mark_repeats(node, left, part.left)
            steps += part.steps
            used += part.used
            left += part.left
        if left > MOST_STITCHES and used <= count:
            raise UnclearError(
                "too_many_stitches",
                say("read.too_many_stitches", most=MOST_STITCHES),
                nodes[0].start,
            )
        if len(steps) > MOST_STEPS:
            raise UnclearError("too_long", say("read.too_many_steps", most=MOST_STEPS), nodes[0].start)
        if self.ragged and used == count:
            used -= self.ragged
        sections = self.marked(left) if self.marks and used == count else self.after
        return Worked(steps, used, left, sections, self.assumed)

    def marked(self, left: int) -> Sections:
        """The sections between the markers placed in this line."""
        cuts = [*self.marks, left]
        sections = [stop - start for start, stop in pairwise([0, *cuts])]
        return whole(tuple([section for section in sections if section]))

    def mark_repeats(self, group: Node, begin: int, left: int) -> None:
        """Keep the markers that stand in each repeat of a group: `(k24, pm) 4 times`; it leaves `left` stitches."""
        if type(group) is not Group or Mark not in [type(node) for node in group.nodes]:
            return
        number = self.value(group.times) + group.extra
        offsets: list[int] = []
        once = 0
        for node in group.nodes:
            if type(node) is Mark:
                offsets.append(once)
            else:
                once += self.fixed(node).left
        turns = range(min(number, MOST_MARKERS)) if once * number == left else ()
        self.marks.extend([begin + once * turn + offset for turn in turns for offset in offsets])

    # --- of fixed length

    def fixed(self, node: Node) -> _Part:
        """Something that uses the same stitches wherever it stands."""
        if type(node) is Stitch:
            name = node.name
            if self.changes:
                changed = self.changes.get(node.start)
                if isinstance(changed, str):
                    name = changed
            number = self.value(node.times)
            uses, leaves = _once(name)
            return _Part((Work(name, number),) if number else (), uses * number, leaves * number)
        if type(node) is Group:
            return self.repeated(node)
        if type(node) is Mark:
            return _Part((), 0, 0)
        if type(node) is Unknown:
            raise UnclearError("unknown_word", say("read.unknown", word=node.word), node.start)
        raise UnclearError("not_understood", say("read.to_the_end_in_repeat"), node.start)

    def repeated(self, group: Group) -> _Part:
        """A group so many times, and perhaps a part of it once more."""
        once = self.several(group.nodes)
        number = self.value(group.times) + group.extra
        part = self.value(group.part) if group.part else 0
        if not number or not once.steps:
            return _Part((), 0, 0)
        if part:
            steps: Steps = (Repeat(number, once.steps, part),)
            try:
                return _Part(steps, *execute(steps))
            except Impossible as error:
                raise UnclearError("not_understood", error.detail, group.start) from error
        return _Part(times(number, once.steps), once.used * number, once.left * number)

    def several(self, nodes: Nodes) -> _Part:
        """Several nodes of fixed length, once."""
        steps: list[Step] = []
        used = left = 0
        self.steps += len(nodes)
        for node in nodes:
            part = self.fixed(node)
            steps.extend(part.steps)
            used += part.used
            left += part.left
        if len(steps) > MOST_STEPS:
            raise UnclearError(
                "too_long", say("read.too_many_steps_together", most=MOST_STEPS), nodes[0].start
            )
        return _Part(tuple(steps), used, left)

    # --- to the end, or to a marker

    def fill(self, fill: Fill, rest: Nodes, count: int, used: int) -> _Part:
        """Something over and over, as far as it is said, or to what the rest of the line uses."""
        if has_fill(fill.nodes):
            return self.sectioned(fill, count, used)
        if fill.marker and self.sections and len(self.sections) > 1 and fill.leave is not None:
            raise UnclearError("not_understood", say("read.which_marker"), fill.start)
        once = self.several(fill.nodes)
        if not once.used:
            message = say("read.uses_none")
            raise UnclearError("never_ends", message, fill.start)
        leave = self.left_at_end(fill, rest)
        number = max(0, count - leave) // once.used
        if (
            fill.leave is not None
            and (fill.leave.start >= 0 or fill.leave == ONE)
            and leave
            and not fill.marker
        ):
            self.ragged = max(0, count - leave) % once.used
        if fill.times is not None:
            number = self.value(fill.times)
        if not number:
            if used and not count and len(fill.nodes) > 1 and fill.times is None:
                raise UnclearError("not_understood", say("read.none_left"), fill.start)
            return _Part((), 0, 0)
        if number > 1 and Mark in [type(node) for node in fill.nodes]:
            last = number + bool(leave)  # the last marker is that at the end of the round, where none is left
            self.marks.extend([once.left * turn for turn in range(1, min(last, MOST_MARKERS))])
        only = fill.nodes[0] if len(fill.nodes) == 1 else None
        if type(only) is Stitch and only.bare:
            steps = times(number, once.steps)
        else:
            steps = once.steps if number == 1 else (Repeat(number, once.steps),)
        return _Part(steps, once.used * number, once.left * number)

    def left_at_end(self, fill: Fill, rest: Nodes) -> int:
        """How many stitches are not to be used by something that goes on."""
        if fill.leave is None:
            return self.behind(rest)
        if not fill.marker:
            return self.value(fill.leave)
        leave, behind = self.value(fill.leave), self.behind(rest)
        over = any(_is_centred(node, leave) for node in rest) or self.passes_marker(rest, leave)
        if leave and behind > leave and not over:
            message = say("read.beyond_marker", behind=behind, leave=leave)
            raise UnclearError("runs_out", message, fill.start)
        return max(behind, leave)

    def passes_marker(self, rest: Nodes, leave: int) -> bool:
        """Whether a decrease ends at the marker and its mirror follows: `k2tog, sm, ssk`, 2 before the marker."""
        if len(rest) < 2 or type(rest[0]) is not Stitch or type(rest[1]) is not Stitch:
            return False
        before, after = self.fixed(rest[0]), self.fixed(rest[1])
        paired = (before.used, before.left) == (after.used, after.left)
        return paired and before.used == leave and before.left < leave

    def behind(self, rest: Nodes) -> int:
        """What the rest of a line uses, where that is fixed."""
        used = 0
        for node in rest:
            if type(node) in _FILLS or (type(node) is Group and has_fill(node.nodes)):
                raise UnclearError(
                    "not_understood",
                    say("read.how_far_before_another"),
                    node.start,
                )
            used += self.fixed(node).used
        return used

    # --- from marker to marker

    def pieces(self, nodes: Nodes) -> list[list[Node]]:
        """The sections of a line that goes on to one marker after the other; empty where it is no such line."""
        nodes = self.unrolled(nodes)
        fills = [node for node in nodes if type(node) is Fill and not has_fill(node.nodes)]
        if len(fills) < 2 or not all(fill.marker for fill in fills[:-1]):
            return []
        pieces: list[list[Node]] = [[]]
        behind = 0  # stitches to the marker behind what goes on towards it
        for node in nodes:
            if behind or not _ends_at_marker(pieces[-1]):
                pieces[-1].append(node)
            else:
                pieces.append([node])
            if type(node) is Fill:
                behind = self.value(node.leave) if node.marker and node.leave is not None else 0
            elif behind:
                behind = max(0, behind - self.fixed(node).used)
        single = all(sum(type(node) is Fill for node in piece) < 2 for piece in pieces)
        return pieces if len(pieces) > 1 and single else []

    def unrolled(self, nodes: Nodes) -> Nodes:
        """The nodes, with those of a repeat behind the first marker told one by one.

        `k to 2 sts before first marker, k2tog, [k to 2 sts before next marker, k2tog] 5 times`.
        """
        first = next((node for node in nodes if type(node) is Fill), None)
        if first is None or not first.marker or has_fill(first.nodes):
            return nodes
        made: list[Node] = []
        for node in nodes:
            often = 0
            if type(node) is Group and node.part is None and has_fill(node.nodes):
                often = self.value(node.times) + node.extra
            if 1 < often <= MOST_MARKERS and type(node) is Group:
                made.extend(node.nodes * often)
            else:
                made.append(node)
        return tuple(made) if len(made) > len(nodes) else nodes

    def piecewise(self, pieces: list[list[Node]], count: int) -> Worked:
        """The sections of a line, each worked on its own stitches."""
        sections = self.sections
        if sections is None or len(sections) != len(pieces) or sum(sections) != count:
            self.assumed = True
            sections = self.assumed_sections(pieces, count)
        parts = [self.section(tuple(piece), section) for piece, section in zip(pieces, sections, strict=True)]
        steps = tuple([step for part in parts for step in part.steps])
        after = tuple([part.left for part in parts])
        return Worked(steps, sum(part.used for part in parts), sum(after), after, self.assumed)

    def assumed_sections(self, pieces: list[list[Node]], count: int) -> Sections:
        """The sections where none are placed: all alike, or those of a toe on three needles, sole, instep, sole.

        The middle needle of a toe changes by twice as many stitches as the first and the last, and has as many.
        """
        if len(pieces) == len(_OF_TOE) and not count % sum(_OF_TOE):
            quarter = count // sum(_OF_TOE)
            shares = tuple([quarter * share for share in _OF_TOE])
            parts = [self.section(tuple(piece), share) for piece, share in zip(pieces, shares, strict=True)]
            first, middle, last = (part.used - part.left for part in parts)
            if first and first == last and middle == first + last:
                return shares
        if count % len(pieces):
            message = say("read.unequal_sections", stitches=count, sections=len(pieces))
            raise UnclearError("left_over", message, pieces[0][0].start)
        return (count // len(pieces),) * len(pieces)

    # --- in every section

    def sectioned(self, node: Group | Fill, count: int, used: int) -> _Part:
        """Something that is worked in every section between two markers."""
        sections = self.parted(node, count, used)
        number = len(sections)
        if len(set(sections)) == 1:
            part = self.section(node.nodes, sections[0])
            if part.used == sections[0]:
                self.after = (part.left,) * number
            return _Part(times(number, part.steps), part.used * number, part.left * number)
        parts = [self.section(node.nodes, section) for section in sections]
        self.after = tuple([part.left for part in parts])
        steps = tuple([step for part in parts for step in part.steps])
        return _Part(steps, sum(part.used for part in parts), sum(part.left for part in parts))

    def section(self, nodes: Nodes, count: int) -> Worked:
        """What is worked in one section."""
        worker = Worker(self.column, None, self.changes)
        try:
            return worker.work(nodes, count)
        finally:
            self.steps += worker.steps

    def parted(self, node: Group | Fill, count: int, used: int) -> Sections:
        """The sections it is worked in: those placed, so many as it is repeated, or the usual."""
        number = self.value(node.times) if node.times is not None else 0
        if type(node) is Group:
            number = number + node.extra or 1
        placed = self.sections
        fits = placed and sum(placed) == count and not used and number in (0, len(placed))
        if placed and fits and (number or self.comes_out(node, placed)):
            return placed
        leave = 0
        if type(node) is Fill and node.leave is not None and not node.marker:
            leave = self.value(node.leave)
        count -= leave
        if not number:
            self.assumed = True
            return self.usual_sections(node, count, leave)
        if number > MOST_MARKERS:
            raise UnclearError("not_understood", say("read.too_many_sections"), node.start)
        if count % number:
            message = say("read.unequal_sections", stitches=count, sections=number)
            raise UnclearError("left_over", message, node.start)
        return (count // number,) * number

    def comes_out(self, node: Group | Fill, sections: Sections) -> bool:
        """Whether these sections leave the count that is printed, where there is one."""
        if self.wanted is None or len(set(sections)) > 1 or sections[0] * len(sections) < self.wanted:
            return True
        try:
            part = self.section(node.nodes, sections[0])
        except UnclearError:
            return True
        return part.left * len(sections) == self.wanted or part.used != sections[0]

    def usual_sections(self, node: Group | Fill, count: int, leave: int) -> Sections:
        """So many sections that the printed count comes out, or else the usual number."""
        usual = USUAL_NEEDLES if type(node) is Fill and node.needle else USUAL_SECTIONS
        if self.wanted is not None or self.per_section is not None:
            possible: list[int] = [*usual, *OTHER_SECTIONS]
            for number in possible:
                section = count // number
                if count % number or section < 2:
                    continue
                try:
                    part = self.section(node.nodes, section)
                except UnclearError:
                    continue
                wanted = self.per_section if self.wanted is None else (self.wanted - leave) / number
                if part.used == section and part.left == wanted:
                    return (section,) * number
        for number in usual:
            if count % number == 0 and count // number > 1:
                return (count // number,) * number
        raise UnclearError("not_understood", say("read.where_markers"), node.start)

    # --- evenly

    def evenly(self, evenly: Evenly, count: int, *, alone: bool) -> _Part:
        """Changes spread over the whole round."""
        if not alone:
            message = say("read.evenly_alone")
            raise UnclearError("not_understood", message, evenly.start)
        number = self.value(evenly.change)
        sign = evenly.sign
        if evenly.to:
            sign = 1 if number > count else -1
            number = abs(number - count)
        one_size = len(evenly.change.values) == 1
        if number == 0 and not (one_size and evenly.sign):  # inc 4 (0, 8, 4) sts evenly, adjust to 90 sts
            plain = (Work("k", count),)
            return _Part(plain, *execute(plain))
        method: StitchName = evenly.method or ("k2tog" if sign < 0 else "m1")
        if not 0 < number <= most_changes(count, method):
            message = say("read.changes_do_not_fit", changes=number, stitches=count)
            raise UnclearError("not_understood", message, evenly.start)
        steps = spread(count, number, method)
        self.steps += 10 + len(steps)
        return _Part(steps, *execute(steps))


def fits_any_count(nodes: Nodes) -> bool:
    """Whether the line comes out on every count, as a plain round does: then it says nothing about the count."""
    for node in nodes:
        if type(node) is Fill and not has_fill(node.nodes):
            try:
                if Worker(0).several(node.nodes).used == 1 and node.times is None:
                    return True
            except UnclearError:
                return False
    return False


def _ends_at_marker(piece: list[Node]) -> bool:
    """Whether something in it goes on to a marker."""
    return any(type(node) is Fill and node.marker for node in piece)


def _is_centred(node: Node, leave: int) -> bool:
    """Whether it is worked over the marker: a double decrease, or a marked stitch that is worked itself.

    `K3tog` is one stitch before the marked one, and may be a slip of `k2tog` farther from it.
    """
    over = ("cdd", "sk2p", "k", "p", "sl", *(("k3tog", "sssk") if leave == 1 else ()))
    return type(node) is Stitch and node.name in over


_FILLS: Final = frozenset((Fill, Evenly))
_OF_TOE: Final = (1, 2, 1)
"""Quarters of the round on the needles of a toe."""
