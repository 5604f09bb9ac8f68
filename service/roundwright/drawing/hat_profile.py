"""Pictures of one size of a hat: as worn, on a head, or laid flat with its measures."""

from typing import Final, NamedTuple

from roundwright.drawing.hat_flat import flat_drawing
from roundwright.drawing.hat_marks import Frame, brim_sign, with_unit
from roundwright.drawing.hat_worn import FOLDED_FROM, MENTIONED_MM, slumps, worn_drawing, worn_hat
from roundwright.drawing.svg import Picture, element, px
from roundwright.drawing.theme import WIDTH, Block, KeyEntry, Theme, figure, page
from roundwright.knitting.hat.fabric import fabric_rows
from roundwright.knitting.hat.picture import HatView
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import Brim
from roundwright.knitting.hat.worn import WornHat
from roundwright.knitting.quantities import LengthUnit, mm

MAX_HEIGHT: Final = 400.0
"""Pixels of the hat and the head; a taller hat is drawn smaller."""
FIGURE_WIDTH: Final = 240.0
"""Pixels of each picture on a handout."""
FIGURE_HEIGHT: Final = 190.0
"""The same on a handout."""


class Figure(NamedTuple):
    """A picture for a handout, and the line under it."""

    picture: Picture
    caption: str


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
        drawn,
        width=WIDTH,
        title=title or plan.label[:1].upper() + plan.label[1:],
        description=" ".join([*sentences, _made_of(plan, brim)]),
        subtitles=sentences,
        entries=entries,
        theme=theme,
    )


def hat_figures(plan: HatPlan, brim: Brim, *, theme: Theme = "auto") -> tuple[Figure, Figure]:
    """Both views without heading and key, for a handout: worn and laid flat."""
    unit: LengthUnit = plan.measurements.circumference.unit
    hat, frame = worn_hat(plan), Frame(FIGURE_WIDTH, FIGURE_HEIGHT, unit, compact=True)
    title = plan.label[:1].upper() + plan.label[1:]
    views = (
        ("hat-worn", worn_drawing(hat, plan, brim, frame), [f"{title}.", *worn_sentences(hat, plan, unit)]),
        ("hat-flat", flat_drawing(plan, brim, frame), flat_sentences(plan, brim, unit)[:1]),
    )
    height = max(drawing.height for _, drawing, _ in views)
    worn_figure, flat_figure = (
        Figure(
            figure(
                name,
                Block(
                    element("g", drawing.markup, transform=f"translate(0 {px(height - drawing.height)})"),
                    height,
                ),
                width=FIGURE_WIDTH,
                title=title,
                description=" ".join([*sentences, _made_of(plan, brim)]),
                theme=theme,
            ),
            " ".join(sentences),
        )
        for name, drawing, sentences in views
    )
    return worn_figure, flat_figure


# --- words ----------------------------------------------------------------------------------------------------


def worn_sentences(hat: WornHat, plan: HatPlan, unit: LengthUnit) -> list[str]:
    """What the worn hat does: how it stretches, how far it reaches, what stands or gathers."""
    head = with_unit(mm(plan.measurements.head), unit)
    percent = round(100 * (hat.edge.stretch - 1))
    stretch = f"{percent} % wider at the brim" if percent else "not stretched at the brim"
    sentences = [f"Worn: {stretch}, on a head of {head}.", _reach(hat, unit)]
    if hat.air_mm > MENTIONED_MM:
        above = with_unit(hat.air_mm, unit)
        sentences.append(
            f"The top hangs down behind: {above} are more than the head."
            if slumps(hat)
            else f"The top stands or hangs {above} above the head."
        )
    if _gathers(hat):
        sentences.append("Fabric wider than the head lies in folds.")
    return sentences


def _gathers(hat: WornHat) -> bool:
    from_mm = 0.2 * hat.head.radius_mm
    return any(place.radius_mm > from_mm and place.fullness > FOLDED_FROM for place in hat.places)


def _reach(hat: WornHat, unit: LengthUnit) -> str:
    distance = with_unit(abs(hat.below_ears_mm), unit)
    return {
        "at": "The edge reaches the middle of the ears.",
        "below": f"Covers the ears: the edge is {distance} below their middle.",
        "above": f"Ends above the ears: the edge is {distance} above their middle.",
    }[hat.reach]


def flat_sentences(plan: HatPlan, brim: Brim, unit: LengthUnit) -> list[str]:
    """What the hat measures laid flat."""
    around = with_unit(mm(plan.measurements.circumference), unit)
    depth = with_unit(mm(plan.measurements.depth), unit)
    unrolled = {"rolled": ", the brim uncurled", "folded": ", the brim unfolded"}.get(brim.edge, "")
    worn = (
        f" With the brim {'rolled' if brim.edge == 'rolled' else 'turned up'} it is {depth} deep."
        if unrolled
        else ""
    )
    return [
        f"Laid flat, not stretched{unrolled}: half as wide as around.",
        f"{around} around the brim, {plan.cast_on.stitches} stitches.{worn}",
    ]


def _made_of(plan: HatPlan, brim: Brim) -> str:
    crown = plan.crown
    sections = f" in {crown.sections} sections" if crown.sections else ""
    shape = f" {crown.geometry.text}" if crown.geometry else ""
    rounds = len(fabric_rows(plan))
    return (
        f"{plan.cast_on.stitches} stitches, {rounds} rounds: a {brim.edge} brim, a body of {plan.body.rounds} rounds "
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
        KeyEntry(brim_sign(brim.edge), f"{brim.edge} brim"),
    ]


def _flat_key(plan: HatPlan, brim: Brim) -> list[KeyEntry]:
    fold = element("path", d="M0 9H28", class_="s slideline", stroke_width=1.2, stroke_dasharray="8 3 1 3")
    return [
        *([_CROWN_START, _DECREASES] if plan.crown.rounds else []),
        KeyEntry(brim_sign(brim.edge), f"{brim.edge} brim"),
        *([KeyEntry(fold, "the brim is turned up here")] if brim.edge == "folded" else []),
    ]
