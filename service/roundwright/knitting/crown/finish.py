"""The finish: the last stitches of a crown are drawn up on the tail, or worked on as a cord."""

from collections.abc import Mapping
from typing import Annotated, Final, Literal

from msgspec import Meta, Struct

from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible, Notice
from roundwright.knitting.quantities import (
    Gauge,
    Length,
    UnitSystem,
    length,
    mm,
    quantity_text,
    range_text,
    row_height_mm,
    stitch_width_mm,
)
from roundwright.language import Message, joined, say, say_count

FEWEST_CORD_STITCHES: Final = 3
MOST_CORD_STITCHES: Final = 5
"""Cords are worked over three to five stitches (published tutorials); more leave a ladder at the back."""
USUAL_CORD_ROUNDS: Final = 5
"""About five rounds make a knob, enough to hold a hat by and no tie (common practice)."""
MOST_KNOB_ROUNDS: Final = 6
"""Rounds up to which a cord is a knob: about five, with one to spare."""
MOST_CORD_ROUNDS: Final = 20
"""This service's own limit: a longer cord on a hat can catch or be tied."""
TAIL: Final = (Length(6, "in"), Length(8, "in"))
"""Tail to sew with, a hand's length: 6 to 8 in (common practice)."""
OPENING_TIMES: Final = (2, 3)
"""A tail to draw up is so many times as long as the opening, beside what is sewn with: it goes through the stitches and
has to be pulled together (common practice)."""
USUAL_STITCH_MM: Final = 5.0
"""A stitch where there is no gauge: 20 in 10 cm."""
_TAIL_STEP: Final[Mapping[UnitSystem, Length]] = {"metric": Length(5, "cm"), "imperial": Length(1, "in")}
"""A tail is said to the nearest 5 cm or inch."""

FinishKind = Literal["draw_up", "cord"]


class Finish(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What becomes of the last stitches: drawn up, or worked on as a cord."""

    kind: Annotated[
        FinishKind,
        Meta(
            description="`draw_up`: the tail is threaded through them; `cord`: they are worked on as a cord."
        ),
    ] = "draw_up"
    cord_rounds: Annotated[
        int,
        Meta(ge=1, le=MOST_CORD_ROUNDS, description="Rounds of the cord, where there is one. Default 5."),
    ] = USUAL_CORD_ROUNDS


class CrownFinish(Struct, frozen=True, kw_only=True):
    """What becomes of the last stitches of a crown."""

    kind: Annotated[FinishKind, Meta(description="Drawn up, or worked on as a cord.")]
    stitches: Annotated[int, Meta(description="Stitches left to finish.")]
    cord_rounds: Annotated[int | None, Meta(description="Rounds of the cord; null without a cord.")]
    cord_length: Annotated[
        Length | None, Meta(description="Length of the cord; null without a cord or without a gauge.")
    ]
    tail_shortest: Annotated[Length, Meta(description="Shortest tail to leave for fastening off.")]
    tail_longest: Annotated[Length, Meta(description="Longest tail that is of use.")]
    text: Annotated[str, Meta(description="What to do, in words.")]


CORD_BASIS: Final = Basis(
    say("finish.cord_basis"),
    "published cord tutorials; length: this service's own policy",
)


def tails(units: UnitSystem, opening_mm: float = 0.0) -> tuple[Length, Length]:
    """The shortest and the longest tail that draws up an opening and is sewn with; without one it is only sewn with."""
    step_mm = mm(_TAIL_STEP[units])
    shortest, longest = (
        length(round((mm(sewn) + times * opening_mm) / step_mm) * step_mm, units)
        for sewn, times in zip(TAIL, OPENING_TIMES, strict=True)
    )
    return shortest, longest


def tail_basis(units: UnitSystem) -> Basis:
    """What the tail to draw up rests on, in these units."""
    return Basis(say("finish.tail_basis", sewn_with=range_text(*tails(units))), COMMON_PRACTICE)


def close_for(kind: FinishKind, close_at: int | None, usual: int, pointer: str) -> int:
    """Stitches at which to close: as requested, or `usual`, or few enough for a cord.

    Raises `Impossible` for a cord over more or fewer stitches than a cord is worked.
    """
    if kind == "draw_up":
        return usual if close_at is None else close_at
    if close_at is None:
        return min(usual, MOST_CORD_STITCHES)
    if not FEWEST_CORD_STITCHES < close_at <= MOST_CORD_STITCHES:  # from 4 stitches, close_at 3 would leave 2
        raise Impossible(
            say("finish.no_cord", least=FEWEST_CORD_STITCHES, most=MOST_CORD_STITCHES, close_at=close_at),
            code="out_of_range",
            pointer=pointer,
            nearest=say("finish.close_at", stitches=MOST_CORD_STITCHES),
            suggested=MOST_CORD_STITCHES,
        )
    return close_at


def finished(
    finish: Finish, stitches: int, gauge: Gauge | None, units: UnitSystem, *, seam: bool = False
) -> CrownFinish:
    """The finish over the stitches left; `seam` where there is one to sew."""
    cord = finish.kind == "cord"
    shortest, longest = tails(units, _opening_mm(finish, stitches, gauge))
    return CrownFinish(
        kind=finish.kind,
        stitches=stitches,
        cord_rounds=finish.cord_rounds if cord else None,
        cord_length=length(finish.cord_rounds * row_height_mm(gauge), units) if cord and gauge else None,
        tail_shortest=shortest,
        tail_longest=longest,
        text=joined(
            " ",
            _words(finish, stitches, range_text(shortest, longest)),
            say("finish.sew_seam") if seam else "",
        ),
    )


def cord_notices(finish: CrownFinish, pointer: str) -> tuple[Notice, ...]:
    """The warning that goes with a cord longer than a knob."""
    if finish.cord_rounds is None or finish.cord_rounds <= MOST_KNOB_ROUNDS:
        return ()
    cord = say_count("rounds", finish.cord_rounds)
    if finish.cord_length is not None:
        cord = say("finish.cord_measure", rounds=cord, length=quantity_text(finish.cord_length, 2))
    return (
        Notice(
            code="cord_policy",
            message=say("finish.cord_policy", cord=cord, usual=USUAL_CORD_ROUNDS),
            pointer=pointer,
        ),
    )


def _opening_mm(finish: Finish, stitches: int, gauge: Gauge | None) -> float:
    """The opening that is drawn up; none above a cord, whose tail goes through few stitches and ends inside it."""
    if finish.kind == "cord":
        return 0.0
    return stitches * (stitch_width_mm(gauge) if gauge else USUAL_STITCH_MM)


def _words(finish: Finish, stitches: int, tail: Message) -> Message:
    """What to do, with a tail of so much."""
    last_stitches = say_count("finish.last_stitches", stitches)
    if finish.kind == "draw_up":
        return say("finish.draw_up", last_stitches=last_stitches, tail=tail)
    rounds = say_count("rounds", finish.cord_rounds)
    return say("finish.cord", last_stitches=last_stitches, rounds=rounds, tail=tail)
