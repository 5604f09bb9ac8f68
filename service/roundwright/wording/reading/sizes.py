"""The names of sizes: where a text lists them, and the lines that are for some of them only."""

import re
from collections.abc import Mapping
from itertools import pairwise
from typing import Final

from msgspec import Struct

from roundwright.wording.reading.sizes_by_person import letters_of, lines_of, pairs_of, persons_of
from roundwright.wording.reading.sizes_in_brackets import names_of_cast_on
from roundwright.wording.reading.tokens import COLON, COMMA, DASH, LINE, SEMI, SLASH, SPACE, STOP, TAB, Token

NO_NAMES: Final[Mapping[str, int]] = {}
MOST_TOKENS: Final = 40
"""Words of a list of sizes in brackets."""
_LETTERS: Final = {"small": "s", "medium": "m", "large": "l", "s": "small", "m": "medium", "l": "large"}
_PASSED: Final = frozenset(("size", "only", "for", "", "begin", "continue"))
_PASSED_TEXTS: Final = frozenset(
    (
        "hat",
        "hats",
        "cap",
        "caps",
        "head",
        "heads",
        "version",
        "if",
        "you",
        "you're",
        "making",
        "knitting",
        "those",
        "here",
        "starts",
        "join",
        "joins",
        "in",
        "now",
        "age",
        "ages",
    )
)
"""Words around the name of a size: `For the adult hat`, `If you are making the large`."""
_OTHERS: Final = (["the", "others"], ["others"], ["all", "others"], ["the", "rest"], ["everyone", "else"])
"""What names the sizes that were not named before: `Small begin here, the others keep going`."""
_ALL: Final = frozenset(("all", "both", "every", "everybody", "everyone"))
_CALLED: Final = frozenset(("caps", "hats", "labels", "versions"))
"""What sizes are called behind `all` or `both`."""
_LARGER: Final = frozenset(("larger", "largest", "bigger", "biggest"))
_SMALLER: Final = frozenset(("smaller", "smallest"))


def width_of(tokens: list[Token]) -> int:
    """How many sizes the cast-on counts."""
    return max(len(_cast_on(tokens)), 1)


def _cast_on(tokens: list[Token]) -> tuple[int, ...]:
    """The counts that are cast on for several sizes; empty where none are."""
    for place, token in enumerate(tokens):
        if token.kind == "cast_on":
            for later in tokens[place + 1 : place + 8]:
                if later.number is not None and len(later.number.values) > 1:
                    return tuple(value or 0 for value in later.number.values)
    return ()


def names_of(tokens: list[Token], width: int) -> Mapping[str, int]:
    """The columns of the sizes by their names: `Child (Teen, Adult)`, `S/M/L`; empty where there is one size."""
    if width < 2:
        return NO_NAMES
    described = _described(tokens, width)
    names = {name: column for column, spellings in enumerate(described.names) for name in spellings}
    in_print = _in_brackets(tokens, width) or _behind_brackets(tokens, width)
    in_print = in_print or _first_and_in_brackets(tokens, width)
    in_print = in_print or names_of_cast_on(tokens, width)
    in_print = in_print or _without_comparisons(_before_size(tokens, width) or _casting_on(tokens, width))
    in_print = in_print or _above_columns(tokens, width)
    names |= {name: column for name, column in in_print.items() if name not in names}
    for place in (*range(described.begin), *range(described.stop, len(tokens))):
        _add_listed(names, tokens, place, width)
    counts = _cast_on(tokens)
    falls = len(counts) == width and counts[0] > counts[-1]
    by_width = _NAMED_BY_WIDTH.get(width, NO_NAMES)
    apart = width == 2 and not counts and sum(token.kind == "cast_on" for token in tokens) == width
    by_age = _BY_AGE if apart or (len(counts) == width == 2 and counts[0] != counts[1]) else NO_NAMES
    persons = {**by_width, **persons_of(tokens, width), **pairs_of(tokens, width)}
    by_order = {**persons, **letters_of(tokens, width), **by_age, **_NAMED_BY_SIZE}
    by_order = {**by_order, **_by_ladder(tokens, width, by_order)}
    by_place = {name: min(column, width - 1) for name, column in _NAMED_BY_PLACE.items()}
    by_count = _by_counts(tokens, counts, width)
    in_order = _in_print(by_order, width, falls=falls)
    return {**in_order, **lines_of(tokens, width), **by_place, **by_count, **_by_ages(tokens, width), **names}


def _by_ladder(tokens: list[Token], width: int, by_order: Mapping[str, int]) -> Mapping[str, int]:
    """The columns of sizes whose lines come before those of all, from the largest alone on.

    `Oak only: ...`, `Elm and Oak only: ...`, `All sizes: ...`. There are none where `by_order`, the common order of
    sizes, has the names otherwise.
    """
    alone: set[str] = set()
    rungs: list[str] = []
    only = ""
    for place, token in enumerate(tokens):
        stop = _names_stop(tokens, place) if not place or token.flags & (LINE | STOP | SEMI) else place
        if stop == place:
            continue
        if only and not rungs and names_all(tokens, place, stop):
            rungs = [only]  # Oak only, Both sizes
        parts = [" ".join(part) for part in _with_last_noun(_named_parts(tokens, place, stop, by_order))]
        if len(parts) == 1 and alone.intersection(slashed := parts[0].split("/")):
            parts = slashed  # 72/80 only
        if len(parts) == 1:
            alone.add(parts[0])
            larger = width == TWO_SIZES and parts[0] not in by_order and tokens[stop - 1].kind == "only"
            only = parts[0] if larger else only
        lower = set(rungs) or alone.intersection(parts)
        if len(lower) < len(parts) and lower.issubset(parts) and (rungs or len(lower) == 1):
            rungs = rungs or list(lower)
            rungs += [part for part in reversed(parts) if part not in lower]
    known = [by_order[name] for name in rungs if name in by_order]
    numbered = all(rung.isdecimal() and int(rung) <= width for rung in rungs)  # Size 3 only
    if numbered or len(rungs) > width or known != sorted(known, reverse=True):
        return NO_NAMES
    return {
        name: width - place
        for place, rung in enumerate(rungs, 1)
        for name in ((rung, f"{BY_NUMBER}{_spelled(rung)}") if rung[:1].isdigit() else (rung,))
    }


def _names_stop(tokens: list[Token], begin: int) -> int:
    """Where the names end that may begin a line here, at a colon or behind `only`; `begin` where none do."""
    for place in range(begin, min(begin + MOST_IN_LADDER, len(tokens))):
        token = tokens[place]
        if place > begin and token.flags & COLON:
            return place
        if token.kind in _IN_NO_LADDER or (place > begin and token.flags & (LINE | STOP | SEMI)):
            return begin
        if token.kind == "only" and place > begin:
            return place + 1
    return begin


MOST_IN_LADDER: Final = 16
"""Words of a line that names some sizes: `Sizes Toddler, Child, Adult S, Adult M and Adult L only`."""
_IN_NO_LADDER: Final = frozenset(("stars", "stitch", "knit", "purl", "round", "repeat"))
"""Kinds of words before a colon that name no size."""


def _by_counts(tokens: list[Token], counts: tuple[int, ...], width: int) -> Mapping[str, int]:
    """The columns of the sizes by their counts, cast on or of a crown by itself: `Rnd 1 (110 sts only)`.

    There are none where no lines are so told to be for some; `counts` are those cast on.
    """
    if not any(_names_counts(first, second, counts) for first, second in pairwise(tokens)):
        return NO_NAMES
    counts = counts or _first_counts(tokens, width)
    if len(set(counts)) < len(counts):
        return NO_NAMES
    called = ((column, count, noun) for column, count in enumerate(counts) for noun in _NOUNS)
    return {
        name: column for column, count, noun in called for name in (f"{count} {noun}", f"{BY_NUMBER}{count}")
    }


def _names_counts(first: Token, second: Token, counts: tuple[int, ...]) -> bool:
    """Whether a size is called by its count in these words: `110 sts only`, `sizes 88 (96)`, `88 (96) only`."""
    if first.kind == "stitch_noun" and (second.kind in ("only", "size") or second.text in _CALLED_BY_COUNT):
        return True
    number = second.number if first.kind == "size" else first.number if second.kind == "only" else None
    return number is not None and set(number.values) <= set(counts)


def _first_counts(tokens: list[Token], width: int) -> tuple[int, ...]:
    """The first stitches listed for all sizes, of a crown by itself: `Top decreases, 64 (72, 80, 88) sts`."""
    for first, second in pairwise(tokens):
        if first.number is not None and len(first.number.values) == width and second.kind == "stitch_noun":
            return tuple(value or 0 for value in first.number.values)
    return ()


_CALLED_BY_COUNT: Final = frozenset(("hat", "cap", "beanie", "version"))
"""What is called by the count it is cast on with: `100 st hat only`."""
_NOUNS: Final = ("sts", "stitches", "st")
"""What stands behind the count by which a size is called."""


def _in_print(names: Mapping[str, int], width: int, *, falls: bool) -> Mapping[str, int]:
    """The columns of names that count from the smallest head up, in a text that may begin with the largest."""
    columns = {name: min(column, width - 1) for name, column in names.items()}
    return {name: width - 1 - column for name, column in columns.items()} if falls else columns


def _add_listed(names: dict[str, int], tokens: list[Token], place: int, width: int) -> None:
    """Add the names of the list that begins at a place, if any does."""
    token = tokens[place]
    if token.kind == "(" and place and not _is_beside_number(tokens, place - 1):
        parts = _parts(tokens, place + 1)
        if len(parts) == width - 1 and not _is_short_form(tokens, place, parts):
            _add(names, _head(tokens, place), [" ".join(part) for part in parts])
        elif len(parts) > width - 1 and len(pairs := _paired_parts(tokens, place + 1)) == width - 1:
            _add_paired(names, [_paired_head(tokens, place), *pairs])
    elif token.text in AGES:
        _add_ages(names, tokens, place, width)
    elif token.flags & SLASH and (listed := _slashed(tokens, place, width)):
        _add(names, [listed[0]], listed[1:])
    elif place and tokens[place - 1].kind == "size" and _numbers_sizes(token, width):
        for column, size in enumerate(token.number.values if token.number else ()):
            names.setdefault(f"{BY_NUMBER}{size}", column)
    elif token.kind == "size" or _lists_names(tokens, place) or _in_order(tokens, place):
        parts = _parts(tokens, place + (token.kind == "size"), width)
        if len(parts) == width:
            _add(names, [" ".join(parts[0])], [" ".join(part) for part in parts[1:]])


def _is_beside_number(tokens: list[Token], place: int) -> bool:
    """Whether a number stands there and a bracket behind it that lists no sizes: `Rnd 1 (picot)`, `80 (Teen) 88`."""
    stop = min(place + MOST_TOKENS, len(tokens))
    close = next((at for at in range(place + 1, stop - 1) if tokens[at].kind == ")"), 0)
    counts = close > 0 and tokens[close + 1].kind == "number" and tokens[close - 1].number is None
    return tokens[place].kind == "number" and (counts or (place > 0 and tokens[place - 1].kind == "round"))


def _paired_parts(tokens: list[Token], begin: int) -> list[list[str]]:
    """The words between commas up to the bracket, those with a slash between joined by it: `(Adult Medium/Large)`."""
    stop = next(
        (at for at in range(begin, min(begin + MOST_TOKENS, len(tokens))) if tokens[at].kind == ")"), 0
    )
    parts: list[list[str]] = []
    for token in tokens[begin:stop]:
        if token.flags & (COMMA | SEMI) or token.text == "or" or not parts:
            parts.append([])
        _join(parts[-1], token)
    return parts


def _paired_head(tokens: list[Token], place: int) -> list[str]:
    """The words of the first size before the bracket, those with a slash between joined by it: `Youth/Adult Small`."""
    begin = place
    while begin > max(0, place - MOST_OF_HEAD) and tokens[begin - 1].kind not in ("(", ")", "size", "unit"):
        begin -= 1
        if tokens[begin].flags & (LINE | COLON | STOP | COMMA | DASH | SEMI):
            break
    words: list[str] = []
    for token in tokens[begin:place]:
        _join(words, token)
    return words


def _join(words: list[str], token: Token) -> None:
    """Add a word, to the one before where a slash joins them."""
    if words and token.flags & SLASH:
        words[-1] = f"{words[-1]}/{token.text}"
    else:
        words.append(token.text)


def _add_paired(names: dict[str, int], sizes: list[list[str]]) -> None:
    """Add the names of sizes in several words: all of them, and those pairs of one that no other size has."""
    if not all(words and any(map(str.isalpha, "".join(words))) for words in sizes):
        return
    for column, words in enumerate(sizes):
        names.setdefault(" ".join(words), column)
        for word in words:
            if "/" in word and sum(word in others for others in sizes) == 1:
                names.setdefault(word, column)


MOST_OF_HEAD: Final = 4
"""Words of the name of a first size."""


class _Described(Struct, frozen=True):
    """A list of sizes with what each is: its names, from `begin` to before `stop`."""

    names: list[list[str]] = []
    begin: int = 0
    stop: int = 0


def _described(tokens: list[Token], width: int) -> _Described:
    """`Sizes: A (child 5-10), B (adult)`: the names, and what they mean in brackets; empty where there are none."""
    begin = next((place for place, token in enumerate(tokens) if token.kind == "size"), len(tokens)) + 1
    names: list[list[str]] = []
    place = begin
    while len(names) < width and place + 2 < len(tokens):
        opened = next((at for at in range(place, min(place + 3, len(tokens))) if tokens[at].kind == "("), 0)
        closed = next((at for at in range(opened, min(opened + 8, len(tokens))) if tokens[at].kind == ")"), 0)
        inside = tokens[opened + 1 : closed]
        if not opened or not closed or opened == place or any(token.flags & COMMA for token in inside):
            return _Described()
        parted = tokens[place].flags & (COMMA | SEMI) or tokens[place].kind == "and"
        if (names and not parted) or any(token.flags & LINE for token in tokens[place + 1 : closed]):
            return _Described()
        name = " ".join(token.text for token in tokens[place:opened] if token.kind != "and")
        meaning = " ".join(token.text for token in inside)
        names.append([name, meaning] if any(map(str.isalpha, meaning)) else [name])
        place = closed + 1
    lettered = len(names) == width > 1 and any(map(str.isalpha, "".join(name[0] for name in names)))
    return _Described(names, begin, place) if lettered else _Described()


def _above_columns(tokens: list[Token], width: int) -> dict[str, int]:
    """`Child   Teen   Adult` above a row `Cast on   72   80   88`: the names above the columns."""
    place = 1
    while place < len(tokens):
        if not tokens[place].flags & TAB:
            place += 1
            continue
        begin = place if tokens[place].flags & LINE else place - 1
        while begin and not tokens[begin].flags & LINE and place - begin < MOST_OF_HEAD:
            begin -= 1
        cells: list[list[str]] = []
        stop = begin
        while stop < len(tokens) - 1 and (stop == begin or not tokens[stop].flags & LINE):
            if stop == begin or tokens[stop].flags & TAB:
                cells.append([])
            cells[-1].append(tokens[stop].text if tokens[stop].kind in _NAMING else "")
            stop += 1
        names = [" ".join(cell) for cell in cells[-width:]]
        if (
            width <= len(cells) <= width + 1
            and all(map(_is_name, names))
            and _has_columns(tokens, stop, width)
        ):
            return {name: column for column, name in enumerate(names)}
        place = max(stop, place + 1)
    return {}


def _has_columns(tokens: list[Token], begin: int, width: int) -> bool:
    """Whether one of the next lines has a number in the column of every size."""
    columns = 0
    for token in tokens[begin : begin + MOST_IN_ROWS]:
        columns = columns if not token.flags & LINE else 0
        columns += bool(token.flags & TAB and token.kind == "number")
        if columns == width or (
            token.number is not None and token.flags & TAB and len(token.number.values) == width
        ):
            return True
    return False


def _is_name(words: str) -> bool:
    """Whether a cell may have the name of a size."""
    return bool(words) and all(map(str.isalpha, words.split(" ")))


MOST_IN_ROWS: Final = 24
"""Words of the rows below the names of sizes, one of which has a number for each."""


def _in_brackets(tokens: list[Token], width: int) -> dict[str, int]:
    """`Instructions are for Daughter's cap. The figures for Mother's cap follow in brackets`: two sizes by name."""
    if width != 2:
        return {}
    for place, token in enumerate(tokens):
        if token.text not in _BRACKETS:
            continue
        begin = max(0, place - MOST_BEFORE_BRACKETS)
        fors = [at for at in range(begin, place) if tokens[at].kind == "for"]
        if len(fors) < 2 or not any(token.text in _INSTRUCTIONS for token in tokens[begin : fors[-2]]):
            continue
        made: dict[str, int] = {}
        for column, at in enumerate(fors[-2:]):
            stop = at + 1
            while stop < place and tokens[stop].kind in _NAMING and stop < at + 3:
                if stop > at + 1 and tokens[stop].flags & (STOP | COMMA | SEMI):
                    break
                stop += 1
            words = [token.text for token in tokens[at + 1 : stop]]
            if not words:
                return {}
            for name in (" ".join(words), words[0], words[0].removesuffix("'s")):
                made.setdefault(name, column)
        return made if set(made.values()) == {0, 1} else {}
    return {}


def _before_size(tokens: list[Token], width: int) -> dict[str, int]:
    """`Pupil size (P) and staff size (S)`: sizes that are told one after the other before the word for a size."""
    made: dict[str, int] = {}
    last, column = -MOST_BETWEEN_SIZES, -1
    for place in range(1, len(tokens) - 1):
        name = tokens[place - 1]
        if tokens[place].kind != "size" or tokens[place].flags & ~SPACE or name.kind not in _NAMING:
            continue
        if place - last > MOST_BETWEEN_SIZES or name.text in made:
            made, column = {}, -1
        last, column = place, column + 1
        made[name.text] = column
        short = tokens[place + 2] if place + 3 < len(tokens) and tokens[place + 1].kind == "(" else None
        if short is not None and tokens[place + 3].kind == ")" and short.text.isalpha():
            made.setdefault(short.text, column)
        if column + 1 == width:
            return made
    return {}


def _casting_on(tokens: list[Token], width: int) -> dict[str, int]:
    """`Size A: cast on 100. Size B: cast on 110.`: sizes that cast on one after the other; empty where they do not."""
    made: dict[str, int] = {}
    for place in range(len(tokens)):
        if tokens[place].kind != "cast_on":
            continue
        if not made and (listed := _listed_behind_cast_on(tokens, place + 1, width)):
            return {name: column for column, name in enumerate(listed)}
        if place < FEWEST_BEFORE or not tokens[place].flags & COLON:
            continue
        name, size = tokens[place - 1], tokens[place - 2]
        if size.kind == "size" and name.text.isalpha() and not name.flags & ~SPACE:
            made.setdefault(name.text, len(made))
    return made if len(made) == width else {}


FEWEST_BEFORE: Final = 2
"""Words of `Size A`."""


def _listed_behind_cast_on(tokens: list[Token], begin: int, width: int) -> list[str]:
    """The names in `Cast on: Robin 80, Wren 88` or `Cast on 80 for the Fern, 88 for the Moss`; empty for others."""
    names: list[str] = []
    words = [token for token in tokens[begin : begin + MOST_TOKENS] if token.kind not in _IN_CAST_ON]
    behind = bool(words) and words[0].kind == "number"
    for first, second in zip(words[::2], words[1::2], strict=False):
        number, name = (first, second) if behind else (second, first)
        parted = bool(names) <= bool(first.flags & COMMA)
        if number.kind != "number" or name.kind != "word" or second.flags & COMMA or not parted:
            break
        names.append(name.text)
        if len(names) == width:
            break
    return names if len(set(names)) == width and all(map(str.isalpha, names)) else []


_IN_CAST_ON: Final = frozenset(("stitch_noun", "for", "", "and", "size", "(", ")"))
"""Words between the names and the numbers of sizes that cast on."""


def _without_comparisons(names: dict[str, int]) -> dict[str, int]:
    """The names that their order in print gives to sizes: `Larger size only`, told first, is still the larger."""
    return {} if names.keys() & (_NAMED_BY_SIZE.keys() | _LARGER | _SMALLER) else names


MOST_BETWEEN_SIZES: Final = 7
"""Words from one size to the next of those told one after the other."""


def _behind_brackets(tokens: list[Token], width: int) -> dict[str, int]:
    """The second of two sizes, where it is told that the figures in brackets are its."""
    places = range(len(tokens) if width == 2 else 0)
    names = (_name_behind(tokens, place) for place in places if tokens[place].text in _BRACKETS)
    return dict.fromkeys(next(filter(None, names), ()), 1)


def _first_and_in_brackets(tokens: list[Token], width: int) -> dict[str, int]:
    """`Mine is first, his is in brackets`, `Mum's first, with Dad's in brackets`: two sizes by name."""
    for place in range(FEWEST_BEFORE, len(tokens) if width == TWO_SIZES else 0):
        if tokens[place].text not in _BRACKETS or tokens[place - 1].text != "in":
            continue
        behind = _name_before(tokens, place - 1)
        limit = max(0, place - MOST_BEFORE_BRACKETS // 2)
        first = next((at for at in range(place - 1, limit, -1) if tokens[at].text == "first"), 0)
        before = _name_before(tokens, first) if first else ""
        if behind and before and behind != before:
            return {before: 0, before.removesuffix("'s"): 0, behind: 1, behind.removesuffix("'s"): 1}
    return {}


def _name_before(tokens: list[Token], stop: int) -> str:
    """The name of a size before `is first` or `in brackets`; empty where none stands there."""
    at = stop - 1
    while at > 0 and (tokens[at].text in _BEFORE_PLACE or tokens[at].kind == "size"):
        at -= 1
    name = tokens[at]
    return name.text if name.text.replace("'", "").isalpha() and name.text not in _INSTRUCTIONS else ""


TWO_SIZES: Final = 2
_BEFORE_PLACE: Final = frozenset(("is", "are", "comes", "come", "given", "follow", "follows", "shown"))
"""Words between the name of a size and the place of its figures."""


def _name_behind(tokens: list[Token], place: int) -> tuple[str, ...]:
    """The names of the second size, in `The figures in square brackets are for the Man's cap`; empty where none is."""
    instructs = any(token.text in _INSTRUCTIONS for token in tokens[max(0, place - 4) : place])
    at = next((at for at in range(place + 1, min(place + 4, len(tokens))) if tokens[at].kind == "for"), 0)
    at += at > 0 and at + 1 < len(tokens) and tokens[at + 1].text == "the"
    name = tokens[at + 1] if 0 < at < len(tokens) - 1 else None
    parted = any(token.flags & (STOP | COMMA | SEMI | LINE) for token in tokens[place + 1 : at + 2])
    if not instructs or name is None or parted or name.kind not in _NAMING:
        return ()
    return (name.text, name.text.removesuffix("'s"))


_BRACKETS: Final = ("brackets", "bracket", "parentheses", "parenthesis")
_INSTRUCTIONS: Final = ("instructions", "directions", "figures", "numbers", "instruction", "pattern")
MOST_BEFORE_BRACKETS: Final = 24
"""Words of a sentence that says for which size the numbers in brackets are."""
_YOUNG: Final = ("baby", "toddler", "child", "kid", "children", "children's")
_GROWN: Final = ("adult", "adults", "adult's")
_BY_AGE: Final = dict.fromkeys(_YOUNG, 0) | dict.fromkeys(_GROWN, 1)
"""Of two sizes, the child's and the adult's."""


BY_NUMBER: Final = "size "
"""What the name of a size begins with that is called by a number: `Sizes 2 (4, 6) years`."""


def _numbers_sizes(token: Token, width: int) -> bool:
    """Whether sizes are called by rising numbers here that are not those of their places."""
    numbers = [number or 0 for number in token.number.values] if token.number is not None else []
    rises = all(first < second for first, second in pairwise(numbers))
    return len(numbers) == width and rises and numbers != list(range(1, width + 1))


def _add_ages(names: dict[str, int], tokens: list[Token], place: int, width: int) -> None:
    """Add the ages by which sizes are called: `3 (6, 12) months`."""
    ages = tokens[place - 1].number if place else None
    if ages is not None and len(ages.values) == width:
        for column, age in enumerate(ages.values):
            names.setdefault(f"{age} {tokens[place].text}", column)


_LAST: Final = 99
_NAMED_BY_SIZE: Final = {
    "small": 0,
    "smallest": 0,
    "large": _LAST,
    "largest": _LAST,
    "little": 0,
    "big": _LAST,
    "biggest": _LAST,
}
"""Names of sizes in every text, from the smallest head up."""
_NAMED_BY_PLACE: Final = {
    "1st": 0,
    "first": 0,
    "2nd": 1,
    "second": 1,
    "3rd": 2,
    "third": 2,
    "4th": 3,
    "fourth": 3,
}
"""Names of sizes in every text by their place in print."""
_NAMED_BY_WIDTH: Final[Mapping[int, Mapping[str, int]]] = {
    2: {
        "smaller": 0,
        "larger": 1,
        "bigger": 1,
    },
    3: {"medium": 1, "middle": 1},
}
"""Names of sizes in texts for so many sizes."""


_BY_LETTER: Final[Mapping[int, tuple[str, ...]]] = {
    2: ("s", "l"),
    3: ("s", "m", "l"),
    4: ("s", "m", "l", "xl"),
    5: ("xs", "s", "m", "l", "xl"),
}
"""Letters of sizes, from the smallest on (common practice)."""


def with_letters(names: Mapping[str, int]) -> Mapping[str, int]:
    """The names with the letters of sizes, behind the word `size`, where the text gives them no other meaning."""
    width = _width(names)
    letters = dict(zip(_BY_LETTER.get(width, ()), range(width), strict=False)) if names else {}
    return {**_in_print(letters, width, falls=_falls(names)), **names}


def _width(names: Mapping[str, int]) -> int:
    """How many sizes these are the names of."""
    return max(names.get("largest", 0), names.get("smallest", 0)) + 1


def _falls(names: Mapping[str, int]) -> bool:
    """Whether the sizes are printed from the largest down."""
    return names.get("largest", 0) < names.get("smallest", 0)


def _by_ages(tokens: list[Token], width: int) -> Mapping[str, int]:
    """The columns of the sizes by their first and last ages; empty without such.

    `Sizes 8 - 9 (10 - 11) years`, `Decreases - 6-12 months (2-4 years) 6-8 years`.
    """
    begins = (
        place
        for place, (before, token) in enumerate(pairwise([tokens[-1], *tokens]))
        if before.kind == "size"
        or before.text in _AGED
        or (token.kind == "range" and before.kind not in _OF_AGES)
    )
    pairs = next(filter(None, (_pairs_of_ages(tokens, begin, width) for begin in begins)), [])
    return {f"{BY_NUMBER}{ages}": column for column, ages in enumerate(pairs or _pairs_apart(tokens, width))}


def _pairs_apart(tokens: list[Token], width: int) -> list[str]:
    """The two numbers of each size, as `50-56`.

    So the sizes stand apart, `Size 50/56: ... Size 62/68: ...`, or in a list, `Sizes 50/56 (62/68)`.
    """
    headed, others = set[tuple[int, ...]](), set[tuple[int, ...]]()
    listed = False
    for before, token, behind in zip(tokens, tokens[1:], tokens[2:], strict=False):
        listed = before.kind == "size" or (listed and before.kind in _OF_PAIRS)
        if not listed or token.number is None or len(token.number.values) != len("ab"):
            continue
        pair = tuple(number or 0 for number in token.number.values)
        heads = before.kind == "size" and (behind.flags & COLON or behind.kind == "only")
        (headed if heads else others).add(pair)
        if behind.kind in _OF_TOOLS:
            return []
    pairs = sorted(headed)
    if len(pairs) != width and headed:
        pairs = sorted(headed | others)
        numbers = [number for pair in pairs for number in pair]
        if len({second - first for first, second in pairs}) != 1 or sorted(set(numbers)) != numbers:
            return []
    return ["-".join(map(str, pair)) for pair in pairs] if len(pairs) == width else []


_OF_PAIRS: Final = frozenset(("number", "(", ")", "and"))
"""Kinds of words in a list of sizes that have two numbers each."""
_OF_TOOLS: Final = frozenset(("needle", "gear", "unit"))


def _pairs_of_ages(tokens: list[Token], begin: int, width: int) -> list[str]:
    """The ages from a place on, two for each size, as `8-9`; empty where other numbers stand there."""
    stop = begin
    while tokens[stop].kind in _OF_AGES or tokens[stop].text in AGES:
        signs = LINE | COLON | STOP | SEMI | COMMA * (tokens[stop].kind != "range")
        if stop > begin and tokens[stop].flags & signs:
            break
        stop += 1
    ages = re.findall("[0-9]+", " ".join(token.text for token in tokens[begin:stop]))
    dashed = any(token.kind == "range" or token.flags & DASH for token in tokens[begin:stop])
    words = tokens[max(begin - 1, 0) : stop]
    aged = any(token.kind == "size" or token.text in _AGED | AGES for token in words)
    if not dashed or not aged or len(ages) != 2 * width:
        return []
    return [f"{first}-{last}" for first, last in zip(ages[::2], ages[1::2], strict=True)]


_OF_AGES: Final = frozenset(("number", "range", "(", ")"))
_AGED: Final = frozenset(("age", "ages", "aged", "fit"))
"""What stands before the ages of the sizes, where the word for a size does not."""
AGES: Final = frozenset(("months", "month", "mths", "years", "yrs"))


def _in_order(tokens: list[Token], place: int) -> bool:
    """Whether the order of the sizes is told from here: `in this order: child, lady, gentleman`."""
    return bool(place) and bool(tokens[place].flags & COLON) and tokens[place - 1].text == "order"


def _slashed(tokens: list[Token], place: int, width: int) -> list[str]:
    """The words of `Toddler/Kid/Adult`, whose second stands here, if they are as many as there are sizes; else none."""
    stop = place
    while stop < len(tokens) and tokens[stop].flags & SLASH and tokens[stop].kind in _NAMING:
        stop += 1
    words = tokens[place - 1 : stop]
    single = place > 0 and not tokens[place - 1].flags & SLASH and tokens[place - 1].kind in _NAMING
    only = stop < len(tokens) and tokens[stop].kind == "only"  # Size M/L only
    return [word.text for word in words] if single and len(words) == width and not only else []


_NAMING: Final = frozenset(("word", "make"))
"""Kinds of words by which a size may be called."""


def _lists_names(tokens: list[Token], place: int) -> bool:
    """Whether a line begins here that names sizes and no more: `Toddler / Kid / Grown-up`."""
    if not (tokens[place].flags & LINE or place == 0):
        return False
    for at in range(place, min(place + MOST_LISTED, len(tokens))):
        token = tokens[at]
        if at > place and token.flags & LINE:
            return any(token.flags & SLASH for token in tokens[place + 1 : at])
        if at > place and token.flags & STOP and not token.flags & COLON:
            return any(token.flags & SLASH for token in tokens[place + 1 : at])  # Regular / Big Head. Find
        if token.kind not in _IN_NAMES or token.flags & (COLON | STOP) & ~(STOP * (at == place)):
            return False
    return False


MOST_LISTED: Final = 14
"""Words of a line that names sizes and no more."""
_IN_NAMES: Final = frozenset(("word", "make", "and", "", "up", "even", "plain"))
"""Kinds of the words in such a line."""


def _parts(tokens: list[Token], begin: int, width: int = 0) -> list[list[str]]:
    """The words between commas up to the bracket; or with a `width`, that of so many sizes, to the end of the line.

    So many names end before a bracket and before numbers, too: `(sizes M and L, 96 and 104 sts)`. They are empty
    where it is no list of names.
    """
    parts: list[list[str]] = [[]]
    for place in range(begin, min(begin + MOST_TOKENS, len(tokens))):
        token = tokens[place]
        if token.kind == ")" and not width:
            return parts if all(parts) else []
        ends = token.flags & (LINE | STOP | SEMI) and place > begin
        whole = token.kind in ("(", ")") or (token.flags & COMMA and token.number is not None)
        if width and (ends or token.kind == "end" or (whole and len(parts) == width)):
            return parts if all(parts) else []
        if token.kind in _NO_NAMES or (token.kind == "(" and not width):
            return []
        parted = token.flags & (COMMA | SEMI | SLASH) or token.kind in ("(", ")") or token.text == "or"
        if (parted or (token.kind == "and" and width)) and parts[-1]:
            parts.append([])
        if not (token.kind in ("(", ")") or (token.kind == "and" and width) or token.text == "or"):
            parts[-1].append(token.text)
    return []


_NO_NAMES: Final = frozenset(
    (
        "stitch",
        "stitch_noun",
        "knit",
        "purl",
        "stars",
        "unit",
        "decimal",
        "size",
        "only",
        "round",
        "everyround",
        "decrease",
        "increase",
    )
)
"""Kinds of words that are in no list of names."""


def _is_short_form(tokens: list[Token], place: int, parts: list[list[str]]) -> bool:
    """Whether a bracket only gives the letters by which a word goes from here: `Ground (G)`, `main colour (MC)`."""
    if len(parts) != 1 or len(parts[0]) != 1 or not 0 < len(short := parts[0][0]) <= MOST_SHORT:
        return False
    words = tokens[max(0, place - len(short)) : place]
    initials = "".join(word.text[:1] for word in words)
    return initials == short and all(len(word.text) > 1 for word in words)


MOST_SHORT: Final = 3
"""Letters of a short form in a bracket behind its words."""


def _head(tokens: list[Token], place: int) -> list[str]:
    """What the first size may be called: the last one, two or three words before the bracket."""
    words: list[str] = []
    heads: list[str] = []
    for back in range(place - 1, max(place - 4, -1), -1):
        token = tokens[back]
        if token.kind in (")", "(") or token.kind in _NO_NAMES:
            break  # on every round (the plain ones too)
        words.insert(0, token.text)
        heads.append(" ".join(words))
        hyphen = token.flags & DASH and tokens[back - 1].end + 1 == token.start  # micro-preemie
        if token.flags & (LINE | COLON | STOP | COMMA | DASH | SEMI) and not hyphen:
            break
    return heads


def _add(names: dict[str, int], heads: list[str], others: list[str]) -> None:
    if not heads or not any(letter.isalpha() for name in others for letter in name):
        return
    columns = list(enumerate([heads, *([name] for name in others)]))
    for column, spellings in (*columns[1:], columns[0]):  # `micro-preemie (preemie, newborn)`
        for name in spellings:
            if name.isdigit() or name in _NO_NAME:
                continue  # a size called by its number has its own place in the list
            names.setdefault(name, column)
            if name in _LETTERS:
                names.setdefault(_LETTERS[name], column)


_NO_NAME: Final = frozenset(("size", "sizes", "the size", "the sizes"))
"""What no size is called."""


def columns_of(
    tokens: list[Token], begin: int, stop: int, names: Mapping[str, int]
) -> tuple[int, ...] | None:
    """The columns of the sizes that these words name; None where they name anything else."""
    width = _width(names)
    words = [token.text for token in tokens[begin:stop]]
    without = next((place for place, word in enumerate(words) if word in ("but", "except")), 0)
    if without:
        left_out = columns_of(tokens, begin + without + 1, stop, {**by_place(width), **names})
        if left_out is None or not names_all(tokens, begin, begin + without):
            return None
        return tuple(column for column in range(width) if column not in left_out) or None
    everybody = names_all(tokens, begin, stop)
    if spread := tuple(range(width)) if everybody else _from_to(tokens, begin, stop, names):
        return spread
    columns: list[int] = []
    parts = _with_last_noun(_named_parts(tokens, begin, stop, names))
    by_number = any(token.kind in ("size", "only") for token in tokens[begin:stop])
    parts = [apart for part in parts for apart in _apart(part, names)]
    for part in parts:
        aged = bool(part) and part[-1] in AGES
        number = _spelled(" ".join(part[:-1] if aged else part))
        if (by_number or aged) and (column := names.get(f"{BY_NUMBER}{number}")) is not None:
            columns.append(column)
            continue
        if columns and part in _OTHERS:
            columns.extend(column for column in range(width) if column not in columns)
            continue
        named = _columns_of_part(part, names, width)
        if not named:
            return None
        columns.extend(named)
    return tuple(columns) or None


def _with_last_noun(parts: list[list[str]]) -> list[list[str]]:
    """The names, each with the word behind the last number: `6 and 12 months`, `100 and 110 sts`."""
    noun = parts[-1][-1] if parts[-1] else ""
    if noun not in AGES and noun not in _NOUNS:
        return parts
    return [part if len(part) != 1 else [*part, noun] for part in parts]


def _apart(part: list[str], names: Mapping[str, int]) -> list[list[str]]:
    """The sizes of one list, where the sizes are called by its numbers: `72/80 only`, `72 (80) only`."""
    numbers = part[:-1] if part and part[-1] in _NOUNS else part
    listed = len(numbers) == 1 and not numbers[0].strip(_OF_LISTS)
    listed = listed and names.keys().isdisjoint((numbers[0], f"{BY_NUMBER}{_spelled(numbers[0])}"))
    apart = re.findall("[0-9]+", numbers[0]) if listed else []
    called = len(apart) > 1 and all(f"{BY_NUMBER}{name}" in names for name in apart)
    return [[name] for name in apart] if called else [part]


_OF_LISTS: Final = "0123456789 /(,)"
"""What the numbers of several sizes are printed with."""


def _spelled(number: str) -> str:
    """The numbers of a size as its name has them: `8 - 9`, `8–9`, `8/9` and `8 (9)` are `8-9`."""
    return "-".join(re.findall("[^ –/()-]+", number))


def by_place(width: int) -> Mapping[str, int]:
    """The sizes by the numbers of their places: `All sizes except size 1`."""
    return {f"{BY_NUMBER}{column + 1}": column for column in range(width)}


def _from_to(tokens: list[Token], begin: int, stop: int, names: Mapping[str, int]) -> tuple[int, ...]:
    """The columns from one size up to another: `M-XL only`, `Sizes M to XL`; empty where no such two are named."""
    for at in range(begin + 1, stop):
        between = tokens[at].text in _UP_TO
        if not between and not (tokens[at].flags & DASH and not tokens[at].flags & LINE):
            continue
        low = columns_of(tokens, begin, at, names)
        high = columns_of(tokens, at + between, stop, names) if at + between < stop else None
        if low is None or high is None or len(low) != 1 or len(high) != 1 or low >= high:
            return ()
        return tuple(range(low[0], high[0] + 1))
    return ()


_UP_TO: Final = frozenset(("to", "through", "thru", "up to"))
"""Words between the first and the last of several sizes."""


def sizes_that_begin(
    tokens: list[Token], begin: int, stop: int, names: Mapping[str, int]
) -> tuple[tuple[int, ...], int]:
    """The columns of the sizes of `Woman begins here`, `Small size: start here`, and where that ends; none without.

    Work may follow in the same line: `Woman begins here, man goes on: *k8, k2tog*`.
    """
    near = range(begin, min(stop, begin + MOST_OF_BEGINNING))
    here = next((at for at in near if tokens[at].text in _HERE), stop)
    works = next((at for at in range(here + 1, stop) if tokens[at].kind in _WORKS), stop)
    parted = [at for at in range(here + 1, min(works + 1, stop)) if tokens[at].flags & _PARTED]
    end = parted[0] if parted and (works < stop or parted[0] == here + 1) else stop
    if here == stop or not any(token.text in _BEGINS for token in tokens[begin:end]):
        return (), begin
    named = [token for token in tokens[begin:end] if token.text not in _BEGINS | _OF_BEGINNING]
    columns = columns_of(named, 0, len(named), names) or () if named else ()
    if works == stop:
        return columns, stop  # Size A joins in here, and everyone does the rest
    return columns, next((at for at in parted if tokens[at].flags & COLON), end)


_PARTED: Final = COLON | COMMA | STOP | DASH
_WORKS: Final = frozenset(
    ("knit", "purl", "stitch", "stars", "(", "number", "round", "decrease", "repeat", "together")
)
"""Kinds of words that work, behind which a line is more than a heading."""
MOST_OF_BEGINNING: Final = 12
"""Words up to `here` of a line that says that a size begins there."""
_BEGINS: Final = frozenset(("begin", "begins", "start", "starts", "join", "joins", "join in", "joins in"))
_HERE: Final = frozenset(("here", "now", "in here", "from here"))
_OF_BEGINNING: Final = _HERE | frozenset(
    (
        "for",
        "in",
        "from",
        "at",
        "this",
        "point",
        "you",
        "if",
        "you're",
        "making",
        "knitting",
        "the",
        "your",
        "should",
        "can",
    )
)
"""Words of such a line beside the name of the size."""


def headed_sizes(tokens: list[Token], begin: int, stop: int, names: Mapping[str, int]) -> tuple[int, ...]:
    """The columns of the sizes of a heading that names a part beside them; empty where it names none.

    `Crown for size Small`, `Decreases, large size`, `Large crown`; `Size A` alone is one as well.
    """
    words = [token for token in tokens[begin:stop] if token.text not in _OF_PARTS]
    sized = any(token.kind == "size" for token in words)
    named = [
        token
        for token in words
        if token.kind not in _AROUND_NAMES or (len(token.text) == 1 and token.text in names)
    ]
    spoken = any(token.text in _IN_SENTENCES for token in words)
    if spoken or not named or (len(words) == stop - begin and not (sized and len(named) == 1)):
        return ()
    columns = columns_of(words, 0, len(words), with_letters(names) if sized else names)
    alone = len(words) == stop - begin
    return () if columns is None or (alone and len(columns) == _width(names)) else columns


def begin_of_count(tokens: list[Token], begin: int, stop: int) -> int:
    """Where the count behind the size stands that heads rounds, `Size child – 70 sts`; the end where none does.

    A list of such lines tells what each size casts on, and heads none.
    """
    count = stop - LONGEST_COUNT
    if count <= begin or tokens[begin].kind != "size" or tokens[stop].kind != "round":
        return stop
    above = next((at for at in range(begin - 1, 0, -1) if tokens[at].flags & LINE), 0)
    if tokens[above].kind == "size" and tokens[begin - 1].kind == "stitch_noun":
        return stop
    number, noun = tokens[count:stop]
    counted = number.number is not None and noun.kind == "stitch_noun" and bool(number.flags & DASH)
    return count if counted else stop


LONGEST_COUNT: Final = 2
"""Words of a count: `70 sts`."""
_IN_SENTENCES: Final = frozenset(("in", "with", "to", "from", "until", "as", "is", "are", "at", "on", "of"))
"""Words that are in no heading: `Shape the crown in rust`."""
_AROUND_NAMES: Final = frozenset(("size", "only", "for", "", "(", ")"))
_OF_PARTS: Final = frozenset(
    ("crown", "crowns", "top", "brim", "body", "ribbing", "shape", "shaping", "shapings", "dec", "decs", "decrease",
     "decreases", "decreasing", "decreasings", "instructions")
)  # fmt: skip
"""Words of a heading that name a part of the hat."""


def names_all(tokens: list[Token], begin: int, stop: int) -> bool:
    """Whether these words are for all sizes: `All`, `Both sizes`, `Everybody`, `All three sizes`."""
    bracket = next((at for at in range(begin + 1, stop) if tokens[at].kind == "("), stop)
    if (
        bracket + 1 < stop
        and tokens[stop - 1].kind == ")"
        and any(token.number for token in tokens[bracket:stop])
    ):
        stop = bracket  # Everybody (you all have 48 sts now)
    all_of = [token for token in tokens[begin:stop] if token.kind not in ("size", "for", "", "(", ")")]
    if len(all_of) == 2 and all_of[1].text in _CALLED:
        all_of.pop()  # Both caps, All hats
    counted = len(all_of) == 2 and all_of[1].kind == "number" and all_of[0].text == "all"
    return bool(all_of) and all_of[0].text in _ALL and (len(all_of) == 1 or counted)


def _named_parts(tokens: list[Token], begin: int, stop: int, names: Mapping[str, int]) -> list[list[str]]:
    """The names between commas, `and` and slashes, without the words around them."""
    parts: list[list[str]] = [[]]
    for token in tokens[begin:stop]:
        parted = token.kind in ("and", "(") or token.text == "or" or token.flags & (COMMA | SLASH)
        pair = f"{parts[-1][-1]}/{token.text}" if parts[-1] and token.flags & SLASH else ""
        if pair in names:
            parts[-1][-1] = pair  # L/XL is one size
            continue
        if parted and parts[-1]:
            parts.append([])
        word = token.text if token.text in names else token.text.removesuffix("'s")
        measured = token.kind == "unit" and len(parts[-1]) == 1 and not parts[-1][0].strip(_OF_LISTS)
        passed = measured or token.kind in _PASSED or word in _PASSED_TEXTS or token.kind in ("and", "(", ")")
        if not passed or (word in names and token.kind not in ("and", "for")):
            parts[-1].append(word)
    return parts if parts[-1] or len(parts) == 1 else parts[:-1]


def _columns_of_part(part: list[str], names: Mapping[str, int], width: int) -> tuple[int, ...]:
    """The columns of one name, of several without a sign between, or of `two larger`; empty where it is none."""
    column = names.get(" ".join(part))
    if column is not None:
        return (column,)
    number = _NUMBERS.get(part[0], 0) if len(part) == 2 and part[1] in _LARGER | _SMALLER else 0
    if 1 < number < width:
        last = (part[1] in _LARGER) != _falls(names)
        return tuple(range(width - number, width) if last else range(number))
    number = _NUMBERS.get(part[1], 0) if len(part) == 2 and part[0] in ("first", "last") else 0
    if 1 < number < width:
        return tuple(range(width - number, width) if part[0] == "last" else range(number))
    return tuple(names[word] for word in part) if part and all(word in names for word in part) else ()


_NUMBERS: Final = {"two": 2, "2": 2, "both": 2, "three": 3, "3": 3, "four": 4, "4": 4}
