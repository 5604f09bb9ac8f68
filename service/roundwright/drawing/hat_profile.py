"""The finished hat from the side, to scale: brim, body, and the crown as the surface of revolution it is.

Everything is drawn unstretched; the head is dotted behind it. The rounds begin at the back.
"""

from collections.abc import Iterator
from math import cos, pi, sin
from typing import Final

from roundwright.drawing.chart_symbols import ring
from roundwright.drawing.outline import TURNED_OUT_MM, Outline, Place, outline_of, place_for
from roundwright.drawing.svg import Markup, Picture, element, joined, number
from roundwright.drawing.theme import WIDTH, Block, KeyEntry, Theme, sheet, words
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import Brim
from roundwright.knitting.quantities import MM_IN, LengthUnit, mm

COLUMNS: Final = 14
MOST_BENDS: Final = 24
"""Points of a column of stitches up the crown: with more it looks no rounder."""
MOST_RIBS: Final = 48
"""Ribs drawn across the front: more run together."""
STEPS: Final = {"cm": (1, 2, 5, 10, 20, 50, 100), "in": (1, 2, 5, 10, 20, 50)}
"""What the rule may be numbered by."""


def hat_profile(plan: HatPlan, brim: Brim, *, title: str | None = None, theme: Theme = "auto") -> Picture:
    """One size of a hat from the side; lengths in the units of the plan."""
    outline = outline_of(plan, brim)
    unit: LengthUnit = plan.measurements.circumference.unit
    place, height = place_for(outline)
    drawn = joined(
        (
            *_fabric(outline, place),
            _head(outline, place),
            *_decreases(plan.crown, outline, place),
            *_outside(outline, brim, place),
            *_brim(outline, brim, plan, place),
            *_rule(outline, place, unit),
            *_sizes(outline, place, unit),
        )
    )
    return sheet(
        "hat-profile",
        Block(drawn, height),
        width=WIDTH,
        title=title or plan.label[:1].upper() + plan.label[1:],
        about=_about(plan, outline, brim, unit),
        heads=(_measured(plan, unit), f"From the side, to scale, not stretched.{_lies(plan.crown)}"),
        entries=_key(plan, brim, unit),
        theme=theme,
    )


# --- the hat --------------------------------------------------------------------------------------------------


def _fabric(outline: Outline, place: Place) -> Iterator[Markup]:
    """The ground, and some of its columns of stitches, which narrow with the crown."""
    yield element("path", d=_silhouette(outline, place), class_="tint")
    every = -(-len(outline.crown) // MOST_BENDS)
    bends = (
        (outline.radius, 0.0),
        (outline.radius, outline.straight),
        *outline.crown[::every],
        outline.crown[-1],
    )
    columns = [
        "M" + "L".join([place.spot(-radius * cos(pi * column / COLUMNS), height) for radius, height in bends])
        for column in range(1, COLUMNS)
    ]
    yield element("path", d="".join(columns), class_="s hair", stroke_width=0.7)


def _silhouette(outline: Outline, place: Place) -> str:
    left = [place.spot(-across, height) for across, height in outline.crown]
    right = [place.spot(across, height) for across, height in reversed(outline.crown)]
    start, end = place.spot(-outline.radius, 0), place.spot(outline.radius, 0)
    sides = (
        [place.spot(-outline.radius, outline.straight), *left],
        [*right, place.spot(outline.radius, outline.straight)],
    )
    return f"M{start}L{'L'.join(sides[0])}L{'L'.join(sides[1])}L{end}Z"


def _head(outline: Outline, place: Place) -> Markup:
    """A hemisphere, and the tube below it down to the edge."""
    radius = outline.head
    middle, long = outline.head_top - radius, number(radius * place.scale)
    low = min(0.0, middle)
    way = (
        f"M{place.spot(-radius, low)}L{place.spot(-radius, middle)}A{long} {long} 0 0 1 {place.spot(radius, middle)}"
        f"L{place.spot(radius, low)}"
    )
    return element(
        "path", d=way, class_="s softline", stroke_width=2.2, stroke_dasharray="0 5.5", stroke_linecap="round"
    )


def _brim(outline: Outline, brim: Brim, plan: HatPlan, place: Place) -> Iterator[Markup]:
    """The texture of the brim; a turned-up one lies over the hat."""
    radius, high = outline.radius, outline.brim
    if brim.kind == "garter":
        rows = max(1, plan.brim.rounds // 2)
        step = max(high / rows, 3 / place.scale)
        lines = [
            f"M{place.spot(-radius, step * (row + 0.5))}H{number(place.x(radius))}"
            for row in range(int(high / step))
        ]
    elif brim.kind in ("ribbed", "folded"):
        out = radius + (TURNED_OUT_MM if brim.kind == "folded" else 0)
        ribs = plan.cast_on.stitches // (brim.rib.knit + brim.rib.purl)
        drawn = min(ribs // 2, MOST_RIBS)
        if brim.kind == "folded":
            yield element(
                "path",
                d=_band(out, high, place),
                class_="tint line",
                stroke_width=1.6,
                stroke_linejoin="round",
            )
        lines = [
            f"M{place.spot(-out * cos(pi * (rib + 0.5) / drawn), 0)}V{number(place.y(high))}"
            for rib in range(drawn)
        ]
    else:
        return
    yield element("path", d="".join(lines), class_="s softline", stroke_width=1)


def _band(out: float, high: float, place: Place) -> str:
    return f"M{place.spot(-out, 0)}V{number(place.y(high))}H{number(place.x(out))}V{number(place.y(0))}Z"


def _decreases(crown: CrownAnswer, outline: Outline, place: Place) -> Iterator[Markup]:
    """A dot for each decrease on the side that is seen; the rounds begin at the back."""
    flat = crown.worked == "flat"
    dots = []
    for each, (radius, height) in zip(crown.rounds, outline.crown[1:], strict=False):
        if each.after == each.before:
            continue
        shown = ring(each, from_behind=flat and each.number % 2 == 0)
        for mark in shown.marks:
            turn = 2 * pi * (mark.place + 0.5) / shown.stitches
            if cos(turn) < 0:
                dots.append(f"M{place.spot(radius * sin(turn), height)}h0")
    if dots:
        yield element("path", d="".join(dots), class_="s line", stroke_width=4, stroke_linecap="round")


def _outside(outline: Outline, brim: Brim, place: Place) -> Iterator[Markup]:
    """The outline, over everything; and where one part ends and the next begins."""
    yield element(
        "path", d=_silhouette(outline, place), class_="s line", stroke_width=1.8, stroke_linejoin="round"
    )
    start = f"M{place.spot(-outline.radius, outline.straight)}H{number(place.x(outline.radius))}"
    yield element("path", d=start, class_="s softline", stroke_width=1, stroke_dasharray="6 4")
    if brim.kind == "rolled" and outline.brim:
        high = outline.brim * place.scale
        out = outline.radius * place.scale + high * 0.35
        yield element(
            "rect",
            x=place.axis - out,
            y=place.floor - high,
            width=2 * out,
            height=high,
            rx=high / 2,
            class_="tint line",
            stroke_width=1.6,
        )
    elif brim.kind in ("ribbed", "garter") and outline.brim:
        edge = f"M{place.spot(-outline.radius, outline.brim)}H{number(place.x(outline.radius))}"
        yield element("path", d=edge, class_="s line", stroke_width=1.2)


# --- rule and lengths -----------------------------------------------------------------------------------------


def _rule(outline: Outline, place: Place, unit: LengthUnit) -> Iterator[Markup]:
    """A rule up the left side and one along the edge, from the same corner."""
    one = MM_IN[unit] * place.scale
    step = next((step for step in STEPS[unit] if step * one >= 20), STEPS[unit][-1])
    fine = _fine(step, unit)
    left = place.x(-max(outline.radius, outline.head)) - 18
    tall = outline.top * place.scale
    ticks, names = [], []
    for count in range(int(tall / one / fine + 1e-9) + 1):
        at = count * fine
        y = place.floor - at * one
        named = abs(at / step - round(at / step)) < 1e-9
        ticks.append(f"M{number(left)} {number(y)}h{-9 if named else -5}")
        if named:
            names.append(words(left - 12, y + 4, f"{at:g}", 11.5, "ink e"))
    yield element(
        "path",
        d=f"M{number(left)} {number(place.floor)}v{number(-tall)}{''.join(ticks)}",
        class_="s line",
        stroke_width=1,
    )
    yield from names
    yield words(left - 12, place.floor + 20, unit, 11.5, "soft e")
    yield from _along(outline, place, one, step, fine)


def _fine(step: int, unit: LengthUnit) -> float:
    if unit == "in":
        return 0.25 if step == 1 else 1.0 if step <= 5 else step / 5
    return 0.5 if step == 1 else 1.0 if step <= 5 else step / 5


def _along(outline: Outline, place: Place, one: float, step: int, fine: float) -> Iterator[Markup]:
    left, wide, y = place.x(-outline.radius), 2 * outline.radius * place.scale, place.floor + 16
    ticks, names = [], []
    for count in range(int(wide / one / fine + 1e-9) + 1):
        at = count * fine
        x = left + at * one
        named = abs(at / step - round(at / step)) < 1e-9
        ticks.append(f"M{number(x)} {number(y)}v{9 if named else 5}")
        if named:
            names.append(words(x, y + 21, f"{at:g}", 11.5, "ink m"))
    yield element(
        "path",
        d=f"M{number(left)} {number(y)}h{number(wide)}{''.join(ticks)}",
        class_="s line",
        stroke_width=1,
    )
    yield from names


def _sizes(outline: Outline, place: Place, unit: LengthUnit) -> Iterator[Markup]:
    """How tall each part is, beside it."""
    right = place.x(max(outline.radius + TURNED_OUT_MM, outline.head)) + 14
    parts = (
        ("brim", 0.0, outline.brim),
        ("body", outline.brim, outline.straight),
        ("crown", outline.straight, outline.top),
    )
    lowest = place.floor + 14
    for name, low, high in parts:
        if high - low < 0.05 and name != "crown":
            continue
        y_low, y_high = place.y(low), place.y(high)
        lowest = min((y_low + y_high) / 2 + 4, lowest - 15)
        if high - low > 0.05:
            bracket = f"M{number(right)} {number(y_low - 1)}h6V{number(y_high + 1)}h-6"
            yield element("path", d=bracket, class_="s line", stroke_width=1)
        named = element("tspan", name, class_="b")
        said = joined((named, f" {_said(high - low, unit)}"))
        yield words(right + 11, lowest, said, 12.5)


def _said(length_mm: float, unit: LengthUnit) -> str:
    value = length_mm / MM_IN[unit]
    return f"{value:.1f}" if unit == "cm" else f"{value:.2f}"


# --- words ----------------------------------------------------------------------------------------------------


def _measured(plan: HatPlan, unit: LengthUnit) -> str:
    sizes = plan.measurements
    around, deep, head = (_said(mm(each), unit) for each in (sizes.circumference, sizes.depth, sizes.head))
    return (
        f"{around} {unit} around, {deep} {unit} edge to top along the fabric, {plan.cast_on.stitches} stitches; for a "
        f"head of {head} {unit}."
    )


def _lies(crown: CrownAnswer) -> str:
    if crown.geometry is None or crown.geometry.lies == "domed":
        return ""
    if crown.geometry.lies == "flat":
        return " The crown lies flat and is seen on its edge."
    return " The crown gathers and is seen on its edge."


def _about(plan: HatPlan, outline: Outline, brim: Brim, unit: LengthUnit) -> str:
    crown = plan.crown
    sections = f" in {crown.sections} sections" if crown.sections else ""
    shape = f" {crown.geometry.text}" if crown.geometry else ""
    return (
        f"{_measured(plan, unit)} From the side: a {brim.kind} brim {_said(outline.brim, unit)} {unit} high, a body of "
        f"{_said(outline.straight - outline.brim, unit)} {unit}, and a {crown.style} crown{sections}, "
        f"{_said(outline.top - outline.straight, unit)} {unit} high.{shape}"
    )


def _key(plan: HatPlan, brim: Brim, unit: LengthUnit) -> list[KeyEntry]:
    dotted = element(
        "path",
        d="M1 15A13 13 0 0 1 27 15",
        class_="s softline",
        stroke_width=2.2,
        stroke_dasharray="0 5.5",
        stroke_linecap="round",
    )
    start = element("path", d="M0 9H28", class_="s softline", stroke_width=1, stroke_dasharray="6 4")
    entries = [
        KeyEntry(start, "first round of the crown"),
        KeyEntry(dotted, f"a head of {_said(mm(plan.measurements.head), unit)} {unit}"),
    ]
    if plan.crown.rounds:
        dots = element(
            "path", d="M5 4h0M13 9h0M21 14h0", class_="s line", stroke_width=4, stroke_linecap="round"
        )
        entries.insert(1, KeyEntry(dots, "decreases"))
    entries.append(KeyEntry(_swatch(brim), f"{brim.kind} brim"))
    return entries


def _swatch(brim: Brim) -> Markup:
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
