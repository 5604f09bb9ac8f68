"""Needles of a hat: double-pointed ones, a magic loop, two circulars, or a short circular until it is too long."""

from math import ceil
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Notice, only_one
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.needles.best_split import (
    USUAL_NEEDLES,
    NeedleCount,
    NeedleSplit,
    NeedleStitches,
    best_splits,
)
from roundwright.knitting.needles.boundaries import boundary_paths
from roundwright.knitting.needles.capacity import (
    CORD_SQUEEZE_PERCENT,
    LOOP_MM,
    stitches_held,
)
from roundwright.knitting.needles.start import (
    USUAL_NEEDLE_MM,
    StartStep,
    needle_capacity,
    start_on,
    start_on_circulars,
    start_on_loop,
)
from roundwright.knitting.needles.tracking import track_needles_along
from roundwright.knitting.quantities import (
    Gauge,
    Length,
    UnitSystem,
    mm,
    mm_in,
    quantity_text,
    stitch_width_mm,
)
from roundwright.language import Message, joined, listed, say

LONGEST_CIRCULAR_MM: Final = 1_500.0
"""The longest circular sold."""
SHORTEST_OF_TWO_MM: Final = 400.0
"""The shorter a circular, the shorter its tips: on less than 40 cm two circulars are awkward (common practice)."""
LONGEST_OF_TWO_MM: Final = 800.0
"""Longer cords of two circulars are in the way of each other (common practice)."""
SAME_LENGTH: Final = 0.03
"""Share by which the two labels of one needle differ: 16 in and 40 cm, 24 in and 60 cm."""

Hold = Literal["double_pointed", "magic_loop", "two_circulars", "circular"]


class HatNeedles(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What a hat is knitted on: exactly one of `double_pointed`, `magic_loop`, `circulars` and `circular`.

    Beside `circular`, `double_pointed` says how many take over where the stitches no longer reach around it.
    """

    double_pointed: Annotated[
        NeedleCount | None,
        Meta(
            description="Double-pointed needles that hold stitches; one more works. Beside `circular`: default 3."
        ),
    ] = None
    double_pointed_length: Annotated[
        Length | None,
        Meta(description="Their length, tip to tip; left out: 20 cm (8 in), and nothing is checked."),
    ] = None
    magic_loop: Annotated[
        Length | None, Meta(description="Length, tip to tip, of the one long circular of a magic loop.")
    ] = None
    circulars: Annotated[
        Annotated[int, Meta(ge=2, le=2)] | None,
        Meta(
            description="The number of circulars, each of which holds half of the stitches; their length is not asked "
            "for."
        ),
    ] = None
    circular: Annotated[
        Length | None,
        Meta(
            description="Length, tip to tip, of a short circular for brim and body; double-pointed needles take over "
            "in the crown, and from the cast-on in sizes that do not reach around it."
        ),
    ] = None


class NeedleChange(Struct, frozen=True, kw_only=True):
    """Where a hat goes from its circular to double-pointed needles."""

    before_round: Annotated[
        int,
        Meta(
            description="Number of the first round of the crown on double-pointed needles, as the pattern counts."
        ),
    ]
    stitches: Annotated[
        int, Meta(description="Stitches after that round, too few to reach around the circular.")
    ]
    split: Annotated[
        NeedleStitches, Meta(description="Stitches on each double-pointed needle before that round.")
    ]
    text: Annotated[str, Meta(description="What to do, in words.")]


class SizeNeedles(Struct, frozen=True, kw_only=True):
    """What one size is knitted on, and in which lengths that is sold."""

    hold: Annotated[Hold, Meta(description="What holds the stitches from the cast-on.")]
    count: Annotated[
        int | None,
        Meta(description="Needles that hold stitches, or halves of a magic loop; null on a circular."),
    ]
    lengths: Annotated[
        tuple[Length, ...],
        Meta(
            description="Lengths sold that serve this size: double-pointed needles that hold the fullest needle with "
            "2 cm free at each end; a circular that the stitches reach around and that holds them; a magic loop with "
            "20 cm of cord to spare."
        ),
    ]
    change: Annotated[
        NeedleChange | None,
        Meta(description="The change to double-pointed needles; null where there is none."),
    ] = None


class NeedlesInHand(NamedTuple):
    """What one size is cast on to; `held` of its needles hold stitches, None on a circular."""

    needles: HatNeedles
    hold: Hold
    held: int | None
    gauge: Gauge
    pointer: str
    warnings: tuple[Notice, ...] = ()


class OnHeld(NamedTuple):
    """A crown on the needles of one size, what those are, and what to mind."""

    crown: CrownAnswer
    needles: SizeNeedles
    warnings: tuple[Notice, ...]


NEEDLES_BASIS: Final = Basis(
    say("hat.needles_basis"),
    COMMON_PRACTICE,
)


def needles_in_hand(needles: HatNeedles, fewest: int, most: int, gauge: Gauge, pointer: str) -> NeedlesInHand:
    """What a size is cast on to that has `fewest` to `most` stitches before its crown.

    Raises `Impossible` where what holds the stitches is not said, or said twice.
    """
    _check(needles, pointer)
    width_mm = stitch_width_mm(gauge)
    if needles.circulars:
        return NeedlesInHand(needles, "two_circulars", 2, gauge, pointer)
    if needles.magic_loop:
        notices = _loop_notices(needles.magic_loop, most * width_mm, f"{pointer}/magic_loop")
        return NeedlesInHand(needles, "magic_loop", 2, gauge, pointer, notices)
    circular, count = needles.circular, needles.double_pointed or USUAL_NEEDLES
    if circular is None:
        return NeedlesInHand(needles, "double_pointed", count, gauge, pointer)
    around = stitches_around(circular, gauge)
    held = stitches_held(mm(circular), width_mm, CORD_SQUEEZE_PERCENT)
    if fewest < around:
        message = say(
            "hat.circular_too_long", stitches=fewest, circular=quantity_text(circular), least=around
        )
        notice = Notice(code="circular_too_long", message=message, pointer=f"{pointer}/circular")
        return NeedlesInHand(needles, "double_pointed", count, gauge, pointer, (notice,))
    notices = ()
    if most > held:
        message = say("hat.circular_too_short", circular=quantity_text(circular), most=held, stitches=most)
        notices = (Notice(code="circular_too_short", message=message, pointer=f"{pointer}/circular"),)
    return NeedlesInHand(needles, "circular", None, gauge, pointer, notices)


def stitches_around(circular: Length, gauge: Gauge) -> int:
    """The fewest stitches that reach around a circular: 40 cm and 16 in are two labels of one needle."""
    length_mm = mm(circular)
    sold_mm = [row.length_cm * mm_in("cm") for row in reference.circular_lengths()]
    length_mm = next((sold for sold in sold_mm if abs(sold - length_mm) < SAME_LENGTH * sold), length_mm)
    return ceil(length_mm / stitch_width_mm(gauge) - 1e-9)


def on_held(
    in_hand: NeedlesInHand, split: NeedleSplit | None, crown: CrownAnswer, tolerance: int, units: UnitSystem
) -> OnHeld:
    """The crown on the needles of one size, which is cast on as `split`; None for a circular."""
    change, stitches = None, crown.stitches if split is None else sum(split.split)
    if in_hand.hold == "circular":
        crown, change = _changed_to_double_pointed(in_hand, crown, tolerance)
    on_double_pointed = change.split if change else split.split if split else ()
    needles = SizeNeedles(
        hold=in_hand.hold,
        count=in_hand.held,
        lengths=_lengths(in_hand, stitches, on_double_pointed, units),
        change=change,
    )
    return OnHeld(crown, needles, (*in_hand.warnings, *_room_notices(in_hand, on_double_pointed)))


def start_steps(in_hand: NeedlesInHand, split: tuple[int, ...]) -> tuple[StartStep, ...]:
    """The steps from the cast-on to the working needles."""
    if in_hand.hold == "magic_loop":
        return start_on_loop(split)
    if in_hand.hold == "two_circulars":
        return start_on_circulars(split)
    given = in_hand.needles.double_pointed_length
    needle_mm = _shortest_mm(in_hand.gauge, split) if given is None else mm(given)
    return start_on(split, needle_capacity(in_hand.gauge, needle_mm), "brim")


def _shortest_mm(gauge: Gauge, split: tuple[int, ...]) -> float:
    """The shortest double-pointed needle sold for a hat, whose cast-on may go to two of them; else the usual one.

    A newborn's hat on 20 cm needles is all needle ends (common practice: 15 cm for small hats).
    """
    half = ceil(sum(split) / 2)
    lengths_mm = (row.length_in * mm_in("in") for row in reference.needle_lengths())
    serving = (sold for sold in lengths_mm if _serves(gauge, sold, max(split), half))
    return min(serving, default=USUAL_NEEDLE_MM)


def _serves(gauge: Gauge, needle_mm: float, stitches: int, cast_on: int) -> bool:
    """Whether a double-pointed needle holds so many stitches, and so many of them just cast on."""
    capacity = needle_capacity(gauge, needle_mm)
    return stitches <= capacity.knitted and cast_on <= capacity.cast_on


# --- from a circular to double-pointed needles --------------------------------------------------------------------


def _changed_to_double_pointed(
    in_hand: NeedlesInHand, crown: CrownAnswer, tolerance: int
) -> tuple[CrownAnswer, NeedleChange | None]:
    """The crown with its last rounds on double-pointed needles, and where they take over; None where never."""
    circular, count = in_hand.needles.circular, in_hand.needles.double_pointed or USUAL_NEEDLES
    assert circular is not None
    around = stitches_around(circular, in_hand.gauge)
    done = next((index for index, round in enumerate(crown.rounds) if round.after < around), None)
    if done is None or crown.rounds[done].before < count:
        return crown, None
    rest = crown.rounds[done:]
    paths = boundary_paths(rest, rest[0].before)
    split = best_splits(paths, count, tolerance)[-1].split
    change = NeedleChange(
        before_round=rest[0].number,
        stitches=rest[0].after,
        split=split,
        text=joined(
            " ",
            say("hat.change_needles", stitches=rest[0].after, circular=quantity_text(circular)),
            _shared_out(split),
        ),
    )
    return replace(crown, rounds=(*crown.rounds[:done], *track_needles_along(paths, split))), change


def change_numbered(needles: SizeNeedles | None, first: int) -> SizeNeedles | None:
    """The needles of a size whose crown is numbered from `first` in place of 1."""
    if needles is None or needles.change is None:
        return needles
    before_round = needles.change.before_round + first - 1
    return replace(needles, change=replace(needles.change, before_round=before_round))


def _shared_out(split: tuple[int, ...]) -> Message:
    if len(set(split)) == 1:
        return say("hat.put_on_each", stitches=split[0], needles=len(split))
    return say("hat.put_on", shares=listed(tuple(map(str, split))), needles=len(split))


# --- lengths and what to mind -------------------------------------------------------------------------------------


def _check(needles: HatNeedles, pointer: str) -> None:
    """Raise `Impossible` where what holds the stitches is not said, or said twice."""
    holds = ["circular", "magic_loop", "circulars"]
    if needles.circular is None:
        holds.append("double_pointed")  # beside a circular it says what takes over
    only_one(needles, *holds, what=say("given.needles"), pointer=pointer, nearest="`double_pointed`")


def _lengths(
    in_hand: NeedlesInHand, stitches: int, split: tuple[int, ...], units: UnitSystem
) -> tuple[Length, ...]:
    """The lengths sold in which the needles serve so many stitches."""
    width_mm = stitch_width_mm(in_hand.gauge)
    around_mm = stitches * width_mm
    match in_hand.hold:
        case "double_pointed":
            return _lengths_for(in_hand.gauge, split, start_steps(in_hand, split), units)
        case "circular":
            return _circular_lengths(around_mm / 2, around_mm, units)
        case "magic_loop":
            return _circular_lengths(around_mm + LOOP_MM, LONGEST_CIRCULAR_MM, units)
        case "two_circulars":
            return _circular_lengths(max(SHORTEST_OF_TWO_MM, around_mm / 4), LONGEST_OF_TWO_MM, units)


def _room_notices(in_hand: NeedlesInHand, split: tuple[int, ...]) -> tuple[Notice, ...]:
    """The warning where the stitches of the fullest double-pointed needle do not fit on its length."""
    needle = in_hand.needles.double_pointed_length
    if needle is None or not split or in_hand.hold in ("magic_loop", "two_circulars"):
        return ()
    held = needle_capacity(in_hand.gauge, mm(needle)).knitted
    if max(split) <= held:
        return ()
    message = say("hat.needles_too_short", stitches=max(split), needle=quantity_text(needle), most=held)
    return (
        Notice(code="needles_too_short", message=message, pointer=f"{in_hand.pointer}/double_pointed_length"),
    )


def _loop_notices(loop: Length, around_mm: float, pointer: str) -> tuple[Notice, ...]:
    if mm(loop) >= around_mm + LOOP_MM:
        return ()
    wide_cm, needed_cm = round(around_mm / 10), round((around_mm + LOOP_MM) / 10)
    message = say(
        "hat.loop_too_short",
        loop=quantity_text(loop),
        width=quantity_text(Length(wide_cm, "cm")),
        needed=quantity_text(Length(needed_cm, "cm")),
    )
    return (Notice(code="loop_too_short", message=message, pointer=pointer),)


def _lengths_for(
    gauge: Gauge, split: tuple[int, ...], steps: tuple[StartStep, ...], units: UnitSystem
) -> tuple[Length, ...]:
    """The lengths sold that hold the stitches of a split, and of the steps to it just cast on."""
    cast_on = max(max(step.needles) for step in steps)
    sold = [row.length_in for row in reference.needle_lengths()]
    return tuple(
        Length(inches, "in")
        if units == "imperial"
        else Length(round(inches * mm_in("in") / mm_in("cm")), "cm")
        for inches in sold
        if _serves(gauge, inches * mm_in("in"), max(split), cast_on)
    )


def _circular_lengths(shortest_mm: float, longest_mm: float, units: UnitSystem) -> tuple[Length, ...]:
    return tuple(
        Length(row.length_in, "in") if units == "imperial" else Length(row.length_cm, "cm")
        for row in reference.circular_lengths()
        if shortest_mm <= row.length_cm * mm_in("cm") <= longest_mm
    )
