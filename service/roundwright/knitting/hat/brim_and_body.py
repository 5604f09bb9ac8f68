"""Brim and body: the depth of a hat divided between brim, body and crown, and the rounds of brim and body."""

from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat.request import BRIM_SHARE, Body, Brim, HatRequest
from roundwright.knitting.quantities import Length, UnitSystem, length, mm, row_height_mm
from roundwright.knitting.rounds.round import Repeat, Round, RoundKind, Steps, Work, plain
from roundwright.knitting.rounds.work_round import work_round

LONGEST_HAT_MM: Final = 1_000.0
"""A stocking cap that reaches the waist."""

PartKind = Literal["brim", "body"]


class HatPart(Struct, frozen=True, kw_only=True):
    """A straight part of the hat: its rounds are worked in turn, over and over."""

    part: Annotated[PartKind, Meta(description="Which part.")]
    rounds: Annotated[int, Meta(description="How many rounds; none when the crown begins at once.")]
    length: Annotated[Length | None, Meta(description="Length of those rounds; null for none.")]
    lines: Annotated[
        tuple[Round, ...], Meta(description="The rounds to work in turn: one, or two for garter.")
    ]


class StraightRounds(NamedTuple):
    """Rounds of brim and of body, and the length of brim that is hidden when the hat is worn."""

    brim: int
    body: int
    hidden_mm: float


def straight_rounds(
    request: HatRequest, index: int, depth_mm: float, crown_mm: float, at: str
) -> StraightRounds:
    """Divide the depth of one size: what the crown leaves is brim and body.

    Raises `Impossible` for a body shorter than its brim and for a hat longer than any.
    """
    row_mm = row_height_mm(request.gauge, f"{at}/gauge")
    brim = request.brim
    finished_mm = mm(brim.length) if brim.length else BRIM_SHARE[brim.kind] * depth_mm
    worked_mm = finished_mm * (2 if brim.kind == "folded" else 1)
    hidden_mm = finished_mm if brim.kind in ("rolled", "folded") else 0.0
    _check_length(worked_mm, f"{at}/brim/length")
    rounds_in_turn = 2 if brim.kind == "garter" else 1
    brim_rounds = max(rounds_in_turn, rounds_in_turn * round(worked_mm / row_mm / rounds_in_turn))
    body, pointer = _body(request, index, at)
    if body.length is None:
        straight = round((depth_mm - crown_mm + hidden_mm) / row_mm)
        return StraightRounds(brim_rounds, max(0, straight - brim_rounds), hidden_mm)
    _check_length(mm(body.length), pointer)
    body_rounds = round(mm(body.length) / row_mm) - brim_rounds
    if body_rounds < 0:
        raise Impossible(
            f"From the edge to the crown is {body.length.value:g} {body.length.unit}, but the brim alone takes "
            f"{brim_rounds} rounds, {brim_rounds * row_mm / 10:.3g} cm.",
            pointer=pointer,
            nearest=f"{brim_rounds * row_mm / 10:.3g} cm, or a shorter brim",
        )
    return StraightRounds(brim_rounds, body_rounds, hidden_mm)


def _body(request: HatRequest, index: int, at: str) -> tuple[Body, str]:
    """The body of one size, or that of all sizes, and the pointer to its length."""
    own = request.sizes[index].body
    if own is not None and own.length is not None:
        return own, f"{at}/sizes/{index}/body/length"
    return request.body, f"{at}/body/length"


def _check_length(length_mm: float, pointer: str) -> None:
    """Raise `Impossible` for a length that no hat has."""
    if length_mm > LONGEST_HAT_MM:
        raise Impossible(
            f"{length_mm / 10:.4g} cm is longer than any hat.",
            pointer=pointer,
            nearest=f"{LONGEST_HAT_MM / 10:g} cm",
        )


def is_ribbed(brim: Brim) -> bool:
    """Whether the brim is rib, worked single or double."""
    return brim.kind in ("ribbed", "folded")


def brim_lines(brim: Brim, stitches: int, split: tuple[int, ...] | None) -> tuple[Round, ...]:
    """The rounds of a brim to work in turn, with the stitches on each needle."""
    if is_ribbed(brim):
        repeat = brim.rib.knit + brim.rib.purl
        steps = (Repeat(stitches // repeat, (Work("k", brim.rib.knit), Work("p", brim.rib.purl))),)
        return (_line(1, stitches, steps, "rib", split),)
    if brim.kind == "garter":
        knit = _line(1, stitches, plain(stitches), "garter", split)
        return (knit, _line(2, stitches, (Work("p", stitches),), "garter", split))
    return body_lines(stitches, split)


def body_lines(stitches: int, split: tuple[int, ...] | None) -> tuple[Round, ...]:
    """The plain round of the body, with the stitches on each needle."""
    return (_line(1, stitches, plain(stitches), "plain", split),)


def _line(number: int, stitches: int, steps: Steps, kind: RoundKind, split: tuple[int, ...] | None) -> Round:
    return replace(work_round(number, stitches, steps, kind), needles=split)


def straight_part(
    part: PartKind, lines: tuple[Round, ...], rounds: int, row_mm: float, units: UnitSystem
) -> HatPart:
    """The part of so many rounds, its lines worked in turn."""
    return HatPart(
        part=part, rounds=rounds, length=length(rounds * row_mm, units) if rounds else None, lines=lines
    )
