"""The lines of a text: which are told, which begin rounds, and where one round ends and the next begins."""

from bisect import bisect_right
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.after_decreases import with_decreases_after
from roundwright.wording.reading.by_name import named_parts
from roundwright.wording.reading.by_size import (
    alternatives,
    cells,
    is_no_cell,
    of_size,
    with_counts_of_sizes,
    with_numbers_of_names,
    with_sizes_apart,
    with_stitches_of_sizes,
)
from roundwright.wording.reading.coarser_cuts import with_sentences_joined
from roundwright.wording.reading.counts_by_name import with_counts_by_name
from roundwright.wording.reading.crown_clauses import with_crown_clauses
from roundwright.wording.reading.crown_ends import with_crown_ends
from roundwright.wording.reading.cutting import cut_rounds, is_work
from roundwright.wording.reading.decreases_again import with_decreases_once_more, with_rhythms_joined
from roundwright.wording.reading.decreases_listed import with_decreases_listed
from roundwright.wording.reading.definitions import Names, definitions, with_definitions
from roundwright.wording.reading.even_rounds import with_even_rounds
from roundwright.wording.reading.finer_cuts import with_finer_cuts
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.label_numbers import with_others_alike
from roundwright.wording.reading.label_signs import goes_on
from roundwright.wording.reading.labels import label
from roundwright.wording.reading.line_breaks import lines_of
from roundwright.wording.reading.marker_sides import with_marker_sides
from roundwright.wording.reading.needle_ends import with_needle_ends
from roundwright.wording.reading.needles import with_needles_joined
from roundwright.wording.reading.numbered_paragraphs import called_paragraphs, with_paragraphs_as_steps
from roundwright.wording.reading.ornaments import without_ornaments
from roundwright.wording.reading.paragraphs import Paragraph, flowing, paragraphs
from roundwright.wording.reading.parsing.lines import Lines
from roundwright.wording.reading.parsing.looking import CRAFTS
from roundwright.wording.reading.parts_in_order import with_parts_in_order
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
    CastOn,
    Change,
    Continue,
    Count,
    Extent,
    Length,
    Phrase,
    Rounds,
    Said,
    Star,
    Stitches,
    Then,
    Times,
)
from roundwright.wording.reading.plain_between import with_plain_between
from roundwright.wording.reading.ribs_narrowed import with_ribs_narrowed
from roundwright.wording.reading.round_letters import letters_of_rounds, with_letters_told
from roundwright.wording.reading.round_names import (
    RoundNames,
    round_names,
    with_plain_rounds,
    with_round_names,
)
from roundwright.wording.reading.rounds_begun import with_rounds_begun
from roundwright.wording.reading.rounds_in_turn import has_brackets_in_turn, with_rounds_in_turn
from roundwright.wording.reading.rounds_otherwise import with_rounds_of_others
from roundwright.wording.reading.same_with import with_same_rounds
from roundwright.wording.reading.seen import has_shaping
from roundwright.wording.reading.segment import Cut, Segment
from roundwright.wording.reading.sizes import (
    begin_of_count,
    columns_of,
    headed_sizes,
    names_of,
    sizes_that_begin,
    width_of,
    with_letters,
)
from roundwright.wording.reading.standing_told import behind_note, bracket_of_standing
from roundwright.wording.reading.starred_rounds import with_starred_rounds
from roundwright.wording.reading.stitches_added import with_stitches_added
from roundwright.wording.reading.tokens import (
    BLANK,
    BULLET,
    COLON,
    COMMA,
    DASH,
    FULL,
    LINE,
    SEMI,
    STOP,
    TAB,
    Token,
)
from roundwright.wording.reading.told_lines import (
    MOST_IN_LINE,
    is_title,
    long_line,
    naming_sentence,
    sentence_of_each_round,
    silent_line,
    tells,
)
from roundwright.wording.reading.told_otherwise import with_words_of_others
from roundwright.wording.reading.tree import Evenly
from roundwright.wording.reading.unfolding import (
    unfolded,
    with_repeats_opened,
    with_stitches_joined,
    with_times_behind,
    with_turns_told,
    without_all_of_rounds,
    without_count_before,
)

MOST_LINES: Final = 460
"""Lines of one text, more than a hat has rounds: a book of patterns is sent pattern by pattern."""


class Laid(Struct):
    """A text as it is laid out.

    - `segments`: in order; `cut`: where the text was cut short
    - `names`: the columns of its sizes; `width`: its sizes
    - `defined`, `short`, `letters`: what it says its own words mean
    - `called`: its numbered paragraphs, where some are worked again
    - `lines`: where each line begins; `around`: what holds for the line, as in `_Layout`; `flowing`: those lines
      that are paragraphs broken by width
    """

    segments: list[Segment]
    names: Mapping[str, int]
    defined: Names
    short: RoundNames
    letters: RoundNames
    called: frozenset[str]
    width: int
    cut: int | None = None
    lines: list[int] = []
    around: list[tuple[bool, bool, bool, tuple[str, ...]]] = []
    flowing: set[int] = set()

    def instead(self, place: int, tokens: list[Token]) -> list[Segment]:
        """The segments of other words in the line that stands at a place of the text."""
        line = max(0, bisect_right(self.lines, place) - 1)
        tokens = with_letters_told(
            with_round_names(with_plain_rounds(with_crown_ends(tokens)), self.short), self.letters
        )
        tokens = with_paragraphs_as_steps(tokens, self.called)
        tokens = with_needle_ends(
            with_marker_sides(with_needles_joined(with_definitions(tokens, self.defined)))
        )
        if line in self.flowing:
            tokens[:-1] = flowing(tokens, Paragraph(0, len(tokens) - 1, sure=True))
        layout = _Layout(tokens, self.names, [], self.width, *self.around[line])
        for begin, stop in lines_of(tokens, MOST_LINES, self.names):
            layout.read(begin, stop)
        return layout.segments


def segments(tokens: list[Token], width: int = 1) -> Laid:
    """The segments of a text for so many sizes, in order. Takes time in the number of its words."""
    tokens = with_words_of_others(with_rounds_of_others(without_ornaments(tokens)))
    tokens = with_even_rounds(with_plain_rounds(with_crown_ends(tokens)))
    tokens = with_crown_clauses(with_parts_in_order(with_stitches_added(with_decreases_after(tokens))))
    tokens = with_decreases_listed(tokens)
    tokens = with_decreases_once_more(with_plain_between(with_same_rounds(with_starred_rounds(tokens))))
    tokens = with_rhythms_joined(tokens)
    short = round_names(tokens)
    tokens = with_round_names(tokens, short)
    letters, paragraphs_called = letters_of_rounds(tokens), called_paragraphs(tokens)
    tokens = with_paragraphs_as_steps(with_letters_told(tokens, letters), paragraphs_called)
    defined = definitions(tokens)
    tokens = with_needle_ends(with_marker_sides(with_needles_joined(with_definitions(tokens, defined))))
    width = max(width, width_of(tokens))
    names = names_of(tokens, width)
    tokens = with_rounds_begun(with_numbers_of_names(with_counts_by_name(tokens, names), names), names, width)
    layout = _Layout(tokens, names, [], width)
    laid = Laid(layout.segments, names, defined, short, letters, paragraphs_called, width)
    begin = 0
    for paragraph in (*paragraphs(tokens), None):
        stop = paragraph.begin if paragraph is not None else len(tokens) - 1
        laid.cut = layout.read_lines(begin, stop, laid)
        if laid.cut is not None:
            break
        if paragraph is not None:
            layout.read_paragraph(paragraph, laid)
            begin = paragraph.stop
    return laid


MOST_IN_HEADING: Final = 7
"""Words of a heading that names a part and its sizes."""


class _Layout(Struct):
    """The segments as they are read, line by line.

    - `width`: how many sizes the text is for
    - `under_notes`: whether the lines stand under a heading whose lines are not worked
    - `heading`: whether a heading stands before; `opened`: whether stitches were cast on
    - `sizes`: what sizes the lines are for; empty for all; `lines`: how many were read
    - `round_above`: the round whose sizes are told line by line below it
    """

    tokens: list[Token]
    names: Mapping[str, int]
    segments: list[Segment]
    width: int = 1
    under_notes: bool = False
    heading: bool = False
    opened: bool = False
    sizes: tuple[str, ...] = ()
    lines: int = 0
    round_above: Label | None = None
    begun: frozenset[int] = frozenset()

    def read_lines(self, begin: int, stop: int, laid: Laid | None = None) -> int | None:
        """Read the lines of so many tokens; where the text is cut short if it has too many, else None."""
        if begin >= stop:
            return None
        most = MOST_LINES - self.lines
        for number, (first, last) in enumerate(
            lines_of(self.tokens, most, self.names, begin=begin, stop=stop)
        ):
            if number >= most:
                return self.tokens[first].start
            self.note(laid, first)
            self.read(first, last)
            self.lines += 1
        return None

    def note(self, laid: Laid | None, first: int) -> None:
        """Keep what holds for the line that begins here."""
        if laid is not None:
            laid.lines.append(self.tokens[first].start)
            laid.around.append((self.under_notes, self.heading, self.opened, self.sizes))

    def read_paragraph(self, paragraph: Paragraph, laid: Laid) -> None:
        """Read a paragraph with its lines and without them; the likelier way is tried first."""
        if paragraph.sure:
            laid.flowing.add(len(laid.lines))
            self.note(laid, paragraph.begin)
        lines, flow = replace(self, segments=[]), replace(self, segments=[])
        lines.read_lines(paragraph.begin, paragraph.stop, None if paragraph.sure else laid)
        broken = self.tokens[paragraph.begin : paragraph.stop]
        self.tokens[paragraph.begin : paragraph.stop] = flowing(self.tokens, paragraph)
        flow.read_lines(paragraph.begin, paragraph.stop)
        self.tokens[paragraph.begin : paragraph.stop] = broken
        first, other = (flow, lines) if paragraph.sure else (lines, flow)
        made = first.segments
        if made and other.segments:
            cut = Cut(len(made), tuple(other.segments))
            made[0] = replace(made[0], cuts=(*made[0].cuts, cut))
        self.segments.extend(made)
        self.under_notes, self.heading = first.under_notes, first.heading
        self.opened, self.sizes, self.lines = first.opened, first.sizes, first.lines
        self.begun = first.begun

    def read(self, begin: int, stop: int) -> None:
        """Read a line."""
        tokens = self.tokens
        begin = behind_note(tokens, begin, stop)
        if stop - begin > MOST_IN_LINE:
            self.segments.append(long_line(tokens, begin, stop))
        elif standing := bracket_of_standing(tokens, begin, stop):
            self.read_work(begin, standing[0])
            self.read_work(standing[0] + 1, standing[1])
        elif tells(tokens, begin, stop):
            self.segments.append(silent_line(tokens, begin, stop))
        elif naming := naming_sentence(tokens, begin, stop) or self.sentence_of_each_round(begin, stop):
            if begin < naming[0]:
                self.read(begin, naming[0])
            self.segments.append(silent_line(tokens, *naming))
            if naming[1] < stop:
                self.read(naming[1], stop)
        elif is_title(tokens, begin, stop):
            colon = any(token.flags & COLON for token in tokens[begin + 1 : min(begin + 4, stop)])
            if not colon and stop - begin <= 6:
                self.under_notes = self.heading = True
            ahead = range(begin + 1, stop)  # `You will need 5 markers. Place one after every 14 stitches`
            placed = next(
                (at for at in ahead if tokens[at].kind == "place" and tokens[at].flags & FULL), stop
            )
            self.segments.append(silent_line(tokens, begin, placed))
            if placed < stop:
                self.read(placed, stop)
        else:
            self.read_work(begin, stop)

    def sentence_of_each_round(self, begin: int, stop: int) -> tuple[int, int] | None:
        """Where a sentence stands that tells how often the work of every round is repeated, and is not its repeat."""
        last = self.segments[-1].phrases if self.segments else ()
        sentence = sentence_of_each_round(self.tokens, begin, stop)
        return None if sentence and any(type(phrase) in (Star, Brackets) for phrase in last) else sentence

    def read_work(self, begin: int, stop: int) -> None:
        """Read a line that may be worked, or is a heading."""
        first, behind = self.tokens[begin], self.tokens[stop]
        heads = self.opened or begin_of_count(self.tokens, begin, stop) < stop
        if self.names and heads and stop - begin <= MOST_IN_HEADING and self.heads_size(begin, stop):
            return
        if self.names and self.begins_size(begin, stop):
            return
        pieces = self.pieces(begin, stop)
        if first.flags & BLANK and not self.is_below_sizes():
            self.sizes = ()
        scoped, self.sizes = _scoped(pieces, self.sizes, self.width)
        if not self.sizes and _heads_lines(self.tokens, begin, stop, scoped):
            self.sizes = (scoped[0].label and scoped[0].label.sizes) or ()
        works = any(is_work(piece.phrases) or piece.label for piece in scoped)
        scoped = _counts_of_sizes(self.of_round_above(scoped), self.segments[-1] if self.segments else None)
        preamble = self.under_notes
        apart = bool(first.flags & BLANK) or begin == 0 or behind.flags & COLON or not self.opened
        if any(type(phrase) is CastOn for piece in pieces for phrase in piece.phrases):
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
            scoped, self.sizes = _scoped(
                [replace(piece, under_notes=False) for piece in pieces], self.sizes, self.width
            )
        if scoped and behind.flags & COLON:
            scoped[-1] = replace(scoped[-1], intro=True)
        self.note_begun(scoped)
        narrowed = with_ribs_narrowed(self.segments, _in_sentences(scoped))
        self.segments.extend(with_sentences_joined([*map(with_finer_cuts, narrowed)]))
        self.heading = self.heading and not works

    def note_begun(self, pieces: list[Segment]) -> None:
        """Keep for which sizes numbered rounds were told: `Rnd 1 (adult only)`."""
        for piece in pieces:
            of = piece.label
            if of is not None and of.sizes and of.kind == "numbered":
                self.begun |= {int(size) - 1 for size in of.sizes if size.isdigit()}

    def is_below_sizes(self) -> bool:
        """Whether the line before is the heading of a part that is for some sizes."""
        last = self.segments[-1] if self.segments else None
        alone = last is not None and last.heading and not last.phrases
        return alone and last is not None and last.label is not None and bool(last.label.scope)

    def heads_size(self, begin: int, stop: int) -> bool:
        """Whether a line is the heading of a part that is for some sizes; the lines below are for them then."""
        end = begin_of_count(self.tokens, begin, stop)
        columns = headed_sizes(self.tokens, begin, end, self.names)
        if not columns or self.tokens[begin].flags & BULLET:
            return False
        self.head(columns, begin, end)
        if end < stop:
            self.read_work(end, stop)
        return True

    def begins_size(self, begin: int, stop: int) -> bool:
        """Whether a size begins in a line, `Woman begins here`; what is below is for all that have begun by then."""
        columns, end = sizes_that_begin(self.tokens, begin, stop, self.names)
        if not columns:
            return False
        self.begun |= set(columns)
        self.head(tuple(sorted(self.begun)), begin, end)
        self.segments[-1] = replace(self.segments[-1], heading=False)  # no part with rounds from 1 on
        self.heading = False
        if end < stop:
            self.read_work(end, stop)
        return True

    def head(self, columns: tuple[int, ...], begin: int, stop: int) -> None:
        """Keep that the lines below are for the sizes in these columns."""
        some = len(set(columns)) < self.width
        self.sizes = tuple(str(column + 1) for column in columns) if some else ()
        start, end = self.tokens[begin].start, self.tokens[stop - 1].end
        label_of_sizes = Label("sizes", start, sizes=self.sizes or None, scope=True)
        self.segments.append(Segment(label_of_sizes, (), start, end, heading=True, under_notes=False))
        self.under_notes, self.heading = False, True

    def of_round_above(self, pieces: list[Segment]) -> list[Segment]:
        """The segments of a line for one size, as its round: `Round 1:`, and below it `1st size: *K9, k2tog`."""
        sized = bool(pieces) and all(_is_for_some(piece) for piece in pieces)
        last = self.segments[-1] if self.segments else None
        heads = last is not None and last.intro and not last.phrases and last.label is not None
        if sized and last is not None and heads and last.label is not None and last.label.kind in _NUMBERED:
            self.round_above = last.label if not last.label.sizes else None
            if self.round_above is not None:
                self.segments.pop()
        elif not sized:
            self.round_above = None
        above = self.round_above
        if above is None:
            return pieces
        return [replace(piece, label=_as_of(above, piece.label)) for piece in pieces]

    def pieces(self, begin: int, stop: int) -> list[Segment]:
        """The segments of one line."""
        tokens = self.tokens
        if bracketed := _bracketed_rounds(tokens, begin, stop, self.names):
            tokens, begin, stop = bracketed
        lines = Lines(tokens, begin, stop, troubles=[], names=self.names)
        if lines.kind() == "stars" and lines.kind(1) == "cast_on":
            lines.place += 1
        lines.place += _numbers_paragraph(lines)
        segments: list[Segment] = []
        heading = self.heading
        first = label(lines) or self.sizes_beginning(lines)
        current = numbered = _for_size(lines, first) if first is not None else None
        if current is not None and self.names and not current.sizes:
            current = numbered = _for_size_behind(lines, current)
        _pass_second_label(lines, first)
        phrases: list[Phrase] = []
        start = tokens[begin].start
        while lines.place < stop:
            at = lines.place
            if _may_be_labelled(lines, current, phrases) and (
                following := label(lines, strict=True, after=current)
            ):
                segments.extend(self.cut(current, phrases, start, following.start, lines, heading=heading))
                if segments and tokens[at].flags & COLON and _tells_every_so_often(segments[-1]):
                    segments[-1] = replace(segments[-1], intro=True)
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

    def sizes_beginning(self, lines: Lines) -> Label | None:
        """The sizes that begin at a later round, as a label: `For the smaller size, begin at Rnd 3.`; else None."""
        if not self.names or lines.kind() != "for":
            return None
        begin, most = lines.place, min(lines.place + MOST_IN_HEADING, lines.stop)
        place = next((at for at in range(begin, most) if lines.tokens[at].kind == "begin"), begin)
        if place == begin or lines.tokens[place + 1].kind not in ("", "round"):
            return None
        columns = columns_of(lines.tokens, begin, place, with_letters(self.names))
        if columns is None:
            return None
        lines.place = place
        return Label("sizes", lines.tokens[begin].start, sizes=tuple(str(column + 1) for column in columns))

    def cut(
        self, of: Label | None, phrases: list[Phrase], start: int, end: int, lines: Lines, *, heading: bool
    ) -> list[Segment]:
        """The segments of what was read behind a label, for each size apart where it says so."""
        of, phrases = with_others_alike(of, phrases)
        of = _without_every(of, phrases)
        phrases = with_times_behind(with_counts_of_sizes(of, with_repeats_opened(phrases)))
        parts = (
            [] if of is not None and of.sizes else named_parts(phrases, lines.tokens, self.names, self.width)
        )
        if not parts:
            side_by_side = cells(phrases, self.width) or alternatives(phrases, self.width)
            parts = [((str(place + 1),), part) for place, part in enumerate(side_by_side)]
        if len(parts) == 1:
            return _segments(of, phrases, start, end, lines, heading=heading, preamble=self.under_notes)
        made: list[Segment] = []
        for place, (sizes, part) in enumerate(parts):
            if is_no_cell(part):
                continue  # no such round for this size
            label_of_size = of_size(of, part[0].start, sizes)
            stop = parts[place + 1][1][0].start if place + 1 < len(parts) else end
            begin = part[0].start if made else start
            made.extend(
                _segments(label_of_size, part, begin, stop, lines, heading=heading, preamble=self.under_notes)
            )
        return made


def _pass_second_label(lines: Lines, first: Label | None) -> None:
    """Pass over a second label of the same round: `Round 12: Next round (dec): *k6, k2tog*`."""
    again = lines.place < lines.stop and lines.kind() in ("round", "next", "decrease", "increase", "word")
    if first is None or first.kind != "numbered" or not again or not lines.flags(0) & COLON:
        return
    place = lines.place
    second = label(lines, strict=True)
    if second is None or second.kind not in _NUMBERED or lines.place >= lines.stop:
        lines.place = place


def _is_for_some(piece: Segment) -> bool:
    """Whether work stands behind the names of some sizes, and no number of a round."""
    label = piece.label
    return label is not None and label.kind == "sizes" and bool(label.sizes) and bool(piece.phrases)


def _as_of(above: Label, of: Label | None) -> Label | None:
    """The label of some sizes, with the numbers of the round that stands above."""
    return replace(of, kind=above.kind, spans=above.spans, scope=False) if of is not None else None


def _numbers_paragraph(lines: Lines) -> bool:
    """Whether a line begins with the number of a paragraph: `6.1 Round 57: knit`, and no length or needle."""
    numbered = lines.kind() == "decimal" and lines.token().text.replace(".", "", 1).isdigit()
    behind = lines.kind(1) in _MEASURED or bool(lines.flags(1) & (LINE | COMMA | DASH))
    return numbered and not behind and lines.place + 1 < lines.stop


_MEASURED: Final = frozenset(
    ("unit", "in", "measure", "needle", "gear", "yarn", "(", "times", "number", "decimal", "to")
)
"""What stands behind a decimal number that is the size of something."""


def _bracketed_rounds(
    tokens: list[Token], begin: int, stop: int, names: Mapping[str, int]
) -> tuple[list[Token], int, int] | None:
    """A line in one bracket that tells numbered rounds, without the bracket: `(2, 4, 6: knit)`; None for any other."""
    if tokens[begin].kind != "(" or tokens[stop - 1].kind != ")" or stop - begin < 4:
        return None
    if any(token.kind in ("(", ")") for token in tokens[begin + 1 : stop - 1]):
        return None
    inner = [
        replace(tokens[begin + 1], flags=tokens[begin].flags),
        *tokens[begin + 2 : stop - 1],
        tokens[stop - 1],
    ]
    lines = Lines(inner, 0, len(inner) - 1, names=names)
    rounds = label(lines)
    if rounds is None or rounds.kind not in ("numbered", "listed") or not lines.flags(0) & COLON:
        return None
    return inner, 0, len(inner) - 1


def _may_be_labelled(lines: Lines, current: Label | None, phrases: list[Phrase]) -> bool:
    """Whether a label may begin here, in the midst of a line."""
    token = lines.token()
    if not phrases:
        return False
    if token.kind == "number" and token.flags & COMMA:  # one of several numbers, or `, 13. rnd:`
        if lines.flags(1) & STOP and goes_on(token, lines.token(1), current):
            return True
        return lines.kind(1) == "round" and bool(lines.flags(1) & STOP)
    if token.flags & (STOP | SEMI | COLON | TAB) or type(phrases[-1]) in _ENDS:
        return True
    if goes_on(token, lines.token(1), current) or (lines.names and _names_size(lines)):
        return True
    if token.kind in ("next", "last") and token.flags & COMMA:
        return lines.kind(1) == "round" and type(phrases[-1]) not in (Extent, Again)
    return token.kind == "round" and current is None and all(type(phrase) in _LEADS for phrase in phrases)


def _names_size(lines: Lines) -> bool:
    """Whether the name of a size stands here before its work: `large *k8, k2tog*`, `(L)`, `size 2: *k9, k2tog*`."""
    if lines.kind() == "(":
        return lines.token(1).text in lines.names and lines.kind(2) == ")"
    if lines.kind() == "size":
        return any(lines.flags(ahead) & COLON for ahead in (2, 3))
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


def _for_size_behind(lines: Lines, of: Label) -> Label:
    """A label with the size that a bracket behind the work names: `Rnd 1: *k8, k2tog* (size 2 only)`."""
    tokens, begin = lines.tokens, lines.place
    only = next((place for place in range(begin, lines.stop) if tokens[place].kind == "only"), 0)
    opened = next((place for place in range(only, begin, -1) if tokens[place].kind in ("(", ")")), begin)
    if not only or of.kind not in _NUMBERED or tokens[opened].kind != "(":
        return of
    if any(token.kind == "round" for token in tokens[begin:opened]):
        return of  # knit. Rnd 2 (size 2 only)
    closed = next((place for place in range(only, lines.stop) if tokens[place].kind == ")"), only)
    if any(token.kind in CRAFTS or token.kind == "stitch" for token in tokens[only:closed]):
        return of  # (size 2 only: knit the last st)
    if any(token.number and len(token.number.values) > 1 for token in tokens[closed : lines.stop]):
        return of  # end k1 (size 2 only) = 12 (14) sts
    names = with_letters(lines.names)
    columns = columns_of(tokens, opened + 1, closed, names) or columns_of(tokens, opened + 1, only + 1, names)
    if columns:
        return replace(of, sizes=tuple(str(column + 1) for column in columns))
    numbered = (
        second.text
        for first, second in pairwise(tokens[opened:closed])
        if first.kind == "size" and second.kind == "number"
    )
    number = next(numbered, "")
    return replace(of, sizes=(number,)) if number else of


_NUMBERED: Final = ("numbered", "next", "sort", "listed")


def _scoped(
    pieces: list[Segment], carried: tuple[str, ...], width: int
) -> tuple[list[Segment], tuple[str, ...]]:
    """The segments of a line for some sizes only, and the sizes that the lines below are for."""
    made: list[Segment] = []
    sizes, sentence = carried, False
    for piece in pieces:
        named = piece.label
        if sentence and (named is not None or (piece.phrases and piece.phrases[0].flags & FULL)):
            sizes, sentence = carried, False
        if named is not None and named.scope:
            sizes, sentence = named.sizes or (), named.sentence
        elif sizes and (named is None or named.sizes is None):
            named = replace(named, sizes=sizes) if named else Label("sizes", piece.start, sizes=sizes)
        phrases = tuple(with_stitches_of_sizes(named, list(piece.phrases)))
        made.extend(with_sizes_apart(replace(piece, label=named, phrases=phrases), width))
    alone = len(pieces) == 1 and pieces[0].label is not None and pieces[0].label.kind == "sizes"
    heads = alone and (not pieces[0].phrases or _introduces(pieces[0].phrases))
    return made, sizes if carried or heads else ()


def _introduces(phrases: tuple[Phrase, ...]) -> bool:
    """Whether no more is said than that work follows: `continue with decreases as follows`, `decrease as follows`."""
    last = phrases[-1]
    follows = type(last) is Said and last.text == "follows"
    return follows and all(type(phrase) in (Said, Change, Continue) for phrase in phrases)


def _heads_lines(tokens: list[Token], begin: int, stop: int, pieces: list[Segment]) -> bool:
    """Whether sizes head this line and those below, up to one for all.

    `Man's cap only.—5th round`, `Both caps.—`; `Size L only: Rnd 1: ...`, `Rnd 2: ...`, `Both sizes: ...`.
    """
    of = pieces[0].label if pieces else None
    if of is None or not of.scope or not of.sizes:
        return False
    behind = next((at + 1 for at in range(begin, min(begin + 8, stop - 1)) if tokens[at].kind == "only"), 0)
    dashed = tokens[behind].flags & STOP and tokens[behind].flags & DASH
    numbered = of.kind == "numbered" and tokens[stop].kind in ("round", "ordinal")
    if not behind or not (dashed or numbered):
        return False
    for at in range(stop, min(stop + MOST_HEADED, len(tokens))):
        if tokens[at].flags & BLANK:
            return False
        if tokens[at].flags & LINE and tokens[at].text in ("all", "both"):
            return True
    return False


MOST_HEADED: Final = 400
"""Words of lines that are headed by their sizes."""


def _counts_of_sizes(pieces: list[Segment], before: Segment | None) -> list[Segment]:
    """A line of one count alone, below a round that is for some sizes: the count is theirs."""
    of = before.label if before is not None else None
    if len(pieces) != 1 or of is None or not of.sizes or pieces[0].label is not None:
        return pieces
    if not all(type(phrase) is Count and len(phrase.number.values) == 1 for phrase in pieces[0].phrases):
        return pieces
    return [replace(pieces[0], label=Label("sizes", pieces[0].start, sizes=of.sizes))]


def _in_sentences(pieces: list[Segment]) -> list[Segment]:
    """The segments, each with how many of its sentence stand before it, or of the sentence before."""
    made: list[Segment] = []
    sentence = before = 0
    for piece in pieces:
        if piece.phrases and piece.phrases[0].flags & FULL:
            before, sentence = sentence, 0
        earlier = sentence or before
        made.append(replace(piece, earlier=earlier) if earlier > 1 else piece)
        sentence += 1
    return made


def _without_every(of: Label | None, phrases: list[Phrase]) -> Label | None:
    """The label, but none for `Every round: K3, P1. Do this for 6 inches`, which works its rounds where it stands.

    So do `every round: k2, k2tog, k1, k2tog, k2tog`, which has one round after another, and `every round: work dec
    round 5 times`.
    """
    if of is None or of.kind != "every" or of.every is None or of.every.step != 1 or of.every.last:
        return of
    counted = any(type(phrase) is Rounds and not phrase.every for phrase in phrases)
    counted = counted or sum(map(has_shaping, phrases)) > 1
    named = Again in [type(phrase) for phrase in phrases]
    counted = counted or (named and Times in [type(phrase) for phrase in phrases])
    if not counted and Length not in [type(phrase) for phrase in phrases]:
        return of
    return Label("sizes", of.start, sizes=of.sizes, scope=of.scope) if of.sizes else None


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
    phrases = with_stitches_joined(without_all_of_rounds(without_count_before(phrases)))
    listed = of is not None and of.kind == "listed" and has_brackets_in_turn(phrases)
    round_label = None if listed or (of is not None and of.kind in ("sizes", "step")) else of
    if round_label is None:
        phrases = with_rounds_in_turn(phrases)
    parts = cut_rounds(round_label, unfolded(with_turns_told(round_label, phrases)))
    if of is None:
        parts = [*_with_leads_apart(parts)]
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


def _tells_every_so_often(segment: Segment) -> bool:
    """Whether no more is told than on which rounds how many stitches go: `Dec 8 sts every other rnd: Rnd 1: ...`."""
    every = any(type(phrase) is Rounds and phrase.every and phrase.step > 1 for phrase in segment.phrases)
    return (
        every
        and segment.label is None
        and all(
            type(phrase) in _LEADING or (type(phrase) is Stitches and type(phrase.node) is Evenly)
            for phrase in segment.phrases
        )
    )


def _with_leads_apart(parts: list[list[Phrase]]) -> Iterator[list[Phrase]]:
    """The parts, with words apart that tell on which rounds those behind them are worked: `Dec every other rnd: k6`."""
    for part in parts:
        lead = next((at for at, phrase in enumerate(part) if type(phrase) not in _LEADING), len(part))
        changes = Change in [type(phrase) for phrase in part[:lead]]
        every = any(type(phrase) is Rounds and phrase.step > 1 for phrase in part[:lead])
        apart = lead < len(part) and part[lead].flags & COLON and type(part[lead]) is not Times
        if changes and every and apart:
            yield part[:lead]
            yield part[lead:]
        else:
            yield part


_LEADING: Final = frozenset((Said, Then, Continue, Change, Rounds))
_ENDS: Final = frozenset((Count, Brackets))
_LEADS: Final = frozenset((Said, Then))
