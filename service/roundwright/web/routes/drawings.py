"""Pictures by address, for use in an `<img>`.

What draws a picture is imported with the first of its kind: all of it takes as long as the routes of the whole service.
"""

from typing import Any, Final

from roundwright.drawing.svg import Picture
from roundwright.knitting.crown.crown import crown
from roundwright.knitting.hat.defaults import with_defaults
from roundwright.knitting.hat.numbering import numbered_crown
from roundwright.knitting.hat.plan import hats
from roundwright.knitting.shaping.evenly import even
from roundwright.knitting.work.split_over_needles import split
from roundwright.language import words_of
from roundwright.web.routes.operation import lookup
from roundwright.web.routes.picture_parameters import errors_name_parameters
from roundwright.web.routes.picture_queries import (
    CrownPicture,
    NeedlesPicture,
    ProfilePicture,
    SpacingPicture,
)

HEADERS: Final = {
    # A picture opened as a page runs no script and loads nothing, whatever its title contains.
    "content-security-policy": "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'",
    # Any page may show it, cross-origin isolated pages too.
    "cross-origin-resource-policy": "cross-origin",
}
PICTURE: Final[dict[str, Any]] = {
    "tag": "Drawings",
    "renderers": {"image/svg+xml": lambda picture, _: picture.encode()},
    "headers": HEADERS,
    "can_be_impossible": True,
}


@lookup(
    "/v1/drawings/crown.svg", id="drawCrown", summary="A chart of a crown", example="draw-crown", **PICTURE
)
def draw_crown(query: CrownPicture) -> Picture:
    """The crown from `/v1/crown` as a chart.

    `round`: every ring is a round, the first on the outside. A cell is a stitch after the round; stitches that are not
    plain have the symbols of `/v1/standards/stitches`. Sections are shaded in turn, every round has its number and
    count, and with `needles` the boundaries between needles are drawn with the stitches that are slid over them.
    `wedge`: one of the equal sections; every row is a round, read from right to left. Both have a key.
    """
    from roundwright.drawing.round_chart import round_chart
    from roundwright.drawing.section_chart import section_chart

    with errors_name_parameters(query):
        draw = section_chart if query.chart == "wedge" else round_chart
        words = words_of(query.language, in_pictures=True)
        charted = numbered_crown(crown(query.request()), query.first_round)
        return draw(charted, title=query.title, theme=query.theme, words=words)


@lookup(
    "/v1/drawings/profile.svg",
    id="drawProfile",
    summary="A hat, worn or laid flat",
    example="draw-profile",
    **PICTURE,
)
def draw_profile(query: ProfilePicture) -> Picture:
    """A hat of one size from `/v1/hats`, to scale, in one of two views; both are drawn from its rounds.

    `worn`: the hat on its head. Every round keeps its height; where the head is wider than the fabric the round is
    stretched, where it is narrower the fabric hangs or lies in folds. The picture says how much wider the edge is than
    at rest and whether it reaches the ears: 0.32 of the head's circumference from its crown along the scalp (vertex to
    tragion over head circumference: Snyder et al. 1977, ANSUR II 2012; the head is a hemisphere with a tube below it).
    `flat`: half of each round's circumference against the height of the rounds, as the schematic of a printed pattern,
    with its width, the heights of brim, body and crown, and the depth in all, in `units`.
    """
    from roundwright.drawing.hat_profile import hat_profile

    with errors_name_parameters(query):
        request = with_defaults(query.request(), "#")
        plan = hats(request, lambda *_: "").sizes[0]
        words = words_of(query.language, in_pictures=True)
        return hat_profile(
            plan, request.brim, view=query.view, title=query.title, theme=query.theme, words=words
        )


@lookup(
    "/v1/drawings/needles.svg",
    id="drawNeedles",
    summary="The needles before a round",
    example="draw-needles",
    **PICTURE,
)
def draw_needles(query: NeedlesPicture) -> Picture:
    """The split from `/v1/needles/split`: the needles in working order, seen from above, before the round.

    Every needle has its stitches. Stitches that the round works together have the symbol of the decrease; stitches to
    slide to the next needle first are counted at the boundary. The marker hangs after the first stitch of the round.
    """
    from roundwright.drawing.needles_diagram import needles_diagram

    with errors_name_parameters(query):
        return needles_diagram(
            split(query.request()),
            query.round,
            hold=query.hold,
            title=query.title,
            theme=query.theme,
            words=words_of(query.language, in_pictures=True),
        )


@lookup(
    "/v1/drawings/spacing.svg",
    id="drawSpacing",
    summary="A round or row with its changes and the stitches between them",
    example="draw-spacing",
    **PICTURE,
)
def draw_spacing(query: SpacingPicture) -> Picture:
    """The round from `/v1/shaping/even`: its changes with their symbols, and the plain stitches between them."""
    from roundwright.drawing.spacing_diagram import spacing_diagram

    with errors_name_parameters(query):
        shaped = even(query.request()).round
        flat, words = query.worked == "flat", words_of(query.language, in_pictures=True)
        return spacing_diagram(shaped, flat=flat, title=query.title, theme=query.theme, words=words)
