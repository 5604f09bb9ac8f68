"""Several sizes on one line, the trade's way: `52 (56, 60, 68)`, and one number where all agree."""

import re
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import Final, NamedTuple

from roundwright.knitting.rounds.round import Round

_NUMBER: Final = re.compile(r"(\d+)")


def size_list(values: Iterable[object]) -> str:
    """The values of all sizes: `52 (56, 60, 68)`, or one where they agree."""
    texts = [str(value) for value in values]
    if texts.count(texts[0]) == len(texts):
        return texts[0]
    first, *others = texts
    return f"{first} ({', '.join(others)})"


class _Taken(NamedTuple):
    """A text taken apart: what stands between its numbers, and its numbers."""

    between: tuple[str, ...]
    numbers: tuple[str, ...]


@lru_cache(maxsize=1024)  # the same rounds come again and again, in all sizes
def _taken(text: str) -> _Taken:
    parts = _NUMBER.split(text)
    return _Taken(tuple(parts[::2]), tuple(parts[1::2]))


def _merged(texts: Sequence[str]) -> str:
    """One line for texts that differ in their numbers alone: `k4, k2tog` and `k5, k2tog` make `k4 (5), k2tog`."""
    first = texts[0]
    if texts.count(first) == len(texts):
        return first
    numbers = zip(*[_taken(text).numbers for text in texts], strict=True)
    between = _taken(first).between
    return between[0] + "".join([size_list(n) + after for n, after in zip(numbers, between[1:], strict=True)])


def together(texts: Sequence[str | None]) -> list[tuple[tuple[int, ...], str]]:
    """The sizes that share a line, each group with that line, in the order of their first size.

    A text of None is a size that has nothing to do here.
    """
    groups: dict[tuple[str, ...], list[int]] = {}
    for index, text in enumerate(texts):
        if text is not None:
            groups.setdefault(_taken(text).between, []).append(index)
    return [
        (tuple(sizes), _merged([text for index in sizes if (text := texts[index]) is not None]))
        for sizes in groups.values()
    ]


def only(sizes: tuple[int, ...], of: int) -> str:
    """Whose line it is, where it is not everybody's: ` (sizes 2 and 4 only)`."""
    if len(sizes) == of:
        return ""
    numbers = [str(index + 1) for index in sizes]
    if len(numbers) == 1:
        return f" (size {numbers[0]} only)"
    return f" (sizes {', '.join(numbers[:-1])} and {numbers[-1]} only)"


def rounds_across(
    sizes: Sequence[Sequence[Round]], say: Callable[[Round], str]
) -> Iterable[list[tuple[tuple[int, ...], str, tuple[Round, ...]]]]:
    """Round by round, its lines: the sizes that share a line, the line, and those sizes' rounds.

    A size that has ended earlier is in no line any more.
    """
    for place in range(max(map(len, sizes), default=0)):
        here = [rounds[place] if place < len(rounds) else None for rounds in sizes]
        yield [
            (group, text, tuple([one for index in group if (one := here[index]) is not None]))
            for group, text in together([None if one is None else say(one) for one in here])
        ]
