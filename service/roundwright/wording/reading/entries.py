"""The rounds of a text: which of its lines are worked, for which sizes, and what they say."""

from itertools import islice
from typing import Final

from msgspec import Struct

from roundwright.wording.reading import parser as grammar
from roundwright.wording.reading import vocabulary as words
from roundwright.wording.reading.layout import Piece, cast_on, is_told, pieces
from roundwright.wording.reading.meaning import number_of
from roundwright.wording.reading.tree import Body, Label, Number, Reading, Span, Stated, Trouble
from roundwright.wording.reading.vocabulary import Token

MOST_WORDS: Final = 6_000
"""Different words of rounds in one text: a dome in twelve sizes, spelled out for beginners, has two thirds of them."""
MOST_LINES: Final = 1_000
"""Lines of rounds in one text: 80 rounds in twelve sizes that share none."""
LONGEST_PIECE: Final = 8_192
"""Signs of one line: four times the longest that is written for a size, since it has the numbers of all sizes."""
_PIECE: Final = 6
"""What a line costs beside its words, in words."""


class Entry(Struct, frozen=True):
    """A line that is worked.

    - `place`: its place among the entries
    - `start`, `offset`: where the line, and what it says is worked, begin in the text
    - `columns`: the sizes it is for, as places in the lists of the pattern; None for all
    """

    place: int
    start: int
    offset: int
    text: str
    label: Label | None
    body: Body
    heading: bool
    columns: tuple[int, ...] | None

    def column(self, column: int) -> int:
        """Where a line for some sizes has the number of the size in this column of the pattern."""
        if self.columns is None or column not in self.columns:
            return column
        own = len(self.columns)
        lists = self.body.lists or ((self.label.count,) if self.label and self.label.count else ())
        return self.columns.index(column) if all(len(each.values) in (1, own) for each in lists) else column


class Written(Struct):
    """A text as it is laid out.

    - `counts`, `counts_at`: what it says to cast on; none if it does not
    - `entries`: its rounds, in order
    - `troubles`: what kept it from being read to the end, with its place in the text
    """

    counts: tuple[int, ...]
    counts_at: int
    entries: list[Entry]
    troubles: list[Trouble]


def entries(text: str, sizes: int) -> Written:
    """The rounds of a text for so many sizes, which may be fewer than it has."""
    counts, counts_at = cast_on(text) or ((), 0)
    written = Written(counts, counts_at, [], [])
    width = max(len(counts), sizes)
    lines = _Lines()
    for found in pieces(text):
        label, piece = lines.label(found)
        body = lines.body(label, piece)
        if lines.words > MOST_WORDS:
            message = f"The rounds have more than {MOST_WORDS:,} words; the rest is not read."
            written.troubles.append(Trouble("too_long", message, found.start))
            break
        if body is None:
            continue
        if len(written.entries) == MOST_LINES:
            message = f"The text has more than {MOST_LINES:,} lines of rounds; the rest is not read."
            written.troubles.append(Trouble("too_many_rounds", message, found.start))
            break
        columns = _columns(label.sizes, width, counts) if label and label.sizes else None
        place = len(written.entries)
        written.entries.append(
            Entry(place, found.start, piece.offset, piece.text, label, body, found.heading, columns)
        )
    return written


class _Lines:
    """The lines of one text: each is parsed once, however often it stands there."""

    def __init__(self) -> None:
        self.words = 0
        self.bodies: dict[str, Body] = {}

    def scan(self, text: str) -> list[Token]:
        tokens = list(islice(words.scan(text[:LONGEST_PIECE]), grammar.MOST_IN_LINE + 1))
        self.words += len(tokens)
        return tokens

    def label(self, piece: Piece) -> tuple[Label | None, Piece]:
        """The label of a piece, and the piece without it; sizes may stand before it with a colon of their own."""
        if piece.head.rstrip(".)").isdigit():
            number = Number((int(piece.head.rstrip(".)")),))
            return Label("listed", (Span(number, number),)), piece
        label = grammar.parse_label(self.scan(piece.head)) if piece.head else None
        if label is None or label.kind != "sizes":
            return label, piece
        head, colon, text = piece.text.partition(":")
        inner = grammar.parse_label(self.scan(head)) if colon else None
        if inner is None:
            return label, piece
        offset = piece.offset + len(head) + 1
        both = Label(inner.kind, inner.spans, inner.every, inner.count, label.sizes)
        return both, Piece(head, text, piece.start, offset, piece.heading, piece.told)

    def body(self, label: Label | None, piece: Piece) -> Body | None:
        """What a piece says is worked; None where it is prose."""
        self.words += _PIECE
        sure = label is not None and label.kind in _STRICT
        if not sure and (piece.told or (piece.head and label is None and _explains(piece.head))):
            return None
        body = self.bodies.get(piece.text)
        if body is None:
            tokens = self.scan(piece.text)
            if sure or _begins(tokens):
                body = grammar.parse_body(tokens) if len(piece.text) <= LONGEST_PIECE else _TOO_LONG
            if body is None or not (sure or _is_round(body, tokens)):
                body = _left_open(tokens)
            if body is not None:
                self.bodies[piece.text] = body
        return body


def _columns(sizes: tuple[int, ...], width: int, counts: tuple[int, ...]) -> tuple[int, ...] | None:
    """The columns of the sizes named: by their number, or by the stitches they cast on."""
    if all(1 <= size <= width for size in sizes):
        return tuple(size - 1 for size in sizes)
    if all(size in counts for size in sizes):
        return tuple(counts.index(size) for size in sizes)
    return None


_TOO_LONG: Final = Body(
    (Reading(()),),
    troubles=(Trouble("too_long", f"The line has more than {LONGEST_PIECE:,} signs.", LONGEST_PIECE),),
)

_STRICT: Final = ("numbered", "next", "every")
_BEGINNINGS: Final = frozenset(
    ("KNIT", "PURL", "SLIP", "STITCH", "MAKE", "STARS", "LPAR", "REP", "EVEN", "FABRIC", "FEWER", "ADDED", "NUMBER",
     "ROUND")
)  # fmt: skip
"""Kinds of word that a round without a label begins with."""
_STITCHES: Final = frozenset(("KNIT", "PURL", "SLIP", "STITCH", "MAKE"))


def _begins(tokens: list[Token]) -> bool:
    """Whether a line without a label begins as a round does; `k2tog - knit two together` explains a stitch."""
    if not tokens or tokens[0].type not in _BEGINNINGS:
        return False
    explains = (
        len(tokens) > 2 and tokens[0].type in _STITCHES and tokens[1].type in ("DASH", "OTHER", "COLON")
    )
    return not explains


def _is_round(body: Body, tokens: list[Token]) -> bool:
    """Whether a line without a label is a round: it reads without a fault, or looks too much like one for prose."""
    unknown = sum(token.type in ("WORD", "OTHER") for token in tokens)
    if body.works and not body.troubles and not unknown:
        return not body.measured or body.again is None
    return _looks_like_a_round(tokens, unknown)


def _explains(head: str) -> bool:
    """`k2tog: knit two together` explains a stitch; a note is no round either."""
    tokens = list(words.scan(head))
    return is_told(head) or (bool(tokens) and tokens[0].type in _STITCHES)


def _left_open(tokens: list[Token]) -> Body | None:
    """`Continue decreasing in this manner until 8 sts remain`: rounds left to the knitter, but not the count."""
    kinds = [token.type for token in tokens]
    for place in range(len(kinds) - 3):
        if kinds[place : place + 4] == ["UNTIL", "NUMBER", "ST", "REMAIN"]:
            number = number_of(tokens[place + 1])
            message = "How this is worked is not read; reading goes on with the count it ends on."
            trouble = Trouble("not_understood", message, tokens[0].start_pos)
            stated = Stated(number, number.start, number.end)
            return Body((Reading(()),), stated, troubles=(trouble,), words=len(tokens))
    return None


def _looks_like_a_round(tokens: list[Token], unknown: int) -> bool:
    kinds = [token.type for token in tokens]
    if "COLON" in kinds or unknown * 2 > len(kinds):
        return False
    if "STARS" in kinds and "REP" in kinds:
        return True
    counted = sum(
        kind == "STITCH" or (kind in _STITCHES and following == "NUMBER")
        for kind, following in zip(kinds, [*kinds[1:], ""], strict=True)
    )
    return counted >= 2


def differing(entry: Entry, width: int) -> Number | None:
    """A number of the line that is given for another number of sizes than there are."""
    own = len(entry.columns) if entry.columns else width
    numbers = entry.body.lists
    return next((number for number in numbers if len(number.values) not in (width, own)), None)
