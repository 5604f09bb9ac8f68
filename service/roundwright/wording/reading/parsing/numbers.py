"""What is counted: stitches and rounds."""

from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Final, cast

from roundwright.wording.reading.parsing.colours import COLOURS
from roundwright.wording.reading.parsing.counts import FEWER, OF_OTHERS, TURNING, CountReader
from roundwright.wording.reading.parsing.looking import BREAK, ONTO, REPEATS
from roundwright.wording.reading.phrases import (
    Again,
    Continue,
    Count,
    Markers,
    PerPart,
    Phrase,
    Rounds,
    Said,
    Stitches,
    Times,
)
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, SEMI, SPACE, STOP
from roundwright.wording.reading.tree import ONE, Evenly, Number, Stitch, Unknown, named

LONGEST_LETTER: Final = 2
"""Letters of what names a class behind its number, with the sign of a word of another language."""


class NumberReader(CountReader):
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
        if kind in FEWER and (fewer := self.fewer_each_time(number)):
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
        closed = self.kind(2) in ("stars", "repeat", ")") or bool(self.flags(2) & (SEMI | COMMA))
        if often == 1 and sign > 0 and self.in_repeat() and closed and self.flags(0) & COMMA:
            start, end, flags = self.take(2)  # *k23, 1 increase*
            return Stitches(start, end, flags, Stitch("kfb", ONE, start, end, loose=True))
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
        if self.text_of(1) in TURNING and (turned := self.turned(1)):
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
        sure = self.place > 0 and self.tokens[self.place - 1].text in TURNING  # 60 stitches have become 30
        return Count(*self.take(1), number, sure=sure)

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
        return (before or behind) and self.kind(int(behind)) not in OF_OTHERS

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


_AGO: Final = ("ago", "back", "before", "earlier", "previously")
"""What stands behind a number of rounds that were worked before."""
_OF_RIB: Final = frozenset(("ratio", "rib", "garter", "moss"))
"""Fabrics of a part that is said to be so many rounds."""
MOST_TO_RIB: Final = 9
"""Words from a number of rounds to their rib: `24 rnds of k1, p1 rib`."""
_OF_SWATCH: Final = frozenset(("gauge", "tension", "swatch", "repeat", "rep"))
"""What is so many rounds of a rib and is no part of a hat."""
_SAYS_HOW_MANY: Final = ("takes", "is", "are", "takes about", "that's", "thats", "makes", "making", "was")


def _fall(values: list[int | None]) -> bool:
    """Whether each number is smaller than the one before, as counts of rounds in turn are and those of sizes not."""
    return all((first or 0) > (second or 0) for first, second in pairwise(values))


FEWEST_IN_TURN: Final = 2
"""Counts of rounds in turn are more than these: `56, 48, 40 sts`."""


_BEFORE_NEEDLES: Final = frozenset(
    ("the", "your", "my", "our", "those", "to", "onto", "on", "with", "us", "size")
)
_MORE: Final = ("more", "such", "further", "following")
MOST_IN_TURN: Final = 24
"""Decrease rounds that are told by their number."""
MOST_BEHIND_CHART: Final = 12
"""Words between a chart and what is said of its repeat."""
MOST_BEFORE_LEFT: Final = 3
"""Where `left` stands at most behind a count: `63 are now left`."""
MOST_IN_REPEAT: Final = 12
"""Words of a repeat that is told by its colours."""
MOST_BETWEEN_UNITS: Final = 40
"""Words from `three and two together` to `two and two together`."""
PAIR: Final = 2
"""Stitches that are knitted together where nothing else is said."""
_NAMING: Final = ("decrease", "plain")
"""What names one of two rounds: `1 decrease round and 1 plain round, 3 times`."""
_DIVIDING: Final = frozenset(("divide", "divides", "divided", "divisible", "dividing"))
_HYPHENED: Final = frozenset(("round", "stitch_noun", "needle", "word", "gear"))
"""What a number is joined to by a hyphen to describe something: `a 4-round repeat`."""
_PLAIN: Final = ("plain", "even")
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
    "evenly": lambda reader, number: (
        Markers(*reader.take(3), number) if reader.kind(2) == "section" else None
    ),
    "marker": NumberReader.markers,
    "place": NumberReader.markers,
    "each": lambda reader, number: reader.markers(number) if reader.kind(2) == "needle" else None,
    "needle": NumberReader.number_of_needles,
    "gear": lambda reader, _: reader.only_words(2),
    "decrease": NumberReader.changes,
    "increase": NumberReader.changes,
}
"""How a number is read by the kind of the word behind it; None where it counts nothing after all."""
