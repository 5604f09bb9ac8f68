"""The ways out when a hat comes out in the wrong size: go on, block it, go on with other counts, or rip back."""

from collections.abc import Collection
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible
from roundwright.knitting.hat.bridge import bridging_round
from roundwright.knitting.hat.plan import HatRounds, hat_rounds
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.quantities import (
    Gauge,
    Length,
    UnitSystem,
    length,
    mm,
    quantity_text,
    row_height_mm,
    stitch_width_mm,
)
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.sizing.head_references import CM_MM
from roundwright.knitting.sizing.recommend import USUAL_STRETCH_PERCENT
from roundwright.language import Message, joined, say, say_count

Fibre = Literal["wool", "cotton", "acrylic", "viscose"]
OptionCode = Literal["go_on", "other_counts", "block", "rip_back"]

SHRINKING: Final = ("wool", "cotton")
GROWING: Final = ("acrylic", "viscose")

BLOCK_BASIS: Final = Basis(
    say("size_check.block_basis"),
    "razmery.info; blocking: common practice",
)
COUNTS_BASIS: Final = Basis(
    say("size_check.counts_basis"),
    COMMON_PRACTICE,
)


RIB_BASIS: Final = Basis(
    say("size_check.rib_basis"),
    "heathersknittingjournal.com (2020), one knitter, one yarn; half of it: common practice",
)
BODY_STRETCH: Final = 1 + USUAL_STRETCH_PERCENT / 100
"""How many times its own width a body in stockinette is worn at, at most."""
WIDEST_COLUMN: Final = 2.0
"""Rib stretches since it folds: where one column is more than twice as wide as the other, it lies nearly flat."""


class SizeOption(Struct, frozen=True, kw_only=True):
    """Something that can be done."""

    code: Annotated[
        OptionCode,
        Meta(
            description="`go_on` as it is; `other_counts`: go on with other counts from the next round; `block` it "
            "when it is done; `rip_back` and go on from there."
        ),
    ]
    message: Annotated[str, Meta(description="What to do, and what comes of it, in a few sentences.")]
    circumference: Annotated[
        Length, Meta(description="Circumference of the body that comes of it, unstretched.")
    ]
    back_to: Annotated[
        int | None,
        Meta(
            description="Round to rip back to, counted from the cast-on; 0: begin again. Null: nothing is ripped."
        ),
    ] = None
    takes_back: Annotated[int, Meta(description="Rounds that are lost.")] = 0
    stitches: Annotated[
        int | None,
        Meta(description="Stitches to cast on, or to have after `round`; null where the count stays."),
    ] = None
    round: Annotated[
        Round | None,
        Meta(description="The round that leads to the other count, worked next; null where none is needed."),
    ] = None
    straight_rounds: Annotated[
        int | None,
        Meta(
            description="Rounds from here, or from `back_to`, to the first of the crown, `round` among them, for the "
            "depth as planned; null where the crown is begun."
        ),
    ] = None
    crown_counts: Annotated[
        tuple[int, ...],
        Meta(
            description="Stitches after each round of the crown at the other count; empty where the count stays."
        ),
    ] = ()


class UnhelpfulWay(Struct, frozen=True, kw_only=True):
    """Something that does not help."""

    code: Annotated[OptionCode, Meta(description="What might have been done, as in `options`.")]
    message: Annotated[str, Meta(description="Why it does not help, in a sentence.")]


class MeasuredHat(NamedTuple):
    """A hat on the needles: its plan, the gauge as knitted, and what its edge comes to."""

    request: HatRequest
    size_index: int
    planned: HatRounds
    gauge: Gauge
    rounds_worked: int
    fibre: Fibre | None
    edge_mm: float
    head_mm: float

    @property
    def straight(self) -> int:
        """Rounds from the cast-on to the crown, as planned."""
        return self.planned.brim.rounds + self.planned.body.rounds

    @property
    def wider(self) -> float:
        """How many times as wide as planned it is."""
        return self.edge_mm / mm(self.planned.measurements.circumference)

    @property
    def body_mm(self) -> float:
        """Circumference of the body as it comes out, unstretched."""
        return mm(self.planned.measurements.body_circumference) * self.wider

    @property
    def edge_gives(self) -> float:
        """How many times its own width the edge is worn at, at most: in rib by more than in stockinette."""
        brim = self.request.brim
        columns = sorted((brim.rib.knit, brim.rib.purl))
        if not brim.is_ribbed or columns[1] > WIDEST_COLUMN * columns[0]:
            return BODY_STRETCH
        return 1 + (reference.practices()["rib-in-comfort"].usual or 0.0) / 100

    @property
    def edge_fits(self) -> bool:
        """Whether the head can wear the edge."""
        return self.edge_mm <= self.head_mm <= self.edge_mm * self.edge_gives

    @property
    def body_fits(self) -> bool:
        """Whether the body goes around the head; one that is wide gathers."""
        return self.head_mm <= self.body_mm * BODY_STRETCH

    @property
    def body_rounds(self) -> int:
        """Rounds of the body that are knitted."""
        return max(0, min(self.rounds_worked, self.straight) - self.planned.brim.rounds)


def size_options(hat: MeasuredHat, as_planned: bool, fits: bool, units: UnitSystem) -> tuple[SizeOption, ...]:
    """What can be done, the first choice first; never empty."""
    if as_planned:
        return (_go_on(hat, units),)
    anew = _at_the_gauge_as_knitted(hat)
    block = _block(hat, units)
    in_brim = hat.rounds_worked <= hat.planned.brim.rounds
    other_counts = _other_counts(hat, anew, units)
    back = _rip_to_brim(hat, anew, units) if hat.edge_fits else _begin_again(hat, anew, units)
    options: tuple[SizeOption | None, ...] = (back, block) if in_brim else (block, back)
    if fits:
        options = (_go_on(hat, units), other_counts, block, back)
    elif hat.rounds_worked == hat.planned.brim.rounds:
        options = (other_counts, block) if other_counts else options
    return tuple(option for option in options if option is not None)


def unhelpful_ways(
    hat: MeasuredHat, offered: Collection[OptionCode], units: UnitSystem
) -> tuple[UnhelpfulWay, ...]:
    """What is not offered, and why; taking it back helps at any time, if only with another needle."""
    reasons: dict[OptionCode, Message] = {
        "go_on": say("size_check.unhelpful.go_on"),
        "other_counts": _why_no_other_counts(hat, units),
        "block": _why_no_block(hat, units),
    }
    return tuple(
        UnhelpfulWay(code=code, message=reason) for code, reason in reasons.items() if code not in offered
    )


def _why_no_other_counts(hat: MeasuredHat, units: UnitSystem) -> Message:
    brim, worked = hat.planned.brim.rounds, hat.body_rounds
    if not hat.edge_fits:
        return say("size_check.unhelpful.other_counts.edge", edge=_text(hat.edge_mm, units))
    if hat.rounds_worked < brim:
        return say("size_check.unhelpful.other_counts.brim")
    if hat.rounds_worked >= hat.straight:
        return say("size_check.unhelpful.other_counts.crown")
    if not hat.body_fits and worked:
        body = _text(hat.body_mm, units)
        return say_count("size_check.unhelpful.other_counts.body", worked, body=body)
    return say("size_check.unhelpful.other_counts.same")


def _why_no_block(hat: MeasuredHat, units: UnitSystem) -> Message:
    edge_mm = _blocked_mm(hat)
    if edge_mm == hat.edge_mm:
        return say("size_check.unhelpful.block.stays", edge=_text(edge_mm, units))
    return say("size_check.unhelpful.block.too_little", edge=_text(edge_mm, units))


def _at_the_gauge_as_knitted(hat: MeasuredHat) -> HatRounds | None:
    """The same size planned at the gauge as knitted; None where no hat comes of it."""
    request, index = hat.request.without_needles(), hat.size_index
    brim = replace(request.brim, gauge=_as_knitted(hat, request.brim.gauge))
    body = replace(request.body_of(index), gauge=_as_knitted(hat, request.body_of(index).gauge))
    sizes = tuple(
        replace(size, body=body) if number == index else size for number, size in enumerate(request.sizes)
    )
    try:
        return hat_rounds(replace(request, gauge=hat.gauge, brim=brim, sizes=sizes), hat.size_index)
    except Impossible:
        return None


def _as_knitted(hat: MeasuredHat, part: Gauge | None) -> Gauge | None:
    """The gauge of a part's own swatch, changed as that of the hat was."""
    if part is None:
        return None
    wider = stitch_width_mm(hat.gauge) / stitch_width_mm(hat.request.gauge)
    higher = row_height_mm(hat.gauge) / row_height_mm(hat.request.gauge)
    rows = None if part.rows is None else part.rows / higher
    return replace(part, stitches=part.stitches / wider, rows=rows)


def _text(length_mm: float, units: UnitSystem) -> Message:
    return quantity_text(length(length_mm, units), 3)


def _go_on(hat: MeasuredHat, units: UnitSystem) -> SizeOption:
    left = _straight_left(hat)
    more = say("size_check.more_rounds", rounds=left) if left else ""
    return SizeOption(
        code="go_on",
        message=joined(" ", say("size_check.go_on", body=_text(hat.body_mm, units)), more),
        circumference=length(hat.body_mm, units),
        straight_rounds=left,
    )


def _straight_left(hat: MeasuredHat) -> int | None:
    """Rounds to the crown for the depth as planned; None where the crown is begun."""
    if hat.rounds_worked > hat.straight:
        return None
    crown, brim, body = len(hat.planned.crown.rounds), hat.planned.brim, hat.planned.body
    row_mm, knitted_mm = row_height_mm(hat.request.gauge), row_height_mm(hat.gauge)
    brim_mm = mm(brim.length) if brim.length else 0.0
    body_row_mm = mm(body.length) / body.rounds if body.length else row_mm
    # Brim and crown in rounds of the body: what they lose or gain in height, the body makes up.
    others = (brim_mm + crown * row_mm) / body_row_mm
    in_body = round((others + body.rounds) * row_mm / knitted_mm - others)
    return max(0, brim.rounds + in_body - hat.rounds_worked)


def _block(hat: MeasuredHat, units: UnitSystem) -> SizeOption | None:
    """Block it to a size that the head can wear, as near to the plan as the fibre goes; None where it cannot."""
    edge_mm = _blocked_mm(hat)
    blocked = hat._replace(edge_mm=edge_mm)
    if edge_mm == hat.edge_mm or not (blocked.edge_fits and blocked.body_fits):
        return None
    body_mm = blocked.body_mm
    wider = edge_mm > hat.edge_mm
    return SizeOption(
        code="block",
        message=say("size_check.block" if wider else "size_check.shrink", body=_text(body_mm, units)),
        circumference=length(body_mm, units),
    )


def _blocked_mm(hat: MeasuredHat) -> float:
    """Circumference of the edge after blocking, as near to the plan as the fibre goes."""
    planned_mm = mm(hat.planned.measurements.circumference)
    least_mm, most_mm = _in_the_wash(hat)
    return min(max(planned_mm, hat.edge_mm - least_mm), hat.edge_mm + most_mm)


def _in_the_wash(hat: MeasuredHat) -> tuple[float, float]:
    """How much narrower and wider the hat can become, in millimetres; an unknown fibre is taken for wool to widen."""
    practices = reference.practices()
    shrinks_mm, grows_mm = (
        CM_MM * (practices[name].high or 0.0) for name in ("washing-shrinks", "washing-stretches")
    )
    by_blocking_mm = (practices["blocking"].high or 0.0) / 100 * hat.edge_mm
    if hat.fibre is None:
        return 0.0, by_blocking_mm
    narrower = shrinks_mm if hat.fibre in SHRINKING else 0.0
    wider = grows_mm if hat.fibre in GROWING else by_blocking_mm if hat.fibre == "wool" else 0.0
    return narrower, wider


def _other_counts(hat: MeasuredHat, anew: HatRounds | None, units: UnitSystem) -> SizeOption | None:
    """Go on from here with the counts of the gauge as knitted; None where the crown is begun or nothing changes.

    None too where what stays is nothing the head can wear: the edge, or rounds of the body.
    """
    if not hat.edge_fits or (hat.body_rounds and not hat.body_fits):
        return None
    brim, now = hat.planned.brim.rounds, hat.planned.crown.stitches
    if anew is None or not brim <= hat.rounds_worked < hat.straight:
        return None
    if hat.rounds_worked == brim:
        now = hat.planned.brim.lines[0].before if hat.planned.brim.adjust is None else now
    leading = _leading_round(hat.rounds_worked - brim + 1, now, anew.crown.stitches)
    if leading is None:
        return None
    rounds = max(1, anew.brim.rounds + anew.body.rounds - hat.rounds_worked)
    return SizeOption(
        code="other_counts",
        message=say(
            "size_check.other_counts",
            round=leading.text,
            stitches=leading.after,
            rounds=rounds - 1,
            body=_anew_text(anew, units),
            edge=_text(hat.edge_mm, units),
        ),
        circumference=_anew_circumference(anew, units),
        stitches=leading.after,
        round=leading,
        straight_rounds=rounds,
        crown_counts=tuple(round.after for round in anew.crown.rounds),
    )


def _leading_round(number: int, before: int, after: int) -> Round | None:
    """The round from one count to the other; None where there is none, or one round does not get there."""
    if before == after or not before / 2 <= after <= 2 * before:
        return None
    return bridging_round(number, before, after)


def _anew_circumference(anew: HatRounds, units: UnitSystem) -> Length:
    return length(mm(anew.measurements.body_circumference), units)


def _anew_text(anew: HatRounds, units: UnitSystem) -> Message:
    return _text(mm(anew.measurements.body_circumference), units)


def _rip_to_brim(hat: MeasuredHat, anew: HatRounds | None, units: UnitSystem) -> SizeOption | None:
    """Rip back to the end of a brim that the head can wear, and go on with other counts from there."""
    brim = hat.planned.brim.rounds
    if anew is None or hat.rounds_worked <= brim:
        return _begin_again(hat, anew, units)
    before = hat.planned.crown.stitches
    if hat.planned.brim.adjust is None:
        before = hat.planned.brim.lines[0].before
    leading = _leading_round(1, before, anew.crown.stitches)
    if leading is None:
        return _begin_again(hat, anew, units)
    rounds = max(1, anew.brim.rounds + anew.body.rounds - brim)
    return SizeOption(
        code="rip_back",
        message=say(
            "size_check.rip_back",
            rounds=hat.rounds_worked - brim,
            brim=brim,
            round=leading.text,
            stitches=leading.after,
            body=_anew_text(anew, units),
        ),
        circumference=_anew_circumference(anew, units),
        back_to=brim,
        takes_back=hat.rounds_worked - brim,
        stitches=leading.after,
        round=leading,
        straight_rounds=rounds,
        crown_counts=tuple(round.after for round in anew.crown.rounds),
    )


def _begin_again(hat: MeasuredHat, anew: HatRounds | None, units: UnitSystem) -> SizeOption:
    """Rip out all of it: the edge is of the wrong size, so every round is."""
    planned = hat.planned if anew is None else anew
    cast_on, taken_back = planned.brim.lines[0].before, say_count("rounds", hat.rounds_worked)
    if anew is None or cast_on == hat.planned.brim.lines[0].before:
        planned = hat.planned
        message = say("size_check.begin_again.same", rounds=taken_back, stitches=planned.brim.lines[0].before)
    else:
        message = say(
            "size_check.begin_again", rounds=taken_back, stitches=cast_on, body=_anew_text(anew, units)
        )
    return SizeOption(
        code="rip_back",
        message=message,
        circumference=_anew_circumference(planned, units),
        back_to=0,
        takes_back=hat.rounds_worked,
        stitches=planned.brim.lines[0].before,
        straight_rounds=planned.brim.rounds + planned.body.rounds,
        crown_counts=tuple(round.after for round in planned.crown.rounds),
    )
