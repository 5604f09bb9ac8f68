"""Changes of the stitch count, spread evenly around a round, across a row or along a length."""

from roundwright.knitting.shaping import along
from roundwright.knitting.shaping import evenly as even
from roundwright.knitting.shaping import request as change
from roundwright.web.routes.operation import calculation


@calculation(
    "/v1/shaping/even",
    id="shapeEvenly",
    tag="Shaping",
    summary="Spread increases or decreases evenly over a round or row, or over several",
    example="shaping-even",
    by_query="shaping-even",
)
def shape_evenly(request: change.EvenRequest) -> even.EvenAnswer:
    """S stitches with k changes make k sections: S mod k of (S div k) + 1 stitches, the others of S div k.

    Balanced, any two runs of as many sections hold the same number of stitches or differ by one: change i (from 0)
    falls at floor((i + 1/2) S / k), up to rotation. There is one such order, the Christoffel word (Morse and Hedlund,
    Am. J. Math. 62 (1940) 1-42; Demaine et al., Comput. Geom. 42 (2009) 429-454). Euclid's algorithm writes it as
    nested repeats, 64 steps at most however many stitches there are; where whole repeats would take more, repeats stop
    early (`again`). Grouped, the wider sections come first. Flat work starts and ends with half a gap. Every nth counts
    the stitches of a decrease, as patterns do.
    """
    return even.even(request)


@calculation(
    "/v1/shaping/along",
    id="shapeAlong",
    tag="Shaping",
    summary="Spread increases or decreases evenly over the rows of a length",
    example="shaping-along",
    by_query="shaping-along",
)
def shape_along(request: along.AlongRequest) -> along.AlongAnswer:
    """Of n rows, k changes make k intervals: n mod k of (n div k) + 1 rows, the others of n div k, the shorter first.

    With right-side rows only, the same over pairs of rows, so that intervals are even. An interval kept plain after the
    last change counts as one more. Common practice; a length becomes rows by the row gauge, to the nearest row.
    """
    return along.along(request)
