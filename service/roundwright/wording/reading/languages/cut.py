"""A text in another language, cut into its words, numbers and signs."""

import re
from collections.abc import Sequence
from functools import cache
from typing import Final
from unicodedata import normalize

from msgspec import Struct
from msgspec.structs import replace

from roundwright.wording.reading.languages.figures import (
    BEGINS,
    TIMES_SIGNS,
    Figure,
    Figures,
    figures_at,
    ordinals_at,
    with_none,
)
from roundwright.wording.reading.languages.lexicon import BETWEEN_WORDS, Lexicon
from roundwright.wording.reading.languages.size_notes import SizeNote, width_at

_BETWEEN: Final = r"[ \t]{0,2}(?:[-–/,;|(\[]|[)\]][ \t]?[(\[]?)[ \t]{0,2}"
MOST_SIZES: Final = 12
"""Sizes of a list of letters at most."""


@cache
def _cut(size: str, ands: str, width: int) -> re.Pattern[str]:
    """What a text is cut into, with patterns for the letters of a size and the words that join the last two of all.

    `name` is a stitch by its English name, `k2tog`, `m1l`: it is borrowed everywhere; or metres, of `160 m/50 g`.
    """
    before_last = width - 2 if width > 1 else MOST_SIZES  # a text for a single size lists none
    return re.compile(
        rf"""
        (?P<blank>[ \t\u00a0\u202f]+) | (?P<line>\r\n|\r|\n)
        | (?P<sizes>{size}(?:{_BETWEEN}{size}){{{before_last}}}[ ](?:{ands})[ ]{size}(?!\w)
        | [(\[]?{size}(?:{_BETWEEN}{size}){{1,11}}(?:[ \t]?[)\]])?(?!\w))
        | (?P<name>(?:[kpKP][1-9](?:tog|TOG)|[mM]1[lrpLRP]|[sS][kK]2[pP]|[sS]2[kK][pP])(?![^\W_]) | m(?=[ ]?/[ ]?[0-9]))
        | (?P<word>[^\W\d_]+) | (?P<sign>.)
        """,
        re.VERBOSE | re.DOTALL,
    )


_APOSTROPHES: Final = ("'", "’", "‘", "`", "´")
_SIGNS: Final = str.maketrans("–—−‐‑’‘`´×“”„«»", '-----\'\'\'\'x"""""')


class Piece(Struct, frozen=True, gc=False):
    """A word, number or sign of a text.

    - `kind`: `word`, `name`, `sizes`, `number`, `sign`, `line`; `text`: as it is printed, from `start` to `end`
    - `key`: what the wordings know it by
    - `figures`: of a number; `ordinal`: whether it may be an ordinal, with its sign or ending inside `end`
    - `near`: whether nothing stands between it and the piece before
    """

    kind: str
    text: str
    key: str
    start: int
    end: int
    near: bool
    figures: Figures | None = None
    ordinal: bool = False


def pieces(text: str, known: Lexicon, width: int, notes: Sequence[SizeNote] = ()) -> list[Piece]:
    """The pieces of a text for so many sizes, fewer in a line with a note that says so. Takes time in its length."""
    cut: list[Piece] = []
    place = last = 0
    coming = list(reversed(notes))
    if width == PAIR:
        slashes = _sizes_have_slashes(text, known)
    else:  # two of them may be all that a line has
        slashes = width > PAIR and _sizes_are_joined(text, known, width, _BY_SLASHES)
    cuts = _cut(known.size, known.ands, width)
    markers = _short_markers(text, known)
    hyphens = width > 1 and _sizes_are_joined(text, known, width, _HYPHENED)
    commas = width > FEWEST_BY_COMMAS and _sizes_are_joined(text, known, width, _BY_COMMAS)
    while place < len(text):
        while coming and coming[-1].line_end < place:
            coming.pop()
        here = width_at(coming[-1:], place, width)
        if BEGINS.match(text, place) and (
            figures := with_none(text, place, width)
            or _ordinals(text, place, here, known)
            or figures_at(
                text,
                place,
                here,
                hyphens=hyphens and not _names_round(cut, known),
                commas=commas and not _names_round(cut, known),
            )
        ):
            paired = slashes and here == PAIR
            listed = _with_slash(text, figures, known, named=_names_round(cut, known)) if paired else figures
            counts = bool(cut) and cut[-1].key in _EQUALS and bool(_NEXT_ROUND.match(text, listed.end))
            piece = _number(text, listed, known, near=last == place, counts=counts)
        else:
            match = cuts.match(text, place)
            assert match is not None  # every character is a sign, if nothing else
            kind = match.lastgroup or ""
            place = match.end()
            if kind == "blank":
                continue
            piece = _piece(kind, match, known, near=last == match.start())
            if piece.text in markers:
                piece = replace(piece, key=markers[piece.text])
        cut.extend(
            _parts(piece, known) if piece.key == piece.text.lower() and piece.kind == "word" else (piece,)
        )
        last = place = piece.end
        if piece.kind == "number" and piece.text.endswith(_TIMES_ENDED):  # 8× (9×, 10×)
            cut.append(Piece("word", "x", known.word("x"), place, place, near=True))
    return cut


_TIMES_ENDED: Final = tuple(f"{sign})" for sign in TIMES_SIGNS)
"""What a list ends with that has the sign of times behind each of its numbers."""


MARKER: Final = "marker"
_SHORT: Final = re.compile(
    r"(?P<word>[^\W\d_]{4,20})[ \u00a0]\((?P<short>[^\W\d_]{1,3})\)"
    r"|^[ \t]*(?P<first>[^\W\d_]{1,3})[ \u00a0]?[=:][ \u00a0](?P<meaning>[^\W\d_]{4,20})",
    re.MULTILINE,
)


def _short_markers(text: str, known: Lexicon) -> dict[str, str]:
    """Short forms that a text gives for its markers, with the word: `placer un marqueur (M)`, `M = marqueur`."""
    markers = {}
    for short in _SHORT.finditer(text):
        word = short["word"] or short["meaning"]
        if known.single(word) == MARKER:
            markers[short["short"] or short["first"]] = known.word(word)
    return markers


LEAST_OF_HAT: Final = 32
"""Stitches that a hat is cast on with at least, so that `72-80 m` are two sizes and `2-3 m` a few stitches."""
FEWEST_BY_COMMAS: Final = 2
"""Sizes that are not told by commas alone: `84, 96 p` may be one number after another."""
_COUNTED: Final = r"(?<![\w.,–-])([0-9]{{2,3}}(?:{0}[0-9]{{2,3}}){{1,12}})(?![0-9])[ \u00a0]?([^\W\d_]+)"
_HYPHENED: Final = re.compile(_COUNTED.format("[-–]"))
_BY_SLASHES: Final = re.compile(_COUNTED.format("[ \u00a0]?/[ \u00a0]?"))
_BY_COMMAS: Final = re.compile(_COUNTED.format(", "))


def _sizes_are_joined(text: str, known: Lexicon, width: int, counts: re.Pattern[str]) -> bool:
    """Whether a text prints the stitches of its sizes with such a sign between them, and so all their numbers.

    `72-80 m`, of which two of three sizes may be left, and `84, 96, 108 p`.
    """
    for counted in counts.finditer(text):
        numbers = [*map(int, re.findall("[0-9]+", counted[1]))]
        fits = len(numbers) == width and numbers[0] >= LEAST_OF_HAT
        if fits and numbers == sorted(set(numbers)) and known.single(counted[2]) == "sts":
            return True
    return False


def _names_round(cut: Sequence[Piece], known: Lexicon) -> bool:
    """Whether the word for a round stands last, whose number comes: `Rd 2-4`, `Vta. n.º 2, 4, 6`; not `6 Rd`."""
    stops = False
    for place in range(len(cut) - 1, max(-1, len(cut) - 1 - MOST_TO_ROUND), -1):
        piece = cut[place]
        meaning = known.single(piece.text) if piece.kind == "word" else ""
        if meaning.split(" ")[-1] in ROUNDS:
            counted = place > 0 and cut[place - 1].kind == "number" and not cut[place - 1].ordinal
            return not stops or (len(piece.text) <= LONGEST_SHORT and not counted)
        if meaning != NUMBERED and piece.text not in _OF_NUMBER:
            return False
        stops = piece.text == "."
    return False


NUMBERED: Final = "no"
"""English for the word before a number that names something: `Vta nº 2`."""
_OF_NUMBER: Final = (".", "º", "°")
MOST_TO_ROUND: Final = 5
"""Pieces between a word for a round and its number, with it: `Vta. n.º 2`."""
LONGEST_SHORT: Final = 3
"""Letters of a word for a round that is printed short, with a full stop."""
ROUNDS: Final = frozenset(("rnd", "rnds", "row", "rows"))
WHAT_COUNTS: Final = ROUNDS | {"sts", "x", "knit", "purl"}
"""English words of what numbers count that are no rib: `5/7 M re`, `3/4x`."""
PAIR: Final = 2
"""Sizes whose numbers may be two small ones with a slash, which more sizes never are."""
_SLASHED: Final = re.compile(
    r"(?<![\w.,/–-])([0-9]{1,3})[ \u00a0]?/[ \u00a0]?([0-9]{1,3})(?![0-9/])[ \u00a0]?([^\W\d_]+)"
)


def _sizes_have_slashes(text: str, known: Lexicon) -> bool:
    """Whether a text prints the stitches of two sizes with a slash, `72/84 M`, and so their small numbers.

    So it does with a count alone, `[72/84]`, `= 72/84`.
    """
    return any(
        LEAST_OF_HAT <= int(counted[1]) < int(counted[2]) and known.single(counted[3]) == "sts"
        for counted in _SLASHED.finditer(text)
    ) or any(LEAST_OF_HAT <= int(count[1]) < int(count[2]) for count in _COUNT_SLASHED.finditer(text))


_COUNT_SLASHED: Final = re.compile(r"[=→\[] ?([0-9]{2,3}) ?/ ?([0-9]{2,3})(?:\]|\.?[ \t]*$)", re.MULTILINE)


def _with_slash(text: str, figures: Figures, known: Lexicon, *, named: bool) -> Figures:
    """The number with that of the second size behind a slash, `5/7 M re`; alone where none is.

    Where it may be that of a round which is `named` before it, it is alone unless stitches are counted: `Rd 5/7 re`.
    """
    pair = _SLASHED.match(text, figures.start)
    if pair is None or figures.single is None or int(pair[1]) == int(pair[2]):
        return figures
    if known.single(pair[3]) not in (("sts",) if named else WHAT_COUNTS):
        return figures
    values = tuple(Figure(pair[size], pair.start(size), pair.end(size)) for size in (1, 2))
    return Figures(values, pair.start(), pair.end(2))


def sizes_of(piece: Piece, known: Lexicon) -> list[str]:
    """The English names of sizes in a piece that lists them: `S (M/L)`, `S (M) L (XL)`."""
    return [known.sizes.get(name, name) for name in re.findall(known.size, piece.text)]


_NEXT_WORD: Final = re.compile(r"[ \t\u00a0]*([^\W\d_]+)")


def _ordinals(text: str, place: int, width: int, known: Lexicon) -> Figures | None:
    """The ordinals of all sizes that begin here, `10./11. M`; None where none do, or rounds are meant: `1./2. Rd`."""
    listed = ordinals_at(text, place, width)
    if listed is None or "/" not in text[place : listed.end] or "(" in text[place : listed.end]:
        return listed
    counted = _NEXT_WORD.match(text, listed.end)
    if counted is not None and known.single(counted[1]) == "and":
        second = ordinals_at(text, counted.end() + 1, width)  # 9./10. und 10./11. M
        counted = _NEXT_WORD.match(text, second.end) if second is not None else None
    return listed if counted is not None and known.single(counted[1]) == "sts" else None


def _number(text: str, figures: Figures, known: Lexicon, *, near: bool, counts: bool) -> Piece:
    """A number, with the ending that makes an ordinal of it: `2.`, `1er`, `2ª`.

    Where it counts, a full stop ends its sentence: `= 64. Rd 2: re`.
    """
    end = figures.end
    ordinal = figures.ordinals
    if figures.single is not None:
        ending = _ENDING.match(text, end)
        if ending is not None and normalize("NFKC", ending[0]).lower().lstrip(".") in known.endings:
            ordinal = True
            end = ending.end()
        elif text[end : end + 1] == "." and not counts:
            ordinal = True
            end += 1
    return Piece("number", text[figures.start : end], "", figures.start, end, near, figures, ordinal)


_EQUALS: Final = frozenset("=→>")
_NEXT_ROUND: Final = re.compile(r"\.[ \t\u00a0]{1,3}[^\W\d_]{1,12}\.?[ \u00a0]?[0-9]")
"""A round with its number behind the count of one: `. Rd 2`."""
_ENDING: Final = re.compile(r"\.?(?:[^\W\d_]{1,3}(?![^\W\d_])|[°ºª])")

_COMPOUND: Final = re.compile(r"(?:\.-?|-)([^\W\d_]{2,})(?![^\W_])")
"""The rest of a word that is printed in two: `zus.-str`, `Abn-Rd`."""


def _piece(kind: str, match: re.Match[str], known: Lexicon, *, near: bool) -> Piece:
    text = match[0]
    key = text.translate(_SIGNS)
    if kind == "word":
        small = text.lower()
        value = known.values.get(small)
        if value is None:
            value = known.ordinals.get(small)
        if value is not None:
            longer = known.long_numbers.match(match.string, match.start()) if known.long_numbers else None
            if longer is not None:
                text, match, small = longer[0], longer, BETWEEN_WORDS.sub(" ", longer[0].lower())
                value = known.values[small] if small in known.values else known.ordinals[small]
            return _in_words(text, value, match, near=near, ordinal=small in known.ordinals)
        if (
            len(text) == 1
            and known.is_size(text)
            and match.string[match.end() : match.end() + 1] not in _APOSTROPHES
        ):
            return Piece(kind, text, text, match.start(), match.end(), near)
        rest = _COMPOUND.match(match.string, match.end())
        if rest is not None and (whole := known.forms.get(small + rest[1].lower())) is not None:
            return Piece(kind, text + rest[0], whole, match.start(), rest.end(), near)
        key = known.word(text)
    elif key == "x":
        key = known.word(key)  # the sign of times
    elif kind == "sizes":
        key = ""
        if "(" not in text and "[" not in text:
            text = text.rstrip(")] \t")  # of `(tailles S/M/L)`
    return Piece(kind, text, key, match.start(), match.start() + len(text), near)


def _parts(piece: Piece, known: Lexicon) -> tuple[Piece, ...]:
    """A word, in two where it is a number and a word: `dreimal`."""
    small = piece.text.lower()
    for stop in range(min(len(small) - 1, LONGEST_NUMBER), 1, -1):
        value, rest = known.values.get(small[:stop]), known.forms.get(small[stop:])
        if len(small) - stop < SHORTEST_REST:
            continue
        if value is not None and rest is not None:
            middle = piece.start + stop
            figures = Figures((Figure(str(value), piece.start, middle),), piece.start, middle)
            first = Piece("number", piece.text[:stop], "", piece.start, middle, piece.near, figures)
            return first, Piece("word", piece.text[stop:], rest, middle, piece.end, near=True)
    return (piece,)


SHORTEST_REST: Final = 3
"""Letters of the word behind a number in one word."""
LONGEST_NUMBER: Final = 16
"""Letters of a number in words."""


def _in_words(text: str, value: int, match: re.Match[str], *, near: bool, ordinal: bool) -> Piece:
    """A number in words: `zwei`, `siebte`."""
    start, end = match.span()
    figures = Figures((Figure(str(value), start, end),), start, end)
    return Piece("number", text, "", start, end, near, figures, ordinal)
