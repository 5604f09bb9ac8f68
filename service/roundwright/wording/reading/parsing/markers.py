"""Markers that are placed, and stitches that are marked."""

from roundwright.wording.reading.parsing.again import AgainReader
from roundwright.wording.reading.parsing.looking import BREAK
from roundwright.wording.reading.phrases import Brackets, Every, Phrase, Said, Stitches
from roundwright.wording.reading.tokens import COMMA
from roundwright.wording.reading.tree import ONE, Mark, Stitch


class MarkerReader(AgainReader):
    """Reads markers."""

    def marker(self) -> Phrase:
        """`mark the next st`: that stitch is worked and has a marker."""
        at = 1 + (self.text_of(1) == "after")
        if self.text_of(at) in ("every", "each") and self.counts_stitches(at + 1) and self.joined(at + 1):
            number = self.token(at + 1).number or ONE  # place markers every 12 sts
            return Every(*self.take(at + 2 + (self.kind(at + 2) == "stitch_noun")), number)
        if self.token().text in ("mark", "marking") and (marked := self.marked(self.skip(1))):
            return marked
        return Said(*self.take(1))

    def marked(self, ahead: int) -> Phrase | None:
        """The one stitch that gets a marker, from `next st` on."""
        if self.kind(ahead) in ("in", "for"):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) != "next" or self.kind(ahead + 1) != "stitch_noun":
            return None
        start, end, flags = self.take(ahead + 2)
        stitch = Stitch("k", ONE, start, end)
        while self.kind() in ("", "with", "word", "marker") and not self.flags(0) & (BREAK | COMMA):
            self.place += 1
        return Brackets(
            start, end, flags, (Stitches(start, end, 0, Mark(start, end)), Stitches(start, end, 0, stitch))
        )

    def counts_stitches(self, ahead: int) -> bool:
        """Whether a number stands there, or the order of a stitch: `every 13 sts`, `every 13th st`."""
        ordinal = self.kind(ahead) == "ordinal" and self.kind(ahead + 1) == "stitch_noun"
        return self.kind(ahead) == "number" or (ordinal and self.token(ahead).number is not None)

    def placed(self) -> Phrase:
        """`pm`, `placing a marker every 8 sts`."""
        if marked := self.marked(self.skip(1)):
            return marked
        start, end, flags = self.take(1)
        on_it = (
            self.text_of(0) == "on" and self.kind(self.skip(1)) == "needle"
        )  # put a marker on the needle after
        where = 1 + (self.skip(1) + 1 if on_it else self.text_of(0) in ("on", "in", "down"))
        if self.kind(where - 1) == "after" and self.kind(where) == "each":
            self.place += where  # put a marker on after every 11 sts
            if self.kind(1) == "stitch_noun":
                self.place += 2
                return Every(start, self.at_end(), flags, ONE)  # place a marker after each stitch
        if self.kind() == "each" and self.counts_stitches(1):
            number = self.token(1).number or ONE
            count = 3 if self.kind(2) == "stitch_noun" else 2
            _, end, _ = self.take(count)
            return Every(start, end, flags, number)
        return Stitches(start, end, flags, Mark(start, end))
