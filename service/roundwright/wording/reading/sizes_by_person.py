"""Sizes by whom they are for, by a letter or a pair of them, where the text has no list that the reader knows.

`Size Man only`, `For the woman's hat`, `Size M only`, `Size L/XL ONLY`: the order of children, women and men, and of
the letters, is common practice.
"""

from collections.abc import Mapping
from itertools import pairwise
from typing import Final

from roundwright.wording.reading.tokens import COLON, COMMA, DASH, LINE, SEMI, SLASH, SPACE, STOP, Token

_PERSONS: Final = (
    ("preemie", "premature"),
    ("newborn", "newborns"),
    ("baby", "babies", "infant"),
    ("toddler", "toddlers"),
    ("child", "children", "kid", "kids", "junior"),
    ("youth", "teen", "teens", "teenager"),
    ("woman", "women", "lady", "ladies", "mum", "mom", "mother"),
    ("man", "men", "gentleman", "gentlemen", "gent", "gents", "dad", "father", "adult", "adults"),
)
"""Whom sizes are for, from the smallest head to the largest (common practice)."""
_RANKS: Final = {word: rank for rank, words in enumerate(_PERSONS) for word in words}
_LETTERS: Final = ("xxs", "xs", "s", "m", "l", "xl", "xxl")
_RANKS_OF_LETTERS: Final = {letter: rank for rank, letter in enumerate(_LETTERS)} | {
    "small": 2,
    "medium": 3,
    "large": 4,
}
_PAIRS: Final = tuple(f"{first}/{second}" for first, second in pairwise(_LETTERS))
"""Two letters of one size: `s/m`, `l/xl`."""
_OF_SMALLEST: Final = _PAIRS[:3]
_OF_LARGEST: Final = _PAIRS[3:]
MOST_OF_NAME: Final = 3
"""Words of a name at the beginning of a line in a list of sizes."""


def persons_of(tokens: list[Token], width: int) -> Mapping[str, int]:
    """The columns of the sizes by whom they are for, where the text names as many kinds of persons as it has sizes."""
    return _by_rank(
        _RANKS, {_RANKS[name] for token in tokens if (name := _bare(token.text)) in _RANKS}, width
    )


def _by_rank(ranks: Mapping[str, int], named: set[int], width: int) -> Mapping[str, int]:
    """The columns of the sizes by the names of the ranks that a text has; empty where they are not as many as those."""
    if len(named) != width:
        return {}
    column = {rank: place for place, rank in enumerate(sorted(named))}
    return {name: column[rank] for name, rank in ranks.items() if rank in column}


def _bare(word: str) -> str:
    """The word without the ending of a possessive."""
    return word.removesuffix("'s").removesuffix("s'")


def lines_of(tokens: list[Token], width: int) -> Mapping[str, int]:
    """The columns of sizes of which each has a line below the word `Sizes`, named first; empty where they have not.

    A line with `fit` may stand between: `Sizes`, `To fit head`, `Acorn 16"`, `Oak 18"`.
    """
    for place, token in enumerate(tokens):
        if token.kind != "size":
            continue
        begins = [
            at for at in range(place + 1, min(place + MOST_OF_LIST, len(tokens))) if tokens[at].flags & LINE
        ]
        before = tokens[place + 1 : begins[0]] if begins else [token]
        if begins and any(word.text == "fit" for word in tokens[begins[0] : begins[0] + 2]):
            begins.pop(0)
        if len(before) > 1 or len(begins) < width:
            continue
        named = [_named(tokens, at) for at in begins[:width]]
        if all(named) and len(set(named)) == width:
            return {name: column for column, name in enumerate(named)}
    return {}


MOST_OF_LIST: Final = 80
"""Words of a list of sizes with a line for each."""


def letters_of(tokens: list[Token], width: int) -> Mapping[str, int]:
    """The columns of the sizes by the letters or words beside `size` and `only`, if they are as many as the sizes."""
    ranks = {
        _RANKS_OF_LETTERS[name.text]
        for first, second in pairwise(tokens)
        for beside, name in ((first, second), (second, first))
        if beside.kind in ("size", "only") and name.text in _RANKS_OF_LETTERS and not second.flags & ~SPACE
    }
    return _by_rank(_RANKS_OF_LETTERS, ranks, width)


def _named(tokens: list[Token], begin: int) -> str:
    """The words that name the size of a line before its first number or sign; empty where no such words stand there."""
    stop = begin
    while stop < len(tokens) and tokens[stop].kind in ("word", "make"):
        if stop > begin and tokens[stop].flags & (LINE | STOP | COLON | COMMA | DASH | SEMI):
            break
        stop += 1
    ended = stop >= len(tokens) or tokens[stop].flags & (LINE | COLON | DASH | COMMA) or tokens[stop].number
    ended = ended or tokens[stop].kind == "("
    return (
        " ".join(token.text for token in tokens[begin:stop]) if ended and stop - begin <= MOST_OF_NAME else ""
    )


def pairs_of(tokens: list[Token], width: int) -> Mapping[str, int]:
    """The columns of the sizes that two letters name: by their order where all have two, else the ends of two sizes."""
    pairs: set[int] = set()
    for first, second in pairwise(tokens):
        pair = f"{first.text}/{second.text}"
        if second.flags & SLASH and pair in _PAIRS:
            pairs.add(_PAIRS.index(pair))
    if len(pairs) == width:
        return {_PAIRS[pair]: column for column, pair in enumerate(sorted(pairs))}
    if width > 2:
        return {}
    ends = dict.fromkeys(_OF_SMALLEST, 0) | dict.fromkeys(_OF_LARGEST, 1)
    return {pair: column for pair, column in ends.items() if _PAIRS.index(pair) in pairs}
