"""Where the picture of an answer is: an address that says everything the picture shows.

The pictures are of a higher storey; an address is only text. What is as usual is left out of it.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from roundwright.knitting.crown_plan import CrownShape
from roundwright.knitting.holding import USUAL_TOLERANCE
from roundwright.knitting.measures import TEN_CM, Difference, Gauge, Length, UnitSystem
from roundwright.knitting.sizing import USUAL_EASE

if TYPE_CHECKING:
    from roundwright.knitting.change import EvenRequest, Plan
    from roundwright.knitting.hat import HatRequest
    from roundwright.knitting.needles import SplitRequest

MOST_DRAWN_ROUNDS: Final = 150
"""Rounds in the chart of a crown: with more, no line of it can be read on a page."""
MOST_DRAWN_CHANGES: Final = 200
"""Changes in a picture of a round: with more, nobody counts them one by one."""
MOST_DRAWN_STITCHES: Final = 2_000
"""Stitches in a picture of a round: with more, gaps are broader than a page."""

Said = tuple[str, str | float | Length | Difference | None]
"""A parameter and its value; None is left out."""


def crown_picture(
    stitches: int,
    shape: CrownShape,
    gauge: Gauge | None,
    *,
    needles: int | None = None,
    tolerance: int = USUAL_TOLERANCE,
    units: UnitSystem = "metric",
) -> str:
    """The chart of a crown."""
    return _address(
        "crown",
        ("stitches", stitches),
        *_shape(shape),
        *_gauge(gauge),
        *_needles(needles, tolerance),
        _units(units),
    )


def hat_picture(request: "HatRequest", index: int) -> str:
    """The side view of one size of a hat."""
    size, brim = request.sizes[index], request.brim
    body = size.body if size.body is not None and size.body.length is not None else request.body
    usual = request.ease == USUAL_EASE
    return _address(
        "profile",
        ("head", size.head),
        ("age_months", size.age_months),
        ("gestation_weeks", size.gestation_weeks),
        ("sex", size.sex),
        ("adult", size.adult),
        ("chart", size.chart),
        *_gauge(request.gauge),
        *(() if usual else (("ease_percent", request.ease.percent), ("ease_length", request.ease.length))),
        ("brim", None if brim.kind == "rolled" else brim.kind),
        ("brim_length", brim.length),
        ("rib_knit", None if brim.rib.knit == 1 else brim.rib.knit),
        ("rib_purl", None if brim.rib.purl == 1 else brim.rib.purl),
        ("body_length", body.length),
        *_shape(request.crown, finish=None if request.finish is None else request.finish.kind),
        _units(request.units),
    )


def needles_picture(request: "SplitRequest", round_number: int = 0) -> str | None:
    """The needles before a round; none where the rounds to come are written out, which no address holds."""
    if request.rounds:
        return None
    return _address(
        "needles",
        ("stitches", request.stitches),
        *(() if request.crown is None else _shape(request.crown, say_style=True)),
        *_gauge(request.gauge),
        *_needles(request.needles, request.tolerance),
        ("multiple", None if request.multiple == 1 else request.multiple),
        ("hold", None if request.hold == "double_pointed" else request.hold),
        ("split", None if request.split is None else "-".join(str(count) for count in request.split)),
        ("round", round_number or None),
    )


def spacing_picture(request: "EvenRequest", plan: "Plan") -> str | None:
    """The first round of shaping; none for one that no picture shows."""
    if request.stitches > MOST_DRAWN_STITCHES or plan.times > MOST_DRAWN_CHANGES:
        return None
    return _address(
        "spacing",
        ("stitches", request.stitches),
        ("change", plan.change),
        ("method", plan.method),
        ("worked", None if request.worked == "in_the_round" else request.worked),
        ("edge_stitches", request.edge_stitches or None),
        ("arrangement", None if request.arrangement == "balanced" else request.arrangement),
    )


# --- parameters -----------------------------------------------------------------------------------------------


def _address(name: str, *said: Said) -> str:
    # No value holds a character that an address would have to escape.
    query = "&".join([f"{parameter}={_written(value)}" for parameter, value in said if value is not None])
    return f"/v1/drawings/{name}.svg?{query}"


def _written(value: str | float | Length | Difference) -> str:
    if isinstance(value, Length | Difference):
        return f"{_decimal(value.value)}{value.unit}"
    return value if isinstance(value, str) else repr(value).removesuffix(".0")


def _decimal(value: float) -> str:
    """The number without an exponent, which a length is written without."""
    text = repr(value)
    return f"{value:.20f}".rstrip("0").rstrip(".") if "e" in text else text.removesuffix(".0")


def _shape(shape: CrownShape, finish: str | None = None, *, say_style: bool = False) -> Iterator[Said]:
    usual = CrownShape()
    if say_style or shape.style != usual.style:
        yield "style", shape.style
    for name in ("sections", "close_at", "decrease_at", "height", "worked"):
        value = getattr(shape, name)
        if value != getattr(usual, name):
            yield name, value
    if shape.cadence is not None:
        yield "plain_rounds", shape.cadence.plain_rounds
        yield "every_round_from", shape.cadence.every_round_from
    finish = finish or shape.finish.kind
    if finish != usual.finish.kind:
        yield "finish", finish


def _gauge(gauge: Gauge | None) -> Iterator[Said]:
    if gauge is None:
        return
    yield "gauge_stitches", gauge.stitches
    yield "gauge_rows", gauge.rows
    if gauge.over != TEN_CM:
        yield "gauge_over", gauge.over


def _needles(needles: int | None, tolerance: int) -> Iterator[Said]:
    yield "needles", needles
    if tolerance != USUAL_TOLERANCE:
        yield "tolerance", tolerance


def _units(units: UnitSystem) -> Said:
    return "units", None if units == "metric" else units
