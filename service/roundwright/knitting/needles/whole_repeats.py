"""Whole repeats: the split of a hat, which cuts neither decreases nor the ribs of the brim where that can be had."""

from typing import Annotated, Final

from msgspec import Meta
from msgspec.structs import replace

from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible
from roundwright.knitting.needles.best_split import (
    MOST_MULTIPLE,
    USUAL_TOLERANCE,
    NeedleSplit,
    best_splits,
    rate_split,
)
from roundwright.knitting.needles.boundaries import BoundaryPaths, boundaries_of
from roundwright.language import Message, say

RibRepeat = Annotated[
    int,
    Meta(
        ge=1,
        le=MOST_MULTIPLE,
        description="Stitches of a repeat of the rib below: the split keeps it whole where that is within the "
        "tolerance and costs few slides. Default 1.",
    ),
]
WHOLE_REPEATS_BASIS: Final = Basis(
    say("split.whole_repeats_basis"),
    COMMON_PRACTICE,
)


def split_in_repeats(
    paths: BoundaryPaths, needles: int, tolerance: int = USUAL_TOLERANCE, repeat: int = 1
) -> NeedleSplit:
    """The best split of stitches that are a multiple of `repeat`, with the reason where it is uneven.

    Of whole repeats where a split within the tolerance has them at no more than a straddle more at each boundary, since
    a rib that is cut is cut in every round of the brim. Raises `Impossible` as `pareto_splits` does.
    """
    best = best_splits(paths, needles, tolerance)[-1]
    if repeat > 1 and _cuts(best.split, repeat):
        try:
            whole = best_splits(paths, needles, tolerance, repeat)[-1]
        except Impossible:  # fewer repeats than needles, or none within the tolerance
            whole = best
        if whole.straddles <= best.straddles + needles - 1:
            best = whole
    return with_reason(paths, best, repeat)


def with_reason(paths: BoundaryPaths, split: NeedleSplit, repeat: int = 1) -> NeedleSplit:
    """The split with the reason why it is not as even as it might be; without one where it is."""
    if split.difference <= 1:
        return split
    share, more = divmod(sum(split.split), len(split.split))
    even = rate_split(paths, tuple(share + (needle < more) for needle in range(len(split.split))))
    in_repeats = repeat > 1 and _cuts(even.split, repeat) and not _cuts(split.split, repeat)
    return replace(split, reason=_reason(repeat if in_repeats else 1, split.straddles, even.straddles))


def _reason(repeat: int, straddles: int, even_straddles: int) -> Message | None:
    """What an uneven split is good for: repeats that are whole, and fewer straddles than the most even one has."""
    repeats = "" if repeat == 1 else ".repeats"
    if straddles >= even_straddles:
        return say("split.uneven.repeats_alone", repeat=repeat) if repeats else None
    whole = "fewer" if straddles else "none"
    return say(f"split.uneven.{whole}{repeats}", repeat=repeat)


def _cuts(split: tuple[int, ...], repeat: int) -> bool:
    """Whether a boundary lies inside a repeat."""
    return any(boundary % repeat for boundary in boundaries_of(split))
