"""Lengths: `5 ins`, `12 cm (4¾ ins)`."""

from typing import Final

from roundwright.wording.reading.parsing.looking import BREAK, Looking
from roundwright.wording.reading.phrases import Length, Phrase, Said
from roundwright.wording.reading.tokens import COMMA, LINE, SEMI, STOP

THICKEST_NEEDLE: Final = 15
"""Millimetres of a needle; nobody knits so short a length."""


class Lengths(Looking):
    """Reads lengths."""

    def is_unit(self, ahead: int) -> bool:
        """Whether `in` behind a number is inches."""
        if self.kind(ahead) == "unit" and self.token(ahead).text != "in":
            return True
        after = self.kind(ahead + 1)
        if self.place + ahead + 1 >= self.stop or self.flags(ahead + 1) & (STOP | COMMA | SEMI | LINE):
            return True
        return (
            after in ("tail", "in", "rib", "measure", "from", "word", ")", "stocking", "garter", "")
            or (
                after in ("knit", "purl")
                and self.tokens[self.place - 1].kind in ("work", "for", "knit", "to", "until")
            )
            or after == "more"
        )

    def decimal(self) -> Phrase:
        """`5½ ins`, `4.5 mm needle`."""
        if self.kind(1) in ("unit", "in", "measure"):
            return self.length(2)
        if self.kind(1) == "word" or self.kind(1) == "gear":
            return Said(*self.take(2))
        return Said(*self.take(1))

    def length(self, count: int) -> Phrase:
        """`5 ins`, and how it is measured."""
        if size := self.needle_size(count):
            return self.only_words(size)
        if self.is_of_needle(count):
            return self.only_words(count)
        start, _, flags = self.take(count)
        while not self.flags(0) & (STOP | COMMA | SEMI | LINE):
            if self.length_in_brackets():
                continue
            if not self.is_of_length():
                break
            self.place += 1
        if self.kind() in ("measure", "from", "more"):
            while not self.flags(0) & (BREAK | COMMA) and self.kind() in _MEASURED:
                self.place += 1
        return Length(start, self.at_end(), flags)

    def is_of_length(self) -> bool:
        """Whether this word belongs to the length before it: `cm`, the number behind `measures`, `about` before one."""
        kind, before = self.kind(), self.tokens[self.place - 1].kind
        if kind == "":
            return self.kind(1) in _NUMBERS
        if kind == "in":
            return before in ("number", "decimal", ")") and self.is_unit(0)
        measured = before in ("measure", "", "for") and self.kind(1) in ("unit", "in", "(", "decimal")
        return kind in ("unit", "measure") or (kind in _NUMBERS and measured)

    def needle_size(self, count: int) -> int:
        """The words up to the size of a needle: `needles 4 mm`, `change to 4 mm`, `went up to 4.5 mm`, or 0.

        Behind `to` and `on` alone, so few millimetres are those of a needle.
        """
        count += self.kind(count - 1) == "decimal" and self.kind(count) == "unit"
        changed = self.kind() == "to" and self.place > 0 and self.tokens[self.place - 1].text in _CHANGING
        at = self.place + count - 3  # before the number and its unit
        named = at >= 0 and self.tokens[at].kind == "needle"
        before = self.tokens[self.place - 1].kind if self.place else ""
        thin = before in ("to", "on") and self.is_thin()
        return count if self.token(count - 1).text == "mm" and (changed or named or thin) else 0

    def is_thin(self) -> bool:
        """Whether the number here may be the millimetres of a needle."""
        whole = self.token().text.split(".")[0].split(",")[0]
        return whole.isdigit() and len(whole) <= len(str(THICKEST_NEEDLE)) and int(whole) <= THICKEST_NEEDLE

    def is_of_needle(self, count: int) -> bool:
        """Whether a needle stands behind so many millimetres: `6.5mm circular`."""
        held = self.kind(count) in ("needle", "gear") and self.joined(count)
        return held and self.text_of(count - 1) == "mm" and self.is_thin()

    def length_in_brackets(self) -> bool:
        """`(12 cm)` behind a length; taken where it is one."""
        ahead = 1
        if self.kind() != "(":
            return False
        while self.kind(ahead) in ("number", "decimal", "unit", "in", "range") and ahead < 12:
            ahead += 1
        if self.kind(ahead) == ")" and ahead > 1:
            self.place += ahead + 1
            if self.kind() in ("unit", "in"):
                self.place += 1
            return True
        return False


_NUMBERS: Final = ("number", "decimal", "range")
_MEASURED: Final = frozenset(
    ("measure", "from", "cast_on", "begin", "word", "", "end", "in", "round", "last", "more", "all", "rib",
     "edge")
)  # fmt: skip
"""Words that say from where to where a length is measured: `12 cm from the cast-on edge`."""
_CHANGING: Final = frozenset(("change", "switch", "changing", "switching", "changed"))
"""Words behind which the size of a needle is told."""
