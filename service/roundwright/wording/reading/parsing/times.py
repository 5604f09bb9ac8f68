"""How often: `4 times`, `once more`, `x 8`."""

from typing import cast

from roundwright.wording.reading.parsing.looking import OFTEN
from roundwright.wording.reading.parsing.stitches import StitchReader
from roundwright.wording.reading.phrases import Count, Needlewise, Phrase, Rounds, Times
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, SEMI, STOP
from roundwright.wording.reading.tree import ONE, Number


class TimesReader(StitchReader):
    """Reads how often something is done."""

    def times(self, number: Number) -> Phrase:
        """`4 times`, `4 more times`."""
        count, more, total = 1, False, False
        while self.kind(count) in ("times", "more", "total") and self.joined(count):
            if self.kind(count) == "times" and self.token(count).text == "x" and count > 1:
                break
            more = more or self.kind(count) == "more"
            total = total or self.kind(count) == "total"
            count += 1
        if both := self.on_both_sides(count, number):
            return Times(*self.take(both), Number((2 * (number.of(0) or 0),), number.start, number.end))
        return Times(*self.take(count), number, more, total)

    def on_both_sides(self, count: int, number: Number) -> int:
        """Where `three times on the front, three times on the back` ends, counted from its number; 0 if it does not."""
        texts = [self.text_of(count + at) for at in range(3)]
        again = self.token(count + 3).number
        back = [self.text_of(count + at) for at in range(5, 8)]
        if texts != ["on", "the", "front"] or back != ["on", "the", "back"]:
            return 0
        return count + 8 if again is not None and again.values == number.values else 0

    def times_first(self) -> Phrase:
        """`x 8`."""
        counts = self.kind(2) == "stitch_noun" and bool(self.flags(1) & DASH)  # `each time - 7 sts`
        counted = self.place > 0 and self.tokens[self.place - 1].kind == "ordinal"
        counts = counts or (counted and self.kind(2) == "stitch_noun")  # first time 35 sts
        counts = counts or (
            self.kind(2) == "times" and bool(self.flags(1) & COMMA)
        )  # each time, 4 times in all
        if self.kind(1) == "number" and self.joined(1) and not counts:
            number = cast("Number", self.token(1).number)
            count = 2
            if self.kind(2) == "round" and self.joined(2) and self.token().text == "x":
                return Rounds(*self.take(3), number)  # k2p2 x 16 rnds
            if self.kind(2) == "times":
                count = 3
            return Times(*self.take(count), number)
        return self.only_words(1)

    def often(self) -> Phrase:
        """`twice`, `once more`."""
        count, more, total = 1, bool(self.token().means), False  # `one last time` is once more
        token = self.token()
        number = Number((OFTEN[token.means or token.text],), token.start, token.end)
        while self.kind(count) in ("more", "total", "times") and self.joined(count):
            more = more or self.kind(count) == "more"
            total = total or self.kind(count) == "total"
            count += 1
        return Times(*self.take(count), number, more, total, word=True)

    def more(self) -> Phrase:
        """`more` before a number: `another 3 times`, `again twice`, `another round`."""
        before = self.tokens[self.place - 1].kind if self.place else ""
        if before == "decrease" and self.is_once_more(0):
            return Times(*self.take(1), ONE, more=True, word=True)
        if self.kind(1) == "round" and self.joined(1) and self.token().text == "another":
            return Rounds(*self.take(2), ONE, more=True)
        counts = self.kind(1) == "number" and self.kind(2) not in ("times", "more", "round", "stitch_noun")
        if self.token().text == "again" and counts and (before in ("and", "then") or self.flags(0) & STOP):
            return Times(*self.take(1), ONE, more=True)  # and again ten
        if self.kind(1) in ("often", "number") and self.joined(1) and not self.flags(1) & COMMA:
            start, _, flags = self.take(1)
            phrase = self.next_phrase()
            if type(phrase) is Times:
                more = not flags & COMMA or before not in ("stitch", "together", "stitch_noun")
                return Times(start, phrase.end, flags, phrase.number, more, phrase.total, phrase.word)
            if type(phrase) is Rounds:
                return Rounds(start, phrase.end, flags, phrase.number, more=True)
            return phrase
        ends = self.place + 1 >= self.stop or bool(self.flags(1) & (STOP | COMMA | SEMI | COLON | DASH))
        ends = ends or self.kind(1) == "("
        begins = before in ("and", "then") or bool(self.flags(0) & STOP)
        if self.token().text == "again" and begins and ends:
            return Times(*self.take(1), ONE, more=True)
        return self.only_words(1)

    def total(self) -> Phrase:
        """`in all 56 sts`."""
        if self.kind(1) == "number" and self.kind(2) == "times":
            number = cast("Number", self.token(1).number)
            return Times(*self.take(3), number, total=True)
        if self.kind(1) == "number" and self.kind(2) in ("section", "needle"):
            return Needlewise(*self.take(3), self.token(1).number)
        if self.kind(1) == "number" and self.kind(2) != "round":
            number = cast("Number", self.token(1).number)
            count = 3 if self.kind(2) == "stitch_noun" else 2
            return Count(*self.take(count), number)
        return self.only_words(1)
