"""The knitter whose count came out wrong, or who has lost the place."""

from typing import Any

from roundwright.knitting.counting import check as counting
from roundwright.knitting.counting.request import CountRequest
from roundwright.web.routes.operation import calculation


@calculation(
    "/v1/counts/check",
    id="checkCount",
    tag="Counts",
    summary="Tell from a count which round is finished, or what went wrong and how to put it right",
    example="count-check",
    by_query="count-check",
    takes_text=True,
)
def check_count(request: CountRequest) -> counting.CountAnswer:
    """A count is right after a round when it is what working the rounds one after the other leaves; by needle, on every
    needle.

    One stitch too many or too few is miscounted more often than it is knitted wrong, so the first advice is to count
    again. If the count stays: one too many is a forgotten decrease or a stitch added by accident; one too few is a
    dropped stitch, two stitches worked together by mistake or a forgotten increase. A count cannot tell them apart, so
    all are named, the likeliest first (common practice), and `tell_apart` says how to see which it is. A needle worked
    plain, stitches of one needle on another, a round half finished, another round than thought and the line of another
    round show by what they leave. Needles rank the causes and exclude none.

    A dropped stitch is caught before anything is made. Other repairs are worked into the next line, on the needle that
    is named: one stitch is taken in, or one made or a decrease left out. That line is executed like any other and
    leaves what it should; taking back work comes last.

    Without `round` the answer finds a place that was lost: the rounds after which the needles hold what was counted,
    and the line to work where they are few. Where many hold it, nothing is wrong: `message` says to go on as before and
    how to find the round. A pattern in words is followed as far as it comes out; a line behind that is a warning
    (`followed_in_part`), and `/v1/patterns/proofread` says what is wrong with it.
    """
    return counting.check(request, _read, _in_sentences)


def _read(*text: Any) -> Any:
    """Read a pattern, by what only patterns need and no start waits for."""
    from roundwright.wording.proofreading.read import read

    return read(*text)


def _in_sentences(steps: Any) -> Any:
    """Tell a round in sentences, by what only hats worded so need."""
    from roundwright.wording.writing.plain_language import PlainLine

    return PlainLine(steps)
