"""Which crown gives the shape asked for: every style tried on the stitches and gauge at hand, and measured."""

from collections.abc import Callable, Iterator
from math import ceil, cos, hypot, pi, sin, sqrt
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.crown.crown import CrownRounds, crown_rounds
from roundwright.knitting.crown.geometry import (
    GEOMETRY_BASIS,
    Lie,
    Surface,
    evened,
    geometry,
    outline,
    surface,
)
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES, Cadence, CrownShape, Worked
from roundwright.knitting.crown.styles import (
    FEWEST_SECTIONS,
    MOST_USUAL_SECTIONS,
    SQUARE_TURN,
    STYLES,
    USUAL_CONE,
    Style,
)
from roundwright.knitting.quantities import (
    SHAPE_BASIS,
    Difference,
    Gauge,
    Length,
    UnitSystem,
    mm,
    row_height_mm,
    rows_assumed,
    stitch_width_mm,
)
from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.knitting.rounds.rows import SEAM_STITCHES
from roundwright.knitting.sizing.cast_on import FEWEST_STITCHES

MOST_SUGGESTED: Final = 5
"""Crowns suggested: enough to choose from."""
PLAIN_ROUNDS_TRIED: Final = (1, 2, 3)
"""Plain rounds after every decrease round, beside the cadence of the style: without any, six sections gather already,
and with more the crown is a tube."""

AskedShape = Literal["round", "flat", "pointed", "square"]
BODIES: Final[dict[AskedShape, str]] = {
    "round": "a hemisphere",
    "flat": "a flat disc",
    "pointed": "the cone",
    "square": "a flat square",
}


class SuggestionRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A shape to be made of some stitches."""

    stitches: Annotated[
        int, Meta(ge=FEWEST_STITCHES, le=MOST_CROWN_STITCHES, description="Stitches before the crown.")
    ]
    gauge: Annotated[Gauge, Meta(description="Gauge of the washed swatch.")]
    shape: Annotated[
        AskedShape,
        Meta(
            description="`round`: a hemisphere; `flat`: a disc; `pointed`: a cone; `square`: flat, with four corners."
        ),
    ] = "round"
    height: Annotated[
        Length | None, Meta(description="Height of what is pointed. Left out: three quarters of its width.")
    ] = None
    worked: Worked = "in_the_round"
    units: Annotated[UnitSystem, Meta(description="Units of the answer.")] = "metric"


class CrownSuggestion(Struct, frozen=True, kw_only=True):
    """A crown, and how near it comes to the shape asked for."""

    crown: Annotated[CrownShape, Meta(description="The crown, as `/v1/crown` takes it beside the stitches.")]
    sections: Annotated[
        int | None,
        Meta(description="Sections, or decreases worked together in a round; null where there are none."),
    ]
    off_percent: Annotated[
        float,
        Meta(
            description="Root mean square of the distance between the outline of the crown and that of the shape asked "
            "for, at the same distance from the tip along the fabric, as a percentage of the radius of the hat. Where "
            "one of them is shorter, the straight part of the hat goes on from it."
        ),
    ]
    lies: Annotated[Lie, Meta(description="How it lies, as in the geometry of `/v1/crown`.")]
    slope: Annotated[
        float, Meta(description="Circumference lost for each unit of fabric; 2π lies flat (square: 8).")
    ]
    depth: Annotated[Difference, Meta(description="Finished depth: tip above the start of the crown.")]
    rounds: Annotated[int, Meta(description="Rounds (flat: rows) it takes.")]
    decrease_rounds: Annotated[
        int, Meta(description="How many of them decrease, an adjusting round included.")
    ]
    adjusted: Annotated[bool, Meta(description="Whether stitches have to be taken away first, to divide.")]
    stitches_left: Annotated[int, Meta(description="Stitches left to finish.")]
    text: Annotated[str, Meta(description="The same in words.")]


class SuggestionAnswer(Struct, frozen=True, kw_only=True):
    """The crowns that come nearest to the shape asked for."""

    shape: Annotated[AskedShape, Meta(description="The shape asked for.")]
    suggestions: Annotated[tuple[CrownSuggestion, ...], Meta(description="The crowns, the nearest first.")]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")]
    rules: RulesVersion = RULES


class _Tried(NamedTuple):
    """A crown that was worked out."""

    shape: CrownShape
    made: CrownRounds
    measured: Surface
    off_percent: float


NEAREST_BASIS: Final = Basis(
    "Every style is worked out on the stitches; the crowns whose outline comes nearest to the shape, by root mean "
    "square, are suggested.",
    "this service's own comparison",
)


def suggest(request: SuggestionRequest) -> SuggestionAnswer:
    """The crowns nearest to the shape asked for. Raises `Impossible` where there is none."""
    found = [each for shape in _shapes(request) if (each := _tried(request, shape)) is not None]
    if not found:
        raise Impossible(
            f"No crown on {request.stitches} stitches comes out at this gauge.",
            pointer="#/height" if request.height else "#/gauge",
            nearest="a lower height" if request.height else "a gauge with fewer rows to the stitch",
        )
    found.sort(key=lambda each: (round(each.off_percent, 2), len(each.made.rounds)))
    return SuggestionAnswer(
        shape=request.shape,
        suggestions=tuple(_suggestion(request, each) for each in found[:MOST_SUGGESTED]),
        basis=(NEAREST_BASIS, GEOMETRY_BASIS, *(() if request.gauge.rows else (SHAPE_BASIS,))),
        warnings=(*rows_assumed(request.gauge), *_height_unused(request)),
    )


def _height_unused(request: SuggestionRequest) -> tuple[Notice, ...]:
    if request.height is None or request.shape == "pointed":
        return ()
    return (
        Notice(
            code="option_unused",
            message=f"Only what is pointed takes a height; this is {request.shape}.",
            pointer="#/height",
        ),
    )


def _shapes(request: SuggestionRequest) -> Iterator[CrownShape]:
    """Every style, and where it has a few sections all their usual numbers and cadences."""
    inside = request.stitches - _seam(request)
    for name, style in STYLES.items():
        if style.counts_as or (style.turn == SQUARE_TURN) != (request.shape == "square"):
            continue
        if not _has_few_sections(style, inside):
            height = request.height if request.shape == "pointed" and "height" in style.heeds else None
            yield CrownShape(style=name, height=height, worked=request.worked)
            continue
        for sections in range(FEWEST_SECTIONS, min(MOST_USUAL_SECTIONS, inside // 2) + 1):
            for cadence in (None, *(Cadence(plain_rounds=rounds) for rounds in PLAIN_ROUNDS_TRIED)):
                yield CrownShape(style=name, sections=sections, cadence=cadence, worked=request.worked)


def _seam(request: SuggestionRequest) -> int:
    return SEAM_STITCHES if request.worked == "flat" else 0


def _has_few_sections(style: Style, stitches: int) -> bool:
    counted = style.whole_sections and "sections" in style.heeds
    return counted and FEWEST_SECTIONS <= style.sections(stitches) <= MOST_USUAL_SECTIONS


def _tried(request: SuggestionRequest, shape: CrownShape) -> _Tried | None:
    """The crown and how near it comes; None where it takes more rounds than anybody knits."""
    width, height = stitch_width_mm(request.gauge), row_height_mm(request.gauge)
    try:
        made = crown_rounds(request.stitches, shape, request.gauge, pointer="#")
    except Impossible:
        return None
    if not made.rounds:
        return None
    seam = _seam(request)
    counts = [each.after - seam for each in made.rounds]
    measured = surface(request.stitches - seam, counts, width, height, STYLES[shape.style].turn)
    return _Tried(shape, made, measured, 100 * _off_mm(request, measured) / measured.body_radius)


def _off_mm(request: SuggestionRequest, measured: Surface) -> float:
    """Root mean square of the distance between the outlines, from the tip to where both have become straight.

    The radius is the one its stitches ask for: what gathers is off, though it lies on a smaller one.
    """
    below, radii = outline(measured)[1], evened(measured)[::-1]
    body, fabric = _body(request, measured.body_radius)
    places = [*zip((measured.fabric, *measured.along), radii, below, strict=False)]
    straight = min(ceil((fabric - measured.fabric) / measured.row_height), MOST_ROUNDS)
    further = [measured.row_height * rounds for rounds in range(1, straight + 1)]
    places += [(measured.fabric + more, measured.body_radius, below[0] + more) for more in further]
    squares = 0.0
    for along, radius, depth in places:
        there_radius, there_depth = body(along)
        squares += (radius - there_radius) ** 2 + (depth - there_depth) ** 2
    return sqrt(squares / len(places))


def _body(request: SuggestionRequest, radius: float) -> tuple[Callable[[float], tuple[float, float]], float]:
    """Radius and distance below the tip, by the distance along the fabric, and the fabric it takes; mm."""
    if request.shape == "round":
        fabric, depth = pi / 2 * radius, radius
    elif request.shape == "pointed":
        depth = USUAL_CONE * 2 * radius if request.height is None else mm(request.height)
        fabric = hypot(radius, depth)
    else:
        fabric, depth = radius, 0.0

    def at(along: float) -> tuple[float, float]:
        if along >= fabric:
            return radius, depth + along - fabric
        if request.shape == "round":
            return radius * sin(along / radius), radius * (1 - cos(along / radius))
        return radius * along / fabric, depth * along / fabric

    return at, fabric


def _suggestion(request: SuggestionRequest, tried: _Tried) -> CrownSuggestion:
    rounds = tried.made.rounds
    known = geometry(tried.measured, STYLES[tried.shape.style].turn, request.units)
    return CrownSuggestion(
        crown=tried.shape,
        sections=tried.made.sections,
        off_percent=round(tried.off_percent, 2),
        lies=known.lies,
        slope=known.slope,
        depth=known.depth,
        rounds=len(rounds),
        decrease_rounds=sum(each.after < each.before for each in rounds),
        adjusted=rounds[0].kind == "adjust",
        stitches_left=rounds[-1].after,
        text=_words(request, tried, known.depth),
    )


def _words(request: SuggestionRequest, tried: _Tried, depth: Difference) -> str:
    shape = tried.shape
    sections = f" in {shape.sections} sections" if shape.sections else ""
    turns = "" if shape.cadence is None else f", {shape.cadence.plain_rounds} plain after each decrease round"
    what = "rows" if shape.worked == "flat" else "rounds"
    return (
        f"{shape.style}{sections}{turns}: {len(tried.made.rounds)} {what}, {depth.value:.3g} {depth.unit} deep, "
        f"{tried.off_percent:.2g} % of the radius off {BODIES[request.shape]}."
    )
