"""Lengths, masses, counts and names as patterns print them: rounded as a tape is read, with fractions of an inch."""

import re
from collections.abc import Iterable, Sequence
from math import ceil, floor
from typing import Final

from roundwright.knitting.quantities import Length, Mass, on_a_tape
from roundwright.knitting.yarn.amount import YarnLength, YarnMass
from roundwright.language import Words
from roundwright.wording.writing.size_lists import size_list

_QUARTERS: Final = ("", "1/4", "1/2", "3/4")


def printed_length(length: Length, words: Words) -> str:
    """The number of a length as a tape is read, with fractions of an inch."""
    value = on_a_tape(length)
    if length.unit == "in":
        whole, fraction = floor(value), _QUARTERS[floor(value * 4) % 4]
        return f"{whole} {fraction}" if whole and fraction else fraction or str(whole)
    return words.number(value)


def printed_lengths(lengths: Iterable[Length], words: Words) -> str:
    """The length of each size, and the unit: `18 (19, 20.5) cm`."""
    of_sizes = list(lengths)
    return with_unit(
        size_list([printed_length(length, words) for length in of_sizes], words), of_sizes[0].unit, words
    )


def printed_range(low: Length, high: Length, words: Words) -> str:
    """A range of lengths and the unit: `8 to 12 in`."""
    numbers = words.say("join.to", first=words.number(low.value), last=words.number(high.value))
    return with_unit(numbers, high.unit, words)


def whole_lengths(lengths: Iterable[Length], words: Words) -> str:
    """The length of each size in whole units, rounded up, for what is not measured by a tape: `106 (132, 145) cm`."""
    of_sizes = list(lengths)
    return with_unit(size_list([ceil(length.value) for length in of_sizes], words), of_sizes[0].unit, words)


def printed_quantity(quantity: Length | Mass, words: Words) -> str:
    """A quantity as it was given: `50 g`."""
    return with_unit(words.number(quantity.value), quantity.unit, words)


def printed_amounts(quantities: Sequence[YarnLength | YarnMass | None], words: Words) -> str:
    """The yarn of each size to have at hand, 0 where there is none, and the unit: `45 (60) m`."""
    unit = next((quantity.unit for quantity in quantities if quantity), "m")
    values = [words.number(_rounded_up(quantity.value)) if quantity else "0" for quantity in quantities]
    return with_unit(size_list(values, words), unit, words)


def printed_total(quantities: Sequence[YarnLength | YarnMass], times: Iterable[int], words: Words) -> str:
    """The sum of the amounts as they are printed, each so many times: what a reader comes to who adds them up."""
    total = sum(
        count * _rounded_up(quantity.value) for count, quantity in zip(times, quantities, strict=True)
    )
    return with_unit(words.number(round(total, 6)), quantities[0].unit, words)


def _rounded_up(value: float) -> float:
    """An amount of yarn, rounded up so that it is enough: a whole number, or to a tenth below 10 (of an ounce)."""
    exact = round(value, 6)  # the last bits of a multiplication are noise
    return float(ceil(exact)) if exact >= 10 else ceil(round(exact * 10, 6)) / 10


def with_unit(number: str, unit: str, words: Words) -> str:
    """A number, or a list of numbers, with its unit."""
    return words.say(f"with_unit.{unit}", number=number)


def chained(texts: Iterable[str], word: str, words: Words) -> str:
    """Texts with a word between each two: `a and b and c`; `word` is `and` or `or`."""
    first, *others = texts
    for text in others:
        first = words.say(f"join.{word}", first=first, second=text)
    return first


def one_line(text: str) -> str:
    """A caller's text in one line: a line break or control character in a name would begin a line of the pattern."""
    return " ".join(_SPACES.split(text.translate(_CONTROL_CHARACTERS))).strip()


_SPACES: Final = re.compile(r"[^\S\u00a0]+")
"""Spaces where a line may be broken; a no-break space stays as it is."""


_CONTROL_CHARACTERS: Final = dict.fromkeys(
    (*range(32), *range(127, 160), 8232, 8233, 65279, 65534, 65535), " "
)
