"""Amounts of yarn: known as a length, as a mass, or as both."""

from roundwright.knitting.yarn.amount import YarnLength, YarnMass, YarnQuantity, yarn_amount
from roundwright.knitting.yarn.label import Strand

METRE, GRAM = Strand().of_length(1000), Strand().of_mass(1)


def test_without_a_fineness_a_length_has_no_mass() -> None:
    """Of an unknown yarn the mass of a metre and the length of a gram are unknown."""
    assert (METRE.g, GRAM.mm) == (None, None)
    assert METRE.plus(GRAM) == YarnQuantity(None, None)
    assert METRE.ratio(GRAM) is None
    assert not METRE.covers(GRAM)
    assert not GRAM.covers(METRE)


def test_at_1000_tex_a_metre_is_a_gram() -> None:
    """Tex is grams in 1000 m (ISO 1144), so 1000 tex are a gram in a metre."""
    strand = Strand(tex=1000)
    assert strand.of_length(1000) == strand.of_mass(1) == YarnQuantity(1000, 1)
    assert strand.of_length(3000).ratio(strand.of_mass(1)) == 3


def test_less_than_nothing_is_nothing() -> None:
    """A ball cannot have less than nothing left over."""
    assert METRE.less(METRE.times(2)) == YarnQuantity(0, None)


def test_an_amount_has_the_units_of_the_answer() -> None:
    """1 yd = 0.9144 m and 1 oz = 28.349523125 g, exactly."""
    quantity = YarnQuantity(914.4, 28.349523125)
    assert yarn_amount(quantity, "imperial").length == YarnLength(1, "yd")
    assert yarn_amount(quantity, "imperial").mass == YarnMass(1, "oz")
    assert yarn_amount(quantity, "metric").length == YarnLength(0.9144, "m")
