"""Yarn in a stitch: by the gauge, or by a swatch counted and weighed.

Relaxed plain knit has a law: loop length squared times stitches in an area is a constant, ks. It is known as a range,
from fabric off the needles to fabric fully relaxed; labels and gauges are a few per cent off as well, and so every
estimate is a range. A weighed swatch needs no law.
"""

from functools import cache
from math import hypot, sqrt
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import COMMON_PRACTICE, Basis, Impossible, Notice
from roundwright.knitting.gauge.convert import YarnWeight, between_classes
from roundwright.knitting.quantities import (
    SHAPE_BASIS,
    Gauge,
    Mass,
    g,
    row_height_mm,
    rows_assumed,
    stitch_width_mm,
)
from roundwright.knitting.yarn.amount import YarnRange
from roundwright.knitting.yarn.label import Strand, Yarn, strand_of
from roundwright.knitting.yarn.weight_class import CLASS_BASIS, label_contradicts_gauge, weight_classes
from roundwright.knitting.yarn.yarn_count import COUNT_BASIS
from roundwright.language import say

MOST_SWATCH: Final = 1_000
"""Stitches or rows of a swatch that is weighed: nobody swatches a thousand."""
SWATCH_AGREES: Final = 0.25
"""How far a swatch's loop may be from the law's before a warning: a quarter, wider than the range of ks."""

LABEL_UNCERTAINTY: Final = 0.05
"""Share by which a ball is longer or shorter than its label says (common practice)."""
GAUGE_UNCERTAINTY: Final = 0.03
"""Share by which a knitter's gauge differs from the swatch's, and with it the loop (common practice)."""

OTHER_THICKNESS: Final = 0.25
"""How much heavier a metre of a yarn may be than the one it replaces before a warning: as within a class of yarn."""

LOOP_BASIS: Final = Basis(
    say("yarn.loop_basis"),
    "Doyle 1953; Munden, J. Text. Inst. 50 (1959) T448; 4.2 × 5.5 as in GATE Textile 2015, question 54; "
    "dry and wet constants from memory",
)
SWATCH_BASIS: Final = Basis(
    say("yarn.swatch_basis"),
    COMMON_PRACTICE,
)

ONE_GRAM: Final = Mass(1.0, "g")
Scale = Annotated[
    Mass, Meta(description="Smallest step the scale shows, 1 g on most kitchen scales. Default 1 g.")
]


class Swatch(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A swatch, counted and weighed."""

    stitches: Annotated[int, Meta(ge=1, le=MOST_SWATCH, description="Stitches in a row of the swatch.")]
    rows: Annotated[
        int, Meta(ge=1, le=MOST_SWATCH, description="Rows worked, cast-on and cast-off with them.")
    ]
    mass: Annotated[Mass, Meta(description="What the swatch weighs.")]
    scale: Scale = ONE_GRAM


class Fabric(NamedTuple):
    """The fabric to be knitted: its gauge, its yarn, and the yarn in a stitch, all strands held together."""

    gauge: Gauge | None
    yarn: Yarn | None
    strand: Strand
    per_stitch: YarnRange
    basis: tuple[Basis, ...]
    warnings: tuple[Notice, ...]
    yarn_at: str  # pointer to the yarn in the request

    @property
    def weights(self) -> tuple[YarnWeight, ...]:
        """The weight classes of the yarn, by its label or by the gauge."""
        return weight_classes(self.gauge, self.strand)


def fabric_of(
    gauge: Gauge | None,
    yarn: Yarn | None,
    swatch: Swatch | None = None,
    root: str = "#",
    yarn_at: str = "#/yarn",
) -> Fabric:
    """The yarn in a stitch, by a weighed swatch where there is one, else by the gauge.

    `root` is the pointer to the parent of gauge and swatch in the request, `yarn_at` the pointer to the yarn.
    Raises `Impossible` without either, for a gauge out of reach, and for a label that says too little.
    """
    strand = strand_of(yarn, yarn_at)
    _check_label(strand, weighed=swatch is not None, pointer=yarn_at)
    count_basis = (COUNT_BASIS,) if yarn and yarn.count else ()
    class_basis = () if strand.tex is None else (CLASS_BASIS,)
    contradiction = label_contradicts_gauge(gauge, strand, yarn_at)
    if swatch is not None:
        per_stitch = yarn_by_swatch(swatch, strand, f"{root}/swatch")
        warnings = (*_disagreement(per_stitch, gauge, strand, root), *contradiction)
        return Fabric(
            gauge, yarn, strand, per_stitch, (SWATCH_BASIS, *count_basis, *class_basis), warnings, yarn_at
        )
    if gauge is None:
        raise Impossible(
            say("yarn.needs_gauge"),
            code="needs_another",
            pointer=f"{root}/gauge",
            nearest=say("yarn.gauge_or_swatch"),
        )
    per_stitch = yarn_by_gauge(gauge, strand, f"{root}/gauge")
    shape_basis = (SHAPE_BASIS,) if gauge.rows is None else ()
    basis = (LOOP_BASIS, span_basis(), *shape_basis, *count_basis, *class_basis)
    between = between_classes(gauge, f"{root}/gauge")
    warnings = (*rows_assumed(gauge, f"{root}/gauge"), *between, *contradiction)
    return Fabric(gauge, yarn, strand, per_stitch, basis, warnings, yarn_at)


def in_other_yarn(fabric: Fabric, yarn: Yarn, pointer: str) -> Fabric:
    """The same stitches in another yarn: as long a loop of every strand, in its balls.

    Raises `Impossible` for a label that says too little, and where the fabric is known by mass alone.
    """
    strand = strand_of(yarn, pointer)
    _check_label(strand, weighed=False, pointer=pointer)
    if fabric.per_stitch.expected.mm is None:
        raise Impossible(
            say("yarn.weighed_without_length"),
            code="needs_another",
            pointer=pointer,
            nearest=say("yarn.length_and_mass_weighed"),
        )
    low, expected, high = (
        strand.of_length((quantity.mm or 0.0) / fabric.strand.held * strand.held)
        for quantity in fabric.per_stitch
    )
    warnings = (
        *label_contradicts_gauge(fabric.gauge, strand, pointer),
        *_other_thickness(fabric.strand, strand, pointer),
    )
    return fabric._replace(
        yarn=yarn,
        strand=strand,
        per_stitch=YarnRange(low, expected, high),
        warnings=warnings,
        yarn_at=pointer,
    )


def _other_thickness(strand: Strand, other: Strand, pointer: str) -> tuple[Notice, ...]:
    """The warning for a yarn much thicker or thinner than the one it replaces."""
    if strand.tex is None or other.tex is None:
        return ()
    ratio = other.tex * other.held / (strand.tex * strand.held)
    if 1 / (1 + OTHER_THICKNESS) <= ratio <= 1 + OTHER_THICKNESS:
        return ()
    return (
        Notice(
            code="other_yarn_differs",
            message=say(
                "yarn.other_is_heavier" if ratio > 1 else "yarn.other_is_lighter",
                percent=100 * abs(ratio - 1),
            ),
            pointer=pointer,
        ),
    )


def yarn_by_gauge(gauge: Gauge, strand: Strand, pointer: str = "#/gauge") -> YarnRange:
    """Yarn in a stitch by the law of relaxed plain knit. Raises `Impossible` for a gauge out of reach."""
    _, expected_ks, _ = _area_constants()
    expected = strand.of_length(strand.held * loop_length_mm(gauge, expected_ks, pointer))
    less, more = span_shares()
    return YarnRange(expected.times(1 - less), expected, expected.times(1 + more))


@cache
def span_shares() -> tuple[float, float]:
    """Shares of the expected yarn by which it may be less and may be more.

    The label, the gauge and the constants are independent, so their shares combine as the root of the sum of their
    squares (JCGM 100:2008, 5.1.2). The loop is as long as a stitch is wide (l = kw / W), so a gauge 3 % off is a loop
    3 % off.
    """
    low, expected, high = (sqrt(ks) for ks in _area_constants())
    less, more = (
        hypot(constants, LABEL_UNCERTAINTY, GAUGE_UNCERTAINTY)
        for constants in (1 - low / expected, high / expected - 1)
    )
    return less, more


@cache
def span_basis() -> Basis:
    """How wide the span of an estimate by gauge is, and why."""
    less, more = span_shares()
    return Basis(
        say(
            "yarn.span_basis",
            label=100 * LABEL_UNCERTAINTY,
            gauge=100 * GAUGE_UNCERTAINTY,
            less=-100 * less,
            more=100 * more,
        ),
        "combination: JCGM 100:2008, 5.1.2; label and gauge: common practice",
    )


def yarn_by_swatch(swatch: Swatch, strand: Strand, pointer: str = "#/swatch") -> YarnRange:
    """Yarn in a stitch by weighing a swatch.

    Raises `Impossible` for a swatch lighter than one step of the scale.
    """
    mass_g, scale_g = g(swatch.mass), g(swatch.scale)
    if mass_g < scale_g:
        raise Impossible(
            say("yarn.scale_too_coarse", scale=scale_g, mass=mass_g),
            code="out_of_range",
            pointer=f"{pointer}/mass",
            nearest=say("yarn.larger_swatch", scale=scale_g),
        )
    stitches = swatch.stitches * swatch.rows
    return YarnRange(
        strand.of_mass((mass_g - scale_g / 2) / stitches),
        strand.of_mass(mass_g / stitches),
        strand.of_mass((mass_g + scale_g / 2) / stitches),
    )


def loop_length_mm(gauge: Gauge, ks: float, pointer: str = "#/gauge") -> float:
    """Length of yarn in a stitch, l = sqrt(ks / S) (Munden 1959). Raises `Impossible` for a gauge out of reach."""
    return sqrt(ks * stitch_width_mm(gauge, pointer) * row_height_mm(gauge, pointer))


@cache
def _area_constants() -> tuple[float, ...]:
    """The area constant ks off the needles, as a washed and dried hat has it, and fully relaxed."""
    by_state = reference.loop_constants()
    return tuple(by_state[state].ks for state in ("dry-relaxed", "wet-relaxed", "fully-relaxed"))


def _check_label(strand: Strand, *, weighed: bool, pointer: str) -> None:
    """Raise `Impossible` where a ball's length is needed and only its mass is known, or the reverse."""
    if strand.tex is not None or (strand.ball_mm if weighed else strand.ball_g) is None:
        return
    raise Impossible(
        say("yarn.not_how_heavy") if weighed else say("yarn.not_how_long"),
        code="needs_another",
        pointer=pointer,
        nearest=say("yarn.length_and_mass"),
    )


def _disagreement(
    per_stitch: YarnRange, gauge: Gauge | None, strand: Strand, root: str
) -> tuple[Notice, ...]:
    """The warning for a swatch whose loops are far from those of its gauge."""
    swatch_mm = per_stitch.expected.mm
    if gauge is None or swatch_mm is None:
        return ()
    law_mm = yarn_by_gauge(gauge, strand, f"{root}/gauge").expected.mm
    assert law_mm is not None
    if abs(swatch_mm / law_mm - 1) <= SWATCH_AGREES:
        return ()
    return (
        Notice(
            code="swatch_far_from_gauge",
            message=say("yarn.swatch_far_from_gauge", by_swatch=swatch_mm, by_gauge=law_mm),
            pointer=f"{root}/swatch",
        ),
    )
