"""Shaping along a length: increases or decreases spread evenly over rows, for a sleeve, a gusset or a shawl's edge."""

from math import floor
from typing import Annotated, Final, Literal

from msgspec import UNSET, Meta, Struct

from roundwright.knitting.answers import (
    COMMON_PRACTICE,
    RULES,
    Basis,
    Impossible,
    Notice,
    RulesVersion,
    only_one,
)
from roundwright.knitting.quantities import (
    SHAPE_BASIS,
    Gauge,
    Length,
    UnitSystem,
    length,
    mm,
    quantity_text,
    row_height_mm,
    rows_assumed,
)
from roundwright.knitting.rounds.round import MOST_STITCHES
from roundwright.language import Language, Message, listed, say, say_count

MOST_ROWS: Final = 10_000
"""Rows in one piece: 15 m of the finest hand knitting."""
MOST_CHANGES: Final = 2_000
"""Shaping rows in one piece; each of them is listed."""
MOST_AT_ONCE: Final = 100
"""Stitches changed at one edge in one row: more are cast on or bound off."""


class AlongRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Changes to be spread over the rows of a piece."""

    rows: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_ROWS)] | None,
        Meta(description="Rows (rounds) to spread the changes over. Give this, or `length` and `gauge`."),
    ] = None
    length: Annotated[
        Length | None, Meta(description="Length to spread the changes over, in place of `rows`.")
    ] = None
    gauge: Annotated[
        Gauge | None,
        Meta(
            description="Gauge of the washed swatch: needed with `length`; with `rows`, the answer has lengths."
        ),
    ] = None
    times: Annotated[
        int, Meta(ge=1, le=MOST_CHANGES, description="Rows in which stitches are changed.", examples=[8])
    ]
    stitches_each: Annotated[
        int,
        Meta(
            ge=1,
            le=MOST_AT_ONCE,
            description="Stitches changed at each shaped edge of such a row. Default 1.",
        ),
    ] = 1
    sides: Annotated[
        Literal["both", "one"],
        Meta(
            description="Whether `both` edges of the piece are shaped in such a row, or `one`. Default both."
        ),
    ] = "both"
    every: Annotated[
        Literal["row", "right_side_row"],
        Meta(
            description="`row`: any row or round may be shaped; `right_side_row`: right-side rows of flat work only, "
            "so intervals are even."
        ),
    ] = "row"
    plain_after_last: Annotated[
        bool,
        Meta(description="Whether an interval is kept plain after the last change. Default: no."),
    ] = False
    stitches: Annotated[
        Annotated[int, Meta(ge=1, le=MOST_STITCHES)] | None,
        Meta(
            description="Stitches before the first change; with them the answer has the stitches after the last."
        ),
    ] = None
    direction: Annotated[
        Literal["increase", "decrease"], Meta(description="Whether stitches are added or taken away.")
    ] = "increase"
    units: Annotated[UnitSystem, Meta(description="Units of the lengths in the answer.")] = "metric"
    language: Language = None


class RowInterval(Struct, frozen=True):
    """Changes at one distance in rows: `every` 6 and `times` 20 reads: every 6th row, 20 times."""

    every: Annotated[
        int, Meta(description="Rows from one change to the next, the row of the change counted.")
    ]
    times: Annotated[int, Meta(description="Number of changes at this distance.")]


class AlongAnswer(Struct, frozen=True, kw_only=True):
    """Changes spread over the rows of a piece."""

    segments: Annotated[
        tuple[RowInterval, ...],
        Meta(description="Distances of the changes in working order, the shorter first: two at most."),
    ]
    text: Annotated[str, Meta(description="The same as a line of a pattern.")]
    rows: Annotated[int, Meta(description="Number of rows.")]
    rows_used: Annotated[int, Meta(description="Rows the segments take: the sum of `every` times `times`.")]
    rows_left: Annotated[int, Meta(description="Rows after the segments, which are worked plain.")]
    shaping_rows: Annotated[
        tuple[int, ...],
        Meta(
            description="Numbers of the rows in which stitches are changed, from 1: the last row of each interval, or "
            "(right-side rows only; row 1 is one) the right-side row before it."
        ),
    ]
    change: Annotated[int, Meta(description="Stitches added (negative: taken away) in all.")]
    stitches_after: Annotated[
        int | None, Meta(description="Stitches after the last change; null where `stitches` was left out.")
    ]
    length_used: Annotated[Length | None, Meta(description="Length of the rows used; null without a gauge.")]
    length_left: Annotated[
        Length | None,
        Meta(description="Length of the rows left; null without a gauge or where there are none."),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


def along(request: AlongRequest) -> AlongAnswer:
    """Spread changes evenly over the rows of a piece.

    n rows and k changes make n mod k intervals of (n div k) + 1 rows, the others of n div k; with right-side rows only,
    the same over pairs of rows. Raises `Impossible` where there are more changes than rows, or where more stitches are
    taken away than there are.
    """
    rows, row_mm = _rows(request)
    intervals = _intervals(request, rows)
    change = request.times * request.stitches_each * (2 if request.sides == "both" else 1)
    change = change if request.direction == "increase" else -change
    after = _after(request, change)
    used = sum(interval.every * interval.times for interval in intervals)
    shaping_rows = _shaping_rows(request, intervals)
    gauge = request.gauge
    return AlongAnswer(
        segments=intervals,
        text=_text(request, intervals, shaping_rows, rows),
        rows=rows,
        rows_used=used,
        rows_left=rows - used,
        shaping_rows=shaping_rows,
        change=change,
        stitches_after=after,
        length_used=length(used * row_mm, request.units) if gauge else None,
        length_left=length((rows - used) * row_mm, request.units) if gauge and rows > used else None,
        basis=_basis(request),
        warnings=rows_assumed(gauge) if gauge else (),
    )


def _rows(request: AlongRequest) -> tuple[int, float]:
    """The number of rows, and the height of one row (0 without a gauge)."""
    height_mm = row_height_mm(request.gauge) if request.gauge else 0.0
    only_one(
        request,
        "rows",
        "length",
        what=say("given.piece"),
        missing_at="#/rows",
        nearest=say("along.rows_or_length"),
    )
    if request.rows is not None:
        return request.rows, height_mm
    assert request.length is not None
    if not height_mm:
        raise Impossible(
            say("along.needs_gauge"),
            code="needs_another",
            pointer="#/gauge",
            nearest=say("along.gauge_or_rows"),
        )
    exact = mm(request.length) / height_mm
    count = floor(exact + 0.5)
    if not 1 <= count <= MOST_ROWS:
        nearest = length((MOST_ROWS if count else 1) * height_mm, request.units)
        raise Impossible(
            say("along.too_long" if count else "along.too_short", rows=exact),
            code="out_of_range",
            pointer="#/length",
            nearest=quantity_text(nearest, 4),
        )
    return count, height_mm


def _intervals(request: AlongRequest, rows: int) -> tuple[RowInterval, ...]:
    """The intervals that end with a change, the shorter first."""
    step = 2 if request.every == "right_side_row" else 1
    intervals = request.times + request.plain_after_last
    if intervals > rows // step:
        raise _too_close(request, rows)
    short, longs = divmod(rows // step, intervals)
    shorts = intervals - longs
    if request.plain_after_last:  # the last interval, a longer one if there are two kinds, has no change
        longs, shorts = (longs - 1, shorts) if longs else (0, shorts - 1)
    kinds = ((short * step, shorts), ((short + 1) * step, longs))
    return tuple(RowInterval(every, times) for every, times in kinds if times)


def _too_close(request: AlongRequest, rows: int) -> Impossible:
    most = rows // (2 if request.every == "right_side_row" else 1) - request.plain_after_last
    step = 2 if request.every == "right_side_row" else 1
    kept_plain = ".plain" if request.plain_after_last else ""
    if most < 1:
        fewest = (1 + request.plain_after_last) * step
        return Impossible(
            say_count(f"along.no_room.{request.every}{kept_plain}", rows),
            code="no_room",
            pointer="#/rows" if request.rows is not None else "#/length",
            nearest=say("along.rows", rows=fewest),
            suggested=fewest if request.rows is not None else UNSET,
        )
    at_once = -(-request.times * request.stitches_each // most)
    return Impossible(
        say(f"along.too_close.{request.every}{kept_plain}", changes=request.times, rows=rows, most=most),
        code="no_room",
        pointer="#/times",
        nearest=say("along.changes_or_at_once", changes=most, stitches=at_once)
        if at_once <= MOST_AT_ONCE
        else say("along.changes", changes=most),
        suggested=most,
    )


def _after(request: AlongRequest, change: int) -> int | None:
    if request.stitches is None:
        return None
    after = request.stitches + change
    if after < 1:
        most = (request.stitches - 1) * request.times // -change
        raise Impossible(
            say("along.too_few_stitches", change=-change, stitches=request.stitches),
            code="no_room",
            pointer="#/stitches",
            nearest=say("along.stitches_or_changes", stitches=1 - change, changes=most)
            if most
            else say("split.stitches", counts=1 - change),
            suggested=1 - change,
        )
    return after


def _shaping_rows(request: AlongRequest, segments: tuple[RowInterval, ...]) -> tuple[int, ...]:
    """Numbers of the shaping rows.

    Row 1 is a right-side row, so the right-side row of an even interval is its last but one.
    """
    row = -1 if request.every == "right_side_row" else 0
    numbers: list[int] = []
    for segment in segments:
        numbers += range(row + segment.every, row + segment.every * segment.times + 1, segment.every)
        row += segment.every * segment.times
    return tuple(numbers)


def _text(
    request: AlongRequest, segments: tuple[RowInterval, ...], numbers: tuple[int, ...], rows: int
) -> Message:
    line = say(
        f"along.{request.direction}.{request.sides}",
        stitches=say_count("along.stitches", request.stitches_each),
        intervals=listed(
            tuple(
                say_count("along.times", segment.times, every=_every(segment.every)) for segment in segments
            )
        ),
    )
    if request.every == "right_side_row":
        line = say("along.beginning", line=line, row=numbers[0])
    if left := rows - numbers[-1]:
        line = say_count("along.then_even", left, line=line)
    return say("along.end", line=line)


def _every(rows: int) -> Message:
    if rows == 1:
        return say("along.every_row")
    ending = "th" if rows % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(rows % 10, "th")
    return say(f"along.every.{ending}", rows=rows)


def _basis(request: AlongRequest) -> tuple[Basis, ...]:
    basis = [
        Basis(
            say("along.basis"),
            COMMON_PRACTICE,
        )
    ]
    if request.every == "right_side_row":
        basis.append(Basis(say("along.right_side_basis"), COMMON_PRACTICE))
    if request.gauge is not None and request.gauge.rows is None:
        basis.append(SHAPE_BASIS)
    return tuple(basis)
