"""Stitches on needles."""

from roundwright.knitting.work import split_over_needles as needles
from roundwright.knitting.work import split_request
from roundwright.web.routes.operation import calculation


@calculation(
    "/v1/needles/split",
    id="splitOverNeedles",
    tag="Needles",
    summary="Share stitches out over needles so that the fewest decreases lie on two of them",
    example="needles-split",
    by_query="needles-split",
)
def split_over_needles(request: split_request.SplitRequest) -> needles.SplitAnswer:
    """A decrease on the stitches s + 1 to s + u of a round straddles a border after b stitches when s < b < s + u.

    Common practice slides the b - s stitches left at the end of the needle on to the next one and works the decrease
    there, so the border moves to s. The split has the fewest straddles over all the rounds of all splits whose
    fullest and emptiest needle differ by at most `tolerance`; ties go to the most even. With a gauge the answer
    tells whether the stitches fit: on a needle, stitches x width x (1 - squeeze) is at most its length; around a
    circular, stitches x width x (1 + stretch) is at least its length.
    """
    return needles.split(request)
