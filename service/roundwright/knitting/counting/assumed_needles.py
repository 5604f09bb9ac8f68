"""How the knitter's stitches are shared out over needles: their own way, as asked for, or as the count suggests."""

from typing import NamedTuple

from roundwright.knitting.answers import Impossible, Notice
from roundwright.knitting.counting.progress import Needles
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES
from roundwright.knitting.needles.best_split import FEWEST_NEEDLES, pareto_splits
from roundwright.knitting.needles.boundaries import BoundaryPaths, boundary_paths
from roundwright.knitting.needles.tracking import track_needles_along
from roundwright.knitting.rounds.round import Round


class Wanted(NamedTuple):
    """How the stitches are to be shared out over needles, and where in the request that stands."""

    split: Needles | None  # the knitter's own
    needles: int | None  # asked for with the work
    tolerance: int
    counted: Needles | None  # the count, needle by needle
    flat: bool = False
    at: str = "#/pattern"


class Shared(NamedTuple):
    """Rounds with what each needle holds; `known` where that is not merely taken to be so."""

    rounds: tuple[Round, ...]
    held: Needles | None
    known: bool = False
    notices: tuple[Notice, ...] = ()


def share(rounds: tuple[Round, ...], stitches: int, wanted: Wanted) -> Shared:
    """The rounds on the knitter's own needles, on those asked for, or on as many as were counted.

    Without any of them, or for more stitches than are shared out, the rounds as they are. Raises `Impossible` for
    needles that do not go with the stitches, or a count of more needles than there are.
    """
    counted = len(wanted.counted or ())
    known = wanted.split is not None or wanted.needles is not None
    if known and wanted.flat:
        raise Impossible(
            "Flat work is in rows, on one pair of needles: there is no round to share out.",
            pointer="#/split" if wanted.split is not None else f"{wanted.at}/needles",
            nearest="no needles",
        )
    if wanted.split is not None and sum(wanted.split) != stitches:
        raise Impossible(
            f"The split has {sum(wanted.split)} stitches, but the work begins with {stitches}.",
            pointer="#/split",
            nearest=f"a split of {stitches} stitches",
        )
    needles = len(wanted.split) if wanted.split is not None else wanted.needles or counted
    if counted > needles:
        raise Impossible(
            f"{counted} needles were counted, but {needles} hold the stitches.",
            pointer="#/needles",
            nearest=f"{needles} counts",
        )
    most = max([stitches, *(one.after for one in rounds)])
    if wanted.split is not None and most > MOST_CROWN_STITCHES:
        raise Impossible(
            f"The work goes up to {most} stitches, more than are followed needle by needle.",
            pointer="#/split",
            nearest=f"work of up to {MOST_CROWN_STITCHES} stitches, or no `split`",
        )
    if needles < FEWEST_NEEDLES or wanted.flat or most > MOST_CROWN_STITCHES:
        return Shared(rounds, None)
    borders = boundary_paths(rounds, stitches)
    held = wanted.split or _best(borders, needles, wanted)
    if held is None:
        return Shared(rounds, None)
    return Shared(track_needles_along(borders, held), held, known, () if known else (_assumed(held),))


def _best(borders: BoundaryPaths, needles: int, wanted: Wanted) -> Needles | None:
    """The split as the work asks for it; None where nobody asked and there are too few stitches."""
    try:
        return pareto_splits(borders, needles, wanted.tolerance)[-1].split
    except Impossible as error:
        if wanted.needles is None:
            return None
        pointer = wanted.at + error.pointer.removeprefix("#")
        raise Impossible(error.detail, pointer=pointer, nearest=error.nearest) from error


def _assumed(held: Needles) -> Notice:
    return Notice(
        code="split_assumed",
        message=f"How the stitches are shared out is not said: {', '.join(map(str, held))} at the start were taken. "
        "The count is taken to be right where its sum is.",
        pointer="#/split",
    )
