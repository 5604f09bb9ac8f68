"""Needles diagram: the needles seen from above, their stitches in working order, and what the next round works.

The round is worked clockwise from the first stitch, and on the needle at the bottom from right to left, as the knitter
who holds it does. The marker hangs between the first and the second stitch: between two needles it would fall off.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from roundwright.drawing.chart_symbols import (
    WorkedInto,
    arrow_around,
    meaning,
    ring_of,
    slide_disc,
    stitch_box,
    stitch_marker,
    symbol,
    symbol_size,
    worked_into,
)
from roundwright.drawing.needles_layout import (
    FILLED_SHARE,
    MAX_STITCH,
    OUTSIDE,
    Layout,
    NeedleState,
    needles_layout,
    state_before,
)
from roundwright.drawing.svg import Markup, Picture, element, joined, point_at, px
from roundwright.drawing.theme import MARGIN, WIDTH, Block, KeyEntry, Theme, page, text_line
from roundwright.knitting.needles.holds import Hold, holder, holders
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.work.split_over_needles import SplitAnswer

TIP: Final = 26.0
"""Length of a needle's tip."""


def needles_diagram(
    plan: SplitAnswer,
    round_number: int = 0,
    *,
    hold: Hold = "double_pointed",
    title: str | None = None,
    theme: Theme = "auto",
) -> Picture:
    """The needles ready for a round, or before any round for 0. Raises `Impossible` for a round after the last."""
    state = state_before(plan, round_number)
    layout = needles_layout(state)
    reach = layout.corner + OUTSIDE * layout.scale
    width = max(WIDTH, 2 * (reach + MARGIN))
    top, bottom = _height_above_middle(layout), layout.distance + OUTSIDE * layout.scale
    on_cord = hold != "double_pointed"
    markup = joined(
        (
            *_middle(state, layout),
            *_needles(state, layout, cables=on_cord, hold=hold),
            *([] if on_cord else _working_needle(layout)),
            _marker(state, layout),
            *_moves(state, layout),
        )
    )
    content = element("g", markup, transform=f"translate({px(width / 2)} {px(top)})")
    return page(
        "needles",
        Block(content, top + bottom + (0 if on_cord else 22 * layout.scale)),
        width=width,
        title=title or _title(state, hold),
        description=_description(state, hold),
        subtitles=_subtitles(state, hold),
        entries=_key(state),
        theme=theme,
    )


def _height_above_middle(layout: Layout) -> float:
    """How far the needles and their names reach above the middle."""
    corners = _corners(layout, layout.corner + 0.6 * TIP)
    names = [
        point_at(layout.angle(needle), layout.distance + 36 * layout.scale)
        for needle in range(layout.needles)
    ]
    return -min(y for _, y in (*corners, *names))


def _corners(layout: Layout, radius: float) -> list[tuple[float, float]]:
    """A point at each corner, at this distance from the middle."""
    return [point_at(layout.angle(needle) + 180 / layout.needles, radius) for needle in range(layout.needles)]


# --- words ----------------------------------------------------------------------------------------------------


def _title(state: NeedleState, hold: Hold) -> str:
    needles = f"{sum(state.before)} stitches on {len(state.before)} {holders(hold)}"
    return f"Round {state.round.number}: {needles}" if state.round else needles


def _subtitles(state: NeedleState, hold: Hold) -> list[str]:
    order = _ORDERS[hold]
    return [_work_text(state.round), order] if state.round else [order]


_ORDERS: Final[Mapping[Hold, str]] = {
    "double_pointed": "Seen from above. Work clockwise: needle 1 from right to left, then needle 2, and so on.",
    "magic_loop": "Seen from above. Work clockwise, from the first half; pull the cord out between the halves.",
    "two_circulars": "Seen from above. Work clockwise, each circular's stitches with its own other tip.",
}


def _work_text(round: Round) -> str:
    return f"{round.text} ({_stitch_count(round.after)})."


def _description(state: NeedleState, hold: Hold) -> str:
    needles = ", ".join([_needle_text(state, needle, hold) for needle in range(len(state.before))])
    work = [f"Round {state.round.number}: {_work_text(state.round)}"] if state.round else []
    moves = [
        f"Before it, {_stitch_count(stitches)} slid from {holder(hold, needle)} to {holder(hold, needle + 1)}."
        for needle, stitches in enumerate(state.slid)
        if stitches
    ]
    return " ".join(
        [
            f"{needles}.",
            *work,
            *moves,
            f"The round begins with {holder(hold, 1)}; the marker hangs after its first stitch.",
        ]
    )


def _needle_text(state: NeedleState, needle: int, hold: Hold) -> str:
    count = state.before[needle]
    after = state.round.needles[needle] if state.round and state.round.needles else count
    change = f", then {after}" if after != count else ""
    return f"{holder(hold, needle + 1).removeprefix('the ')}: {_stitch_count(count) if count else 'empty'}{change}"


def _stitch_count(stitches: int) -> str:
    return f"{stitches} st{'' if stitches == 1 else 's'}"


# --- needles --------------------------------------------------------------------------------------------------


def _needles(state: NeedleState, layout: Layout, *, cables: bool, hold: Hold) -> Iterator[Markup]:
    shaping = list(worked_into(state.round.steps)) if state.round else []
    first = 0
    for needle, count in enumerate(state.before):
        on_needle = [
            stitch._replace(position=stitch.position - first)
            for stitch in shaping
            if first <= stitch.position < first + count
        ]
        first += count
        turn = f"rotate({px(layout.angle(needle))})"
        yield element(
            "g", *_needle(layout, cable=cables), *_stitches(count, on_needle, layout), transform=turn
        )
        yield _needle_name(_needle_text(state, needle, hold), layout, needle)


def _needle(layout: Layout, *, cable: bool) -> Iterator[Markup]:
    """A needle with its two tips, at the bottom; a cable joins them."""
    y, end, tip = px(layout.distance), layout.half_length, TIP * layout.line_scale
    if cable:
        out, far = px(end + tip), px(end + 3.2 * tip)
        cable_y, near = px(layout.distance + 34 * layout.scale), px(end * 0.7)
        left_out, left_far, left_near = px(-end - tip), px(-end - 3.2 * tip), px(-end * 0.7)
        yield element(
            "path",
            d=f"M{left_out} {y}C{left_far} {y} {left_far} {cable_y} {left_near} {cable_y}"
            f"H{near}C{far} {cable_y} {far} {y} {out} {y}",
            class_="s pinline",
            stroke_width=1.4 * layout.line_scale,
        )
    half_width = 2.6 * layout.line_scale
    upper, lower = px(layout.distance - half_width), px(layout.distance + half_width)
    yield element(
        "path",
        d=f"M{px(-end - tip)} {y}L{px(-end)} {upper}H{px(end)}L{px(end + tip)} {y}L{px(end)} {lower}H{px(-end)}Z",
        class_="pin",
    )


def _stitches(count: int, shaping: Sequence[WorkedInto], layout: Layout) -> Iterator[Markup]:
    """The stitches of a needle as loops over it, from right to left, and over them the symbols of the round."""
    if not count:
        return
    pitch = _pitch(count, layout)
    right, height = count * pitch / 2, min(17.0, 9 + pitch) * layout.line_scale
    loop = min(pitch * 0.62, 5.5)
    yield element(
        "path",
        d=f"M{px(right)} {px(layout.distance)}H{px(-right)}",
        class_="s softline",
        stroke_width=height,
        stroke_dasharray=f"{loop:.3f} {pitch - loop:.4f}",
        stroke_dashoffset=f"{(loop - pitch) / 2:.4f}",
    )
    marks = []
    for stitch in shaping:
        width = stitch.uses * pitch
        x = right - stitch.position * pitch - width
        marks.append(
            element(
                "rect",
                x=x + 0.4,
                y=layout.distance - height / 2 - 2,
                width=width - 0.8,
                height=height + 4,
                rx=2,
                class_="ink paperline",
            )
        )
        size = symbol_size(stitch.stitch, min(width, height + 2))
        y = layout.distance + size * 0.35
        marks.append(text_line(x + width / 2, y, symbol(stitch.stitch), size, "on m b"))
    if marks:
        yield element("g", *marks, stroke_width=0.5)


def _needle_name(text: str, layout: Layout, needle: int) -> Markup:
    angle = layout.angle(needle)
    above = 90 < angle < 270
    radius, size = layout.distance + 15 * layout.line_scale, 12.5 * layout.scale
    return text_line(
        0,
        -radius if above else radius + 0.75 * size,
        text,
        size,
        "pin m b",
        transform=f"rotate({px(angle + (180 if above else 0))})",
    )


# --- start, moves, middle -------------------------------------------------------------------------------------


def _working_needle(layout: Layout) -> Iterator[Markup]:
    """The needle to work with, its tip at the first stitch."""
    line_scale = layout.line_scale
    x, y = layout.half_length * FILLED_SHARE - 2, layout.distance + 9 * line_scale
    end_x, end_y = x + 2 + 62 * layout.scale, layout.distance + 44 * layout.scale
    half_width = 2.4 * line_scale
    yield element(
        "path",
        d=f"M{px(x)} {px(y)}L{px(x + 12 * line_scale)} {px(y + 4 * line_scale)}"
        f"L{px(end_x)} {px(end_y - half_width)}V{px(end_y + half_width)}"
        f"L{px(x + 8 * line_scale)} {px(y + 8 * line_scale)}Z",
        class_="paper pinline",
        stroke_width=1.4 * line_scale,
    )
    yield text_line(end_x, end_y + 17 * layout.scale, "working needle", 12.5 * layout.scale, "pin e")


def _marker(state: NeedleState, layout: Layout) -> Markup:
    """The stitch marker, between the first and the second stitch of the round."""
    needle, count = next(((needle, count) for needle, count in enumerate(state.before) if count), (0, 1))
    pitch = _pitch(count, layout)
    marker = stitch_marker(count * pitch / 2 - pitch, layout.distance, layout.line_scale)
    return element("g", marker, transform=f"rotate({px(layout.angle(needle))})")


def _pitch(count: int, layout: Layout) -> float:
    """From stitch to stitch on a needle that holds so many."""
    return min(2 * layout.half_length * FILLED_SHARE / count, MAX_STITCH)


def _moves(state: NeedleState, layout: Layout) -> Iterator[Markup]:
    """The number of stitches slid over each corner, with an arrow."""
    for needle, stitches in enumerate(state.slid):
        if not stitches:
            continue
        angle = layout.angle(needle) - 180 / layout.needles
        radius = layout.corner + 10 * layout.line_scale if layout.needles > 2 else layout.half_length
        x, y = point_at(angle, radius)
        yield element(
            "g",
            element("path", d="M-15 -6.5L-24 0L-15 6.5Z", class_="slide", transform=f"rotate({px(angle)})"),
            slide_disc(stitches),
            transform=f"translate({px(x)} {px(y)}) scale({layout.scale:.3g})",
        )


def _middle(state: NeedleState, layout: Layout) -> Iterator[Markup]:
    """The round, its count before and after, and the direction in which it goes."""
    scale = layout.scale
    if state.round:
        first, second = f"Round {state.round.number}", f"{state.round.before} to {state.round.after} sts"
    else:
        first, second = f"{sum(state.before)} sts", "before the first round"
    if layout.needles > 2:
        points = " ".join(f"{px(x)},{px(y)}" for x, y in _corners(layout, layout.corner * 0.86))
        yield element("polygon", points=points, class_="tint")
    yield text_line(0, -2 * scale, first, 19 * scale, "ink m b")
    yield text_line(0, 17 * scale, second, 12.5 * scale, "soft m")
    if layout.needles > 2:
        yield arrow_around(-30, min(layout.distance * 0.74, 74 * scale), scale, "soft", "softline")


# --- key ------------------------------------------------------------------------------------------------------


def _key(state: NeedleState) -> list[KeyEntry]:
    loop = element("path", d="M6 9H22", class_="s softline", stroke_width=15, stroke_dasharray="5 6")
    needle = element("path", d="M0 9H28", class_="pinline", stroke_width=4)
    entries = [KeyEntry(joined((needle, loop)), "needle with a loop for each stitch"), _MARKER_ENTRY]
    marks = ring_of(state.round).marks if state.round else ()
    entries += [
        KeyEntry(stitch_box(stitch), meaning(stitch))
        for stitch in dict.fromkeys(mark.stitch for mark in marks)
    ]
    if any(state.slid):
        disc = element("g", slide_disc(1), transform="translate(14 9)")
        entries.append(KeyEntry(disc, "number of sts slid to the next needle before the round"))
    return entries


_MARKER_ENTRY: Final = KeyEntry(stitch_marker(14, 9), "stitch marker, after the first stitch of the round")
