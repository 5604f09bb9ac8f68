"""Work of a round in the order and manner in which others tell it: `In every 11 sts, k2tog the last 2`."""

import re
from collections.abc import Mapping
from functools import partial
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
    Rule,
    Token,
    kinds_at,
    of_kind,
    with_others_put,
    words_at,
)
from roundwright.wording.reading.tree import Number


def with_words_of_others(tokens: list[Token]) -> list[Token]:
    """The words, with those of most in place of these. Takes time in their number."""
    return with_others_put(tokens, partial(of_kind, _RULES))


def _marked(tokens: list[Token], place: int) -> Instead:
    """`Mark 4 sts. Dec 1 st on each side of each marked st` as `place 4 markers`."""
    marks = tokens[place].text == "mark" and kinds_at(tokens, place + 1, 2) == ["number", "stitch_noun"]
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
    opens, closes = tokens[place].text, kinds_at(tokens, place + 2, 1)
    if kinds_at(tokens, place + 1, 1) != ["stitch"] or closes not in (["stars"], [")"]) or opens not in "(*[":
        return AS_THEY_ARE
    if sorted(kinds_at(tokens, place + COUNTED, COUNTED)) != ["evenly", "number", "times"]:
        return AS_THEY_ARE
    return place + COUNTED, [replace(tokens[place + 1], flags=tokens[place].flags)]


def _in_every(tokens: list[Token], place: int) -> Instead:
    """`In every 11 sts, k2tog the last 2` as `*k9, k2tog*`."""
    if kinds_at(tokens, place + 1, 4) != ["each", "number", "stitch_noun", "stitch"]:
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
    start, end = tokens[place].start, behind[-1].end
    return stop, [
        Token("stars", "*", start, start, tokens[place].flags),
        Token("knit", "k", start, start, 0),
        replace(number, number=plain, flags=0),
        stitch,
        Token("stars", "*", end, end, 0),
    ]


def _as_before(tokens: list[Token], place: int) -> Instead:
    """`dec as before on the next 3 rnds` as `dec in this manner on the next 3 rnds`."""
    to_next = kinds_at(tokens, place + 1, MOST_TO_NEXT)
    if tokens[place + 1].text != "as before" or "next" not in to_next:
        return AS_THEY_ARE
    if kinds_at(tokens, place + 2 + to_next.index("next"), 2) != ["number", "round"]:
        return AS_THEY_ARE
    return place + 2, [tokens[place], replace(tokens[place + 1], kind="manner", text="in this manner")]


def _for_sizes(tokens: list[Token], place: int) -> Instead:
    """`Dec 8 sts evenly as follows: size 1: *k7, k2tog*; size 2: ...` as what is told for the sizes."""
    change = kinds_at(tokens, place + 1, 2) == ["number", "stitch_noun"]
    at = place + COUNTED + (kinds_at(tokens, place + COUNTED, 1) == ["evenly"])
    follows = [token.text for token in tokens[at : at + 2]] == ["as", "follows"]
    if not change or not follows or kinds_at(tokens, at + 2, 2) != ["size", "number"]:
        return AS_THEY_ARE
    sized, work = tokens[at + 2], tokens[at + 4 : at + 5]
    if not sized.flags & COLON or not work or work[0].kind != "stars" or not work[0].flags & COLON:
        return AS_THEY_ARE
    return at + 3, [replace(sized, flags=tokens[place].flags)]


def _at_ends_of_round(tokens: list[Token], place: int) -> Instead:
    """`dec 1 st at each end of the round`, `on each side of the beginning of the round`, as `dec 2 sts`."""
    verb, number, noun = tokens[place : place + COUNTED]
    if number.text not in ("1", "one") or noun.kind != "stitch_noun":
        return AS_THEY_ARE
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
    in_each = "each" in tokens[at].text and tokens[at + 1].text == "of"
    if uses != 1 or leaves <= uses or not in_each or of_round:
        return AS_THEY_ARE
    at += 2
    at += tokens[at].text == "the"
    at += tokens[at].text in _NEXT
    if kinds_at(tokens, at, 2) != ["number", "stitch_noun"]:
        return AS_THEY_ARE
    stitch = increase.means or "kfb"
    return at + 2, [
        replace(increase, kind="(", text="(", means="", end=increase.start),
        replace(increase, kind="stitch", text=stitch, means=stitch, flags=0),
        Token(")", ")", increase.end, increase.end, 0),
        tokens[at],
        replace(tokens[at + 1], kind="times", text="times"),
    ]


def _dot(tokens: list[Token], place: int) -> Instead:
    """`(k8, k2tog) · 10` with the dot as the sign of times."""
    number = tokens[place]
    repeated = bool(place) and tokens[place - 1].kind in (")", "stars") and tokens[place + 1].flags & _SIGNED
    if not repeated or number.flags & (BULLET | LINE) != BULLET:
        return AS_THEY_ARE
    return place + 1, [*words_at(number.start, ("times", "x")), replace(number, flags=SPACE)]


def _beside_markers(tokens: list[Token], begin: int) -> bool:
    """Whether it is told here that work is on each side of the markers."""
    sides = False
    for at, token in enumerate(tokens[begin : begin + MOST_TO_MARKERS], begin):
        words = set(token.text.split())
        if token.kind == "marker":
            return sides and not tokens[at + 1].flags & COLON  # no heading
        if not words <= _BESIDE and not (sides and token.kind == "number"):  # not on one side
            return False
        sides = sides or not words.isdisjoint(_SIDES)
    return False


def _decrease_beside_markers(tokens: list[Token], place: int) -> Instead:
    """`decrease on each side of each marker`, `Decreases are worked either side of ...` as `dec 1 st each side`."""
    at = place + 1
    while tokens[at].kind == "work" or tokens[at].text in _ARE:
        at += 1
    if not _beside_markers(tokens, at):
        return AS_THEY_ARE
    single, noun = words_at(tokens[place].end, ("number", "1"), ("stitch_noun", "st"))
    return at, [replace(tokens[place], text="dec"), replace(single, number=Number((1,))), noun]


def _two_beside_markers(tokens: list[Token], place: int) -> Instead:
    """`work 2 sts together on each side of each marker` as `k2tog on each side of each marker`."""
    two = tokens[place]
    together = kinds_at(tokens, place + 1, 2) == ["stitch_noun", "together"]
    if not together or two.number is None or two.number.values != (2,) or tokens[place - 1].kind != "work":
        return AS_THEY_ARE
    if not _beside_markers(tokens, place + COUNTED):
        return AS_THEY_ARE
    return place + COUNTED, [replace(two, kind="stitch", text="k2tog", means="k2tog", number=None)]


def _then_often(tokens: list[Token], place: int) -> Instead:
    """`k1, then 31 times k2tog`, `k1 and 31 x k2tog` as `k1, 31 times k2tog`."""
    if kinds_at(tokens, place + 1, COUNTED) != ["number", "times", "stitch"] or tokens[place].flags & _ENDS:
        return AS_THEY_ARE
    if tokens[place - 1].kind == "times":
        return AS_THEY_ARE  # k2tog 4 times and 4 times ssk
    return place + 2, [replace(tokens[place + 1], flags=SPACE | COMMA)]


def _together_first(tokens: list[Token], place: int) -> Instead:
    """`knit together the last 2 sts` as `knit the last 2 sts together`."""
    at = place + 2
    while tokens[at].text in _WHICH:
        at += 1
    worked = tokens[place + 1].kind == "together" and kinds_at(tokens, at, 2) == ["number", "stitch_noun"]
    if not worked or at == place + 2 or any(token.flags & _PARTED for token in tokens[place + 1 : at + 2]):
        return AS_THEY_ARE
    together = replace(tokens[place + 1], start=tokens[at + 1].end, end=tokens[at + 1].end)
    return at + 2, [tokens[place], *tokens[place + 2 : at + 2], together]


_WHICH: Final = frozenset(("the", "first", "last", "next", "following"))
"""Words before the number of stitches that are worked together."""
COUNTED: Final = 3
"""Words of `mark 4 sts`, `k2tog` in its brackets and `8 times evenly`."""
MOST_TO_NEXT: Final = 5
"""Words from `as before` to the next rounds."""
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
_BESIDE: Final = _SIDES | frozenset(
    ("on", "at", "to", "each", "either", "both", "of", "the", "every", "all", "per", "those", "these")
)
"""Words of `on either side of each of the`."""
MOST_TO_MARKERS: Final = 10
"""Words from a decrease to the markers beside which it is."""
_ARE: Final = frozenset(("are", "is", "made", "to", "be"))
_ENDS: Final = STOP | LINE | SEMI | FULL
_PARTED: Final = _ENDS | COLON | COMMA
_SIGNED: Final = _PARTED | DASH | EQUALS
_NEXT: Final = frozenset(("next", "first", "last", "following"))
_RULES: Final[Mapping[str, tuple[Rule, ...]]] = {
    "marker": (_marked,),
    "(": (_evenly,),
    "stars": (_evenly,),
    "stitch": (_in_each_of,),
    "increase": (_at_ends_of_round, _for_sizes, _in_each_of),
    "decrease": (_decrease_beside_markers, _at_ends_of_round, _for_sizes, _as_before),
    "number": (_dot, _two_beside_markers),
    "in": (_in_every,),
    "knit": (_together_first,),
    "purl": (_together_first,),
    "then": (_then_often,),
    "and": (_then_often,),
}
