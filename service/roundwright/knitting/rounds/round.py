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
    line: Annotated[
        Annotated[int, Meta(ge=1, le=LONGEST_TEXT + 1)] | None,
        Meta(description="Line of the text that asks for it, from 1; null where no text does."),
    ] = None


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
        known[key] = _execute(_first(steps, stitches, known) if stitches else steps, known)
    return known[key]


def first(steps: Steps, stitches: int) -> Steps:
    """The steps up to where they have used `stitches`, with the increases that follow there.

    Raises `Unworkable` where that place lies inside a stitch, or beyond the last.
    """
    return _first(steps, stitches, {})


def _first(steps: Steps, stitches: int, known: _Known) -> Steps:
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
                taken.extend(_first(step.steps, stitches, known))
                return tuple(taken)
    if stitches:
        raise Unworkable(
            "A repeat is to stop early at a place it does not have.", nearest="a repeat worked whole"
        )
    return tuple(taken)


def spelled(steps: Steps) -> Iterator[Step]:
    """The steps, with what a repeat that stops early works of its last time set out after it as steps of its own."""
    for step in steps:
        if isinstance(step, Work) or not step.again:
            yield step
        else:
            yield Repeat(step.times, step.steps)
            yield from spelled(first(step.steps, step.again))


def work_round(
    number: int,
    before: int,
    steps: Steps,
    kind: RoundKind | None = None,
    notes: tuple[str, ...] = (),
    *,
    flat: bool = False,
) -> Round:
    """The round, or with `flat` the row, that these steps make of `before` stitches.

    Raises `Unworkable` where the steps use more or fewer stitches than there are.
    """
    used, after, text = _worked_and_written(steps, flat)
    if used != before:
        raise Unworkable(f"Round {number} uses {used} stitches, but there are {before}.")
    if kind is None:
        kind = "plain" if after == before else "decrease" if after < before else "increase"
    return Round(number=number, before=before, after=after, steps=steps, text=text, kind=kind, notes=notes)


@lru_cache(maxsize=2048)  # hats of all sizes are full of the same rounds
def _worked_and_written(steps: Steps, flat: bool) -> tuple[int, int, str]:
    """Stitches used and left, and the written line."""
    return *execute(steps), line(steps, flat=flat)


def chained(rounds: tuple[Round, ...], pointer: str = "#/rounds") -> tuple[Round, ...]:
    """The rounds, executed and proved to chain.

    Raises `Unworkable`, naming the first round that is wrong, where a round does not use exactly the stitches the one
    before left, or states counts that its steps do not give.
    """
    count = rounds[0].before if rounds else 0
    for index, each in enumerate(rounds):
        used, left = execute(each.steps)
        where = f"{pointer}/{index}"
        if used != count:
            over = used - count
            raise Unworkable(
                f"Round {each.number} works {used} stitches, but {count} are on the needles.",
                pointer=f"{where}/steps",
                nearest=f"a round that works {count} stitches: {abs(over)} {'fewer' if over > 0 else 'more'}",
            )
        if each.before != used or each.after != left:
            raise Unworkable(
                f"Round {each.number} says {each.before} to {each.after} stitches; its steps make {used} to {left}.",
                pointer=f"{where}/{'before' if each.before != used else 'after'}",
                nearest=f"before {used}, after {left}",
            )
        count = left
    return rounds


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
        for step in spelled(steps)
    )


def runs(steps: Steps) -> Iterator[tuple[StitchName, int]]:
    """The stitches in working order, equal neighbours of one step together: ("k", 2), ("k2tog", 1), ..."""
    for step in spelled(steps):
        if isinstance(step, Work):
            yield step.stitch, step.times
        else:
            for _ in range(step.times):
                yield from runs(step.steps)


@lru_cache(maxsize=1024)
def names_in(steps: Steps) -> frozenset[StitchName]:
    """The stitches that occur in the steps."""
    return frozenset().union(
        *({step.stitch} if isinstance(step, Work) else names_in(step.steps) for step in steps)
    )


def knit(times: int) -> Steps:
    """`times` knit stitches as steps: none for none."""
    return (Work("k", times),) if times else ()


@lru_cache(maxsize=1024)
def plain(stitches: int) -> Steps:
    """A round of knit stitches."""
    return (Work("k", stitches),)


# --- the written line -------------------------------------------------------------------------------------------


def line(steps: Steps, *, flat: bool = False) -> str:
    """The written line of a round, without its count: `*k2, k2tog; rep from * around` (`to end` for a row)."""
    if len(steps) == 1 and isinstance(steps[0], Work):
        whole = {"k": "knit", "p": "purl"}.get(steps[0].stitch)
        if whole:
            return whole
    star = star_of(steps)
    return _inline(steps) if star is None else _starred(*star, end="to end" if flat else "around")


def star_of(steps: Steps) -> tuple[Steps, Repeat, Steps] | None:
    """What stands before the one repeat of a round, that repeat, and what stands after it; None for other rounds.

    Such a round is written with a star: its repeat goes on to the end, or to the stitches of what follows.
    """
    repeats = [index for index, step in enumerate(steps) if isinstance(step, Repeat)]
    if len(repeats) != 1:
        return None
    index = repeats[0]
    repeat, tail = steps[index], steps[index + 1 :]
    if (
        not isinstance(repeat, Repeat)
        or repeat.times == 1
        or repeat.again
        or any(isinstance(s, Repeat) for s in repeat.steps)
    ):
        return None
    if not execute(repeat.steps)[0] or (tail and not execute(tail)[0]):
        return None  # increases alone use up no stitches to tell the end by
    return steps[:index], repeat, tail


def _starred(head: Steps, repeat: Repeat, tail: Steps, end: str) -> str:
    start = f"{_inline(head)}, " if head else ""
    if not tail:
        return f"{start}*{_inline(repeat.steps)}; rep from * {end}"
    used, _ = execute(tail)
    last = "last st" if used == 1 else f"last {used} sts"
    return f"{start}*{_inline(repeat.steps)}; rep from * to {last}, {_inline(tail)}"


def _inline(steps: Steps) -> str:
    return ", ".join(_phrase(step) for step in steps)


def _phrase(step: Step) -> str:
    if isinstance(step, Repeat):
        inside = _inline(step.steps)
        if step.again:
            times = "once" if step.times == 1 else f"{step.times} times"
            part = "first st" if step.again == 1 else f"first {step.again} sts"
            return f"[{inside}] {times} and its {part} again"
        return inside if step.times == 1 else f"[{inside}] {step.times} times"
    if step.stitch in ("k", "p", "sl"):
        return f"{step.stitch}{step.times}"
    return step.stitch if step.times == 1 else f"[{step.stitch}] {step.times} times"
