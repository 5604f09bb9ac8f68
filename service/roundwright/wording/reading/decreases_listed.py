"""Decrease rounds told with plain rounds in a sentence: `After 3 more rounds k2tog around`, `Every other round` a list.

`Knit 3 rounds. K2tog around`, and the rounds of the list with plain rounds between them, is what the reader knows.
"""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.tokens import (
    AS_THEY_ARE,
    COLON,
    COMMA,
    EQUALS,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Instead,
    Token,
    kinds_at,
    takes_in,
    with_others_put,
    words_at,
)
from roundwright.wording.reading.tree import ONE, Number


def with_decreases_listed(tokens: list[Token]) -> list[Token]:
    """The words, with plain rounds before a decrease, and the decrease rounds of a list, as rounds of their own.

    Takes time in the number of the words.
    """
    return with_others_put(with_others_put(tokens, _plain_rounds_before), _rounds_of_list)


def _plain_rounds_before(tokens: list[Token], place: int) -> Instead:
    """`After 3 more plain rounds *k5, k2tog*` as `Knit 3 rounds. *K5, k2tog*`.

    Without `more` they may be those of the sentence before, `Knit 3 rounds. After 3 plain rounds`: then no others.
    """
    at = place + (tokens[place].kind in _FIRST and tokens[place + 1].kind == "after")
    shaped = place > 0 and tokens[place - 1].kind in _SHAPE_ENDS
    begins = place == 0 or tokens[place].flags & (_ENDS if shaped else STOP | LINE | SEMI)
    if tokens[at].kind != "after" or not begins:
        return AS_THEY_ARE
    stop = at + 1
    stop += tokens[stop].text in _WORKING
    while tokens[stop].kind in _OF_PLAIN and not tokens[stop].flags & _ENDS and stop < at + MOST_WORDS:
        if tokens[stop].kind not in _PLAIN_ENDS and "round" in [token.kind for token in tokens[at:stop]]:
            break
        stop += 1
    kinds = ["knit" if token.text in _WORKING else token.kind for token in tokens[at + 1 : stop]]
    plain = kinds.count("number") == kinds.count("round") == 1
    plain = plain and (shaped or not _SAYS_PLAIN.isdisjoint(kinds))
    if not plain or tokens[stop].flags & (STOP | LINE | SEMI) or tokens[stop].kind not in _WORKS:
        return AS_THEY_ARE
    number = next(token.number for token in tokens[at:stop] if token.kind == "number") or ONE
    before = tokens[max(0, place - COUNTED) : place]
    known = not shaped and number.values in [token.number.values for token in before if token.number]
    known = known and before[-1].kind in _PLAIN_ENDS
    knit = _plain_rounds(tokens[place], number)
    words = [] if known and "more" not in kinds else [replace(knit[0], flags=tokens[place].flags), *knit[1:]]
    flags = STOP | SPACE if words else tokens[place].flags
    return stop + 1, [*words, replace(tokens[stop], flags=flags)]


def _plain_rounds(first: Token, number: Number) -> list[Token]:
    """`Work 3 rounds even`."""
    words = words_at(first.start, ("work", "work"), ("number", ""), ("round", "rounds"), ("even", "even"))
    return [replace(words[0], flags=STOP | SPACE), replace(words[1], number=number), *words[2:]]


def _rounds_of_list(tokens: list[Token], place: int) -> Instead:
    """`Every other round *k5, k2tog*, *k4, k2tog*` as these rounds, with a plain round between."""
    if not (place == 0 or tokens[place].flags & (STOP | LINE)):
        return AS_THEY_ARE
    at = place
    while tokens[at].kind in _BEFORE_RHYTHM and at < place + MOST_BEFORE:
        at += 1
    if kinds_at(tokens, at, COUNTED) not in _RHYTHMS:
        return AS_THEY_ARE
    pace = tokens[at + 1].number
    step = (pace.of(0) if pace is not None else 2) or 0
    items, stop = _items(tokens, at + COUNTED + (tokens[at + COUNTED].kind == "decrease"))
    if len(items) < 2 or not all(items) or not 2 <= step <= MOST_STEP:
        return AS_THEY_ARE
    knit = _plain_rounds(tokens[place], Number((step - 1,)))
    # behind a decrease round the first stands as far from it as the others do
    shaped = place > 0 and tokens[place - 1].kind in _SHAPE_ENDS
    words = [word for item in items for word in (*knit, replace(item[0], flags=STOP | SPACE), *item[1:])]
    words = words if shaped else words[len(knit) :]
    return stop, [replace(words[0], flags=tokens[place].flags), *words[1:]]


def _items(tokens: list[Token], begin: int) -> tuple[list[list[Token]], int]:
    """The rounds of a list and the place behind it: `every 5th and 6th st, every 4th and 5th st together`."""
    items, inside, at, done = list[list[Token]](), False, begin, begin
    while at < min(len(tokens), begin + MOST_IN_LIST):
        token = tokens[at]
        counts = kinds_at(tokens, at, 2) in _COUNTS
        ends = not inside and (token.flags & (_ENDS | EQUALS) or token.kind == "end" or counts)
        ordinals = [word.kind for word in tokens[done:at]].count("ordinal")
        joins = not inside and token.kind in ("and", "then") and ordinals != 1  # every 5th and 6th st
        if at > begin and (ends or joins):
            items += [_item(tokens[done:at])] if at > done else []
            done = at + joins
            if not joins and (counts or not token.flags & (COMMA | SEMI)):
                break
        inside = token.kind != ")" and (token.kind == "(" or inside != (token.kind == "stars"))
        at += 1
    return items if at < begin + MOST_IN_LIST else [], at


def _item(words: list[Token]) -> list[Token]:
    """The words of a decrease round; none where they tell anything else."""
    words = words[2:] if kinds_at(words, 0, 2) == ["number", "times"] and _is_one(words[0]) else words
    words = [word for word in words if word.kind not in _SILENT]
    ordinals = [word for word in words if word.kind == "ordinal"]
    if len(ordinals) == 2 and _OF_ORDINALS.issuperset(word.kind for word in words):
        every = words_at(words[0].start, ("each", "every"))
        and_, noun, together = words_at(
            words[-1].end, ("and", "and"), ("stitch_noun", "st"), ("together", "together")
        )
        (knit,) = words_at(words[0].start, ("knit", "knit"))
        return [knit, *every, ordinals[0], and_, ordinals[1], noun, together]
    starred = words[:1] and (words[0].kind, words[-1].kind) in (("stars", "stars"), ("(", ")"))
    return words if starred and any(map(takes_in, words)) else []


def _is_one(token: Token) -> bool:
    """Whether it is the number one."""
    return (token.number or ONE).values == ONE.values


_ENDS: Final = STOP | LINE | COMMA | SEMI | COLON
_FIRST: Final = frozenset(("then", "have", ""))
_OF_PLAIN: Final = frozenset(("", "more", "number", "plain", "even", "round", "knit", "work"))
_WORKING: Final = ("knitting", "working")
_SAYS_PLAIN: Final = frozenset(("more", "plain", "even", "knit"))
_PLAIN_ENDS: Final = frozenset(("round", "plain", "even"))
"""Last words of a sentence of plain rounds: `Knit 3 rounds`, `work 3 rounds even`."""
_WORKS: Final = frozenset(("knit", "stars", "stitch", "work", "next", "(", "decrease"))
_BEFORE_RHYTHM: Final = frozenset(("then", "have", "", "in", "decrease"))
_COUNTS: Final = (["(", "number"], ["number", "stitch_noun"], ["have", "number"])
_RHYTHMS: Final = (
    ["each", "alternate", "round"],
    ["each", "ordinal", "round"],
    ["per", "alternate", "round"],
    ["per", "ordinal", "round"],
)
_SHAPE_ENDS: Final = frozenset(("together", ")", "stitch_noun", "stars", "around"))
"""Last words of a decrease round, or of its count."""
_SILENT: Final = frozenset(("", "work"))
_OF_ORDINALS: Final = frozenset(("knit", "each", "ordinal", "and", "stitch_noun", "together"))
COUNTED: Final = 3
"""Words of `knit 3 rounds`, and of `every other round`."""
MOST_WORDS: Final = 8
"""Words of the plain rounds behind `after`."""
MOST_BEFORE: Final = 3
"""Words before a rhythm."""
MOST_IN_LIST: Final = 200
"""Words of a list of decrease rounds; longer texts without a stop are no list."""
MOST_STEP: Final = 12
"""Rounds from one decrease round to the next."""
