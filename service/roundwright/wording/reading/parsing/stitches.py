"""Stitches: `k4`, `knit 2 together`, `dec 8 sts evenly`."""

import re
from typing import Final, cast

from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.parsing.changes import ChangeReader
from roundwright.wording.reading.parsing.looking import BREAK, NAMES, TOGETHER
from roundwright.wording.reading.parsing.places import AT, ONCE
from roundwright.wording.reading.phrases import (
    AtEnds,
    CastOn,
    Count,
    PassOver,
    Phrase,
    Rounds,
    Stitches,
)
from roundwright.wording.reading.tokens import COMMA, DASH, FULL, LINE, SEMI, SLASH, STOP
from roundwright.wording.reading.tree import ONE, Number, Stitch, Unknown

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
_IN_GROUPS: Final = {"pairs": 2, "twos": 2, "threes": 3}
"""How many stitches are worked together `in pairs`."""
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


class StitchReader(ChangeReader):
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
        if name in ("k2tog", "p2tog") and self.kind(at := self.skip(stop)) in AT:
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
        if name in ONCE and self.kind(at) in AT and (every := self.at_every(at, name)):
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
