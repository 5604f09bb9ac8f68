"""Needles diagram: the needles seen from above, their stitches in working order, and what the next round works.

The round is worked clockwise from the first stitch, and on the needle at the bottom from right to left, as the knitter
who holds it does. The marker hangs between the first and the second stitch: between two needles it would fall off.
"""

from collections.abc import Iterator, Sequence
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
from roundwright.knitting.needles.holds import Hold
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.work.split_over_needles import SplitAnswer
from roundwright.language import ENGLISH_WORDS, Words, say_count

TIP: Final = 26.0
"""Length of a needle's tip."""


def needles_diagram(
    plan: SplitAnswer,
    round_number: int = 0,
    *,
    hold: Hold = "double_pointed",
    title: str | None = None,
    theme: Theme = "auto",
    words: Words = ENGLISH_WORDS,
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
            *_middle(state, layout, words),
            *_needles(state, layout, words, hold=hold),
            *([] if on_cord else _working_needle(layout, words)),
            _marker(state, layout),
            *_moves(state, layout),
        )
    )
    content = element("g", markup, transform=f"translate({px(width / 2)} {px(top)})")
    return page(
        "needles",
        Block(content, top + bottom + (0 if on_cord else 22 * layout.scale)),
        width=width,
        title=title or _title(state, hold, words),
        description=_description(state, hold, words),
        subtitles=_subtitles(state, hold, words),
        entries=_key(state, words),
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


def _title(state: NeedleState, hold: Hold, words: Words) -> str:
    stitches = say_count("stitches", sum(state.before))
    on = words.say(f"picture.on.{hold}", stitches=stitches, needles=len(state.before))
    return words.say("picture.round_work", number=state.round.number, work=on) if state.round else on


def _subtitles(state: NeedleState, hold: Hold, words: Words) -> list[str]:
    order = words.say(f"picture.read.{hold}")
    return [_work_text(state.round, words), order] if state.round else [order]


def _work_text(round: Round, words: Words) -> str:
    return words.say_count("picture.work_and_count", round.after, work=words.render(round.text))


def _description(state: NeedleState, hold: Hold, words: Words) -> str:
    needles = ", ".join([_needle_text(state, needle, hold, words) for needle in range(len(state.before))])
    sentences = [words.say("picture.needles", needles=needles)]
    if state.round:
        work = _work_text(state.round, words)
        sentences.append(words.say("picture.round_work", number=state.round.number, work=work))
    sentences += [
        words.say_count(f"picture.slid.{hold}", stitches, needle=needle, next_needle=needle + 1)
        for needle, stitches in enumerate(state.slid)
        if stitches
    ]
    return " ".join([*sentences, words.say(f"picture.begins.{hold}")])


def _needle_text(state: NeedleState, needle: int, hold: Hold, words: Words) -> str:
    count = state.before[needle]
    after = state.round.needles[needle] if state.round and state.round.needles else count
    stitches = words.say_count("picture.sts", count) if count else words.say("picture.empty")
    name = _holder(hold, needle + 1, words)
    if after == count:
        return words.say("picture.needle", holder=name, stitches=stitches)
    return words.say("picture.needle_then", holder=name, stitches=stitches, after=after)


def _holder(hold: Hold, number: int, words: Words) -> str:
    """What holds a part of the round, as its label in the picture."""
    if hold == "double_pointed":
        return words.say("picture.holder.double_pointed", number=number)
    return words.say(f"picture.holder.{hold}.{number}")


# --- needles --------------------------------------------------------------------------------------------------


def _needles(state: NeedleState, layout: Layout, words: Words, *, hold: Hold) -> Iterator[Markup]:
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
            "g",
            *_needle(layout, cable=hold != "double_pointed"),
            *_stitches(count, on_needle, layout),
            transform=turn,
        )
        yield _needle_name(_needle_text(state, needle, hold, words), layout, needle)


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


def _working_needle(layout: Layout, words: Words) -> Iterator[Markup]:
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
    name = words.say("picture.working_needle")
    yield text_line(end_x, end_y + 17 * layout.scale, name, 12.5 * layout.scale, "pin e")


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


def _middle(state: NeedleState, layout: Layout, words: Words) -> Iterator[Markup]:
    """The round, its count before and after, and the direction in which it goes."""
    scale = layout.scale
    if state.round:
        first = words.say("picture.round_number", number=state.round.number)
        second = words.say_count("picture.before_to_sts", state.round.after, before=state.round.before)
    else:
        first = words.say_count("picture.sts", sum(state.before))
        second = words.say("picture.before_first_round")
    if layout.needles > 2:
        points = " ".join(f"{px(x)},{px(y)}" for x, y in _corners(layout, layout.corner * 0.86))
        yield element("polygon", points=points, class_="tint")
    yield text_line(0, -2 * scale, first, 19 * scale, "ink m b")
    yield text_line(0, 17 * scale, second, 12.5 * scale, "soft m")
    if layout.needles > 2:
        yield arrow_around(-30, min(layout.distance * 0.74, 74 * scale), scale, "soft", "softline")


# --- key ------------------------------------------------------------------------------------------------------


def _key(state: NeedleState, words: Words) -> list[KeyEntry]:
    loop = element("path", d="M6 9H22", class_="s softline", stroke_width=15, stroke_dasharray="5 6")
    needle = element("path", d="M0 9H28", class_="pinline", stroke_width=4)
    entries = [
        KeyEntry(joined((needle, loop)), words.say("picture.key.loops")),
        KeyEntry(stitch_marker(14, 9), words.say("picture.key.marker_after_first")),
    ]
    marks = ring_of(state.round).marks if state.round else ()
    entries += [
        KeyEntry(stitch_box(stitch), meaning(stitch, words))
        for stitch in dict.fromkeys(mark.stitch for mark in marks)
    ]
    if any(state.slid):
        disc = element("g", slide_disc(1), transform="translate(14 9)")
        entries.append(KeyEntry(disc, words.say("picture.key.slid")))
    return entries
