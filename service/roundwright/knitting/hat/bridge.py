"""Bridge: brim, body and crown on counts of their own, and the round between two that leads from one to the other."""

from math import lcm, log
from typing import Final, NamedTuple

from msgspec import UNSET
from msgspec.structs import replace

from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible, Notice
from roundwright.knitting.crown.crown import CrownAnswer, crown_multiple
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES
from roundwright.knitting.gauge.convert import likely_gauge
from roundwright.knitting.hat.numbering import numbered_crown
from roundwright.knitting.hat.part_gauge import body_gauge, brim_gauge
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.needles.best_split import NeedleSplit
from roundwright.knitting.needles.boundaries import boundary_paths
from roundwright.knitting.needles.tracking import track_needles_along
from roundwright.knitting.needles.whole_repeats import split_in_repeats
from roundwright.knitting.quantities import Gauge, Length, mm, quantity_text, stitch_width_mm
from roundwright.knitting.rounds import balanced_words
from roundwright.knitting.rounds.round import Multiple, Repeat, Round, Steps, StitchName, nearest_count
from roundwright.knitting.rounds.spread import spread
from roundwright.knitting.rounds.work_round import work_round
from roundwright.knitting.sizing.cast_on import (
    COARSE_PERCENT,
    FEWEST_STITCHES,
    CastOnAnswer,
    ease_for,
    work_cast_on,
)
from roundwright.knitting.sizing.heads import Head
from roundwright.language import joined, say

INCREASE: Final[StitchName] = "kfb"
"""Published: Patons PAK0416, 64 to 88 stitches by kfb in the first rounds after the rib. It needs no stitch beside it,
so it never lies between two needles."""
DECREASE: Final[StitchName] = "k2tog"

COUNTS_BASIS: Final = Basis(
    say("hat.counts_basis"),
    "published tutorials; see /v1/standards",
)
BRIDGE_BASIS: Final = Basis(
    say("hat.bridge_basis"),
    "Patons PAK0416-030197M (2020): 64 to 88 stitches after the rib; " + COMMON_PRACTICE,
)


NEAR: Final = 2 / 3
"""Stitches of brim and body to the same width that are taken as knitted from one yarn: ribs and textures lie within."""


class HatCounts(NamedTuple):
    """The stitches of brim, body and crown of one size."""

    cast_on: CastOnAnswer
    body: int
    crown: int
    warnings: tuple[Notice, ...] = ()

    @property
    def in_turn(self) -> tuple[int, int, int]:
        """The stitches of brim, body and crown."""
        return self.cast_on.stitches, self.body, self.crown

    @property
    def is_bridged(self) -> bool:
        """Whether a round leads from the count of the brim to that of the body."""
        return self.body != self.cast_on.stitches


def hat_counts(request: HatRequest, index: int, wearer: Head, at: str) -> HatCounts:
    """The cast-on, and the stitches of the body and of the crown.

    Cast-on and body are one count where that lies within half a repeat; else the cast-on is the nearest multiple of the
    rib, and the body the nearest of the crown's. The crown has the count of the body where that makes it about as wide
    at the gauge of the hat, else one that does. Raises `Impossible` for a head that takes more stitches than any hat,
    and for gauges of brim and body that are not of one yarn.
    """
    fullness = request.body_of(index).fullness or 0.0
    rib, of_crown = request.brim.repeat, crown_multiple(request.crown)
    # Stitches of the body to the width of one of the brim.
    ratio = brim_gauge(request, at).width_mm / body_gauge(request, index, at).width_mm
    counts = None if fullness else _one_count(request, wearer, rib, of_crown, ratio=ratio, at=at)
    if counts is None:
        _require_one_width(request, index, wearer, ratio, at)
    counts = counts or _two_counts(
        request, wearer, Multiple(of_crown), (1 + fullness / 100) * ratio, at, fuller=fullness > 0
    )
    counts = counts._replace(crown=_of_crown(request, index, counts.body, Multiple(of_crown), at))
    most = max(counts.in_turn)
    if most > MOST_CROWN_STITCHES:
        likely = likely_gauge(request.gauge)
        raise Impossible(
            say("hat.too_many_around", stitches=most),
            code="out_of_range",
            pointer=f"{at}/gauge/stitches",
            nearest=say("hat.coarser_gauge", stitches=MOST_CROWN_STITCHES)
            if likely is None
            else say("gauge.likely", stitches=likely.stitches, rows=likely.rows),
            suggested=UNSET if likely is None else likely.stitches,
        )
    return counts


def _one_count(
    request: HatRequest, wearer: Head, rib: int, of_crown: int, *, ratio: float, at: str
) -> HatCounts | None:
    """One count for both; None where two come nearer."""
    common = Multiple(lcm(rib, of_crown))
    if rib > 1 or ratio != 1:
        exact = _cast_on(request, wearer, Multiple(rib), at).exact
        count = nearest_count(exact, common, FEWEST_STITCHES)
        if max(abs(count - exact), abs(count - exact * ratio)) > max(rib, of_crown) / 2:
            return None
    cast_on = _cast_on(request, wearer, common, at)
    return HatCounts(cast_on, cast_on.stitches, cast_on.stitches)


def _two_counts(
    request: HatRequest, wearer: Head, of_crown: Multiple, times: float, at: str, *, fuller: bool
) -> HatCounts:
    """The nearest count for each; the body has so many `times` the stitches of the brim.

    A `fuller` body goes by the stitches that the brim has, another by those that it should have.
    """
    of_brim = Multiple(request.brim.repeat) if request.brim.is_ribbed else of_crown
    cast_on = _cast_on(request, wearer, of_brim, at)
    exact = (cast_on.stitches if fuller else cast_on.exact) * times
    body = nearest_count(exact, of_crown, FEWEST_STITCHES)
    if body > cast_on.stitches:  # one round makes at most two of each stitch
        body = max(min(body, 2 * cast_on.stitches // of_crown.of * of_crown.of), of_crown.of)
    if not cast_on.stitches / 2 <= body <= cast_on.stitches * 2:
        raise Impossible(
            say("hat.bridge_too_far", of=of_crown.of, exact=exact, body=body, brim=cast_on.stitches),
            code="does_not_divide",
            pointer=f"{at}/crown/sections",
            nearest=say("hat.sections", sections=max(2, cast_on.stitches // 8)),
        )
    return HatCounts(cast_on, body, body, _coarse(body, exact, cast_on, at))


def _of_crown(request: HatRequest, index: int, body: int, multiple: Multiple, at: str) -> int:
    """The stitches with which the crown, at the gauge of the hat, is as wide as the body: its own where they are near.

    One round makes at most two of each stitch, or one of two.
    """
    exact = body * body_gauge(request, index, at).width_mm / stitch_width_mm(request.gauge)
    if abs(exact / body - 1) <= COARSE_PERCENT / 100:
        return body
    least = -(-body // (2 * multiple.of)) * multiple.of
    most = 2 * body // multiple.of * multiple.of
    return min(max(nearest_count(exact, multiple, FEWEST_STITCHES), least), most)


def _require_one_width(request: HatRequest, index: int, wearer: Head, ratio: float, at: str) -> None:
    """Raise `Impossible` for gauges of brim and body that no single round leads from one to the other.

    A round makes at most two of each stitch, and one of two; half a repeat is for the rounding to rib and crown.
    Farther apart one of the swatches was counted over another length: most often over an inch.
    """
    repeat = max(request.brim.repeat, crown_multiple(request.crown))
    brim = _cast_on(request, wearer, Multiple(request.brim.repeat), at).exact
    body = brim * ratio
    if brim / 2 - repeat / 2 <= body <= 2 * brim + repeat / 2:
        return
    pointer, coarse = _coarser_gauge(request, index, ratio, at)
    in_an_inch = Length(1.0, "in")
    inch = mm(in_an_inch) / mm(coarse.over)
    if NEAR <= ratio * (inch if ratio > 1 else 1 / inch) <= 1 / NEAR:
        suggested_at, suggested = f"{pointer}/over", {"value": in_an_inch.value, "unit": in_an_inch.unit}
        nearest = say("hat.counted_over_an_inch", stitches=coarse.stitches)
    else:
        suggested_at, suggested = _own_gauge(request, index, at), None
        nearest = say("hat.gauge_of_the_hat")
    raise Impossible(
        say(
            "hat.gauges_too_far",
            brim=brim,
            body=body,
            stitches=coarse.stitches,
            over=quantity_text(coarse.over),
        ),
        code="contradiction",
        pointer=pointer,
        nearest=nearest,
        suggested=suggested,
        suggested_at=suggested_at,
    )


def _coarser_gauge(request: HatRequest, index: int, ratio: float, at: str) -> tuple[str, Gauge]:
    """The gauge of the part with the wider stitches, and where it stands: a part without its own has the hat's."""
    if ratio > 1:
        return (
            (f"{at}/brim/gauge", request.brim.gauge) if request.brim.gauge else (f"{at}/gauge", request.gauge)
        )
    own = request.sizes[index].body
    if own is not None and own.gauge is not None:
        return f"{at}/sizes/{index}/body/gauge", own.gauge
    return (f"{at}/body/gauge", request.body.gauge) if request.body.gauge else (f"{at}/gauge", request.gauge)


def _own_gauge(request: HatRequest, index: int, at: str) -> str:
    """Where the gauge of a part stands without which brim and body are of one yarn, or nearest to it."""
    own = request.sizes[index].body
    of_body = request.body_of(index).gauge
    body_at = f"{at}/body/gauge" if own is None or own.gauge is None else f"{at}/sizes/{index}/body/gauge"
    if request.brim.gauge is None or of_body is None:
        return body_at if request.brim.gauge is None else f"{at}/brim/gauge"
    hat = stitch_width_mm(request.gauge)
    brim, body = stitch_width_mm(request.brim.gauge), stitch_width_mm(of_body)
    return f"{at}/brim/gauge" if abs(log(body / hat)) < abs(log(brim / hat)) else body_at


def _cast_on(request: HatRequest, wearer: Head, multiple: Multiple, at: str) -> CastOnAnswer:
    """The cast-on to a multiple; what is said of the multiple points to the rib or the crown that it comes from."""
    gauge = request.brim.gauge or request.gauge
    by_rib = request.brim.is_ribbed and multiple.of == request.brim.repeat
    pointer = f"{at}/brim/rib" if by_rib else f"{at}/crown/sections"
    try:
        answer = work_cast_on(
            wearer, ease_for(wearer, request.ease), gauge, multiple, request.units, pointer=at
        )
    except Impossible as error:
        if error.pointer != f"{at}/multiple":
            raise
        nearest = say("hat.smaller_rib") if by_rib else say("hat.fewer_sections")
        raise Impossible(error.detail, code=error.code, pointer=pointer, nearest=nearest) from error
    warnings = tuple(
        replace(
            notice,
            message=notice.message
            if by_rib
            else joined(" ", notice.message, say("hat.repeat_of_crown", of=multiple.of)),
            pointer=pointer,
        )
        if notice.pointer == f"{at}/multiple"
        else notice
        for notice in answer.warnings
    )
    return replace(answer, warnings=warnings)


def _coarse(body: int, exact: float, cast_on: CastOnAnswer, at: str) -> tuple[Notice, ...]:
    """A warning where the body is much wider or narrower than requested."""
    percent_per_stitch = (cast_on.ease.percent + 100) / cast_on.stitches
    if abs(body - exact) * percent_per_stitch <= COARSE_PERCENT:
        return ()
    return (
        Notice(
            code="multiple_coarse",
            message=say("hat.body_multiple_coarse", exact=exact, body=body),
            pointer=f"{at}/crown/sections",
        ),
    )


# --- the round between ------------------------------------------------------------------------------------------


def bridging_round(number: int, before: int, after: int) -> Round:
    """The round from one count to the other, evenly spread; `number` is its number in its part."""
    method = INCREASE if after > before else DECREASE
    changes = abs(after - before)
    steps = spread(before, changes, method)
    if _is_nested(steps):
        steps = _in_alike_halves(spread(before, changes, method, arrangement="grouped"))
    return work_round(number, before, steps, "adjust")


def _in_alike_halves(grouped: Steps) -> Steps:
    """Wide sections, then narrow ones, with half of the wide ones moved to the end.

    So both halves of a loop change by as much, and stay even where they were, which saves slides in the crown.
    """
    wide, narrow = grouped
    assert isinstance(wide, Repeat)  # a section alone would not have been nested
    first = -(-wide.times // 2)
    return balanced_words.joined(
        balanced_words.times(first, wide.steps),
        (narrow,),
        balanced_words.times(wide.times - first, wide.steps),
    )


def _is_nested(steps: Steps) -> bool:
    """Whether a repeat stands in another: brackets in brackets are hard to follow."""
    return any(
        isinstance(inner, Repeat) for step in steps if isinstance(step, Repeat) for inner in step.steps
    )


def bridged_crown(crown: CrownAnswer, body: int) -> CrownAnswer:
    """The crown on the stitches of the body, with the round to its own count as its first; without where it is theirs.

    In a hat no crown begins with another adjusting round: its count is a multiple of its sections.
    """
    if body == crown.stitches:
        return crown
    above = numbered_crown(crown, 2)
    return replace(
        above,
        stitches=body,
        rounds=(bridging_round(1, body, crown.stitches), *above.rounds),
        stitches_worked=crown.stitches_worked + crown.stitches,
    )


class OnNeedles(NamedTuple):
    """A bridging round and a crown with the stitches on each needle, and the split of the cast-on."""

    split: NeedleSplit
    bridge: Round | None
    crown: CrownAnswer


def on_needles(  # noqa: PLR0917 - the needles, the rib and the rounds
    needles: int, tolerance: int, repeat: int, hold: str, bridge: Round | None, crown: CrownAnswer
) -> OnNeedles:
    """The best split of the cast-on, in whole repeats, over all rounds from the first that changes a count.

    Raises `Impossible` where the stitches cannot be shared out so.
    """
    shaped = crown.rounds if bridge is None else (bridge, *crown.rounds)
    paths = boundary_paths(shaped, shaped[0].before)
    split = split_in_repeats(paths, needles, tolerance, repeat)
    tracked = track_needles_along(paths, split.split, hold)
    if bridge is None:
        return OnNeedles(split, None, replace(crown, split=split, rounds=tracked))
    bridge, *rounds = tracked
    assert bridge.needles is not None
    before_crown = NeedleSplit(
        split=bridge.needles,
        straddles=sum(len(round.moves) for round in rounds),
        difference=max(bridge.needles) - min(bridge.needles),
    )
    return OnNeedles(split, bridge, replace(crown, split=before_crown, rounds=tuple(rounds)))
