"""Unit factors, from pint, each read once from a small file of the trade's units."""

from functools import cache
from pathlib import Path
from typing import Any

from roundwright.reference.once import making

_DEFINITIONS = Path(__file__).with_name("data") / "trade-units.txt"


@cache
def factor(unit: str, base: str) -> float:
    """The size of `unit` in the unit `base`, e.g. `factor("in", "mm") == 25.4`.

    A client's string never reaches pint: `unit` is a name of an enumeration.
    """
    # Fifteen digits are what a float holds exactly; the last bit of pint's division is noise.
    return float(f"{_registry().Quantity(1.0, unit).to(base).magnitude:.15g}")


@cache
def _registry() -> Any:
    with making:
        import pint  # a third of the time that the start of the service takes, so with the first unit asked for

        return pint.UnitRegistry(str(_DEFINITIONS), on_redefinition="raise")
