"""How the stitches are shared out over needles: as the knitter says, as the work asks for, or as the count suggests."""

from itertools import zip_longest
from typing import Final, NamedTuple

from roundwright.knitting.answers import Impossible, Notice
from roundwright.knitting.counting.progress import Needles
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES
from roundwright.knitting.needles.best_split import FEWEST_NEEDLES
from roundwright.knitting.needles.boundaries import BoundaryPaths, boundary_paths
from roundwright.knitting.needles.tracking import track_needles_along
from roundwright.knitting.needles.whole_repeats import split_in_repeats
from roundwright.knitting.rounds.round import Round
from roundwright.language import say, say_count

NEAR_EVEN: Final = 2
"""Stitches, on all needles together, by which a count still tells of an even split: a slip or two."""
FAR_FROM_ASSUMED: Final = 4
"""Stitches more by which it must differ from the split assumed: who shares evenly is not told that needles are off."""


class NeedleRequest(NamedTuple):
    """How the stitches are to be shared out over needles, and where in the request that stands."""

    split: Needles | None  # the knitter's own
    needles: int | None  # asked for with the work
    tolerance: int
    counted: Needles | None  # the count, needle by needle
    flat: bool = False
    pointer: str = "#/pattern"
    repeat: int = 1  # stitches of the rib that the split keeps whole


class OnNeedles(NamedTuple):
    """Rounds with what each needle holds; `known` where that is not assumed."""

    rounds: tuple[Round, ...]
    needles: Needles | None
    known: bool = False
    notices: tuple[Notice, ...] = ()


def share(rounds: tuple[Round, ...], stitches: int, request: NeedleRequest) -> OnNeedles:
    """The rounds on the knitter's own needles, on those the work asks for, or on as many as were counted.

    Without any of them, or for more stitches than are shared out, the rounds as they are. Raises `Impossible` for
    needles that do not go with the stitches, or a count of more needles than there are.
    """
    _check(stitches, request)
    most = max([stitches, *(line.after for line in rounds)])
    if request.split is not None and most > MOST_CROWN_STITCHES:
        raise Impossible(
            say_count("count.too_many_to_follow", most),
            code="too_many",
            pointer="#/split",
            nearest=say_count("count.too_many_to_follow.nearest", MOST_CROWN_STITCHES),
        )
    number = _number_of_needles(request)
    if number < FEWEST_NEEDLES or request.flat or most > MOST_CROWN_STITCHES:
        return OnNeedles(rounds, None)
    borders = boundary_paths(rounds, stitches)
    needles = request.split or _best(borders, number, request)
    if needles is None:
        return OnNeedles(rounds, None)
    on_needles = track_needles_along(borders, needles)
    if request.split is None and request.counted is not None:
        even = _even(needles)
        evenly = track_needles_along(borders, even)
        off = _least_off(even, evenly, request.counted)
        if off <= NEAR_EVEN and off + FAR_FROM_ASSUMED <= _least_off(needles, on_needles, request.counted):
            return OnNeedles(evenly, even, False, (_assumed(even),))
    known = request.split is not None or request.needles is not None
    return OnNeedles(on_needles, needles, known, () if known else (_assumed(needles),))


def _even(needles: Needles) -> Needles:
    """The same stitches, shared out as evenly as can be: most knitters do (common practice)."""
    share, more = divmod(sum(needles), len(needles))
    return tuple(share + (needle < more) for needle in range(len(needles)))


def _least_off(needles: Needles, rounds: tuple[Round, ...], counted: Needles) -> int:
    """How many stitches the count is off, on all needles together, at the round where it fits best."""
    held = {needles, *(line.needles for line in rounds if line.needles)}
    return min(
        sum(abs(stitches - due) for stitches, due in zip_longest(counted, shares, fillvalue=0))
        for shares in held
    )


def _number_of_needles(request: NeedleRequest) -> int:
    if request.split is not None:
        return len(request.split)
    return request.needles or len(request.counted or ())


def _check(stitches: int, request: NeedleRequest) -> None:
    """Refuse needles that do not go with the stitches or the count."""
    if request.flat and (request.split is not None or request.needles is not None):
        raise Impossible(
            say("count.flat"),
            code="cannot_be_worked",
            pointer="#/split" if request.split is not None else f"{request.pointer}/needles",
            nearest=say("count.flat.nearest"),
        )
    if request.split is not None and sum(request.split) != stitches:
        raise Impossible(
            say_count("count.split_differs", stitches, split=sum(request.split)),
            code="contradiction",
            pointer="#/split",
            nearest=say_count("count.split_differs.nearest", stitches),
            suggested=None,
        )
    counted, needles = len(request.counted or ()), _number_of_needles(request)
    if counted > needles:
        raise Impossible(
            say("count.too_many_needles", counted=counted, needles=needles),
            code="contradiction",
            pointer="#/needles",
            nearest=say_count("count.too_many_needles.nearest", needles),
        )


def _best(borders: BoundaryPaths, needles: int, request: NeedleRequest) -> Needles | None:
    """The split as the work asks for it; None where it asks for none and there are too few stitches."""
    try:
        return split_in_repeats(borders, needles, request.tolerance, request.repeat).split
    except Impossible as error:
        if request.needles is None:
            return None
        pointer = request.pointer + error.pointer.removeprefix("#")
        raise Impossible(error.detail, code=error.code, pointer=pointer, nearest=error.nearest) from error


def _assumed(needles: Needles) -> Notice:
    return Notice(
        code="split_assumed",
        message=say("count.split_assumed", needles=", ".join(map(str, needles))),
        pointer="#/split",
    )
