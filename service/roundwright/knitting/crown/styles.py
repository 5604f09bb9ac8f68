"""The styles of crown: what is worked in each round until few enough stitches are left to close.

A style is one function from a `CrownPlan` to the steps of its rounds, and one row of `STYLES`. The function says only
what is worked; the crown executes it, counts, numbers and notes it, and turns it into rows for flat work.
"""

from collections.abc import Callable, Iterator
from functools import lru_cache
from math import ceil, floor, hypot, log2, pi, sin, sqrt
from typing import Final, Literal, NamedTuple

from roundwright.knitting.answers import COMMON_PRACTICE, Basis
from roundwright.knitting.crown.geometry import TURN
from roundwright.knitting.rounds.round import Repeat, Steps, Work, execute, knit, plain
from roundwright.knitting.rounds.spread import HALF_GAP, WHOLE_GAP, spread

FEWEST_SECTIONS: Final = 6
USUAL_SECTIONS: Final = 8
MOST_USUAL_SECTIONS: Final = 9
"""6-9 decreases a shaping round, 8 most common (published)."""
KNIT_BETWEEN_AT_SPEED: Final = 3
"""Every round decreases once about 3 stitches remain between the decreases (published)."""
FEWEST_TOGETHER: Final = 4
STITCHES_FOR_EACH: Final = 11
"""Decreases of a dome or cone come together, from 4 to 8 in a round, at most one for each 11 stitches it starts with:
the count stays within 1/22 of them of the curve, and no single decrease shows as a bump."""
CORNERS: Final = 4
USUAL_CONE: Final = 0.75
"""Height of a cone for its width, where none is asked for: pointed, and not yet a stocking cap."""
SQUARE_TURN: Final = 8.0
"""Circumference of a square for each unit from its centre to the middle of a side: `TURN` of a disc."""

Place = Literal["start", "end", "centre"]
LEADS: Final[dict[Place, int]] = {"end": WHOLE_GAP, "centre": HALF_GAP, "start": 0}
StyleOption = Literal["sections", "cadence", "decrease_at", "height"]


class CrownPlan(NamedTuple):
    """A crown as its style sees it: everything filled in, without stitches that do not fit and seam stitches."""

    stitches: int
    close_at: int
    sections: int  # 0 where the style has none and none were asked for
    plain_rounds: int | None  # after a decrease round; None where they come from the gauge
    every_round_from: int | None  # number of the decrease round with no plain round after it; None for never
    place: Place  # of a decrease in its section
    rows_a_stitch: float  # rows as high as one stitch is wide
    height_stitches: float | None  # height asked for, in stitch widths
    flat: bool  # worked in rows, the first on the right side


class Style(NamedTuple):
    """A row of the table of styles."""

    about: str  # what it is, for the description of the request
    rounds: Callable[
        [CrownPlan], Iterator[Steps]
    ]  # the steps of each, until `close_at` or fewer stitches are left
    basis: Basis
    heeds: tuple[StyleOption, ...] = ()  # what a request may say about it; the rest has no meaning for it
    close_at: int = 6  # stitches to close at
    sections: Callable[[int], int] = lambda _: 0  # sections for so many stitches
    whole_sections: bool = True  # whether stitches that do not divide are decreased first
    last_plain: Callable[[CrownPlan], int] | None = (
        None  # decrease rounds with a plain one after; None: by gauge
    )
    repeat: int = 1  # what the stitches should be a multiple of, so that nothing has to be adjusted
    counts_as: str | None = (
        None  # a style with the same counts, which stands for it where a shape is asked for
    )
    turn: float = TURN  # circumference of its flat form for each unit of its radius


# --- rounds of decreases ------------------------------------------------------------------------------------


@lru_cache(maxsize=4096)  # crowns of all sizes share these rounds
def narrowed(count: int, decreases: int, place: Place) -> Steps:
    """A round of k2tog, evenly spread: `[k9, k2tog] 8 times`. Sections differ by one stitch at most.

    `place` is where in its section a decrease is worked. Needs 1 <= decreases <= count / 2.
    """
    if count - 2 * decreases <= 1:
        return halved(count)
    return spread(count, decreases, "k2tog", lead=LEADS[place])


def halved(count: int) -> Steps:
    """Two together all around; an odd stitch at the end is knitted."""
    return (Repeat(count // 2, (Work("k2tog"),)), *knit(count % 2))


# --- styles that count --------------------------------------------------------------------------------------


def sectioned(plan: CrownPlan) -> Iterator[Steps]:
    """Sections of equal width, each losing a stitch in every decrease round: [k(w-2), k2tog] in each.

    When the sections are one stitch wide, stitches are knitted together two by two.
    """

    def decrease(count: int, _: int) -> Steps:
        return narrowed(count, plan.sections, plan.place) if count > plan.sections else halved(count)

    return _in_turn(plan, decrease)


def swirl(plan: CrownPlan) -> Iterator[Steps]:
    """Sections as of wedges, but each decrease is worked beside the one below it, so that its line travels."""
    whole = plan.stitches // plan.sections
    before = {"end": whole, "centre": (whole + 3) // 2, "start": 2}[
        plan.place
    ]  # two stitches before its first place

    def decrease(count: int, _: int) -> Steps:
        nonlocal before
        width = count // plan.sections
        if width <= 2:
            return halved(count)
        before = before - 2 if before >= 2 else width - 2
        return (Repeat(plan.sections, (*knit(before), Work("k2tog"), *knit(width - 2 - before))),)

    return _in_turn(plan, decrease)


def gathered(plan: CrownPlan) -> Iterator[Steps]:
    """Two together all around until few enough are left."""
    return _in_turn(plan, lambda count, _: halved(count))


def _in_turn(plan: CrownPlan, decrease: Callable[[int, int], Steps]) -> Iterator[Steps]:
    """Decrease rounds, made from the count and their number, and plain rounds as the cadence has it."""
    count, number = plan.stitches, 0
    while count > plan.close_at:
        number += 1
        steps = decrease(count, number)
        yield steps
        count = execute(steps)[1]
        if count > plan.close_at and (plan.every_round_from is None or number < plan.every_round_from):
            for _ in range(plan.plain_rounds or 0):
                yield plain(count)


# --- styles that follow a curve -----------------------------------------------------------------------------


def dome(plan: CrownPlan) -> Iterator[Steps]:
    """A hemisphere: N sin(πj / 2n) stitches j rounds from the tip, j taken in the middle of a round."""
    quarter = plan.stitches * plan.rows_a_stitch / 4  # rounds in a quarter of a great circle
    rounds = _at_least(quarter, plan)
    turn = pi / 2 / quarter
    return _follow(
        plan, rounds, lambda number: plan.stitches * sin(min(pi / 2, turn * (rounds - number + 0.5)))
    )


def disc(plan: CrownPlan) -> Iterator[Steps]:
    """A flat disc: 2π × stitch gauge / row gauge fewer stitches each round, the remainder carried."""
    each_round = TURN / plan.rows_a_stitch
    rounds = _at_least(plan.stitches / each_round - 0.5, plan)
    return _follow(plan, rounds, lambda number: plan.stitches - number * each_round)


def cone(plan: CrownPlan) -> Iterator[Steps]:
    """A cone of the height asked for, else three quarters of its width: linearly fewer stitches.

    What is drawn up at its tip lies flat, and is added to the slant.
    """
    run, tip = _run_and_tip(plan)
    height = USUAL_CONE * plan.stitches / pi if plan.height_stitches is None else plan.height_stitches
    rounds = _at_least((hypot(run, height) + tip) * plan.rows_a_stitch, plan)
    each_round = (plan.stitches - plan.close_at) / rounds
    return _follow(plan, rounds, lambda number: plan.stitches - number * each_round)


def highest_cone(plan: CrownPlan, rounds: int) -> float:
    """Height, in stitch widths, of the cone that takes so many rounds; 0 where none does."""
    run, tip = _run_and_tip(plan)
    slant = rounds / plan.rows_a_stitch - tip
    return sqrt(slant * slant - run * run) if slant > run else 0.0


def _run_and_tip(plan: CrownPlan) -> tuple[float, float]:
    """Radius lost along the cone, and left to be drawn up, in stitch widths."""
    tip = plan.close_at / TURN
    return plan.stitches / TURN - tip, tip


def _at_least(rounds: float, plan: CrownPlan) -> int:
    """That many rounds, or as many as it takes when each halves the stitches."""
    halvings = ceil(log2(plan.stitches / plan.close_at)) if plan.stitches > plan.close_at else 0
    return max(floor(rounds + 0.5), halvings)


def _follow(plan: CrownPlan, rounds: int, curve: Callable[[int], float]) -> Iterator[Steps]:
    """The rounds whose counts stay nearest to the curve, decreasing `sections` stitches at a time.

    They end exactly at `rounds`: no sooner, and in time to halve what is left into `close_at`.
    """
    count = plan.stitches
    for number in range(1, rounds + 1):
        group = plan.sections if plan.sections and number < rounds else 1
        takes = group * floor((count - curve(number)) / group + 0.5)
        if number < rounds and takes >= count - plan.close_at:
            takes = (count - plan.close_at - 1) // group * group
        due = count - (plan.close_at << min(rounds - number, 10))
        if due > takes:  # not a few stitches when it has to be, but as many as come together
            takes = max(due, min(group, count - plan.close_at - 1))
        takes = min(max(takes, 0), count // 2)
        yield narrowed(count, takes, plan.place) if takes else plain(count)
        count -= takes


# --- four corners -------------------------------------------------------------------------------------------


def square(plan: CrownPlan) -> Iterator[Steps]:
    """Four lines of centred double decreases: 8 × stitch gauge / row gauge fewer each round lie flat.

    A line stands in the middle of its quarter. Rows decrease on the right side only: cdd has no wrong side.
    """
    count, number, row, due = plan.stitches, 0, 0, 1
    last = floor(plan.stitches * plan.rows_a_stitch / SQUARE_TURN)
    while count > plan.close_at:
        row += 1
        if plan.plain_rounds is None:
            ahead = count - plan.stitches + row * SQUARE_TURN / plan.rows_a_stitch
            wanted = row >= last if count - 2 * CORNERS <= plan.close_at else ahead >= CORNERS
        else:
            wanted = row >= due
        if not wanted or (plan.flat and row % 2 == 0):
            yield plain(count)
            continue
        number += 1
        if count > 2 * CORNERS:
            yield _cornered(count // CORNERS)
            count -= 2 * CORNERS
        else:
            yield halved(count)
            count -= count // 2
        due = row + 1
        if plan.plain_rounds and (plan.every_round_from is None or number < plan.every_round_from):
            due += plan.plain_rounds


def _cornered(width: int) -> Steps:
    after = (width - 3) // 2
    return (Repeat(CORNERS, (*knit(width - 3 - after), Work("cdd"), *knit(after))),)


# --- what is taken where nothing is asked for ---------------------------------------------------------------


def dividing(stitches: int) -> int:
    """Of 6 to 9 sections those that divide the stitches, or leave the fewest over; 8 is preferred."""
    most = stitches // 2
    fitting = range(min(FEWEST_SECTIONS, most), min(MOST_USUAL_SECTIONS, most) + 1)
    return min(fitting, key=lambda sections: (stitches % sections, abs(sections - USUAL_SECTIONS), -sections))


def fours(stitches: int) -> int:
    """As many sections as there are repeats of four stitches."""
    return stitches // 4


def together(stitches: int) -> int:
    """Decreases in a round of a dome or cone: as many as may, better a number that divides the stitches."""
    most = min(max(stitches // STITCHES_FOR_EACH, FEWEST_TOGETHER), USUAL_SECTIONS, stitches // 2)
    return max(range(min(FEWEST_TOGETHER, most), most + 1), key=lambda each: (stitches % each == 0, each))


def until_three_between(plan: CrownPlan) -> int:
    """The last decrease round that leaves more than about 3 stitches between the decreases."""
    return plan.stitches // plan.sections - 2 - KNIT_BETWEEN_AT_SPEED


def until_used_up(plan: CrownPlan) -> int:
    """The decrease round that leaves one stitch of each section."""
    return plan.stitches // plan.sections - 1


STYLES: Final[dict[str, Style]] = {
    "wedge": Style(
        about="6 to 9 sections, each losing a stitch in a decrease round",
        rounds=sectioned,
        basis=Basis(
            "Wedges: 6 to 9 decreases a shaping round, 8 most common; every round once about 3 stitches remain between "
            "them; 5 to 10 stitches are drawn up.",
            "published hat patterns, e.g. 88 stitches in 8 wedges: k9, k2tog; k8, k2tog; ...",
        ),
        heeds=("sections", "cadence", "decrease_at"),
        close_at=MOST_USUAL_SECTIONS,
        sections=dividing,
        last_plain=until_three_between,
        repeat=USUAL_SECTIONS,
    ),
    "quick": Style(
        about="repeats of four stitches, all shrinking at once",
        rounds=sectioned,
        basis=Basis(
            "Repeats of four, all shrinking at once: k2, k2tog; k1, k2tog; k2tog; then two together all around.",
            "published hat patterns, e.g. 72 stitches: 72, 54, 36, 18, 9",
        ),
        heeds=("sections", "cadence", "decrease_at"),
        sections=fours,
        last_plain=until_used_up,
        repeat=4,
    ),
    "dome": Style(
        about="follows a hemisphere",
        rounds=dome,
        basis=Basis(
            "Hemisphere: stitches j rounds of n from the tip are N sin(πj / 2n).",
            "published: stitches at polar angle t are proportional to sin t",
        ),
        heeds=("sections", "decrease_at"),
        sections=together,
        whole_sections=False,
    ),
    "flat": Style(
        about="a disc that lies flat",
        rounds=disc,
        basis=Basis(
            "Flat disc: 2π × stitch gauge / row gauge fewer stitches each round, the remainder carried.",
            "published: circumference doubles when radius doubles (Knitter's Almanac, 1974); 5 × 7 to the inch: 4.49",
        ),
        heeds=("sections", "decrease_at"),
        whole_sections=False,
    ),
    "cone": Style(
        about="pointed, to a height",
        rounds=cone,
        basis=Basis(
            "Cone: stitches fall linearly with the distance along the fabric.", "geometry of the cone"
        ),
        heeds=("sections", "decrease_at", "height"),
        sections=together,
        whole_sections=False,
    ),
    "square": Style(
        about="four lines of centred double decreases",
        rounds=square,
        basis=Basis(
            "Square: 8 × stitch gauge / row gauge fewer stitches each round lie flat, in four double decreases.",
            "geometry of the square; " + COMMON_PRACTICE,
        ),
        heeds=("cadence",),
        close_at=2 * CORNERS,
        sections=lambda _: CORNERS,
        repeat=CORNERS,
        turn=SQUARE_TURN,
    ),
    "swirl": Style(
        about="sections whose decreases travel, so that no line of them stands still",
        rounds=swirl,
        basis=Basis(
            "Swirl: the counts of wedges, each decrease worked beside the one below it.",
            "counts: published hat patterns in sections, e.g. 88 stitches: 88, 80, 72, ... 8; travel: "
            + COMMON_PRACTICE,
        ),
        heeds=("sections", "cadence", "decrease_at"),
        close_at=MOST_USUAL_SECTIONS,
        sections=dividing,
        last_plain=until_three_between,
        repeat=USUAL_SECTIONS,
        counts_as="wedge",
    ),
    "gathered": Style(
        about="two together all around, once or twice, and drawn up",
        rounds=gathered,
        basis=Basis(
            "Gathered top: two together all around; up to 17 stitches are drawn up.", "published hat patterns"
        ),
        heeds=("cadence",),
        close_at=17,
        last_plain=lambda _: 0,
    ),
}
