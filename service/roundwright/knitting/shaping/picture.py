"""The query of a picture of a round in which the stitch count changes, and its address."""

from typing import Annotated, ClassVar, Literal

from msgspec import Meta, Struct

from roundwright.knitting.picture_address import MOST_DRAWN_CHANGES, MOST_DRAWN_STITCHES, picture_address
from roundwright.knitting.rounds.spread import Arrangement
from roundwright.knitting.shaping.request import MOST_EDGE_STITCHES, EvenRequest, Method, ShapingPlan
from roundwright.language import PictureLanguage


class SpacingQuery(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A round or row in which the stitch count changes."""

    stitches: Annotated[
        int, Meta(ge=1, le=MOST_DRAWN_STITCHES, description="Stitches on the needles before.")
    ]
    change: Annotated[
        int,
        Meta(
            ge=-MOST_DRAWN_STITCHES,
            le=MOST_DRAWN_STITCHES,
            description="Stitches added or, negative, taken away. A picture shows 200 changes at most.",
        ),
    ]
    method: Annotated[
        Method | None,
        Meta(description="How each change is worked. Left out: `m1` to increase, `k2tog` to decrease."),
    ] = None
    worked: Annotated[
        Literal["in_the_round", "flat"],
        Meta(description="In the round, or flat in a row. Default in the round."),
    ] = "in_the_round"
    edge_stitches: Annotated[
        int,
        Meta(
            ge=0, le=MOST_EDGE_STITCHES, description="Stitches kept plain at each edge of a row. Default 0."
        ),
    ] = 0
    arrangement: Annotated[
        Arrangement, Meta(description="As even as can be, or easiest to knit. Default `balanced`.")
    ] = "balanced"
    language: PictureLanguage = None
    language_is_of_picture: ClassVar[bool] = True

    def request(self) -> EvenRequest:
        """The same change as a request to `/v1/shaping/even`."""
        return EvenRequest(
            stitches=self.stitches,
            change=self.change,
            method=self.method,
            worked=self.worked,
            edge_stitches=self.edge_stitches,
            arrangement=self.arrangement,
        )


def spacing_picture(request: EvenRequest, plan: ShapingPlan) -> str | None:
    """The address of the picture of the first round of shaping; None where there is too much to draw."""
    if request.stitches > MOST_DRAWN_STITCHES or plan.times > MOST_DRAWN_CHANGES:
        return None
    return picture_address(
        "spacing",
        SpacingQuery,
        {
            "stitches": request.stitches,
            "change": plan.change,
            "method": plan.method,
            "worked": request.worked,
            "edge_stitches": request.edge_stitches,
            "arrangement": request.arrangement,
        },
    )
