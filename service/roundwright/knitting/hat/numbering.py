"""The numbers of the crown's rounds in the pattern of all sizes.

They are counted from the start of each size, or from that of the size with the most rounds, where the others join in:
whichever takes fewer lines.
"""

import re
from collections.abc import Mapping, Sequence
from typing import Final

from msgspec.structs import replace

from roundwright.knitting.crown.crown import CrownAnswer
from roundwright.knitting.crown.picture import numbered_from
from roundwright.knitting.rounds.round import Round

_DIGITS: Final = re.compile("[0-9]+")


def first_numbers(crowns: Sequence[Sequence[Round]]) -> tuple[int, ...]:
    """The number of the first crown round of each size; `crowns` are numbered from 1."""
    from_the_starts = (1,) * len(crowns)
    if len(set(map(len, crowns))) <= 1:
        return from_the_starts
    longest = max(map(len, crowns))
    from_the_longest = tuple(longest - len(crown) + 1 for crown in crowns)
    return min(from_the_starts, from_the_longest, key=lambda firsts: _line_count(crowns, firsts))


def numbered_crown(crown: CrownAnswer, first: int) -> CrownAnswer:
    """The crown with its rounds numbered from `first`, in its chart too, which is without a round that leads to it."""
    if first == 1:
        return crown
    rounds = tuple(replace(round, number=number) for number, round in enumerate(crown.rounds, first))
    charted = first + 1 if crown.is_adjusted else first
    drawing = None if crown.drawing is None else numbered_from(crown.drawing, charted)
    return replace(crown, rounds=rounds, drawing=drawing)


def rounds_of_sizes(
    crowns: Sequence[Sequence[Round]], firsts: Sequence[int], number: int
) -> dict[int, Round]:
    """The rounds with a number in the pattern, by size; `firsts` are the numbers of the first rounds."""
    return {
        size: crown[number - first]
        for size, (crown, first) in enumerate(zip(crowns, firsts, strict=True))
        if 0 <= number - first < len(crown)
    }


def worked_again(rounds: Mapping[int, Round], following: Mapping[int, Round]) -> bool:
    """Whether the rounds of all sizes, by size, are worked again as they are, so that one line can say it."""
    return rounds.keys() == following.keys() and all(
        (round.before, round.after, round.text) == (again.before, again.after, again.text)
        and round.before == round.after
        and not (again.moves or again.notes)
        for round, again in zip(rounds.values(), following.values(), strict=True)
    )


def _line_count(crowns: Sequence[Sequence[Round]], firsts: Sequence[int]) -> int:
    """Lines of the crown: one for all sizes whose round differs in its numbers alone, one where sizes begin or end."""
    last = max(map(len, crowns), default=0)
    lines = len({first for first in firsts if first > 1})
    lines += len({first + len(crown) for first, crown in zip(firsts, crowns, strict=True)} - {last + 1})
    before: dict[int, Round] = {}
    for number in range(1, last + 1):
        rounds = rounds_of_sizes(crowns, firsts, number)
        if not worked_again(before, rounds):
            lines += len({_DIGITS.sub("", round.text) for round in rounds.values()})
        before = rounds
    return lines
