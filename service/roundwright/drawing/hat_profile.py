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
from roundwright.knitting.quantities import LengthUnit, mm, mm_in, on_a_tape
from roundwright.knitting.sizing.depth import EAR_ARC
from roundwright.language import ENGLISH_WORDS, Words, sentence_start

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
    plan: HatPlan,
    brim: Brim,
    *,
    view: HatView = "worn",
    title: str | None = None,
    theme: Theme = "auto",
    words: Words = ENGLISH_WORDS,
) -> Picture:
    """One size of a hat; lengths are in the unit of the plan."""
    unit: LengthUnit = plan.measurements.circumference.unit
    frame = Frame(WIDTH, MAX_HEIGHT, unit, words)
    if view == "flat":
        drawn = flat_drawing(plan, brim, frame)
        sentences, entries = flat_sentences(plan, brim, frame), _flat_key(plan, brim, words)
    else:
        hat = worn_hat(plan)
        drawn = worn_drawing(hat, plan, brim, frame)
        sentences, entries = worn_sentences(hat, plan, frame), _worn_key(hat, plan, brim, frame)
    return page(
        "hat-profile",
        drawn,
        width=WIDTH,
        title=title or sentence_start(words.render(plan.label)),
        description=" ".join([*sentences, _made_of(plan, brim, words)]),
        subtitles=sentences,
        entries=entries,
        theme=theme,
    )


def hat_figures(
    plan: HatPlan, brim: Brim, *, theme: Theme = "auto", words: Words = ENGLISH_WORDS
) -> tuple[Figure, Figure]:
    """Both views without heading and key, for a handout: worn and laid flat."""
    unit: LengthUnit = plan.measurements.circumference.unit
    hat, frame = worn_hat(plan), Frame(FIGURE_WIDTH, FIGURE_HEIGHT, unit, words, compact=True)
    title = sentence_start(words.render(plan.label))
    views = (
        (
            "hat-worn",
            worn_drawing(hat, plan, brim, frame),
            [_as_a_sentence(title), *worn_sentences(hat, plan, frame)],
        ),
        ("hat-flat", flat_drawing(plan, brim, frame), flat_sentences(plan, brim, frame)[:1]),
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
                description=" ".join([*sentences, _made_of(plan, brim, words)]),
                theme=theme,
            ),
            " ".join(sentences),
        )
        for name, drawing, sentences in views
    )
    return worn_figure, flat_figure


def _as_a_sentence(title: str) -> str:
    """The title with a full stop, unless it ends with a sign of its own, as an abbreviation does."""
    return title if title.endswith((".", "!", "?", "…")) else f"{title}."


# --- words ----------------------------------------------------------------------------------------------------


def worn_sentences(hat: WornHat, plan: HatPlan, frame: Frame) -> list[str]:
    """What the worn hat does: how it stretches, how far it reaches, what stands or gathers."""
    words = frame.words
    head = _head(plan, frame)
    percent = round(100 * (hat.edge.stretch - 1))
    worn = words.say("picture.worn_wider", percent=percent, head=head)
    sentences = [
        worn if percent else words.say("picture.worn_at_rest", head=head),
        words.say(
            f"picture.reach.{hat.reach}", distance=with_unit(abs(hat.below_ears_mm), frame.unit, words)
        ),
    ]
    if hat.air_mm > MENTIONED_MM:
        height = with_unit(hat.air_mm, frame.unit, words)
        sentences.append(words.say("picture.hangs" if slumps(hat) else "picture.stands", height=height))
    if _gathers(hat):
        sentences.append(words.say("picture.gathers"))
    return sentences


def _head(plan: HatPlan, frame: Frame) -> str:
    """The head as the pattern beside the picture has it."""
    head = plan.measurements.head
    return with_unit(on_a_tape(head) * mm_in(head.unit), frame.unit, frame.words)


def _gathers(hat: WornHat) -> bool:
    from_mm = 0.2 * hat.head.radius_mm
    return any(place.radius_mm > from_mm and place.fullness > FOLDED_FROM for place in hat.places)


def flat_sentences(plan: HatPlan, brim: Brim, frame: Frame) -> list[str]:
    """What the hat measures laid flat."""
    words = frame.words
    around = with_unit(mm(plan.measurements.circumference), frame.unit, words)
    edge = brim.edge if brim.edge in ("rolled", "folded") else "flat"
    measures = words.say_count("picture.around", plan.cast_on.stitches, around=around)
    if edge != "flat":
        depth = with_unit(mm(plan.measurements.depth), frame.unit, words)
        measures = f"{measures} {words.say(f'picture.deep.{edge}', depth=depth)}"
    return [words.say(f"picture.laid_flat.{edge}"), measures]


def _made_of(plan: HatPlan, brim: Brim, words: Words) -> str:
    crown = plan.crown
    made_of = words.say(
        "picture.made_of_sections" if crown.sections else "picture.made_of",
        stitches=plan.cast_on.stitches,
        rounds=len(fabric_rows(plan)),
        brim=words.say(f"picture.brim.{brim.edge}"),
        body_rounds=plan.body.rounds,
        style=words.say(f"picture.style.{crown.style}"),
        sections=crown.sections,
        crown_rounds=len(crown.rounds),
    )
    return f"{made_of} {words.render(crown.geometry.text)}" if crown.geometry else made_of


# --- keys -----------------------------------------------------------------------------------------------------

_CROWN_START: Final = element(
    "path", d="M0 9H28", class_="s softline", stroke_width=1, stroke_dasharray="5 4"
)
_DECREASES: Final = element(
    "path", d="M5 4h0M13 9h0M21 14h0", class_="s line", stroke_width=3.4, stroke_linecap="round"
)


def _crown_key(plan: HatPlan, words: Words) -> list[KeyEntry]:
    if not plan.crown.rounds:
        return []
    return [
        KeyEntry(_CROWN_START, words.say("picture.key.crown_start")),
        KeyEntry(_DECREASES, words.say("picture.key.decreases")),
    ]


def _worn_key(hat: WornHat, plan: HatPlan, brim: Brim, frame: Frame) -> list[KeyEntry]:
    words = frame.words
    length = _head(plan, frame)
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
        KeyEntry(head, words.say("picture.key.head", length=length)),
        KeyEntry(ears, words.say("picture.key.ears", share=EAR_ARC)),
        *_crown_key(plan, words),
        *([KeyEntry(folds, words.say("picture.key.folds"))] if _gathers(hat) else []),
        KeyEntry(brim_sign(brim.edge), words.say(f"picture.key.brim.{brim.edge}")),
    ]


def _flat_key(plan: HatPlan, brim: Brim, words: Words) -> list[KeyEntry]:
    fold = element("path", d="M0 9H28", class_="s slideline", stroke_width=1.2, stroke_dasharray="8 3 1 3")
    return [
        *_crown_key(plan, words),
        KeyEntry(brim_sign(brim.edge), words.say(f"picture.key.brim.{brim.edge}")),
        *([KeyEntry(fold, words.say("picture.key.turned_up"))] if brim.edge == "folded" else []),
    ]
