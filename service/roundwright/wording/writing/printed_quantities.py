"""Lengths, masses, counts and names as patterns print them: rounded as a tape is read, with fractions of an inch."""

from collections.abc import Iterable
from math import ceil, floor
from typing import Final

from roundwright.knitting.quantities import Length, Mass
from roundwright.wording.writing.size_lists import size_list

_QUARTERS: Final = ("", "1/4", "1/2", "3/4")


def printed_length(length: Length) -> str:
    """The number of a length, to the nearest half centimetre or quarter inch, as a tape is read (common practice)."""
    if length.unit == "in":
        whole, quarters = divmod(floor(length.value * 4 + 0.5), 4)
        fraction = _QUARTERS[quarters]
        return f"{whole} {fraction}" if whole and fraction else fraction or str(whole)
    return f"{floor(length.value * 2 + 0.5) / 2:g}"


def printed_lengths(lengths: Iterable[Length]) -> str:
    """The length of each size, and the unit: `18 (19, 20.5) cm`."""
    of_sizes = list(lengths)
    return f"{size_list(map(printed_length, of_sizes))} {of_sizes[0].unit}"


def whole_lengths(lengths: Iterable[Length]) -> str:
    """The length of each size in whole units, rounded up, for what is not measured by a tape: `106 (132, 145) cm`."""
    of_sizes = list(lengths)
    return f"{size_list(ceil(length.value) for length in of_sizes)} {of_sizes[0].unit}"


def printed_quantity(quantity: Length | Mass) -> str:
    """A quantity as it was given: `50 g`."""
    return f"{quantity.value:g} {quantity.unit}"


def printed_amount(value: float) -> str:
    """An amount of yarn: a whole number, or two digits of less than 10."""
    return f"{value:.0f}" if value >= 10 else f"{value:.2g}"


def one_line(text: str) -> str:
    """A caller's text in one line: a line break or control character in a name would begin a line of the pattern."""
    return " ".join(text.translate(_CONTROL_CHARACTERS).split())


_CONTROL_CHARACTERS: Final = dict.fromkeys(
    (*range(32), *range(127, 160), 8232, 8233, 65279, 65534, 65535), " "
)
