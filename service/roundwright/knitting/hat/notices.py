"""Warnings about a hat: deeper than requested, and sizes that are one size or stand in no order."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import Notice
from roundwright.knitting.hat.brim_and_body import DepthOrLength
from roundwright.knitting.quantities import UnitSystem, length, mm
from roundwright.knitting.rounds.round import Multiple, nearest_count
from roundwright.knitting.sizing.cast_on import FEWEST_STITCHES

SMALLER_MULTIPLES: Final = (6, 4, 2, 1)
"""Multiples that may part two sizes: of a crown in 6 sections, of repeats of four, of a rib of 1 + 1, of none."""

DEPTH_MARGIN: Final = 0.2
"""Share by which a hat may be shallower than a skullcap or deeper than a slouch before it is nobody's (common
practice)."""
ABOUT_THE_REQUEST: Final = frozenset({"option_unused", "sizes_out_of_order"})
"""Warnings for whoever writes the request: a knitter with needles in hand can do nothing about them."""

SAME_DEPTH_MM: Final = 5.0
"""Depths nearer than half a centimetre are one depth to a tape (common practice)."""
SAME_HEAD: Final = 0.5
"""Stitches by which two sizes differ at least where they are meant to be two."""


class SizeCount(NamedTuple):
    """A size, its head, and the stitches it takes and gets."""

    label: str
    head_mm: float
    exact: float
    cast_on: int
    body: int
    depth_mm: float
    own_depth: bool
    """Whether the request gives this size a depth of its own."""


def named_by_size(warnings: Sequence[tuple[str, Sequence[Notice]]]) -> Iterator[Notice]:
    """The warnings of all sizes, given with the label of each; one that not all have begins with its size."""
    for label, notices in warnings:
        for notice in notices:
            if all(notice in others for _, others in warnings) or notice.message.startswith(f"{label}: "):
                yield notice
            else:
                yield replace(notice, message=f"{label}: {notice.message}")


def deeper_notice(label: str, depth_mm: float, reached_mm: float, units: UnitSystem, pointer: str) -> Notice:
    """The warning that brim and crown alone are deeper than the depth: the nearest depth that fits."""
    depth, reached = length(depth_mm, units), length(reached_mm, units)
    return Notice(
        code="deeper",
        message=f"{label}: with its brim and its crown the hat is {reached.value:.3g} {reached.unit} deep, and "
        f"was to be {depth.value:.3g} {depth.unit}. {reached.value:.3g} {reached.unit} is the nearest depth that "
        "fits; a shorter brim, or a crown with fewer rounds, comes nearer.",
        pointer=pointer,
    )


class DepthReached(NamedTuple):
    """How deep a size is for its head, in millimetres, and what the point of a cone may add."""

    head_mm: float
    edge_to_top_mm: float
    edge_to_crown_mm: float
    beyond_head_mm: float


def unusual_depth(
    label: str, requested: DepthOrLength, reached: DepthReached, units: UnitSystem
) -> tuple[Notice, ...]:
    """The warning that a requested depth is that of no hat for this head: the nearest usual depth."""
    if requested.depth is not None:
        value, pointer, other_mm = mm(requested.depth[0]), requested.depth[1], 0.0
    elif requested.body_length is not None:
        pointer = requested.body_length[1]
        value, other_mm = reached.edge_to_top_mm, reached.edge_to_top_mm - reached.edge_to_crown_mm
    else:
        return ()
    shares = [row.head_share for row in reference.silhouettes().values()]
    least, most = min(shares) * reached.head_mm, max(shares) * reached.head_mm + reached.beyond_head_mm
    if least * (1 - DEPTH_MARGIN) <= value <= most * (1 + DEPTH_MARGIN):
        return ()
    nearest = length(max(0.0, (least if value < least else most) - other_mm), units)
    deep, low, high = (length(depth_mm, units) for depth_mm in (value, least, most))
    head = length(reached.head_mm, units)
    what = "" if requested.body_length is None else " from the edge to the crown"
    return (
        Notice(
            code="unusual_depth",
            message=f"{label}: {deep.value:.3g} {deep.unit} from edge to top is {'less' if value < least else 'more'} "
            f"than hats for a head of {head.value:.3g} {head.unit} have, {low.value:.3g} to {high.value:.3g} "
            f"{high.unit}. The nearest usual is {nearest.value:.3g} {nearest.unit}{what}.",
            pointer=pointer,
        ),
    )


def floats_notice(*, folded: bool, brim_purl: str | None) -> Iterator[Notice]:
    """The warning that the yarn carried behind a two-colour rib shows where the brim is turned up."""
    if folded and brim_purl is not None:
        yield Notice(
            code="floats_show",
            message="The yarn carried behind a rib of two colours comes to lie outside where the brim is turned up. "
            "For the half that is turned up carry it in front, or take a ribbed brim that is not folded.",
            pointer="#/colours/brim_purl",
        )


def size_notices(sizes: Sequence[SizeCount]) -> Iterator[Notice]:
    """A warning for sizes that come out as one, and one for sizes that do not go from the smallest to the largest.

    Sizes on one count that have different depths of their own are meant to differ in depth alone.
    """
    alike: dict[tuple[int, int], list[int]] = {}
    for index, size in enumerate(sizes):
        alike.setdefault((size.cast_on, size.body), []).append(index)
    yield from (
        _alike(sizes, indexes)
        for indexes in alike.values()
        if len(indexes) > 1 and not _differ_on_purpose([sizes[index] for index in indexes])
    )
    smaller = [index for index in range(1, len(sizes)) if sizes[index].head_mm < sizes[index - 1].head_mm]
    if smaller:
        yield _out_of_order(sizes, smaller[0])


def _differ_on_purpose(sizes: Sequence[SizeCount]) -> bool:
    """Whether sizes on one count were given depths that set every one of them apart."""
    depths = sorted(size.depth_mm for size in sizes)
    apart = all(deeper - depth >= SAME_DEPTH_MM for depth, deeper in pairwise(depths))
    return apart and any(size.own_depth for size in sizes)


def _alike(sizes: Sequence[SizeCount], indexes: Sequence[int]) -> Notice:
    *others, last = [f"{index + 1} ({sizes[index].label})" for index in indexes]
    exact = sorted(sizes[index].exact for index in indexes)
    return Notice(
        code="sizes_alike",
        message=f"Sizes {', '.join(others)} and {last} come out on the same {sizes[indexes[0]].cast_on} stitches"
        f"{_in_depth([sizes[index].depth_mm for index in indexes])}. " + _what_parts(exact[0], exact[-1]),
        pointer=f"#/sizes/{indexes[1]}",
    )


def _in_depth(depths_mm: Sequence[float]) -> str:
    """What the depth makes of sizes that are equally wide."""
    apart_mm = max(depths_mm) - min(depths_mm)
    if apart_mm < SAME_DEPTH_MM:
        return " and are equally deep"
    return f" and differ in depth alone, by {apart_mm / 10:.2g} cm"


def _what_parts(smallest: float, largest: float) -> str:
    """What would part sizes on one count, by the stitches that the smallest and the largest take exactly."""
    if largest - smallest < SAME_HEAD:
        return "Their heads are the same: `makers` of one size says how many are knitted."
    for multiple in SMALLER_MULTIPLES:
        counts = [nearest_count(exact, Multiple(multiple), FEWEST_STITCHES) for exact in (smallest, largest)]
        if counts[0] != counts[1]:
            return (
                f"On a multiple of {multiple} they would have {counts[0]} to {counts[1]}: a rib or a crown with a "
                "smaller repeat parts them, and so does a finer gauge."
            )
    return "Only a finer gauge parts them."


def _out_of_order(sizes: Sequence[SizeCount], index: int) -> Notice:
    order = sorted(range(len(sizes)), key=lambda size: sizes[size].head_mm)
    return Notice(
        code="sizes_out_of_order",
        message=f"Size {index + 1} ({sizes[index].label}) is smaller than size {index} ({sizes[index - 1].label}). A "
        f"pattern gives the smallest first; in that order they are {', '.join(str(size + 1) for size in order)}.",
        pointer=f"#/sizes/{index}",
    )
