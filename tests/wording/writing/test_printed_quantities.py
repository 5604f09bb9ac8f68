"""Lengths as patterns print them."""

import pytest

from roundwright.knitting.quantities import Length
from roundwright.knitting.yarn.amount import YarnLength
from roundwright.language import ENGLISH_WORDS
from roundwright.wording.writing.printed_quantities import (
    printed_amounts,
    printed_length,
    printed_lengths,
    printed_total,
)


@pytest.mark.parametrize(
    ("value", "unit", "printed"),
    [(18.26, "cm", "18.5"), (18.2, "cm", "18"), (7.2, "in", "7 1/4"), (7.0, "in", "7"), (0.5, "in", "1/2")],
)
def test_a_length_is_printed_as_a_tape_is_read(value: float, unit: str, printed: str) -> None:
    """A tape in inches is read in quarters, one in centimetres in halves (common practice)."""
    assert printed_length(Length(value, unit), ENGLISH_WORDS) == printed


def test_the_lengths_of_all_sizes_have_one_unit() -> None:
    """The unit stands once, after the list (common practice)."""
    assert printed_lengths([Length(18, "cm"), Length(20.5, "cm")], ENGLISH_WORDS) == "18 (20.5) cm"


def test_a_total_is_the_sum_of_what_is_printed() -> None:
    """26.2 m are printed as 27 and 54.3 m as 55: two and one of them are 109 m, not 107."""
    lengths = [YarnLength(26.2, "m"), YarnLength(54.3, "m")]
    assert printed_total(lengths, [2, 1], ENGLISH_WORDS) == "109 m"


@pytest.mark.parametrize(
    ("value", "printed"), [(40.2, "41 m"), (41.0, "41 m"), (1.41, "1.5 m"), (10.1, "11 m"), (9.0, "9 m")]
)
def test_yarn_to_have_is_rounded_up(value: float, printed: str) -> None:
    """Who buys what is printed has enough."""
    assert printed_amounts([YarnLength(value, "m")], ENGLISH_WORDS) == printed
