"""Brim and body: the depth of a hat divided between brim, body and crown, and the rounds of brim and body."""

from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat.part_gauge import body_gauge, brim_gauge
from roundwright.knitting.hat.request import BRIM_SHARE, Brim, HatRequest
from roundwright.knitting.quantities import Length, UnitSystem, length, mm, quantity_text
from roundwright.knitting.rounds.round import Repeat, Round, RoundKind, Steps, Work, plain
from roundwright.knitting.rounds.work_round import work_round
from roundwright.language import say

LONGEST_HAT_MM: Final = 1_000.0
"""A stocking cap that reaches the waist."""

PartKind = Literal["brim", "body"]


class HatPart(Struct, frozen=True, kw_only=True):
    """A straight part of the hat: its rounds are worked in turn, over and over.

    Where the body has another count than the brim, one of the two parts has the round that leads from one to the other:
    the body as its first round, or the brim as its last.
    """

    part: Annotated[PartKind, Meta(description="Which part.")]
    rounds: Annotated[
        int,
        Meta(description="How many rounds, that of `adjust` among them; none when the crown begins at once."),
    ]
    length: Annotated[Length | None, Meta(description="Length of those rounds; null for none.")]
    lines: Annotated[
        tuple[Round, ...], Meta(description="The rounds to work in turn: one, or two for garter.")
    ]
    adjust: Annotated[
        Round | None,
        Meta(
            description="The round that changes the count from that of the brim to that of the body: the first of the "
            "body, worked before `lines`, or the last of the brim, worked after them; null where there is none here."
        ),
    ] = None

    @property
    def rounds_in_turn(self) -> int:
        """How many rounds are worked from `lines`."""
        return self.rounds - (0 if self.adjust is None else 1)


class StraightRounds(NamedTuple):
    """Rounds of brim and of body, and the length of brim that is hidden when the hat is worn."""

    brim: int
    body: int
    hidden_mm: float
    adjust_in: PartKind | None
    """The part whose rounds include the one from the count of the brim to that of the body."""


def straight_rounds(
    request: HatRequest, index: int, depth_mm: float, crown_mm: float, at: str, *, bridged: bool
) -> StraightRounds:
    """Divide the depth of one size: what the crown leaves is brim and body.

    `bridged` is whether the counts of brim and body differ. Raises `Impossible` for a body shorter than its brim and
    for a hat longer than any.
    """
    brim_row_mm, body_row_mm = brim_gauge(request, at).row_mm, body_gauge(request, index, at).row_mm
    brim = request.brim
    finished_mm = mm(brim.length) if brim.length else BRIM_SHARE[brim.edge] * depth_mm
    worked_mm = finished_mm * (2 if brim.edge == "folded" else 1)
    hidden_mm = finished_mm if brim.edge in ("rolled", "folded") else 0.0
    _check_length(worked_mm, f"{at}/brim/length")
    adjust_in: PartKind | None = (request.body_of(index).adjust_in or "body") if bridged else None
    brim_rounds = _brim_rounds(brim, worked_mm / brim_row_mm, adjusted=adjust_in == "brim")
    fewest = 1 if adjust_in == "body" else 0
    # Rounds of the body that the brim takes more than it would at the body's height.
    brim_excess = brim_rounds * (1 - brim_row_mm / body_row_mm)
    body_length = depth_or_length(request, index, at).body_length
    if body_length is None:
        straight_mm = depth_mm - crown_mm + hidden_mm
        body_rounds = round(straight_mm / body_row_mm + brim_excess) - brim_rounds
        return StraightRounds(brim_rounds, max(fewest, body_rounds), hidden_mm, adjust_in)
    edge_to_crown, pointer = body_length
    _check_length(mm(edge_to_crown), pointer)
    body_rounds = round(mm(edge_to_crown) / body_row_mm + brim_excess) - brim_rounds
    if body_rounds < 0:
        raise Impossible(
            say(
                "hat.brim_too_long",
                depth=quantity_text(edge_to_crown),
                rounds=brim_rounds,
                brim=quantity_text(length(brim_rounds * brim_row_mm, "metric"), 3),
            ),
            code="no_room",
            pointer=pointer,
            nearest=say(
                "hat.or_shorter_brim", depth=quantity_text(length(brim_rounds * brim_row_mm, "metric"), 3)
            ),
        )
    return StraightRounds(brim_rounds, max(fewest, body_rounds), hidden_mm, adjust_in)


def _brim_rounds(brim: Brim, rounds: float, *, adjusted: bool) -> int:
    """The whole number of rounds nearest to `rounds`: garter in pairs, the adjusting round included."""
    in_turn, last = 2 if brim.edge == "garter" else 1, 1 if adjusted else 0
    return max(in_turn, in_turn * round((rounds - last) / in_turn)) + last


class DepthOrLength(NamedTuple):
    """The requested depth, or the requested length from edge to crown, with its pointer; at most one of them."""

    depth: tuple[Length, str] | None = None
    body_length: tuple[Length, str] | None = None
    unused: str | None = None
    """Pointer to what the request says of all sizes, where the size says the other for itself."""


def depth_or_length(request: HatRequest, index: int, at: str) -> DepthOrLength:
    """What the request says of the depth of one size; what it says of the size goes before what it says of all.

    Raises `Impossible` for a depth and a length of the body side by side, and for a depth that no hat has.
    """
    size = request.sizes[index]
    unused = None
    if size.depth is not None and request.body.length is not None:
        unused = f"{at}/body/length"
    elif size.body is not None and size.body.length is not None and request.depth is not None:
        unused = f"{at}/depth"
    for where, depth, body in (
        (f"{at}/sizes/{index}", size.depth, size.body),
        (at, request.depth, request.body),
    ):
        edge_to_crown = None if body is None else body.length
        if depth is not None and edge_to_crown is not None:
            raise Impossible(
                say("hat.depth_or_body"),
                pointer=f"{where}/depth",
                nearest=say("hat.depth_without_body"),
                code="given_twice",
                suggested=None,
            )
        if depth is not None:
            _check_length(mm(depth), f"{where}/depth")
            return DepthOrLength(depth=(depth, f"{where}/depth"), unused=unused)
        if edge_to_crown is not None:
            return DepthOrLength(body_length=(edge_to_crown, f"{where}/body/length"), unused=unused)
    return DepthOrLength()


def _check_length(length_mm: float, pointer: str) -> None:
    """Raise `Impossible` for a length that no hat has."""
    if length_mm > LONGEST_HAT_MM:
        raise Impossible(
            say("hat.longer_than_any", length=quantity_text(length(length_mm, "metric"), 4)),
            pointer=pointer,
            nearest=quantity_text(length(LONGEST_HAT_MM, "metric")),
            code="out_of_range",
            suggested={"value": LONGEST_HAT_MM / 10, "unit": "cm"},
        )


def brim_lines(brim: Brim, stitches: int, split: tuple[int, ...] | None) -> tuple[Round, ...]:
    """The rounds of a brim to work in turn, with the stitches on each needle."""
    if brim.is_ribbed:
        steps = (Repeat(stitches // brim.repeat, (Work("k", brim.rib.knit), Work("p", brim.rib.purl))),)
        return (_line(1, stitches, steps, "rib", split),)
    if brim.edge == "garter":
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
