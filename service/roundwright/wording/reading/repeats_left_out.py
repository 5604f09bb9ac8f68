"""A round whose repeat was left out, between two rounds of the same stitches that have it.

`k5, k2tog (42 sts)` alone is worked to the end: many pattern writers mean that. Between `*k6, k2tog; rep from * around`
and `*k4, k2tog; rep from * around` it is a mistake of print, since the knitter is told to work it once.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from roundwright.wording.reading.phrases import (
    Count,
    Phrase,
    Rep,
    Star,
    Stitches,
    Times,
    is_bracketed_count,
)
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.states import Done, Explanation, Fault
from roundwright.wording.reading.tree import Fill, Group, Nodes, Stitch


def repeats_left_out(explanation: Explanation, segments: list[Segment]) -> Iterator[Fault]:
    """The faults of such rounds, by the stitches of the first size."""
    by_segment = {
        done.segment: done for done in explanation.rounds[0] if done.round.after < done.round.before
    }
    shaped = list(by_segment.values())
    for before, done, behind in zip(shaped, shaped[1:], shaped[2:], strict=False):
        here, others = segments[done.segment], (segments[before.segment], segments[behind.segment])
        stars = [type(phrase) for phrase in here.phrases].count(
            Star
        )  # one is opened, and its end is left out
        if stars > 1 or not all(map(_is_once, here.phrases)) or not all(map(_repeats, others)):
            continue
        if any(fault.segment == done.segment for fault in explanation.faults):
            continue
        used = _falling([before, done, behind])
        if used:
            yield Fault(LEFT_OUT, done.segment, here.phrases[0].start, before=done.round.before, used=used)


def _is_once(phrase: Phrase) -> bool:
    """Whether it is stitches or their count, and no word of a repeat."""
    return type(phrase) in _ONCE or is_bracketed_count(phrase)


def _repeats(segment: Segment) -> bool:
    """Whether a line says that it is repeated: from a star, or what stands in brackets so many times."""
    return not _REPEATED.isdisjoint(map(type, segment.phrases))


def _falling(rounds: Sequence[Done]) -> int:
    """The stitches that the second uses once, where each has a plain stitch fewer than the last; else 0."""
    units = [_unit(done.nodes) for done in rounds]
    if any(len(unit) != 2 or unit[0].name != "k" for unit in units):
        return 0
    plain = [unit[0].times.of(0) or 0 for unit in units]
    kinds = {(unit[1].name, unit[1].times.of(0)) for unit in units}
    falls = plain[0] - 1 == plain[1] == plain[2] + 1
    uses = rounds[1].round.before // (plain[1] + 2) if plain[1] else 0
    return plain[1] + 2 if falls and len(kinds) == 1 and uses > 1 else 0


def _unit(nodes: Nodes) -> tuple[Stitch, ...]:
    """The stitches that a round repeats; empty where it is anything else."""
    match nodes:
        case (Fill(nodes=inner) | Group(nodes=inner),):
            return _unit(inner)
        case _:
            stitches = tuple(node for node in nodes if type(node) is Stitch)
            return stitches if len(stitches) == len(nodes) else ()


LEFT_OUT: Final = "repeat_left_out"
"""The code of such a round."""
_ONCE: Final = frozenset((Star, Stitches, Count))
_REPEATED: Final = frozenset((Rep, Star, Times))
