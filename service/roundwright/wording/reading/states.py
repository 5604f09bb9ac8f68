"""What the knitter has on the needles after some segments of a text, in one way to understand them."""

from __future__ import annotations

from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.knitting.rounds.round import Round
from roundwright.wording.reading.instructions import Candidate
from roundwright.wording.reading.tree import Nodes
from roundwright.wording.reading.worked import Sections

WRONG: Final = 6.0
"""What a line costs that does not come out."""
WRONG_COUNT: Final = 5.0
"""What a printed count costs that is not the count worked."""
FURTHER: Final = 1.5
"""What it costs in every further size."""
DROPPED: Final = 11.0
"""What a line costs that looks like work and is not read."""
FURTHER_DOWN: Final = 1 << 30
"""Added to where a line begins that is told further down: which segment it is, is known when all of them are cut."""
MOST_LOOKED_BACK: Final = 12
"""How many rounds back the last shaping round is looked for."""


class Fault(Struct, frozen=True, gc=False):
    """Something that does not come out, in a size (from 0; None for all), at a place of the text.

    `before` stitches were there, `used` and `left` are what the line makes of them, `stated` is what it says, with
    `needles` of so many needles alike.
    """

    code: str
    segment: int
    start: int
    size: int | None = None
    before: int = 0
    used: int = 0
    left: int = 0
    stated: int | None = None
    text: str = ""
    note: bool = False
    stitches: int | None = None
    needles: int = 0


class Done(Struct, frozen=True, gc=False):
    """A round that was worked: by which segment, and by its tree (empty where it was extrapolated).

    `segment` is its place, or `FURTHER_DOWN` and where it begins, until the explanation is finished; so in an entry and
    a fault.
    """

    round: Round
    nodes: Nodes
    segment: int


Chain = tuple["Chain", Done] | None
"""Rounds worked, the last first."""


class Entry(Struct, frozen=True, gc=False):
    """What a round number stands for: the candidate, and the segment it is from."""

    candidate: Candidate
    segment: int


Told = tuple["Told", int, Entry | None] | None
"""Round numbers and what they stand for, the last first; without an entry where a new part begins."""


class Standing(Struct, frozen=True, gc=False):
    """A line for every `step`th round from `first` on, to `last` (0: without end)."""

    first: int
    step: int
    last: int
    entry: Entry


class Lane(Struct, gc=False):
    """One size: the stitches on its needles, and what was worked.

    - `number`: of the last round in the answer; `printed`: the last number printed in this part, `lowest` the first
    - `part`: how many headings stood before the last numbered round
    - `loose`: rounds without a number since; `steady`: numbers that followed one another
    - `numbers_known`: what the numbers printed so far stand for; `waiting`: numbers still to be worked
    - `standing`, `between`: lines that stand for rounds not printed one by one
    - `begin`: the number this size begins at, told behind `begin_worked` rounds
    - `loop`: the rounds that were last worked again
    - `needles`: on how many needles alike the stitches are, where a line said so
    - `kept`: where rounds begin in the text behind which the count goes on as before them, whatever they leave
    """

    size: int
    column: int
    count: int
    chain: Chain = None
    worked: int = 0
    number: int = 0
    printed: int = 0
    lowest: int = 0
    part: int = 0
    loose: int = 0
    numbers_known: Told = None
    waiting: dict[int, Entry] = {}
    standing: tuple[Standing, ...] = ()
    between: Entry | None = None
    begin: int = 0
    begin_worked: int = 0
    sections: Sections | None = None
    loop: tuple[Done, ...] = ()
    steady: int = 0
    needles: int = 0
    kept: frozenset[int] = frozenset()

    def copy(self) -> Lane:
        """The same, to go on with in another way."""
        return replace(self, waiting=dict(self.waiting))

    def begins_at(self) -> int:
        """The number this size begins at, as long as no round was worked since that was told; else 0."""
        return self.begin if self.worked == self.begin_worked else 0

    def stands(self, number: int) -> Entry | None:
        """The line that stands for a round of this number."""
        for line in self.standing:
            if (
                number >= line.first
                and (number - line.first) % line.step == 0
                and (not line.last or number <= line.last)
            ):
                return line.entry
        return None


Choices = tuple["Choices", tuple[int, Candidate]] | None
Faults = tuple["Faults", Fault] | None


class State(Struct, gc=False):
    """The sizes after some segments, in one way to understand them."""

    lanes: tuple[Lane, ...]
    cost: float = 0.0
    faults: Faults = None
    choices: Choices = None


class Explanation(Struct, frozen=True, gc=False):
    """The cheapest way to understand a text: the rounds of each size, what does not come out, and what was chosen."""

    rounds: tuple[tuple[Done, ...], ...]
    faults: tuple[Fault, ...]
    choices: tuple[tuple[int, Candidate], ...]
    cost: float


class FaultyError(Exception):
    """What does not come out in a size, and the counts it may go on with."""

    def __init__(self, fault: Fault, counts: tuple[int, ...], cost: float) -> None:
        super().__init__(fault.code)
        self.fault = fault
        self.counts = counts
        self.cost = cost


class Budget:
    """The steps a text may cost: stitches, repeats and words looked at. Counted, so that no text takes long."""

    def __init__(self, steps: int) -> None:
        self.steps = steps
        self.left = steps

    def spend(self, steps: int) -> None:
        """Count steps done."""
        self.left -= steps

    @property
    def spent(self) -> int:
        """Steps done so far."""
        return self.steps - self.left


def last_shaping(chain: Chain) -> Round | None:
    """The last round that took stitches away or added some, of the rounds shortly before."""
    for _ in range(MOST_LOOKED_BACK):
        if chain is None:
            return None
        chain, done = chain
        if done.round.after != done.round.before:
            return done.round
    return None


def unrolled(chain: Chain) -> list[Done]:
    """The rounds of a chain in their order."""
    rounds: list[Done] = []
    while chain:
        chain, done = chain
        rounds.append(done)
    rounds.reverse()
    return rounds
