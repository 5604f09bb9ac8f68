"""Numbers that are reckoned with: `28 + 28 = 56`, `(7 x 13)`, `2/2` rib, `6+2tog`."""

from math import prod
from typing import Final

from roundwright.wording.reading.parsing.colours import ColourReader
from roundwright.wording.reading.parsing.looking import TOGETHER
from roundwright.wording.reading.phrases import (
    Brackets,
    Count,
    Fabric,
    Phrase,
    Stitches,
)
from roundwright.wording.reading.tokens import COMMA, DASH, EQUALS, SEMI, SPACE, STOP
from roundwright.wording.reading.tree import ONE, Number, Stitch


class SumReader(ColourReader):
    """Reads sums, products and the numbers of a rib."""

    def reckoned(self) -> Phrase | None:
        """`28 + 28 = 56`, `4 x 14 = 56`, `64 - 8 = 56`: the count behind the sign; else None."""
        opened = self.place > 0 and self.tokens[self.place - 1].kind == "("
        apart = opened or bool(self.flags(0) & (STOP | COMMA | SEMI | DASH))
        signed = self.kind(1) in ("and", "times", "number") or self.text_of(1) in _SIGNS
        if not signed or not apart:
            return None
        terms = self.tokens[self.place + 1 : min(self.stop, self.place + MOST_TERMS + 1)]
        if not any(token.flags & EQUALS for token in terms):
            return None
        values = [(self.token().number or ONE).of(0) or 0]
        ahead, sign = 1, ""
        while self.place + ahead < self.stop and ahead < MOST_TERMS and not self.flags(ahead) & EQUALS:
            if self.kind(ahead) == "number":
                values.append((self.token(ahead).number or ONE).of(0) or 0)
                sign = sign or ("-" if self.flags(ahead) & DASH else "")
            elif self.token(ahead).text in _SIGNS:
                sign = sign or self.token(ahead).text
            elif self.kind(ahead) != "stitch_noun":
                return None
            ahead += 1
        total = self.token(ahead).number
        if self.kind(ahead) != "number" or total is None or len(values) < 2:
            return None
        if total.of(0) not in _reckonings(values):
            return None
        count = ahead + 2 if self.kind(ahead + 1) == "stitch_noun" else ahead + 1
        return Count(*self.take(count), total)

    def added(self, number: Number) -> Phrase | None:
        """`28 + 28`, `15 + 15 + 15 + 15 sts`: the stitches on each of the needles, which are the count; else None."""
        first, total, ahead = self.token(), number.of(0) or 0, 1
        while self.kind(ahead) == "number" and ahead < MOST_ADDED and self.is_added(ahead):
            total += (self.token(ahead).number or ONE).of(0) or 0
            ahead += 1
        counted = self.kind(ahead) in ("stitch_noun", "remain", "left") and self.joined(ahead)
        bracketed = self.place > 0 and self.tokens[self.place - 1].kind == "(" and self.kind(ahead) == ")"
        if ahead == 1 or not (counted or self.ends_at(ahead) or bracketed):
            return None
        if not bracketed and any(self.is_close(at) for at in range(1, ahead)):
            return None  # K5 (6 7, 8)
        end = self.token(ahead - 1).end
        return Count(*self.take(ahead + counted), Number((total,), first.start, end))

    def is_added(self, ahead: int) -> bool:
        """Whether a plus stands before a number: with spaces, or alone between two that are alike or in a bracket."""
        gap = self.token(ahead).start - self.token(ahead - 1).end
        return self.token(ahead).flags == SPACE and gap in (len("+"), len(" + "))

    def is_close(self, ahead: int) -> bool:
        """Whether no more than one sign stands between two numbers that differ."""
        first, second = self.token(ahead - 1), self.token(ahead)
        return second.start == first.end + len("+") and first.text != second.text

    def factors(self, number: Number) -> Phrase | None:
        """`(7 x 13)` behind `91 sts`: what the count is made of, which says nothing new; else None."""
        if self.kind(1) != "times" or self.kind(2) != "number" or (self.flags(1) | self.flags(2)) & ~SPACE:
            return None
        product = (number.of(0) or 0) * ((self.token(2).number or ONE).of(0) or 0)
        before = self.tokens[max(0, self.place - MOST_BEFORE_FACTORS) : self.place]
        counted = any(token.kind == "number" and (token.number or ONE).of(0) == product for token in before)
        return self.only_words(3) if counted else None

    def plain_and_decrease(self, number: Number) -> Phrase | None:
        """`6 & narrow`, `6+2tog`: plain stitches and a decrease; else None."""
        plain = number.of(0) or 0
        joint = 2 if self.kind(1) == "and" else 1
        shaped = self.kind(joint) == "decrease" and self.token(joint).text in _SHAPE and joint == 2
        together = self.kind(joint) == "number" and self.kind(joint + 1) == "together" and joint == 1
        if not (shaped or together) or not 0 < plain <= MOST_PLAIN or not self.joined(1):
            return None
        if self.flags(1) & (COMMA | DASH) or self.kind(joint + 1) == "round":
            return None
        name = TOGETHER.get(("knit", (self.token(joint).number or ONE).of(0) or 0)) if together else "k2tog"
        if name is None:
            return None
        start, end, flags = self.take(joint + 1 + together)
        first, last = Stitch("k", number, start, end), Stitch(name, ONE, start, end)
        return Brackets(start, end, flags, (Stitches(start, end, 0, first), Stitches(start, end, 0, last)))

    def is_ribbed(self, number: Number) -> bool:
        """Whether it is a rib and no list of sizes: `2/2 rib`."""
        text = self.token().text
        return (
            "/" in text
            and "(" not in text
            and len(number.values) == 2
            and max(value or 9 for value in number.values) <= 6
            and (self.kind(1) == "rib" or (self.place > 0 and self.tokens[self.place - 1].kind == "rib"))
        )

    def rib_of_two(self, number: Number) -> Phrase | None:
        """`two and two rib`, `3 and 1 ribbing`: knits and purls; else None."""
        purls = self.token(2).number
        if self.kind(1) != "and" or self.kind(2) != "number" or self.kind(3) != "rib" or purls is None:
            return None
        small = max(*number.values, *purls.values, key=lambda value: value or MOST_OF_RIB) or MOST_OF_RIB
        if small >= MOST_OF_RIB or not self.joined(3) or self.flags(3) & COMMA:
            return None
        start, end, flags = self.take(4)
        nodes = (Stitch("k", number, start, end), Stitch("p", purls, start, end))
        return Fabric(start, end, flags, "ratio", nodes)

    def ribbed(self, number: Number) -> Phrase | None:
        """`2/2`: knit and purl; else None."""
        if not self.is_ribbed(number):
            return None
        start, end, flags = self.take(1)
        first, second = number.values
        nodes = (Stitch("k", Number((first,)), start, end), Stitch("p", Number((second,)), start, end))
        return Fabric(start, end, flags, "ratio", nodes)


def _reckonings(values: list[int]) -> tuple[int, ...]:
    """What some numbers add up to, come to multiplied, or leave when the others are taken away."""
    return sum(values), prod(values), values[0] - sum(values[1:])


_SIGNS: Final = frozenset(("+", "x", "×", "and", "plus", "times", "minus", "by", "less"))
"""Words between the numbers of an equation."""
MOST_PLAIN: Final = 24
"""Plain stitches before a decrease that is told by no more than a number: `6+2tog`."""
_SHAPE: Final = ("narrow", "decrease", "dec", "reduce")
MOST_BEFORE_FACTORS: Final = 6
"""Words from a count to the two numbers of which it is made."""
MOST_OF_RIB: Final = 7
"""Knits or purls of a rib are fewer."""
MOST_ADDED: Final = 6
"""Needles whose stitches are added up."""
MOST_TERMS: Final = 12
"""Words of a sum that is printed."""
