"""Pictures of one size of a hat: as worn, on a head, or laid flat with its measures."""

from typing import Final, NamedTuple

from roundwright.drawing.hat_flat import flat_drawing
from roundwright.drawing.hat_marks import Frame, brim_sign, with_unit
from roundwright.drawing.hat_worn import FOLDED_FROM, MENTIONED_MM, worn_drawing, worn_hat
from roundwright.drawing.svg import Picture, element, joined, px
from roundwright.drawing.theme import WIDTH, Block, KeyEntry, Theme, figure, page, text_line, wrapped
from roundwright.knitting.hat.fabric import fabric_rows
from roundwright.knitting.hat.picture import HatView
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import Brim
from roundwright.knitting.hat.worn import WornHat
from roundwright.knitting.quantities import LengthUnit, mm

MAX_HEIGHT: Final = 400.0
"""Pixels of the hat and the head; a taller hat is drawn smaller."""
FIGURE_HEIGHT: Final = 190.0
"""The same on a handout."""
CAPTION_SIZE: Final = 12.0


class Figure(NamedTuple):
    """A picture for a handout, and the same in words."""

    picture: Picture
    description: str


def hat_profile(
    plan: HatPlan, brim: Brim, *, view: HatView = "worn", title: str | None = None, theme: Theme = "auto"
) -> Picture:
    """One size of a hat; lengths are in the unit of the plan."""
    unit: LengthUnit = plan.measurements.circumference.unit
    if view == "flat":
        drawn = flat_drawing(plan, brim, Frame(WIDTH, MAX_HEIGHT, unit))
        sentences, entries = flat_sentences(plan, brim, unit), _flat_key(plan, brim)
    else:
        hat = worn_hat(plan)
        drawn = worn_drawing(hat, plan, brim, Frame(WIDTH, MAX_HEIGHT, unit))
        sentences, entries = worn_sentences(hat, plan, unit), _worn_key(hat, plan, brim, unit)
    return page(
        "hat-profile",
        Block(drawn.markup, drawn.height),
        width=WIDTH,
        title=title or plan.label[:1].upper() + plan.label[1:],
        description=" ".join([*sentences, _made_of(plan, brim)]),
        subtitles=sentences,
        entries=entries,
        theme=theme,
    )


def hat_figure(plan: HatPlan, brim: Brim, *, theme: Theme = "light") -> Figure:
    """Both pictures side by side, without heading and key, for a handout."""
    unit: LengthUnit = plan.measurements.circumference.unit
    hat, half = worn_hat(plan), WIDTH / 2
    drawings = (
        worn_drawing(hat, plan, brim, Frame(half, FIGURE_HEIGHT, unit, compact=True)),
        flat_drawing(plan, brim, Frame(half, FIGURE_HEIGHT, unit, compact=True)),
    )
    sentences = worn_sentences(hat, plan, unit)
    title = plan.label[:1].upper() + plan.label[1:]
    captions = (f"{title}. {' '.join(sentences)}", flat_sentences(plan, brim, unit)[0])
    top = max(drawing.height for drawing in drawings)
    parts, height = [], top
    for column, (drawing, caption) in enumerate(zip(drawings, captions, strict=True)):
        x = column * half
        parts.append(element("g", drawing.markup, transform=f"translate({px(x)} {px(top - drawing.height)})"))
        for line, text in enumerate(wrapped(caption, CAPTION_SIZE, half - 16)):
            y = top + 14 + 15 * line
            parts.append(text_line(x + 8, y, text, CAPTION_SIZE))
            height = max(height, y + 6)
    description = " ".join([*sentences, *flat_sentences(plan, brim, unit), _made_of(plan, brim)])
    picture = figure(
        "hat-figure", Block(joined(parts), height), title=title, description=description, theme=theme
    )
    return Figure(picture, description)


# --- words ----------------------------------------------------------------------------------------------------


def worn_sentences(hat: WornHat, plan: HatPlan, unit: LengthUnit) -> list[str]:
    """What the worn hat does: how it stretches, how far it reaches, what stands or gathers."""
    head = with_unit(mm(plan.measurements.head), unit)
    percent = round(100 * (hat.edge.stretch - 1))
    stretch = f"{percent} % wider at the brim than at rest" if percent else "as wide at the brim as at rest"
    sentences = [f"Worn on a head of {head}: {stretch}.", _reach(hat, unit)]
    if hat.air_mm > MENTIONED_MM:
        sentences.append(f"The top is {with_unit(hat.air_mm, unit)} longer than to the crown of the head.")
    if _gathers(hat):
        sentences.append("Where the fabric is wider than the head it lies in folds.")
    return sentences


def _gathers(hat: WornHat) -> bool:
    from_mm = 0.2 * hat.head.radius_mm
    return any(place.radius_mm > from_mm and place.fullness > FOLDED_FROM for place in hat.places)


def _reach(hat: WornHat, unit: LengthUnit) -> str:
    distance = with_unit(abs(hat.below_ears_mm), unit)
    return {
        "at": "The edge reaches the middle of the ears.",
        "below": f"It covers the ears: the edge lies {distance} below the middle of them.",
        "above": f"It ends above the ears: the edge lies {distance} above the middle of them.",
    }[hat.reach]


def flat_sentences(plan: HatPlan, brim: Brim, unit: LengthUnit) -> list[str]:
    """What the hat measures laid flat."""
    around = with_unit(mm(plan.measurements.circumference), unit)
    depth = with_unit(mm(plan.measurements.depth), unit)
    unrolled = {"rolled": ", the brim uncurled", "folded": ", the brim unfolded"}.get(brim.kind, "")
    worn = (
        f" With the brim {'rolled' if brim.kind == 'rolled' else 'turned up'} it is {depth} deep."
        if unrolled
        else ""
    )
    return [
        f"Laid flat, to scale, not stretched{unrolled}: each round half as wide as it is around.",
        f"{around} around the brim, {plan.cast_on.stitches} stitches.{worn}",
    ]


def _made_of(plan: HatPlan, brim: Brim) -> str:
    crown = plan.crown
    sections = f" in {crown.sections} sections" if crown.sections else ""
    shape = f" {crown.geometry.text}" if crown.geometry else ""
    rounds = len(fabric_rows(plan))
    return (
        f"{plan.cast_on.stitches} stitches, {rounds} rounds: a {brim.kind} brim, a body of {plan.body.rounds} rounds "
        f"and a {crown.style} crown{sections} of {len(crown.rounds)} rounds.{shape}"
    )


# --- keys -----------------------------------------------------------------------------------------------------

_CROWN_START: Final = KeyEntry(
    element("path", d="M0 9H28", class_="s softline", stroke_width=1, stroke_dasharray="5 4"),
    "first round of the crown",
)
_DECREASES: Final = KeyEntry(
    element("path", d="M5 4h0M13 9h0M21 14h0", class_="s line", stroke_width=3.4, stroke_linecap="round"),
    "decreases",
)


def _worn_key(hat: WornHat, plan: HatPlan, brim: Brim, unit: LengthUnit) -> list[KeyEntry]:
    head = element(
        "path",
        d="M1 15A13 13 0 0 1 27 15",
        class_="s softline",
        stroke_width=1.8,
        stroke_dasharray="0 5",
        stroke_linecap="round",
    )
    ears = element("path", d="M0 9H28", class_="s slideline", stroke_width=1.4, stroke_dasharray="7 4")
    folds = element("path", d="M6 3V15M13 1V17M20 3V15", class_="s line", stroke_width=1.1)
    return [
        KeyEntry(head, f"a head of {with_unit(mm(plan.measurements.head), unit)} inside"),
        KeyEntry(ears, "middle of the ears: 0.32 of the head from its crown along the scalp"),
        *([_CROWN_START, _DECREASES] if plan.crown.rounds else []),
        *([KeyEntry(folds, "folds: more fabric than head")] if _gathers(hat) else []),
        KeyEntry(brim_sign(brim.kind), f"{brim.kind} brim"),
    ]


def _flat_key(plan: HatPlan, brim: Brim) -> list[KeyEntry]:
    fold = element("path", d="M0 9H28", class_="s slideline", stroke_width=1.2, stroke_dasharray="8 3 1 3")
    return [
        *([_CROWN_START, _DECREASES] if plan.crown.rounds else []),
        KeyEntry(brim_sign(brim.kind), f"{brim.kind} brim"),
        *([KeyEntry(fold, "the brim is turned up here")] if brim.kind == "folded" else []),
    ]
