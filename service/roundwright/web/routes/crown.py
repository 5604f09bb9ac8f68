"""Closing the top of the hat."""

from roundwright.knitting.crown import crown
from roundwright.knitting.crown import suggest as suggestion
from roundwright.knitting.crown.request import CrownRequest
from roundwright.web.routes.operation import calculation


@calculation(
    "/v1/crown",
    id="closeCrown",
    tag="Crowns",
    summary="Close the top of a hat, round by round",
    example="crown",
    by_query="crown",
)
def close_crown(request: CrownRequest) -> crown.CrownAnswer:
    """Every round of the crown with its count, what becomes of the last stitches and, with a gauge, its shape.

    `wedge` and `quick` work [k(w-2), k2tog] in each section of w stitches (published hat patterns), `dome` follows
    N sin(πj / 2n) on round j of n from the tip, `flat` takes 2π × stitch gauge / row gauge away each round and carries
    the remainder, `square` 8 in place of 2π in four lines of double decreases, `cone` goes down linearly to a height.
    Stitches that do not divide get one adjusting round, and a warning says so.

    The geometry treats the crown as a surface of revolution: with C the circumference and s the distance along the
    fabric, |dC/ds| below 2π closes as a dome or cone, 2π lies flat, above 2π gathers (published: circumference
    doubles when radius doubles, *Knitter's Almanac*, 1974).
    """
    return crown.crown(request)


@calculation(
    "/v1/crown/suggest",
    id="suggestCrown",
    tag="Crowns",
    summary="Find the style and sections that give the shape asked for",
    example="crown-suggest",
    by_query="crown-suggest",
)
def suggest_crown(request: suggestion.SuggestionRequest) -> suggestion.SuggestionAnswer:
    """Every style is worked out on the stitches at this gauge, with 6 to 9 sections (published: 8 most common) and
    different cadences where it has sections; the crowns whose outline comes nearest to the shape are suggested.

    Nearest is meant by the root mean square distance between the two outlines at the same distance from the tip along
    the fabric, as a percentage of the radius of the hat. Each suggestion holds a `crown` that `/v1/crown` takes.
    """
    return suggestion.suggest(request)
