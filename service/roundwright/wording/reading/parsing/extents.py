"""How far: `to last 2 sts`, `to 2 sts before m`, `until 8 sts remain`, `on every round`."""

from typing import Final, cast

from roundwright.wording.reading.parsing.looking import BREAK, REPEATS
from roundwright.wording.reading.parsing.numbers import NumberReader
from roundwright.wording.reading.phrases import (
    ALL_OTHERS,
    Brackets,
    Extent,
    LastRound,
    Length,
    Needlewise,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Times,
    Until,
    UntilRound,
)
from roundwright.wording.reading.tokens import COLON, COMMA, SEMI, SLASH, STOP
from roundwright.wording.reading.tree import NOTHING, ONE, Node, Number, Stitch

MOST_BEFORE_ROUND: Final = 9
"""Words between `until` and the stitches of the round that is come to."""
_IS_DONE: Final = frozenset(
    ("done", "worked", "made", "knitted", "did", "repeated", "gone", "been done", "completed")
)
_DOING: Final = _IS_DONE | frozenset(
    ("you", "you've", "you have", "youve", "have", "has", "it's", "i've", "we've", "we have", "i", "we", "it", "this",
     "that", "these", "so", "been", "the", "same", "all", "had", "is", "them", "both", "rounds", "two", "they",
     "they have", "they are", "are", "were", "each", "pattern", "patt")
)  # fmt: skip
"""Words between `until` and how often something is done."""
MOST_IN_UNIT: Final = 8
"""Stitches in what that round repeats."""
_BEFORE_ROUND: Final = frozenset(
    ("you", "you have", "you've", "youve", "you're", "have", "worked", "done", "knitted", "finished", "reached",
     "reach", "completed", "the", "a", "round", "rnd", "row", "of", "last", "decrease", "dec", "get", "come", "are",
     "at", "is", "reads", "we", "to", "just", "and", "including", "it", "been", "had", "with", "there", "get to",
     "down", "down to", "that", "we have", "i have", "goes", "its", "has")
)  # fmt: skip
"""Words between `until` and those stitches."""
_DOWN_TO: Final = frozenset(("down to", "get to", "to"))
"""Words before the only stitch of the round that is come to: `until you get down to k2tog`."""
_BETWEEN_ROUNDS: Final = frozenset(
    ("and", "the", "a", "its", "one", "with", "then", "following", "followed by", "has", "been", "is", "worked",
     "done")
)  # fmt: skip
"""Words between that round and the plain one behind it."""
_BEFORE_ITS_COUNT: Final = frozenset(
    ("which", "is", "that", "that's", "makes", "leaves", "leaving", "now", "you", "have")
)
"""Words between that round and its count."""
_BEHIND_ROUND: Final = frozenset(
    ("that", "goes", "with", "after", "it", "are", "is", "has", "have", "been", "finished", "worked", "done",
     "knitted", "complete", "completed", "reached", "round", "follows", "which", "belongs", "to")
)  # fmt: skip
"""Words behind them that say no more."""
_OF_ROUNDS: Final = frozenset(("round", "alternate", "following", "ordinal", "side", "even", "odd"))
"""What stands between `in each` and its rounds."""
_BEFORE_WORK: Final = frozenset(("at", "doing", "working", "to", "reach", "only", "just", "you're", "are"))
"""Words between `until` and the work that is come to."""

_DONE: Final = frozenset(("worked", "done", "completed", "finished", "made", "knitted", "knit", "are"))
"""Words before the number of the rounds that were worked in all."""
_ARE_DONE: Final = frozenset(
    ("have", "has", "had", "been", "are", "is", "were", "worked", "done", "completed", "complete", "finished", "made",
     "knitted", "knit", "long", "deep")
)  # fmt: skip
"""Words behind the number of the rounds that were worked in all."""

_GROWN: Final = frozenset(("grown", "shrunk"))
"""Words before the number of stitches that a part has come to."""
_STARTS: Final = frozenset(
    ("cast on", "casting on", "beg", "beginning", "start", "the start", "begin", "co", "edge", "bottom")
)
"""From where all rounds of a hat are counted."""
_PLACES: Final = _STARTS | frozenset(("brim", "ribbing", "band", "welt", "marker"))
"""From where rounds are counted: `from the brim`."""
_ABOUT_NUMBER: Final = frozenset(("a", "of", "total", "total of", "exactly", "in all", "altogether"))
"""Words between `worked` and the number of rounds: `until you have worked a total of 36 rounds`."""
_OF_FABRIC: Final = frozenset(
    (
        "",
        "word",
        "rib",
        "moss",
        "garter",
        "stocking",
        "pattern",
        "plain",
        "cable",
        "ratio",
        "chart",
        "these",
        "yarn",
    )
)
"""Words that tell what so many rounds are of."""
MOST_OF_FABRIC: Final = 6

_THIS: Final = frozenset(("the", "this", "whole"))
_IS: Final = frozenset(("is", "has been"))
PARTS: Final = ("part", "petal", "needle", "needles", "panel", "gusset", "quarter", "wedge", "section")
"""What a part of a round is called, needles with it."""
_ALL_DONE: Final = frozenset(("finished", "done", "complete", "completed", "over", "full"))
"""How it is said that a round is worked to its end."""


MOST_LEFT_ON_NEEDLE: Final = 4
"""Stitches at the end of a needle that are worked otherwise."""
MOST_TO_EACH: Final = 6
"""Words of `until only one stitch is left`."""
MOST_TO_NEEDLE: Final = 8
"""Words from their number to the needle."""
_GOING_ON: Final = frozenset(
    ("manner", "continue", "even", "plain", "knit", "purl", "rib", "stocking", "garter", "moss", "pattern")
)
"""What is gone on with up to a round."""
_UP: Final = ("up", "right", "down")
_INCLUDING: Final = frozenset(("including", "incl", "inclusive", "end"))
MOST_BEFORE_LAST: Final = 5
"""Words between `up to` and the last round of several."""


_MARKED: Final = ("the", "a", "where", "beginning of the round", "beginning of round", "end of round")
"""What stands behind `to mark` where a marker is told for what it is."""


class ExtentReader(NumberReader):
    """Reads how far something is worked."""

    def to(self) -> Phrase:
        """`to end`, `to last 2 sts`, `to 2 sts before m`, `until 8 sts rem`, `until it measures 5 ins`."""
        until = self.kind() == "until"
        often = self.often_done(1) if until else None
        if reached := often or self.until_round(until=until) or self.up_to_round():
            return reached
        ahead = 1 if self.letter(1) else self.skip(1)
        kind = self.kind(ahead)
        if kind == "until":
            until, ahead = True, self.skip(ahead + 1)
            kind = self.kind(ahead)
        if kind == "end":
            return self.to_end(ahead)
        if kind == "stars" or self.is_what_marks(ahead):
            return self.only_words(ahead + 1)
        if kind in ("marker", "make", "place", "slipmarker") and self.token(ahead).text != "make":
            return Extent(*self.take(ahead + 1), None, marker=True)
        if kind == "last":
            return self.to_last(ahead)
        if self.letter(ahead) and (
            self.place + ahead + 1 >= self.stop or self.flags(ahead + 1) & (STOP | COMMA | SEMI)
        ):
            return Extent(*self.take(ahead + 1), None, marker=True)
        if reached := self.to_next(ahead):
            return reached
        if kind in ("number", "list") and (
            phrase := self.to_length(ahead) or self.within(ahead) or self.to_number(ahead, until=until)
        ):
            return phrase
        return self.far(ahead, until=until)

    def is_what_marks(self, ahead: int) -> bool:
        """Whether it is told what a marker is for: `place a marker to mark the beginning of the round`."""
        return self.text_of(ahead) == "mark" and self.text_of(ahead + 1) in _MARKED and self.joined(ahead + 1)

    def before_marked(self, ahead: int) -> int:
        """The words of `to the stitch before a marked stitch`, `to the st before m`; 0 where others stand there."""
        at = self.skip(ahead + 2)
        at += self.kind(at) in ("each", "next")
        single = self.kind(ahead) == "stitch_noun" and not self.token(ahead).text.endswith("s")
        before = self.kind(ahead + 1) == "before" and self.joined(ahead + 1)
        return at + 1 if single and before and self.kind(at) in ("marker", "place") else 0

    def to_next(self, ahead: int) -> Phrase | None:
        """`to next m`, `to next purl st`, where a column parts the sections as a marker does; else None."""
        if stop := self.before_marked(ahead):
            return Extent(*self.take(stop), ONE, marker=True)
        at = ahead + (self.kind(ahead) == "next")
        if at > ahead and self.kind(at) in ("marker", "make"):
            return Extent(*self.take(at + 1), None, marker=True)
        column = self.kind(at + 1) == "stitch_noun" or self.text_of(at + 1) in ("column", "rib")
        if self.kind(at) not in ("knit", "purl") or not (self.joined(at) and self.joined(at + 1)):
            return None
        purl = self.kind(at) == "purl"
        return Extent(*self.take(at + 2), None, marker=True, purl=purl) if column else None

    def often_done(self, ahead: int) -> Phrase | None:
        """`until you've done it eight times`, from behind `until`: how often in all; else None."""
        done = False
        while self.text_of(ahead) in _DOING and self.joined(ahead) and ahead < MOST_BEFORE_ROUND:
            done = done or self.text_of(ahead) in _IS_DONE
            ahead += 1
        if not done or not self.joined(ahead):
            return None
        start, flags, begun = self.token().start, self.token().flags, self.place
        if self.kind(ahead) == "often" or (self.kind(ahead) == "number" and self.kind(ahead + 1) == "times"):
            self.place += ahead
            often = self.next_phrase()
            if type(often) is Times:
                return Times(start, often.end, flags | COMMA, often.number, total=True)
            self.place = begun
        return None

    def until_round(self, *, until: bool) -> Phrase | None:
        """`until you have worked (k1, k2tog) 8 times`, `down to "4 plain, 2 tog."`; None where no round is told."""
        ahead = 1
        while self.joined(ahead) and ahead < MOST_BEFORE_ROUND:
            if self.text_of(ahead) not in _BEFORE_ROUND and self.kind(ahead) != "ordinal":
                break
            ahead += 1
        near = self.flags(ahead) & BREAK in (0, COLON)
        if not (near and self.begins_unit(ahead)) or not (until or self.is_going_on()):
            return None
        begun, first = self.place, self.tokens[self.place]
        self.place += ahead
        nodes = self.unit()
        if not nodes:
            self.place = begun
            return None
        plain = self.behind_round()
        return UntilRound(first.start, self.at_end(), first.flags, nodes, plain)

    def begins_unit(self, ahead: int) -> bool:
        """Whether stitches are told there: a bracket, a star, `k1`, `4 plain`."""
        kind, behind = self.kind(ahead), self.kind(ahead + 1)
        if kind in ("(", "stars"):
            return behind in ("knit", "purl", "stitch", "number")
        if kind == "stitch":
            return self.text_of(ahead - 1) in _DOWN_TO
        return (kind in ("knit", "purl") and behind == "number" and self.kind(ahead + 2) != "round") or (
            kind == "number" and behind in ("plain", "knit")
        )

    def unit(self) -> tuple[Node, ...]:
        """The stitches told here, which are taken; empty where nothing is decreased in them."""
        opened = self.kind() in ("(", "stars")
        phrases: list[Phrase] = []
        while self.place < self.stop and len(phrases) < MOST_IN_UNIT:
            place = self.place
            phrase = self.next_phrase()
            if type(phrase) is Stitches and (not phrases or not phrase.flags & (STOP | SEMI)):
                phrases.append(phrase)
            elif type(phrase) is Brackets and opened and not phrases:
                phrases.extend(phrase.inside)
                break
            elif type(phrase) is Star and opened:
                opened = not phrases
                if phrases:
                    break
            elif type(phrase) is Rep and opened and phrases:  # * k1, k2tog; rep from * to end
                place = self.place
                if self.kind() != "to" or type(self.next_phrase()) is not Extent:
                    self.place = place
                break
            else:
                self.place = place
                break
        nodes = tuple(phrase.node for phrase in phrases if type(phrase) is Stitches)
        fixed = all(type(node) is Stitch and not node.bare for node in nodes)
        shaped = any(type(node) is Stitch and node.name not in ("k", "p", "sl") for node in nodes)
        return nodes if shaped and fixed and len(nodes) == len(phrases) else ()

    def behind_round(self) -> int:
        """Take what is said behind a round that is come to; how many plain rounds are among it."""
        often = (self.kind(), self.kind(1))
        if often in (("number", "times"), ("times", "number")) and self.joined(0):
            self.place += 2
        if (self.kind() in ("around", "round") or self.text_is("one")) and self.joined(0):
            self.place += 1
        ahead = self.behind_its_count()
        while self.text_of(ahead) in _BETWEEN_ROUNDS and not self.flags(ahead) & (SEMI | COLON):
            ahead += 1
        plain = 0
        number = self.token(ahead).number if self.kind(ahead) == "number" else None
        rounds = ahead + (number is not None)  # and the 3 knit rnds after it
        rounds += self.kind(rounds) in ("knit", "plain", "even")
        if ahead and rounds > ahead and self.kind(rounds) == "round":
            self.place += rounds + 1
            plain = number.of(0) or 0 if number is not None else 1
        place = self.place
        while self.text_of(0) in _BEHIND_ROUND and not self.flags(0) & (STOP | SEMI | COLON) * (
            not plain or self.place > place
        ):
            self.place += 1
        return plain

    def behind_its_count(self) -> int:
        """How many words tell the count of the round that is come to: `, which is 36,`, `(36 sts)`; 0 where none do."""
        ahead = 0
        while self.text_of(ahead) in _BEFORE_ITS_COUNT and not self.flags(ahead) & (SEMI | COLON | STOP):
            ahead += 1
        bracket = self.kind(ahead) == "("
        ahead += bracket
        if not ahead or self.kind(ahead) != "number":
            return 0
        ahead += 1 + (self.kind(ahead + 1) == "stitch_noun")
        if bracket and self.kind(ahead) != ")":
            return 0
        return ahead + bracket

    def up_to_round(self) -> Phrase | None:
        """`up to and including Round 20`: which round is the last, where the count is told beside; else None."""
        before = self.tokens[self.place - 1] if self.place else None
        begins = bool(self.flags(0) & STOP)
        if before is None or not (begins or before.text in _UP or before.kind in _GOING_ON):
            return None
        ahead = 1
        while self.kind(ahead) in ("", "and") or self.text_of(ahead) in _INCLUDING:
            if not self.joined(ahead) or ahead > MOST_BEFORE_LAST:
                return None
            ahead += 1
        numbered = self.kind(ahead) == "round" and self.kind(ahead + 1) in ("number", "ordinal")
        ordinal = self.kind(ahead) == "ordinal" and self.kind(ahead + 1) == "round"
        if not numbered and not ordinal:
            return None
        number = self.token(ahead + numbered).number or ONE
        return LastRound(*self.take(ahead + 2), number)

    def to_end(self, ahead: int) -> Phrase:
        """`to end of rnd`."""
        count = ahead + 1
        while (
            self.kind(count) in ("", "round", "needle")
            and self.joined(count)
            and self.place + count < self.stop
            and not self.flags(count) & COMMA
        ):
            count += 1
        while self.kind(count - 1) == "" and count > ahead + 1:
            count -= 1
        return Extent(*self.take(count), NOTHING, to=True)

    def to_last(self, ahead: int) -> Phrase:
        """`to last 2 sts`, `to last 2 sts before marker`."""
        number = ONE
        count = ahead + 1
        if self.kind(count) == "number":
            number = cast("Number", self.token(count).number)
            count += 1
        if self.kind(count) in ("stitch_noun", "edge"):
            count += 1
        count = self.behind_all_of_them(count)
        marker = False
        per = count + (self.text_of(count) == "of")
        if stop := self.before_each_marker(count):
            return Extent(*self.take(stop), number, marker=True, every=True)
        at = self.skip(count + 1)
        at = self.skip(at + 1) if self.kind(at) == "next" else at
        if self.kind(count) == "before" and self.kind(at) in ("marker", "make", "end", "place"):
            count, marker = at + 1, self.kind(at) != "end"
        elif self.kind(count) == "persection":
            count, marker = count + 1, True
        elif self.text_of(count) in ("on", "of") and self.text_of(count + 1) in ("a", "the", "that"):
            if self.kind(count + 2) in ("needle", "section"):
                count, marker = count + 3, True  # to the last two on a needle
        elif self.text_of(count) in ("on", "of") and self.kind(count + 1) == "needle" and self.joined(count):
            count, marker = count + 2, True  # to last 2 sts on needle
        elif self.kind(per) in ("each", "in", "per") and self.kind(per + 1) in ("needle", "word"):
            count, marker = per + 2, True
        return Extent(*self.take(count), number, marker)

    def behind_all_of_them(self, ahead: int) -> int:
        """Behind `of the 19 stitches`, where that stands there: `to the last 2 of the 19 stitches`."""
        of_the = (self.text_of(ahead), self.text_of(ahead + 1)) == ("of", "the")
        counted = self.kind(ahead + 2) == "number" and self.kind(ahead + 3) == "stitch_noun"
        return ahead + 4 if of_the and counted else ahead

    def before_each_marker(self, ahead: int) -> int:
        """The words up to the end of `before each marker`; 0 where others stand there."""
        behind = self.skip(ahead + 1)
        marker = self.skip(behind + 1)
        if self.kind(ahead) != "before" or self.kind(behind) != "each":
            return 0
        return marker + 1 if self.kind(marker) in ("marker", "place") else 0

    def to_length(self, ahead: int) -> Phrase | None:
        """`until 13 / 16 / 20 cm`, `till it's six and a half`; None where it is no length."""
        count = ahead + 1
        if self.kind(count) == "and" and self.text_of(count + 2) in ("half", "quarter"):
            return self.length(count + 3)
        while self.kind(count) == "number" and self.flags(count) & SLASH:
            count += 1
        listed = count > ahead + 1 and self.kind(count) in ("unit", "in")
        return self.length(count + 1) if listed else None

    def to_number(self, ahead: int, *, until: bool) -> Phrase | None:
        """`to 2 sts before m`, `to 72 sts`, `until 8 sts rem`; None where it is none of these."""
        number = cast("Number", self.token(ahead).number)
        count = self.behind_nouns(ahead + 1)
        if self.place and self.tokens[self.place - 1].text in _GROWN:
            return self.only_words(ahead + 1)  # so that every section has grown to 10 stitches
        kind = self.kind(count)
        if kind in ("before", "from"):
            at = self.skip(count + 1)
            every = self.kind(at) == "each"
            while self.kind(at) in ("each", "next", "ordinal") or (every and self.kind(at) == "number"):
                at = self.skip(at + 1)  # `2 before each of the 10 markers`
            if self.kind(at) in ("marker", "make", "end", "place"):
                marker = self.kind(at) != "end"
                return Extent(*self.take(at + 1), number, marker, every)
        if kind in ("unit", "in", "decimal"):
            return self.length(count + 1)
        if until and kind == "more" and self.kind(count + 1) == "round":
            return None  # until 30 more rounds have been worked
        if kind in ("round", "times"):
            return self.rounds_reached(count, number) if until else None
        if kind in ("remain", "left"):
            return self.until_left(ahead, count, number)
        if self.kind(ahead + 1) == "stitch_noun" or until:
            return self.repeats_in_all(self.place + ahead) or Until(*self.take(count), number)
        return None

    def behind_nouns(self, ahead: int) -> int:
        """Behind the word for stitches, and words that say nothing."""
        while (
            self.kind(ahead) in ("stitch_noun", "edge", "")
            and self.joined(ahead)
            and self.place + ahead < self.stop
        ):
            ahead += 1
        return ahead

    def until_left(self, ahead: int, count: int, number: Number) -> Phrase:
        """`until 8 sts rem`, `until 2 sts remain before the marker`, `until 2 sts are left on this needle`."""
        at = self.skip(count + 2)
        if self.kind(count + 1) == "before":
            while self.kind(at) in ("next", "ordinal", "each") and self.joined(at):
                at = self.skip(at + 1)
        if self.kind(count + 1) == "before" and self.kind(at) == "marker":
            return Extent(*self.take(at + 1), number, marker=True)
        if needle := self.on_this_needle(self.place + ahead, number):
            return Extent(*self.take(needle), number, marker=True)
        return Until(*self.take(count + 1), number)

    def rounds_reached(self, count: int, number: Number) -> Phrase | None:
        """`until 28 rounds`, of stripes worked in turn; None where more is said of the rounds."""
        ends = self.place + count + 1 >= self.stop or bool(self.flags(count + 1) & (STOP | SEMI | COMMA))
        if not ends or self.kind(count) != "round":
            return None
        start, end, flags = self.take(count + 1)
        return Brackets(start, end, flags, (Rounds(start, end, 0, number),))

    def within(self, ahead: int) -> Phrase | None:
        """`to within 2 sts of the next thread`; None where it is none of these."""
        number, count = self.token(ahead).number or ONE, self.skip(ahead + 1)
        count = self.skip(count + 1) if self.kind(count) == "stitch_noun" else count
        at = count + (self.kind(count) == "next")
        if self.text_of(count - 1) not in ("of", "the") or not self.is_marker(at) or not self.joined(at):
            return None
        return Extent(*self.take(at + 1), number, marker=True)

    def far(self, ahead: int, *, until: bool) -> Phrase:
        """To a length, or to a count, said in more words."""
        limit = min(self.place + 24, self.stop)
        place = self.place + ahead
        while place < limit:
            token = self.tokens[place]
            if token.flags & (STOP | SEMI) and not token.flags & COLON and place > self.place:
                break
            if token.kind == ")" and self.depth:
                break  # (and every even round until I say stop)
            if token.kind in ("unit", "measure") or (
                token.kind == "in" and self.tokens[place - 1].kind in ("number", "decimal")
            ):
                return self.length(place - self.place + 1)
            if token.kind == "decimal":
                return self.length(place - self.place + 1)
            if until and (reached := self.reached(place)):
                return reached
            if token.kind in ("stars", "(", "stitch", "cast_on") or (
                not until and token.kind in ("until", "icord")
            ):
                break  # change to the bigger needles and knit until it is 5 inches tall
            works = token.kind in ("knit", "purl") and self.tokens[place + 1].kind == "number"
            if works and self.tokens[place - 1].text in _BEFORE_WORK:
                break  # until you are at k1, k2tog
            place += 1
        if until:
            return Length(*self.take(max(1, min(place, self.stop) - self.place)))
        return self.only_words(1)

    def reached(self, place: int) -> Phrase | None:
        """A count, a marker or the end of the round behind `until`; None where none stands there."""
        kind = self.tokens[place].kind
        if kind == "number":
            return self.until_count(place)
        if kind == "marker":
            return Extent(*self.take(place - self.place + 1), None, marker=True)
        if kind == "end":
            return Extent(*self.take(place - self.place + 1), NOTHING)
        done = self.round_done(place)
        return Extent(*self.take(done), NOTHING, to=True) if done else None

    def round_done(self, place: int) -> int:
        """The words up to the end of `until the round is finished`; 0 where the round there is another."""
        named = self.tokens[place].kind == "round" and self.tokens[place - 1].text in _THIS
        if not named or place + 1 >= self.stop or self.tokens[place + 1].text not in _IS:
            return 0
        stop = place + 2
        if stop >= self.stop or self.tokens[stop].flags & BREAK or self.tokens[stop].text not in _ALL_DONE:
            return 0
        return stop + 1 - self.place

    def rounds_in_all(self, place: int) -> Phrase | None:
        """`until you have done twelve rounds altogether`, as a bracket says it; None where no rounds are counted.

        `until 16 rounds have been worked`, `until you have worked 8 (10, 12) rounds`, `until there are 12 rounds`.
        """
        more = place + 1 < self.stop and self.tokens[place + 1].kind == "more"
        noun = place + 1 + more
        if noun >= self.stop or self.tokens[noun].kind != "round":
            return None
        stop = behind = self.behind_fabric(noun + 1)
        while stop < self.stop and not self.tokens[stop].flags & BREAK:
            if self.tokens[stop].text not in _ARE_DONE and self.tokens[stop].kind != "total":
                break
            stop += 1
        before = place - 1
        while self.tokens[before].text in _ABOUT_NUMBER and before > self.place:
            before -= 1
        done = self.tokens[before].text in _DONE or self.tokens[before].kind == "have"
        ends = stop >= self.stop or bool(self.tokens[stop].flags & (STOP | COMMA | SEMI))
        ends = ends or self.tokens[stop].kind in ("and", "then") or self.from_where(stop - self.place) > 0
        if stop == behind and not (done and ends):
            return None
        number = self.tokens[place].number or ONE
        start, end, flags = self.take(stop - self.place)
        begun = self.from_where(0)
        if begun:
            _, end, _ = self.take(begun)
        from_start = bool(begun) and self.tokens[self.place - 1].text in _STARTS
        rounds = Rounds(start, end, 0, number, more=more, from_start=from_start)
        return Brackets(start, end, flags, (rounds,))

    def repeats_in_all(self, place: int) -> Phrase | None:
        """`until you have 3 repeats`, `until 3 full patterns have been worked in all`: how often in all; else None."""
        noun = place + 1
        while noun + 1 < self.stop and self.tokens[noun].kind in ("all", "pattern"):
            if self.tokens[noun].text in REPEATS:
                break
            noun += 1  # 5 complete pattern repeats
        shaped = noun + 1 < self.stop and self.tokens[noun].kind == "decrease"
        if shaped and self.tokens[noun + 1].kind == "round":
            noun = self.behind_plain_rounds(noun + 2) - 1  # 4 dec rnds and 4 plain rnds have been worked
        elif noun >= self.stop or self.tokens[noun].text not in REPEATS:
            return None
        stop = self.behind_fabric(noun + 1)
        while stop < self.stop and not self.tokens[stop].flags & BREAK:
            if self.tokens[stop].text not in _ARE_DONE and self.tokens[stop].kind != "total":
                break
            stop += 1
        number = self.tokens[place].number or ONE
        if shaped and (stop == noun + 1 or number.values == (1,)):
            return None  # until after 1 dec rnd only 4 sts are left
        return Times(*self.take(stop - self.place), number, total=True, reached=shaped)

    def behind_plain_rounds(self, place: int) -> int:
        """Behind `and 4 plain rnds`, where that stands there."""
        kinds = [token.kind for token in self.tokens[place : min(place + 4, self.stop)]]
        plain = kinds[:2] == ["and", "number"] and kinds[2:3] in (["plain"], ["knit"], ["even"])
        return place + 4 if plain and kinds[3:] == ["round"] else place

    def from_where(self, at: int) -> int:
        """How many words say from where rounds are counted: `from the cast-on edge`, `since the rib`; 0 for none."""
        if self.text_of(at) not in ("from", "since", "above", "after") or not self.joined(at):
            return 0
        ahead = self.skip(at + 1)
        named = self.kind(ahead) in ("cast_on", "begin", "rib", "garter") or self.text_of(ahead) in _PLACES
        if not named or not self.joined(ahead):
            return 0
        return ahead + 1 + (self.text_of(ahead + 1) == "edge") - at

    def behind_fabric(self, place: int) -> int:
        """Behind what the rounds here are of, `36 rounds of cables`, `20 rounds in pattern`; the place if not told."""
        if (
            place >= self.stop
            or self.tokens[place].text not in ("of", "in")
            or self.tokens[place].flags & BREAK
        ):
            return place
        stop = place + 1
        while stop < min(self.stop, place + MOST_OF_FABRIC) and self.tokens[stop].kind in _OF_FABRIC:
            if self.tokens[stop].flags & (BREAK | COMMA) or self.tokens[stop].text in _ARE_DONE:
                break
            stop += 1
        return stop

    def until_count(self, place: int) -> Phrase | None:
        """`until you have 8 sts left`; None where the number there is no count."""
        if reached := self.rounds_in_all(place) or self.repeats_in_all(place):
            return reached
        after = self.tokens[place + 1]
        ends = place + 1 >= self.stop or bool(after.flags & (STOP | COMMA | SEMI))
        counts = place + 1 < self.stop and after.kind in ("stitch_noun", "remain", "left")
        counts = counts or self.on_needles(place + 1) or self.are_left(place + 1)
        ends = ends or after.kind in ("and", "then") or after.text == "&"
        before = place - 1
        while self.tokens[before].text in ("but", "only", "just", "exactly") and before > self.place:
            before -= 1
        had = self.tokens[before].kind == "have" or self.are_left(place - 3)
        if not counts and not (ends and had):
            return None
        stop = place + 1
        while (
            stop < self.stop
            and self.tokens[stop].kind in ("stitch_noun", "remain", "left", "")
            and not self.tokens[stop].flags & BREAK
        ):
            stop += 1
        number = self.tokens[place].number or ONE
        marker = self.skip(stop + 1 - self.place)
        if self.text_of(stop - self.place) == "short" and self.text_of(marker) == "of":
            marker = self.skip(marker + 1)  # until you are two stitches short of a thread
        short = self.text_of(stop - self.place) in ("before", "short")
        if stop < self.stop and short and self.is_marker(marker):
            return Extent(
                *self.take(marker + 1), number, marker=True
            )  # until 2 sts are left before the marker
        if needle := self.on_this_needle(place, number):
            return Extent(*self.take(needle), number, marker=True)
        per = self.speaks_of_each(place)
        return Until(*self.take(stop - self.place), number, per)

    def speaks_of_each(self, place: int) -> bool:
        """Whether the count before this place is that of every part: `until each wedge has 1 stitch`."""
        for at in range(self.place + 1, place - 1):
            if self.tokens[at].kind == "each":
                part = self.tokens[at + 1]
                return part.kind in ("section", "needle") or part.text in PARTS
        return False

    def on_this_needle(self, place: int, number: Number) -> int:
        """The words up to `till only two are left on that needle`, where it is knitted so far; 0 for anything else."""
        before = self.tokens[max(0, self.place - 2) : self.place]
        if not any(token.kind == "knit" for token in before) or (number.of(0) or 0) > MOST_LEFT_ON_NEEDLE:
            return 0
        behind = self.tokens[place + 1 : min(place + MOST_TO_NEEDLE, self.stop)]
        for ahead, token in enumerate(behind):
            if token.flags & (STOP | COMMA | SEMI):
                return 0
            if token.kind == "needle":
                single = behind[ahead - 1].text in ("that", "this", "the", "a") and not token.text.endswith(
                    "s"
                )
                return place + ahead + 2 - self.place if single else 0
        return 0

    def is_marker(self, ahead: int) -> bool:
        """Whether a marker stands there, or the thread that marks a place."""
        return self.kind(ahead) == "marker" or self.text_of(ahead) == "thread"

    def are_left(self, place: int) -> bool:
        """Whether words stand there that say what is left: `until only 12 are left`, `till all that is left is 12`."""
        near = self.tokens[max(place, self.place) : min(place + 3, self.stop)]
        for token in near:
            if token.flags & (STOP | COMMA | SEMI):
                return False
            if token.kind in ("remain", "left"):
                return True
            if token.kind not in ("", "have"):
                return False
        return False

    def on_needles(self, place: int) -> bool:
        """Whether `on the needles`, `on each` stands there: `until there are 12 on the needles`."""
        near = self.tokens[place : min(place + 4, self.stop)]
        if near and near[0].text in ("on each", "in each") and self.ends_at(place + 1 - self.place):
            return True
        on = bool(near) and (near[0].text == "on" or near[0].kind in ("per", "persection"))
        return on and any(token.kind in ("needle", "section") for token in near[1:])

    def around(self) -> Phrase:
        """`around`."""
        return Extent(*self.take(1), NOTHING)

    def all_of(self) -> Phrase:
        """`all sts`, `the whole round`, `every round`, `each part`; `on every rnd 1` works nothing."""
        ahead = self.skip(1)
        if self.kind(ahead) == "round" and self.names_one_round(ahead):
            return self.only_words(ahead + 2)
        if self.kind(ahead) == "times" and self.is_behind_shaped_round():
            return Rounds(*self.take(ahead + 1), ONE, every=True, step=1)  # a k2tog round every time
        return self.all_told()

    def all_told(self) -> Phrase:
        """`all sts`, `the whole round`, `every round`, `every other rnd`, `each part`."""
        every_nth = self.kind() == "each" and self.kind(1) == "ordinal"
        if every_nth and (phrase := self.position("knit", 0) or self.every_increased()):
            return phrase
        if self.kind() == "each" and (listed := self.after_every_other()):
            return listed  # decrease after every six, every five, every four
        others = self.token().text == "all" and self.token(1).text == "other" and self.kind(2) == "round"
        if others and self.token(2).text.endswith("s"):
            return Said(*self.take(3), text=ALL_OTHERS)
        every = self.kind() in ("each", "per", "persection")
        if self.kind() == "each" and self.kind(1) == "end" and (ends := self.at_ends()):
            return ends  # k2tog at both ends of each needle
        step, ahead = self.step(every=every)
        kind = self.kind(ahead)
        if every and kind in ("needle", "section") and self.joined(ahead) and self.is_worked_in(ahead):
            return Needlewise(*self.take(ahead + 1), needle=kind == "needle")
        if kind == "round" and self.joined(ahead):
            if every or self.token(ahead).text.endswith("s"):
                steps = self.token(ahead - 1).number if step > 1 else None
                return Rounds(*self.take(ahead + 1), ONE, every=True, step=step, steps=steps)
            return Extent(*self.take(ahead + 1), NOTHING)
        if kind == "around" or (kind == "stitch_noun" and step == 1):
            return Extent(*self.take(ahead + 1), NOTHING)
        if kind in ("stitch_noun", "marker", "needle"):
            return self.only_words(ahead + 1)
        return Extent(*self.take(1), NOTHING) if self.is_all() else self.all_parts() or self.only_words(1)

    def is_behind_shaped_round(self) -> bool:
        """Whether a round that shapes is named just before: `a k2tog round`, `one dec rnd`."""
        kinds = [token.kind for token in self.tokens[max(0, self.place - 2) : self.place]]
        return kinds in (["decrease", "round"], ["stitch", "round"])

    def is_worked_in(self, ahead: int) -> bool:
        """Whether work of a part stands by it: `each needle: ssk, k2tog`, `knit each needle to last 2 sts`."""
        verb = self.place > 0 and self.tokens[self.place - 1].kind in ("knit", "work")
        far = verb and self.kind(ahead + 1) in ("to", "until") and self.joined(ahead + 1)
        return far or bool(self.flags(ahead + 1) & COLON)

    def names_one_round(self, ahead: int) -> bool:
        """Whether the round there has a number by which it is named: `every rnd 1`, and not `every round 4 times`."""
        number = self.kind(ahead + 1) == "number" and self.joined(ahead + 1) and self.text_of(0) != "all"
        behind = self.kind(ahead + 2)
        return number and not self.flags(ahead + 1) & COMMA and behind not in _BEHIND_NUMBER

    def all_parts(self) -> Phrase | None:
        """`rep on all 4 needles`, `repeat in all 6 sections`: where work is repeated; None for any other `all`."""
        before = [token.kind for token in self.tokens[max(0, self.place - 2) : self.place]]
        number = self.token(1).number
        if "repeat" not in before or self.kind(1) != "number" or not self.joined(2) or number is None:
            return None
        if self.kind(2) not in ("needle", "section"):
            return None
        needle = self.kind(2) == "needle"
        return Needlewise(*self.take(3), number, needle=needle)

    def step(self, *, every: bool) -> tuple[int, int]:
        """Every how many rounds, `every other`, `each 4th`, and the word behind that."""
        step = 1
        ahead = self.skip(1)
        if self.kind(ahead) == "following":
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) in ("alternate", "side", "even", "odd"):
            step, ahead = 2, self.skip(ahead + 1)
        elif self.kind(ahead) in ("ordinal", "number") and every and self.joined(ahead):
            step = cast("Number", self.token(ahead).number).of(0) or 1
            ahead = self.skip(ahead + 1)
        elif self.kind(ahead + 1) == "round" and self.kind(ahead) in ("knit", "purl") and every:
            return 2, ahead + 1  # they take turns
        elif self.token(ahead).text == "rs" and self.kind(ahead + 1) == "round":  # the right side, not rounds
            return 2, ahead + 1
        return step, self.skip(ahead + 1) if self.kind(ahead) == "side" else ahead

    def is_all(self) -> bool:
        """Whether it is `all` without what it is all of: `knit all`."""
        ends = self.place + 1 >= self.stop or bool(self.flags(1) & (STOP | COMMA | SEMI))
        crafts = self.kind(1) in ("knit", "purl", "right", "left")
        return self.kind() == "all" and self.token().text == "all" and (ends or crafts)

    def per(self) -> Phrase:
        """`on each needle`."""
        number: Number | None = None
        crafted = self.kind(1) in ("knit", "purl") and self.kind(2) == "round" and self.joined(2)
        if (crafted or self.kind(1) in _OF_ROUNDS) and self.joined(1):
            every = self.all_of()
            if type(every) is Rounds:
                return every
        repeated = self.place > 0 and self.tokens[self.place - 1].kind == "repeat" and self.joined(0)
        if self.kind() == "persection" and self.token().text != "in each":
            return self.only_words(1) if repeated else Needlewise(*self.take(1))
        ahead = self.skip(1)
        if self.kind(ahead) == "number":
            number = self.token(ahead).number
            ahead += 1
        while self.kind(ahead) == "word" and self.kind(ahead + 1) in ("needle", "word"):
            ahead += 1
        if self.kind(ahead) == "needle" and repeated:
            return self.only_words(ahead + 1)  # knit to last 2 sts of needle, k2tog; repeat on each needle
        if self.kind(ahead) == "needle":
            return Needlewise(*self.take(ahead + 1), number, needle=True)
        return self.left_on_each() or self.only_words(1)

    def left_on_each(self) -> Phrase | None:
        """`until two on each are left`, `until one stitch is left in each`; else None."""
        before = [token.kind for token in self.tokens[max(0, self.place - MOST_TO_EACH) : self.place]]
        until = "until" in before and "number" in before[before.index("until") :]
        ends = self.ends_at(1) or (self.kind(-1) == "number" and self.kind(self.skip(1)) == "left")
        if not until or not ends or not self.text_is("on each", "in each"):
            return None
        return Needlewise(*self.take(1), needle=self.tokens[self.place - 1].text == "on each")

    def on_rounds(self) -> Phrase | None:
        """`on next and foll 2 alt rnds`, `on the following 3 alternate rounds`, `on next and every foll 4th rnd`."""
        ahead = self.skip(0)
        at_once = self.kind(ahead) == "next"
        if at_once:
            ahead += 1 + (self.kind(ahead + 1) == "round")
            at_once = self.kind(ahead) == "and" and self.joined(ahead)
            ahead = self.skip(ahead + at_once)
        every = at_once and self.kind(ahead) == "each"
        if every or (at_once and self.text_of(ahead) == "on"):
            ahead = self.skip(ahead + 1)
        counted = self.kind(ahead - 1) == "next" and self.kind(ahead) == "number"  # on the next 3 alt rnds
        following = self.kind(ahead) in ("following", "next") and self.joined(ahead)
        ahead += following
        following = following or counted
        number = self.token(ahead).number if self.kind(ahead) == "number" else None
        ahead += number is not None
        stepped = self.kind(ahead) in ("alternate", "ordinal") and self.joined(ahead)
        steps = self.token(ahead).number if self.kind(ahead) == "ordinal" else None
        step = steps.of(0) or 1 if steps is not None else 1 + stepped
        ahead += stepped
        counts = following and (at_once or stepped)
        if not counts or self.kind(ahead) != "round" or not self.joined(ahead) or (every and number):
            return None
        if number is None and not every and not self.token(ahead).text.endswith("s"):
            number = ONE  # on next and foll alt rnd; `foll alt rnds` are every other
        taken = self.take(ahead + 1)
        return Rounds(
            *taken, ONE, every=True, step=step, steps=steps, on_them=True, often=number, at_once=at_once
        )

    def every_round(self) -> Phrase:
        """`no more plain rounds`: every round, with none between."""
        words = 2 if self.text_of(0) == "no more plain" and self.kind(1) == "round" and self.joined(1) else 1
        return self.without_plain_rounds(words)

    def without_plain_rounds(self, words: int) -> Phrase:
        """So many words that leave the plain rounds out, as the phrase `every round`."""
        taken = self.take(words)
        return Rounds(*taken, Number((0,), *taken[:2]), every=True, step=1)

    def from_round_on(self) -> int:
        """The words of `beginning with rnd 5` before what is done from there on; 0 where something else is told.

        `Size 2: begin at rnd 5` tells where a size begins.
        """
        if self.token().text.split()[0] not in _FROM_THERE_ON:
            return 0
        ahead = self.skip(1)
        ahead += self.kind(ahead) == "in"
        if self.kind(ahead) != "round" or self.kind(ahead + 1) != "number" or not self.joined(ahead + 1):
            return 0
        worked = self.kind(ahead + 2) in _GOES_ON and not self.flags(ahead + 2) & (STOP | COLON)
        return ahead + 2 if worked else 0


_BEHIND_NUMBER: Final = ("times", "more", "stitch_noun", "round", "unit", "remain", "together")
"""What stands behind a number that is not that of the round before it: `every round 4 times`."""
_FROM_THERE_ON: Final = ("beginning", "starting")
_GOES_ON: Final = ("decrease", "increase", "work", "repeat", "continue", "knit", "each", "per", "manner")
"""What stands behind a round from which something is done."""
