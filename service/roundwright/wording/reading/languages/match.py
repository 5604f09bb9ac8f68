"""The longest wording that begins at a piece of a text."""

from collections.abc import Collection, Iterator, Sequence
from typing import Final, NamedTuple, TypeAlias

from roundwright.wording.reading.languages.cut import ROUNDS, Piece
from roundwright.wording.reading.languages.lexicon import (
    BEGINNING,
    COUNTS,
    END,
    GAP,
    NUMBER,
    ORDINAL,
    ORDINALS,
    Lexicon,
    Meaning,
    Node,
)

STITCHES: Final = "sts"
"""What the English word for stitches is."""
COUNTED: Final = ("=", "Rnd", ". Rnd", "Row")
"""What the English words of a count or of the number of a round begin with."""
STITCHES_COUNTED: Final = frozenset(("k{n}", "p{n}"))
"""The same of stitches whose number may stand behind a full stop: `re. 2`, not in `re. 2 M re zus`."""
_BULLETS: Final = ("-", "•", "·")
"""Signs before what stands in a list."""
PLAIN_ROUNDS: Final = frozenset(("knit {n} rnds", ". Knit {n} rnds", "purl {n} rnds", ". Purl {n} rnds"))
"""English words of rounds whose wordings may begin like some stitches up to the end of the round."""
AROUND: Final = "around"
"""What the English word for the end of the round is."""
LONGEST_WORDING: Final = 40
"""Pieces of a text that one wording takes at most."""
LONGEST_SHORT: Final = 4
"""Letters of a word whose full stop makes a short form of it, before a word that begins with a capital."""
LONGEST_SIZE: Final = 3
"""Letters of a size, which are capitals in any place: `Gr. L`."""
LEAST_OF_WORD: Final = 3
"""Letters of a word that is no short form, so that a line may begin with it and a number within a sentence."""
PLAIN: Final = ("knit", "purl")
"""English words of a round that is worked in a single stitch."""
MOST_PASSED: Final = 12
"""Pieces of a text that a wording passes over at most, where it has `...`."""
MOST_ORDINALS: Final = 12
"""Ordinals in one list: `1., 3., 5. und 7. Rd`."""
COUNT_SIGNS: Final = frozenset("=→>|…")
"""Signs before the count of a round."""
LEADERS: Final = frozenset("._-")
"""Signs of which several lead the eye to a count at the end of a line."""
LONGEST_LEADER: Final = 3
"""Pieces back from the end of a line to the second sign before a number."""
LACK_NUMBER: Final = frozenset(("", "around"))
"""English words of a word at the end of a line that may go on with a number: none, or `stets` of `stets / 2 M zus`."""
NEXT: Final = "next"
"""What the English word is of a word that stands before the number of a round, `in der folg. 4. Rd`."""
COMMA: Final = ","
"""What wordings begin with that begin a sentence within one."""
MOST_JOINING: Final = 4
"""Words that join a sentence to the one before: `und dann noch mal`."""
MOST_FILLERS: Final = 3
"""Words that say nothing at the beginning of a sentence."""
MOST_JOINS: Final = 2
"""Words and signs between two ordinals: `, and`."""
_PARTS: Final = frozenset("*:;()[]")
"""Signs between parts of a sentence, over which nothing reaches."""
_JOINS: Final = {"and": " and ", "to": "-", "until": "-"}
_SIGNS: Final = {",": ", ", "-": "-", "/": ", ", "+": " and "}

_Begun: TypeAlias = tuple[Node, int, tuple[Sequence[Piece], ...], int]
"""A wording as far as it was found: its node, the piece it goes on at, the pieces in its slots, how many it has."""


class Found(NamedTuple):
    """A wording that stands in the text: what it means, the pieces in its slots, and the piece behind it."""

    meaning: Meaning
    slots: tuple[Sequence[Piece], ...]
    stop: int

    def ends_in_ordinal(self, last: Piece) -> bool:
        """Whether its last piece is an ordinal in one of its slots."""
        ordinal = bool(self.slots) and self.meaning.slots[-1] not in COUNTS
        return ordinal and self.slots[-1][-1] is last


class Matcher:
    """Finds the wordings of a lexicon in the pieces of a text."""

    def __init__(self, known: Lexicon, cut: Sequence[Piece], notes: Collection[int]) -> None:
        self.known = known
        self.cut = cut
        self.notes = notes
        """Where notes begin of the sizes that a line is for, with which no line before goes on."""
        self.ends_of_ordinals: dict[int, tuple[int, ...]] = {}
        self.dead: set[tuple[int, int]] = set()
        """Nodes at pieces from which no wording goes on, so that no search looks there twice."""

    def found(self, place: int) -> Found | None:
        """The longest wording that begins at a piece; None where none does.

        A count, or the number of a round, leaves a longer wording whole: `nun 4 M` of `nun 4 M re` is none. So do
        plain rounds the end of the round: `1 vr omg` of `1 vr omg rundt`.
        """
        found = self.longest(place)
        if found is not None and found.meaning.english in PLAIN_ROUNDS:
            around = self.longest(found.stop - 1)
            if around is not None and around.meaning.english == AROUND and around.stop > found.stop:
                return self.longest(place, found.stop - 1)
        if found is None:
            return None
        last = self.number_before(found.stop, place)
        behind_stop = found.meaning.english in STITCHES_COUNTED and any(
            piece.key == "." for piece in self.cut[place:last]
        )
        if not found.meaning.english.startswith(COUNTED) and not behind_stop:
            return found
        if last > place:
            other = self.longest(last)
            if other is not None and other.stop > found.stop:
                return self.longest(place, last)
        return found

    def number_before(self, stop: int, first: int) -> int:
        """The last number before a piece, from the first on; the first where there is none."""
        numbers = (at for at in range(stop - 1, first, -1) if self.cut[at].kind == "number")
        return next(numbers, first)

    def longest(self, place: int, limit: int | None = None) -> Found | None:
        """The longest wording that begins at a piece; of the same length that which passes over least.

        Of those that with fewest slots: `1 M zun` before `{n} M zun`. With `limit` it ends before that piece.
        """
        if place >= len(self.cut):
            return None
        best: Found | None = None
        best_rank = (place, 0, 0)
        end = len(self.cut) if limit is None else limit
        begun = list(self.beginnings(place))
        seen: set[tuple[int, int]] = set()
        while begun:
            node, at, slots, matched = begun.pop()
            if (id(node), at) in seen or (id(node), at) in self.dead:
                continue
            seen.add((id(node), at))
            rank = (at, matched, -len(slots))
            if node.meaning is not None and at <= end and rank > best_rank and at > place:
                best, best_rank = Found(node.meaning, slots, at), rank
            if (gap := node.following.get(GAP)) is not None:
                begun.extend((gap, stop, slots, matched) for stop in self.passed(at))
            if (ending := node.following.get(END)) is not None and self.ends_sentence(at):
                begun.append((ending, at, slots, matched + 1))
            if at > place:
                at = self.skipped(at, unended=node.meaning is None)
            if at < len(self.cut) and at - place <= LONGEST_WORDING:
                begun.extend(self.going_on(node, at, slots, matched))
        if best is None and limit is None:
            self.dead.update(seen)
        return best

    def beginnings(self, place: int) -> Iterator[_Begun]:
        """How a wording may begin at a piece: with it, with the beginning of a sentence, with words that join one."""
        root = self.known.root
        yield root, place, (), 0
        if self.begins_sentence(place) and (opening := root.following.get(BEGINNING)) is not None:
            yield opening, place, (), 1
        if (joined := self.behind_joins(place)) and (joint := root.following.get(COMMA)) is not None:
            yield joint, joined, (), 1

    def behind_joins(self, place: int) -> int:
        """Where words end that join a sentence to the one before, `, und dann noch`; 0 where none begin here."""
        if self.begins_sentence(place):
            return 0
        at = place + (self.cut[place].key == COMMA)
        first = at
        while at < len(self.cut) and at - first < MOST_JOINING and self.cut[at].key in self.known.joins:
            at += 1
        return at if at > first else 0

    def going_on(
        self, node: Node, at: int, slots: tuple[Sequence[Piece], ...], matched: int
    ) -> Iterator[_Begun]:
        """How a wording goes on with the piece that stands here, or behind words that say nothing."""
        if node is not self.known.root and (behind := self.behind_silent(at)) > at:
            yield node, behind, slots, matched
        yield from self.onward(node, at, slots, matched + 1)

    def onward(
        self, node: Node, at: int, slots: tuple[Sequence[Piece], ...], matched: int
    ) -> Iterator[_Begun]:
        """How a wording goes on with the piece that stands here."""
        piece = self.cut[at]
        if piece.figures is None:
            if (following := node.following.get(piece.key)) is not None:
                yield following, at + 1, slots, matched
            return
        value = piece.figures.single
        if value is not None and (following := node.following.get(ORDINALS)) is not None:
            for stop in self.ordinals(at):
                yield following, stop, (*slots, self.cut[at:stop]), matched
        if piece.ordinal and (following := node.following.get(ORDINAL)) is not None:
            yield following, at + 1, (*slots, (piece,)), matched
        counted = node.following.get(NUMBER)
        if counted is not None and (not piece.ordinal or self.closes(at, counted)):
            yield counted, at + 1, (*slots, (piece,)), matched
        if value is None:
            return
        literal = node.following.get(str(value))
        if literal is not None and (not piece.ordinal or self.closes(at, literal)):
            yield literal, at + 1, slots, matched
        if piece.ordinal and (following := node.following.get(f"{value}.")) is not None:
            yield following, at + 1, slots, matched

    def closes(self, at: int, node: Node) -> bool:
        """Whether the full stop behind a number ends a sentence, since a wording ends here, or has to end one.

        It ends none before the word for a round in small letters: `så 1. omg`.
        """
        following = self.cut[at + 1].text if at + 1 < len(self.cut) else ""
        if following.islower() and self.known.single(following) in ROUNDS:
            return False
        return (node.meaning is not None or END in node.following) and self.cut[at].text.endswith(".")

    def passed(self, at: int) -> Iterator[int]:
        """Where some words that a wording passes over may end: at most so many, of one sentence."""
        yield at
        for stop in range(at + 1, min(at + MOST_PASSED, len(self.cut))):
            piece, following = self.cut[stop - 1], self.cut[stop]
            if piece.kind == "line" or piece.key in _PARTS or self.begins_count(stop - 1):
                return
            if piece.key == "." and (following.kind != "word" or following.text[0].isupper()):
                return
            yield stop

    def begins_count(self, at: int) -> bool:
        """Whether a number of stitches stands here, `4 M`, `1 neue M`."""
        counted = self.cut[at + 1 : at + 3]
        if self.cut[at].kind != "number" or not counted:
            return False
        described = counted[0].kind == "word" and self.counts(counted[-1])
        return self.counts(counted[0]) or described

    def counts(self, piece: Piece) -> bool:
        """Whether a piece is the word for stitches."""
        node = self.known.root.following.get(piece.key)
        return node is not None and node.meaning is not None and node.meaning.english == STITCHES

    def ordinals(self, at: int) -> tuple[int, ...]:
        """Where a list of ordinals that begins here may end: `1.`, `1., 3. und 5.`, `1.-10.`."""
        if at not in self.ends_of_ordinals:
            listed = [at]
            while following := self.next_number(listed[-1] + 1):
                listed.append(following)
            for place, first in enumerate(listed):
                ends = listed[place : place + MOST_ORDINALS]
                self.ends_of_ordinals[first] = tuple(end + 1 for end in ends if self.cut[end].ordinal)
        return self.ends_of_ordinals[at]

    def next_number(self, at: int) -> int:
        """The next number of a list behind what joins it to the one before; 0 where the list ends."""
        joins = 0
        while joins < MOST_JOINS and at + joins < len(self.cut) and self.joined(self.cut[at + joins]):
            joins += 1
        joins += bool(joins) and self.ends_short_form(at + joins)  # 11. u. 12. Rd
        if joins and at + joins < len(self.cut) and self.cut[at + joins].kind == "line":
            joins += self.cut[at + joins - 1].kind == "word"  # every 5th and / 6th st
        follows = joins and at + joins < len(self.cut) and self.cut[at + joins].kind == "number"
        return at + joins if follows else 0

    def ends_short_form(self, at: int) -> bool:
        """Whether a full stop stands here behind a word that is printed with it."""
        dot = self.cut[at : at + 1]
        return bool(dot) and dot[0].key == "." and self.cut[at - 1].text.lower() in self.known.dotted

    def joined(self, piece: Piece) -> str:
        """What joins two ordinals, in English; empty where it is something else."""
        if piece.kind == "sign":
            return _SIGNS.get(piece.key, "")
        node = self.known.root.following.get(piece.key)
        return _JOINS.get(node.meaning.english, "") if node is not None and node.meaning is not None else ""

    def skipped(self, at: int, *, unended: bool = False) -> int:
        """The next piece that says something within a wording, which may be one that could not end here.

        A filler says nothing, nor does the full stop of a short form, a hyphen, or the end of a line within a sentence.
        """
        while at < len(self.cut):
            piece = self.cut[at]
            following = self.cut[at + 1] if at + 1 < len(self.cut) else None
            worded = following is not None and following.kind == "word"
            if (stop := self.behind_bracket(at)) > at:
                at = stop
                continue
            short = piece.key in (".", "'") and piece.near and self.is_short(at)
            hyphen = piece.key == "-" and piece.near and worded and following is not None and following.near
            torn = piece.kind == "line" and unended and (self.goes_on_with_noun(at) or self.lacks_count(at))
            if piece.key in self.known.fillers or short or hyphen or torn:
                at += 1
            elif piece.kind == "line" and self.goes_on(at + 1) and not self.ends_in_count(at):
                at += 1
                if self.cut[at].key not in self.known.fillers:
                    return at
            else:
                return at
        return at

    def behind_silent(self, at: int) -> int:
        """Where several words end that say nothing together, `aux mêmes endroits`; `at` where none begin here."""
        node: Node | None = self.known.silent
        stop = place = at
        while node is not None and place < len(self.cut):
            piece = self.cut[place]
            value = piece.figures.single if piece.figures is not None else None
            key = piece.key if value is None else str(value)  # l'une au-dessus de l'autre
            node = node.following.get(key)
            place += 1
            if node is not None:
                stop = place if node.meaning is not None else stop
                place = self.skipped(place, unended=True)
        return stop

    def behind_bracket(self, at: int) -> int:
        """Where a bracket ends that only says the word before it in short: `mærker (mrk)`, `Maschen (M)`; else `at`."""
        if self.cut[at].key != "(" or at + 2 >= len(self.cut) or self.cut[at + 2].key != ")":
            return at
        word, short = self.cut[at - 1], self.cut[at + 1]
        if word.kind != "word" or short.kind != "word" or len(short.text) >= len(word.text):
            return at
        letters = iter(word.text.lower())
        begins = word.text[0].lower() == short.text[0].lower()
        return at + 3 if begins and all(letter in letters for letter in short.text.lower()) else at

    def ends_in_count(self, at: int) -> bool:
        """Whether a line ends in the count of its round, so that no wording goes on behind it: `5 r, 2 r sm ... 72`."""
        if at < LONGEST_LEADER or self.cut[at - 1].kind != "number":
            return False
        sign, before = self.cut[at - 2], self.cut[at - LONGEST_LEADER]
        return sign.key in COUNT_SIGNS or (sign.key in LEADERS and sign.key == before.key)

    def is_short(self, at: int) -> bool:
        """Whether a full stop or apostrophe ends a short form, and no sentence."""
        before, following = self.cut[at - 1], self.cut[at + 1] if at + 1 < len(self.cut) else None
        if before.kind == "word" and before.key in self.known.fillers and before.key in self.known.dotted:
            return True  # `bis einschl. 16. Rd:`
        if self.known.single(before.text) == NEXT:
            return True  # `in folg. 4. Rd:`
        if before.kind != "word" or self.begins_round(at + 1) or self.begins_named_round(at + 1):
            return False
        capital = following is not None and following.kind != "sign" and following.text[0].isupper()
        if not capital or following is None or self.cut[at].key == "'":
            return True
        little = len(before.text) <= LONGEST_SHORT and before.key not in self.known.fillers
        short = little or before.text.lower() in self.known.dotted
        size = len(following.text) <= LONGEST_SIZE and following.text.isupper()
        known = following.text in self.known.forms
        unknown = not self.known.single(before.text)
        part = unknown and self.known.word(following.text).endswith("~")  # dopp. Abn.
        begins_line = at == 1 or self.cut[at - 2].kind == "line"  # Dopp. Überzug: ...
        small = before.text.islower() or (begins_line and unknown)
        return short and (size or (small and (known or part)))

    def begins_round(self, at: int) -> bool:
        """Whether the number of a round stands here, with its colon: `rep. 2.-4. omg: r. 5. omg: ...`."""
        if at >= len(self.cut) or self.cut[at].kind != "number":
            return False
        return any(
            stop + 1 < len(self.cut)
            and self.cut[stop + 1].key == ":"
            and self.known.single(self.cut[stop].text) in ROUNDS
            for stop in self.ordinals(at)
        )

    def begins_named_round(self, at: int) -> bool:
        """Whether the word for a round stands here with its number in a list or before a colon: `re. Rd 1 und 2`."""
        if at + 2 >= len(self.cut) or not self.cut[at].text[0].isupper() or self.cut[at + 1].kind != "number":
            return False
        behind = self.cut[at + 2]
        listed = behind.key == ":" or bool(self.joined(behind))
        return listed and self.known.single(self.cut[at].text) in ROUNDS

    def begins_sentence(self, place: int) -> bool:
        """Whether a piece begins a line or a sentence, behind a few words that say nothing or without, `Is de toer`."""
        first = max(0, place - MOST_FILLERS)
        while (
            place > first
            and self.cut[place - 1].kind == "word"
            and self.cut[place - 1].key in self.known.fillers
        ):
            place -= 1
        listed = place > 0 and self.cut[place - 1].key in _BULLETS
        if listed and (place == 1 or self.cut[place - 2].kind == "line"):
            return True
        before = self.cut[place - 1] if place else None
        return before is None or before.kind == "line" or before.key in (".", "!", "?", ":")

    def ends_sentence(self, at: int) -> bool:
        """Whether a sentence ends before a piece, or with the full stop of the number before it."""
        before = self.cut[at - 1] if at else None
        if before is not None and before.kind == "number" and before.text.endswith("."):
            return at >= len(self.cut) or self.cut[at].kind == "line" or self.cut[at].text[0].isupper()
        if before is not None and self.ends_short_form(at) and self.known.single(before.text) == "work":
            following = self.cut[at + 1] if at + 1 < len(self.cut) else None
            starts = following is not None and (following.kind != "sign" or following.key in ("*", "("))
            if (
                following is not None
                and starts
                and following.kind != "line"
                and not following.text[0].isupper()
            ):
                return False  # `Tour 1 : tric. 8 fois` goes on
        return at >= len(self.cut) or self.cut[at].kind == "line" or self.cut[at].key in (".", "!", ";")

    def goes_on(self, at: int) -> bool:
        """Whether a line goes on with the sentence of the line before: with small letters, or a short form.

        It does with a number behind an article, `ts les` and `2 tours`, or behind a word that says nothing by itself,
        `hasta que queden` and `8 puntos`.
        """
        piece = self.cut[at] if at < len(self.cut) else None
        if piece is not None and piece.start in self.notes:
            return False
        if piece is not None and piece.key == "(" and at + 1 < len(self.cut):
            return self.cut[at + 1].ordinal  # jede 9. und 10. M / (10. und 11. M) zusstr
        if piece is not None and at > 1 and self.goes_on_with_ordinal(piece, at):
            return True
        if piece is None or piece.kind != "word":
            before = self.cut[at - 2] if at > 1 else None
            if piece is None or piece.kind != "number" or before is None or before.kind != "word":
                return False
            lacks_number = before.text.islower() and self.known.single(before.text) in LACK_NUMBER
            return before.text in self.known.fillers or (lacks_number and not piece.ordinal)
        if at + 1 < len(self.cut) and self.cut[at + 1].kind == "number" and not self.lacks_work(at - 1):
            # `que 20 m` goes on; `Rd 2` begins a line
            return (
                len(piece.text) >= LEAST_OF_WORD
                and piece.text.islower()
                and not self.known.single(piece.text)
            )
        return not self.is_round(at) and (piece.text[0].islower() or len(piece.text) == 1)

    def is_round(self, at: int) -> bool:
        """Whether a line is a plain round in short and no more: `r` below `7 r, 2 sm`."""
        alone = at + 1 == len(self.cut) or self.cut[at + 1].kind == "line"
        text = self.cut[at].text
        return alone and len(text) < LEAST_OF_WORD and self.known.single(text) in PLAIN

    def goes_on_with_noun(self, line: int) -> bool:
        """Whether a line that breaks off goes on with a noun, with a capital in some print: `in each / Round`."""
        before = self.cut[line - 1]
        if line + 1 >= len(self.cut) or before.kind != "word" or not before.text.islower():
            return False
        noun, behind = self.cut[line + 1], self.cut[line + 2 : line + 3]
        heads = any(piece.key == ":" or piece.kind == "number" for piece in behind)
        return noun.kind == "word" and noun.text.istitle() and not heads

    def lacks_count(self, line: int) -> bool:
        """Whether a line that breaks off goes on with how many there are: `til der er strikket / 30 omg`.

        A line of words alone is a heading, and does not: `Bonnet aux diminutions réparties / 100 m.`.
        """
        before, counted = self.cut[line - 1], self.cut[line + 1 : line + 3]
        if before.kind != "word" or not before.text.islower() or len(counted) < len(("number", "noun")):
            return False
        number, noun = counted
        means = self.known.single(noun.text) if number.kind == "number" and not number.ordinal else ""
        return (means == STITCHES or means in ROUNDS) and not self.is_heading(line)

    def is_heading(self, line: int) -> bool:
        """Whether the line that ends here has words alone, no number and no sign."""
        at = line - 1
        while at >= 0 and self.cut[at].kind == "word" and line - at < LONGEST_WORDING:
            at -= 1
        return at < 0 or self.cut[at].kind == "line"

    def goes_on_with_ordinal(self, piece: Piece, at: int) -> bool:
        """Whether the end of a line parts ordinals, or one from its round: `every 5th and / 6th st`, `2nd / Round:`."""
        before = self.cut[at - 2]
        if piece.ordinal:
            return before.kind == "word" and bool(self.joined(before))
        colon = at + 1 < len(self.cut) and self.cut[at + 1].key == ":"
        return before.ordinal and colon and piece.kind == "word"

    def lacks_work(self, line: int) -> bool:
        """Whether a line ends with the word for a round, whose work stands in the next: `in der folg. Rd`."""
        word, following = self.cut[line - 1] if line else None, self.cut[line + 1]
        ends = word is not None and self.known.single(word.text) in ROUNDS
        return ends and following.text.islower() and self.known.single(following.text) not in ROUNDS
