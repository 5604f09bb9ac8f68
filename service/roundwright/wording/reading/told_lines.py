"""Lines that only tell: materials, the gauge, what a stitch is, and lines too long for any work."""

from itertools import pairwise, takewhile
from typing import Final

from roundwright.language import say
from roundwright.wording.reading.glossary import defines, gauge, is_glossary, numbered_title, title
from roundwright.wording.reading.line_breaks import begins_round
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, EQUALS, FULL, SEMI, STOP, TAB, Token

MOST_IN_LINE: Final = 400
"""Words of one line: several times what anybody prints."""


def tells(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line tells what a stitch is, or the gauge."""
    if stop - begin > 1 and tokens[stop - 1].kind == "number" and tokens[stop - 1].flags & EQUALS:
        return False  # k2tog = 5: the count that is left
    own = _behind_heading(tokens, begin, stop)
    if own > begin and _defines_cable(tokens, own, stop):
        return True
    if (
        is_glossary(tokens, begin, stop)
        or _heads_table(tokens, begin, stop)
        or _foretells(tokens, begin, stop)
    ):
        return True
    return defines(tokens, begin, stop) or gauge(tokens, begin, stop) or _short_for(tokens, begin, stop)


def naming_sentence(tokens: list[Token], begin: int, stop: int) -> tuple[int, int] | None:
    """Where a sentence begins and ends that gives a stitch its name: `sl 1, k2tog, psso is written "dd" below`.

    A bracket may do so by itself: `(dd: sl 1, k2tog, psso)`. So does a note; None where no sentence of the line does.
    """
    name = next((place for place in range(begin + 1, stop) if tokens[place].kind == "defined"), 0)
    if not name:
        return _note(tokens, begin, stop)
    behind = range(name + 1, stop)
    closes = next((place for place in behind if tokens[place].kind == ")"), name + 1)
    if tokens[name - 1].kind == "(" and closes > name + 1:
        amid = sum(token.kind == "stars" for token in tokens[begin:name]) % 2
        return None if amid else (name - 1, closes + 1)
    first = next((place for place in range(name, begin, -1) if tokens[place].flags & (FULL | SEMI)), begin)
    return first, next((place for place in behind if tokens[place].flags & (FULL | SEMI)), stop)


def sentence_of_each_round(tokens: list[Token], begin: int, stop: int) -> tuple[int, int] | None:
    """Where a sentence begins and ends that tells how often the work of every round is repeated; None for others.

    `Repeat the instruction between * and * six times in each round.`, before the rounds. Where stitches stand before
    it in its line, it is their repeat.
    """
    called = next(
        (
            place + 1
            for place, token in enumerate(tokens[begin : stop - 1], begin)
            if token.kind in _EACH and tokens[place + 1].text in _REPEATED_IN_EACH
        ),
        0,
    )
    if not called:
        return None
    first = next((place for place in range(called, begin, -1) if tokens[place].flags & FULL), begin)
    last = next((place for place in range(called + 1, stop) if tokens[place].flags & FULL), stop)
    sentence = tokens[first:last]
    worked = any(token.kind in _STITCHES for token in tokens[begin:last])
    apart = worked or any(token.kind == "stars" for token in tokens[begin:first])
    if apart or sum(token.kind == "round" for token in sentence) > 1:
        return None
    texts = {token.text for token in sentence}
    repeats = any(token.kind == "repeat" for token in sentence) or bool(_WORKED & texts)
    pointed = any(token.kind == "stars" for token in sentence) or bool(_REPEATED & texts)
    return (first, last) if repeats and pointed else None


_EACH: Final = frozenset(("each", "per", "persection"))
_REPEATED: Final = frozenset(
    (
        "instruction",
        "instructions",
        "sequence",
        "bracketed",
        "brackets",
        "asterisks",
        "stars",
        "group",
        "pattern",
    )
)
"""What is repeated in every round."""
_REPEATED_IN_EACH: Final = frozenset(
    ("round", "rnd", "rd", "row", "instruction", "sequence", "bracket", "group")
)
_WORKED: Final = frozenset(("work", "worked", "working", "repeated", "repeating", "done"))
_STITCHES: Final = frozenset(
    ("stitch", "knit", "purl", "slip", "decrease", "increase", "together", "plain", "cable")
)


def _heads_table(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line has no more than the words above the columns of a table: `Rnd   Work   Sts`."""
    if tokens[begin].kind != "round" or not 1 < stop - begin <= MOST_IN_HEAD:
        return False
    columns = any(token.flags & TAB for token in tokens[begin + 1 : stop])
    return columns and not any(token.kind in _IN_ROWS for token in tokens[begin + 1 : stop])


MOST_IN_HEAD: Final = 12
"""Words above the columns of a table."""
_IN_ROWS: Final = frozenset(
    ("number", "range", "knit", "purl", "stitch", "stars", "plain", "decrease", "ordinal", "even")
)


def _foretells(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line tells beforehand what the rounds below it do: `You will be decreasing 8 sts every 3rd round.`.

    The next line has to begin with the number of a round, and the line tells of no end: `until 16 sts remain`.
    """
    if tokens[stop].kind != "round" or tokens[stop + 1].kind not in ("number", "range"):
        return False
    kinds = {token.kind for token in tokens[begin:stop]}
    future = any(token.text in ("will", "you'll", "we'll") for token in tokens[begin : begin + 2])
    return future and "round" in kinds and all(map(kinds.intersection, _PACE)) and not _WORKS & kinds


_PACE: Final = (("each", "per"), ("decrease", "increase"))
_WORKS: Final = frozenset(
    ("until", "times", "often", "stars", "(", "stitch", "knit", "purl", "repeat", "even")
)


def _note(tokens: list[Token], begin: int, stop: int) -> tuple[int, int] | None:
    """Where a note behind the work of a line begins and ends: `*ssk, p1* around. Note: you will need to use the ...`.

    Only what the knitter may need to do is told so; a note on the rounds between others is read. A sentence that tells
    the work before it once more is such a note as well: `In other words, you increase in every 4th st`.
    """
    ahead = range(begin + 1, stop - 1)
    begins = [at for at in ahead if tokens[at].flags & FULL]
    three = {at: " ".join(token.text for token in tokens[at : at + 3]) for at in begins}
    again = next((at for at in begins if three[at].startswith(_OTHER_WORDS)), 0)
    noted = (at for at in begins if tokens[at].text == "note" and tokens[at + 1].flags & COLON)
    note = again or next(noted, stop)
    end = next((at for at in range(note + 2, stop) if tokens[at].flags & FULL), stop)
    texts = {word for token in tokens[note:end] for word in token.text.split()}
    needs = bool(texts & _KNITTERS and texts & _NEEDS) and not texts & _AMID
    return (note, end) if again or needs else None


_OTHER_WORDS: Final = ("in other words", "another way of", "another way to")
_KNITTERS: Final = frozenset(("you", "you'll", "your"))
_NEEDS: Final = frozenset(("need", "may", "might", "must", "want"))
_AMID: Final = frozenset(("between", "every", "each"))


def _behind_heading(tokens: list[Token], begin: int, stop: int) -> int:
    """Where a line goes on behind the number of a paragraph and a heading: `4. Cable: C8B = ...`."""
    place = begin
    if tokens[place].kind == "number" and place + 1 < stop and tokens[place + 1].flags & STOP:
        place += 1
    for ahead in range(place + 1, min(place + 4, stop)):
        if tokens[ahead].flags & COLON:
            return ahead
    return place


def _defines_cable(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a stitch is told with an equals sign, in words that are no round: `C8B = put 4 sts on ...`."""
    named = tokens[begin].kind in ("stitch", "cable")
    return named and begin + 2 < stop and _equals(tokens, begin + 1)


def _equals(tokens: list[Token], place: int) -> bool:
    """Whether an equals sign stands here that says what a stitch is, and not how many are left."""
    counted = tokens[place].kind == "number" and (
        tokens[place + 1].kind in ("stitch_noun", "end", "remain", "left", "(")
        or bool(tokens[place + 1].flags & (STOP | COMMA | SEMI | DASH))
    )
    return bool(tokens[place].flags & EQUALS) and not counted


def _short_for(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line says what a stitch is called, or what becomes of stitches: `("cdd" for short), 3 sts become 1`."""
    if tokens[begin].kind not in ("stitch", "slip", "cable"):
        return False
    words = tokens[begin : min(stop, begin + MOST_OF_MEANING)]
    texts = [token.text for token in takewhile(lambda token: token.kind not in _IN_ROUND, words)]
    pairs = set(pairwise(texts))
    return bool(_MEANS & set(texts) or _SHORT & pairs)


MOST_OF_MEANING: Final = 30
"""Words that say what a stitch is called."""
_IN_ROUND: Final = frozenset(("around", "round", "repeat", "each", "times"))
"""Words that say that stitches are worked in a round, whatever becomes of them."""
_MEANS: Final = frozenset(("become", "becomes", "means", "stands"))
_SHORT: Final = frozenset((("for", "short"), ("short", "for"), ("called", "a")))


def is_title(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether a line is or begins with the name of something that is told, with a number before it or not."""
    return title(tokens, begin, stop) or numbered_title(tokens, begin, stop)


def long_line(tokens: list[Token], begin: int, stop: int) -> Segment:
    """A line of too many words: silent where it is prose, and else told to be unread."""
    works = any(token.kind in ("stars", "stitch", "(") for token in tokens[begin:stop])
    if not works and not begins_round(tokens, begin, stop):
        return silent_line(tokens, begin, stop)
    start, end = tokens[begin].start, tokens[stop - 1].end
    long = ("too_long", say("read.too_many_words", most=MOST_IN_LINE), start)
    return Segment(None, (), start, end, heading=False, under_notes=False, troubles=(long,))


def silent_line(tokens: list[Token], begin: int, stop: int) -> Segment:
    """A line of which nothing is worked."""
    return Segment(
        None, (), tokens[begin].start, tokens[stop - 1].end, heading=False, under_notes=True, title=True
    )
