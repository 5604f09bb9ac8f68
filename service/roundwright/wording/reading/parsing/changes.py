"""Stitches that are decreased or increased: `dec 8 sts evenly`, `dec to 64 sts`, `dec once more`."""

from typing import Final, cast

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.parsing.looking import OFTEN
from roundwright.wording.reading.parsing.places import ONCE, PlaceReader
from roundwright.wording.reading.phrases import (
    Again,
    Change,
    Continue,
    Count,
    Phrase,
    Stitches,
)
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, LINE, SEMI, SLASH, STOP
from roundwright.wording.reading.tree import ONE, Evenly, Number, Stitch, named

_BEHIND_DEC_ROUND: Final = ("number", "often", "until", "only", "more")
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
_WORKED: Final = ("knit", "purl", "stitch", "stars")
"""Words with which what is worked begins, behind the number of its round."""
_AS_NEEDED: Final = frozenset(("as", "if", "needed", "necessary", "required"))
_BEGINS: Final = STOP | COLON | SEMI | DASH | LINE
_COUNTED: Final = ("number", "stitch", "stitch_noun", "knit", "purl")


class ChangeReader(PlaceReader):
    """Reads how many stitches are decreased or increased."""

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

    def adjusted(self) -> Phrase | None:
        """`adjusting the number of stitches to 90 (100, 110)`: more or fewer, or as many; None for anything else."""
        joined = self.begins_clause() or self.after_then() or self.tokens[self.place - 1].kind == "and"
        if self.text_of(0) == "adjust" and not joined:
            return None  # you may adjust the number of sts to 90
        ahead = self.skip(1)
        ahead = self.skip(ahead + (self.kind(ahead) in ("have", "stitch_noun")))  # the number of stitches
        while self.kind(ahead) == "evenly" or self.text_of(ahead) in _AS_NEEDED:
            ahead = self.skip(ahead + 1)
        at = self.skip(ahead + 1)
        counted = self.kind(ahead) == "to" and self.kind(at) == "number" and self.joined(at)
        whole = self.kind(at + 1) in ("stitch_noun", ")") or self.ends_at(at + 1)
        return self.changed(0, at, to=True) if counted and whole else None

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
            return number is None or number.values == (1,) or counted.means not in ONCE
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
        if self.kind(2) == "number" and self.kind(3) in _WORKED and self.tokens[self.place - 1].kind == "in":
            return self.only_words(3)  # in dec round 2 knit every 8th and 9th st together
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
