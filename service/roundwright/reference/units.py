"""Unit factors, from pint, read once from a small file of the trade's units."""

from functools import cache
from pathlib import Path
from typing import Any

_DEFINITIONS = Path(__file__).with_name("data") / "trade-units.txt"


@cache
def factors(base: str, units: tuple[str, ...]) -> dict[str, float]:
    """The size of every unit in `units` in the unit `base`, e.g. `factors("mm", ("in",)) == {"in": 25.4}`.

    A client's string never reaches pint: `units` are the names of an enumeration.
    """
    registry = _registry()
    # Fifteen digits are what a float holds exactly; the last bit of pint's division is noise.
    return {unit: float(f"{registry.Quantity(1.0, unit).to(base).magnitude:.15g}") for unit in units}


@cache
def _registry() -> Any:
    import pint  # slow to import, and needed once only

    return pint.UnitRegistry(str(_DEFINITIONS), on_redefinition="raise")
