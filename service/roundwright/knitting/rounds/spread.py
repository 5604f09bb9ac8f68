"""Spread changes evenly around a round or across a row.

S stitches and k changes make k *sections*, each some plain stitches (its *gap*) and one change: with q = S div k and
r = S mod k, r sections are q + 1 stitches of the round below and k - r are q. *Balanced* order is the most even one
(`balanced_words`); *grouped* order has the wide sections first and then the narrow ones.
"""

from collections.abc import Iterator
from typing import Final, Literal, NamedTuple

from roundwright import reference
from roundwright.knitting.rounds.balanced_words import (
    balanced,
    cut,
    folded,
    joined,
    rotated,
    steps_in,
    stopping_early,
    stops_early,
    symmetric_start,
    times,
)
from roundwright.knitting.rounds.round import Steps, StitchName, Work

Arrangement = Literal["balanced", "grouped"]

MOST_STEPS_IN_SPREAD: Final = 64
"""Steps in one evenly shaped round, nested ones counted: what fits on a page."""
_MOST_WITHIN: Final = MOST_STEPS_IN_SPREAD - 4
"""The same without the ends: a part of a gap and the edge stitches, on both sides."""

WHOLE_GAP: Final = 4
"""Quarters of a gap before the first change in the round: `[k4, m1]` ends with its change."""
HALF_GAP: Final = 2
"""Quarters of a gap before the first change of a row: half a gap at each end."""


def spread(
    stitches: int,
    changes: int,
    method: StitchName,
    *,
    arrangement: Arrangement = "balanced",
    lead: int = WHOLE_GAP,
    edge: int = 0,
    symmetric: bool = False,
) -> Steps:
    """A round of `stitches` with `changes` times `method`, evenly: `[k11, k2tog, k10, k2tog] 4 times`.

    `changes` is a number of times, not of stitches. `lead` is the part of a gap before the first change, in quarters;
    the rest of that gap is at the end. `edge` stitches are left plain at both ends. `symmetric`, with half a gap before
    the first change, makes a row that reads the same from both ends where the numbers allow it; where they do not, its
    ends differ by one stitch. At most 64 steps in all, nested ones counted. Needs 0 <= changes <= `most_changes(...)`.
    """
    plain = plain_beside(method)
    if not changes:
        return (Work(plain, stitches),)
    sections = _Sections(stitches - 2 * edge, changes, method, plain)
    if lead == WHOLE_GAP:
        middle = _after_whole_gap(sections, arrangement)
    else:
        # Without an edge, an increase between stitches needs one on each side.
        least = 1 if not edge and not reference.stitches()[method].uses else 0
        row = _symmetric(sections, arrangement, least) if symmetric and lead == HALF_GAP else None
        start = min(max(sections.last_gap * lead // WHOLE_GAP, least), sections.last_gap - least)
        middle = row or _after_part_of_gap(sections, arrangement, start)
    side = (Work(plain, edge),) if edge else ()
    return joined(side, middle, side)


def most_changes(stitches: int, method: StitchName, *, flat: bool = False, edge: int = 0) -> int:
    """How often the method can be worked in one round: each time needs its own stitches, or one stitch beside it."""
    middle = stitches - 2 * edge
    uses = reference.stitches()[method].uses
    if uses:
        return max(0, middle // uses)
    return max(0, middle - 1 if flat and not edge else middle)


def plain_beside(method: StitchName) -> StitchName:
    """The plain stitch a method is worked among: purl for one that is purled."""
    return "p" if "purl" in reference.stitches()[method].words else "k"


class _Sections(NamedTuple):
    """The sections: their number and widths, and what is worked in them."""

    stitches: int
    changes: int
    method: StitchName
    plain: StitchName

    @property
    def narrows(self) -> int:
        return self.changes - self.wides

    @property
    def wides(self) -> int:
        return self.stitches % self.changes

    @property
    def narrow_gap(self) -> int:
        return self.stitches // self.changes - reference.stitches()[self.method].uses

    @property
    def last_gap(self) -> int:
        """The gap that is divided between the two ends: a wide one, if there is one."""
        return self.narrow_gap + (1 if self.wides else 0)

    def gap(self, stitches: int) -> Steps:
        return (Work(self.plain, stitches),) if stitches else ()

    @property
    def change(self) -> Steps:
        return (Work(self.method),)


def _after_whole_gap(sections: _Sections, arrangement: Arrangement) -> Steps:
    wide = joined(sections.gap(sections.narrow_gap + 1), sections.change)
    narrow = joined(sections.gap(sections.narrow_gap), sections.change)
    if arrangement == "grouped":
        return joined(times(sections.wides, wide), times(sections.narrows, narrow))
    steps = balanced(wide, sections.wides, narrow, sections.narrows, _MOST_WITHIN)
    return stopping_early(wide, sections.wides, narrow, sections.narrows) if steps is None else steps


def _after_part_of_gap(sections: _Sections, arrangement: Arrangement, start: int) -> Steps:
    """`start` stitches, then sections that begin with their change; the last gap is shorter by `start`."""
    wide = joined(sections.change, sections.gap(sections.narrow_gap + 1))
    narrow = joined(sections.change, sections.gap(sections.narrow_gap))
    head, tail = sections.gap(start), sections.gap(sections.last_gap - start)
    if arrangement == "grouped":
        wides, narrows = (
            (sections.wides - 1, sections.narrows) if sections.wides else (0, sections.narrows - 1)
        )
        return joined(head, times(wides, wide), times(narrows, narrow), sections.change, tail)
    steps = balanced(narrow, sections.narrows, wide, sections.wides, _MOST_WITHIN)
    if steps is not None:
        return joined(head, cut(steps, start, _MOST_WITHIN))
    wide = joined(sections.gap(sections.narrow_gap + 1), sections.change)
    narrow = joined(sections.gap(sections.narrow_gap), sections.change)
    width = sections.narrow_gap + 1 + reference.stitches()[sections.method].uses
    return joined(
        head, sections.change, stopping_early(wide, sections.wides, narrow, sections.narrows, width), tail
    )


def _symmetric(sections: _Sections, arrangement: Arrangement, least: int) -> Steps | None:
    """The row with the same half of a gap at both ends, or one stitch more at the last where no such gap is even.

    At least `least` stitches are left at each end. None where it takes too many steps.
    """
    narrow = sections.narrow_gap
    for gap in sorted(
        (narrow, narrow + 1), key=lambda gap: gap % 2
    ):  # one that is odd only where no even one is
        seam_is_wide = gap > narrow
        if gap >= 2 * least and (sections.wides if seam_is_wide else sections.narrows):
            rows = tuple(_with_seam(sections, arrangement, gap, seam_is_wide=seam_is_wide))
            if rows:
                return min(rows, key=steps_in)
    return None


def _with_seam(
    sections: _Sections, arrangement: Arrangement, gap: int, *, seam_is_wide: bool
) -> Iterator[Steps]:
    """The rows, differently written, whose two ends together are a gap of this width; each in few steps."""
    wide = joined(sections.change, sections.gap(sections.narrow_gap + 1))
    narrow = joined(sections.change, sections.gap(sections.narrow_gap))
    head, tail = sections.gap(gap // 2), sections.gap(gap - gap // 2)
    if arrangement == "grouped":
        wides = times(sections.wides - seam_is_wide, wide)
        narrows = times(sections.narrows - (not seam_is_wide), narrow)
        yield joined(head, wides, narrows, sections.change, tail)
        return
    orders = (
        (narrow, sections.narrows, wide, sections.wides, seam_is_wide),
        (wide, sections.wides, narrow, sections.narrows, not seam_is_wide),
    )
    for first, firsts, last, lasts, seam_is_last in orders:
        start = symmetric_start(firsts, lasts, seam_is_last=seam_is_last)
        steps = None if start is None else balanced(first, firsts, last, lasts, _MOST_WITHIN)
        if start is None or steps is None:
            continue
        row = folded(joined(head, cut(rotated(steps, sections.method, start), gap // 2, _MOST_WITHIN)))
        if steps_in(row) <= MOST_STEPS_IN_SPREAD - 2 and not stops_early(row):
            yield row
