"""Several sizes on one line, the trade's way: `52 (56, 60, 68)`, and one number where all agree."""

import re
from collections.abc import Callable, Iterable, Sequence
from typing import Final

from roundwright.knitting.rounds import Round

_NUMBER: Final = re.compile(r"\d+")


def across(values: Iterable[object]) -> str:
    """The values of all sizes: `52 (56, 60, 68)`, or one where they agree."""
    texts = [str(value) for value in values]
    if len(set(texts)) == 1:
        return texts[0]
    first, *others = texts
    return f"{first} ({', '.join(others)})"


def merged(texts: Sequence[str]) -> str | None:
    """One line for texts that differ in their numbers alone, or None where they differ in more.

    `k4, k2tog` and `k5, k2tog` make `k4 (5), k2tog`.
    """
    first = texts[0]
    if all(text == first for text in texts):
        return first
    between = _NUMBER.split(first)
    if any(_NUMBER.split(text) != between for text in texts):
        return None
    numbers = zip(*(_NUMBER.findall(text) for text in texts), strict=True)
    merged_numbers = [across(values) for values in numbers]
    return "".join(part for pair in zip(between, [*merged_numbers, ""], strict=True) for part in pair)


def together(texts: Sequence[str | None]) -> list[tuple[tuple[int, ...], str]]:
    """The sizes that share a line, each group with that line, in the order of their first size.

    A text of None is a size that has nothing to do here.
    """
    groups: dict[tuple[str, ...], list[int]] = {}
    for index, text in enumerate(texts):
        if text is not None:
            groups.setdefault(tuple(_NUMBER.split(text)), []).append(index)
    lines = []
    for sizes in groups.values():
        line = merged([text for index in sizes if (text := texts[index]) is not None])
        assert line is not None  # a group is what differs in numbers alone
        lines.append((tuple(sizes), line))
    return lines


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
            (group, text, tuple(one for index in group if (one := here[index]) is not None))
            for group, text in together([None if one is None else say(one) for one in here])
        ]
