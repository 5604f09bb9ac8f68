"""The round: what is worked, once around. Everything the service knows ends in, or starts from, one.

A *step* is either work (`k2tog`, once) or a repeat (nine times: k4, k2tog); steps nest. A round is executed, never
trusted: its counts come from running its steps, by arithmetic and without expanding repeats.
"""

from collections.abc import Callable, Iterable, Iterator
from functools import cache, lru_cache
from math import floor
from typing import TYPE_CHECKING, Annotated, Final, Literal, TypeVar

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import Impossible

MOST_STITCHES: Final = 1_000_000
"""Stitches in one round or row: a machine-knit blanket has a thousandth of it."""
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
else:  # the names in the table of stitches, so that a stitch is added in one place
    StitchName = Literal[tuple(reference.stitches())]

RoundKind = Literal["plain", "rib", "garter", "decrease", "increase", "shaping", "adjust"]


class Work(Struct, frozen=True, forbid_unknown_fields=True, tag_field="type", tag="work"):
    """One stitch, worked some times in a row."""

    stitch: Annotated[StitchName, Meta(description="Name of the stitch, as in `/v1/standards/stitches`.")]
    times: Annotated[int, Meta(ge=1, le=MOST_TIMES, description="How many times in a row.")] = 1


class Repeat(
    Struct, frozen=True, forbid_unknown_fields=True, tag_field="type", tag="repeat", omit_defaults=True
):
    """Some steps, worked one after the other, some times over; the last time may stop early."""

    times: Annotated[int, Meta(ge=1, le=MOST_TIMES, description="How many times over.")]
    steps: Annotated[
        tuple["Step", ...],
        Meta(min_length=1, max_length=MOST_STEPS, description="What is repeated."),
    ]
    again: Annotated[
        int,
        Meta(
            ge=0,
            le=MOST_STITCHES,
            description="Stitches of the round below that are worked of one more time through, with the increases "
            "that follow on them: the repeat ends early. Left out where it does not.",
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
        int, Meta(ge=1, le=MOST_STITCHES, description="How many, from the end of that needle.")
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
        Meta(description="Stitches on each needle after the round; null when no needles were asked for."),
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
        Meta(max_length=MOST_NOTES, description="What the knitter should mind in this round."),
    ] = ()


class Multiple(Struct, frozen=True, forbid_unknown_fields=True):
    """A count that a stitch pattern comes out on: a multiple of `of`, plus `plus`."""

    of: Annotated[int, Meta(ge=1, le=1_000, description="Stitches in one repeat of the pattern.")]
    plus: Annotated[int, Meta(ge=0, le=1_000, description="Stitches beside the repeats, once a round.")] = 0


def nearest_count(exact: float, multiple: Multiple, fewest: int = 1) -> int:
    """The count nearest to `exact` that fits the multiple, with one repeat and `fewest` stitches at least.

    Half-way between two, the larger one.
    """
    repeats = floor((exact - multiple.plus) / multiple.of + 0.5)
    least = -((multiple.plus - fewest) // multiple.of)  # rounded up
    return max(repeats, least, 1) * multiple.of + multiple.plus


class Unworkable(Impossible):
    """A round that does not come out, or rounds that do not chain."""


@cache
def uses_and_leaves() -> dict[str, tuple[int, int]]:
    """Stitches each stitch of the table takes from the left needle and leaves on the right, by its name."""
    return {name: (row.uses, row.leaves) for name, row in reference.stitches().items()}


def execute(steps: Steps) -> tuple[int, int]:
    """Stitches the steps use from the left needle, and stitches they leave on the right.

    By arithmetic: the time does not grow with the times of a repeat. Raises `Unworkable` for a repeat that is to stop
    early at a place it does not have.
    """
    return _execute(steps, {})


_Known = dict[tuple[int, int], tuple[int, int]]
"""What is used and left by the steps of a repeat, and by a part of them: repeats that stop early nest deeply."""


def _execute(steps: Steps, known: _Known) -> tuple[int, int]:
    facts = uses_and_leaves()
    used = left = 0
    for step in steps:
        if isinstance(step, Work):
            uses, leaves = facts[step.stitch]
        else:
            uses, leaves = _part(step.steps, 0, known)
            if step.again:
                more, made = _part(step.steps, step.again, known)
                used += more
                left += made
        used += uses * step.times
        left += leaves * step.times
    return used, left


def _part(steps: Steps, stitches: int, known: _Known) -> tuple[int, int]:
    """What the steps of a repeat use and leave: all of them, or (where not 0) those of its first `stitches`."""
    key = (id(steps), stitches)
    if key not in known:
        known[key] = _execute(_leading_steps(steps, stitches, known) if stitches else steps, known)
    return known[key]


def leading_steps(steps: Steps, stitches: int) -> Steps:
    """The steps up to where they have used `stitches`, with the increases that follow there.

    Raises `Unworkable` where that place lies inside a stitch, or beyond the last.
    """
    return _leading_steps(steps, stitches, {})


def _leading_steps(steps: Steps, stitches: int, known: _Known) -> Steps:
    taken: list[Step] = []
    for step in steps:
        if isinstance(step, Work):
            uses = uses_and_leaves()[step.stitch][0]
            turns = min(step.times, stitches // uses) if uses else step.times
            if turns:
                taken.append(Work(step.stitch, turns))
            stitches -= turns * uses
            if turns < step.times:
                break
        else:
            uses = _part(step.steps, 0, known)[0]
            turns = min(step.times, stitches // uses) if uses else step.times
            stitches -= turns * uses
            again = step.again if turns == step.times and stitches >= step.again else 0
            if turns:
                taken.extend(step.steps if (turns, again) == (1, 0) else [Repeat(turns, step.steps, again)])
            stitches -= again
            if turns < step.times or again < step.again:
                taken.extend(_leading_steps(step.steps, stitches, known))
                return tuple(taken)
    if stitches:
        raise Unworkable(
            "A repeat is to stop early at a place it does not have.", nearest="a repeat worked whole"
        )
    return tuple(taken)


def expand_early_stops(steps: Steps) -> Iterator[Step]:
    """The steps, with what a repeat that stops early works of its last time set out after it as steps of its own."""
    for step in steps:
        if isinstance(step, Work) or not step.again:
            yield step
        else:
            yield Repeat(step.times, step.steps)
            yield from expand_early_stops(leading_steps(step.steps, step.again))


def fold(
    steps: Steps,
    worked: Callable[[Work], T],
    repeated: Callable[[T, int], T],
    together: Callable[[Iterable[T]], T],
) -> T:
    """One value for the steps: of each work, of what a repeat comes to in all its times, and of both together."""
    return together(
        worked(step)
        if isinstance(step, Work)
        else repeated(fold(step.steps, worked, repeated, together), step.times)
        for step in expand_early_stops(steps)
    )


def runs(steps: Steps) -> Iterator[tuple[StitchName, int]]:
    """The stitches in working order, equal neighbours of one step together: ("k", 2), ("k2tog", 1), ..."""
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
    """`times` knit stitches as steps: none for none."""
    return (Work("k", times),) if times else ()


@lru_cache(maxsize=1024)
def plain(stitches: int) -> Steps:
    """A round of knit stitches."""
    return (Work("k", stitches),)
