"""Size lists: the values of all sizes on one line as patterns print them, `52 (56, 60, 68)`; one where all agree."""

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Final, NamedTuple

_NUMBER: Final = re.compile(r"(\d+)")


class SharedLine(NamedTuple):
    """A line and the sizes it is for, as indexes from 0."""

    sizes: tuple[int, ...]
    text: str


class _SplitText(NamedTuple):
    """A text split at its numbers: there is one text more than there are numbers."""

    between: tuple[str, ...]
    numbers: tuple[str, ...]


def size_list(values: Iterable[object]) -> str:
    """The values of all sizes: `52 (56, 60, 68)`, or one value where they agree."""
    texts = [str(value) for value in values]
    if texts.count(texts[0]) == len(texts):
        return texts[0]
    first, *others = texts
    return f"{first} ({', '.join(others)})"


def shared_lines(texts: Sequence[str | None]) -> list[SharedLine]:
    """The lines of all sizes, merged where they differ in their numbers alone, in the order of their first size.

    `texts` has one text a size, or None for a size that has no such line.
    """
    groups: dict[tuple[str, ...], list[int]] = {}
    for size, text in enumerate(texts):
        if text is not None:
            groups.setdefault(_split_at_numbers(text).between, []).append(size)
    return [
        SharedLine(tuple(sizes), _merged([text for size in sizes if (text := texts[size]) is not None]))
        for sizes in groups.values()
    ]


def sizes_note(sizes: Sequence[int], size_count: int) -> str:
    """The note that a line is not for all sizes, such as ` (sizes 2 and 4 only)`; empty where it is for all."""
    if len(sizes) == size_count:
        return ""
    numbers = [str(size + 1) for size in sizes]
    if len(numbers) == 1:
        return f" (size {numbers[0]} only)"
    return f" (sizes {', '.join(numbers[:-1])} and {numbers[-1]} only)"


def _merged(texts: Sequence[str]) -> str:
    """One line for texts that differ in their numbers alone: `k4, k2tog` and `k5, k2tog` make `k4 (5), k2tog`."""
    first = texts[0]
    if texts.count(first) == len(texts):
        return first
    numbers = zip(*[_split_at_numbers(text).numbers for text in texts], strict=True)
    start, *between = _split_at_numbers(first).between
    return start + "".join(
        [size_list(values) + after for values, after in zip(numbers, between, strict=True)]
    )


@lru_cache(maxsize=1024)  # the same rounds come again and again, in all sizes
def _split_at_numbers(text: str) -> _SplitText:
    parts = _NUMBER.split(text)
    return _SplitText(tuple(parts[::2]), tuple(parts[1::2]))
