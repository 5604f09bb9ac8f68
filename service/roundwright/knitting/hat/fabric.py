"""The fabric of a hat round by round: how wide each round lies and how high it is, from the cast-on edge to the tip."""

from collections.abc import Iterator, Sequence
from math import ceil, isclose
from typing import Final, Literal, NamedTuple

from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.hat.brim_and_body import HatPart
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.quantities import mm

LONGEST_SLANT_MM: Final = 10.0
"""On each side of a change of count, how far it pulls on the rounds beside it."""

FabricPart = Literal["brim", "body", "crown"]


class FabricRow(NamedTuple):
    """A round as fabric at rest."""

    part: FabricPart
    circumference_mm: float
    height_mm: float


def fabric_rows(plan: HatPlan) -> tuple[FabricRow, ...]:
    """Every round of a size, first to last, at the gauge of the plan."""
    sizes, rounds = plan.measurements, plan.crown.rounds
    brim_stitch_mm = mm(sizes.circumference) / plan.cast_on.stitches
    body_stitch_mm = mm(sizes.body_circumference) / plan.crown.stitches
    rows = [*_straight_rows(plan.brim, brim_stitch_mm), *_straight_rows(plan.body, body_stitch_mm)]
    if rounds and sizes.crown_depth:
        height_mm = mm(sizes.crown_depth) / len(rounds)
        stitch_mm = _crown_stitch_mm(plan.crown, body_stitch_mm)
        rows += [FabricRow("crown", stitch_mm * round.after, height_mm) for round in rounds]
    return tuple(rows)


def _crown_stitch_mm(crown: CrownAnswer, body_stitch_mm: float) -> float:
    """A stitch of the crown, which is at the gauge of the hat; the body may have a gauge of its own."""
    if crown.geometry is None:
        return body_stitch_mm
    around_mm = crown.geometry.flat_slope * mm(crown.geometry.hemisphere_radius)
    stitch_mm = around_mm / crown.shaped_stitches
    return body_stitch_mm if isclose(stitch_mm, body_stitch_mm, rel_tol=1e-3) else stitch_mm


def _straight_rows(part: HatPart, stitch_mm: float) -> Iterator[FabricRow]:
    """The rounds of brim or body: that between them is the first of the body or the last of the brim."""
    if part.length is None:
        return
    counts = [part.lines[0].after] * part.rounds_in_turn
    if part.adjust is not None:
        counts.insert(0 if part.part == "body" else len(counts), part.adjust.after)
    height_mm = mm(part.length) / part.rounds
    yield from (FabricRow(part.part, stitch_mm * count, height_mm) for count in counts)


def hidden_mm(plan: HatPlan) -> float:
    """Length of fabric below the worn edge: what is rolled up or turned up."""
    sizes = plan.measurements
    crown_mm = mm(sizes.crown_depth) if sizes.crown_depth else 0.0
    return max(0.0, mm(sizes.edge_to_crown) + crown_mm - mm(sizes.depth))


class Girth(NamedTuple):
    """A place of the fabric: the middle of some rounds, the edge, or the tip."""

    along_mm: float
    """From the tip along the fabric."""
    circumference_mm: float
    """At rest."""


def girths(rows: Sequence[FabricRow], cut_mm: float, most: int) -> tuple[Girth, ...]:
    """The fabric from its tip to its edge at no more than about `most` places, without the first `cut_mm` of it.

    The last round is drawn up at the tip.
    """
    worn, total_mm = _without(rows, cut_mm), sum(row.height_mm for row in rows) - cut_mm
    if not worn:
        return (Girth(0.0, 0.0), Girth(max(total_mm, 0.0), rows[0].circumference_mm if rows else 0.0))
    slanted = slanted_mm(worn)
    together = ceil(len(worn) / most)
    places, above_mm = [], 0.0
    for first in range(0, len(worn), together):
        group = worn[first : first + together]
        height_mm = sum(row.height_mm for row in group)
        mean = sum(slanted[first : first + together]) / len(group)
        places.append(Girth(above_mm + height_mm / 2, mean))
        above_mm += height_mm
    return (Girth(0.0, 0.0), *places, Girth(above_mm, slanted[-1]))


def _without(rows: Sequence[FabricRow], cut_mm: float) -> list[FabricRow]:
    """The rows from the last to the first, without the first `cut_mm`."""
    kept = list(rows)
    while kept and cut_mm >= kept[0].height_mm - 1e-9:
        cut_mm -= kept.pop(0).height_mm
    if kept and cut_mm > 1e-9:
        kept[0] = kept[0]._replace(height_mm=kept[0].height_mm - cut_mm)
    return kept[::-1]


def slanted_mm(rows: Sequence[FabricRow]) -> list[float]:
    """The circumferences of the rows, running straight from one count to the next.

    Fabric does not step where the count changes: the change pulls on half of the rounds of either count, and on
    `LONGEST_SLANT_MM` on either side at most.
    """
    widths = [row.circumference_mm for row in rows]
    changes = [0, *(index for index in range(1, len(rows)) if widths[index] != widths[index - 1]), len(rows)]
    for before, change, after in zip(changes, changes[1:], changes[2:], strict=False):
        longest = round(LONGEST_SLANT_MM / rows[change].height_mm)
        half = min((change - before) / 2, (after - change) / 2, max(longest, 1))
        low, high = rows[change - 1].circumference_mm, rows[change].circumference_mm
        for index in range(ceil(change - half - 0.5), ceil(change + half - 0.5)):
            widths[index] = low + (high - low) * (index + 0.5 - change + half) / (2 * half)
    return widths
