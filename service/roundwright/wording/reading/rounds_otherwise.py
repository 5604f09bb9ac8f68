"""Rounds in the order and manner in which others tell them.

`Knit 3 rounds. At the end of the first round k2tog` is a round with a decrease at its end and two plain ones; `In the
next 2 rnds dec in the same way` is `dec in the same way in the next 2 rnds`.
"""

from collections.abc import Mapping
from functools import partial
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.tokens import (
    AS_THEY_ARE,
    COLON,
    COMMA,
    COUNT_WORDS,
    DASH,
    EQUALS,
    FULL,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Instead,
    Rule,
    Token,
    kinds_at,
    of_kind,
    with_others_put,
    words_at,
)
from roundwright.wording.reading.tree import Number


def with_rounds_of_others(tokens: list[Token]) -> list[Token]:
    """The words, with rounds told as most tell them. Takes time in their number."""
    return with_others_put(tokens, partial(of_kind, _RULES))


def _knitting(tokens: list[Token], place: int) -> Instead:
    """`Begin by knitting 2 rounds`, `then knitting 2 rounds` as `knit 2 rounds`."""
    word = tokens[place]
    if word.text not in _WORKING or kinds_at(tokens, place + 1, 2) != ["number", "round"] or not place:
        return AS_THEY_ARE
    begun = tokens[place - 1].text == "by" and place > 1 and tokens[place - 2].kind == "begin"
    if not begun and tokens[place - 1].kind != "then":
        return AS_THEY_ARE
    return place + 1, [replace(word, kind=_WORKING[word.text], text=_WORKING[word.text])]


def _down_to(tokens: list[Token], place: int) -> Instead:
    """`until you k2tog all around` as `until you are down to k2tog around`."""
    at = place + 1
    while tokens[at].text in _YOU:
        at += 1
    if at == place + 1 or kinds_at(tokens, at, 2) != ["stitch", "around"]:
        return AS_THEY_ARE
    if not tokens[at + 2].flags & _ENDS or not _takes_two(tokens[at]):
        return AS_THEY_ARE
    return at, [*tokens[place:at], *words_at(tokens[at].start, ("", "are"), ("have", "down to"))]


def _takes_two(token: Token) -> bool:
    """Whether it is a stitch that makes one of two."""
    return uses_and_leaves().get(token.means) == (2, 1)


def _first_of_rounds(tokens: list[Token], place: int) -> Instead:
    """`Knit 3 rounds, and at the end of the first round k2tog` as `knit to last 2 sts, k2tog. Knit 2 rounds`."""
    knit, number, rounds = tokens[place : place + 3]
    if [number.kind, rounds.kind] != ["number", "round"] or number.number is None:
        return AS_THEY_ARE
    at = place + 3
    while tokens[at].text in _AT_THE:
        at += 1
    work = at + 5
    named = [token.text for token in tokens[at : at + 4]] == ["end", "of", "the", "first"]
    if not named or tokens[at + 4].kind != "round" or not _takes_two(tokens[work]):
        return AS_THEY_ARE
    ended = tokens[work + 1].flags & _ENDS or tokens[work + 1].kind == "then"
    if not ended or not all((value or 2) > 1 for value in number.number.values):
        return AS_THEY_ARE
    near = knit.end
    to, last, two, noun = words_at(
        near, ("to", "to"), ("last", "last"), ("number", "2"), ("stitch_noun", "sts")
    )
    rest = Number(tuple(value and value - 1 for value in number.number.values))
    return work + 1, [
        knit,
        to,
        last,
        replace(two, number=Number((2,))),
        noun,
        replace(tokens[work], start=near, end=near, flags=SPACE | COMMA),
        Token("knit", "knit", near, near, _SENTENCE),
        replace(number, number=rest),
        rounds,
    ]


def _single(tokens: list[Token], place: int) -> Instead:
    """`1 dec round, then knit 2 rounds` as `work 1 dec round, ...`; not `1 dec round: ...`, `1. Dec rnd`."""
    number, *_, behind = tokens[place : place + 4]
    begins = not place or number.flags & _ENDS
    if not begins or kinds_at(tokens, place + 1, 2) != ["decrease", "round"]:
        return AS_THEY_ARE
    parted = any(token.flags & _PARTED for token in tokens[place + 1 : place + 3])
    if parted or behind.flags & COLON or behind.kind == "(":
        return AS_THEY_ARE
    (work,) = words_at(number.start, ("work", "work"))
    return place + 1, [replace(work, flags=number.flags), replace(number, flags=SPACE)]


def _elided(tokens: list[Token], place: int) -> Instead:
    """`Purl 2 rounds and knit 10`, `8 rounds in rib and the next 22 in st st` with the noun that is left out."""
    number = tokens[place].number
    if (
        number is None
        or (number.of(0) or 0) > MOST_ELIDED
        or not (_turns_craft(tokens, place) or _turns_fabric(tokens, place))
    ):
        return AS_THEY_ARE
    end = tokens[place].end
    return place + 1, [tokens[place], *words_at(end, ("round", "rounds"))]


def _turns_craft(tokens: list[Token], place: int) -> bool:
    """Whether so many are knitted behind rounds that are purled, or purled behind such as are knitted."""
    craft, behind = tokens[place - 1], tokens[place + 1]
    ends = behind.flags & _ENDS or behind.kind in ("then", "end")
    if place < MOST_OF_TURN or craft.kind not in _CRAFTS or not ends or tokens[place].flags & _PARTED:
        return False
    joined = tokens[place - 2].kind in ("and", "then")
    stop = place - 1 - joined
    before = tokens[stop - 3 : stop]
    other = "knit" if craft.kind == "purl" else "purl"
    kinds = [token.kind for token in before]
    turned = kinds in ([other, "number", "round"], ["number", "round", other])  # not 4 rounds k1, p1
    parted = [token for token in (*before[1:], *tokens[stop + 1 : place]) if token.flags & _PARTED]
    apart = tokens[stop].flags & _PARTED  # purl 2 rounds, then knit 10
    return turned and not parted and not apart & ~COMMA and bool(joined or apart)


def _turns_fabric(tokens: list[Token], place: int) -> bool:
    """Whether so many are told of a fabric, behind rounds of another and `and`, `then` or a comma."""
    at, begin = place + 1, place - 1
    while tokens[at].text in _OF_FABRIC:
        at += 1
    while begin > 0 and (tokens[begin].text in _OF_FABRIC or tokens[begin].text == "the"):
        begin -= 1
    named = {token.kind for token in tokens[at : at + 3]}
    if tokens[at].kind not in _FABRICS or named & {"round", "stitch_noun"} or begin < 0:
        return False
    between = tokens[begin + 1 : at + 1]
    joined = tokens[begin].kind in ("and", "then") or between[0].flags & COMMA
    inches = [token.text for token in between[-3:-1]] == ["in", "in"]
    if not joined or inches or any(token.flags & _ENDS for token in between):
        return False
    kinds: list[str] = []
    for token in reversed(tokens[max(begin - MOST_OF_FABRIC, 0) : begin + 1]):
        if token.kind == "round":
            return not _FABRICS.isdisjoint(kinds)
        if token.flags & _ENDS:
            break
        kinds.append(token.kind)
    return False


def _change_in_first(tokens: list[Token], place: int) -> Instead:
    """`Work st st, inc 4 sts Rnd 1: *k23, m1*` as `inc 4 sts in the first rnd`: no label stands within a sentence."""
    near = tokens[place + 1 : place + 5]
    number = near[3].number
    kinds = [token.kind for token in near] == ["number", "stitch_noun", "round", "number"]
    if not kinds or number is None or number.values != (1,) or any(word.flags & ~SPACE for word in near):
        return AS_THEY_ARE
    if not tokens[place + 5].flags & COLON:
        return AS_THEY_ARE  # dec 8 sts rnd 1, 3, 5 and 7
    first = words_at(near[2].start, ("in", "in"), ("", "the"), ("ordinal", "first"))
    first[-1] = replace(first[-1], number=number)
    return place + 5, [*tokens[place : place + 3], *first, near[2]]


def _count_behind(tokens: list[Token], place: int) -> Instead:
    """`after the first dec 64 sts` as `after the first dec there are 64 sts`."""
    before = kinds_at(tokens, max(0, place - 3), min(place, 3))
    if "after" not in before or before[-1] != "ordinal":
        return AS_THEY_ARE
    if kinds_at(tokens, place + 1, 2) != ["number", "stitch_noun"]:
        return AS_THEY_ARE
    return place + 1, [tokens[place], *words_at(tokens[place].end, ("have", "there are"))]


def _in_turn(tokens: list[Token], place: int) -> Instead:
    """`Rnds 9 and 10: *k4, k2tog* = 40 sts, then *k3, k2tog* = 32 sts` with a label for each of the rounds."""
    name, colon = tokens[place], place + 1
    if place and not name.flags & (LINE | FULL):
        return AS_THEY_ARE
    while tokens[colon].kind in _OF_NUMBERS and colon < place + MOST_OF_NUMBERS:
        if tokens[colon].flags & COLON:
            break
        colon += 1
    numbers = [token for token in tokens[place + 1 : colon] if token.kind == "number"]
    if len(numbers) < FEWEST_ROUNDS or not tokens[colon].flags & COLON:
        return AS_THEY_ARE
    begins, stop = [colon], colon + 1
    while stop < colon + MOST_OF_ROUNDS and not tokens[stop].flags & (LINE | FULL):
        works = tokens[stop + 1].kind in _BEGINS_WORK  # not (24 sts, then 12 sts)
        if tokens[stop].kind == "then" and works and _ends_count(tokens, stop):
            begins.append(stop + 1)
        stop += 1
    if len(begins) != len(numbers):
        return AS_THEY_ARE
    made = list[Token]()
    for number, begin, end in zip(numbers, begins, [*(at - 1 for at in begins[1:]), stop], strict=True):
        near = tokens[begin - 1].start
        label = [replace(name, start=near, end=near, flags=_SENTENCE), replace(number, flags=SPACE)]
        work = [replace(tokens[begin], flags=tokens[begin].flags | COLON), *tokens[begin + 1 : end]]
        made += [*(label if made else (name, number)), *work]
    return stop, made


def _ends_count(tokens: list[Token], stop: int) -> bool:
    """Whether a count with its sign, or in a bracket, ends there: `= 40 sts`, `(40 sts)`; not `k 40 sts`."""
    at = stop - 1 - (tokens[stop - 1].kind == ")")
    while tokens[at].kind in COUNT_WORDS and tokens[at].kind != "number":
        at -= 1
    signed = tokens[at].flags & _BEFORE_COUNT or tokens[at - 1].kind == "("
    return tokens[at].kind == "number" and bool(signed)


def _unparted(tokens: list[Token], place: int) -> Instead:
    """`*k2, k2tog* to end of round Round 3: knit`, where no sign stands before the name of a round, as with a stop."""
    name, before = tokens[place], tokens[place - 1]
    plain = before.kind in ("knit", "purl") and before.flags & COLON  # Rounds 3-5: knit Round 6: k2tog
    if not place or name.flags & ~SPACE or not (plain or before.kind in _ENDING):
        return AS_THEY_ARE
    stop = place + 1
    while stop < place + MOST_OF_NUMBERS and not tokens[stop].flags & ~SPACE:
        if tokens[stop].kind not in _OF_NUMBERS:
            return AS_THEY_ARE
        stop += 1
    if stop == place + 1 or tokens[stop].flags & (COLON | LINE) != COLON:
        return AS_THEY_ARE
    return place + 1, [replace(name, flags=_SENTENCE)]


def _only_round(tokens: list[Token], place: int) -> Instead:
    """`Only round A work, 3 times` as `only round A, 3 times`."""
    if kinds_at(tokens, place + 1, 3) != ["round", "", "work"]:
        return AS_THEY_ARE
    if len(tokens[place + 2].text) > 1 or tokens[place + 3].flags & _PARTED:
        return AS_THEY_ARE
    return place + 4, tokens[place : place + 3]


def _decrease_in_next(tokens: list[Token], place: int) -> Instead:
    """`In the next 2 rnds dec in the same way` as `dec in the same way in the next 2 rnds`."""
    sorts: dict[str, Token] = {}
    at = place
    while at < place + MOST_OF_NEXT and (at == place or not tokens[at].flags & _ENDS):
        word = tokens[at]
        sort = "next" if word.text in _NEXT else word.kind
        if sort in _OF_NEXT and sort not in sorts:
            sorts[sort] = word
        elif word.text not in _IN_THE:
            break
        at += 1
    parted = tokens[at].flags & _PARTED or tokens[at].kind == "("
    if not parted or not _OF_NEXT.issubset({*sorts, "number"}):
        return AS_THEY_ARE
    first, *others = words_at(
        tokens[place].start,
        ("decrease", "dec"),
        ("manner", "in the same way"),
        ("in", "in"),
        ("", "the"),
        ("next", "next"),
    )
    rounds = [replace(sorts[sort], flags=SPACE) for sort in ("number", "round") if sort in sorts]
    count = [replace(tokens[at], flags=_SENTENCE)] if tokens[at].flags & COLON else []
    return at + len(count), [replace(first, flags=tokens[place].flags), *others, *rounds, *count]


def _next_are_decreases(tokens: list[Token], place: int) -> Instead:
    """`Next 4 rnds: dec as before`, `Next 4 rnds all as dec rnds` as `dec every round 4 times`."""
    if kinds_at(tokens, place, 3) != ["next", "number", "round"]:
        return AS_THEY_ARE
    at = place + 3
    while at < place + MOST_OF_NEXT and (tokens[at].kind in _ALL_AS or tokens[at].text in _ALL_AS):
        at += 1
    if tokens[at].kind != "decrease" or tokens[at].flags & _ENDS:
        return AS_THEY_ARE
    named = at > place + 3 and tokens[at + 1].kind == "round"
    stop = at + 1 + (named or tokens[at + 1].kind in _AS_BEFORE)
    if stop == at + 1 or not (tokens[stop].flags & (_PARTED | COMMA) or tokens[stop].kind == "("):
        return AS_THEY_ARE
    first, *others = words_at(tokens[place].start, ("decrease", "dec"), ("each", "every"), ("round", "round"))
    times = words_at(tokens[place + 2].end, ("times", "times"))
    number = replace(tokens[place + 1], flags=SPACE)
    return stop, [replace(first, flags=tokens[place].flags), *others, number, *times]


def _next_one(tokens: list[Token], place: int) -> Instead:
    """`In the next one dec 8 sts`, `dec 8 sts evenly in the next one`, with the noun."""
    within = {token.text for token in tokens[max(place - 2, 0) : place]} & {"in", "on"}
    changes = tokens[place + 2].kind in ("decrease", "increase") and tokens[place + 3].kind == "number"
    evenly = "evenly" in [token.kind for token in tokens[max(place - 4, 0) : place]]
    changes = changes or (evenly and (tokens[place + 2].kind == "(" or bool(tokens[place + 2].flags & _ENDS)))
    if tokens[place + 1].text != "one" or not within or not changes:
        return AS_THEY_ARE
    return place + 2, [tokens[place], replace(tokens[place + 1], kind="round", text="round", number=None)]


def _next_again(tokens: list[Token], place: int) -> Instead:
    """`Work the next round in the same way` as `repeat the last round`."""
    if kinds_at(tokens, place, 5) != ["work", "", "next", "round", "manner"]:
        return AS_THEY_ARE
    if tokens[place + 5].kind == "until":
        return AS_THEY_ARE
    first, *others = _last_again(tokens[place].start, tokens[place + 3])
    return place + 5, [replace(first, flags=tokens[place].flags), *others]


def _same_again(tokens: list[Token], place: int) -> Instead:
    """`Do the same in all 8 sections`, `on the 7 other needles` as `do it on all 8 sections`.

    `Do the same in the next 2 rnds` is `work the next 2 rnds in the same way`, in one round `repeat the last rnd`.
    """
    begin = at = _behind_same(tokens, place)
    if not at:
        return AS_THEY_ARE
    number = None
    while (tokens[at].text in _IN_ALL or tokens[at].kind == "number") and not tokens[at].flags & _PARTED:
        number = tokens[at].number or number
        at += 1
    where, near = tokens[begin:at], tokens[place].start
    noun = replace(tokens[at], flags=SPACE)
    counted = [replace(word, flags=SPACE) for word in where if word.kind == "number"]
    behind = list[Token]()
    if noun.kind == "round" and any(word.text in _NEXT for word in where):
        again = [*words_at(near, ("work", "work"), ("", "the"), ("next", "next")), *counted, noun]
        words = (
            [*again, *words_at(near, ("manner", "in the same way"))] if number else _last_again(near, noun)
        )
        if tokens[at + 1].kind == "then":
            behind = [replace(tokens[at + 1], flags=_SENTENCE)]
    elif number is not None and noun.kind in ("section", "marker", "needle"):
        more = any(word.text in ("other", "remaining") for word in where)
        of_all = replace(number, values=tuple(value and value + more for value in number.values))
        words = words_at(near, ("work", "do"), ("", "it"), ("", "on"), ("all", "all"))
        words += [replace(counted[-1], number=of_all), noun]
    elif noun.kind == "persection" and tokens[place].kind == "work":
        words = [*words_at(near, ("repeat", "repeat")), noun]
    else:
        return AS_THEY_ARE
    words[0] = replace(words[0], flags=tokens[place].flags)
    return at + 1 + len(behind), [*words, *behind]


def _last_again(near: int, noun: Token) -> list[Token]:
    """`Repeat the last rnd`."""
    return [*words_at(near, ("repeat", "repeat"), ("last", "last")), noun]


def _behind_same(tokens: list[Token], place: int) -> int:
    """The place behind `do the same`, `do this`; 0 where they are not here."""
    at = place + 1
    if tokens[place].kind == "repeat":
        return at if tokens[place].text == "do this" else 0
    at += tokens[at].kind == "work"  # work do the same
    at += tokens[at].text == "the"
    return at + 1 if tokens[at].text == "same" else 0


FEWEST_ROUNDS: Final = 2
MOST_ELIDED: Final = 60
"""Rounds that are told without the noun."""
MOST_OF_TURN: Final = 4
"""Words before `10` in `purl 2 rounds, knit 10`."""
MOST_OF_FABRIC: Final = 8
"""Words from `rounds` to the `and` behind its fabric."""
_CRAFTS: Final = frozenset(("knit", "purl"))
_FABRICS: Final = frozenset(("rib", "ratio", "stocking", "garter", "moss"))
_OF_FABRIC: Final = frozenset(("in", "of", "with", "next", "following", "foll", "other", "remaining"))
"""Words between a number of rounds and their fabric, or before the number."""
MOST_OF_ROUNDS: Final = 60
"""Words of rounds that are told in turn behind their label."""
MOST_OF_NUMBERS: Final = 6
"""Words of `Rounds 1 and 2`."""
MOST_OF_NEXT: Final = 12
"""Words of `in the next 2 rnds dec in the same way`."""
_ENDS: Final = STOP | LINE | SEMI | FULL
_PARTED: Final = _ENDS | COLON | COMMA
_BEFORE_COUNT: Final = EQUALS | DASH | COLON
_SENTENCE: Final = SPACE | STOP | FULL
"""What stands before a word that begins a sentence."""
_BEGINS_WORK: Final = frozenset(("stars", "(", "stitch", "knit", "purl", "work"))
_ENDING: Final = frozenset(("around", "end", "round", "stitch_noun", "needle", ")", "stars", "plain", "even"))
"""Kinds of the words that end the work of a round."""
_OF_NUMBERS: Final = frozenset(("number", "range", "and", "to", "round"))
_NEXT: Final = frozenset(("next", "following"))
_OF_NEXT: Final = frozenset(("next", "number", "round", "decrease", "manner"))
_ALL_AS: Final = frozenset(("all", "as", "each", "are", "a", "the"))
"""Words and kinds of words of `Next 4 rnds are all dec rnds`."""
_AS_BEFORE: Final = frozenset(("pattern", "manner"))
_IN_THE: Final = frozenset(("in", "the", "on", "for", "during"))
_IN_ALL: Final = (
    _IN_THE | _NEXT | frozenset(("in all", "all", "at", "other", "remaining", "of", "each", "each of"))
)
_WORKING: Final = {"knitting": "knit", "purling": "purl"}
_YOU: Final = frozenset(("you", "we", "just", "only"))
_AT_THE: Final = frozenset(("and", "at", "the", "but"))
_RULES: Final[Mapping[str, tuple[Rule, ...]]] = {
    "word": (_knitting,),
    "until": (_down_to,),
    "knit": (_first_of_rounds,),
    "number": (_single, _elided),
    "decrease": (_decrease_in_next, _change_in_first, _count_behind),
    "increase": (_change_in_first,),
    "next": (_decrease_in_next, _next_are_decreases, _next_one),
    "in": (_decrease_in_next,),
    "round": (_in_turn, _unparted),
    "only": (_only_round,),
    "work": (_next_again, _same_again),
    "repeat": (_same_again,),
}
