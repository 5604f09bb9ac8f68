"""A stitch cast on for the join: `cast on 97; knit the extra stitch together with the first. You now have 96`."""

from typing import Final

from roundwright.wording.reading.fabric_ways import plain_fill
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.phrases import Brackets, Phrase, Said, counts_of
from roundwright.wording.reading.tree import ONE, Stated, Stitch


def joined(phrases: tuple[Phrase, ...]) -> Candidate | None:
    """The last stitch that is cast on, worked together with the first, where the count behind it is told."""
    texts = {phrase.text for phrase in phrases if type(phrase) is Said}
    joins = texts & _JOINING and texts & _FIRST and texts & _TOGETHER
    counts = [
        count
        for phrase in phrases
        for count in counts_of(phrase)
        if not count.sign and (count.sure or type(phrase) is Brackets)
    ]
    if not joins or not counts:
        return None
    count = counts[-1]
    stated = (Stated(count.number, count.start, count.end),)
    start, end = phrases[0].start, count.end
    nodes = (Stitch("k2tog", ONE, start, end), *plain_fill("k", start, end))
    return Candidate("round", COST, nodes, stated=stated)


COST: Final = 0.2
"""What it costs to take words for such a join."""
_JOINING: Final = frozenset(("join", "joining", "joined", "extra"))
_FIRST: Final = frozenset(("first", "the first", "last"))
_TOGETHER: Final = frozenset(("together", "over", "tog"))
