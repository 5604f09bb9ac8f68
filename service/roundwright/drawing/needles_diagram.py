"""The needles as they are held, seen from above: their stitches in working order, and what the next round takes.

The needles lie around the work. The round is worked clockwise from the marker, on the needle at the bottom from right
to left, as the knitter does who holds it so.
"""

from collections.abc import Iterator, Sequence
from math import pi, sqrt, tan
from typing import Final, NamedTuple

from roundwright.drawing.chart_symbols import (
    MARKER_ENTRY,
    Ring,
    Take,
    arrow_around,
    boxed,
    meaning,
    ring,
    slid_disc,
    stitch_marker,
    symbol,
    symbol_size,
    takes,
)
from roundwright.drawing.svg import Markup, Picture, around, element, joined, number
from roundwright.drawing.theme import MARGIN, WIDTH, Block, KeyEntry, Theme, larger, sheet, words
from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.work.split_over_needles import SplitAnswer
from roundwright.knitting.work.split_request import Hold

HALF_LENGTH: Final = {2: 165.0, 3: 150.0, 4: 122.0, 5: 98.0}
"""Half of what carries stitches, of each of so many needles."""
BETWEEN_TWO: Final = 62.0
"""Distance of each of two needles from the middle."""
FILLED: Final = 0.94
"""Share of its length over which a needle carries its stitches."""
NARROWEST_STITCH: Final = 3.2
WIDEST_STITCH: Final = 15.0
TIP: Final = 26.0
OUTSIDE: Final = 46.0
"""Room outside the needles for their names and the working needle."""


class Held(NamedTuple):
    """The needles before a round, what was slid for it, and the round; none before the first."""

    before: tuple[int, ...]
    slid: tuple[int, ...]
    """Stitches slid on to each needle from the one before it."""
    round: Round | None


class Lay(NamedTuple):
    """Where the needles lie."""

    needles: int
    half: float
    """Half of what carries stitches."""
    away: float
    """Distance of a needle from the middle."""
    grown: float
    pen: float

    def angle(self, needle: int) -> float:
        """Of a needle, the first being 0."""
        return 360 / self.needles * needle

    @property
    def corner(self) -> float:
        """Distance from the middle of where two needles meet."""
        return sqrt(self.half**2 + self.away**2)


def needles_diagram(
    plan: SplitAnswer,
    round_number: int = 0,
    *,
    hold: Hold = "double_pointed",
    title: str | None = None,
    theme: Theme = "auto",
) -> Picture:
    """The needles ready for a round; before any, for 0.

    Raises `Impossible` for a round that there is not.
    """
    held = _held(plan, round_number)
    lay = _lay(held)
    reach = lay.corner + OUTSIDE * lay.grown
    width = max(WIDTH, 2 * (reach + MARGIN))
    top, bottom = _above(lay), lay.away + OUTSIDE * lay.grown
    two = hold == "two_circulars"
    drawn = joined(
        (
            *_middle(held, lay),
            *_needles(held, lay, cables=two),
            *([] if two else _working_needle(lay)),
            _marker(lay),
            *_moves(held, lay),
        )
    )
    content = element("g", drawn, transform=f"translate({number(width / 2)} {number(top)})")
    return sheet(
        "needles",
        Block(content, top + bottom + (0 if two else 22 * lay.grown)),
        width=width,
        title=title or _title(held),
        about=_about(held),
        heads=_heads(held, two=two),
        entries=_key(held),
        theme=theme,
    )


def _held(plan: SplitAnswer, round_number: int) -> Held:
    if round_number > len(plan.rounds):
        raise Impossible(
            f"There is no round {round_number}: "
            + (f"the last is {len(plan.rounds)}." if plan.rounds else "no rounds are to come."),
            pointer="#/round",
            nearest=f"round {len(plan.rounds)}",
        )
    if not round_number:
        return Held(plan.split, (0,) * len(plan.split), None)
    each = plan.rounds[round_number - 1]
    before = list(plan.rounds[round_number - 2].needles or ()) if round_number > 1 else list(plan.split)
    slid = [0] * len(before)
    for move in each.moves:
        before[move.needle - 1] -= move.stitches
        before[move.needle] += move.stitches
        slid[move.needle] = move.stitches
    return Held(tuple(before), tuple(slid), each)


def _above(lay: Lay) -> float:
    """How far the needles and their names reach above the middle."""
    corners = [
        around(lay.angle(needle) + 180 / lay.needles, lay.corner + 0.6 * TIP)[1]
        for needle in range(lay.needles)
    ]
    names = [around(lay.angle(needle), lay.away + 36 * lay.grown)[1] for needle in range(lay.needles)]
    return -min(*corners, *names)


def _lay(held: Held) -> Lay:
    needles = len(held.before)
    half = max(HALF_LENGTH[needles], NARROWEST_STITCH * max(held.before) / 2 / FILLED)
    away = BETWEEN_TWO if needles == 2 else half / tan(pi / needles)
    grown = larger(2 * (sqrt(half**2 + away**2) + OUTSIDE + MARGIN))
    return Lay(needles, half, away * (1 if needles > 2 else grown), grown, sqrt(grown))


# --- words ----------------------------------------------------------------------------------------------------


def _title(held: Held) -> str:
    needles = f"{sum(held.before)} stitches on {len(held.before)} needles"
    return f"Round {held.round.number}: {needles}" if held.round else needles


def _heads(held: Held, *, two: bool) -> list[str]:
    seen = "Seen from above. Work clockwise from the marker: needle 1 from right to left, then needle 2, and so on."
    if two:
        seen = (
            "Seen from above. Work clockwise from the marker, each needle's stitches with its own other tip."
        )
    return [_work(held.round), seen] if held.round else [seen]


def _work(each: Round) -> str:
    return f"{each.text} ({_counted(each.after)})."


def _about(held: Held) -> str:
    said = [_named(held, needle) for needle in range(len(held.before))]
    moved = [
        f"Before it, {_counted(stitches)} slid from needle {needle} to needle {needle + 1}."
        for needle, stitches in enumerate(held.slid)
        if stitches
    ]
    work = [f"Round {held.round.number}: {_work(held.round)}"] if held.round else []
    return " ".join([f"{', '.join(said)}.", *work, *moved, "The round begins at the marker before needle 1."])


def _named(held: Held, needle: int) -> str:
    count = held.before[needle]
    then = held.round.needles[needle] if held.round and held.round.needles else count
    after = f", then {then}" if held.round and then != count else ""
    return f"needle {needle + 1}: {_counted(count) if count else 'empty'}{after}"


def _counted(stitches: int) -> str:
    return f"{stitches} st{'' if stitches == 1 else 's'}"


# --- needles --------------------------------------------------------------------------------------------------


def _needles(held: Held, lay: Lay, *, cables: bool) -> Iterator[Markup]:
    taken = list(takes(held.round.steps)) if held.round else []
    first = 0
    for needle, count in enumerate(held.before):
        here = [
            take._replace(place=take.place - first) for take in taken if first <= take.place < first + count
        ]
        first += count
        turn = f"rotate({number(lay.angle(needle))})"
        yield element("g", *_needle(lay, cable=cables), *_stitches(count, here, lay), transform=turn)
        yield from _name(_named(held, needle), lay, needle)


def _needle(lay: Lay, *, cable: bool) -> Iterator[Markup]:
    """A needle with both its tips, at the bottom; `cable` joins them."""
    y, end, tip = lay.away, lay.half, TIP * lay.pen
    bar = 2.6 * lay.pen
    if cable:
        out, far = end + tip, end + 3.2 * tip
        yield element(
            "path",
            d=f"M{number(-out)} {number(y)}C{number(-far)} {number(y)} {number(-far)} {number(y + 34 * lay.grown)} "
            f"{number(-end * 0.7)} {number(y + 34 * lay.grown)}H{number(end * 0.7)}C{number(far)} "
            f"{number(y + 34 * lay.grown)} {number(far)} {number(y)} {number(out)} {number(y)}",
            class_="s pinline",
            stroke_width=1.4 * lay.pen,
        )
    yield element(
        "path",
        d=f"M{number(-end - tip)} {number(y)}L{number(-end)} {number(y - bar)}H{number(end)}L{number(end + tip)} "
        f"{number(y)}L{number(end)} {number(y + bar)}H{number(-end)}Z",
        class_="pin",
    )


def _stitches(count: int, taken: Sequence[Take], lay: Lay) -> Iterator[Markup]:
    """The stitches of a needle as loops over it, from right to left, and over them what the round takes together."""
    if not count:
        return
    pitch = min(2 * lay.half * FILLED / count, WIDEST_STITCH)
    right, tall = count * pitch / 2, min(17.0, 9 + pitch) * lay.pen
    thick = min(pitch * 0.62, 5.5)
    yield element(
        "path",
        d=f"M{number(right)} {number(lay.away)}H{number(-right)}",
        class_="s softline",
        stroke_width=tall,
        stroke_dasharray=f"{thick:.3f} {pitch - thick:.4f}",
        stroke_dashoffset=f"{(thick - pitch) / 2:.4f}",
    )
    marks = []
    for take in taken:
        width = take.uses * pitch
        x = right - take.place * pitch - width
        marks.append(
            element(
                "rect",
                x=x + 0.4,
                y=lay.away - tall / 2 - 2,
                width=width - 0.8,
                height=tall + 4,
                rx=2,
                class_="ink paperline",
            )
        )
        room = min(width, tall + 2)
        size = symbol_size(take.stitch, room)
        marks.append(words(x + width / 2, lay.away + size * 0.35, symbol(take.stitch), size, "on m b"))
    if marks:
        yield element("g", *marks, stroke_width=0.5)


def _name(said: str, lay: Lay, needle: int) -> Iterator[Markup]:
    angle = lay.angle(needle)
    above = 90 < angle < 270
    radius, size = lay.away + 15 * lay.pen, 12.5 * lay.grown
    yield words(
        0,
        -radius if above else radius + 0.75 * size,
        said,
        size,
        "pin m b",
        transform=f"rotate({number(angle + (180 if above else 0))})",
    )


# --- start, moves, middle -------------------------------------------------------------------------------------


def _working_needle(lay: Lay) -> Iterator[Markup]:
    """The needle that works, its tip at the first stitch."""
    x, y, pen = lay.half * FILLED, lay.away, lay.pen
    tip, far, thick = (x - 2, y + 9 * pen), (x + 62 * lay.grown, y + 44 * lay.grown), 2.4 * pen
    yield element(
        "path",
        d=f"M{number(tip[0])} {number(tip[1])}L{number(tip[0] + 12 * pen)} {number(tip[1] + 4 * pen)}"
        f"L{number(far[0])} {number(far[1] - thick)}V{number(far[1] + thick)}"
        f"L{number(tip[0] + 8 * pen)} {number(tip[1] + 8 * pen)}Z",
        class_="paper pinline",
        stroke_width=1.4 * pen,
    )
    yield words(far[0], far[1] + 17 * lay.grown, "working needle", 12.5 * lay.grown, "pin e")


def _marker(lay: Lay) -> Markup:
    """Between the last needle and the first."""
    x, y = around(-180 / lay.needles, lay.corner - 22 * lay.pen if lay.needles > 2 else lay.half * 0.97)
    return stitch_marker(x, y, lay.pen)


def _moves(held: Held, lay: Lay) -> Iterator[Markup]:
    """At the corner over which stitches were slid, how many."""
    for needle, stitches in enumerate(held.slid):
        if not stitches:
            continue
        angle = lay.angle(needle) - 180 / lay.needles
        radius = lay.corner + 10 * lay.pen if lay.needles > 2 else lay.half
        x, y = around(angle, radius)
        yield element(
            "g",
            element(
                "path", d="M-15 -6.5L-24 0L-15 6.5Z", class_="slide", transform=f"rotate({number(angle)})"
            ),
            slid_disc(stitches),
            transform=f"translate({number(x)} {number(y)}) scale({lay.grown:.3g})",
        )


def _middle(held: Held, lay: Lay) -> Iterator[Markup]:
    """The round, its count before and after, and the way it goes."""
    grown = lay.grown
    first, second = (
        (f"Round {held.round.number}", f"{held.round.before} to {held.round.after} sts")
        if held.round
        else (f"{sum(held.before)} sts", "before the first round")
    )
    if lay.needles > 2:
        corners = [
            around(lay.angle(needle) + 180 / lay.needles, lay.corner * 0.86) for needle in range(lay.needles)
        ]
        yield element(
            "polygon", points=" ".join(f"{number(x)},{number(y)}" for x, y in corners), class_="tint"
        )
    yield words(0, -2 * grown, first, 19 * grown, "ink m b")
    yield words(0, 17 * grown, second, 12.5 * grown, "soft m")
    if lay.needles > 2:
        yield arrow_around(-30, min(lay.away * 0.74, 74 * grown), grown, "soft", "softline")


# --- key ------------------------------------------------------------------------------------------------------


def _key(held: Held) -> list[KeyEntry]:
    loop = element("path", d="M6 9H22", class_="s softline", stroke_width=15, stroke_dasharray="5 6")
    bar = element("path", d="M0 9H28", class_="pinline", stroke_width=4)
    entries = [
        KeyEntry(joined((bar, loop)), "needle with a loop for each stitch"),
        MARKER_ENTRY,
    ]
    shown = ring(held.round) if held.round else Ring(0, 0, ())
    entries += [
        KeyEntry(boxed(stitch), meaning(stitch))
        for stitch in dict.fromkeys(mark.stitch for mark in shown.marks)
    ]
    if any(held.slid):
        disc = element("g", slid_disc(1), transform="translate(14 9)")
        entries.append(KeyEntry(disc, "so many sts were slid over to the next needle first"))
    return entries
