"""Warnings about a hat: deeper than requested, and sizes that are one size or stand in no order."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil
from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import Notice
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.hat.brim_and_body import DepthOrLength
from roundwright.knitting.hat.part_gauge import body_gauge
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.hat.stretch import BODY_STRETCH, RIB_AT_REST, draws_in, edge_gives
from roundwright.knitting.needles.best_split import USUAL_TOLERANCE, NeedleSplit
from roundwright.knitting.quantities import (
    Length,
    UnitSystem,
    length,
    mm,
    quantity_text,
    range_text,
    stitch_width_mm,
    system_of,
)
from roundwright.knitting.rounds.round import Multiple, nearest_count
from roundwright.knitting.sizing.cast_on import COARSE_PERCENT, FEWEST_STITCHES, USUAL_EASE, ease_for, hat_mm
from roundwright.knitting.sizing.heads import Head
from roundwright.language import Message, joined, listed, say

SMALLER_MULTIPLES: Final = (6, 4, 2, 1)
"""Multiples that may part two sizes: of a crown in 6 sections, of repeats of four, of a rib of 1 + 1, of none."""

DEPTH_MARGIN: Final = 0.2
"""Share by which a hat may be shallower than a skullcap or deeper than a slouch before it is nobody's (common
practice)."""
CROWN_MARGIN: Final = 0.1
"""Share by which the crown may begin wider or narrower than the body before it shows (common practice)."""
ABOUT_THE_REQUEST: Final = frozenset(
    {
        "chart_below_measured",
        "crown_gathers",
        "crown_off_body",
        "deeper",
        "dome_shared",
        "gauge_mistyped",
        "gauge_per_inch",
        "gauge_swapped",
        "not_flat",
        "rib_of_two_colours",
        "sizes_alike",
        "sizes_out_of_order",
        "tolerance_passed",
        "unusual_depth",
        "unusual_ease",
        "unusual_head",
    }
)
"""Warnings for whoever plans the hat: a knitter with needles in hand can do nothing about them."""
NOT_PRINTED: Final = frozenset({"option_unused", "standards_meet"})
"""Warnings for whoever sends the request or asks where a number comes from: they change nothing of the hat."""

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
    depth: Length
    own_depth: bool
    """Whether the request gives this size a depth of its own."""

    @property
    def depth_mm(self) -> float:
        """The depth in millimetres."""
        return mm(self.depth)


def named_by_size(warnings: Sequence[tuple[str, Sequence[Notice]]]) -> Iterator[Notice]:
    """The warnings of all sizes, given with the label of each; one that not all have begins with its size."""
    for label, notices in warnings:
        for notice in notices:
            if all(notice in others for _, others in warnings) or notice.message.startswith(f"{label}: "):
                yield notice
            else:
                yield replace(notice, message=say("hat.of_size", size=label, text=notice.message))


def deeper_notice(label: str, depth_mm: float, reached_mm: float, units: UnitSystem, pointer: str) -> Notice:
    """The warning that brim and crown alone are deeper than the depth: the nearest depth that fits."""
    depth, reached = length(depth_mm, units), length(reached_mm, units)
    return Notice(
        code="deeper",
        message=say(
            "hat.deeper", size=label, reached=quantity_text(reached, 3), depth=quantity_text(depth, 3)
        ),
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
    long = "shallow" if value < least else "deep"
    if requested.body_length is None:
        usual = say("hat.usual_depth", nearest=quantity_text(nearest, 3))
    else:
        usual = say("hat.usual_depth.body", nearest=quantity_text(nearest, 3))
    return (
        Notice(
            code="unusual_depth",
            message=say(
                f"hat.unusual_depth.{long}",
                size=label,
                depth=quantity_text(deep, 3),
                head=quantity_text(head, 3),
                usual=range_text(low, high, 3),
                nearest=usual,
            ),
            pointer=pointer,
        ),
    )


def unusual_ease(
    label: str, request: HatRequest, index: int, head: Head, *, body_rounds: int, at: str
) -> tuple[Notice, ...]:
    """The warning that a requested ease is one no head wears: too tight to be comfortable, or wider than the head."""
    head_mm = head.mm
    edge_mm = hat_mm(head_mm, ease_for(head, request.ease), f"{at}/ease")
    fuller = 1 + (request.body_of(index).fullness or 0.0) / 100
    gives = min(edge_gives(request), BODY_STRETCH * fuller) if body_rounds else edge_gives(request)
    # A rib with a swatch of its own was measured at rest.
    at_rest = RIB_AT_REST if draws_in(request) and request.brim.gauge is None else 1.0
    spare_mm = head_mm * COARSE_PERCENT / 100
    if edge_mm * gives < head_mm - spare_mm:
        sentence, nearest = "tight", ceil(100 / gives - 100)
    elif edge_mm * at_rest > head_mm + spare_mm:
        sentence, nearest = "slips_off", 0
    elif edge_mm > head_mm + spare_mm and fuller == 1:
        sentence, nearest = "loose", 0
    else:
        return ()
    return (
        Notice(
            code="unusual_ease",
            message=say(
                f"hat.unusual_ease.{sentence}",
                size=label,
                ease=100 * (edge_mm / head_mm - 1),
                hat=quantity_text(length(edge_mm, request.units), 3),
                head=quantity_text(length(head_mm, request.units), 3),
                stretch=100 * (head_mm / edge_mm - 1),
                nearest=nearest,
                usual=USUAL_EASE.percent,
            ),
            pointer=f"{at}/ease",
        ),
    )


def crown_off_body(
    label: str, request: HatRequest, index: int, crown: CrownAnswer, at: str
) -> tuple[Notice, ...]:
    """The warning that the crown, at the gauge of the hat, begins much wider or narrower than the body below it."""
    body_mm = crown.stitches * body_gauge(request, index, at).width_mm
    stitch_mm = stitch_width_mm(request.gauge)
    crown_mm = crown.shaped_stitches * stitch_mm
    if abs(crown_mm / body_mm - 1) <= CROWN_MARGIN:
        return ()
    own = request.sizes[index].body
    is_own = own is not None and own.gauge is not None
    return (
        Notice(
            code="crown_off_body",
            message=say(
                "hat.crown_off_body",
                size=label,
                stitches=crown.shaped_stitches,
                crown=quantity_text(length(crown_mm, request.units), 3),
                body=quantity_text(length(body_mm, request.units), 3),
                exact=body_mm / stitch_mm,
            ),
            pointer=f"{at}/sizes/{index}/body/gauge" if is_own else f"{at}/body/gauge",
        ),
    )


def unused_notice(requested: DepthOrLength) -> tuple[Notice, ...]:
    """The warning that what a size says of its depth goes before what the request says of the depth of all."""
    if requested.unused is None:
        return ()
    message = say("hat.body_length_unused" if requested.depth else "hat.depth_unused")
    return (Notice(code="option_unused", message=message, pointer=requested.unused),)


def tolerance_notice(split: NeedleSplit | None, tolerance: int, pointer: str) -> tuple[Notice, ...]:
    """The warning that a split in whole sections goes beyond a tolerance that the request narrows."""
    if split is None or split.difference <= tolerance or tolerance >= USUAL_TOLERANCE:
        return ()
    message = say(
        "hat.tolerance_passed",
        shares=listed(tuple(map(str, split.split))),
        difference=split.difference,
        tolerance=tolerance,
    )
    return (Notice(code="tolerance_passed", message=message, pointer=pointer),)


def shared_dome_notice(higher_mm: Sequence[tuple[str, float]], units: UnitSystem) -> Iterator[Notice]:
    """The warning that sizes too far apart share one dome.

    `higher_mm` are the sizes, and how much higher the crown of each is than a dome of its own.
    """
    (flat_label, flat_mm), (high_label, high_mm) = (
        choose(higher_mm, key=lambda size: size[1]) for choose in (min, max)
    )
    if max(-flat_mm, high_mm) <= SAME_DEPTH_MM or flat_mm >= 0 or high_mm <= 0:
        return
    yield Notice(
        code="dome_shared",
        message=say(
            "hat.dome_shared",
            flatter=flat_label,
            less=quantity_text(length(-flat_mm, units), 2),
            higher=high_label,
            more=quantity_text(length(high_mm, units), 2),
        ),
        pointer="#/crown/style",
    )


def rib_of_two_colours(*, brim_purl: str | None) -> Iterator[Notice]:
    """The warning that a rib of two colours is not the elastic edge that a rib is chosen for."""
    if brim_purl is not None:
        yield Notice(
            code="rib_of_two_colours",
            message=say("hat.rib_of_two_colours"),
            pointer="#/colours/brim_purl",
        )


def floats_notice(*, folded: bool, brim_purl: str | None) -> Iterator[Notice]:
    """The warning that the yarn carried behind a two-colour rib shows where the brim is turned up."""
    if folded and brim_purl is not None:
        yield Notice(
            code="floats_show",
            message=say("hat.floats_show"),
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
    named = [say("hat.numbered_size", number=index + 1, size=sizes[index].label) for index in indexes]
    exact = sorted(sizes[index].exact for index in indexes)
    depths_mm = [sizes[index].depth_mm for index in indexes]
    apart_mm = max(depths_mm) - min(depths_mm)
    units = system_of(sizes[indexes[0]].depth.unit)
    return Notice(
        code="sizes_alike",
        message=say(
            "hat.sizes_alike.equally_deep" if apart_mm < SAME_DEPTH_MM else "hat.sizes_alike.depth_alone",
            sizes=listed(tuple(named)),
            stitches=sizes[indexes[0]].cast_on,
            apart=quantity_text(length(apart_mm, units), 2),
            what_parts=_what_parts(exact[0], exact[-1]),
        ),
        pointer=f"#/sizes/{indexes[1]}",
    )


def _what_parts(smallest: float, largest: float) -> Message:
    """What would part sizes on one count, by the stitches that the smallest and the largest take exactly."""
    if largest - smallest < SAME_HEAD:
        return say("hat.same_heads")
    for multiple in SMALLER_MULTIPLES:
        counts = [nearest_count(exact, Multiple(multiple), FEWEST_STITCHES) for exact in (smallest, largest)]
        if counts[0] != counts[1]:
            return say("hat.multiple_parts", multiple=multiple, smallest=counts[0], largest=counts[1])
    return say("hat.gauge_parts")


def _out_of_order(sizes: Sequence[SizeCount], index: int) -> Notice:
    order = sorted(range(len(sizes)), key=lambda size: sizes[size].head_mm)
    return Notice(
        code="sizes_out_of_order",
        message=say(
            "hat.sizes_out_of_order",
            smaller=say("hat.numbered_size", number=index + 1, size=sizes[index].label),
            larger=say("hat.numbered_size", number=index, size=sizes[index - 1].label),
            order=joined(", ", *(str(size + 1) for size in order)),
        ),
        pointer=f"#/sizes/{index}",
    )
