"""Ends of rounds and of needles: `last 2 sts of each needle`, `after every other marker`, `end with k1`."""

from typing import Final

from roundwright.wording.reading.parsing.brackets import MOST_IN_LIST, BracketReader
from roundwright.wording.reading.parsing.extents import PARTS
from roundwright.wording.reading.parsing.looking import NAMES, TOGETHER
from roundwright.wording.reading.phrases import (
    BEFORE_EACH,
    LAST_ROUND,
    AtEnds,
    BeginAt,
    Brackets,
    EndsAt,
    EndsPlain,
    EndsShaped,
    LastRound,
    Needlewise,
    Phrase,
    Said,
    Stitches,
)
from roundwright.wording.reading.tokens import COLON, COMMA, FULL, LINE, SEMI, STOP
from roundwright.wording.reading.tree import ONE, Stitch

_BEFORE_LAST: Final = frozenset(("on", "with", "by", "after", "having", "just", "worked", "completed"))
"""Words before the round that rounds end with: `ending after a dec rnd`, `ending having just worked Rnd 1`."""
_WITH_PLAIN: Final = frozenset(
    ("knitted", "knit", "done", "worked", "with", "on", "your", "the", "a", "by", "and")
)
"""Words before the plain round that rounds end with."""
MOST_BEHIND_NARROW: Final = 24
"""Words behind `narrow` in which it holds for what is told after it."""
MOST_IN_ENDS: Final = 9
"""Words of `at the beginning and the end of each of the three needles`."""
MOST_BEHIND_NEEDLE: Final = 14
"""Words behind `on every needle` in which it holds."""
MOST_BEHIND_PART: Final = 8
"""Words between `in each section` and `the last 2 sts together`."""
MOST_TO_ROUNDS: Final = 4
"""Words from `last` to the rounds it is the last of."""
MOST_TO_MANNER: Final = 12
"""Words of a list up to `and so on`."""
MOST_BEFORE_AFTER: Final = 4
"""Words between a decrease and `after every nine stitches`."""
_ON_EACH: Final = frozenset(("each", "every", "on each", "on every", "in each"))


class EndReader(BracketReader):
    """Reads what is worked at an end, before or after something."""

    def last(self) -> Phrase:
        """The last stitch, told as it is worked, or the last stitches of each part."""
        return self.last_alone() or self.last_of_each()

    def last_alone(self) -> Phrase | None:
        """`last st is knit` behind the star that closes a repeat; None where anything else is told."""
        before = self.place - 1
        while before > 0 and self.tokens[before].text in ("the", "and"):
            before -= 1
        worked = self.kind(3) in ("knit", "purl") and self.text_of(2) == "is" and self.ends_at(4)
        if not worked or self.kind(1) != "stitch_noun" or before < 0 or self.tokens[before].kind != "stars":
            return None
        name = NAMES[self.kind(3)]
        start, end, flags = self.take(4)
        return Stitches(start, end, flags, Stitch(name, ONE, start, end))

    def last_of_each(self) -> Phrase:
        """`the last two stitches of each part`, `are knitted together` behind it or before; `last round`."""
        ahead, number = 1, 1
        while self.kind(ahead) in ("", "of", "these") and self.joined(ahead) and ahead < MOST_TO_ROUNDS:
            ahead += 1  # in the last of these rounds
        if self.kind(ahead) == "round" and self.joined(ahead):
            return Said(*self.take(ahead + 1), text=LAST_ROUND)
        ahead = 1
        if self.kind(ahead) == "number":
            number = (self.token(ahead).number or ONE).of(0) or 1
            ahead += 1
        if self.kind(ahead) != "stitch_noun" or ("knit", number) not in TOGETHER:
            return self.only_words(1)
        ahead = self.skip(ahead + 1)
        while self.kind(ahead) in ("in", "on", "before", "of", "per") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        ahead = self.behind_each_part(ahead)
        if not ahead:
            return self.only_words(1)
        behind = self.skip(ahead)
        if self.kind(behind) in ("knit", "work") and self.kind(behind + 1) == "together":
            ahead = behind + 2
        elif self.kind(behind) == "together":
            ahead = behind + 1
        elif not any(self.kind(back) == "together" for back in range(-3, 0) if self.place + back >= 0):
            return self.only_words(1)
        ahead = min(ahead, self.stop - self.place)
        return AtEnds(*self.take(ahead), first=False, last=True, together=TOGETHER["knit", number])

    def behind_each_part(self, ahead: int) -> int:
        """Where `each section` ends that stands here, or is told before `together`; 0 where no parts are told."""
        if self.kind(ahead) == "persection":
            return ahead + 1
        if self.kind(ahead) == "together" and self.is_in_each_part():
            return ahead  # in each section knit the last 2 sts together
        if self.kind(ahead) != "each" or self.kind(ahead + 1) in ("round", "ordinal"):
            return 0
        ahead += 2
        while self.kind(ahead) in ("", "section", "needle") and self.joined(ahead):
            ahead += 1
        return ahead

    def is_in_each_part(self) -> bool:
        """Whether `in each section`, `on each needle` stands shortly before in the same sentence."""
        part = False
        for back in range(self.place, max(self.place - MOST_BEHIND_PART, 0), -1):
            if self.tokens[back].flags & (FULL | LINE):
                return False
            before = self.tokens[back - 1]
            part = part or before.kind in ("section", "needle")
            if (part and before.kind in ("each", "per")) or (
                before.kind == "persection" and before.text != "in each"
            ):
                return True
        return False

    def before(self) -> Phrase:
        """`before each k2tog`, which says where and works nothing; `1 stitch left before each marker`."""
        if self.kind(1) == "each" and self.kind(2) == "marker":
            behind = self.tokens[max(0, self.place - 5) : self.place]
            if any(token.kind in ("remain", "until") for token in behind):
                return Needlewise(*self.take(3))
            if any(token.kind in ("decrease", "stitch", "together") for token in behind):
                return AtEnds(*self.take(3), first=False, last=True)
        ahead = self.behind_decreases(1)
        decreases = any(self.kind(at) in ("stitch", "decrease") for at in range(1, ahead))
        if decreases and self.kind(1) == "each":
            return Said(*self.take(ahead), text=BEFORE_EACH)
        return self.only_words(ahead if decreases else 1)

    def after(self) -> Phrase:
        """`after each marker`: at the beginning of every section; `8 sts after rnd 7`, `after the 17. rnd`."""
        if self.kind(1) == "round" and self.kind(2) == "number" and self.joined(2):
            stops = self.place > 0 and self.tokens[self.place - 1].text in ("stop", "stopping")
            number = self.token(2).number or ONE
            return LastRound(*self.take(3), number) if stops else self.only_words(3)
        ahead = self.skip(1)
        if self.kind(ahead) in ("number", "ordinal") and self.kind(ahead + 1) == "round":
            return self.only_words(ahead + 2)
        if self.kind(1) == "each" and self.kind(2) == "marker":
            begins = not self.place or self.flags(0) & (STOP | LINE | COLON)
            if begins and self.goes_on_to_marker(3):
                return self.only_words(3)
            return AtEnds(*self.take(3), first=True, last=False)
        shaped = self.kind(ahead) == "decrease" and self.kind(ahead + 1) == "round"
        if shaped and self.place and self.tokens[self.place - 1].text in _COMES and self.joined(ahead):
            return EndsShaped(*self.take(ahead + 2))  # 12 sts, which comes after a narrowing round
        narrowed = self.tokens[max(0, self.place - MOST_BEHIND_NARROW) : self.place]
        narrows = self.kind(2) == "ordinal" and any(token.kind == "decrease" for token in narrowed)
        if narrows and (every := self.at_every(0, "k2tog")):
            return every  # narrow after every sixth stitch, 56; after every fifth, 48
        return self.made_after() or self.after_every_other() or self.only_words(1)

    def goes_on_to_marker(self, ahead: int) -> bool:
        """Whether the whole section is told: `after each marker: ssk, knit to 2 sts before next marker, k2tog`."""
        while self.place + ahead < self.stop and not self.flags(ahead) & (STOP | LINE):
            if self.kind(ahead) == "before":
                near = self.skip(ahead + 1)
                near += self.kind(near) == "next"
                return self.kind(near) == "marker"
            ahead += 1
        return False

    def made_after(self) -> Phrase | None:
        """`after every fifth stitch make one`, `after every 5th st k2tog`; else None."""
        made = self.skip_nouns(3)
        counted = self.kind(1) == "each" and self.kind(2) in ("ordinal", "number") and made > 3
        number = self.token(made + 1).number
        spelled = self.kind(made) == "make" and number is not None and number.values == (1,)
        pair = self.kind(made) == "knit" and number is not None and number.values == (2,)
        together = pair and self.kind(made + 2) == "together"
        method = "m1" if spelled else "k2tog" if together else self.token(made).means
        if not counted or method not in ("m1", "k2tog") or not self.joined(made):
            return None
        every = self.at_every(0, method)
        self.place += (1 + spelled + 2 * together) * (every is not None)
        return every

    def after_every_other(self) -> Phrase | None:
        """A round of a list like its first, `knit 2 together after every nine sts; after every eight`, `every seven`.

        None where no such list is told.
        """
        ahead = 1 if self.kind() == "after" else 0
        number = self.token(ahead + 1).number if self.kind(ahead + 1) in ("ordinal", "number") else None
        single = self.token(ahead).text == "every single" and self.kind(ahead + 1) == "stitch_noun"
        if self.kind(ahead) != "each" or (number is None and not single) or not self.joined(ahead + 1):
            return None
        stop = ahead + 2 + (self.kind(ahead + 2) == "stitch_noun" and number is not None)
        apart = self.ends_at(stop) or self.kind(stop) in ("and", "then")
        before = self.tokens[self.place - 1].text if self.place else ""
        listed = bool(self.flags(0) & (COMMA | SEMI | STOP)) or before in (
            "and",
            "then",
            "last",
            "after that",
        )
        if not apart or not listed or self.flags(0) & LINE or not self.is_in_list_after():
            return None
        start, end, flags = self.take(stop)
        plain = Stitches(start, end, 0, Stitch("k", number or ONE, start, end))
        together = Stitches(start, end, 0, Stitch("k2tog", ONE, start, end))
        return Brackets(start, end, flags | STOP, (plain, together))

    def is_in_list_after(self) -> bool:
        """Whether shortly before stitches were worked together after every so many: the first of a list."""
        ahead = range(self.place, min(self.place + MOST_TO_MANNER, self.stop - 1))
        manner = next((at for at in ahead if self.tokens[at].kind == "manner"), 0)
        if manner and self.tokens[manner + 1].kind != "until":
            return False  # after every 9, after every 8, and so on in every round
        for back in range(self.place - 1, max(self.place - MOST_IN_LIST, 1), -1):
            if self.tokens[back].flags & LINE:
                return False
            if self.tokens[back].kind == "after" and self.tokens[back + 1].kind == "each":
                near = self.tokens[max(0, back - MOST_BEFORE_AFTER) : back]
                if any(token.kind in ("together", "decrease", "stitch") for token in near):
                    return True
        return False

    def at_ends(self) -> Phrase | None:
        """`at the end of each section`, `at each end of every needle`; None where it is none of these."""
        ahead, begin, end = 0, False, False
        while self.kind(ahead) in ("begin", "end", "and", "each", "", "of", "at") and ahead < MOST_IN_ENDS:
            text = self.token(ahead).text
            if text in PARTS:
                break
            begin = begin or self.kind(ahead) == "begin"
            end = end or self.kind(ahead) == "end"
            if end and text in ("ends", "end") and self.kind(ahead - 1) == "each" and not begin:
                begin = True  # `each end`, `both ends`
            ahead += 1
        if self.kind(ahead) == "number":
            ahead += 1
        part = self.token(ahead).text in PARTS or self.kind(ahead) in ("needle", "section", "persection")
        every = self.kind(ahead) == "persection" or any(
            self.kind(at) == "each" or self.token(at).text == "the" for at in range(ahead)
        )
        everywhere = begin != end and not part and (self.is_on_every_needle() or self.is_on_needles_behind())
        if everywhere and self.has_other_end(begins=begin):
            stop = max(at for at in range(ahead) if self.kind(at) in ("begin", "end"))
            return AtEnds(*self.take(stop + 1), first=begin, last=end, needle=True)
        if not (begin or end) or not part or not every or not self.joined(ahead):
            return None
        needle = self.kind(ahead) == "needle"
        return AtEnds(*self.take(ahead + 1), first=begin, last=end, needle=needle)

    def is_on_every_needle(self) -> bool:
        """Whether the same sentence said before that it is worked so on each needle."""
        for back in range(self.place - 1, max(self.place - MOST_BEHIND_NEEDLE, 0), -1):
            if self.tokens[back].kind == "needle" and self.tokens[back - 1].text in _ON_EACH:
                return True
            if self.tokens[back].flags & (STOP | COLON):
                return False
        return False

    def is_on_needles_behind(self) -> bool:
        """Whether the same sentence says it of each needle behind this: `and k2tog at the end of each needle`."""
        for place in range(self.place + 1, min(self.place + MOST_BEHIND_NEEDLE, self.stop)):
            token = self.tokens[place]
            if token.flags & (STOP | COLON | SEMI):
                return False
            if token.kind in ("needle", "section") and self.tokens[place - 1].text in _ON_EACH:
                return True
        return False

    def has_other_end(self, *, begins: bool) -> bool:
        """Whether the other end is told in the same breath: `k2tog at the beginning and k2tog at the end`."""
        step, other = (1, "end") if begins else (-1, "begin")
        place = self.place + step
        for _ in range(MOST_IN_ENDS):
            if not 0 < place < self.stop or self.tokens[place].kind in ("to", "until"):
                return False
            if self.tokens[place].kind == other:
                return self.tokens[place - 1].text in ("the", "at")
            place += step
        return False

    def ends_with_round(self) -> Phrase | None:
        """`ending with Rnd 2`, `ending with a dec rnd`, which work nothing; else None."""
        ahead = self.skip(1)
        if self.kind() == "end" and self.kind(ahead) == "step" and self.kind(ahead + 1) == "number":
            return self.only_words(ahead + 2)
        while self.text_of(ahead) in _BEFORE_LAST and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        shaped = self.kind(ahead) in ("decrease", "increase") and self.joined(ahead)
        if self.kind() == "end" and shaped and self.kind(ahead + 1) == "round":
            return EndsShaped(*self.take(ahead + 2))
        if self.kind() == "end" and shaped and self.ends_at(ahead + 1):
            return EndsShaped(*self.take(ahead + 1))
        if self.kind() == "end" and self.kind(ahead) == "round" and self.kind(ahead + 1) == "number":
            number = self.token(ahead + 1).number or ONE
            return EndsAt(*self.take(ahead + 2), number)
        return None

    def ends_plain(self) -> Phrase | None:
        """`finish with a plain one`, `have knitted the plain one`, `end on a plain round`; else None."""
        if self.kind() == "begin":
            return None
        ahead = self.skip(1)
        while self.text_of(ahead) in _WITH_PLAIN and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) != "plain" or not self.joined(ahead):
            return None
        if self.text_of(ahead + 1) == "one" or self.kind(ahead + 1) == "round":
            return EndsPlain(*self.take(ahead + 2))
        return None

    def first_craft(self, ahead: int) -> int:
        """The words of `starting with purl` behind rounds told by turns; 0 where they tell work of their own."""
        craft = self.kind(ahead) in ("knit", "purl") and self.joined(ahead) and self.ends_at(ahead + 1)
        return ahead + 1 if craft and self.flags(0) & COMMA else 0

    def begin(self) -> Phrase:
        """`beginning with a k row`, `ending with a p row`: told, not worked."""
        if ends := self.at_ends() or self.ends_with_round() or self.ends_plain():
            return ends
        ahead = self.skip(1)
        before = self.tokens[self.place - 1].text if self.place else ""
        if self.kind() == "end" and before in ("will", "should", "you", "always"):
            while self.place + ahead < self.stop and not self.flags(ahead) & (STOP | SEMI):
                ahead += 1
            return self.only_words(min(ahead, self.stop - self.place))
        while self.kind(ahead) in ("as", "for", "side") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        if (
            self.kind(ahead) in ("knit", "purl", "side", "rib", "plain", "even")
            and self.kind(ahead + 1) == "round"
        ):
            flat = self.kind(ahead) == "purl" and self.token(ahead + 1).text.startswith("row")
            if self.kind() == "end" and (flat or self.kind(ahead) in ("knit", "plain", "even")):
                return EndsPlain(*self.take(ahead + 2))
            return self.only_words(ahead + 2)
        if self.kind() == "begin" and (words := self.from_round_on() or self.first_craft(ahead)):
            return self.only_words(words)
        if self.kind(ahead) == "word" and self.token(ahead).text == "from":
            ahead += 1
        if (
            self.kind() == "begin"
            and self.kind(ahead) == "round"
            and self.kind(ahead + 1) == "number"
            and self.joined(ahead)
            and self.text_of(ahead + 2) != "of"
        ):
            number = self.token(ahead + 1).number or ONE
            return BeginAt(*self.take(ahead + 2), number)
        return self.only_words(1)


_COMES: Final = frozenset(
    ("comes", "come", "is", "be", "happens", "falls", "it's", "that's", "reached", "just")
)
"""What stands before `after a decrease round` where that tells how rounds end."""
