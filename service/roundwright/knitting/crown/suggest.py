"""Suggest a crown for a shape: the counts of every style on the stitches and the gauge are compared with the shape."""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import ceil, cos, hypot, pi, sin, sqrt
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.crown.crown import CrownCounts, crown_counts
from roundwright.knitting.crown.geometry import (
    GEOMETRY_BASIS,
    Lie,
    Surface,
    average_slope,
    lie_of,
    outline,
    smooth_radii,
    surface,
)
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES, Cadence, CrownShape, Worked, style_of
from roundwright.knitting.crown.styles import (
    FEWEST_SECTIONS,
    MOST_USUAL_SECTIONS,
    SQUARE_SLOPE,
    STYLES,
    USUAL_CONE_HEIGHT_PER_WIDTH,
    Style,
)
from roundwright.knitting.quantities import (
    SHAPE_BASIS,
    Difference,
    Gauge,
    Length,
    UnitSystem,
    difference,
    mm,
    quantity_text,
    row_height_mm,
    rows_assumed,
    stitch_width_mm,
)
from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.knitting.rounds.rows import SEAM_STITCHES
from roundwright.knitting.sizing.cast_on import FEWEST_STITCHES
from roundwright.language import Language, Message, say

MOST_SUGGESTED: Final = 5
"""Crowns suggested: enough to choose from."""
PLAIN_ROUNDS_TRIED: Final = (1, 2, 3)
"""Plain rounds after every decrease round that are tried beside the cadence of the style: with none, even six sections
gather; with more, the crown is a tube."""

TargetShape = Literal["round", "flat", "pointed", "square"]


class SuggestionRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A shape to be made of a number of stitches."""

    stitches: Annotated[
        int, Meta(ge=FEWEST_STITCHES, le=MOST_CROWN_STITCHES, description="Stitches before the crown.")
    ]
    gauge: Annotated[Gauge, Meta(description="Gauge of the washed swatch.")]
    shape: Annotated[
        TargetShape,
        Meta(
            description="`round`: a hemisphere; `flat`: a disc; `pointed`: a cone; `square`: flat, with four corners."
        ),
    ] = "round"
    height: Annotated[
        Length | None, Meta(description="Height of what is pointed. Left out: three quarters of its width.")
    ] = None
    worked: Worked = "in_the_round"
    units: Annotated[UnitSystem, Meta(description="Units of the answer.")] = "metric"
    language: Language = None


class CrownSuggestion(Struct, frozen=True, kw_only=True):
    """A crown, and how near it comes to the requested shape."""

    crown: Annotated[CrownShape, Meta(description="The crown, as `/v1/crown` takes it beside the stitches.")]
    sections: Annotated[
        int | None,
        Meta(description="Sections, or decreases worked together in a round; null where there are none."),
    ]
    off_percent: Annotated[
        float,
        Meta(
            description="Root mean square of the distance between the outline of the crown and that of the requested "
            "shape, at the same distance from the tip along the fabric, as a percentage of the radius of the hat. "
            "Where one of them is shorter, the straight part of the hat continues it."
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
    """The crowns that come nearest to the requested shape."""

    shape: Annotated[TargetShape, Meta(description="The requested shape.")]
    suggestions: Annotated[tuple[CrownSuggestion, ...], Meta(description="The crowns, the nearest first.")]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")]
    rules: RulesVersion = RULES


class _Candidate(NamedTuple):
    """A crown whose counts were measured."""

    shape: CrownShape
    crown: CrownCounts
    surface: Surface
    depth_mm: float
    off_percent: float


NEAREST_BASIS: Final = Basis(
    say("suggestion.basis"),
    "this service's own comparison",
)


def suggest(request: SuggestionRequest) -> SuggestionAnswer:
    """The crowns nearest to the requested shape. Raises `Impossible` where there is none."""
    candidates = [
        candidate for shape in _shapes(request) if (candidate := _candidate(request, shape)) is not None
    ]
    if not candidates:
        raise Impossible(
            say("suggestion.none", stitches=request.stitches),
            code="no_room",
            pointer="#/height" if request.height else "#/gauge",
            nearest=say("suggestion.lower_height" if request.height else "suggestion.fewer_rows"),
        )
    candidates.sort(key=lambda candidate: (round(candidate.off_percent, 2), len(candidate.crown.counts)))
    return SuggestionAnswer(
        shape=request.shape,
        suggestions=tuple(_suggestion(request, candidate) for candidate in candidates[:MOST_SUGGESTED]),
        basis=(NEAREST_BASIS, GEOMETRY_BASIS, *(() if request.gauge.rows else (SHAPE_BASIS,))),
        warnings=(*rows_assumed(request.gauge), *_height_unused(request)),
    )


def _height_unused(request: SuggestionRequest) -> tuple[Notice, ...]:
    if request.height is None or request.shape == "pointed":
        return ()
    return (
        Notice(
            code="option_unused",
            message=say("suggestion.height_unused", shape=request.shape),
            pointer="#/height",
        ),
    )


def _shapes(request: SuggestionRequest) -> Iterator[CrownShape]:
    """Every style; of those with few sections, every usual number of sections and cadence."""
    inside = request.stitches - _seam(request)
    for name, style in STYLES.items():
        if style.counts_as or (style.flat_slope == SQUARE_SLOPE) != (request.shape == "square"):
            continue
        if not _has_few_sections(style, inside):
            height = request.height if request.shape == "pointed" and "height" in style.options else None
            yield CrownShape(style=name, height=height, worked=request.worked)
            continue
        for sections in range(FEWEST_SECTIONS, min(MOST_USUAL_SECTIONS, inside // 2) + 1):
            for cadence in (None, *(Cadence(plain_rounds=rounds) for rounds in PLAIN_ROUNDS_TRIED)):
                yield CrownShape(style=name, sections=sections, cadence=cadence, worked=request.worked)


def _seam(request: SuggestionRequest) -> int:
    return SEAM_STITCHES if request.worked == "flat" else 0


def _has_few_sections(style: Style, stitches: int) -> bool:
    has_sections = style.whole_sections and "sections" in style.options
    return has_sections and FEWEST_SECTIONS <= style.sections(stitches) <= MOST_USUAL_SECTIONS


def _candidate(request: SuggestionRequest, shape: CrownShape) -> _Candidate | None:
    """The crown and how near it comes; None where it cannot be worked or has no rounds."""
    width_mm, height_mm = stitch_width_mm(request.gauge), row_height_mm(request.gauge)
    try:
        crown = crown_counts(request.stitches, shape, request.gauge, pointer="#")
    except Impossible:
        return None
    if not crown.counts:
        return None
    inside = request.stitches - _seam(request)
    measured = surface(inside, crown.counts, width_mm, height_mm, style_of(shape).flat_slope)
    radii = smooth_radii(measured)
    depths = outline(measured, radii)[1]
    off_mm = _off_mm(request, measured, radii[::-1], depths)
    return _Candidate(shape, crown, measured, depths[0], 100 * off_mm / measured.body_radius_mm)


def _off_mm(
    request: SuggestionRequest, measured: Surface, radii: Sequence[float], depths: Sequence[float]
) -> float:
    """Root mean square of the distance between the outlines, from the tip to where both have become straight.

    The radius is that of a circle of the stitches: a crown that gathers is off, though it lies on a smaller circle.
    """
    target, fabric = _target_outline(request, measured.body_radius_mm)
    points = [*zip((measured.fabric_mm, *measured.along_mm), radii, depths, strict=False)]
    straight = min(ceil((fabric - measured.fabric_mm) / measured.row_height_mm), MOST_ROUNDS)
    lengths = [measured.row_height_mm * rounds for rounds in range(1, straight + 1)]
    points += [
        (measured.fabric_mm + length, measured.body_radius_mm, depths[0] + length) for length in lengths
    ]
    squares = 0.0
    for along, radius, depth in points:
        target_radius, target_depth = target(along)
        squares += (radius - target_radius) ** 2 + (depth - target_depth) ** 2
    return sqrt(squares / len(points))


def _target_outline(
    request: SuggestionRequest, radius: float
) -> tuple[Callable[[float], tuple[float, float]], float]:
    """Radius and depth below the tip by the distance along the fabric, and the length of the fabric; in mm."""
    if request.shape == "round":
        fabric, depth = pi / 2 * radius, radius
    elif request.shape == "pointed":
        depth = USUAL_CONE_HEIGHT_PER_WIDTH * 2 * radius if request.height is None else mm(request.height)
        fabric = hypot(radius, depth)
    else:
        fabric, depth = radius, 0.0

    def point(along: float) -> tuple[float, float]:
        if along >= fabric:
            return radius, depth + along - fabric
        if request.shape == "round":
            return radius * sin(along / radius), radius * (1 - cos(along / radius))
        return radius * along / fabric, depth * along / fabric

    return point, fabric


def _suggestion(request: SuggestionRequest, candidate: _Candidate) -> CrownSuggestion:
    counts, inside = candidate.crown.counts, request.stitches - _seam(request)
    depth = difference(candidate.depth_mm, request.units)
    return CrownSuggestion(
        crown=candidate.shape,
        sections=candidate.crown.sections,
        off_percent=round(candidate.off_percent, 2),
        lies=lie_of(candidate.surface),
        slope=average_slope(candidate.surface, style_of(candidate.shape).flat_slope),
        depth=depth,
        rounds=len(counts),
        decrease_rounds=sum(after < before for before, after in pairwise((inside, *counts))),
        adjusted=candidate.crown.adjusted,
        stitches_left=counts[-1] + _seam(request),
        text=_words(request, candidate, depth),
    )


def _words(request: SuggestionRequest, candidate: _Candidate, depth: Difference) -> Message:
    shape = candidate.shape
    crown = say(f"crown.style.{shape.style}")
    if shape.sections:
        crown = say("suggestion.in_sections", crown=crown, sections=shape.sections)
    if shape.cadence is not None:
        crown = say("suggestion.plain_rounds", crown=crown, rounds=shape.cadence.plain_rounds)
    return say(
        "suggestion.in_rows" if shape.worked == "flat" else "suggestion.in_rounds",
        crown=crown,
        rounds=len(candidate.crown.counts),
        depth=quantity_text(depth, 3),
        percent=candidate.off_percent,
        shape=say(f"suggestion.shape.{request.shape}"),
    )
