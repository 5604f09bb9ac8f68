"""The fabric to be knitted: its yarn, and how much of it is in a stitch, by gauge or by a weighed swatch."""

from typing import Final, NamedTuple

from roundwright.knitting.answers import Basis, Impossible, Notice
from roundwright.knitting.quantities import SHAPE_BASIS, Gauge, rows_assumed
from roundwright.knitting.yarn.label import Strand, Yarn, strand
from roundwright.knitting.yarn.per_stitch import (
    LOOP_BASIS,
    SWATCH_BASIS,
    Rate,
    Swatch,
    rate_by_gauge,
    rate_by_swatch,
)
from roundwright.knitting.yarn.yarn_count import COUNT_BASIS

SWATCH_AGREES: Final = 0.25
"""How far a swatch's loop may be from the law's before a remark: a quarter, wider than the span of ks."""


class Fabric(NamedTuple):
    """What an estimate needs to know of the yarn and the fabric: made by `fabric`, once a request."""

    gauge: Gauge | None
    yarn: Yarn | None
    strand: Strand
    rate: Rate
    basis: tuple[Basis, ...]
    warnings: tuple[Notice, ...]


def fabric(
    gauge: Gauge | None,
    yarn: Yarn | None,
    swatch: Swatch | None = None,
    root: str = "#",
    yarn_at: str = "#/yarn",
) -> Fabric:
    """The yarn in a stitch, by a weighed swatch where there is one, else by the gauge.

    `root` is the pointer under which gauge and swatch stand in the request, `yarn_at` that of the yarn.
    Raises `Impossible` without either, for a gauge out of reach, and for a label that tells too little.
    """
    made_out = strand(yarn, yarn_at)
    _label_suffices(made_out, weighed=swatch is not None, pointer=yarn_at)
    counted = (COUNT_BASIS,) if yarn and yarn.count else ()
    if swatch is not None:
        rate = rate_by_swatch(swatch, made_out, f"{root}/swatch")
        warnings = _disagreement(rate, gauge, made_out, root)
        return Fabric(gauge, yarn, made_out, rate, (SWATCH_BASIS, *counted), warnings)
    if gauge is None:
        raise Impossible(
            "Nothing tells how much yarn is in a stitch.",
            pointer=f"{root}/gauge",
            nearest="a gauge, or a swatch counted and weighed",
        )
    shape = (SHAPE_BASIS,) if gauge.rows is None else ()
    rate = rate_by_gauge(gauge, made_out, f"{root}/gauge")
    warnings = rows_assumed(gauge, f"{root}/gauge")
    return Fabric(gauge, yarn, made_out, rate, (LOOP_BASIS, *shape, *counted), warnings)


def _label_suffices(yarn: Strand, *, weighed: bool, pointer: str) -> None:
    """Raise `Impossible` where a ball's length is needed and only its mass is known, or the reverse."""
    if yarn.tex is not None or (yarn.ball_mm if weighed else yarn.ball_g) is None:
        return
    raise Impossible(
        "The label says how long a ball is, but not how heavy: a weighed swatch needs its mass."
        if weighed
        else "The label says how heavy a ball is, but not how long.",
        pointer=pointer,
        nearest="both the length and the mass of a ball",
    )


def _disagreement(rate: Rate, gauge: Gauge | None, yarn: Strand, root: str) -> tuple[Notice, ...]:
    """The warning that goes with a swatch whose loops are far from those of its gauge."""
    if gauge is None or rate.measure.in_mm is None:
        return ()
    swatch_mm = rate.span.expected * rate.measure.in_mm
    law_mm = rate_by_gauge(gauge, yarn, f"{root}/gauge").span.expected
    if abs(swatch_mm / law_mm - 1) <= SWATCH_AGREES:
        return ()
    return (
        Notice(
            code="swatch_far_from_gauge",
            message=f"By the swatch a stitch holds {swatch_mm:.3g} mm of yarn, by the gauge about "
            f"{law_mm:.3g} mm. The swatch was believed; check its count, its mass and the label of the yarn.",
            pointer=f"{root}/swatch",
        ),
    )
