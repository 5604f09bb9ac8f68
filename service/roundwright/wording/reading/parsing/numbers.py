"""What is counted: stitches, rounds, times."""

from typing import cast

from roundwright.wording.reading.parsing.looking import BREAK, NAMES, NOT_STITCHES, OFTEN, TOGETHER
from roundwright.wording.reading.parsing.stitches import StitchReader
from roundwright.wording.reading.phrases import (
    Again,
    Continue,
    Count,
    Extent,
    Fabric,
    Markers,
    PerPart,
    Phrase,
    Rounds,
    Said,
    Stitches,
    Times,
)
from roundwright.wording.reading.scanner import COLON, COMMA, DASH, LINE, SEMI, STOP
from roundwright.wording.reading.tree import ONE, Number, Stitch, Unknown


class NumberReader(StitchReader):
    """Reads numbers with what they count."""

    def number(self) -> Phrase:
        """What is counted: stitches, rounds, times, a length."""
        number = cast("Number", self.token().number)
        if (
            "/" in self.token().text
            and len(number.values) == 2
            and max(number.values[0] or 9, number.values[1] or 9) <= 6
            and "(" not in self.token().text
        ):
            ribbed = self.kind(1) == "rib" or (self.place and self.tokens[self.place - 1].kind == "rib")
            if ribbed:
                start, end, flags = self.take(1)
                first, second = number.values
                nodes = (
                    Stitch("k", Number((first,)), start, end),
                    Stitch("p", Number((second,)), start, end),
                )
                return Fabric(start, end, flags, "ratio", nodes)
        kind = self.kind(1)
        if kind == "more" and self.kind(2) == "plain" and self.kind(3) != "round":
            return Rounds(*self.take(2), number, more=True)
        if kind == "plain" and self.joined(1) and (plain := self.plain_number(number)):
            return plain
        if (
            self.flags(1) & DASH
            and self.token(1).start == self.token().end + 1
            and kind in ("round", "stitch_noun", "needle", "word", "gear")
        ):
            return self.said(2)  # a 4-round repeat
        if not self.joined(1):
            kind = ""
        elif kind in ("knit", "purl", "slip", "stitch", "right", "left"):
            if stitches := self.number_first(number):
                return stitches
        elif kind == "together":
            return self.together(number, 2)
        elif kind == "and" and self.kind(2) == "number" and self.kind(3) == "together":
            if number.values == cast("Number", self.token(2).number).values and not self.flags(0) & STOP:
                return self.together(number, 4)
            start, end, flags = self.take(1)
            return Stitches(start, end, flags, Stitch("k", number, start, end))
        elif kind == "round" or (
            kind in ("more", "following", "next", "plain", "rib", "even", "odd")
            and self.kind(2) == "round"
            and self.joined(2)
        ):
            return self.rounds(number)
        elif kind == "word" and not self.flags(1):
            start, end, flags = self.take(2)
            return Stitches(
                start, end, flags, Unknown(f"{number.of(0)}{self.tokens[self.place - 1].text}", start, end)
            )
        elif kind == "stitch_noun":
            return self.stitches(number)
        elif kind == "times" or (kind == "more" and self.kind(2) == "times"):
            return self.times(number)
        elif kind == "remain":
            return Count(*self.take(2), number)
        elif kind == "unit" or (kind == "in" and self.is_unit(1)):
            return self.length(2)
        elif kind == "per" and self.kind(self.skip(2)) == "needle":
            return PerPart(*self.take(self.skip(2) + 1), number)
        elif kind == "persection":
            return PerPart(*self.take(2), number)
        elif kind == "section":
            return Markers(*self.take(2), number)
        elif kind in ("marker", "place") or (kind == "each" and self.kind(2) == "needle"):
            start, end, flags = self.take(2)
            return (
                Markers(start, end, flags, number)
                if self.tokens[self.place - 1].text != "m"
                else Said(start, end, flags)
            )
        elif kind in ("needle", "gear"):
            return self.said(2)
        elif kind in ("decrease", "increase", "fewer", "more"):
            if kind in {"fewer", "more"}:
                count = 3 if self.kind(2) in ("stitch_noun", "knit", "purl") else 2
                if self.kind(count) in ("between", "before") and self.place:
                    return Continue(*self.take(count + 1), manner=True)
                return self.said(count)
            return Count(*self.take(2), number, 1 if kind == "increase" else -1)
        if self.kind(1) == "number" and self.flags(1) & COMMA and self.place + 1 < self.stop:
            return self.listed()
        if kind == "word" and self.kind(2) == "round":
            start, end, flags = self.take(3)
            return Rounds(start, end, flags, number)
        return self.bare_number(number)

    def plain_number(self, number: Number) -> Phrase | None:
        """`3 plain, 1 purl` are stitches; `1 plain` at the end of what is said is a round."""
        text = self.token(1).text
        if text != "plain" or self.kind(2) in ("round", "knit"):
            return None
        ends = self.place + 2 >= self.stop or bool(self.flags(2) & (STOP | SEMI))
        if not ends and (self.kind(2) in ("number", "purl", ")", "and", "stars") or self.flags(2) & COMMA):
            start, end, flags = self.take(2)
            return Stitches(start, end, flags, Stitch("k", number, start, end))
        return Rounds(*self.take(1), number) if ends else None

    def bare_number(self, number: Number) -> Phrase:
        """A number that counts nothing that is named."""
        before = self.tokens[self.place - 1].kind if self.place else ""
        if before in ("gear", "size", "needle"):
            return self.said(1)
        return Count(*self.take(1), number, sure=False)

    def listed(self) -> Phrase:
        """`42, 45, 48 sts`: a count for each size, without brackets."""
        if self.place and self.flags(0) & COMMA and self.kind(-1) == "number":
            return self.bare_number(
                cast("Number", self.token().number)
            )  # in the midst of a list that is none
        ahead = 1
        values = list(cast("Number", self.token().number).values)
        while (
            self.kind(ahead) == "number"
            and self.flags(ahead) & COMMA
            and not self.flags(ahead) & BREAK
            and len(values) < 13
        ):
            values.extend(cast("Number", self.token(ahead).number).values)
            ahead += 1
        if self.kind(ahead) in ("stitch_noun", ")") and len(values) > 1:
            stop = ahead + 1 if self.kind(ahead) == "stitch_noun" else ahead
            start, end = self.token().start, self.token(ahead - 1).end
            number = Number(tuple(values[:13]), start, end)
            return Count(*self.take(stop), number)
        return self.bare_number(cast("Number", self.token().number))

    def number_first(self, number: Number) -> Phrase | None:
        """`11 k`, `2 right`: the number before the stitch."""
        kind = self.kind(1)
        if kind == "stitch":
            name = self.token(1).means
            start, end, flags = self.take(2)
            return Stitches(start, end, flags, Stitch(name, number, start, end))
        if self.kind(2) == "number" and self.joined(2) and not self.flags(2) & (COMMA | DASH):
            glued = self.token(2).start == self.token(1).end
            behind = self.kind(3)
            if glued or behind not in ("knit", "purl", "together", "right", "left"):
                return None
        if kind == "left" and not any(
            self.kind(back) == "right" for back in range(-8, 0) if self.place + back >= 0
        ):
            return None
        if kind == "right" and self.kind(2) == "side":
            return None
        start, end, flags = self.take(2)
        if self.kind() == "stitch_noun" and self.joined(0) and not self.token().flags & COMMA:
            _, end, _ = self.take(1)
        return Stitches(start, end, flags, Stitch(NAMES[kind], number, start, end))

    def together(self, number: Number, count: int) -> Phrase:
        """`2 tog`, `two together`."""
        if self.kind(count) == "tbl" and self.joined(count):
            count += 1
        start, end, flags = self.take(count)
        name = TOGETHER.get(("knit", number.of(0) or 0))
        if name:
            return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        return Stitches(start, end, flags, Unknown(f"{number.of(0)} tog", start, end))

    def rounds(self, number: Number) -> Phrase:
        """`5 rnds`, `2 more rnds`."""
        count = 1
        more = False
        while self.kind(count) != "round":
            more = more or self.kind(count) == "more"
            count += 1
        return Rounds(*self.take(count + 1), number, more=more)

    def stitches(self, number: Number) -> Phrase:
        """`56 sts`: a count, or what is said of so many stitches."""
        ahead = self.skip(2)
        kind = self.kind(ahead) if self.joined(ahead) else ""
        if kind == "together":
            return self.together(number, ahead + 1)
        if kind == "knit" and self.kind(ahead + 1) == "together":
            return self.together(number, ahead + 2)
        if kind in ("decrease", "increase", "fewer") or (kind == "more" and self.kind(ahead + 1) != "times"):
            if self.kind(ahead + 1) in ("between", "before") and kind in ("fewer", "more"):
                return Continue(*self.take(ahead + 2), manner=True)
            sign = 1 if kind in ("increase", "more") else -1
            return Count(*self.take(ahead + 1), number, sign)
        if (
            kind in ("per", "persection")
            or (kind == "each" and self.kind(self.skip(ahead + 1)) != "round")
            or (kind in ("as", "in") and self.kind(ahead + 1) in ("each", "needle"))
        ):
            stop = ahead + 1
            while (
                self.kind(stop) in ("needle", "", "number", "each", "word")
                and stop < ahead + 5
                and self.joined(stop)
                and not self.flags(stop) & COMMA
                and self.place + stop < self.stop
            ):
                stop += 1
            return PerPart(*self.take(stop), number)
        if kind == "from" and self.kind(self.skip(ahead + 1)) == "needle":
            return self.said(self.skip(ahead + 1) + 1)
        if kind == "repeat" or (kind == "word" and self.token(ahead).text == "apart"):
            return self.said(ahead + 1)
        if self.kind(2) in ("before", "from") and self.kind(self.skip(3)) in (
            "marker",
            "end",
            "make",
            "place",
        ):
            stop = self.skip(3) + 1
            return Extent(*self.take(stop), number, marker=self.tokens[self.place - 1].kind != "end")
        sure = True
        count = ahead + 1 if kind in ("remain", "left", "total") else 2
        return Count(*self.take(count), number, sure=sure)

    def times(self, number: Number) -> Phrase:
        """`4 times`, `4 more times`."""
        count, more, total = 1, False, False
        while self.kind(count) in ("times", "more", "total") and self.joined(count):
            if self.kind(count) == "times" and self.token(count).text in ("x", "×") and count > 1:
                break
            more = more or self.kind(count) == "more"
            total = total or self.kind(count) == "total"
            count += 1
        return Times(*self.take(count), number, more, total)

    def times_first(self) -> Phrase:
        """`x 8`."""
        if self.kind(1) == "number" and self.joined(1):
            number = cast("Number", self.token(1).number)
            count = 2
            if self.kind(2) == "times":
                count = 3
            return Times(*self.take(count), number)
        return self.said(1)

    def often(self) -> Phrase:
        """`twice`, `once more`."""
        count, more, total = 1, False, False
        number = Number((OFTEN[self.token().text],), self.token().start, self.token().end)
        while self.kind(count) in ("more", "total", "times") and self.joined(count):
            more = more or self.kind(count) == "more"
            total = total or self.kind(count) == "total"
            count += 1
        return Times(*self.take(count), number, more, total, word=True)

    def more(self) -> Phrase:
        """`more` before a number: `another 3 times`, `again twice`, `another round`."""
        if self.kind(1) == "round" and self.joined(1) and self.token().text == "another":
            return Rounds(*self.take(2), ONE, more=True)
        if self.kind(1) in ("often", "number") and self.joined(1) and not self.flags(1) & COMMA:
            start, _, flags = self.take(1)
            phrase = self.one()
            if isinstance(phrase, Times):
                return Times(start, phrase.end, flags, phrase.number, True, phrase.total, phrase.word)
            if isinstance(phrase, Rounds):
                return Rounds(start, phrase.end, flags, phrase.number, more=True)
            return phrase
        before = self.tokens[self.place - 1].kind if self.place else ""
        ends = self.place + 1 >= self.stop or bool(self.flags(1) & (STOP | COMMA | SEMI | COLON | DASH))
        if self.token().text == "again" and before in ("and", "then") and ends:
            return Times(*self.take(1), ONE, more=True)
        return self.said(1)

    def total(self) -> Phrase:
        """`in all 56 sts`."""
        if self.kind(1) == "number" and self.kind(2) == "times":
            number = cast("Number", self.token(1).number)
            return Times(*self.take(3), number, total=True)
        if self.kind(1) == "number" and self.kind(2) != "round":
            number = cast("Number", self.token(1).number)
            count = 3 if self.kind(2) == "stitch_noun" else 2
            return Count(*self.take(count), number)
        return self.said(1)

    def remain(self) -> Phrase:
        """`rest 80`, `rem 64 sts`."""
        if self.kind(1) == "number" and self.joined(1) and self.kind(2) not in ("round", "times", "unit"):
            number = cast("Number", self.token(1).number)
            count = 3 if self.kind(2) == "stitch_noun" else 2
            if self.token().text == "over":
                return self.said(count)
            return Count(*self.take(count), number)
        if self.kind(1) == "stitch_noun":
            return self.said(2)
        return self.said(1)

    def have(self) -> Phrase:
        """`you should have 56`, `that's 80`."""
        ahead = self.skip(1)
        while self.kind(ahead) in ("remain", "total", "have") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        if (
            self.kind(ahead) == "number"
            and not self.flags(ahead) & (STOP | LINE)
            and self.kind(ahead + 1) not in NOT_STITCHES
            and not (
                self.kind(ahead + 1) == "word"
                and self.joined(ahead + 1)
                and not self.flags(ahead + 1) & COMMA
            )
        ):
            number = cast("Number", self.token(ahead).number)
            flags = self.token().flags
            start = self.token().start
            self.place += ahead
            phrase = self.one()
            if isinstance(phrase, Count):
                return Count(start, phrase.end, flags, number, phrase.sign)
            return phrase
        return self.said(1)

    def ranged(self) -> Phrase:
        """`2-3 times`, `6-8 ins`, `3-4 rounds`."""
        if self.kind(1) in ("unit", "in"):
            return self.length(2)
        if self.kind(1) == "round":
            token = self.token()
            named = tuple(
                range(int(token.means), min((token.number or ONE).of(0) or 0, int(token.means) + 400) + 1)
            )
            return Again(*self.take(2), named)
        return self.said(1)
