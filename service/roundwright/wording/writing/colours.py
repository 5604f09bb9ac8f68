"""Colours of a hat in words: how much of each, and which rounds are worked in which."""

from collections.abc import Sequence

from roundwright.knitting.hat.colours import Stripe
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


def _stripes(stripes: tuple[Stripe, ...]) -> str:
    """The stripes in words: `navy`, or `stripes of navy (4 rounds) and cream (2 rounds), over and over`."""
    if len(stripes) == 1:
        return one_line(stripes[0].colour)
    *others, last = (
        f"{one_line(stripe.colour)} ({stripe.rounds} round{'' if stripe.rounds == 1 else 's'})"
        for stripe in stripes
    )
    return f"stripes of {', '.join(others)} and {last}, over and over"
