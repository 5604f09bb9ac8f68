"""Size lists: the values of all sizes on one line as patterns print them, `52 (56, 60, 68)`; one where all agree.

A language prints them in its own style: see `sizes.style` and `sizes.separator` in the catalogues.
"""

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Final, NamedTuple

from roundwright.language import Words, listed

_NUMBER: Final = re.compile(r"(\d+)")


class SharedLine(NamedTuple):
    """A line and the sizes it is for, as indexes from 0."""

    sizes: tuple[int, ...]
    text: str


class _SplitText(NamedTuple):
    """A text split at its numbers: there is one text more than there are numbers."""

    between: tuple[str, ...]
    numbers: tuple[str, ...]


def size_list(values: Iterable[object], words: Words) -> str:
    """The values of all sizes, one value where they agree, in the style of the language.

    `rest`: `52 (56, 60)`; `alternate`: `(52) 56 (60)`; `every_second`: `52 (56) 60`; `dashes`: `52 – 56 – 60`.
    """
    texts = [str(value) for value in values]
    if texts.count(texts[0]) == len(texts):
        return texts[0]
    match words.say("sizes.style"):
        case "alternate":
            return _bracketed(texts, 0)
        case "every_second":
            return _bracketed(texts, 1)
        case "dashes":
            return " – ".join(texts)
    first, *others = texts
    separator = words.say("sizes.separator")
    if any(separator.strip() in text for text in texts):  # a decimal comma, the stroke of a fraction
        separator = words.say("list.semicolon")
    return f"{first} ({separator.join(others)})"


def _bracketed(texts: Sequence[str], first: int) -> str:
    """The texts one after the other, every second in brackets from the index `first`."""
    return " ".join([f"({text})" if index % 2 == first else text for index, text in enumerate(texts)])


def plural_number(counts: Iterable[int]) -> int:
    """The number that chooses the plural form for the counts of all sizes: theirs where they agree."""
    numbers = list(counts)
    return numbers[0] if len(set(numbers)) == 1 else max(2, *numbers)


def counted(key: str, counts: Iterable[int], words: Words) -> str:
    """The counts of all sizes with what is counted: `52 (56) sts` for the key `sts`."""
    numbers = list(counts)
    return words.say_count(f"sizes.{key}", plural_number(numbers), counts=size_list(numbers, words))


def shared_lines(texts: Sequence[str | None], words: Words) -> list[SharedLine]:
    """The lines of all sizes, merged where they differ in their numbers alone, in the order of their first size.

    `texts` has one text a size, or None for a size that has no such line.
    """
    groups: dict[tuple[str, ...], list[int]] = {}
    for size, text in enumerate(texts):
        if text is not None:
            groups.setdefault(_split_at_numbers(text).between, []).append(size)
    return [
        SharedLine(
            tuple(sizes), _merged([text for size in sizes if (text := texts[size]) is not None], words)
        )
        for sizes in groups.values()
    ]


def sizes_note(sizes: Sequence[int], size_count: int, words: Words) -> str:
    """The note that a line is not for all sizes, such as ` (sizes 2 and 4 only)`; empty where it is for all."""
    if len(sizes) == size_count:
        return ""
    return words.say_count("sizes.only", len(sizes), sizes=size_numbers(sizes))


def size_numbers(sizes: Iterable[int]) -> str:
    """The numbers of sizes, given by their indexes: `1, 2 and 4`."""
    return listed([str(size + 1) for size in sizes])


def _merged(texts: Sequence[str], words: Words) -> str:
    """One line for texts that differ in their numbers alone: `k4, k2tog` and `k5, k2tog` make `k4 (5), k2tog`."""
    first = texts[0]
    if texts.count(first) == len(texts):
        return first
    numbers = zip(*[_split_at_numbers(text).numbers for text in texts], strict=True)
    start, *between = _split_at_numbers(first).between
    return start + "".join(
        [size_list(values, words) + after for values, after in zip(numbers, between, strict=True)]
    )


@lru_cache(maxsize=1024)  # the same rounds come again and again, in all sizes
def _split_at_numbers(text: str) -> _SplitText:
    parts = _NUMBER.split(text)
    return _SplitText(tuple(parts[::2]), tuple(parts[1::2]))
