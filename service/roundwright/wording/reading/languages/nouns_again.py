"""Lists of sizes that print their noun behind every number: `80 M (88 M/96 M)`, `8x (9x)`, `dreimal | viermal`.

So do those that end in a word for respectively: `6, 7 beziehungsweise 8 M`.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from roundwright.wording.reading.languages.cut import Piece
from roundwright.wording.reading.languages.figures import Figure, Figures
from roundwright.wording.reading.languages.lexicon import Lexicon

LONGEST_NOUN: Final = 3
"""Pieces of such a noun, its full stop among them: `x`, `M.`."""
MOST_TIMES: Final = 4
"""How many times the number of a size the next may be, at most, as those of rounds and repeats are."""
_BETWEEN: Final = frozenset((",", ";", "/", "-"))
_CLOSING: Final = ")"
_BARS: Final = frozenset("/|")
RESPECTIVELY: Final = "respectively"
"""What the English word is of the word before the last number of a list."""


def with_nouns_once(cut: list[Piece], width: int, known: Lexicon) -> list[Piece]:
    """The pieces of a text for so many sizes, with each noun once, behind the list. Takes time in their number."""
    made: list[Piece] = []
    place = 0
    while place < len(cut):
        opens = _opens(cut, place)
        listed = _listed(cut, place, opens, width) if opens else _parted(cut, place, width, known)
        if listed is None:
            made.append(cut[place])
            place += 1
            continue
        pieces, place = listed
        made.extend(pieces)
    return made


def _opens(cut: Sequence[Piece], place: int) -> int:
    """Where the bracket opens behind a number and its noun; 0 where none does."""
    if _value(cut[place]) is None:
        return 0
    for opens in range(place + 2, min(place + 2 + LONGEST_NOUN, len(cut))):
        if cut[opens].key == "(" and cut[opens].kind == "sign":
            return opens
        if cut[opens].kind not in ("word", "sign"):
            return 0
    return 0


def _value(piece: Piece) -> int | None:
    """The number of a piece, where it is one and no ordinal."""
    return piece.figures.single if piece.figures is not None and not piece.ordinal else None


def _listed(cut: Sequence[Piece], begin: int, opens: int, width: int) -> tuple[tuple[Piece, ...], int] | None:
    """The numbers as one piece, their noun as another, and where the list ends; None where there is none."""
    noun = tuple(piece.key for piece in cut[begin + 1 : opens])
    if cut[begin + 1].kind != "word" and noun[0] != "x":
        return None
    numbers = [cut[begin]]
    place, inside = opens, False
    while place < len(cut) and (len(numbers) < width or inside):
        piece = cut[place]
        if piece.kind == "sign" and (piece.key == "(" if not inside else piece.key == _CLOSING):
            inside = not inside
            place += 1
        elif inside and piece.kind == "sign" and piece.key in _BETWEEN:
            place += 1
        elif _value(piece) is not None and len(numbers) < width:
            numbers.append(piece)
            place += 1 + len(noun)
            if tuple(word.key for word in cut[place - len(noun) : place]) != noun:
                return None
        else:
            return None
    if inside or len(numbers) != width or not _alike(numbers):
        return None
    return _made(numbers, cut[place - len(noun) - 1 : place]), place


def _parted(
    cut: Sequence[Piece], begin: int, width: int, known: Lexicon
) -> tuple[tuple[Piece, ...], int] | None:
    """Such a list without a bracket, and where it ends; None where there is none."""
    numbers: list[Piece] = []
    nouns: list[str] = []
    joins: list[str] = []
    place = begin
    if _value(cut[begin]) is None:
        return None
    while place < len(cut) and _value(cut[place]) is not None:
        numbers.append(cut[place])
        place += 1
        word = place < len(cut) and cut[place].kind == "word"
        if word and known.single(cut[place].text) != RESPECTIVELY:
            nouns.append(cut[place].key)
            place += 1
        if len(numbers) == width or place == len(cut):
            break
        joins.append(known.single(cut[place].text) or cut[place].key)
        place += 1
        place += joins[-1] == RESPECTIVELY and place < len(cut) and cut[place].key == "."
    again = len(set(nouns)) == 1 and cut[place - 1] is not numbers[-1]
    barred = len(nouns) == width and len(set(joins)) == 1 and _BARS.issuperset(joins)
    parted = (
        len(nouns) in (1, width) and joins[-1:] == [RESPECTIVELY] and {",", RESPECTIVELY}.issuperset(joins)
    )
    if len(numbers) != width or not again or not (barred or parted) or not _alike(numbers):
        return None
    return _made(numbers, cut[place - 1 : place]), place


def _alike(numbers: Sequence[Piece]) -> bool:
    """Whether numbers may be those of sizes, the next about as much as the one before."""
    values = [_value(number) or 0 for number in numbers]
    return all(
        first <= MOST_TIMES * second and second <= MOST_TIMES * first for first, second in pairwise(values)
    )


def _made(numbers: Sequence[Piece], last: Sequence[Piece]) -> tuple[Piece, Piece]:
    """A piece of the numbers, up to the last of them, and one of the noun behind it."""
    figures: tuple[Figure, ...] = ()
    for number in numbers:
        figures += number.figures.figures if number.figures is not None else ()
    first, end = numbers[0], numbers[-1].end
    listed = Piece("number", first.text, "", first.start, end, first.near, Figures(figures, first.start, end))
    noun = next(piece for piece in last if piece.start >= end and piece.kind in ("word", "sign"))
    return listed, Piece(noun.kind, noun.text, noun.key, noun.start, last[-1].end, noun.near)
