"""Substitute a gauge: the size a pattern comes out at another gauge, and the counts that keep its size."""

from math import ceil, floor
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.gauge.convert import GaugeCount
from roundwright.knitting.gauge.needle_size import (
    NEEDLE_BASIS,
    OTHER_YARN_STITCHES,
    NeedleAdvice,
    NeedleMm,
    advise,
    more_stitches,
)
from roundwright.knitting.quantities import (
    SHAPE_BASIS,
    Difference,
    Gauge,
    Length,
    UnitSystem,
    difference,
    length,
    mm,
    quantity_text,
    row_height_mm,
    rows_assumed,
    stitch_width_mm,
    tidy,
)
from roundwright.knitting.rounds.round import Multiple, nearest_count
from roundwright.language import Language, say

MOST_COUNTS: Final = 48
"""Counts re-scaled at once: four for each of twelve sizes."""
LARGEST_COUNT: Final = 10_000
"""Stitches or rows in a pattern: five blankets."""
SHORTEST_MEASURE_MM: Final = 10.0
"""A measurement in a pattern: the width of a buttonhole band."""
LONGEST_MEASURE_MM: Final = 10_000.0
"""A measurement in a pattern: a scarf for a class photograph."""
PatternCount = Annotated[int, Meta(ge=1, le=LARGEST_COUNT)]


class PatternMeasure(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A finished measurement that a pattern states."""

    label: Annotated[str, Meta(max_length=80, description="What is measured, for the answer.")] = ""
    size: Annotated[Length, Meta(description="The measurement as the pattern states it, from 1 cm to 10 m.")]
    along: Annotated[
        Literal["stitches", "rows"],
        Meta(description="Whether it runs along the `stitches` (a circumference) or the `rows` (a depth)."),
    ] = "stitches"


class SubstituteRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A pattern to be knitted at a gauge other than its own."""

    pattern: Annotated[Gauge, Meta(description="Gauge the pattern asks for.")]
    yours: Annotated[Gauge, Meta(description="Gauge of your own washed swatch.")]
    held_double: Annotated[
        bool,
        Meta(description="`yours` was knitted with one strand, and two will be held together. Default: no."),
    ] = False
    stitch_counts: Annotated[
        tuple[PatternCount, ...], Meta(max_length=MOST_COUNTS, description="Stitch counts of the pattern.")
    ] = ()
    row_counts: Annotated[
        tuple[PatternCount, ...],
        Meta(max_length=MOST_COUNTS, description="Row or round counts of the pattern."),
    ] = ()
    multiple: Annotated[Multiple, Meta(description="Repeat the stitch counts must fit. Default: none.")] = (
        Multiple(1)
    )
    row_multiple: Annotated[Multiple, Meta(description="Repeat the row counts must fit. Default: none.")] = (
        Multiple(1)
    )
    measurements: Annotated[
        tuple[PatternMeasure, ...],
        Meta(max_length=MOST_COUNTS, description="Finished measurements of the pattern."),
    ] = ()
    needle_mm: Annotated[
        NeedleMm | None,
        Meta(
            description="Needle your swatch was knitted on, in millimetres; with it the answer names the next to try."
        ),
    ] = None
    units: Annotated[UnitSystem, Meta(description="Units of the answer.")] = "metric"
    language: Language = None


class FittedStitches(Struct, frozen=True):
    """A stitch count at your gauge, and the width it gives."""

    count: Annotated[int, Meta(description="Stitches.")]
    width: Annotated[Length, Meta(description="Width they give at your gauge.")]
    change_percent: Annotated[
        float, Meta(description="How much wider (negative: narrower) than the pattern's.")
    ]


class StitchesInstead(Struct, frozen=True, kw_only=True):
    """A stitch count of the pattern and those to take instead."""

    pattern: Annotated[int, Meta(description="Stitches in the pattern.")]
    pattern_width: Annotated[Length, Meta(description="Width they give at the pattern's gauge.")]
    as_written: Annotated[Length, Meta(description="Width the same stitches give at yours.")]
    exact: Annotated[
        float, Meta(description="Stitches at your gauge for the pattern's width, before rounding.")
    ]
    nearest: Annotated[FittedStitches, Meta(description="The nearest count that fits the multiple.")]
    below: Annotated[
        FittedStitches | None,
        Meta(
            description="The largest that fits and is not above `exact`; null where there is no whole repeat."
        ),
    ]
    above: Annotated[FittedStitches, Meta(description="The smallest that fits and is not below `exact`.")]


class FittedRows(Struct, frozen=True):
    """A row count at your gauge, and the length it gives."""

    count: Annotated[int, Meta(description="Rows.")]
    length: Annotated[Length, Meta(description="Length they give at your gauge.")]
    change_percent: Annotated[
        float, Meta(description="How much longer (negative: shorter) than the pattern's.")
    ]


class RowsInstead(Struct, frozen=True, kw_only=True):
    """A row count of the pattern and those to work instead."""

    pattern: Annotated[int, Meta(description="Rows in the pattern.")]
    pattern_length: Annotated[Length, Meta(description="Length they give at the pattern's gauge.")]
    as_written: Annotated[Length, Meta(description="Length the same rows give at yours.")]
    exact: Annotated[float, Meta(description="Rows at your gauge for the pattern's length, before rounding.")]
    nearest: Annotated[FittedRows, Meta(description="The nearest count that fits the multiple.")]
    below: Annotated[
        FittedRows | None,
        Meta(
            description="The largest that fits and is not above `exact`; null where there is no whole repeat."
        ),
    ]
    above: Annotated[FittedRows, Meta(description="The smallest that fits and is not below `exact`.")]
    add: Annotated[
        int, Meta(description="Rows to add to the pattern's for `nearest` (negative: to leave out).")
    ]


class MeasureInstead(Struct, frozen=True, kw_only=True):
    """A measurement as it comes out when the pattern is followed as written."""

    label: Annotated[str, Meta(description="What is measured.")]
    pattern: Annotated[Length, Meta(description="As the pattern states it.")]
    as_written: Annotated[Length, Meta(description="As it comes out at your gauge.")]
    difference: Annotated[Difference, Meta(description="How much larger (negative: smaller) that is.")]


class SubstituteAnswer(Struct, frozen=True, kw_only=True):
    """A pattern at your gauge: as written, and with its counts re-scaled."""

    size_change_percent: Annotated[
        float,
        Meta(
            description="How much wider (negative: narrower) the piece comes out if the pattern is followed as written."
        ),
    ]
    length_change_percent: Annotated[
        float | None,
        Meta(
            description="How much longer (negative: shorter); null where a gauge lacks rows and none are needed."
        ),
    ]
    yours_per_10_cm: Annotated[
        GaugeCount, Meta(description="Your gauge in 10 cm, as used in the answer (held double if so).")
    ]
    stitch_counts: Annotated[
        tuple[StitchesInstead, ...],
        Meta(description="For each stitch count of the pattern, those to take instead."),
    ]
    row_counts: Annotated[
        tuple[RowsInstead, ...], Meta(description="For each row count of the pattern, those to work instead.")
    ]
    measurements: Annotated[
        tuple[MeasureInstead, ...], Meta(description="For each measurement, what comes out as written.")
    ]
    needle: Annotated[
        NeedleAdvice, Meta(description="Which way to change the needle to meet the pattern's gauge.")
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


class _StitchSizes(NamedTuple):
    """Width of a stitch and height of a row at the two gauges."""

    pattern_width_mm: float
    pattern_height_mm: float
    width_mm: float
    height_mm: float


def substitute(request: SubstituteRequest) -> SubstituteAnswer:
    """Compare a pattern's gauge with the knitter's own, and re-scale its counts.

    N stitches of the pattern measure N w (w: the width of a stitch). At your width v, N w / v stitches measure the
    same. Raises `Impossible` for a gauge that no hand knits, and for a measurement that no pattern states.
    """
    yours = _held(request)
    sizes = _StitchSizes(
        stitch_width_mm(request.pattern, "#/pattern"),
        row_height_mm(request.pattern, "#/pattern"),
        stitch_width_mm(yours, "#/yours"),
        row_height_mm(yours, "#/yours"),
    )
    along_rows = bool(request.row_counts) or any(measure.along == "rows" for measure in request.measurements)
    rows_known = request.pattern.rows is not None and yours.rows is not None
    return SubstituteAnswer(
        size_change_percent=_percent(sizes.width_mm / sizes.pattern_width_mm),
        length_change_percent=_percent(sizes.height_mm / sizes.pattern_height_mm)
        if rows_known or along_rows
        else None,
        yours_per_10_cm=GaugeCount(tidy(100.0 / sizes.width_mm), tidy(100.0 / sizes.height_mm)),
        stitch_counts=tuple(_stitches(request, sizes, count) for count in request.stitch_counts),
        row_counts=tuple(_rows(request, sizes, count) for count in request.row_counts),
        measurements=tuple(
            _measure(request, sizes, measure, index) for index, measure in enumerate(request.measurements)
        ),
        needle=advise(sizes.width_mm, sizes.pattern_width_mm, request.needle_mm, request.units),
        basis=_basis(request, rows_known),
        warnings=_warnings(request, sizes, along_rows),
    )


def _held(request: SubstituteRequest) -> Gauge:
    """The knitter's gauge, with two strands if they are held together."""
    if not request.held_double:
        return request.yours
    factor = reference.practices()["held-double"].low
    rows = request.yours.rows
    return replace(
        request.yours,
        stitches=request.yours.stitches * factor,
        rows=None if rows is None else rows * factor,
    )


def _percent(ratio: float) -> float:
    return tidy(100.0 * (ratio - 1.0)) if abs(ratio - 1.0) > 1e-9 else 0.0


class _Fit(NamedTuple):
    nearest: int
    below: int | None
    above: int


def _fit(exact: float, multiple: Multiple) -> _Fit:
    exact = tidy(exact, 9)  # without a rounding error, which would add a repeat to 66.0000000001
    repeats = (exact - multiple.plus) / multiple.of
    below = floor(repeats)
    return _Fit(
        nearest_count(exact, multiple),
        below * multiple.of + multiple.plus if below >= 1 else None,
        max(ceil(repeats), 1) * multiple.of + multiple.plus,
    )


def _stitches(request: SubstituteRequest, sizes: _StitchSizes, count: int) -> StitchesInstead:
    pattern_mm = count * sizes.pattern_width_mm
    exact = pattern_mm / sizes.width_mm
    fit = _fit(exact, request.multiple)

    def fitted(stitches: int) -> FittedStitches:
        width_mm = stitches * sizes.width_mm
        return FittedStitches(stitches, length(width_mm, request.units), _percent(width_mm / pattern_mm))

    return StitchesInstead(
        pattern=count,
        pattern_width=length(pattern_mm, request.units),
        as_written=length(count * sizes.width_mm, request.units),
        exact=tidy(exact),
        nearest=fitted(fit.nearest),
        below=None if fit.below is None else fitted(fit.below),
        above=fitted(fit.above),
    )


def _rows(request: SubstituteRequest, sizes: _StitchSizes, count: int) -> RowsInstead:
    pattern_mm = count * sizes.pattern_height_mm
    exact = pattern_mm / sizes.height_mm
    fit = _fit(exact, request.row_multiple)

    def fitted(rows: int) -> FittedRows:
        length_mm = rows * sizes.height_mm
        return FittedRows(rows, length(length_mm, request.units), _percent(length_mm / pattern_mm))

    return RowsInstead(
        pattern=count,
        pattern_length=length(pattern_mm, request.units),
        as_written=length(count * sizes.height_mm, request.units),
        exact=tidy(exact),
        nearest=fitted(fit.nearest),
        below=None if fit.below is None else fitted(fit.below),
        above=fitted(fit.above),
        add=fit.nearest - count,
    )


def _measure(
    request: SubstituteRequest, sizes: _StitchSizes, measure: PatternMeasure, index: int
) -> MeasureInstead:
    stated_mm = mm(measure.size)
    if not SHORTEST_MEASURE_MM <= stated_mm <= LONGEST_MEASURE_MM:
        bound_mm = SHORTEST_MEASURE_MM if stated_mm < SHORTEST_MEASURE_MM else LONGEST_MEASURE_MM
        raise Impossible(
            say("gauge.no_such_measure", size=quantity_text(measure.size)),
            code="out_of_range",
            pointer=f"#/measurements/{index}/size",
            nearest=quantity_text(length(bound_mm, "metric")),
        )
    along_rows = measure.along == "rows"
    ratio = (
        sizes.height_mm / sizes.pattern_height_mm if along_rows else sizes.width_mm / sizes.pattern_width_mm
    )
    return MeasureInstead(
        label=measure.label,
        pattern=length(stated_mm, request.units),
        as_written=length(stated_mm * ratio, request.units),
        difference=difference(stated_mm * (ratio - 1.0), request.units),
    )


# --- warnings and sources ------------------------------------------------------------------------------------------


def _warnings(request: SubstituteRequest, sizes: _StitchSizes, along_rows: bool) -> tuple[Notice, ...]:
    warnings: tuple[Notice, ...] = ()
    if along_rows:
        warnings += rows_assumed(request.pattern, "#/pattern") + rows_assumed(request.yours, "#/yours")
    if request.held_double:
        warnings += (
            Notice(
                code="held_double_estimated",
                message=say("gauge.held_double_estimated"),
                pointer="#/held_double",
            ),
        )
    if abs(more_stitches(sizes.width_mm, sizes.pattern_width_mm)) > OTHER_YARN_STITCHES:
        warnings += (
            Notice(
                code="other_yarn",
                message=say("gauge.other_yarn"),
                pointer="#/yours/stitches",
            ),
        )
    return warnings


def _basis(request: SubstituteRequest, rows_known: bool) -> tuple[Basis, ...]:
    scaled = Basis(
        say("gauge.scaled_basis"),
        "arithmetic from the two gauges",
    )
    basis = [scaled, NEEDLE_BASIS]
    if request.held_double:
        row = reference.practices()["held-double"]
        basis.append(Basis(say("gauge.held_double_basis"), reference.cite("practice", row)))
    return tuple(basis) if rows_known else (*basis, SHAPE_BASIS)
