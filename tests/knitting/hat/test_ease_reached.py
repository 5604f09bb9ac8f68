"""The ease that every crown reaches with every rib up to 6 + 6, as a table that a change of it has to change too.

`python -m tests.knitting.hat.test_ease_reached` writes `ease-reached.txt` anew; what is asked is -10 %.
"""

from functools import cache
from pathlib import Path

import pytest

from roundwright.knitting.crown.styles import STYLES
from tests.support.hats import hats

TABLE = Path(__file__).with_name("ease-reached.txt")
SIZES = {
    "30 weeks": {"gestation_weeks": 30},
    "newborn": {"age_months": 0},
    "1 year": {"age_months": 12},
    "6 years": {"age_years": 6},
    "woman": {"adult": "woman"},
    "man": {"adult": "man"},
}
REPEATS = range(2, 13)
"""Stitches of a rib of 1 + 1 to 6 + 6."""
GAUGE = {"stitches": 20, "rows": 28}


@cache
def cells(style: str, knit: int, purl: int) -> str:
    """A row: cast-on, stitches of the body where they are others, and ease of the brim in per cent, for each size."""
    answer = hats(
        gauge=GAUGE,
        sizes=list(SIZES.values()),
        crown={"style": style},
        brim={"kind": "ribbed", "rib": {"knit": knit, "purl": purl}},
    )
    row = []
    for size in answer["sizes"]:
        brim, body = size["cast_on"]["stitches"], size["crown"]["stitches"]
        counts = str(brim) if brim == body else f"{brim}>{body}"
        row.append(f"{counts:>8} {size['cast_on']['ease']['percent']:+5.1f}")
    return " |".join(row)


def table() -> str:
    """The whole table, a block for each style and a line for each width of the rib."""
    lines = [
        "Ease reached, in per cent, where -10 is asked, at 20 stitches and 28 rounds to 10 cm.",
        "48>56: 48 stitches are cast on, and the body has 56. A line is for all ribs of so many stitches.",
    ]
    heads = " |".join(f"{name:>14}" for name in SIZES)
    for style in STYLES:
        lines.extend(["", f"{style:<9}{heads}"])
        for repeat in REPEATS:
            knit = (repeat + 1) // 2
            lines.append(f"{repeat:>8} {cells(style, knit, repeat - knit)}")
    return "\n".join(line.rstrip() for line in lines) + "\n"


RIBS = [(knit, purl) for knit in range(1, 7) for purl in range(1, 7)]


@pytest.mark.parametrize("style", STYLES)
def test_every_rib_and_crown_reaches_the_ease_of_the_table(style: str) -> None:
    """All 36 ribs: what counts is how many stitches a repeat of it has, not how many of them are knitted."""
    block = TABLE.read_text().split(f"\n{style}")[1].split("\n\n")[0]
    rows = {int(line.split()[0]): line for line in block.split("\n")[1:] if line.strip()}

    for knit, purl in RIBS:
        assert f"{knit + purl:>8} {cells(style, knit, purl)}" == rows[knit + purl], (knit, purl)


if __name__ == "__main__":
    TABLE.write_text(table())
