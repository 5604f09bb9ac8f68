"""Stitches told by their colours: `1 black, 3 white`, `MC 3, CC 1`, `2R 1M 2R`."""

from typing import Final

from roundwright.wording.reading.parsing.looking import BREAK
from roundwright.wording.reading.parsing.times import TimesReader
from roundwright.wording.reading.phrases import Phrase, Stitches
from roundwright.wording.reading.tokens import COLON, DASH, SLASH, SPACE, TAB, Token
from roundwright.wording.reading.tree import ONE, Number, Stitch

COLOURS: Final = frozenset(
    ("mc", "cc", "main", "contrast", "dark", "light", "white", "black", "grey", "gray", "red", "blue", "green",
     "yellow", "brown", "pink", "orange", "purple", "cream", "navy", "beige", "natural", "ecru")
)  # fmt: skip
MOST_IN_ROW: Final = 48
"""Words of a round that is told by its colours."""
FEWEST_UNITS: Final = 2
"""Colours of such a round."""
_OPENS: Final = COLON | SLASH | DASH | TAB
_BEFORE_ROW: Final = frozenset(("stars", "(", "knit", "purl"))
_LETTERS: Final = frozenset("abcdefgw")
"""Letters by which a pattern calls its colours."""
_NO_STITCHES: Final = frozenset(("gear", "unit", "round", "stitch_noun", "needle", "times", "together"))
"""What a number behind a colour counts where it counts no stitches: `white 70 g`."""


class ColourReader(TimesReader):
    """Reads stitches told by their colours."""

    def colour_unit(self) -> Phrase | None:
        """`3 white` of a row of such units that begins behind a sign, or `white 3`; None where it is no such row."""
        begun = self.begin_of_row()
        if begun is None or not self.is_row(begun):
            return None
        first = self.token()
        ahead = 0
        number: Number = ONE
        while ahead < MOST_OF_UNIT and _is_of_unit(self.tokens[self.place + ahead]):
            token = self.token(ahead)
            same = (token.kind == "number") == (first.kind == "number") and ahead > 0
            if same and token.kind == "number":
                break
            if first.kind != "number" and ahead and self.kind(ahead - 1) == "number":
                break
            number = token.number if token.kind == "number" and token.number else number
            ahead += 1
        start, end, flags = self.take(ahead)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

    def begin_of_row(self) -> int | None:
        """Where the units begin among which this stands; None where no sign, star or bracket opens them."""
        for at in range(self.place, max(self.place - MOST_IN_ROW, -1), -1):
            before = self.tokens[at - 1] if at else None
            if before is None or self.tokens[at].flags & _OPENS or before.kind in _BEFORE_ROW:
                return at if before is not None else None
            if self.tokens[at].flags & BREAK or not (_is_of_unit(before) or before.kind == "and"):
                return None
        return None

    def is_row(self, begun: int) -> bool:
        """Whether numbers and colours stand in turn from a place on, up to a sign, a star or the end."""
        last, units, at = "", 0, begun
        while at < min(self.stop, begun + MOST_IN_ROW):
            token = self.tokens[at]
            if at > begun and token.flags & BREAK:
                break
            if token.kind == "and":
                at += 1
                continue
            if not _is_of_unit(token):
                if token.kind in _NO_STITCHES:
                    return False
                break
            kind = "number" if token.kind == "number" else "colour"
            if kind == last == "number":
                return False
            units += kind != last
            last = kind
            at += 1
        return units >= 2 * FEWEST_UNITS and units % 2 == 0

    def is_colour_row(self) -> bool:
        """Whether stitches are told by the letters of their colours: `2R 1M 2R`; another unit stands beside this."""
        if len(self.text_of(1)) != 1:
            return False
        for number, letter in ((2, 3), (-2, -1)):
            beside = self.place + number >= 0 and self.kind(number) == "number" and not self.flags(letter)
            if beside and len(self.text_of(letter)) == 1 and not self.flags(max(number, 0)) & ~SPACE & ~COLON:
                return True
        return False


MOST_OF_UNIT: Final = 4
"""Words of a number and its colour: `3 light grey`."""


def _is_of_unit(token: Token) -> bool:
    return token.kind == "number" or is_colour(token)


def is_colour(token: Token) -> bool:
    """Whether a word may name a colour: `white`, `MC`, `A`."""
    return token.text in COLOURS or token.text in _LETTERS
