"""Split over needles: from the cast-on to the working needles, and round by round to the close."""

from functools import lru_cache
from typing import Annotated, Final

from msgspec import UNSET, Meta, Struct

from roundwright.knitting.answers import (
    COMMON_PRACTICE,
    RULES,
    Basis,
    Impossible,
    Notice,
    RulesVersion,
    at_most_one,
)
from roundwright.knitting.crown.crown import crown_rounds
from roundwright.knitting.crown.request import CrownShape
from roundwright.knitting.needles.best_split import (
    USUAL_NEEDLES,
    USUAL_TOLERANCE,
    NeedleSplit,
    NeedleStitches,
    best_splits,
    pareto_splits,
    rate_split,
)
from roundwright.knitting.needles.boundaries import BoundaryPaths, boundary_paths
from roundwright.knitting.needles.capacity import (
    CIRCULAR_BASIS,
    CORD_SQUEEZE_PERCENT,
    LOOP_MM,
    ROOM_BASIS,
    USUAL_SQUEEZE_PERCENT,
    CircularUse,
    NeedleRoom,
    circular_use,
    double_pointed_mm,
    needle_room,
    room_notices,
)
from roundwright.knitting.needles.holds import holders
from roundwright.knitting.needles.start import (
    USUAL_NEEDLE_MM,
    StartStep,
    needle_capacity,
    start_on,
    start_on_circulars,
    start_on_loop,
)
from roundwright.knitting.needles.tracking import track_needles_along
from roundwright.knitting.needles.whole_repeats import with_reason
from roundwright.knitting.picture_address import PicturePath
from roundwright.knitting.quantities import Gauge, mm
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.rounds.work_round import chained
from roundwright.knitting.sizing.cast_on import FEWEST_STITCHES
from roundwright.knitting.work.split_picture import needles_picture_address
from roundwright.knitting.work.split_request import MOST_HELD, SplitRequest
from roundwright.language import joined, listed, say, say_count

HINT_TOLERANCE: Final = 2 * USUAL_TOLERANCE
"""Tolerance in stitches up to which the answer names a better split: twice the usual."""


class SplitAnswer(Struct, frozen=True, kw_only=True):
    """The split, how to get to it, and what each needle holds from round to round."""

    start: Annotated[
        tuple[StartStep, ...],
        Meta(
            description="From one needle to two halves to the working needles; where one needle does not hold the "
            "stitches, from a cast-on to two or more."
        ),
    ]
    split: NeedleStitches
    straddles: Annotated[
        int,
        Meta(
            description="Decreases that come to lie on two needles over all the rounds, counted at each border: so "
            "many times stitches are slid to the next needle."
        ),
    ]
    difference: Annotated[
        int, Meta(description="Stitches between the fullest and the emptiest needle at the start.")
    ]
    reason: Annotated[
        str | None,
        Meta(
            description="Why the needles or halves differ by more than a stitch; null where they do not, and for a "
            "split of your own."
        ),
    ]
    alternatives: Annotated[
        tuple[NeedleSplit, ...],
        Meta(
            description="The splits within the tolerance that no other beats in both straddles and evenness, the most "
            "even first; then, whatever the tolerance, whole sections of the crown where that saves straddles. The "
            "last is the best."
        ),
    ]
    rounds: Annotated[
        tuple[Round, ...],
        Meta(
            description="The rounds with the stitches on each needle after them, and the moves before them."
        ),
    ]
    room: Annotated[
        NeedleRoom | None,
        Meta(description="Whether the stitches fit on the needles; null without `needle_length`."),
    ]
    circular: Annotated[
        CircularUse | None, Meta(description="How long the circular can be used; null without `circular`.")
    ]
    drawing: Annotated[
        PicturePath | None,
        Meta(
            description="Path of the picture of the needles before the first round; null for `rounds` of your own."
        ),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


def split(request: SplitRequest) -> SplitAnswer:
    """The stitches split over the needles, and on each needle after every round.

    Raises `Impossible` where the stitches, the needles and the rounds do not fit together.
    """
    needles = _needles(request)
    borders, notices = _boundary_paths(request)
    pareto = best_splits(borders, needles, request.tolerance, request.multiple)
    chosen = pareto[-1] if request.split is None else rate_split(borders, request.split)
    chosen = with_reason(borders, chosen, request.multiple) if request.split is None else chosen
    rounds = track_needles_along(borders, chosen.split, request.hold)
    room, circular = _capacity(request, chosen.split, rounds)
    return SplitAnswer(
        start=_start(request, chosen.split),
        split=chosen.split,
        straddles=chosen.straddles,
        difference=chosen.difference,
        reason=chosen.reason,
        alternatives=pareto,
        rounds=rounds,
        room=room,
        circular=circular,
        drawing=needles_picture_address(request),
        basis=BASIS if room is None and circular is None else (*BASIS, ROOM_BASIS, CIRCULAR_BASIS),
        warnings=(
            *notices,
            *_straddles_left(request, borders, chosen),
            *room_notices(room, circular, request.stitches),
        ),
    )


def _needles(request: SplitRequest) -> int:
    """Needles that hold stitches. Raises `Impossible` where needles, split and stitches do not fit together."""
    own = request.split
    in_halves = request.hold != "double_pointed"
    needles = request.needles or (2 if in_halves else USUAL_NEEDLES if own is None else len(own))
    if in_halves and needles != 2:
        raise Impossible(
            say(f"split.in_halves.{request.hold}", needles=needles),
            code="contradiction",
            pointer="#/needles",
            nearest=say("split.two_or_double_pointed"),
            suggested=2,
        )
    names = holders(request.hold)
    if own is not None and len(own) != needles:
        raise Impossible(
            say("split.names_others", named=len(own), holders=names, needles=needles),
            code="contradiction",
            pointer="#/split",
            nearest=say("split.split_over", needles=needles, holders=names),
            suggested=None,
        )
    if own is not None and sum(own) != request.stitches:
        raise Impossible(
            say("split.other_sum", sum=sum(own), stitches=request.stitches),
            code="contradiction",
            pointer="#/split",
            nearest=say("split.split_of", stitches=request.stitches),
            suggested=None,
        )
    return needles


def _boundary_paths(request: SplitRequest) -> tuple[BoundaryPaths, tuple[Notice, ...]]:
    """The straddles of every border over the rounds to come. Raises `Impossible` for rounds that do not fit."""
    at_most_one(request, "crown", "rounds", what=say("given.next"))
    if request.crown is not None:
        return _crown(request.stitches, request.crown, request.gauge)
    rounds = request.rounds or ()
    if rounds and rounds[0].before != request.stitches:
        raise Impossible(
            say("split.first_round_starts", round_stitches=rounds[0].before, stitches=request.stitches),
            code="contradiction",
            pointer="#/rounds/0/before",
            nearest=say("split.round_that_starts", stitches=request.stitches),
        )
    for index, round in enumerate(rounds):
        if round.after > MOST_HELD:
            raise Impossible(
                say("split.too_many_after", round=round.number, stitches=round.after),
                code="too_many",
                pointer=f"#/rounds/{index}/after",
                nearest=say_count("stitches", MOST_HELD),
            )
    return boundary_paths(chained(rounds), request.stitches), ()


@lru_cache(maxsize=32)  # a knitter tries needles and splits on one crown
def _crown(stitches: int, shape: CrownShape, gauge: Gauge | None) -> tuple[BoundaryPaths, tuple[Notice, ...]]:
    if shape.worked == "flat":
        raise Impossible(
            say("split.flat_crown"),
            code="cannot_be_worked",
            pointer="#/crown/worked",
            nearest="in_the_round",
            suggested="in_the_round",
        )
    if stitches < FEWEST_STITCHES:
        raise Impossible(
            say("crown.too_few", stitches=stitches),
            code="out_of_range",
            pointer="#/stitches",
            nearest=say_count("stitches", FEWEST_STITCHES),
        )
    planned = crown_rounds(stitches, shape, gauge, pointer="#/crown")
    return boundary_paths(planned.rounds, stitches), planned.warnings


def _start(request: SplitRequest, split: tuple[int, ...]) -> tuple[StartStep, ...]:
    """From the cast-on to the working needles; the cord of a circular holds any number here."""
    if request.hold == "magic_loop":
        return start_on_loop(split)
    if request.hold == "two_circulars":
        return start_on_circulars(split)
    needle = request.needle_length
    return start_on(split, needle_capacity(request.gauge, USUAL_NEEDLE_MM if needle is None else mm(needle)))


def _capacity(
    request: SplitRequest, split: tuple[int, ...], rounds: tuple[Round, ...]
) -> tuple[NeedleRoom | None, CircularUse | None]:
    gauge, needle, circular = request.gauge, request.needle_length, request.circular
    if needle is None and circular is None:
        return None, None
    if gauge is None:
        fields = [name for name in ("needle_length", "circular") if getattr(request, name) is not None]
        raise Impossible(
            say("split.needs_gauge"),
            code="needs_another",
            pointer="#/gauge",
            nearest=say("split.gauge_or_no_field", fields=listed([f"`{name}`" for name in fields], "or")),
            suggested=None if len(fields) == 1 else UNSET,  # both would have to go
            suggested_at=f"#/{fields[0]}",
        )
    room = use = None
    if needle is not None:
        held = [split, *(round.needles for round in rounds if round.needles)]
        room = _room(request, gauge, mm(needle), held)
    if circular is not None:
        squeeze = _squeeze(request, CORD_SQUEEZE_PERCENT)
        use = circular_use(request.stitches, rounds, gauge, circular, squeeze, request.stretch)
    return room, use


def _room(request: SplitRequest, gauge: Gauge, needle_mm: float, held: list[tuple[int, ...]]) -> NeedleRoom:
    """Whether the stitches fit: on each needle, on each of two cords, or all on the cord of a magic loop."""
    if request.hold == "magic_loop":
        together = [(sum(on_halves),) for on_halves in held]
        cord_mm = max(0.0, needle_mm - LOOP_MM)
        squeeze = _squeeze(request, 0.0)
        return needle_room(together, gauge, cord_mm, squeeze, request.units, holding="loop")
    if request.hold == "two_circulars":
        squeeze = _squeeze(request, CORD_SQUEEZE_PERCENT)
        return needle_room(held, gauge, needle_mm, squeeze, request.units, holding="circular")
    squeeze = _squeeze(request, USUAL_SQUEEZE_PERCENT)
    return needle_room(held, gauge, double_pointed_mm(needle_mm), squeeze, request.units)


def _squeeze(request: SplitRequest, usual_percent: float) -> float:
    return usual_percent if request.squeeze is None else request.squeeze


def _straddles_left(request: SplitRequest, borders: BoundaryPaths, chosen: NeedleSplit) -> tuple[Notice, ...]:
    if not chosen.straddles:
        return ()
    message = say_count("split.straddles_left", chosen.straddles, holders=holders(request.hold))
    if request.tolerance < HINT_TOLERANCE and request.multiple <= HINT_TOLERANCE:
        wider = pareto_splits(borders, len(chosen.split), HINT_TOLERANCE, request.multiple)[-1]
        if wider.straddles < chosen.straddles:
            wider_split = say(
                "split.wider",
                counts=joined(", ", *map(str, wider.split)),
                straddles=wider.straddles,
                tolerance=wider.difference,
            )
            message = joined(" ", message, wider_split)
    return (Notice(code="straddles_left", message=message, pointer="#/tolerance"),)


BASIS: Final = (
    Basis(
        say("split.straddles_basis"),
        COMMON_PRACTICE,
    ),
    Basis(
        say("split.start_basis"),
        COMMON_PRACTICE,
    ),
)
