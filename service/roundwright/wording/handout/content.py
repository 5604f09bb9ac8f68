"""What is handed out at a table: the pattern, a sheet to tick off for every size, and the yarn to buy.

`handout` gathers it once, in words and counts; `handout_text`, `handout_html` and `handout_pdf` lay the same out.
"""

from collections.abc import Callable, Iterable
from math import ceil
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat.plan import HatPart, HatPlan, HatsAnswer
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.yarn.label import Money, Purchase, YarnAmount
from roundwright.knitting.yarn.purchase import YarnOrder
from roundwright.wording.writing.pattern import Section, one_line, printed, sections
from roundwright.wording.writing.plain_language import speak

MOST_ROUNDS_ON_PAPER: Final = 400
"""Rounds of all the crowns together: twelve sizes in sock yarn have fewer, and a PDF takes time by the round."""
MOST_BOXES: Final = 100
"""Boxes for a straight part: beyond, a box stands for ten rounds."""

Paper = Literal["a4", "letter"]


class HandoutRequest(HatRequest, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat to be knitted in one or more sizes, and the paper its pattern is handed out on."""

    paper: Annotated[
        Paper | None,
        Meta(
            description="Paper of the HTML and of the PDF: `a4` (210 × 297 mm) or `letter` (8.5 × 11 in). Left out: A4 "
            "with metric units, Letter with imperial ones."
        ),
    ] = None


class StraightPart(NamedTuple):
    """A straight part of one size, with a box for each round."""

    name: str
    rounds: int
    work: tuple[str, ...]
    """The rounds to work in turn."""
    boxes: int
    per_box: int
    """Rounds a box stands for."""
    until: str
    """Length from the cast-on edge where it ends and the crown begins; nothing where another part follows."""


class CrownRound(Struct, frozen=True):
    """A round of the crown of one size, to tick off."""

    number: int
    work: str
    count: int
    needles: tuple[int, ...]
    slide: str
    """What to slide before it."""


class Sheet(NamedTuple):
    """All that the knitter of one size ticks off."""

    number: int
    label: str
    cast_on: int
    needles: tuple[int, ...]
    straight: tuple[StraightPart, ...]
    crown: tuple[CrownRound, ...]


class Shopping(Struct, frozen=True):
    """Yarn to buy, as a table."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


class HandoutPicture(Struct, frozen=True):
    """A picture on a handout: the hat from the side, beside the pattern, or the chart of its crown, by the sheets."""

    shows: Literal["hat", "crown"]
    svg: str
    alt: str


Draw = Callable[[], tuple[HandoutPicture, ...]]
"""Draws the pictures. They are of a storey beside this one, so whoever draws is handed in."""


class Handout(NamedTuple):
    """The handout as Markdown, plain text, a page to print, or a PDF: the same numbers in each."""

    name: str
    paper: Paper
    word: Literal["Round", "Rnd"]
    sections: tuple[Section, ...]
    shopping: Shopping
    sheets: tuple[Sheet, ...]
    pictures: Draw
    """Called by the forms that show any."""


def handout(request: HandoutRequest, answer: HatsAnswer, draw: Draw) -> Handout:
    """The handout of a hat that has been worked out.

    Raises `Impossible` for more rounds than anybody ticks off.
    """
    plans = answer.sizes
    rounds = sum(len(plan.crown.rounds) for plan in plans)
    if rounds > MOST_ROUNDS_ON_PAPER:
        raise Impossible(
            f"The crowns have {rounds} rounds together; a handout has room for {MOST_ROUNDS_ON_PAPER}.",
            pointer="#/sizes",
            nearest=f"{_sizes_that_fit(plans)}, and the others on a handout of their own",
        )
    beginner = request.wording == "beginner"
    return Handout(
        name=one_line(request.name) or "A hat in the round",
        paper=request.paper or ("letter" if request.units == "imperial" else "a4"),
        word="Round" if beginner else "Rnd",
        sections=tuple(map(_tidied, sections(request, plans, answer.cautions))),
        shopping=_shopping(answer.order),
        sheets=tuple(_sheet(plan, number, beginner=beginner) for number, plan in enumerate(plans, start=1)),
        pictures=draw,
    )


def amount(told: YarnAmount) -> str:
    """Some yarn in words: `54 m, 26 g`."""
    return ", ".join(f"{ceil(each.value)} {each.unit}" for each in (told.length, told.mass) if each)


def _sizes_that_fit(plans: tuple[HatPlan, ...]) -> str:
    fit, rounds = 0, 0
    for plan in plans:
        rounds += len(plan.crown.rounds)
        if rounds > MOST_ROUNDS_ON_PAPER:
            break
        fit += 1
    return "the first size" if fit == 1 else f"the first {fit} sizes"


def _tidied(section: Section) -> Section:
    return section._replace(lines=tuple(line._replace(text=one_line(line.text)) for line in section.lines))


def _sheet(plan: HatPlan, number: int, *, beginner: bool) -> Sheet:
    parts = [part for part in (plan.brim, plan.body) if part.rounds]
    edge = plan.measurements.edge_to_crown
    return Sheet(
        number=number,
        label=one_line(plan.label) or f"Size {number}",
        cast_on=plan.cast_on.stitches,
        needles=plan.split.split if plan.split else (),
        straight=tuple(
            _straight(part, f"{printed(edge)} {edge.unit}" if part is parts[-1] else "", beginner=beginner)
            for part in parts
        ),
        crown=tuple(_crown_round(one, beginner=beginner) for one in plan.crown.rounds),
    )


def _straight(part: HatPart, until: str, *, beginner: bool) -> StraightPart:
    per_box = 1 if part.rounds <= MOST_BOXES else 10
    return StraightPart(
        name=part.part.capitalize(),
        rounds=part.rounds,
        work=tuple(_said(one, beginner=beginner) for one in part.lines),
        boxes=ceil(part.rounds / per_box),
        per_box=per_box,
        until=until,
    )


def _crown_round(one: Round, *, beginner: bool) -> CrownRound:
    slides = [f"{move.stitches} from N{move.needle} to N{move.needle + 1}" for move in one.moves]
    return CrownRound(
        number=one.number,
        work=_said(one, beginner=beginner),
        count=one.after,
        needles=one.needles or (),
        slide=f"First slide {', '.join(slides)}." if slides else "",
    )


def _said(one: Round, *, beginner: bool) -> str:
    return speak(one.steps) if beginner else one.text


# --- yarn to buy ----------------------------------------------------------------------------------------------------


def _shopping(order: YarnOrder) -> Shopping:
    """Each size, everyone together, and the choice between balls for each knitter and one basket."""
    counted = order.own.balls is not None
    rows = tuple(
        (
            one_line(line.label),
            str(line.makers),
            amount(line.each.amount),
            *((str(line.each.balls), str(line.makers * (line.each.balls or 0))) if counted else ()),
        )
        for line in order.lines
    )
    return Shopping(
        head=("Size", "Knitters", "Yarn for one", *(("Balls for one", "Balls in all") if counted else ())),
        rows=rows,
        notes=tuple(_notes(order)),
    )


def _notes(order: YarnOrder) -> Iterable[str]:
    spare = f"{order.shared.margin_percent:g} % over the highest estimate is reckoned in."
    if order.makers == 1:
        yield f"To buy: {_bought(order.own)}. {spare}"
    elif order.own.balls is None:
        yield f"To buy for {order.makers} knitters: {_bought(order.shared)}. {spare}"
    else:
        yield f"Balls of their own for {order.makers} knitters: {_bought(order.own)}."
        yield f"Or one basket for all, each winding off what a hat takes: {_bought(order.shared)}."
        yield spare


def _bought(purchase: Purchase) -> str:
    if purchase.balls is None:
        return amount(purchase.amount)
    balls = f"{purchase.balls} ball{'' if purchase.balls == 1 else 's'}"
    return f"{balls}, {_money(purchase.cost)}" if purchase.cost else balls


def _money(cost: Money) -> str:
    return f"{cost.amount:.2f} {cost.currency}"
