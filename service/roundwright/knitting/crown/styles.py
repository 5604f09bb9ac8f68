"""The styles of crown: what is worked in each round until few enough stitches are left to close.

A style is one function from a `CrownPlan` to the steps of its rounds, and one row of `STYLES`. The function gives only
the steps; `crown` executes them, numbers the rounds, adds notes, and makes rows of them for flat work.
"""

from collections.abc import Callable, Iterator
from functools import lru_cache
from math import asin, ceil, floor, hypot, log2, pi, sin, sqrt
from typing import Final, Literal, NamedTuple

from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.crown.geometry import DISC_SLOPE
from roundwright.knitting.rounds.round import Repeat, Steps, Work, execute, knit, plain
from roundwright.knitting.rounds.spread import HALF_GAP, WHOLE_GAP, spread
from roundwright.language import say

FEWEST_SECTIONS: Final = 6
USUAL_SECTIONS: Final = 8
MOST_USUAL_SECTIONS: Final = 9
"""6-9 decreases a shaping round, 8 most common (published)."""
NARROWEST_SECTION: Final = 4
"""Stitches of a section at its start, where a hat chooses its sections: in narrower ones decreases crowd together."""
STITCHES_BETWEEN_LAST_DECREASES: Final = 3
"""Every round decreases once about 3 stitches remain between the decreases (published)."""
MIN_DECREASES: Final = 4
STITCHES_PER_DECREASE: Final = 11
"""A dome or cone decreases 4 to 8 stitches in a round, at most one for each 11 stitches at its start: the count stays
within 1/22 of those stitches of the curve, and no single decrease shows as a bump."""
CORNERS: Final = 4
USUAL_CONE_HEIGHT_PER_WIDTH: Final = 0.75
"""Default height of a cone as a share of its width: pointed, but not a stocking cap."""
SQUARE_SLOPE: Final = 8.0
"""Circumference of a square for each unit from its centre to the middle of a side; of a disc it is `DISC_SLOPE`."""

FEWEST_HALVED: Final = 6
"""Stitches that are halved once more before they are drawn up: three are left at least."""
Place = Literal["start", "end", "centre"]
LEADS: Final[dict[Place, int]] = {"end": WHOLE_GAP, "centre": HALF_GAP, "start": 0}
StyleOption = Literal["sections", "cadence", "decrease_at", "height", "follows_stitches"]


class CrownPlan(NamedTuple):
    """What a style works from: all options filled in, without seam stitches and stitches that fit no section."""

    stitches: int
    close_at: int
    sections: int  # 0 for none
    plain_rounds: int | None  # after a decrease round; None where they come from the gauge
    every_round_from: int | None  # the first decrease round without plain rounds after it; None for never
    place: Place  # of a decrease in its section
    rows_per_stitch: float  # rows that are together as high as one stitch is wide
    height_stitch_widths: float | None  # requested height of a cone
    flat: bool  # worked in rows, the first on the right side
    in_sections: bool = False  # whether the stitches are whole sections, each decreasing at the same time
    follows_stitches: int | None = None  # of the crown that a dome or swirl follows; None for its own


class Style(NamedTuple):
    """A row of the table of styles."""

    about: str
    """What it is, for the description of the request."""
    rounds: Callable[[CrownPlan], Iterator[Steps]]
    """The steps of each round, until `close_at` or fewer stitches are left."""
    basis: Basis
    options: tuple[StyleOption, ...] = ()
    """The options of a request that change it."""
    close_at: int = 6
    """Usual number of stitches to close at."""
    sections: Callable[[int], int] = lambda _: 0
    """Usual number of sections for a number of stitches; 0 for none."""
    whole_sections: bool = True
    """Whether it always has whole sections; else only where the request gives them."""
    last_round_with_plain: Callable[[CrownPlan], int] | None = None
    """Number of the last decrease round with a plain round after it; None where the gauge decides."""
    multiple: int = 1
    """With stitches that are a multiple of this, no adjusting round is needed."""
    counts_as: str | None = None
    """A style with the same counts, which is suggested in its place."""
    flat_slope: float = DISC_SLOPE
    """Circumference of its flat form for each unit of its radius."""


# --- rounds of decreases ------------------------------------------------------------------------------------


@lru_cache(maxsize=4096)  # crowns of all sizes share these rounds
def decrease_evenly(count: int, decreases: int, place: Place) -> Steps:
    """A round of k2tog, evenly spread: `[k9, k2tog] 8 times`. Sections differ by one stitch at most.

    `place` is the place of a decrease in its section. Needs 1 <= decreases <= count / 2.
    """
    if count - 2 * decreases <= 1:
        return decrease_all(count)
    return spread(count, decreases, "k2tog", lead=LEADS[place])


def decrease_all(count: int) -> Steps:
    """Two together all around; an odd stitch at the end is knitted."""
    return (Repeat(count // 2, (Work("k2tog"),)), *knit(count % 2))


# --- styles that count --------------------------------------------------------------------------------------


def sectioned(plan: CrownPlan) -> Iterator[Steps]:
    """Sections of equal width, each losing a stitch in every decrease round: [k(w-2), k2tog] in each.

    When the sections are one stitch wide, stitches are knitted together two by two.
    """

    def decrease(count: int, _: int) -> Steps:
        if count <= plan.sections:
            return decrease_all(count)
        return decrease_evenly(count, plan.sections, plan.place)

    return _with_plain_rounds(plan, decrease)


def swirl(plan: CrownPlan) -> Iterator[Steps]:
    """Sections as in `sectioned`, but each decrease is worked beside the one below it, so that their line travels.

    A smaller crown begins where the decreases of the one that it follows have travelled to when they are as many.
    """
    width_at_start = plan.stitches // plan.sections
    widest = max(width_at_start, (plan.follows_stitches or 0) // plan.sections)
    first_place = {"end": widest - 2, "centre": (widest - 1) // 2, "start": 0}
    before = first_place[plan.place] + 2
    for width in range(widest, width_at_start, -1):
        before = _place_after(before, width)

    def decrease(count: int, _: int) -> Steps:
        nonlocal before
        width = count // plan.sections
        if width <= 2:
            return decrease_all(count)
        before = _place_after(before, width)
        return (Repeat(plan.sections, (*knit(before), Work("k2tog"), *knit(width - 2 - before))),)

    return _with_plain_rounds(plan, decrease)


def _place_after(before: int, width: int) -> int:
    """Stitches before the decrease in a section of this width, after the decrease round with so many `before`."""
    return before - 2 if before >= 2 else width - 2


def gathered(plan: CrownPlan) -> Iterator[Steps]:
    """Two together all around until few enough are left."""
    return _with_plain_rounds(plan, lambda count, _: decrease_all(count))


def _with_plain_rounds(plan: CrownPlan, decrease: Callable[[int, int], Steps]) -> Iterator[Steps]:
    """Decrease rounds and the plain rounds between them; `decrease` gives one from its count and its number."""
    count, number = plan.stitches, 0
    while count > plan.close_at:
        number += 1
        steps = decrease(count, number)
        yield steps
        count = execute(steps)[1]
        if count > plan.close_at and (plan.every_round_from is None or number < plan.every_round_from):
            for _ in range(plan.plain_rounds or 0):
                yield plain(count)


# --- styles that follow a curve, in whole sections ----------------------------------------------------------------


def _in_sections(plan: CrownPlan, rounds_before: Callable[[float], float]) -> Iterator[Steps]:
    """Whole sections, each losing a stitch in a decrease round; a curve tells the rounds between.

    `rounds_before` gives the rounds from the first decrease round to the one that comes after this number of others, or
    between them. Sizes of a hat are worked alike where it is the same for all of them.
    """
    count, row, number = plan.stitches, 0, 0
    while count > plan.close_at:
        for _ in range(floor(rounds_before(number) + 0.5) - row):
            yield plain(count)
            row += 1
        steps = (
            decrease_all(count)
            if count <= plan.sections
            else decrease_evenly(count, plan.sections, plan.place)
        )
        yield steps
        count, row, number = execute(steps)[1], row + 1, number + 1
    if count > plan.sections or count < FEWEST_HALVED:
        return
    tip = plan.stitches / plan.sections - 0.5  # the first stitch is due when half of it is
    rounds = floor(rounds_before(tip) + 0.5) - row
    for round in range(rounds):  # never plain to the end: that makes a knob
        yield plain(count) if round < rounds - 1 else decrease_all(count)


def _rounds_per_decrease(plan: CrownPlan) -> float:
    """Rounds from decrease to decrease on a flat disc in whole sections."""
    return plan.sections * plan.rows_per_stitch / DISC_SLOPE


def _dome_in_sections(plan: CrownPlan) -> Iterator[Steps]:
    """The hemisphere on the stitches of the plan, or on those that it names, where sizes of a hat share one.

    On fewer stitches than those it ends before the pole of that hemisphere, on more it goes on beyond it as a disc.
    """
    width = (plan.follows_stitches or plan.stitches) / plan.sections
    every = _rounds_per_decrease(plan)
    start = asin(1 - 0.5 / width)

    def rounds_before(number: float) -> float:
        if number > width - 0.5:  # beyond the pole as a disc
            return every * (width * start + number - width + 0.5)
        return every * width * (start - asin(1 - (0.5 + number) / width))

    return _in_sections(plan, rounds_before)


def _disc_in_sections(plan: CrownPlan) -> Iterator[Steps]:
    """As many plain rounds between as the request says, else as the gauge says."""
    if plan.plain_rounds is not None:
        return sectioned(plan)
    every = _rounds_per_decrease(plan)
    return _in_sections(plan, lambda number: number * every)


def _cone_in_sections(plan: CrownPlan) -> Iterator[Steps]:
    """The same number of rounds from decrease to decrease: a cone of the same steepness in every size."""
    radius = plan.stitches / DISC_SLOPE
    steepness = hypot(1, _cone_height(plan) / radius)
    every = _rounds_per_decrease(plan) * steepness
    return _in_sections(plan, lambda number: number * every)


# --- styles that follow a curve -----------------------------------------------------------------------------


def dome(plan: CrownPlan) -> Iterator[Steps]:
    """A hemisphere: N sin(πj / 2n) stitches j rounds from the tip, j measured to the middle of a round."""
    if plan.in_sections:
        return _dome_in_sections(plan)
    quarter = plan.stitches * plan.rows_per_stitch / 4  # rounds in a quarter of a great circle
    rounds = _at_least(quarter, plan)
    angle = pi / 2 / quarter  # of the great circle, for one round
    return _follow(
        plan, rounds, lambda number: plan.stitches * sin(min(pi / 2, angle * (rounds - number + 0.5)))
    )


def disc(plan: CrownPlan) -> Iterator[Steps]:
    """A flat disc: 2π × stitch gauge / row gauge fewer stitches each round, the remainder carried."""
    if plan.in_sections:
        return _disc_in_sections(plan)
    lost_per_round = DISC_SLOPE / plan.rows_per_stitch
    rounds = _at_least(plan.stitches / lost_per_round - 0.5, plan)
    return _follow(plan, rounds, lambda number: plan.stitches - number * lost_per_round)


def cone(plan: CrownPlan) -> Iterator[Steps]:
    """A cone of the requested height, else three quarters of its width: linearly fewer stitches.

    The stitches drawn up at its tip lie flat; their radius is added to the slant.
    """
    if plan.in_sections:
        return _cone_in_sections(plan)
    run, tip = _run_and_tip(plan)
    rounds = _at_least((hypot(run, _cone_height(plan)) + tip) * plan.rows_per_stitch, plan)
    lost_per_round = (plan.stitches - plan.close_at) / rounds
    return _follow(plan, rounds, lambda number: plan.stitches - number * lost_per_round)


def _cone_height(plan: CrownPlan) -> float:
    """Height of the cone in stitch widths."""
    if plan.height_stitch_widths is None:
        return USUAL_CONE_HEIGHT_PER_WIDTH * plan.stitches / pi
    return plan.height_stitch_widths


def highest_cone(plan: CrownPlan, rounds: int) -> float:
    """Height, in stitch widths, of the cone worked in `rounds`; 0 where there is no such cone."""
    run, tip = _run_and_tip(plan)
    slant = rounds / plan.rows_per_stitch - tip
    return sqrt(slant * slant - run * run) if slant > run else 0.0


def _run_and_tip(plan: CrownPlan) -> tuple[float, float]:
    """Radius lost along the cone, and radius left to be drawn up; in stitch widths."""
    tip = plan.close_at / DISC_SLOPE
    return plan.stitches / DISC_SLOPE - tip, tip


def _at_least(rounds: float, plan: CrownPlan) -> int:
    """`rounds` as a whole number, but at least as many as it takes to halve the stitches in each."""
    halvings = ceil(log2(plan.stitches / plan.close_at)) if plan.stitches > plan.close_at else 0
    return max(floor(rounds + 0.5), halvings)


def _follow(plan: CrownPlan, rounds: int, curve: Callable[[int], float]) -> Iterator[Steps]:
    """The rounds whose counts stay nearest to the curve, decreasing `sections` stitches at a time.

    There are exactly `rounds` of them: none ends sooner, and enough remain to reach `close_at` by halving.
    """
    count = plan.stitches
    for number in range(1, rounds + 1):
        group = plan.sections if plan.sections and number < rounds else 1
        decreases = group * floor((count - curve(number)) / group + 0.5)
        if number < rounds and decreases >= count - plan.close_at:
            decreases = (count - plan.close_at - 1) // group * group
        due = count - (plan.close_at << min(rounds - number, 10))
        if due > decreases:  # never a single decrease: at least as many as one round usually has
            decreases = max(due, min(group, count - plan.close_at - 1))
        decreases = min(max(decreases, 0), count // 2)
        yield decrease_evenly(count, decreases, plan.place) if decreases else plain(count)
        count -= decreases


# --- four corners -------------------------------------------------------------------------------------------


def square(plan: CrownPlan) -> Iterator[Steps]:
    """Four lines of centred double decreases: 8 × stitch gauge / row gauge fewer each round lie flat.

    Each line is in the middle of its quarter. Rows decrease on the right side only: cdd has no wrong-side form.
    """
    count, number, row, due = plan.stitches, 0, 0, 1
    last = floor(plan.stitches * plan.rows_per_stitch / SQUARE_SLOPE)
    while count > plan.close_at:
        row += 1
        if plan.plain_rounds is None:
            ahead = count - plan.stitches + row * SQUARE_SLOPE / plan.rows_per_stitch
            decrease = row >= last if count - 2 * CORNERS <= plan.close_at else ahead >= CORNERS
        else:
            decrease = row >= due
        if not decrease or (plan.flat and row % 2 == 0):
            yield plain(count)
            continue
        number += 1
        if count > 2 * CORNERS:
            yield _cornered(count // CORNERS)
            count -= 2 * CORNERS
        else:
            yield decrease_all(count)
            count -= count // 2
        due = row + 1
        if plan.plain_rounds and (plan.every_round_from is None or number < plan.every_round_from):
            due += plan.plain_rounds


def _cornered(width: int) -> Steps:
    after = (width - 3) // 2
    return (Repeat(CORNERS, (*knit(width - 3 - after), Work("cdd"), *knit(after))),)


# --- defaults ---------------------------------------------------------------


def dividing(stitches: int) -> int:
    """The number of sections from 6 to 9 that divides the stitches, or leaves the fewest over; 8 is preferred."""
    most = stitches // 2
    fitting = range(min(FEWEST_SECTIONS, most), min(MOST_USUAL_SECTIONS, most) + 1)
    return min(fitting, key=lambda sections: (stitches % sections, abs(sections - USUAL_SECTIONS), -sections))


def quarter_sections(stitches: int) -> int:
    """One section for every four stitches."""
    return stitches // 4


def grouped_decreases(stitches: int) -> int:
    """Decreases in a round of a dome or cone: the most allowed, but rather a number that divides the stitches."""
    most = min(max(stitches // STITCHES_PER_DECREASE, MIN_DECREASES), USUAL_SECTIONS, stitches // 2)
    return max(
        range(min(MIN_DECREASES, most), most + 1),
        key=lambda decreases: (stitches % decreases == 0, decreases),
    )


def shared_hemisphere(fewest: float, most: float) -> int:
    """Stitches around the hemisphere for domes of `fewest` to `most` stitches: both are off it by as much."""
    return floor(sqrt(fewest * most) + 0.5)


def hat_sections(fewest: float) -> int:
    """Sections of a dome, disc or cone on `fewest` stitches or more: 8, or 6 where 8 would be narrower than 4."""
    return USUAL_SECTIONS if fewest >= USUAL_SECTIONS * NARROWEST_SECTION else FEWEST_SECTIONS


def until_three_between(plan: CrownPlan) -> int:
    """The last decrease round that leaves more than about 3 stitches between the decreases."""
    return plan.stitches // plan.sections - 2 - STITCHES_BETWEEN_LAST_DECREASES


def until_used_up(plan: CrownPlan) -> int:
    """The decrease round that leaves one stitch of each section."""
    return plan.stitches // plan.sections - 1


STYLES: Final[dict[str, Style]] = {
    "wedge": Style(
        about="6 to 9 sections, each losing a stitch in a decrease round",
        rounds=sectioned,
        basis=Basis(
            say("crown.basis.wedge"),
            "published hat patterns, e.g. 88 stitches in 8 wedges: k9, k2tog; k8, k2tog; ...",
        ),
        options=("sections", "cadence", "decrease_at"),
        close_at=MOST_USUAL_SECTIONS,
        sections=dividing,
        last_round_with_plain=until_three_between,
        multiple=USUAL_SECTIONS,
    ),
    "quick": Style(
        about="repeats of four stitches, all shrinking at once",
        rounds=sectioned,
        basis=Basis(
            say("crown.basis.quick"),
            "published hat patterns, e.g. 72 stitches: 72, 54, 36, 18, 9",
        ),
        options=("sections", "cadence", "decrease_at"),
        sections=quarter_sections,
        last_round_with_plain=until_used_up,
        multiple=4,
    ),
    "dome": Style(
        about="follows a hemisphere",
        rounds=dome,
        basis=Basis(
            say("crown.basis.dome"),
            "published: stitches at polar angle t are proportional to sin t",
        ),
        options=("sections", "decrease_at", "follows_stitches"),
        sections=grouped_decreases,
        whole_sections=False,
    ),
    "flat": Style(
        about="a disc that lies flat",
        rounds=disc,
        basis=Basis(
            say("crown.basis.flat"),
            "published: circumference doubles when radius doubles (Knitter's Almanac, 1974); 5 × 7 to the inch: 4.49",
        ),
        options=("sections", "cadence", "decrease_at"),
        whole_sections=False,
    ),
    "cone": Style(
        about="pointed, to a height",
        rounds=cone,
        basis=Basis(say("crown.basis.cone"), "geometry of the cone"),
        options=("sections", "decrease_at", "height"),
        sections=grouped_decreases,
        whole_sections=False,
    ),
    "square": Style(
        about="four lines of centred double decreases",
        rounds=square,
        basis=Basis(
            say("crown.basis.square"),
            "geometry of the square; " + COMMON_PRACTICE,
        ),
        options=("cadence",),
        close_at=2 * CORNERS,
        sections=lambda _: CORNERS,
        multiple=CORNERS,
        flat_slope=SQUARE_SLOPE,
    ),
    "swirl": Style(
        about="sections whose decreases travel, so that no line of them stands still",
        rounds=swirl,
        basis=Basis(
            say("crown.basis.swirl"),
            "counts: published hat patterns in sections, e.g. 88 stitches: 88, 80, 72, ... 8; travel: "
            + COMMON_PRACTICE,
        ),
        options=("sections", "cadence", "decrease_at", "follows_stitches"),
        close_at=MOST_USUAL_SECTIONS,
        sections=dividing,
        last_round_with_plain=until_three_between,
        multiple=USUAL_SECTIONS,
        counts_as="wedge",
    ),
    "gathered": Style(
        about="two together all around, once or twice, and drawn up",
        rounds=gathered,
        basis=Basis(say("crown.basis.gathered"), "published hat patterns"),
        options=("cadence",),
        close_at=17,
        last_round_with_plain=lambda _: 0,
    ),
}
