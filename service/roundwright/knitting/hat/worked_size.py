"""One size of a hat, worked out round by round: cast-on, needles, brim, body and crown."""

from collections.abc import Iterator
from typing import Annotated, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import Basis, Impossible, Notice
from roundwright.knitting.crown.crown import CrownAnswer, work_crown
from roundwright.knitting.hat.bridge import HatCounts, bridged_crown, bridging_round, hat_counts, on_needles
from roundwright.knitting.hat.brim_and_body import (
    DepthOrLength,
    HatPart,
    StraightRounds,
    body_lines,
    brim_lines,
    depth_or_length,
    straight_part,
    straight_rounds,
)
from roundwright.knitting.hat.colours import check_colours, in_colours
from roundwright.knitting.hat.needles import NeedlesInHand, SizeNeedles, needles_in_hand, on_held
from roundwright.knitting.hat.notices import (
    DepthReached,
    crown_off_body,
    deeper_notice,
    tolerance_notice,
    unused_notice,
    unusual_depth,
    unusual_ease,
)
from roundwright.knitting.hat.part_gauge import PartGauge, PartLoops, body_gauge, brim_gauge, part_loops
from roundwright.knitting.hat.request import Brim, HatRequest, HatSize
from roundwright.knitting.needles.best_split import NeedleSplit
from roundwright.knitting.quantities import Length, length, mm, quantity_text, row_height_mm, stitch_width_mm
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.sizing.cast_on import CastOnAnswer
from roundwright.knitting.sizing.depth import USUAL_SILHOUETTE, cone_beyond_head_mm, depth
from roundwright.knitting.sizing.head_references import counted
from roundwright.knitting.sizing.head_units import label_notices
from roundwright.knitting.sizing.heads import Head, head_of
from roundwright.knitting.yarn.segments import WorkSegment, cast_on_segment
from roundwright.language import Message, say


class HatMeasurements(Struct, frozen=True, kw_only=True):
    """The finished hat, laid out. Depths are along the fabric."""

    head: Annotated[Length, Meta(description="Circumference of the head it is for.")]
    circumference: Annotated[Length, Meta(description="Circumference of the brim, unstretched.")]
    body_circumference: Annotated[
        Length,
        Meta(
            description="Circumference of the body, unstretched: that of the brim where both are on one count."
        ),
    ]
    depth: Annotated[Length, Meta(description="Edge to top as worn: brim rolled or turned up.")]
    edge_to_crown: Annotated[
        Length, Meta(description="Cast-on edge to the first round of the crown, brim uncurled and unfolded.")
    ]
    crown_depth: Annotated[
        Length | None,
        Meta(description="First round of the crown to the top; null where it is closed without a round."),
    ]


class WorkedSize(NamedTuple):
    """One size, worked out round by round."""

    size: HatSize
    head: Head
    cast_on: CastOnAnswer
    brim: HatPart
    body: HatPart
    crown: CrownAnswer
    measurements: HatMeasurements
    segments: tuple[WorkSegment, ...]
    split: NeedleSplit | None
    basis: tuple[Basis, ...]
    in_hand: NeedlesInHand | None
    needles: SizeNeedles | None
    warnings: tuple[Notice, ...]


class _Size(NamedTuple):
    """One size of a request, whom it is for, and its stitches; errors point below `at`."""

    request: HatRequest
    size_index: int
    at: str
    head: Head
    counts: HatCounts

    @property
    def hat_size(self) -> HatSize:
        """What is requested; a size alone is for the knitter who makes it."""
        size = self.request.sizes[self.size_index]
        return size if self.request.only_size is None else replace(size, makers=1)

    @property
    def label(self) -> str:
        """Its name."""
        return size_label(self.hat_size)

    @property
    def brim(self) -> PartGauge:
        """A stitch of the brim."""
        return brim_gauge(self.request, self.at)

    @property
    def body(self) -> PartGauge:
        """A stitch of the body."""
        return body_gauge(self.request, self.size_index, self.at)

    @property
    def row_mm(self) -> float:
        """Height of a round at the gauge of the hat, which the crown has."""
        return row_height_mm(self.request.gauge, f"{self.at}/gauge")


def work_size(request: HatRequest, index: int, at: str) -> WorkedSize:
    """The size at `index`, worked out; errors point below `at`. Raises `Impossible` for what cannot be knitted."""
    _check_crown_and_colours(request, at)
    wearer = head_of(request.sizes[index], f"{at}/sizes/{index}", request.units)
    size = _Size(request, index, at, wearer, hat_counts(request, index, wearer, at))
    in_hand = _needles_in_hand(size)
    crown = _crown(size, in_hand)
    depths = _depths(size, crown)
    straight = straight_rounds(
        request, index, depths.wanted_mm, depths.crown_mm, at, bridged=size.counts.is_bridged
    )
    parts = _parts(size, straight, crown, in_hand)
    edge_mm = straight.brim * size.brim.row_mm
    edge_mm += straight.body * size.body.row_mm
    reached = DepthReached(
        wearer.mm, edge_mm + depths.crown_mm - straight.hidden_mm, edge_mm, depths.beyond_head_mm
    )
    return WorkedSize(
        size=size.hat_size,
        head=wearer,
        cast_on=size.counts.cast_on,
        brim=parts.brim,
        body=parts.body,
        crown=parts.crown,
        measurements=_measurements(size, depths, reached),
        segments=in_colours(
            _segments(request.brim, parts, part_loops(request, index, at)),
            request.colours,
            request.brim.rib.knit,
            request.brim.rib.purl,
        ),
        split=parts.split,
        basis=depths.basis,
        in_hand=in_hand,
        needles=parts.needles,
        warnings=(*size.counts.warnings, *parts.warnings, *_warnings(size, parts, depths, reached)),
    )


def _check_crown_and_colours(request: HatRequest, at: str) -> None:
    """Raise `Impossible` for a crown worked flat and for colours that the brim cannot have."""
    if request.crown.worked == "flat":
        raise Impossible(
            say("hat.no_flat_crown"),
            pointer=f"{at}/crown/worked",
            nearest=say("hat.crown_in_the_round"),
            code="cannot_be_worked",
            suggested="in_the_round",
        )
    check_colours(request.colours, ribbed=request.brim.is_ribbed, at=at)


def _needles_in_hand(size: _Size) -> NeedlesInHand | None:
    """What one size is cast on to; None where the request names no needles."""
    request, index = size.request, size.size_index
    needles = request.needles_of(index)
    if needles is None:
        return None
    fewest, *_, most = sorted(size.counts.in_turn)
    return needles_in_hand(needles, fewest, most, request.gauge, request.needles_pointer(index, size.at))


def _crown(size: _Size, in_hand: NeedlesInHand | None) -> CrownAnswer:
    """The crown on the stitches of the body; on its needles where no round between shares them out anew."""
    request, counts = size.request, size.counts
    crown = work_crown(
        counts.crown,
        request.crown if request.finish is None else replace(request.crown, finish=request.finish),
        request.gauge,
        needles=None if in_hand is None or len(set(counts.in_turn)) > 1 else in_hand.held,
        tolerance=request.tolerance,
        repeat=request.brim.repeat,
        hold="double_pointed" if in_hand is None else in_hand.hold,
        units=request.units,
        pointer=f"{size.at}/crown",
    )
    return bridged_crown(crown, counts.body)


class _Depths(NamedTuple):
    """How deep a size is to be, in millimetres along the fabric, and what the request says of it."""

    requested: DepthOrLength
    wanted_mm: float
    """Edge to top."""
    crown_mm: float
    beyond_head_mm: float
    basis: tuple[Basis, ...]


def _depths(size: _Size, crown: CrownAnswer) -> _Depths:
    """The depth of one size: the requested one, else that of the silhouette, with the point of a cone beyond it."""
    request, counts, at = size.request, size.counts, size.at
    crown_mm = len(crown.rounds) * size.row_mm
    around_mm = counts.crown * stitch_width_mm(request.gauge, f"{at}/gauge")
    requested = depth_or_length(request, size.size_index, at)
    usual = depth(size.head.mm, mm(counts.cast_on.circumference), request.silhouette or USUAL_SILHOUETTE)
    beyond_mm = cone_beyond_head_mm(crown_mm, around_mm) if request.crown.style == "cone" else 0.0
    return _Depths(
        requested,
        usual.mm + beyond_mm if requested.depth is None else mm(requested.depth[0]),
        crown_mm,
        beyond_mm,
        basis=() if requested.depth or requested.body_length else (usual.basis,),
    )


class _Parts(NamedTuple):
    """Brim, body and crown with the stitches on each needle, the split of the cast-on, and what to mind."""

    brim: HatPart
    body: HatPart
    crown: CrownAnswer
    split: NeedleSplit | None
    needles: SizeNeedles | None
    warnings: tuple[Notice, ...]


def _parts(
    size: _Size, straight: StraightRounds, crown: CrownAnswer, in_hand: NeedlesInHand | None
) -> _Parts:
    """The parts of one size on its needles, the round between brim and body in one of them."""
    request, counts = size.request, size.counts
    split, adjust = crown.split, None
    if counts.is_bridged:
        number = 1 if straight.adjust_in == "body" else straight.brim
        adjust = bridging_round(number, counts.cast_on.stitches, counts.body)
    if split is None and in_hand is not None and in_hand.held is not None:
        split, adjust, crown = on_needles(
            in_hand.held, request.tolerance, request.brim.repeat, in_hand.hold, adjust, crown
        )
    brim, body = _brim_and_body(size, straight, crown, split=split, adjust=adjust)
    if in_hand is None:
        return _Parts(brim, body, crown, split, None, ())
    held = on_held(in_hand, split, crown, request.tolerance, request.units)
    return _Parts(brim, body, held.crown, split, held.needles, held.warnings)


def _brim_and_body(
    size: _Size,
    straight: StraightRounds,
    crown: CrownAnswer,
    *,
    split: NeedleSplit | None,
    adjust: Round | None,
) -> tuple[HatPart, HatPart]:
    """The brim on the stitches cast on, the body on those of the crown, the round between in one of them."""
    request = size.request
    cast_on = crown.stitches if adjust is None else adjust.before
    before = None if split is None else split.split
    after = None if crown.split is None else crown.split.split
    lines, units = brim_lines(request.brim, cast_on, before), request.units
    brim = straight_part("brim", lines, straight.brim, size.brim.row_mm, units)
    body = straight_part("body", body_lines(crown.stitches, after), straight.body, size.body.row_mm, units)
    if straight.adjust_in == "brim":
        return replace(brim, adjust=adjust), body
    return brim, replace(body, adjust=adjust)


def _measurements(size: _Size, depths: _Depths, reached: DepthReached) -> HatMeasurements:
    """The finished hat, laid out."""
    counts, units = size.counts, size.request.units
    return HatMeasurements(
        head=counts.cast_on.head.circumference,
        circumference=counts.cast_on.circumference,
        body_circumference=length(counts.body * size.body.width_mm, units),
        depth=length(reached.edge_to_top_mm, units),
        edge_to_crown=length(reached.edge_to_crown_mm, units),
        crown_depth=length(depths.crown_mm, units) if depths.crown_mm else None,
    )


def _warnings(size: _Size, parts: _Parts, depths: _Depths, reached: DepthReached) -> Iterator[Notice]:
    """What to mind in one size once it is worked out."""
    request, index, at, requested = size.request, size.size_index, size.at, depths.requested
    label = size.label
    yield from tolerance_notice(parts.split, request.tolerance, f"{at}/tolerance")
    yield from unused_notice(requested)
    if parts.crown.rounds:
        yield from crown_off_body(label, request, index, parts.crown, at)
    yield from unusual_ease(label, request, index, size.head, body_rounds=parts.body.rounds, at=at)
    yield from label_notices(size.hat_size.label, size.hat_size.head, f"{at}/sizes/{index}/head")
    deepest_mm = depths.wanted_mm + size.row_mm
    if requested.body_length is None and reached.edge_to_top_mm > deepest_mm:
        pointer = f"{at}/crown" if requested.depth is None else requested.depth[1]
        yield deeper_notice(label, depths.wanted_mm, reached.edge_to_top_mm, request.units, pointer)
    yield from unusual_depth(label, requested, reached, request.units)


def _segments(brim: Brim, parts: _Parts, loops: PartLoops) -> tuple[WorkSegment, ...]:
    """What is worked, for the yarn: cast-on, brim, body, crown and cord."""
    cast_on, stitches, crown = parts.brim.lines[0].before, parts.crown.stitches, parts.crown
    adjusted = (WorkSegment("brim", stitches, 1, loop=loops.brim),) if parts.brim.adjust else ()
    segments = (
        cast_on_segment(cast_on)._replace(loop=loops.brim),
        WorkSegment("brim", cast_on, parts.brim.rounds_in_turn, brim.is_ribbed, loop=loops.brim),
        *adjusted,
        WorkSegment("body", stitches, parts.body.rounds, loop=loops.body),
        *(WorkSegment("crown", round.after) for round in crown.rounds),  # none is rib, no stitch is slipped
    )
    if crown.finish.cord_rounds is None:
        return segments
    return (*segments, WorkSegment("cord", crown.stitches_left, crown.finish.cord_rounds))


def size_label(size: HatSize) -> str:
    """Name of the size: its label, or else the head in words."""
    if size.label is not None:
        return size.label
    if size.head is not None:
        return say("size.head", head=quantity_text(size.head))
    age = _age(size)
    if age is None:
        return say(f"size.{size.adult or size.chart}")
    return age if size.sex is None else say("size.of_sex", age=age, sex=say(f"sex.{size.sex}"))


def _age(size: HatSize) -> Message | None:
    """The age in words; None where the size is none of an age."""
    if size.age_months == 0 or size.age_years == 0:
        return say("size.newborn")
    if size.age_months is not None:
        return counted(size.age_months, "months")
    if size.age_years is not None:
        return counted(size.age_years, "years")
    if size.gestation_weeks is None:
        return None
    if size.postmenstrual_weeks is not None:
        now = counted(size.postmenstrual_weeks, "weeks")
        return say("size.born_early", born=size.gestation_weeks, now=now)
    return say("size.gestation", weeks=counted(size.gestation_weeks, "weeks"))
