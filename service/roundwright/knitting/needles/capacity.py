"""Capacity: whether the stitches fit on each needle, and how long a round reaches around a circular needle.

Side by side, n stitches of width w take n w of a needle; they can be pushed together by a share of that, the squeeze.
A double-pointed needle keeps its two ends free. The cord of a circular holds about twice the stitches that reach around
it, in folds. A round reaches around a circular while n w, plus what the fabric stretches, is at least the length of the
circular.
"""

from collections.abc import Iterable
from math import ceil, floor
from typing import Annotated, Final, Literal

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Notice
from roundwright.knitting.quantities import Gauge, Length, UnitSystem, length, mm, stitch_width_mm, tidy
from roundwright.knitting.rounds.round import Round
from roundwright.language import say

Holding = Literal["needle", "loop", "circular"]
"""What holds stitches: a double-pointed needle, the cord of a magic loop, one of two circulars."""

MOST_SQUEEZE_PERCENT: Final = 80.0
"""Five stitches in the width of one: more than any yarn can be squeezed."""
USUAL_SQUEEZE_PERCENT: Final = 25.0
"""Stitches at three quarters of their width still slide well. A choice of this service: nobody published a figure."""
CORD_SQUEEZE_PERCENT: Final = 50.0
"""A cord holds twice what reaches around it: 80 to 160 stitches on 16 in at 5 to the inch, and so on, as published."""
FREE_END_MM: Final = 20.0
"""What stays free at each end of a double-pointed needle, so that no stitch falls off (common practice)."""
LOOP_MM: Final = 200.0
"""Cord that a magic loop needs beside the stitches, pulled out at its two sides (common practice)."""
MOST_STRETCH_PERCENT: Final = 100.0
"""Twice the width: as far as ribbing goes."""

SqueezePercent = Annotated[
    Annotated[float, Meta(ge=0.0, le=MOST_SQUEEZE_PERCENT)] | None,
    Meta(
        description="Percent of their width by which stitches may be pushed together. Left out: "
        f"{USUAL_SQUEEZE_PERCENT:g} on a double-pointed needle, {CORD_SQUEEZE_PERCENT:g} on the cord of a circular, "
        "which holds twice what reaches around it (published capacities).",
    ),
]
StretchPercent = Annotated[
    float,
    Meta(
        ge=0.0,
        le=MOST_STRETCH_PERCENT,
        description="Percent by which the fabric may be stretched to reach around the circular. Default 0.",
    ),
]


class NeedleRoom(Struct, frozen=True, kw_only=True):
    """Whether the stitches fit on needles of a length."""

    fits: Annotated[
        bool, Meta(description="Whether the fullest needle holds its stitches within the squeeze.")
    ]
    stitches: Annotated[int, Meta(description="Most stitches on one needle, over all the rounds.")]
    width: Annotated[Length, Meta(description="Their width side by side: stitches x width of a stitch.")]
    squeeze_needed: Annotated[
        float,
        Meta(description="Percent by which they must be pushed together; 0 where they lie side by side."),
    ]
    most_stitches: Annotated[
        int,
        Meta(
            description="Stitches that one needle holds within the squeeze once they are knitted. Just cast on, with "
            "no fabric between them, half as many again go on a double-pointed needle (common practice)."
        ),
    ]
    message: Annotated[str, Meta(description="The same in a sentence.")]


class CircularUse(Struct, frozen=True, kw_only=True):
    """How long a circular of a length can be used, before double-pointed needles must take over."""

    reaches: Annotated[bool, Meta(description="Whether the stitches reach around it at the start.")]
    fewest_stitches: Annotated[int, Meta(description="Stitches that still reach around it.")]
    most_stitches: Annotated[int, Meta(description="Stitches that it holds within the squeeze.")]
    change_before_round: Annotated[
        int | None,
        Meta(
            description="Number of the first round to work on double-pointed needles; null where the circular serves "
            "to the end, and without rounds."
        ),
    ]
    message: Annotated[str, Meta(description="The same in a sentence.")]


def double_pointed_mm(length_mm: float) -> float:
    """What a double-pointed needle has for stitches: its length without the free ends, none on a very short one."""
    return max(0.0, length_mm - 2 * FREE_END_MM)


def stitches_held(needle_mm: float, width_mm: float, squeeze_percent: float) -> int:
    """Stitches of this width that so much of a needle or cord holds, pushed together by so much."""
    return floor(needle_mm / (width_mm * (1.0 - squeeze_percent / 100.0)) + 1e-9)


def needle_room(
    splits: Iterable[tuple[int, ...]],
    gauge: Gauge,
    needle_mm: float,
    squeeze_percent: float,
    units: UnitSystem,
    *,
    holding: Holding = "needle",
) -> NeedleRoom:
    """Whether the fullest needle fits on `needle_mm` of needle or cord, without the ends that stay free.

    `splits` are the stitches on each needle at the start and after each round, `holding` is what a needle is called.
    """
    width_mm = stitch_width_mm(gauge)
    fullest = max(max(split) for split in splits)
    taken_mm = fullest * width_mm
    needed_percent = max(0.0, 100.0 * (1.0 - needle_mm / taken_mm))
    fits = needed_percent <= squeeze_percent
    most = stitches_held(needle_mm, width_mm, squeeze_percent)
    if not fits:
        message = say(f"room.too_many.{holding}", stitches=fullest, most=most)
    elif needed_percent:
        message = say(f"room.pushed_together.{holding}", stitches=fullest, percent=needed_percent)
    else:
        message = say(f"room.side_by_side.{holding}", stitches=fullest)
    return NeedleRoom(
        fits=fits,
        stitches=fullest,
        width=length(taken_mm, units),
        squeeze_needed=tidy(needed_percent, 3),
        most_stitches=most,
        message=message,
    )


def circular_use(  # noqa: PLR0917 - the round, the needle and the two limits of the fabric
    stitches: int,
    rounds: tuple[Round, ...],
    gauge: Gauge,
    circular: Length,
    squeeze_percent: float,
    stretch_percent: float,
) -> CircularUse:
    """Whether the stitches reach around the circular (measured tip to tip), and the first round when they do not."""
    width_mm, circular_mm = stitch_width_mm(gauge), mm(circular)
    fewest = ceil(circular_mm / (width_mm * (1.0 + stretch_percent / 100.0)) - 1e-9)
    most = stitches_held(circular_mm, width_mm, squeeze_percent)
    reaches = stitches >= fewest
    change = next((round.number for round in rounds if min(round.before, round.after) < fewest), None)
    if not reaches:
        message = say("room.circular.too_few", stitches=stitches, least=fewest)
    elif change is not None:
        message = say("room.circular.change", round=change, least=fewest)
    else:
        message = say("room.circular.reaches", stitches=stitches)
    return CircularUse(
        reaches=reaches,
        fewest_stitches=fewest,
        most_stitches=most,
        change_before_round=change,
        message=message,
    )


def room_notices(room: NeedleRoom | None, circular: CircularUse | None, stitches: int) -> tuple[Notice, ...]:
    """The warnings for needles that are too short, and for a circular too long or too short to begin on."""
    notices = []
    if room is not None and not room.fits:
        notices.append(Notice(code="needles_too_short", message=room.message, pointer="#/needle_length"))
    if circular is not None and not circular.reaches:
        notices.append(Notice(code="circular_too_long", message=circular.message, pointer="#/circular"))
    elif circular is not None and stitches > circular.most_stitches:
        message = say("room.circular.too_many", most=circular.most_stitches, stitches=stitches)
        notices.append(Notice(code="circular_too_short", message=message, pointer="#/circular"))
    return tuple(notices)


ROOM_BASIS: Final = Basis(
    say("room.basis", free_end=FREE_END_MM / 10),
    COMMON_PRACTICE,
)
CIRCULAR_BASIS: Final = Basis(
    say("room.circular.basis"),
    "published capacities of circular needles: 80 to 160 stitches on 16 in at 5 to the inch, 180 to 360 on 36 in",
)
