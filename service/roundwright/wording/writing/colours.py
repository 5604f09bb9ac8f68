"""Colours of a hat in words: how much of each, and which rounds are worked in which."""

from collections.abc import Sequence

from roundwright.knitting.hat.brim_and_body import HatPart
from roundwright.knitting.hat.colours import Colours, Stripe
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import HatRequest
from roundwright.wording.writing.printed_quantities import one_line, printed_amount
from roundwright.wording.writing.size_lists import size_list


def colour_amounts(plans: Sequence[HatPlan]) -> list[str]:
    """The yarn of each colour in a hat: `Yarn in navy: about 45 (60) m, 1 ball`; nothing for a hat in one."""
    names = dict.fromkeys(colour.colour for plan in plans for colour in plan.yarn.colours)
    return [_amount(name, plans) for name in names]


def _amount(name: str, plans: Sequence[HatPlan]) -> str:
    by_size = [next((yarn for yarn in plan.yarn.colours if yarn.colour == name), None) for plan in plans]
    lengths = [yarn.used.expected.length if yarn else None for yarn in by_size]
    unit = next((length.unit for length in lengths if length), "")
    amount = (
        f"about {size_list(printed_amount(length.value) if length else '0' for length in lengths)} {unit}"
    )
    balls = [0 if yarn is None else yarn.to_buy.balls for yarn in by_size]
    if None in balls:
        return f"Yarn in {one_line(name)}: {amount}"
    count = size_list(balls)
    return f"Yarn in {one_line(name)}: {amount}, {count} ball{'' if count == '1' else 's'}"


def colour_note(request: HatRequest) -> list[str]:
    """Which rounds are worked in which colour; nothing for a hat in one colour."""
    colours = request.colours
    if colours is None:
        return []
    colour = "color" if request.terms == "us" else "colour"
    heading = f"{colour.capitalize()}s"
    brim, body = _stripes(colours.brim_stripes()), _stripes(colours.body)
    edge = f"{heading}: cast on in {one_line(colours.brim_stripes()[0].colour)} and work the brim in {brim}"
    if colours.brim_purl is not None:
        edge = (
            f"{edge}, but its purl stitches in {one_line(colours.brim_purl)}; carry the other {colour} "
            "loosely behind"
        )
    return [f"{edge}. Then work in {body} to the top."]


def brim_colours(colours: Colours | None) -> str:
    """The colours of the brim in words, such as `in navy`; empty for a hat in one colour."""
    if colours is None:
        return ""
    stripes = _stripes(colours.brim_stripes())
    if colours.brim_purl is None:
        return f"in {stripes}"
    return f"with the knit stitches in {stripes} and the purl stitches in {one_line(colours.brim_purl)}"


def body_colours(colours: Colours | None) -> str:
    """The colours of the body in words, such as `in stripes of navy (4 rounds) and ...`; empty for one colour."""
    return "" if colours is None else f"in {_stripes(colours.body)}"


def adjust_colour(colours: Colours | None, part: HatPart) -> str:
    """The colour of the round from the count of the brim to that of the body, in words."""
    if colours is None:
        return ""
    stripes = colours.body if part.part == "body" else colours.brim_stripes()
    return f"in {one_line(colour_of(stripes, 0 if part.part == 'body' else part.rounds - 1))}"


def crown_colours(colours: Colours | None, plan: HatPlan) -> tuple[str, ...]:
    """The colour of each round of the crown; none for a hat with one colour above its brim."""
    if colours is None or len(colours.body) == 1:
        return ()
    rounds = range(plan.body.rounds, plan.body.rounds + len(plan.crown.rounds))
    return tuple(one_line(colour_of(colours.body, round)) for round in rounds)


def crown_change(colours: Colours, plan: HatPlan, number: int) -> str | None:
    """The colour that begins with a round of the crown, by its number from 1; None where it goes on, or is no round."""
    place = plan.body.rounds + number - 1
    if not 1 <= number <= len(plan.crown.rounds):
        return None
    now, before = colour_of(colours.body, place), colour_of(colours.body, place - 1) if place else None
    return None if now == before else one_line(now)


def colour_of(stripes: Sequence[Stripe], round: int) -> str:
    """The colour of a round, counted from 0, in stripes that come over and over."""
    round %= sum(stripe.rounds for stripe in stripes)
    for stripe in stripes:
        if round < stripe.rounds:
            return stripe.colour
        round -= stripe.rounds
    raise AssertionError(round)


def _stripes(stripes: tuple[Stripe, ...]) -> str:
    """The stripes in words: `navy`, or `stripes of navy (4 rounds) and cream (2 rounds), over and over`."""
    if len(stripes) == 1:
        return one_line(stripes[0].colour)
    *others, last = (
        f"{one_line(stripe.colour)} ({stripe.rounds} round{'' if stripe.rounds == 1 else 's'})"
        for stripe in stripes
    )
    return f"stripes of {', '.join(others)} and {last}, over and over"
