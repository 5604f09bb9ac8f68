"""The query of a crown's chart, and its address."""

from typing import Annotated, ClassVar, Literal

from msgspec import Meta, Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.finish import Finish, FinishKind
from roundwright.knitting.crown.request import (
    MOST_CLOSE,
    MOST_CROWN_STITCHES,
    MOST_PLAIN_ROUNDS,
    MOST_SECTIONS,
    Cadence,
    CrownRequest,
    CrownShape,
    DecreaseAt,
    StyleName,
)
from roundwright.knitting.needles.best_split import USUAL_TOLERANCE, NeedleCount, Tolerance
from roundwright.knitting.needles.whole_repeats import RibRepeat
from roundwright.knitting.picture_address import (
    GaugeCount,
    GaugeOver,
    GaugeRows,
    LengthText,
    Parameters,
    Units,
    gauge_of,
    gauge_parameters,
    length_of,
    length_text,
    picture_address,
    with_parameter,
)
from roundwright.knitting.quantities import Gauge, UnitSystem
from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.knitting.sizing.cast_on import FEWEST_STITCHES
from roundwright.language import PictureLanguage, say


class CrownParameters(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How a crown is closed, as `/v1/crown` takes it, without its stitches."""

    style: Annotated[
        StyleName | None,
        Meta(description="Style of the crown, as in `/v1/crown`. Left out: `quick`, or as `/v1/hats` does."),
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
        Meta(
            description="The crown ends with this number of stitches or fewer. Left out: as the style does."
        ),
    ] = None
    decrease_at: Annotated[
        DecreaseAt, Meta(description="Where in its section a decrease is worked. Default `end`.")
    ] = "end"
    height: Annotated[
        LengthText | None, Meta(description="Height of a cone, such as `20cm`; it needs the gauge.")
    ] = None
    follows_stitches: Annotated[
        Annotated[int, Meta(ge=FEWEST_STITCHES, le=MOST_CROWN_STITCHES)] | None,
        Meta(
            description="Stitches around the hemisphere that a dome in whole sections follows, as in `/v1/crown`."
        ),
    ] = None
    worked: Annotated[
        Literal["in_the_round", "flat"],
        Meta(description="In the round, or flat in rows. Default in the round."),
    ] = "in_the_round"
    finish: Annotated[
        FinishKind, Meta(description="What becomes of the last stitches. Default `draw_up`.")
    ] = "draw_up"
    language: PictureLanguage = None
    language_is_of_picture: ClassVar[bool] = True

    def shape(self) -> CrownShape:
        """The crown, without its stitches."""
        cadence = None
        if self.plain_rounds is not None:
            cadence = Cadence(plain_rounds=self.plain_rounds, every_round_from=self.every_round_from)
        elif self.every_round_from is not None:
            raise Impossible(
                say("crown.needs_plain_rounds"),
                code="needs_another",
                pointer="#/plain_rounds",
                nearest="plain_rounds=1",
            )
        return CrownShape(
            style=self.style,
            sections=self.sections,
            cadence=cadence,
            close_at=self.close_at,
            decrease_at=self.decrease_at,
            height=length_of(self.height),
            follows_stitches=self.follows_stitches,
            worked=self.worked,
            finish=Finish(kind=self.finish),
        )


class CrownQuery(CrownParameters, frozen=True, kw_only=True, forbid_unknown_fields=True):
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
            description="Stitches counted across `gauge_over`; `dome`, `flat`, `cone` and `square` depend on it."
        ),
    ] = None
    gauge_rows: GaugeRows = None
    gauge_over: GaugeOver = "10cm"
    needles: NeedleCount | None = None
    tolerance: Tolerance = USUAL_TOLERANCE
    repeat: RibRepeat = 1
    units: Units = "metric"
    first_round: Annotated[
        int,
        Meta(
            ge=1,
            le=MOST_ROUNDS,
            description="Number of its first round, where its size joins a pattern that has begun. Default 1.",
        ),
    ] = 1

    def request(self) -> CrownRequest:
        """The same crown as a request to `/v1/crown`."""
        shape = {name: getattr(self.shape(), name) for name in CrownShape.__struct_fields__}
        return CrownRequest(
            **shape,
            stitches=self.stitches,
            gauge=gauge_of(self.gauge_stitches, self.gauge_rows, self.gauge_over),
            needles=self.needles,
            tolerance=self.tolerance,
            repeat=self.repeat,
            units=self.units,
        )


def crown_picture(
    stitches: int,
    shape: CrownShape,
    gauge: Gauge | None,
    *,
    needles: int | None = None,
    tolerance: int = USUAL_TOLERANCE,
    repeat: int = 1,
    units: UnitSystem = "metric",
) -> str:
    """The address of the chart of a crown."""
    return picture_address(
        "crown",
        CrownQuery,
        {
            "stitches": stitches,
            **crown_parameters(shape),
            **gauge_parameters(gauge),
            "needles": needles,
            "tolerance": tolerance,
            "repeat": repeat if needles else 1,
            "units": units,
        },
    )


def numbered_from(address: str, first: int) -> str:
    """The address of the chart of a crown whose rounds are numbered from `first`."""
    return with_parameter(address, "first_round", first)


def crown_parameters(shape: CrownShape, finish: Finish | None = None) -> Parameters:
    """The shape of a crown as query parameters; `finish` replaces its own."""
    cadence = shape.cadence
    return {
        "style": shape.style,
        "sections": shape.sections,
        "close_at": shape.close_at,
        "decrease_at": shape.decrease_at,
        "height": length_text(shape.height),
        "follows_stitches": shape.follows_stitches,
        "worked": shape.worked,
        "plain_rounds": None if cadence is None else cadence.plain_rounds,
        "every_round_from": None if cadence is None else cadence.every_round_from,
        "finish": (finish or shape.finish).kind,
    }
