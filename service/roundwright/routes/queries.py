"""Pictures as a page asks for them: everything a picture needs in one line of an address.

Each struct is flat, since parameters are, and makes the request of the trade it stands for. A length is written with
its unit, `head=55.5cm`. An error of the trade names the parameter it comes from.
"""

from typing import Annotated, Literal

from msgspec import Meta, Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.change import MOST_EDGE_STITCHES, EvenRequest, Method
from roundwright.knitting.closing import Finish, FinishKind
from roundwright.knitting.crown import FEWEST_STITCHES, MOST_CROWN_STITCHES, Cadence, CrownRequest, CrownShape
from roundwright.knitting.crown_plan import MOST_CLOSE, MOST_PLAIN_ROUNDS, MOST_SECTIONS, StyleName
from roundwright.knitting.hat import LONGEST_RIB, Body, Brim, BrimKind, HatRequest, HatSize, Rib
from roundwright.knitting.heads import Adult, AgeMonths, ChartSize, GestationWeeks, Sex
from roundwright.knitting.holding import USUAL_TOLERANCE, NeedleCount, Tolerance, WholeRepeat
from roundwright.knitting.needles import FEWEST_HELD, MOST_HELD, Hold, SplitRequest
from roundwright.knitting.pictures import MOST_DRAWN_STITCHES
from roundwright.knitting.rounds import MOST_ROUNDS
from roundwright.knitting.shaping import Arrangement
from roundwright.knitting.sizing import MOST_EASE_PERCENT, USUAL_EASE, Ease
from roundwright.routes.parameters import (
    DifferenceText,
    GaugeCount,
    GaugeOver,
    GaugeRows,
    LengthText,
    Shown,
    SplitText,
    Title,
    Units,
    difference_of,
    gauge_of,
    length_of,
)


class CrownParameters(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How a crown is closed, as `/v1/crown` takes it, without its stitches."""

    style: Annotated[
        StyleName | None, Meta(description="Style of the crown, as in `/v1/crown`. Left out: `quick`.")
    ] = None
    sections: Annotated[
        Annotated[int, Meta(ge=2, le=MOST_SECTIONS)] | None,
        Meta(description="Sections. Left out: as the style does."),
    ] = None
    plain_rounds: Annotated[
        Annotated[int, Meta(ge=0, le=MOST_PLAIN_ROUNDS)] | None,
        Meta(description="Plain rounds after a decrease round. Left out: as the style does."),
    ] = None
    every_round_from: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_CROWN_STITCHES)] | None,
        Meta(
            description="Number of the decrease round from which every round decreases. Needs `plain_rounds`."
        ),
    ] = None
    close_at: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_CLOSE)] | None,
        Meta(description="The crown ends with so many stitches or fewer. Left out: as the style does."),
    ] = None
    decrease_at: Annotated[
        Literal["end", "start"], Meta(description="Where in its section a decrease is worked. Default `end`.")
    ] = "end"
    height: Annotated[
        LengthText | None, Meta(description="Height of a cone, such as `20cm`; it needs the gauge.")
    ] = None
    worked: Annotated[
        Literal["in_the_round", "flat"],
        Meta(description="In the round, or flat in rows. Default in the round."),
    ] = "in_the_round"
    finish: Annotated[
        FinishKind, Meta(description="What becomes of the last stitches. Default `draw_up`.")
    ] = "draw_up"

    def shape(self) -> CrownShape:
        """The crown, without its stitches."""
        cadence = None
        if self.plain_rounds is not None:
            cadence = Cadence(plain_rounds=self.plain_rounds, every_round_from=self.every_round_from)
        elif self.every_round_from is not None:
            raise Impossible(
                "From which round on there are no plain rounds says nothing where plain rounds are not given.",
                pointer="#/plain_rounds",
                nearest="plain_rounds=1",
            )
        return CrownShape(
            style=self.style or CrownShape().style,
            sections=self.sections,
            cadence=cadence,
            close_at=self.close_at,
            decrease_at=self.decrease_at,
            height=length_of(self.height),
            worked=self.worked,
            finish=Finish(kind=self.finish),
        )


class CrownPicture(CrownParameters, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A chart of a crown."""

    stitches: Annotated[
        int, Meta(ge=FEWEST_STITCHES, le=MOST_CROWN_STITCHES, description="Stitches before the crown.")
    ]
    chart: Annotated[
        Literal["round", "wedge"],
        Meta(
            description="`round`: the whole crown, a ring a round; `wedge`: one of its like sections, a row a round, "
            "for crowns that have any. Default `round`."
        ),
    ] = "round"
    gauge_stitches: Annotated[
        GaugeCount | None,
        Meta(
            description="Stitches counted across `gauge_over`; `dome`, `flat`, `cone` and `square` go by it."
        ),
    ] = None
    gauge_rows: GaugeRows = None
    gauge_over: GaugeOver = "10cm"
    needles: NeedleCount | None = None
    tolerance: Tolerance = USUAL_TOLERANCE
    units: Units = "metric"
    title: Title = None
    theme: Shown = "auto"

    def request(self) -> CrownRequest:
        """The crown asked for."""
        shape = {name: getattr(self.shape(), name) for name in CrownShape.__struct_fields__}
        return CrownRequest(
            **shape,
            stitches=self.stitches,
            gauge=gauge_of(self.gauge_stitches, self.gauge_rows, self.gauge_over),
            needles=self.needles,
            tolerance=self.tolerance,
            units=self.units,
        )


class ProfilePicture(CrownParameters, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat from the side. Whose it is: exactly one of `head`, `age_months`, `gestation_weeks`, `adult`, `chart`."""

    head: Annotated[
        LengthText | None, Meta(description="Head circumference as measured, such as `55.5cm`.")
    ] = None
    age_months: Annotated[AgeMonths | None, Meta(description="Age in months, 0 to 60.")] = None
    gestation_weeks: Annotated[
        GestationWeeks | None, Meta(description="Weeks of gestation at birth, 24 to 42.")
    ] = None
    sex: Annotated[
        Sex | None,
        Meta(description="Sex of the child, with an age or a gestation; left out: the mean of both."),
    ] = None
    adult: Annotated[Adult | None, Meta(description="A grown-up, by measured means.")] = None
    chart: Annotated[ChartSize | None, Meta(description="A size of the published head chart.")] = None
    gauge_stitches: Annotated[GaugeCount, Meta(description="Stitches counted across `gauge_over`.")]
    gauge_rows: GaugeRows = None
    gauge_over: GaugeOver = "10cm"
    ease_percent: Annotated[
        Annotated[float, Meta(ge=-MOST_EASE_PERCENT, le=MOST_EASE_PERCENT)] | None,
        Meta(description=f"Ease in percent of the head; negative is snug. Default {USUAL_EASE.percent:g}."),
    ] = None
    ease_length: Annotated[
        DifferenceText | None, Meta(description="Ease as a length, such as `-5cm`, in place of a percentage.")
    ] = None
    brim: Annotated[BrimKind, Meta(description="The edge of the hat. Default `rolled`.")] = "rolled"
    brim_length: Annotated[
        LengthText | None, Meta(description="Finished length of the brim. Left out: a share of the depth.")
    ] = None
    rib_knit: Annotated[
        int, Meta(ge=1, le=LONGEST_RIB, description="Stitches knitted in the rib. Default 1.")
    ] = 1
    rib_purl: Annotated[
        int, Meta(ge=1, le=LONGEST_RIB, description="Stitches purled in the rib. Default 1.")
    ] = 1
    body_length: Annotated[
        LengthText | None,
        Meta(description="Cast-on edge to the first round of the crown. Left out: to the usual depth."),
    ] = None
    units: Units = "metric"
    title: Title = None
    theme: Shown = "auto"

    def request(self) -> HatRequest:
        """The hat asked for, in one size."""
        gauge = gauge_of(self.gauge_stitches, self.gauge_rows, self.gauge_over)
        assert gauge is not None
        return HatRequest(
            gauge=gauge,
            sizes=(
                HatSize(
                    head=length_of(self.head),
                    age_months=self.age_months,
                    gestation_weeks=self.gestation_weeks,
                    sex=self.sex,
                    adult=self.adult,
                    chart=self.chart,
                ),
            ),
            ease=self._ease(),
            brim=Brim(
                kind=self.brim,
                length=length_of(self.brim_length),
                rib=Rib(knit=self.rib_knit, purl=self.rib_purl),
            ),
            body=Body(length=length_of(self.body_length)),
            crown=self.shape(),
            units=self.units,
        )

    def _ease(self) -> Ease:
        if self.ease_percent is None and self.ease_length is None:
            return USUAL_EASE
        return Ease(percent=self.ease_percent, length=difference_of(self.ease_length))


class NeedlesPicture(CrownParameters, frozen=True, kw_only=True, forbid_unknown_fields=True):
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
    title: Title = None
    theme: Shown = "auto"

    def request(self) -> SplitRequest:
        """The split asked for."""
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


class SpacingPicture(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
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
    title: Title = None
    theme: Shown = "auto"

    def request(self) -> EvenRequest:
        """The change asked for."""
        return EvenRequest(
            stitches=self.stitches,
            change=self.change,
            method=self.method,
            worked=self.worked,
            edge_stitches=self.edge_stitches,
            arrangement=self.arrangement,
        )
