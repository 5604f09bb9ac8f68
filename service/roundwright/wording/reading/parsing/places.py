"""Places in a round: `every 7th and 8th st together`, `the first st of each needle`, `in every 6th st`."""

from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.parsing.looking import NAMES, TOGETHER
from roundwright.wording.reading.parsing.new_stitches import NewStitchReader
from roundwright.wording.reading.phrases import (
    Brackets,
    Phrase,
    Stitches,
)
from roundwright.wording.reading.tokens import COMMA
from roundwright.wording.reading.tree import ONE, Number, Stitch

ONCE: Final[dict[StitchName, int]] = {"k2tog": 2, "p2tog": 2, "ssk": 2, "skp": 2, "kfb": 1, "m1": 0}
"""Stitches that are placed at every so many others, with what they use."""
AT: Final = ("in", "each", "after")


class PlaceReader(NewStitchReader):
    """Reads the places in a round at which stitches are made."""

    def skip_nouns(self, ahead: int) -> int:
        """Behind the word `stitches`, where that stands there."""
        return ahead + 1 if self.kind(ahead) == "stitch_noun" and self.joined(ahead) else ahead

    def position(self, craft: str, ahead: int) -> Phrase | None:
        """`knit every 7th and 8th stitch together`: 6 plain, 2 together; there may be more, `and the 15th and 16th`."""
        if self.kind(ahead + 1) != "ordinal" or craft not in ("knit", "purl"):
            return None
        three = int(self.is_first_of_three(ahead + 1))
        *pair, stop = self.two_ordinals(ahead + 1 + three)
        pairs = [tuple(pair)]
        while self.kind(stop) == "and" and self.kind(at := self.skip(stop + 1)) in ("each", "ordinal"):
            *pair, stop = self.two_ordinals(at + (self.kind(at) == "each"))
            pairs.append(tuple(pair))
        if self.kind(stop) == "stitch_noun":
            stop += 1
        together = self.kind(stop) == "together"
        if not (together or self.is_as_before(craft, stop)) or (three and len(pairs) > 1):
            return None
        before = (three,) * len(pairs[0][0])
        plain: list[tuple[int, ...]] = []
        for firsts, seconds in pairs:
            follow = bool(seconds) and seconds == tuple(first + 1 for first in firsts)
            if not follow or len(firsts) != len(before):
                return None
            plain.append(tuple(first - 1 - done for first, done in zip(firsts, before, strict=True)))
            before = seconds
        if min(map(min, plain)) < 1:
            return None
        start, end, flags = self.take(stop + together)
        nodes = [
            Stitches(start, end, 0, stitch)
            for between in plain
            for stitch in (
                Stitch(NAMES[craft], Number(between), start, end),
                Stitch(TOGETHER[craft, 2 + three], ONE, start, end),
            )
        ]
        return Brackets(start, end, flags, tuple(nodes))

    def is_as_before(self, craft: str, stop: int) -> bool:
        """Whether such places were told before, and these end here: `...together, next round every 4th and 5th`."""
        before = [token.kind for token in self.tokens[: self.place]]
        known = any(
            kinds in (["ordinal", "together"], ["ordinal", "stitch_noun", "together"])
            for at in range(len(before))
            for kinds in (before[at : at + 2], before[at : at + 3])
        )
        begins = not self.joined(0) or before[-1:] in (["round"], ["then"], ["ordinal"])
        return craft == "knit" and self.kind() == "each" and known and begins and self.ends_at(stop)

    def is_first_of_three(self, ahead: int) -> bool:
        """Whether three in a row begin here: `every 6th, 7th and 8th stitch`."""
        kinds = [self.kind(ahead + behind) for behind in range(4)]
        first, second, third = (self.ordinal_at(ahead + behind) for behind in (0, 1, 3))
        return kinds == ["ordinal", "ordinal", "and", "ordinal"] and (second, third) == (first + 1, first + 2)

    def positions_alone(self) -> Phrase | None:
        """`then always the 10th and 11th stitch together`: 9 plain, 2 together; else None."""
        others = self.place > 0 and self.tokens[self.place - 1].kind == "ordinal"  # 5th, 6th, 7th, 8th
        return None if others else self.position("knit", -1)

    def spaced(self, sign: int) -> Phrase | None:
        """`narrow every 9th and 10th stitch`, `inc in every 7th st`, `narrow all`: the whole round told at once."""
        ahead = self.skip(1)
        if self.kind(ahead) == "(":  # `Narrow (knit 2 together) every 4th and 5th stitch`
            ahead = next((at + 1 for at in range(ahead, ahead + 7) if self.kind(at) == ")"), ahead)
        ahead = self.skip(ahead)
        if sign > 0 and (increase := self.increase_at_every(ahead)):
            return increase
        if self.kind(ahead) == "around" and self.token().text == "narrow":
            start, end, flags = self.take(1)
            return Stitches(start, end, flags, Stitch("k2tog", ONE, start, end))
        if (
            self.kind(ahead) == "all"
            and self.token().text in ("narrow", "decrease", "reduce")
            and (not self.joined(ahead + 1) or self.flags(ahead + 1) & COMMA)
        ):
            start, end, flags = self.take(ahead + 1)
            return Stitches(start, end, flags, Stitch("k2tog", ONE, start, end))
        if self.text_of(ahead) == "once" and self.joined(ahead):
            ahead = self.skip(ahead + 1)  # decreasing once in every 12 stitches
        return self.at_every(ahead, "kfb" if sign > 0 else "k2tog", together=True)

    def increase_at_every(self, ahead: int) -> Phrase | None:
        """`increase 1 st after every 10th st`, `increase 1 every 8th st`; None where anything else is told."""
        number = self.token(ahead).number
        if stop := self.in_each_stitch(ahead):
            start, end, flags = self.take(stop)
            made = Stitch("kfb", ONE, start, end, loose=True)
            return Brackets(start, end, flags, (Stitches(start, end, 0, made),))
        once = self.text_of(ahead) == "once" and self.joined(ahead)
        if not once and (self.kind(ahead) != "number" or number is None or number.values != (1,)):
            return None
        at = self.skip(ahead + 1 + (self.kind(ahead + 1) == "stitch_noun"))
        if self.kind(at) not in ("after", "in", "each"):
            return None
        if last := self.in_every_number(at):
            return last
        return self.at_every(at, "m1" if self.kind(at) == "after" else "kfb")

    def in_each_stitch(self, ahead: int) -> int:
        """Where `in each st`, `1 st in each st` ends behind an increase; 0 where anything else is told."""
        number = self.token(ahead).number
        if number is not None and number.values == (1,):
            ahead += 1 + (self.kind(ahead + 1) == "stitch_noun")
        noun = ahead + 1
        if self.text_of(ahead) not in ("in each", "in every"):
            noun += self.kind(ahead) == "in" and self.kind(noun) == "each"
        ends = self.ends_at(noun + 1) or self.kind(noun + 1) in ("(", "around")
        whole = noun > ahead + 1 or self.kind(ahead) == "persection"
        return noun + 1 if whole and ends and self.text_of(noun) in ("st", "stitch") else 0

    def every_increased(self) -> Phrase | None:
        """`every fourth stitch, you increase 1`: the last of so many; None where other work is told."""
        ahead = self.skip(3)
        number = self.token(ahead + 1).number
        increased = self.kind(2) == "stitch_noun" and self.kind(ahead) == "increase"
        last = ahead + 1 + (self.kind(ahead + 2) == "stitch_noun")
        if not increased or number is None or number.values != ONE.values or not self.ends_at(last + 1):
            return None
        phrase = self.at_every(0, "kfb")
        if type(phrase) is Brackets:
            _, end, _ = self.take(last - 2)
            return replace(phrase, end=end)
        return None

    def in_every_number(self, at: int) -> Phrase | None:
        """`increase one stitch in every 12`, `every 12 sts`: the last of so many; None where other work follows."""
        within = self.kind(at) == "in"
        place = self.skip(at + 1) if within else at
        number = self.token(place + 1).number
        noun = place + 2 + (self.kind(place + 2) == "stitch_noun")
        ends = self.ends_at(noun) or self.kind(noun) in ("(", "around") or self.text_of(noun) == "all"
        plain = tuple((value or 0) - 1 for value in number.values) if number is not None else ()
        if (
            self.kind(place) != "each"
            or self.kind(place + 1) != "number"
            or not (within or noun > place + 2)
            or not ends
            or min(plain, default=0) < 1
        ):
            return None
        start, end, flags = self.take(noun)
        first = Stitch("k", Number(plain), start, end)
        last = Stitch("kfb", ONE, start, end, loose=True)
        return Brackets(start, end, flags, (Stitches(start, end, 0, first), Stitches(start, end, 0, last)))

    def at_every(self, ahead: int, name: StitchName, *, together: bool = False) -> Phrase | None:
        """A stitch at every so many: `in every 7th st`, `every 9th and 10th st`, `after every 12 sts`; else None."""
        kind = self.kind(ahead)
        behind = kind == "after"
        if kind in ("in", "after"):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) != "each" or self.kind(ahead + 1) not in ("ordinal", "number", "alternate"):
            return None
        numbers, seconds, stop = self.two_ordinals(ahead + 1)
        pair, counted, several = bool(seconds), self.kind(ahead + 1) == "number", ONCE[name] > 1
        follow = several and seconds == tuple(number + 1 for number in numbers)
        worked_of = 0 if behind else 1
        if not behind and not pair and several and counted:
            worked_of = ONCE[name]  # dec 1 st every 11 sts: of those, the last two
        elif not behind and not follow and (pair or several or counted):
            return None
        if self.kind(stop) == "round":
            return None
        noun = self.skip_nouns(stop)
        if noun == stop and not (pair or behind):
            return None
        if together and self.kind(noun) == "together":
            noun += 1
        plain = tuple(number - worked_of for number in numbers)
        if min(plain) < 1:
            return None
        begin = self.token(ahead + 1).start if behind and len(plain) == 1 else -1
        stop = begin + len(str(plain[0])) if begin >= 0 else -1
        start, end, flags = self.take(noun)
        first = Stitch("k", Number(plain, begin, stop), start, end)
        worked = Stitch(name, ONE, start, end, loose=name == "kfb")
        return Brackets(start, end, flags, (Stitches(start, end, 0, first), Stitches(start, end, 0, worked)))

    def ordinals(self, ahead: int) -> tuple[tuple[int, ...], int]:
        """An ordinal, or one for each size, `9th (10th, 11th)`, and where they end."""
        first = self.token(ahead).number or ONE
        if len(first.values) > 1:
            return tuple(number or 0 for number in first.values), ahead + 1
        numbers = [self.ordinal_at(ahead)]
        stop = ahead + 1
        if self.kind(stop) != "(" or self.kind(stop + 1) != "ordinal":
            return (numbers[0],), stop
        at = stop + 1
        while self.kind(at) == "ordinal":
            numbers.append(self.ordinal_at(at))
            at += 1
        return (tuple(numbers), at + 1) if self.kind(at) == ")" else ((numbers[0],), stop)

    def two_ordinals(self, ahead: int) -> tuple[tuple[int, ...], tuple[int, ...], int]:
        """Two ordinals, `9th and 10th`, and where they end; of each size in turn or both of each; one alone has none.

        `9th (10th, 11th) and 10th (11th, 12th)`, `9th and 10th (10th and 11th, 11th and 12th)`,
        `9th and 10th/10th and 11th/11th and 12th`.
        """
        numbers, stop = self.ordinals(ahead)
        if self.kind(stop) != "and" or self.kind(stop + 1) != "ordinal":
            return numbers, (), stop
        seconds, stop = self.ordinals(stop + 1)
        opened = self.kind(stop) == "("
        firsts, others, at = [*numbers], [*seconds], stop + opened
        if len(firsts) > 1:
            return numbers, seconds, stop
        while [self.kind(at + behind) for behind in range(3)] == ["ordinal", "and", "ordinal"]:
            firsts.append(self.ordinal_at(at))
            others.append(self.ordinal_at(at + 2))
            at += 3
        if len(firsts) == 1 or (opened and self.kind(at) != ")"):
            return numbers, seconds, stop
        return tuple(firsts), tuple(others), at + opened

    def ordinal_at(self, ahead: int) -> int:
        """The value of an ordinal or a number; 2 of `other` in `every other stitch`."""
        if self.kind(ahead) == "alternate":
            return 2
        return (self.token(ahead).number or ONE).of(0) or 0

    def decrease_at_every(self, ahead: int, sign: int) -> Phrase | None:
        """One stitch taken out at every so many, `dec 1 st after every 9 sts`; None where none is."""
        at = self.skip(ahead)
        return self.at_every(at, "k2tog") if sign < 0 and self.kind(at) in AT and self.joined(at) else None
