"""The crown: closing the top of a hat.

    request -> plan -> steps of its style -> executed rounds (or rows) -> finish, geometry, needles

`styles` gives the steps of each style; this module executes them and adds numbers, notes, geometry and needles.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import islice
from math import floor
from typing import Annotated, Final, NamedTuple, get_args

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.crown.finish import (
    CORD_BASIS,
    CrownFinish,
    cord_notices,
    finished,
    tail_basis,
)
from roundwright.knitting.crown.geometry import GEOMETRY_BASIS, CrownGeometry, geometry, surface
from roundwright.knitting.crown.picture import crown_picture
from roundwright.knitting.crown.request import (
    RULE_OF_THUMB,
    USUAL_STYLE,
    CrownInputs,
    CrownRequest,
    CrownShape,
    Worked,
    crown_inputs,
    crown_plan,
    has_whole_sections,
    style_of,
    style_text,
)
from roundwright.knitting.crown.styles import (
    FEWEST_SECTIONS,
    USUAL_SECTIONS,
    CrownPlan,
    StyleOption,
    decrease_evenly,
    dividing,
    highest_cone,
)
from roundwright.knitting.needles.best_split import USUAL_TOLERANCE, NeedleSplit
from roundwright.knitting.needles.boundaries import boundary_paths
from roundwright.knitting.needles.tracking import track_needles_along
from roundwright.knitting.needles.whole_repeats import split_in_repeats
from roundwright.knitting.picture_address import MOST_DRAWN_ROUNDS, PicturePath
from roundwright.knitting.quantities import (
    RELAXED_SHAPE,
    SHAPE_BASIS,
    Gauge,
    UnitSystem,
    length,
    quantity_text,
    row_height_mm,
    rows_assumed,
    stitch_width_mm,
)
from roundwright.knitting.rounds.round import MOST_ROUNDS, Repeat, Round, RoundKind, Steps, execute, plain
from roundwright.knitting.rounds.rows import SEAM_BASIS, row
from roundwright.knitting.rounds.work_round import work_round
from roundwright.language import joined, say

MOST_FULLNESS_PERCENT: Final = 25.0
"""A crown whose edge is fuller than this for its circle ruffles instead of lying round (common practice); 8 wedges on
88 stitches of medium yarn are about 14 % fuller, and block smooth."""


class CrownAnswer(Struct, frozen=True, kw_only=True):
    """A crown, round by round."""

    style: Annotated[str, Meta(description="Style of the crown.")]
    sections: Annotated[
        int | None,
        Meta(description="Sections, or decreases worked together in a round; null where there are none."),
    ]
    worked: Worked
    stitches: Annotated[int, Meta(description="Stitches before the crown.")]
    split: Annotated[
        NeedleSplit | None,
        Meta(
            description="Stitches on each needle before the first round; null without needles in the request."
        ),
    ]
    rounds: Annotated[tuple[Round, ...], Meta(description="The rounds (flat: rows), first to last.")]
    stitches_left: Annotated[int, Meta(description="Stitches left to finish.")]
    stitches_worked: Annotated[
        int, Meta(description="Stitches made in all the rounds together, for the yarn.")
    ]
    finish: Annotated[CrownFinish, Meta(description="What becomes of the stitches left.")]
    geometry: Annotated[
        CrownGeometry | None,
        Meta(
            description="The crown as a surface of revolution; null without a gauge, and where no round is worked."
        ),
    ]
    drawing: Annotated[
        PicturePath | None,
        Meta(description="Path of its chart, as SVG; null where there are more rounds than a chart shows."),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")]
    rules: RulesVersion = RULES

    @property
    def is_adjusted(self) -> bool:
        """Whether the first round leads to the count that the others are worked on."""
        return bool(self.rounds) and self.rounds[0].kind == "adjust"

    @property
    def shaped_stitches(self) -> int:
        """The stitches that the shape is worked on: those after the round that leads to it, where there is one."""
        return self.rounds[0].after if self.is_adjusted else self.stitches


class CrownRounds(NamedTuple):
    """The rounds of a crown, their number of sections and the warnings."""

    rounds: tuple[Round, ...]
    sections: int | None
    warnings: tuple[Notice, ...]


class CrownCounts(NamedTuple):
    """What is left of a crown's stitches after each round, and its sections; without the rounds themselves."""

    counts: tuple[int, ...]  # without seam stitches
    sections: int | None
    adjusted: bool  # whether the first round takes stitches away so that the rest divide


ADJUST_BASIS: Final = Basis(
    say("crown.adjust_basis"),
    "Morse and Hedlund, Am. J. Math. 62 (1940) 1-42; Demaine et al., Comput. Geom. 42 (2009) 429-454",
)
ODD_BASIS: Final = Basis(say("crown.odd_basis"), COMMON_PRACTICE)
FIRST_DECREASE: Final = {uses: say(f"crown.first_decrease.{uses}") for uses in (2, 3)}
RIGHT_SIDE_FIRST: Final = say("crown.right_side_first")


def crown(request: CrownRequest, *, pointer: str = "#") -> CrownAnswer:
    """The crown on the stitches of the request. Raises `Impossible`, pointing below `pointer`."""
    return work_crown(
        request.stitches,
        request,
        request.gauge,
        needles=request.needles,
        tolerance=request.tolerance,
        repeat=request.repeat,
        units=request.units,
        pointer=pointer,
        gauge_pointer=f"{pointer}/gauge",
    )


def work_crown(
    stitches: int,
    shape: CrownShape,
    gauge: Gauge | None,
    *,
    needles: int | None = None,
    tolerance: int = USUAL_TOLERANCE,
    repeat: int = 1,
    hold: str = "double_pointed",
    units: UnitSystem = "metric",
    pointer: str = "#/crown",
    gauge_pointer: str | None = None,
) -> CrownAnswer:
    """The crown of this shape on `stitches`, which came out of a rib with this `repeat`.

    Raises `Impossible` for what cannot be knitted; it points below `pointer` where the shape is at fault. Without
    `gauge_pointer` the gauge is taken to stand beside the shape.
    """
    return _work_crown(
        crown_inputs(stitches, shape, gauge, pointer, gauge_pointer), needles, tolerance, repeat, hold, units
    )


@lru_cache(maxsize=64)  # one crown is part of many answers: hat, yarn, pictures
def _work_crown(  # noqa: PLR0917 - keys of the cache
    inputs: CrownInputs, needles: int | None, tolerance: int, repeat: int, hold: str, units: UnitSystem
) -> CrownAnswer:
    stitches, shape, gauge, pointer, _ = inputs
    rounds, sections, warnings = _crown_rounds(inputs)
    split = None
    if needles is not None:
        if shape.worked == "flat":
            raise Impossible(
                say("crown.flat_on_needles"),
                code="cannot_be_worked",
                pointer=f"{pointer}/worked",
                nearest="in_the_round",
                suggested="in_the_round",
            )
        paths = boundary_paths(rounds, stitches)
        split = split_in_repeats(paths, needles, tolerance, repeat)
        rounds = track_needles_along(paths, split.split, hold)
    left = rounds[-1].after if rounds else stitches
    finish = finished(shape.finish, left, gauge, units, seam=shape.worked == "flat")
    measured = _geometry(inputs, rounds, units)
    return CrownAnswer(
        style=shape.style or USUAL_STYLE,
        sections=sections,
        worked=shape.worked,
        stitches=stitches,
        split=split,
        rounds=rounds,
        stitches_left=left,
        stitches_worked=sum([round.after for round in rounds]),
        finish=finish,
        geometry=measured,
        drawing=crown_picture(
            stitches, shape, gauge, needles=needles, tolerance=tolerance, repeat=repeat, units=units
        )
        if len(rounds) <= MOST_DRAWN_ROUNDS
        else None,
        basis=_basis(inputs, rounds, units),
        warnings=(
            *warnings,
            *cord_notices(finish, f"{pointer}/finish"),
            *_lie_notices(inputs, sections, measured),
        ),
    )


def crown_rounds(
    stitches: int,
    shape: CrownShape,
    gauge: Gauge | None,
    *,
    pointer: str = "#/crown",
    gauge_pointer: str | None = None,
) -> CrownRounds:
    """The rounds of a crown of this shape, and their warnings; raises the same errors as `work_crown`."""
    return _crown_rounds(crown_inputs(stitches, shape, gauge, pointer, gauge_pointer))


def crown_counts(stitches: int, shape: CrownShape, gauge: Gauge, *, pointer: str = "#/crown") -> CrownCounts:
    """The counts of a crown of this shape; raises the same errors as `work_crown`."""
    inputs = crown_inputs(stitches, shape, gauge, pointer, None)
    plan = crown_plan(inputs)
    counts = [execute(steps)[1] for steps in islice(_steps(inputs, plan), MOST_ROUNDS + 1)]
    if len(counts) > MOST_ROUNDS:
        raise _too_many(inputs, plan)
    adjusted = bool(counts) and plan.stitches < inputs.stitches_without_seam
    return CrownCounts(tuple(counts), plan.sections or None, adjusted)


def crown_multiple(shape: CrownShape) -> int:
    """With stitches that are a multiple of this, the crown needs no adjusting round."""
    style = style_of(shape)
    if shape.sections and "sections" in style.options:
        return shape.sections
    return USUAL_SECTIONS if has_whole_sections(shape) and not style.whole_sections else style.multiple


# --- the rounds ---------------------------------------------------------------------------------------------


def _crown_rounds(inputs: CrownInputs) -> CrownRounds:
    if inputs.gauge is None and inputs.is_given("height") and "height" in inputs.style.options:
        raise Impossible(
            say("crown.height_needs_gauge"),
            code="needs_another",
            pointer=inputs.gauge_pointer,
            nearest=say("crown.gauge_or_no_height"),
            suggested=None,
            suggested_at=f"{inputs.pointer}/height",
        )
    plan = crown_plan(inputs)
    return CrownRounds(
        rounds=_rounds(inputs, plan), sections=plan.sections or None, warnings=tuple(_warnings(inputs, plan))
    )


def _rounds(inputs: CrownInputs, plan: CrownPlan) -> tuple[Round, ...]:
    """The steps of the style as executed rounds (flat: rows), with their notes."""
    rounds: list[Round] = []
    count, flat = inputs.stitches, plan.flat
    noted: set[str] = set()
    for steps in _steps(inputs, plan):
        number = len(rounds) + 1
        if number > MOST_ROUNDS:
            raise _too_many(inputs, plan)
        notes = _notes(steps) if not flat else (RIGHT_SIDE_FIRST,) if number == 1 else ()
        notes = tuple(note for note in notes if note not in noted)
        noted.update(notes)
        kind: RoundKind | None = (
            "adjust" if number == 1 and inputs.stitches_without_seam - plan.stitches else None
        )
        worked = row(steps, wrong_side=number % 2 == 0) if flat else steps
        rounds.append(work_round(number, count, worked, kind, notes, flat=flat))
        count = rounds[-1].after
    return tuple(rounds)


def _steps(inputs: CrownInputs, plan: CrownPlan) -> Iterator[Steps]:
    stitches = inputs.stitches_without_seam
    if stitches <= plan.close_at:
        return
    surplus = stitches - plan.stitches
    if surplus:
        yield decrease_evenly(stitches, surplus, plan.place)
    if plan.stitches <= plan.close_at:
        return
    if surplus and plan.flat:
        yield plain(plan.stitches)  # a style begins on a right-side row
    yield from inputs.style.rounds(plan)


def _notes(steps: Steps) -> tuple[str, ...]:
    """The note on the marker at the start of the round, where a decrease takes the stitches on both sides of it."""
    first = steps[0]
    while isinstance(first, Repeat):
        first = first.steps[0]
    if first.stitch == "k":
        return ()
    return (FIRST_DECREASE[reference.stitches()[first.stitch].uses],)


def _too_many(inputs: CrownInputs, plan: CrownPlan) -> Impossible:
    detail = say("crown.too_many_rounds", most=MOST_ROUNDS)
    if plan.plain_rounds is not None:
        decreasing = sum(1 for _ in _steps(inputs, plan._replace(plain_rounds=0)))
        nearest = say("crown.plain_rounds", rounds=(MOST_ROUNDS - 1) // decreasing - 1)
        return Impossible(detail, code="no_room", pointer=f"{inputs.pointer}/cadence", nearest=nearest)
    if plan.height_stitch_widths is not None and inputs.gauge:
        highest_mm = floor(highest_cone(plan, MOST_ROUNDS) * stitch_width_mm(inputs.gauge))
        if highest_mm:
            return Impossible(
                detail,
                code="no_room",
                pointer=f"{inputs.pointer}/height",
                nearest=say("crown.height", height=quantity_text(length(highest_mm, "metric"))),
                suggested={"value": highest_mm / 10, "unit": "cm"},
            )
    return Impossible(
        joined(" ", detail, say("crown.rows_to_the_stitch", rows=plan.rows_per_stitch)),
        code="no_room",
        pointer=f"{inputs.gauge_pointer}/rows",
        nearest=say("crown.wedge_instead"),
    )


# --- warnings and sources ----------------------------------------------------------------------------------


def _warnings(inputs: CrownInputs, plan: CrownPlan) -> Iterator[Notice]:
    shape, pointer = inputs.shape, inputs.pointer
    for option in get_args(StyleOption):
        if option not in inputs.style.options and inputs.is_given(option):
            yield Notice(
                code="option_unused",
                message=say("crown.option_unused", style=style_text(shape), option=option),
                pointer=f"{pointer}/{option}",
            )
    surplus = inputs.stitches_without_seam - plan.stitches
    if inputs.stitches_without_seam <= plan.close_at:
        yield Notice(
            code="closed_already",
            message=say("crown.closed_already", stitches=inputs.stitches),
            pointer=f"{pointer}/close_at",
        )
    elif surplus:
        yield Notice(
            code="adjusted",
            message=say(
                "crown.adjusted",
                stitches=plan.stitches + surplus,
                sections=plan.sections,
                surplus=surplus,
                leaves=plan.stitches,
            ),
            pointer=f"{pointer}/sections",
        )
    if inputs.gauge:
        yield from rows_assumed(inputs.gauge, inputs.gauge_pointer)
    elif plan.plain_rounds is None:
        yield Notice(
            code="gauge_assumed",
            message=say("crown.gauge_assumed", style=style_text(shape), rows=RELAXED_SHAPE),
            pointer=inputs.gauge_pointer,
        )


def _lie_notices(
    inputs: CrownInputs, sections: int | None, measured: CrownGeometry | None
) -> Iterator[Notice]:
    """The warning that wedges gather much, or that a flat top is not flat, with what would mend it.

    Not of wedges whose decrease and plain rounds the request gives: they are as full as that makes them.
    """
    shape, pointer = inputs.shape, inputs.pointer
    if measured is None or sections is None:
        return
    gathers = measured.fullness_percent > MOST_FULLNESS_PERCENT and shape.cadence is None
    if gathers and inputs.style.sections is dividing:
        better = "sections" if sections > FEWEST_SECTIONS else "style"
        yield Notice(
            code="crown_gathers",
            message=say(f"crown.gathers.{better}", fullness=measured.fullness_percent, sections=sections),
            pointer=f"{pointer}/sections",
        )
    if shape.style == "flat" and shape.cadence is not None and measured.lies != "flat":
        message = say(f"crown.not_flat.{measured.lies}", sections=sections)
        # A hat without a `cadence` has the rule of thumb, so that the warning is of the crown.
        if shape.cadence == RULE_OF_THUMB and sections == USUAL_SECTIONS:
            message = joined(" ", say("crown.by_rule_of_thumb", sections=sections), message)
            yield Notice(code="not_flat", message=message, pointer=pointer)
        else:
            yield Notice(code="not_flat", message=message, pointer=f"{pointer}/cadence")


def _basis(inputs: CrownInputs, rounds: tuple[Round, ...], units: UnitSystem) -> tuple[Basis, ...]:
    parts = (
        (True, inputs.style.basis),
        (bool(rounds) and rounds[0].kind == "adjust", ADJUST_BASIS),
        (any(round.before % 2 and round.after == round.before // 2 + 1 for round in rounds), ODD_BASIS),
        (inputs.seam_stitches, SEAM_BASIS),
        (True, CORD_BASIS if inputs.shape.finish.kind == "cord" else tail_basis(units)),
        (inputs.gauge, GEOMETRY_BASIS),
        (not (inputs.gauge and inputs.gauge.rows), SHAPE_BASIS),
    )
    return tuple(basis for applies, basis in parts if applies)


def _geometry(inputs: CrownInputs, rounds: tuple[Round, ...], units: UnitSystem) -> CrownGeometry | None:
    if not (inputs.gauge and rounds):
        return None
    measured = surface(
        inputs.stitches_without_seam,
        [round.after - inputs.seam_stitches for round in rounds],
        stitch_width_mm(inputs.gauge, inputs.gauge_pointer),
        row_height_mm(inputs.gauge, inputs.gauge_pointer),
        inputs.style.flat_slope,
    )
    return geometry(measured, inputs.style.flat_slope, units)
