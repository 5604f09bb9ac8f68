"""Picture addresses: everything a picture shows as query parameters, written and read.

The package `drawing` draws the pictures; here an address is only text. A parameter at its default is left out.
"""

import re
from collections.abc import Mapping
from functools import cache
from typing import Annotated, Final
from urllib.parse import urlencode

from msgspec import Meta, Struct
from msgspec.structs import fields

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import (
    LARGEST_GAUGE_COUNT,
    Difference,
    Gauge,
    Length,
    LengthUnit,
    UnitSystem,
)
from roundwright.language import Message, Words, say

MOST_DRAWN_ROUNDS: Final = 150
"""Rounds in the chart of a crown: with more, no line of it can be read on a page."""
MOST_DRAWN_CHANGES: Final = 200
"""Changes in a picture of a round: with more, nobody can count them."""
MOST_DRAWN_STITCHES: Final = 2_000
"""Stitches in a picture of a round: with more, gaps are broader than a page."""
LONGEST_LENGTH: Final = 31
"""Characters of a length: a float written out, and its unit."""

PicturePath = Annotated[str, Meta(extra_json_schema={"format": "uri-reference"})]

_UNIT: Final = "(mm|cm|m|in|yd)$"
_NUMBER: Final = r"(?=[0-9.]*[1-9])[0-9]{1,7}(\.[0-9]{1,20})?"
LengthText = Annotated[
    str, Meta(pattern=f"^{_NUMBER}{_UNIT}", max_length=LONGEST_LENGTH, examples=["55.5cm"])
]
DifferenceText = Annotated[
    str,
    Meta(pattern=rf"^-?[0-9]{{1,7}}(\.[0-9]{{1,20}})?{_UNIT}", max_length=LONGEST_LENGTH, examples=["-4cm"]),
]
SplitText = Annotated[
    str, Meta(pattern="^[1-9][0-9]{0,2}(-[1-9][0-9]{0,2}){1,4}$", max_length=19, examples=["14-14-12-16"])
]
Units = Annotated[UnitSystem, Meta(description="Centimetres or inches. Default `metric`.")]
GaugeCount = Annotated[float, Meta(ge=0.1, le=LARGEST_GAUGE_COUNT)]
GaugeRows = Annotated[
    GaugeCount | None,
    Meta(description="Rows (rounds) counted along `gauge_over`. Left out: as in relaxed plain knit."),
]
GaugeOver = Annotated[
    LengthText,
    Meta(description="Length the gauge was counted over, such as `10cm` or `4in`. Default `10cm`."),
]


def length_of(text: str | None) -> Length | None:
    """The length of a text such as `55.5cm`. The parameter's pattern was checked before."""
    return None if text is None else Length(*_value_and_unit(text))


def difference_of(text: str | None) -> Difference | None:
    """The difference of a text such as `-5cm`. The parameter's pattern was checked before."""
    return None if text is None else Difference(*_value_and_unit(text))


def gauge_of(stitches: float | None, rows: float | None, over: str, name: str = "gauge") -> Gauge | None:
    """The gauge of three parameters whose names begin with `name`, None without stitches.

    Raises `Impossible` for rows alone.
    """
    if stitches is None and rows is not None:
        raise Impossible(
            say("gauge.rows_alone"),
            code="needs_another",
            pointer=f"#/{name}_stitches",
            nearest=say("gauge.stitches_as_well", name=name),
        )
    if stitches is None:
        return None
    return Gauge(stitches=stitches, rows=rows, over=Length(*_value_and_unit(over)))


def _value_and_unit(text: str) -> tuple[float, LengthUnit]:
    match = re.fullmatch(r"(-?[0-9.]+)(mm|cm|m|in|yd)", text)
    assert match is not None
    unit: LengthUnit = match[2]  # type: ignore[assignment]  # the pattern names the units
    return float(match[1]), unit


Parameters = dict[str, str | float | None]
"""Parameters and their values, in the order of the address; None is left out of it."""


class PictureAddress(Message):
    """The address of a picture, with the language of the answer that it stands in."""

    __slots__ = ()

    def in_words(self, words: Words) -> str:
        """The address of the picture in a language."""
        return f"{self!s}&language={words.code}"


def picture_address(name: str, query: type[Struct], parameters: Parameters) -> str:
    """The address of a picture, without the parameters that are at the default of `query`."""
    defaults = _defaults(query)
    return PictureAddress(
        f"/v1/drawings/{name}.svg?"
        + urlencode(
            {
                parameter: value if isinstance(value, str) else repr(value).removesuffix(".0")
                for parameter, value in parameters.items()
                if value is not None and value != defaults[parameter]
            }
        )
    )


def with_parameter(address: str, parameter: str, value: int) -> str:
    """The address of a picture with another parameter, which it has not yet."""
    return PictureAddress(f"{address}&{parameter}={value}")


def length_text(length: Length | Difference | None) -> str | None:
    """The text that `length_of` and `difference_of` read, such as `55.5cm`."""
    if length is None:
        return None
    text = repr(length.value)
    # A length is written without an exponent.
    decimal = f"{length.value:.20f}".rstrip("0").rstrip(".") if "e" in text else text.removesuffix(".0")
    return f"{decimal}{length.unit}"


def gauge_parameters(gauge: Gauge | None, name: str = "gauge") -> Parameters:
    """The parameters that `gauge_of` reads."""
    if gauge is None:
        return {}
    return {
        f"{name}_stitches": gauge.stitches,
        f"{name}_rows": gauge.rows,
        f"{name}_over": length_text(gauge.over),
    }


@cache
def _defaults(query: type[Struct]) -> Mapping[str, object]:
    return {field.name: field.default for field in fields(query)}
