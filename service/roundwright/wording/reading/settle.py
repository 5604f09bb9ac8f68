"""The phrases of a round as trees, one for each way they can be meant.

`k6, k2tog 8 times` repeats the last stitch or both; `rep from * 3 times` is 3 or 4 in all; `k7, k2tog` alone may go on
to the end. Every way is a tree with what it costs to understand it so; which one is meant, the stitches say.
"""

from operator import attrgetter
from typing import Final

from msgspec import Struct

from roundwright.wording.reading.phrases import Phrase
from roundwright.wording.reading.settled_round import SettledRound
from roundwright.wording.reading.tree import (
    NOTHING,
    ONE,
    Evenly,
    Fill,
    Group,
    Mark,
    Nodes,
    Stitch,
)


class Settled(Struct, frozen=True):
    """One way to understand a round: its tree, what that costs, and how it differs from the others (`find.way.…`)."""

    nodes: Nodes
    cost: float
    how: str = ""
    trouble: tuple[str, str, int] | None = None


ONCE_MORE: Final = "once_more"
IN_ALL: Final = "in_all"
"""The two ways in which `rep from * 3 times` is printed."""


IMPLIED: Final = 0.6
"""What a repeat costs that is not printed."""


AT_EVERY_MARKER: Final = 0.05
"""What it costs that a line to a place before a marker is worked to every marker: less than to pass over these."""


OTHER: Final = 0.4
"""What the less likely of two ways costs."""


MOST_IN_RIB: Final = 12
"""Stitches of a rib, knits and purls together."""


FAR_OTHER: Final = 7.0
"""What it costs to take `k6, k2tog around` for its last stitch alone, where no count is printed: more than a fault."""


def settle(
    phrases: tuple[Phrase, ...], *, implied: bool = True, counted: bool = False, alone: bool = False
) -> list[Settled]:
    """The trees of a round, the likeliest first.

    `alone`: whether its line has only stitches, repeats and counts. A counted repeat is the whole round then; beside
    other words it may be the work of a half or a needle.
    """
    first = SettledRound(phrases, whole=False, extra=1)
    ways = [first]
    if first.loose:
        ways.append(SettledRound(phrases, whole=True, extra=1))
    if first.counted and first.around:
        ways.append(SettledRound(phrases, whole=False, extra=1, apart=True))
    if first.splits:
        ways.extend([SettledRound(phrases, whole=way.whole, extra=1, then=True) for way in list(ways)])
    if first.often:
        ways.extend([SettledRound(phrases, whole=way.whole, extra=0, then=way.then) for way in list(ways)])
    implied = implied and not (alone and _is_counted_repeat(first))
    settled = [tree for way in ways for tree in _settled(way, implied=implied, counted=counted)]
    if first.kfb:
        settled.extend(
            [Settled(_with_m1(tree.nodes), tree.cost + OTHER, tree.how, tree.trouble) for tree in settled]
        )
    if len(settled) == 1:
        return settled
    unique: dict[Nodes, Settled] = {}
    for tree in sorted(settled, key=attrgetter("cost")):
        unique.setdefault(tree.nodes, tree)
    return list(unique.values())[:8]


def _is_counted_repeat(way: SettledRound) -> bool:
    """Whether a round is a counted repeat, `(k3, k2tog) 8 times`, which is not worked over again to its end."""
    match way.out:
        case [Group(times=times)]:
            return times is not ONE
    return False


def _settled(way: SettledRound, *, implied: bool, counted: bool) -> list[Settled]:
    """The trees of a round understood in one way; none where nothing is worked."""
    cost = 0.0 if way.extra else OTHER
    if way.splits and way.then != way.to_end:
        cost += OTHER
    if way.apart:
        cost += OTHER
    elif way.loose and way.whole != way.prefers:
        cost += FAR_OTHER if way.around and not (counted or way.splits) else OTHER
    nodes = tuple(way.out)
    if way.trouble:
        return [Settled(nodes, cost + 6, trouble=way.trouble)]
    how = ""
    if way.often:
        how = ONCE_MORE if way.extra else IN_ALL
    elif way.loose:
        how = "all_repeated" if way.whole else "last_repeated"
    return _implied(nodes, cost, how, implied=implied) if nodes else []


def _goes_to_marker(nodes: Nodes) -> bool:
    """Whether a line goes on to a place before a marker once, and to its marker: `k to 2 before m, k2tog`."""
    fills = [node for node in nodes if type(node) in _FILLS]
    if len(fills) != 1 or Mark in [type(node) for node in nodes]:
        return False
    fill = fills[0]
    return type(fill) is Fill and fill.marker and fill.leave is not None and not _inner_fill(nodes)


def _implied(nodes: Nodes, cost: float, how: str, *, implied: bool) -> list[Settled]:
    """The tree as it stands, and gone on with to the end where nothing says how far."""
    if any(type(node) in _FILLS for node in nodes):
        ways = [Settled(nodes, cost, how)]
        if _goes_to_marker(nodes):
            start, end = nodes[0].start, nodes[-1].end
            every = Fill(nodes, None, start, end, (end, end), marker=True)
            ways.append(Settled((every,), cost + AT_EVERY_MARKER, how))
        return ways
    if _inner_fill(nodes):
        match nodes:
            case (Group(nodes=inner, times=times, part=None, bracketed=True, start=start, end=end),) if (
                times is ONE
            ):
                everywhere = Fill(inner, NOTHING, start, end, (end, end))
                return [Settled((everywhere,), cost, how), Settled(nodes, cost + OTHER, how)]
        return [Settled(nodes, cost, how)]
    real = [node for node in nodes if type(node) is not Mark]
    bare = len(real) == 1 and type(real[0]) is Stitch and real[0].bare
    start, end = nodes[0].start, nodes[-1].end
    inner = (
        real[0].nodes if len(real) == 1 and type(real[0]) is Group and real[0].times is ONE else tuple(real)
    )
    around = Settled((Fill(inner, NOTHING, start, end, (end, end)),), cost, how)
    if bare:
        return [around]
    if not implied:
        return [Settled(nodes, cost, how)]
    starred = len(real) == 1 and type(real[0]) is Group and real[0].bracketed and real[0].times is ONE
    single = (
        len(real) == 1 and type(real[0]) is Stitch and real[0].times is ONE and real[0].name not in ("k", "p")
    )
    if starred or single:
        return [around, Settled(nodes, cost + OTHER, how)]
    tail = _open_tail(nodes, cost, how)
    once = cost + IMPLIED + OTHER if _tells_rib(tuple(real)) else cost
    starred_part = _starred_part(nodes, cost, how)
    return [Settled(nodes, once, how), *starred_part, Settled(around.nodes, cost + IMPLIED, how), *tail]


def _starred_part(nodes: Nodes, cost: float, how: str) -> list[Settled]:
    """`*k10, k2tog*, k2`: what stands between two stars goes on as far as the rest of the line leaves room."""
    groups = [place for place, node in enumerate(nodes) if type(node) is Group and node.bracketed]
    if len(groups) != 1:
        return []
    group = nodes[groups[0]]
    others = (*nodes[: groups[0]], *nodes[groups[0] + 1 :])
    plain = all(type(node) is Stitch and node.name in ("k", "p") for node in others)
    if type(group) is not Group or group.times is not ONE or group.part is not None or not plain:
        return []
    fill = Fill(group.nodes, None, group.start, group.end, (group.end, group.end))
    filled = (*nodes[: groups[0]], fill, *nodes[groups[0] + 1 :])
    return [Settled(filled, cost + IMPLIED / 2, how)]


def _tells_rib(nodes: Nodes) -> bool:
    """Whether it is the knits and purls of a rib, `K2, P2`, which is worked all around though nothing says so."""
    stitches = [node for node in nodes if type(node) is Stitch and not node.bare]
    few = sum(node.times.of(0) or 0 for node in stitches) <= MOST_IN_RIB
    return few and len(stitches) == len(nodes) and {node.name for node in stitches} == {"k", "p"}


def _open_tail(nodes: Nodes, cost: float, how: str) -> list[Settled]:
    """`k2, ssk, k`: a bare stitch at the end goes on to it."""
    last = nodes[-1]
    if len(nodes) > 1 and type(last) is Stitch and last.bare:
        fill = Fill((last,), NOTHING, last.start, last.end, (last.end, last.end))
        return [Settled((*nodes[:-1], fill), cost + 0.1, how)]
    return []


def _inner_fill(nodes: Nodes) -> bool:
    return any(
        type(node) is Group and any(type(inner) is Fill or _inner_fill((inner,)) for inner in node.nodes)
        for node in nodes
    )


def _with_m1(nodes: Nodes) -> Nodes:
    """The tree with `inc 1` made between two stitches, not in one."""
    return tuple(
        Group(_with_m1(node.nodes), node.start, node.end, node.times, node.extra, node.part, node.bracketed)
        if type(node) is Group
        else Fill(
            _with_m1(node.nodes), node.leave, node.start, node.end, node.stated_at, node.marker, node.times
        )
        if type(node) is Fill
        else Stitch("m1", node.times, node.start, node.end)
        if type(node) is Stitch and node.loose and node.name == "kfb"
        else node
        for node in nodes
    )


_FILLS: Final = frozenset((Fill, Evenly))
