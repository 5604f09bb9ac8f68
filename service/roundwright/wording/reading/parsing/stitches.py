"""Stitches: `k4`, `knit 2 together`, `dec 8 sts evenly`."""

import re
from typing import Final, cast

from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.parsing.looking import BREAK, NAMES, OFTEN, TOGETHER
from roundwright.wording.reading.parsing.new_stitches import NewStitchReader
from roundwright.wording.reading.phrases import (
    Again,
    AtEnds,
    Brackets,
    CastOn,
    Change,
    Continue,
    Count,
    PassOver,
    Phrase,
    Rounds,
    Stitches,
)
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, FULL, LINE, SEMI, SLASH, STOP
from roundwright.wording.reading.tree import ONE, Evenly, Number, Stitch, Unknown, named

_BEHIND_DEC_ROUND: Final = ("number", "often", "until", "only", "more")
_BEFORE_PAGES: Final = frozenset(
    ("book", "on", "see", "page", "magazine", "leaflet", "from", "issue", "also", "cf")
)
MOST_OF_CABLE: Final = 24
"""Words from the stitches that are slipped to a cable needle to those that are worked from it."""
MOST_BEFORE_THEM: Final = 7
"""Words between the number of some stitches and `knit them together`."""
FEWEST_CAST_ON: Final = 30
"""Stitches that are made at once at the beginning; fewer may be made in a round."""
MOST_TO_WORK: Final = 9
"""Words from `knit in the 1st rnd of the crown` to what is worked."""
MOST_BEFORE_CAST_ON: Final = 10
"""Words of a sentence before `make 104 stitches`, which tell the needle and the yarn."""
_BEFORE_CAST_ON: Final = frozenset(
    ("", "gear", "needle", "number", "decimal", "word", "yarn", "and", "unit", "size")
)
_WHO: Final = frozenset(("we", "you", "we've", "you've", "i've", "that", "just", "did"))
_JUST: Final = frozenset(("just", "now", "already", "thus", "so", "thereby"))
_HAVE: Final = frozenset(
    (
        "you have",
        "we have",
        "have",
        "has",
        "you've",
        "we've",
        "i've",
        "i have",
        "they've",
        "you'll have",
        "you will have",
        "should have",
        "you should have",
    )
)
_ON_WHAT: Final = ("on", "with", "over")
"""Words before the number of what is decreased on or with, and not by: `Decreases on 60 (70, 80) sts`."""
_LOST: Final = frozenset(("lost", "lose", "decreased", "dropped", "gained"))
_WILL: Final = frozenset(("will", "you'll", "youll", "we'll", "it'll", "that'll", "should have"))
_COMING: Final = _WILL | frozenset(("this", "it", "you should have"))
"""Words behind which and before `8 stitches` a decrease may be told, and not worked: `you'll lose 8 stitches`."""
_ONCE: Final[dict[StitchName, int]] = {"k2tog": 2, "p2tog": 2, "ssk": 2, "skp": 2, "kfb": 1, "m1": 0}
"""Stitches that are placed at every so many others, with what they use."""
_IN_GROUPS: Final = {"pairs": 2, "twos": 2, "threes": 3}
"""How many stitches are worked together `in pairs`."""
_AT: Final = ("in", "each", "after")
MOST_TO_MARKER: Final = 6
"""Words from the number of stitches to the marker at which they are decreased."""
_OF_PLAIN_ROUND: Final = ("around", "number", "round", "next", "and", "then", "", "end", "to")
"""Kinds of words that stand between `knit` and the stitch by which its round is more or less."""
_OF_PLACE: Final = frozenset(
    ("", "in", "begin", "end", "last", "first", "ordinal", "next", "round", "stitch_noun", "marker")
)
"""Kinds of words that tell where in the round that stitch is."""
_SOMEWHERE: Final = frozenset(("midway", "halfway", "somewhere", "anywhere", "about"))
"""Words that tell it roughly."""
_BEGINS: Final = STOP | COLON | SEMI | DASH | LINE
_COUNTED: Final = ("number", "stitch", "stitch_noun", "knit", "purl")
_PASSED_STITCHES: Final = ("slip", "number", "stitch_noun", "", "each", "first", "ordinal", "these")
_NAMING_STITCHES: Final = frozenset(("the", "each", "every", "all", "those", "these"))
"""Words behind which stitches are called by how they were made."""
_MOVED: Final = ("number", "stitch_noun", "", "these", "all", "each", "remain", "last", "next", "following")
"""Kinds of words between `slip` and the needle to which stitches are put."""
_RIGHT: Final = ("right", "rh", "r", "working", "right-hand")
"""To which needle stitches are put that are slipped: `slip the next st to the right needle, k2tog, psso`."""
MOST_MOVED: Final = 6
"""Words from `slip` to `onto`."""
CRAFTING: Final = {"knitting": "knit", "purling": "purl"}
"""Verbs of work that is told beside other work: `by knitting 6 sts`."""
_LEADING: Final = frozenset(("by", "then", "and"))
_TWISTED: Final[dict[StitchName, StitchName]] = {"k2tog": "ssk", "p2tog": "ssp"}


class StitchReader(NewStitchReader):
    """Reads stitches."""

    def crafting(self) -> Phrase | None:
        """`by knitting 6 sts`, `, knitting any rem sts`: what is worked there; None for `, knitting 1 st fewer`."""
        led = bool(self.flags(0) & COMMA) or (self.place and self.tokens[self.place - 1].text in _LEADING)
        ahead = 1 + (self.text_of(1) in ("any", "the", "all"))
        counted = self.kind(ahead) in ("number", "last", "remain")
        noun = ahead + 1 + (self.kind(ahead) != "number" and self.kind(ahead + 1) == "number")
        counted = counted and self.kind(noun) == "stitch_noun" and self.joined(noun)
        ends = self.ends_at(noun + 1) or self.kind(noun + 1) in ("and", "then")
        return self.craft(CRAFTING[self.token().text]) if led and counted and ends else None

    def craft(self, craft: str = "") -> Phrase:
        """`k`, `k4`, `knit 4 sts`, `k 2 tog`, `knit every 7th and 8th st together`."""
        craft = craft or self.kind()
        if craft in ("right", "left") or self.is_told_aside():
            return self.only_words(1)
        ahead = self.skip(1)
        if self.is_before_number(ahead):
            ahead = self.skip(ahead + 1)
        if self.text_of(ahead) == "always" and self.kind(self.skip(ahead + 1)) == "number":
            ahead = self.skip(ahead + 1)  # knit always 2 sts together
        glue = self.flags(ahead)
        if self.kind(ahead) == "last" and (ends := self.last_together(ahead)):
            return ends
        ahead += self.is_last(ahead)
        rounds = self.all_rounds(counted=True) if self.text_of(1) in ("the", "all") else None
        if rounds is None and (
            self.kind(ahead) == "number"
            and not glue & (BREAK | DASH | SLASH)
            and (not glue & COMMA or self.kind(ahead + 1) not in ("stitch_noun", "remain"))
        ):
            return self.craft_number(craft, ahead)
        if whole := rounds or self.told_of_all(craft, ahead):
            return whole
        if held := self.held_in_cable(ahead):
            return Stitches(*self.take(ahead + 4), Stitch(NAMES[craft], held, held.start, held.end))
        if self.kind(ahead) == "stitch_noun" and self.joined(ahead) and ahead > 1:
            return Stitches(
                *self.take(ahead + 1), Stitch(NAMES[craft], ONE, self.at(-ahead - 1), self.at_end())
            )
        return self.bare(craft)

    def is_told_aside(self) -> bool:
        """Whether the work of a round follows: `as you knit the next rnd, k3, kfb`, `k, at every 4th st inc 1`."""
        ahead = self.skip(1)
        named = self.kind(ahead) == "next" and self.kind(ahead + 1) == "round"
        behind = self.skip(ahead + 2 if named else 1)
        behind = self.skip(behind + (self.kind(behind) in ("and", "then")))
        spoken = named and [token.text for token in self.tokens[max(0, self.place - 2) : self.place]] == [
            "as",
            "you",
        ]
        if spoken and self.joined(ahead + 2) and self.kind(behind) in ("knit", "purl", "stars", "("):
            return True
        behind = self.skip(behind + (self.kind(behind) == "in"))
        every = [self.kind(behind + at) for at in range(3)] == ["each", "ordinal", "stitch_noun"]
        return every and self.joined(behind) and self.kind(self.skip(behind + 3)) == "increase"

    def is_last(self, ahead: int) -> bool:
        """Whether a word says that the stitches behind it are the last: `knit the remaining 3 sts`, `k last st`."""
        if self.kind(ahead) not in ("last", "remain"):
            return False
        if self.kind(ahead + 1) == "number":
            return self.joined(ahead + 1)  # not `knit the rest. 72 sts`
        ends = self.kind(ahead + 2) == ")" or self.ends_at(ahead + 2)
        return ends and self.text_of(ahead + 1) in ("st", "stitch")

    def is_before_number(self, ahead: int) -> bool:
        """Whether a word says which stitches are counted behind it: `knit the next 2`, `knit the first 10 sts`."""
        if self.kind(ahead) in ("next", "following"):
            return self.joined(ahead)
        counted = self.kind(ahead + 1) == "number" and self.kind(ahead + 2) == "stitch_noun"
        together = self.kind(self.skip(ahead + 3)) == "together"
        return self.text_of(ahead) == "first" and counted and not together and self.joined(ahead + 2)

    def held_in_cable(self, ahead: int) -> Number | None:
        """How many stitches were slipped, where `knit sts from cable needle` works them; None where it works others."""
        words = [self.text_of(ahead + at) for at in range(1, 4)]
        if self.kind(ahead) != "stitch_noun" or words != ["from", "cable", "needle"]:
            return None
        for place in range(self.place - 1, max(self.place - MOST_OF_CABLE, 0), -1):
            token, number = self.tokens[place], self.tokens[place + 1].number
            if token.kind == "slip" and number is not None:
                return number
            if token.flags & STOP:
                return None
        return None

    def last_together(self, ahead: int) -> Phrase | None:
        """`knit the last 2 sts of each part together`; None where anything else is told of the last stitches."""
        begun, first = self.place, self.token()
        self.place += ahead
        ends = self.last_of_each()
        if type(ends) is AtEnds:
            return replace(ends, start=first.start, flags=first.flags)
        self.place = begun
        return None

    def last_of_each(self) -> Phrase:
        """`the last two stitches of each part together`."""
        raise NotImplementedError

    def told_of_all(self, craft: str, ahead: int) -> Phrase | None:
        """`knit every 7th and 8th st together`, `knit all sts 2 and 2 together`: the whole round told at once."""
        if self.token(ahead).text == "always" or self.kind(ahead) == "only":
            ahead = self.skip(ahead + 1)
        kind = self.kind(ahead)
        if kind == "ordinal" and (position := self.position(craft, ahead - 1)):
            return position
        if kind == "these" and (these := self.these(craft, ahead)):
            return these
        if (
            kind in ("these", "last", "ordinal")
            and self.names_rounds(ahead)
            and (again := self.again_from(ahead))
        ):
            return replace(again, work=True)
        if kind == "each" and (position := self.position(craft, ahead)):
            return position
        if kind == "together" and (craft, 2) in TOGETHER:
            if shared := self.by_so_many(craft, ahead + 1):
                return shared
            every = self.at_every(ahead + 1, TOGETHER[craft, 2])
            spoken = self.token().text.endswith("ed") and self.joined(ahead)
            return every or (
                self.only_words(ahead + 1) if spoken else None
            )  # the last two are to be knitted together
        if kind == "stitch_noun" and self.kind(ahead + 1) == "together":
            return self.by_so_many(craft, ahead + 2)
        return self.pairs(craft, ahead) if kind in ("each", "all", "number", "often") else None

    def purl(self) -> Phrase:
        """`p4`; of `book, p. 41` it is the page."""
        return self.only_words(2) if self.is_page() else self.craft()

    def slip(self) -> Phrase:
        """`sl 3`; stitches that are put on another needle are not worked."""
        return self.to_needle() or self.craft()

    def is_page(self) -> bool:
        """Whether it is the page of something: `book, p. 41`, `see p. 3`."""
        token, number = self.token(), self.token(1)
        dotted = token.text in ("p", "pp") and self.kind(1) == "number" and number.start > token.end + 1
        before = self.tokens[self.place - 1].text if self.place else ""
        return dotted and before in _BEFORE_PAGES

    def names_rounds(self, ahead: int) -> bool:
        """Whether rounds are named: `knit these 4 rounds 9 times`, `knit the 1st-6th round 6 times`."""
        at = ahead + 1
        while self.kind(at) in ("number", "ordinal", "and", "to", "last", "") and at < ahead + 6:
            at += 1
        behind = self.behind_total(at + 1)
        often = self.kind(behind) in ("number", "often", "until", "more", "times", "only")
        single = self.kind(ahead) == "ordinal" and self.kind(behind) in ("only", "until")
        return self.kind(at) == "round" and (at > ahead + 1 or single) and often

    def these(self, craft: str, ahead: int) -> Phrase | None:
        """`knit those two together`, `knit that one`."""
        if self.kind(ahead + 1) == "together" and (name := TOGETHER.get((craft, self.number_before()))):
            start, end, flags = self.take(ahead + 2)
            return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        if self.kind(ahead + 1) != "number" or not self.joined(ahead + 1):
            return None
        if self.kind(self.skip_nouns(ahead + 2)) == "together":
            return self.craft_number(craft, ahead + 1)
        if not self.flags(ahead + 2) & (STOP | COMMA | SEMI):
            return None
        number = self.token(ahead + 1).number or ONE
        start, end, flags = self.take(ahead + 2)
        return Stitches(start, end, flags, Stitch(NAMES[craft], number, start, end))

    def number_before(self) -> int:
        """How many stitches `them` is: those of `to 2 stitches before the marker`; 0 where none are told."""
        for at in range(self.place - 1, max(self.place - MOST_BEFORE_THEM, 0) - 1, -1):
            number, before = self.tokens[at].number, self.tokens[at - 1].text
            of_them = before == "of" or (before == "the" and self.tokens[at - 2].text == "of")
            if self.tokens[at].kind == "number" and number is not None and not of_them:
                return number.of(0) or 0
        return 0

    def skip_nouns(self, ahead: int) -> int:
        """Behind the word `stitches`, where that stands there."""
        return ahead + 1 if self.kind(ahead) == "stitch_noun" and self.joined(ahead) else ahead

    def bare(self, craft: str) -> Phrase:
        """`knit`, without a number."""
        if self.text_of(1) == "with" and any(self.kind(at) in ("ordinal", "needle") for at in (2, 3)):
            return self.only_words(
                4 if self.kind(3) in ("ordinal", "needle") else 3
            )  # and knit with the fifth needle
        if self.is_verb_of_round():
            return self.only_words(1)
        if made := self.verb_of_increases():
            return self.only_words(made)
        start, end, flags = self.take(1)
        if self.kind() == "tbl" and self.joined(0):
            _, end, _ = self.take(1)
        return Stitches(start, end, flags, Stitch(NAMES[craft], ONE, start, end, bare=True))

    def verb_of_increases(self) -> int:
        """Where the increases begin of `knit around, increasing 1 st in each st`; 0 where others are told, or none."""
        ahead = 1
        while self.kind(ahead) in ("around", "number", "round", "next") and not self.flags(ahead) & STOP:
            ahead += 1
        if self.kind(ahead) != "increase" or self.flags(ahead) & STOP or ahead > MOST_TO_WORK:
            return 0
        return ahead if self.in_each_stitch(self.skip(ahead + 1)) else 0

    def is_verb_of_round(self) -> bool:
        """Whether `knit` is only the verb of the round behind it: `knit in the 1st rnd of the crown *k10, k2tog`."""
        ahead = 2 + (self.text_of(2) == "the")
        if self.text_of(1) != "in" or self.kind(ahead) not in ("ordinal", "next", "following"):
            return False
        if self.kind(ahead + 1) != "round" or not self.joined(ahead + 1):
            return False
        ahead += 2
        while self.kind(ahead) in ("", "word") and self.joined(ahead) and ahead < MOST_TO_WORK:
            ahead += 1
        return self.kind(ahead) in ("stars", "(") and ahead <= MOST_TO_WORK

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
            start, end, flags = self.take(behind + 3 + (self.kind(behind + 2) == "stitch_noun"))
            return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        stop = behind
        if self.kind(stop) == "stitch_noun" and self.joined(stop) and not self.flags(stop) & COMMA:
            stop += 1
        elif self.kind(stop) == "next" and self.kind(stop + 1) == "stitch_noun":
            stop += 2
        start, end, flags = self.take(stop)
        return Stitches(start, end, flags, Stitch(NAMES[craft], number, start, end))

    def to_needle(self) -> Phrase | None:
        """`slip 3 sts to the cable needle`: they are worked later; None where they are only slipped."""
        ahead = 1
        while self.kind(ahead) in _MOVED and self.text_of(ahead) != "on" and ahead < MOST_MOVED:
            if self.flags(ahead) & (BREAK | COMMA):
                return None
            ahead += 1
        if self.kind(ahead) != "to" and self.token(ahead).text not in ("on", "onto"):
            return None
        for at in range(ahead + 1, ahead + 5):
            if self.kind(at) == "needle" or self.token(at).text == "cn":
                return self.only_words(at + 1)
            if self.flags(at) & (BREAK | COMMA) or self.text_of(at) in _RIGHT:
                return None
        return None

    def counts_other(self, behind: int) -> bool:
        """Whether a number counts rounds, a length or times, and not the stitches: `knit 2 more rnds`."""
        ends = self.place + behind + 1 >= self.stop or bool(self.flags(behind + 1) & STOP)
        if self.text_of(behind) == "more" and self.joined(behind) and ends:
            return True  # knit 18 more
        noun = behind + 1 if self.kind(behind) in ("more", "next", "plain", "even") else behind
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
        if stitches == 1 and self.text_of(stop) == "with":
            name = NAMES.get(craft)  # a stitch together with one of the cast-on edge
        if self.kind(stop) == "tbl" and self.joined(stop):
            stop += 1
            name = _TWISTED.get(name, name) if name else None
        if name in ("k2tog", "p2tog") and self.kind(at := self.skip(stop)) in _AT:
            begin = self.place
            self.place += stop - 1
            if every := self.at_every(at - stop + 1, name):
                return every
            self.place = begin
        start, end, flags = self.take(stop)
        if name:
            return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        if craft == "slip":
            return Stitches(start, end, flags, Stitch("sl", number, start, end))
        return Stitches(start, end, flags, Unknown(f"{craft} {stitches} tog", start, end))

    def craft_pairs(self, craft: str, number: Number, behind: int) -> StitchName | None:
        """The decrease of `knit 2 and 2 together`; None where it is none, as behind `knit 3 and 2 together`."""
        if (
            self.kind(behind) != "and"
            or self.kind(behind + 1) != "number"
            or self.kind(self.skip_nouns(behind + 2)) != "together"
            or number.values != cast("Number", self.token(behind + 1).number).values
        ):
            return None
        return None if self.in_row_of_units() else TOGETHER.get((craft, number.of(0) or 0))

    def pairs(self, craft: str, ahead: int) -> Phrase | None:
        """`knit all sts 2 and 2 together`, `knit every 2 sts together`: two together all around."""
        begun = ahead
        if self.kind(ahead) in ("each", "all"):
            ahead = self.skip(ahead + 1)
            ahead += self.kind(ahead) == "remain"
            if self.kind(ahead) == "stitch_noun":
                ahead = self.skip(ahead + 1)
            if self.kind(ahead) == "together" and (shared := self.by_so_many(craft, ahead + 1)):
                return shared
        if self.kind(ahead) == "number" and ahead > begun:
            stitches = (self.token(ahead).number or ONE).of(0) or 0
            by = self.text_of(ahead + 1) == "by" and self.kind(ahead + 2) == "number"  # two by two
            ahead += 3 * by
            while self.kind(ahead) in ("number", "and", "stitch_noun") and self.joined(ahead):
                ahead += 1
            if self.kind(ahead) == "together" and (name := TOGETHER.get((craft, stitches))):
                start, end, flags = self.take(ahead + 1)
                return Stitches(start, end, flags, Stitch(name, ONE, start, end))
        return None

    def by_so_many(self, craft: str, ahead: int) -> Phrase | None:
        """`two by two`, `2 and 2`, `in twos` behind `all sts together`; None where none of these stands there."""
        words = 3
        if self.text_of(ahead) == "in":
            stitches, words = _IN_GROUPS.get(self.text_of(ahead + 1), 0), 2
        elif self.kind(ahead) == "number" and self.text_of(ahead) == self.text_of(ahead + 2):
            joined = self.kind(ahead + 1) == "and" or self.text_of(ahead + 1) == "by"
            stitches = ((self.token(ahead).number or ONE).of(0) or 0) * joined
        else:
            return None
        name = TOGETHER.get((craft, stitches))
        if name is None or not self.joined(ahead + words - 1):
            return None
        start, end, flags = self.take(ahead + words)
        return Stitches(start, end, flags, Stitch(name, ONE, start, end))

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
        if self.kind(stop) != "together" or (three and len(pairs) > 1):
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
        start, end, flags = self.take(stop + 1)
        nodes = [
            Stitches(start, end, 0, stitch)
            for between in plain
            for stitch in (
                Stitch(NAMES[craft], Number(between), start, end),
                Stitch(TOGETHER[craft, 2 + three], ONE, start, end),
            )
        ]
        return Brackets(start, end, flags, tuple(nodes))

    def is_first_of_three(self, ahead: int) -> bool:
        """Whether three in a row begin here: `every 6th, 7th and 8th stitch`."""
        kinds = [self.kind(ahead + behind) for behind in range(4)]
        first, second, third = (self.ordinal_at(ahead + behind) for behind in (0, 1, 3))
        return kinds == ["ordinal", "ordinal", "and", "ordinal"] and (second, third) == (first + 1, first + 2)

    def positions_alone(self) -> Phrase | None:
        """`then always the 10th and 11th stitch together`: 9 plain, 2 together; else None."""
        others = self.place > 0 and self.tokens[self.place - 1].kind == "ordinal"  # 5th, 6th, 7th, 8th
        return None if others else self.position("knit", -1)

    def stitch(self) -> Phrase:
        """`k2tog`, `ssk`."""
        name = self.token().means
        if self.token().text.startswith("make") and self.kind(1) == "round" and self.joined(1):
            return Rounds(*self.take(2), ONE)  # make one round knit only
        named = self.place > 0 and self.tokens[self.place - 1].text in _NAMING_STITCHES
        if named and self.kind(1) == "stitch_noun" and not self.flags(1) & (BREAK | COMMA):
            return self.only_words(2)  # in rib as set, knitting the s2kp sts
        if named and [token.kind for token in self.tokens[self.place - 3 : self.place - 1]] == [
            "stitch_noun",
            "and",
        ]:
            return self.only_words(1)  # knit every stitch and every yarn over
        loose = name == "kfb" and self.token().text.startswith("inc")
        at = self.skip(self.skip_nouns(1))  # make one stitch after every fifth stitch
        if name in _ONCE and self.kind(at) in _AT and (every := self.at_every(at, name)):
            return every
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

    def of_markers(self) -> int:
        """The words of a marker, `removing m - 12 sts rem`, or of their number, `makes 8 markers`; else 0."""
        if self.kind(1) != "number":
            return 0
        if self.text_of(0) == "makes" and self.kind(2) == "marker" and self.joined(2):
            return 3
        apart = self.text_of(0) == "m" and self.flags(1) & DASH
        return int(bool(apart) and self.kind(2) in ("stitch_noun", "remain", "left"))

    def make(self) -> Phrase:
        """`m1`, `make 1`; `make 8 rounds`; `make 104 stitches` at the beginning casts them on."""
        if words := self.of_markers():
            return self.only_words(words)
        if cast_on := self.all_made():
            return cast_on
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
            named = self.kind(2) == "word" and self.joined(2) and not self.flags(2) & COMMA
            if self.token().text == "makes" and number.of(0) != 1 and not named:
                return Count(*self.take(2), number)  # that makes sixty
            if name == "m1" and number.of(0) != 1 and self.kind(2) in ("word", "decrease") and self.joined(2):
                return self.only_words(2)  # `make 8 neat ribs`
            if count == 2 and self.kind(2) == "stitch_noun":
                count = 3
            after = self.skip(count) if name == "m1" and number.of(0) == 1 else 0
            if after and self.kind(after) == "after" and (every := self.at_every(after, "m1")):
                return every
            start, end, flags = self.take(count)
            if number.of(0) == 1:
                return Stitches(start, end, flags, Stitch(name, ONE, start, end))
            return Stitches(start, end, flags, Stitch("m1", number, start, end))
        if self.token().text == "m":
            return self.marker()
        return self.only_words(1)

    def all_made(self) -> Phrase | None:
        """`With nr. 7 make 104 stitches`: all that are cast on; None where they are made beside others."""
        ahead = self.skip(1)
        number = self.token(ahead).number if self.kind(ahead) == "number" else None
        if self.token().text != "make" or number is None or self.kind(ahead + 1) != "stitch_noun":
            return None
        if any((value or 0) < FEWEST_CAST_ON for value in number.values) or not self.joined(ahead):
            return None
        for back in range(self.place, max(self.place - MOST_BEFORE_CAST_ON, -1), -1):
            if not back or self.tokens[back].flags & FULL or self.tokens[back].flags & LINE:
                return CastOn(*self.take(ahead + 2), number)
            if self.tokens[back - 1].kind not in _BEFORE_CAST_ON:
                return None
        return None

    def pass_over(self) -> Phrase:
        """`psso`."""
        return PassOver(*self.take(1))

    def passed(self) -> Phrase:
        """`pass 2 sl sts over`, `pass both slipped loops over the knitted one`."""
        for ahead in range(1, 7):
            if self.token(ahead).text == "over" and self.joined(ahead):
                return PassOver(*self.take(ahead + 1))
            if self.kind(ahead) not in _PASSED_STITCHES and self.token(ahead).text != "both":
                break
        return self.only_words(1)

    def decrease(self) -> Phrase:
        """`dec 8 sts evenly`, `dec to 64 sts`, `dec 1`, `decreasing`, `narrow every 9th and 10th stitch`."""
        sign = 1 if self.kind() == "increase" else -1
        if spaced := self.spaced(sign):
            return spaced
        ahead = self.skip(1)
        if sign > 0 and self.kind(ahead) == "in" and self.kind(self.skip(ahead + 1)) in ("next", "following"):
            noun = self.skip(self.skip(ahead + 1) + 1)
            if self.kind(noun) == "stitch_noun":
                start, end, flags = self.take(noun + 1)
                return Stitches(start, end, flags, Stitch("kfb", ONE, start, end, loose=True))
        if spoken := self.spoken_of(sign) or self.done_again():
            return spoken
        ahead += self.kind(ahead) == "only" and self.is_of_whole_round(ahead + 1)
        if self.kind(1) == "round" and not self.flags(1) & (STOP | COMMA) and (again := self.round_again()):
            return again
        while self.kind(ahead) == "evenly" and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        to = self.kind(ahead) == "to" and self.kind(self.skip(ahead + 1)) == "number"
        if to:
            ahead = self.skip(ahead + 1)
        parted = bool(self.flags(ahead) & (COMMA | SLASH)) or self.begins_a_list(ahead)
        parted = parted or (ahead > 1 and self.is_no_number_of_changes(ahead))
        parted = parted or (self.text_of(ahead) == "once" and self.is_between_stitches())
        if self.kind(ahead) in ("number", "often") and self.joined(ahead) and not parted:
            return self.changed(sign, ahead, to=to)
        if self.is_between_stitches():
            start, end, flags = self.take(1)
            name: StitchName = "kfb" if sign > 0 else "k2tog"
            return Stitches(start, end, flags, Stitch(name, ONE, start, end, loose=True))
        return Change(*self.take(1), sign)

    def done_again(self) -> Phrase | None:
        """`decrease again`, `once more`, `one last time`: how often stands behind; else None."""
        return Continue(*self.take(1), manner=True) if self.is_once_more(self.skip(1)) else None

    def is_once_more(self, ahead: int) -> bool:
        """Whether the words there tell to do as before once more, and no more."""
        word = self.token(ahead)
        again = word.kind == "more" and word.text == "again"
        often = word.kind == "often" and (bool(word.means) or self.kind(ahead + 1) == "more")
        behind = ahead + 1 + (often and self.kind(ahead + 1) == "more")
        ends = self.place + behind >= self.stop or bool(
            self.flags(behind) & (STOP | COMMA | SEMI | COLON | DASH | EQUALS)
        )
        ends = ends and self.kind(behind) not in ("often", "times", "until")  # decrease again, twice
        return (again or often) and self.joined(ahead) and (ends or self.kind(behind) in ("(", "and", "then"))

    def is_no_number_of_changes(self, ahead: int) -> bool:
        """Whether a number behind the verb tells of what: `dec with 1 sk2p`, `decreases on 60 sts`, `with 4 markers`.

        `with 6 ssk` and `with 7 sts` tell how many are decreased.
        """
        before, counted = self.text_of(ahead - 1), self.token(ahead + 1)
        if counted.kind == "stitch" and self.joined(ahead + 1):
            number = self.token(ahead).number
            return number is None or number.values == (1,) or counted.means not in _ONCE
        marked = "marker" in (counted.kind, self.kind(ahead + 2))
        return before in _ON_WHAT and (before != "with" or marked)

    def begins_a_list(self, ahead: int) -> bool:
        """Whether the number there is that of the first round of a list: `Begin dec. 1. Dec rnd: ...`."""
        begun = self.place > 0 and self.tokens[self.place - 1].kind == "begin"
        dotted = bool(self.flags(ahead + 1) & STOP) and self.place + ahead + 1 < self.stop
        return begun and dotted and self.kind(ahead) == "number"

    def spoken_of(self, sign: int) -> Phrase | None:
        """`on each dec rnd`, `you have decreased 8 sts`: nothing is worked here; else None."""
        before = self.tokens[self.place - 1].text if self.place else ""
        if before in ("each", "every", "on each", "on every") and self.kind(1) == "round":
            return self.only_words(2)
        counted = self.kind(1) == "number" and self.kind(2) == "stitch_noun"
        if counted and self.is_past() and self.ends_at(3):
            number = self.token(1).number or ONE
            return Count(*self.take(3), number, sign)  # you've just lost 8 stitches
        if before == "which" and self.kind(1) == "number" and self.ends_at(2):
            number = self.token(1).number or ONE
            return Count(*self.take(2), number, sign)  # which gets rid of ten
        if before in _WHO and self.token().text in _LOST:
            ahead = 1
            while self.place + ahead < self.stop and not self.flags(ahead) & STOP and self.kind(ahead) != ")":
                ahead += 1
            return self.only_words(ahead)  # `we lost 2 in each quarter, so 8 in total`
        spoken = (
            before in ("have", "has", "that", "which")
            or (before == "you" and not self.is_where())
            or (before in _COMING and self.is_to_come())
        )
        if counted and spoken:
            number = self.token(1).number or ONE
            return Count(*self.take(3), number, sign)
        return None

    def is_where(self) -> bool:
        """Whether `where` or `while` stands before `you`: `knit 1 round where you decrease 8 sts evenly`."""
        return self.place > 1 and self.tokens[self.place - 2].text in ("where", "while", "whilst", "as")

    def is_to_come(self) -> bool:
        """Whether a sentence says what a round takes out: `You'll lose 8 stitches`, `This uses up 8 stitches`.

        `On the next round you will decrease 8 sts` tells it to be done.
        """
        text, before = self.token().text, self.tokens[self.place - 1]
        if self.flags(0) & (STOP | COMMA | SEMI | COLON):
            return False
        if before.text in _WILL and text in _LOST:
            return True
        subject = self.tokens[self.place - 2] if before.text == "will" and self.place > 1 else before
        foretold = before.text in _WILL or text.endswith(("s", "s up")) or text in _LOST
        begun = self.tokens[self.place - 2 - (subject is not before)] if self.place > 1 else before
        begins = bool(subject.flags & STOP) or self.place < 2 or begun.kind in ("stars", ")")
        return foretold and begins and self.ends_at(3)

    def is_past(self) -> bool:
        """Whether somebody is said to have decreased: `you've just lost`, `we have now got rid of`."""
        back = -1
        while self.place + back >= 0 and self.text_of(back) in _JUST:
            back -= 1
        before = self.text_of(back) if self.place + back >= 0 else ""
        past = self.token().text in (*_LOST, "got rid of")
        return before in _HAVE or (before in ("we", "you", "i") and past)

    def round_again(self) -> Phrase | None:
        """`dec rnd`, worked again alone or with others: `dec rnd, k 1 rnd`; None where it is only spoken of."""
        begins = self.begins_clause()
        if self.token(2).flags & COLON and self.token(1).text.endswith("s"):
            return None  # `Decrease rounds:` is a heading
        if (begins or self.after_then()) and (sequence := self.sequence(0)):
            return sequence
        often = self.token(2).text == "x" and self.kind(3) == "number"  # dec rnd x3
        apart = often or self.kind(2) in ("each", "(", ")") or bool(self.flags(2) & (STOP | COMMA | SEMI))
        if (
            self.kind(2) in _BEHIND_DEC_ROUND
            or self.after_then()
            or (begins and apart)
            or self.is_round_again()
            or self.is_bracketed_often()
        ):
            names = (named(self.kind()),)
            return Again(*self.take(2), names, last=1, work=True)
        return None

    def is_bracketed_often(self) -> bool:
        """Whether nothing else stands in a bracket, and how often behind it: `[dec rnd] 3 times`."""
        opened = self.place > 0 and self.tokens[self.place - 1].kind == "("
        often = self.kind(3) == "often" or self.kind(4) in ("times", "more")
        return opened and self.kind(2) == ")" and often

    def is_round_again(self) -> bool:
        """Whether `dec rnd` is worked again: `dec rnd, k 1 rnd`, `dec rnd every rnd until 14 sts remain`."""
        if self.flags(2) & COMMA:
            return True
        if self.kind(2) not in ("each", "per", "alternate"):
            return False
        for ahead in range(3, 9):
            if self.place + ahead >= self.stop or not self.joined(ahead):
                return False
            if self.kind(ahead) in ("until", "times", "often", "to"):
                return True
        return False

    def is_between_stitches(self) -> bool:
        """Whether `dec` or `inc` stands where a stitch does: `*k8, dec; rep from *`."""
        before = self.tokens[self.place - 1] if self.place else None
        if self.token().text not in ("dec", "inc", "narrow", "decrease", "increase") or before is None:
            return False
        joint = before.kind in ("and", "then") and not before.flags & _BEGINS  # knit 9 sts and narrow, repeat
        counted = self.tokens[self.place - 1 - joint].kind in _COUNTED
        opens = before.kind in ("stars", "(") or (counted and (joint or bool(self.flags(0) & COMMA)))
        closes = (
            self.kind(1) in ("stars", ")", "repeat", "knit", "purl", "around") or self.text_of(1) == "once"
        )
        plain = self.place > 1 and self.tokens[self.place - 2].kind in ("knit", "purl") and opens
        if plain and before.kind == "number" and (self.place + 1 >= self.stop or self.flags(1) & STOP):
            return True  # a round of k 3, narrow
        return opens and (closes or bool(self.flags(1) & (COMMA | SEMI)))

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
        pair, counted, several = bool(seconds), self.kind(ahead + 1) == "number", _ONCE[name] > 1
        follow = several and seconds == tuple(number + 1 for number in numbers)
        worked_of = 0 if behind else 1
        if not behind and not pair and several and counted:
            worked_of = _ONCE[name]  # dec 1 st every 11 sts: of those, the last two
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

    def changed(self, sign: int, ahead: int, *, to: bool) -> Phrase:
        """So many stitches decreased or increased, or `to` so many."""
        often = self.token(ahead) if self.kind(ahead) == "often" else None
        if self.is_explained(ahead + 1):
            return self.only_words(ahead + 2)  # decrease one by knitting 2 together
        number = (
            Number((OFTEN[often.means or often.text],)) if often else cast("Number", self.token(ahead).number)
        )
        stop = ahead + 1
        plain = self.kind(stop) in ("plain", "even", "knit") and self.kind(stop + 1) == "round"
        more_times = self.kind(stop) == "more" and self.kind(stop + 1) == "times"
        if (plain or more_times or self.kind(stop) in ("round", "times")) and not often:
            return Change(*self.take(1), sign)  # decreasing with 2 plain rounds between
        if self.kind(stop) == "stitch_noun":
            stop += 1
        if self.of_each_round(stop):
            return self.only_words(stop)
        if number.values == (1,) and not (to or often) and (every := self.decrease_at_every(stop, sign)):
            return every
        plain_round = self.is_of_plain_round(stop)
        evenly = self.kind(1) == "evenly" or (self.kind(1) == "only" and not self.is_of_each_part(stop))
        while (
            self.kind(stop) in ("evenly", "around", "")
            and self.place + stop < self.stop
            and self.joined(stop)
        ):
            evenly = evenly or self.kind(stop) == "evenly"
            stop += 1
        start, end, flags = self.take(stop)
        if number.values == (1,) and not (to or evenly or often or plain_round):
            name: StitchName = "kfb" if sign > 0 else "k2tog"
            return Stitches(start, end, flags, Stitch(name, ONE, start, end, loose=True))
        return Stitches(start, end, flags, Evenly(number, sign, start, end, to=to))

    def is_of_each_part(self, ahead: int) -> bool:
        """Whether `in each section`, `on each needle` stands behind stitches."""
        where = self.skip(ahead)
        of_part = self.kind(where) in ("each", "per") and self.kind(where + 1) in ("needle", "section")
        return (of_part or self.kind(where) == "persection") and self.joined(ahead) and self.joined(where)

    def is_of_whole_round(self, ahead: int) -> bool:
        """Whether `decrease only 1 st` begins what is told of a round, or stands behind a round that is knitted."""
        at_marker = any(self.kind(at) == "marker" for at in range(ahead + 2, ahead + MOST_TO_MARKER))
        if self.kind(ahead) != "number" or at_marker:
            return False
        first, between = self.place, (*_OF_PLAIN_ROUND, "knit", "purl")
        while first and self.tokens[first - 1].kind in between and not self.tokens[first].flags & STOP:
            first -= 1
        return first == 0 or bool(self.tokens[first].flags & (STOP | COLON))

    def is_of_plain_round(self, ahead: int) -> bool:
        """Whether a whole round is told of, and no more work behind: `knit 1 round, dec 1 st at the end`."""
        stop = ahead
        while (self.kind(stop) in _OF_PLACE or self.text_of(stop) in _SOMEWHERE) and self.joined(stop):
            stop += 1
        if self.kind(stop) == "stitch" and self.flags(stop) & COMMA and self.ends_at(stop + 1):
            stop += 1  # decrease one stitch, k2tog
        counted = self.kind(stop) == "(" or self.kind(stop + 1) == "stitch_noun"
        if not counted and self.place + stop < self.stop and self.joined(stop):
            return False
        if any(self.kind(at) == "last" and self.kind(at + 1) == "round" for at in range(ahead, stop)):
            return True  # work 6 rounds in rib, inc 1 st at end of last round
        first = self.place - 1
        while first >= 0 and (
            self.tokens[first].kind in _OF_PLAIN_ROUND or self.tokens[first].text in _SOMEWHERE
        ):
            first -= 1
        if first > 0 and [token.kind for token in self.tokens[first - 1 : first + 1]] == [
            "all",
            "stitch_noun",
        ]:
            first -= 2  # knit all stitches, decreasing 1 st
        verb = self.tokens[first] if first >= 0 else None
        if verb is None or verb.kind not in ("knit", "purl") or not (first == 0 or verb.flags & _BEGINS):
            return False
        counted = self.tokens[first + 1].kind == "number"
        return not counted or self.tokens[first + 2].kind == "round"  # not k10, inc 1

    def decrease_at_every(self, ahead: int, sign: int) -> Phrase | None:
        """One stitch taken out at every so many, `dec 1 st after every 9 sts`; None where none is."""
        at = self.skip(ahead)
        return self.at_every(at, "k2tog") if sign < 0 and self.kind(at) in _AT and self.joined(at) else None

    def is_explained(self, ahead: int) -> bool:
        """Whether `by` and a stitch stand there, which says how it is worked."""
        return self.token(ahead).text == "by" and self.kind(ahead + 1) in ("knit", "purl", "stitch")

    def of_each_round(self, ahead: int) -> bool:
        """Whether `per decrease round`, `in every dec round`, `each time` stands there: it is told of all of them."""
        ahead = self.skip(ahead)
        while self.kind(ahead) in ("in", "each", "per", "persection", "") and self.joined(ahead):
            if self.place + ahead >= self.stop:
                return False
            ahead += 1
        named = self.kind(ahead) in ("decrease", "increase") and self.kind(ahead + 1) == "round"
        ended = self.place + ahead + 1 >= self.stop or self.flags(ahead + 1) & (STOP | COMMA | SEMI)
        named = named or bool(self.token(ahead).text == "time" and ended)
        every = self.token(ahead - 1)
        return named and (every.kind in ("each", "per", "persection") or every.text == "sts each")

    def begins_clause(self) -> bool:
        """Whether what is told begins here: behind a sign, at the beginning, or behind `work`."""
        before = self.tokens[self.place - 1].kind if self.place else "work"
        return bool(self.flags(0) & (STOP | COMMA | SEMI | COLON)) or before == "work"

    def after_then(self) -> bool:
        """Whether `then` or `then the` stands before."""
        return any(self.tokens[back].kind == "then" for back in range(max(0, self.place - 2), self.place))
