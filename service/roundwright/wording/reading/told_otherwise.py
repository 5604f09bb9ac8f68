"""Words of print in the order and manner in which others tell the same work.

`And so on until you k2tog all around` is `until you are down to k2tog around`; `Knit 3 rounds. At the end of the first
round k2tog` is a round with a decrease at its end and two plain ones.
"""

import re
from collections.abc import Callable
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.rounds.round import uses_and_leaves
from roundwright.wording.reading.tokens import (
    AS_THEY_ARE,
    BULLET,
    COLON,
    COMMA,
    DASH,
    EQUALS,
    FULL,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Instead,
    Token,
    with_others_put,
    words_at,
)
from roundwright.wording.reading.tree import Number


def with_words_of_others(tokens: list[Token]) -> list[Token]:
    """The words, with those of most in place of these. Takes time in their number."""
    return with_others_put(tokens, _of_most)


def _of_most(tokens: list[Token], place: int) -> Instead:
    rule = _RULES.get(tokens[place].kind)
    return rule(tokens, place) if rule is not None else AS_THEY_ARE


def _kinds(tokens: list[Token], begin: int, number: int) -> list[str]:
    return [token.kind for token in tokens[begin : begin + number]]


def _marked(tokens: list[Token], place: int) -> Instead:
    """`Mark 4 sts. Dec 1 st on each side of each marked st` as `place 4 markers`."""
    marks = tokens[place].text == "mark" and _kinds(tokens, place + 1, 2) == ["number", "stitch_noun"]
    behind = tokens[place + COUNTED : place + MOST_TO_MARKED]
    if not marks or not any(token.text.startswith("marked ") for token in behind):
        return AS_THEY_ARE
    verb, number, noun = tokens[place : place + COUNTED]
    return place + COUNTED, [
        replace(verb, kind="word", text="place"),
        number,
        replace(noun, kind="marker", text="markers"),
    ]


def _evenly(tokens: list[Token], place: int) -> Instead:
    """`(k2tog) 8 times evenly`, `*k2tog* evenly 8 times` as `k2tog 8 times evenly`."""
    opens, closes = tokens[place].text, _kinds(tokens, place + 2, 1)
    if _kinds(tokens, place + 1, 1) != ["stitch"] or closes not in (["stars"], [")"]) or opens not in "(*[":
        return AS_THEY_ARE
    if sorted(_kinds(tokens, place + COUNTED, COUNTED)) != ["evenly", "number", "times"]:
        return AS_THEY_ARE
    return place + COUNTED, [replace(tokens[place + 1], flags=tokens[place].flags)]


def _in_every(tokens: list[Token], place: int) -> Instead:
    """`In every 11 sts, k2tog the last 2` as `*k9, k2tog*`."""
    if _kinds(tokens, place + 1, 4) != ["each", "number", "stitch_noun", "stitch"]:
        return AS_THEY_ARE
    number, _, stitch = tokens[place + 2 : place + 5]
    stop = place + 5
    while tokens[stop].kind in ("", "last", "number", "stitch_noun") and not tokens[stop].flags & _PARTED:
        stop += 1
    behind = tokens[place + 5 : stop]
    used = [word.text for word in behind if word.kind == "number"]
    uses, _ = uses_and_leaves().get(stitch.means, (0, 0))
    if used != [str(uses)] or "last" not in [word.kind for word in behind] or number.number is None:
        return AS_THEY_ARE
    plain = Number(tuple((value or 0) - uses for value in number.number.values), number.start, number.end)
    if min(value or 0 for value in plain.values) < 1:
        return AS_THEY_ARE
    opens, knit = words_at(tokens[place].start, ("stars", "*"), ("knit", "k"))
    (closes,) = words_at(behind[-1].end, ("stars", "*"))
    repeat = [
        replace(knit, flags=0),
        replace(number, number=plain, flags=0),
        stitch,
        replace(closes, flags=0),
    ]
    return stop, [replace(opens, flags=tokens[place].flags), *repeat]


def _for_sizes(tokens: list[Token], place: int) -> Instead:
    """`Dec 8 sts evenly as follows: size 1: *k7, k2tog*; size 2: ...` as what is told for the sizes."""
    change = _kinds(tokens, place + 1, 2) == ["number", "stitch_noun"]
    at = place + COUNTED + (_kinds(tokens, place + COUNTED, 1) == ["evenly"])
    follows = [token.text for token in tokens[at : at + 2]] == ["as", "follows"]
    if not change or not follows or _kinds(tokens, at + 2, 2) != ["size", "number"]:
        return AS_THEY_ARE
    sized, work = tokens[at + 2], tokens[at + 4 : at + 5]
    if not sized.flags & COLON or not work or work[0].kind != "stars" or not work[0].flags & COLON:
        return AS_THEY_ARE
    return at + 3, [replace(sized, flags=tokens[place].flags)]


def _knitting(tokens: list[Token], place: int) -> Instead:
    """`Begin by knitting 2 rounds`, `then knitting 2 rounds` as `knit 2 rounds`."""
    word = tokens[place]
    if word.text not in _WORKING or _kinds(tokens, place + 1, 2) != ["number", "round"] or not place:
        return AS_THEY_ARE
    begun = tokens[place - 1].text == "by" and place > 1 and tokens[place - 2].kind == "begin"
    if not begun and tokens[place - 1].kind != "then":
        return AS_THEY_ARE
    return place + 1, [replace(word, kind=_WORKING[word.text], text=_WORKING[word.text])]


def _at_ends_of_round(tokens: list[Token], place: int) -> Instead:
    """`dec 1 st at each end of the round`, `on each side of the beginning of the round`, as `dec 2 sts`."""
    verb, number, noun = (*tokens[place : place + COUNTED], *tokens[-1:] * COUNTED)[:COUNTED]
    if number.text not in ("1", "one") or noun.kind != "stitch_noun":
        return _for_sizes(tokens, place)
    stop, where = place + COUNTED, ""
    while stop < place + MOST_TO_ROUND and tokens[stop].kind != "round":
        words = tokens[stop].text.split()
        if not words or not _WHERE.issuperset(words):
            break
        where += tokens[stop].text + " "
        stop += 1
    whole = tokens[stop - 1].kind == "end" and tokens[stop - 1].text.endswith(("round", "rnd"))
    begin = stop
    while not whole and begin > place + COUNTED and tokens[begin - 1].text != "of":
        begin -= 1
    named = next((token.kind for token in tokens[stop : stop + COUNTED] if token.kind not in _OF_SORT), "")
    if _BOTH_ENDS.search(where) is None or not (whole or (named == "round" and begin > place + COUNTED)):
        return AS_THEY_ARE
    two = [verb, replace(number, text="2", number=Number((2,))), replace(noun, text="sts")]
    return begin, two if whole else [*two, *words_at(tokens[begin].start, ("in", "in"))]


def _in_each_of(tokens: list[Token], place: int) -> Instead:
    """`inc in each of the next 4 sts`, `kfb in each of first 4 sts` as `(kfb) 4 times`."""
    increase = tokens[place]
    uses, leaves = uses_and_leaves().get(increase.means, (1, 2))
    at = place + 1
    at += tokens[at].text in ("1", "one") and increase.kind == "increase"
    at += tokens[at].kind == "stitch_noun" and at > place + 1
    at += tokens[at].text == "in"
    of_round = place > 0 and tokens[place - 1].kind in ("knit", "purl")  # knit, inc in each of the next 4 sts
    if (
        uses != 1
        or leaves <= uses
        or "each" not in tokens[at].text
        or tokens[at + 1].text != "of"
        or of_round
    ):
        return AS_THEY_ARE
    at += 2
    at += tokens[at].text == "the"
    at += tokens[at].text in _NEXT
    if _kinds(tokens, at, 2) != ["number", "stitch_noun"]:
        return AS_THEY_ARE
    stitch = increase.means or "kfb"
    return at + 2, [
        replace(increase, kind="(", text="(", means="", end=increase.start),
        replace(increase, kind="stitch", text=stitch, means=stitch, flags=0),
        Token(")", ")", increase.end, increase.end, 0),
        tokens[at],
        replace(tokens[at + 1], kind="times", text="times"),
    ]


def _increase(tokens: list[Token], place: int) -> Instead:
    ends = _at_ends_of_round(tokens, place)
    return ends if ends[0] else _in_each_of(tokens, place)


def _decrease(tokens: list[Token], place: int) -> Instead:
    following = _decrease_in_next(tokens, place)
    return following if following[0] else _decrease_beside_markers(tokens, place)


def _in(tokens: list[Token], place: int) -> Instead:
    following = _decrease_in_next(tokens, place)
    return following if following[0] else _in_every(tokens, place)


def _number(tokens: list[Token], place: int) -> Instead:
    """`(k8, k2tog) · 10` with the dot as the sign of times."""
    number, dot = tokens[place], tokens[place].flags & (BULLET | LINE) == BULLET
    repeated = bool(place) and tokens[place - 1].kind in (")", "stars") and tokens[place + 1].flags & _SIGNED
    if not dot or not repeated:
        return _two_beside_markers(tokens, place)
    return place + 1, [*words_at(number.start, ("times", "x")), replace(number, flags=SPACE)]


def _down_to(tokens: list[Token], place: int) -> Instead:
    """`until you k2tog all around` as `until you are down to k2tog around`."""
    at = place + 1
    while tokens[at].text in _YOU:
        at += 1
    if at == place + 1 or _kinds(tokens, at, 2) != ["stitch", "around"]:
        return AS_THEY_ARE
    if not tokens[at + 2].flags & _ENDS or tokens[at].means not in _TOGETHER:
        return AS_THEY_ARE
    return at, [*tokens[place:at], *words_at(tokens[at].start, ("", "are"), ("have", "down to"))]


def _first_of_rounds(tokens: list[Token], place: int) -> Instead:
    """`Knit 3 rounds, and at the end of the first round k2tog` as `knit to last 2 sts, k2tog. Knit 2 rounds`."""
    number = (
        tokens[place + 1].number if _kinds(tokens, place, COUNTED) == ["knit", "number", "round"] else None
    )
    if number is None or not all((value or 2) > 1 for value in number.values):
        return AS_THEY_ARE
    at = place + COUNTED
    while tokens[at].text in _AT_THE:
        at += 1
    if [token.text for token in tokens[at : at + 4]] != ["end", "of", "the", "first"]:
        return AS_THEY_ARE
    work = at + 5
    if _kinds(tokens, at + 4, 1) != ["round"] or tokens[work].means not in _TOGETHER:
        return AS_THEY_ARE
    if not (tokens[work + 1].flags & _ENDS or tokens[work + 1].kind == "then"):
        return AS_THEY_ARE
    knit, rounds = tokens[place], tokens[place + 2]
    near = knit.end
    to, last, two, noun = words_at(
        near, ("to", "to"), ("last", "last"), ("number", "2"), ("stitch_noun", "sts")
    )
    rest = Number(tuple(value if value is None else value - 1 for value in number.values))
    return work + 1, [
        knit,
        to,
        last,
        replace(two, number=Number((2,))),
        noun,
        replace(tokens[work], start=near, end=near, flags=SPACE | COMMA),
        Token("knit", "knit", near, near, SPACE | STOP | FULL),
        replace(tokens[place + 1], number=rest),
        rounds,
    ]


def _beside_markers(tokens: list[Token], begin: int) -> bool:
    """Whether it is told here that work is on each side of the markers."""
    sides = False
    for at, token in enumerate(tokens[begin : begin + MOST_TO_MARKERS], begin + 1):
        if token.kind == "marker":
            return sides and not tokens[min(at, len(tokens) - 1)].flags & COLON  # no heading
        words = set(token.text.split())
        sides = sides or bool(words & _SIDES)
        if not (words & _SIDES or words <= _BESIDE or token.kind in ("number", "each", "per", "all")):
            return False
    return False


def _decrease_beside_markers(tokens: list[Token], place: int) -> Instead:
    """`decrease on each side of each marker`, `Decreases are worked either side of ...` as `dec 1 st each side`."""
    at = place + 1
    before = [token.kind for token in tokens[max(0, place - COUNTED) : place]]
    behind_after = "after" in before and before[-1] == "ordinal"
    if behind_after and _kinds(tokens, at, 2) == ["number", "stitch_noun"]:
        return at, [
            tokens[place],
            *words_at(tokens[place].end, ("have", "there are")),
        ]  # after the first dec 64 sts
    while tokens[at].kind == "work" or tokens[at].text in _ARE:
        at += 1
    if not _beside_markers(tokens, at):
        return _at_ends_of_round(tokens, place)
    near = tokens[place].end
    single, noun = words_at(near, ("number", "1"), ("stitch_noun", "st"))
    return at, [replace(tokens[place], text="dec"), replace(single, number=Number((1,))), noun]


def _two_beside_markers(tokens: list[Token], place: int) -> Instead:
    """`work 2 sts together on each side of each marker` as `k2tog on each side of each marker`.

    `1 dec round, then knit 2 rounds` is `work 1 dec round`.
    """
    two = tokens[place]
    named = any(token.flags & _PARTED for token in tokens[place + 1 : place + COUNTED])  # 1. Dec rnd
    named = named or bool(tokens[min(place + COUNTED, len(tokens) - 1)].flags & COLON)
    begins = not place or two.flags & _ENDS
    if begins and not named and _kinds(tokens, place + 1, 2) == ["decrease", "round"]:
        (work,) = words_at(two.start, ("work", "work"))
        return place + 1, [replace(work, flags=two.flags), replace(two, flags=SPACE)]
    if (
        two.number is None
        or two.number.values != (2,)
        or _kinds(tokens, place + 1, 2) != ["stitch_noun", "together"]
    ):
        return AS_THEY_ARE
    if tokens[place - 1].kind != "work" or not _beside_markers(tokens, place + COUNTED):
        return AS_THEY_ARE
    return place + COUNTED, [replace(two, kind="stitch", text="k2tog", means="k2tog", number=None)]


def _then_often(tokens: list[Token], place: int) -> Instead:
    """`k1, then 31 times k2tog`, `k1 and 31 x k2tog` as `k1, 31 times k2tog`."""
    if _kinds(tokens, place + 1, COUNTED) != ["number", "times", "stitch"] or tokens[place].flags & _ENDS:
        return AS_THEY_ARE
    if tokens[place - 1].kind == "times":
        return AS_THEY_ARE  # k2tog 4 times and 4 times ssk
    number = tokens[place + 1]
    return place + 2, [replace(number, flags=SPACE | COMMA)]


def _rounds_then(tokens: list[Token], place: int) -> Instead:
    """`Rnds 9 and 10: *k4, k2tog* = 40 sts, then *k3, k2tog* = 32 sts` with a label for each of the rounds."""
    name, colon = tokens[place], place + 1
    if place and not name.flags & (LINE | FULL):
        return AS_THEY_ARE
    while (
        tokens[colon].kind in _OF_NUMBERS
        and not tokens[colon].flags & COLON
        and colon < place + MOST_OF_NUMBERS
    ):
        colon += 1
    numbers = [token for token in tokens[place + 1 : colon] if token.kind == "number"]
    if len(numbers) < FEWEST_ROUNDS or not tokens[colon].flags & COLON:
        return AS_THEY_ARE
    stop = colon + 1
    joints: list[int] = []
    while stop < min(len(tokens) - 1, colon + MOST_OF_ROUNDS) and not tokens[stop].flags & (LINE | FULL):
        works = tokens[stop + 1].kind in _BEGINS_WORK  # not (24 sts, then 12 sts)
        if tokens[stop].kind == "then" and tokens[stop - 1].kind in _COUNTED and works:
            joints.append(stop)
        stop += 1
    if len(joints) != len(numbers) - 1:
        return AS_THEY_ARE
    made = [name, numbers[0]]
    for begin, end, number in zip(
        [colon, *(at + 1 for at in joints)], [*joints, stop], [*numbers[1:], None], strict=True
    ):
        made.extend((replace(tokens[begin], flags=tokens[begin].flags | COLON), *tokens[begin + 1 : end]))
        if number is not None:
            near = tokens[end].start
            made.extend(
                (replace(name, start=near, end=near, flags=SPACE | STOP | FULL), replace(number, flags=SPACE))
            )
    return stop, made


def _begins_round(tokens: list[Token], place: int) -> Instead:
    """`*k2, k2tog* to end of round Round 3: knit`, where no sign stands before the name of a round, as with a stop."""
    rounds = _rounds_then(tokens, place)
    if rounds[0]:
        return rounds
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
    return place + 1, [replace(name, flags=SPACE | STOP | FULL)]


def _only_round(tokens: list[Token], place: int) -> Instead:
    """`Only round A work, 3 times` as `only round A, 3 times`."""
    round_letter = _kinds(tokens, place + 1, COUNTED) == ["round", "", "work"]
    if not round_letter or len(tokens[place + 2].text) > 1 or tokens[place + COUNTED].flags & _PARTED:
        return AS_THEY_ARE
    return place + COUNTED + 1, tokens[place : place + COUNTED]


def _decrease_in_next(tokens: list[Token], place: int) -> Instead:
    """`In the next 2 rnds dec in the same way` as `dec in the same way in the next 2 rnds`."""
    sorts: dict[str, Token] = {}
    at = place
    while at == place or not tokens[at].flags & _ENDS:
        word = tokens[at]
        sort = "next" if word.text in ("next", "following") else word.kind
        if sort in _OF_NEXT and sort not in sorts:
            sorts[sort] = word
        elif word.text not in _IN_THE:
            break
        at += 1
    if not _OF_NEXT.issubset({*sorts, "number"}) or not (
        tokens[at].flags & _PARTED or tokens[at].kind == "("
    ):
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
    count = [replace(tokens[at], flags=SPACE | STOP | FULL)] if tokens[at].flags & COLON else []
    return at + len(count), [replace(first, flags=tokens[place].flags), *others, *rounds, *count]


def _same_elsewhere(tokens: list[Token], place: int) -> Instead:
    """`Do the same in all 8 sections`, `on the 7 other needles` as `do it on all 8 sections`.

    `Do the same in the next 2 rnds` is `work the next 2 rnds in the same way`, in one round `repeat the last rnd`.
    """
    if _kinds(tokens, place, 5) == ["work", "", "next", "round", "manner"]:
        first, *others = _last_again(tokens[place].start, [tokens[place + 3]])
        return place + 5, [replace(first, flags=tokens[place].flags), *others]
    begin = at = _behind_same(tokens, place)
    if not at:
        return AS_THEY_ARE
    number = None
    while (tokens[at].text in _IN_ALL or tokens[at].kind == "number") and not tokens[at].flags & _PARTED:
        number = tokens[at].number or number
        at += 1
    where, near = tokens[begin:at], tokens[place].start
    noun = [replace(tokens[at], flags=SPACE)]
    counted = [replace(word, flags=SPACE) for word in where if word.kind == "number"]
    if tokens[at].kind == "round" and any(word.text in ("next", "following") for word in where):
        again = [*words_at(near, ("work", "work"), ("", "the"), ("next", "next")), *counted, *noun]
        words = (
            [*again, *words_at(near, ("manner", "in the same way"))] if number else _last_again(near, noun)
        )
    elif number is not None and tokens[at].kind in ("section", "marker", "needle"):
        more = any(word.text in ("other", "remaining") for word in where)
        of_all = replace(number, values=tuple(value and value + more for value in number.values))
        words = words_at(near, ("work", "do"), ("", "it"), ("", "on"), ("all", "all"))
        words += [replace(counted[-1], number=of_all), *noun]
    elif tokens[at].kind == "persection" and tokens[place].kind == "work":
        words = [*words_at(near, ("repeat", "repeat")), *noun]
    else:
        return AS_THEY_ARE
    return at + 1, [replace(words[0], flags=tokens[place].flags), *words[1:]]


def _last_again(near: int, noun: list[Token]) -> list[Token]:
    """`Repeat the last rnd`."""
    return [*words_at(near, ("repeat", "repeat"), ("last", "last")), *noun]


def _behind_same(tokens: list[Token], place: int) -> int:
    """The place behind `do the same`, `do this`; 0 where they are not here."""
    at = place + 1
    if tokens[place].kind == "repeat":
        return at if tokens[place].text == "do this" else 0
    at += tokens[at].kind == "work"  # work do the same
    at += tokens[at].text == "the"
    return at + 1 if tokens[at].text == "same" else 0


COUNTED: Final = 3
"""Words of `mark 4 sts`, `k2tog` in its brackets and `8 times evenly`."""
MOST_TO_MARKED: Final = 80
"""Words from `mark 4 sts` to `each marked st`."""
MOST_TO_ROUND: Final = 16
"""Words from `dec 1 st` to the round at whose ends it is."""
_BOTH_ENDS: Final = re.compile(
    r"(?:each|both|either) (?:ends? |sides? of (?:the )?(?:beginning|beg|start) )"
    r"|(?:beginning|beg|start) and (?:at )?(?:the )?end |end and (?:at )?(?:the )?(?:beginning|beg|start) "
)
_WHERE: Final = frozenset(
    (
        *("beginning", "beg", "start", "at", "on", "to", "the", "each", "both", "either", "side", "sides"),
        *("end", "ends", "of", "and", "round", "rnd"),
    )
)
"""Words from `dec 1 st` to that round."""
_OF_SORT: Final = frozenset(("each", "all", "next", "following", "alternate", "ordinal", "number"))
"""Kinds of the words before `round` that say which."""
_SIDES: Final = frozenset(("side", "sides"))
_BESIDE: Final = frozenset(
    ("on", "at", "to", "each", "either", "both", "of", "the", "every", "all", "those", "these")
)
"""Words of `on either side of each of the`."""
MOST_TO_MARKERS: Final = 10
"""Words from a decrease to the markers beside which it is."""
_ARE: Final = frozenset(("are", "is", "made", "to", "be"))
FEWEST_ROUNDS: Final = 2
MOST_OF_ROUNDS: Final = 60
"""Words of rounds that are told in turn behind their label."""
_BEGINS_WORK: Final = frozenset(("stars", "(", "stitch", "knit", "purl", "work"))
_COUNTED: Final = frozenset(("number", "stitch_noun", "remain", "left", ")"))
"""Kinds of the words that end a count."""
_ENDING: Final = frozenset(("around", "end", "round", "stitch_noun", "needle", ")", "stars", "plain", "even"))
"""Kinds of the words that end the work of a round."""
_OF_NUMBERS: Final = frozenset(("number", "range", "and", "to", "round"))
MOST_OF_NUMBERS: Final = 6
"""Words of `Rounds 1 and 2`."""
_ENDS: Final = STOP | LINE | SEMI | FULL
_PARTED: Final = _ENDS | COLON | COMMA
_SIGNED: Final = _PARTED | DASH | EQUALS
_OF_NEXT: Final = frozenset(("next", "number", "round", "decrease", "manner"))
"""Kinds of the words of `in the next 2 rnds dec in the same way`."""
_IN_THE: Final = frozenset(("in", "the", "on", "for", "during"))
_IN_ALL: Final = _IN_THE | {
    "in all",
    "all",
    "at",
    "other",
    "remaining",
    "next",
    "following",
    "of",
    "each",
    "each of",
}
_WORKING: Final = {"knitting": "knit", "purling": "purl"}
_YOU: Final = frozenset(("you", "we", "just", "only"))
_TOGETHER: Final = frozenset(("k2tog", "ssk", "skp", "p2tog"))
_NEXT: Final = frozenset(("next", "first", "last", "following"))
_AT_THE: Final = frozenset(("and", "at", "the", "but"))
_RULES: Final[dict[str, Callable[[list[Token], int], Instead]]] = {
    "marker": _marked,
    "(": _evenly,
    "stars": _evenly,
    "stitch": _in_each_of,
    "increase": _increase,
    "decrease": _decrease,
    "next": _decrease_in_next,
    "work": _same_elsewhere,
    "repeat": _same_elsewhere,
    "number": _number,
    "word": _knitting,
    "until": _down_to,
    "in": _in,
    "knit": _first_of_rounds,
    "round": _begins_round,
    "only": _only_round,
    "then": _then_often,
    "and": _then_often,
}
