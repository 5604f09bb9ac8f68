"""The knitter whose count came out wrong, or who has lost the place."""

from roundwright.knitting import counting
from roundwright.knitting.work_in_hand import CountRequest
from roundwright.routes.operations import calculation
from roundwright.wording.read import read


@calculation(
    "/v1/counts/check",
    id="checkCount",
    tag="Counts",
    summary="Tell from a count which round is finished, or what went wrong and how to put it right",
    example="count-check",
    takes_text=True,
)
def check_count(request: CountRequest) -> counting.CountAnswer:
    """A count is right after a round when it is what working the rounds one by one leaves; by needle, on every needle.

    One stitch too many is a decrease missed or a stitch added by accident, one too few is a decrease too many or a
    stitch dropped: a count cannot tell the two of a pair apart, so both are named, the likelier first (common
    practice: slips happen where something is decreased; one is likelier than two). Stitches of one needle on another,
    a round half finished, another round than thought and the line of another round show by what they leave. The
    repair is worked into the next line, a plain round where there is one: one stitch is taken in, or one made or a
    decrease left out. That line is executed like any other and leaves what it should; taking back work comes last.

    Without `round` the answer finds a place that was lost: the rounds after which the needles hold what was counted,
    and the line that comes next. A pattern in words must come out; `/v1/patterns/proofread` says what does not.
    """
    return counting.check(request, read)
