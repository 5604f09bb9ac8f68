"""How thick a yarn is, in every system a label or a mill may use.

Direct systems say the mass of a length (tex, denier), indirect ones the length of a mass (Nm, and the English
systems: hanks in a pound). Inside the house fineness is tex, grams in a kilometre.
"""

from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.knitting.answers import Basis
from roundwright.knitting.measures import G_IN, MM_IN, YarnCount, tidy
from roundwright.reference.units import factors

HANK_YD: Final = {"ne": 840.0, "worsted": 560.0, "linen": 300.0, "woollen": 256.0}
"""Yards in the hank of each English system: the count is how many of them weigh a pound (ASTM D2260)."""

_TEX_IN: Final = factors("tex", ("tex", "dtex", "denier"))

_NM_CONSTANT: Final = 1000.0
"""tex × Nm: grams in a kilometre times metres in a gram."""

COUNT_BASIS: Final = Basis(
    "tex × Nm = 1000, denier = 9 tex, tex × Ne = 590.54, tex × worsted = 885.81, tex × woollen = 1937.7, "
    "tex × linen = 1653.5, exact from 1 lb = 453.59237 g and 1 yd = 0.9144 m.",
    "ISO 1144, ISO 2947, ASTM D2260",
)


class Fineness(Struct, frozen=True, kw_only=True):
    """The fineness of one strand of a yarn in every usual system."""

    tex: Annotated[float, Meta(description="Grams in 1000 m.")]
    dtex: Annotated[float, Meta(description="Grams in 10 000 m.")]
    denier: Annotated[float, Meta(description="Grams in 9000 m.")]
    nm: Annotated[float, Meta(description="Metric count: metres in a gram.")]
    ne: Annotated[float, Meta(description="English cotton count: hanks of 840 yd in a pound.")]
    worsted: Annotated[float, Meta(description="Worsted count: hanks of 560 yd in a pound.")]
    woollen: Annotated[float, Meta(description="Woollen count: Yorkshire skeins of 256 yd in a pound.")]
    linen: Annotated[float, Meta(description="Linen count (lea): hanks of 300 yd in a pound.")]


def constant(system: str) -> float:
    """The product of tex and count in an indirect system: 1000 for Nm, 590.54 for Ne, 885.81 for worsted.

    Grams in a kilometre of a yarn of count 1, of which one hank weighs a pound. Source: ASTM D2260.
    """
    if system == "nm":
        return _NM_CONSTANT
    hank_km = HANK_YD[system] * MM_IN["yd"] / 1e6
    return G_IN["lb"] / hank_km


def tex(count: YarnCount) -> float:
    """The count in tex, grams in a kilometre."""
    if count.unit in _TEX_IN:
        return count.value * _TEX_IN[count.unit]
    return constant(count.unit) / count.value


def fineness(in_tex: float) -> Fineness:
    """A fineness in tex, in every system."""
    return Fineness(
        tex=tidy(in_tex),
        dtex=tidy(in_tex / _TEX_IN["dtex"]),
        denier=tidy(in_tex / _TEX_IN["denier"]),
        nm=tidy(constant("nm") / in_tex),
        ne=tidy(constant("ne") / in_tex),
        worsted=tidy(constant("worsted") / in_tex),
        woollen=tidy(constant("woollen") / in_tex),
        linen=tidy(constant("linen") / in_tex),
    )
