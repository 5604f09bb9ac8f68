"""Defaults: what a request for a hat leaves open, filled in for all its sizes together."""

from typing import TypeVar

from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.request import (
    USUAL_ADULT_STYLE,
    USUAL_STYLE,
    Cadence,
    CrownShape,
    style_of,
)
from roundwright.knitting.crown.styles import USUAL_SECTIONS, hat_sections, shared_hemisphere
from roundwright.knitting.hat.bridge import hat_counts
from roundwright.knitting.hat.part_gauge import body_gauge
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.sizing.cast_on import FEWEST_STITCHES, hat_mm
from roundwright.knitting.sizing.depth import SilhouetteName
from roundwright.knitting.sizing.heads import Head, head_of, is_as_large_as_an_adults

AnyHat = TypeVar("AnyHat", bound=HatRequest)


def with_defaults(request: AnyHat, at: str) -> AnyHat:
    """The request with what its silhouette chooses, the style of its crown and its sections, the same in all sizes.

    Raises `Impossible` for a head, an ease or a gauge that no hat has; for the heads of all sizes at once.
    """
    heads = _heads(request, at)
    if request.silhouette is not None:
        request = _with_silhouette(request, request.silhouette)
    crown = request.crown
    if crown.style is None:
        for_adults = any(head.youngest_months is None or is_as_large_as_an_adults(head.mm) for head in heads)
        crown = replace(crown, style=USUAL_ADULT_STYLE if for_adults else USUAL_STYLE)
    if not style_of(crown).whole_sections:
        bodies = [
            hat_mm(head.mm, request.ease, f"{at}/ease")
            / body_gauge(request, index, at).width_mm
            * (1 + (request.body_of(index).fullness or 0) / 100)
            for index, head in enumerate(heads)
        ]
        if crown.sections is None:
            crown = _in_sections(crown, hat_sections(min(bodies)))
        if crown.style == "dome" and crown.follows_stitches is None and len(bodies) > 1:
            hemisphere = shared_hemisphere(min(bodies), max(bodies))
            crown = replace(crown, follows_stitches=max(FEWEST_STITCHES, hemisphere))
    request = replace(request, crown=crown)
    if crown.style == "swirl" and crown.follows_stitches is None and len(heads) > 1:
        most = max(hat_counts(request, index, head, at).body for index, head in enumerate(heads))
        return replace(request, crown=replace(crown, follows_stitches=most))
    return request


def _heads(request: HatRequest, at: str) -> list[Head]:
    """The head of every size. Raises `Impossible` for the first that is none, with the others as `also`."""
    heads: list[Head] = []
    faults: list[Impossible] = []
    for index, size in enumerate(request.sizes):
        try:
            heads.append(head_of(size, f"{at}/sizes/{index}"))
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
        cadence = Cadence(plain_rounds=1)
    return replace(crown, sections=sections, cadence=cadence)
