"""The start: steps from the cast-on to the working needles."""

from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.needles.best_split import NeedleStitches
from roundwright.knitting.needles.capacity import (
    CORD_SQUEEZE_PERCENT,
    USUAL_SQUEEZE_PERCENT,
    double_pointed_mm,
    stitches_held,
)
from roundwright.knitting.quantities import Gauge, stitch_width_mm
from roundwright.language import Message, joined, listed, say

USUAL_NEEDLE_MM: Final = 200.0
"""Length of a double-pointed needle for hats, where none is given: 20 cm or 8 in (common practice)."""
USUAL_GAUGE: Final = Gauge(stitches=20.0)
"""Gauge by which stitches are fitted on a needle where none is given: medium yarn (Craft Yarn Council)."""


class StartStep(Struct, frozen=True, kw_only=True):
    """A step on the way from the cast-on to the working needles."""

    needles: Annotated[NeedleStitches, Meta(description="Stitches on each needle after the step.")]
    text: Annotated[str, Meta(description="What to do.")]


class NeedleCapacity(NamedTuple):
    """Stitches that a double-pointed needle holds."""

    cast_on: int
    """Just cast on: with no fabric between them they go together as on a cord (common practice)."""
    knitted: int


def needle_capacity(gauge: Gauge | None, needle_mm: float = USUAL_NEEDLE_MM) -> NeedleCapacity:
    """What a double-pointed needle of a length holds, without its free ends."""
    free_mm, width_mm = double_pointed_mm(needle_mm), stitch_width_mm(gauge or USUAL_GAUGE)
    return NeedleCapacity(
        stitches_held(free_mm, width_mm, CORD_SQUEEZE_PERCENT),
        stitches_held(free_mm, width_mm, USUAL_SQUEEZE_PERCENT),
    )


def start_on(
    split: tuple[int, ...], capacity: NeedleCapacity, part: Literal["brim"] | None = None
) -> tuple[StartStep, ...]:
    """The steps from the cast-on to the working needles (common practice), by what a needle holds.

    Where one needle holds all stitches: one needle, two halves, working needles. Where it does not, the cast-on goes to
    two needles, or to the working needles at once. With two needles the halves are the split itself. `part` names what
    the first round belongs to.
    """
    stitches, holds = sum(split), capacity.cast_on
    half = split[0] if len(split) == 2 else stitches // 2
    halves = (half, stitches - half)
    join = say("start.join") if len(split) == 2 else ""
    together = say("start.pushed_together") if max(halves) > capacity.knitted and len(split) > 2 else ""
    first, second = halves
    if stitches <= holds:
        steps = [
            StartStep(needles=(stitches,), text=say("start.one_needle", stitches=stitches)),
            StartStep(
                needles=halves,
                text=joined(" ", say("start.second_needle", first=first, second=second), together, join),
            ),
        ]
    elif max(halves) <= holds or len(split) == 2:
        text = say("start.two_needles", first=first, second=second, stitches=stitches)
        steps = [StartStep(needles=halves, text=joined(" ", text, together, join))]
    else:
        shares = listed(tuple(map(str, split)))
        text = say("start.all_needles", needles=len(split), shares=shares, stitches=stitches)
        return (StartStep(needles=split, text=joined(" ", text, say("start.join"))),)
    if len(split) > 2:
        text = say(
            "start.first_round" if part is None else f"start.first_round.{part}", shares=_shares(split)
        )
        steps.append(StartStep(needles=split, text=text))
    return tuple(steps)


def start_on_loop(split: tuple[int, ...]) -> tuple[StartStep, ...]:
    """The steps from the cast-on to the two halves of a magic loop (common practice)."""
    stitches = sum(split)
    loop = say("start.loop", first=split[0], second=split[1])
    return (
        StartStep(needles=(stitches,), text=say("start.circular", stitches=stitches)),
        StartStep(needles=split, text=joined(" ", loop, say("start.join"))),
    )


def start_on_circulars(split: tuple[int, ...]) -> tuple[StartStep, ...]:
    """The steps from the cast-on to two circulars (common practice)."""
    stitches = sum(split)
    slide = say("start.second_circular", first=split[0], second=split[1])
    return (
        StartStep(needles=(stitches,), text=say("start.one_circular", stitches=stitches)),
        StartStep(needles=split, text=joined(" ", slide, say("start.join"))),
    )


def _shares(split: tuple[int, ...]) -> Message:
    if len(set(split)) == 1:
        return say(f"start.on_each_of.{len(split)}", stitches=split[0])
    shares = (say(f"start.on_needle.{needle}", stitches=count) for needle, count in enumerate(split, start=1))
    return say("start.on_needles", shares=joined(", ", *shares))
