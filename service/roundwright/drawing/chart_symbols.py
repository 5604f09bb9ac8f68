"""What charts share: the cells of a round, the symbols, and the key to them.

A chart shows the right side. A row worked on the wrong side is read the other way, and its stitches are shown as they
look from the right side; the stitch table says how.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from math import pi
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.drawing.svg import Markup, arc, element, joined, number, spot
from roundwright.drawing.theme import KeyEntry, words
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.picture_address import MOST_DRAWN_ROUNDS
from roundwright.knitting.rounds.round import Round, Steps, runs

PLAIN: Final = "k"
MOST_READ_OUT: Final = 60
"""Rounds read out: more are not listened to."""


class Mark(NamedTuple):
    """A stitch that is not a plain one, and which stitch of the round (from 0) it leaves."""

    place: int
    stitch: str


class Ring(NamedTuple):
    """A round as a chart shows it."""

    number: int
    stitches: int
    """After it."""
    marks: tuple[Mark, ...]
    from_behind: bool = False
    """Worked on the wrong side, and so read the other way."""


def rings_of(crown: CrownAnswer) -> list[Ring]:
    """The rounds of a crown as a chart shows them. Raises `Impossible` for more than it shows."""
    if len(crown.rounds) > MOST_DRAWN_ROUNDS:
        raise Impossible(
            f"A chart shows {MOST_DRAWN_ROUNDS} rounds at most; this crown has {len(crown.rounds)} and can be knitted "
            "without one.",
            pointer="#/stitches",
            nearest=f"a crown of {MOST_DRAWN_ROUNDS} rounds",
        )
    flat = crown.worked == "flat"
    return [ring(each, from_behind=flat and each.number % 2 == 0) for each in crown.rounds]


def ring(each: Round, *, from_behind: bool = False) -> Ring:
    """The round as a chart shows it: first to last as read on the right side."""
    facts, place, marks = reference.stitches(), 0, []
    for stitch, times in runs(each.steps):
        leaves = facts[stitch].leaves
        shown: str = (facts[stitch].wrong_side or stitch) if from_behind else stitch
        if shown != PLAIN:
            marks.extend([Mark(place + turn * leaves, shown) for turn in range(times)])
        place += leaves * times
    if from_behind:
        marks = [Mark(place - 1 - mark.place, mark.stitch) for mark in reversed(marks)]
    return Ring(each.number, place, tuple(marks), from_behind)


class Take(NamedTuple):
    """A stitch that is not a plain one, and the stitches of the round below it takes, from 0."""

    place: int
    uses: int
    stitch: str


def takes(steps: Steps) -> Iterator[Take]:
    """The stitches of a round that are not plain, by what they are worked into."""
    facts, place = reference.stitches(), 0
    for stitch, times in runs(steps):
        uses = facts[stitch].uses
        if stitch not in ("k", "p"):
            for turn in range(times):
                yield Take(place + turn * uses, uses, stitch)
        place += uses * times


def alike(one: Ring, parts: int, seam: int = 0) -> bool:
    """Whether the ring is so many like parts, between `seam` stitches at each end."""
    inside = one.stitches - 2 * seam
    if inside < parts or inside % parts:
        return False
    width, marks = inside // parts, one.marks
    if len(marks) % parts:
        return False
    each = len(marks) // parts
    return all(
        later.stitch == mark.stitch and later.place == mark.place + width
        for mark, later in zip(marks, marks[each:], strict=False)
    )


def symbol(stitch: str) -> str:
    """The symbol of a stitch in the stitch table; nothing for an empty cell."""
    return reference.stitches()[stitch].symbol.strip()


def symbol_size(stitch: str, room: float) -> float:
    """Type size at which the symbol fits a cell of that size; strokes are narrower than letters."""
    said = symbol(stitch)
    shares = (0.95, 0.95, 0.68, 0.52) if not said.strip("/\\•") else (0.8, 0.8, 0.52, 0.4)
    return room * shares[len(said)]


@cache
def meaning(stitch: str) -> str:
    """The stitch in words."""
    row = reference.stitches()[stitch]
    leans = f", leans {row.leans}" if row.leans in ("left", "right") else ""
    return f"{row.name}: {row.words}{leans}"


def boxed(stitch: str, plain: str = "paper") -> Markup:
    """A cell with its symbol, for a key; `plain` is the ground of the plain ones."""
    shaping = stitch != PLAIN
    cell = element("rect", x=6, y=1, width=16, height=16, class_=f"{'ink' if shaping else plain} line")
    return (
        joined((cell, words(14, 13.5, symbol(stitch), symbol_size(stitch, 15), "on m b")))
        if shaping
        else cell
    )


def stitch_key(rings: Iterable[Ring], plain: str = "paper") -> list[KeyEntry]:
    """An entry for every stitch of a chart, whose plain cells have the ground `plain`."""
    found = dict.fromkeys([mark.stitch for each in rings for mark in each.marks])
    return [KeyEntry(boxed(stitch, plain), meaning(stitch)) for stitch in (PLAIN, *found)]


def read_out(rounds: Sequence[Round], word: str) -> str:
    """The rounds for those who do not see the chart: what is not named is plain."""
    shaped = [each for each in rounds if each.after != each.before][:MOST_READ_OUT]
    lines = [f"{word} {each.number}: {each.text}, leaves {each.after}." for each in shaped]
    plain = len(rounds) > len(shaped)
    return " ".join([*lines, *([f"Every other {word.lower()} is worked plain."] if plain else [])])


# --- signs ----------------------------------------------------------------------------------------------------


def stitch_marker(x: float, y: float, grown: float = 1.0) -> Markup:
    """A ring, as it hangs where the round begins."""
    return element("circle", cx=x, cy=y, r=5.5 * grown, class_="s slideline", stroke_width=2.6 * grown)


MARKER_ENTRY: Final = KeyEntry(stitch_marker(14, 9), "stitch marker: the round begins here")


def arrow_left(right: float, y: float, grown: float = 1.0) -> Markup:
    """The way a row is read."""
    shaft = element(
        "path",
        d=f"M{number(right)} {number(y)}h{number(-52 * grown)}",
        class_="s line",
        stroke_width=1.4 * grown,
    )
    left, long, wide = number(right - 52 * grown), number(8 * grown), number(4 * grown)
    head = f"M{left} {number(y - 4 * grown)}l-{long} {wide} {long} {wide}z"
    return joined((shaft, element("path", d=head, class_="ink")))


def arrow_around(
    start: float, radius: float, grown: float = 1.0, kind: str = "ink", line: str = "line"
) -> Markup:
    """The way a round is read: clockwise around the origin, from an angle."""
    one = 180 / pi / radius * grown  # a pixel, in degrees
    tip, wide = start + 34 * one, 4 * grown
    head = f"M{spot(tip, radius - wide)}L{spot(tip + 8 * one, radius)}L{spot(tip, radius + wide)}Z"
    return joined(
        (
            element("path", d=arc(start, tip, radius), class_=f"s {line}", stroke_width=1.4 * grown),
            element("path", d=head, class_=kind),
        )
    )


def slid_disc(stitches: int, size: float = 12.0) -> Markup:
    """Stitches that are slid to the next needle, in a disc around the origin."""
    return joined(
        (
            element("circle", r=size * 0.68, class_="slide paperline", stroke_width=1),
            words(0, size * 0.33, str(stitches), size * 0.9, "on m b"),
        )
    )
