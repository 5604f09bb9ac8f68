"""Yarn counts: the fineness of a yarn, in every system that labels and mills use.

A direct system gives the mass of a length (tex, denier), an inverse system the length of a mass (Nm, and the English
systems: hanks in a pound). Inside the service a fineness is in tex, grams in a kilometre.
"""

from functools import cache, lru_cache
from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright import reference
from roundwright.knitting.answers import Basis
from roundwright.knitting.quantities import YarnCount, g_in, mm_in, tidy
from roundwright.language import say

COUNT_BASIS: Final = Basis(
    say("yarn.count_basis"),
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


@cache
def tex_of_count_1(system: str) -> float:
    """Grams in a kilometre of a yarn of count 1, exact from the system's definition: 590.54 for Ne.

    For an inverse system this is also the product of tex and count. Source: the table `yarn-counts`.
    """
    row = reference.yarn_counts()[system]
    return row.mass * g_in(row.mass_unit) / (row.length * mm_in(row.length_unit)) * 1e6


def tex(count: YarnCount) -> float:
    """The count in tex, grams in a kilometre."""
    factor = tex_of_count_1(count.unit)
    return count.value * factor if _is_direct(count.unit) else factor / count.value


@lru_cache(maxsize=64)  # one yarn for all sizes
def fineness(in_tex: float) -> Fineness:
    """A fineness in tex, in every system."""
    return Fineness(
        **{
            system: tidy(
                in_tex / tex_of_count_1(system) if _is_direct(system) else tex_of_count_1(system) / in_tex
            )
            for system in reference.yarn_counts()
        }
    )


def _is_direct(system: str) -> bool:
    return reference.yarn_counts()[system].relation == "direct"
