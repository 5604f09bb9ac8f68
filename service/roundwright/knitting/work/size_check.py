"""A hat that comes out in the wrong size on the needles: what it will come to, and what can be done about it.

request -> hat as planned, and at the gauge as knitted -> what it comes to -> the ways out, in `size_options`
"""

from collections.abc import Iterator, Sequence
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import RULES, Basis, Impossible, Notice, RulesVersion, only_one
from roundwright.knitting.gauge.needle_size import (
    FOUR_IN,
    NEEDLE_BASIS,
    SAME_STITCHES,
    NeedleAdvice,
    advise,
    keep_needle,
)
from roundwright.knitting.hat.plan import HatRounds, hat_rounds
from roundwright.knitting.hat.request import MOST_SIZES, HatRequest, require_size
from roundwright.knitting.hat.stretch import BODY_STRETCH
from roundwright.knitting.quantities import (
    TEN_CM,
    Gauge,
    Length,
    UnitSystem,
    length,
    mm,
    quantity_text,
    row_height_mm,
    stitch_width_mm,
    tidy,
)
from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.knitting.sizing.depth import EAR_ARC
from roundwright.knitting.sizing.heads import head_of
from roundwright.knitting.sizing.recommend import FIT_BASIS
from roundwright.knitting.work.size_options import (
    BLOCK_BASIS,
    COUNTS_BASIS,
    RIB_BASIS,
    Fibre,
    MeasuredHat,
    SizeOption,
    UnhelpfulWay,
    Verdict,
    above_brim_text,
    ways_out,
)
from roundwright.language import Language, Message, joined, say, say_count

MOST_TIMES_OFF: Final = 2.0
"""A hat twice or half as wide as planned was measured wrong, or is another hat."""
NEAR_PLAN: Final = 0.2
"""A measure whose half or double is within a fifth of the plan was taken flat and given as all around, or the reverse:
gauges are off by that much, and not by half (common practice)."""
ROWS_APART: Final = 0.1
"""Rounds that are off by a tenth more or less than the stitches are counted again (common practice): both are as large
as the loop is long (Munden 1959)."""
GROWS_FAST_MONTHS: Final = 24
"""Below two years a head grows by 3 % and more a year (WHO): a hat that only just goes on is soon too small."""

ROWS_BASIS: Final = Basis(
    say("size_check.rows_basis"),
    "Munden, J. Text. Inst. 50 (1959) T448",
)


class SizeCheckRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat on the needles, and what was measured: exactly one of `circumference` and `width`."""

    hat: Annotated[HatRequest, Meta(description="The hat as planned, as `/v1/hats` takes it.")]
    size: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_SIZES)] | None,
        Meta(description="Which size of it is knitted, from 1. Left out: its `only_size`, else 1."),
    ] = None
    rounds_worked: Annotated[
        int, Meta(ge=1, le=MOST_ROUNDS, description="Rounds worked since the cast-on, brim and all.")
    ]
    circumference: Annotated[
        Length | None,
        Meta(
            description="Circumference as it is, unstretched: of the body, above the brim, where there is one already."
        ),
    ] = None
    width: Annotated[Length | None, Meta(description="The same laid flat, half the circumference.")] = None
    length: Annotated[
        Length | None,
        Meta(
            description="From the cast-on edge to the needle, brim uncurled. Left out: rows are off as stitches are."
        ),
    ] = None
    fibre: Annotated[
        Fibre | None, Meta(description="Fibre of the yarn: what washing does to it. Left out: unknown.")
    ] = None
    units: Annotated[UnitSystem, Meta(description="Units of the lengths in the answer.")] = "metric"
    language: Language = None

    @property
    def knitted_size(self) -> int:
        """The size that is knitted, from 1."""
        return self.size or self.hat.only_size or 1


class HatSizes(Struct, frozen=True, kw_only=True):
    """Measures of a finished hat."""

    circumference: Annotated[Length, Meta(description="Circumference of the edge, unstretched.")]
    body_circumference: Annotated[Length, Meta(description="Circumference of the body, unstretched.")]
    ease_percent: Annotated[float, Meta(description="How much larger than the head the edge is, in percent.")]
    depth: Annotated[Length, Meta(description="Edge to top as worn, along the fabric.")]


class SizeCheckAnswer(Struct, frozen=True, kw_only=True):
    """What a hat on the needles comes to, and what to do."""

    message: Annotated[str, Meta(description="The answer in a few sentences.")]
    verdict: Annotated[
        Verdict,
        Meta(
            description="`as_planned`: within half a stitch in 10 cm of the plan; `fits`: another size, which the head "
            "can wear, perhaps loosely or only just; `too_small`, `too_large`: it cannot, or a ribbed edge holds a "
            "body wider than the head. By the width of edge and body, a ribbed edge by the stretch of rib; "
            "`too_early`: less than 3 cm of the body are done, which tells no width, not even one as planned "
            "(warnings `measured_in_rib`, `measured_early`). A depth that no longer covers the ears is a warning, "
            "`too_shallow`. With more rounds than lie below the crown the crown is taken to be begun: the warning "
            "`crown_assumed` says what to do where it is not."
        ),
    ]
    head: Annotated[Length, Meta(description="Circumference of the head it is for.")]
    planned: Annotated[HatSizes, Meta(description="The hat as planned.")]
    comes_to: Annotated[HatSizes, Meta(description="The hat as it comes out if it is knitted on as planned.")]
    gauge: Annotated[
        Gauge,
        Meta(
            description="Gauge as knitted, of the body where some of it is done: it takes the place of the swatch of "
            "that part in a new request."
        ),
    ]
    needle: Annotated[NeedleAdvice, Meta(description="Which needle would have knitted to the gauge.")]
    options: Annotated[
        tuple[SizeOption, ...], Meta(description="What can be done, the first choice first; never empty.")
    ]
    unhelpful: Annotated[
        tuple[UnhelpfulWay, ...],
        Meta(
            description="Ways that knitters think of and that do not help here; empty for a hat as planned."
        ),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


class _Knitted(NamedTuple):
    """What was measured, as a share of the plan, and the gauge it makes."""

    wider: float  # 1.1 is a tenth wider than planned
    higher: float
    gauge: Gauge


def check_size(request: SizeCheckRequest) -> SizeCheckAnswer:
    """What the hat comes to at the gauge as knitted, whether it can be worn, and what to do.

    Raises `Impossible` for a size or a round that the hat does not have, and for a measure that cannot be this hat's.
    """
    planned = _planned(request)
    knitted = _knitted(request, planned)
    head_mm = mm(planned.measurements.head)
    edge_mm = mm(planned.measurements.circumference) * knitted.wider
    comes_to = _comes_to(planned, knitted, request.units)
    measured = MeasuredHat(
        request.hat,
        request.knitted_size - 1,
        planned,
        knitted.gauge,
        request.rounds_worked,
        request.fibre,
        edge_mm,
        head_mm,
    )
    verdict = _verdict(measured)
    ways = ways_out(measured, verdict, request.units)
    return SizeCheckAnswer(
        message=joined(
            " ",
            _message(measured, verdict, comes_to, _comes_to(planned, None, request.units)),
            _fits_another(measured, request.units) if verdict in ("too_small", "too_large") else "",
            _measure_again(measured, verdict),
            *_advice(ways.options),
        ),
        verdict=verdict,
        head=planned.measurements.head,
        planned=_comes_to(planned, None, request.units),
        comes_to=comes_to,
        gauge=measured.knitted_gauge,
        needle=keep_needle(say("size_check.needle_early"))
        if verdict == "too_early"
        else _needle(measured, verdict, ways.options, request.units),
        options=ways.options,
        unhelpful=ways.unhelpful,
        basis=_basis(measured, rows_measured=request.length is not None),
        warnings=(
            *_early_notices(measured, request.units),
            *(() if verdict == "too_early" else _depth_notices(measured, ways.options[0], request.units)),
            *_crown_notices(measured, ways.options[0], request.units),
        ),
    )


def _basis(hat: MeasuredHat, *, rows_measured: bool) -> tuple[Basis, ...]:
    return (
        FIT_BASIS,
        *((RIB_BASIS,) if hat.edge_gives > BODY_STRETCH else ()),
        BLOCK_BASIS,
        COUNTS_BASIS,
        NEEDLE_BASIS,
        *(() if rows_measured else (ROWS_BASIS,)),
    )


def _advice(options: Sequence[SizeOption]) -> Iterator[str]:
    """The first choice; with the second where that rips back for the depth alone."""
    yield options[0].message
    for option in options[1:2]:
        if option.code == "rip_back" and option.stitches is None:
            yield option.message


def _needle(
    hat: MeasuredHat, verdict: Verdict, options: Sequence[SizeOption], units: UnitSystem
) -> NeedleAdvice:
    """Which needle corrects the gauge: that of the next hat where this one fits.

    Beside counts for the gauge as knitted, that it is one or the other.
    """
    planned, knitted = hat.measured_gauge, hat.knitted_gauge
    advice = advise(stitch_width_mm(knitted), stitch_width_mm(planned), None, units)
    if advice.change == "same" and hat.is_off(hat.depth_mm(hat.straight)):
        over = FOUR_IN if units == "imperial" else TEN_CM
        return keep_needle(
            say(
                "size_check.needle_rows",
                rows=mm(over) / row_height_mm(knitted),
                planned=mm(over) / row_height_mm(planned),
                over=quantity_text(over),
            )
        )
    if not hat.needle_corrects:
        return keep_needle(advice.message)
    if verdict == "fits" and advice.change != "same":
        return replace(advice, message=joined(" ", advice.message, say("size_check.needle_next_hat")))
    crown = tuple(round.after for round in hat.planned.crown.rounds)
    new_counts = any(option.crown_counts not in ((), crown) for option in options)
    if advice.change == "same" or not new_counts:
        return advice
    return replace(advice, message=joined(" ", advice.message, say("size_check.needle_or_counts")))


def _planned(request: SizeCheckRequest) -> HatRounds:
    """The rounds of the size that is knitted; needles are of no account."""
    size_at = "#/hat/only_size" if request.size is None else "#/size"
    require_size(request.knitted_size, len(request.hat.sizes), size_at)
    planned = hat_rounds(
        replace(request.hat.without_needles(), units=request.units), request.knitted_size - 1, "#/hat"
    )
    rounds = planned.brim.rounds + planned.body.rounds + len(planned.crown.rounds)
    if request.rounds_worked > rounds:
        raise Impossible(
            say("size_check.done_already", rounds=rounds, worked=request.rounds_worked),
            code="not_there",
            pointer="#/rounds_worked",
            nearest=say_count("rounds", rounds),
            suggested=rounds,
        )
    return planned


def _knitted(request: SizeCheckRequest, planned: HatRounds) -> _Knitted:
    """How far the hat is off the plan. Raises `Impossible` for a measure that cannot be this hat's."""
    only_one(request, "circumference", "width", what=say("given.measure"), missing_at="#/circumference")
    measures = planned.measurements
    in_brim = request.rounds_worked <= planned.brim.rounds
    planned_mm = mm(measures.circumference if in_brim else measures.body_circumference)
    _check_flat_or_around(request, planned_mm, in_rib=in_brim and request.hat.brim.is_ribbed)
    if request.circumference is not None:
        wider = _times(mm(request.circumference), planned_mm, request.units, "#/circumference")
    else:
        assert request.width is not None
        wider = _times(mm(request.width), planned_mm / 2, request.units, "#/width")
    row_mm = row_height_mm(request.hat.gauge)
    higher = wider
    if request.length is not None:
        worked_mm = _worked_mm(planned, request.rounds_worked, row_mm)
        higher = _times(mm(request.length), worked_mm, request.units, "#/length")
    width_mm = stitch_width_mm(request.hat.gauge) * wider
    gauge = Gauge(
        stitches=tidy(mm(TEN_CM) / width_mm), rows=tidy(mm(TEN_CM) / (row_mm * higher)), over=TEN_CM
    )
    return _Knitted(wider, higher, gauge)


def _check_flat_or_around(request: SizeCheckRequest, planned_mm: float, *, in_rib: bool) -> None:
    """Raise `Impossible` for a flat width that is the measure all around, or the reverse: twice or half the plan.

    Rib by itself may well lie at half its width.
    """
    measured = request.width or request.circumference
    assert measured is not None
    is_flat = request.width is not None
    around_mm = mm(measured) * (2 if is_flat else 1)
    meant_mm = around_mm / 2 if is_flat else around_mm * 2
    if abs(meant_mm / planned_mm - 1) > NEAR_PLAN or (in_rib and not is_flat):
        return
    other = "circumference" if is_flat else "width"
    raise Impossible(
        say(
            f"size_check.is_it_{other}",
            measured=quantity_text(measured, 3),
            around=quantity_text(length(around_mm, request.units), 3),
            planned=quantity_text(length(planned_mm, request.units), 3),
        ),
        code="out_of_range",
        pointer="#/width" if is_flat else "#/circumference",
        nearest=say(f"size_check.as_{other}", measured=quantity_text(measured, 3)),
        suggested={
            "value": tidy(measured.value / 2 if is_flat else measured.value * 2),
            "unit": measured.unit,
        },
    )


def _worked_mm(planned: HatRounds, rounds: int, row_mm: float) -> float:
    """Length of the first rounds of the hat as planned; `row_mm` is the height of a round of the crown."""
    worked_mm = 0.0
    for part in (planned.brim, planned.body):
        here = min(rounds, part.rounds)
        if part.length is not None:
            worked_mm += mm(part.length) * here / part.rounds
        rounds -= here
    return worked_mm + rounds * row_mm


def _times(measured_mm: float, planned_mm: float, units: UnitSystem, pointer: str) -> float:
    """The measure as a share of the plan."""
    times = measured_mm / planned_mm
    if 1 / MOST_TIMES_OFF <= times <= MOST_TIMES_OFF:
        return times
    measured, planned = length(measured_mm, units), length(planned_mm, units)
    raise Impossible(
        say("size_check.far_off", measured=quantity_text(measured, 3), planned=quantity_text(planned, 3)),
        code="out_of_range",
        pointer=pointer,
        nearest=say("size_check.measure_near", planned=quantity_text(planned, 3)),
    )


def _verdict(hat: MeasuredHat) -> Verdict:
    """Whether the head can wear it: edge and body from unstretched to stretched in comfort."""
    if hat.is_early:
        return "too_early"
    if abs(hat.more_stitches) < SAME_STITCHES:
        return "as_planned"
    if hat.head_mm < hat.edge_mm:
        return "too_large"
    return "fits" if hat.edge_fits and hat.body_fits else "too_small"


def _comes_to(planned: HatRounds, knitted: _Knitted | None, units: UnitSystem) -> HatSizes:
    """The measures of the finished hat as knitted, or as planned."""
    wider, higher = (1.0, 1.0) if knitted is None else (knitted.wider, knitted.higher)
    measures = planned.measurements
    edge_mm = mm(measures.circumference) * wider
    return HatSizes(
        circumference=length(edge_mm, units),
        body_circumference=length(mm(measures.body_circumference) * wider, units),
        ease_percent=tidy(100 * (edge_mm / mm(measures.head) - 1), 4),
        depth=length(mm(measures.depth) * higher, units),
    )


def _message(hat: MeasuredHat, verdict: Verdict, comes_to: HatSizes, planned: HatSizes) -> Message:
    if verdict == "too_large" and hat.edge_fits:
        sentence = "loose"
    elif verdict == "as_planned" and hat.is_off(mm(comes_to.depth)):
        sentence = "as_planned.in_width"
    elif verdict == "fits" and hat.is_slack:
        sentence = "fits.loosely"
    elif verdict == "fits" and hat.is_scant:
        months = head_of(hat.request.sizes[hat.size_index]).youngest_months
        sentence = "fits.just.child" if months is not None and months < GROWS_FAST_MONTHS else "fits.just"
    else:
        sentence = verdict
    return say(
        f"size_check.verdict.{sentence}",
        circumference=quantity_text(comes_to.circumference, 3),
        ease=_ease_text(comes_to.ease_percent),
        planned=quantity_text(planned.circumference, 3),
        depth=quantity_text(comes_to.depth, 3),
        planned_depth=quantity_text(planned.depth, 3),
    )


def _measure_again(hat: MeasuredHat, verdict: Verdict) -> str:
    """The sentence that rounds and stitches which are off so unlike are measured again; empty where they are not."""
    if verdict == "too_early" or abs(hat.higher / hat.wider - 1) <= ROWS_APART:
        return ""
    return say("size_check.measure_again")


def _ease_text(percent: float) -> Message:
    if round(percent) == 0:
        return say("size_check.as_wide")
    return say("size_check.smaller" if percent < 0 else "size_check.larger", percent=float(abs(percent)))


def _fits_another(hat: MeasuredHat, units: UnitSystem) -> str:
    """The sentence that what is knitted fits the head of another size of the request; empty where none."""
    planned_share = mm(hat.planned.measurements.circumference) / hat.head_mm
    others = [
        (abs(hat.edge_mm / head_mm - planned_share), index, head_mm)
        for index, size in enumerate(hat.request.sizes)
        if index != hat.size_index
        for head_mm in (head_of(size, f"#/hat/sizes/{index}").mm,)
        if _verdict(hat._replace(head_mm=head_mm)) == "fits"
    ]
    if not others:
        return ""
    _, index, head_mm = min(others)
    return say("size_check.fits_another", size=index + 1, head=quantity_text(length(head_mm, units), 3))


def _depth_notices(hat: MeasuredHat, first: SizeOption, units: UnitSystem) -> tuple[Notice, ...]:
    """The warning that a hat which was to reach the ears does not, with what the first choice does about it."""
    if not hat.is_shallow:
        return ()
    if hat.crown_begun:
        sentence = "size_check.too_shallow.crown"
    else:
        sentence = "size_check.too_shallow.back" if first.code == "rip_back" else "size_check.too_shallow"
    return (
        Notice(
            code="too_shallow",
            message=say(
                sentence,
                reached=quantity_text(length(hat.depth_mm(hat.straight), units), 3),
                needed=quantity_text(length(EAR_ARC * hat.head_mm, units), 3),
            ),
            pointer="#/length",
        ),
    )


def _crown_notices(hat: MeasuredHat, first: SizeOption, units: UnitSystem) -> Iterator[Notice]:
    """That the crown is taken to be begun, and what to do where it is not; nothing where all of it is ripped back."""
    if not hat.crown_begun or (first.code == "rip_back" and first.stitches is not None):
        return
    straight, worked = hat.straight_for_depth, hat.rounds_worked
    if straight > worked:
        way = say_count("size_check.not_begun.more", straight - worked)
    elif hat.is_off(hat.depth_mm(worked)):
        way = say("size_check.not_begun.back", rounds=say_count("rounds", worked - straight), round=straight)
    else:
        straight, way = worked, say("size_check.not_begun.next")
    yield Notice(
        code="crown_assumed",
        message=joined(
            " ",
            say("size_check.crown_assumed", straight=hat.straight),
            way,
            say("size_check.not_begun.deep", depth=quantity_text(length(hat.depth_mm(straight), units), 3)),
        ),
        pointer="#/rounds_worked",
    )


def _early_notices(hat: MeasuredHat, units: UnitSystem) -> tuple[Notice, ...]:
    """The warning that the width measured is not yet that of the hat."""
    if not hat.is_early:
        return ()
    in_rib = hat.in_brim and hat.request.brim.is_ribbed
    return (
        Notice(
            code="measured_in_rib" if in_rib else "measured_early",
            message=say(
                f"size_check.{'measured_in_rib' if in_rib else 'measured_early'}",
                above=above_brim_text(units),
            ),
            pointer="#/rounds_worked",
        ),
    )
