"""Names of sizes in brackets behind the number of each: `Cast on 72 (Child) 80 (Small Adult) sts`."""

from typing import Final

from roundwright.wording.reading.tokens import DASH, SPACE, Token

MOST_OF_NAME: Final = 4
"""Words of the name of a size in a bracket."""
_NAMING: Final = frozenset(("word", "make", "up", "measure", "number", "range"))
"""Kinds of words in such a name: `grown-up`, `tall teen`, `3-6 months`."""


def name_in_bracket(tokens: list[Token], place: int) -> tuple[str, int]:
    """The name of a size in the bracket at a place, and where that ends; none where it has others."""
    words = tokens[place + 1 : place + 2 + MOST_OF_NAME]
    count = next((at for at, token in enumerate(words) if token.kind == ")"), 0)
    name = words[: count - (count > 1 and words[count - 1].kind == "size")]
    parted = any(token.flags & ~(SPACE | DASH) for token in (tokens[place], *words[: count + 1]))
    named = all(token.kind in _NAMING for token in name) and any(
        token.kind in ("word", "make") for token in name
    )
    if tokens[place].kind != "(" or parted or not named:
        return "", place
    return " ".join(token.text.removesuffix("'s") for token in name), place + count + 2


def names_of_cast_on(tokens: list[Token], width: int) -> dict[str, int]:
    """The columns of the sizes by the names behind the numbers that are cast on: `72 sts (Child), 80 sts (Teen)`."""
    begins = (place + 1 for place, token in enumerate(tokens) if token.kind == "cast_on")
    lists = (_names_behind_numbers(tokens, begin) for begin in begins)
    names = next((names for names in lists if len(set(names)) == len(names) == width), [])
    return {name: column for column, name in enumerate(names)}


def _names_behind_numbers(tokens: list[Token], begin: int) -> list[str]:
    """The names in brackets behind the numbers from a place on; empty where no such stand there."""
    names: list[str] = []
    place = begin
    while place + 2 < len(tokens) and tokens[place].kind == "number":
        name, stop = name_in_bracket(tokens, place + 1 + (tokens[place + 1].kind == "stitch_noun"))
        if not name:
            break
        names.append(name)
        place = stop + (tokens[stop].text in ("or", "and"))
    return names
