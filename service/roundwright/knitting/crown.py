"""The crown: closing the top of a hat."""

from typing import TYPE_CHECKING, Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.closing import (
    CORD_BASIS,
    TAIL_BASIS,
    CrownFinish,
    Finish,
    close_for,
    cord_notices,
    finished,
)
from roundwright.knitting.holding import (
    USUAL_TOLERANCE,
    NeedleCount,
    Split,
    Tolerance,
    best_split,
    on_needles,
)
from roundwright.knitting.measures import Gauge, UnitSystem
from roundwright.knitting.rounds import MOST_ROUNDS, Repeat, Round, Steps, work_round
from roundwright.knitting.shaping import spread
from roundwright.knitting.styles import STYLES, CrownPlan, Style

FEWEST_STITCHES: Final = 8
"""Stitches before the crown: fewer are a cord already."""
MOST_CROWN_STITCHES: Final = 600
"""Stitches before the crown: a large head in the finest thread a hand works takes fewer."""
MOST_SECTIONS: Final = MOST_CROWN_STITCHES // 2
"""Sections of a crown: each needs two stitches to lose one."""
MOST_PLAIN_ROUNDS: Final = 20
"""Plain rounds between two decrease rounds: more make a tube, not a crown."""
MOST_CLOSE: Final = 60
"""Stitches to close at: more leave a hole that no tail draws shut."""
MARKED_SECTIONS: Final = 12
"""Sections that knitters mark; more are read off the knitting."""

if TYPE_CHECKING:
    StyleName = str
else:  # the names of the table, so that a style is added in one place
    StyleName = Literal[tuple(STYLES)]

Worked = Annotated[
    Literal["in_the_round", "flat"],
    Meta(
        description="`in_the_round`, or `flat`: in rows, with a seam stitch at each edge among the stitches."
    ),
]


class Cadence(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How decrease rounds and plain rounds take turns."""

    plain_rounds: Annotated[
        int, Meta(ge=0, le=MOST_PLAIN_ROUNDS, description="Plain rounds after a decrease round.")
    ] = 1
    every_round_from: Annotated[
        int | None,
        Meta(
            ge=1,
            le=MOST_CROWN_STITCHES,
            description="Number of the decrease round after which no plain rounds follow any more; null for never.",
        ),
    ] = None


class CrownShape(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A crown as asked for, without its stitches."""

    style: Annotated[
        StyleName,
        Meta(
            description="`wedge`: sections, each losing a stitch in a decrease round; `quick`: the same with repeats "
            "of four stitches."
        ),
    ] = "quick"
    sections: Annotated[
        int | None,
        Meta(
            ge=2,
            le=MOST_SECTIONS,
            description="Sections, each with one decrease in a decrease round. Left out: `wedge` takes of 6 to 9 the "
            "number that divides the stitches, 8 preferred; `quick` takes one for every 4 stitches.",
        ),
    ] = None
    cadence: Annotated[
        Cadence | None,
        Meta(description="How decrease and plain rounds take turns. Left out: as the style does."),
    ] = None
    close_at: Annotated[
        int | None,
        Meta(
            ge=1,
            le=MOST_CLOSE,
            description="The crown ends with so many stitches or fewer. Left out: as the style does.",
        ),
    ] = None
    decrease_at: Annotated[
        Literal["end", "start"],
        Meta(
            description="Where in its section a decrease is worked: `end` (k2, k2tog) or `start` (k2tog, k2)."
        ),
    ] = "end"
    worked: Worked = "in_the_round"
    finish: Annotated[Finish, Meta(description="What becomes of the last stitches. Default: drawn up.")] = (
        Finish()
    )


class CrownRequest(CrownShape, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A crown to be worked on some stitches."""

    stitches: Annotated[
        int, Meta(ge=FEWEST_STITCHES, le=MOST_CROWN_STITCHES, description="Stitches before the crown.")
    ]
    gauge: Annotated[
        Gauge | None, Meta(description="Gauge of the washed swatch; needed for the geometry.")
    ] = None
    needles: NeedleCount | None = None
    tolerance: Tolerance = USUAL_TOLERANCE
    units: Annotated[UnitSystem, Meta(description="Units of the answer.")] = "metric"


class CrownAnswer(Struct, frozen=True, kw_only=True):
    """A crown, round by round."""

    style: Annotated[str, Meta(description="Style of the crown.")]
    sections: Annotated[int | None, Meta(description="Sections it is worked in; null where it has none.")]
    worked: Worked
    stitches: Annotated[int, Meta(description="Stitches before the crown.")]
    split: Annotated[
        Split | None,
        Meta(
            description="Stitches on each needle before the first round; null when no needles were asked for."
        ),
    ]
    rounds: Annotated[tuple[Round, ...], Meta(description="The rounds (flat: rows), first to last.")]
    stitches_left: Annotated[int, Meta(description="Stitches left to finish.")]
    stitches_worked: Annotated[
        int, Meta(description="Stitches made in all the rounds together, for the yarn.")
    ]
    finish: Annotated[CrownFinish, Meta(description="What becomes of the stitches left.")]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")]
    rules: RulesVersion = RULES


FIRST_DECREASE: Final = {
    uses: (
        f"The first decrease takes the first {number} stitches: a marker set one stitch in must come off before it, "
        "and goes back one stitch in after it."
    )
    for uses, number in ((2, "two"), (3, "three"))
}
MARKERS_OFF: Final = "From here on a decrease takes stitches of two sections: take the section markers off."


class CrownRounds(NamedTuple):
    """The rounds of a crown, and what there is to say about them."""

    rounds: tuple[Round, ...]
    sections: int | None
    warnings: tuple[Notice, ...]


ADJUST_BASIS: Final = Basis(
    "Stitches that no section holds are decreased in one round first, spread as a balanced word.",
    "Morse and Hedlund, Am. J. Math. 62 (1940) 1-42; Demaine et al., Comput. Geom. 42 (2009) 429-454",
)
PLACE_BASIS: Final = Basis("An odd stitch at the end of a round of two together is knitted.", COMMON_PRACTICE)


def crown(request: CrownRequest) -> CrownAnswer:
    """The crown on the stitches of the request. Raises `Impossible` for what cannot be knitted."""
    return work_crown(
        request.stitches,
        request,
        request.gauge,
        needles=request.needles,
        tolerance=request.tolerance,
        units=request.units,
    )


def work_crown(
    stitches: int,
    shape: CrownShape,
    gauge: Gauge | None,
    *,
    needles: int | None = None,
    tolerance: int = USUAL_TOLERANCE,
    units: UnitSystem = "metric",
    at: str = "#",
) -> CrownAnswer:
    """The crown of this shape on `stitches`; errors about the shape point below `at`.

    Raises `Impossible` for what cannot be knitted.
    """
    rounds, sections, warnings = crown_rounds(stitches, shape, gauge, at=at)
    split = None
    if needles is not None:
        split = best_split(rounds, stitches, needles, tolerance)
        rounds = on_needles(rounds, split.split)
    left = rounds[-1].after if rounds else stitches
    adjusted = bool(rounds) and rounds[0].kind == "adjust"
    return CrownAnswer(
        style=shape.style,
        sections=sections,
        worked=shape.worked,
        stitches=stitches,
        split=split,
        rounds=rounds,
        stitches_left=left,
        stitches_worked=sum([each.after for each in rounds]),
        finish=finished(shape.finish, left, gauge, units),
        basis=(
            STYLES[shape.style].basis,
            PLACE_BASIS,
            *((ADJUST_BASIS,) if adjusted else ()),
            CORD_BASIS if shape.finish.kind == "cord" else TAIL_BASIS,
        ),
        warnings=warnings,
    )


def repeat_of(shape: CrownShape) -> int:
    """What the stitches should be a multiple of, so that the crown needs no adjusting round."""
    return shape.sections or STYLES[shape.style].repeat


def crown_rounds(stitches: int, shape: CrownShape, gauge: Gauge | None, *, at: str = "#") -> CrownRounds:
    """The rounds of a crown of this shape, and their warnings; errors about the shape point below `at`.

    Raises `Impossible` for stitches outside 8 to 600, for more sections than pairs of stitches, and for more rounds
    than anybody knits.
    """
    del gauge  # the styles so far do not depend on it
    _hold_stitches(stitches, at)
    style = STYLES[shape.style]
    plan = _plan(stitches, style, shape, at)
    over = stitches - plan.stitches
    return CrownRounds(
        rounds=_worked(stitches, spread(stitches, over, "k2tog") if over else None, style, plan, at),
        sections=plan.sections,
        warnings=(
            *_adjusted(stitches, plan, at),
            *_closed_already(stitches, plan, at),
            *cord_notices(shape.finish, f"{at}/finish"),
        ),
    )


def _hold_stitches(stitches: int, at: str) -> None:
    if FEWEST_STITCHES <= stitches <= MOST_CROWN_STITCHES:
        return
    few = stitches < FEWEST_STITCHES
    raise Impossible(
        f"A crown on {stitches} stitches cannot be worked: {'too few to decrease' if few else 'more than a hat has'}.",
        pointer=f"{at}/stitches" if at == "#" else "#/gauge/stitches",
        nearest=f"{FEWEST_STITCHES if few else MOST_CROWN_STITCHES} stitches",
    )


def _plan(stitches: int, style: Style, shape: CrownShape, at: str) -> CrownPlan:
    """What the style works from: whole sections, and everything that was not said filled in."""
    sections = shape.sections or style.sections(stitches)
    if 2 * sections > stitches:
        raise Impossible(
            f"{stitches} stitches cannot be parted into {sections} sections: each needs two stitches to lose one.",
            pointer=f"{at}/sections",
            nearest=f"{stitches // 2} sections",
        )
    usual_close = min(style.close_at, stitches // 2)
    plan = CrownPlan(
        stitches=stitches - stitches % sections,
        close_at=close_for(shape.finish.kind, shape.close_at, usual_close, f"{at}/close_at"),
        sections=sections,
        plain_rounds=1,
        every_round_from=None,
        place=shape.decrease_at,
    )
    if shape.cadence is None:
        return plan._replace(every_round_from=max(0, style.last_plain(plan)) + 1)
    return plan._replace(
        plain_rounds=shape.cadence.plain_rounds, every_round_from=shape.cadence.every_round_from
    )


def _worked(
    stitches: int, adjusting: Steps | None, style: Style, plan: CrownPlan, at: str
) -> tuple[Round, ...]:
    """The steps of the style as executed rounds, with their notes."""
    rounds: list[Round] = []
    count, marked = stitches, plan.sections <= MARKED_SECTIONS
    if adjusting and count > plan.close_at:
        rounds.append(work_round(1, count, adjusting, "adjust", _notes(adjusting)))
        count = rounds[0].after
    for steps in style.rounds(plan):
        if len(rounds) == MOST_ROUNDS:
            raise _too_many(style, plan, at)
        notes = _notes(steps)
        if marked and count <= plan.sections:
            notes, marked = (*notes, MARKERS_OFF), False
        rounds.append(work_round(len(rounds) + 1, count, steps, notes=notes))
        count = rounds[-1].after
    return tuple(rounds)


def _notes(steps: Steps) -> tuple[str, ...]:
    """What to mind about the marker at the start of the round: a decrease may take the stitches on both sides of it."""
    first = steps[0]
    while isinstance(first, Repeat):
        first = first.steps[0]
    uses = reference.stitches()[first.stitch].uses
    return (FIRST_DECREASE[uses],) if uses in FIRST_DECREASE else ()


def _too_many(style: Style, plan: CrownPlan, at: str) -> Impossible:
    decreasing = sum(1 for _ in style.rounds(plan._replace(plain_rounds=0)))
    return Impossible(
        f"This crown would take more than {MOST_ROUNDS} rounds: {decreasing} decrease rounds and the plain ones "
        "between them.",
        pointer=f"{at}/cadence/plain_rounds",
        nearest=f"{MOST_ROUNDS // decreasing - 1} plain rounds",
    )


def _adjusted(stitches: int, plan: CrownPlan, at: str) -> tuple[Notice, ...]:
    over = stitches - plan.stitches
    if not over or stitches <= plan.close_at:
        return ()
    return (
        Notice(
            code="adjusted",
            message=f"{stitches} stitches do not divide into {plan.sections} sections: an adjusting round first takes "
            f"{over} away, evenly spread, which leaves {plan.stitches}.",
            pointer=f"{at}/stitches" if at == "#" else None,
        ),
    )


def _closed_already(stitches: int, plan: CrownPlan, at: str) -> tuple[Notice, ...]:
    if stitches > plan.close_at:
        return ()
    return (
        Notice(
            code="closed_already",
            message=f"The {stitches} stitches are no more than the {plan.close_at} to close at: no round is worked.",
            pointer=f"{at}/close_at",
        ),
    )
