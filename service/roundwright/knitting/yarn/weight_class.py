"""Weight class of a yarn: by its own length to mass where a label says them, else by the gauge."""

from functools import lru_cache
from typing import Final

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Notice
from roundwright.knitting.gauge.convert import YarnWeight, class_text, yarn_weight, yarn_weights_of
from roundwright.knitting.quantities import Gauge, stitch_width_mm
from roundwright.knitting.yarn.label import Strand
from roundwright.language import Message, listed, say

CLASSES_APART: Final = 2
"""Classes between label and gauge that contradict each other; neighbours overlap in print, so one apart is usual."""

CLASS_BASIS: Final = Basis(
    say("yarn.class_basis"),
    COMMON_PRACTICE,
)


def weight_classes(gauge: Gauge | None, strand: Strand) -> tuple[YarnWeight, ...]:
    """The classes of the yarn, one strand of it: by its label, narrowed by the gauge, or by the gauge alone."""
    by_label = _label_classes(strand.tex, 1)
    by_gauge = () if gauge is None else yarn_weights_of(gauge)
    shared = tuple(weight for weight in by_label if strand.held == 1 and weight in by_gauge)
    return shared or by_label or by_gauge


def weight_classes_together(strand: Strand) -> tuple[YarnWeight, ...]:
    """The classes of all strands held together, by the label; none where it does not say."""
    return _label_classes(strand.tex, strand.held)


def label_contradicts_gauge(gauge: Gauge | None, strand: Strand, pointer: str) -> tuple[Notice, ...]:
    """The warning for a yarn far thinner or thicker than its gauge: `CLASSES_APART` classes or more."""
    by_label = _label_classes(strand.tex, strand.held)
    if gauge is None or not by_label or strand.tex is None:
        return ()
    by_gauge = yarn_weights_of(gauge)
    apart = min(abs(label.number - other.number) for label in by_label for other in by_gauge)
    if apart < CLASSES_APART:
        return ()
    return (
        Notice(
            code="label_contradicts_gauge",
            message=say(
                "yarn.label_contradicts_gauge" if strand.held == 1 else "yarn.label_contradicts_gauge.held",
                metres=1e5 / strand.tex,
                strands=strand.held,
                by_label=_listed(by_label),
                stitches=100 / stitch_width_mm(gauge),
                by_gauge=_listed(by_gauge),
            ),
            pointer=pointer,
        ),
    )


def _listed(weights: tuple[YarnWeight, ...]) -> Message:
    return listed(tuple(map(class_text, weights)), "or")


@lru_cache(maxsize=64)  # one yarn for all sizes
def _label_classes(tex: float | None, held: int) -> tuple[YarnWeight, ...]:
    """The classes whose usual length of 100 g the strands together have; between two classes both."""
    if tex is None:
        return ()
    metres = 1e5 / (tex * held)
    rows = reference.yarn_lengths()
    fitting = [row for row in rows if (row.metres_min or 0) <= metres <= row.metres_max]
    if not fitting:
        finer = [row for row in rows if (row.metres_min or 0) > metres]
        coarser = [row for row in rows if row.metres_max < metres]
        fitting = [*finer[-1:], *coarser[:1]]
    return tuple(yarn_weight(row.number) for row in fitting)
