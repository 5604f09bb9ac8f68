"""Amount of yarn: its length and mass, inside in millimetres and grams, in an answer in the caller's units."""

from typing import Annotated, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.quantities import LengthUnit, MassUnit, UnitSystem, g_in, mm_in, tidy


class YarnLength(Struct, frozen=True):
    """A length of yarn in an answer; it may be nothing."""

    value: Annotated[float, Meta(ge=0.0, description="How many of the unit.")]
    unit: Annotated[LengthUnit, Meta(description="Unit of the length.")]


class YarnMass(Struct, frozen=True):
    """A mass of yarn in an answer; it may be nothing."""

    value: Annotated[float, Meta(ge=0.0, description="How many of the unit.")]
    unit: Annotated[MassUnit, Meta(description="Unit of the mass.")]


class YarnAmount(Struct, frozen=True, kw_only=True):
    """An amount of yarn, as far as it can be known from the request."""

    length: Annotated[
        YarnLength | None, Meta(description="As a length; null when the yarn's fineness is unknown.")
    ]
    mass: Annotated[YarnMass | None, Meta(description="As a mass; null when the yarn's fineness is unknown.")]


class YarnSpan(Struct, frozen=True, kw_only=True):
    """An amount of yarn with its uncertainty."""

    low: Annotated[YarnAmount, Meta(description="It will hardly take less.")]
    expected: Annotated[YarnAmount, Meta(description="It will take about this.")]
    high: Annotated[YarnAmount, Meta(description="It will hardly take more.")]


class YarnQuantity(NamedTuple):
    """An amount of yarn inside the service, in millimetres and in grams; None is unknown."""

    mm: float | None
    g: float | None

    def times(self, factor: float) -> "YarnQuantity":
        """This amount, `factor` times over."""
        return YarnQuantity(
            None if self.mm is None else self.mm * factor, None if self.g is None else self.g * factor
        )

    def plus(self, other: "YarnQuantity") -> "YarnQuantity":
        """The sum of both, known as far as both are."""
        return YarnQuantity(
            None if self.mm is None or other.mm is None else self.mm + other.mm,
            None if self.g is None or other.g is None else self.g + other.g,
        )

    def less(self, other: "YarnQuantity") -> "YarnQuantity":
        """What remains without the other, nothing at the least; known as far as both are."""
        return YarnQuantity(
            None if self.mm is None or other.mm is None else max(0.0, self.mm - other.mm),
            None if self.g is None or other.g is None else max(0.0, self.g - other.g),
        )

    def ratio(self, other: "YarnQuantity") -> float | None:
        """How many times the other fits into this, by length or else by mass; None where neither can be compared."""
        if self.mm is not None and other.mm is not None:
            return self.mm / other.mm
        if self.g is not None and other.g is not None:
            return self.g / other.g
        return None

    def covers(self, other: "YarnQuantity") -> bool:
        """Whether this is as much as the other or more, by length or else by mass."""
        if self.mm is not None and other.mm is not None:
            return self.mm >= other.mm
        return self.g is not None and other.g is not None and self.g >= other.g


class YarnRange(NamedTuple):
    """An amount of yarn with its uncertainty, as `YarnSpan` is in an answer."""

    low: YarnQuantity
    expected: YarnQuantity
    high: YarnQuantity


def yarn_length(length_mm: float, units: UnitSystem) -> YarnLength:
    """A length of yarn in metres or yards."""
    unit: LengthUnit = "yd" if units == "imperial" else "m"
    return YarnLength(tidy(length_mm / mm_in(unit)), unit)


def yarn_mass(mass_g: float, units: UnitSystem) -> YarnMass:
    """A mass of yarn in grams or ounces."""
    unit: MassUnit = "oz" if units == "imperial" else "g"
    return YarnMass(tidy(mass_g / g_in(unit)), unit)


def yarn_amount(quantity: YarnQuantity, units: UnitSystem) -> YarnAmount:
    """An amount of yarn for an answer."""
    return YarnAmount(
        length=None if quantity.mm is None else yarn_length(quantity.mm, units),
        mass=None if quantity.g is None else yarn_mass(quantity.g, units),
    )


def yarn_span(quantities: YarnRange, units: UnitSystem) -> YarnSpan:
    """An amount of yarn with its uncertainty for an answer."""
    low, expected, high = (yarn_amount(quantity, units) for quantity in quantities)
    return YarnSpan(low=low, expected=expected, high=high)
