"""Pictures by address, for use in an `<img>`."""

from typing import Any, Final

from roundwright.drawing.hat_profile import hat_profile
from roundwright.drawing.needles_diagram import needles_diagram
from roundwright.drawing.round_chart import round_chart
from roundwright.drawing.section_chart import section_chart
from roundwright.drawing.spacing_diagram import spacing_diagram
from roundwright.drawing.svg import Picture
from roundwright.knitting.crown.crown import crown
from roundwright.knitting.hat.plan import hats
from roundwright.knitting.shaping.evenly import even
from roundwright.knitting.work.split_over_needles import split
from roundwright.web.routes.operation import lookup
from roundwright.web.routes.picture_parameters import naming
from roundwright.web.routes.picture_queries import (
    CrownPicture,
    NeedlesPicture,
    ProfilePicture,
    SpacingPicture,
)

HEADERS: Final = {
    # A picture opened by itself runs nothing and loads nothing, whatever a title may hold.
    "content-security-policy": "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'",
    # Pages of any shop may show it, those that isolate themselves included.
    "cross-origin-resource-policy": "cross-origin",
}
PICTURE: Final[dict[str, Any]] = {
    "tag": "Drawings",
    "renderers": {"image/svg+xml": str.encode},
    "headers": HEADERS,
    "can_be_impossible": True,
}


@lookup(
    "/v1/drawings/crown.svg", id="drawCrown", summary="A chart of a crown", example="draw-crown", **PICTURE
)
def draw_crown(asked: CrownPicture) -> Picture:
    """The crown that `/v1/crown` gives, as a chart.

    `round`: a ring a round, the first outside; a cell is a stitch after the round, and those that are not plain carry
    the symbols of `/v1/standards/stitches`. Sections are shaded by turns, each round has its number and its count and,
    with `needles`, the borders between the needles are drawn with the stitches that are slid over them. `wedge`: one of
    the like sections, a row a round, read from right to left. Both have a key.
    """
    with naming(asked):
        draw = section_chart if asked.chart == "wedge" else round_chart
        return draw(crown(asked.request()), title=asked.title, theme=asked.theme)


@lookup(
    "/v1/drawings/profile.svg",
    id="drawProfile",
    summary="A hat from the side",
    example="draw-profile",
    **PICTURE,
)
def draw_profile(asked: ProfilePicture) -> Picture:
    """The hat that `/v1/hats` gives for one size, from the side and to scale, with a rule in centimetres or inches.

    The crown is the surface of revolution of its geometry: a round of circumference C lies on the radius C / 2π, as
    far as the fabric between two rounds allows. The head is dotted behind it, as far up in the hat as it goes.
    """
    with naming(asked):
        request = asked.request()
        plan = hats(request, lambda *_: "").sizes[0]
        return hat_profile(plan, request.brim, title=asked.title, theme=asked.theme)


@lookup(
    "/v1/drawings/needles.svg",
    id="drawNeedles",
    summary="The needles before a round",
    example="draw-needles",
    **PICTURE,
)
def draw_needles(asked: NeedlesPicture) -> Picture:
    """The split that `/v1/needles/split` gives: the needles in working order, seen from above, before the round.

    Each has its stitches, those that the round takes together are marked with their symbol, and stitches that are slid
    to the next needle first are counted where they are slid. The round begins at the marker.
    """
    with naming(asked):
        return needles_diagram(
            split(asked.request()), asked.round, hold=asked.hold, title=asked.title, theme=asked.theme
        )


@lookup(
    "/v1/drawings/spacing.svg",
    id="drawSpacing",
    summary="A round or row with its changes, the gaps written in",
    example="draw-spacing",
    **PICTURE,
)
def draw_spacing(asked: SpacingPicture) -> Picture:
    """The round that `/v1/shaping/even` gives: its changes with their symbols, and between them the plain stitches."""
    with naming(asked):
        each = even(asked.request()).round
        return spacing_diagram(each, flat=asked.worked == "flat", title=asked.title, theme=asked.theme)
