"""What the phrases of a line mean together: `4 times` is said of what stands before it, `rep from *` of its star.

`settle` makes the tree of a line from its phrases, in one pass. Where the words allow two readings it gives both.
"""

from collections.abc import Callable
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.phrases import (
    Brackets,
    Even,
    Extent,
    Fabric,
    Length,
    Partly,
    PassOver,
    Phrase,
    Rep,
    Rounds,
    Star,
    Times,
    Until,
)
from roundwright.wording.reading.tree import (
    NOTHING,
    ONE,
    Again,
    Body,
    Evenly,
    Fill,
    Group,
    Node,
    Nodes,
    Number,
    Reading,
    Stated,
    Stitch,
    Trouble,
    Unknown,
    walk,
)

MOST_AGAIN: Final = 1_000
"""Stitches and brackets that a line may work again from further up: far more than anybody writes."""

DEEPEST_REPEATS: Final = 16
"""Repeats inside one another, as `twice, 3 times` makes them: a pattern has two, seldom three."""


def settle(
    phrases: tuple[Phrase, ...], troubles: list[Trouble], lists: tuple[Number, ...], words: int
) -> Body:
    """The tree of a line. `troubles` found before are added to; `lists` are the numbers given for several sizes."""
    line = _Line(phrases, troubles)
    readings = line.readings()
    if any(_is_too_deep(one.nodes) for one in readings):
        line.trouble("too_deep", f"More than {DEEPEST_REPEATS} repeats inside one another.", 0)
        readings = (Reading(()),)
    return Body(
        readings=readings,
        stated=line.stated,
        rounds=line.rounds,
        again=line.again,
        until=line.until,
        measured=line.measured,
        troubles=tuple(line.troubles),
        lists=lists,
        words=words,
    )


def _is_too_deep(nodes: Nodes) -> bool:
    """Whether repeats are nested beyond reason; found without recursion, which is what must not go so deep."""
    for _ in range(DEEPEST_REPEATS + 1):
        nodes = tuple(inner for node in nodes if isinstance(node, Group | Fill) for inner in node.nodes)
    return bool(nodes)


class _Pending(Struct):
    """Something that waits to hear how often: `rep from *`, or with `section` no more than a pair of stars.

    With `copy` it stands further up in the line, and is worked again here.
    """

    nodes: Nodes
    at: int
    start: int
    end: int
    copy: bool = False
    section: bool = False


class _Line:
    """The line as far as it has been settled."""

    def __init__(self, phrases: tuple[Phrase, ...], troubles: list[Trouble], *, inside: bool = False) -> None:
        self.troubles = troubles
        self.stated: Stated | None = None
        self.rounds: Number | None = None
        self.again: Again | None = None
        self.until: Number | None = None
        self.measured = False
        self.plain: tuple[int, int] | None = None  # where `even` or a fabric is said
        self.times: Times | None = None  # of a line or a bracket that holds nothing else
        self.extent: Extent | None = None
        self.out: list[Node] = []
        self.other: list[Node] | None = None  # the line as the other reading has it
        self.doubt = ("", "")
        self.base = 0  # where the last star stands in `out`
        self.opened: dict[int, int] = {}
        self.closed: dict[int, tuple[int, int]] = {}
        self.repeated: set[int] = set()  # stars whose repeat has been said to the end
        self.again_count = 0
        self.pending: _Pending | None = None
        self.closers = {one.to for one in phrases if isinstance(one, Rep) and one.to}
        self.openers = {one.level for one in phrases if isinstance(one, Rep) and one.level}
        for phrase in phrases:
            self.take(phrase)
        self.finish_repeat()
        self.finish_plain()
        if not inside:
            self.finish()

    def finish(self) -> None:
        """See that there is something to work."""
        if not self.out and self.again is None:
            self.trouble("not_understood", "Nothing is said to be worked here.", 0)

    def readings(self) -> tuple[Reading, ...]:
        """The one reading, or both."""
        if self.other is None:
            return (Reading(tuple(self.out)),)
        return Reading(tuple(self.out), self.doubt[0]), Reading(tuple(self.other), self.doubt[1])

    def trouble(self, code: str, message: str, start: int) -> None:
        if not any(one.start == start for one in self.troubles):
            self.troubles.append(Trouble(code, message, start))

    # --- one phrase after the other

    def take(self, phrase: Phrase) -> None:
        taking = _TAKE.get(type(phrase))
        if taking is None:
            return
        if self.pending and not isinstance(phrase, Times | Extent | Until | Length):
            self.finish_repeat()
        taking(self, phrase)

    def add(self, node: Node) -> None:
        self.out.append(node)
        if self.other is not None:
            self.other.append(node)

    def replace_last(self, node: Node) -> None:
        self.out[-1] = node
        if self.other:
            self.other[-1] = node

    def brackets(self, phrase: Brackets) -> None:
        inside = _Line(phrase.inside, self.troubles, inside=True)
        self.stated = inside.stated or self.stated
        if inside.out:
            self.add(Group(tuple(inside.out), phrase.start, phrase.end, bracketed=True))
        elif inside.times:  # k2tog (3 times)
            self.many(inside.times)
        elif inside.extent:
            self.far(inside.extent)

    def many(self, phrase: Times) -> None:
        if self.pending:
            self.repeat_times(self.pending, phrase)
            return
        if self.again and not self.out:
            self.again = replace(self.again, times=phrase.number)
            return
        if not self.out:
            self.times = phrase
            return
        last = self.out[-1]
        if self.loose(phrase, last):
            return
        extra = 1 if phrase.more else 0
        node: Node
        if isinstance(last, Group) and last.bracketed and last.times is ONE:
            node = Group(last.nodes, last.start, phrase.end, phrase.number, extra, last.part, bracketed=True)
        elif isinstance(last, Stitch) and last.times is ONE and not extra:
            node = Stitch(last.name, phrase.number, last.start, phrase.end)
        else:
            node = Group((last,), last.start, phrase.end, phrase.number, extra)
        self.replace_last(node)

    def loose(self, phrase: Times, last: Node) -> bool:
        """Whether `k2, k2tog 4 times` may mean both stitches: then both readings are kept."""
        before = self.out[self.base :]
        if len(before) < 2 or self.other is not None or not all(isinstance(one, Stitch) for one in before):
            return False
        assert isinstance(last, Stitch)
        self.other = [
            *self.out[: self.base],
            Group(tuple(before), before[0].start, phrase.end, phrase.number, int(phrase.more)),
        ]
        self.out[-1] = Group((last,), last.start, phrase.end, phrase.number, int(phrase.more))
        self.doubt = ("only the last stitch is repeated", "all of it is repeated")
        return True

    def partly(self, phrase: Partly) -> None:
        last = self.out[-1] if self.out else None
        if isinstance(last, Group):
            self.replace_last(
                Group(
                    last.nodes, last.start, phrase.end, last.times, last.extra, phrase.number, bracketed=True
                )
            )
        elif isinstance(last, Stitch):
            self.replace_last(
                Group((_once(last),), last.start, phrase.end, last.times, part=phrase.number, bracketed=True)
            )
        else:
            self.trouble("not_understood", "There is nothing before this to work again.", phrase.start)

    def far(self, phrase: Extent) -> None:
        said = (phrase.start, phrase.end)
        if self.pending:
            pending, self.pending = self.pending, None
            self.put(pending, Fill(pending.nodes, phrase.leave, pending.start, phrase.end, said))
            return
        if not self.out:
            self.extent = phrase
            return
        last = self.out[-1]
        if isinstance(last, Fill | Evenly):
            return  # all sts around
        fill = Fill((last,), phrase.leave, last.start, phrase.end, said)
        before = self.out[self.base :] or [last]
        alone = len(before) == 1 or (isinstance(last, Stitch) and last.bare) or isinstance(last, Group)
        if alone or self.other is not None:
            self.replace_last(fill)
            return
        self.other = [*self.out[:-1], fill]
        self.out[self.base :] = [
            Fill(tuple(before), phrase.leave, before[0].start, phrase.end, said),
        ]
        self.doubt = ("all of it is repeated", "only the last stitch is repeated")

    def up_to(self, phrase: Until) -> None:
        if self.out or self.pending:
            self.far(Extent(phrase.number, phrase.start, phrase.end))
        else:
            self.until = phrase.number

    def length(self, phrase: Length) -> None:  # noqa: ARG002 - how long does not matter
        self.measured = True

    # --- stars

    def star(self, phrase: Star) -> None:
        level = phrase.level
        if level in self.closed or level in self.repeated:  # that pair is done with, and the next one begins
            del self.opened[level]
            self.closed.pop(level, None)
            self.repeated.discard(level)
        closes = level in self.opened or (level in self.closers and level not in self.openers)
        if closes:
            opener = level if level in self.opened else max(self.opened, default=0)
            if not opener or opener in self.closed:
                self.trouble("no_star", "This star closes what no star opened.", phrase.start)
                return
            start, stop = self.opened[opener], len(self.out)
            self.closed[opener] = (start, stop)
            if start < stop:
                nodes = tuple(self.out[start:])
                self.pending = _Pending(nodes, start, nodes[0].start, phrase.end, section=True)
        else:
            self.opened[level] = self.base = len(self.out)

    def rep(self, phrase: Rep) -> None:
        level = phrase.level or max(self.opened, default=0)
        if level not in self.opened:
            if not phrase.level and self.out:  # k2, k2tog, repeat to end
                last = self.out[-1]
                alone = isinstance(last, Group) and last.bracketed
                start, stop = len(self.out) - 1 if alone else min(self.base, len(self.out) - 1), len(self.out)
            else:
                self.trouble("no_star", "There is no star before this to repeat from.", phrase.start)
                return
        elif level in self.closed:
            start, stop = self.closed[level]
        else:
            start, stop = self.opened[level], len(self.out)
        nodes = tuple(self.out[start:stop])
        if not nodes:
            self.trouble("no_star", "There is nothing between the star and this.", phrase.start)
            return
        copy = stop < len(self.out)
        if copy:
            self.again_count += sum(1 for _ in walk(nodes))
            if self.again_count > MOST_AGAIN:
                self.trouble("too_long", "More is worked again here than can be followed.", phrase.start)
                return
        elif level in self.opened and level not in self.closed:
            self.repeated.add(level)
        self.pending = _Pending(nodes, start, nodes[0].start, phrase.end, copy)
        if isinstance(phrase.extent, Times):
            self.many(phrase.extent)
        elif phrase.extent:
            self.far(phrase.extent)

    def repeat_times(self, pending: _Pending, phrase: Times) -> None:
        self.pending = None

        def group(extra: int) -> Group:
            return Group(pending.nodes, pending.start, phrase.end, phrase.number, extra, bracketed=True)

        repeats = not pending.copy and not pending.section
        extra = 1 if phrase.more or (repeats and not phrase.in_all) else 0
        doubtful = repeats and not phrase.more and not phrase.in_all and self.other is None
        if doubtful:
            self.other = [*self.out[: pending.at], group(0)]
            self.out[pending.at :] = [group(1)]
            self.doubt = ("worked once and then so many times more", "worked so many times in all")
        else:
            self.put(pending, group(extra))

    def finish_repeat(self) -> None:
        """A `rep from *` that does not say how often goes on to what follows it; a section, once more."""
        pending, self.pending = self.pending, None
        if pending is None or pending.section:
            return
        said = (pending.end, pending.end)
        if pending.copy:
            self.put(pending, Group(pending.nodes, pending.start, pending.end, bracketed=True))
        else:
            self.put(pending, Fill(pending.nodes, None, pending.start, pending.end, said))

    def put(self, pending: _Pending, node: Node) -> None:
        if pending.copy:
            self.add(node)
            return
        if self.other is not None:
            behind = len(self.out) - pending.at
            del self.other[max(0, len(self.other) - behind) :]
            self.other.append(node)
        self.out[pending.at :] = [node]
        self.base = len(self.out)

    # --- whole rounds and counts

    def whole_rounds(self, phrase: Rounds) -> None:
        self.rounds = phrase.number
        if phrase.stitch:
            self.add(_all_of(phrase.stitch))

    def work_again(self, phrase: Again) -> None:
        self.again = phrase

    def state(self, phrase: Stated) -> None:
        self.stated = phrase

    def work_even(self, phrase: Even | Fabric) -> None:
        self.plain = (phrase.start, phrase.end)

    def pass_over(self, phrase: PassOver) -> None:
        made = None
        match self.out[-2:]:
            case [Stitch("sl", slipped), Stitch(name, many)]:
                made = _PASSED.get((slipped.of(0) or 0, name, many.of(0) or 0))
        if made is None:
            self.trouble(
                "not_understood", "What is slipped and passed over here is not understood.", phrase.start
            )
            return
        node = Stitch(made, ONE, self.out[-2].start, phrase.end)
        self.out[-2:] = [node]
        self.base = min(self.base, len(self.out) - 1)
        if self.other is not None:
            self.other[-2:] = [node]

    def finish_plain(self) -> None:
        """Bare `knit` as all there is goes all around; so do stitches that a fabric is named after."""
        if self.plain is None:
            match self.out:
                case [Stitch(bare=True) as only]:
                    self.out = [_all_of(only)]
            return
        if not self.out:
            stitch = Stitch("k", ONE, *self.plain)
            self.out = [_all_of(stitch)]
        elif not any(isinstance(one, Fill | Evenly) for one in self.out):
            self.out = [Fill(tuple(self.out), NOTHING, self.out[0].start, self.out[-1].end, self.plain)]
            self.other = None


def _once(stitch: Stitch) -> Stitch:
    return Stitch(stitch.name, ONE, stitch.start, stitch.end)


def _all_of(stitch: Stitch) -> Fill:
    whole = Stitch(stitch.name, ONE, stitch.start, stitch.end, bare=True)
    return Fill((whole,), NOTHING, stitch.start, stitch.end, (stitch.start, stitch.end))


_PASSED: Final[dict[tuple[int, StitchName, int], StitchName]] = {
    (1, "k", 1): "skp",
    (1, "k2tog", 1): "sk2p",
    (2, "k", 1): "cdd",
}
"""Slipped, knitted over, how often: the decrease that passing over makes of them."""

_TAKE: Final[dict[type, Callable[[_Line, Any], None]]] = {
    Stitch: _Line.add, Unknown: _Line.add, Evenly: _Line.add, Brackets: _Line.brackets, Times: _Line.many,
    Partly: _Line.partly, Extent: _Line.far, Until: _Line.up_to, Star: _Line.star, Rep: _Line.rep,
    Again: _Line.work_again, Rounds: _Line.whole_rounds, Stated: _Line.state, PassOver: _Line.pass_over,
    Even: _Line.work_even, Fabric: _Line.work_even, Length: _Line.length,
}  # fmt: skip
