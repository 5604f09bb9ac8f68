"""Gauge of the parts of a hat: how wide a stitch and how high a round is in the brim and in the body."""

from math import sqrt
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.knitting.answers import Basis
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.quantities import Gauge, row_height_mm, stitch_width_mm
from roundwright.language import say

GARTER: Final = "garter-rows"
"""The row of the table of practice: rows of garter as high as a stitch is wide."""


class PartGauge(NamedTuple):
    """A stitch of a part."""

    width_mm: float
    row_mm: float


def brim_gauge(request: HatRequest, at: str = "#") -> PartGauge:
    """A stitch of the brim: by its own swatch; else as wide as in the hat, and in garter half as high as wide.

    Raises `Impossible` for a gauge that cannot be knitted.
    """
    own = request.brim.gauge
    if request.brim.edge == "garter" and (own is None or own.rows is None):
        width_mm = _part(request, own, at, "brim").width_mm
        rows = reference.practices()[GARTER].usual
        assert rows is not None
        return PartGauge(width_mm, width_mm / rows)
    return _part(request, own, at, "brim")


def body_gauge(request: HatRequest, index: int, at: str = "#") -> PartGauge:
    """A stitch of the body of one size: by its own swatch, else by that of the hat; raises as `brim_gauge` does."""
    return _part(request, request.body_of(index).gauge, at, "body")


def _part(request: HatRequest, own: Gauge | None, at: str, part: str) -> PartGauge:
    """A stitch by the part's own swatch; what that leaves open is the hat's."""
    hat = PartGauge(
        stitch_width_mm(request.gauge, f"{at}/gauge"), row_height_mm(request.gauge, f"{at}/gauge")
    )
    if own is None:
        return hat
    row_mm = hat.row_mm if own.rows is None else row_height_mm(own, f"{at}/{part}/gauge")
    return PartGauge(stitch_width_mm(own, f"{at}/{part}/gauge"), row_mm)


class PartLoops(NamedTuple):
    """Yarn in a stitch of brim and body, as shares of that at the gauge of the hat."""

    brim: float = 1.0
    body: float = 1.0


def part_loops(request: HatRequest, index: int, at: str = "#") -> PartLoops:
    """How much yarn is in a stitch of each part of one size, by the gauges of the parts.

    A loop is l = sqrt(ks / S) (Munden 1959), so two of one constant are as the roots of width times height; it is as
    long as its stitch is wide (l = kw / W) where only stitches were counted, and in garter, whose rows lie closer than
    those of the plain knit that the formula is for. Raises `Impossible` as `brim_gauge` does.
    """
    hat = _part(request, None, at, "brim")
    brim, body = request.brim.gauge, request.body_of(index).gauge
    return PartLoops(
        _loop(hat, brim, _part(request, brim, at, "brim"), by_width=request.brim.edge == "garter"),
        _loop(hat, body, _part(request, body, at, "body"), by_width=False),
    )


def _loop(hat: PartGauge, own: Gauge | None, part: PartGauge, *, by_width: bool) -> float:
    """The loop of a part as a share of the hat's; 1 where the part has no gauge of its own."""
    if own is None:
        return 1.0
    wider = part.width_mm / hat.width_mm
    return wider if by_width or own.rows is None else sqrt(wider * part.row_mm / hat.row_mm)


def gauge_basis(request: HatRequest) -> tuple[Basis, ...]:
    """The rule for the rounds of a garter brim, where there is one that was not counted on a swatch."""
    own = request.brim.gauge
    if request.brim.edge != "garter" or (own is not None and own.rows is not None):
        return ()
    row = reference.practices()[GARTER]
    return (Basis(say("hat.garter_basis"), reference.cite("practice", row)),)
