"""Colours of a hat: stripes, a brim of another colour, rib in two colours; which rounds are worked in which."""

from collections.abc import Iterator
from itertools import chain, cycle, groupby, islice, repeat
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.knitting.yarn.segments import WorkSegment
from roundwright.language import say

MOST_COLOURS: Final = 6
"""Colours of one hat: more are a picture, which a plan of rounds does not draw."""
MOST_STRIPES: Final = 24
"""Stripes before they come over again: as many as a hat has room for."""
LONGEST_COLOUR: Final = 40
"""A colour's name and its number on the shade card."""

ColourName = Annotated[str, Meta(min_length=1, max_length=LONGEST_COLOUR)]


class Stripe(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Rounds of one colour."""

    colour: Annotated[ColourName, Meta(description="What the colour is called.", examples=["rust"])]
    rounds: Annotated[
        int, Meta(ge=1, le=MOST_ROUNDS, description="How many rounds before the next colour.")
    ] = 1


Stripes = Annotated[tuple[Stripe, ...], Meta(min_length=1, max_length=MOST_STRIPES)]


class Colours(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Colours of a hat, all in the same yarn. The cast-on is in the first colour of the brim."""

    body: Annotated[
        Stripes,
        Meta(
            description="Stripes from the first round after the brim to the top, over and over; one is plain."
        ),
    ]
    brim: Annotated[
        Stripes | None,
        Meta(description="Stripes of the brim, over and over. Left out: the first colour of the body."),
    ] = None
    brim_purl: Annotated[
        ColourName | None,
        Meta(
            description="Colour of the purl stitches of a rib in two colours, each carried behind the other's "
            "stitches; the knit stitches are in the colours of `brim`. Left out: rib in one colour."
        ),
    ] = None

    def brim_stripes(self) -> tuple[Stripe, ...]:
        """The stripes of the brim."""
        return self.brim or self.body[:1]

    def names(self) -> tuple[str, ...]:
        """The colours in the order in which they come in."""
        purl = () if self.brim_purl is None else (self.brim_purl,)
        brim = (stripe.colour for stripe in self.brim_stripes())
        return tuple(dict.fromkeys((*brim, *purl, *(stripe.colour for stripe in self.body))))


def check_colours(colours: Colours | None, *, ribbed: bool, at: str) -> None:
    """Raise `Impossible` for more colours than a plan of rounds has, and for a rib in two colours without a rib."""
    if colours is None:
        return
    if len(colours.names()) > MOST_COLOURS:
        raise Impossible(
            say("colours.too_many", colours=len(colours.names())),
            code="too_many",
            pointer=f"{at}/colours",
            nearest=say("colours.most", colours=MOST_COLOURS),
        )
    if colours.brim_purl is not None and not ribbed:
        raise Impossible(
            say("colours.no_rib"),
            pointer=f"{at}/colours/brim_purl",
            nearest=say("colours.stripes_or_rib"),
            code="cannot_be_worked",
            suggested=None,
        )


def in_colours(
    segments: tuple[WorkSegment, ...], colours: Colours | None, knit: int, purl: int
) -> tuple[WorkSegment, ...]:
    """The segments of a hat in working order, each divided where the colour changes.

    `knit` and `purl` are the stitches of the rib side by side.
    """
    if colours is None:
        return segments
    brim, body = _by_round(colours.brim_stripes()), _by_round(colours.body)
    first = colours.brim_stripes()[0].colour
    coloured: list[WorkSegment] = []
    for segment in segments:
        if segment.part == "cast_on":
            coloured.append(segment._replace(colour=first))
        elif segment.part == "cord":
            coloured.append(segment._replace(colour=coloured[-1].colour))
        else:
            rounds = islice(brim if segment.part == "brim" else body, segment.rounds)
            for colour, alike in groupby(rounds):
                part = segment._replace(rounds=sum(1 for _ in alike), colour=colour)
                two_coloured = colours.brim_purl is not None and segment.ribbed
                coloured += (
                    _two_coloured(part, str(colours.brim_purl), knit, purl) if two_coloured else [part]
                )
    return tuple(coloured)


def _by_round(stripes: tuple[Stripe, ...]) -> Iterator[str]:
    """The colour of every round."""
    return cycle(chain.from_iterable(repeat(stripe.colour, stripe.rounds) for stripe in stripes))


def _two_coloured(segment: WorkSegment, purl_colour: str, knit: int, purl: int) -> list[WorkSegment]:
    """Rounds of rib as the stitches of either colour, with the stitches that its yarn is carried past."""
    knitted = segment.stitches * knit // (knit + purl)
    purled = segment.stitches - knitted
    if purl_colour == segment.colour:
        return [segment]
    return [
        segment._replace(stitches=knitted, carried=purled),
        segment._replace(stitches=purled, carried=knitted, colour=purl_colour),
    ]
