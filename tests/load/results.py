"""RESULTS.md: a section is replaced when it is measured again, and in the table of faults a row."""

from pathlib import Path

RESULTS = Path(__file__).with_name("RESULTS.md")
HEADING = "## Faults"
INTRODUCTION = """
Written by `python -m tests.load.faults`. A request has failed when its answer did not come or had another status than
the one due, and is wrong when the body is not what the same calculation gives without a socket, to the byte. p99 is
counted from the moment a request was due. Recovered is the end of the last second after the fault in which a
request failed or p99 was above five times the quiet one. Replicas are warm, as in the image. One that hangs is
noticed by the proxy after 2 s (`proxy_read_timeout`); those asked of it until then wait as long.
"""


def write_rows(rows: list[dict[str, str]], where: str) -> None:
    """Put rows into the table, each in the place of the one with the same fault and number of replicas."""
    text = RESULTS.read_text() if RESULTS.exists() else "# Results\n"
    before, _, section = text.partition(f"{HEADING}\n")
    section, found, after = section.partition("\n## ")
    known = {(row["Fault"].partition(":")[0], row["Replicas"]): row for row in _read(section)}
    for row in rows:
        known[row["Fault"].partition(":")[0], row["Replicas"]] = row
    columns = list(rows[0])
    lines = [_line(columns), _line(["---"] * len(columns))]
    lines += [_line([row.get(column, "") for column in columns]) for row in known.values()]
    table = "\n".join(lines)
    RESULTS.write_text(f"{before.rstrip()}\n\n{HEADING}\n{INTRODUCTION}\n{where}\n\n{table}\n{found}{after}")


def write_section(heading: str, written: str) -> None:
    """Put a section in the place of the one with the same heading, or at the end."""
    text = RESULTS.read_text() if RESULTS.exists() else "# Results\n"
    before, _, section = text.partition(f"## {heading}\n")
    _, found, after = section.partition("\n## ")
    RESULTS.write_text(f"{before.rstrip()}\n\n## {heading}\n\n{written.strip()}\n{found}{after}")


def _line(cells: list[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _read(section: str) -> list[dict[str, str]]:
    lines = [line.strip("| ").split(" | ") for line in section.splitlines() if line.startswith("|")]
    return [dict(zip(lines[0], cells, strict=False)) for cells in lines[2:]]
