"""The ways out when a hat comes out in the wrong size: go on, block it, go on with other counts, or rip back."""

from math import ceil
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible
from roundwright.knitting.gauge.needle_size import OTHER_YARN_STITCHES, more_stitches
from roundwright.knitting.hat.bridge import bridging_round
from roundwright.knitting.hat.part_gauge import body_gauge, brim_gauge
from roundwright.knitting.hat.plan import HatRounds, hat_rounds
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.hat.stretch import BODY_STRETCH, RIB_AT_REST, draws_in, edge_gives
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
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.sizing.cast_on import COARSE_PERCENT
from roundwright.knitting.sizing.depth import EAR_ARC
from roundwright.knitting.sizing.head_references import CM_MM
from roundwright.language import Message, joined, say, say_count

Fibre = Literal["wool", "cotton", "acrylic", "viscose"]
Verdict = Literal["as_planned", "fits", "too_small", "too_large", "too_early"]
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
ABOVE_BRIM_MM: Final = 30.0
"""Body above the brim from which on its width can be measured (common practice)."""
LEAST_EASE_PERCENT: Final = 3.0
"""A hat smaller than the head by less than this sits loosely: the least ease in print is an inch (common practice)."""
LEAST_ROOM_PERCENT: Final = 3.0
"""With less than this to spare before the stretch that is comfortable ends, a hat only just goes on (common practice):
a tape and a swatch are as far off, and a baby's head grows by as much in two months (WHO)."""


class SizeOption(Struct, frozen=True, kw_only=True):
    """Something that can be done."""

    code: Annotated[
        OptionCode,
        Meta(
            description="`go_on` as it is; `other_counts`: go on with other counts from the next round; `block` it "
            "when it is done; `rip_back` and go on from there, "
            "with other counts for the width (`stitches`) or the same for the depth."
        ),
    ]
    message: Annotated[str, Meta(description="What to do, and what comes of it, in a few sentences.")]
    circumference: Annotated[
        Length,
        Meta(
            description="Circumference of the body that comes of it, unstretched; with `other_counts` of what is "
            "knitted from here on."
        ),
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
    def rounds(self) -> int:
        """Rounds of the whole hat, as planned."""
        return self.straight + len(self.planned.crown.rounds)

    @property
    def wider(self) -> float:
        """How many times as wide as planned it is."""
        return self.edge_mm / mm(self.planned.measurements.circumference)

    @property
    def body_mm(self) -> float:
        """Circumference of the body as it comes out, unstretched."""
        return mm(self.planned.measurements.body_circumference) * self.wider

    @property
    def draws_in(self) -> bool:
        """Whether the edge is a rib that folds: it is narrower than its count of plain stitches, and gives more."""
        return draws_in(self.request)

    @property
    def edge_gives(self) -> float:
        """How many times its own width the edge is worn at, at most: in rib by more than in stockinette."""
        return edge_gives(self.request)

    @property
    def edge_at_rest_mm(self) -> float:
        """Width to which the edge draws in by itself; that of a rib with a swatch of its own was measured."""
        measured = self.in_brim or self.request.brim.gauge is not None
        return self.edge_mm * (RIB_AT_REST if self.draws_in and not measured else 1.0)

    @property
    def edge_fits(self) -> bool:
        """Whether the head can wear the edge."""
        return self.edge_at_rest_mm <= self.head_mm <= self.edge_mm * self.edge_gives

    @property
    def is_loose(self) -> bool:
        """Whether the hat is wider than the head, though a rib may hold it."""
        return self.edge_mm > self.head_mm

    @property
    def in_brim(self) -> bool:
        """Whether nothing but brim is knitted."""
        return self.rounds_worked <= self.planned.brim.rounds

    @property
    def measure_after(self) -> int:
        """Rounds after which the width is that of the hat: enough of the body, or all of it."""
        brim, body = self.planned.brim, self.planned.body
        if body.length is None:
            return brim.rounds
        return min(self.straight, brim.rounds + ceil(ABOVE_BRIM_MM * body.rounds / mm(body.length)))

    @property
    def is_early(self) -> bool:
        """Whether the measure tells nothing yet: rib draws in, a rolled edge curls, and a cast-on pulls."""
        return self.rounds_worked < self.measure_after

    @property
    def measured_gauge(self) -> Gauge:
        """Gauge of the part that was measured, as planned; its own swatch may leave the rows open."""
        request = self.request
        own = request.brim.gauge if self.in_brim else request.body_of(self.size_index).gauge
        if own is None:
            return request.gauge
        part = brim_gauge(request) if self.in_brim else body_gauge(request, self.size_index)
        return replace(own, rows=own.rows or mm(own.over) / part.row_mm)

    @property
    def knitted_gauge(self) -> Gauge:
        """Gauge of the part that was measured, as knitted."""
        planned = self.measured_gauge
        if planned == self.request.gauge:
            return self.gauge
        return Gauge(
            stitches=tidy(mm(TEN_CM) / (stitch_width_mm(planned) * self.stitches_wider)),
            rows=tidy(mm(TEN_CM) / (row_height_mm(planned) * self.higher)),
            over=TEN_CM,
        )

    @property
    def more_stitches(self) -> float:
        """Stitches in 10 cm as knitted less those as planned, of the part that was measured."""
        return more_stitches(stitch_width_mm(self.knitted_gauge), stitch_width_mm(self.measured_gauge))

    @property
    def needle_corrects(self) -> bool:
        """Whether another needle brings the gauge to that of the plan in the same fabric."""
        return abs(self.more_stitches) <= OTHER_YARN_STITCHES

    @property
    def body_fits(self) -> bool:
        """Whether the body goes around the head; one that is wide gathers."""
        return self.head_mm <= self.body_mm * BODY_STRETCH

    @property
    def crown_begun(self) -> bool:
        """Whether a round of the crown is knitted."""
        return self.rounds_worked > self.straight

    @property
    def stitches_wider(self) -> float:
        """How many times as wide as planned a stitch is."""
        return stitch_width_mm(self.gauge) / stitch_width_mm(self.request.gauge)

    @property
    def higher(self) -> float:
        """How many times as high as planned a round is."""
        return row_height_mm(self.gauge) / row_height_mm(self.request.gauge)

    @property
    def body_row_mm(self) -> float:
        """Height of a round of the body, as planned."""
        body = self.planned.body
        return mm(body.length) / body.rounds if body.length else row_height_mm(self.request.gauge)

    @property
    def straight_for_depth(self) -> int:
        """Rounds from the cast-on to the crown for the depth as planned, at the rounds as knitted; the brim stays."""
        short_mm = mm(self.planned.measurements.depth) - self.depth_mm(self.straight)
        more = round(short_mm / (self.body_row_mm * self.higher))
        return self.planned.brim.rounds + max(0, self.planned.body.rounds + more)

    def depth_mm(self, straight: int) -> float:
        """Depth at the rounds as knitted, with so many of them before the crown."""
        more_mm = (straight - self.straight) * self.body_row_mm
        return (mm(self.planned.measurements.depth) + more_mm) * self.higher

    @property
    def depth_as_advised_mm(self) -> float:
        """Depth where the crown begins as near to the depth as planned as it can, and nothing is taken back."""
        straight = self.straight if self.crown_begun else max(self.straight_for_depth, self.rounds_worked)
        return self.depth_mm(straight)

    def is_off(self, depth_mm: float) -> bool:
        """Whether a depth is off the plan by more than an ease may be: no tape is so far off."""
        return abs(depth_mm / mm(self.planned.measurements.depth) - 1) > COARSE_PERCENT / 100

    @property
    def is_shallow(self) -> bool:
        """Whether it was to reach the ears, and with as many rounds as planned does not, by more than a tape is off."""
        ears_mm, depth_mm = EAR_ARC * self.head_mm, self.depth_mm(self.straight)
        return self.is_off(depth_mm) and depth_mm < ears_mm <= mm(self.planned.measurements.depth)

    @property
    def is_slack(self) -> bool:
        """Whether it hardly stretches on the head, where it was planned to."""
        slack_mm = (1 - LEAST_EASE_PERCENT / 100) * self.head_mm
        return self.edge_mm > slack_mm >= mm(self.planned.measurements.circumference)

    @property
    def is_scant(self) -> bool:
        """Whether it only just goes on the head, by the edge or by the body."""
        most_mm = min(self.edge_mm * self.edge_gives, self.body_mm * BODY_STRETCH)
        return self.head_mm > most_mm * (1 - LEAST_ROOM_PERCENT / 100)

    @property
    def body_rounds(self) -> int:
        """Rounds of the body that are knitted."""
        return max(0, min(self.rounds_worked, self.straight) - self.planned.brim.rounds)


class Ways(NamedTuple):
    """What can be done, the first choice first, and what does not help."""

    options: tuple[SizeOption, ...]
    unhelpful: tuple[UnhelpfulWay, ...]


def ways_out(hat: MeasuredHat, verdict: Verdict, units: UnitSystem) -> Ways:
    """Each of the four ways: as an option, or with the reason why it does not help; of a hat as planned only the one.

    There always is an option.
    """
    onward = _for_depth(hat, units)
    if verdict == "as_planned":
        return Ways(onward, ())
    if verdict == "too_early":
        reason = say("size_check.unhelpful.early", above=above_brim_text(units))
        codes: tuple[OptionCode, ...] = ("other_counts", "block", "rip_back")
        return Ways((_knit_on(hat, units),), tuple(UnhelpfulWay(code=code, message=reason) for code in codes))
    anew = _at_the_gauge_as_knitted(hat)
    other_counts, block = _other_counts(hat, anew, units), _block(hat, units)
    back = _back(hat, anew, other_counts, units)
    ways: tuple[SizeOption | UnhelpfulWay, ...]
    if verdict == "fits":
        backs = () if len(onward) > 1 and isinstance(back, UnhelpfulWay) else (back,)
        ways = (*onward, other_counts, block, *backs)
    elif verdict == "too_small":
        ways = (_why_not_go_on(hat, units), other_counts, *_best_first(hat, block, back))
    else:
        ways = (_why_not_go_on(hat, units), *_best_first(hat, block, back), other_counts)
    return Ways(
        tuple(way for way in ways if isinstance(way, SizeOption)),
        tuple(way for way in ways if isinstance(way, UnhelpfulWay)),
    )


def _best_first(
    hat: MeasuredHat, block: SizeOption | UnhelpfulWay, back: SizeOption | UnhelpfulWay
) -> tuple[SizeOption | UnhelpfulWay, ...]:
    """Blocking first where it all but reaches the plan and most of the hat is knitted; else ripping back.

    What a fibre that is not known does is a guess, and no blocking mends a crown begun too early.
    """
    planned_mm = mm(hat.planned.measurements.circumference)
    is_near = abs(_blocked_mm(hat) - planned_mm) <= COARSE_PERCENT / 100 * hat.head_mm
    is_sure = hat.fibre is not None and not (hat.is_shallow and hat.crown_begun)
    return (block, back) if is_near and is_sure and 2 * hat.rounds_worked > hat.rounds else (back, block)


def _why_not_go_on(hat: MeasuredHat, units: UnitSystem) -> UnhelpfulWay:
    if hat.edge_fits and hat.is_loose:
        reason = say("size_check.unhelpful.go_on.loose", body=_text(hat.body_mm, units))
    else:
        reason = say("size_check.unhelpful.go_on")
    return UnhelpfulWay(code="go_on", message=reason)


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
    rows = None if part.rows is None else part.rows / hat.higher
    return replace(part, stitches=part.stitches / hat.stitches_wider, rows=rows)


def _text(length_mm: float, units: UnitSystem) -> Message:
    return quantity_text(length(length_mm, units), 3)


def above_brim_text(units: UnitSystem) -> Message:
    """How much of the body is to be done before its width is measured, as a text."""
    return quantity_text(length(ABOVE_BRIM_MM, units), 2)


def _go_on(hat: MeasuredHat, units: UnitSystem) -> SizeOption:
    if hat.rounds_worked == hat.rounds:
        onward = "size_check.close"
    elif hat.is_off(hat.depth_as_advised_mm):
        onward = "size_check.go_on.off_depth"
    elif hat.crown_begun or not hat.is_off(hat.depth_mm(hat.straight)):
        onward = "size_check.go_on"
    else:
        onward = "size_check.keep_count"
    return SizeOption(
        code="go_on",
        message=joined(
            " ", say(onward, body=_text(hat.body_mm, units)), _to_the_crown(hat), _late(hat, units)
        ),
        circumference=length(hat.body_mm, units),
        straight_rounds=_straight_left(hat),
    )


def _to_the_crown(hat: MeasuredHat) -> str:
    """How many rounds are left to the crown; empty where it is begun."""
    left = _straight_left(hat)
    if left is None:
        return ""
    return say_count("size_check.more_rounds", left) if left else say("size_check.crown_next")


def _late(hat: MeasuredHat, units: UnitSystem) -> str:
    """The depth where it is not the one planned, since too many rounds are knitted; empty where it is."""
    depth_mm = hat.depth_as_advised_mm
    is_late = not hat.crown_begun and hat.rounds_worked > hat.straight_for_depth
    return _then_deep(hat, depth_mm, units) if is_late or hat.is_off(depth_mm) else ""


def _then_deep(hat: MeasuredHat, depth_mm: float, units: UnitSystem) -> Message:
    planned = _text(mm(hat.planned.measurements.depth), units)
    return say("size_check.then_deep", depth=_text(depth_mm, units), planned=planned)


def _for_depth(hat: MeasuredHat, units: UnitSystem) -> tuple[SizeOption, ...]:
    """Go on; or, where that misses the depth as planned, rip back to where the crown begins for it.

    A hat that would not reach the ears is ripped back first: one that is too deep can be worn.
    """
    go_on, straight = _go_on(hat, units), hat.straight_for_depth
    back_to = min(straight, hat.straight)
    if back_to >= hat.rounds_worked or not hat.is_off(hat.depth_as_advised_mm):
        return (go_on,)
    lost, more = hat.rounds_worked - back_to, straight - back_to
    back = SizeOption(
        code="rip_back",
        message=say(
            "size_check.rip_for_depth",
            rounds=say_count("rounds", lost),
            round=back_to,
            onward=_onward(more),
            depth=_text(hat.depth_mm(straight), units),
        ),
        circumference=length(hat.body_mm, units),
        back_to=back_to,
        takes_back=lost,
        straight_rounds=more,
    )
    return (back, go_on) if hat.is_shallow else (go_on, back)


def _onward(rounds: int) -> Message:
    """What is worked next, as a part of a sentence."""
    return say_count("size_check.rounds_to_crown", rounds) if rounds else say("size_check.the_crown")


def _knit_on(hat: MeasuredHat, units: UnitSystem) -> SizeOption:
    """Go on as planned until the width can be measured."""
    rounds = hat.measure_after - hat.rounds_worked
    if hat.planned.body.length is None:
        message = say_count("size_check.knit_on.brim", rounds)
    else:
        message = say_count("size_check.knit_on", rounds, above=above_brim_text(units))
    return SizeOption(
        code="go_on",
        message=message,
        circumference=length(hat.body_mm, units),
        straight_rounds=hat.straight - hat.rounds_worked,
    )


def _straight_left(hat: MeasuredHat) -> int | None:
    """Rounds to the crown for the depth as planned; None where the crown is begun."""
    return None if hat.crown_begun else max(0, hat.straight_for_depth - hat.rounds_worked)


def _block(hat: MeasuredHat, units: UnitSystem) -> SizeOption | UnhelpfulWay:
    """Block it to a size that the head can wear, as near to the plan as the fibre goes."""
    edge_mm = _blocked_mm(hat)
    blocked = hat._replace(edge_mm=edge_mm)
    fits = blocked.edge_fits and blocked.body_fits and not (blocked.is_loose or blocked.is_slack)
    if edge_mm == hat.edge_mm or not fits:
        return UnhelpfulWay(code="block", message=_why_no_block(hat, blocked, units))
    wider = edge_mm > hat.edge_mm
    return SizeOption(
        code="block",
        message=joined(
            " ",
            say("size_check.block" if wider else "size_check.shrink", body=_text(blocked.body_mm, units)),
            say("size_check.block.only_wool") if hat.fibre is None else "",
            _to_the_crown(hat),
        ),
        circumference=length(blocked.body_mm, units),
        straight_rounds=_straight_left(hat),
    )


def _why_no_block(hat: MeasuredHat, blocked: MeasuredHat, units: UnitSystem) -> Message:
    if hat.fibre is None:
        return say("size_check.unhelpful.block.unknown_fibre")
    if blocked.edge_mm == hat.edge_mm:
        why = "stays"
    else:
        why = "loosely" if blocked.is_slack and not blocked.is_loose else "too_little"
    return say(f"size_check.unhelpful.block.{why}", body=_text(blocked.body_mm, units))


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


def _other_counts(hat: MeasuredHat, anew: HatRounds | None, units: UnitSystem) -> SizeOption | UnhelpfulWay:
    """Go on from here with the counts of the gauge as knitted.

    That helps where the body is not done, and the head can wear what stays: the edge, and rounds of the body, whose
    width is told.
    """
    if reason := _no_counts_to_change(hat, units):
        return _no_other_counts(reason)
    brim, now = hat.planned.brim.rounds, hat.planned.crown.stitches
    if hat.rounds_worked == brim and hat.planned.brim.adjust is None:
        now = hat.planned.brim.lines[0].before
    if anew is None or now == anew.crown.stitches:
        return _no_other_counts(say("size_check.unhelpful.other_counts.same"))
    leading = _leading_round(hat.rounds_worked - brim + 1, now, anew.crown.stitches)
    if leading is None:
        return _no_other_counts(
            say("size_check.unhelpful.other_counts.far", now=now, stitches=anew.crown.stitches)
        )
    left = anew.brim.rounds + anew.body.rounds - hat.rounds_worked
    rounds = max(1, left)
    depth_mm = mm(anew.measurements.depth) + (rounds - left) * hat.body_row_mm * hat.higher
    sentence = "size_check.other_counts.rib" if hat.draws_in else "size_check.other_counts"
    return SizeOption(
        code="other_counts",
        message=joined(
            " ",
            say(
                sentence,
                round=leading.text,
                stitches=leading.after,
                onward=_onward(rounds - 1),
                body=_anew_text(anew, units),
                edge=_text(hat.edge_mm, units),
            ),
            say_count("size_check.other_counts.below", hat.body_rounds, body=_text(hat.body_mm, units))
            if hat.body_rounds
            else "",
            _then_deep(hat, depth_mm, units) if hat.is_off(depth_mm) else "",
        ),
        circumference=_anew_circumference(anew, units),
        stitches=leading.after,
        round=leading,
        straight_rounds=rounds,
        crown_counts=tuple(round.after for round in anew.crown.rounds),
    )


def _no_counts_to_change(hat: MeasuredHat, units: UnitSystem) -> Message | None:
    """Why other counts from here on do not help; None where the body goes on and what is worked can be worn.

    A body that hangs loose is not mended where most of it is knitted.
    """
    if hat.rounds_worked >= max(hat.straight, hat.planned.brim.rounds + 1):
        return say("size_check.unhelpful.other_counts.crown")
    if not hat.edge_fits:
        return say("size_check.unhelpful.other_counts.edge", edge=_text(hat.edge_mm, units))
    if hat.body_rounds and not hat.body_fits:
        body = _text(hat.body_mm, units)
        return say_count("size_check.unhelpful.other_counts.body", hat.body_rounds, body=body)
    if hat.is_loose and 2 * hat.body_rounds > hat.planned.body.rounds:
        body = _text(hat.body_mm, units)
        return say_count("size_check.unhelpful.other_counts.loose", hat.body_rounds, body=body)
    return None


def _no_other_counts(reason: Message) -> UnhelpfulWay:
    return UnhelpfulWay(code="other_counts", message=reason)


def _leading_round(number: int, before: int, after: int) -> Round | None:
    """The round from one count to the other; None where there is none, or one round does not get there."""
    if before == after or not before / 2 <= after <= 2 * before:
        return None
    return bridging_round(number, before, after)


def _anew_circumference(anew: HatRounds, units: UnitSystem) -> Length:
    return length(mm(anew.measurements.body_circumference), units)


def _anew_text(anew: HatRounds, units: UnitSystem) -> Message:
    return _text(mm(anew.measurements.body_circumference), units)


def _back(
    hat: MeasuredHat, anew: HatRounds | None, other_counts: SizeOption | UnhelpfulWay, units: UnitSystem
) -> SizeOption | UnhelpfulWay:
    """Rip back to the end of an edge that the head can wear, or to the cast-on of one that it cannot.

    An edge that it can wear is taken back only where nothing else makes the body fit.
    """
    if not hat.edge_fits:
        return _begin_again(hat, anew, units)
    option = _rip_to_brim(hat, anew, units)
    fits = hat.body_fits and not hat.is_loose
    if option is None and (fits or isinstance(other_counts, SizeOption)):
        return UnhelpfulWay(code="rip_back", message=say("size_check.unhelpful.rip_back"))
    return option or _begin_again(hat, anew, units)


def _rip_to_brim(hat: MeasuredHat, anew: HatRounds | None, units: UnitSystem) -> SizeOption | None:
    """Rip back to the end of the brim, and go on with other counts from there; None where none lead on from it."""
    brim = hat.planned.brim.rounds
    if anew is None or hat.in_brim:
        return None
    before = hat.planned.crown.stitches
    if hat.planned.brim.adjust is None:
        before = hat.planned.brim.lines[0].before
    leading = _leading_round(1, before, anew.crown.stitches)
    if leading is None:
        return None
    shown = SHOWN_OF_BRIM.get(
        hat.request.brim.edge, 1.0
    )  # it is kept, with other rounds than the plan anew has
    rounds = max(1, anew.body.rounds + round((anew.brim.rounds - brim) * shown))
    return SizeOption(
        code="rip_back",
        message=joined(
            " ",
            say(
                "size_check.rip_back",
                rounds=hat.rounds_worked - brim,
                brim=brim,
                round=leading.text,
                stitches=leading.after,
                onward=_onward(rounds - 1),
                body=_anew_text(anew, units),
            ),
            say("size_check.rip_back.rib", reach=_text(hat.edge_mm * hat.edge_gives, units))
            if hat.draws_in and not hat.body_fits
            else "",
        ),
        circumference=_anew_circumference(anew, units),
        back_to=brim,
        takes_back=hat.rounds_worked - brim,
        stitches=leading.after,
        round=leading,
        straight_rounds=rounds,
        crown_counts=tuple(round.after for round in anew.crown.rounds),
    )


SHOWN_OF_BRIM: Final = {"folded": 0.5, "rolled": 0.0}
"""How much of a brim adds to the depth: half is turned up, or all of it curls. Of any other the whole does."""


def _begin_again(hat: MeasuredHat, anew: HatRounds | None, units: UnitSystem) -> SizeOption:
    """Rip out all of it: the edge is of the wrong size, so every round is."""
    planned = hat.planned if anew is None else anew
    stitches, rounds = planned.brim.lines[0].before, say_count("rounds", hat.rounds_worked)
    if anew is None or stitches == hat.planned.brim.lines[0].before:
        planned, same = hat.planned, "needle" if hat.needle_corrects else "yarn"
        stitches = planned.brim.lines[0].before
        message = say(f"size_check.begin_again.{same}", rounds=rounds, stitches=stitches)
    else:
        message = joined(
            " ",
            say("size_check.begin_again", rounds=rounds, stitches=stitches, body=_anew_text(anew, units)),
            say("size_check.or_needle") if hat.needle_corrects else "",
        )
    return SizeOption(
        code="rip_back",
        message=message,
        circumference=_anew_circumference(planned, units),
        back_to=0,
        takes_back=hat.rounds_worked,
        stitches=stitches,
        straight_rounds=planned.brim.rounds + planned.body.rounds,
        crown_counts=tuple(round.after for round in planned.crown.rounds),
    )
