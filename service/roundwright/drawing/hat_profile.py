"""Hat profile: the finished hat from the side, to scale, with brim, body and crown.

The crown is the surface of revolution of its geometry. The hat is not stretched, and the head is dotted behind it. The
rounds begin at the back.
"""

from collections.abc import Iterator
from math import cos, pi, sin
from typing import Final

from roundwright.drawing.chart_symbols import ring_of
from roundwright.drawing.outline import TURNED_OUT_MM, Outline, Projection, outline_of, projection_for
from roundwright.drawing.rulers import rulers
from roundwright.drawing.svg import Markup, Picture, element, joined, px
from roundwright.drawing.theme import WIDTH, Block, KeyEntry, Theme, page, text_line
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import Brim
from roundwright.knitting.quantities import MM_IN, LengthUnit, mm

COLUMNS: Final = 14
"""Columns of stitches across the front."""
MAX_BENDS: Final = 24
"""Points of a column in the crown: with more it looks no rounder."""
MAX_RIBS: Final = 48
"""Ribs drawn across the front: more than that look like one area."""


def hat_profile(plan: HatPlan, brim: Brim, *, title: str | None = None, theme: Theme = "auto") -> Picture:
    """One size of a hat from the side; lengths are in the unit of the plan."""
    outline = outline_of(plan, brim)
    unit: LengthUnit = plan.measurements.circumference.unit
    projection, height = projection_for(outline)
    markup = joined(
        (
            *_fabric(outline, projection),
            _head(outline, projection),
            *_decreases(plan.crown, outline, projection),
            *_outline(outline, brim, projection),
            *_brim(outline, brim, plan, projection),
            *rulers(outline, projection, unit),
            *_heights(outline, projection, unit),
        )
    )
    return page(
        "hat-profile",
        Block(markup, height),
        width=WIDTH,
        title=title or plan.label[:1].upper() + plan.label[1:],
        description=_description(plan, outline, brim, unit),
        subtitles=(
            _measurements(plan, unit),
            f"From the side, to scale, not stretched.{_crown_position(plan.crown)}",
        ),
        entries=_key(plan, brim, unit),
        theme=theme,
    )


# --- the hat --------------------------------------------------------------------------------------------------


def _fabric(outline: Outline, projection: Projection) -> Iterator[Markup]:
    """The area of the hat, and some of its columns of stitches, which narrow with the crown."""
    yield element("path", d=_silhouette(outline, projection), class_="tint")
    step = -(-len(outline.crown) // MAX_BENDS)
    bends = (
        (outline.radius_mm, 0.0),
        (outline.radius_mm, outline.straight_mm),
        *outline.crown[::step],
        outline.crown[-1],
    )
    columns = [
        "M"
        + "L".join(
            [projection.point(-radius * cos(pi * column / COLUMNS), height) for radius, height in bends]
        )
        for column in range(1, COLUMNS)
    ]
    yield element("path", d="".join(columns), class_="s hair", stroke_width=0.7)


def _silhouette(outline: Outline, projection: Projection) -> str:
    side = ((outline.radius_mm, 0.0), (outline.radius_mm, outline.straight_mm), *outline.crown)
    left = [projection.point(-radius, height) for radius, height in side]
    right = [projection.point(radius, height) for radius, height in reversed(side)]
    return f"M{'L'.join([*left, *right])}Z"


def _head(outline: Outline, projection: Projection) -> Markup:
    """A hemisphere, and the tube below it down to the edge."""
    radius = outline.head_radius_mm
    centre, arc_radius = outline.head_top_mm - radius, px(radius * projection.pixels_per_mm)
    low = min(0.0, centre)
    path = (
        f"M{projection.point(-radius, low)}L{projection.point(-radius, centre)}"
        f"A{arc_radius} {arc_radius} 0 0 1 {projection.point(radius, centre)}L{projection.point(radius, low)}"
    )
    return element(
        "path",
        d=path,
        class_="s softline",
        stroke_width=2.2,
        stroke_dasharray="0 5.5",
        stroke_linecap="round",
    )


def _brim(outline: Outline, brim: Brim, plan: HatPlan, projection: Projection) -> Iterator[Markup]:
    """The texture of the brim; a turned-up brim lies over the hat."""
    radius, height = outline.radius_mm, outline.brim_mm
    if brim.kind == "garter":
        rows = max(1, plan.brim.rounds // 2)
        step = max(height / rows, 3 / projection.pixels_per_mm)
        lines = [
            f"M{projection.point(-radius, step * (row + 0.5))}H{px(projection.x(radius))}"
            for row in range(int(height / step))
        ]
    elif brim.kind in ("ribbed", "folded"):
        if brim.kind == "folded":
            radius += TURNED_OUT_MM
            yield element(
                "path",
                d=_band(radius, height, projection),
                class_="tint line",
                stroke_width=1.6,
                stroke_linejoin="round",
            )
        ribs = min(plan.cast_on.stitches // (brim.rib.knit + brim.rib.purl) // 2, MAX_RIBS)
        lines = [
            f"M{projection.point(-radius * cos(pi * (rib + 0.5) / ribs), 0)}V{px(projection.y(height))}"
            for rib in range(ribs)
        ]
    else:
        return
    yield element("path", d="".join(lines), class_="s softline", stroke_width=1)


def _band(radius: float, height: float, projection: Projection) -> str:
    top, right, edge = px(projection.y(height)), px(projection.x(radius)), px(projection.y(0))
    return f"M{projection.point(-radius, 0)}V{top}H{right}V{edge}Z"


def _decreases(crown: CrownAnswer, outline: Outline, projection: Projection) -> Iterator[Markup]:
    """A dot for each decrease on the front; the rounds begin at the back."""
    flat = crown.worked == "flat"
    dots = []
    for round, (radius, height) in zip(crown.rounds, outline.crown[1:], strict=False):
        if round.after == round.before:
            continue
        ring = ring_of(round, from_behind=flat and round.number % 2 == 0)
        for mark in ring.marks:
            turn = 2 * pi * (mark.position + 0.5) / ring.stitches
            if cos(turn) < 0:
                dots.append(f"M{projection.point(radius * sin(turn), height)}h0")
    if dots:
        yield element("path", d="".join(dots), class_="s line", stroke_width=4, stroke_linecap="round")


def _outline(outline: Outline, brim: Brim, projection: Projection) -> Iterator[Markup]:
    """The outline over the fabric, and the lines where the brim ends and the crown begins."""
    yield element(
        "path", d=_silhouette(outline, projection), class_="s line", stroke_width=1.8, stroke_linejoin="round"
    )
    right = px(projection.x(outline.radius_mm))
    crown_start = f"M{projection.point(-outline.radius_mm, outline.straight_mm)}H{right}"
    yield element("path", d=crown_start, class_="s softline", stroke_width=1, stroke_dasharray="6 4")
    if brim.kind == "rolled" and outline.brim_mm:
        height = outline.brim_mm * projection.pixels_per_mm
        half_width = outline.radius_mm * projection.pixels_per_mm + height * 0.35
        yield element(
            "rect",
            x=projection.axis_x - half_width,
            y=projection.edge_y - height,
            width=2 * half_width,
            height=height,
            rx=height / 2,
            class_="tint line",
            stroke_width=1.6,
        )
    elif brim.kind in ("ribbed", "garter") and outline.brim_mm:
        brim_end = f"M{projection.point(-outline.radius_mm, outline.brim_mm)}H{right}"
        yield element("path", d=brim_end, class_="s line", stroke_width=1.2)


# --- heights --------------------------------------------------------------------------------------------------


def _heights(outline: Outline, projection: Projection, unit: LengthUnit) -> Iterator[Markup]:
    """The height of each part, beside it."""
    right = projection.x(max(outline.radius_mm + TURNED_OUT_MM, outline.head_radius_mm)) + 14
    parts = (
        ("brim", 0.0, outline.brim_mm),
        ("body", outline.brim_mm, outline.straight_mm),
        ("crown", outline.straight_mm, outline.top_mm),
    )
    text_y = projection.edge_y + 14
    for name, low, high in parts:
        if high - low < 0.05 and name != "crown":
            continue
        y_low, y_high = projection.y(low), projection.y(high)
        text_y = min((y_low + y_high) / 2 + 4, text_y - 15)
        if high - low > 0.05:
            bracket = f"M{px(right)} {px(y_low - 1)}h6V{px(y_high + 1)}h-6"
            yield element("path", d=bracket, class_="s line", stroke_width=1)
        text = joined((element("tspan", name, class_="b"), f" {_in_unit(high - low, unit)}"))
        yield text_line(right + 11, text_y, text, 12.5)


def _in_unit(length_mm: float, unit: LengthUnit) -> str:
    value = length_mm / MM_IN[unit]
    return f"{value:.1f}" if unit == "cm" else f"{value:.2f}"


# --- words ----------------------------------------------------------------------------------------------------


def _measurements(plan: HatPlan, unit: LengthUnit) -> str:
    sizes = plan.measurements
    circumference, depth, head = (
        _in_unit(mm(length), unit) for length in (sizes.circumference, sizes.depth, sizes.head)
    )
    return (
        f"{circumference} {unit} around, {depth} {unit} edge to top along the fabric, {plan.cast_on.stitches} "
        f"stitches; for a head of {head} {unit}."
    )


def _crown_position(crown: CrownAnswer) -> str:
    if crown.geometry is None or crown.geometry.lies == "domed":
        return ""
    if crown.geometry.lies == "flat":
        return " The crown lies flat and is seen on its edge."
    return " The crown gathers and is seen on its edge."


def _description(plan: HatPlan, outline: Outline, brim: Brim, unit: LengthUnit) -> str:
    crown = plan.crown
    sections = f" in {crown.sections} sections" if crown.sections else ""
    shape = f" {crown.geometry.text}" if crown.geometry else ""
    body = _in_unit(outline.straight_mm - outline.brim_mm, unit)
    return (
        f"{_measurements(plan, unit)} From the side: a {brim.kind} brim {_in_unit(outline.brim_mm, unit)} {unit} high, "
        f"a body of {body} {unit}, and a {crown.style} crown{sections}, "
        f"{_in_unit(outline.top_mm - outline.straight_mm, unit)} {unit} high.{shape}"
    )


# --- key ------------------------------------------------------------------------------------------------------


def _key(plan: HatPlan, brim: Brim, unit: LengthUnit) -> list[KeyEntry]:
    crown_start = element("path", d="M0 9H28", class_="s softline", stroke_width=1, stroke_dasharray="6 4")
    entries = [KeyEntry(crown_start, "first round of the crown")]
    if plan.crown.rounds:
        dots = element(
            "path", d="M5 4h0M13 9h0M21 14h0", class_="s line", stroke_width=4, stroke_linecap="round"
        )
        entries.append(KeyEntry(dots, "decreases"))
    head = element(
        "path",
        d="M1 15A13 13 0 0 1 27 15",
        class_="s softline",
        stroke_width=2.2,
        stroke_dasharray="0 5.5",
        stroke_linecap="round",
    )
    return [
        *entries,
        KeyEntry(head, f"a head of {_in_unit(mm(plan.measurements.head), unit)} {unit}"),
        KeyEntry(_brim_sign(brim), f"{brim.kind} brim"),
    ]


def _brim_sign(brim: Brim) -> Markup:
    ground = element(
        "rect",
        x=0,
        y=1,
        width=28,
        height=16,
        rx=8 if brim.kind == "rolled" else 0,
        class_="tint line",
        stroke_width=1,
    )
    lines = {"garter": "M0 6H28M0 11H28", "ribbed": "M5 1V17M11 1V17M17 1V17M23 1V17"}
    lines["folded"] = lines["ribbed"]
    if brim.kind not in lines:
        return ground
    return joined((ground, element("path", d=lines[brim.kind], class_="s softline", stroke_width=1)))
