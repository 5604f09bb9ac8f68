"""Colours of a hat in words: how much of each, and which rounds are worked in which."""

from collections.abc import Sequence

from roundwright.knitting.hat.brim_and_body import HatPart
from roundwright.knitting.hat.colours import Colours, Stripe
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import HatRequest
from roundwright.language import Words, listed
from roundwright.wording.writing.printed_quantities import one_line, printed_amounts
from roundwright.wording.writing.size_lists import counted


def colour_amounts(plans: Sequence[HatPlan], words: Words) -> list[str]:
    """The yarn of each colour in a hat: `Yarn in navy: 45 (60) m, 1 ball`; nothing for a hat in one."""
    names = dict.fromkeys(colour.colour for plan in plans for colour in plan.yarn.colours)
    return [_amount(name, plans, words) for name in names]


def _amount(name: str, plans: Sequence[HatPlan], words: Words) -> str:
    by_size = [next((yarn for yarn in plan.yarn.colours if yarn.colour == name), None) for plan in plans]
    amount = printed_amounts([yarn.to_buy.amount.length if yarn else None for yarn in by_size], words)
    balls = [0 if yarn is None else yarn.to_buy.balls for yarn in by_size]
    colour = one_line(name)
    of_sizes = [count for count in balls if count is not None]
    if len(of_sizes) < len(balls):
        return words.say("materials.colour", colour=colour, amount=amount)
    return words.say(
        "materials.colour_balls", colour=colour, amount=amount, balls=counted("balls", of_sizes, words)
    )


def colour_note(request: HatRequest, words: Words) -> list[str]:
    """Which rounds are worked in which colour; nothing for a hat in one colour."""
    colours = request.colours
    if colours is None:
        return []
    brim, body = _stripes(colours.brim_stripes(), words), _stripes(colours.body, words)
    first = one_line(colours.brim_stripes()[0].colour)
    if colours.brim_purl is None:
        return [words.say("colours.note", first=first, brim=brim, body=body)]
    purl = one_line(colours.brim_purl)
    return [words.say("colours.note_purl", first=first, brim=brim, purl=purl, body=body)]


def brim_colours(colours: Colours | None, words: Words) -> str:
    """The colours of the brim in words, such as `in navy`; empty for a hat in one colour."""
    if colours is None:
        return ""
    stripes = _stripes(colours.brim_stripes(), words)
    if colours.brim_purl is None:
        return words.say("colours.in", colours=stripes)
    return words.say("colours.knit_and_purl", knit=stripes, purl=one_line(colours.brim_purl))


def body_colours(colours: Colours | None, words: Words) -> str:
    """The colours of the body in words, such as `in stripes of navy (4 rounds) and ...`; empty for one colour."""
    return "" if colours is None else words.say("colours.in", colours=_stripes(colours.body, words))


def adjust_colour(colours: Colours | None, part: HatPart, words: Words) -> str:
    """The colour of the round from the count of the brim to that of the body, in words."""
    if colours is None:
        return ""
    stripes = colours.body if part.part == "body" else colours.brim_stripes()
    colour = colour_of(stripes, 0 if part.part == "body" else part.rounds - 1)
    return words.say("colours.in", colours=one_line(colour))


def crown_colours(colours: Colours | None, plan: HatPlan) -> tuple[str, ...]:
    """The colour of each round of the crown; none for a hat with one colour above its brim."""
    if colours is None or len(colours.body) == 1:
        return ()
    rounds = range(plan.body.rounds, plan.body.rounds + len(plan.crown.rounds))
    return tuple(one_line(colour_of(colours.body, round)) for round in rounds)


def crown_change(colours: Colours, plan: HatPlan, number: int) -> str | None:
    """The colour that begins with a round of the crown, by its number; None where it goes on, or is no round."""
    rounds = plan.crown.rounds
    if not rounds or not rounds[0].number <= number <= rounds[-1].number:
        return None
    place = plan.body.rounds + number - rounds[0].number
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


def _stripes(stripes: tuple[Stripe, ...], words: Words) -> str:
    """The stripes in words: `navy`, or `stripes of navy (4 rounds) and cream (2 rounds), over and over`."""
    if len(stripes) == 1:
        return one_line(stripes[0].colour)
    texts = [
        words.say_count("colours.stripe", stripe.rounds, colour=one_line(stripe.colour)) for stripe in stripes
    ]
    return words.say("colours.stripes", stripes=words.render(listed(texts)))
