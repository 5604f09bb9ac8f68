"""How far the parts of a hat stretch and draw in: what a head wears in comfort."""

from typing import Final

from roundwright import reference
from roundwright.knitting.hat.request import Brim
from roundwright.knitting.sizing.recommend import USUAL_STRETCH_PERCENT

BODY_STRETCH: Final = 1 + USUAL_STRETCH_PERCENT / 100
"""How many times its own width a body in stockinette is worn at, at most."""
RIB_AT_REST: Final = 2 / 3
"""Width of a rib at rest, of that of as many plain stitches: rib draws in by about a third (common practice)."""
WIDEST_COLUMN: Final = 2.0
"""Rib stretches since it folds: where one column is more than twice as wide as the other, it lies nearly flat."""


def draws_in(brim: Brim) -> bool:
    """Whether the edge is a rib that folds: it is narrower than its count of plain stitches, and gives more."""
    columns = sorted((brim.rib.knit, brim.rib.purl))
    return brim.is_ribbed and columns[1] <= WIDEST_COLUMN * columns[0]


def edge_gives(brim: Brim) -> float:
    """How many times its own width the edge is worn at, at most: in rib by more than in stockinette."""
    if not draws_in(brim):
        return BODY_STRETCH
    return 1 + (reference.practices()["rib-in-comfort"].usual or 0.0) / 100
