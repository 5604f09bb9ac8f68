"""What parameters of pictures share: lengths and gauges written flat, and errors that name a parameter."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.drawing.look import Theme
from roundwright.knitting.answers import Impossible
from roundwright.knitting.measures import (
    LARGEST_GAUGE_COUNT,
    Difference,
    Gauge,
    Length,
    LengthUnit,
    UnitSystem,
)

LONGEST_TITLE: Final = 60
"""Characters over a picture: more take more room than the picture."""
LONGEST_LENGTH: Final = 31
"""Characters of a length: a float written out, and its unit."""

_UNIT: Final = "(mm|cm|m|in|yd)$"
_NUMBER: Final = r"(?=[0-9.]*[1-9])[0-9]{1,7}(\.[0-9]{1,20})?"
LengthText = Annotated[str, Meta(pattern=f"^{_NUMBER}{_UNIT}", max_length=LONGEST_LENGTH)]
DifferenceText = Annotated[
    str, Meta(pattern=rf"^-?[0-9]{{1,7}}(\.[0-9]{{1,20}})?{_UNIT}", max_length=LONGEST_LENGTH)
]
SplitText = Annotated[str, Meta(pattern="^[1-9][0-9]{0,2}(-[1-9][0-9]{0,2}){1,4}$", max_length=19)]

Title = Annotated[
    Annotated[str, Meta(min_length=1, max_length=LONGEST_TITLE)] | None,
    Meta(description="What is written over the picture. Left out: what it shows."),
]
Shown = Annotated[
    Theme,
    Meta(
        description="`auto`: light, and dark where the reader's system is; or one of the two, to go with the page. "
        "Default `auto`."
    ),
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
    """The length a text such as `55.5cm` says; the pattern of its parameter has been checked."""
    return None if text is None else Length(*_measure(text))


def difference_of(text: str | None) -> Difference | None:
    """The difference a text such as `-5cm` says, likewise."""
    return None if text is None else Difference(*_measure(text))


def gauge_of(stitches: float | None, rows: float | None, over: str) -> Gauge | None:
    """The gauge of three parameters; none without stitches. Raises `Impossible` for rows alone."""
    if stitches is None and rows is not None:
        raise Impossible(
            "A gauge of rows alone tells no width.",
            pointer="#/gauge_stitches",
            nearest="gauge_stitches beside gauge_rows",
        )
    if stitches is None:
        return None
    return Gauge(stitches=stitches, rows=rows, over=Length(*_measure(over)))


def _measure(text: str) -> tuple[float, LengthUnit]:
    found = re.match(r"(-?[0-9.]+)(mm|cm|m|in|yd)", text)
    assert found is not None
    unit: LengthUnit = found[2]  # type: ignore[assignment]  # the pattern names the units
    return float(found[1]), unit


@contextmanager
def naming(asked: Struct) -> Iterator[None]:
    """Errors of the trade inside point to the parameter of `asked` that they come from."""
    try:
        yield
    except Impossible as error:
        error.pointer = f"#/{_parameter(error.pointer, asked.__struct_fields__)}"
        raise


def _parameter(pointer: str, parameters: tuple[str, ...]) -> str:
    steps = [step for step in pointer.removeprefix("#").split("/") if step]
    for name in ("_".join(steps[-2:]), *reversed(steps)):
        if name in parameters:
            return name
    for step in reversed(steps):
        for name in parameters:
            if name.startswith(f"{step}_"):
                return name
    return "head" if "sizes" in steps else parameters[0]
