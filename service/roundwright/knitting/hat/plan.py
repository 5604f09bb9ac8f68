"""The whole hat, for one or more sizes: cast-on, needles, brim, body, crown, yarn and the written pattern.

Everything here is put together from the modules below; what is decided here is only how the depth of the hat is shared
out between brim, body and crown.
"""

from collections.abc import Callable, Iterable, Iterator
from math import lcm
from typing import Annotated, Final, Literal, NamedTuple

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
from roundwright.knitting.crown.crown import CrownAnswer, crown_multiple, work_crown
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES
from roundwright.knitting.hat.picture import hat_picture
from roundwright.knitting.hat.request import Brim, HatRequest, HatSize
from roundwright.knitting.needles.best_split import NeedleStitches
from roundwright.knitting.needles.start import StartStep, start_on
from roundwright.knitting.quantities import Length, UnitSystem, length, mm, row_height_mm
from roundwright.knitting.rounds.round import Multiple, Repeat, Round, RoundKind, Steps, Work, execute, plain
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.sizing.cast_on import CastOnAnswer, work_cast_on
from roundwright.knitting.sizing.depth import depth
from roundwright.knitting.sizing.heads import Head, cautions, head_of
from roundwright.knitting.yarn.estimate import YarnEstimate, estimate
from roundwright.knitting.yarn.fabric import Fabric, fabric
from roundwright.knitting.yarn.per_stitch import Stretch, cast_on_stretch
from roundwright.knitting.yarn.purchase import HatWork, YarnOrder, class_order

MOST_STITCHES_IN_ALL_SIZES: Final = 2_400
"""Stitches around all sizes of one request: twelve grown-ups' hats in lace, a few hundredths of a second's work."""
LONGEST_HAT_MM: Final = 1_000.0
"""A stocking cap that reaches the waist."""

BRIM_SHARE: Final = {"rolled": 0.1, "ribbed": 0.2, "garter": 0.15, "folded": 0.25}
"""Brim as a share of the depth where no length is given (common practice)."""

PartKind = Literal["brim", "body"]


class HatMeasurements(Struct, frozen=True, kw_only=True):
    """The finished hat, laid out. Depths are along the fabric."""

    head: Annotated[Length, Meta(description="Circumference of the head it is for.")]
    circumference: Annotated[Length, Meta(description="Circumference, unstretched.")]
    depth: Annotated[Length, Meta(description="Edge to top as worn: brim rolled or turned up.")]
    edge_to_crown: Annotated[
        Length, Meta(description="Cast-on edge to the first round of the crown, brim uncurled and unfolded.")
    ]
    crown_depth: Annotated[
        Length | None,
        Meta(description="First round of the crown to the top; null where it is closed without a round."),
    ]


class HatPart(Struct, frozen=True, kw_only=True):
    """A straight part of the hat: its rounds are worked in turn, over and over."""

    part: Annotated[PartKind, Meta(description="Which part.")]
    rounds: Annotated[int, Meta(description="How many rounds; none when the crown begins at once.")]
    length: Annotated[Length | None, Meta(description="Length of those rounds; null for none.")]
    lines: Annotated[
        tuple[Round, ...], Meta(description="The rounds to work in turn: one, or two for garter.")
    ]


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


class HatPlan(Struct, frozen=True, kw_only=True):
    """One size of a hat, from cast-on to close."""

    label: Annotated[str, Meta(description="Name of the size.")]
    makers: Annotated[int, Meta(description="How many knitters make it.")]
    cast_on: Annotated[CastOnAnswer, Meta(description="The cast-on, as `/v1/cast-on` gives it.")]
    split: Annotated[
        NeedleStart | None,
        Meta(description="How the stitches go on the needles; null when no needles were asked for."),
    ]
    measurements: Annotated[HatMeasurements, Meta(description="The finished hat.")]
    brim: Annotated[HatPart, Meta(description="The edge.")]
    body: Annotated[HatPart, Meta(description="The straight part above the brim.")]
    crown: Annotated[CrownAnswer, Meta(description="The crown, as `/v1/crown` gives it.")]
    yarn: Annotated[YarnEstimate, Meta(description="Yarn for one hat, as `/v1/yarn/estimate` gives it.")]
    drawing: Annotated[str, Meta(description="Path of the hat's picture from the side.")]


class HatsAnswer(Struct, frozen=True, kw_only=True):
    """A hat in all its sizes."""

    sizes: Annotated[tuple[HatPlan, ...], Meta(description="Each size, in the order asked for.")]
    pattern: Annotated[str, Meta(description="The written pattern for all sizes together.")]
    order: Annotated[YarnOrder, Meta(description="Yarn for everyone.")]
    cautions: Annotated[
        tuple[Caution, ...],
        Meta(description="Usual cautions where a hat may be a child's; local rules first."),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind, of any size.")]
    rules: RulesVersion = RULES


Writer = Callable[[HatRequest, tuple[HatPlan, ...], tuple[Caution, ...]], str]
"""Writes the pattern of all sizes. Words are of a storey above, so the writer is handed in."""


def hats(request: HatRequest, write: Writer) -> HatsAnswer:
    """Every size of a hat, its pattern as `write` words it, and the yarn for everyone.

    Raises `Impossible` for what no hat can be knitted from, pointing at the field, with the nearest that can.
    """
    by = fabric(request.gauge, request.yarn)
    worked = tuple(_all_worked(request, "#"))
    plans = tuple(_plan(request, index, each, by) for index, each in enumerate(worked))
    due = _cautions(each.head for each in worked)
    return HatsAnswer(
        sizes=plans,
        pattern=write(request, plans, due),
        order=class_order(tuple(_work(each) for each in worked), by, request.units, request.margin_percent),
        cautions=due,
        basis=HAT_BASIS,
        warnings=_warnings(plans),
    )


def hat_works(request: HatRequest, at: str = "#") -> tuple[HatWork, ...]:
    """What is worked in each size, for its yarn; errors point below `at`. Raises `Impossible` as `hats` does."""
    return tuple(_work(each) for each in _all_worked(request, at))


def hat_rounds(request: HatRequest, index: int, at: str = "#") -> tuple[HatPart, HatPart, CrownAnswer]:
    """Brim, body and crown of one size; errors point below `at`. Raises `Impossible` as `hats` does."""
    worked = _worked(request, index, at)
    return worked.brim, worked.body, worked.crown


HAT_BASIS: Final = (
    Basis(
        "Cast-on to the multiple of the crown's repeat and the rib's.",
        "published tutorials; see /v1/standards",
    ),
    Basis("Cast-on edge to crown = depth - crown along the fabric + what the brim hides.", COMMON_PRACTICE),
    Basis("Brim without a length: a share of the depth.", COMMON_PRACTICE),
)


class _Straight(NamedTuple):
    """How many rounds of brim and of body, and what of the brim is hidden when worn."""

    brim: int
    body: int
    hidden_mm: float


class _Worked(NamedTuple):
    """One size, worked out round by round."""

    size: HatSize
    head: Head
    cast_on: CastOnAnswer
    brim: HatPart
    body: HatPart
    crown: CrownAnswer
    measurements: HatMeasurements
    work: tuple[Stretch, ...]


def _all_worked(request: HatRequest, at: str) -> Iterator[_Worked]:
    """Every size worked out. Raises `Impossible` for more stitches in all than one request may ask for."""
    around = 0
    for index in range(len(request.sizes)):
        worked = _worked(request, index, at)
        around += worked.cast_on.stitches
        if around > MOST_STITCHES_IN_ALL_SIZES:
            raise Impossible(
                f"With size {index + 1} the hats have {around} stitches around in all: too many to work out at once.",
                pointer=f"{at}/sizes/{index}",
                nearest=f"the first {index} of the sizes in one request, the others in another",
            )
        yield worked


def _worked(request: HatRequest, index: int, at: str) -> _Worked:
    """The size at `index`, worked out."""
    if request.crown.worked == "flat":
        raise Impossible(
            "This hat is worked in the round from its edge, so its crown cannot be worked flat.",
            pointer=f"{at}/crown/worked",
            nearest="in_the_round; a flat crown by itself is at /v1/crown",
        )
    size, units = request.sizes[index], request.units
    found = head_of(size, f"{at}/sizes/{index}")
    cast_on = _cast_on(request, found, at)
    stitches = cast_on.stitches
    crown = work_crown(
        stitches,
        request.crown if request.finish is None else replace(request.crown, finish=request.finish),
        request.gauge,
        needles=request.needles,
        tolerance=request.tolerance,
        units=units,
        pointer=f"{at}/crown",
    )
    row_mm = row_height_mm(request.gauge, f"{at}/gauge")
    crown_mm = len(crown.rounds) * row_mm
    usual_mm = depth(found.mm, mm(cast_on.circumference)).mm
    straight = _straight(request, index, usual_mm, crown_mm, at)
    held = None if crown.split is None else crown.split.split
    brim = _part("brim", straight.brim, _lines(_brim_lines(request.brim, stitches), held), row_mm, units)
    body = _part("body", straight.body, _lines((plain(stitches),), held), row_mm, units)
    edge_mm = (straight.brim + straight.body) * row_mm
    return _Worked(
        size=size,
        head=found,
        cast_on=cast_on,
        brim=brim,
        body=body,
        crown=crown,
        measurements=HatMeasurements(
            head=cast_on.head.circumference,
            circumference=cast_on.circumference,
            depth=length(edge_mm + crown_mm - straight.hidden_mm, units),
            edge_to_crown=length(edge_mm, units),
            crown_depth=length(crown_mm, units) if crown_mm else None,
        ),
        work=_stretches(request.brim, brim, body, crown),
    )


def _plan(request: HatRequest, index: int, worked: _Worked, by: Fabric) -> HatPlan:
    return HatPlan(
        label=worked.size.label or _label(worked.size),
        makers=worked.size.makers,
        cast_on=worked.cast_on,
        split=_start(worked.crown),
        measurements=worked.measurements,
        brim=worked.brim,
        body=worked.body,
        crown=worked.crown,
        yarn=estimate(worked.work, by, request.units, request.margin_percent, is_hat=True),
        drawing=hat_picture(request, index),
    )


def _work(worked: _Worked) -> HatWork:
    return HatWork(worked.size.label or _label(worked.size), worked.size.makers, worked.work)


def _cast_on(request: HatRequest, found: Head, at: str) -> CastOnAnswer:
    """The cast-on, to a multiple of the crown's repeat and the rib's."""
    rib = request.brim.rib
    ribbed = request.brim.kind in ("ribbed", "folded")
    multiple = Multiple(lcm(crown_multiple(request.crown), rib.knit + rib.purl if ribbed else 1))
    cast_on = work_cast_on(found, request.ease, request.gauge, multiple, request.units, pointer=at)
    if cast_on.stitches > MOST_CROWN_STITCHES:
        raise Impossible(
            f"{cast_on.stitches} stitches for this head are more than any hat in the round takes.",
            pointer=f"{at}/gauge/stitches",
            nearest=f"a gauge that makes {MOST_CROWN_STITCHES} stitches or fewer",
        )
    return cast_on


def _straight(request: HatRequest, index: int, usual_mm: float, crown_mm: float, at: str) -> _Straight:
    """Share the depth out: what the crown leaves is brim and body.

    Raises `Impossible` for a body shorter than its brim and for a hat longer than any.
    """
    row_mm = row_height_mm(request.gauge, f"{at}/gauge")
    brim = request.brim
    finished_mm = mm(brim.length) if brim.length else BRIM_SHARE[brim.kind] * usual_mm
    worked_mm = finished_mm * (2 if brim.kind == "folded" else 1)
    hidden_mm = finished_mm if brim.kind in ("rolled", "folded") else 0.0
    _in_reach(worked_mm, f"{at}/brim/length")
    lines = 2 if brim.kind == "garter" else 1
    brim_rounds = max(lines, lines * round(worked_mm / row_mm / lines))
    own = request.sizes[index].body
    body = own if own is not None and own.length is not None else request.body
    if body.length is None:
        straight = round((usual_mm - crown_mm + hidden_mm) / row_mm)
        return _Straight(brim_rounds, max(0, straight - brim_rounds), hidden_mm)
    pointer = f"{at}/sizes/{index}/body/length" if body is own else f"{at}/body/length"
    _in_reach(mm(body.length), pointer)
    body_rounds = round(mm(body.length) / row_mm) - brim_rounds
    if body_rounds < 0:
        raise Impossible(
            f"From the edge to the crown is {body.length.value:g} {body.length.unit}, but the brim alone takes "
            f"{brim_rounds} rounds, {brim_rounds * row_mm / 10:.3g} cm.",
            pointer=pointer,
            nearest=f"{brim_rounds * row_mm / 10:.3g} cm, or a shorter brim",
        )
    return _Straight(brim_rounds, body_rounds, hidden_mm)


def _in_reach(length_mm: float, pointer: str) -> None:
    if length_mm > LONGEST_HAT_MM:
        raise Impossible(
            f"{length_mm / 10:.4g} cm is longer than any hat.",
            pointer=pointer,
            nearest=f"{LONGEST_HAT_MM / 10:g} cm",
        )


def _brim_lines(brim: Brim, stitches: int) -> tuple[Steps, ...]:
    """The rounds of a brim, worked in turn."""
    if brim.kind == "rolled":
        return (plain(stitches),)
    if brim.kind == "garter":
        return (plain(stitches), (Work("p", stitches),))
    repeat = brim.rib.knit + brim.rib.purl
    return ((Repeat(stitches // repeat, (Work("k", brim.rib.knit), Work("p", brim.rib.purl))),),)


def _lines(lines: tuple[Steps, ...], held: tuple[int, ...] | None) -> tuple[Round, ...]:
    """Straight rounds to work in turn, with the stitches on each needle."""
    kind: RoundKind = "garter" if len(lines) > 1 else "rib" if isinstance(lines[0][0], Repeat) else "plain"
    stitches = execute(lines[0])[0]
    return tuple(
        replace(work_round(number, stitches, steps, kind), needles=held)
        for number, steps in enumerate(lines, start=1)
    )


def _part(part: PartKind, rounds: int, lines: tuple[Round, ...], row_mm: float, units: UnitSystem) -> HatPart:
    return HatPart(
        part=part, rounds=rounds, length=length(rounds * row_mm, units) if rounds else None, lines=lines
    )


def _start(crown: CrownAnswer) -> NeedleStart | None:
    if crown.split is None:
        return None
    return NeedleStart(
        split=crown.split.split,
        straddles=crown.split.straddles,
        difference=crown.split.difference,
        start=start_on(crown.split.split),
    )


def _stretches(brim: Brim, edge: HatPart, body: HatPart, crown: CrownAnswer) -> tuple[Stretch, ...]:
    """What is worked, for the yarn: cast-on, brim, body, crown and cord."""
    ribbed = brim.kind in ("ribbed", "folded")
    work = (
        cast_on_stretch(crown.stitches),
        Stretch("brim", crown.stitches, edge.rounds, ribbed),
        Stretch("body", crown.stitches, body.rounds),
        *(Stretch("crown", each.after) for each in crown.rounds),  # none is rib, and no stitch is slipped
    )
    if crown.finish.cord_rounds is None:
        return work
    return (*work, Stretch("cord", crown.stitches_left, crown.finish.cord_rounds))


def _label(size: HatSize) -> str:
    """The head in words, for a size without a label."""
    whose = f", {size.sex}" if size.sex else ""
    if size.head is not None:
        return f"head {size.head.value:g} {size.head.unit}"
    if size.age_months is not None:
        return f"newborn{whose}" if size.age_months == 0 else f"{size.age_months:g} months{whose}"
    if size.gestation_weeks is not None:
        return f"{size.gestation_weeks:g} weeks of gestation{whose}"
    return str(size.adult or size.chart)


def _cautions(heads: Iterable[Head]) -> tuple[Caution, ...]:
    """The cautions due to the youngest who may wear one of the hats."""
    ages = [found.youngest_months for found in heads if found.youngest_months is not None]
    return cautions(min(ages)) if ages else ()


def _warnings(plans: tuple[HatPlan, ...]) -> tuple[Notice, ...]:
    """The warnings of all sizes and parts, each once."""
    return tuple(
        dict.fromkeys(
            notice
            for plan in plans
            for notice in (*plan.cast_on.warnings, *plan.crown.warnings, *plan.yarn.warnings)
        )
    )
