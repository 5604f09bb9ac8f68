"""The phrases of a line: the smallest runs of words that mean something by themselves.

`k2`, `[...]`, `4 times`, `rep from *`, `to last 2 sts`, `56 sts rem`, `for 5 ins`. What a phrase says about those before
it is settled in `settle`. Every word belongs to a phrase; one that says nothing is a `Said`.
"""

import re
from collections.abc import Mapping
from typing import Final, cast

from msgspec import Struct
from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.scanner import COLON, COMMA, DASH, EQUALS, LINE, SEMI, STOP, TAB, Token
from roundwright.wording.reading.tree import (
    NAMED_KINDS,
    NOTHING,
    ONE,
    Evenly,
    Mark,
    Node,
    Number,
    Stitch,
    Unknown,
    named,
)

MOST_NESTED: Final = 12
"""Brackets within brackets."""


class Phrase(Struct, frozen=True, gc=False):
    """What all phrases have: where they stand, and what stands before them."""

    start: int
    end: int
    flags: int


class Stitches(Phrase, frozen=True, gc=False):
    """Something that is worked on some stitches: `k2`, `k2tog`, `dec 8 sts evenly`."""

    node: Node


class Brackets(Phrase, frozen=True, gc=False):
    """`[...]`, `(...)`."""

    inside: "tuple[Phrase, ...]"


class Star(Phrase, frozen=True, gc=False):
    """`*`, `**`."""

    level: int


class PassOver(Phrase, frozen=True, gc=False):
    """`psso`."""


class Rep(Phrase, frozen=True, gc=False):
    """`rep from *`, `rep from * to **`, `rep`: `level` stars, up to `to` stars; 0 where it names none."""

    level: int = 0
    to: int = 0
    copy: bool = False


class Times(Phrase, frozen=True, gc=False):
    """`4 times`, `twice more`, `x 4`."""

    number: Number
    more: bool = False
    total: bool = False
    word: bool = False


class Partly(Phrase, frozen=True, gc=False):
    """`and its first 3 sts again`."""

    number: Number


class Extent(Phrase, frozen=True, gc=False):
    """`around`, `to last 2 sts`, with `marker` `to 2 sts before m`; `if_odd` of `to last st (if odd), k1`."""

    leave: Number | None
    marker: bool = False
    each: bool = False


class Until(Phrase, frozen=True, gc=False):
    """`until 8 sts remain`, `to 72 sts`."""

    number: Number


class Length(Phrase, frozen=True, gc=False):
    """`for 5 ins`, `until piece measures 12 cm`."""


class Rounds(Phrase, frozen=True, gc=False):
    """`5 rnds`, `a round`; with `every` `every rnd`; `step` of `every other rnd`."""

    number: Number
    every: bool = False
    step: int = 0
    more: bool = False


class Fabric(Phrase, frozen=True, gc=False):
    """`rib`, `st st`, `in pattern`, `even`; `nodes` are the stitches it names: `2x2 rib`."""

    kind: str
    nodes: tuple[Node, ...] = ()


class Again(Phrase, frozen=True, gc=False):
    """`rep rnds 1 and 2`, `as rnd 3`, `the last 2 rnds`: those `named`, or the `last` ones."""

    named: tuple[int, ...] = ()
    last: int = 0
    work: bool = False


class Count(Phrase, frozen=True, gc=False):
    """`56 sts`, `(56)`, `= 56`, `6 sts decreased`; `sure` where nothing else can be meant."""

    number: Number
    sign: int = 0
    sure: bool = True


class Change(Phrase, frozen=True, gc=False):
    """`decreasing`, without saying how many."""

    sign: int


class Continue(Phrase, frozen=True, gc=False):
    """`continue`, `in this manner`; `manner` of the second."""

    manner: bool = False


class CastOn(Phrase, frozen=True, gc=False):
    """`cast on 64 (72, 80) sts`."""

    number: Number


class Closing(Phrase, frozen=True, gc=False):
    """`cut yarn`, `bind off`; what follows it in the sentence is told."""

    bind_off: bool = False


class Chart(Phrase, frozen=True, gc=False):
    """`chart`."""


class Then(Phrase, frozen=True, gc=False):
    """`then`."""


class Markers(Phrase, frozen=True, gc=False):
    """`8 markers`."""

    number: Number


class PerPart(Phrase, frozen=True, gc=False):
    """`14 sts per needle`, `20 sts on each`."""

    number: Number


class Needlewise(Phrase, frozen=True, gc=False):
    """`on each needle`, `on each of 4 needles`."""

    number: Number | None = None


class EndsPlain(Phrase, frozen=True, gc=False):
    """`ending with a plain round`."""


class BeginAt(Phrase, frozen=True, gc=False):
    """`begin at rnd 5 (3, 1)`."""

    number: Number


class Odd(Phrase, frozen=True, gc=False):
    """`if odd`."""


class Said(Phrase, frozen=True, gc=False):
    """What changes nothing: `words` of it are unknown."""

    words: int = 0


_NAMES: Final[dict[str, StitchName]] = {"knit": "k", "purl": "p", "slip": "sl", "right": "k", "left": "p"}
_TOGETHER: Final[dict[tuple[str, int], StitchName]] = {
    ("knit", 2): "k2tog", ("knit", 3): "k3tog", ("purl", 2): "p2tog", ("purl", 3): "p3tog",
}  # fmt: skip
_OFTEN: Final = {"once": 1, "twice": 2, "thrice": 3}
_CRAFTS: Final = frozenset(("knit", "purl", "slip"))
_NOT_STITCHES: Final = frozenset(
    ("round", "times", "unit", "more", "together", "knit", "purl", "gear", "needle", "right", "marker")
)
"""What a number counts where it does not count the stitches that are left."""
_UNITS: Final = frozenset(("unit",))
_BREAK: Final = STOP | SEMI | LINE | EQUALS | COLON | TAB


class Lines(Struct):
    """A reader of phrases over the tokens of a text, from `place`."""

    tokens: list[Token]
    place: int
    stop: int
    depth: int = 0
    troubles: list[tuple[str, str, int]] = []
    names: Mapping[str, int] = {}

    # --- looking ahead

    def kind(self, ahead: int = 0) -> str:
        place = self.place + ahead
        return self.tokens[place].kind if place < self.stop else ""

    def token(self, ahead: int = 0) -> Token:
        return self.tokens[min(self.place + ahead, len(self.tokens) - 1)]

    def skip(self, ahead: int) -> int:
        """The next word from here that says something."""
        while self.kind(ahead) == "" and self.place + ahead < self.stop:
            ahead += 1
        return ahead

    def flags(self, ahead: int) -> int:
        return self.token(ahead).flags if self.place + ahead < self.stop else STOP

    def joined(self, ahead: int) -> bool:
        """Whether nothing but space or a comma stands before that word."""
        return not self.flags(ahead) & _BREAK

    def all(self) -> list[Phrase]:
        """All phrases to the end."""
        phrases: list[Phrase] = []
        while self.place < self.stop:
            phrases.append(self.one())
        return phrases

    def one(self) -> Phrase:
        """The phrase that begins here."""
        kind = self.tokens[self.place].kind
        reading = _READ.get(kind)
        if reading is not None:
            return reading(self)
        return self.said(1)

    def take(self, count: int) -> tuple[int, int, int]:
        """Start, end and flags of so many tokens, which are taken."""
        first, last = self.tokens[self.place], self.tokens[self.place + count - 1]
        self.place += count
        return first.start, last.end, first.flags

    def said(self, count: int) -> Phrase:
        words = sum(1 for ahead in range(count) if self.kind(ahead) == "word")
        return Said(*self.take(count), words)

    # --- stitches

    def craft(self) -> Phrase:
        """`k`, `k4`, `knit 4 sts`, `k 2 tog`, `knit every 7th and 8th st together`."""
        craft = self.kind()
        if craft in ("right", "left"):
            return self.said(1)
        ahead = self.skip(1)
        if self.kind(ahead) in ("next", "following") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        glue = self.flags(ahead)
        if self.kind(ahead) == "last" and self.kind(ahead + 1) == "number":
            ahead += 1
        if (
            self.kind(ahead) == "number"
            and not glue & (_BREAK | DASH)
            and (not glue & COMMA or self.kind(ahead + 1) not in ("stitch_noun", "remain"))
        ):
            return self.craft_number(craft, ahead)
        if self.kind(ahead) == "these" and self.kind(ahead + 1) == "number" and self.joined(ahead + 1):
            if self.place + ahead + 2 >= self.stop or self.flags(ahead + 2) & (STOP | COMMA | SEMI):
                number = self.token(ahead + 1).number or ONE
                start, end, flags = self.take(ahead + 2)
                return Stitches(start, end, flags, Stitch(_NAMES[craft], number, start, end))
        if self.kind(ahead) == "each" and (position := self.position(craft, ahead)):
            return position
        if self.kind(ahead) in ("each", "all", "number", "often") and (pairs := self.pairs(craft, ahead)):
            return pairs
        if self.kind(ahead) == "ratio" and self.joined(ahead):  # k1x8
            return self.bare(craft)
        if self.kind(ahead) == "stitch_noun" and self.joined(ahead) and ahead > 1:
            return Stitches(
                *self.take(ahead + 1), Stitch(_NAMES[craft], ONE, self.at(-ahead - 1), self.at_end())
            )
        return self.bare(craft)

    def at(self, behind: int) -> int:
        return self.tokens[self.place + behind].start

    def at_end(self) -> int:
        return self.tokens[self.place - 1].end

    def bare(self, craft: str) -> Phrase:
        start, end, flags = self.take(1)
        if self.kind() == "tbl" and self.joined(0):
            _, end, _ = self.take(1)
        return Stitches(start, end, flags, Stitch(_NAMES[craft], ONE, start, end, bare=True))

    def craft_number(self, craft: str, ahead: int) -> Phrase:
        number = cast("Number", self.token(ahead).number)
        behind = ahead + 1
        if self.kind(behind) == "tbl" and self.joined(behind):
            behind += 1
        noun = behind
        if self.kind(noun) in ("more", "next"):
            noun += 1
        if (self.kind(noun) in ("round",) and self.joined(noun)) or (
            self.kind(noun) == "unit" and self.is_unit(noun)
        ):
            return self.bare(craft)
        if self.kind(behind) in ("times",) and self.token(behind).text != "x" and self.joined(behind):
            return self.bare(craft)
        noun = behind
        while (
            self.kind(noun) in ("stitch_noun", "next", "")
            and self.joined(noun)
            and noun < behind + 3
            and self.place + noun < self.stop
        ):
            noun += 1
        if self.kind(noun) == "together" and not self.flags(noun) & _BREAK:
            many = number.of(0) or 0
            name = _TOGETHER.get((craft, many))
            stop = noun + 1
            if self.kind(stop) == "tbl" and self.joined(stop):
                stop += 1
                name = {"k2tog": "ssk", "p2tog": "ssp"}.get(name or "", name)  # type: ignore[assignment]
            start, end, flags = self.take(stop)
            if name:
                return Stitches(start, end, flags, Stitch(name, ONE, start, end))
            if craft == "slip":
                return Stitches(start, end, flags, Stitch("sl", number, start, end))
            return Stitches(start, end, flags, Unknown(f"{craft} {many} tog", start, end))
        if (
            self.kind(behind) == "and"
            and self.kind(behind + 1) == "number"
            and self.kind(behind + 2) == "together"
            and number.values == cast("Number", self.token(behind + 1).number).values
        ):
            name = _TOGETHER.get((craft, number.of(0) or 0))
            if name:
                start, end, flags = self.take(behind + 3)
                return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        stop = behind
        if self.kind(stop) == "stitch_noun" and self.joined(stop) and not self.flags(stop) & COMMA:
            stop += 1
        elif self.kind(stop) == "next" and self.kind(stop + 1) == "stitch_noun":
            stop += 2
        start, end, flags = self.take(stop)
        return Stitches(start, end, flags, Stitch(_NAMES[craft], number, start, end))

    def pairs(self, craft: str, ahead: int) -> Phrase | None:
        """`knit all sts 2 and 2 together`, `knit every 2 sts together`: two together all around."""
        begun = ahead
        if self.kind(ahead) in ("each", "all"):
            ahead = self.skip(ahead + 1)
            if self.kind(ahead) == "stitch_noun":
                ahead = self.skip(ahead + 1)
        if self.kind(ahead) == "number" and ahead > begun:
            many = (self.token(ahead).number or ONE).of(0) or 0
            while self.kind(ahead) in ("number", "and", "stitch_noun") and self.joined(ahead):
                ahead += 1
            if self.kind(ahead) == "together" and (name := _TOGETHER.get((craft, many))):
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
                plain = Stitch(_NAMES[craft], Number((first - 1,)), start, end)
                return Brackets(
                    start, end, flags,
                    (Stitches(start, end, 0, plain), Stitches(start, end, 0, Stitch(_TOGETHER[craft, 2], ONE, start, end))),
                )  # fmt: skip
        return None

    def stitch(self) -> Phrase:
        name = cast("StitchName", self.token().means)
        loose = name == "kfb" and self.token().text.startswith("inc")
        start, end, flags = self.take(1)
        if self.kind() == "tbl" and self.joined(0):
            _, end, _ = self.take(1)
        return Stitches(start, end, flags, Stitch(name, ONE, start, end, loose=loose))

    def cable(self) -> Phrase:
        text = self.token().means or self.token().text
        numbers = [int(one) for one in re.findall("[0-9]+", text)]
        start, end, flags = self.take(1)
        return Stitches(start, end, flags, Stitch("k", Number((sum(numbers),)), start, end))

    def edge(self) -> Phrase:
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
            if count == 2 and self.kind(2) == "stitch_noun":
                count = 3
            start, end, flags = self.take(count)
            if number.of(0) == 1:
                return Stitches(start, end, flags, Stitch(cast("StitchName", name), ONE, start, end))
            return Stitches(start, end, flags, Stitch("m1", number, start, end))
        if self.token().text == "m":
            return self.marker()
        return self.said(1)

    def pass_over(self) -> Phrase:
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
        while self.kind(ahead) in ("evenly",) and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        to = False
        if self.kind(ahead) == "to" and self.kind(self.skip(ahead + 1)) == "number":
            to, ahead = True, self.skip(ahead + 1)
        often = self.kind(ahead) == "often" and self.joined(ahead)
        if (self.kind(ahead) == "number" or often) and self.joined(ahead):
            number = (
                Number((_OFTEN[self.token(ahead).text],))
                if often
                else cast("Number", self.token(ahead).number)
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
            if to:
                return Stitches(start, end, flags, Evenly(number, sign, start, end, to=True))
            loose = not evenly and number.values == (1,) and not often
            if loose:
                return Stitches(
                    start, end, flags, Stitch("kfb" if sign > 0 else "k2tog", ONE, start, end, loose=True)
                )
            return Stitches(start, end, flags, Evenly(number, sign, start, end))
        return Change(*self.take(1), sign)

    def after_then(self) -> bool:
        """Whether `then` or `then the` stands before."""
        return any(self.tokens[back].kind == "then" for back in range(max(0, self.place - 2), self.place))

    # --- numbers

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
            if first := self.number_first(number):
                return first
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
        elif kind in ("stitch_noun",):
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
            if kind == "fewer" or kind == "more":
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
        before = self.tokens[self.place - 1].kind if self.place else ""
        if before in ("gear", "size", "needle"):
            return self.said(1)
        return Count(*self.take(1), number, sure=False)

    def listed(self) -> Phrase:
        """`42, 45, 48 sts`: a count for each size, without brackets."""
        ahead = 1
        values = list(cast("Number", self.token().number).values)
        while (
            self.kind(ahead) == "number"
            and self.flags(ahead) & COMMA
            and not self.flags(ahead) & _BREAK
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
            name = cast("StitchName", self.token(1).means)
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
        if kind == "right" and self.kind(2) in ("side",):
            return None
        start, end, flags = self.take(2)
        if self.kind() == "stitch_noun" and self.joined(0) and not self.token().flags & COMMA:
            _, end, _ = self.take(1)
        return Stitches(start, end, flags, Stitch(_NAMES[kind], number, start, end))

    def together(self, number: Number, count: int) -> Phrase:
        """`2 tog`, `two together`."""
        if self.kind(count) == "tbl" and self.joined(count):
            count += 1
        start, end, flags = self.take(count)
        name = _TOGETHER.get(("knit", number.of(0) or 0))
        if name:
            return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        return Stitches(start, end, flags, Unknown(f"{number.of(0)} tog", start, end))

    def rounds(self, number: Number) -> Phrase:
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
        if kind == "repeat" or (kind == "word" and self.token(ahead).text in ("apart",)):
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
        count, more, total = 1, False, False
        number = Number((_OFTEN[self.token().text],), self.token().start, self.token().end)
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
            and self.kind(ahead + 1) not in _NOT_STITCHES
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
        if self.kind(1) in ("unit", "in", "measure"):
            return self.length(2)
        if self.kind(1) == "word" or self.kind(1) == "gear":
            return Said(*self.take(2))
        return Said(*self.take(1))

    def length(self, count: int) -> Phrase:
        """`5 ins`, and how it is measured."""
        start, end, flags = self.take(count)
        while self.place < self.stop and not self.flags(0) & (STOP | COMMA | SEMI | LINE):
            if self.kind() == "(":
                if not self.length_in_brackets():
                    break
            elif (
                (
                    self.kind() in ("number", "decimal", "range")
                    and self.tokens[self.place - 1].kind in ("measure", "", "for")
                    and self.kind(1) in ("unit", "in", "(", "decimal")
                )
                or self.kind() in ("unit", "measure")
                or (
                    self.kind() == "in"
                    and self.tokens[self.place - 1].kind in ("number", "decimal", ")")
                    and self.is_unit(0)
                )
                or (self.kind() == "" and self.kind(1) in ("number", "decimal", "range"))
            ):
                self.place += 1
            else:
                break
            end = self.at_end()
        measured = self.kind() in ("measure", "from", "more")
        while (
            measured and self.place < self.stop and not self.flags(0) & (_BREAK | COMMA)
            and self.kind() in ("measure", "from", "cast_on", "begin", "word", "", "end", "in", "round", "last", "more", "all", "rib", "edge")
        ):  # fmt: skip
            self.place += 1
            end = self.at_end()
        return Length(start, end, flags)

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

    # --- how far

    def to(self) -> Phrase:
        """`to end`, `to last 2 sts`, `to 2 sts before m`, `until 8 sts rem`, `until it measures 5 ins`."""
        until = self.kind() == "until"
        ahead = 1 if self.letter(1) else self.skip(1)
        kind = self.kind(ahead)
        if kind == "until":
            until, ahead = True, self.skip(ahead + 1)
            kind = self.kind(ahead)
        if kind == "end":
            count = ahead + 1
            while (
                self.kind(count) in ("", "round", "needle")
                and self.joined(count)
                and self.place + count < self.stop
                and not self.flags(count) & COMMA
            ):
                count += 1
            while self.kind(count - 1) == "" and count > ahead + 1:
                count -= 1
            return Extent(*self.take(count), NOTHING)
        if kind in ("marker", "make", "place", "slipmarker") and self.token(ahead).text != "make":
            return Extent(*self.take(ahead + 1), None, marker=True)
        if kind == "last":
            return self.to_last(ahead)
        if self.letter(ahead) and (
            self.place + ahead + 1 >= self.stop or self.flags(ahead + 1) & (STOP | COMMA | SEMI)
        ):
            return Extent(*self.take(ahead + 1), None, marker=True)
        if kind == "next" and self.kind(ahead + 1) in ("marker", "make"):
            return Extent(*self.take(ahead + 2), None, marker=True)
        if kind == "stars":
            return self.said(ahead + 1)
        if kind in ("number", "list"):
            if phrase := self.to_number(ahead, until=until):
                return phrase
        return self.far(ahead, until=until)

    def to_last(self, ahead: int) -> Phrase:
        """`to last 2 sts`, `to last 2 sts before marker`."""
        number = ONE
        count = ahead + 1
        if self.kind(count) == "number":
            number = cast("Number", self.token(count).number)
            count += 1
        if self.kind(count) in ("stitch_noun", "edge"):
            count += 1
        marker = False
        if self.kind(count) == "before" and self.kind(self.skip(count + 1)) in (
            "marker",
            "make",
            "end",
            "place",
        ):
            count = self.skip(count + 1)
            marker = self.kind(count) != "end"
            count += 1
        elif self.kind(count) in ("each", "in", "per") and self.kind(count + 1) in ("needle", "word"):
            count, marker = count + 2, True
        return Extent(*self.take(count), number, marker)

    def to_number(self, ahead: int, *, until: bool) -> Phrase | None:
        number = cast("Number", self.token(ahead).number)
        count = ahead + 1
        while (
            self.kind(count) in ("stitch_noun", "edge", "")
            and self.joined(count)
            and self.place + count < self.stop
        ):
            count += 1
        kind = self.kind(count)
        if kind in ("before", "from"):
            at = self.skip(count + 1)
            each = self.kind(at) == "each"
            while self.kind(at) in ("each", "next"):
                at = self.skip(at + 1)
            if self.kind(at) in ("marker", "make", "end", "place"):
                marker = self.kind(at) != "end"
                return Extent(*self.take(at + 1), number, marker, each)
        if kind in ("unit", "in", "decimal"):
            return self.length(count + 1)
        if kind in ("round", "times"):
            return None
        if kind in ("remain", "left"):
            return Until(*self.take(count + 1), number)
        if self.kind(ahead + 1) == "stitch_noun" or until:
            return Until(*self.take(count), number)
        return None

    def far(self, ahead: int, *, until: bool) -> Phrase:
        """To a length, or to a count, said in more words."""
        limit = min(self.place + 24, self.stop)
        place = self.place + ahead
        while place < limit:
            token = self.tokens[place]
            if token.flags & (STOP | SEMI) and not token.flags & COLON and place > self.place:
                break
            if token.kind in ("unit", "measure") or (
                token.kind == "in" and self.tokens[place - 1].kind in ("number", "decimal")
            ):
                return self.length(place - self.place + 1)
            if token.kind == "decimal":
                return self.length(place - self.place + 1)
            if until and token.kind == "number":
                after = self.tokens[place + 1].kind if place + 1 < self.stop else ""
                if after in ("stitch_noun", "remain", "left"):
                    stop = place + 1
                    while (
                        stop < self.stop
                        and self.tokens[stop].kind in ("stitch_noun", "remain", "left", "")
                        and not self.tokens[stop].flags & _BREAK
                    ):
                        stop += 1
                    return Until(*self.take(stop - self.place), token.number or ONE)
            if until and token.kind in ("marker", "end"):
                return Extent(
                    *self.take(place - self.place + 1),
                    NOTHING if token.kind == "end" else None,
                    marker=token.kind != "end",
                )
            if token.kind in ("stars", "(", "stitch", "cast_on"):
                break
            place += 1
        if until:
            return Length(*self.take(max(1, min(place, self.stop) - self.place)))
        return self.said(1)

    def around(self) -> Phrase:
        return Extent(*self.take(1), NOTHING)

    def all_of(self) -> Phrase:
        """`all sts`, `the whole round`, `every round`, `every other rnd`, `each part`."""
        if self.kind() == "each" and self.kind(1) == "ordinal" and (position := self.position("knit", 0)):
            return position
        each = self.kind() in ("each", "per")
        ahead = self.skip(1)
        step = 1
        if self.kind(ahead) in ("following",):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) in ("alternate",):
            step, ahead = 2, self.skip(ahead + 1)
        elif self.kind(ahead) in ("ordinal", "number") and each:
            step = cast("Number", self.token(ahead).number).of(0) or 1
            ahead = self.skip(ahead + 1)
        elif self.kind(ahead) in ("side",) or self.kind(ahead) in ("even", "odd"):
            step, ahead = 2, self.skip(ahead + 1)
        if self.kind(ahead) == "side":
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) == "round" and self.joined(ahead):
            plural = self.token(ahead).text.endswith("s")
            if each or plural:
                return Rounds(*self.take(ahead + 1), ONE, every=True, step=step)
            return Extent(*self.take(ahead + 1), NOTHING)
        if self.kind(ahead) == "stitch_noun":
            if step > 1:
                return self.said(ahead + 1)
            return Extent(*self.take(ahead + 1), NOTHING)
        if self.kind(ahead) == "around":
            return Extent(*self.take(ahead + 1), NOTHING)
        if self.kind(ahead) in ("marker", "needle"):
            return self.said(ahead + 1)
        if (
            not each
            and self.kind() == "all"
            and self.token().text == "all"
            and (
                self.place + 1 >= self.stop
                or self.flags(1) & (STOP | COMMA | SEMI)
                or self.kind(1) in ("knit", "purl", "right", "left")
            )
        ):
            return Extent(*self.take(1), NOTHING)
        return self.said(1)

    def alternate(self) -> Phrase:
        """`alt rows`, `other rnd`: every second one; `alternate these 2 rnds`."""
        if self.kind(1) in ("these", "round") or (self.letter(1) and self.kind(2) == "and"):
            again = (
                self.again_from(1)
                if self.kind(1) != "round" or self.letter(2) or self.kind(2) == "number"
                else None
            )
            if isinstance(again, Again):
                return replace(again, work=True)
        if self.kind(1) == "round":
            return Rounds(*self.take(2), ONE, every=True, step=2)
        return self.said(1)

    def ordinal(self) -> Phrase:
        if self.kind(1) == "round" and self.kind(2) == "more" and self.joined(2):
            named = self.named(0)
            if isinstance(named, Again):
                return replace(named, work=True)
        if self.kind(1) == "round":
            return self.said(2)
        return self.said(1)

    # --- from where

    def star(self) -> Phrase:
        level = self.token().text.count("*")
        return Star(*self.take(1), level)

    def repeat(self) -> Phrase:
        """`rep from *`, `rep rnds 1 and 2`, `rep last 2 rnds`, `rep`."""
        ahead = self.skip(1)
        if again := self.again_from(ahead):
            return again
        copy = False
        while (
            self.kind(ahead) in ("from", "between", "these", "pattern", "and", "in", "round", "work")
            and self.place + ahead < self.stop
            and self.joined(ahead)
        ):
            copy = copy or self.kind(ahead) == "between"
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) == "stars":
            level = self.token(ahead).text.count("*")
            count = ahead + 1
            to = 0
            if self.kind(count) in ("to", "and") and self.kind(count + 1) == "stars":
                to = self.token(count + 1).text.count("*")
                count += 2
            return Rep(*self.take(count), level, to or (level if copy else 0))
        if self.kind(ahead) == "begin":
            ahead += 1
            return Rep(*self.take(ahead))
        if self.kind(ahead) == "(" and self.tokens[self.place].kind == "repeat":
            return Rep(*self.take(max(1, ahead)))
        if ahead > 1 and self.kind(ahead - 1) in ("and",):
            ahead -= 1
        return Rep(
            *self.take(
                max(
                    1,
                    ahead
                    if self.kind(ahead)
                    in ("around", "to", "until", "number", "often", "times", "all", "each")
                    else 1,
                )
            )
        )

    def again_from(self, ahead: int) -> Phrase | None:
        """Rounds that are worked again, from this word on: `rnds 1 and 2`, `last 2 rnds`, `these 6 rnds`."""
        while self.kind(ahead) in ("from", "work") and self.kind(ahead + 1) in (
            "round",
            "last",
            "these",
            "each",
        ):
            ahead = self.skip(ahead + 1)
        kind = self.kind(ahead)
        if kind == "step":
            return self.steps(ahead)
        if kind == "round":
            return self.named(ahead)
        if kind in ("ordinal", "number", "range") and self.named_first(ahead):
            return self.named(ahead)
        if kind == "each" and self.token(ahead).text == "both" and self.kind(ahead + 1) == "round":
            return Again(*self.take(ahead + 2), last=2)
        if kind in ("last", "these"):
            count = self.skip(ahead + 1)
            last = 1
            if self.kind(count) == "last":
                count = self.skip(count + 1)
            if self.kind(count) == "number":
                last = (self.token(count).number or ONE).of(0) or 1
                count += 1
            while (
                self.kind(count) in ("decrease", "rib", "pattern", "garter", "moss", "alternate")
                and self.kind(count + 1) == "round"
            ):
                count += 1
            if self.kind(count) == "round":
                plural = self.token(count).text.endswith("s") and count == self.skip(ahead + 1)
                return Again(*self.take(count + 1), last=2 if plural else last)
        if (
            kind in ("rib", "moss", "pattern", "decrease", "increase", "garter")
            and self.kind(ahead + 1) == "round"
            and self.kind(ahead + 2) != "number"
        ):
            plural = self.token(ahead + 1).text.endswith("s") and kind != "decrease"
            names = (named(kind),) if kind in NAMED_KINDS else ()
            return Again(*self.take(ahead + 2), names, last=2 if plural else 1)
        if self.letter(ahead) and self.kind(ahead + 1) == "and" and self.letter(ahead + 2):
            return self.lettered(ahead)
        return None

    def steps(self, ahead: int) -> Phrase | None:
        """`steps 5 and 6`."""
        names: list[int] = []
        ahead += 1
        while self.kind(ahead) == "number" and self.joined(ahead) and len(names) < 20:
            value = (self.token(ahead).number or ONE).of(0) or 0
            if self.flags(ahead) & DASH and names:
                names.append(named(f"step {value}"))
            elif self.kind(ahead + 1) in ("times", "more") and names:
                break
            else:
                names.append(named(f"step {value}"))
            ahead += 1
            if self.kind(ahead) == "and" and self.kind(ahead + 1) == "number":
                ahead += 1
        return Again(*self.take(ahead), tuple(names), work=True) if names else None

    def letter(self, ahead: int) -> str:
        """The letter that a round is called by; empty where there is none."""
        text = self.token(ahead).text
        return text if self.place + ahead < self.stop and len(text) == 1 and "a" <= text <= "j" else ""

    def lettered(self, ahead: int) -> Phrase | None:
        """`rounds A and B`."""
        names: list[int] = []
        while text := self.letter(ahead):
            names.append(named(text))
            ahead += 1
            if self.kind(ahead) == "and" and self.letter(ahead + 1):
                ahead += 1
            elif not self.flags(ahead) & COMMA:
                break
        return Again(*self.take(ahead), tuple(names), work=True) if names else None

    def named_first(self, ahead: int) -> bool:
        """Whether `1st and 2nd rows` or `7-8 rows` stands there."""
        limit = ahead + 8
        if self.kind(ahead) == "number" and self.kind(ahead + 1) == "round":
            return False
        while ahead < limit and self.kind(ahead) in ("ordinal", "number", "range", "and", "to"):
            ahead += 1
        return self.kind(ahead) == "round" and self.kind(ahead - 1) in ("ordinal", "range")

    def named(self, ahead: int) -> Phrase | None:
        """The numbers of the rounds: `rnds 1 and 2`, `1st and 2nd rows`, `rnds 1-4`."""
        numbers: list[int] = []
        to = False
        place = ahead
        first = self.kind(ahead) == "round"
        if first:
            place += 1
        begun = place
        while self.place + place < self.stop:
            token = self.token(place)
            if token.flags & (STOP | SEMI) and place > begun:
                break
            if token.kind in ("number", "ordinal") and token.number:
                if (
                    place > begun
                    and self.kind(place + 1) in ("times", "more")
                    and not self.flags(place) & (COMMA | SEMI)
                    and self.kind(place - 1) in ("number", "range")
                ):
                    break
                if (
                    place > begun
                    and token.kind == "number"
                    and self.kind(place + 1) in ("times",)
                    and self.kind(place - 1) != "and"
                ):
                    break
                value = token.number.of(0) or 0
                if token.flags & (DASH | EQUALS) and self.kind(place + 1) in ("stitch_noun", "remain"):
                    break
                if (to or token.flags & DASH) and numbers:
                    numbers.extend(range(numbers[-1] + 1, min(value, numbers[-1] + 400) + 1))
                else:
                    numbers.append(value)
                to = False
            elif token.kind == "range" and token.number:
                low, high = int(token.means), token.number.of(0) or 0
                numbers.extend(range(low, min(high, low + 400) + 1))
            elif token.kind == "to" and self.kind(place + 1) in ("number", "ordinal"):
                to = True
            elif (
                token.kind == "and" and self.kind(place + 1) in ("number", "ordinal", "range", "round")
            ) or (
                token.kind == "round"
                and self.kind(place + 1) == "number"
                and self.kind(place - 1) in ("and", "to")
            ):
                pass
            else:
                break
            place += 1
        if not numbers:
            return self.lettered(place) if first and self.joined(place) else None
        if not first:
            if self.kind(place) != "round":
                return None
            place += 1
        return Again(*self.take(place), named=tuple(numbers[:400]))

    def work(self) -> Phrase:
        """`work those 4 rounds`, `do rounds 5-6 again`."""
        ahead = 1 if self.letter(1) and self.kind(2) == "and" else self.skip(1)
        if (
            self.kind(ahead) in ("these", "round", "ordinal", "each", "decrease", "increase", "step")
            or self.letter(ahead)
        ) and (again := self.again_from(ahead)):
            assert isinstance(again, Again)
            return Again(again.start, again.end, again.flags, again.named, again.last, work=True)
        if self.token(1).text == "it" and self.kind(2) in ("per", "each", "until", "around"):
            return Continue(*self.take(2), manner=True)
        if self.kind(ahead) == "next":
            ahead = self.skip(ahead + 1)
        if (
            self.kind(ahead) == "number"
            and self.kind(ahead + 1) == "stitch_noun"
            and self.joined(ahead)
            and self.kind(ahead + 2) not in ("remain", "fewer", "more")
        ):
            number = self.token(ahead).number or ONE
            count = ahead + 2
            if self.kind(count) in ("in", "even", "plain") and self.kind(count + 1) in (
                "pattern",
                "rib",
                "stocking",
                "moss",
                "garter",
            ):
                count += 2
            elif self.kind(count) in ("even", "plain", "pattern"):
                count += 1
            start, end, flags = self.take(count)
            return Stitches(start, end, flags, Stitch("k", number, start, end))
        return self.said(1)

    def same(self) -> Phrase:
        """`as rnd 3`, `same as last round`."""
        ahead = self.skip(1)
        while self.kind(ahead) in ("as", "for"):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) in ("round", "last", "ordinal", "these") and (again := self.again_from(ahead)):
            assert isinstance(again, Again)
            return Again(again.start, again.end, again.flags, again.named, again.last, work=True)
        return self.said(1)

    def round(self) -> Phrase:
        """`a round`, `rounds 1-16`."""
        before = self.tokens[self.place - 1] if self.place else None
        if (
            (self.kind(1) in ("number", "range") or (self.letter(1) and self.letter(1) != "a"))
            and self.joined(1)
            and not self.flags(1) & COMMA
        ):
            named = self.named(0)
            if named:
                assert isinstance(named, Again)
                return Again(named.start, named.end, named.flags, named.named, work=True)
        joins = self.place > 1 and self.tokens[self.place - 2].kind == "in"
        if (
            before is not None
            and not joins
            and (
                before.text in ("a", "one")
                or before.kind in _CRAFTS
                or before.kind in ("plain", "even", "alternate")
            )
        ):
            return Rounds(*self.take(1), ONE)
        return self.said(1)

    # --- fabrics

    def fabric(self) -> Phrase:
        """`rib`, `rib 2 and 2`."""
        kind = self.kind()
        if (
            kind == "rib"
            and self.kind(1) == "number"
            and self.kind(2) in ("and", "times")
            and self.kind(3) == "number"
            and self.kind(4) not in ("round", "unit", "knit", "purl", "plain")
        ):
            first, second = self.token(1).number or ONE, self.token(3).number or ONE
            start, end, flags = self.take(4)
            nodes = (Stitch("k", first, start, end), Stitch("p", second, start, end))
            return Fabric(start, end, flags, "ratio", nodes)
        return Fabric(*self.take(1), kind)

    def even(self) -> Phrase:
        return Fabric(*self.take(1), "plain")

    def ratio(self) -> Phrase:
        """`2x2 rib`, `1/1 rib`."""
        first, _, second = self.token().text.partition("x")
        start, end, flags = self.take(1)
        nodes = (
            Stitch("k", Number((int(first),)), start, end),
            Stitch("p", Number((int(second),)), start, end),
        )
        return Fabric(start, end, flags, "ratio", nodes)

    # --- others

    def bracket(self) -> Phrase:
        """`[...]`."""
        self.depth += 1
        first = self.token()
        self.place += 1
        inside: list[Phrase] = []
        if self.depth > MOST_NESTED:
            self.troubles.append(
                ("too_deep", "Brackets are nested deeper than can be followed.", first.start)
            )
            self.place = self.stop
        closed = False
        while self.place < self.stop:
            if self.kind() == ")":
                closed = True
                if _PAIRS[first.text] != self.token().text:
                    self.troubles.append(
                        (
                            "bracket",
                            f"“{first.text}” is closed by “{self.token().text}” here.",
                            self.token().start,
                        )
                    )
                self.place += 1
                break
            inside.append(self.one())
        if not closed and self.depth <= MOST_NESTED:
            self.troubles.append(("bracket", f"“{first.text}” is opened here and not closed.", first.start))
        self.depth -= 1
        if _aside(inside):
            inside = [] if _means(inside) else [one for one in inside if isinstance(one, Count) and one.sure]
        return Brackets(first.start, self.at_end(), first.flags, tuple(inside))

    def close(self) -> Phrase:
        if self.token().flags & (COLON | SEMI | EQUALS):  # a smiling face
            return self.said(1)
        self.troubles.append(
            ("bracket", f"“{self.token().text}” closes what is not opened.", self.token().start)
        )
        return Said(*self.take(1))

    def cast_on(self) -> Phrase:
        """`cast on 64 sts`."""
        near = 2 if self.token().text.endswith(" with") else 7
        for ahead in range(1, near):
            token = self.token(ahead)
            if (
                self.place + ahead >= self.stop
                or (token.flags & STOP and ahead > 1)
                or token.kind in ("have", "round")
            ):
                break
            if token.kind == "number" and token.number and self.kind(ahead - 1) not in ("gear", "size"):
                if self.kind(ahead + 1) in ("unit", "in", "gear", "needle"):
                    break
                count = ahead + 1
                if self.kind(count) in ("stitch_noun", "word") and self.joined(count):
                    count += 1
                return CastOn(*self.take(count), token.number)
        return self.said(1)

    def size(self) -> Phrase:
        count = 1
        while (
            self.kind(count) in ("number", "range", "and", "word", "decimal", "only")
            and self.joined(count)
            and count < 6
        ):
            count += 1
        return Said(*self.take(count))

    def gear(self) -> Phrase:
        if self.kind(1) in ("number", "decimal", "range") and self.joined(1) and not self.flags(1) & COMMA:
            count = 3 if self.kind(2) in ("needle", "gear", "unit") else 2
            return Said(*self.take(count))
        return Said(*self.take(1), 1 if self.kind() == "word" else 0)

    def closing(self) -> Phrase:
        return Closing(*self.take(1))

    def bind_off(self) -> Phrase:
        return Closing(*self.take(1), bind_off=True)

    def continue_(self) -> Phrase:
        return Continue(*self.take(1))

    def manner(self) -> Phrase:
        return Continue(*self.take(1), manner=True)

    def chart(self) -> Phrase:
        return Chart(*self.take(1))

    def and_(self) -> Phrase:
        """`and its first 3 sts again`; else it says nothing."""
        ahead = self.skip(1)
        if self.kind(ahead) == "ordinal" and self.token(ahead).text == "first":
            number = ONE
            count = ahead + 1
            if self.kind(count) == "number":
                number = self.token(count).number or ONE
                count += 1
            if self.kind(count) == "stitch_noun" and self.kind(count + 1) == "more":
                return Partly(*self.take(count + 2), number)
        return self.said(1)

    def then(self) -> Phrase:
        return Then(*self.take(1))

    def marker(self) -> Phrase:
        """`mark the next st`: that stitch is worked and has a marker."""
        if self.token().text in ("mark", "marking") and (marked := self.marked(self.skip(1))):
            return marked
        return Said(*self.take(1))

    def marked(self, ahead: int) -> Phrase | None:
        """The one stitch that gets a marker, from `next st` on."""
        if self.kind(ahead) in ("in", "for"):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) != "next" or self.kind(ahead + 1) != "stitch_noun":
            return None
        start, end, flags = self.take(ahead + 2)
        stitch = Stitch("k", ONE, start, end)
        while self.kind() in ("", "with", "word", "marker") and not self.flags(0) & (_BREAK | COMMA):
            self.place += 1
        return Brackets(
            start, end, flags, (Stitches(start, end, 0, Mark(start, end)), Stitches(start, end, 0, stitch))
        )

    def placed(self) -> Phrase:
        if marked := self.marked(self.skip(1)):
            return marked
        start, end, flags = self.take(1)
        if self.kind() == "after" and self.kind(1) == "each":
            self.place += 1
        if self.kind() == "each" and self.kind(1) == "number":
            number = self.token(1).number or ONE
            count = 3 if self.kind(2) == "stitch_noun" else 2
            _, end, _ = self.take(count)
            return (
                Stitches(start, end, flags, Mark(start, end))
                if number is None
                else Every(start, end, flags, number)
            )
        return Stitches(start, end, flags, Mark(start, end))

    def per(self) -> Phrase:
        """`on each needle`."""
        number: Number | None = None
        if self.kind(1) in ("round", "alternate", "following", "ordinal") and self.joined(1):
            every = self.all_of()
            if isinstance(every, Rounds):
                return every
        if self.kind() == "persection" and self.token().text != "in each":
            return Needlewise(*self.take(1))
        ahead = self.skip(1)
        if self.kind(ahead) == "number":
            number = self.token(ahead).number
            ahead += 1
        while self.kind(ahead) == "word" and self.kind(ahead + 1) in ("needle", "word"):
            ahead += 1
        if self.kind(ahead) == "needle":
            return Needlewise(*self.take(ahead + 1), number)
        return self.said(1)

    def every_round(self) -> Phrase:
        """`no more plain rounds`."""
        return Rounds(*self.take(1), ONE, every=True, step=1)

    def begin(self) -> Phrase:
        """`beginning with a k row`, `ending with a p row`: told, not worked."""
        ahead = self.skip(1)
        before = self.tokens[self.place - 1].text if self.place else ""
        if self.kind() == "end" and before in ("will", "should", "you", "always"):
            while self.place + ahead < self.stop and not self.flags(ahead) & (STOP | SEMI):
                ahead += 1
            return self.said(min(ahead, self.stop - self.place))
        while self.kind(ahead) in ("as", "for", "side") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        if (
            self.kind(ahead) in ("knit", "purl", "side", "rib", "plain", "even")
            and self.kind(ahead + 1) == "round"
        ):
            if self.kind() == "end" and self.kind(ahead) in ("knit", "plain", "even"):
                return EndsPlain(*self.take(ahead + 2))
            return self.said(ahead + 2)
        if self.kind(ahead) == "word" and self.token(ahead).text == "from":
            ahead += 1
        if (
            self.kind() == "begin"
            and self.kind(ahead) == "round"
            and self.kind(ahead + 1) == "number"
            and self.joined(ahead)
        ):
            number = self.token(ahead + 1).number or ONE
            return BeginAt(*self.take(ahead + 2), number)
        return self.said(1)

    def if_odd(self) -> Phrase:
        return Odd(*self.take(1))


class Every(Phrase, frozen=True, gc=False):
    """`placing a marker every 8 sts`."""

    number: Number


def _is_bare(phrase: Phrase) -> bool:
    """Whether it is `knit` or `purl` alone."""
    return isinstance(phrase, Stitches) and isinstance(phrase.node, Stitch) and phrase.node.bare


def _means(inside: list[Phrase]) -> bool:
    """Whether a bracket says what a stitch is: `(sk2p = sl 1, k2tog, psso)`, `(RT: twist 2 sts)`."""
    if any(one.flags & EQUALS and not isinstance(one, Count) for one in inside[1:]):
        return True
    return len(inside) > 1 and isinstance(inside[0], Stitches) and bool(inside[1].flags & COLON)


def _aside(inside: list[Phrase]) -> bool:
    """Whether a bracket explains and works nothing: `(sk2p = sl 1, k2tog, psso)`, `(the purl rounds are the ridges)`."""
    if _means(inside):
        return True
    if inside and isinstance(inside[0], Count) and inside[0].sure and not inside[0].sign:
        return any(isinstance(one, Stitches | Fabric) for one in inside)
    words = sum(one.words for one in inside if isinstance(one, Said))
    if (
        words
        and any(isinstance(one, Stitches) for one in inside)
        and all(isinstance(one, Said | Markers | Count | Change) or _is_bare(one) for one in inside)
    ):
        return True
    work = sum(isinstance(one, Stitches | Star | Fabric | Brackets | Rep) for one in inside)
    return words >= 2 and words >= work


_PAIRS: Final = {"(": ")", "[": "]", "{": "}"}

_READ: Final = {
    "knit": Lines.craft, "purl": Lines.craft, "slip": Lines.craft, "right": Lines.craft, "left": Lines.craft,
    "stitch": Lines.stitch, "cable": Lines.cable, "edge": Lines.edge, "make": Lines.make, "passover": Lines.pass_over,
    "decrease": Lines.decrease, "increase": Lines.decrease, "number": Lines.number, "decimal": Lines.decimal,
    "range": Lines.ranged, "ratio": Lines.ratio, "times": Lines.times_first, "often": Lines.often, "more": Lines.more,
    "total": Lines.total, "remain": Lines.remain, "have": Lines.have, "to": Lines.to, "until": Lines.to,
    "around": Lines.around, "all": Lines.all_of, "each": Lines.all_of, "alternate": Lines.alternate, "ordinal": Lines.ordinal,
    "stars": Lines.star, "repeat": Lines.repeat, "work": Lines.work, "as": Lines.same, "round": Lines.round,
    "rib": Lines.fabric, "stocking": Lines.fabric, "garter": Lines.fabric, "moss": Lines.fabric, "pattern": Lines.fabric,
    "plain": Lines.even, "even": Lines.even, "(": Lines.bracket, ")": Lines.close, "cast_on": Lines.cast_on,
    "size": Lines.size, "needle": Lines.gear, "gear": Lines.gear, "closing": Lines.closing, "bind_off": Lines.bind_off,
    "icord": Lines.closing, "continue": Lines.continue_, "manner": Lines.manner, "chart": Lines.chart, "then": Lines.then, "and": Lines.and_,
    "marker": Lines.marker, "place": Lines.placed, "slipmarker": Lines.marker, "ifodd": Lines.if_odd, "begin": Lines.begin,
    "end": Lines.begin, "per": Lines.per, "persection": Lines.per, "everyround": Lines.every_round,
}  # fmt: skip
