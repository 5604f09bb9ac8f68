"""Brackets: `(k2tog, k6)`, `(72 sts)`, `(= 8 sts fewer)`."""

from itertools import pairwise, takewhile
from typing import Final

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.language import say
from roundwright.wording.reading.by_name import work_of_names
from roundwright.wording.reading.parsing.asides import aside, describes, means, tells_other
from roundwright.wording.reading.parsing.extents import ExtentReader
from roundwright.wording.reading.parsing.looking import REPEATS
from roundwright.wording.reading.parsing.numbers import MOST_BEHIND_CHART
from roundwright.wording.reading.phrases import (
    Brackets,
    Count,
    Fabric,
    PassOver,
    Phrase,
    Rounds,
    Said,
    Stitches,
)
from roundwright.wording.reading.tokens import COLON, COMMA, EQUALS, FULL, LINE, SEMI, STOP, Token
from roundwright.wording.reading.tree import Evenly, Number, Stitch

MOST_NESTED: Final = 12
"""Brackets within brackets."""
MOST_IN_LIST: Final = 60
"""Words of a list of rounds back to its first."""
_PARTING: Final = COLON | STOP | EQUALS
"""Signs before a number that is not that of the times of the bracket before it: `(dec 6). 90 sts`."""
_TO_NOUN: Final = frozenset(("", "next", "stitch_noun"))
MOST_TO_NOUN: Final = 5
"""Words from an increase to the bracket in `knit into the front and back of the next stitch (kfb)`."""
_WORKED: Final = ("stitch", "together", "make")
"""What of the work beside a bracket says that the change in it is told, and not worked."""
PAIRS: Final = {"(": ")", "[": "]", "{": "}"}


class BracketReader(ExtentReader):
    """Reads what stands in brackets."""

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


MOST_IN_REPEAT: Final = 24
"""Words of a line back to the star with which a repeat begins."""
MOST_CROSSED: Final = 12
"""Stitches of one cable."""
