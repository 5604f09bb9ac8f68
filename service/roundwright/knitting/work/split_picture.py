"""Picture of the needles before a round: its query and its address."""

from typing import Annotated

from msgspec import Meta

from roundwright.knitting.crown.picture import CrownParameters, crown_parameters
from roundwright.knitting.crown.request import USUAL_STYLE, StyleName
from roundwright.knitting.needles.best_split import USUAL_TOLERANCE, NeedleCount, Tolerance, WholeRepeat
from roundwright.knitting.needles.holds import Hold
from roundwright.knitting.picture_address import (
    GaugeCount,
    GaugeOver,
    GaugeRows,
    SplitText,
    gauge_of,
    gauge_parameters,
    picture_address,
)
from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.knitting.work.split_request import FEWEST_HELD, MOST_HELD, SplitRequest


class NeedlesQuery(CrownParameters, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The needles before a round of a crown; without a style, before any."""

    stitches: Annotated[
        int, Meta(ge=FEWEST_HELD, le=MOST_HELD, description="Stitches on the needles before the first round.")
    ]
    style: Annotated[
        StyleName | None,
        Meta(
            description="Style of the crown to come, as in `/v1/crown`. Left out: no crown, and round 0 only."
        ),
    ] = None
    round: Annotated[
        int,
        Meta(
            ge=0,
            le=MOST_ROUNDS,
            description="Number of the round that is about to be worked; 0, the default: before any.",
        ),
    ] = 0
    needles: NeedleCount | None = None
    hold: Annotated[Hold, Meta(description="What holds the stitches. Default `double_pointed`.")] = (
        "double_pointed"
    )
    split: Annotated[
        SplitText | None,
        Meta(description="Your own stitches on each needle, such as `22-22-24`. Left out: the best."),
    ] = None
    tolerance: Tolerance = USUAL_TOLERANCE
    multiple: WholeRepeat = 1
    gauge_stitches: Annotated[
        GaugeCount | None,
        Meta(
            description="Stitches counted across `gauge_over`; `dome`, `flat`, `cone` and `square` go by it."
        ),
    ] = None
    gauge_rows: GaugeRows = None
    gauge_over: GaugeOver = "10cm"

    def request(self) -> SplitRequest:
        """The request for this split."""
        return SplitRequest(
            stitches=self.stitches,
            needles=self.needles,
            hold=self.hold,
            crown=None if self.style is None else self.shape(),
            tolerance=self.tolerance,
            multiple=self.multiple,
            split=None if self.split is None else tuple(int(count) for count in self.split.split("-")),
            gauge=gauge_of(self.gauge_stitches, self.gauge_rows, self.gauge_over),
        )


def needles_picture_address(request: SplitRequest, round_number: int = 0) -> str | None:
    """The address of the needles before a round; None where the request has `rounds`, which no address can hold."""
    if request.rounds:
        return None
    crown = request.crown
    return picture_address(
        "needles",
        NeedlesQuery,
        {
            "stitches": request.stitches,
            # A style left out of this query means no crown.
            **({} if crown is None else {**crown_parameters(crown), "style": crown.style or USUAL_STYLE}),
            **gauge_parameters(request.gauge),
            "needles": request.needles,
            "tolerance": request.tolerance,
            "multiple": request.multiple,
            "hold": request.hold,
            "split": None if request.split is None else "-".join(str(count) for count in request.split),
            "round": round_number,
        },
    )
