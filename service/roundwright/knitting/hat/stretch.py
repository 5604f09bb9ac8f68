"""How far the parts of a hat stretch and draw in: what a head wears in comfort."""

from typing import Final

from roundwright import reference
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.sizing.recommend import USUAL_STRETCH_PERCENT

BODY_STRETCH: Final = 1 + USUAL_STRETCH_PERCENT / 100
"""How many times its own width a body in stockinette is worn at, at most."""
RIB_AT_REST: Final = 2 / 3
"""Width of a rib at rest, of that of as many plain stitches: rib draws in by about a third (common practice)."""
WIDEST_COLUMN: Final = 2.0
"""Rib stretches since it folds: where one column is more than twice as wide as the other, it lies nearly flat."""


def draws_in(request: HatRequest) -> bool:
    """Whether the edge is a rib that folds: it is narrower than its count of plain stitches, and gives more.

    In a rib of two colours the yarn carried behind keeps it from folding (common practice).
    """
    brim, colours = request.brim, request.colours
    if not brim.is_ribbed or (colours is not None and colours.brim_purl is not None):
        return False
    columns = sorted((brim.rib.knit, brim.rib.purl))
    return columns[1] <= WIDEST_COLUMN * columns[0]


def edge_gives(request: HatRequest) -> float:
    """How many times its own width the edge is worn at, at most: in rib by more than in stockinette."""
    if not draws_in(request):
        return BODY_STRETCH
    return 1 + (reference.practices()["rib-in-comfort"].usual or 0.0) / 100
