"""What is counted: stitches and rounds."""

from collections.abc import Callable, Mapping
from itertools import pairwise
from math import prod
from typing import Final, cast

from roundwright.wording.reading.parsing.colours import COLOURS, ColourReader
from roundwright.wording.reading.parsing.looking import BREAK, NAMES, NOT_STITCHES, ONTO, REPEATS, TOGETHER
from roundwright.wording.reading.phrases import (
    Again,
    Brackets,
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
    Until,
)
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, LINE, SEMI, SPACE, STOP, TAB
from roundwright.wording.reading.tree import NOTHING, ONE, Evenly, Number, Stitch, Unknown, named

LONGEST_LETTER: Final = 2
"""Letters of what names a class behind its number, with the sign of a word of another language."""


class NumberReader(ColourReader):
    """Reads numbers with what they count."""

    def number(self) -> Phrase:
        """What is counted: stitches, rounds, times, a length."""
        number = cast("Number", self.token().number)
        if rib := self.ribbed(number) or self.rib_of_two(number):
            return rib
        if (
            sum_of := self.added(number)
            or self.reckoned()
            or self.factors(number)
            or self.plain_and_decrease(number)
            or self.often_decreased(number)
            or self.by_turns()
        ):
            return sum_of
        if self.kind(1) in _MORE and self.kind(2) in ("decrease", "increase") and self.kind(3) == "round":
            self.place += 1  # each of the three more decrease rounds
        kind = self.kind(1)
        if kind in _FEWER and (fewer := self.fewer_each_time(number)):
            return fewer
        if kind == "more" and self.kind(2) == "plain" and self.kind(3) != "round":
            return Rounds(*self.take(2), number, more=True)
        if kind == "plain" and self.joined(1) and (plain := self.plain_number(number)):
            return plain
        if kind in _HYPHENED and self.flags(1) & DASH and self.token(1).start == self.token().end + 1:
            return self.only_words(self.behind_repeat())  # a 4-round repeat
        if kind in _BY_KIND and self.joined(1) and (phrase := _BY_KIND[kind](self, number)):
            return phrase
        if kind == "number" and self.flags(1) & COMMA and self.place + 1 < self.stop:
            return self.listed()
        return self.bare_number(number)

    def often_decreased(self, number: Number) -> Phrase | None:
        """`3 x dec rnd`; `five more decrease rounds bring you to 28` where they are not only spoken of; else None."""
        kinds = [self.kind(ahead) for ahead in range(1, 4)]
        more = kinds[0] == "more" and self.joined(3) and self.begins_clause()
        if kinds[1:] != ["decrease", "round"] or not (more or (kinds[0] == "times" and self.joined(1))):
            return None
        turns = (named("decrease"),) * min(number.of(0) or 0, MOST_IN_TURN)
        return Again(*self.take(4), turns, work=True) if turns else None

    def by_turns(self) -> Phrase | None:
        """`1 decrease round and 1 plain round 3 times`, `1 round with decreases and 1 without`; else None."""
        named_before = self.kind(1) in _NAMING and self.kind(2) == "round"
        named_behind = self.kind(1) == "round" and self.text_of(2) in ("with", "without")
        return self.two_by_name(0) if named_before or named_behind else None

    def behind_repeat(self) -> int:
        """Behind `12-stitch`, or behind what is said of a repeat of a chart: `the 12-stitch repeat fits ten times`."""
        before = self.tokens[max(0, self.place - MOST_BEHIND_CHART) : self.place]
        if self.kind(2) != "repeat" or all(token.kind != "chart" for token in before):
            return 2
        ahead = 3
        while self.place + ahead < self.stop and not self.flags(ahead) & (STOP | SEMI | COMMA):
            if self.kind(ahead) == ")":
                break
            ahead += 1
        return ahead

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

    def and_together(self, number: Number) -> Phrase | None:
        """`2 and 2 together` is a decrease; `3 and 2 together` are three stitches and a decrease."""
        if self.kind(2) != "number" or self.kind(3) != "together":
            return None
        alike = number.values == cast("Number", self.token(2).number).values
        if alike and not self.flags(0) & STOP and not self.in_row_of_units():
            return self.together(number, 4)
        start, end, flags = self.take(1)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

    def in_row_of_units(self) -> bool:
        """Whether `three and two together` stands before, or `one and two together` behind.

        Then `two and two together` begins with plain stitches.
        """
        for at in range(self.place - 3, max(self.place - MOST_BETWEEN_UNITS, 0), -1):
            if (plain := self.plain_before_two(at)) and plain != PAIR:
                return plain == PAIR + 1
        for at in range(self.place + 3, min(self.place + MOST_BETWEEN_UNITS, len(self.tokens) - 3)):
            if plain := self.plain_before_two(at):
                return plain == PAIR - 1
        return False

    def plain_before_two(self, at: int) -> int:
        """The plain stitches of `three and two together` where that stands there; else 0."""
        first, joint, second, together = self.tokens[at : at + 4]
        kinds = [first.kind, joint.kind, second.kind, together.kind]
        if kinds != ["number", "and", "number", "together"] or first.number is None or second.number is None:
            return 0
        return (first.number.of(0) or 0) if second.number.values == (PAIR,) else 0

    def such_rounds(self, number: Number) -> Phrase | None:
        """`3 plain rnds`."""
        return self.rounds(number) if self.kind(2) == "round" and self.joined(2) else None

    def worded(self, number: Number) -> Phrase | None:
        """A number at an unknown word: `3xyz` is a stitch nobody knows; `2 contrast rnds`, `*2 MC, 1 CC`."""
        if self.token(1).text in COLOURS and self.in_repeat():
            start, end, flags = self.take(2)
            return Stitches(start, end, flags, Stitch("k", number, start, end))
        if not self.flags(1) and self.is_colour_row():
            start, end, flags = self.take(2)
            return Stitches(start, end, flags, Stitch("k", number, start, end))
        if not self.flags(1) and self.names_class():
            return self.only_words(2)
        if not self.flags(1) and self.token(1).text == "s" and self.is_behind_article():
            return self.only_words(2)  # switch to the 9s
        if not self.flags(1):
            start, end, flags = self.take(2)
            name = f"{number.of(0)}{self.tokens[self.place - 1].text}"
            return Stitches(start, end, flags, Unknown(name, start, end))
        return Rounds(*self.take(3), number) if self.kind(2) == "round" else None

    def names_class(self) -> bool:
        """Whether a number with one letter belongs to the word before it: `(Class 7b)`."""
        before, letter = self.tokens[max(self.place - 1, 0)], self.token(1)
        return (
            before.kind == "word" and self.flags(0) == SPACE and letter.end - letter.start <= LONGEST_LETTER
        )

    def is_behind_article(self) -> bool:
        """Whether needles are called by their size here: `on the 9s`, `with your 7s`, `change to 8s`."""
        return bool(self.place) and self.tokens[self.place - 1].text in _BEFORE_NEEDLES and self.joined(0)

    def opens_work(self) -> bool:
        """Whether a number stands where work begins, and not behind a sign that makes it a count."""
        before = self.tokens[self.place - 1].kind if self.place else ""
        flags = self.flags(0)
        return (
            not self.place
            or before in ("stars", "(")
            or (bool(flags & (STOP | COLON)) and not flags & (DASH | EQUALS))
        )

    def in_repeat(self) -> bool:
        """Whether a star or a bracket was opened shortly before."""
        before = self.tokens[max(0, self.place - MOST_IN_REPEAT) : self.place]
        return self.depth > 0 or sum(token.kind == "stars" for token in before) % 2 == 1

    def parts_of_repeat(self, number: Number) -> Phrase | None:
        """`*7 stitches, 2 stitches together*`: plain stitches before a decrease; else None."""
        opens = self.place > 0 and self.tokens[self.place - 1].kind in ("stars", "(")
        together = 3 if self.kind(3) != "stitch_noun" else 4
        if not opens or self.kind(2) != "number" or self.kind(together) != "together":
            return None
        start, end, flags = self.take(2)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

    def per_needle(self, number: Number) -> Phrase | None:
        """`8 per needle`, `8 on every needle`."""
        ahead = self.skip(2)
        if self.kind(ahead) == "needle":
            return PerPart(*self.take(ahead + 1), number, needle=True)
        ends = (
            self.place + 2 >= self.stop or bool(self.flags(2) & (STOP | COMMA | SEMI)) or self.kind(2) == ")"
        )
        return PerPart(*self.take(2), number) if ends else None

    def number_of_needles(self, number: Number) -> Phrase:
        """`on 4 needles`, `over three needles`: on how many the stitches are; `size 4 needles` works nothing."""
        onto = self.place > 0 and self.tokens[self.place - 1].text in ONTO
        return Said(*self.take(2), needles=number) if onto else self.only_words(2)

    def in_all(self, number: Number) -> Phrase:
        """`56 in all`; `at every marker, six in all` are markers."""
        placed = self.place > 1 and self.tokens[self.place - 1].kind in ("marker", "section")
        start, end, flags = self.take(2)
        if placed and flags & (COMMA | DASH):
            return Markers(start, end, flags, number)
        return Count(start, end, flags, number)

    def markers(self, number: Number) -> Phrase:
        """`8 markers`; `1 m` may be anything."""
        start, end, flags = self.take(2)
        if self.tokens[self.place - 1].text == "m":
            return Said(start, end, flags)
        return Markers(start, end, flags, number)

    def changes(self, number: Number) -> Phrase:
        """`8 decreases`; `work 3 decrease rounds`."""
        sign = 1 if self.kind(1) == "increase" else -1
        often = number.of(0) or 0
        before = self.tokens[max(0, self.place - 2) : self.place]
        if often == 1 and sign < 0 and [token.kind for token in before] == ["number", "knit"]:
            start, end, flags = self.take(2)  # 8 knit + 1 reduce
            return Stitches(start, end, flags, Stitch("k2tog", ONE, start, end, loose=True))
        enumerated = often == 1 and self.kind(1) == "decrease" and self.kind() == "number"
        enumerated = enumerated and bool(self.flags(0) & (COMMA | SEMI) or self.flags(3) & (COMMA | SEMI))
        if (
            self.kind(2) == "round"
            and (self.begins_clause() or (enumerated and self.after_then()))
            and (1 < often <= MOST_IN_TURN or enumerated)
            and sign < 0
        ):
            turns = (named(self.kind(1)),) * often
            return Again(*self.take(3), turns, work=True)
        behind = self.skip(2)
        per_round = self.kind(behind) in ("each", "per") and self.kind(behind + 1) == "round"
        if self.joined(2) and (per_round or (self.kind(behind) == "round" and behind > 2)):
            return self.only_words(2)  # `14 decreases a round`
        if self.kind(2) == "evenly" and self.joined(2):
            start, end, flags = self.take(3)
            return Stitches(start, end, flags, Evenly(number, sign, start, end))
        counted = self.kind(2) == "stitch_noun" and self.joined(2) and not self.flags(2) & COMMA
        return Count(*self.take(2 + counted), number, sign)  # 8 decreased sts

    def fewer_each_time(self, number: Number) -> Phrase | None:
        """`one knit stitch fewer`, `two less in rib before each decrease`: how a crown goes on; else None.

        In a bracket it is an aside to what goes on: `decrease every rnd (one fewer knit st after each SSK)`.
        """
        if number.values not in ((1,), (2,)):
            return None
        ahead = 1
        while self.joined(ahead) and ahead < MOST_FEWER:
            in_fabric = self.kind(ahead) == "in" and self.kind(ahead + 1) in ("rib", "pattern")
            if self.kind(ahead) not in _OF_FEWER and not in_fabric:
                break
            ahead += 1
        kinds = [self.kind(at) for at in range(1, ahead)]
        if "fewer" not in kinds or self.place + ahead > self.stop:
            return None
        after = self.kind(ahead) == "after" and self.kind(ahead + 1) in ("each", "")
        if self.kind(ahead) in ("before", "between") or (after and self.kind(ahead + 2) in _SHAPING):
            ahead = self.behind_decreases(ahead + 1)
        elif number.values != (1,):
            return None
        elif self.kind(ahead) in ("each", "in") and self.joined(ahead):
            ahead += 2
        elif (
            self.kind(ahead) == "per"
            and self.kind(ahead + 1) == "decrease"
            and self.kind(ahead + 2) == "round"
        ):
            ahead += 3  # knitting 1 st fewer on each dec rnd
        elif len(kinds) < 2 or not {"stitch_noun", "knit"}.intersection(kinds) or not _with_before(self):
            return None
        return Continue(*self.take(min(ahead, self.stop - self.place)), manner=True)

    def behind_decreases(self, ahead: int) -> int:
        """Behind `each decrease`, `the k2tog` or `you take 2 together`."""
        pair = ahead
        while self.text_of(pair) in _TAKING and self.joined(pair) and pair < ahead + MOST_TAKING:
            pair += 1
        if self.kind(pair) == "number" and self.kind(pair + 1) == "together" and self.joined(pair):
            return pair + 2
        while self.kind(ahead) in ("", "each", "decrease", "stitch", "all") and self.joined(ahead):
            of_rounds = self.kind(ahead) == "each" and self.kind(ahead + 1) not in ("decrease", "stitch", "")
            if self.place + ahead >= self.stop or of_rounds:
                break
            ahead += 1
        return ahead

    def fewer_or_more(self, number: Number) -> Phrase:
        """`1 fewer st between decreases`."""
        if fewer := self.fewer_each_time(number):
            return fewer
        count = 3 if self.kind(2) in ("stitch_noun", "knit", "purl") else 2
        if self.kind(count) in ("between", "before") and self.place:
            return Continue(*self.take(count + 1), manner=True)
        return self.only_words(count)

    def more_of(self, number: Number) -> Phrase:
        """`3 more rnds`, `3 more times`, `1 more st between decreases`."""
        if self.kind(2) == "times":
            return self.times(number)
        plain = self.kind(2) in ("knit", *_PLAIN) and self.joined(2)
        if plain and self.kind(3) == "round" and self.joined(3):
            return Rounds(*self.take(4), number, plain=True)  # and two more knit rounds
        if self.kind(2) in ("marker", "place") and self.joined(2):
            return Markers(*self.take(3), number)  # and 3 more markers
        if self.text_of(2) in REPEATS and self.joined(2) and self.tokens[self.place - 1].kind == "work":
            return Times(*self.take(3), number, more=True)
        ends = self.place + 2 >= self.stop or bool(self.flags(2) & STOP)
        if ends and self.place and self.tokens[self.place - 1].kind in ("knit", "purl") and self.joined(0):
            return Rounds(*self.take(2), number, more=True)  # knit 18 more
        return self.such_rounds(number) or self.fewer_or_more(number)

    def plain_number(self, number: Number) -> Phrase | None:
        """`3 plain, 1 purl` are stitches; `1 plain` at the end of what is said is a round."""
        text = self.token(1).text
        if text not in ("plain", "plane") or (self.kind(2) in ("round", "knit") and self.joined(2)):
            return None
        ends = self.place + 2 >= self.stop or bool(self.flags(2) & (STOP | SEMI))
        if not ends and (self.kind(2) in ("number", "purl", ")", "and", "stars") or self.flags(2) & COMMA):
            start, end, flags = self.take(2)
            return Stitches(start, end, flags, Stitch("k", number, start, end))
        return Rounds(*self.take(1), number) if ends else None

    def bare_number(self, number: Number) -> Phrase:
        """A number that counts nothing that is named."""
        if self.text_of(1) in _TURNING and (turned := self.turned(1)):
            return self.only_words(turned)
        before = self.tokens[self.place - 1].kind if self.place else ""
        divisor = self.place > 1 and self.tokens[self.place - 1].text == "by"
        divisor = divisor and self.tokens[self.place - 2].text in _DIVIDING
        if divisor or before in ("gear", "size", "needle", "step") or self.token().text in ("one", "ones"):
            return self.only_words(1)  # `knit to the next one`
        if left := self.left_plain(number, 1):
            return left
        if self.kind(1) == "left" and self.joined(1) and not self.flags(1) & COMMA:
            return Count(*self.take(2), number)
        at = self.skip(2)
        if self.text_of(1) in ("on", "to") and self.kind(at) == "needle" and self.text_of(2) in ("a", "one"):
            return PerPart(*self.take(at + 1), number, needle=True)  # 14 on a needle, 24 to a needle
        at = self.skip(1)
        if 1 < at <= MOST_BEFORE_LEFT and self.kind(at) in ("remain", "left") and not self.flags(1) & COMMA:
            return Count(*self.take(at + 1), number)  # 63 are left
        if self.kind(1) == ")" and self.has_minus():
            return Count(*self.take(1), number, -1)
        sure = self.place > 0 and self.tokens[self.place - 1].text in _TURNING  # 60 stitches have become 30
        return Count(*self.take(1), number, sure=sure)

    def left_plain(self, number: Number, ahead: int) -> Phrase | None:
        """`the 3 left over plain`, `the 2 sts left plain`: stitches at the end of a round; None for any other."""
        stop = ahead + 1 + (self.text_of(ahead + 1) == "over")
        plain = self.kind(stop) == "plain" and self.kind(stop + 1) != "round"
        if self.kind(ahead) != "left" or not plain or not self.joined(ahead) or not self.joined(stop):
            return None
        start, end, flags = self.take(stop + 1)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

    def listed(self) -> Phrase:
        """`42, 45, 48 sts`: a count for each size, without brackets; `four, two together` are stitches."""
        if self.kind(2) == "together" and self.opens_work():
            number = cast("Number", self.token().number)
            start, end, flags = self.take(1)
            return Stitches(start, end, flags, Stitch("k", number, start, end))
        if self.place and self.flags(0) & COMMA and self.kind(-1) == "number":
            return self.bare_number(
                cast("Number", self.token().number)
            )  # in the midst of a list that is none
        ahead = 1
        values = list(cast("Number", self.token().number).values)
        if len(values) > 1 and len(cast("Number", self.token(1).number).values) == len(values):
            return self.bare_number(cast("Number", self.token().number))  # 40 (50), 30 (40), 20 (30) sts
        while (
            self.kind(ahead) == "number"
            and self.flags(ahead) & COMMA
            and not self.flags(ahead) & BREAK
            and len(values) < 13
        ):
            values.extend(cast("Number", self.token(ahead).number).values)
            ahead += 1
        sizes = len(set(self.names.values()))
        in_turn = len(values) > FEWEST_IN_TURN and len(values) != sizes and _fall(values)
        if self.kind(ahead) in ("stitch_noun", ")") and len(values) > 1 and not in_turn:
            stop = ahead + 1 if self.kind(ahead) == "stitch_noun" else ahead
            start, end = self.token().start, self.token(ahead - 1).end
            number = Number(tuple(values[:13]), start, end)
            return Count(*self.take(stop), number)
        return self.bare_number(cast("Number", self.token().number))

    def knit_first(self, number: Number) -> Phrase | None:
        """`two knit rounds between`, `8 knit`."""
        rounds = self.text_of(1) == "knit" and self.text_of(2) in ("rounds", "rnds") and self.joined(2)
        if rounds and not self.flags(1) & COMMA:
            return Rounds(*self.take(3), number, plain=True)
        return self.number_first(number)

    def number_first(self, number: Number) -> Phrase | None:
        """`11 k`, `2 right`: the number before the stitch."""
        kind = self.kind(1)
        if self.flags(1) & COMMA:
            return None  # -> 16, k2tog
        if self.place and self.tokens[self.place - 1].text == "first" and self.kind(2) != "stitch_noun":
            return None  # after each of the first two knit a plain round
        if kind == "stitch":
            name = self.token(1).means
            start, end, flags = self.take(2)
            return Stitches(start, end, flags, Stitch(name, number, start, end))
        if self.kind(2) == "together" and self.joined(2) and (kind, number.of(0) or 0) in TOGETHER:
            return self.together(number, 3)
        if self.kind(2) == "number" and self.joined(2) and not self.flags(2) & (COMMA | DASH):
            glued = self.token(2).start == self.token(1).end
            behind = self.kind(3)
            if glued or behind not in ("knit", "purl", "together", "right", "left", "decrease"):
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
        one_round = number.values == (1,) and self.text_of(0) in ("round", "rnd") and self.joined(0)
        one_round = one_round and self.kind(1) not in _OF_OTHERS
        return Stitches(start, end, flags, Stitch(NAMES[kind], number, start, end, bare=one_round))

    def together(self, number: Number, count: int) -> Phrase:
        """`2 tog`, `two together`."""
        if self.kind(count) == "tbl" and self.joined(count):
            count += 1
        if self.kind(count) in ("knit", "purl") and self.joined(count) and not self.flags(count) & COMMA:
            behind = self.kind(count + 1) in ("number", "stitch", "stitch_noun")
            count += not behind or bool(self.flags(count + 1) & (COMMA | DASH))  # `2 together knit`
        if number.of(0) == 2 and self.kind(at := self.skip(count)) in ("after", "each"):
            begin = self.place
            self.place += count - 1
            if every := self.at_every(at - count + 1, "k2tog"):
                return every
            self.place = begin
        start, end, flags = self.take(count)
        name = TOGETHER.get(("knit", number.of(0) or 0))
        if name:
            return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        return Stitches(start, end, flags, Unknown(f"{number.of(0)} tog", start, end))

    def is_part_in_rib(self) -> bool:
        """Whether a part is told to be so many rounds of a rib: `the brim is 24 rnds of k1, p1 rib`."""
        begins = self.text_of(-3) == "the" or self.place == 2 or bool(self.flags(-2) & STOP)
        if not begins or self.text_of(-2) in _OF_SWATCH:
            return False
        ahead = self.skip(2)
        while self.kind(ahead) in ("knit", "purl", "number") and self.joined(ahead) and ahead < MOST_TO_RIB:
            ahead += 1
        return self.kind(ahead) in _OF_RIB

    def rounds(self, number: Number) -> Phrase:
        """`5 rnds`, `2 more rnds`."""
        if self.kind(1) == "round" and self.flags(1) & COMMA:
            return self.bare_number(number)  # -> 72, rnd 16
        before = self.tokens[self.place - 2].text if self.place > 1 else ""
        if (
            self.place
            and self.tokens[self.place - 1].text in _SAYS_HOW_MANY
            and before not in ("which", "that")
            and not self.is_part_in_rib()
        ):
            return self.only_words(2)  # `it takes 6 rounds`
        if self.text_of(2) in _AGO and self.joined(2) and self.ends_at(3):
            return self.only_words(3)  # `the last cable was crossed 5 rounds ago`
        these = self.place > 0 and self.tokens[self.place - 1].kind == "these"
        counted = self.kind(2) in (
            "number",
            "often",
            "times",
            *_PLAIN,
        )  # over this 3 rounds without decreases
        if these and self.kind(1) == "round" and not counted:
            return self.only_words(2)  # `these 8 rounds form the pattern`
        count = 1
        more = False
        while self.kind(count) != "round":
            more = more or self.kind(count) == "more"
            count += 1
        return Rounds(*self.take(count + 1), number, more=more, plain=self.said_plain())

    def said_plain(self) -> bool:
        """Whether the rounds that were taken are plain ones: `2 plain rnds`, `1 rnd even`; none `between` others."""
        before = self.kind(-2) in _PLAIN
        behind = self.kind() in _PLAIN and self.joined(0) and not self.flags(0) & COMMA
        return (before or behind) and self.kind(int(behind)) not in _OF_OTHERS

    def stitches(self, number: Number) -> Phrase:
        """`56 sts`: a count, or what is said of so many stitches."""
        ahead = self.behind_have(self.skip(2))
        apart = self.flags(ahead) & COMMA and (
            self.kind(ahead + 1) == "number" or self.tells_rhythm(ahead)
        )  # 80 sts, dec 20 sts; 54 sts, every other round 3 times
        kind = self.kind(ahead) if self.joined(ahead) and not apart else ""
        if kind == "together":
            return self.together(number, ahead + 1)
        if kind == "knit" and self.kind(ahead + 1) == "together":
            return self.together(number, ahead + 2)
        if worked := self.parts_of_repeat(number) or self.worked_on(number, ahead):
            return worked
        if self.place and (self.tokens[self.place - 1].text == "away" or self.follows_there_go()):
            return Count(*self.take(2), number, -1)  # takes away seven stitches
        if kind in ("decrease", "increase", "fewer") or (kind == "more" and self.kind(ahead + 1) != "times"):
            return self.changed_stitches(number, ahead, kind)
        if part := self.for_part(number, ahead, kind) or self.left_plain(number, ahead):
            return part
        if words := self.no_count(ahead):
            return self.only_words(words)
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
        if (
            self.kind(count) == "after"
            and self.kind(count + 1) == "round"
            and self.kind(count + 2) == "number"
        ):
            count += 3  # `8 sts after rnd 7`
        sign = -1 if self.has_minus() else 0
        return Count(*self.take(count), number, sign, sure=sure)

    def tells_rhythm(self, ahead: int) -> bool:
        """Whether it is every how many rounds: `every other round`, `each 4th rnd`."""
        near = range(ahead + 1, ahead + 4)
        return self.kind(ahead) == "each" and any(self.kind(at) == "round" for at in near)

    def behind_have(self, ahead: int) -> int:
        """Behind the `have` of `12 stitches have gone`, where that stands there."""
        gone = self.skip(ahead + 1)
        return gone if self.kind(ahead) == "have" and self.kind(gone) in ("decrease", "increase") else ahead

    def has_minus(self) -> bool:
        """Whether a dash that opens a bracket stands before this number: `(-8 sts)`, `[–6]`."""
        before = self.tokens[self.place - 1] if self.place else None
        if before is None or before.kind != "(" or not self.flags(0) & DASH:
            return False
        return self.token().start - before.end <= len("- ")

    def follows_there_go(self) -> bool:
        """Whether `there go` stands before: `there go another 8 stitches`."""
        before = [token.text for token in self.tokens[max(0, self.place - 3) : self.place]]
        return ("there", "go") in set(pairwise(before)) or ("there", "goes") in set(pairwise(before))

    def changed_stitches(self, number: Number, ahead: int, kind: str) -> Phrase:
        """`8 sts decreased`, `1 st fewer between the decreases`."""
        if self.kind(ahead + 1) in ("between", "before") and kind in ("fewer", "more"):
            return Continue(*self.take(ahead + 2), manner=True)
        if self.is_each_time(ahead + 1):
            return self.only_words(ahead + 1)
        sign = 1 if kind in ("increase", "more") else -1
        return Count(*self.take(ahead + 1), number, sign)

    def is_each_time(self, ahead: int) -> bool:
        """Whether `after each of these rounds` stands there, so that it is told of several rounds."""
        return self.kind(ahead) == "after" and self.kind(self.skip(ahead + 1)) == "each"

    def for_part(self, number: Number, ahead: int, kind: str) -> Phrase | None:
        """`14 sts per needle`, `20 sts on each`; None where it is none of these."""
        if self.token(1).text == "sts each" and self.kind(2) == "needle" and self.joined(2):
            return PerPart(*self.take(3), number, needle=True)
        if self.token(1).text == "sts each" and self.kind(2) == ")":
            return PerPart(*self.take(2), number)  # [10 sections of 10 sts each]
        if self.text_of(2) == "of" and kind == "each" and self.kind(ahead + 1) == "number":
            return self.only_words(ahead + 2)  # the last two stitches of every 14
        if self.is_of_parts():
            return PerPart(*self.take(2), number)
        if kind == "between" and self.is_between_markers(ahead + 1):
            return PerPart(*self.take(ahead + 2), number)
        if self.text_of(2) == "on" and self.text_of(3) in ("a", "one") and self.kind(4) == "needle":
            return PerPart(*self.take(5), number, needle=True)  # 16 stitches on a needle
        if kind == "to" and self.kind(needle := self.skip(ahead + 1)) == "needle" and self.joined(needle):
            return PerPart(*self.take(needle + 1), number, needle=True)  # 24 stitches to a needle
        if not (
            kind in ("per", "persection")
            or (kind == "each" and self.kind(self.skip(ahead + 1)) != "round")
            or (kind in ("as", "in") and self.kind(ahead + 1) in ("each", "needle"))
        ):
            return None
        stop = ahead + 1
        while (
            self.kind(stop) in ("needle", "", "number", "each", "word")
            and stop < ahead + 5
            and self.joined(stop)
            and not self.flags(stop) & COMMA
            and self.place + stop < self.stop
        ):
            stop += 1
        needle = any(self.kind(at) == "needle" for at in range(ahead, stop))
        return PerPart(*self.take(stop), number, needle=needle)

    def is_between_markers(self, ahead: int) -> bool:
        """Whether it is `each` or `them` that markers stand for: `3 more markers with 24 sts between each`."""
        them = self.kind(ahead) == "each" or self.text_of(ahead) == "them"
        ends = self.place + ahead + 1 >= self.stop or bool(self.flags(ahead + 1) & (STOP | SEMI | COMMA))
        before = self.tokens[max(0, self.place - MOST_BEHIND_MARKERS) : self.place]
        return (
            them and (ends or self.kind(ahead + 1) == "(") and any(token.kind == "marker" for token in before)
        )

    def is_of_parts(self) -> bool:
        """Whether so many parts of the round stand before these stitches: `8 parts of 14 sts`."""
        before = self.tokens[max(0, self.place - MOST_TO_PARTS) : self.place]
        if len(before) < 3 or before[-1].text not in _WITH or before[-2].text not in _PARTS:
            return False
        equal = len(before) > 3 and before[-3].text in _EQUAL  # 6 equal sections of 16 sts
        if before[-4 if equal else -3].kind != "number":
            return False
        return before[-2].text not in _SECTIONS or before[-1].text == "with" or self.is_in_bracket()

    def is_in_bracket(self) -> bool:
        """Whether a bracket is open here: `[96 sts; 6 sections of 16 sts]`."""
        for token in reversed(self.tokens[max(0, self.place - MOST_IN_BRACKET) : self.place]):
            if token.kind in ("(", ")"):
                return token.kind == "("
        return False

    def repeats(self) -> Phrase | None:
        """`six repeats to the round`, `11 repeats`: how often a chart is worked side by side; else None."""
        if self.token(1).text not in REPEATS:
            return None
        if self.is_counted_repeat():
            return Times(*self.take(2), self.token(-2).number or ONE, total=True)
        if self.text_of(2) == "of":
            return None
        around = self.skip(3)
        of_round = self.kind(2) in ("to", "in", "per", "around", "each") and self.joined(2)
        if of_round and self.kind(around) == "each":
            around += 1
        if of_round and self.kind(2) == "around":
            return self.only_words(3)
        return self.only_words(around + 1 if of_round and self.kind(around) == "round" else 2)

    def is_counted_repeat(self) -> bool:
        """Whether repeats of rounds are counted, not some side by side: `Work 3 repeats`, `you have 3 repeats`."""
        before = self.tokens[self.place - 1] if self.place else None
        verb = before is not None and (before.kind in ("work", "repeat", "have") or before.text == "another")
        around = self.skip(3) if self.kind(2) in ("to", "in", "per", "each") else 2
        return verb and self.kind(2) not in ("around", "per") and self.kind(around) not in ("round", "each")

    def worked_on(self, number: Number, ahead: int) -> Phrase | None:
        """`2 stitches knit`; `repeating the 12 sts of the chart` works nothing itself; else None."""
        kind = self.kind(ahead) if self.joined(ahead) else ""
        if (kind in ("knit", "purl") or (kind == "right" and ahead == 2)) and self.ends_stitch(ahead):
            start, end, flags = self.take(ahead + 1)
            return Stitches(start, end, flags, Stitch(NAMES[kind], number, start, end))
        if kind == "from" and (moved := self.from_needle(ahead)):
            return self.only_words(moved)
        edge = self.skip(ahead + 1) if kind == "from" else ahead
        if number.values == (1,) and self.kind(edge) == "cast_on" and edge > 2 and self.joined(edge):
            return self.only_words(edge + 1)  # knit a stitch together with 1 st of the cast-on edge
        repeated = any(
            self.tokens[back].kind == "repeat" for back in range(max(0, self.place - 2), self.place)
        )
        return self.only_words(2) if repeated and self.token(2).text == "of" else None

    def from_needle(self, ahead: int) -> int:
        """Words of stitches that are moved: `1 st from needle 2`, `1 st from the first half`; 0 where they are not."""
        at = self.skip(ahead + 1)
        if self.kind(at) == "ordinal":
            at = self.skip(at + 1)
        return at + 1 if self.kind(at) == "needle" else 0

    def ends_stitch(self, ahead: int) -> bool:
        """Whether `2 stitches knit` ends here, and no other stitch begins."""
        behind = ahead + 1
        ended = self.place + behind >= self.stop or bool(
            self.flags(behind) & (COMMA | STOP | SEMI | DASH | EQUALS)
        )
        ended = ended or self.kind(behind) in (")", "stars", "and") or self.opens_count(behind)
        return not self.flags(ahead) & COMMA and ended

    def opens_count(self, ahead: int) -> bool:
        """Whether a bracket opens with a count alone: `(72)`, `(72 sts)`."""
        noun = self.kind(ahead + 2) == "stitch_noun"
        counted = self.kind(ahead) == "(" and self.kind(ahead + 1) == "number"
        return counted and self.kind(ahead + 2 + noun) == ")"

    def no_count(self, ahead: int) -> int:
        """How many words speak of stitches and count none: `12 sts of the chart`, `12 sts apart`, `4 sts marked`."""
        kind = self.kind(ahead) if self.joined(ahead) else ""
        if kind == "from" and (moved := self.from_needle(ahead)):
            return moved
        of_chart = kind in ("chart", "pattern") and self.token(2).text == "of"
        wide = self.skip(ahead + 1) if kind in ("to", "in", "per") else 0
        if (
            wide
            and self.kind(wide) in ("each", "repeat")
            and self.kind(wide + (self.kind(wide) == "each")) == "repeat"
        ):
            return wide + 1 + (self.kind(wide) == "each")  # 22 stitches to the repeat
        marked = ahead
        while self.joined(marked) and (self.kind(marked) == "have" or self.text_of(marked) == "been"):
            marked = self.skip(marked + 1)
        if turned := self.turned(2):
            return turned
        is_marked = self.text_of(marked) == "marked" or (marked > ahead and self.kind(marked) == "marker")
        if is_marked and self.joined(marked) and not self.flags(ahead) & COMMA:
            return marked + 1
        apart = kind == "word" and self.token(ahead).text == "apart"
        apart = apart or (kind == "between" and self.kind(ahead + 1) in (")", "marker", "each", ""))
        return ahead + 1 if of_chart or apart or kind == "repeat" else 0

    def turned(self, ahead: int) -> int:
        """How many words tell of the stitches there were, before those left: `60 stitches have become`; else 0."""
        turned = ahead
        while self.joined(turned) and self.text_of(turned) in _BECOMING:
            turned += 1
        spoken = (turned > ahead and not self.is_of_stitch()) or self.is_of_those()
        return turned if spoken and self.kind(turned) == "number" and self.joined(turned) else 0

    def is_of_stitch(self) -> bool:
        """Whether this number is of so few stitches that they are those of a decrease: `2 sts become 1`."""
        number = self.token().number
        return number is not None and max(value or 0 for value in number.values) <= MOST_OF_STITCH

    def is_of_those(self) -> bool:
        """Whether a sentence begins before this number that tells of how many others are left: `Of your 72 sts, 48`."""
        before = self.tokens[max(0, self.place - 2) : self.place]
        return len(before) > 1 and before[0].text == "of" and bool(before[0].flags & STOP)

    def remain(self) -> Phrase:
        """`rest 80`, `rem 64 sts`."""
        if self.kind(1) == "number" and self.joined(1) and self.kind(2) not in ("round", "times", "unit"):
            number = cast("Number", self.token(1).number)
            count = 3 if self.kind(2) == "stitch_noun" else 2
            if self.token().text == "over":
                return self.only_words(1 if self.flags(1) & COMMA else count)  # six times over, ninety left
            return Count(*self.take(count), number)
        if self.kind(1) == "stitch_noun":
            over = self.is_over() and self.ends_at(2)
            return Extent(*self.take(2), NOTHING, to=True) if over else self.only_words(2)
        return self.only_words(1)

    def have(self) -> Phrase:
        """`you should have 56`, `that's 80`."""
        if self.text_of(1) in ("knitted", "done", "worked") and (plain := self.ends_plain()):
            return plain
        ahead = self.skip(1)
        while self.kind(ahead) in ("remain", "total", "have") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        if self.token().text == "down to" and (reached := self.until_round(until=False)):
            return reached
        if self.token().text == "down to" and self.kind(ahead) == "number" and self.is_going_on():
            counted = self.kind(ahead + 1) in ("stitch_noun", "remain", "left") and self.joined(ahead + 1)
            if counted or self.flags(ahead + 1) & (STOP | SEMI | COMMA):
                number = cast("Number", self.token(ahead).number)
                return Until(*self.take(ahead + 1 + counted), number)
        if (
            self.kind(ahead) == "number"
            and not self.flags(ahead) & (STOP | LINE)
            and self.kind(ahead + 1) not in (*NOT_STITCHES, "rib")
            and self.token(ahead + 1).text != "of"
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
            phrase = self.next_phrase()
            if type(phrase) is Count:
                return Count(start, phrase.end, flags, number, phrase.sign)
            return phrase
        return self.only_words(1)

    def is_going_on(self) -> bool:
        """Whether rounds go on in this sentence: `keep decreasing every other round, down to 64 sts`."""
        for back in range(self.place - 1, max(self.place - MOST_GOING_ON, -1), -1):
            token, behind = self.tokens[back], self.tokens[back + 1]
            if token.kind in ("continue", "manner") or (
                token.kind in ("each", "alternate", "per")
                and behind.kind in ("round", "alternate", "ordinal")
            ):
                return True
            if token.flags & (STOP | SEMI):
                return False
        return False

    def counted(self) -> Phrase:
        """`Sts = 49`, `Stitches now: 49`, `N = 49`: a count behind its sign; else the word says nothing."""
        named = self.kind() == "stitch_noun"
        single = self.kind(1) == "fewer" and self.place > 0 and self.tokens[self.place - 1].text == "a"
        if named and single and (fewer := self.fewer_each_time(ONE)):
            return fewer  # with a stitch less before the k2tog
        ahead = 1
        while (
            named and self.kind(ahead) in _BEFORE_COUNT and self.joined(ahead) and ahead < MOST_BEFORE_COUNT
        ):
            ahead += 1
        token = self.token(ahead)
        sign = token.flags & (EQUALS | COLON if named else EQUALS)
        reach = token.start - self.token(ahead - 1).end
        if self.kind(ahead) != "number" or not sign or token.flags & LINE or reach > len(" = "):
            return self.only_words(1)
        number = cast("Number", token.number)
        behind = (
            self.flags(ahead + 1) & (STOP | SEMI | COMMA | DASH | TAB) and self.kind(ahead + 1) != "round"
        )
        if not (behind or self.kind(ahead + 1) in ("", ")", "stitch_noun")) or not all(number.values):
            return self.only_words(1)
        start, end, flags = self.take(ahead + 1 + (self.kind(ahead + 1) == "stitch_noun"))
        return Count(start, end, flags | token.flags & (EQUALS | DASH), number)

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
        return self.only_words(1)


def _with_before(reader: NumberReader) -> bool:
    """Whether `with`, `having`, `working` or `always` stands before a number."""
    return any(
        reader.tokens[back].text in ("with", "having", "working", "work", "always", "but", "each", "time")
        for back in range(max(0, reader.place - 2), reader.place)
    )


_AGO: Final = ("ago", "back", "before", "earlier", "previously")
"""What stands behind a number of rounds that were worked before."""
_OF_RIB: Final = frozenset(("ratio", "rib", "garter", "moss"))
"""Fabrics of a part that is said to be so many rounds."""
MOST_TO_RIB: Final = 9
"""Words from a number of rounds to their rib: `24 rnds of k1, p1 rib`."""
_OF_SWATCH: Final = frozenset(("gauge", "tension", "swatch", "repeat", "rep"))
"""What is so many rounds of a rib and is no part of a hat."""
_SAYS_HOW_MANY: Final = ("takes", "is", "are", "takes about", "that's", "thats", "makes", "making", "was")
_FEWER: Final = ("fewer", "knit", "purl", "plain", "stitch_noun")
_OF_FEWER: Final = (*_FEWER, "rib", "pattern", "")
MOST_FEWER: Final = 6
"""Words of `1 knit stitch fewer in rib`."""


def _fall(values: list[int | None]) -> bool:
    """Whether each number is smaller than the one before, as counts of rounds in turn are and those of sizes not."""
    return all((first or 0) > (second or 0) for first, second in pairwise(values))


FEWEST_IN_TURN: Final = 2
"""Counts of rounds in turn are more than these: `56, 48, 40 sts`."""


def _reckonings(values: list[int]) -> tuple[int, ...]:
    """What some numbers add up to, come to multiplied, or leave when the others are taken away."""
    return sum(values), prod(values), values[0] - sum(values[1:])


_SIGNS: Final = frozenset(("+", "x", "×", "and", "plus", "times", "minus", "by", "less"))
"""Words between the numbers of an equation."""
_BEFORE_NEEDLES: Final = frozenset(
    ("the", "your", "my", "our", "those", "to", "onto", "on", "with", "us", "size")
)
_MORE: Final = ("more", "such", "further", "following")
MOST_IN_TURN: Final = 24
"""Decrease rounds that are told by their number."""
MOST_BEHIND_CHART: Final = 12
"""Words between a chart and what is said of its repeat."""
MOST_GOING_ON: Final = 24
"""Words of a sentence that goes on `down to 64 sts`."""
MOST_BEFORE_LEFT: Final = 3
"""Where `left` stands at most behind a count: `63 are now left`."""
MOST_IN_REPEAT: Final = 12
"""Words of a repeat that is told by its colours."""
MOST_BETWEEN_UNITS: Final = 40
"""Words from `three and two together` to `two and two together`."""
PAIR: Final = 2
"""Stitches that are knitted together where nothing else is said."""
MOST_PLAIN: Final = 24
"""Plain stitches before a decrease that is told by no more than a number: `6+2tog`."""
_SHAPING: Final = ("decrease", "stitch")
_NAMING: Final = ("decrease", "plain")
"""What names one of two rounds: `1 decrease round and 1 plain round, 3 times`."""
_TAKING: Final = frozenset(
    ("you", "we", "i", "the", "each", "every", "take", "taking", "knit", "knitting", "work", "working")
)
"""Words between `one stitch less before` and the stitches that are knitted together."""
MOST_TAKING: Final = 3
_SHAPE: Final = ("narrow", "decrease", "dec", "reduce")
MOST_BEFORE_FACTORS: Final = 6
"""Words from a count to the two numbers of which it is made."""
_DIVIDING: Final = frozenset(("divide", "divides", "divided", "divisible", "dividing"))
_SECTIONS: Final = frozenset(("sections", "wedges", "segments"))
_PARTS: Final = _SECTIONS | frozenset(
    ("parts", "pieces", "slices", "petals", "panels", "gores", "gussets", "quarters")
)
MOST_IN_BRACKET: Final = 10
"""Words back to the bracket in which parts of the round are counted."""
MOST_TO_PARTS: Final = 4
"""Words of `6 equal sections of`."""
_WITH: Final = ("of", "with")
_EQUAL: Final = ("equal", "even")
_BEFORE_COUNT: Final = ("remain", "left", "total", "needle", "")
"""What stands between the word for stitches and the sign before their number: `Sts left on needles = 49`."""
MOST_BEFORE_COUNT: Final = 6
"""The words from that for stitches to the sign."""
MOST_OF_RIB: Final = 7
"""Knits or purls of a rib are fewer."""
MOST_ADDED: Final = 6
"""Needles whose stitches are added up."""
MOST_TERMS: Final = 12
"""Words of a sum that is printed."""
_HYPHENED: Final = frozenset(("round", "stitch_noun", "needle", "word", "gear"))
"""What a number is joined to by a hyphen to describe something: `a 4-round repeat`."""
MOST_OF_STITCH: Final = 3
"""Stitches that a decrease takes together: `3 sts become 1`."""
_TURNING: Final = frozenset(("become", "became", "turn into", "turned into"))
_BECOMING: Final = _TURNING | frozenset(
    ("have", "are", "now", "shrink", "shrunk", "drop", "go", "down to", "to", "into")
)
"""Words between the stitches there were and the number that is left of them."""
_PLAIN: Final = ("plain", "even")
MOST_BEHIND_MARKERS: Final = 4
"""Words from the markers to the stitches between them."""
_OF_OTHERS: Final = ("between", "before", "after", "each", "in", "until")
"""What stands behind rounds that are worked between others."""
_BY_KIND: Final[Mapping[str, Callable[[NumberReader, Number], Phrase | None]]] = {
    **dict.fromkeys(("purl", "slip", "stitch", "right", "left"), NumberReader.number_first),
    "knit": NumberReader.knit_first,
    **dict.fromkeys(("following", "next", "plain", "rib", "even", "odd"), NumberReader.such_rounds),
    "together": lambda reader, number: reader.together(number, 2),
    "and": NumberReader.and_together,
    "round": NumberReader.rounds,
    "word": NumberReader.worded,
    "yarn": lambda reader, number: reader.worded(number) if reader.in_repeat() else None,
    "stitch_noun": NumberReader.stitches,
    "repeat": lambda reader, _: reader.repeats(),
    "pattern": lambda reader, _: reader.repeats(),
    "times": NumberReader.times,
    "more": NumberReader.more_of,
    "fewer": NumberReader.fewer_or_more,
    "total": NumberReader.in_all,
    "remain": lambda reader, number: Count(*reader.take(2), number),
    "unit": lambda reader, _: reader.length(2),
    "in": lambda reader, _: reader.length(2) if reader.is_unit(1) else None,
    "per": NumberReader.per_needle,
    "persection": lambda reader, number: PerPart(*reader.take(2), number),
    "section": lambda reader, number: Markers(*reader.take(2), number),
    "marker": NumberReader.markers,
    "place": NumberReader.markers,
    "each": lambda reader, number: reader.markers(number) if reader.kind(2) == "needle" else None,
    "needle": NumberReader.number_of_needles,
    "gear": lambda reader, _: reader.only_words(2),
    "decrease": NumberReader.changes,
    "increase": NumberReader.changes,
}
"""How a number is read by the kind of the word behind it; None where it counts nothing after all."""
