"""Written patterns, read and proved."""

from roundwright.web.routes.answer_language import encode_answer
from roundwright.web.routes.operation import JSON, calculation
from roundwright.wording.proofreading import proofread
from roundwright.wording.proofreading.sarif import MEDIA_TYPE, sarif


@calculation(
    "/v1/patterns/proofread",
    id="proofreadPattern",
    tag="Patterns",
    summary="Work a written pattern in all its sizes, and find what does not come out",
    example="patterns-proofread",
    takes_text=True,
    renderers={JSON: encode_answer, MEDIA_TYPE: sarif},
)
def proofread_pattern(request: proofread.ProofreadRequest) -> proofread.ProofreadAnswer:
    """Each line that is a round is executed: it comes out when it uses exactly the stitches the one before left.

    What stitches use and leave, and how they are spelled: Craft Yarn Council list of abbreviations and common book
    lists (`/v1/standards/stitches`, `/v1/standards/abbreviations`, `/v1/standards/words-en`). A line often has several
    readings; a knitter takes the one that comes out, and so does this: of all readings of the whole text the cheapest
    is taken, in which least is assumed and least is wrong. US and UK words, any case, numbers in brackets as sizes.

    `lines` says what every line was taken for, with its counts worked and printed. A finding says where, what, by how
    many stitches and for which size; its `edits` are the smallest changes that come out, each with the findings that
    are left when it is made, and `repaired` is the text with the best of them. After a fault reading goes on with the
    count that the pattern goes on with. An `error` cannot be knitted as written; a `note` can, and is what an editor
    asks about. With `Accept: application/sarif+json` the findings come as SARIF 2.1.0 (OASIS). At most 400 rounds are
    read for a size, 6,000 words in all, and 100 findings given.
    """
    return proofread.proofread(request)
