"""A text in another language rewritten in the English words that the reader knows, with a map of its places.

The longest wording that begins at a word is taken, from the first word on. What no wording has stays as it is: numbers,
signs, and words, which are marked as foreign where English has a word of the same letters. Lines stay lines.
"""

import re
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from functools import cache, cached_property
from typing import Final, NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from roundwright import reference
from roundwright.reference.rows import StitchRow
from roundwright.wording.reading.languages.asides import asides
from roundwright.wording.reading.languages.cut import ROUNDS, Piece, pieces, sizes_of
from roundwright.wording.reading.languages.figures import Figures
from roundwright.wording.reading.languages.lexicon import Lexicon, lexicon
from roundwright.wording.reading.languages.match import LONGEST_SHORT, Found, Matcher
from roundwright.wording.reading.languages.nouns_again import with_nouns_once
from roundwright.wording.reading.languages.size_notes import SizeNote, size_notes
from roundwright.wording.reading.scanner import most_words
from roundwright.wording.reading.vocabulary import respelt, vocabulary

FOREIGN: Final = "ÿ"
"""Behind a word that says something else in English, so that it is none there."""
BEFORE_NUMBERS: Final = frozenset(("and", "no", "rnd", "row", "needle", "size", ". Work {n} rnds"))
"""Words whose full stop ends no sentence before a number: `Nr. 3`, `und 8 Rd. 1 M. r., 1 M. l.`."""
GOES_ON: Final = frozenset((",", ";", ":", "*", ")"))
"""Signs before which a full stop behind a single letter ends a short form: `6 p. d., 2 p. j. d. *`."""
THEN: Final = "then"
"""An English word that is left out where a sentence begins with it."""
AND: Final = "and"
"""The same, where another sentence stands before."""
CLOSES_LINE: Final = frozenset((",", ".", ";", ":", ")", "]"))
"""Signs that end the line of the word before them."""
BELONGS: Final = frozenset((".", ":", "=", "*"))
"""Signs that belong to the words before them: the end of a sentence, what it leads to, its count, a repeat's end."""
NEW_SENTENCE: Final = ". "
"""What English words begin with that begin a sentence: the end of a line within their wording stands behind it."""


TIMES: Final = "{n} times"
STARRED: Final = frozenset(("rep from * to * {n} times", "rep from * to * {n} times in all"))
"""English words that say the same of stitches between stars, which may stand behind a colon."""
STAR: Final = "* "
ROUNDS_COUNTED: Final = ("{n} rnds", "{n} rnds straight")
"""What English words of some rounds end in, behind which a star begins another."""
LONGEST_STARRED: Final = 40
"""Pieces between two stars, or in the bracket behind a cable."""
CABLES: Final = frozenset(("c{n}f", "c{n}b"))
"""English words of cables: how they are worked stands in a bracket behind them."""
MOST_BLANK: Final = 4
"""Parts without a letter behind the end of a line."""
SLIPPED: Final = frozenset(("sl {n}", "slip"))
"""English words with which a decrease begins that is told in its parts."""
LONGEST_NAME: Final = 5
"""Words of the name of a stitch with their full stops, and one more."""
LONGEST_HEADING: Final = 8
"""Words before the bracket with a short name: `Cierre del gorro con disminución doble (D.D.):`."""
LETTER: Final = re.compile(r"[-–— ]*[aA]\)")
"""What the numbers of sizes begin with that are told by letters: `–a) 80 –b) 88`."""
APART: Final = ", "
MOST_BEFORE_TOGETHER: Final = 3
"""Pieces between a number and the word for together: `2 M re zusstr`, `2 p der juntos`."""
PIECES_OF_WORD: Final = 3
"""Pieces of a text for a word that is read: what comes behind is not read, and not rewritten."""


class Place(NamedTuple):
    """A number of the rewritten text, from `at` to `stop`, and where it stands in the original."""

    at: int
    stop: int
    start: int
    end: int


class Unit(Struct, frozen=True, gc=False):
    """A stretch of the original, from `start` to `end`, and what stands for it, from `at` to `stop`."""

    start: int
    end: int
    at: int
    stop: int
    places: tuple[Place, ...] = ()
    same: bool = False
    """Whether it is letter for letter the same in both."""


class Rewritten(Struct, frozen=True, dict=True):
    """A text in English words, what it was, and its units in order, without gaps."""

    original: str
    text: str
    units: tuple[Unit, ...]
    language: str

    @cached_property
    def begins(self) -> list[int]:
        """Where each unit begins in the English text."""
        return [unit.at for unit in self.units]

    @cached_property
    def wordings(self) -> Mapping[str, str]:
        """How the original words a stitch by its English name, where it first does: `2 r. zus.` for `k2tog`."""
        worded: dict[str, str] = {}
        for unit in self.units:
            if unit.same:
                continue
            english = self.text[unit.at : unit.stop].split(APART)
            words = self.original[unit.start : unit.end].split(APART)
            if len(english) == len(words):  # `9 der., dism. doble` for `k9, cdd`
                for stitch, wording in zip(english, words, strict=True):
                    if stitch in _stitches():
                        worded.setdefault(stitch, wording)
        return worded

    def unit(self, at: int) -> int:
        """The unit, by its number, in which a place of the English text lies."""
        return max(0, bisect_right(self.begins, at) - 1)

    def place(self, at: int) -> int:
        """The place in the original of a place in the English text."""
        if not self.units:
            return 0
        unit = self.units[self.unit(at)]
        if unit.same:
            return min(unit.end, unit.start + at - unit.at)
        for place in unit.places:
            if place.at <= at < place.stop:
                return place.start
        return unit.end if at >= unit.stop else unit.start


def rewritten(text: str, language: str, width: int) -> Rewritten:
    """A text for so many sizes in English words. Takes time in its length."""
    return rewritten_with(lexicon(language), text, language, width)


def rewritten_with(known: Lexicon, text: str, language: str, width: int) -> Rewritten:
    """A text with the wordings of a lexicon in place of its own."""
    notes = size_notes(text, language, width)
    cut = pieces(text, known, width, notes)
    if width > 1:
        cut = with_nouns_once(cut, width, known)
    return _Writer(text, known, cut, width, notes).written(language)


class _Writer:
    """Writes the English text of one original."""

    def __init__(
        self, text: str, known: Lexicon, cut: Sequence[Piece], width: int, notes: Sequence[SizeNote]
    ) -> None:
        self.text = text
        self.replaced = {note.start: (note.end, note.english) for note in notes}
        self.known = known
        self.cut = cut
        self.matcher = Matcher(known, cut, self.replaced)
        self.width = width
        self.parts: list[str] = []
        self.units: list[Unit] = []
        self.length = 0
        self.last = 0
        self.sizes_have_letters = any(
            piece.figures is not None and len(piece.figures.figures) == width > 1 and LETTER.match(piece.text)
            for piece in cut
        )
        self.short_name_ends = 0
        self.short_names: dict[tuple[str, ...], str] = {}
        """The words of the short names of stitches that the text gives, and what stands for each."""
        self.lettered_round_ends = 0
        self.steps_called: frozenset[str] | None = None
        self.star_with_times = 0
        self.times: Found | None = None
        self.lines = ""
        """The ends of lines within the last wording, which come behind the signs that follow it."""
        self.left_out = 0, -1
        """The word with which a sentence began and that was left out, and the piece behind it."""
        self.worked = "", 0
        """The last English words of the last wording, `cdd` of `k{n}, cdd`, and the piece behind it."""

    def written(self, language: str) -> Rewritten:
        """The text, as far as it is read."""
        place = 0
        stop = min(len(self.cut), PIECES_OF_WORD * most_words(self.width))
        passed = {aside.start: aside.end for aside in asides(self.text, language)}
        for begin in range(stop):
            self.before_short_name(begin)  # a name may be explained below the rounds that have it
        while place < stop:
            if self.lines and self.cut[place].key not in CLOSES_LINE:
                self.end_lines(self.cut[place - 1].end)
            if (end := passed.get(self.line_start(place))) is not None:
                place = self.replace(place, end, "")
            elif (note := self.replaced.get(self.cut[place].start)) is not None:
                place = self.replace(place, *note)
            elif size := self.lettered_size(place) or self.letter_called(place):
                place = self.replace(place, *size)
            elif behind := self.behind_aside(place):
                place = self.pass_over(place, behind)
            else:
                place = self.short_name(place) or self.wording_or_single(place)
        self.end_lines(self.cut[place - 1].end if place else 0)
        self.copy(len(self.text))
        return Rewritten(self.text, "".join(self.parts), tuple(self.units), language)

    def behind_aside(self, place: int) -> int:
        """Where a bracket or a name ends that only says other words again, `Maschen (M)`; 0 where there is none."""
        return (
            self.says_in_short(place)
            or self.explains(place)
            or self.lettered(place)
            or self.before_short_name(place)
            or self.behind_short_name(place)
        )

    def pass_over(self, place: int, stop: int) -> int:
        """Write nothing for the pieces up to another one, and return that."""
        self.copy(self.cut[place].start)
        self.put("", self.cut[place].start, self.cut[stop - 1].end)
        return stop

    def wording_or_single(self, place: int) -> int:
        """Write the longest wording that begins here, or else the piece, and return the piece behind it."""
        found = self.matcher.found(place)
        if found is None:
            if (behind := self.matcher.behind_silent(place)) > place:
                return self.pass_over(place, behind)
            self.single(place)
            return place + 1
        if star := self.star_behind(place, found):
            self.star_with_times, self.times = star, found
            return self.pass_over(place, self.star_before(found))
        self.name(place, found)
        self.wording(place, found)
        self.worked = found.meaning.english.rpartition(APART)[2], found.stop
        return found.stop

    def single(self, place: int) -> None:
        """Write a piece that begins no wording."""
        if self.times is not None and place == self.star_with_times:
            self.star(self.cut[place], self.times)
        elif self.is_misspelt(place):
            self.stand_apart(self.cut[place])
        elif self.is_prefix(place):
            self.leave_out(self.cut[place])
        elif not self.is_lettered_round(place):
            self.piece(self.cut[place])

    def replace(self, place: int, end: int, english: str) -> int:
        """Write a text for the pieces up to a place of the original, and return the piece behind them."""
        self.copy(self.cut[place].start)
        self.put(english, self.cut[place].start, end)
        while place < len(self.cut) and self.cut[place].start < end:
            place += 1
        return place

    def line_start(self, place: int) -> int:
        """Where the line of a piece begins, if the piece is its first; else -1."""
        if place and self.cut[place - 1].kind != "line":
            return -1
        return self.cut[place - 1].end if place else 0

    def copy(self, end: int) -> None:
        """Copy the original up to a place."""
        if end > self.last:
            self.put(self.text[self.last : end], self.last, end, same=True)

    def end_lines(self, end: int) -> None:
        """Write the ends of lines within the last wording, behind a place of the original."""
        if self.lines:
            self.copy(end)
            self.put(self.lines, self.last, self.last)
            self.lines = ""

    def put(
        self, english: str, start: int, end: int, *, same: bool = False, places: tuple[Place, ...] = ()
    ) -> None:
        """Write words for a stretch of the original, which begins where the last one ended."""
        at = self.length
        self.parts.append(english)
        self.length += len(english)
        self.units.append(Unit(start, end, at, self.length, places, same))
        self.last = end

    def piece(self, piece: Piece) -> None:
        """Write a piece that no wording has."""
        if piece.figures is not None and piece.figures.ordinals and "." in piece.text:
            return  # `3. (4.)`, as a single ordinal stays `3.`
        if piece.kind == "number" and piece.figures is not None:
            english, places = _list(piece.figures, self.length + piece.start - self.last)
            rest = self.text[piece.figures.end : piece.end]
            if not rest.startswith("."):
                rest = ""
            if english + rest != piece.text:
                self.copy(piece.start)
                self.put(english + rest, piece.start, piece.end, places=places)
                self.lines += _line_ends(piece)
        elif piece.kind == "sizes":
            names = sizes_of(piece, self.known)
            if len(names) == self.width:
                self.copy(piece.start)
                self.put(f"{names[0]} ({', '.join(names[1:])})", piece.start, piece.end)
        elif piece.key in self.known.fillers:
            self.leave_out(piece)
        elif piece.kind == "word" and is_english(piece.text):
            self.copy(piece.end)
            self.put(FOREIGN, piece.end, piece.end)

    def is_misspelt(self, place: int) -> bool:
        """Whether a word behind stitches looks like the word for together, and no wording has it: `2 M re zustr`."""
        word = self.cut[place]
        worked = any(
            piece.kind == "number" for piece in self.cut[max(0, place - MOST_BEFORE_TOGETHER) : place]
        )
        return word.kind == "word" and worked and bool(respelt(word.text.lower(), self.known.together))

    def is_prefix(self, place: int) -> bool:
        """Whether the word for 1 counts nothing, since a part of a sentence ends: `der Rand rollt sich ein,`."""
        word = self.cut[place]
        counts_nothing = place + 1 >= len(self.cut) or self.cut[place + 1].kind in ("sign", "line")
        return (
            word.figures is not None and word.text.isalpha() and word.figures.single == 1 and counts_nothing
        )

    def stand_apart(self, word: Piece) -> None:
        """Write a word between commas, where the reader takes it for a stitch that it does not know."""
        self.copy(word.start)
        self.put(APART, word.start, word.start)
        self.copy(word.end)
        self.put(APART, word.end, word.end)

    def leave_out(self, piece: Piece) -> None:
        """Leave out a word that says nothing, with the space or apostrophe behind it."""
        self.copy(piece.start)
        self.put("", piece.start, _BEHIND.match(self.text, piece.end).end())  # type: ignore[union-attr]  # always there

    def star_behind(self, place: int, found: Found) -> int:
        """The star that ends what is worked so many times, `9 veces * 8 p der, 2 p juntos *`; 0 where none does.

        `7 fois de * à * : * 2 m ens, 8 m end *` says so before its stars, too.
        """
        stop = self.star_before(found)
        times = found.meaning.english == TIMES and self.matcher.begins_sentence(place)
        if not times and (found.meaning.english not in STARRED or stop == found.stop):
            return 0
        if stop >= len(self.cut) or self.cut[stop].key != "*":
            return 0
        for star in range(stop + 1, min(len(self.cut), stop + LONGEST_STARRED)):
            if self.cut[star].key == "*":
                return star
            if self.cut[star].kind == "line":
                break
        return 0

    def star_before(self, found: Found) -> int:
        """Where the star may stand behind what says how often its stitches are worked, and a colon."""
        colon = found.stop < len(self.cut) and self.cut[found.stop].key == ":"
        return found.stop + colon

    def star(self, star: Piece, times: Found) -> None:
        """Write the star that ends what is worked so many times, and the times behind it, where English has them."""
        self.copy(star.start)
        english, places = self.filled(times._replace(meaning=replace(times.meaning, english=TIMES)))
        moved = tuple(_moved(place, len(STAR)) for place in places)
        self.put(STAR + english, star.start, star.end, places=moved)

    def before_short_name(self, place: int) -> int:
        """Where a bracket opens in which a line or sentence gives the short name of a stitch; 0 where none does.

        `Venstrefelling (vf): 1 m løst av, 1 r, trekk den løse m over` explains `vf`. A name of several words, `dopp.
        Abn.`, stands as a single word wherever the text has it.
        """
        if place and self.cut[place - 1].kind != "line" and self.cut[place - 1].key != ".":
            return 0
        opens = self.behind_words(place, LONGEST_HEADING)
        if opens in (place, len(self.cut)) or self.cut[opens].key not in ("(", "="):
            return 0
        if self.cut[opens].key == "=":
            self.give_name(_words(self.cut[place:opens]), self.matcher.longest(opens + 1))
            return 0
        closes = self.behind_words(opens + 1, LONGEST_NAME)
        longer = (
            self.cut[opens].start - self.cut[place].start > self.cut[closes - 1].end - self.cut[opens].end
        )
        signs = "".join(piece.key for piece in self.cut[closes : closes + 2] if longer)
        found = self.matcher.longest(closes + 2) if signs in ("):", ")=", ")-") else None
        if not self.give_name(_words(self.cut[opens + 1 : closes]), found):
            return 0
        self.short_name_ends = closes
        return opens + 1

    def give_name(self, name: tuple[str, ...], found: Found | None) -> bool:
        """Whether a wording begins to say how a stitch is worked, which then has this short name."""
        explained = found is not None and found.meaning.english in {*_stitches(), *SLIPPED}
        if explained and len(name) > 1:
            self.short_names[name] = f"{''.join(name)}{FOREIGN}"
        return explained

    def behind_words(self, place: int, most: int) -> int:
        """The piece behind the words from here on, with the full stops of short forms: `so many at most`."""
        stop = place
        while stop < min(len(self.cut), place + most) and (
            self.cut[stop].kind == "word" or (stop > place and self.ends_short_word(stop))
        ):
            stop += 1
        return stop

    def ends_short_word(self, at: int) -> bool:
        """Whether a full stop stands here behind a short word, `dobb. indt.`, and no sentence."""
        word = self.cut[at - 1].text
        return self.cut[at].key == "." and (len(word) <= LONGEST_SHORT or word.lower() in self.known.dotted)

    def short_name(self, place: int) -> int:
        """Write what stands for the short name of a stitch, and return where it ends; 0 where none stands here."""
        begin = place + (self.cut[place].kind == "number")
        for name, english in self.short_names.items():
            stop, words = begin, 0
            while stop < len(self.cut) and words < len(name) and _word(self.cut[stop]) == name[words]:
                words += 1
                stop += 1
                stop += stop < len(self.cut) and self.cut[stop].key == "."
            if words == len(name):
                self.copy(self.cut[begin].start)
                self.put(english, self.cut[begin].start, self.cut[stop - 1].end)
                return stop
        return 0

    def name(self, place: int, found: Found) -> None:
        """Write the short name that a bracket behind a stitch gives it, with an equals sign before the stitch.

        `1 M abh, 2 M re zusstr, die abgeh M überziehen (dA; aus 3 M wird 1)` explains `dA`.
        """
        stop = found.stop
        if stop + 2 >= len(self.cut) or self.cut[stop].key != "(" or self.cut[stop + 1].kind != "word":
            return
        apart = self.matcher.begins_sentence(place) or self.cut[place - 1].key in (",", ";")
        closes = self.cut[stop + 2].key in (")", ";")
        if not apart or not closes or found.meaning.english not in _stitches():
            return
        if self.matcher.longest(stop + 1) is None:
            start = self.cut[place].start
            self.copy(start)
            self.put(f"{self.cut[stop + 1].text} = ", start, start)

    def is_lettered_round(self, place: int) -> bool:
        """Whether a letter names a round, behind the word for rounds or another letter: `Runden A und B`."""
        name, stop = self.worked
        named = name.split()[-1:] if stop == place else []
        after = bool(named) and named[0] in ROUNDS
        also = self.lettered_round_ends == place - 1 and bool(self.matcher.joined(self.cut[place - 1]))
        if not (after or also) or len(self.cut[place].text) != 1:
            return False
        self.lettered_round_ends = place + 1
        return True

    def behind_short_name(self, place: int) -> int:
        """Where the bracket around a short name ends; 0 where it does not close here."""
        return place + 1 if place and place == self.short_name_ends else 0

    def lettered_size(self, place: int) -> tuple[int, str] | None:
        """Where the letter of a size ends before its work, and the size in English: `a) r – b) *8 r, 2 r sm*`.

        `(nur b)` behind the number of a round names it, too. None where no letter stands for a size.
        """
        if not self.sizes_have_letters:
            return None
        opens = self.cut[place].key in ("(", "-")
        at = place + opens + (self.cut[place].key == "(")  # behind the word for only
        if at + 1 >= len(self.cut) or self.cut[at + 1].key != ")" or len(self.cut[at].text) != 1:
            return None
        size = ord(self.cut[at].text.lower()) - ord("a") + 1
        end = self.cut[at + 1].end
        if self.cut[at].kind != "word" or not 1 <= size <= self.width:
            return None
        if self.cut[place].key == "(":
            return end, f"(size {size} only)"
        return end, f"; size {size}:" if opens else f"size {size}:"

    def letter_called(self, place: int) -> tuple[int, str] | None:
        """Where the letter of a step ends that is worked again, and the letter: `c) Repite a) y b)`; else None."""
        if self.steps_called is None:
            letters = [at for at in range(len(self.cut)) if self.is_letter(at)]
            heads = {self.cut[at].text for at in letters if self.matcher.begins_sentence(at)}
            behind_words = {self.cut[at].text for at in letters if at and self.cut[at - 1].kind == "word"}
            called = heads & behind_words
            self.steps_called = frozenset(called if len(called) > 1 and not self.sizes_have_letters else ())
        if (
            not self.steps_called
            or not self.is_letter(place)
            or self.cut[place].text not in self.steps_called
        ):
            return None
        return self.cut[place + 1].end, f"{self.cut[place].text})"

    def is_letter(self, place: int) -> bool:
        """Whether a letter and the end of a bracket stand here."""
        letter = self.cut[place]
        closes = place + 1 < len(self.cut) and self.cut[place + 1].key == ")"
        return closes and letter.kind == "word" and len(letter.text) == 1

    def lettered(self, place: int) -> int:
        """Where the letter of a paragraph ends, `b)`; 0 where there is none."""
        before = self.cut[place - 1].key if place else ""
        apart = self.matcher.begins_sentence(place) or before in (",", ";")
        return place + 2 if apart and self.is_letter(place) else 0

    def says_in_short(self, place: int) -> int:
        """Where a bracket ends that has the word before it in short, `Maschen (M)`; 0 where there is none."""
        stop = self.matcher.behind_bracket(place) if place else place
        return stop if stop > place and self.cut[place + 1].key == self.cut[place - 1].key else 0

    def explains(self, place: int) -> int:
        """Where a bracket ends that says how the cable before it is worked; 0 where there is none."""
        explained = self.cut[place].key == "(" and self.worked[0] in CABLES and self.is_behind(place)
        return self.closing(place) if explained else 0

    def closing(self, place: int) -> int:
        """Where the bracket that opens here closes; 0 where it does not in its line."""
        for closes in range(place + 1, min(len(self.cut), place + LONGEST_STARRED)):
            if self.cut[closes].key == ")":
                return closes + 1
            if self.cut[closes].kind == "line":
                break
        return 0

    def is_behind(self, place: int) -> bool:
        """Whether a piece stands behind the last wording, or the full stop of a short form there."""
        stop = self.worked[1]
        return stop == place or (stop == place - 1 and self.cut[stop].key == ".")

    def wording(self, place: int, found: Found) -> None:
        """Write the English words of a wording."""
        first, last = self.cut[place], self.cut[found.stop - 1]
        goes_on = not self.text[self.last : first.start].strip(" ")  # `cada 2 vtas. y 5 veces`
        self.copy(first.start)
        at = self.length
        english, places = self.filled(found)
        if (english == THEN or (english == AND and not goes_on)) and self.matcher.begins_sentence(place):
            english = ""
            self.left_out = place, found.stop
        elif english != AND:
            english = self.in_sentence(english, place, found.stop)
        start, end = first.start, last.end
        if last.figures is not None and not found.ends_in_ordinal(last):
            end = last.figures.end  # the full stop of a sentence
        lines = next(
            filter(None, map(_line_ends, self.cut[place : found.stop])), ""
        )  # two would part paragraphs
        stop = self.full_stop(found)
        if stop is not None:
            end = stop
        before = self.text[start - 1 : start]
        if english[:1].isalnum() and before.isalnum():
            english, places = f" {english}", tuple(_moved(place_, 1) for place_ in places)
        following = self.text[end : end + 1]
        if english[-1:].isalnum() and following.isalnum():
            english += " "
        if lines and english.startswith(NEW_SENTENCE):
            places = tuple(_moved(place_, len(lines) - 1) for place_ in places)
            self.put(f".{lines}{english.removeprefix(NEW_SENTENCE)}", start, end, places=places)
        else:
            if lines and (english.endswith(":") or self.ends_in_sign(place, found.stop)):
                if not self.ends_line():
                    self.put(lines, start, start)
                lines = ""
                places = tuple(_moved(place_, self.length - at) for place_ in places)
            self.put(english, start, end, places=places)
            self.lines = lines

    def ends_line(self) -> bool:
        """Whether nothing but blanks stands behind the end of a line: another would part paragraphs."""
        last = next((part for part in self.parts[: -MOST_BLANK - 1 : -1] if part.strip(" ")), "")
        return last.rstrip(" ").endswith("\n")

    def ends_in_sign(self, place: int, stop: int) -> bool:
        """Whether a sign stands behind a wording that belongs to it, so that its line ends before it.

        It has to stand in its line behind other words.
        """
        before = self.cut[place - 1] if place else None
        apart = before is None or before.kind == "line" or before.key == ":"
        return not apart and stop < len(self.cut) and self.cut[stop].key in BELONGS

    def in_sentence(self, english: str, place: int, stop: int) -> str:
        """English words as they stand in a sentence: with a capital behind a full stop, which then ends one.

        The colon behind the number of a round goes where more numbers follow.
        """
        before = place
        while before and (self.cut[before - 1].key in self.known.fillers or before == self.left_out[1]):
            before = self.left_out[0] if before == self.left_out[1] else before - 1
        if before and self.cut[before - 1].key == ".":
            english = english[:1].upper() + english[1:]
        following = self.cut[stop : stop + 2]
        if english.endswith(":") and following:
            more = len(following) > 1 and following[1].kind == "number" and self.matcher.joined(following[0])
            return english[:-1] if more or following[0].key == ":" else english
        return english

    def full_stop(self, found: Found) -> int | None:
        """Where a full stop behind a wording ends, if it only ends a short form; else None."""
        cut = self.cut
        if found.stop >= len(cut) or cut[found.stop - 1].kind != "word":
            return None
        dot = cut[found.stop]
        if dot.key != "." or not dot.near:
            return None
        following = cut[found.stop + 1] if found.stop + 1 < len(cut) else None
        word = cut[found.stop - 1].text.lower()
        letter = len(word) == 1 and following is not None and following.key in GOES_ON
        before = cut[found.stop - 2] if found.stop > 1 else None
        initials = len(word) == 1 and before is not None and before.key == "."  # `d.w.z. toer 1`
        if word not in self.known.dotted and not letter and not initials:
            return None
        if following is None or following.kind == "line":
            return None
        if following.key == "*" and found.meaning.english.endswith(ROUNDS_COUNTED):
            return None  # `tejer 2 vtas. *3 p der, 2 p juntos*`
        if following.kind == "word" and following.text[0].isupper():
            return None
        if following.kind == "number" and not initials:
            english = found.meaning.english
            new = english.startswith(NEW_SENTENCE) or self.matcher.begins_round(found.stop + 1)
            ends = following.ordinal and new  # dann 2 Rd. 7. Rd: ..., 72 M auf 4 Nd. 2. Rd: re
            if ends or english not in BEFORE_NUMBERS:
                return None
        return dot.end

    def filled(self, found: Found) -> tuple[str, tuple[Place, ...]]:
        """The English words with the numbers of the text in them, and where those stand."""
        slots = dict(zip(found.meaning.slots, found.slots, strict=True))
        parts: list[str] = []
        places: list[Place] = []
        at = self.length
        for text, slot, form in _template(found.meaning.english):
            parts.append(text)
            at += len(text)
            if not slot:
                continue
            for piece in slots[slot]:
                if piece.figures is None:
                    parts.append(self.matcher.joined(piece))
                    at += len(parts[-1])
                    continue
                english, own = _list(piece.figures, at, ordinals=form)
                parts.append(english)
                at += len(english)
                places.extend(own)
        return "".join(parts), tuple(places)


def _words(name: Sequence[Piece]) -> tuple[str, ...]:
    """The words of a short name, without its full stops."""
    return tuple(_word(piece) for piece in name if piece.kind == "word")


def _word(piece: Piece) -> str:
    """A word as it is compared: the capital of a beginning is none of a short name, a single letter is."""
    return piece.text if len(piece.text) == 1 else piece.text.lower()


def _line_ends(piece: Piece) -> str:
    """The ends of lines in a piece: one of its own, or those within a list of numbers."""
    return piece.text if piece.kind == "line" else "\n" * piece.text.count("\n")


def _moved(place: Place, by: int) -> Place:
    return place._replace(at=place.at + by, stop=place.stop + by)


def _list(figures: Figures, at: int, *, ordinals: bool = False) -> tuple[str, tuple[Place, ...]]:
    """A number or a list of sizes as English has it, and where its numbers stand; it begins at `at`."""
    english = ""
    places = []
    for number, figure in enumerate(figures.figures):
        english += ("", " (", ", ")[min(number, 2)]
        begin = at + len(english)
        english += figure.english
        places.append(Place(begin, at + len(english), figure.start, figure.end))
        english += _suffix(int(figure.text)) if ordinals and figure.text.isdecimal() else ""
    return english + ")" * (len(figures.figures) > 1), tuple(places)


_SLOT: Final = re.compile(r"\{([a-z])(:th)?\}|\Z")


@cache
def _template(english: str) -> tuple[tuple[str, str, bool], ...]:
    """The English words of a wording: text, the slot behind it, whether that is an ordinal."""
    made = []
    last = 0
    for slot in _SLOT.finditer(english):
        made.append((english[last : slot.start()], slot[1] or "", bool(slot[2])))
        last = slot.end()
    return tuple(made)


def _suffix(value: int) -> str:
    return "th" if value % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(value % 10, "th")


_EVERYWHERE: Final = frozenset(("x", "us", "uk"))
_BEHIND: Final = re.compile("[ \\t\u00a0]*['’]?")
_BORROWED: Final = frozenset(("stitch", "unit", "word"))


def is_english(word: str) -> bool:
    """Whether a word that is none of the language says something in English.

    The names of stitches, units and `x` for times are borrowed everywhere.
    """
    if word.lower() in _EVERYWHERE:
        return False
    known = _english().get(word.lower())
    return known is not None and known not in _BORROWED


@cache
def _stitches() -> Mapping[str, StitchRow]:
    return reference.stitches()


@cache
def _english() -> dict[str, str]:
    english = vocabulary("en")
    kinds = {text: word.kind for text, word in english.words.items()}
    for first in english.phrases:
        kinds.setdefault(first, "")
    return kinds
