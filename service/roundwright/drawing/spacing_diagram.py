"""Spacing diagram: a round or row with its changes, and the number of plain stitches in each gap between them.

A round is drawn as a ring, clockwise from the marker at the bottom; a row, and a round too long for a ring, in lines
from right to left, the first at the bottom. A gap shows its stitches, but two gaps are not to scale.
"""

from collections.abc import Iterator, Sequence
from math import ceil
from typing import Final, NamedTuple

from roundwright.drawing.chart_symbols import (
    arrow_around,
    arrow_left,
    marker_entry,
    meaning,
    stitch_box,
    stitch_marker,
    symbol,
    symbol_size,
    worked_into,
)
from roundwright.drawing.svg import RADIAN, Markup, Picture, arc, element, joined, px
from roundwright.drawing.theme import MARGIN, WIDTH, Block, KeyEntry, Theme, page, text_line
from roundwright.knitting.answers import Impossible
from roundwright.knitting.picture_address import MOST_DRAWN_CHANGES, MOST_DRAWN_STITCHES
from roundwright.knitting.rounds.round import Round
from roundwright.language import ENGLISH_WORDS, Words, say, say_count, sentence_start

MIN_RADIUS: Final = 122.0
MAX_RADIUS: Final = 200.0
"""Of a ring that fits the narrowest picture."""
BAND: Final = 26.0
"""Height of the stitches."""
CHANGE_LENGTH: Final = 18.0
MIN_GAP: Final = 20.0
"""Room for the number in a gap."""
MAX_GAP: Final = 150.0
STITCH_LENGTH: Final = 5.0
LINE_HEIGHT: Final = 50.0
OPEN_ANGLE: Final = 10.0
"""Degrees left open at the bottom of a ring, for the marker."""
TURN: Final = 360 - OPEN_ANGLE


class Part(NamedTuple):
    """A gap of plain stitches, or a change and the stitches it uses."""

    stitch: str | None
    """The change; None for a gap."""
    stitches: int

    @property
    def length(self) -> float:
        """Pixels along the round: enough for the number in a gap, and less than a line."""
        if self.stitch:
            return CHANGE_LENGTH * max(1.0, 0.6 * self.stitches)
        return max(MIN_GAP, min(self.stitches * STITCH_LENGTH, MAX_GAP))


def spacing_diagram(
    round: Round,
    *,
    flat: bool = False,
    title: str | None = None,
    theme: Theme = "auto",
    words: Words = ENGLISH_WORDS,
) -> Picture:
    """The round, or with `flat` the row, and its changes.

    Raises `Impossible` for more stitches or changes than a picture shows.
    """
    if round.before > MOST_DRAWN_STITCHES:
        raise Impossible(
            say("picture.too_many_stitches", most=MOST_DRAWN_STITCHES, stitches=round.before),
            code="cannot_be_drawn",
            pointer="#/stitches",
            nearest=say_count("stitches", MOST_DRAWN_STITCHES),
        )
    parts = _parts(round)
    changes = sum(1 for part in parts if part.stitch)
    if changes > MOST_DRAWN_CHANGES:
        raise Impossible(
            say("picture.too_many_changes", most=MOST_DRAWN_CHANGES, changes=changes),
            code="cannot_be_drawn",
            pointer="#/change",
            nearest=say("picture.fewer_changes", most=MOST_DRAWN_CHANGES),
        )
    is_ring = not flat and _length(parts) * RADIAN / TURN <= MAX_RADIUS
    return page(
        "spacing",
        _ring(round, parts, words) if is_ring else _lines(round, parts, words, marker=not flat),
        width=WIDTH,
        title=title
        or words.say(
            "picture.one_row" if flat else "picture.one_round", before=round.before, after=round.after
        ),
        description=_description(round, parts, words, flat=flat),
        subtitles=_subtitles(round, words, is_ring=is_ring),
        entries=_key(parts, words, flat=flat),
        theme=theme,
    )


def _parts(round: Round) -> list[Part]:
    parts, position = [], 0
    for change in worked_into(round.steps):
        if change.position > position:
            parts.append(Part(None, change.position - position))
        parts.append(Part(change.stitch, change.uses))
        position = change.position + change.uses
    return [*parts, Part(None, round.before - position)] if position < round.before else parts


def _subtitles(round: Round, words: Words, *, is_ring: bool) -> list[str]:
    text = words.say("picture.work", work=sentence_start(words.render(round.text)))
    return [text, words.say("picture.read_ring" if is_ring else "picture.read_lines")]


def _description(round: Round, parts: Sequence[Part], words: Words, *, flat: bool) -> str:
    return words.say(
        "picture.row_in_order" if flat else "picture.round_in_order",
        before=round.before,
        after=round.after,
        work=words.render(round.text),
        order=", ".join([_part_text(part, words) for part in parts]),
    )


def _part_text(part: Part, words: Words) -> str:
    return words.stitch(part.stitch).format(n=1) if part.stitch else str(part.stitches)


# --- a ring ---------------------------------------------------------------------------------------------------


def _length(parts: Sequence[Part]) -> float:
    return sum([part.length for part in parts])


def _stretched(parts: Sequence[Part], room: float) -> list[float]:
    """The lengths of the parts so that they fill the room: the gaps are stretched or, without gaps, the changes."""
    gaps = _length([part for part in parts if not part.stitch])
    factor = 1 + (room - _length(parts)) / gaps if gaps else room / _length(parts)
    return [part.length * (1.0 if part.stitch and gaps else factor) for part in parts]


def _ring(round: Round, parts: Sequence[Part], words: Words) -> Block:
    radius = max(MIN_RADIUS, _length(parts) * RADIAN / TURN)
    reach = radius + BAND / 2 + 20
    markup = [*_ring_parts(parts, radius), *_ring_middle(round, radius, words)]
    content = element("g", *markup, transform=f"translate({px(WIDTH / 2)} {px(reach - 10)})")
    return Block(content, 2 * reach - 6)


def _ring_parts(parts: Sequence[Part], radius: float) -> Iterator[Markup]:
    start = OPEN_ANGLE / 2
    for part, length in zip(parts, _stretched(parts, radius * TURN / RADIAN), strict=True):
        end = start + length * RADIAN / radius
        middle = (start + end) / 2
        if part.stitch:
            inset = 60 / radius
            path = arc(start + inset, end - inset, radius)
            yield element("path", d=path, class_="s line", stroke_width=BAND + 8)
            size = symbol_size(part.stitch, min(length, BAND))
            turn = f"rotate({px(middle)})"
            yield text_line(0, radius + size * 0.35, symbol(part.stitch), size, "on m b", transform=turn)
        else:
            path = arc(start, end, radius)
            yield element("path", d=path, class_="s tinted", stroke_width=BAND)
            yield element("path", d=path, class_="s hair", **_dashes(length, part.stitches))
            above = 90 < middle < 270
            y = 4.6 - radius if above else 4.6 + radius
            turn = f"rotate({px(middle + (180 if above else 0))})"
            yield text_line(0, y, str(part.stitches), 13, "ink m b", transform=turn)
        start = end


def _dashes(length: float, stitches: int) -> dict[str, str | float]:
    """The attributes of a path that draw a line between each two stitches of a gap."""
    pitch, line = length / stitches, 0.8
    return {
        "stroke_width": BAND,
        "stroke_dasharray": f"{line} {pitch - line:.4f}",
        "stroke_dashoffset": f"{line / 2}",
    }


def _ring_middle(round: Round, radius: float, words: Words) -> Iterator[Markup]:
    """The marker, the direction, and the counts in the middle."""
    yield stitch_marker(0, radius + BAND / 2 + 9)
    arrow_radius = radius + BAND / 2 + 12
    yield arrow_around(600 / arrow_radius, arrow_radius)
    yield text_line(0, -6, f"{round.before}", 26, "ink m b")
    yield text_line(0, 16, words.say_count("picture.to_sts", round.after), 14, "soft m")


# --- lines ----------------------------------------------------------------------------------------------------


def _lines(round: Round, parts: Sequence[Part], words: Words, *, marker: bool) -> Block:
    room = WIDTH - 2 * MARGIN
    lines = _in_lines(parts, room)
    height = len(lines) * LINE_HEIGHT
    markup: list[Markup] = []
    for index, line in enumerate(lines):
        markup.extend(_line_parts(line, WIDTH - MARGIN, height - (index + 0.5) * LINE_HEIGHT, room))
    right = WIDTH - MARGIN
    if marker:
        markup.append(stitch_marker(right - 6, height + 4))
        right -= 18
    markup.append(arrow_left(right, height + 4))
    counts = words.say_count("picture.before_to_sts", round.after, before=round.before)
    markup.append(text_line(right - 70, height + 8, counts, 12.5, "ink b e"))
    return Block(joined(markup), height + 22)


def _in_lines(parts: Sequence[Part], room: float) -> list[list[Part]]:
    """The parts in as few lines as they fit in, of about equal length."""
    count = max(1, ceil(_length(parts) / room))
    while True:
        lines = _cut(parts, _length(parts) / count)
        if all(_fits(line, room) for line in lines):
            return lines
        count += 1


def _fits(parts: Sequence[Part], room: float) -> bool:
    """Whether the parts fit in a line with the narrowest gaps."""
    gaps = sum([MIN_GAP for part in parts if not part.stitch])
    return len(parts) == 1 or _length([part for part in parts if part.stitch]) + gaps <= room


def _cut(parts: Sequence[Part], line_length: float) -> list[list[Part]]:
    """Lines of about this length; a change stays in the line of the gap before it."""
    lines: list[list[Part]] = [[]]
    length = 0.0
    for part in parts:
        follows_gap = part.stitch and lines[-1] and not lines[-1][-1].stitch
        if length >= line_length * len(lines) - 1 and not follows_gap:
            lines.append([])
        lines[-1].append(part)
        length += part.length
    return lines


def _line_parts(parts: Sequence[Part], right: float, y: float, room: float) -> Iterator[Markup]:
    for part, length in zip(parts, _stretched(parts, room), strict=True):
        left = right - length
        if part.stitch:
            yield element(
                "rect", x=left + 0.8, y=y - BAND / 2 - 4, width=length - 1.6, height=BAND + 8, class_="ink"
            )
            size = symbol_size(part.stitch, min(length, BAND))
            yield text_line((left + right) / 2, y + size * 0.35, symbol(part.stitch), size, "on m b")
        else:
            yield element("rect", x=left, y=y - BAND / 2, width=length, height=BAND, class_="tint")
            path = f"M{px(right)} {px(y)}H{px(left)}"
            yield element("path", d=path, class_="s hair", **_dashes(length, part.stitches))
            yield text_line((left + right) / 2, y + 4.6, str(part.stitches), 13, "ink m b")
        right = left


# --- key ------------------------------------------------------------------------------------------------------


def _key(parts: Sequence[Part], words: Words, *, flat: bool) -> list[KeyEntry]:
    gap = joined(
        (
            element("rect", x=0, y=1, width=28, height=16, class_="tint"),
            element("path", d="M28 9H0", class_="s hair", stroke_width=16, stroke_dasharray=".8 6.2"),
            text_line(14, 13.6, "4", 13, "ink m b"),
        )
    )
    entries = [KeyEntry(gap, words.say("picture.key.plain_stitches"))]
    entries += [
        KeyEntry(stitch_box(stitch), meaning(stitch, words))
        for stitch in dict.fromkeys(part.stitch for part in parts)
        if stitch
    ]
    if not flat:
        entries.append(marker_entry(words))
    return entries
