"""Pictures of a hat: their query and their address."""

from typing import Annotated, Literal

from msgspec import Meta

from roundwright.knitting.crown.picture import CrownParameters, crown_parameters
from roundwright.knitting.hat.brim_and_body import depth_or_length
from roundwright.knitting.hat.request import (
    ADJUST_IN,
    LONGEST_RIB,
    MOST_FULLNESS,
    AdjustIn,
    Body,
    Brim,
    BrimKind,
    HatRequest,
    HatSize,
    Rib,
)
from roundwright.knitting.picture_address import (
    DifferenceText,
    GaugeCount,
    GaugeOver,
    GaugeRows,
    LengthText,
    Units,
    difference_of,
    gauge_of,
    gauge_parameters,
    length_of,
    length_text,
    picture_address,
)
from roundwright.knitting.sizing.cast_on import MOST_EASE_PERCENT, USUAL_EASE, Ease
from roundwright.knitting.sizing.depth import SilhouetteName
from roundwright.knitting.sizing.head_references import (
    Adult,
    Sex,
)
from roundwright.knitting.sizing.heads import (
    AgeMonths,
    AgeYears,
    ChartSize,
    GestationWeeks,
    PostmenstrualWeeks,
)

HatView = Literal["worn", "flat"]


class ProfileQuery(CrownParameters, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat worn or laid flat.

    Whose it is: exactly one of `head`, `age_months`, `age_years`, `gestation_weeks`, `adult`, `chart`.
    """

    head: Annotated[
        LengthText | None, Meta(description="Head circumference as measured, such as `55.5cm`.")
    ] = None
    age_months: Annotated[
        AgeMonths | None, Meta(description="Age in months, 0 to 252; above, give `adult`.")
    ] = None
    age_years: Annotated[
        AgeYears | None,
        Meta(description="Age in years, 0 to 21, in place of `age_months`; above, give `adult`."),
    ] = None
    gestation_weeks: Annotated[
        GestationWeeks | None, Meta(description="Weeks of gestation at birth, 22 to 42.")
    ] = None
    postmenstrual_weeks: Annotated[
        PostmenstrualWeeks | None,
        Meta(description="Postmenstrual age today, 22 to 144 weeks, with `gestation_weeks`."),
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
        Meta(
            description=f"Ease in percent of the head; negative is snug. Default {USUAL_EASE.percent:g}; "
            "0 for a size of the chart."
        ),
    ] = None
    ease_length: Annotated[
        DifferenceText | None, Meta(description="Ease as a length, such as `-5cm`, in place of a percentage.")
    ] = None
    brim: Annotated[
        BrimKind | None,
        Meta(description="The edge of the hat. Left out: as the silhouette has it, else `rolled`."),
    ] = None
    brim_length: Annotated[
        LengthText | None, Meta(description="Finished length of the brim. Left out: a share of the depth.")
    ] = None
    rib_knit: Annotated[
        int, Meta(ge=1, le=LONGEST_RIB, description="Stitches knitted in the rib. Default 1.")
    ] = 1
    rib_purl: Annotated[
        int, Meta(ge=1, le=LONGEST_RIB, description="Stitches purled in the rib. Default 1.")
    ] = 1
    brim_gauge_stitches: Annotated[
        GaugeCount | None, Meta(description="Stitches of a swatch of the brim. Left out: those of the hat.")
    ] = None
    brim_gauge_rows: GaugeRows = None
    brim_gauge_over: GaugeOver = "10cm"
    body_length: Annotated[
        LengthText | None,
        Meta(description="Cast-on edge to the first round of the crown. Left out: to the usual depth."),
    ] = None
    body_fullness: Annotated[
        Annotated[float, Meta(ge=0, le=MOST_FULLNESS)] | None,
        Meta(description="Percent more stitches in the body than in the brim. Left out: none."),
    ] = None
    body_adjust_in: Annotated[AdjustIn | None, Meta(description=ADJUST_IN)] = None
    body_gauge_stitches: Annotated[
        GaugeCount | None, Meta(description="Stitches of a swatch of the body. Left out: those of the hat.")
    ] = None
    body_gauge_rows: GaugeRows = None
    body_gauge_over: GaugeOver = "10cm"
    depth: Annotated[
        LengthText | None,
        Meta(description="Edge to top as worn, in place of `body_length`. Left out: as the silhouette says."),
    ] = None
    silhouette: Annotated[
        SilhouetteName | None, Meta(description="Silhouette of the hat, as in `/v1/hats`.")
    ] = None
    units: Units = "metric"
    view: Annotated[
        HatView,
        Meta(
            description="`worn`: the hat on its head, with what it stretches and where it reaches; `flat`: laid flat, "
            "as the schematic of a printed pattern, with its measures. Default `worn`."
        ),
    ] = "worn"

    def request(self) -> HatRequest:
        """The request for this hat, in one size."""
        gauge = gauge_of(self.gauge_stitches, self.gauge_rows, self.gauge_over)
        assert gauge is not None
        return HatRequest(
            gauge=gauge,
            sizes=(
                HatSize(
                    head=length_of(self.head),
                    age_months=self.age_months,
                    age_years=self.age_years,
                    gestation_weeks=self.gestation_weeks,
                    postmenstrual_weeks=self.postmenstrual_weeks,
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
                gauge=gauge_of(
                    self.brim_gauge_stitches, self.brim_gauge_rows, self.brim_gauge_over, "brim_gauge"
                ),
            ),
            body=Body(
                length=length_of(self.body_length),
                fullness=self.body_fullness,
                adjust_in=self.body_adjust_in,
                gauge=gauge_of(
                    self.body_gauge_stitches, self.body_gauge_rows, self.body_gauge_over, "body_gauge"
                ),
            ),
            depth=length_of(self.depth),
            silhouette=self.silhouette,
            crown=self.shape(),
            units=self.units,
        )

    def _ease(self) -> Ease | None:
        if self.ease_percent is None and self.ease_length is None:
            return None
        return Ease(percent=self.ease_percent, length=difference_of(self.ease_length))


def hat_picture_address(request: HatRequest, index: int, view: HatView = "worn") -> str:
    """The address of a picture of one size of a hat."""
    size, brim, ease = request.sizes[index], request.brim, request.ease
    body = request.body_of(index)
    requested = depth_or_length(request, index, "#")
    if ease == USUAL_EASE and size.chart is None:
        ease = None  # it is taken where the address has none
    return picture_address(
        "profile",
        ProfileQuery,
        {
            "head": length_text(size.head),
            "age_months": size.age_months,
            "age_years": size.age_years,
            "gestation_weeks": size.gestation_weeks,
            "postmenstrual_weeks": size.postmenstrual_weeks,
            "sex": size.sex,
            "adult": size.adult,
            "chart": size.chart,
            **gauge_parameters(request.gauge),
            "ease_percent": None if ease is None else ease.percent,
            "ease_length": None if ease is None else length_text(ease.length),
            "brim": None if brim.edge == "rolled" and request.silhouette is None else brim.edge,
            "brim_length": length_text(brim.length),
            "rib_knit": brim.rib.knit,
            "rib_purl": brim.rib.purl,
            **gauge_parameters(brim.gauge, "brim_gauge"),
            "body_length": length_text(requested.body_length and requested.body_length[0]),
            "depth": length_text(requested.depth and requested.depth[0]),
            "silhouette": request.silhouette,
            "body_fullness": body.fullness,
            "body_adjust_in": body.adjust_in,
            **gauge_parameters(body.gauge, "body_gauge"),
            **crown_parameters(request.crown, request.finish),
            "units": request.units,
            "view": view,
        },
    )
