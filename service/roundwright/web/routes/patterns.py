"""Written patterns, read and proved."""

from roundwright.web.routes.operation import calculation
from roundwright.wording.proofreading import proofread


@calculation(
    "/v1/patterns/proofread",
    id="proofreadPattern",
    tag="Patterns",
    summary="Work a written pattern in all its sizes, and find what does not come out",
    example="patterns-proofread",
    takes_text=True,
)
def proofread_pattern(request: proofread.ProofreadRequest) -> proofread.ProofreadAnswer:
    """Each line that is a round is executed: it comes out when it uses exactly the stitches the one before left.

    What stitches use and leave, and how they are spelled: Craft Yarn Council list of abbreviations and common book
    lists (`/v1/standards/stitches`, `/v1/standards/abbreviations`); repeats are read as that list explains them
    (`*...; rep from *`, `[...]` so many times), numbers in brackets as sizes (`k4 (5, 6)`). US and UK words, any case.

    A finding says where, what, by how many stitches, for which size, and offers the line with the smallest change
    that comes out in all sizes: it is worked before it is offered. After a fault reading goes on with the count that
    the pattern goes on with. Where the words allow two readings, the one that comes out is taken and both counts are
    told. At most 400 rounds are read for a size, 6,000 different words in all, and 100 findings given.
    """
    return proofread.proofread(request)
