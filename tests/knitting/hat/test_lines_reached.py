"""The lines of a crown for all its sizes, as a table that a change of them has to change too.

`python -m tests.knitting.hat.test_lines_reached` writes `lines-reached.txt` anew. A dome, a flat top, a cone, a swirl
and wedges stay within 1.3 lines for a round of the largest size. The other three do not at every gauge: of quick crowns
the most is 1.33, of gathered ones 1.5 (6 lines for 4 rounds), of square ones 1.88 (twelve sizes).
"""

from pathlib import Path

import pytest

from roundwright.knitting.crown.styles import STYLES
from tests.support.hats import hats
from tests.support.patterns import lines

TABLE = Path(__file__).with_name("lines-reached.txt")
SIZES = {
    "3 babies": [{"age_months": months} for months in (1, 6, 12)],
    "3 grown-ups": [{"head": {"value": head, "unit": "cm"}} for head in (53, 56, 59)],
    "5 ages": [{"age_months": 3}, {"age_months": 12}, {"age_years": 4}, {"adult": "woman"}, {"adult": "man"}],
    "12 heads": [{"head": {"value": head, "unit": "cm"}} for head in range(34, 58, 2)],
}
GAUGES = {14: 19, 18: 24, 20: 28, 24: 32, 28: 36, 32: 44}
"""Rounds in 10 cm by the stitches in 10 cm."""
MOST = 1.3
"""Lines for a round of the largest size that a pattern is to have at most."""
LONGER = {"quick", "square", "gathered"}
"""Styles whose sizes are not lined up by the rounds they have left, so that more of their lines are for one size."""


def row(style: str, stitches: int) -> str:
    """For each set of sizes: lines with rounds, rounds of the largest size, and their ratio."""
    cells = []
    for sizes in SIZES.values():
        answer = hats(
            sizes=sizes,
            gauge={"stitches": stitches, "rows": GAUGES[stitches]},
            crown={"style": style},
            brim={"kind": "ribbed", "rib": {"knit": 2, "purl": 2}},
            needles=4,
        )
        written = sum(line.startswith("Rnd") for line in lines(answer["pattern"], "CROWN"))
        rounds = max(len(size["crown"]["rounds"]) for size in answer["sizes"])
        cells.append(f"{written:>3} / {rounds:>2} {written / rounds:5.2f}")
    return f"{stitches:>8} " + " |".join(f"{cell:>14}" for cell in cells)


def table() -> str:
    """The whole table, a block for each style and a line for each gauge."""
    written = [
        "Lines with rounds in the crown of the pattern / rounds of the largest size, and their ratio;",
        "a line is for so many stitches to 10 cm, in a rib of 2 + 2 on four needles.",
    ]
    heads = " |".join(f"{name:>14}" for name in SIZES)
    for style in STYLES:
        written.extend(["", f"{style:<9}{heads}", *(row(style, stitches) for stitches in GAUGES)])
    return "\n".join(written) + "\n"


@pytest.mark.parametrize("style", STYLES)
def test_a_crown_has_the_lines_of_the_table(style: str) -> None:
    """Neither more nor fewer; the styles that are lined up have at most 1.3 lines for a round."""
    block = TABLE.read_text().split(f"\n{style} ")[1].split("\n\n")[0].rstrip()
    assert [row(style, stitches) for stitches in GAUGES] == block.split("\n")[1:]

    ratios = [float(cell.split()[-1]) for line in block.split("\n")[1:] for cell in line.split("|")]
    assert (max(ratios) > MOST) == (style in LONGER)


if __name__ == "__main__":
    TABLE.write_text(table())
