"""The phrases of a round put together, in one way to understand them."""

from collections.abc import Callable, Mapping
from typing import Any, Final

from msgspec import Struct

from roundwright.knitting.rounds.round import StitchName
from roundwright.language import say
from roundwright.wording.reading.phrases import (
    Brackets,
    Count,
    Extent,
    Needlewise,
    Partly,
    PassOver,
    Phrase,
    Rep,
    Said,
    Star,
    Stitches,
    Times,
    Until,
)
from roundwright.wording.reading.sectioned import in_each
from roundwright.wording.reading.tokens import COMMA, DASH, STOP, THEN
from roundwright.wording.reading.tree import (
    NOTHING,
    ONE,
    Evenly,
    Fill,
    Group,
    Mark,
    Node,
    Nodes,
    Stitch,
)

_PASSED: Final[dict[tuple[int, StitchName, int], StitchName]] = {
    (1, "k", 1): "skp",
    (1, "k2tog", 1): "sk2p",
    (2, "k", 1): "cdd",
}
"""Slipped, knitted over, how often: the decrease that passing over makes of them."""

MOST_NESTED: Final = 12
"""Repeats of repeats."""


def _is_to_marker(node: Node) -> bool:
    """Whether it goes on to a marker: then what is repeated is all of the section."""
    return type(node) is Fill and node.marker


def _shapes(node: Node) -> bool:
    """Whether it is a decrease or an increase."""
    return type(node) is Stitch and node.name not in _PLAIN


class _Pending(Struct):
    """Something that waits to hear how often: `rep from *`, or a pair of stars.

    With `copy` it stands further up in the line, and is worked again here.
    """

    nodes: Nodes
    at: int
    start: int
    end: int
    copy: bool = False


class SettledRound:
    """A round as far as it has been settled, in one way."""

    def __init__(
        self,
        phrases: tuple[Phrase, ...],
        *,
        whole: bool,
        extra: int,
        then: bool = False,
        apart: bool = False,
    ) -> None:
        self.whole = whole
        self.apart = (
            apart  # whether `k4, p2tog twice, to the end` repeats the last stitch twice and all to the end
        )
        self.counted = False  # whether it may
        self.extra = extra
        self.then = then  # whether `then` ends what was said: `k1, then k2tog to the end`
        self.splits = False  # whether it may; `k2 k2tog, then k1 k2tog` are two rounds
        self.to_end = False
        self.loose = False  # whether `k6, k2tog 8 times` may mean two things
        self.prefers = False
        self.around = False
        self.often = False  # whether `rep from * 3 times` may
        self.kfb = False
        self.trouble: tuple[str, str, int] | None = None
        self.out: list[Node] = []
        self.base = 0
        self.opened: dict[int, int] = {}
        self.closed: dict[int, tuple[int, int]] = {}
        self.pending: _Pending | None = None
        self.times: Times | None = None
        self.extent: Extent | None = None
        self.copied = 0
        self.nested = 0
        self.closers = {
            phrase.to
            for phrase in phrases
            if type(phrase) is Rep and phrase.to > 1 and phrase.level != phrase.to
        }
        for phrase in phrases:
            self.take(phrase)
        self.finish_repeat()
        self.spread_over_sections(phrases)

    def spread_over_sections(self, phrases: tuple[Phrase, ...]) -> None:
        """`k10, k2tog on each needle`: what is worked in every section, where that is told."""
        sections = next(filter(in_each, phrases), None)
        if sections is None or not self.out:
            return
        repeats = any(type(phrase) in _REPEATS for phrase in phrases)
        if repeats and type(sections) is not Needlewise:
            return
        work, tail = self.out, list[Node]()
        if type(sections) is Extent and len(work) > 1 and _goes_to_end(work[-1]):
            work, tail = work[:-1], work[-1:]
        start, end, span = work[0].start, work[-1].end, (sections.start, sections.end)
        needle = type(sections) is Needlewise and sections.needle
        self.out = [Fill(tuple(work), None, start, end, span, marker=True, needle=needle), *tail]

    def fault(self, code: str, message: str, start: int) -> None:
        """Keep the first thing that cannot be understood."""
        if self.trouble is None:
            self.trouble = (code, message, start)

    def take(self, phrase: Phrase) -> None:
        """The next phrase."""
        if self.pending and type(phrase) not in _BEHIND_REPEATS:
            self.finish_repeat()
        if phrase.flags & THEN and len(self.out) > self.base and not self.opened:
            self.splits = all(type(node) is Stitch and node.name in _PLAIN for node in self.out)
            self.splits = self.splits or (
                len(self.out) == 1
                and type(phrase) is Stitches
                and _shapes(self.out[0])
                and _shapes(phrase.node)
            )
            self.base = len(self.out) if self.then else self.base
        if take := _TAKES.get(type(phrase)):
            take(self, phrase)

    def stitches(self, phrase: Stitches) -> None:
        """`k2`, `k2tog`."""
        node = phrase.node
        if type(node) is Stitch and node.loose and node.name == "kfb":
            self.kfb = True
        self.out.append(node)

    def until(self, phrase: Until) -> None:
        """`until 8 sts rem` behind stitches is how far they go."""
        if self.out or self.pending:
            self.far(Extent(phrase.start, phrase.end, phrase.flags, phrase.number))

    def brackets(self, phrase: Brackets) -> None:
        """`[k2, k2tog]`."""
        inside = SettledRound(phrase.inside, whole=self.whole, extra=self.extra)
        self.loose = self.loose or inside.loose
        self.often = self.often or inside.often
        self.kfb = self.kfb or inside.kfb
        if inside.trouble:
            self.fault(*inside.trouble)
        if inside.out:
            if self.pending:
                self.finish_repeat()
            if (
                len(inside.out) == 1
                and type(inside.out[0]) is Group
                and inside.out[0].times is ONE
                and inside.out[0].bracketed
            ):
                only = inside.out[0]
                self.out.append(Group(only.nodes, phrase.start, phrase.end, bracketed=True))
            else:
                self.out.append(Group(tuple(inside.out), phrase.start, phrase.end, bracketed=True))
        elif inside.times:
            self.how_often(inside.times)
        elif inside.extent:
            self.far(inside.extent)

    # --- how often

    def how_often(self, phrase: Times) -> None:
        """How often what stands before is worked."""
        if self.pending:
            self.repeat_times(self.pending, phrase)
            return
        if not self.out:
            self.times = phrase
            return
        last = self.out[-1]
        if type(last) is Fill:
            if not phrase.more:
                self.out[-1] = Fill(
                    last.nodes, last.leave, last.start, last.end, last.stated_at, last.marker, phrase.number
                )
            return
        extra = 1 if phrase.more else 0
        before = self.out[self.base :]
        if (
            len(before) > 1
            and type(last) in (Stitch, Mark)
            and all(type(node) in (Stitch, Mark) or _is_to_marker(node) for node in before)
        ):
            self.loose = self.counted = True
            self.prefers = bool(phrase.flags & (COMMA | DASH | STOP)) or type(last) is Mark
            self.prefers = self.prefers or any(map(_is_to_marker, before))
            if self.whole:
                self.out[self.base :] = [
                    Group(tuple(before), before[0].start, phrase.end, phrase.number, extra, bracketed=True)
                ]
                return
        if type(last) is Group and last.bracketed and last.times is ONE:
            self.out[-1] = Group(
                last.nodes, last.start, phrase.end, phrase.number, extra, last.part, bracketed=True
            )
        elif type(last) is Stitch and last.times is ONE and not extra:
            self.out[-1] = Stitch(last.name, phrase.number, last.start, phrase.end, loose=last.loose)
        elif self.nested >= MOST_NESTED:
            self.fault("too_deep", say("read.repeated_too_often"), phrase.start)
        else:
            self.nested += 1
            self.out[-1] = Group((last,), last.start, phrase.end, phrase.number, extra)

    def partly(self, phrase: Partly) -> None:
        """`and its first 3 sts again`."""
        last = self.out[-1] if self.out else None
        if type(last) is Group:
            self.out[-1] = Group(
                last.nodes, last.start, phrase.end, last.times, last.extra, phrase.number, bracketed=True
            )
        elif type(last) is Stitch:
            once = Stitch(last.name, ONE, last.start, last.end)
            self.out[-1] = Group(
                (once,), last.start, phrase.end, last.times, part=phrase.number, bracketed=True
            )
        else:
            self.fault("not_understood", say("read.nothing_before"), phrase.start)

    def far(self, phrase: Extent) -> None:
        """How far what stands before is worked."""
        span = (phrase.start, phrase.end)
        self.to_end = self.to_end or phrase.to
        if self.pending:
            pending, self.pending = self.pending, None
            self.put(
                pending, Fill(pending.nodes, phrase.leave, pending.start, phrase.end, span, phrase.marker)
            )
            return
        if not self.out:
            self.extent = phrase
            return
        last = self.out[-1]
        if type(last) is Evenly:
            return
        if type(last) is Fill:
            if phrase.leave is not None and phrase.leave is not NOTHING:
                self.out[-1] = Fill(last.nodes, phrase.leave, last.start, phrase.end, span, phrase.marker)
            return
        before = self.out[self.base :] or [last]
        alone = len(before) == 1 and len(self.out) == 1
        if alone and type(last) is Group and last.times is not ONE and not phrase.marker:
            self.out[-1] = Fill(
                last.nodes, phrase.leave, last.start, phrase.end, span, phrase.marker, last.times
            )
            return
        alone = (
            len(before) == 1
            or (type(last) is Stitch and last.bare)
            or (type(last) is Group and last.bracketed and last.times is ONE)
        )
        if not alone:
            self.loose, self.prefers, self.around = True, True, True
            if self.whole or self.apart:
                self.out[self.base :] = [
                    Fill(tuple(before), phrase.leave, before[0].start, phrase.end, span, phrase.marker)
                ]
                return
        nodes = last.nodes if type(last) is Group and last.times is ONE else (last,)
        self.out[-1] = Fill(nodes, phrase.leave, last.start, phrase.end, span, phrase.marker)

    # --- stars

    def star(self, phrase: Star) -> None:
        """A star opens or closes a repeat."""
        level = phrase.level
        if level in self.closed:
            del self.opened[level]
            self.closed.pop(level, None)
        if level in self.closers and level not in self.opened and 1 in self.opened and 1 not in self.closed:
            level = 1
        if level in self.opened:
            start, stop = self.opened[level], len(self.out)
            self.closed[level] = (start, stop)
            if start < stop:
                nodes = tuple(self.out[start:])
                group = Group(nodes, nodes[0].start, phrase.end, bracketed=True)
                self.out[start:] = [group]
                self.base = start
                self.closed[level] = (start, start + 1)
            else:
                del self.opened[level]
                self.closed.pop(level, None)
                self.opened[level] = self.base = len(self.out)
        else:
            self.opened[level] = self.base = len(self.out)

    def rep(self, phrase: Rep) -> None:
        """`rep from *`."""
        if self.pending and not phrase.level:
            return
        level = phrase.level or max(self.opened, default=0)
        if level and level not in self.opened:
            if not self.opened:
                self.fault("no_star", say("read.no_star"), phrase.start)
                return
            level = max(self.opened)
        start, stop = self.repeated(level)
        if start is None:
            return
        nodes = tuple(self.out[start:stop])
        if not nodes:
            self.fault("no_star", say("read.nothing_after_star"), phrase.start)
            return
        copy = stop < len(self.out)
        began = nodes[0].start
        nodes = _opened(nodes, filled=level not in self.closed)
        self.copied += len(nodes) * copy
        if copy and self.copied > MOST_COPIED:
            self.fault("too_long", say("read.too_much_again"), phrase.start)
            return
        self.pending = _Pending(nodes, start, began, phrase.end, copy)
        if level in self.opened and level not in self.closed and not copy:
            del self.opened[level]

    def repeated(self, level: int) -> tuple[int | None, int]:
        """What a repeat from this star repeats, as places in the tree; without a star, what was worked last."""
        stop = len(self.out)
        if level in self.opened:
            return self.closed.get(level) or (self.opened[level], stop)
        if not self.out or type(self.out[-1]) is Fill:
            return None, stop
        last = self.out[-1]
        alone = type(last) is Group and last.bracketed
        return (stop - 1 if alone else min(self.base, stop - 1)), stop

    def repeat_times(self, pending: _Pending, phrase: Times) -> None:
        """`rep from * 4 times`."""
        self.pending = None
        extra = 0
        if not pending.copy:
            if phrase.more:
                extra = 1
            elif not phrase.total:
                self.often = True
                extra = self.extra
        self.put(
            pending, Group(pending.nodes, pending.start, phrase.end, phrase.number, extra, bracketed=True)
        )

    def finish_repeat(self) -> None:
        """A `rep from *` that does not say how often goes on to what follows it."""
        pending, self.pending = self.pending, None
        if pending is None:
            return
        if pending.copy:
            self.put(pending, Group(pending.nodes, pending.start, pending.end, bracketed=True))
        else:
            span = (pending.end, pending.end)
            self.put(pending, Fill(pending.nodes, None, pending.start, pending.end, span))

    def put(self, pending: _Pending, node: Node) -> None:
        """A repeat in place of what it repeats."""
        if pending.copy:
            self.out.append(node)
            return
        self.out[pending.at :] = [node]
        self.base = len(self.out)

    def pass_over(self, phrase: PassOver) -> None:
        """What is slipped and passed over is one decrease."""
        made = None
        match self.out[-2:]:
            case [Stitch("sl", slipped), Stitch(name, times)]:
                made = _PASSED.get((slipped.of(0) or 0, name, times.of(0) or 0))
            case [*_, Stitch("skp" | "sk2p" | "cdd")]:
                return
        if made is None:
            self.fault("not_understood", say("read.passed_over"), phrase.start)
            return
        self.out[-2:] = [Stitch(made, ONE, self.out[-2].start, phrase.end)]
        self.base = min(self.base, len(self.out) - 1)


def _opened(nodes: Nodes, *, filled: bool) -> Nodes:
    """What a bracket holds that is repeated alone, or what goes on to the end, if it is `filled`."""
    match nodes:
        case [Fill(nodes=inner, leave=leave)] if filled and leave is NOTHING:
            return inner
        case [Group(nodes=inner, times=times, part=None, bracketed=True)] if times is ONE:
            return inner
        case _:
            return nodes


def _goes_to_end(node: Node) -> bool:
    """Whether it is worked to the end of the round: `knit to end` behind the work at each marker."""
    return type(node) is Fill and node.leave is NOTHING and not node.marker


MOST_COPIED: Final = 400
"""Stitches that are worked again from an earlier star of the round, more than anybody prints."""
_PLAIN: Final = ("k", "p", "sl")
_BEHIND_REPEATS: Final = frozenset((Times, Extent, Until, Said, Count, Rep))
_REPEATS: Final = frozenset((Star, Rep, Times))
_TAKES: Final[Mapping[type, Callable[[SettledRound, Any], None]]] = {
    Stitches: SettledRound.stitches,
    Brackets: SettledRound.brackets,
    Star: SettledRound.star,
    PassOver: SettledRound.pass_over,
    Rep: SettledRound.rep,
    Times: SettledRound.how_often,
    Extent: SettledRound.far,
    Partly: SettledRound.partly,
    Until: SettledRound.until,
}
"""What is done with the phrases of a kind."""
