"""Counts: `64 sts`, `you should have 56`, `Sts = 49`, `16 sts on each needle`."""

from itertools import pairwise
from typing import Final, cast

from roundwright.wording.reading.parsing.looking import NAMES, NOT_STITCHES, TOGETHER
from roundwright.wording.reading.parsing.sums import SumReader
from roundwright.wording.reading.phrases import (
    Continue,
    Count,
    Extent,
    PerPart,
    Phrase,
    Rounds,
    Stitches,
    Until,
)
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, LINE, SEMI, SPACE, STOP, TAB
from roundwright.wording.reading.tree import NOTHING, ONE, Number, Stitch, Unknown


class CountReader(SumReader):
    """Reads stitches that are counted, and those fewer each time."""

    def parts_of_repeat(self, number: Number) -> Phrase | None:
        """`*7 stitches, 2 stitches together*`, `*7 sts, m1*`: plain stitches before a change; else None."""
        opening = self.tokens[self.place - 1] if self.place else None
        if opening is None or opening.kind not in ("stars", "("):
            return None
        together = 3 if self.kind(3) != "stitch_noun" else 4
        if self.kind(2) != "number" or self.kind(together) != "together":
            counted = opening.kind == "(" and (
                self.kind(3) == "number" or (self.place > 1 and opening.flags == SPACE)
            )  # (80 sts, dec 20 sts); *k6, k2tog* (70 sts, k2tog)
            if counted or self.kind(2) not in _CHANGES or not self.flags(2) & COMMA:
                return None
        start, end, flags = self.take(2)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

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

    def left_plain(self, number: Number, ahead: int) -> Phrase | None:
        """`the 3 left over plain`, `the 2 sts left plain`: stitches at the end of a round; None for any other."""
        stop = ahead + 1 + (self.text_of(ahead + 1) == "over")
        plain = self.kind(stop) == "plain" and self.kind(stop + 1) != "round"
        if self.kind(ahead) != "left" or not plain or not self.joined(ahead) or not self.joined(stop):
            return None
        start, end, flags = self.take(stop + 1)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

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
        one_round = one_round and self.kind(1) not in OF_OTHERS
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


def _with_before(reader: CountReader) -> bool:
    """Whether `with`, `having`, `working` or `always` stands before a number."""
    return any(
        reader.tokens[back].text in ("with", "having", "working", "work", "always", "but", "each", "time")
        for back in range(max(0, reader.place - 2), reader.place)
    )


_CHANGES: Final = frozenset(("stitch", "make", "increase", "decrease"))
FEWER: Final = ("fewer", "knit", "purl", "plain", "stitch_noun")
_OF_FEWER: Final = (*FEWER, "rib", "pattern", "")
MOST_FEWER: Final = 6
"""Words of `1 knit stitch fewer in rib`."""
MOST_GOING_ON: Final = 24
"""Words of a sentence that goes on `down to 64 sts`."""
_SHAPING: Final = ("decrease", "stitch")
_TAKING: Final = frozenset(
    ("you", "we", "i", "the", "each", "every", "take", "taking", "knit", "knitting", "work", "working")
)
"""Words between `one stitch less before` and the stitches that are knitted together."""
MOST_TAKING: Final = 3
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
MOST_OF_STITCH: Final = 3
"""Stitches that a decrease takes together: `3 sts become 1`."""
TURNING: Final = frozenset(("become", "became", "turn into", "turned into"))
_BECOMING: Final = TURNING | frozenset(
    ("have", "are", "now", "shrink", "shrunk", "drop", "go", "down to", "to", "into")
)
"""Words between the stitches there were and the number that is left of them."""
MOST_BEHIND_MARKERS: Final = 4
"""Words from the markers to the stitches between them."""
OF_OTHERS: Final = ("between", "before", "after", "each", "in", "until")
"""What stands behind rounds that are worked between others."""
