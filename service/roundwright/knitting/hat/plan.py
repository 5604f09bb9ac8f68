"""Plan of a hat in all its sizes: cast-on, needles, brim, body, crown, yarn and the written pattern."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import (
    COMMON_PRACTICE,
    RULES,
    Basis,
    Caution,
    Impossible,
    Notice,
    RulesVersion,
)
from roundwright.knitting.crown.crown import CrownAnswer, crown_counts
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.gauge.convert import unusual_gauge
from roundwright.knitting.hat.bridge import (
    BRIDGE_BASIS,
    COUNTS_BASIS,
)
from roundwright.knitting.hat.brim_and_body import (
    HatPart,
)
from roundwright.knitting.hat.defaults import with_defaults
from roundwright.knitting.hat.needles import (
    NEEDLES_BASIS,
    NeedlesInHand,
    SizeNeedles,
    change_numbered,
    start_steps,
)
from roundwright.knitting.hat.notices import (
    SizeCount,
    floats_notice,
    named_by_size,
    rib_of_two_colours,
    shared_dome_notice,
    size_notices,
)
from roundwright.knitting.hat.numbering import first_numbers, numbered_crown
from roundwright.knitting.hat.part_gauge import (
    gauge_basis,
)
from roundwright.knitting.hat.picture import hat_picture_address
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.hat.worked_size import HatMeasurements, WorkedSize, size_label, work_size
from roundwright.knitting.needles.best_split import NeedleSplit, NeedleStitches
from roundwright.knitting.needles.start import StartStep
from roundwright.knitting.needles.whole_repeats import WHOLE_REPEATS_BASIS
from roundwright.knitting.picture_address import PicturePath
from roundwright.knitting.quantities import Gauge, UnitSystem, mm, row_height_mm
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.sizing.cast_on import CastOnAnswer
from roundwright.knitting.sizing.head_references import step_between_notices
from roundwright.knitting.sizing.heads import Head, age_in_months, cautions
from roundwright.knitting.yarn.basket import BASKET_BASIS
from roundwright.knitting.yarn.estimate import YarnEstimate, estimate
from roundwright.knitting.yarn.order import HatWork, YarnOrder, class_order
from roundwright.knitting.yarn.per_stitch import Fabric, fabric_of, in_other_yarn
from roundwright.language import say

MOST_STITCHES_IN_ALL_SIZES: Final = 2_400
"""Stitches around all sizes of one request: twelve grown-ups' hats in lace, a few hundredths of a second's work."""


class NeedleStart(Struct, frozen=True, kw_only=True):
    """How the stitches go on the needles."""

    split: NeedleStitches
    straddles: Annotated[
        int, Meta(description="Decreases that come to lie on two needles over the whole crown.")
    ]
    difference: Annotated[int, Meta(description="Stitches between the fullest and the emptiest needle.")]
    start: Annotated[
        tuple[StartStep, ...], Meta(description="From one needle to two halves to the working needles.")
    ]
    reason: Annotated[
        str | None,
        Meta(description="Why the needles differ by more than a stitch; null where they do not."),
    ] = None


class HatPlan(Struct, frozen=True, kw_only=True):
    """One size of a hat, from cast-on to close."""

    label: Annotated[str, Meta(description="Name of the size.")]
    makers: Annotated[int, Meta(description="How many knitters make it.")]
    cast_on: Annotated[CastOnAnswer, Meta(description="The cast-on, as `/v1/cast-on` gives it.")]
    split: Annotated[
        NeedleStart | None,
        Meta(
            description="How the stitches go on the needles; null for a request without needles, and for a size that "
            "is cast on to one short circular."
        ),
    ]
    needles: Annotated[
        SizeNeedles | None,
        Meta(description="What this size is knitted on; null for a request without needles."),
    ]
    measurements: Annotated[HatMeasurements, Meta(description="The finished hat.")]
    brim: Annotated[HatPart, Meta(description="The edge.")]
    body: Annotated[HatPart, Meta(description="The straight part above the brim.")]
    crown: Annotated[
        CrownAnswer,
        Meta(
            description="The crown, as `/v1/crown` gives it; over a body with a gauge of its own its first round may "
            "lead to the count that is as wide (`adjust`). Its rounds have the numbers of the pattern, which need not "
            "begin with 1: a size with a shorter crown may join in later."
        ),
    ]
    yarn: Annotated[YarnEstimate, Meta(description="Yarn for one hat, as `/v1/yarn/estimate` gives it.")]
    drawing: Annotated[
        PicturePath, Meta(description="Path of the picture of the hat worn on the head it is for.")
    ]
    schematic: Annotated[
        PicturePath, Meta(description="Path of the picture of the hat laid flat, with its measures.")
    ]


class HatsAnswer(Struct, frozen=True, kw_only=True):
    """A hat in all its sizes."""

    sizes: Annotated[
        tuple[HatPlan, ...],
        Meta(description="Each size, in the order of the request; a single one with `only_size`."),
    ]
    pattern: Annotated[str, Meta(description="The written pattern for all sizes together.")]
    order: Annotated[YarnOrder, Meta(description="Yarn for everyone.")]
    order_instead: Annotated[
        YarnOrder | None,
        Meta(description="The same order in balls of `other_yarn`; null where the request has none."),
    ] = None
    cautions: Annotated[
        tuple[Caution, ...],
        Meta(description="Usual cautions where a hat may be a child's; local rules first."),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind, of any size.")]
    rules: RulesVersion = RULES


Writer = Callable[[HatRequest, tuple[HatPlan, ...], tuple[Caution, ...], tuple[Notice, ...]], str]
"""Writes the pattern of all sizes. `wording` may import `knitting`, not the reverse, so the writer is a parameter."""


def hats(request: HatRequest, write: Writer) -> HatsAnswer:
    """Every size of a hat, its pattern as `write` words it, and the yarn for everyone.

    Raises `Impossible` for what no hat can be knitted from, with the field and the nearest that can.
    """
    is_shared = request.crown.follows_stitches is None
    request = with_defaults(request, "#")
    fabric = fabric_of(request.gauge, request.yarn)
    other = None if request.other_yarn is None else in_other_yarn(fabric, request.other_yarn, "#/other_yarn")
    places = _places(request)
    sizes = _numbered(tuple(_work_sizes(request, "#")))
    plans = tuple(_plan(request, index, worked, fabric) for index, worked in zip(places, sizes, strict=True))
    due = _cautions(worked.head for worked in sizes)
    works = tuple(_hat_work(worked) for worked in sizes)
    order = class_order(works, fabric, request.units, request.margin_percent)
    warnings = (
        *unusual_gauge(request.gauge, "#/gauge"),
        *_warnings(plans, sizes, request.units),
        *(_shared_dome(request, plans) if is_shared else ()),
        *rib_of_two_colours(brim_purl=request.colours.brim_purl if request.colours else None),
        *floats_notice(
            folded=request.brim.edge == "folded",
            brim_purl=request.colours.brim_purl if request.colours else None,
        ),
        *(other.warnings if other else ()),
    )
    return HatsAnswer(
        sizes=plans,
        pattern=write(request, plans, due, warnings),
        order=order,
        order_instead=None
        if other is None
        else class_order(works, other, request.units, request.margin_percent),
        cautions=due,
        basis=_basis(request, sizes) if order.one_basket is None else (*_basis(request, sizes), BASKET_BASIS),
        warnings=warnings,
    )


def hat_works(request: HatRequest, at: str = "#") -> tuple[HatWork, ...]:
    """What is worked in each size, for its yarn; errors point below `at`. Raises `Impossible` as `hats` does."""
    return tuple(_hat_work(worked) for worked in _work_sizes(with_defaults(request, at), at))


class HatRounds(NamedTuple):
    """The rounds of one size: brim, body and crown, and the round between where brim and body differ in count."""

    brim: HatPart
    body: HatPart
    crown: CrownAnswer
    measurements: HatMeasurements

    @property
    def adjust(self) -> Round | None:
        """The round from the count of the brim to that of the body; None where they have one count."""
        return self.brim.adjust or self.body.adjust


def hat_rounds(request: HatRequest, index: int, at: str = "#", *, as_printed: bool = False) -> HatRounds:
    """Brim, body and crown of one size; errors point below `at`. Raises `Impossible` as `hats` does.

    The rounds of the crown are numbered from 1, or `as_printed` in the pattern of all sizes. That depends on all of
    them, so that it is also `Impossible` where another size is.
    """
    if not as_printed:
        request = replace(request, only_size=index + 1)
    request = with_defaults(request, at)
    if as_printed and request.only_size is None and len(request.sizes) > 1:
        worked = _numbered(tuple(_work_sizes(request, at)))[index]
    else:
        worked = work_size(request, index, at)
    return HatRounds(worked.brim, worked.body, worked.crown, worked.measurements)


HAT_BASIS: Final = (
    COUNTS_BASIS,
    Basis(say("hat.depth_basis"), COMMON_PRACTICE),
    Basis(say("hat.cone_basis"), "geometry of a sphere under a cone"),
    Basis(say("hat.brim_basis"), COMMON_PRACTICE),
)


def _work_sizes(request: HatRequest, at: str) -> Iterator[WorkedSize]:
    """Every size worked out. Raises `Impossible` for more stitches in all than one request may have."""
    around = 0
    for index in _places(request):
        worked = work_size(request, index, at)
        around += max(worked.cast_on.stitches, worked.crown.stitches)
        if around > MOST_STITCHES_IN_ALL_SIZES:
            raise Impossible(
                say("hat.too_many_in_all", size=index + 1, stitches=around),
                code="too_many",
                pointer=f"{at}/sizes/{index}",
                nearest=say("hat.first_sizes", sizes=index),
            )
        yield worked


def _numbered(sizes: Sequence[WorkedSize]) -> tuple[WorkedSize, ...]:
    """The sizes, with the rounds of their crowns numbered as in the pattern of all of them."""
    firsts = first_numbers([worked.crown.rounds for worked in sizes])
    return tuple(
        worked._replace(
            crown=numbered_crown(worked.crown, first), needles=change_numbered(worked.needles, first)
        )
        for worked, first in zip(sizes, firsts, strict=True)
    )


def _places(request: HatRequest) -> Sequence[int]:
    """The sizes to work out, as indexes from 0."""
    if request.only_size is None:
        return range(len(request.sizes))
    return (request.only_size - 1,)


def _plan(request: HatRequest, index: int, worked: WorkedSize, fabric: Fabric) -> HatPlan:
    return HatPlan(
        label=size_label(worked.size),
        makers=worked.size.makers,
        cast_on=worked.cast_on,
        split=_start(worked.split, worked.in_hand),
        needles=worked.needles,
        measurements=worked.measurements,
        brim=worked.brim,
        body=worked.body,
        crown=worked.crown,
        yarn=estimate(worked.segments, fabric, request.units, request.margin_percent, is_hat=True),
        drawing=hat_picture_address(request, index),
        schematic=hat_picture_address(request, index, "flat"),
    )


def _hat_work(worked: WorkedSize) -> HatWork:
    tail_mm = mm(worked.crown.finish.tail_longest)
    return HatWork(size_label(worked.size), worked.size.makers, worked.segments, tail_mm)


def _start(split: NeedleSplit | None, in_hand: NeedlesInHand | None) -> NeedleStart | None:
    if split is None or in_hand is None:
        return None
    return NeedleStart(
        split=split.split,
        straddles=split.straddles,
        difference=split.difference,
        start=start_steps(in_hand, split.split),
        reason=split.reason,
    )


def _cautions(heads: Iterable[Head]) -> tuple[Caution, ...]:
    """The cautions due to the youngest who may wear one of the hats."""
    ages = [head.youngest_months for head in heads if head.youngest_months is not None]
    return cautions(min(ages)) if ages else ()


def _basis(request: HatRequest, sizes: tuple[WorkedSize, ...]) -> tuple[Basis, ...]:
    bridged = any(worked.brim.adjust or worked.body.adjust or worked.crown.is_adjusted for worked in sizes)
    held = any(worked.needles for worked in sizes)
    return (
        *HAT_BASIS,
        *dict.fromkeys(basis for worked in sizes for basis in worked.basis),
        *((BRIDGE_BASIS,) if bridged else ()),
        *gauge_basis(request),
        *((NEEDLES_BASIS,) if held else ()),
        *((WHOLE_REPEATS_BASIS,) if held and request.brim.repeat > 1 else ()),
    )


def _shared_dome(request: HatRequest, plans: tuple[HatPlan, ...]) -> Iterator[Notice]:
    """The warning where sizes that share one dome are far from domes of their own."""
    crown = request.crown
    if crown.style != "dome" or crown.follows_stitches is None or len(plans) == 1:
        return
    row_mm, own = row_height_mm(request.gauge), replace(crown, follows_stitches=None)
    yield from shared_dome_notice(
        [
            (
                plan.label,
                row_mm * (len(plan.crown.rounds) - _own_rounds(plan.crown, own, request.gauge)),
            )
            for plan in plans
        ],
        request.units,
    )


def _own_rounds(crown: CrownAnswer, own: CrownShape, gauge: Gauge) -> int:
    """The rounds of a crown as its `own` shape has them, with the round that leads to it."""
    return len(crown_counts(crown.shaped_stitches, own, gauge).counts) + crown.is_adjusted


def _warnings(
    plans: tuple[HatPlan, ...], sizes: tuple[WorkedSize, ...], units: UnitSystem
) -> tuple[Notice, ...]:
    """The warnings of all sizes and parts, each once; one that is not of all sizes begins with the size."""
    counts = tuple(
        SizeCount(
            plan.label,
            worked.head.mm,
            plan.cast_on.exact,
            plan.cast_on.stitches,
            plan.crown.stitches,
            plan.measurements.depth,
            worked.size.depth is not None or worked.size.body is not None,
        )
        for plan, worked in zip(plans, sizes, strict=True)
    )
    of_sizes = [
        (plan.label, (*plan.cast_on.warnings, *worked.warnings, *plan.crown.warnings, *plan.yarn.warnings))
        for plan, worked in zip(plans, sizes, strict=True)
    ]
    ages = [age_in_months(worked.size.age_months, worked.size.age_years) for worked in sizes]
    return tuple(
        dict.fromkeys(
            (*named_by_size(of_sizes), *step_between_notices(ages, "#/sizes", units), *size_notices(counts))
        )
    )
