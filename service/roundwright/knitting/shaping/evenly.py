"""Increases or decreases spread evenly over one round or row, or over several."""

from collections.abc import Iterator
from itertools import cycle, islice
from typing import Annotated

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Impossible, Notice, RulesVersion
from roundwright.knitting.picture_address import PicturePath
from roundwright.knitting.rounds.balanced_words import is_nested, mirrored, stops_early
from roundwright.knitting.rounds.round import Repeat, Round, Step, Steps, Work
from roundwright.knitting.rounds.spread import HALF_GAP, WHOLE_GAP, plain_beside, spread
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.shaping.picture import spacing_picture
from roundwright.knitting.shaping.request import EvenRequest, Method, ShapingPlan, middle, shaping_plan
from roundwright.language import say


class EvenSection(Struct, frozen=True):
    """Sections of one width: `every` 4 and `times` 3 reads every 4th stitch, three times."""

    every: Annotated[
        int,
        Meta(
            description="Stitches of the round below from one change to the next, those the change uses counted: "
            "`every` 3 with k2tog is k1, k2tog."
        ),
    ]
    times: Annotated[int, Meta(description="How many sections are so wide.")]


class EvenGrouped(Struct, frozen=True, kw_only=True):
    """The same change with the wider sections first and then the narrower ones."""

    round: Annotated[Round, Meta(description="The round (flat: row) of shaping; with several, the first.")]
    rounds: Annotated[tuple[Round, ...], Meta(description="All rounds, the plain ones between included.")]
    drawing: Annotated[
        PicturePath | None,
        Meta(description="Path of the picture of the round; null where there is too much to draw."),
    ]


class EvenAnswer(Struct, frozen=True, kw_only=True):
    """A change of the stitch count, spread evenly."""

    round: Annotated[Round, Meta(description="The round (flat: row) of shaping; with several, the first.")]
    rounds: Annotated[
        tuple[Round, ...],
        Meta(description="All rounds, the plain ones between included; each works what the one before left."),
    ]
    method: Annotated[Method | None, Meta(description="How each change is worked; null where there is none.")]
    change: Annotated[
        int, Meta(description="Stitches added (negative: taken away) in each round of shaping.")
    ]
    times: Annotated[int, Meta(description="Changes in each round of shaping.")]
    stitches_after: Annotated[int, Meta(description="Stitches after the last round.")]
    smallest_gap: Annotated[
        int | None,
        Meta(
            description="Fewest plain stitches between two changes of the first round; the two ends of a row together "
            "count as one gap, edge stitches left aside. Null where there is no change."
        ),
    ]
    largest_gap: Annotated[int | None, Meta(description="Most plain stitches between two changes, likewise.")]
    sections: Annotated[
        tuple[EvenSection, ...],
        Meta(description="The widths of the sections of the first round, the wider first: two at most."),
    ]
    drawing: Annotated[
        PicturePath | None,
        Meta(description="Path of the picture of the round; null where there is too much to draw."),
    ]
    grouped: Annotated[
        EvenGrouped | None,
        Meta(
            description="Where the most even round needs brackets in brackets: the same change grouped, which is "
            "easier to knit. Null elsewhere, and where `grouped` was requested."
        ),
    ]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")] = ()
    rules: RulesVersion = RULES


def even(request: EvenRequest) -> EvenAnswer:
    """Spread a change of the stitch count over a round or row, or the same change over several.

    Raises `Impossible` where the change cannot be made, with the largest that can, and two rounds that make it together
    where one cannot.
    """
    plan, warnings = shaping_plan(request)
    rounds = _rounds(request, plan)
    uses = reference.stitches()[plan.method].uses
    width, wide = divmod(middle(request), plan.times) if plan.times else (0, 0)
    widths = ((width + 1, wide), (width, plan.times - wide))
    sections = tuple(EvenSection(every, times) for every, times in widths if times)
    if not plan.times:
        warnings += (Notice(code="nothing_to_change", message=say("even.nothing_to_change")),)
    elif width == uses and plan.times > 1:
        warnings += (_crowded(plan.method),)
    return EvenAnswer(
        round=rounds[0],
        rounds=rounds,
        method=plan.method if plan.times else None,
        change=plan.change,
        times=plan.times,
        stitches_after=rounds[-1].after,
        smallest_gap=sections[-1].every - uses if sections else None,
        largest_gap=sections[0].every - uses if sections else None,
        sections=sections,
        drawing=spacing_picture(request, plan),
        grouped=_grouped(request, plan, rounds),
        basis=_basis(request),
        warnings=warnings,
    )


def _grouped(request: EvenRequest, plan: ShapingPlan, rounds: tuple[Round, ...]) -> EvenGrouped | None:
    """The change grouped, where any of the most even rounds has a repeat within a repeat."""
    if request.arrangement == "grouped" or not any(is_nested(round.steps) for round in rounds):
        return None
    easier = replace(request, arrangement="grouped")
    grouped = _rounds(easier, plan)
    return EvenGrouped(round=grouped[0], rounds=grouped, drawing=spacing_picture(easier, plan))


def _rounds(request: EvenRequest, plan: ShapingPlan) -> tuple[Round, ...]:
    flat = request.worked == "flat"
    plain = plain_beside(plan.method)
    if not plan.times:
        return (work_round(1, request.stitches, (Work(plain, request.stitches),), flat=flat),)
    rounds: list[Round] = []
    count = request.stitches
    for lead in _leads(request, plan):
        for _ in range(request.plain_between if rounds else 0):
            steps: Steps = (Work(plain, count),)
            back = flat and len(rounds) % 2 == 1
            rounds.append(
                work_round(len(rounds) + 1, count, _other_side(steps) if back else steps, flat=flat)
            )
        back = flat and len(rounds) % 2 == 1
        steps = _shaped(request, plan, count, lead, back=back)
        rounds.append(work_round(len(rounds) + 1, count, steps, flat=flat))
        count = rounds[-1].after
    return tuple(rounds)


def _leads(request: EvenRequest, plan: ShapingPlan) -> Iterator[int]:
    """Quarters of a gap before the first change of each round of shaping.

    Stacked changes have the same part of a gap before them in every round. Staggered changes move by half a gap: in the
    round from a whole gap to half a gap, in rows from a quarter at the start to a quarter at the end.
    """
    flat, several = request.worked == "flat", request.rounds_of_shaping > 1
    if several and request.placement == "staggered":
        leads = [1, 3] if flat else [WHOLE_GAP, HALF_GAP]
    else:
        # A centred decrease is centred on the one below only if stitches are left on both sides of it.
        upright = reference.stitches()[plan.method].leans == "upright"
        leads = [HALF_GAP] if flat or (upright and several) else [WHOLE_GAP]
    return islice(cycle(leads), request.rounds_of_shaping)


def _shaped(request: EvenRequest, plan: ShapingPlan, count: int, lead: int, *, back: bool) -> Steps:
    """A round of shaping; `back` is a row worked on the other side, and so from the other end."""

    def steps(lead: int) -> Steps:
        return spread(
            count,
            plan.times,
            plan.method,
            arrangement=request.arrangement,
            lead=lead,
            edge=request.edge_stitches,
            symmetric=request.worked == "flat",
        )

    if not back:
        return steps(lead)
    row = steps(lead)
    # A repeat that stops early cannot be read backwards; a balanced row is balanced from the other end too.
    return _other_side(steps(WHOLE_GAP - lead) if stops_early(row) else mirrored(row))


def _other_side(steps: Steps) -> Steps:
    """The stitches that look the same from the other side. Raises `Impossible` for a stitch that has none."""
    other_side: list[Step] = []
    for step in steps:
        if isinstance(step, Repeat):
            other_side.append(Repeat(step.times, _other_side(step.steps), step.again))
            continue
        other = reference.stitches()[step.stitch].wrong_side
        if other is None:
            raise Impossible(
                say("even.no_counterpart", stitch=step.stitch),
                code="cannot_be_worked",
                pointer="#/plain_between",
                nearest=say("even.odd_plain_rows"),
            )
        other_side.append(Work(other, step.times))
    return tuple(other_side)


# --- warnings and sources ------------------------------------------------------------------------------------------


def _crowded(method: Method) -> Notice:
    return Notice(
        code="side_by_side",
        message=say("even.side_by_side", stitch=method),
        pointer="#/change",
    )


def _basis(request: EvenRequest) -> tuple[Basis, ...]:
    rule = Basis(
        say("even.basis"),
        COMMON_PRACTICE,
    )
    order = (
        Basis(
            say("even.balanced_basis"),
            "Morse and Hedlund, Am. J. Math. 62 (1940) 1-42; Demaine et al., Comput. Geom. 42 (2009) 429-454",
        )
        if request.arrangement == "balanced"
        else Basis(say("even.grouped_basis"), COMMON_PRACTICE)
    )
    stitches = Basis(say("even.stitch_basis"), "Craft Yarn Council, Knit Abbreviations")
    return (rule, order, stitches)
