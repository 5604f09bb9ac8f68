"""The lines of a text: which are told, which begin rounds, and where one round ends and the next begins."""

from bisect import bisect_right
from collections.abc import Mapping
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.by_size import alternatives, of_size
from roundwright.wording.reading.cutting import cut_rounds, is_work, unfolded
from roundwright.wording.reading.definitions import Names, definitions, with_definitions
from roundwright.wording.reading.glossary import defines, gauge, is_glossary, numbered_title, title
from roundwright.wording.reading.labels import Label, label
from roundwright.wording.reading.line_breaks import begins_round, lines_of
from roundwright.wording.reading.needles import with_needles_joined
from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    CastOn,
    Count,
    Extent,
    Phrase,
    Said,
)
from roundwright.wording.reading.sizes import names_of, width_of
from roundwright.wording.reading.tokens import BLANK, COLON, COMMA, DASH, FULL, SEMI, STOP, TAB, Token

MOST_LINES: Final = 460
"""Lines of one text, more than a hat has rounds: a book of patterns is sent pattern by pattern."""


MOST_IN_LINE: Final = 400
"""Words of one line: several times what anybody prints."""


class Segment(Struct, frozen=True, gc=False):
    """Words that say one thing: a round, a number of rounds, rounds worked again.

    - `label`: what stands before it; None for the second of a line
    - `within`: whether it follows another in the same labelled line
    - `heading`: whether a heading stands before it
    - `intro`: whether it ends with a colon that introduces the lines below
    - `under_notes`: whether it stands under a heading whose lines are not worked
    - `first`, `stop`: its tokens
    """

    label: Label | None
    phrases: tuple[Phrase, ...]
    start: int
    end: int
    heading: bool
    under_notes: bool
    troubles: tuple[tuple[str, str, int], ...] = ()
    alone: bool = True
    title: bool = False
    intro: bool = False


class Laid(Struct):
    """A text as it is laid out.

    - `segments`: in order; `cut`: where the text was cut short
    - `names`: the columns of its sizes; `defined`: what it says its own words mean; `width`: its sizes
    - `lines`: where each line begins; `around`: what holds for the line, as in `_Layout`
    """

    segments: list[Segment]
    names: Mapping[str, int]
    defined: Names
    width: int
    cut: int | None = None
    lines: list[int] = []
    around: list[tuple[bool, bool, bool, tuple[str, ...]]] = []

    def instead(self, place: int, tokens: list[Token]) -> list[Segment]:
        """The segments of other words in the line that stands at a place of the text."""
        line = max(0, bisect_right(self.lines, place) - 1)
        tokens = with_needles_joined(with_definitions(tokens, self.defined))
        layout = _Layout(tokens, self.names, [], self.width, *self.around[line])
        for begin, stop in lines_of(tokens, MOST_LINES, self.names):
            layout.read(begin, stop)
        return layout.segments


def segments(tokens: list[Token], width: int = 1) -> Laid:
    """The segments of a text for so many sizes, in order. Takes time in the number of its words."""
    defined = definitions(tokens)
    tokens = with_needles_joined(with_definitions(tokens, defined))
    width = max(width, width_of(tokens))
    names = names_of(tokens, width)
    layout = _Layout(tokens, names, [], width)
    laid = Laid(layout.segments, names, defined, width)
    for number, (begin, stop) in enumerate(lines_of(tokens, MOST_LINES, names)):
        if number >= MOST_LINES:
            laid.cut = tokens[begin].start
            break
        laid.lines.append(tokens[begin].start)
        laid.around.append((layout.under_notes, layout.heading, layout.opened, layout.sizes))
        layout.read(begin, stop)
    return laid


class _Layout(Struct):
    """The segments as they are read, line by line.

    - `width`: how many sizes the text is for
    - `under_notes`: whether the lines stand under a heading whose lines are not worked
    - `heading`: whether a heading stands before; `opened`: whether stitches were cast on
    - `sizes`: what sizes the lines are for; empty for all
    """

    tokens: list[Token]
    names: Mapping[str, int]
    segments: list[Segment]
    width: int = 1
    under_notes: bool = False
    heading: bool = False
    opened: bool = False
    sizes: tuple[str, ...] = ()

    def read(self, begin: int, stop: int) -> None:
        """Read a line."""
        tokens = self.tokens
        if stop - begin > MOST_IN_LINE:
            self.segments.append(_long(tokens, begin, stop))
        elif defines(tokens, begin, stop) or is_glossary(tokens, begin, stop) or gauge(tokens, begin, stop):
            self.segments.append(_silent(tokens, begin, stop))
        elif title(tokens, begin, stop) or numbered_title(tokens, begin, stop):
            colon = any(token.flags & COLON for token in tokens[begin + 1 : min(begin + 4, stop)])
            if not colon and stop - begin <= 6:
                self.under_notes = self.heading = True
            self.segments.append(_silent(tokens, begin, stop))
        else:
            self.read_work(begin, stop)

    def read_work(self, begin: int, stop: int) -> None:
        """Read a line that may be worked, or is a heading."""
        first, behind = self.tokens[begin], self.tokens[stop]
        pieces = self.pieces(begin, stop)
        if first.flags & BLANK:
            self.sizes = ()
        scoped, self.sizes = _scoped(pieces, self.sizes)
        works = any(is_work(piece.phrases) or piece.label for piece in scoped)
        preamble = self.under_notes
        apart = bool(first.flags & BLANK) or begin == 0 or behind.flags & COLON or not self.opened
        if any(isinstance(phrase, CastOn) for piece in pieces for phrase in piece.phrases):
            self.under_notes = False
            self.opened = True
        if not works and stop - begin <= 8 and not behind.flags & FULL:
            if apart or not self.under_notes:
                self.under_notes = False
                self.heading = True
            self.segments.extend(scoped)
            return
        self.under_notes = self.under_notes and not any(
            piece.label and piece.label.kind in ("numbered", "next", "step") for piece in scoped
        )
        if preamble and not self.under_notes:
            scoped, self.sizes = _scoped([replace(piece, under_notes=False) for piece in pieces], self.sizes)
        if scoped and behind.flags & COLON:
            scoped[-1] = replace(scoped[-1], intro=True)
        self.segments.extend(scoped)
        self.heading = self.heading and not works

    def pieces(self, begin: int, stop: int) -> list[Segment]:
        """The segments of one line."""
        tokens = self.tokens
        lines = Lines(tokens, begin, stop, troubles=[], names=self.names)
        if lines.kind() == "stars" and lines.kind(1) == "cast_on":
            lines.place += 1
        segments: list[Segment] = []
        heading = self.heading
        first = label(lines)
        current = numbered = _for_size(lines, first) if first is not None else None
        phrases: list[Phrase] = []
        start = tokens[begin].start
        while lines.place < stop:
            if _may_be_labelled(lines, current, phrases) and (
                following := label(lines, strict=True, after=current)
            ):
                segments.extend(self.cut(current, phrases, start, following.start, lines, heading=heading))
                following = _for_size(lines, following)
                if following.kind == "sizes" and numbered is not None and numbered.kind in _NUMBERED:
                    following = replace(following, kind=numbered.kind, spans=numbered.spans)
                current, phrases, start = following, [], following.start
                numbered = following
                lines.troubles = []
                heading = False
                continue
            phrases.append(lines.next_phrase())
        segments.extend(self.cut(current, phrases, start, tokens[stop - 1].end, lines, heading=heading))
        return segments

    def cut(
        self, of: Label | None, phrases: list[Phrase], start: int, end: int, lines: Lines, *, heading: bool
    ) -> list[Segment]:
        """The segments of what was read behind a label, for each size apart where it says so."""
        parts = alternatives(phrases, self.width)
        if len(parts) == 1:
            return _segments(of, phrases, start, end, lines, heading=heading, preamble=self.under_notes)
        made: list[Segment] = []
        for place, part in enumerate(parts):
            label_of_size = of_size(of, part[0].start, (str(place + 1),))
            stop = parts[place + 1][0].start if place + 1 < len(parts) else end
            begin = start if place == 0 else part[0].start
            made.extend(
                _segments(label_of_size, part, begin, stop, lines, heading=heading, preamble=self.under_notes)
            )
        return made


def _may_be_labelled(lines: Lines, current: Label | None, phrases: list[Phrase]) -> bool:
    """Whether a label may begin here, in the midst of a line."""
    token = lines.token()
    if not phrases:
        return False
    if token.kind == "number" and token.flags & COMMA:  # one of several numbers, or `, 13. rnd:`
        return lines.kind(1) == "round" and bool(lines.flags(1) & STOP)
    if token.flags & (STOP | SEMI | COLON | TAB) or isinstance(phrases[-1], _ENDS):
        return True
    if lines.names and _names_size(lines):
        return True
    if token.kind in ("next", "last") and token.flags & COMMA:
        return lines.kind(1) == "round" and not isinstance(phrases[-1], Extent | Again)
    return token.kind == "round" and current is None and all(isinstance(phrase, Said) for phrase in phrases)


def _names_size(lines: Lines) -> bool:
    """Whether the name of a size stands here before its work: `large *k8, k2tog*`, `(L)`."""
    if lines.kind() == "(":
        return lines.token(1).text in lines.names and lines.kind(2) == ")"
    if lines.token().text not in lines.names:
        return False
    parted = lines.flags(0) & (STOP | SEMI | COMMA | DASH | COLON)
    if not parted and lines.tokens[lines.place - 1].kind not in ("stars", ")"):
        return False
    return any(
        lines.kind(ahead) == "stars" or bool(lines.flags(ahead) & COLON)
        for ahead in (1, 2)
        if lines.place + ahead < lines.stop
    )


def _for_size(lines: Lines, of: Label) -> Label:
    """A label with the size that is named behind it: `Rnd 1: Child: ...`."""
    if not lines.names or of.kind not in _NUMBERED or of.sizes:
        return of
    place = lines.place
    inner = label(lines)
    if inner is not None and inner.kind == "sizes" and inner.sizes:
        return replace(of, sizes=inner.sizes)
    lines.place = place
    return of


_NUMBERED: Final = ("numbered", "next", "sort", "listed")


def _long(tokens: list[Token], begin: int, stop: int) -> Segment:
    """A line of too many words: silent where it is prose, and else told to be unread."""
    works = any(token.kind in ("stars", "stitch", "(") for token in tokens[begin:stop])
    if not works and not begins_round(tokens, begin, stop):
        return _silent(tokens, begin, stop)
    start, end = tokens[begin].start, tokens[stop - 1].end
    long = ("too_long", f"This has more than {MOST_IN_LINE} words and is not read.", start)
    return Segment(None, (), start, end, heading=False, under_notes=False, troubles=(long,))


def _silent(tokens: list[Token], begin: int, stop: int) -> Segment:
    return Segment(
        None, (), tokens[begin].start, tokens[stop - 1].end, heading=False, under_notes=True, title=True
    )


def _scoped(pieces: list[Segment], carried: tuple[str, ...]) -> tuple[list[Segment], tuple[str, ...]]:
    """The segments of a line for some sizes only, and the sizes that the lines below are for."""
    made: list[Segment] = []
    sizes = carried
    for piece in pieces:
        named = piece.label
        if named is not None and named.scope:
            sizes = named.sizes or ()
        elif sizes and (named is None or named.sizes is None):
            named = replace(named, sizes=sizes) if named else Label("sizes", piece.start, sizes=sizes)
        made.append(replace(piece, label=named))
    alone = len(pieces) == 1 and pieces[0].label is not None and pieces[0].label.kind == "sizes"
    return made, sizes if carried or (alone and not pieces[0].phrases) else ()


def _segments(
    of: Label | None,
    phrases: list[Phrase],
    start: int,
    end: int,
    lines: Lines,
    *,
    heading: bool,
    preamble: bool,
) -> list[Segment]:
    """What was read, cut where one thing ends and the next begins."""
    segments: list[Segment] = []
    parts = cut_rounds(None if of is not None and of.kind in ("sizes", "step") else of, unfolded(phrases))
    troubles = tuple(lines.troubles)
    for place, part in enumerate(parts):
        begin = start if place == 0 else part[0].start
        stop = parts[place + 1][0].start if place + 1 < len(parts) else end
        mine = tuple(trouble for trouble in troubles if begin <= trouble[2] < max(stop, begin + 1))
        segments.append(
            Segment(
                of if place == 0 else None,
                tuple(part),
                begin,
                stop,
                heading and place == 0,
                preamble,
                mine,
                alone=len(parts) == 1,
                intro=place + 1 < len(parts) and bool(parts[place + 1][0].flags & COLON),
            )
        )
    if not parts and of is not None:
        segments.append(Segment(of, (), start, end, heading, preamble, troubles))
    return segments


_ENDS: Final = (Count, Brackets)
