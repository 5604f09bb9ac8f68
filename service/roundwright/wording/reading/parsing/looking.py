"""The words of a line, and looking ahead in them."""

from collections.abc import Mapping
from typing import Final

from msgspec import Struct

from roundwright.knitting.rounds.round import StitchName
from roundwright.wording.reading.phrases import Phrase, Said
from roundwright.wording.reading.tokens import COLON, EQUALS, LINE, SEMI, STOP, TAB, Token

NAMES: Final[dict[str, StitchName]] = {"knit": "k", "purl": "p", "slip": "sl", "right": "k", "left": "p"}
TOGETHER: Final[dict[tuple[str, int], StitchName]] = {
    ("knit", 2): "k2tog",
    ("knit", 3): "k3tog",
    ("purl", 2): "p2tog",
    ("purl", 3): "p3tog",
}
TWO_AS_ONE: Final[dict[StitchName, StitchName]] = {
    NAMES[craft]: TOGETHER[craft, 2] for craft in ("knit", "purl")
}
"""What two plain stitches are that are worked as one."""
OFTEN: Final = {"once": 1, "twice": 2, "thrice": 3}
REPEATS: Final = frozenset(("repeats", "reps", "rpts", "repetitions", "patterns", "patts", "pats"))
"""What the rounds of a pattern are called, worked once."""
CRAFTS: Final = frozenset(("knit", "purl", "slip"))
ONTO: Final = frozenset(("on", "onto", "over", "across", "among", "between", "evenly over"))
"""Words before the number of needles on which the stitches are."""
NOT_STITCHES: Final = frozenset(
    ("round", "times", "unit", "more", "together", "knit", "purl", "gear", "needle", "right", "marker")
)
"""What a number counts where it does not count the stitches that are left."""
_AMID: Final = frozenset(("intermediate", "intermediary", "intervening"))
_SEVERAL: Final = frozenset(("rounds", "rnds", "rds", "rows"))
BREAK: Final = STOP | SEMI | LINE | EQUALS | COLON | TAB

_KNITTING: Final = frozenset(("k", "knit", "knitting", "p", "purl", "purling"))
_REPEAT_ENDS: Final = frozenset(("end", "around", "round"))
"""Kinds of the last word of what is repeated: `to end`, `to end of rnd`."""


class Looking(Struct):
    """The tokens of a text from `place` to before `stop`, and what is asked about those ahead."""

    tokens: list[Token]
    place: int
    stop: int
    depth: int = 0
    troubles: list[tuple[str, str, int]] = []
    names: Mapping[str, int] = {}

    def next_phrase(self) -> Phrase:
        """The phrase that begins here."""
        raise NotImplementedError

    def kind(self, ahead: int = 0) -> str:
        """The kind of the word so far ahead; empty behind the end."""
        place = self.place + ahead
        return self.tokens[place].kind if place < self.stop else ""

    def token(self, ahead: int = 0) -> Token:
        """The word so far ahead."""
        place = self.place + ahead
        return self.tokens[place if place < self.stop else min(place, len(self.tokens) - 1)]

    def text_is(self, *texts: str) -> bool:
        """Whether the next word is one of these."""
        return self.place < self.stop and self.tokens[self.place].text in texts

    def ends_plain(self) -> Phrase | None:
        """`have knitted the plain one`; else None."""
        raise NotImplementedError

    def in_row_of_units(self) -> bool:
        """Whether `three and two together` stands before `two and two together`, or `one and two together` behind."""
        raise NotImplementedError

    def after_every_other(self) -> Phrase | None:
        """`every five` in `decrease after every six, every five, every four`; else None."""
        raise NotImplementedError

    def at_ends(self) -> Phrase | None:
        """`at both ends of every needle`; else None."""
        raise NotImplementedError

    def until_round(self, *, until: bool) -> Phrase | None:
        """`until you have worked (k1, k2tog)`; else None."""
        raise NotImplementedError

    def text_of(self, ahead: int) -> str:
        """The word so far ahead; empty behind the end."""
        place = self.place + ahead
        return self.tokens[place].text if place < self.stop else ""

    def skip(self, ahead: int) -> int:
        """The next word from here that says something."""
        while self.kind(ahead) == "" and self.place + ahead < self.stop:
            ahead += 1
        return ahead

    def flags(self, ahead: int) -> int:
        """What stands before the word so far ahead."""
        place = self.place + ahead
        return self.tokens[place].flags if place < self.stop else STOP

    def joined(self, ahead: int) -> bool:
        """Whether nothing but space or a comma stands before that word."""
        return not self.flags(ahead) & BREAK

    def is_over(self) -> bool:
        """Whether stitches are knitted that are over behind a repeat, if any are: `around, knitting any rem sts`."""
        at = self.place - 1 - (self.tokens[self.place - 1].text in ("any", "the", "all"))
        works = at > 0 and self.tokens[at].text in _KNITTING
        joint = at > 1 and self.tokens[at - 1].kind in ("and", "then")
        return works and self.tokens[at - 1 - joint].kind in _REPEAT_ENDS

    def all(self) -> list[Phrase]:
        """All phrases to the end."""
        phrases: list[Phrase] = []
        while self.place < self.stop:
            phrases.append(self.next_phrase())
        return phrases

    def take(self, count: int) -> tuple[int, int, int]:
        """Start, end and flags of so many tokens, which are taken."""
        first, last = self.tokens[self.place], self.tokens[self.place + count - 1]
        self.place += count
        return first.start, last.end, first.flags

    def only_words(self, count: int) -> Phrase:
        """So many words that say nothing."""
        words = [self.kind(ahead) for ahead in range(count)].count("word")
        text = self.token().text if count == 1 else ""
        return Said(*self.take(count), words, text)

    def at(self, behind: int) -> int:
        """Where the word so far back begins."""
        return self.tokens[self.place + behind].start

    def at_end(self) -> int:
        """Where the last word that was taken ends."""
        return self.tokens[self.place - 1].end

    def ends_count(self) -> bool:
        """Whether a bracket closes a count at the end of a sentence: `Knit 84 sts).`, as `(84 sts` may be left open."""
        before = self.tokens[max(0, self.place - 3) : self.place]
        kinds = [token.kind for token in before if token.kind != "remain"][-2:]
        return kinds == ["number", "stitch_noun"] and bool(self.flags(1) & STOP)

    def others_told(self) -> int:
        """How many words name the rounds that are not given: `The rounds in between: knit`; 0 where others do."""
        ahead = next((at for at in range(2) if self.text_of(at) not in ("all", "the")), 2)
        first, sorts = ahead, "".join(self.text_of(at) for at in (ahead, ahead + 1))
        if self.kind(ahead) == "round":
            ahead += 1 + (self.text_of(ahead + 1) == "in")
            named = self.text_of(ahead) == "between"
        else:
            ahead += 1 + (sorts == "inbetween")
            alone = self.text_of(first) in _AMID or (first > 0 and self.text_of(first) == "other")
            named = (alone or sorts == "inbetween") and self.kind(ahead) == "round"
        several = any(self.text_of(at) in _SEVERAL for at in (first, ahead))
        signed = bool(self.flags(ahead + 1) & COLON) or self.text_of(ahead + 1) == "are"
        return ahead + 1 if named and several and signed else 0

    def letter(self, ahead: int) -> str:
        """The letter that a round is called by; empty where there is none."""
        text = self.text_of(ahead)
        return text if len(text) == 1 and "a" <= text <= "j" else ""
