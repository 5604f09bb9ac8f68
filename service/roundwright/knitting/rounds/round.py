"""The round: what is worked, once around. Everything the service knows ends in a round, or starts from one.

A *step* is either work (`k2tog`, once) or a repeat (nine times: k4, k2tog); steps nest. A round is executed, never
trusted: its counts come from running its steps, by arithmetic and without expanding repeats (`work_round`).
"""

from collections.abc import Callable, Iterable, Iterator
from functools import cache, lru_cache
from math import floor
from typing import TYPE_CHECKING, Annotated, Final, Literal, TypeVar

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.language import say

MOST_STITCHES: Final = 1_000_000
"""Stitches in one round or row: even a machine-knit blanket has a thousandth of this."""
MOST_TIMES: Final = 1_000_000
"""Repeats of one step: never more than there are stitches."""
MOST_STEPS: Final = 256
"""Steps side by side in a round: more would not fit on a page."""
MOST_ROUNDS: Final = 400
"""Rounds in one schedule: a hat has about a hundred."""
LAST_ROUND: Final = 10_000
"""Highest number of a round: a scarf in lace has fewer."""
LONGEST_LINE: Final = 2_000
"""Characters of a written line: half a page."""
LONGEST_TEXT: Final = 65_536
"""Characters of a pattern in words: a book is sent pattern by pattern."""
MOST_ON_NEEDLES: Final = 12
"""Needles that hold a round: twice the largest set."""
MOST_NOTES: Final = 8
"""Notes to one round: more are not read."""

if TYPE_CHECKING:
    StitchName = str
else:  # from the table of stitches, so that a stitch is added in one place
    StitchName = Literal[tuple(reference.stitches())]

RoundKind = Literal["plain", "rib", "garter", "decrease", "increase", "shaping", "adjust"]


class Work(Struct, frozen=True, forbid_unknown_fields=True, tag_field="type", tag="work"):
    """One stitch, worked a number of times in a row."""

    stitch: Annotated[StitchName, Meta(description="Name of the stitch, as in `/v1/standards/stitches`.")]
    times: Annotated[int, Meta(ge=1, le=MOST_TIMES, description="How many times in a row.")] = 1


class Repeat(
    Struct, frozen=True, forbid_unknown_fields=True, tag_field="type", tag="repeat", omit_defaults=True
):
    """A sequence of steps, worked a number of times; the last time may stop early."""

    times: Annotated[int, Meta(ge=1, le=MOST_TIMES, description="How many times the sequence is worked.")]
    steps: Annotated[
        tuple["Step", ...],
        Meta(min_length=1, max_length=MOST_STEPS, description="What is repeated."),
    ]
    again: Annotated[
        int,
        Meta(
            ge=0,
            le=MOST_STITCHES,
            description="The repeat is worked once more, but only its first stitches: this number of stitches of the "
            "round below, with the increases that follow them. Left out where it ends whole.",
        ),
    ] = 0


Step = Work | Repeat
T = TypeVar("T")
Steps = tuple[Step, ...]


class Move(Struct, frozen=True, forbid_unknown_fields=True):
    """Stitches slid to the next needle before a round, so that no decrease lies on two needles."""

    needle: Annotated[
        int, Meta(ge=1, le=MOST_ON_NEEDLES, description="Number of the needle they are slid from.")
    ]
    stitches: Annotated[
        int, Meta(ge=1, le=MOST_STITCHES, description="How many stitches, from the end of that needle.")
    ]


class Round(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What is worked, once around."""

    number: Annotated[
        int, Meta(ge=1, le=LAST_ROUND, description="Number of the round in its part of the work.")
    ]
    before: Annotated[int, Meta(ge=0, le=MOST_STITCHES, description="Stitches before the round.")]
    after: Annotated[int, Meta(ge=0, le=MOST_STITCHES, description="Stitches after the round.")]
    steps: Annotated[
        tuple[Step, ...], Meta(min_length=1, max_length=MOST_STEPS, description="What is worked, in order.")
    ]
    text: Annotated[
        str, Meta(max_length=LONGEST_LINE, description="The written line, without the count.")
    ] = ""
    kind: Annotated[RoundKind, Meta(description="What the round does.")] = "plain"
    needles: Annotated[
        Annotated[tuple[Annotated[int, Meta(ge=0, le=MOST_STITCHES)], ...], Meta(max_length=MOST_ON_NEEDLES)]
        | None,
        Meta(description="Stitches on each needle after the round; null without needles in the request."),
    ] = None
    moves: Annotated[
        tuple[Move, ...],
        Meta(
            max_length=MOST_ON_NEEDLES,
            description="Stitches to slide to the next needle before working the round.",
        ),
    ] = ()
    notes: Annotated[
        tuple[Annotated[str, Meta(max_length=500)], ...],
        Meta(max_length=MOST_NOTES, description="What the knitter should watch in this round."),
    ] = ()
    line: Annotated[
        Annotated[int, Meta(ge=1, le=LONGEST_TEXT + 1)] | None,
        Meta(description="Line of the text that asks for it, from 1; null where no text does."),
    ] = None


class Multiple(Struct, frozen=True, forbid_unknown_fields=True):
    """A stitch count that fits a pattern: a multiple of `of`, plus `plus`."""

    of: Annotated[
        int, Meta(ge=1, le=1_000, description="Stitches in one repeat of the pattern.", examples=[4])
    ]
    plus: Annotated[int, Meta(ge=0, le=1_000, description="Stitches outside the repeats, once a round.")] = 0


def nearest_count(exact: float, multiple: Multiple, fewest: int = 1) -> int:
    """The count nearest to `exact` that fits the multiple, with one repeat and `fewest` stitches at least.

    Half-way between two, the larger one.
    """
    repeats = floor((exact - multiple.plus) / multiple.of + 0.5)
    least = -((multiple.plus - fewest) // multiple.of)  # rounded up
    return max(repeats, least, 1) * multiple.of + multiple.plus


class Unworkable(Impossible):
    """A round that does not use the stitches there are, or rounds that do not chain."""

    def __init__(self, detail: str, *, pointer: str = "#", nearest: str | None = None) -> None:
        super().__init__(detail, code="does_not_come_out", pointer=pointer, nearest=nearest)


@cache
def uses_and_leaves() -> dict[str, tuple[int, int]]:
    """Stitches used from the left needle and left on the right, by the name of the stitch in the table."""
    return {name: (row.uses, row.leaves) for name, row in reference.stitches().items()}


@lru_cache(
    maxsize=1024
)  # the style that made a round executes it, and the round itself; many crowns share it
def execute(steps: Steps) -> tuple[int, int]:
    """Stitches the steps use from the left needle, and stitches they leave on the right.

    By arithmetic: running time does not depend on how often a repeat is worked. Raises `Unworkable` for a repeat that
    stops early inside a stitch or beyond its last.
    """
    return _execute(steps, {})


_Counts = dict[tuple[int, int], tuple[int, int]]
"""Cache of stitches used and left, by the identity of the steps and the place where they stop (0: whole)."""


def _execute(steps: Steps, counts: _Counts) -> tuple[int, int]:
    table = uses_and_leaves()
    used = left = 0
    for step in steps:
        if isinstance(step, Work):
            uses, leaves = table[step.stitch]
        else:
            uses, leaves = _part(step.steps, 0, counts)
            if step.again:
                used_again, left_again = _part(step.steps, step.again, counts)
                used += used_again
                left += left_again
        used += uses * step.times
        left += leaves * step.times
    return used, left


def _part(steps: Steps, stitches: int, counts: _Counts) -> tuple[int, int]:
    """Stitches used and left by the steps of a repeat: by all, or (where not 0) by those of its first `stitches`."""
    key = (id(steps), stitches)
    if key not in counts:
        counts[key] = _execute(_leading_steps(steps, stitches, counts) if stitches else steps, counts)
    return counts[key]


def leading_steps(steps: Steps, stitches: int) -> Steps:
    """The steps that use the first `stitches`, with the increases that follow there.

    Raises `Unworkable` where that place is inside a stitch or beyond the last.
    """
    return _leading_steps(steps, stitches, {})


def _leading_steps(steps: Steps, stitches: int, counts: _Counts) -> Steps:
    leading: list[Step] = []
    for step in steps:
        if isinstance(step, Work):
            uses = uses_and_leaves()[step.stitch][0]
            times = min(step.times, stitches // uses) if uses else step.times
            if times:
                leading.append(Work(step.stitch, times))
            stitches -= times * uses
            if times < step.times:
                break
        else:
            uses = _part(step.steps, 0, counts)[0]
            times = min(step.times, stitches // uses) if uses else step.times
            stitches -= times * uses
            again = step.again if times == step.times and stitches >= step.again else 0
            if times:
                leading.extend(step.steps if (times, again) == (1, 0) else [Repeat(times, step.steps, again)])
            stitches -= again
            if times < step.times or again < step.again:
                leading.extend(_leading_steps(step.steps, stitches, counts))
                return tuple(leading)
    if stitches:
        raise Unworkable(say("round_check.early_stop"), nearest=say("round_check.whole_repeat"))
    return tuple(leading)


def expand_early_stops(steps: Steps) -> Iterator[Step]:
    """The steps without early stops: the part that such a repeat works last follows it as separate steps."""
    for step in steps:
        if isinstance(step, Work) or not step.again:
            yield step
        else:
            yield Repeat(step.times, step.steps)
            yield from expand_early_stops(leading_steps(step.steps, step.again))


def fold(
    steps: Steps,
    of_work: Callable[[Work], T],
    of_repeat: Callable[[T, int], T],
    combine: Callable[[Iterable[T]], T],
) -> T:
    """One value for the steps.

    `of_work` gives the value of a work, `of_repeat` that of a repeat from the value of its steps and its times, and
    `combine` that of steps side by side.
    """
    return combine(
        of_work(step)
        if isinstance(step, Work)
        else of_repeat(fold(step.steps, of_work, of_repeat, combine), step.times)
        for step in expand_early_stops(steps)
    )


def runs(steps: Steps) -> Iterator[tuple[StitchName, int]]:
    """The stitches in working order, as name and times of each work: ("k", 2), ("k2tog", 1), ..."""
    for step in expand_early_stops(steps):
        if isinstance(step, Work):
            yield step.stitch, step.times
        else:
            for _ in range(step.times):
                yield from runs(step.steps)


@lru_cache(maxsize=1024)
def stitch_names(steps: Steps) -> frozenset[StitchName]:
    """The stitches that occur in the steps."""
    return frozenset().union(
        *({step.stitch} if isinstance(step, Work) else stitch_names(step.steps) for step in steps)
    )


def knit(times: int) -> Steps:
    """`times` knit stitches as steps; no steps for 0."""
    return (Work("k", times),) if times else ()


@lru_cache(maxsize=1024)
def plain(stitches: int) -> Steps:
    """A round of knit stitches."""
    return (Work("k", stitches),)
