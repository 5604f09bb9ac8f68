"""Sections of RESULTS.md: one is replaced when its figures are taken again."""

from collections.abc import Sequence
from pathlib import Path

RESULTS = Path(__file__).parents[1] / "load" / "RESULTS.md"


def record(heading: str, introduction: str, rows: Sequence[dict[str, str]]) -> None:
    """Put a table into the section of a heading, in place of what stands there."""
    text = RESULTS.read_text() if RESULTS.exists() else "# Results\n"
    before, _, rest = text.partition(f"\n## {heading}\n")
    _, found, after = rest.partition("\n## ")
    RESULTS.write_text(
        f"{before.rstrip()}\n\n## {heading}\n\n{introduction.strip()}\n\n{table(rows)}\n{found}{after}"
    )


def table(rows: Sequence[dict[str, str]]) -> str:
    """Rows as a table in Markdown."""
    lines = [list(rows[0]), ["---"] * len(rows[0]), *(list(row.values()) for row in rows)]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in lines)
