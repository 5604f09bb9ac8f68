"""Increases told in words: `make a stitch`, `1 new from the thread between`, `lift the bar and knit it`."""

from typing import Final

from roundwright.wording.reading.parsing.looking import BREAK
from roundwright.wording.reading.parsing.markers import MarkerReader
from roundwright.wording.reading.phrases import Phrase, Stitches
from roundwright.wording.reading.tokens import COLON, COMMA, STOP
from roundwright.wording.reading.tree import ONE, Number, Stitch

MOST_BACK: Final = 8
"""Words back to the stitches behind which a new one is made."""
MOST_OF_BAR: Final = 16
"""Words that say where a new stitch comes from, and how it is knitted."""
RAISING: Final = frozenset(
    (
        "make",
        "makes",
        "making",
        "pick",
        "picking",
        "lift",
        "lifting",
        "raise",
        "take",
        "knit",
        "k",
        "work",
        "add",
    )
)
"""Verbs by which a new stitch is told."""
BEHIND_NEW: Final = frozenset(("word", "stitch_noun", "more", "from"))
"""What stands behind the number of stitches that are made."""
_LIFTING: Final = frozenset(("pick", "picking", "lift", "lifting", "raise", "take"))
_MAKING: Final = frozenset(("make", "makes", "making", "add"))
_NEW: Final = frozenset(("new", "extra", "fresh"))
_ARTICLES: Final = frozenset(("a", "an", "another", "the"))
_BARS: Final = frozenset(("thread", "bar", "strand", "loop", "ladder", "between"))
"""What lies between two stitches."""
_FROM: Final = frozenset(("from", "out", "under"))
_ENDS_OF_BAR: Final = frozenset(
    ("number", "times", "often", "stars", ")", "(", "repeat", "around", "to", "then")
)
_CRAFTS: Final = ("knit", "purl")
_WORKED: Final = frozenset(("knit", "purl", "stitch", "slip", "together"))
_BARS_LIFTED: Final = frozenset(
    ("thread", "bar", "strand", "loop", "ladder", "running", "horizontal", "cross")
)
_BAR_AGAIN: Final = frozenset(("it", "this", "that", "into", "in", "tbl", "through", "twisted", "as"))
_INTO_IT: Final = frozenset(
    ("the", "its", "it", "back", "backs", "of", "loop", "tbl", "a", "stitch", "twisted", "in", "into", "new",
     "through back loop", "through the back loop", "through", "in back of loop", "as", "crossed", "front")
)  # fmt: skip
"""Words that say how the bar is knitted."""


class NewStitchReader(MarkerReader):
    """Reads stitches that are made."""

    def new_stitches(self) -> Phrase | None:
        """`make a stitch`, `1 new from the thread between`, `lift the bar between and knit it`; else None."""
        verb = self.text_of(0) if self.text_of(0) in RAISING else ""
        ahead = int(bool(verb)) + (self.text_of(1) == "up" and bool(verb))
        if verb in _LIFTING and (lifted := self.bar_lifted(ahead)):
            return self.made(lifted)
        if not self.makes_here():
            return None
        number = self.token(ahead).number if self.kind(ahead) == "number" else None
        if number is None and not (verb and self.text_of(ahead) in _ARTICLES):
            return None
        if not self.joined(ahead) and verb:
            return None
        behind = ahead + 1
        new = self.text_of(behind) in _NEW and self.joined(behind)
        behind += new
        noun = self.kind(behind) == "stitch_noun" and self.joined(behind) and not self.flags(behind) & COMMA
        behind += noun
        bar = self.from_bar(behind)
        if verb in _MAKING and noun and self.kind(behind) not in ("marker", "make") and not number:
            return self.made(behind + bar)
        if bar or (new and (noun or self.ends(behind))):
            return self.made(behind + bar, number or ONE)
        return None

    def made(self, count: int, number: Number = ONE) -> Phrase:
        """So many words, as stitches that are made."""
        start, end, flags = self.take(count)
        return Stitches(start, end, flags, Stitch("m1", number, start, end))

    def makes_here(self) -> bool:
        """Whether a new stitch may be told here: behind others of its sentence, or where a repeat begins."""
        before = self.tokens[self.place - 1].kind if self.place else ""
        if before in ("stars", "("):
            return True
        for back in range(self.place, max(self.place - MOST_BACK, 0), -1):
            if self.tokens[back].flags & (STOP | COLON):
                return False
            if self.tokens[back - 1].kind in _WORKED:
                return True
        return False

    def from_bar(self, ahead: int) -> int:
        """How many words say that a stitch comes from between two others: `from the thread between`; else 0."""
        return self.to_end_of_bar(ahead) if self.text_of(ahead) in _FROM and self.joined(ahead) else 0

    def to_end_of_bar(self, ahead: int) -> int:
        """How many words there are to the end of what is said of the bar between two stitches; 0 where it is not."""
        stop, bar = ahead, False
        while self.place + stop < self.stop and stop < ahead + MOST_OF_BAR:
            kind, ends = self.kind(stop), bool(self.flags(stop) & (BREAK | COMMA))
            if (ends and stop > ahead) or kind in _ENDS_OF_BAR or (bar and kind in ("stitch", *_CRAFTS)):
                break
            bar = bar or self.text_of(stop) in _BARS
            stop += 1
        while stop > ahead and self.kind(stop - 1) == "and":
            stop -= 1
        return stop - ahead if bar else 0

    def bar_lifted(self, ahead: int) -> int:
        """How many words say that the bar between two stitches is lifted and knitted; 0 where none do."""
        if self.text_of(ahead) not in _ARTICLES or self.text_of(ahead + 1) not in _BARS_LIFTED:
            return 0
        count = ahead + self.to_end_of_bar(ahead)
        between = any(self.text_of(at) == "between" for at in range(ahead, count))
        at = count + (self.kind(count) == "and" or self.kind(count) == "then")
        if self.kind(at) in _CRAFTS and self.joined(at) and self.text_of(at + 1) in _BAR_AGAIN:
            count = at + 2
            while self.text_of(count) in _INTO_IT and self.joined(count) and not self.flags(count) & COMMA:
                count += 1
            return count
        return count if between else 0

    def ends(self, ahead: int) -> bool:
        """Whether what is told ends there, or how often it is worked follows."""
        behind = self.place + ahead >= self.stop or bool(self.flags(ahead) & (BREAK | COMMA))
        return behind or self.kind(ahead) in _ENDS_OF_BAR
