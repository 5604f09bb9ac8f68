"""Stitches: `k4`, `knit 2 together`, `dec 8 sts evenly`."""

import re
from typing import Final, cast

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.parsing.looking import BREAK, NAMES, OFTEN, TOGETHER
from roundwright.wording.reading.parsing.markers import MarkerReader
from roundwright.wording.reading.phrases import Again, Brackets, Change, Count, PassOver, Phrase, Stitches
from roundwright.wording.reading.scanner import COMMA, DASH, SEMI, STOP
from roundwright.wording.reading.tree import ONE, Evenly, Number, Stitch, Unknown, named

_TWISTED: Final[dict[StitchName, StitchName]] = {"k2tog": "ssk", "p2tog": "ssp"}


class StitchReader(MarkerReader):
    """Reads stitches."""

    def craft(self) -> Phrase:
        """`k`, `k4`, `knit 4 sts`, `k 2 tog`, `knit every 7th and 8th st together`."""
        craft = self.kind()
        if craft in ("right", "left"):
            return self.only_words(1)
        ahead = self.skip(1)
        if self.kind(ahead) in ("next", "following") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        glue = self.flags(ahead)
        if self.kind(ahead) == "last" and self.kind(ahead + 1) == "number":
            ahead += 1
        if (
            self.kind(ahead) == "number"
            and not glue & (BREAK | DASH)
            and (not glue & COMMA or self.kind(ahead + 1) not in ("stitch_noun", "remain"))
        ):
            return self.craft_number(craft, ahead)
        if self.kind(ahead) == "these" and (these := self.these(craft, ahead)):
            return these
        if self.kind(ahead) == "each" and (position := self.position(craft, ahead)):
            return position
        if self.kind(ahead) in ("each", "all", "number", "often") and (pairs := self.pairs(craft, ahead)):
            return pairs
        if self.kind(ahead) == "ratio" and self.joined(ahead):  # k1x8
            return self.bare(craft)
        if self.kind(ahead) == "stitch_noun" and self.joined(ahead) and ahead > 1:
            return Stitches(
                *self.take(ahead + 1), Stitch(NAMES[craft], ONE, self.at(-ahead - 1), self.at_end())
            )
        return self.bare(craft)

    def these(self, craft: str, ahead: int) -> Phrase | None:
        """`knit those two together`, `knit that one`."""
        if self.kind(ahead + 1) != "number" or not self.joined(ahead + 1):
            return None
        if self.kind(self.skip_nouns(ahead + 2)) == "together":
            return self.craft_number(craft, ahead + 1)
        if not self.flags(ahead + 2) & (STOP | COMMA | SEMI):
            return None
        number = self.token(ahead + 1).number or ONE
        start, end, flags = self.take(ahead + 2)
        return Stitches(start, end, flags, Stitch(NAMES[craft], number, start, end))

    def skip_nouns(self, ahead: int) -> int:
        """Behind the word `stitches`, where that stands there."""
        return ahead + 1 if self.kind(ahead) == "stitch_noun" and self.joined(ahead) else ahead

    def bare(self, craft: str) -> Phrase:
        """`knit`, without a number."""
        start, end, flags = self.take(1)
        if self.kind() == "tbl" and self.joined(0):
            _, end, _ = self.take(1)
        return Stitches(start, end, flags, Stitch(NAMES[craft], ONE, start, end, bare=True))

    def craft_number(self, craft: str, ahead: int) -> Phrase:
        """`k4`, `knit 2 together`."""
        number = cast("Number", self.token(ahead).number)
        behind = ahead + 1
        if self.kind(behind) == "tbl" and self.joined(behind):
            behind += 1
        if self.counts_other(behind):
            return self.bare(craft)
        noun = behind
        while (
            self.kind(noun) in ("stitch_noun", "next", "")
            and self.joined(noun)
            and noun < behind + 3
            and self.place + noun < self.stop
        ):
            noun += 1
        if self.kind(noun) == "together" and not self.flags(noun) & BREAK:
            return self.craft_together(craft, number, noun)
        if name := self.craft_pairs(craft, number, behind):
            start, end, flags = self.take(behind + 3)
            return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        stop = behind
        if self.kind(stop) == "stitch_noun" and self.joined(stop) and not self.flags(stop) & COMMA:
            stop += 1
        elif self.kind(stop) == "next" and self.kind(stop + 1) == "stitch_noun":
            stop += 2
        start, end, flags = self.take(stop)
        return Stitches(start, end, flags, Stitch(NAMES[craft], number, start, end))

    def counts_other(self, behind: int) -> bool:
        """Whether a number counts rounds, a length or times, and not the stitches: `knit 2 more rnds`."""
        noun = behind + 1 if self.kind(behind) in ("more", "next") else behind
        if self.kind(noun) == "round" and self.joined(noun):
            return True
        if self.kind(noun) == "unit" and self.is_unit(noun):
            return True
        return self.kind(behind) == "times" and self.token(behind).text != "x" and self.joined(behind)

    def craft_together(self, craft: str, number: Number, together: int) -> Phrase:
        """`k 2 tog`, `purl 2 together tbl`."""
        stitches = number.of(0) or 0
        name = TOGETHER.get((craft, stitches))
        stop = together + 1
        if self.kind(stop) == "tbl" and self.joined(stop):
            stop += 1
            name = _TWISTED.get(name, name) if name else None
        start, end, flags = self.take(stop)
        if name:
            return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        if craft == "slip":
            return Stitches(start, end, flags, Stitch("sl", number, start, end))
        return Stitches(start, end, flags, Unknown(f"{craft} {stitches} tog", start, end))

    def craft_pairs(self, craft: str, number: Number, behind: int) -> StitchName | None:
        """The decrease of `knit 2 and 2 together`; None where it is none."""
        if (
            self.kind(behind) != "and"
            or self.kind(behind + 1) != "number"
            or self.kind(behind + 2) != "together"
            or number.values != cast("Number", self.token(behind + 1).number).values
        ):
            return None
        return TOGETHER.get((craft, number.of(0) or 0))

    def pairs(self, craft: str, ahead: int) -> Phrase | None:
        """`knit all sts 2 and 2 together`, `knit every 2 sts together`: two together all around."""
        begun = ahead
        if self.kind(ahead) in ("each", "all"):
            ahead = self.skip(ahead + 1)
            if self.kind(ahead) == "stitch_noun":
                ahead = self.skip(ahead + 1)
        if self.kind(ahead) == "number" and ahead > begun:
            stitches = (self.token(ahead).number or ONE).of(0) or 0
            while self.kind(ahead) in ("number", "and", "stitch_noun") and self.joined(ahead):
                ahead += 1
            if self.kind(ahead) == "together" and (name := TOGETHER.get((craft, stitches))):
                start, end, flags = self.take(ahead + 1)
                return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        return None

    def position(self, craft: str, ahead: int) -> Phrase | None:
        """`knit every 7th and 8th stitch together`: 6 plain, 2 together."""
        if (
            self.kind(ahead + 1) == "ordinal"
            and self.kind(ahead + 2) == "and"
            and self.kind(ahead + 3) == "ordinal"
        ):
            stop = ahead + 4
            if self.kind(stop) == "stitch_noun":
                stop += 1
            first = cast("Number", self.token(ahead + 1).number).of(0) or 0
            second = cast("Number", self.token(ahead + 3).number).of(0) or 0
            if (
                self.kind(stop) == "together"
                and second == first + 1
                and first > 1
                and craft in ("knit", "purl")
            ):
                start, end, flags = self.take(stop + 1)
                plain = Stitch(NAMES[craft], Number((first - 1,)), start, end)
                return Brackets(
                    start,
                    end,
                    flags,
                    (
                        Stitches(start, end, 0, plain),
                        Stitches(start, end, 0, Stitch(TOGETHER[craft, 2], ONE, start, end)),
                    ),
                )
        return None

    def stitch(self) -> Phrase:
        """`k2tog`, `ssk`."""
        name = self.token().means
        loose = name == "kfb" and self.token().text.startswith("inc")
        start, end, flags = self.take(1)
        if self.kind() == "tbl" and self.joined(0):
            _, end, _ = self.take(1)
        return Stitches(start, end, flags, Stitch(name, ONE, start, end, loose=loose))

    def cable(self) -> Phrase:
        """`C4F`, which works four."""
        text = self.token().means or self.token().text
        numbers = [int(digits) for digits in re.findall("[0-9]+", text)]
        start, end, flags = self.take(1)
        return Stitches(start, end, flags, Stitch("k", Number((sum(numbers),)), start, end))

    def edge(self) -> Phrase:
        """`edge st`."""
        start, end, flags = self.take(1)
        return Stitches(start, end, flags, Stitch("k", ONE, start, end))

    def make(self) -> Phrase:
        """`m1`, `make 1`; `make 8 rounds`."""
        if self.kind(1) == "number" and self.kind(2) not in ("round", "unit") and self.joined(1):
            number = cast("Number", self.token(1).number)
            side = (
                self.token(2).text
                if self.kind(2) and self.flags(2) & DASH and not self.flags(2) & 256
                else ""
            )
            side = self.token(2).text if self.kind(2) == "word" and self.token(2).text in ("l", "r") else side
            name = {"l": "m1l", "r": "m1r", "p": "m1p"}.get(side, "m1")
            count = 3 if name != "m1" else 2
            if name == "m1" and number.of(0) != 1 and self.kind(2) in ("word", "decrease") and self.joined(2):
                return self.only_words(2)  # `make 8 neat ribs`
            if count == 2 and self.kind(2) == "stitch_noun":
                count = 3
            start, end, flags = self.take(count)
            if number.of(0) == 1:
                return Stitches(start, end, flags, Stitch(name, ONE, start, end))
            return Stitches(start, end, flags, Stitch("m1", number, start, end))
        if self.token().text == "m":
            return self.marker()
        return self.only_words(1)

    def pass_over(self) -> Phrase:
        """`psso`."""
        return PassOver(*self.take(1))

    def decrease(self) -> Phrase:
        """`dec 8 sts evenly`, `dec to 64 sts`, `dec 1`, `decreasing`."""
        sign = 1 if self.kind() == "increase" else -1
        ahead = self.skip(1)
        if sign > 0 and self.kind(ahead) == "in" and self.kind(self.skip(ahead + 1)) in ("next", "following"):
            noun = self.skip(self.skip(ahead + 1) + 1)
            if self.kind(noun) == "stitch_noun":
                start, end, flags = self.take(noun + 1)
                return Stitches(start, end, flags, Stitch("kfb", ONE, start, end, loose=True))
        before = self.tokens[self.place - 1].text if self.place else ""
        if before in ("you", "have", "has") and self.kind(1) == "number" and self.kind(2) == "stitch_noun":
            number = self.token(1).number or ONE
            return Count(*self.take(3), number, sign)
        if self.kind(1) == "round" and (
            self.kind(2) in ("number", "often", "until", "only") or self.after_then()
        ):
            kind = self.kind()
            return Again(*self.take(2), (named(kind),), last=1, work=True)
        while self.kind(ahead) == "evenly" and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        to = self.kind(ahead) == "to" and self.kind(self.skip(ahead + 1)) == "number"
        if to:
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) in ("number", "often") and self.joined(ahead):
            return self.changed(sign, ahead, to=to)
        return Change(*self.take(1), sign)

    def changed(self, sign: int, ahead: int, *, to: bool) -> Phrase:
        """So many stitches decreased or increased, or `to` so many."""
        often = self.kind(ahead) == "often"
        number = (
            Number((OFTEN[self.token(ahead).text],)) if often else cast("Number", self.token(ahead).number)
        )
        stop = ahead + 1
        if self.kind(stop) in ("round", "times") and not often:
            return Change(*self.take(1), sign)
        if self.kind(stop) == "stitch_noun":
            stop += 1
        evenly = self.kind(1) == "evenly"
        while (
            self.kind(stop) in ("evenly", "around", "")
            and self.place + stop < self.stop
            and self.joined(stop)
        ):
            evenly = evenly or self.kind(stop) == "evenly"
            stop += 1
        start, end, flags = self.take(stop)
        if number.values == (1,) and not (to or evenly or often):
            name: StitchName = "kfb" if sign > 0 else "k2tog"
            return Stitches(start, end, flags, Stitch(name, ONE, start, end, loose=True))
        return Stitches(start, end, flags, Evenly(number, sign, start, end, to=to))

    def after_then(self) -> bool:
        """Whether `then` or `then the` stands before."""
        return any(self.tokens[back].kind == "then" for back in range(max(0, self.place - 2), self.place))
