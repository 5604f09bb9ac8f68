"""The phrases of a line, one after the other."""

from collections.abc import Callable, Mapping
from itertools import pairwise, takewhile
from typing import Final

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.language import say
from roundwright.wording.reading.by_name import work_of_names
from roundwright.wording.reading.parsing.asides import aside, describes, means, tells_other
from roundwright.wording.reading.parsing.colours import COLOURS, is_colour
from roundwright.wording.reading.parsing.extents import PARTS, ExtentReader
from roundwright.wording.reading.parsing.looking import NAMES, REPEATS, TOGETHER
from roundwright.wording.reading.parsing.new_stitches import BEHIND_NEW, RAISING
from roundwright.wording.reading.parsing.numbers import MOST_BEHIND_CHART
from roundwright.wording.reading.parsing.stitches import CRAFTING
from roundwright.wording.reading.phrases import (
    ALL_OTHERS,
    BEFORE_EACH,
    LAST_ROUND,
    AtEnds,
    BeginAt,
    Brackets,
    CastOn,
    Chart,
    Closing,
    Continue,
    Count,
    EndsAt,
    EndsPlain,
    EndsShaped,
    Fabric,
    LastRound,
    Needlewise,
    Odd,
    Partly,
    PassOver,
    Phrase,
    Rep,
    Rounds,
    Said,
    Stitches,
    Then,
)
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, FULL, LINE, SEMI, STOP, Token
from roundwright.wording.reading.tree import ONE, Evenly, Number, Stitch

_RIB_WIDTHS: Final = {"single": 1, "double": 2}
MOST_NESTED: Final = 12
"""Brackets within brackets."""
_BEFORE_LAST: Final = frozenset(("on", "with", "by", "after", "having", "just", "worked", "completed"))
"""Words before the round that rounds end with: `ending after a dec rnd`, `ending having just worked Rnd 1`."""
_WITH_PLAIN: Final = frozenset(
    ("knitted", "knit", "done", "worked", "with", "on", "your", "the", "a", "by", "and")
)
"""Words before the plain round that rounds end with."""
MOST_BEFORE_PLAIN: Final = 8
"""Words between a decrease and the plain stitches that end its round."""
MOST_FROM_UNTIL: Final = 14
"""Words from `until` to the plain round with which it ends."""
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
MOST_IN_LIST: Final = 60
"""Words of a list of rounds back to its first."""
MOST_TO_MANNER: Final = 12
"""Words of a list up to `and so on`."""
MOST_BEFORE_AFTER: Final = 4
"""Words between a decrease and `after every nine stitches`."""
_ON_EACH: Final = frozenset(("each", "every", "on each", "on every", "in each"))
_BEFORE_PART: Final = frozenset(("to", "on", "in", "at", "for", "of", "the", "all", "with"))
_PARTING: Final = COLON | STOP | EQUALS
"""Signs before a number that is not that of the times of the bracket before it: `(dec 6). 90 sts`."""
_TO_NOUN: Final = frozenset(("", "next", "stitch_noun"))
MOST_TO_NOUN: Final = 5
"""Words from an increase to the bracket in `knit into the front and back of the next stitch (kfb)`."""
_WORKED: Final = ("stitch", "together", "make")
"""What of the work beside a bracket says that the change in it is told, and not worked."""
PAIRS: Final = {"(": ")", "[": "]", "{": "}"}


class Lines(ExtentReader):
    """A reader of phrases over the tokens of a text, from `place`."""

    def next_phrase(self) -> Phrase:
        """The phrase that begins here."""
        token = self.tokens[self.place]
        if plain := self.plain_rounds_told():
            return plain
        if token.text in _FINISHING and self.text_of(1) in ("with", "on") and (ends := self.finishing()):
            return ends
        if token.text in _ENDINGS and (ends := self.ended()):
            return ends
        if token.text == "c" and (cable := self.dotted_cable()):
            return cable
        if token.text in _CROSSED and (crossed := self.crossed()):
            return crossed
        if (token.kind == "number" or token.text in _WORDED) and (worded := self.worded_stitches()):
            return worded
        if token.text == "n":
            return self.counted()
        if (token.kind == "next" or token.text == "on") and (turns := self.on_rounds()):
            return turns
        reading = _READ.get(token.kind)
        if reading is not None:
            return reading(self)
        return self.only_words(1)

    def ended(self) -> Phrase | None:
        """`knit 2 together throughout`, `until 48 sts are left and you have just done a plain round`; else None."""
        if self.text_is("throughout"):
            return self.around() if self.is_behind_decrease() else None
        return self.finishing() if self.text_of(1) in _JUST_DONE else None

    def is_behind_decrease(self) -> bool:
        """Whether a decrease stands just before, and the sentence ends here."""
        before = self.tokens[self.place - 1].kind if self.place else ""
        return before in ("stitch", "together") and self.joined(0) and self.ends_at(1)

    def worded_stitches(self) -> Phrase | None:
        """`make a stitch`, `1 new from the thread between`, `3 white` in a row of colours; else None."""
        if self.token().text in CRAFTING:
            return self.crafting()
        numbered = self.kind() == "number"
        if (self.text_of(0) in RAISING or (numbered and self.kind(1) in BEHIND_NEW)) and (
            new := self.new_stitches()
        ):
            return new
        coloured = self.text_of(0) in COLOURS or (numbered and is_colour(self.token(1)))
        return self.colour_unit() if coloured else None

    def plain_rounds_told(self) -> Phrase | None:
        """`the rounds in between` before a colon, `no more plain rounds`; else None."""
        if self.token().flags & LINE and (others := self.others_told()):
            return Said(*self.take(others), text=ALL_OTHERS)
        return self.no_plain_rounds() if self.token().text in _DENIES else None

    def no_plain_rounds(self) -> Phrase | None:
        """`leave out the plain rounds`, `we're done with the knit rounds`: every round is shaped from here on."""
        if self.place and self.tokens[self.place - 1].text in _DENYING:
            return None  # do not omit the rounds between
        ahead = 1
        while self.kind(ahead) in ("", "more", "these") or self.token(ahead).text in _WITH_DENIAL:
            if ahead > MOST_DENYING or not self.joined(ahead):
                return None
            ahead += 1
        plain = ahead
        while self.kind(ahead) in ("plain", "even", "knit", "between") and self.joined(ahead):
            every = self.kind(ahead + 1) in ("all", "each") and self.kind(ahead + 2) == "stitch_noun"
            ahead += 3 if every else 1  # the "k all sts" rows
        if self.kind(ahead) == "step" and self.kind(ahead + 1) == "number" and self.joined(ahead + 1):
            return self.only_words(ahead + 2)  # leave out step 4 and decrease in every round
        if self.kind(ahead) != "round" or not self.joined(ahead):
            return None
        if ahead == plain and (self.kind(ahead + 1) != "between" or self.kind(ahead + 2) in _NAMING_ROUNDS):
            return None
        single = not self.text_of(ahead).endswith("s")
        ahead += 1
        while self.kind(ahead) in ("in", "between") and self.joined(ahead) and not self.flags(ahead) & COMMA:
            ahead += 1
        verb = ahead + (self.kind(ahead) == "work")
        if single and self.flags(ahead) & COMMA and self.kind(verb) in ("stitch", "stars", "knit"):
            return self.only_words(ahead)  # without a plain round between, work k2tog 8 times
        return self.without_plain_rounds(min(ahead, self.stop - self.place))

    def steps_worked(self) -> Phrase:
        """`steps 5 and 6 are worked 4 times`: what they tell, worked again."""
        several = self.text_is("steps") and self.kind(1) == "number" and self.kind(2) == "and"
        return (self.steps(0) if several and self.text_of(4) == "are" else None) or self.only_words(1)

    def finishing(self) -> Phrase | None:
        """`finishing with a round 2`, `finish with a knit round`; None where it is anything else."""
        ahead = self.skip(2)
        if self.kind(ahead) in ("knit", "plain", "even") and self.kind(ahead + 1) == "round":
            return EndsPlain(*self.take(ahead + 2))
        if self.kind(ahead) == "decrease" and self.kind(ahead + 1) == "round":
            return EndsShaped(*self.take(ahead + 2))
        named = self.kind(ahead) in ("round", "step") and self.kind(ahead + 1) == "number"
        return self.only_words(ahead + 2) if named and self.joined(ahead + 1) else None

    def crossed(self) -> Phrase | None:
        """`cross 4, purl 2`: stitches that change their places, and stay as many; None where no stitches are told."""
        at = 1 + (self.text_of(1) == "over")  # work cable over 6
        number = self.token(at).number
        if self.kind(at) != "number" or not self.joined(at) or self.flags(at) & COMMA or number is None:
            return None
        stop = self.skip_nouns(at + 1)
        apart = bool(self.flags(stop) & (COMMA | SEMI)) or self.kind(stop) in (
            "knit",
            "purl",
            "stars",
            ")",
            "repeat",
        )
        if not apart or not all(1 < (value or 0) <= MOST_CROSSED for value in number.values):
            return None
        start, end, flags = self.take(stop)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

    def is_starred(self) -> bool:
        """Whether a star or a bracket was opened in this line, and not closed."""
        stars = 0
        for back in range(self.place - 1, max(self.place - MOST_IN_REPEAT, -1), -1):
            stars += self.tokens[back].kind == "stars"
            if self.tokens[back].flags & LINE:
                break
        return self.depth > 0 or stars % 2 == 1

    def dotted_cable(self) -> Phrase | None:
        """`C. 6` in a repeat: as many stitches as cross; None where it is anything else."""
        number = self.token(1).number
        if (
            self.kind(1) != "number"
            or number is None
            or not self.is_starred()
            or self.flags(1) & (COMMA | COLON)
        ):
            return None
        apart = self.flags(2) & (COMMA | SEMI) or self.kind(2) in ("stars", ")", "repeat")
        if not apart or not all(1 < (value or 0) <= MOST_CROSSED for value in number.values):
            return None
        start, end, flags = self.take(2)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

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

    def fabric(self) -> Phrase:
        """`rib`, `rib 2 and 2`."""
        kind = self.kind()
        if self.is_spoken_of():
            return self.only_words(1)
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
        if self.kind(1) == "number" and (words := self.worked_on_so_many()):
            number = self.token(1).number or ONE
            start, end, flags = self.take(words)
            return Stitches(start, end, flags, Stitch("k", number, start, end))
        if kind == "rib" and (width := self.rib_width()):
            name, column = self.tokens[self.place - 1].start, Number((width,))
            start, end, flags = self.take(1)
            return Fabric(
                start, end, flags, kind, (Stitch("k", column, name, end), Stitch("p", column, name, end))
            )
        before = self.token().text in ("as before", "as established", "as est", "as set")
        return Fabric(*self.take(1), "before" if before else kind)

    def rib_width(self) -> int:
        """How many stitches wide the columns of a rib are by its name: `single rib`, `double rib`; 0 where not said."""
        named = self.place > 0 and self.joined(0)
        return _RIB_WIDTHS.get(self.tokens[self.place - 1].text, 0) if named else 0

    def is_spoken_of(self) -> bool:
        """Whether the pattern is that which somebody follows, and nothing is worked in it: `for my pattern`."""
        owned = self.place > 1 and self.tokens[self.place - 1].text in ("my", "your", "our")
        return owned and self.kind() == "pattern" and self.tokens[self.place - 2].kind != "in"

    def completed(self) -> Phrase | None:
        """`*complete 8 sts, k2tog`: so many stitches, as the fabric has them; None for any other `all`."""
        works = self.token().text == "complete" and self.kind(1) == "number"
        return self.worked_stitches(1) if works and self.worked_on_so_many() else None

    def worked_on_so_many(self) -> int:
        """Words of a fabric on so many stitches of a repeat, `*seed 8, k2tog; rep from *`, `*rib 8 sts,`; else 0."""
        stop = 2 + (self.kind(2) == "stitch_noun")
        before = self.tokens[self.place - 1].kind if self.place else ""
        opens = before in ("stars", "(")
        closes = self.kind(stop) in ("stars", ")", "repeat")
        parted = bool(self.flags(stop) & (COMMA | SEMI))
        behind = before == "stitch" and bool(self.flags(0) & COMMA) and closes  # *k3tog, moss 11; rep from *
        within = opens or behind or self.kind(stop) in ("stitch", "slip")
        return stop if self.joined(1) and (closes or parted) and within else 0

    def even(self) -> Phrase:
        """`even`, `plain`; `the even rounds` are every other."""
        if self.kind() == "plain" and self.text_of(1) == "last" and self.ends_at(2):
            return EndsPlain(*self.take(2))  # till 52, plain last
        if self.kind(1) == "round" and self.joined(1) and (done := self.is_done_at_last(2)):
            return EndsPlain(*self.take(done))  # until 16 sts are left and the last plain round is worked
        owned = self.place > 0 and self.tokens[self.place - 1].text == "its" and self.joined(0)
        if owned and self.kind(1) == "round" and self.joined(1):
            return EndsPlain(*self.take(2))  # down to k7, k2tog and its plain round
        far = self.kind(1) in ("to", "around") and self.joined(1) and not self.flags(1) & COMMA
        if self.kind() == "plain" and far and self.is_behind_stitches():
            start, end, flags = self.take(1)
            return Stitches(start, end, flags, Stitch("k", ONE, start, end, bare=True))
        named = self.place > 0 and self.tokens[self.place - 1].text in ("the", "all")
        if self.kind() == "plain" and named and self.kind(1) == "round" and (gone := self.are_gone(2)):
            return self.without_plain_rounds(gone)
        if named and self.kind() == "even" and self.kind(1) == "round" and self.token(1).text.endswith("s"):
            return Rounds(*self.take(2), ONE, every=True, step=2)
        return Fabric(*self.take(1), "plain")

    def are_gone(self, ahead: int) -> int:
        """Where `the plain rounds go`, `are left out`, `disappear` ends; 0 where that is not told."""
        ahead += self.text_of(ahead) in ("are", "now")
        out = 1 + (self.text_of(ahead + 1) in ("out", "away", "over"))
        return ahead + out if self.text_of(ahead) in _GONE and self.joined(ahead) else 0

    def is_done_at_last(self, ahead: int) -> int:
        """Where `is worked`, `has been knitted` ends behind `until ... and a plain round`; 0 where that is not told."""
        if self.text_of(ahead) not in ("is", "has", "was"):
            return 0
        ahead += 1 + (self.text_of(ahead + 1) == "been")
        if self.text_of(ahead) not in _JUST_DONE or not self.joined(ahead):
            return 0
        for back in range(self.place, max(self.place - MOST_FROM_UNTIL, 0), -1):
            if self.tokens[back].flags & (STOP | COLON):
                return 0
            if self.tokens[back - 1].kind == "until":
                return ahead + 1
        return 0

    def is_behind_stitches(self) -> bool:
        """Whether stitches are told before in the same sentence: `k2tog once, then knit plain to the end`."""
        for back in range(self.place, max(self.place - MOST_BEFORE_PLAIN, 0), -1):
            if self.tokens[back].flags & (STOP | COLON):
                return False
            if self.tokens[back - 1].kind in ("stitch", "together"):
                return True
        return False

    def ratio(self) -> Phrase:
        """`2x2 rib`, `1/1 rib`."""
        first, _, second = self.token().text.partition("x")
        start, end, flags = self.take(1)
        nodes = (
            Stitch("k", Number((int(first),)), start, end),
            Stitch("p", Number((int(second),)), start, end),
        )
        return Fabric(start, end, flags, "ratio", nodes)

    def bracket(self) -> Phrase:
        """`[...]`."""
        self.depth += 1
        first, opened = self.token(), self.place
        self.place += 1
        inside: list[Phrase] = []
        if self.depth > MOST_NESTED:
            self.troubles.append(("too_deep", say("read.nested_too_deep"), first.start))
            self.place = self.stop
        closed = False
        while self.place < self.stop:
            if self.kind() == ")":
                closed = True
                if PAIRS[first.text] != self.token().text:
                    self.troubles.append(
                        (
                            "bracket",
                            say("read.closed_by_another", opening=first.text, closing=self.token().text),
                            self.token().start,
                        )
                    )
                self.place += 1
                break
            inside.append(self.next_phrase())
        counted = bool(inside) and all(type(phrase) is Count for phrase in inside)
        if not closed and not counted and self.depth <= MOST_NESTED:  # (56 stitches
            self.troubles.append(("bracket", say("read.not_closed", opening=first.text), first.start))
        self.depth -= 1
        return self.bracketed(first, opened, inside)

    def bracketed(self, first: Token, opened: int, inside: list[Phrase]) -> Phrase:
        """A bracket with what is meant by its words; a change in it that is worked, without the bracket."""
        if self.describes_stitch(opened, inside):
            inside = []
        elif changed := self.tells_change(opened, inside):
            inside = changed
        elif work_of_names(inside, self.tokens, self.names):
            pass  # (k6, k2tog for Adult S; k8, k2tog for Adult L)
        elif tells_other(inside) or aside(inside):
            inside = [] if means(inside) or tells_other(inside) else _said_beside(inside)
        elif self.tells_repeat_of_chart(opened):
            inside = []
        elif len(inside) == 1 and (
            self.flags(0) & _PARTING or self.kind() not in ("times", "number", "often")
        ):
            match inside[0]:
                case Stitches(node=Evenly()) as change:  # knit 1 round (dec 6 sts)
                    return Stitches(first.start, self.at_end(), first.flags, change.node)
        return Brackets(first.start, self.at_end(), first.flags, tuple(inside))

    def describes_stitch(self, opened: int, inside: list[Phrase]) -> bool:
        """Whether a bracket describes the stitch just before it: `ssk (k2tog tbl)`, `sk2p (sl 1, k2tog, psso)`.

        A bracket that is worked so often is a repeat: `k2tog (k1, k2tog) 5 times`.
        """
        repeated, signs = self.is_starred(), self.tokens[opened].flags
        if signs & (COMMA | SEMI | LINE) or (signs & FULL and not repeated):
            return False
        if PassOver in [type(phrase) for phrase in inside]:
            before = self.tokens[max(0, opened - 2) : opened]
            return any(token.kind in ("stitch", "together") for token in before)
        often = self.kind() in ("times", "often") or (self.kind() == "number" and self.kind(1) == "times")
        if often and not self.flags(0) & (_PARTING | COMMA):
            return False
        uses, leaves = self.used_before(opened)
        return uses != leaves and describes(inside, uses, leaves, repeated=repeated)

    def used_before(self, opened: int) -> tuple[int, int]:
        """How many stitches the stitch just before a place uses and leaves; no difference where none stands there."""
        before = self.tokens[opened - 1] if opened else self.token()
        if before.kind == "stitch_noun":  # knit into the front and back of the next stitch (kfb)
            words = reversed(self.tokens[max(0, opened - MOST_TO_NOUN) : opened])
            before = next((token for token in words if token.kind not in _TO_NOUN), before)
        if before.kind == "stitch":
            return uses_and_leaves()[before.means]
        number = self.tokens[opened - 2].number if before.kind == "together" and opened > 1 else None
        return ((number.of(0) or 1) if number is not None else 1, 1)

    def tells_change(self, opened: int, inside: list[Phrase]) -> list[Phrase]:
        """The counts of a bracket that says what the stitches before it come to: `(dec 20 sts = 80 sts)`; else none."""
        counts = [
            Count(phrase.start, phrase.end, phrase.flags, phrase.node.change, phrase.node.sign)
            if type(phrase) is Stitches and type(phrase.node) is Evenly and not phrase.node.to
            else phrase
            for phrase in inside
        ]
        if not all(type(phrase) is Count for phrase in counts):
            return []
        for token in reversed(self.tokens[max(0, opened - MOST_IN_LIST) : opened]):
            if token.kind in _WORKED:
                return counts
            if token.flags & (LINE | COLON | STOP) or (token.flags & SEMI and token.kind != "repeat"):
                break
        behind = self.tokens[self.place : min(self.place + MOST_IN_LIST, self.stop)]
        if not behind or not behind[0].flags & COLON:
            return []
        work = takewhile(lambda token: not token.flags & (LINE | STOP), behind[1:])
        return counts if any(token.kind in _WORKED for token in work) else []

    def tells_repeat_of_chart(self, opened: int) -> bool:
        """Whether a bracket behind a chart only tells its repeat: `the chart (12-st repeat, 9 times per rnd)`."""
        before = self.tokens[max(0, opened - MOST_BEHIND_CHART) : opened]
        inside = self.tokens[opened : self.place]
        if any(token.kind in ("stitch", "together", "decrease", "increase") for token in inside):
            return False
        rounds = any(first.kind == "number" and second.kind == "round" for first, second in pairwise(inside))
        repeats = any(token.kind == "repeat" or token.text in REPEATS for token in inside)
        stitches = any(token.kind == "stitch_noun" for token in inside)
        return repeats and stitches and not rounds and any(token.kind == "chart" for token in before)

    def close(self) -> Phrase:
        """A bracket that closes what is not opened."""
        if self.token().flags & (COLON | SEMI | EQUALS) or self.ends_count():  # a smiling face; `84 sts).`
            return self.only_words(1)
        self.troubles.append(
            ("bracket", say("read.not_opened", closing=self.token().text), self.token().start)
        )
        return Said(*self.take(1))

    def cast_on(self) -> Phrase:
        """`cast on 64 sts`."""
        if words := self.from_round_on() or self.first_craft(1):
            return self.only_words(words)
        near = 2 if self.token().text.endswith(" with") else 7
        behind = self.place and self.tokens[self.place - 1].kind == "number" and self.kind(1) != "number"
        if behind and not self.flags(0) & (STOP | COMMA):
            return self.only_words(1)  # 88 cast on, 1x1 rib 8 rnds
        for ahead in range(1, near):
            token = self.token(ahead)
            if (
                self.place + ahead >= self.stop
                or (token.flags & STOP and (ahead > 1 or token.kind != "number"))
                or token.kind in ("have", "round")
            ):
                break
            if token.kind == "number" and token.number and self.kind(ahead - 1) not in ("gear", "size"):
                if self.kind(ahead + 1) in ("unit", "in", "gear", "needle", "round"):
                    break
                count = ahead + 1
                if self.kind(count) in ("stitch_noun", "word") and self.joined(count):
                    count += 1
                return CastOn(*self.take(count), token.number)
        return self.only_words(1)

    def size(self) -> Phrase:
        """`size 2`, which says nothing."""
        count = 1
        while (
            self.kind(count) in ("number", "range", "and", "word", "decimal", "only")
            and self.joined(count)
            and count < 6
        ):
            count += 1
        return Said(*self.take(count))

    def gear(self) -> Phrase:
        """`US 6 needle`, which says nothing; the number of rounds behind `with the thicker needles` is no size."""
        sized = self.kind(1) in ("number", "decimal", "range") and self.kind(2) != "round"
        if sized and self.joined(1) and not self.flags(1) & COMMA:
            count = 3 if self.kind(2) in ("needle", "gear", "unit") else 2
            return Said(*self.take(count))
        text = self.token().text
        return Said(*self.take(1), 1 if self.kind() == "word" else 0, text)

    def closing(self) -> Phrase:
        """`cut yarn`."""
        return Closing(*self.take(1))

    def cord(self) -> Phrase:
        """`i-cord`, of the stitches that are left."""
        return Closing(*self.take(1), cord=True)

    def bind_off(self) -> Phrase:
        """`bind off`."""
        return Closing(*self.take(1), bind_off=True)

    def continue_(self) -> Phrase:
        """`continue`; `keep on so`, with the manner; `go on until you've done it 8 times` says how often."""
        if often := self.gone_on_often() or self.pattern_until(1):
            return often
        if self.text_of(1) == "so" and self.joined(1) and not self.flags(1) & COMMA and self.ends_at(2):
            return Continue(*self.take(2), manner=True)
        return self.goes_around() or Continue(*self.take(1))

    def goes_around(self) -> Phrase | None:
        """`continue this pattern around the hat`: what was told of the round before is repeated; else None."""
        pointed = self.kind(1) == "these" or self.text_of(1) in ("this", "that")
        ahead = 3 + (self.kind(3) in ("", "all"))
        far = self.kind(ahead) in ("around", "end") or (
            self.kind(3) == "to" and self.kind(self.skip(4)) == "end"
        )
        if (
            not pointed
            or self.text_of(2) not in ("pattern", "sequence", "repeat")
            or not far
            or not self.joined(3)
        ):
            return None
        return Rep(*self.take(3)) if self.flags(0) & STOP else None

    def gone_on_often(self) -> Phrase | None:
        """`go on like that until you've done it 8 times` behind stitches of its sentence; else None."""
        ahead = 1 + (self.kind(1) == "manner" and self.joined(1))
        if self.kind(ahead) != "until" or not self.joined(ahead) or not self.makes_here():
            return None
        return self.often_done(ahead + 1)

    def manner(self) -> Phrase:
        """`in this manner`; `and so on each of the four needles` behind stitches tells where they are worked."""
        if self.is_behind_stitches() and (parts := self.in_each_part()):
            return parts
        return Continue(*self.take(1), manner=True)

    def in_each_part(self) -> Phrase | None:
        """`the same way to each thread`, `so on each of the four needles`; None where no parts are told."""
        ahead, every, number = 1, self.token().text.endswith((" each", " every")), None
        while ahead < MOST_IN_ENDS and self.joined(ahead) and not self.flags(ahead) & COMMA:
            token = self.token(ahead)
            if token.kind in ("needle", "section", "marker", "persection") or token.text == "thread":
                return Needlewise(*self.take(ahead + 1), number) if every else None
            if token.kind == "number":
                number = token.number
            elif token.kind in ("each", "per"):
                every = True
            elif token.text not in _BEFORE_PART:
                return None
            ahead += 1
        return None

    def chart(self) -> Phrase:
        """`chart`, `Chart 4`, `chart no. 3`, `Chart 14A`: with the number it is called by."""
        count = 2 if self.text_of(1) in ("no", "nr", "number") and self.joined(1) else 1
        token = self.token(count)
        called = token.text.isdigit() and self.joined(count) and not token.flags & (COMMA | DASH)
        if not called or self.kind(count + 1) in _COUNTED_BEHIND_CHART:
            return Chart(*self.take(1))
        lettered = len(self.text_of(count + 1)) == 1 and self.token(count + 1).start == token.end
        return Chart(*self.take(count + 1 + lettered))

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
        return self.only_words(1)

    def then(self) -> Phrase:
        """`then`."""
        return Then(*self.take(1))

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
        """`after every fifth stitch make one`; else None."""
        made = self.skip_nouns(3)
        counted = self.kind(1) == "each" and self.kind(2) in ("ordinal", "number") and made > 3
        number = self.token(made + 1).number
        spelled = self.kind(made) == "make" and number is not None and number.values == (1,)
        if not counted or not (spelled or self.token(made).means == "m1") or not self.joined(made):
            return None
        every = self.at_every(0, "m1")
        self.place += (1 + spelled) * (every is not None)
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

    def if_odd(self) -> Phrase:
        """`if odd`."""
        return Odd(*self.take(1))


def _said_beside(inside: list[Phrase]) -> list[Phrase]:
    """What a bracket that explains says beside: a count, and so many rounds after each."""
    kept: list[Phrase] = []
    for place, phrase in enumerate(inside):
        behind = inside[place + 1] if place + 1 < len(inside) else None
        after = type(behind) is Said and behind.text == "after"
        if type(phrase) is Count and phrase.sure:
            kept.append(phrase)
        elif type(phrase) is Rounds and phrase.every and phrase.step > 1:
            kept.append(phrase)  # knit (and every even round after this, unless told otherwise)
        elif type(phrase) is Rounds and not phrase.every and behind is not None and after:
            kept.extend((phrase, behind))
    return kept


_DENIES: Final = frozenset(
    ("no", "without", "omit", "omitting", "skip", "skipping", "drop", "dropping", "leave", "leaving", "stop", "done",
     "finished", "not", "don't", "forget", "forgetting", "ditch", "lose")
)  # fmt: skip
"""Words that say that something is not worked any more."""
_WITH_DENIAL: Final = frozenset(
    (
        "any",
        "with",
        "about",
        "doing",
        "working",
        "knitting",
        "further",
        "longer",
        "all",
        "trouble",
        "bother",
        "need",
    )
)
_GONE: Final = frozenset(
    ("go", "gone", "stop", "end", "disappear", "vanish", "drop", "dropped", "left", "omitted", "skipped", "over")
)  # fmt: skip
"""What becomes of the plain rounds, where none are worked any more."""
_NAMING_ROUNDS: Final = frozenset(("number", "ordinal", "round", "range"))
"""What stands behind `the rounds between` where those are named."""
_DENYING: Final = frozenset(("not", "don't", "never", "without"))
MOST_DENYING: Final = 4
"""Words between a denial and what is denied."""
_COMES: Final = frozenset(
    ("comes", "come", "is", "be", "happens", "falls", "it's", "that's", "reached", "just")
)
"""What stands before `after a decrease round` where that tells how rounds end."""
_FINISHING: Final = frozenset(("finish", "finishing", "finishes"))
_ENDINGS: Final = frozenset(("just", "throughout"))
"""Words that may say to where something is worked, or with what it ends."""
_JUST_DONE: Final = frozenset(("done", "worked", "knit", "knitted", "finished", "completed"))
_COUNTED_BEHIND_CHART: Final = ("times", "round", "often", "more", "stitch_noun", "total")
"""What stands behind a number that is not that of the chart before it: `the chart 4 times`."""
_CROSSED: Final = frozenset(("cross", "cable", "twist"))
MOST_IN_REPEAT: Final = 24
"""Words of a line back to the star with which a repeat begins."""
MOST_CROSSED: Final = 12
"""Stitches of one cable."""
_WORDED: Final = RAISING | COLOURS | CRAFTING.keys()
"""Words with which stitches told in words may begin."""
_READ: Final[Mapping[str, Callable[[Lines], Phrase]]] = {
    "knit": Lines.craft,
    "purl": Lines.purl,
    "slip": Lines.slip,
    "right": Lines.craft,
    "left": Lines.craft,
    "stitch": Lines.stitch,
    "cable": Lines.cable,
    "edge": Lines.edge,
    "make": Lines.make,
    "passover": Lines.pass_over,
    "pass": Lines.passed,
    "decrease": Lines.decrease,
    "increase": Lines.decrease,
    "number": Lines.number,
    "decimal": Lines.decimal,
    "range": Lines.ranged,
    "ratio": Lines.ratio,
    "times": Lines.times_first,
    "often": Lines.often,
    "more": Lines.more,
    "total": Lines.total,
    "stitch_noun": Lines.counted,
    "remain": Lines.remain,
    "have": Lines.have,
    "to": Lines.to,
    "until": Lines.to,
    "around": Lines.around,
    "all": lambda lines: lines.completed() or lines.all_of(),
    "each": Lines.all_of,
    "alternate": Lines.alternate,
    "ordinal": Lines.ordinal,
    "stars": Lines.star,
    "repeat": Lines.repeat,
    "work": Lines.work,
    "as": Lines.same,
    "together": Lines.as_one,
    "instead": Lines.instead,
    "last": Lines.last,
    "these": Lines.these_again,
    "before": Lines.before,
    "after": Lines.after,
    "round": Lines.round,
    "step": Lines.steps_worked,
    "rib": Lines.fabric,
    "stocking": Lines.fabric,
    "garter": Lines.fabric,
    "moss": Lines.fabric,
    "pattern": Lines.fabric,
    "plain": Lines.even,
    "even": Lines.even,
    "(": Lines.bracket,
    ")": Lines.close,
    "cast_on": Lines.cast_on,
    "size": Lines.size,
    "needle": Lines.gear,
    "gear": Lines.gear,
    "closing": Lines.closing,
    "bind_off": Lines.bind_off,
    "icord": Lines.cord,
    "continue": Lines.continue_,
    "manner": Lines.manner,
    "chart": Lines.chart,
    "then": Lines.then,
    "and": Lines.and_,
    "marker": Lines.marker,
    "place": Lines.placed,
    "slipmarker": Lines.marker,
    "ifodd": Lines.if_odd,
    "begin": Lines.begin,
    "end": Lines.begin,
    "per": Lines.per,
    "persection": Lines.per,
    "everyround": Lines.every_round,
}
