"""The styles of crown: what is worked in each round until few enough stitches are left to close.

A style is one function from a `CrownPlan` to the steps of its rounds, and one row of `STYLES`. The function says only
what is worked; the crown executes it, counts, numbers, notes and, for flat work, turns it into rows.
"""

from collections.abc import Callable, Iterator
from typing import Final, Literal, NamedTuple

from roundwright.knitting.answers import Basis
from roundwright.knitting.rounds import Repeat, Steps, StitchName, Work, knit, plain
from roundwright.knitting.shaping import times

FEWEST_SECTIONS: Final = 6
USUAL_SECTIONS: Final = 8
MOST_USUAL_SECTIONS: Final = 9
"""6-9 decreases a shaping round, 8 most common (published)."""
KNIT_BETWEEN_AT_SPEED: Final = 3
"""Every round decreases once about 3 stitches remain between the decreases (published)."""

Place = Literal["start", "end", "centre"]
StyleOption = Literal["sections", "cadence", "decrease_at", "height"]


class CrownPlan(NamedTuple):
    """A crown as its style sees it: whole sections, defaults filled in, seam stitches left out."""

    stitches: int
    close_at: int
    sections: int
    plain_rounds: int
    every_round_from: int | None
    place: Place


class Style(NamedTuple):
    """A row of the table of styles."""

    rounds: Callable[[CrownPlan], Iterator[Steps]]
    """The steps of each round, until `close_at` or fewer stitches are left."""
    heeds: tuple[StyleOption, ...]
    """What a request may say about it; the rest has no meaning for it."""
    sections: Callable[[int], int]
    """Sections for so many stitches where none are asked for."""
    close_at: int
    """Stitches to close at where nothing is asked for."""
    last_plain: Callable[[CrownPlan], int]
    """Number of the last decrease round with plain rounds after it, where no cadence is asked for."""
    repeat: int
    """What the stitches should be a multiple of, so that nothing has to be adjusted."""
    basis: Basis


# --- sections -----------------------------------------------------------------------------------------------


def sectioned(plan: CrownPlan) -> Iterator[Steps]:
    """Sections of equal width, each losing a stitch in every decrease round: [k(w-2), k2tog] in each.

    When the sections are one stitch wide, stitches are knitted together two by two; an odd one at the end is knitted.
    """
    count, width, number = plan.stitches, plan.stitches // plan.sections, 0
    while count > plan.close_at:
        number += 1
        if width > 1:
            yield narrowed(width, plan.sections, plan.place)
            width -= 1
            count -= plan.sections
        else:
            yield halved(count)
            count -= count // 2
        if count > plan.close_at and (plan.every_round_from is None or number < plan.every_round_from):
            for _ in range(plan.plain_rounds):
                yield plain(count)


def narrowed(width: int, sections: int, place: Place, stitch: StitchName = "k2tog") -> Steps:
    """A round that takes a stitch from each of some sections of `width` stitches."""
    decrease, spare = Work(stitch), width - 2
    after = {"end": 0, "centre": spare // 2, "start": spare}[place]
    return times(sections, (*knit(spare - after), decrease, *knit(after))) if spare else halved(2 * sections)


def halved(count: int) -> Steps:
    """Two together all around; an odd stitch at the end is knitted."""
    return (Repeat(count // 2, (Work("k2tog"),)), *knit(count % 2))


def dividing(stitches: int) -> int:
    """Of 6 to 9 sections those that divide the stitches, or leave the fewest over; 8 is preferred."""
    most = stitches // 2
    fitting = range(min(FEWEST_SECTIONS, most), min(MOST_USUAL_SECTIONS, most) + 1)
    return min(fitting, key=lambda sections: (stitches % sections, abs(sections - USUAL_SECTIONS), -sections))


def fours(stitches: int) -> int:
    """As many sections as there are repeats of four stitches."""
    return stitches // 4


def until_three_between(plan: CrownPlan) -> int:
    """The last decrease round that leaves more than about 3 stitches between the decreases."""
    return plan.stitches // plan.sections - 2 - KNIT_BETWEEN_AT_SPEED


def until_used_up(plan: CrownPlan) -> int:
    """The decrease round that leaves one stitch of each section."""
    return plan.stitches // plan.sections - 1


STYLES: Final[dict[str, Style]] = {
    "wedge": Style(
        rounds=sectioned,
        heeds=("sections", "cadence", "decrease_at"),
        sections=dividing,
        close_at=9,
        last_plain=until_three_between,
        repeat=USUAL_SECTIONS,
        basis=Basis(
            "Wedges: 6 to 9 decreases a shaping round, 8 most common; every round once about 3 stitches remain between "
            "them; 5 to 10 stitches are drawn up.",
            "published hat patterns, e.g. 88 stitches in 8 wedges: k9, k2tog; k8, k2tog; ...",
        ),
    ),
    "quick": Style(
        rounds=sectioned,
        heeds=("sections", "cadence", "decrease_at"),
        sections=fours,
        close_at=5,
        last_plain=until_used_up,
        repeat=4,
        basis=Basis(
            "Repeats of four, all shrinking at once: k2, k2tog; k1, k2tog; k2tog; then two together all around.",
            "published hat patterns, e.g. 72 stitches: 72, 54, 36, 18, 9",
        ),
    ),
}
