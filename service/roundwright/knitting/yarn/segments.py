"""Segments of the work: rounds that are alike, and the yarn that they use."""

from collections.abc import Iterable
from typing import Final, Literal, NamedTuple

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.rounds.round import Round, Steps, Work, fold, stitch_names
from roundwright.knitting.yarn.amount import YarnRange
from roundwright.language import say

RIB_FACTOR: Final = 1.10
"""Rib takes more than plain knit, no figure is published: a tenth, at the high end only. Common practice."""

CAST_ON_ROUNDS: Final = 2
"""Rounds of yarn in a long-tail cast-on: its loops, and a tail of about 3 widths, which is a loop to the stitch."""

YarnPartName = Literal["cast_on", "brim", "body", "crown", "cord", "all"]

PART_GAUGE_BASIS: Final = Basis(
    say("yarn.part_gauge_basis"),
    "Munden, J. Text. Inst. 50 (1959) T448; garter by its stitches: common practice",
)
RIB_BASIS: Final = Basis(
    say("yarn.rib_basis"),
    COMMON_PRACTICE,
)
CARRIED_BASIS: Final = Basis(
    say("yarn.carried_basis"),
    "Munden, J. Text. Inst. 50 (1959) T448; the constant from memory",
)
CAST_ON_BASIS: Final = Basis(
    say("yarn.cast_on_basis"),
    "tail: a printed rule, see /v1/standards/tails; two rounds: common practice",
)


class WorkSegment(NamedTuple):
    """Rounds alike: their part of the work, stitches made in each, number of rounds, and whether they are rib.

    Of a hat in colours, `colour` is what they are worked in, and `carried` how many stitches of another colour the yarn
    passes behind in each round. `loop` is the yarn in a stitch as a share of that at the gauge of the whole work, where
    the part has a gauge of its own.
    """

    part: YarnPartName
    stitches: int
    rounds: int = 1
    ribbed: bool = False
    colour: str | None = None
    carried: int = 0
    loop: float = 1.0

    @property
    def stitches_worked(self) -> int:
        """Stitches made in all the rounds."""
        return self.stitches * self.rounds


def segments_of(rounds: Iterable[Round], part: YarnPartName) -> tuple[WorkSegment, ...]:
    """The rounds of one part, each as a segment."""
    return tuple(WorkSegment(part, stitches_made(round.steps), 1, is_rib(round)) for round in rounds)


def cast_on_segment(stitches: int) -> WorkSegment:
    """A long-tail cast-on, as rounds of yarn."""
    return WorkSegment("cast_on", stitches, CAST_ON_ROUNDS)


def stitches_made(steps: Steps) -> int:
    """Stitches made by the steps: those that they leave, less those slipped, which take no yarn."""
    # `sum` by itself is of too many types for mypy.
    return fold(steps, _made_by, lambda made, times: made * times, lambda parts: sum(parts))  # noqa: PLW0108


def _made_by(work: Work) -> int:
    return 0 if work.stitch == "sl" else reference.stitches()[work.stitch].leaves * work.times


def is_rib(round: Round) -> bool:
    """Whether the round is rib: by its kind, or with knit and purl side by side."""
    return round.kind == "rib" or {"k", "p"} <= stitch_names(round.steps)


def stitches_in(segments: Iterable[WorkSegment]) -> int:
    """Stitches worked in all the segments."""
    return sum(segment.stitches_worked for segment in segments)


def yarn_used(segments: Iterable[WorkSegment], per_stitch: YarnRange) -> YarnRange:
    """Yarn in the segments; `per_stitch` is that at the gauge of the whole work."""
    plain = rib = carried = 0.0
    for segment in segments:
        carried += segment.carried * segment.rounds * segment.loop
        if segment.ribbed:
            rib += segment.stitches_worked * segment.loop
        else:
            plain += segment.stitches_worked * segment.loop
    behind = carried / reference.loop_constants()["wet-relaxed"].kw if carried else 0.0
    low, expected, high = per_stitch
    return YarnRange(
        low.times(plain + rib + behind),
        expected.times(plain + rib + behind),
        high.times(plain + rib * RIB_FACTOR + behind),
    )


def segment_basis(segments: Iterable[WorkSegment]) -> tuple[Basis, ...]:
    """The rules that the segments bring with them."""
    segments = tuple(segments)
    rib = (RIB_BASIS,) if any(segment.ribbed for segment in segments) else ()
    carried = (CARRIED_BASIS,) if any(segment.carried for segment in segments) else ()
    of_part = (PART_GAUGE_BASIS,) if any(segment.loop != 1 for segment in segments) else ()
    cast_on = (CAST_ON_BASIS,) if any(segment.part == "cast_on" for segment in segments) else ()
    return rib + carried + of_part + cast_on


def in_colour(segments: Iterable[WorkSegment], colour: str) -> tuple[WorkSegment, ...]:
    """The segments worked in a colour."""
    return tuple(segment for segment in segments if segment.colour == colour)


def colours_of(segments: Iterable[WorkSegment]) -> tuple[str, ...]:
    """The colours in the order in which they come in; none for work without colours."""
    return tuple(dict.fromkeys(segment.colour for segment in segments if segment.colour is not None))
