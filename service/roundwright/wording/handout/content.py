"""The handout of a class: the pattern, a sheet to tick off for each size, and the yarn to buy.

`handout` gathers it once, as words and counts; `text`, `html` and `pdf` write the same content in their formats.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import accumulate
from math import ceil
from typing import Annotated, Final, Literal, NamedTuple

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat.brim_and_body import HatPart, PartKind
from roundwright.knitting.hat.colours import Colours
from roundwright.knitting.hat.needles import NeedleChange
from roundwright.knitting.hat.notices import ABOUT_THE_REQUEST
from roundwright.knitting.hat.plan import HatPlan, HatsAnswer
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.yarn.amount import YarnAmount
from roundwright.knitting.yarn.basket import Basket, BasketBalls
from roundwright.knitting.yarn.label import Money
from roundwright.knitting.yarn.order import OrderLine, YarnOrder
from roundwright.knitting.yarn.purchase import Purchase
from roundwright.language import Words, say, say_count
from roundwright.wording.writing.colours import adjust_colour, body_colours, brim_colours, crown_colours
from roundwright.wording.writing.pattern import Section, hat_name, sections, swatch_yarn, warning_lines
from roundwright.wording.writing.printed_quantities import (
    chained,
    one_line,
    printed_amounts,
    printed_lengths,
    printed_quantity,
    printed_total,
)
from roundwright.wording.writing.round_lines import Line, Wording, holds_of

MAX_CROWN_ROUNDS: Final = 400
"""Rounds of all crowns together: twelve sizes in sock yarn have fewer, and each round adds to the time of a PDF."""
MAX_BOXES: Final = 100
"""Boxes for a straight part; in a longer part a box stands for ten rounds."""

Paper = Literal["a4", "letter"]


class HandoutRequest(HatRequest, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A hat in one or more sizes, and the paper its pattern is printed on."""

    paper: Annotated[
        Paper | None,
        Meta(
            description="Paper of the HTML and of the PDF: `a4` (210 × 297 mm) or `letter` (8.5 × 11 in). Left out: A4 "
            "with metric units, Letter with imperial ones; A4 in other languages than English."
        ),
    ] = None


class StraightPart(NamedTuple):
    """A straight part of one size, with a box for each round."""

    part: PartKind
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
    beginner: bool
    """Whether it is written out for beginners."""
    sections: tuple[Section, ...]
    shopping: Shopping
    before_handing_out: tuple[str, ...]
    """What whoever plans the class has to mind, on a page of its own: the class can do nothing about it."""
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
            say("handout.too_many_rounds", rounds=rounds, most=MAX_CROWN_ROUNDS),
            code="too_many",
            pointer="#/sizes",
            nearest=say_count("handout.fewer_sizes", _sizes_that_fit(plans)),
        )
    written = sections(request, plans, answer.cautions, answer.warnings)
    wording = Wording(request)
    words = wording.words
    return Handout(
        name=hat_name(request),
        paper=request.paper or ("letter" if request.units == "imperial" and words.is_english else "a4"),
        beginner=wording.beginner,
        sections=tuple(map(_in_single_lines, _with_help(request, written, words))),
        shopping=_shopping(request, answer, words),
        before_handing_out=warning_lines(
            (notice for notice in answer.warnings if notice.code in ABOUT_THE_REQUEST), wording
        ),
        sheets=tuple(_size_sheet(plan, number, wording) for number, plan in enumerate(plans, start=1)),
        pictures=pictures,
    )


def _with_help(request: HatRequest, written: tuple[Section, ...], words: Words) -> Iterator[Section]:
    """The sections of the pattern, with the help that every class needs before the brim."""
    held = {_helped(request, size) for size in range(len(request.sizes))}
    rows = [row for row in reference.class_help() if row.needles == "any" or row.needles in held]
    for section in written:
        if section.name == "cast_on":
            lines = tuple(Line(words.say(f"class_help.{row.name}")) for row in rows)
            yield Section("in_class", words.say("heading.in_class"), lines)
        yield section


def _helped(request: HatRequest, size: int) -> str | None:
    """The needles of a size by which the help for a class is chosen."""
    needles = request.needles_of(size)
    if needles is None:
        return None
    return "loop" if needles.magic_loop or needles.circulars else "several"


def _sizes_that_fit(plans: tuple[HatPlan, ...]) -> int:
    """How many of the first sizes have room."""
    totals = accumulate(len(plan.crown.rounds) for plan in plans)
    return sum(total <= MAX_CROWN_ROUNDS for total in totals)


def _in_single_lines(section: Section) -> Section:
    return section._replace(lines=tuple(line._replace(text=one_line(line.text)) for line in section.lines))


# --- sheets to tick off -----------------------------------------------------------------------------------------------


def how_to_tick(handout: Handout, words: Words) -> str:
    """What a box and the columns of the sheets mean."""
    columns = dict.fromkeys(words.say(f"handout.first.{_on(sheet.hold)}") for sheet in handout.sheets)
    return words.say("handout.how_to_tick", columns=", ".join(columns))


def _on(hold: str) -> str:
    return hold if hold in ("magic_loop", "two_circulars") else "double_pointed"


def round_heading(handout: Handout, words: Words) -> str:
    """The heading of the column with the numbers of rounds."""
    return words.say("handout.round" if handout.beginner else "handout.rnd")


def sheet_heading(handout: Handout, sheet: SizeSheet) -> str:
    """The heading of a sheet: the label of the size, with its number where there are several."""
    return f"{sheet.number}. {sheet.label}" if len(handout.sheets) > 1 else sheet.label


def cast_on_text(sheet: SizeSheet, words: Words) -> str:
    """The first line of a sheet: the cast-on, and the stitches on each needle."""
    if not sheet.needles:
        return words.say("handout.cast_on", stitches=sheet.cast_on)
    split = _split_text(sheet.needles)
    return words.say(f"handout.cast_on_split.{_on(sheet.hold)}", stitches=sheet.cast_on, split=split)


def straight_text(part: StraightPart, words: Words) -> str:
    """The rounds of a straight part in words: `Brim, 8 rounds: knit`."""
    text = words.say_count(f"handout.rounds.{part.part}", part.rounds)
    if part.colours:
        text = words.say("handout.in_colours", part=text, colours=part.colours)
    if part.until:
        text = words.say("handout.until", part=text, length=part.until)
    if part.rounds_per_box > 1:
        text = words.say("handout.box", part=text, rounds=part.rounds_per_box)
    if len(part.work) == 1:
        return words.say("handout.work", part=text, work=part.work[0])
    in_turn = " / ".join(f"{number}. {work}" for number, work in enumerate(part.work, start=1))
    return words.say("handout.work_in_turn", part=text, work=in_turn)


def needle_headings(sheet: SizeSheet, words: Words) -> tuple[str, ...]:
    """The headings of the needles' columns: `N1`, `N2`, ...; `H1`, `H2` for the halves of a loop."""
    return tuple(_heading(sheet.hold, number, words) for number in range(1, sheet.needle_count + 1))


def _heading(hold: str, number: int, words: Words) -> str:
    return words.say("handout.half" if hold == "magic_loop" else "handout.needle", number=number)


def _split_text(split: Iterable[int]) -> str:
    return " + ".join(map(str, split))


def _size_sheet(plan: HatPlan, number: int, wording: Wording) -> SizeSheet:
    words = wording.words
    colours = wording.request.colours
    parts = [part for part in _apart(plan.brim, plan.body, colours, words) if part.of.rounds]
    needles = plan.split.split if plan.split else ()
    columns = max([len(needles), *(len(round.needles or ()) for round in plan.crown.rounds)])
    change = plan.needles.change if plan.needles else None
    (hold,) = holds_of([plan])
    works = [wording.steps(round) for round in plan.crown.rounds]
    if in_colours := crown_colours(colours, plan):
        works = [
            words.say("handout.coloured", colour=colour, work=work)
            for colour, work in zip(in_colours, works, strict=True)
        ]
    edge_to_crown = printed_lengths([plan.measurements.edge_to_crown], words)
    return SizeSheet(
        number=number,
        label=one_line(words.render(plan.label)) or words.say("handout.size", number=number),
        cast_on=plan.cast_on.stitches,
        hold=hold,
        needles=needles,
        needle_count=columns,
        straight=tuple(
            _straight_part(part, number - 1, edge_to_crown if part is parts[-1] else "", wording)
            for part in parts
        ),
        crown=tuple(
            _crown_round(round, columns, change, words, hold=hold, work=work)
            for round, work in zip(plan.crown.rounds, works, strict=True)
        ),
    )


class _InColours(NamedTuple):
    """A straight part, or its round that changes the count, and its colours in words."""

    of: HatPart
    colours: str


def _apart(brim: HatPart, body: HatPart, colours: Colours | None, words: Words) -> Iterator[_InColours]:
    """Brim and body in working order, the round that changes the count as a part by itself, with a box of its own."""
    for part, in_words in ((brim, brim_colours(colours, words)), (body, body_colours(colours, words))):
        in_turn = replace(part, rounds=part.rounds_in_turn, adjust=None)
        if part.adjust is None:
            yield _InColours(in_turn, in_words)
            continue
        adjust = _InColours(
            replace(part, rounds=1, lines=(part.adjust,), adjust=None), adjust_colour(colours, part, words)
        )
        if part.part == "brim":
            yield from (_InColours(in_turn, in_words), adjust)
            continue
        striped = colours is not None and len(colours.body) > 1
        rest = words.say("handout.first_done", colours=in_words) if striped else in_words
        yield from (adjust, _InColours(in_turn, rest))


def _straight_part(part_in_colours: _InColours, place: int, until: str, wording: Wording) -> StraightPart:
    part, colours = part_in_colours
    rounds_per_box = 1 if part.rounds <= MAX_BOXES else 10
    return StraightPart(
        part=part.part,
        rounds=part.rounds,
        work=tuple(
            _with_new_count(wording.straight_steps(round, part.part, place), round, wording.words)
            for round in part.lines
        ),
        boxes=ceil(part.rounds / rounds_per_box),
        rounds_per_box=rounds_per_box,
        until=until,
        colours=colours,
    )


def _crown_round(
    round: Round,
    columns: int,
    change: NeedleChange | None,
    words: Words,
    *,
    hold: str,
    work: str,
) -> CrownRound:
    slides = [
        words.say(
            "handout.slide",
            stitches=move.stitches,
            needle=_heading(hold, move.needle, words),
            next_needle=_heading(hold, move.needle + 1, words),
        )
        for move in round.moves
    ]
    first = [words.render(change.text)] if change and change.before_round == round.number else []
    first += [words.say("handout.first_slide", slides=", ".join(slides))] if slides else []
    return CrownRound(
        number=round.number,
        work=work,
        count=round.after,
        needles=tuple(map(str, round.needles)) if round.needles else ("",) * columns,
        slide=" ".join(first),
    )


def _with_new_count(work: str, round: Round, words: Words) -> str:
    """The work of a round, and its count where it changes the count."""
    if round.before == round.after:
        return work
    if not round.needles:
        return words.say_count("handout.new_count", round.after, work=work)
    return words.say_count(
        "handout.new_count_split", round.after, work=work, split=_split_text(round.needles)
    )


# --- yarn to buy ------------------------------------------------------------------------------------------------------


def _shopping(request: HandoutRequest, answer: HatsAnswer, words: Words) -> Shopping:
    """The yarn of each size and of all; where balls are counted, their own balls or one basket for all."""
    order = answer.order
    has_balls = order.own.balls is not None
    kit_prices = [
        words.say("handout.price", cost=float(price.amount), currency=price.currency)
        for price in _kit_prices(order)
    ]
    rows = tuple(
        (
            one_line(words.render(line.label)),
            str(line.makers),
            _amount_text(line.each.amount, words),
            *((str(line.each.balls), str(line.makers * (line.each.balls or 0))) if has_balls else ()),
            *kit_prices[index : index + 1],
        )
        for index, line in enumerate(order.lines)
    )
    columns = (
        "size",
        "knitters",
        "yarn",
        *(("balls", "balls_in_all") if has_balls else ()),
        *(("kit",) if kit_prices else ()),
    )
    side, swatch = swatch_yarn(answer.sizes, words)
    margin = words.say("handout.margin", percent=float(order.shared.margin_percent), side=side, swatch=swatch)
    notes = (*_notes(order, margin, words, has_kits=bool(kit_prices)), *_instead(request, answer, words))
    return Shopping(
        head=tuple(words.say(f"handout.column.{column}") for column in columns), rows=rows, notes=notes
    )


def _kit_prices(order: YarnOrder) -> list[Money]:
    """The price of a kit of each size, all its colours together; none where nobody shares, or without a price."""
    if order.makers == 1:
        return []
    baskets = [order.one_basket, *(colour.one_basket for colour in order.colours)]
    kits = [kit for basket in baskets if basket for kit in basket.kits]
    prices = [[kit.price for kit in kits if kit.label == line.label and kit.price] for line in order.lines]
    if not all(prices) or len({line.label for line in order.lines}) < len(order.lines):
        return []
    return [
        Money(round(sum(price.amount for price in of_size), 2), of_size[0].currency) for of_size in prices
    ]


def _notes(order: YarnOrder, margin: str, words: Words, *, has_kits: bool) -> Iterator[str]:
    makers, own, shared = order.makers, _purchase_text(order.own, words), _purchase_text(order.shared, words)
    if makers == 1:
        yield f"{words.say('handout.to_buy', purchase=own)} {margin}"
    elif order.own.balls is None:
        for_all = _total_text(order.lines, words)
        yield f"{words.say('handout.to_buy_for', knitters=makers, purchase=for_all)} {margin}"
    else:
        yield words.say("handout.own_balls", knitters=makers, purchase=own)
        yield words.say("handout.one_basket", purchase=shared)
        if order.one_basket is not None:
            yield _basket_text(order.one_basket, words)
        for colour in order.colours:
            in_colour = words.say(
                "handout.colour",
                colour=one_line(colour.colour),
                own=_purchase_text(colour.own, words),
                shared=_purchase_text(colour.shared, words),
            )
            yield _with_basket(in_colour, colour.one_basket, words)
        if has_kits:
            yield words.say("handout.kit")
        yield margin


def _instead(request: HandoutRequest, answer: HatsAnswer, words: Words) -> Iterator[str]:
    """The same order in balls of another yarn, where the request has one and its balls are known."""
    order, ball = answer.order_instead, request.other_yarn
    if order is None or ball is None or order.own.balls is None or not (ball.mass and ball.length):
        return
    yarn = words.say(
        "materials.ball", mass=printed_quantity(ball.mass, words), length=printed_quantity(ball.length, words)
    )
    if ball.name:
        yarn = f"{one_line(ball.name)}, {yarn}"
    own, shared = _purchase_text(order.own, words), _purchase_text(order.shared, words)
    if order.makers == 1:
        yield words.say("handout.instead", yarn=yarn, purchase=own)
        return
    text = words.say("handout.instead_for", yarn=yarn, own=own, shared=shared)
    yield _with_basket(text, order.one_basket, words)


def _with_basket(text: str, basket: Basket | None, words: Words) -> str:
    """The text, and behind it what comes from which ball of the basket, where that is known."""
    return text if basket is None else f"{text} {_basket_text(basket, words)}"


def _basket_text(basket: Basket, words: Words) -> str:
    """The whole balls of a hat that needs more than a ball, and what is wound off the balls that hats share."""
    whole = [
        words.say_count("handout.shared_balls", kit.whole_balls, pieces=one_line(words.render(kit.label)))
        for kit in basket.kits
        if kit.whole_balls
    ]
    shared = [
        _ball_text(ball, words, with_amounts=bool(whole))
        for ball in basket.contents[len(whole) :]  # the whole balls of each size come first
    ]
    between = words.say("list.semicolon")
    source_key = "rest_from_one_ball" if whole else "from_one_ball"
    texts = [
        *([words.say("handout.whole_balls", balls=between.join(whole))] if whole else []),
        *([words.say(f"handout.{source_key}", balls=between.join(shared))] if shared else []),
        *([] if basket.method == "exact" else [words.say("handout.not_every_way")]),
    ]
    return " ".join(texts)


def _ball_text(ball: BasketBalls, words: Words, *, with_amounts: bool) -> str:
    """What comes from a ball, and how many balls are shared out so: `1 grown-up and 1 two years (2 balls)`."""
    pieces = [
        words.say(
            "handout.piece_with_amount" if with_amounts else "handout.piece",
            hats=piece.hats,
            label=one_line(words.render(piece.label)),
            **({"amount": _amount_text(piece.amount, words)} if with_amounts else {}),
        )
        for piece in ball.pieces
    ]
    return words.say_count("handout.shared_balls", ball.balls, pieces=chained(pieces, "and", words))


def _purchase_text(purchase: Purchase, words: Words) -> str:
    if purchase.balls is None:
        return _amount_text(purchase.amount, words)
    cost = purchase.cost
    if cost is None:
        return words.say_count("handout.balls", purchase.balls)
    return words.say_count(
        "handout.balls_and_cost", purchase.balls, cost=float(cost.amount), currency=cost.currency
    )


def _total_text(lines: Sequence[OrderLine], words: Words) -> str:
    """The yarn of all knitters, the sum of what is printed for one of each size."""
    lengths = [line.each.amount.length for line in lines if line.each.amount.length]
    masses = [line.each.amount.mass for line in lines if line.each.amount.mass]
    makers = [line.makers for line in lines]
    return ", ".join(printed_total(known, makers, words) for known in (lengths, masses) if known)


def _amount_text(amount: YarnAmount, words: Words) -> str:
    """An amount of yarn: `54 m, 26 g`."""
    known = [quantity for quantity in (amount.length, amount.mass) if quantity]
    return ", ".join(printed_amounts([quantity], words) for quantity in known)
