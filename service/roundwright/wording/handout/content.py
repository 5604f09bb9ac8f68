"""The handout of a class: the pattern, a sheet to tick off for each size, and the yarn to buy.

`handout` gathers it once, as words and counts; `text`, `html` and `pdf` write the same content in their formats.
"""

from collections.abc import Callable, Iterable, Iterator
from itertools import accumulate
from math import ceil
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat.brim_and_body import HatPart
from roundwright.knitting.hat.colours import Colours
from roundwright.knitting.hat.needles import NeedleChange
from roundwright.knitting.hat.plan import HatPlan, HatsAnswer
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.needles.holds import holders
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.yarn.amount import YarnAmount
from roundwright.knitting.yarn.basket import Basket, BasketBalls
from roundwright.knitting.yarn.order import YarnOrder
from roundwright.knitting.yarn.purchase import Purchase
from roundwright.wording.writing.colours import adjust_colour, body_colours, brim_colours, crown_colours
from roundwright.wording.writing.pattern import Section, sections
from roundwright.wording.writing.printed_quantities import one_line, printed_lengths
from roundwright.wording.writing.round_lines import Line, Wording, holds_of, skipped_numbers

MAX_CROWN_ROUNDS: Final = 400
"""Rounds of all crowns together: twelve sizes in sock yarn have fewer, and each round adds to the time of a PDF."""
MAX_BOXES: Final = 100
"""Boxes for a straight part; in a longer part a box stands for ten rounds."""
_COLUMNS: Final = {
    "magic_loop": "H1 is the first half of the loop",
    "two_circulars": "N1 is the first circular",
}

Paper = Literal["a4", "letter"]


class HandoutRequest(HatRequest, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat in one or more sizes, and the paper its pattern is printed on."""

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
    rounds_per_box: int
    until: str
    """Length from the cast-on edge where the part ends and the crown begins; empty where another part follows."""
    colours: str
    """Its colours in words; empty for a hat in one."""


class CrownRound(Struct, frozen=True):
    """A round of the crown of one size, to tick off, with its number in the pattern."""

    number: int
    work: str
    count: int
    """Stitches after it."""
    needles: tuple[str, ...]
    """Stitches on each needle after it; empty texts while they are on a circular."""
    slide: str
    """What to slide before it, and the change to double-pointed needles."""


class SizeSheet(NamedTuple):
    """The sheet of one size, to tick off."""

    number: int
    label: str
    cast_on: int
    hold: str
    needles: tuple[int, ...]
    """Stitches on each needle after the cast-on; none on a circular."""
    needle_count: int
    """Columns for needles: most needles that hold stitches in any round."""
    straight: tuple[StraightPart, ...]
    crown: tuple[CrownRound, ...]


class Shopping(Struct, frozen=True):
    """Yarn to buy, as a table."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


class HandoutPicture(Struct, frozen=True):
    """A picture on a handout: the hat worn and laid flat, before the pattern, or the chart of its crown, before the
    sheets.
    """

    shows: Literal["hat", "crown"]
    svg: str
    alt: str
    caption: str = ""
    """The line under it."""


DrawPictures = Callable[[], tuple[HandoutPicture, ...]]
"""Draws the pictures. The caller passes it in, since `wording` does not import `drawing`."""


class Handout(NamedTuple):
    """The handout as Markdown, plain text, a page to print or a PDF, with the same content in each."""

    name: str
    paper: Paper
    word: Literal["Round", "Rnd"]
    sections: tuple[Section, ...]
    shopping: Shopping
    sheets: tuple[SizeSheet, ...]
    pictures: DrawPictures
    """Called by the formats that show pictures, since drawing takes time."""


def handout(request: HandoutRequest, answer: HatsAnswer, pictures: DrawPictures) -> Handout:
    """The handout of a hat that has been worked out.

    Raises `Impossible` where the crowns have more than `MAX_CROWN_ROUNDS` rounds together.
    """
    plans = answer.sizes
    rounds = sum(len(plan.crown.rounds) for plan in plans)
    if rounds > MAX_CROWN_ROUNDS:
        raise Impossible(
            f"The crowns have {rounds} rounds together; a handout has room for {MAX_CROWN_ROUNDS}.",
            code="too_many",
            pointer="#/sizes",
            nearest=f"{_sizes_that_fit(plans)}, and the others on a handout of their own",
        )
    written = sections(request, plans, answer.cautions, answer.warnings)
    wording = Wording(request)
    skipped = skipped_numbers(plans, wording)
    return Handout(
        name=one_line(request.name) or "A hat in the round",
        paper=request.paper or ("letter" if request.units == "imperial" else "a4"),
        word="Round" if wording.beginner else "Rnd",
        sections=tuple(map(_in_single_lines, _with_help(request, written))),
        shopping=_shopping(answer.order),
        sheets=tuple(
            _size_sheet(plan, number, skipped[number - 1], wording)
            for number, plan in enumerate(plans, start=1)
        ),
        pictures=pictures,
    )


def _with_help(request: HatRequest, written: tuple[Section, ...]) -> Iterator[Section]:
    """The sections of the pattern, with the help that every class needs before the brim."""
    held = {_helped(request, size) for size in range(len(request.sizes))}
    texts = [row.text for row in reference.class_help() if row.needles == "any" or row.needles in held]
    for section in written:
        if section.heading == "Cast on":
            yield Section("In class", tuple(map(Line, texts)))
        yield section


def _helped(request: HatRequest, size: int) -> str | None:
    """The needles of a size by which the help for a class is chosen."""
    needles = request.needles_of(size)
    if needles is None:
        return None
    return "loop" if needles.magic_loop or needles.circulars else "several"


def _sizes_that_fit(plans: tuple[HatPlan, ...]) -> str:
    totals = accumulate(len(plan.crown.rounds) for plan in plans)
    sizes = sum(total <= MAX_CROWN_ROUNDS for total in totals)
    return "the first size" if sizes == 1 else f"the first {sizes} sizes"


def _in_single_lines(section: Section) -> Section:
    return section._replace(lines=tuple(line._replace(text=one_line(line.text)) for line in section.lines))


# --- sheets to tick off -----------------------------------------------------------------------------------------------


def to_tick(handout: Handout) -> str:
    """What a box and the columns of the sheets mean."""
    columns = dict.fromkeys(_COLUMNS.get(sheet.hold, "N1 is the first needle") for sheet in handout.sheets)
    return (
        "A box is a round: tick it when it is done. Count is what you have after the round; "
        f"{', '.join(columns)}, with its stitches under it."
    )


def sheet_heading(handout: Handout, sheet: SizeSheet) -> str:
    """The heading of a sheet: the label of the size, with its number where there are several."""
    return f"{sheet.number}. {sheet.label}" if len(handout.sheets) > 1 else sheet.label


def cast_on_text(sheet: SizeSheet) -> str:
    """The first line of a sheet: the cast-on, and the stitches on each needle."""
    if not sheet.needles:
        return f"Cast on {sheet.cast_on}."
    return f"Cast on {sheet.cast_on}: {' + '.join(map(str, sheet.needles))} on the {holders(sheet.hold)}."


def straight_text(part: StraightPart) -> str:
    """The rounds of a straight part in words: `Brim, 8 rounds: knit`."""
    rounds = f"{part.rounds} round{'' if part.rounds == 1 else 's'}"
    until = f", to {part.until} from the cast-on edge" if part.until else ""
    box = f" (a box is {part.rounds_per_box} rounds)" if part.rounds_per_box > 1 else ""
    rounds += f", {part.colours}" * bool(part.colours)
    if len(part.work) == 1:
        return f"{part.name}, {rounds}{until}{box}: {part.work[0]}"
    in_turn = " / ".join(f"{number}. {work}" for number, work in enumerate(part.work, start=1))
    return f"{part.name}, {rounds}{until}{box}, in turn: {in_turn}"


def needle_headings(sheet: SizeSheet) -> tuple[str, ...]:
    """The headings of the needles' columns: `N1`, `N2`, ...; `H1`, `H2` for the halves of a loop."""
    return tuple(_heading(sheet.hold, number) for number in range(1, sheet.needle_count + 1))


def _heading(hold: str, needle: int) -> str:
    return f"{'H' if hold == 'magic_loop' else 'N'}{needle}"


def _size_sheet(plan: HatPlan, number: int, skipped: int, wording: Wording) -> SizeSheet:
    colours = wording.request.colours
    parts = [part for part in _apart(plan.brim, plan.body, colours) if part.of.rounds]
    needles = plan.split.split if plan.split else ()
    columns = max([len(needles), *(len(round.needles or ()) for round in plan.crown.rounds)])
    change = plan.needles.change if plan.needles else None
    (hold,) = holds_of([plan])
    in_colours = [f"{colour}: " for colour in crown_colours(colours, plan)] or [""] * len(plan.crown.rounds)
    edge_to_crown = printed_lengths([plan.measurements.edge_to_crown])
    return SizeSheet(
        number=number,
        label=one_line(plan.label) or f"Size {number}",
        cast_on=plan.cast_on.stitches,
        hold=hold,
        needles=needles,
        needle_count=columns,
        straight=tuple(
            _straight_part(part, edge_to_crown if part is parts[-1] else "", wording) for part in parts
        ),
        crown=tuple(
            _crown_round(round, skipped, columns, change, hold=hold, work=colour + wording.steps(round))
            for round, colour in zip(plan.crown.rounds, in_colours, strict=True)
        ),
    )


class _InColours(NamedTuple):
    """A straight part, or its round that changes the count, and its colours in words."""

    of: HatPart
    colours: str


def _apart(brim: HatPart, body: HatPart, colours: Colours | None) -> Iterator[_InColours]:
    """Brim and body in working order, the round that changes the count as a part by itself, with a box of its own."""
    for part, in_words in ((brim, brim_colours(colours)), (body, body_colours(colours))):
        in_turn = replace(part, rounds=part.rounds_in_turn, adjust=None)
        if part.adjust is None:
            yield _InColours(in_turn, in_words)
            continue
        adjust = _InColours(
            replace(part, rounds=1, lines=(part.adjust,), adjust=None), adjust_colour(colours, part)
        )
        if part.part == "brim":
            yield from (_InColours(in_turn, in_words), adjust)
        else:
            done = ", the first of these rounds done" if "over and over" in in_words else ""
            yield from (adjust, _InColours(in_turn, in_words + done))


def _straight_part(part_in_colours: _InColours, until: str, wording: Wording) -> StraightPart:
    part, colours = part_in_colours
    rounds_per_box = 1 if part.rounds <= MAX_BOXES else 10
    return StraightPart(
        name=part.part.capitalize(),
        rounds=part.rounds,
        work=tuple(wording.steps(round) + _new_count(round) for round in part.lines),
        boxes=ceil(part.rounds / rounds_per_box),
        rounds_per_box=rounds_per_box,
        until=until,
        colours=colours,
    )


def _crown_round(
    round: Round, skipped: int, columns: int, change: NeedleChange | None, *, hold: str, work: str
) -> CrownRound:
    slides = [
        f"{move.stitches} from {_heading(hold, move.needle)} to {_heading(hold, move.needle + 1)}"
        for move in round.moves
    ]
    first = [change.text] if change and change.before_round == round.number else []
    first += [f"First slide {', '.join(slides)}."] if slides else []
    return CrownRound(
        number=round.number + skipped,
        work=work,
        count=round.after,
        needles=tuple(map(str, round.needles)) if round.needles else ("",) * columns,
        slide=" ".join(first),
    )


def _new_count(round: Round) -> str:
    """What the sheet says of the count of a round that changes it."""
    if round.before == round.after:
        return ""
    on_needles = f": {' + '.join(map(str, round.needles))}" if round.needles else ""
    return f" — now {round.after} stitches{on_needles}"


# --- yarn to buy ------------------------------------------------------------------------------------------------------


def _shopping(order: YarnOrder) -> Shopping:
    """The yarn of each size and of all; where balls are counted, their own balls or one basket for all."""
    has_balls = order.own.balls is not None
    rows = tuple(
        (
            one_line(line.label),
            str(line.makers),
            _amount_text(line.each.amount),
            *((str(line.each.balls), str(line.makers * (line.each.balls or 0))) if has_balls else ()),
        )
        for line in order.lines
    )
    return Shopping(
        head=("Size", "Knitters", "Yarn for one", *(("Balls for one", "Balls in all") if has_balls else ())),
        rows=rows,
        notes=tuple(_notes(order)),
    )


def _notes(order: YarnOrder) -> Iterable[str]:
    margin = f"{order.shared.margin_percent:g} % over the highest estimate is included."
    if order.makers == 1:
        yield f"To buy: {_purchase_text(order.own)}. {margin}"
    elif order.own.balls is None:
        yield f"To buy for {order.makers} knitters: {_purchase_text(order.shared)}. {margin}"
    else:
        yield f"Balls of their own for {order.makers} knitters: {_purchase_text(order.own)}."
        yield f"Or one basket for all, each winding off what a hat takes: {_purchase_text(order.shared)}."
        if order.one_basket is not None:
            yield from _basket_texts(order.one_basket)
        for colour in order.colours:
            yield (
                f"In {one_line(colour.colour)}: {_purchase_text(colour.own)} as balls of their own, "
                f"{_purchase_text(colour.shared)} in one basket."
            )
        yield margin


def _basket_texts(basket: Basket) -> Iterator[str]:
    """What is wound off the balls of the basket; a hat may have whole balls besides."""
    amounts = {kit.label: _amount_text(kit.amount) for kit in basket.kits}
    pieces = [piece for ball in basket.contents for piece in ball.pieces]
    besides = any(amounts[piece.label] != _amount_text(piece.amount) for piece in pieces)
    start = (
        "Beside its whole balls a hat takes what is wound off one ball for" if besides else "From one ball"
    )
    texts = [_ball_text(ball, with_amounts=besides) for ball in basket.contents]
    yield f"{start}: {'; '.join(texts)}."


def _ball_text(ball: BasketBalls, *, with_amounts: bool) -> str:
    """What comes from a ball, and how many balls are shared out so: `1 grown-up and 1 two years (2 balls)`."""
    pieces = [
        f"{piece.hats} {one_line(piece.label)}" + f" ({_amount_text(piece.amount)} each)" * with_amounts
        for piece in ball.pieces
    ]
    return f"{' and '.join(pieces)} ({ball.balls} ball{'' if ball.balls == 1 else 's'})"


def _purchase_text(purchase: Purchase) -> str:
    if purchase.balls is None:
        return _amount_text(purchase.amount)
    balls = f"{purchase.balls} ball{'' if purchase.balls == 1 else 's'}"
    cost = purchase.cost
    return f"{balls}, {cost.amount:.2f} {cost.currency}" if cost else balls


def _amount_text(amount: YarnAmount) -> str:
    """An amount of yarn: `54 m, 26 g`."""
    known = [quantity for quantity in (amount.length, amount.mass) if quantity]
    return ", ".join(f"{ceil(quantity.value)} {quantity.unit}" for quantity in known)
