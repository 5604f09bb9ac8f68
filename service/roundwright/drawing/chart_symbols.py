"""Chart symbols: the cells of a round, the symbols of stitches, and their entries in the key.

A chart shows the right side. A row worked on the wrong side is read the other way, and its stitches are shown as they
look from the right side; the stitch table says how.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from math import pi
from typing import Final, NamedTuple

from roundwright import reference
from roundwright.drawing.svg import Markup, arc, element, joined, path_point, px
from roundwright.drawing.theme import KeyEntry, text_line
from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.picture_address import MOST_DRAWN_ROUNDS
from roundwright.knitting.rounds.round import Round, Steps, runs
from roundwright.language import Words, say

PLAIN: Final = "k"
MAX_ROUNDS_IN_WORDS: Final = 60
"""Rounds in a description: nobody listens to more."""


class Mark(NamedTuple):
    """A stitch that is not plain, and its position among the stitches that the round leaves, from 0."""

    position: int
    stitch: str


class Ring(NamedTuple):
    """A round, or a row, as a chart shows it."""

    number: int
    stitches: int
    """After the round."""
    marks: tuple[Mark, ...]
    from_behind: bool = False
    """Worked on the wrong side, and so read the other way."""


class WorkedInto(NamedTuple):
    """A stitch that is not plain, and the stitches it is worked into: the first one, from 0, and how many."""

    position: int
    uses: int
    stitch: str


def rings_of(crown: CrownAnswer) -> list[Ring]:
    """The rounds of a crown as a chart shows them. Raises `Impossible` for more than a chart shows."""
    if len(crown.rounds) > MOST_DRAWN_ROUNDS:
        raise Impossible(
            say("picture.too_many_rounds", most=MOST_DRAWN_ROUNDS, rounds=len(crown.rounds)),
            code="cannot_be_drawn",
            pointer="#/stitches",
            nearest=say("picture.fewer_rounds", most=MOST_DRAWN_ROUNDS),
        )
    flat = crown.worked == "flat"
    return [ring_of(round, from_behind=flat and round.number % 2 == 0) for round in crown.rounds]


def ring_of(round: Round, *, from_behind: bool = False) -> Ring:
    """The round as a chart shows it, in the order in which it is read on the right side."""
    rows, position, marks = reference.stitches(), 0, []
    for stitch, times in runs(round.steps):
        leaves = rows[stitch].leaves
        shown: str = (rows[stitch].wrong_side or stitch) if from_behind else stitch
        if shown != PLAIN:
            marks.extend([Mark(position + index * leaves, shown) for index in range(times)])
        position += leaves * times
    if from_behind:
        marks = [Mark(position - 1 - mark.position, mark.stitch) for mark in reversed(marks)]
    return Ring(round.number, position, tuple(marks), from_behind)


def worked_into(steps: Steps) -> Iterator[WorkedInto]:
    """The stitches of a round that are not plain, with the stitches of the round below that they use."""
    rows, position = reference.stitches(), 0
    for stitch, times in runs(steps):
        uses = rows[stitch].uses
        if stitch not in ("k", "p"):
            for index in range(times):
                yield WorkedInto(position + index * uses, uses, stitch)
        position += uses * times


def has_equal_sections(ring: Ring, sections: int, seam: int = 0) -> bool:
    """Whether the ring consists of equal sections, between `seam` stitches at each end."""
    inside, marks = ring.stitches - 2 * seam, ring.marks
    if inside < sections or inside % sections or len(marks) % sections:
        return False
    width, marks_a_section = inside // sections, len(marks) // sections
    return all(
        later.stitch == mark.stitch and later.position == mark.position + width
        for mark, later in zip(marks, marks[marks_a_section:], strict=False)
    )


def symbol(stitch: str) -> str:
    """The symbol of a stitch in the stitch table; empty for an empty cell."""
    return reference.stitches()[stitch].symbol.strip()


def symbol_size(stitch: str, room: float) -> float:
    """Type size of a symbol in a cell of `room` pixels; strokes are narrower than letters."""
    text = symbol(stitch)
    shares = (0.8, 0.8, 0.52, 0.4) if text.strip("/\\•") else (0.95, 0.95, 0.68, 0.52)
    return room * shares[len(text)]


@cache
def meaning(stitch: str, words: Words) -> str:
    """The stitch in words."""
    leans, text = reference.stitches()[stitch].leans, words.abbreviation(stitch)
    return words.say(f"picture.leans.{leans}", stitch=text) if leans in ("left", "right") else text


def stitch_box(stitch: str, plain: str = "paper") -> Markup:
    """A cell with its symbol, for a key; `plain` is the class of a plain stitch's cell."""
    if stitch == PLAIN:
        return _box(plain)
    return joined((_box("ink"), text_line(14, 13.5, symbol(stitch), symbol_size(stitch, 15), "on m b")))


def _box(css_class: str) -> Markup:
    return element("rect", x=6, y=1, width=16, height=16, class_=f"{css_class} line")


def stitch_key(rings: Iterable[Ring], words: Words, plain: str = "paper") -> list[KeyEntry]:
    """An entry for each stitch of a chart; `plain` is the class of a plain stitch's cell."""
    stitches = dict.fromkeys([mark.stitch for ring in rings for mark in ring.marks])
    return [KeyEntry(stitch_box(stitch, plain), meaning(stitch, words)) for stitch in (PLAIN, *stitches)]


def rounds_in_words(rounds: Sequence[Round], words: Words, *, flat: bool) -> str:
    """The shaped rounds, or with `flat` rows, for readers who do not see the chart."""
    shaped = [round for round in rounds if round.after != round.before][:MAX_ROUNDS_IN_WORDS]
    sentences = [
        words.say_count(
            "picture.row_leaves" if flat else "picture.round_leaves",
            round.after,
            number=round.number,
            work=words.render(round.text),
        )
        for round in shaped
    ]
    if len(rounds) > len(shaped):
        sentences.append(words.say("picture.other_rows" if flat else "picture.other_rounds"))
    return " ".join(sentences)


# --- signs ----------------------------------------------------------------------------------------------------


def stitch_marker(x: float, y: float, scale: float = 1.0) -> Markup:
    """A stitch marker, which hangs where the round begins."""
    return element("circle", cx=x, cy=y, r=5.5 * scale, class_="s slideline", stroke_width=2.6 * scale)


def marker_entry(words: Words) -> KeyEntry:
    """The marker where the round begins, in a key."""
    return KeyEntry(stitch_marker(14, 9), words.say("picture.key.marker"))


def arrow_left(right: float, y: float, scale: float = 1.0) -> Markup:
    """An arrow for the direction in which a row is read."""
    shaft = element(
        "path",
        d=f"M{px(right)} {px(y)}h{px(-52 * scale)}",
        class_="s line",
        stroke_width=1.4 * scale,
    )
    left, length, half_width = px(right - 52 * scale), px(8 * scale), px(4 * scale)
    head = f"M{left} {px(y - 4 * scale)}l-{length} {half_width} {length} {half_width}z"
    return joined((shaft, element("path", d=head, class_="ink")))


def arrow_around(
    start: float, radius: float, scale: float = 1.0, fill_class: str = "ink", line_class: str = "line"
) -> Markup:
    """An arrow for the direction in which a round is read: clockwise around the origin, from an angle."""
    pixel = 180 / pi / radius * scale  # in degrees
    tip, half_width = start + 34 * pixel, 4 * scale
    head = (
        f"M{path_point(tip, radius - half_width)}L{path_point(tip + 8 * pixel, radius)}"
        f"L{path_point(tip, radius + half_width)}Z"
    )
    return joined(
        (
            element("path", d=arc(start, tip, radius), class_=f"s {line_class}", stroke_width=1.4 * scale),
            element("path", d=head, class_=fill_class),
        )
    )


def slide_disc(stitches: int, size: float = 12.0) -> Markup:
    """A number of stitches to slide to the next needle, in a disc around the origin."""
    return joined(
        (
            element("circle", r=size * 0.68, class_="slide paperline", stroke_width=1),
            text_line(0, size * 0.33, str(stitches), size * 0.9, "on m b"),
        )
    )
