"""The phrases of a line, one after the other."""

from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Final

from roundwright.wording.reading.parsing.brackets import MOST_CROSSED
from roundwright.wording.reading.parsing.colours import COLOURS, is_colour
from roundwright.wording.reading.parsing.ends import MOST_IN_ENDS, EndReader
from roundwright.wording.reading.parsing.new_stitches import BEHIND_NEW, RAISING
from roundwright.wording.reading.parsing.stitches import CRAFTING
from roundwright.wording.reading.phrases import (
    ALL_OTHERS,
    CastOn,
    Chart,
    Closing,
    Continue,
    EndsPlain,
    EndsShaped,
    Fabric,
    Needlewise,
    Odd,
    Partly,
    Phrase,
    Rep,
    Rounds,
    Said,
    Stitches,
    Then,
)
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, LINE, SEMI, STOP, Token
from roundwright.wording.reading.tree import ONE, Number, Stitch

_RIB_WIDTHS: Final = {"single": 1, "double": 2}
MOST_BEFORE_PLAIN: Final = 8
"""Words between a decrease and the plain stitches that end its round."""
MOST_FROM_UNTIL: Final = 14
"""Words from `until` to the plain round with which it ends."""
_BEFORE_PART: Final = frozenset(("to", "on", "in", "at", "for", "of", "the", "all", "with"))


PAIR: Final = 2
"""Numbers with a dash between that are no stitches of needles."""
MOST_TO_NEEDLES: Final = 6
"""Words from the stitches of some needles to the word for needles."""


class Lines(EndReader):
    """A reader of phrases over the tokens of a text, from `place`."""

    def next_phrase(self) -> Phrase:
        """The phrase that begins here."""
        token = self.tokens[self.place]
        if plain := self.plain_rounds_told():
            return plain
        if token.text in _FINISHING and self.text_of(1) in ("with", "on") and (ends := self.finishing()):
            return ends
        if (by_word := _BY_WORD.get(token.text)) and (phrase := by_word(self)):
            return phrase
        if token.text == "c" and (cable := self.dotted_cable()):
            return cable
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
        if self.place and self.tokens[self.place - 1].text in DENYING:
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
                number = self.on_needles_together(token, count)
                return CastOn(*self.take(count), number)
        return self.only_words(1)

    def on_needles_together(self, token: Token, ahead: int) -> Number:
        """The stitches of all needles where those of each are told: `cast on 32-32-32 (on three needles)`."""
        number = token.number or ONE
        values = [value or 0 for value in number.values]
        behind = range(ahead, ahead + MOST_TO_NEEDLES)
        needles = any(self.kind(at) == "needle" for at in behind)
        apart = "-" in token.text and "(" not in token.text and len(values) > PAIR
        sizes = all(later > former for former, later in pairwise(values))
        return Number((sum(values),), token.start, token.end) if needles and apart and not sizes else number

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

    def if_odd(self) -> Phrase:
        """`if odd`."""
        return Odd(*self.take(1))


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
DENYING: Final = frozenset(("not", "don't", "never", "without"))
MOST_DENYING: Final = 4
"""Words between a denial and what is denied."""
_FINISHING: Final = frozenset(("finish", "finishing", "finishes"))
_JUST_DONE: Final = frozenset(("done", "worked", "knit", "knitted", "finished", "completed"))
_COUNTED_BEHIND_CHART: Final = ("times", "round", "often", "more", "stitch_noun", "total")
"""What stands behind a number that is not that of the chart before it: `the chart 4 times`."""
_BY_WORD: Final[Mapping[str, Callable[[Lines], Phrase | None]]] = {
    "just": Lines.ended,
    "throughout": Lines.ended,
    "adjust": Lines.adjusted,
    "adjusting": Lines.adjusted,
    "cross": Lines.crossed,
    "cable": Lines.crossed,
    "twist": Lines.crossed,
}
"""Words with which something may begin, and else are as any of their kind."""
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
