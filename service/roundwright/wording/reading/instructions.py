"""One way to understand a segment, and what it costs to understand it so.

A candidate costs what has to be assumed to understand the words so: an implied repeat, words that are passed over, the
less likely of two ways.
"""

from typing import Final, Literal

from msgspec import Struct

from roundwright.wording.reading.phrases import (
    Again,
    Times,
)
from roundwright.wording.reading.tree import (
    Nodes,
    Number,
    Stated,
)

Kind = Literal[
    "round",
    "loop",
    "with",
    "continue",
    "between",
    "cast_on",
    "count",
    "closing",
    "begin",
    "markers",
    "prose",
    "unread",
]


class Candidate(Struct, frozen=True, gc=False):
    """One way to understand a segment.

    - `nodes`: the tree of a round; `others` are tried for a size in which it does not come out
    - `rounds`: how many rounds of it; `length` where that is to a length; `until` a count is reached
    - `last`: what the last of several rounds does instead, such as increases evenly
    - `again`, `times`, `more`, `total`: rounds worked again, how often; `begun` of them were told before
    - `step`: every how many rounds a crown goes on to be shaped; 0 where it is not said
    - `sections`: how many markers are placed; `every`: after every how many stitches
    - `between`: `rounds` plain rounds between decrease rounds, with `plain` 1 behind the last, -1 before each, with
      `step` behind the first so many only; with `told_first` only between rounds that are told behind it
    - `per_section`: the stitches it says to leave in each section or on each needle; `per_needle`: on each needle,
      for whatever is worked
    - `per`: whether `until` is for each needle or section; `plain`: rounds without shaping behind the one worked again
    - `from_start`: whether the rounds worked so far count among `rounds`; `from_first`: the shaped one told just before
      as the first of them does
    - `turns`: the trees of several rounds that are worked in turn, `nodes` the first of them
    - `at_once`: whether rounds worked every `step` rounds begin with the next one, or `last` is that of the first
    - `ends_shaped`: whether rounds worked to a count end with the one that shapes
    - `last_round`: the printed number of the last of the rounds of a crown that goes on
    - `explained`: whether a round with a name is only told here, to be worked where its name stands
    - `onward`: how a crown goes on whose sentence is not read word by word, or for so many rounds as are numbered, or
      shaped and plain `in_turn` as those named; `plain` 1 of `to_the_end`: no stitch stays plain
    - `change`, `often`: how many stitches each round takes in or makes, and how often, told beside the count worked to
    - `ribbed`: whether its rounds are of the rib that was told before: `Work 8 rnds in rib`
    - `stated`: the counts printed with it
    - `strength`: how much the words look like work, for one that works nothing; `shapes`: whether they speak of
      decreases or increases
    """

    kind: Kind
    cost: float
    nodes: Nodes = ()
    others: tuple[Nodes, ...] = ()
    rounds: Number | None = None
    length: bool = False
    until: Number | None = None
    last: Nodes = ()
    again: Again | None = None
    times: Times | None = None
    begun: int = 0
    step: int = 0
    stated: tuple[Stated, ...] = ()
    strength: float = 0.0
    shapes: bool = False
    trouble: tuple[str, str, int] | None = None
    sections: int = 0
    every: Number | None = None
    told_first: bool = False
    chart: bool = False
    how: str = ""
    explained: bool = False
    onward: Literal["", "to_a_count", "to_the_end", "as_numbered", "in_turn"] = ""
    per: bool = False
    last_round: Number | None = None
    per_section: Number | None = None
    per_needle: Number | None = None
    plain: int = 0
    ends_shaped: bool = False
    at_once: bool = False
    turns: tuple[Nodes, ...] = ()
    from_start: bool = False
    from_first: bool = False
    ribbed: bool = False
    change: Number | None = None
    often: Times | None = None


UNREAD: Final = 3.0
"""From which strength on words that are not worked are told to be unread."""


def printed(candidate: Candidate, before: int, column: int) -> list[tuple[Stated, int]]:
    """The counts printed with it for a size, with where they stand."""
    counts = []
    for stated in candidate.stated:
        after = stated.after(before, column)
        if after is not None:
            counts.append((stated, after))
    return counts
