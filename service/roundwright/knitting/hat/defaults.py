"""Defaults: what a request for a hat leaves open, filled in for all its sizes together."""

from collections.abc import Callable
from typing import TypeVar

from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import (
    MOST_CROWN_STITCHES,
    RULE_OF_THUMB,
    USUAL_ADULT_STYLE,
    USUAL_STYLE,
    CrownShape,
    style_of,
)
from roundwright.knitting.crown.styles import USUAL_SECTIONS, hat_sections, shared_hemisphere
from roundwright.knitting.hat.bridge import hat_counts
from roundwright.knitting.hat.request import HatRequest, require_size
from roundwright.knitting.quantities import stitch_width_mm
from roundwright.knitting.sizing.cast_on import FEWEST_STITCHES, ease_for, hat_mm
from roundwright.knitting.sizing.depth import SilhouetteName
from roundwright.knitting.sizing.heads import Head, head_of, is_adult_sized

AnyHat = TypeVar("AnyHat", bound=HatRequest)
Count = TypeVar("Count", int, float)


def with_defaults(request: AnyHat, at: str) -> AnyHat:
    """The request with what its silhouette chooses, the style of its crown and its sections, the same in all sizes.

    Raises `Impossible` for an ease or a gauge that no hat has, for an `only_size` that is not there, and for the heads
    of all sizes at once.
    """
    if request.only_size is not None:
        require_size(request.only_size, len(request.sizes), f"{at}/only_size")
    heads = _heads(request, at)
    if request.silhouette is not None:
        request = _with_silhouette(request, request.silhouette)
    crown = request.crown
    if crown.style is None:
        for_adults = any(head.youngest_months is None or is_adult_sized(head.mm) for head in heads)
        crown = replace(crown, style=USUAL_ADULT_STYLE if for_adults else USUAL_STYLE)
    if not style_of(crown).whole_sections and crown.sections is None:
        crown = _in_sections(crown, hat_sections(min(_widths(request, heads, at))))
    request = replace(request, crown=crown)
    if crown.follows_stitches is None and crown.style in ("dome", "swirl") and len(heads) > 1:
        shared = _shared_stitches(request, heads, at)
        crown = replace(crown, follows_stitches=min(max(shared, FEWEST_STITCHES), MOST_CROWN_STITCHES))
    return replace(request, crown=crown)


def _shared_stitches(request: HatRequest, heads: list[Head], at: str) -> int:
    """Stitches of the crown that all sizes follow: a dome the hemisphere between them, a swirl the largest size's."""
    if request.crown.style == "dome":
        widths = _widths(request, heads, at)
        return shared_hemisphere(min(widths), max(widths))
    return max(_of_sizes(request, lambda index: hat_counts(request, index, heads[index], at).crown))


def _widths(request: HatRequest, heads: list[Head], at: str) -> list[float]:
    """Stitches of the crown that go around the body of each size, not rounded."""
    return _of_sizes(
        request,
        lambda index: (
            hat_mm(heads[index].mm, ease_for(heads[index], request.ease), f"{at}/ease")
            / stitch_width_mm(request.gauge, f"{at}/gauge")
            * (1 + (request.body_of(index).fullness or 0) / 100)
        ),
    )


def _of_sizes(request: HatRequest, of_size: Callable[[int], Count]) -> list[Count]:
    """What `of_size` says of each size. Where `only_size` is made, a size that cannot be worked beside it has none."""
    found = []
    for index in range(len(request.sizes)):
        try:
            found.append(of_size(index))
        except Impossible:
            if request.only_size in (None, index + 1):
                raise
    return found


def _heads(request: HatRequest, at: str) -> list[Head]:
    """The head of every size. Raises `Impossible` for the first that is none, with the others as `also`."""
    heads: list[Head] = []
    faults: list[Impossible] = []
    for index, size in enumerate(request.sizes):
        try:
            heads.append(head_of(size, f"{at}/sizes/{index}", request.units))
        except Impossible as error:
            faults.append(error)
    if faults:
        faults[0].also = tuple(faults[1:])
        raise faults[0]
    return heads


def _with_silhouette(request: AnyHat, silhouette: SilhouetteName) -> AnyHat:
    """The request with the brim, the fullness and the crown of a silhouette, where it says nothing else."""
    row = reference.silhouettes()[silhouette]
    brim, body, crown = request.brim, request.body, request.crown
    if row.brim is not None and brim.kind is None:
        brim = replace(brim, kind=row.brim)
    if row.fullness_percent and body.fullness is None:
        body = replace(body, fullness=row.fullness_percent)
    if row.crown is not None and crown.style is None:
        crown = replace(crown, style=row.crown)
    return replace(request, brim=brim, body=body, crown=crown)


def _in_sections(crown: CrownShape, sections: int) -> CrownShape:
    """The crown in so many sections; a flat top by the published rule of thumb, 8 every second round.

    Fewer than 8 every second round are no flat top: their plain rounds come from the gauge.
    """
    cadence = crown.cadence
    if crown.style == "flat" and cadence is None and sections == USUAL_SECTIONS:
        cadence = RULE_OF_THUMB
    return replace(crown, sections=sections, cadence=cadence)
