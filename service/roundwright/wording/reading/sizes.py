"""The names of sizes: where a text lists them, and the lines that are for some of them only."""

from collections.abc import Mapping
from typing import Final

from roundwright.wording.reading.tokens import COLON, COMMA, DASH, LINE, SEMI, STOP, Token

NO_NAMES: Final[Mapping[str, int]] = {}
MOST_TOKENS: Final = 40
"""Words of a list of sizes in brackets."""
_LETTERS: Final = {"small": "s", "medium": "m", "large": "l", "s": "small", "m": "medium", "l": "large"}
_PASSED: Final = frozenset(("size", "only", "for", ""))


def width_of(tokens: list[Token]) -> int:
    """How many sizes the cast-on counts."""
    for place, token in enumerate(tokens):
        if token.kind == "cast_on":
            for later in tokens[place + 1 : place + 8]:
                if later.number is not None and len(later.number.values) > 1:
                    return len(later.number.values)
    return 1


def names_of(tokens: list[Token], width: int) -> Mapping[str, int]:
    """The columns of the sizes by their names: `Child (Teen, Adult)`, `S/M/L`; empty where there is one size."""
    if width < 2:
        return NO_NAMES
    names: dict[str, int] = {}
    for place, token in enumerate(tokens):
        if token.kind == "(" and place:
            parts = _parts(tokens, place + 1)
            if len(parts) == width - 1:
                _add(names, _head(tokens, place), [" ".join(part) for part in parts])
        elif token.kind == "size":
            parts = _parts(tokens, place + 1, bracket=False)
            if len(parts) == width:
                _add(names, [" ".join(parts[0])], [" ".join(part) for part in parts[1:]])
    for name, column in _NAMED_BY_PLACE.items():
        names.setdefault(name, min(column, width - 1))
    for name, column in _NAMED_BY_WIDTH.get(width, {}).items():
        names.setdefault(name, column)
    return names


_LAST: Final = 99
_NAMED_BY_PLACE: Final = {
    "small": 0,
    "smallest": 0,
    "large": _LAST,
    "largest": _LAST,
    "1st": 0,
    "first": 0,
    "2nd": 1,
    "second": 1,
    "3rd": 2,
    "third": 2,
    "4th": 3,
    "fourth": 3,
}
"""Names of sizes in every text, with their columns."""
_NAMED_BY_WIDTH: Final[Mapping[int, Mapping[str, int]]] = {2: {"smaller": 0, "larger": 1}, 3: {"medium": 1}}
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
    letters = _BY_LETTER.get(names.get("largest", 0) + 1, ()) if names else ()
    return {letter: column for column, letter in enumerate(letters)} | dict(names)


def _parts(tokens: list[Token], begin: int, *, bracket: bool = True) -> list[list[str]]:
    """The words between commas up to the bracket or the end of the line; empty where it is no list of names."""
    parts: list[list[str]] = [[]]
    for place in range(begin, min(begin + MOST_TOKENS, len(tokens))):
        token = tokens[place]
        if token.kind == ")" and bracket:
            return parts if all(parts) else []
        if not bracket and (token.flags & (LINE | STOP | SEMI) or token.kind in ("(", "end")):
            return parts if all(parts) else []
        if token.kind in ("stitch", "knit", "purl", "stars", "(", "unit", "decimal"):
            return []
        if token.flags & (COMMA | SEMI) and parts[-1]:
            parts.append([])
        if token.kind == "and" and not bracket and parts[-1]:
            parts.append([])
            continue
        parts[-1].append(token.text)
    return []


def _head(tokens: list[Token], place: int) -> list[str]:
    """What the first size may be called: the last one, two or three words before the bracket."""
    words: list[str] = []
    heads: list[str] = []
    for back in range(place - 1, max(place - 4, -1), -1):
        token = tokens[back]
        if token.kind in (")", "("):
            break
        words.insert(0, token.text)
        heads.append(" ".join(words))
        if token.flags & (LINE | COLON | STOP | COMMA | DASH | SEMI):
            break
    return heads


def _add(names: dict[str, int], heads: list[str], others: list[str]) -> None:
    if not heads or not any(letter.isalpha() for name in others for letter in name):
        return
    for column, spellings in enumerate([heads, *([name] for name in others)]):
        for name in spellings:
            names.setdefault(name, column)
            if name in _LETTERS:
                names.setdefault(_LETTERS[name], column)


def columns_of(
    tokens: list[Token], begin: int, stop: int, names: Mapping[str, int]
) -> tuple[int, ...] | None:
    """The columns of the sizes that these words name; None where they name anything else."""
    parts: list[list[str]] = [[]]
    for place in range(begin, stop):
        token = tokens[place]
        if (token.kind in ("and", "(") or token.text == "or" or token.flags & COMMA) and parts[-1]:
            parts.append([])
        if token.kind in _PASSED and token.text not in names and token.text != "m":
            continue
        if token.kind == "and":
            continue
        if token.kind in ("(", ")"):
            continue
        parts[-1].append(token.text.removesuffix("'s"))
    columns: list[int] = []
    for part in parts:
        name = " ".join(part)
        column = names.get(name)
        if column is None:
            return None
        columns.append(column)
    return tuple(columns) or None
