"""The start: steps from the cast-on to the working needles."""

from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.knitting.needles.best_split import NeedleStitches
from roundwright.knitting.needles.capacity import CORD_SQUEEZE_PERCENT, double_pointed_mm, stitches_held
from roundwright.knitting.quantities import Gauge, stitch_width_mm

USUAL_NEEDLE_MM: Final = 200.0
"""Length of a double-pointed needle for hats, where none is given: 20 cm or 8 in (common practice)."""
USUAL_GAUGE: Final = Gauge(stitches=20.0)
"""Gauge by which stitches are fitted on a needle where none is given: medium yarn (Craft Yarn Council)."""


class StartStep(Struct, frozen=True, kw_only=True):
    """A step on the way from the cast-on to the working needles."""

    needles: Annotated[NeedleStitches, Meta(description="Stitches on each needle after the step.")]
    text: Annotated[str, Meta(description="What to do.")]


def cast_on_capacity(gauge: Gauge | None, needle_mm: float = USUAL_NEEDLE_MM) -> int:
    """Stitches just cast on that a double-pointed needle holds: pushed together as on a cord (common practice)."""
    width_mm = stitch_width_mm(gauge or USUAL_GAUGE)
    return stitches_held(double_pointed_mm(needle_mm), width_mm, CORD_SQUEEZE_PERCENT)


def start_on(split: tuple[int, ...], holds: int, part: str | None = None) -> tuple[StartStep, ...]:
    """The steps from the cast-on to the working needles (common practice); a needle holds so many stitches.

    Where one needle holds all stitches: one needle, two halves, working needles. Where it does not, the cast-on goes to
    two needles, or to the working needles at once. With two needles the halves are the split itself. `part` names what
    the first round belongs to.
    """
    stitches = sum(split)
    half = split[0] if len(split) == 2 else stitches // 2
    halves = (half, stitches - half)
    join = _JOIN if len(split) == 2 else ""
    if stitches <= holds:
        steps = [
            StartStep(needles=(stitches,), text=f"Cast on {stitches} stitches to one needle."),
            StartStep(
                needles=halves,
                text=f"Slide {halves[1]} of them to a second needle: {halves[0]} and {halves[1]}.{join}",
            ),
        ]
    elif max(halves) <= holds or len(split) == 2:
        text = f"Cast on to two needles, {halves[0]} and {halves[1]}: all {stitches} do not fit on one."
        steps = [StartStep(needles=halves, text=text + join)]
    else:
        text = f"Cast on to all {len(split)} needles: {_listed(split)}. All {stitches} do not fit on fewer."
        return (StartStep(needles=split, text=text + _JOIN),)
    if len(split) > 2:
        first_round = f"the first round of the {part}" if part else "the first round"
        counted = f"It is the first of the {part}'s rounds." if part else "It counts as round 1."
        text = f"Join, the cast-on edge untwisted, and work {first_round}: {_shares(split)}. {counted}"
        steps.append(StartStep(needles=split, text=text))
    return tuple(steps)


def start_on_loop(split: tuple[int, ...]) -> tuple[StartStep, ...]:
    """The steps from the cast-on to the two halves of a magic loop (common practice)."""
    stitches = sum(split)
    loop = f"Pull a loop of cord out after stitch {split[0]}: {split[0]} on one tip, {split[1]} on the other."
    return (
        StartStep(needles=(stitches,), text=f"Cast on {stitches} stitches to the circular needle."),
        StartStep(needles=split, text=loop + _JOIN),
    )


def start_on_circulars(split: tuple[int, ...]) -> tuple[StartStep, ...]:
    """The steps from the cast-on to two circulars (common practice)."""
    stitches = sum(split)
    slide = f"Slide {split[1]} of them to the second circular: {split[0]} and {split[1]}."
    return (
        StartStep(needles=(stitches,), text=f"Cast on {stitches} stitches to one circular needle."),
        StartStep(needles=split, text=slide + _JOIN),
    )


def _shares(split: tuple[int, ...]) -> str:
    if len(set(split)) == 1:
        return f"{split[0]} on to each of the {_NUMBERS[len(split)]} needles"
    shares = [f"{count} on to the {_ORDINALS[index]}" for index, count in enumerate(split)]
    return f"{', '.join(shares)} needle"


def _listed(split: tuple[int, ...]) -> str:
    return f"{', '.join(str(count) for count in split[:-1])} and {split[-1]}"


_JOIN: Final = " Join, the cast-on edge untwisted."
_NUMBERS: Final = {3: "three", 4: "four", 5: "five"}
_ORDINALS: Final = ("first", "second", "third", "fourth", "fifth")
